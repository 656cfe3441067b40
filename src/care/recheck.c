/* The day to come back, as the veterinarian wrote it, moved off a closed day; months are months of
 * the calendar. */
#include "care/build.h"

#include <math.h>

/* "1 month" means the same day of the next month, not 30.4 days; half a month is half of 30.4 days.
 */
static struct date add_months(struct date on, double months)
{
    const double month_days = 365.25 / 12;
    double whole = floor(months);
    return date_add_days(date_add_months(on, (int)whole), lround((months - whole) * month_days));
}

const struct finding_plan *build_soonest_recheck(const struct care_build *b)
{
    const struct finding_plan *soonest = NULL;
    for (size_t i = 0; i < b->plan->finding_count; i++) {
        const struct finding_plan *f = &b->plan->findings[i];
        if (f->has_recheck && (!soonest || f->recheck_days < soonest->recheck_days))
            soonest = f;
    }
    return soonest;
}

/* Whoever is past the usual day already goes no further. */
static struct date latest_day(const struct care_build *b, struct date wanted)
{
    const struct finding_plan *usual = build_soonest_recheck(b);
    if (!usual)
        return build_no_limit(wanted);
    struct date latest = date_add_days(b->plan->on, (long)usual->recheck_days);
    return date_compare(latest, wanted) < 0 ? wanted : latest;
}

/* What was agreed on stands, also on a closed day: the veterinarian is told. */
static void plan_booked(struct care_build *b, const struct visit_follow_up *next)
{
    const struct date on = next->booked.date;
    b->plan->has_recheck = true;
    b->plan->recheck = on;
    if (next->booked_at.text)
        b->plan->booked_minute = opening_minute(next->booked_at.text);
    if (build_open_day(b, on, build_no_limit(on)).why != OPEN_DAY_SAME)
        build_review(b, REVIEW_REMARK, "booked-on-closed-day", next->booked.at,
                     build_fact_date(b, "planned", on, NULL));
}

static bool is_referred(const struct care_plan *plan)
{
    for (size_t i = 0; i < plan->finding_count; i++)
        if (plan->findings[i].state == STATE_REFERRED)
            return true;
    return false;
}

/* What the record does not tell is written in by hand. */
static void plan_referral(struct care_build *b, const struct visit_referral *written)
{
    struct referral_plan *plan = &b->plan->referral;
    *plan = (struct referral_plan){
        .is_asked = is_referred(b->plan) || written->to.text || written->on.known,
        .to = written->to.text,
        .has_day = written->on.known,
        .on = written->on.date,
    };
    b->plan->has_blanks |= plan->is_asked && (!plan->to || !plan->has_day);
    if (!plan->has_day)
        return;
    plan->food_is_written =
        written_step_on(&b->in->topics->written, b->in->visit, WRITTEN_FAST, plan->on);
    if (!plan->food_is_written)
        build_review(b, REVIEW_MISSING, "referral-food", written->on.at,
                     build_fact_date(b, "on", plan->on, NULL));
}

/* After so long, off a closed day. */
static void plan_wanted(struct care_build *b, const struct quantity *wanted)
{
    b->plan->has_recheck = true;
    if (wanted->unit == UNIT_MONTH)
        b->plan->recheck = add_months(b->plan->on, wanted->written);
    else if (wanted->unit == UNIT_YEAR)
        b->plan->recheck = add_months(b->plan->on, wanted->written * 12);
    else
        b->plan->recheck = date_add_days(b->plan->on, lround(wanted->value));
    b->plan->recheck =
        build_check_day(b, b->plan->recheck, latest_day(b, b->plan->recheck), wanted->at);
}

/* Nobody brings an ill animal to two places on one morning. */
static void tell_two_places(struct care_build *b, const struct visit_follow_up *next)
{
    const struct referral_plan *other = &b->plan->referral;
    if (other->has_day && b->plan->has_recheck && date_compare(other->on, b->plan->recheck) == 0)
        build_review(b, REVIEW_REMARK, "two-places-on-one-day", next->referral.on.at,
                     build_fact_date(b, "planned", other->on, NULL));
}

bool recheck_plan(struct care_build *b)
{
    const struct visit_follow_up *next = &b->in->visit->follow_up;
    b->plan->booked_minute = -1;
    plan_referral(b, &next->referral);
    if (next->booked.known)
        plan_booked(b, next);
    else if (next->recheck.known)
        plan_wanted(b, &next->recheck);
    tell_two_places(b, next);
    return true;
}
