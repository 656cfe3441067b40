/* Does a condition of a rule, a settlement or a call hold? */
#include "care/rule_match.h"

#include "base/fold.h"
#include "care/feeding.h"
#include "care/measured.h"
#include "care/stances.h"

#include <string.h>

/* -1: not said, matches neither yes nor no. */
static int flag_state(const struct flag_value *flag)
{
    return flag->known ? flag->value : -1;
}

static int thermostat_of(const struct visit *visit)
{
    const struct flag_value flag = visit_thermostat(visit);
    return flag_state(&flag);
}

static int guard_of(const struct visit *visit)
{
    const struct flag_value flag = visit_heat_guard(visit);
    return flag_state(&flag);
}

/* Does the lamp ever go out, and is it ever on? */
static enum photoperiod_state photoperiod_of(const struct care_build *b)
{
    enum { HOURS_OF_A_DAY = 24 };
    const struct quantity *hours = &b->in->visit->enclosure.lamp.hours;
    if (!hours->known)
        return PHOTOPERIOD_UNKNOWN;
    return hours->value >= HOURS_OF_A_DAY ? PHOTOPERIOD_NEVER_DARK
           : hours->value <= 0            ? PHOTOPERIOD_NEVER_LIGHT
           : b->plan->uvb.hours_off < 0   ? PHOTOPERIOD_TOO_SHORT
           : b->plan->uvb.hours_off > 0   ? PHOTOPERIOD_TOO_LONG
                                          : PHOTOPERIOD_USUAL;
}

/* What a condition on a single state looks at. */
struct state_row {
    size_t in_when;
    int (*state)(const struct care_build *b);
    const char *from;
};

#define STATE(name_, expression_)                                                                  \
    static int name_(const struct care_build *b)                                                   \
    {                                                                                              \
        return (int)(expression_);                                                                 \
    }

STATE(group_state, b->in->species->group.value)
STATE(habit_state, b->in->species->habit.value)
STATE(diet_state, b->in->species->diet.known ? b->in->species->diet.value : -1)
STATE(stage_state, b->in->species->is_unlisted ? -1 : (int)b->plan->feeding.stage)
STATE(sex_state, b->in->visit->patient.sex.value)
STATE(season_state, b->plan->uvb.season)
STATE(enclosure_state, b->plan->enclosure.verdict)
STATE(gradient_state, b->plan->temperature.gradient)
STATE(drop_state, b->plan->temperature.night)
STATE(lamp_state, b->plan->uvb.lamp)
STATE(wall_state, b->plan->humidity.wall)
STATE(weight_state, b->plan->growth.weight)
STATE(hygrometer_state, !b->plan->measured[MEASURE_HUMIDITY].applies ||
                                !measured_is_usable(&b->plan->measured[MEASURE_HUMIDITY])
                            ? HYGROMETER_UNREAD
                        : b->plan->winter_rest.is_woken_cold || b->plan->humidity.is_read_cold
                            ? HYGROMETER_COLD
                        : b->plan->humidity.reading_at == ZONE_COOL_SIDE ? HYGROMETER_IN_PLACE
                                                                         : HYGROMETER_ELSEWHERE)
STATE(water_test_state, b->plan->water.state)
STATE(water_change_state, b->plan->water.change_verdict)
STATE(filter_state, flag_state(&b->in->visit->water.filter))
STATE(listed_state, !b->in->species->is_unlisted)
STATE(thermostat_state, thermostat_of(b->in->visit))
STATE(guard_state, guard_of(b->in->visit))
STATE(moist_hide_state, flag_state(&b->in->species->moist_hide))
STATE(reproduction_state, b->in->species->reproduction.value)
STATE(brumation_state, b->in->species->brumation.value)
STATE(lamp_kind_state,
      b->in->visit->enclosure.lamp.kind.known ? b->in->visit->enclosure.lamp.kind.value : -1)
