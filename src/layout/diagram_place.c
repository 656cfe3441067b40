/* Which layout a diagram takes, at which scale, and where each label stands. */
#include "layout/diagram_place.h"
#include "layout/panels.h"

#include <math.h>

static const double APART_PT = 10, COLUMN_PT = 128, ONE_COLUMN_PT = 112, BESIDE_PT = 10;
static const double WORDS_PT = 15, LEAST_BOX_PT = 70, INSIDE_LENGTH_PT = 335;
static const double NARROW_PT = 355, STEM_PT = 10, POINT_PT = 10;

/* ---- sizes ---- */

static const double MARK_ROOM = 20;

bool diagram_has_mark_beside(const struct diagram_label *label)
{
    return label->mark != NULL && (!label->has_point || label->is_mark_beside);
}

/* A mark beside a small number needs room below the title. */
double diagram_value_base(const struct diagram_label *label)
{
    return label->is_large ? 31 : diagram_has_mark_beside(label) ? 29 : 25;
}

/* How wide and high a label is. */
static struct extent_pt diagram_label_size(const struct composer *composer,
                                           const struct diagram_label *label)
{
    static const double SIGN = 15, TURN = 18, OPEN = 42, BELOW = 4;
    struct lettering title = {.size_pt = 12}, now = {.size_pt = label->is_large ? 14 : 12},
                     value = {.size_pt = label->is_large ? 22 : 14, .strong = true};
    double mark = diagram_has_mark_beside(label) ? MARK_ROOM : 0;
    double widest =
        board_width_pt(composer, &title, label->title) + (label->pictogram != NULL ? SIGN : 0);
    widest = fmax(widest, board_width_pt(composer, &value, label->value) + mark);
    widest =
        fmax(widest, board_width_pt(composer, &now, label->now) +
                         (label->turn != TURN_NONE ? TURN : 0) + (label->is_now_open ? OPEN : 0));
    double now_line = label->now != NULL ? (label->is_large ? 16 : 14.5) : 0;
    return (struct extent_pt){0, 0, widest, diagram_value_base(label) + now_line + BELOW};
}

static double total_length(const struct diagram *d)
{
    return fmax(d->length, d->needed_length);
}

static double total_height(const struct diagram *d)
{
    return fmax(d->top, d->needed_height);
}

static void set_box(struct placed *p, struct extent_pt *box, double left, double top,
                    struct extent_pt size)
{
    (void)p;
    *box = (struct extent_pt){left, top, left + size.right, top + size.bottom};
}

/* The scale at which the drawing takes this room, and where it stands: its left and floor. */
static void scale_to(const struct diagram *d, struct placed *p, double left, double width,
                     double top, double height)
{
    p->scale = fmin(width / total_length(d), height / total_height(d));
    p->left = left + (width - total_length(d) * p->scale) / 2;
    p->floor_y = top + total_height(d) * p->scale;
}

/* ---- inside: two rows in the box ---- */

struct row_item {
    size_t label;
    double at, width; /* wished left edge */
};

/* Pushes the items of a row apart, rightwards and then back from the right wall. */
static bool spread(struct row_item *items, size_t count, double left, double right)
{
    double at = left;
    for (size_t i = 0; i < count; i++) {
        items[i].at = fmax(items[i].at, at);
        at = items[i].at + items[i].width + APART_PT;
    }
    at = right;
    for (size_t i = count; i-- > 0;) {
        items[i].at = fmin(items[i].at, at - items[i].width);
        at = items[i].at - APART_PT;
    }
    return count == 0 || items[0].at >= left - 0.01;
}

static void sort_row(struct row_item *items, size_t count)
{
    for (size_t i = 1; i < count; i++)
        for (size_t k = i; k > 0 && items[k].at < items[k - 1].at; k--) {
            struct row_item other = items[k];
            items[k] = items[k - 1];
            items[k - 1] = other;
        }
}

