/* Appends blocks, spans, rows and cells; no layout here. */
#include "document/block_builder.h"

#include <string.h>

struct block_builder builder_start(struct arena *arena, const char *section)
{
    return (struct block_builder){.arena = arena, .section = section};
}

/* ---- spans ------------------------------------------------------------------------ */

struct span *span_plain(struct arena *arena, const char *text)
{
    if (!text || !*text)
        return NULL;
    struct span *span = ARENA_NEW(arena, struct span);
    span->text = text;
    return span;
}

struct span *span_strong(struct arena *arena, const char *text)
{
    struct span *span = span_plain(arena, text);
    if (span)
        span->style = TEXT_STRONG;
    return span;
}

static struct span *join_with(struct arena *arena, struct span *spans, struct span *next,
                              const char *between)
{
    if (!spans || !next)
        return spans ? spans : next;
    struct span *last = spans;
    while (last->next)
        last = last->next;
    struct span *gap = span_plain(arena, between);
    if (gap)
        gap->next = next;
    last->next = gap ? gap : next;
    return spans;
}

struct span *span_join(struct arena *arena, struct span *spans, struct span *next)
{
    return join_with(arena, spans, next, " ");
}

struct span *span_below(struct arena *arena, struct span *spans, struct span *next)
{
    return join_with(arena, spans, next, "\n");
}

/* ---- blocks ------------------------------------------------------------------------- */

static void put(struct block_builder *builder, struct block *block)
{
    if (builder->last)
        builder->last->next = block;
    else
        builder->first = block;
    builder->last = block;
}

struct block *builder_add(struct block_builder *builder, enum block_kind kind)
{
    struct block *block = ARENA_NEW(builder->arena, struct block);
    block->kind = kind;
    block->section = builder->section;
    put(builder, block);
    return block;
}

struct block *builder_heading(struct block_builder *builder, int level, const char *text)
{
    struct block *block = builder_add(builder, BLOCK_HEADING);
    block->as.heading.level = level;
    block->as.heading.text = span_plain(builder->arena, text);
    block->keep_with_next = true;
    return block;
}

struct block *builder_spans(struct block_builder *builder, struct span *text,
                            enum paragraph_size size)
{
    if (!text)
        return ARENA_NEW(builder->arena, struct block);
    struct block *block = builder_add(builder, BLOCK_PARAGRAPH);
    block->as.paragraph.text = text;
    block->as.paragraph.size = size;
    return block;
}

struct block *builder_paragraph(struct block_builder *builder, const char *text)
{
    return builder_spans(builder, span_plain(builder->arena, text), PARAGRAPH_BODY);
}

struct block *builder_list(struct block_builder *builder, enum list_marks marks)
{
    struct block *block = builder_add(builder, BLOCK_LIST);
    block->as.list.marks = marks;
    return block;
}

struct list_item *list_add(struct arena *arena, struct block *list, struct span *text)
{
    struct list_item *item = ARENA_NEW(arena, struct list_item);
    item->text = text;
    if (!text)
        return item;
    struct list_item **end = &list->as.list.items;
    while (*end)
        end = &(*end)->next;
    *end = item;
    return item;
}

struct block *builder_table(struct block_builder *builder, const double *shares, size_t columns)
{
    struct block *block = builder_add(builder, BLOCK_TABLE);
    double *copy = ARENA_ARRAY(builder->arena, double, columns);
    memcpy(copy, shares, columns * sizeof *copy);
    block->as.table.shares = copy;
    block->as.table.columns = columns;
    return block;
}

struct table_row *table_add_head(struct arena *arena, struct block *table)
{
    table->as.table.head = ARENA_NEW(arena, struct table_row);
    return table->as.table.head;
}

struct table_row *table_add_row(struct arena *arena, struct block *table)
{
    struct table_row **end = &table->as.table.rows;
    while (*end)
        end = &(*end)->next;
    *end = ARENA_NEW(arena, struct table_row);
    return *end;
}

struct table_cell *row_add(struct arena *arena, struct table_row *row, struct span *text)
{
    struct table_cell **end = &row->cells;
    while (*end)
        end = &(*end)->next;
    *end = ARENA_NEW(arena, struct table_cell);
    (*end)->text = text;
    (*end)->align = ANCHOR_LEFT;
    return *end;
}

struct table_cell *row_add_head(struct arena *arena, struct table_row *row, const char *text)
{
    struct table_cell *cell = row_add(arena, row, span_strong(arena, text));
    cell->is_row_head = true;
    return cell;
}