STATE(photoperiod_state, photoperiod_of(b))
STATE(medicine_state, b->in->visit->medicines.count > 0)
STATE(unlisted_state, b->in->species->is_unlisted)
STATE(least_humidity_state, b->in->species->least_humidity_percent.range.known)
/* a record that does not say so means a box in a room */
STATE(outdoor_state, b->in->visit->enclosure.outdoor.value)
STATE(winter_rest_state, b->plan->winter_rest.in_progress          ? WINTER_REST_IN_PROGRESS
                         : b->in->visit->winter_rest.planned.value ? WINTER_REST_PLANNED
                         : b->plan->winter_rest.is_woken_cold      ? WINTER_REST_WAKING
                                                                   : WINTER_REST_NO)

STATE(rest_gate_state, b->plan->winter_rest.why_count ? REST_GATE_SHUT : REST_GATE_OPEN)

STATE(substrate_state,
      b->in->visit->enclosure.substrate.known ? b->in->visit->enclosure.substrate.value : -1)
STATE(hides_state, b->plan->enclosure.hides_state)
STATE(perch_state, b->plan->uvb.perch)
STATE(shade_state, flag_state(&b->in->visit->enclosure.shade))
STATE(water_dish_state, flag_state(&b->in->visit->enclosure.water_dish))

STATE(company_state, b->plan->enclosure.company.state)
STATE(two_males_state,
      !b->plan->enclosure.company.has_males ? -1 : b->plan->enclosure.company.males >= 2)

STATE(few_dry_state, build_animal(b).few_dry)

STATE(food_given_state, b->plan->feeding.diet_now.never)
STATE(plants_given_state, b->plan->feeding.diet_now.plants)

#define WHEN(member_) offsetof(struct rule_when, member_)

static const struct state_row state_rows[] = {
    {WHEN(lamp), lamp_state, "lamp"},
    {WHEN(enclosure), enclosure_state, "enclosure"},
    {WHEN(water_test), water_test_state, "water"},
    {WHEN(water_change), water_change_state, "water-change"},
    {WHEN(filter), filter_state, "filter"},
    {WHEN(gradient), gradient_state, "gradient"},
    {WHEN(night_drop), drop_state, "night-drop"},
    {WHEN(wall), wall_state, "wall"},
    {WHEN(hygrometer), hygrometer_state, "humidity"},
    {WHEN(weight), weight_state, "weight"},
    {WHEN(thermostat), thermostat_state, "thermostat"},
    {WHEN(heat_guard), guard_state, "heat-guard"},
    {WHEN(moist_hide), moist_hide_state, "species"},
    {WHEN(listed), listed_state, "species"},
    {WHEN(reproduction), reproduction_state, "species"},
    {WHEN(brumation), brumation_state, "species"},
    {WHEN(lamp_kind), lamp_kind_state, "lamp"},
    {WHEN(photoperiod), photoperiod_state, "lamp"},
    {WHEN(medicine), medicine_state, "medicine"},
    {WHEN(unlisted), unlisted_state, "species"},
    {WHEN(least_humidity), least_humidity_state, "species"},
    {WHEN(outdoor), outdoor_state, "enclosure"},
    {WHEN(winter_rest), winter_rest_state, "winter-rest"},
    {WHEN(rest_gate), rest_gate_state, "winter-rest"},
    {WHEN(substrate), substrate_state, "substrate"},
    {WHEN(hides), hides_state, "hides"},
    {WHEN(perch), perch_state, "perch"},
    {WHEN(shade), shade_state, "shade"},
    {WHEN(water_dish), water_dish_state, "water-dish"},
    {WHEN(company), company_state, "company"},
    {WHEN(two_males), two_males_state, "company"},
    {WHEN(few_dry), few_dry_state, "dry-hours"},
    {WHEN(food_given), food_given_state, "diet"},
    {WHEN(plants_given), plants_given_state, "diet"},
    {WHEN(group), group_state, "species"},
    {WHEN(habit), habit_state, "species"},
    {WHEN(diet), diet_state, "species"},
    {WHEN(stage), stage_state, "stage"},
    {WHEN(sex), sex_state, "sex"},
    {WHEN(season), season_state, "season"},
};

