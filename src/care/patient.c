/* Who the animal is: its age, and whether its mass and length can be right. */
#include "base/units.h"
#include "care/weighings.h"

#include <math.h>

/* What was written, against what was probably meant. */
struct slip {
    double factor; /* meant / written */
    const char *code;
};

#define KG_PER_LB (UNITS_G_PER_LB / 1000)

static const struct slip mass_slips[] = {
    {0.001, "grams-for-kilograms"},      {1000, "kilograms-for-grams"},
    {0.1, "decimal-point-right"},        {10, "decimal-point-left"},
    {KG_PER_LB, "pounds-for-kilograms"}, {UNITS_G_PER_OZ, "ounces-for-grams"},
};
static const struct slip length_slips[] = {
    {100, "metres-for-centimetres"},
    {UNITS_CM_PER_INCH, "inches-for-centimetres"},
    {1 / UNITS_CM_PER_INCH, "centimetres-for-inches"},
    {0.1, "decimal-point-right"},
    {10, "decimal-point-left"},
};

/* One measure of the animal and the table that it is judged by. */
struct measure {
    const struct quantity *written;
    const struct band *bounds;
    double usual; /* a value that is no surprise: the last weighing, a grown animal */
    const struct slip *slips;
    size_t slip_count;
    enum fact_kind kind;
    const char *code;
};

static bool is_within(double value, const struct band *bounds)
{
    return !bounds->known || (value >= bounds->low && value <= bounds->high);
}

/* Of the slips that would bring the value inside the bounds, the one nearest to what is usual. */
static const struct slip *likely_slip(const struct measure *m)
{
    const struct slip *best = NULL;
    double best_off = INFINITY;
    for (size_t i = 0; i < m->slip_count; i++) {
        double meant = m->written->value * m->slips[i].factor;
        double off = m->usual > 0 ? fabs(log(meant / m->usual)) : (double)i;
        if (is_within(meant, m->bounds) && off < best_off) {
            best = &m->slips[i];
            best_off = off;
        }
    }
    return best;
}

static struct plan_fact *slip_facts(struct care_build *b, const struct measure *m)
{
    const struct slip *slip = likely_slip(m);
    if (!slip)
        return build_fact_text(b, "slip", FACT_TEXT, "unknown", NULL);
    double meant = m->written->value * slip->factor;
    return build_fact_text(b, "slip", FACT_TEXT, slip->code,
                           build_fact(b, "meant", m->kind, meant, meant, NULL));
}

static bool is_plausible(struct care_build *b, const struct measure *m)
{
    const struct quantity *written = m->written;
    if (!written->known || is_within(written->value, m->bounds))
        return written->known;
    struct plan_fact *facts =
        build_fact(b, "usual", m->kind, m->bounds->low, m->bounds->high, slip_facts(b, m));
    build_review(b, REVIEW_IMPLAUSIBLE, m->code, written->at,
                 build_fact(b, "written", m->kind, written->value, written->value, facts));
    return false;
}

static double middle(const struct sourced_value *sourced)
{
    return sourced->range.known ? (sourced->range.low + sourced->range.high) / 2 : 0;
}

/* A slip of the decimal point can stay inside the species' bounds: the mass is then about ten
 * times, or a tenth of, what it was. True where it is left out. */
static bool is_tenfold_off(struct care_build *b, const struct visit_weighing *last)
{
    const struct quantity *now = &b->in->visit->patient.mass_g;
    if (!last || !now->known)
        return false;
    double ratio = now->value / last->mass_g.value;
    double share = build_limit(b, "mass-loss-slow-percent") / 100;
    enum growth growth = weighings_growth(b, last, true);
    bool is_tenth = fabs(ratio * 10 - 1) <= share;
    bool is_tenfold = fabs(ratio / 10 - 1) <= share && growth != GROWTH_POSSIBLE;
    if (!is_tenth && !is_tenfold)
        return false;
    struct plan_fact *facts =
        build_fact(b, "before", FACT_MASS, last->mass_g.value, last->mass_g.value,
                   build_fact_date(b, "on", last->on.date, NULL));
    build_review(b, REVIEW_IMPLAUSIBLE, "mass-tenfold", now->at,
                 build_fact(b, "written", FACT_MASS, now->value, now->value, facts));
    return is_tenth || growth == GROWTH_IMPOSSIBLE;
}

/* Pounds on a scale that are written as kilograms stay inside most species' bounds, and double each
 * meal. */
