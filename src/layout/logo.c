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

double logo_draw(struct composer *composer, struct fragment *fragment, int parent, double x,
                 double y, double height_pt)
{
    const struct logo *logo = composer->document->logo;
    double by = scale(logo);
    by = logo->height_px * by > height_pt ? height_pt / logo->height_px : by;
    int element = elements_add(&composer->elements, ELEMENT_FIGURE, parent);
    elements_find(&composer->elements, element)->alternative = logo->alternative;
    struct op *op = fragment_add_op(fragment, composer->arena, OP_IMAGE, element);
    op->x = x;
    op->y = y;
    op->width = logo->width_px * by;
    op->height = logo->height_px * by;
    fragment->figure = element;
    fragment->figure_left = x;
    fragment->figure_right = x + op->width;
    fragment->figure_top = y;
    fragment->figure_bottom = y + op->height;
    composer->logo_pending = false;
    return op->width;
}

void logo_set(struct composer *composer, struct place *place)
{
    struct fragment *fragment = stack_add(place->stack, composer->arena, 0, place->frame);
    double width = logo_width_pt(composer) - GAP_PT;
    logo_draw(composer, fragment, place->element, place->left_pt + place->width_pt - width, 0,
              HEIGHT_PT);
    fragment->height_pt = fragment->figure_bottom;
}
