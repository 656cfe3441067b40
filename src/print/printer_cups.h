/* What the two files that speak to CUPS share. */
#ifndef BASKLEAF_PRINT_PRINTER_CUPS_H
#define BASKLEAF_PRINT_PRINTER_CUPS_H

#include <cups/cups.h>

#include "print/printer.h"

struct printer {
    http_t *server;
    cups_dest_t *dest;
    cups_dinfo_t *about;
};

/* A line to the print system, for httpClose; NULL after a DIAG_FAULT. */
http_t *printer_connect(struct arena *arena, struct diag *diag);

#endif
