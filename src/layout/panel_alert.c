/* When to go at once: a solid bar with the telephones, and below it cells of signs and words. */
#include <math.h>

#include "layout/panels.h"

static const double FRAME_PT = 2.5, PAD_PT = 8, SIDE_PT = 5, RULE_PT = 0.75;

/* The foot of a page, and a page of its own from the roomiest on, each up to a gap between blocks.
 */
struct alert_sizes {
    double least_gap_pt;
    double bar_pt, title_pt, telephone_pt; /* a further telephone stands below */
    double sign_pt, text_pt, line_pt, above_pt;
    size_t columns;
};

static const struct alert_sizes foot_sizes = {0, 27, 20, 16, 25, PANEL_TEXT_PT, 13.2, 4, 3};
static const struct alert_sizes close_sizes = {0, 25, 20, 16, 25, PANEL_TEXT_PT, 12.9, 3, 3};
static const struct alert_sizes page_sizes[] = {{6, 50, 40, 40, 72, 16, 19, 9, 2},
                                                {3, 46, 36, 36, 54, 16, 18, 6, 2},
                                                {0, 40, 30, 30, 36, 14, 16, 5, 2}};

struct alert {
    const struct alert_sizes *sizes;
    struct composer *composer;
    const struct panel *panel;
    struct place *place;
    struct board board;
};

static double base_pt(const struct alert *a)
{
    return a->sizes->bar_pt / 2 + a->sizes->title_pt * 0.325;
}

static size_t telephone_count(const struct panel *panel)
{
    size_t count = 0;
    for (const struct panel_entry *e = panel->telephones; e != NULL; e = e->next)
        count++;
    return count;
}

/* A telephone a line, `line` apart, so large that the longest stands beside the title. */
static void draw_telephones(const struct alert *a, double room, double line)
{
    static const double LEAST = 12;
    const struct board *board = &a->board;
    double y = base_pt(a), size = a->sizes->telephone_pt;
    struct panel one = *a->panel;
    for (const struct panel_entry *e = a->panel->telephones; e != NULL; e = e->next) {
        struct panel_entry alone = *e;
        alone.next = NULL;
        one.telephones = &alone;
        while (size > LEAST && panel_telephones_pt(a->composer, size, &one) > room)
            size -= 1;
    }
    for (const struct panel_entry *e = a->panel->telephones; e != NULL; e = e->next, y += line) {
        struct panel_entry alone = *e;
        alone.next = NULL;
        one.telephones = &alone;
        panel_telephones(
            board,
            &(struct lettering){.element = a->place->element, .size_pt = size, .is_paper = true},
            &one, board->left_pt + board->width_pt - PAD_PT - 2, y);
    }
}

/* The largest size at which all numbers stand on one line beside the title; 0 for none. */
static double one_line_size(const struct alert *a, const struct panel *panel, double room)
{
    static const double LEAST = 14;
    double size = a->sizes->telephone_pt;
    while (size >= LEAST && panel_telephones_pt(a->composer, size, panel) > room)
        size -= 1;
    return size >= LEAST ? size : 0;
}

/* The first number is the usual one: it can do without its word. */
static struct panel without_first_word(const struct panel *panel, struct panel_entry *first)
{
    struct panel bare = *panel;
    if (panel->telephones != NULL) {
        *first = *panel->telephones;
        first->title = NULL;
        bare.telephones = first;
    }
    return bare;
}

/* The numbers on one line beside the title, or a line each where they have no room on one. Returns
 * its lower edge. */
static double draw_bar(struct alert *a, int heading)
{
    static const double NEXT_LINE = 19;
    const struct board *board = &a->board;
    struct lettering title = {
        .element = heading, .size_pt = a->sizes->title_pt, .strong = true, .is_paper = true};
    double base = base_pt(a), left = board->left_pt + PAD_PT + 2;
    double room = board->width_pt - board_width_pt(a->composer, &title, a->panel->title);
    room -= 3 * PAD_PT;
    bool large = a->panel->is_large;
    struct panel_entry first;
    struct panel shown = *a->panel;
    double size = large ? 0 : one_line_size(a, &shown, room);
    if (!large && size <= 0) {
        shown = without_first_word(a->panel, &first);
        size = one_line_size(a, &shown, room);
    }
    bool stacked = size <= 0;
    size_t count = telephone_count(a->panel);
    double line = large ? a->sizes->bar_pt : NEXT_LINE, bar = a->sizes->bar_pt;
    bar += stacked && count > 1 ? line * (double)(count - 1) : 0;
    board_solid(board, board->left_pt, 0, board->width_pt, bar);
    board_text(board, &title, left, base, a->panel->title);
    if (stacked)
        draw_telephones(a, room, line);
    else
        panel_telephones(
            board,
            &(struct lettering){.element = a->place->element, .size_pt = size, .is_paper = true},
            &shown, board->left_pt + board->width_pt - PAD_PT - 2, base);
    return bar;
}

