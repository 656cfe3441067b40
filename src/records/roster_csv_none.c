/* Built without libcsv: a CSV roster is an error that says so. */
#include "records/roster_csv.h"

struct roster_csv *roster_csv_new(const char *path, struct arena *arena, struct diag *diag)
{
    (void)arena;
    diag_report(
        diag, DIAG_ERROR, "no-csv", (struct mark){.file = path},
        "this program was built without libcsv and cannot read CSV; write the roster as YAML");
    return NULL;
}

void roster_csv_free(struct roster_csv *csv)
{
    (void)csv;
}

bool roster_csv_rewind(struct roster_csv *csv, struct diag *diag)
{
    (void)csv;
    (void)diag;
    return false;
}

enum roster_step roster_csv_next(struct roster_csv *csv, struct arena *arena, struct diag *diag,
                                 struct roster_row *out)
{
    (void)csv;
    (void)arena;
    (void)diag;
    (void)out;
    return ROSTER_BROKEN;
}
