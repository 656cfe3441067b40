/* Lines by their gravity with a trend beside them; lists of what to call for. */
#include <math.h>
#include <string.h>

#include "layout/panels.h"

/* ---- gravity ---- */

enum { GRADES = 3 };

static void draw_grade(const struct board *board, int grade, double x, double y)
{
    static const double SIDE = 9, STEP = 10.5;
    for (int i = 0; i < GRADES; i++)
        if (i < grade)
            board_solid(board, x + STEP * i, y, SIDE, SIDE);
        else
            board_frame(board, x + STEP * i, y, SIDE, SIDE, 0.75);
}

static double trend_height(const struct panel *panel)
{
    static const double HEIGHT = 50;
    return panel->trend != NULL ? HEIGHT : 0;
}

/* The line between its first and last number. */
static void draw_trend(const struct board *board, int figure, const struct trend *trend,
                       double left, double width)
{
    static const double TOP = 16, HIGH = 14, RADIUS = 2.6, TEXT_UP = 6, TEXT_DOWN = 15;
    struct arena *arena = board->composer->arena;
    struct point *points = ARENA_ARRAY(arena, struct point, trend->count);
    for (size_t i = 0; i < trend->count; i++) {
        points[i] =
            (struct point){left + 6 + trend->x[i] * (width - 12), TOP + (1 - trend->y[i]) * HIGH};
        board_disc(board, figure, points[i].x, points[i].y, RADIUS, false);
    }
    struct op *op = fragment_add_op(board->fragment, arena, OP_PATH, figure);
    op->points = points;
    op->count = trend->count;
    op->stroked = true;
    op->stroke_pt = 1.5;
    op->ink = board->composer->look->inks[INK_TEXT];
    bool rises = trend->y[trend->count - 1] >= trend->y[0];
    struct lettering pen = {.element = figure, .size_pt = PANEL_TEXT_PT};
    board_text(board, &pen, left, points[0].y + (rises ? TEXT_DOWN : -TEXT_UP), trend->first);
    pen.strong = true;
    pen.align = ANCHOR_RIGHT;
    board_text(board, &pen, left + width,
               points[trend->count - 1].y + (rises ? -TEXT_UP : TEXT_DOWN), trend->last);
    board->fragment->figure = figure;
    board->fragment->figure_left = left;
    board->fragment->figure_right = left + width;
    board->fragment->figure_bottom = trend_height(&(struct panel){.trend = trend});
}

static struct span **put_span(struct arena *arena, struct span **next, const char *gap,
                              const char *text, enum text_style style)
{
    *next = ARENA_NEW(arena, struct span);
    **next = (struct span){.text = arena_format(arena, "%s%s", gap, text), .style = style};
    return &(*next)->next;
}

/* The name in bold and its text, and those of the entries behind it up to `end`. */
struct span *panel_spans(struct arena *arena, const struct panel_entry *entry,
                         const struct panel_entry *end)
{
    struct span *first = NULL, **next = &first;
    for (const struct panel_entry *e = entry; e != end; e = e->next) {
        if (e->title[0] != '\0')
            next = put_span(arena, next, first != NULL ? " " : "", e->title, TEXT_STRONG);
        if (e->text != NULL)
            next = put_span(arena, next, first != NULL ? " " : "", e->text, TEXT_PLAIN);
    }
    return first;
}

/* Where there is no room, what has no box before it flows on; what is told to does so anywhere. */
static const struct panel_entry *line_end(const struct panel *panel,
                                          const struct panel_entry *entry)
{
    const struct panel_entry *end = entry->next;
    const bool has_boxes = entry->grade > 0 || entry->has_tick_box,
               flows = panel->is_small && !panel->begins_lines;
    while (!has_boxes && end != NULL && end->grade == 0 && !end->has_tick_box &&
           (flows || end->runs_on))
        end = end->next;
    return end;
}

static void draw_mark(const struct board *board, int label, const struct panel_entry *entry,
                      double x, double down)
{
    static const double MIDDLE = 8.5;
    board_mark(board, label, entry->mark, entry->is_mark_solid, x, MIDDLE + down);
}

