/* Walks the table of the species sheet, the sheet itself and its tree side by side. */
#include "records/species_values.h"

#include <string.h>

struct walk {
    struct arena *arena;
    struct species_value *items;
    const char **keys; /* alone, where no sheet is at hand */
    size_t count;
};

enum { VALUES_MOST = 400 };

static const char *joined_path(struct walk *w, const char *above, const char *key)
{
    return *above ? arena_format(w->arena, "%s.%s", above, key) : key;
}

/* A number with its source: the record that all sourced_*_schema fill. */
static bool is_sourced(const struct schema *schema)
{
    return schema->size == sizeof(struct sourced_value) && schema->fields[0].kind == FIELD_BAND;
}

static void add_sourced(struct walk *w, const char *key, const struct field *field, void *place,
                        struct node *node)
{
    struct sourced_value *sourced = place;
    if (w->keys)
        w->keys[w->count++] = key;
    if (w->keys || !sourced || !sourced->range.known)
        return;
    w->items[w->count++] = (struct species_value){
        .key = key,
        .field = &field->schema->fields[0],
        .band = &sourced->range,
        .source = sourced->source.text,
        .trust = (enum trust)sourced->trust.value,
        .choice = sourced->choice.text,
        .disagrees = &sourced->disagrees,
        .confirmed = &sourced->confirmed,
        .node = node,
    };
}

/* The one size that has its source in keys beside it. */
static void add_box(struct walk *w, const char *key, const struct field *field,
                    struct species *species, struct node *map)
{
    if (w->keys)
        w->keys[w->count++] = key;
    if (w->keys || !species || !species->enclosure_least.known)
        return;
    w->items[w->count++] = (struct species_value){
        .key = key,
        .field = field,
        .box = &species->enclosure_least,
        .source = species->enclosure_least_source.text,
        .trust = (enum trust)species->enclosure_least_trust.value,
        .confirmed = &species->enclosure_least_confirmed,
        .node = map,
    };
}

/* "adult", "calcium.juvenile+subadult.with-uvb": an item's own choices tell it from the others. */
static const char *label_of(struct walk *w, const struct schema *schema, const char *record)
{
    struct strbuf out;
    strbuf_init(&out, w->arena);
    for (size_t i = 0; i < schema->field_count; i++) {
        const struct field *field = &schema->fields[i];
        const void *place = record + field->offset;
        const struct choice_value *one = place;
        const struct list *some = place;
        if (field->kind == FIELD_CHOICE && one->known)
            strbuf_addf(&out, "%s%s", out.length ? "." : "",
                        bind_choice_word(field->choices, one->value));
        if (field->kind != FIELD_CHOICES)
            continue;
        for (size_t k = 0; k < some->count; k++)
            strbuf_addf(
                &out, "%s%s",
                k            ? "+"
                : out.length ? "."
                             : "",
                bind_choice_word(field->choices, LIST_AT(*some, struct choice_value, k)->value));
    }
    return out.text;
}

static void walk_map(struct walk *w, const struct schema *schema, const char *path, char *record,
                     struct node *node);

static void walk_list(struct walk *w, const struct field *field, const char *path,
                      const struct list *list, const struct node *node)
{
    if (w->keys) {
        walk_map(w, field->schema, joined_path(w, path, "*"), NULL, NULL);
        return;
    }
    for (size_t i = 0; list && i < list->count; i++) {
        char *item = (char *)list->items + i * field->schema->size;
        struct node *below =
            node && node->kind == NODE_LIST && i < node->count ? node->items[i] : NULL;
        walk_map(w, field->schema, joined_path(w, path, label_of(w, field->schema, item)), item,
                 below);
    }
}

static void walk_map(struct walk *w, const struct schema *schema, const char *path, char *record,
                     struct node *node)
{
    for (size_t i = 0; i < schema->field_count && w->count < VALUES_MOST; i++) {
        const struct field *field = &schema->fields[i];
        const char *key = joined_path(w, path, field->key);
        struct node *below = node ? tree_find(node, field->key) : NULL;
        char *place = record ? record + field->offset : NULL;
        if (field->kind == FIELD_RECORD && is_sourced(field->schema))
            add_sourced(w, key, field, place, below);
        else if (field->kind == FIELD_RECORD)
            walk_map(w, field->schema, key, place, below);
        else if (field->kind == FIELD_RECORDS)
            walk_list(w, field, key, (const void *)place, below);
        else if (field->kind == FIELD_BOX)
            add_box(w, key, field, (void *)record, node);
    }
}

size_t species_values(struct species *species, struct node *tree, struct arena *arena,
                      struct species_value **out)
{
    struct walk walk = {.arena = arena,
                        .items = ARENA_ARRAY_UNSET(arena, struct species_value, VALUES_MOST)};
    walk_map(&walk, &species_schema, "", (void *)species, tree);
    *out = walk.items;
    return walk.count;
}

size_t species_value_keys(struct arena *arena, const char ***out)
{
    struct walk walk = {.arena = arena,
                        .keys = ARENA_ARRAY_UNSET(arena, const char *, VALUES_MOST)};
    walk_map(&walk, &species_schema, "", NULL, NULL);
    *out = walk.keys;
    return walk.count;
}

const struct species_value *species_value_find(const struct species_value *values, size_t count,
                                               const char *key)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(values[i].key, key) == 0)
            return &values[i];
    return NULL;
}

bool species_value_is_founded(const struct species_value *value)
{
    const struct confirmation *confirmed = *value->confirmed;
    if (confirmed)
        return !confirmed->is_reopened;
    return value->trust != TRUST_MEMORY;
}

void species_values_count(struct species *species, const struct species_value *values, size_t count)
{
    struct species_review *review = &species->review;
    *review = (struct species_review){.count = count};
    for (size_t i = 0; i < review->count; i++) {
        const struct confirmation *confirmed = *values[i].confirmed;
        review->founded += species_value_is_founded(&values[i]);
        review->reopened += confirmed && confirmed->is_reopened;
        review->confirmed += confirmed && !confirmed->is_reopened;
        if (!confirmed || (review->by && date_compare(confirmed->on, review->on) < 0))
            continue;
        review->by = confirmed->by;
        review->on = confirmed->on;
    }
    review->left = review->count - review->founded;
}

int species_trust_percent(const struct species_review *review)
{
    return review->count ? (int)(review->founded * 100 / review->count) : 0;
}
