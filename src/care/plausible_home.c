/* What can hardly be right of the home and of the days ahead: a box in inches, a lamp that never
 * goes out, a check in forty years. Nothing is left out of the plan for it: the veterinarian is
 * asked. */
#include "care/build.h"

#include <math.h>

#include "base/units.h"

/* ---- the box ------------------------------------------------------------------------------- */

enum { SIDES = 3 };

struct sides {
    double cm[SIDES]; /* length, width, height */
};

static double longest(const struct sides *box)
{
    return fmax(fmax(box->cm[0], box->cm[1]), box->cm[2]);
}

/* One side against another, at its most. */
static double stretched(const struct sides *box)
{
    double floor_long = fmax(box->cm[0], box->cm[1]), floor_short = fmin(box->cm[0], box->cm[1]);
    double height = box->cm[2];
    return fmax(floor_long / floor_short, fmax(height / floor_long, floor_short / height));
}

/* How far the floor is from what the animal needs; without a number, any floor will do. */
static double off(const struct care_build *b, const struct sides *box)
{
    const struct enclosure_plan *e = &b->plan->enclosure;
    return e->known ? fabs(log(box->cm[0] * box->cm[1] / (e->least_length_cm * e->least_width_cm)))
                    : 0;
}

static bool is_odd(const struct care_build *b, const struct sides *box)
{
    const struct patient_plan *animal = &b->plan->patient;
    double body_cm = animal->length_cm * build_limit(b, "box-body-least-percent") / 100;
    return longest(box) > build_limit(b, "box-longest-cm") ||
           stretched(box) > build_limit(b, "box-sides-times") ||
           (animal->has_length && longest(box) < body_cm);
}

/* The whole in another unit or one side with its point in the wrong place: what
 * comes nearest to the floor that it needs. False where nothing comes near. */
static bool find_meant(const struct care_build *b, const struct sides *written, struct sides *meant)
{
    static const double cm_per_inch = UNITS_CM_PER_INCH, tenfold = 10;
    const struct {
        double factor;
        int first, last; /* sides */
    } slips[] = {
        {cm_per_inch, 0, 2}, {tenfold, 0, 2},     {1 / cm_per_inch, 0, 2}, {1 / tenfold, 0, 2},
        {tenfold, 0, 0},     {tenfold, 1, 1},     {tenfold, 2, 2},         {1 / tenfold, 0, 0},
        {1 / tenfold, 1, 1}, {1 / tenfold, 2, 2},
    };
    double best = log(build_limit(b, "box-meant-times"));
    bool found = false;
    for (size_t i = 0; i < sizeof slips / sizeof *slips; i++) {
        struct sides one = *written;
        for (int k = slips[i].first; k <= slips[i].last; k++)
            one.cm[k] *= slips[i].factor;
        if (is_odd(b, &one) || off(b, &one) >= best)
            continue;
        *meant = one;
        best = off(b, &one);
        found = true;
    }
    return found;
}

static struct plan_fact *sides_facts(struct care_build *b, const char *const names[SIDES],
                                     const struct sides *box, struct plan_fact *next)
{
    for (int k = SIDES - 1; k >= 0; k--)
        next = build_fact(b, names[k], FACT_LENGTH, box->cm[k], box->cm[k], next);
    return next;
}

/* Out of doors an animal may have a field. */
static void judge_box(struct care_build *b)
{
    static const char *const written_names[] = {"length", "width", "height"};
    static const char *const meant_names[] = {"meant-length", "meant-width", "meant-height"};
    const struct box *size = &b->in->visit->enclosure.size;
    const struct enclosure_plan *e = &b->plan->enclosure;
    const struct sides box = {{size->length_cm, size->width_cm, size->height_cm}};
    if (!size->known || b->in->visit->enclosure.outdoor.value)
        return;
    struct sides meant;
    bool found = find_meant(b, &box, &meant);
    double least =
        e->least_length_cm * e->least_width_cm * build_limit(b, "box-floor-least-percent") / 100;
    bool tiny = e->known && box.cm[0] * box.cm[1] < least && found;
    if (!tiny && !is_odd(b, &box))
        return;
    struct plan_fact *facts = found ? sides_facts(b, meant_names, &meant, NULL) : NULL;
    build_review(b, REVIEW_IMPLAUSIBLE, "box-size-implausible", size->at,
                 sides_facts(b, written_names, &box, facts));
}

/* ---- lamp, water, room ---------------------------------------------------------------------- */

/* Of a point too far and of inches, what is longest and still fits; 0: neither does. */
static double meant_below(double written_cm, double most_cm)
{
    double inches = written_cm / UNITS_CM_PER_INCH, point = written_cm / 10;
    return inches <= most_cm ? inches : point <= most_cm ? point : 0;
}

static struct plan_fact *meant_length(struct care_build *b, double meant_cm, struct plan_fact *next)
{
    return meant_cm > 0 ? build_fact(b, "meant", FACT_LENGTH, meant_cm, meant_cm, next) : next;
}

static struct plan_fact *written_length(struct care_build *b, const struct quantity *written,
                                        struct plan_fact *next)
{
    return build_fact(b, "written", FACT_LENGTH, written->value, written->value, next);
}

