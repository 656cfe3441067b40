/* The lines from labels at the sides of a drawing to their points: the first way of each that meets
 * nothing, else the one that meets least. */
#include <math.h>

#include "layout/diagram_place.h"

static const double OFF_BAR_PT = 1.5, NEAR_PT = 2, MARK_PT = 9.5, RING_PT = 6;

/* ---- what a line may not meet ---- */

static struct extent_pt around(struct point at, double half)
{
    return (struct extent_pt){at.x - half, at.y - half, at.x + half, at.y + half};
}

enum { OBSTACLES_MOST = 40 };

struct obstacles {
    struct extent_pt boxes[OBSTACLES_MOST];
    size_t count;
    bool has_distance; /* the first of them, a thin line: crossed before anything else is */
    size_t animals;    /* the last of them, where nothing else is met that much less */
};

/* A line over an animal is better than one over anything else. */
enum { AS_ANIMALS = 8 };

static void add(struct obstacles *o, struct extent_pt box)
{
    if (o->count < OBSTACLES_MOST)
        o->boxes[o->count++] = box;
}

static void add_things(const struct diagram *d, const struct placed *p, struct obstacles *o)
{
    if (d->distance != NULL) {
        struct point from = diagram_point(p, d->distance->x, d->distance->from),
                     to = diagram_point(p, d->distance->x, d->distance->to);
        add(o, (struct extent_pt){from.x - NEAR_PT, from.y, to.x + NEAR_PT, to.y});
        o->has_distance = true;
    }
    for (size_t i = 0; i < d->thing_count; i++) {
        const struct diagram_thing *thing = &d->things[i];
        struct point at = diagram_point(p, thing->x, thing->y);
        if (thing->kind == THING_PICTOGRAM)
            add(o, around(diagram_sign_point(d, p, thing), diagram_sign_size(d, p) / 2 + 1));
        if (thing->kind == THING_BAR)
            add(o,
                (struct extent_pt){at.x - OFF_BAR_PT, at.y - DIAGRAM_BAR_PT - OFF_BAR_PT,
                                   at.x + thing->width * p->scale + OFF_BAR_PT, at.y + OFF_BAR_PT});
        if (thing->mark != NULL)
            add(o, around(diagram_mark_point(d, p, thing), MARK_PT));
    }
}

/* Behind all else. */
static void add_animals(const struct diagram *d, const struct placed *p, struct obstacles *o)
{
    const size_t before = o->count;
    for (size_t i = 0; i < d->thing_count; i++)
        if (d->things[i].kind == THING_OUTLINE)
            add(o, diagram_outline_box(d, p, &d->things[i]));
    o->animals = o->count - before;
}

/* All labels but this one, and the marks at their points. */
static void add_labels(const struct diagram *d, const struct placed *p, size_t but,
                       struct obstacles *o)
{
    for (size_t i = 0; i < p->label_count; i++) {
        if (i == but)
            continue;
        add(o, p->labels[i].box);
        if (d->labels[i].has_point)
            add(o, around(p->labels[i].point, d->labels[i].mark != NULL ? MARK_PT : RING_PT));
    }
}

/* ---- whether it meets it ---- */

