/* Which function sets which panel, and what several of them share. */
#include "layout/page_fit.h"
#include "layout/panels.h"

static panel_setter *const setters[PANEL_KIND_COUNT] = {
    [PANEL_HEAD] = panel_head,         [PANEL_STRIP] = panel_strip,
    [PANEL_MESSAGE] = panel_message,   [PANEL_STEPS] = panel_steps,
    [PANEL_DIAGRAM] = panel_diagram,   [PANEL_FIGURES] = panel_figures,
    [PANEL_ALERT] = panel_alert,       [PANEL_CHECKS] = panel_checks,
    [PANEL_CALENDAR] = panel_calendar, [PANEL_NOTICE] = panel_notice,
    [PANEL_GRADES] = panel_grades,     [PANEL_CALLS] = panel_calls,
    [PANEL_SIGNS] = panel_signs,       [PANEL_SIGNATURE] = panel_signature,
    [PANEL_NOTES] = panel_notes,       [PANEL_DRAWING] = panel_drawing,
    [PANEL_TEXT] = panel_text,         [PANEL_SMALL] = panel_small,
    [PANEL_CARD] = panel_card,         [PANEL_SIDES] = panel_sides,
};

void panel_set(struct composer *composer, struct place *place, const struct block *block)
{
    const struct panel *panel = block->as.panel;
    if (panel->cuts != NULL)
        panel_beside_cuts(composer, place, panel, setters[panel->kind]);
    else
        setters[panel->kind](composer, place, panel);
}

bool panel_fits_close(const struct fit_step *fit)
{
    static const double CLOSE_GAP = 2;
    return fit != NULL && fit->gap_pt < CLOSE_GAP;
}

bool panel_is_close(const struct composer *composer)
{
    *composer->asked |= BLOCK_ASKS_CLOSE;
    return panel_fits_close(composer->elastic.fit);
}

double panel_line_pt(const struct composer *composer)
{
    static const double ROOMY = 13.2, CLOSE = 12.9;
    return (panel_is_close(composer) ? CLOSE : ROOMY) + composer->elastic.line_pt;
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
