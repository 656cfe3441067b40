/* Fills pages with fragments and begins new ones. */
#include "layout/paginate.h"

#include <math.h>

#include "layout/layout.h"
#include "layout/page_breaks.h"

static double rounded(double pt)
{
    double value = round(pt * 100) / 100;
    return value == 0 ? 0 : value; /* no negative zero in a trace */
}

static void add_op(struct page *page, struct op *op)
{
    if (page->last != NULL)
        page->last->next = op;
    else
        page->first = op;
    page->last = op;
    page->count++;
}

static const struct point *move_points(struct arena *arena, const struct op *op, double dx,
                                       double dy)
{
    struct point *points = ARENA_ARRAY(arena, struct point, op->count);
    for (size_t i = 0; i < op->count; i++)
        points[i] = (struct point){rounded(op->points[i].x + dx), rounded(op->points[i].y + dy)};
    return points;
}

void paginate_copy(struct composer *composer, const struct fragment *fragment, struct page_place to,
                   bool artifact)
{
    for (const struct op *op = fragment->first_op; op != NULL; op = op->next) {
        if (artifact && op->kind == OP_LINK)
            continue;
        struct op *copy = ARENA_NEW(composer->arena, struct op);
        *copy = *op;
        copy->next = NULL;
        copy->x = rounded(op->x + (op->points == NULL ? to.dx : 0));
        copy->y = op->points == NULL ? rounded(op->y + to.dy) : 0;
        /* edges are rounded, not sides, so that what touches stays together */
        bool is_box = op->kind == OP_RECT || op->kind == OP_IMAGE || op->kind == OP_LINK;
        copy->width =
            is_box ? rounded(rounded(op->x + op->width + to.dx) - copy->x) : rounded(op->width);
        copy->height = is_box ? rounded(rounded(op->y + op->height + to.dy) - copy->y) : 0;
        copy->size_pt = rounded(op->size_pt);
        copy->stroke_pt = rounded(op->stroke_pt);
        if (op->points != NULL)
            copy->points = move_points(composer->arena, op, to.dx, to.dy);
        if (artifact)
            copy->element = OPS_ARTIFACT;
        elements_mark(&composer->elements, copy->element, (int)to.page);
        add_op(&to.out->pages[to.page], copy);
    }
}

static bool is_within(const struct frame *inner, const struct frame *frame)
{
    while (inner != NULL && inner != frame)
        inner = inner->outer;
    return inner == frame;
}

/* What the frames around `frame` have put between it and its first or last fragment's edge. */
static double outer_pads_pt(const struct frame *frame, const struct fragment *fragment, bool above)
{
    double pads = 0;
    for (const struct frame *outer = frame->outer; outer != NULL; outer = outer->outer)
        if ((above ? outer->first : outer->last) == fragment)
            pads += outer->pad_pt;
    return pads;
}

/* A run of fragments on one page. */
struct run {
    struct composer *composer;
    struct paged *out;
    size_t page;
    const struct fragment *first, *end;
    double top;
    double dx; /* from where the fragments were set */
};

static void copy_to_page(const struct run *run, const struct fragment *fragment, double dy,
                         bool artifact)
{
    paginate_copy(run->composer, fragment, (struct page_place){run->out, run->page, run->dx, dy},
                  artifact);
}

/* Draws the outline of a frame that has its first fragment on this page at `fragment`, y. */
static void draw_frame(const struct run *run, const struct frame *frame,
                       const struct fragment *fragment, double y)
{
    double top = y, bottom = y;
    bool opens = fragment == frame->first, closes = false;
    if (opens)
        top += outer_pads_pt(frame, fragment, true);
    else if (fragment == run->first)
        top = run->top; /* a repeated table head stands above the fragment */
    for (const struct fragment *s = fragment; s != run->end && is_within(s->frame, frame);
         s = s->next) {
        y += s != fragment ? s->gap_pt : 0;
        y += s->height_pt;
        bottom = y;
        if (s == frame->last) {
            closes = true;
            bottom -= outer_pads_pt(frame, s, false);
        }
    }
    struct fragment outline = {0};
    callout_draw_frame(run->composer, frame, &outline,
                       (struct frame_part){top, bottom, opens, closes});
    copy_to_page(run, &outline, 0, true);
}

