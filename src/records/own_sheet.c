/* The clinic's own sheet over ours: its seal, digests, grafts of values and what is confirmed. */
#include "records/own_sheet.h"

#include <stdio.h>
#include <string.h>

#include "base/hash.h"

/* ---- seal and digest ---------------------------------------------------------------------------
 */

static const char seal_start[] = "# sealed by baskleaf review: ";
enum { SEAL_LINE = sizeof seal_start - 1 + 16 + 1 };

static void write_hash(uint64_t hash, char out[OWN_SHEET_DIGEST_BYTES])
{
    snprintf(out, OWN_SHEET_DIGEST_BYTES, "%016llx", (unsigned long long)hash);
}

static const char *seal_line(struct bytes text, struct arena *arena)
{
    char hex[OWN_SHEET_DIGEST_BYTES];
    write_hash(hash_bytes(HASH_START, text.data, text.length), hex);
    return arena_format(arena, "%s%s\n", seal_start, hex);
}

struct bytes own_sheet_seal(struct bytes text, struct arena *arena)
{
    const char *sealed =
        arena_format(arena, "%.*s%s", (int)text.length, text.data, seal_line(text, arena));
    return (struct bytes){sealed, strlen(sealed)};
}

bool own_sheet_is_sealed(struct bytes text)
{
    struct arena arena;
    if (text.length < SEAL_LINE)
        return false;
    arena_init(&arena);
    struct bytes before = {text.data, text.length - SEAL_LINE};
    bool same = memcmp(text.data + before.length, seal_line(before, &arena), SEAL_LINE) == 0;
    arena_finish(&arena);
    return same;
}

static uint64_t hash_number(uint64_t hash, double number)
{
    char text[32];
    snprintf(text, sizeof text, "%.10g;", number);
    return hash_text(hash, text);
}

static uint64_t hash_source(uint64_t hash, const struct species *species, const char *id)
{
    const char *text = id ? named_text_find(&species->sources, id) : NULL;
    return hash_text(hash_text(hash, text ? text : ""), ";");
}

void own_sheet_digest(const struct species *species, const struct species_value *value,
                      char out[OWN_SHEET_DIGEST_BYTES])
{
    uint64_t hash = HASH_START;
    if (value->box) {
        hash = hash_number(hash, value->box->length_cm);
        hash = hash_number(hash, value->box->width_cm);
        hash = hash_number(hash, value->box->height_cm);
    } else {
        hash = hash_number(hash_number(hash, value->band->low), value->band->high);
    }
    hash = hash_source(hash, species, value->source);
    for (size_t i = 0; value->disagrees && i < value->disagrees->count; i++) {
        const struct sourced_value *other = LIST_AT(*value->disagrees, struct sourced_value, i);
        hash = hash_number(hash_number(hash, other->range.low), other->range.high);
        hash = hash_source(hash, species, other->source.text);
    }
    write_hash(hash, out);
}

/* ---- grafts ------------------------------------------------------------------------------------
 */

static struct node *scalar(const char *text, struct mark at, struct arena *arena)
{
    struct node *node = ARENA_NEW(arena, struct node);
    *node = (struct node){.kind = NODE_SCALAR, .at = at, .text = text, .weight = 1};
    return node;
}

static void map_add(struct node *map, const char *key, struct node *value, struct arena *arena)
{
    struct node **keys = ARENA_ARRAY(arena, struct node *, map->count + 1);
    struct node **items = ARENA_ARRAY(arena, struct node *, map->count + 1);
    for (size_t i = 0; i < map->count; i++) {
        keys[i] = map->keys[i];
        items[i] = map->items[i];
        if (strcmp(keys[i]->text, key) != 0)
            continue;
        map->items[i] = value;
        return;
    }
    keys[map->count] = scalar(key, value->at, arena);
    items[map->count++] = value;
    map->keys = keys;
    map->items = items;
}

/* The id under which a text stands among the sources of ours; it is put there when it is new. */
static const char *source_id(struct node *sources, const char *id, const char *text,
                             struct arena *arena)
{
    for (size_t i = 0; i < sources->count; i++)
        if (sources->items[i]->kind == NODE_SCALAR && strcmp(sources->items[i]->text, text) == 0)
            return sources->keys[i]->text;
    const char *first = strncmp(id, "own-", 4) == 0 ? id : arena_format(arena, "own-%s", id),
               *name = first;
    for (int number = 2; tree_find(sources, name); number++)
        name = arena_format(arena, "%s-%d", first, number);
    map_add(sources, name, scalar(text, sources->at, arena), arena);
    return name;
}

