/* Callouts: title, mark and blocks inside a frame that page breaks may part. */
#include "layout/block_setters.h"

static const double PAD_PT = 11;       /* from the frame's outer edge to the text, for all tones */
static const double MARK_PT = 15;      /* height and width of a tone's shape */
static const double MARK_GAP_PT = 9;   /* between the shape and the text */
static const double TITLE_SIZE = 1.08; /* of body text */
static const double BELOW_TITLE = 0.2; /* of the body's line distance */

enum tone_mark { MARK_NONE, MARK_TRIANGLE, MARK_SQUARE, MARK_CIRCLE };

/* How each tone looks. Frames differ in weight and dash, marks in shape, so that both survive
 * one-bit printing. */
static const struct tone {
    double stroke_pt;
    enum line_dash dash;
    enum ink ink;
    enum tone_mark mark;
} tones[] = {
    [CALLOUT_PLAIN] = {0.75, DASH_SOLID, INK_TEXT, MARK_NONE},
    [CALLOUT_KEY] = {2.25, DASH_SOLID, INK_ACCENT, MARK_NONE},
    [CALLOUT_GRAVE] = {2.25, DASH_SOLID, INK_ALERT, MARK_NONE},
    [CALLOUT_NOW] = {1.75, DASH_SOLID, INK_ALERT, MARK_TRIANGLE},
    [CALLOUT_TODAY] = {1.0, DASH_SOLID, INK_TEXT, MARK_SQUARE},
    [CALLOUT_SOON] = {0.75, DASH_SOLID, INK_TEXT, MARK_CIRCLE},
    [CALLOUT_DRAFT] = {2.0, DASH_DASHED, INK_TEXT, MARK_NONE},
    [CALLOUT_CUT_OUT] = {0.75, DASH_DASHED, INK_TEXT, MARK_NONE},
};

static struct op *add_polygon(const struct composer *composer, struct fragment *fragment,
                              const struct point *points, size_t count, bool closed)
{
    struct point *own = ARENA_ARRAY(composer->arena, struct point, count);
    for (size_t i = 0; i < count; i++)
        own[i] = points[i];
    struct op *op = fragment_add_op(fragment, composer->arena, OP_PATH, OPS_ARTIFACT);
    op->points = own;
    op->count = count;
    op->closed = closed;
    return op;
}

/* A triangle that stands on its base, with an exclamation mark of paper cut out of it. */
static void draw_triangle(const struct composer *composer, struct fragment *fragment, double x,
                          double y, struct rgb ink)
{
    const double s = MARK_PT;
    const struct point triangle[] = {{x + s / 2, y}, {x + s, y + s}, {x, y + s}};
    const struct point stroke[] = {{x + s * 0.44, y + s * 0.36},
                                   {x + s * 0.56, y + s * 0.36},
                                   {x + s * 0.53, y + s * 0.70},
                                   {x + s * 0.47, y + s * 0.70}};
    struct op *op = add_polygon(composer, fragment, triangle, 3, true);
    op->filled = true;
    op->fill = ink;
    op = add_polygon(composer, fragment, stroke, 4, true);
    op->filled = true;
    op->fill = composer->look->inks[INK_PAPER];
    op = fragment_add_op(fragment, composer->arena, OP_CIRCLE, OPS_ARTIFACT);
    op->x = x + s / 2;
    op->y = y + s * 0.83;
    op->width = s * 0.07;
    op->filled = true;
    op->fill = composer->look->inks[INK_PAPER];
}

static void draw_mark(const struct composer *composer, const struct tone *tone,
                      struct fragment *fragment, double x, double y)
{
    struct rgb ink = composer->look->inks[tone->ink];
    if (tone->mark == MARK_TRIANGLE) {
        draw_triangle(composer, fragment, x, y, ink);
        return;
    }
    bool square = tone->mark == MARK_SQUARE;
    const double stroke = 1.75;
    struct op *op =
        fragment_add_op(fragment, composer->arena, square ? OP_RECT : OP_CIRCLE, OPS_ARTIFACT);
    op->x = square ? x + 1.5 : x + MARK_PT / 2;
    op->y = square ? y + 1.5 : y + MARK_PT / 2;
    op->width = square ? MARK_PT - 3 : MARK_PT / 2 - stroke / 2;
    op->height = square ? MARK_PT - 3 : 0;
    op->filled = square;
    op->fill = ink;
    op->stroked = !square;
    op->stroke_pt = stroke;
    op->ink = ink;
}

