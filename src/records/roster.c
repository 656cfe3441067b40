/* Reads a roster row by row, from YAML or from CSV, each row as the tree of a visit record. */
#include "records/roster.h"

#include <string.h>

#include "records/roster_csv.h"
#include "records/sheet_template.h"

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

/* ---- opening ------------------------------------------------------------------------------- */

static bool read_head(struct roster *roster, const struct node *head, struct diag *diag)
{
    return bind_record(head, &roster_head_schema, "roster", &roster->arena, diag, &roster->head);
}

static bool unknown_key(const struct node *key, struct diag *diag)
{
    diag_report(diag, DIAG_ERROR, "unknown-key", key->at,
                "unknown key '%s'; a roster has 'roster' and 'animals'", key->text);
    return false;
}

static bool no_animals(struct mark at, struct diag *diag)
{
    diag_report(diag, DIAG_ERROR, "no-animals", at,
                "a roster needs 'animals', a list of at least one");
    return false;
}

static bool read_entry(struct roster *roster, const struct tree_entry *entry, struct diag *diag)
{
    if (strcmp(entry->key->text, "roster") == 0)
        return read_head(roster, entry->value, diag);
    if (strcmp(entry->key->text, "animals") == 0)
        return no_animals(entry->value->at, diag);
    return unknown_key(entry->key, diag);
}

static void pass_on(const struct diag *from, struct diag *to)
{
    for (const struct diag_message *m = from->first; m; m = m->next)
        diag_report(to, m->severity, m->code, m->at, "%s", m->text);
}

/* Reads all of it once, so that a file that breaks off is refused before anything is made of it. */
static bool open_tree(struct roster *roster, struct diag *diag)
{
    roster->stream = tree_stream_open(roster->file, "animals", &roster->arena, diag);
    if (!roster->stream)
        return false;
    struct arena passing;
    struct diag of_items;
    struct tree_entry entry;
    enum tree_step step;
    bool good = true;
    size_t animals = 0;
    arena_init(&passing);
    do {
        diag_init(&of_items);
        arena_reset(&passing);
        step = tree_stream_next(roster->stream, &passing, &of_items, &entry);
        animals += step == TREE_ITEM;
        if (step != TREE_ITEM) /* faults of an animal are told with its row */
            pass_on(&of_items, diag);
        if (step == TREE_ENTRY)
            good = read_entry(roster, &entry, diag) && !of_items.last && good;
        diag_finish(&of_items);
    } while (step == TREE_ITEM || step == TREE_ENTRY);
    if (step == TREE_END && good && animals == 0)
        good = no_animals((struct mark){.file = roster->file}, diag);
    arena_finish(&passing);
    return good && step == TREE_END && tree_stream_rewind(roster->stream, diag);
}

/* What stands beside a CSV holds no animals. */
static bool read_beside(struct roster *roster, struct diag *diag)
{
    const struct node *tree = tree_read_file(roster->signature_file, &roster->arena, diag);
    if (!tree)
        return false;
    if (tree->kind != NODE_MAP)
        diag_report(diag, DIAG_ERROR, "not-a-roster", tree->at,
                    "is not a roster: a mapping with 'roster'");
    bool good = tree->kind == NODE_MAP;
    for (size_t i = 0; good && i < tree->count; i++)
        good = strcmp(tree->keys[i]->text, "roster") == 0 ? read_head(roster, tree->items[i], diag)
                                                          : unknown_key(tree->keys[i], diag);
    return good;
}

static bool open_csv(struct roster *roster, struct diag *diag)
{
    if (file_exists(roster->signature_file) && !read_beside(roster, diag))
        return false;
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
    tree_stream_close(roster->stream);
    arena_finish(&roster->arena);
}

bool roster_rewind(struct roster *roster, struct diag *diag)
{
    roster->next = 0;
    return roster->csv ? roster_csv_rewind(roster->csv, diag)
                       : tree_stream_rewind(roster->stream, diag);
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
        bool is_filled = column >= 0 && !tree_is_empty(item->items[i]);
        if (is_filled && row->cells[column])
            diag_report(diag, DIAG_ERROR, "column-twice", item->keys[i]->at,
                        "the column '%s' stands twice", roster_columns[column].name);
        else if (is_filled)
            row->cells[column] = item->items[i];
        row->is_good = row->is_good && column != -1;
    }
}

static enum roster_step next_item(struct roster *roster, struct arena *arena, struct diag *diag,
                                  struct roster_row *out)
{
    struct tree_entry entry;
    enum tree_step step;
    size_t before = diag->counts[DIAG_ERROR];
    do
        step = tree_stream_next(roster->stream, arena, diag, &entry);
    while (step == TREE_ENTRY);
    if (step != TREE_ITEM)
        return step == TREE_END ? ROSTER_END : ROSTER_BROKEN;
    read_item(entry.value, arena, diag, out);
    out->is_good = out->is_good && diag->counts[DIAG_ERROR] == before;
    return ROSTER_ROW;
}

enum roster_step roster_next(struct roster *roster, struct arena *arena, struct diag *diag,
                             struct roster_row *out)
{
    *out = (struct roster_row){.is_good = true};
    enum roster_step step = roster->csv ? roster_csv_next(roster->csv, arena, diag, out)
                                        : next_item(roster, arena, diag, out);
    if (step == ROSTER_ROW)
        out->number = ++roster->next;
    return step;
}

const char *roster_cell(const struct roster_row *row, enum roster_column column)
{
    const struct node *cell = row->cells[column];
    return cell && cell->kind == NODE_SCALAR ? cell->text : "";
}
