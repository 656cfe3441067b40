/* Panels on a page that is filled: steps of fitting, elastic heights, what is never lost.
 * Widths are counted by hand, see fixed_measure.h: a letter is half as wide as
 * its size. A4 gives 841.89 - 2 * 26 - 6 = 783.89 pt for blocks. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "common/suite.h"
#include "layout/layout.h"
#include "layout/measured_text.h"
#include "page/fixed_measure.h"
#include "page/laid.h"

static struct laid laid;
static struct block *page;
static struct maker top, foot;

static const double HEIGHT_PT = 783.89, TOP_PT = 26;

static void set_up(void)
{
    laid_init(&laid, PAPER_A4);
    page = make_block(&laid.body, BLOCK_PAGE);
    top = make_at(&laid.arena, &page->as.page.blocks);
    foot = make_at(&laid.arena, &page->as.page.foot);
}

static void tear_down(void)
{
    laid_finish(&laid);
}

static struct panel *add_panel(struct maker *maker, enum panel_kind kind)
{
    struct panel *panel = ARENA_NEW(&laid.arena, struct panel);
    panel->kind = kind;
    panel->title = "title";
    make_block(maker, BLOCK_PANEL)->as.panel = panel;
    return panel;
}

static struct panel_entry *add_entry(struct panel_entry **list)
{
    while (*list != NULL)
        list = &(*list)->next;
    *list = ARENA_NEW(&laid.arena, struct panel_entry);
    return *list;
}

static const struct op *op_of(const char *text)
{
    size_t at;
    return laid_find(&laid, text, &at);
}

/* ---- pages ---- */

static void add_texts(struct maker *maker, char letter, int count)
{
    for (int i = 1; i <= count; i++)
        add_panel(maker, PANEL_TEXT)->text = laid_numbered(&laid, letter, i, i);
}

START_TEST(foot_stands_at_the_bottom)
{
    static const struct fit_step steps[] = {{8, 20, 0}};
    page->as.page.steps = steps;
    page->as.page.step_count = 1;
    add_texts(&top, 't', 3);
    add_texts(&foot, 'f', 1);
    laid_run(&laid);
    ck_assert_uint_eq(laid.paged.page_count, 1);
    ck_assert_uint_eq(laid.paged.overfull, 0);
    /* a text of one line is 0.9 * 12 + 3 high, its baseline 0.9 * 12 below its top */
    ck_assert_double_eq_tol(op_of("t1")->y, TOP_PT + 10.8, 0.02);
    ck_assert_double_eq_tol(op_of("f1")->y, TOP_PT + HEIGHT_PT - 3, 0.02);
}
END_TEST

/* However close the page is, the tails of the last line's letters stand in the bar. */
START_TEST(a_message_is_as_high_as_its_letters)
{
    static const double DESCENT = 0.2; /* the test's measure */
    const struct fit_step step = {_i / 2 * 4, 20, 0};
    page->as.page.steps = &step;
    page->as.page.step_count = 1;
    for (int lines = 0; lines < 4; lines++) {
        struct panel *panel = add_panel(&top, PANEL_MESSAGE);
        panel->text = arena_format(&laid.arena, "head%d", lines);
        panel->is_solid = true;
        panel->is_small = _i % 2;
        panel->small = lines > 0 ? make_repeated(&laid.arena, "words of a line", 8 * lines) : NULL;
    }
    laid_run(&laid);
    const struct op *bar = NULL;
    size_t texts = 0;
    for (const struct op *op = laid.paged.pages[0].first; op; op = op->next) {
        bar = op->kind == OP_RECT && op->filled ? op : bar;
        if (op->kind != OP_TEXT || bar == NULL || op->y < bar->y || op->y > bar->y + bar->height)
            continue;
        ck_assert_msg(op->y + DESCENT * op->size_pt <= bar->y + bar->height + 1e-6, "%s", op->text);
        texts++;
    }
    ck_assert_uint_ge(texts, 7);
}
END_TEST

/* Forty lines of 13.8 pt with 8 pt between them do not fit 783.89, with 4 they do. */
START_TEST(steps_are_tried_in_turn)
{
    static const struct fit_step steps[] = {{8, 20, 0}, {4, 20, 0}, {0, 20, 0}};
    page->as.page.steps = steps;
    page->as.page.step_count = 3;
    add_texts(&top, 't', 40);
    laid_run(&laid);
    ck_assert_uint_eq(laid.paged.page_count, 1);
    ck_assert_double_eq_tol(op_of("t2")->y - op_of("t1")->y, 13.8 + 4, 0.02);
}
END_TEST

/* Of ten steps, their gaps 9 to 0 pt, always the first that has room; the last two have lines of
 * 12.8 pt, so 62 lines have none. Whether they fit is told without laying them out. */
