/* Signs with a number or some words each, side by side. */
#include <math.h>

#include "layout/panels.h"

enum { CELLS_MOST = 6 };

static const double NOW_LINE_PT = 17, TITLE_LINE_PT = 13;
static const double OPEN_PT = 36, OPEN_GAP_PT = 4;
static const double SIGN_PT = 26, BESIDE_SIGN_PT = 8, TURN_PT = 14;

struct figures {
    struct composer *composer;
    double value_size_pt;
    double widths[CELLS_MOST];
    size_t count;
    bool breaks_titles; /* they may have two lines */
    bool now_below;     /* there is no room for it beside the number */
    bool hides_open;    /* likewise for a line to write on */
};

static bool shows_now(const struct figures *f, const struct panel_entry *entry)
{
    return entry->now != NULL && !(f->hides_open && entry->is_now_open);
}

static double cell_width(const struct figures *f, const struct panel_entry *entry)
{
    enum { TITLE_LINES = 2 };
    struct lettering title = {.size_pt = PANEL_TEXT_PT}, now = {.size_pt = 14},
                     value = {.size_pt = f->value_size_pt, .strong = true};
    double below = board_width_pt(f->composer, &value, entry->value);
    if (shows_now(f, entry))
        below += 8 + (entry->turn != TURN_NONE ? TURN_PT + 4 : 0) +
                 board_width_pt(f->composer, &now, entry->now) +
                 (entry->is_now_open ? OPEN_GAP_PT + OPEN_PT : 0);
    struct text_lines lines = board_break(f->composer, &title, entry->title, below);
    bool breaks = f->breaks_titles && lines.count <= TITLE_LINES && lines_width_pt(&lines) <= below;
    return SIGN_PT + BESIDE_SIGN_PT +
           (breaks ? below : fmax(below, board_width_pt(f->composer, &title, entry->title)));
}

static double measure(struct figures *f, const struct panel *panel, double size_pt)
{
    double sum = 0;
    f->value_size_pt = size_pt;
    f->count = 0;
    for (const struct panel_entry *e = panel->entries; e != NULL && f->count < CELLS_MOST;
         e = e->next)
        sum += f->widths[f->count++] = cell_width(f, e);
    return sum;
}

/* What stands above the number, in as many lines as that width asks for. */
static struct text_lines title_lines(const struct figures *f, const struct lettering *pen,
                                     const struct panel_entry *entry, double width)
{
    return board_break(f->composer, pen, entry->title, width - SIGN_PT - BESIDE_SIGN_PT);
}

/* What has fewer lines above its number than those beside it begins lower: one base for all. */
struct figure_place {
    double x, width_pt;
    size_t lines; /* of the titles beside it, at most; 0: it stands alone */
};

static void draw_cell(const struct figures *f, const struct board *board, int list,
                      const struct panel_entry *entry, struct figure_place at)
{
    static const double TITLE_BASE = 12, VALUE_BELOW = 21, SIGN_TOP = 6;
    int item = board_element(board, ELEMENT_LI, list);
    int body = board_element(board, ELEMENT_LBODY, item);
    struct lettering pen = {.element = body, .size_pt = PANEL_TEXT_PT};
    struct text_lines title = title_lines(f, &pen, entry, at.width_pt);
    const double more = at.lines > title.count ? (double)(at.lines - title.count) : 0,
                 top = TITLE_LINE_PT * more;
    board_pictogram(
        board, entry->pictogram,
        (struct pictogram_place){OPS_ARTIFACT, at.x, top + SIGN_TOP, SIGN_PT, false, false});
    double x = at.x + SIGN_PT + BESIDE_SIGN_PT;
    double base =
        board_lines(board, &pen, &title,
                    (struct text_place){x, top + TITLE_BASE, at.width_pt - SIGN_PT - BESIDE_SIGN_PT,
                                        TITLE_LINE_PT});
    base += VALUE_BELOW - TITLE_LINE_PT;
    pen.size_pt = f->value_size_pt;
    pen.strong = true;
    double beside = board_text(board, &pen, x, base, entry->value) + 8;
    base += f->now_below ? NOW_LINE_PT : 0;
    x += f->now_below ? 0 : beside;
    board_turn(board, entry->turn, entry->turn_said,
               (struct pictogram_place){body, x, base - 11, TURN_PT, false, false});
    if (!shows_now(f, entry))
        return;
    struct lettering now = {.element = body, .size_pt = 14};
    x += entry->turn != TURN_NONE ? TURN_PT + 4 : 0;
    x += board_text(board, &now, x, base, entry->now) + OPEN_GAP_PT;
    if (entry->is_now_open)
        board_rule(board, x, base + 1, x + OPEN_PT, base + 1, 0.75);
}

