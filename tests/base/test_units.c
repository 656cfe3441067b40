/* Quantities read from text, and conversions against their exact definitions. */
#include <math.h>
#include <string.h>

#include "common/suite.h"
#include "base/nearest.h"
#include "base/units.h"

static struct arena arena;

static void set_up(void)
{
    arena_init(&arena);
}

static void tear_down(void)
{
    arena_finish(&arena);
}

/* 1 in = 2.54 cm and 1 lb = 453.59237 g exactly: international yard and pound
 * agreement of 1959. 84 F = 28.888... C: (84 - 32) * 5 / 9. 1 lb = 16 oz. A US gallon is 231 cubic
 * inches; 1 dGH is 17.848 mg/l of calcium carbonate (10 mg CaO, molar masses 56.077 and 100.087).
 */
static const struct {
    const char *text;
    enum dimension dimension;
    double value;
} good_rows[] = {
    {"29 C", DIM_TEMPERATURE, 29},
    {"29°C", DIM_TEMPERATURE, 29},
    {"84 F", DIM_TEMPERATURE, 260.0 / 9.0},
    {"-4 °C", DIM_TEMPERATURE, -4},
    {"1450 g", DIM_MASS, 1450},
    {"1.45 kg", DIM_MASS, 1450},
    {"3 lb 3 oz", DIM_MASS, 51 * 453.59237 / 16},
    {"48 in", DIM_LENGTH, 121.92},
    {"4 ft 2 in", DIM_LENGTH, 127},
    {"35 %", DIM_PERCENT, 35},
    {"35%", DIM_PERCENT, 35},
    {"35 percent", DIM_PERCENT, 35},
    {"35 por ciento", DIM_PERCENT, 35},
    {"52 gm", DIM_MASS, 52}, /* as many write it, though SI has "g" alone */
    {"52 gr", DIM_MASS, 52},
    {"7 days", DIM_DURATION, 7},
    {"3 weeks", DIM_DURATION, 21},
    {"1 h 30 min", DIM_HOURS, 1.5},
    {"3.2", DIM_UV_INDEX, 3.2},
    {"60 W", DIM_POWER, 60},
    {"0.25 mg/l", DIM_CONCENTRATION, 0.25},
    {"0.25 mg/L", DIM_CONCENTRATION, 0.25},
    {"0.5 ppm", DIM_CONCENTRATION, 0.5},
    {"8 dGH", DIM_HARDNESS, 8},
    {"178.48 mg/l", DIM_HARDNESS, 10.0000},
    {"7.5", DIM_PH, 7.5},
    {"90 l", DIM_VOLUME, 90},
    {"500 ml", DIM_VOLUME, 0.5},
    {"12 h", DIM_INTERVAL, 12},
    {"2 days", DIM_INTERVAL, 48},
    {"1 week", DIM_INTERVAL, 168},
    {"0.2 ml", DIM_AMOUNT, 0.2}, /* as written: its units do not become one another */
    {"2 drops", DIM_AMOUNT, 2},
    {"5 mg/kg", DIM_DOSE, 5},
    {"25 mg/ml", DIM_STRENGTH, 25},
    /* as people write: words, either case, the signs that keyboards have for a degree (U+00BA is
     * the Spanish one), spaces that do not break, a decimal comma */
    {"3 lbs 3 oz", DIM_MASS, 51 * 453.59237 / 16},
    {"1 Pound", DIM_MASS, 453.59237},
    {"1450 grams", DIM_MASS, 1450},
    {"1450 gramos", DIM_MASS, 1450},
    {"1.85 Kg", DIM_MASS, 1850},
    {"1,85 kg", DIM_MASS, 1850},
    {"0,125 kg", DIM_MASS, 125},
    {"1.85\u00A0kg", DIM_MASS, 1850},
    {"1,85\u202Fkilos", DIM_MASS, 1850},
    {"27 ºC", DIM_TEMPERATURE, 27},
    {"27\u00A0°C", DIM_TEMPERATURE, 27},
    {"27 ˚c", DIM_TEMPERATURE, 27},
    {"27 ℃", DIM_TEMPERATURE, 27},
    {"212 degrees F", DIM_TEMPERATURE, 100},
    {"−4 C", DIM_TEMPERATURE, -4},
    {"48 inches", DIM_LENGTH, 121.92},
    {"118 CM", DIM_LENGTH, 118},
    {"1 metre", DIM_LENGTH, 100},
    {"7 días", DIM_DURATION, 7},
    {"1 jour", DIM_DURATION, 1},
    {"2 wks", DIM_DURATION, 14},
    {"12 hrs", DIM_HOURS, 12},
    {"7,5", DIM_PH, 7.5},
    {"0,2 ML", DIM_AMOUNT, 0.2},
    {"20 gal", DIM_VOLUME, 20 * 231 * 2.54 * 2.54 * 2.54 / 1000},
};

