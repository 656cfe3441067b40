/* Everything that a sheet prints and that tells the keeper to do or to watch. */
#ifndef BASKLEAF_RENDER_PRINTED_INSTRUCTIONS_H
#define BASKLEAF_RENDER_PRINTED_INSTRUCTIONS_H

#include "render/render.h"

/* By the letters on the pages of the sheet, in the order of the catalogue. False after errors: such
 * a sheet is not printed. */
bool printed_instructions(const struct sheet_inputs *in, struct arena *arena, struct diag *diag,
                          const struct instruction_plan **out, size_t *count);

#endif
