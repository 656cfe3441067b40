/* What the sheets of one run are set with: words, kinds of sheet, look and fonts, each read when
 * it is first needed and then kept. */
#ifndef BASKLEAF_DELIVER_PRESS_H
#define BASKLEAF_DELIVER_PRESS_H

#include "deliver/approval.h"
#include "page/pdf.h"
#include "records/sheet_template.h"
#include "wording/catalogue.h"

enum { PRESS_LANGUAGES_MOST = 32 };

struct press {
    const struct resources *resources;
    struct arena arena; /* lives as long as the press */
    struct fonts *fonts;
    struct look_file *look;
    const struct logo *logo; /* NULL: the clinic has none */
    struct sheet_template *kinds[SHEET_KIND_COUNT];
    const struct wording *words[PRESS_LANGUAGES_MOST];
    size_t language_count;
    bool has_desk_words; /* set it before the first press_words: the desk's own words too */
    bool has_digests;
    struct approval_digests digests; /* the parts that do not depend on the visit */
};

/* Opens the fonts and reads the look. False after errors; press_finish all the same. */
bool press_init(struct press *press, const struct resources *resources, struct diag *diag);
void press_finish(struct press *press);

/* NULL after errors; `at` is where the language was asked for. */
const struct wording *press_words(struct press *press, const char *language, struct mark at,
                                  struct diag *diag);
const struct sheet_template *press_kind(struct press *press, int kind, struct diag *diag);

/* The digests of what all sheets share; NULL after errors. */
const struct approval_digests *press_digests(struct press *press, struct diag *diag);

/* approval_read with the press's digests; see approval.h. */
bool press_approval(struct press *press, const struct care_plan *plan, struct arena *arena,
                    struct diag *diag, struct approval *out);

#endif
