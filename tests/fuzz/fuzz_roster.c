/* Bytes -> a spreadsheet's CSV -> rows -> visit records. The reader takes a file, so it gets one.
 */
#include "fuzz/fuzz.h"
#include "records/roster.h"

#define ROWS_MOST 40

static void read_rows(struct roster *roster, struct arena *arena, struct diag *diag)
{
    for (size_t i = 0; i < ROWS_MOST; i++) {
        struct roster_row row = {0};
        if (roster_next(roster, arena, diag, &row) != ROSTER_ROW)
            return;
        fuzz_must(row.number == i + 1, "rows are counted");
        if (!row.is_good)
            continue;
        const struct node *tree =
            roster_row_tree(roster, &row, (struct date){2026, 3, 20}, arena, diag);
        if (tree)
            visit_read_tree(tree, "roster.csv", (struct date){2026, 3, 20}, arena, diag);
    }
}

void fuzz_one(struct bytes bytes, struct arena *arena, struct diag *diag)
{
    const char *path = fuzz_file(bytes);
    struct roster roster;
    if (roster_open(&roster, path, diag)) {
        read_rows(&roster, arena, diag);
        fuzz_must(roster_rewind(&roster, diag), "what was opened can be read again");
    }
    roster_close(&roster);
}
