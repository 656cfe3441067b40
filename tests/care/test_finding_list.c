/* Findings in the order of an examination, how urgent each is for this animal, who is sent off at
 * once, and what was written of the procedures of today. The catalogue is invented. */
#include <string.h>

#include "care/fixture.h"
#include "common/suite.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

enum { ENTRIES = 4, PROCEDURES = 3 };

static struct care_fixture f;
static struct finding entries[ENTRIES];
static struct procedure procedures[PROCEDURES];
static struct visit_finding found[ENTRIES];
static size_t found_count;

static void set_up(void)
{
    static const char *const names[] = {"skin-b", "watching-a", "skin-a", "belly-a"};
    static const int systems[] = {SYSTEM_SKIN, SYSTEM_WATCHING, SYSTEM_SKIN, SYSTEM_BELLY};
    static const char *const done[] = {"swab", "bandage", "wash"};
    fixture_init(&f);
    memset(entries, 0, sizeof entries);
    memset(procedures, 0, sizeof procedures);
    memset(found, 0, sizeof found);
    found_count = 0;
    for (int i = 0; i < ENTRIES; i++) {
        entries[i].name = fixture_text(names[i]);
        entries[i].system = fixture_choice(systems[i]);
    }
    for (int i = 0; i < PROCEDURES; i++)
        procedures[i].name = fixture_text(done[i]);
    f.visit.findings = (struct list){0};
    f.visit.veterinarian = (struct text_value){0};
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

static struct visit_finding *find(const char *code)
{
    found[found_count].code = fixture_text(code);
    return &found[found_count++];
}

static bool plan(void)
{
    f.catalogue.findings = fixture_list(&f, entries, ENTRIES, sizeof *entries);
    f.catalogue.procedures = fixture_list(&f, procedures, PROCEDURES, sizeof *procedures);
    f.visit.findings = fixture_list(&f, found, found_count, sizeof *found);
    f.plan.finding_count = f.plan.procedure_count = 0;
    f.plan.go_now = false;
    return findings_plan(&f.b);
}

static const struct finding_plan *planned(void)
{
    ck_assert(plan());
    return &f.plan.findings[0];
}

/* ---- which, and in which order
 * ------------------------------------------------------------------- */

/* System by system, as it is examined; within one as it was written. */
START_TEST(findings_stand_in_the_order_of_an_examination)
{
    static const char *const order[] = {"watching-a", "belly-a", "skin-b", "skin-a"};
    find("skin-b");
    find("belly-a");
    find("skin-a");
    find("watching-a");
    ck_assert(plan());
    ck_assert_uint_eq(f.plan.finding_count, 4);
    for (int i = 0; i < COUNT(order); i++) {
        ck_assert_str_eq(f.plan.findings[i].code, order[i]);
        ck_assert_str_eq(f.b.findings[i]->name.text, order[i]);
    }
}
END_TEST

START_TEST(what_is_in_no_catalogue_is_told)
{
    find("skin-c");
    find("skin-a");
    ck_assert(!plan());
    ck_assert_uint_eq(f.plan.finding_count, 1);
    ck_assert(fixture_said(&f, "not-in-catalogue"));
    again();
    f.visit.done_today = fixture_texts(&f, "swab", "laser", NULL, NULL);
    ck_assert(!plan());
    ck_assert_uint_eq(f.plan.procedure_count, 1);
    ck_assert(fixture_said(&f, "not-in-catalogue"));
}
END_TEST

START_TEST(a_finding_is_told_as_it_was_written)
{
    struct visit_finding *one = find("skin-a");
    one->where = fixture_text("tail");
    one->note = fixture_text("Small.");
    one->step = fixture_text("ii");
    one->value = fixture_quantity(3);
    one->certainty = fixture_choice(CERTAINTY_SUSPECTED);
    entries[2].unproven = fixture_flag(true);
    entries[2].steps = fixture_texts(&f, "i", NULL, NULL, NULL);
    entries[2].severities = fixture_one_of(&f, SEVERITY_MILD);
    entries[2].headline = fixture_choice(HEADLINE_BEHIND);
    const struct finding_plan *is = planned();
    ck_assert_str_eq(is->where, "tail");
    ck_assert_str_eq(is->note, "Small.");
    ck_assert_str_eq(is->step, "ii");
    ck_assert(is->has_value && is->value == 3);
    ck_assert(is->is_suspected && is->is_name_doubt && is->has_steps && is->is_as_it_is);
    ck_assert_int_eq(is->system, SYSTEM_SKIN);
    ck_assert_int_eq(is->headline, HEADLINE_BEHIND);
    ck_assert_int_eq(is->severity, SEVERITY_MILD); /* which nobody wrote */
}
END_TEST

/* What does a finding harm is told of it where it was found too, and is not as it should be. */
START_TEST(what_harms_a_finding_is_told_of_it)
{
    for (int severity = SEVERITY_NORMAL; severity <= SEVERITY_SEVERE; severity++) {
        again();
        find("skin-a");
        find("watching-a")->severity = fixture_choice(severity);
        ck_assert_ptr_null(planned()->harmed_by); /* the catalogue says nothing of it */
        again();
        find("skin-a");
        find("watching-a")->severity = fixture_choice(severity);
        entries[2].harmed_by = fixture_texts(&f, "belly-a", "watching-a", NULL, NULL);
        ck_assert(plan());
        ck_assert_ptr_null(f.plan.findings[0].harmed_by);
        ck_assert_ptr_eq(f.plan.findings[1].harmed_by,
                         severity == SEVERITY_NORMAL ? NULL : &f.plan.findings[0]);
    }
}
END_TEST

START_TEST(what_was_not_written_is_not_told)
{
    struct choice_value levels[] = {fixture_choice(SEVERITY_MILD), fixture_choice(SEVERITY_SEVERE)};
    find("skin-a")->certainty = fixture_choice(CERTAINTY_CERTAIN);
    entries[2].severities = fixture_list(&f, levels, 2, sizeof *levels);
    const struct finding_plan *is = planned();
    ck_assert(!is->has_value && !is->is_suspected && !is->is_name_doubt && !is->has_steps);
    ck_assert(!is->is_as_it_is);
    ck_assert_int_eq(is->headline, HEADLINE_USUAL);
    ck_assert(!is->has_recheck && !is->is_urgent);
    ck_assert_int_eq(is->tier, TIER_SOON);
    entries[2].severities = (struct list){0};
    ck_assert(!planned()->is_as_it_is);
}
END_TEST

/* ---- how urgent
 * ---------------------------------------------------------------------------------- */

START_TEST(each_severity_has_its_own_urgency)
{
    static const struct {
        int severity, tier; /* -1: none of its own */
    } rows[] = {{SEVERITY_NORMAL, -1},
                {SEVERITY_MILD, TIER_SOON},
                {SEVERITY_MODERATE, TIER_TODAY},
                {SEVERITY_SEVERE, TIER_NOW}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        entries[2].tiers.mild = fixture_choice(TIER_SOON);
        entries[2].tiers.moderate = fixture_choice(TIER_TODAY);
        entries[2].tiers.severe = fixture_choice(TIER_NOW);
        find("skin-a")->severity = fixture_choice(rows[i].severity);
        const struct finding_plan *is = planned();
        ck_assert_int_eq(is->is_urgent, rows[i].tier >= 0);
        ck_assert_int_eq(is->tier, rows[i].tier >= 0 ? rows[i].tier : TIER_SOON);
    }
}
END_TEST

static void sooner(int at, int severity, int group, enum tier tier)
{
    struct finding_sooner one = {.tier = fixture_choice((int)tier)};
    if (severity >= 0)
        one.severities = fixture_one_of(&f, severity);
    if (group >= 0)
        one.whom.groups = fixture_one_of(&f, group);
    entries[at].sooner = fixture_list(&f, &one, 1, sizeof one);
}

/* More urgent for some animals, never less. */
START_TEST(some_animals_go_sooner)
{
    static const struct {
        int severity, group; /* that it is for; -1: any */
        enum tier own, other, tier;
    } rows[] = {
        {-1, -1, TIER_SOON, TIER_NOW, TIER_NOW},
        {SEVERITY_MODERATE, GROUP_LIZARD, TIER_SOON, TIER_TODAY, TIER_TODAY},
        {SEVERITY_MODERATE, GROUP_SNAKE, TIER_SOON, TIER_TODAY, TIER_SOON},
        {SEVERITY_SEVERE, GROUP_LIZARD, TIER_SOON, TIER_TODAY, TIER_SOON},
        {-1, -1, TIER_NOW, TIER_SOON, TIER_NOW},
        {-1, -1, TIER_TODAY, TIER_TODAY, TIER_TODAY},
    };
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        f.species.group = fixture_choice(GROUP_LIZARD);
        entries[2].tiers.moderate = fixture_choice((int)rows[i].own);
        sooner(2, rows[i].severity, rows[i].group, rows[i].other);
        find("skin-a")->severity = fixture_choice(SEVERITY_MODERATE);
        ck_assert_msg(planned()->tier == rows[i].tier, "row %d", i);
    }
}
END_TEST

