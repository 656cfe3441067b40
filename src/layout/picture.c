/* A picture with its caption and alternative, scaled down where it is too wide. */
#include "layout/block_setters.h"
#include "layout/scene.h"

static const double CAPTION_GAP = 0.3; /* of the body's line distance */

static double caption_pt(struct composer *composer, const struct place *place,
                         const struct type_setting *type, const struct span *caption)
{
    struct text_lines lines = typeset_break(composer, type, caption, place->width_pt);
    return typeset_line_pt(type) * (double)lines.count;
}

void picture_set(struct composer *composer, struct place *place, const struct block *block)
{
    const struct span *caption = block->as.picture.caption;
    struct type_setting type = typeset_plain(composer, composer->look->small_pt);
    double gap = CAPTION_GAP * composer->look->body_pt * composer->look->leading;
    double page = composer->height_pt - place->reserve_pt;
    double below = caption != NULL ? gap + caption_pt(composer, place, &type, caption) : 0;
    /* a caption that would take most of the page flows on to the next */
    double limit = below < page / 2 ? page - below : page;

    int parent = place->element;
    if (caption != NULL)
        parent = elements_add(&composer->elements, ELEMENT_DIV, parent);
    int figure = elements_add(&composer->elements, ELEMENT_FIGURE, parent);
    elements_find(&composer->elements, figure)->alternative = block->as.picture.alternative;
    struct fragment *fragment = stack_add(place->stack, composer->arena, 0, place->frame);
    struct scene_room room = {.left_pt = place->left_pt,
                              .width_pt = place->width_pt,
                              .height_pt = limit,
                              .element = figure};
    scene_draw(composer, block->as.picture.scene, &room, fragment);
    if (caption != NULL) {
        place->stack->gap_pt = gap;
        place->stack->glued = true;
        int element = elements_add(&composer->elements, ELEMENT_CAPTION, parent);
        typeset_text(composer, place, &type, caption, element);
    }
}