/* The highest thing above the floor between two edges, in points. */
static double highest_below(const struct diagram *d, const struct placed *p, double left,
                            double right)
{
    double highest = 0;
    for (size_t i = 0; i < d->thing_count; i++) {
        const struct diagram_thing *thing = &d->things[i];
        double from = thing->x, to = thing->x + thing->width, top = thing->y + thing->height;
        if (thing->kind == THING_BAR || thing->kind == THING_PICTOGRAM || thing->kind == THING_EYE)
            continue;
        if (thing->kind == THING_WATER)
            top = thing->y;
        for (size_t k = 0; k < thing->count; k++) {
            from = k == 0 ? thing->points[0] : fmin(from, thing->points[2 * k]);
            to = k == 0 ? thing->points[0] : fmax(to, thing->points[2 * k]);
            top = k == 0 ? thing->points[1] : fmax(top, thing->points[2 * k + 1]);
        }
        top += thing->stroke / 2;
        from -= thing->stroke / 2;
        to += thing->stroke / 2;
        if (p->left + to * p->scale >= left && p->left + from * p->scale <= right)
            highest = fmax(highest, top * p->scale);
    }
    return highest;
}

/* Under the lamps: what hangs highest in the box below its lid, in points below the lid. */
static double hanging_pt(const struct diagram *d, const struct placed *p, double left, double right)
{
    static const double BESIDE = 22;
    const double sign_half = diagram_sign_size(d, p) / 2 + 1;
    double lowest = 0, top = d->height;
    for (size_t i = 0; i < d->thing_count; i++) {
        const struct diagram_thing *thing = &d->things[i];
        bool sign = thing->kind == THING_PICTOGRAM;
        if ((thing->kind != THING_BAR && !sign) || thing->y > top)
            continue;
        double half = sign ? sign_half : thing->mark != NULL ? DIAGRAM_MARK_PT : 0;
        double beside = thing->mark != NULL ? half + BESIDE : half;
        struct point at =
            sign ? diagram_sign_point(d, p, thing) : diagram_point(p, thing->x, thing->y);
        double from = at.x - beside, to = at.x + thing->width * p->scale + beside;
        if (to >= left && from <= right)
            lowest = fmax(lowest, at.y - (p->floor_y - top * p->scale) + half + 4);
        at = thing->mark != NULL ? diagram_mark_point(d, p, thing) : at;
        if (thing->mark != NULL && at.x + BESIDE / 2 >= left && at.x - BESIDE / 2 <= right)
            lowest = fmax(lowest, at.y - (p->floor_y - top * p->scale) + DIAGRAM_MARK_PT + 4);
    }
    return lowest;
}

static size_t collect_row(const struct diagram *d, const struct placed *p, bool upper,
                          struct row_item *items)
{
    size_t count = 0;
    for (size_t i = 0; i < d->label_count; i++) {
        const struct diagram_label *label = &d->labels[i];
        if (label->is_upper != upper)
            continue;
        double width = p->labels[i].size.right;
        double x = diagram_point(p, label->x, 0).x;
        bool is_distance = d->distance != NULL && d->distance->label == i;
        items[count++] = (struct row_item){i, is_distance ? x + APART_PT : x - width / 2, width};
    }
    sort_row(items, count);
    return count;
}

static double row_height(const struct diagram *d, const struct placed *p, bool upper)
{
    double height = 0;
    for (size_t i = 0; i < d->label_count; i++)
        if (d->labels[i].is_upper == upper)
            height = fmax(height, p->labels[i].size.bottom);
    return height;
}

/* No label of the lower row may stand on the line of the distance. */
static bool keep_off_distance(const struct diagram *d, const struct placed *p,
                              struct row_item *items, size_t count)
{
    static const double OFF = 8;
    if (d->distance == NULL)
        return true;
    double x = diagram_point(p, d->distance->x, 0).x;
    for (size_t i = 0; i < count; i++) {
        if (items[i].at > x + OFF || items[i].at + items[i].width < x - OFF)
            continue;
        double point = diagram_point(p, d->labels[items[i].label].x, 0).x;
        items[i].at = point < x ? x - OFF - items[i].width : x + OFF;
    }
    return true;
}

