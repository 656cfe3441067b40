/* The drawing of a box, to scale: no text meets anything, lengths and limits are where they are.
 * Widths are counted by hand, see fixed_measure.h: a letter is half as wide as its size. */
#include <math.h>

#include "common/suite.h"
#include "document/diagram.h"
#include "layout/diagram_place.h"
#include "page/crossings.h"
#include "page/fixed_measure.h"
#include "page/laid.h"

static struct laid laid;
static struct block *page;
static struct maker top;

static void set_up(void)
{
    laid_init(&laid, PAPER_A4);
    page = make_block(&laid.body, BLOCK_PAGE);
    top = make_at(&laid.arena, &page->as.page.blocks);
}

static void tear_down(void)
{
    laid_finish(&laid);
}

static unsigned seed;

static double random_between(double low, double high)
{
    seed = seed * 1103515245u + 12345u;
    return low + (high - low) * ((seed >> 16) & 0x7FFF) / 0x7FFF;
}

enum { THINGS_MOST = 5, LABELS_MOST = 7, LABELS_BEFORE = 5 };

/* A limit over some of the box or all of it, and the mark of its step. */
static void add_level(struct diagram *d, struct diagram_thing *things, struct diagram_label *labels)
{
    const bool is_row = random_between(0, 1) < 0.5;
    const double x = random_between(0, 1) < 0.5 ? 0 : d->length / 2,
                 y = random_between(0.05, 0.95) * d->height;
    things[d->thing_count++] =
        (struct diagram_thing){.kind = THING_LEVEL, .x = x, .y = y, .width = d->length - x};
    labels[d->label_count] = (struct diagram_label){.title = "No perch above",
                                                    .value = "4 3/4 in",
                                                    .is_large = is_row,
                                                    .mark = d->label_count % 2 ? "2" : "B",
                                                    .is_mark_solid = is_row,
                                                    .has_point = true,
                                                    .is_level = true,
                                                    .x = d->length,
                                                    .y = y};
    d->label_count++;
}

static struct diagram *random_diagram(void)
{
    static const char *const titles[] = {"UVB lamp to back", "Damp air", "Basking spot",
                                         "Warm side", "Cool side"};
    struct diagram *d = ARENA_NEW(&laid.arena, struct diagram);
    struct diagram_thing *things = ARENA_ARRAY(&laid.arena, struct diagram_thing, THINGS_MOST);
    struct diagram_label *labels = ARENA_ARRAY(&laid.arena, struct diagram_label, LABELS_MOST);
    d->length = random_between(30, 250);
    d->height = random_between(25, 180);
    d->has_lid = random_between(0, 1) < 0.7;
    if (random_between(0, 1) < 0.3) {
        d->needed_length = d->length * random_between(1, 2);
        d->needed_height = d->height * random_between(1, 2);
    }
    double lamp = d->height * random_between(0.5, 1.2);
    d->top = fmax(d->height, lamp * 1.05);
    things[0] = (struct diagram_thing){.kind = THING_BLOCK,
                                       .x = 0.03 * d->length,
                                       .width = 0.33 * d->length,
                                       .height = random_between(0.02, 0.3) * d->height,
                                       .word = "platform"};
    things[1] = (struct diagram_thing){
        .kind = THING_BAR, .x = 0.15 * d->length, .y = lamp, .width = 0.4 * d->length};
    things[2] = (struct diagram_thing){.kind = THING_BLOCK,
                                       .x = 0.52 * d->length,
                                       .width = 0.16 * d->length,
                                       .height = 0.15 * d->height,
                                       .word = "damp hide"};
    d->things = things;
    d->thing_count = 3;
    double back = things[0].height + 0.05 * d->height;
    const double xs[] = {0.25, 0.8, 0.08, 0.44, 0.94},
                 ys[] = {0, 0.75 * d->height, back, 0.06 * d->height, 0.06 * d->height};
    for (size_t i = 0; i < 5; i++) {
        bool large = random_between(0, 1) < 0.5;
        labels[i] = (struct diagram_label){.title = titles[i],
                                           .value = "90-93 F",
                                           .now = "now 84",
                                           .turn = large ? TURN_UP : TURN_RIGHT,
                                           .turn_said = "warmer",
                                           .is_large = large,
                                           .mark = large                        ? "1"
                                                   : random_between(0, 1) < 0.3 ? "A"
                                                                                : NULL,
                                           .is_mark_solid = large,
                                           .has_point = i >= 2,
                                           .is_upper = i < 2,
                                           .x = xs[i] * d->length,
                                           .y = i == 0 ? (lamp + back) / 2 : ys[i]};
    }
    d->labels = labels;
    d->label_count = 5;
    struct diagram_distance *distance = ARENA_NEW(&laid.arena, struct diagram_distance);
    *distance = (struct diagram_distance){0.25 * d->length, lamp, back, 0};
    d->distance = distance;
    d->alternative = "a box";
    for (int levels = (int)random_between(0, 2.99); levels > 0; levels--)
        add_level(d, things, labels);
    return d;
}

