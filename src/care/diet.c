/* What the keeper gives, judged as a whole: calcium to phosphorus, staples, and what must not be.
 */
#include "care/feeding.h"
#include "care/intake.h"

#include <math.h>
#include <string.h>

#include "base/nearest.h"

enum { PER_G = 100 }; /* the tables tell of 100 g */

/* ---- one food ---------------------------------------------------------------------------------
 */

static struct provenance from_source(const struct care_build *b, const char *id, const char *row,
                                     int trust)
{
    const char *source = named_text_find(&b->in->reference->food_sources, id);
    source = source ? source : id;
    return (struct provenance){.origin = ORIGIN_REFERENCE,
                               .source =
                                   row ? arena_format(b->arena, "%s, %s", source, row) : source,
                               .trust = (enum trust)trust};
}

static void add_mineral(struct care_build *b, const struct diet_food *one, const char *what,
                        double mg_day, double content_mg)
{
    build_derive(
        b, &b->plan->feeding.diet_now.how,
        (struct derived){what, mg_day, "mg/d", "mineral-a-day", one->from.source,
                         INPUTS({"food", one->g_day, "g/d"}, {"content", content_mg, "mg/100g"})});
}

static void add_minerals(struct care_build *b, const struct food *food, struct diet_food *one)
{
    const struct food_minerals *m = &food->minerals;
    const struct sourced_value *known = &food->calcium_to_phosphorus;
    one->has_minerals = m->calcium_mg.known && one->has_g;
    one->has_ratio = m->calcium_mg.known || known->range.known;
    if (m->calcium_mg.known) {
        one->ratio = m->calcium_mg.value / m->phosphorus_mg.value;
        one->from = from_source(b, m->source.text, m->row.text, m->trust.value);
    } else if (known->range.known) {
        one->ratio = known->range.low;
        one->from = from_source(b, known->source.text, NULL, known->trust.value);
    }
    if (!one->has_minerals)
        return;
    one->calcium_mg_day = one->g_day * m->calcium_mg.value / PER_G;
    one->phosphorus_mg_day = one->g_day * m->phosphorus_mg.value / PER_G;
    add_mineral(b, one, "feeding.diet.calcium_mg_day", one->calcium_mg_day, m->calcium_mg.value);
    add_mineral(b, one, "feeding.diet.phosphorus_mg_day", one->phosphorus_mg_day,
                m->phosphorus_mg.value);
}

/* Poison for its whole group is told although the species is not fed such food. */
static void add_never(struct care_build *b, const struct food_rule *rule, struct diet_food *one)
{
    const struct whom_animal animal = build_animal(b);
    one->is_never = whom_fits(&rule->whom, &animal);
    one->because = rule->because.known ? (enum never_reason)rule->because.value : NEVER_UNFIT;
    one->from = from_source(b, rule->source.text, NULL, rule->trust.value);
}

/* A code that nobody knows is told with its place; the food counts for unknown. */
static void tell_unlisted(struct care_build *b, const struct text_value *code)
{
    const struct reference_values *reference = b->in->reference;
    struct nearest nearest;
    nearest_init(&nearest, code->text);
    for (size_t i = 0; i < reference->foods.count; i++)
        nearest_offer(&nearest, LIST_AT(reference->foods, struct food, i)->name.text);
    for (size_t i = 0; i < reference->never_foods.count; i++)
        nearest_offer(&nearest, LIST_AT(reference->never_foods, struct food_rule, i)->name.text);
    struct plan_fact *facts =
        nearest.best ? build_fact_text(b, "nearest", FACT_TEXT, nearest.best, NULL) : NULL;
    build_review(b, REVIEW_REMARK, "diet-food-unlisted", code->at,
                 build_fact_text(b, "food", FACT_TEXT, code->text, facts));
}

static struct diet_food judge_one(struct care_build *b, const struct visit_diet *diet)
{
    struct diet_food one = {
        .food = diet->food.text, .g_day = intake_g_day(b, diet), .at = diet->at};
    one.has_g = one.g_day > 0;
    if (!one.food)
        return one;
    const struct food_rule *never = never_food_find(b->in->reference, one.food);
    const struct food *food = food_find(b->in->reference, one.food);
    one.is_listed = food || never;
    if (never)
        add_never(b, never, &one);
    if (!one.is_listed)
        tell_unlisted(b, &diet->food);
    if (!food)
        return one;
    one.is_plant = food->kind.value == FOOD_PLANT;
    one.is_insect = food->kind.value == FOOD_INSECT;
    one.is_left_out = feeding_leaves_out(b, food);
    one.binds_calcium = list_has_choice(&food->flags, FOOD_OXALATE);
    one.has_class = feeding_food_class(b, food, &one.food_class);
    add_minerals(b, food, &one);
    if (!one.has_ratio && (one.is_plant || one.is_insect))
        build_review(b, REVIEW_MISSING, "diet-food-no-minerals", one.at,
                     build_fact_text(b, "food", FACT_TEXT, one.food, NULL));
    return one;
}

