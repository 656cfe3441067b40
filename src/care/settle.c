#include "care/settle.h"

#include <string.h>

static bool matches(const char *pattern, const char *code)
{
    size_t length = strlen(pattern);
    if (length && pattern[length - 1] == '*')
        return strncmp(pattern, code, length - 1) == 0;
    return strcmp(pattern, code) == 0;
}

static const struct claim *find_claim(const struct claim *claims, size_t count, const char *pattern,
                                      const struct claim *not_this)
{
    for (size_t i = 0; i < count; i++)
        if (!claims[i].dropped && &claims[i] != not_this && matches(pattern, claims[i].code))
            return &claims[i];
    return NULL;
}

void settle_claims(struct care_build *b, struct claim *claims, size_t count)
{
    const struct list *book = &b->in->rules->settlements;
    for (size_t s = 0; s < book->count; s++) {
        const struct settlement *rule = LIST_AT(*book, struct settlement, s);
        for (size_t i = 0; i < count; i++) {
            if (claims[i].dropped || !matches(rule->drop.text, claims[i].code))
                continue;
            const struct claim *keep = find_claim(claims, count, rule->keep.text, &claims[i]);
            if (!keep || strcmp(keep->code, claims[i].code) == 0)
                continue;
            claims[i].dropped = true;
            struct plan_fact *facts = build_fact_text(b, "dropped-from", FACT_TEXT, claims[i].from, NULL);
            facts = build_fact_text(b, "kept-from", FACT_TEXT, keep->from, facts);
            facts = build_fact_text(b, "dropped", FACT_TEXT, claims[i].code, facts);
            facts = build_fact_text(b, "kept", FACT_TEXT, keep->code, facts);
            build_review(b, REVIEW_CONFLICT, rule->name.text, (struct mark){0}, facts);
        }
    }
}
