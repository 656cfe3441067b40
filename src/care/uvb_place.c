/* How high the lamp hangs: distance that gives the target, what stands in its way, nearest and
 * farthest. */
#include "care/uvb.h"

#include "care/measured.h"
#include "care/ultraviolet.h"

#include <math.h>
#include <string.h>

#define INVERSE_SQUARE "inverse-square law"
#define KEITZ                                                                                      \
    "Keitz 1971, Light Calculations and Measurements; IUVA lamp protocol, Lawal et al. 2017"
#define BISECTION_ERROR 1e-4 /* of a UV index, from the distance's own tolerance */
#define OPEN_AREA "open area of a woven mesh, as in woven wire tables"

/* Everything that the distances follow from. One lamp; two where a tube's length is not
 * known: the same reading as a point and as an endless line, with the truth between. */
struct placing {
    struct uv_source lamps[2];
    size_t lamp_count;
    double measured_uvi;    /* as read, before any mesh */
    double mesh_share;      /* of it, below the mesh that lies between */
    double formula_cm;      /* nearer no formula holds */
    double near_cm, far_cm; /* what formula and reading support */
    double offset_cm;
    double mesh_cm;     /* nearer the mesh is in the way; 0: it is not */
    bool is_below_mesh; /* the lamp is taken into the box */
    double low_uvi, aim_uvi, ceiling_uvi;
    const char *formula, *source;
};

static const struct visit_lamp *lamp_of(const struct care_build *b)
{
    return &b->in->visit->enclosure.lamp;
}

static struct plan_fact *length_fact(struct care_build *b, const char *name, double low,
                                     double high, struct plan_fact *next)
{
    return build_fact(b, name, FACT_LENGTH, low, high, next);
}

/* What the animal lies on, above the floor. */
static double place_cm(const struct care_build *b)
{
    const struct lying_plan *lying = &b->plan->lying;
    return lying->low ? lying->above_floor_cm : b->in->visit->enclosure.platform_height_cm.value;
}

static bool is_place_known(const struct care_build *b)
{
    return b->plan->lying.low ? b->plan->lying.known
                              : b->in->visit->enclosure.platform_height_cm.known;
}

/* From the lamp, as it hangs, to the back where it lies now. */
static bool find_height(const struct care_build *b, double *height_cm)
{
    const struct lying_plan *lying = &b->plan->lying;
    if (!lamp_of(b)->height_cm.known || (lying->low && !lying->has_lower_by))
        return false;
    *height_cm = lamp_of(b)->height_cm.value + (lying->low ? lying->lower_by_cm : 0);
    return true;
}

static struct plan_fact *uvi_fact(struct care_build *b, const char *name, double uvi,
                                  struct plan_fact *next)
{
    return build_fact(b, name, FACT_UVI, uvi, uvi, next);
}

/* ---- from the reading to the lamp -------------------------------------------------- */

/* Oblique light, dirt and rust lose more than the open area says; a share that was measured is
 * two readings. */
static double mesh_error(const struct care_build *b)
{
    return build_limit(b, "mesh-share-error-percent") / 100;
}

static void derive_mesh(struct care_build *b, struct derivation *made)
{
    build_band(made, made->value * (1 - mesh_error(b)), fmin(made->value * (1 + mesh_error(b)), 1));
}

/* Of the light that is worked out: the meter's and, where one lies between, the mesh's, as two
 * errors that know nothing of each other. */
static double light_error(const struct care_build *b, const struct placing *p)
{
    double meter = build_limit(b, "uv-reading-error-percent") / 100;
    return p->mesh_share < 1 ? hypot(meter, mesh_error(b)) : meter;
}