/* ---- calcium to phosphorus ---------------------------------------------------------------------
 */

static void widen(struct ends *ends, double ratio)
{
    ends->low = fmin(ends->low, ratio);
    ends->high = fmax(ends->high, ratio);
}

/* A batch may hold more of the one and less of the other. */
static struct ends derive_ratio(struct care_build *b, const char *what, double ratio)
{
    double error = build_limit(b, "food-minerals-error-percent") / 100;
    struct ends ends = {ratio * (1 - error) / (1 + error), ratio * (1 + error) / (1 - error)};
    build_band(build_derive(b, &b->plan->feeding.diet_now.how,
                            (struct derived){what, ratio, "", "ratio-of-batches", "arithmetic",
                                             INPUTS({"ratio", ratio, ""},
                                                    {"minerals-error", error * 100, "%"})}),
               ends.low, ends.high);
    return ends;
}

/* One end of what is known in grams. At the low end oxalate has bound all that it may. */
static bool add_sum(struct care_build *b, const struct diet_plan *d, bool is_low, struct ends *ends)
{
    double calcium = 0, phosphorus = 0;
    for (size_t i = 0; i < d->given_count; i++) {
        const struct diet_food *one = &d->given[i];
        if (!one->has_minerals)
            continue;
        calcium += is_low && one->binds_calcium ? 0 : one->calcium_mg_day;
        phosphorus += one->phosphorus_mg_day;
    }
    if (phosphorus <= 0)
        return false;
    build_derive(
        b, &b->plan->feeding.diet_now.how,
        (struct derived){is_low ? "feeding.diet.summed.low" : "feeding.diet.summed.high",
                         calcium / phosphorus, "", "calcium-to-phosphorus", "arithmetic",
                         INPUTS({"calcium", calcium, "mg/d"}, {"phosphorus", phosphorus, "mg/d"})});
    widen(ends, calcium / phosphorus);
    return true;
}

/* What is known in grams is summed. A food without an amount may be any part of the whole, whose
 * ratio then lies between the lowest and the highest of its parts. */
static void plan_ratio(struct care_build *b, struct diet_plan *d)
{
    struct ends ends = {INFINITY, 0};
    d->has_ratio = add_sum(b, d, true, &ends) && add_sum(b, d, false, &ends);
    for (size_t i = 0; i < d->given_count; i++) {
        const struct diet_food *one = &d->given[i];
        if (!one->has_ratio || one->has_minerals)
            continue;
        widen(&ends, one->ratio);
        widen(&ends, one->binds_calcium ? 0 : one->ratio);
        d->has_ratio = true;
    }
    if (!d->has_ratio)
        return;
    d->ratio_low = derive_ratio(b, "feeding.diet.calcium_to_phosphorus.low", ends.low).low;
    d->ratio_high = derive_ratio(b, "feeding.diet.calcium_to_phosphorus.high", ends.high).high;
}

static void plan_least(struct care_build *b, struct diet_plan *d)
{
    const struct list *rows = &b->in->reference->balances;
    const struct whom_animal animal = build_animal(b);
    for (size_t i = 0; i < rows->count && !d->has_least; i++) {
        const struct food_balance *row = LIST_AT(*rows, struct food_balance, i);
        if (!b->in->species->diet.known || !whom_fits(&row->whom, &animal))
            continue;
        d->has_least = true;
        d->least_ratio = row->calcium_percent.low / row->phosphorus_percent.high;
        d->least_from = from_source(b, row->source.text, NULL, row->trust.value);
        build_derive(b, &d->how,
                     (struct derived){"feeding.diet.least", d->least_ratio, "",
                                      "calcium-to-phosphorus", d->least_from.source,
                                      INPUTS({"calcium", row->calcium_percent.low, "%"},
                                             {"phosphorus", row->phosphorus_percent.high, "%"})});
    }
}

/* Of a whole of which a part is unknown nothing is said. */
static enum verdict judge_ratio(const struct diet_plan *d)
{
    if (!d->has_ratio || !d->has_least || d->unknown_count > 0)
        return VERDICT_UNKNOWN;
    return d->ratio_high < d->least_ratio  ? VERDICT_TOO_LOW
           : d->ratio_low < d->least_ratio ? VERDICT_BORDERLINE
                                           : VERDICT_IN_RANGE;
}

