/* What a sheet has a field for and nobody wrote is told before it is signed; what nothing asks for
 * is refused with its place. By the fields of follow-up.aftercare (check --format visit); how much
 * a stomach holds is stomach-percent of the reference values, from memory. */
#include <string.h>

#include "care/fixture.h"
#include "common/suite.h"

static struct care_fixture f;
static struct visit_aftercare written;

static void set_up(void)
{
    fixture_init(&f);
    written = (struct visit_aftercare){0};
}

static void tear_down(void)
{
    fixture_finish(&f);
}

static bool planned(void)
{
    f.plan.review = NULL;
    f.b.last_review = NULL;
    f.plan.aftercare = (struct aftercare_plan){0};
    f.visit.follow_up.aftercare = fixture_list(&f, &written, 1, sizeof written);
    return aftercare_plan(&f.b) && aftercare_said_plan(&f.b);
}

static bool is_told(const char *code)
{
    return fixture_review(&f, code) != NULL;
}

/* ---- hours out of the water ---- */

START_TEST(dry_hours_that_nobody_wrote)
{
    static const char *const dry[] = {"all-day-with-swims", "twice-a-day", "as-written"};
    ck_assert(planned() && !is_told("dry-hours-not-written"));
    fixture_settle(&f, "dry-hours", dry[_i], "finding:shell-rot");
    ck_assert(planned() && is_told("dry-hours-not-written"));
    ck_assert(blanks_plan(&f.b) && f.plan.has_blanks);
    static const double hours[] = {0.5, 1, 6};
    for (size_t i = 0; i < sizeof hours / sizeof *hours; i++) {
        written.hours = fixture_quantity(hours[i]);
        ck_assert(planned() && !is_told("dry-hours-not-written"));
        ck_assert_double_eq(f.plan.aftercare.dry_hours, hours[i]);
        ck_assert_double_eq(f.plan.aftercare.dry_times, 0);
    }
    written.times = fixture_quantity(2);
    ck_assert(planned());
    ck_assert_double_eq(f.plan.aftercare.dry_times, 2);
    /* twelve hours are its home, and nobody wrote where it spends the night */
    ck_assert(is_told("dry-night-not-written"));
    written.hours = fixture_quantity(1);
    ck_assert(planned() && !is_told("dry-night-not-written"));
    f.plan.has_blanks = false;
    ck_assert(blanks_plan(&f.b) && !f.plan.has_blanks);
}
END_TEST

START_TEST(dry_hours_that_nothing_asks_for)
{
    written.hours = fixture_quantity(6);
    written.hours.at = (struct mark){"visit.yaml", 12, 8};
    ck_assert(!planned());
    ck_assert(fixture_said(&f, "aftercare-of-another"));
    ck_assert_str_eq(f.diag.first->path, "follow-up.aftercare.hours");
    ck_assert_int_eq(f.diag.first->at.line, 12);
    fixture_settle(&f, "dry-hours", "none", "finding:burn");
    ck_assert(!planned());
}
END_TEST

START_TEST(a_dressing_in_no_water)
{
    written.in_water = fixture_choice(DRESSING_LEFT_ON);
    f.species.group = fixture_choice(GROUP_TURTLE);
    ck_assert(planned());
    f.species.group = fixture_choice(GROUP_TORTOISE);
    ck_assert(!planned());
    ck_assert_str_eq(f.diag.first->path, "follow-up.aftercare.in-water");
}
END_TEST

/* ---- fields of what was done today ---- */

