/* A password for a PDF: AES with 256-bit keys (ISO 32000-2, 7.6.4, revision 6) through libqpdf.
 *
 * Whoever has the password may do everything with the sheet, so that a screen reader may read it
 * (ISO 14289-1, 7.16). PDF/A forbids encryption (ISO 19005-2, 6.1.3): the sheet must not claim it;
 * see document.h. Keys and salts are drawn at random: no two runs give the same bytes. */
#ifndef BASKLEAF_PDFTOOLS_PDF_ENCRYPT_H
#define BASKLEAF_PDFTOOLS_PDF_ENCRYPT_H

#include "base/file.h"

/* The least that a chosen password should have (NIST SP 800-63B, 5.1.1.2), the most that the format
 * takes (ISO 32000-2, 7.6.4.1). */
enum { LOCK_PASSWORD_LEAST = 8, LOCK_PASSWORD_MOST = 127 };

/* The one line of a file that nobody but its owner may read; NULL after a DIAG_ERROR, in which the
 * password does not stand. Letters with accents are refused: readers do not agree on their bytes.
 */
const char *password_file_read(const char *path, struct arena *arena, struct diag *diag);

/* The same PDF encrypted. False after a DIAG_FAULT; *out is then untouched. */
bool pdf_encrypt(struct bytes pdf, const char *password, struct arena *arena, struct diag *diag,
                 struct bytes *out);

#endif
