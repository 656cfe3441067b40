/* The rule engine: rules that hold -> actions, merged, held to the settled stances, ordered by harm
 * avoided, then by the veterinarian's hand. */
#include "care/lost_steps.h"
#include "care/rule_match.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

#include "care/action_order.h"
#include "care/feeding.h"
#include "care/since.h"
#include "care/stances.h"

struct gathering {
    struct action *actions;
    size_t count;
};

static void add_reason(struct care_build *b, struct action *action, const struct rule *rule,
                       const struct rule_weight *weight, const char *from)
{
    struct action_reason *reason = ARENA_NEW(b->arena, struct action_reason);
    *reason = (struct action_reason){
        .rule = rule->name.text,
        .from = from,
        .source = named_text_find(&b->in->rules->sources, rule->source.text),
        .trust = (enum trust)rule->trust.value,
        .harm = weight->harm,
        .share = weight->share,
        .raised_by = weight->raised_by,
    };
    struct action_reason **end = &action->reasons;
    while (*end)
        end = &(*end)->next;
    *end = reason;
}

/* Above what it bears an amphibian dies wherever it sits: no setting of a heater any more. */
static bool is_wet_skinned(const struct care_build *b)
{
    return b->plan->taxon.group == GROUP_FROG || b->plan->taxon.group == GROUP_SALAMANDER;
}

/* And so does whatever has no place to cool down. */
static bool is_deadly(const struct care_build *b)
{
    return is_wet_skinned(b) || (b->plan->measured[ZONE_WARM_SIDE].verdict == VERDICT_TOO_HIGH &&
                                 b->plan->measured[ZONE_COOL_SIDE].verdict == VERDICT_TOO_HIGH);
}

static void gather(struct care_build *b, struct gathering *g)
{
    const struct list *rules = &b->in->rules->rules;
    g->actions =
        ARENA_ARRAY_UNSET(b->arena, struct action, rules->count + b->in->visit->decisions.count);
    for (size_t i = 0; i < rules->count; i++) {
        const struct rule *rule = LIST_AT(*rules, struct rule, i);
        const char *from;
        if (!rule_when_match(b, &rule->when, &from))
            continue;
        struct action *action = g->actions;
        while (action < g->actions + g->count && strcmp(action->code, rule->action.text) != 0)
            action++;
        if (action == g->actions + g->count)
            *(g->actions + g->count++) =
                (struct action){.code = rule->action.text, .words = rule->action.text};
        struct rule_weight weight = action_weigh(b, rule);
        action->harm = fmax(action->harm, weight.harm);
        action->may_be_first |= (!rule->first.known || rule->first.value) && !weight.within_error;
        action->is_at_hand |= !rule->shop.value || weight.raised_by;
        action->is_tonight |= rule->tonight.value && !weight.within_error;
        action->of_disease |= rule->disease.value;
        action->of_heater |= rule->heater.value && !(weight.far_too_hot && is_deadly(b));
        action->is_second |= since_asked_before(b, rule);
        action->is_far_too_hot |= rule->heater.value && weight.far_too_hot;
        add_reason(b, action, rule, &weight, from);
    }
}

/* ---- held to the settled stances ------------------------------------------------------------- */

/* The first day on which the instruction's own topic agrees; today when it agrees already. */
static struct date first_day(const struct care_build *b, const struct instruction *one)
{
    for (size_t i = 0; one->topic.text && one->stances.count && i < b->plan->topic_count; i++) {
        const struct topic_plan *topic = &b->plan->topics[i];
        if (strcmp(topic->topic, one->topic.text) != 0)
            continue;
        for (size_t k = 0; k < topic->phase_count; k++)
            if (list_has_text(&one->stances, topic->phases[k].stance))
                return topic->phases[k].from;
    }
    return b->plan->on;
}

