/* Turns a finished libharu document into bytes. Inside the pdf layer only.
 *
 * libharu's own saving writes an identifier only when it encrypts, and then one that depends
 * on the clock; and it writes every object by itself with a line in a table, which for the tags
 * of a long sheet is half of the file. So objects are packed and header, cross-references and
 * identifier are done here. */
#ifndef BASKLEAF_PDF_PDF_SAVE_H
#define BASKLEAF_PDF_PDF_SAVE_H

#include "pdf/haru.h"
#include "base/file.h"

/* Fills *out with the file, in the arena; its identifier is a digest of its content.
 * False on failure; *out is then untouched. */
bool save_document(struct haru *haru, struct bytes *out);

#endif
