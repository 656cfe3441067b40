/* When to go at once: a solid bar with the telephones, and below it cells of signs and words. */
#include <math.h>

#include "layout/panels.h"

static const double BAR_PT = 27, FRAME_PT = 2.5, PAD_PT = 8, LINE_PT = 13.2, SIGN_PT = 25,
                    SIDE_PT = 5;

struct alert {
    struct composer *composer;
    const struct panel *panel;
    struct place *place;
    struct board board;
};

static void draw_bar(struct alert *a, int heading)
{
    static const double BASE = 20;
    const struct board *board = &a->board;
    board_solid(board, board->left_pt, 0, board->width_pt, BAR_PT);
    struct lettering title = {.element = heading, .size_pt = 20, .strong = true, .is_paper = true};
    board_text(board, &title, board->left_pt + PAD_PT + 2, BASE, a->panel->title);
    panel_telephones(
        board, &(struct lettering){.element = a->place->element, .size_pt = 16, .is_paper = true},
        a->panel, board->left_pt + board->width_pt - PAD_PT - 2, BASE);
}

/* Lines over the whole width: where to go, and what holds for this one alone. */
static double draw_lines(struct alert *a, double y)
{
    const char *const texts[] = {a->panel->aside, a->panel->text};
    for (size_t i = 0; i < 2; i++) {
        if (texts[i] == NULL)
            continue;
        struct lettering pen = {.element = board_element(&a->board, ELEMENT_P, a->place->element),
                                .size_pt = PANEL_TEXT_PT,
                                .strong = i == 1};
        double width = a->board.width_pt - 2 * (PAD_PT + FRAME_PT);
        struct text_lines lines = board_break(a->composer, &pen, texts[i], width);
        y = board_lines(
                &a->board, &pen, &lines,
                (struct text_place){a->board.left_pt + PAD_PT + FRAME_PT, y + 12, width, LINE_PT}) -
            LINE_PT + 5;
        board_rule(&a->board, a->board.left_pt + FRAME_PT, y,
                   a->board.left_pt + a->board.width_pt - FRAME_PT, y, 0.75);
    }
    return y;
}

enum { COLUMNS = 3 };

/* How many cells stand in the row that begins with this one: those of the last row share it. */
static size_t cells_in_row(const struct panel_entry *entry)
{
    size_t count = 0;
    for (; entry != NULL && count < COLUMNS; entry = entry->next)
        count++;
    return count;
}

/* One cell: the sign at the left of its words. Returns its height. */
static double draw_cell(struct alert *a, int list, const struct panel_entry *entry, double x,
                        double top, double width)
{
    static const double BELOW = 4;
    const struct board *board = &a->board;
    int item = board_element(board, ELEMENT_LI, list);
    struct lettering pen = {.element = board_element(board, ELEMENT_LBODY, item),
                            .size_pt = PANEL_TEXT_PT};
    double beside = entry->pictogram != NULL ? SIGN_PT + 6 : 0, room = width - beside - 2 * SIDE_PT;
    board_pictogram(
        board, entry->pictogram,
        (struct pictogram_place){OPS_ARTIFACT, x + SIDE_PT, top, SIGN_PT, false, false});
    struct text_lines lines = board_break(a->composer, &pen, entry->text, room);
    double y = board_lines(board, &pen, &lines,
                           (struct text_place){x + SIDE_PT + beside, top + 10, room, LINE_PT});
    return fmax(y - LINE_PT + BELOW - top, entry->pictogram != NULL ? SIGN_PT + 2 : 0);
}

/* A row of cells from *entry on, which moves behind them; returns its lower edge. */
static double draw_row(struct alert *a, int list, const struct panel_entry **entry, double top)
{
    static const double ABOVE = 4, RULE = 0.75;
    const struct board *board = &a->board;
    size_t count = cells_in_row(*entry);
    double width = (board->width_pt - 2 * FRAME_PT) / (double)count;
    double left = board->left_pt + FRAME_PT, bottom = top;
    for (size_t i = 0; i < count; i++, *entry = (*entry)->next)
        bottom = fmax(bottom,
                      top + ABOVE +
                          draw_cell(a, list, *entry, left + width * (double)i, top + ABOVE, width));
    for (size_t i = 1; i < count; i++)
        board_rule(board, left + width * (double)i, top, left + width * (double)i, bottom, RULE);
    if (*entry != NULL)
        board_rule(board, left, bottom, left + width * (double)count, bottom, RULE);
    return bottom;
}

static double draw_cells(struct alert *a, double top)
{
    const struct panel_entry *entry = a->panel->entries;
    int list = board_element(&a->board, ELEMENT_L, a->place->element);
    while (entry != NULL)
        top = draw_row(a, list, &entry, top);
    return top;
}

void panel_alert(struct composer *composer, struct place *place, const struct panel *panel)
{
    struct alert a = {.composer = composer, .panel = panel, .place = place};
    int heading = board_section(composer, place, panel->title);
    a.board = board_add(composer, place, BAR_PT);
    draw_bar(&a, heading);
    double bottom = draw_cells(&a, draw_lines(&a, BAR_PT)) + FRAME_PT;
    a.board.fragment->height_pt = bottom;
    board_frame(&a.board, a.board.left_pt, 0, a.board.width_pt, bottom, FRAME_PT);
}
