/* What the clinic gives through a stomach tube: the days on which the animal is brought for it. */
#include <string.h>

#include "care/build.h"

static const char TUBE_FEEDING[] = "tube-feeding";

static bool is_by_tube_here(const struct medicine_plan *m)
{
    return m->is_given_here && m->has_route && m->route == ROUTE_FEEDING_TUBE && m->listed > 0;
}

/* The day that she wrote for the next look at it. */
static const struct procedure_plan *tube_feeding(const struct care_plan *plan)
{
    for (size_t i = 0; i < plan->procedure_count; i++)
        if (strcmp(plan->procedures[i].code, TUBE_FEEDING) == 0)
            return &plan->procedures[i];
    return NULL;
}

/* In order, each once. */
static void add_day(struct tube_here_plan *to, struct date *days, struct date day)
{
    size_t at = to->count;
    for (size_t i = 0; i < to->count; i++)
        if (date_compare(days[i], day) == 0)
            return;
    for (; at > 0 && date_compare(days[at - 1], day) > 0; at--)
        days[at] = days[at - 1];
    days[at] = day;
    to->count++;
}

/* Two dates of one thing: an owner who goes by the later one stays at home on the days before. */
static void review_check(struct care_build *b, const struct medicine_plan *m, struct date first,
                         struct date check)
{
    if (date_compare(first, check) == 0)
        return;
    struct plan_fact *facts = build_fact_text(b, "medicine", FACT_TEXT, m->name, NULL);
    facts = build_fact_date(b, "beside", check, facts);
    build_review(b, REVIEW_CONFLICT, "tube-check-beside-doses", (struct mark){0},
                 build_fact_date(b, "on", first, facts));
}

/* Its doses, and the day of the check where that is another: she is asked which of them hold, and
 * the sheet keeps nobody away on any. */
bool tube_here_plan(struct care_build *b)
{
    struct tube_here_plan *to = &b->plan->tube_here;
    const struct procedure_plan *done = tube_feeding(b->plan);
    size_t most = 1;
    for (size_t i = 0; i < b->plan->medicine_count; i++)
        most += b->plan->medicines[i].listed;
    struct date *days = ARENA_ARRAY(b->arena, struct date, most), day;
    for (size_t i = 0; done && i < b->plan->medicine_count; i++) {
        const struct medicine_plan *m = &b->plan->medicines[i];
        const struct dose_plan *next = plan_next_dose_here(b->plan, m);
        if (!is_by_tube_here(m) || !next)
            continue;
        if (done->has_check)
            review_check(b, m, next->on, done->check);
        for (size_t at = 0; plan_dose_day(m, &at, &day);)
            if (date_compare(day, next->on) >= 0)
                add_day(to, days, day);
    }
    to->has_doses = to->count > 0;
    if (done && done->has_check)
        add_day(to, days, done->check);
    to->days = days;
    return true;
}
