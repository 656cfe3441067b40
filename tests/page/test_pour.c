/* Columns that one stack of blocks runs down in turn, and tables with columns as wide as their
 * words. Heights are counted by hand, see test_flow.c: a line is 16.2 pt, a page holds 41; the
 * columns are (487.28 - 19.2) / 2 wide and begin 253.24 pt apart. */
#include <string.h>

#include "common/suite.h"
#include "page/laid.h"

static struct laid laid;

static const double LINE_PT = 16.2, STEP_PT = 253.24;

static void set_up(void)
{
    laid_init(&laid, PAPER_A4);
}

static void tear_down(void)
{
    laid_finish(&laid);
}

static const struct op *op_of(const char *text)
{
    size_t page;
    return laid_find(&laid, text, &page);
}

/* One-line paragraphs letter1 to letter<count>; half a line stands between them. */
static void add_paragraphs(struct maker *maker, char letter, int count)
{
    for (int i = 1; i <= count; i++)
        make_paragraph(maker, laid_numbered(&laid, letter, i, i));
}

static struct block *add_items(struct maker *maker, int count)
{
    struct block *list = make_list(maker, LIST_BULLETS);
    for (int i = 1; i <= count; i++)
        make_item(maker, list, laid_numbered(&laid, 'i', i, i));
    return list;
}

START_TEST(pours_evenly)
{
    struct maker inside;
    make_poured(&laid.body, 2, &inside);
    add_paragraphs(&inside, 'p', 9);
    make_paragraph(&laid.body, "behind");
    laid_run(&laid);
    ck_assert_double_eq_tol(op_of("p6")->y, op_of("p1")->y, 0.006);
    ck_assert_double_eq_tol(op_of("p6")->x - op_of("p1")->x, STEP_PT, 0.011);
    ck_assert_double_eq_tol(op_of("p5")->x, op_of("p1")->x, 0.006);
    /* below the higher column: 0.9 lines between */
    ck_assert_double_eq_tol(op_of("behind")->y, op_of("p5")->y + LINE_PT * 1.9, 0.011);
}
END_TEST

/* 28 paragraphs and the gaps between them are 41.5 lines, 672.3 of 678.14 pt. */
START_TEST(fills_a_page_before_the_next)
{
    struct maker inside;
    make_poured(&laid.body, 2, &inside);
    add_paragraphs(&inside, 'p', 60);
    laid_run(&laid);
    ck_assert_double_eq_tol(op_of("p29")->y, op_of("p1")->y, 0.006);
    ck_assert_uint_eq(laid_page_of(&laid, "p56"), 1);
    ck_assert_uint_eq(laid_page_of(&laid, "p57"), 2);
    ck_assert_double_eq_tol(op_of("p57")->y, op_of("p1")->y, 0.006);
    ck_assert_double_eq_tol(op_of("p59")->y, op_of("p57")->y, 0.006);
    ck_assert_double_eq_tol(op_of("p59")->x - op_of("p57")->x, STEP_PT, 0.011);
}
END_TEST

/* 31 lines, a gap of 0.9, and 9.1 lines of room: six paragraphs a column. */
START_TEST(begins_on_a_page_that_is_not_empty)
{
    struct maker inside;
    make_paragraph(&laid.body, laid_numbered(&laid, 'a', 1, 31));
    make_poured(&laid.body, 2, &inside);
    add_paragraphs(&inside, 'p', 14);
    laid_run(&laid);
    ck_assert_double_eq_tol(op_of("p7")->y, op_of("p1")->y, 0.006);
    ck_assert_uint_eq(laid_page_of(&laid, "p12"), 1);
    ck_assert_uint_eq(laid_page_of(&laid, "p13"), 2);
}
END_TEST

/* Two lines of room are no fair part of a column. */
START_TEST(moves_on_rather_than_leave_a_scrap)
{
    struct maker inside;
    make_paragraph(&laid.body, laid_numbered(&laid, 'a', 1, 38));
    make_poured(&laid.body, 2, &inside);
    add_paragraphs(&inside, 'p', 14);
    laid_run(&laid);
    ck_assert_uint_eq(laid_page_of(&laid, "p1"), 2);
    ck_assert_double_eq_tol(op_of("p8")->y, op_of("p1")->y, 0.006);
}
END_TEST

START_TEST(keeps_a_block_in_one_column)
{
    struct maker inside;
    make_poured(&laid.body, 2, &inside);
    add_paragraphs(&inside, 'p', 2);
    add_items(&inside, 20)->keep_together = true;
    laid_run(&laid);
    for (int i = 2; i <= 20; i++)
        ck_assert_double_eq_tol(op_of(laid_numbered(&laid, 'i', i, i))->x, op_of("i1")->x, 0.006);
}
END_TEST

