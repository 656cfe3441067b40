/* Rows to tick off: the number to reach, which way and from where, what to do, how, and a line to
 * write down what came of it. */
#include <math.h>

#include "layout/panels.h"

static const double TICK_PT = 20, TICK_STROKE_PT = 1.75, VALUE_AT_PT = 30, ROW_PT = 60;
static const double WRITE_PT = 76, GUTTER_PT = 14, NARROW_PT = 330, VALUE_LEAST_PT = 96;
static const double HOW_LEADING = 14.2, VERB_LEADING = 18, VERB_PT = 16;
static const double TURN_PT = 17, SIGN_PT = 46, LIMIT_BASE_PT = 60;

struct steps {
    struct composer *composer;
    struct place *place;
    bool is_narrow;
    bool
        writes_below; /* the line to write on stands below the number, not in a column of its own */
    double value_pt;  /* width of the column of numbers */
    double size_pt;   /* of the numbers */
    int list;
};

static const struct lettering limit_pen = {.size_pt = PANEL_TEXT_PT, .strong = true};

static double value_width(const struct steps *s, const struct panel_entry *entry)
{
    static const double BESIDE_TURN = 22;
    struct lettering value = {.size_pt = s->size_pt, .strong = true}, now = {.size_pt = 14};
    if (entry->value == NULL)
        return entry->pictogram != NULL ? SIGN_PT : 0;
    double widest = fmax(board_width_pt(s->composer, &value, entry->value),
                         BESIDE_TURN + board_width_pt(s->composer, &now, entry->now));
    return s->is_narrow ? widest
                        : fmax(widest, board_width_pt(s->composer, &limit_pen, entry->limit));
}

static void measure(struct steps *s, const struct panel *panel)
{
    static const double WIDE = 168;
    struct lettering value = {.size_pt = s->size_pt, .strong = true};
    for (const struct panel_entry *e = panel->entries; e != NULL; e = e->next)
        if (board_width_pt(s->composer, &value, e->value) > WIDE)
            s->size_pt = 26;
    s->value_pt = VALUE_LEAST_PT;
    for (const struct panel_entry *e = panel->entries; e != NULL; e = e->next)
        s->value_pt = fmax(s->value_pt, value_width(s, e));
}

static void set_heading(struct steps *s, const struct panel *panel)
{
    static const double RULE = 2, HEIGHT = 24, CLOSE = 22, BASE = 19, NARROW_LINE = 14;
    int heading = board_section(s->composer, s->place, panel->title);
    struct board board =
        board_add(s->composer, s->place, panel_is_close(s->composer) ? CLOSE : HEIGHT);
    s->place->stack->glued = true;
    double right = board.left_pt + board.width_pt;
    board_rule(&board, board.left_pt, RULE / 2, right, RULE / 2, RULE);
    struct lettering pen = {.element = heading, .size_pt = 18, .strong = true};
    double width = board_text(&board, &pen, board.left_pt, BASE, panel->title);
    if (panel->aside == NULL)
        return;
    struct lettering aside = {.element = board_element(&board, ELEMENT_P, s->place->element),
                              .size_pt = PANEL_TEXT_PT,
                              .strong = true,
                              .align = ANCHOR_RIGHT};
    if (width + GUTTER_PT + board_width_pt(s->composer, &aside, panel->aside) <= board.width_pt) {
        board_text(&board, &aside, right, BASE, panel->aside);
        return;
    }
    aside.align = ANCHOR_LEFT;
    struct text_lines lines = board_break(s->composer, &aside, panel->aside, board.width_pt);
    board_lines(
        &board, &aside, &lines,
        (struct text_place){board.left_pt, BASE + NARROW_LINE + 2, board.width_pt, NARROW_LINE});
    board.fragment->height_pt += NARROW_LINE * (double)lines.count + 4;
}

