/* Which animals and visits a row of data is for: each condition by a row on either side. */
#include <string.h>

#include "common/suite.h"
#include "records/topics.h"
#include "records/visit.h"
#include "records/whom.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

static struct species species;
static struct visit visit;
static struct whom whom;
static struct written_words written[2];
static struct list all_written;
static struct whom_animal animal;

static void set_up(void)
{
    memset(&species, 0, sizeof species);
    memset(&visit, 0, sizeof visit);
    memset(&whom, 0, sizeof whom);
    memset(written, 0, sizeof written);
    all_written = (struct list){.items = written, .count = 2};
    animal = (struct whom_animal){.species = &species, .visit = &visit, .written = &all_written};
}

static bool fits(void)
{
    return whom_fits(&whom, &animal);
}

static struct choice_value choice(int value)
{
    return (struct choice_value){.known = true, .value = value};
}

static struct flag_value flag(bool value)
{
    return (struct flag_value){.known = true, .value = value};
}

/* Two choices, the second of which counts as much as the first. */
static struct choice_value two[2];

static struct list choices_of(int a, int b)
{
    two[0] = choice(a);
    two[1] = choice(b);
    return (struct list){.items = two, .count = 2};
}

static struct text_value texts[2];

static struct list texts_of(const char *a, const char *b)
{
    texts[0] = (struct text_value){.text = a};
    texts[1] = (struct text_value){.text = b};
    return (struct list){.items = texts, .count = b ? 2 : 1};
}

/* ---- the animal
 * ---------------------------------------------------------------------------------- */

START_TEST(a_row_without_conditions_is_for_all)
{
    ck_assert(fits());
}
END_TEST

START_TEST(each_of_its_kinds_is_asked)
{
    struct list *const lists[] = {&whom.groups, &whom.habits, &whom.diets, &whom.brumation,
                                  &whom.reproduction};
    struct choice_value *const own[] = {&species.group, &species.habit, &species.diet,
                                        &species.brumation, &species.reproduction};
    for (int i = 0; i < COUNT(lists); i++) {
        set_up();
        *lists[i] = choices_of(1, 0);
        for (int value = 0; value < 3; value++) {
            *own[i] = choice(value);
            ck_assert_msg(fits() == (value < 2), "%d: %d", i, value);
        }
        *own[i] = (struct choice_value){0}; /* nobody knows */
        ck_assert_msg(!fits(), "%d", i);
    }
    set_up();
    whom.stages = choices_of(1, 2);
    for (int stage = 0; stage < 3; stage++) {
        animal.stage = (enum stage)stage;
        ck_assert_int_eq(fits(), stage > 0);
    }
    set_up();
    whom.sexes = choices_of(SEX_MALE, SEX_MALE);
    animal.sex = SEX_FEMALE;
    ck_assert(!fits());
    animal.sex = SEX_MALE;
    ck_assert(fits());
}
END_TEST

/* All of the traits, and none of those that it may not have. */
START_TEST(traits_are_asked_all)
{
    struct choice_value own[] = {choice(TRAIT_GILLS), choice(TRAIT_DROPS_TAIL)};
    struct choice_value asked[] = {choice(TRAIT_DROPS_TAIL), choice(TRAIT_GILLS)};
    for (size_t has = 0; has <= 2; has++) {
        species.traits = (struct list){.items = own, .count = has};
        for (size_t asks = 0; asks <= 2; asks++) {
            whom.traits = (struct list){.items = asked, .count = asks};
            whom.never_with = (struct list){0};
            ck_assert_int_eq(fits(), asks == 0 || has == 2);
            whom.traits = (struct list){0};
            whom.never_with = (struct list){.items = asked, .count = asks};
            ck_assert_int_eq(fits(), asks == 0 || has == 0 || (has == 1 && asks == 1));
        }
    }
}
END_TEST

START_TEST(one_of_the_species_is_enough)
{
    whom.species = texts_of("ours", "theirs");
    species.code.text = "theirs";
    ck_assert(fits());
    species.code.text = "others";
    ck_assert(!fits());
}
END_TEST

