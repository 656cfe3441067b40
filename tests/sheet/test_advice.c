/* The advice of the shipped data: what must never happen to an animal, and the facts of the trade.
 * Each check is "common practice, no source" unless a source stands beside it. */
#include <string.h>

#include "common/suite.h"
#include "sheet/written.h"

static struct arena arena;
static struct diag diag;
static struct resources resources;

static void set_up(void)
{
    arena_init(&arena);
    diag_init(&diag);
    const struct places places = {.data_folder = PROJECT_FOLDER};
    ck_assert(resources_read(&places, &arena, &diag, &resources));
}

static void tear_down(void)
{
    arena_finish(&arena);
    diag_finish(&diag);
}

static const struct care_plan *plan_of(const char *species, const char *rest)
{
    const char *text =
        arena_format(&arena,
                     "visit: {date: 2026-03-14, kind: checkout, veterinarian: Dr Ines Calder}\n"
                     "patient: {name: Moss, species: %s%s\n",
                     species, rest);
    const struct visit_record *record = written_record(&resources, text, &arena, &diag);
    if (!record)
        diag_print(&diag, stderr);
    return record ? record->plan : NULL;
}

static const struct action *find_action(const struct care_plan *plan, const char *code)
{
    for (size_t i = 0; i < plan->action_count; i++)
        if (strcmp(plan->actions[i].code, code) == 0)
            return &plan->actions[i];
    return NULL;
}

static const struct review *find_review(const struct care_plan *plan, const char *code)
{
    const struct review *r = plan->review;
    while (r && strcmp(r->code, code) != 0)
        r = r->next;
    return r;
}

static const struct warning *find_warning(const struct care_plan *plan, const char *code)
{
    for (size_t i = 0; i < plan->warning_count; i++)
        if (strcmp(plan->warnings[i].code, code) == 0)
            return &plan->warnings[i];
    return NULL;
}

START_TEST(retained_shed_brings_humidity_and_warmth)
{
    const struct care_plan *plan =
        plan_of("corn-snake", "}\nfindings: [{code: retained-shed, severity: mild}]\n");
    ck_assert_ptr_nonnull(find_action(plan, "raise-humidity"));
    ck_assert_ptr_nonnull(find_action(plan, "check-warmth"));
    ck_assert(plan->humidity.in_shed_now);
}
END_TEST

START_TEST(humidity_is_never_raised_against_a_blistered_belly)
{
    const struct care_plan *plan =
        plan_of("ball-python", "}\nenclosure: {readings: {humidity: 40 %}}\n"
                               "findings: [{code: retained-shed, severity: severe}, {code: "
                               "blistered-belly-scales, severity: mild}]\n");
    ck_assert(plan_holds(plan, "humidity", "low-end"));
    ck_assert(plan_holds(plan, "damp-hide", "none"));
    ck_assert_ptr_null(find_action(plan, "add-moist-hide"));
    ck_assert_ptr_null(find_action(plan, "shallow-bath"));
    ck_assert(!plan->humidity.in_shed_now);
    ck_assert(plan_holds(plan, "bath", "none"));
    ck_assert_double_le(plan->measured[MEASURE_HUMIDITY].high, 70); /* the lower half of 60-80 % */
}
END_TEST

START_TEST(no_meal_for_an_animal_that_brought_one_up)
{
    const struct care_plan *plan = plan_of(
        "ball-python",
        ", mass: 1200 g}\ndiet: {last: 2026-03-10}\nfindings: [{code: vomited, severity: mild}]\n");
    ck_assert(plan->feeding.paused);
    ck_assert_ptr_nonnull(find_action(plan, "pause-food"));
    for (size_t i = 0; i < plan->feeding.next_count; i++)
        ck_assert_int_ge(date_days_between(plan->on, plan->feeding.next[i]), 10);
    /* then half a meal: an adult's band is 5-10 % of 1200 g */
    ck_assert_double_eq_tol(plan->feeding.meal_high_g, 60, 1e-9);
}
END_TEST