/* Words for it, and the day it begins; false when nothing of it agrees with the plan. */
static bool hold_to_stances(struct care_build *b, struct action *action)
{
    const char *key = arena_format(b->arena, "action.%s", action->code);
    size_t place = code_index_find(&b->plan->text_index, key);
    if (place == SIZE_MAX)
        return true;
    const char *printed = b->plan->texts[place].printed;
    if (!printed)
        return false;
    const size_t prefix = strlen("action.");
    const struct date from = b->plan->texts[place].from; /* a decision of some days ends there */
    bool is_variant = strcmp(printed, key) != 0 && strncmp(printed, "action.", prefix) == 0;
    if (is_variant)
        action->words = printed + prefix;
    action->start =
        is_variant || date_compare(from, b->plan->on) > 0
            ? from
            : first_day(b, LIST_AT(b->in->instructions->instructions, struct instruction, place));
    action->has_start = date_compare(action->start, b->plan->on) > 0;
    if (action->has_start)
        action->may_be_first = action->is_tonight = false; /* tonight holds what is done tonight */
    return true;
}

static void tell_left_out(struct care_build *b, const char *code, const struct action *action)
{
    struct plan_fact *facts =
        build_fact_text(b, "from", FACT_TEXT, action->reasons ? action->reasons->from : "", NULL);
    build_review(b, REVIEW_CONFLICT, code, (struct mark){0},
                 build_fact_text(b, "action", FACT_TEXT, action->code, facts));
}

/* Two actions that come to the same words are one, with the reasons of both. */
static bool join_same_words(struct action *kept, size_t count, const struct action *one)
{
    for (size_t i = 0; i < count; i++) {
        if (strcmp(kept[i].words, one->words) != 0)
            continue;
        struct action_reason **end = &kept[i].reasons;
        while (*end)
            end = &(*end)->next;
        *end = one->reasons;
        if (one->harm > kept[i].harm)
            kept[i].harm = one->harm;
        kept[i].may_be_first |= one->may_be_first;
        kept[i].is_at_hand |= one->is_at_hand;
        kept[i].is_tonight |= one->is_tonight;
        kept[i].is_second |= one->is_second;
        return true;
    }
    return false;
}

static void keep_what_agrees(struct care_build *b, struct gathering *g)
{
    size_t kept = 0;
    for (size_t i = 0; i < g->count; i++)
        if (!hold_to_stances(b, &g->actions[i]))
            tell_left_out(b, "action-against-stance", &g->actions[i]);
        else if (!join_same_words(g->actions, kept, &g->actions[i]))
            g->actions[kept++] = g->actions[i];
    g->count = kept;
}

static const struct instruction *instruction_of(const struct care_build *b,
                                                const struct action *action)
{
    const struct instruction_catalogue *book = b->in->instructions;
    size_t place =
        code_index_find(&book->index, arena_format(b->arena, "action.%s", action->words));
    return place == SIZE_MAX ? NULL : LIST_AT(book->instructions, struct instruction, place);
}

/* "Give no bath" beside "drinking baths from Saturday": the one ends where the other begins. */
static void end_where_another_begins(struct care_build *b, struct gathering *g)
{
    for (size_t i = 0; i < g->count; i++) {
        struct action *one = &g->actions[i];
        const struct instruction *says = one->has_start ? NULL : instruction_of(b, one);
        const char *topic = says ? says->topic.text : NULL;
        for (size_t k = 0; topic && k < g->count; k++) {
            const struct action *other = &g->actions[k];
            const struct instruction *then = other->has_start ? instruction_of(b, other) : NULL;
            const char *also = then ? then->topic.text : NULL;
            if (!also || strcmp(also, topic) != 0 ||
                (one->has_end && date_compare(one->end, other->start) <= 0))
                continue;
            one->has_end = true;
            one->end = other->start;
        }
    }
}

/* Does a rule ask for the action because of a stance of the topic? */
static bool is_asked_by(const struct care_build *b, const struct action *action, const char *topic)
{
    const size_t length = strlen(topic);
    for (const struct action_reason *r = action->reasons; r; r = r->next) {
        const struct rule *rule = rule_find(b->in->rules, r->rule);
        for (size_t i = 0; rule && i < rule->when.stance.count; i++) {
            const char *stance = LIST_AT(rule->when.stance, struct text_value, i)->text;
            if (strncmp(stance, topic, length) == 0 && stance[length] == ':')
                return true;
        }
    }
    return false;
}