static bool crosses_distance(const struct diagram *d, const struct placed *p,
                             const struct row_item *items, size_t count)
{
    if (d->distance == NULL)
        return false;
    double x = diagram_point(p, d->distance->x, 0).x;
    for (size_t i = 0; i < count; i++)
        if (items[i].at < x + 5 && items[i].at + items[i].width > x - 5)
            return true;
    return false;
}

static struct leader stem(const struct placed *p, size_t label, struct extent_pt box)
{
    struct point point = p->labels[label].point;
    double x = fmin(fmax(point.x, box.left + 4), box.right - 4);
    return (struct leader){{{x, box.bottom + 2}, point}, 2};
}

/* A row of labels below `top`, or above it where they stand on their stems. */
struct label_row {
    struct row_item items[DIAGRAM_LABELS_MOST];
    size_t count;
};

static void set_row(const struct diagram *d, struct placed *p, const struct label_row *row,
                    double y, bool on_stems)
{
    for (size_t i = 0; i < row->count; i++) {
        size_t label = row->items[i].label;
        struct extent_pt size = p->labels[label].size;
        set_box(p, &p->labels[label].box, row->items[i].at, on_stems ? y - size.bottom : y, size);
        if (on_stems && d->labels[label].has_point)
            p->labels[label].leader = stem(p, label, p->labels[label].box);
    }
}

/* Does a label that hangs in the air stand on the line of a limit? */
static bool meets_level(const struct diagram *d, const struct placed *p, size_t label)
{
    static const double OFF = 3;
    const struct extent_pt *box = &p->labels[label].box;
    for (size_t i = 0; i < d->thing_count; i++) {
        double y = diagram_point(p, 0, d->things[i].y).y;
        if (d->things[i].kind == THING_LEVEL && y > box->top - OFF && y < box->bottom + OFF)
            return true;
    }
    return false;
}

static bool place_inside(const struct diagram *d, double left, double width, double height,
                         struct placed *p)
{
    static const double WALL = 6, ABOVE_ROW = 4;
    if (d->needed_length > 0 || width < NARROW_PT)
        return false;
    scale_to(d, p, left, width, 1, height - WORDS_PT - 2);
    if (d->length * p->scale < INSIDE_LENGTH_PT)
        return false;
    diagram_set_points(d, p);
    double box_left = p->left + WALL, box_right = p->left + d->length * p->scale - WALL;
    double lid = p->floor_y - d->height * p->scale;
    struct label_row over = {0}, under = {0};
    struct row_item *upper = over.items, *lower = under.items;
    size_t uppers = collect_row(d, p, true, upper);
    size_t lowers = collect_row(d, p, false, lower);
    if (!spread(upper, uppers, box_left, box_right))
        return false;
    if (!spread(lower, lowers, box_left, box_right) || !keep_off_distance(d, p, lower, lowers) ||
        !spread(lower, lowers, box_left, box_right) || crosses_distance(d, p, lower, lowers) ||
        crosses_distance(d, p, upper, uppers))
        return false;
    double rise = 0, hang = 0;
    for (size_t i = 0; i < lowers; i++)
        rise =
            fmax(rise, fmax(highest_below(d, p, lower[i].at - 2, lower[i].at + lower[i].width + 2),
                            d->labels[lower[i].label].y * p->scale + POINT_PT));
    for (size_t i = 0; i < uppers; i++)
        hang = fmax(hang, hanging_pt(d, p, upper[i].at - 2, upper[i].at + upper[i].width + 2));
    double top = lid + fmax(hang, WALL), bottom = p->floor_y - rise - STEM_PT;
    double upper_bottom = uppers > 0 ? top + row_height(d, p, true) + ABOVE_ROW : lid + WALL;
    for (size_t i = 0; i < lowers && uppers == 0; i++)
        upper_bottom =
            fmax(upper_bottom, lid + hanging_pt(d, p, lower[i].at, lower[i].at + lower[i].width));
    if (bottom - row_height(d, p, false) < upper_bottom)
        return false;
    over.count = uppers;
    under.count = lowers;
    set_row(d, p, &over, top, false);
    set_row(d, p, &under, bottom, true);
    for (size_t i = 0; i < d->label_count; i++)
        if (meets_level(d, p, i))
            return false;
    p->layout = DIAGRAM_INSIDE;
    p->height_pt = p->floor_y + 2 + WORDS_PT;
    return true;
}

