/* Unlikely sheets, each on both papers, with the fixed measure and with the embedded fonts:
 * every operation inside the margins, no two texts over each other, marks in the order of the
 * structure, and every letter of the source on the pages, in its order. */
#include <stdlib.h>
#include <string.h>

#include "common/suite.h"
#include "page/boxes.h"
#include "page/every_block.h"
#include "page/fixed_measure.h"
#include "page/laid.h"
#include "layout/layout.h"
#include "pdf/pdf.h"
#include "base/strbuf.h"

enum { NAME_LETTERS = 400 };

/* "Abcabcabc...", without a place to break. */
static const char *long_name(struct maker *maker)
{
    char *name = arena_take(maker->arena, NAME_LETTERS + 1);
    for (int i = 0; i < NAME_LETTERS; i++)
        name[i] = (char)("abcdefghijklmnopqrstuvwxyz"[i % 26]);
    name[0] = 'A';
    return name;
}

static void add_nothing(struct maker *maker)
{
    (void)maker;
}

static void add_one_word(struct maker *maker)
{
    make_paragraph(maker, "Word");
}

static void add_long_names(struct maker *maker)
{
    const char *name = long_name(maker);
    make_heading(maker, 1, name);
    make_heading(maker, 2, name);
    make_paragraph(maker, name);
    make_item(maker, make_list(maker, LIST_TICK_BOXES), name);
    struct block *table = make_table(maker, 6, "a|b|c|d|e|f");
    make_row(maker, table, arena_format(maker->arena, "%s|x|%s|x|x|%s", name, name, name));
    table->as.table.caption = make_span(maker->arena, name);
    struct maker inside, sides[3];
    make_callout(maker, CALLOUT_NOW, name, &inside);
    make_columns(&inside, 3, sides);
    make_paragraph(&sides[0], name);
    make_item(&sides[1], make_list(&sides[1], LIST_BULLETS), name);
    make_heading(&sides[2], 3, name);
    make_picture(maker, 50, 50, name, name);
}

static void add_long_list(struct maker *maker)
{
    struct block *list = make_list(maker, LIST_NUMBERS);
    for (int i = 1; i <= 60; i++)
        make_item(maker, list, make_repeated(maker->arena, "finding", 1 + i % 30));
    list->keep_together = true;
}

static void add_deep_list(struct maker *maker)
{
    struct maker at = *maker;
    for (int depth = 0; depth < 12; depth++) {
        struct block *list = make_list(&at, (enum list_marks)(depth % 3));
        make_item(&at, list, make_repeated(maker->arena, "deeper", 8));
        struct list_item *item = make_item(&at, list, NULL);
        at = make_at(maker->arena, &item->more);
    }
    make_paragraph(&at, long_name(maker));
}

static void add_deep_callouts(struct maker *maker)
{
    struct maker at = *maker;
    for (int depth = 0; depth < CALLOUT_CUT_OUT + 1; depth++) {
        struct maker inside;
        make_callout(&at, (enum callout_tone)depth, depth % 2 ? NULL : "Title", &inside);
        at = inside;
    }
    for (int i = 0; i < 40; i++)
        make_paragraph(&at, make_repeated(maker->arena, "words in a frame", 12));
    make_picture(&at, 2000, 3000, "", "too large");
    struct block *table = make_table(&at, 3, "Head|of a|table");
    for (int i = 0; i < 50; i++)
        make_row(&at, table, "some|more|cells");
}

static void add_high_rows(struct maker *maker)
{
    struct maker inside;
    make_callout(maker, CALLOUT_KEY, "Title", &inside);
    struct block *table = make_table(&inside, 2, "One|Other");
    for (int i = 0; i < 3; i++) {
        make_row(&inside, table,
                 arena_format(maker->arena, "%s|%s",
                              make_repeated(maker->arena, "left side", 150 * (i + 1)),
                              make_repeated(maker->arena, "right", 400)));
    }
}