/* Today's phase of the topic that the action tells, or of one whose stance is why it is there,
 * where the veterinarian decided it. What it only has to agree with says nothing of its end. */
static const struct stance_phase *decided_phase(const struct care_build *b,
                                                const struct action *action)
{
    const struct instruction *one = instruction_of(b, action);
    const struct stance_phase *now = NULL;
    if (one && one->topic.text)
        now = plan_phase_on(b->plan, one->topic.text, b->plan->on);
    if (now && !list_has_text(&one->stances, now->stance))
        now = NULL; /* a variant for another stance: "buy a lamp later" has no last day */
    for (size_t i = 0; one && i < one->topics.count && !(now && now->decision); i++) {
        const char *topic = LIST_AT(one->topics, struct instruction_topic, i)->name.text;
        if (is_asked_by(b, action, topic))
            now = plan_phase_on(b->plan, topic, b->plan->on);
    }
    return now && now->decision ? now : NULL;
}

/* A rest of the gut that goes on with another has its last day there. */
static bool goes_on_after(const struct care_build *b, const struct stance_phase *now)
{
    const struct stance_phase *next = plan_phase_on(b->plan, "food", now->until);
    return feeding_is_pause(now->stance) && next && feeding_is_pause(next->stance);
}

/* Does a rule that holds with this stance, and not with the usual one, ask for the action? */
static bool is_called_by(const struct care_build *b, const struct action *action,
                         const char *stance, const char *usual)
{
    for (const struct action_reason *r = action->reasons; r; r = r->next) {
        const struct rule *rule = rule_find(b->in->rules, r->rule);
        if (rule && list_has_text(&rule->when.stance, stance) &&
            !list_has_text(&rule->when.stance, usual))
            return true;
    }
    return false;
}

/* A step that stands with the usual stance too is not what tells the decided one: "change the
 * plants" has neither its last day nor its reason. */
static bool stands_with_usual(const struct care_build *b, const struct action *action,
                              const struct stance_phase *now)
{
    const struct instruction *one = instruction_of(b, action);
    const char *name = one ? one->topic.text : NULL;
    const size_t place = name ? topic_find(b->in->topics, name, strlen(name)) : SIZE_MAX;
    const struct topic *topic =
        place != SIZE_MAX ? LIST_AT(b->in->topics->topics, struct topic, place) : NULL;
    const char *usual = topic ? stances_usual(b, topic) : NULL;
    return usual && strcmp(usual, now->stance) != 0 && list_has_text(&one->stances, usual) &&
           list_has_text(&one->stances, now->stance) &&
           !is_called_by(b, action, arena_format(b->arena, "%s:%s", name, now->stance),
                         arena_format(b->arena, "%s:%s", name, usual));
}

/* What tells a stance of the veterinarian's has its last day and its reason. */
static void end_with_decision(struct care_build *b, struct gathering *g)
{
    for (size_t i = 0; i < g->count; i++) {
        struct action *one = &g->actions[i];
        const struct stance_phase *now = one->has_start ? NULL : decided_phase(b, one);
        if (!now || stands_with_usual(b, one, now))
            continue;
        one->decided_why = now->decision->reason;
        if (now->has_until && !one->has_end && !goes_on_after(b, now)) {
            one->has_end = true;
            one->end = now->until;
        }
    }
}

/* What was asked for before and was not done stands higher. */
static void raise_second(const struct care_build *b, struct gathering *g)
{
    for (size_t i = 0; i < g->count; i++)
        if (g->actions[i].is_second)
            g->actions[i].harm =
                fmin(HARM_MOST, g->actions[i].harm + build_limit(b, "harm-second-time"));
}

/* Insertion sort: stable, so that equals stay in the file's order. */
static void order(struct gathering *g)
{
    for (size_t i = 1; i < g->count; i++) {
        struct action moving = g->actions[i];
        size_t k = i;
        for (; k > 0 && g->actions[k - 1].harm < moving.harm; k--)
            g->actions[k] = g->actions[k - 1];
        g->actions[k] = moving;
    }
}