/* ---- the visit
 * ----------------------------------------------------------------------------------- */

START_TEST(what_was_done_and_what_was_not)
{
    static const struct {
        const char *done;
        bool one_of, none_of;
    } rows[] = {
        {NULL, false, true}, {"swab", true, false}, {"wash", true, false}, {"x-ray", false, true}};
    for (int i = 0; i < COUNT(rows); i++) {
        set_up();
        struct text_value done[] = {{.text = "bath"}, {.text = rows[i].done}};
        visit.done_today = (struct list){.items = done, .count = rows[i].done ? 2 : 1};
        whom.done = texts_of("swab", "wash");
        ck_assert_msg(fits() == rows[i].one_of, "row %d", i);
        whom.never_done = whom.done;
        whom.done = (struct list){0};
        ck_assert_msg(fits() == rows[i].none_of, "row %d", i);
    }
}
END_TEST

START_TEST(one_of_the_findings_as_not_normal)
{
    struct visit_finding found[] = {{.code = {.text = "worms"}}, {.code = {.text = "burn"}}};
    whom.found = texts_of("mites", "burn");
    ck_assert(!fits());
    visit.findings = (struct list){.items = found, .count = 2};
    ck_assert(fits()); /* mild, as nobody says otherwise */
    found[1].severity = choice(SEVERITY_NORMAL);
    ck_assert(!fits());
    found[1].severity = choice(SEVERITY_MILD);
    ck_assert(fits());
    visit.findings.count = 1;
    ck_assert(!fits());
}
END_TEST

/* What warms the box: all of it, one of it, one that has what it needs. */
START_TEST(the_heat_of_the_box)
{
    static const struct {
        int heat[2]; /* -1: none */
        bool mercury;
        bool only, with; /* mats and cables */
    } rows[] = {
        {{-1, -1}, false, false, false},
        {{HEAT_MAT, -1}, false, true, true},
        {{HEAT_MAT, HEAT_CABLE}, false, true, true},
        {{HEAT_MAT, HEAT_LAMP}, false, false, true},
        {{HEAT_LAMP, HEAT_MAT}, false, false, true},
        {{HEAT_LAMP, -1}, false, false, false},
        {{HEAT_MAT, -1}, true, false, true},
        {{-1, -1}, true, false, false},
    };
    for (int i = 0; i < COUNT(rows); i++) {
        set_up();
        struct visit_heat heat[2];
        memset(heat, 0, sizeof heat);
        size_t count = 0;
        for (; count < 2 && rows[i].heat[count] >= 0; count++)
            heat[count].kind = choice(rows[i].heat[count]);
        visit.enclosure.heat = (struct list){.items = heat, .count = count};
        if (rows[i].mercury)
            visit.enclosure.lamp.kind = choice(LAMP_MERCURY_VAPOUR);
        whom.heat = choices_of(HEAT_MAT, HEAT_CABLE);
        ck_assert_msg(fits() == rows[i].only, "row %d", i);
        whom.heat_with = whom.heat;
        whom.heat = (struct list){0};
        ck_assert_msg(fits() == rows[i].with, "row %d", i);
    }
    set_up(); /* a lamp that warms too is heat, wherever it is written */
    visit.enclosure.lamp.kind = choice(LAMP_MERCURY_VAPOUR);
    whom.heat = choices_of(HEAT_MAT, HEAT_MERCURY_VAPOUR);
    ck_assert(fits());
    whom.heat_with = whom.heat;
    ck_assert(fits());
}
END_TEST

START_TEST(heat_that_has_all_it_needs)
{
    struct visit_heat heat[2];
    memset(heat, 0, sizeof heat);
    visit.enclosure.heat = (struct list){.items = heat, .count = 2};
    heat[0].kind = choice(HEAT_LAMP);
    heat[0].thermostat = heat[0].guard = flag(true);
    heat[1].kind = choice(HEAT_CABLE);
    whom.heat_safe = choices_of(HEAT_MAT, HEAT_CABLE);
    ck_assert(!fits()); /* the lamp has it, and is not asked for */
    for (int thermostat = 0; thermostat < 3; thermostat++)
        for (int guard = 0; guard < 3; guard++) {
            heat[1].thermostat = thermostat == 2 ? (struct flag_value){0} : flag(thermostat);
            heat[1].guard = guard == 2 ? (struct flag_value){0} : flag(guard);
            ck_assert_int_eq(fits(), thermostat == 1 && guard == 1);
        }
}
END_TEST

