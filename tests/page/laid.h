/* A document laid out for a test, and finding things on its pages. */
#ifndef BASKLEAF_TESTS_PAGE_LAID_H
#define BASKLEAF_TESTS_PAGE_LAID_H

#include "page/make.h"
#include "document/draw_ops.h"
#include "base/diag.h"

struct laid {
    struct arena arena; /* owned */
    struct diag diag;   /* owned */
    struct document *document;
    struct maker body; /* at the end of the document's blocks */
    struct paged paged;
};

/* An empty document; blocks are then made with laid->body. */
void laid_init(struct laid *laid, enum paper paper);
void laid_finish(struct laid *laid);

/* Lays out with the fixed measure and fails the test when that fails, when a box check finds
 * something or when marks on a page do not follow the order of the structure. */
void laid_run(struct laid *laid);

/* The text `numbers` "1\n2\n3..." from `first` to `last`, each with a letter before it. */
const char *laid_numbered(struct laid *laid, char letter, int first, int last);

/* The first text on any page that equals `text`; fails the test when there is none. *page
 * counts from 1. */
const struct op *laid_find(const struct laid *laid, const char *text, size_t *page);

/* The page of that text, counted from 1. */
size_t laid_page_of(const struct laid *laid, const char *text);

/* All texts that belong to the structure, in order, one behind the other without spaces. */
const char *laid_all_text(struct laid *laid);

/* NULL when the marks of every page stand in the order of the structure tree (so that what is
 * read is what is drawn), else what is wrong. */
const char *layout_check_order(const struct paged *paged, struct arena *arena);

#endif
