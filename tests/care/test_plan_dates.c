/* Everything that falls on a day, counted off the calendar from the visit's day, 14 March 2026, a
 * Saturday: weighings and what moves them, checks, meals, doses, the lamp, the winter's rest, and
 * which of them the animal is brought for. The limits are those of the fixture: a meal weighs for 5
 * days, hands are off for a short time up to 2 days. */
#include "common/suite.h"

#include <string.h>

#include "care/feeding_fixture.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

enum { DAYS_MOST = 60, PLANNER_DAYS = 56 };

static struct stance_phase phases[4][3];
static struct topic_plan topics[4];

static void set_up(void)
{
    fixture_init(&f);
    memset(topics, 0, sizeof topics);
    f.plan.topics = topics;
    f.plan.topic_count = 0;
    feeding()->diet = DIET_INSECTS;
}

static void again(void)
{
    tear_down();
    set_up();
}

static struct date in_days(int days)
{
    return date_add_days(f.plan.on, days);
}

/* A stance from today for so many days (0: without an end), and then another. */
static void settle(const char *topic, const char *stance, int days, const char *then)
{
    const size_t place = f.plan.topic_count++;
    struct stance_phase *phase = phases[place];
    phase[0] = (struct stance_phase){.stance = stance, .from = f.plan.on, .because = "default"};
    topics[place] = (struct topic_plan){.topic = topic, .phases = phase, .phase_count = 1};
    if (!days)
        return;
    phase[0].has_until = true;
    phase[0].until = in_days(days);
    phase[1] = (struct stance_phase){.stance = then, .from = in_days(days), .because = "default"};
    topics[place].phase_count = 2;
}

static void open_on_weekdays(void)
{
    struct opening *opening = &f.plan.letterhead.opening;
    opening->is_known = true;
    for (int day = 0; day < 5; day++)
        opening->days[day] = (struct opening_day){{{8 * 60, 18 * 60}}, 1};
}

static void plan(void)
{
    ck_assert(dates_plan(&f.b));
    for (size_t i = 1; i < f.plan.date_count; i++)
        ck_assert_int_le(date_compare(f.plan.dates[i - 1].on, f.plan.dates[i].on), 0);
}

static const struct plan_date *date_of(const char *what, size_t place)
{
    for (size_t i = 0; i < f.plan.date_count; i++)
        if (strcmp(f.plan.dates[i].what, what) == 0 && place-- == 0)
            return &f.plan.dates[i];
    return NULL;
}

/* "7 14 21": on which days from the visit on it falls. */
static const char *days_of(const char *what)
{
    struct strbuf out;
    strbuf_init(&out, &f.arena);
    const struct plan_date *one;
    for (size_t i = 0; (one = date_of(what, i)); i++)
        strbuf_addf(&out, "%s%ld", i ? " " : "", date_days_between(f.plan.on, one->on));
    ck_assert_int_eq(plan_has_date(&f.plan, what), out.length > 0);
    return out.text;
}

static const char *planned(const char *what)
{
    plan();
    return days_of(what);
}

/* ---- weighings
 * ----------------------------------------------------------------------------------- */

START_TEST(each_stance_of_weighing_has_its_rhythm)
{
    static const struct {
        const char *stance;
        int days;
    } rows[] = {{"daily", 1},
                {"every-2-3-days", 3},
                {"twice-weekly", 3},
                {"weekly", 7},
                {"fortnightly", 14}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        settle("weighing", rows[i].stance, 0, NULL);
        plan();
        for (int k = 0; k < PLANNER_DAYS / rows[i].days; k++)
            ck_assert_int_eq(date_days_between(f.plan.on, date_of("weigh", (size_t)k)->on),
                             (long)(k + 1) * rows[i].days);
        ck_assert_ptr_null(date_of("weigh", (size_t)(PLANNER_DAYS / rows[i].days)));
    }
}
END_TEST

/* A healthy one by the month: 14 April is 31 days on, 14 May past the eight weeks. */
START_TEST(a_steady_one_is_weighed_by_the_month)
{
    ck_assert_str_eq(planned("weigh"), "31");
    again();
    settle("weighing", "monthly", 0, NULL);
    ck_assert_str_eq(planned("weigh"), "31");
}
END_TEST

