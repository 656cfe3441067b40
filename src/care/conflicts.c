/* Applies the settlements of rules.yaml in their order: which claim stays and which is dropped. */
#include "care/conflicts.h"

#include <string.h>

static bool matches(const char *pattern, const char *code)
{
    size_t length = strlen(pattern);
    if (length && pattern[length - 1] == '*')
        return strncmp(pattern, code, length - 1) == 0;
    return strcmp(pattern, code) == 0;
}

/* The standing claim that `rule` keeps against `loser`, or NULL. */
static const struct conflict_claim *find_keeper(const struct conflict_claim *claims, size_t count,
                                                const struct settlement *rule,
                                                const struct conflict_claim *loser)
{
    for (size_t i = 0; i < count; i++)
        if (!claims[i].dropped && matches(rule->keep.text, claims[i].code) &&
            strcmp(claims[i].code, loser->code) != 0)
            return &claims[i];
    return NULL;
}

static void tell_conflict(struct care_build *b, const struct settlement *rule,
                          const struct conflict_claim *kept, const struct conflict_claim *dropped)
{
    struct plan_fact *facts = build_fact_text(b, "dropped-from", FACT_TEXT, dropped->from, NULL);
    facts = build_fact_text(b, "kept-from", FACT_TEXT, kept->from, facts);
    facts = build_fact_text(b, "dropped", FACT_TEXT, dropped->code, facts);
    facts = build_fact_text(b, "kept", FACT_TEXT, kept->code, facts);
    build_review(b, REVIEW_CONFLICT, rule->name.text, (struct mark){0}, facts);
}

void conflicts_settle(struct care_build *b, struct conflict_claim *claims, size_t count)
{
    const struct list *book = &b->in->rules->settlements;
    for (size_t s = 0; s < book->count; s++) {
        const struct settlement *rule = LIST_AT(*book, struct settlement, s);
        for (size_t i = 0; i < count; i++) {
            struct conflict_claim *claim = &claims[i];
            if (claim->dropped || claim->fixed || !matches(rule->drop.text, claim->code))
                continue;
            const struct conflict_claim *kept = find_keeper(claims, count, rule, claim);
            if (!kept)
                continue;
            claim->dropped = true;
            tell_conflict(b, rule, kept, claim);
        }
    }
}

bool conflicts_drops(const struct care_build *b, const char *keep, const char *code)
{
    const struct list *book = &b->in->rules->settlements;
    for (size_t s = 0; s < book->count; s++) {
        const struct settlement *rule = LIST_AT(*book, struct settlement, s);
        if (matches(rule->keep.text, keep) && matches(rule->drop.text, code))
            return true;
    }
    return false;
}
