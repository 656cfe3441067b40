/* Everything that falls on a day, in order. */
#include "care/feeding.h"
#include "care/weight.h"

#include <math.h>
#include <string.h>

struct date_list {
    struct care_build *b;
    struct plan_date *items;
    size_t count, room;
};

static struct plan_date *add(struct date_list *list, struct date on, const char *what,
                             struct plan_fact *facts)
{
    if (list->count == list->room) {
        list->room = list->room ? list->room * 2 : 64;
        struct plan_date *more = ARENA_ARRAY(list->b->arena, struct plan_date, list->room);
        for (size_t i = 0; i < list->count; i++)
            more[i] = list->items[i];
        list->items = more;
    }
    list->items[list->count] = (struct plan_date){.on = on, .what = what, .facts = facts};
    return &list->items[list->count++];
}

/* A day on which the animal is brought. */
static void add_visit(struct date_list *list, struct date on, const char *what,
                      struct plan_fact *facts)
{
    add(list, on, what, facts)->is_visit = true;
}

static void add_feeding(struct date_list *list)
{
    struct care_build *b = list->b;
    const struct feeding_plan *f = &b->plan->feeding;
    for (size_t i = 0; i < f->next_count; i++)
        add(list, f->next[i], "meal", NULL);
    for (size_t i = 0; i < f->line_count; i++)
        for (size_t k = 0; f->lines[i].next == f->beside.days && k < f->lines[i].next_count; k++)
            add(list, f->lines[i].next[k], "insects", NULL);
    for (size_t i = 0; i < f->supplement_count; i++) {
        const char *word = bind_choice_word(supplement_choices, (int)f->supplements[i].what);
        const char *key = arena_format(b->arena, "supplement.%s", word);
        for (size_t k = 0; k < f->supplements[i].day_count; k++)
            add(list, f->supplements[i].days[k], "supplement",
                build_fact_text(b, "supplement", FACT_CODE, key, NULL));
    }
}

/* The only dose of its day has an hour to come at; several have theirs with the medicines. */
static struct plan_fact *name_and_hour(struct care_build *b, const struct medicine_plan *m,
                                       const struct dose_plan *only)
{
    struct plan_fact *hour = NULL;
    if (only && only->says_hour)
        hour = build_fact(b, "clock", FACT_CLOCK, only->minute, only->minute, NULL);
    return build_fact_text(b, "medicine", FACT_TEXT, m->name, hour);
}

/* A dose that the clinic gives is a visit; one that no open day would take is none, and is told:
 * nobody is sent to a closed door. */
static void add_visit_for_dose(struct date_list *list, size_t place, struct date day,
                               const struct dose_plan *only)
{
    struct care_build *b = list->b;
    const struct medicine_plan *m = &b->plan->medicines[place];
    const struct visit_medicine *written =
        LIST_AT(b->in->visit->medicines, struct visit_medicine, place);
    struct plan_fact *name = build_fact_text(b, "medicine", FACT_TEXT, m->name, NULL);
    if (date_compare(day, b->plan->on) == 0 && m->is_given_today)
        add(list, day, "given-here", name); /* due again tonight: nobody leaves and comes for it */
    if (date_compare(day, b->plan->on) <= 0)
        return;
    if (opening_is_closed(&b->plan->letterhead.opening, day))
        build_review(b, REVIEW_CONFLICT, "dose-on-closed-day", written->mark,
                     build_fact_date(b, "on", day, name));
    else
        add_visit(list, day, "given-here", name_and_hour(b, m, only));
}

/* A day of each medicine once, however many doses fall on it. */
static void add_doses(struct date_list *list)
{
    struct care_build *b = list->b;
    for (size_t i = 0; i < b->plan->medicine_count; i++) {
        const struct medicine_plan *m = &b->plan->medicines[i];
        struct date day;
        for (size_t at = 0, from = 0; plan_dose_day(m, &at, &day); from = at)
            if (m->is_given_here)
                add_visit_for_dose(list, i, day, at - from == 1 ? &m->doses[from] : NULL);
            else
                add(list, day, "dose", build_fact_text(b, "medicine", FACT_TEXT, m->name, NULL));
    }
}

static bool asks_dose_days(const struct care_plan *plan)
{
    for (size_t i = 0; i < plan->medicine_count; i++)
        if (plan->medicines[i].asks_days)
            return true;
    return false;
}