/* Not at home: until it is over, and then from that day on. */
START_TEST(what_is_not_weighed_at_home)
{
    static const char *const stances[] = {"not-at-home", "as-written"};
    for (int i = 0; i < COUNT(stances); i++) {
        again();
        settle("weighing", stances[i], 0, NULL);
        ck_assert_str_eq(planned("weigh"), "");
        again();
        settle("weighing", stances[i], 10, "fortnightly");
        ck_assert_str_eq(planned("weigh"), "24 38 52");
    }
}
END_TEST

/* Swallowed whole it weighs for five days: then the day of the meal or the first day after. */
START_TEST(a_meal_moves_the_weighing)
{
    static const struct {
        const char *stance;
        int meals[3]; /* days from the visit on; 0: none */
        enum diet_kind diet;
        const char *days; /* the first ones */
        bool moved;
    } rows[] = {
        {"weekly", {5}, DIET_WHOLE_PREY, "5 12 19", true},  /* 2 before, 4 behind */
        {"weekly", {4}, DIET_WHOLE_PREY, "4 11 18", true},  /* as far: before it */
        {"weekly", {3}, DIET_WHOLE_PREY, "9 16 23", true},  /* 4 before, 2 behind */
        {"weekly", {2}, DIET_WHOLE_PREY, "8 15 22", true},  /* the fifth day still weighs */
        {"weekly", {1}, DIET_WHOLE_PREY, "7 14 21", false}, /* the sixth does not */
        {"weekly", {7}, DIET_WHOLE_PREY, "7 14 21", false}, /* on the day of the meal, before it */
        {"weekly", {8}, DIET_WHOLE_PREY, "7 14 21", false}, /* the 14th is the sixth day */
        {"weekly", {9}, DIET_WHOLE_PREY, "7 15 22", true},
        {"weekly", {3, 8, 9}, DIET_WHOLE_PREY, "8 15 22", true},
        {"weekly", {1, 3, 20}, DIET_WHOLE_PREY, "9 16 20", true}, /* the next is far */
        {"weekly", {3, 8}, DIET_WHOLE_PREY, "8 15 22", true},     /* before the next meal */
        {"weekly", {5}, DIET_INSECTS, "7 14 21", false},
        {"twice-weekly", {3}, DIET_WHOLE_PREY, "3 9 12", true}, /* none twice on one meal */
        {"monthly", {29}, DIET_WHOLE_PREY, "29", true},         /* no rhythm to keep */
        {"monthly", {26}, DIET_WHOLE_PREY, "26", true},
        {"monthly", {25}, DIET_WHOLE_PREY, "31", false},
    };
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        struct date meals[3];
        size_t count = 0;
        for (; count < 3 && rows[i].meals[count]; count++)
            meals[count] = in_days(rows[i].meals[count]);
        settle("weighing", rows[i].stance, 0, NULL);
        feeding()->diet = rows[i].diet;
        feeding()->meal_days = meals;
        feeding()->meal_day_count = count;
        const char *days = planned("weigh");
        ck_assert_msg(strncmp(days, rows[i].days, strlen(rows[i].days)) == 0, "row %d: %s", i,
                      days);
        ck_assert_msg((f.plan.weight.prey_days > 0) == rows[i].moved, "row %d", i);
    }
}
END_TEST

/* The meal of today was before the visit: the scale knows it already. */
START_TEST(a_meal_of_today_moves_nothing)
{
    const struct date meal = f.plan.on;
    settle("weighing", "twice-weekly", 0, NULL);
    feeding()->diet = DIET_WHOLE_PREY;
    feeding()->meal_days = &meal;
    feeding()->meal_day_count = 1;
    ck_assert_int_eq(strncmp(planned("weigh"), "3 6 9", 5), 0);
}
END_TEST

