/* Which plants a species may have every day, now and then or as a treat, by published minerals. */
#include "care/feeding.h"

#include <string.h>

static double ratio_of(const struct food *food)
{
    return food->minerals.calcium_mg.value / food->minerals.phosphorus_mg.value;
}

bool feeding_food_class(const struct care_build *b, const struct food *food, enum food_class *out)
{
    if (food->kind.value != FOOD_PLANT || !food->minerals.calcium_mg.known)
        return false;
    double ratio = ratio_of(food);
    enum food_class by_minerals = ratio >= build_limit(b, "staple-ratio-least") ? FOOD_STAPLE
                                  : ratio >= build_limit(b, "now-and-then-ratio-least")
                                      ? FOOD_NOW_AND_THEN
                                      : FOOD_TREAT;
    /* oxalate binds the calcium that the table counts */
    if (by_minerals == FOOD_STAPLE && list_has_choice(&food->flags, FOOD_OXALATE))
        by_minerals = FOOD_NOW_AND_THEN;
    const struct food *like = food->like.text ? food_find(b->in->reference, food->like.text) : NULL;
    const struct choice_value *most = like ? &like->at_most : &food->at_most;
    *out =
        most->known && (int)by_minerals < most->value ? (enum food_class)most->value : by_minerals;
    return true;
}

static bool leaves_out(const struct care_build *b, const struct food *food)
{
    for (size_t i = 0; i < b->plan->finding_count; i++)
        if (b->plan->findings[i].severity != SEVERITY_NORMAL &&
            list_has_text(&food->not_with, b->plan->findings[i].code))
            return true;
    return false;
}

/* Watery food goes while the stool is loose; a kind takes what is like it along. */
bool feeding_leaves_out(const struct care_build *b, const struct food *food)
{
    const struct food *like = food->like.text ? food_find(b->in->reference, food->like.text) : NULL;
    return leaves_out(b, food) || (like && leaves_out(b, like));
}

/* Puts a food where its ratio stands, the highest first. */
static void put(const struct food **list, size_t *count, const struct food *food)
{
    size_t at = (*count)++;
    for (; at > 0 && ratio_of(list[at - 1]) < ratio_of(food); at--)
        list[at] = list[at - 1];
    list[at] = food;
}

/* Fish that holds no thiaminase, for a species that is fed fish. */
static void plan_fish(struct care_build *b, const struct species_feeding_stage *stage)
{
    const struct list *all = &b->in->reference->foods;
    const char **codes = ARENA_ARRAY(b->arena, const char *, all->count + 1);
    struct food_list *fish = &b->plan->feeding.diet_now.fish;
    for (size_t i = 0; stage && i < all->count; i++) {
        const struct food *food = LIST_AT(*all, struct food, i);
        if (food->kind.value == FOOD_FISH && food->like.text &&
            list_has_text(&stage->foods, food->like.text))
            codes[fish->count++] = food->name.text;
    }
    fish->foods = codes;
}

/* A few that may stand alone. */
static void plan_best(struct care_build *b)
{
    enum { BEST = 4 };
    struct diet_plan *d = &b->plan->feeding.diet_now;
    const struct food_list *staples = &d->by_class[FOOD_STAPLE];
    const char **codes = ARENA_ARRAY(b->arena, const char *, BEST);
    for (size_t i = 0; i < staples->count && d->best.count < BEST; i++)
        if (!list_has_choice(&food_find(b->in->reference, staples->foods[i])->flags,
                             FOOD_GOITROGEN))
            codes[d->best.count++] = staples->foods[i];
    d->best.foods = codes;
}

void feeding_plan_classes(struct care_build *b, const struct species_feeding_stage *stage)
{
    const struct list *all = &b->in->reference->foods;
    plan_fish(b, stage);
    for (int c = 0; stage && c < FOOD_CLASSES; c++) {
        const struct food **list = ARENA_ARRAY(b->arena, const struct food *, all->count + 1);
        struct food_list *foods = &b->plan->feeding.diet_now.by_class[c];
        size_t count = 0;
        for (size_t i = 0; i < all->count; i++) {
            const struct food *food = LIST_AT(*all, struct food, i);
            enum food_class one;
            /* only of the kinds that the species sheet names for its age */
            if (food->like.text && list_has_text(&stage->foods, food->like.text) &&
                !feeding_leaves_out(b, food) && feeding_food_class(b, food, &one) && (int)one == c)
                put(list, &count, food);
        }
        const char **codes = ARENA_ARRAY(b->arena, const char *, count + 1);
        for (size_t i = 0; i < count; i++)
            codes[i] = list[i]->name.text;
        *foods = (struct food_list){codes, count};
    }
    plan_best(b);
}
