/* A clinic's logo from a PNG file, through libpng and never libharu's own reader. */
#ifndef BASKLEAF_LAYOUT_LOGO_FILE_H
#define BASKLEAF_LAYOUT_LOGO_FILE_H

#include "base/diag.h"
#include "base/file.h"
#include "document/document.h"

enum {
    LOGO_LIMIT_BYTES = 1024 * 1024,
    LOGO_LIMIT_SIDE_PX = 2000 /* at 200 dpi ten inches: more than any page shows */
};

/* Reads `path` to opaque RGB on white: 1 to 16 bits, grey, colour or palette, interlaced or not.
 * The pixels are the arena's. `at` is where the logo was named. False after a DIAG_ERROR (not a
 * PNG, damaged, over a limit, or this program was built without libpng); *out is then untouched. */
bool logo_file_read(const char *path, const char *alternative, struct mark at, struct arena *arena,
                    struct diag *diag, struct logo *out);

#endif
