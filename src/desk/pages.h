/* The page's own files, put into the program when it is built (embed.c). */
#ifndef BASKLEAF_DESK_PAGES_H
#define BASKLEAF_DESK_PAGES_H

#include <stddef.h>

struct page_file {
    const char *path; /* "/desk.css" */
    const char *type; /* Content-Type */
    const char *data;
    size_t length;
};

/* NULL when there is no such file. */
const struct page_file *pages_find(const char *path);

#endif
