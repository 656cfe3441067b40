/* Joins dark modules to rows and squares, so that a symbol takes few rectangles. */
#include "layout/modules.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

static const double STEP_PT = 0.25;

static bool is_dark_row(const uint8_t *bits, size_t from, size_t width)
{
    for (size_t i = 0; i < width; i++)
        if (!bits[from + i])
            return false;
    return true;
}

static struct op *add_rect(const struct pen *pen, double x, double y, struct rgb fill)
{
    struct op *op = fragment_add_op(pen->fragment, pen->arena, OP_RECT, pen->element);
    op->x = x;
    op->y = y;
    op->filled = true;
    op->fill = fill;
    return op;
}

void modules_draw(const struct pen *pen, struct square square, const uint8_t *bits, size_t count,
                  struct rgb ink, struct rgb paper)
{
    if (count == 0)
        return;
    double module = floor(square.side_pt / (double)count / STEP_PT) * STEP_PT;
    if (module < STEP_PT)
        module = square.side_pt / (double)count;
    double margin = (square.side_pt - module * (double)count) / 2;
    double left = round((square.x + margin) / STEP_PT) * STEP_PT;
    double top = round((square.y + margin) / STEP_PT) * STEP_PT;
    uint8_t *left_over = arena_take(pen->arena, count * count);
    memcpy(left_over, bits, count * count);
    struct op *ground = add_rect(pen, square.x, square.y, paper);
    ground->width = ground->height = square.side_pt;
    for (size_t at = 0; at < count * count; at++) {
        size_t column = at % count, row = at / count, width = 0, height = 1;
        while (column + width < count && left_over[at + width])
            width++;
        if (width == 0)
            continue;
        while (row + height < count && is_dark_row(left_over, at + height * count, width))
            height++;
        for (size_t k = 0; k < height; k++)
            memset(left_over + at + k * count, 0, width);
        struct op *dark =
            add_rect(pen, left + module * (double)column, top + module * (double)row, ink);
        dark->width = module * (double)width;
        dark->height = module * (double)height;
    }
}
