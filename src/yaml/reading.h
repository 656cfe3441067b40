/* From libyaml's events to nodes; what tree.c and stream.c share. Private to this layer. */
#ifndef BASKLEAF_YAML_READING_H
#define BASKLEAF_YAML_READING_H

#include <yaml.h>

#include "yaml/surrogates.h"
#include "yaml/tree.h"

enum {
    READING_ANCHOR_LIMIT = 256,
    READING_KEYS_LIMIT = 4000,
};

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
    struct bytes text;         /* all of it; no data when it is read piece by piece */
    struct joined_pairs pairs; /* of escapes, which moved the places behind them */
    struct arena *arena;       /* of the nodes being built */
    struct arena *lasting;     /* of nodes with an anchor, when `arena` is emptied between values */
    int lasting_depth;         /* the level whose end closes such a node; 0: none is open */
    struct arena *passing;     /* what `arena` was before it */
    struct diag *diag;
    struct open_node stack[TREE_DEPTH_LIMIT + 1];
    int depth;
    struct anchor_entry anchors[READING_ANCHOR_LIMIT];
    size_t anchor_count;
    size_t nodes;
    struct node *root; /* the value that has been read whole */
    bool failed;       /* nothing behind this place can be trusted */
    int file_error;    /* errno of a file that could not be read on */
    bool is_at_hand;   /* read piece by piece, the file `name` can be read again */
};

/* Ends the reading with a fault. */
#define READING_STOP(r, code, at, ...)                                                             \
    do {                                                                                           \
        diag_report((r)->diag, DIAG_ERROR, (code), (at), __VA_ARGS__);                             \
        (r)->failed = true;                                                                        \
    } while (0)

/* The next event, for the caller to delete; false after a fault. */
bool reading_next(struct reading *r, yaml_event_t *event);

/* Takes the event into the tree. */
void reading_take(struct reading *r, const yaml_event_t *event);

struct mark reading_mark(const struct reading *r, yaml_mark_t at);

#endif
