/* Pictures: scale, letters, dimension lines, patterns and matrices, checked by plain geometry. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "common/suite.h"
#include "layout/hatch.h"
#include "page/laid.h"
#include "layout/modules.h"

static struct laid laid;

static void set_up(void)
{
    laid_init(&laid, PAPER_A4);
}

static void tear_down(void)
{
    laid_finish(&laid);
}

static const struct op *find_op(enum op_kind kind, int n)
{
    for (size_t page = 0; page < laid.paged.page_count; page++) {
        for (const struct op *op = laid.paged.pages[page].first; op != NULL; op = op->next)
            if (op->kind == kind && op->element >= 0 && n-- == 0)
                return op;
    }
    ck_abort_msg("too few operations of kind %d", (int)kind);
    return NULL;
}

static struct block *add_picture(double width, double height)
{
    return make_picture(&laid.body, width, height, "what it shows", NULL);
}

static void add_label(struct block *picture, double x, double y, double width, const char *text,
                      double text_pt, enum anchor anchor)
{
    make_shape(&laid.body, picture,
               (struct shape){.kind = SHAPE_LABEL,
                              .x = x,
                              .y = y,
                              .width = width,
                              .text = text,
                              .text_pt = text_pt,
                              .anchor = anchor});
}

/* ---- scale ---- */

/* 487.28 pt are between the margins: half the size, and the letters at 9 pt instead of 7. */
START_TEST(scales_down_but_letters_not_below_nine)
{
    struct block *picture = add_picture(2 * 487.28, 400);
    make_shape(
        &laid.body, picture,
        (struct shape){
            .kind = SHAPE_RECT, .x = 100, .y = 50, .width = 200, .height = 100, .stroke_pt = 2});
    add_label(picture, 400, 100, 0, "small", 14, ANCHOR_LEFT);
    add_label(picture, 400, 200, 0, "large", 30, ANCHOR_LEFT);
    laid_run(&laid);
    const struct op *rect = find_op(OP_RECT, 0);
    ck_assert_double_eq_tol(rect->x, 54 + 50, 0.006);
    ck_assert_double_eq_tol(rect->y, 83.875 + 25, 0.006);
    ck_assert_double_eq_tol(rect->width, 100, 0.011);
    ck_assert_double_eq_tol(rect->height, 50, 0.011);
    ck_assert_double_eq_tol(rect->stroke_pt, 1, 0.006);
    ck_assert_double_eq(find_op(OP_TEXT, 0)->size_pt, 9);
    ck_assert_double_eq(find_op(OP_TEXT, 1)->size_pt, 15);
    ck_assert_double_eq_tol(find_op(OP_TEXT, 0)->x, 54 + 200, 0.006);
}
END_TEST

START_TEST(never_scales_up)
{
    struct block *picture = add_picture(10, 10);
    make_shape(&laid.body, picture,
               (struct shape){.kind = SHAPE_CIRCLE, .x = 5, .y = 5, .width = 4, .stroke_pt = 1});
    laid_run(&laid);
    ck_assert_double_eq(find_op(OP_CIRCLE, 0)->width, 4);
}
END_TEST

/* A picture with its caption is at most a page high, and is never parted from it. */
START_TEST(fits_a_page_with_its_caption)
{
    struct block *picture = add_picture(100, 5000);
    picture->as.picture.caption = make_span(&laid.arena, "two lines\nof caption");
    make_shape(&laid.body, picture,
               (struct shape){.kind = SHAPE_RECT, .width = 100, .height = 5000, .stroke_pt = 1});
    laid_run(&laid);
    ck_assert_uint_eq(laid.paged.page_count, 1);
    ck_assert_double_gt(find_op(OP_RECT, 0)->height, 600);
    ck_assert_double_gt(find_op(OP_TEXT, 0)->y, find_op(OP_RECT, 0)->y + 600);
}
END_TEST

