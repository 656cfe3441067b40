/* Boxes to tick with a title and a line, in columns; and something large beside lines. */
#include <math.h>
#include <string.h>

#include "layout/panels.h"

static const double TICK_PT = 13, TEXT_AT_PT = 20, COLUMN_GAP_PT = 12, ROW_GAP_PT = 2;

/* Items in columns, drawn on a board or, where there is none, only measured. */
struct checks {
    struct composer *composer;
    const struct board *board;
    int list;
    size_t columns;
    double left_pt, width_pt; /* of all columns */
};

static void draw_check(const struct checks *c, const struct panel_entry *entry, double x, int item)
{
    if (entry->mark == NULL && !entry->has_tick_box)
        return;
    int label = board_element(c->board, ELEMENT_LBL, item);
    elements_find(&c->composer->elements, label)->actual = entry->mark_said;
    if (entry->has_tick_box)
        board_tick_label(c->board, label,
                         (struct tick_place){x, ROW_GAP_PT + 1, TICK_PT, TICK_PT, 1.25},
                         entry->mark_said);
    if (entry->mark == NULL)
        return;
    board_mark(c->board, label, entry->mark, entry->is_mark_solid, x + TICK_PT / 2,
               ROW_GAP_PT + 25);
}

/* One item; returns its height. */
static double set_check(const struct checks *c, const struct panel_entry *entry, double x,
                        double width)
{
    static const double MARKED = 35, BASE = 11;
    struct lettering title = {.size_pt = PANEL_TEXT_PT, .strong = true},
                     text = {.size_pt = PANEL_TEXT_PT};
    double room = width - TEXT_AT_PT;
    struct text_lines titles = board_break(c->composer, &title, entry->title, room),
                      lines = board_break(c->composer, &text, entry->text, room);
    double height = panel_line_pt(c->composer) * (double)(titles.count + lines.count) + 2;
    height = fmax(height, entry->mark != NULL ? MARKED : TICK_PT + 3);
    if (c->board == NULL)
        return height;
    int item = board_element(c->board, ELEMENT_LI, c->list);
    draw_check(c, entry, x, item);
    title.element = text.element = board_element(c->board, ELEMENT_LBODY, item);
    struct text_place at = {x + TEXT_AT_PT, ROW_GAP_PT + BASE, room, panel_line_pt(c->composer)};
    at.y = board_lines(c->board, &title, &titles, at);
    board_lines(c->board, &text, &lines, at);
    return height;
}

enum { CHECK_COLUMNS_MOST = 3 };

/* One row of items from *entry on, which moves behind them; returns its height. */
static double set_check_row(const struct checks *c, const struct panel_entry **entry)
{
    double width = (c->width_pt - COLUMN_GAP_PT * (double)(c->columns - 1)) / (double)c->columns;
    double height = 0;
    for (size_t i = 0; i < c->columns && *entry != NULL; i++, *entry = (*entry)->next) {
        double x = c->left_pt + (width + COLUMN_GAP_PT) * (double)i;
        height = fmax(height, set_check(c, *entry, x, width));
    }
    return height + ROW_GAP_PT;
}

static double check_height(const struct checks *c, const struct panel *panel)
{
    double height = 0;
    const struct panel_entry *entry = panel->entries;
    while (entry != NULL)
        height += set_check_row(c, &entry);
    return height;
}

/* In as many columns as make it lowest. */
static size_t best_columns(struct checks c, const struct panel *panel)
{
    size_t best = 1;
    double least = HUGE_VAL;
    for (c.columns = CHECK_COLUMNS_MOST; c.columns > 0; c.columns--) {
        double height = check_height(&c, panel);
        best = height < least ? c.columns : best;
        least = fmin(least, height);
    }
    return best;
}

