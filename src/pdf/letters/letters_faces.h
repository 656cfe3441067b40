/* The fonts of this machine behind the letters; inside the module alone. */
#ifndef BASKLEAF_PDF_LETTERS_LETTERS_FACES_H
#define BASKLEAF_PDF_LETTERS_LETTERS_FACES_H

#include <hb.h>

#include "pdf/letters.h"

enum { FACES_NONE = -2 };

struct face_file {
    hb_face_t *face; /* NULL: not there, or of no use */
    hb_font_t *font;
    const char *name, *seal;
    bool is_tried;
};

struct letters {
    letters_body *body_advance;
    const void *body;
    struct arena arena;
    struct face_file *files;
};

/* How many faces there may be; a face's number is below it. */
int faces_count(void);

/* Opens a face the first time that it is asked for; false where it is not there. */
bool faces_open(struct letters *letters, int face);
bool faces_has(struct letters *letters, int face, unsigned code_point);

/* Goes through the faces that may have the letter, the best first: pass -1 at first, then the last
 * answer. FACES_NONE at the end. */
int faces_next(struct letters *letters, enum text_style style, unsigned code_point, int last);

void faces_describe(struct letters *letters, int face, struct letter_face *out);
const char *faces_seal(struct letters *letters, int face);
int faces_width(struct letters *letters, int face, unsigned glyph);
bool faces_cut(struct letters *letters, int face, const struct letter_cut *wanted,
               struct arena *arena, struct bytes *out);
void faces_close(struct letters *letters);

/* Font units in thousandths of the size, rounded down as libharu does. */
int faces_thousandths(struct letters *letters, int face, int units);

#endif
