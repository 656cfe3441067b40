/* Built without libqpdf. */
#include "pdftools/pdf_merge.h"

struct pdf_merge *pdf_merge_begin(const char *path, struct diag *diag)
{
    diag_report(diag, DIAG_FAULT, "built-without", (struct mark){.file = path},
                "this baskleaf was built without libqpdf and joins no sheets; install it and build "
                "again, or print the single files");
    return NULL;
}

bool pdf_merge_add(struct pdf_merge *merge, const char *sheet, struct diag *diag)
{
    (void)merge, (void)sheet, (void)diag;
    return false;
}

size_t pdf_merge_pages(const struct pdf_merge *merge)
{
    (void)merge;
    return 0;
}

bool pdf_merge_finish(struct pdf_merge *merge, struct diag *diag)
{
    (void)merge, (void)diag;
    return false;
}

void pdf_merge_abandon(struct pdf_merge *merge)
{
    (void)merge;
}
