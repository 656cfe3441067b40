/* Civil dates of the Gregorian calendar, without time of day or time zone.
 *
 * A visit happens on a day in the clinic's calendar; nothing here reads a
 * clock. Today's date is passed in from the command line's layer.
 */
#ifndef BASKLEAF_BASE_DATE_H
#define BASKLEAF_BASE_DATE_H

#include <stdbool.h>

/* year 0 means "no date"; day 0 means "the month is known, the day is not"
 * (hatched: 2022-08); month 0 with day 0 means "only the year is known". */
struct date {
    int year;
    int month;
    int day;
};

bool date_is_set(struct date date);

/* True for a whole date that exists in the calendar, years 1900 to 2199. */
bool date_is_valid(struct date date);

/* Reads YYYY-MM-DD, or also YYYY-MM and YYYY where `allow_partial`.
 * On failure returns false and leaves *out untouched. */
bool date_read(const char *text, bool allow_partial, struct date *out);

/* Days since 1970-01-01. A partial date counts as the middle of its month
 * (15th) or year (1 July). */
long date_to_days(struct date date);
struct date date_from_days(long days);

struct date date_add_days(struct date date, long days);

/* Keeps the day of the month where it exists, else the month's last day
 * (31 January + 1 month = 28 or 29 February). */
struct date date_add_months(struct date date, int months);

/* b - a in days. */
long date_days_between(struct date a, struct date b);

/* <0, 0, >0. A plan asks for it by the ten thousand. */
static inline int date_compare(struct date a, struct date b)
{
    int difference = a.year != b.year     ? a.year - b.year
                     : a.month != b.month ? a.month - b.month
                                          : a.day - b.day;
    return difference < 0 ? -1 : difference > 0;
}

/* 1 Monday .. 7 Sunday (ISO 8601). */
int date_weekday(struct date date);

int date_days_in_month(int year, int month);

/* "2026-03-14", "2022-08" or "2022"; out holds at least 16 bytes. */
void date_write_iso(struct date date, char out[16]);

#endif
