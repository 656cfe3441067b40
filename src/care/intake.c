/* What the keeper gives now: grams, pieces and energy a day, from the diet's own entries. */
#include "care/intake.h"

#include <math.h>
#include <string.h>

static const struct food_size *find_size(const struct food *food, const char *name)
{
    for (size_t i = 0; name && i < food->sizes.count; i++) {
        const struct food_size *size = LIST_AT(food->sizes, struct food_size, i);
        if (strcmp(size->name.text, name) == 0)
            return size;
    }
    return NULL;
}

const struct band *intake_energy(const struct food *food, const char *size_name)
{
    const struct food_size *size = find_size(food, size_name);
    return size && size->kcal_per_g.range.known ? &size->kcal_per_g.range : &food->kcal_per_g.range;
}

/* The size that is written, or the only one there is. */
static const struct food_size *size_of(const struct food *food, const struct visit_diet *diet)
{
    if (!diet->size.text && food->sizes.count == 1)
        return LIST_AT(food->sizes, struct food_size, 0);
    return find_size(food, diet->size.text);
}

static double middle(const struct band *band)
{
    return (band->low + band->high) / 2;
}

/* Grams a meal, as written or by pieces of a known size; 0 when neither is. */
static double meal_g(const struct care_build *b, const struct visit_diet *diet)
{
    const struct food *food = diet->food.text ? food_find(b->in->reference, diet->food.text) : NULL;
    const struct food_size *size = food ? size_of(food, diet) : NULL;
    if (diet->meal_g.known)
        return diet->meal_g.value;
    return diet->count.known && size && size->mass_g.range.known
               ? diet->count.value * middle(&size->mass_g.range)
               : 0;
}

double intake_g_day(const struct care_build *b, const struct visit_diet *diet)
{
    return diet->every_days.known ? meal_g(b, diet) / diet->every_days.value : 0;
}

static bool is_plant_food(const struct care_build *b, const struct visit_diet *diet)
{
    const struct food *food = diet->food.text ? food_find(b->in->reference, diet->food.text) : NULL;
    return food && food->kind.value == FOOD_PLANT;
}

static void derive(struct care_build *b, const struct visit_diet *diet, double g_day)
{
    double days = diet->every_days.value;
    build_derive(b, &b->plan->feeding.how,
                 (struct derived){"feeding.now.g_day", g_day, "g/d", "meal-a-day", "arithmetic",
                                  INPUTS({"meal", g_day * days, "g"}, {"interval", days, "d"})});
}

/* Is it of the food that the meals are planned of? Plants beside animals, and insects beside a mix,
 * have a rhythm of their own. */
static bool is_of_meals(const struct care_build *b, const struct visit_diet *diet)
{
    const struct food *food = diet->food.text ? food_find(b->in->reference, diet->food.text) : NULL;
    switch (b->plan->feeding.diet) {
    case DIET_PLANTS:
        return is_plant_food(b, diet);
    case DIET_FRUIT_MIX:
        return !food || food->kind.value != FOOD_INSECT;
    default:
        return !is_plant_food(b, diet);
    }
}

/* All insects beside a mix together: pieces a day, the shortest interval, the last day. */
static void add_beside(struct feeding_plan *f, const struct visit_diet *diet)
{
    struct feeding_beside_now *now = &f->beside_now;
    const double days = diet->every_days.value;
    now->has_count = (now->has_count || !now->is_given) && diet->count.known && days > 0;
    now->is_given = true;
    if (diet->every_days.known) {
        now->count_day += diet->count.value / days;
        now->interval_days = now->interval_days > 0 ? fmin(now->interval_days, days) : days;
    }
    if (diet->last.known && (!now->has_last || date_compare(diet->last.date, now->last) > 0)) {
        now->has_last = true;
        now->last = diet->last.date;
    }
}

/* Does its number tell how many pieces of other animal food it may have? Two eggs are not two
 * roaches, nor is a mouse; of what is in no list nobody knows. */
static bool counts_in_pieces(const struct feeding_plan *f, const struct food *food)
{
    return f->diet == DIET_WHOLE_PREY || (food && food->kind.value != FOOD_PREY);
}

