/* One test a kind of condition; a rule holds when all that it names hold. */
#include "care/rule_match.h"

#include <string.h>

static bool has_value(const struct list *list, int value)
{
    for (size_t i = 0; i < list->count; i++)
        if (LIST_AT(*list, struct choice_value, i)->value == value)
            return true;
    return false;
}

static bool has_text(const struct list *list, const char *text)
{
    for (size_t i = 0; i < list->count; i++)
        if (strcmp(LIST_AT(*list, struct text_value, i)->text, text) == 0)
            return true;
    return false;
}

/* -1: not said, matches neither yes nor no. */
static int flag_state(const struct flag_value *flag)
{
    return flag->known ? flag->value : -1;
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
STATE(water_test_state, b->plan->water.state)
STATE(water_change_state, b->plan->water.change_verdict)
STATE(filter_state, flag_state(&b->in->visit->water.filter))
STATE(thermostat_state, flag_state(&b->in->visit->enclosure.thermostat))
STATE(guard_state, flag_state(&b->in->visit->enclosure.heat_guard))
STATE(moist_hide_state, flag_state(&b->in->species->moist_hide))
STATE(listed_state, !b->in->species->is_unlisted)

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
    {WHEN(weight), weight_state, "weight"},
    {WHEN(thermostat), thermostat_state, "thermostat"},
    {WHEN(heat_guard), guard_state, "heat-guard"},
    {WHEN(moist_hide), moist_hide_state, "species"},
    {WHEN(listed), listed_state, "species"},
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

static bool severity_holds(const struct rule_when *when, enum severity severity)
{
    return when->severity.count ? has_value(&when->severity, (int)severity)
                                : severity != SEVERITY_NORMAL;
}

static const char *match_finding(const struct care_build *b, const struct rule_when *when)
{
    for (size_t i = 0; i < b->plan->finding_count; i++) {
        const struct finding_plan *f = &b->plan->findings[i];
        if (has_text(&when->finding, f->code) && severity_holds(when, f->severity))
            return f->code;
    }
    return NULL;
}

static bool finds_any(const struct care_build *b, const struct list *codes)
{
    for (size_t i = 0; i < b->plan->finding_count; i++)
        if (b->plan->findings[i].severity != SEVERITY_NORMAL &&
            has_text(codes, b->plan->findings[i].code))
            return true;
    return false;
}

static const char *match_done(const struct care_build *b, const struct list *done)
{
    for (size_t i = 0; i < b->plan->procedure_count; i++)
        if (has_text(done, b->plan->procedures[i].code))
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

/* The conditions that are lists of codes. */
static bool match_codes(struct care_build *b, const struct rule_when *when, const char **from)
{
    if (when->finding.count) {
        const char *code = match_finding(b, when);
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
    if (when->species.count && !has_text(&when->species, b->in->species->code.text))
        return false;
    if (when->sheet.count && !has_text(&when->sheet, b->in->visit->kind.text))
        return false;
    return !when->traits.count || has_any_trait(b, &when->traits);
}

/* zone:warm-side, humidity, uvb */
static const char *measured_source(const struct care_build *b, enum measure_id measure)
{
    return measures[measure].part == PART_TEMPERATURE
               ? arena_format(b->arena, "zone:%s", measures[measure].id)
               : measures[measure].id;
}

/* One quantity with one of these verdicts. */
static const char *match_any_reading(const struct care_build *b, const struct list *wanted)
{
    for (int m = 0; m < MEASURE_COUNT; m++)
        if (has_value(wanted, (int)b->plan->measured[m].verdict))
            return measured_source(b, (enum measure_id)m);
    return NULL;
}

/* A measured quantity's verdict. */
static bool match_measured(struct care_build *b, const struct rule_when *when, const char **from)
{
    for (int m = 0; m < MEASURE_COUNT; m++) {
        if (!when->measured[m].count)
            continue;
        if (!has_value(&when->measured[m], (int)b->plan->measured[m].verdict))
            return false;
        if (!*from)
            *from = measured_source(b, (enum measure_id)m);
    }
    if (!when->any_reading.count)
        return true;
    const char *any = match_any_reading(b, &when->any_reading);
    if (any && !*from)
        *from = any;
    return any != NULL;
}

bool rule_match(struct care_build *b, const struct rule *rule, const char **from)
{
    *from = NULL;
    if (!match_codes(b, &rule->when, from) || !match_measured(b, &rule->when, from))
        return false;
    for (size_t i = 0; i < sizeof state_rows / sizeof *state_rows; i++) {
        const struct list *wanted = list_at(&rule->when, state_rows[i].in_when);
        if (!wanted->count)
            continue;
        if (!has_value(wanted, state_rows[i].state(b)))
            return false;
        if (!*from)
            *from = state_rows[i].from;
    }
    if (!*from)
        *from = "species";
    return true;
}