static const struct slip unit_slips[] = {
    {KG_PER_LB, "pounds-for-kilograms"},
    {1 / KG_PER_LB, "kilograms-for-pounds"},
    {UNITS_G_PER_OZ, "ounces-for-grams"},
    {1 / UNITS_G_PER_OZ, "grams-for-ounces"},
};

/* A grown animal does not double; one that lost half of its mass may be very ill, so that is asked
 * and believed. */
static bool is_other_unit(struct care_build *b, const struct visit_weighing *last)
{
    const struct quantity *now = &b->in->visit->patient.mass_g;
    if (!last || !now->known)
        return false;
    double share = build_limit(b, "mass-loss-slow-percent") / 100;
    for (size_t i = 0; i < sizeof unit_slips / sizeof *unit_slips; i++) {
        const struct slip *slip = &unit_slips[i];
        double meant = now->value * slip->factor;
        bool grew = slip->factor < 1;
        enum growth growth = weighings_growth(b, last, slip->factor * 10 < 1);
        if (fabs(meant / last->mass_g.value - 1) > share || (grew && growth == GROWTH_POSSIBLE))
            continue;
        struct plan_fact *facts =
            build_fact(b, "before", FACT_MASS, last->mass_g.value, last->mass_g.value,
                       build_fact_text(b, "slip", FACT_TEXT, slip->code,
                                       build_fact(b, "meant", FACT_MASS, meant, meant, NULL)));
        build_review(b, REVIEW_IMPLAUSIBLE, "mass-other-unit", now->at,
                     build_fact(b, "written", FACT_MASS, now->value, now->value, facts));
        return grew && growth == GROWTH_IMPOSSIBLE;
    }
    return false;
}

static void remark_earlier(struct care_build *b)
{
    const struct list *earlier = &b->in->visit->patient.earlier;
    const struct band *bounds = &b->in->species->plausible_mass_g;
    for (size_t i = 0; i < earlier->count; i++) {
        const struct quantity *mass = &LIST_AT(*earlier, struct visit_weighing, i)->mass_g;
        if (!mass->known || is_within(mass->value, bounds))
            continue;
        struct plan_fact *facts =
            build_fact(b, "usual", FACT_MASS, bounds->low, bounds->high, NULL);
        build_review(b, REVIEW_IMPLAUSIBLE, "earlier-mass-implausible", mass->at,
                     build_fact(b, "written", FACT_MASS, mass->value, mass->value, facts));
    }
}

/* ---- age ---------------------------------------------------------------------------------- */

/* A partial date lies in the middle of its month or year, so it can lie past the visit. */
static bool is_hatched_later(const struct date_value *hatched, struct date on)
{
    const struct date *day = &hatched->date;
    if (day->day)
        return date_compare(*day, on) > 0;
    return day->year > on.year || (day->year == on.year && day->month > on.month);
}

/* Before the day of hatching, or before the month or the year that is all that is known of it. */
static bool is_before_hatching(const struct date *when, const struct date *hatched)
{
    if (when->year != hatched->year || !hatched->month || !when->month)
        return when->year < hatched->year;
    if (when->month != hatched->month || !hatched->day || !when->day)
        return when->month < hatched->month;
    return when->day < hatched->day;
}

static bool check_after_hatching(struct care_build *b, const struct date_value *when,
                                 const char *path)
{
    const struct date_value *hatched = &b->in->visit->patient.hatched;
    if (!when->known || !hatched->known || !is_before_hatching(&when->date, &hatched->date))
        return true;
    diag_report_path(b->diag, DIAG_ERROR, "date-before-hatching", when->at, path,
                     "lies before the day of hatching");
    return false;
}

static bool check_dates(struct care_build *b)
{
    const struct visit *v = b->in->visit;
    const struct date_value *hatched = &v->patient.hatched;
    bool good = true;
    for (size_t i = 0; i < v->diet.count; i++)
        good =
            check_after_hatching(b, &LIST_AT(v->diet, struct visit_diet, i)->last, "diet.last") &&
            good;
    for (size_t i = 0; i < v->patient.earlier.count; i++)
        good = check_after_hatching(b, &LIST_AT(v->patient.earlier, struct visit_weighing, i)->on,
                                    "patient.earlier.on") &&
               good;
    for (int i = 0; i < EVENT_COUNT; i++)
        good = check_after_hatching(b, &v->history.events[i], "history") && good;
    if (hatched->known && is_hatched_later(hatched, b->plan->on)) {
        diag_report_path(b->diag, DIAG_ERROR, "visit-before-hatching", hatched->at,
                         "patient.hatched", "lies after the visit");
        return false;
    }
    return good;
}

