/* Keeping a shelter's list: the file as it came, what was made of it, the roster it becomes. */
#include "desk/shelter_list.h"

#include <stdlib.h>
#include <string.h>

#include "base/fold.h"
#include "base/hex.h"
#include "records/roster_titles.h"

enum { UNNAMED = -1 };

const char *shelter_path(struct answer *answer, const char *id, const char *name)
{
    return arena_format(answer->arena, "%s/.shelter/%s/%s", answer->desk->settings.folder, id,
                        name);
}

bool shelter_is_id(const char *id)
{
    return id && strlen(id) == SHELTER_ID_LETTERS && strspn(id, HEX_SMALL) == SHELTER_ID_LETTERS;
}

static int column_of_name(const char *name)
{
    for (int i = 0; i < ROSTER_ENCLOSURE; i++)
        if (strcmp(roster_columns[i].name, name) == 0)
            return i;
    return UNNAMED;
}

static const char *name_of_column(int column)
{
    return column == UNNAMED ? "" : roster_columns[column].name;
}

/* A file of the desk's own; NULL when it is not there or no tree. */
static const struct node *read_tree(struct answer *answer, const char *path)
{
    struct diag quiet;
    struct bytes text;
    diag_init(&quiet);
    const struct node *tree =
        file_exists(path) && file_read(path, FILE_LIMIT_BYTES, answer->arena, &quiet, &text)
            ? tree_read_bytes(path, text, answer->arena, &quiet)
            : NULL;
    diag_finish(&quiet);
    return tree;
}

/* ---- titles that somebody explained ---------------------------------------------------------- */

static const char *titles_path(struct answer *answer)
{
    return arena_format(answer->arena, "%s/.shelter/titles.json", answer->desk->settings.folder);
}

static const char *title_key(const char *title, struct arena *arena)
{
    return fold_text(title, arena);
}

static void remember_title(struct answer *answer, const char *title, const char *name)
{
    const struct node *before = read_tree(answer, titles_path(answer));
    const char *key = title_key(title, answer->arena);
    struct strbuf text;
    struct json json;
    strbuf_init(&text, answer->arena);
    json_init(&json, &text);
    json_open_object(&json);
    for (size_t i = 0; before && before->kind == NODE_MAP && i < before->count; i++)
        if (strcmp(before->keys[i]->text, key) != 0)
            json_key_text(&json, before->keys[i]->text, before->items[i]->text);
    json_key_text(&json, key, name);
    json_close_object(&json);
    file_write_atomic(titles_path(answer), text.text, text.length, 0600, &answer->diag);
}

/* By what was remembered, else by what is known. A column that stands twice counts once. */
static void name_columns(struct answer *answer, struct shelter_list *list)
{
    const struct node *remembered = read_tree(answer, titles_path(answer));
    const struct spreadsheet_row *titles = &list->table.rows[0];
    bool seen[ROSTER_COLUMN_COUNT] = {false};
    for (size_t i = 0; i < titles->count; i++) {
        const struct node *own =
            remembered ? tree_find(remembered, title_key(titles->cells[i], answer->arena)) : NULL;
        int column = own && own->kind == NODE_SCALAR
                         ? column_of_name(own->text)
                         : roster_title_column(titles->cells[i], answer->arena);
        bool is_new = column != UNNAMED && !seen[column];
        list->columns[i] = is_new ? column : UNNAMED;
        if (is_new)
            seen[column] = true;
    }
}

bool shelter_list_name_column(struct answer *answer, struct shelter_list *list, size_t column,
                              const char *name)
{
    const struct spreadsheet_row *titles = &list->table.rows[0];
    if (column >= titles->count || (*name && column_of_name(name) == UNNAMED)) {
        answer_refuse(answer, 400, "not-understood");
        return false;
    }
    for (size_t i = 0; i < titles->count; i++)
        if (list->columns[i] == column_of_name(name))
            list->columns[i] = UNNAMED;
    list->columns[column] = column_of_name(name);
    remember_title(answer, titles->cells[column], name);
    return shelter_list_save(answer, list);
}