/* A head that is higher than half a page, and one that fills several. */
static void add_high_head(struct maker *maker)
{
    for (int i = 1; i <= 2; i++) {
        struct block *table =
            make_table(maker, 1, make_repeated(maker->arena, "a long head", 250 * i));
        for (int k = 0; k < 30; k++)
            make_row(maker, table, "row");
    }
}

static void add_uneven_columns(struct maker *maker)
{
    for (int i = 0; i < 8; i++) {
        struct maker sides[2];
        make_columns(maker, 2, sides);
        make_heading(&sides[0], 2, "A section");
        for (int k = 0; k < 4 * i; k++)
            make_paragraph(&sides[k % 3 == 0], make_repeated(maker->arena, "column text", 20));
    }
}

/* What is poured is parted anywhere: in a table, a callout, a list, between pictures. */
static void add_poured_columns(struct maker *maker)
{
    for (size_t count = 2; count <= 5; count++) {
        struct maker all, inside;
        make_poured(maker, count, &all);
        make_heading(&all, 2, "A section");
        add_long_list(&all);
        struct block *table = make_table(&all, 2, "One|Other");
        for (int i = 0; i < 40; i++)
            make_row(&all, table, "a left cell|a right cell with some more words");
        make_callout(&all, CALLOUT_KEY, "Title", &inside);
        add_long_list(&inside);
        make_poured(&inside, count, &inside);
        make_paragraph(&inside, make_repeated(maker->arena, "framed", 200));
        make_picture(&all, 200, 300, "a picture", "its caption");
        make_paragraph(maker, "What follows.");
    }
}

static void add_pictures(struct maker *maker)
{
    static const double sizes[][2] = {{2000, 10}, {10, 3000}, {5000, 5000}, {1, 1}, {480, 700}};
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        double width = sizes[i][0], height = sizes[i][1];
        const struct point ends[] = {{0, 0}, {width, height}};
        struct block *picture = make_picture(
            maker, width, height, "", make_repeated(maker->arena, "a caption", i == 2 ? 900 : 12));
        make_shape(maker, picture,
                   (struct shape){.kind = SHAPE_RECT,
                                  .width = width,
                                  .height = height,
                                  .stroke_pt = 3,
                                  .fill = FILL_CROSS,
                                  .fill_ink = INK_MUTED});
        make_shape(maker, picture,
                   (struct shape){.kind = SHAPE_CIRCLE,
                                  .x = width,
                                  .width = width / 8,
                                  .stroke_pt = 1,
                                  .fill = FILL_DOTS});
        make_shape(maker, picture,
                   (struct shape){.kind = SHAPE_DIMENSION,
                                  .points = ends,
                                  .count = 2,
                                  .stroke_pt = 0.5,
                                  .text = "across",
                                  .text_pt = 12});
        make_shape(maker, picture,
                   (struct shape){.kind = SHAPE_LABEL,
                                  .x = width,
                                  .y = height + 20,
                                  .text = "a label that is long for its picture",
                                  .text_pt = 9,
                                  .anchor = (enum anchor)(i % 3)});
    }
    struct block *picture = make_picture(maker, 100, 100, "", NULL);
    make_shape(maker, picture,
               (struct shape){.kind = SHAPE_LABEL,
                              .x = 20,
                              .y = 20,
                              .width = 60,
                              .text = long_name(maker),
                              .text_pt = 9});
}

static void add_headings_alone(struct maker *maker)
{
    for (int i = 0; i < 90; i++)
        make_heading(maker, 1 + i % 3, "A heading without any text");
}

static void add_long_text(struct maker *maker)
{
    struct block *block = make_paragraph(maker, "Begin ");
    struct span *spans = block->as.paragraph.text;
    for (int i = 0; i < 300; i++) {
        spans = make_more(maker->arena, spans, "some words in one style and ",
                          (enum text_style)(i % 2));
        if (i % 7 == 0)
            spans->uri = "https://example.org/";
        if (i % 11 == 0)
            spans->lang = "es";
    }
}

