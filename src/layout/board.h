/* Drawing by hand into one fragment: what every panel is made with. x is the page's, y the
 * fragment's own; a text's y is its baseline. Inside the layout only.
 */
#ifndef BASKLEAF_LAYOUT_BOARD_H
#define BASKLEAF_LAYOUT_BOARD_H

#include "document/pictogram.h"
#include "layout/block_setters.h"

struct board {
    struct composer *composer;
    struct fragment *fragment;
    double left_pt, width_pt;
};

/* How a text is written and to which element it belongs. */
struct lettering {
    int element;
    double indent_pt; /* of the first line */
    double size_pt;
    bool strong;
    bool is_paper; /* white, on a solid ground */
    enum anchor align;
};

/* A fragment of this height over the place's width. */
struct board board_add(struct composer *composer, struct place *place, double height_pt);

/* ---- text ---- */

double board_width_pt(const struct composer *composer, const struct lettering *pen,
                      const char *text);
/* Returns the width. NULL and "" draw nothing. */
double board_text(const struct board *board, const struct lettering *pen, double x, double y,
                  const char *text);
struct text_lines board_break(const struct composer *composer, const struct lettering *pen,
                              const char *text, double width_pt);
struct text_lines board_break_spans(const struct composer *composer, const struct lettering *pen,
                                    const struct span *spans, double width_pt);
/* Where lines stand: the first baseline, the width in which they are aligned, and how far apart. */
struct text_place {
    double x, y, width_pt, leading_pt;
};

/* Returns the baseline of the line that would come next. */
double board_lines(const struct board *board, const struct lettering *pen,
                   const struct text_lines *lines, struct text_place at);
/* A text with a link over it; the pen's element is its parent. */
double board_link(const struct board *board, const struct lettering *pen, double x, double y,
                  const char *text, const char *uri);

/* ---- shapes; all artifacts unless an element is named ---- */

void board_rule(const struct board *board, double x1, double y1, double x2, double y2,
                double stroke_pt);
void board_frame(const struct board *board, double x, double y, double width, double height,
                 double stroke_pt);

/* A box to tick: its corner, its sides and the thickness of its line. */
struct tick_place {
    double x, y, width_pt, height_pt, stroke_pt;
};
/* A Span that is read as so many boxes to tick, which are then drawn with board_tick_box. */
int board_tick_boxes(const struct board *board, int parent, size_t count);
void board_tick_box(const struct board *board, int element, struct tick_place at);
/* A label that is a box to tick before what else it is read as; NULL: nothing else. */
void board_tick_label(const struct board *board, int label, struct tick_place at, const char *said);
/* Where scissors go, and where it is folded. */
void board_cut(const struct board *board, double x, double y, double width, double height);
void board_fold(const struct board *board, double x1, double y1, double x2, double y2);
void board_solid(const struct board *board, double x, double y, double width, double height);
void board_disc(const struct board *board, int element, double x, double y, double radius,
                bool is_paper);
void board_ring(const struct board *board, int element, double x, double y, double radius,
                double stroke_pt);

/* ---- signs (pictogram_paths.c) ---- */

/* Where a pictogram stands and to which element it belongs. */
struct pictogram_place {
    int element;
    double x, y, size_pt;
    bool on_solid;    /* white on a solid ground */
    bool is_mirrored; /* an outline that looks the other way */
};

/* A pictogram of this width, its upper left corner at x, y. NULL draws nothing. */
void board_pictogram(const struct board *board, const struct pictogram *pictogram,
                     struct pictogram_place at);

/* An outline of this length whose feet stand on y. */
void board_outline(const struct board *board, const struct pictogram *pictogram,
                   struct pictogram_place at);

/* A number or letter on its disc or in its ring, at its middle; radius 8. */
void board_mark(const struct board *board, int element, const char *mark, bool is_solid, double x,
                double y);
/* The same within a line of text, radius 6. */
void board_small_mark(const struct board *board, int element, const char *mark, bool is_solid,
                      double x, double y);

/* An arrow or a tick of this size that is said as `said`, below the element of its place. */
void board_turn(const struct board *board, int turn, const char *said, struct pictogram_place at);

/* ---- structure ---- */

int board_element(const struct board *board, enum element_type type, int parent);
/* A section's heading: a new Sect under the place and an H2 in it, which is returned. */
int board_section(struct composer *composer, struct place *place, const char *title);

#endif