static int start_list(struct composer *composer, struct place *place)
{
    return elements_add(&composer->elements, ELEMENT_L, place->element);
}

static bool all_fit(const struct figures *f, double width)
{
    for (size_t i = 0; i < f->count; i++)
        if (f->widths[i] > width)
            return false;
    return true;
}

/* In rows of two where they have no room beside each other, or one under another where two have
 * none either. */
static void set_rows(struct figures *f, struct place *place, const struct panel *panel)
{
    static const double HEIGHT = 42, APART = 14;
    double half = (place->width_pt + APART) / 2;
    bool by_two = true;
    for (size_t i = 0; i < f->count; i++)
        by_two = by_two && f->widths[i] <= half - APART;
    f->now_below = !all_fit(f, place->width_pt);
    int list = start_list(f->composer, place);
    for (const struct panel_entry *e = panel->entries; e != NULL; e = e->next) {
        bool is_high = f->now_below && shows_now(f, e);
        struct lettering pen = {.size_pt = PANEL_TEXT_PT};
        double width = by_two ? half : place->width_pt,
               more = TITLE_LINE_PT * (double)(title_lines(f, &pen, e, width).count - 1) +
                      (is_high ? NOW_LINE_PT : 0);
        struct board board = board_add(f->composer, place, HEIGHT + more);
        draw_cell(f, &board, list, e, (struct figure_place){board.left_pt, width, 0});
        if (by_two && e->next != NULL) {
            e = e->next;
            draw_cell(f, &board, list, e, (struct figure_place){board.left_pt + half, half, 0});
        }
    }
}

static const double LEAST_FIGURE_GAP_PT = 20;

/* The largest size at which all stand side by side. */
static bool measure_row(struct figures *f, const struct panel *panel, double width, double *sum)
{
    static const double sizes[] = {20, 18, 16};
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        *sum = measure(f, panel, sizes[i]);
        if (*sum + LEAST_FIGURE_GAP_PT * (double)(f->count > 1 ? f->count - 1 : 0) <= width)
            return true;
    }
    return false;
}

/* Side by side; where room is short with titles of two lines before there are two rows. */
void panel_figures(struct composer *composer, struct place *place, const struct panel *panel)
{
    static const double HEIGHT = 40, RULE = 0.75;
    struct figures f = {.composer = composer};
    double sum = 0;
    bool fits = measure_row(&f, panel, place->width_pt, &sum);
    if (!fits) {
        f.hides_open = true;
        fits = measure_row(&f, panel, place->width_pt, &sum);
    }
    if (!fits && panel_is_close(composer)) {
        f.breaks_titles = true;
        fits = measure_row(&f, panel, place->width_pt, &sum);
    }
    if (!fits) {
        f.breaks_titles = f.hides_open = false;
        measure(&f, panel, 20);
        f.hides_open = !all_fit(&f, place->width_pt);
        measure(&f, panel, 20);
        set_rows(&f, place, panel);
        return;
    }
    const struct lettering pen = {.size_pt = PANEL_TEXT_PT};
    size_t lines = 1, i = 0;
    for (const struct panel_entry *e = panel->entries; e != NULL && i < f.count; e = e->next) {
        size_t count = title_lines(&f, &pen, e, f.widths[i++] + 1).count;
        lines = count > lines ? count : lines;
    }
    const double height = HEIGHT + TITLE_LINE_PT * (double)(lines - 1);
    struct board board = board_add(composer, place, height);
    int list = start_list(composer, place);
    double gap = f.count > 1 ? (place->width_pt - sum) / (double)(f.count - 1) : 0,
           x = board.left_pt;
    i = 0;
    for (const struct panel_entry *e = panel->entries; e != NULL && i < f.count; e = e->next) {
        draw_cell(&f, &board, list, e, (struct figure_place){x, f.widths[i] + 1, lines});
        x += f.widths[i++] + gap;
        if (e->next != NULL)
            board_rule(&board, x - gap / 2, 4, x - gap / 2, height - 3, RULE);
    }
}