static struct panel *add_panel(enum panel_kind kind)
{
    struct panel *panel = ARENA_NEW(&laid.arena, struct panel);
    panel->kind = kind;
    panel->title = "box";
    make_block(&top, BLOCK_PANEL)->as.panel = panel;
    return panel;
}

/* With some texts below it. */
static struct panel *add_box(void)
{
    struct panel *panel = add_panel(PANEL_DIAGRAM);
    panel->diagram = random_diagram();
    for (int rows = (int)random_between(0, 3.99); rows > 0; rows--)
        add_panel(PANEL_TEXT)->text = "some words";
    return panel;
}

/* A thousand boxes of any shape: no text meets a text, a line or a shape. */
START_TEST(no_label_meets_anything)
{
    seed = 20261127u + (unsigned)_i;
    struct panel *panel = add_box();
    laid_run(&laid);
    const char *fault = crossings_check(&laid.paged, 0, &fixed_measure, &laid.arena);
    ck_assert_msg(fault == NULL, "box %d (%.0f x %.0f): %s", _i, panel->diagram->length,
                  panel->diagram->height, fault);
}
END_TEST

/* Of a tall box, the air's, and of four at the sides a wide one at the right. */
static struct diagram *wide_diagram(int letters)
{
    static const struct pictogram drop = {.field = 48};
    enum { LABELS = 5 };
    struct diagram *d = ARENA_NEW(&laid.arena, struct diagram);
    struct diagram_label *labels = ARENA_ARRAY(&laid.arena, struct diagram_label, LABELS);
    const double length = random_between(30, 60), height = random_between(60, 120);
    labels[0] =
        (struct diagram_label){.title = "Damp_air_everywhere_in_all_the_box", .pictogram = &drop};
    labels[1] = (struct diagram_label){
        .title = arena_format(&laid.arena, "%.*s", letters, "No_perch_may_stand_higher_up_than"),
        .is_large = true};
    labels[2] = (struct diagram_label){.title = "Cool side"};
    labels[3] = (struct diagram_label){.title = "Basking spot"};
    labels[4] = (struct diagram_label){.title = "Warm"};
    for (size_t i = 0; i < LABELS; i++) {
        labels[i].value = "90-93 F";
        labels[i].now = random_between(0, 1) < 0.5 ? "now 84" : NULL;
        labels[i].x = (i < LABELS - 1 ? 0.9 : 0.1) * length;
    }
    *d = (struct diagram){
        .length = length, .height = height, .top = height, .has_lid = true, .labels = labels};
    d->label_count = LABELS;
    d->alternative = "a box";
    return d;
}

/* On a full page the label of the air may stand above the drawing. A label at the side that is
 * wider than its column reaches below it, with 144 to 180 pt of some 540 beside 219 in the middle:
 * none meets another. */
START_TEST(a_wide_label_meets_none_above_the_drawing)
{
    static const struct fit_step steps[] = {{0, 20, 0}};
    enum { TEXTS_LEAST = 40, TEXTS_MOST = 100 };
    for (int texts = TEXTS_LEAST; texts < TEXTS_MOST; texts++) {
        laid_finish(&laid);
        set_up();
        page->as.page.steps = steps;
        page->as.page.step_count = 1;
        seed = 31u + (unsigned)_i;
        add_panel(PANEL_DIAGRAM)->diagram = wide_diagram(24 + _i % 7);
        for (int i = 0; i < texts; i++)
            add_panel(PANEL_TEXT)->text = "some words";
        laid_run(&laid); /* which finds texts that meet */
        if (laid.paged.page_count > 1)
            break;
        ck_assert_int_lt(texts + 1, TEXTS_MOST);
    }
}
END_TEST

