#include "records/roster.h"

#include <ctype.h>
#include <string.h>

#include "records/roster_csv.h"
#include "records/sheet_template.h"
#include "support/nearest.h"

const struct roster_column_about roster_columns[ROSTER_COLUMN_COUNT] = {
    [ROSTER_ID] = {"id", NULL, NULL, "the shelter's number; names the file"},
    [ROSTER_NAME] = {"name", "patient", "name", "the animal's name"},
    [ROSTER_SPECIES] = {"species", "patient", "species", "code or name of a species sheet"},
    [ROSTER_SEX] = {"sex", "patient", "sex", "female, male or unknown"},
    [ROSTER_HATCHED] = {"hatched", "patient", "hatched", "2024-05-01, 2024-05 or 2024"},
    [ROSTER_AGE] = {"age", NULL, NULL, "instead of hatched: 8 months"},
    [ROSTER_MASS] = {"mass", "patient", "mass", "52 g"},
    [ROSTER_LENGTH] = {"length", "patient", "length", "20 cm"},
    [ROSTER_ADOPTER] = {"adopter", "keeper", "name", "who takes it home"},
    [ROSTER_EMAIL] = {"email", "keeper", "email", "for mail"},
    [ROSTER_LANGUAGE] = {"language", "keeper", "language", "of the sheet: en"},
    [ROSTER_UNITS] = {"units", "keeper", "units", "metric or us"},
    [ROSTER_DATE] = {"date", "visit", "date", "of the examination"},
    [ROSTER_KIND] = {"kind", "visit", "kind", "kind of sheet; adoption when left out"},
    [ROSTER_VETERINARIAN] = {"veterinarian", "visit", "veterinarian", "who examined"},
    [ROSTER_FINDINGS] = {"findings", NULL, NULL, "codes, each with :severity where known"},
    [ROSTER_RECHECK] = {"recheck", "follow-up", "recheck", "time to the next visit: 2 weeks"},
    [ROSTER_NOTES] = {"notes", NULL, "message", "a paragraph, printed as written"},
    [ROSTER_ENCLOSURE] = {"enclosure", NULL, "enclosure", "as in a visit record; YAML alone"},
    [ROSTER_DIET] = {"diet", NULL, "diet", "as in a visit record; YAML alone"},
};

bool roster_is_csv(const char *path)
{
    static const char *const ends[] = {".csv", ".tsv", ".txt"};
    size_t length = strlen(path);
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++)
        if (length > strlen(ends[i]) && strcasecmp(path + length - strlen(ends[i]), ends[i]) == 0)
            return true;
    return false;
}

bool roster_is_tree(const struct node *tree)
{
    return tree_find(tree, "animals") || tree_find(tree, "roster");
}

/* "E-Mail " and "e_mail" are email; "Adopter name" is adopter. */
static char *plain_title(const char *title, struct arena *arena)
{
    char *out = arena_take(arena, strlen(title) + 1), *end = out;
    for (const char *c = title; *c; c++) {
        bool gap = *c == ' ' || *c == '_' || *c == '-' || *c == '\t';
        if (!gap)
            *end++ = (char)tolower((unsigned char)*c);
        else if (end > out && end[-1] != '-')
            *end++ = '-';
    }
    while (end > out && end[-1] == '-')
        end--;
    *end = '\0';
    return out;
}

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
    const char *name = other_title(plain_title(text, arena));
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

/* ---- opening ------------------------------------------------------------------------------- */

static bool read_head(struct roster *roster, const struct node *tree, struct diag *diag)
{
    const struct node *head = tree_find(tree, "roster");
    return !head ||
           bind_record(head, &roster_head_schema, "roster", &roster->arena, diag, &roster->head);
}

