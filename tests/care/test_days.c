/* Days of doses, checks and calls, counted off the calendar of 2026 from the visit's day, 14 March,
 * a Saturday. The clinic is open from Monday to Friday where hours are known. When a first dose is
 * given, when to call, and what looks like a slip is common practice, no source. */
#include "common/suite.h"

#include <math.h>

#include "care/feeding_fixture.h"
#include "care/medicines.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static void set_up(void)
{
    fixture_init(&f);
}

static void open_on_weekdays(void)
{
    struct opening *opening = &f.plan.letterhead.opening;
    opening->is_known = true;
    for (int day = 0; day < 5; day++)
        opening->days[day] = (struct opening_day){{{8 * 60, 18 * 60}}, 1};
}

struct month_day {
    int month, day;
};

/* ---- doses ---- */

static struct visit_medicine written;

static void write_medicine(double every_h, struct month_day first)
{
    written = (struct visit_medicine){.name = fixture_text("Drops"),
                                      .directions = fixture_text("into the eye"),
                                      .every_h = fixture_quantity(every_h)};
    if (first.month > 0)
        written.first = on_day(first.month, first.day);
}

static bool is_good; /* of the last plan */

static const struct medicine_plan *planned(void)
{
    f.visit.medicines = fixture_list(&f, &written, 1, sizeof written);
    is_good = medicines_plan(&f.b);
    ck_assert_uint_eq(f.plan.medicine_count, 1);
    return &f.plan.medicines[0];
}

#define DOSES_LISTED 4

static const struct {
    const char *what;
    double every_h, for_days, doses;
    struct month_day first;
    int at; /* of the first dose; -1: not written */
    bool given_here;
    long count;
    bool says_at;
    struct {
        int day; /* of March */
        enum day_part at;
    } doses_at[DOSES_LISTED];
    int last; /* day of March */
} dose_rows[] = {
    {"each day, from tonight",
     24,
     5,
     0,
     {3, 14},
     -1,
     false,
     5,
     false,
     {{14, DAY_PART_EVENING},
      {15, DAY_PART_EVENING},
      {16, DAY_PART_EVENING},
      {17, DAY_PART_EVENING}},
     18},
    {"each day, from tomorrow",
     24,
     4,
     0,
     {3, 15},
     -1,
     false,
     4,
     false,
     {{15, DAY_PART_MORNING},
      {16, DAY_PART_MORNING},
      {17, DAY_PART_MORNING},
      {18, DAY_PART_MORNING}},
     18},
    {"twice a day, from tonight",
     12,
     2,
     0,
     {3, 14},
     -1,
     false,
     4,
     true,
     {{14, DAY_PART_EVENING},
      {15, DAY_PART_MORNING},
      {15, DAY_PART_EVENING},
      {16, DAY_PART_MORNING}},
     16},
    {"three times a day begin in the morning",
     8,
     0,
     4,
     {3, 15},
     -1,
     false,
     4,
     true,
     {{15, DAY_PART_MORNING},
      {15, DAY_PART_AFTERNOON},
      {15, DAY_PART_NIGHT},
      {16, DAY_PART_MORNING}},
     16},
    {"three times a day, from tonight",
     8,
     0,
     4,
     {3, 14},
     -1,
     false,
     4,
     true,
     {{14, DAY_PART_EVENING}, {15, DAY_PART_MORNING}, {15, DAY_PART_NOON}, {15, DAY_PART_EVENING}},
     15},
    {"each day and a half",
     36,
     0,
     4,
     {3, 15},
     -1,
     false,
     4,
     true,
     {{15, DAY_PART_MORNING},
      {16, DAY_PART_EVENING},
      {18, DAY_PART_MORNING},
      {19, DAY_PART_EVENING}},
     19},
    {"each third day for ten days",
     72,
     10,
     0,
     {3, 15},
     -1,
     false,
     4,
     false,
     {{15, DAY_PART_MORNING},
      {18, DAY_PART_MORNING},
      {21, DAY_PART_MORNING},
      {24, DAY_PART_MORNING}},
     24},
    {"the last dose begins before the days are over",
     48,
     8,
     0,
     {3, 15},
     -1,
     false,
     4,
     false,
     {{15, DAY_PART_MORNING},
      {17, DAY_PART_MORNING},
      {19, DAY_PART_MORNING},
      {21, DAY_PART_MORNING}},
     21},
    {"four times a day from noon",
     6,
     0,
     4,
     {3, 15},
     DAY_PART_NOON,
     false,
     4,
     true,
     {{15, DAY_PART_NOON}, {15, DAY_PART_EVENING}, {15, DAY_PART_NIGHT}, {16, DAY_PART_MORNING}},
     16},
    {"at night",
     24,
     0,
     4,
     {3, 15},
     DAY_PART_NIGHT,
     false,
     4,
     true,
     {{15, DAY_PART_NIGHT}, {16, DAY_PART_NIGHT}, {17, DAY_PART_NIGHT}, {18, DAY_PART_NIGHT}},
     18},
    {"in the afternoon",
     24,
     0,
     4,
     {3, 14},
     DAY_PART_AFTERNOON,
     false,
     4,
     true,
     {{14, DAY_PART_AFTERNOON},
      {15, DAY_PART_AFTERNOON},
      {16, DAY_PART_AFTERNOON},
      {17, DAY_PART_AFTERNOON}},
     17},
    {"each third hour",
     3,
     0,
     4,
     {3, 15},
     -1,
     false,
     4,
     true,
     {{15, DAY_PART_MORNING},
      {15, DAY_PART_NOON},
      {15, DAY_PART_AFTERNOON},
      {15, DAY_PART_AFTERNOON}},
     15},
    {"at the clinic",
     24,
     0,
     4,
     {3, 14},
     -1,
     true,
     4,
     false,
     {{14, DAY_PART_MORNING},
      {15, DAY_PART_MORNING},
      {16, DAY_PART_MORNING},
      {17, DAY_PART_MORNING}},
     17},
};

