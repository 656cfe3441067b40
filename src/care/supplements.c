/* Powders on the food and their days. */
#include "care/feeding.h"
#include "care/intake.h"

#include <math.h>
#include <string.h>

static bool for_stage(const struct species_supplement *s, enum stage stage)
{
    for (size_t i = 0; i < s->stages.count; i++)
        if (LIST_AT(s->stages, struct choice_value, i)->value == (int)stage)
            return true;
    return s->stages.count == 0;
}

/* What the animal makes itself under the lamp depends on the light that reaches it today. */
static bool has_uvb(const struct care_build *b)
{
    enum lamp_state lamp = b->plan->uvb.lamp;
    if (b->plan->uvb.sun)
        return true;
    /* at rest in winter the lamp is off, and comes back before the food does */
    bool needs =
        b->plan->measured[MEASURE_UVB].applies ||
        (plan_holds(b->plan, "warmth-day", "rest") && b->in->species->ferguson_zone.range.known);
    return needs && lamp != LAMP_STATE_MISSING && lamp != LAMP_STATE_BLOCKED &&
           lamp != LAMP_STATE_BLOCKED_DUE && lamp != LAMP_STATE_UNRELIABLE;
}

static bool is_wanted(const struct care_build *b, const struct species_supplement *s)
{
    bool lit = has_uvb(b);
    if (s->what.value == SUPPLEMENT_CALCIUM_D3 &&
        (plan_holds(b->plan, "supplement", "stop-d3") || b->plan->uvb.sun)) /* the skin makes it */
        return false;
    return for_stage(s, b->plan->feeding.stage) &&
           !(s->when.value == SUPPLEMENT_WITH_UVB && !lit) &&
           !(s->when.value == SUPPLEMENT_WITHOUT_UVB && lit);
}

/* Days between two uses. The lower end of the band counts: too much of the vitamins that fat holds
 * does harm. */
static double period_days(const struct supplement_plan *s)
{
    double times = s->per_week_low > 0 ? s->per_week_low : s->per_week_high;
    if (times > 1)
        times = fmin(7, ceil(times));
    return times > 0 ? 7 / times : 0;
}

/* The days of eight weeks on which a powder lies on the food already: one is enough for a meal. */
struct powder_days {
    bool taken[FEEDING_PLANNER_DAYS + 1];
};

static bool is_free(const struct care_build *b, const struct powder_days *powders, struct date day)
{
    long after = date_days_between(b->plan->on, day);
    if (after < 0 || after > FEEDING_PLANNER_DAYS)
        return true;
    const struct stance_phase *food = plan_phase_on(b->plan, "food", day);
    return !powders->taken[after] && !(food && feeding_is_pause(food->stance));
}

/* The first meal on or after the day that has no powder yet; of a diet that has food every day,
 * the first such day. */
static bool find_fed_day(const struct care_build *b, const struct powder_days *powders,
                         const struct date *meals, size_t count, struct date day, struct date *out)
{
    enum diet_kind diet = b->plan->feeding.diet;
    if (diet == DIET_PLANTS || diet == DIET_MIXED) {
        while (!is_free(b, powders, day))
            day = date_add_days(day, 1);
        *out = day;
        return true;
    }
    for (size_t i = 0; i < count; i++) {
        if (date_compare(meals[i], day) < 0 || !is_free(b, powders, meals[i]))
            continue;
        *out = meals[i];
        return true;
    }
    return false;
}

