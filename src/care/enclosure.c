/* The least box for the animal now and when grown, and how far today's falls short. */
#include "care/feeding.h"

#include <math.h>

/* A minimum is said in whole centimetres, rounded up: a third of 120 cm, written as 0.333, is 40.
 */
static double whole_cm(double cm)
{
    return ceil(cm - 1e-6);
}

struct sides {
    double length_cm, width_cm, height_cm;
};

static double side(const struct sourced_value *times, double animal_cm)
{
    return times->range.known ? whole_cm(times->range.low * animal_cm) : 0;
}

/* What is added to the height, such as the air over a turtle's water. */
static double plus_cm(const struct species *s)
{
    return s->enclosure_height_plus_cm.range.known ? s->enclosure_height_plus_cm.range.low : 0;
}

static double height(const struct species *s, double animal_cm)
{
    const struct sourced_value *times = &s->enclosure_height_times;
    return times->range.known ? whole_cm(times->range.low * animal_cm + plus_cm(s)) : 0;
}

/* The longer floor side is the length, whichever way the box stands. */
static struct sides sorted(struct sides box)
{
    if (box.width_cm <= box.length_cm)
        return box;
    return (struct sides){box.width_cm, box.length_cm, box.height_cm};
}

static struct sides sides_for(const struct species *s, double animal_cm)
{
    return sorted((struct sides){side(&s->enclosure_length_times, animal_cm),
                                 side(&s->enclosure_width_times, animal_cm), height(s, animal_cm)});
}

static struct sides larger(struct sides one, struct sides other)
{
    return (struct sides){fmax(one.length_cm, other.length_cm), fmax(one.width_cm, other.width_cm),
                          fmax(one.height_cm, other.height_cm)};
}

static struct sides least_of(const struct species *s)
{
    const struct box *least = &s->enclosure_least;
    if (!least->known)
        return (struct sides){0};
    return sorted((struct sides){least->length_cm, least->width_cm, least->height_cm});
}

static void derive_side(struct care_build *b, const char *what, const struct sourced_value *times,
                        double animal_cm)
{
    if (!times->range.known)
        return;
    struct ends animal = build_length_cm(b, animal_cm);
    build_band(
        build_derive(
            b, &b->plan->enclosure.how,
            (struct derived){
                what, side(times, animal_cm), "cm", "multiple-of-length",
                build_from_sourced(times, &b->in->species->sources, ORIGIN_SPECIES_SHEET).source,
                INPUTS({"animal-length", animal_cm, "cm"}, {"times", times->range.low, ""},
                       {"tape-error", build_limit(b, "length-reading-error-percent"), "%"})}),
        side(times, animal.low), side(times, animal.high));
}

static void derive_height(struct care_build *b, double animal_cm)
{
    static const char what[] = "enclosure.minimum_cm.height";
    const struct species *s = b->in->species;
    const struct sourced_value *times = &s->enclosure_height_times;
    if (plus_cm(s) == 0) {
        derive_side(b, what, times, animal_cm);
        return;
    }
    struct ends animal = build_length_cm(b, animal_cm);
    build_band(build_derive(b, &b->plan->enclosure.how,
                            (struct derived){
                                what, height(s, animal_cm), "cm", "multiple-of-length-plus",
                                build_from_sourced(times, &s->sources, ORIGIN_SPECIES_SHEET).source,
                                INPUTS({"animal-length", animal_cm, "cm"},
                                       {"times", times->range.low, ""}, {"plus", plus_cm(s), "cm"},
                                       {"tape-error",
                                        build_limit(b, "length-reading-error-percent"), "%"})}),
               height(s, animal.low), height(s, animal.high));
}

static void derive_sides(struct care_build *b, double animal_cm)
{
    const struct species *s = b->in->species;
    derive_side(b, "enclosure.minimum_cm.length", &s->enclosure_length_times, animal_cm);
    derive_side(b, "enclosure.minimum_cm.width", &s->enclosure_width_times, animal_cm);
    derive_height(b, animal_cm);
}