START_TEST(a_field_that_nobody_filled)
{
    static const struct {
        const char *says, *code;
    } rows[] = {{"awake-by", "awake-by-not-written"},
                {"amount", "tube-not-written"},
                {"check", "next-treatment-not-written"},
                {"in-water", "dressing-not-written"}};
    const struct text_value says = fixture_text(rows[_i].says);
    const struct procedure procedure = {.says = fixture_list(&f, &says, 1, sizeof says)};
    const struct procedure *of_catalogue[] = {&procedure};
    struct procedure_plan done = {.code = "surgery"};
    f.b.procedures = of_catalogue;
    f.plan.procedures = &done;
    f.plan.procedure_count = 1;
    f.species.group = fixture_choice(GROUP_TURTLE);
    ck_assert(planned());
    for (int i = 0; i < 4; i++)
        ck_assert_int_eq(is_told(rows[i].code), i == _i);
    /* a dressing is asked after of what swims alone */
    f.species.group = fixture_choice(GROUP_TORTOISE);
    ck_assert(planned());
    ck_assert_int_eq(is_told(rows[_i].code), _i != 3);
    f.species.group = fixture_choice(GROUP_TURTLE);
    written = (struct visit_aftercare){.awake_by = fixture_text("17:30"),
                                       .amount = fixture_quantity(0.8),
                                       .every_h = fixture_quantity(1)};
    done.has_check = true;
    done.in_water = "left-on";
    ck_assert(planned());
    for (int i = 0; i < 4; i++)
        ck_assert(!is_told(rows[i].code));
    ck_assert(f.plan.aftercare.has_awake_by);
    ck_assert_int_eq(f.plan.aftercare.awake_by_minute, 17 * 60 + 30);
    ck_assert_double_eq(f.plan.aftercare.tube_ml, 0.8);
    ck_assert_double_eq(f.plan.aftercare.tube_every_h, 1);
}
END_TEST

/* How much goes in by tube and how often: half of it is not enough. */
START_TEST(half_of_what_goes_in_by_tube)
{
    const struct text_value says = fixture_text("amount");
    const struct procedure procedure = {.says = fixture_list(&f, &says, 1, sizeof says)};
    const struct procedure *of_catalogue[] = {&procedure};
    struct procedure_plan done = {.code = "tube"};
    f.b.procedures = of_catalogue;
    f.plan.procedures = &done;
    f.plan.procedure_count = 1;
    written.amount = fixture_quantity(2);
    ck_assert(planned() && is_told("tube-not-written"));
    written = (struct visit_aftercare){.every_h = fixture_quantity(48)};
    ck_assert(planned() && is_told("tube-not-written"));
}
END_TEST

/* A stomach of the fixture holds 5 % at most: of 200 g that is 10 ml. */
START_TEST(more_than_a_stomach_holds)
{
    f.plan.patient.has_mass = true;
    f.plan.patient.mass_g = 200;
    written.amount = fixture_quantity(10);
    ck_assert(planned() && !is_told("more-than-the-stomach-holds"));
    written.amount = fixture_quantity(10.2);
    ck_assert(planned());
    const struct review *told = fixture_review(&f, "more-than-the-stomach-holds");
    ck_assert_ptr_nonnull(told);
    ck_assert_double_eq_tol(fixture_fact(told, "percent")->low, 5.1, 1e-9);
    ck_assert_double_eq(fixture_fact(told, "most")->low, 5);
    f.plan.patient.has_mass = false;
    ck_assert(planned() && !is_told("more-than-the-stomach-holds"));
}
END_TEST

/* ---- words that the sheet points at ---- */

static const struct {
    const char *topic, *code;
} word_rows[] = {{"wound-care", "wound-care-not-written"},
                 {"bath", "bath-not-written"},
                 {"water-change", "water-change-not-written"}};