/* The arrow is as long as the lamp is far, within 2 % of the box's own scale. */
START_TEST(the_distance_is_to_scale)
{
    seed = 7u + (unsigned)_i;
    const struct diagram *d = add_box()->diagram;
    laid_run(&laid);
    double floor_pt = 0, arrow_pt = 0, x = 0;
    for (const struct op *op = laid.paged.pages[0].first; op != NULL; op = op->next) {
        if (op->kind != OP_LINE)
            continue;
        double dx = op->points[1].x - op->points[0].x, dy = op->points[1].y - op->points[0].y;
        if (op->stroke_pt == 4)
            floor_pt = dx;
        else if (op->stroke_pt == 1.75) {
            arrow_pt = dy;
            x = op->points[0].x;
        }
    }
    double expected = (d->distance->from - d->distance->to) * floor_pt / d->length;
    ck_assert_double_gt(x, 0);
    /* its line ends 7 pt inside of each head where there is room for heads */
    double heads = expected > 16 ? 14 : 0;
    ck_assert_double_eq_tol(arrow_pt + heads, expected, 0.02 * expected + 0.05);
}
END_TEST

/* The floor, whose length is the box's: its left end, its upper edge and the scale. */
static struct point find_floor(const struct diagram *d, double *scale)
{
    for (const struct op *op = laid.paged.pages[0].first; op != NULL; op = op->next)
        if (op->kind == OP_LINE && op->stroke_pt == 4) {
            *scale = (op->points[1].x - op->points[0].x) / d->length;
            return (struct point){op->points[0].x, op->points[0].y + 2};
        }
    ck_abort_msg("no floor is drawn");
}

/* The line of a limit stands as high as it says and as wide, its mark is on it
 * or as low as a disc can be, and where there is
 * room for marks beside one another, 17 pt each, no mark stands on another one. */
START_TEST(a_level_is_to_scale)
{
    static const double ROOM_PT = 260, RADIUS_PT = 8, DISC_PT = 1.1, LEAST_PT = 12.5;
    seed = 20261130u + (unsigned)_i;
    const struct diagram *d = add_box()->diagram;
    laid_run(&laid);
    double scale = 0;
    const struct point floor = find_floor(d, &scale);
    for (size_t i = 0; i < d->thing_count; i++) {
        const struct diagram_thing *level = &d->things[i];
        const double x = floor.x + level->x * scale, y = floor.y - level->y * scale;
        size_t lines = 0, marks = 0;
        if (level->kind != THING_LEVEL)
            continue;
        for (const struct op *op = laid.paged.pages[0].first; op != NULL; op = op->next) {
            lines += op->kind == OP_LINE && op->dash == DASH_DASHED &&
                     fabs(op->points[0].x - x) < 0.1 && fabs(op->points[0].y - y) < 0.1 &&
                     fabs(op->points[1].y - y) < 0.1 &&
                     fabs(op->points[1].x - op->points[0].x - level->width * scale) < 0.1;
            marks += op->kind == OP_CIRCLE && fabs(op->width - RADIUS_PT) < DISC_PT &&
                     fabs(op->y - fmin(y, floor.y - LEAST_PT)) < 0.1;
        }
        ck_assert_msg(lines == 1 && marks >= 1, "box %d: %zu lines, %zu marks at %.1f", _i, lines,
                      marks, y);
    }
    const char *fault = d->length * scale > ROOM_PT && d->height * scale > ROOM_PT / 2
                            ? crossings_check_marks(&laid.paged, 0, &laid.arena)
                            : NULL;
    ck_assert_msg(fault == NULL, "box %d: %s", _i, fault);
}
END_TEST

/* How high a tall box stands with so many labels at its right, on the fullest page that takes it.
 */
