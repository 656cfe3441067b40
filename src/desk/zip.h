/* Files as one ZIP archive, stored as they are (PKWARE APPNOTE 6.3, sections 4.3.7, 4.3.12, 4.3.16;
 * CRC-32 of ISO 3309). Names are plain ASCII; every file has the same time, so that the same files
 * give the same bytes. At most 65535 files and 4 GB. */
#ifndef BASKLEAF_DESK_ZIP_H
#define BASKLEAF_DESK_ZIP_H

#include "base/file.h"
#include "base/strbuf.h"

struct zip_file {
    const char *name;
    struct bytes content;
};

void zip_write(const struct zip_file *files, size_t count, struct strbuf *out);

#endif
