/* A step that a finding called for must not vanish because another's stance holds: where no step of
 * the topic is left, who signs is asked whether it is still to be done. */
#include "care/lost_steps.h"
#include "care/rule_match.h"

#include <string.h>

static const struct instruction *declared(const struct care_build *b, const char *action)
{
    const struct instruction_catalogue *book = b->in->instructions;
    const size_t place = code_index_find(&book->index, arena_format(b->arena, "action.%s", action));
    return place == SIZE_MAX ? NULL : LIST_AT(book->instructions, struct instruction, place);
}

/* Does the plan have this step, or another of the topic that stands for it? */
static bool is_left(const struct care_build *b, const char *action, const char *topic)
{
    for (size_t i = 0; i < b->plan->action_count; i++) {
        const char *code = b->plan->actions[i].code;
        const struct instruction *one = declared(b, code);
        if (strcmp(code, action) == 0 ||
            (one && one->topic.text && strcmp(one->topic.text, topic) == 0))
            return true;
    }
    return false;
}

static bool is_told(const struct care_build *b, const char *code, const char *key)
{
    for (const struct review *r = b->plan->review; r; r = r->next)
        for (const struct plan_fact *fact = r->facts; fact; fact = fact->next)
            if (strcmp(r->code, code) == 0 && strcmp(fact->name, "step") == 0 &&
                strcmp(fact->text, key) == 0)
                return true;
    return false;
}

/* What can wait is asked by its topic alone. */
void lost_steps_tell(struct care_build *b)
{
    const struct list *rules = &b->in->rules->rules;
    for (size_t i = 0; i < rules->count; i++) {
        const struct rule *rule = LIST_AT(*rules, struct rule, i);
        if (!rule->tonight.value && !rule->disease.value)
            continue;
        const struct topic_plan *topic = rule_when_gave_way(b, &rule->when);
        if (!topic || strcmp(topic->phases[0].stance, "none") == 0)
            continue; /* "none" is what forbids it */
        const char *key = arena_format(b->arena, "action.%s.short", rule->action.text);
        if (is_left(b, rule->action.text, topic->topic) || is_told(b, "step-lost", key))
            continue;
        const char *kept = arena_format(b->arena, "%s.%s", topic->topic, topic->phases[0].stance);
        build_review(b, REVIEW_CONFLICT, "step-lost", (struct mark){0},
                     build_fact_text(b, "step", FACT_CODE, key,
                                     build_fact_text(b, "kept", FACT_STANCE, kept, NULL)));
    }
}