START_TEST(says_where_the_figure_is)
{
    struct block *picture = add_picture(100, 50);
    picture->as.picture.caption = make_span(&laid.arena, "caption");
    make_shape(
        &laid.body, picture,
        (struct shape){
            .kind = SHAPE_RECT, .x = 20, .y = 10, .width = 60, .height = 30, .stroke_pt = 2});
    add_label(picture, 30, 30, 0, "in it", 9, ANCHOR_LEFT);
    laid_run(&laid);
    int figure = find_op(OP_RECT, 0)->element;
    const struct element *element = &laid.paged.elements[figure];
    ck_assert_int_eq(element->type, ELEMENT_FIGURE);
    ck_assert_str_eq(element->alternative, "what it shows");
    ck_assert_int_eq(find_op(OP_TEXT, 0)->element, figure);
    ck_assert_double_eq_tol(element->left, 54 + 19, 0.006);
    ck_assert_double_eq_tol(element->right, 54 + 81, 0.006);
    ck_assert_double_le(element->top, 83.875 + 9 + 0.006);
    ck_assert_double_ge(element->bottom, 83.875 + 41 - 0.006);
    const struct element *caption = &laid.paged.elements[find_op(OP_TEXT, 1)->element];
    ck_assert_int_eq(caption->type, ELEMENT_CAPTION);
    ck_assert_int_eq(caption->parent, element->parent);
}
END_TEST

/* ---- letters ---- */

START_TEST(anchors_and_wraps_labels)
{
    struct block *picture = add_picture(300, 100);
    add_label(picture, 100, 20, 0, "left", 10, ANCHOR_LEFT);
    add_label(picture, 100, 40, 0, "mid", 10, ANCHOR_MIDDLE);
    add_label(picture, 100, 60, 0, "right", 10, ANCHOR_RIGHT);
    add_label(picture, 200, 20, 45, "wraps at nine", 10, ANCHOR_MIDDLE);
    laid_run(&laid);
    ck_assert_double_eq_tol(find_op(OP_TEXT, 0)->x, 154, 0.006);
    ck_assert_double_eq_tol(find_op(OP_TEXT, 0)->y, 83.875 + 20, 0.006);
    ck_assert_double_eq_tol(find_op(OP_TEXT, 1)->x, 154 - 7.5, 0.006);
    ck_assert_double_eq_tol(find_op(OP_TEXT, 2)->x, 154 - 25, 0.006);
    /* "wraps at" is 40 wide, "nine" 20; both in the middle of x = 254, 12.5 apart */
    ck_assert_str_eq(find_op(OP_TEXT, 3)->text, "wraps at");
    ck_assert_double_eq_tol(find_op(OP_TEXT, 3)->x, 254 - 20, 0.006);
    ck_assert_double_eq_tol(find_op(OP_TEXT, 4)->x, 254 - 10, 0.006);
    ck_assert_double_eq_tol(find_op(OP_TEXT, 4)->y - find_op(OP_TEXT, 3)->y, 12.5, 0.006);
}
END_TEST

START_TEST(keeps_labels_in_the_room)
{
    struct block *picture = add_picture(487.28, 20);
    add_label(picture, 480, -30, 0, "to the right", 10, ANCHOR_LEFT);
    add_label(picture, 0, 60, 0, "to the left", 10, ANCHOR_MIDDLE);
    make_paragraph(&laid.body, "below");
    laid_run(&laid); /* the box check sees to the rest */
    ck_assert_double_eq_tol(find_op(OP_TEXT, 0)->x, 541.28 - 60, 0.006);
    ck_assert_double_eq_tol(find_op(OP_TEXT, 1)->x, 54, 0.006);
}
END_TEST

/* ---- dimension lines ---- */

static void add_dimension(double x1, double y1, double x2, double y2)
{
    const struct point ends[] = {{x1, y1}, {x2, y2}};
    make_shape(&laid.body, add_picture(200, 200),
               (struct shape){.kind = SHAPE_DIMENSION,
                              .points = ends,
                              .count = 2,
                              .stroke_pt = 0.75,
                              .text = "30 cm",
                              .text_pt = 10});
    laid_run(&laid);
}

