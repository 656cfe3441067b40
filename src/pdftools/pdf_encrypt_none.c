/* Built without libqpdf. */
#include "pdftools/pdf_encrypt.h"

bool pdf_encrypt(struct bytes pdf, const char *password, struct arena *arena, struct diag *diag,
                 struct bytes *out)
{
    (void)pdf, (void)password, (void)arena, (void)out;
    diag_report(diag, DIAG_FAULT, "built-without", (struct mark){0},
                "this baskleaf was built without libqpdf and gives no passwords; install it and "
                "build again");
    return false;
}
