/* A YAML file with one long list under a key of its top, read an item at a time, so that memory
 * does not grow with the list. The bounds are those of tree.h and of FILE_LIMIT_BYTES, over the
 * whole file. What carries an anchor stays until the stream is closed.
 */
#ifndef BASKLEAF_YAML_STREAM_H
#define BASKLEAF_YAML_STREAM_H

#include "yaml/tree.h"

struct tree_stream;

enum tree_step {
    TREE_ENTRY, /* a key of the top and its value, both the stream's */
    TREE_ITEM,  /* an item of the list, the caller's arena's */
    TREE_END,
    TREE_BROKEN, /* the fault is reported; nothing follows */
};

struct tree_entry {
    const struct node *key; /* of the list, for an item */
    const struct node *value;
};

/* NULL after an error. `lasting` outlives the stream. */
struct tree_stream *tree_stream_open(const char *path, const char *list_key, struct arena *lasting,
                                     struct diag *diag);
void tree_stream_close(struct tree_stream *stream);

/* Back to the beginning, through a new opening of the file. */
bool tree_stream_rewind(struct tree_stream *stream, struct diag *diag);

/* A fault within an item that leaves the rest readable (a key that stands twice) is reported and
 * the item given all the same. */
enum tree_step tree_stream_next(struct tree_stream *stream, struct arena *arena, struct diag *diag,
                                struct tree_entry *out);

#endif
