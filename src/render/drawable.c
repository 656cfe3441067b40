/* Looks up every letter of a tree's values in the fonts. */
#include "render/drawable.h"

#include <string.h>

#include "base/utf8.h"
#include "yaml/tree.h"

static bool has_letter(const struct measure *measure, int code_point)
{
    for (int style = 0; style < TEXT_STYLE_COUNT; style++)
        if (!measure->has_glyph(measure, (enum text_style)style, (unsigned)code_point))
            return false;
    return true;
}

/* The first letter that is lacking is told; another one is found when this one is gone. What is no
 * UTF-8 (UTF8_INVALID, below zero) or no letter is told elsewhere. */
static bool check_text(const struct node *node, const struct measure *measure, struct diag *diag)
{
    size_t length = strlen(node->text);
    for (size_t at = 0; at < length;) {
        size_t begin = at;
        int code_point = utf8_next(node->text, length, &at);
        if (code_point < 0x20 || has_letter(measure, code_point))
            continue;
        diag_report(diag, DIAG_ERROR, "no-glyph", node->at,
                    "no font here has '%.*s' (U+%04X); install one that README.md names, write "
                    "it in other letters, or say under 'in-latin' what is printed in its place",
                    (int)(at - begin), node->text + begin, (unsigned)code_point);
        return false;
    }
    return true;
}

bool drawable_check(const struct node *tree, const struct measure *measure, const char *passed_over,
                    struct diag *diag)
{
    if (tree->kind == NODE_SCALAR)
        return check_text(tree, measure, diag);
    bool good = true;
    for (size_t i = 0; i < tree->count; i++) {
        const char *key = tree->kind == NODE_MAP ? tree->keys[i]->text : "";
        if (strcmp(key, "in-latin") == 0)
            continue; /* what it names is replaced, and its words stand where they were put */
        if (!passed_over || strncmp(key, passed_over, strlen(passed_over)) != 0)
            good = drawable_check(tree->items[i], measure, passed_over, diag) && good;
    }
    return good;
}
