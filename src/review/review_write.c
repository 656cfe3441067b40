/* Makes the clinic's sheet out of ours, what was confirmed before and what is confirmed now. */
#include "review/review_write.h"

#include <string.h>

#include "base/file_writer.h"
#include "base/nearest.h"
#include "base/utf8.h"
#include "records/own_sheet.h"
#include "yaml/record_text.h"

struct writing {
    const struct review_order *order;
    struct arena *arena;
    struct diag *diag;
    struct bytes shipped;                  /* our sheet's text */
    struct own_sheet ours, merged;         /* ours as it came; the tree that becomes the clinic's */
    struct species_value *values, *places; /* of ours; their places in the merged tree */
    size_t count;
    struct node *reviewed; /* of the merged tree */
};

/* ---- nodes
 * ---------------------------------------------------------------------------------------
 */

static struct node *new_node(struct writing *w, enum node_kind kind, const char *text)
{
    struct node *node = ARENA_NEW(w->arena, struct node);
    *node = (struct node){
        .kind = kind, .at = {.file = w->order->set ? "--set" : "--confirm"}, .text = text};
    return node;
}

static struct node *new_text(struct writing *w, const char *text)
{
    return new_node(w, NODE_SCALAR, text);
}

/* Behind the last; `key` NULL for a list. */
static void append(struct writing *w, struct node *node, const char *key, struct node *value)
{
    struct node **keys = ARENA_ARRAY(w->arena, struct node *, node->count + 1);
    struct node **items = ARENA_ARRAY(w->arena, struct node *, node->count + 1);
    for (size_t i = 0; i < node->count; i++) {
        items[i] = node->items[i];
        if (key)
            keys[i] = node->keys[i];
    }
    if (key)
        keys[node->count] = new_text(w, key);
    items[node->count++] = value;
    node->keys = keys;
    node->items = items;
}

static void append_text(struct writing *w, struct node *map, const char *key, const char *text)
{
    if (text)
        append(w, map, key, new_text(w, text));
}

static void put(struct writing *w, struct node *map, const char *key, struct node *value)
{
    for (size_t i = 0; i < map->count; i++)
        if (strcmp(map->keys[i]->text, key) == 0) {
            map->items[i] = value;
            return;
        }
    append(w, map, key, value);
}

/* ---- one value
 * -----------------------------------------------------------------------------------
 */

static const struct species_value *find(struct writing *w, const char *option, const char *key,
                                        size_t *number)
{
    struct nearest nearest;
    nearest_init(&nearest, key);
    for (size_t i = 0; i < w->count; i++) {
        *number = i;
        if (strcmp(w->values[i].key, key) == 0)
            return &w->values[i];
        nearest_offer(&nearest, w->values[i].key);
    }
    diag_report(w->diag, DIAG_ERROR, "unknown-value", (struct mark){.file = option},
                nearest.best ? "the sheet has no value '%s'; did you mean '%s'?"
                             : "the sheet has no value '%s'; 'baskleaf review %s' lists them",
                key, nearest.best ? nearest.best : w->order->species);
    return NULL;
}

/* As it is written on the merged sheet. */
static const char *written(const struct species_value *place)
{
    const struct node *node = tree_find(place->node, place->box ? "least" : "range");
    return node ? node->text : "";
}

static void note(struct writing *w, const struct species_value *value, const char *text)
{
    char digest[OWN_SHEET_DIGEST_BYTES], on[16];
    struct node *entry = new_node(w, NODE_MAP, NULL);
    own_sheet_digest(w->ours.species, value, digest);
    date_write_iso(w->order->on, on);
    append_text(w, entry, "value", text);
    append_text(w, entry, "by", w->order->by);
    append_text(w, entry, "on", arena_copy_text(w->arena, on));
    append_text(w, entry, "edition", w->order->edition);
    append_text(w, entry, "reason", w->order->reason);
    append_text(w, entry, "ours", arena_copy_text(w->arena, digest));
    put(w, w->reviewed, value->key, entry);
}

static const char *reason_of(struct writing *w)
{
    return w->order->reason ? w->order->reason : arena_format(w->arena, "set by %s", w->order->by);
}

/* Whoever set it and after what, as a source; then all of ours. */
static struct list sources_with_own(struct writing *w)
{
    const struct list *ours = &w->ours.species->sources;
    struct named_text *items = ARENA_ARRAY(w->arena, struct named_text, ours->count + 1);
    char on[16];
    date_write_iso(w->order->on, on);
    const char *text =
        arena_format(w->arena, "%s, %s%s%s", w->order->by, on, w->order->edition ? ", after " : "",
                     w->order->edition ? w->order->edition : "");
    items[0] = (struct named_text){{.text = "own-review"}, {.text = text}};
    for (size_t i = 0; i < ours->count; i++)
        items[i + 1] = *LIST_AT(*ours, struct named_text, i);
    return (struct list){.items = items, .count = ours->count + 1};
}

