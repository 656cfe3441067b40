/* Stacks beside each other. */
#include "layout/block_setters.h"

bool sides_join(struct composer *composer, struct place *place, const struct stack *sides,
                size_t count)
{
    double height = 0;
    for (size_t i = 0; i < count; i++) {
        double side = stack_height_pt(sides[i].first, NULL);
        height = side > height ? side : height;
    }
    /* the paginator parts what is higher than a page, but not inside a frame */
    if (place->frame != NULL && height > composer->height_pt - place->reserve_pt)
        return false;
    struct fragment *fragment = stack_add(place->stack, composer->arena, height, place->frame);
    fragment->sides = sides;
    fragment->side_count = count;
    return true;
}