START_TEST(the_first_step_that_fits_is_found)
{
    static const struct fit_step steps[] = {{9, 20, 0}, {8, 20, 0}, {7, 20, 0}, {6, 20, 0},
                                            {5, 20, 0}, {4, 20, 0}, {3, 20, 0}, {2, 20, 0},
                                            {1, 20, 0}, {0, 20, 0}};
    page->as.page.steps = steps;
    page->as.page.step_count = sizeof steps / sizeof *steps;
    add_texts(&top, 't', _i);
    struct text_store texts;
    text_store_init(&texts, &fixed_measure, &laid.arena);
    bool fits = layout_pages_fit(laid.document, &texts, &laid.arena, &laid.diag);
    laid_run(&laid);
    double gap_pt = 9, line_pt = 13.8;
    while (gap_pt > 0 && _i * line_pt + (_i - 1) * gap_pt > HEIGHT_PT) {
        gap_pt--;
        line_pt = gap_pt < 2 ? 12.8 : 13.8;
    }
    ck_assert_int_eq(fits, _i < 62);
    ck_assert_uint_eq(laid.paged.page_count, _i < 62 ? 1 : 2);
    ck_assert_double_eq_tol(op_of("t2")->y - op_of("t1")->y, line_pt + gap_pt, 0.02);
}
END_TEST

static bool page_takes_it(void)
{
    struct text_store texts;
    text_store_init(&texts, &fixed_measure, &laid.arena);
    return layout_pages_fit(laid.document, &texts, &laid.arena, &laid.diag);
}

/* 45 lines of 13.8 pt take 797 pt with gaps of 4, too much for 783.89, and 753 with gaps of 3. */
START_TEST(heights_are_remembered_for_their_step)
{
    static const struct fit_step far[] = {{4, 20, 0}}, close[] = {{3, 20, 0}};
    add_texts(&top, 't', 45);
    for (struct block *block = page->as.page.blocks; block; block = block->next)
        block->memory = ARENA_NEW(&laid.arena, struct block_memory);
    page->as.page.step_count = 1;
    page->as.page.steps = far;
    ck_assert(!page_takes_it());
    const struct block_memory *memory = page->as.page.blocks->memory;
    ck_assert_double_eq_tol(memory->heights[0].height_pt, 13.8, 0.001);
    ck_assert(!page_takes_it());
    page->as.page.steps = close;
    ck_assert(page_takes_it());
    /* what is remembered is what counts: a first line as high as five is too much */
    page->as.page.blocks->memory->heights[0].height_pt = 13.8 * 5;
    ck_assert(!page_takes_it());
}
END_TEST

/* What may give way goes only at the step that says so. */
START_TEST(what_gives_way_goes_last)
{
    static const struct fit_step steps[] = {{8, 20, 0}, {4, 20, 0}, {4, 20, 1}};
    page->as.page.steps = steps;
    page->as.page.step_count = 3;
    add_texts(&top, 't', 44);
    laid.document->blocks->as.page.blocks->next->give_way = 1;
    laid_run(&laid);
    /* 44 * 13.8 + 43 * 4 = 779: all of them stay */
    ck_assert_ptr_nonnull(strstr(laid_all_text(&laid), "t2"));
    ck_assert_uint_eq(laid.paged.page_count, 1);
}
END_TEST

START_TEST(what_gives_way_is_left_out)
{
    static const struct fit_step steps[] = {{4, 20, 0}, {4, 20, 1}};
    page->as.page.steps = steps;
    page->as.page.step_count = 2;
    add_texts(&top, 't', 45);
    laid.document->blocks->as.page.blocks->next->give_way = 1;
    laid_run(&laid);
    ck_assert_uint_eq(laid.paged.page_count, 1);
    ck_assert_ptr_null(strstr(laid_all_text(&laid), "t2t3"));
    ck_assert_ptr_nonnull(strstr(laid_all_text(&laid), "t1t3"));
}
END_TEST

/* So many lines of 13.8 pt, 8 pt between them; a further page begins with `parts` at little cost.
 */
static void add_parting(int count, int parts)
{
    static const struct fit_step steps[] = {{8, 20, 0}};
    struct maker running = make_at(&laid.arena, &page->as.page.running);
    page->as.page.steps = steps;
    page->as.page.step_count = 1;
    add_panel(&running, PANEL_STRIP)->text = "strip";
    add_texts(&top, 't', count);
    add_texts(&foot, 'f', 1);
    struct block *parting = page->as.page.blocks;
    for (int i = 1; i < parts; i++)
        parting = parting->next;
    parting->parts_page = true;
}

/* Nothing is lost: a further page begins where the document says, below the running head. Where
 * that would leave most of a page blank, both are about as full. */
START_TEST(a_further_page_begins_where_it_is_told)
{
    const bool is_told = _i > 20;
    add_parting(50, _i);
    laid_run(&laid);
    ck_assert_uint_eq(laid.paged.page_count, 2);
    ck_assert_uint_eq(laid.paged.overfull, 1);
    ck_assert_uint_eq(laid_page_of(&laid, is_told ? "t23" : "t25"), 1);
    ck_assert_uint_eq(laid_page_of(&laid, is_told ? "t24" : "t27"), 2);
    ck_assert_uint_eq(laid_page_of(&laid, "strip"), 2);
    ck_assert_double_eq_tol(op_of("f1")->y, TOP_PT + HEIGHT_PT - 3, 0.02);
}
END_TEST