/* ---- columns at the sides ---- */

struct side_item {
    size_t label;
    double wish, width, height; /* middle it would like; its size */
    double x;
};

/* Between two labels of a side. */
static double pitch_of(const struct composer *composer)
{
    static const double ROOMY = 6, CLOSE = 3;
    return panel_is_close(composer) ? CLOSE : ROOMY;
}

static double side_sum(const struct side_item *items, size_t count, double pitch)
{
    double sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += items[i].height + (i > 0 ? pitch : 0);
    return sum;
}

/* By height in steps of a fifth of the box, then the farther point first, so that leaders do not
 * cross. */
static void sort_side(struct side_item *items, size_t count, double step, bool from_left)
{
    for (size_t i = 1; i < count; i++) {
        for (size_t k = i; k > 0; k--) {
            double a = floor(items[k - 1].wish / step), b = floor(items[k].wish / step);
            bool farther = from_left ? items[k].x > items[k - 1].x : items[k].x < items[k - 1].x;
            if (b > a || (b == a && !farther))
                break;
            struct side_item other = items[k];
            items[k] = items[k - 1];
            items[k - 1] = other;
        }
    }
}

/* How the labels are parted. */
struct split {
    bool both;        /* a column on each side, else one on the left */
    size_t above;     /* the label that stands above the box; SIZE_MAX: none */
    bool only_height; /* and not where lines go */
};

/* Which labels go to the left: those whose point lies left of the distance, or of the middle. The
 * one that stands above the box goes to neither. */
static size_t collect_side(const struct diagram *d, const struct placed *p, bool left,
                           const struct split *split, struct side_item *items)
{
    size_t count = 0;
    double divide_x = d->distance != NULL && d->distance->x > d->length * 0.1
                          ? d->distance->x + 0.01
                          : d->length / 2;
    for (size_t i = 0; i < d->label_count; i++) {
        const struct diagram_label *label = &d->labels[i];
        bool is_left = label->x <= divide_x;
        if ((split->both && is_left != left) || i == split->above)
            continue;
        struct extent_pt size = p->labels[i].size;
        const struct point *point = &p->labels[i].point;
        items[count++] = (struct side_item){i, point->y, size.right, size.bottom, point->x};
    }
    return count;
}

/* The labels of one side: its outer edge and its lower end. */
struct side {
    struct side_item items[DIAGRAM_LABELS_MOST];
    size_t count;
    bool from_left;
    double edge, bottom;
};

/* The boxes of a side's labels, in their order. */
static void set_boxes(struct placed *p, const struct side *side, double pitch)
{
    const struct side_item *items = side->items;
    double tops[DIAGRAM_LABELS_MOST], at = 0;
    for (size_t i = 0; i < side->count; i++) {
        tops[i] = fmax(at, items[i].wish - items[i].height / 2);
        at = tops[i] + items[i].height + pitch;
    }
    at = side->bottom;
    for (size_t i = side->count; i-- > 0;) {
        tops[i] = fmin(tops[i], at - items[i].height);
        at = tops[i] - pitch;
        double left = side->from_left ? side->edge : side->edge - items[i].width;
        set_box(p, &p->labels[items[i].label].box, left, tops[i],
                (struct extent_pt){0, 0, items[i].width, items[i].height});
    }
}

