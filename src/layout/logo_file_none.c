/* Built without libpng. */
#include "layout/logo_file.h"

bool logo_file_read(const char *path, const char *alternative, struct mark at, struct arena *arena,
                    struct diag *diag, struct logo *out)
{
    (void)alternative, (void)arena, (void)out;
    diag_report(diag, DIAG_ERROR, "bad-logo", at,
                "the logo '%s' cannot be shown: this program was built without libpng", path);
    return false;
}
