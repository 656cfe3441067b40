/* In which language the record's free texts are written. */
#ifndef BASKLEAF_SHEET_FREE_TEXTS_H
#define BASKLEAF_SHEET_FREE_TEXTS_H

#include "care/plan.h"
#include "document/document.h"

/* Sets the document's foreign texts; none where the record does not say its language, or says the
 * sheet's. */
void free_texts_set(const struct care_plan *plan, struct document *document, struct arena *arena);

/* A sheet that is printed in another language than the record's own words are written in shows them
 * as they are: the first of them, a medicine's directions before all else, or NULL. */
const char *free_text_elsewhere(const struct care_plan *plan, const char *printed_in,
                                const char **written_in);

#endif
