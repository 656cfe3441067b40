/* The document as a whole: structure, running head and foot, and what is refused. */
#include <string.h>

#include "common/suite.h"
#include "page/fixed_measure.h"
#include "page/laid.h"
#include "layout/layout.h"

static struct laid laid;

static void set_up(void)
{
    laid_init(&laid, PAPER_A4);
}

static void tear_down(void)
{
    laid_finish(&laid);
}

static const struct element *element_at(int index)
{
    return &laid.paged.elements[index];
}

/* The n-th element of a type, counted from 0. */
static int find_element(enum element_type type, int n)
{
    for (size_t i = 0; i < laid.paged.element_count; i++)
        if (laid.paged.elements[i].type == type && n-- == 0)
            return (int)i;
    ck_abort_msg("too few elements of type %d", (int)type);
    return -1;
}

static enum element_type type_above(int index)
{
    return element_at(element_at(index)->parent)->type;
}

/* ---- structure ---- */

START_TEST(puts_sections_under_the_document)
{
    make_heading(&laid.body, 1, "Title");
    make_paragraph(&laid.body, "before");
    make_heading(&laid.body, 2, "One");
    make_paragraph(&laid.body, "in one");
    make_heading(&laid.body, 3, "Part");
    make_heading(&laid.body, 2, "Two");
    make_paragraph(&laid.body, "in two");
    laid_run(&laid);
    static const enum element_type types[] = {
        ELEMENT_DOCUMENT, ELEMENT_H1, ELEMENT_P,    ELEMENT_SECT, ELEMENT_H2,
        ELEMENT_P,        ELEMENT_H3, ELEMENT_SECT, ELEMENT_H2,   ELEMENT_P};
    static const int parents[] = {-1, 0, 0, 0, 3, 3, 3, 0, 7, 7};
    ck_assert_uint_eq(laid.paged.element_count, sizeof types / sizeof types[0]);
    for (size_t i = 0; i < laid.paged.element_count; i++) {
        ck_assert_int_eq(element_at((int)i)->type, types[i]);
        ck_assert_int_eq(element_at((int)i)->parent, parents[i]);
        ck_assert_int_eq(element_at((int)i)->page, 0);
    }
    ck_assert_str_eq(element_at(1)->title, "Title");
    ck_assert_str_eq(element_at(4)->title, "One");
    ck_assert_ptr_null(element_at(2)->title);
}
END_TEST

/* Sections that begin in columns do not nest, and what follows the columns is in the last. */
START_TEST(puts_sections_of_columns_under_the_document)
{
    struct maker sides[2];
    make_heading(&laid.body, 2, "Before");
    make_columns(&laid.body, 2, sides);
    make_heading(&sides[0], 2, "Left");
    make_paragraph(&sides[0], "left");
    make_heading(&sides[1], 2, "Right");
    make_paragraph(&laid.body, "after");
    laid_run(&laid);
    for (int i = 0; i < 3; i++)
        ck_assert_int_eq(element_at(find_element(ELEMENT_SECT, i))->parent, 0);
    ck_assert_int_eq(element_at(find_element(ELEMENT_P, 1))->parent, find_element(ELEMENT_SECT, 2));
}
END_TEST

START_TEST(names_the_parts_of_lists_and_tables)
{
    struct block *list = make_list(&laid.body, LIST_NUMBERS);
    struct maker more = make_at(&laid.arena, &make_item(&laid.body, list, "item")->more);
    make_item(&more, make_list(&more, LIST_TICK_BOXES), "inner");
    struct block *table = make_table(&laid.body, 2, "a|b");
    make_row(&laid.body, table, "c|d")->cells->is_row_head = true;
    laid_run(&laid);
    ck_assert_int_eq(element_at(find_element(ELEMENT_L, 0))->numbering, NUMBERING_DECIMAL);
    ck_assert_int_eq(element_at(find_element(ELEMENT_L, 1))->numbering, NUMBERING_UNORDERED);
    ck_assert_int_eq(type_above(find_element(ELEMENT_L, 1)), ELEMENT_LBODY);
    ck_assert_int_eq(type_above(find_element(ELEMENT_LBL, 1)), ELEMENT_LI);
    ck_assert_int_eq(element_at(find_element(ELEMENT_TH, 1))->scope, SCOPE_COLUMN);
    ck_assert_int_eq(element_at(find_element(ELEMENT_TH, 2))->scope, SCOPE_ROW);
    ck_assert_int_eq(element_at(find_element(ELEMENT_TD, 0))->scope, SCOPE_NONE);
    ck_assert_int_eq(type_above(find_element(ELEMENT_TR, 0)), ELEMENT_THEAD);
    ck_assert_int_eq(type_above(find_element(ELEMENT_TR, 1)), ELEMENT_TBODY);
}
END_TEST

