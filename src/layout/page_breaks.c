/* Chooses where to part a stack of fragments: what stays together, what may stand alone. */
#include "layout/page_breaks.h"

#include <math.h>

static const double LEAST_PART_PT = 60; /* of a column, before a break and behind it */

double page_break_head_height_pt(const struct fragment *fragment)
{
    return fragment->head != NULL ? stack_height_pt(fragment->head->first, NULL) : 0;
}

struct fragment *page_break_find_break(struct fragment *first, double room,
                                       enum fragment_break at_ease, struct fragment **over,
                                       enum fragment_break *how)
{
    double y = first->height_pt;
    struct fragment *places[BREAK_GLUED + 1] = {NULL};
    *over = NULL;
    *how = BREAK_FREE;
    for (struct fragment *fragment = first->next; fragment != NULL; fragment = fragment->next) {
        if (fragment->new_page)
            return fragment;
        places[fragment->before <= at_ease ? BREAK_FREE : fragment->before] = fragment;
        y += fragment->gap_pt + fragment->height_pt;
        if (y > room) {
            *over = fragment;
            while (*how < BREAK_GLUED && places[*how] == NULL)
                (*how)++;
            return places[*how];
        }
    }
    return NULL;
}

static double side_height_pt(const struct stack *side)
{
    return side->first != NULL
               ? page_break_head_height_pt(side->first) + stack_height_pt(side->first, NULL)
               : 0;
}

static double highest_pt(const struct stack *sides, size_t count)
{
    double height = 0;
    for (size_t i = 0; i < count; i++)
        height = fmax(height, side_height_pt(&sides[i]));
    return height;
}

/* Where a side breaks that does not fit into the room; NULL when it has no place to. */
static struct fragment *side_break(const struct stack *side, double room,
                                   enum fragment_break at_ease, enum fragment_break *how)
{
    struct fragment *over = NULL;
    double own_room = room - page_break_head_height_pt(side->first) + PART_SLACK_PT;
    return side->first->height_pt <= own_room
               ? page_break_find_break(side->first, own_room, at_ease, &over, how)
               : NULL;
}

/* Cuts a side before `at`, if that is not NULL; what is behind it goes to *rest. */
static void cut_side(struct stack *side, struct fragment *at, struct stack *rest)
{
    *rest = (struct stack){0};
    if (at == NULL || side->first == NULL)
        return;
    if (at == side->first) {
        *rest = *side;
        *side = (struct stack){0};
        return;
    }
    struct fragment *last = side->first;
    while (last->next != at)
        last = last->next;
    *rest = (struct stack){.first = at, .last = side->last};
    side->last = last;
    last->next = NULL;
}

/* ---- columns of their own --------------------------------------------------------------- */

/* Where each side would break; false when one has no place within the room, or, unless there is
 * `need`, no fair one. */
static bool find_side_breaks(const struct fragment *fragment, double room, bool need,
                             struct fragment **breaks)
{
    for (size_t i = 0; i < fragment->side_count; i++) {
        enum fragment_break how = BREAK_FREE;
        breaks[i] = NULL;
        if (side_height_pt(&fragment->sides[i]) <= room + PART_SLACK_PT)
            continue;
        breaks[i] = side_break(&fragment->sides[i], room, BREAK_FREE, &how);
        bool is_fair = breaks[i] != NULL && how == BREAK_FREE &&
                       stack_height_pt(fragment->sides[i].first, breaks[i]) >= LEAST_PART_PT;
        if (breaks[i] == NULL || !(is_fair || need))
            return false;
    }
    return true;
}

/* A fragment for what goes on behind this one. */
static void add_rest(struct composer *composer, struct fragment *fragment,
                     const struct stack *sides)
{
    struct fragment *rest = ARENA_NEW(composer->arena, struct fragment);
    *rest = (struct fragment){.height_pt = highest_pt(sides, fragment->side_count),
                              .figure = OPS_ARTIFACT,
                              .frame = fragment->frame,
                              .sides = sides,
                              .side_count = fragment->side_count,
                              .side_step_pt = fragment->side_step_pt,
                              .next = fragment->next};
    fragment->next = rest;
}

static bool part_own(struct composer *composer, struct fragment *fragment, double room, bool need)
{
    struct fragment **breaks =
        ARENA_ARRAY(composer->arena, struct fragment *, fragment->side_count);
    if (!find_side_breaks(fragment, room, need, breaks))
        return false;
    struct stack *tops = ARENA_ARRAY(composer->arena, struct stack, fragment->side_count);
    struct stack *rests = ARENA_ARRAY(composer->arena, struct stack, fragment->side_count);
    for (size_t i = 0; i < fragment->side_count; i++) {
        tops[i] = fragment->sides[i];
        cut_side(&tops[i], breaks[i], &rests[i]);
    }
    fragment->sides = tops;
    fragment->height_pt = highest_pt(tops, fragment->side_count);
    add_rest(composer, fragment, rests);
    return true;
}

/* ---- columns that are poured ------------------------------------------------------------- */

