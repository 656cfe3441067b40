/* The photo that a record names: its bytes for the signature, and what is shown of it. */
#ifndef BASKLEAF_CONTEXT_PHOTO_H
#define BASKLEAF_CONTEXT_PHOTO_H

#include "base/file.h"
#include "context/resources.h"

/* True, with nothing set, where none is named. False after an error at the place that names it: the
 * file is not there, lies outside a folder of records, or cannot be shown (layout/photo_file.h). */
bool photo_read(const struct resources *resources, const struct visit *visit, struct arena *arena,
                struct diag *diag, struct bytes *file, struct photo_plan *out);

#endif