/* ---- the roster ------------------------------------------------------------------------------ */

static void add_cell(struct strbuf *out, const char *text)
{
    strbuf_add_char(out, '"');
    for (const char *c = text; *c; c++)
        strbuf_add(out, *c == '"' ? "\"\"" : (char[]){*c, '\0'});
    strbuf_add_char(out, '"');
}

static void add_titles(struct answer *answer, const struct shelter_list *list, struct strbuf *out)
{
    const struct spreadsheet_row *titles = &list->table.rows[0];
    strbuf_add(out, "#line");
    for (size_t i = 0; i < titles->count; i++) {
        if (list->columns[i] == UNNAMED)
            continue;
        const char *unit = roster_title_unit(titles->cells[i], answer->arena);
        strbuf_addf(out, *unit ? ",%s (%s)" : ",%s", name_of_column(list->columns[i]), unit);
    }
    strbuf_add_char(out, '\n');
}

static void add_row(struct answer *answer, const struct shelter_list *list,
                    const struct spreadsheet_row *row, struct strbuf *out)
{
    strbuf_addf(out, "%d", row->line);
    for (size_t i = 0; i < list->table.rows[0].count; i++) {
        if (list->columns[i] == UNNAMED)
            continue;
        const char *text = i < row->count ? row->cells[i] : "";
        strbuf_add_char(out, ',');
        add_cell(out, roster_cell_plain((enum roster_column)list->columns[i], text,
                                        list->table.separator == ';', answer->arena));
    }
    strbuf_add_char(out, '\n');
}

static bool write_roster(struct answer *answer, const struct shelter_list *list)
{
    struct strbuf out;
    strbuf_init(&out, answer->arena);
    add_titles(answer, list, &out);
    for (size_t i = 1; i < list->table.count; i++)
        if (!list->left_out[i])
            add_row(answer, list, &list->table.rows[i], &out);
    return file_write_atomic(shelter_path(answer, list->id, "roster.csv"), out.text, out.length,
                             0600, &answer->diag);
}

/* ---- the list -------------------------------------------------------------------------------- */

static void write_cells(struct json *json, const struct spreadsheet_row *row)
{
    json_open_list(json);
    for (size_t k = 0; k < row->count; k++)
        json_text(json, row->cells[k]);
    json_close_list(json);
}

static bool write_list(struct answer *answer, const struct shelter_list *list)
{
    struct strbuf text;
    struct json json;
    strbuf_init(&text, answer->arena);
    json_init(&json, &text);
    json_open_object(&json);
    json_key_text(&json, "file", list->file);
    json_key_integer(&json, "seconds", (long)list->seconds);
    json_key(&json, "columns");
    json_open_list(&json);
    for (size_t i = 0; i < list->table.rows[0].count; i++)
        json_text(&json, name_of_column(list->columns[i]));
    json_close_list(&json);
    json_key(&json, "rows");
    json_open_list(&json);
    for (size_t i = 1; i < list->table.count; i++) {
        json_open_object(&json);
        json_key_integer(&json, "line", list->table.rows[i].line);
        json_key_flag(&json, "left", list->left_out[i]);
        json_key(&json, "cells");
        write_cells(&json, &list->table.rows[i]);
        json_close_object(&json);
    }
    json_close_list(&json);
    json_close_object(&json);
    return file_write_atomic(shelter_path(answer, list->id, "list.json"), text.text, text.length,
                             0600, &answer->diag);
}

bool shelter_list_save(struct answer *answer, struct shelter_list *list)
{
    if (write_list(answer, list) && write_roster(answer, list))
        return true;
    answer_refuse_faults(answer, 500, "not-saved", NULL);
    return false;
}

struct spreadsheet_row *shelter_list_row(struct shelter_list *list, int line)
{
    for (size_t i = 1; i < list->table.count; i++)
        if (list->table.rows[i].line == line)
            return &list->table.rows[i];
    return NULL;
}

