/* Two lists beside each other: what is to be done, and what is not. */
#include <math.h>

#include "layout/panels.h"

static const double BASE_PT = 11, BULLET_PT = 3.5, TEXT_AT_PT = 9, GAP_PT = 14;

struct sides {
    struct composer *composer;
    const struct place *place;
    const struct board *board; /* NULL: only measured */
};

/* One line or more from the baseline y on; returns the next baseline. */
static double set_text(const struct sides *s, const struct lettering *pen, const char *text,
                       struct text_place at)
{
    struct text_lines lines = board_break(s->composer, pen, text, at.width_pt);
    return s->board == NULL ? at.y + at.leading_pt * (double)lines.count
                            : board_lines(s->board, pen, &lines, at);
}

static double set_item(const struct sides *s, int list, const struct panel_entry *entry, double x,
                       double y, double width)
{
    static const double RISE = 6;
    struct lettering lead = {.size_pt = PANEL_TEXT_PT, .strong = true},
                     text = {.size_pt = PANEL_TEXT_PT};
    if (s->board != NULL) {
        int item = board_element(s->board, ELEMENT_LI, list);
        lead.element = text.element = board_element(s->board, ELEMENT_LBODY, item);
    }
    if (entry->title != NULL)
        y = set_text(s, &lead, entry->title,
                     (struct text_place){x, y, width, panel_line_pt(s->composer)});
    if (s->board != NULL)
        board_solid(s->board, x, y - RISE, BULLET_PT, BULLET_PT);
    return set_text(
        s, &text, entry->text,
        (struct text_place){x + TEXT_AT_PT, y, width - TEXT_AT_PT, panel_line_pt(s->composer)});
}

/* A list below its name; returns its height. */
static double set_side(const struct sides *s, const char *name, const struct panel_entry *list,
                       double x, double width)
{
    if (list == NULL)
        return 0;
    struct lettering pen = {.size_pt = PANEL_TEXT_PT, .strong = true};
    if (s->board != NULL)
        pen.element = board_element(s->board, ELEMENT_P, s->place->element);
    double y =
        set_text(s, &pen, name, (struct text_place){x, BASE_PT, width, panel_line_pt(s->composer)});
    int element = s->board != NULL ? board_element(s->board, ELEMENT_L, s->place->element) : 0;
    for (const struct panel_entry *e = list; e != NULL; e = e->next)
        y = set_item(s, element, e, x, y, width);
    return y - panel_line_pt(s->composer) + 4;
}

/* The share of the first list with which the higher one is lowest; 1 where there is one list. */
static double best_share(const struct sides *s, const struct panel *panel, double width)
{
    static const double LEAST = 0.3, MOST = 0.701, STEP = 0.05;
    double best = 0, lowest = HUGE_VAL;
    if (panel->entries == NULL || panel->second == NULL)
        return panel->second == NULL;
    for (double share = LEAST; share <= MOST; share += STEP) {
        double left = (width - GAP_PT) * share;
        double height =
            fmax(set_side(s, panel->text, panel->entries, 0, left),
                 set_side(s, panel->second_title, panel->second, 0, width - GAP_PT - left));
        if (height < lowest) {
            lowest = height;
            best = share;
        }
    }
    return best;
}

void panel_sides(struct composer *composer, struct place *place, const struct panel *panel)
{
    struct sides s = {.composer = composer, .place = place};
    if (panel->entries == NULL && panel->second == NULL)
        return;
    panel_heading(composer, place, panel);
    double share = best_share(&s, panel, place->width_pt);
    bool both = panel->entries != NULL && panel->second != NULL;
    double left = (place->width_pt - (both ? GAP_PT : 0)) * share,
           right = place->width_pt - left - (both ? GAP_PT : 0);
    struct board board = board_add(composer, place, 0);
    s.board = &board;
    double first = set_side(&s, panel->text, panel->entries, board.left_pt, left);
    double second = set_side(&s, panel->second_title, panel->second,
                             board.left_pt + place->width_pt - right, right);
    board.fragment->height_pt = fmax(first, second);
}
