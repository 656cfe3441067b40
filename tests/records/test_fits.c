/* For whom a row of data is: each word that it may name, one that fits and one that does not. And
 * what of a record's letters can be printed: signs by their Unicode names, emoji by emoji-data.txt
 * 15.0. */
#include <string.h>

#include "common/arena_and_diag.h"
#include "common/suite.h"
#include "records/lettering.h"
#include "records/visit.h"
#include "records/whom.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

static struct species species;
static struct visit visit;
static struct whom whom;

static struct list list_of(const void *items, size_t count, size_t size)
{
    void *copy = arena_take_array(&arena, count + 1, size);
    memcpy(copy, items, count * size);
    return (struct list){.items = copy, .count = count};
}

static struct list words(int first, int second)
{
    const struct choice_value both[] = {{.known = true, .value = first},
                                        {.known = true, .value = second}};
    return list_of(both, 2, sizeof *both);
}

static struct list texts(const char *first, const char *second)
{
    const struct text_value both[] = {{.text = first}, {.text = second}};
    return list_of(both, second ? 2 : 1, sizeof *both);
}

static struct choice_value word(int value)
{
    return (struct choice_value){.known = true, .value = value};
}

/* A grown female lizard of the ground that eats insects, drops its tail and drinks drops. */
static void make_animal(void)
{
    memset(&species, 0, sizeof species);
    memset(&visit, 0, sizeof visit);
    memset(&whom, 0, sizeof whom);
    species.code.text = "test-lizard";
    species.group = word(GROUP_LIZARD);
    species.habit = word(HABIT_TERRESTRIAL);
    species.diet = word(DIET_INSECTS);
    species.brumation = word(BRUMATION_AFTER_CHECK);
    species.traits = words(TRAIT_DRINKS_DROPS, TRAIT_DROPS_TAIL);
}

static bool is_dry_for_few_hours;

static bool fits(void)
{
    const struct whom_animal animal = {.species = &species,
                                       .visit = &visit,
                                       .stage = STAGE_ADULT,
                                       .sex = SEX_FEMALE,
                                       .few_dry = is_dry_for_few_hours};
    return whom_fits(&whom, &animal);
}

START_TEST(a_row_of_no_word_is_for_all)
{
    make_animal();
    ck_assert(fits());
}
END_TEST

/* Each list of words: it holds when one of them is the animal's, in either place. */
START_TEST(each_word_of_the_animal)
{
    const struct {
        struct list *list;
        int own, other, third;
    } rows[] = {
        {&whom.groups, GROUP_LIZARD, GROUP_SNAKE, GROUP_FROG},
        {&whom.habits, HABIT_TERRESTRIAL, HABIT_AQUATIC, HABIT_ARBOREAL},
        {&whom.diets, DIET_INSECTS, DIET_PLANTS, DIET_MIXED},
        {&whom.stages, STAGE_ADULT, STAGE_JUVENILE, STAGE_HATCHLING},
        {&whom.sexes, SEX_FEMALE, SEX_MALE, SEX_UNKNOWN},
        {&whom.brumation, BRUMATION_AFTER_CHECK, BRUMATION_NEVER, BRUMATION_NEVER},
    };
    make_animal();
    *rows[_i].list = words(rows[_i].own, rows[_i].other);
    ck_assert(fits());
    *rows[_i].list = words(rows[_i].other, rows[_i].own);
    ck_assert(fits());
    *rows[_i].list = words(rows[_i].other, rows[_i].third);
    ck_assert(!fits());
}
END_TEST

/* What the species sheet does not say fits no row that asks for it, not even the first word. */
START_TEST(what_nobody_said_fits_nothing)
{
    make_animal();
    whom.reproduction = words(0, 1);
    ck_assert(!fits());
    species.reproduction = word(1);
    ck_assert(fits());
}
END_TEST

