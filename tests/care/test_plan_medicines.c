/* Food by tube from the day on which the gut no longer rests until it is looked at, doses that were
 * given at the visit, and doses by the clock; days against the calendar from 14 March 2026. */
#include "common/suite.h"

#include <string.h>

#include "care/feeding_fixture.h"
#include "care/medicines.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

static struct stance_phase phases[2];
static struct topic_plan food;
static struct procedure_plan procedures[2];
static struct visit_medicine written;

static struct date in_days(int days)
{
    return date_add_days(f.plan.on, days);
}

/* The gut rests for so many days (0: it does not), and is then fed as she wrote. */
static void rest_for(int days, const char *then)
{
    phases[0] = (struct stance_phase){.stance = days ? "none-until-vet" : then, .from = f.plan.on};
    phases[1] = (struct stance_phase){.stance = then, .from = in_days(days)};
    food = (struct topic_plan){
        .topic = "food", .phases = phases, .phase_count = days ? (size_t)2 : (size_t)1};
    f.plan.topics = &food;
    f.plan.topic_count = 1;
}

static void set_up(void)
{
    fixture_init(&f);
    memset(procedures, 0, sizeof procedures);
    procedures[0].code = "x-ray";
    procedures[1].code = "feeding-tube-placed";
    f.plan.procedures = procedures;
    f.plan.procedure_count = 2;
    f.plan.aftercare.tube_ml = 5;
    f.plan.aftercare.tube_every_h = 24;
    rest_for(3, "vet-plan");
    written = (struct visit_medicine){.name = fixture_text("Drops"),
                                      .directions = fixture_text("into the eye"),
                                      .every_h = fixture_quantity(24)};
}

static void again(void)
{
    tear_down();
    set_up();
}

static const struct medicine_plan *tube(void)
{
    ck_assert(tube_food_plan(&f.b));
    return &f.plan.tube_food;
}

static long day_of(const struct medicine_plan *m, size_t dose)
{
    return date_days_between(f.plan.on, m->doses[dose].on);
}

/* ---- by tube
 * ------------------------------------------------------------------------------------- */

START_TEST(food_by_tube_is_planned_where_all_of_it_is_written)
{
    static const struct {
        double ml, every_h;
        const char *stance;
        bool planned;
    } rows[] = {{5, 24, "vet-plan", true},
                {0, 24, "vet-plan", false},
                {5, 0, "vet-plan", false},
                {5, 24, "small", false},
                {0.5, 0.5, "vet-plan", true}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        f.plan.aftercare.tube_ml = rows[i].ml;
        f.plan.aftercare.tube_every_h = rows[i].every_h;
        rest_for(3, rows[i].stance);
        const struct medicine_plan *m = tube();
        ck_assert_msg((m->listed > 0) == rows[i].planned, "row %d", i);
        ck_assert_msg((fixture_review(&f, "tube-first-not-told") != NULL) == rows[i].planned,
                      "row %d", i);
        ck_assert_ptr_eq(plan_ticked(&f.plan, 0), rows[i].planned ? m : NULL);
        ck_assert_ptr_null(plan_ticked(&f.plan, 1));
        if (!rows[i].planned)
            continue;
        ck_assert(m->has_amount && m->amount == rows[i].ml && m->amount_unit == UNIT_MILLILITRE);
        ck_assert(m->has_every && m->every_h == rows[i].every_h);
    }
}
END_TEST

/* Her own first day; else that on which the gut has rested, and tomorrow at the soonest. */
START_TEST(the_first_day_of_the_tube)
{
    static const struct {
        int rest, own; /* own: 0, she wrote none */
        int first;
    } rows[] = {{3, 0, 3}, {1, 0, 1}, {0, 0, 1}, {3, 5, 5}, {3, 2, 2}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        rest_for(rows[i].rest, "vet-plan");
        f.plan.aftercare.has_tube_first = rows[i].own > 0;
        f.plan.aftercare.tube_first = in_days(rows[i].own);
        const struct medicine_plan *m = tube();
        ck_assert(m->has_first);
        ck_assert_msg(day_of(m, 0) == rows[i].first, "row %d: %ld", i, day_of(m, 0));
        const struct review *told = fixture_review(&f, "tube-first-not-told");
        ck_assert_int_eq(told == NULL, rows[i].own > 0);
        if (told)
            ck_assert_int_eq(date_days_between(f.plan.on, fixture_fact(told, "on")->date),
                             rows[i].first);
    }
}
END_TEST

