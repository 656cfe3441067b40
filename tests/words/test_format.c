/* Numbers, dates and bands in words, in words of this test's own. Factors: NIST SP 811 (2008),
 * appendix B.8 (2.54 cm an inch, 453.592 37 g a pound, 28.349 523 g an ounce, 3.785 412 l a gallon,
 * F = 1.8 C + 32). Rounding: what words/format.h promises of each (common practice, no source). */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "common/suite.h"
#include "common/arena_and_diag.h"
#include "words/format.h"
#include "words/wording.h"

static const double INCH_CM = 2.54, POUND_G = 453.59237, OUNCE_G = 28.349523125,
                    GALLON_L = 3.785411784;

static const char words_file[] =
    "number.decimal-mark: \".\"\n"
    "number.range: \"{low}..{high}\"\n"
    "number.words: \"{low} to {high}\"\n"
    "unit.at-least: \"at least {least}\"\n"
    "unit.parts: \"{n} of ten\"\n"
    "unit.parts-all: \"all\"\n"
    "unit.share.fifth: \"a fifth\"\n"
    "unit.share.quarter: \"a quarter\"\n"
    "unit.share.third: \"a third\"\n"
    "unit.share.half: \"half\"\n"
    "unit.share.two-thirds: \"two thirds\"\n"
    "unit.share.three-quarters: \"three quarters\"\n"
    "number.box: \"{length} x {width} x {height}\"\n"
    "number.area: \"{length} x {width}\"\n"
    "unit.celsius: \"{n} C\"\n"
    "unit.fahrenheit: \"{n} F\"\n"
    "unit.percent: \"{n} %\"\n"
    "unit.points: {count-by: n, one: \"{n} point\", other: \"{n} points\"}\n"
    "unit.centimetre: \"{n} cm\"\n"
    "unit.inch: \"{n} in\"\n"
    "unit.foot: \"{n} ft\"\n"
    "unit.gram: \"{n} g\"\n"
    "unit.kilogram: \"{n} kg\"\n"
    "unit.ounce: \"{n} oz\"\n"
    "unit.pound: \"{n} lb\"\n"
    "unit.watt: \"{n} W\"\n"
    "unit.kcal-day: \"{n} kcal\"\n"
    "unit.both: \"{first} ({second})\"\n"
    "unit.mg-l: \"{n} mg/l\"\n"
    "unit.dgh: \"{n} dGH\"\n"
    "unit.litre: \"{n} l\"\n"
    "unit.gallon: \"{n} gal\"\n"
    "unit.millilitre: \"{n} ml\"\n"
    "unit.milligram: \"{n} mg\"\n"
    "unit.microgram: \"{n} ug\"\n"
    "unit.international: \"{n} IU\"\n"
    "unit.drop: {count-by: n, one: \"{n} drop\", other: \"{n} drops\"}\n"
    "unit.tablet: {count-by: n, one: \"{n} tablet\", other: \"{n} tablets\"}\n"
    "unit.capsule: {count-by: n, one: \"{n} capsule\", other: \"{n} capsules\"}\n"
    "unit.hour: {count-by: n, one: \"{n} hour\", other: \"{n} hours\"}\n"
    "unit.day: {count-by: n, one: \"{n} day\", other: \"{n} days\"}\n"
    "unit.week: {count-by: n, one: \"{n} week\", other: \"{n} weeks\"}\n"
    "unit.month: {count-by: n, one: \"{n} month\", other: \"{n} months\"}\n"
    "unit.year: {count-by: n, one: \"{n} year\", other: \"{n} years\"}\n"
    "unit.about: \"about {age}\"\n"
    "unit.years-months: \"{years} {months}\"\n"
    "sheet.date-long: \"{weekday} {day} {month} {year}\"\n"
    "sheet.date-short: \"{day} {month-short} {year}\"\n"
    "sheet.date-day: \"{weekday-short} {day} {month-short}\"\n"
    "sheet.date-weekday: \"{weekday-short} {day}\"\n"
    "month.3: \"March\"\n"
    "month.3.short: \"Mar\"\n"
    "weekday.6: \"Saturday\"\n"
    "weekday.6.short: \"Sat\"\n";

static struct format metric, us;

