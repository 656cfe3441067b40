/* Which food of the stage, in which size, how many pieces. */
#include "care/feeding.h"

#include <math.h>
#include <string.h>

/* The heaviest meal of at most a few pieces of one size that cannot weigh more than the band's
 * upper end, each piece taken at its heaviest; of equals the fewest pieces. A heavier animal of the
 * same stage so never gets less: what fits the smaller band fits the larger one. */
static void fit_prey(const struct care_build *b, const struct food *food, struct prey_choice *out)
{
    const double most_g = b->plan->feeding.meal_high_g;
    /* after a meal came up one piece is enough */
    const int most_pieces = b->plan->feeding.change == FEEDING_AFTER_VOMITING
                                ? 1
                                : (int)build_limit(b, "prey-pieces-most");
    double best_g = 0;
    for (size_t i = 0; i < food->sizes.count; i++) {
        const struct food_size *size = LIST_AT(food->sizes, struct food_size, i);
        const struct band *each = &size->mass_g.range;
        /* a band and a mass that are equal on paper may differ in the last bit */
        int count = (int)fmin(most_pieces, floor(most_g / each->high + 1e-9));
        double total_g = count * each->high;
        bool fewer = total_g == best_g && count < out->count;
        if (count < 1 || (total_g <= best_g && !fewer))
            continue;
        best_g = total_g;
        out->size = size->name.text;
        out->count = count;
        out->each_low_g = each->low;
        out->each_high_g = each->high;
    }
}

/* What the animal weighs, or what a grown one does; 0 when neither is known. */
static double body_mass_g(const struct care_build *b)
{
    const struct band *adult = &b->in->species->adult_mass_g.range;
    if (b->plan->patient.has_mass)
        return b->in->visit->patient.mass_g.value;
    return b->plan->feeding.stage == STAGE_ADULT && adult->known ? adult->low : 0;
}

/* What it is given now of this food, or NULL. */
static const struct visit_diet *given_now(const struct care_build *b, const char *food)
{
    const struct list *diets = &b->in->visit->diet;
    for (size_t i = 0; i < diets->count; i++) {
        const struct visit_diet *diet = LIST_AT(*diets, struct visit_diet, i);
        if (diet->food.text && strcmp(diet->food.text, food) == 0)
            return diet;
    }
    return NULL;
}

/* The largest size of which no insect weighs more than a small share of the body; the smallest when
 * none is light enough or the body's mass is unknown. */
static void fit_insect(const struct care_build *b, const struct food *food, struct prey_choice *out)
{
    const double most_g = body_mass_g(b) * build_limit(b, "insect-most-percent") / 100;
    const struct feeding_plan *f = &b->plan->feeding;
    bool is_bound = f->change == FEEDING_LONGER_INTERVAL || f->is_as_now;
    const struct visit_diet *now = is_bound ? given_now(b, food->name.text) : NULL;
    for (size_t i = 0; i < food->sizes.count; i++) {
        const struct food_size *size = LIST_AT(food->sizes, struct food_size, i);
        if (out->size && size->mass_g.range.high > most_g)
            break;
        out->size = size->name.text;
        out->each_low_g = size->mass_g.range.low;
        out->each_high_g = size->mass_g.range.high;
        if (now && now->size.text && strcmp(now->size.text, size->name.text) == 0)
            break; /* none larger than now */
    }
}

/* What it is given now, in as many pieces: the size that holds the mass of one, though a heavier
 * one of that size would be too heavy. False: no size does. */