static void stroke(const struct composer *composer, const struct tone *tone, struct op *op)
{
    op->stroked = true;
    op->stroke_pt = tone->stroke_pt;
    op->dash = tone->dash;
    op->ink = composer->look->inks[tone->ink];
}

void callout_draw_frame(const struct composer *composer, const struct frame *frame,
                        struct fragment *fragment, struct frame_part part)
{
    const struct tone *tone = &tones[frame->tone];
    double half = tone->stroke_pt / 2;
    double left = frame->left_pt + half, right = frame->left_pt + frame->width_pt - half;
    double top = part.top + (part.closed_above ? half : 0);
    double bottom = part.bottom - (part.closed_below ? half : 0);
    const struct point upper[] = {{left, bottom}, {left, top}, {right, top}, {right, bottom}};
    const struct point lower[] = {{left, top}, {left, bottom}, {right, bottom}, {right, top}};
    if (part.closed_above || part.closed_below) {
        struct op *op = add_polygon(composer, fragment, part.closed_above ? upper : lower, 4,
                                    part.closed_above && part.closed_below);
        stroke(composer, tone, op);
        return;
    }
    stroke(composer, tone, add_polygon(composer, fragment, lower, 2, false));
    stroke(composer, tone, add_polygon(composer, fragment, upper + 2, 2, false));
}

static void set_title(struct composer *composer, struct place *inside, const struct block *block)
{
    struct type_setting type = typeset_plain(composer, composer->look->body_pt * TITLE_SIZE);
    type.strong = true;
    type.ink = block->as.callout.tone == CALLOUT_NOW ? INK_ALERT : INK_TEXT;
    int element = elements_add(&composer->elements, ELEMENT_P, inside->element);
    size_t lines = typeset_text(composer, inside, &type, block->as.callout.title, element);
    if (lines > 0) {
        inside->stack->gap_pt = BELOW_TITLE * composer->look->body_pt * composer->look->leading;
        inside->stack->glued = true;
    }
}

/* Gives the frame's padding to its first and last fragment. */
static void pad_strips(const struct composer *composer, struct frame *frame, struct place *inside,
                       struct fragment *first, double mark_x)
{
    const struct tone *tone = &tones[frame->tone];
    struct fragment *last = inside->stack->last;
    first->inset_pt += frame->pad_pt;
    first->height_pt += frame->pad_pt;
    last->height_pt += frame->pad_pt;
    frame->first = first;
    frame->last = last;
    if (tone->mark != MARK_NONE) {
        double line = composer->look->body_pt * TITLE_SIZE * composer->look->leading;
        struct fragment front = {0};
        draw_mark(composer, tone, &front, mark_x, (line - MARK_PT) / 2);
        fragment_put_before(first, &front);
    }
}

void callout_set(struct composer *composer, struct place *place, const struct block *block)
{
    const struct tone *tone = &tones[block->as.callout.tone];
    struct frame *frame = ARENA_NEW(composer->arena, struct frame);
    *frame = (struct frame){.tone = block->as.callout.tone,
                            .left_pt = place->left_pt,
                            .width_pt = place->width_pt,
                            .pad_pt = PAD_PT,
                            .outer = place->frame};
    double pad = frame->pad_pt;
    double mark = tone->mark != MARK_NONE ? MARK_PT + MARK_GAP_PT : 0;
    struct place inside = *place;
    inside.left_pt += pad + mark;
    inside.width_pt -= 2 * pad + mark;
    inside.reserve_pt += 2 * pad;
    inside.frame = frame;
    inside.base = inside.element = elements_add(&composer->elements, ELEMENT_DIV, place->element);

    const struct fragment *before = place->stack->last;
    if (block->as.callout.title != NULL)
        set_title(composer, &inside, block);
    blocks_set(composer, &inside, block->as.callout.blocks);
    place->stack->gap_pt = 0;
    place->stack->lonely = place->stack->glued = false;
    struct fragment *first = stack_after(place->stack, before);
    if (first != NULL)
        pad_strips(composer, frame, &inside, first, place->left_pt + pad);
}
