/* Lays a document out with fixed widths and finds things in the result. */
#include "page/laid.h"

#include <check.h>
#include <string.h>

#include "page/boxes.h"
#include "page/fixed_measure.h"
#include "layout/layout.h"
#include "base/strbuf.h"

void laid_init(struct laid *laid, enum paper paper)
{
    *laid = (struct laid){0};
    arena_init(&laid->arena);
    diag_init(&laid->diag);
    laid->document = make_document(&laid->arena, paper);
    laid->body = make_at(&laid->arena, &laid->document->blocks);
}

void laid_finish(struct laid *laid)
{
    diag_finish(&laid->diag);
    arena_finish(&laid->arena);
}

void laid_run(struct laid *laid)
{
    bool ok = make_pages(laid->document, &fixed_measure, &laid->arena, &laid->diag, &laid->paged);
    if (!ok)
        diag_print(&laid->diag, stderr);
    ck_assert_msg(ok, "the document could not be laid out");
    const char *fault = layout_check_boxes(&laid->paged, &fixed_measure, &laid->arena);
    ck_assert_msg(fault == NULL, "%s", fault);
    fault = layout_check_order(&laid->paged, &laid->arena);
    ck_assert_msg(fault == NULL, "%s", fault);
}

const char *laid_numbered(struct laid *laid, char letter, int first, int last)
{
    struct strbuf text;
    strbuf_init(&text, &laid->arena);
    for (int i = first; i <= last; i++)
        strbuf_addf(&text, "%s%c%d", i > first ? "\n" : "", letter, i);
    return text.text;
}

const struct op *laid_find(const struct laid *laid, const char *text, size_t *page)
{
    for (*page = 1; *page <= laid->paged.page_count; ++*page) {
        for (const struct op *op = laid->paged.pages[*page - 1].first; op != NULL; op = op->next)
            if (op->kind == OP_TEXT && strcmp(op->text, text) == 0)
                return op;
    }
    ck_abort_msg("\"%s\" stands on no page", text);
    return NULL;
}

size_t laid_page_of(const struct laid *laid, const char *text)
{
    size_t page;
    laid_find(laid, text, &page);
    return page;
}

const char *laid_all_text(struct laid *laid)
{
    struct strbuf text;
    strbuf_init(&text, &laid->arena);
    for (size_t page = 0; page < laid->paged.page_count; page++) {
        for (const struct op *op = laid->paged.pages[page].first; op != NULL; op = op->next) {
            for (const char *c = op->text; op->kind == OP_TEXT && op->element >= 0 && *c; c++)
                if (*c != ' ')
                    strbuf_add_char(&text, *c);
        }
    }
    return text.text;
}

static bool is_above(const struct paged *paged, int above, int below)
{
    while (below >= 0 && below != above)
        below = paged->elements[below].parent;
    return below == above;
}

/* Elements are numbered in the order of the tree, so the numbers rise but where a paragraph
 * goes on behind a span in it. */
const char *layout_check_order(const struct paged *paged, struct arena *arena)
{
    for (size_t i = 1; i < paged->element_count; i++) {
        int parent = paged->elements[i].parent;
        if (parent < 0 || (size_t)parent >= i || !is_above(paged, parent, (int)i - 1))
            return arena_format(arena, "element %zu is numbered out of the tree's order", i);
    }
    for (size_t page = 0; page < paged->page_count; page++) {
        int last = 0;
        for (const struct op *op = paged->pages[page].first; op != NULL; op = op->next) {
            if (op->element < 0)
                continue;
            if (op->element < last && !is_above(paged, op->element, last)) {
                return arena_format(arena, "page %zu: a mark of element %d follows one of %d",
                                    page + 1, op->element, last);
            }
            last = op->element;
        }
    }
    return NULL;
}