/* ---- signs with words ---- */

static const double LINE_PT = 13, CELL_GAP_PT = 14;

/* Cells of a sign and words, drawn on a board or, where there is none, only measured. */
struct sign_cells {
    struct composer *composer;
    const struct board *board;
    int list;
};

/* Returns the height. */
static double sign_cell(const struct sign_cells *s, const struct panel_entry *entry, double x,
                        double top, double width)
{
    static const double SIGN = 22, BESIDE = 28, BASE = 10;
    double beside = entry->pictogram != NULL ? BESIDE : 0;
    struct lettering pen = {.size_pt = PANEL_TEXT_PT};
    struct text_lines lines = board_break(s->composer, &pen, entry->text, width - beside);
    if (s->board != NULL) {
        pen.element =
            board_element(s->board, ELEMENT_LBODY, board_element(s->board, ELEMENT_LI, s->list));
        board_pictogram(s->board, entry->pictogram,
                        (struct pictogram_place){OPS_ARTIFACT, x, top, SIGN, false, false});
        board_lines(s->board, &pen, &lines,
                    (struct text_place){x + beside, top + BASE, width - beside, LINE_PT});
    }
    return fmax(LINE_PT * (double)lines.count, entry->pictogram != NULL ? SIGN : 0) + 2;
}

/* All of them in so many columns. */
static double set_signs(const struct sign_cells *s, const struct panel *panel, size_t columns,
                        double left, double width_pt)
{
    static const double TOP = 6;
    double width = (width_pt - CELL_GAP_PT * (double)(columns - 1)) / (double)columns;
    double top = TOP, bottom = TOP;
    size_t at = 0;
    for (const struct panel_entry *e = panel->entries; e != NULL; e = e->next, at++) {
        size_t column = at % columns;
        top = column == 0 ? bottom : top;
        double x = left + (width + CELL_GAP_PT) * (double)column;
        bottom = fmax(bottom, top + sign_cell(s, e, x, top, width));
    }
    return bottom + 2;
}

/* In as many columns as make it lowest. */
void panel_signs(struct composer *composer, struct place *place, const struct panel *panel)
{
    static const double RULE = 2;
    struct sign_cells s = {.composer = composer};
    size_t count = 0, best = 1;
    double least = HUGE_VAL;
    for (const struct panel_entry *e = panel->entries; e != NULL; e = e->next)
        count++;
    for (size_t columns = count; columns > 0; columns--) {
        double height = set_signs(&s, panel, columns, 0, place->width_pt);
        best = height < least ? columns : best;
        least = fmin(least, height);
    }
    if (count == 0)
        return;
    if (panel->title != NULL)
        panel_heading(composer, place, panel);
    struct board board = board_add(composer, place, least);
    if (panel->title == NULL)
        board_rule(&board, board.left_pt, RULE / 2, board.left_pt + board.width_pt, RULE / 2, RULE);
    s.board = &board;
    s.list = start_list(composer, place);
    set_signs(&s, panel, best, board.left_pt, board.width_pt);
}
