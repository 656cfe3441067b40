#include "page/paginate.h"

#include <math.h>

#include "page/layout.h"

static const double SLACK_PT = 0.01;

static double rounded(double pt)
{
    double value = round(pt * 100) / 100;
    return value == 0 ? 0 : value; /* no negative zero in a trace */
}

static void add_op(struct page *page, struct op *op)
{
    if (page->last != NULL) {
        page->last->next = op;
    } else {
        page->first = op;
    }
    page->last = op;
    page->count++;
}

static const struct point *move_points(struct arena *arena, const struct op *op, double dy)
{
    struct point *points = ARENA_ARRAY(arena, struct point, op->count);
    for (size_t i = 0; i < op->count; i++) {
        points[i] = (struct point){rounded(op->points[i].x), rounded(op->points[i].y + dy)};
    }
    return points;
}

void paginate_copy(struct composer *composer, const struct strip *strip, struct paged *out,
                   size_t page, double dy, bool artifact)
{
    for (const struct op *op = strip->first_op; op != NULL; op = op->next) {
        if (artifact && op->kind == OP_LINK) {
            continue;
        }
        struct op *copy = ARENA_NEW(composer->arena, struct op);
        *copy = *op;
        copy->next = NULL;
        copy->x = rounded(op->x);
        copy->y = op->points == NULL ? rounded(op->y + dy) : 0;
        /* edges are rounded, not sides, so that what touches stays together */
        bool is_box = op->kind == OP_RECT || op->kind == OP_IMAGE || op->kind == OP_LINK;
        copy->width = is_box ? rounded(rounded(op->x + op->width) - copy->x) : rounded(op->width);
        copy->height = is_box ? rounded(rounded(op->y + op->height + dy) - copy->y) : 0;
        copy->size_pt = rounded(op->size_pt);
        copy->stroke_pt = rounded(op->stroke_pt);
        if (op->points != NULL) {
            copy->points = move_points(composer->arena, op, dy);
        }
        if (artifact) {
            copy->element = OPS_ARTIFACT;
        }
        elements_mark(&composer->elements, copy->element, (int)page);
        add_op(&out->pages[page], copy);
    }
}

static bool is_within(const struct frame *inner, const struct frame *frame)
{
    while (inner != NULL && inner != frame) {
        inner = inner->outer;
    }
    return inner == frame;
}

/* What the frames around `frame` have put between it and its first or last strip's edge. */
static double outer_pads_pt(const struct frame *frame, const struct strip *strip, bool above)
{
    double pads = 0;
    for (const struct frame *outer = frame->outer; outer != NULL; outer = outer->outer) {
        if ((above ? outer->first : outer->last) == strip) {
            pads += outer->pad_pt;
        }
    }
    return pads;
}

/* A run of strips on one page. */
struct run {
    struct composer *composer;
    struct paged *out;
    size_t page;
    const struct strip *first, *end;
    double top;
};

/* Draws the outline of a frame that has its first strip on this page at `strip`, y. */
static void draw_frame(const struct run *run, const struct frame *frame, const struct strip *strip,
                       double y)
{
    double top = y, bottom = y;
    bool opens = strip == frame->first, closes = false;
    if (opens) {
        top += outer_pads_pt(frame, strip, true);
    } else if (strip == run->first) {
        top = run->top; /* a repeated table head stands above the strip */
    }
    for (const struct strip *s = strip; s != run->end && is_within(s->frame, frame); s = s->next) {
        y += s != strip ? s->gap_pt : 0;
        y += s->height_pt;
        bottom = y;
        if (s == frame->last) {
            closes = true;
            bottom -= outer_pads_pt(frame, s, false);
        }
    }
    struct strip outline = {0};
    callout_draw_frame(run->composer, frame, &outline, top, bottom, opens, closes);
    paginate_copy(run->composer, &outline, run->out, run->page, 0, true);
}

/* Frames around `strip` that are not around what stands before it; the outer ones first. */
static void draw_frames(const struct run *run, const struct frame *frame,
                        const struct frame *before, const struct strip *strip, double y)
{
    if (frame == NULL || is_within(before, frame)) {
        return;
    }
    draw_frames(run, frame->outer, before, strip, y);
    draw_frame(run, frame, strip, y);
}

