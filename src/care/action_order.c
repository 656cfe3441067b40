/* What an action weighs: harm, how far outside its band the value lies, what the findings make of
 * it, and that no setting of a heater stands before what a disease asks for. */
#include "care/action_order.h"

#include <math.h>

#include "care/measured.h"

/* ---- how far outside --------------------------------------------------------------------------
 */

static bool asks_for_outside(const struct list *verdicts, enum verdict verdict)
{
    return (verdict == VERDICT_TOO_LOW || verdict == VERDICT_TOO_HIGH) &&
           list_has_choice(verdicts, (int)verdict);
}

/* 0 at the band's end, 1 a whole width of the band (or what the meter may err either way) past it.
 */
static double distance_outside(const struct care_build *b, enum measure_id measure)
{
    const struct measured_plan *plan = &b->plan->measured[measure];
    const double error = measured_error(b, measure, plan->judged);
    const double width = isfinite(plan->low) && isfinite(plan->high) ? plan->high - plan->low : 0;
    const double whole = fmax(width, 2 * error);
    /* how far is not always known: then it counts in full */
    return plan->change != 0 && whole > 0 ? fmin(1, fabs(plan->change) / whole) : 1;
}

static bool is_within_error(const struct care_build *b, enum measure_id measure)
{
    const struct measured_plan *plan = &b->plan->measured[measure];
    return plan->change != 0 && fabs(plan->change) <= measured_error(b, measure, plan->judged);
}

/* The upper end of the warmest place that the animal should have. */
static double warmest_c(const struct care_build *b)
{
    double most = -INFINITY;
    for (int z = 0; z < ZONE_COUNT; z++)
        if (b->plan->measured[z].applies)
            most = fmax(most, b->plan->measured[z].high);
    return most;
}

/* Above what the animal bears; where no such limit is known, hotter than its warmest place should
 * be and a whole width of the band outside. */
static bool is_far_too_hot(const struct care_build *b, enum measure_id measure)
{
    const struct measured_plan *plan = &b->plan->measured[measure];
    if (plan->verdict != VERDICT_TOO_HIGH)
        return false;
    return isfinite(plan->most)
               ? plan->judged_low > plan->most
               : plan->judged_low > warmest_c(b) && distance_outside(b, measure) == 1;
}

/* The farthest of the values that the rule asks to be outside. */
static void grade(const struct care_build *b, const struct rule *rule, struct rule_weight *weight)
{
    const double least = build_limit(b, "harm-just-outside-percent") / 100;
    double farthest = -1;
    bool within = true;
    for (int m = 0; m < MEASURE_COUNT; m++) {
        if (!asks_for_outside(&rule->when.measured[m], b->plan->measured[m].verdict))
            continue;
        farthest = fmax(farthest, distance_outside(b, (enum measure_id)m));
        weight->far_too_hot |= is_far_too_hot(b, (enum measure_id)m);
        within = within && is_within_error(b, (enum measure_id)m);
    }
    if (farthest < 0)
        return;
    weight->share = least + (1 - least) * farthest;
    weight->within_error = within;
}

/* ---- what the findings make of it
 * ------------------------------------------------------------------ */

static const char *raising_finding(const struct care_build *b, const struct list *codes)
{
    for (size_t i = 0; i < b->plan->finding_count; i++)
        if (b->plan->findings[i].severity != SEVERITY_NORMAL &&
            list_has_text(codes, b->plan->findings[i].code))
            return b->plan->findings[i].code;
    return NULL;
}

struct rule_weight action_weigh(const struct care_build *b, const struct rule *rule)
{
    struct rule_weight weight = {.share = 1};
    if (rule->graded.value)
        grade(b, rule, &weight);
    weight.harm = rule->harm.value * weight.share;
    weight.raised_by = raising_finding(b, &rule->raised.finding);
    if (weight.raised_by)
        weight.harm = fmin(HARM_MOST, weight.harm + rule->raised.by.value);
    return weight;
}

/* ---- heaters and diseases
 * -------------------------------------------------------------------------- */

/* What has to be bought, and no disease asks for, gives way with the heaters: an ill animal is
 * warmed before a shop is asked for a lamp. Of equals the file's order holds. */
static void hold_bought_behind(struct action *actions, size_t count, double heaters)
{
    for (size_t i = 0; i < count; i++)
        if (!actions[i].is_at_hand && !actions[i].of_disease)
            actions[i].harm = fmin(actions[i].harm, heaters);
}

void action_cap_heaters(struct action *actions, size_t count)
{
    double gravest = -INFINITY, least = INFINITY;
    for (size_t i = 0; i < count; i++) {
        if (!actions[i].of_disease)
            continue;
        gravest = fmax(gravest, actions[i].harm);
        least = fmin(least, actions[i].harm);
    }
    if (!isfinite(gravest))
        return;
    double lowered = -INFINITY;
    for (size_t i = 0; i < count; i++) {
        struct action *one = &actions[i];
        if (!one->of_heater || one->of_disease)
            continue;
        double most = one->is_far_too_hot ? gravest : least;
        if (one->harm >= most)
            lowered = fmax(lowered, one->harm = fmax(0, most - 1));
    }
    if (isfinite(lowered))
        hold_bought_behind(actions, count, lowered);
}