static void add_accents(struct maker *maker)
{
    make_paragraph(maker, make_repeated(maker->arena,
                                        "\u00C1\u00C9\u00CD\u00D3\u00DA\u00DC\u00D1 "
                                        "\u00E1\u00E9\u00ED\u00F3\u00FA\u00FC\u00F1 "
                                        "\u00BF\u00A1\u00AB\u00BB\u201C\u201D\u2018\u2019 "
                                        "34\u00A0\u00B0C 5\u00A0\u00B5g \u2264\u2265 \u2013\u2014",
                                        30));
}

static const struct sheet {
    const char *name;
    void (*add)(struct maker *maker);
    bool by_page; /* its rows go on page by page, not cell by cell */
} sheets[] = {
    {"nothing", add_nothing, false},
    {"one word", add_one_word, false},
    {"names of 400 letters", add_long_names, false},
    {"60 items", add_long_list, false},
    {"lists 12 deep", add_deep_list, false},
    {"callouts in callouts", add_deep_callouts, false},
    {"rows higher than a page", add_high_rows, true},
    {"heads higher than a page", add_high_head, false},
    {"columns of all lengths", add_uneven_columns, true},
    {"poured columns", add_poured_columns, false},
    {"pictures of all sizes", add_pictures, false},
    {"headings alone", add_headings_alone, false},
    {"a paragraph of pages", add_long_text, false},
    {"accents of both languages", add_accents, false},
};

enum { SHEETS = sizeof sheets / sizeof sheets[0], PAPERS = 2, MEASURES = 2 };

/* ---- what should stand on the pages ---- */

static void add_letters(struct strbuf *out, const char *text)
{
    for (; text != NULL && *text != '\0'; text++)
        if (*text != ' ' && *text != '\n')
            strbuf_add_char(out, *text);
}

static void add_spans(struct strbuf *out, const struct span *spans)
{
    for (; spans != NULL; spans = spans->next)
        add_letters(out, spans->text);
}

static void add_rows(struct strbuf *out, const struct table_row *rows)
{
    for (; rows != NULL; rows = rows->next)
        for (const struct table_cell *cell = rows->cells; cell != NULL; cell = cell->next)
            add_spans(out, cell->text);
}

static void add_drawn(void *context, const char *text, bool is_drawn)
{
    if (is_drawn)
        add_letters(context, text);
}

static void add_blocks(struct strbuf *out, const struct block *block)
{
    for (; block != NULL; block = block->next) {
        switch (block->kind) {
        case BLOCK_HEADING:
            add_spans(out, block->as.heading.text);
            break;
        case BLOCK_PARAGRAPH:
            add_spans(out, block->as.paragraph.text);
            break;
        case BLOCK_LIST:
            for (const struct list_item *i = block->as.list.items; i != NULL; i = i->next) {
                add_spans(out, i->text);
                add_blocks(out, i->more);
            }
            break;
        case BLOCK_TABLE:
            add_spans(out, block->as.table.caption);
            add_rows(out, block->as.table.head);
            add_rows(out, block->as.table.rows);
            break;
        case BLOCK_CALLOUT:
            add_spans(out, block->as.callout.title);
            add_blocks(out, block->as.callout.blocks);
            break;
        case BLOCK_PICTURE:
            for (const struct shape *s = block->as.picture.scene->first; s; s = s->next)
                add_letters(out, s->text);
            add_spans(out, block->as.picture.caption);
            break;
        case BLOCK_COLUMNS:
            for (const struct column *c = block->as.columns.columns; c != NULL; c = c->next)
                add_blocks(out, c->blocks);
            break;
        case BLOCK_PANEL:
            panel_each_text(block->as.panel, add_drawn, out);
            break;
        case BLOCK_PAGE:
            add_blocks(out, block->as.page.blocks);
            add_blocks(out, block->as.page.foot);
            break;
        case BLOCK_PAGE_BREAK:
            break;
        }
    }
}

/* The notice of a draft is the first paragraph of the tree and no text of the blocks. */
static bool is_draft_mark(const struct paged *paged, const struct op *op)
{
    return paged->document->draft_mark != NULL && op->element == 1;
}

