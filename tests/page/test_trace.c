/* Small sheets as lists of operations, compared with files that were read line by line. */
#include <stdio.h>

#include "common/golden.h"
#include "common/suite.h"
#include "page/laid.h"
#include "page/trace.h"

static void make_text(struct laid *laid)
{
    laid->document->draft_mark = "Draft";
    make_heading(&laid->body, 1, "Title");
    struct block *block = make_paragraph(&laid->body, "Plain, ");
    struct span *spans = block->as.paragraph.text;
    make_more(&laid->arena, spans, "strong", TEXT_STRONG);
    make_more(&laid->arena, spans, ", ", TEXT_PLAIN);
    make_more(&laid->arena, spans, "Python regius", TEXT_PLAIN)->lang = "la";
    make_more(&laid->arena, spans, " and ", TEXT_PLAIN);
    make_more(&laid->arena, spans, "a \"link\" that is longer than the rest of its line",
              TEXT_PLAIN)
        ->uri = "https://example.org/a";
    make_more(&laid->arena, spans, ".", TEXT_PLAIN);
    make_heading(&laid->body, 2, "Section");
    block = make_paragraph(&laid->body, "Small.");
    block->as.paragraph.size = PARAGRAPH_SMALL;
}

static void make_lists(struct laid *laid)
{
    struct block *list = make_list(&laid->body, LIST_BULLETS);
    struct list_item *item = make_item(&laid->body, list, "one");
    struct maker more = make_at(&laid->arena, &item->more);
    make_item(&more, make_list(&more, LIST_NUMBERS), "inner");
    make_item(&laid->body, list, "two\nlines");
    make_item(&laid->body, make_list(&laid->body, LIST_TICK_BOXES), "tick");
}

static void make_table_sheet(struct laid *laid)
{
    struct block *table = make_table(&laid->body, 3, "A|B|C");
    table->as.table.caption = make_span(&laid->arena, "Caption");
    struct table_cell *cell = make_row(&laid->body, table, "head|right|text")->cells;
    cell->is_row_head = true;
    cell->next->align = ANCHOR_RIGHT;
    cell->next->next->tick_box = true;
    cell = make_row(&laid->body, table, "two\nlines||")->cells;
    cell->next->tick_box = true;
    cell->next->align = ANCHOR_MIDDLE;
}

static void make_callouts(struct laid *laid)
{
    static const enum callout_tone tones[] = {CALLOUT_KEY, CALLOUT_NOW, CALLOUT_TODAY, CALLOUT_SOON,
                                              CALLOUT_DRAFT};
    for (size_t i = 0; i < sizeof tones / sizeof tones[0]; i++) {
        struct maker inside;
        make_callout(&laid->body, tones[i], "Title", &inside);
        make_paragraph(&inside, "text");
    }
    struct maker sides[2];
    make_columns(&laid->body, 2, sides);
    make_paragraph(&sides[0], "left");
    make_paragraph(&sides[1], "right");
}

static void make_picture_sheet(struct laid *laid)
{
    static const struct point ends[] = {{10, 90}, {110, 90}};
    static const struct point corners[] = {{130, 10}, {150, 10}, {140, 30}};
    static const uint8_t bits[] = {1, 1, 0, 1, 1, 0, 0, 0, 1};
    struct block *picture = make_picture(&laid->body, 200, 100, "what it shows", "Caption");
    const struct shape shapes[] = {
        {.kind = SHAPE_RECT,
         .x = 10,
         .y = 10,
         .width = 20,
         .height = 10,
         .stroke_pt = 1,
         .fill = FILL_STRIPES,
         .fill_ink = INK_WARM},
        {.kind = SHAPE_RECT,
         .x = 40,
         .y = 10,
         .width = 20,
         .height = 8,
         .fill = FILL_DOTS,
         .fill_ink = INK_COOL},
        {.kind = SHAPE_CIRCLE,
         .x = 80,
         .y = 20,
         .width = 8,
         .stroke_pt = 0.5,
         .dash = DASH_DASHED,
         .fill = FILL_SOLID,
         .fill_ink = INK_TINT},
        {.kind = SHAPE_POLYGON,
         .points = corners,
         .count = 3,
         .fill = FILL_SOLID,
         .fill_ink = INK_ALERT},
        {.kind = SHAPE_DIMENSION,
         .points = ends,
         .count = 2,
         .stroke_pt = 0.75,
         .text = "30 cm",
         .text_pt = 10},
        {.kind = SHAPE_LABEL,
         .x = 190,
         .y = 50,
         .text = "a label",
         .text_pt = 10,
         .anchor = ANCHOR_RIGHT,
         .text_ink = INK_MUTED},
        {.kind = SHAPE_MODULES, .x = 160, .y = 60, .width = 30, .count = 3, .bits = bits},
    };
    for (size_t i = 0; i < sizeof shapes / sizeof shapes[0]; i++)
        make_shape(&laid->body, picture, shapes[i]);
}

static const struct {
    const char *name;
    void (*make)(struct laid *laid);
} sheets[] = {
    {"text", make_text},         {"lists", make_lists},           {"table", make_table_sheet},
    {"callouts", make_callouts}, {"picture", make_picture_sheet},
};

START_TEST(traces_as_read)
{
    struct laid laid;
    struct strbuf trace;
    laid_init(&laid, PAPER_A4);
    sheets[_i].make(&laid);
    laid_run(&laid);
    strbuf_init(&trace, &laid.arena);
    trace_write(&laid.paged, &trace);
    golden_check(arena_format(&laid.arena, TESTS_FOLDER "/page/golden/%s.trace", sheets[_i].name),
                 trace.text);
    laid_finish(&laid);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("trace");
    TCase *tcase = tcase_create("trace");
    tcase_add_loop_test(tcase, traces_as_read, 0, sizeof sheets / sizeof sheets[0]);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
