/* Weeks across, one row a thing to do or a reading to write down. */
#include <math.h>
#include <string.h>

#include "layout/panels.h"

enum { LINES_MOST = 2, WEEK_DAYS = 7 };

static const double SIGN_PT = 15, PAD_PT = 5, TEXT_AT_PT = 22, WRITE_PT = 12, NAME_LINE_PT = 13;
static const double LEAST_NAME_PT = 104, NAME_SHARE = 0.37, HEAD_LINE_PT = 13;
static const double LEAST_SIZE_PT = 10; /* as figures in a box */
static const double SIDE_PT = 13.5, SIDE_GAP_PT = 1.5,
                    NUMBER_PT = 10; /* a box in which two figures stand */

struct calendar {
    struct composer *composer;
    struct place *place;
    const struct panel *panel;
    double name_pt, visit_pt, column_pt;
    int body;
};

static double name_width(const struct calendar *c)
{
    double widest = LEAST_NAME_PT;
    for (const struct panel_entry *e = c->panel->entries; e != NULL; e = e->next) {
        struct lettering title = {.size_pt = PANEL_TEXT_PT, .strong = e->is_strong},
                         value = {.size_pt = PANEL_TEXT_PT, .strong = true};
        double width = TEXT_AT_PT + board_width_pt(c->composer, &title, e->title) + PAD_PT;
        if (e->value != NULL)
            width += 8 + board_width_pt(c->composer, &value, e->value);
        widest = fmax(widest, width);
    }
    return fmin(widest, c->place->width_pt * NAME_SHARE);
}

static double column_left(const struct calendar *c, size_t column)
{
    return c->place->left_pt + c->name_pt + c->visit_pt + c->column_pt * (double)column;
}

static void draw_lines(const struct calendar *c, const struct board *board, double stroke_pt)
{
    double left = board->left_pt, right = left + board->width_pt;
    double bottom = board->fragment->height_pt;
    board_rule(board, left, bottom - stroke_pt / 2, right, bottom - stroke_pt / 2, stroke_pt);
    if (c->visit_pt > 0)
        board_rule(board, left + c->name_pt, 0, left + c->name_pt, bottom, 0.5);
    for (size_t i = 0; i <= c->panel->column_count; i++) {
        double x = fmin(column_left(c, i), right - 0.25);
        board_rule(board, x, 0, x, bottom, 0.5);
    }
}

static int add_cell(const struct calendar *c, int row, enum element_type type, enum th_scope scope)
{
    int element = elements_add(&c->composer->elements, type, row);
    elements_find(&c->composer->elements, element)->scope = scope;
    return element;
}

/* Does every column's heading stand in its column, set so? */
static bool headings_fit(const struct calendar *c, bool strong)
{
    struct lettering pen = {.size_pt = PANEL_TEXT_PT, .strong = strong};
    for (size_t i = 0; i < c->panel->column_count; i++)
        if (board_width_pt(c->composer, &pen, c->panel->columns[i]) > c->column_pt - PAD_PT)
            return false;
    return true;
}

/* On one line, or where the headings are wider than their columns on two, broken at the space. */
static void draw_heading(const struct calendar *c, const struct board *board,
                         const struct lettering *pen, size_t column, double base_pt)
{
    const char *text = c->panel->columns[column];
    const char *space = headings_fit(c, false) ? NULL : strchr(text, ' ');
    double x = column_left(c, column) + PAD_PT;
    if (space == NULL) {
        board_text(board, pen, x, base_pt, text);
        return;
    }
    board_text(board, pen, x, base_pt,
               arena_copy_bytes(c->composer->arena, text, (size_t)(space - text)));
    board_text(board, pen, x, base_pt + HEAD_LINE_PT, space + 1);
}

