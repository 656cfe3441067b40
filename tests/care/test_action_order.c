/* How far the setting of a heater gives way to what a disease asks for: by hand, from the header's
 * two sentences. */
#include "common/suite.h"
#include "care/action_order.h"

enum { GRAVE = 70, SLIGHT = 40 };

static const struct action of_diseases[] = {{.harm = GRAVE, .of_disease = true},
                                            {.harm = SLIGHT, .of_disease = true}};

/* What is left of a heater's harm beside a grave and a slight disease. */
static const struct {
    struct action heater;
    double left;
} rows[] = {
    {{.harm = 90, .of_heater = true}, SLIGHT - 1},
    {{.harm = SLIGHT, .of_heater = true}, SLIGHT - 1},
    {{.harm = SLIGHT - 0.5, .of_heater = true}, SLIGHT - 0.5},
    {{.harm = 90, .of_heater = true, .is_far_too_hot = true}, GRAVE - 1},
    {{.harm = GRAVE, .of_heater = true, .is_far_too_hot = true}, GRAVE - 1},
    {{.harm = GRAVE - 0.5, .of_heater = true, .is_far_too_hot = true}, GRAVE - 0.5},
    {{.harm = 90}, 90},                                        /* sets no heater */
    {{.harm = 90, .of_heater = true, .of_disease = true}, 90}, /* the disease's own */
};

START_TEST(a_heater_stands_behind_the_disease)
{
    for (size_t place = 0; place < 3; place++) { /* wherever it was gathered */
        struct action actions[3];
        for (size_t i = 0, next = 0; i < 3; i++)
            actions[i] = i == place ? rows[_i].heater : of_diseases[next++];
        action_cap_heaters(actions, 3);
        ck_assert_double_eq(actions[place].harm, rows[_i].left);
        for (size_t i = 0, next = 0; i < 3; i++)
            if (i != place)
                ck_assert_double_eq(actions[i].harm, of_diseases[next++].harm);
    }
}
END_TEST

START_TEST(alone_it_keeps_its_place)
{
    struct action actions[] = {{.harm = 90, .of_heater = true}, {.harm = 50}, of_diseases[0]};
    action_cap_heaters(actions, 2); /* the disease lies past the end */
    ck_assert_double_eq(actions[0].harm, 90);
    ck_assert_double_eq(actions[1].harm, 50);
}
END_TEST

/* Nothing weighs less than nothing. */
START_TEST(no_harm_is_below_none)
{
    struct action actions[] = {{.harm = 5, .of_heater = true}, {.harm = 0.5, .of_disease = true}};
    action_cap_heaters(actions, 2);
    ck_assert_double_eq(actions[0].harm, 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("action_order");
    TCase *tests = tcase_create("action_order");
    tcase_add_loop_test(tests, a_heater_stands_behind_the_disease, 0, sizeof rows / sizeof *rows);
    tcase_add_test(tests, alone_it_keeps_its_place);
    tcase_add_test(tests, no_harm_is_below_none);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
