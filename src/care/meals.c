/* The days of meals. */
#include "care/feeding.h"

#include <math.h>
#include <string.h>

bool feeding_is_pause(const char *stance)
{
    static const char *const pauses[] = {"none-until-vet", "rest-until", "vet-plan"};
    for (size_t i = 0; i < sizeof pauses / sizeof *pauses; i++)
        if (strcmp(pauses[i], stance) == 0)
            return true;
    return false;
}

/* Days that are looked at for meals; a pause that begins later may take some. */
enum { MEAL_TRIES_MOST = FEEDING_PLANNER_DAYS + MEAL_DATES };

static bool is_shortly_before(struct date day, struct date visit, long days)
{
    long before = date_days_between(day, visit);
    return before >= 0 && before <= days;
}

/* Prey swallowed whole is not carried about: no meal just before a dose that the clinic gives. */
static bool is_before_dose(const struct care_build *b, struct date day)
{
    for (size_t i = 0; i < b->plan->medicine_count; i++) {
        const struct medicine_plan *m = &b->plan->medicines[i];
        for (size_t k = 0; m->is_given_here && k < m->listed; k++)
            if (is_shortly_before(day, m->doses[k].on, 1))
                return true;
    }
    return false;
}

static bool is_whole_prey(const struct care_build *b)
{
    return b->in->species->diet.value == DIET_WHOLE_PREY;
}

static bool is_before_check(const struct care_build *b, struct date day)
{
    const bool is_asked = b->in->visit->follow_up.empty_stomach.value;
    const long rest = is_whole_prey(b) ? (long)build_limit(b, "meal-rest-days") : 1;
    return b->plan->has_recheck && (is_whole_prey(b) || is_asked) &&
           is_shortly_before(day, b->plan->recheck, rest);
}

static bool must_be_empty(const struct care_build *b, struct date day)
{
    return is_before_check(b, day) || (is_whole_prey(b) && is_before_dose(b, day));
}

/* The phase of food that follows today's rest and is no rest; NULL for none. */
static const struct topic_plan *food_after_rest(const struct care_build *b, size_t *topic,
                                                size_t *phase)
{
    for (*topic = 0; *topic < b->plan->topic_count; ++*topic) {
        const struct topic_plan *food = &b->plan->topics[*topic];
        for (*phase = 1; strcmp(food->topic, "food") == 0 && *phase < food->phase_count; ++*phase)
            if (!feeding_is_pause(food->phases[*phase].stance))
                return feeding_is_pause(food->phases[0].stance) ? food : NULL;
    }
    return NULL;
}

/* What rested until the day of the check is fed once it was seen: whoever looks at stitches or at a
 * belly that day says so, and wants no meal in it (common practice, no source). */
static bool is_check_day(const struct care_build *b, struct date day)
{
    return b->plan->has_recheck && date_compare(day, b->plan->recheck) == 0;
}

/* A gut that rests until shortly before it is brought rests until it was seen: else one line names
 * the day on which the rest ends and another that of the first meal. Doses alone lengthen no rest:
 * one every second day would for weeks. */
bool feeding_rest_over_check(struct care_build *b)
{
    size_t topic, phase;
    const struct topic_plan *food = food_after_rest(b, &topic, &phase);
    if (!food || strcmp(food->phases[phase - 1].stance, "vet-plan") == 0)
        return true;
    struct date day = food->phases[phase].from;
    while (is_before_check(b, day) || is_check_day(b, day))
        day = date_add_days(day, 1);
    const struct stance_phase *next = &food->phases[phase];
    if (date_compare(day, next->from) == 0 ||
        (next->has_until && date_compare(day, next->until) >= 0))
        return true;
    struct stance_phase *phases = ARENA_ARRAY(b->arena, struct stance_phase, food->phase_count);
    memcpy(phases, food->phases, food->phase_count * sizeof *phases);
    phases[phase - 1].until = phases[phase].from = day;
    struct topic_plan *topics = ARENA_ARRAY(b->arena, struct topic_plan, b->plan->topic_count);
    memcpy(topics, b->plan->topics, b->plan->topic_count * sizeof *topics);
    topics[topic].phases = phases;
    b->plan->topics = topics;
    plan_index_topics(b->plan, b->arena);
    build_review(b, REVIEW_REMARK, "first-meal-moved", (struct mark){0},
                 build_fact_date(b, "on", day, NULL));
    return true;
}

