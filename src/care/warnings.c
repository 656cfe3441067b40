/* The warning signs: those of every animal of the group, the species' own, and those that this
 * animal's findings and procedures raise. A sign is never dropped. */
#include "care/build.h"

#include <string.h>

struct sign_list {
    struct warning *items;
    size_t count;
};

static bool fits(const struct care_build *b, const struct warning_sign *sign)
{
    bool in_group = false;
    for (size_t i = 0; i < sign->groups.count; i++)
        in_group = in_group || LIST_AT(sign->groups, struct choice_value, i)->value == b->in->species->group.value;
    for (size_t i = 0; i < sign->needs.count; i++)
        if (!species_has_trait(b->in->species, (enum trait)LIST_AT(sign->needs, struct choice_value, i)->value))
            return false;
    return in_group;
}

static void add(struct care_build *b, struct sign_list *list, const char *code, const char *because,
                bool own, bool raise)
{
    const struct warning_sign *sign = sign_find(b->in->signs, code);
    if (!sign || (!own && !fits(b, sign)))
        return;
    enum tier usual = (enum tier)sign->tier.value;
    enum tier tier = raise && usual != TIER_NOW ? usual - 1 : usual;
    for (size_t i = 0; i < list->count; i++) {
        struct warning *known = &list->items[i];
        if (strcmp(known->code, code) != 0)
            continue;
        if (tier < known->tier)
            known->tier = tier;
        if (own && !known->own) {
            known->own = true;
            known->because = because;
        }
        return;
    }
    list->items[list->count++] =
        (struct warning){.tier = tier, .usual_tier = usual, .code = code, .because = because, .own = own};
}

static void add_texts(struct care_build *b, struct sign_list *list, const struct list *codes,
                      const char *because, bool own, bool raise)
{
    for (size_t i = 0; i < codes->count; i++)
        add(b, list, LIST_AT(*codes, struct text_value, i)->text, because, own, raise);
}

static void add_own(struct care_build *b, struct sign_list *list)
{
    for (size_t i = 0; i < b->plan->finding_count; i++) {
        const struct finding_plan *f = &b->plan->findings[i];
        if (f->severity != SEVERITY_NORMAL)
            add_texts(b, list, &f->entry->warnings, arena_format(b->arena, "finding:%s", f->code), true,
                      f->severity == SEVERITY_SEVERE);
    }
    for (size_t i = 0; i < b->plan->procedure_count; i++)
        add_texts(b, list, &b->plan->procedures[i].entry->warnings,
                  arena_format(b->arena, "done:%s", b->plan->procedures[i].code), true, false);
}

/* Stable: by tier, the animal's own first. */
static void order(struct sign_list *list)
{
    for (size_t i = 1; i < list->count; i++) {
        struct warning moving = list->items[i];
        size_t k = i;
        for (; k > 0; k--) {
            const struct warning *before = &list->items[k - 1];
            if (before->tier < moving.tier || (before->tier == moving.tier && before->own >= moving.own))
                break;
            list->items[k] = *before;
        }
        list->items[k] = moving;
    }
}

bool warnings_plan(struct care_build *b)
{
    const struct list *signs = &b->in->signs->signs;
    struct sign_list list = {.items = ARENA_ARRAY(b->arena, struct warning, signs->count)};
    bool falling = b->plan->growth.weight == WEIGHT_FALLING_FAST;
    add_own(b, &list);
    add_texts(b, &list, &b->in->species->warnings, "species", false, false);
    for (size_t i = 0; i < signs->count; i++) {
        const struct warning_sign *sign = LIST_AT(*signs, struct warning_sign, i);
        if (!sign->always.value || !fits(b, sign))
            continue;
        /* weight loss itself is a "today" already; a slow change becomes one */
        bool raise = falling && sign->tier.value == TIER_SOON && strstr(sign->name.text, "weight") != NULL;
        add(b, &list, sign->name.text, raise ? "weight" : "always", false, raise);
    }
    order(&list);
    b->plan->warnings = list.items;
    b->plan->warning_count = list.count;
    return true;
}