/* Below a heading that stands on the first line, with that indent; 0 for none. */
static double draw_line(const struct board *board, int list, const struct panel_entry *entry,
                        const struct panel_entry *end, double width, double indent)
{
    static const double TEXT_AT = 38, TICKED = 18, TICK = 11, MARKED = 20, BASE = 11.5;
    struct arena *arena = board->composer->arena;
    int item = board_element(board, ELEMENT_LI, list);
    double at = entry->grade > 0 ? TEXT_AT : entry->has_tick_box ? TICKED : 0;
    double left = board->left_pt + indent, down = indent > 0 ? PANEL_HEADING_BASE_PT - BASE : 0;
    bool is_ticked = entry->grade == 0 && entry->has_tick_box;
    int label = is_ticked || entry->mark != NULL ? board_element(board, ELEMENT_LBL, item) : 0;
    if (entry->mark != NULL)
        elements_find(&board->composer->elements, label)->actual = entry->mark_said;
    if (entry->grade > 0)
        draw_grade(board, entry->grade, left, 3 + down);
    else if (is_ticked)
        board_tick_label(board, label, (struct tick_place){left, 2 + down, TICK, TICK, 1.25},
                         entry->mark_said);
    if (entry->mark != NULL) {
        at += MARKED;
        draw_mark(board, label, entry, left + at - MARKED / 2 - 2, down);
    }
    struct lettering pen = {.element = board_element(board, ELEMENT_LBODY, item),
                            .size_pt = PANEL_TEXT_PT,
                            .indent_pt = indent};
    struct text_lines lines =
        board_break_spans(board->composer, &pen, panel_spans(arena, entry, end), width - at);
    double y = board_lines(board, &pen, &lines,
                           (struct text_place){board->left_pt + at, BASE + down, width - at,
                                               panel_line_pt(board->composer)});
    return y - panel_line_pt(board->composer) + panel_below_pt(board->composer);
}

/* A paragraph behind the lines. */
static double draw_text(const struct board *board, int parent, const struct panel *panel,
                        double width)
{
    struct arena *arena = board->composer->arena;
    struct span *spans = NULL;
    if (panel->second != NULL)
        spans = panel_spans(arena, panel->second, NULL);
    else if (panel->text != NULL)
        put_span(arena, &spans, "", panel->text, TEXT_PLAIN);
    struct lettering pen = {.element = board_element(board, ELEMENT_P, parent),
                            .size_pt = PANEL_TEXT_PT};
    struct text_lines lines = board_break_spans(board->composer, &pen, spans, width);
    return board_lines(
               board, &pen, &lines,
               (struct text_place){board->left_pt, 12, width, panel_line_pt(board->composer)}) -
           panel_line_pt(board->composer) + panel_below_pt(board->composer);
}

struct grades {
    struct composer *composer;
    struct place *place;
    const struct panel *panel;
    int figure;
    struct board last;
    double height_pt;
};

static const double TREND_GAP_PT = 12;

/* As wide as what stands at its ends asks for. */
static double trend_pt(const struct composer *composer, const struct trend *trend)
{
    static const double LEAST = 128;
    const struct lettering first = {.size_pt = PANEL_TEXT_PT},
                           last = {.size_pt = PANEL_TEXT_PT, .strong = true};
    return fmax(LEAST, fmax(board_width_pt(composer, &first, trend->first),
                            board_width_pt(composer, &last, trend->last)));
}

/* The next fragment; the trend is drawn into the first one, before its words. What stands below it
 * takes the whole width. Returns the width that is left for words. */
static double add_line(struct grades *g)
{
    const struct trend *trend = g->panel->trend;
    bool first = g->last.fragment == NULL;
    const double wide = trend != NULL ? trend_pt(g->composer, trend) : 0;
    double narrow = g->place->width_pt - (trend != NULL ? wide + TREND_GAP_PT : 0);
    g->last = board_add(g->composer, g->place, 0);
    if (first && trend != NULL)
        draw_trend(&g->last, g->figure, trend, g->place->left_pt + narrow + TREND_GAP_PT, wide);
    return g->height_pt < trend_height(g->panel) ? narrow : g->place->width_pt;
}

static void end_line(struct grades *g, double height_pt)
{
    g->last.fragment->height_pt = height_pt;
    g->height_pt += height_pt;
}

