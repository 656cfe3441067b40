/* A sample document like a real sheet. */
#include "page/sample.h"

#include <stdio.h>
#include <string.h>

enum { ELEMENT_LIMIT = 600, PAGES = 2, LOGO_SIDE_PX = 16 };

static const double LEFT_PT = 54, LINE_PT = 16, BODY_PT = 12;

/* The sheet under construction. */
struct builder {
    struct arena *arena;
    struct sample *sample;
    int page;
    double y;
};

static int add_element(struct builder *b, enum element_type type, int parent)
{
    struct paged *paged = &b->sample->paged;
    int index = (int)paged->element_count++;
    paged->elements[index] = (struct element){.type = type, .parent = parent, .page = -1};
    return index;
}

static struct element *element_at(struct builder *b, int index)
{
    return &b->sample->paged.elements[index];
}

static struct op *add_op(struct builder *b, enum op_kind kind, int element)
{
    struct page *page = &b->sample->paged.pages[b->page];
    struct op *op = ARENA_NEW(b->arena, struct op);
    op->kind = kind;
    op->element = element;
    op->ink = (struct rgb){34, 34, 34};
    if (page->last == NULL)
        page->first = op;
    else
        page->last->next = op;
    page->last = op;
    page->count++;
    for (int i = element; i >= 0 && element_at(b, i)->page < 0; i = element_at(b, i)->parent)
        element_at(b, i)->page = b->page;
    return op;
}

static struct op *add_text(struct builder *b, int element, double x, double y, double size_pt,
                           enum text_style style, const char *text)
{
    struct op *op = add_op(b, OP_TEXT, element);
    op->x = x;
    op->y = y;
    op->size_pt = size_pt;
    op->style = style;
    op->text = text;
    return op;
}

/* One line of an element at the cursor. */
static void add_line(struct builder *b, int element, const char *text)
{
    add_text(b, element, LEFT_PT, b->y, BODY_PT, TEXT_PLAIN, text);
    b->y += LINE_PT;
}

static void add_heading(struct builder *b, enum element_type type, int parent, const char *text)
{
    int heading = add_element(b, type, parent);
    element_at(b, heading)->title = text;
    b->y += 8;
    add_text(b, heading, LEFT_PT, b->y, type == ELEMENT_H1 ? 20 : 15, TEXT_STRONG, text);
    b->y += 1.25 * LINE_PT;
}

/* Head, foot and the rule between them and the text. */
static void add_running(struct builder *b)
{
    char *page_of = arena_format(b->arena, "page %d of %d", b->page + 1, PAGES);
    add_text(b, OPS_ARTIFACT, LEFT_PT, 46, 9, TEXT_PLAIN, "Biscuit, for Robin Example");
    add_text(b, OPS_ARTIFACT, LEFT_PT, 800, 9, TEXT_PLAIN, page_of);
    struct op *rule = add_op(b, OP_LINE, OPS_ARTIFACT);
    struct point *points = ARENA_ARRAY(b->arena, struct point, 2);
    points[0] = (struct point){LEFT_PT, 52};
    points[1] = (struct point){540, 52};
    rule->points = points;
    rule->count = 2;
    rule->stroked = true;
    rule->stroke_pt = 0.75;
    b->y = 80;
}

static void add_list(struct builder *b, int parent, const char *const *items, size_t count)
{
    int list = add_element(b, ELEMENT_L, parent);
    element_at(b, list)->numbering = NUMBERING_DECIMAL;
    for (size_t i = 0; i < count; i++) {
        int item = add_element(b, ELEMENT_LI, list);
        int label = add_element(b, ELEMENT_LBL, item);
        int body = add_element(b, ELEMENT_LBODY, item);
        add_text(b, label, LEFT_PT, b->y, BODY_PT, TEXT_PLAIN,
                 arena_format(b->arena, "%zu.", i + 1));
        add_text(b, body, LEFT_PT + 20, b->y, BODY_PT, TEXT_PLAIN, items[i]);
        b->y += LINE_PT;
    }
}

