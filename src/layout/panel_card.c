/* A card for a wallet: two faces of ID-1 (ISO/IEC 7810) beside each other, to cut out and fold. */
#include <math.h>

#include "layout/panels.h"

static const double WIDTH_PT = 85.6 / 25.4 * 72, HEIGHT_PT = 53.98 / 25.4 * 72;
static const double PAD_PT = 7, GAP_PT = 2;

/* From the roomiest on; none is smaller than the smallest type that a look may have. */
struct card_sizes {
    double text_pt, line_pt, sign_pt;
};
static const struct card_sizes sizes[] = {{11, 12.6, 13}, {10, 11.4, 12}, {9, 10.3, 11}};
enum { SIZE_COUNT = sizeof sizes / sizeof *sizes };

struct card {
    struct composer *composer;
    const struct panel *panel;
    struct place *place;
    struct board board;
    double left_pt, top_pt, width_pt; /* the face under way, and how wide its text may be */
    double end_pt;                    /* where its text must end */
};

/* ---- what fits ---- */

static double lines_pt(const struct card *card, const struct card_sizes *s, const char *text,
                       double beside_pt, bool strong)
{
    struct lettering pen = {.size_pt = s->text_pt, .strong = strong};
    struct text_lines lines = board_break(card->composer, &pen, text, card->width_pt - beside_pt);
    return (double)lines.count * s->line_pt + GAP_PT;
}

static double beside_pt(const struct card_sizes *s, const struct panel_entry *entry)
{
    return entry->pictogram != NULL ? s->sign_pt + 4 : 0;
}

static double list_pt(const struct card *card, const struct card_sizes *s,
                      const struct panel_entry *entry, size_t count)
{
    double height = 0;
    for (; entry != NULL && count > 0; entry = entry->next, count--)
        height += lines_pt(card, s, entry->text, beside_pt(s, entry), entry->is_strong);
    return height;
}

/* Names what has no room here behind the words that say where it stands; NULL: all has. */
static const char *left_text(const struct card *card, const struct panel_entry *entry, size_t kept)
{
    const char *text = NULL;
    for (; entry != NULL && kept > 0; kept--)
        entry = entry->next;
    for (; entry != NULL; entry = entry->next)
        text = arena_format(card->composer->arena, "%s%s %s", text ? text : card->panel->after,
                            text ? "," : "", entry->title);
    return text ? arena_format(card->composer->arena, "%s.", text) : NULL;
}

/* One after another, without signs: it takes the least room. Empty for no entry. */
static const char *run_on_text(const struct card *card, const struct panel_entry *entry)
{
    const char *text = "";
    for (; entry != NULL; entry = entry->next)
        text = arena_format(card->composer->arena, "%s%s%s", text, *text ? " " : "", entry->text);
    return text;
}

struct fit {
    const struct card_sizes *sizes;
    size_t kept;        /* entries, each on lines of its own */
    const char *run_on; /* or all as one paragraph; NULL: not so */
    const char *left;   /* where the others stand */
};

static struct fit fit_list(const struct card *card, const struct panel_entry *list, double room)
{
    size_t count = 0;
    for (const struct panel_entry *e = list; e != NULL; e = e->next)
        count++;
    for (size_t i = 0; i < SIZE_COUNT; i++)
        if (list_pt(card, &sizes[i], list, count) <= room)
            return (struct fit){.sizes = &sizes[i], .kept = count};
    struct fit fit = {.sizes = &sizes[SIZE_COUNT - 1], .run_on = run_on_text(card, list)};
    if (lines_pt(card, fit.sizes, fit.run_on, 0, false) <= room)
        return fit;
    fit.run_on = NULL;
    fit.kept = count;
    double height;
    do {
        fit.kept--;
        fit.left = left_text(card, list, fit.kept);
        height =
            list_pt(card, fit.sizes, list, fit.kept) + lines_pt(card, fit.sizes, fit.left, 0, true);
    } while (fit.kept > 0 && height > room);
    return fit;
}

/* ---- drawing ---- */

/* Returns the top of what comes next. */
static double draw_text(const struct card *card, const struct lettering *pen, const char *text,
                        double left, double top, double line_pt)
{
    double width = card->left_pt + PAD_PT + card->width_pt - left;
    struct text_lines lines = board_break(card->composer, pen, text, width);
    return board_lines(&card->board, pen, &lines,
                       (struct text_place){left, top + pen->size_pt * 0.92, width, line_pt}) -
           pen->size_pt * 0.92;
}

/* Returns the top of what comes next. */
static double draw_entries(const struct card *card, const struct card_sizes *s,
                           const struct panel_entry *entry, size_t count, double top)
{
    const struct board *board = &card->board;
    int list = count > 0 ? board_element(board, ELEMENT_L, card->place->element) : 0;
    double left = card->left_pt + PAD_PT;
    for (size_t i = 0; i < count; i++, entry = entry->next) {
        int item = board_element(board, ELEMENT_LI, list);
        struct lettering pen = {.element = board_element(board, ELEMENT_LBODY, item),
                                .size_pt = s->text_pt,
                                .strong = entry->is_strong};
        board_pictogram(
            board, entry->pictogram,
            (struct pictogram_place){OPS_ARTIFACT, left, top, s->sign_pt, false, false});
        top = draw_text(card, &pen, entry->text, left + beside_pt(s, entry), top, s->line_pt) +
              GAP_PT;
    }
    return top;
}

