/* The rule engine: rules that hold -> actions, merged, settled, ordered by harm avoided. */
#include "care/rule_match.h"
#include "care/settle.h"

#include <string.h>

/* An action that avoids so much harm is never cut for length. */
enum { NEVER_CUT_HARM = 90 };

struct gathering {
    struct action *actions;
    size_t count;
};

static void add_reason(struct care_build *b, struct action *action, const struct rule *rule, const char *from)
{
    struct action_reason *reason = ARENA_NEW(b->arena, struct action_reason);
    *reason = (struct action_reason){
        .rule = rule->name.text,
        .from = from,
        .source = named_text_find(&b->in->rules->sources, rule->source.text),
        .trust = (enum trust)rule->trust.value,
    };
    struct action_reason **end = &action->reasons;
    while (*end)
        end = &(*end)->next;
    *end = reason;
}

static void gather(struct care_build *b, struct gathering *g)
{
    const struct list *rules = &b->in->rules->rules;
    g->actions = ARENA_ARRAY(b->arena, struct action, rules->count);
    for (size_t i = 0; i < rules->count; i++) {
        const struct rule *rule = LIST_AT(*rules, struct rule, i);
        const char *from;
        if (!rule_match(b, rule, &from))
            continue;
        struct action *action = g->actions;
        while (action < g->actions + g->count && strcmp(action->code, rule->action.text) != 0)
            action++;
        if (action == g->actions + g->count)
            *(g->actions + g->count++) = (struct action){.code = rule->action.text};
        if (rule->harm.value > action->harm)
            action->harm = rule->harm.value;
        add_reason(b, action, rule, from);
    }
}

static void settle(struct care_build *b, struct gathering *g)
{
    /* the changes that stand take part, so that a change can drop an action */
    const char *changes[] = {
        arena_format(b->arena, "humidity:%s", bind_choice_word(humidity_change_choices, (int)b->humidity_change)),
        arena_format(b->arena, "warmth:%s", bind_choice_word(warmth_change_choices, (int)b->warmth_change)),
        arena_format(b->arena, "feeding:%s", bind_choice_word(feeding_change_choices, (int)b->feeding_change)),
        arena_format(b->arena, "bath:%s", bind_choice_word(bath_change_choices, (int)b->bath_change)),
    };
    size_t more = sizeof changes / sizeof *changes;
    struct claim *claims = ARENA_ARRAY(b->arena, struct claim, g->count + more);
    for (size_t i = 0; i < g->count; i++)
        claims[i] = (struct claim){.code = g->actions[i].code, .from = g->actions[i].reasons->rule};
    for (size_t i = 0; i < more; i++)
        claims[g->count + i] = (struct claim){.code = changes[i], .from = "finding"};
    settle_claims(b, claims, g->count + more);
    size_t kept = 0;
    for (size_t i = 0; i < g->count; i++)
        if (!claims[i].dropped)
            g->actions[kept++] = g->actions[i];
    g->count = kept;
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

static void cut(struct care_build *b, struct gathering *g)
{
    while (g->count > MOST_ACTIONS && g->actions[g->count - 1].harm < NEVER_CUT_HARM) {
        g->count--;
        build_review(b, REVIEW_REMARK, "action-left-out", (struct mark){0},
                     build_fact_text(b, "action", FACT_TEXT, g->actions[g->count].code, NULL));
    }
    for (size_t i = 0; i < g->count; i++)
        g->actions[i].is_first = i < FIRST_ACTIONS;
}

bool actions_plan(struct care_build *b)
{
    struct gathering g = {0};
    gather(b, &g);
    settle(b, &g);
    order(&g);
    cut(b, &g);
    for (size_t i = 0; i < g.count; i++) {
        bool is_bath = strstr(g.actions[i].code, "bath") || strstr(g.actions[i].code, "soak");
        if (is_bath && b->plan->has_bath_from) {
            g.actions[i].has_start = true;
            g.actions[i].start = b->plan->bath_from;
        }
    }
    b->plan->actions = g.actions;
    b->plan->action_count = g.count;
    const struct list *cautions = &b->in->rules->cautions;
    const char **codes = ARENA_ARRAY(b->arena, const char *, cautions->count);
    for (size_t i = 0; i < cautions->count; i++)
        codes[i] = LIST_AT(*cautions, struct text_value, i)->text;
    b->plan->cautions = codes;
    b->plan->caution_count = cautions->count;
    return true;
}