/* The box to tick and below it the step's number; returns the item's body. */
static int draw_label(const struct steps *s, const struct board *board,
                      const struct panel_entry *entry)
{
    static const double MARK_DROP = 33;
    int item = board_element(board, ELEMENT_LI, s->list);
    int label = board_element(board, ELEMENT_LBL, item);
    elements_find(&board->composer->elements, label)->actual = entry->mark_said;
    double x = board->left_pt;
    if (entry->has_tick_box)
        board_tick_label(board, label, (struct tick_place){x, 2, TICK_PT, TICK_PT, TICK_STROKE_PT},
                         entry->mark_said);
    board_mark(board, label, entry->mark, entry->is_mark_solid, x + TICK_PT / 2, MARK_DROP);
    return board_element(board, ELEMENT_LBODY, item);
}

/* "now 84" behind its arrow, or a line to write on. */
static void draw_now(const struct board *board, int element, const struct panel_entry *entry,
                     double x, double y)
{
    static const double BESIDE = 22, LINE = 44;
    struct lettering now = {.element = element, .size_pt = 14};
    board_turn(board, entry->turn, entry->turn_said,
               (struct pictogram_place){element, x, y - 13, TURN_PT, false, false});
    double at = entry->turn != TURN_NONE ? x + BESIDE : x;
    at += board_text(board, &now, at, y, entry->now);
    if (entry->is_now_open)
        board_rule(board, at + 5, y + 1, at + 5 + LINE, y + 1, 0.75);
}

static void draw_number(const struct steps *s, const struct board *board, int body,
                        const struct panel_entry *entry)
{
    static const double VALUE_BASE = 25, NOW_BASE = 45;
    double x = board->left_pt + VALUE_AT_PT;
    if (entry->value == NULL) {
        board_pictogram(board, entry->pictogram,
                        (struct pictogram_place){OPS_ARTIFACT, x, 2, SIGN_PT, false, false});
        return;
    }
    struct lettering value = {.element = body, .size_pt = s->size_pt, .strong = true};
    double width = board_text(board, &value, x, VALUE_BASE, entry->value);
    if (s->is_narrow) {
        draw_now(board, body, entry, x + width + 8, VALUE_BASE);
        return;
    }
    draw_now(board, body, entry, x, NOW_BASE);
    struct lettering limit = limit_pen;
    limit.element = body;
    board_text(board, &limit, x, LIMIT_BASE_PT, entry->limit);
}

/* Room to write in: its left edge and width, the baseline of its words and the line below. */
struct write_room {
    double left, width, top, bottom;
};

/* When to write, a line, the unit. */
static void draw_write(const struct board *board, int body, const struct panel_entry *entry,
                       struct write_room room)
{
    if (entry->note == NULL)
        return;
    struct lettering pen = {.element = body, .size_pt = PANEL_TEXT_PT};
    struct text_lines lines = board_break(board->composer, &pen, entry->note, room.width);
    board_lines(board, &pen, &lines,
                (struct text_place){room.left, room.top, room.width, HOW_LEADING});
    double unit = board_width_pt(board->composer, &pen, entry->unit);
    double right = room.left + room.width;
    board_rule(board, room.left, room.bottom, right - (unit > 0 ? unit + 4 : 0), room.bottom, 0.75);
    pen.align = ANCHOR_RIGHT;
    board_text(board, &pen, right, room.bottom, entry->unit);
}

/* The same below the number, which leaves the words its column: the line goes on behind its words
 * or, where they leave too little of it, stands below them. Returns the line's base; without a
 * board it is only measured. */