START_TEST(further_pages_are_counted)
{
    struct text_store texts;
    add_parting(_i, 10);
    text_store_init(&texts, &fixed_measure, &laid.arena);
    bool fits[4];
    for (size_t further = 0; further < 4; further++)
        layout_pages_taken(laid.document, (struct pages_asked){0, further}, &texts, &laid.arena,
                           &laid.diag, &fits[further]);
    laid_run(&laid);
    for (size_t further = 0; further < 4; further++)
        ck_assert_int_eq(fits[further], laid.paged.page_count <= further + 1);
}
END_TEST

/* 20 lines, 30 boxes to tick and 20 lines fit two pages only where the boxes go on over the page.
 */
START_TEST(a_list_of_boxes_goes_on_over_a_page)
{
    add_parting(20, 20);
    struct panel *panel = add_panel(&top, PANEL_GRADES);
    panel->title = "steps";
    for (int i = 10; i < 40; i++) {
        struct panel_entry *e = add_entry(&panel->entries);
        e->title = arena_format(&laid.arena, "item%d", i);
        e->has_tick_box = true;
    }
    add_texts(&top, 'u', 20);
    laid_run(&laid);
    ck_assert_uint_eq(laid.paged.page_count, 2);
    ck_assert_uint_eq(laid_page_of(&laid, "item11"), 1);
    ck_assert_uint_eq(laid_page_of(&laid, "item38"), 2);
    const char *all = laid_all_text(&laid);
    ck_assert_ptr_nonnull(strstr(strstr(all, "steps") + 1, "steps"));
    for (int i = 10; i < 40; i++) {
        const char *name = arena_format(&laid.arena, "item%d", i), *at = strstr(all, name);
        ck_assert_msg(at != NULL && strstr(at + 1, name) == NULL, "%s", name);
        ck_assert_double_eq_tol(op_of(name)->x, op_of("item10")->x, 1e-6);
    }
}
END_TEST

static struct panel *add_steps(int count)
{
    struct panel *panel = add_panel(&top, PANEL_STEPS);
    for (int i = 1; i <= count; i++) {
        struct panel_entry *e = add_entry(&panel->entries);
        e->mark = laid_numbered(&laid, 'm', i, i) + 1;
        e->mark_said = "Step";
        e->is_mark_solid = e->has_tick_box = true;
        e->title = laid_numbered(&laid, 's', i, i);
        e->value = "90-93 F";
        e->turn = TURN_UP;
        e->turn_said = "warmer";
        e->now = "now 84";
        e->text = "Turn the heat lamp up a little.";
        e->note = "After 1 hour";
        e->unit = "F";
    }
    return panel;
}

/* Rows grow by 14 pt at most, then lines to write on appear when 40 pt are left. */
START_TEST(rows_grow_then_notes)
{
    add_steps(2);
    add_panel(&top, PANEL_NOTES)->title = "notes";
    laid_run(&laid);
    /* a row is 60 pt, its rule and 4 pt between rows */
    ck_assert_double_eq_tol(op_of("s2")->y - op_of("s1")->y, 60 + 14 + 4, 0.02);
    ck_assert_ptr_nonnull(strstr(laid_all_text(&laid), "notes"));
}
END_TEST

START_TEST(an_arrow_is_said)
{
    add_steps(1);
    laid_run(&laid);
    int said = 0;
    for (size_t i = 0; i < laid.paged.element_count; i++)
        said += laid.paged.elements[i].actual != NULL &&
                strcmp(laid.paged.elements[i].actual, "warmer ") == 0;
    ck_assert_int_eq(said, 1);
}
END_TEST

/* ---- signing must not move the page ---- */

START_TEST(a_strip_is_as_high_signed_as_not)
{
    double y[2];
    for (int solid = 0; solid < 2; solid++) {
        tear_down();
        set_up();
        struct panel *strip = add_panel(&top, PANEL_STRIP);
        strip->text = "strip";
        strip->is_solid = solid;
        add_texts(&top, 't', 1);
        laid_run(&laid);
        y[solid] = op_of("t1")->y;
    }
    ck_assert_double_eq_tol(y[0], y[1], 0.001);
}
END_TEST

/* ---- every kind, whole ---- */

static const char *words(int count)
{
    return make_repeated(&laid.arena, "words of a line", count);
}

/* ---- small pictures beside a panel's words ---- */

static const struct pictogram_part cut_parts[] = {{PICTOGRAM_FILL, false, 0, "M0 0 H100 V50 H0 Z"}};
static const struct cut wide_cut = {{cut_parts, 1, 100, 0}, 50};

static struct panel *add_cut_panel(size_t count, const char *text)
{
    static const struct cut *const drawn[] = {&wide_cut, &wide_cut};
    struct panel *panel = add_panel(&top, PANEL_GRADES);
    struct cuts *cuts = ARENA_NEW(&laid.arena, struct cuts);
    *cuts = (struct cuts){drawn, count, 0.5, "drawn", NULL};
    panel->cuts = cuts;
    struct panel_entry *entry = add_entry(&panel->entries);
    entry->title = "name";
    entry->text = text;
    return panel;
}