static void set_up_words(void)
{
    set_up();
    struct bytes bytes = {.data = arena_copy_text(&arena, words_file),
                          .length = strlen(words_file)};
    struct node *tree = tree_read_bytes("words.yaml", bytes, &arena, &diag);
    const char *wrong = NULL;
    struct language *language = ARENA_NEW(&arena, struct language);
    language->plurals.conditions[PLURAL_ONE] = plural_parse("i = 1 and v = 0", &arena, &wrong);
    struct wording_source *source = ARENA_NEW(&arena, struct wording_source);
    *source = (struct wording_source){"words", "en", language};
    metric = (struct format){catalogue_read_trees(source, &tree, 1, &arena, &diag),
                             UNITS_METRIC,
                             &arena,
                             &diag,
                             0,
                             false};
    us = metric;
    us.units = UNITS_US;
    ck_assert_ptr_nonnull(metric.words);
}

static void tear_down_words(void)
{
    ck_assert_ptr_null(diag.first);
    tear_down();
}

/* What stands behind the values that were given is not theirs. */
START_TEST(a_slot_that_was_not_given_is_told)
{
    const struct named_value values[] = {{"years", {.text = "2"}}, {"months", {.text = "3"}}};
    ck_assert_str_eq(format_pattern(&metric, "unit.years-months", values, 2), "2 3");
    ck_assert_str_eq(format_pattern(&metric, "unit.years-months", values, 1), "unit.years-months");
    ck_assert_uint_eq(diag.counts[DIAG_ERROR], 1);
    ck_assert_str_eq(diag.first->code, "unknown-slot");
    ck_assert_ptr_nonnull(strstr(diag.first->text, "{months}"));
}
END_TEST

START_TEST(numbers)
{
    ck_assert_str_eq(format_number(&metric, 2.5, 2), "2.5");
    ck_assert_str_eq(format_number(&metric, 10, 1), "10");
    ck_assert_str_eq(format_number(&metric, 0.05, 1), "0.1");
    ck_assert_str_eq(format_number(&metric, 0.125, 3), "0.125");
    ck_assert_str_eq(format_number(&metric, 2.5, 0), "3");
    ck_assert_str_eq(format_number(&metric, -0.4, 0), "0");
    ck_assert_str_eq(format_number(&metric, -2, 0), "\xe2\x88\x92"
                                                    "2");
    ck_assert_str_eq(format_range(&metric, "10", "14"), "10..14");
    ck_assert_str_eq(format_range(&metric, "10", "10"), "10");
}
END_TEST

START_TEST(temperatures)
{
    ck_assert_str_eq(format_temp(&metric, 29.04), "29 C");
    ck_assert_str_eq(format_temp(&metric, 29.06), "29.1 C");
    ck_assert_str_eq(format_temp(&us, 29), "84 F"); /* 84.2 */
    ck_assert_str_eq(format_temp_band(&us, 32, 34), "90..93 F");
    ck_assert_str_eq(format_temp_band(&metric, 31.8, 34.2), "32..34 C");
    ck_assert_str_eq(format_temp_limit(&metric, 40.4), "40 C");
    ck_assert_str_eq(format_temp_limit(&metric, 40.5), "40.5 C");
    ck_assert_str_eq(format_temp_limit(&us, 40), "104 F");
    ck_assert_str_eq(format_temp_limit(&us, 40.9), "105 F"); /* 105.62: never above */
    ck_assert_str_eq(format_temp_step(&us, 5), "9 F");       /* without the 32 */
    ck_assert_str_eq(format_temp_step(&us, -5), "9 F");
    ck_assert_str_eq(format_temp_step(&metric, 1.2), "1 C");
    ck_assert_str_eq(format_temp_step(&metric, 0.1), "0.1 C"); /* never a step of nothing */
    ck_assert_str_eq(format_temp_step_to_band(&metric, 26, 30, 32), "4 C");
    ck_assert_str_eq(format_temp_step_to_band(&metric, 33, 30, 32), "1 C");
    ck_assert_str_eq(format_temp_step_to_band(&us, 26, 30, 32), "7 F"); /* 79 and 86 are shown */
    ck_assert_ptr_null(format_temp_step_to_band(&metric, 30, 30, 32));
    ck_assert_ptr_null(format_temp_step_to_band(&metric, 32, 30, 32));
}
END_TEST