static void add_row(struct builder *b, int parent, bool head, const char *const cells[3])
{
    int row = add_element(b, ELEMENT_TR, parent);
    for (int i = 0; i < 3; i++) {
        bool is_head = head || i == 0;
        int cell = add_element(b, is_head ? ELEMENT_TH : ELEMENT_TD, row);
        element_at(b, cell)->scope = !is_head ? SCOPE_NONE : head ? SCOPE_COLUMN : SCOPE_ROW;
        if (*cells[i] != '\0') {
            add_text(b, cell, LEFT_PT + 150 * i, b->y, 10, is_head ? TEXT_STRONG : TEXT_PLAIN,
                     cells[i]);
        }
    }
    b->y += LINE_PT;
}

static void add_table(struct builder *b, int parent, int rows)
{
    static const char *const head[3] = {"Place", "Aim for", "Today"};
    static const char *const body[3][3] = {{"Warm side", "31\u201333 \u00B0C", "29 \u00B0C"},
                                           {"Cool side", "24\u201327 \u00B0C", "25 \u00B0C"},
                                           {"Humidity", "55\u201365 %", ""}};
    int table = add_element(b, ELEMENT_TABLE, parent);
    int caption = add_element(b, ELEMENT_CAPTION, table);
    add_line(b, caption, "What to aim for");
    int top = add_element(b, ELEMENT_THEAD, table);
    add_row(b, top, true, head);
    int rest = add_element(b, ELEMENT_TBODY, table);
    for (int i = 0; i < rows; i++)
        add_row(b, rest, false, body[i % 3]);
}

/* A picture of rectangles, a clipped hatching, a circle and a label. */
static void add_figure(struct builder *b, int parent, int shapes)
{
    int figure = add_element(b, ELEMENT_FIGURE, parent);
    struct element *element = element_at(b, figure);
    element->alternative = "The enclosure from the side: warm left, cool right.";
    element->left = LEFT_PT;
    element->right = LEFT_PT + 300;
    element->top = b->y;
    element->bottom = b->y + 60;
    for (int i = 0; i < shapes; i++) {
        struct op *box = add_op(b, i % 4 == 3 ? OP_CIRCLE : OP_RECT, figure);
        box->x = LEFT_PT + 5.0 * i;
        box->y = b->y + (i % 4 == 3 ? 30 : 5);
        box->width = i % 4 == 3 ? 2 : 4;
        box->height = 40;
        box->stroked = true;
        box->stroke_pt = 0.5;
        box->dash = (enum line_dash)(i % 3);
        box->filled = i % 2 == 0;
        box->fill = (struct rgb){176, 0, 32};
    }
    struct op *hatch = add_op(b, OP_PATH, figure);
    struct point *points = ARENA_ARRAY(b->arena, struct point, 4);
    for (int i = 0; i < 4; i++)
        points[i] = (struct point){LEFT_PT + 100 * (i % 2), b->y + 15 * i};
    hatch->points = points;
    hatch->count = 4;
    hatch->closed = true;
    hatch->stroked = true;
    hatch->stroke_pt = 0.5;
    hatch->clipped = true;
    hatch->x = LEFT_PT;
    hatch->y = b->y;
    hatch->width = 60;
    hatch->height = 30;
    add_text(b, figure, LEFT_PT + 200, b->y + 55, 9, TEXT_PLAIN, "hide");
    b->y += 80;
}

/* A paragraph with a stretch in another language in its middle. */
static void add_foreign(struct builder *b, int parent, const char *lang, const char *before,
                        const char *foreign, const char *after)
{
    int paragraph = add_element(b, ELEMENT_P, parent);
    int span = add_element(b, ELEMENT_SPAN, paragraph);
    element_at(b, span)->lang = lang;
    add_text(b, paragraph, LEFT_PT, b->y, BODY_PT, TEXT_PLAIN, before);
    add_text(b, span, LEFT_PT + 120, b->y, BODY_PT, TEXT_PLAIN, foreign);
    add_text(b, paragraph, LEFT_PT + 300, b->y, BODY_PT, TEXT_STRONG, after);
    b->y += LINE_PT;
}