/* Where each column begins, and then what is left; NULL from where there is nothing any more. */
struct pouring {
    struct fragment *begins[PART_COLUMNS_MOST + 1];
    enum fragment_break worst;
};

/* False when not even the first fragment fits. One further on that does not fit leaves its column
 * empty. */
static bool plan_pouring(const struct stack *stack, size_t count, double room,
                         enum fragment_break at_ease, struct pouring *out)
{
    *out = (struct pouring){.begins = {stack->first}, .worst = BREAK_FREE};
    for (size_t i = 0; i < count && out->begins[i] != NULL; i++) {
        struct stack side = {.first = out->begins[i], .last = stack->last};
        enum fragment_break how = BREAK_FREE;
        if (side_height_pt(&side) <= room + PART_SLACK_PT)
            break;
        struct fragment *next = side_break(&side, room, at_ease, &how);
        if (next == NULL && i == 0)
            return false;
        out->begins[i + 1] = next != NULL ? next : side.first;
        out->worst = how > out->worst ? how : out->worst;
    }
    return true;
}

static const struct stack *cut_pouring(struct arena *arena, struct stack stack,
                                       const struct pouring *plan, size_t count, struct stack *rest)
{
    struct stack *sides = ARENA_ARRAY(arena, struct stack, count);
    for (size_t i = 0; i < count; i++) {
        sides[i] = stack;
        cut_side(&sides[i], plan->begins[i + 1], &stack);
    }
    *rest = stack;
    return sides;
}

/* The least height, to a few points, at which all of it fits, parted at no worse a place. */
static struct pouring plan_evenly(const struct stack *stack, size_t count,
                                  enum fragment_break at_ease, double *height_pt)
{
    enum { STEPS = 10 };
    double high = side_height_pt(stack), low = high / (double)count;
    struct pouring good = {.begins = {stack->first}};
    for (int i = 0; i < STEPS; i++) {
        double height = i == 0 ? low : (low + high) / 2;
        struct pouring plan;
        if (plan_pouring(stack, count, height, at_ease, &plan) && plan.worst == BREAK_FREE &&
            plan.begins[count] == NULL) {
            good = plan;
            high = height;
        } else {
            low = height;
        }
    }
    *height_pt = high;
    return good;
}

/* A lone item or row reads well in a column of its own. */
static const struct stack *pour_evenly(struct arena *arena, const struct stack *stack, size_t count)
{
    struct stack none;
    double height = 0;
    struct pouring plan = plan_evenly(stack, count, BREAK_LONELY, &height);
    return cut_pouring(arena, *stack, &plan, count, &none);
}

/* The sides as the one stack that they were. */
static struct stack join_sides(const struct fragment *fragment)
{
    struct stack all = {0};
    for (size_t i = 0; i < fragment->side_count; i++) {
        if (all.last == NULL) {
            all = fragment->sides[i];
        } else if (fragment->sides[i].first != NULL) {
            all.last->next = fragment->sides[i].first;
            all.last = fragment->sides[i].last;
        }
    }
    return all;
}

static bool part_poured(struct composer *composer, struct fragment *fragment, double room,
                        bool need)
{
    struct stack all = join_sides(fragment);
    size_t count = fragment->side_count;
    /* on one page a block that is kept together may go on in the next column */
    double height = 0;
    struct stack rest;
    struct pouring plan = plan_evenly(&all, count, BREAK_KEPT, &height);
    if (height <= room) {
        fragment->sides = cut_pouring(composer->arena, all, &plan, count, &rest);
        fragment->height_pt = highest_pt(fragment->sides, count);
        return true;
    }
    bool fits = plan_pouring(&all, count, room, BREAK_LONELY, &plan);
    bool is_fair = plan.begins[1] != NULL && plan.worst < BREAK_GLUED &&
                   stack_height_pt(all.first, plan.begins[1]) >= LEAST_PART_PT;
    if (!fits || !(is_fair || need)) {
        fragment->sides = pour_evenly(composer->arena, &all, count);
        return false;
    }
    fragment->sides = cut_pouring(composer->arena, all, &plan, count, &rest);
    fragment->height_pt = highest_pt(fragment->sides, count);
    if (rest.first != NULL)
        add_rest(composer, fragment, pour_evenly(composer->arena, &rest, count));
    return true;
}

void page_break_pour(struct composer *composer, struct place *place, const struct stack *stack,
                     size_t count, double step_pt)
{
    const struct stack *sides = pour_evenly(composer->arena, stack, count);
    struct fragment *fragment =
        stack_add(place->stack, composer->arena, highest_pt(sides, count), place->frame);
    fragment->sides = sides;
    fragment->side_count = count;
    fragment->side_step_pt = step_pt;
}

/* ---- both --------------------------------------------------------------------------------- */

bool page_break_sides(struct composer *composer, struct fragment *fragment, double room, bool need)
{
    if (fragment->side_count == 0 || room < LEAST_PART_PT)
        return false;
    return fragment->side_step_pt > 0 ? part_poured(composer, fragment, room, need)
                                      : part_own(composer, fragment, room, need);
}
