/* The medicines as they were written, with the days of their doses. */
#include <math.h>

#include "care/feeding.h"
#include "care/medicines.h"

static const double DAY_H = 24, SLACK = 1e-6;

/* A day of doses begins at four: what falls after midnight belongs to the night before. The hours
 * that stand for the words keep doses apart as written; common practice, no source. */
static const double DAY_BEGINS_H = 4;
static const struct {
    double from_h, starts_h; /* the word holds from here; a first dose is taken to be given here */
} day_parts[DAY_PART_COUNT] = {
    [DAY_PART_MORNING] = {4, 8},   [DAY_PART_NOON] = {11, 12},  [DAY_PART_AFTERNOON] = {14, 16},
    [DAY_PART_EVENING] = {18, 20}, [DAY_PART_NIGHT] = {22, 23},
};

/* Three times a day the clock is named: the hours that keep doses eight hours apart and let a
 * keeper sleep; common practice, no source. The first one is at the next of them. */
static const double THRICE_H = 8;
static const int thrice_hours[DAY_PART_COUNT] = {[DAY_PART_MORNING] = 6,
                                                 [DAY_PART_NOON] = 14,
                                                 [DAY_PART_AFTERNOON] = 14,
                                                 [DAY_PART_EVENING] = 22,
                                                 [DAY_PART_NIGHT] = 22};

static bool is_thrice_daily(const struct medicine_plan *m)
{
    return m->has_every && fabs(m->every_h - THRICE_H) <= SLACK;
}

static struct dose_plan dose_at(struct date first, double hours)
{
    double days = floor((hours - DAY_BEGINS_H) / DAY_H + SLACK), hour = hours - days * DAY_H;
    struct dose_plan dose = {date_add_days(first, (long)days), DAY_PART_MORNING, 0};
    for (int part = 0; part < DAY_PART_COUNT; part++)
        if (hour + SLACK >= day_parts[part].from_h)
            dose.at = (enum day_part)part;
    return dose;
}

/* Doses within the days written: the last one begins before they are over. */
static long count_of(const struct visit_medicine *v)
{
    if (v->doses.known)
        return (long)v->doses.value;
    return v->for_days.known ? (long)ceil(v->for_days.value * DAY_H / v->every_h.value - SLACK) : 0;
}

/* A dose that the clinic gives on a day on which it is closed waits for the next open day, and
 * those behind it as long: none comes sooner after another than is written. Where one is due each
 * day that cannot be: the plan's dates tell it. */
static bool keep_open_days(struct care_build *b, const struct visit_medicine *v,
                           struct dose_plan *doses, size_t count)
{
    bool moved = false;
    const struct opening *opening = &b->plan->letterhead.opening;
    for (size_t i = 0; i < count && v->every_h.value > DAY_H; i++) {
        const struct date on = doses[i].on;
        long later = 0;
        while (later < OPENING_DAYS && opening_is_closed(opening, date_add_days(on, later)))
            later++;
        if (later == 0 || later == OPENING_DAYS)
            continue;
        for (size_t k = i; k < count; k++)
            doses[k].on = date_add_days(doses[k].on, later);
        build_review(
            b, REVIEW_CONFLICT, "dose-moved", v->first.at,
            build_fact_date(b, "planned", on, build_fact_date(b, "open", doses[i].on, NULL)));
        moved = true;
    }
    return moved;
}

/* As written; else in the morning, and what is given at home once or twice a day from the visit's
 * own day on in the evening, when they are home: common practice, no source. */
static enum day_part first_part(const struct care_build *b, const struct visit_medicine *v,
                                const struct medicine_plan *m)
{
    if (v->at.known)
        return (enum day_part)v->at.value;
    bool once_or_twice = !m->says_at || fabs(m->every_h - DAY_H / 2) <= SLACK;
    bool from_today =
        !m->is_given_here && once_or_twice && date_compare(m->first, b->plan->on) == 0;
    return from_today ? DAY_PART_EVENING : DAY_PART_MORNING;
}

static void list_doses(struct care_build *b, const struct visit_medicine *v,
                       struct medicine_plan *m)
{
    const enum day_part part = first_part(b, v, m);
    const double start_h = is_thrice_daily(m) ? thrice_hours[part] : day_parts[part].starts_h;
    long wanted = m->dose_count ? m->dose_count
                                : (long)ceil(FEEDING_PLANNER_DAYS * DAY_H / m->every_h - SLACK);
    size_t count = wanted < DOSES_MOST ? (size_t)wanted : DOSES_MOST;
    struct dose_plan *doses = ARENA_ARRAY(b->arena, struct dose_plan, count + 1);
    for (size_t i = 0; i < count; i++) {
        doses[i] = dose_at(m->first, start_h + m->every_h * (double)i);
        doses[i].hour = is_thrice_daily(m) ? thrice_hours[doses[i].at] : 0;
    }
    if (m->is_given_here)
        m->moved = keep_open_days(b, v, doses, count);
    m->doses = doses;
    m->listed = count;
    m->has_last = m->dose_count > 0;
    if (m->has_last)
        m->last = m->is_given_here && count > 0
                      ? doses[count - 1].on
                      : dose_at(m->first, start_h + m->every_h * (double)(m->dose_count - 1)).on;
}

static struct medicine_plan medicine_of(struct care_build *b, const struct visit_medicine *v)
{
    struct medicine_plan m = {
        .name = v->name.text,
        .directions = v->directions.text,
        .has_amount = v->amount.known,
        .amount = v->amount.written,
        .amount_unit = v->amount.unit,
        .has_route = v->route.known,
        .route = (enum medicine_route)v->route.value,
        .has_every = v->every_h.known,
        .every_h = v->every_h.value,
        .has_for = v->for_days.known,
        .has_count = v->doses.known,
        .for_days = v->for_days.value,
        .has_first = v->first.known,
        .is_given_here = v->given.value == GIVEN_HERE,
        .first = v->first.date,
    };
    if (!m.has_every)
        return m;
    m.says_at = v->at.known || fmod(m.every_h + SLACK, DAY_H) > 2 * SLACK;
    m.dose_count = count_of(v);
    if (m.has_first)
        list_doses(b, v, &m);
    return m;
}

bool medicines_plan(struct care_build *b)
{
    const struct list *written = &b->in->visit->medicines;
    struct medicine_plan *plans = ARENA_ARRAY(b->arena, struct medicine_plan, written->count + 1);
    for (size_t i = 0; i < written->count; i++) {
        const struct visit_medicine *v = LIST_AT(*written, struct visit_medicine, i);
        plans[i] = medicine_of(b, v);
        medicine_review(b, v, &plans[i]);
    }
    medicine_review_names(b);
    b->plan->medicines = plans;
    b->plan->medicine_count = written->count;
    return true;
}

size_t plan_home_doses(const struct medicine_plan *medicine)
{
    return medicine->is_given_here ? 0 : medicine->listed;
}

bool plan_dose_day(const struct medicine_plan *medicine, size_t *at, struct date *day)
{
    if (*at >= medicine->listed)
        return false;
    *day = medicine->doses[*at].on;
    while (*at < medicine->listed && date_compare(medicine->doses[*at].on, *day) == 0)
        ++*at;
    return true;
}
