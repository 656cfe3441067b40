/* Reads the clinic's hours and holidays, and tells whether it is closed on a day. */
#include "records/opening.h"

#include <stdlib.h>
#include <string.h>

#include "records/table.h"

static const char *const day_words[OPENING_DAYS] = {"mon", "tue", "wed", "thu",
                                                    "fri", "sat", "sun"};

static const struct field hours_fields[] = {
    ROW(TEXTS, written_hours, times, "times", .required = true, .most = OPENING_SPANS_MOST,
        .help = "from and to, or closed", .example = "\"8:00-18:00\""),
};
const struct schema written_hours_schema =
    SCHEMA(written_hours, hours_fields, "opening hours", "Of a day or of some days in a row.",
           .short_key = "times");

static const struct field holiday_fields[] = {
    ROW(DATE, written_holiday, from, "from", .required = true, .help = "the first closed day",
        .example = "2026-12-24"),
    ROW(DATE, written_holiday, to, "to", .help = "the last closed day; the same when left out",
        .example = "2026-12-27"),
};
const struct schema written_holiday_schema =
    SCHEMA(written_holiday, holiday_fields, "holiday", "Days on which the clinic is closed.",
           .short_key = "from", MARKED(written_holiday, at));

/* ---- hours ---- */

static int day_of_word(const char *word, size_t length)
{
    for (int day = 0; day < OPENING_DAYS; day++)
        if (strlen(day_words[day]) == length && strncmp(day_words[day], word, length) == 0)
            return day;
    return -1;
}

/* "mon" or "mon-fri"; false when it is neither. */
static bool read_days(const char *text, int *first, int *last)
{
    size_t length = strcspn(text, "-");
    *first = *last = day_of_word(text, length);
    if (text[length] == '-')
        *last = day_of_word(text + length + 1, strlen(text + length + 1));
    return *first >= 0 && *last >= *first;
}

/* "8:00" or "18:30" up to where *at is left; -1 when it is no time of the day. */
static int read_minute(const char **at)
{
    static const char digits[] = "0123456789";
    const char *text = *at;
    size_t hour_digits = strspn(text, digits);
    if (hour_digits < 1 || hour_digits > 2 || text[hour_digits] != ':' ||
        strspn(text + hour_digits + 1, digits) != 2)
        return -1;
    long hour = strtol(text, NULL, 10), minute = strtol(text + hour_digits + 1, NULL, 10);
    if (minute > 59 || hour * 60 + minute > OPENING_DAY_MINUTES)
        return -1;
    *at = text + hour_digits + 3;
    return (int)(hour * 60 + minute);
}

int opening_minute(const char *text)
{
    int minute = read_minute(&text);
    return *text == '\0' ? minute : -1;
}

static bool read_span(const char *text, struct opening_span *out)
{
    const char *at = text;
    out->from_minute = read_minute(&at);
    if (out->from_minute < 0 || *at != '-')
        return false;
    at++;
    out->to_minute = read_minute(&at);
    return *at == '\0' && out->to_minute > out->from_minute;
}

static bool read_times(const struct list *times, struct diag *diag, struct opening_day *out)
{
    *out = (struct opening_day){0};
    for (size_t i = 0; i < times->count; i++) {
        const struct text_value *text = LIST_AT(*times, struct text_value, i);
        struct opening_span span;
        if (times->count == 1 && strcmp(text->text, "closed") == 0)
            return true;
        bool after = out->count == 0 || (read_span(text->text, &span) &&
                                         span.from_minute >= out->spans[out->count - 1].to_minute);
        if (!read_span(text->text, &span) || !after) {
            diag_report_path(diag, DIAG_ERROR, "not-hours", text->at, "hours",
                             "'%s' is not from when to when, one after the other; write "
                             "\"8:00-18:00\", [\"8:00-12:00\", \"14:00-18:00\"] or closed",
                             text->text);
            return false;
        }
        out->spans[out->count++] = span;
    }
    return true;
}

