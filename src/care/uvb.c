/* What the species is offered, the lamp's age and its hours. Where the lamp may hang
 * is worked out in uvb_place.c. */
#include "care/measured.h"
#include "care/uvb.h"

#include <math.h>
#include <string.h>

#define ZONES "Ferguson et al. 2010, Zoo Biol. 29:317-334; Baines et al. 2016, table 1"

static struct mark lamp_mark(const struct care_build *b)
{
    return b->in->visit->enclosure.lamp.at;
}

/* ---- the target ------------------------------------------------------------------------- */

static void remark_own_target(struct care_build *b, const struct band *own)
{
    struct uvb_plan *plan = &b->plan->uvb;
    if (plan->most_uvi <= 0 || own->high <= plan->most_uvi)
        return;
    struct plan_fact *facts = build_fact(b, "most", FACT_UVI, plan->most_uvi, plan->most_uvi, NULL);
    build_review(b, REVIEW_OVERRIDE, "own-uvi-above-zone", own->at,
                 build_fact(b, "target", FACT_UVI, own->low, own->high, facts));
}

/* What the clinic has settled of the zones; NULL: nothing fits. */
static const struct uv_use *use_for(const struct care_build *b)
{
    const struct whom_animal animal = build_animal(b);
    for (size_t i = 0; i < b->in->reference->uv_uses.count; i++) {
        const struct uv_use *one = LIST_AT(b->in->reference->uv_uses, struct uv_use, i);
        if (whom_fits(&one->whom, &animal))
            return one;
    }
    return NULL;
}

static void derive_aim(struct care_build *b, const struct band *mean, double most_low,
                       bool start_low)
{
    struct uvb_plan *plan = &b->plan->uvb;
    const struct measured_plan *light = &b->plan->measured[MEASURE_UVB];
    plan->aim_uvi = start_low ? (mean->low + mean->high) / 2 : (mean->high + most_low) / 2;
    plan->aim_uvi = fmin(fmax(plan->aim_uvi, light->low), light->high);
    build_derive(
        b, &plan->how,
        (struct derived){"uvb.aim_uvi", plan->aim_uvi, "UVI",
                         start_low ? "middle-of-mean" : "mean-to-maximum", ZONES,
                         INPUTS({"mean-low", mean->low, "UVI"}, {"mean-high", mean->high, "UVI"},
                                {"most-low", most_low, "UVI"}, {"target-low", light->low, "UVI"},
                                {"target-high", light->high, "UVI"})});
}

/* Where sources put a species between two zones all limits are the lower zone's. What the lamp is
 * hung for lies between both. */
static bool set_zone(struct care_build *b)
{
    struct uvb_plan *plan = &b->plan->uvb;
    struct measured_plan *light = &b->plan->measured[MEASURE_UVB];
    const struct sourced_value *zone = &b->in->species->ferguson_zone;
    if (!zone->range.known)
        return false;
    plan->zone_low = (int)zone->range.low;
    plan->zone_high = (int)zone->range.high;
    const struct uv_zone_reference *low = uv_zone_find(b->in->reference, plan->zone_low);
    const struct uv_zone_reference *high = uv_zone_find(b->in->reference, plan->zone_high);
    const struct uv_use *use = use_for(b);
    if (!low || !high || !use)
        return false;
    const double limits[] = {[UV_LIMIT_MOST] = low->most_uvi.range.high,
                             [UV_LIMIT_LEAST_MOST] = low->most_uvi.range.low,
                             [UV_LIMIT_MEAN] = low->mean_uvi.range.high};
    light->low = low->mean_uvi.range.low;
    light->high = limits[use->limit.value];
    plan->most_uvi = low->most_uvi.range.high;
    plan->background_uvi = low->mean_uvi.range.high;
    plan->use_because = use->because.text;
    light->target_from =
        build_from_sourced(&low->most_uvi, &b->in->reference->sources, ORIGIN_REFERENCE);
    bool start_low = use->start.value == UV_START_LOW;
    derive_aim(b, start_low ? &low->mean_uvi.range : &high->mean_uvi.range, low->most_uvi.range.low,
               start_low);
    struct derivation *made =
        build_derive(b, &plan->how,
                     (struct derived){"uvb.most_uvi", plan->most_uvi, "UVI", "zone-maximum", ZONES,
                                      INPUTS({"zone", plan->zone_low, ""},
                                             {"most-low", low->most_uvi.range.low, "UVI"},
                                             {"most-high", low->most_uvi.range.high, "UVI"})});
    build_band(made, low->most_uvi.range.low, low->most_uvi.range.high);
    return true;
}

