/* Line breaking, with lines counted by hand: every character is 5 pt wide. The rules named are
 * those of Unicode Standard Annex 14. */
#include <string.h>

#include "common/suite.h"
#include "page/fixed_measure.h"
#include "layout/lines.h"
#include "layout/measured_text.h"
#include "base/strbuf.h"

enum { CHARACTER_PT = 5 };

static const struct row {
    const char *rule, *text;
    int width;         /* characters */
    const char *lines; /* set apart by '|' */
} rows[] = {
    {"exact fit, a space at the end takes no room", "one two three", 7, "one two|three"},
    {"one character less", "one two three", 6, "one|two|three"},
    {"spaces at the end of the text", "one two   ", 7, "one two"},
    {"LB7 no break before spaces, LB18 after them", "a   b", 2, "a|b"},
    {"spaces inside a line stay", "a  b c", 4, "a  b|c"},
    {"LB5 line feed", "one\ntwo", 40, "one|two"},
    {"LB5 empty line", "one\n\ntwo", 40, "one||two"},
    {"line feed at the end", "one\n", 40, "one"},
    {"LB12 no-break space", "is 12\u00A0\u00B0C", 5, "is|12\u00A0\u00B0C"},
    {"LB12 narrow no-break space", "is 12\u202F%", 5, "is|12\u202F%"},
    {"LB13 no break before closing punctuation", "a (see b) c!", 4, "a|(see|b)|c!"},
    {"LB21 break behind a hyphen", "well-known fact", 6, "well-|known|fact"},
    {"LB21 break behind an en dash", "ab\u2013cd more", 4, "ab\u2013|cd|more"},
    {"LB25 no break inside a number", "call 555-0142 now", 9, "call|555-0142|now"},
    {"LB13 and 29 break behind a slash", "and/or not", 5, "and/|or|not"},
    {"no break inside a rate", "syrup 100 mg/ml once", 10, "syrup|100 mg/ml|once"},
    {"nor one with a no-break space", "syrup 100\u00A0mg/ml once", 10, "syrup|100\u00A0mg/ml|once"},
    {"a break behind a slash of words", "water/shelter ab", 9, "water/|shelter|ab"},
    {"no break inside a band", "aim for 30\u201332 C", 11, "aim for|30\u201332 C"},
    {"LB11 word joiner", "on a\u2060b", 4, "on|a\u2060b"},
    {"over-long word", "abcdefghij", 4, "abcd|efgh|ij"},
    {"over-long word begins on a line of its own", "xy abcdefgh z", 4, "xy|abcd|efgh|z"},
    {"what follows an over-long word stands behind its rest", "abcdefg z", 5, "abcde|fg z"},
    {"no break before a combining mark", "aaae\u0301e\u0301", 4, "aaa|e\u0301e\u0301"},
    {"no break inside characters of two and three bytes", "\u00E9\u00E9\u2013\u00E9\u00E9", 2,
     "\u00E9\u00E9|\u2013|\u00E9\u00E9"},
    {"no break beside a word joiner even in need", "ab\u2060cd", 3, "a|b\u2060c|d"},
    {"narrower than any character", "abc", 0, "a|b|c"},
    {"no text", "", 10, ""},
};

static struct text_lines run(const struct span *spans, int width, size_t limit, struct arena *arena)
{
    struct lines_job job = {.spans = spans,
                            .lang = "en",
                            .size_pt = 2 * CHARACTER_PT,
                            .width_pt = width * CHARACTER_PT,
                            .character_limit = limit};
    struct text_store *store = ARENA_NEW(arena, struct text_store);
    text_store_init(store, &fixed_measure, arena);
    return lines_break(&job, store);
}

/* '|' between lines, and where asked for '+' between pieces. */
static const char *join(const struct text_lines *lines, const char *between, struct arena *arena)
{
    struct strbuf text;
    strbuf_init(&text, arena);
    for (size_t i = 0; i < lines->count; i++) {
        strbuf_add(&text, i > 0 ? "|" : "");
        for (const struct line_piece *p = lines->items[i].first; p != NULL; p = p->next) {
            strbuf_add(&text, p->text);
            strbuf_add(&text, p->next != NULL ? between : "");
        }
    }
    return text.text;
}

START_TEST(breaks_where_counted)
{
    const struct row *row = &rows[_i];
    struct arena arena;
    arena_init(&arena);
    struct span span = {.text = row->text};
    struct text_lines lines = run(&span, row->width, 0, &arena);
    const char *got = join(&lines, "", &arena);
    ck_assert_msg(strcmp(got, row->lines) == 0, "%s: \"%s\", not \"%s\"", row->rule, got,
                  row->lines);
    arena_finish(&arena);
}
END_TEST

/* A word is one word, whatever styles it has. */
START_TEST(breaks_across_spans)
{
    struct arena arena;
    arena_init(&arena);
    struct span third = {.text = "ld ", .style = TEXT_PLAIN};
    struct span second = {.text = "lo wor", .style = TEXT_STRONG, .next = &third};
    struct span first = {.text = "Hel", .next = &second};
    struct text_lines lines = run(&first, 6, 0, &arena);
    ck_assert_str_eq(join(&lines, "+", &arena), "Hel+lo|wor+ld");
    const struct line_piece *piece = lines.items[0].first->next;
    ck_assert_int_eq(piece->style, TEXT_STRONG);
    ck_assert_uint_eq(piece->span, 1);
    ck_assert_double_eq(piece->x, 3 * CHARACTER_PT);
    ck_assert_double_eq(piece->width_pt, 2 * CHARACTER_PT);
    ck_assert_double_eq(lines.items[0].width_pt, 5 * CHARACTER_PT);
    ck_assert_double_eq(lines_width_pt(&lines), 5 * CHARACTER_PT);
    arena_finish(&arena);
}
END_TEST

START_TEST(keeps_the_limit_of_characters)
{
    struct arena arena;
    arena_init(&arena);
    struct span span = {.text = "one two three four"};
    struct text_lines lines = run(&span, 1000, 8, &arena);
    ck_assert_str_eq(join(&lines, "", &arena), "one two|three|four");
    span.text = "abcdefghij";
    lines = run(&span, 1000, 8, &arena);
    ck_assert_str_eq(join(&lines, "", &arena), "abcdefgh|ij");
    arena_finish(&arena);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("lines");
    TCase *tcase = tcase_create("lines");
    tcase_add_loop_test(tcase, breaks_where_counted, 0, sizeof rows / sizeof rows[0]);
    tcase_add_test(tcase, breaks_across_spans);
    tcase_add_test(tcase, keeps_the_limit_of_characters);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