static void plan_age(struct care_build *b)
{
    const struct date_value *hatched = &b->in->visit->patient.hatched;
    const struct band *longest = &b->in->species->longest_life_days.range;
    if (!hatched->known)
        return;
    long days = date_days_between(hatched->date, b->plan->on);
    b->plan->patient.age_known = true;
    b->plan->patient.hatched = hatched->date;
    b->plan->patient.age_days = days > 0 ? days : 0;
    if (longest->known && (double)days > longest->high)
        build_review(
            b, REVIEW_IMPLAUSIBLE, "age-implausible", hatched->at,
            build_fact(b, "age", FACT_DAYS, (double)days, (double)days,
                       build_fact(b, "longest", FACT_DAYS, longest->high, longest->high, NULL)));
}

/* ---- numbers ------------------------------------------------------------------------------ */

static bool check_positive(struct care_build *b, const struct quantity *value, const char *path)
{
    if (!build_is_finite(b, value, path))
        return false;
    if (!value->known || value->value > 0)
        return true;
    diag_report_path(b->diag, DIAG_ERROR, "not-positive", value->at, path, "must be more than 0");
    return false;
}

static bool check_numbers(struct care_build *b)
{
    const struct visit *v = b->in->visit;
    bool good = check_positive(b, &v->patient.mass_g, "patient.mass");
    good = check_positive(b, &v->patient.length_cm, "patient.length") && good;
    for (size_t i = 0; i < v->diet.count; i++) {
        const struct visit_diet *diet = LIST_AT(v->diet, struct visit_diet, i);
        good = check_positive(b, &diet->meal_g, "diet.meal") && good;
        good = check_positive(b, &diet->every_days, "diet.every") && good;
    }
    good = check_positive(b, &v->patient.goal_mass_g, "patient.goal-mass") && good;
    good = check_positive(b, &v->follow_up.recheck, "follow-up.recheck") && good;
    for (size_t i = 0; i < v->patient.earlier.count; i++)
        good = check_positive(b, &LIST_AT(v->patient.earlier, struct visit_weighing, i)->mass_g,
                              "patient.earlier.mass") &&
               good;
    return good;
}

static bool says_how_often(const struct visit *v)
{
    for (size_t i = 0; i < v->diet.count; i++)
        if (LIST_AT(v->diet, struct visit_diet, i)->every_days.known)
            return true;
    return false;
}

/* What would make the plan more exact. */
static void tell_missing(struct care_build *b)
{
    const struct visit *v = b->in->visit;
    struct date_value last;
    const struct {
        bool known;
        const char *code;
    } rows[] = {
        {v->patient.mass_g.known, "mass-missing"},
        {v->patient.length_cm.known, "length-missing"},
        {v->patient.hatched.known, "hatched-missing"},
        {v->patient.earlier.count > 0, "earlier-missing"},
        {v->enclosure.size.known, "size-missing"},
        {visit_last_meal(v, &last), "last-meal-missing"},
        {says_how_often(v), "meal-interval-missing"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (!rows[i].known)
            build_review(b, REVIEW_MISSING, rows[i].code, (struct mark){0}, NULL);
}

bool patient_plan(struct care_build *b)
{
    const struct visit_patient *a = &b->in->visit->patient;
    const struct species *s = b->in->species;
    bool good = check_dates(b);
    if (!check_numbers(b) || !good)
        return false;
    weighings_judge(b);
    const struct visit_weighing *last = weighings_last(b);
    const struct measure mass = {
        .written = &a->mass_g,
        .bounds = &s->plausible_mass_g,
        .usual = last ? last->mass_g.value : middle(&s->adult_mass_g),
        .slips = mass_slips,
        .slip_count = sizeof mass_slips / sizeof *mass_slips,
        .kind = FACT_MASS,
        .code = "mass-implausible",
    };
    const struct measure length = {
        .written = &a->length_cm,
        .bounds = &s->plausible_length_cm,
        .usual = middle(&s->adult_length_cm),
        .slips = length_slips,
        .slip_count = sizeof length_slips / sizeof *length_slips,
        .kind = FACT_LENGTH,
        .code = "length-implausible",
    };
    plan_age(b);
    struct patient_plan *patient = &b->plan->patient;
    patient->has_mass =
        is_plausible(b, &mass) && !is_tenfold_off(b, last) && !is_other_unit(b, last);
    patient->mass_g = patient->has_mass ? a->mass_g.value : 0;
    patient->has_length = is_plausible(b, &length);
    patient->length_cm = patient->has_length ? a->length_cm.value : 0;
    remark_earlier(b);
    tell_missing(b);
    return true;
}
