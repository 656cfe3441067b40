/* Boxes around what operations draw, to see what overlaps. */
#include "page/boxes.h"

#include <math.h>
#include <string.h>

/* Coordinates are rounded to a hundredth of a point. */
static const double SLACK_PT = 0.02;

struct box {
    double left, top, right, bottom;
};

static struct box box_of(const struct op *op, const struct measure *measure)
{
    double half = op->stroked ? op->stroke_pt / 2 : 0;
    struct box box = {op->x, op->y, op->x + op->width, op->y + op->height};
    if (op->kind == OP_TEXT) {
        box.top = op->y - measure->ascent * op->size_pt;
        box.bottom = op->y + measure->descent * op->size_pt;
        return box;
    }
    if (op->kind == OP_CIRCLE) {
        box = (struct box){op->x - op->width, op->y - op->width, op->x + op->width,
                           op->y + op->width};
    } else if (op->points != NULL) {
        box = (struct box){op->points[0].x, op->points[0].y, op->points[0].x, op->points[0].y};
        for (size_t i = 0; i < op->count; i++) {
            box.left = fmin(box.left, op->points[i].x);
            box.right = fmax(box.right, op->points[i].x);
            box.top = fmin(box.top, op->points[i].y);
            box.bottom = fmax(box.bottom, op->points[i].y);
        }
    }
    /* a straight line ends at its points: its width goes across it only */
    bool lying = op->kind == OP_LINE && box.top == box.bottom;
    bool standing = op->kind == OP_LINE && box.left == box.right;
    return (struct box){box.left - (lying ? 0 : half), box.top - (standing ? 0 : half),
                        box.right + (lying ? 0 : half), box.bottom + (standing ? 0 : half)};
}

static bool overlap(struct box a, struct box b)
{
    return a.left < b.right - SLACK_PT && b.left < a.right - SLACK_PT &&
           a.top < b.bottom - SLACK_PT && b.top < a.bottom - SLACK_PT;
}

static const char *check_page(const struct paged *paged, size_t page, const struct measure *measure,
                              struct arena *arena)
{
    /* a page that is filled keeps what office printers leave white (common practice, no source) */
    static const double FILLED_MARGIN_PT = 15.9;
    const struct block *first = paged->document->blocks;
    double margin = paged->document->look.margin_pt - SLACK_PT;
    double across =
        first != NULL && first->kind == BLOCK_PAGE ? FILLED_MARGIN_PT - SLACK_PT : margin;
    for (const struct op *op = paged->pages[page].first; op != NULL; op = op->next) {
        struct box box = box_of(op, measure);
        if (box.left < margin || box.top < across || box.right > paged->page_width_pt - margin ||
            box.bottom > paged->page_height_pt - across) {
            return arena_format(arena,
                                "page %zu: kind %d \"%s\" (%.2f %.2f %.2f %.2f) in the margin",
                                page + 1, (int)op->kind, op->text != NULL ? op->text : "", box.left,
                                box.top, box.right, box.bottom);
        }
        if (op->kind != OP_TEXT)
            continue;
        double width =
            measure->width_pt(measure, op->style, op->size_pt, op->text, strlen(op->text));
        if (fabs(width - op->width) > SLACK_PT) {
            return arena_format(arena, "page %zu: \"%s\" is %.2f pt wide, not %.2f", page + 1,
                                op->text, width, op->width);
        }
        for (const struct op *other = op->next; other != NULL; other = other->next) {
            if (other->kind == OP_TEXT && overlap(box, box_of(other, measure))) {
                return arena_format(arena, "page %zu: \"%s\" and \"%s\" overlap", page + 1,
                                    op->text, other->text);
            }
        }
    }
    return NULL;
}

const char *layout_check_boxes(const struct paged *paged, const struct measure *measure,
                               struct arena *arena)
{
    const char *fault = NULL;
    for (size_t page = 0; page < paged->page_count && fault == NULL; page++)
        fault = check_page(paged, page, measure, arena);
    return fault;
}
