/* The table of the clinic's keys, and reading its file. */
#include "records/clinic.h"

#include "records/mail_address.h"
#include <string.h>

#include "records/table.h"

const struct choice paper_choices[] = {
    {"a4", CLINIC_PAPER_A4, NULL}, {"letter", CLINIC_PAPER_LETTER, NULL}, {0}};

static const struct field clinic_fields[] = {
    ROW(TEXT, clinic, name, "name", .required = true, .help = "the clinic's name",
        .example = "Fernhollow Animal Clinic"),
    ROW(TEXTS, clinic, address, "address", .most = 6, .help = "lines of the address"),
    ROW(TEXT, clinic, telephone, "telephone", .required = true,
        .help = "telephone in opening hours", .example = "555-0142"),
    ROW(TEXT, clinic, out_of_hours, "out-of-hours", .required = true,
        .help = "telephone at night and on holidays", .example = "555-0199"),
    ROW(NAMED, clinic, hours, "hours", .schema = &written_hours_schema, .most = OPENING_DAYS,
        .help = "opening hours; a day that is not named is closed",
        .example = "{mon-fri: \"8:00-18:00\", sat: \"9:00-13:00\"}"),
    ROW(RECORDS, clinic, holidays, "holidays", .schema = &written_holiday_schema, .most = 200,
        .help = "days on which the clinic is closed all the same",
        .example = "[2026-12-25, {from: 2026-12-31, to: 2027-01-02}]"),
    ROW(TEXT, clinic, email, "email", .help = "mail address", .example = "desk@example.org"),
    ROW(TEXT, clinic, web, "web", .help = "web address", .example = "https://example.org"),
    ROW(TEXT, clinic, language, "language", .required = true,
        .help = "language of a sheet when the visit does not say", .example = "en"),
    ROW(CHOICE, clinic, units, "units", .choices = unit_system_choices, .required = true,
        .help = "units when the visit does not say", .example = "metric"),
    ROW(CHOICE, clinic, paper, "paper", .choices = paper_choices, .required = true, .help = "paper",
        .example = "a4"),
    ROW(TEXT, clinic, logo, "logo", .help = "a PNG file beside this file", .example = "logo.png"),
    ROW(FLAG, clinic, invented, "invented",
        .help = "an example's details: nothing is signed with them"),
};

const struct schema clinic_schema =
    SCHEMA(clinic, clinic_fields, "clinic file", "The clinic's own details.");

/* Free lines are read as well: they are printed as they stand, and tell no closed day. */
static bool bind_clinic(const struct node *tree, struct arena *arena, struct diag *diag,
                        struct clinic *clinic)
{
    static const struct field text_hours = ROW(TEXTS, clinic, hours_text, "hours", .most = 8);
    struct field fields[sizeof clinic_fields / sizeof *clinic_fields];
    struct schema schema = clinic_schema;
    const struct node *hours = tree_find(tree, "hours");
    schema.fields = fields;
    for (size_t i = 0; i < schema.field_count; i++)
        fields[i] = hours && hours->kind != NODE_MAP && strcmp(clinic_fields[i].key, "hours") == 0
                        ? text_hours
                        : clinic_fields[i];
    return bind_record(tree, &schema, "", arena, diag, clinic) &&
           opening_make(&clinic->hours, &clinic->holidays, arena, diag, &clinic->opening);
}

/* Three digits at least, as 112 has: "none" or the name of a street would be printed as what to
 * call. */
static bool check_telephone(const struct text_value *number, const char *path, struct diag *diag)
{
    enum { DIGITS_LEAST = 3 };
    int digits = 0;
    for (const char *c = number->text ? number->text : ""; *c; c++)
        digits += *c >= '0' && *c <= '9';
    if (digits >= DIGITS_LEAST)
        return true;
    diag_report_path(diag, DIAG_ERROR, "not-a-telephone", number->at, path,
                     "has no number to dial; write it as a keeper dials it, such as 555-0142");
    return false;
}

static struct clinic *read_tree(const char *path, const struct node *tree, struct arena *arena,
                                struct diag *diag)
{
    struct clinic *clinic = ARENA_NEW(arena, struct clinic);
    clinic->file = arena_copy_text(arena, path);
    if (!tree || !bind_clinic(tree, arena, diag, clinic))
        return NULL;
    bool good = check_telephone(&clinic->telephone, "telephone", diag);
    good = check_telephone(&clinic->out_of_hours, "out-of-hours", diag) && good;
    if (!clinic->email.text || mail_address_is_one(clinic->email.text))
        return good ? clinic : NULL;
    diag_report_path(diag, DIAG_ERROR, "not-an-address", clinic->email.at, "email",
                     "is not one plain mail address such as desk@example.org");
    return NULL;
}

struct clinic *clinic_read(const char *path, struct arena *arena, struct diag *diag)
{
    return read_tree(path, tree_read_file(path, arena, diag), arena, diag);
}

struct clinic *clinic_read_bytes(const char *path, struct bytes text, struct arena *arena,
                                 struct diag *diag)
{
    return read_tree(path, tree_read_bytes(path, text, arena, diag), arena, diag);
}

bool clinic_may_sign(const struct clinic *clinic, struct diag *diag)
{
    if (!clinic->invented.value)
        return true;
    diag_report_path(diag, DIAG_ERROR, "invented-clinic", clinic->invented.at, "invented",
                     "this clinic and its telephone numbers are invented, and a signed sheet would "
                     "send a keeper to them; 'baskleaf clinic' asks for yours");
    return false;
}

const char *clinic_logo_path(const struct clinic *clinic, struct arena *arena)
{
    const char *logo = clinic->logo.text;
    const char *slash = strrchr(clinic->file, '/');
    if (!logo || !*logo)
        return NULL;
    if (*logo == '/' || !slash)
        return logo;
    return arena_format(arena, "%.*s/%s", (int)(slash - clinic->file), clinic->file, logo);
}
