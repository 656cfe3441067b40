/* Which function sets which panel, and what several of them share. */
#include "layout/page_fit.h"
#include "layout/panels.h"

static panel_setter *const setters[PANEL_KIND_COUNT] = {
    [PANEL_HEAD] = panel_head,           [PANEL_STRIP] = panel_strip,
    [PANEL_MESSAGE] = panel_message,     [PANEL_STEPS] = panel_steps,
    [PANEL_DIAGRAM] = panel_diagram,     [PANEL_FIGURES] = panel_figures,
    [PANEL_ALERT] = panel_alert,         [PANEL_CHECKS] = panel_checks,
    [PANEL_CALENDAR] = panel_calendar,   [PANEL_NOTICE] = panel_notice,
    [PANEL_GRADES] = panel_grades,       [PANEL_CALLS] = panel_calls,
    [PANEL_SIGNS] = panel_signs,         [PANEL_RULER] = panel_ruler,
    [PANEL_SIGNATURE] = panel_signature, [PANEL_NOTES] = panel_notes,
    [PANEL_DRAWING] = panel_drawing,     [PANEL_TEXT] = panel_text,
    [PANEL_SMALL] = panel_small,         [PANEL_CARD] = panel_card,
    [PANEL_SIDES] = panel_sides,
};

void panel_set(struct composer *composer, struct place *place, const struct block *block)
{
    setters[block->as.panel->kind](composer, place, block->as.panel);
}

bool panel_is_close(const struct composer *composer)
{
    static const double CLOSE_GAP = 2;
    const struct fit_step *fit = composer->elastic.fit;
    return fit != NULL && fit->gap_pt < CLOSE_GAP;
}

double panel_below_pt(const struct composer *composer)
{
    static const double ROOMY = 4, CLOSE = 3;
    return panel_is_close(composer) ? CLOSE : ROOMY;
}

double panel_gap_share(const struct block *block)
{
    static const double CLOSE = 0.5;
    if (block->kind != BLOCK_PANEL)
        return 1;
    enum panel_kind kind = block->as.panel->kind;
    return kind == PANEL_STRIP || kind == PANEL_FIGURES ? CLOSE : 1;
}

static const double HEADING_PT = 14;

static void draw_heading_rule(const struct board *board)
{
    static const double RULE = 2;
    board_rule(board, board->left_pt, RULE / 2, board->left_pt + board->width_pt, RULE / 2, RULE);
}

double panel_lead_in(const struct board *board, int heading, const char *title)
{
    static const double GAP = 10;
    struct lettering pen = {.element = heading, .size_pt = HEADING_PT, .strong = true};
    draw_heading_rule(board);
    return board_text(board, &pen, board->left_pt, PANEL_HEADING_BASE_PT, title) + GAP;
}

/* The second text stands at the right of the heading, or below one that is too long for that. */
struct board panel_heading(struct composer *composer, struct place *place,
                           const struct panel *panel)
{
    static const double HEIGHT = 20, BASE = PANEL_HEADING_BASE_PT, LINE = 16, GAP = 12;
    int heading = board_section(composer, place, panel->title);
    struct board board = board_add(composer, place, HEIGHT);
    place->stack->glued = true;
    double left = board.left_pt, width = board.width_pt;
    draw_heading_rule(&board);
    struct lettering pen = {.element = heading, .size_pt = HEADING_PT, .strong = true};
    struct lettering aside = {.size_pt = PANEL_TEXT_PT, .strong = true, .align = ANCHOR_RIGHT};
    double beside = board_width_pt(composer, &aside, panel->aside);
    bool fits =
        board_width_pt(composer, &pen, panel->title) + (beside > 0 ? beside + GAP : 0) <= width;
    struct text_lines lines = board_break(composer, &pen, panel->title, width);
    double y = board_lines(&board, &pen, &lines, (struct text_place){left, BASE, width, LINE});
    if (panel->aside != NULL) {
        aside.element = board_element(&board, ELEMENT_P, place->element);
        struct text_lines more = board_break(composer, &aside, panel->aside, width);
        y = board_lines(&board, &aside, &more,
                        (struct text_place){left, fits ? BASE : y, width, LINE});
    }
    board.fragment->height_pt = HEIGHT + y - BASE - LINE;
    return board;
}

static const struct pictogram_part telephone_parts[] = {
    {PICTOGRAM_FILL, false, 0,
     "M12 4 L20 4 L23 15 L18 19 C20 25 24 29 29 31 L33 26 L44 29 V37 C44 42 41 44 37 44 "
     "C20 43 5 28 4 11 C4 7 7 4 12 4 Z"}};
static const struct pictogram telephone_sign = {telephone_parts, 1, 48, 0};

static const double WORD_GAP = 5, NEXT_GAP = 18, SIGN_GAP = 6;

double panel_telephones_pt(const struct composer *composer, double size_pt,
                           const struct panel *panel)
{
    struct lettering word = {.size_pt = PANEL_TEXT_PT};
    struct lettering number = {.size_pt = size_pt, .strong = true};
    double width = size_pt + SIGN_GAP;
    for (const struct panel_entry *e = panel->telephones; e != NULL; e = e->next)
        width += (e->title != NULL ? board_width_pt(composer, &word, e->title) + WORD_GAP : 0) +
                 board_width_pt(composer, &number, e->value) + (e->next != NULL ? NEXT_GAP : 0);
    return panel->telephones != NULL ? width : 0;
}

/* From left to right, so that what is read is what is seen. */
double panel_telephones(const struct board *board, const struct lettering *pen,
                        const struct panel *panel, double right, double y)
{
    static const double RISE = 0.82;
    bool on_solid = pen->is_paper;
    double size_pt = pen->size_pt;
    int parent = pen->element;
    struct lettering word = {.size_pt = PANEL_TEXT_PT, .is_paper = on_solid};
    struct lettering number = {.size_pt = size_pt, .strong = true, .is_paper = on_solid};
    if (panel->telephones == NULL)
        return right;
    double x = right - panel_telephones_pt(board->composer, size_pt, panel);
    board_pictogram(
        board, &telephone_sign,
        (struct pictogram_place){OPS_ARTIFACT, x, y - RISE * size_pt, size_pt, on_solid, false});
    double at = x + size_pt + SIGN_GAP;
    for (const struct panel_entry *e = panel->telephones; e != NULL; e = e->next) {
        word.element = number.element = board_element(board, ELEMENT_P, parent);
        double taken = board_text(board, &word, at, y, e->title);
        at += taken > 0 ? taken + WORD_GAP : 0;
        at += board_link(board, &number, at, y, e->value, e->uri) + NEXT_GAP;
    }
    return x;
}