START_TEST(marks_languages_and_links)
{
    struct block *block = make_paragraph(&laid.body, "see ");
    struct span *spans = block->as.paragraph.text;
    make_more(&laid.arena, spans, "Boa", TEXT_PLAIN)->lang = "la";
    make_more(&laid.arena, spans, "here", TEXT_PLAIN)->uri = "https://example.org/";
    laid_run(&laid);
    ck_assert_str_eq(element_at(find_element(ELEMENT_SPAN, 0))->lang, "la");
    int link = find_element(ELEMENT_LINK, 0);
    ck_assert_str_eq(element_at(link)->alternative, "here");
    size_t rectangles = 0;
    for (const struct op *op = laid.paged.pages[0].first; op != NULL; op = op->next) {
        if (op->kind == OP_LINK) {
            rectangles++;
            ck_assert_int_eq(op->element, link);
            ck_assert_str_eq(op->uri, "https://example.org/");
            ck_assert_double_eq_tol(op->x, 54 + 7 * 6, 0.006);
            ck_assert_double_eq_tol(op->width, 4 * 6, 0.006);
        }
    }
    ck_assert_uint_eq(rectangles, 1);
}
END_TEST

START_TEST(leaves_dead_links_plain)
{
    laid.document->look.live_links = false;
    make_paragraph(&laid.body, "here")->as.paragraph.text->uri = "https://example.org/";
    laid_run(&laid);
    ck_assert_uint_eq(laid.paged.element_count, 2);
    for (const struct op *op = laid.paged.pages[0].first; op != NULL; op = op->next)
        ck_assert(op->kind != OP_LINK);
}
END_TEST

START_TEST(puts_the_logo_beside_the_title)
{
    static const uint8_t pixels[3 * 64 * 32];
    static const struct logo logo = {pixels, 64, 32, "A clinic"};
    laid.document->logo = &logo;
    make_heading(&laid.body, 1, "Title");
    laid_run(&laid);
    int figure = find_element(ELEMENT_FIGURE, 0);
    ck_assert_str_eq(element_at(figure)->alternative, "A clinic");
    /* 64 x 32 pixels are 48 x 24 pt, flush right, from the top of the text */
    ck_assert_double_eq_tol(element_at(figure)->right, 595.28 - 54, 0.006);
    ck_assert_double_eq_tol(element_at(figure)->left, 595.28 - 54 - 48, 0.006);
    ck_assert_double_eq_tol(element_at(figure)->top, 83.875, 0.006);
    ck_assert_double_eq_tol(element_at(figure)->bottom, 83.875 + 24, 0.011);
    ck_assert_int_lt(find_element(ELEMENT_H1, 0), figure);
}
END_TEST

/* Without a title, and beside one that fills pages, the logo stands above. */
START_TEST(puts_the_logo_above_what_has_no_room)
{
    static const uint8_t pixels[3 * 64 * 32];
    static const struct logo logo = {pixels, 64, 32, "A clinic"};
    laid.document->logo = &logo;
    make_paragraph(&laid.body, "text");
    laid_run(&laid);
    ck_assert_int_eq(find_element(ELEMENT_FIGURE, 0), 1);
    tear_down();
    set_up();
    laid.document->logo = &logo;
    make_heading(&laid.body, 1, make_repeated(&laid.arena, "word", 400));
    laid_run(&laid);
    ck_assert_int_eq(find_element(ELEMENT_FIGURE, 0), 1);
    ck_assert_int_eq(find_element(ELEMENT_H1, 0), 2);
    ck_assert_uint_eq(strlen(laid_all_text(&laid)), 400 * 4);
}
END_TEST

/* ---- running head and foot ---- */