static void set_target(struct care_build *b)
{
    struct uvb_plan *plan = &b->plan->uvb;
    struct measured_plan *light = &b->plan->measured[MEASURE_UVB];
    const struct band *own = &b->in->visit->targets.measured[MEASURE_UVB];
    const struct flag_value *needs = &b->in->species->needs_uvb;
    bool has_zone = set_zone(b);
    light->applies = own->known || (has_zone && (!needs->known || needs->value));
    if (own->known) {
        measured_aim(b, MEASURE_UVB);
        plan->aim_uvi = (own->low + own->high) / 2;
        remark_own_target(b, own);
    } else if (light->applies) {
        if (plan->zone_low != plan->zone_high)
            build_review(b, REVIEW_SPREAD, "uvb-between-zones", b->in->species->ferguson_zone.at,
                         build_fact(b, "zone", FACT_COUNT, plan->zone_low, plan->zone_high, NULL));
        build_spread(b, "uvb-zone-spread", &b->in->species->ferguson_zone, &b->in->species->sources,
                     FACT_COUNT);
    }
}

/* ---- age and hours ------------------------------------------------------------------- */

#define MONTH_DAYS (365.25 / 12)

/* A life written in months or years is counted in calendar months. */
static struct date lamp_end(struct date installed, const struct band *life)
{
    if (life->unit == UNIT_MONTH || life->unit == UNIT_YEAR)
        return date_add_months(installed, (int)(life->low / MONTH_DAYS + 0.5));
    return date_add_days(installed, (long)life->low);
}

static void set_age(struct care_build *b)
{
    struct uvb_plan *plan = &b->plan->uvb;
    const struct visit_lamp *lamp = &b->in->visit->enclosure.lamp;
    const struct lamp_reference *lamp_kind =
        lamp->kind.known ? lamp_reference_find(b->in->reference, (enum lamp_kind)lamp->kind.value)
                         : NULL;
    if (!lamp_kind)
        return;
    if (!lamp->installed.known) {
        build_review(b, REVIEW_MISSING, "lamp-age-unknown", lamp_mark(b), NULL);
        return;
    }
    struct date today = b->in->visit->date.date;
    plan->has_lamp_due = true;
    plan->lamp_installed = lamp->installed.date;
    plan->hangs_cm = lamp->height_cm.known ? lamp->height_cm.value : 0;
    plan->lamp_due = lamp_end(lamp->installed.date, &lamp_kind->life_days.range);
    plan->lamp_overdue = date_compare(plan->lamp_due, today) <= 0;
    double left = (double)date_days_between(today, plan->lamp_due);
    struct derivation *made = build_derive(
        b, &plan->how,
        (struct derived){
            "uvb.lamp_days_left", left, "d", "calendar-months",
            build_from_sourced(&lamp_kind->life_days, &b->in->reference->sources, ORIGIN_REFERENCE)
                .source,
            INPUTS({"life", lamp_kind->life_days.range.low, "d"},
                   {"age", (double)date_days_between(lamp->installed.date, today), "d"})});
    build_band(made, left, left + lamp_kind->life_days.range.high - lamp_kind->life_days.range.low);
    build_spread(b, "lamp-life-spread", &lamp_kind->life_days, &b->in->reference->sources,
                 FACT_DAYS);
}