static void draw_head(struct calendar *c, int table)
{
    static const double HEIGHT = 18, BASE = 13, RULE = 2;
    struct lettering pen = {.size_pt = PANEL_TEXT_PT, .strong = c->panel->title == NULL};
    /* a table without a heading has it here */
    struct text_lines corner =
        board_break(c->composer, &pen, c->panel->text, c->name_pt - 2 * PAD_PT);
    size_t lines = headings_fit(c, false) ? 1 : 2;
    lines = corner.count > lines ? corner.count : lines;
    struct board board =
        board_add(c->composer, c->place, HEIGHT + HEAD_LINE_PT * (double)(lines - 1));
    c->place->stack->glued = true;
    if (c->panel->title == NULL)
        board_rule(&board, board.left_pt, RULE / 2, board.left_pt + board.width_pt, RULE / 2, RULE);
    int section = board_element(&board, ELEMENT_THEAD, table);
    int row = board_element(&board, ELEMENT_TR, section);
    pen.element = add_cell(c, row, ELEMENT_TH, SCOPE_COLUMN);
    board_lines(&board, &pen, &corner,
                (struct text_place){board.left_pt + PAD_PT, BASE, c->name_pt, HEAD_LINE_PT});
    pen.strong = false;
    if (c->visit_pt > 0) {
        pen.element = add_cell(c, row, ELEMENT_TH, SCOPE_COLUMN);
        board_text(&board, &pen, board.left_pt + c->name_pt + PAD_PT, BASE, c->panel->small);
    }
    pen.strong = headings_fit(c, true) || !headings_fit(c, false);
    for (size_t i = 0; i < c->panel->column_count; i++) {
        pen.element = add_cell(c, row, ELEMENT_TH, SCOPE_COLUMN);
        draw_heading(c, &board, &pen, i, BASE);
    }
    draw_lines(c, &board, 1.25);
}

/* ---- one cell ---- */

static void draw_small_boxes(const struct board *board, int element, size_t count, double x,
                             double middle, double width)
{
    static const double SIDE = 9;
    double step = fmin(SIDE + 2, (width - SIDE) / (WEEK_DAYS - 1));
    int boxes = board_tick_boxes(board, element, count < WEEK_DAYS ? count : WEEK_DAYS);
    for (size_t i = 0; i < count && i < WEEK_DAYS; i++)
        board_tick_box(
            board, boxes,
            (struct tick_place){x + step * (double)i, middle - SIDE / 2, SIDE, SIDE, 0.75});
}

static double cell_width(const struct calendar *c)
{
    return c->column_pt - PAD_PT - 2;
}

/* A box with a day's number in it; a day with its month is wider. */
static double box_width(const struct calendar *c, const char *day)
{
    static const double INSIDE_PT = 4;
    struct lettering number = {.size_pt = NUMBER_PT, .strong = true};
    return fmax(SIDE_PT, board_width_pt(c->composer, &number, day) + INSIDE_PT);
}

/* The box behind `i` of a row that begins with it at the cell's left. */
static size_t row_end(const struct calendar *c, const struct panel_cell *cell, size_t i)
{
    double width = box_width(c, cell->days[i++]);
    while (i < cell->day_count &&
           width + SIDE_GAP_PT + box_width(c, cell->days[i]) <= cell_width(c))
        width += SIDE_GAP_PT + box_width(c, cell->days[i++]);
    return i;
}

/* The lines of numbered boxes that a cell takes; 0 where they are too many and stand small, one a
 * day. */
static size_t number_lines(const struct calendar *c, const struct panel_cell *cell)
{
    size_t lines = 0;
    if (cell->day_count < 2 || cell->day_count == WEEK_DAYS)
        return 0;
    for (size_t i = 0; i < cell->day_count; i = row_end(c, cell, i))
        lines++;
    return lines > LINES_MOST ? 0 : lines;
}