static double mesh_share(struct care_build *b)
{
    const struct visit_lamp *lamp = lamp_of(b);
    const struct visit_enclosure *box = &b->in->visit->enclosure;
    struct derivations *how = &b->plan->uvb.how;
    double share = 1;
    if (lamp->measured.through_mesh.known && lamp->measured.through_mesh.value)
        return 1;
    if (lamp->mesh_loss_percent.known) {
        share = fmax(1 - lamp->mesh_loss_percent.value / 100, 0);
        derive_mesh(
            b, build_derive(b, how,
                            (struct derived){
                                "uvb.mesh_share", share, "", "mesh-loss", "as given in the record",
                                INPUTS({"mesh-loss", lamp->mesh_loss_percent.value, "%"},
                                       {"mesh-error", mesh_error(b) * 100, "%"})}));
    } else if (lamp->mesh.wire_cm.known && lamp->mesh.opening_cm.known &&
               uv_mesh_share(lamp->mesh.wire_cm.value, lamp->mesh.opening_cm.value, &share)) {
        derive_mesh(b, build_derive(b, how,
                                    (struct derived){
                                        "uvb.mesh_share", share, "", "mesh-open-area", OPEN_AREA,
                                        INPUTS({"wire", lamp->mesh.wire_cm.value, "cm"},
                                               {"opening", lamp->mesh.opening_cm.value, "cm"},
                                               {"mesh-error", mesh_error(b) * 100, "%"})}));
    } else if (box->lid.known && box->lid.value == LID_MESH) {
        b->plan->uvb.mesh_unknown = true;
        build_review(b, REVIEW_MISSING, "mesh-loss-unknown", lamp->at, NULL);
    }
    return share;
}

static void set_lamps(struct care_build *b, struct placing *p)
{
    const struct visit_lamp *lamp = lamp_of(b);
    struct uv_source source = {UV_POINT, 0, p->measured_uvi * p->mesh_share,
                               lamp->measured.at_cm.value};
    p->lamp_count = 1;
    p->formula = "inverse-square";
    p->source = INVERSE_SQUARE;
    p->lamps[0] = source;
    if (lamp->kind.value == LAMP_TUBE) {
        p->source = KEITZ;
        if (lamp->tube_length_cm.known) {
            p->lamps[0].shape = UV_TUBE;
            p->lamps[0].tube_length_cm = lamp->tube_length_cm.value;
            p->formula = p->offset_cm > 0 ? "keitz-tube-off-middle" : "keitz-tube";
        } else {
            p->lamps[1] = source;
            p->lamps[1].shape = UV_LINE;
            p->lamp_count = 2;
            p->formula = "tube-of-unknown-length";
            build_review(b, REVIEW_MISSING, "tube-length-unknown", lamp->at, NULL);
        }
    } else if (p->offset_cm > 0) {
        build_review(b, REVIEW_REMARK, "beam-off-middle", lamp->offset_cm.at,
                     length_fact(b, "offset", p->offset_cm, p->offset_cm, NULL));
    }
    if (lamp->kind.value == LAMP_LED)
        build_review(b, REVIEW_REMARK, "led-lamp-as-point", lamp->kind.at, NULL);
}

/* Where no formula holds, nearer than a reading that is too strong is too strong. */
static void judge_nearer(struct care_build *b, double uvi, double at_cm)
{
    struct measured_plan *light = &b->plan->measured[MEASURE_UVB];
    const struct visit_lamp *lamp = lamp_of(b);
    bool beside = lamp->offset_cm.known && lamp->offset_cm.value != 0;
    double height_cm = 0;
    if (find_height(b, &height_cm) && height_cm <= at_cm && !beside && uvi > light->high)
        light->verdict = VERDICT_TOO_HIGH;
}

/* What was read above a mesh of which nothing is known says little of what is below: where even the
 * share that the closest usual mesh lets through is too strong, the lamp is. Where nobody wrote on
 * which side it was read, all of it counts until that is known. */
