/* Blocks side by side, and blocks poured down one column and on into the next. */
#include <math.h>

#include "layout/page_breaks.h"

/* Between neighbours, as a share of the body's size. */
static const double GUTTER = 1.6;

static bool begins_section(const struct block *blocks)
{
    return blocks != NULL && blocks->kind == BLOCK_HEADING && blocks->as.heading.level == 2;
}

/* Sets one column's blocks; sections that begin in it are sections of the whole. */
static void column_set(struct composer *composer, struct place *place, struct place *column,
                       const struct block *blocks)
{
    column->base = begins_section(blocks) ? place->base : place->element;
    column->element = column->base;
    blocks_set(composer, column, blocks);
    if (begins_section(blocks))
        place->element = column->element;
}

/* A drawing may grow as high as what stands beside its column. */
static void note_room_beside(struct composer *composer, const struct stack *sides, size_t count,
                             size_t with_diagram)
{
    double own = stack_height_pt(sides[with_diagram].first, NULL), highest = own;
    for (size_t i = 0; i < count; i++)
        highest = fmax(highest, stack_height_pt(sides[i].first, NULL));
    composer->elastic.diagram_beside_pt = highest - own;
}

static bool set_side_by_side(struct composer *composer, struct place *place,
                             const struct column *columns, size_t count)
{
    struct stack *sides = ARENA_ARRAY(composer->arena, struct stack, count);
    double gutter = GUTTER * composer->look->body_pt;
    double width = place->width_pt - gutter * (double)(count - 1);
    double left = place->left_pt;
    size_t i = 0, with_diagram = count;
    const bool had_diagram = composer->elastic.has_diagram;
    for (const struct column *column = columns; column != NULL; column = column->next, i++) {
        struct place side = *place;
        side.stack = &sides[i];
        side.left_pt = left;
        side.width_pt = width * column->share;
        composer->elastic.has_diagram = false;
        column_set(composer, place, &side, column->blocks);
        with_diagram = composer->elastic.has_diagram ? i : with_diagram;
        left += side.width_pt + gutter;
    }
    composer->elastic.has_diagram = had_diagram || with_diagram < count;
    if (with_diagram < count)
        note_room_beside(composer, sides, count, with_diagram);
    return sides_join(composer, place, sides, count);
}

/* In a frame, which is drawn down one column, they stand one below the other. */
static void pour(struct composer *composer, struct place *place, const struct block *block)
{
    size_t count = block->as.columns.poured;
    count = count > PART_COLUMNS_MOST ? PART_COLUMNS_MOST : count;
    double gutter = GUTTER * composer->look->body_pt;
    double step = (place->width_pt + gutter) / (double)count;
    struct stack stack = {0};
    struct place first = *place;
    if (place->frame == NULL) {
        first.stack = &stack;
        first.width_pt = step - gutter;
    }
    column_set(composer, place, &first, block->as.columns.columns->blocks);
    if (stack.first != NULL)
        page_break_pour(composer, place, &stack, count, step);
}

void columns_set(struct composer *composer, struct place *place, const struct block *block)
{
    size_t count = 0;
    const struct column *columns = block->as.columns.columns;
    for (const struct column *column = columns; column != NULL; column = column->next)
        count++;
    if (count == 0)
        return;
    if (block->as.columns.poured > 1) {
        pour(composer, place, block);
        return;
    }
    size_t elements = composer->elements.count;
    int section = place->element;
    if (set_side_by_side(composer, place, columns, count))
        return;
    /* too high for any page: forget that trial and set the columns one after the other */
    composer->elements.count = elements;
    place->element = section;
    double gap = place->stack->gap_pt;
    for (const struct column *column = columns; column != NULL; column = column->next) {
        struct place whole = *place;
        place->stack->gap_pt = gap;
        column_set(composer, place, &whole, column->blocks);
        gap = composer->look->body_pt * composer->look->leading;
    }
}
