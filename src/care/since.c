/* Holds the first changes of the visit before, and its weight, against today. */
#include "care/since.h"

#include <math.h>
#include <string.h>

#include "care/rule_match.h"
#include "care/weight.h"

static const struct action *find_action(const struct care_plan *plan, const char *code)
{
    for (size_t i = 0; i < plan->action_count; i++)
        if (!plan->actions[i].own && strcmp(plan->actions[i].code, code) == 0)
            return &plan->actions[i];
    return NULL;
}

static bool can_be_mended(const struct care_build *b, const struct action *action)
{
    for (const struct action_reason *r = action->reasons; r; r = r->next) {
        const struct rule *rule = rule_find(b->in->rules, r->rule);
        if (rule && rule_when_mends(&rule->when))
            return true;
    }
    return false;
}

bool since_asked_before(const struct care_build *b, const struct rule *rule)
{
    const struct care_plan *before = b->in->previous.plan;
    if (!before || !rule_when_mends(&rule->when))
        return false;
    const struct action *then = find_action(before, rule->action.text);
    return then && can_be_mended(b, then);
}

/* ---- how it came out ---- */

static enum since_outcome outcome_of(struct care_build *b, const struct action *then)
{
    static const enum since_outcome of_states[] = {
        [MENDED_NOTHING] = SINCE_OVER,    [MENDED_YES] = SINCE_DONE, [MENDED_NEARLY] = SINCE_NEAR,
        [MENDED_UNKNOWN] = SINCE_UNKNOWN, [MENDED_NOT] = SINCE_OVER, [MENDED_TURNED] = SINCE_TURNED,
    };
    if (then->own)
        return SINCE_UNKNOWN;
    const struct action *now = find_action(b->plan, then->code);
    if (now)
        return now->is_second ? SINCE_STILL : SINCE_GOES_ON;
    enum mended worst = MENDED_NOTHING;
    for (const struct action_reason *r = then->reasons; r; r = r->next) {
        const struct rule *rule = rule_find(b->in->rules, r->rule);
        enum mended one = rule ? rule_when_mended(b, &rule->when) : MENDED_NOTHING;
        worst = one > worst ? one : worst;
    }
    return of_states[worst];
}

static void set_measured(struct since_item *item, const struct measured_plan *then,
                         const struct measured_plan *now)
{
    const struct measured_plan *aim = now->applies ? now : then;
    item->has_then = then->has_reading && then->verdict != VERDICT_UNKNOWN;
    item->then = then->judged;
    item->has_now = now->has_reading && now->verdict != VERDICT_UNKNOWN;
    item->now = now->judged;
    item->has_target = aim->applies;
    item->low = aim->low;
    item->high = aim->high;
}

static void set_lamp(struct since_item *item, const struct care_plan *then,
                     const struct care_plan *now)
{
    const struct care_plan *aim =
        now->uvb.distance_why == DISTANCE_KNOWN && !now->uvb.lamp_overdue ? now : then;
    item->has_then = then->enclosure.lamp_height_cm > 0;
    item->then = then->enclosure.lamp_height_cm;
    item->has_now = now->enclosure.lamp_height_cm > 0;
    item->now = now->enclosure.lamp_height_cm;
    item->has_target = aim->uvb.distance_why == DISTANCE_KNOWN && !aim->uvb.lamp_overdue;
    item->low = aim->uvb.nearest_cm;
    item->high = aim->uvb.farthest_cm;
}

static void plan_items(struct care_build *b)
{
    const struct care_plan *before = b->in->previous.plan;
    struct since_item *items = ARENA_ARRAY(b->arena, struct since_item, before->action_count + 1);
    size_t count = 0;
    for (size_t i = 0; i < before->action_count; i++) {
        const struct action *then = &before->actions[i];
        const struct step *step = step_find(b->in->steps, then->code);
        bool not_yet = then->has_start && date_compare(then->start, b->plan->on) > 0;
        /* and what had to be bought, which stands behind the first */
        if ((!then->is_first && then->is_at_hand) || not_yet)
            continue;
        struct since_item *item = &items[count++];
        *item = (struct since_item){.code = then->code, .own = then->own};
        item->outcome = outcome_of(b, then);
        item->has_place = step && step->place.known;
        if (!item->has_place)
            continue;
        item->place = step->place.value;
        if (item->place == PLACE_LAMP_DISTANCE)
            set_lamp(item, before, b->plan);
        else
            set_measured(item, &before->measured[item->place], &b->plan->measured[item->place]);
    }
    b->plan->since.items = items;
    b->plan->since.item_count = count;
}

/* ---- the weight ---- */

static void plan_weight(struct care_build *b)
{
    const struct care_plan *before = b->in->previous.plan;
    struct since_weight *w = &b->plan->since.weight;
    w->known = before->patient.has_mass && b->plan->patient.has_mass;
    if (!w->known)
        return;
    w->then_g = before->patient.mass_g;
    w->now_g = b->plan->patient.mass_g;
    const struct weight_curve curve = {
        .purpose = before->weight.purpose,
        .from_g = w->then_g,
        .goal_g = before->weight.has_goal ? before->weight.goal_g : 0,
        .days = b->plan->since.days,
        .what = "since_last.weight.expected_g",
    };
    struct ends expected, now = build_mass_g(b, w->now_g);
    w->has_expected = weight_expected(b, &curve, &w->how, &expected);
    if (!w->has_expected)
        return;
    w->expected_low_g = expected.low;
    w->expected_high_g = expected.high;
    w->verdict = now.high < expected.low   ? VERDICT_TOO_LOW
                 : now.low > expected.high ? VERDICT_TOO_HIGH
                                           : VERDICT_IN_RANGE;
}

/* ---- what was taken over ---- */

static void tell_taken(struct care_build *b)
{
    const struct previous_visit *previous = &b->in->previous;
    struct since_plan *since = &b->plan->since;
    const char **codes = ARENA_ARRAY(b->arena, const char *, previous->taken_count + 1);
    for (size_t i = 0; i < previous->taken_count; i++) {
        const struct taken_fact *one = &previous->taken[i];
        const char *review =
            arena_format(b->arena, "%s-%s", one->left_out ? "asked" : "taken", one->code);
        build_review(b, one->left_out ? REVIEW_MISSING : REVIEW_REMARK, review,
                     b->in->visit->previous.at, build_fact_date(b, "of", since->on, NULL));
        if (!one->left_out)
            codes[since->taken_count++] = one->code;
    }
    since->taken = codes;
}

bool since_plan(struct care_build *b)
{
    const struct care_plan *before = b->in->previous.plan;
    if (!before)
        return true;
    struct since_plan *since = &b->plan->since;
    since->known = true;
    since->on = before->on;
    since->days = date_days_between(before->on, b->plan->on);
    plan_items(b);
    plan_weight(b);
    tell_taken(b);
    return true;
}
