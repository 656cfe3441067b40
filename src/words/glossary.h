/* Words that an owner may not know are explained once, where they first stand.
 *
 * The catalogue's keys term.<code>.word (a text, or a list of the forms it takes) and
 * term.<code>.means (one sentence) are the list. In reading order the first paragraph, list item or
 * table row that holds the word gets the sentence behind it. Headings and pictures are passed over.
 */
#ifndef BASKLEAF_WORDS_GLOSSARY_H
#define BASKLEAF_WORDS_GLOSSARY_H

#include "document/document.h"
#include "words/phrase.h"

/* `panels_are_explained`: the sheet says the meanings of the words in its panels, so that these are
 * passed over. */
void glossary_explain(const struct phrase_context *ctx, struct block *blocks,
                      bool panels_are_explained);

/* For a sheet of panels, whose rows have no room: the meanings of the words that stand in them, one
 * behind the other. NULL when there are none. */
const char *glossary_of_panels(const struct phrase_context *ctx, const struct block *blocks);

#endif