/* ---- what is not known, and staples
 * -------------------------------------------------------------- */

static void plan_unknown(struct diet_plan *d)
{
    double all_g = 0, unknown_g = 0;
    d->has_unknown_share = d->given_count > 0;
    for (size_t i = 0; i < d->given_count; i++) {
        const struct diet_food *one = &d->given[i];
        d->has_unknown_share = d->has_unknown_share && one->has_g;
        all_g += one->g_day;
        unknown_g += one->has_ratio ? 0 : one->g_day;
        d->unknown_count += !one->has_ratio;
    }
    d->unknown_percent = all_g > 0 ? 100 * unknown_g / all_g : 0;
}

/* Between none and all of what has no class. */
static void plan_staples(struct care_build *b, struct diet_plan *d)
{
    double all_g = 0, staple_g = 0, unknown_g = 0;
    size_t plants = 0, staples = 0, others = 0;
    bool has_g = true;
    for (size_t i = 0; i < d->given_count; i++) {
        const struct diet_food *one = &d->given[i];
        if (!one->is_plant)
            continue;
        plants++;
        staples += one->has_class && one->food_class == FOOD_STAPLE;
        others += one->has_class && one->food_class != FOOD_STAPLE;
        has_g = has_g && one->has_g;
        all_g += one->g_day;
        staple_g += one->has_class && one->food_class == FOOD_STAPLE ? one->g_day : 0;
        unknown_g += one->has_class ? 0 : one->g_day;
    }
    d->has_staples = plants > 0 && (has_g || staples == plants || others == plants);
    if (!d->has_staples)
        return;
    double least = build_limit(b, "staple-share-least-percent");
    d->staple_low_percent = staples == plants ? 100 : has_g ? 100 * staple_g / all_g : 0;
    d->staple_high_percent = others == plants ? 0
                             : has_g          ? 100 * (staple_g + unknown_g) / all_g
                                              : 100;
    d->staple_verdict = d->staple_high_percent < least   ? VERDICT_TOO_LOW
                        : d->staple_low_percent >= least ? VERDICT_IN_RANGE
                                                         : VERDICT_UNKNOWN;
}

/* ---- what is wrong with it ------------------------------------------------------------------- */

static int never_fault(const struct diet_food *one)
{
    static const int faults[] = {[NEVER_POISON] = DIET_POISON,
                                 [NEVER_THIAMINASE] = DIET_THIAMINASE,
                                 [NEVER_UNFIT] = DIET_UNFIT};
    return one->is_never ? faults[one->because] : 0;
}

/* Every plant that is given slows the thyroid. */
static bool are_goitrogens_alone(const struct care_build *b, const struct diet_plan *d)
{
    size_t plants = 0, goitrogens = 0;
    for (size_t i = 0; i < d->given_count; i++) {
        if (!d->given[i].is_plant)
            continue;
        plants++;
        goitrogens +=
            list_has_choice(&food_find(b->in->reference, d->given[i].food)->flags, FOOD_GOITROGEN);
    }
    return plants > 0 && goitrogens == plants;
}

/* Of a stage that is fed several kinds of insects, all that is given is one of them. */
static bool is_one_insect(const struct care_build *b, const struct diet_plan *d,
                          const struct species_feeding_stage *stage)
{
    size_t offered = 0;
    const char *first = NULL;
    for (size_t i = 0; stage && i < stage->foods.count; i++) {
        const struct food *food =
            food_find(b->in->reference, LIST_AT(stage->foods, struct text_value, i)->text);
        offered += food && food->kind.value == FOOD_INSECT;
    }
    for (size_t i = 0; i < d->given_count; i++) {
        if (!d->given[i].is_listed) /* it may be another insect */
            return false;
        if (!d->given[i].is_insect)
            continue;
        if (first && strcmp(first, d->given[i].food) != 0)
            return false;
        first = d->given[i].food;
    }
    return first && offered > 1;
}

static bool any_plant(const struct diet_plan *d)
{
    for (size_t i = 0; i < d->given_count; i++)
        if (d->given[i].is_plant)
            return true;
    return false;
}

