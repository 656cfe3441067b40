/* Reading a spreadsheet's CSV (RFC 4180, and what spreadsheets make of it) row by row. */
#ifndef BASKLEAF_RECORDS_ROSTER_CSV_H
#define BASKLEAF_RECORDS_ROSTER_CSV_H

#include "records/roster.h"

/* Opens it and reads its titles. NULL after errors. */
struct roster_csv *roster_csv_new(const char *path, struct arena *arena, struct diag *diag);
void roster_csv_free(struct roster_csv *csv);

/* Opens the file anew behind its titles. */
bool roster_csv_rewind(struct roster_csv *csv, struct diag *diag);

/* Cells and place of the next row that is not empty; `number` is the caller's. */
enum roster_step roster_csv_next(struct roster_csv *csv, struct arena *arena, struct diag *diag,
                                 struct roster_row *out);

#endif