/* Ours becomes the first of those that were not chosen. */
static struct node *disagrees(struct writing *w, const struct species_value *value)
{
    struct node *all = new_node(w, NODE_LIST, NULL), *one = new_node(w, NODE_MAP, NULL);
    const struct node *others = tree_find(value->node, "disagrees");
    append_text(w, one, "range", written(value));
    append_text(w, one, "source", value->source);
    append_text(w, one, "trust", bind_choice_word(trust_choices, (int)value->trust));
    append(w, all, NULL, one);
    for (size_t i = 0; others && i < others->count; i++)
        append(w, all, NULL, others->items[i]);
    return all;
}

static struct node *set_node(struct writing *w, const struct species_value *value, const char *text)
{
    const char *trust = w->order->edition ? "original" : "memory";
    struct node *node = new_node(w, NODE_MAP, NULL);
    append_text(w, node, value->box ? "least" : "range", text);
    append_text(w, node, value->box ? "least-source" : "source", "own-review");
    append_text(w, node, value->box ? "least-trust" : "trust", trust);
    if (value->box)
        return node;
    append_text(w, node, "choice", reason_of(w));
    append(w, node, "disagrees", disagrees(w, value));
    return node;
}

/* Back to ours, where the same value is set. */
static bool is_ours(struct writing *w, const struct species_value *value, const char *text)
{
    const char *why;
    struct band band;
    struct box box;
    if (value->box)
        return units_read_box(text, w->arena, &box, &why) &&
               box.length_cm == value->box->length_cm && box.width_cm == value->box->width_cm &&
               box.height_cm == value->box->height_cm;
    return units_read_band(text, value->field->dimension, w->arena, &band, &why) &&
           band.low == value->band->low && band.high == value->band->high;
}

static bool set_value(struct writing *w, char *pair)
{
    char *equals = strchr(pair, '=');
    size_t number;
    if (!equals) {
        diag_report(w->diag, DIAG_ERROR, "no-value", (struct mark){.file = "--set"},
                    "'%s' has no value; write KEY=VALUE, such as temperature.night=24-26 C", pair);
        return false;
    }
    *equals = '\0';
    const char *text = equals + 1 + strspn(equals + 1, " ");
    const struct species_value *value = find(w, "--set", pair, &number);
    if (!value)
        return false;
    bool back = is_ours(w, value, text);
    struct list sources = sources_with_own(w);
    own_sheet_graft(&(struct own_graft){back ? value->node : set_node(w, value, text),
                                        &w->places[number], &sources},
                    w->merged.tree, w->arena);
    note(w, value, back ? written(value) : text);
    return true;
}

static bool confirm_value(struct writing *w, char *key)
{
    size_t number;
    const struct species_value *value = find(w, "--confirm", key, &number);
    if (value)
        note(w, value, written(&w->places[number]));
    return value != NULL;
}

/* Each part of a list, without the spaces around it. */
static bool each(struct writing *w, const char *list, char between,
                 bool (*act)(struct writing *w, char *part))
{
    bool good = true;
    while (list && *list) {
        const char *end = strchr(list, between);
        size_t length = end ? (size_t)(end - list) : strlen(list);
        const char *begin = list + strspn(list, " ");
        while (length && list[length - 1] == ' ')
            length--;
        if (begin < list + length)
            good =
                act(w, arena_copy_bytes(w->arena, begin, (size_t)(list + length - begin))) && good;
        list = end ? end + 1 : NULL;
    }
    return good;
}

/* ---- the sheet
 * -----------------------------------------------------------------------------------
 */

static struct own_sheet read_ours(struct writing *w, const char *path)
{
    struct own_sheet sheet = {.tree = tree_read_bytes(path, w->shipped, w->arena, w->diag)};
    if (sheet.tree)
        sheet.species = species_read_tree(sheet.tree, path, w->arena, w->diag);
    return sheet;
}

