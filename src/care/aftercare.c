/* What the veterinarian wrote of the days after a procedure, taken into the plan. */
#include <ctype.h>
#include <string.h>

#include "care/build.h"
#include "records/opening.h"

/* More than a snake's stomach is said to hold, and not told as meant by the veterinarian. */
static void review_stomach(struct care_build *b, const struct visit_aftercare *one)
{
    if (!one->amount.known || !b->plan->patient.has_mass)
        return;
    /* a millilitre of food weighs about a gram */
    double percent = 100 * one->amount.value / b->plan->patient.mass_g;
    double most = limit_find(b->in->reference, "stomach-percent")->range.high;
    if (percent > most)
        build_review(b, REVIEW_IMPLAUSIBLE, "more-than-the-stomach-holds", one->amount.at,
                     build_fact(b, "percent", FACT_PERCENT, percent, percent,
                                build_fact(b, "most", FACT_PERCENT, most, most, NULL)));
}

static void take(struct care_build *b, const struct visit_aftercare *one)
{
    struct aftercare_plan *to = &b->plan->aftercare;
    if (one->hours.known) {
        to->dry_hours = one->hours.value;
        to->dry_times = one->times.known ? one->times.value : 0;
        to->has_dry_from = one->from.text != NULL;
        to->dry_from_minute = one->from.text ? opening_minute(one->from.text) : 0;
    }
    if (one->awake_by.text) {
        to->has_awake_by = true;
        to->awake_by_minute = opening_minute(one->awake_by.text);
    }
    if (one->amount.known)
        to->tube_ml = one->amount.value;
    if (one->every_h.known)
        to->tube_every_h = one->every_h.value;
    if (one->first.known) {
        to->has_tube_first = true;
        to->tube_first = one->first.date;
    }
}

/* "At 18:00": the one time of day in a text; -1 for none or several. */
static int only_time_in(const char *text)
{
    int minute = -1;
    for (const char *at = text; text && (at = strchr(at, ':')) != NULL; at++) {
        const bool has_ten = at - text >= 2 && isdigit((unsigned char)at[-2]);
        if (at == text || !isdigit((unsigned char)at[-1]) || !isdigit((unsigned char)at[1]) ||
            !isdigit((unsigned char)at[2]))
            continue;
        char time[6] = {has_ten ? at[-2] : '0', at[-1], ':', at[1], at[2], '\0'};
        const int found = opening_minute(time);
        if (found < 0 || minute >= 0)
            return -1;
        minute = found;
    }
    return minute;
}

/* What goes into a turtle's ear at home is followed by its time out of the water, as the words of
 * that route say: once a day that time begins at the hour of its directions. */
static void take_dry_start(struct care_build *b)
{
    struct aftercare_plan *to = &b->plan->aftercare;
    const struct list *medicines = &b->in->visit->medicines;
    if (to->has_dry_from || to->dry_hours <= 0 || to->dry_times != 1 ||
        b->in->species->group.value != GROUP_TURTLE)
        return;
    for (size_t i = 0; i < medicines->count && !to->has_dry_from; i++) {
        const struct visit_medicine *m = LIST_AT(*medicines, struct visit_medicine, i);
        const bool at_home = !m->given.known || m->given.value == GIVEN_AT_HOME;
        const int minute = only_time_in(m->directions.text);
        if (!at_home || !m->route.known || m->route.value != ROUTE_IN_THE_EAR || minute < 0)
            continue;
        to->has_dry_from = true;
        to->dry_from_minute = minute;
    }
}

/* What the sheet has a field for that nobody filled is told before it is signed. */
static void review_field(struct care_build *b, const char *code)
{
    build_review(b, REVIEW_MISSING, code, (struct mark){0}, NULL);
}

bool aftercare_plan(struct care_build *b)
{
    const struct list *list = &b->in->visit->follow_up.aftercare;
    for (size_t i = 0; i < list->count; i++) {
        const struct visit_aftercare *one = LIST_AT(*list, struct visit_aftercare, i);
        review_stomach(b, one);
        take(b, one);
    }
    take_dry_start(b);
    if (b->plan->aftercare.tube_ml > 0)
        b->plan->aftercare.tube_food =
            written_medicine(&b->in->topics->written, b->in->visit, WRITTEN_FOOD);
    if (b->plan->aftercare.tube_ml > 0 && !b->plan->aftercare.tube_food)
        review_field(b, "tube-food-not-written");
    return true;
}