/* `shift` days after the first fed day, then every period, within the planner's eight weeks. */
static void days_of_weeks(struct care_build *b, struct supplement_plan *s,
                          const struct powder_days *powders, const struct date *meals,
                          size_t meal_count, double shift)
{
    const double period = period_days(s);
    const struct date last = date_add_days(b->plan->on, FEEDING_PLANNER_DAYS);
    struct date *days = ARENA_ARRAY(b->arena, struct date, FEEDING_PLANNER_DAYS);
    if (period <= 0 || meal_count == 0)
        return;
    struct date first = date_add_days(b->plan->on, feeding_first_day(b));
    if (b->plan->feeding.has_resume)
        first = meals[0];
    for (int turn = 0; s->day_count < FEEDING_PLANNER_DAYS; turn++) {
        struct date day;
        struct date wanted = date_add_days(first, (long)floor(shift + turn * period));
        if (date_compare(wanted, last) > 0)
            break;
        /* a day that another powder has taken is made up for at the next meal without one */
        if (s->day_count > 0 && date_compare(wanted, days[s->day_count - 1]) <= 0)
            wanted = date_add_days(days[s->day_count - 1], 1);
        if (!find_fed_day(b, powders, meals, meal_count, wanted, &day) ||
            date_compare(day, last) > 0)
            break;
        days[s->day_count++] = day;
    }
    s->days = days;
}

static void days_of_meals(struct care_build *b, struct supplement_plan *s,
                          const struct powder_days *powders, const struct date *meals,
                          size_t meal_count)
{
    struct date *days = ARENA_ARRAY(b->arena, struct date, meal_count);
    for (size_t i = 0; i < meal_count; i += (size_t)s->every_meals)
        if (date_days_between(b->plan->on, meals[i]) <= FEEDING_PLANNER_DAYS &&
            is_free(b, powders, meals[i]))
            days[s->day_count++] = meals[i];
    s->days = days;
}

static void fill_one(struct care_build *b, const struct species_supplement *s,
                     struct supplement_plan *one)
{
    bool by_meals = s->every_meals.range.known;
    bool every =
        s->what.value == SUPPLEMENT_CALCIUM && plan_holds(b->plan, "supplement", "every-feeding");
    *one = (struct supplement_plan){.what = (enum supplement)s->what.value};
    one->from = build_from_sourced(by_meals ? &s->every_meals : &s->per_week,
                                   &b->in->species->sources, ORIGIN_SPECIES_SHEET);
    if (s->what.value == SUPPLEMENT_THIAMINE) { /* it makes up for what the fish destroys */
        one->with_fish = true;
    } else if (every) { /* the settled stance is stronger than the species' rhythm */
        one->every_meals = 1;
    } else if (by_meals) {
        one->every_meals = (int)fmax(1, s->every_meals.range.low);
    } else {
        one->per_week_low = s->per_week.range.low;
        one->per_week_high = s->per_week.range.high;
    }
}

/* Days a week with food that a powder can lie on. */
static double fed_days_a_week(const struct care_build *b)
{
    const struct feeding_plan *f = &b->plan->feeding;
    double days = f->beside.is_known ? (f->beside.every_low_days + f->beside.every_high_days) / 2
                                     : (f->every_low_days + f->every_high_days) / 2;
    if (days <= 0) /* the veterinarian still writes how often: no oftener than is usual */
        days = (f->usual_low_days + f->usual_high_days) / 2;
    bool daily = f->diet == DIET_PLANTS || f->diet == DIET_MIXED;
    return daily || days <= 1 ? 7 : 7 / days;
}

/* Calcium goes on every meal of an animal that grows, is gravid or has soft bones, and where it is
 * due more often than the other powders leave meals for it: one powder a meal. */
static void fit_calcium(const struct care_build *b, struct supplement_plan *list)
{
    const struct feeding_plan *f = &b->plan->feeding;
    double left = fed_days_a_week(b);
    bool every = plan_holds(b->plan, "supplement", "every-feeding");
    for (size_t i = 0; i < f->supplement_count; i++)
        if (list[i].what != SUPPLEMENT_CALCIUM && list[i].every_meals == 0 && !list[i].with_fish)
            left -= list[i].per_week_low;
    for (size_t i = 0; i < f->supplement_count; i++) {
        struct supplement_plan *s = &list[i];
        if (s->what != SUPPLEMENT_CALCIUM || s->every_meals != 0 ||
            !(every || s->per_week_low >= left))
            continue;
        /* plants stand every day between the meals of animals */
        bool between = f->diet == DIET_MIXED && f->every_low_days > 1;
        s->every_meals = between ? 0 : 1;
        s->per_week_low = s->per_week_high = between ? ceil(left) : 0;
    }
}