static const struct list *list_at(const struct rule_when *when, size_t offset)
{
    return (const void *)((const char *)when + offset);
}

static bool severity_holds(const struct list *wanted, enum severity severity)
{
    return wanted->count ? list_has_choice(wanted, (int)severity) : severity != SEVERITY_NORMAL;
}

static const char *match_finding(const struct care_build *b, const struct list *codes,
                                 const struct list *severities)
{
    for (size_t i = 0; i < b->plan->finding_count; i++) {
        const struct finding_plan *f = &b->plan->findings[i];
        if (list_has_text(codes, f->code) && severity_holds(severities, f->severity))
            return f->code;
    }
    return NULL;
}

/* Does any call go to one of these bundles, or for one of these topic:stance? */
static bool is_called(const struct care_build *b, const struct list *bundles,
                      const struct list *stances)
{
    for (size_t i = 0; b->calls && i < b->calls->count; i++) {
        const struct stance_call *call = &b->calls->items[i];
        if (call->bundle && list_has_text(bundles, call->bundle))
            return true;
        const struct topic *topic = LIST_AT(b->in->topics->topics, struct topic, call->topic);
        for (size_t k = 0; k < stances->count; k++) {
            const char *stance =
                call_stance_of(LIST_AT(*stances, struct text_value, k)->text, topic->name.text);
            if (stance && strcmp(stance, call->stance) == 0)
                return true;
        }
    }
    return false;
}

/* Is "topic:stance" among them? */
static bool names_stance(const struct list *stances, const char *topic, const char *stance)
{
    for (size_t i = 0; i < stances->count; i++) {
        const char *one = call_stance_of(LIST_AT(*stances, struct text_value, i)->text, topic);
        if (one && strcmp(one, stance) == 0)
            return true;
    }
    return false;
}

/* Does one of these topic:stance hold today, or some day of the coming weeks? */
static bool holds_one(const struct care_build *b, const struct list *stances, long days)
{
    const struct date last = date_add_days(b->plan->on, days);
    for (size_t i = 0; i < b->plan->topic_count; i++) {
        const struct topic_plan *topic = &b->plan->topics[i];
        for (size_t k = 0; k < topic->phase_count; k++) {
            const struct stance_phase *phase = &topic->phases[k];
            if (date_compare(phase->from, last) <= 0 &&
                names_stance(stances, topic->topic, phase->stance))
                return true;
        }
    }
    return false;
}

static bool finds_any(const struct care_build *b, const struct list *codes)
{
    for (size_t i = 0; i < b->plan->finding_count; i++)
        if (b->plan->findings[i].severity != SEVERITY_NORMAL &&
            list_has_text(codes, b->plan->findings[i].code))
            return true;
    return false;
}

static const char *match_done(const struct care_build *b, const struct list *done)
{
    for (size_t i = 0; i < b->plan->procedure_count; i++)
        if (list_has_text(done, b->plan->procedures[i].code))
            return b->plan->procedures[i].code;
    return NULL;
}

static bool has_any_trait(const struct care_build *b, const struct list *traits)
{
    for (size_t i = 0; i < traits->count; i++)
        if (species_has_trait(b->in->species,
                              (enum trait)LIST_AT(*traits, struct choice_value, i)->value))
            return true;
    return false;
}

/* One of the heat sources is of such a kind. */
static bool has_heat_kind(const struct care_build *b, const struct list *kinds)
{
    const struct list *heat = &b->in->visit->enclosure.heat;
    for (size_t i = 0; i < heat->count; i++)
        if (list_has_choice(kinds, LIST_AT(*heat, struct visit_heat, i)->kind.value))
            return true;
    return kinds->count == 0;
}

/* All heat on the record is of such kinds; nobody knows where the record names none. */
static bool has_no_other_heat(const struct care_build *b, const struct list *kinds)
{
    const struct list *heat = &b->in->visit->enclosure.heat;
    for (size_t i = 0; i < heat->count; i++)
        if (!list_has_choice(kinds, LIST_AT(*heat, struct visit_heat, i)->kind.value))
            return false;
    return heat->count > 0;
}

