/* A photo from a PNG or JPEG file, made fit to be shown: turned upright, small, and with nothing in
 * it but its pixels. */
#ifndef BASKLEAF_LAYOUT_PHOTO_FILE_H
#define BASKLEAF_LAYOUT_PHOTO_FILE_H

#include "base/diag.h"
#include "base/file.h"
#include "document/document.h"

enum {
    PHOTO_LIMIT_BYTES = 24 * 1024 * 1024,
    PHOTO_LIMIT_SIDE_PX = 20000,
    PHOTO_LIMIT_AREA_PX = 64 * 1024 * 1024, /* a camera of 64 megapixels */
    PHOTO_WHOLE_AREA_PX = 24 * 1024 * 1024, /* what has to be in memory as a whole */
    PHOTO_SCANS_MOST = 64,                  /* passes of a progressive JPEG */
    PHOTO_SIDE_PX = 480,                    /* as it is shown: 3.3 inches at 144 dots an inch */
    PHOTO_SHOWN_BYTES = 60 * 1024           /* at most, as it is shown */
};

/* Decodes the bytes (within the limits above), turns them by their orientation mark (Exif 2.3, tag
 * 0x0112), scales them down and writes them anew as a JPEG of three colours without any other
 * segment: no place, no date, no camera, no small copy of the whole. `name` is the file's and
 * stands in faults. False after a DIAG_ERROR at `at`: no PNG or JPEG, damaged or cut short,
 * printing colours (CMYK), moving, over a limit, or this program was built without the libraries;
 * *out is then untouched. */
bool photo_file_make(struct bytes file, const char *name, struct mark at, struct arena *arena,
                     struct diag *diag, struct photo *out);

#endif