START_TEST(lamp_and_thermostat)
{
    static const struct {
        int kind; /* -1: not written */
        bool is_lamp;
    } lamps[] = {{-1, false},       {LAMP_NONE, false},   {LAMP_LED, false},
                 {LAMP_TUBE, true}, {LAMP_COMPACT, true}, {LAMP_MERCURY_VAPOUR, true}};
    for (int i = 0; i < COUNT(lamps); i++) {
        set_up();
        if (lamps[i].kind >= 0)
            visit.enclosure.lamp.kind = choice(lamps[i].kind);
        for (int asks = 0; asks < 2; asks++) {
            whom.lamp = flag(asks);
            ck_assert_int_eq(fits(), asks == lamps[i].is_lamp);
        }
    }
    for (int has = 0; has < 3; has++) {
        set_up();
        struct visit_heat mat = {.kind = choice(HEAT_MAT)};
        visit.enclosure.heat = (struct list){.items = &mat, .count = 1};
        if (has < 2)
            visit.enclosure.thermostat = flag(has);
        for (int asks = 0; asks < 2; asks++) {
            whom.thermostat = flag(asks);
            ck_assert_int_eq(fits(), asks == (has == 1));
        }
    }
}
END_TEST

/* ---- words of her own
 * ---------------------------------------------------------------------------- */

static struct text_value parts[] = {{.text = "soak"}, {.text = "bath"}};
static struct choice_value routes[] = {{.known = true, .value = ROUTE_IN_THE_EAR},
                                       {.known = true, .value = ROUTE_IN_A_BATH}};

static void never_of_baths(void)
{
    written[0].of.text = "food";
    written[1].of.text = "bath";
    written[1].parts = (struct list){.items = parts, .count = 2};
    written[1].routes = (struct list){.items = routes, .count = 2};
    whom.never_written = texts_of("handling", "bath");
}

/* Wherever she writes it, as a part of a word, in either case. */
START_TEST(what_she_writes_is_said_already)
{
    for (int where = 0; where < 7; where++) {
        for (int says = 0; says < 2; says++) {
            set_up();
            never_of_baths();
            const struct text_value text = {.text = says ? "Two BATHS a day" : "Feed it less"};
            struct visit_finding found[2] = {0};
            struct visit_medicine given[2] = {0};
            struct visit_decision decided[2] = {0};
            struct text_value *const places[] = {
                &visit.message,    &found[1].note,      &given[1].name, &given[1].directions,
                &decided[1].topic, &decided[1].because, &decided[1].own};
            *places[where] = text;
            visit.findings = (struct list){.items = found, .count = 2};
            visit.medicines = (struct list){.items = given, .count = 2};
            visit.decisions = (struct list){.items = decided, .count = 2};
            ck_assert_msg(fits() == !says, "place %d", where);
        }
    }
}
END_TEST

START_TEST(only_words_of_what_is_asked_count)
{
    never_of_baths();
    visit.message.text = "Two baths a day";
    ck_assert(!fits());
    visit.message.text = "Soak it";
    ck_assert(!fits());
    whom.never_written = texts_of("food", NULL);
    ck_assert(fits());
    whom.never_written = (struct list){0};
    ck_assert(fits());
}
END_TEST