/* One finding that is in such a state, as urgent and at such a step as is written. */
static bool match_state(const struct care_build *b, const struct rule_when *when)
{
    if (!when->state.count && !when->tier.count && !when->step.count)
        return true;
    for (size_t i = 0; i < b->plan->finding_count; i++) {
        const struct finding_plan *f = &b->plan->findings[i];
        if (f->severity == SEVERITY_NORMAL ||
            (when->finding.count && !list_has_text(&when->finding, f->code)))
            continue;
        if ((!when->state.count || list_has_choice(&when->state, (int)f->state)) &&
            (!when->tier.count || (f->is_urgent && list_has_choice(&when->tier, (int)f->tier))) &&
            (!when->step.count || (f->step && list_has_text(&when->step, f->step))))
            return true;
    }
    return false;
}

/* A medicine with one of these in its name or directions, whatever the case and the accents. */
static bool has_medicine_named(struct care_build *b, const struct list *parts)
{
    const struct list *medicines = &b->in->visit->medicines;
    for (size_t i = 0; parts->count > 0 && i < medicines->count; i++) {
        const struct visit_medicine *m = LIST_AT(*medicines, struct visit_medicine, i);
        const char *text =
            fold_text(arena_format(b->arena, "%s %s", m->name.text ? m->name.text : "",
                                   m->directions.text ? m->directions.text : ""),
                      b->arena);
        for (size_t k = 0; k < parts->count; k++)
            if (strstr(text, fold_text(LIST_AT(*parts, struct text_value, k)->text, b->arena)))
                return true;
    }
    return parts->count == 0;
}

/* Does who signs say a step in words of their own that is of one of these? */
static bool has_own_step(const struct care_build *b, const struct list *of)
{
    return written_step(&b->in->topics->written, b->in->visit, of);
}

/* What was found besides, who calls for what, and what holds. */
static bool match_settled(struct care_build *b, const struct rule_when *when)
{
    if (when->and_finding.count && !match_finding(b, &when->and_finding, &when->and_severity))
        return false;
    if (when->and_also.count && !finds_any(b, &when->and_also))
        return false;
    if (when->never_traits.count && has_any_trait(b, &when->never_traits))
        return false;
    if (!match_state(b, when) || !has_heat_kind(b, &when->heat_kind))
        return false;
    if (when->heat_all.count && !has_no_other_heat(b, &when->heat_all))
        return false;
    if (!has_medicine_named(b, &when->medicine_named))
        return false;
    if (when->own_step.count && !has_own_step(b, &when->own_step))
        return false;
    if (when->and_calls.count && !is_called(b, &(struct list){0}, &when->and_calls))
        return false;
    if (when->bundle.count && !is_called(b, &when->bundle, &(struct list){0}))
        return false;
    if (when->calls.count && !is_called(b, &(struct list){0}, &when->calls))
        return false;
    if (when->coming_stance.count && !holds_one(b, &when->coming_stance, FEEDING_PLANNER_DAYS))
        return false;
    return !when->stance.count || holds_one(b, &when->stance, 0);
}

/* The conditions that are lists of codes. */
static bool match_codes(struct care_build *b, const struct rule_when *when, const char **from)
{
    if (when->finding.count) {
        const char *code = match_finding(b, &when->finding, &when->severity);
        if (!code)
            return false;
        *from = arena_format(b->arena, "finding:%s", code);
    }
    if (when->done.count) {
        const char *code = match_done(b, &when->done);
        if (!code)
            return false;
        if (!*from)
            *from = arena_format(b->arena, "done:%s", code);
    }
    if (when->not_finding.count && finds_any(b, &when->not_finding))
        return false;
    if (when->never_done.count && match_done(b, &when->never_done))
        return false;
    if (when->species.count && !list_has_text(&when->species, b->in->species->code.text))
        return false;
    if (when->sheet.count && !list_has_text(&when->sheet, b->in->visit->kind.text))
        return false;
    if (when->traits.count && !has_any_trait(b, &when->traits))
        return false;
    return match_settled(b, when);
}