static int start_trend(struct composer *composer, const struct place *place,
                       const struct trend *trend)
{
    if (trend == NULL)
        return OPS_ARTIFACT;
    int figure = elements_add(&composer->elements, ELEMENT_FIGURE, place->element);
    elements_find(&composer->elements, figure)->alternative = trend->alternative;
    return figure;
}

/* Where there is no room the heading stands on the first line; before boxes only where there is
 * none at all. */
static bool leads_in(const struct composer *composer, const struct panel *panel)
{
    const struct panel_entry *e = panel->entries;
    if (panel->aside != NULL || panel->trend != NULL || e == NULL)
        return false;
    bool has_boxes = e->grade > 0 || e->has_tick_box || e->mark != NULL;
    return block_asks(composer, BLOCK_ASKS_LEADS_IN) || (panel->is_small && !has_boxes);
}

/* ---- entries that flow ---- */

/* Where the next entry of a paragraph begins. */
struct flow {
    struct board *board;
    double width_pt, x, base; /* x from the board's left */
};

static const double FLOW_GAP_PT = 8, FLOW_TICK_PT = 10;

/* Up to the first space: what is not to be broken. */
static double first_word_pt(const struct board *board, const char *text)
{
    size_t length = text != NULL ? strcspn(text, " ") : 0;
    struct lettering pen = {.size_pt = PANEL_TEXT_PT, .strong = true};
    return board_width_pt(board->composer, &pen,
                          length > 0 ? arena_copy_bytes(board->composer->arena, text, length) : "");
}

static double boxes_pt(const struct panel_entry *entry)
{
    static const double GRADED = 34, TICKED = 14, MARKED = 15;
    return (entry->grade > 0 ? GRADED : 0) +
           (entry->grade == 0 && entry->has_tick_box ? TICKED : 0) +
           (entry->mark != NULL ? MARKED : 0);
}

static void draw_boxes(const struct flow *f, int item, const struct panel_entry *entry)
{
    static const double RISE = 9, MIDDLE = 4.2, MARK_FROM_END = 8.5;
    const struct board *board = f->board;
    double left = board->left_pt + f->x;
    bool is_ticked = entry->grade == 0 && entry->has_tick_box;
    int label = is_ticked || entry->mark != NULL ? board_element(board, ELEMENT_LBL, item) : 0;
    if (entry->mark != NULL)
        elements_find(&board->composer->elements, label)->actual = entry->mark_said;
    if (entry->grade > 0)
        draw_grade(board, entry->grade, left, f->base - RISE);
    else if (is_ticked)
        board_tick_label(
            board, label,
            (struct tick_place){left, f->base - RISE, FLOW_TICK_PT, FLOW_TICK_PT, 1.25},
            entry->mark_said);
    board_small_mark(board, label, entry->mark, entry->is_mark_solid,
                     left + boxes_pt(entry) - MARK_FROM_END, f->base - MIDDLE);
}

/* Goes on behind the text that stands there already; NULL spans draw nothing. */
static void flow_text(struct flow *f, int element, double room, const struct span *spans)
{
    const struct board *board = f->board;
    struct lettering pen = {.element = element, .size_pt = PANEL_TEXT_PT, .indent_pt = f->x + room};
    struct text_lines lines = board_break_spans(board->composer, &pen, spans, f->width_pt);
    if (lines.count == 0)
        return;
    const double line_pt = panel_line_pt(board->composer);
    f->base = board_lines(board, &pen, &lines,
                          (struct text_place){board->left_pt, f->base, f->width_pt, line_pt}) -
              line_pt;
    f->x = (lines.count == 1 ? pen.indent_pt : 0) + lines.items[lines.count - 1].width_pt +
           FLOW_GAP_PT;
}

static void begin_line(struct flow *f)
{
    f->x = 0;
    f->base += panel_line_pt(f->board->composer);
}

/* On the next line where its first word has no room on this one. */
static void make_room(struct flow *f, double room, const char *text)
{
    if (f->x + room + first_word_pt(f->board, text) > f->width_pt)
        begin_line(f);
}

static const char *first_text(const struct panel_entry *entry)
{
    return entry->title != NULL && entry->title[0] != '\0' ? entry->title : entry->text;
}

static const double FLOW_BASE_PT = 11.5;