long feeding_first_day(const struct care_build *b)
{
    if (!b->in->kind->new_home.value)
        return 1;
    double days = build_limit(b, "adoption-first-meal-days"),
           limit = b->plan->feeding.fast_limit_days;
    if (limit > 0 && limit < days)
        days = limit;
    return (long)fmax(1, floor(days));
}

/* The last day on which its mouth is washed or its airway treated at home: prey swallowed whole in
 * between comes up again, or goes down beside an open glottis. The check is late enough; one that
 * comes within days of the last is waited for, since nobody carries a meal there (common practice,
 * no source). */
static bool is_treated_until(const struct care_build *b, struct date *until)
{
    bool any = false;
    for (size_t i = 0; i < b->plan->medicine_count; i++) {
        const struct medicine_plan *m = &b->plan->medicines[i];
        const bool in_the_way = m->route == ROUTE_IN_THE_MOUTH || m->route == ROUTE_BREATHED_IN;
        if (m->is_given_here || !m->has_route || !in_the_way || m->listed == 0)
            continue;
        const struct date last = m->has_last ? m->last : m->doses[m->listed - 1].on;
        if (!any || date_compare(last, *until) > 0)
            *until = last;
        any = true;
    }
    if (!any || !is_whole_prey(b))
        return false;
    const long near = (long)build_limit(b, "treated-check-near-days");
    if (b->plan->has_recheck && date_days_between(*until, b->plan->recheck) <= near)
        *until = b->plan->recheck;
    return true;
}

/* What swallows prey whole is as warm as it must be before that, not just its box. Insects and
 * leaves are eaten as soon as it is warm: a day of ours would feed the longest fasted last. */
static bool warms_first(const struct care_build *b)
{
    return is_whole_prey(b) && b->plan->measured[MEASURE_WARM_SIDE].verdict == VERDICT_TOO_LOW;
}

static struct date first_day(const struct care_build *b)
{
    return date_add_days(b->plan->on, feeding_first_day(b));
}

/* The day from which food may be offered. */
static struct date earliest_day(const struct care_build *b)
{
    const struct feeding_plan *f = &b->plan->feeding;
    struct date day = first_day(b);
    if (warms_first(b))
        day = date_add_days(day, (long)build_limit(b, "warm-before-meal-days"));
    struct date treated;
    if (is_treated_until(b, &treated) && date_compare(treated, day) >= 0)
        day = date_add_days(treated, 1);
    return f->has_resume && date_compare(f->resume, day) > 0 ? f->resume : day;
}

/* A meal that may not stand on `day` is given sooner rather than later, though not before
 * `soonest`. */
static struct date beside_visit(const struct care_build *b, struct date day, struct date soonest)
{
    struct date sooner = day, later = day;
    while (must_be_empty(b, sooner))
        sooner = date_add_days(sooner, -1);
    while (must_be_empty(b, later))
        later = date_add_days(later, 1);
    return date_compare(sooner, soonest) >= 0 ? sooner : later;
}

/* Food that comes every so many days, and when it came last. */
struct rhythm {
    double low_days, high_days;
    bool has_last;
    struct date last;
};

/* A meal that came up again is none: the next one waits for the gut's rest alone. Of one that came
 * up on a day that nobody wrote the last meal is taken to be it. */
static bool is_meal_lost(const struct care_build *b, const struct rhythm *r)
{
    const struct feeding_plan *f = &b->plan->feeding;
    const struct date_value *lost = &b->in->visit->history.events[EVENT_REGURGITATED];
    if (!lost->known)
        return f->has_resume && f->change == FEEDING_AFTER_VOMITING;
    return f->has_resume && r->has_last && date_compare(lost->date, r->last) >= 0;
}