static void add_leads(const struct diagram *d, const struct side *side, struct lead *leads,
                      size_t *count)
{
    static const double OFF = 3;
    double widest = 0;
    for (size_t i = 0; i < side->count; i++)
        widest = fmax(widest, side->items[i].width);
    for (size_t i = 0; i < side->count; i++)
        if (d->labels[side->items[i].label].has_point)
            leads[(*count)++] = (struct lead){side->items[i].label, side->from_left,
                                              side->from_left ? side->edge + widest + OFF
                                                              : side->edge - widest - OFF};
}

enum { SIDES = 2 };
enum { TEXT_MEETS = 1000 }; /* worse than any number of lines that meet */

/* Boxes and leaders as the labels' order has them. */
static size_t set_sides(const struct diagram *d, struct placed *p, const struct side *sides,
                        double pitch)
{
    struct lead leads[SIDES * DIAGRAM_LABELS_MOST];
    size_t count = 0;
    for (size_t i = 0; i < SIDES; i++) {
        set_boxes(p, &sides[i], pitch);
        add_leads(d, &sides[i], leads, &count);
    }
    return diagram_lead(d, p, leads, count);
}

static void swap_items(struct side *side, size_t a, size_t b)
{
    struct side_item other = side->items[a];
    side->items[a] = side->items[b];
    side->items[b] = other;
}

/* The best order of a side's labels from `at` on, those before it staying: of few labels each order
 * is tried, of more only their neighbours change places. */
static size_t settle_side(const struct diagram *d, struct placed *p, struct side *sides,
                          struct side *side, size_t at, double pitch)
{
    enum { FEW = 4 };
    size_t least = set_sides(d, p, sides, pitch);
    struct side best = *side;
    const size_t reach = side->count > FEW ? 2 : side->count;
    for (size_t k = at; k < side->count && at + 1 < side->count && least > 0; k++) {
        if (k - at >= reach)
            break;
        const struct side before = *side;
        swap_items(side, at, k);
        size_t faults = settle_side(d, p, sides, side, at + 1, pitch);
        if (faults < least) {
            least = faults;
            best = *side;
        }
        *side = before;
    }
    *side = best;
    return least;
}

static size_t settle_sides(const struct diagram *d, struct placed *p, struct side *sides,
                           double pitch)
{
    size_t faults = set_sides(d, p, sides, pitch);
    for (size_t i = 0; i < SIDES && faults > 0; i++)
        faults = settle_side(d, p, sides, &sides[i], 0, pitch);
    return set_sides(d, p, sides, pitch);
}

static double widest_label(const struct placed *p)
{
    double widest = 0;
    for (size_t i = 0; i < p->label_count; i++)
        widest = fmax(widest, p->labels[i].size.right);
    return widest;
}

/* A label that belongs to no point of the box, as that of the air; label_count: there is none. */
static size_t free_label(const struct diagram *d)
{
    size_t i = 0;
    while (i < d->label_count && (d->labels[i].has_point || !d->labels[i].pictogram))
        i++;
    return i;
}

/* Collects the labels of both sides without that one; returns how high the higher column is. */
static double collect_sides(const struct composer *composer, const struct diagram *d,
                            const struct placed *p, const struct split *split, struct side *sides)
{
    double tallest = 0;
    for (size_t i = 0; i < SIDES; i++) {
        sides[i].count = collect_side(d, p, i == 0, split, sides[i].items);
        sides[i].count = i == 0 || split->both ? sides[i].count : 0;
        tallest = fmax(tallest, side_sum(sides[i].items, sides[i].count, pitch_of(composer)));
    }
    return tallest;
}

