/* Who shares the box and how much floor so many need, by hand from the fields of `company`; how
 * long the day is (FAO Irrigation and Drainage Paper 56, Allen et al. 1998, example 8: 20 degrees
 * south on 3 September, day 246, 11.7 h), and how warm a day out must be, by the rows of
 * `outdoors`. */
#include <math.h>
#include <string.h>

#include "common/suite.h"
#include "care/fixture.h"

static struct care_fixture f;
static struct visit_enclosure *box;

static void set_up(void)
{
    fixture_init(&f);
    box = &f.visit.enclosure;
    f.species.code = fixture_text("sand-lizard");
}

static void tear_down(void)
{
    fixture_finish(&f);
}

static void again(void)
{
    tear_down();
    set_up();
}

/* ---- company ---------------------------------------------------------------------------- */

/* Two need twice the floor of one, each further one half as much again; 0: not known. */
static void keep_together(bool together, double two, double further)
{
    struct company_reference row = {.together = fixture_flag(together),
                                    .source = fixture_text("practice")};
    if (two > 0)
        row.two_times = fixture_cited(two, two);
    if (further > 0)
        row.further_times = fixture_cited(further, further);
    f.reference.company = fixture_list(&f, &row, 1, sizeof row);
}

static void share(double animals, const char *mate)
{
    const struct text_value code = fixture_text(mate ? mate : "");
    if (animals > 0)
        box->animals = fixture_quantity(animals);
    box->mates = fixture_list(&f, &code, mate ? 1 : 0, sizeof code);
}

static const struct company_plan *planned(void)
{
    ck_assert(company_plan(&f.b) && company_floor_plan(&f.b));
    return &f.plan.enclosure.company;
}

START_TEST(who_shares_the_box)
{
    static const struct {
        double animals; /* 0: not written */
        const char *mate;
        bool unlisted, together;
        enum company_state state;
    } rows[] = {{0, NULL, false, true, COMPANY_UNKNOWN},
                {1, NULL, false, true, COMPANY_NONE},
                {2, NULL, false, true, COMPANY_FITTING},
                {2, NULL, false, false, COMPANY_UNWANTED},
                {0, "sand-lizard", false, true, COMPANY_FITTING},
                {0, "sand-lizard", false, false, COMPANY_UNWANTED},
                {2, "wall-lizard", false, true, COMPANY_MIXED},
                {0, "wall-lizard", false, true, COMPANY_MIXED},
                {2, "sand-lizard", true, true, COMPANY_MIXED}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        again();
        keep_together(rows[i].together, 2, 0.5);
        share(rows[i].animals, rows[i].mate);
        f.species.is_unlisted = rows[i].unlisted;
        ck_assert_int_eq(planned()->state, rows[i].state);
        ck_assert_uint_eq(planned()->mate_count, rows[i].mate ? 1 : 0);
    }
    again(); /* nothing is written of its kind: its like is no stranger */
    share(2, "sand-lizard");
    ck_assert_int_eq(planned()->state, COMPANY_FITTING);
}
END_TEST

START_TEST(floor_for_so_many)
{
    static const struct {
        double animals, two, further, times; /* 0: not known */
    } rows[] = {{2, 2, 0.5, 2}, {3, 2, 0.5, 2.5}, {5, 2, 0.5, 3.5}, {2, 1.5, 0, 1.5},
                {3, 2, 0, 0},   {2, 0, 0, 0},     {2, 0, 0.5, 0},   {3, 0, 0.5, 0}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        again();
        keep_together(true, rows[i].two, rows[i].further);
        share(rows[i].animals, NULL);
        const struct company_plan *company = planned();
        ck_assert_int_eq(company->has_floor, rows[i].times > 0);
        ck_assert_double_eq(company->floor_times, rows[i].times);
        const struct review *told = fixture_review(&f, "floor-for-company-unknown");
        ck_assert_int_eq(told != NULL, rows[i].times <= 0);
        if (told)
            ck_assert_double_eq(fixture_fact(told, "count")->low, rows[i].animals);
    }
}
END_TEST

/* What has to be alone, or is not counted, needs the floor of one. */
START_TEST(no_floor_for_who_goes_alone)
{
    static const char *const alone[] = {"alone", "alone-own-tools"};
    for (size_t i = 0; i < 2; i++) {
        again();
        keep_together(true, 2, 0.5);
        share(2, NULL);
        fixture_settle(&f, "company", alone[i], "finding:wound");
        ck_assert(!planned()->has_floor);
        ck_assert_ptr_null(f.plan.review);
    }
    again();
    keep_together(true, 2, 0.5);
    share(0, "sand-lizard");
    ck_assert(!planned()->has_floor);
    again();
    keep_together(false, 2, 0.5);
    share(2, NULL);
    ck_assert(!planned()->has_floor);
}
END_TEST