/* Every day of it in the next eight weeks, and at least MEAL_DATES of them; the arena's. */
static const struct date *days_of(struct care_build *b, const struct rhythm *r, size_t *count)
{
    const struct feeding_plan *f = &b->plan->feeding;
    struct date *days = ARENA_ARRAY(b->arena, struct date, FEEDING_PLANNER_DAYS + MEAL_DATES);
    *count = 0;
    if ((f->paused && !f->has_resume) || r->high_days <= 0)
        return days;
    /* half days gather: an interval of 2-3 days falls after two and three days in turn */
    const double step = fmax(1, (r->low_days + r->high_days) / 2);
    const struct date earliest = earliest_day(b),
                      last = date_add_days(b->plan->on, FEEDING_PLANNER_DAYS);
    struct date from = r->has_last ? r->last : b->plan->on;
    long turn = 1;
    int tries = 0;
    bool unfed = !r->has_last && (f->has_resume || plan_holds(b->plan, "food", "offer-only"));
    if (unfed || is_meal_lost(b, r) ||
        date_compare(date_add_days(from, (long)floor(step)), earliest) < 0) {
        from = earliest;
        turn = 0;
    }
    for (;;) {
        struct date day = date_add_days(from, (long)floor((double)turn * step));
        if (must_be_empty(b, day)) {
            const struct date before = *count        ? days[*count - 1]
                                       : r->has_last ? r->last
                                                     : date_add_days(b->plan->on, -(long)step);
            const struct date soonest = date_add_days(before, (long)ceil(r->low_days));
            from = day =
                beside_visit(b, day, date_compare(soonest, earliest) > 0 ? soonest : earliest);
            turn = 0;
        }
        if ((*count >= MEAL_DATES && date_compare(day, last) > 0) || tries++ > MEAL_TRIES_MOST)
            return days;
        turn++;
        const struct stance_phase *phase = plan_phase_on(b->plan, "food", day);
        if (!phase || !feeding_is_pause(phase->stance))
            days[(*count)++] = day;
    }
}

const struct date *feeding_meal_days(struct care_build *b, size_t *count)
{
    const struct feeding_plan *f = &b->plan->feeding;
    const struct rhythm meals = {f->every_low_days, f->every_high_days, f->has_last, f->last};
    return days_of(b, &meals, count);
}

void feeding_plan_beside_days(struct care_build *b)
{
    struct feeding_beside *beside = &b->plan->feeding.beside;
    const struct feeding_beside_now *now = &b->plan->feeding.beside_now;
    const struct rhythm insects = {beside->every_low_days, beside->every_high_days, now->has_last,
                                   now->last};
    if (beside->is_known)
        beside->days = days_of(b, &insects, &beside->day_count);
}

const struct date *feeding_powder_days(struct care_build *b, size_t *count)
{
    const struct feeding_beside *beside = &b->plan->feeding.beside;
    if (!beside->is_known)
        return feeding_meal_days(b, count);
    *count = beside->day_count;
    return beside->days;
}

static void list_written_insects(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    struct prey_choice *insects = ARENA_ARRAY(b->arena, struct prey_choice, f->food_count + 1);
    for (size_t i = 0; i < f->food_count && f->has_insects && !f->has_meal; i++) {
        const struct food *food = food_find(b->in->reference, f->foods[i].food);
        if (food && food->kind.value == FOOD_INSECT)
            insects[f->written_insect_count++] = f->foods[i];
    }
    f->written_insects = insects;
}

/* Food that she wrote among the medicines is due on the day of its first dose. */
static void date_written_medicine(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    for (size_t i = 0; f->written_medicine && i < b->plan->medicine_count; i++) {
        const struct medicine_plan *m = &b->plan->medicines[i];
        if (strcmp(m->name, f->written_medicine) != 0 || !m->has_first ||
            date_compare(m->first, b->plan->on) <= 0)
            continue;
        f->has_written_first = true;
        f->written_first = m->first;
        return;
    }
}

/* Of the meals that she wrote none has a day: as long after the last one as she wrote, when food is
 * back and not just before a visit; and she is asked. */
