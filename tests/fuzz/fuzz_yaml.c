/* Bytes -> the tree. */
#include "fuzz/fuzz.h"
#include "yaml/tree.h"

static size_t check_node(const struct node *node, int depth)
{
    fuzz_must(depth <= TREE_DEPTH_LIMIT + (node->kind == NODE_SCALAR),
              "the tree is no deeper than its limit");
    fuzz_must(node->at.line > 0 && node->at.column > 0, "every node knows its place");
    size_t weight = 1;
    for (size_t i = 0; i < node->count; i++) {
        if (node->kind == NODE_MAP)
            fuzz_must(node->keys[i]->kind == NODE_SCALAR, "keys are scalars");
        weight += check_node(node->items[i], depth + 1);
    }
    return weight;
}

void fuzz_one(struct bytes bytes, struct arena *arena, struct diag *diag)
{
    const struct node *tree = tree_read_bytes("fuzz.yaml", bytes, arena, diag);
    fuzz_must(tree || diag_failed(diag), "what is refused is refused with a reason");
    if (tree)
        fuzz_must(check_node(tree, 1) <= TREE_NODE_LIMIT, "the tree keeps to its limit of nodes");
}