/* How far down a label that stands at the top between these edges must push the drawing. */
static double push_down(const struct diagram *d, const struct placed *p, struct extent_pt label)
{
    static const double OFF = 2;
    double highest = p->floor_y - total_height(d) * p->scale;
    for (size_t i = 0; i < d->thing_count; i++) {
        const struct diagram_thing *thing = &d->things[i];
        const bool sign = thing->kind == THING_PICTOGRAM, bar = thing->kind == THING_BAR;
        const double half = sign ? diagram_sign_size(d, p) / 2 : bar ? DIAGRAM_BAR_PT : 0;
        struct point at =
            sign ? diagram_sign_point(d, p, thing) : diagram_point(p, thing->x, thing->y);
        if ((sign || bar) && at.x - half < label.right &&
            at.x + thing->width * p->scale + half > label.left)
            highest = fmin(highest, at.y - half);
        at = thing->mark != NULL ? diagram_mark_point(d, p, thing) : at;
        if (thing->mark != NULL && at.x - DIAGRAM_MARK_PT < label.right &&
            at.x + DIAGRAM_MARK_PT > label.left)
            highest = fmin(highest, at.y - DIAGRAM_MARK_PT - 1);
    }
    return fmax(0, label.bottom + OFF - highest);
}

/* In the middle, or right of the mark of a lamp that it would stand on. */
static double above_left(const struct diagram *d, const struct placed *p, double middle,
                         double width)
{
    static const double OFF = 3;
    double left = middle - width / 2;
    for (size_t i = 0; i < d->thing_count; i++) {
        if (d->things[i].mark == NULL)
            continue;
        struct point at = diagram_mark_point(d, p, &d->things[i]);
        if (at.x + DIAGRAM_MARK_PT + OFF > left && at.x - DIAGRAM_MARK_PT - OFF < left + width)
            left = at.x + DIAGRAM_MARK_PT + OFF;
    }
    return left;
}

/* A label of a column that is wider than the column may reach below the one in the middle: that
 * moves aside. False where it has no room, or would stand on what is drawn. */
static bool keep_between(const struct diagram *d, struct placed *p, size_t above)
{
    static const double OFF = 6;
    struct extent_pt *box = &p->labels[above].box;
    const double width = box->right - box->left, middle = box->left + box->right;
    double from = -HUGE_VAL, to = HUGE_VAL;
    for (size_t i = 0; i < p->label_count; i++) {
        const struct extent_pt *other = &p->labels[i].box;
        if (i == above || other->top >= box->bottom)
            continue;
        if (other->left + other->right < middle)
            from = fmax(from, other->right + OFF);
        else
            to = fmin(to, other->left - OFF);
    }
    box->left = fmax(from, fmin(box->left, to - width));
    box->right = box->left + width;
    return box->right <= to && push_down(d, p, *box) <= 0;
}

/* Labels in columns, but for one that may stand above the drawing. Returns how much their lines
 * meet. */
static size_t set_columns(const struct composer *composer, const struct diagram *d, double left,
                          double width, const struct split *split, struct placed *p)
{
    struct side sides[SIDES] = {{.from_left = true, .edge = left}, {.edge = left + width}};
    const double pitch = pitch_of(composer);
    diagram_set_points(d, p);
    /* a column that is higher than the drawing: the drawing stands at its foot */
    const double drawn = p->floor_y + 2;
    double bottom = fmax(drawn, collect_sides(composer, d, p, split, sides));
    p->floor_y += bottom - drawn;
    diagram_set_points(d, p);
    if (split->above != SIZE_MAX) {
        struct placed_label *label = &p->labels[split->above];
        struct extent_pt size = label->size;
        set_box(p, &label->box, above_left(d, p, left + width / 2, size.right), 0, size);
        const double push = push_down(d, p, label->box);
        p->floor_y += push;
        bottom += push;
        diagram_set_points(d, p);
    }
    collect_sides(composer, d, p, split, sides);
    const double step = fmax(1, d->height * p->scale / 5);
    for (size_t i = 0; i < SIDES; i++) {
        sides[i].bottom = bottom;
        sort_side(sides[i].items, sides[i].count, step, sides[i].from_left);
    }
    p->layout = DIAGRAM_LEADERS;
    p->height_pt = bottom + WORDS_PT;
    if (split->only_height)
        return 0;
    const size_t faults = settle_sides(d, p, sides, pitch);
    if (split->above == SIZE_MAX)
        return faults;
    const bool is_clear = keep_between(d, p, split->above);
    return settle_sides(d, p, sides, pitch) + (is_clear ? 0 : TEXT_MEETS);
}