static void plan_written_first(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    date_written_medicine(b);
    if (!f->is_written) {
        if (f->written_medicine &&
            plan_holds_on(b->plan, "food", "vet-plan", plan_food_day(b->plan)))
            build_review(b, REVIEW_REMARK, "written-food-alone", (struct mark){0},
                         build_fact_text(b, "medicine", FACT_TEXT, f->written_medicine, NULL));
        return;
    }
    struct date day = date_add_days(b->plan->on, feeding_first_day(b)),
                back = plan_food_day(b->plan);
    if (date_compare(back, day) > 0)
        day = back;
    if (f->has_last && date_compare(date_add_days(f->last, (long)ceil(f->every_low_days)), day) > 0)
        day = date_add_days(f->last, (long)ceil(f->every_low_days));
    while (must_be_empty(b, day))
        day = date_add_days(day, 1);
    /* what stands beside a food among the medicines begins no sooner than that food, whose days
     * she wrote and the keeper ticks */
    if (f->has_written_first && date_compare(f->written_first, day) > 0)
        day = f->written_first;
    list_written_insects(b);
    f->has_written_first = true;
    f->written_first = day;
    build_review(b, REVIEW_REMARK, "written-first-not-told", (struct mark){0},
                 build_fact_date(b, "on", day, NULL));
}

/* Why the first meal waits, where it does; whose longest fast runs out meanwhile has a place for a
 * day of hers, and she is asked. */
static void tell_why_later(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    const struct date meal = f->meal_days[0];
    struct date treated;
    f->is_treated = is_treated_until(b, &treated) && date_compare(b->plan->on, treated) < 0 &&
                    date_compare(treated, meal) < 0;
    f->waits_for_check =
        f->is_treated && b->plan->has_recheck && date_compare(treated, b->plan->recheck) == 0;
    f->is_warming =
        warms_first(b) && date_compare(plan_food_day(b->plan), meal) < 0 &&
        date_days_between(first_day(b), meal) <= (long)build_limit(b, "warm-before-meal-days");
    if (!f->is_treated || !f->has_last || f->fast_limit_days <= 0)
        return;
    const struct date limit = date_add_days(f->last, (long)floor(f->fast_limit_days));
    f->asks_first = date_compare(limit, meal) < 0;
    if (f->asks_first && !f->is_long_fast)
        build_review(b, REVIEW_MISSING, "first-meal-while-treated", (struct mark){0},
                     build_fact_date(b, "on", meal, build_fact_date(b, "beside", limit, NULL)));
    b->plan->has_blanks |= f->asks_first;
}

/* The first dose at home after this day while its gut works on the meal. */
static bool dose_after(const struct care_build *b, struct date meal, struct date *out)
{
    const long rest = (long)build_limit(b, "meal-rest-days");
    bool found = false;
    for (size_t i = 0; i < b->plan->medicine_count; i++) {
        const struct medicine_plan *m = &b->plan->medicines[i];
        for (size_t k = 0; k < plan_home_doses(m); k++) {
            const struct date on = m->doses[k].on;
            const long days = date_days_between(meal, on);
            if (days > 0 && days <= rest && (!found || date_compare(on, *out) < 0)) {
                *out = on;
                found = true;
            }
        }
    }
    return found;
}

static bool is_dose_day(const struct care_plan *plan, struct date day)
{
    for (size_t i = 0; i < plan->medicine_count; i++)
        for (size_t k = 0; k < plan_home_doses(&plan->medicines[i]); k++)
            if (date_compare(plan->medicines[i].doses[k].on, day) == 0)
                return true;
    return false;
}

/* Which of the next meals stands on a day of a dose at home, of what swallows its prey whole. */
static void meet_doses(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    for (size_t i = 0; is_whole_prey(b) && !f->meets_dose && i < f->next_count; i++) {
        f->meets_dose = is_dose_day(b->plan, f->next[i]);
        f->has_dose_after = f->meets_dose && dose_after(b, f->next[i], &f->dose_after);
    }
}

void feeding_plan_dates(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    plan_written_first(b);
    size_t count;
    const struct date *days = feeding_meal_days(b, &count);
    f->meal_days = days;
    f->meal_day_count = count;
    for (f->next_count = 0; f->next_count < count && f->next_count < MEAL_DATES; f->next_count++)
        f->next[f->next_count] = days[f->next_count];
    meet_doses(b);
    if (count > 0)
        tell_why_later(b);
}