START_TEST(the_days_of_doses)
{
    write_medicine(dose_rows[_i].every_h, dose_rows[_i].first);
    if (dose_rows[_i].for_days > 0)
        written.for_days = fixture_quantity(dose_rows[_i].for_days);
    if (dose_rows[_i].doses > 0)
        written.doses = fixture_quantity(dose_rows[_i].doses);
    if (dose_rows[_i].at >= 0)
        written.at = fixture_choice(dose_rows[_i].at);
    if (dose_rows[_i].given_here)
        written.given = fixture_choice(GIVEN_HERE);
    const struct medicine_plan *m = planned();
    ck_assert_int_eq(m->dose_count, dose_rows[_i].count);
    ck_assert_uint_eq(m->listed, (size_t)dose_rows[_i].count);
    ck_assert_int_eq(m->says_at, dose_rows[_i].says_at);
    for (size_t i = 0; i < DOSES_LISTED; i++) {
        ck_assert_msg(is_day(m->doses[i].on, 3, dose_rows[_i].doses_at[i].day),
                      "%s: dose %zu on %d", dose_rows[_i].what, i, m->doses[i].on.day);
        ck_assert_int_eq(m->doses[i].at, dose_rows[_i].doses_at[i].at);
    }
    ck_assert(m->has_last && is_day(m->last, 3, dose_rows[_i].last));
    ck_assert_uint_eq(plan_home_doses(m), dose_rows[_i].given_here ? 0 : m->listed);
    size_t at = 0, days = 0;
    int before = 0;
    for (struct date day; plan_dose_day(m, &at, &day); days++) {
        ck_assert_int_gt(day.day, before);
        before = day.day;
    }
    ck_assert_uint_eq(at, m->listed);
    ck_assert_int_eq(before, dose_rows[_i].last);
}
END_TEST

/* Without an end: those of the planner's eight weeks. */
START_TEST(doses_without_an_end_are_listed_for_eight_weeks)
{
    write_medicine(_i ? 12 : 24, (struct month_day){3, 15});
    const struct medicine_plan *m = planned();
    ck_assert_int_eq(m->dose_count, 0);
    ck_assert_uint_eq(m->listed, _i ? 112 : 56);
    ck_assert(!m->has_last);
    ck_assert_ptr_nonnull(fixture_review(&f, "medicine-without-end"));
}
END_TEST