/* A day or two without hands: the scale waits until they are over. */
START_TEST(hands_off_for_a_short_time_move_the_weighing)
{
    static const struct {
        const char *stance;
        int days; /* from the seventh on; 0: without an end */
        const char *first;
    } rows[] = {{"none", 2, "9 "}, {"carry-only", 2, "9 "}, {"none", 1, "8 "},
                {"none", 3, "7 "}, {"short-only", 2, "7 "}, {"none", 0, "7 "}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        settle("weighing", "weekly", 0, NULL);
        settle("handling", "usual", 7, rows[i].stance);
        struct stance_phase *off = &phases[1][1];
        off->has_until = rows[i].days > 0;
        off->until = in_days(7 + rows[i].days);
        if (rows[i].days) {
            phases[1][2] = phases[1][0];
            phases[1][2].has_until = false;
            phases[1][2].from = off->until;
            topics[1].phase_count = 3;
        }
        ck_assert_msg(strncmp(planned("weigh"), rows[i].first, 2) == 0, "row %d: %s", i,
                      days_of("weigh"));
    }
}
END_TEST

/* Weighings of the rest are those of the rest, from its first day to the day before it wakes. */
START_TEST(a_resting_one_has_the_weighings_of_the_rest)
{
    static const struct {
        int start, wake;
        size_t weeks;
        bool rests;
    } rows[] = {{14, 21, 1, true},
                {15, 21, 1, false},
                {10, 15, 1, true},
                {10, 14, 1, false},
                {10, 20, 0, false}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        settle("weighing", "fortnightly", 0, NULL);
        struct winter_rest_plan *w = &f.plan.winter_rest;
        w->start = in_days(rows[i].start);
        w->wake = in_days(rows[i].wake);
        w->week_count = rows[i].weeks;
        w->weeks[0].on = in_days(12);
        ck_assert_msg(strcmp(planned("weigh"), rows[i].rests ? "28 42 56" : "14 28 42 56") == 0,
                      "row %d: %s", i, days_of("weigh"));
    }
}
END_TEST

/* ---- a new home
 * ---------------------------------------------------------------------------------- */

START_TEST(a_new_home_is_weighed_in_its_first_weeks)
{
    f.kind.new_home = fixture_flag(true);
    plan();
    ck_assert_str_eq(days_of("weigh"), "7 14 31");
    ck_assert_str_eq(days_of("move-in"), "0");
    ck_assert_str_eq(days_of("quarantine-end"), "90");
    const struct plan_fact *latest = date_of("quarantine-end", 0)->facts;
    ck_assert_str_eq(latest->name, "latest");
    ck_assert_int_eq(date_days_between(f.plan.on, latest->date), 180);
    ck_assert_double_eq(f.plan.quarantine_low_days, 90);
    ck_assert_double_eq(f.plan.quarantine_high_days, 180);
    ck_assert_str_eq(days_of("recheck-usual"), "14");
    again();
    f.kind.new_home = fixture_flag(true);
    settle("weighing", "weekly", 0, NULL);
    ck_assert_str_eq(planned("weigh"), "7 14 21 28 35 42 49 56");
    again();
    f.kind.new_home = fixture_flag(true);
    settle("weighing", "not-at-home", 0, NULL);
    ck_assert_str_eq(planned("weigh"), "");
    again();
    plan();
    ck_assert_str_eq(days_of("move-in"), "");
    ck_assert_str_eq(days_of("quarantine-end"), "");
    ck_assert_str_eq(days_of("recheck-usual"), "");
}
END_TEST

/* ---- checks
 * -------------------------------------------------------------------------------------- */

static const struct finding_plan ill = {.code = "burn",
                                        .severity = SEVERITY_MILD,
                                        .has_recheck = true,
                                        .recheck_low_days = 5,
                                        .recheck_high_days = 7,
                                        .recheck_days = 7};

START_TEST(the_veterinarians_day_stands)
{
    found(&ill, 1);
    f.kind.new_home = fixture_flag(true);
    f.plan.has_recheck = true;
    f.plan.recheck = in_days(7);
    plan();
    ck_assert_str_eq(days_of("recheck"), "7");
    ck_assert(date_of("recheck", 0)->is_visit);
    ck_assert_ptr_null(date_of("recheck", 0)->facts);
    ck_assert_str_eq(days_of("recheck-usual"), "");
    ck_assert_ptr_null(fixture_review(&f, "recheck-later-than-usual"));
    f.visit.follow_up.booked_at = fixture_text("10:30");
    f.plan.recheck = in_days(8); /* a day later than is usual */
    plan();
    ck_assert_str_eq(date_of("recheck", 0)->facts->text, "10:30");
    const struct review *told = fixture_review(&f, "recheck-later-than-usual");
    ck_assert_ptr_nonnull(told);
    ck_assert_double_eq(fixture_fact(told, "days")->low, 8);
    ck_assert_double_eq(fixture_fact(told, "usual")->low, 5);
    ck_assert_double_eq(fixture_fact(told, "usual")->high, 7);
    ck_assert_str_eq(fixture_fact(told, "finding")->text, "burn");
}
END_TEST