/* A page may begin between two parts of a paragraph: the next one begins a line of its own. */
static void begin_part(struct flow *f, struct place *place)
{
    static const double PART_PT = 150;
    struct board *board = f->board;
    if (f->base < PART_PT)
        return;
    board->fragment->height_pt = f->base + panel_line_pt(board->composer) - FLOW_BASE_PT;
    *board = board_add(board->composer, place, 0);
    f->x = 0;
    f->base = FLOW_BASE_PT;
}

/* What parts the entries begins a line, and so does a box to tick where there is room for that, but
 * the first one behind what parts. */
static bool begins_line(const struct composer *composer, const struct panel_entry *entry,
                        const struct panel_entry *before)
{
    const bool parts = entry->grade == 0 && !entry->has_tick_box,
               is_parted = before != NULL && before->grade == 0 && !before->has_tick_box;
    return before != NULL && (parts || (!block_asks(composer, BLOCK_ASKS_TICKS_FLOW) &&
                                        entry->grade == 0 && !is_parted));
}

/* The whole panel as one paragraph, each entry behind its own boxes. */
static void draw_flow(struct board *board, struct place *place, int list, const struct panel *panel,
                      double indent)
{
    const int parent = place->element;
    struct arena *arena = board->composer->arena;
    struct flow f = {board, board->width_pt, indent,
                     indent > 0 ? PANEL_HEADING_BASE_PT : FLOW_BASE_PT};
    for (const struct panel_entry *e = panel->entries, *before = NULL, *end; e != NULL; e = end) {
        end = line_end(panel, e);
        begin_part(&f, place);
        if (begins_line(board->composer, e, before) && f.x > 0)
            begin_line(&f);
        before = e;
        make_room(&f, boxes_pt(e), first_text(e));
        int item = board_element(board, ELEMENT_LI, list);
        draw_boxes(&f, item, e);
        flow_text(&f, board_element(board, ELEMENT_LBODY, item), boxes_pt(e),
                  panel_spans(arena, e, end));
    }
    if (panel->second != NULL) {
        make_room(&f, 0, first_text(panel->second));
        flow_text(&f, board_element(board, ELEMENT_P, parent), 0,
                  panel_spans(arena, panel->second, NULL));
    }
    board->fragment->height_pt = f.base + panel_below_pt(board->composer);
}

static bool flows(const struct composer *composer, const struct panel *panel)
{
    return block_asks(composer, BLOCK_ASKS_BOXES_FLOW) && panel->entries != NULL &&
           panel->text == NULL && leads_in(composer, panel);
}

static void set_flow(struct composer *composer, struct place *place, const struct panel *panel)
{
    int heading = board_section(composer, place, panel->title);
    struct board board = board_add(composer, place, 0);
    int list = board_element(&board, ELEMENT_L, place->element);
    double indent = panel_lead_in(&board, heading, panel->title);
    draw_flow(&board, place, list, panel, indent);
}

void panel_grades(struct composer *composer, struct place *place, const struct panel *panel)
{
    static const double RULE = 0.5;
    struct grades g = {.composer = composer, .place = place, .panel = panel};
    int heading = 0;
    if (flows(composer, panel)) {
        set_flow(composer, place, panel);
        return;
    }
    if (leads_in(composer, panel))
        heading = board_section(composer, place, panel->title);
    else
        panel_heading(composer, place, panel);
    g.figure = start_trend(composer, place, panel->trend);
    int list = panel->entries != NULL ? elements_add(&composer->elements, ELEMENT_L, place->element)
                                      : OPS_ARTIFACT;
    for (const struct panel_entry *e = panel->entries, *end; e != NULL; e = end) {
        end = line_end(panel, e);
        double width = add_line(&g);
        double indent = heading > 0 ? panel_lead_in(&g.last, heading, panel->title) : 0;
        end_line(&g, draw_line(&g.last, list, e, end, width, indent));
        double y = g.last.fragment->height_pt;
        heading = 0;
        if (end != NULL)
            board_rule(&g.last, g.last.left_pt, y, g.last.left_pt + width, y, RULE);
    }
    if (panel->text != NULL || panel->second != NULL || g.last.fragment == NULL) {
        double width = add_line(&g);
        end_line(&g, draw_text(&g.last, place->element, panel, width));
    }
    g.last.fragment->height_pt += fmax(0, trend_height(panel) - g.height_pt);
}