/* By itself, or because it makes what something else asks for graver. */
static bool is_from(const struct action *action, const char *finding)
{
    for (const struct action_reason *r = action->reasons; r; r = r->next)
        if ((strncmp(r->from, "finding:", 8) == 0 && strcmp(r->from + 8, finding) == 0) ||
            (r->raised_by && strcmp(r->raised_by, finding) == 0))
            return true;
    return false;
}

/* Takes the action at `from` to the place `to`, the others closing up. */
static void move_action(struct gathering *g, size_t from, size_t to)
{
    struct action moving = g->actions[from];
    for (size_t i = from; i > to; i--)
        g->actions[i] = g->actions[i - 1];
    for (size_t i = from; i < to; i++)
        g->actions[i] = g->actions[i + 1];
    g->actions[to] = moving;
}

/* What the message names first is done first, unless something is a danger by itself. */
static void lead_with_worst(const struct care_build *b, struct gathering *g)
{
    const struct finding_plan *worst = plan_worst_finding(b->plan);
    if (!worst || g->count == 0 || g->actions[0].harm >= build_limit(b, "harm-danger"))
        return;
    for (size_t i = 0; i < g->count && i < FIRST_ACTIONS; i++)
        if (g->actions[i].may_be_first && is_from(&g->actions[i], worst->code)) {
            move_action(g, i, 0);
            return;
        }
}

/* How it stands as a row: by its words, which may be another action's, or by its own code. NULL for
 * what the veterinarian says in words of her own. */
static const struct step *step_of(const struct care_build *b, const struct action *action)
{
    if (action->own)
        return NULL;
    const struct step *step = step_find(b->in->steps, action->words);
    return step ? step : step_find(b->in->steps, action->code);
}

/* Food that waits for warmth is not offered before it: the step that warms stands before the one
 * that offers. */
static void warm_before_food(const struct care_build *b, struct gathering *g)
{
    if (!plan_holds(b->plan, "food-gate", "warm-and-watered-first"))
        return;
    size_t food = g->count, warm = g->count;
    for (size_t i = g->count; i-- > 0;) { /* the first of each */
        const struct step *step = step_of(b, &g->actions[i]);
        if (step && step->feeds.value)
            food = i;
        if (step && step->food_waits.value)
            warm = i;
    }
    if (warm == g->count || food == g->count || warm < food)
        return;
    g->actions[warm].may_be_first = true;
    move_action(g, warm, food);
}

/* An ill animal digests and heals by day: of what is due tonight its warm places stand before the
 * night. They change places among themselves, so that none of the others is pushed back. */
static void warm_day_before_night(const struct care_build *b, struct gathering *g)
{
    size_t night = 0;
    while (night < g->count) {
        const struct step *step = step_of(b, &g->actions[night]);
        if (step && step->behind_day_heat.value && g->actions[night].is_tonight)
            break;
        night++;
    }
    for (size_t i = night + 1; i < g->count; i++) {
        const struct step *step = step_of(b, &g->actions[i]);
        if (!step || !step->food_waits.value || !step->heats.value || !g->actions[i].is_tonight)
            continue;
        const struct action day = g->actions[i];
        g->actions[i] = g->actions[night];
        g->actions[night] = day;
        night = i;
    }
}

/* ---- what is read again -----------------------------------------------------------------------
 */

struct reading_again {
    const struct gathering *gathering;
    const struct action *action;
};

static bool is_changed_already(const char *from, const void *who)
{
    const struct reading_again *again = who;
    for (size_t i = 0; i < again->gathering->count; i++) {
        const struct action *other = &again->gathering->actions[i];
        for (const struct action_reason *r = other->reasons; other != again->action && r;
             r = r->next)
            if (strcmp(r->from, from) == 0)
                return true;
    }
    return false;
}

static const struct rule_when *when_of(const struct care_build *b, const struct action *action)
{
    const struct list *rules = &b->in->rules->rules;
    size_t i = 0;
    while (strcmp(LIST_AT(*rules, struct rule, i)->name.text, action->reasons->rule) != 0)
        i++;
    return &LIST_AT(*rules, struct rule, i)->when;
}

/* A number that another step changes is not first to be read again: that step says how it is read.
 * The next one on an edge takes its place; without one the step goes. */
