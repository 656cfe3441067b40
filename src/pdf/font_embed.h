/* Font programs and their descriptors in a document. Inside the pdf layer only.
 *
 * libharu embeds a font itself only where its definition has no descriptor yet. Its own way
 * would cut and deflate each font anew for every document, and leaves CapHeight out of
 * two-byte fonts. */
#ifndef BASKLEAF_PDF_FONT_EMBED_H
#define BASKLEAF_PDF_FONT_EMBED_H

#include "pdf/fonts.h"
#include "pdf/haru.h"

/* Embeds a cut as it lies in memory. `definition` is the document's own copy. */
void embed_cut(struct haru *haru, const struct font_cut *cut, HPDF_FontDef definition);

/* Embeds, with libharu's own subsetting, the glyphs of a whole font that were drawn. */
void embed_used_glyphs(struct haru *haru, HPDF_FontDef definition);

#endif
