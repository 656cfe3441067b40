/* What stands in a logger's file, cell by cell. Quoting by RFC 4180, 2; days by ISO 8601; the clock
 * of twelve hours as it is read (12 am is midnight); words for nothing and the languages of titles:
 * common practice, no source. */
#include <math.h>
#include <string.h>

#include "common/arena_and_diag.h"
#include "common/suite.h"
#include "records/log_cells.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

/* ---- a line --------------------------------------------------------------------------------- */

static const struct {
    const char *line;
    char separator;
    const char *cells; /* with bars between them */
} lines[] = {
    {"a,b,c", ',', "a|b|c"},
    {"a,,c,", ',', "a||c|"},
    {"", ',', ""},
    {"\"a,b\",c", ',', "a,b|c"},
    {"\"say \"\"now\"\"\",c", ',', "say \"now\"|c"},
    {"\"a\"", ',', "a"},
    {"a , b\t,c\r", ',', "a|b|c"},
    {"a b c", ' ', "a|b|c"},
    {"  a;  b", ';', "a|b"},
    {"a, ,b", ',', "a||b"},
    {"1,5;2,5", ';', "1,5|2,5"},
};

START_TEST(a_line_is_parted)
{
    struct log_cells cells;
    ck_assert(log_cells_part(arena_copy_text(&arena, lines[_i].line), lines[_i].separator, &cells));
    const char *all = cells.at[0];
    for (size_t i = 1; i < cells.count; i++)
        all = arena_format(&arena, "%s|%s", all, cells.at[i]);
    ck_assert_str_eq(all, lines[_i].cells);
}
END_TEST

START_TEST(a_cell_has_its_place_in_the_line)
{
    struct log_cells cells;
    ck_assert(log_cells_part(arena_copy_text(&arena, "ab,  \"c\"\"d\",e"), ',', &cells));
    ck_assert_uint_eq(cells.count, 3);
    ck_assert_uint_eq(cells.column[0], 1);
    ck_assert_uint_eq(cells.column[1], 6);
    ck_assert_uint_eq(cells.column[2], 13);
}
END_TEST

START_TEST(a_line_has_no_more_than_its_room)
{
    for (int cells = LOG_CELLS_MOST - 1; cells <= LOG_CELLS_MOST + 1; cells++) {
        char *line = arena_take(&arena, (size_t)cells);
        struct log_cells out;
        memset(line, ',', (size_t)cells - 1);
        line[cells - 1] = '\0';
        ck_assert_int_eq(log_cells_part(line, ',', &out), cells <= LOG_CELLS_MOST);
        ck_assert(cells > LOG_CELLS_MOST || out.count == (size_t)cells);
    }
}
END_TEST

static const struct {
    const char *line;
    char separator;
} separators[] = {
    {"Time,T1,T2", ','},     {"Time;T1 (C);T2 (C)", ';'},  {"Time\tT1\tT2", '\t'},
    {"Time;1,5;2,5;x", ';'}, {"Time,\"a;b;c;d\",T2", ','}, {"\"Zeit\"\t\"a,b,c,d\"\tx", '\t'},
    {"Time\tT1,5", '\t'},
};

START_TEST(a_separator_is_the_mark_that_stands_most_often)
{
    ck_assert_msg(log_separator(separators[_i].line) == separators[_i].separator, "%s",
                  separators[_i].line);
}
END_TEST

/* ---- titles --------------------------------------------------------------------------------- */

