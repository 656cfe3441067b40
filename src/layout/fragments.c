/* Makes and joins fragments, the pieces that a page break may part. */
#include "layout/fragments.h"

struct fragment *stack_add(struct stack *stack, struct arena *arena, double height_pt,
                           const struct frame *frame)
{
    struct fragment *fragment = arena_take_unset(arena, sizeof *fragment);
    *fragment = (struct fragment){.height_pt = height_pt,
                                  .gap_pt = stack->gap_pt,
                                  .before = stack->glued    ? BREAK_GLUED
                                            : stack->lonely ? BREAK_LONELY
                                                            : BREAK_FREE,
                                  .new_page = stack->new_page,
                                  .figure = OPS_ARTIFACT,
                                  .frame = frame};
    if (stack->last != NULL)
        stack->last->next = fragment;
    else
        stack->first = fragment;
    stack->last = fragment;
    stack->gap_pt = 0;
    stack->lonely = stack->glued = stack->new_page = false;
    return fragment;
}

double stack_height_pt(const struct fragment *first, const struct fragment *end)
{
    double height = 0;
    for (const struct fragment *fragment = first; fragment != NULL && fragment != end;
         fragment = fragment->next)
        height += fragment->height_pt + (fragment != first ? fragment->gap_pt : 0);
    return height;
}

struct fragment *stack_after(const struct stack *stack, const struct fragment *mark)
{
    return mark != NULL ? mark->next : stack->first;
}

struct op *fragment_add_op(struct fragment *fragment, struct arena *arena, enum op_kind kind,
                           int element)
{
    struct op *op = arena_take_unset(arena, sizeof *op);
    *op = (struct op){.kind = kind, .element = element};
    if (fragment->last_op != NULL)
        fragment->last_op->next = op;
    else
        fragment->first_op = op;
    fragment->last_op = op;
    return op;
}

void fragment_put_before(struct fragment *fragment, struct fragment *front)
{
    if (front->first_op == NULL)
        return;
    front->last_op->next = fragment->first_op;
    fragment->first_op = front->first_op;
    if (fragment->last_op == NULL)
        fragment->last_op = front->last_op;
    front->first_op = front->last_op = NULL;
}

struct op *fragment_add_line(struct fragment *fragment, struct arena *arena, int element,
                             struct point from, struct point to)
{
    struct point *points = ARENA_ARRAY_UNSET(arena, struct point, 2);
    points[0] = from;
    points[1] = to;
    struct op *op = fragment_add_op(fragment, arena, OP_LINE, element);
    op->points = points;
    op->count = 2;
    op->stroked = true;
    return op;
}