/* The label of 25 x 12.5 stands on the middle of a long line, on a ground of paper. */
START_TEST(puts_the_label_on_a_long_line)
{
    add_dimension(20, 100, 180, 100);
    const struct op *text = find_op(OP_TEXT, 0), *ground = find_op(OP_RECT, 0);
    ck_assert_double_eq_tol(text->x + text->width / 2, 54 + 100, 0.011);
    ck_assert_double_eq_tol(ground->y + ground->height / 2, 83.875 + 100, 0.011);
    ck_assert(ground->filled && ground->fill.r == 255);
    ck_assert_double_le(ground->x, text->x);
    ck_assert_double_ge(ground->x + ground->width, text->x + text->width);
    ck_assert_double_le(ground->y, text->y - 8);
    ck_assert_double_ge(ground->y + ground->height, text->y + 2);
}
END_TEST

/* Where it would cover the line, it stands above a lying one and beside a standing one. */
START_TEST(puts_the_label_beside_a_short_line)
{
    add_dimension(90, 100, 110, 100);
    ck_assert_double_lt(find_op(OP_RECT, 0)->y + find_op(OP_RECT, 0)->height, 83.875 + 97);
    tear_down();
    set_up();
    add_dimension(100, 90, 100, 110);
    ck_assert_double_gt(find_op(OP_RECT, 0)->x, 54 + 104);
}
END_TEST

/* Bars stand across the line at both ends; arrow heads touch the ends from inside. */
START_TEST(ends_a_dimension_with_bars_and_arrow_heads)
{
    add_dimension(20, 20, 180, 140);
    const double dx = 0.8, dy = 0.6; /* 160 : 120 : 200 */
    for (int end = 0; end < 2; end++) {
        double x = 54 + (end ? 180 : 20), y = 83.875 + (end ? 140 : 20);
        const struct point *bar = find_op(OP_LINE, 1 + end)->points;
        ck_assert_double_eq_tol((bar[0].x + bar[1].x) / 2, x, 0.011);
        ck_assert_double_eq_tol((bar[0].y + bar[1].y) / 2, y, 0.011);
        ck_assert_double_eq_tol((bar[1].x - bar[0].x) * dx + (bar[1].y - bar[0].y) * dy, 0, 0.02);
        const struct point *head = find_op(OP_PATH, end)->points;
        ck_assert_double_eq_tol(head[0].x, x, 0.011);
        double inward = (end ? -1 : 1) * ((head[1].x - x) * dx + (head[1].y - y) * dy);
        ck_assert_double_eq_tol(inward, 7, 0.02);
    }
}
END_TEST

/* ---- patterns ---- */

static const struct point rectangle[] = {{10, 10}, {90, 10}, {90, 60}, {10, 60}};
static const struct point triangle[] = {{0, 0}, {100, 20}, {30, 90}};
static const struct point letter_u[] = {{0, 0},  {30, 0},  {30, 60},  {70, 60},
                                        {70, 0}, {100, 0}, {100, 90}, {0, 90}};

static const struct {
    const struct point *points;
    size_t count;
    enum fill_pattern pattern;
    int families;
    double spacing_pt; /* between the lines of a family */
} hatched[] = {
    {rectangle, 4, FILL_STRIPES, 1, 5}, {rectangle, 4, FILL_DOTS, 1, 4},
    {rectangle, 4, FILL_CROSS, 2, 6},   {triangle, 3, FILL_STRIPES, 1, 5},
    {triangle, 3, FILL_CROSS, 2, 6},    {triangle, 3, FILL_DOTS, 1, 4},
    {letter_u, 8, FILL_STRIPES, 1, 5},  {letter_u, 8, FILL_CROSS, 2, 6},
    {letter_u, 8, FILL_DOTS, 1, 4},
};

/* Ray casting to the right. */
static bool is_inside(const struct point *points, size_t count, double x, double y)
{
    bool inside = false;
    for (size_t i = 0; i < count; i++) {
        struct point a = points[i], b = points[(i + 1) % count];
        if ((a.y > y) != (b.y > y) && x < a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x))
            inside = !inside;
    }
    return inside;
}