static const struct {
    const char *title;
    enum log_column_kind kind;
    enum log_unit unit;
    const char *probe;
} titles[] = {
    {"Time", COLUMN_TIME, UNIT_UNSAID, NULL},
    {"Date/Time", COLUMN_TIME, UNIT_UNSAID, NULL},
    {"Fecha", COLUMN_TIME, UNIT_UNSAID, NULL},
    {"Hora", COLUMN_TIME, UNIT_UNSAID, NULL},
    {"Datum", COLUMN_TIME, UNIT_UNSAID, NULL},
    {"Zeit", COLUMN_TIME, UNIT_UNSAID, NULL},
    {"T1 Temperature (C)", COLUMN_TEMPERATURE, UNIT_CELSIUS, "T1"},
    {"T1 Temperature (F)", COLUMN_TEMPERATURE, UNIT_FAHRENHEIT, "T1"},
    {"Temperature [F]", COLUMN_TEMPERATURE, UNIT_FAHRENHEIT, ""},
    {"TEMP-C", COLUMN_TEMPERATURE, UNIT_CELSIUS, ""},
    {"temp f", COLUMN_TEMPERATURE, UNIT_FAHRENHEIT, ""},
    {"Temperatura_C", COLUMN_TEMPERATURE, UNIT_CELSIUS, ""},
    {"Warm \u00b0C", COLUMN_TEMPERATURE, UNIT_CELSIUS, "Warm"},
    {"Warm (\u00b0F)", COLUMN_TEMPERATURE, UNIT_FAHRENHEIT, "Warm"},
    {"Warm \xB0"
     "C",
     COLUMN_TEMPERATURE, UNIT_CELSIUS, NULL},
    {"Basking temp", COLUMN_TEMPERATURE, UNIT_UNSAID, "Basking"},
    {"Sensor C Temperature", COLUMN_TEMPERATURE, UNIT_UNSAID, "Sensor C"},
    {"Temperature C", COLUMN_TEMPERATURE, UNIT_CELSIUS, ""},
    {"temp co", COLUMN_TEMPERATURE, UNIT_UNSAID, "co"},
    {"\u00b0C", COLUMN_TEMPERATURE, UNIT_CELSIUS, ""},
    {"\xB0"
     "C",
     COLUMN_TEMPERATURE, UNIT_CELSIUS, NULL},
    {"T\u00e9\xB0"
     "C",
     COLUMN_TEMPERATURE, UNIT_CELSIUS, NULL},
    {"Temperature temp 3", COLUMN_TEMPERATURE, UNIT_UNSAID, "3"},
    {"Temp cool", COLUMN_TEMPERATURE, UNIT_UNSAID, "cool"},
    {"T2 Humidity (%)", COLUMN_HUMIDITY, UNIT_PER_CENT, "T2"},
    {"Relative Humidity", COLUMN_HUMIDITY, UNIT_PER_CENT, ""},
    {"Luftfeuchtigkeit %", COLUMN_HUMIDITY, UNIT_PER_CENT, ""},
    {"Box 3 - Humedad relativa", COLUMN_HUMIDITY, UNIT_PER_CENT, "Box 3"},
    {"Battery (%)", COLUMN_NONE, UNIT_UNSAID, NULL},
    {"Dew point (C)", COLUMN_NONE, UNIT_UNSAID, NULL},
    {"RSSI", COLUMN_NONE, UNIT_UNSAID, NULL},
    {"VPD", COLUMN_NONE, UNIT_UNSAID, NULL},
    {"Remarks", COLUMN_NONE, UNIT_UNSAID, NULL},
    {"", COLUMN_NONE, UNIT_UNSAID, ""},
};

START_TEST(a_title_says_what_stands_below_it)
{
    struct log_title title = log_title_read(titles[_i].title, &arena);
    ck_assert_msg(title.kind == titles[_i].kind, "%s", titles[_i].title);
    if (title.kind != COLUMN_NONE)
        ck_assert_msg(title.unit == titles[_i].unit, "%s", titles[_i].title);
    if (titles[_i].probe)
        ck_assert_str_eq(title.probe, titles[_i].probe);
}
END_TEST

/* ---- numbers -------------------------------------------------------------------------------- */

static const struct {
    const char *cell;
    enum log_number is;
    double value;
    enum log_unit unit;
} numbers[] = {
    {"24.5", NUMBER_READ, 24.5, UNIT_UNSAID},
    {"24,5", NUMBER_READ, 24.5, UNIT_UNSAID},
    {"-3.25", NUMBER_READ, -3.25, UNIT_UNSAID},
    {"+3", NUMBER_READ, 3, UNIT_UNSAID},
    {"0", NUMBER_READ, 0, UNIT_UNSAID},
    {"24.", NUMBER_READ, 24, UNIT_UNSAID},
    {"24 C", NUMBER_READ, 24, UNIT_CELSIUS},
    {"24c", NUMBER_READ, 24, UNIT_CELSIUS},
    {"75.2 \u00b0F", NUMBER_READ, 75.2, UNIT_FAHRENHEIT},
    {"75f", NUMBER_READ, 75, UNIT_FAHRENHEIT},
    {"51 %", NUMBER_READ, 51, UNIT_PER_CENT},
    {"123456789012345", NUMBER_READ, 123456789012345, UNIT_UNSAID},
    {"0.12345678901234", NUMBER_READ, 0.12345678901234, UNIT_UNSAID},
    {"1234567890123456", NUMBER_WRONG, 0, UNIT_UNSAID},
    {"24 CF", NUMBER_WRONG, 0, UNIT_UNSAID},
    {"24 K", NUMBER_WRONG, 0, UNIT_UNSAID},
    {"24.5.1", NUMBER_WRONG, 0, UNIT_UNSAID},
    {".5", NUMBER_WRONG, 0, UNIT_UNSAID},
    {"warm", NUMBER_WRONG, 0, UNIT_UNSAID},
    {"nothing", NUMBER_WRONG, 0, UNIT_UNSAID},
    {"+", NUMBER_WRONG, 0, UNIT_UNSAID},
    {"", NUMBER_ABSENT, 0, UNIT_UNSAID},
    {"-", NUMBER_ABSENT, 0, UNIT_UNSAID},
    {"--", NUMBER_ABSENT, 0, UNIT_UNSAID},
    {"---", NUMBER_ABSENT, 0, UNIT_UNSAID},
    {"n/a", NUMBER_ABSENT, 0, UNIT_UNSAID},
    {"NA", NUMBER_ABSENT, 0, UNIT_UNSAID},
    {"NaN", NUMBER_ABSENT, 0, UNIT_UNSAID},
    {"NULL", NUMBER_ABSENT, 0, UNIT_UNSAID},
    {"Error", NUMBER_ABSENT, 0, UNIT_UNSAID},
};