static int find_faults(const struct care_build *b, const struct diet_plan *d,
                       const struct species_feeding_stage *stage)
{
    int faults = 0;
    for (size_t i = 0; i < d->given_count; i++)
        faults |= never_fault(&d->given[i]);
    /* insects alone are always short of calcium: their powder makes up for it */
    if (d->ratio_verdict == VERDICT_TOO_LOW && any_plant(d))
        faults |= DIET_CALCIUM_SHORT;
    if (d->staple_verdict == VERDICT_TOO_LOW)
        faults |= DIET_FEW_STAPLES;
    if (are_goitrogens_alone(b, d))
        faults |= DIET_GOITROGENS_ALONE;
    if (is_one_insect(b, d, stage))
        faults |= DIET_ONE_INSECT;
    return faults;
}

/* An animal food that the sheet does not list for its age: prey where it lists none, or one of more
 * energy than each that is listed. */
static bool is_rich(const struct care_build *b, const struct species_feeding_stage *stage,
                    const char *code)
{
    const struct food *food = code ? food_find(b->in->reference, code) : NULL;
    if (!food || !stage || list_has_text(&stage->foods, code) ||
        (food->kind.value != FOOD_INSECT && food->kind.value != FOOD_PREY))
        return false;
    bool lists_prey = false;
    double most = 0;
    for (size_t i = 0; i < stage->foods.count; i++) {
        const struct food *listed =
            food_find(b->in->reference, LIST_AT(stage->foods, struct text_value, i)->text);
        lists_prey |= listed && listed->kind.value == FOOD_PREY;
        if (listed && listed->kcal_per_g.range.known)
            most = fmax(most, listed->kcal_per_g.range.high);
    }
    return (food->kind.value == FOOD_PREY && !lists_prey) ||
           (most > 0 && food->kcal_per_g.range.known && food->kcal_per_g.range.low > most);
}

static bool any_rich(const struct diet_plan *d)
{
    for (size_t i = 0; i < d->given_count; i++)
        if (d->given[i].is_rich)
            return true;
    return false;
}

static enum food_given_state worst_never(const struct diet_plan *d)
{
    return d->faults & DIET_POISON       ? FOOD_GIVEN_POISON
           : d->faults & DIET_THIAMINASE ? FOOD_GIVEN_THIAMINASE
           : d->faults & DIET_UNFIT      ? FOOD_GIVEN_UNFIT
           : any_rich(d)                 ? FOOD_GIVEN_RICH
           : d->given_count > 0          ? FOOD_GIVEN_FINE
                                         : FOOD_GIVEN_UNKNOWN;
}

static enum plants_given_state worst_plants(const struct diet_plan *d)
{
    return d->faults & DIET_CALCIUM_SHORT          ? PLANTS_GIVEN_CALCIUM_SHORT
           : d->faults & DIET_FEW_STAPLES          ? PLANTS_GIVEN_FEW_STAPLES
           : d->faults & DIET_GOITROGENS_ALONE     ? PLANTS_GIVEN_GOITROGENS
           : d->staple_verdict == VERDICT_IN_RANGE ? PLANTS_GIVEN_FINE
                                                   : PLANTS_GIVEN_UNKNOWN;
}

static bool is_plant_or_insect(const struct diet_plan *d)
{
    for (size_t i = 0; i < d->given_count; i++)
        if (d->given[i].is_plant || d->given[i].is_insect)
            return true;
    return false;
}

void feeding_judge_diet(struct care_build *b, const struct species_feeding_stage *stage)
{
    const struct list *diets = &b->in->visit->diet;
    struct diet_plan *d = &b->plan->feeding.diet_now;
    struct diet_food *given = ARENA_ARRAY(b->arena, struct diet_food, diets->count);
    for (size_t i = 0; i < diets->count; i++)
        given[d->given_count++] = judge_one(b, LIST_AT(*diets, struct visit_diet, i));
    for (size_t i = 0; i < d->given_count; i++)
        given[i].is_rich = is_rich(b, stage, given[i].food);
    d->given = given;
    /* whole prey brings its own bones */
    d->is_judged = is_plant_or_insect(d);
    if (d->is_judged) {
        plan_unknown(d);
        plan_ratio(b, d);
        plan_least(b, d);
        d->ratio_verdict = judge_ratio(d);
        plan_staples(b, d);
    }
    d->faults = find_faults(b, d, stage);
    d->never = worst_never(d);
    d->plants = worst_plants(d);
    if (d->faults & DIET_CALCIUM_SHORT)
        build_review(
            b, REVIEW_REMARK, "diet-calcium-short", d->given[0].at,
            build_fact(b, "least", FACT_RATIO, d->least_ratio, d->least_ratio,
                       build_fact(b, "ratio", FACT_RATIO, d->ratio_low, d->ratio_high, NULL)));
}