void panel_checks(struct composer *composer, struct place *place, const struct panel *panel)
{
    static const double RULE = 0.5;
    struct checks c = {
        .composer = composer, .left_pt = place->left_pt, .width_pt = place->width_pt};
    if (panel->entries == NULL)
        return;
    c.columns = best_columns(c, panel);
    panel_heading(composer, place, panel);
    c.list = elements_add(&composer->elements, ELEMENT_L, place->element);
    elements_find(&composer->elements, c.list)->numbering = NUMBERING_UNORDERED;
    const struct panel_entry *entry = panel->entries;
    while (entry != NULL) {
        struct board row = board_add(composer, place, 0);
        if (entry != panel->entries)
            board_rule(&row, row.left_pt, 0, row.left_pt + row.width_pt, 0, RULE);
        c.board = &row;
        row.fragment->height_pt = set_check_row(&c, &entry);
    }
}

/* ---- something large beside lines ---- */

struct notice {
    struct composer *composer;
    struct place *place;
    const struct panel *panel;
    double large_pt; /* width of the large words */
};

/* Breaks the large words; the largest size at which they take no more than two lines. */
static struct text_lines break_large(const struct notice *n, struct lettering *pen, double width)
{
    static const double sizes[] = {18, 16, 14};
    struct text_lines lines = {0};
    pen->strong = true;
    for (size_t i = 0; i < 3; i++) {
        pen->size_pt = sizes[i];
        lines = board_break(n->composer, pen, n->panel->entries->title, width);
        if (lines.count <= 2)
            break;
    }
    return lines;
}

/* In a frame with a sign when they say what not to do. Returns the height; draws only on a board.
 */
static double set_large(const struct notice *n, const struct board *board)
{
    static const double SIGN = 26, PAD = 7;
    const struct panel_entry *e = n->panel->entries;
    double beside = e->pictogram != NULL ? SIGN + 2 * PAD : 0, room = n->large_pt - beside - 2;
    struct lettering pen = {0};
    struct text_lines lines = break_large(n, &pen, room);
    double leading = pen.size_pt * 1.15, height = leading * (double)lines.count;
    double pad = e->pictogram != NULL ? fmax(PAD, (SIGN + 6 - height) / 2) : 0;
    if (board == NULL)
        return height + 2 * pad + 4;
    pen.element = board_element(board, ELEMENT_P, n->place->element);
    if (e->pictogram != NULL) {
        board_frame(board, board->left_pt, 2, n->large_pt, height + 2 * pad, 2);
        board_pictogram(board, e->pictogram,
                        (struct pictogram_place){OPS_ARTIFACT, board->left_pt + PAD,
                                                 2 + (height + 2 * pad - SIGN) / 2, SIGN, false,
                                                 false});
    }
    board_lines(
        board, &pen, &lines,
        (struct text_place){board->left_pt + beside, 2 + pad + pen.size_pt * 0.9, room, leading});
    return height + 2 * pad + 4;
}

static double set_lines(const struct notice *n, const struct board *board, double x, double top,
                        double room)
{
    double y = top + 11;
    for (const struct panel_entry *e = n->panel->entries->next; e != NULL; e = e->next) {
        struct lettering pen = {.size_pt = PANEL_TEXT_PT, .strong = e->is_strong};
        struct text_lines lines = board_break(n->composer, &pen, e->text, room);
        if (board != NULL) {
            pen.element = board_element(board, ELEMENT_P, n->place->element);
            board_lines(board, &pen, &lines,
                        (struct text_place){x, y, room, panel_line_pt(n->composer)});
        }
        y += panel_line_pt(n->composer) * (double)lines.count;
    }
    return y - panel_line_pt(n->composer) + 4;
}

