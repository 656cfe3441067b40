/* Short ways to make documents for tests. */
#include "page/make.h"

#include <string.h>

#include "base/strbuf.h"
#include "layout/layout.h"
#include "layout/measured_text.h"

struct document *make_document(struct arena *arena, enum paper paper)
{
    struct document *document = ARENA_NEW(arena, struct document);
    *document = (struct document){.lang = "en",
                                  .title = "A sheet",
                                  .subject = "What the tests lay out",
                                  .author = "A clinic",
                                  .keywords = "test",
                                  .created = "2026-03-14",
                                  .head_left = "Pickle, kept by A. Keeper",
                                  .head_right = "14 March 2026",
                                  .foot_left = "Elm Street Clinic, 555-0142",
                                  .page_of = "page {n} of {m}",
                                  .look = {.paper = paper,
                                           .margin_pt = 54,
                                           .body_pt = 12,
                                           .table_pt = 10.5,
                                           .small_pt = 9.5,
                                           .heading_pt = {22, 16, 14},
                                           .leading = 1.35,
                                           .inks = {[INK_TEXT] = {0, 0, 0},
                                                    [INK_MUTED] = {64, 64, 64},
                                                    [INK_ACCENT] = {0, 51, 40},
                                                    [INK_WARM] = {140, 62, 10},
                                                    [INK_COOL] = {20, 78, 122},
                                                    [INK_ALERT] = {163, 0, 30},
                                                    [INK_LEAF] = {40, 90, 36},
                                                    [INK_PAPER] = {255, 255, 255},
                                                    [INK_TINT] = {238, 238, 238}},
                                           .live_links = true}};
    return document;
}

struct maker make_at(struct arena *arena, struct block **first)
{
    return (struct maker){.arena = arena, .end = first};
}

struct span *make_span(struct arena *arena, const char *text)
{
    struct span *span = ARENA_NEW(arena, struct span);
    span->text = text;
    return span;
}

struct span *make_more(struct arena *arena, struct span *spans, const char *text,
                       enum text_style style)
{
    while (spans->next != NULL)
        spans = spans->next;
    spans->next = make_span(arena, text);
    spans->next->style = style;
    return spans->next;
}

struct block *make_block(struct maker *maker, enum block_kind kind)
{
    struct block *block = ARENA_NEW(maker->arena, struct block);
    block->kind = kind;
    *maker->end = block;
    maker->end = &block->next;
    return block;
}

struct block *make_heading(struct maker *maker, int level, const char *text)
{
    struct block *block = make_block(maker, BLOCK_HEADING);
    block->as.heading.level = level;
    block->as.heading.text = make_span(maker->arena, text);
    return block;
}

struct block *make_paragraph(struct maker *maker, const char *text)
{
    struct block *block = make_block(maker, BLOCK_PARAGRAPH);
    block->as.paragraph.text = make_span(maker->arena, text);
    return block;
}

const char *make_repeated(struct arena *arena, const char *text, int times)
{
    struct strbuf buf;
    strbuf_init(&buf, arena);
    for (int i = 0; i < times; i++) {
        strbuf_add(&buf, i > 0 ? " " : "");
        strbuf_add(&buf, text);
    }
    return buf.text;
}

struct block *make_list(struct maker *maker, enum list_marks marks)
{
    struct block *block = make_block(maker, BLOCK_LIST);
    block->as.list.marks = marks;
    return block;
}

struct list_item *make_item(struct maker *maker, struct block *list, const char *text)
{
    struct list_item **end = &list->as.list.items;
    while (*end != NULL)
        end = &(*end)->next;
    *end = ARENA_NEW(maker->arena, struct list_item);
    (*end)->text = text != NULL ? make_span(maker->arena, text) : NULL;
    return *end;
}

static struct table_row *parse_row(struct arena *arena, const char *cells)
{
    struct table_row *row = ARENA_NEW(arena, struct table_row);
    struct table_cell **end = &row->cells;
    for (;;) {
        size_t length = strcspn(cells, "|");
        *end = ARENA_NEW(arena, struct table_cell);
        if (length > 0)
            (*end)->text = make_span(arena, arena_copy_bytes(arena, cells, length));
        end = &(*end)->next;
        if (cells[length] == '\0')
            return row;
        cells += length + 1;
    }
}

struct block *make_table(struct maker *maker, size_t columns, const char *head)
{
    struct block *block = make_block(maker, BLOCK_TABLE);
    double *shares = ARENA_ARRAY(maker->arena, double, columns);
    for (size_t i = 0; i < columns; i++)
        shares[i] = 1.0 / (double)columns;
    block->as.table.shares = shares;
    block->as.table.columns = columns;
    block->as.table.head = head != NULL ? parse_row(maker->arena, head) : NULL;
    return block;
}

struct table_row *make_row(struct maker *maker, struct block *table, const char *cells)
{
    struct table_row **end = &table->as.table.rows;
    while (*end != NULL)
        end = &(*end)->next;
    *end = parse_row(maker->arena, cells);
    return *end;
}

struct block *make_callout(struct maker *maker, enum callout_tone tone, const char *title,
                           struct maker *inside)
{
    struct block *block = make_block(maker, BLOCK_CALLOUT);
    block->as.callout.tone = tone;
    block->as.callout.title = title != NULL ? make_span(maker->arena, title) : NULL;
    *inside = make_at(maker->arena, &block->as.callout.blocks);
    return block;
}

struct block *make_columns(struct maker *maker, size_t count, struct maker *inside)
{
    struct block *block = make_block(maker, BLOCK_COLUMNS);
    struct column **end = &block->as.columns.columns;
    for (size_t i = 0; i < count; i++) {
        *end = ARENA_NEW(maker->arena, struct column);
        (*end)->share = 1.0 / (double)count;
        inside[i] = make_at(maker->arena, &(*end)->blocks);
        end = &(*end)->next;
    }
    return block;
}

struct block *make_poured(struct maker *maker, size_t count, struct maker *inside)
{
    struct block *block = make_columns(maker, 1, inside);
    block->as.columns.poured = count;
    return block;
}

struct block *make_picture(struct maker *maker, double width_pt, double height_pt,
                           const char *alternative, const char *caption)
{
    struct block *block = make_block(maker, BLOCK_PICTURE);
    struct scene *scene = ARENA_NEW(maker->arena, struct scene);
    scene->width_pt = width_pt;
    scene->height_pt = height_pt;
    block->as.picture.scene = scene;
    block->as.picture.alternative = alternative;
    block->as.picture.caption = caption != NULL ? make_span(maker->arena, caption) : NULL;
    return block;
}

struct shape *make_shape(struct maker *maker, struct block *picture, struct shape shape)
{
    /* the document is const to its readers only */
    struct scene *scene = ARENA_NEW(maker->arena, struct scene);
    *scene = *picture->as.picture.scene;
    picture->as.picture.scene = scene;
    struct shape *copy = ARENA_NEW(maker->arena, struct shape);
    *copy = shape;
    struct point *points = ARENA_ARRAY(maker->arena, struct point, shape.count + 1);
    if (shape.points != NULL) {
        memcpy(points, shape.points, shape.count * sizeof *points);
        copy->points = points;
    }
    struct shape **end = &scene->first;
    while (*end != NULL)
        end = &(*end)->next;
    *end = copy;
    return copy;
}

bool make_pages(const struct document *document, const struct measure *measure, struct arena *arena,
                struct diag *diag, struct paged *out)
{
    struct text_store *texts = ARENA_NEW(arena, struct text_store);
    text_store_init(texts, measure, arena);
    return layout_document(document, texts, diag, out);
}