/* Days that are many have their number in the box that is to be crossed out. */
static void draw_numbers(const struct calendar *c, const struct board *board,
                         const struct lettering *pen, const struct panel_cell *cell, double x,
                         double middle)
{
    const size_t lines = number_lines(c, cell);
    struct lettering number = *pen;
    number.align = ANCHOR_MIDDLE;
    number.size_pt = NUMBER_PT;
    int boxes = board_tick_boxes(board, pen->element, cell->day_count);
    /* all boxes, then all numbers: in the order in which they are read */
    for (size_t step = 0, i = 0, line = 0; step < 2 * lines; step++, line++) {
        if (line == lines)
            line = i = 0;
        double left = x,
               centre = middle + (SIDE_PT + SIDE_GAP_PT) * ((double)line - (double)(lines - 1) / 2);
        for (size_t end = row_end(c, cell, i); i < end; i++) {
            double width = box_width(c, cell->days[i]);
            if (step < lines)
                board_tick_box(
                    board, boxes,
                    (struct tick_place){left, centre - SIDE_PT / 2, width, SIDE_PT, 0.75});
            else
                board_text(board, &number, left + width / 2, centre + 3.6, cell->days[i]);
            left += width + SIDE_GAP_PT;
        }
    }
}

static void draw_days(const struct calendar *c, const struct board *board, int element,
                      const struct panel_cell *cell, double x, double middle)
{
    static const double TICK = 11, TICK_NARROW = 10, GAP = 5, GAP_NARROW = 1.5;
    double tick = TICK;
    struct lettering pen = {.element = element, .size_pt = PANEL_TEXT_PT, .strong = true};
    double width = cell_width(c);
    if (cell->day_count == 0)
        return;
    if (number_lines(c, cell) > 0) {
        draw_numbers(c, board, &pen, cell, x, middle);
        return;
    }
    if (cell->day_count > 1) {
        draw_small_boxes(board, element, cell->day_count, x, middle, width);
        return;
    }
    double beside = board_width_pt(c->composer, &pen, cell->days[0]);
    double gap = fmin(GAP, width - tick - beside);
    if (gap < GAP_NARROW) { /* "Mon 30" in a narrow column */
        tick = TICK_NARROW;
        gap = GAP_NARROW;
        pen.size_pt = fmax(LEAST_SIZE_PT, fmin(1, (width - tick - gap) / beside) * pen.size_pt);
    }
    board_tick_box(board, board_tick_boxes(board, element, 1),
                   (struct tick_place){x, middle - tick / 2, tick, tick, 1});
    board_text(board, &pen, x + tick + gap, middle + 4.3, cell->days[0]);
}

static bool is_to_write(const struct calendar *c, const struct panel_entry *entry)
{
    for (size_t i = 0; i < c->panel->column_count; i++)
        if (entry->cells[i].is_to_write)
            return true;
    return false;
}

/* At least one. */
static size_t most_lines(const struct calendar *c, const struct panel_entry *entry)
{
    size_t most = 1;
    for (size_t i = 0; i < c->panel->column_count; i++) {
        size_t lines = number_lines(c, &entry->cells[i]);
        most = lines > most ? lines : most;
    }
    return most;
}

/* A name beside its value; `room` is what it has. */
static struct text_lines break_name(const struct calendar *c, const struct panel_entry *entry,
                                    double *room)
{
    struct lettering title = {.size_pt = PANEL_TEXT_PT, .strong = entry->is_strong},
                     value = {.size_pt = PANEL_TEXT_PT, .strong = true};
    *room = c->name_pt - PAD_PT - TEXT_AT_PT;
    if (entry->value != NULL)
        *room -= board_width_pt(c->composer, &value, entry->value) + 6;
    return board_break(c->composer, &title, entry->title, *room);
}

static void draw_name(const struct calendar *c, const struct board *board, int row,
                      const struct panel_entry *entry, double middle)
{
    struct lettering title = {.size_pt = PANEL_TEXT_PT, .strong = entry->is_strong};
    title.element = add_cell(c, row, ELEMENT_TH, SCOPE_ROW);
    double left = board->left_pt, right = left + c->name_pt - PAD_PT;
    board_pictogram(board, entry->pictogram,
                    (struct pictogram_place){OPS_ARTIFACT, left + 3, middle - SIGN_PT / 2, SIGN_PT,
                                             false, false});
    struct lettering value = {
        .element = title.element, .size_pt = PANEL_TEXT_PT, .strong = true, .align = ANCHOR_RIGHT};
    double room;
    struct text_lines lines = break_name(c, entry, &room);
    double y = middle + 4.3 - NAME_LINE_PT / 2 * (double)(lines.count > 1 ? lines.count - 1 : 0);
    board_lines(board, &title, &lines,
                (struct text_place){left + TEXT_AT_PT, y, room, NAME_LINE_PT});
    board_text(board, &value, right, middle + 4.3, entry->value);
}