START_TEST(reads_quantities)
{
    struct quantity q;
    const char *why = NULL;
    ck_assert_msg(
        units_read_quantity(good_rows[_i].text, good_rows[_i].dimension, &arena, &q, &why),
        "%s: %s", good_rows[_i].text, why);
    ck_assert_double_eq_tol(q.value, good_rows[_i].value,
                            good_rows[_i].dimension == DIM_HARDNESS ? 1e-4 : 1e-9);
}
END_TEST

static const struct {
    const char *text;
    enum dimension dimension;
    const char *why; /* part of the message */
} bad_rows[] = {
    {"29", DIM_TEMPERATURE, "has no unit; write it with C or F"},
    {"29 g", DIM_TEMPERATURE, "is not a temperature"},
    {"29 C x", DIM_TEMPERATURE, "is not a temperature"},
    {"1e3 g", DIM_MASS, "is not a mass"},
    {"nan g", DIM_MASS, "is not a mass"},
    {"inf C", DIM_TEMPERATURE, "is not a temperature"},
    {"0x10 g", DIM_MASS, "is not a mass"},
    {"3 oz 3 lb", DIM_MASS, "is not a mass"},
    {"3 lb 17 oz", DIM_MASS, "is not a mass"},
    {"1 lb -2 oz", DIM_MASS, "is not a mass"},
    {"", DIM_PERCENT, "is empty; write a number with %"},
    {" ", DIM_COUNT, "is empty; write a number"},
    {"1 450 g", DIM_MASS, "write the digits side by side"},
    {"1\xe2\x80\x89"
     "450 g",
     DIM_MASS, "write the digits side by side"}, /* U+2009 */
    {"1'450 g", DIM_MASS, "write the digits side by side"},
    {"\xef\xbc\x91 kg", DIM_MASS, "write 0 to 9"}, /* U+FF11, a wide 1 */
    {"3 lb 300", DIM_MASS, "is not a mass"},
    {"0.5", DIM_CONCENTRATION, "has no unit; write it with mg/l or ppm"},
    {"7.5 pH", DIM_PH, "is not a plain number"},
    {"8", DIM_HARDNESS, "has no unit; write it with dGH, mg/l or ppm"},
    {"0.2", DIM_AMOUNT, "has no unit; write it with ml, mg"},
    {"0.2 mg/l", DIM_AMOUNT, "is not an amount"},
    {"24", DIM_INTERVAL, "has no unit; write it with h, days or weeks"},
    {"3 C", DIM_UV_INDEX, "is not a plain number"},
    {"1,450 g", DIM_MASS, "could part thousands or be a decimal point"},
    {"1,450.5 g", DIM_MASS, "write it without a comma"},
    {",5 g", DIM_MASS, "is not a mass"},
    {"5, g", DIM_MASS, "is not a mass"},
    {"5 gr", DIM_AMOUNT, "is not an amount"}, /* of a medicine: a grain or a gram */
    {"5 libras", DIM_MASS, "is not a mass"},
    {"5 mg", DIM_MASS, "is not a mass"},
    {"5 kgg", DIM_MASS, "is not a mass"},
    {"27 °", DIM_TEMPERATURE, "is not a temperature"},
    {"9999999999999 g", DIM_MASS, "is not a mass"},
};

