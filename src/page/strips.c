#include "page/strips.h"

struct strip *stack_add(struct stack *stack, struct arena *arena, double height_pt,
                        const struct frame *frame)
{
    struct strip *strip = ARENA_NEW(arena, struct strip);
    *strip = (struct strip){.height_pt = height_pt,
                            .gap_pt = stack->gap_pt,
                            .before = stack->glued    ? BREAK_GLUED
                                      : stack->lonely ? BREAK_LONELY
                                                      : BREAK_FREE,
                            .new_page = stack->new_page,
                            .figure = OPS_ARTIFACT,
                            .frame = frame};
    if (stack->last != NULL) {
        stack->last->next = strip;
    } else {
        stack->first = strip;
    }
    stack->last = strip;
    stack->gap_pt = 0;
    stack->lonely = stack->glued = stack->new_page = false;
    return strip;
}

double stack_height_pt(const struct strip *first, const struct strip *end)
{
    double height = 0;
    for (const struct strip *strip = first; strip != NULL && strip != end; strip = strip->next) {
        height += strip->height_pt + (strip != first ? strip->gap_pt : 0);
    }
    return height;
}

struct strip *stack_after(const struct stack *stack, const struct strip *mark)
{
    return mark != NULL ? mark->next : stack->first;
}

struct op *strip_add_op(struct strip *strip, struct arena *arena, enum op_kind kind, int element)
{
    struct op *op = ARENA_NEW(arena, struct op);
    *op = (struct op){.kind = kind, .element = element};
    if (strip->last_op != NULL) {
        strip->last_op->next = op;
    } else {
        strip->first_op = op;
    }
    strip->last_op = op;
    return op;
}

void strip_put_before(struct strip *strip, struct strip *front)
{
    if (front->first_op == NULL) {
        return;
    }
    front->last_op->next = strip->first_op;
    strip->first_op = front->first_op;
    if (strip->last_op == NULL) {
        strip->last_op = front->last_op;
    }
    front->first_op = front->last_op = NULL;
}

struct op *strip_add_line(struct strip *strip, struct arena *arena, int element, struct point from,
                          struct point to)
{
    struct point *points = ARENA_ARRAY(arena, struct point, 2);
    points[0] = from;
    points[1] = to;
    struct op *op = strip_add_op(strip, arena, OP_LINE, element);
    op->points = points;
    op->count = 2;
    op->stroked = true;
    return op;
}
