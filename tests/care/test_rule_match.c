/* Does a condition hold? Each kind of it by what its name says (rules.h), alone and beside others:
 * all that is written must hold, and what is not written asks for nothing. */
#include <string.h>

#include "care/feeding.h"
#include "care/fixture.h"
#include "care/rule_match.h"
#include "care/stances.h"
#include "common/suite.h"

static struct care_fixture f;
static struct rule_when when;
static const char *from;

static void set_up(void)
{
    fixture_init(&f);
    when = (struct rule_when){0};
}

static void tear_down(void)
{
    fixture_finish(&f);
}

static bool holds(void)
{
    return rule_when_match(&f.b, &when, &from);
}

static struct list texts(const char *a, const char *b)
{
    struct text_value both[2] = {fixture_text(a)};
    if (b)
        both[1] = fixture_text(b);
    return fixture_list(&f, both, b ? 2 : 1, sizeof *both);
}

/* A burn, severe and seen, go-now at the step "deep"; a cut that was looked at and is normal; mild
 * mites, suspected and not urgent. */
static struct finding_plan found[3];

static void find_three(void)
{
    found[0] = (struct finding_plan){.code = "burn",
                                     .severity = SEVERITY_SEVERE,
                                     .state = STATE_SEEN,
                                     .is_urgent = true,
                                     .tier = TIER_NOW,
                                     .step = "deep"};
    found[1] = (struct finding_plan){.code = "cut", .severity = SEVERITY_NORMAL};
    found[2] = (struct finding_plan){.code = "mites",
                                     .severity = SEVERITY_MILD,
                                     .state = STATE_UNDER_TREATMENT,
                                     .tier = TIER_NOW};
    f.plan.findings = found;
    f.plan.finding_count = 3;
}

START_TEST(what_asks_for_nothing_holds)
{
    ck_assert(holds());
    ck_assert_str_eq(from, "species");
    find_three();
    ck_assert(holds());
}
END_TEST

