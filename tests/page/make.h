/* Documents made by hand, for the tests of the layout. Everything is the arena's. */
#ifndef BASKLEAF_TESTS_PAGE_MAKE_H
#define BASKLEAF_TESTS_PAGE_MAKE_H

#include "base/arena.h"
#include "document/document.h"

/* Blocks are appended to a builder; each maker returns its new block, to be changed at will. */
struct maker {
    struct arena *arena; /* borrowed */
    struct block **end;  /* where the next block goes */
};

/* A document with a plain look, an empty body and running head and foot. */
struct document *make_document(struct arena *arena, enum paper paper);

/* Its pages, by a store of texts of its own. */
struct measure;
struct diag;
struct paged;
bool make_pages(const struct document *document, const struct measure *measure, struct arena *arena,
                struct diag *diag, struct paged *out);

/* A maker at the end of a builder that begins at *first, which must be NULL. */
struct maker make_at(struct arena *arena, struct block **first);

struct span *make_span(struct arena *arena, const char *text);

/* Appends a span to the builder at `spans`, which must not be NULL. Returns the new one. */
struct span *make_more(struct arena *arena, struct span *spans, const char *text,
                       enum text_style style);

struct block *make_block(struct maker *maker, enum block_kind kind);
struct block *make_heading(struct maker *maker, int level, const char *text);
struct block *make_paragraph(struct maker *maker, const char *text);

/* `text` as many times as asked for, with a space between. */
const char *make_repeated(struct arena *arena, const char *text, int times);

struct block *make_list(struct maker *maker, enum list_marks marks);
struct list_item *make_item(struct maker *maker, struct block *list, const char *text);

/* A table with equal columns; the cells of a row stand in one text, set apart by '|'. A head
 * of NULL is none. */
struct block *make_table(struct maker *maker, size_t columns, const char *head);
struct table_row *make_row(struct maker *maker, struct block *table, const char *cells);

/* A callout; the maker for what stands in it is *inside. */
struct block *make_callout(struct maker *maker, enum callout_tone tone, const char *title,
                           struct maker *inside);

/* Columns of equal width; `inside` has a maker for each. */
struct block *make_columns(struct maker *maker, size_t count, struct maker *inside);
/* What is made with `inside` runs down `count` columns in turn. */
struct block *make_poured(struct maker *maker, size_t count, struct maker *inside);

/* A picture of nothing yet; shapes are appended to it. */
struct block *make_picture(struct maker *maker, double width_pt, double height_pt,
                           const char *alternative, const char *caption);
struct shape *make_shape(struct maker *maker, struct block *picture, struct shape shape);

#endif