/* 600 hours: no more than five hundred are listed, but the last day is the last dose's. */
START_TEST(very_many_doses_keep_their_last_day)
{
    write_medicine(1, (struct month_day){3, 15});
    written.doses = fixture_quantity(600);
    const struct medicine_plan *m = planned();
    ck_assert_uint_eq(m->listed, 500);
    ck_assert_int_eq(m->dose_count, 600);
    ck_assert(is_day(m->last, 4, 9)); /* 8 + 599 hours: 25 days and 7 hours */
}
END_TEST

/* Every third day at the clinic: Thursday 19, Sunday 22. What is closed waits, those behind too. */
static const struct {
    double every_h;
    struct month_day first;
    bool here, opens;
    int days[4];
    bool moved;
    int planned, open;
} moved_rows[] = {
    {72, {3, 16}, true, true, {16, 19, 23, 26}, true, 22, 23},
    {72, {3, 14}, true, true, {16, 19, 23, 26}, true, 14, 16},
    {72, {3, 16}, false, true, {16, 19, 22, 25}, false, 0, 0},
    {24, {3, 20}, true, true, {20, 21, 22, 23}, false, 0, 0}, /* due each day: told by the plan */
    {25, {3, 20}, true, true, {20, 23, 24, 25}, true, 21, 23},
    {72, {3, 16}, true, false, {16, 19, 22, 25}, false, 0, 0}, /* it never opens */
};

START_TEST(a_dose_at_the_clinic_waits_for_an_open_day)
{
    f.plan.letterhead.opening.is_known = true;
    if (moved_rows[_i].opens)
        open_on_weekdays();
    write_medicine(moved_rows[_i].every_h, moved_rows[_i].first);
    written.doses = fixture_quantity(4);
    if (moved_rows[_i].here)
        written.given = fixture_choice(GIVEN_HERE);
    const struct medicine_plan *m = planned();
    for (size_t i = 0; i < 4; i++)
        ck_assert_msg(is_day(m->doses[i].on, 3, moved_rows[_i].days[i]), "dose %zu on %d", i,
                      m->doses[i].on.day);
    ck_assert_int_eq(m->moved, moved_rows[_i].moved);
    ck_assert(is_day(m->last, 3, moved_rows[_i].days[3]));
    const struct review *told = fixture_review(&f, "dose-moved");
    ck_assert_int_eq(told != NULL, moved_rows[_i].moved);
    if (told) {
        ck_assert(is_day(fixture_fact(told, "planned")->date, 3, moved_rows[_i].planned));
        ck_assert(is_day(fixture_fact(told, "open")->date, 3, moved_rows[_i].open));
    }
}
END_TEST

/* Each thing that the record leaves unsaid, and both ends of when it may begin. */
static const struct {
    bool every, end, first, amount, directions, here;
    struct month_day on;
    const char *told; /* NULL: nothing */
} unsaid_rows[] = {
    {true, true, true, true, true, false, {3, 15}, NULL},
    {true, true, true, true, false, false, {3, 15}, NULL},
    {true, false, true, true, true, false, {3, 15}, "medicine-without-end"},
    {true, true, false, true, true, false, {0, 0}, "medicine-without-first-day"},
    {true, true, true, false, false, false, {3, 15}, "medicine-without-amount"},
    {true, true, true, false, true, false, {3, 15}, NULL},
    {false, false, true, true, false, false, {3, 15}, "medicine-without-every"},
    {false, false, true, true, true, false, {3, 15}, "medicine-in-words-alone"},
    {false, false, true, true, true, true, {3, 15}, NULL},
    {true, true, true, true, true, false, {3, 14}, NULL},
    {true, true, true, true, true, false, {3, 13}, "medicine-before-visit"},
    {true, true, true, true, true, false, {5, 13}, NULL}, /* sixty days */
    {true, true, true, true, true, false, {5, 14}, "medicine-starts-late"},
};

START_TEST(what_a_medicine_leaves_unsaid_is_told)
{
    write_medicine(24, unsaid_rows[_i].on);
    written.every_h.known = unsaid_rows[_i].every;
    written.given = fixture_choice(unsaid_rows[_i].here ? GIVEN_HERE : 0);
    if (unsaid_rows[_i].end)
        written.doses = fixture_quantity(3);
    if (unsaid_rows[_i].amount)
        written.amount = fixture_quantity(1);
    if (!unsaid_rows[_i].directions)
        written.directions.text = NULL;
    written.for_what.text = "germs"; /* asked of each whose name does not say it */
    planned();
    const struct review *told = f.plan.review;
    ck_assert_int_eq(told != NULL, unsaid_rows[_i].told != NULL);
    if (!told)
        return;
    ck_assert_str_eq(told->code, unsaid_rows[_i].told);
    ck_assert_str_eq(fixture_fact(told, "medicine")->text, "Drops");
    ck_assert_ptr_null(told->next);
}
END_TEST