START_TEST(one_of_the_findings)
{
    find_three();
    static const struct {
        const char *one, *other;
        const char *from; /* NULL: it does not hold */
    } rows[] = {{"burn", NULL, "finding:burn"},
                {"mites", NULL, "finding:mites"},
                {"cut", NULL, NULL},
                {"lame", NULL, NULL},
                {"lame", "mites", "finding:mites"},
                {"mites", "burn", "finding:burn"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        when = (struct rule_when){.finding = texts(rows[i].one, rows[i].other)};
        ck_assert_msg(holds() == (rows[i].from != NULL), "row %zu", i);
        if (rows[i].from)
            ck_assert_str_eq(from, rows[i].from);
        when = (struct rule_when){.not_finding = texts(rows[i].one, rows[i].other)};
        ck_assert_int_eq(holds(), rows[i].from == NULL);
        when = (struct rule_when){.and_finding = texts(rows[i].one, rows[i].other)};
        ck_assert_int_eq(holds(), rows[i].from != NULL);
        when = (struct rule_when){.and_also = texts(rows[i].one, rows[i].other)};
        ck_assert_int_eq(holds(), rows[i].from != NULL);
    }
}
END_TEST

START_TEST(at_its_severity)
{
    find_three();
    when.finding = texts("burn", "cut");
    when.severity = fixture_one_of(&f, SEVERITY_SEVERE);
    ck_assert(holds());
    when.severity = fixture_one_of(&f, SEVERITY_MILD);
    ck_assert(!holds());
    when.severity = fixture_one_of(&f, SEVERITY_NORMAL);
    ck_assert(holds());
    ck_assert_str_eq(from, "finding:cut");
    when.severity.count = 0;
    when.and_finding = texts("mites", NULL);
    when.and_severity = fixture_one_of(&f, SEVERITY_MILD);
    ck_assert(holds());
    when.and_severity = fixture_one_of(&f, SEVERITY_SEVERE);
    ck_assert(!holds());
}
END_TEST

/* State, tier and step are asked of one finding, of those that are named where some are. What is
 * not urgent has no tier. */
START_TEST(all_that_is_asked_of_one_finding)
{
    find_three();
    when.state = fixture_one_of(&f, STATE_SEEN);
    ck_assert(holds());
    when.step = texts("deep", NULL);
    when.tier = fixture_one_of(&f, TIER_NOW);
    ck_assert(holds());
    when.finding = texts("burn", NULL);
    ck_assert(holds());
    when.finding = texts("mites", NULL);
    ck_assert(!holds());
    when.finding.count = 0;
    when.state = fixture_one_of(&f, STATE_UNDER_TREATMENT); /* the one, the step of the other */
    ck_assert(!holds());
    when.step.count = 0;
    ck_assert(!holds()); /* mites are not urgent */
    when.tier.count = 0;
    ck_assert(holds());
    when = (struct rule_when){.step = texts("flat", NULL)};
    ck_assert(!holds());
    when = (struct rule_when){.step = texts("deep", NULL)};
    ck_assert(holds());
    found[0].severity = SEVERITY_NORMAL;
    ck_assert(!holds());
    when = (struct rule_when){.tier = fixture_one_of(&f, TIER_NOW)};
    ck_assert(!holds());
}
END_TEST

START_TEST(what_was_done_today)
{
    struct procedure_plan done[] = {{.code = "surgery"}, {.code = "x-ray"}};
    f.plan.procedures = done;
    f.plan.procedure_count = 2;
    when.done = texts("x-ray", NULL);
    ck_assert(holds());
    ck_assert_str_eq(from, "done:x-ray");
    when.done = texts("surgery", "fluids");
    ck_assert(holds());
    ck_assert_str_eq(from, "done:surgery");
    when.done = texts("fluids", NULL);
    ck_assert(!holds());
    when = (struct rule_when){.never_done = texts("x-ray", "fluids")};
    ck_assert(!holds());
    when.never_done = texts("fluids", NULL);
    ck_assert(holds());
    when.never_done.count = 0;
    find_three(); /* what was found stands first */
    when.done = texts("x-ray", NULL);
    when.finding = texts("burn", NULL);
    ck_assert(holds());
    ck_assert_str_eq(from, "finding:burn");
}
END_TEST

START_TEST(species_kind_and_traits)
{
    when.species = texts("other", "test-lizard");
    ck_assert(holds());
    when.species = texts("other", NULL);
    ck_assert(!holds());
    when = (struct rule_when){.sheet = texts("adoption", "checkout")};
    ck_assert(holds());
    when.sheet = texts("adoption", NULL);
    ck_assert(!holds());
    const struct choice_value burrows = fixture_choice(0), swims = fixture_choice(1);
    const struct choice_value both[] = {swims, burrows};
    f.species.traits = fixture_list(&f, &burrows, 1, sizeof burrows);
    when = (struct rule_when){.traits = fixture_list(&f, both, 2, sizeof *both)};
    ck_assert(holds());
    when.traits = fixture_list(&f, &swims, 1, sizeof swims);
    ck_assert(!holds());
    when = (struct rule_when){.never_traits = fixture_list(&f, both, 2, sizeof *both)};
    ck_assert(!holds());
    when.never_traits = fixture_list(&f, &swims, 1, sizeof swims);
    ck_assert(holds());
}
END_TEST

/* Today: a phase that begins tomorrow does not hold. In the coming weeks: the planner's 56 days. */
START_TEST(a_stance_of_today_or_of_the_coming_weeks)
{
    struct stance_phase phases[] = {{.stance = "hard", .from = f.plan.on},
                                    {.stance = "soft", .from = f.plan.on}};
    struct topic_plan topics[] = {{.topic = "water", .phases = phases, .phase_count = 1},
                                  {.topic = "food", .phases = phases, .phase_count = 2}};
    f.plan.topics = topics;
    f.plan.topic_count = 2;
    static const struct {
        long days;
        bool now, coming;
    } rows[] = {{0, true, true},
                {1, false, true},
                {FEEDING_PLANNER_DAYS, false, true},
                {FEEDING_PLANNER_DAYS + 1, false, false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        phases[1].from = date_add_days(f.plan.on, rows[i].days);
        when = (struct rule_when){.stance = texts("food:soft", NULL)};
        ck_assert_int_eq(holds(), rows[i].now);
        when = (struct rule_when){.coming_stance = texts("food:soft", NULL)};
        ck_assert_int_eq(holds(), rows[i].coming);
        when = (struct rule_when){.stance = texts("food:soft", "water:hard")};
        ck_assert(holds());
        when = (struct rule_when){.stance = texts("food:soft", NULL),
                                  .coming_stance = texts("water:hard", NULL)};
        ck_assert_int_eq(holds(), rows[i].now);
    }
    static const char *const none[] = {"water:soft",  "foo:soft",   "food:sof",
                                       "food:softer", "foods:soft", "food"};
    for (size_t i = 0; i < sizeof none / sizeof *none; i++) {
        phases[1].from = f.plan.on;
        when = (struct rule_when){.stance = texts(none[i], NULL)};
        ck_assert_msg(!holds(), "%s", none[i]);
    }
}
END_TEST

START_TEST(who_calls_for_what)
{
    const struct topic topics[] = {{.name = fixture_text("water")}, {.name = fixture_text("food")}};
    const struct topic_catalogue catalogue = {.topics =
                                                  fixture_list(&f, topics, 2, sizeof *topics)};
    struct stance_call items[] = {{.topic = 0, .stance = "deep"},
                                  {.topic = 1, .stance = "soft", .bundle = "rest"}};
    struct stance_calls calls = {.items = items, .count = 2};
    f.in.topics = &catalogue;
    when.calls = texts("food:soft", NULL);
    ck_assert(!holds()); /* nobody calls yet */
    f.b.calls = &calls;
    struct list *const asked[] = {&when.calls, &when.and_calls};
    static const struct {
        const char *one;
        bool called;
    } rows[] = {{"food:soft", true},   {"water:deep", true}, {"food:deep", false},
                {"water:soft", false}, {"foo:soft", false},  {"foods:soft", false},
                {"rest", false}};
    for (size_t k = 0; k < 2; k++)
        for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
            when = (struct rule_when){0};
            *asked[k] = texts(rows[i].one, NULL);
            ck_assert_msg(holds() == rows[i].called, "%s", rows[i].one);
            *asked[k] = texts(rows[i].one, "water:deep");
            ck_assert(holds());
        }
    when = (struct rule_when){.bundle = texts("rest", NULL)};
    ck_assert(holds());
    when.bundle = texts("food:soft", "other");
    ck_assert(!holds());
}
END_TEST

START_TEST(a_medicine_by_part_of_its_name_or_directions)
{
    when.medicine_named = texts("salve", NULL);
    ck_assert(!holds());
    struct visit_medicine medicines[] = {
        {.name = fixture_text("Syrup")},
        {.name = fixture_text("Zinc SALVE"), .directions = fixture_text("thinly on the burn")}};
    f.visit.medicines = fixture_list(&f, medicines, 2, sizeof *medicines);
    ck_assert(holds());
    when.medicine_named = texts("drops", "Thinly");
    ck_assert(holds());
    when.medicine_named = texts("drops", NULL);
    ck_assert(!holds());
    when = (struct rule_when){.medicine = fixture_one_of(&f, 1)};
    ck_assert(holds());
    f.visit.medicines.count = 0;
    ck_assert(!holds());
}
END_TEST

/* Of readings: each quantity by its verdict, and any one of them. */
START_TEST(readings_by_their_verdicts)
{
    f.plan.measured[MEASURE_WARM_SIDE].verdict = VERDICT_TOO_LOW;
    f.plan.measured[MEASURE_HUMIDITY].verdict = VERDICT_TOO_HIGH;
    when.measured[MEASURE_WARM_SIDE] = fixture_one_of(&f, VERDICT_TOO_LOW);
    ck_assert(holds());
    ck_assert_str_eq(from, "zone:warm-side");
    when.measured[MEASURE_HUMIDITY] = fixture_one_of(&f, VERDICT_TOO_HIGH);
    ck_assert(holds());
    ck_assert_str_eq(from, "zone:warm-side");
    when.measured[MEASURE_HUMIDITY] = fixture_one_of(&f, VERDICT_TOO_LOW);
    ck_assert(!holds());
    when = (struct rule_when){.any_reading = fixture_one_of(&f, VERDICT_TOO_HIGH)};
    ck_assert(holds());
    ck_assert_str_eq(from, "humidity");
    when.any_reading = fixture_one_of(&f, VERDICT_BORDERLINE);
    ck_assert(!holds());
}
END_TEST

/* A lamp that never goes out burns 24 hours. */
START_TEST(how_long_the_lamp_burns)
{
    static const struct {
        double hours;
        int off;
        enum photoperiod_state state;
    } rows[] = {{24, 10, PHOTOPERIOD_NEVER_DARK}, {23.9, 9, PHOTOPERIOD_TOO_LONG},
                {14, 0, PHOTOPERIOD_USUAL},       {15, 1, PHOTOPERIOD_TOO_LONG},
                {8, -6, PHOTOPERIOD_TOO_SHORT},   {0, -14, PHOTOPERIOD_NEVER_LIGHT},
                {-1, 0, PHOTOPERIOD_UNKNOWN}}; /* below 0: nobody said */
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        f.visit.enclosure.lamp.hours.known = rows[i].hours >= 0;
        f.visit.enclosure.lamp.hours.value = rows[i].hours;
        f.plan.uvb.hours_off = rows[i].off;
        for (int state = PHOTOPERIOD_UNKNOWN; state <= PHOTOPERIOD_TOO_LONG; state++) {
            when.photoperiod = fixture_one_of(&f, state);
            ck_assert_msg(holds() == (state == (int)rows[i].state), "row %zu, %d", i, state);
        }
    }
}
END_TEST