static bool fit_as_now(const struct care_build *b, const struct food *food, struct prey_choice *out)
{
    const struct visit_diet *now = given_now(b, food->name.text);
    const int count = now && now->count.known ? (int)now->count.value : 1;
    const double piece_g = b->plan->feeding.meal_high_g / fmax(count, 1);
    for (size_t i = 0; now && count > 0 && i < food->sizes.count; i++) {
        const struct food_size *size = LIST_AT(food->sizes, struct food_size, i);
        const struct band *each = &size->mass_g.range;
        bool is_named = !now->size.text || strcmp(now->size.text, size->name.text) == 0;
        if (!is_named || piece_g < each->low || piece_g > each->high)
            continue;
        *out = (struct prey_choice){.food = out->food,
                                    .size = size->name.text,
                                    .count = count,
                                    .each_low_g = piece_g,
                                    .each_high_g = piece_g,
                                    .calcium_to_phosphorus = out->calcium_to_phosphorus};
        return true;
    }
    return false;
}

/* What it eats well now stays where its mass lies in the band: no mouse becomes three small ones of
 * the same weight. After a meal came up one piece is enough. */
static bool fit_kept(const struct care_build *b, const struct food *food, struct prey_choice *out)
{
    const struct feeding_plan *f = &b->plan->feeding;
    const struct visit_diet *now = given_now(b, food->name.text);
    const int count = now && now->count.known ? (int)now->count.value : 1;
    if (!now || !now->meal_g.known || count < 1 || now->meal_g.value < f->meal_low_g ||
        now->meal_g.value > f->meal_high_g || (f->change == FEEDING_AFTER_VOMITING && count > 1))
        return false;
    const double piece_g = now->meal_g.value / count;
    for (size_t i = 0; i < food->sizes.count; i++) {
        const struct food_size *size = LIST_AT(food->sizes, struct food_size, i);
        const struct band *each = &size->mass_g.range;
        bool is_named = !now->size.text || strcmp(now->size.text, size->name.text) == 0;
        if (!is_named || piece_g < each->low || piece_g > each->high)
            continue;
        out->size = size->name.text;
        out->count = count;
        out->each_low_g = out->each_high_g = piece_g;
        return true;
    }
    return false;
}

static struct prey_choice fit_food(const struct care_build *b, const struct food *food)
{
    struct prey_choice choice = {.food = food->name.text};
    choice.calcium_to_phosphorus = food->calcium_to_phosphorus.range.low;
    bool fits = b->plan->feeding.has_meal && !b->plan->feeding.is_rising;
    if (food->kind.value == FOOD_PREY && fits) {
        bool is_fitted =
            b->plan->feeding.is_as_now ? fit_as_now(b, food, &choice) : fit_kept(b, food, &choice);
        if (!is_fitted)
            fit_prey(b, food, &choice);
    } else if (food->kind.value == FOOD_INSECT)
        fit_insect(b, food, &choice);
    return choice;
}

/* Prey that was fitted, and in the middle of its size is no less than the band's lower end. */
static bool is_short(const struct feeding_plan *f, const struct prey_choice *c)
{
    return c->count > 0 && c->count * (c->each_low_g + c->each_high_g) / 2 < f->meal_low_g;
}

static bool is_enough(const struct feeding_plan *f, const struct prey_choice *c)
{
    return c->count > 0 && !is_short(f, c);
}

/* Prey that leaves the animal short goes where another food reaches the band. */
static void drop_short(struct care_build *b, struct prey_choice *list)
{
    struct feeding_plan *f = &b->plan->feeding;
    bool any_enough = false, any_short = false;
    for (size_t i = 0; i < f->food_count; i++) {
        any_enough = any_enough || is_enough(f, &list[i]);
        any_short = any_short || is_short(f, &list[i]);
    }
    if (any_short && !any_enough)
        build_review(b, REVIEW_REMARK, "prey-below-band", (struct mark){0},
                     build_fact(b, "meal", FACT_MASS, f->meal_low_g, f->meal_high_g, NULL));
    if (!any_enough)
        return;
    size_t kept = 0;
    for (size_t i = 0; i < f->food_count; i++)
        if (!is_short(f, &list[i]))
            list[kept++] = list[i];
    f->food_count = kept;
}

static bool is_insect(const struct care_build *b, const char *code)
{
    const struct food *food = food_find(b->in->reference, code);
    return food && food->kind.value == FOOD_INSECT;
}