/* A clickable place over a link's words. */
static void add_area(struct builder *b, int link, double x, double width)
{
    struct op *area = add_op(b, OP_LINK, link);
    area->x = x;
    area->y = b->y - 11;
    area->width = width;
    area->height = 15;
    area->uri = "mailto:care@example.org?subject=Biscuit is \u00E4ngstlich (50%)";
}

/* A link that breaks over two lines. */
static void add_link(struct builder *b, int parent)
{
    int paragraph = add_element(b, ELEMENT_P, parent);
    int link = add_element(b, ELEMENT_LINK, paragraph);
    element_at(b, link)->alternative = "Write to the clinic: care@example.org";
    add_text(b, paragraph, LEFT_PT, b->y, BODY_PT, TEXT_PLAIN, "Write to ");
    add_text(b, link, LEFT_PT + 52, b->y, BODY_PT, TEXT_PLAIN, "care@");
    add_area(b, link, LEFT_PT + 52, 32);
    b->y += LINE_PT;
    add_text(b, link, LEFT_PT, b->y, BODY_PT, TEXT_PLAIN, "example.org");
    add_area(b, link, LEFT_PT, 63);
    b->y += LINE_PT;
}

static void add_logo(struct builder *b, int parent)
{
    struct logo *logo = ARENA_NEW(b->arena, struct logo);
    uint8_t *pixels = arena_take(b->arena, (size_t)3 * LOGO_SIDE_PX * LOGO_SIDE_PX);
    for (int i = 0; i < 3 * LOGO_SIDE_PX * LOGO_SIDE_PX; i++)
        pixels[i] = (uint8_t)(i * 7);
    *logo = (struct logo){pixels, LOGO_SIDE_PX, LOGO_SIDE_PX, "Example Reptile Clinic"};
    b->sample->document.logo = logo;

    int figure = add_element(b, ELEMENT_FIGURE, parent);
    struct op *image = add_op(b, OP_IMAGE, figure);
    image->x = 480;
    image->y = b->y;
    image->width = image->height = 40;
    struct element *element = element_at(b, figure);
    element->alternative = logo->alternative;
    element->left = image->x;
    element->top = image->y;
    element->right = image->x + image->width;
    element->bottom = image->y + image->height;
}

/* A paragraph that goes on where the next page begins, and ends in a link. */
static void add_turning(struct builder *b, int parent)
{
    int paragraph = add_element(b, ELEMENT_P, parent);
    add_line(b, paragraph, "This paragraph begins on one page ");
    b->page++;
    add_running(b);
    add_line(b, paragraph, "and ends on the next.");
    int link = add_element(b, ELEMENT_LINK, paragraph);
    add_text(b, link, LEFT_PT, b->y, BODY_PT, TEXT_PLAIN, "Write to us.");
    add_area(b, link, LEFT_PT, 70);
    b->y += LINE_PT;
}

static void fill_plain(struct builder *b, int root)
{
    static const char *const steps[] = {"Raise the lamp by 5 cm.", "Mist twice a day.",
                                        "Call us when he stops eating."};
    add_heading(b, ELEMENT_H1, root, "Care for Biscuit");
    int paragraph = add_element(b, ELEMENT_P, root);
    add_line(b, paragraph, "Keep the warm side warmer than today. ");
    add_line(b, paragraph, "\u201CSlowly\u201D \u2014 that is, over three days (100 \u20AC lamp).");
    int section = add_element(b, ELEMENT_SECT, root);
    add_heading(b, ELEMENT_H2, section, "What to change");
    add_list(b, section, steps, 3);
    add_table(b, section, 3);
    add_figure(b, section, 12);
}

