/* What the sheets of one run are set with: words, look and fonts, each read when
 * it is first needed and then kept. */
#ifndef BASKLEAF_RENDER_SHEET_CONTEXT_H
#define BASKLEAF_RENDER_SHEET_CONTEXT_H

#include "signing/signature.h"
#include "pdf/pdf.h"
#include "records/sheet_template.h"
#include "words/catalogue.h"

enum { SHEET_CONTEXT_LANGUAGES_MOST = 32 };

struct sheet_context {
    const struct resources *resources;
    struct arena arena; /* lives as long as the run */
    struct fonts *fonts;
    struct look_file *look;
    const struct logo *logo; /* NULL: the clinic has none */
    const struct wording *words[SHEET_CONTEXT_LANGUAGES_MOST];
    size_t language_count;
    bool has_desk_words; /* set it before the first sheet_context_words: the desk's own words too */
    const struct wording_stand_in *stand_in; /* likewise; NULL: none */
    bool has_digests;
    struct signature_digests digests; /* the parts that do not depend on the visit */
};

/* Opens the fonts and reads the look. False after errors; sheet_context_finish all the same. */
bool sheet_context_init(struct sheet_context *context, const struct resources *resources,
                        struct diag *diag);
void sheet_context_finish(struct sheet_context *context);

/* NULL after errors; `at` is where the language was asked for. */
const struct wording *sheet_context_words(struct sheet_context *context, const char *language,
                                          struct mark at, struct diag *diag);

/* drawable_check of a record's tree with the fonts of the run. */
bool sheet_context_can_draw(const struct sheet_context *context, const struct node *tree,
                            struct diag *diag);

/* The digests of what all sheets share; NULL after errors. */
const struct signature_digests *sheet_context_digests(struct sheet_context *context,
                                                      struct diag *diag);

/* Does the signature hold, by the digests kept here; see signature.h. */
bool sheet_context_signature(struct sheet_context *context, const struct visit_record *record,
                             const char *language, struct arena *arena, struct diag *diag,
                             struct signature *out);

#endif
