/* Names of files out of names of animals and people, and the mark of the visit a file belongs to.
 */
#include "render/file_name.h"

#include <ctype.h>
#include <nettle/sha2.h>
#include <stdio.h>
#include <string.h>

enum { NAME_BYTES = 60, FIRST_ACCENTED = 0xC0, LAST_ACCENTED = 0x17F, RECORD_ID_BYTES = 16 };

/* U+00C0 to U+017F in lower case without their accents (the base letters of Unicode's canonical
 * decompositions; letters that have none as they are usually spelled out). A space: no letter. */
static const char *const plain_letters =
    "a a a a a a aec e e e e i i i i d n o o o o o   o u u u u y thss"
    "a a a a a a aec e e e e i i i i d n o o o o o   o u u u u y thy "
    "a a a a a a c c c c c c c c d d d d e e e e e e e e e e g g g g g g g g "
    "h h h h i i i i i i i i i i ijijj j k k k l l l l l l l l l l n n n n n n n ngng"
    "o o o o o o oeoer r r r r r s s s s s s s s t t t t t t u u u u u u u u u u u u "
    "w w y y y z z z z z z s ";

/* One character of UTF-8; bytes that are none count as no letter. */
static unsigned next_character(const char **at)
{
    const unsigned char *c = (const unsigned char *)*at;
    unsigned value = *c < 0x80 ? *c : (*c & 0xE0) == 0xC0 ? *c & 0x1Fu : 0;
    bool is_two = *c >= 0xC0 && *c < 0xE0 && (c[1] & 0xC0) == 0x80;
    if (is_two)
        value = value << 6 | (c[1] & 0x3Fu);
    *at += 1;
    while (((unsigned char)**at & 0xC0) == 0x80)
        *at += 1;
    return value;
}

/* The letters for a character, at most two; "" for none. */
static size_t letters_of(unsigned character, char out[2])
{
    if (character < 0x80 && isalnum((int)character)) {
        out[0] = (char)tolower((int)character);
        return 1;
    }
    if (character < FIRST_ACCENTED || character > LAST_ACCENTED)
        return 0;
    memcpy(out, plain_letters + (size_t)2 * (character - FIRST_ACCENTED), 2);
    return out[0] == ' ' ? 0 : out[1] == ' ' ? 1 : 2;
}

const char *file_name_part(const char *text, struct arena *arena)
{
    char name[NAME_BYTES + 2], letters[2];
    size_t length = 0;
    while (text && *text && length < NAME_BYTES) {
        size_t count = letters_of(next_character(&text), letters);
        if (count > 0)
            memcpy(name + length, letters, count);
        else if (length && name[length - 1] != '-')
            name[length] = '-', count = 1;
        length += count;
    }
    while (length && name[length - 1] == '-')
        length--;
    return arena_copy_bytes(arena, name, length);
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
        "baskleaf visit", plan->patient.name.text, plan->species.code, plan->keeper.name.text, day,
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
    for (size_t i = 0; i < sizeof digest; i++)
        snprintf(hex + 2 * i, 3, "%02x", digest[i]);
    return hex;
}
