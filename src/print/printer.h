/* One sheet to a printer of the print system (CUPS), over the Internet Printing Protocol
 * (RFC 8010, RFC 8011) through libcups. Each request to the print system may take
 * PRINTER_SECONDS; nobody is asked for a password. */
#ifndef BASKLEAF_PRINT_PRINTER_H
#define BASKLEAF_PRINT_PRINTER_H

#include "base/file.h"

enum { PRINTER_SECONDS = 10, PRINTER_COPIES_MOST = 99 };

struct printer;

struct printer_job {
    struct bytes pdf;
    const char *title;
    const char *paper; /* a word of paper_choices */
    int copies;        /* 1 to PRINTER_COPIES_MOST */
};

/* A printer by its name; NULL: the default one. A name that is not known is a DIAG_ERROR that lists
 * those that are; a print system that does not answer, a DIAG_FAULT. NULL then; else
 * printer_free. */
struct printer *printer_find(const char *name, struct arena *arena, struct diag *diag);
void printer_free(struct printer *printer);

/* Borrowed from the printer. */
const char *printer_name(const struct printer *printer);

/* The paper that the printer takes when nobody says otherwise, as a word of paper_choices. NULL
 * when it is another or not known. */
const char *printer_paper(const struct printer *printer);

/* Hands the sheet over; on both sides where the printer can. True with the job's number when the
 * print system has all of it; a remark then says that a printer stands still. Else a DIAG_FAULT
 * says why, and what there is of the job is taken back. */
bool printer_print(struct printer *printer, const struct printer_job *job, struct arena *arena,
                   struct diag *diag, int *number);

/* What the print system has. */
struct printer_about {
    const char *name, *info; /* "Tray", "the tray in the front room" */
    const char *paper;       /* as printer_paper */
    bool is_default;
    const char *stopped; /* why it stands still; NULL when it goes */
};

/* How many printers there are; 0 with a DIAG_FAULT where no print system answers. */
size_t printer_list(struct arena *arena, struct diag *diag, struct printer_about **out);

enum printer_job_state {
    PRINTER_JOB_UNKNOWN, /* nobody answers, or the print system has forgotten it */
    PRINTER_JOB_WAITING, /* *why: what for, where the print system says so */
    PRINTER_JOB_PRINTING,
    PRINTER_JOB_STOPPED, /* *why */
    PRINTER_JOB_DONE,
    PRINTER_JOB_FAILED, /* canceled or aborted; *why */
};

/* Where a job stands (RFC 8011, 5.3.7 and 5.3.8). *why is the arena's, or NULL. */
enum printer_job_state printer_job_state(const char *printer, int number, struct arena *arena,
                                         const char **why);

#endif