static bool is_behind_mesh(struct care_build *b, double uvi, double at_cm)
{
    if (!b->plan->uvb.mesh_unknown)
        return false;
    bool is_above = lamp_of(b)->measured.through_mesh.known;
    judge_nearer(b, is_above ? uvi * build_limit(b, "mesh-least-share-percent") / 100 : uvi, at_cm);
    return true;
}

static enum uvb_distance_why read_lamp(struct care_build *b, struct placing *p)
{
    const struct visit_lamp *lamp = lamp_of(b);
    double most = build_limit(b, "uv-reading-most");
    if (!lamp->measured.uvi.known || !lamp->measured.at_cm.known) {
        build_review(b, REVIEW_MISSING, "uvb-unmeasured", lamp->at, NULL);
        return DISTANCE_NO_READING;
    }
    p->measured_uvi = lamp->measured.uvi.value;
    if (!(p->measured_uvi >= 0) || p->measured_uvi > most) {
        build_review(b, REVIEW_IMPLAUSIBLE, "uvi-implausible", lamp->measured.uvi.at,
                     uvi_fact(b, "reading", p->measured_uvi, uvi_fact(b, "most", most, NULL)));
        return DISTANCE_NO_READING;
    }
    double at_cm = lamp->measured.at_cm.value;
    bool is_tube = lamp->kind.value == LAMP_TUBE;
    double reach = build_limit(b, is_tube ? "tube-reach-times" : "point-lamp-reach-times");
    double formula_nearest_cm =
        build_limit(b, is_tube ? "tube-nearest-cm" : "point-lamp-nearest-cm");
    p->formula_cm = formula_nearest_cm;
    p->mesh_share = b->plan->uvb.through_mesh_share = mesh_share(b);
    if (is_behind_mesh(b, p->measured_uvi, at_cm))
        return DISTANCE_NO_READING;
    if (p->measured_uvi * b->plan->uvb.through_mesh_share <= 0) {
        build_review(b, REVIEW_IMPLAUSIBLE, "uvb-no-light", lamp->measured.uvi.at, NULL);
        return DISTANCE_OUT_OF_REACH;
    }
    if (at_cm < formula_nearest_cm) {
        judge_nearer(b, p->measured_uvi * b->plan->uvb.through_mesh_share, at_cm);
        build_review(
            b, REVIEW_REMARK, "uvb-read-too-near", lamp->measured.at_cm.at,
            length_fact(b, "measured-at", at_cm, at_cm,
                        length_fact(b, "nearest", formula_nearest_cm, formula_nearest_cm, NULL)));
        return DISTANCE_OUT_OF_REACH;
    }
    p->near_cm = fmax(formula_nearest_cm, at_cm / reach);
    p->far_cm = at_cm * reach;
    p->offset_cm = lamp->offset_cm.known ? fabs(lamp->offset_cm.value) : 0;
    set_lamps(b, p);
    return DISTANCE_KNOWN;
}

static void set_aims(const struct care_build *b, struct placing *p)
{
    const struct uvb_plan *plan = &b->plan->uvb;
    const struct measured_plan *light = &b->plan->measured[MEASURE_UVB];
    p->low_uvi = light->low;
    p->aim_uvi = plan->aim_uvi;
    p->ceiling_uvi = light->high;
}

/* ---- light at a place, place for a light ------------------------------------------------ */

static double light_at(const struct placing *p, double distance_cm, double beside_cm, bool most)
{
    double light = 0;
    for (size_t i = 0; i < p->lamp_count; i++) {
        double one = 0;
        uv_index_at(&p->lamps[i], distance_cm, beside_cm, &one);
        light = i == 0 ? one : most ? fmax(light, one) : fmin(light, one);
    }
    return light;
}

/* Kept inside what is supported: the far end where even that is bright enough, the near end where
 * nothing is. */
