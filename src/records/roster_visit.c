/* A row of a roster as the tree of a visit record. */
#include <string.h>

#include "records/roster.h"
#include "records/sheet_template.h"
#include "records/table.h"

static const struct field head_fields[] = {
    ROW(DATE, roster_head, date, "date", .help = "of rows without one", .example = "2026-03-18"),
    ROW(TEXT, roster_head, kind, "kind",
        .help = "kind of sheet, a file of templates/sheets; adoption when left out"),
    ROW(TEXT, roster_head, veterinarian, "veterinarian", .help = "who examined",
        .example = "Dr Ines Calder"),
    ROW(TEXT, roster_head, language, "language", .help = "of the sheets", .example = "en"),
    ROW(CHOICE, roster_head, units, "units", .choices = unit_system_choices,
        .help = "of the sheets"),
    ROW(RECORD, roster_head, signature, "signed-off", .schema = &visit_signature_schema,
        .help = "written by 'approve'"),
};
const struct schema roster_head_schema =
    SCHEMA(roster_head, head_fields, "roster", "What holds for all rows.", MARKED(roster_head, at));

enum { MAP_ROOM = 16, FINDINGS_MOST = 60 };

static struct node *new_scalar(const char *text, struct mark at, struct arena *arena)
{
    struct node *node = ARENA_NEW(arena, struct node);
    *node = (struct node){.kind = NODE_SCALAR, .at = at, .text = text, .weight = 1};
    return node;
}

static struct node *new_branch(enum node_kind kind, size_t room, struct mark at,
                               struct arena *arena)
{
    struct node *node = ARENA_NEW(arena, struct node);
    *node = (struct node){.kind = kind, .at = at, .weight = 1, .height = 1};
    node->items = ARENA_ARRAY(arena, struct node *, room);
    node->keys = kind == NODE_MAP ? ARENA_ARRAY(arena, struct node *, room) : NULL;
    return node;
}

/* The record keeps only what it is given; a cell is never changed. */
static void put(struct node *map, const char *key, const struct node *value, struct arena *arena)
{
    struct node *copy = ARENA_NEW(arena, struct node);
    *copy = *value;
    map->keys[map->count] = new_scalar(key, value->at, arena);
    map->items[map->count++] = copy;
}

static struct node *section(struct node *root, const char *name, struct arena *arena)
{
    for (size_t i = 0; i < root->count; i++)
        if (strcmp(root->keys[i]->text, name) == 0)
            return root->items[i];
    struct node *map = new_branch(NODE_MAP, MAP_ROOM, root->at, arena);
    root->keys[root->count] = new_scalar(name, root->at, arena);
    root->items[root->count++] = map;
    return map;
}

static void put_text(struct node *map, const char *key, const char *text, struct mark at,
                     struct arena *arena)
{
    put(map, key, new_scalar(text, at, arena), arena);
}

/* ---- what is worked out ---------------------------------------------------------------------- */

static const char *iso(struct date date, struct arena *arena)
{
    char text[16];
    date_write_iso(date, text);
    return arena_copy_text(arena, text);
}

static struct date common_date(const struct roster *roster, struct date today)
{
    if (roster->head.date.known)
        return roster->head.date.date;
    return roster->head.signature.on.known ? roster->head.signature.on.date : today;
}

/* An age in months or years gives the month of hatching, no more. */
static bool put_age(const struct roster_row *row, struct date day, struct node *root,
                    struct arena *arena, struct diag *diag)
{
    const struct node *cell = row->cells[ROSTER_AGE];
    struct quantity age = {0};
    const char *why = "is a text such as 8 months";
    if (!cell)
        return true;
    if (row->cells[ROSTER_HATCHED])
        why = "give age or hatched, not both";
    else if (cell->kind == NODE_SCALAR &&
             units_read_quantity(cell->text, DIM_DURATION, arena, &age, &why) &&
             age.value > 200 * 365.25)
        why = "no animal is that old";
    else if (age.known) {
        bool by_month = age.unit == UNIT_MONTH || age.unit == UNIT_YEAR;
        double months = age.value / 365.25 * 12;
        struct date hatched = by_month ? date_add_months(day, -(int)(months + 0.5))
                                       : date_add_days(day, -(long)(age.value + 0.5));
        if (by_month)
            hatched.day = 0;
        put_text(section(root, "patient", arena), "hatched", iso(hatched, arena), cell->at, arena);
        return true;
    }
    diag_report_path(diag, DIAG_ERROR, "bad-age", cell->at, "age", "%s", why);
    return false;
}