/* From its left, and of it the middle for a drawing between columns of labels. */
struct beside {
    double left, width, middle_left, middle;
};

/* A drawing that is lower than its columns grows as high as they are, if that makes the whole no
 * higher and its lines meet no more: the room is there in any case. Returns how much they meet. */
static size_t grow_beside(const struct composer *composer, const struct diagram *d,
                          const struct beside *beside, const struct split *split, size_t faults,
                          struct placed *p)
{
    static const double TOP = 2;
    struct side sides[SIDES] = {{.from_left = true}};
    struct placed higher = *p;
    const double columns = collect_sides(composer, d, p, split, sides);
    if (columns <= total_height(d) * p->scale + 2 * TOP)
        return faults;
    scale_to(d, &higher, beside->middle_left, beside->middle, TOP, columns - 2 * TOP);
    const size_t faults_higher =
        set_columns(composer, d, beside->left, beside->width, split, &higher);
    if (higher.height_pt > p->height_pt || faults_higher > faults)
        return faults;
    higher.height_pt = p->height_pt; /* as it was measured without */
    *p = higher;
    return faults_higher;
}

/* Where room is short a label that has no point stands above the drawing, if that makes the whole
 * lower and its lines meet no more. */
static void place_leaders(const struct composer *composer, const struct diagram *d, double left,
                          double width, double height, struct placed *p)
{
    const bool both = width >= NARROW_PT;
    const double column = both ? COLUMN_PT : fmin(widest_label(p), ONE_COLUMN_PT);
    const double room = width - (both ? 2 : 1) * (column + BESIDE_PT);
    const size_t above = free_label(d);
    scale_to(d, p, left + column + BESIDE_PT, room, 2, height - WORDS_PT - 4);
    struct placed lower = *p;
    const bool may_be_lower = both && above != d->label_count && panel_is_close(composer);
    struct split split = {
        .both = both, .above = SIZE_MAX, .only_height = composer->only_measures && !may_be_lower};
    size_t faults = set_columns(composer, d, left, width, &split, p);
    const struct beside beside = {left, width, left + column + BESIDE_PT, room};
    if (!split.only_height)
        faults = grow_beside(composer, d, &beside, &split, faults, p);
    if (!may_be_lower)
        return;
    split.above = above;
    const size_t faults_lower = set_columns(composer, d, left, width, &split, &lower);
    if (lower.height_pt < p->height_pt && faults_lower <= faults)
        *p = lower;
}

/* ---- a row, and nothing drawn ---- */

static void place_row(const struct diagram *d, double left, double width, struct placed *p)
{
    static const double LINE = 56;
    double x = left, y = 0, bottom = 0;
    for (size_t i = 0; i < d->label_count; i++) {
        struct extent_pt size = p->labels[i].size;
        if (x > left && x + size.right > left + width) {
            x = left;
            y += LINE;
        }
        set_box(p, &p->labels[i].box, x, y, size);
        bottom = fmax(bottom, y + size.bottom);
        x += size.right + 2 * APART_PT;
    }
    p->layout = DIAGRAM_ROW;
    p->height_pt = bottom + 2;
}

/* ---- words under the floor ---- */

static const double APART_LAMP_PT = 24; /* or it reads as one with its neighbour */

/* The word of a lamp, which hangs far above the floor, where those of what lies below it leave
 * room, as near as can be to the lamp. False: there is none. */