/* Sums and what of them can be said for every entry. */
static void add_entry(struct care_build *b, const struct visit_diet *diet)
{
    struct feeding_now *now = &b->plan->feeding.now;
    const struct food *food = diet->food.text ? food_find(b->in->reference, diet->food.text) : NULL;
    const struct food_size *size = food ? size_of(food, diet) : NULL;
    const struct band *energy = food ? intake_energy(food, size ? size->name.text : NULL) : NULL;
    double grams = meal_g(b, diet), days = diet->every_days.value;
    now->has_g = now->has_g && grams > 0;
    now->has_kcal = now->has_kcal && grams > 0 && energy && energy->known;
    now->has_count =
        now->has_count && diet->count.known && counts_in_pieces(&b->plan->feeding, food);
    now->g_day += grams / days;
    now->count_day += diet->count.value / days;
    if (now->has_kcal)
        now->kcal_day += grams * middle(energy) / days;
    if (grams > 0)
        derive(b, diet, grams / days);
}

/* The keeper's own numbers of the animal food, or of a plant eater's plants, as they are shown: how
 * often leaves are given says nothing of the insects beside them. */
static void show(const struct care_build *b, struct feeding_plan *f, const struct visit_diet *diet)
{
    f->has_last = diet->last.known;
    f->last = diet->last.date;
    const bool is_shown = is_of_meals(b, diet);
    f->has_meal_now = is_shown && diet->meal_g.known;
    f->meal_now_g = is_shown ? diet->meal_g.value : 0;
    const struct food *food = diet->food.text ? food_find(b->in->reference, diet->food.text) : NULL;
    f->has_count_now = is_shown && diet->count.known && counts_in_pieces(f, food);
    f->count_now = is_shown ? diet->count.value : 0;
    f->has_interval_now = is_shown && diet->every_days.known;
    f->interval_now_days = is_shown ? diet->every_days.value : 0;
}

void intake_plan(struct care_build *b)
{
    const struct list *diets = &b->in->visit->diet;
    struct feeding_plan *f = &b->plan->feeding;
    struct feeding_now *now = &f->now;
    const struct visit_diet *shown = NULL;
    size_t animal = 0;
    *now = (struct feeding_now){.has_g = true, .has_kcal = true, .has_count = true};
    for (size_t i = 0; i < diets->count; i++) {
        const struct visit_diet *diet = LIST_AT(*diets, struct visit_diet, i);
        if (f->diet == DIET_FRUIT_MIX && !is_of_meals(b, diet)) {
            add_beside(f, diet);
            continue;
        }
        if (!shown || (is_of_meals(b, diet) && !is_of_meals(b, shown)))
            shown = diet;
        if (is_plant_food(b, diet) && f->diet != DIET_PLANTS)
            continue;
        animal++;
        if (!diet->every_days.known) {
            *now = (struct feeding_now){0};
            continue;
        }
        add_entry(b, diet);
    }
    if (!animal)
        *now = (struct feeding_now){0};
    if (shown)
        show(b, f, shown);
}

static void widen(struct ends *ends, const struct band *energy)
{
    if (!energy->known)
        return;
    ends->low = fmin(ends->low, energy->low);
    ends->high = fmax(ends->high, energy->high);
}

/* The leanest food of the stage and its densest food or size. False when none is known. */
static bool stage_energy(const struct care_build *b, const struct species_feeding_stage *stage,
                         struct ends *kcal_g)
{
    struct ends foods = {INFINITY, 0}, sizes = {INFINITY, 0};
    for (size_t i = 0; i < stage->foods.count; i++) {
        const struct food *food =
            food_find(b->in->reference, LIST_AT(stage->foods, struct text_value, i)->text);
        if (!food || food->kind.value == FOOD_PLANT)
            continue;
        widen(&foods, &food->kcal_per_g.range);
        for (size_t k = 0; k < food->sizes.count; k++)
            widen(&sizes, &LIST_AT(food->sizes, struct food_size, k)->kcal_per_g.range);
    }
    *kcal_g = (struct ends){foods.low, fmax(foods.high, sizes.high)};
    return foods.high > 0;
}

bool intake_bounds_g_day(const struct care_build *b, const struct species_feeding_stage *stage,
                         struct ends *most_and_least)
{
    const struct feeding_now *now = &b->plan->feeding.now;
    struct ends kcal_g;
    if (!now->has_g)
        return false;
    *most_and_least = (struct ends){now->g_day, now->g_day};
    if (now->has_kcal && stage_energy(b, stage, &kcal_g)) {
        most_and_least->low = fmin(now->g_day, now->kcal_day / kcal_g.high);
        most_and_least->high = fmax(now->g_day, now->kcal_day / kcal_g.low);
    }
    return true;
}