/* Frames around `fragment` that are not around what stands before it; the outer ones first. */
static void draw_frames(const struct run *run, const struct frame *frame,
                        const struct frame *before, const struct fragment *fragment, double y)
{
    if (frame == NULL || is_within(before, frame))
        return;
    draw_frames(run, frame->outer, before, fragment, y);
    draw_frame(run, frame, fragment, y);
}

static void set_figure(struct composer *composer, const struct fragment *fragment, double dx,
                       double dy)
{
    if (fragment->figure == OPS_ARTIFACT)
        return;
    struct element *element = elements_find(&composer->elements, fragment->figure);
    element->left = rounded(fragment->figure_left + dx);
    element->right = rounded(fragment->figure_right + dx);
    element->top = rounded(fragment->figure_top + dy);
    element->bottom = rounded(fragment->figure_bottom + dy);
}

/* Draws again the head of a table that goes on with `fragment`; where the fragment itself begins.
 */
static double draw_head(const struct run *run, const struct fragment *fragment, double y)
{
    const struct fragment *head =
        fragment != NULL && fragment->head != NULL ? fragment->head->first : NULL;
    for (; head != NULL; head = head->next) {
        copy_to_page(run, head, y, true);
        y += head->height_pt;
    }
    return y;
}

/* Draws the fragments of a run from y downwards. `around` is the frame that is drawn already. */
static void draw_run(const struct run *run, const struct frame *around, double y)
{
    const struct frame *before = around;
    for (const struct fragment *fragment = run->first; fragment != run->end;
         fragment = fragment->next) {
        y += fragment != run->first ? fragment->gap_pt : 0;
        draw_frames(run, fragment->frame, before, fragment, y);
        before = fragment->frame;
        double dy = y + fragment->inset_pt;
        copy_to_page(run, fragment, dy, false);
        set_figure(run->composer, fragment, run->dx, dy);
        for (size_t i = 0; i < fragment->side_count; i++) {
            struct run side = *run;
            side.first = fragment->sides[i].first;
            side.end = NULL;
            side.top = dy;
            side.dx += fragment->side_step_pt * (double)i;
            draw_run(&side, fragment->frame, draw_head(&side, side.first, dy));
        }
        y += fragment->height_pt;
    }
}

/* The fragment that begins the next page when `first` begins this one; NULL when all fit. */
static struct fragment *end_page(struct composer *composer, struct fragment *first)
{
    double room = composer->height_pt - page_break_head_height_pt(first) + PART_SLACK_PT;
    if (first->height_pt > room) {
        page_break_sides(composer, first, room, true);
        return first->next;
    }
    struct fragment *over = NULL;
    enum fragment_break how = BREAK_FREE;
    struct fragment *end = page_break_find_break(first, room, BREAK_FREE, &over, &how);
    if (over == NULL || over->side_count == 0)
        return end;
    double taken = stack_height_pt(first, over) + over->gap_pt;
    return page_break_sides(composer, over, room - taken, false) ? over->next : end;
}

static void draw_page(struct composer *composer, struct paged *out, size_t page,
                      const struct fragment *first, const struct fragment *end)
{
    struct run run = {composer, out, page, first, end, composer->top_pt, 0};
    draw_run(&run, NULL, draw_head(&run, first, composer->top_pt));
}

bool paginate_stack(struct composer *composer, const struct stack *stack, struct paged *out)
{
    out->pages = ARENA_ARRAY(composer->arena, struct page, LAYOUT_PAGE_LIMIT);
    out->page_count = stack->first == NULL ? 1 : 0;
    struct fragment *first = stack->first;
    while (first != NULL) {
        if (out->page_count == LAYOUT_PAGE_LIMIT) {
            diag_report(composer->diag, DIAG_ERROR, "too-many-pages", (struct mark){0},
                        "the document needs more than %d pages", LAYOUT_PAGE_LIMIT);
            return false;
        }
        struct fragment *end = end_page(composer, first);
        draw_page(composer, out, out->page_count++, first, end);
        first = end;
    }
    return true;
}
