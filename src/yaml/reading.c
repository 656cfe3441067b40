/* Turns libyaml's events into nodes within the bounds, and its errors into messages. */
#include "yaml/reading.h"

#include <stdint.h>
#include <string.h>

#include "base/file.h"
#include "base/hash.h"
#include "base/utf8.h"

struct mark reading_mark(const struct reading *r, yaml_mark_t at)
{
    at = surrogates_place(&r->pairs, at);
    return (struct mark){.file = r->name, .line = (int)at.line + 1, .column = (int)at.column + 1};
}

/* A node with an anchor, and all in it, must outlive the value it stands in. */
static void begin_lasting(struct reading *r, const void *anchor, int depth)
{
    if (!anchor || !r->lasting || r->lasting_depth)
        return;
    r->lasting_depth = depth;
    r->passing = r->arena;
    r->arena = r->lasting;
}

static void end_lasting(struct reading *r, int depth)
{
    if (r->lasting_depth != depth)
        return;
    r->lasting_depth = 0;
    r->arena = r->passing;
}

static void push_value(struct reading *r, struct open_node *open, struct node *node)
{
    if (open->count == open->capacity) {
        size_t capacity = open->capacity ? open->capacity * 2 : 8;
        struct node **moved = ARENA_ARRAY(r->arena, struct node *, capacity);
        if (open->count)
            memcpy(moved, open->values, open->count * sizeof *moved);
        open->values = moved;
        open->capacity = capacity;
    }
    open->values[open->count++] = node;
}

static void keep_anchor(struct reading *r, const char *name, struct node *node)
{
    if (!name)
        return;
    for (size_t i = 0; i < r->anchor_count; i++) {
        if (strcmp(r->anchors[i].name, name) == 0) {
            r->anchors[i].node = node;
            return;
        }
    }
    if (r->anchor_count == READING_ANCHOR_LIMIT) {
        READING_STOP(r, "too-many-anchors", node->at, "more than %d anchors in one file",
                     READING_ANCHOR_LIMIT);
        return;
    }
    r->anchors[r->anchor_count++] =
        (struct anchor_entry){.name = arena_copy_text(r->arena, name), .node = node};
}

/* A finished node goes into the open one above it, or becomes the root. */
static void place_node(struct reading *r, struct node *node, struct mark at)
{
    if (r->depth == 0) {
        r->root = node;
        return;
    }
    struct open_node *open = &r->stack[r->depth - 1];
    push_value(r, open, node);
    open->node->weight += node->weight;
    if (open->node->height <= node->height)
        open->node->height = (short)(node->height + 1);
    if (r->depth + node->height > TREE_DEPTH_LIMIT)
        READING_STOP(r, "too-deep", at, "nested deeper than %d levels, aliases written out",
                     TREE_DEPTH_LIMIT);
    else if (open->node->weight > TREE_NODE_LIMIT)
        READING_STOP(r, "too-many-nodes", at, "more than %d values, aliases written out",
                     TREE_NODE_LIMIT);
}

static struct node *new_node(struct reading *r, enum node_kind kind, yaml_mark_t at)
{
    struct node *node = ARENA_NEW(r->arena, struct node);
    *node = (struct node){.kind = kind,
                          .at = reading_mark(r, at),
                          .weight = 1,
                          .height = kind != NODE_SCALAR,
                          .text = ""};
    if (++r->nodes > TREE_NODE_LIMIT)
        READING_STOP(r, "too-many-nodes", node->at, "more than %d values", TREE_NODE_LIMIT);
    return node;
}

static bool has_control_character(const char *text, size_t length)
{
    for (size_t i = 0; i < length; i++) {
        unsigned char c = (unsigned char)text[i];
        bool is_c1 = c == 0xc2 && i + 1 < length && (unsigned char)text[i + 1] < 0xa0;
        if ((c < 0x20 && c != '\n' && c != '\t') || c == 0x7f || is_c1)
            return true;
    }
    return false;
}

static void on_scalar(struct reading *r, const yaml_event_t *event)
{
    const char *text = (const char *)event->data.scalar.value;
    size_t length = event->data.scalar.length;
    begin_lasting(r, event->data.scalar.anchor, r->depth + 1);
    struct node *node = new_node(r, NODE_SCALAR, event->start_mark);
    if (has_control_character(text, length)) {
        READING_STOP(r, "control-character", node->at,
                     "the text holds a control character; remove it");
        return;
    }
    node->text = arena_copy_bytes(r->arena, text, length);
    node->is_plain = event->data.scalar.style == YAML_PLAIN_SCALAR_STYLE;
    keep_anchor(r, (const char *)event->data.scalar.anchor, node);
    end_lasting(r, r->depth + 1);
    place_node(r, node, node->at);
}

static void on_alias(struct reading *r, const yaml_event_t *event)
{
    const char *name = (const char *)event->data.alias.anchor;
    for (size_t i = 0; i < r->anchor_count; i++) {
        if (strcmp(r->anchors[i].name, name) == 0) {
            place_node(r, r->anchors[i].node, reading_mark(r, event->start_mark));
            return;
        }
    }
    READING_STOP(r, "unknown-anchor", reading_mark(r, event->start_mark),
                 "'*%s' refers to nothing that stands complete above it", name);
}

static void on_open(struct reading *r, enum node_kind kind, const yaml_char_t *anchor,
                    yaml_mark_t at)
{
    begin_lasting(r, anchor, r->depth + 1);
    struct node *node = new_node(r, kind, at);
    if (r->depth == TREE_DEPTH_LIMIT) {
        READING_STOP(r, "too-deep", node->at, "nested deeper than %d levels", TREE_DEPTH_LIMIT);
        return;
    }
    r->stack[r->depth++] = (struct open_node){
        .node = node, .anchor = anchor ? arena_copy_text(r->arena, (const char *)anchor) : NULL};
}

