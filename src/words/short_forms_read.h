/* The short forms of a language, with what a voice shall say for each.
 *
 * The catalogue's keys short.<code>.form and short.<code>.means are the list; a unit has
 * short.<code>.one besides, for one of it. Months and weekdays have theirs among their names. */
#ifndef BASKLEAF_WORDS_SHORT_FORMS_READ_H
#define BASKLEAF_WORDS_SHORT_FORMS_READ_H

#include "document/document.h"
#include "words/phrase.h"

/* Sets the document's short forms; they belong to the context's arena. */
void short_forms_set(const struct phrase_context *ctx, struct document *document);

#endif