/* Until it is looked at: that day's first is still given. Of every 8 hours three fall on a day. */
START_TEST(the_tube_is_fed_until_it_is_looked_at)
{
    static const struct {
        double every_h;
        int check, recheck; /* 0: none */
        long doses;         /* 0: no end is known */
        int last;
    } rows[] = {
        {24, 6, 0, 4, 6}, {12, 6, 0, 7, 6}, {8, 6, 0, 10, 6}, {48, 6, 0, 2, 5},
        {24, 0, 6, 4, 6}, {24, 4, 6, 2, 4}, /* the tube's own day goes before the recheck */
        {24, 3, 0, 1, 3}, {24, 2, 0, 0, 0}, /* before it begins: that is no end */
        {24, 0, 0, 0, 0},
    };
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        f.plan.aftercare.tube_every_h = rows[i].every_h;
        procedures[0].has_check = true; /* of something else */
        procedures[0].check = in_days(20);
        procedures[1].has_check = rows[i].check > 0;
        procedures[1].check = in_days(rows[i].check);
        f.plan.has_recheck = rows[i].recheck > 0;
        f.plan.recheck = in_days(rows[i].recheck);
        const struct medicine_plan *m = tube();
        ck_assert_msg(m->dose_count == rows[i].doses, "row %d: %ld", i, m->dose_count);
        ck_assert_int_eq(m->has_last, rows[i].doses > 0);
        ck_assert_int_eq(m->says_at, rows[i].every_h < 24);
        ck_assert_int_eq(m->given_minute, -1);
        if (!rows[i].doses)
            continue;
        ck_assert_int_eq(date_days_between(f.plan.on, m->last), rows[i].last);
        ck_assert_uint_eq(m->listed, (size_t)rows[i].doses);
    }
}
END_TEST

/* Whichever of the procedures the tube is. */
START_TEST(the_tube_is_found_among_what_was_done)
{
    procedures[0].code = "feeding-tube-placed";
    procedures[1].code = "x-ray";
    procedures[0].has_check = true;
    procedures[0].check = in_days(6);
    ck_assert_int_eq(tube()->dose_count, 4);
    f.plan.procedure_count = 0;
    ck_assert_int_eq(tube()->dose_count, 0);
}
END_TEST

START_TEST(what_is_ticked_is_each_medicine_and_then_the_tube)
{
    struct medicine_plan own[2] = {{.name = "A"}, {.name = "B"}};
    f.plan.medicines = own;
    f.plan.medicine_count = 2;
    ck_assert_ptr_eq(plan_ticked(&f.plan, 0), &own[0]);
    ck_assert_ptr_eq(plan_ticked(&f.plan, 1), &own[1]);
    ck_assert_ptr_null(plan_ticked(&f.plan, 2));
    f.plan.tube_food.listed = 1;
    ck_assert_ptr_eq(plan_ticked(&f.plan, 2), &f.plan.tube_food);
    ck_assert_ptr_null(plan_ticked(&f.plan, 3));
    own[0].listed = 4;
    ck_assert_uint_eq(plan_home_doses(&own[0]), 4);
    own[0].is_given_here = true;
    ck_assert_uint_eq(plan_home_doses(&own[0]), 0);
}
END_TEST

/* ---- given at the visit
 * -------------------------------------------------------------------------- */

static const struct medicine_plan *planned(void)
{
    f.visit.medicines = fixture_list(&f, &written, 1, sizeof written);
    ck_assert(medicines_plan(&f.b));
    ck_assert_uint_eq(f.plan.medicine_count, 1);
    return &f.plan.medicines[0];
}

