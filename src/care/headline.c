/* Which finding leads: the cause before what it brings about, the urgent before the grave. */
#include "care/plan.h"

/* What brings the other about leads, unless the other is the more urgent. */
static bool is_cause_of(const struct finding_plan *one, const struct finding_plan *other)
{
    return one->headline != HEADLINE_BEHIND && other->headline == HEADLINE_BEHIND &&
           (one->tier <= other->tier || one->headline == HEADLINE_BEFORE);
}

/* A mild one stands a step behind: a nip in the foot is seen to at once, and yet the animal came
 * for what made it ill. What leads by its nature does so in each degree. */
static int rank(const struct finding_plan *f)
{
    return (int)f->tier + (f->severity == SEVERITY_MILD && f->headline != HEADLINE_BEFORE);
}

static bool leads(const struct finding_plan *one, const struct finding_plan *other)
{
    if (is_cause_of(one, other) || is_cause_of(other, one))
        return is_cause_of(one, other);
    if (rank(one) != rank(other))
        return rank(one) < rank(other);
    if ((one->headline == HEADLINE_BEFORE) != (other->headline == HEADLINE_BEFORE))
        return one->headline == HEADLINE_BEFORE;
    if (one->severity != other->severity)
        return one->severity > other->severity;
    return one->headline != HEADLINE_LOCAL && other->headline == HEADLINE_LOCAL;
}

static const struct finding_plan *first_of(const struct care_plan *plan, enum severity least,
                                           const struct finding_plan *but)
{
    const struct finding_plan *first = NULL;
    for (size_t i = 0; i < plan->finding_count; i++) {
        const struct finding_plan *f = &plan->findings[i];
        if (f != but && f->is_urgent && f->severity >= least && (!first || leads(f, first)))
            first = f;
    }
    return first;
}

const struct finding_plan *plan_worst_finding(const struct care_plan *plan)
{
    return first_of(plan, SEVERITY_MILD, NULL);
}

const struct finding_plan *plan_second_finding(const struct care_plan *plan)
{
    return first_of(plan, SEVERITY_MODERATE, plan_worst_finding(plan));
}
