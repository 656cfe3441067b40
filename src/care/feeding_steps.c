/* The rising schedule of an animal that is built up, and the lines of food with their own rhythm.
 */
#include "care/feeding.h"

#include <math.h>
#include <string.h>

/* ---- a rising schedule -------------------------------------------------------------------------
 */

/* So much of the full meal on the n-th day: in equal steps to all of it. */
static double share_on(const struct care_build *b, long day)
{
    double steps = fmax(1, build_limit(b, "build-up-steps"));
    const struct feeding_plan *f = &b->plan->feeding;
    double passed = floor((double)day / f->start_days * (steps - 1) + 1e-9);
    double share = passed >= steps - 1 ? 1 : passed / (steps - 1);
    return f->start_percent + (100 - f->start_percent) * share;
}

static struct feeding_step step_of(const struct feeding_plan *f, struct date from, double percent)
{
    double share = percent / 100;
    struct feeding_step step = {.from = from, .share_percent = percent};
    step.low_g = fmax(f->meal_low_g * share, f->least_meal_g);
    step.high_g = fmax(f->meal_high_g * share, step.low_g);
    step.low = (int)ceil(fmax(fmax(f->insects_low * share, f->least_insects), 1) - 1e-9);
    step.high = (int)fmax(step.low, ceil(f->insects_high * share - 1e-9));
    return step;
}

static bool is_more(const struct feeding_step *one, const struct feeding_step *before)
{
    return one->low_g > before->low_g || one->high_g > before->high_g || one->low > before->low ||
           one->high > before->high;
}

static void derive(struct care_build *b, const struct feeding_step *step)
{
    struct feeding_plan *f = &b->plan->feeding;
    double full = f->has_meal ? f->meal_low_g : f->insects_low;
    double least = f->has_meal ? f->least_meal_g : f->least_insects;
    const char *unit = f->has_meal ? "g" : "";
    build_derive(b, &f->how,
                 (struct derived){"feeding.step.low", f->has_meal ? step->low_g : step->low, unit,
                                  "share-or-present", "arithmetic",
                                  INPUTS({"full", full, unit}, {"share", step->share_percent, "%"},
                                         {"now", least, unit})});
}

/* The plan's own meal becomes the first step's least and the last step's most. */
void feeding_plan_steps(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    for (size_t i = 0; f->is_rising && i < f->meal_day_count; i++) {
        long day = date_days_between(b->plan->on, f->meal_days[i]);
        struct feeding_step step = step_of(f, f->meal_days[i], share_on(b, day));
        if (f->step_count &&
            (f->step_count == BUILD_UP_STEPS_MOST || !is_more(&step, &f->steps[f->step_count - 1])))
            continue;
        f->steps[f->step_count++] = step;
        derive(b, &step);
    }
    if (f->step_count == 0)
        return;
    const struct feeding_step *first = &f->steps[0], *last = &f->steps[f->step_count - 1];
    f->meal_low_g = first->low_g;
    f->meal_high_g = fmax(first->high_g, last->high_g);
    f->insects_low = first->low;
    f->insects_high = last->high;
}

/* ---- lines
 * ---------------------------------------------------------------------------------------- */

enum line_kind { LINE_ALL, LINE_PLANTS, LINE_MIX, LINE_ANIMALS, LINE_INSECTS };

static bool is_of_line(enum line_kind kind, enum food_kind food)
{
    switch (kind) {
    case LINE_ALL:
        return true;
    case LINE_PLANTS:
        return food == FOOD_PLANT;
    case LINE_MIX:
        return food == FOOD_PLANT || food == FOOD_PREPARED;
    case LINE_ANIMALS:
        return food != FOOD_PLANT;
    case LINE_INSECTS:
        return food == FOOD_INSECT;
    }
    return false;
}

/* The foods of one kind, in the stage's order. */
static struct feeding_line *add_line(struct care_build *b, enum line_kind kind)
{
    static const char *const words[] = {[LINE_ALL] = "all",
                                        [LINE_PLANTS] = "plants",
                                        [LINE_MIX] = "mix",
                                        [LINE_ANIMALS] = "animals",
                                        [LINE_INSECTS] = "animals"};
    struct feeding_plan *f = &b->plan->feeding;
    struct feeding_line *line = &f->lines[f->line_count++];
    struct prey_choice *foods = ARENA_ARRAY(b->arena, struct prey_choice, f->food_count + 1);
    *line = (struct feeding_line){.kind = words[kind], .foods = foods};
    for (size_t i = 0; i < f->food_count; i++) {
        const struct food *food = food_find(b->in->reference, f->foods[i].food);
        if (kind == LINE_ALL || (food && is_of_line(kind, (enum food_kind)food->kind.value)))
            foods[line->food_count++] = f->foods[i];
    }
    return line;
}

