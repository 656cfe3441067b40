/* Which instructions stand on the pages of a sheet, by their letters and figures alone: what was
 * said on the way to them may be parted, begin with a capital, or have got a meaning between two
 * sentences, and what is not all there was not printed. The source stands here with pages of the
 * suite's own. */
#include <string.h>

/* the suite's own, beside that of the program */
#define printed_instructions printed_here
#include "render/printed_instructions.h"

static bool lay_own(const struct sheet_inputs *in, struct arena *arena, struct diag *diag,
                    struct paged *out);
#define sheet_lay lay_own
#include "render/printed_instructions.c"

#include "common/arena_and_diag.h"
#include "common/suite.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

enum { PLACES = 3, SAID_MOST = 4, OPS_MOST = 4 };

static struct said_text said[SAID_MOST];
static size_t said_count;
static struct op ops[OPS_MOST];
static struct page pages[2];
static size_t page_count;
static bool can_lay;
static struct care_plan plan;
static struct declared_text texts[PLACES];
static const char *const codes[PLACES] = {"action.a", "action.b", "action.c"};
static struct sheet_options options;
static struct sheet_inputs inputs;

static bool lay_own(const struct sheet_inputs *in, struct arena *a, struct diag *d,
                    struct paged *out)
{
    (void)a;
    (void)d;
    for (size_t i = 0; i < said_count; i++) {
        said[i].next = in->options->said->last;
        in->options->said->last = &said[i];
    }
    *out = (struct paged){.pages = pages, .page_count = page_count};
    return can_lay;
}

static void set_up_pages(void)
{
    set_up();
    memset(said, 0, sizeof said);
    memset(ops, 0, sizeof ops);
    memset(pages, 0, sizeof pages);
    memset(&plan, 0, sizeof plan);
    said_count = 0;
    page_count = 1;
    can_lay = true;
    for (int i = 0; i < PLACES; i++)
        texts[i] = (struct declared_text){.code = codes[i], .printed = codes[i]};
    plan.texts = texts;
    plan.text_index = code_index_make(codes, PLACES, &arena);
    options = (struct sheet_options){0};
    inputs = (struct sheet_inputs){.plan = &plan, .options = &options};
}

static void again(void)
{
    tear_down();
    set_up_pages();
}

static void say(size_t place, const char *text)
{
    said[said_count++] = (struct said_text){.place = place, .text = text};
}

static void draw(int at, const char *text)
{
    ops[at] = (struct op){.kind = OP_TEXT, .text = text};
    if (at == 0)
        pages[0].first = &ops[at];
    else
        ops[at - 1].next = &ops[at];
}

/* The codes of those that stand there. */
static const char *printed(void)
{
    const struct instruction_plan *items;
    size_t count;
    const char *all = "";
    ck_assert(printed_here(&inputs, &arena, &diag, &items, &count));
    ck_assert_ptr_null(options.said); /* whoever asked has their own */
    for (size_t i = 0; i < count; i++)
        all = arena_format(&arena, "%s%s%s", all, i ? " " : "", items[i].code + strlen("action."));
    return all;
}

static const struct {
    const char *said, *drawn;
    bool stands;
} rows[] = {
    {"Feed it less.", "Feed it less.", true},
    {"Feed it less.", "To do: feed it less and weigh it", true},
    {"Feed it less.", "Feed it less", true},
    {"Feed it less.", "Feed it les", false},
    {"feed it less", "Feed it less", true}, /* a first letter may have become large */
    {"feed it less", "need it less", true}, /* and is not looked at */
    {"feed it less", "fed it less", false},
    {"FEED IT LESS", "feed it less", true},
    {"Feed it less. Weigh it.", "Feed it less (half a meal). Weigh it", true},
    {"Feed it less. Weigh it.", "Feed it less.", false},
    {"Feed it less! Weigh it?", "Weigh it. Feed it less.", true},
    {"Now: weigh it", "weigh it now", true},
    {"Give 10 ml.", "Give 1 ml", false},
    {"Give 19 ml.", "Give 1 ml", false},
    {"Give 10 ml.", "Give 10 ml", true},
    {"Give 10\xc2\xa0ml.", "Give 10 ml", true}, /* a hard blank is one */
    {"Give 10 ml.", "Give 10\xc2\xa0ml", true},
    {"no a z", "no z", false},
    {"no a z", "no a", false},
    {"no A Z", "no Z", false},
    {"no A Z", "no A", false},
    {"no A Z", "no az", true},
    {"a/b@c[d`e{f", "abcdef", true}, /* marks are none, whatever stands beside the letters */
    {"x\xc3\x80", "x\xc3\x83", false},
    {"x\xc3\x80", "x\xc3\x80", true},
    {"\xc3\x89t\xc3\xa9", "\xc3\xa9t\xc3\xa9", true}, /* a first letter of two bytes */
    {"\xc3\x89t\xc3\xa9", "\xc3\xa9t", false},
    {"...", "anything", false}, /* nothing was said */
    {"", "anything", false},
    {"--- .", "anything", false},
    {"a", "b", true}, /* one letter alone is its first */
};

START_TEST(letters_and_figures_alone_count)
{
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        say(1, rows[i].said);
        draw(0, rows[i].drawn);
        ck_assert_msg((strcmp(printed(), "b") == 0) == rows[i].stands, "row %d: %s", i,
                      rows[i].said);
    }
}
END_TEST

/* On any of the pages, over any of their lines; what runs along at head and foot is not read. */
START_TEST(all_that_is_drawn_is_read)
{
    say(0, "Feed it less.");
    draw(0, "Feed it");
    draw(1, "less");
    ck_assert_str_eq(printed(), "a");
    ops[1].element = OPS_ARTIFACT;
    said_count = 0;
    say(0, "Feed it less.");
    ck_assert_str_eq(printed(), "");
    ops[1].element = 0;
    ops[1].kind = OP_LINE;
    said_count = 0;
    say(0, "Feed it less.");
    ck_assert_str_eq(printed(), "");
    ops[1].kind = OP_TEXT;
    ops[0].next = NULL;
    pages[1].first = &ops[1];
    said_count = 0;
    say(0, "Feed it less.");
    ck_assert_str_eq(printed(), "");
    page_count = 2;
    said_count = 0;
    say(0, "Feed it less.");
    ck_assert_str_eq(printed(), "a");
}
END_TEST

/* In the order of the catalogue, each once; one of the ways in which it was said is enough. */
START_TEST(each_that_stands_is_listed_once)
{
    say(2, "Weigh it.");
    say(0, "Feed it less.");
    say(0, "Feed it never.");
    say(1, "Bathe it.");
    draw(0, "Weigh it, feed it less.");
    ck_assert_str_eq(printed(), "a c");
    again();
    say(0, "Feed it never.");
    say(0, "Feed it less.");
    draw(0, "Feed it less.");
    ck_assert_str_eq(printed(), "a");
}
END_TEST

START_TEST(a_sheet_that_cannot_be_laid_prints_none)
{
    const struct instruction_plan *items;
    size_t count;
    can_lay = false;
    ck_assert(!printed_here(&inputs, &arena, &diag, &items, &count));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("printed_instructions");
    TCase *tcase = tcase_create("printed_instructions");
    tcase_add_checked_fixture(tcase, set_up_pages, tear_down);
    tcase_add_test(tcase, letters_and_figures_alone_count);
    tcase_add_test(tcase, all_that_is_drawn_is_read);
    tcase_add_test(tcase, each_that_stands_is_listed_once);
    tcase_add_test(tcase, a_sheet_that_cannot_be_laid_prints_none);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
