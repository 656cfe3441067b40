/* What the veterinarian wrote of the days after a procedure: checked, and taken into the plan. */
#include <math.h>
#include <string.h>

#include "care/build.h"
#include "records/opening.h"

static bool refuse(struct care_build *b, struct mark at, const char *key, const char *code,
                   const char *what)
{
    diag_report_path(b->diag, DIAG_ERROR, code, at,
                     arena_format(b->arena, "follow-up.aftercare.%s", key), "%s", what);
    return false;
}

static bool check(struct care_build *b, const struct visit_aftercare *one)
{
    bool good = true;
    if (!list_has_text(&b->in->visit->done_today, one->of.text))
        good =
            refuse(b, one->of.at, "of", "aftercare-of-nothing",
                   arena_format(b->arena, "'%s' was not done today; it must stand under done-today",
                                one->of.text));
    if (one->check.known && date_compare(one->check.date, b->plan->on) <= 0)
        good =
            refuse(b, one->check.at, "check", "aftercare-before-visit", "lies before the next day");
    if (one->awake_by.text && opening_minute(one->awake_by.text) < 0)
        good = refuse(b, one->awake_by.at, "awake-by", "not-a-time",
                      arena_format(b->arena, "'%s' is no time of the day, such as 17:30",
                                   one->awake_by.text));
    if (one->amount.known && one->amount.unit != UNIT_MILLILITRE)
        good = refuse(b, one->amount.at, "amount", "not-in-ml",
                      "what goes into the stomach is written in ml, such as 5 ml");
    return good;
}

/* More than a snake's stomach is said to hold, and not told as meant by the veterinarian. */
static void review_stomach(struct care_build *b, const struct visit_aftercare *one)
{
    if (!one->amount.known || !b->plan->patient.has_mass)
        return;
    /* a millilitre of food weighs about a gram */
    double percent = 100 * one->amount.value / b->plan->patient.mass_g;
    double most = limit_find(b->in->facts, "stomach-percent")->range.high;
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
    if (one->check.known && strcmp(one->of.text, "parasite-treatment") == 0) {
        to->has_treatment = true;
        to->treatment = one->check.date;
    }
    if (one->amount.known)
        to->tube_ml = one->amount.value;
    if (one->every_h.known)
        to->tube_every_h = one->every_h.value;
}

bool aftercare_plan(struct care_build *b)
{
    const struct list *list = &b->in->visit->follow_up.aftercare;
    bool good = true;
    for (size_t i = 0; i < list->count; i++) {
        const struct visit_aftercare *one = LIST_AT(*list, struct visit_aftercare, i);
        if (!check(b, one)) {
            good = false;
            continue;
        }
        review_stomach(b, one);
        take(b, one);
    }
    return good;
}