/* The shapes of the pictures: the ops of a path of their colour that belong to the figure. */
static size_t count_drawn(double *left, double *top_pt, double *bottom)
{
    size_t count = 0;
    *left = *top_pt = HUGE_VAL;
    *bottom = 0;
    for (const struct op *op = laid.paged.pages[0].first; op != NULL; op = op->next) {
        if (op->kind != OP_PATH || !op->filled || op->element == OPS_ARTIFACT)
            continue;
        count++;
        for (size_t i = 0; i < op->count; i++) {
            *left = fmin(*left, op->points[i].x);
            *top_pt = fmin(*top_pt, op->points[i].y);
            *bottom = fmax(*bottom, op->points[i].y);
        }
    }
    return count;
}

/* Two of 50 by 25 pt: the words end 8 pt left of them, and what follows stands below them. */
START_TEST(pictures_stand_beside_the_words)
{
    double left, top_pt, bottom;
    add_cut_panel(2, "word word word word word word word word word word word word word word word "
                     "word word word word word word word word word word word word word word word");
    struct panel *after = add_panel(&top, PANEL_TEXT);
    after->title = NULL;
    after->text = "after";
    laid_run(&laid);
    ck_assert_uint_eq(count_drawn(&left, &top_pt, &bottom), 2);
    for (const struct op *op = laid.paged.pages[0].first; op != NULL; op = op->next)
        if (op->kind == OP_TEXT && op->y < bottom && strstr(op->text, "word"))
            ck_assert_double_le(op->x + op->width, left - 8 + 1e-6);
    ck_assert_double_gt(op_of("after")->y, bottom);
}
END_TEST

/* Words of one line are not as high as a picture: the panel is. */
START_TEST(pictures_keep_their_height)
{
    double left, top_pt, bottom;
    add_cut_panel(1, "word");
    struct panel *after = add_panel(&top, PANEL_TEXT);
    after->title = NULL;
    after->text = "after";
    laid_run(&laid);
    ck_assert_uint_eq(count_drawn(&left, &top_pt, &bottom), 1);
    ck_assert_double_eq_tol(bottom - top_pt, 25, 1e-6);
    ck_assert_double_gt(op_of("after")->y, bottom);
}
END_TEST

static struct trend *make_trend(void)
{
    static const double x[] = {0, 0.5, 1}, y[] = {0, 0.4, 1};
    struct trend *trend = ARENA_NEW(&laid.arena, struct trend);
    *trend = (struct trend){x, y, 3, "first", "last", "rising"};
    return trend;
}

static void add_calendar(void)
{
    static const char *const heads[] = {"14 Mar", "21 Mar", "28 Mar"};
    static const char *const one[] = {"Sat 28"}, *const many[] = {"1", "2", "3"},
                             *const all[] = {"1", "2", "3", "4", "5", "6", "7"};
    static const struct panel_cell dates[] = {{one, 1, true}, {many, 3, false}, {all, 7, false}},
                                   empty[3] = {{0}};
    struct panel *panel = add_panel(&top, PANEL_CALENDAR);
    panel->columns = heads;
    panel->column_count = 3;
    panel->text = "Week from";
    panel->small = "Visit";
    panel->after = "Later";
    struct panel_entry *e = add_entry(&panel->entries);
    e->title = "Check with us";
    e->is_strong = true;
    e->cells = dates;
    e = add_entry(&panel->entries);
    e->title = "Basking";
    e->value = "90-93";
    e->now = "84";
    e->cells = empty;
}

static struct panel *add_lists(enum panel_kind kind, int count)
{
    struct panel *panel = add_panel(&top, kind);
    panel->text = "text of the panel";
    panel->aside = "aside";
    panel->second_title = "second";
    panel->trend = kind == PANEL_GRADES ? make_trend() : NULL;
    struct panel_entry *telephone = add_entry(&panel->telephones);
    telephone->title = "Day";
    telephone->value = "555-0142";
    telephone->uri = "tel:5550142";
    for (int i = 0; i < count; i++) {
        struct panel_entry *e = add_entry(&panel->entries);
        e->title = arena_format(&laid.arena, "item%d", i);
        e->text = words(1 + i % 3);
        e->value = kind == PANEL_FIGURES ? "72-75 F" : NULL;
        e->now = kind == PANEL_FIGURES ? "now 70" : NULL;
        e->grade = 1 + i % 3;
        e->has_tick_box = true;
        if (kind == PANEL_CALLS || kind == PANEL_SIDES)
            add_entry(&panel->second)->text = words(1);
    }
    return panel;
}

/* Whatever the number of entries, no text lies on another, none is lost, and the structure's order
 * is the drawing's: laid_run sees to the first and the last. */
