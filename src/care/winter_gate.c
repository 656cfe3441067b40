/* What speaks against a winter rest: the kind of animal, illness, age, weight, time owned, worms.
 */
#include <string.h>

#include "care/feeding.h"
#include "care/winter_rest.h"

/* ---- what is looked at --------------------------------------------------------------------------
 */

static bool is_recent(const struct care_build *b, enum history_event event, const char *limit)
{
    const struct date_value *when = &b->in->visit->history.events[event];
    return when->known &&
           (double)date_days_between(when->date, b->plan->on) < build_limit(b, limit);
}

static const struct finding_plan *found(const struct care_build *b, const char *code)
{
    for (size_t i = 0; i < b->plan->finding_count; i++) {
        const struct finding_plan *f = &b->plan->findings[i];
        if (f->severity != SEVERITY_NORMAL && (!code || strcmp(f->code, code) == 0))
            return f;
    }
    return NULL;
}

static bool is_other_species(const struct care_build *b)
{
    return b->in->species->is_unlisted || b->in->species->brumation.value == BRUMATION_NEVER;
}

static bool is_gravid(const struct care_build *b)
{
    return found(b, "gravid") != NULL;
}

/* Whatever is not right is put right first. */
static bool is_ill(const struct care_build *b)
{
    return found(b, NULL) && !is_gravid(b);
}

static bool was_ill(const struct care_build *b)
{
    return is_recent(b, EVENT_OPERATED, "rest-well-days") ||
           is_recent(b, EVENT_REGURGITATED, "rest-well-days");
}

static bool is_age_unknown(const struct care_build *b)
{
    return !b->plan->patient.age_known;
}

static bool is_too_young(const struct care_build *b)
{
    const struct band *least = &b->in->species->brumation_least_age_days.range;
    return b->plan->patient.age_known &&
           (feeding_is_young(b) ||
            (least->known && (double)b->plan->patient.age_days < least->high));
}

static bool is_weight_unknown(const struct care_build *b)
{
    return !b->plan->patient.has_mass;
}

static bool is_losing(const struct care_build *b)
{
    enum weight_state weight = b->plan->growth.weight;
    return weight == WEIGHT_FALLING || weight == WEIGHT_FALLING_FAST;
}

/* Below the middle of the body score's scale, or too light for the shell's length. */
static bool is_thin(const struct care_build *b)
{
    const struct visit_body_score *score = &b->in->visit->patient.body_score;
    const struct growth_plan *g = &b->plan->growth;
    bool low_score =
        score->score.known && score->of.known && score->score.value < (1 + score->of.value) / 2;
    return low_score || (g->has_ratio && g->ratio_verdict == VERDICT_TOO_LOW);
}

static bool is_time_unknown(const struct care_build *b)
{
    return !b->in->visit->history.events[EVENT_OWNED_SINCE].known;
}

static bool is_newly_owned(const struct care_build *b)
{
    return is_recent(b, EVENT_OWNED_SINCE, "rest-owned-days");
}

static bool is_untested(const struct care_build *b)
{
    return !is_recent(b, EVENT_STOOL_CLEAN, "rest-stool-test-days");
}

static bool has_rested(const struct care_build *b)
{
    return is_recent(b, EVENT_WOKE_FROM_REST, "rest-again-days");
}

/* A rest that would start then is none of this winter. */
static bool is_past_winter(const struct care_build *b, struct date start)
{
    return start.month < (int)build_limit(b, "rest-first-month") ||
           start.month > (int)build_limit(b, "rest-last-month");
}

static bool is_too_late(const struct care_build *b)
{
    const struct winter_rest_plan *w = &b->plan->winter_rest;
    return w->has_start && !b->in->visit->winter_rest.starts.known && is_past_winter(b, w->start);
}

/* The day that was set leaves the gut no time to empty. */
static bool is_gut_full(const struct care_build *b)
{
    const struct winter_rest_plan *w = &b->plan->winter_rest;
    return w->has_last_meal && date_compare(w->last_meal, b->plan->on) < 0;
}

static bool has_lost(const struct care_build *b)
{
    const struct growth_plan *g = &b->plan->growth;
    return g->known && g->change_percent <= -build_limit(b, "rest-loss-wake-percent");
}

static bool is_too_long(const struct care_build *b)
{
    const struct winter_rest_plan *w = &b->plan->winter_rest;
    return w->has_wake && date_compare(w->wake, b->plan->on) <= 0;
}

/* ---- the table ----------------------------------------------------------------------------------
 */

static const struct gate_row {
    const char *why;
    bool (*holds)(const struct care_build *);
    bool plans, wakes; /* speaks against a rest to come; ends one that is under way */
} gate_rows[] = {
    {"species", is_other_species, true, true},
    {"ill", is_ill, true, true},
    {"gravid", is_gravid, true, true},
    {"was-ill", was_ill, true, false},
    {"too-young", is_too_young, true, true},
    {"age-unknown", is_age_unknown, true, false},
    {"thin", is_thin, true, true},
    {"losing", is_losing, true, false},
    {"lost", has_lost, false, true},
    {"weight-unknown", is_weight_unknown, true, false},
    {"newly-owned", is_newly_owned, true, false},
    {"time-unknown", is_time_unknown, true, false},
    {"untested", is_untested, true, false},
    {"woken", has_rested, true, false},
    {"too-late", is_too_late, true, false},
    {"gut-full", is_gut_full, true, false},
    {"too-long", is_too_long, false, true},
};

void winter_gate(struct care_build *b)
{
    enum { ROWS = sizeof gate_rows / sizeof *gate_rows };
    struct winter_rest_plan *w = &b->plan->winter_rest;
    const char **why = ARENA_ARRAY(b->arena, const char *, ROWS);
    for (size_t i = 0; i < ROWS; i++) {
        const struct gate_row *row = &gate_rows[i];
        if ((w->in_progress ? row->wakes : row->plans) && row->holds(b))
            why[w->why_count++] = row->why;
        /* of a kind that never rests nothing more is asked */
        if (i == 0 && w->why_count)
            break;
    }
    w->why = why;
}
