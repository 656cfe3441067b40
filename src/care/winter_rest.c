/* The winter's rest: its days, its warmth and the grams at which it ends; what it asks of others.
 */
#include "care/winter_rest.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

#include "care/feeding.h"
#include "care/stances.h"

/* ---- days ---------------------------------------------------------------------------------------
 */

static const struct winter_rest_reference *winter_reference(const struct care_build *b)
{
    return winter_rest_find(b->in->reference, b->in->species->code.text);
}

/* How long the gut empties: by mass, the longer end; 0 where nobody has said. */
static long emptying_days(const struct care_build *b)
{
    const struct winter_rest_reference *row = winter_reference(b);
    for (size_t i = 0; row && i < row->emptying.count; i++) {
        const struct rest_emptying *one = LIST_AT(row->emptying, struct rest_emptying, i);
        if (!one->up_to_g.known || b->plan->patient.mass_g <= one->up_to_g.value)
            return lround(one->days.range.high);
    }
    return 0;
}

/* The veterinarian's; else a first rest is as short as that of a young animal. 0: nobody's. */
static long longest_days(const struct care_build *b)
{
    const struct winter_rest_reference *row = winter_reference(b);
    const struct quantity *own = &b->in->visit->winter_rest.longest_days;
    if (own->known || !row)
        return own->known ? lround(own->value) : 0;
    bool rested = b->in->visit->history.events[EVENT_WOKE_FROM_REST].known &&
                  b->plan->feeding.stage == STAGE_ADULT;
    const struct band *most = rested ? &row->longest_days.range : &row->first_days.range;
    return most->known ? lround(most->low) : 0;
}

static struct date first_of_month(int year, double month)
{
    return (struct date){.year = year, .month = (int)month, .day = 1};
}

/* Not before the month in which rests begin, nor before the gut is empty. */
static struct date earliest_start(const struct care_build *b, long emptying)
{
    struct date start = date_add_days(b->plan->on, emptying);
    struct date first = first_of_month(b->plan->on.year, build_limit(b, "rest-first-month"));
    return date_compare(start, first) < 0 ? first : start;
}

static void plan_days(struct care_build *b)
{
    struct winter_rest_plan *w = &b->plan->winter_rest;
    const struct date_value *own = &b->in->visit->winter_rest.starts;
    long emptying = emptying_days(b), longest = longest_days(b);
    w->has_start = own->known || (!w->in_progress && emptying > 0);
    if (!w->has_start)
        return;
    w->start = own->known ? own->date : earliest_start(b, emptying);
    w->has_last_meal = !w->in_progress && emptying > 0;
    w->last_meal = date_add_days(w->start, -emptying);
    w->has_wake = longest > 0;
    w->wake = date_add_days(w->start, longest);
    w->warm_by = date_add_days(w->wake, (long)build_limit(b, "rest-wake-days"));
    w->eat_by = date_add_days(w->wake, (long)build_limit(b, "rest-eat-days"));
}

/* ---- warmth -------------------------------------------------------------------------------------
 */

static void plan_warmth(struct care_build *b)
{
    struct winter_rest_plan *w = &b->plan->winter_rest;
    const struct winter_rest_reference *row = winter_reference(b);
    const struct band *own = &b->in->visit->winter_rest.rest_c;
    const struct band *band = own->known ? own : row ? &row->rest_c.range : NULL;
    w->has_c = band && band->known;
    if (!w->has_c)
        return;
    w->low_c = band->low;
    w->high_c = band->high;
    w->c_from =
        own->known ? build_from_veterinarian(b)
                   : build_from_sourced(&row->rest_c, &b->in->reference->sources, ORIGIN_REFERENCE);
}

/* Equal steps from the coolest end of a healthy day to the middle of the rest's own band. */
static void plan_steps(struct care_build *b)
{
    struct winter_rest_plan *w = &b->plan->winter_rest;
    const struct band *usual = &b->in->species->measured[MEASURE_COOL_SIDE].range;
    const int steps = (int)build_limit(b, "rest-cooling-steps");
    const long days = (long)build_limit(b, "rest-cooling-days");
    double to = (w->low_c + w->high_c) / 2;
    if (!w->has_c || !w->has_start || w->in_progress || !usual->known || steps < 2)
        return;
    for (int i = 0; i < steps && i < REST_STEPS_MOST; i++) {
        double to_c = usual->low + (to - usual->low) * (i + 1) / steps;
        long before = lround((double)days * (steps - 1 - i) / (steps - 1));
        w->steps[w->step_count++] = (struct rest_step){date_add_days(w->start, -before), to_c};
        build_derive(b, &w->how,
                     (struct derived){"winter_rest.step_c", to_c, "C", "cooling-step",
                                      w->c_from.source,
                                      INPUTS({"usual-low", usual->low, "C"}, {"rest", to, "C"},
                                             {"step", i + 1, ""}, {"steps", steps, ""})});
    }
}

