/* From a care plan to the bytes of its PDF. */
#ifndef BASKLEAF_RENDER_RENDER_H
#define BASKLEAF_RENDER_RENDER_H

#include "render/file_name.h"
#include "render/sheet_context.h"
#include "document/draw_ops.h"
#include "document/document.h"

struct phrase_context; /* words/phrase.h */

/* What the command line asks for beyond the visit; NULL: as the visit or the clinic has it. */
struct sheet_options {
    const char *language;
    const char *units;     /* a word of unit_system_choices */
    const char *paper;     /* a word of paper_choices */
    const char *kind;      /* of sheet; NULL: the plan's */
    bool live_links;       /* for a screen, whatever the kind */
    bool is_locked;        /* the PDF is going to have a password; see lock.h */
    struct said_log *said; /* see struct compose_inputs; may be NULL */
};

/* What one sheet is made from; all borrowed. */
struct sheet_inputs {
    struct sheet_context *context;
    const struct care_plan *plan;
    const struct sheet_options *options;
    const struct signature *signature; /* who speaks outside a document needs none */
};

/* The document of one sheet. A wish that is not known is a DIAG_USAGE. False after errors; *out
 * is then untouched. */
bool sheet_compose(const struct sheet_inputs *in, struct arena *arena, struct diag *diag,
                   struct document *out);

/* Its pages. When the sheet takes more than its kind's `pages`, what the kind lists under
 * `in-brief` is said in brief, if that helps, and tables go on in the next column. False after
 * errors. */
bool sheet_lay(const struct sheet_inputs *in, struct arena *arena, struct diag *diag,
               struct paged *out);

/* Its PDF. */
bool sheet_write(const struct sheet_inputs *in, struct arena *arena, struct diag *diag,
                 struct bytes *out);

/* Who speaks of this plan, for what is said outside a document (calendar, message). False after
 * errors; *out is then untouched. */
bool sheet_phrase_context(const struct sheet_inputs *in, struct arena *arena, struct diag *diag,
                          struct phrase_context *out);

#endif
