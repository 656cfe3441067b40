/* Insects beside a complete mix, as the keeper gives them now: 6-12 each 7-9 days are usual here.
 * All is worked out by hand. */
#include "common/suite.h"

#include "care/feeding.h"
#include "care/feeding_fixture.h"

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static void set_up(void)
{
    fixture_init(&f);
}

static void eats_beside(double a_day, double interval_days)
{
    feeding()->beside = (struct feeding_beside){
        .is_known = true, .low = 6, .high = 12, .every_low_days = 7, .every_high_days = 9};
    feeding()->beside_now = (struct feeding_beside_now){
        .is_given = true, .has_count = true, .count_day = a_day, .interval_days = interval_days};
}

static void beside_is(int low, int high, double low_days, double high_days)
{
    ck_assert_int_eq(feeding()->beside.low, low);
    ck_assert_int_eq(feeding()->beside.high, high);
    ck_assert_double_eq(feeding()->beside.every_low_days, low_days);
    ck_assert_double_eq(feeding()->beside.every_high_days, high_days);
}

/* No insect a day, or a number that nobody gave, is no measure of the days: two thirds of the most
 * are left, on the usual days. */
START_TEST(none_a_day_is_no_measure)
{
    eats_beside(0, 2);
    feeding_less_beside(&f.b, 1.5);
    beside_is(6, 8, 7, 9);
    eats_beside(3, 2);
    feeding()->beside_now.has_count = false;
    feeding_less_beside(&f.b, 1.5);
    beside_is(6, 8, 7, 9);
    eats_beside(0, 2);
    feeding_beside_as_now(&f.b);
    beside_is(6, 12, 7, 9);
    eats_beside(3, 2);
    feeding()->beside_now.has_count = false;
    feeding_beside_as_now(&f.b);
    beside_is(6, 12, 7, 9);
}
END_TEST

/* As it is used to: 2 a day each 3 days are 6 each 3 days; one each 4 days is one each 4; no more
 * than the usual 12. */
START_TEST(beside_as_it_is_used_to)
{
    static const struct {
        double a_day, interval_days;
        int pieces;
        double days;
    } rows[] = {{2, 3, 6, 3}, {0.25, 1, 1, 4}, {8, 3, 12, 3}, {1, 1, 1, 1}};
    for (size_t i = 0; i < COUNT(rows); i++) {
        eats_beside(rows[i].a_day, rows[i].interval_days);
        feeding_beside_as_now(&f.b);
        beside_is(rows[i].pieces, rows[i].pieces, rows[i].days, rows[i].days);
        ck_assert_int_eq(feeding()->beside.from.origin, ORIGIN_KEEPER);
        ck_assert_int_eq(feeding()->beside.every_from.origin, ORIGIN_KEEPER);
        eats_beside(rows[i].a_day, rows[i].interval_days);
        feeding()->beside.is_known = false;
        feeding_beside_as_now(&f.b);
        beside_is(6, 12, 7, 9);
    }
}
END_TEST

/* Who is given none is given none more on a diet, if anybody said what it is given. */
START_TEST(none_beside_stays_none)
{
    for (int is_said = 0; is_said < 2; is_said++) {
        struct visit_diet diet = {.food = fixture_text("mouse")};
        f.visit.diet = fixture_list(&f, &diet, (size_t)is_said, sizeof diet);
        eats_beside(0, 0);
        feeding()->beside_now.is_given = false;
        feeding_less_beside(&f.b, 1.5);
        ck_assert_int_eq(feeding()->beside.is_known, !is_said);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("mix_insects");
    TCase *tests = tcase_create("mix_insects");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, none_a_day_is_no_measure);
    tcase_add_test(tests, beside_as_it_is_used_to);
    tcase_add_test(tests, none_beside_stays_none);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
