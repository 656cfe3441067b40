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

/* ---- where room is short: one list in columns, in the order in which it is read ---- */

enum { COLUMNS_LEAST = 2, COLUMNS_MOST = 3 };

/* What several items share stands once on a line above them; what one has alone leads into it. */
struct packed_item {
    const char *lead; /* its own or that of those before it; NULL for none */
    bool begins_group, leads_in;
    struct text_lines lead_lines, text_lines;
};

struct packed {
    struct sides *sides;
    const struct panel *panel;
    struct packed_item *items;
    size_t count, columns, cuts[COLUMNS_MOST + 1], lines;
    double column_pt;
    bool is_heading_inside; /* above the first column alone */
};

static struct span lead_span(struct arena *arena, const struct packed_item *item,
                             struct span *behind)
{
    return (struct span){
        .text = arena_format(arena, "%s ", item->lead), .style = TEXT_STRONG, .next = behind};
}

static void break_item(const struct packed *p, const struct panel_entry *entry,
                       struct packed_item *item)
{
    struct composer *composer = p->sides->composer;
    const double width = p->column_pt - TEXT_AT_PT;
    struct lettering lead = {.size_pt = PANEL_TEXT_PT, .strong = true},
                     pen = {.size_pt = PANEL_TEXT_PT};
    struct span *text = ARENA_NEW(composer->arena, struct span),
                *first = ARENA_NEW(composer->arena, struct span);
    *text = (struct span){.text = entry->text, .style = TEXT_PLAIN};
    item->leads_in = item->begins_group && (entry->next == NULL || entry->next->title != NULL);
    if (item->leads_in)
        *first = lead_span(composer->arena, item, text);
    else if (item->lead != NULL)
        item->lead_lines = board_break(composer, &lead, item->lead, p->column_pt);
    item->text_lines = board_break_spans(composer, &pen, item->leads_in ? first : text, width);
}

static void break_items(struct packed *p)
{
    const char *lead = NULL;
    p->count = 0;
    for (const struct panel_entry *e = p->panel->entries; e != NULL; e = e->next) {
        struct packed_item *item = &p->items[p->count++];
        lead = e->title != NULL ? e->title : lead;
        *item = (struct packed_item){.lead = lead, .begins_group = e->title != NULL};
        break_item(p, e, item);
    }
}

/* A column that begins within a group says again what its items share. */
static bool shows_lead(const struct packed_item *item, bool is_first)
{
    return item->lead != NULL && !item->leads_in && (item->begins_group || is_first);
}

static bool fill_columns(struct packed *p, size_t lines)
{
    size_t column = 0, used = p->is_heading_inside, begun = 0;
    p->cuts[0] = 0;
    for (size_t i = 0; i < p->count; i++) {
        const struct packed_item *item = &p->items[i];
        size_t takes =
            item->text_lines.count + (shows_lead(item, i == begun) ? item->lead_lines.count : 0);
        if (used + takes > lines && i > begun) {
            if (++column == p->columns)
                return false;
            p->cuts[column] = begun = i;
            used = 0;
            takes = item->text_lines.count + (shows_lead(item, true) ? item->lead_lines.count : 0);
        }
        if (used + takes > lines)
            return false;
        used += takes;
    }
    while (++column <= p->columns)
        p->cuts[column] = p->count;
    return true;
}

static double heading_pt(const struct packed *p)
{
    static const double HEADING = 20;
    return p->is_heading_inside ? HEADING - panel_line_pt(p->sides->composer) : HEADING;
}

/* Returns how high it is in so many columns. */
static double pack(struct packed *p, size_t columns)
{
    const struct lettering title = {.size_pt = 14, .strong = true};
    p->columns = columns;
    p->column_pt = (p->sides->place->width_pt - GAP_PT * (double)(columns - 1)) / (double)columns;
    p->is_heading_inside =
        board_width_pt(p->sides->composer, &title, p->panel->title) <= p->column_pt;
    break_items(p);
    p->lines = 1;
    while (!fill_columns(p, p->lines))
        p->lines++;
    return heading_pt(p) + panel_line_pt(p->sides->composer) * (double)p->lines;
}

static void draw_column(const struct packed *p, int list, size_t column, double top)
{
    static const double RISE = 6;
    const struct board *board = p->sides->board;
    const double x = board->left_pt + (p->column_pt + GAP_PT) * (double)column,
                 line = panel_line_pt(p->sides->composer);
    double y = top + BASE_PT + (column == 0 && p->is_heading_inside ? line : 0);
    for (size_t i = p->cuts[column]; i < p->cuts[column + 1]; i++) {
        const struct packed_item *item = &p->items[i];
        int body = board_element(board, ELEMENT_LBODY, board_element(board, ELEMENT_LI, list));
        struct lettering lead = {.element = body, .size_pt = PANEL_TEXT_PT, .strong = true},
                         text = {.element = body, .size_pt = PANEL_TEXT_PT};
        if (shows_lead(item, i == p->cuts[column]))
            y = board_lines(board, &lead, &item->lead_lines,
                            (struct text_place){x, y, p->column_pt, line});
        board_solid(board, x, y - RISE, BULLET_PT, BULLET_PT);
        y = board_lines(board, &text, &item->text_lines,
                        (struct text_place){x + TEXT_AT_PT, y, p->column_pt - TEXT_AT_PT, line});
    }
}

static void set_packed(const struct sides *s, struct place *place, const struct panel *panel)
{
    struct sides own = *s;
    struct packed p = {.sides = &own, .panel = panel};
    size_t count = 0;
    for (const struct panel_entry *e = panel->entries; e != NULL; e = e->next)
        count++;
    p.items = ARENA_ARRAY(s->composer->arena, struct packed_item, count + 1);
    const double most = pack(&p, COLUMNS_MOST), least = pack(&p, COLUMNS_LEAST);
    const double height = most < least ? pack(&p, COLUMNS_MOST) : least;
    int heading = board_section(s->composer, place, panel->title);
    struct board board = board_add(s->composer, place, height + panel_below_pt(s->composer));
    panel_lead_in(&board, heading, panel->title);
    own.board = &board;
    int list = board_element(&board, ELEMENT_L, place->element);
    for (size_t i = 0; i < p.columns; i++)
        draw_column(&p, list, i, heading_pt(&p));
}

void panel_sides(struct composer *composer, struct place *place, const struct panel *panel)
{
    struct sides s = {.composer = composer, .place = place};
    if (panel->entries == NULL && panel->second == NULL)
        return;
    if (panel->is_small) {
        set_packed(&s, place, panel);
        return;
    }
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
