#include "yaml/tree.h"

#include <string.h>
#include <yaml.h>

enum { ANCHOR_LIMIT = 256 };

struct anchor_entry {
    char *name;
    struct node *node;
};

/* A list or map under construction. */
struct open_node {
    struct node *node;
    struct node **values; /* map: keys and values alternate; list: items */
    size_t count;
    size_t capacity;
    const char *anchor;
};

struct reading {
    yaml_parser_t parser;
    const char *name;
    struct arena *arena;
    struct diag *diag;
    struct open_node stack[TREE_DEPTH_LIMIT + 1];
    int depth;
    struct anchor_entry anchors[ANCHOR_LIMIT];
    size_t anchor_count;
    size_t nodes;
    struct node *root;
    bool failed;
};

static struct mark mark_of(const struct reading *r, yaml_mark_t at)
{
    return (struct mark){.file = r->name, .line = (int)at.line + 1, .column = (int)at.column + 1};
}

/* Ends the reading: nothing after this place can be trusted. */
#define STOP(r, code, at, ...)                                                                     \
    do {                                                                                           \
        diag_report((r)->diag, DIAG_ERROR, (code), (at), __VA_ARGS__);                             \
        (r)->failed = true;                                                                        \
    } while (0)

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
    if (r->anchor_count == ANCHOR_LIMIT) {
        STOP(r, "too-many-anchors", node->at, "more than %d anchors in one file", ANCHOR_LIMIT);
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
        open->node->height = node->height + 1;
    if (r->depth + node->height > TREE_DEPTH_LIMIT)
        STOP(r, "too-deep", at, "nested deeper than %d levels, aliases written out",
             TREE_DEPTH_LIMIT);
    else if (open->node->weight > TREE_NODE_LIMIT)
        STOP(r, "too-many-nodes", at, "more than %d values, aliases written out", TREE_NODE_LIMIT);
}

static struct node *new_node(struct reading *r, enum node_kind kind, yaml_mark_t at)
{
    struct node *node = ARENA_NEW(r->arena, struct node);
    *node = (struct node){
        .kind = kind, .at = mark_of(r, at), .weight = 1, .height = kind != NODE_SCALAR, .text = ""};
    if (++r->nodes > TREE_NODE_LIMIT)
        STOP(r, "too-many-nodes", node->at, "more than %d values", TREE_NODE_LIMIT);
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
    struct node *node = new_node(r, NODE_SCALAR, event->start_mark);
    if (has_control_character(text, length)) {
        diag_report(r->diag, DIAG_ERROR, "control-character", node->at,
                    "the text holds a control character; remove it");
        r->failed = true;
        return;
    }
    node->text = arena_copy_bytes(r->arena, text, length);
    node->is_plain = event->data.scalar.style == YAML_PLAIN_SCALAR_STYLE;
    keep_anchor(r, (const char *)event->data.scalar.anchor, node);
    place_node(r, node, node->at);
}

static void on_alias(struct reading *r, const yaml_event_t *event)
{
    const char *name = (const char *)event->data.alias.anchor;
    for (size_t i = 0; i < r->anchor_count; i++) {
        if (strcmp(r->anchors[i].name, name) == 0) {
            place_node(r, r->anchors[i].node, mark_of(r, event->start_mark));
            return;
        }
    }
    STOP(r, "unknown-anchor", mark_of(r, event->start_mark),
         "'*%s' refers to nothing that stands complete above it", name);
}

static void on_open(struct reading *r, enum node_kind kind, const yaml_char_t *anchor,
                    yaml_mark_t at)
{
    struct node *node = new_node(r, kind, at);
    if (r->depth == TREE_DEPTH_LIMIT) {
        STOP(r, "too-deep", node->at, "nested deeper than %d levels", TREE_DEPTH_LIMIT);
        return;
    }
    r->stack[r->depth++] = (struct open_node){
        .node = node, .anchor = anchor ? arena_copy_text(r->arena, (const char *)anchor) : NULL};
}

static void check_keys(struct reading *r, const struct node *map)
{
    for (size_t i = 0; i < map->count; i++) {
        const struct node *key = map->keys[i];
        if (key->kind != NODE_SCALAR) {
            STOP(r, "key-not-text", key->at, "a key must be a text, not %s",
                 tree_kind_name(key->kind));
            return;
        }
        for (size_t j = 0; j < i; j++) {
            if (strcmp(map->keys[j]->text, key->text) == 0) {
                diag_report(r->diag, DIAG_ERROR, "double-key", key->at,
                            "key '%s' stands twice; the first is at line %d", key->text,
                            map->keys[j]->at.line);
                break;
            }
        }
    }
}

