/* Merges what the page holds into the text of a record, so that remarks and order stay. */
#include "yaml/record_text.h"

#include <string.h>

/* ---- trees ----------------------------------------------------------------------------------- */

static bool says_nothing(const struct node *node)
{
    return node->kind == NODE_SCALAR ? !*node->text || tree_is_empty(node) : node->count == 0;
}

void record_prune(struct node *node)
{
    size_t kept = 0;
    for (size_t i = 0; node->kind != NODE_SCALAR && i < node->count; i++) {
        record_prune(node->items[i]);
        if (says_nothing(node->items[i]))
            continue;
        if (node->kind == NODE_MAP)
            node->keys[kept] = node->keys[i];
        node->items[kept++] = node->items[i];
    }
    if (node->kind != NODE_SCALAR)
        node->count = kept;
}

bool record_same(const struct node *a, const struct node *b)
{
    if (a->kind != b->kind)
        return false;
    if (a->kind == NODE_SCALAR)
        return strcmp(a->text, b->text) == 0;
    if (a->count != b->count)
        return false;
    for (size_t i = 0; i < a->count; i++) {
        const struct node *other =
            a->kind == NODE_MAP ? tree_find(b, a->keys[i]->text) : b->items[i];
        if (!other || !record_same(a->items[i], other))
            return false;
    }
    return true;
}

void record_write_json(struct json *json, const struct node *node)
{
    if (node->kind == NODE_SCALAR) {
        json_text(json, node->text);
        return;
    }
    bool is_map = node->kind == NODE_MAP;
    is_map ? json_open_object(json) : json_open_list(json);
    for (size_t i = 0; i < node->count; i++) {
        if (is_map)
            json_key(json, node->keys[i]->text);
        record_write_json(json, node->items[i]);
    }
    is_map ? json_close_object(json) : json_close_list(json);
}

/* ---- writing -----------------------------------------------------------------------------------
 */