static bool check_top(const struct node *tree, bool is_csv, struct diag *diag)
{
    bool good = tree->kind == NODE_MAP;
    for (size_t i = 0; good && i < tree->count; i++) {
        const char *key = tree->keys[i]->text;
        if (strcmp(key, "roster") == 0 || (!is_csv && strcmp(key, "animals") == 0))
            continue;
        diag_report(diag, DIAG_ERROR, "unknown-key", tree->keys[i]->at,
                    "unknown key '%s'; a roster has 'roster' and 'animals'", key);
        good = false;
    }
    if (tree->kind != NODE_MAP)
        diag_report(diag, DIAG_ERROR, "not-a-roster", tree->at,
                    "is not a roster: a mapping with 'animals', a list");
    return good;
}

static bool open_tree(struct roster *roster, struct diag *diag)
{
    const struct node *tree = tree_read_file(roster->file, &roster->arena, diag);
    if (!tree || !check_top(tree, false, diag) || !read_head(roster, tree, diag))
        return false;
    roster->animals = tree_find(tree, "animals");
    if (roster->animals && roster->animals->kind == NODE_LIST && roster->animals->count)
        return true;
    diag_report(diag, DIAG_ERROR, "no-animals", roster->animals ? roster->animals->at : tree->at,
                "a roster needs 'animals', a list of at least one");
    return false;
}

static bool open_csv(struct roster *roster, struct diag *diag)
{
    if (file_exists(roster->signature_file)) {
        const struct node *tree = tree_read_file(roster->signature_file, &roster->arena, diag);
        if (!tree || !check_top(tree, true, diag) || !read_head(roster, tree, diag))
            return false;
    }
    roster->csv = roster_csv_new(roster->file, &roster->arena, diag);
    return roster->csv != NULL;
}

bool roster_open(struct roster *roster, const char *path, struct diag *diag)
{
    *roster = (struct roster){0};
    arena_init(&roster->arena);
    roster->file = arena_copy_text(&roster->arena, path);
    bool is_csv = roster_is_csv(path);
    roster->signature_file = is_csv ? arena_format(&roster->arena, "%s.yaml", path) : roster->file;
    if (is_csv)
        return open_csv(roster, diag);
    return open_tree(roster, diag);
}

void roster_close(struct roster *roster)
{
    roster_csv_free(roster->csv);
    arena_finish(&roster->arena);
}

bool roster_rewind(struct roster *roster, struct diag *diag)
{
    roster->next = 0;
    return !roster->csv || roster_csv_rewind(roster->csv, diag);
}

/* ---- rows ---------------------------------------------------------------------------------- */

static void read_item(const struct node *item, struct arena *arena, struct diag *diag,
                      struct roster_row *row)
{
    row->at = item->at;
    row->is_good = item->kind == NODE_MAP;
    if (!row->is_good)
        diag_report(diag, DIAG_ERROR, "not-a-row", item->at,
                    "an animal is a mapping: name, species, adopter ...");
    for (size_t i = 0; item->kind == NODE_MAP && i < item->count; i++) {
        const char *unit;
        int column = roster_find_column(item->keys[i]->text, item->keys[i]->at, arena, diag, &unit);
        if (column >= 0 && !tree_is_empty(item->items[i]))
            row->cells[column] = item->items[i];
        row->is_good = row->is_good && column != -1;
    }
}

enum roster_step roster_next(struct roster *roster, struct arena *arena, struct diag *diag,
                             struct roster_row *out)
{
    *out = (struct roster_row){.is_good = true};
    enum roster_step step = ROSTER_ROW;
    if (roster->csv)
        step = roster_csv_next(roster->csv, arena, diag, out);
    else if (roster->next == roster->animals->count)
        step = ROSTER_END;
    else
        read_item(roster->animals->items[roster->next], arena, diag, out);
    if (step == ROSTER_ROW)
        out->number = ++roster->next;
    return step;
}

const char *roster_cell(const struct roster_row *row, enum roster_column column)
{
    const struct node *cell = row->cells[column];
    return cell && cell->kind == NODE_SCALAR ? cell->text : "";
}
