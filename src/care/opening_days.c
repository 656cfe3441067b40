/* No check falls on a day on which the clinic is closed: which open day is taken instead. */
#include "care/build.h"

/* The nearest open day in steps of one day, up to and including `end`; false when there is none. */
static bool find_open(const struct care_build *b, struct date from, int step, struct date end,
                      struct date *out)
{
    for (struct date day = from; step * date_days_between(day, end) >= 0;
         day = date_add_days(day, step)) {
        if (opening_is_closed(&b->plan->letterhead.opening, day))
            continue;
        *out = day;
        return true;
    }
    return false;
}

/* What is grave is looked at sooner rather than later. */
static bool is_grave(const struct care_build *b)
{
    for (size_t i = 0; i < b->plan->finding_count; i++) {
        const struct finding_plan *f = &b->plan->findings[i];
        bool found = f->severity != SEVERITY_NORMAL;
        if (found && (f->severity == SEVERITY_SEVERE || (f->is_urgent && f->tier <= TIER_TODAY)))
            return true;
    }
    return false;
}

struct open_day build_open_day(const struct care_build *b, struct date on, struct date latest)
{
    const struct date next = date_add_days(on, 1),
                      most = date_add_days(on, (long)build_limit(b, "closed-days-later-most-days")),
                      limit = date_compare(latest, most) < 0 ? latest : most;
    struct open_day made = {.on = on};
    if (!opening_is_closed(&b->plan->letterhead.opening, on))
        return made;
    struct date before = {0}, after = {0};
    bool has_before = find_open(b, on, -1, date_add_days(b->plan->on, 1), &before);
    bool has_after = find_open(b, next, 1, most, &after);
    bool in_time = has_after && date_compare(after, limit) <= 0;
    if (in_time && (!has_before || !is_grave(b)))
        made = (struct open_day){after, is_grave(b) ? OPEN_DAY_TOO_LATE : OPEN_DAY_LATER};
    else if (has_before)
        made = (struct open_day){before, OPEN_DAY_EARLIER};
    else
        made = (struct open_day){has_after ? after : on, OPEN_DAY_TOO_LATE};
    return made;
}

struct date build_check_day(struct care_build *b, struct date on, struct date latest,
                            struct mark at)
{
    static const char *const codes[] = {[OPEN_DAY_EARLIER] = "check-moved-earlier",
                                        [OPEN_DAY_LATER] = "check-moved-later",
                                        [OPEN_DAY_TOO_LATE] = "check-no-open-day"};
    struct open_day day = build_open_day(b, on, latest);
    if (day.why != OPEN_DAY_SAME)
        build_review(b, REVIEW_REMARK, codes[day.why], at,
                     build_fact_date(b, "planned", on, build_fact_date(b, "open", day.on, NULL)));
    return day.on;
}

struct date build_result_day(struct care_build *b, const struct date_value *by)
{
    struct date open = by->date;
    if (!opening_is_closed(&b->plan->letterhead.opening, by->date) ||
        !find_open(b, date_add_days(by->date, 1), 1, build_no_limit(by->date), &open))
        return by->date;
    build_review(b, REVIEW_REMARK, "result-moved", by->at,
                 build_fact_date(b, "planned", by->date, build_fact_date(b, "open", open, NULL)));
    return open;
}

struct date build_no_limit(struct date on)
{
    enum { YEAR_DAYS = 366 };
    return date_add_days(on, YEAR_DAYS);
}

bool opening_hours_plan(struct care_build *b)
{
    const struct letterhead_plan *clinic = &b->plan->letterhead;
    if (clinic->hours_text_count > 0)
        build_review(b, REVIEW_REMARK, "hours-as-text", clinic->hours_at, NULL);
    return true;
}
