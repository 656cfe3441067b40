#include "page/parting.h"

#include <math.h>

static const double LEAST_PART_PT = 60; /* of a column, before a break and behind it */

double part_head_height_pt(const struct strip *strip)
{
    return strip->head != NULL ? stack_height_pt(strip->head->first, NULL) : 0;
}

struct strip *part_find_break(struct strip *first, double room, enum strip_break at_ease,
                              struct strip **over, enum strip_break *how)
{
    double y = first->height_pt;
    struct strip *places[BREAK_GLUED + 1] = {NULL};
    *over = NULL;
    *how = BREAK_FREE;
    for (struct strip *strip = first->next; strip != NULL; strip = strip->next) {
        if (strip->new_page) {
            return strip;
        }
        places[strip->before <= at_ease ? BREAK_FREE : strip->before] = strip;
        y += strip->gap_pt + strip->height_pt;
        if (y > room) {
            *over = strip;
            while (*how < BREAK_GLUED && places[*how] == NULL) {
                (*how)++;
            }
            return places[*how];
        }
    }
    return NULL;
}

static double side_height_pt(const struct stack *side)
{
    return side->first != NULL
               ? part_head_height_pt(side->first) + stack_height_pt(side->first, NULL)
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

/* Where a side breaks that does not fit into the room; NULL when it has no place to. */
static struct strip *side_break(const struct stack *side, double room, enum strip_break at_ease,
                                enum strip_break *how)
{
    struct strip *over = NULL;
    double own_room = room - part_head_height_pt(side->first) + PART_SLACK_PT;
    return side->first->height_pt <= own_room
               ? part_find_break(side->first, own_room, at_ease, &over, how)
               : NULL;
}

/* Cuts a side before `at`, if that is not NULL; what is behind it goes to *rest. */
static void cut_side(struct stack *side, struct strip *at, struct stack *rest)
{
    *rest = (struct stack){0};
    if (at == NULL || side->first == NULL) {
        return;
    }
    if (at == side->first) {
        *rest = *side;
        *side = (struct stack){0};
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

/* ---- columns of their own --------------------------------------------------------------- */

/* Where each side would break; false when one has no place within the room, or, unless there is
 * `need`, no fair one. */
static bool find_side_breaks(const struct strip *strip, double room, bool need,
                             struct strip **breaks)
{
    for (size_t i = 0; i < strip->side_count; i++) {
        enum strip_break how = BREAK_FREE;
        breaks[i] = NULL;
        if (side_height_pt(&strip->sides[i]) <= room + PART_SLACK_PT) {
            continue;
        }
        breaks[i] = side_break(&strip->sides[i], room, BREAK_FREE, &how);
        bool is_fair = breaks[i] != NULL && how == BREAK_FREE &&
                       stack_height_pt(strip->sides[i].first, breaks[i]) >= LEAST_PART_PT;
        if (breaks[i] == NULL || !(is_fair || need)) {
            return false;
        }
    }
    return true;
}

/* A strip for what goes on behind this one. */
static void add_rest(struct composer *composer, struct strip *strip, const struct stack *sides)
{
    struct strip *rest = ARENA_NEW(composer->arena, struct strip);
    *rest = (struct strip){.height_pt = highest_pt(sides, strip->side_count),
                           .figure = OPS_ARTIFACT,
                           .frame = strip->frame,
                           .sides = sides,
                           .side_count = strip->side_count,
                           .side_step_pt = strip->side_step_pt,
                           .next = strip->next};
    strip->next = rest;
}

static bool part_own(struct composer *composer, struct strip *strip, double room, bool need)
{
    struct strip **breaks = ARENA_ARRAY(composer->arena, struct strip *, strip->side_count);
    if (!find_side_breaks(strip, room, need, breaks)) {
        return false;
    }
    struct stack *tops = ARENA_ARRAY(composer->arena, struct stack, strip->side_count);
    struct stack *rests = ARENA_ARRAY(composer->arena, struct stack, strip->side_count);
    for (size_t i = 0; i < strip->side_count; i++) {
        tops[i] = strip->sides[i];
        cut_side(&tops[i], breaks[i], &rests[i]);
    }
    strip->sides = tops;
    strip->height_pt = highest_pt(tops, strip->side_count);
    add_rest(composer, strip, rests);
    return true;
}

/* ---- columns that are poured ------------------------------------------------------------- */

/* Where each column begins, and then what is left; NULL from where there is nothing any more. */
struct pouring {
    struct strip *begins[PART_COLUMNS_MOST + 1];
    enum strip_break worst;
};

/* False when not even the first strip fits. One further on that does not fit leaves its column
 * empty. */
static bool plan_pouring(const struct stack *stack, size_t count, double room,
                         enum strip_break at_ease, struct pouring *out)
{
    *out = (struct pouring){.begins = {stack->first}, .worst = BREAK_FREE};
    for (size_t i = 0; i < count && out->begins[i] != NULL; i++) {
        struct stack side = {.first = out->begins[i], .last = stack->last};
        enum strip_break how = BREAK_FREE;
        if (side_height_pt(&side) <= room + PART_SLACK_PT) {
            break;
        }
        struct strip *next = side_break(&side, room, at_ease, &how);
        if (next == NULL && i == 0) {
            return false;
        }
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
static struct pouring plan_evenly(const struct stack *stack, size_t count, enum strip_break at_ease,
                                  double *height_pt)
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
static struct stack join_sides(const struct strip *strip)
{
    struct stack all = {0};
    for (size_t i = 0; i < strip->side_count; i++) {
        if (all.last == NULL) {
            all = strip->sides[i];
        } else if (strip->sides[i].first != NULL) {
            all.last->next = strip->sides[i].first;
            all.last = strip->sides[i].last;
        }
    }
    return all;
}

static bool part_poured(struct composer *composer, struct strip *strip, double room, bool need)
{
    struct stack all = join_sides(strip);
    size_t count = strip->side_count;
    /* on one page a block that is kept together may go on in the next column */
    double height = 0;
    struct stack rest;
    struct pouring plan = plan_evenly(&all, count, BREAK_KEPT, &height);
    if (height <= room) {
        strip->sides = cut_pouring(composer->arena, all, &plan, count, &rest);
        strip->height_pt = highest_pt(strip->sides, count);
        return true;
    }
    bool fits = plan_pouring(&all, count, room, BREAK_LONELY, &plan);
    bool is_fair = plan.begins[1] != NULL && plan.worst < BREAK_GLUED &&
                   stack_height_pt(all.first, plan.begins[1]) >= LEAST_PART_PT;
    if (!fits || !(is_fair || need)) {
        strip->sides = pour_evenly(composer->arena, &all, count);
        return false;
    }
    strip->sides = cut_pouring(composer->arena, all, &plan, count, &rest);
    strip->height_pt = highest_pt(strip->sides, count);
    if (rest.first != NULL) {
        add_rest(composer, strip, pour_evenly(composer->arena, &rest, count));
    }
    return true;
}

void part_pour(struct composer *composer, struct place *place, const struct stack *stack,
               size_t count, double step_pt)
{
    const struct stack *sides = pour_evenly(composer->arena, stack, count);
    struct strip *strip =
        stack_add(place->stack, composer->arena, highest_pt(sides, count), place->frame);
    strip->sides = sides;
    strip->side_count = count;
    strip->side_step_pt = step_pt;
}

/* ---- both --------------------------------------------------------------------------------- */

bool part_sides(struct composer *composer, struct strip *strip, double room, bool need)
{
    if (strip->side_count == 0 || room < LEAST_PART_PT) {
        return false;
    }
    return strip->side_step_pt > 0 ? part_poured(composer, strip, room, need)
                                   : part_own(composer, strip, room, need);
}
