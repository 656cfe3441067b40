/* Names of files out of names of animals and people, and the mark of the visit a file belongs to.
 */
#include "render/file_name.h"

#include <nettle/sha2.h>
#include <string.h>

#include "base/fold.h"
#include "base/hex.h"

enum { NAME_BYTES = 60, RECORD_ID_BYTES = 16 };

const char *file_name_part(const char *text, struct arena *arena)
{
    return fold_slug(text ? text : "", NAME_BYTES, arena);
}

/* The record's own name without its folders and ending; "" for standard input. */
static const char *record_part(const char *file, struct arena *arena)
{
    const char *slash = strrchr(file, '/');
    const char *name = slash ? slash + 1 : file, *dot = strrchr(name, '.');
    if (*name == '<' || strcmp(name, "-") == 0)
        return "";
    return file_name_part(arena_copy_bytes(arena, name, dot ? (size_t)(dot - name) : strlen(name)),
                          arena);
}

const char *sheet_name_with(const struct care_plan *plan, const char *ending, struct arena *arena)
{
    const char *animal = file_name_part(plan->patient.name.text, arena);
    const char *keeper = file_name_part(plan->keeper.name.text, arena);
    char day[16];
    date_write_iso(plan->on, day);
    if (!*animal)
        animal = "animal";
    if (!*keeper)
        keeper = record_part(plan->patient.name.at.file, arena);
    return arena_format(arena, "%s%s%s-%s.%s", animal, *keeper ? "-" : "", keeper, day, ending);
}

const char *sheet_file_name(const struct care_plan *plan, struct arena *arena)
{
    return sheet_name_with(plan, "pdf", arena);
}

const char *sheet_record_id(const struct care_plan *plan, struct arena *arena)
{
    char day[16];
    date_write_iso(plan->on, day);
    const char *const parts[] = {
        "baskleaf visit", plan->patient.name.text, plan->taxon.code, plan->keeper.name.text, day,
        plan->kind};
    struct sha256_ctx sha;
    uint8_t digest[RECORD_ID_BYTES];
    sha256_init(&sha);
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        const char *part = parts[i] ? parts[i] : "";
        sha256_update(&sha, strlen(part) + 1, (const uint8_t *)part);
    }
    sha256_digest(&sha, sizeof digest, digest);
    char *hex = arena_take(arena, 2 * sizeof digest + 1);
    hex_write(hex, digest, sizeof digest, HEX_SMALL);
    return hex;
}
