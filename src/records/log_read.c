/* Streams a logger's file: finds its titles, settles the order of its dates, counts its rows. */
#include "records/log_read.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>
#include <nettle/sha2.h>

#include "base/file.h"
#include "base/hex.h"
#include "records/log_cells.h"

enum { TITLES_WITHIN = 40, BUFFER_BYTES = 64 * 1024, CLOCK_BACK_S = 3600, DAY_S = 86400 };
enum { OLDEST_DAYS = 366 };
static const size_t SIZE_LIMIT = (size_t)4 * 1024 * 1024 * 1024;

struct reader {
    int fd;
    const char *path;
    struct arena *arena;
    struct diag *diag;
    struct sha256_ctx sha;
    char buffer[BUFFER_BYTES], line[LOG_LINE_BYTES];
    size_t filled, used;
    int number; /* of the line, from 1 */
    bool failed;
    char separator;
    struct log_title titles[LOG_CELLS_MOST];
    size_t title_count, times[2], time_count;
    int series_of[LOG_CELLS_MOST]; /* -1: none */
    struct log_file *out;
};

/* Moments in a row: which way they run, and where they stand. */
struct course {
    bool any;
    int direction;
    int64_t at_s, last_s;
};

static bool refuse(struct reader *r, const char *code, size_t column, const char *text)
{
    diag_report(r->diag, DIAG_ERROR, code, (struct mark){r->path, r->number, (int)column}, "%s",
                text);
    r->failed = true;
    return false;
}

/* ---- lines --------------------------------------------------------------------------- */

static bool fill(struct reader *r)
{
    ssize_t got;
    do
        got = read(r->fd, r->buffer, sizeof r->buffer);
    while (got < 0 && errno == EINTR);
    if (got < 0) {
        r->failed = !file_unreadable(r->path, errno, r->diag);
        return false;
    }
    sha256_update(&r->sha, (size_t)got, (const uint8_t *)r->buffer);
    r->filled = (size_t)got;
    r->used = 0;
    return got > 0;
}

/* The next line without its end; false at the end of the file or after a fault. */
static bool next_line(struct reader *r)
{
    size_t length = 0;
    bool any = false;
    for (;;) {
        if (r->used == r->filled && !fill(r))
            break;
        any = true;
        char c = r->buffer[r->used++];
        if (c == '\n')
            break;
        if (c == '\0' || length == sizeof r->line - 1) {
            r->number++;
            return refuse(r, "log-not-text", 1,
                          c ? "is too long for a line of a logger's file; save it as CSV"
                            : "is not plain text; save it as CSV in UTF-8");
        }
        r->line[length++] = c;
    }
    if (!any || r->failed)
        return false;
    r->number++;
    while (length && r->line[length - 1] == '\r')
        length--;
    r->line[length] = '\0';
    if (r->number == 1 && strncmp(r->line, "\xEF\xBB\xBF", 3) == 0)
        memmove(r->line, r->line + 3, length - 2);
    return true;
}

static bool is_empty(const char *line)
{
    return line[strspn(line, " \t;,\"")] == '\0';
}

/* ---- titles -------------------------------------------------------------------------- */

static bool take_titles(struct reader *r, const struct log_cells *cells)
{
    bool reads = false;
    r->time_count = 0;
    r->title_count = cells->count;
    for (size_t i = 0; i < cells->count; i++) {
        struct log_title *title = &r->titles[i];
        *title = log_title_read(cells->at[i], r->arena);
        if (title->kind == COLUMN_TIME && r->time_count < 2)
            r->times[r->time_count++] = i;
        reads = reads || title->kind == COLUMN_TEMPERATURE || title->kind == COLUMN_HUMIDITY;
    }
    return r->time_count > 0 && reads;
}

static bool find_titles(struct reader *r)
{
    struct log_cells cells;
    while (r->number < TITLES_WITHIN && next_line(r)) {
        r->separator = log_separator(r->line);
        if (log_cells_part(r->line, r->separator, &cells) && take_titles(r, &cells))
            return true;
    }
    if (!r->failed && r->number == 0) {
        r->number = 1;
        return refuse(r, "log-empty", 1, "is empty; let the recorder write its readings anew");
    }
    if (!r->failed)
        refuse(r, "log-without-titles", 1,
               "no title row in the first 40 lines; one has a time and a temperature or humidity, "
               "such as: Time,Temperature (C),Humidity (%)");
    return false;
}

static bool begin_series(struct reader *r)
{
    for (size_t i = 0; i < r->title_count; i++) {
        const struct log_title *title = &r->titles[i];
        r->series_of[i] = -1;
        if (title->kind != COLUMN_TEMPERATURE && title->kind != COLUMN_HUMIDITY)
            continue;
        if (r->out->series_count == LOG_SERIES_MOST)
            return refuse(r, "log-too-wide", 1, "has more than 16 columns of readings");
        struct log_series *made = &r->out->series[r->out->series_count];
        made->probe = title->probe;
        made->kind = title->kind == COLUMN_TEMPERATURE ? LOG_TEMPERATURE : LOG_HUMIDITY;
        log_series_begin(made, r->arena);
        r->series_of[i] = (int)r->out->series_count++;
    }
    return true;
}

