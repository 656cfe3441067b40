/* The water plan: tests against their targets, un-ionised ammonia, depth, and what to change. */
#include "care/ammonia.h"
#include "care/measured.h"

#include <math.h>

#define EMERSON "Emerson et al. 1975, J. Fish. Res. Board Can. 32:2379-2383"

static struct ends limits_of(const struct care_build *b, const char *name)
{
    const struct band *range = &limit_find(b->in->reference, name)->range;
    return (struct ends){range->low, range->high};
}

static bool shows(const struct care_build *b, enum measure_id measure)
{
    const struct measured_plan *plan = &b->plan->measured[measure];
    return plan->verdict == VERDICT_TOO_HIGH;
}

/* ---- un-ionised ammonia ----------------------------------------------------------------- */

/* Total ammonia as mg of NH3; false where the kit's number is not that. */
static bool set_total(struct care_build *b)
{
    struct water_plan *plan = &b->plan->water;
    const struct choice_value *as = &b->in->visit->water.ammonia_as;
    const struct measured_plan *read = &b->plan->measured[MEASURE_AMMONIA];
    if (!read->has_reading || !as->known || as->value == AMMONIA_NH3)
        return false;
    plan->has_total = true;
    plan->ammonia_total_mg_l = read->reading;
    if (as->value != AMMONIA_TOTAL_N)
        return true;
    plan->ammonia_total_mg_l = ammonia_from_nitrogen(read->reading);
    build_derive(b, &plan->how,
                 (struct derived){"water.ammonia_total_mg_l", plan->ammonia_total_mg_l, "mg/l",
                                  "nitrogen-to-ammonia", "IUPAC standard atomic weights",
                                  INPUTS({"ammonia-nitrogen", read->reading, "mg/l"})});
    return true;
}

/* The band: kit, pH and thermometer at their worst together. */
static void derive_gas(struct care_build *b, double ph, double temp_c)
{
    struct measured_plan *gas = &b->plan->measured[MEASURE_NH3];
    double total = b->plan->water.ammonia_total_mg_l;
    double kit = build_limit(b, "ammonia-reading-error-percent") / 100;
    double ph_error = measured_error(b, MEASURE_PH, ph),
           temp_error = measured_error(b, MEASURE_WATER, temp_c);
    gas->judged_low = total * (1 - kit) * ammonia_share(ph - ph_error, temp_c - temp_error);
    gas->judged_high = total * (1 + kit) * ammonia_share(ph + ph_error, temp_c + temp_error);
    struct derivation *made = build_derive(
        b, &b->plan->water.how,
        (struct derived){"water.nh3_mg_l", gas->reading, "mg/l", "emerson-1975", EMERSON,
                         INPUTS({"ammonia-total", total, "mg/l"}, {"ph", ph, ""},
                                {"temperature", temp_c, "C"}, {"kit-error", kit * 100, "%"},
                                {"ph-error", ph_error, ""},
                                {"thermometer-error", temp_error, "K"})});
    build_band(made, gas->judged_low, gas->judged_high);
}

static void take_gas(struct care_build *b, double mg_l)
{
    struct measured_plan *gas = &b->plan->measured[MEASURE_NH3];
    gas->has_reading = true;
    gas->reading = gas->judged = gas->judged_low = gas->judged_high = mg_l;
}

static void set_gas(struct care_build *b)
{
    const struct measured_plan *ammonia = &b->plan->measured[MEASURE_AMMONIA],
                               *ph = &b->plan->measured[MEASURE_PH],
                               *warmth = &b->plan->measured[MEASURE_WATER];
    const struct choice_value *as = &b->in->visit->water.ammonia_as;
    const struct mark at = b->in->visit->measured[MEASURE_AMMONIA].at;
    if (!ammonia->has_reading)
        return;
    if (!as->known) {
        build_review(b, REVIEW_MISSING, "ammonia-as-unsaid", at, NULL);
    } else if (as->value == AMMONIA_NH3) {
        take_gas(b, ammonia->reading);
    } else if (set_total(b) && measured_is_usable(ph) && measured_is_usable(warmth)) {
        take_gas(b,
                 b->plan->water.ammonia_total_mg_l * ammonia_share(ph->reading, warmth->reading));
        derive_gas(b, ph->reading, warmth->reading);
    } else if (ammonia->reading > 0) {
        build_review(b, REVIEW_MISSING, "ammonia-without-ph", at, NULL);
    }
}