static double place_for(const struct placing *p, size_t lamp, double uvi, double beside_cm)
{
    double distance_cm = p->near_cm, at_far = 0;
    uv_index_at(&p->lamps[lamp], p->far_cm, beside_cm, &at_far);
    if (at_far >= uvi)
        return p->far_cm;
    uv_distance_for(&p->lamps[lamp], uvi, beside_cm, p->near_cm, p->far_cm, &distance_cm);
    return distance_cm;
}

static double nearest_for(const struct placing *p, double uvi)
{
    double nearest = p->near_cm;
    for (size_t i = 0; i < p->lamp_count; i++)
        nearest = fmax(nearest, place_for(p, i, uvi, 0));
    return nearest;
}

static double farthest_for(const struct placing *p, double uvi)
{
    double farthest = p->far_cm;
    for (size_t i = 0; i < p->lamp_count; i++)
        farthest = fmin(farthest, place_for(p, i, uvi, p->offset_cm));
    return farthest;
}

static double middle_for(const struct placing *p, double uvi)
{
    double first = place_for(p, 0, uvi, p->offset_cm);
    return p->lamp_count == 1 ? first : sqrt(first * place_for(p, 1, uvi, p->offset_cm));
}

static struct derivation *derive(struct care_build *b, const struct placing *p, const char *what,
                                 double value, const char *unit, struct plan_input aim)
{
    const struct uv_source *lamp = &p->lamps[0];
    const struct plan_input inputs[] = {
        aim,
        {"uvi-measured", p->measured_uvi, "UVI"},
        {"measured-at", lamp->reading_cm, "cm"},
        {"mesh-share", p->mesh_share, ""},
        {"offset", p->offset_cm, "cm"},
        {"error", light_error(b, p) * 100, "%"},
        {"tube-length", lamp->tube_length_cm, "cm"},
    };
    size_t count = sizeof inputs / sizeof *inputs - (lamp->shape == UV_TUBE ? 0 : 1);
    return build_derive(b, &b->plan->uvb.how,
                        (struct derived){what, value, unit, p->formula, p->source, inputs, count});
}

/* A meter that reads low hides a stronger lamp: the distance belongs farther out. Where the
 * formula's or the reading's range holds the distance, the formula says so. */
static void derive_distance(struct care_build *b, const struct placing *p, const char *what,
                            double distance_cm, double uvi,
                            double (*distance_for)(const struct placing *, double))
{
    double error = light_error(b, p);
    struct derivation *made =
        derive(b, p, what, distance_cm, "cm", (struct plan_input){"uvi-wanted", uvi, "UVI"});
    if (distance_cm == p->near_cm || distance_cm == p->far_cm ||
        distance_cm != distance_for(p, uvi))
        made->formula = "held-in-range";
    build_band(made, fmin(distance_for(p, uvi / (1 - error)), distance_cm),
               fmax(distance_for(p, uvi / (1 + error)), distance_cm));
}

/* ---- now -------------------------------------------------------------------------------- */

/* Outside the supported range only what must be true is said: nearer is brighter still. */
static void judge_outside(struct care_build *b, const struct placing *p, double height_cm)
{
    struct measured_plan *light = &b->plan->measured[MEASURE_UVB];
    const struct quantity *height = &lamp_of(b)->height_cm;
    if (height_cm < p->near_cm && p->offset_cm == 0 &&
        light_at(p, p->near_cm, 0, false) >= light->high)
        light->verdict = VERDICT_TOO_HIGH;
    if (height_cm > p->far_cm && light_at(p, p->far_cm, p->offset_cm, true) < light->low)
        light->verdict = VERDICT_TOO_LOW;
    build_review(b, REVIEW_MISSING, "lamp-height-unsupported", height->at,
                 length_fact(b, "height", height_cm, height_cm,
                             length_fact(b, "supported", p->near_cm, p->far_cm, NULL)));
}