/* Can stand without quotes in block and in flow style alike, and is read back as the same text. */
static bool is_plain_text(const char *text)
{
    static const char safe[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
                               " _./%()'+;@-";
    size_t length = strlen(text);
    if (!length || strspn(text, " '%@;+()-./") > 0 || text[length - 1] == ' ')
        return false;
    for (const char *c = text; *c; c++) {
        unsigned char byte = (unsigned char)*c;
        /* beyond Latin letters lie separators and marks that YAML reads in its own way */
        if (byte >= 0x80 ? byte == 0xc2 || byte >= 0xe2 : !strchr(safe, *c))
            return false;
    }
    return strcmp(text, "null") != 0 && strcmp(text, "Null") != 0 && strcmp(text, "NULL") != 0;
}

static void add_scalar(struct strbuf *out, const char *text)
{
    struct json json;
    if (is_plain_text(text)) {
        strbuf_add(out, text);
        return;
    }
    json_init(&json, out);
    json_text(&json, text);
}

static const struct field *find_field(const struct schema *schema, const char *key)
{
    for (size_t i = 0; schema && i < schema->field_count; i++)
        if (strcmp(schema->fields[i].key, key) == 0)
            return &schema->fields[i];
    return NULL;
}

/* Positions of a mapping's keys in the order of the schema, unknown ones last. */
static size_t *order_of(const struct node *map, const struct schema *schema, struct arena *arena)
{
    size_t *order = ARENA_ARRAY(arena, size_t, map->count + 1), made = 0;
    for (size_t k = 0; schema && k < schema->field_count; k++)
        for (size_t i = 0; i < map->count; i++)
            if (strcmp(map->keys[i]->text, schema->fields[k].key) == 0)
                order[made++] = i;
    for (size_t i = 0; i < map->count; i++)
        if (!find_field(schema, map->keys[i]->text))
            order[made++] = i;
    return order;
}

static void add_flow(struct strbuf *out, const struct node *node, const struct schema *schema)
{
    if (node->kind == NODE_SCALAR) {
        add_scalar(out, node->text);
        return;
    }
    bool is_map = node->kind == NODE_MAP;
    size_t *order = is_map ? order_of(node, schema, out->arena) : NULL;
    strbuf_add_char(out, is_map ? '{' : '[');
    for (size_t k = 0; k < node->count; k++) {
        size_t i = is_map ? order[k] : k;
        strbuf_add(out, k ? ", " : "");
        if (is_map) {
            add_scalar(out, node->keys[i]->text);
            strbuf_add(out, ": ");
        }
        const struct field *field = is_map ? find_field(schema, node->keys[i]->text) : NULL;
        add_flow(out, node->items[i], field ? field->schema : schema);
    }
    strbuf_add_char(out, is_map ? '}' : ']');
}

static void add_block(struct strbuf *out, const struct node *map, const struct schema *schema,
                      int indent);

/* Names with a mapping each, or many of them: a line each. */
static bool is_long_named(const struct node *node, const struct field *field)
{
    enum { FEW = 6 };
    return node->kind == NODE_MAP && field && field->kind == FIELD_NAMED && node->count &&
           (node->items[0]->kind == NODE_MAP || node->count > FEW);
}

/* Lists of records stand one a line; short things stand behind their key. */
static void add_value(struct strbuf *out, const struct node *node, const struct field *field,
                      int indent)
{
    const struct schema *schema = field ? field->schema : NULL;
    bool some = field && field->kind == FIELD_SOME_RECORDS;
    if (node->kind == NODE_MAP && field && (field->kind == FIELD_RECORD || some) &&
        node->count > 0) {
        strbuf_add_char(out, '\n');
        add_block(out, node, schema, indent + 2);
    } else if (node->kind == NODE_LIST && field && (field->kind == FIELD_RECORDS || some) &&
               node->count) {
        strbuf_add_char(out, '\n');
        for (size_t i = 0; i < node->count; i++) {
            strbuf_addf(out, "%*s- ", indent + 2, "");
            add_flow(out, node->items[i], schema);
            strbuf_add_char(out, '\n');
        }
    } else if (is_long_named(node, field)) {
        strbuf_add_char(out, '\n');
        for (size_t i = 0; i < node->count; i++) {
            strbuf_addf(out, "%*s", indent + 2, "");
            add_scalar(out, node->keys[i]->text);
            strbuf_add(out, ": ");
            add_flow(out, node->items[i], schema);
            strbuf_add_char(out, '\n');
        }
    } else {
        strbuf_add_char(out, ' ');
        add_flow(out, node, schema);
        strbuf_add_char(out, '\n');
    }
}

static void add_entry(struct strbuf *out, const struct node *map, size_t i,
                      const struct schema *schema, int indent)
{
    strbuf_addf(out, "%*s", indent, "");
    add_scalar(out, map->keys[i]->text);
    strbuf_add_char(out, ':');
    add_value(out, map->items[i], find_field(schema, map->keys[i]->text), indent);
}

static void add_block(struct strbuf *out, const struct node *map, const struct schema *schema,
                      int indent)
{
    size_t *order = order_of(map, schema, out->arena);
    for (size_t k = 0; k < map->count; k++)
        add_entry(out, map, order[k], schema, indent);
}

/* ---- keeping what a person wrote
 * ------------------------------------------------------------------ */

static const char *line_at(struct bytes text, int line)
{
    const char *c = text.data, *end = text.data + text.length;
    for (; line > 1 && c < end; line--) {
        const char *next = memchr(c, '\n', (size_t)(end - c));
        c = next ? next + 1 : end;
    }
    return c;
}

/* Where the section that ends at `end` really ends: blank lines and remarks at the margin before
 * the next key belong to that. */
static const char *without_tail(const char *begin, const char *end)
{
    while (end > begin) {
        const char *line = end - 1;
        while (line > begin && line[-1] != '\n')
            line--;
        if (line == begin || (*line != '#' && *line != '\n' && *line != '\r'))
            return end;
        end = line;
    }
    return end;
}

static bool holds_remark(const char *begin, const char *end)
{
    for (const char *c = begin; c < end; c++)
        if (*c == '#' && (c == begin || c[-1] == ' ' || c[-1] == '\t' || c[-1] == '\n'))
            return true;
    return false;
}

/* "&name" before a value: what is cut out there may be meant elsewhere. */
static bool has_anchor(struct bytes text)
{
    for (size_t i = 1; i + 1 < text.length; i++)
        if (text.data[i] == '&' && strchr(" [{,\n", text.data[i - 1]) &&
            !strchr(" \n\r", text.data[i + 1]))
            return true;
    return false;
}

/* Can the old text be taken apart at its top-level keys? */
static bool is_in_sections(const struct node *old, struct bytes text)
{
    if (old->kind != NODE_MAP || old->count == 0 || has_anchor(text) ||
        memchr(text.data, '\r', text.length) || text.data[text.length - 1] != '\n')
        return false;
    for (size_t i = 0; i < old->count; i++)
        if (old->keys[i]->at.column != 1 ||
            (i && old->keys[i]->at.line <= old->keys[i - 1]->at.line))
            return false;
    const char *last = line_at(text, old->keys[old->count - 1]->at.line);
    return !strstr(last, "\n...");
}

static size_t position_of(const struct node *map, const char *key)
{
    size_t i = 0;
    while (i < map->count && strcmp(map->keys[i]->text, key) != 0)
        i++;
    return i;
}

static void add_merged(struct strbuf *out, const struct node *record, const struct node *old,
                       const struct schema *schema, struct bytes text, bool *loses_remarks)
{
    const char *end_of_text = text.data + text.length, *done = text.data;
    for (size_t k = 0; k < old->count; k++) {
        const char *begin = line_at(text, old->keys[k]->at.line);
        const char *next =
            k + 1 < old->count ? line_at(text, old->keys[k + 1]->at.line) : end_of_text;
        const char *end = without_tail(begin, next);
        size_t i = position_of(record, old->keys[k]->text);
        strbuf_add_bytes(out, done, (size_t)(begin - done));
        if (i < record->count && record_same(record->items[i], old->items[k]))
            strbuf_add_bytes(out, begin, (size_t)(end - begin));
        else {
            *loses_remarks = *loses_remarks || holds_remark(begin, end);
            if (i < record->count)
                add_entry(out, record, i, schema, 0);
        }
        done = end;
    }
    strbuf_add_bytes(out, done, (size_t)(end_of_text - done));
    size_t *order = order_of(record, schema, out->arena);
    for (size_t k = 0; k < record->count; k++)
        if (position_of(old, record->keys[order[k]]->text) == old->count)
            add_entry(out, record, order[k], schema, 0);
}

static const struct node *read_quietly(struct bytes text, struct arena *arena)
{
    struct diag quiet;
    diag_init(&quiet);
    struct node *node = text.length ? tree_read_bytes("record", text, arena, &quiet) : NULL;
    diag_finish(&quiet);
    if (node)
        record_prune(node);
    return node;
}

struct bytes record_text(const struct node *record, const struct schema *schema,
                         struct bytes before, struct arena *arena, bool *loses_remarks)
{
    struct strbuf out;
    strbuf_init(&out, arena);
    *loses_remarks = false;
    const struct node *old = read_quietly(before, arena);
    if (old && is_in_sections(old, before)) {
        add_merged(&out, record, old, schema, before, loses_remarks);
        const struct node *again = read_quietly((struct bytes){out.text, out.length}, arena);
        if (again && record_same(again, record))
            return (struct bytes){out.text, out.length};
        strbuf_init(&out, arena);
    }
    *loses_remarks = before.length && holds_remark(before.data, before.data + before.length);
    add_block(&out, record, schema, 0);
    return (struct bytes){out.text, out.length};
}