/* ---- rows ---------------------------------------------------------------------------- */

/* A decimal comma beside comma separators parts each number in two: they are joined again. */
static bool join_numbers(struct reader *r, struct log_cells *cells, char joined[LOG_LINE_BYTES])
{
    size_t numbers = r->title_count - r->time_count, at = 0, written = 0;
    if (r->separator != ',' || cells->count != r->title_count + numbers)
        return cells->count <= r->title_count;
    struct log_cells out = {.count = r->title_count};
    for (size_t i = 0; i < r->title_count; i++) {
        out.at[i] = cells->at[at];
        out.column[i] = cells->column[at++];
        if (r->titles[i].kind == COLUMN_TIME)
            continue;
        int room = (int)(LOG_LINE_BYTES - written);
        int put = snprintf(joined + written, (size_t)room, "%s,%s", out.at[i], cells->at[at++]);
        if (put < 0 || put >= room)
            return false;
        out.at[i] = joined + written;
        written += (size_t)put + 1;
    }
    *cells = out;
    return true;
}

/* The next row that is not empty, parted. */
static bool next_row(struct reader *r, struct log_cells *cells, char joined[LOG_LINE_BYTES])
{
    do
        if (!next_line(r))
            return false;
    while (is_empty(r->line));
    if (!log_cells_part(r->line, r->separator, cells) || !join_numbers(r, cells, joined))
        return refuse(r, "log-row", 1, "has more cells than the title row");
    if (cells->count <= r->times[0])
        return refuse(r, "log-row", 1, "has fewer cells than the title row and no time");
    return true;
}

static bool read_moment(struct reader *r, const struct log_cells *cells, struct log_moment *out)
{
    char both[64];
    const char *text = cells->at[r->times[0]];
    bool has_second = r->time_count > 1 && r->times[1] < cells->count;
    if (has_second) {
        snprintf(both, sizeof both, "%.31s %.31s", text, cells->at[r->times[1]]);
        text = both;
    }
    const char *wrong = log_moment_read(text, out);
    return !wrong || refuse(r, "log-time", cells->column[r->times[0]],
                            arena_format(r->arena, "'%.40s' %s", text, wrong));
}

/* False where the moment runs back by more than a clock that was put back. */
static bool goes_on(struct course *course, int64_t at_s)
{
    int64_t step_s = course->any ? at_s - course->at_s : 0;
    if (!course->direction)
        course->direction = step_s > 0 ? 1 : step_s < 0 ? -1 : 0;
    if (!course->any || at_s > course->last_s)
        course->last_s = at_s;
    course->any = true;
    course->at_s = at_s;
    return course->direction * step_s >= -CLOCK_BACK_S;
}

static int64_t end_of(struct date day)
{
    return ((int64_t)date_to_days(day) + 1) * DAY_S;
}

/* ---- the order of the dates ---------------------------------------------------------- */

static bool ambiguous(struct reader *r, int line, const char *text)
{
    r->number = line;
    return refuse(r, "log-date-order", 1,
                  arena_format(r->arena,
                               "'%.40s' may be day or month first, and nothing in the file tells; "
                               "let the recorder write the year first, 2026-03-14",
                               text));
}

/* Drops each order that a row speaks against; what is left is the order. */
static bool settle_order(struct reader *r, struct date visit, enum log_order *order)
{
    struct course courses[ORDER_COUNT] = {0};
    bool open[ORDER_COUNT] = {[ORDER_DAY_FIRST] = true, [ORDER_MONTH_FIRST] = true};
    struct log_cells cells;
    struct log_moment moment;
    char joined[LOG_LINE_BYTES], first[48] = "";
    int first_line = 0;
    while (next_row(r, &cells, joined) && read_moment(r, &cells, &moment)) {
        if (moment.year_first || moment.dotted) {
            *order = moment.year_first ? ORDER_YEAR_FIRST : ORDER_DAY_FIRST;
            return true;
        }
        if (!first_line) {
            first_line = r->number;
            snprintf(first, sizeof first, "%.40s", cells.at[r->times[0]]);
        }
        for (int o = ORDER_DAY_FIRST; o < ORDER_COUNT; o++) {
            int64_t at_s;
            open[o] = open[o] && log_moment_at(&moment, (enum log_order)o, &at_s) &&
                      goes_on(&courses[o], at_s) && at_s < end_of(visit);
        }
        if (open[ORDER_DAY_FIRST] != open[ORDER_MONTH_FIRST]) {
            *order = open[ORDER_DAY_FIRST] ? ORDER_DAY_FIRST : ORDER_MONTH_FIRST;
            return true;
        }
        if (!open[ORDER_DAY_FIRST])
            return refuse(r, "log-time", cells.column[r->times[0]],
                          "is no day, runs back, or lies after the visit, in any order of day and "
                          "month; is it another log?");
    }
    return !r->failed &&
           (first_line ? ambiguous(r, first_line, first)
                       : refuse(r, "log-empty", 1, "has no row of readings below its titles"));
}