/* Plants stand in the box every day, in whatever rhythm the animals come. */
static void add_plants(struct care_build *b)
{
    const struct feeding_plan *f = &b->plan->feeding;
    struct feeding_line *line = add_line(b, LINE_PLANTS);
    line->has_share = f->has_plant_share;
    line->low_percent = f->plant_low_percent;
    line->high_percent = f->plant_high_percent;
    line->every_low_days = line->every_high_days = 1;
}

/* What the dates of meals are of. */
static void add_meals(struct care_build *b, enum line_kind kind)
{
    const struct feeding_plan *f = &b->plan->feeding;
    struct feeding_line *line = add_line(b, kind);
    line->has_g = f->has_meal;
    line->low_g = f->meal_low_g;
    line->high_g = f->meal_high_g;
    line->has_count = f->has_insects && !f->has_meal;
    line->low_count = f->insects_low;
    line->high_count = f->insects_high;
    line->every_low_days = f->every_low_days;
    line->every_high_days = f->every_high_days;
    line->next = f->next;
    line->next_count = f->next_count;
}

static void add_beside(struct care_build *b)
{
    const struct feeding_beside *beside = &b->plan->feeding.beside;
    struct feeding_line *line = add_line(b, LINE_INSECTS);
    line->has_count = true;
    line->low_count = beside->low;
    line->high_count = beside->high;
    line->every_low_days = beside->every_low_days;
    line->every_high_days = beside->every_high_days;
    line->next = beside->days;
    line->next_count = beside->day_count < MEAL_DATES ? beside->day_count : MEAL_DATES;
}

/* Of plants no source here says how much, nor of animal food that is neither counted nor weighed:
 * pellets, worms or fish. A mix says its own by its packet, prey its size by its weight. */
static void ask_amounts(struct care_build *b)
{
    static const double HALF_PERCENT = 50;
    struct feeding_plan *f = &b->plan->feeding;
    const bool beside = f->line_count == 2 && f->lines[0].has_share;
    const struct feeding_line *animals = &f->lines[beside],
                              *most = &f->lines[beside && f->lines[0].high_percent < HALF_PERCENT];
    const bool is_told = f->has_meal || f->asks_amount;
    f->asks_plants = (f->diet == DIET_PLANTS || most->has_share) && !is_told && !most->has_count;
    f->asks_animals = (f->diet == DIET_MIXED || f->diet == DIET_AQUATIC) && animals->food_count &&
                      !animals->has_share && !is_told && f->step_count == 0 &&
                      !animals->has_count && !animals->has_g;
    if (f->asks_plants || f->asks_animals)
        build_review(b, REVIEW_MISSING, "food-amount-not-known", (struct mark){0}, NULL);
}

/* Grazers have hay at all times, and nobody weighs it (common practice, no source): the mass that
 * she wrote is of what is put down beside it, and she is asked. */
static void tell_hay(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    const struct band *own = &b->in->visit->targets.meal_g;
    for (size_t i = 0; f->diet == DIET_PLANTS && own->known && i < f->food_count; i++) {
        const struct food *food = food_find(b->in->reference, f->foods[i].food);
        f->is_beside_hay |= food && food->lies_there.value;
    }
    if (f->is_beside_hay)
        build_review(b, REVIEW_REMARK, "meal-without-hay", own->at, NULL);
}

void feeding_plan_lines(struct care_build *b)
{
    const struct feeding_plan *f = &b->plan->feeding;
    bool mixed = f->diet == DIET_MIXED;
    if (f->paused && !f->has_resume)
        return;
    if (mixed)
        add_plants(b);
    add_meals(b, mixed ? LINE_ANIMALS : f->beside.is_known ? LINE_MIX : LINE_ALL);
    if (f->beside.is_known && !mixed)
        add_beside(b);
    ask_amounts(b);
    tell_hay(b);
}
