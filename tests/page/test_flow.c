/* How blocks flow over pages. All heights are counted by hand for the look of make_document on
 * A4 with the fixed measure:
 *
 *   line of body text     12 x 1.35                      = 16.20 pt
 *   running head          9.5 x 1.25 + 4 (rule) + 14     = 29.875 pt
 *   running foot          10 + 4 + 9.5 x 1.25            = 25.875 pt
 *   page for text         841.89 - 2 x 54 - head - foot  = 678.14 pt, 41 lines (664.20 pt)
 *   gap above a paragraph 0.5 lines = 8.10 pt
 *   heading of level 2    16 x 1.25 = 20 pt, above it 1.25 lines, below it 0.3 lines
 */
#include <string.h>

#include "common/suite.h"
#include "page/laid.h"

static struct laid laid;

static void set_up(void)
{
    laid_init(&laid, PAPER_A4);
}

static void tear_down(void)
{
    laid_finish(&laid);
}

static void add_lines(char letter, int count)
{
    make_paragraph(&laid.body, laid_numbered(&laid, letter, 1, count));
}

static double y_of(const char *text)
{
    size_t page;
    return laid_find(&laid, text, &page)->y;
}

static double x_of(const char *text)
{
    size_t page;
    return laid_find(&laid, text, &page)->x;
}

/* The first text of a page that is no running head: what has an element, or stands below it. */
static const struct op *first_text(size_t page)
{
    const struct op *op = laid.paged.pages[page - 1].first;
    while (op != NULL && (op->kind != OP_TEXT || (op->element < 0 && op->y < 54 + 29.875)))
        op = op->next;
    ck_assert_ptr_nonnull(op);
    return op;
}

/* ---- widows and orphans ---- */

/* A paragraph of so many lines, and the line that begins the second page. */
static const struct {
    int lines;
    const char *second_page;
} paragraphs[] = {
    {41, NULL}, {42, "a41"}, {43, "a42"}, {44, "a42"}, {82, "a42"}, {83, "a42"},
};

START_TEST(leaves_no_widow)
{
    add_lines('a', paragraphs[_i].lines);
    laid_run(&laid);
    if (paragraphs[_i].second_page == NULL)
        ck_assert_uint_eq(laid.paged.page_count, 1);
    else
        ck_assert_str_eq(first_text(2)->text, paragraphs[_i].second_page);
    if (paragraphs[_i].lines == 83)
        ck_assert_str_eq(first_text(3)->text, "a82"); /* not a83 alone */
}
END_TEST

/* 39 lines (631.80), a gap (8.10): 38.24 are left, two lines. */
START_TEST(breaks_with_two_lines_on_either_side)
{
    add_lines('a', 39);
    add_lines('b', 4);
    laid_run(&laid);
    ck_assert_str_eq(first_text(2)->text, "b3");
}
END_TEST

/* Three lines cannot be parted into two and two. */
START_TEST(moves_three_lines_whole)
{
    add_lines('a', 39);
    add_lines('b', 3);
    laid_run(&laid);
    ck_assert_str_eq(first_text(2)->text, "b1");
}
END_TEST

/* 40 lines (648), a gap (8.10): 22.04 are left, one line, which would be an orphan. */
START_TEST(leaves_no_orphan)
{
    add_lines('a', 40);
    add_lines('b', 9);
    laid_run(&laid);
    ck_assert_str_eq(first_text(2)->text, "b1");
}
END_TEST

/* ---- keeping together ---- */

/* 36 lines (583.20), heading (20.25 + 20), gap (4.86): 49.83 are left, three lines; with 38
 * lines 17.43, one line, so that the heading goes along. */
START_TEST(keeps_a_heading_with_two_lines)
{
    add_lines('a', 36);
    make_heading(&laid.body, 2, "Heading");
    add_lines('b', 9);
    laid_run(&laid);
    ck_assert_uint_eq(laid_page_of(&laid, "Heading"), 1);
    ck_assert_str_eq(first_text(2)->text, "b4");
}
END_TEST

START_TEST(moves_a_heading_along)
{
    add_lines('a', 38);
    make_heading(&laid.body, 2, "Heading");
    add_lines('b', 9);
    laid_run(&laid);
    ck_assert_str_eq(first_text(2)->text, "Heading");
    /* at the top of a page no gap stands above it: its baseline is
     * 83.875 + 16 x ((1.25 - 1) / 2 + 0.8) */
    ck_assert_double_eq_tol(first_text(2)->y, 83.875 + 14.8, 0.006);
}
END_TEST

START_TEST(moves_a_chain_of_headings_along)
{
    add_lines('a', 37);
    make_heading(&laid.body, 2, "Heading");
    make_heading(&laid.body, 3, "Below");
    add_lines('b', 9);
    laid_run(&laid);
    ck_assert_str_eq(first_text(2)->text, "Heading");
}
END_TEST