/* Lines over the whole width: where to go, and what holds for this one alone. */
static double draw_lines(struct alert *a, double y)
{
    const char *const texts[] = {a->panel->aside, a->panel->text};
    for (size_t i = 0; i < 2; i++) {
        if (texts[i] == NULL)
            continue;
        struct lettering pen = {.element = board_element(&a->board, ELEMENT_P, a->place->element),
                                .size_pt = a->sizes->text_pt,
                                .strong = i == 1};
        double line = a->sizes->line_pt;
        double width = a->board.width_pt - 2 * (PAD_PT + FRAME_PT);
        struct text_lines lines = board_break(a->composer, &pen, texts[i], width);
        y = board_lines(&a->board, &pen, &lines,
                        (struct text_place){a->board.left_pt + PAD_PT + FRAME_PT,
                                            y + a->sizes->text_pt, width, line}) -
            line + 5;
        board_rule(&a->board, a->board.left_pt + FRAME_PT, y,
                   a->board.left_pt + a->board.width_pt - FRAME_PT, y, 0.75);
    }
    return y;
}

/* How many cells stand in the row that begins with this one: those of the last row share it. */
static size_t cells_in_row(const struct alert *a, const struct panel_entry *entry)
{
    size_t count = 0;
    for (; entry != NULL && count < a->sizes->columns; entry = entry->next)
        count++;
    return count;
}

/* Where the words of a cell stand, and how high it is. */
struct cell {
    double beside_pt, room_pt, height_pt;
    struct text_lines lines;
};

static struct cell measure_cell(const struct alert *a, const struct panel_entry *entry,
                                double width)
{
    double sign = entry->pictogram != NULL ? a->sizes->sign_pt : 0;
    struct cell cell = {.beside_pt = sign > 0 ? sign + 6 : 0};
    cell.room_pt = width - cell.beside_pt - 2 * SIDE_PT;
    struct lettering pen = {.size_pt = a->sizes->text_pt};
    cell.lines = board_break(a->composer, &pen, entry->text, cell.room_pt);
    double words = a->sizes->text_pt - 2 + a->sizes->line_pt * ((double)cell.lines.count - 1);
    cell.height_pt = fmax(words + a->sizes->above_pt, sign > 0 ? sign + 2 : 0);
    return cell;
}

/* One cell: the sign at the left of its words. Returns its height. */
static double draw_cell(struct alert *a, int list, const struct panel_entry *entry, double x,
                        double top, double width)
{
    const struct board *board = &a->board;
    double size = a->sizes->text_pt;
    struct cell cell = measure_cell(a, entry, width);
    int item = board_element(board, ELEMENT_LI, list);
    struct lettering pen = {.element = board_element(board, ELEMENT_LBODY, item), .size_pt = size};
    board_pictogram(
        board, entry->pictogram,
        (struct pictogram_place){OPS_ARTIFACT, x + SIDE_PT, top, a->sizes->sign_pt, false, false});
    board_lines(board, &pen, &cell.lines,
                (struct text_place){x + SIDE_PT + cell.beside_pt, top + size - 2, cell.room_pt,
                                    a->sizes->line_pt});
    return cell.height_pt;
}

/* A row of cells from *entry on, which moves behind them; returns its lower edge. */
static double draw_row(struct alert *a, int list, const struct panel_entry **entry, double top)
{
    const struct board *board = &a->board;
    size_t count = cells_in_row(a, *entry);
    double width = (board->width_pt - 2 * FRAME_PT) / (double)count;
    double left = board->left_pt + FRAME_PT, bottom = top, above = a->sizes->above_pt;
    for (size_t i = 0; i < count; i++, *entry = (*entry)->next)
        bottom = fmax(bottom,
                      top + above +
                          draw_cell(a, list, *entry, left + width * (double)i, top + above, width));
    for (size_t i = 1; i < count; i++)
        board_rule(board, left + width * (double)i, top, left + width * (double)i, bottom, RULE_PT);
    if (*entry != NULL)
        board_rule(board, left, bottom, left + width * (double)count, bottom, RULE_PT);
    return bottom;
}

static double measure_rows(const struct alert *a)
{
    double height = 0;
    for (const struct panel_entry *entry = a->panel->entries; entry != NULL;) {
        size_t count = cells_in_row(a, entry);
        double width = (a->board.width_pt - 2 * FRAME_PT) / (double)count, row = 0;
        for (size_t i = 0; i < count; i++, entry = entry->next)
            row = fmax(row, measure_cell(a, entry, width).height_pt);
        height += a->sizes->above_pt + row;
    }
    return height;
}

enum { CELLS_MOST = 16, COLUMNS_MOST = 3, SHARES_MOST = 5 };

/* Cells one below the other in columns of their own: one that is long lengthens no other. */
struct cell_columns {
    size_t ends[COLUMNS_MOST]; /* the cell behind the last of each */
    const double *shares;      /* of the width */
    double height_pt;
};

/* Where room is short the column of what needs most words may be the widest. SHARES_MOST are
 * unlike.
 */
static const double column_shares[][COLUMNS_MOST] = {
    {1. / 3, 1. / 3, 1. / 3}, {.30, .40, .30}, {.30, .30, .40}, {.40, .30, .30},
    {.36, .36, .28},          {.28, .36, .36}, {.36, .28, .36}};