START_TEST(one_of_the_heaters)
{
    when.heat_kind = fixture_one_of(&f, 2);
    ck_assert(!holds());
    const struct visit_heat heat[] = {{.kind = fixture_choice(1)}, {.kind = fixture_choice(2)}};
    f.visit.enclosure.heat = fixture_list(&f, heat, 2, sizeof *heat);
    ck_assert(holds());
    when.heat_kind = fixture_one_of(&f, 3);
    ck_assert(!holds());
}
END_TEST

/* What the record does not say is neither yes nor no. */
START_TEST(unsaid_is_neither_yes_nor_no)
{
    struct flag_value *const flags[] = {&f.visit.water.filter, &f.species.moist_hide,
                                        &f.visit.enclosure.shade, &f.visit.enclosure.water_dish};
    struct list *const asked[] = {&when.filter, &when.moist_hide, &when.shade, &when.water_dish};
    for (size_t i = 0; i < sizeof flags / sizeof *flags; i++)
        for (int wanted = 0; wanted < 2; wanted++) {
            when = (struct rule_when){0};
            *asked[i] = fixture_one_of(&f, wanted);
            *flags[i] = (struct flag_value){0};
            ck_assert(!holds());
            *flags[i] = fixture_flag(wanted);
            ck_assert(holds());
            *flags[i] = fixture_flag(!wanted);
            ck_assert(!holds());
        }
}
END_TEST