START_TEST(keeps_a_paragraph_with_the_next)
{
    add_lines('a', 36);
    add_lines('b', 2);
    laid.document->blocks->next->keep_with_next = true;
    add_lines('c', 9);
    laid_run(&laid);
    /* 36 lines, gap, 2 lines, gap: 46.34 left hold two lines of c */
    ck_assert_str_eq(first_text(2)->text, "c3");
    tear_down();
    set_up();
    add_lines('a', 38);
    add_lines('b', 2);
    laid.document->blocks->next->keep_with_next = true;
    add_lines('c', 9);
    laid_run(&laid);
    ck_assert_str_eq(first_text(2)->text, "b1");
}
END_TEST

START_TEST(keeps_a_block_together)
{
    struct maker inside;
    add_lines('a', 30);
    make_callout(&laid.body, CALLOUT_PLAIN, NULL, &inside);
    make_paragraph(&inside, laid_numbered(&laid, 'b', 1, 20));
    laid_run(&laid);
    /* 30 lines (486), gap (14.58), padding (11): 166.56 left, ten lines */
    ck_assert_str_eq(first_text(2)->text, "b11");
    tear_down();
    set_up();
    add_lines('a', 30);
    make_callout(&laid.body, CALLOUT_PLAIN, NULL, &inside)->keep_together = true;
    make_paragraph(&inside, laid_numbered(&laid, 'b', 1, 20));
    laid_run(&laid);
    ck_assert_str_eq(first_text(2)->text, "b1");
}
END_TEST

/* What is longer than a page cannot be kept together and is not moved for nothing. */
START_TEST(does_not_move_what_fits_on_no_page)
{
    add_lines('a', 30);
    add_lines('b', 60);
    laid.document->blocks->next->keep_together = true;
    laid_run(&laid);
    ck_assert_uint_eq(laid_page_of(&laid, "b1"), 1);
}
END_TEST

/* A heading whose block fills a page stays with the block's beginning all the same. */
START_TEST(breaks_a_kept_block_rather_than_leave_its_heading)
{
    make_heading(&laid.body, 2, "Heading");
    add_lines('b', 41);
    laid.document->blocks->next->keep_together = true;
    laid_run(&laid);
    ck_assert_uint_eq(laid_page_of(&laid, "Heading"), 1);
    ck_assert_uint_eq(laid_page_of(&laid, "b1"), 1);
    ck_assert_uint_eq(laid.paged.page_count, 2);
}
END_TEST

START_TEST(breaks_pages_where_told_and_never_twice)
{
    make_block(&laid.body, BLOCK_PAGE_BREAK);
    add_lines('a', 1);
    make_block(&laid.body, BLOCK_PAGE_BREAK);
    make_block(&laid.body, BLOCK_PAGE_BREAK);
    add_lines('b', 1);
    make_block(&laid.body, BLOCK_PAGE_BREAK);
    laid_run(&laid);
    ck_assert_uint_eq(laid.paged.page_count, 2);
    ck_assert_uint_eq(laid_page_of(&laid, "a1"), 1);
    ck_assert_uint_eq(laid_page_of(&laid, "b1"), 2);
}
END_TEST

/* ---- lists ---- */

/* Two items of a list stay together at its end. Items are 16.20 high with 3.564 between. */
START_TEST(leaves_no_single_item)
{
    struct block *list = make_list(&laid.body, LIST_BULLETS);
    for (int i = 1; i <= 35; i++)
        make_item(&laid.body, list, arena_format(&laid.arena, "i%d", i));
    laid_run(&laid);
    /* 34 items take 34 x 16.20 + 33 x 3.564 = 668.41 */
    ck_assert_uint_eq(laid_page_of(&laid, "i33"), 1);
    ck_assert_str_eq(first_text(2)->text, "\u2022");
    ck_assert_uint_eq(laid_page_of(&laid, "i34"), 2);
}
END_TEST

/* Text hangs behind its mark; what is inside an item hangs deeper. */
START_TEST(hangs_list_text)
{
    struct block *list = make_list(&laid.body, LIST_NUMBERS);
    struct list_item *item = NULL;
    for (int i = 1; i <= 10; i++)
        item = make_item(&laid.body, list, arena_format(&laid.arena, "i%d\nsecond%d", i, i));
    struct maker more = make_at(&laid.arena, &item->more);
    make_paragraph(&more, "inside");
    laid_run(&laid);
    /* "10." is 18 wide, then half a size: 54 + 18 + 6; "9." ends where "10." does */
    ck_assert_double_eq_tol(x_of("i1"), 78, 0.006);
    ck_assert_double_eq_tol(x_of("second9"), 78, 0.006);
    ck_assert_double_eq_tol(x_of("inside"), 78, 0.006);
    ck_assert_double_eq_tol(x_of("10."), 54, 0.006);
    ck_assert_double_eq_tol(x_of("9."), 60, 0.006);
    ck_assert_double_eq_tol(y_of("9."), y_of("i9"), 0.006);
}
END_TEST

