/* The veterinarian's decisions held against the catalogue and the settled stances: a name that
 * there is not, an end that is missing and a danger without the second yes are faults. */
#include <stdint.h>
#include <string.h>

#include "base/nearest.h"
#include "care/stances.h"

void decisions_begin(struct care_build *b)
{
    const struct list *decisions = &b->in->visit->decisions;
    struct decision_plan *made = ARENA_ARRAY(b->arena, struct decision_plan, decisions->count + 1);
    for (size_t i = 0; i < decisions->count; i++) {
        const struct visit_decision *one = LIST_AT(*decisions, struct visit_decision, i);
        made[i] = (struct decision_plan){one->because.text, one->confirmed.value};
    }
    b->plan->decisions = made;
}

const struct decision_plan *decision_of(const struct care_build *b,
                                        const struct visit_decision *one)
{
    const struct list *decisions = &b->in->visit->decisions;
    for (size_t i = 0; i < decisions->count; i++)
        if (LIST_AT(*decisions, struct visit_decision, i) == one)
            return &b->plan->decisions[i];
    return NULL;
}

static bool refuse(struct care_build *b, const char *code, const struct text_value *at,
                   const char *path, const char *text)
{
    diag_report_path(b->diag, DIAG_ERROR, code, at->at, path, "%s", text);
    return false;
}

/* ---- names ------------------------------------------------------------------------------------
 */

static bool refuse_name(struct care_build *b, const char *code, const struct text_value *given,
                        const char *path, const char *what, const struct nearest *nearest)
{
    const char *text = nearest->best
                           ? arena_format(b->arena, "there is no %s '%s'; did you mean '%s'?", what,
                                          given->text, nearest->best)
                           : arena_format(b->arena, "there is no %s '%s'", what, given->text);
    return refuse(b, code, given, path, text);
}

static const char *parts_of(const struct care_build *b, const char *name)
{
    const struct list *topics = &b->in->topics->topics;
    const size_t length = strlen(name);
    struct strbuf all;
    strbuf_init(&all, b->arena);
    for (size_t i = 0; i < topics->count; i++) {
        const char *part = LIST_AT(*topics, struct topic, i)->name.text;
        if (strncmp(part, name, length) == 0 && part[length] == '.')
            strbuf_addf(&all, "%s%s", all.length ? ", " : "", part);
    }
    return all.text;
}

/* The decision's topic; NULL after a fault. */
static const struct topic *check_topic(struct care_build *b, const struct visit_decision *one)
{
    const struct list *topics = &b->in->topics->topics;
    const char *name = one->topic.text;
    size_t place = topic_find(b->in->topics, name, strlen(name));
    struct nearest nearest;
    nearest_init(&nearest, name);
    for (size_t i = 0; place == SIZE_MAX && i < topics->count; i++)
        nearest_offer(&nearest, LIST_AT(*topics, struct topic, i)->name.text);
    const char *parts = parts_of(b, name);
    if (place == SIZE_MAX && *parts) {
        refuse(b, "topic-has-parts", &one->topic, "decisions.topic",
               arena_format(b->arena, "'%s' has parts; name one of them: %s", name, parts));
        return NULL;
    }
    if (place == SIZE_MAX) {
        refuse_name(b, "unknown-topic", &one->topic, "decisions.topic", "topic", &nearest);
        return NULL;
    }
    const struct topic *topic = LIST_AT(*topics, struct topic, place);
    if (stances_usual(b, topic))
        return topic;
    refuse(b, "topic-does-not-fit", &one->topic, "decisions.topic",
           arena_format(b->arena, "a %s like this has no topic '%s'",
                        bind_choice_word(group_choices, b->in->species->group.value), name));
    return NULL;
}

static bool check_stance(struct care_build *b, const struct visit_decision *one,
                         const struct topic *topic)
{
    if (topic_rank(topic, one->stance.text) != SIZE_MAX)
        return true;
    struct nearest nearest;
    struct strbuf all;
    nearest_init(&nearest, one->stance.text);
    strbuf_init(&all, b->arena);
    for (size_t i = 0; i < topic->stances.count; i++) {
        const char *stance = LIST_AT(topic->stances, struct text_value, i)->text;
        nearest_offer(&nearest, stance);
        strbuf_addf(&all, "%s%s", i ? ", " : "", stance);
    }
    if (nearest.best)
        return refuse_name(b, "unknown-stance", &one->stance, "decisions.stance", "stance",
                           &nearest);
    return refuse(b, "unknown-stance", &one->stance, "decisions.stance",
                  arena_format(b->arena, "%s has no stance '%s'; it has %s", topic->name.text,
                               one->stance.text, all.text));
}

static bool check_action(struct care_build *b, const struct visit_decision *one)
{
    struct nearest nearest;
    nearest_init(&nearest, one->action.text);
    for (size_t i = 0; i < b->in->rules->rules.count; i++) {
        const char *code = LIST_AT(b->in->rules->rules, struct rule, i)->action.text;
        if (strcmp(code, one->action.text) == 0)
            return true;
        nearest_offer(&nearest, code);
    }
    return refuse_name(b, "unknown-action", &one->action, "decisions.action", "action", &nearest);
}