/* Out of doors, or where nobody measured the box, a lamp may hang from a roof. */
static void judge_lamp_place(struct care_build *b)
{
    const struct visit_enclosure *home = &b->in->visit->enclosure;
    const struct quantity *height = &home->lamp.height_cm, *tube = &home->lamp.tube_length_cm;
    const struct sides box = {{home->size.length_cm, home->size.width_cm, home->size.height_cm}};
    bool is_boxed = home->size.known && !home->outdoor.value;
    double box_cm = is_boxed ? home->size.height_cm : 0;
    double most =
        is_boxed ? box_cm + build_limit(b, "lamp-above-box-cm") : build_limit(b, "lamp-highest-cm");
    if (height->known && height->value > most) {
        double meant = meant_below(height->value, is_boxed ? box_cm : most);
        struct plan_fact *facts = meant_length(b, meant, NULL);
        build_review(
            b, REVIEW_IMPLAUSIBLE, is_boxed ? "lamp-far-above-box" : "lamp-height-implausible",
            height->at,
            written_length(b, height, build_fact(b, "height", FACT_LENGTH, box_cm, box_cm, facts)));
    }
    if (is_boxed && tube->known && tube->value > longest(&box))
        build_review(
            b, REVIEW_IMPLAUSIBLE, "tube-longer-than-box", tube->at,
            written_length(
                b, tube,
                build_fact(b, "length", FACT_LENGTH, longest(&box), longest(&box),
                           meant_length(b, meant_below(tube->value, longest(&box)), NULL))));
}

/* Deeper than the box is a fault already, see visit.c. */
static void judge_depth(struct care_build *b)
{
    const struct quantity *depth = &b->in->visit->measured[MEASURE_DEPTH];
    double most = build_limit(b, "water-deepest-cm");
    if (depth->known && depth->value > most)
        build_review(
            b, REVIEW_IMPLAUSIBLE, "water-depth-implausible", depth->at,
            written_length(b, depth, meant_length(b, meant_below(depth->value, most), NULL)));
}

/* Frost with its sign lost or gained, or degrees Fahrenheit as Celsius. */
static void judge_room(struct care_build *b)
{
    const struct quantity *room = &b->in->visit->enclosure.readings.room_c;
    double coldest = build_limit(b, "temperature-coldest-c");
    double hottest = build_limit(b, "room-hottest-c");
    if (!room->known || (room->value >= coldest && room->value <= hottest))
        return;
    double meant_c =
        room->value < coldest ? -room->value : units_from_written(room->value, UNIT_FAHRENHEIT);
    struct plan_fact *meant = meant_c >= coldest
                                  ? build_fact(b, "meant", FACT_TEMPERATURE, meant_c, meant_c, NULL)
                                  : NULL;
    build_review(b, REVIEW_IMPLAUSIBLE, "room-implausible", room->at,
                 build_fact(b, "reading", FACT_TEMPERATURE, room->value, room->value, meant));
}

static void judge_lamp(struct care_build *b)
{
    const struct quantity *hours = &b->in->visit->enclosure.lamp.hours;
    if (hours->known && (hours->value < build_limit(b, "lamp-hours-least") ||
                         hours->value > build_limit(b, "lamp-hours-most")))
        build_review(b, REVIEW_IMPLAUSIBLE, "lamp-hours-implausible", hours->at,
                     build_fact(b, "hours", FACT_HOURS, hours->value, hours->value, NULL));
}

/* ---- days ahead ----------------------------------------------------------------------------- */

static void judge_ahead(struct care_build *b, const struct date_value *day)
{
    if (day->known &&
        date_days_between(b->plan->on, day->date) > (long)build_limit(b, "ahead-most-days"))
        build_review(b, REVIEW_IMPLAUSIBLE, "day-far-ahead", day->at,
                     build_fact_date(b, "on", day->date, NULL));
}

static void judge_days(struct care_build *b)
{
    const struct visit *v = b->in->visit;
    const struct quantity *recheck = &v->follow_up.recheck;
    if (recheck->known && recheck->value > build_limit(b, "ahead-most-days"))
        build_review(b, REVIEW_IMPLAUSIBLE, "recheck-far-ahead", recheck->at,
                     build_fact(b, "days", FACT_DAYS, recheck->value, recheck->value, NULL));
    judge_ahead(b, &v->follow_up.booked);
    judge_ahead(b, &v->follow_up.referral.on);
    judge_ahead(b, &v->winter_rest.starts);
    for (size_t i = 0; i < v->follow_up.results.count; i++)
        judge_ahead(b, &LIST_AT(v->follow_up.results, struct visit_result, i)->by);
    for (size_t i = 0; i < v->follow_up.aftercare.count; i++)
        judge_ahead(b, &LIST_AT(v->follow_up.aftercare, struct visit_aftercare, i)->check);
    for (size_t i = 0; i < v->decisions.count; i++)
        judge_ahead(b, &LIST_AT(v->decisions, struct visit_decision, i)->until);
}

bool plausible_home_plan(struct care_build *b)
{
    judge_box(b);
    judge_lamp(b);
    judge_lamp_place(b);
    judge_depth(b);
    judge_room(b);
    judge_days(b);
    return true;
}
