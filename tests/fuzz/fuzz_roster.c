/* Bytes -> a spreadsheet's CSV -> rows -> visit records. The reader takes a file, so one is kept in
 * memory under a name of this process. */
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "fuzz/fuzz.h"
#include "records/roster.h"

#define ROWS_MOST 40

static char path[64];

static void remove_file(void)
{
    unlink(path);
}

static void write_file(struct bytes bytes)
{
    if (!*path) {
        snprintf(path, sizeof path, "/dev/shm/baskleaf-fuzz-%ld.csv", (long)getpid());
        atexit(remove_file);
    }
    int file = open(path, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
    fuzz_must(file >= 0 && write(file, bytes.data, bytes.length) == (ssize_t)bytes.length,
              "the file in memory can be written");
    close(file);
}

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
    write_file(bytes);
    struct roster roster;
    if (roster_open(&roster, path, diag)) {
        read_rows(&roster, arena, diag);
        fuzz_must(roster_rewind(&roster, diag), "what was opened can be read again");
    }
    roster_close(&roster);
}