START_TEST(every_kind_keeps_all_its_words)
{
    static const enum panel_kind kinds[] = {PANEL_FIGURES, PANEL_ALERT, PANEL_CHECKS, PANEL_NOTICE,
                                            PANEL_GRADES,  PANEL_CALLS, PANEL_SIGNS,  PANEL_SIDES};
    const size_t kind_count = sizeof kinds / sizeof *kinds;
    for (size_t n = 0; n < 3 * kind_count;
         n++) { /* with room, with none, and with boxes that flow */
        const size_t k = n % kind_count;
        tear_down();
        set_up();
        struct panel *panel = add_lists(kinds[k], 1 + _i);
        panel->is_small = laid.document->look.leads_in = laid.document->look.tight =
            n >= kind_count;
        if (n >= kind_count) { /* the heading stands on the first line */
            panel->aside = NULL;
            panel->trend = NULL;
        }
        if (n >= 2 * kind_count) {
            laid.document->look.boxes_flow = true;
            panel->text = NULL;
        }
        laid_run(&laid);
        ck_assert_uint_eq(laid.paged.page_count, 1);
        const char *all = laid_all_text(&laid);
        bool has_titles = kinds[k] == PANEL_FIGURES || kinds[k] == PANEL_CHECKS ||
                          kinds[k] == PANEL_GRADES || kinds[k] == PANEL_SIDES;
        for (int i = 0; i <= _i && has_titles; i++)
            ck_assert_msg(strstr(all, arena_format(&laid.arena, "item%d", i)), "%d of kind %d", i,
                          (int)kinds[k]);
    }
    tear_down();
    set_up();
    add_calendar();
    laid_run(&laid);
    const char *all = laid_all_text(&laid);
    ck_assert_msg(strstr(all, "Sat28") || strstr(all, "Sat 28"), "%s", all);
    ck_assert_ptr_nonnull(strstr(all, "Later"));
}
END_TEST

/* With room for it each box to tick stands at the left, below the one before; what parts them
 * begins a line too, and the box behind it stays on that line. */
START_TEST(boxes_to_tick_stand_below_each_other)
{
    struct panel *panel = add_panel(&top, PANEL_GRADES);
    panel->is_small = laid.document->look.leads_in = laid.document->look.boxes_flow = true;
    for (int i = 0; i < 5; i++) {
        struct panel_entry *e = add_entry(&panel->entries);
        e->title = arena_format(&laid.arena, "item%d", i);
        e->has_tick_box = i != 3; /* which parts the others */
    }
    laid_run(&laid);
    const struct op *item[5];
    for (int i = 0; i < 5; i++)
        item[i] = op_of(arena_format(&laid.arena, "item%d", i));
    ck_assert_double_eq_tol(item[0]->y, op_of("title")->y, 1e-6);
    ck_assert(item[1]->y > item[0]->y && item[2]->y > item[1]->y && item[3]->y > item[2]->y);
    ck_assert_double_eq_tol(item[1]->x, item[2]->x, 1e-6);
    ck_assert(item[1]->x > item[3]->x); /* by its box */
    ck_assert_double_eq_tol(item[4]->y, item[3]->y, 1e-6);
    ck_assert(item[4]->x > item[3]->x);
}
END_TEST

/* Where there is little room what names one thing goes on behind the one before; where it is told
 * to it begins a line, the first one beside the heading, also in a paragraph. */
START_TEST(entries_begin_lines_where_they_are_told_to)
{
    static const bool told[] = {false, true};
    const struct op *item[3];
    struct look *look = &laid.document->look;
    look->leads_in = look->boxes_flow = look->ticks_flow = _i == 1;
    for (int list = 0; list < 2; list++) {
        struct panel *panel = add_panel(&top, PANEL_GRADES);
        panel->is_small = true;
        panel->begins_lines = told[list];
        for (int i = 0; i < 3; i++)
            add_entry(&panel->entries)->title = arena_format(&laid.arena, "item%d%d", list, i);
    }
    laid_run(&laid);
    ck_assert_double_eq_tol(op_of(" item02")->y, op_of("item00")->y, 1e-6);
    for (int i = 0; i < 3; i++)
        item[i] = op_of(arena_format(&laid.arena, "item1%d", i));
    ck_assert(item[0]->x > item[1]->x); /* behind the heading */
    ck_assert_double_eq_tol(item[2]->x, item[1]->x, 1e-6);
    ck_assert(item[1]->y >= item[0]->y + 12 && item[2]->y >= item[1]->y + 12);
}
END_TEST

/* What is told to goes on behind the one before although that begins a line, and the next one
 * begins one again; with room or without. */
START_TEST(an_entry_runs_on_where_it_is_told_to)
{
    const struct op *item[4];
    struct look *look = &laid.document->look;
    look->leads_in = look->boxes_flow = _i == 1;
    struct panel *panel = add_panel(&top, PANEL_GRADES);
    panel->is_small = panel->begins_lines = _i < 2;
    for (int i = 0; i < 4; i++) {
        struct panel_entry *e = add_entry(&panel->entries);
        e->title = arena_format(&laid.arena, "item%d", i);
        e->runs_on = i == 2;
    }
    laid_run(&laid);
    for (int i = 0; i < 4; i++)
        item[i] = op_of(arena_format(&laid.arena, i == 2 ? " item%d" : "item%d", i));
    ck_assert(item[1]->y >= item[0]->y + 12);
    ck_assert_double_eq_tol(item[2]->y, item[1]->y, 1e-6);
    ck_assert(item[2]->x > item[1]->x);
    ck_assert(item[3]->y >= item[1]->y + 12);
    ck_assert_double_eq_tol(item[3]->x, item[1]->x, 1e-6);
}
END_TEST

static void add_item(struct panel *panel, const char *lead, const char *text)
{
    struct panel_entry *e = add_entry(&panel->entries);
    e->title = lead;
    e->text = text;
}