/* 14 items with 0.22 lines between them do not fit into 9.1 lines, half of them do. */
START_TEST(parts_a_kept_block_to_save_a_page)
{
    struct maker inside;
    make_paragraph(&laid.body, laid_numbered(&laid, 'a', 1, 31));
    make_poured(&laid.body, 2, &inside);
    add_items(&inside, 14)->keep_together = true;
    laid_run(&laid);
    ck_assert_uint_eq(laid.paged.page_count, 1);
    ck_assert_double_eq_tol(op_of("i8")->x - op_of("i1")->x, STEP_PT, 0.011);
    ck_assert_double_eq_tol(op_of("i8")->y, op_of("i1")->y, 0.006);
}
END_TEST

START_TEST(repeats_a_tables_head_in_every_column)
{
    struct maker inside;
    make_poured(&laid.body, 2, &inside);
    struct block *table = make_table(&inside, 2, "Head|Other");
    for (int i = 1; i <= 20; i++)
        make_row(&inside, table, arena_format(&laid.arena, "r%d|x", i));
    laid_run(&laid);
    size_t heads = 0, read = 0;
    for (const struct op *op = laid.paged.pages[0].first; op != NULL; op = op->next) {
        if (op->kind == OP_TEXT && strcmp(op->text, "Head") == 0) {
            heads++;
            read += op->element >= 0;
            ck_assert_double_eq_tol(op->y, op_of("Head")->y, 0.006);
        }
    }
    ck_assert_uint_eq(heads, 2);
    ck_assert_uint_eq(read, 1);
    ck_assert_double_eq_tol(op_of("r20")->x - op_of("r1")->x, STEP_PT, 0.011);
}
END_TEST

/* ---- columns of tables ---- */

static void add_fitted(const double *shares, const char *first, const char *second)
{
    struct block *table = make_table(&laid.body, 2, NULL);
    table->as.table.shares = shares;
    make_row(&laid.body, table, first);
    make_row(&laid.body, table, second);
}

/* A letter is 0.5 x 10.5 pt wide; the gutter is the size. */
START_TEST(fits_a_column_to_its_words)
{
    static const double shares[] = {0, 1};
    add_fitted(shares, "four|one", "eightttt|two");
    laid_run(&laid);
    ck_assert_double_eq_tol(op_of("one")->x - op_of("four")->x, 8 * 5.25 + 10.5, 0.011);
}
END_TEST

/* The room is 476.78 pt, 90 letters. Beside 14 words of five letters each, 14 take three lines at
 * two fifths of it and two lines at one half; beside 8, 20 take three lines at two fifths and two
 * at three tenths. */
static const struct {
    int left, right;
    double share;
} lowest[] = {{14, 14, 0.5}, {8, 20, 0.3}, {8, 8, 0.4}};

START_TEST(takes_the_width_that_makes_the_table_lowest)
{
    static const double shares[] = {0, 1};
    const char *left = make_repeated(&laid.arena, "wordd", lowest[_i].left);
    const char *right = make_repeated(&laid.arena, "lines", lowest[_i].right);
    add_fitted(shares, arena_format(&laid.arena, "%s|%s", left, right), "a|b");
    laid_run(&laid);
    double step = lowest[_i].share * 476.78 + 10.5;
    ck_assert_double_eq_tol(op_of("b")->x - op_of("a")->x, step, 0.011);
}
END_TEST

START_TEST(spreads_what_is_left)
{
    static const double shares[] = {0, 0};
    add_fitted(shares, "four|one", "a|b");
    laid_run(&laid);
    /* 4 and 3 letters; half of the rest each */
    double rest = 476.78 - 7 * 5.25;
    ck_assert_double_eq_tol(op_of("b")->x - op_of("a")->x, 4 * 5.25 + rest / 2 + 10.5, 0.011);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("pour");
    TCase *tcase = tcase_create("pour");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, pours_evenly);
    tcase_add_test(tcase, fills_a_page_before_the_next);
    tcase_add_test(tcase, begins_on_a_page_that_is_not_empty);
    tcase_add_test(tcase, moves_on_rather_than_leave_a_scrap);
    tcase_add_test(tcase, keeps_a_block_in_one_column);
    tcase_add_test(tcase, parts_a_kept_block_to_save_a_page);
    tcase_add_test(tcase, repeats_a_tables_head_in_every_column);
    tcase_add_test(tcase, fits_a_column_to_its_words);
    tcase_add_loop_test(tcase, takes_the_width_that_makes_the_table_lowest, 0,
                        sizeof lowest / sizeof lowest[0]);
    tcase_add_test(tcase, spreads_what_is_left);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