START_TEST(all_of_the_traits_and_none_of_the_others)
{
    static const struct {
        int with[2], never[2]; /* -1: none */
        bool fits;
    } rows[] = {
        {{TRAIT_DRINKS_DROPS, TRAIT_DROPS_TAIL}, {-1, -1}, true},
        {{TRAIT_DRINKS_DROPS, -1}, {-1, -1}, true},
        {{TRAIT_DROPS_TAIL, TRAIT_GILLS}, {-1, -1}, false},
        {{TRAIT_GILLS, TRAIT_DROPS_TAIL}, {-1, -1}, false},
        {{-1, -1}, {TRAIT_GILLS, -1}, true},
        {{-1, -1}, {TRAIT_GILLS, TRAIT_DROPS_TAIL}, false},
        {{-1, -1}, {TRAIT_DRINKS_DROPS, TRAIT_DROPS_TAIL}, false},
        {{TRAIT_DRINKS_DROPS, -1}, {TRAIT_DROPS_TAIL, -1}, false},
    };
    make_animal();
    whom.traits = words(rows[_i].with[0], rows[_i].with[1]);
    whom.traits.count = (size_t)(rows[_i].with[0] >= 0) + (rows[_i].with[1] >= 0);
    whom.never_with = words(rows[_i].never[0], rows[_i].never[1]);
    whom.never_with.count = (size_t)(rows[_i].never[0] >= 0) + (rows[_i].never[1] >= 0);
    ck_assert_int_eq(fits(), rows[_i].fits);
}
END_TEST

START_TEST(the_species_by_its_code)
{
    make_animal();
    whom.species = texts("corn-snake", "test-lizard");
    ck_assert(fits());
    whom.species = texts("corn-snake", "test-lizards");
    ck_assert(!fits());
}
END_TEST

START_TEST(what_was_done_today)
{
    static const struct {
        const char *wanted, *never;
        bool fits;
    } rows[] = {{"bandage", NULL, true},       {"surgery", NULL, true},  {"bath", NULL, false},
                {NULL, "bath", true},          {NULL, "surgery", false}, {NULL, "bandage", false},
                {"bandage", "surgery", false}, {"bandage", "bath", true}};
    make_animal();
    visit.done_today = texts("bandage", "surgery");
    if (rows[_i].wanted)
        whom.done = texts("unheard", rows[_i].wanted);
    if (rows[_i].never)
        whom.never_done = texts(rows[_i].never, "unheard");
    ck_assert_int_eq(fits(), rows[_i].fits);
}
END_TEST

START_TEST(what_was_found_and_is_not_normal)
{
    static const struct {
        const char *code;
        bool known;
        enum severity severity;
        bool fits;
    } rows[] = {{"burn", true, SEVERITY_MILD, true},
                {"burn", true, SEVERITY_NORMAL, false},
                {"burn", false, SEVERITY_NORMAL, true},
                {"shed", true, SEVERITY_MILD, false}};
    const struct visit_finding findings[] = {
        {.code = {.text = "mites"}, .severity = word(SEVERITY_SEVERE)},
        {.code = {.text = rows[_i].code},
         .severity = {.known = rows[_i].known, .value = (int)rows[_i].severity}}};
    make_animal();
    visit.findings = list_of(findings, 2, sizeof *findings);
    whom.found = texts("burn", "wheeze");
    ck_assert_int_eq(fits(), rows[_i].fits);
}
END_TEST

/* All heat of these kinds, or any of it; a mercury lamp heats too. */
START_TEST(what_heats_it)
{
    static const struct {
        int heat[2]; /* -1: none */
        bool mercury;
        int wanted[2];
        bool all, any;
    } rows[] = {
        {{HEAT_MAT, HEAT_CABLE}, false, {HEAT_CABLE, HEAT_MAT}, true, true},
        {{HEAT_MAT, HEAT_LAMP}, false, {HEAT_CABLE, HEAT_MAT}, false, true},
        {{HEAT_LAMP, HEAT_MAT}, false, {HEAT_CABLE, HEAT_MAT}, false, true},
        {{HEAT_LAMP, HEAT_PANEL}, false, {HEAT_CABLE, HEAT_MAT}, false, false},
        {{-1, -1}, false, {HEAT_CABLE, HEAT_MAT}, false, false},
        {{-1, -1}, true, {HEAT_MERCURY_VAPOUR, HEAT_MAT}, true, true},
        {{-1, -1}, true, {HEAT_CABLE, HEAT_MAT}, false, false},
        {{HEAT_MAT, -1}, true, {HEAT_CABLE, HEAT_MAT}, false, true},
        {{HEAT_MAT, -1}, true, {HEAT_MERCURY_VAPOUR, HEAT_MAT}, true, true},
        {{HEAT_LAMP, -1}, true, {HEAT_MERCURY_VAPOUR, HEAT_MAT}, false, true},
    };
    struct visit_heat heat[2];
    size_t count = 0;
    make_animal();
    for (; count < 2 && rows[_i].heat[count] >= 0; count++)
        heat[count] = (struct visit_heat){.kind = word(rows[_i].heat[count])};
    visit.enclosure.heat = list_of(heat, count, sizeof *heat);
    if (rows[_i].mercury)
        visit.enclosure.lamp.kind = word(LAMP_MERCURY_VAPOUR);
    whom.heat = words(rows[_i].wanted[0], rows[_i].wanted[1]);
    ck_assert_int_eq(fits(), rows[_i].all);
    whom.heat_with = whom.heat;
    whom.heat.count = 0;
    ck_assert_int_eq(fits(), rows[_i].any);
}
END_TEST