/* The lines as one paragraph. Returns its lower edge. */
static double set_flowing(const struct notice *n, const struct board *board, double top)
{
    struct arena *arena = n->composer->arena;
    struct span *first = NULL, **next = &first;
    for (const struct panel_entry *e = n->panel->entries->next; e != NULL; e = e->next) {
        size_t length = strlen(e->text);
        bool ends = length > 0 && strchr(".:?!", e->text[length - 1]) != NULL;
        *next = ARENA_NEW(arena, struct span);
        **next = (struct span){.text = arena_format(arena, "%s%s%s", first != *next ? " " : "",
                                                    e->text, ends ? "" : "."),
                               .style = e->is_strong ? TEXT_STRONG : TEXT_PLAIN};
        next = &(*next)->next;
    }
    if (first == NULL)
        return top + 4;
    struct lettering pen = {.element = board_element(board, ELEMENT_P, n->place->element),
                            .size_pt = PANEL_TEXT_PT};
    struct text_lines lines = board_break_spans(n->composer, &pen, first, board->width_pt);
    return board_lines(board, &pen, &lines,
                       (struct text_place){board->left_pt, top + 11, board->width_pt,
                                           panel_line_pt(n->composer)}) -
           panel_line_pt(n->composer) + panel_below_pt(n->composer);
}

/* Where there is no room the large words stand on the line of the heading, if they fit there; where
 * there is none at all they go on below it, and their sign stands with them. */
static bool set_on_heading(struct notice *n)
{
    static const double SIZE = 14, HEIGHT = 20, LINE = 16, SIGN = 16, RISE = 13;
    struct lettering pen = {.size_pt = SIZE, .strong = true};
    const struct panel_entry *large = n->panel->entries;
    double both = board_width_pt(n->composer, &pen, n->panel->title) + COLUMN_GAP_PT +
                  board_width_pt(n->composer, &pen, large->title);
    double beside = large->pictogram != NULL ? SIGN + 4 : 0;
    if (!block_asks(n->composer, BLOCK_ASKS_TIGHT) ||
        (!block_asks(n->composer, BLOCK_ASKS_LEADS_IN) &&
         (both > n->place->width_pt || large->pictogram != NULL)))
        return false;
    int heading = board_section(n->composer, n->place, n->panel->title);
    struct board board = board_add(n->composer, n->place, 0);
    double indent = panel_lead_in(&board, heading, n->panel->title);
    pen.element = board_element(&board, ELEMENT_P, n->place->element);
    pen.indent_pt = indent + beside;
    board_pictogram(&board, large->pictogram,
                    (struct pictogram_place){OPS_ARTIFACT, board.left_pt + indent,
                                             PANEL_HEADING_BASE_PT - RISE, SIGN, false, false});
    struct text_lines lines = board_break(n->composer, &pen, large->title, board.width_pt);
    double y = board_lines(
        &board, &pen, &lines,
        (struct text_place){board.left_pt, PANEL_HEADING_BASE_PT, board.width_pt, LINE});
    board.fragment->height_pt =
        set_flowing(n, &board, HEIGHT - 2 + y - PANEL_HEADING_BASE_PT - LINE);
    return true;
}

/* Beside each other or one below the other, whichever is lower. */
void panel_notice(struct composer *composer, struct place *place, const struct panel *panel)
{
    static const double SHARE = 0.42;
    struct notice n = {composer, place, panel, place->width_pt};
    if (panel->entries == NULL || set_on_heading(&n))
        return;
    panel_heading(composer, place, panel);
    double below = set_large(&n, NULL);
    below = set_lines(&n, NULL, 0, below, place->width_pt);
    double right = place->width_pt * SHARE, room = place->width_pt - right;
    n.large_pt = right - COLUMN_GAP_PT;
    double beside = fmax(set_large(&n, NULL), set_lines(&n, NULL, 0, 0, room));
    struct board board = board_add(composer, place, fmin(below, beside));
    if (beside <= below) {
        set_large(&n, &board);
        set_lines(&n, &board, board.left_pt + right, 0, room);
        return;
    }
    n.large_pt = place->width_pt;
    set_lines(&n, &board, board.left_pt, set_large(&n, &board), place->width_pt);
}
