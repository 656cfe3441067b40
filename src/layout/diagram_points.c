/* Where the points, signs and marks of a diagram are, once it is known how large it is drawn. */
#include "layout/diagram_place.h"

#include <math.h>

struct point diagram_point(const struct placed *placed, double x, double y)
{
    return (struct point){placed->left + x * placed->scale, placed->floor_y - y * placed->scale};
}

static const double RING_PT = 5.5, WALL_PT = 1, SMALL_PT = 6, SEEN_PT = 8.5; /* 2 mm, 3 mm */

double diagram_outline_width(const struct diagram *diagram, const struct placed *placed,
                             const struct diagram_thing *thing)
{
    static const double WALL = 0.97;
    const double own = thing->width * placed->scale, high = thing->height * placed->scale,
                 room = (WALL * diagram->length - thing->x) * placed->scale;
    return high <= 0 || high >= SMALL_PT ? own : fmax(own, fmin(room, own * SEEN_PT / high));
}

bool diagram_is_enlarged(const struct diagram *diagram, const struct placed *placed)
{
    for (size_t i = 0; i < diagram->thing_count; i++)
        if (diagram->things[i].kind == THING_OUTLINE &&
            diagram_outline_width(diagram, placed, &diagram->things[i]) >
                diagram->things[i].width * placed->scale)
            return true;
    return false;
}

struct extent_pt diagram_outline_box(const struct diagram *d, const struct placed *p,
                                     const struct diagram_thing *animal)
{
    const double width = diagram_outline_width(d, p, animal);
    const double high = animal->width > 0 ? width * animal->height / animal->width : 0;
    struct point feet = diagram_point(p, animal->x, animal->y);
    return (struct extent_pt){feet.x, feet.y - high, feet.x + width, feet.y};
}

/* Of a line that is an animal. */
static struct extent_pt line_box(const struct placed *p, const struct diagram_thing *line)
{
    struct extent_pt box = {HUGE_VAL, HUGE_VAL, -HUGE_VAL, -HUGE_VAL};
    const double half = line->stroke * p->scale / 2;
    for (size_t i = 0; i < line->count; i++) {
        const struct point at = diagram_point(p, line->points[2 * i], line->points[2 * i + 1]);
        box.left = fmin(box.left, at.x - half);
        box.right = fmax(box.right, at.x + half);
        box.top = fmin(box.top, at.y - half);
        box.bottom = fmax(box.bottom, at.y + half);
    }
    return box;
}

static double mark_radius(const struct diagram_label *label)
{
    return label->mark != NULL ? DIAGRAM_MARK_PT : RING_PT;
}

/* A measuring point stands above the floor and off the walls even where the scale is small. */
static struct point label_point(const struct diagram *d, const struct placed *placed,
                                const struct diagram_label *label)
{
    static const double FLOOR = 4;
    static const double SHARE = 0.15; /* of a box that is hardly wider than its marks */
    const double wide = d->length * placed->scale, right = placed->left + wide,
                 off = fmin(mark_radius(label) + WALL_PT, SHARE * wide);
    struct point point = diagram_point(placed, label->x, label->y);
    if (!label->has_point)
        return point;
    point.y = fmin(point.y, placed->floor_y - FLOOR - mark_radius(label));
    if (right - off > placed->left + off)
        point.x = fmin(fmax(point.x, placed->left + off), right - off);
    return point;
}

/* Moves a point off the marks at the left of it that it would stand on. */
static double clear_of(const struct diagram *d, const struct placed *p, const size_t *order,
                       size_t at)
{
    static const double APART = 1.5;
    const struct point *own = &p->labels[order[at]].point;
    double x = own->x;
    for (size_t k = 0; k < at; k++) {
        const struct point *other = &p->labels[order[k]].point;
        double radii = mark_radius(&d->labels[order[k]]) + mark_radius(&d->labels[order[at]]);
        if (fabs(other->y - own->y) < radii)
            x = fmax(x, other->x + radii + APART);
    }
    return x;
}

static bool meets(struct point at, double radius, const struct extent_pt *box)
{
    return at.x + radius > box->left && at.x - radius < box->right && at.y + radius > box->top &&
           at.y - radius < box->bottom;
}

/* A snake lies high: what is measured at its right stands there, while the box is wide enough. */
static void clear_snake(const struct diagram *d, const struct placed *p, double radius,
                        const struct diagram_thing *snake, struct point *point)
{
    static const double APART = 2;
    const struct extent_pt box = line_box(p, snake);
    const double beside = box.right + APART + radius,
                 wall = p->left + d->length * p->scale - WALL_PT;
    if (meets(*point, radius, &box) && point->x > (box.left + box.right) / 2 &&
        beside + radius < wall)
        point->x = beside;
}