/* One of the course was given: so many are left, and the next is a day or its hours later. */
START_TEST(a_dose_of_today_is_the_first_of_the_course)
{
    static const struct {
        double every_h, doses; /* doses 0: no end is written */
        const char *at;        /* NULL: nobody wrote the time */
        long left;
        long first; /* days on */
        enum day_part part;
        bool asks_time;
    } rows[] = {
        {24, 0, NULL, 0, 1, DAY_PART_MORNING, false},
        {24, 3, NULL, 2, 1, DAY_PART_MORNING, false},
        {48, 3, NULL, 2, 2, DAY_PART_MORNING, false},
        {24, 3, "16:00", 2, 1, DAY_PART_AFTERNOON, false}, /* as it was begun */
        {12, 0, NULL, 0, 1, DAY_PART_MORNING, true},
        {12, 4, "09:00", 3, 0, DAY_PART_EVENING, false},  /* 21:00 */
        {8, 4, "09:00", 3, 0, DAY_PART_AFTERNOON, false}, /* 17:00 */
    };
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        written.every_h = fixture_quantity(rows[i].every_h);
        written.given_today = fixture_flag(true);
        if (rows[i].doses > 0)
            written.doses = fixture_quantity(rows[i].doses);
        written.given_today_at.text = rows[i].at;
        const struct medicine_plan *m = planned();
        ck_assert_msg(m->dose_count == rows[i].left, "row %d: %ld", i, m->dose_count);
        ck_assert_msg(day_of(m, 0) == rows[i].first && m->doses[0].at == rows[i].part,
                      "row %d: day %ld, part %d", i, day_of(m, 0), (int)m->doses[0].at);
        ck_assert_int_eq(date_compare(m->first, m->doses[0].on), 0);
        ck_assert(m->is_given_today && m->has_first && !m->is_given_here);
        ck_assert_int_eq(fixture_review(&f, "dose-today-without-time") != NULL, rows[i].asks_time);
    }
}
END_TEST

/* The only one: nothing is left to give. */
START_TEST(a_single_dose_of_today_leaves_none)
{
    for (int kind = 0; kind < 2; kind++) {
        again();
        written.given_today = fixture_flag(true);
        written.doses = fixture_quantity(1);
        if (kind)
            written.every_h = written.doses = (struct quantity){0};
        const struct medicine_plan *m = planned();
        ck_assert(m->is_given_here && m->has_last && m->has_first);
        ck_assert(!m->is_given_today && !m->has_every && !m->has_for && !m->has_count);
        ck_assert_int_eq(date_compare(m->last, f.plan.on), 0);
        ck_assert_int_eq(m->dose_count, 0);
        ck_assert_uint_eq(m->listed, 0);
    }
}
END_TEST

/* Given here on days that nobody wrote. */
START_TEST(doses_of_the_clinic_without_a_day)
{
    written.given = fixture_choice(GIVEN_HERE);
    ck_assert(planned()->asks_days);
    written.first = fixture_date(2026, 3, 16);
    ck_assert(!planned()->asks_days);
    written.first = (struct date_value){0};
    written.given = fixture_choice(GIVEN_AT_HOME);
    ck_assert(!planned()->asks_days);
    written.given = fixture_choice(GIVEN_HERE);
    written.every_h = (struct quantity){0};
    ck_assert(!planned()->asks_days);
}
END_TEST

