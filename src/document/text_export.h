/* A document as plain UTF-8 text, for the body of a message. */
#ifndef BASKLEAF_DOCUMENT_TEXT_EXPORT_H
#define BASKLEAF_DOCUMENT_TEXT_EXPORT_H

#include "base/strbuf.h"
#include "document/document.h"

enum { TEXT_EXPORT_COLUMNS = 72 };

/* Appends title and blocks in reading order: headings underlined, bullets with "- ", numbers, tick
 * boxes as "[ ]", a table row by row as "head: cell", pictures as their alternative. Lines are at
 * most TEXT_EXPORT_COLUMNS characters (code points) unless one word is longer; they end in "\n"
 * alone. The draft mark stands first where there is one. Everything that the document says is
 * there. It is flowed text (RFC 3676, DelSp=no): a line that ends in a space goes on in the next,
 * so that a narrow screen sets it anew. */
void text_export(const struct document *document, struct strbuf *out);

/* The same without heads and marks, as running text: what readability is measured on. Only blocks
 * whose section is `section` (NULL: all). List items and cells end in a full stop. */
void text_export_sentences(const struct document *document, const char *section,
                           struct strbuf *out);

#endif