static bool takes_a_meal(const struct supplement_plan *s)
{
    return s->what != SUPPLEMENT_CALCIUM && s->every_meals == 0 && !s->with_fish;
}

/* Powders that want all meals there are or more, one a meal, take turns: of one meal a week
 * each has every second. What was to lie on all other meals then has none. Calcium that every meal
 * needs stands before them, and who signs is told of it in each case. */
static void share_meals(struct care_build *b, struct supplement_plan *list)
{
    enum { DAYS = 7 };
    struct feeding_plan *f = &b->plan->feeding;
    const double fed = fed_days_a_week(b), slack = 0.01;
    double wanted = 0, left = fed;
    for (size_t i = 0; i < f->supplement_count; i++)
        wanted += takes_a_meal(&list[i]) ? list[i].per_week_low : 0;
    if (fed > 1 + slack || wanted < fed - slack)
        return;
    build_review(b, REVIEW_REMARK, "powders-share-meals", (struct mark){0},
                 build_fact(b, "days", FACT_DAYS, DAYS / fed, DAYS / fed, NULL));
    if (plan_holds(b->plan, "supplement", "every-feeding"))
        return;
    for (size_t i = 0; i < f->supplement_count; i++) {
        struct supplement_plan *s = &list[i];
        if (!takes_a_meal(s))
            continue;
        const double share = s->per_week_low * fed / wanted;
        s->per_week_low = s->per_week_high =
            share < 1 ? 1 / ceil(1 / share - slack) : floor(share + slack);
        left -= s->per_week_low;
    }
    size_t kept = 0;
    for (size_t i = 0; i < f->supplement_count; i++)
        if (takes_a_meal(&list[i]) || list[i].with_fish || left > slack)
            list[kept++] = list[i];
    f->supplement_count = kept;
}

/* Powders of the same rhythm take turns instead of falling on one meal. */
static double turn_shift(const struct supplement_plan *list, size_t count, size_t at)
{
    double period = period_days(&list[at]);
    size_t same = 0, before = 0;
    for (size_t i = 0; i < count; i++) {
        bool is_same = list[i].every_meals == 0 && period_days(&list[i]) == period;
        same += is_same;
        before += is_same && i < at;
    }
    return floor(period * (double)before / (double)same);
}

static void take_days(const struct care_build *b, const struct supplement_plan *s,
                      struct powder_days *powders)
{
    for (size_t i = 0; i < s->day_count; i++) {
        long after = date_days_between(b->plan->on, s->days[i]);
        if (after >= 0 && after <= FEEDING_PLANNER_DAYS)
            powders->taken[after] = true;
    }
}

/* The rarest chooses its days first; what goes on every meal goes on those that are left. */
static void plan_days(struct care_build *b, struct supplement_plan *list, const struct date *meals,
                      size_t meal_count)
{
    const size_t count = b->plan->feeding.supplement_count;
    struct powder_days powders = {0};
    bool *done = ARENA_ARRAY(b->arena, bool, count + 1);
    for (size_t turn = 0; turn < count; turn++) {
        size_t rarest = count;
        for (size_t i = 0; i < count; i++)
            if (!done[i] && list[i].every_meals == 0 &&
                (rarest == count || period_days(&list[i]) > period_days(&list[rarest])))
                rarest = i;
        if (rarest == count)
            break;
        done[rarest] = true;
        days_of_weeks(b, &list[rarest], &powders, meals, meal_count,
                      turn_shift(list, count, rarest));
        take_days(b, &list[rarest], &powders);
    }
    for (size_t i = 0; i < count; i++)
        if (list[i].every_meals > 0)
            days_of_meals(b, &list[i], &powders, meals, meal_count);
}

/* The veterinarian's own powders stand instead of the species', whatever the lamp does; a settled
 * end of vitamin D3 stands all the same. */