static void pass_over_changed(struct care_build *b, struct gathering *g)
{
    for (size_t i = g->count; i-- > 0;) {
        const struct rule_when *when = when_of(b, &g->actions[i]);
        const struct reading_again again = {g, &g->actions[i]};
        if (!when->any_reading.count)
            continue;
        g->actions[i].reasons->from = rule_any_reading(b, when, is_changed_already, &again);
        if (!g->actions[i].reasons->from)
            move_action(g, i, --g->count);
    }
}

/* ---- the veterinarian's hand -------------------------------------------------------------------
 */

static size_t find_action(const struct gathering *g, const char *code)
{
    for (size_t i = 0; i < g->count; i++)
        if (strcmp(g->actions[i].code, code) == 0)
            return i;
    return SIZE_MAX;
}

/* A step in her own words is tonight's where they say so, or what is done day by day and from no
 * later day. */
static bool begins_today(const struct care_build *b, const struct text_value *own)
{
    const struct list *written = &b->in->topics->written;
    return written_says(written, own, WRITTEN_TODAY) && !written_says(written, own, WRITTEN_LATER);
}

/* The step that says what hers says: by the first of her sentences that speaks of one, for what
 * comes behind it tells how. */
static size_t find_spoken(const struct care_build *b, const struct gathering *g,
                          const struct text_value *own)
{
    size_t found = SIZE_MAX, first = SIZE_MAX;
    for (size_t i = 0; i < g->count; i++) {
        const struct step *step = step_of(b, &g->actions[i]);
        const size_t sentence =
            step && step->own_step.count
                ? written_sentence(&b->in->topics->written, own, &step->own_step)
                : SIZE_MAX;
        if (sentence < first) {
            first = sentence;
            found = i;
        }
    }
    return found;
}

/* Nobody is told the same thing twice: her words stand in the step that says it. */
static void stand_in(struct care_build *b, struct action *one, const struct text_value *own)
{
    one->hers = one->hers ? arena_format(b->arena, "%s %s", one->hers, own->text) : own->text;
    one->is_tonight = one->is_tonight || begins_today(b, own);
    build_review(b, REVIEW_OVERRIDE, "step-own", (struct mark){0},
                 build_fact_text(b, "step", FACT_CODE,
                                 arena_format(b->arena, "action.%s.short", one->code), NULL));
}

static size_t add_own(const struct care_build *b, struct gathering *g, const struct text_value *own)
{
    g->actions[g->count++] = (struct action){.code = "own",
                                             .own = own->text,
                                             .may_be_first = true,
                                             .is_at_hand = true,
                                             .is_tonight = begins_today(b, own)};
    return g->count - 1;
}

static void strike(struct care_build *b, struct gathering *g, size_t at,
                   const struct visit_decision *decision)
{
    if (!g->actions[at].hers) /* her own words stand in it: nothing else of it is hers to strike */
        move_action(g, at, --g->count);
    build_review(
        b, REVIEW_OVERRIDE, "action-struck", decision->at,
        build_fact_text(b, "action", FACT_TEXT, decision->action.text,
                        build_fact_text(b, "because", FACT_TEXT, decision->because.text, NULL)));
}

/* `spoken`: the step that her own words stand in; NULL: they are a step by themselves. */
static void decide_one(struct care_build *b, struct gathering *g,
                       const struct visit_decision *decision, const char *spoken)
{
    size_t at;
    if (decision->own.text) {
        at = spoken ? find_action(g, spoken) : add_own(b, g, &decision->own);
    } else {
        at = find_action(g, decision->action.text);
        if (at == SIZE_MAX) {
            build_review(b, REVIEW_REMARK, "decision-without-action", decision->at,
                         build_fact_text(b, "action", FACT_TEXT, decision->action.text, NULL));
            return;
        }
    }
    if (!decision->strike.value)
        g->actions[at].decision = decision_of(b, decision);
    if (decision->strike.value) {
        strike(b, g, at, decision);
    } else if (decision->place.known) {
        size_t to = (size_t)decision->place.value - 1;
        g->actions[at].may_be_first = g->actions[at].is_at_hand = true;
        move_action(g, at, to < g->count ? to : g->count - 1);
    }
}