/* ---- tables ---- */

/* A row is 10.5 x (1.35 + 0.68) = 21.315 high: 31 of them, the head included, on a page. */
START_TEST(repeats_a_tables_head)
{
    struct block *table = make_table(&laid.body, 2, "Week|Done");
    for (int i = 1; i <= 70; i++)
        make_row(&laid.body, table, arena_format(&laid.arena, "w%d|d%d", i, i));
    laid_run(&laid);
    ck_assert_uint_eq(laid.paged.page_count, 3);
    ck_assert_uint_eq(laid_page_of(&laid, "d30"), 1);
    ck_assert_uint_eq(laid_page_of(&laid, "w31"), 2);
    ck_assert_uint_eq(laid_page_of(&laid, "w61"), 3);
    for (size_t page = 1; page <= 3; page++) {
        const struct op *op = first_text(page);
        ck_assert_str_eq(op->text, "Week");
        ck_assert_int_eq(op->element<0, page> 1);
        ck_assert_int_eq(op->style, TEXT_STRONG);
    }
}
END_TEST

/* Nothing of a row that is higher than a page is lost, and its cells stay in order. */
START_TEST(cuts_a_row_that_fits_on_no_page)
{
    struct block *table = make_table(&laid.body, 2, "One|Other");
    const char *one = laid_numbered(&laid, 'a', 1, 120), *two = laid_numbered(&laid, 'b', 1, 90);
    make_row(&laid.body, table, arena_format(&laid.arena, "%s|%s", one, two));
    laid_run(&laid);
    for (int i = 1; i <= 90; i++) {
        size_t page = laid_page_of(&laid, arena_format(&laid.arena, "a%d", i));
        ck_assert_uint_eq(page, laid_page_of(&laid, arena_format(&laid.arena, "b%d", i)));
    }
    laid_page_of(&laid, "a120");
}
END_TEST

/* Cells beyond the columns that were named get columns of their own. */
START_TEST(drops_no_cell)
{
    struct block *table = make_table(&laid.body, 2, NULL);
    make_row(&laid.body, table, "one|two|three");
    make_row(&laid.body, table, "four");
    laid_run(&laid);
    ck_assert_double_eq_tol(x_of("three") - x_of("two"), x_of("two") - x_of("one"), 0.011);
    size_t cells = 0;
    for (size_t i = 0; i < laid.paged.element_count; i++)
        cells += laid.paged.elements[i].type == ELEMENT_TD;
    ck_assert_uint_eq(cells, 6);
}
END_TEST

/* ---- columns ---- */

static void add_columns(int left, int right)
{
    struct maker sides[2];
    make_columns(&laid.body, 2, sides);
    make_paragraph(&sides[0], laid_numbered(&laid, 'l', 1, left));
    make_paragraph(&sides[1], laid_numbered(&laid, 'r', 1, right));
}

/* The gutter is 1.6 x 12: columns are (487.28 - 19.2) / 2 = 234.04 wide. */
START_TEST(sets_columns_side_by_side)
{
    add_lines('a', 20);
    add_columns(5, 15);
    add_lines('z', 1);
    laid_run(&laid);
    ck_assert_double_eq_tol(y_of("l1"), y_of("r1"), 0.006);
    ck_assert_double_eq_tol(x_of("r1"), 54 + 234.04 + 19.2, 0.006);
    /* what follows stands below the longer one: 0.9 lines between */
    ck_assert_double_eq_tol(y_of("z1"), y_of("r15") + 16.2 * 1.9, 0.011);
}
END_TEST

/* A page holds 41 lines: 20, the gap of 0.9 lines, and 20 of the longer column. */
START_TEST(parts_columns_at_the_end_of_a_page)
{
    add_lines('a', 20);
    add_columns(5, 30);
    laid_run(&laid);
    ck_assert_uint_eq(laid_page_of(&laid, "l5"), 1);
    ck_assert_uint_eq(laid_page_of(&laid, "r20"), 1);
    ck_assert_str_eq(first_text(2)->text, "r21");
    ck_assert_double_eq_tol(x_of("r21"), x_of("r1"), 0.006);
    ck_assert_uint_eq(laid_page_of(&laid, "r30"), 2);
}
END_TEST

/* Three lines of room are no fair part of a column. */
START_TEST(moves_columns_that_would_leave_a_scrap)
{
    add_lines('a', 37);
    add_columns(5, 30);
    laid_run(&laid);
    ck_assert_str_eq(first_text(2)->text, "l1");
    ck_assert_uint_eq(laid_page_of(&laid, "r30"), 2);
}
END_TEST

