/* A sheet composed and laid out to see whether its pages take it. */
#ifndef BASKLEAF_RENDER_TRIALS_H
#define BASKLEAF_RENDER_TRIALS_H

#include "layout/layout.h"
#include "layout/measured_text.h"
#include "render/render.h"
#include "sheet/compose.h"

/* What a sheet gives up to save pages. */
struct savings {
    size_t steps;        /* rows of page one at most */
    size_t brief;        /* see struct compose_inputs */
    bool wide, to_edges; /* likewise */
    double inset_pt;     /* likewise */
    size_t whys;         /* likewise */
    enum message_says message;
    bool message_is_small;        /* likewise */
    enum medicines_say medicines; /* likewise */
    enum lines_begun lines;       /* likewise */
    enum cuts_shown cuts;         /* likewise */
    bool says_key, says_known;
    enum closeness closeness;
    enum closeness opened[SECTION_COUNT]; /* likewise */
    bool without_normal;                  /* likewise */
    unsigned moves_up;                    /* likewise */
    bool first_page;                      /* likewise */
    bool is_trial;                        /* likewise */
    struct kept_sections *kept;           /* likewise */
};

enum { STEPS_MOST = 3 };

/* One sheet on its way to pages, however often it is tried. */
struct laying {
    const struct sheet_inputs *in;
    const struct sheet_template *sheet;
    struct text_store *texts;
    struct arena *trials;       /* what was only tried out; forgotten before the next trial */
    struct kept_sections *kept; /* of the trials */
    bool is_panels;             /* alone: running text is explained in its blocks once written */
    struct diag *diag;
};

/* NULL after errors. */
const struct sheet_template *trial_kind(const struct sheet_inputs *in, struct diag *diag);
bool trial_compose(const struct sheet_inputs *in, const struct savings *savings,
                   struct arena *arena, struct diag *diag, struct document *out);
/* The pages themselves, for good. */
bool trial_lay(const struct laying *l, const struct savings *savings, struct paged *out);
/* How many of those pages take all that stands on them. False after errors, like the next two. */
bool trial_from(const struct laying *l, const struct savings *savings, struct pages_asked asked,
                size_t *taken, bool *fits);
/* Whether pages that are filled take it all. */
bool trial_out(const struct laying *l, const struct savings *savings, bool *fits);
/* Likewise, with so many further ones. */
bool trial_further(const struct laying *l, const struct savings *savings, size_t further,
                   bool *fits);

#endif