/* ---- what to call for ---- */

struct list_item_lines {
    const struct panel_entry *entry;
    struct text_lines lines;
};

static size_t break_items(struct composer *composer, const struct panel_entry *entry, double width,
                          struct list_item_lines **out)
{
    size_t count = 0;
    for (const struct panel_entry *e = entry; e != NULL; e = e->next)
        count++;
    *out = ARENA_ARRAY(composer->arena, struct list_item_lines, count + 1);
    count = 0;
    for (const struct panel_entry *e = entry; e != NULL; e = e->next) {
        struct lettering pen = {.size_pt = PANEL_TEXT_PT, .strong = e->is_strong};
        (*out)[count++] = (struct list_item_lines){e, board_break(composer, &pen, e->text, width)};
    }
    return count;
}

static size_t count_lines(const struct list_item_lines *items, size_t from, size_t to)
{
    size_t lines = 0;
    for (size_t i = from; i < to; i++)
        lines += items[i].lines.count;
    return lines;
}

enum { COLUMNS_MOST = 3 };

/* Fills columns of so many lines at most; cuts[i] is where column i begins. False where they do not
 * hold it all. */
static bool fill_columns(const struct list_item_lines *items, size_t count, size_t columns,
                         size_t lines, size_t cuts[COLUMNS_MOST + 1])
{
    size_t column = 0, used = 0;
    cuts[0] = 0;
    for (size_t i = 0; i < count; i++) {
        if (used + items[i].lines.count > lines && used > 0) {
            if (++column == columns)
                return false;
            cuts[column] = i;
            used = 0;
        }
        used += items[i].lines.count;
    }
    while (++column <= columns)
        cuts[column] = count;
    return true;
}

/* Where each column begins so that the longest is shortest. */
static void best_cuts(const struct list_item_lines *items, size_t count, size_t columns,
                      size_t cuts[COLUMNS_MOST + 1])
{
    size_t lines = count_lines(items, 0, count) / columns;
    while (!fill_columns(items, count, columns, lines, cuts))
        lines++;
}

static const double BULLET_PT = 3.5, TEXT_AT_PT = 9, BAR_PT = 20, COLUMN_GAP_PT = 12;

struct calls {
    struct composer *composer;
    struct place *place;
    const struct panel *panel;
    const struct board *board; /* NULL: only measured */
};

/* A stretch of a list in one column. */
struct item_run {
    const struct list_item_lines *items;
    size_t from, to;
    int list;
    double line_pt;
};

/* Returns the height. */
static double set_items(const struct board *board, const struct item_run *run, double x, double top,
                        double width)
{
    static const double BASE = 11, RISE = 6;
    if (board == NULL)
        return run->line_pt * (double)count_lines(run->items, run->from, run->to);
    double y = top + BASE;
    for (size_t i = run->from; i < run->to; i++) {
        int item = board_element(board, ELEMENT_LI, run->list);
        struct lettering pen = {.element = board_element(board, ELEMENT_LBODY, item),
                                .size_pt = PANEL_TEXT_PT,
                                .strong = run->items[i].entry->is_strong};
        board_solid(board, x, y - RISE, BULLET_PT, BULLET_PT);
        y = board_lines(board, &pen, &run->items[i].lines,
                        (struct text_place){x + TEXT_AT_PT, y, width, run->line_pt});
    }
    return y - BASE - top;
}

static struct span *item_spans(struct arena *arena, const struct panel_entry *entries)
{
    struct span *first = NULL, **next = &first;
    for (const struct panel_entry *e = entries; e != NULL; e = e->next) {
        if (e->title != NULL)
            next = put_span(arena, next, first != NULL ? " " : "", e->title, TEXT_STRONG);
        next = put_span(arena, next, first != NULL ? " " : "", e->text,
                        e->is_strong ? TEXT_STRONG : TEXT_PLAIN);
    }
    return first;
}