/* 10 mg/kg of 500 g are 5 mg, 1 ml of 5 mg/ml. A fifth apart is a syringe's, two and a half times a
 * slip. */
static const struct {
    double amount;
    enum unit unit;
    bool has_strength;
    const char *told; /* NULL: nothing */
} amount_rows[] = {
    {5, UNIT_MILLIGRAM, true, NULL},
    {6, UNIT_MILLIGRAM, true, NULL},
    {6.1, UNIT_MILLIGRAM, true, "medicine-amount-differs"},
    {4.2, UNIT_MILLIGRAM, true, NULL},
    {4.1, UNIT_MILLIGRAM, true, "medicine-amount-differs"},
    {12.4, UNIT_MILLIGRAM, true, "medicine-amount-differs"},
    {12.5, UNIT_MILLIGRAM, true, "medicine-tenfold"},
    {2.1, UNIT_MILLIGRAM, true, "medicine-amount-differs"},
    {2, UNIT_MILLIGRAM, true, "medicine-tenfold"},
    {50, UNIT_MILLIGRAM, true, "medicine-tenfold"},
    {5000, UNIT_MICROGRAM, true, NULL},
    {5, UNIT_MICROGRAM, true, "medicine-tenfold"},
    {0.005, UNIT_GRAM, true, NULL},
    {0.05, UNIT_GRAM, true, "medicine-tenfold"},
    {1, UNIT_MILLILITRE, true, NULL},
    {10, UNIT_MILLILITRE, true, "medicine-tenfold"},
    {10, UNIT_MILLILITRE, false, NULL},
    {10, UNIT_DAY, true, NULL},
};

START_TEST(an_amount_is_held_against_dose_and_mass)
{
    weigh(500);
    write_medicine(24, (struct month_day){3, 15});
    written.doses = fixture_quantity(3);
    written.amount = fixture_quantity(amount_rows[_i].amount);
    written.amount.unit = amount_rows[_i].unit;
    written.dose_mg_kg = fixture_quantity(10);
    if (amount_rows[_i].has_strength)
        written.strength_mg_ml = fixture_quantity(5);
    const struct medicine_plan *m = planned();
    const struct derivation *mg = fixture_derivation(&m->how, "medicine.amount_mg");
    ck_assert(mg->value == 5 && mg->inputs[0].value == 10 && mg->inputs[1].value == 500 &&
              mg->inputs[2].value == 5);
    ck_assert_double_eq_tol(mg->low, 4.95, 1e-9);
    ck_assert_double_eq_tol(mg->high, 5.05, 1e-9);
    const struct derivation *ml = fixture_derivation(&m->how, "medicine.amount_ml");
    ck_assert_int_eq(ml != NULL, amount_rows[_i].has_strength);
    if (ml) {
        ck_assert_double_eq_tol(ml->value, 1, 1e-9);
        ck_assert_double_eq_tol(ml->low, 0.99, 1e-9);
        ck_assert_double_eq_tol(ml->high, 1.01, 1e-9);
        ck_assert_double_eq(fixture_fact(fixture_review(&f, "medicine-worked-out"), "ml")->low, 1);
    }
    ck_assert_double_eq(fixture_fact(fixture_review(&f, "medicine-worked-out"), "mg")->high, 5);
    static const char *const codes[] = {"medicine-amount-differs", "medicine-tenfold"};
    for (size_t i = 0; i < COUNT(codes); i++)
        ck_assert_int_eq(fixture_review(&f, codes[i]) != NULL,
                         amount_rows[_i].told && strcmp(amount_rows[_i].told, codes[i]) == 0);
    /* a slip stops every command until the record says that it is none */
    bool is_slip = amount_rows[_i].told && strcmp(amount_rows[_i].told, "medicine-tenfold") == 0;
    ck_assert_int_eq(is_good, !is_slip);
    written.confirmed = (struct flag_value){.known = true, .value = false};
    planned();
    ck_assert_int_eq(is_good, !is_slip);
    written.confirmed.value = true;
    planned();
    ck_assert(is_good);
    ck_assert_int_eq(fixture_review(&f, "medicine-tenfold") != NULL, is_slip);
}
END_TEST

