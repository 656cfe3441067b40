/* The columns of a roster, and which of them a title means. */
#include "records/roster.h"

#include <string.h>

#include "base/fold.h"
#include "base/nearest.h"

const struct roster_column_about roster_columns[ROSTER_COLUMN_COUNT] = {
    [ROSTER_ID] = {"id", NULL, NULL, "the shelter's number; names the file", NULL},
    [ROSTER_NAME] = {"name", "patient", "name", "the animal's name", NULL},
    [ROSTER_SPECIES] = {"species", "patient", "species", "code or name of a species sheet", NULL},
    [ROSTER_SEX] = {"sex", "patient", "sex", "female, male or unknown", NULL},
    [ROSTER_HATCHED] = {"hatched", "patient", "hatched", "2024-05-01, 2024-05 or 2024", NULL},
    [ROSTER_AGE] = {"age", NULL, NULL, "instead of hatched: 8 months", NULL},
    [ROSTER_MASS] = {"mass", "patient", "mass", "52 g", NULL},
    [ROSTER_LENGTH] = {"length", "patient", "length", "20 cm", NULL},
    [ROSTER_ADOPTER] = {"adopter", "keeper", "name", "who takes it home", NULL},
    [ROSTER_EMAIL] = {"email", "keeper", "email", "for mail", NULL},
    [ROSTER_LANGUAGE] = {"language", "keeper", "language", "of the sheet: en", NULL},
    [ROSTER_UNITS] = {"units", "keeper", "units", "metric or us", NULL},
    [ROSTER_DATE] = {"date", "visit", "date", "of the examination", NULL},
    [ROSTER_KIND] = {"kind", "visit", "kind", "kind of sheet; adoption when left out", NULL},
    [ROSTER_VETERINARIAN] = {"veterinarian", "visit", "veterinarian", "who examined", NULL},
    [ROSTER_FINDINGS] = {"findings", NULL, NULL, "codes, each with :severity where known", NULL},
    [ROSTER_RECHECK] = {"recheck", "follow-up", "recheck", "time to the next visit: 2 weeks", NULL},
    [ROSTER_NOTES] = {"notes", NULL, "message", "a paragraph, printed as written", NULL},
    [ROSTER_ENCLOSURE] = {"enclosure", NULL, "enclosure", "as in a visit record; YAML alone", NULL},
    [ROSTER_DIET] = {"diet", NULL, "diet", "as in a visit record; YAML alone", NULL},
#define IN_READINGS(name_, id_, ...)                                                               \
    [ROSTER_READ_##name_] = {id_, "enclosure", id_, "a reading", "readings"},
#define IN_WATER(name_, id_, ...)                                                                  \
    [ROSTER_READ_##name_] = {id_, "water", id_, "a test of the water", NULL},
    PLACE_MEASURES(IN_READINGS) AIR_MEASURES(IN_READINGS) KIT_MEASURES(IN_WATER)
        DEPTH_MEASURES(IN_WATER)
#undef IN_READINGS
#undef IN_WATER
};

/* "E-Mail " and "e_mail" are email; "Adopter name" is adopter. */
static const char *other_title(const char *title)
{
    static const struct {
        const char *title, *column;
    } others[] = {
        {"e-mail", "email"},
        {"adopter-name", "adopter"},
        {"adopter-email", "email"},
        {"adopter-e-mail", "email"},
        {"animal", "name"},
        {"weight", "mass"},
        {"units-of-measure", "units"},
        {"adopter-language", "language"},
        {"hatch-date", "hatched"},
        {"adopter-units", "units"},
    };
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        if (strcmp(title, others[i].title) == 0)
            return others[i].column;
    return title;
}

int roster_find_column(const char *title, struct mark at, struct arena *arena, struct diag *diag,
                       const char **unit)
{
    *unit = NULL;
    if (title[strspn(title, " ")] == '#')
        return -2;
    char *text = arena_copy_text(arena, title);
    char *open = strchr(text, '('), *close = open ? strchr(open, ')') : NULL;
    if (close) {
        *open = *close = '\0';
        *unit = open + 1;
    }
    const char *name = other_title(fold_slug(text, strlen(text), arena));
    struct nearest nearest;
    nearest_init(&nearest, name);
    for (int i = 0; i < ROSTER_COLUMN_COUNT; i++) {
        if (strcmp(name, roster_columns[i].name) == 0)
            return i;
        nearest_offer(&nearest, roster_columns[i].name);
    }
    diag_report(diag, DIAG_ERROR, "unknown-column", at,
                nearest.best ? "unknown column '%s'; did you mean '%s'?"
                             : "unknown column '%s'; a # before its name passes over it%s",
                title, nearest.best ? nearest.best : "");
    return -1;
}