/* zone:warm-side, humidity, uvb */
static const char *measured_source(const struct care_build *b, enum measure_id measure)
{
    return measures[measure].part == PART_TEMPERATURE
               ? arena_format(b->arena, "zone:%s", measures[measure].id)
               : measures[measure].id;
}

/* One quantity with one of these verdicts. */
const char *rule_any_reading(const struct care_build *b, const struct rule_when *when,
                             rule_passes_over *passes_over, const void *who)
{
    for (int m = 0; m < MEASURE_COUNT; m++) {
        if (!list_has_choice(&when->any_reading, (int)b->plan->measured[m].verdict))
            continue;
        const char *from = measured_source(b, (enum measure_id)m);
        if (!passes_over || !passes_over(from, who))
            return from;
    }
    return NULL;
}

/* A measured quantity's verdict. What must be outside is what the rule is for; what may be right is
 * not. */
static bool match_measured(struct care_build *b, const struct rule_when *when, const char **from)
{
    const char *source = NULL;
    bool is_outside = false;
    for (int m = 0; m < MEASURE_COUNT; m++) {
        if (!when->measured[m].count)
            continue;
        const enum verdict verdict = b->plan->measured[m].verdict;
        if (!list_has_choice(&when->measured[m], (int)verdict))
            return false;
        const bool misses = (verdict == VERDICT_TOO_LOW || verdict == VERDICT_TOO_HIGH) &&
                            !list_has_choice(&when->measured[m], VERDICT_IN_RANGE);
        if (!source || (misses && !is_outside)) {
            source = measured_source(b, (enum measure_id)m);
            is_outside = misses;
        }
    }
    if (!*from)
        *from = source;
    if (!when->any_reading.count)
        return true;
    const char *any = rule_any_reading(b, when, NULL, NULL);
    if (any && !*from)
        *from = any;
    return any != NULL;
}

bool rule_when_match(struct care_build *b, const struct rule_when *when, const char **from)
{
    *from = NULL;
    if (!match_codes(b, when, from) || !match_measured(b, when, from))
        return false;
    for (size_t i = 0; i < sizeof state_rows / sizeof *state_rows; i++) {
        const struct list *wanted = list_at(when, state_rows[i].in_when);
        if (!wanted->count)
            continue;
        if (!list_has_choice(wanted, state_rows[i].state(b)))
            return false;
        if (!*from)
            *from = state_rows[i].from;
    }
    if (!*from)
        *from = "species";
    return true;
}

const struct topic_plan *rule_when_gave_way(struct care_build *b, const struct rule_when *when)
{
    struct rule_when rest = *when;
    const char *from;
    rest.stance.count = 0;
    if (!when->stance.count || holds_one(b, &when->stance, 0) || !rule_when_match(b, &rest, &from))
        return NULL;
    for (size_t i = 0; i < b->plan->topic_count; i++) {
        const struct topic_plan *topic = &b->plan->topics[i];
        const struct stance_phase *now = &topic->phases[0];
        for (size_t k = 0; k < now->lost_count && !now->decision; k++)
            if (names_stance(&when->stance, topic->topic, now->lost[k].stance))
                return topic;
    }
    return NULL;
}

/* ---- what became of it -------------------------------------------------------------------- */