START_TEST(refuses_with_what_would_do)
{
    struct quantity q = {.value = 42};
    const char *why = "";
    ck_assert(!units_read_quantity(bad_rows[_i].text, bad_rows[_i].dimension, &arena, &q, &why));
    ck_assert_msg(strstr(why, bad_rows[_i].why), "%s: %s", bad_rows[_i].text, why);
    ck_assert_double_eq(q.value, 42);
}
END_TEST

START_TEST(reads_bands_and_boxes)
{
    struct band band;
    struct box box;
    const char *why;
    ck_assert(units_read_band("30-32 C", DIM_TEMPERATURE, &arena, &band, &why));
    ck_assert_double_eq(band.low, 30);
    ck_assert_double_eq(band.high, 32);
    ck_assert(units_read_band("5 – 10 %", DIM_PERCENT, &arena, &band, &why));
    ck_assert_double_eq(band.high, 10);
    ck_assert(units_read_band("30,5\u00A0– 32,5 ºC", DIM_TEMPERATURE, &arena, &band, &why));
    ck_assert_double_eq(band.low, 30.5);
    ck_assert_double_eq(band.high, 32.5);
    ck_assert(units_read_band("86-90 F", DIM_TEMPERATURE, &arena, &band, &why));
    ck_assert_double_eq_tol(band.low, 30, 1e-9);
    ck_assert(units_read_band("25 C", DIM_TEMPERATURE, &arena, &band, &why));
    ck_assert_double_eq(band.low, band.high);
    ck_assert(!units_read_band("32-30 C", DIM_TEMPERATURE, &arena, &band, &why));
    ck_assert_ptr_nonnull(strstr(why, "lower number first"));
    ck_assert(units_read_box("48 x 24 x 24 in", &arena, &box, &why));
    ck_assert_double_eq_tol(box.length_cm, 121.92, 1e-9);
    ck_assert(units_read_box("120×60×60 cm", &arena, &box, &why));
    ck_assert(units_read_box("1,2 X 0,6 X 0,6 Metres", &arena, &box, &why));
    ck_assert_double_eq_tol(box.length_cm, 120, 1e-9);
    ck_assert(!units_read_box("120 x 60 cm", &arena, &box, &why));
}
END_TEST

START_TEST(converts_by_definition)
{
    /* fixed points of the scales: water freezes at 32 F and boils at 212 F; -40 is -40 */
    ck_assert_double_eq(units_c_to_f(0), 32);
    ck_assert_double_eq(units_c_to_f(100), 212);
    ck_assert_double_eq(units_c_to_f(-40), -40);
    /* the inch is 2.54 cm, the ounce a sixteenth of 453.59237 g */
    ck_assert_double_eq(units_cm_to_in(2.54), 1);
    ck_assert_double_eq(units_g_to_oz(453.59237 / 16), 1);
    /* a difference has no 32 in it: 5 K are 9 degrees Fahrenheit */
    ck_assert_double_eq(units_c_step_to_f_step(5), 9);
}
END_TEST

START_TEST(offers_the_nearest_name)
{
    struct nearest nearest;
    nearest_init(&nearest, "humidty");
    nearest_offer(&nearest, "basking-surface");
    nearest_offer(&nearest, "humidity");
    nearest_offer(&nearest, "humidity-at");
    ck_assert_str_eq(nearest.best, "humidity");
    nearest_init(&nearest, "zebra");
    nearest_offer(&nearest, "humidity");
    ck_assert_ptr_null(nearest.best);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("units");
    TCase *tcase = tcase_create("units");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_loop_test(tcase, reads_quantities, 0, sizeof good_rows / sizeof *good_rows);
    tcase_add_loop_test(tcase, refuses_with_what_would_do, 0, sizeof bad_rows / sizeof *bad_rows);
    tcase_add_test(tcase, reads_bands_and_boxes);
    tcase_add_test(tcase, converts_by_definition);
    tcase_add_test(tcase, offers_the_nearest_name);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
