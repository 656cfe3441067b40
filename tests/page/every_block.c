/* A document that has every kind of block once. */
#include "page/every_block.h"

#include "page/make.h"

static void add_key_message(struct maker *maker)
{
    struct maker inside;
    struct block *key = make_callout(maker, CALLOUT_KEY, "Change this first", &inside);
    key->keep_together = true;
    make_paragraph(&inside,
                   "Raise the basking spot from 29\u00A0\u00B0C to 35\u00A0\u00B0C. Move the lamp "
                   "down to 30\u00A0cm above the branch.");
    struct block *why = make_paragraph(&inside, "Why: ");
    why->as.paragraph.text->style = TEXT_STRONG;
    make_more(maker->arena, why->as.paragraph.text,
              "a lizard that cannot get warm cannot digest its food.", TEXT_PLAIN);
}

static void add_numbers(struct maker *maker)
{
    struct block *table = make_table(maker, 3, "What|Target|Measured");
    static const double shares[] = {0.4, 0.3, 0.3};
    table->as.table.shares = shares;
    table->as.table.caption = make_span(maker->arena, "What to aim for, and what you measured");
    static const char *const rows[] = {"Basking spot|34\u201336 \u00B0C|29 \u00B0C, too low",
                                       "Cool side|24\u201326 \u00B0C|25 \u00B0C, fits",
                                       "Night|20\u201322 \u00B0C|21 \u00B0C, fits",
                                       "Air in the shelter, early|55\u201365 %|30 %, too low"};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        make_row(maker, table, rows[i])->cells->is_row_head = true;
}

static void add_lists(struct maker *maker)
{
    struct block *list = make_list(maker, LIST_TICK_BOXES);
    make_item(maker, list, "Put the probe where the animal lies, not on the glass.");
    make_item(maker, list,
              "Read it in the afternoon, when the lamp has been on for four hours. "
              "Write the number down before you change anything.");
    make_item(maker, list, "Call us when it stays below 32 \u00B0C.");
    make_heading(maker, 3, "How to feed");
    list = make_list(maker, LIST_NUMBERS);
    struct list_item *item = make_item(maker, list, "Offer leaves every day:");
    struct maker more = make_at(maker->arena, &item->more);
    struct block *bullets = make_list(&more, LIST_BULLETS);
    make_item(maker, bullets, "dandelion, plantain, clover");
    make_item(maker, bullets, "endive or romaine in winter");
    make_item(maker, list, "Dust with calcium without D3.");
}

static void add_tones(struct maker *maker)
{
    static const struct {
        enum callout_tone tone;
        const char *title, *text;
    } tones[] = {
        {CALLOUT_NOW, "Go now", "Breathing with an open mouth, limp legs, bleeding. Phone ahead."},
        {CALLOUT_TODAY, "Call today", "No food for three days, eyes shut by day."},
        {CALLOUT_SOON, "Call this week", "Shed skin that stays on toes or tail."},
        {CALLOUT_PLAIN, NULL, "We are closed on Sundays."},
    };
    for (size_t i = 0; i < sizeof tones / sizeof tones[0]; i++) {
        struct maker inside;
        make_callout(maker, tones[i].tone, tones[i].title, &inside)->keep_together = true;
        make_paragraph(&inside, tones[i].text);
    }
}