START_TEST(repeats_head_and_foot_on_every_page)
{
    laid.document->draft_mark = "not signed";
    make_paragraph(&laid.body, laid_numbered(&laid, 'a', 1, 100));
    laid_run(&laid);
    ck_assert_uint_eq(laid.paged.page_count, 3);
    static const char *const texts[] = {"Pickle, kept by A. Keeper", "14 March 2026",
                                        "Elm Street Clinic, 555-0142", "not signed"};
    for (size_t page = 0; page < 3; page++) {
        const char *number = arena_format(&laid.arena, "page %zu of 3", page + 1);
        size_t found = 0;
        for (const struct op *op = laid.paged.pages[page].first; op != NULL; op = op->next) {
            /* who reads by ear hears first, and once, that it is a draft */
            if (op->kind == OP_TEXT && strcmp(op->text, "not signed") == 0)
                ck_assert_int_eq(op->element, page == 0 ? 1 : OPS_ARTIFACT);
            if (op->kind != OP_TEXT || op->element > 1)
                continue;
            ck_assert_double_ge(op->size_pt, 9);
            for (size_t i = 0; i < 4; i++)
                found += strcmp(op->text, texts[i]) == 0;
            found += strcmp(op->text, number) == 0;
        }
        ck_assert_uint_eq(found, 5);
    }
}
END_TEST

/* A long name takes two lines of the head and then an ellipsis; in the body it stays whole. */
START_TEST(shortens_long_names_in_the_head_alone)
{
    char name[401];
    memset(name, 'n', 400);
    name[400] = '\0';
    laid.document->head_left = name;
    laid.document->foot_left = name;
    make_paragraph(&laid.body, name);
    laid_run(&laid);
    ck_assert_str_eq(laid_all_text(&laid), name);
    size_t lines = 0, ellipses = 0;
    for (const struct op *op = laid.paged.pages[0].first; op != NULL; op = op->next) {
        if (op->kind == OP_TEXT && op->element < 0 && op->text[0] == 'n') {
            size_t length = strlen(op->text);
            lines++;
            ellipses += strcmp(op->text + length - 3, "\u2026") == 0;
        }
    }
    ck_assert_uint_eq(lines, 4);
    ck_assert_uint_eq(ellipses, 2);
}
END_TEST

/* Nothing at all gives one page with its number, and room for text above. */
START_TEST(lays_an_empty_document_out)
{
    laid.document->head_left = laid.document->head_right = NULL;
    laid.document->foot_left = NULL;
    laid_run(&laid);
    ck_assert_uint_eq(laid.paged.page_count, 1);
    ck_assert_uint_eq(laid.paged.element_count, 1);
    ck_assert_int_eq(laid.paged.elements[0].page, -1);
    ck_assert_uint_eq(laid_page_of(&laid, "page 1 of 1"), 1);
}
END_TEST

/* ---- text ---- */

START_TEST(limits_the_length_of_lines)
{
    make_paragraph(&laid.body, make_repeated(&laid.arena, "ten signs", 60));
    laid.document->look.margin_pt = 36;
    laid.document->blocks->as.paragraph.size = PARAGRAPH_SMALL;
    laid_run(&laid);
    size_t longest = 0;
    for (const struct op *op = laid.paged.pages[0].first; op != NULL; op = op->next) {
        if (op->kind == OP_TEXT && op->element >= 0) {
            size_t length = strlen(op->text);
            longest = length > longest ? length : longest;
        }
    }
    ck_assert_uint_ge(longest, 60);
    ck_assert_uint_le(longest, 75);
}
END_TEST

/* 72 characters fit: "alone" would stand on a line of its own. Lines of 96, 92, 88 and 84 in 100
 * of that leave 10, 10, 17 and 17 characters to the last one, 80 (57 characters) leave 22, the
 * first that are more than a quarter. A word that the writer put on its own line stays there. */
START_TEST(leaves_no_word_alone)
{
    const char *words = make_repeated(&laid.arena, "eleven char", 6); /* 71 characters */
    make_paragraph(&laid.body, arena_format(&laid.arena, "%s alone", words));
    make_paragraph(&laid.body, arena_format(&laid.arena, "%s\nwanted", words));
    laid_run(&laid);
    size_t page;
    const char *last = "char eleven char alone";
    ck_assert_double_eq_tol(laid_find(&laid, last, &page)->x, 54, 0.006);
    laid_find(&laid, words, &page);
    laid_find(&laid, "wanted", &page);
}
END_TEST

/* ---- what is refused ---- */

static const struct {
    const char *text, *code, *message;
} refused[] = {
    {"a\xF0\x9F\xA6\x8E"
     "b\xF0\x9F\xA6\x8E",
     "no-glyph", "the font has no character U+1F98E"},
    {"a\tb\tc", "control-character", "control character U+0009 in a text"},
    {"a\x7F", "control-character", "control character U+007F in a text"},
    {"a\xC2\x85", "control-character", "control character U+0085 in a text"},
    {"ab\xFF", "invalid-utf8", "byte 0xFF at offset 2 of a text is not valid UTF-8"},
    {"ab\xC3", "invalid-utf8", "byte 0xC3 at offset 2 of a text is not valid UTF-8"},
};

