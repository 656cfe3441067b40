/* The fixture of tests of food: a species that eats one food, and what is planned of it. */
#ifndef BASKLEAF_TESTS_CARE_FEEDING_FIXTURE_H
#define BASKLEAF_TESTS_CARE_FEEDING_FIXTURE_H

#include <string.h>

#include "care/feeding.h"
#include "care/fixture.h"

static struct care_fixture f;

static void tear_down(void)
{
    fixture_finish(&f);
}

static inline struct feeding_plan *feeding(void)
{
    return &f.plan.feeding;
}

static inline struct date_value on_day(int month, int day)
{
    return fixture_date(2026, month, day);
}

/* One size, each piece of low to high grams. */
static inline struct food_size sized(const char *name, double low_g, double high_g)
{
    return (struct food_size){.name = fixture_text(name), .mass_g = fixture_cited(low_g, high_g)};
}

static inline struct food food_of(const char *code, enum food_kind kind,
                                  const struct food_size *sizes, size_t count)
{
    struct food food = {.name = fixture_text(code), .kind = fixture_choice((int)kind)};
    if (count)
        food.sizes = fixture_list(&f, sizes, count, sizeof *sizes);
    return food;
}

/* The stage eats all of them, in this order. */
static inline void give_foods(struct species_feeding_stage *stage, const struct food *foods,
                              size_t count)
{
    struct text_value codes[8];
    for (size_t i = 0; i < count; i++)
        codes[i] = foods[i].name;
    f.reference.foods = fixture_list(&f, foods, count, sizeof *foods);
    stage->foods = fixture_list(&f, codes, count, sizeof *codes);
}

static inline void feed_by(const struct species_feeding_stage *stages, size_t count)
{
    f.species.feeding = fixture_list(&f, stages, count, sizeof *stages);
}

static inline void weigh(double mass_g)
{
    f.visit.patient.mass_g = fixture_quantity(mass_g);
    f.plan.patient.has_mass = true;
    f.plan.patient.mass_g = mass_g;
}

static inline void given(const struct visit_diet *diets, size_t count)
{
    f.visit.diet = fixture_list(&f, diets, count, sizeof *diets);
}

static inline void found(const struct finding_plan *findings, size_t count)
{
    f.plan.findings = fixture_list(&f, findings, count, sizeof *findings).items;
    f.plan.finding_count = count;
}

static inline bool is_day(struct date day, int month, int on)
{
    return date_compare(day, (struct date){2026, month, on}) == 0;
}

#endif