static void fill_rich(struct builder *b, int root)
{
    add_logo(b, root);
    fill_plain(b, root);
    add_foreign(b, root, "pl", "In Polish: ", "Za\u017C\u00F3\u0142\u0107 g\u0119\u015Bl\u0105",
                " ja\u017A\u0144");
    add_foreign(b, root, "el", "In Greek: ", "\u039A\u03B1\u03BB\u03B7\u03BC\u03AD\u03C1\u03B1",
                " \u03C3\u03B1\u03CD\u03C1\u03B1");
    add_foreign(b, root, "ru", "In Russian: ", "\u042F\u0449\u0435\u0440\u0438\u0446\u0430",
                ", too.");
    int signs = add_element(b, ELEMENT_P, root);
    add_line(b, signs,
             "Signs: \u2265 60 %, \u2264 3 h, \u22125 \u00B0C \u2192 warm \u2026 \u00D7 2");
    add_link(b, root);
    add_turning(b, root);
    int box = add_element(b, ELEMENT_DIV, root);
    add_heading(b, ELEMENT_H2, box, "Later");
    add_heading(b, ELEMENT_H3, box, "Za rok: \u0141ukasz & <co.>");
    int last = add_element(b, ELEMENT_P, box);
    add_line(b, last, "Weigh him (on \\ Mondays).");
}

/* Words of care sheets without meaning; only their number and length matter. */
static void fill_long(struct builder *b, int root)
{
    add_heading(b, ELEMENT_H1, root, "Care for Biscuit");
    for (int page = 0; page < PAGES; page++) {
        if (page > 0) {
            b->page++;
            add_running(b);
        }
        for (int i = 0; i < 3; i++) {
            add_heading(b, ELEMENT_H2, root, "Keep the warm side warm");
            int paragraph = add_element(b, ELEMENT_P, root);
            for (int line = 0; line < 7; line++) {
                add_line(b, paragraph,
                         "Raise the lamp until you read 32 \u00B0C on the stone, then wait one "
                         "full day ");
            }
        }
        if (page == 0)
            add_table(b, root, 8);
        else
            add_figure(b, root, 60);
    }
}

struct sample *sample_make(enum sample_kind kind, struct arena *arena)
{
    struct sample *sample = ARENA_NEW(arena, struct sample);
    struct builder builder = {.arena = arena, .sample = sample};
    sample->document = (struct document){
        .lang = "en",
        .title = kind == SAMPLE_RICH ? "Care for Biscuit & \u0141ukasz <1>" : "Care for Biscuit",
        .subject = "Ball python, visit of 14 March 2026",
        .author = "Example Reptile Clinic",
        .keywords = "ball python, care sheet",
        .created = "2026-03-14",
    };
    sample->paged = (struct paged){
        .page_width_pt = 595.276,
        .page_height_pt = 841.89,
        .pages = ARENA_ARRAY(arena, struct page, PAGES),
        .page_count = kind == SAMPLE_PLAIN ? 1 : PAGES,
        .elements = ARENA_ARRAY(arena, struct element, ELEMENT_LIMIT),
        .document = &sample->document,
    };
    int root = add_element(&builder, ELEMENT_DOCUMENT, -1);
    add_running(&builder);
    switch (kind) {
    case SAMPLE_PLAIN:
        fill_plain(&builder, root);
        break;
    case SAMPLE_RICH:
        fill_rich(&builder, root);
        break;
    default:
        fill_long(&builder, root);
        break;
    }
    return sample;
}

enum sample_kind sample_named(const char *name)
{
    static const char *const names[SAMPLE_COUNT] = {"plain", "rich", "long"};
    int kind = 0;
    while (kind < SAMPLE_COUNT && strcmp(names[kind], name) != 0)
        kind++;
    return (enum sample_kind)kind;
}
