/* Words that an owner may not know are explained once, where they first stand.
 *
 * The catalogue's keys term.<code>.word (a text, or a list of the forms it takes) and
 * term.<code>.means (one sentence) are the list. In reading order the first paragraph, list item or
 * table row that holds the word gets the sentence behind it. Headings and pictures are passed over.
 */
#ifndef BASKLEAF_WORDING_GLOSSARY_H
#define BASKLEAF_WORDING_GLOSSARY_H

#include "wording/document.h"
#include "wording/say.h"

void glossary_explain(const struct speech *speech, struct block *blocks);

#endif
