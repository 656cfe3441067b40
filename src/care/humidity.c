/* The humidity plan: target, today's reading moved along the gradient, what findings change. */
#include "care/heat.h"
#include "care/heating.h"
#include "care/measured.h"
#include "care/moist_air.h"

#include <math.h>
#include <string.h>

#define BUCK "Buck 1981, J. Appl. Meteorol. 20:1527-1532, constants of 1996"
#define WATER "ideal gas, WMO No. 8 Annex 4.B"

/* The air that was read: everything else about it follows. */
struct read_air {
    bool has_temp;
    double temp_c;
    double rh_percent;
    double rh_low_percent, rh_high_percent; /* as sure as the hygrometer is */
};

static const char *zone_word(enum zone zone)
{
    return bind_choice_word(zone_choices, (int)zone);
}

static struct plan_fact *percent_fact(struct care_build *b, const char *name, double low,
                                      double high, struct plan_fact *next)
{
    return build_fact(b, name, FACT_PERCENT, low, high, next);
}

/* ---- the target -------------------------------------------------------------------- */

static struct measured_plan *air_of(struct care_build *b)
{
    return &b->plan->measured[MEASURE_HUMIDITY];
}

static void remark_own_target(struct care_build *b)
{
    const struct band *usual = &b->in->species->measured[MEASURE_HUMIDITY].range;
    const struct band *shed = &b->in->species->humidity_shed_percent.range;
    if (usual->known)
        measured_remark_own(b, MEASURE_HUMIDITY, usual->low,
                            shed->known ? fmax(usual->high, shed->high) : usual->high);
}

static void use_shed_band(struct care_build *b)
{
    struct humidity_plan *plan = &b->plan->humidity;
    struct measured_plan *air = air_of(b);
    const struct sourced_value *shed = &b->in->species->humidity_shed_percent;
    if (!shed->range.known) {
        build_review(b, REVIEW_MISSING, "no-shed-band",
                     b->in->species->measured[MEASURE_HUMIDITY].at, NULL);
        return;
    }
    plan->in_shed_now = true;
    plan->after_low_percent = air->low;
    plan->after_high_percent = air->high;
    air->low = shed->range.low;
    air->high = shed->range.high;
    air->target_from = build_from_sourced(shed, &b->in->species->sources, ORIGIN_FINDING);
    air->target_from.because = build_stance_from(plan_phase_on(b->plan, "humidity", b->plan->on));
    build_spread(b, "humidity-spread", shed, &b->in->species->sources, FACT_PERCENT);
}

/* The lower half, never below the least that the species bears. */
static void use_low_end(struct care_build *b, const char *from)
{
    struct measured_plan *air = air_of(b);
    const struct band *least = &b->in->species->least_humidity_percent.range;
    measured_narrow(b, MEASURE_HUMIDITY, LOWER_HALF, from);
    if (!least->known)
        return;
    air->low = fmax(air->low, least->low);
    air->high = fmax(air->high, air->low);
}

/* What the settled stance makes of the species' band. */
static void follow_stance(struct care_build *b)
{
    const struct stance_phase *phase = plan_phase_on(b->plan, "humidity", b->plan->on);
    const char *from = build_stance_from(phase);
    if (!from)
        return;
    if (strcmp(phase->stance, "shed-band") == 0)
        use_shed_band(b);
    else if (strcmp(phase->stance, "low-end") == 0)
        use_low_end(b, from);
    else if (strcmp(phase->stance, "upper-half") == 0)
        measured_narrow(b, MEASURE_HUMIDITY, UPPER_HALF, from);
    else if (strcmp(phase->stance, "middle") == 0)
        measured_narrow(b, MEASURE_HUMIDITY, MIDDLE_HALF, from);
    else {
        /* the same numbers, but settled by a finding: nothing may raise them */
        air_of(b)->target_from.origin = ORIGIN_FINDING;
        air_of(b)->target_from.because = from;
    }
}