/* From two males on; where nobody counted them it is neither. */
START_TEST(two_males)
{
    struct company_plan *company = &f.plan.enclosure.company;
    for (int males = -1; males < 4; males++) {
        company->has_males = males >= 0;
        company->males = males < 0 ? 5 : males;
        when.two_males = fixture_one_of(&f, 1);
        ck_assert_int_eq(holds(), males >= 2);
        when.two_males = fixture_one_of(&f, 0);
        ck_assert_int_eq(holds(), males == 0 || males == 1);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("rule_match");
    TCase *tests = tcase_create("rule_match");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, what_asks_for_nothing_holds);
    tcase_add_test(tests, one_of_the_findings);
    tcase_add_test(tests, at_its_severity);
    tcase_add_test(tests, all_that_is_asked_of_one_finding);
    tcase_add_test(tests, what_was_done_today);
    tcase_add_test(tests, species_kind_and_traits);
    tcase_add_test(tests, a_stance_of_today_or_of_the_coming_weeks);
    tcase_add_test(tests, who_calls_for_what);
    tcase_add_test(tests, a_medicine_by_part_of_its_name_or_directions);
    tcase_add_test(tests, readings_by_their_verdicts);
    tcase_add_test(tests, how_long_the_lamp_burns);
    tcase_add_test(tests, one_of_the_heaters);
    tcase_add_test(tests, unsaid_is_neither_yes_nor_no);
    tcase_add_test(tests, two_males);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