/* A check has the hour that is booked; a day with doses that of the first of them. */
static int next_visit_minute(const struct care_plan *plan)
{
    int first = -1;
    if (plan->has_recheck && date_compare(plan->next_visit, plan->recheck) == 0)
        return plan->booked_minute;
    for (size_t i = 0; i < plan->medicine_count; i++) {
        const struct dose_plan *dose = plan_next_dose_here(plan, &plan->medicines[i]);
        if (dose && dose->says_hour && date_compare(dose->on, plan->next_visit) == 0 &&
            (first < 0 || dose->minute < first))
            first = dose->minute;
    }
    return first;
}

/* The first of the ordered dates that the animal is brought for; none where it comes before on days
 * that nobody wrote. */
static void find_next_visit(struct care_build *b, const struct date_list *list)
{
    b->plan->next_visit_minute = -1;
    if (asks_dose_days(b->plan))
        return;
    for (size_t i = 0; i < list->count && !b->plan->has_next_visit; i++) {
        b->plan->has_next_visit =
            list->items[i].is_visit &&
            !opening_is_closed(&b->plan->letterhead.opening, list->items[i].on);
        b->plan->next_visit = list->items[i].on;
        b->plan->next_visit_for = list->items[i].what;
    }
    if (b->plan->has_next_visit)
        b->plan->next_visit_minute = next_visit_minute(b->plan);
}

/* ---- weighing ------------------------------------------------------------------------------- */