static bool place_lamp_word(const struct row_item *items, size_t count, struct row_item *word,
                            double left, double right)
{
    double best = HUGE_VAL, at = word->at;
    for (size_t i = 0; i <= count; i++) {
        double from = i > 0 ? items[i - 1].at + items[i - 1].width + APART_LAMP_PT : left;
        double to = (i < count ? items[i].at - APART_LAMP_PT : right) - word->width;
        double near = fmin(fmax(word->at, from), to);
        if (to < from || fabs(near - word->at) >= best)
            continue;
        best = fabs(near - word->at);
        at = near;
    }
    word->at = at;
    return best < HUGE_VAL;
}

static bool is_lamp(const struct diagram_thing *thing)
{
    return thing->kind == THING_BAR;
}

/* Those of the lamps, or of all else, where the others leave room. */
static void collect_words(const struct composer *composer, const struct diagram *d,
                          const struct placed *p, bool lamps, struct row_item *items, size_t *count)
{
    struct lettering pen = {.size_pt = 12};
    for (size_t i = 0; i < d->thing_count && *count < DIAGRAM_WORDS_MOST; i++) {
        const struct diagram_thing *thing = &d->things[i];
        if (thing->word == NULL || is_lamp(thing) != lamps)
            continue;
        double w = board_width_pt(composer, &pen, thing->word);
        double middle = thing->kind == THING_PICTOGRAM ? thing->x : thing->x + thing->width / 2;
        items[(*count)++] = (struct row_item){i, diagram_point(p, middle, 0).x - w / 2, w};
    }
}

static double words_width(const struct row_item *items, size_t count)
{
    double sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += items[i].width + APART_PT;
    return sum;
}

static void place_words(const struct composer *composer, const struct diagram *d, double left,
                        double width, struct placed *p)
{
    struct row_item items[DIAGRAM_WORDS_MOST] = {0}, lamps[DIAGRAM_WORDS_MOST] = {0};
    size_t count = 0, lamp_count = 0;
    collect_words(composer, d, p, false, items, &count);
    while (count > 0 && words_width(items, count) > width)
        count--;
    sort_row(items, count);
    spread(items, count, left, left + width);
    collect_words(composer, d, p, true, lamps, &lamp_count);
    for (size_t i = 0; i < lamp_count && count < DIAGRAM_WORDS_MOST; i++) {
        if (!place_lamp_word(items, count, &lamps[i], left, left + width))
            continue;
        items[count++] = lamps[i];
        sort_row(items, count);
    }
    for (size_t i = 0; i < count; i++)
        p->words[i] = (struct placed_word){d->things[items[i].label].word,
                                           items[i].at + items[i].width / 2, items[i].width};
    p->word_count = count;
}

/* Nothing placed yet; how large each label is. */
static struct placed unplaced(const struct composer *composer, const struct diagram *d)
{
    struct placed p = {.label_count = d->label_count};
    for (size_t i = 0; i < d->label_count; i++)
        p.labels[i].size = diagram_label_size(composer, &d->labels[i]);
    return p;
}

void diagram_place(const struct composer *composer, const struct diagram *diagram, double left,
                   double width_pt, double height_pt, struct placed *out)
{
    const struct placed before = unplaced(composer, diagram);
    *out = before;
    if (diagram->length <= 0) {
        place_row(diagram, left, width_pt, out);
        return;
    }
    double height = fmax(height_pt, LEAST_BOX_PT + WORDS_PT);
    if (!place_inside(diagram, left, width_pt, height, out)) {
        *out = before;
        place_leaders(composer, diagram, left, width_pt, height, out);
    }
    place_words(composer, diagram, left, width_pt, out);
}

void diagram_place_bare(const struct composer *composer, const struct diagram *diagram, double left,
                        double width_pt, struct placed *out)
{
    static const double TOP = 10, MOST = 240;
    *out = (struct placed){.label_count = 0};
    scale_to(diagram, out, left, width_pt, TOP, MOST);
    diagram_set_points(diagram, out);
    place_words(composer, diagram, left, width_pt, out);
    out->height_pt = out->floor_y + WORDS_PT;
}
