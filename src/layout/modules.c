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

static void add_square(struct fragment *fragment, struct arena *arena, int element, double x,
                       double y, double width, double height, struct rgb fill)
{
    struct op *op = fragment_add_op(fragment, arena, OP_RECT, element);
    op->x = x;
    op->y = y;
    op->width = width;
    op->height = height;
    op->filled = true;
    op->fill = fill;
}

void modules_draw(struct fragment *fragment, struct arena *arena, int element, double x, double y,
                  double side_pt, const uint8_t *bits, size_t count, struct rgb ink,
                  struct rgb paper)
{
    if (count == 0)
        return;
    double module = floor(side_pt / (double)count / STEP_PT) * STEP_PT;
    if (module < STEP_PT)
        module = side_pt / (double)count;
    double margin = (side_pt - module * (double)count) / 2;
    double left = round((x + margin) / STEP_PT) * STEP_PT;
    double top = round((y + margin) / STEP_PT) * STEP_PT;
    uint8_t *left_over = arena_take(arena, count * count);
    memcpy(left_over, bits, count * count);
    add_square(fragment, arena, element, x, y, side_pt, side_pt, paper);
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
        add_square(fragment, arena, element, left + module * (double)column,
                   top + module * (double)row, module * (double)width, module * (double)height,
                   ink);
    }
}
