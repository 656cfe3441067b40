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

/* Fills *out with the file, in the arena. Of its identifier's two halves (ISO 32000-1, 14.4) the
 * second is a digest of its content; the first is `lasting`, 32 hexadecimal digits that stay the
 * same when the file is made anew, or the digest too when it is NULL. False on failure; *out is
 * then untouched. */
bool save_document(struct haru *haru, const char *lasting, struct bytes *out);

#endif
