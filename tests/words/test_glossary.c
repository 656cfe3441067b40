/* A word that an owner may not know is explained once, where it first stands, in the order of
 * reading. The words and what they mean are invented. */
#include <string.h>

#include "common/arena_and_diag.h"
#include "common/suite.h"
#include "document/block_builder.h"
#include "document/panel.h"
#include "words/glossary.h"
#include "words/slots.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

static struct phrase_context ctx;
static struct care_plan plan;
static struct language language;

static const char words_text[] = "term.gravid.word: [gravid, \"with eggs\"]\n"
                                 "term.gravid.means: \"G is this.\"\n"
                                 "term.shed.word: shed\n"
                                 "term.shed.means: \"S is that.\"\n"
                                 "term.vent.word: vent\n"
                                 "term.vent.means: \"V is there.\"\n";

static void set_up_words(void)
{
    set_up();
    memset(&plan, 0, sizeof plan);
    memset(&language, 0, sizeof language);
    struct node *tree = tree_read_bytes(
        "words.yaml", (struct bytes){words_text, strlen(words_text)}, &arena, &diag);
    const struct wording_source source = {"words", "en", &language};
    const struct wording *words = catalogue_read_trees(&source, &tree, 1, &arena, &diag);
    ck_assert_ptr_nonnull(words);
    ctx = slots_context((struct format){.words = words, .arena = &arena, .diag = &diag}, &plan);
}

/* The stretches of a text, with a stroke between them. */
static const char *stretches(const struct span *span)
{
    struct strbuf out;
    strbuf_init(&out, &arena);
    for (; span; span = span->next)
        strbuf_addf(&out, "%s%s", span->text, span->next ? "|" : "");
    return out.text;
}

static struct span *spans(const char *a, const char *b)
{
    struct span *first = span_plain(&arena, a);
    if (b)
        first->next = span_plain(&arena, b);
    return first;
}

static struct block paragraph(const char *a, const char *b)
{
    struct block block = {.kind = BLOCK_PARAGRAPH};
    block.as.paragraph.text = spans(a, b);
    return block;
}

static const char *explained(const char *a, const char *b)
{
    struct block block = paragraph(a, b);
    glossary_explain(&ctx, &block, false);
    return stretches(block.as.paragraph.text);
}

/* ---- the word
 * ------------------------------------------------------------------------------------- */

/* A sentence of another hand gets the stop that it lacks, and no second one. */
START_TEST(another_hands_sentence_ends)
{
    static const char *const rows[][2] = {{"not eyes or nose", "not eyes or nose."},
                                          {"Lavar bien.", "Lavar bien."},
                                          {"Once more!", "Once more!"},
                                          {"Sure?", "Sure?"},
                                          {"(in the corner.)", "(in the corner.)"},
                                          {"(in the corner)", "(in the corner)."},
                                          {"He said \"no.\"", "He said \"no.\""},
                                          {"and so on\xe2\x80\xa6", "and so on\xe2\x80\xa6"},
                                          {"0.3 ml", "0.3 ml."},
                                          {"", ""},
                                          {")", ")"}};
    struct arena own;
    arena_init(&own);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        ck_assert_str_eq(text_ended(&own, rows[i][0]), rows[i][1]);
    arena_finish(&own);
}
END_TEST

START_TEST(a_word_is_explained_where_it_stands_whole)
{
    static const struct {
        const char *text, *said;
    } rows[] = {
        {"She is gravid.", "She is gravid.| G is this."},
        {"Gravid females",
         "Gravid females|. G is this."}, /* what stands before becomes a sentence */
        {"gravid", "gravid|. G is this."},
        {"She is with eggs!", "She is with eggs!| G is this."}, /* its other form */
        {"Is it gravid?", "Is it gravid?| G is this."},
        {"ungravid", "ungravid"},
        {"gravidity", "gravidity"},
        {"gravid2", "gravid2"},
        {"GRAVID", "GRAVID"},
        {"gravi", "gravi"},
        {"a gravi gravid", "a gravi gravid|. G is this."},
        {"ungravid, not gravid", "ungravid, not gravid|. G is this."},
        {"non-gravid", "non-gravid|. G is this."},
        {"\xc3\xa9gravid", "\xc3\xa9gravid"},                /* behind a letter */
        {"gravid\xc3\xa9", "gravid\xc3\xa9"},                /* before one */
        {"2\xc2\xa0gravid", "2\xc2\xa0gravid|. G is this."}, /* behind a hard blank */
        {"\xc2\xa0gravid", "\xc2\xa0gravid|. G is this."},
        {"nothing of it", "nothing of it"},
        {"A shed of a gravid one.", "A shed of a gravid one.| S is that.| G is this."},
    };
    for (int i = 0; i < COUNT(rows); i++) {
        const char *said = explained(rows[i].text, NULL);
        ck_assert_msg(strcmp(said, rows[i].said) == 0, "%s", said);
    }
}
END_TEST

