/* When the clinic is open: hours by the day of the week, and days on which it is closed all the
 * same. Written {mon-fri: "8:00-18:00", sat: ["9:00-12:00", "14:00-16:00"]}; a day that is not
 * named is closed. */
#ifndef BASKLEAF_RECORDS_OPENING_H
#define BASKLEAF_RECORDS_OPENING_H

#include "yaml/bind.h"

enum { OPENING_DAYS = 7, OPENING_SPANS_MOST = 3, OPENING_DAY_MINUTES = 24 * 60 };

struct opening_span {
    int from_minute, to_minute; /* of the day, to_minute after from_minute */
};

struct opening_day {
    struct opening_span spans[OPENING_SPANS_MOST];
    size_t count; /* 0: closed */
};

/* Of the day, of "8:00" or "18:30"; -1 when it is no time. */
int opening_minute(const char *text);

/* From one day to another, both closed. */
struct closed_days {
    struct date from, to;
};

struct opening {
    bool is_known;                         /* which days of the week are open */
    struct opening_day days[OPENING_DAYS]; /* Monday first */
    const struct closed_days *holidays;    /* in order of day */
    size_t holiday_count;
};

/* As the file has it. */
struct written_hours {
    struct text_value days; /* mon-fri */
    struct list times;      /* of struct text_value */
};

struct written_holiday {
    struct date_value from, to; /* `to` may be left out */
    struct mark at;
};

extern const struct schema written_hours_schema, written_holiday_schema;

/* Fills *out. Every fault is a DIAG_ERROR at its place; false when there was one. */
bool opening_make(const struct list *hours, const struct list *holidays, struct arena *arena,
                  struct diag *diag, struct opening *out);

/* "mon-fri 8:00-18:00" in its two parts, as `baskleaf clinic` is answered; false when it is not
 * that. */
bool opening_part_line(const char *line, struct arena *arena, const char **days,
                       const char **times);

bool opening_is_closed(const struct opening *opening, struct date day);

/* Within its hours of that day, its end not among them. Where no hours are written every hour of a
 * day that is not closed is open. */
bool opening_is_open_at(const struct opening *opening, struct date day, int minute);

#endif