/* Where there is no room at all: a list as one paragraph. */
static double set_paragraph(const struct calls *c, const struct panel_entry *entries, double x,
                            double top, double width_pt)
{
    static const double BASE = 11;
    struct lettering pen = {.size_pt = PANEL_TEXT_PT};
    struct text_lines lines =
        board_break_spans(c->composer, &pen, item_spans(c->composer->arena, entries), width_pt);
    if (c->board != NULL) {
        pen.element = board_element(c->board, ELEMENT_P, c->place->element);
        board_lines(c->board, &pen, &lines,
                    (struct text_place){x, top + BASE, width_pt, panel_line_pt(c->composer)});
    }
    return panel_line_pt(c->composer) * (double)lines.count;
}

/* A list in so many columns, in the order in which it is read. */
static double set_list(const struct calls *c, const struct panel_entry *entries, size_t columns,
                       double x, double top, double width_pt)
{
    if (entries != NULL && c->panel->is_small && block_asks(c->composer, BLOCK_ASKS_LEADS_IN))
        return set_paragraph(c, entries, x, top, width_pt);
    double column = (width_pt - COLUMN_GAP_PT * (double)(columns - 1)) / (double)columns;
    struct list_item_lines *items;
    size_t count = break_items(c->composer, entries, column - TEXT_AT_PT, &items);
    size_t cuts[COLUMNS_MOST + 1];
    best_cuts(items, count, columns, cuts);
    int list = c->board != NULL ? board_element(c->board, ELEMENT_L, c->place->element) : 0;
    double height = 0;
    for (size_t i = 0; i < columns; i++) {
        struct item_run run = {items, cuts[i], cuts[i + 1], list, panel_line_pt(c->composer)};
        height = fmax(height, set_items(c->board, &run, x + (column + COLUMN_GAP_PT) * (double)i,
                                        top, column - TEXT_AT_PT));
    }
    return height;
}

/* Two columns, or three where room is short and they are lower. */
static size_t columns_for(const struct calls *c, const struct panel_entry *entries, double width_pt)
{
    const struct calls measured = {c->composer, c->place, c->panel, NULL};
    if (c->panel->is_small)
        return 1;
    return block_asks(c->composer, BLOCK_ASKS_TIGHT) &&
                   set_list(&measured, entries, COLUMNS_MOST, 0, 0, width_pt) <
                       set_list(&measured, entries, 2, 0, 0, width_pt)
               ? COLUMNS_MOST
               : 2;
}

/* All numbers beside the title: each beside its word, the usual one without its word, or each below
 * its word in a higher bar. */
struct calls_bar {
    struct panel shown;
    struct panel_entry first; /* without its word */
    bool is_high, is_too_narrow;
    double height_pt;
};

static const double BAR_PAD_PT = 8, BAR_SIZE_PT = 14;

static void plan_bar(const struct calls *c, double width, struct calls_bar *bar)
{
    static const double GAP = 12, HIGH_PT = 33;
    const struct lettering title = {.size_pt = BAR_SIZE_PT, .strong = true};
    double room =
        width - 2 * BAR_PAD_PT - GAP - board_width_pt(c->composer, &title, c->panel->title);
    *bar = (struct calls_bar){.shown = *c->panel, .height_pt = BAR_PT};
    if (bar->shown.telephones == NULL ||
        panel_telephones_pt(c->composer, BAR_SIZE_PT, &bar->shown) <= room)
        return;
    bar->first = *bar->shown.telephones;
    bar->first.title = NULL;
    bar->shown.telephones = &bar->first;
    if (panel_telephones_pt(c->composer, BAR_SIZE_PT, &bar->shown) <= room)
        return;
    bar->shown.telephones = c->panel->telephones;
    bar->is_high = true;
    bar->is_too_narrow = panel_telephones_high_pt(c->composer, BAR_SIZE_PT, &bar->shown) > room;
    bar->height_pt = HIGH_PT;
}

static void draw_bar(const struct calls *c, const struct board *board, const struct calls_bar *bar,
                     double width)
{
    static const double BASE = 15, WORDS_BASE = 12, HIGH_BASE = 21;
    int heading = board_section(c->composer, c->place, c->panel->title);
    double right = board->left_pt + width - BAR_PAD_PT;
    board_solid(board, board->left_pt, 0, width, bar->height_pt);
    struct lettering title = {
        .element = heading, .size_pt = BAR_SIZE_PT, .strong = true, .is_paper = true};
    struct lettering number = {
        .element = c->place->element, .size_pt = BAR_SIZE_PT, .is_paper = true};
    board_text(board, &title, board->left_pt + BAR_PAD_PT, bar->is_high ? HIGH_BASE : BASE,
               c->panel->title);
    if (bar->is_high)
        panel_telephones_high(board, &number, &bar->shown, right, WORDS_BASE);
    else
        panel_telephones(board, &number, &bar->shown, right, BASE);
}