static void fill_own(struct care_build *b, const struct list *own, struct supplement_plan *list)
{
    struct feeding_plan *f = &b->plan->feeding;
    for (size_t i = 0; i < own->count; i++) {
        const struct visit_powder *s = LIST_AT(*own, struct visit_powder, i);
        if (s->what.value == SUPPLEMENT_CALCIUM_D3 && plan_holds(b->plan, "supplement", "stop-d3"))
            continue;
        list[f->supplement_count++] =
            (struct supplement_plan){.what = (enum supplement)s->what.value,
                                     .per_week_low = s->per_week.value,
                                     .per_week_high = s->per_week.value,
                                     .every_meals = (int)s->every_meals.value,
                                     .from = build_from_veterinarian(b)};
    }
}

/* More than half of its food is complete by itself: powders on it are too much (Stahl & Donoghue,
 * in Small Animal Clinical Nutrition, 5th ed., p. 1245). By mass, or where it gets nothing else. */
static bool eats_complete_food(const struct care_build *b)
{
    const struct list *diets = &b->in->visit->diet;
    size_t complete = 0;
    double complete_g = 0, all_g = 0;
    for (size_t i = 0; i < diets->count; i++) {
        const struct visit_diet *diet = LIST_AT(*diets, struct visit_diet, i);
        const struct food *food =
            diet->food.text ? food_find(b->in->reference, diet->food.text) : NULL;
        double g_day = intake_g_day(b, diet);
        bool is_complete = food && food->kind.value == FOOD_PREPARED;
        complete += is_complete;
        complete_g += is_complete ? g_day : 0;
        all_g = g_day > 0 && all_g >= 0 ? all_g + g_day : -1;
    }
    return diets->count > 0 && (complete == diets->count || (all_g > 0 && complete_g > all_g / 2));
}

/* Calcium at every feeding though its food is complete: where eggs or bones ask for it, or where it
 * lies on insects beside that food. Growing alone, it has what it needs. */
static bool is_called_for(const struct care_build *b)
{
    const struct stance_phase *phase = plan_phase_on(b->plan, "supplement", b->plan->on);
    return phase && strcmp(phase->stance, "every-feeding") == 0 &&
           (b->plan->feeding.beside.is_known || strcmp(phase->because, "default") != 0);
}

void feeding_plan_supplements(struct care_build *b)
{
    const struct list *all = &b->in->species->supplements;
    const struct list *own = &b->in->visit->targets.powders;
    struct feeding_plan *f = &b->plan->feeding;
    struct supplement_plan *list =
        ARENA_ARRAY(b->arena, struct supplement_plan, all->count + own->count);
    size_t meal_count;
    const struct date *meals = feeding_powder_days(b, &meal_count);
    fill_own(b, own, list);
    /* where only what was written is given, the species' rhythm is not */
    bool as_written = plan_holds(b->plan, "supplement", "as-written");
    bool is_complete = own->count == 0 && all->count > 0 && eats_complete_food(b);
    bool calls = is_called_for(b);
    bool of_species = own->count == 0 && !as_written;
    if (is_complete)
        build_review(b, REVIEW_REMARK, calls ? "complete-food-calcium" : "complete-food",
                     (struct mark){0}, NULL);
    if (as_written && own->count == 0 && all->count > 0 && b->in->visit->medicines.count == 0)
        build_review(b, REVIEW_MISSING, "powders-not-written", (struct mark){0}, NULL);
    for (size_t i = 0; i < all->count; i++) {
        const struct species_supplement *s = LIST_AT(*all, struct species_supplement, i);
        bool is_needless = is_complete && !(calls && s->what.value == SUPPLEMENT_CALCIUM);
        if (of_species && is_wanted(b, s) && !is_needless)
            fill_one(b, s, &list[f->supplement_count++]);
    }
    if (own->count == 0) {
        fit_calcium(b, list);
        share_meals(b, list);
    }
    plan_days(b, list, meals, meal_count);
    f->supplements = list;
}
