/* Dates as day numbers and back (proleptic Gregorian calendar), reading and writing ISO 8601. */
#include "base/date.h"

#include <stddef.h>
#include <stdio.h>
#include <string.h>

bool date_is_set(struct date date)
{
    return date.year != 0;
}

static bool is_leap(int year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

int date_days_in_month(int year, int month)
{
    static const int days[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (month < 1 || month > 12)
        return 0;
    return month == 2 && is_leap(year) ? 29 : days[month - 1];
}

bool date_is_valid(struct date date)
{
    return date.year >= 1900 && date.year <= 2199 && date.month >= 1 && date.month <= 12 &&
           date.day >= 1 && date.day <= date_days_in_month(date.year, date.month);
}

static bool read_digits(const char **at, int count, int *out)
{
    int value = 0;
    for (int i = 0; i < count; i++) {
        char c = (*at)[i];
        if (c < '0' || c > '9')
            return false;
        value = value * 10 + (c - '0');
    }
    *at += count;
    *out = value;
    return true;
}

bool date_read(const char *text, bool allow_partial, struct date *out)
{
    struct date read = {0};
    const char *at = text;
    if (!read_digits(&at, 4, &read.year) || read.year < 1900 || read.year > 2199)
        return false;
    if (*at == '-') {
        at++;
        if (!read_digits(&at, 2, &read.month) || read.month < 1 || read.month > 12)
            return false;
        if (*at == '-') {
            at++;
            if (!read_digits(&at, 2, &read.day) || !date_is_valid(read))
                return false;
        }
    }
    if (*at != '\0' || (read.day == 0 && !allow_partial))
        return false;
    *out = read;
    return true;
}

/* Howard Hinnant's civil-calendar arithmetic (public domain description,
 * "chrono-Compatible Low-Level Date Algorithms"). */
long date_to_days(struct date date)
{
    int month = date.month ? date.month : 7;
    int day = date.day ? date.day : date.month ? 15 : 1;
    long y = date.year - (month <= 2);
    long era = (y >= 0 ? y : y - 399) / 400;
    long yoe = y - era * 400;
    long doy = (153L * (month + (month > 2 ? -3 : 9)) + 2) / 5 + day - 1;
    long doe = yoe * 365 + yoe / 4 - yoe / 100 + doy;
    return era * 146097 + doe - 719468;
}

struct date date_from_days(long days)
{
    long z = days + 719468;
    long era = (z >= 0 ? z : z - 146096) / 146097;
    long doe = z - era * 146097;
    long yoe = (doe - doe / 1460 + doe / 36524 - doe / 146096) / 365;
    long doy = doe - (365 * yoe + yoe / 4 - yoe / 100);
    long mp = (5 * doy + 2) / 153;
    int month = (int)(mp < 10 ? mp + 3 : mp - 9);
    return (struct date){
        .year = (int)(yoe + era * 400) + (month <= 2),
        .month = month,
        .day = (int)(doy - (153 * mp + 2) / 5 + 1),
    };
}

struct date date_add_days(struct date date, long days)
{
    return date_from_days(date_to_days(date) + days);
}

struct date date_add_months(struct date date, int months)
{
    int index = date.year * 12 + (date.month - 1) + months;
    struct date moved = {.year = index / 12, .month = index % 12 + 1, .day = date.day};
    int last = date_days_in_month(moved.year, moved.month);
    if (moved.day > last)
        moved.day = last;
    return moved;
}

long date_days_between(struct date a, struct date b)
{
    return date_to_days(b) - date_to_days(a);
}

int date_weekday(struct date date)
{
    long days = date_to_days(date) + 3; /* 1970-01-01 was a Thursday */
    return (int)((days % 7 + 7) % 7) + 1;
}

void date_write_iso(struct date date, char out[16])
{
    if (date.day)
        snprintf(out, 16, "%04d-%02d-%02d", date.year, date.month, date.day);
    else if (date.month)
        snprintf(out, 16, "%04d-%02d", date.year, date.month);
    else
        snprintf(out, 16, "%04d", date.year);
}
