/* Draws operations into libharu pages, each mark inside its marked content. Inside the
 * pdf layer only. */
#ifndef BASKLEAF_PDF_PDF_DRAW_H
#define BASKLEAF_PDF_PDF_DRAW_H

#include "pdf/short_forms.h"
#include "pdf/structure.h"
#include "pdf/typefaces.h"

/* The graphics state that the page's content has reached, to say nothing twice. */
struct pdf_draw_state {
    HPDF_Font font;
    double size_pt;
    struct rgb fill, stroke;
    double stroke_pt;
    enum line_dash dash;
    bool round;
};

struct pdf_drawing {
    struct haru *haru;         /* borrowed */
    const struct paged *paged; /* borrowed */
    struct typefaces *faces;   /* borrowed */
    struct structure *structure;
    struct short_forms short_forms;
    HPDF_Image logo, photo; /* NULL until drawn */

    HPDF_Page page; /* the page being drawn */
    int page_index;
    int mark;             /* the open sequence: an element, or a kind of artifact; MARK_NONE */
    bool in_text;         /* between BT and ET */
    float line_x, line_y; /* where its line begins */
    struct pdf_draw_state state;
};

/* The largest logo: limits what a PDF can be blown up to, whatever handed the pixels over. */
enum { PLAYER_LOGO_SIDE_PX = 4096, PLAYER_LOGO_AREA_PX = 4 * 1024 * 1024 };

/* Draws one page's operations onto structure->pages[page_index]. Stops at the first error. */
void pdf_draw_page(struct pdf_drawing *drawing, int page_index);

#endif