static void draw_row(struct calendar *c, const struct panel_entry *entry)
{
    const struct fit_step *fit = block_asks_fit(c->composer);
    double row_pt = fit != NULL ? fit->row_pt : 20;
    bool writes = is_to_write(c, entry);
    double room;
    row_pt = fmax(row_pt, NAME_LINE_PT * (double)break_name(c, entry, &room).count + 2);
    row_pt += (SIDE_PT + SIDE_GAP_PT) * (double)(most_lines(c, entry) - 1);
    double height = row_pt + (writes ? WRITE_PT : 0), middle = row_pt / 2;
    struct board board = board_add(c->composer, c->place, height);
    int row = board_element(&board, ELEMENT_TR, c->body);
    draw_name(c, &board, row, entry, middle);
    if (c->visit_pt > 0) {
        struct lettering now = {.size_pt = PANEL_TEXT_PT,
                                .element = add_cell(c, row, ELEMENT_TD, SCOPE_NONE)};
        board_text(&board, &now, board.left_pt + c->name_pt + PAD_PT, middle + 4.3, entry->now);
    }
    for (size_t i = 0; i < c->panel->column_count; i++) {
        const struct panel_cell *cell = &entry->cells[i];
        int element = add_cell(c, row, ELEMENT_TD, SCOPE_NONE);
        double x = column_left(c, i);
        draw_days(c, &board, element, cell, x + PAD_PT, middle);
        if (cell->is_to_write)
            board_rule(&board, x + PAD_PT, height - 4, x + c->column_pt - PAD_PT, height - 4, 0.5);
    }
    bool is_last_date = entry->is_strong && entry->next != NULL && !entry->next->is_strong;
    draw_lines(c, &board, is_last_date ? 1.25 : 0.5);
}

/* As wide as what was read at the visit; 0 when nothing was. */
static double visit_width(const struct calendar *c)
{
    struct lettering pen = {.size_pt = PANEL_TEXT_PT};
    double widest = 0;
    for (const struct panel_entry *e = c->panel->entries; e != NULL; e = e->next)
        widest = fmax(widest, board_width_pt(c->composer, &pen, e->now));
    return widest > 0
               ? fmax(widest, board_width_pt(c->composer, &pen, c->panel->small)) + 2 * PAD_PT
               : 0;
}

void panel_calendar(struct composer *composer, struct place *place, const struct panel *panel)
{
    struct calendar c = {.composer = composer, .place = place, .panel = panel};
    if (panel->entries == NULL || panel->column_count == 0)
        return;
    c.name_pt = name_width(&c);
    c.visit_pt = visit_width(&c);
    c.column_pt = (place->width_pt - c.name_pt - c.visit_pt) / (double)panel->column_count;
    if (panel->title != NULL)
        panel_heading(composer, place, panel);
    int table = elements_add(&composer->elements, ELEMENT_TABLE, place->element);
    draw_head(&c, table);
    c.body = elements_add(&composer->elements, ELEMENT_TBODY, table);
    for (const struct panel_entry *e = panel->entries; e != NULL; e = e->next)
        draw_row(&c, e);
    if (panel->after == NULL)
        return;
    struct board board = board_add(composer, place, 0);
    struct lettering pen = {.element = board_element(&board, ELEMENT_P, place->element),
                            .size_pt = PANEL_TEXT_PT};
    struct text_lines lines = board_break(composer, &pen, panel->after, board.width_pt);
    double y = board_lines(&board, &pen, &lines,
                           (struct text_place){board.left_pt, 13, board.width_pt, 13.5});
    board.fragment->height_pt = y - 13.5 + 3;
}
