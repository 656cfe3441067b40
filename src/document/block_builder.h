/* Making blocks, one after another, in an arena. */
#ifndef BASKLEAF_DOCUMENT_BLOCK_BUILDER_H
#define BASKLEAF_DOCUMENT_BLOCK_BUILDER_H

#include "base/arena.h"
#include "document/document.h"

/* Blocks under construction. `section` is written into every block. */
struct block_builder {
    struct arena *arena;
    const char *section;
    struct block *first, *last;
};

struct block_builder builder_start(struct arena *arena, const char *section);

/* ---- spans; text is borrowed and must live in the arena or forever; an empty text is no span:
 * NULL, and a paragraph or list item of no span is none either ---- */

struct span *span_plain(struct arena *arena, const char *text);
struct span *span_strong(struct arena *arena, const char *text);
/* Puts `next` at the end of `spans` with a space between them; either may be NULL. Returns the
 * first. */
struct span *span_join(struct arena *arena, struct span *spans, struct span *next);
/* The same with a line feed between them. */
struct span *span_below(struct arena *arena, struct span *spans, struct span *next);

/* ---- blocks ---- */

struct block *builder_add(struct block_builder *builder, enum block_kind kind);
struct block *builder_heading(struct block_builder *builder, int level, const char *text);
struct block *builder_paragraph(struct block_builder *builder, const char *text);
struct block *builder_spans(struct block_builder *builder, struct span *text,
                            enum paragraph_size size);

struct block *builder_list(struct block_builder *builder, enum list_marks marks);
struct list_item *list_add(struct arena *arena, struct block *list, struct span *text);

/* A table with `columns` shares of 1, copied. */
struct block *builder_table(struct block_builder *builder, const double *shares, size_t columns);
struct table_row *table_add_head(struct arena *arena, struct block *table);
struct table_row *table_add_row(struct arena *arena, struct block *table);
struct table_cell *row_add(struct arena *arena, struct table_row *row, struct span *text);
struct table_cell *row_add_head(struct arena *arena, struct table_row *row, const char *text);

/* A callout; its blocks are those of `inside`, which may grow before this is called. */
struct block *builder_callout(struct block_builder *builder, enum callout_tone tone,
                              const char *title, const struct block_builder *inside);

struct block *builder_picture(struct block_builder *builder, const struct scene *scene,
                              const char *caption, const char *alternative);

struct block *builder_photo(struct block_builder *builder, const struct photo *photo,
                            const char *alternative);

/* Takes out tables without rows, and all when headings alone are left. */
void builder_drop_empty(struct block_builder *builder);

/* Two columns; `left_share` of 1. Nothing when both are empty, no columns when one is. */
void builder_beside(struct block_builder *builder, const struct block_builder *left,
                    const struct block_builder *right, double left_share);

/* What runs down `count` columns in turn; nothing when it is empty. */
void builder_poured(struct block_builder *builder, const struct block_builder *inside,
                    size_t count);

/* Appends the blocks of another builder. */
void builder_append(struct block_builder *builder, const struct block_builder *other);

/* The first letter as a capital; ASCII and the small letters of Latin-1. */
const char *text_capital(struct arena *arena, const char *text);
/* A capital made small, as inside a sentence; a short form keeps its own. */
const char *text_small(struct arena *arena, const char *text);
/* With a full stop unless it ends with a stop of its own, also within a bracket: a sentence of
 * another hand may follow. */
const char *text_ended(struct arena *arena, const char *text);

#endif