/* ---- weight -------------------------------------------------------------------------------------
 */

static double derive_alarm(struct care_build *b, const char *what, const char *limit)
{
    struct winter_rest_plan *w = &b->plan->winter_rest;
    double percent = -build_limit(b, limit), value_g = w->start_g * (1 + percent / 100);
    struct ends mass = build_mass_g(b, w->start_g);
    const struct provenance from = build_from_sourced(limit_find(b->in->reference, limit),
                                                      &b->in->reference->sources, ORIGIN_REFERENCE);
    build_band(
        build_derive(b, &w->how,
                     (struct derived){what, value_g, "g", "percent-of-today", from.source,
                                      INPUTS({"mass", w->start_g, "g"}, {"percent", percent, "%"},
                                             {"scale-error", mass.high - w->start_g, "g"})}),
        mass.low * (1 + percent / 100), mass.high * (1 + percent / 100));
    return value_g;
}

/* Every week of the rest; what it may weigh at least falls by the month. */
static void plan_weeks(struct care_build *b)
{
    enum { WEEK_DAYS = 7 };
    const double month_days = 365.25 / 12;
    struct winter_rest_plan *w = &b->plan->winter_rest;
    double month = build_limit(b, "rest-loss-month-percent") / 100;
    for (struct date day = w->start;
         w->has_start && w->has_wake && date_compare(day, w->wake) < 0 &&
         w->week_count < REST_WEEKS_MOST;
         day = date_add_days(day, WEEK_DAYS)) {
        double months = (double)date_days_between(w->start, day) / month_days;
        if (date_compare(day, b->plan->on) > 0)
            w->weeks[w->week_count++] =
                (struct rest_weighing){day, w->start_g * (1 - month * months)};
    }
}

/* The weight that the rest begins with: today's, or under way the last one before it. */
static void plan_weight(struct care_build *b)
{
    struct winter_rest_plan *w = &b->plan->winter_rest;
    const struct growth_plan *g = &b->plan->growth;
    w->has_mass = b->plan->patient.has_mass;
    if (!w->has_mass)
        return;
    w->start_g = b->plan->patient.mass_g;
    if (w->in_progress && g->known)
        w->start_g /= 1 + g->change_percent / 100;
    w->call_g = derive_alarm(b, "winter_rest.call_g", "rest-loss-call-percent");
    w->wake_g = derive_alarm(b, "winter_rest.wake_g", "rest-loss-wake-percent");
    plan_weeks(b);
}

/* ---- does it rest now? --------------------------------------------------------------------------
 */

/* No place that was read is warmer than this. */
static bool lies_no_warmer(const struct care_build *b, double most_c)
{
    static const enum measure_id places[] = {MEASURE_BASKING_SURFACE, MEASURE_WARM_SIDE,
                                             MEASURE_COOL_SIDE, MEASURE_NIGHT};
    size_t read = 0;
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        const struct quantity *one = &b->in->visit->measured[places[i]];
        if (one->known && one->value > most_c)
            return false;
        read += one->known;
    }
    return read > 0;
}

/* As cold as in the rest; once its day has come, colder than any night of one that is awake. */
static bool lies_at_rest_warmth(const struct care_build *b, bool has_come)
{
    const struct winter_rest_reference *row = winter_reference(b);
    const struct band *own = &b->in->visit->winter_rest.rest_c;
    const struct band *rest = own->known ? own : row ? &row->rest_c.range : NULL;
    const struct band *night = &b->in->species->measured[MEASURE_NIGHT].range;
    return (rest && rest->known && lies_no_warmer(b, rest->high)) ||
           (has_come && night->known && lies_no_warmer(b, night->low));
}

/* What is planned and not said to run may run all the same: its readings say so. Without any, the
 * day that has come is asked about. */
static bool is_under_way(struct care_build *b)
{
    const struct visit_winter_rest *asked = &b->in->visit->winter_rest;
    if (asked->in_progress.known || !asked->planned.value)
        return asked->in_progress.value;
    bool has_come = asked->starts.known && date_compare(asked->starts.date, b->plan->on) <= 0;
    bool by_warmth = lies_at_rest_warmth(b, has_come);
    if (by_warmth || has_come)
        build_review(b, REVIEW_CONFLICT, by_warmth ? "rest-by-readings" : "rest-day-has-come",
                     asked->planned.at, NULL);
    return by_warmth;
}

bool winter_rest_plan(struct care_build *b)
{
    struct winter_rest_plan *w = &b->plan->winter_rest;
    const struct visit_winter_rest *asked = &b->in->visit->winter_rest;
    w->in_progress = is_under_way(b);
    w->is_asked = w->in_progress || asked->planned.value;
    if (!w->is_asked)
        return true;
    plan_days(b);
    winter_gate(b);
    plan_warmth(b);
    plan_steps(b);
    plan_weight(b);
    return true;
}