START_TEST(a_dose_by_mass_asks_for_the_mass)
{
    write_medicine(24, (struct month_day){3, 15});
    written.doses = fixture_quantity(3);
    written.dose_mg_kg = fixture_quantity(10);
    const struct medicine_plan *m = planned();
    ck_assert_ptr_null(m->how.first);
    ck_assert_ptr_nonnull(fixture_review(&f, "medicine-without-mass"));
}
END_TEST

START_TEST(a_name_that_stands_twice_is_told_once)
{
    const struct visit_medicine all[] = {{.name = fixture_text("Salve")},
                                         {.name = fixture_text("Drops")},
                                         {.name = fixture_text("SALVE")},
                                         {.name = fixture_text("salve")}};
    f.visit.medicines = fixture_list(&f, all, (size_t)_i, sizeof *all);
    ck_assert(medicines_plan(&f.b));
    int told = 0;
    for (const struct review *r = f.plan.review; r; r = r->next)
        told += strcmp(r->code, "medicine-twice") == 0;
    ck_assert_int_eq(told, _i < 3 ? 0 : _i - 2);
}
END_TEST

/* ---- the check ---- */

static const struct {
    double written;
    enum unit unit;
    double days; /* the same, as it is read */
    struct date on;
} recheck_rows[] = {
    {10, UNIT_DAY, 10, {2026, 3, 24}},      {2, UNIT_WEEK, 14, {2026, 3, 28}},
    {1, UNIT_MONTH, 30.4, {2026, 4, 14}},   {1.5, UNIT_MONTH, 45.7, {2026, 4, 29}},
    {0.5, UNIT_MONTH, 15.2, {2026, 3, 29}}, {12, UNIT_MONTH, 365.25, {2027, 3, 14}},
    {1, UNIT_YEAR, 365.25, {2027, 3, 14}},  {0.5, UNIT_YEAR, 182.6, {2026, 9, 14}},
    {10.4, UNIT_DAY, 10.4, {2026, 3, 24}},  {10.6, UNIT_DAY, 10.6, {2026, 3, 25}},
};

START_TEST(months_are_those_of_the_calendar)
{
    struct quantity *recheck = &f.visit.follow_up.recheck;
    *recheck = fixture_quantity(recheck_rows[_i].days);
    recheck->written = recheck_rows[_i].written;
    recheck->unit = recheck_rows[_i].unit;
    ck_assert(recheck_plan(&f.b));
    ck_assert(f.plan.has_recheck);
    ck_assert_int_eq(date_compare(f.plan.recheck, recheck_rows[_i].on), 0);
    ck_assert_int_eq(f.plan.booked_minute, -1);
}
END_TEST

/* The last day of the month is the last day of a shorter one. */
START_TEST(a_month_from_the_thirty_first)
{
    f.plan.on = (struct date){2026, 1, 31};
    f.visit.follow_up.recheck = fixture_quantity(30.4);
    f.visit.follow_up.recheck.written = 1;
    f.visit.follow_up.recheck.unit = UNIT_MONTH;
    ck_assert(recheck_plan(&f.b));
    ck_assert_int_eq(date_compare(f.plan.recheck, (struct date){2026, 2, 28}), 0);
}
END_TEST

START_TEST(what_was_agreed_on_stands)
{
    static const struct {
        int day;
        const char *at;
        int minute;
        bool told;
    } rows[] = {{20, "10:30", 630, false}, {21, NULL, -1, true}, {20, NULL, -1, false}};
    open_on_weekdays();
    f.visit.follow_up.recheck = fixture_quantity(10);
    f.visit.follow_up.booked = on_day(3, rows[_i].day);
    f.visit.follow_up.booked_at.text = rows[_i].at;
    ck_assert(recheck_plan(&f.b));
    ck_assert(f.plan.has_recheck && is_day(f.plan.recheck, 3, rows[_i].day));
    ck_assert_int_eq(f.plan.booked_minute, rows[_i].minute);
    const struct review *told = fixture_review(&f, "booked-on-closed-day");
    ck_assert_int_eq(told != NULL, rows[_i].told);
    if (told)
        ck_assert(is_day(fixture_fact(told, "planned")->date, 3, rows[_i].day));
}
END_TEST