/* A mark does not hide the animal: it stands above its back, where there is room below the top. */
static void clear_animal(const struct diagram *d, const struct placed *p,
                         const struct diagram_label *label, struct point *point)
{
    static const double APART = 1;
    const double radius = mark_radius(label), top = p->floor_y - d->height * p->scale;
    for (size_t i = 0; i < d->thing_count; i++) {
        const struct diagram_thing *animal = &d->things[i];
        if (animal->is_animal)
            clear_snake(d, p, radius, animal, point);
        if (animal->kind != THING_OUTLINE)
            continue;
        const struct extent_pt box = diagram_outline_box(d, p, animal);
        const double above = box.top - APART - radius;
        if (meets(*point, radius, &box) && above - radius > top)
            point->y = above;
    }
}

static void set_measured_points(const struct diagram *d, struct placed *p)
{
    size_t order[DIAGRAM_LABELS_MOST], count = 0;
    for (size_t i = 0; i < d->label_count && i < DIAGRAM_LABELS_MOST; i++) {
        p->labels[i].point = label_point(d, p, &d->labels[i]);
        if (!d->labels[i].has_point || d->labels[i].is_level)
            continue;
        clear_animal(d, p, &d->labels[i], &p->labels[i].point);
        size_t k = count++;
        for (; k > 0 && d->labels[order[k - 1]].x > d->labels[i].x; k--)
            order[k] = order[k - 1];
        order[k] = i;
    }
    for (size_t i = 1; i < count; i++)
        p->labels[order[i]].point.x = clear_of(d, p, order, i);
    if (count == 0)
        return;
    /* what has no room at the right wall moves back, all together */
    const struct placed_label *last = &p->labels[order[count - 1]];
    double over = last->point.x + mark_radius(&d->labels[order[count - 1]]) -
                  (p->left + d->length * p->scale - WALL_PT);
    for (size_t i = 0; i < count && over > 0; i++)
        p->labels[order[i]].point.x -= over;
    for (size_t i = 0; i < count; i++) /* what was moved onto it */
        clear_animal(d, p, &d->labels[order[i]], &p->labels[order[i]].point);
}

static struct extent_pt bar_box(const struct placed *p, const struct diagram_thing *bar)
{
    struct point at = diagram_point(p, bar->x, bar->y);
    return (struct extent_pt){at.x, at.y - DIAGRAM_BAR_PT, at.x + bar->width * p->scale, at.y};
}

/* Is a mark here off the other marks, the lamps, the distance and the animal? */
static bool is_free(const struct diagram *d, const struct placed *p, size_t level, struct point at)
{
    static const double APART = 1.5;
    const double radius = mark_radius(&d->labels[level]) + APART;
    for (size_t i = 0; i < d->label_count && i < DIAGRAM_LABELS_MOST; i++) {
        const bool is_set = !d->labels[i].is_level || i < level;
        if (i != level && d->labels[i].has_point && is_set &&
            hypot(p->labels[i].point.x - at.x, p->labels[i].point.y - at.y) <
                radius + mark_radius(&d->labels[i]))
            return false;
    }
    for (size_t i = 0; i < d->thing_count; i++) {
        const struct diagram_thing *thing = &d->things[i];
        if (thing->kind != THING_OUTLINE && thing->kind != THING_BAR)
            continue;
        const struct extent_pt box =
            thing->kind == THING_BAR ? bar_box(p, thing) : diagram_outline_box(d, p, thing);
        if (at.x + radius > box.left && at.x - radius < box.right && at.y + radius > box.top &&
            at.y - radius < box.bottom)
            return false;
    }
    return d->distance == NULL || fabs(diagram_point(p, d->distance->x, 0).x - at.x) > radius;
}

/* A limit's mark: on its line as far to the right as there is room, or outside of the wall. */
static void set_level_point(const struct diagram *d, struct placed *p, size_t level)
{
    static const double STEP = 3, WALL = 4, OUTSIDE = 2;
    const double radius = mark_radius(&d->labels[level]), y = p->labels[level].point.y,
                 right = p->left + d->length * p->scale;
    struct point at = {right - radius - WALL, y};
    if (d->labels[level].is_mark_beside) { /* where the line begins, near the labels */
        p->labels[level].point = (struct point){p->left, y};
        return;
    }
    while (at.x > p->left + radius + WALL && !is_free(d, p, level, at))
        at.x -= STEP;
    if (at.x <= p->left + radius + WALL)
        at.x = right + radius + OUTSIDE;
    p->labels[level].point = at;
}