/* A lamp of UVB: any but none and LED, or nothing said. */
START_TEST(is_there_a_lamp)
{
    static const struct {
        int kind; /* -1: nothing said */
        bool lamp;
    } rows[] = {{LAMP_TUBE, true}, {LAMP_COMPACT, true}, {LAMP_MERCURY_VAPOUR, true},
                {LAMP_LED, false}, {LAMP_NONE, false},   {-1, false}};
    make_animal();
    if (rows[_i].kind >= 0)
        visit.enclosure.lamp.kind = word(rows[_i].kind);
    whom.lamp = (struct flag_value){.known = true, .value = true};
    ck_assert_int_eq(fits(), rows[_i].lamp);
    whom.lamp.value = false;
    ck_assert_int_eq(fits(), !rows[_i].lamp);
}
END_TEST

/* All heat has one, or it is not said of all. */
START_TEST(thermostats_of_all_heat)
{
    static const struct {
        bool known, value, fits;
    } rows[] = {{true, true, true}, {true, false, false}, {false, false, false}};
    make_animal();
    visit.enclosure.thermostat =
        (struct flag_value){.known = rows[_i].known, .value = rows[_i].value};
    whom.thermostat = (struct flag_value){.known = true, .value = true};
    ck_assert_int_eq(fits(), rows[_i].fits);
    whom.thermostat.value = false;
    ck_assert_int_eq(fits(), !rows[_i].fits);
}
END_TEST

/* A box in the open is not one in a room, and a record that does not say so means a room. */
START_TEST(box_outdoors)
{
    static const struct {
        bool known, value, outdoors;
    } rows[] = {{true, true, true}, {true, false, false}, {false, false, false}};
    make_animal();
    visit.enclosure.outdoor = (struct flag_value){.known = rows[_i].known, .value = rows[_i].value};
    ck_assert(fits());
    whom.outdoor = (struct flag_value){.known = true, .value = true};
    ck_assert_int_eq(fits(), rows[_i].outdoors);
    whom.outdoor.value = false;
    ck_assert_int_eq(fits(), !rows[_i].outdoors);
}
END_TEST

/* What is said of many hours out of the water is not said of few, and what names neither is of all.
 */
START_TEST(few_dry_hours)
{
    make_animal();
    is_dry_for_few_hours = _i == 1;
    ck_assert(fits());
    whom.few_dry = (struct flag_value){.known = true, .value = true};
    ck_assert_int_eq(fits(), _i == 1);
    whom.few_dry.value = false;
    ck_assert_int_eq(fits(), _i != 1);
    is_dry_for_few_hours = false;
}
END_TEST

/* ---- letters ---- */

/* The value of a record that holds the text in a list, as it is settled; NULL when refused. */
static const char *settled_with(const char *text, const char *in_latin)
{
    const char *yaml = arena_format(&arena, "note: [\"%s\"]\n%s", text, in_latin);
    struct node *tree =
        tree_read_bytes("v.yaml", (struct bytes){yaml, strlen(yaml)}, &arena, &diag);
    ck_assert_ptr_nonnull(tree);
    const struct node *settled = lettering_settle(tree, &arena, &diag);
    return settled ? tree_find(settled, "note")->items[0]->text : NULL;
}