/* For a grown animal; one that is longer than its kind needs its own. */
static void plan_grown(struct care_build *b, double animal_cm)
{
    const struct species *s = b->in->species;
    struct enclosure_plan *e = &b->plan->enclosure;
    double adult_cm = s->adult_length_cm.range.high;
    struct sides box = larger(sides_for(s, fmax(adult_cm, animal_cm)), least_of(s));
    e->has_grown = box.length_cm > 0 && box.width_cm > 0;
    e->grown_length_cm = box.length_cm;
    e->grown_width_cm = box.width_cm;
    e->grown_height_cm = box.height_cm;
}

/* For the animal now: by its own length; the least box holds for a grown one. A side for which
 * there is no multiple is that of the grown animal's box, but a young one is asked for no height
 * of the grown (a tortoise of 9 cm needs no walls of a metre). A young animal whose length is
 * unknown gets no number. */
static void plan_now(struct care_build *b, double animal_cm)
{
    const struct species *s = b->in->species;
    struct enclosure_plan *e = &b->plan->enclosure;
    bool by_length = animal_cm > 0 && s->enclosure_length_times.range.known;
    bool young = feeding_is_young(b);
    if (!e->has_grown || (young && !by_length))
        return;
    struct sides box = {e->grown_length_cm, e->grown_width_cm, e->grown_height_cm};
    if (by_length) {
        struct sides own = sides_for(s, animal_cm);
        if (!young)
            own = larger(own, least_of(s));
        box = (struct sides){own.length_cm > 0 ? own.length_cm : box.length_cm,
                             own.width_cm > 0 ? own.width_cm : box.width_cm,
                             own.height_cm > 0 || young ? own.height_cm : box.height_cm};
        derive_sides(b, animal_cm);
    }
    e->known = true;
    e->least_length_cm = box.length_cm;
    e->least_width_cm = box.width_cm;
    e->least_height_cm = box.height_cm;
}

/* The floor of one grows with those that share it; a box of the same shape has it. */
static void widen_for_company(struct care_build *b)
{
    struct enclosure_plan *e = &b->plan->enclosure;
    const struct company_plan *company = &e->company;
    if (!e->known || !company->has_floor || company->floor_times <= 1)
        return;
    double length_cm = e->least_length_cm, width_cm = e->least_width_cm;
    e->floor_cm2 = length_cm * width_cm * company->floor_times;
    e->least_length_cm = whole_cm(length_cm * sqrt(company->floor_times));
    e->least_width_cm = whole_cm(width_cm * sqrt(company->floor_times));
    struct derivation *made =
        build_derive(b, &e->how,
                     (struct derived){"enclosure.floor_cm2", e->floor_cm2, "cm2",
                                      "floor-for-company", company->floor_from.source,
                                      INPUTS({"length", length_cm, "cm"}, {"width", width_cm, "cm"},
                                             {"times", company->floor_times, ""})});
    build_band(made, e->floor_cm2, e->floor_cm2);
}

/* A box of another shape serves a company as well, if it has the floor. */
static bool has_floor(const struct enclosure_plan *e, const struct sides *box)
{
    double shape = e->floor_cm2 > 0 ? sqrt(e->company.floor_times) : 1;
    return e->floor_cm2 > 0 && box->length_cm * box->width_cm >= e->floor_cm2 &&
           box->length_cm >= e->least_length_cm / shape - 1 &&
           box->width_cm >= e->least_width_cm / shape - 1;
}

/* A side that follows from the animal's length is no finer than the tape along the animal. */
static bool is_short(const struct care_build *b, double short_cm, double least_cm, double own_cm)
{
    return short_cm > (own_cm == least_cm ? least_cm - build_length_cm(b, least_cm).low : 0);
}

static enum verdict verdict_of(const struct care_build *b, const struct enclosure_plan *e)
{
    const struct sides own = sides_for(b->in->species, b->plan->patient.length_cm);
    if (e->short_length_cm <= 0 && e->short_width_cm <= 0 && e->short_height_cm <= 0)
        return VERDICT_IN_RANGE;
    bool is_small = is_short(b, e->short_length_cm, e->least_length_cm, own.length_cm) ||
                    is_short(b, e->short_width_cm, e->least_width_cm, own.width_cm) ||
                    is_short(b, e->short_height_cm, e->least_height_cm, own.height_cm);
    return is_small ? VERDICT_TOO_LOW : VERDICT_BORDERLINE;
}