/* A copy whose sources have their ids among those of ours. */
static struct node *copy_value(const struct node *node, const struct list *sources,
                               struct node *ours, struct arena *arena)
{
    struct node *copy = ARENA_NEW(arena, struct node);
    *copy = *node;
    if (node->kind == NODE_SCALAR)
        return copy;
    copy->items = ARENA_ARRAY(arena, struct node *, node->count + 1);
    for (size_t i = 0; i < node->count; i++) {
        const char *key = node->kind == NODE_MAP ? node->keys[i]->text : "";
        struct node *item = node->items[i];
        bool is_source = strcmp(key, "source") == 0 || strcmp(key, "least-source") == 0;
        const char *text = is_source ? named_text_find(sources, item->text) : NULL;
        copy->items[i] = text ? scalar(source_id(ours, item->text, text, arena), item->at, arena)
                              : copy_value(item, sources, ours, arena);
    }
    return copy;
}

static void graft_box(const struct node *copy, struct node *map, struct arena *arena)
{
    static const char *const keys[] = {"least", "least-source", "least-trust"};
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++) {
        struct node *item = tree_find(copy, keys[i]);
        if (item)
            map_add(map, keys[i], item, arena);
    }
}

void own_sheet_graft(const struct own_graft *graft, struct node *ours, struct arena *arena)
{
    struct node *sources = tree_find(ours, "sources");
    if (!sources || !graft->value || !graft->place->node)
        return;
    struct node *copy = copy_value(graft->value, graft->sources, sources, arena);
    if (graft->place->box)
        graft_box(copy, graft->place->node, arena);
    else
        *graft->place->node = *copy;
}

static void remark_gone(const struct text_value *key, struct diag *diag)
{
    diag_report_path(diag, DIAG_REMARK, "confirmed-value-gone", key->at, "reviewed",
                     "the clinic confirmed '%s', which the sheet that comes with the program has "
                     "no more: the value falls away",
                     key->text);
}

void own_sheet_merge(struct own_sheet own, struct own_sheet ours, struct arena *arena,
                     struct diag *diag)
{
    struct species_value *theirs, *values;
    size_t their_count = species_values(own.species, own.tree, arena, &theirs);
    size_t count = species_values(ours.species, ours.tree, arena, &values);
    for (size_t i = 0; i < own.species->reviewed.count; i++) {
        const struct text_value *key =
            &LIST_AT(own.species->reviewed, struct reviewed_value, i)->key;
        const struct species_value *from = species_value_find(theirs, their_count, key->text);
        const struct species_value *to = species_value_find(values, count, key->text);
        char was[OWN_SHEET_DIGEST_BYTES], is[OWN_SHEET_DIGEST_BYTES];
        if (!to)
            remark_gone(key, diag);
        if (!from || !to)
            continue;
        own_sheet_digest(own.species, from, was);
        own_sheet_digest(ours.species, to, is);
        if (strcmp(was, is) != 0)
            own_sheet_graft(&(struct own_graft){from->node, to, &own.species->sources}, ours.tree,
                            arena);
    }
}

/* ---- what is confirmed
 * -----------------------------------------------------------------------------------
 */

/* Is the value still what was confirmed? */
static bool says(const struct species_value *value, const char *text, struct arena *arena)
{
    const char *why;
    struct band band;
    struct box box;
    if (value->box)
        return units_read_box(text, arena, &box, &why) && box.length_cm == value->box->length_cm &&
               box.width_cm == value->box->width_cm && box.height_cm == value->box->height_cm;
    return units_read_band(text, value->field->dimension, arena, &band, &why) &&
           band.low == value->band->low && band.high == value->band->high;
}

static bool has_changed(struct species *ours, const struct species_value *now, const char *then)
{
    char digest[OWN_SHEET_DIGEST_BYTES];
    if (!ours || !then)
        return false;
    if (!now)
        return true;
    own_sheet_digest(ours, now, digest);
    return strcmp(digest, then) != 0;
}

void own_sheet_confirm(struct species *species, const struct species *own, struct species *ours,
                       struct arena *arena)
{
    struct species_value *values, *shipped = NULL;
    size_t count = species_values(species, NULL, arena, &values), shipped_count = 0;
    if (ours)
        shipped_count = species_values(ours, NULL, arena, &shipped);
    for (size_t i = 0; i < own->reviewed.count; i++) {
        const struct reviewed_value *one = LIST_AT(own->reviewed, struct reviewed_value, i);
        const struct species_value *value = species_value_find(values, count, one->key.text);
        if (!value || !says(value, one->value.text, arena))
            continue;
        struct confirmation *confirmed = ARENA_NEW(arena, struct confirmation);
        *confirmed = (struct confirmation){
            .key = one->key.text,
            .value = one->value.text,
            .by = one->by.text,
            .on = one->on.date,
            .edition = one->edition.text,
            .reason = one->reason.text,
            .is_reopened = has_changed(
                ours, species_value_find(shipped, shipped_count, one->key.text), one->ours.text),
        };
        *value->confirmed = confirmed;
    }
    species_values_count(species, values, count);
}