/* ---- the second yes
 * -------------------------------------------------------------------------------- */

static bool asks_for_second_yes(const struct stance_settlement *one)
{
    return one->ask.value || one->confirm.value;
}

/* The settlement that asks to be asked and that this decision puts aside; NULL for none. */
static const struct stance_settlement *put_aside(const struct care_build *b,
                                                 const struct visit_decision *one)
{
    const struct list *book = &b->in->settlements->settlements;
    const size_t prefix = strlen("settlement:");
    for (size_t i = 0; i < b->plan->topic_count; i++) {
        const struct topic_plan *topic = &b->plan->topics[i];
        for (size_t k = 0; k < topic->phase_count; k++) {
            const struct stance_phase *phase = &topic->phases[k];
            for (size_t n = 0; phase->decision == decision_of(b, one) && n < phase->lost_count; n++)
                for (size_t s = 0; s < book->count; s++) {
                    const struct stance_settlement *other =
                        LIST_AT(*book, struct stance_settlement, s);
                    const char *because = phase->lost[n].because;
                    /* what is left to the veterinarian to write is not against what was written */
                    if (strcmp(phase->lost[n].stance, "as-written") == 0 && !other->confirm.value)
                        continue;
                    if (strncmp(because, "settlement:", prefix) == 0 &&
                        strcmp(because + prefix, other->name.text) == 0 &&
                        asks_for_second_yes(other))
                        return other;
                }
        }
    }
    return NULL;
}

/* The finding beside which the stance can harm; NULL for none. */
static const char *harmed_finding(const struct care_build *b, const char *topic, const char *stance)
{
    const char *call = arena_format(b->arena, "%s:%s", topic, stance);
    for (size_t i = 0; i < b->plan->finding_count; i++)
        if (b->plan->findings[i].severity != SEVERITY_NORMAL &&
            list_has_text(&b->findings[i]->dangerous, call))
            return b->plan->findings[i].code;
    return NULL;
}

/* Why the program holds the decision dangerous; NULL when it does not. */
static const char *danger(const struct care_build *b, const struct visit_decision *one,
                          const struct topic *topic)
{
    const char *stance = one->stance.text;
    if (list_has_text(&topic->dangerous, stance))
        return arena_format(b->arena, "'%s: %s' can harm", topic->name.text, stance);
    const char *harmed = harmed_finding(b, topic->name.text, stance);
    if (harmed)
        return arena_format(b->arena, "'%s: %s' can harm beside '%s'", topic->name.text, stance,
                            harmed);
    const struct stance_settlement *aside = put_aside(b, one);
    if (aside)
        return arena_format(b->arena, "'%s: %s' goes against '%s' (%s)", topic->name.text, stance,
                            aside->name.text, aside->reason.text);
    const char *own = stances_translate(b, topic, stance);
    if (own && strcmp(own, stance) == 0)
        return NULL;
    return arena_format(b->arena, "'%s: %s' is not usual for a %s%s%s", topic->name.text, stance,
                        bind_choice_word(group_choices, b->in->species->group.value),
                        own ? ", which gets " : "", own ? own : "");
}

/* ---- one decision
 * ---------------------------------------------------------------------------------- */

static bool check_end(struct care_build *b, const struct visit_decision *one,
                      const struct topic *topic)
{
    if (one->until.known || !list_has_text(&topic->needs_end, one->stance.text))
        return true;
    return refuse(b, "decision-without-end", &one->stance, "decisions.until",
                  arena_format(b->arena, "'%s: %s' needs an end: say until which day",
                               topic->name.text, one->stance.text));
}

static void tell_decided(struct care_build *b, const struct visit_decision *one)
{
    struct plan_fact *facts =
        build_fact_text(b, "because", FACT_TEXT, one->because.text ? one->because.text : "", NULL);
    facts = build_fact_text(b, "stance", FACT_TEXT, one->stance.text, facts);
    build_review(b, REVIEW_OVERRIDE, "stance-decided", one->at,
                 build_fact_text(b, "topic", FACT_TEXT, one->topic.text, facts));
}

static bool check_one(struct care_build *b, const struct visit_decision *one)
{
    if (one->action.text)
        return check_action(b, one);
    if (!one->topic.text)
        return true;
    const struct topic *topic = check_topic(b, one);
    if (!topic || !check_stance(b, one, topic) || !check_end(b, one, topic))
        return false;
    const char *why = danger(b, one, topic);
    if (why && !one->confirmed.value)
        return refuse(b, "decision-unconfirmed", &one->stance, "decisions.confirmed",
                      arena_format(b->arena, "%s; if it shall hold, say 'confirmed: yes'", why));
    tell_decided(b, one);
    return true;
}

bool decisions_plan(struct care_build *b)
{
    const struct list *decisions = &b->in->visit->decisions;
    bool good = true;
    for (size_t i = 0; i < decisions->count; i++)
        good = check_one(b, LIST_AT(*decisions, struct visit_decision, i)) && good;
    return good;
}