static void want(struct enclosure_plan *e, const struct sides *box)
{
    bool keeps = box && e->verdict == VERDICT_TOO_LOW;
    e->wanted_length_cm = keeps && e->short_length_cm <= 0 ? box->length_cm : e->least_length_cm;
    e->wanted_width_cm = keeps && e->short_width_cm <= 0 ? box->width_cm : e->least_width_cm;
    e->wanted_height_cm = keeps && e->short_height_cm <= 0 ? box->height_cm : e->least_height_cm;
}

static void compare(struct care_build *b)
{
    struct enclosure_plan *e = &b->plan->enclosure;
    const struct box *size = &b->in->visit->enclosure.size;
    want(e, NULL);
    if (!size->known)
        return;
    struct sides box = sorted((struct sides){size->length_cm, size->width_cm, size->height_cm});
    if (!e->known)
        return;
    e->short_length_cm = fmax(0, e->least_length_cm - box.length_cm);
    e->short_width_cm = fmax(0, e->least_width_cm - box.width_cm);
    e->short_height_cm = fmax(0, e->least_height_cm - box.height_cm);
    if (has_floor(e, &box))
        e->short_length_cm = e->short_width_cm = 0;
    e->verdict = verdict_of(b, e);
    want(e, &box);
}

static void plan_source(struct care_build *b)
{
    const struct species *s = b->in->species;
    struct enclosure_plan *e = &b->plan->enclosure;
    if (s->enclosure_length_times.range.known) {
        e->from = build_from_sourced(&s->enclosure_length_times, &s->sources, ORIGIN_SPECIES_SHEET);
        build_spread(b, "enclosure-spread", &s->enclosure_length_times, &s->sources, FACT_RATIO);
    } else if (s->enclosure_least.known && s->enclosure_least_source.text) {
        e->from = (struct provenance){
            .origin = ORIGIN_SPECIES_SHEET,
            .source = named_text_find(&s->sources, s->enclosure_least_source.text),
            .trust = (enum trust)s->enclosure_least_trust.value,
            .confirmed = build_confirmed(s->enclosure_least_confirmed),
        };
    }
}

/* Is what is recorded of its heat all on or under the floor? */
static bool is_heated_below(const struct list *heat)
{
    size_t below = 0, other = 0;
    for (size_t i = 0; i < heat->count; i++) {
        int kind = LIST_AT(*heat, struct visit_heat, i)->kind.value;
        bool is_low = kind == HEAT_MAT || kind == HEAT_CABLE || kind == HEAT_HOT_ROCK;
        below += is_low;
        other += !is_low && kind != HEAT_NONE;
    }
    return below > 0 && other == 0;
}

/* The box as it is. */
static void plan_size(struct care_build *b)
{
    const struct visit_enclosure *box = &b->in->visit->enclosure;
    struct enclosure_plan *e = &b->plan->enclosure;
    e->has_size = box->size.known;
    e->length_cm = box->size.length_cm;
    e->width_cm = box->size.width_cm;
    e->height_cm = box->size.height_cm;
    const struct lying_plan *lying = &b->plan->lying;
    e->platform_height_cm = lying->low ? lying->above_floor_cm : box->platform_height_cm.value;
    e->heated_below = is_heated_below(&box->heat);
    e->back_height_cm = box->back_height_cm.value;
    e->is_open = box->lid.known && box->lid.value == LID_OPEN;
    e->has_lamp = box->lamp.kind.known;
    e->lamp_heats = visit_has_mercury_lamp(box);
    bool hangs = box->lamp.height_cm.known && (!lying->low || lying->has_lower_by);
    e->lamp_height_cm = hangs ? box->lamp.height_cm.value + lying->lower_by_cm : 0;
    e->tube_length_cm = box->lamp.tube_length_cm.known ? box->lamp.tube_length_cm.value : 0;
}

static int said(const struct flag_value *flag)
{
    return flag->known ? flag->value : -1;
}