/* What the keeper puts there day by day, and not what the clinic gives. */
START_TEST(what_a_keeper_gives_there_is_said_already)
{
    static const struct {
        int route, given; /* -1: not written */
        bool fits;
    } rows[] = {{ROUTE_IN_A_BATH, -1, false},        {ROUTE_IN_THE_EAR, -1, false},
                {ROUTE_BY_MOUTH, -1, true},          {-1, -1, true},
                {ROUTE_IN_A_BATH, GIVEN_HERE, true}, {ROUTE_IN_A_BATH, GIVEN_AT_HOME, false}};
    for (int i = 0; i < COUNT(rows); i++) {
        set_up();
        never_of_baths();
        struct visit_medicine given[2];
        memset(given, 0, sizeof given);
        if (rows[i].route >= 0)
            given[1].route = choice(rows[i].route);
        if (rows[i].given >= 0)
            given[1].given = choice(rows[i].given);
        visit.medicines = (struct list){.items = given, .count = 2};
        ck_assert_msg(fits() == rows[i].fits, "row %d", i);
    }
}
END_TEST

START_TEST(a_medicine_beside_a_thing_is_not_the_thing)
{
    static const char *const none[] = {"Feeding tube flush", "Syrup, FEEDING TUBE", "Tube, feed"};
    static const char *const food[] = {"Feed by feeding tube", "Feeding tube feed", "Tube feed"};
    struct text_value of_food[] = {{.text = "feed"}};
    struct text_value never[] = {{.text = "tube, feed"}, {.text = "feeding tube"}};
    struct visit_medicine given[1] = {0};
    set_up();
    written[0].of.text = "food";
    written[1].of.text = "bath";
    written[0].parts = (struct list){.items = of_food, .count = 1};
    written[0].never = (struct list){.items = never, .count = 2};
    visit.medicines = (struct list){.items = given, .count = 1};
    for (size_t i = 0; i < sizeof none / sizeof *none; i++) {
        given[0].name.text = none[i];
        ck_assert_msg(!written_medicine(&all_written, &visit, "food"), "%s", none[i]);
        given[0].name.text = food[i];
        ck_assert_msg(written_medicine(&all_written, &visit, "food") == food[i], "%s", food[i]);
    }
}
END_TEST

START_TEST(the_first_medicine_of_a_kind)
{
    struct visit_medicine given[] = {{.name = {.text = "Drops"}},
                                     {.name = {.text = "Bath salt"}},
                                     {.name = {.text = "Soaking powder"}}};
    never_of_baths();
    ck_assert_ptr_null(written_medicine(&all_written, &visit, "bath"));
    visit.medicines = (struct list){.items = given, .count = 3};
    ck_assert_str_eq(written_medicine(&all_written, &visit, "bath"), "Bath salt");
    ck_assert_ptr_null(written_medicine(&all_written, &visit, "food"));
    written[0].parts = (struct list){.items = parts, .count = 2};
    ck_assert_str_eq(written_medicine(&all_written, &visit, "food"), "Bath salt");
    given[1].name.text = "Salve";
    ck_assert_str_eq(written_medicine(&all_written, &visit, "bath"), "Soaking powder");
    visit.medicines.count = 2;
    ck_assert_ptr_null(written_medicine(&all_written, &visit, "bath"));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("whom_fits");
    TCase *tcase = tcase_create("whom_fits");
    tcase_add_checked_fixture(tcase, set_up, NULL);
    tcase_add_test(tcase, a_row_without_conditions_is_for_all);
    tcase_add_test(tcase, each_of_its_kinds_is_asked);
    tcase_add_test(tcase, traits_are_asked_all);
    tcase_add_test(tcase, one_of_the_species_is_enough);
    tcase_add_test(tcase, what_was_done_and_what_was_not);
    tcase_add_test(tcase, one_of_the_findings_as_not_normal);
    tcase_add_test(tcase, the_heat_of_the_box);
    tcase_add_test(tcase, heat_that_has_all_it_needs);
    tcase_add_test(tcase, lamp_and_thermostat);
    tcase_add_test(tcase, what_she_writes_is_said_already);
    tcase_add_test(tcase, only_words_of_what_is_asked_count);
    tcase_add_test(tcase, what_a_keeper_gives_there_is_said_already);
    tcase_add_test(tcase, a_medicine_beside_a_thing_is_not_the_thing);
    tcase_add_test(tcase, the_first_medicine_of_a_kind);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