/* One without an urgency of its own has what some animals have; what is normal has none. */
START_TEST(one_without_urgency_may_have_that_of_some_animals)
{
    find("skin-a")->severity = fixture_choice(SEVERITY_MILD);
    const struct finding_sooner two[] = {{.tier = fixture_choice(TIER_SOON)},
                                         {.tier = fixture_choice(TIER_TODAY)}};
    entries[2].sooner = fixture_list(&f, two, 2, sizeof *two);
    const struct finding_plan *is = planned();
    ck_assert(is->is_urgent);
    ck_assert_int_eq(is->tier, TIER_TODAY);
    found[0].severity = fixture_choice(SEVERITY_NORMAL);
    ck_assert(!planned()->is_urgent);
}
END_TEST

/* Whoever nobody has looked at goes, where it cannot wait; who was seen goes when she says so. */
START_TEST(who_is_sent_off_at_once)
{
    static const struct {
        int state, severity;
        enum tier tier;
        bool has_veterinarian, goes;
    } rows[] = {
        {-1, SEVERITY_SEVERE, TIER_NOW, false, true},
        {-1, SEVERITY_SEVERE, TIER_TODAY, false, false},
        {-1, SEVERITY_SEVERE, TIER_NOW, true, false},
        {STATE_UNSEEN, SEVERITY_SEVERE, TIER_NOW, true, true},
        {STATE_SEEN, SEVERITY_SEVERE, TIER_NOW, false, false},
        {STATE_REFERRED, SEVERITY_SEVERE, TIER_NOW, false, false},
        {STATE_GO_NOW, SEVERITY_SEVERE, TIER_TODAY, true, true},
        {STATE_GO_NOW, SEVERITY_MILD, TIER_SOON, true, true},
        {STATE_GO_NOW, SEVERITY_NORMAL, TIER_NOW, true, false},
        {STATE_UNSEEN, SEVERITY_MILD, TIER_NOW, true, false}, /* mild has none of its own */
    };
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        if (rows[i].has_veterinarian)
            f.visit.veterinarian = fixture_text("Dr Vale");
        entries[2].tiers.severe = fixture_choice((int)rows[i].tier);
        struct visit_finding *one = find("skin-a");
        one->severity = fixture_choice(rows[i].severity);
        if (rows[i].state >= 0)
            one->state = fixture_choice(rows[i].state);
        find("skin-b"); /* which can wait, and does not call anyone back */
        ck_assert(plan());
        ck_assert_msg(f.plan.go_now == rows[i].goes, "row %d", i);
    }
}
END_TEST