/* What her words stand in is known before anything is struck or placed. */
static void decide(struct care_build *b, struct gathering *g)
{
    const struct list *decisions = &b->in->visit->decisions;
    const char **spoken = ARENA_ARRAY(b->arena, const char *, decisions->count + 1);
    for (size_t i = 0; i < decisions->count; i++) {
        const struct visit_decision *one = LIST_AT(*decisions, struct visit_decision, i);
        const size_t at = find_spoken(b, g, &one->own);
        if (at != SIZE_MAX) {
            stand_in(b, &g->actions[at], &one->own);
            spoken[i] = g->actions[at].code;
        }
    }
    for (size_t i = 0; i < decisions->count; i++) {
        const struct visit_decision *one = LIST_AT(*decisions, struct visit_decision, i);
        if (one->action.text || one->own.text)
            decide_one(b, g, one, spoken[i]);
    }
}

static size_t set_first_of(struct gathering *g, size_t first, bool at_hand)
{
    for (size_t i = first; i < g->count && first < FIRST_ACTIONS; i++)
        if (g->actions[i].may_be_first && g->actions[i].is_at_hand == at_hand) {
            g->actions[i].is_first = g->actions[i].is_tonight = true;
            move_action(g, i, first++);
        }
    return first;
}

/* Do its words say to put in first what makes heat safe? */
static bool waits_for_safe_heat(const struct care_build *b, const struct action *action)
{
    const struct step *step = step_of(b, action);
    const char *key = arena_format(b->arena, "action.%s.how", action->code);
    const char *printed = plan_printed_key(b->plan, key, b->arena);
    return step && printed && list_has_text(&step->safe_heat_first, printed + strlen("action."));
}

static bool makes_heat_safe(const struct care_build *b, const struct action *action)
{
    const struct step *step = step_of(b, action);
    return step && step->makes_heat_safe.value && !action->has_start && !action->decision;
}

/* What heat must have before it is turned up is due on the same day and stands before what turns it
 * up, and behind what takes a heater that burns away: that danger goes at once, and the one in its
 * place waits. Among the first ones where it is one of them, else at once behind them. What she
 * placed herself stays where she put it. */
static size_t ready_heat(const struct care_build *b, struct gathering *g, size_t behind)
{
    size_t heats = 0;
    while (heats < g->count && !(g->actions[heats].is_tonight && !g->actions[heats].decision &&
                                 waits_for_safe_heat(b, &g->actions[heats])))
        heats++;
    for (size_t i = 0; i < heats && heats < g->count; i++)
        g->actions[i].is_tonight |= makes_heat_safe(b, &g->actions[i]);
    const bool is_taken_away = heats < g->count && !step_of(b, &g->actions[heats])->heats.value;
    size_t at = is_taken_away ? heats + 1 : heats;
    for (size_t i = heats + 1; i < g->count; i++) {
        if (!makes_heat_safe(b, &g->actions[i]))
            continue;
        const bool goes_along = i < behind || (is_taken_away && at > behind);
        g->actions[i].is_tonight = true;
        move_action(g, i, goes_along ? at++ : behind++);
    }
    return behind;
}

/* The first three that may be, before all others; those keep their order. Shops are closed tonight:
 * what has to be bought is among them only where there is room. Behind them stands what is due
 * tonight all the same, and then what she wrote: a fast on Friday does not wait for a larger box.
 */
static void set_first(const struct care_build *b, struct gathering *g)
{
    size_t behind = set_first_of(g, set_first_of(g, 0, true), false);
    behind = ready_heat(b, g, behind);
    for (size_t i = behind; i < g->count; i++)
        if (g->actions[i].is_tonight)
            move_action(g, i, behind++);
    for (size_t i = behind; i < g->count; i++)
        if (g->actions[i].own)
            move_action(g, i, behind++);
}

/* What would be done tonight by its rank, were nothing placed by hand. */
struct by_rank {
    const char *codes[FIRST_ACTIONS];
    size_t count;
};