enum { KEYS_LIMIT = 4000 }; /* keeps the search for double keys far from a second */

static void on_close(struct reading *r)
{
    struct open_node *open = &r->stack[--r->depth];
    struct node *node = open->node;
    if (node->kind == NODE_LIST) {
        node->items = open->values;
        node->count = open->count;
    } else {
        node->count = open->count / 2;
        if (node->count > KEYS_LIMIT) {
            STOP(r, "too-many-keys", node->at, "more than %d keys in one mapping", KEYS_LIMIT);
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
    place_node(r, node, node->at);
}

static void on_event(struct reading *r, const yaml_event_t *event)
{
    switch (event->type) {
    case YAML_DOCUMENT_START_EVENT:
        if (r->root)
            STOP(r, "second-document", mark_of(r, event->start_mark),
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

static void report_syntax(struct reading *r)
{
    const yaml_parser_t *p = &r->parser;
    struct mark at = {.file = r->name};
    if (p->error == YAML_SCANNER_ERROR || p->error == YAML_PARSER_ERROR)
        at = mark_of(r, p->problem_mark);
    if (p->error == YAML_MEMORY_ERROR)
        support_out_of_memory();
    if (p->error == YAML_READER_ERROR)
        STOP(r, "not-text", at, "is not UTF-8 text: %s at byte %zu", p->problem, p->problem_offset);
    else
        STOP(r, "yaml-syntax", at, "is not well-formed YAML: %s%s%s",
             p->problem ? p->problem : "unknown fault", p->context ? ", " : "",
             p->context ? p->context : "");
}

static void read_events(struct reading *r)
{
    bool done = false;
    while (!done && !r->failed) {
        yaml_event_t event;
        if (!yaml_parser_parse(&r->parser, &event)) {
            report_syntax(r);
            return;
        }
        done = event.type == YAML_STREAM_END_EVENT;
        on_event(r, &event);
        yaml_event_delete(&event);
    }
}

struct node *tree_read_bytes(const char *name, struct bytes bytes, struct arena *arena,
                             struct diag *diag)
{
    struct reading *r = ARENA_NEW(arena, struct reading);
    r->name = arena_copy_text(arena, strcmp(name, "-") == 0 ? "<standard input>" : name);
    r->arena = arena;
    r->diag = diag;
    size_t errors_before = diag->counts[DIAG_ERROR];
    if (!yaml_parser_initialize(&r->parser))
        support_out_of_memory();
    yaml_parser_set_encoding(&r->parser, YAML_UTF8_ENCODING);
    yaml_parser_set_input_string(&r->parser, (const unsigned char *)bytes.data, bytes.length);
    read_events(r);
    yaml_parser_delete(&r->parser);
    if (!r->failed && (!r->root || tree_is_empty(r->root)))
        STOP(r, "empty-file", ((struct mark){.file = r->name}), "is empty");
    return r->failed || diag->counts[DIAG_ERROR] > errors_before ? NULL : r->root;
}

struct node *tree_read_file(const char *path, struct arena *arena, struct diag *diag)
{
    struct bytes bytes;
    if (!file_read(path, FILE_LIMIT_BYTES, arena, diag, &bytes))
        return NULL;
    return tree_read_bytes(path, bytes, arena, diag);
}

struct node *tree_find(const struct node *node, const char *key)
{
    if (!node || node->kind != NODE_MAP)
        return NULL;
    for (size_t i = 0; i < node->count; i++)
        if (strcmp(node->keys[i]->text, key) == 0)
            return node->items[i];
    return NULL;
}

bool tree_is_empty(const struct node *node)
{
    return node->kind == NODE_SCALAR && node->is_plain &&
           (strcmp(node->text, "") == 0 || strcmp(node->text, "~") == 0 ||
            strcmp(node->text, "null") == 0);
}

const char *tree_kind_name(enum node_kind kind)
{
    static const char *const names[] = {
        [NODE_SCALAR] = "a text", [NODE_LIST] = "a list", [NODE_MAP] = "a mapping"};
    return names[kind];
}