static void set_figure(struct composer *composer, const struct strip *strip, double dy)
{
    if (strip->figure == OPS_ARTIFACT) {
        return;
    }
    struct element *element = elements_find(&composer->elements, strip->figure);
    element->left = rounded(strip->figure_left);
    element->right = rounded(strip->figure_right);
    element->top = rounded(strip->figure_top + dy);
    element->bottom = rounded(strip->figure_bottom + dy);
}

/* Draws again the head of a table that goes on with `strip`; where the strip itself begins. */
static double draw_head(const struct run *run, const struct strip *strip, double y)
{
    const struct strip *head = strip != NULL && strip->head != NULL ? strip->head->first : NULL;
    for (; head != NULL; head = head->next) {
        paginate_copy(run->composer, head, run->out, run->page, y, true);
        y += head->height_pt;
    }
    return y;
}

/* Draws the strips of a run from y downwards. `around` is the frame that is drawn already. */
static void draw_run(const struct run *run, const struct frame *around, double y)
{
    const struct frame *before = around;
    for (const struct strip *strip = run->first; strip != run->end; strip = strip->next) {
        y += strip != run->first ? strip->gap_pt : 0;
        draw_frames(run, strip->frame, before, strip, y);
        before = strip->frame;
        double dy = y + strip->inset_pt;
        paginate_copy(run->composer, strip, run->out, run->page, dy, false);
        set_figure(run->composer, strip, dy);
        for (size_t i = 0; i < strip->side_count; i++) {
            struct run side = *run;
            side.first = strip->sides[i].first;
            side.end = NULL;
            side.top = dy;
            draw_run(&side, strip->frame, draw_head(&side, side.first, dy));
        }
        y += strip->height_pt;
    }
}

static double head_height_pt(const struct strip *strip)
{
    return strip->head != NULL ? stack_height_pt(strip->head->first, NULL) : 0;
}

/* The strip that begins the next page when `first` begins one with `room`; NULL when all fit.
 * *over is the strip that did not fit, *how the ill of the break. */
static struct strip *find_break(struct strip *first, double room, struct strip **over,
                                enum strip_break *how)
{
    double y = first->height_pt;
    struct strip *places[] = {[BREAK_FREE] = NULL, [BREAK_KEPT] = NULL, [BREAK_GLUED] = NULL};
    *over = NULL;
    *how = BREAK_FREE;
    for (struct strip *strip = first->next; strip != NULL; strip = strip->next) {
        if (strip->new_page) {
            return strip;
        }
        places[strip->before] = strip;
        y += strip->gap_pt + strip->height_pt;
        if (y > room) {
            *over = strip;
            *how = places[BREAK_FREE] != NULL   ? BREAK_FREE
                   : places[BREAK_KEPT] != NULL ? BREAK_KEPT
                                                : BREAK_GLUED;
            return places[*how];
        }
    }
    return NULL;
}

/* ---- columns that go on ---------------------------------------------------------------- */

static const double LEAST_PART_PT = 60; /* of a column, before a break and behind it */

static double side_height_pt(const struct stack *side)
{
    return side->first != NULL ? head_height_pt(side->first) + stack_height_pt(side->first, NULL)
                               : 0;
}

static double highest_pt(const struct stack *sides, size_t count)
{
    double height = 0;
    for (size_t i = 0; i < count; i++) {
        height = fmax(height, side_height_pt(&sides[i]));
    }
    return height;
}

/* Where each side would break; false when one has no place within the room, or, unless there is
 * `need`, no fair one. */
