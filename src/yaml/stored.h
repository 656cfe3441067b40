/* Trees of the files that come with the program, read when it was built.
 *
 * Reading YAML is most of what a single sheet costs, and most files of a clinic are as they came.
 * A file whose bytes are the very ones that were read then gets its tree from here; any other is
 * read as ever. So there is nothing to renew and nothing that could be out of date. */
#ifndef BASKLEAF_YAML_STORED_H
#define BASKLEAF_YAML_STORED_H

#include <stdint.h>

#include "yaml/tree.h"

/* A node as numbers. */
struct stored_node {
    uint32_t
        at; /* scalar: its text in `texts`; else its first link: items, or keys and then values */
    uint32_t count, weight, line;
    uint16_t column;
    uint8_t kind, height; /* enum node_kind; */
    uint8_t is_plain;
};

struct stored_tree {
    uint32_t bytes_at, length;     /* of the file, in `bytes` */
    uint32_t nodes_at, node_count; /* the first one is the root */
    uint32_t links_at, link_count; /* numbers of nodes of this tree */
};

struct stored_trees {
    const char *bytes, *texts;
    const struct stored_node *nodes;
    const uint32_t *links;
    const struct stored_tree *trees;
    size_t count;
};

/* Made by store/write_stored.c. */
extern const struct stored_trees stored_trees;

/* The tree of exactly these bytes, its nodes in the arena and marked with `name`; NULL when it is
 * not among them. Texts lie in the store. */
struct node *stored_find(const struct stored_trees *stored, const char *name, struct bytes bytes,
                         struct arena *arena);

#endif