static const struct {
    const char *text, *wanted;
    bool told; /* something was left out */
} letter_rows[] = {
    {"plain", "plain", false},
    {"h\u00E9", "h\u00E9", false},
    {"soft\u00ADhyphen", "softhyphen", false},
    {"a\u2009b", "a b", false},
    {"27 \u2103", "27 \u00B0C", false},
    {"80 \u2109", "80 \u00B0F", false},
    {"\u2153 cup", "1/3 cup", false},
    {"1\u2153 cups", "1\u00A01/3 cups", false}, /* no eleven thirds */
    {"9\u215A", "9\u00A05/6", false},
    {"0\u2152", "0\u00A01/10", false},
    {"a\u2153", "a1/3", false},
    {"1\u2713", "1\u221A", false},
    {"\u274C no", "\u00D7 no", false},
    {"\uFF0D5", "-5", false},
    {"good \U0001F98E!", "good!", true},
    {"\U0001F98E good", "good", true},
    {"a \U0001F98E b", "a b", true},
    {"a\U0001F98Eb", "ab", true},
    {"a \U0001F98E", "a", true},                         /* no room is left at the end */
    {"\U0001F468\u200D\U0001F469 yes", "yes", true},     /* joined ones go whole */
    {"\u0645\u200D\u0646", "\u0645\u200D\u0646", false}, /* letters stay joined */
};

START_TEST(what_can_be_printed)
{
    const char *made = settled_with(letter_rows[_i].text, "");
    ck_assert_ptr_nonnull(made);
    ck_assert_str_eq(made, letter_rows[_i].wanted);
    ck_assert_int_eq(diag.first != NULL, letter_rows[_i].told);
}
END_TEST

START_TEST(of_emoji_alone_nothing_is_left)
{
    ck_assert_ptr_null(settled_with("\U0001F98E", ""));
    ck_assert_ptr_nonnull(diag.first);
}
END_TEST

/* The ends of runs of Emoji_Presentation in emoji-data.txt, and signs beside them that are none. */
static const struct {
    unsigned code_point;
    bool emoji;
} emoji_rows[] = {
    {0x20E2, false}, {0x20E3, true}, /* what makes a key of a digit belongs to emoji alone */
    {0x2319, false}, {0x231A, true},  {0x231B, true},  {0x231C, false}, {0x23E8, false},
    {0x23E9, true},  {0x23EC, true},  {0x25FC, false}, {0x25FD, true},  {0x25FE, true},
    {0x25FF, false}, {0x2613, false}, {0x2614, true},  {0x2615, true},  {0x2616, false},
    {0x2647, false}, {0x2648, true},  {0x2653, true},  {0x2654, false}, {0x267E, false},
    {0x267F, true},  {0x2680, false}, {0x2692, false}, {0x2693, true},  {0x2694, false},
    {0x26A0, false}, {0x26A1, true},  {0x26A2, false}, {0x26A9, false}, {0x26AA, true},
    {0x26AB, true},  {0x26AC, false}, {0x26BC, false}, {0x26BD, true},  {0x26BE, true},
    {0x26BF, false}, {0x26C3, false}, {0x26C4, true},  {0x26C5, true},  {0x26C6, false},
    {0x26CD, false}, {0x26CE, true},  {0x26D3, false}, {0x26D4, true},  {0x26D5, false},
    {0x26E9, false}, {0x26EA, true},  {0x26EB, false}, {0x26F1, false}, {0x26F2, true},
    {0x26F3, true},  {0x26F4, false}, {0x26F5, true},  {0x26F6, false}, {0x26F9, false},
    {0x26FA, true},  {0x26FB, false}, {0x26FC, false}, {0x26FD, true},  {0x26FE, false},
    {0x2709, false}, {0x270A, true},  {0x270B, true},  {0x270C, false}, {0x2727, false},
    {0x2728, true},  {0x2729, false}, {0x274D, false}, {0x274E, true},  {0x274F, false},
    {0x2752, false}, {0x2753, true},  {0x2755, true},  {0x2756, false}, {0x2757, true},
    {0x2758, false}, {0x2794, false}, {0x2795, true},  {0x2797, true},  {0x2798, false},
    {0x27AF, false}, {0x27B0, true},  {0x27B1, false}, {0x27BE, false}, {0x27BF, true},
    {0x27C0, false}, {0x2B1A, false}, {0x2B1B, true},  {0x2B1C, true},  {0x2B1D, false},
    {0x2B4F, false}, {0x2B50, true},  {0x2B51, false}, {0x2B54, false}, {0x2B55, true},
    {0x2B56, false}, {0x1F300, true}, {0x1FAF8, true}, {0x1F1E6, true}, {0x1F1FF, true},
    {0x23F0, true},  {0x23F1, false}, {0x23F3, true},  {0x23F4, false},
};