/* Too much is never excused by an error; below, the worst that kit and thermometer allow counts. */
static void judge_gas(struct care_build *b)
{
    struct measured_plan *gas = &b->plan->measured[MEASURE_NH3];
    gas->most = gas->high;
    measured_judge(b, MEASURE_NH3);
    if (gas->verdict == VERDICT_IN_RANGE && gas->judged_high > gas->high)
        gas->verdict = VERDICT_BORDERLINE;
}

/* ---- depth -------------------------------------------------------------------------------- */

static double derive_depth(struct care_build *b, const char *what,
                           const struct sourced_value *times)
{
    double length_cm = b->plan->patient.length_cm;
    double cm = ceil(times->range.low * length_cm - 1e-6);
    struct ends animal = build_length_cm(b, length_cm);
    struct derivation *made = build_derive(
        b, &b->plan->water.how,
        (struct derived){
            what, cm, "cm", "multiple-of-length",
            build_from_sourced(times, &b->in->species->sources, ORIGIN_SPECIES_SHEET).source,
            INPUTS({"animal-length", length_cm, "cm"}, {"times", times->range.low, ""},
                   {"tape-error", build_limit(b, "length-reading-error-percent"), "%"})});
    build_band(made, ceil(times->range.low * animal.low - 1e-6),
               ceil(times->range.low * animal.high - 1e-6));
    return cm;
}

static void aim_depth(struct care_build *b)
{
    struct measured_plan *plan = &b->plan->measured[MEASURE_DEPTH];
    const struct species *species = b->in->species;
    if (b->in->visit->targets.measured[MEASURE_DEPTH].known) {
        measured_aim(b, MEASURE_DEPTH);
        return;
    }
    /* a weak animal has shallow water, whatever is usual */
    if (plan_holds(b->plan, "water-level", "shallow-watched") ||
        !species->least_depth_times.range.known || !b->plan->patient.has_length)
        return;
    plan->applies = true;
    plan->low = derive_depth(b, "water.depth.target_low_cm", &species->least_depth_times);
    plan->high = INFINITY;
    if (species->most_depth_times.range.known)
        plan->high = derive_depth(b, "water.depth.target_high_cm", &species->most_depth_times);
    const struct box *box = &b->in->visit->enclosure.size;
    if (box->known && isfinite(plan->high))
        plan->high = fmax(fmin(plan->high, box->height_cm - build_limit(b, "water-below-rim-cm")),
                          plan->low);
    plan->target_from =
        build_from_sourced(&species->least_depth_times, &species->sources, ORIGIN_SPECIES_SHEET);
}

/* ---- the tests -------------------------------------------------------------------------- */

static bool is_of_water(int measure)
{
    return measures[measure].part == PART_WATER;
}

/* A kit's number that no water has. The pH alone is left out: the poison is worked out from it. */
static void judge_kit(struct care_build *b, enum measure_id measure)
{
    static const struct {
        const char *lowest, *highest;
    } rows[MEASURE_COUNT] = {
        [MEASURE_PH] = {"ph-lowest", "ph-highest"},
        [MEASURE_AMMONIA] = {NULL, "ammonia-highest-mg-l"},
        [MEASURE_NITRITE] = {NULL, "nitrite-highest-mg-l"},
        [MEASURE_NITRATE] = {NULL, "nitrate-highest-mg-l"},
        [MEASURE_CHLORINE] = {NULL, "chlorine-highest-mg-l"},
        [MEASURE_HARDNESS] = {NULL, "hardness-highest-dgh"},
    };
    struct measured_plan *plan = &b->plan->measured[measure];
    const double value = plan->reading;
    bool low = rows[measure].lowest && value < build_limit(b, rows[measure].lowest);
    bool high = rows[measure].highest && value > build_limit(b, rows[measure].highest);
    if (!plan->has_reading || (!low && !high))
        return;
    plan->implausible = measure == MEASURE_PH;
    build_review(
        b, REVIEW_IMPLAUSIBLE,
        plan->implausible ? "water-ph-implausible" : "water-test-implausible",
        b->in->visit->measured[measure].at,
        build_fact(b, "reading", measured_fact_kind(measure), value, value,
                   build_fact_text(b, "measure", FACT_CODE,
                                   arena_format(b->arena, "measure.%s.plain", measures[measure].id),
                                   NULL)));
}