static void judge_now(struct care_build *b, const struct placing *p)
{
    struct uvb_plan *plan = &b->plan->uvb;
    struct measured_plan *light = &b->plan->measured[MEASURE_UVB];
    double height_cm = 0;
    if (!lamp_of(b)->height_cm.known)
        build_review(b, REVIEW_MISSING, "lamp-height-unknown", lamp_of(b)->at, NULL);
    if (!find_height(b, &height_cm))
        return;
    if (height_cm < p->near_cm || height_cm > p->far_cm) {
        judge_outside(b, p, height_cm);
        return;
    }
    double most = light_at(p, height_cm, p->offset_cm, true);
    double least = light_at(p, height_cm, p->offset_cm, false);
    double error = light_error(b, p);
    enum verdict verdict = build_verdict(most, light->low, light->high);
    light->has_reading = true;
    light->reading = light->judged = most;
    light->judged_low = least * (1 - error);
    light->judged_high = most * (1 + error);
    light->most = plan->most_uvi > 0 ? fmax(plan->most_uvi, light->high) : INFINITY;
    if (verdict == build_verdict(least, light->low, light->high))
        measured_judge(b, MEASURE_UVB);
    struct derivation *made =
        derive(b, p, "uvb.uvi_now", most, "UVI", (struct plan_input){"height", height_cm, "cm"});
    build_band(made, least * (1 - error), most * (1 + error));
    double brightest = light_at(p, height_cm, 0, true);
    if (plan->most_uvi > 0 && brightest > plan->most_uvi)
        build_review(b, REVIEW_REMARK, "uvb-above-most", lamp_of(b)->height_cm.at,
                     uvi_fact(b, "now", brightest, uvi_fact(b, "most", plan->most_uvi, NULL)));
}

/* ---- where it should hang ------------------------------------------------------------- */

/* From the animal's back to the lid, as far as the record tells; a height that it does not give
 * counts as nothing. */
static double below_lid_cm(const struct care_build *b)
{
    const struct visit_enclosure *box = &b->in->visit->enclosure;
    return box->size.known ? box->size.height_cm - box->back_height_cm.value - place_cm(b)
                           : INFINITY;
}

/* Where a lamp hangs above the box now, it may go on to; not what is taken below the mesh. */
static double room_cm(const struct care_build *b, const struct placing *p)
{
    double height_cm = 0;
    bool hangs = !p->is_below_mesh && find_height(b, &height_cm);
    return hangs ? fmax(below_lid_cm(b), height_cm) : below_lid_cm(b);
}

static enum uvb_distance_why out_of_reach(struct care_build *b, const struct placing *p,
                                          const char *code, enum uvb_distance_why why)
{
    struct plan_fact *facts = uvi_fact(b, "ceiling", p->ceiling_uvi, NULL);
    facts = build_fact(b, "target", FACT_UVI, b->plan->measured[MEASURE_UVB].low,
                       b->plan->measured[MEASURE_UVB].high, facts);
    facts = build_fact(b, "light", FACT_UVI, light_at(p, p->far_cm, p->offset_cm, false),
                       light_at(p, p->near_cm, 0, true), facts);
    facts = length_fact(b, "supported", p->near_cm, p->far_cm, facts);
    build_review(b, REVIEW_REMARK, code, lamp_of(b)->measured.uvi.at, facts);
    return why;
}

/* Of the lamp only where every place that it may have has been looked at, else of its reading. */
static enum uvb_distance_why why_out_of_reach(const struct care_build *b, const struct placing *p,
                                              const char *reason)
{
    if (strcmp(reason, "uvb-too-strong-here") == 0 && room_cm(b, p) <= p->far_cm)
        return DISTANCE_TOO_STRONG;
    /* a lamp that hangs beside the spot may be strong enough above it */
    if (strcmp(reason, "uvb-too-weak-here") == 0 && p->near_cm <= p->formula_cm &&
        light_at(p, p->near_cm, 0, true) < p->low_uvi)
        return DISTANCE_TOO_WEAK;
    return DISTANCE_OUT_OF_REACH;
}