static void set_target(struct care_build *b)
{
    struct humidity_plan *plan = &b->plan->humidity;
    const struct species *species = b->in->species;
    plan->moist_hide = species->moist_hide.value && !plan_holds(b->plan, "damp-hide", "none") &&
                       !plan_holds(b->plan, "damp-hide", "as-written") &&
                       !plan_holds(b->plan, "dryness", "dry-until");
    plan->has_shed_band = species->humidity_shed_percent.range.known;
    plan->shed_low_percent = species->humidity_shed_percent.range.low;
    plan->shed_high_percent = species->humidity_shed_percent.range.high;
    if (b->in->visit->targets.measured[MEASURE_HUMIDITY].known)
        remark_own_target(b);
    if (!measured_aim(b, MEASURE_HUMIDITY))
        return;
    build_spread(b, "humidity-spread", &species->measured[MEASURE_HUMIDITY], &species->sources,
                 FACT_PERCENT);
    follow_stance(b);
}

/* ---- the reading, moved ---------------------------------------------------------------- */

/* A believed reading, else the middle of the target. */
static bool find_temp(const struct care_build *b, enum zone zone, double *temp_c)
{
    const struct measured_plan *plan = &b->plan->measured[zone];
    if (measured_is_usable(plan))
        *temp_c = plan->reading;
    else if (plan->applies)
        *temp_c = (plan->low + plan->high) / 2;
    else
        return false;
    return true;
}

static bool check_reading(struct care_build *b, const struct quantity *reading)
{
    if (!reading->known || (reading->value > 0 && reading->value <= 100))
        return true;
    diag_report_path(b->diag, DIAG_ERROR, "humidity-impossible", reading->at,
                     "enclosure.readings.humidity",
                     "a relative humidity lies above 0 and not above 100 %%");
    return false;
}

static struct read_air read_the_air(struct care_build *b)
{
    struct humidity_plan *plan = &b->plan->humidity;
    const struct visit_readings *read = &b->in->visit->enclosure.readings;
    double error = build_limit(b, "humidity-reading-error-percent");
    const double reading = b->plan->measured[MEASURE_HUMIDITY].reading;
    plan->reading_at =
        read->humidity_at.known ? (enum zone)read->humidity_at.value : ZONE_COOL_SIDE;
    struct read_air air = {
        .rh_percent = reading,
        .rh_low_percent = fmax(reading - error, 0.1),
        .rh_high_percent = fmin(reading + error, 100),
    };
    air.has_temp = find_temp(b, plan->reading_at, &air.temp_c);
    return air;
}

/* The same air at another zone; more than 100 % means it drops water there. */
static void move_to(struct care_build *b, const struct read_air *air, enum zone zone)
{
    struct humidity_plan *plan = &b->plan->humidity;
    double there_c, rh, low, high;
    if (!find_temp(b, zone, &there_c))
        return;
    /* two thermometers, each off its own way; none where the air was not moved */
    double off_c =
        there_c == air->temp_c ? 0 : sqrt(2) * build_limit(b, "temperature-reading-error-c");
    /* nothing is said where either end lies past what the formula holds for */
    if (!moist_air_rh_at(air->temp_c, air->rh_percent, there_c, &rh) ||
        !moist_air_rh_at(air->temp_c, air->rh_low_percent, there_c + off_c, &low) ||
        !moist_air_rh_at(air->temp_c, air->rh_high_percent, there_c - off_c, &high))
        return;
    rh = fmin(rh, 100);
    plan->equivalent[plan->equivalent_count++] =
        (struct humidity_zone){zone, rh, fmin(low, 100), fmin(high, 100)};
    struct derivation *made = build_derive(
        b, &plan->how,
        (struct derived){arena_format(b->arena, "humidity.%s.rh_percent", zone_word(zone)), rh, "%",
                         "constant-vapour-pressure", BUCK,
                         INPUTS({"reading", air->rh_percent, "%"}, {"from", air->temp_c, "C"},
                                {"to", there_c, "C"}, {"step-error", off_c, "K"})});
    build_band(made, fmin(low, 100), fmin(high, 100));
}

static void move_reading(struct care_build *b, const struct read_air *air)
{
    static const enum zone zones[] = {ZONE_BASKING_SURFACE, ZONE_WARM_SIDE, ZONE_COOL_SIDE,
                                      ZONE_NIGHT};
    if (!air->has_temp)
        return;
    for (size_t i = 0; i < sizeof zones / sizeof *zones; i++)
        move_to(b, air, zones[i]);
}

/* As sure as the hygrometer is. What was worked out for a place is shown, but nobody read it there:
 * it has to be measured before anything is changed. */