START_TEST(a_number_is_read_or_not)
{
    double value = 0;
    enum log_unit unit = UNIT_UNSAID;
    ck_assert_msg(log_number_read(numbers[_i].cell, &value, &unit) == numbers[_i].is, "%s",
                  numbers[_i].cell);
    if (numbers[_i].is != NUMBER_READ)
        return;
    ck_assert_msg(unit == numbers[_i].unit, "%s", numbers[_i].cell);
    ck_assert(fabs(value - numbers[_i].value) <= 1e-15 * fabs(numbers[_i].value));
}
END_TEST

/* ---- moments -------------------------------------------------------------------------------- */

static const struct {
    const char *cell;
    int numbers[3];
    int second; /* -1: no moment; -2: another zone's */
} moments[] = {
    {"2026-03-14 14:30", {2026, 3, 14}, 52200},
    {"2026-03-14T14:30:05", {2026, 3, 14}, 52205},
    {"2026-03-14,00:00", {2026, 3, 14}, 0},
    {"2026-03-14 23:59:59", {2026, 3, 14}, 86399},
    {"14.03.2026   14:30", {14, 3, 2026}, 52200},
    {"3/14/26 2:30 PM", {3, 14, 2026}, 52200},
    {"3/14/2026 2:30 p.m.", {3, 14, 2026}, 52200},
    {"3/14/2026 12:30 am", {3, 14, 2026}, 1800},
    {"3/14/2026 12:30 p. m.", {3, 14, 2026}, 45000},
    {"3/14/2026 1:00am", {3, 14, 2026}, 3600},
    {"2026-03-14 14:30:05.123456789", {2026, 3, 14}, 52205},
    {"2026-03-14 14:30:05,5", {2026, 3, 14}, 52205},
    {"2026-03-14 14:30:05.1234567890", {0}, -1},
    {"2026-03-14 24:00", {0}, -1},
    {"2026-03-14 14:60", {0}, -1},
    {"2026-03-14 14:30:60", {0}, -1},
    {"2026-03-14 014:30", {0}, -1},
    {"2026-03-14 14:030", {0}, -1},
    {"2026-03-14 14:30:005", {0}, -1},
    {"2026-03-14 14", {0}, -1},
    {"2026-03-14 14:", {0}, -1},
    {"2026-03-14 14:30:", {0}, -1},
    {"3/14/2026 0:30 am", {0}, -1},
    {"3/14/2026 13:30 pm", {0}, -1},
    {"3/14/2026 1:30 px", {0}, -1},
    {"3/14/2026 1:30 a", {0}, -1},
    {"2026-03-14 14:30 x", {0}, -1},
    {"20260-03-14 14:30", {0}, -1},
    {"2026-00003-14 14:30", {0}, -1},
    {"2026-03/14 14:30", {0}, -1},
    {"2026-03", {0}, -1},
    {"2026-03-", {0}, -1},
    {"2026-03-14", {0}, -1},
    {"2026:03:14 14:30", {0}, -1},
    {"", {0}, -1},
    {"now", {0}, -1},
    {"2026-03-14T14:30Z", {0}, -2},
    {"2026-03-14T14:30+01:00", {0}, -2},
    {"2026-03-14T14:30:00-05:00", {0}, -2},
};

