/* A picture with its caption and alternative, scaled down where it is too wide. */
#include "layout/block_setters.h"
#include "layout/scene.h"

#include <math.h>

static const double PHOTO_PT_A_PX = 0.5, PHOTO_HEIGHT_PT = 170;
static const double CAPTION_GAP = 0.3; /* of the body's line distance */

static double caption_pt(struct composer *composer, const struct place *place,
                         const struct type_setting *type, const struct span *caption)
{
    struct text_lines lines = typeset_break(composer, type, caption, place->width_pt);
    return typeset_line_pt(type) * (double)lines.count;
}

/* At its natural size of 144 dots an inch, never larger, within the place and the page. */
static void photo_draw(struct composer *composer, const struct photo *photo,
                       const struct scene_room *room, struct fragment *fragment)
{
    double by =
        fmin(PHOTO_PT_A_PX, fmin(room->width_pt / photo->width_px,
                                 fmin(room->height_pt, PHOTO_HEIGHT_PT) / photo->height_px));
    struct op *op = fragment_add_op(fragment, composer->arena, OP_IMAGE, room->element);
    op->photo = photo;
    op->x = room->left_pt;
    op->y = 0;
    op->width = photo->width_px * by;
    op->height = photo->height_px * by;
    fragment->figure = room->element;
    fragment->figure_left = op->x;
    fragment->figure_right = op->x + op->width;
    fragment->figure_top = 0;
    fragment->figure_bottom = fragment->height_pt = op->height;
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
    if (block->as.picture.photo != NULL)
        photo_draw(composer, block->as.picture.photo, &room, fragment);
    else
        scene_draw(composer, block->as.picture.scene, &room, fragment);
    if (caption != NULL) {
        place->stack->gap_pt = gap;
        place->stack->glued = true;
        int element = elements_add(&composer->elements, ELEMENT_CAPTION, parent);
        typeset_text(composer, place, &type, caption, element);
    }
}
