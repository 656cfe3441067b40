/* The clinic's hours and next closed days in the sheet's language. */
#include <string.h>

#include "words/format_opening.h"

const char *format_clock(const struct format *f, int minute)
{
    enum { NOON = 12, HOUR_MINUTES = 60 };
    int hour = minute / HOUR_MINUTES, rest = minute % HOUR_MINUTES;
    if (f->units != UNITS_US) {
        const struct named_value clock[] = {
            {"hour", {.text = arena_format(f->arena, "%d", hour)}},
            {"minute", {.text = arena_format(f->arena, "%02d", rest)}}};
        return format_pattern(f, "hours.clock", clock, 2);
    }
    int shown = hour % NOON == 0 ? NOON : hour % NOON;
    const char *text =
        rest ? arena_format(f->arena, "%d:%02d", shown, rest) : arena_format(f->arena, "%d", shown);
    const struct named_value value = {"time", {.text = text}};
    return format_pattern(f, hour % (2 * NOON) < NOON ? "hours.am" : "hours.pm", &value, 1);
}

static const char *span_text(const struct format *f, const struct opening_span *span)
{
    if (span->from_minute == 0 && span->to_minute == OPENING_DAY_MINUTES)
        return format_pattern(f, "hours.all-day", NULL, 0);
    return format_range(f, format_clock(f, span->from_minute), format_clock(f, span->to_minute));
}

static const char *fill_pair(const struct format *f, const char *key, const char *first,
                             const char *second)
{
    const struct named_value values[] = {{"first", {.text = first}}, {"second", {.text = second}}};
    return format_pattern(f, key, values, 2);
}

static const char *times_text(const struct format *f, const struct opening_day *day)
{
    const char *text = span_text(f, &day->spans[0]);
    for (size_t i = 1; i < day->count; i++)
        text = fill_pair(f, "sheet.list-and", text, span_text(f, &day->spans[i]));
    return text;
}

static bool is_same(const struct opening_day *one, const struct opening_day *other)
{
    bool same = one->count == other->count;
    for (size_t i = 0; same && i < one->count; i++)
        same = one->spans[i].from_minute == other->spans[i].from_minute &&
               one->spans[i].to_minute == other->spans[i].to_minute;
    return same;
}

static const char *day_text(const struct format *f, int day)
{
    return format_pattern(f, arena_format(f->arena, "weekday.%d.short", day + 1), NULL, 0);
}

/* Days in a row with the same hours: "Mon to Fri 8:00-18:00". */
static const char *days_text(const struct format *f, const struct opening *opening, int first,
                             int last)
{
    const char *days = day_text(f, first);
    if (last > first)
        days = fill_pair(f, "hours.days", days, day_text(f, last));
    return fill_pair(f, "hours.row", days, times_text(f, &opening->days[first]));
}

const char *format_opening(const struct format *f, const struct opening *opening)
{
    const char *text = NULL;
    for (int first = 0, last; opening->is_known && first < OPENING_DAYS; first = last + 1) {
        const struct opening_day *day = &opening->days[first];
        for (last = first; last + 1 < OPENING_DAYS && is_same(&opening->days[last + 1], day);)
            last++;
        if (day->count == 0)
            continue;
        const char *row = days_text(f, opening, first, last);
        text = text ? fill_pair(f, "sheet.list-more", text, row) : row;
    }
    return text;
}

/* A single day, or from when to when. */
static const char *closed_text(const struct format *f, const struct closed_days *days)
{
    const char *from = format_date_day(f, days->from);
    return date_compare(days->from, days->to) == 0
               ? from
               : fill_pair(f, "hours.days", from, format_date_day(f, days->to));
}

const char *format_closed(const struct format *f, const struct opening *opening, struct date from,
                          struct date to)
{
    const char *text = NULL;
    for (size_t i = 0; i < opening->holiday_count; i++) {
        const struct closed_days *days = &opening->holidays[i];
        if (date_compare(days->to, from) < 0 || date_compare(days->from, to) > 0)
            continue;
        const char *one = closed_text(f, days);
        text = text ? fill_pair(f, "sheet.list-more", text, one) : one;
    }
    return text;
}