START_TEST(no_check_was_asked_for)
{
    ck_assert(recheck_plan(&f.b));
    ck_assert(!f.plan.has_recheck);
    ck_assert_ptr_null(build_soonest_recheck(&f.b));
}
END_TEST

START_TEST(of_the_findings_the_soonest_check)
{
    const struct finding_plan findings[] = {{.code = "a", .has_recheck = true, .recheck_days = 14},
                                            {.code = "b", .has_recheck = false, .recheck_days = 1},
                                            {.code = "c", .has_recheck = true, .recheck_days = 7},
                                            {.code = "d", .has_recheck = true, .recheck_days = 7}};
    found(findings, COUNT(findings));
    ck_assert_str_eq(build_soonest_recheck(&f.b)->code, "c");
    found(findings, 2);
    ck_assert_str_eq(build_soonest_recheck(&f.b)->code, "a");
}
END_TEST

/* A suture is looked at after 10 to 14 days, 24 to 28 March: sooner where the warm side is right.
 */
static const struct {
    bool applies;
    enum verdict verdict;
    const char *unless;  /* done besides; NULL: nothing says so */
    bool own;            /* the veterinarian wrote a day: the 19th */
    int planned, latest; /* 0: none */
} look_rows[] = {
    {true, VERDICT_IN_RANGE, NULL, false, 24, 28},
    {true, VERDICT_TOO_LOW, NULL, false, 28, 28},
    {false, VERDICT_IN_RANGE, NULL, false, 28, 28},
    {true, VERDICT_IN_RANGE, "bandage", false, 0, 0},
    {true, VERDICT_IN_RANGE, "unheard", false, 24, 28},
    {true, VERDICT_IN_RANGE, "bandage", true, 19, 19},
};

static void look_at(const struct procedure **catalogue, struct procedure_plan *done, size_t count)
{
    f.b.procedures = catalogue;
    f.plan.procedures = done;
    f.plan.procedure_count = count;
}

START_TEST(what_was_done_is_looked_at_by_its_weeks)
{
    const struct procedure suture = {.check_days = fixture_cited(10, 14),
                                     .check_unless = {.text = look_rows[_i].unless}},
                           bandage = {.check_with = fixture_text("suture")}, bath = {0};
    const struct procedure *catalogue[] = {&bath, &suture, &bandage};
    struct procedure_plan done[] = {
        {.code = "bath"},
        {.code = "suture", .has_check = look_rows[_i].own, .check = {2026, 3, 19}},
        {.code = "bandage"}};
    look_at(catalogue, done, 3);
    f.plan.measured[ZONE_WARM_SIDE] =
        (struct measured_plan){.applies = look_rows[_i].applies, .verdict = look_rows[_i].verdict};
    struct date day = {0}, latest = {0};
    bool looked = look_rows[_i].planned > 0;
    ck_assert_int_eq(procedure_check(&f.b, 1, &day, &latest), looked);
    if (looked)
        ck_assert(is_day(day, 3, look_rows[_i].planned) && is_day(latest, 3, look_rows[_i].latest));
    ck_assert_int_eq(procedure_check_day(&f.b, &done[1], &day), looked);
    if (looked)
        ck_assert(is_day(day, 3, look_rows[_i].planned));
    struct date with = {0}; /* the bandage is looked at with the suture, a bath never */
    ck_assert_int_eq(procedure_check_day(&f.b, &done[2], &with), looked);
    if (looked)
        ck_assert(is_day(with, 3, look_rows[_i].planned));
    ck_assert(!procedure_check_day(&f.b, &done[0], &with));
    open_on_weekdays(); /* Saturday 28 March: the day before, which is no later than the latest */
    if (look_rows[_i].planned == 28) {
        ck_assert(procedure_check_day(&f.b, &done[1], &day));
        ck_assert(is_day(day, 3, 27));
    }
}
END_TEST

/* ---- calls ---- */