/* ---- what it asks of other topics ---------------------------------------------------------------
 */

enum rest_day { DAY_AFTER_LAST_MEAL, DAY_COOLING, DAY_START, DAY_WAKE, DAY_WARM, DAY_EATS, DAYS };

static const struct rest_call {
    const char *call;
    enum rest_day from, until;
} rest_calls[] = {
    {"food:rest-until", DAY_AFTER_LAST_MEAL, DAY_WAKE},
    {"warmth-day:rest", DAY_COOLING, DAY_WAKE},
    {"warmth-night:rest", DAY_COOLING, DAY_WAKE},
    {"light-hours:dim-quiet", DAY_COOLING, DAY_WAKE},
    {"weighing:weekly", DAY_START, DAY_WAKE},
    {"warmth-day:wake-steps", DAY_WAKE, DAY_WARM},
    {"warmth-night:no-drop", DAY_WAKE, DAY_EATS},
    {"light-hours:long", DAY_WAKE, DAY_EATS},
    {"food:offer-only", DAY_WAKE, DAY_EATS},
    {"food:small", DAY_WAKE, DAY_EATS}, /* a gut that stood empty all winter */
    {"weighing:weekly", DAY_WAKE, DAY_EATS},
};

/* `known[day]`: what the rows may hang on. */
static void call_rows(struct care_build *b, const char *because, const struct date *days,
                      const bool *known)
{
    for (size_t i = 0; i < sizeof rest_calls / sizeof *rest_calls; i++) {
        const struct rest_call *row = &rest_calls[i];
        if (!known[row->from])
            continue;
        struct stance_call form = {.from = days[row->from],
                                   .has_until = known[row->until],
                                   .until = days[row->until],
                                   .end_by =
                                       known[row->until] ? PHASE_END_DATE : PHASE_END_VETERINARIAN,
                                   .because = because};
        if (date_compare(form.from, b->plan->on) < 0)
            form.from = b->plan->on;
        if (!form.has_until || date_compare(form.until, b->plan->on) > 0)
            stances_call(b, row->call, &form);
    }
}

static void call_waking(struct care_build *b, struct date wake, struct date *days, bool *known)
{
    days[DAY_WAKE] = wake;
    days[DAY_WARM] = date_add_days(wake, (long)build_limit(b, "rest-wake-days"));
    days[DAY_EATS] = date_add_days(wake, (long)build_limit(b, "rest-eat-days"));
    known[DAY_WAKE] = known[DAY_WARM] = known[DAY_EATS] = true;
}

static void call_rest(struct care_build *b)
{
    const struct winter_rest_plan *w = &b->plan->winter_rest;
    struct date days[DAYS] = {0};
    bool known[DAYS] = {false};
    if (w->in_progress) {
        days[DAY_AFTER_LAST_MEAL] = days[DAY_COOLING] = days[DAY_START] = b->plan->on;
        known[DAY_AFTER_LAST_MEAL] = known[DAY_COOLING] = known[DAY_START] = true;
    } else if (w->has_start) {
        days[DAY_AFTER_LAST_MEAL] = date_add_days(w->last_meal, 1);
        days[DAY_START] = w->start;
        days[DAY_COOLING] = w->step_count ? w->steps[0].on : w->start;
        known[DAY_AFTER_LAST_MEAL] = w->has_last_meal;
        known[DAY_COOLING] = known[DAY_START] = true;
    }
    if (w->has_wake)
        call_waking(b, w->wake, days, known);
    call_rows(b, "call:winter-rest", days, known);
}

/* It woke some days ago. */
static void call_woken(struct care_build *b)
{
    const struct date_value *woke = &b->in->visit->history.events[EVENT_WOKE_FROM_REST];
    struct date days[DAYS] = {0};
    bool known[DAYS] = {false};
    if (!woke->known || b->plan->winter_rest.in_progress)
        return;
    call_waking(b, woke->date, days, known);
    call_rows(b, "call:just-woken", days, known);
}

bool winter_rest_calls_plan(struct care_build *b)
{
    size_t topic = topic_find(b->in->topics, "winter-rest", strlen("winter-rest"));
    if (b->plan->winter_rest.is_asked && topic != SIZE_MAX) {
        const struct topic_plan settled = stances_settle(b, topic);
        if (strcmp(settled.phases[0].stance, "plan") == 0)
            call_rest(b);
    }
    call_woken(b);
    return true;
}

/* No date of a rest that may not be is left to be read. */
bool winter_rest_stance_plan(struct care_build *b)
{
    struct winter_rest_plan *w = &b->plan->winter_rest;
    w->is_allowed = w->is_asked && plan_holds(b->plan, "winter-rest", "plan");
    if (w->is_allowed)
        return true;
    w->has_c = w->has_start = w->has_last_meal = w->has_wake = w->has_mass = false;
    w->step_count = w->week_count = 0;
    w->how = (struct derivations){0};
    return true;
}