/* What was confirmed before comes along; false where a hand has been at the sheet. */
static bool take_over(struct writing *w, const char *path)
{
    struct bytes text;
    if (!file_exists(path))
        return true;
    if (!file_read(path, FILE_LIMIT_BYTES, w->arena, w->diag, &text))
        return false;
    if (!own_sheet_is_sealed(text)) {
        diag_report(w->diag, DIAG_ERROR, "not-of-review", (struct mark){.file = path},
                    "was written or edited by hand and is not written over; confirm there, or "
                    "move it out of the folder");
        return false;
    }
    struct own_sheet own = {.tree = tree_read_bytes(path, text, w->arena, w->diag)};
    own.species = own.tree ? species_read_tree(own.tree, path, w->arena, w->diag) : NULL;
    if (!own.species)
        return false;
    own_sheet_merge(own, w->merged, w->arena, w->diag);
    const struct node *before = tree_find(own.tree, "reviewed");
    for (size_t i = 0; before && i < before->count; i++)
        if (species_value_find(w->values, w->count, before->keys[i]->text))
            append(w, w->reviewed, before->keys[i]->text, before->items[i]);
    return true;
}

/* A mean of grown animals that the veterinarian would be asked about on every visit. */
static bool is_plausible(struct writing *w, const struct species *species)
{
    const struct {
        const struct sourced_value *value;
        const struct band *bounds;
        const char *path;
    } rows[] = {
        {&species->adult_mass_g, &species->plausible_mass_g, "size.adult-mass"},
        {&species->hatchling_mass_g, &species->plausible_mass_g, "size.hatchling-mass"},
        {&species->adult_length_cm, &species->plausible_length_cm, "size.adult-length"},
    };
    bool good = true;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct band *band = &rows[i].value->range;
        bool is_set = w->order->set && strstr(w->order->set, rows[i].path);
        if (!band->known || !is_set ||
            (band->low >= rows[i].bounds->low && band->high <= rows[i].bounds->high))
            continue;
        diag_report_path(w->diag, DIAG_ERROR, "implausible-value", band->at, rows[i].path,
                         "lies outside what is plausible of the species (%.4g to %.4g)",
                         rows[i].bounds->low, rows[i].bounds->high);
        good = false;
    }
    return good;
}

static struct bytes text_of(struct writing *w)
{
    static const char head[] =
        "# The clinic's own sheet, written by 'baskleaf review': what stands under `reviewed` is "
        "the\n# clinic's, all else follows the sheet that comes with the program. Edited by hand "
        "it stands as\n# it is, and no review writes over it.\n";
    bool loses_remarks;
    struct bytes text =
        record_text(w->merged.tree, &species_schema, w->shipped, w->arena, &loses_remarks);
    const char *whole = arena_format(w->arena, "%s%s", head, text.data);
    return own_sheet_seal((struct bytes){whole, strlen(whole)}, w->arena);
}

static bool begin(struct writing *w, const char *ours)
{
    if (!file_read(ours, FILE_LIMIT_BYTES, w->arena, w->diag, &w->shipped))
        return false;
    w->ours = read_ours(w, ours);
    w->merged = read_ours(w, ours);
    if (!w->ours.species || !w->merged.species)
        return false;
    w->count = species_values(w->ours.species, w->ours.tree, w->arena, &w->values);
    species_values(w->merged.species, w->merged.tree, w->arena, &w->places);
    w->reviewed = new_node(w, NODE_MAP, NULL);
    return true;
}

static bool has_sheet(struct writing *w, const char *ours)
{
    if (file_exists(ours))
        return true;
    diag_report(w->diag, DIAG_ERROR, "no-shipped-sheet", (struct mark){0},
                "'%s' comes with no sheet of ours; a sheet of your own is edited by hand",
                w->order->species);
    return false;
}

bool review_write(const struct resources *resources, const char *folder,
                  const struct review_order *order, struct arena *arena, struct diag *diag,
                  const char **path)
{
    struct writing w = {.order = order, .arena = arena, .diag = diag};
    const char *name = arena_format(arena, "%s.yaml", order->species);
    const char *ours = file_join(arena, resources->species_sheets, name);
    *path = file_join(arena, folder, name);
    if (!has_sheet(&w, ours) || !begin(&w, ours) || !take_over(&w, *path))
        return false;
    bool good = each(&w, order->confirm, ',', confirm_value);
    good = each(&w, order->set, ';', set_value) && good;
    append(&w, w.merged.tree, "reviewed", w.reviewed);
    const struct species *made = good ? species_read_tree(w.merged.tree, *path, arena, diag) : NULL;
    if (!made || !is_plausible(&w, made))
        return false;
    struct bytes text = text_of(&w);
    return file_make_folders(*path, arena, diag) &&
           file_write_atomic(*path, text.data, text.length, 0644, diag);
}
