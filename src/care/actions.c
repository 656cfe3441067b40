/* The rule engine: rules that hold -> actions, merged, settled, ordered by harm avoided. */
#include "care/rule_match.h"
#include "care/conflicts.h"

#include <string.h>

/* An action that avoids so much harm is never cut for length. */
enum { NEVER_CUT_HARM = 90 };

struct gathering {
    struct action *actions;
    size_t count;
};

static void add_reason(struct care_build *b, struct action *action, const struct rule *rule,
                       const char *from)
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
        action->may_be_first |= !rule->first.known || rule->first.value;
        add_reason(b, action, rule, from);
    }
}

/* The settled changes take part, so that a change can make an action go. */
static size_t claim_changes(struct care_build *b, struct conflict_claim *claims)
{
    const struct {
        const char *name;
        const struct choice *words;
        int value;
        const char *from;
    } rows[] = {
        {"humidity", humidity_change_choices, (int)b->humidity_change, b->humidity_change_from},
        {"warmth", warmth_change_choices, (int)b->warmth_change, b->warmth_change_from},
        {"feeding", feeding_change_choices, (int)b->feeding_change, b->feeding_change_from},
        {"bath", bath_change_choices, (int)b->bath_change, b->bath_change_from},
    };
    size_t count = 0;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (rows[i].from)
            claims[count++] = (struct conflict_claim){
                .code = arena_format(b->arena, "%s:%s", rows[i].name,
                                     bind_choice_word(rows[i].words, rows[i].value)),
                .from = rows[i].from,
                .fixed = true,
            };
    return count;
}

enum { CHANGES_MOST = 4 };

static void settle(struct care_build *b, struct gathering *g)
{
    struct conflict_claim *claims =
        ARENA_ARRAY(b->arena, struct conflict_claim, g->count + CHANGES_MOST);
    for (size_t i = 0; i < g->count; i++)
        claims[i] = (struct conflict_claim){.code = g->actions[i].code,
                                            .from = g->actions[i].reasons->rule};
    size_t changes = claim_changes(b, claims + g->count);
    conflicts_settle(b, claims, g->count + changes);
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
    size_t first = 0;
    for (size_t i = 0; i < g->count; i++) {
        g->actions[i].is_first = g->actions[i].may_be_first && first < FIRST_ACTIONS;
        first += g->actions[i].is_first;
    }
}

/* A bath is what the rule book lets go where none is allowed. It waits for the wound of a needle.
 */
static void start_baths(struct care_build *b, struct gathering *g)
{
    for (size_t i = 0; i < g->count; i++) {
        if (!b->plan->has_bath_from || !conflicts_drops(b, "bath:none", g->actions[i].code))
            continue;
        g->actions[i].has_start = true;
        g->actions[i].start = b->plan->bath_from;
    }
}

static void plan_cautions(struct care_build *b)
{
    const struct list *cautions = &b->in->rules->cautions;
    const char **codes = ARENA_ARRAY(b->arena, const char *, cautions->count);
    for (size_t i = 0; i < cautions->count; i++)
        codes[i] = LIST_AT(*cautions, struct text_value, i)->text;
    b->plan->cautions = codes;
    b->plan->caution_count = cautions->count;
}

bool actions_plan(struct care_build *b)
{
    struct gathering g = {0};
    gather(b, &g);
    settle(b, &g);
    order(&g);
    cut(b, &g);
    start_baths(b, &g);
    b->plan->actions = g.actions;
    b->plan->action_count = g.count;
    plan_cautions(b);
    return true;
}