START_TEST(percents_and_ultraviolet)
{
    ck_assert_str_eq(format_percent(&metric, 49.6), "50 %");
    ck_assert_str_eq(format_strength(&metric, 0.12), "0.12 %");
    ck_assert_str_eq(format_strength(&metric, 5), "5 %");
    ck_assert_str_eq(format_percent_band(&metric, 50.2, 59.8), "51..59 %");
    ck_assert_str_eq(format_percent_band(&metric, 50.2, 50.8), "50.2..50.8 %");
    ck_assert_str_eq(format_percent_band(&metric, 50, 60), "50..60 %");
    ck_assert_str_eq(format_percent_band(&metric, 50.02, 50.04), "50 %"); /* no tenth lies in it */
    ck_assert_str_eq(format_points(&metric, 0.3), "1 point");
    ck_assert_str_eq(format_points(&metric, -7.4), "7 points");
    ck_assert_str_eq(format_uvi(&metric, 3.14), "3.1");
    ck_assert_str_eq(format_uvi_band(&metric, 2.91, 6.99), "3..6.9");
    ck_assert_str_eq(format_uvi_limit(&metric, 6.99), "6.9");
}
END_TEST

/* Plain fractions by hand; what lies near none of them keeps its per cent. */
START_TEST(shares)
{
    ck_assert_str_eq(format_share(&metric, 25, 50), "a quarter to half");
    ck_assert_str_eq(format_share(&metric, 20, 30), "a quarter");
    ck_assert_str_eq(format_share(&metric, 50, 50), "half");
    ck_assert_str_eq(format_share(&metric, 30, 67), "a third to two thirds");
    ck_assert_str_eq(format_share(&metric, 8, 12), "8..12 %");
    ck_assert_str_eq(format_share(&metric, 40, 40), "40 %");
    ck_assert_str_eq(format_of_ten(&metric, 50, 70), "5..7 of ten");
    ck_assert_str_eq(format_of_ten(&metric, 50, 50), "5 of ten");
    ck_assert_str_eq(format_of_ten(&metric, 90, 95), "at least 9 of ten");
    ck_assert_str_eq(format_of_ten(&metric, 100, 100), "all");
}
END_TEST

/* 4 oz are 113.4 g; an animal below a pound is weighed in grams. */
START_TEST(changes_of_mass)
{
    ck_assert_str_eq(format_mass_change(&us, 4 * POUND_G + 110, 4 * POUND_G), "4 oz");
    ck_assert_str_eq(format_mass_change(&us, 4 * POUND_G, 4 * POUND_G + 10), format_mass(&us, 10));
    ck_assert_str_eq(format_mass_change(&us, 7, 6), format_mass(&us, 1));
    ck_assert_str_eq(format_mass_change(&metric, 1950, 1840), "110 g");
    /* 1 lb 7 oz and 1 lb 6 oz are an ounce apart, though 45 g are nearer to two */
    ck_assert_str_eq(format_mass_change(&us, 655, 610), "1 oz");
    ck_assert_str_eq(format_mass_change(&us, 610, 655), "1 oz");
    ck_assert_str_eq(format_mass_change(&us, 2 * POUND_G, 5 * POUND_G + 28), "3 lb\xc2\xa0"
                                                                             "1 oz");
    ck_assert_str_eq(format_mass_change(&us, POUND_G, 400), format_mass(&us, POUND_G - 400));
}
END_TEST