/* What lies and stands in it. Hides are asked for where a row of the reference values fits. */
static void plan_furnishing(struct care_build *b)
{
    const struct visit_enclosure *box = &b->in->visit->enclosure;
    struct enclosure_plan *e = &b->plan->enclosure;
    const struct whom_animal animal = build_animal(b);
    e->substrate =
        box->substrate.known ? bind_choice_word(substrate_choices, box->substrate.value) : NULL;
    e->shade = said(&box->shade);
    e->water_dish = said(&box->water_dish);
    e->has_hides = box->hides.known;
    e->hides = box->hides.value;
    for (size_t i = 0; i < b->in->reference->hides.count && !e->has_hides_wanted; i++) {
        const struct hides_reference *one =
            LIST_AT(b->in->reference->hides, struct hides_reference, i);
        if (b->in->species->is_unlisted || !whom_fits(&one->whom, &animal))
            continue;
        e->has_hides_wanted = true;
        e->hides_wanted = one->least.range.low;
        e->hides_from =
            build_from_sourced(&one->least, &b->in->reference->sources, ORIGIN_REFERENCE);
    }
    e->hides_state = !e->has_hides_wanted          ? HIDES_NOT_ASKED
                     : !e->has_hides               ? HIDES_UNKNOWN
                     : e->hides >= e->hides_wanted ? HIDES_ENOUGH
                     : e->hides < 1                ? HIDES_NONE
                                                   : HIDES_TOO_FEW;
}

/* Standing on the soil she is lifted to the lamp by more than by her platform: who signs says where
 * it goes. A platform that the record does not name counts as none. */
static void review_nest(struct care_build *b)
{
    const double hangs_cm = b->plan->uvb.hangs_cm;
    const double on_soil_cm = hangs_cm + b->in->visit->enclosure.platform_height_cm.value -
                              b->plan->enclosure.nest_high_cm;
    if (hangs_cm <= 0 || on_soil_cm >= hangs_cm)
        return;
    const double left_cm = fmax(on_soil_cm, 0);
    struct plan_fact *facts = build_fact(b, "hangs", FACT_LENGTH, hangs_cm, hangs_cm, NULL);
    build_review(b, REVIEW_REMARK, "nest-near-lamp", b->in->visit->enclosure.lamp.height_cm.at,
                 build_fact(b, "left", FACT_LENGTH, left_cm, left_cm, facts));
}

/* What may climb no higher than its own length climbs into no higher nest: the ground is no deeper
 * than that, and who signs is told where the species digs deeper. */
static void bound_nest(struct care_build *b)
{
    struct enclosure_plan *e = &b->plan->enclosure;
    const double limit_cm = b->plan->patient.length_cm;
    if (!b->plan->lying.own_length)
        return;
    e->has_nest = b->plan->patient.has_length;
    e->nest_rim_cm = e->has_nest ? limit_cm : 0;
    if (e->has_nest && e->nest_low_cm > limit_cm) {
        struct plan_fact *facts =
            build_fact(b, "depth", FACT_LENGTH, e->nest_low_cm, e->nest_high_cm, NULL);
        build_review(b, REVIEW_REMARK, "nest-shallow", (struct mark){0},
                     build_fact(b, "rim", FACT_LENGTH, limit_cm, limit_cm, facts));
    }
    e->nest_low_cm = fmin(e->nest_low_cm, limit_cm);
    e->nest_high_cm = fmin(e->nest_high_cm, limit_cm);
}

static void plan_nest(struct care_build *b)
{
    const struct sourced_value *depth = &b->in->species->nest_depth_cm;
    struct enclosure_plan *e = &b->plan->enclosure;
    e->has_nest = depth->range.known && (plan_holds(b->plan, "nest", "prepare") ||
                                         plan_holds(b->plan, "nest", "needed-now"));
    if (!e->has_nest)
        return;
    e->nest_low_cm = depth->range.low;
    e->nest_high_cm = depth->range.high;
    e->nest_from = build_from_sourced(depth, &b->in->species->sources, ORIGIN_SPECIES_SHEET);
    bound_nest(b);
    if (e->has_nest)
        review_nest(b);
}

bool enclosure_plan(struct care_build *b)
{
    double animal_cm = b->plan->patient.length_cm;
    plan_grown(b, animal_cm);
    plan_now(b, animal_cm);
    plan_source(b);
    plan_size(b);
    plan_furnishing(b);
    plan_nest(b);
    widen_for_company(b);
    compare(b);
    return true;
}