START_TEST(carries_columns_that_fit_on_no_page_on)
{
    add_columns(50, 5);
    laid_run(&laid);
    ck_assert_double_eq_tol(y_of("r1"), y_of("l1"), 0.011);
    ck_assert_double_eq_tol(x_of("l50"), 54, 0.006);
    ck_assert_uint_eq(laid_page_of(&laid, "l42"), 2);
    ck_assert_uint_eq(laid_page_of(&laid, "r5"), 1);
}
END_TEST

/* ---- callouts ---- */

/* The frame's outlines: how many points each page's has, and whether it is closed. */
START_TEST(leaves_a_frame_open_where_it_goes_on)
{
    struct maker inside;
    make_callout(&laid.body, CALLOUT_PLAIN, "Title", &inside);
    make_paragraph(&inside, laid_numbered(&laid, 'a', 1, 90));
    make_callout(&laid.body, CALLOUT_PLAIN, NULL, &inside);
    make_paragraph(&inside, "short");
    laid_run(&laid);
    static const struct {
        size_t page, count;
        bool closed;
    } outlines[] = {{0, 4, false}, {1, 2, false}, {1, 2, false}, {2, 4, false}, {2, 4, true}};
    size_t found = 0;
    for (size_t page = 0; page < laid.paged.page_count; page++) {
        for (const struct op *op = laid.paged.pages[page].first; op != NULL; op = op->next) {
            if (op->kind == OP_PATH) {
                ck_assert_uint_lt(found, 5);
                ck_assert_uint_eq(page, outlines[found].page);
                ck_assert_uint_eq(op->count, outlines[found].count);
                ck_assert_int_eq(op->closed, outlines[found].closed);
                found++;
            }
        }
    }
    ck_assert_uint_eq(found, 5);
}
END_TEST

/* A frame inside a frame stands inside it on all sides. */
START_TEST(nests_frames)
{
    struct maker outer, inner;
    make_callout(&laid.body, CALLOUT_PLAIN, NULL, &outer);
    make_callout(&outer, CALLOUT_KEY, NULL, &inner);
    make_paragraph(&inner, "text");
    laid_run(&laid);
    const struct op *frames[2] = {NULL, NULL};
    size_t found = 0;
    for (const struct op *op = laid.paged.pages[0].first; op != NULL; op = op->next)
        if (op->kind == OP_PATH && found < 2)
            frames[found++] = op;
    ck_assert_uint_eq(found, 2);
    /* points go from the lower left corner upwards and around */
    const struct point *out = frames[0]->points, *in = frames[1]->points;
    ck_assert_double_gt(in[1].x, out[1].x + 8);
    ck_assert_double_gt(in[1].y, out[1].y + 8);
    ck_assert_double_lt(in[3].x, out[3].x - 8);
    ck_assert_double_lt(in[3].y, out[3].y - 8);
    double y = y_of("text");
    ck_assert(in[1].y < y - 9.6 && y + 2.4 < in[3].y);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("flow");
    TCase *tcase = tcase_create("flow");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_loop_test(tcase, leaves_no_widow, 0, sizeof paragraphs / sizeof paragraphs[0]);
    tcase_add_test(tcase, breaks_with_two_lines_on_either_side);
    tcase_add_test(tcase, moves_three_lines_whole);
    tcase_add_test(tcase, leaves_no_orphan);
    tcase_add_test(tcase, keeps_a_heading_with_two_lines);
    tcase_add_test(tcase, moves_a_heading_along);
    tcase_add_test(tcase, moves_a_chain_of_headings_along);
    tcase_add_test(tcase, keeps_a_paragraph_with_the_next);
    tcase_add_test(tcase, keeps_a_block_together);
    tcase_add_test(tcase, does_not_move_what_fits_on_no_page);
    tcase_add_test(tcase, breaks_a_kept_block_rather_than_leave_its_heading);
    tcase_add_test(tcase, breaks_pages_where_told_and_never_twice);
    tcase_add_test(tcase, leaves_no_single_item);
    tcase_add_test(tcase, hangs_list_text);
    tcase_add_test(tcase, repeats_a_tables_head);
    tcase_add_test(tcase, cuts_a_row_that_fits_on_no_page);
    tcase_add_test(tcase, drops_no_cell);
    tcase_add_test(tcase, sets_columns_side_by_side);
    tcase_add_test(tcase, parts_columns_at_the_end_of_a_page);
    tcase_add_test(tcase, moves_columns_that_would_leave_a_scrap);
    tcase_add_test(tcase, carries_columns_that_fit_on_no_page_on);
    tcase_add_test(tcase, leaves_a_frame_open_where_it_goes_on);
    tcase_add_test(tcase, nests_frames);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
