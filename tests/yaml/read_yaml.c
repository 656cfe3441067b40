/* Reads each file named and prints one JSON list: of each its tree as events, or the codes of
 * what was found wrong. For the comparison with the public YAML test suite. */
#include <stdio.h>

#include "base/json.h"
#include "yaml/tree.h"

static void write_node(struct json *json, const struct node *node, struct arena *arena)
{
    if (node->kind == NODE_SCALAR) {
        json_text(json, arena_format(arena, "=%s", node->text));
        return;
    }
    json_text(json, node->kind == NODE_MAP ? "+MAP" : "+SEQ");
    for (size_t i = 0; i < node->count; i++) {
        if (node->kind == NODE_MAP)
            write_node(json, node->keys[i], arena);
        write_node(json, node->items[i], arena);
    }
    json_text(json, node->kind == NODE_MAP ? "-MAP" : "-SEQ");
}

static void write_file(struct json *json, const char *path)
{
    struct arena arena;
    struct diag diag;
    arena_init(&arena);
    diag_init(&diag);
    const struct node *tree = tree_read_file(path, &arena, &diag);
    json_open_object(json);
    json_key(json, tree ? "events" : "refused");
    json_open_list(json);
    if (tree)
        write_node(json, tree, &arena);
    for (const struct diag_message *m = diag.first; m && !tree; m = m->next)
        json_text(json, m->code);
    json_close_list(json);
    json_close_object(json);
    diag_finish(&diag);
    arena_finish(&arena);
}

int main(int argc, char **argv)
{
    struct arena arena;
    struct strbuf out;
    struct json json;
    arena_init(&arena);
    strbuf_init(&out, &arena);
    json_init(&json, &out);
    json_open_list(&json);
    for (int i = 1; i < argc; i++)
        write_file(&json, argv[i]);
    json_close_list(&json);
    bool good = fwrite(out.text, 1, out.length, stdout) == out.length;
    arena_finish(&arena);
    return good ? 0 : 1;
}
