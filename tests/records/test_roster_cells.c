/* What shelters write in their lists and what it means: words and numbers that a person reads in
 * one way only are taken, and what could mean two things stays as it stands (common practice, no
 * source; days by ISO 8601, and by the order of day and month that a number past 12 leaves). */
#include "common/suite.h"
#include "common/arena_and_diag.h"
#include "records/roster_titles.h"

static const struct {
    const char *title;
    int column; /* -1: nobody knows */
} titles[] = {
    {"id", ROSTER_ID},
    {"No.", ROSTER_ID},
    {"Name", ROSTER_NAME},
    {"Pet name", ROSTER_NAME},
    {"Especie", ROSTER_SPECIES},
    {"Espèce", ROSTER_SPECIES},
    {"Gender", ROSTER_SEX},
    {"Date of birth", ROSTER_HATCHED},
    {"DOB", ROSTER_HATCHED},
    {"Edad", ROSTER_AGE},
    {"Weight (g)", ROSTER_MASS},
    {"Body weight [kg]", ROSTER_MASS},
    {"Size", ROSTER_LENGTH},
    {"New owner", ROSTER_ADOPTER},
    {"E-Mail (adopter)", ROSTER_EMAIL},
    {"Idioma", ROSTER_LANGUAGE},
    {"Exam date", ROSTER_DATE},
    {"Vet", ROSTER_VETERINARIAN},
    {"Remarks", ROSTER_NOTES},
    {"Next visit", ROSTER_RECHECK},
    {"Kennel", -1},
    {"", -1},
    {"weigh", -1},
    {"weights", -1},
};

START_TEST(a_title_means_its_column)
{
    ck_assert_msg(roster_title_column(titles[_i].title, &arena) == titles[_i].column, "%s",
                  titles[_i].title);
}
END_TEST

static const struct {
    const char *title, *unit;
} units[] = {
    {"Weight (g)", "g"},       {"Weight [Kilos]", "kg"}, {"Length (inches)", "in"},
    {"Weight (grams)", "g"},   {"Weight", ""},           {"Weight (g", ""},
    {"Weight (measured)", ""}, {"Age (yrs)", "years"},   {"Age (meses)", "months"},
};

START_TEST(a_title_says_its_unit)
{
    ck_assert_str_eq(roster_title_unit(units[_i].title, &arena), units[_i].unit);
}
END_TEST