/* A severe one is looked at again at the earlier end. */
START_TEST(when_it_is_looked_at_again)
{
    static const struct {
        int severity;
        bool known, has;
        double days;
    } rows[] = {{SEVERITY_MILD, true, true, 14},
                {SEVERITY_MODERATE, true, true, 14},
                {SEVERITY_SEVERE, true, true, 7},
                {SEVERITY_NORMAL, true, false, 14},
                {SEVERITY_MILD, false, false, 0}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        if (rows[i].known)
            entries[2].recheck_days = fixture_cited(7, 14);
        find("skin-a")->severity = fixture_choice(rows[i].severity);
        const struct finding_plan *is = planned();
        ck_assert_int_eq(is->has_recheck, rows[i].has);
        ck_assert_double_eq(is->recheck_days, rows[i].days);
        ck_assert_double_eq(is->recheck_low_days, rows[i].known ? 7 : 0);
        ck_assert_double_eq(is->recheck_high_days, rows[i].known ? 14 : 0);
    }
}
END_TEST

/* ---- procedures
 * ---------------------------------------------------------------------------------- */

static const struct procedure_plan *done(const char *code)
{
    for (size_t i = 0; i < f.plan.procedure_count; i++)
        if (strcmp(f.plan.procedures[i].code, code) == 0)
            return &f.plan.procedures[i];
    ck_abort_msg("%s was not planned", code);
    return NULL;
}