static void put_paragraph(const char *text)
{
    make_paragraph(&laid.body, text);
}

static void put_item(const char *text)
{
    struct list_item *item = make_item(&laid.body, make_list(&laid.body, LIST_BULLETS), "x");
    struct maker more = make_at(&laid.arena, &item->more);
    make_heading(&more, 3, text);
}

static void put_cell(const char *text)
{
    make_row(&laid.body, make_table(&laid.body, 1, NULL), text);
}

static void put_callout(const char *text)
{
    struct maker inside, sides[1];
    make_callout(&laid.body, CALLOUT_PLAIN, NULL, &inside);
    make_columns(&inside, 1, sides);
    make_callout(&sides[0], CALLOUT_PLAIN, text, &inside);
}

static void put_label(const char *text)
{
    struct block *picture = make_picture(&laid.body, 10, 10, "", NULL);
    make_shape(&laid.body, picture,
               (struct shape){.kind = SHAPE_LABEL, .text = text, .text_pt = 9});
}

static void put_caption(const char *text)
{
    make_picture(&laid.body, 10, 10, "", text);
}

static void put_head(const char *text)
{
    laid.document->head_left = text;
}

static void put_draft(const char *text)
{
    laid.document->draft_mark = text;
}

static void (*const places[])(const char *) = {put_paragraph, put_item,    put_cell, put_callout,
                                               put_label,     put_caption, put_head, put_draft};

enum { REFUSED = sizeof refused / sizeof refused[0], PLACES = sizeof places / sizeof places[0] };

START_TEST(refuses_what_cannot_be_drawn)
{
    int row = _i % REFUSED;
    places[_i / REFUSED](refused[row].text);
    struct paged untouched = {.page_count = 77};
    ck_assert(!make_pages(laid.document, &fixed_measure, &laid.arena, &laid.diag, &untouched));
    ck_assert_uint_eq(untouched.page_count, 77);
    ck_assert_uint_eq(laid.diag.counts[DIAG_ERROR], 1);
    ck_assert_str_eq(laid.diag.first->code, refused[row].code);
    ck_assert_str_eq(laid.diag.first->text, refused[row].message);
}
END_TEST

START_TEST(refuses_bad_bytes_where_nothing_is_drawn)
{
    make_picture(&laid.body, 10, 10, "bad \xFF", NULL);
    ck_assert(!make_pages(laid.document, &fixed_measure, &laid.arena, &laid.diag, &laid.paged));
    ck_assert_str_eq(laid.diag.first->code, "invalid-utf8");
}
END_TEST

/* 200 pages are allowed, 201 are not; a page break before each paragraph but the first. */
START_TEST(limits_the_number_of_pages)
{
    for (int i = 0; i < LAYOUT_PAGE_LIMIT; i++) {
        make_paragraph(&laid.body, "page");
        make_block(&laid.body, BLOCK_PAGE_BREAK);
    }
    laid_run(&laid);
    ck_assert_uint_eq(laid.paged.page_count, LAYOUT_PAGE_LIMIT);
    make_paragraph(&laid.body, "one more");
    ck_assert(!make_pages(laid.document, &fixed_measure, &laid.arena, &laid.diag, &laid.paged));
    ck_assert_str_eq(laid.diag.first->code, "too-many-pages");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("layout");
    TCase *tcase = tcase_create("layout");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, puts_sections_under_the_document);
    tcase_add_test(tcase, puts_sections_of_columns_under_the_document);
    tcase_add_test(tcase, names_the_parts_of_lists_and_tables);
    tcase_add_test(tcase, marks_languages_and_links);
    tcase_add_test(tcase, leaves_dead_links_plain);
    tcase_add_test(tcase, puts_the_logo_beside_the_title);
    tcase_add_test(tcase, puts_the_logo_above_what_has_no_room);
    tcase_add_test(tcase, repeats_head_and_foot_on_every_page);
    tcase_add_test(tcase, shortens_long_names_in_the_head_alone);
    tcase_add_test(tcase, lays_an_empty_document_out);
    tcase_add_test(tcase, limits_the_length_of_lines);
    tcase_add_test(tcase, leaves_no_word_alone);
    tcase_add_loop_test(tcase, refuses_what_cannot_be_drawn, 0, REFUSED * PLACES);
    tcase_add_test(tcase, refuses_bad_bytes_where_nothing_is_drawn);
    tcase_add_test(tcase, limits_the_number_of_pages);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