START_TEST(no_tongue_flick_is_most_urgent)
{
    const struct care_plan *plan = plan_of(
        "ball-python", "}\nfindings: [{code: no-tongue-flick, severity: mild, state: unseen}]\n");
    ck_assert(plan->go_now);
    ck_assert_str_eq(plan->actions[0].code, "go-to-clinic-now");
    ck_assert_int_eq(find_warning(plan, "no-tongue-flick")->tier, TIER_NOW);
    /* one that was seen and treated is sent home */
    const struct care_plan *seen =
        plan_of("ball-python", "}\nfindings: [{code: no-tongue-flick, severity: mild}]\n");
    ck_assert(!seen->go_now);
    ck_assert_ptr_null(find_action(seen, "go-to-clinic-now"));
}
END_TEST

START_TEST(red_belly_scales_are_never_normal)
{
    ck_assert_ptr_null(
        plan_of("ball-python", "}\nfindings: [{code: red-belly-scales, severity: normal}]\n"));
    ck_assert_str_eq(diag.first->code, "level-does-not-fit");
}
END_TEST

START_TEST(a_bath_waits_a_day_after_a_blood_sample)
{
    const struct care_plan *plan = plan_of(
        "ball-python",
        "}\nfindings: [{code: retained-shed, severity: mild}]\ndone-today: [blood-sample]\n");
    const struct action *bath = find_action(plan, "shallow-bath");
    ck_assert_ptr_nonnull(bath);
    ck_assert(bath->has_start);
    ck_assert_int_eq(date_days_between(plan->on, bath->start), 1);
    ck_assert_uint_eq(plan->procedure_count, 1);
    ck_assert_ptr_nonnull(find_warning(plan, "bleeding"));
}
END_TEST

START_TEST(a_heavier_animal_never_gets_a_smaller_meal_in_its_stage)
{
    double before = 0;
    enum stage stage = STAGE_HATCHLING;
    for (int mass = 60; mass < 3000; mass += 35) {
        const struct care_plan *plan =
            plan_of("ball-python", arena_format(&arena, ", mass: %d g}\n", mass));
        if (plan->feeding.stage == stage)
            ck_assert_double_ge(plan->feeding.meal_high_g, before);
        stage = plan->feeding.stage;
        before = plan->feeding.meal_high_g;
        for (size_t i = 0; i < plan->feeding.food_count; i++)
            ck_assert_double_le(plan->feeding.foods[i].count * plan->feeding.foods[i].each_high_g,
                                plan->feeding.meal_high_g + 1e-9);
    }
}
END_TEST

START_TEST(an_axolotl_is_cooled_and_never_warmed)
{
    const struct care_plan *warm = plan_of("axolotl", "}\nenclosure: {readings: {water: 24 C}}\n");
    ck_assert_str_eq(warm->actions[0].code, "cool-water");
    const struct care_plan *cold = plan_of("axolotl", "}\nenclosure: {readings: {water: 12 C}}\n");
    ck_assert_ptr_null(find_action(cold, "warm-water"));
}
END_TEST

START_TEST(diet_never_takes_food_from_an_animal_with_eggs)
{
    const struct care_plan *plan =
        plan_of("ball-python", ", mass: 1800 g}\nfindings: [{code: overweight, severity: mild}, "
                               "{code: gravid, severity: mild}]\n");
    ck_assert_ptr_null(find_action(plan, "feed-less-often"));
    ck_assert_double_eq(plan->feeding.every_high_days, plan->feeding.usual_high_days);
    ck_assert_ptr_nonnull(find_review(plan, "stance-lost"));
}
END_TEST

START_TEST(no_meal_before_a_recheck_that_needs_an_empty_stomach)
{
    const struct care_plan *plan =
        plan_of("leopard-gecko", "}\ndiet: {last: 2026-03-13}\n"
                                 "follow-up: {recheck: 10 days, empty-stomach: yes}\n");
    ck_assert_uint_eq(plan->feeding.next_count, MEAL_DATES);
    for (size_t i = 0; i < plan->feeding.next_count; i++) {
        long before = date_days_between(plan->feeding.next[i], plan->recheck);
        ck_assert(before != 0 && before != 1);
    }
}
END_TEST

