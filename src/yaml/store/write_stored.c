/* Writes the store of trees as C: write_stored OUTPUT DEPENDENCIES FILE-OR-FOLDER...
 *
 * Every .yaml file of them that can be read goes into it; one that cannot is left to the program to
 * complain about. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "yaml/store/source.h"
#include "yaml/stored.h"

struct store {
    struct arena arena;
    struct diag diag;
    struct strbuf bytes, texts, nodes, links, trees, files;
    size_t byte_count, text_count, node_count, link_count, tree_count;
};

/* Nodes and links of one tree, in the order of their numbers. */
struct flat {
    struct stored_node *nodes;
    uint32_t *links;
    size_t node_count, link_count;
};

static uint32_t flatten(struct store *s, struct flat *flat, const struct node *node)
{
    size_t number = flat->node_count++;
    size_t links = node->kind == NODE_MAP ? 2 * node->count : node->count;
    struct stored_node *out = &flat->nodes[number];
    *out = (struct stored_node){.kind = (uint8_t)node->kind,
                                .is_plain = node->is_plain,
                                .height = (uint8_t)node->height,
                                .line = (uint32_t)node->at.line,
                                .column = (uint16_t)node->at.column,
                                .count = (uint32_t)node->count,
                                .weight = (uint32_t)node->weight};
    if (node->kind == NODE_SCALAR) {
        out->at = (uint32_t)s->text_count;
        source_add_literal(&s->texts, node->text, strlen(node->text) + 1);
        s->text_count += strlen(node->text) + 1;
        return (uint32_t)number;
    }
    out->at = (uint32_t)flat->link_count;
    flat->link_count += links;
    uint32_t *own = flat->links + out->at;
    for (size_t i = 0; i < links; i++) {
        bool is_key = node->kind == NODE_MAP && i < node->count;
        size_t value = node->kind == NODE_MAP ? i - node->count : i;
        own[i] = flatten(s, flat, is_key ? node->keys[i] : node->items[value]);
    }
    return (uint32_t)number;
}

static void add_tree(struct store *s, const char *path)
{
    struct bytes bytes;
    strbuf_addf(&s->files, " %s", path);
    if (!file_read(path, FILE_LIMIT_BYTES, &s->arena, &s->diag, &bytes))
        return;
    const struct node *root = tree_read_bytes(path, bytes, &s->arena, &s->diag);
    if (!root)
        return;
    struct flat flat = {.nodes = ARENA_ARRAY(&s->arena, struct stored_node, root->weight),
                        .links = ARENA_ARRAY(&s->arena, uint32_t, root->weight)};
    flatten(s, &flat, root);
    strbuf_addf(&s->trees, "{%zu, %zu, %zu, %zu, %zu, %zu},\n", s->byte_count, bytes.length,
                s->node_count, flat.node_count, s->link_count, flat.link_count);
    for (size_t i = 0; i < flat.node_count; i++) {
        const struct stored_node *n = &flat.nodes[i];
        strbuf_addf(&s->nodes, "{%u, %u, %u, %u, %u, %u, %u, %u},\n", n->at, n->count, n->weight,
                    n->line, n->column, n->kind, n->height, n->is_plain);
    }
    for (size_t i = 0; i < flat.link_count; i++)
        strbuf_addf(&s->links, "%u,\n", flat.links[i]);
    source_add_literal(&s->bytes, bytes.data, bytes.length);
    s->byte_count += bytes.length;
    s->node_count += flat.node_count;
    s->link_count += flat.link_count;
    s->tree_count++;
}

static void add_folder(struct store *s, const char *folder)
{
    const char **names;
    size_t count = file_list(folder, ".yaml", &s->arena, &s->diag, &names);
    strbuf_addf(&s->files, " %s", folder);
    for (size_t i = 0; i < count; i++)
        add_tree(s, file_join(&s->arena, folder, names[i]));
}

static bool write_source(const struct store *s, const char *path)
{
    FILE *out = fopen(path, "w");
    if (!out)
        return false;
    fprintf(out, "#include \"yaml/stored.h\"\n\n" SOURCE_LONG_LITERALS);
    fprintf(out, "static const char bytes[] =\n%s;\n\n", s->bytes.text);
    fprintf(out, "static const char texts[] =\n%s;\n\n", s->texts.text);
    fprintf(out, "static const struct stored_node nodes[] = {\n%s};\n\n", s->nodes.text);
    fprintf(out, "static const uint32_t links[] = {\n%s};\n\n", s->links.text);
    fprintf(out, "static const struct stored_tree trees[] = {\n%s};\n\n", s->trees.text);
    fprintf(out,
            "const struct stored_trees stored_trees = {bytes, texts, nodes, links, trees, %zu};\n",
            s->tree_count);
    return fclose(out) == 0;
}

int main(int argc, char **argv)
{
    struct store s = {0};
    arena_init(&s.arena);
    diag_init(&s.diag);
    struct strbuf *const parts[] = {&s.bytes, &s.texts, &s.nodes, &s.links, &s.trees, &s.files};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        strbuf_init(parts[i], &s.arena);
    for (int i = 3; i < argc; i++)
        (file_is_folder(argv[i]) ? add_folder : add_tree)(&s, argv[i]);
    bool good = s.tree_count > 0 && write_source(&s, argv[1]) &&
                source_write_dependencies(argv[2], argv[1], s.files.text);
    diag_print(&s.diag, stderr);
    diag_finish(&s.diag);
    arena_finish(&s.arena);
    return good ? EXIT_SUCCESS : EXIT_FAILURE;
}