/* Days of the clinic's doses on which it is closed, the very first among them; none of today. */
START_TEST(doses_of_closed_days_are_listed)
{
    static const struct {
        int first, closed; /* days on */
        size_t count;
    } rows[] = {{1, 1, 1}, {1, 2, 1}, {1, 3, 1}, {1, 4, 0}, {0, 0, 0}, {0, 2, 1}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        struct opening *opening = &f.plan.letterhead.opening;
        opening->is_known = true;
        for (int day = 0; day < 7; day++)
            opening->days[day] = (struct opening_day){{{8 * 60, 18 * 60}}, 1};
        const struct date closed = date_add_days(f.plan.on, rows[i].closed),
                          first = date_add_days(f.plan.on, rows[i].first);
        opening->days[date_weekday(closed) - 1] = (struct opening_day){0};
        written.given = fixture_choice(GIVEN_HERE);
        written.first = fixture_date(first.year, first.month, first.day);
        written.doses = fixture_quantity(3);
        const struct medicine_plan *m = planned();
        ck_assert_msg(m->closed_count == rows[i].count, "row %d: %zu", i, m->closed_count);
        if (rows[i].count)
            ck_assert_int_eq(date_compare(m->closed[0], closed), 0);
    }
}
END_TEST

/* From Saturday 14 March 2026; the clinic is open from Monday to Saturday, 8 to 18. Whoever brings
 * it for a dose of each day is told the hour, a day after today's; where it is closed then, or the
 * record has no hour or another time of day, none. After longer the hour is nobody's appointment,
 * but that of a visit on the dose's day. What is given at home has no hour here. */
START_TEST(doses_of_the_clinic_have_their_hour)
{
    static const struct {
        double every_h, doses;
        const char *given_at;
        int at; /* -1: not written */
        bool is_here;
        size_t dose; /* of those left */
        long days;
        int minute; /* -1: not said */
        bool is_asked;
    } rows[] = {
        {24, 3, "11:20", -1, true, 1, 2, 11 * 60 + 20, false}, /* Mon */
        {24, 3, "18:00", -1, true, 1, 2, -1, true},
        {24, 3, NULL, -1, true, 1, 2, -1, false},
        {48, 3, "11:20", -1, true, 0, 2, -1, false}, /* nobody booked that hour */
        {72, 3, "11:20", -1, true, 0, 3, -1, false},
        {48, 3, "18:00", -1, true, 0, 2, -1, false},
        {48, 3, "11:20", -1, true, 1, 4, 16 * 60, false}, /* Wed: the visit of that day */
        {48, 3, NULL, -1, true, 1, 4, 16 * 60, false},
        {24, 6, "11:20", -1, true, 3, 4, 16 * 60, false},
        {48, 3, "11:20", DAY_PART_EVENING, true, 0, 2, -1, false},
        {48, 3, "11:20", -1, false, 0, 2, -1, false},
        {12, 2, "16:00", -1, true, 0, 1, -1, false},     /* Sun 4:00: the day itself is told */
        {20, 5, "16:00", -1, true, 1, 2, 8 * 60, false}, /* does it stay in? is asked instead */
    };
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        struct opening *opening = &f.plan.letterhead.opening;
        opening->is_known = true;
        for (int day = 0; day < 6; day++)
            opening->days[day] = (struct opening_day){{{8 * 60, 18 * 60}}, 1};
        f.plan.has_recheck = true; /* Wednesday the 18th, 16:00 */
        f.plan.recheck = fixture_date(2026, 3, 18).date;
        f.plan.booked_minute = 16 * 60;
        written.every_h = fixture_quantity(rows[i].every_h);
        written.doses = fixture_quantity(rows[i].doses);
        written.given_today = fixture_flag(true);
        written.given_today_at.text = rows[i].given_at;
        written.given = fixture_choice(rows[i].is_here ? GIVEN_HERE : GIVEN_AT_HOME);
        if (rows[i].at >= 0)
            written.at = fixture_choice(rows[i].at);
        const struct medicine_plan *m = planned();
        const struct dose_plan *dose = &m->doses[rows[i].dose];
        ck_assert_msg(day_of(m, rows[i].dose) == rows[i].days, "row %d: day %ld", i,
                      day_of(m, rows[i].dose));
        ck_assert_msg((dose->says_hour ? dose->minute : -1) == rows[i].minute, "row %d: %d", i,
                      dose->minute);
        const struct review *asked = fixture_review(&f, "dose-when-closed");
        ck_assert_msg((asked != NULL) == rows[i].is_asked, "row %d", i);
        if (asked)
            ck_assert_int_eq(date_days_between(f.plan.on, fixture_fact(asked, "on")->date),
                             rows[i].days);
    }
}
END_TEST

