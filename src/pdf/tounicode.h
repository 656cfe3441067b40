/* The CMaps that lead from a font's codes back to Unicode (ISO 32000-1, 9.10.3), so that
 * text can be read aloud, searched and copied. libharu writes none for single-byte fonts
 * and an invalid one for the others. */
#ifndef BASKLEAF_PDF_TOUNICODE_H
#define BASKLEAF_PDF_TOUNICODE_H

#include <stddef.h>
#include <stdint.h>

#include "pdf/codepages.h"
#include "base/strbuf.h"

/* For a single-byte font: used[code] != 0 where the code is drawn. */
void tounicode_single_byte(enum codepage page, const uint8_t used[256], struct strbuf *out);

/* For a two-byte font whose codes are code points: bit n of `used` (65,536 bits) is set where
 * U+n is drawn. */
void tounicode_two_byte(const uint8_t *used, struct strbuf *out);

#endif