/* Is it a food of which what it is given now bounds the plan: the insects of a diet, the animals
 * that an ill one is used to? As many pieces of a heavier kind would be more. */
static bool is_bound_food(const struct care_build *b, const char *code)
{
    const struct food *food = food_find(b->in->reference, code);
    bool is_insect = food && food->kind.value == FOOD_INSECT;
    return b->plan->feeding.is_as_now ? food && food->kind.value != FOOD_PLANT : is_insect;
}

static bool keeps_to_now(const struct care_build *b, const struct species_feeding_stage *stage)
{
    const struct feeding_plan *f = &b->plan->feeding;
    bool is_diet = f->change == FEEDING_LONGER_INTERVAL && !f->has_meal && f->has_insects;
    if (!is_diet && !f->is_as_now)
        return false;
    for (size_t i = 0; i < stage->foods.count; i++) {
        const char *code = LIST_AT(stage->foods, struct text_value, i)->text;
        if (is_bound_food(b, code) && given_now(b, code))
            return true;
    }
    return false;
}

/* An insect heavier than the limit is offered only where nothing lighter is; then the veterinarian
 * is told. */
static void drop_heavy_insects(struct care_build *b, struct prey_choice *list)
{
    struct feeding_plan *f = &b->plan->feeding;
    const double most_g = body_mass_g(b) * build_limit(b, "insect-most-percent") / 100;
    size_t kept = 0, lightest = 0;
    if (most_g <= 0)
        return;
    bool any_light = false, any_heavy = false;
    for (size_t i = 0; i < f->food_count; i++) {
        bool insect = is_insect(b, list[i].food), heavy = insect && list[i].each_high_g > most_g;
        any_heavy = any_heavy || heavy;
        any_light = any_light || (insect && !heavy) || (!insect && !f->has_insects);
        if (heavy && (!is_insect(b, list[lightest].food) ||
                      list[i].each_high_g < list[lightest].each_high_g))
            lightest = i;
    }
    if (!any_heavy)
        return;
    if (!any_light)
        build_review(b, REVIEW_REMARK, "insects-all-heavy", (struct mark){0},
                     build_fact(b, "most", FACT_MASS, most_g, most_g, NULL));
    for (size_t i = 0; i < f->food_count; i++) {
        bool heavy = is_insect(b, list[i].food) && list[i].each_high_g > most_g;
        if (!heavy || (!any_light && i == lightest))
            list[kept++] = list[i];
    }
    f->food_count = kept;
}

void feeding_choose_foods(struct care_build *b, const struct species_feeding_stage *stage)
{
    struct feeding_plan *f = &b->plan->feeding;
    struct prey_choice *list = ARENA_ARRAY(b->arena, struct prey_choice, stage->foods.count);
    bool too_large = false, same = keeps_to_now(b, stage);
    for (size_t i = 0; i < stage->foods.count; i++) {
        const struct text_value *code = LIST_AT(stage->foods, struct text_value, i);
        if (same && is_bound_food(b, code->text) && !given_now(b, code->text))
            continue;
        const struct food *food = food_find(b->in->reference, code->text);
        if (!food) {
            build_review(b, REVIEW_REMARK, "food-unknown", code->at,
                         build_fact_text(b, "food", FACT_TEXT, code->text, NULL));
            continue;
        }
        if (feeding_leaves_out(b, food))
            continue;
        struct prey_choice choice = fit_food(b, food);
        /* prey of which even the smallest is heavier than the band is not offered */
        bool fits =
            food->kind.value != FOOD_PREY || !f->has_meal || f->is_rising || choice.count > 0;
        too_large = too_large || !fits;
        if (fits)
            list[f->food_count++] = choice;
    }
    if (too_large && f->food_count == 0)
        build_review(b, REVIEW_REMARK, "prey-none-fits", (struct mark){0},
                     build_fact(b, "meal", FACT_MASS, f->meal_low_g, f->meal_high_g, NULL));
    drop_short(b, list);
    drop_heavy_insects(b, list);
    f->foods = list;
}
