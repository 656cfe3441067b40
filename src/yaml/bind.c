/* Reads a tree into a struct by its table of fields, with "did you mean". */
#include "yaml/bind.h"

#include <math.h>
#include <string.h>

#include "base/nearest.h"
#include "base/utf8.h"
#include "yaml/shipped.h"

/* Where a value stands: written out only when a fault is told. */
struct path {
    const struct path *above; /* NULL: the text alone */
    const char *key;          /* NULL: an item of a list */
    size_t item;              /* from 1 */
};

struct binding {
    struct arena *arena;
    struct diag *diag;
    bool good;
};

static bool bind_map(struct binding *b, const struct node *node, const struct schema *schema,
                     const struct path *path, char *record);

static const char *path_text(const struct path *path, struct arena *arena)
{
    const char *above = path->above ? path_text(path->above, arena) : "";
    if (!path->key)
        return arena_format(arena, "%s[%zu]", above, path->item);
    return *above ? arena_format(arena, "%s.%s", above, path->key) : path->key;
}

static void fault(struct binding *b, const char *code, const struct node *node,
                  const struct path *path, const char *text)
{
    const char *where = path_text(path, b->arena);
    diag_report_path(b->diag, DIAG_ERROR, code, node->at, *where ? where : NULL, "%s", text);
    b->good = false;
}

static bool expect(struct binding *b, const struct node *node, enum node_kind kind,
                   const struct path *path)
{
    if (node->kind == kind)
        return true;
    fault(b, "wrong-kind", node, path,
          arena_format(b->arena, "must be %s, not %s", tree_kind_name(kind),
                       tree_kind_name(node->kind)));
    return false;
}

/* ---- single values --------------------------------------------------------- */

static bool in_range(struct binding *b, const struct field *field, const struct node *node,
                     const struct path *path, double value)
{
    if (!field->has_range || (value >= field->low && value <= field->high))
        return true;
    static const char *const own_unit[DIM_END] = {
        [DIM_TEMPERATURE] = " C", [DIM_MASS] = " g",
        [DIM_LENGTH] = " cm",     [DIM_PERCENT] = " %",
        [DIM_DURATION] = " days", [DIM_HOURS] = " h",
        [DIM_POWER] = " W",       [DIM_CONCENTRATION] = " mg/l",
        [DIM_HARDNESS] = " dGH",  [DIM_VOLUME] = " l",
        [DIM_INTERVAL] = " h",    [DIM_DOSE] = " mg/kg",
        [DIM_STRENGTH] = " mg/ml"};
    const char *unit = own_unit[field->dimension] ? own_unit[field->dimension] : "";
    fault(b, "out-of-range", node, path,
          arena_format(b->arena, "'%s' is outside what is possible here (%.10g to %.10g%s)",
                       node->text, field->low, field->high, unit));
    return false;
}

/* Two and a half hides are nothing that anybody counted. */
static bool is_whole(struct binding *b, const struct field *field, const struct node *node,
                     const struct path *path, double value)
{
    if (!field->is_whole || value == floor(value))
        return true;
    fault(b, "not-whole", node, path,
          arena_format(b->arena, "'%s' is not a whole number; write one such as %.0f", node->text,
                       fmax(floor(value), field->low)));
    return false;
}

/* "28 F" under a lamp is nothing that anybody read: the number is right, the unit is not. */
static bool unit_makes_sense(struct binding *b, const struct field *field, const struct node *node,
                             const struct path *path, double value, enum unit unit)
{
    if (!field->has_likely || (value >= field->likely_low && value <= field->likely_high))
        return true;
    enum unit other = unit == UNIT_FAHRENHEIT ? UNIT_CELSIUS : UNIT_FAHRENHEIT;
    double written = units_to_written(value, unit);
    double meant = units_from_written(written, other);
    if (meant < field->likely_low || meant > field->likely_high)
        return true;
    fault(b, "unit-unlikely", node, path,
          arena_format(b->arena,
                       "'%s' does not fit here; did you mean '%.10g %s'? If it was measured so, "
                       "write it as %.4g %s",
                       node->text, written, units_symbol(other), units_to_written(value, other),
                       units_symbol(other)));
    return false;
}

static void bind_text(struct binding *b, const struct field *field, const struct node *node,
                      const struct path *path, void *place)
{
    if (utf8_is_blank(node->text)) {
        /* what may be left out is left out */
        if (field->required || field->kind == FIELD_TEXTS)
            fault(b, "empty", node, path, "is empty; write what belongs here, or leave it out");
        return;
    }
    if (strlen(node->text) > BIND_TEXT_LIMIT) {
        fault(b, "text-too-long", node, path,
              arena_format(b->arena, "is longer than %d bytes", BIND_TEXT_LIMIT));
        return;
    }
    *(struct text_value *)place = (struct text_value){.text = node->text, .at = node->at};
}

