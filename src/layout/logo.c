/* Sets the clinic's logo beside the title. */
#include "layout/block_setters.h"

static const double HEIGHT_PT = 44, WIDTH_PT = 150; /* at most */
static const double POINTS_A_PIXEL = 0.75;          /* at 96 pixels an inch; never larger */
static const double GAP_PT = 14;                    /* beside the title */

static double scale(const struct logo *logo)
{
    double by_height = HEIGHT_PT / logo->height_px, by_width = WIDTH_PT / logo->width_px;
    double fitting = by_height < by_width ? by_height : by_width;
    return fitting < POINTS_A_PIXEL ? fitting : POINTS_A_PIXEL;
}

double logo_width_pt(const struct composer *composer)
{
    const struct logo *logo = composer->document->logo;
    return composer->logo_pending ? logo->width_px * scale(logo) + GAP_PT : 0;
}

void logo_set(struct composer *composer, struct place *place)
{
    const struct logo *logo = composer->document->logo;
    double width = logo->width_px * scale(logo), height = logo->height_px * scale(logo);
    int element = elements_add(&composer->elements, ELEMENT_FIGURE, place->element);
    elements_find(&composer->elements, element)->alternative = logo->alternative;
    struct fragment *fragment = stack_add(place->stack, composer->arena, height, place->frame);
    struct op *op = fragment_add_op(fragment, composer->arena, OP_IMAGE, element);
    op->x = place->left_pt + place->width_pt - width;
    op->width = width;
    op->height = height;
    fragment->figure = element;
    fragment->figure_left = op->x;
    fragment->figure_right = op->x + width;
    fragment->figure_bottom = height;
    composer->logo_pending = false;
}