START_TEST(emoji_are_those_of_the_standard)
{
    const unsigned c = emoji_rows[_i].code_point;
    char bytes[5] = {0};
    size_t length = c < 0x10000 ? 3 : 4;
    for (size_t i = 1; i < length; i++)
        bytes[i] = (char)(0x80 | (c >> 6 * (length - 1 - i) & 0x3F));
    bytes[0] = (char)(length == 3 ? 0xE0 | c >> 12 : 0xF0 | c >> 18);
    const char *made = settled_with(arena_format(&arena, "a%sb", bytes), "");
    ck_assert_msg((strcmp(made, "ab") == 0) == emoji_rows[_i].emoji, "U+%04X", c);
}
END_TEST

/* What the record says stands in place of a text, each time that it is there, and not in itself. */
START_TEST(the_records_own_words_stand_instead)
{
    static const char *const rows = "in-latin:\n- {of: \"\u6797\", write: Lin}\n"
                                    "- {of: \"\u6797\u6797\", write: never}\n"
                                    "- {of: \"\", write: nothing}\n- {write: none}\n";
    ck_assert_str_eq(settled_with("\u6797, a\u6797\u6797", rows), "Lin, aLinLin");
    ck_assert_str_eq(settled_with("plain", rows), "plain");
}
END_TEST

#ifndef NO_UNISTRING
/* Normalization Form C, Unicode Standard Annex 15: a letter and its mark are one where there is one
 * for both, and marks stand in the order of their classes: of the dot below (220) and the dot above
 * (230) the one below goes first and joins the letter, which takes as many bytes as before. */
START_TEST(accents_written_apart_are_put_together)
{
    static const char *const rows[][2] = {{"e\u0301", "\u00E9"},
                                          {"A\u030A", "\u00C5"},
                                          {"\u212B", "\u00C5"},
                                          {"a\u0307\u0323", "\u1EA1\u0307"},
                                          {"n\u0303o", "\u00F1o"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        ck_assert_str_eq(lettering_compose(rows[i][0], &arena), rows[i][1]);
}
END_TEST
#endif

START_TEST(what_stays_as_it_is_takes_no_room)
{
    static const char *const rows[] = {"", "plain", "h\u00E9", "\u6797", "\u1EA1\u0307"};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        ck_assert_ptr_eq(lettering_compose(rows[i], &arena), rows[i]);
    const char *yaml = "note: [\"h\u00E9 27 C\", plain, {a: b}]\n";
    struct node *tree =
        tree_read_bytes("v.yaml", (struct bytes){yaml, strlen(yaml)}, &arena, &diag);
    ck_assert_ptr_eq(lettering_settle(tree, &arena, &diag), tree);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("fits");
    TCase *tests = tcase_create("fits");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, a_row_of_no_word_is_for_all);
    tcase_add_loop_test(tests, each_word_of_the_animal, 0, 6);
    tcase_add_test(tests, what_nobody_said_fits_nothing);
    tcase_add_loop_test(tests, all_of_the_traits_and_none_of_the_others, 0, 8);
    tcase_add_test(tests, the_species_by_its_code);
    tcase_add_loop_test(tests, what_was_done_today, 0, 8);
    tcase_add_loop_test(tests, what_was_found_and_is_not_normal, 0, 4);
    tcase_add_loop_test(tests, what_heats_it, 0, 10);
    tcase_add_loop_test(tests, is_there_a_lamp, 0, 6);
    tcase_add_loop_test(tests, thermostats_of_all_heat, 0, 3);
    tcase_add_loop_test(tests, box_outdoors, 0, 3);
    tcase_add_loop_test(tests, few_dry_hours, 0, 2);
    tcase_add_loop_test(tests, what_can_be_printed, 0, COUNT(letter_rows));
    tcase_add_test(tests, of_emoji_alone_nothing_is_left);
    tcase_add_loop_test(tests, emoji_are_those_of_the_standard, 0, COUNT(emoji_rows));
    tcase_add_test(tests, the_records_own_words_stand_instead);
#ifndef NO_UNISTRING
    tcase_add_test(tests, accents_written_apart_are_put_together);
#endif
    tcase_add_test(tests, what_stays_as_it_is_takes_no_room);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