START_TEST(a_month_from_the_31st_ends_with_the_month)
{
    const char *text =
        "visit: {date: 2026-01-31, kind: checkout}\npatient: {name: M, species: ball-python}\n"
        "follow-up: {recheck: 1 month}\n";
    const struct care_plan *plan = written_record(&resources, text, &arena, &diag)->plan;
    ck_assert_int_eq(date_compare(plan->recheck, (struct date){2026, 2, 28}), 0);
}
END_TEST

START_TEST(a_veterinarians_own_target_wins)
{
    const struct care_plan *plan =
        plan_of("ball-python", "}\ntargets: {humidity: 65-70 %, because: dry lungs}\n");
    ck_assert_double_eq(plan->measured[MEASURE_HUMIDITY].low, 65);
    ck_assert_int_eq(plan->measured[MEASURE_HUMIDITY].target_from.origin, ORIGIN_VETERINARIAN);
    ck_assert_str_eq(plan->measured[MEASURE_HUMIDITY].target_from.because, "dry lungs");
}
END_TEST

START_TEST(every_species_gets_a_plan_with_signs_of_each_urgency)
{
    struct library library;
    ck_assert(library_read(resources.species_sheets, NULL, &arena, &diag, &library));
    ck_assert_uint_gt(library.count, 0);
    for (size_t i = 0; i < library.count; i++) {
        const struct care_plan *plan = plan_of(library.items[i]->code.text, "}\n");
        size_t tiers[TIER_COUNT] = {0};
        for (size_t k = 0; k < plan->warning_count; k++)
            tiers[plan->warnings[k].tier]++;
        for (int tier = 0; tier < TIER_COUNT; tier++)
            ck_assert_msg(tiers[tier] > 0, "%s has no sign of tier %d", plan->taxon.code, tier);
        ck_assert_uint_ge(plan->caution_count, 6);
        ck_assert(plan->enclosure.known);
    }
}
END_TEST

/* A rule that no animal can fire is dead weight: every verdict and state it asks for must exist,
 * and its findings must be in the catalogue. */
START_TEST(every_rule_names_known_findings)
{
    for (size_t i = 0; i < resources.rules->rules.count; i++) {
        const struct rule *rule = LIST_AT(resources.rules->rules, struct rule, i);
        for (size_t k = 0; k < rule->when.finding.count; k++) {
            const char *code = LIST_AT(rule->when.finding, struct text_value, k)->text;
            ck_assert_msg(finding_find(resources.catalogue, code), "%s: %s", rule->name.text, code);
        }
    }
    for (size_t i = 0; i < resources.catalogue->findings.count; i++) {
        const struct finding *f = LIST_AT(resources.catalogue->findings, struct finding, i);
        for (size_t k = 0; k < f->warnings.count; k++)
            ck_assert_msg(
                sign_find(resources.signs, LIST_AT(f->warnings, struct text_value, k)->text), "%s",
                f->name.text);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("advice");
    TCase *tcase = tcase_create("advice");
    tcase_set_timeout(tcase, 60);
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, retained_shed_brings_humidity_and_warmth);
    tcase_add_test(tcase, humidity_is_never_raised_against_a_blistered_belly);
    tcase_add_test(tcase, no_meal_for_an_animal_that_brought_one_up);
    tcase_add_test(tcase, no_tongue_flick_is_most_urgent);
    tcase_add_test(tcase, red_belly_scales_are_never_normal);
    tcase_add_test(tcase, a_bath_waits_a_day_after_a_blood_sample);
    tcase_add_test(tcase, a_heavier_animal_never_gets_a_smaller_meal_in_its_stage);
    tcase_add_test(tcase, an_axolotl_is_cooled_and_never_warmed);
    tcase_add_test(tcase, diet_never_takes_food_from_an_animal_with_eggs);
    tcase_add_test(tcase, no_meal_before_a_recheck_that_needs_an_empty_stomach);
    tcase_add_test(tcase, a_month_from_the_31st_ends_with_the_month);
    tcase_add_test(tcase, a_veterinarians_own_target_wins);
    tcase_add_test(tcase, every_species_gets_a_plan_with_signs_of_each_urgency);
    tcase_add_test(tcase, every_rule_names_known_findings);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