static double side_of(struct point a, struct point b, struct point c)
{
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

static bool cross(struct point a, struct point b, struct point c, struct point d)
{
    return side_of(a, b, c) * side_of(a, b, d) < 0 && side_of(c, d, a) * side_of(c, d, b) < 0;
}

static bool is_inside(struct point at, const struct extent_pt *box)
{
    return at.x > box->left && at.x < box->right && at.y > box->top && at.y < box->bottom;
}

/* An end in the box, or a way across one of its diagonals. */
static bool enters(struct point a, struct point b, const struct extent_pt *box)
{
    const struct point corners[] = {{box->left, box->top},
                                    {box->right, box->bottom},
                                    {box->left, box->bottom},
                                    {box->right, box->top}};
    return is_inside(a, box) || is_inside(b, box) || cross(a, b, corners[0], corners[1]) ||
           cross(a, b, corners[2], corners[3]);
}

/* Animals count one each, all else so much more. */
static size_t count_met(const struct leader *leader, const struct obstacles *o)
{
    size_t met = 0;
    for (size_t i = 0; i < o->count; i++) {
        bool meets = false;
        for (size_t k = 0; k + 1 < leader->count && !meets; k++)
            meets = enters(leader->points[k], leader->points[k + 1], &o->boxes[i]);
        met += !meets                       ? 0
               : i >= o->count - o->animals ? 1
               : o->has_distance && i == 0  ? AS_ANIMALS
                                            : 2 * AS_ANIMALS;
    }
    return met;
}

static bool leaders_cross(const struct leader *a, const struct leader *b)
{
    for (size_t i = 0; i + 1 < a->count; i++)
        for (size_t k = 0; k + 1 < b->count; k++)
            if (cross(a->points[i], a->points[i + 1], b->points[k], b->points[k + 1]))
                return true;
    return false;
}

/* ---- the ways ---- */

struct way {
    struct point start, point;
    double inner, wall;
};

static struct leader bent(const struct way *w, bool straight)
{
    struct point bend = {straight ? w->inner : w->point.x, w->start.y};
    return (struct leader){{w->start, bend, w->point}, 3};
}

/* Into the box at another height than the label's, level there and down to the point, which is
 * lower: already at that height past the labels, or only at the wall. */
static struct leader detour(const struct way *w, double y, bool early)
{
    struct point over = {w->point.x, y};
    if (early)
        return (struct leader){{w->start, {w->inner, y}, over, w->point}, 4};
    return (struct leader){{w->start, {w->inner, w->start.y}, {w->wall, y}, over, w->point}, 5};
}

/* Level at the middle of the label, then down to the point; past the column's widest label it may
 * go straight to a point near its own wall. */
static bool goes_straight(const struct diagram *d, const struct placed *p, const struct way *w)
{
    static const double NEAR_WALL = 0.2, FLAT = 10;
    return fabs(w->point.x - w->wall) < NEAR_WALL * d->length * p->scale ||
           fabs(w->point.y - w->start.y) < FLAT;
}

struct leading {
    const struct diagram *d;
    struct placed *p;
    const struct lead *leads; /* those before the one under way are led */
    struct obstacles things;
};

static size_t count_faults(const struct leading *l, size_t at, const struct obstacles *o,
                           const struct leader *leader)
{
    size_t faults = count_met(leader, o);
    for (size_t i = 0; i < at; i++)
        faults +=
            leaders_cross(leader, &l->p->labels[l->leads[i].label].leader) ? 2 * AS_ANIMALS : 0;
    return faults;
}

static void try_way(const struct leading *l, size_t at, const struct obstacles *o,
                    struct leader leader, size_t *least)
{
    if (*least == 0)
        return;
    size_t faults = count_faults(l, at, o, &leader);
    if (faults >= *least)
        return;
    *least = faults;
    l->p->labels[l->leads[at].label].leader = leader;
}

static size_t lead_one(const struct leading *l, size_t at)
{
    static const double OFF = 3, LEVEL_LARGE = 24, LEVEL = 21, BELOW = 3;
    const struct lead *lead = &l->leads[at];
    const struct placed_label *label = &l->p->labels[lead->label];
    const struct extent_pt *box = &label->box;
    double level = box->top + (l->d->labels[lead->label].is_large ? LEVEL_LARGE : LEVEL);
    const struct way w = {
        .start = {lead->from_left ? box->right + OFF : box->left - OFF, level},
        .point = label->point,
        .inner = lead->inner,
        .wall = lead->from_left ? l->p->left : l->p->left + l->d->length * l->p->scale,
    };
    struct obstacles o = l->things;
    size_t least = SIZE_MAX;
    add_labels(l->d, l->p, lead->label, &o);
    add_animals(l->d, l->p, &o);
    bool straight = goes_straight(l->d, l->p, &w);
    try_way(l, at, &o, bent(&w, straight), &least);
    try_way(l, at, &o, bent(&w, !straight), &least);
    for (size_t i = 0; i < 2 * o.count; i++) {
        double y = o.boxes[i / 2].bottom + BELOW;
        if (y + BELOW < w.point.y)
            try_way(l, at, &o, detour(&w, y, i % 2), &least);
    }
    return least / AS_ANIMALS; /* no order of the labels leads round what has its point beneath */
}

size_t diagram_lead(const struct diagram *diagram, struct placed *placed, const struct lead *leads,
                    size_t count)
{
    struct leading l = {.d = diagram, .p = placed, .leads = leads};
    size_t faults = 0;
    add_things(diagram, placed, &l.things);
    for (size_t i = 0; i < count; i++)
        faults += lead_one(&l, i);
    return faults;
}