/* What a keeper does at home: its good state, and that of nobody having looked. */
static const struct mend_row {
    size_t in_when;
    int (*state)(const struct care_build *b);
    int good, unknown;
} mend_rows[] = {
    {WHEN(lamp), lamp_state, LAMP_STATE_FINE, LAMP_STATE_UNKNOWN},
    {WHEN(enclosure), enclosure_state, VERDICT_IN_RANGE, VERDICT_UNKNOWN},
    {WHEN(water_test), water_test_state, WATER_FINE, WATER_UNTESTED},
    {WHEN(water_change), water_change_state, VERDICT_IN_RANGE, VERDICT_UNKNOWN},
    {WHEN(filter), filter_state, 1, -1},
    {WHEN(gradient), gradient_state, GRADIENT_GOOD, GRADIENT_UNKNOWN},
    {WHEN(night_drop), drop_state, NIGHT_GOOD, NIGHT_UNKNOWN},
    {WHEN(wall), wall_state, WALL_DRY, WALL_UNKNOWN},
    {WHEN(hygrometer), hygrometer_state, HYGROMETER_IN_PLACE, HYGROMETER_UNREAD},
    {WHEN(thermostat), thermostat_state, 1, -1},
    {WHEN(heat_guard), guard_state, 1, -1},
    {WHEN(photoperiod), photoperiod_state, PHOTOPERIOD_USUAL, PHOTOPERIOD_UNKNOWN},
    {WHEN(hides), hides_state, HIDES_ENOUGH, HIDES_UNKNOWN},
    {WHEN(perch), perch_state, PERCH_FINE, PERCH_UNKNOWN},
    {WHEN(shade), shade_state, 1, -1},
    {WHEN(water_dish), water_dish_state, 1, -1},
    {WHEN(company), company_state, COMPANY_NONE, COMPANY_UNKNOWN},
    {WHEN(food_given), food_given_state, FOOD_GIVEN_FINE, FOOD_GIVEN_UNKNOWN},
    {WHEN(plants_given), plants_given_state, PLANTS_GIVEN_FINE, PLANTS_GIVEN_UNKNOWN},
};

static bool asks_for_side(const struct list *verdicts)
{
    return list_has_choice(verdicts, VERDICT_TOO_LOW) ||
           list_has_choice(verdicts, VERDICT_TOO_HIGH);
}

/* Of a state that a rule asks for although it is good, nothing is mended. */
static bool asks_for_bad(const struct rule_when *when, const struct mend_row *row)
{
    const struct list *wanted = list_at(when, row->in_when);
    return wanted->count && !list_has_choice(wanted, row->good);
}

bool rule_when_mends(const struct rule_when *when)
{
    for (int m = 0; m < MEASURE_COUNT; m++)
        if (asks_for_side(&when->measured[m]))
            return true;
    for (size_t i = 0; i < sizeof mend_rows / sizeof *mend_rows; i++)
        if (asks_for_bad(when, &mend_rows[i]))
            return true;
    return when->heat_kind.count > 0;
}

static enum mended mended_measure(const struct list *wanted, enum verdict now)
{
    switch (now) {
    case VERDICT_UNKNOWN:
        return MENDED_UNKNOWN;
    case VERDICT_IN_RANGE:
        return MENDED_YES;
    case VERDICT_BORDERLINE:
        return MENDED_NEARLY;
    default:
        return list_has_choice(wanted, (int)now) ? MENDED_NOT : MENDED_TURNED;
    }
}

static enum mended mended_state(const struct mend_row *row, int now)
{
    return now == row->good ? MENDED_YES : now == row->unknown ? MENDED_UNKNOWN : MENDED_NOT;
}

/* A heat source that should go: nobody knows where the record names none at all. */
static enum mended mended_heat(const struct care_build *b, const struct list *kinds)
{
    return !b->in->visit->enclosure.heat.count ? MENDED_UNKNOWN
           : has_heat_kind(b, kinds)           ? MENDED_NOT
                                               : MENDED_YES;
}

enum mended rule_when_mended(const struct care_build *b, const struct rule_when *when)
{
    enum mended worst = MENDED_NOTHING;
    for (int m = 0; m < MEASURE_COUNT; m++) {
        if (!asks_for_side(&when->measured[m]))
            continue;
        enum mended one = mended_measure(&when->measured[m], b->plan->measured[m].verdict);
        worst = one > worst ? one : worst;
    }
    for (size_t i = 0; i < sizeof mend_rows / sizeof *mend_rows; i++) {
        if (!asks_for_bad(when, &mend_rows[i]))
            continue;
        enum mended one = mended_state(&mend_rows[i], mend_rows[i].state(b));
        worst = one > worst ? one : worst;
    }
    if (when->heat_kind.count) {
        enum mended one = mended_heat(b, &when->heat_kind);
        worst = one > worst ? one : worst;
    }
    return worst;
}