/* Why no distance serves, as a review code; NULL when one does. A code is sure only when both
 * readings of a tube of unknown length agree. */
static const char *reason_out_of_reach(const struct placing *p, double nearest, double farthest)
{
    size_t strong = 0, weak = 0;
    for (size_t i = 0; i < p->lamp_count; i++) {
        double least = 0, most = 0;
        uv_index_at(&p->lamps[i], p->far_cm, 0, &least);
        uv_index_at(&p->lamps[i], place_for(p, i, p->low_uvi, p->offset_cm), p->offset_cm, &most);
        strong += least > p->ceiling_uvi;
        weak += most < p->low_uvi * (1 - BISECTION_ERROR);
    }
    if (strong == p->lamp_count)
        return "uvb-too-strong-here";
    if (weak == p->lamp_count)
        return "uvb-too-weak-here";
    if (strong == 0 && weak == 0 && nearest <= farthest)
        return NULL;
    return p->lamp_count > 1 ? "uvb-needs-tube-length" : "uvb-off-middle";
}

/* Heights that the record does not give count as nothing: the remark is then an understatement. */
static void remark_above_box(struct care_build *b, double distance_cm)
{
    const struct visit_enclosure *box = &b->in->visit->enclosure;
    double lamp_cm = distance_cm + box->back_height_cm.value + place_cm(b);
    if (!box->size.known || lamp_cm <= box->size.height_cm)
        return;
    struct plan_fact *facts = length_fact(b, "box", box->size.height_cm, box->size.height_cm, NULL);
    build_review(b, REVIEW_REMARK, "lamp-above-box", box->size.at,
                 length_fact(b, "lamp", lamp_cm, lamp_cm, facts));
}

static enum uvb_distance_why set_distances(struct care_build *b, const struct placing *p)
{
    struct uvb_plan *plan = &b->plan->uvb;
    double nearest = fmax(nearest_for(p, p->ceiling_uvi), p->mesh_cm);
    double farthest = farthest_for(p, p->low_uvi);
    const char *reason = reason_out_of_reach(p, nearest, farthest);
    if (reason)
        return out_of_reach(b, p, reason, why_out_of_reach(b, p, reason));
    if (nearest > room_cm(b, p)) {
        remark_above_box(b, nearest);
        return DISTANCE_TOO_STRONG;
    }
    farthest = fmin(farthest, room_cm(b, p));
    plan->nearest_cm = nearest;
    plan->farthest_cm = farthest;
    plan->recommended_cm = fmin(fmax(middle_for(p, p->aim_uvi), nearest), farthest);
    plan->nearest_held_by_formula =
        nearest > p->mesh_cm && light_at(p, p->near_cm, 0, true) <= p->ceiling_uvi;
    derive_distance(b, p, "uvb.distance.recommended_cm", plan->recommended_cm, p->aim_uvi,
                    middle_for);
    derive_distance(b, p, "uvb.distance.nearest_cm", nearest, p->ceiling_uvi, nearest_for);
    derive_distance(b, p, "uvb.distance.farthest_cm", farthest, p->low_uvi, farthest_for);
    if (plan->nearest_held_by_formula)
        build_review(b, REVIEW_REMARK, "uvb-nearest-held", lamp_of(b)->measured.at_cm.at,
                     length_fact(b, "nearest", nearest, nearest, NULL));
    return DISTANCE_KNOWN;
}