START_TEST(the_row_that_fits_it)
{
    const struct choice_value snake = fixture_choice(GROUP_SNAKE);
    struct company_reference rows[] = {
        {.together = fixture_flag(false), .source = fixture_text("practice")},
        {.together = fixture_flag(true), .source = fixture_text("practice")}};
    rows[0].whom.groups = fixture_list(&f, &snake, 1, sizeof snake);
    f.reference.company = fixture_list(&f, rows, 2, sizeof *rows);
    f.species.group = fixture_choice(GROUP_LIZARD);
    share(2, NULL);
    ck_assert_int_eq(planned()->state, COMPANY_FITTING);
    f.species.group = fixture_choice(GROUP_SNAKE);
    ck_assert_int_eq(planned()->state, COMPANY_UNWANTED);
}
END_TEST

START_TEST(males_and_the_names_of_the_others)
{
    const struct species lizard = {.scientific = fixture_text("Lacerta exempli")};
    const struct species *sheets[] = {NULL, &lizard};
    const struct text_value codes[] = {fixture_text("unlisted"), fixture_text("wall-lizard")};
    box->mates = fixture_list(&f, codes, 2, sizeof *codes);
    box->males = fixture_quantity(2);
    f.in.mates = sheets;
    const struct company_plan *company = planned();
    ck_assert(company->has_males && !company->has_animals);
    ck_assert_double_eq(company->males, 2);
    ck_assert_uint_eq(company->mate_count, 2);
    ck_assert_str_eq(company->mates[0].code, "unlisted");
    ck_assert_ptr_null(company->mates[0].scientific);
    ck_assert_str_eq(company->mates[1].code, "wall-lizard");
    ck_assert_str_eq(company->mates[1].scientific, "Lacerta exempli");
}
END_TEST

/* A language that it has no name in gets none, whatever lies behind the names. */
START_TEST(a_name_by_language)
{
    static const struct plan_name names[] = {
        {"en", "wall lizard"}, {"es", "lagartija"}, {"fr", "past the end"}};
    const struct taxon_plan taxon = {.names = names, .name_count = 2};
    ck_assert_str_eq(plan_name_in(&taxon, "en"), "wall lizard");
    ck_assert_str_eq(plan_name_in(&taxon, "es"), "lagartija");
    ck_assert_ptr_null(plan_name_in(&taxon, "fr"));
}
END_TEST

/* ---- in the open ------------------------------------------------------------------------ */

START_TEST(the_day_of_the_visit_where_it_lives)
{
    ck_assert(outdoors_plan(&f.b));
    ck_assert(!f.plan.enclosure.outdoors.has_latitude);
    ck_assert_ptr_null(f.plan.enclosure.outdoors.how.first);
    f.plan.on = (struct date){2026, 9, 3};
    box->latitude_deg = fixture_quantity(-20);
    ck_assert(outdoors_plan(&f.b));
    const struct outdoors_plan *o = &f.plan.enclosure.outdoors;
    ck_assert(o->has_latitude);
    ck_assert_double_eq(o->latitude_deg, -20);
    ck_assert_double_eq_tol(o->day_hours, 11.7, 0.05);
    const struct derivation *made = fixture_derivation(&o->how, "enclosure.day_hours");
    ck_assert_double_eq(made->inputs[1].value, 246);
    ck_assert_double_eq(made->low, o->day_hours);
    ck_assert_double_eq(made->high, o->day_hours);
}
END_TEST

START_TEST(how_warm_a_day_out_must_be)
{
    const struct choice_value snake = fixture_choice(GROUP_SNAKE);
    struct outdoors_reference rows[] = {
        {.morning_c = fixture_cited(21, 21), .midday_c = fixture_cited(24, 24)},
        {.morning_c = fixture_cited(18, 18), .midday_c = fixture_cited(22, 22)},
        {.morning_c = fixture_cited(15, 15), .midday_c = fixture_cited(20, 20)}};
    rows[0].whom.groups = fixture_list(&f, &snake, 1, sizeof snake);
    f.reference.outdoors = fixture_list(&f, rows, 3, sizeof *rows);
    f.species.group = fixture_choice(GROUP_LIZARD);
    const struct outdoors_plan *o = &f.plan.enclosure.outdoors;
    ck_assert(outdoors_plan(&f.b) && o->outdoor == -1 && !o->has_weather);
    box->outdoor = fixture_flag(false);
    ck_assert(outdoors_plan(&f.b) && o->outdoor == 0 && !o->has_weather);
    box->outdoor = fixture_flag(true);
    ck_assert(outdoors_plan(&f.b) && o->outdoor == 1 && o->has_weather);
    ck_assert_double_eq(o->morning_c, 18); /* the first that fits */
    ck_assert_double_eq(o->midday_c, 22);
    again();
    box->outdoor = fixture_flag(true);
    ck_assert(outdoors_plan(&f.b) && !f.plan.enclosure.outdoors.has_weather);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("home");
    TCase *tests = tcase_create("home");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, who_shares_the_box);
    tcase_add_test(tests, floor_for_so_many);
    tcase_add_test(tests, no_floor_for_who_goes_alone);
    tcase_add_test(tests, the_row_that_fits_it);
    tcase_add_test(tests, males_and_the_names_of_the_others);
    tcase_add_test(tests, a_name_by_language);
    tcase_add_test(tests, the_day_of_the_visit_where_it_lives);
    tcase_add_test(tests, how_warm_a_day_out_must_be);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