/* Behind the stretch that has it; what is the label of something stays beside that. */
START_TEST(the_meaning_stands_behind_its_stretch)
{
    ck_assert_str_eq(explained("She is gravid.", " Keep her warm."),
                     "She is gravid.| G is this.| Keep her warm.");
    ck_assert_str_eq(explained("Keep her warm.", " She is gravid"),
                     "Keep her warm.| She is gravid|. G is this.");
    ck_assert_str_eq(explained("Gravid:", " keep her warm"), "Gravid:| keep her warm|. G is this.");
    ck_assert_str_eq(explained("Gravid:", NULL), "Gravid:| G is this.");
}
END_TEST

START_TEST(a_word_is_explained_once)
{
    struct block blocks[] = {paragraph("A shed.", NULL), paragraph("A shed, gravid.", NULL),
                             paragraph("A shed, gravid, vent.", NULL)};
    blocks[0].next = &blocks[1];
    blocks[1].next = &blocks[2];
    glossary_explain(&ctx, blocks, false);
    ck_assert_str_eq(stretches(blocks[0].as.paragraph.text), "A shed.| S is that.");
    ck_assert_str_eq(stretches(blocks[1].as.paragraph.text), "A shed, gravid.| G is this.");
    ck_assert_str_eq(stretches(blocks[2].as.paragraph.text), "A shed, gravid, vent.| V is there.");
}
END_TEST

/* ---- where it may stand
 * --------------------------------------------------------------------------- */

START_TEST(headings_are_passed_over)
{
    struct block heading = {.kind = BLOCK_HEADING}, text = paragraph("Her shed.", NULL);
    heading.as.heading.text = spans("Shed", NULL);
    heading.next = &text;
    glossary_explain(&ctx, &heading, false);
    ck_assert_str_eq(stretches(heading.as.heading.text), "Shed");
    ck_assert_str_eq(stretches(text.as.paragraph.text), "Her shed.| S is that.");
}
END_TEST

START_TEST(items_of_a_list_and_what_is_in_them)
{
    struct block more = paragraph("The vent.", NULL), block = {.kind = BLOCK_LIST};
    struct list_item second = {.text = spans("Gravid.", NULL)},
                     first = {.text = spans("A shed.", NULL), .more = &more, .next = &second};
    block.as.list.items = &first;
    glossary_explain(&ctx, &block, false);
    ck_assert_str_eq(stretches(first.text), "A shed.| S is that.");
    ck_assert_str_eq(stretches(more.as.paragraph.text), "The vent.| V is there.");
    ck_assert_str_eq(stretches(second.text), "Gravid.| G is this.");
}
END_TEST

/* A row's head is a name: what it means stands in the cell beside it. */
START_TEST(a_rows_head_is_explained_beside_it)
{
    struct table_cell third = {.text = spans("The vent.", NULL)},
                      second = {.text = spans("Look", NULL), .next = &third},
                      first = {.text = spans("Shed", NULL), .is_row_head = true, .next = &second};
    struct table_row row = {.cells = &first};
    struct block block = {.kind = BLOCK_TABLE};
    block.as.table.rows = &row;
    glossary_explain(&ctx, &block, false);
    ck_assert_str_eq(stretches(first.text), "Shed");
    ck_assert_str_eq(stretches(second.text), "Look|. S is that.");
    ck_assert_str_eq(stretches(third.text), "The vent.| V is there.");
}
END_TEST

START_TEST(an_empty_cell_takes_the_meaning_alone)
{
    struct table_cell second = {0},
                      first = {.text = spans("Shed", NULL), .is_row_head = true, .next = &second};
    struct table_row row = {.cells = &first}, last = {0};
    struct block block = {.kind = BLOCK_TABLE};
    struct table_cell alone = {.text = spans("Vent", NULL), .is_row_head = true};
    last.cells = &alone;
    row.next = &last;
    block.as.table.rows = &row;
    glossary_explain(&ctx, &block, false);
    ck_assert_str_eq(stretches(second.text), "S is that.");
    ck_assert_str_eq(stretches(alone.text), "Vent|. V is there."); /* nothing stands beside it */
}
END_TEST