static void draw_second_title(const struct calls *c, const struct board *board, double x, double y,
                              double width)
{
    static const double BASE = 15;
    int heading = board_section(c->composer, c->place, c->panel->second_title);
    board_rule(board, x, y + 1, x + width, y + 1, 2);
    struct lettering title = {.element = heading, .size_pt = 14, .strong = true};
    board_text(board, &title, x, y + BASE, c->panel->second_title);
}

/* One paragraph behind its heading; the telephones stand at the head of the page. */
static void set_calls_flow(struct composer *composer, struct place *place,
                           const struct panel *panel)
{
    int heading = board_section(composer, place, panel->title);
    struct board board = board_add(composer, place, 0);
    double indent = panel_lead_in(&board, heading, panel->title);
    struct flow f = {&board, board.width_pt, indent, PANEL_HEADING_BASE_PT};
    flow_text(&f, board_element(&board, ELEMENT_P, place->element), 0,
              item_spans(composer->arena, panel->entries));
    board.fragment->height_pt = f.base + panel_below_pt(composer);
}

/* Two lists beside each other, or one below the other in wider columns: whichever is lower. */
static void set_calls_lists(struct composer *composer, struct place *place,
                            const struct panel *panel)
{
    static const double BELOW = 3, APART = 3;
    struct calls c = {composer, place, panel, NULL};
    double whole = place->width_pt, third = (whole - 2 * COLUMN_GAP_PT) / 3,
           wide = whole - third - COLUMN_GAP_PT;
    bool both = panel->entries != NULL && panel->second != NULL;
    if (panel->entries == NULL && panel->second == NULL)
        return;
    const size_t first_columns = columns_for(&c, panel->entries, whole),
                 second_columns = columns_for(&c, panel->second, whole),
                 beside_columns = panel->is_small ? 1 : 2;
    struct calls_bar narrow, bar;
    plan_bar(&c, wide, &narrow);
    plan_bar(&c, whole, &bar);
    double beside =
        fmax(set_list(&c, panel->entries, beside_columns, 0, 0, wide) + narrow.height_pt,
             set_list(&c, panel->second, 1, 0, 0, third) + BAR_PT) +
        BELOW;
    double first =
        panel->entries != NULL
            ? set_list(&c, panel->entries, first_columns, 0, 0, whole) + bar.height_pt + BELOW
            : 0;
    first += both ? APART : 0;
    double below =
        first + (panel->second != NULL
                     ? BAR_PT + BELOW + set_list(&c, panel->second, second_columns, 0, 0, whole)
                     : 0);
    bool is_beside = both && !narrow.is_too_narrow && beside <= below;
    struct board board = board_add(composer, place, (is_beside ? beside : below) + 2);
    c.board = &board;
    if (panel->entries != NULL) {
        const struct calls_bar *shown = is_beside ? &narrow : &bar;
        double width = is_beside ? wide : whole;
        draw_bar(&c, &board, shown, width);
        set_list(&c, panel->entries, is_beside ? beside_columns : first_columns, board.left_pt,
                 shown->height_pt + BELOW, width);
    }
    if (panel->second == NULL)
        return;
    double x = is_beside ? board.left_pt + wide + COLUMN_GAP_PT : board.left_pt,
           y = is_beside ? 0 : first, width = is_beside ? third : whole;
    draw_second_title(&c, &board, x, y, width);
    set_list(&c, panel->second, is_beside ? 1 : second_columns, x, y + BAR_PT + BELOW, width);
}

void panel_calls(struct composer *composer, struct place *place, const struct panel *panel)
{
    if (block_asks(composer, BLOCK_ASKS_BOXES_FLOW) && panel->is_small && panel->entries != NULL)
        set_calls_flow(composer, place, panel);
    else
        set_calls_lists(composer, place, panel);
}
