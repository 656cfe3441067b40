/* One sheet to the printer, through the print system's own `lp` (POSIX.1-2017, XCU lp). */
#ifndef BASKLEAF_DESK_PRINTER_H
#define BASKLEAF_DESK_PRINTER_H

#include "support/file.h"

/* Hands the PDF to `lp` on its standard input, under `title`, and waits at most PRINTER_SECONDS for
 * it to be taken. False after a DIAG_FAULT with what lp said. */
enum { PRINTER_SECONDS = 10 };

bool printer_send(struct bytes pdf, const char *title, struct arena *arena, struct diag *diag);

#endif