static void bind_date(struct binding *b, const struct field *field, const struct node *node,
                      const struct path *path, void *place)
{
    struct date_value *out = place;
    bool partial = field->kind == FIELD_PARTIAL_DATE;
    if (!date_read(node->text, partial, &out->date)) {
        fault(b, "not-a-date", node, path,
              arena_format(b->arena, "'%s' is not a date; write year-month-day, such as %s",
                           node->text, partial ? "2026-03-14, 2026-03 or 2026" : "2026-03-14"));
        return;
    }
    out->known = true;
    out->at = node->at;
}

static void bind_quantity(struct binding *b, const struct field *field, const struct node *node,
                          const struct path *path, void *place)
{
    struct quantity read;
    const char *why;
    if (!units_read_quantity(node->text, field->dimension, b->arena, &read, &why))
        fault(b, "not-a-quantity", node, path, why);
    else if (unit_makes_sense(b, field, node, path, read.value, read.unit) &&
             in_range(b, field, node, path, read.value) &&
             is_whole(b, field, node, path, read.value)) {
        read.at = node->at;
        *(struct quantity *)place = read;
    }
}

static void bind_band(struct binding *b, const struct field *field, const struct node *node,
                      const struct path *path, void *place)
{
    struct band read;
    const char *why;
    if (!units_read_band(node->text, field->dimension, b->arena, &read, &why))
        fault(b, "not-a-band", node, path, why);
    else if (unit_makes_sense(b, field, node, path, read.high, read.unit) &&
             unit_makes_sense(b, field, node, path, read.low, read.unit) &&
             in_range(b, field, node, path, read.low) &&
             in_range(b, field, node, path, read.high)) {
        read.at = node->at;
        *(struct band *)place = read;
    }
}

static void bind_box(struct binding *b, const struct field *field, const struct node *node,
                     const struct path *path, void *place)
{
    struct box read;
    const char *why;
    if (!units_read_box(node->text, b->arena, &read, &why))
        fault(b, "not-a-size", node, path, why);
    else if (in_range(b, field, node, path, read.length_cm) &&
             in_range(b, field, node, path, read.width_cm) &&
             in_range(b, field, node, path, read.height_cm)) {
        read.at = node->at;
        *(struct box *)place = read;
    }
}

const char *bind_choice_list(const struct choice *choices, struct arena *arena)
{
    struct strbuf list;
    strbuf_init(&list, arena);
    for (const struct choice *c = choices; c->word; c++) {
        if (c != choices)
            strbuf_add(&list, c[1].word ? ", " : " or ");
        strbuf_add(&list, c->word);
    }
    return list.text;
}

static void bind_choice(struct binding *b, const struct field *field, const struct node *node,
                        const struct path *path, void *place)
{
    for (const struct choice *c = field->choices; c->word; c++) {
        if (*c->word == *node->text && strcmp(c->word, node->text) == 0) {
            *(struct choice_value *)place =
                (struct choice_value){.known = true, .value = c->value, .at = node->at};
            return;
        }
    }
    struct nearest nearest;
    nearest_init(&nearest, node->text);
    for (const struct choice *c = field->choices; c->word; c++)
        nearest_offer(&nearest, c->word);
    const char *list = bind_choice_list(field->choices, b->arena);
    fault(b, "unknown-word", node, path,
          nearest.best
              ? arena_format(b->arena, "'%s' is not known here; did you mean '%s'? (%s)",
                             node->text, nearest.best, list)
              : arena_format(b->arena, "'%s' is not known here; write %s", node->text, list));
}

static void bind_flag(struct binding *b, const struct field *field, const struct node *node,
                      const struct path *path, void *place)
{
    (void)field;
    bool yes = strcmp(node->text, "yes") == 0 || strcmp(node->text, "true") == 0;
    bool no = strcmp(node->text, "no") == 0 || strcmp(node->text, "false") == 0;
    if (!yes && !no) {
        fault(b, "not-yes-or-no", node, path,
              arena_format(b->arena, "'%s' is neither yes nor no; write one of them", node->text));
        return;
    }
    *(struct flag_value *)place = (struct flag_value){.known = true, .value = yes, .at = node->at};
}

typedef void bind_scalar_fn(struct binding *b, const struct field *field, const struct node *node,
                            const struct path *path, void *place);