static bool find_side_breaks(const struct strip *strip, double room, bool need,
                             struct strip **breaks)
{
    for (size_t i = 0; i < strip->side_count; i++) {
        struct strip *first = strip->sides[i].first, *over = NULL;
        enum strip_break how = BREAK_FREE;
        breaks[i] = NULL;
        if (side_height_pt(&strip->sides[i]) <= room + SLACK_PT) {
            continue;
        }
        double own_room = room - head_height_pt(first);
        if (first->height_pt <= own_room) {
            breaks[i] = find_break(first, own_room + SLACK_PT, &over, &how);
        }
        bool is_fair = breaks[i] != NULL && how == BREAK_FREE &&
                       stack_height_pt(first, breaks[i]) >= LEAST_PART_PT;
        if (breaks[i] == NULL || !(is_fair || need)) {
            return false;
        }
    }
    return true;
}

/* Cuts a side before `at`; what is behind it goes to *rest. */
static void cut_side(struct stack *side, struct strip *at, struct stack *rest)
{
    if (at == NULL) {
        return;
    }
    struct strip *last = side->first;
    while (last->next != at) {
        last = last->next;
    }
    *rest = (struct stack){.first = at, .last = side->last};
    side->last = last;
    last->next = NULL;
}

/* Parts columns that do not fit into the room; the rest becomes a strip of its own behind
 * this one, which is returned. NULL, with nothing done, when they cannot be parted fairly. */
static struct strip *part_columns(struct composer *composer, struct strip *strip, double room,
                                  bool need)
{
    if (strip->side_count == 0 || room < LEAST_PART_PT) {
        return NULL;
    }
    struct strip **breaks = ARENA_ARRAY(composer->arena, struct strip *, strip->side_count);
    if (!find_side_breaks(strip, room, need, breaks)) {
        return NULL;
    }
    struct stack *tops = ARENA_ARRAY(composer->arena, struct stack, strip->side_count);
    struct stack *rests = ARENA_ARRAY(composer->arena, struct stack, strip->side_count);
    for (size_t i = 0; i < strip->side_count; i++) {
        tops[i] = strip->sides[i];
        cut_side(&tops[i], breaks[i], &rests[i]);
    }
    struct strip *rest = ARENA_NEW(composer->arena, struct strip);
    *rest = (struct strip){.height_pt = highest_pt(rests, strip->side_count),
                           .figure = OPS_ARTIFACT,
                           .frame = strip->frame,
                           .sides = rests,
                           .side_count = strip->side_count,
                           .next = strip->next};
    strip->sides = tops;
    strip->height_pt = highest_pt(tops, strip->side_count);
    strip->next = rest;
    return rest;
}

/* The strip that begins the next page when `first` begins this one; NULL when all fit. */
static struct strip *end_page(struct composer *composer, struct strip *first)
{
    double room = composer->height_pt - head_height_pt(first) + SLACK_PT;
    if (first->height_pt > room) {
        struct strip *rest = part_columns(composer, first, room, true);
        return rest != NULL ? rest : first->next;
    }
    struct strip *over = NULL;
    enum strip_break how = BREAK_FREE;
    struct strip *end = find_break(first, room, &over, &how);
    if (over == NULL || over->side_count == 0) {
        return end;
    }
    double taken = stack_height_pt(first, over) + over->gap_pt;
    struct strip *rest = part_columns(composer, over, room - taken, false);
    return rest != NULL ? rest : end;
}

static void draw_page(struct composer *composer, struct paged *out, size_t page,
                      const struct strip *first, const struct strip *end)
{
    struct run run = {composer, out, page, first, end, composer->top_pt};
    draw_run(&run, NULL, draw_head(&run, first, composer->top_pt));
}

bool paginate_stack(struct composer *composer, const struct stack *stack, struct paged *out)
{
    out->pages = ARENA_ARRAY(composer->arena, struct page, LAYOUT_PAGE_LIMIT);
    out->page_count = stack->first == NULL ? 1 : 0;
    struct strip *first = stack->first;
    while (first != NULL) {
        if (out->page_count == LAYOUT_PAGE_LIMIT) {
            diag_report(composer->diag, DIAG_ERROR, "too-many-pages", (struct mark){0},
                        "the document needs more than %d pages", LAYOUT_PAGE_LIMIT);
            return false;
        }
        struct strip *end = end_page(composer, first);
        draw_page(composer, out, out->page_count++, first, end);
        first = end;
    }
    return true;
}
