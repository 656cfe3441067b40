#include "care/feeding.h"
#include "care/energy.h"

#include <math.h>

enum { PLANNER_DAYS = 56 };

static bool must_be_empty(const struct care_build *b, struct date day)
{
    if (!b->plan->has_recheck || !b->in->visit->follow_up.empty_stomach.value)
        return false;
    long before = date_days_between(day, b->plan->recheck);
    return before == 0 || before == 1;
}

void feeding_plan_dates(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    if (f->paused && !f->has_resume)
        return;
    long step = (long)fmax(1, floor((f->every_low_days + f->every_high_days) / 2));
    struct date from = b->in->visit->diet.last.known ? b->in->visit->diet.last.date : b->plan->on;
    struct date day = date_add_days(from, step);
    struct date tomorrow = date_add_days(b->plan->on, 1);
    if (date_compare(day, tomorrow) < 0)
        day = tomorrow;
    if (f->has_resume && date_compare(day, f->resume) < 0)
        day = f->resume;
    while (f->next_count < MEAL_DATES) {
        while (must_be_empty(b, day))
            day = date_add_days(day, 1);
        f->next[f->next_count++] = day;
        day = date_add_days(day, step);
    }
}

static bool for_stage(const struct species_supplement *s, enum stage stage)
{
    for (size_t i = 0; i < s->stages.count; i++)
        if (LIST_AT(s->stages, struct choice_value, i)->value == (int)stage)
            return true;
    return s->stages.count == 0;
}

static bool has_uvb(const struct care_build *b)
{
    const struct visit_lamp *lamp = &b->in->visit->enclosure.lamp;
    return b->in->species->needs_uvb.value && !(lamp->kind.known && lamp->kind.value == LAMP_NONE);
}

/* Spread evenly over each week, so that 2 a week are three and four days apart. */
static void days_of_week(struct care_build *b, struct supplement_plan *s)
{
    int per_week = (int)fmax(1, round((s->per_week_low + s->per_week_high) / 2));
    if (per_week > 7)
        per_week = 7;
    struct date *days = ARENA_ARRAY(b->arena, struct date, PLANNER_DAYS);
    for (int day = 1; day <= PLANNER_DAYS; day++) {
        int in_week = (day - 1) % 7;
        if (in_week * per_week / 7 != (in_week - 1) * per_week / 7 || in_week == 0)
            days[s->day_count++] = date_add_days(b->plan->on, day);
    }
    s->days = days;
}

static void days_of_meals(struct care_build *b, struct supplement_plan *s)
{
    const struct feeding_plan *f = &b->plan->feeding;
    struct date *days = ARENA_ARRAY(b->arena, struct date, MEAL_DATES);
    for (size_t i = 0; i < f->next_count; i += (size_t)s->every_meals)
        days[s->day_count++] = f->next[i];
    s->days = days;
}

void feeding_plan_supplements(struct care_build *b)
{
    const struct list *all = &b->in->species->supplements;
    struct feeding_plan *f = &b->plan->feeding;
    struct supplement_plan *list = ARENA_ARRAY(b->arena, struct supplement_plan, all->count);
    for (size_t i = 0; i < all->count; i++) {
        const struct species_supplement *s = LIST_AT(*all, struct species_supplement, i);
        bool lit = has_uvb(b);
        if (!for_stage(s, f->stage) || (s->when.value == SUPPLEMENT_WITH_UVB && !lit) ||
            (s->when.value == SUPPLEMENT_WITHOUT_UVB && lit))
            continue;
        struct supplement_plan *one = &list[f->supplement_count++];
        *one = (struct supplement_plan){.what = (enum supplement)s->what.value};
        const struct cited *cited = s->per_week.range.known ? &s->per_week : &s->every_meals;
        one->from = build_from_cited(cited, &b->in->species->sources, ORIGIN_SPECIES_SHEET);
        if (s->every_meals.range.known) {
            one->every_meals = (int)fmax(1, s->every_meals.range.low);
            days_of_meals(b, one);
        } else {
            one->per_week_low = s->per_week.range.low;
            one->per_week_high = s->per_week.range.high;
            days_of_week(b, one);
        }
    }
    f->supplements = list;
}

static double body_temperature_c(const struct care_build *b)
{
    const struct band *preferred = &b->in->species->preferred.range;
    const struct zone_plan *warm = &b->plan->temperature.zones[ZONE_WARM_SIDE];
    if (preferred->known)
        return (preferred->low + preferred->high) / 2;
    return warm->applies ? (warm->low_c + warm->high_c) / 2 : 0;
}

static void tell_energy(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    const char *code = f->plan_high_kcal_day < f->need_low_kcal_day ? "energy-below-need"
                       : f->plan_low_kcal_day > 3 * f->need_high_kcal_day ? "energy-far-above-need" : NULL;
    if (!code)
        return;
    struct plan_fact *facts = build_fact(b, "plan", FACT_ENERGY, f->plan_low_kcal_day, f->plan_high_kcal_day, NULL);
    build_review(b, REVIEW_REMARK, code, (struct mark){0},
                 build_fact(b, "need", FACT_ENERGY, f->need_low_kcal_day, f->need_high_kcal_day, facts));
}

void feeding_plan_energy(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    double temp_c = body_temperature_c(b);
    const struct food *food = f->food_count ? food_find(b->in->facts, f->foods[0].food) : NULL;
    if (!f->has_meal || !b->plan->mass_usable || temp_c <= 0 || !food || !food->kcal_per_g.range.known || f->paused)
        return;
    double mass_g = b->in->visit->patient.mass_g.value;
    double standard = energy_oxygen_kcal_day(mass_g, temp_c, 0), least = energy_least_kcal_day(mass_g);
    f->has_energy = true;
    f->need_low_kcal_day = fmin(standard, least);
    f->need_high_kcal_day = fmax(standard, least);
    f->plan_low_kcal_day = f->meal_low_g * food->kcal_per_g.range.low / f->every_high_days;
    f->plan_high_kcal_day = f->meal_high_g * food->kcal_per_g.range.high / f->every_low_days;
    build_derive(b, &f->how, "feeding.energy.need.squamate", standard, "kcal/d", "andrews-pough-1985",
                 "Andrews & Pough 1985, Physiol. Zool. 58:214-231, eq. 2, standard; 20.1 J per ml of oxygen",
                 INPUTS({"mass", mass_g, "g"}, {"body-temperature", temp_c, "C"}));
    build_derive(b, &f->how, "feeding.energy.need.least", least, "kcal/d", "least-energy-reptiles",
                 "10 x kg^0.75 kcal a day (handbook value)", INPUTS({"mass", mass_g, "g"}));
    tell_energy(b);
}