static void add_enclosure(struct maker *maker)
{
    struct block *picture =
        make_picture(maker, 420, 190,
                     "The enclosure from the side: the basking spot is on the left, 30 cm "
                     "below the lamp; the cool side is on the right.",
                     "The enclosure from the side. Hold the lamp 30 cm above the branch.");
    static const struct point ground[] = {{20, 160}, {400, 160}, {400, 175}, {20, 175}};
    static const struct point branch[] = {{50, 150}, {90, 128}, {150, 132}};
    static const struct point lamp_height[] = {{110, 50}, {110, 128}};
    static const struct point width[] = {{20, 186}, {400, 186}};
    static const struct point lamp[] = {{95, 30}, {125, 30}, {118, 48}, {102, 48}};
    const struct shape shapes[] = {
        {.kind = SHAPE_RECT, .x = 20, .y = 20, .width = 380, .height = 155, .stroke_pt = 1.5},
        {.kind = SHAPE_RECT,
         .x = 24,
         .y = 60,
         .width = 60,
         .height = 60,
         .fill = FILL_STRIPES,
         .fill_ink = INK_WARM,
         .stroke_pt = 0.75,
         .stroke_ink = INK_WARM},
        {.kind = SHAPE_RECT,
         .x = 330,
         .y = 60,
         .width = 60,
         .height = 60,
         .fill = FILL_DOTS,
         .fill_ink = INK_COOL,
         .stroke_pt = 0.75,
         .stroke_ink = INK_COOL},
        {.kind = SHAPE_POLYGON,
         .points = ground,
         .count = 4,
         .fill = FILL_CROSS,
         .fill_ink = INK_MUTED,
         .stroke_pt = 0.5,
         .stroke_ink = INK_MUTED},
        {.kind = SHAPE_POLYGON,
         .points = lamp,
         .count = 4,
         .fill = FILL_SOLID,
         .fill_ink = INK_TEXT},
        {.kind = SHAPE_POLYLINE,
         .points = branch,
         .count = 3,
         .stroke_pt = 4,
         .stroke_ink = INK_LEAF},
        {.kind = SHAPE_DIMENSION,
         .points = lamp_height,
         .count = 2,
         .stroke_pt = 0.75,
         .text = "30 cm",
         .text_pt = 10},
        {.kind = SHAPE_DIMENSION,
         .points = width,
         .count = 2,
         .stroke_pt = 0.75,
         .text = "120 cm",
         .text_pt = 10},
        {.kind = SHAPE_CIRCLE,
         .x = 360,
         .y = 140,
         .width = 8,
         .fill = FILL_SOLID,
         .fill_ink = INK_PAPER,
         .stroke_pt = 1},
        {.kind = SHAPE_LABEL,
         .x = 345,
         .y = 144,
         .text = "thermometer",
         .text_pt = 10,
         .anchor = ANCHOR_RIGHT},
        {.kind = SHAPE_LABEL,
         .x = 180,
         .y = 50,
         .width = 130,
         .text_pt = 10,
         .text = "The warm side is striped, the cool side dotted.",
         .text_style = TEXT_STRONG},
    };
    for (size_t i = 0; i < sizeof shapes / sizeof shapes[0]; i++)
        make_shape(maker, picture, shapes[i]);
}

static void add_card(struct maker *maker)
{
    static const uint8_t bits[] = {1, 1, 1, 0, 1, 1, 0, 1, 0, 1, 1, 1, 1,
                                   0, 0, 0, 1, 0, 1, 1, 1, 0, 1, 0, 1};
    struct maker inside, sides[2];
    make_callout(maker, CALLOUT_CUT_OUT, "Emergency card", &inside)->keep_together = true;
    make_columns(&inside, 2, sides);
    make_paragraph(&sides[0], "Elm Street Clinic\n555-0142, day and night");
    struct block *link = make_paragraph(&sides[0], "More at ");
    struct span *target =
        make_more(maker->arena, link->as.paragraph.text, "clinic.example.org", TEXT_PLAIN);
    target->uri = "https://clinic.example.org/";
    make_more(maker->arena, link->as.paragraph.text, ". Species: ", TEXT_PLAIN);
    make_more(maker->arena, link->as.paragraph.text, "Pogona vitticeps", TEXT_PLAIN)->lang = "la";
    struct block *code = make_picture(&sides[1], 80, 80, "The telephone number as a code", NULL);
    make_shape(maker, code,
               (struct shape){.kind = SHAPE_MODULES,
                              .x = 8,
                              .y = 8,
                              .width = 64,
                              .count = 5,
                              .bits = bits,
                              .fill_ink = INK_TEXT});
}