struct block *builder_callout(struct block_builder *builder, enum callout_tone tone,
                              const char *title, const struct block_builder *inside)
{
    struct block *block = builder_add(builder, BLOCK_CALLOUT);
    block->as.callout.tone = tone;
    block->as.callout.title = title ? span_strong(builder->arena, title) : NULL;
    block->as.callout.blocks = inside->first;
    return block;
}

struct block *builder_picture(struct block_builder *builder, const struct scene *scene,
                              const char *caption, const char *alternative)
{
    struct block *block = builder_add(builder, BLOCK_PICTURE);
    block->keep_together = true;
    block->as.picture.scene = scene;
    block->as.picture.caption = caption ? span_plain(builder->arena, caption) : NULL;
    block->as.picture.alternative = alternative;
    return block;
}

struct block *builder_photo(struct block_builder *builder, const struct photo *photo,
                            const char *alternative)
{
    struct block *block = builder_picture(builder, NULL, NULL, alternative);
    block->as.picture.photo = photo;
    return block;
}

void builder_append(struct block_builder *builder, const struct block_builder *other)
{
    if (!other->first)
        return;
    put(builder, other->first);
    builder->last = other->last;
}

void builder_drop_empty(struct block_builder *builder)
{
    bool says = false;
    struct block **end = &builder->first;
    builder->last = NULL;
    while (*end) {
        struct block *block = *end;
        if (block->kind == BLOCK_TABLE && !block->as.table.rows) {
            *end = block->next;
            continue;
        }
        says |= block->kind != BLOCK_HEADING;
        builder->last = block;
        end = &block->next;
    }
    if (!says)
        builder->first = builder->last = NULL;
}

static struct column *make_column(const struct block_builder *builder, double share)
{
    struct column *column = ARENA_NEW(builder->arena, struct column);
    column->blocks = builder->first;
    column->share = share;
    return column;
}

void builder_beside(struct block_builder *builder, const struct block_builder *left,
                    const struct block_builder *right, double left_share)
{
    if (!left->first || !right->first) {
        builder_append(builder, left);
        builder_append(builder, right);
        return;
    }
    struct block *block = builder_add(builder, BLOCK_COLUMNS);
    block->as.columns.columns = make_column(left, left_share);
    block->as.columns.columns->next = make_column(right, 1 - left_share);
}

void builder_poured(struct block_builder *builder, const struct block_builder *inside, size_t count)
{
    if (!inside->first)
        return;
    struct block *block = builder_add(builder, BLOCK_COLUMNS);
    block->as.columns.columns = make_column(inside, 1);
    block->as.columns.poured = count;
}

const char *text_capital(struct arena *arena, const char *text)
{
    char *copy = arena_copy_text(arena, text);
    unsigned char *c = (unsigned char *)copy;
    if (c[0] >= 'a' && c[0] <= 'z')
        c[0] = (unsigned char)(c[0] - 'a' + 'A');
    else if (c[0] == 0xC3 && c[1] >= 0xA0 && c[1] <= 0xBE && c[1] != 0xB7)
        c[1] = (unsigned char)(c[1] - 0x20); /* U+00E0..U+00FE -> U+00C0..U+00DE */
    return copy;
}
const char *text_small(struct arena *arena, const char *text)
{
    char *copy = arena_copy_text(arena, text);
    unsigned char *c = (unsigned char *)copy;
    bool is_short_form = c[0] && ((c[1] >= 'A' && c[1] <= 'Z') || (c[1] >= '0' && c[1] <= '9'));
    if (c[0] >= 'A' && c[0] <= 'Z' && !is_short_form)
        c[0] = (unsigned char)(c[0] - 'A' + 'a');
    else if (c[0] == 0xC3 && c[1] >= 0x80 && c[1] <= 0x9E && c[1] != 0x97)
        c[1] = (unsigned char)(c[1] + 0x20); /* U+00C0..U+00DE -> U+00E0..U+00FE */
    return copy;
}

const char *text_ended(struct arena *arena, const char *text)
{
    static const char ELLIPSIS[] = "\xe2\x80\xa6";
    const size_t most = sizeof ELLIPSIS - 1;
    size_t end = strlen(text);
    while (end > 0 && strchr(")\"'", text[end - 1]))
        end--;
    if (end == 0)
        return text;
    const bool ends = strchr(".!?", text[end - 1]) ||
                      (end >= most && strncmp(text + end - most, ELLIPSIS, most) == 0);
    return ends ? text : arena_format(arena, "%s.", text);
}