static bool take_tests(struct care_build *b)
{
    bool good = true;
    for (int m = 0; m < MEASURE_COUNT; m++) {
        const enum measure_id measure = (enum measure_id)m;
        const struct sourced_value *usual = &b->in->species->measured[m];
        if (!is_of_water(m))
            continue;
        good = measured_read(b, measure) && good;
        judge_kit(b, measure);
        if (m == MEASURE_DEPTH)
            continue;
        if (b->in->visit->targets.measured[m].known && usual->range.known)
            measured_remark_own(b, measure, usual->range.low, usual->range.high);
        if (measured_aim(b, measure))
            build_spread(b, "water-spread", usual, &b->in->species->sources,
                         measured_fact_kind(measure));
        b->plan->water.applies |= b->plan->measured[m].applies;
    }
    aim_depth(b);
    return good;
}

/* From calm to grave. */
static int gravity(enum verdict verdict)
{
    static const int ranks[] = {
        [VERDICT_UNKNOWN] = 0, [VERDICT_IN_RANGE] = 1, [VERDICT_BORDERLINE] = 2,
        [VERDICT_TOO_LOW] = 3, [VERDICT_TOO_HIGH] = 4,
    };
    return ranks[verdict];
}

static void judge_tests(struct care_build *b)
{
    struct water_plan *plan = &b->plan->water;
    for (int m = 0; m < MEASURE_COUNT; m++) {
        if (!is_of_water(m))
            continue;
        if (m == MEASURE_NH3)
            judge_gas(b);
        else
            measured_judge(b, (enum measure_id)m);
        if (m != MEASURE_NH3)
            measured_derive_change(b, (enum measure_id)m);
        if (m == MEASURE_DEPTH)
            continue;
        if (gravity(b->plan->measured[m].verdict) > gravity(plan->verdict))
            plan->verdict = b->plan->measured[m].verdict;
    }
    bool harmful = shows(b, MEASURE_AMMONIA) || shows(b, MEASURE_NITRITE) ||
                   shows(b, MEASURE_CHLORINE) || shows(b, MEASURE_NH3);
    plan->state = harmful                            ? WATER_HARMFUL
                  : plan->verdict == VERDICT_UNKNOWN ? WATER_UNTESTED
                  : plan->verdict == VERDICT_TOO_HIGH || plan->verdict == VERDICT_TOO_LOW
                      ? WATER_FOULED
                      : WATER_FINE;
}

/* ---- what to change ------------------------------------------------------------------------ */

static void set_usual(struct care_build *b)
{
    struct water_plan *plan = &b->plan->water;
    const struct species *s = b->in->species;
    const struct flag_value *filter = &b->in->visit->water.filter;
    plan->is_unfiltered =
        filter->known && !filter->value && s->unfiltered_change_percent.range.known;
    const struct sourced_value *share =
        plan->is_unfiltered ? &s->unfiltered_change_percent : &s->water_change_percent;
    const struct sourced_value *every =
        plan->is_unfiltered ? &s->unfiltered_change_days : &s->water_change_days;
    if (!share->range.known || !every->range.known)
        return;
    plan->has_usual = true;
    plan->usual_low_percent = share->range.low;
    plan->usual_high_percent = share->range.high;
    plan->usual_low_days = every->range.low;
    plan->usual_high_days = every->range.high;
    plan->usual_from = build_from_sourced(share, &s->sources, ORIGIN_SPECIES_SHEET);
}

/* Per day, so that half as much twice as often is the same. */
static void judge_keepers_change(struct care_build *b)
{
    struct water_plan *plan = &b->plan->water;
    const struct visit_water *water = &b->in->visit->water;
    if (!plan->has_usual || !water->change_share_percent.known)
        return;
    double now = water->change_share_percent.value / water->change_every_days.value;
    double least = plan->usual_low_percent / plan->usual_high_days;
    double most_percent =
        fmax(plan->usual_high_percent, build_limit(b, "water-change-most-percent"));
    plan->change_verdict = VERDICT_IN_RANGE;
    if (now < least * (1 - 1e-9))
        plan->change_verdict = VERDICT_TOO_LOW;
    if (water->change_share_percent.value > most_percent)
        plan->change_verdict = VERDICT_TOO_HIGH;
}