static int times_in(const char *all, const char *what)
{
    int times = 0;
    for (const char *at = all; (at = strstr(at, what)) != NULL; at += strlen(what))
        times++;
    return times;
}

/* Thirty letters of 6 pt are wider than a trend is otherwise: its column takes them, and the words
 * beside it the rest. */
START_TEST(a_trend_has_room_for_what_stands_at_its_ends)
{
    static const char first[] = "abcdefghijklmnopqrstuvwxyzabcd";
    struct panel *panel = add_panel(&top, PANEL_GRADES);
    struct trend *trend = make_trend();
    trend->first = first;
    panel->trend = trend;
    add_item(panel, "item", words(9));
    laid_run(&laid);
    const double left = op_of(first)->x;
    ck_assert(left + 30 * 6 <= laid.paged.page_width_pt - op_of("title")->x + 1e-6);
    ck_assert(left > op_of("title")->x);
}
END_TEST

/* Heading, one item and six that end together. Of eleven lines with what they share said again
 * at the head of a column, three columns take four, two would take five: heading, plain, until,
 * one; until, two, three, four; until, five, six. */
START_TEST(a_list_in_columns_says_again_what_its_items_share)
{
    struct panel *panel = add_panel(&top, PANEL_SIDES);
    panel->is_small = true;
    add_item(panel, NULL, "plain");
    add_item(panel, "until", "one");
    static const char *const rest[] = {"two", "three", "four", "five", "six"};
    for (size_t i = 0; i < sizeof rest / sizeof *rest; i++)
        add_item(panel, NULL, rest[i]);
    laid_run(&laid);
    ck_assert_int_eq(times_in(laid_all_text(&laid), "until"), 3);
    static const char *const columns[][3] = {
        {"plain", "one", NULL}, {"two", "three", "four"}, {"five", "six", NULL}};
    for (int i = 0; i < 3; i++) {
        ck_assert_double_eq_tol(op_of(columns[i][1])->x, op_of(columns[i][0])->x, 1e-6);
        ck_assert(op_of(columns[i][1])->y > op_of(columns[i][0])->y);
    }
    ck_assert(op_of("two")->x > op_of("one")->x && op_of("five")->x > op_of("two")->x);
    /* below the second column's "until", on the line of the first one's first item */
    ck_assert_double_eq_tol(op_of("two")->y, op_of("plain")->y, 1e-6);
    ck_assert_double_eq_tol(op_of("five")->y, op_of("two")->y, 1e-6);
    ck_assert(op_of("plain")->y > op_of("title")->y);
}
END_TEST

/* What only one item has stands on its line, behind its bullet. */
START_TEST(a_list_in_columns_leads_into_a_lone_item)
{
    struct panel *panel = add_panel(&top, PANEL_SIDES);
    panel->is_small = true;
    add_item(panel, NULL, "plain");
    add_item(panel, "until", "lone");
    add_item(panel, "before", "other");
    laid_run(&laid);
    ck_assert_int_eq(times_in(laid_all_text(&laid), "until"), 1);
    ck_assert_double_eq_tol(op_of("until ")->y, op_of("lone")->y, 1e-6);
    ck_assert_double_eq_tol(op_of("before ")->y, op_of("other")->y, 1e-6);
    ck_assert(op_of("lone")->x > op_of("until ")->x);
}
END_TEST

/* A block that there is room for has a look of its own, and only that one. */
START_TEST(one_list_is_opened_and_the_next_runs_on)
{
    struct look *look = &laid.document->look, *open = ARENA_NEW(&laid.arena, struct look);
    *open = *look;
    look->leads_in = look->boxes_flow = look->ticks_flow = true;
    for (int list = 0; list < 2; list++) {
        struct panel *panel = add_panel(&top, PANEL_GRADES);
        for (int i = 0; i < 2; i++) {
            struct panel_entry *e = add_entry(&panel->entries);
            e->title = arena_format(&laid.arena, "item%d%d", list, i);
            e->has_tick_box = true;
        }
    }
    page->as.page.blocks->look = open;
    laid_run(&laid);
    ck_assert(op_of("item01")->y > op_of("item00")->y);
    ck_assert_double_eq_tol(op_of("item01")->x, op_of("item00")->x, 1e-6);
    ck_assert_double_eq_tol(op_of("item11")->y, op_of("item10")->y, 1e-6);
}
END_TEST

/* Where an entry's words end the next one begins, behind its own boxes: three for its degree, one
 * to tick, and one to tick with a mark, each between the words before it and its own. */