/* The next one that is brought: not today's, not on a closed day, none that is given at home. */
START_TEST(the_next_dose_of_the_clinic_is_on_an_open_day)
{
    f.plan.letterhead.opening.is_known = true;
    f.plan.letterhead.opening.days[1] = (struct opening_day){{{8 * 60, 18 * 60}}, 1};
    written.given = fixture_choice(GIVEN_HERE);
    written.doses = fixture_quantity(5);
    written.first = fixture_date(2026, 3, 14);
    const struct dose_plan *dose = plan_next_dose_here(&f.plan, planned());
    ck_assert_ptr_nonnull(dose);
    ck_assert_int_eq(date_days_between(f.plan.on, dose->on), 3); /* Tue 17 March */
    written.doses = fixture_quantity(3);
    ck_assert_ptr_null(plan_next_dose_here(&f.plan, planned()));
    written.doses = fixture_quantity(5);
    written.given = fixture_choice(GIVEN_AT_HOME);
    ck_assert_ptr_null(plan_next_dose_here(&f.plan, planned()));
}
END_TEST

/* ---- by the clock
 * -------------------------------------------------------------------------------- */

static int hour_part(size_t dose)
{
    return (int)planned()->doses[dose].at;
}

/* Every six hours from six: the first that is not before the part of the day that was written. */
START_TEST(what_is_given_often_goes_by_the_clock)
{
    const struct dose_clock clocks[] = {
        {.every_h = fixture_quantity(4), .from = fixture_text("07:00")},
        {.every_h = fixture_quantity(6), .from = fixture_text("06:00")}};
    static const struct {
        int at;
        enum day_part first, second;
    } rows[] = {{DAY_PART_MORNING, DAY_PART_MORNING, DAY_PART_NOON},     /* 6, 12 */
                {DAY_PART_NOON, DAY_PART_NOON, DAY_PART_EVENING},        /* 12, 18 */
                {DAY_PART_AFTERNOON, DAY_PART_EVENING, DAY_PART_NIGHT}}; /* 18, 24 */
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        f.reference.dose_clocks = fixture_list(&f, clocks, 2, sizeof *clocks);
        written.every_h = fixture_quantity(6);
        written.first = fixture_date(2026, 3, 15);
        written.at = fixture_choice(rows[i].at);
        ck_assert(planned()->says_clock);
        ck_assert_msg(hour_part(0) == (int)rows[i].first && hour_part(1) == (int)rows[i].second,
                      "row %d: %d, %d", i, hour_part(0), hour_part(1));
    }
    written.every_h = fixture_quantity(7);
    ck_assert(!planned()->says_clock);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("plan_medicines");
    TCase *tcase = tcase_create("plan_medicines");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, food_by_tube_is_planned_where_all_of_it_is_written);
    tcase_add_test(tcase, the_first_day_of_the_tube);
    tcase_add_test(tcase, the_tube_is_fed_until_it_is_looked_at);
    tcase_add_test(tcase, the_tube_is_found_among_what_was_done);
    tcase_add_test(tcase, what_is_ticked_is_each_medicine_and_then_the_tube);
    tcase_add_test(tcase, a_dose_of_today_is_the_first_of_the_course);
    tcase_add_test(tcase, a_single_dose_of_today_leaves_none);
    tcase_add_test(tcase, doses_of_the_clinic_without_a_day);
    tcase_add_test(tcase, doses_of_closed_days_are_listed);
    tcase_add_test(tcase, doses_of_the_clinic_have_their_hour);
    tcase_add_test(tcase, the_next_dose_of_the_clinic_is_on_an_open_day);
    tcase_add_test(tcase, what_is_given_often_goes_by_the_clock);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