/* "retained-shed:mild breathing:normal", parted by spaces, commas, semicolons or bars. */
static void put_findings(const struct roster_row *row, struct node *root, struct arena *arena)
{
    static const char gaps[] = " ,;|\n\t";
    const struct node *cell = row->cells[ROSTER_FINDINGS];
    if (!cell)
        return;
    if (cell->kind != NODE_SCALAR) {
        put(root, "findings", cell, arena);
        return;
    }
    struct node *list = new_branch(NODE_LIST, FINDINGS_MOST, cell->at, arena);
    for (const char *c = cell->text + strspn(cell->text, gaps);
         *c && list->count < FINDINGS_MOST;) {
        size_t length = strcspn(c, gaps), code = strcspn(c, ":");
        struct node *finding = new_branch(NODE_MAP, 2, cell->at, arena);
        if (code < length)
            put_text(finding, "severity", arena_copy_bytes(arena, c + code + 1, length - code - 1),
                     cell->at, arena);
        put_text(finding, "code", arena_copy_bytes(arena, c, code < length ? code : length),
                 cell->at, arena);
        list->items[list->count++] = finding;
        c += length;
        c += strspn(c, gaps);
    }
    put(root, "findings", list, arena);
}

static void put_common(const struct roster *roster, const struct roster_row *row, struct date today,
                       struct node *root, struct arena *arena)
{
    const struct roster_head *head = &roster->head;
    struct node *visit = section(root, "visit", arena);
    if (!row->cells[ROSTER_DATE])
        put_text(visit, "date", iso(common_date(roster, today), arena), row->at, arena);
    if (!row->cells[ROSTER_KIND])
        put_text(visit, "kind", head->kind.text ? head->kind.text : "adoption",
                 head->kind.text ? head->kind.at : row->at, arena);
    if (!row->cells[ROSTER_VETERINARIAN] && head->veterinarian.text)
        put_text(visit, "veterinarian", head->veterinarian.text, head->veterinarian.at, arena);
    if (!row->cells[ROSTER_LANGUAGE] && head->language.text)
        put_text(section(root, "keeper", arena), "language", head->language.text, head->language.at,
                 arena);
    if (!row->cells[ROSTER_UNITS] && head->units.known)
        put_text(section(root, "keeper", arena), "units",
                 bind_choice_word(unit_system_choices, head->units.value), head->units.at, arena);
}

/* Readings of the box in columns of their own and the whole box in one cell would be two boxes. */
static bool check_box(const struct roster_row *row, struct diag *diag)
{
    for (int i = 0; i < ROSTER_COLUMN_COUNT && row->cells[ROSTER_ENCLOSURE]; i++) {
        const struct roster_column_about *about = &roster_columns[i];
        if (!row->cells[i] || !about->part)
            continue;
        diag_report(diag, DIAG_ERROR, "box-twice", row->cells[i]->at,
                    "'%s' stands beside 'enclosure'; write it under its readings", about->name);
        return false;
    }
    return true;
}

/* The mapping of the record that a column's key belongs to. */
static struct node *place_of(const struct roster_column_about *about, struct node *root,
                             struct arena *arena)
{
    struct node *place = about->section ? section(root, about->section, arena) : root;
    return about->part ? section(place, about->part, arena) : place;
}

static bool check_needed(const struct roster_row *row, struct diag *diag)
{
    bool good = true;
    static const enum roster_column needed[] = {ROSTER_NAME, ROSTER_SPECIES};
    for (size_t i = 0; i < sizeof needed / sizeof *needed; i++) {
        if (row->cells[needed[i]])
            continue;
        diag_report(diag, DIAG_ERROR, "missing-cell", row->at, "this row has no '%s'",
                    roster_columns[needed[i]].name);
        good = false;
    }
    return good;
}

const struct node *roster_row_tree(const struct roster *roster, const struct roster_row *row,
                                   struct date today, struct arena *arena, struct diag *diag)
{
    if (!row->is_good || !check_needed(row, diag) || !check_box(row, diag))
        return NULL;
    struct node *root = new_branch(NODE_MAP, MAP_ROOM, row->at, arena);
    struct date day = common_date(roster, today);
    put_common(roster, row, today, root, arena);
    for (int i = 0; i < ROSTER_COLUMN_COUNT; i++) {
        const struct roster_column_about *about = &roster_columns[i];
        if (row->cells[i] && about->key)
            put(place_of(about, root, arena), about->key, row->cells[i], arena);
    }
    if (row->cells[ROSTER_DATE])
        date_read(roster_cell(row, ROSTER_DATE), false, &day);
    put_findings(row, root, arena);
    return put_age(row, day, root, arena, diag) ? root : NULL;
}