START_TEST(boxes_stand_before_their_entries_in_a_paragraph)
{
    static const size_t boxes[] = {3, 1, 1};
    struct panel *panel = add_panel(&top, PANEL_GRADES);
    panel->is_small = laid.document->look.leads_in = laid.document->look.boxes_flow =
        laid.document->look.ticks_flow = true;
    for (int i = 0; i < 3; i++) {
        struct panel_entry *e = add_entry(&panel->entries);
        e->title = arena_format(&laid.arena, "item%d", i);
        e->grade = i == 0 ? 2 : 0;
        e->has_tick_box = i > 0;
        e->mark = e->mark_said = i == 2 ? "B" : NULL;
    }
    laid_run(&laid);
    const struct op *before = op_of("title");
    for (int i = 0; i < 3; i++) {
        const struct op *item = op_of(arena_format(&laid.arena, "item%d", i));
        size_t found = 0;
        ck_assert_double_eq_tol(item->y, before->y, 1e-6);
        for (const struct op *op = laid.paged.pages[0].first; op != NULL; op = op->next)
            found += op->kind == OP_RECT && op->x >= before->x + before->width &&
                     op->x + op->width <= item->x && op->y > item->y - 12 && op->y < item->y;
        ck_assert_uint_eq(found, boxes[i]);
        before = item;
    }
    const struct op *mark = op_of("B");
    ck_assert(mark->x > op_of("item1")->x && mark->x < op_of("item2")->x);
}
END_TEST

START_TEST(telephones_are_links)
{
    add_lists(PANEL_ALERT, 2);
    laid_run(&laid);
    int links = 0;
    for (const struct op *op = laid.paged.pages[0].first; op != NULL; op = op->next)
        links += op->kind == OP_LINK && strcmp(op->uri, "tel:5550142") == 0;
    ck_assert_int_eq(links, 1);
}
END_TEST

/* A4 leaves 487.28 pt: a title of 20 letters of 14 pt takes 140, both numbers with their words and
 * the sign 214; beside one of 36 letters, which takes 252, there is room for them without the word
 * of the usual one, and beside one of 42 letters where each stands below its word. */
START_TEST(a_bar_has_both_numbers)
{
    static const char *const titles[] = {"twenty-letters-twent",
                                         "thirty-six-letters-thirty-six-letter",
                                         "forty-two-letters-forty-two-letters-forty-"};
    struct panel *panel = add_lists(PANEL_CALLS, 1);
    struct panel_entry *second = add_entry(&panel->telephones);
    second->title = "Closed";
    second->value = "555-0199";
    panel->second = NULL;
    panel->title = titles[_i];
    laid_run(&laid);
    const char *all = laid_all_text(&laid);
    ck_assert_ptr_nonnull(strstr(all, "555-0142"));
    ck_assert_ptr_nonnull(strstr(all, "Closed555-0199"));
    ck_assert_int_eq(strstr(all, "Day") != NULL, _i != 1);
    const struct op *word = op_of("Closed"), *number = op_of("555-0199");
    ck_assert_double_eq_tol(number->y - word->y, _i == 2 ? 15 : 0, 0.02);
    ck_assert_double_le(number->x + number->width, 54 + 487.28);
}
END_TEST

/* A page of its own: a telephone a line, its number of 30 points or more; words of 14 or more. */
START_TEST(a_large_alert_is_read_from_afar)
{
    struct panel *panel = add_lists(PANEL_ALERT, 6);
    struct panel_entry *second = add_entry(&panel->telephones);
    panel->is_large = true;
    second->title = "Closed";
    second->value = "555-0199";
    laid_run(&laid);
    double y[2] = {0, 0};
    int cells = 0;
    for (const struct op *op = laid.paged.pages[0].first; op != NULL; op = op->next) {
        if (op->kind != OP_TEXT)
            continue;
        bool numbers[] = {strcmp(op->text, "555-0142") == 0, strcmp(op->text, "555-0199") == 0};
        for (int i = 0; i < 2; i++)
            if (numbers[i]) {
                ck_assert_double_ge(op->size_pt, 30);
                y[i] = op->y;
            }
        if (strstr(op->text, "words") != NULL) {
            ck_assert_double_ge(op->size_pt, 14);
            cells++;
        }
    }
    ck_assert_int_ge(cells, 6);
    ck_assert_double_gt(fabs(y[0] - y[1]), 30);
}
END_TEST

/* ---- the card for a wallet ---- */

static struct panel *add_card(int count, const char *text)
{
    struct panel *panel = add_panel(&top, PANEL_CARD);
    panel->text = "line";
    panel->small = "state";
    panel->second_title = "second";
    panel->after = "elsewhere:";
    struct panel_entry *telephone = add_entry(&panel->telephones);
    telephone->title = "Day";
    telephone->value = "555-0142";
    add_entry(&panel->entries)->text = "where";
    panel->entries->title = "place";
    for (int i = 0; i < count; i++) {
        struct panel_entry *e = add_entry(&panel->second);
        e->title = arena_format(&laid.arena, "item%d", i);
        e->text = arena_format(&laid.arena, "%s%d.", text, i);
    }
    return panel;
}

/* ISO/IEC 7810, ID-1: 85.60 x 53.98 mm, which is 242.65 x 153.01 pt. All texts stand on their face
 * and none is smaller than 9 pt. */