START_TEST(without_a_finding_no_day_is_late)
{
    f.plan.has_recheck = true;
    f.plan.recheck = in_days(50);
    plan();
    ck_assert_str_eq(days_of("recheck"), "50");
    ck_assert_ptr_null(fixture_review(&f, "recheck-later-than-usual"));
}
END_TEST

START_TEST(without_her_day_it_is_the_usual_one)
{
    found(&ill, 1);
    plan();
    ck_assert_str_eq(days_of("recheck-usual"), "7");
    ck_assert(!date_of("recheck-usual", 0)->is_visit);
    ck_assert_double_eq(date_of("recheck-usual", 0)->facts->low, 5);
    ck_assert_double_eq(date_of("recheck-usual", 0)->facts->high, 7);
}
END_TEST

/* Nobody is sent to a closed door: Friday before Saturday's check, and what moved has no place in a
 * file. */
START_TEST(checks_are_on_open_days)
{
    const struct procedure wash = {0};
    const struct procedure *entry = &wash;
    const struct procedure_plan done = {.code = "wash", .has_check = true, .check = in_days(7)};
    for (int kind = 0; kind < 3; kind++) {
        again();
        open_on_weekdays();
        if (kind == 0)
            found(&ill, 1);
        if (kind == 1)
            f.kind.new_home = fixture_flag(true);
        if (kind == 2) {
            f.b.procedures = &entry;
            f.plan.procedures = &done;
            f.plan.procedure_count = 1;
        }
        const char *days = planned(kind == 2 ? "check-after" : "recheck-usual");
        ck_assert_msg(strcmp(days, kind == 0   ? "6"
                                   : kind == 1 ? "16"
                                               : "6") == 0,
                      "%d: %s", kind, days);
        ck_assert_ptr_nonnull(f.plan.review);
        for (const struct review *r = f.plan.review; r; r = r->next)
            ck_assert_ptr_null(r->at.file);
    }
}
END_TEST

START_TEST(what_was_done_is_looked_at_and_told_of)
{
    const struct procedure swab = {0}, wash = {0};
    const struct procedure *entries[] = {&swab, &wash};
    const struct procedure_plan done[] = {
        {.code = "swab", .has_result = true, .result = in_days(4)},
        {.code = "wash", .has_check = true, .check = in_days(3)}};
    f.b.procedures = entries;
    f.plan.procedures = done;
    f.plan.procedure_count = 2;
    f.plan.referral.to = "the eye clinic";
    plan();
    ck_assert_str_eq(days_of("result"), "4");
    ck_assert_str_eq(date_of("result", 0)->facts->text, "procedure.swab.name");
    ck_assert(!date_of("result", 0)->is_visit);
    ck_assert_str_eq(days_of("check-after"), "3");
    ck_assert_str_eq(date_of("check-after", 0)->facts->text, "procedure.wash.name");
    ck_assert(date_of("check-after", 0)->is_visit);
    ck_assert_str_eq(days_of("referral"), ""); /* nobody knows when */
    f.plan.referral.has_day = true;
    f.plan.referral.on = in_days(5);
    plan();
    ck_assert_str_eq(days_of("referral"), "5");
    ck_assert(!date_of("referral", 0)->is_visit);
    ck_assert_str_eq(date_of("referral", 0)->facts->text, "the eye clinic");
    f.plan.referral.to = NULL;
    plan();
    ck_assert_ptr_null(date_of("referral", 0)->facts);
}
END_TEST

/* ---- what is given
 * ------------------------------------------------------------------------------- */