static const struct {
    bind_scalar_fn *bind;
    size_t size;
} scalar_binders[] = {
    [FIELD_TEXT] = {bind_text, sizeof(struct text_value)},
    [FIELD_DATE] = {bind_date, sizeof(struct date_value)},
    [FIELD_PARTIAL_DATE] = {bind_date, sizeof(struct date_value)},
    [FIELD_QUANTITY] = {bind_quantity, sizeof(struct quantity)},
    [FIELD_BAND] = {bind_band, sizeof(struct band)},
    [FIELD_BOX] = {bind_box, sizeof(struct box)},
    [FIELD_CHOICE] = {bind_choice, sizeof(struct choice_value)},
    [FIELD_FLAG] = {bind_flag, sizeof(struct flag_value)},
    [FIELD_TEXTS] = {bind_text, sizeof(struct text_value)},
    [FIELD_CHOICES] = {bind_choice, sizeof(struct choice_value)},
};

/* ---- lists, records ---------------------------------------------------------- */

static bool fits_in_list(struct binding *b, const struct field *field, const struct node *node,
                         const struct path *path)
{
    size_t most = field->most ? field->most : BIND_LIST_LIMIT;
    if (node->count <= most)
        return true;
    fault(b, "list-too-long", node, path,
          arena_format(b->arena, "holds %zu items; %zu are allowed", node->count, most));
    return false;
}

static void bind_scalar_list(struct binding *b, const struct field *field, const struct node *node,
                             const struct path *path, struct list *out)
{
    size_t size = scalar_binders[field->kind].size;
    const struct node *const single[] = {node};
    const struct node *const *items =
        node->kind == NODE_SCALAR ? single : (const struct node *const *)node->items;
    size_t count = node->kind == NODE_SCALAR ? 1 : node->count;
    if (node->kind == NODE_MAP) {
        expect(b, node, NODE_LIST, path);
        return;
    }
    if (!fits_in_list(b, field, node, path))
        return;
    *out = (struct list){.items = arena_take_array(b->arena, count, size)};
    for (size_t i = 0; i < count; i++) {
        const struct path below = {path, NULL, i + 1};
        if (expect(b, items[i], NODE_SCALAR, &below))
            scalar_binders[field->kind].bind(b, field, items[i], &below,
                                             (char *)out->items + out->count++ * size);
    }
}

static void bind_record_list(struct binding *b, const struct field *field, const struct node *node,
                             const struct path *path, struct list *out)
{
    size_t size = field->schema->size;
    if (!expect(b, node, NODE_LIST, path) || !fits_in_list(b, field, node, path))
        return;
    *out =
        (struct list){.items = arena_take_array(b->arena, node->count, size), .count = node->count};
    for (size_t i = 0; i < node->count; i++)
        bind_map(b, node->items[i], field->schema, &(struct path){path, NULL, i + 1},
                 (char *)out->items + i * size);
}

/* A mapping alone keeps its own path: diet.food, not diet.1.food. */
static void bind_some_records(struct binding *b, const struct field *field, const struct node *node,
                              const struct path *path, struct list *out)
{
    if (node->kind == NODE_SCALAR) {
        fault(b, "wrong-kind", node, path, "must be a mapping or a list of them, not a text");
        return;
    }
    if (node->kind != NODE_MAP) {
        bind_record_list(b, field, node, path, out);
        return;
    }
    *out = (struct list){.items = arena_take_array(b->arena, 1, field->schema->size), .count = 1};
    bind_map(b, node, field->schema, path, out->items);
}

static void bind_named(struct binding *b, const struct field *field, const struct node *node,
                       const struct path *path, struct list *out)
{
    size_t size = field->schema->size;
    if (!expect(b, node, NODE_MAP, path) || !fits_in_list(b, field, node, path))
        return;
    *out =
        (struct list){.items = arena_take_array(b->arena, node->count, size), .count = node->count};
    for (size_t i = 0; i < node->count; i++) {
        char *record = (char *)out->items + i * size;
        bind_map(b, node->items[i], field->schema,
                 &(struct path){.above = path, .key = node->keys[i]->text}, record);
        *(struct text_value *)(void *)record =
            (struct text_value){.text = node->keys[i]->text, .at = node->keys[i]->at};
    }
}

static void bind_field(struct binding *b, const struct field *field, const struct node *node,
                       const struct path *path, char *record)
{
    void *place = record + field->offset;
    switch (field->kind) {
    case FIELD_TEXTS:
    case FIELD_CHOICES:
        bind_scalar_list(b, field, node, path, place);
        break;
    case FIELD_RECORD:
        bind_map(b, node, field->schema, path, place);
        break;
    case FIELD_RECORDS:
        bind_record_list(b, field, node, path, place);
        break;
    case FIELD_SOME_RECORDS:
        bind_some_records(b, field, node, path, place);
        break;
    case FIELD_NAMED:
        bind_named(b, field, node, path, place);
        break;
    default:
        if (expect(b, node, NODE_SCALAR, path))
            scalar_binders[field->kind].bind(b, field, node, path, place);
        break;
    }
}

