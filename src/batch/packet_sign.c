/* Checking and signing a roster. */
#include <stdlib.h>

#include "batch/packet_rows.h"
#include "signing/sign.h"

/* What holds the signature of a CSV before there is one. */
static const char new_signature_file[] =
    "# What holds for all rows of the CSV beside this file, and who signed it.\n"
    "roster:\n"
    "  kind: adoption\n";

static bool check_rows(struct packet_rows *rows, struct packet_telling telling, struct diag *diag)
{
    struct arena arena;
    arena_init(&arena);
    struct roster_row row;
    while (roster_next(&rows->roster, &arena, diag, &row) == ROSTER_ROW) {
        const struct care_plan *plan = packet_rows_plan(rows, &row, &arena, diag);
        if (plan && telling.each_plan)
            telling.each_plan(telling.data, plan);
        arena_reset(&arena);
    }
    arena_finish(&arena);
    return !diag_failed(diag);
}

static bool write_signature(struct packet_rows *rows, const char *by, struct arena *arena,
                            struct diag *diag)
{
    const char *path = rows->roster.signature_file;
    const struct signing signing = {"roster", by, rows->options->today, &rows->digests};
    struct bytes text = {new_signature_file, sizeof new_signature_file - 1}, signed_text;
    if (file_exists(path) && !file_read(path, FILE_LIMIT_BYTES, arena, diag, &text))
        return false;
    return sign_text(path, text, &signing, arena, diag, &signed_text) &&
           sign_write(path, signed_text, diag);
}

bool packet_sign(const struct resources *resources, const struct packet_signing *signing,
                 struct arena *arena, struct diag *diag, const char **written)
{
    const struct packet_options options = {.roster = signing->roster, .today = signing->today};
    struct packet_rows rows;
    bool good = packet_rows_init(&rows, resources, &options, diag) &&
                clinic_may_sign(resources->clinic, diag);
    /* rows without a date of their own are of the day of signing */
    if (good && !rows.roster.head.date.known)
        rows.roster.head.signature.on = (struct date_value){.known = true, .date = signing->today};
    good = good && packet_rows_scan(&rows, true, diag) &&
           check_rows(&rows, signing->telling, diag) &&
           write_signature(&rows, signing->by, arena, diag);
    if (good)
        *written = arena_copy_text(arena, rows.roster.signature_file);
    packet_rows_finish(&rows);
    return good;
}

bool packet_check(const struct resources *resources, const char *path, struct date today,
                  struct packet_telling telling, struct diag *diag)
{
    const struct packet_options options = {.roster = path, .today = today};
    struct packet_rows rows;
    bool good = packet_rows_init(&rows, resources, &options, diag) &&
                packet_rows_scan(&rows, false, diag) && check_rows(&rows, telling, diag);
    packet_rows_finish(&rows);
    return good;
}
