/* Built without libqpdf. */
#include "deliver/joined.h"

struct joined *joined_begin(const char *path, struct diag *diag)
{
    diag_report(diag, DIAG_FAULT, "built-without", (struct mark){.file = path},
                "this baskleaf was built without libqpdf and joins no sheets; install it and build "
                "again, or print the single files");
    return NULL;
}

bool joined_add(struct joined *joined, const char *sheet, struct diag *diag)
{
    (void)joined, (void)sheet, (void)diag;
    return false;
}

size_t joined_pages(const struct joined *joined)
{
    (void)joined;
    return 0;
}

bool joined_finish(struct joined *joined, struct diag *diag)
{
    (void)joined, (void)diag;
    return false;
}

void joined_abandon(struct joined *joined)
{
    (void)joined;
}