START_TEST(meals_insects_and_powders_have_their_days)
{
    const struct date powders[] = {in_days(2), in_days(9)}, beside[] = {in_days(1), in_days(4)},
                      others[] = {in_days(6)};
    const struct supplement_plan supplements[] = {
        {.what = SUPPLEMENT_CALCIUM, .days = powders, .day_count = 1},
        {.what = SUPPLEMENT_MULTIVITAMIN, .days = powders, .day_count = 2}};
    feeding()->next[0] = in_days(3);
    feeding()->next[1] = in_days(10);
    feeding()->next_count = 2;
    feeding()->supplements = supplements;
    feeding()->supplement_count = 2;
    feeding()->beside.days = beside;
    for (size_t own = 0; own < 2; own++) {
        feeding()->lines[own] = (struct feeding_line){.next = beside, .next_count = 2};
        feeding()->lines[!own] = (struct feeding_line){.next = others, .next_count = 1};
        feeding()->line_count = 2;
        plan();
        ck_assert_str_eq(days_of("meal"), "3 10");
        ck_assert_str_eq(days_of("insects"), "1 4"); /* those of the other line are meals */
        ck_assert_str_eq(days_of("supplement"), "2 2 9");
        ck_assert_str_eq(date_of("supplement", 0)->facts->text, "supplement.calcium");
        ck_assert_str_eq(date_of("supplement", 2)->facts->text, "supplement.multivitamin");
        ck_assert(!date_of("meal", 0)->is_visit && !date_of("supplement", 0)->is_visit);
    }
    feeding()->lines[1].next = beside; /* of no line any more */
    feeding()->line_count = 1;
    feeding()->lines[0].next = others;
    plan();
    ck_assert_str_eq(days_of("insects"), "");
    feeding()->line_count = 0;
    plan();
    ck_assert_str_eq(days_of("insects"), "");
}
END_TEST

static struct medicine_plan medicines[2];

/* Each day once, however many doses fall on it. */
START_TEST(doses_at_home_have_a_day_each)
{
    const struct dose_plan drops[] = {
        {.on = in_days(0)}, {.on = in_days(1)}, {.on = in_days(1)}, {.on = in_days(2)}};
    medicines[0] = (struct medicine_plan){.name = "Drops", .doses = drops, .listed = 4};
    medicines[1] = (struct medicine_plan){.name = "Salve", .doses = drops, .listed = 1};
    f.plan.medicines = medicines;
    f.plan.medicine_count = 2;
    plan();
    ck_assert_str_eq(days_of("dose"), "0 0 1 2");
    ck_assert_str_eq(date_of("dose", 0)->facts->text, "Drops");
    ck_assert_str_eq(date_of("dose", 1)->facts->text, "Salve");
    ck_assert_str_eq(days_of("given-here"), "");
    ck_assert(!f.plan.has_next_visit);
}
END_TEST

/* Saturday's is given at the visit; nobody is sent to a closed door on Sunday. */
START_TEST(doses_of_the_clinic_are_visits_on_open_days)
{
    const struct dose_plan shots[] = {
        {.on = in_days(0)}, {.on = in_days(1)}, {.on = in_days(2)}, {.on = in_days(9)}};
    const struct visit_medicine written = {.name = fixture_text("Shot")};
    medicines[0] =
        (struct medicine_plan){.name = "Shot", .doses = shots, .listed = 4, .is_given_here = true};
    f.visit.medicines = fixture_list(&f, &written, 1, sizeof written);
    f.plan.medicines = medicines;
    f.plan.medicine_count = 1;
    open_on_weekdays();
    plan();
    ck_assert_str_eq(days_of("given-here"), "2 9");
    ck_assert_str_eq(days_of("dose"), "");
    ck_assert(date_of("given-here", 0)->is_visit);
    ck_assert_str_eq(date_of("given-here", 0)->facts->text, "Shot");
    const struct review *told = fixture_review(&f, "dose-on-closed-day");
    ck_assert_ptr_nonnull(told);
    ck_assert_int_eq(date_days_between(f.plan.on, fixture_fact(told, "on")->date), 1);
    ck_assert(f.plan.has_next_visit);
    ck_assert_str_eq(f.plan.next_visit_for, "given-here");
    ck_assert_int_eq(date_days_between(f.plan.on, f.plan.next_visit), 2);
}
END_TEST

/* Monday's visit for two doses begins with the earlier of those hours that are known; a check has
 * its booked one. */