static void draw_list(const struct card *card, const struct panel_entry *entry, double top)
{
    struct fit fit = fit_list(card, entry, card->end_pt - top);
    top = draw_entries(card, fit.sizes, entry, fit.kept, top);
    const char *text = fit.run_on != NULL ? fit.run_on : fit.left;
    if (text == NULL)
        return;
    struct lettering pen = {.element = board_element(&card->board, ELEMENT_P, card->place->element),
                            .size_pt = fit.sizes->text_pt,
                            .strong = fit.left != NULL};
    draw_text(card, &pen, text, card->left_pt + PAD_PT, top, fit.sizes->line_pt);
}

/* Whether somebody signed: a warning is white on black. Returns its lower edge. */
static double draw_state(const struct card *card, double top)
{
    static const double SIZE = 9, LINE = 10.3, EDGE = 2;
    const struct board *board = &card->board;
    struct lettering pen = {.size_pt = SIZE, .strong = true, .is_paper = card->panel->is_solid};
    struct text_lines lines = board_break(card->composer, &pen, card->panel->small, card->width_pt);
    double height = (double)lines.count * LINE + 2 * EDGE;
    if (lines.count == 0)
        return top;
    if (card->panel->is_solid)
        board_solid(board, card->left_pt, top, card->width_pt + 2 * PAD_PT, height);
    pen.element = board_element(board, ELEMENT_P, card->place->element);
    draw_text(card, &pen, card->panel->small, card->left_pt + PAD_PT, top + EDGE, LINE);
    return top + height;
}

/* A number a line, its word before it. */
static double draw_numbers(const struct card *card, double top)
{
    static const double SIZE = 16, LINE = 18, WORD = 10, SPACE = 6;
    const struct board *board = &card->board;
    struct lettering word = {.size_pt = WORD}, number = {.size_pt = SIZE, .strong = true};
    double widest = 0;
    for (const struct panel_entry *e = card->panel->telephones; e != NULL; e = e->next)
        widest = fmax(widest, board_width_pt(card->composer, &word, e->title));
    for (const struct panel_entry *e = card->panel->telephones; e != NULL; e = e->next) {
        double base = top + SIZE * 0.92, x = card->left_pt + PAD_PT;
        word.element = number.element = board_element(board, ELEMENT_P, card->place->element);
        board_text(board, &word, x, base, e->title);
        board_link(board, &number, x + (widest > 0 ? widest + SPACE : 0), base, e->value, e->uri);
        top += LINE;
    }
    return top;
}

static void draw_front(struct card *card)
{
    static const double NAME = 13, LINE = 15, BELOW = 10, BELOW_LINE = 11.5;
    struct lettering name = {.element =
                                 board_section(card->composer, card->place, card->panel->title),
                             .size_pt = NAME,
                             .strong = true};
    double left = card->left_pt + PAD_PT, top = card->top_pt + 4;
    top = draw_text(card, &name, card->panel->title, left, top, LINE);
    struct lettering line = {
        .element = board_element(&card->board, ELEMENT_P, card->place->element), .size_pt = BELOW};
    top = draw_text(card, &line, card->panel->text, left, top, BELOW_LINE) + 1;
    top = draw_state(card, top) + 1;
    top = draw_numbers(card, top) + 2;
    draw_list(card, card->panel->entries, top);
}

static void draw_back(struct card *card)
{
    static const double BAR = 18, SIZE = 13;
    const struct board *board = &card->board;
    int heading = board_section(card->composer, card->place, card->panel->second_title);
    struct lettering pen = {.element = heading, .size_pt = SIZE, .strong = true, .is_paper = true};
    board_solid(board, card->left_pt, card->top_pt, card->width_pt + 2 * PAD_PT, BAR);
    board_text(board, &pen, card->left_pt + PAD_PT, card->top_pt + SIZE, card->panel->second_title);
    draw_list(card, card->panel->second, card->top_pt + BAR + 3);
}

static void set_face(struct card *card, double left, double top, double width)
{
    card->left_pt = left;
    card->top_pt = top;
    card->width_pt = width - 2 * PAD_PT;
    card->end_pt = top + HEIGHT_PT - 3;
}

/* On paper that is too narrow for both, the second face stands below the first. */
void panel_card(struct composer *composer, struct place *place, const struct panel *panel)
{
    static const double EDGE = 0.5; /* half of the line to cut along, and a hair */
    double width = fmin(WIDTH_PT, place->width_pt - 2 * EDGE), left = place->left_pt + EDGE;
    bool is_beside = place->width_pt >= 2 * (width + EDGE);
    double right = is_beside ? left + width : left, below = is_beside ? 0 : HEIGHT_PT;
    struct card card = {.composer = composer, .panel = panel, .place = place};
    card.board = board_add(composer, place, HEIGHT_PT + below + 2 * EDGE);
    board_cut(&card.board, left, EDGE, right + width - left, HEIGHT_PT + below);
    board_fold(&card.board, right, EDGE + below, is_beside ? right : right + width,
               EDGE + HEIGHT_PT);
    set_face(&card, left, EDGE, width);
    draw_front(&card);
    set_face(&card, right, EDGE + below, width);
    draw_back(&card);
}
