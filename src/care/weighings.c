/* Earlier weighings that do not go with those before and after them: the point in the wrong place,
 * another unit. Today's own mass is judged in patient.c. */
#include "care/weighings.h"

#include <math.h>

#include "base/units.h"

#define KG_PER_LB (UNITS_G_PER_LB / 1000)

/* What was meant / what was written. */
static const struct slip {
    double factor;
    bool is_tenfold; /* no animal loses so much */
} slips[] = {
    {10, true},
    {0.1, true},
    {UNITS_G_PER_OZ, true},
    {1 / UNITS_G_PER_OZ, true},
    {KG_PER_LB, false},
    {1 / KG_PER_LB, false},
};

/* A mass on a day; of an earlier weighing or today's. */
struct point {
    const struct visit_weighing *weighing; /* NULL: today's */
    struct date on;
    double mass_g;
};

static bool is_plausible(const struct care_build *b, double mass_g)
{
    const struct band *bounds = &b->in->species->plausible_mass_g;
    return !bounds->known || (mass_g >= bounds->low && mass_g <= bounds->high);
}

bool weighings_is_usable(const struct care_build *b, size_t i)
{
    const struct visit_weighing *one =
        LIST_AT(b->in->visit->patient.earlier, struct visit_weighing, i);
    return one->mass_g.known && one->on.known && date_compare(one->on.date, b->plan->on) < 0 &&
           is_plausible(b, one->mass_g.value) &&
           !(b->weighing_doubts && b->weighing_doubts[i] == WEIGHING_LEFT_OUT);
}

const struct visit_weighing *weighings_last(const struct care_build *b)
{
    const struct list *earlier = &b->in->visit->patient.earlier;
    const struct visit_weighing *last = NULL;
    for (size_t i = 0; i < earlier->count; i++) {
        const struct visit_weighing *one = LIST_AT(*earlier, struct visit_weighing, i);
        bool is_doubted = b->weighing_doubts && b->weighing_doubts[i] != WEIGHING_BELIEVED;
        if (weighings_is_usable(b, i) && !is_doubted &&
            (!last || date_compare(one->on.date, last->on.date) > 0))
            last = one;
    }
    return last;
}

static bool was_grown(const struct care_build *b, double mass_g)
{
    const struct band *grown = &b->in->species->adult_mass_g.range;
    double share = build_limit(b, "mass-loss-slow-percent") / 100;
    return grown->known && mass_g >= grown->low * (1 - share);
}

/* A young animal grows tenfold, but takes its time; a grown one does not even double. */
enum growth weighings_growth(const struct care_build *b, const struct visit_weighing *from,
                             bool is_tenfold)
{
    const struct date_value *hatched = &b->in->visit->patient.hatched;
    long days = date_days_between(from->on.date, b->plan->on);
    bool soon = days <= (long)build_limit(b, "mass-loss-fast-days");
    if (was_grown(b, from->mass_g.value) || (is_tenfold && soon))
        return GROWTH_IMPOSSIBLE;
    if (!hatched->known)
        return is_tenfold && days <= (long)build_limit(b, "tenfold-unknown-age-days")
                   ? GROWTH_DOUBTED
                   : GROWTH_POSSIBLE;
    double age_days = (double)date_days_between(hatched->date, from->on.date);
    if (age_days > build_limit(b, "doubling-young-days"))
        return is_tenfold ? GROWTH_IMPOSSIBLE : GROWTH_DOUBTED;
    return is_tenfold && age_days > build_limit(b, "tenfold-young-days") ? GROWTH_DOUBTED
                                                                         : GROWTH_POSSIBLE;
}

/* The slip that makes `one` what `beside` says. */
static const struct slip *slip_towards(const struct care_build *b, const struct point *one,
                                       const struct point *beside)
{
    double share = build_limit(b, "mass-loss-slow-percent") / 100;
    for (size_t i = 0; i < sizeof slips / sizeof *slips; i++)
        if (fabs(one->mass_g * slips[i].factor / beside->mass_g - 1) <= share)
            return &slips[i];
    return NULL;
}

/* It alone is off when both its neighbours say so with one voice. Of two weighings that differ, the
 * one that is no grown animal's while the other is: grown it was, or too old to grow so much. */
static const struct slip *slip_of(const struct care_build *b, const struct point *at,
                                  const struct point *before, const struct point *after)
{
    const struct slip *one = before ? slip_towards(b, at, before) : NULL;
    const struct slip *other = after ? slip_towards(b, at, after) : NULL;
    if (before && after)
        return one == other ? one : NULL;
    bool grew =
        other && other->factor > 1 && !was_grown(b, at->mass_g) && was_grown(b, after->mass_g);
    return grew && weighings_growth(b, at->weighing, other->is_tenfold) != GROWTH_POSSIBLE ? other
                                                                                           : NULL;
}

/* Left out is what no animal loses or gains. */
static enum weighing_doubt ask(struct care_build *b, const struct point *at,
                               const struct point *before, const struct point *after)
{
    const struct slip *slip = slip_of(b, at, before, after);
    if (!slip)
        return WEIGHING_BELIEVED;
    const struct point *beside = before ? before : after;
    bool is_impossible =
        slip->is_tenfold &&
        (before || weighings_growth(b, at->weighing, slip->is_tenfold) == GROWTH_IMPOSSIBLE);
    double meant_g = at->mass_g * slip->factor;
    struct plan_fact *facts =
        build_fact(b, "beside", FACT_MASS, beside->mass_g, beside->mass_g,
                   build_fact_date(b, "on", at->on,
                                   build_fact(b, "meant", FACT_MASS, meant_g, meant_g, NULL)));
    build_review(b, REVIEW_IMPLAUSIBLE,
                 is_impossible ? "earlier-mass-left-out" : "earlier-mass-apart",
                 at->weighing->mass_g.at,
                 build_fact(b, "written", FACT_MASS, at->mass_g, at->mass_g, facts));
    return is_impossible ? WEIGHING_LEFT_OUT : WEIGHING_ASKED;
}

static void add_point(struct point *points, size_t *count, struct point one)
{
    size_t at = (*count)++;
    for (; at > 0 && date_compare(points[at - 1].on, one.on) > 0; at--)
        points[at] = points[at - 1];
    points[at] = one;
}

void weighings_judge(struct care_build *b)
{
    const struct list *earlier = &b->in->visit->patient.earlier;
    const struct quantity *now = &b->in->visit->patient.mass_g;
    struct point *points = ARENA_ARRAY(b->arena, struct point, earlier->count + 1);
    enum weighing_doubt *doubts = ARENA_ARRAY(b->arena, enum weighing_doubt, earlier->count + 1);
    size_t count = 0;
    for (size_t i = 0; i < earlier->count; i++) {
        const struct visit_weighing *one = LIST_AT(*earlier, struct visit_weighing, i);
        if (weighings_is_usable(b, i))
            add_point(points, &count, (struct point){one, one->on.date, one->mass_g.value});
    }
    if (now->known && is_plausible(b, now->value))
        add_point(points, &count, (struct point){NULL, b->plan->on, now->value});
    for (size_t i = 0; i < count; i++)
        if (points[i].weighing)
            doubts[points[i].weighing - LIST_AT(*earlier, struct visit_weighing, 0)] =
                ask(b, &points[i], i > 0 ? &points[i - 1] : NULL,
                    i + 1 < count ? &points[i + 1] : NULL);
    b->weighing_doubts = doubts;
}