START_TEST(water)
{
    ck_assert_str_eq(format_concentration(&metric, 0.025), "0.025 mg/l");
    ck_assert_str_eq(format_concentration(&metric, 0.1), "0.1 mg/l");
    ck_assert_str_eq(format_concentration(&metric, 0.254), "0.25 mg/l");
    ck_assert_str_eq(format_concentration(&metric, 2.54), "2.5 mg/l");
    ck_assert_str_eq(format_concentration(&metric, 25.4), "25 mg/l");
    ck_assert_str_eq(format_concentration_band(&metric, 0.25, 40), "0.25..40 mg/l");
    ck_assert_str_eq(format_ph(&metric, 7.26), "7.3");
    ck_assert_str_eq(format_ph_band(&metric, 6.5, 7.5), "6.5..7.5");
    ck_assert_str_eq(format_hardness(&metric, 8.4), "8 dGH");
    ck_assert_str_eq(format_hardness_band(&metric, 4.4, 11.6), "4..12 dGH");
    ck_assert_str_eq(format_volume_part(&metric, 24, 36), "30 l");
    ck_assert_str_eq(format_volume_part(&metric, 22.7, 34), "25 l");
    ck_assert_str_eq(format_volume_part(&metric, 9.6, 12.4), "11 l");
    ck_assert_str_eq(format_volume_part(&metric, 2.56, 4), "3 l");
    ck_assert_str_eq(format_volume_part(&us, 5.4 * GALLON_L, 8.1 * GALLON_L), "6 gal");
}
END_TEST

START_TEST(lengths)
{
    ck_assert_str_eq(format_length(&metric, 9.7), "9.5 cm");
    ck_assert_str_eq(format_length(&metric, 12.4), "12 cm");
    ck_assert_str_eq(format_length(&metric, 0.1), "0.1 cm"); /* never nothing */
    ck_assert_str_eq(format_length(&us, 3.25 * INCH_CM), "3\xc2\xbc in");
    ck_assert_str_eq(format_length(&us, 13.5 * INCH_CM), "13\xc2\xbd in");
    ck_assert_str_eq(format_length(&us, 0.75 * INCH_CM), "\xc2\xbe in");
    ck_assert_str_eq(format_length(&us, 13 * INCH_CM), "13 in");
    ck_assert_str_eq(format_length_band(&metric, 8.2, 9.8), "8.5..9.5 cm");
    ck_assert_str_eq(format_length_band(&metric, 10.4, 12.6), "11..12 cm");
    /* what lies in a band is never shown outside it: 52 cm are 20.47 in, and the band ends at 20 */
    ck_assert_str_eq(format_length_band(&us, 18, 52), "7\xc2\xbd..20 in");
    ck_assert_str_eq(format_length_band(&us, 19, 19), "7\xc2\xbd in"); /* 7.48 in on no ruler */
    ck_assert_str_eq(format_length_band(&metric, 19.2, 19.2), "19 cm");
    ck_assert_str_eq(format_length_in_band(&us, 52, 18, 52), "20 in");
    ck_assert_str_eq(format_length_in_band(&us, 18, 18, 52), "7\xc2\xbd in");
    ck_assert_str_eq(format_length_in_band(&us, 60, 18, 52), format_length(&us, 60));
    ck_assert_str_eq(format_length_least(&metric, 9.1), "9.5 cm");
    ck_assert_str_eq(format_length_least(&metric, 10.2), "11 cm");
    ck_assert_str_eq(format_length_least(&us, 10.1 * INCH_CM), "10\xc2\xbd in");
    ck_assert_str_eq(format_length_most(&metric, 9.9), "9.5 cm");
    ck_assert_str_eq(format_length_most(&metric, 12.9), "12 cm");
    ck_assert_str_eq(format_side_least(&metric, 30.2), "31 cm");
    ck_assert_str_eq(format_side_least(&us, 76.2), "30 in");
    ck_assert_str_eq(format_box(&metric, 120.4, 60, 60.4, true), "121 x 60 x 61 cm");
    ck_assert_str_eq(format_box(&metric, 120.4, 60, 60.4, false), "120 x 60 x 60 cm");
    ck_assert_str_eq(format_box(&metric, 120, 60, 0, true), "120 x 60 cm");
    /* 72 in are 182.88 cm: from there on feet, a foot 30.48 cm (NIST SP 811, app. B.8), up to half
     * ones where it is the least: 400 cm 13.12, 300 cm 9.84, 100 cm 3.28 */
    ck_assert_str_eq(format_box(&us, 400, 300, 100, true), "13.5 x 10 x 3.5 ft");
    ck_assert_str_eq(format_box(&us, 240, 120, 60, false), "8 x 4 x 2 ft");
    ck_assert_str_eq(format_box(&us, 121.92, 60.96, 60.96, false), "48 x 24 x 24 in");
    /* 39 in are 3.25 ft, 16 in 1.33, 20 in 1.67; beside one of 84 in the smaller is in feet too,
     * and the least beside a large one: 100 cm 3.28, 45 cm 1.48 */
    const double own[] = {39 * INCH_CM, 16 * INCH_CM, 20 * INCH_CM}, least[] = {100, 45, 45};
    ck_assert_str_eq(format_box_beside(&us, own, false, 84 * INCH_CM), "3.3 x 1.3 x 1.7 ft");
    ck_assert_str_eq(format_box_beside(&us, own, false, 60 * INCH_CM), "39 x 16 x 20 in");
    ck_assert_str_eq(format_box_beside(&us, least, true, 240), "3.5 x 1.5 x 1.5 ft");
    ck_assert_str_eq(format_box_beside(&us, (double[]){240, 120, 60}, false, 0), "8 x 4 x 2 ft");
    ck_assert_str_eq(format_box_beside(&metric, own, false, 240), "99 x 41 x 51 cm");
}
END_TEST