static double write_below(const struct steps *s, const struct board *board, int body,
                          const struct panel_entry *entry)
{
    static const double BELOW = 15, SIGN_BASE = 61, NOW_BASE = 45, LEAST = 30, GAP = 5;
    struct lettering pen = {.element = body, .size_pt = PANEL_TEXT_PT};
    struct text_lines lines = board_break(s->composer, &pen, entry->note, s->value_pt);
    double top = entry->limit != NULL   ? LIMIT_BASE_PT + BELOW
                 : entry->value != NULL ? NOW_BASE + BELOW
                                        : SIGN_BASE;
    double bottom = top + HOW_LEADING * (double)(lines.count - 1);
    double words = lines.count > 0 ? lines.items[lines.count - 1].width_pt + GAP : 0;
    double unit = board_width_pt(s->composer, &pen, entry->unit);
    if (words + LEAST + (unit > 0 ? unit + GAP : 0) > s->value_pt) {
        words = 0;
        bottom += HOW_LEADING + GAP;
    }
    if (board == NULL)
        return bottom;
    double x = board->left_pt + VALUE_AT_PT;
    board_lines(board, &pen, &lines, (struct text_place){x, top, s->value_pt, HOW_LEADING});
    struct panel_entry line = {.note = "", .unit = entry->unit};
    draw_write(board, body, &line,
               (struct write_room){x + words, s->value_pt - words, top, bottom});
    return bottom;
}

static const double ROW_VERB_BASE = 15, ROW_ABOVE_HOW = 15.5;

/* Rows are as close as cells and lists where room is short. */
static double how_leading(const struct steps *s)
{
    static const double CLOSE_LEADING = 13;
    return panel_is_close(s->composer) ? CLOSE_LEADING + s->composer->elastic.line_pt : HOW_LEADING;
}

/* What a number and its reading, or a sign, take at least. */
static double least_row(const struct steps *s)
{
    static const double CLOSE_ROW = 53;
    return panel_is_close(s->composer) ? CLOSE_ROW : ROW_PT;
}

static double below_row(const struct steps *s)
{
    static const double ROOMY = 6, CLOSE = 4;
    return panel_is_close(s->composer) ? CLOSE : ROOMY;
}

/* What is left for the words between the number and the line to write on. */
static double words_room(const struct steps *s)
{
    return s->place->width_pt - VALUE_AT_PT - s->value_pt - GUTTER_PT -
           (s->writes_below ? 0 : WRITE_PT + GUTTER_PT);
}

static double row_height(const struct steps *s, const struct panel_entry *entry)
{
    const struct lettering verb = {.size_pt = VERB_PT, .strong = true},
                           how = {.size_pt = PANEL_TEXT_PT};
    const double room = words_room(s), below = below_row(s);
    size_t verbs = board_break(s->composer, &verb, entry->title, room).count,
           hows = board_break(s->composer, &how, entry->text, room).count;
    double words = ROW_VERB_BASE + ROW_ABOVE_HOW + VERB_LEADING * ((double)verbs - 1) +
                   how_leading(s) * ((double)hows - 1) + below;
    double number = entry->limit != NULL ? LIMIT_BASE_PT + below : least_row(s);
    if (s->writes_below && entry->note != NULL)
        number = fmax(number, write_below(s, NULL, 0, entry) + below);
    return fmax(number, words);
}

/* Where room is short all rows write below their numbers, if that makes them lower. */
static void choose_write(struct steps *s, const struct panel *panel)
{
    double height[2] = {0, 0};
    for (int below = 0; below < 2; below++) {
        s->writes_below = below;
        for (const struct panel_entry *e = panel->entries; e != NULL; e = e->next)
            height[below] += row_height(s, e);
    }
    s->writes_below = height[1] < height[0];
}

static void wide_row(const struct steps *s, const struct panel_entry *entry)
{
    struct board board = board_add(s->composer, s->place, ROW_PT);
    double left = board.left_pt + VALUE_AT_PT + s->value_pt + GUTTER_PT;
    double right = board.left_pt + board.width_pt - WRITE_PT;
    double room = words_room(s);
    int body = draw_label(s, &board, entry);
    struct lettering verb = {.element = body, .size_pt = VERB_PT, .strong = true},
                     how = {.element = body, .size_pt = PANEL_TEXT_PT};
    struct text_lines lines = board_break(s->composer, &verb, entry->title, room);
    double y = board_lines(&board, &verb, &lines,
                           (struct text_place){left, ROW_VERB_BASE, room, VERB_LEADING});
    draw_number(s, &board, body, entry);
    lines = board_break(s->composer, &how, entry->text, room);
    board_lines(&board, &how, &lines,
                (struct text_place){left, y - VERB_LEADING + ROW_ABOVE_HOW, room, how_leading(s)});
    double height = row_height(s, entry) + s->composer->elastic.row_pt;
    board.fragment->height_pt = height;
    if (s->writes_below && entry->note != NULL)
        write_below(s, &board, body, entry);
    else
        draw_write(&board, body, entry, (struct write_room){right, WRITE_PT, 13, height - 12});
}