START_TEST(the_next_visit_has_the_hour_of_its_first_dose)
{
    static const struct {
        bool known[2];
        int recheck; /* days on; 0: none */
        int minute;
    } rows[] = {{{true, true}, 0, 680},  {{true, false}, 0, 920}, {{false, true}, 0, 680},
                {{false, false}, 0, -1}, {{true, true}, 5, 680},  {{true, true}, 2, 615}};
    for (int i = 0; i < (int)(sizeof rows / sizeof *rows); i++) {
        tear_down();
        set_up();
        const struct dose_plan shots[] = {
            {.on = in_days(2), .minute = 920, .says_hour = rows[i].known[0]},  /* 15:20 */
            {.on = in_days(2), .minute = 680, .says_hour = rows[i].known[1]}}; /* 11:20 */
        const struct visit_medicine own[] = {{.name = fixture_text("Shot")},
                                             {.name = fixture_text("Saline")}};
        for (int k = 0; k < 2; k++)
            medicines[k] = (struct medicine_plan){
                .name = own[k].name.text, .doses = &shots[k], .listed = 1, .is_given_here = true};
        f.visit.medicines = fixture_list(&f, own, 2, sizeof *own);
        f.plan.medicines = medicines;
        f.plan.medicine_count = 2;
        f.plan.has_recheck = rows[i].recheck > 0;
        f.plan.recheck = in_days(rows[i].recheck);
        f.plan.booked_minute = 615; /* 10:15 */
        open_on_weekdays();
        plan();
        ck_assert(f.plan.has_next_visit);
        ck_assert_int_eq(date_days_between(f.plan.on, f.plan.next_visit), 2);
        ck_assert_msg(f.plan.next_visit_minute == rows[i].minute, "row %d: %d", i,
                      f.plan.next_visit_minute);
        const struct plan_fact *name = date_of("given-here", 0)->facts;
        ck_assert_str_eq(name->text, "Shot");
        ck_assert_int_eq(name->next != NULL, rows[i].known[0]);
        if (name->next)
            ck_assert(name->next->kind == FACT_CLOCK && (int)name->next->low == 920);
    }
}
END_TEST

/* Two of one day have no hour of the day: theirs stand with the medicine. */
START_TEST(two_doses_of_a_day_have_no_hour_of_the_day)
{
    const struct dose_plan shots[] = {{.on = in_days(2), .minute = 600, .says_hour = true},
                                      {.on = in_days(2), .minute = 960, .says_hour = true},
                                      {.on = in_days(3), .minute = 600, .says_hour = true}};
    const struct visit_medicine own = {.name = fixture_text("Shot")};
    medicines[0] =
        (struct medicine_plan){.name = "Shot", .doses = shots, .listed = 3, .is_given_here = true};
    f.visit.medicines = fixture_list(&f, &own, 1, sizeof own);
    f.plan.medicines = medicines;
    f.plan.medicine_count = 1;
    plan();
    ck_assert_ptr_null(date_of("given-here", 0)->facts->next);
    ck_assert_int_eq((int)date_of("given-here", 1)->facts->next->low, 600);
}
END_TEST

/* ---- lamp, water, rest
 * --------------------------------------------------------------------------- */

START_TEST(a_lamp_is_changed_when_it_is_due)
{
    static const struct {
        bool has_due, overdue;
        enum lamp_state state;
        const char *stance;
        bool has_recheck, known_hours;
        const char *days;
    } rows[] = {
        {true, false, LAMP_STATE_FINE, NULL, false, false, "40"},
        {false, false, LAMP_STATE_FINE, NULL, false, false, ""},
        {true, false, LAMP_STATE_TOO_STRONG, NULL, false, false, ""},
        {true, false, LAMP_STATE_TOO_WEAK, NULL, false, false, ""},
        {true, true, LAMP_STATE_DUE, NULL, false, false, "1"},
        {true, true, LAMP_STATE_DUE, NULL, false, true, "2"}, /* Monday, when shops are open */
        {true, false, LAMP_STATE_FINE, "replace-then-rehang", false, false, "1"},
        {true, true, LAMP_STATE_DUE, "off-until", true, false, "20"},
        {true, true, LAMP_STATE_DUE, "off-until", false, false, "1"},
        {true, false, LAMP_STATE_FINE, "off-until", true, false, "40"},
        {true, true, LAMP_STATE_DUE, "as-usual", true, false, "1"},
    };
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        f.plan.uvb.has_lamp_due = rows[i].has_due;
        f.plan.uvb.lamp_overdue = rows[i].overdue;
        f.plan.uvb.lamp = rows[i].state;
        f.plan.uvb.lamp_due = in_days(40);
        f.plan.has_recheck = rows[i].has_recheck;
        f.plan.recheck = in_days(20);
        if (rows[i].stance)
            settle("uvb-lamp", rows[i].stance, 0, NULL);
        if (rows[i].known_hours)
            open_on_weekdays();
        ck_assert_msg(strcmp(planned("lamp-change"), rows[i].days) == 0, "row %d: %s", i,
                      days_of("lamp-change"));
    }
}
END_TEST

