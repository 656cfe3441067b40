/* Days of the past that can only be slips of the year: older than any of its kind, a last meal so
 * long ago that it would have starved, a lamp older than any that still burns. Nothing is left out
 * of the plan for it: the veterinarian is asked. */
#include "care/build.h"

enum { MONTHS_PER_YEAR = 12 };

/* The same day in this year, or in the one before where it is still to come. */
static struct date meant_day(struct date written, struct date on)
{
    struct date meant = date_add_months(written, MONTHS_PER_YEAR * (on.year - written.year));
    return date_compare(meant, on) <= 0 ? meant : date_add_months(meant, -MONTHS_PER_YEAR);
}

static void judge_past(struct care_build *b, const struct date_value *day, double most_days,
                       const char *code)
{
    if (!day->known || (double)date_days_between(day->date, b->plan->on) <= most_days)
        return;
    build_review(
        b, REVIEW_IMPLAUSIBLE, code, day->at,
        build_fact_date(b, "on", day->date,
                        build_fact_date(b, "meant", meant_day(day->date, b->plan->on), NULL)));
}

/* What it does again and again; the last time cannot be years ago. */
static bool is_recurring(int event)
{
    return event == EVENT_ATE || event == EVENT_STOOL || event == EVENT_SHED;
}

bool plausible_days_plan(struct care_build *b)
{
    const struct visit *v = b->in->visit;
    const struct band *longest = &b->in->species->longest_life_days.range;
    double life = longest->known ? longest->high : build_limit(b, "life-longest-days");
    double recurring = build_limit(b, "last-time-most-days");
    for (int i = 0; i < EVENT_COUNT; i++)
        judge_past(b, &v->history.events[i], is_recurring(i) ? recurring : life,
                   is_recurring(i) ? "last-time-long-ago" : "day-before-its-life");
    for (size_t i = 0; i < v->diet.count; i++)
        judge_past(b, &LIST_AT(v->diet, struct visit_diet, i)->last, recurring,
                   "last-time-long-ago");
    for (size_t i = 0; i < v->patient.earlier.count; i++)
        judge_past(b, &LIST_AT(v->patient.earlier, struct visit_weighing, i)->on, life,
                   "day-before-its-life");
    judge_past(b, &v->enclosure.lamp.installed, build_limit(b, "lamp-oldest-days"),
               "lamp-older-than-any");
    return true;
}