static bool add_row(const struct written_hours *row, bool *is_named, struct diag *diag,
                    struct opening *out)
{
    struct opening_day day;
    int first, last;
    if (!read_days(row->days.text, &first, &last)) {
        diag_report_path(
            diag, DIAG_ERROR, "not-days", row->days.at, "hours",
            "'%s' is no day of the week; write mon, tue, wed, thu, fri, sat or sun, or "
            "some in a row such as mon-fri",
            row->days.text);
        return false;
    }
    bool good = read_times(&row->times, diag, &day);
    for (int i = first; i <= last; i++) {
        if (is_named[i]) {
            diag_report_path(diag, DIAG_ERROR, "day-twice", row->days.at, "hours",
                             "'%s' has hours already; write each day once", day_words[i]);
            good = false;
        }
        is_named[i] = true;
        out->days[i] = day;
    }
    return good;
}

/* ---- holidays ---- */

static bool read_holiday(const struct written_holiday *one, struct diag *diag,
                         struct closed_days *out)
{
    *out = (struct closed_days){one->from.date, one->to.known ? one->to.date : one->from.date};
    if (date_compare(out->from, out->to) <= 0)
        return true;
    diag_report_path(diag, DIAG_ERROR, "ends-before", one->to.at, "holidays.to",
                     "lies before the first closed day");
    return false;
}

static int by_day(const void *one, const void *other)
{
    return date_compare(((const struct closed_days *)one)->from,
                        ((const struct closed_days *)other)->from);
}

static bool read_holidays(const struct list *holidays, struct arena *arena, struct diag *diag,
                          struct opening *out)
{
    struct closed_days *days = ARENA_ARRAY(arena, struct closed_days, holidays->count + 1);
    bool good = true;
    for (size_t i = 0; i < holidays->count; i++)
        good = read_holiday(LIST_AT(*holidays, struct written_holiday, i), diag, &days[i]) && good;
    qsort(days, holidays->count, sizeof *days, by_day);
    out->holidays = days;
    out->holiday_count = holidays->count;
    return good;
}

/* ---- both ---- */

static bool is_ever_open(const struct opening *opening)
{
    for (size_t i = 0; i < OPENING_DAYS; i++)
        if (opening->days[i].count > 0)
            return true;
    return false;
}

bool opening_make(const struct list *hours, const struct list *holidays, struct arena *arena,
                  struct diag *diag, struct opening *out)
{
    bool is_named[OPENING_DAYS] = {false};
    bool good = true;
    *out = (struct opening){.is_known = hours->count > 0};
    for (size_t i = 0; i < hours->count; i++)
        good = add_row(LIST_AT(*hours, struct written_hours, i), is_named, diag, out) && good;
    if (good && out->is_known && !is_ever_open(out)) {
        diag_report_path(diag, DIAG_ERROR, "never-open",
                         LIST_AT(*hours, struct written_hours, 0)->days.at, "hours",
                         "leave the clinic closed on all days; write when it is open");
        good = false;
    }
    return read_holidays(holidays, arena, diag, out) && good;
}

bool opening_part_line(const char *line, struct arena *arena, const char **days, const char **times)
{
    struct opening_span span;
    int first, last;
    size_t length = strcspn(line, " ");
    *days = arena_copy_bytes(arena, line, length);
    *times = line + length + strspn(line + length, " ");
    return read_days(*days, &first, &last) && read_span(*times, &span);
}

bool opening_is_closed(const struct opening *opening, struct date day)
{
    for (size_t i = 0; i < opening->holiday_count; i++)
        if (date_compare(opening->holidays[i].from, day) <= 0 &&
            date_compare(day, opening->holidays[i].to) <= 0)
            return true;
    return opening->is_known && opening->days[date_weekday(day) - 1].count == 0;
}

bool opening_is_open_at(const struct opening *opening, struct date day, int minute)
{
    const struct opening_day *hours = &opening->days[date_weekday(day) - 1];
    bool is_open = !opening->is_known;
    for (size_t i = 0; i < hours->count && opening->is_known; i++)
        is_open |= minute >= hours->spans[i].from_minute && minute < hours->spans[i].to_minute;
    return is_open && !opening_is_closed(opening, day);
}
