/* YAML 1.1 text -> a tree in which every node knows where it stood.
 *
 * Built from libyaml's events. The whole tree belongs to the arena. Bounds, all of them
 * ordinary errors with their place: TREE_DEPTH_LIMIT levels of lists and mappings and
 * TREE_NODE_LIMIT nodes, both counted as if every alias were written out (so that aliases cannot
 * multiply), one
 * document a file. Scalars must be UTF-8 without control characters. A key may stand once a
 * mapping.
 */
#ifndef BASKLEAF_YAML_TREE_H
#define BASKLEAF_YAML_TREE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/diag.h"
#include "base/file.h"

enum { TREE_DEPTH_LIMIT = 32, TREE_NODE_LIMIT = 200000 };

enum node_kind { NODE_SCALAR, NODE_LIST, NODE_MAP };

struct node {
    enum node_kind kind;
    bool is_plain; /* scalar written without quotes */
    short height;  /* levels of lists and mappings, itself included; 0 for a scalar */
    struct mark at;
    const char *text;    /* scalar: its text, "" for an empty one */
    struct node **items; /* list: the items; map: the values */
    struct node **keys;  /* map: scalars, beside items */
    size_t count;
    size_t weight; /* nodes below and including this one, aliases written out */
};

/* Reads a file ("-": standard input). NULL after errors; several faults of
 * content can be reported in one run, but broken syntax ends the reading at its place. */
struct node *tree_read_file(const char *path, struct arena *arena, struct diag *diag);

/* The same for one who needs the nodes no longer than `passing`; texts and names of files live as
 * long as `arena`. */
struct node *tree_read_passing(const char *path, struct arena *arena, struct arena *passing,
                               struct diag *diag);

struct node *tree_read_passing_bytes(const char *name, struct bytes bytes, struct arena *arena,
                                     struct arena *passing, struct diag *diag);

/* The same from memory; `name` stands for the file in messages. */
struct node *tree_read_bytes(const char *name, struct bytes bytes, struct arena *arena,
                             struct diag *diag);

/* The value under a key of a map, or NULL (also when node is not a map). */
struct node *tree_find(const struct node *node, const char *key);

/* True for a scalar that says nothing: empty, ~ or null without quotes. */
bool tree_is_empty(const struct node *node);

/* "a text", "a list" or "a mapping", for messages. */
static inline const char *tree_kind_name(enum node_kind kind)
{
    return kind == NODE_SCALAR ? "a text" : kind == NODE_LIST ? "a list" : "a mapping";
}

#endif