static const struct {
    const char *what, *stance;
    bool paused, has_resume, opens;
    double limit_days;
    struct month_day last, check, meal; /* month 0: none */
    struct month_day call;
} food_rows[] = {
    {"ten days from the last meal",
     "offer-only",
     false,
     false,
     false,
     10,
     {3, 10},
     {0, 0},
     {0, 0},
     {3, 20}},
    {"ten days from today", "offer-only", false, false, false, 10, {0, 0}, {0, 0}, {0, 0}, {3, 24}},
    {"the day before the check",
     "offer-only",
     false,
     false,
     false,
     10,
     {3, 10},
     {3, 18},
     {0, 0},
     {3, 17}},
    {"before a check that is later",
     "offer-only",
     false,
     false,
     false,
     10,
     {3, 10},
     {3, 25},
     {0, 0},
     {3, 20}},
    {"no limit is known", "offer-only", false, false, false, 0, {3, 10}, {3, 18}, {0, 0}, {3, 17}},
    {"nor a check", "offer-only", false, false, false, 0, {3, 10}, {0, 0}, {0, 0}, {0, 0}},
    {"tomorrow at the earliest",
     "offer-only",
     false,
     false,
     false,
     10,
     {2, 10},
     {0, 0},
     {0, 0},
     {3, 15}},
    {"on an open day", "offer-only", false, false, true, 11, {3, 10}, {0, 0}, {0, 0}, {3, 20}},
    {"tomorrow is closed", "offer-only", false, false, true, 10, {2, 10}, {0, 0}, {0, 0}, {3, 16}},
    {"it eats as usual", "as-usual", false, false, false, 10, {3, 10}, {0, 0}, {0, 0}, {0, 0}},
    {"nothing until the veterinarian says",
     "none-until-vet",
     true,
     false,
     false,
     10,
     {3, 10},
     {0, 0},
     {0, 0},
     {3, 20}},
    {"a rest that ends", "rest-until", true, true, false, 10, {3, 10}, {0, 0}, {0, 0}, {0, 0}},
    {"not before the first meal",
     "offer-only",
     false,
     false,
     false,
     10,
     {3, 10},
     {0, 0},
     {3, 20},
     {3, 21}},
    {"nor on it", "offer-only", false, false, false, 10, {3, 10}, {0, 0}, {3, 19}, {3, 20}},
    {"the day after it is closed",
     "offer-only",
     false,
     false,
     true,
     10,
     {3, 10},
     {0, 0},
     {3, 20},
     {3, 23}},
    {"the check says it", "offer-only", false, false, false, 10, {3, 10}, {3, 21}, {3, 20}, {0, 0}},
    {"the first meal is on the check's day",
     "offer-only",
     false,
     false,
     false,
     10,
     {3, 10},
     {3, 20},
     {3, 20},
     {3, 21}},
    {"or after the check",
     "offer-only",
     false,
     false,
     false,
     10,
     {3, 10},
     {3, 19},
     {3, 20},
     {3, 21}},
    {"the check is after it",
     "offer-only",
     false,
     false,
     false,
     10,
     {3, 10},
     {3, 22},
     {3, 20},
     {3, 21}},
};

START_TEST(whoever_does_not_eat_is_told_of_in_time)
{
    if (food_rows[_i].opens)
        open_on_weekdays();
    fixture_settle(&f, "food", food_rows[_i].stance, "finding:wheeze");
    feeding()->paused = food_rows[_i].paused;
    feeding()->has_resume = food_rows[_i].has_resume;
    feeding()->fast_limit_days = food_rows[_i].limit_days;
    if (food_rows[_i].last.month > 0) {
        const struct visit_diet diet = {
            .last = on_day(food_rows[_i].last.month, food_rows[_i].last.day)};
        given(&diet, 1);
    }
    f.plan.has_recheck = food_rows[_i].check.month > 0;
    f.plan.recheck = (struct date){2026, food_rows[_i].check.month, food_rows[_i].check.day};
    feeding()->next_count = food_rows[_i].meal.month > 0;
    feeding()->next[0] = (struct date){2026, food_rows[_i].meal.month, food_rows[_i].meal.day};
    ck_assert(call_days_plan(&f.b));
    ck_assert_msg(feeding()->has_call_by == (food_rows[_i].call.month > 0), "%s",
                  food_rows[_i].what);
    if (feeding()->has_call_by)
        ck_assert_msg(is_day(feeding()->call_by, food_rows[_i].call.month, food_rows[_i].call.day),
                      "%s: %d", food_rows[_i].what, feeding()->call_by.day);
    const struct month_day *check = &food_rows[_i].check, *meal = &food_rows[_i].meal;
    ck_assert_int_eq(feeding()->starts_after_check,
                     check->month > 0 && meal->month > 0 && meal->day >= check->day);
    ck_assert_double_eq(f.plan.sign_lasting_days, 3);
    ck_assert(!f.plan.has_thirst_call);
}
END_TEST

