/* Small pictures at the right of a panel's words: in the columns with which the whole is lowest. */
#include <math.h>
#include <string.h>

#include "layout/panels.h"

static const double GAP_PT = 8, APART_PT = 6, BELOW_RULE_PT = 5, RULE_PT = 2;

struct grid {
    const struct composer *composer;
    const struct cuts *cuts;
    size_t columns;
};

static const char *word_of(const struct cuts *cuts, size_t at)
{
    return cuts->words != NULL ? cuts->words[at] : "";
}

/* The line of the words that begins at `text`; the next one begins behind it, or is NULL. */
static const char *take_line(const struct grid *grid, const char **text)
{
    const size_t length = strcspn(*text, "\n");
    const char *line = arena_copy_bytes(grid->composer->arena, *text, length);
    *text = (*text)[length] ? *text + length + 1 : NULL;
    return line;
}

/* As wide as the widest picture or line of words. */
static double column_width(const struct grid *grid)
{
    const struct lettering pen = {.size_pt = PANEL_TEXT_PT};
    const struct cuts *cuts = grid->cuts;
    double widest = 0;
    for (size_t i = 0; i < cuts->count; i++) {
        widest = fmax(widest, cuts->drawn[i]->sign.field * cuts->unit_pt);
        for (const char *text = word_of(cuts, i); text;)
            widest = fmax(widest, board_width_pt(grid->composer, &pen, take_line(grid, &text)));
    }
    return widest;
}

static double grid_width(const struct grid *grid)
{
    return (double)grid->columns * (column_width(grid) + APART_PT) - APART_PT;
}

static const double LINE_PT = 13, NEXT_LINE_PT = 10.5;

static double word_pt(const struct cuts *cuts, size_t at)
{
    double height = cuts->words != NULL ? LINE_PT : 0;
    for (const char *more = strchr(word_of(cuts, at), '\n'); more; more = strchr(more + 1, '\n'))
        height += NEXT_LINE_PT;
    return height;
}

/* Where the row of this one begins; of the one behind the last, where the grid ends. */
static double row_top(const struct grid *grid, size_t at)
{
    const size_t rows = (at + grid->columns - 1) / grid->columns,
                 row = at < grid->cuts->count ? at / grid->columns : rows;
    double top = BELOW_RULE_PT, highest = 0;
    for (size_t i = 0; i < grid->cuts->count && i / grid->columns < row; i++) {
        highest = fmax(highest,
                       grid->cuts->drawn[i]->height * grid->cuts->unit_pt + word_pt(grid->cuts, i));
        if ((i + 1) % grid->columns != 0 && i + 1 < grid->cuts->count)
            continue;
        top += highest + APART_PT;
        highest = 0;
    }
    return top;
}

static double grid_height(const struct grid *grid)
{
    return row_top(grid, grid->cuts->count) - APART_PT;
}

/* The place that is left for the words. */
static struct place beside(const struct place *place, const struct grid *grid)
{
    struct place narrow = *place;
    narrow.width_pt -= grid_width(grid) + GAP_PT;
    return narrow;
}

/* How high the panel is then; nothing of it stays. */
static double height_with(struct composer *composer, const struct place *place,
                          const struct panel *panel, panel_setter *set, const struct grid *grid)
{
    const size_t elements = composer->elements.count;
    struct stack stack = {0};
    struct place narrow = beside(place, grid);
    narrow.stack = &stack;
    set(composer, &narrow, panel);
    composer->elements.count = elements;
    return fmax(stack_height_pt(stack.first, NULL), grid_height(grid));
}

static size_t best_columns(struct composer *composer, const struct place *place,
                           const struct panel *panel, panel_setter *set)
{
    struct grid grid = {composer, panel->cuts, 1};
    size_t best = 1;
    double least = HUGE_VAL;
    for (; grid.columns <= panel->cuts->count; grid.columns++) {
        const double height = height_with(composer, place, panel, set, &grid);
        best = height < least ? grid.columns : best;
        least = fmin(least, height);
    }
    return best;
}

/* Below the heading's rule, which goes on above them; `up` from the board's top to that rule. They
 * are drawn behind the words, as they are read. */
static void draw_cuts(const struct board *board, int figure, const struct grid *grid, double up)
{
    static const double BASE = 10;
    const double right = board->left_pt + board->width_pt, left = right - grid_width(grid),
                 step = column_width(grid) + APART_PT;
    const struct lettering pen = {.element = figure, .size_pt = PANEL_TEXT_PT};
    board_rule(board, left - GAP_PT, RULE_PT / 2 - up, right, RULE_PT / 2 - up, RULE_PT);
    for (size_t i = 0; i < grid->cuts->count; i++) {
        const struct cut *cut = grid->cuts->drawn[i];
        board_pictogram(board, &cut->sign,
                        (struct pictogram_place){.element = figure,
                                                 .x = left + (double)(i % grid->columns) * step,
                                                 .y = row_top(grid, i) - up,
                                                 .size_pt = cut->sign.field * grid->cuts->unit_pt});
        double base = row_top(grid, i) - up + cut->height * grid->cuts->unit_pt + BASE;
        for (const char *text = word_of(grid->cuts, i); text; base += NEXT_LINE_PT)
            board_text(board, &pen, left + (double)(i % grid->columns) * step, base,
                       take_line(grid, &text));
    }
    board->fragment->figure = figure;
    board->fragment->figure_left = left;
    board->fragment->figure_right = right;
    board->fragment->figure_top = BELOW_RULE_PT - up;
    board->fragment->figure_bottom = grid_height(grid) - up;
}

void panel_beside_cuts(struct composer *composer, struct place *place, const struct panel *panel,
                       panel_setter *set)
{
    const struct fragment *mark = place->stack->last;
    struct grid grid = {composer, panel->cuts, best_columns(composer, place, panel, set)};
    struct place narrow = beside(place, &grid);
    set(composer, &narrow, panel);
    place->element = narrow.element;
    struct fragment *first = stack_after(place->stack, mark);
    if (first == NULL)
        return; /* it says nothing */
    const int figure = elements_add(&composer->elements, ELEMENT_FIGURE, place->element);
    elements_find(&composer->elements, figure)->alternative = panel->cuts->alternative;
    struct fragment *last = place->stack->last;
    const double height = stack_height_pt(first, NULL);
    const struct board board = {composer, last, place->left_pt, place->width_pt};
    draw_cuts(&board, figure, &grid, height - last->height_pt);
    last->height_pt += fmax(0, grid_height(&grid) - height);
}