START_TEST(a_result_is_awaited_where_one_comes_of_it_or_is_written)
{
    const struct visit_result written[] = {{.of = fixture_text("bandage"),
                                            .by = fixture_date(2026, 3, 18),
                                            .how = fixture_choice(RESULT_BY_MAIL)},
                                           {.of = fixture_text("wash"),
                                            .by = fixture_date(2026, 3, 20),
                                            .how = fixture_choice(RESULT_AT_VISIT)}};
    procedures[0].result = fixture_flag(true);
    f.visit.done_today = fixture_texts(&f, "swab", "bandage", "wash", NULL);
    f.visit.follow_up.results = fixture_list(&f, written, 2, sizeof *written);
    ck_assert(plan());
    ck_assert_uint_eq(f.plan.procedure_count, 3);
    ck_assert(done("swab")->awaits_result && !done("swab")->has_result);
    ck_assert(done("bandage")->awaits_result && done("bandage")->has_result);
    ck_assert_int_eq(done("bandage")->result_by, RESULT_BY_MAIL);
    ck_assert_int_eq(done("wash")->result_by, RESULT_AT_VISIT);
    ck_assert_int_eq(date_compare(done("wash")->result, (struct date){2026, 3, 20}), 0);
    f.visit.follow_up.results = (struct list){0};
    ck_assert(plan());
    ck_assert(done("swab")->awaits_result);
    ck_assert(!done("wash")->awaits_result && !done("wash")->has_result);
}
END_TEST

START_TEST(each_check_is_that_of_its_procedure)
{
    const struct visit_aftercare written[] = {
        {.of = fixture_text("swab"), .check = fixture_date(2026, 3, 18)},
        {.of = fixture_text("bandage"), .in_water = fixture_choice(DRESSING_LEFT_ON)},
        {.of = fixture_text("wash"),
         .check = fixture_date(2026, 3, 20),
         .in_water = fixture_choice(DRESSING_TAKEN_OFF)}};
    f.visit.done_today = fixture_texts(&f, "swab", "bandage", "wash", NULL);
    f.visit.follow_up.aftercare = fixture_list(&f, written, 3, sizeof *written);
    ck_assert(plan());
    ck_assert(done("swab")->has_check && !done("bandage")->has_check && done("wash")->has_check);
    ck_assert_int_eq(date_compare(done("swab")->check, (struct date){2026, 3, 18}), 0);
    ck_assert_int_eq(date_compare(done("wash")->check, (struct date){2026, 3, 20}), 0);
    ck_assert_ptr_null(done("swab")->in_water);
    ck_assert_ptr_nonnull(done("bandage")->in_water);
    ck_assert_str_ne(done("bandage")->in_water, done("wash")->in_water);
}
END_TEST

/* A dressing of an animal that lives in water asks what becomes of it there, until it is said. */
START_TEST(a_dressing_in_the_water_is_asked_for)
{
    static const struct {
        int group;
        bool speaks, written, asks;
    } rows[] = {{GROUP_TURTLE, true, false, true},
                {GROUP_TURTLE, true, true, false},
                {GROUP_TURTLE, false, false, false},
                {GROUP_LIZARD, true, false, false}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        const struct visit_aftercare written = {.of = fixture_text("bandage"),
                                                .in_water = fixture_choice(DRESSING_LEFT_ON)};
        f.species.group = fixture_choice(rows[i].group);
        if (rows[i].speaks)
            procedures[1].says = fixture_texts(&f, "hours", "in-water", NULL, NULL);
        if (rows[i].written)
            f.visit.follow_up.aftercare = fixture_list(&f, &written, 1, sizeof written);
        f.visit.done_today = fixture_texts(&f, "bandage", NULL, NULL, NULL);
        ck_assert(plan());
        ck_assert_msg(done("bandage")->asks_water == rows[i].asks, "row %d", i);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("finding_list");
    TCase *tcase = tcase_create("finding_list");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, findings_stand_in_the_order_of_an_examination);
    tcase_add_test(tcase, what_is_in_no_catalogue_is_told);
    tcase_add_test(tcase, a_finding_is_told_as_it_was_written);
    tcase_add_test(tcase, what_harms_a_finding_is_told_of_it);
    tcase_add_test(tcase, what_was_not_written_is_not_told);
    tcase_add_test(tcase, each_severity_has_its_own_urgency);
    tcase_add_test(tcase, some_animals_go_sooner);
    tcase_add_test(tcase, one_without_urgency_may_have_that_of_some_animals);
    tcase_add_test(tcase, who_is_sent_off_at_once);
    tcase_add_test(tcase, when_it_is_looked_at_again);
    tcase_add_test(tcase, a_result_is_awaited_where_one_comes_of_it_or_is_written);
    tcase_add_test(tcase, each_check_is_that_of_its_procedure);
    tcase_add_test(tcase, a_dressing_in_the_water_is_asked_for);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
