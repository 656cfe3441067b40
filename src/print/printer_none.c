/* Built without libcups. */
#include "print/printer.h"

struct printer *printer_find(const char *name, struct arena *arena, struct diag *diag)
{
    (void)name, (void)arena;
    diag_report(diag, DIAG_FAULT, "built-without", (struct mark){0},
                "this baskleaf was built without libcups and cannot print; install it and build "
                "again, or print the file");
    return NULL;
}

void printer_free(struct printer *printer)
{
    (void)printer;
}

/* Nobody holds a printer to ask these of. */
const char *printer_name(const struct printer *printer)
{
    (void)printer;
    return "";
}

const char *printer_paper(const struct printer *printer)
{
    (void)printer;
    return NULL;
}

bool printer_print(struct printer *printer, const struct printer_job *job, struct arena *arena,
                   struct diag *diag, int *number)
{
    (void)printer, (void)job, (void)arena, (void)diag, (void)number;
    return false;
}

size_t printer_list(struct arena *arena, struct diag *diag, struct printer_about **out)
{
    *out = NULL;
    printer_find(NULL, arena, diag);
    return 0;
}

enum printer_job_state printer_job_state(const char *printer, int number, struct arena *arena,
                                         const char **why)
{
    (void)printer, (void)number, (void)arena;
    *why = NULL;
    return PRINTER_JOB_UNKNOWN;
}