static double columns_width(const struct alert *a)
{
    return a->board.width_pt - 2 * FRAME_PT;
}

/* How high the cells are in a column of each of the shares, measured once. */
struct cell_heights {
    double shares[SHARES_MOST], heights[SHARES_MOST][CELLS_MOST];
    size_t share_count, cell_count;
};

static const double *measure_cells(const struct alert *a, double share, struct cell_heights *known)
{
    size_t at = 0, count = 0;
    while (at < known->share_count && known->shares[at] != share)
        at++;
    if (at < known->share_count)
        return known->heights[at];
    for (const struct panel_entry *e = a->panel->entries; e != NULL && count < CELLS_MOST;
         e = e->next)
        known->heights[at][count++] =
            a->sizes->above_pt + measure_cell(a, e, columns_width(a) * share).height_pt;
    known->shares[at] = share;
    known->share_count++;
    known->cell_count = count;
    return known->heights[at];
}

static double stretch_height(const double *heights, size_t from, size_t to)
{
    double height = 0;
    for (; from < to; from++)
        height += heights[from];
    return height;
}

/* The cuts that make the highest of columns of these shares lowest; the cells keep their order. */
static void cut_shares(const struct alert *a, const double *shares, struct cell_heights *known,
                       struct cell_columns *best)
{
    static const double LESS = 1; /* not worth unlike columns */
    const double *heights[COLUMNS_MOST];
    for (size_t column = 0; column < COLUMNS_MOST; column++)
        heights[column] = measure_cells(a, shares[column], known);
    const size_t count = known->cell_count;
    for (size_t i = 1; i + 1 < count; i++)
        for (size_t k = i + 1; k < count; k++) {
            double height =
                fmax(stretch_height(heights[0], 0, i),
                     fmax(stretch_height(heights[1], i, k), stretch_height(heights[2], k, count)));
            if (height < best->height_pt - (shares == best->shares ? 0 : LESS))
                *best = (struct cell_columns){{i, k, count}, shares, height};
        }
}

static struct cell_columns cut_columns(const struct alert *a)
{
    const size_t shares =
        panel_is_close(a->composer) ? sizeof column_shares / sizeof *column_shares : 1;
    struct cell_columns best = {.shares = column_shares[0], .height_pt = HUGE_VAL};
    struct cell_heights known = {.share_count = 0};
    size_t count = 0;
    for (const struct panel_entry *e = a->panel->entries; e != NULL; e = e->next)
        count++;
    for (size_t i = 0; i < shares && count <= CELLS_MOST; i++)
        cut_shares(a, column_shares[i], &known, &best);
    return best;
}

static double draw_columns(struct alert *a, int list, const struct cell_columns *columns,
                           double top)
{
    const struct board *board = &a->board;
    const struct panel_entry *entry = a->panel->entries;
    double x = board->left_pt + FRAME_PT;
    size_t i = 0;
    for (size_t column = 0; column < COLUMNS_MOST; column++) {
        double y = top, width = columns_width(a) * columns->shares[column];
        for (; i < columns->ends[column]; i++, entry = entry->next) {
            if (y > top)
                board_rule(board, x, y, x + width, y, RULE_PT);
            y += a->sizes->above_pt;
            y += draw_cell(a, list, entry, x, y, width);
        }
        if (column > 0)
            board_rule(board, x, top, x, top + columns->height_pt, RULE_PT);
        x += width;
    }
    return top + columns->height_pt;
}

/* Rows are found faster; columns where they save a line. */
static double draw_cells(struct alert *a, double top)
{
    const struct panel_entry *entry = a->panel->entries;
    int list = board_element(&a->board, ELEMENT_L, a->place->element);
    struct cell_columns columns = cut_columns(a);
    if (a->sizes->columns == COLUMNS_MOST &&
        columns.height_pt + a->sizes->line_pt <= measure_rows(a))
        return draw_columns(a, list, &columns, top);
    while (entry != NULL)
        top = draw_row(a, list, &entry, top);
    return top;
}

static const struct alert_sizes *sizes_of(const struct composer *composer,
                                          const struct panel *panel)
{
    const struct alert_sizes *sizes = page_sizes;
    if (!panel->is_large)
        return panel_is_close(composer) ? &close_sizes : &foot_sizes;
    const struct fit_step *fit = block_asks_fit(composer);
    while (fit != NULL && fit->gap_pt < sizes->least_gap_pt)
        sizes++;
    return sizes;
}

void panel_alert(struct composer *composer, struct place *place, const struct panel *panel)
{
    struct alert_sizes sizes = *sizes_of(composer, panel);
    struct alert a = {.composer = composer, .panel = panel, .place = place, .sizes = &sizes};
    sizes.line_pt += composer->elastic.line_pt;
    int heading = board_section(composer, place, panel->title);
    a.board = board_add(composer, place, a.sizes->bar_pt);
    double bar = draw_bar(&a, heading);
    double bottom = draw_cells(&a, draw_lines(&a, bar)) + FRAME_PT;
    a.board.fragment->height_pt = bottom;
    board_frame(&a.board, a.board.left_pt, 0, a.board.width_pt, bottom, FRAME_PT);
}