START_TEST(a_moment_is_read_or_not)
{
    struct log_moment moment = {0};
    const char *wrong = log_moment_read(moments[_i].cell, &moment);
    ck_assert_msg(!wrong == (moments[_i].second >= 0), "%s: %s", moments[_i].cell, wrong);
    if (wrong) {
        ck_assert_msg((strstr(wrong, "time zone") != NULL) == (moments[_i].second == -2), "%s",
                      moments[_i].cell);
        return;
    }
    ck_assert_msg(moment.second_of_day == moments[_i].second, "%s: %d", moments[_i].cell,
                  moment.second_of_day);
    for (int i = 0; i < 3; i++)
        ck_assert_msg(moment.numbers[i] == moments[_i].numbers[i], "%s: %d", moments[_i].cell,
                      moment.numbers[i]);
    ck_assert_int_eq(moment.dotted, strncmp(moments[_i].cell, "14.", 3) == 0);
    ck_assert_int_eq(moment.year_first, moments[_i].numbers[0] == 2026);
}
END_TEST

/* POSIX, 4.16: a day has 86400 s; 2026-03-14 is day 20526 since 1970. */
START_TEST(a_moment_has_its_second)
{
    static const struct {
        int numbers[3];
        enum log_order order;
        bool good;
    } rows[] = {
        {{2026, 3, 14}, ORDER_YEAR_FIRST, true},  {{14, 3, 2026}, ORDER_DAY_FIRST, true},
        {{3, 14, 2026}, ORDER_MONTH_FIRST, true}, {{14, 3, 2026}, ORDER_MONTH_FIRST, false},
        {{2026, 2, 29}, ORDER_YEAR_FIRST, false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct log_moment moment = {.second_of_day = 61};
        int64_t at_s = 0;
        memcpy(moment.numbers, rows[i].numbers, sizeof moment.numbers);
        ck_assert_int_eq(log_moment_at(&moment, rows[i].order, &at_s), rows[i].good);
        ck_assert_int_eq(at_s, rows[i].good ? 20526LL * 86400 + 61 : 0);
    }
}
END_TEST

/* ---- a probe's readings --------------------------------------------------------------------- */

static bool takes(enum log_kind kind, double value)
{
    struct log_series series = {.kind = kind};
    struct log_part day;
    memset(&day, true, sizeof day);
    log_series_begin(&series, &arena);
    bool good = log_series_add(&series, 0, value);
    log_series_end(&series);
    ck_assert_uint_eq(log_series_count(&series, &day), good ? 1 : 0);
    ck_assert(log_series_share(&series, &day, -40, 100) == (good ? 1 : 0)); /* of nothing none */
    ck_assert(!good || fabs(log_series_percentile(&series, &day, 50) - value) < 0.0501);
    return good;
}

/* From -40 to 100 in tenths: what rounds to them is counted. No air is without any moisture. */
START_TEST(a_reading_is_one_that_such_an_instrument_takes)
{
    for (int tenths = -400; tenths <= 1000; tenths += 50) {
        ck_assert(takes(LOG_TEMPERATURE, tenths / 10.0));
        ck_assert_int_eq(takes(LOG_HUMIDITY, tenths / 10.0), tenths > 0);
    }
    ck_assert(takes(LOG_TEMPERATURE, -40.04));
    ck_assert(!takes(LOG_TEMPERATURE, -40.06));
    ck_assert(takes(LOG_TEMPERATURE, 100.04));
    ck_assert(!takes(LOG_TEMPERATURE, 100.06));
    ck_assert(!takes(LOG_TEMPERATURE, NAN));
    ck_assert(takes(LOG_HUMIDITY, 0.05));
    ck_assert(!takes(LOG_HUMIDITY, 0.049));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("log_cells");
    TCase *own = tcase_create("log_cells");
    tcase_add_checked_fixture(own, set_up, tear_down);
    tcase_set_timeout(own, 30);
    tcase_add_loop_test(own, a_line_is_parted, 0, COUNT(lines));
    tcase_add_test(own, a_cell_has_its_place_in_the_line);
    tcase_add_test(own, a_line_has_no_more_than_its_room);
    tcase_add_loop_test(own, a_separator_is_the_mark_that_stands_most_often, 0, COUNT(separators));
    tcase_add_loop_test(own, a_title_says_what_stands_below_it, 0, COUNT(titles));
    tcase_add_loop_test(own, a_number_is_read_or_not, 0, COUNT(numbers));
    tcase_add_loop_test(own, a_moment_is_read_or_not, 0, COUNT(moments));
    tcase_add_test(own, a_moment_has_its_second);
    tcase_add_test(own, a_reading_is_one_that_such_an_instrument_takes);
    suite_add_tcase(suite, own);
    return suite_run(suite);
}