START_TEST(masses)
{
    ck_assert_str_eq(format_grams(&metric, 49.94), "49.9 g");
    ck_assert_str_eq(format_grams(&metric, 50.4), "50 g");
    ck_assert_str_eq(format_grams(&metric, 9999), "9999 g");
    ck_assert_str_eq(format_grams(&metric, 10000), "10 kg");
    ck_assert_str_eq(format_grams(&metric, 12340), "12.34 kg");
    ck_assert_str_eq(format_mass(&metric, POUND_G), "454 g");
    /* less than a pound is weighed in grams, and no tenths of an ounce stand beside them */
    ck_assert_str_eq(format_mass(&us, OUNCE_G), "28.3 g");
    ck_assert_str_eq(format_mass(&us, 6), "6 g");
    ck_assert_str_eq(format_mass(&us, 5 * OUNCE_G), "142 g");
    ck_assert_str_eq(format_mass(&us, POUND_G), "1 lb");
    /* 520 g are 18.3 oz and 504 g 17.8: the same in whole ounces (1 oz = 28.3495 g), not the same
     * weight */
    ck_assert_str_eq(format_mass_apart(&us, 504, 520), "1 lb\xc2\xa0"
                                                       "2 oz (504 g)");
    ck_assert_str_eq(format_mass_apart(&us, 470, 520), "1 lb\xc2\xa0"
                                                       "1 oz");
    ck_assert_str_eq(format_mass_apart(&us, 520, 520), "1 lb\xc2\xa0"
                                                       "2 oz");
    ck_assert_str_eq(format_mass(&us, POUND_G + OUNCE_G), "1 lb\xc2\xa0"
                                                          "1 oz");
    ck_assert_str_eq(format_mass(&us, 1000), "2 lb\xc2\xa0"
                                             "3 oz"); /* 35.27 oz */
    /* a meal is never larger than its band, nor smaller */
    ck_assert_str_eq(format_mass_band(&metric, 1.21, 1.49), "1.3..1.4 g");
    ck_assert_str_eq(format_mass_band(&metric, 10.2, 14.9), "11..14 g");
    ck_assert_str_eq(format_mass_band(&metric, 10, 15), "10..15 g");
    ck_assert_str_eq(format_mass_band(&metric, 10.2, 10.8), "10.2..10.8 g");
    ck_assert_str_eq(format_mass_band(&metric, 10.52, 10.58), "10.55 g");
    ck_assert_str_eq(format_mass_band(&metric, 1.21, 1.29), "1.21..1.29 g");
    ck_assert_str_eq(format_mass_band(&us, 28, 35), "28..35 g (about 1 oz)"); /* 0.99 to 1.23 */
    ck_assert_str_eq(format_mass_band(&us, 50, 50), "50 g (about 2 oz)");     /* 1.76 */
    ck_assert_str_eq(format_mass_band(&us, 40, 40), "40 g"); /* 1.41: near no whole one */
    ck_assert_str_eq(format_mass_band(&us, OUNCE_G, 2 * OUNCE_G), "29..56 g (1..2 oz)");
    ck_assert_str_eq(format_mass_band(&us, 32, 64), "32..64 g"); /* 1.13 to 2.26 */
    ck_assert_str_eq(format_mass_band(&us, 0.2 * OUNCE_G, 0.4 * OUNCE_G), "5.7..11.3 g");
    ck_assert_str_eq(format_mass_band(&us, 18, 24), "18..24 g"); /* 0.63 to 0.85 */
    ck_assert_str_eq(format_mass_band(&us, 2 * POUND_G, 4 * POUND_G), "2 lb..4 lb (908..1814 g)");
}
END_TEST

