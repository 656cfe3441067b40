/* Reads a whole file into a tree; looks keys up in it. */
#include "yaml/tree.h"

#include <string.h>

#include "yaml/reading.h"
#include "yaml/stored.h"

static void read_events(struct reading *r)
{
    bool done = false;
    yaml_event_t event;
    while (!done && !r->failed && reading_next(r, &event)) {
        done = event.type == YAML_STREAM_END_EVENT;
        reading_take(r, &event);
        yaml_event_delete(&event);
    }
}

struct node *tree_read_passing_bytes(const char *name, struct bytes bytes, struct arena *arena,
                                     struct arena *passing, struct diag *diag)
{
    name = arena_copy_text(arena, strcmp(name, "-") == 0 ? "<standard input>" : name);
    struct node *stored = stored_find(&stored_trees, name, bytes, passing);
    if (stored)
        return stored;
    struct reading *r = ARENA_NEW(arena, struct reading);
    r->name = name;
    r->arena = arena;
    r->diag = diag;
    size_t errors_before = diag->counts[DIAG_ERROR];
    if (!yaml_parser_initialize(&r->parser))
        support_out_of_memory();
    yaml_parser_set_encoding(&r->parser, YAML_UTF8_ENCODING);
    r->text = bytes = surrogates_join(bytes, passing, &r->pairs);
    yaml_parser_set_input_string(&r->parser, (const unsigned char *)bytes.data, bytes.length);
    read_events(r);
    yaml_parser_delete(&r->parser);
    if (!r->failed && (!r->root || tree_is_empty(r->root)))
        READING_STOP(r, "empty-file", ((struct mark){r->name, 1, 1}), "is empty");
    return r->failed || diag->counts[DIAG_ERROR] > errors_before ? NULL : r->root;
}

struct node *tree_read_bytes(const char *name, struct bytes bytes, struct arena *arena,
                             struct diag *diag)
{
    return tree_read_passing_bytes(name, bytes, arena, arena, diag);
}

struct node *tree_read_passing(const char *path, struct arena *arena, struct arena *passing,
                               struct diag *diag)
{
    struct bytes bytes;
    if (!file_read(path, FILE_LIMIT_BYTES, passing, diag, &bytes))
        return NULL;
    return tree_read_passing_bytes(path, bytes, arena, passing, diag);
}

struct node *tree_read_file(const char *path, struct arena *arena, struct diag *diag)
{
    return tree_read_passing(path, arena, arena, diag);
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
    if (node->kind != NODE_SCALAR || !node->is_plain)
        return false;
    return !*node->text || (*node->text == '~' && !node->text[1]) ||
           (*node->text == 'n' && strcmp(node->text, "null") == 0);
}