/* Mildly dry: the day after tomorrow; more: tomorrow. */
static const struct {
    struct {
        const char *code;
        enum severity severity;
    } found[2];
    bool opens;
    int call; /* day of March; 0: none */
} thirst_rows[] = {
    {{{"dehydrated", SEVERITY_MILD}, {"burn", SEVERITY_SEVERE}}, false, 16},
    {{{"burn", SEVERITY_SEVERE}, {"dehydrated", SEVERITY_MODERATE}}, false, 15},
    {{{"burn", SEVERITY_SEVERE}, {"sunken-eyes", SEVERITY_MILD}}, false, 16},
    {{{"dehydrated", SEVERITY_NORMAL}, {"burn", SEVERITY_SEVERE}}, false, 0},
    {{{"dehydrated", SEVERITY_MILD}, {"sunken-eyes", SEVERITY_SEVERE}}, false, 15},
    {{{"dehydrated", SEVERITY_SEVERE}, {"sunken-eyes", SEVERITY_MILD}}, false, 15},
    {{{"dehydrated", SEVERITY_SEVERE}, {"burn", SEVERITY_MILD}}, true, 16},
};

START_TEST(whoever_lacks_water_is_told_of_sooner)
{
    struct finding_plan findings[2];
    for (size_t i = 0; i < 2; i++)
        findings[i] = (struct finding_plan){.code = thirst_rows[_i].found[i].code,
                                            .severity = thirst_rows[_i].found[i].severity};
    found(findings, 2);
    if (thirst_rows[_i].opens)
        open_on_weekdays();
    ck_assert(call_days_plan(&f.b));
    ck_assert_int_eq(f.plan.has_thirst_call, thirst_rows[_i].call > 0);
    if (f.plan.has_thirst_call)
        ck_assert(is_day(f.plan.thirst_call, 3, thirst_rows[_i].call));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("days");
    TCase *tests = tcase_create("days");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_loop_test(tests, the_days_of_doses, 0, COUNT(dose_rows));
    tcase_add_loop_test(tests, doses_without_an_end_are_listed_for_eight_weeks, 0, 2);
    tcase_add_test(tests, very_many_doses_keep_their_last_day);
    tcase_add_loop_test(tests, a_dose_at_the_clinic_waits_for_an_open_day, 0, COUNT(moved_rows));
    tcase_add_loop_test(tests, what_a_medicine_leaves_unsaid_is_told, 0, COUNT(unsaid_rows));
    tcase_add_loop_test(tests, an_amount_is_held_against_dose_and_mass, 0, COUNT(amount_rows));
    tcase_add_test(tests, a_dose_by_mass_asks_for_the_mass);
    tcase_add_loop_test(tests, a_name_that_stands_twice_is_told_once, 1, 5);
    tcase_add_loop_test(tests, months_are_those_of_the_calendar, 0, COUNT(recheck_rows));
    tcase_add_test(tests, a_month_from_the_thirty_first);
    tcase_add_loop_test(tests, what_was_agreed_on_stands, 0, 3);
    tcase_add_test(tests, no_check_was_asked_for);
    tcase_add_test(tests, of_the_findings_the_soonest_check);
    tcase_add_loop_test(tests, what_was_done_is_looked_at_by_its_weeks, 0, COUNT(look_rows));
    tcase_add_loop_test(tests, whoever_does_not_eat_is_told_of_in_time, 0, COUNT(food_rows));
    tcase_add_loop_test(tests, whoever_lacks_water_is_told_of_sooner, 0, COUNT(thirst_rows));
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
