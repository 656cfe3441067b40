#include "care/feeding.h"

#include <math.h>

/* The size whose single piece, or fewest pieces, comes nearest to the middle of the meal band
 * without going over its upper end. */
static void fit_prey(const struct feeding_plan *f, const struct food *food, struct prey_choice *out)
{
    double middle = (f->meal_low_g + f->meal_high_g) / 2, best = INFINITY;
    for (size_t i = 0; i < food->sizes.count; i++) {
        const struct food_size *size = LIST_AT(food->sizes, struct food_size, i);
        double each = (size->mass_g.range.low + size->mass_g.range.high) / 2;
        int count = (int)floor(f->meal_high_g / size->mass_g.range.high);
        int wanted = (int)fmax(1, round(middle / each));
        if (wanted < count)
            count = wanted;
        if (count < 1)
            continue;
        double off = fabs(count * each - middle) + (count - 1) * 0.1 * middle;
        if (off >= best)
            continue;
        best = off;
        out->size = size->name.text;
        out->count = count;
        out->each_low_g = size->mass_g.range.low;
        out->each_high_g = size->mass_g.range.high;
    }
}

/* Insects go by count: the largest size that is no more than a tenth of a percent class of the
 * animal is unknown to us, so the middle size stands unless the animal is young. */
static void fit_insect(const struct feeding_plan *f, const struct food *food, struct prey_choice *out)
{
    if (!food->sizes.count)
        return;
    size_t index = f->stage == STAGE_ADULT ? food->sizes.count - 1 : f->stage == STAGE_HATCHLING ? 0 : food->sizes.count / 2;
    const struct food_size *size = LIST_AT(food->sizes, struct food_size, index);
    out->size = size->name.text;
    out->each_low_g = size->mass_g.range.low;
    out->each_high_g = size->mass_g.range.high;
}

void feeding_choose_foods(struct care_build *b, const struct species_feeding_stage *stage)
{
    struct feeding_plan *f = &b->plan->feeding;
    struct prey_choice *list = ARENA_ARRAY(b->arena, struct prey_choice, stage->foods.count);
    for (size_t i = 0; i < stage->foods.count; i++) {
        const struct text_value *code = LIST_AT(stage->foods, struct text_value, i);
        const struct food *food = food_find(b->in->facts, code->text);
        if (!food) {
            build_review(b, REVIEW_REMARK, "food-unknown", code->at, build_fact_text(b, "food", FACT_TEXT, code->text, NULL));
            continue;
        }
        struct prey_choice *choice = &list[f->food_count];
        *choice = (struct prey_choice){.food = food->name.text};
        choice->calcium_to_phosphorus = food->calcium_to_phosphorus.range.low;
        if (food->kind.value == FOOD_PREY && f->has_meal)
            fit_prey(f, food, choice);
        else if (food->kind.value == FOOD_INSECT)
            fit_insect(f, food, choice);
        /* prey of which no size fits the band is not offered */
        if (food->kind.value != FOOD_PREY || !f->has_meal || choice->count > 0)
            f->food_count++;
    }
    f->foods = list;
}