/* The timer's setting against the season's hours; what is far from them is the keeper's to change.
 */
static void judge_hours(struct care_build *b, struct ends hours)
{
    const struct quantity *set = &b->in->visit->enclosure.lamp.hours;
    if (!set->known)
        return;
    double same_h = build_limit(b, "light-hours-same-h");
    double far_h = build_limit(b, "light-hours-far-h");
    b->plan->uvb.hours_off = (set->value >= hours.high + far_h) - (set->value <= hours.low - far_h);
    if (set->value >= hours.low - same_h && set->value <= hours.high + same_h)
        return;
    b->plan->uvb.hours_set = set->value;
    build_review(b, REVIEW_REMARK, set->value < hours.low ? "lamp-hours-short" : "lamp-hours-long",
                 set->at,
                 build_fact(b, "hours", FACT_HOURS, b->plan->uvb.hours_now, b->plan->uvb.hours_now,
                            build_fact(b, "set", FACT_HOURS, set->value, set->value, NULL)));
}

static void derive_hours(struct care_build *b, struct ends band, const char *source)
{
    struct uvb_plan *plan = &b->plan->uvb;
    plan->hours_now = (band.low + band.high) / 2;
    build_band(
        build_derive(b, &plan->how,
                     (struct derived){"uvb.hours", plan->hours_now, "h", "middle-of-band", source,
                                      INPUTS({"low", band.low, "h"}, {"high", band.high, "h"})}),
        band.low, band.high);
}

/* The veterinarian's own hours; they know no season. */
static bool set_own_hours(struct care_build *b)
{
    const struct band *own = &b->in->visit->targets.light_hours;
    if (!own->known)
        return false;
    struct ends band = {own->low, own->high};
    derive_hours(b, band, build_from_veterinarian(b).source);
    judge_hours(b, band);
    return true;
}

/* How bright it is and how long are two things: what lies in a dim room because of what was found
 * has its long days all the same, and only the stance's name gives way. */
static bool has_long_days(const struct care_plan *plan)
{
    const struct stance_phase *now = plan_phase_on(plan, "light-hours", plan->on);
    if (!now || strcmp(now->stance, "long") == 0)
        return now;
    bool is_dimmed =
        strcmp(now->stance, "dim-quiet") == 0 && strncmp(now->because, "finding:", 8) == 0;
    for (size_t i = 0; is_dimmed && i < now->lost_count; i++)
        if (strcmp(now->lost[i].stance, "long") == 0)
            return true;
    return false;
}

/* An animal that is kept awake through the winter gets the light of summer. */
static void lengthen_hours(struct care_build *b, struct ends *band)
{
    struct uvb_plan *plan = &b->plan->uvb;
    const struct sourced_value *least = limit_find(b->in->reference, "long-light-hours");
    if (!has_long_days(b->plan) || plan->hours_now >= least->range.low)
        return;
    *band = (struct ends){least->range.low, least->range.high};
    derive_hours(b, *band,
                 build_from_sourced(least, &b->in->reference->sources, ORIGIN_REFERENCE).source);
}

/* As in the northern half of the earth; said to the veterinarian where it makes a difference. */
static int month_of_season(const struct care_build *b)
{
    const struct quantity *latitude = &b->in->visit->enclosure.latitude_deg;
    int month = b->in->visit->date.date.month;
    return latitude->known && latitude->value < 0 ? (month + 5) % 12 + 1 : month;
}

bool season_plan(struct care_build *b)
{
    const int month = month_of_season(b);
    b->plan->uvb.season = month >= 4 && month <= 9 ? SEASON_SUMMER : SEASON_WINTER;
    return true;
}