static void judge_reading(struct care_build *b, const struct read_air *read)
{
    struct humidity_plan *plan = &b->plan->humidity;
    struct measured_plan *of = air_of(b);
    of->judged_low = read->rh_low_percent;
    of->judged_high = read->rh_high_percent;
    if (plan->reading_at == ZONE_COOL_SIDE) {
        measured_judge(b, MEASURE_HUMIDITY);
        return;
    }
    struct plan_fact *facts = NULL;
    for (size_t i = 0; i < plan->equivalent_count; i++) {
        const double there = plan->equivalent[i].rh_percent;
        if (plan->equivalent[i].zone == ZONE_COOL_SIDE)
            facts = percent_fact(b, "cool-side", there, there, NULL);
    }
    const bool moved = facts != NULL;
    facts = percent_fact(b, "reading", of->reading, of->reading, facts);
    facts = build_fact_text(b, "zone", FACT_CODE,
                            arena_format(b->arena, "zone.%s", zone_word(plan->reading_at)), facts);
    build_review(b, REVIEW_REMARK, moved ? "hygrometer-place" : "hygrometer-not-moved",
                 b->in->visit->measured[MEASURE_HUMIDITY].at, facts);
}

/* ---- dew and walls --------------------------------------------------------------------- */

static void set_dew_point(struct care_build *b, const struct read_air *air)
{
    struct humidity_plan *plan = &b->plan->humidity;
    double low, high;
    if (!air->has_temp || !moist_air_dew_point_c(air->temp_c, air->rh_percent, &plan->dew_point_c))
        return;
    plan->has_dew_point = true;
    struct derivation *made = build_derive(
        b, &plan->how,
        (struct derived){
            "humidity.dew_point_c", plan->dew_point_c, "C", "buck-1996-dew-point", BUCK,
            INPUTS({"reading", air->rh_percent, "%"}, {"temperature", air->temp_c, "C"})});
    /* air without any water has no dew point */
    if (moist_air_dew_point_c(air->temp_c, fmax(air->rh_low_percent, 1), &low) &&
        moist_air_dew_point_c(air->temp_c, air->rh_high_percent, &high))
        build_band(made, low, high);
}

/* The inner face towards the room; the air's own warmth where the material is unknown. */
static double face_c(struct care_build *b, const struct heated_face *face, const char *what,
                     double air_c, double room_c)
{
    double u, film = build_limit(b, face->film_limit),
              error = build_limit(b, "heat-error-percent") / 100,
              error_c = build_limit(b, "temperature-reading-error-c");
    if (!heating_face_u(b, &b->plan->humidity.how, face, &u))
        return air_c;
    double inner_c = heat_inner_face_c(air_c, room_c, u, film);
    struct derivation *made = build_derive(
        b, &b->plan->humidity.how,
        (struct derived){what, inner_c, "C", "inner-face", "ISO 6946 (surface resistances)",
                         INPUTS({"air", air_c, "C"}, {"room", room_c, "C"}, {"u-value", u, "W/m2K"},
                                {"surface-resistance", film, "m2K/W"})});
    /* both thermometers may be off by as much, the same way */
    double one = heat_inner_face_c(air_c, room_c, u * (1 - error), film),
           other = heat_inner_face_c(air_c, room_c, u * (1 + error), film);
    build_band(made, fmin(one, other) - error_c, fmax(one, other) + error_c);
    return inner_c;
}

/* A mesh has no face. */
static double coldest_face(struct care_build *b, double air_c, double room_c)
{
    const struct visit_enclosure *box = &b->in->visit->enclosure;
    const struct quantity unknown = {0};
    const struct heated_face wall = {bind_choice_word(wall_choices, box->walls.value),
                                     &box->wall_thickness_cm, "surface-resistance-wall",
                                     "humidity.wall_u_w_m2k"},
                             lid = {bind_choice_word(lid_choices, box->lid.value), &unknown,
                                    "surface-resistance-lid", "humidity.lid_u_w_m2k"};
    double coldest = air_c;
    if (box->walls.known)
        coldest = fmin(coldest, face_c(b, &wall, "humidity.wall_face_c", air_c, room_c));
    if (box->lid.known)
        coldest = fmin(coldest, face_c(b, &lid, "humidity.lid_face_c", air_c, room_c));
    return coldest;
}