/* The shoelace formula. */
static double area(const struct point *points, size_t count)
{
    double sum = 0;
    for (size_t i = 0; i < count; i++) {
        struct point a = points[i], b = points[(i + 1) % count];
        sum += a.x * b.y - b.x * a.y;
    }
    return fabs(sum) / 2;
}

/* Every line lies inside, and all together, each as wide as its spacing, cover the area. */
START_TEST(hatches_inside_the_outline)
{
    const struct point *points = hatched[_i].points;
    size_t count = hatched[_i].count;
    struct fragment fragment = {0};
    const struct pen pen = {&fragment, &laid.arena, 0};
    hatch_fill(&pen, points, count, hatched[_i].pattern, (struct rgb){0, 0, 0});
    double covered = 0;
    for (const struct op *op = fragment.first_op; op != NULL; op = op->next) {
        struct point a = op->points[0], b = op->points[1];
        for (int k = 1; k < 20; k++) {
            double share = k / 20.0;
            ck_assert(
                is_inside(points, count, a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)));
        }
        ck_assert_double_ge(op->stroke_pt, 0.5);
        covered += hypot(b.x - a.x, b.y - a.y) * hatched[_i].spacing_pt;
    }
    double whole = area(points, count) * hatched[_i].families;
    ck_assert_double_eq_tol(covered, whole, 0.05 * whole);
}
END_TEST

/* ---- matrices ---- */

enum { MODULES = 25, SIDE_PT = 80 };

/* The rectangles cover the dark modules and nothing else, each once, on one grid. */
START_TEST(draws_a_matrix_bit_by_bit)
{
    uint8_t bits[MODULES * MODULES];
    uint8_t drawn[MODULES * MODULES] = {0};
    srand((unsigned)_i);
    size_t dark = 0, rectangles = 0;
    for (size_t i = 0; i < sizeof bits; i++) {
        bits[i] = _i == 0 ? 1 : _i == 1 ? 0 : rand() % 2;
        dark += bits[i];
    }
    struct fragment fragment = {0};
    const struct pen pen = {&fragment, &laid.arena, 0};
    modules_draw(&pen, (struct square){10, 20, SIDE_PT}, bits, MODULES, (struct rgb){0, 0, 0},
                 (struct rgb){255, 255, 255});
    const double module = 3;              /* 80 / 25 = 3.2, down to a quarter point */
    const double left = 12.5, top = 22.5; /* (80 - 75) / 2 further in */
    ck_assert_int_eq(fragment.first_op->fill.r, 255);
    for (const struct op *op = fragment.first_op->next; op != NULL; op = op->next, rectangles++) {
        double column = (op->x - left) / module, row = (op->y - top) / module;
        double across = op->width / module, down = op->height / module;
        ck_assert(column == floor(column) && row == floor(row));
        ck_assert(across == floor(across) && down == floor(down));
        for (size_t y = 0; y < (size_t)down; y++)
            for (size_t x = 0; x < (size_t)across; x++)
                drawn[((size_t)row + y) * MODULES + (size_t)column + x]++;
    }
    ck_assert_mem_eq(drawn, bits, sizeof bits);
    ck_assert_uint_le(rectangles, _i == 0 ? 1 : dark * 2 / 3);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("scene");
    TCase *tcase = tcase_create("scene");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, scales_down_but_letters_not_below_nine);
    tcase_add_test(tcase, never_scales_up);
    tcase_add_test(tcase, fits_a_page_with_its_caption);
    tcase_add_test(tcase, says_where_the_figure_is);
    tcase_add_test(tcase, anchors_and_wraps_labels);
    tcase_add_test(tcase, keeps_labels_in_the_room);
    tcase_add_test(tcase, puts_the_label_on_a_long_line);
    tcase_add_test(tcase, puts_the_label_beside_a_short_line);
    tcase_add_test(tcase, ends_a_dimension_with_bars_and_arrow_heads);
    tcase_add_loop_test(tcase, hatches_inside_the_outline, 0, sizeof hatched / sizeof hatched[0]);
    tcase_add_loop_test(tcase, draws_a_matrix_bit_by_bit, 0, 8);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