/* No shop is closed for longer than a month: nobody waits for one that never opens. */
START_TEST(a_lamp_waits_a_month_at_most)
{
    f.plan.uvb.has_lamp_due = f.plan.uvb.lamp_overdue = true;
    f.plan.letterhead.opening.is_known = true;
    ck_assert_str_eq(planned("lamp-change"), "32");
}
END_TEST

START_TEST(water_is_tested_again_where_a_part_is_changed)
{
    f.plan.water.retest = in_days(2);
    ck_assert_str_eq(planned("water-test"), "");
    f.plan.water.part_now = true;
    ck_assert_str_eq(planned("water-test"), "2");
}
END_TEST

START_TEST(the_days_of_a_rest)
{
    for (int in_progress = 0; in_progress < 2; in_progress++) {
        again();
        struct winter_rest_plan *w = &f.plan.winter_rest;
        w->in_progress = in_progress;
        w->has_last_meal = w->has_start = w->has_wake = true;
        w->last_meal = in_days(5);
        w->start = in_days(20);
        w->wake = in_days(50);
        w->eat_by = in_days(60);
        w->steps[0].on = in_days(15);
        w->steps[0].to_c = 15;
        w->steps[1].on = in_days(18);
        w->step_count = 2;
        w->weeks[0].on = in_days(27);
        w->week_count = 1;
        w->call_g = 90;
        plan();
        ck_assert_str_eq(days_of("rest-last-meal"), "5");
        ck_assert_str_eq(days_of("rest-cooling"), "15 18");
        ck_assert_double_eq(date_of("rest-cooling", 0)->facts->low, 15);
        ck_assert_str_eq(days_of("rest-starts"), in_progress ? "" : "20");
        ck_assert_str_eq(days_of("rest-weigh"), "27");
        ck_assert_double_eq(date_of("rest-weigh", 0)->facts->low, 90);
        ck_assert_str_eq(days_of("rest-wakes"), "50");
        ck_assert_str_eq(days_of("rest-eats"), "60");
        w->has_last_meal = w->has_start = w->has_wake = false;
        w->step_count = w->week_count = 0;
        plan();
        ck_assert_str_eq(days_of("rest-last-meal"), "");
        ck_assert_str_eq(days_of("rest-starts"), "");
        ck_assert_str_eq(days_of("rest-wakes"), "");
        ck_assert_str_eq(days_of("rest-eats"), "");
    }
}
END_TEST

/* ---- the next visit
 * ------------------------------------------------------------------------------ */

START_TEST(the_next_visit_is_the_first_on_an_open_day)
{
    const struct procedure wash = {0};
    const struct procedure *entry = &wash;
    const struct procedure_plan done = {.code = "wash", .has_check = true, .check = in_days(3)};
    f.b.procedures = &entry;
    f.plan.procedures = &done;
    f.plan.procedure_count = 1;
    f.plan.has_recheck = true;
    f.plan.recheck = in_days(1); /* a Sunday */
    plan();
    ck_assert(f.plan.has_next_visit);
    ck_assert_str_eq(f.plan.next_visit_for, "recheck");
    again();
    f.b.procedures = &entry;
    f.plan.procedures = &done;
    f.plan.procedure_count = 1;
    f.plan.has_recheck = true;
    f.plan.recheck = in_days(1);
    open_on_weekdays();
    plan();
    ck_assert_str_eq(f.plan.next_visit_for, "check-after");
    ck_assert_int_eq(date_days_between(f.plan.on, f.plan.next_visit), 3);
}
END_TEST

