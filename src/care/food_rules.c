/* What this animal must never be given, and how large a piece of its food may be. */
#include "care/feeding.h"

#include <string.h>

/* What an animal without stages is fed, as far as its kind of diet tells. */
static bool diet_has(const struct care_build *b, enum food_kind kind)
{
    static const struct {
        enum diet_kind diet;
        enum food_kind kind;
    } rows[] = {{DIET_WHOLE_PREY, FOOD_PREY}, {DIET_INSECTS, FOOD_INSECT},
                {DIET_PLANTS, FOOD_PLANT},    {DIET_MIXED, FOOD_INSECT},
                {DIET_MIXED, FOOD_PLANT},     {DIET_FRUIT_MIX, FOOD_INSECT},
                {DIET_AQUATIC, FOOD_PREPARED}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (b->in->species->diet.known && (int)rows[i].diet == b->in->species->diet.value &&
            rows[i].kind == kind)
            return true;
    return false;
}

/* Is the species fed a food of the kind, at any age? */
static bool is_fed(const struct care_build *b, enum food_kind kind)
{
    const struct list *stages = &b->in->species->feeding;
    for (size_t i = 0; i < stages->count; i++) {
        const struct list *foods = &LIST_AT(*stages, struct species_feeding_stage, i)->foods;
        for (size_t k = 0; k < foods->count; k++) {
            const struct food *food =
                food_find(b->in->reference, LIST_AT(*foods, struct text_value, k)->text);
            if (food && food->kind.value == (int)kind)
                return true;
        }
    }
    return stages->count == 0 && diet_has(b, kind);
}

static bool is_for(const struct care_build *b, const struct food_rule *rule)
{
    const struct whom_animal animal = build_animal(b);
    if (!whom_fits(&rule->whom, &animal))
        return false;
    for (size_t i = 0; i < rule->eats.count; i++)
        if (is_fed(b, (enum food_kind)LIST_AT(rule->eats, struct choice_value, i)->value))
            return true;
    return rule->eats.count == 0;
}

static struct provenance from(const struct care_build *b, const struct food_rule *rule)
{
    const char *source = named_text_find(&b->in->reference->food_sources, rule->source.text);
    return (struct provenance){.origin = ORIGIN_REFERENCE,
                               .source = source ? source : rule->source.text,
                               .trust = (enum trust)rule->trust.value};
}

void feeding_plan_rules(struct care_build *b)
{
    const struct list *never = &b->in->reference->never_foods,
                      *sizes = &b->in->reference->food_sizes;
    struct feeding_plan *f = &b->plan->feeding;
    struct never_food *list = ARENA_ARRAY(b->arena, struct never_food, never->count + 1);
    for (size_t i = 0; i < never->count; i++) {
        const struct food_rule *rule = LIST_AT(*never, struct food_rule, i);
        if (!rule->when_given.value && is_for(b, rule))
            list[f->never_count++] = (struct never_food){rule->name.text, from(b, rule)};
    }
    f->never = list;
    for (size_t i = 0; i < sizes->count && !f->size_rule; i++) {
        const struct food_rule *rule = LIST_AT(*sizes, struct food_rule, i);
        if (!is_for(b, rule))
            continue;
        f->size_rule = rule->name.text;
        f->size_from = from(b, rule);
    }
}