static double height_beside(size_t labels)
{
    static const double LENGTH = 45, HEIGHT = 80;
    enum { TEXTS_MOST = 100 };
    double height = 0;
    for (int texts = 1; texts < TEXTS_MOST; texts++) {
        double scale = 0;
        laid_finish(&laid);
        set_up();
        struct panel *panel = add_panel(PANEL_DIAGRAM);
        struct diagram *d = ARENA_NEW(&laid.arena, struct diagram);
        struct diagram_label *label = ARENA_ARRAY(&laid.arena, struct diagram_label, labels);
        *d = (struct diagram){.length = LENGTH, .height = HEIGHT, .top = HEIGHT, .labels = label};
        d->label_count = labels;
        d->alternative = "a box";
        for (size_t i = 0; i < labels; i++)
            label[i] = (struct diagram_label){
                .title = "Cool side", .value = "22-26 C", .now = "now 22", .x = LENGTH, .y = 1};
        panel->diagram = d;
        for (int i = 0; i < texts; i++)
            add_panel(PANEL_TEXT)->text = "some words";
        laid_run(&laid);
        if (laid.paged.page_count > 1)
            return height;
        find_floor(d, &scale);
        height = HEIGHT * scale;
    }
    ck_abort_msg("the page is never full");
}

/* A label of three lines takes 12 pt each at least: a box beside three of them is as high as they
 * are, for nothing else stands there. */
START_TEST(a_box_is_as_high_as_the_labels_beside_it)
{
    static const double LEAST_PT = 3 * 3 * 12;
    ck_assert_double_lt(height_beside(1), LEAST_PT);
    ck_assert_double_gt(height_beside(3), LEAST_PT);
}
END_TEST

/* A box 100 pt wide and high with an animal 40 pt long and 10 high in its upper half, beside which
 * the label stands; its point lies on the floor, at the other side. */
static bool is_led_over_animal(double animal_x, double animal_y)
{
    static const struct diagram_label label = {
        .title = "Warm side", .value = "28", .has_point = true, .x = 30, .y = 5};
    const struct diagram_thing animal = {
        .kind = THING_OUTLINE, .x = animal_x, .y = animal_y, .width = 40, .height = 10};
    const struct diagram diagram = {.length = 100,
                                    .height = 100,
                                    .things = &animal,
                                    .thing_count = 1,
                                    .labels = &label,
                                    .label_count = 1};
    struct placed placed = {.scale = 1, .left = 100, .floor_y = 110, .label_count = 1};
    static const struct lead lead = {.inner = 220};
    placed.labels[0].box = (struct extent_pt){230, 84 - animal_y, 300, 120 - animal_y};
    placed.labels[0].point = (struct point){130, 105};
    ck_assert_uint_eq(diagram_lead(&diagram, &placed, &lead, 1), 0);
    const struct extent_pt box = diagram_outline_box(&diagram, &placed, &animal);
    const struct leader *leader = &placed.labels[0].leader;
    ck_assert_double_eq(leader->points[leader->count - 1].x, 130);
    for (size_t i = 0; i + 1 < leader->count; i++)
        for (int part = 0; part <= 100; part++) { /* points close enough to be the line */
            const struct point *from = &leader->points[i], *to = from + 1;
            const double x = from->x + (to->x - from->x) * part / 100,
                         y = from->y + (to->y - from->y) * part / 100;
            if (x > box.left && x < box.right && y > box.top && y < box.bottom)
                return true;
        }
    return false;
}

/* The straightest way of some of these is over it. */
START_TEST(a_line_goes_round_the_animal)
{
    for (int y = 40; y <= 80; y += 10)
        for (int x = 40; x <= 55; x += 5)
            ck_assert_msg(!is_led_over_animal(x, y), "%d %d", x, y);
}
END_TEST

int main(void)
{
    enum { BOXES = 1000, SCALES = 50, LEVELS = 300, WIDE = 60 };
    TCase *drawing = tcase_create("drawing");
    tcase_add_checked_fixture(drawing, set_up, tear_down);
    tcase_add_loop_test(drawing, no_label_meets_anything, 0, BOXES);
    tcase_add_loop_test(drawing, a_wide_label_meets_none_above_the_drawing, 0, WIDE);
    tcase_add_loop_test(drawing, the_distance_is_to_scale, 0, SCALES);
    tcase_add_loop_test(drawing, a_level_is_to_scale, 0, LEVELS);
    tcase_add_test(drawing, a_box_is_as_high_as_the_labels_beside_it);
    tcase_add_test(drawing, a_line_goes_round_the_animal);
    Suite *suite = suite_create("drawing");
    suite_add_tcase(suite, drawing);
    return suite_run(suite);
}