/* Begins behind the field that was found last: most files keep the order of the table. */
static const struct field *find_field(const struct schema *schema, const char *key, size_t *last)
{
    for (size_t i = 0, at = *last; i < schema->field_count; i++) {
        at = at + 1 < schema->field_count ? at + 1 : 0;
        if (schema->fields[at].key[0] == key[0] && strcmp(schema->fields[at].key, key) == 0) {
            *last = at;
            return &schema->fields[at];
        }
    }
    return NULL;
}

static void unknown_key(struct binding *b, const struct schema *schema, const struct node *key,
                        const struct path *path)
{
    struct nearest nearest;
    struct strbuf known;
    if (*key->text >= '0' && *key->text <= '9') {
        fault(b, "unknown-key", key, path,
              arena_format(b->arena,
                           "'%s' is no key; between braces a comma ends a value: write a decimal "
                           "point, or the value in quotes",
                           key->text));
        return;
    }
    nearest_init(&nearest, key->text);
    strbuf_init(&known, b->arena);
    for (size_t i = 0; i < schema->field_count; i++) {
        nearest_offer(&nearest, schema->fields[i].key);
        strbuf_addf(&known, "%s%s", i ? ", " : "", schema->fields[i].key);
    }
    fault(b, "unknown-key", key, path,
          nearest.best
              ? arena_format(b->arena, "unknown key '%s'; did you mean '%s'?", key->text,
                             nearest.best)
              : arena_format(b->arena, "unknown key '%s'; known here: %s", key->text, known.text));
}

static void check_required(struct binding *b, const struct schema *schema, const struct node *node,
                           const struct path *path)
{
    for (size_t i = 0; i < schema->field_count; i++) {
        const struct field *field = &schema->fields[i];
        const struct node *value = field->required ? tree_find(node, field->key) : NULL;
        if (field->required && (!value || tree_is_empty(value)))
            fault(b, "missing-key", node, path,
                  arena_format(b->arena, "'%s' is missing%s%s", field->key,
                               field->example ? "; for example " : "",
                               field->example
                                   ? arena_format(b->arena, "%s: %s", field->key, field->example)
                                   : ""));
    }
}

static bool bind_map(struct binding *b, const struct node *node, const struct schema *schema,
                     const struct path *path, char *record)
{
    size_t last = schema->field_count;
    if (schema->has_mark)
        *(struct mark *)(void *)(record + schema->mark_offset) = node->at;
    if (schema->short_key && node->kind != NODE_MAP) {
        bind_field(b, find_field(schema, schema->short_key, &last), node, path, record);
        return b->good;
    }
    if (!expect(b, node, NODE_MAP, path))
        return false;
    if (schema->never_empty && node->count == 0)
        fault(b, "empty", node, path, "is empty; write what must hold");
    for (size_t i = 0; i < node->count; i++) {
        const struct field *field = find_field(schema, node->keys[i]->text, &last);
        const struct node *item = node->items[i];
        const struct path below = {.above = path, .key = node->keys[i]->text};
        bool nothing = tree_is_empty(item) || (item->kind != NODE_SCALAR && item->count == 0);
        if (!field)
            unknown_key(b, schema, node->keys[i], path);
        else if (schema->never_empty && nothing)
            fault(b, "empty", item, &below, "is empty; write what belongs here, or leave it out");
        else if (!tree_is_empty(item))
            bind_field(b, field, item, &below, record);
    }
    check_required(b, schema, node, path);
    return b->good;
}

bool bind_record(const struct node *node, const struct schema *schema, const char *path,
                 struct arena *arena, struct diag *diag, void *record)
{
    struct binding b = {.arena = arena, .diag = diag, .good = true};
    return bind_map(&b, node, schema, &(struct path){.key = path}, record);
}

bool bind_file(const char *path, const struct schema *schema, struct arena *arena,
               struct diag *diag, void *record)
{
    struct arena passing;
    arena_init(&passing);
    struct bytes bytes;
    bool good = file_read(path, FILE_LIMIT_BYTES, &passing, diag, &bytes);
    path = arena_copy_text(arena, path);
    const bool is_shipped = good && shipped_bind(schema, path, bytes, arena, record);
    if (schema->is_shipped)
        *(bool *)((char *)record + schema->is_shipped) = is_shipped;
    if (good && !is_shipped) {
        const struct node *tree = tree_read_passing_bytes(path, bytes, arena, &passing, diag);
        good = tree && bind_record(tree, schema, "", arena, diag, record);
    }
    arena_finish(&passing);
    return good;
}

const char *bind_choice_word(const struct choice *choices, int value)
{
    for (const struct choice *c = choices; c->word; c++)
        if (c->value == value)
            return c->word;
    return "?";
}