/* The earlier key of the same text, or NULL after noting this one in the table: numbers of keys
 * from 1, at the place of their hash or behind it. */
static const struct node *same_key(const struct node *map, size_t i, uint16_t *table, size_t room)
{
    const char *key = map->keys[i]->text;
    size_t at = hash_quickly(HASH_START, key, strlen(key)) & (room - 1);
    for (; table[at]; at = (at + 1) & (room - 1))
        if (strcmp(map->keys[table[at] - 1]->text, map->keys[i]->text) == 0)
            return map->keys[table[at] - 1];
    table[at] = (uint16_t)(i + 1);
    return NULL;
}

static void check_keys(struct reading *r, const struct node *map)
{
    size_t room = 4;
    while (room < 2 * map->count)
        room *= 2;
    uint16_t *table = ARENA_ARRAY(r->arena, uint16_t, room);
    for (size_t i = 0; i < map->count; i++) {
        const struct node *key = map->keys[i];
        if (key->kind != NODE_SCALAR) {
            READING_STOP(r, "key-not-text", key->at, "a key must be a text, not %s",
                         tree_kind_name(key->kind));
            return;
        }
        const struct node *first = same_key(map, i, table, room);
        if (first)
            diag_report(r->diag, DIAG_ERROR, "double-key", key->at,
                        "key '%s' stands twice; the first is at line %d", key->text,
                        first->at.line);
    }
}

static void on_close(struct reading *r)
{
    struct open_node *open = &r->stack[--r->depth];
    struct node *node = open->node;
    if (node->kind == NODE_LIST) {
        node->items = open->values;
        node->count = open->count;
    } else {
        node->count = open->count / 2;
        if (node->count > READING_KEYS_LIMIT) {
            READING_STOP(r, "too-many-keys", node->at, "more than %d keys in one mapping",
                         READING_KEYS_LIMIT);
            return;
        }
        node->keys = ARENA_ARRAY(r->arena, struct node *, node->count);
        node->items = ARENA_ARRAY(r->arena, struct node *, node->count);
        for (size_t i = 0; i < node->count; i++) {
            node->keys[i] = open->values[2 * i];
            node->items[i] = open->values[2 * i + 1];
        }
        check_keys(r, node);
    }
    keep_anchor(r, open->anchor, node);
    end_lasting(r, r->depth + 1);
    place_node(r, node, node->at);
}

void reading_take(struct reading *r, const yaml_event_t *event)
{
    switch (event->type) {
    case YAML_DOCUMENT_START_EVENT:
        if (r->root)
            READING_STOP(r, "second-document", reading_mark(r, event->start_mark),
                         "a second document begins; a file holds one");
        break;
    case YAML_SCALAR_EVENT:
        on_scalar(r, event);
        break;
    case YAML_ALIAS_EVENT:
        on_alias(r, event);
        break;
    case YAML_SEQUENCE_START_EVENT:
        on_open(r, NODE_LIST, event->data.sequence_start.anchor, event->start_mark);
        break;
    case YAML_MAPPING_START_EVENT:
        on_open(r, NODE_MAP, event->data.mapping_start.anchor, event->start_mark);
        break;
    case YAML_SEQUENCE_END_EVENT:
    case YAML_MAPPING_END_EVENT:
        on_close(r);
        break;
    default:
        break;
    }
}

static struct mark mark_in(const char *name, struct bytes text, size_t offset)
{
    struct mark at = {.file = name};
    if (!text.data || offset > text.length)
        return at;
    at.line = at.column = 1;
    for (size_t i = 0; i < offset; i++) {
        bool ends = text.data[i] == '\n';
        at.line += ends;
        /* a column is a character, not a byte that goes on with one */
        at.column = ends ? 1 : at.column + !utf8_goes_on(text.data[i]);
    }
    return at;
}

/* Where a byte stands, when the whole text is at hand or can be read again. */
static struct mark mark_of_byte(const struct reading *r, size_t offset)
{
    struct bytes text = r->text;
    struct arena again;
    arena_init(&again);
    if (r->is_at_hand && !file_read(r->name, FILE_LIMIT_BYTES, &again, r->diag, &text))
        text = (struct bytes){0};
    struct mark at = mark_in(r->name, text, offset);
    arena_finish(&again);
    return at;
}

static void report_syntax(struct reading *r)
{
    const yaml_parser_t *p = &r->parser;
    struct mark at = {.file = r->name};
    if (p->error == YAML_SCANNER_ERROR || p->error == YAML_PARSER_ERROR)
        at = reading_mark(r, p->problem_mark);
    if (p->error == YAML_MEMORY_ERROR)
        support_out_of_memory();
    if (r->file_error) {
        r->failed = true;
        file_unreadable(r->name, r->file_error, r->diag);
    } else if (p->error == YAML_READER_ERROR)
        READING_STOP(r, "not-text", mark_of_byte(r, p->problem_offset),
                     "is not UTF-8 text: %s at byte %zu", p->problem, p->problem_offset);
    else
        READING_STOP(r, "yaml-syntax", at, "is not well-formed YAML: %s%s%s",
                     p->problem ? p->problem : "unknown fault", p->context ? ", " : "",
                     p->context ? p->context : "");
}

bool reading_next(struct reading *r, yaml_event_t *event)
{
    if (yaml_parser_parse(&r->parser, event))
        return true;
    report_syntax(r);
    return false;
}