/* Where it comes before on days that nobody wrote, none is the next. */
START_TEST(no_visit_is_the_next_where_days_are_not_written)
{
    for (size_t place = 0; place < 2; place++) {
        again();
        memset(medicines, 0, sizeof medicines);
        medicines[place].asks_days = true;
        f.plan.medicines = medicines;
        f.plan.medicine_count = 2;
        f.plan.has_recheck = true;
        f.plan.recheck = in_days(5);
        plan();
        ck_assert(!f.plan.has_next_visit);
        f.plan.medicine_count = place; /* not among them */
        plan();
        ck_assert(f.plan.has_next_visit);
    }
}
END_TEST

/* However many there are, none is lost, and those of a day stand as they were found. */
START_TEST(many_days_are_kept_in_order)
{
    struct date powders[DAYS_MOST];
    for (int i = 0; i < DAYS_MOST; i++)
        powders[i] = in_days(i + 1);
    const struct supplement_plan two[] = {
        {.what = SUPPLEMENT_CALCIUM, .days = powders, .day_count = DAYS_MOST},
        {.what = SUPPLEMENT_MULTIVITAMIN, .days = powders, .day_count = DAYS_MOST}};
    settle("weighing", "daily", 0, NULL);
    feeding()->supplements = two;
    feeding()->supplement_count = 2;
    plan();
    ck_assert_uint_eq(f.plan.date_count, 2 * DAYS_MOST + PLANNER_DAYS);
    for (size_t i = 0; i < DAYS_MOST; i++) {
        const struct plan_date *calcium = date_of("supplement", 2 * i),
                               *vitamins = date_of("supplement", 2 * i + 1);
        ck_assert_str_eq(calcium->facts->text, "supplement.calcium");
        ck_assert_str_eq(vitamins->facts->text, "supplement.multivitamin");
        ck_assert_int_eq(date_compare(calcium->on, vitamins->on), 0);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("plan_dates");
    TCase *tcase = tcase_create("plan_dates");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, each_stance_of_weighing_has_its_rhythm);
    tcase_add_test(tcase, a_steady_one_is_weighed_by_the_month);
    tcase_add_test(tcase, what_is_not_weighed_at_home);
    tcase_add_test(tcase, a_meal_moves_the_weighing);
    tcase_add_test(tcase, a_meal_of_today_moves_nothing);
    tcase_add_test(tcase, hands_off_for_a_short_time_move_the_weighing);
    tcase_add_test(tcase, a_resting_one_has_the_weighings_of_the_rest);
    tcase_add_test(tcase, a_new_home_is_weighed_in_its_first_weeks);
    tcase_add_test(tcase, the_veterinarians_day_stands);
    tcase_add_test(tcase, without_a_finding_no_day_is_late);
    tcase_add_test(tcase, without_her_day_it_is_the_usual_one);
    tcase_add_test(tcase, checks_are_on_open_days);
    tcase_add_test(tcase, what_was_done_is_looked_at_and_told_of);
    tcase_add_test(tcase, meals_insects_and_powders_have_their_days);
    tcase_add_test(tcase, doses_at_home_have_a_day_each);
    tcase_add_test(tcase, doses_of_the_clinic_are_visits_on_open_days);
    tcase_add_test(tcase, the_next_visit_has_the_hour_of_its_first_dose);
    tcase_add_test(tcase, two_doses_of_a_day_have_no_hour_of_the_day);
    tcase_add_test(tcase, a_lamp_is_changed_when_it_is_due);
    tcase_add_test(tcase, a_lamp_waits_a_month_at_most);
    tcase_add_test(tcase, water_is_tested_again_where_a_part_is_changed);
    tcase_add_test(tcase, the_days_of_a_rest);
    tcase_add_test(tcase, the_next_visit_is_the_first_on_an_open_day);
    tcase_add_test(tcase, no_visit_is_the_next_where_days_are_not_written);
    tcase_add_test(tcase, many_days_are_kept_in_order);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