/* A weight to call at is kept in mind: a round number, no later than worked out and no more than a
 * third sooner. */
START_TEST(masses_to_call_at)
{
    ck_assert_str_eq(format_mass_call(&metric, 32.4, 36, false), "33 g");
    ck_assert_str_eq(format_mass_call(&metric, 589, 620, false), "590 g");
    ck_assert_str_eq(format_mass_call(&metric, 3990, 4200, false), "4000 g");
    ck_assert_str_eq(format_mass_call(&metric, 264, 240, false), "260 g");
    ck_assert_str_eq(format_mass_call(&metric, 93.12, 96, false), "94 g");
    ck_assert_str_eq(format_mass_call(&metric, 2.7, 3, false), "2.7 g");
    ck_assert_str_eq(format_mass_call(&us, 134.9, 142, false), "135 g");
    ck_assert_str_eq(format_mass_call(&us, 549, 610, false), "1 lb\xc2\xa0" /* 19.4 oz */
                                                             "4 oz");
    ck_assert_str_eq(format_mass_call(&metric, 589, 620, true), "589 g");
    ck_assert_str_eq(format_mass_call(&us, 580, 610, true), "1 lb\xc2\xa0" /* 20.5 oz */
                                                            "5 oz");
    ck_assert_str_eq(format_mass_call(&us, 600, 650, true), "1 lb\xc2\xa0" /* 21.2 of 22.9 oz */
                                                            "6 oz");
    ck_assert_str_eq(format_mass_call(&us, 449, 420, false), "1 lb"); /* 15 oz would be grams */
    ck_assert_str_eq(format_mass_call(&us, 605, 620, true), "1 lb\xc2\xa0" /* 22 would be today's */
                                                            "5 oz");
    for (double now = 1; now < 9000; now *= 1.07)
        for (int percent = 3; percent <= 40; percent++) {
            const double call = now * (1 - percent / 100.0);
            const double shown = atof(format_mass_call(&metric, call, now, false));
            const double fine = now < 50 ? 0.1 : 1;
            ck_assert_msg(shown >= call - fine / 2 && /* where a scale shows no more */
                              shown <= call + fmax((now - call) / 3, fine) + 1e-6,
                          "%g of %g: %g", call, now, shown);
        }
}
END_TEST

START_TEST(power_energy_and_doses)
{
    ck_assert_str_eq(format_power_band(&metric, 48, 62), "50..60 W");
    ck_assert_str_eq(format_power_band(&metric, 63, 63), "65 W");
    ck_assert_str_eq(format_power_band(&metric, 1, 2), "5 W"); /* the smallest there is */
    ck_assert_str_eq(format_energy_band(&metric, 3.14, 9.4), "3.1..9.4 kcal");
    ck_assert_str_eq(format_energy_band(&metric, 8.4, 12.4), "8..12 kcal");
    ck_assert_str_eq(format_amount(&metric, 0.2, UNIT_MILLILITRE), "0.2 ml");
    ck_assert_str_eq(format_amount(&metric, 0.125, UNIT_MILLIGRAM), "0.125 mg");
    ck_assert_str_eq(format_amount(&metric, 0.0815, UNIT_MILLILITRE), "0.0815 ml");
    ck_assert_str_eq(format_amount(&metric, 0.00025, UNIT_MILLILITRE), "0.00025 ml");
    ck_assert_str_eq(format_amount(&metric, 50, UNIT_MICROGRAM), "50 ug");
    ck_assert_str_eq(format_amount(&metric, 0.5, UNIT_GRAM), "0.5 g");
    ck_assert_str_eq(format_amount(&metric, 2, UNIT_DROP), "2 drops");
    ck_assert_str_eq(format_amount(&metric, 1, UNIT_TABLET), "1 tablet");
    ck_assert_str_eq(format_amount(&metric, 2, UNIT_CAPSULE), "2 capsules");
    ck_assert_str_eq(format_amount(&metric, 400, UNIT_INTERNATIONAL), "400 IU");
}
END_TEST