/* The letters on the pages, but for numbers and bullets of lists. */
static void add_pages(struct strbuf *out, const struct paged *paged)
{
    for (size_t page = 0; page < paged->page_count; page++) {
        for (const struct op *op = paged->pages[page].first; op != NULL; op = op->next)
            if (op->kind == OP_TEXT && op->element >= 0 && !is_draft_mark(paged, op) &&
                paged->elements[op->element].type != ELEMENT_LBL)
                add_letters(out, op->text);
    }
}

static int compare_bytes(const void *a, const void *b)
{
    return *(const unsigned char *)a - *(const unsigned char *)b;
}

static void check_text(struct laid *laid, const struct sheet *sheet)
{
    struct strbuf wanted, got;
    strbuf_init(&wanted, &laid->arena);
    strbuf_init(&got, &laid->arena);
    add_blocks(&wanted, laid->document->blocks);
    add_pages(&got, &laid->paged);
    if (sheet->by_page) {
        qsort(wanted.text, wanted.length, 1, compare_bytes);
        qsort(got.text, got.length, 1, compare_bytes);
    }
    ck_assert_msg(strcmp(wanted.text, got.text) == 0, "%s: text was lost or moved", sheet->name);
}

static void check_sheet(struct laid *laid, const struct sheet *sheet, const struct measure *measure)
{
    bool ok = make_pages(laid->document, measure, &laid->arena, &laid->diag, &laid->paged);
    ck_assert_msg(ok, "%s: %s", sheet->name, ok ? "" : laid->diag.first->text);
    const char *fault = layout_check_boxes(&laid->paged, measure, &laid->arena);
    ck_assert_msg(fault == NULL, "%s: %s", sheet->name, fault);
    fault = layout_check_order(&laid->paged, &laid->arena);
    ck_assert_msg(fault == NULL, "%s: %s", sheet->name, fault);
    check_text(laid, sheet);
}

START_TEST(neither_clips_nor_drops)
{
    const struct sheet *sheet = &sheets[_i % SHEETS];
    struct laid laid;
    laid_init(&laid, (enum paper)(_i / SHEETS % PAPERS));
    sheet->add(&laid.body);
    /* the narrowest margins that are allowed, and names that fill the running head */
    laid.document->look.margin_pt = 36;
    laid.document->head_left = long_name(&laid.body);
    laid.document->draft_mark = "Draft";
    if (_i / SHEETS / PAPERS == 0) {
        check_sheet(&laid, sheet, &fixed_measure);
    } else {
        struct fonts *fonts = fonts_new(FONTS_FOLDER, &laid.diag);
        ck_assert_ptr_nonnull(fonts);
        check_sheet(&laid, sheet, fonts_measure(fonts));
        fonts_free(fonts);
    }
    laid_finish(&laid);
}
END_TEST

/* The sheet with every block, and the PDF that comes of it twice the same. */
START_TEST(lays_every_block_out)
{
    struct laid laid;
    laid_init(&laid, PAPER_A4);
    struct fonts *fonts = fonts_new(FONTS_FOLDER, &laid.diag);
    ck_assert_ptr_nonnull(fonts);
    const struct sheet sheet = {"every block", NULL, false};
    struct bytes files[2];
    for (int i = 0; i < 2; i++) {
        laid.document = every_block_make(&laid.arena, (enum paper)_i);
        check_sheet(&laid, &sheet, fonts_measure(fonts));
        ck_assert(pdf_write(&laid.paged, fonts, &laid.arena, &laid.diag, &files[i]));
    }
    ck_assert_uint_eq(files[0].length, files[1].length);
    ck_assert_mem_eq(files[0].data, files[1].data, files[0].length);
    fonts_free(fonts);
    laid_finish(&laid);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("torture");
    TCase *tcase = tcase_create("torture");
    tcase_set_timeout(tcase, 30);
    tcase_add_loop_test(tcase, neither_clips_nor_drops, 0, SHEETS * PAPERS * MEASURES);
    tcase_add_loop_test(tcase, lays_every_block_out, 0, PAPERS);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