START_TEST(callouts_columns_and_captions)
{
    struct block inner = paragraph("A shed.", NULL), left = paragraph("Gravid.", NULL),
                 right = paragraph("A shed.", NULL), callout = {.kind = BLOCK_CALLOUT},
                 columns = {.kind = BLOCK_COLUMNS}, picture = {.kind = BLOCK_PICTURE};
    struct column second = {.blocks = &right}, first = {.blocks = &left, .next = &second};
    callout.as.callout.blocks = &inner;
    callout.next = &columns;
    columns.as.columns.columns = &first;
    columns.next = &picture;
    picture.as.picture.caption = spans("The vent", NULL);
    glossary_explain(&ctx, &callout, false);
    ck_assert_str_eq(stretches(inner.as.paragraph.text), "A shed.| S is that.");
    ck_assert_str_eq(stretches(left.as.paragraph.text), "Gravid.| G is this.");
    ck_assert_str_eq(stretches(right.as.paragraph.text), "A shed.");
    ck_assert_str_eq(stretches(picture.as.picture.caption), "The vent|. V is there.");
}
END_TEST

/* ---- panels
 * -------------------------------------------------------------------------------------- */

static struct panel panel_of(const char *title, const char *hidden)
{
    return (struct panel){.title = title, .photo_alternative = hidden};
}

static struct block block_of(const struct panel *panel)
{
    struct block block = {.kind = BLOCK_PANEL};
    block.as.panel = panel;
    return block;
}

/* In the order of the words, whatever stands where; what is not drawn is not read. */
START_TEST(words_of_panels_are_told_together)
{
    const struct panel gravid = panel_of("Gravid", "the vent"), shed = panel_of("Her shed", NULL);
    struct block foot = block_of(&shed), top = block_of(&gravid), page = {.kind = BLOCK_PAGE},
                 last = {.kind = BLOCK_PAGE}, inner = block_of(&gravid),
                 columns = {.kind = BLOCK_COLUMNS};
    struct column second = {.blocks = &inner}, first = {.next = &second};
    ck_assert_ptr_null(glossary_of_panels(&ctx, &page));
    page.as.page.blocks = &top;
    ck_assert_str_eq(glossary_of_panels(&ctx, &page), "G is this.");
    page.as.page.foot = &foot;
    ck_assert_str_eq(glossary_of_panels(&ctx, &page), "G is this. S is that.");
    ck_assert_str_eq(glossary_of_panels(&ctx, &foot), "S is that.");
    columns.as.columns.columns = &first;
    last.as.page.blocks = &columns;
    page.as.page.blocks = NULL;
    page.next = &last;
    ck_assert_str_eq(glossary_of_panels(&ctx, &page), "G is this. S is that.");
}
END_TEST

/* Where the panels' words are told, running text does not tell them again. */
START_TEST(words_of_panels_are_passed_over)
{
    const struct panel both = panel_of("Gravid, her vent", NULL);
    for (int told = 0; told < 2; told++) {
        struct block panel = block_of(&both), text = paragraph("Gravid, a vent, a shed.", NULL);
        panel.next = &text;
        glossary_explain(&ctx, &panel, told);
        ck_assert_str_eq(stretches(text.as.paragraph.text),
                         told ? "Gravid, a vent, a shed.| S is that."
                              : "Gravid, a vent, a shed.| V is there.| S is that.| G is this.");
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("glossary");
    TCase *tcase = tcase_create("glossary");
    tcase_add_checked_fixture(tcase, set_up_words, tear_down);
    tcase_add_test(tcase, another_hands_sentence_ends);
    tcase_add_test(tcase, a_word_is_explained_where_it_stands_whole);
    tcase_add_test(tcase, the_meaning_stands_behind_its_stretch);
    tcase_add_test(tcase, a_word_is_explained_once);
    tcase_add_test(tcase, headings_are_passed_over);
    tcase_add_test(tcase, items_of_a_list_and_what_is_in_them);
    tcase_add_test(tcase, a_rows_head_is_explained_beside_it);
    tcase_add_test(tcase, an_empty_cell_takes_the_meaning_alone);
    tcase_add_test(tcase, callouts_columns_and_captions);
    tcase_add_test(tcase, words_of_panels_are_told_together);
    tcase_add_test(tcase, words_of_panels_are_passed_over);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