/* For a narrow column: number and reading on one line, the words below. */
static void narrow_row(const struct steps *s, const struct panel_entry *entry)
{
    static const double VERB_BASE = 46, NO_NUMBER_BASE = 15, ABOVE_HOW = 15.5, BELOW = 8;
    const double leading = how_leading(s);
    struct board board = board_add(s->composer, s->place, ROW_PT);
    double left = board.left_pt + VALUE_AT_PT, room = board.width_pt - VALUE_AT_PT;
    int body = draw_label(s, &board, entry);
    struct lettering verb = {.element = body, .size_pt = VERB_PT, .strong = true},
                     how = {.element = body, .size_pt = PANEL_TEXT_PT};
    struct text_lines lines = board_break(s->composer, &verb, entry->title, room);
    bool has_number = entry->value != NULL;
    double y = board_lines(
        &board, &verb, &lines,
        (struct text_place){left, has_number ? VERB_BASE : NO_NUMBER_BASE, room, VERB_LEADING});
    if (has_number)
        draw_number(s, &board, body, entry);
    const char *text = entry->limit != NULL && entry->text != NULL
                           ? arena_format(s->composer->arena, "%s %s", entry->limit, entry->text)
                           : entry->text;
    lines = board_break(s->composer, &how, text, room);
    y = board_lines(&board, &how, &lines,
                    (struct text_place){left, y - VERB_LEADING + ABOVE_HOW, room, leading});
    if (entry->note != NULL) {
        static const double WIDTH = 150, LINE_DROP = 4;
        struct lettering pen = {.element = body, .size_pt = PANEL_TEXT_PT};
        double word = board_text(&board, &pen, left, y + LINE_DROP, entry->note) + 6;
        struct panel_entry line = {.note = "", .unit = entry->unit};
        draw_write(&board, body, &line,
                   (struct write_room){left + word, WIDTH - word, y, y + LINE_DROP});
        y += leading + LINE_DROP;
    }
    board.fragment->height_pt =
        fmax(least_row(s), y - leading + BELOW) + s->composer->elastic.row_pt;
}

void panel_steps(struct composer *composer, struct place *place, const struct panel *panel)
{
    static const double RULE = 0.75;
    struct steps s = {.composer = composer,
                      .place = place,
                      .size_pt = place->width_pt < NARROW_PT ? 22 : 30,
                      .is_narrow = place->width_pt < NARROW_PT};
    set_heading(&s, panel);
    measure(&s, panel);
    if (!s.is_narrow && panel_is_close(composer))
        choose_write(&s, panel);
    s.list = elements_add(&composer->elements, ELEMENT_L, place->element);
    elements_find(&composer->elements, s.list)->numbering = NUMBERING_DECIMAL;
    for (const struct panel_entry *e = panel->entries; e != NULL; e = e->next) {
        if (s.is_narrow)
            narrow_row(&s, e);
        else
            wide_row(&s, e);
        composer->elastic.row_count++;
        if (e->next == NULL)
            break;
        struct board board = {composer, place->stack->last, place->left_pt, place->width_pt};
        double y = board.fragment->height_pt - RULE / 2;
        board_rule(&board, board.left_pt, y, board.left_pt + board.width_pt, y, RULE);
        place->stack->gap_pt = panel_is_close(composer) ? 2.5 : 4;
    }
}
