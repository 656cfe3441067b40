/* The day by which the keeper calls when nothing has changed: it has not eaten, or still lacks
 * water. */
#include "care/build.h"

#include <math.h>
#include <string.h>

enum { LONGEST_CLOSED_DAYS = 31 };

/* The first open day from this one on. */
static struct date open_from(const struct care_build *b, struct date day)
{
    const struct opening *opening = &b->plan->letterhead.opening;
    for (int i = 0; i < LONGEST_CLOSED_DAYS && opening_is_closed(opening, day); i++)
        day = date_add_days(day, 1);
    return day;
}

/* The last open day up to this one, tomorrow at the earliest; else the next one that is open. */
static struct date open_until(const struct care_build *b, struct date day)
{
    const struct date first = date_add_days(b->plan->on, 1);
    const struct opening *opening = &b->plan->letterhead.opening;
    struct date made = date_compare(day, first) < 0 ? first : day;
    while (date_compare(made, first) > 0 && opening_is_closed(opening, made))
        made = date_add_days(made, -1);
    return open_from(b, made);
}

static bool starts_after_check(const struct care_plan *plan)
{
    return plan->has_recheck && plan->feeding.next_count > 0 &&
           date_compare(plan->feeding.next[0], plan->recheck) >= 0;
}

/* Before the first meal nobody can say that it ate nothing: the day after it, or the check says
 * it, where that is later. */
static void wait_for_first_meal(struct care_build *b, struct feeding_plan *f)
{
    if (!f->has_call_by || (f->paused && !f->has_resume) || f->next_count == 0 ||
        date_compare(f->next[0], f->call_by) < 0)
        return;
    f->call_by = open_from(b, date_add_days(f->next[0], 1));
    f->has_call_by = !b->plan->has_recheck || f->starts_after_check ||
                     date_compare(f->call_by, b->plan->recheck) < 0;
}

/* Before the fast is longer than its kind bears, and before the check, where it is seen anyway. */
static void call_for_food(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    struct date_value last;
    struct date day = b->plan->on;
    bool known = false;
    if (!plan_holds_on(b->plan, "food", "offer-only", plan_food_day(b->plan)) &&
        !(f->paused && !f->has_resume))
        return;
    if (f->fast_limit_days > 0) {
        const struct date since = visit_last_meal(b->in->visit, &last) ? last.date : b->plan->on;
        day = date_add_days(since, lround(f->fast_limit_days));
        known = true;
    }
    if (b->plan->has_recheck) {
        if (!known || date_compare(b->plan->recheck, day) <= 0)
            day = date_add_days(b->plan->recheck, -1);
        known = true;
    }
    f->has_call_by = known;
    if (known)
        f->call_by = open_until(b, day);
    wait_for_first_meal(b, f);
}

/* Whoever lacks more water calls sooner, and none later than it is seen here. */
static void call_for_water(struct care_build *b)
{
    for (size_t i = 0; i < b->plan->finding_count; i++) {
        const struct finding_plan *f = &b->plan->findings[i];
        bool dry = strcmp(f->code, "dehydrated") == 0 || strcmp(f->code, "sunken-eyes") == 0;
        if (!dry || f->severity == SEVERITY_NORMAL)
            continue;
        const struct band *days = &limit_find(b->in->reference, "thirst-call-days")->range;
        const double left = f->severity == SEVERITY_MILD ? days->high : days->low;
        const struct date last = date_add_days(b->plan->on, lround(left));
        const bool is_seen_before =
            b->plan->has_recheck && date_compare(b->plan->recheck, last) < 0;
        const struct date day = open_until(b, is_seen_before ? b->plan->recheck : last);
        if (!b->plan->has_thirst_call || date_compare(day, b->plan->thirst_call) < 0)
            b->plan->thirst_call = day;
        b->plan->has_thirst_call = true;
    }
}

/* The published water and no lifted air of an ill animal, nor more than its kind bears. */
static void warm_drink_bath(struct care_build *b)
{
    const struct band *water = &limit_find(b->in->reference, "drink-bath-c")->range;
    const struct band *limit = &b->in->species->upper_limit.range;
    b->plan->drink_bath_high_c = limit->known ? fmin(water->high, limit->low) : water->high;
    b->plan->drink_bath_low_c = fmin(water->low, b->plan->drink_bath_high_c);
}

bool call_days_plan(struct care_build *b)
{
    b->plan->feeding.starts_after_check = starts_after_check(b->plan);
    warm_drink_bath(b);
    b->plan->sign_lasting_days = build_limit(b, "sign-lasting-days");
    call_for_food(b);
    call_for_water(b);
    return true;
}
