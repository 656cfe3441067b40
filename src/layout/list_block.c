/* Lists: marks, numbers and boxes to tick, hanging before their text. */
#include "layout/block_setters.h"

/* Shares of the text's size or of its line distance. */
static const double BULLET_INDENT = 1.1, TICK_INDENT = 1.6, NUMBER_GAP = 0.5;
static const double TICK_SIDE = 0.82, TICK_DROP = 0.08, ITEM_GAP = 0.22, MORE_GAP = 0.25;
static const double DRAWN_BULLET_RADIUS = 0.14, DRAWN_BULLET_RISE = 0.3;
static const double TICK_STROKE_PT = 0.9;
static const unsigned BULLET = 0x2022;

double list_draw_tick_box(const struct composer *composer, const struct type_setting *type,
                          struct fragment *fragment, int element, double x, double y)
{
    double side = TICK_SIDE * type->size_pt;
    struct op *op = fragment_add_op(fragment, composer->arena, OP_RECT, element);
    op->x = x + TICK_STROKE_PT / 2;
    op->y = y - side + TICK_DROP * type->size_pt;
    op->width = op->height = side;
    op->stroked = true;
    op->stroke_pt = TICK_STROKE_PT;
    op->ink = composer->look->inks[INK_TEXT];
    return side + TICK_STROKE_PT;
}

static struct text_line label_line(const struct composer *composer, const struct type_setting *type,
                                   const char *text)
{
    struct span span = {.text = text};
    struct text_lines lines = typeset_break(composer, type, &span, composer->width_pt);
    return lines.items[0];
}

static void draw_bullet(const struct composer *composer, const struct type_setting *type,
                        struct fragment *fragment, int element, double x, double y)
{
    if (composer->measure->has_glyph(composer->measure, TEXT_PLAIN, BULLET)) {
        struct text_line line = label_line(composer, type, "\u2022");
        typeset_draw(composer, type, &line, &element, fragment,
                     (struct line_place){x, line.width_pt, y});
        return;
    }
    struct op *op = fragment_add_op(fragment, composer->arena, OP_CIRCLE, element);
    op->width = DRAWN_BULLET_RADIUS * type->size_pt;
    op->x = x + op->width;
    op->y = y - DRAWN_BULLET_RISE * type->size_pt;
    op->filled = true;
    op->fill = composer->look->inks[type->ink];
}

/* How the items of one list are set. */
struct list_setting {
    struct type_setting type;
    enum list_marks marks;
    double indent_pt; /* how far their text stands in */
};

static double indent_pt(const struct composer *composer, const struct type_setting *type,
                        enum list_marks marks, int items)
{
    if (marks == LIST_NUMBERS) {
        struct text_line widest =
            label_line(composer, type, arena_format(composer->arena, "%d.", items));
        return widest.width_pt + NUMBER_GAP * type->size_pt;
    }
    return type->size_pt * (marks == LIST_TICK_BOXES ? TICK_INDENT : BULLET_INDENT);
}

static void draw_label(const struct composer *composer, const struct list_setting *list, int number,
                       struct fragment *fragment, int element, double x)
{
    const struct type_setting *type = &list->type;
    double y = typeset_baseline_pt(composer, type);
    if (list->marks == LIST_TICK_BOXES) {
        list_draw_tick_box(composer, type, fragment, element, x, y);
    } else if (list->marks == LIST_BULLETS) {
        draw_bullet(composer, type, fragment, element, x, y);
    } else {
        struct type_setting right = *type;
        right.align = ANCHOR_RIGHT;
        struct text_line line =
            label_line(composer, type, arena_format(composer->arena, "%d.", number));
        typeset_draw(composer, &right, &line, &element, fragment,
                     (struct line_place){x, list->indent_pt - NUMBER_GAP * type->size_pt, y});
    }
}

/* Whether the item is one line alone. */
static bool item_set(struct composer *composer, struct place *place,
                     const struct list_setting *list, int number, const struct list_item *item)
{
    int entry = elements_add(&composer->elements, ELEMENT_LI, place->element);
    int label = elements_add(&composer->elements, ELEMENT_LBL, entry);
    int body = elements_add(&composer->elements, ELEMENT_LBODY, entry);
    struct place inside = *place;
    inside.left_pt += list->indent_pt;
    inside.width_pt -= list->indent_pt;
    inside.base = inside.element = body;

    if (list->marks == LIST_TICK_BOXES)
        elements_find(&composer->elements, label)->actual = ELEMENTS_TICK_BOX " ";
    const struct fragment *mark = place->stack->last;
    size_t lines = typeset_text(composer, &inside, &list->type, item->text, body);
    if (lines == 0)
        stack_add(place->stack, composer->arena, typeset_line_pt(&list->type), place->frame);
    struct fragment front = {0};
    draw_label(composer, list, number, &front, label, place->left_pt);
    fragment_put_before(stack_after(place->stack, mark), &front);
    if (item->more != NULL) {
        place->stack->gap_pt = MORE_GAP * typeset_line_pt(&list->type);
        place->stack->glued = true;
        blocks_set(composer, &inside, item->more);
    }
    return lines <= 1 && item->more == NULL;
}

void list_set(struct composer *composer, struct place *place, const struct block *block)
{
    static const enum list_numbering numbering[] = {[LIST_BULLETS] = NUMBERING_DISC,
                                                    [LIST_NUMBERS] = NUMBERING_DECIMAL,
                                                    [LIST_TICK_BOXES] = NUMBERING_UNORDERED};
    struct list_setting list = {.type = typeset_plain(composer, composer->look->body_pt),
                                .marks = block->as.list.marks};
    int items = 0;
    for (const struct list_item *item = block->as.list.items; item != NULL; item = item->next)
        items++;
    if (items == 0)
        return;
    list.indent_pt = indent_pt(composer, &list.type, list.marks, items);
    struct place inside = *place;
    inside.element = elements_add(&composer->elements, ELEMENT_L, place->element);
    elements_find(&composer->elements, inside.element)->numbering = numbering[list.marks];
    int number = 0;
    bool was_short = false;
    for (const struct list_item *item = block->as.list.items; item != NULL; item = item->next) {
        if (number > 0) {
            place->stack->gap_pt = ITEM_GAP * gaps_share(composer) * typeset_line_pt(&list.type);
            place->stack->glued = false;
            place->stack->lonely = number == 1 || item->next == NULL;
        }
        const struct fragment *mark = place->stack->last;
        bool is_short = item_set(composer, &inside, &list, ++number, item);
        /* the marks alone tell lines apart */
        if (number > 1 && is_short && was_short && composer->look->close)
            stack_after(place->stack, mark)->gap_pt = 0;
        was_short = is_short;
    }
}