static void set_wall(struct care_build *b)
{
    struct humidity_plan *plan = &b->plan->humidity;
    const struct quantity *room = &b->in->visit->enclosure.readings.room_c;
    double coldest = INFINITY;
    for (int z = ZONE_COOL_SIDE; z <= ZONE_NIGHT; z++) {
        const struct measured_plan *zone = &b->plan->measured[z];
        if (measured_is_usable(zone))
            coldest = fmin(coldest, zone->reading);
    }
    /* the air of the warm side does not tell what the cool walls do */
    if (!plan->has_dew_point || plan->reading_at != ZONE_COOL_SIDE || !isfinite(coldest))
        return;
    double air_c = coldest;
    if (room->known)
        coldest = coldest_face(b, coldest, room->value);
    plan->wall = coldest <= plan->dew_point_c ? WALL_WET : WALL_DRY;
    double error = build_limit(b, "temperature-reading-error-c");
    struct derivation *made = build_derive(
        b, &plan->how,
        (struct derived){"humidity.coldest_surface_c", coldest, "C", "coldest", "arithmetic",
                         INPUTS({"coldest-air", air_c, "C"}, {"inner-face", coldest, "C"},
                                {"dew-point", plan->dew_point_c, "C"})});
    build_band(made, coldest - error, coldest + error);
}

static void set_water_lack(struct care_build *b)
{
    struct humidity_plan *plan = &b->plan->humidity;
    const struct measured_plan *air = air_of(b);
    double temp_c, wanted, present;
    if (air->verdict != VERDICT_TOO_LOW || !find_temp(b, plan->reading_at, &temp_c) ||
        !moist_air_water_g_m3(temp_c, air->low, &wanted) ||
        !moist_air_water_g_m3(temp_c, air->judged, &present))
        return;
    plan->has_water_lack = true;
    plan->water_lack_g_m3 = wanted - present;
    double per_point = wanted / air->low;
    double error = build_limit(b, "humidity-reading-error-percent") * per_point;
    struct derivation *made = build_derive(
        b, &plan->how,
        (struct derived){"humidity.water_lack_g_m3", plan->water_lack_g_m3, "g/m3",
                         "absolute-humidity", WATER,
                         INPUTS({"target-low", air->low, "%"}, {"judged", air->judged, "%"},
                                {"temperature", temp_c, "C"}, {"water-wanted", wanted, "g/m3"},
                                {"water-present", present, "g/m3"})});
    build_band(made, fmax(plan->water_lack_g_m3 - error, 0), plan->water_lack_g_m3 + error);
}

/* The same air is drier once its place is warm. What is too damp only where the sheet raises the
 * heat is read again then: let out today, it would be too dry tomorrow. */
static bool is_read_cold(const struct care_build *b, const struct read_air *air)
{
    const struct measured_plan *place = &b->plan->measured[b->plan->humidity.reading_at];
    const double most = b->plan->measured[MEASURE_HUMIDITY].high;
    double warmed;
    return place->applies && measured_is_usable(place) && place->verdict == VERDICT_TOO_LOW &&
           air->rh_low_percent > most &&
           moist_air_rh_at(air->temp_c, air->rh_low_percent, place->low, &warmed) && warmed <= most;
}

bool humidity_plan(struct care_build *b)
{
    const struct quantity *reading = &b->in->visit->measured[MEASURE_HUMIDITY];
    set_target(b);
    if (!check_reading(b, reading) || !measured_read(b, MEASURE_HUMIDITY))
        return false;
    if (!air_of(b)->applies)
        return true;
    if (!air_of(b)->has_reading) {
        build_review(b, REVIEW_MISSING, "humidity-unread", reading->at, NULL);
        return true;
    }
    struct read_air air = read_the_air(b);
    move_reading(b, &air);
    /* the same air is drier once the box is warm: read in the cold, it says nothing of that day */
    b->plan->humidity.is_read_cold = is_read_cold(b, &air);
    if (b->plan->winter_rest.is_woken_cold || b->plan->humidity.is_read_cold)
        return true;
    judge_reading(b, &air);
    set_dew_point(b, &air);
    set_wall(b);
    set_water_lack(b);
    return true;
}