START_TEST(words_that_nobody_wrote)
{
    ck_assert(planned() && !is_told(word_rows[_i].code));
    fixture_settle(&f, word_rows[_i].topic, "as-written", "finding:burn");
    for (int i = 0; i < 3; i++)
        ck_assert_int_eq((planned(), is_told(word_rows[i].code)), i == _i);
    struct visit_finding finding = {.code = fixture_text("burn")};
    f.visit.findings = fixture_list(&f, &finding, 1, sizeof finding);
    ck_assert(planned() && is_told(word_rows[_i].code));
    finding.note = fixture_text("Rinse it.");
    f.visit.findings = fixture_list(&f, &finding, 1, sizeof finding);
    ck_assert(planned() && !is_told(word_rows[_i].code));
    f.visit.findings = (struct list){0};
    struct visit_decision decision = {.own = fixture_text("Rinse it.")};
    f.visit.decisions = fixture_list(&f, &decision, 1, sizeof decision);
    ck_assert(planned() && !is_told(word_rows[_i].code));
    f.visit.decisions = (struct list){0};
    struct visit_medicine medicine = {.name = fixture_text("Salve")};
    f.visit.medicines = fixture_list(&f, &medicine, 1, sizeof medicine);
    ck_assert(planned() && !is_told(word_rows[_i].code));
}
END_TEST

/* What eats once it is awake has its day; whose first meal is hers to say gets nothing until then.
 * What a finding forbids is asked for elsewhere. */
START_TEST(the_first_meal_after_an_operation)
{
    static const struct {
        enum group group;
        const char *stance, *because;
        bool told;
    } rows[] = {{GROUP_SNAKE, "none-until-vet", "done:surgery", true},
                {GROUP_SNAKE, "none-until-vet", "finding:belly-mass", false},
                {GROUP_SNAKE, "rest-until", "done:surgery", false},
                {GROUP_SNAKE, "vet-plan", "done:feeding-tube-placed", false},
                {GROUP_LIZARD, "none-until-vet", "done:surgery", true},
                {GROUP_LIZARD, "rest-until", "done:sedation", false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        tear_down();
        set_up();
        f.species.group = fixture_choice((int)rows[i].group);
        struct stance_phase phase = {.stance = rows[i].stance,
                                     .from = f.plan.on,
                                     .end_by = PHASE_END_DATE,
                                     .because = rows[i].because};
        struct topic_plan topic = {.topic = "food", .phases = &phase, .phase_count = 1};
        f.plan.topics = &topic;
        f.plan.topic_count = 1;
        ck_assert(planned());
        ck_assert_int_eq(is_told("first-meal-not-written"), rows[i].told);
        const struct decision_plan decision = {0};
        phase.decision = &decision;
        ck_assert(planned() && !is_told("first-meal-not-written"));
    }
}
END_TEST

/* What is in no catalogue has no urgency and no warning: whoever calls care without the records'
 * own check is told of each, and no plan is made. */
START_TEST(a_finding_of_no_catalogue_is_refused)
{
    const struct visit_finding found[] = {{.code = fixture_text("burm")},
                                          {.code = fixture_text("rash")}};
    ck_assert(findings_plan(&f.b));
    f.visit.findings = fixture_list(&f, found, 2, sizeof *found);
    ck_assert(!findings_plan(&f.b));
    ck_assert(fixture_said(&f, "not-in-catalogue"));
    size_t told = 0;
    for (const struct diag_message *m = f.diag.first; m; m = m->next)
        told += strcmp(m->code, "not-in-catalogue") == 0;
    ck_assert_uint_eq(told, 2);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("aftercare");
    TCase *tests = tcase_create("aftercare");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, a_finding_of_no_catalogue_is_refused);
    tcase_add_loop_test(tests, dry_hours_that_nobody_wrote, 0, 3);
    tcase_add_test(tests, dry_hours_that_nothing_asks_for);
    tcase_add_test(tests, a_dressing_in_no_water);
    tcase_add_loop_test(tests, a_field_that_nobody_filled, 0, 4);
    tcase_add_test(tests, half_of_what_goes_in_by_tube);
    tcase_add_test(tests, more_than_a_stomach_holds);
    tcase_add_loop_test(tests, words_that_nobody_wrote, 0, 3);
    tcase_add_test(tests, the_first_meal_after_an_operation);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