/* Days between two weighings of a stance, which its name says; 0: by the month, or not at home. */
static int days_of_stance(const char *stance)
{
    static const struct {
        const char *stance;
        int days;
    } rows[] = {
        {"daily", 1},  {"every-2-3-days", 3}, {"twice-weekly", 3},
        {"weekly", 7}, {"fortnightly", 14},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (strcmp(rows[i].stance, stance) == 0)
            return rows[i].days;
    return 0;
}

/* The first day on which the meal no longer weighs, or the next meal's, before it. */
static struct date after_meal(const struct feeding_plan *f, size_t meal, long heavy)
{
    struct date day = date_add_days(f->meal_days[meal], heavy + 1);
    if (meal + 1 < f->meal_day_count && date_compare(f->meal_days[meal + 1], day) < 0)
        return f->meal_days[meal + 1];
    return day;
}

/* Prey swallowed whole weighs for days: then the day of the meal, before it. A close rhythm moves
 * to the nearer side of the meal, and no weighing falls on the one before it. */
static struct date beside_meal(const struct care_build *b, struct date last, struct date day,
                               int step)
{
    const struct feeding_plan *f = &b->plan->feeding;
    long heavy = (long)build_limit(b, "weigh-after-meal-days");
    size_t before = 0; /* meals up to that day */
    while (f->diet == DIET_WHOLE_PREY && before < f->meal_day_count &&
           date_compare(f->meal_days[before], day) <= 0)
        before++;
    if (before == 0)
        return day;
    const struct date meal = f->meal_days[before - 1];
    long since = date_days_between(meal, day);
    if (since == 0 || since > heavy || date_compare(meal, b->plan->on) <= 0)
        return day;
    struct date later = after_meal(f, before - 1, heavy);
    bool is_nearer = step > 0 && date_days_between(day, later) < since;
    return is_nearer || date_compare(meal, last) <= 0 ? later : meal;
}

/* A day or two without hands leaves the rhythm alone, and its scale waits until they are over. */
static struct date past_hands_off(const struct care_build *b, struct date day)
{
    const struct stance_phase *phase = plan_phase_on(b->plan, "handling", day);
    bool is_off = phase && phase->has_until &&
                  (strcmp(phase->stance, "none") == 0 || strcmp(phase->stance, "carry-only") == 0);
    bool is_short = is_off && (double)date_days_between(phase->from, phase->until) <=
                                  build_limit(b, "hands-off-short-days");
    return is_short ? phase->until : day;
}

/* The weighing after `from`; false when the stance of that day wants none at home. */
static bool next_weighing(const struct care_build *b, struct date from, struct date *next,
                          int *step)
{
    const struct stance_phase *phase = plan_phase_on(b->plan, "weighing", from);
    const char *stance = phase ? phase->stance : "monthly";
    *step = days_of_stance(stance);
    *next = *step ? date_add_days(from, *step)
                  : date_add_months(from, (int)build_limit(b, "weigh-steady-months"));
    if (strcmp(stance, "not-at-home") != 0 && strcmp(stance, "as-written") != 0)
        return true;
    *next = phase->has_until ? phase->until : date_add_days(b->plan->on, FEEDING_PLANNER_DAYS + 1);
    return false;
}

/* Its weighings are those of the rest, with the gram of each day. */
static bool is_at_rest(const struct care_build *b, struct date day)
{
    const struct winter_rest_plan *w = &b->plan->winter_rest;
    return w->week_count > 0 && date_compare(day, w->start) >= 0 && date_compare(day, w->wake) < 0;
}

static struct date weigh_on(struct care_build *b, struct date last, struct date day, int step)
{
    struct date beside = beside_meal(b, last, day, step);
    if (date_compare(beside, day) != 0)
        b->plan->weight.prey_days = build_limit(b, "weigh-after-meal-days");
    return past_hands_off(b, beside);
}

/* The printed dates are the settled stance, day by day, each counted from the one before. */
static void add_weighing(struct date_list *list)
{
    struct care_build *b = list->b;
    const struct date on = b->plan->on, last = date_add_days(on, FEEDING_PLANNER_DAYS);
    const int first = (int)build_limit(b, "adoption-weigh-days");
    struct date after = on, day = on, next;
    int step;
    for (int i = 1; b->in->kind->new_home.value && i <= 2; i++) {
        struct date early = date_add_days(on, (long)i * first);
        if (!next_weighing(b, early, &next, &step))
            continue;
        after = weigh_on(b, after, early, first);
        add(list, after, "weigh", NULL);
    }
    while (date_compare(day, last) <= 0) {
        bool weigh = next_weighing(b, day, &next, &step);
        day = weigh ? weigh_on(b, day, next, step) : next;
        if (!weigh || date_compare(day, last) > 0 || date_compare(day, after) <= 0 ||
            is_at_rest(b, day))
            continue;
        weight_expect_on(b, day);
        add(list, day, "weigh", NULL);
    }
}

/* ---- the winter's rest ------------------------------------------------------------------------
 */

static void add_winter_rest(struct date_list *list)
{
    struct care_build *b = list->b;
    const struct winter_rest_plan *w = &b->plan->winter_rest;
    if (w->has_last_meal)
        add(list, w->last_meal, "rest-last-meal", NULL);
    for (size_t i = 0; i < w->step_count; i++)
        add(list, w->steps[i].on, "rest-cooling",
            build_fact(b, "warmth", FACT_TEMPERATURE, w->steps[i].to_c, w->steps[i].to_c, NULL));
    if (w->has_start && !w->in_progress)
        add(list, w->start, "rest-starts", NULL);
    for (size_t i = 0; i < w->week_count; i++)
        add(list, w->weeks[i].on, "rest-weigh",
            build_fact(b, "call", FACT_MASS, w->call_g, w->call_g, NULL));
    if (!w->has_wake)
        return;
    add(list, w->wake, "rest-wakes", NULL);
    add(list, w->eat_by, "rest-eats", NULL);
}

/* ---- checks ---------------------------------------------------------------------------------- */

static void tell_late_recheck(struct care_build *b, const struct finding_plan *usual)
{
    long days = date_days_between(b->plan->on, b->plan->recheck);
    if (!usual || (double)days <= usual->recheck_days)
        return;
    struct plan_fact *facts = build_fact_text(b, "finding", FACT_TEXT, usual->code, NULL);
    facts =
        build_fact(b, "usual", FACT_DAYS, usual->recheck_low_days, usual->recheck_high_days, facts);
    const struct visit_follow_up *next = &b->in->visit->follow_up;
    build_review(b, REVIEW_REMARK, "recheck-later-than-usual",
                 next->booked.known ? next->booked.at : next->recheck.at,
                 build_fact(b, "days", FACT_DAYS, (double)days, (double)days, facts));
}

/* The veterinarian's day; without one, what is usual for the finding or in a new home. */
static void add_checks(struct date_list *list)
{
    struct care_build *b = list->b;
    const struct finding_plan *usual = build_soonest_recheck(b);
    bool adopted = b->in->kind->new_home.value;
    if (b->plan->has_recheck) {
        const char *at = b->in->visit->follow_up.booked_at.text;
        add_visit(list, b->plan->recheck, "recheck",
                  at ? build_fact_text(b, "at", FACT_TEXT, at, NULL) : NULL);
        tell_late_recheck(b, usual);
    } else if (usual) {
        struct date latest = date_add_days(b->plan->on, (long)usual->recheck_days);
        add(list, build_check_day(b, latest, latest, (struct mark){0}), "recheck-usual",
            build_fact(b, "usual", FACT_DAYS, usual->recheck_low_days, usual->recheck_high_days,
                       NULL));
    } else if (adopted) {
        double days = build_limit(b, "adoption-check-days");
        struct date day = date_add_days(b->plan->on, (long)days);
        add(list, build_check_day(b, day, build_no_limit(day), (struct mark){0}), "recheck-usual",
            build_fact(b, "usual", FACT_DAYS, days, days, NULL));
    }
}

static void add_procedures(struct date_list *list)
{
    struct care_build *b = list->b;
    if (b->plan->referral.has_day)
        add(list, b->plan->referral.on, "referral",
            b->plan->referral.to ? build_fact_text(b, "what", FACT_TEXT, b->plan->referral.to, NULL)
                                 : NULL);
    for (size_t i = 0; i < b->plan->procedure_count; i++) {
        const struct procedure_plan *done = &b->plan->procedures[i];
        const char *name = arena_format(b->arena, "procedure.%s.name", done->code);
        struct date day, latest;
        if (procedure_check(b, i, &day, &latest))
            add_visit(list, build_check_day(b, day, latest, (struct mark){0}), "check-after",
                      build_fact_text(b, "what", FACT_CODE, name, NULL));
        if (done->has_result)
            add(list, done->result, "result", build_fact_text(b, "what", FACT_CODE, name, NULL));
    }
}

static void add_adoption(struct date_list *list)
{
    struct care_build *b = list->b;
    if (!b->in->kind->new_home.value)
        return;
    struct date latest = date_add_days(b->plan->on, (long)build_limit(b, "quarantine-high-days"));
    add(list, b->plan->on, "move-in", NULL);
    add(list, date_add_days(b->plan->on, (long)build_limit(b, "quarantine-low-days")),
        "quarantine-end", build_fact_date(b, "latest", latest, NULL));
}

static void order(struct date_list *list)
{
    for (size_t i = 1; i < list->count; i++) {
        struct plan_date moving = list->items[i];
        size_t k = i;
        for (; k > 0 && date_compare(list->items[k - 1].on, moving.on) > 0; k--)
            list->items[k] = list->items[k - 1];
        list->items[k] = moving;
    }
}

/* Where it is over age today or changed now for what was found: the next day on which things are
 * open, for nobody buys one tonight. Unless it is off, then the check says which one comes next, or
 * its age alone speaks against it: what measures right does no harm until then. */
static struct date lamp_change_day(const struct care_build *b)
{
    enum { LONGEST_CLOSED_DAYS = 31 };
    const struct care_plan *plan = b->plan;
    struct date day = date_add_days(plan->on, 1);
    if (!plan->uvb.lamp_overdue && !plan_holds(plan, "uvb-lamp", "replace-then-rehang"))
        return plan->uvb.lamp_due;
    if (plan->has_recheck && (plan_holds(plan, "uvb-lamp", "off-until") ||
                              plan->measured[MEASURE_UVB].verdict == VERDICT_IN_RANGE))
        return plan->recheck;
    for (int i = 0; i < LONGEST_CLOSED_DAYS && opening_is_closed(&plan->letterhead.opening, day);
         i++)
        day = date_add_days(day, 1);
    return day;
}

bool plan_has_date(const struct care_plan *plan, const char *what)
{
    for (size_t i = 0; i < plan->date_count; i++)
        if (strcmp(plan->dates[i].what, what) == 0)
            return true;
    return false;
}

bool dates_plan(struct care_build *b)
{
    struct date_list list = {.b = b};
    b->plan->quarantine_low_days = build_limit(b, "quarantine-low-days");
    b->plan->quarantine_high_days = build_limit(b, "quarantine-high-days");
    const struct uvb_plan *u = &b->plan->uvb;
    add_adoption(&list);
    add_checks(&list);
    add_procedures(&list);
    /* a lamp of the wrong strength is changed now */
    if (u->has_lamp_due && u->lamp != LAMP_STATE_TOO_STRONG && u->lamp != LAMP_STATE_TOO_WEAK)
        add(&list, lamp_change_day(b), "lamp-change", NULL);
    if (b->plan->water.part_now)
        add(&list, b->plan->water.retest, "water-test", NULL);
    add_feeding(&list);
    add_winter_rest(&list);
    add_doses(&list);
    add_weighing(&list);
    order(&list);
    find_next_visit(b, &list);
    b->plan->dates = list.items;
    b->plan->date_count = list.count;
    return true;
}