void diagram_set_points(const struct diagram *d, struct placed *p)
{
    set_measured_points(d, p);
    for (size_t i = 0; i < d->label_count && i < DIAGRAM_LABELS_MOST; i++)
        if (d->labels[i].has_point && d->labels[i].is_level)
            set_level_point(d, p, i);
}

double diagram_sign_size(const struct diagram *diagram, const struct placed *placed)
{
    static const double MOST = 24, LEAST = 8, SHARE = 0.4;
    double side = fmin(diagram->length, diagram->height) * placed->scale;
    return fmax(LEAST, fmin(MOST, SHARE * side));
}

/* Below the bars that it would stand on. */
static struct point below_bars(const struct diagram *diagram, const struct placed *placed,
                               struct point at, double half)
{
    static const double OFF = 2;
    for (size_t i = 0; i < diagram->thing_count; i++) {
        struct extent_pt bar = bar_box(placed, &diagram->things[i]);
        if (diagram->things[i].kind == THING_BAR && bar.left < at.x + half &&
            bar.right > at.x - half && bar.top < at.y + half && bar.bottom > at.y - half)
            at.y = bar.bottom + half + OFF;
    }
    return at;
}

static bool covers_point(const struct diagram *d, const struct placed *p, struct point at,
                         double half)
{
    for (size_t i = 0; i < d->label_count && i < DIAGRAM_LABELS_MOST; i++) {
        const struct point *point = &p->labels[i].point;
        if (d->labels[i].has_point && fabs(point->x - at.x) < half + DIAGRAM_MARK_PT &&
            fabs(point->y - at.y) < half + DIAGRAM_MARK_PT)
            return true;
    }
    return false;
}

/* Nobody measures where it hangs, so it gives way: to bars downwards, to marks to the right. */
struct point diagram_sign_point(const struct diagram *diagram, const struct placed *placed,
                                const struct diagram_thing *thing)
{
    static const double OFF = 2, STEP = 2, ASIDE = 3;
    const double half = diagram_sign_size(diagram, placed) / 2,
                 right = placed->left + diagram->length * placed->scale - half - OFF;
    struct point at = diagram_point(placed, thing->x, thing->y);
    at.x = fmax(at.x, placed->left + half + OFF);
    for (double x = at.x; x <= fmin(right, at.x + ASIDE * half); x += STEP) {
        struct point free = below_bars(diagram, placed, (struct point){x, at.y}, half);
        if (!covers_point(diagram, placed, free, half))
            return free;
    }
    return at;
}

static bool is_on_mark(const struct diagram *d, const struct placed *p, struct point at)
{
    for (size_t i = 0; i < d->label_count && i < DIAGRAM_LABELS_MOST; i++)
        if (d->labels[i].has_point &&
            hypot(p->labels[i].point.x - at.x, p->labels[i].point.y - at.y) <
                DIAGRAM_MARK_PT + mark_radius(&d->labels[i]) + 1)
            return true;
    return false;
}

/* Does a mark here stand on what is drawn in the box? */
static bool is_on_thing(const struct diagram *d, const struct placed *p, struct point at)
{
    for (size_t i = 0; i < d->thing_count; i++) {
        const struct diagram_thing *thing = &d->things[i];
        struct point low = diagram_point(p, thing->x, thing->y);
        struct extent_pt box = {low.x, low.y - thing->height * p->scale,
                                low.x + thing->width * p->scale, low.y};
        if (thing->kind == THING_OUTLINE)
            box = diagram_outline_box(d, p, thing);
        else if (thing->kind != THING_BLOCK)
            continue;
        if (at.x + DIAGRAM_MARK_PT > box.left && at.x - DIAGRAM_MARK_PT < box.right &&
            at.y + DIAGRAM_MARK_PT > box.top && at.y - DIAGRAM_MARK_PT < box.bottom)
            return true;
    }
    return false;
}

/* On the water as far to the left as there is room, or outside of the wall. */
static struct point water_mark(const struct diagram *d, const struct placed *p,
                               const struct diagram_thing *water)
{
    static const double STEP = 3, WALL = 4, OUTSIDE = 11;
    struct point at = diagram_point(p, water->x, water->y);
    const double right = p->left + d->length * p->scale;
    for (at.x += DIAGRAM_MARK_PT + WALL; at.x < right - DIAGRAM_MARK_PT - WALL; at.x += STEP)
        if (!is_on_mark(d, p, at) && !is_on_thing(d, p, at))
            return at;
    at.x = right + OUTSIDE;
    return at;
}

