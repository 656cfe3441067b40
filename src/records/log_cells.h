/* Inside the reader of loggers' files: a line's cells, what a title means, what a cell says. */
#ifndef BASKLEAF_RECORDS_LOG_CELLS_H
#define BASKLEAF_RECORDS_LOG_CELLS_H

#include "records/log_series.h"

enum { LOG_CELLS_MOST = 64, LOG_LINE_BYTES = 4096 };

struct log_cells {
    const char *at[LOG_CELLS_MOST];
    size_t column[LOG_CELLS_MOST]; /* from 1 */
    size_t count;
};

enum log_column_kind { COLUMN_NONE, COLUMN_TIME, COLUMN_TEMPERATURE, COLUMN_HUMIDITY };
enum log_unit { UNIT_UNSAID, UNIT_CELSIUS, UNIT_FAHRENHEIT, UNIT_PER_CENT };

struct log_title {
    enum log_column_kind kind;
    enum log_unit unit;
    const char *probe;
};

/* Parts the line in place; false when it has too many cells. */
bool log_cells_part(char *line, char separator, struct log_cells *out);

/* The mark that stands most often between the cells of a title row. */
char log_separator(const char *line);

struct log_title log_title_read(const char *text, struct arena *arena);

enum log_number { NUMBER_READ, NUMBER_ABSENT, NUMBER_WRONG };
/* A number with either decimal sign and perhaps its unit; dashes and words for nothing are absent.
 */
enum log_number log_number_read(const char *text, double *value, enum log_unit *unit);

enum log_order { ORDER_YEAR_FIRST, ORDER_DAY_FIRST, ORDER_MONTH_FIRST, ORDER_COUNT };
struct log_moment {
    int numbers[3]; /* of the date, as they stand */
    bool year_first, dotted;
    int second_of_day;
};
/* NULL, or what is wrong with it and what would be right. */
const char *log_moment_read(const char *text, struct log_moment *out);
/* Seconds since 1970; false for a day that is not in the calendar. */
bool log_moment_at(const struct log_moment *moment, enum log_order order, int64_t *at_s);

#endif