static bool keeps_dry(const struct care_build *b)
{
    static const char *const kept_dry[] = {"all-day-with-swims", "twice-a-day", "as-written"};
    for (size_t i = 0; i < sizeof kept_dry / sizeof *kept_dry; i++)
        if (plan_holds(b->plan, "dry-hours", kept_dry[i]))
            return true;
    return false;
}

/* What a sheet calls "what we wrote here" may be a finding's note, a medicine or an action of her
 * own. */
static bool has_own_words(const struct care_build *b)
{
    const struct visit *v = b->in->visit;
    for (size_t i = 0; i < v->findings.count; i++)
        if (LIST_AT(v->findings, struct visit_finding, i)->note.text)
            return true;
    for (size_t i = 0; i < v->decisions.count; i++)
        if (LIST_AT(v->decisions, struct visit_decision, i)->own.text)
            return true;
    return v->medicines.count > 0;
}

/* A bath of her own, now or later, of which no word is written. */
static bool waits_for_bath(const struct care_build *b)
{
    const struct topic_plan *bath = plan_topic(b->plan, "bath");
    bool waits = false;
    for (size_t i = 0; bath && i < bath->phase_count; i++)
        waits = waits || strcmp(bath->phases[i].stance, "as-written") == 0;
    if (!waits)
        return false;
    const struct whom_animal animal = build_animal(b);
    return !visit_writes_of(&animal, WRITTEN_BATH);
}

/* Tortoises drink in the bath, and skin on toes comes off in one: the sheet has a blank for it, as
 * instructions.yaml says. All others are told to give none. */
static bool has_bath_blank(const struct care_build *b)
{
    const bool stuck =
        b->in->species->group.value == GROUP_LIZARD && build_is_found(b, "stuck-toe-shed");
    return (stuck || b->in->species->group.value == GROUP_TORTOISE) && waits_for_bath(b);
}

/* The sheet points at words of hers, and there are none. */
static void review_words(struct care_build *b)
{
    static const struct {
        const char *topic, *stance, *code;
    } rows[] = {{"wound-care", "as-written", "wound-care-not-written"},
                {"bath", "as-written", "bath-not-written"},
                {"water-change", "as-written", "water-change-not-written"}};
    const bool blank = has_bath_blank(b);
    if (blank)
        review_field(b, "bath-blank-not-written");
    for (size_t i = 0; i < sizeof rows / sizeof *rows && !has_own_words(b); i++)
        if (plan_holds(b->plan, rows[i].topic, rows[i].stance) &&
            !(blank && strcmp(rows[i].topic, "bath") == 0))
            build_review(b, REVIEW_REMARK, rows[i].code, (struct mark){0}, NULL);
}

/* Did she say anything of its food, for today or for later? */
static bool has_food_decision(const struct care_build *b)
{
    const struct list *decisions = &b->in->visit->decisions;
    for (size_t i = 0; i < decisions->count; i++) {
        const char *topic = LIST_AT(*decisions, struct visit_decision, i)->topic.text;
        if (topic && strcmp(topic, "food") == 0)
            return true;
    }
    return false;
}

/* How long a gut rests after narcosis is hers to say: a snake waits for her word; what the sheet
 * lets all others eat once they are awake she is asked about. */
static void review_first_meal(struct care_build *b)
{
    const struct stance_phase *food = plan_phase_on(b->plan, "food", b->plan->on);
    if (food && food->end_by == PHASE_END_AWAKE && !has_food_decision(b))
        build_review(b, REVIEW_MISSING, "first-meal-once-awake", (struct mark){0},
                     build_fact_date(b, "on", plan_food_day(b->plan), NULL));
    bool is_open = food && !food->decision && strcmp(food->stance, "none-until-vet") == 0 &&
                   strncmp(food->because, "done:", strlen("done:")) == 0;
    if (is_open)
        review_field(b, "first-meal-not-written");
}

/* Where a turtle spends its nights that is dry for most of the day no record says: there is a blank
 * for it. */
static void review_dry_night(struct care_build *b)
{
    if (keeps_dry(b) && !build_animal(b).few_dry)
        review_field(b, "dry-night-not-written");
}

