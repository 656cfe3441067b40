/* Built without libjpeg-turbo or libpng. */
#include "layout/photo_file.h"

bool photo_file_make(struct bytes file, const char *name, struct mark at, struct arena *arena,
                     struct diag *diag, struct photo *out)
{
    (void)file, (void)arena, (void)out;
    diag_report(diag, DIAG_ERROR, "bad-photo", at,
                "the photo '%s' cannot be shown: this program was built without libjpeg and "
                "libpng",
                name);
    return false;
}