static void set_heights(struct care_build *b, const struct placing *p)
{
    struct uvb_plan *plan = &b->plan->uvb;
    const struct measured_plan *light = &b->plan->measured[MEASURE_UVB];
    const struct visit_enclosure *box = &b->in->visit->enclosure;
    double height_cm = 0;
    plan->has_lamp_above_platform = box->back_height_cm.known;
    if (plan->has_lamp_above_platform)
        plan->lamp_above_platform_cm = plan->recommended_cm + box->back_height_cm.value;
    plan->has_lamp_above_floor = plan->has_lamp_above_platform && is_place_known(b);
    if (plan->has_lamp_above_floor)
        plan->lamp_above_floor_cm = plan->lamp_above_platform_cm + place_cm(b);
    remark_above_box(b, plan->recommended_cm);
    plan->has_change = find_height(b, &height_cm);
    if (!plan->has_change)
        return;
    bool good_now = light->verdict == VERDICT_IN_RANGE && !p->is_below_mesh &&
                    light_at(p, height_cm, 0, true) <= light->high;
    plan->change_cm = good_now ? 0 : plan->recommended_cm - height_cm;
}

/* The animal lies on the floor at the other end. */
static void set_shade(struct care_build *b, const struct placing *p)
{
    struct uvb_plan *plan = &b->plan->uvb;
    const struct visit_enclosure *box = &b->in->visit->enclosure;
    if (!box->size.known || p->lamp_count > 1)
        return;
    double length_cm = fmax(box->size.length_cm, box->size.width_cm);
    double beside_cm = length_cm - uvb_lamp_from_end_cm(b, &p->lamps[0]);
    double below_cm = plan->recommended_cm + place_cm(b);
    if (!uv_index_at(&p->lamps[0], below_cm, beside_cm, &plan->shade_uvi))
        return;
    plan->has_shade_uvi = true;
    double error = light_error(b, p);
    const struct plan_input inputs[] = {
        {"below-lamp", below_cm, "cm"},
        {"beside-lamp", beside_cm, "cm"},
        {"uvi-measured", p->measured_uvi, "UVI"},
        {"measured-at", p->lamps[0].reading_cm, "cm"},
        {"mesh-share", p->mesh_share, ""},
        {"error", error * 100, "%"},
        {"tube-length", p->lamps[0].tube_length_cm, "cm"},
    };
    bool is_tube = p->lamps[0].shape == UV_TUBE;
    struct derivation *made = build_derive(
        b, &plan->how,
        (struct derived){"uvb.shade_uvi", plan->shade_uvi, "UVI",
                         is_tube ? "keitz-tube-off-middle" : "inverse-square", p->source, inputs,
                         sizeof inputs / sizeof *inputs - (is_tube ? 0 : 1)});
    /* furniture shades it, and a reflector's beam ends sooner */
    build_band(made, 0, plan->shade_uvi * (1 + error));
    double spot = light_at(p, plan->recommended_cm, p->offset_cm, true);
    if (plan->shade_uvi > spot * build_limit(b, "uv-shade-share-percent") / 100)
        build_review(b, REVIEW_REMARK, "uvb-no-shade-end", lamp_of(b)->at,
                     uvi_fact(b, "shade", plan->shade_uvi, uvi_fact(b, "spot", spot, NULL)));
}

/* The highest perch below the lamp, judged where the lamp will hang once the sheet is followed: a
 * lamp that goes up takes its light with it. */
static void set_perch(struct care_build *b, const struct placing *p)
{
    struct uvb_plan *plan = &b->plan->uvb;
    const struct visit_enclosure *box = &b->in->visit->enclosure;
    /* a high perch is taken out where it must not climb */
    if (!box->perch_cm.known || !box->platform_height_cm.known || !lamp_of(b)->height_cm.known ||
        b->plan->lying.low)
        return;
    double hangs_cm = lamp_of(b)->height_cm.value + plan->change_cm;
    double below_cm = fmax(box->platform_height_cm.value + hangs_cm - box->perch_cm.value, 0);
    plan->perch_below_lamp_cm = below_cm;
    plan->perch = below_cm < plan->nearest_cm ? PERCH_TOO_NEAR : PERCH_FINE;
    if (below_cm < p->near_cm || below_cm > p->far_cm)
        return;
    plan->has_perch_uvi = true;
    plan->perch_uvi = light_at(p, below_cm, 0, true);
    double least = light_at(p, below_cm, 0, false);
    struct placing straight = *p;
    straight.offset_cm = 0;
    if (p->offset_cm > 0 && p->lamps[0].shape == UV_TUBE)
        straight.formula = "keitz-tube";
    struct derivation *made = derive(b, &straight, "uvb.perch_uvi", plan->perch_uvi, "UVI",
                                     (struct plan_input){"height", below_cm, "cm"});
    build_band(made, least * (1 - light_error(b, p)), plan->perch_uvi * (1 + light_error(b, p)));
}