static void set_litres(struct care_build *b)
{
    struct water_plan *plan = &b->plan->water;
    const struct visit_water *water = &b->in->visit->water;
    const struct box *box = &b->in->visit->enclosure.size;
    const struct measured_plan *depth = &b->plan->measured[MEASURE_DEPTH];
    if (water->volume_l.known) {
        plan->volume_l = water->volume_l.value;
    } else if (box->known && depth->has_reading) {
        plan->volume_l = box->length_cm * box->width_cm * depth->reading / 1000;
        build_derive(b, &plan->how,
                     (struct derived){
                         "water.volume_l", plan->volume_l, "l", "length-width-depth", "arithmetic",
                         INPUTS({"length", box->length_cm, "cm"}, {"width", box->width_cm, "cm"},
                                {"depth", depth->reading, "cm"})});
    } else {
        return;
    }
    plan->has_litres = true;
    plan->part_low_l = plan->volume_l * plan->part_low_percent / 100;
    plan->part_high_l = plan->volume_l * plan->part_high_percent / 100;
    struct derivation *made = build_derive(
        b, &plan->how,
        (struct derived){"water.change_l", plan->part_low_l, "l", "share-of-volume", "arithmetic",
                         INPUTS({"volume", plan->volume_l, "l"},
                                {"share-low", plan->part_low_percent, "%"},
                                {"share-high", plan->part_high_percent, "%"})});
    build_band(made, plan->part_low_l, plan->part_high_l);
}

/* Never the whole, of nearly the same warmth, again each day until the tests are clean. */
static void set_part(struct care_build *b)
{
    struct water_plan *plan = &b->plan->water;
    struct ends share = limits_of(b, "water-part-share-percent");
    plan->part_low_percent = share.low;
    plan->part_high_percent = share.high;
    plan->part_apart_c = build_limit(b, "water-part-apart-c");
    plan->part_every_days = build_limit(b, "water-part-every-days");
    plan->part_now =
        plan->lives_in_it && (plan->state == WATER_HARMFUL || shows(b, MEASURE_NITRATE) ||
                              b->plan->measured[MEASURE_NH3].verdict == VERDICT_BORDERLINE);
    plan->retest = date_add_days(b->plan->on, (long)build_limit(b, "water-retest-days"));
    set_litres(b);
}

/* Too warm is cooled in steps, and only after a change at the same warmth. */
static void set_cooling(struct care_build *b)
{
    struct water_plan *plan = &b->plan->water;
    const struct measured_plan *warmth = &b->plan->measured[MEASURE_WATER];
    plan->cool_c_hour = build_limit(b, "water-cooling-c-per-hour");
    plan->cool_c_day = build_limit(b, "water-cooling-c-per-day");
    plan->cool_down = warmth->verdict == VERDICT_TOO_HIGH;
    if (!plan->cool_down)
        return;
    plan->cool_days = ceil(-warmth->change / plan->cool_c_day);
    plan->cool_tonight_c = fmax(warmth->high - warmth->change - plan->cool_c_day, warmth->low);
    build_derive(b, &plan->how,
                 (struct derived){
                     "water.cooling_days", plan->cool_days, "d", "steps-of-a-day", "arithmetic",
                     INPUTS({"too-warm", -warmth->change, "K"}, {"step", plan->cool_c_day, "K"})});
}

bool water_plan(struct care_build *b)
{
    int habit = b->in->species->habit.value;
    b->plan->water.lives_in_it = habit == HABIT_AQUATIC || habit == HABIT_SEMI_AQUATIC;
    if (!take_tests(b))
        return false;
    set_gas(b);
    judge_tests(b);
    set_usual(b);
    judge_keepers_change(b);
    set_part(b);
    set_cooling(b);
    if (b->plan->water.applies && b->plan->water.lives_in_it &&
        b->plan->water.state == WATER_UNTESTED)
        build_review(b, REVIEW_MISSING, "water-untested", (struct mark){0}, NULL);
    return true;
}
