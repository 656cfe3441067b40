/* The margins of a page that is filled, and the small line at its foot. */
#include "layout/board.h"
#include "layout/header_footer.h"
#include "layout/page_fit.h"
#include "layout/paginate.h"

static const double MARGIN_PT = 26, FOOT_BASE_PT = 18.5, ABOVE_FOOT_PT = 6;
static const double SIZE_PT = 12, LEAST_SIZE_PT = 10;

void page_foot_plan(struct composer *composer)
{
    /* above an accent of the first line */
    static const double RISE_PT = 1;
    double top = composer->look->to_edges ? LOOK_LEAST_MARGIN_PT + RISE_PT : MARGIN_PT;
    composer->top_pt = top;
    composer->height_pt = composer->page_height_pt - top - MARGIN_PT - ABOVE_FOOT_PT;
}

/* The size at which the line has room beside the page's number; the smaller one where neither has.
 */
static double foot_size_pt(const struct composer *composer, const char *number)
{
    struct lettering pen = {.size_pt = SIZE_PT};
    double both = board_width_pt(composer, &pen, composer->document->foot_left) + SIZE_PT +
                  board_width_pt(composer, &pen, number);
    return both <= composer->width_pt ? SIZE_PT : LEAST_SIZE_PT;
}

void page_foot_add(struct composer *composer, struct paged *out)
{
    for (size_t page = 0; page < out->page_count; page++) {
        struct fragment foot = {0};
        struct board board = {composer, &foot, composer->left_pt, composer->width_pt};
        /* read aloud once, behind all else */
        bool is_last = page + 1 == out->page_count;
        const char *number = header_footer_page_of(composer, page + 1, out->page_count);
        double size = foot_size_pt(composer, number);
        struct lettering pen = {.element = OPS_ARTIFACT, .size_pt = size};
        double room = composer->width_pt - board_width_pt(composer, &pen, number) - size;
        struct text_lines left = board_break(composer, &pen, composer->document->foot_left, room);
        left.count = left.count > 1 ? 1 : left.count;
        if (is_last && left.count > 0 && composer->document->reads_head)
            pen.element = elements_add(&composer->elements, ELEMENT_P, 0);
        board_lines(&board, &pen, &left, (struct text_place){composer->left_pt, 0, room, size});
        pen.align = ANCHOR_RIGHT;
        pen.element = OPS_ARTIFACT;
        board_text(&board, &pen, composer->left_pt + composer->width_pt, 0, number);
        double base = composer->page_height_pt - FOOT_BASE_PT;
        paginate_copy(composer, &foot, (struct page_place){out, page, 0, base}, !is_last);
    }
}