static bool is_on_distance(const struct diagram *d, const struct placed *p, struct point at)
{
    static const double OFF = 2;
    if (d->distance == NULL)
        return false;
    const struct point from = diagram_point(p, d->distance->x, d->distance->from);
    return fabs(from.x - at.x) < DIAGRAM_MARK_PT + OFF && at.y + DIAGRAM_MARK_PT > from.y;
}

/* Does a mark here stand on a lamp, its own or another one? */
static bool is_on_lamp(const struct diagram *d, const struct placed *p, struct point at)
{
    for (size_t i = 0; i < d->thing_count; i++) {
        const struct diagram_thing *thing = &d->things[i];
        struct extent_pt box = bar_box(p, thing);
        if (thing->kind == THING_PICTOGRAM) {
            const struct point sign = diagram_sign_point(d, p, thing);
            const double half = diagram_sign_size(d, p) / 2;
            box = (struct extent_pt){sign.x - half, sign.y - half, sign.x + half, sign.y + half};
        } else if (thing->kind != THING_BAR)
            continue;
        if (at.x + DIAGRAM_MARK_PT > box.left && at.x - DIAGRAM_MARK_PT < box.right &&
            at.y + DIAGRAM_MARK_PT > box.top && at.y - DIAGRAM_MARK_PT < box.bottom)
            return true;
    }
    return false;
}

/* Beside a lamp or below it, where the mark covers neither that nor what else is drawn; beyond the
 * wall where there is no such place. */
static struct point lamp_mark(const struct diagram *d, const struct placed *p,
                              struct extent_pt lamp)
{
    static const double OFF = 2.5, TOP = 9.5;
    const double apart = DIAGRAM_MARK_PT + OFF, left = p->left + apart,
                 right = p->left + d->length * p->scale - apart,
                 middle = fmax(TOP, (lamp.top + lamp.bottom) / 2), below = lamp.bottom + apart;
    const struct point places[] = {{lamp.right + apart, middle},
                                   {lamp.right - DIAGRAM_MARK_PT, below},
                                   {lamp.left - apart, middle},
                                   {lamp.left + DIAGRAM_MARK_PT, below},
                                   {(lamp.left + lamp.right) / 2, below}};
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        const struct point *at = &places[i];
        if (at->x >= left && at->x <= right && !is_on_mark(d, p, *at) && !is_on_lamp(d, p, *at) &&
            !is_on_distance(d, p, *at) && !is_on_thing(d, p, *at))
            return *at;
    }
    return (struct point){p->left + d->length * p->scale + DIAGRAM_MARK_PT + OFF, middle};
}

/* Above what stands on the floor, or beside it: its points are the corners of an area. */
static struct point area_mark(const struct diagram *d, const struct placed *p,
                              const struct diagram_thing *area)
{
    static const double OFF = 2;
    double top = 0;
    for (size_t i = 0; i < area->count; i++)
        top = fmax(top, area->points[2 * i + 1]);
    const double apart = DIAGRAM_MARK_PT + OFF, right = p->left + d->length * p->scale - apart;
    const struct point left = diagram_point(p, area->x, top);
    const double middle = left.x + area->width * p->scale / 2;
    const struct point places[] = {{middle, left.y - apart},
                                   {middle, left.y - 3 * apart},
                                   {left.x - apart, left.y - apart},
                                   {left.x - 3 * apart, left.y - apart}};
    for (size_t i = 0; i < sizeof places / sizeof *places; i++)
        if (places[i].x >= p->left + apart && places[i].x <= right &&
            !is_on_mark(d, p, places[i]) && !is_on_lamp(d, p, places[i]) &&
            !is_on_distance(d, p, places[i]) && !is_on_thing(d, p, places[i]))
            return places[i];
    return (struct point){right + 2 * apart, left.y - apart};
}

struct point diagram_mark_point(const struct diagram *diagram, const struct placed *placed,
                                const struct diagram_thing *thing)
{
    if (thing->kind == THING_WATER)
        return water_mark(diagram, placed, thing);
    if (thing->kind == THING_AREA)
        return area_mark(diagram, placed, thing);
    if (thing->kind != THING_PICTOGRAM)
        return lamp_mark(diagram, placed, bar_box(placed, thing));
    const struct point sign = diagram_sign_point(diagram, placed, thing);
    const double half = diagram_sign_size(diagram, placed) / 2;
    return lamp_mark(
        diagram, placed,
        (struct extent_pt){sign.x - half, sign.y - half, sign.x + half, sign.y + half});
}
