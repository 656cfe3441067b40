/* The signature, notes, and small type. */
#include <math.h>

#include "layout/panels.h"

/* ---- who signs ---- */

static const double SIGNED_LINE_PT = 14;

/* The words in one paragraph: the first ones in bold, their sign before them. Returns the next
 * baseline. */
static double set_together(const struct board *board, const struct place *place,
                           const struct panel *panel, double y, double width)
{
    struct composer *composer = board->composer;
    struct span *first = NULL, **next = &first;
    double beside = 0;
    for (const struct panel_entry *e = panel->entries; e != NULL && e->uri == NULL; e = e->next) {
        *next = ARENA_NEW(composer->arena, struct span);
        **next = (struct span){
            .text = arena_format(composer->arena, "%s%s", e != panel->entries ? " " : "", e->text),
            .style = e->is_strong ? TEXT_STRONG : TEXT_PLAIN};
        next = &(*next)->next;
        beside += e->pictogram != NULL ? 20 : 0;
        board_pictogram(
            board, e->pictogram,
            (struct pictogram_place){OPS_ARTIFACT, board->left_pt, y - 12, 15, false, false});
    }
    struct lettering pen = {.element = board_element(board, ELEMENT_P, place->element),
                            .size_pt = PANEL_TEXT_PT};
    struct text_lines lines = board_break_spans(composer, &pen, first, width - beside);
    return board_lines(
        board, &pen, &lines,
        (struct text_place){board->left_pt + beside, y, width - beside, SIGNED_LINE_PT});
}

/* Each of the words on lines of its own. */
static double set_words(const struct board *board, const struct place *place,
                        const struct panel *panel, double y, double width)
{
    static const double GAP = 12;
    struct composer *composer = board->composer;
    double left = board->left_pt, beyond = left;
    for (const struct panel_entry *e = panel->entries; e != NULL; e = e->next) {
        if (e->uri != NULL) { /* those to be followed stand side by side */
            struct lettering link = {.element = board_element(board, ELEMENT_P, place->element),
                                     .size_pt = PANEL_TEXT_PT};
            y += beyond > left ? 0 : SIGNED_LINE_PT;
            beyond += board_link(board, &link, beyond, y - SIGNED_LINE_PT, e->value, e->uri) + GAP;
            continue;
        }
        struct lettering pen = {.element = board_element(board, ELEMENT_P, place->element),
                                .size_pt = PANEL_TEXT_PT,
                                .strong = e->is_strong};
        double beside = e->pictogram != NULL ? 20 : 0;
        board_pictogram(board, e->pictogram,
                        (struct pictogram_place){OPS_ARTIFACT, left, y - 12, 15, false, false});
        struct text_lines lines = board_break(composer, &pen, e->text, width - beside);
        y = board_lines(board, &pen, &lines,
                        (struct text_place){left + beside, y, width - beside, SIGNED_LINE_PT});
    }
    return y;
}

void panel_signature(struct composer *composer, struct place *place, const struct panel *panel)
{
    static const double RULE = 2, USUAL_TOP = 17, CLOSE_TOP = 14, SHARE = 0.64, WIDE_SHARE = 0.72,
                        GAP = 12, BELOW_TOP = 21;
    const double top = panel_is_close(composer) ? CLOSE_TOP : USUAL_TOP;
    struct board board = board_add(composer, place, top + BELOW_TOP);
    double left = board.left_pt, right = left + board.width_pt;
    board_rule(&board, left, RULE / 2, right, RULE / 2, RULE);
    double x = left + board.width_pt * (panel->is_small ? WIDE_SHARE : SHARE);
    double width = x - left - GAP;
    double y = panel->is_small ? set_together(&board, place, panel, top, width)
                               : set_words(&board, place, panel, top, width);
    struct lettering pen = {.element = board_element(&board, ELEMENT_P, place->element),
                            .size_pt = PANEL_TEXT_PT};
    double at = x + board_text(&board, &pen, x, top, panel->title) + 6;
    board_rule(&board, at, top + 1, right, top + 1, 0.75);
    struct text_lines lines = board_break(composer, &pen, panel->text, right - x);
    double below =
        board_lines(&board, &pen, &lines,
                    (struct text_place){x, top + SIGNED_LINE_PT + 1, right - x, SIGNED_LINE_PT});
    board.fragment->height_pt = fmax(top + BELOW_TOP, fmax(y, below) - SIGNED_LINE_PT + 5);
}

/* ---- notes ---- */

void panel_notes(struct composer *composer, struct place *place, const struct panel *panel)
{
    static const double LINE = 22, LEAST = 42;
    double room = composer->elastic.notes_pt;
    if (room < LEAST)
        return;
    struct board board = panel_heading(composer, place, panel);
    double height = board.fragment->height_pt;
    board = board_add(composer, place, room - height);
    double right = board.left_pt + board.width_pt;
    for (double y = LINE; y <= board.fragment->height_pt; y += LINE)
        board_rule(&board, board.left_pt, y, right, y, 0.5);
}

/* ---- small type ---- */

static void set_text(struct composer *composer, struct place *place, const struct panel *panel,
                     double size_pt, double line_pt)
{
    struct span plain = {.text = panel->text}, *spans = &plain;
    if (panel->entries != NULL)
        spans = panel_spans(composer->arena, panel->entries, NULL);
    else if (panel->text == NULL)
        return;
    struct board board = board_add(composer, place, 0);
    struct lettering pen = {.element = board_element(&board, ELEMENT_P, place->element),
                            .size_pt = size_pt};
    struct text_lines lines = board_break_spans(composer, &pen, spans, board.width_pt);
    double y =
        board_lines(&board, &pen, &lines,
                    (struct text_place){board.left_pt, size_pt * 0.9, board.width_pt, line_pt});
    board.fragment->height_pt = y - line_pt + panel_below_pt(composer) - 1;
}

void panel_text(struct composer *composer, struct place *place, const struct panel *panel)
{
    set_text(composer, place, panel, PANEL_TEXT_PT, 13.5);
}

void panel_small(struct composer *composer, struct place *place, const struct panel *panel)
{
    set_text(composer, place, panel, 10, 11.8);
}