/* ---- counting ------------------------------------------------------------------------ */

static bool count_cell(struct reader *r, const struct log_cells *cells, size_t i, int64_t at_s)
{
    struct log_series *series = &r->out->series[r->series_of[i]];
    enum log_unit unit = r->titles[i].unit;
    double value;
    enum log_number number = log_number_read(cells->at[i], &value, &unit);
    if (number == NUMBER_ABSENT)
        return true;
    if (number == NUMBER_WRONG)
        return refuse(
            r, "log-number", cells->column[i],
            arena_format(r->arena, "'%.40s' is no number; 24.5 would be one", cells->at[i]));
    if (unit == UNIT_UNSAID)
        return refuse(r, "log-without-unit", cells->column[i],
                      "neither the title nor the cell says C or F; write it into the title, such "
                      "as Temperature (C)");
    if ((unit == UNIT_PER_CENT) != (series->kind == LOG_HUMIDITY))
        return refuse(r, "log-unit", cells->column[i], "has not the unit of its title");
    if (unit == UNIT_FAHRENHEIT)
        value = (value - 32) * 5 / 9;
    r->out->left_out += !log_series_add(series, at_s, value);
    return true;
}

static bool count_rows(struct reader *r, struct date visit, enum log_order order)
{
    struct course course = {0};
    struct log_cells cells;
    struct log_moment moment;
    char joined[LOG_LINE_BYTES];
    while (next_row(r, &cells, joined) && read_moment(r, &cells, &moment)) {
        int64_t at_s;
        size_t column = cells.column[r->times[0]];
        if (moment.year_first != (order == ORDER_YEAR_FIRST) ||
            !log_moment_at(&moment, order, &at_s))
            return refuse(r, "log-time", column,
                          arena_format(r->arena,
                                       "'%.40s' is no day, or its day, month and year stand in "
                                       "another order than in the rows above",
                                       cells.at[r->times[0]]));
        if (!goes_on(&course, at_s))
            return refuse(r, "log-runs-back", column,
                          "lies before the row above it; the rows must follow one another");
        if (at_s >= end_of(visit))
            return refuse(r, "log-after-visit", column, "lies after the day of the visit");
        for (size_t i = 0; i < cells.count; i++)
            if (r->series_of[i] >= 0 && !count_cell(r, &cells, i, at_s))
                return false;
        r->out->first_s = r->out->rows && r->out->first_s < at_s ? r->out->first_s : at_s;
        r->out->rows++;
    }
    r->out->last_s = course.last_s;
    if (!r->failed && course.last_s < end_of(visit) - (int64_t)OLDEST_DAYS * DAY_S)
        return refuse(r, "log-of-another-year", 1,
                      "ends more than a year before the visit; is it another year's log?");
    return !r->failed;
}

static void end_series(struct reader *r)
{
    uint8_t digest[SHA256_DIGEST_SIZE];
    for (size_t i = 0; i < r->out->series_count; i++)
        log_series_end(&r->out->series[i]);
    sha256_digest(&r->sha, sizeof digest, digest);
    hex_write(r->out->sha256, digest, sizeof digest, HEX_SMALL);
}

/* From the top again: a file that was only looked at for its order. */
static bool rewind_file(struct reader *r)
{
    if (lseek(r->fd, 0, SEEK_SET) < 0)
        return file_unreadable(r->path, errno, r->diag);
    r->filled = r->used = 0;
    r->number = 0;
    sha256_init(&r->sha);
    return true;
}

static bool read_all(struct reader *r, struct date visit)
{
    enum log_order order = ORDER_YEAR_FIRST;
    if (!find_titles(r) || !settle_order(r, visit, &order))
        return false;
    if (!rewind_file(r) || !find_titles(r) || !begin_series(r) || !count_rows(r, visit, order))
        return false;
    end_series(r);
    return true;
}

const struct log_file *log_read(const char *path, struct date visit, struct arena *arena,
                                struct diag *diag)
{
    struct stat about;
    int fd = file_open(path, SIZE_LIMIT, diag);
    if (fd < 0)
        return NULL;
    struct reader *r = ARENA_NEW(arena, struct reader);
    *r = (struct reader){.fd = fd, .path = path, .arena = arena, .diag = diag};
    r->out = ARENA_NEW(arena, struct log_file);
    r->out->path = path;
    sha256_init(&r->sha);
    bool good = fstat(fd, &about) == 0 && S_ISREG(about.st_mode)
                    ? read_all(r, visit)
                    : refuse(r, "log-no-file", 0, "is not an ordinary file");
    close(fd);
    return good ? r->out : NULL;
}
