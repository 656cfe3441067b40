/* What a file's values name as their source stands among the file's sources. */
#include <string.h>

#include "base/nearest.h"
#include "check/data_check.h"

static void check_source(const struct node *source, const struct node *sources, struct diag *diag)
{
    struct nearest nearest;
    if (source->kind != NODE_SCALAR || tree_find(sources, source->text))
        return;
    nearest_init(&nearest, source->text);
    for (size_t i = 0; i < sources->count; i++)
        nearest_offer(&nearest, sources->keys[i]->text);
    diag_report_path(diag, DIAG_ERROR, "unknown-source", source->at, "source",
                     nearest.best
                         ? "'%s' is not among this file's sources; did you mean '%s'?"
                         : "'%s' is not among this file's sources; say there what it stands for%s",
                     source->text, nearest.best ? nearest.best : "");
}

static void walk(const struct node *node, const struct node *sources, struct diag *diag)
{
    for (size_t i = 0; node->kind != NODE_SCALAR && i < node->count; i++) {
        const struct node *item = node->items[i];
        if (item == sources)
            continue;
        if (node->kind == NODE_MAP && strcmp(node->keys[i]->text, "source") == 0)
            check_source(item, sources, diag);
        else
            walk(item, sources, diag);
    }
}

void data_check_sources_of(const struct node *tree, struct diag *diag)
{
    const struct node *sources = tree_find(tree, "sources");
    if (sources && sources->kind == NODE_MAP)
        walk(tree, sources, diag);
}

void data_check_sources(const struct data_check *check)
{
    const char **names = NULL;
    size_t count =
        file_list(check->resources->templates, ".yaml", check->arena, check->diag, &names);
    for (size_t i = 0; i < count; i++) {
        const char *path = file_join(check->arena, check->resources->templates, names[i]);
        const struct node *tree = tree_read_file(path, check->arena, check->diag);
        if (tree)
            data_check_sources_of(tree, check->diag);
    }
}