static void set_hours(struct care_build *b)
{
    struct uvb_plan *plan = &b->plan->uvb;
    const struct sourced_value *summer = &b->in->species->hours_summer;
    const struct sourced_value *winter = &b->in->species->hours_winter;
    const int month = month_of_season(b);
    const struct sourced_value *hours = plan->season == SEASON_SUMMER ? summer : winter;
    if (set_own_hours(b) || !summer->range.known || !winter->range.known)
        return;
    /* about the equinoxes day and night are alike: half way from one season's hours to the other's
     */
    const bool between = month == 3 || month == 4 || month == 9 || month == 10;
    const double longer = (summer->range.low + summer->range.high) / 2,
                 shorter = (winter->range.low + winter->range.high) / 2;
    plan->hours_now = between                         ? (longer + shorter) / 2
                      : plan->season == SEASON_SUMMER ? longer
                                                      : shorter;
    struct derivation *made = build_derive(
        b, &plan->how,
        (struct derived){
            "uvb.hours_now", plan->hours_now, "h", "season-of-month",
            build_from_sourced(hours, &b->in->species->sources, ORIGIN_SPECIES_SHEET).source,
            INPUTS({"month", month, ""}, {"hours-summer", longer, "h"},
                   {"hours-winter", shorter, "h"})});
    struct ends band = {hours->range.low, hours->range.high};
    if (between)
        band = (struct ends){fmin(summer->range.low, winter->range.low),
                             fmax(summer->range.high, winter->range.high)};
    build_band(made, band.low, band.high);
    lengthen_hours(b, &band);
    judge_hours(b, band);
    if (b->in->visit->enclosure.latitude_deg.known)
        return;
    if (summer->range.low != winter->range.low || summer->range.high != winter->range.high)
        build_review(b, REVIEW_REMARK, "season-northern", (struct mark){0},
                     build_fact(b, "hours", FACT_HOURS, plan->hours_now, plan->hours_now, NULL));
}

/* ---- the lamp's state ----------------------------------------------------------------- */

/* Of a kind that gives UVB: nobody can rely on another, unless a meter read it. */
static bool is_reliable(const struct care_build *b)
{
    const struct visit_lamp *lamp = &b->in->visit->enclosure.lamp;
    const struct lamp_reference *kind =
        lamp_reference_find(b->in->reference, (enum lamp_kind)lamp->kind.value);
    return lamp->measured.uvi.known || !kind || !kind->reliable.known || kind->reliable.value;
}

static bool is_due(const struct care_build *b)
{
    const struct uvb_plan *plan = &b->plan->uvb;
    if (!plan->has_lamp_due)
        return false;
    long left = date_days_between(b->in->visit->date.date, plan->lamp_due);
    return left <= (long)build_limit(b, "lamp-overdue-soon-days");
}

/* An old lamp is changed before it is measured or moved. */
static enum lamp_state state_from(const struct care_build *b)
{
    const struct visit_lamp *lamp = &b->in->visit->enclosure.lamp;
    switch (b->plan->uvb.distance_why) {
    case DISTANCE_NOT_NEEDED:
        return LAMP_STATE_NOT_NEEDED;
    case DISTANCE_NO_LAMP:
        if (lamp->kind.known && lamp->kind.value != LAMP_NONE)
            return LAMP_STATE_UNRELIABLE;
        return lamp->kind.known || b->in->visit->enclosure.outdoor.value ? LAMP_STATE_MISSING
                                                                         : LAMP_STATE_UNKNOWN;
    case DISTANCE_BLOCKED:
        return is_due(b) ? LAMP_STATE_BLOCKED_DUE : LAMP_STATE_BLOCKED;
    case DISTANCE_NO_READING:
        return is_due(b) ? LAMP_STATE_DUE : LAMP_STATE_UNMEASURED;
    case DISTANCE_TOO_STRONG: /* a new one would be stronger still */
        return LAMP_STATE_TOO_STRONG;
    case DISTANCE_TOO_WEAK:
        return is_due(b) ? LAMP_STATE_DUE : LAMP_STATE_TOO_WEAK;
    case DISTANCE_OUT_OF_REACH:
        return is_due(b) ? LAMP_STATE_DUE : LAMP_STATE_OUT_OF_REACH;
    case DISTANCE_KNOWN:
        break;
    }
    return is_due(b) ? LAMP_STATE_DUE : LAMP_STATE_FINE;
}