/* Where the record tells all heights; where the lamp hangs well it stays. */
static void set_map(struct care_build *b, const struct placing *p)
{
    const struct uvb_plan *plan = &b->plan->uvb;
    double height_cm = 0;
    if (!plan->has_lamp_above_floor || p->lamp_count > 1)
        return;
    bool stays = plan->has_change && plan->change_cm == 0 && find_height(b, &height_cm);
    double lamp_cm = plan->lamp_above_floor_cm + (stays ? height_cm - plan->recommended_cm : 0);
    uvb_map(b, &(struct uvb_map_from){&p->lamps[0], lamp_cm, p->near_cm, p->far_cm});
}

/* A mesh that the light goes through, as the record tells it. */
static bool has_mesh_between(const struct care_build *b)
{
    const struct flag_value *through = &lamp_of(b)->measured.through_mesh;
    return b->plan->uvb.through_mesh_share < 1 || (through->known && through->value);
}

/* For what lies low a lamp on a mesh may be too far. Taken into the box it loses the mesh, and a
 * reading below the mesh says nothing of that. Above the mesh it comes no nearer than the lid. */
static enum uvb_distance_why take_below_mesh(struct care_build *b, struct placing *p)
{
    const double lid_cm = below_lid_cm(b);
    if (!b->plan->lying.low || !has_mesh_between(b))
        return DISTANCE_KNOWN;
    const enum verdict now = b->plan->measured[MEASURE_UVB].verdict;
    double height_cm = 0;
    bool has_lid = isfinite(lid_cm) && b->plan->lying.known;
    double nearest_cm = has_lid ? lid_cm : INFINITY;
    if (now == VERDICT_IN_RANGE && find_height(b, &height_cm)) /* there at least it may stay */
        nearest_cm = fmin(nearest_cm, height_cm);
    nearest_cm = fmax(nearest_cm, p->near_cm);
    if (nearest_cm <= p->far_cm && light_at(p, nearest_cm, p->offset_cm, false) >= p->low_uvi) {
        p->mesh_cm = nearest_cm;
        return DISTANCE_KNOWN;
    }
    if (!has_lid || now != VERDICT_TOO_LOW || b->plan->uvb.through_mesh_share == 1) {
        build_review(b, REVIEW_MISSING, "low-lamp-behind-mesh", lamp_of(b)->at, NULL);
        return DISTANCE_NO_READING;
    }
    for (size_t i = 0; i < p->lamp_count; i++)
        p->lamps[i].reading_uvi = p->measured_uvi;
    p->mesh_share = 1;
    p->is_below_mesh = b->plan->uvb.below_mesh = true;
    return DISTANCE_KNOWN;
}

enum uvb_distance_why uvb_place_lamp(struct care_build *b)
{
    struct placing p = {0};
    enum uvb_distance_why why = read_lamp(b, &p);
    if (why != DISTANCE_KNOWN)
        return why;
    set_aims(b, &p);
    judge_now(b, &p);
    why = take_below_mesh(b, &p);
    if (why != DISTANCE_KNOWN)
        return why;
    why = set_distances(b, &p);
    if (why != DISTANCE_KNOWN)
        return why;
    set_heights(b, &p);
    set_shade(b, &p);
    set_perch(b, &p);
    set_map(b, &p);
    return DISTANCE_KNOWN;
}