START_TEST(times)
{
    ck_assert_str_eq(format_days(&metric, 3.4, 5.6), "3..6 days");
    ck_assert_str_eq(format_days(&metric, 0.2, 0.2), "1 day");
    ck_assert_str_eq(format_days(&metric, 7, 14), "7..14 days");
    ck_assert_str_eq(format_days(&metric, 14, 28), "2..4 weeks");
    ck_assert_str_eq(format_days(&metric, 14, 20), "14..20 days");
    ck_assert_str_eq(format_days(&metric, 15, 21), "15..21 days");
    ck_assert_str_eq(format_days(&metric, 21, 21), "3 weeks");
    ck_assert_str_eq(format_hours(&metric, 1), "1 hour");
    ck_assert_str_eq(format_hours(&metric, 12.26), "12.5 hours");
    ck_assert_str_eq(format_hours(&metric, 12.2), "12 hours");
    ck_assert_str_eq(format_interval(&metric, 12), "12 hours");
    ck_assert_str_eq(format_interval(&metric, 24), "24 hours");
    ck_assert_str_eq(format_interval(&metric, 36), "36 hours");
    ck_assert_str_eq(format_interval(&metric, 48), "2 days");
}
END_TEST

START_TEST(dates)
{
    const struct date day = {2026, 3, 14}; /* a Saturday (any calendar) */
    ck_assert_str_eq(format_date_long(&metric, day), "Saturday 14 March 2026");
    ck_assert_str_eq(format_date_short(&metric, day), "14 Mar 2026");
    ck_assert_str_eq(format_date_day(&metric, day), "Sat 14 Mar");
    ck_assert_str_eq(format_date_weekday(&metric, day), "Sat 14");
}
END_TEST

static const struct {
    struct date hatched;
    const char *age; /* on 14 March 2026 */
} ages[] = {
    {{2022, 8, 15}, "3 years 6 months"},  {{2022, 8, 14}, "3 years 7 months"},
    {{2026, 1, 20}, "53 days"},           {{2026, 1, 14}, "2 months"},
    {{2025, 9, 14}, "6 months"},          {{2025, 3, 14}, "1 year"},
    {{2025, 3, 15}, "11 months"},         {{2024, 2, 14}, "2 years 1 month"},
    {{2021, 4, 14}, "4 years 11 months"}, {{2020, 1, 1}, "6 years"},
    {{2023, 0, 0}, "about 2 years"}, /* the middle of the year */
    {{2025, 0, 0}, "7 months"},      /* from 15 July on, and no "about 0 years" */
    {{2024, 0, 0}, "about 1 year"},
};

START_TEST(age)
{
    ck_assert_str_eq(format_age(&metric, ages[_i].hatched, (struct date){2026, 3, 14}),
                     ages[_i].age);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("format");
    TCase *own = tcase_create("format");
    tcase_add_checked_fixture(own, set_up_words, tear_down_words);
    tcase_add_test(own, numbers);
    tcase_add_test(own, temperatures);
    tcase_add_test(own, percents_and_ultraviolet);
    tcase_add_test(own, shares);
    tcase_add_test(own, changes_of_mass);
    tcase_add_test(own, water);
    tcase_add_test(own, lengths);
    tcase_add_test(own, masses);
    tcase_add_test(own, masses_to_call_at);
    tcase_add_test(own, power_energy_and_doses);
    tcase_add_test(own, times);
    tcase_add_test(own, dates);
    tcase_add_loop_test(own, age, 0, sizeof ages / sizeof *ages);
    suite_add_tcase(suite, own);
    TCase *faults = tcase_create("faults");
    tcase_add_checked_fixture(faults, set_up_words, tear_down);
    tcase_add_test(faults, a_slot_that_was_not_given_is_told);
    suite_add_tcase(suite, faults);
    return suite_run(suite);
}