static bool check_numbers(struct care_build *b)
{
    const struct visit_lamp *lamp = &b->in->visit->enclosure.lamp;
    const struct {
        const struct quantity *value;
        const char *path;
        bool above_0;
    } numbers[] = {
        {&lamp->measured.at_cm, "enclosure.lamp.measured.at", true},
        {&lamp->height_cm, "enclosure.lamp.height", true},
        {&lamp->tube_length_cm, "enclosure.lamp.tube-length", true},
        {&lamp->measured.uvi, "enclosure.lamp.measured.uvi", false},
        {&lamp->mesh_loss_percent, "enclosure.lamp.mesh-loss", false},
        {&lamp->offset_cm, "enclosure.lamp.offset", false},
        {&b->in->visit->enclosure.platform_height_cm, "enclosure.platform-height", false},
        {&b->in->visit->enclosure.back_height_cm, "enclosure.back-height", false},
    };
    bool good = true;
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        const struct quantity *value = numbers[i].value;
        if (!build_is_finite(b, value, numbers[i].path)) {
            good = false;
        } else if (value->known && numbers[i].above_0 && value->value <= 0) {
            diag_report_path(b->diag, DIAG_ERROR, "distance-zero", value->at, numbers[i].path,
                             "a distance must be above 0");
            good = false;
        }
    }
    return good;
}

bool uvb_plan(struct care_build *b)
{
    struct uvb_plan *plan = &b->plan->uvb;
    const struct visit_lamp *lamp = &b->in->visit->enclosure.lamp;
    bool hangs = lamp->kind.known && lamp->kind.value != LAMP_NONE && is_reliable(b);
    plan->through_mesh_share = 1;
    if (!check_numbers(b))
        return false;
    set_target(b);
    if (plan_holds(b->plan, "warmth-day", "rest")) /* the winter's rest is dark */
        b->plan->measured[MEASURE_UVB].applies = false;
    else
        set_hours(b);
    /* nothing need hang where the sun shines on it; brought in, it needs a lamp */
    plan->sun = b->plan->measured[MEASURE_UVB].applies && !hangs &&
                b->in->visit->enclosure.outdoor.value &&
                !plan_holds(b->plan, "outdoors", "in-until");
    if (plan->sun)
        b->plan->measured[MEASURE_UVB].applies = false;
    if (!b->plan->measured[MEASURE_UVB].applies) {
        plan->distance_why = DISTANCE_NOT_NEEDED;
        if (hangs && !b->in->species->is_unlisted)
            build_review(b, REVIEW_REMARK, "uvb-lamp-not-needed", lamp_mark(b), NULL);
    } else if (!hangs) {
        plan->distance_why = DISTANCE_NO_LAMP;
        if (!lamp->kind.known)
            build_review(b, REVIEW_MISSING, "uvb-lamp-unknown", lamp_mark(b), NULL);
    } else if (lamp->behind.known && lamp->behind.value != BARRIER_NONE) {
        set_age(b);
        plan->distance_why = DISTANCE_BLOCKED;
    } else {
        set_age(b);
        plan->distance_why = uvb_place_lamp(b);
    }
    plan->lamp = state_from(b);
    if (plan->lamp == LAMP_STATE_UNRELIABLE)
        plan->unreliable = bind_choice_word(lamp_choices, lamp->kind.value);
    plan->map.known = plan->map.known && plan->lamp == LAMP_STATE_FINE; /* no other hangs there */
    /* a new lamp is stronger than the one that was measured */
    if (plan->lamp == LAMP_STATE_DUE && plan->distance_why == DISTANCE_KNOWN)
        build_review(b, REVIEW_REMARK, "uvb-distance-of-old-lamp", lamp_mark(b),
                     build_fact_date(b, "due", plan->lamp_due, NULL));
    return true;
}