static const struct {
    enum roster_column column;
    const char *written, *meant;
    bool has_decimal_comma;
} cells[] = {
    {ROSTER_SEX, "M", "male", false},
    {ROSTER_SEX, "Hembra", "female", false},
    {ROSTER_SEX, "\xe2\x99\x80", "female", false},
    {ROSTER_SEX, "n/a", "unknown", false},
    {ROSTER_SEX, "?", "unknown", false},
    {ROSTER_SEX, "both", "both", false},
    {ROSTER_SEX, "en", "en", false}, /* a word of another column */
    {ROSTER_LANGUAGE, "Español", "es", false},
    {ROSTER_LANGUAGE, "Français", "fr", false},
    {ROSTER_LANGUAGE, "ENG", "en", false},
    {ROSTER_UNITS, "Imperial", "us", false},
    {ROSTER_UNITS, "Métrico", "metric", false},
    {ROSTER_MASS, "52g", "52 g", false},
    {ROSTER_MASS, "1,45 kg", "1.45 kg", false},
    {ROSTER_MASS, "1,45kg", "1.45 kg", false}, /* not 1.45 g */
    {ROSTER_MASS, "1.5lb", "1.5 lb", false},
    {ROSTER_MASS, "1.45 Kilos", "1.45 kg", false},
    {ROSTER_MASS, "1,450 g", "1,450 g", false}, /* a thousand, or 1.45 */
    {ROSTER_MASS, "1.450 kg", "1.450 kg", false},
    {ROSTER_MASS, "1.450 kg", "1.450 kg (a thousand, or a decimal point?)", true},
    {ROSTER_MASS, "1.45 kg", "1.45 kg", true},
    {ROSTER_MASS, "1.4500 kg", "1.4500 kg", true},
    {ROSTER_MASS, "1,2,3 g", "1,2,3 g", false},
    {ROSTER_MASS, "1. g", "1. g", false},
    {ROSTER_MASS, ".5 kg", ".5 kg", false},
    {ROSTER_MASS, "2 lbs", "2 lb", false},
    {ROSTER_MASS, "2 lbs 3 ozs", "2 lbs 3 ozs", false}, /* no word for it */
    {ROSTER_MASS, "2 lbs 3 ounces", "2 lb 3 oz", false},
    {ROSTER_MASS, "52", "52", false},
    {ROSTER_MASS, "52 stone", "52 stone", false},
    {ROSTER_MASS, "heavy", "heavy", false},
    {ROSTER_LENGTH, "12 inches", "12 in", false},
    {ROSTER_LENGTH, "12\"", "12 in", false},
    {ROSTER_LENGTH, "40 cms.", "40 cm", false},
    {ROSTER_AGE, "2 yrs", "2 years", false},
    {ROSTER_AGE, "8 meses", "8 months", false},
    {ROSTER_AGE, "1 year 6 months", "18 months", false},
    {ROSTER_AGE, "2 años, 1 mes", "25 months", false},
    {ROSTER_AGE, "1 year 6 months 2 days", "1 year 6 months 2 days", false},
    {ROSTER_RECHECK, "2 wks", "2 weeks", false},
    {ROSTER_DATE, "14.03.2026", "2026-03-14", false},
    {ROSTER_DATE, "3.4.2026", "2026-04-03", false}, /* dots: the day first */
    {ROSTER_DATE, "14/3/2026", "2026-03-14", false},
    {ROSTER_DATE, "3/14/2026", "2026-03-14", false},
    {ROSTER_DATE, "12/13/2026", "2026-12-13", false},
    {ROSTER_DATE, "13/12/2026", "2026-12-13", false},
    {ROSTER_DATE, "3/4/2026", "3/4/2026", false}, /* two days */
    {ROSTER_DATE, "12/12/2026", "12/12/2026", false},
    {ROSTER_DATE, "13/13/2026", "13/13/2026", false},
    {ROSTER_DATE, "2026/3/14", "2026-03-14", false},
    {ROSTER_DATE, "2026.03.14", "2026-03-14", false},
    {ROSTER_DATE, "2026-03-14", "2026-03-14", false},
    {ROSTER_DATE, "14.03.26", "14.03.26", false}, /* no century */
    {ROSTER_DATE, "14.03/2026", "14.03/2026", false},
    {ROSTER_DATE, "14.03.20261", "14.03.20261", false},
    {ROSTER_DATE, "14.03.2026 10:00", "14.03.2026 10:00", false},
    {ROSTER_DATE, "99.3.2026", "2026-03-99", false}, /* read as a day, and refused as one */
    {ROSTER_DATE, "100.3.2026", "100.3.2026", false},
    {ROSTER_DATE, "3.100.2026", "3.100.2026", false},
    {ROSTER_DATE, "3.4.999", "3.4.999", false},
    {ROSTER_DATE, "3.4.1000", "1000-04-03", false},
    {ROSTER_DATE, "999/3/14", "999/3/14", false},
    {ROSTER_DATE, "2026/100/14", "2026/100/14", false},
    {ROSTER_DATE, "2026/3/100", "2026/3/100", false},
    {ROSTER_DATE, "1000/99/99", "1000-99-99", false},
    {ROSTER_DATE, "..", "..", false},
    {ROSTER_HATCHED, "1.2.2020", "2020-02-01", false},
    {ROSTER_HATCHED, "2020", "2020", false},
    {ROSTER_NAME, "M", "M", false},
    {ROSTER_NOTES, "14.03.2026", "14.03.2026", false},
};

START_TEST(a_cell_means_one_thing_or_stays)
{
    ck_assert_str_eq(
        roster_cell_plain(cells[_i].column, cells[_i].written, cells[_i].has_decimal_comma, &arena),
        cells[_i].meant);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("roster_cells");
    TCase *own = tcase_create("roster_cells");
    tcase_add_checked_fixture(own, set_up, tear_down);
    tcase_add_loop_test(own, a_title_means_its_column, 0, sizeof titles / sizeof *titles);
    tcase_add_loop_test(own, a_title_says_its_unit, 0, sizeof units / sizeof *units);
    tcase_add_loop_test(own, a_cell_means_one_thing_or_stays, 0, sizeof cells / sizeof *cells);
    suite_add_tcase(suite, own);
    return suite_run(suite);
}
