/* Telephone numbers behind their sign: each beside its word, or below it where room is narrow. */
#include <math.h>

#include "layout/panels.h"

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

static void draw_sign(const struct board *board, const struct lettering *pen, double x, double y)
{
    static const double RISE = 0.82;
    board_pictogram(board, &telephone_sign,
                    (struct pictogram_place){OPS_ARTIFACT, x, y - RISE * pen->size_pt, pen->size_pt,
                                             pen->is_paper, false});
}

/* From left to right, so that what is read is what is seen. */
double panel_telephones(const struct board *board, const struct lettering *pen,
                        const struct panel *panel, double right, double y)
{
    bool on_solid = pen->is_paper;
    double size_pt = pen->size_pt;
    int parent = pen->element;
    struct lettering word = {.size_pt = PANEL_TEXT_PT, .is_paper = on_solid};
    struct lettering number = {.size_pt = size_pt, .strong = true, .is_paper = on_solid};
    if (panel->telephones == NULL)
        return right;
    double x = right - panel_telephones_pt(board->composer, size_pt, panel);
    draw_sign(board, pen, x, y);
    double at = x + size_pt + SIGN_GAP;
    for (const struct panel_entry *e = panel->telephones; e != NULL; e = e->next) {
        word.element = number.element = board_element(board, ELEMENT_P, parent);
        double taken = board_text(board, &word, at, y, e->title);
        at += taken > 0 ? taken + WORD_GAP : 0;
        at += board_link(board, &number, at, y, e->value, e->uri) + NEXT_GAP;
    }
    return x;
}

/* How wide a number is whose word stands above it. */
static double high_entry_pt(const struct composer *composer, double size_pt,
                            const struct panel_entry *entry)
{
    struct lettering word = {.size_pt = PANEL_TEXT_PT};
    struct lettering number = {.size_pt = size_pt, .strong = true};
    double above = entry->title != NULL ? board_width_pt(composer, &word, entry->title) : 0;
    return fmax(above, board_width_pt(composer, &number, entry->value));
}

double panel_telephones_high_pt(const struct composer *composer, double size_pt,
                                const struct panel *panel)
{
    double width = size_pt + SIGN_GAP;
    for (const struct panel_entry *e = panel->telephones; e != NULL; e = e->next)
        width += high_entry_pt(composer, size_pt, e) + (e->next != NULL ? NEXT_GAP : 0);
    return panel->telephones != NULL ? width : 0;
}

void panel_telephones_high(const struct board *board, const struct lettering *pen,
                           const struct panel *panel, double right, double y)
{
    const struct composer *composer = board->composer;
    struct lettering word = {.size_pt = PANEL_TEXT_PT, .is_paper = pen->is_paper};
    struct lettering number = {.size_pt = pen->size_pt, .strong = true, .is_paper = pen->is_paper};
    double at = right - panel_telephones_high_pt(composer, pen->size_pt, panel);
    double base = y + PANEL_NUMBER_BELOW_PT;
    if (panel->telephones == NULL)
        return;
    draw_sign(board, pen, at, base);
    at += pen->size_pt + SIGN_GAP;
    for (const struct panel_entry *e = panel->telephones; e != NULL; e = e->next) {
        word.element = number.element = board_element(board, ELEMENT_P, pen->element);
        board_text(board, &word, at, y, e->title);
        board_link(board, &number, at, base, e->value, e->uri);
        at += high_entry_pt(composer, pen->size_pt, e) + NEXT_GAP;
    }
}
