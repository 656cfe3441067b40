/* What the veterinarian wrote of the days after a procedure, taken into the plan. */
#include "care/build.h"
#include "records/opening.h"

/* More than a snake's stomach is said to hold, and not told as meant by the veterinarian. */
static void review_stomach(struct care_build *b, const struct visit_aftercare *one)
{
    if (!one->amount.known || !b->plan->patient.has_mass)
        return;
    /* a millilitre of food weighs about a gram */
    double percent = 100 * one->amount.value / b->plan->patient.mass_g;
    double most = limit_find(b->in->reference, "stomach-percent")->range.high;
    if (percent > most)
        build_review(b, REVIEW_IMPLAUSIBLE, "more-than-the-stomach-holds", one->amount.at,
                     build_fact(b, "percent", FACT_PERCENT, percent, percent,
                                build_fact(b, "most", FACT_PERCENT, most, most, NULL)));
}

static void take(struct care_build *b, const struct visit_aftercare *one)
{
    struct aftercare_plan *to = &b->plan->aftercare;
    if (one->hours.known) {
        to->dry_hours = one->hours.value;
        to->dry_times = one->times.known ? one->times.value : 0;
    }
    if (one->awake_by.text) {
        to->has_awake_by = true;
        to->awake_by_minute = opening_minute(one->awake_by.text);
    }
    if (one->amount.known)
        to->tube_ml = one->amount.value;
    if (one->every_h.known)
        to->tube_every_h = one->every_h.value;
}

bool aftercare_plan(struct care_build *b)
{
    const struct list *list = &b->in->visit->follow_up.aftercare;
    for (size_t i = 0; i < list->count; i++) {
        const struct visit_aftercare *one = LIST_AT(*list, struct visit_aftercare, i);
        review_stomach(b, one);
        take(b, one);
    }
    return true;
}

/* Hours that nothing asks for would stand on no page. */
bool aftercare_said_plan(struct care_build *b)
{
    static const char *const kept_dry[] = {"all-day-with-swims", "twice-a-day", "as-written"};
    const struct list *list = &b->in->visit->follow_up.aftercare;
    bool good = true;
    for (size_t i = 0; i < sizeof kept_dry / sizeof *kept_dry; i++)
        if (plan_holds(b->plan, "dry-hours", kept_dry[i]))
            return true;
    for (size_t i = 0; i < list->count; i++) {
        const struct visit_aftercare *one = LIST_AT(*list, struct visit_aftercare, i);
        if (!one->hours.known)
            continue;
        diag_report_path(b->diag, DIAG_ERROR, "aftercare-of-another", one->hours.at,
                         "follow-up.aftercare.hours",
                         "nothing keeps this animal dry by the hour, so they would stand on no "
                         "page; write dry-hours under done-today, or leave them out");
        good = false;
    }
    return good;
}