static bool read_original(struct answer *answer, struct bytes bytes, struct shelter_list *out)
{
    static const char *const codes[] = {
        [SPREADSHEET_WORKBOOK] = "list-is-workbook", [SPREADSHEET_NONE] = "list-not-read"};
    enum spreadsheet_kind kind = spreadsheet_read(bytes, answer->arena, &out->table);
    if (kind == SPREADSHEET_TEXT && out->table.count < 2)
        kind = SPREADSHEET_NONE;
    if (kind != SPREADSHEET_TEXT) {
        answer_refuse(answer, 422, codes[kind]);
        return false;
    }
    out->left_out = ARENA_ARRAY(answer->arena, bool, out->table.count);
    memset(out->left_out, 0, out->table.count * sizeof *out->left_out);
    return true;
}

/* What was decided about the rows since they came. */
static void take_rows(struct shelter_list *list, const struct node *rows)
{
    for (size_t i = 0; rows && rows->kind == NODE_LIST && i < rows->count; i++) {
        const char *line = answer_text(rows->items[i], "line");
        const struct node *cells = tree_find(rows->items[i], "cells");
        struct spreadsheet_row *row = shelter_list_row(list, (int)strtol(line, NULL, 10));
        if (!row)
            continue;
        list->left_out[row - list->table.rows] =
            strcmp(answer_text(rows->items[i], "left"), "true") == 0;
        for (size_t k = 0; cells && k < cells->count && k < row->count; k++)
            row->cells[k] = cells->items[k]->text;
    }
}

static void take_columns(struct shelter_list *list, const struct node *columns)
{
    for (size_t i = 0; i < list->table.rows[0].count; i++)
        list->columns[i] =
            columns && i < columns->count ? column_of_name(columns->items[i]->text) : UNNAMED;
}

bool shelter_list_peek(struct answer *answer, const char *id, struct shelter_list *out)
{
    const struct node *tree = read_tree(answer, shelter_path(answer, id, "list.json"));
    *out = (struct shelter_list){.id = id};
    if (!tree)
        return false;
    out->file = answer_text(tree, "file");
    out->seconds = strtoll(answer_text(tree, "seconds"), NULL, 10);
    return true;
}

bool shelter_list_open(struct answer *answer, const char *id, struct shelter_list *out)
{
    struct bytes bytes;
    *out = (struct shelter_list){.id = id};
    const struct node *tree =
        shelter_is_id(id) ? read_tree(answer, shelter_path(answer, id, "list.json")) : NULL;
    if (!tree || !file_read(shelter_path(answer, id, "original"), REQUEST_BODY_LIMIT, answer->arena,
                            &answer->diag, &bytes)) {
        answer_refuse(answer, 404, "no-list");
        return false;
    }
    if (!read_original(answer, bytes, out))
        return false;
    out->file = answer_text(tree, "file");
    out->seconds = strtoll(answer_text(tree, "seconds"), NULL, 10);
    take_columns(out, tree_find(tree, "columns"));
    take_rows(out, tree_find(tree, "rows"));
    return true;
}

bool shelter_list_drop(struct answer *answer, struct bytes bytes, const char *file,
                       struct shelter_list *out)
{
    char version[STORE_VERSION_BYTES];
    *out = (struct shelter_list){.file = file, .seconds = answer->desk->settings.clock()};
    if (!read_original(answer, bytes, out))
        return false;
    store_version(bytes, version);
    out->id = arena_copy_bytes(answer->arena, version, SHELTER_ID_LETTERS);
    if (file_exists(shelter_path(answer, out->id, "list.json")))
        return shelter_list_open(answer, out->id, out); /* the same file again: as it was left */
    name_columns(answer, out);
    const struct store *store = &answer->desk->store;
    const char *folder = arena_format(answer->arena, ".shelter/%s", out->id);
    if (store_side_folder(store, ".shelter", answer->arena, &answer->diag) &&
        store_side_folder(store, folder, answer->arena, &answer->diag) &&
        file_write_atomic(shelter_path(answer, out->id, "original"), bytes.data, bytes.length, 0600,
                          &answer->diag))
        return shelter_list_save(answer, out);
    answer_refuse_faults(answer, 500, "not-saved", NULL);
    return false;
}