/* Dry hours that end before the wound may get wet, and hours that nobody ends, are asked about. */
static void review_dry_end(struct care_build *b)
{
    const struct stance_phase *hours = plan_phase_on(b->plan, "dry-hours", b->plan->on);
    const struct stance_phase *dry = plan_phase_on(b->plan, "dryness", b->plan->on);
    if (!hours || hours->decision || !keeps_dry(b))
        return;
    if (!hours->has_until && hours->end_by == PHASE_END_DATE) {
        review_field(b, "dry-hours-end-unsaid");
        return;
    }
    if (dry && hours->has_until && dry->has_until && strcmp(dry->stance, "dry-until") == 0 &&
        date_compare(hours->until, dry->until) < 0)
        build_review(
            b, REVIEW_CONFLICT, "dry-hours-end-before-wound", (struct mark){0},
            build_fact_date(b, "on", hours->until, build_fact_date(b, "beside", dry->until, NULL)));
}

/* The spot of a needle stays dry for a day, and a bath in a step of her own wets it. */
static void review_bath_after_blood(struct care_build *b)
{
    if (!written_step_says(&b->in->topics->written, b->in->visit, WRITTEN_BATH))
        return;
    for (size_t i = 0; i < b->plan->procedure_count; i++)
        if (strcmp(b->plan->procedures[i].code, "blood-sample") == 0)
            build_review(b, REVIEW_CONFLICT, "bath-after-blood-sample", (struct mark){0}, NULL);
}

/* Seen and not gone for at once: it is taken to be back in its place, which nobody wrote. */
static void review_prolapse(struct care_build *b)
{
    for (size_t i = 0; i < b->plan->procedure_count; i++)
        if (strcmp(b->plan->procedures[i].code, "prolapse-replaced") == 0)
            return;
    if (build_is_found(b, "prolapse") && !b->plan->go_now)
        build_review(b, REVIEW_REMARK, "prolapse-not-replaced", (struct mark){0}, NULL);
}

static void review_fields(struct care_build *b)
{
    const struct aftercare_plan *written = &b->plan->aftercare;
    bool in_tank = b->in->species->group.value == GROUP_TURTLE;
    if (keeps_dry(b) && written->dry_hours <= 0)
        review_field(b, "dry-hours-not-written");
    for (size_t i = 0; i < b->plan->procedure_count; i++) {
        const struct procedure_plan *done = &b->plan->procedures[i];
        const struct list *says = &b->procedures[i]->says;
        if (list_has_text(says, "awake-by") && !written->has_awake_by)
            review_field(b, "awake-by-not-written");
        if (list_has_text(says, "amount") && (written->tube_ml <= 0 || written->tube_every_h <= 0))
            review_field(b, "tube-not-written");
        if (list_has_text(says, "check") && !done->has_check)
            review_field(b, "next-treatment-not-written");
        if (list_has_text(says, "in-water") && in_tank && !done->in_water)
            review_field(b, "dressing-not-written");
    }
}

/* Hours that nothing asks for would stand on no page; so would a dressing in no water. */
bool aftercare_said_plan(struct care_build *b)
{
    review_fields(b);
    review_words(b);
    review_first_meal(b);
    review_dry_end(b);
    review_dry_night(b);
    review_bath_after_blood(b);
    review_prolapse(b);
    const struct list *list = &b->in->visit->follow_up.aftercare;
    bool is_dry = keeps_dry(b), in_tank = b->in->species->group.value == GROUP_TURTLE;
    bool good = true;
    for (size_t i = 0; i < list->count; i++) {
        const struct visit_aftercare *one = LIST_AT(*list, struct visit_aftercare, i);
        if (one->in_water.known && !in_tank) {
            diag_report_path(b->diag, DIAG_ERROR, "aftercare-of-another", one->in_water.at,
                             "follow-up.aftercare.in-water",
                             "is for an animal that swims; leave it out");
            good = false;
        }
        if (!one->hours.known || is_dry)
            continue;
        diag_report_path(b->diag, DIAG_ERROR, "aftercare-of-another", one->hours.at,
                         "follow-up.aftercare.hours",
                         "nothing keeps this animal dry by the hour, so they would stand on no "
                         "page; write dry-hours under done-today, or leave them out");
        good = false;
    }
    return good;
}

/* What stands empty on the sheet was told to who signs as not written. */
bool blanks_plan(struct care_build *b)
{
    static const char end[] = "-not-written";
    for (const struct review *r = b->plan->review; r; r = r->next) {
        size_t length = strlen(r->code), tail = sizeof end - 1;
        if (length > tail && strcmp(r->code + length - tail, end) == 0)
            b->plan->has_blanks = true;
    }
    return true;
}