static void add_planner(struct maker *maker)
{
    struct block *table = make_table(maker, 4, "Week|Leaves|Insects|Calcium");
    for (int week = 1; week <= 8; week++) {
        struct table_row *row =
            make_row(maker, table, arena_format(maker->arena, "Week %d|||every day", week));
        row->cells->is_row_head = true;
        for (struct table_cell *cell = row->cells->next; cell != NULL; cell = cell->next)
            cell->tick_box = true;
    }
}

static void add_columns(struct maker *maker)
{
    struct maker sides[2];
    make_columns(maker, 2, sides);
    make_heading(&sides[0], 3, "Good signs");
    struct block *list = make_list(&sides[0], LIST_BULLETS);
    make_item(&sides[0], list, "She basks in the morning and moves away by noon.");
    make_item(&sides[0], list, "She takes leaves from your hand.");
    make_heading(&sides[1], 3, "Signs to write down");
    make_paragraph(&sides[1], "Note what you see, the day, and what the thermometer read. Bring "
                              "the notes along to the next visit.");
}

static void add_long_callout(struct maker *maker)
{
    struct maker inside;
    make_callout(maker, CALLOUT_DRAFT, "For the veterinarian before signing", &inside);
    struct block *list = make_list(&inside, LIST_NUMBERS);
    for (int i = 0; i < 24; i++) {
        make_item(&inside, list,
                  "The target and the reading differ; look at both before you sign this sheet.");
    }
}

/* A square with a diagonal, 48 pixels a side. */
static const struct logo *make_logo(struct arena *arena)
{
    enum { SIDE = 48 };
    uint8_t *pixels = ARENA_ARRAY(arena, uint8_t, 3 * SIDE * SIDE);
    for (int i = 0; i < SIDE * SIDE; i++) {
        bool leaf = i % SIDE > i / SIDE;
        pixels[3 * i] = leaf ? 30 : 200;
        pixels[3 * i + 1] = leaf ? 75 : 220;
        pixels[3 * i + 2] = leaf ? 62 : 205;
    }
    struct logo *logo = ARENA_NEW(arena, struct logo);
    *logo = (struct logo){pixels, SIDE, SIDE, "A clinic"};
    return logo;
}

struct document *every_block_make(struct arena *arena, enum paper paper)
{
    struct document *document = make_document(arena, paper);
    struct maker maker = make_at(arena, &document->blocks);
    document->draft_mark = "Draft: no veterinarian has signed this sheet yet";
    document->logo = make_logo(arena);
    make_heading(&maker, 1, "Care sheet for Pickle");
    struct block *lead = make_paragraph(&maker, "Pickle is a bearded dragon of two years and "
                                                "412\u00A0g. We saw her on 14\u00A0March 2026.");
    lead->as.paragraph.size = PARAGRAPH_LEAD;
    add_key_message(&maker);
    make_heading(&maker, 2, "How warm?");
    make_paragraph(&maker, "She moves between a warm and a cool end all day long. Give her both, "
                           "and she will choose what she needs. Measure both ends once a week, "
                           "always at the same hour, and write the readings down.");
    add_numbers(&maker);
    make_heading(&maker, 2, "What to do this week");
    add_lists(&maker);
    make_heading(&maker, 2, "When to worry");
    add_tones(&maker);
    add_columns(&maker);
    make_heading(&maker, 2, "The enclosure");
    add_enclosure(&maker);
    make_block(&maker, BLOCK_PAGE_BREAK);
    make_heading(&maker, 2, "The next eight weeks");
    add_planner(&maker);
    add_card(&maker);
    add_long_callout(&maker);
    struct block *small = make_paragraph(
        &maker, "This sheet was written for one animal on one day. It does not replace a visit.");
    small->as.paragraph.size = PARAGRAPH_SMALL;
    return document;
}
