/* Finds the stored tree of a file and makes nodes of it, with the places that they had. */
#include "yaml/stored.h"

#include <string.h>

static struct node *load(const struct stored_trees *stored, const struct stored_tree *tree,
                         const char *name, struct arena *arena)
{
    /* as many as the program's own store has, so that no product can overflow */
    struct node *nodes = arena_take_unset(arena, tree->node_count * sizeof *nodes);
    struct node **links = arena_take_unset(arena, (tree->link_count + 1) * sizeof *links);
    for (size_t i = 0; i < tree->link_count; i++)
        links[i] = &nodes[stored->links[tree->links_at + i]];
    for (size_t i = 0; i < tree->node_count; i++) {
        const struct stored_node *from = &stored->nodes[tree->nodes_at + i];
        struct node *node = &nodes[i];
        *node = (struct node){.kind = (enum node_kind)from->kind,
                              .is_plain = from->is_plain,
                              .height = from->height,
                              .at = {.file = name, .line = (int)from->line, .column = from->column},
                              .text = "",
                              .count = from->count,
                              .weight = from->weight};
        if (node->kind == NODE_SCALAR) {
            node->text = stored->texts + from->at;
        } else if (node->kind == NODE_LIST) {
            node->items = links + from->at;
        } else {
            node->keys = links + from->at;
            node->items = node->keys + node->count;
        }
    }
    return nodes;
}

struct node *stored_find(const struct stored_trees *stored, const char *name, struct bytes bytes,
                         struct arena *arena)
{
    for (size_t i = 0; i < stored->count; i++) {
        const struct stored_tree *tree = &stored->trees[i];
        if (tree->length == bytes.length &&
            memcmp(stored->bytes + tree->bytes_at, bytes.data, bytes.length) == 0)
            return load(stored, tree, name, arena);
    }
    return NULL;
}