static void check_faces(void)
{
    double left = 0, top_pt = 0;
    int cuts = 0;
    for (const struct op *op = laid.paged.pages[0].first; op != NULL; op = op->next)
        if (op->kind == OP_RECT && op->dash == DASH_DASHED) {
            ck_assert_double_eq_tol(op->width, 2 * 242.65, 0.02);
            ck_assert_double_eq_tol(op->height, 153.01, 0.02);
            left = op->x;
            top_pt = op->y;
            cuts++;
        }
    ck_assert_int_eq(cuts, 1);
    for (const struct op *op = laid.paged.pages[0].first; op != NULL; op = op->next) {
        if (op->kind != OP_TEXT || op->element == OPS_ARTIFACT)
            continue;
        bool second = op->x >= left + 242.65;
        ck_assert_double_ge(op->size_pt, 9);
        ck_assert_double_ge(op->x, left);
        ck_assert_double_le(op->x + op->width, left + (second ? 2 : 1) * 242.65);
        ck_assert_double_ge(op->y, top_pt);
        ck_assert_msg(op->y <= top_pt + 153.01 - 2, "%s lies at %g", op->text, op->y - top_pt);
    }
}

/* Few: a line each of 11 pt. Many: one paragraph of 9 pt, still all of them. */
START_TEST(a_card_keeps_what_fits)
{
    add_card(_i, "some words");
    laid_run(&laid);
    check_faces();
    const char *all = laid_all_text(&laid);
    for (int i = 0; i < _i; i++)
        ck_assert_msg(strstr(all, arena_format(&laid.arena, "words%d.", i)), "%d of %d", i, _i);
    ck_assert_ptr_null(strstr(all, "elsewhere"));
    if (_i == 3)
        ck_assert_double_eq(op_of("some words0.")->size_pt, 11);
}
END_TEST

/* Sixty letters take two lines of 9 pt: twenty such have no room, and those that are left are
 * named. */
START_TEST(a_card_names_what_has_no_room)
{
    enum { COUNT = 20 };
    add_card(COUNT, "twelve times five letters, which is two lines of a cardface");
    laid_run(&laid);
    check_faces();
    const char *all = laid_all_text(&laid);
    int told = 0;
    for (int i = 0; i < COUNT; i++) {
        bool whole = strstr(all, arena_format(&laid.arena, "face%d.", i)) != NULL;
        bool named = strstr(all, arena_format(&laid.arena, "item%d%s", i,
                                              i + 1 < COUNT ? "," : ".")) != NULL;
        ck_assert_msg(whole != named, "entry %d in %s", i, all);
        told += whole;
    }
    ck_assert_int_ge(told, 2);
    ck_assert_ptr_nonnull(strstr(all, "elsewhere:"));
}
END_TEST

int main(void)
{
    enum { COUNTS = 9 };
    TCase *pages = tcase_create("pages"), *kinds = tcase_create("kinds");
    tcase_add_checked_fixture(pages, set_up, tear_down);
    tcase_add_checked_fixture(kinds, set_up, tear_down);
    tcase_add_test(pages, foot_stands_at_the_bottom);
    tcase_add_test(pages, pictures_stand_beside_the_words);
    tcase_add_test(pages, pictures_keep_their_height);
    tcase_add_test(pages, steps_are_tried_in_turn);
    tcase_add_loop_test(pages, a_message_is_as_high_as_its_letters, 0, 4);
    tcase_add_loop_test(pages, the_first_step_that_fits_is_found, 30, 64);
    tcase_add_test(pages, heights_are_remembered_for_their_step);
    tcase_add_test(pages, what_gives_way_goes_last);
    tcase_add_test(pages, what_gives_way_is_left_out);
    tcase_add_loop_test(pages, a_further_page_begins_where_it_is_told, 5, 10);
    tcase_add_loop_test(pages, a_further_page_begins_where_it_is_told, 24, 25);
    tcase_add_loop_test(pages, further_pages_are_counted, 30, 130);
    tcase_add_test(pages, a_list_of_boxes_goes_on_over_a_page);
    tcase_add_test(pages, rows_grow_then_notes);
    tcase_add_test(kinds, an_arrow_is_said);
    tcase_add_test(kinds, a_strip_is_as_high_signed_as_not);
    tcase_add_test(kinds, boxes_stand_before_their_entries_in_a_paragraph);
    tcase_add_test(kinds, boxes_to_tick_stand_below_each_other);
    tcase_add_loop_test(kinds, entries_begin_lines_where_they_are_told_to, 0, 2);
    tcase_add_loop_test(kinds, an_entry_runs_on_where_it_is_told_to, 0, 3);
    tcase_add_test(kinds, a_trend_has_room_for_what_stands_at_its_ends);
    tcase_add_test(kinds, a_list_in_columns_says_again_what_its_items_share);
    tcase_add_test(kinds, a_list_in_columns_leads_into_a_lone_item);
    tcase_add_test(kinds, one_list_is_opened_and_the_next_runs_on);
    tcase_add_test(kinds, telephones_are_links);
    tcase_add_loop_test(kinds, a_bar_has_both_numbers, 0, 3);
    tcase_add_test(kinds, a_large_alert_is_read_from_afar);
    tcase_add_loop_test(kinds, a_card_keeps_what_fits, 1, 14);
    tcase_add_test(kinds, a_card_names_what_has_no_room);
    tcase_add_loop_test(kinds, every_kind_keeps_all_its_words, 0, COUNTS);
    Suite *suite = suite_create("panels");
    suite_add_tcase(suite, pages);
    suite_add_tcase(suite, kinds);
    return suite_run(suite);
}
