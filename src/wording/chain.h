/* Making blocks, one after another, in an arena. */
#ifndef BASKLEAF_WORDING_CHAIN_H
#define BASKLEAF_WORDING_CHAIN_H

#include "support/arena.h"
#include "wording/document.h"

/* Blocks under construction. `section` is written into every block. */
struct chain {
    struct arena *arena;
    const char *section;
    struct block *first, *last;
};

struct chain chain_start(struct arena *arena, const char *section);

/* ---- spans; text is borrowed and must live in the arena or forever ---- */

struct span *span_plain(struct arena *arena, const char *text);
struct span *span_strong(struct arena *arena, const char *text);
/* Puts `next` at the end of `spans` with a space between them; either may be NULL. Returns the
 * first. */
struct span *span_join(struct arena *arena, struct span *spans, struct span *next);
/* The same with a line feed between them. */
struct span *span_below(struct arena *arena, struct span *spans, struct span *next);

/* ---- blocks ---- */

struct block *chain_add(struct chain *chain, enum block_kind kind);
struct block *chain_heading(struct chain *chain, int level, const char *text);
struct block *chain_paragraph(struct chain *chain, const char *text);
struct block *chain_spans(struct chain *chain, struct span *text, enum paragraph_size size);

struct block *chain_list(struct chain *chain, enum list_marks marks);
struct list_item *list_add(struct arena *arena, struct block *list, struct span *text);

/* A table with `columns` shares of 1, copied. */
struct block *chain_table(struct chain *chain, const double *shares, size_t columns);
struct table_row *table_add_head(struct arena *arena, struct block *table);
struct table_row *table_add_row(struct arena *arena, struct block *table);
struct table_cell *row_add(struct arena *arena, struct table_row *row, struct span *text);
struct table_cell *row_add_head(struct arena *arena, struct table_row *row, const char *text);

/* A callout; its blocks are those of `inside`, which may grow before this is called. */
struct block *chain_callout(struct chain *chain, enum callout_tone tone, const char *title,
                            const struct chain *inside);

struct block *chain_picture(struct chain *chain, const struct scene *scene, const char *caption,
                            const char *alternative);

/* Two columns; `left_share` of 1. Nothing when both are empty, no columns when one is. */
void chain_beside(struct chain *chain, const struct chain *left, const struct chain *right,
                  double left_share);

/* What runs down `count` columns in turn; nothing when it is empty. */
void chain_poured(struct chain *chain, const struct chain *inside, size_t count);

/* Appends the blocks of another chain. */
void chain_append(struct chain *chain, const struct chain *other);

/* The first letter as a capital; ASCII and the small letters of Latin-1. */
const char *text_capital(struct arena *arena, const char *text);

#endif