static void note_by_rank(const struct gathering *g, struct by_rank *out)
{
    out->count = 0;
    for (int at_hand = 1; at_hand >= 0; at_hand--)
        for (size_t i = 0; i < g->count && out->count < FIRST_ACTIONS; i++)
            if (g->actions[i].may_be_first && g->actions[i].is_at_hand == (at_hand == 1))
                out->codes[out->count++] = g->actions[i].code;
}

static size_t place_in_first(const struct gathering *g, size_t action)
{
    size_t before = 0;
    for (size_t i = 0; i < action; i++)
        before += g->actions[i].may_be_first && g->actions[i].is_at_hand;
    return before;
}

/* A step that is placed further up pushes none of tonight's into later: that one stays tonight's,
 * behind the first ones, and who signs is told. */
static void keep_pushed(struct care_build *b, struct gathering *g, const struct by_rank *ranked)
{
    for (size_t i = 0; i < ranked->count; i++) {
        const size_t at = find_action(g, ranked->codes[i]);
        if (at == SIZE_MAX || g->actions[at].decision || g->actions[at].is_tonight ||
            place_in_first(g, at) < FIRST_ACTIONS)
            continue;
        g->actions[at].is_tonight = true;
        build_review(b, REVIEW_REMARK, "step-pushed-behind", (struct mark){0},
                     build_fact_text(b, "step", FACT_CODE,
                                     arena_format(b->arena, "action.%s.short", g->actions[at].code),
                                     NULL));
    }
}

/* Those that are for this animal, each under its own or its variant's code. */
static void plan_cautions(struct care_build *b)
{
    const struct list *cautions = &b->in->rules->cautions;
    const size_t prefix = strlen("caution.");
    const char **codes = ARENA_ARRAY(b->arena, const char *, cautions->count);
    for (size_t i = 0; i < cautions->count; i++) {
        const char *code = LIST_AT(*cautions, struct text_value, i)->text;
        const char *key = arena_format(b->arena, "caution.%s", code);
        const char *printed = plan_printed_key(b->plan, key, b->arena);
        if (printed)
            codes[b->plan->caution_count++] = printed + prefix;
    }
    b->plan->cautions = codes;
}

/* The action that says as much as what is printed of it, or NULL. */
static const char *said_by(const struct instruction *one, const char *printed)
{
    for (size_t i = 0; i < one->variants.count; i++) {
        const struct instruction_variant *variant =
            LIST_AT(one->variants, struct instruction_variant, i);
        if (strcmp(variant->key.text, printed) == 0)
            return variant->said_by.text;
    }
    return one->said_by.text;
}

/* What a step of today says stands nowhere else. */
static void say_once(struct care_build *b, const struct gathering *g)
{
    const struct list *book = &b->in->instructions->instructions;
    struct declared_text *texts = ARENA_ARRAY_UNSET(b->arena, struct declared_text, book->count);
    for (size_t i = 0; i < book->count; i++) {
        texts[i] = b->plan->texts[i];
        const char *printed = texts[i].printed;
        const char *code = printed ? said_by(LIST_AT(*book, struct instruction, i), printed) : NULL;
        size_t at = code ? find_action(g, code) : SIZE_MAX;
        if (at != SIZE_MAX && !g->actions[at].has_start)
            texts[i].printed = NULL;
    }
    b->plan->texts = texts;
}

bool actions_plan(struct care_build *b)
{
    struct gathering g = {0};
    struct by_rank ranked;
    gather(b, &g);
    keep_what_agrees(b, &g);
    end_where_another_begins(b, &g);
    end_with_decision(b, &g);
    pass_over_changed(b, &g);
    raise_second(b, &g);
    action_cap_heaters(g.actions, g.count);
    order(&g);
    lead_with_worst(b, &g);
    warm_before_food(b, &g);
    warm_day_before_night(b, &g);
    note_by_rank(&g, &ranked);
    decide(b, &g);
    keep_pushed(b, &g, &ranked);
    set_first(b, &g);
    b->plan->actions = g.actions;
    b->plan->action_count = g.count;
    plan_cautions(b);
    say_once(b, &g);
    lost_steps_tell(b);
    return true;
}
