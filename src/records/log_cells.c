/* What stands in the cells of a logger's file: titles, numbers, moments. */
#include "records/log_cells.h"

#include <ctype.h>
#include <string.h>
#include <strings.h>

#include "base/date.h"

/* ---- cells --------------------------------------------------------------------------- */

static char *end_cell(char *from, char separator, bool *more)
{
    char *to = from, *write = from;
    bool quoted = false;
    for (; *to && (quoted || *to != separator); to++)
        if (*to != '"')
            *write++ = *to;
        else if (quoted && to[1] == '"')
            *write++ = *to++;
        else
            quoted = !quoted;
    *more = *to != '\0';
    while (write > from && (write[-1] == ' ' || write[-1] == '\t' || write[-1] == '\r'))
        write--;
    *write = '\0';
    return to + 1;
}

bool log_cells_part(char *line, char separator, struct log_cells *out)
{
    char *at = line;
    bool more = true;
    for (out->count = 0; more; out->count++) {
        if (out->count == LOG_CELLS_MOST)
            return false;
        while (*at == ' ' && separator != ' ')
            at++;
        out->at[out->count] = at;
        out->column[out->count] = (size_t)(at - line) + 1;
        at = end_cell(at, separator, &more);
    }
    return true;
}

char log_separator(const char *line)
{
    static const char marks[] = "\t;,";
    size_t counts[sizeof marks] = {0};
    bool quoted = false;
    for (; *line; line++) {
        const char *mark = strchr(marks, *line);
        if (*line == '"')
            quoted = !quoted;
        else if (mark && !quoted)
            counts[mark - marks]++;
    }
    size_t best = 0;
    for (size_t i = 1; marks[i]; i++)
        if (counts[i] > counts[best])
            best = i;
    return marks[best];
}

/* ---- titles -------------------------------------------------------------------------- */

static const char DEGREE[] = "\xC2\xB0";

/* In small letters, with the degree sign of either encoding as UTF-8. */
static char *small(const char *text, struct arena *arena)
{
    char *out = arena_take(arena, 2 * strlen(text) + 1), *at = out;
    for (const char *from = text; *from; from++) {
        bool bare_degree = (unsigned char)*from == 0xB0 &&
                           (from == text || ((unsigned char)from[-1] & 0xC0) != 0xC0);
        if (bare_degree)
            *at++ = DEGREE[0];
        *at++ = (char)tolower((unsigned char)*from); /* of ASCII alone: no locale is set */
    }
    return out;
}

struct word_meaning {
    const char *part;
    enum log_column_kind kind;
};

/* The first that a title holds says what it is: what is no probe stands before what is. */
static const struct word_meaning meanings[] = {
    {"batt", COLUMN_NONE},       {"bater", COLUMN_NONE},       {"dew", COLUMN_NONE},
    {"roc", COLUMN_NONE},        {"signal", COLUMN_NONE},      {"rssi", COLUMN_NONE},
    {"vpd", COLUMN_NONE},        {"hum", COLUMN_HUMIDITY},     {"feucht", COLUMN_HUMIDITY},
    {"%", COLUMN_HUMIDITY},      {"temp", COLUMN_TEMPERATURE}, {"\xC2\xB0", COLUMN_TEMPERATURE},
    {"(c)", COLUMN_TEMPERATURE}, {"(f)", COLUMN_TEMPERATURE},  {"[c]", COLUMN_TEMPERATURE},
    {"[f]", COLUMN_TEMPERATURE}, {"time", COLUMN_TIME},        {"date", COLUMN_TIME},
    {"fecha", COLUMN_TIME},      {"hora", COLUMN_TIME},        {"datum", COLUMN_TIME},
    {"zeit", COLUMN_TIME},
};

static bool is_letter(char c)
{
    return isalpha((unsigned char)c) || ((unsigned char)c & 0x80);
}

/* Does the text up to `end` close with a word for temperature? */
static bool ends_in_temperature(const char *text, const char *end)
{
    static const char *const words[] = {"temperature", "temperatura", "temperatur", "temp"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        size_t length = strlen(words[i]);
        if ((size_t)(end - text) >= length && memcmp(end - length, words[i], length) == 0)
            return true;
    }
    return false;
}

/* Where a letter for a unit stands: behind a degree sign, in brackets, or beside a word for
 * temperature. "Sensor C" names none. NULL for none. */
static const char *find_unit(const char *title)
{
    for (const char *at = title; *at; at++) {
        if ((*at != 'c' && *at != 'f') || is_letter(at[1]) || at == title)
            continue;
        bool degree = at - title >= 2 && memcmp(at - 2, DEGREE, 2) == 0;
        bool bracket = at[-1] == '(' || at[-1] == '[';
        bool beside = strchr(" _-", at[-1]) && ends_in_temperature(title, at - 1);
        if (degree || bracket || beside)
            return at;
    }
    return NULL;
}

static enum log_unit title_unit(const char *title)
{
    const char *at = find_unit(title);
    return !at ? UNIT_UNSAID : *at == 'c' ? UNIT_CELSIUS : UNIT_FAHRENHEIT;
}

static void blank(char *small_text, char *text, const char *part)
{
    char *found = strstr(small_text, part);
    if (!found)
        return;
    memset(text + (found - small_text), ' ', strlen(part));
    memset(found, ' ', strlen(part));
}

/* "T1 Temperature (C)" is the probe T1. */
static const char *probe_name(const char *text, struct arena *arena)
{
    static const char *const kinds[] = {"temperature",      "temperatura",  "temperatur", "temp",
                                        "relative",         "relativa",     "humidity",   "humedad",
                                        "luftfeuchtigkeit", "feuchtigkeit", "feuchte",    "hum"};
    char *name = arena_copy_text(arena, text), *lower = arena_copy_text(arena, text);
    for (char *c = lower; *c; c++)
        *c = (char)tolower((unsigned char)*c);
    const char *unit = find_unit(lower);
    if (unit)
        name[unit - lower] = lower[unit - lower] = '\0';
    size_t kept = strcspn(name, "([\xC2\xB0%");
    name[kept] = lower[kept] = '\0';
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++)
        blank(lower, name, kinds[i]);
    static const char edges[] = " \t_-:./,";
    size_t end = strlen(name);
    while (end && strchr(edges, name[end - 1]))
        end--;
    name[end] = '\0';
    return name + strspn(name, edges);
}

struct log_title log_title_read(const char *text, struct arena *arena)
{
    const char *title = small(text, arena);
    struct log_title out = {0};
    for (size_t i = 0; i < sizeof meanings / sizeof *meanings; i++)
        if (strstr(title, meanings[i].part)) {
            out.kind = meanings[i].kind;
            break;
        }
    if (out.kind == COLUMN_TEMPERATURE)
        out.unit = title_unit(title);
    if (out.kind == COLUMN_HUMIDITY)
        out.unit = UNIT_PER_CENT;
    out.probe = probe_name(text, arena);
    return out;
}

/* ---- numbers ------------------------------------------------------------------------- */

static bool says_nothing(const char *text)
{
    static const char *const words[] = {"", "-", "--", "---", "n/a", "na", "nan", "null", "error"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (strcasecmp(text, words[i]) == 0)
            return true;
    return false;
}

static bool read_cell_unit(const char *at, enum log_unit *unit)
{
    while (*at == ' ' || (unsigned char)*at >= 0x80)
        at++;
    if (!*at)
        return true;
    if (at[1])
        return false;
    enum log_unit said = *at == 'C' || *at == 'c'   ? UNIT_CELSIUS
                         : *at == 'F' || *at == 'f' ? UNIT_FAHRENHEIT
                         : *at == '%'               ? UNIT_PER_CENT
                                                    : UNIT_UNSAID;
    *unit = said;
    return said != UNIT_UNSAID;
}

enum log_number log_number_read(const char *text, double *value, enum log_unit *unit)
{
    enum { DIGITS_MOST = 15 };
    static const double tens[] = {1e0, 1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                  1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
    const char *at = text;
    bool minus = *at == '-';
    if (*at == '-' || *at == '+')
        at++;
    int64_t whole = 0;
    int digits = 0, behind = 0;
    bool decimal = false;
    for (;; at++) {
        if (isdigit((unsigned char)*at) && digits < DIGITS_MOST) {
            whole = whole * 10 + (*at - '0');
            digits++;
            behind += decimal;
        } else if ((*at == '.' || *at == ',') && !decimal && digits) {
            decimal = true;
        } else {
            break;
        }
    }
    if (!digits)
        return says_nothing(text) ? NUMBER_ABSENT : NUMBER_WRONG;
    if (!read_cell_unit(at, unit))
        return NUMBER_WRONG;
    double read = (double)whole / tens[behind];
    *value = minus ? -read : read;
    return NUMBER_READ;
}

/* ---- moments ------------------------------------------------------------------------- */

static bool read_digits(const char **at, int most, int *out)
{
    int digits = 0;
    *out = 0;
    for (; isdigit((unsigned char)**at) && digits < most; digits++)
        *out = *out * 10 + (*(*at)++ - '0');
    return digits > 0 && !isdigit((unsigned char)**at);
}

/* "a.m.", "PM", "p. m." */
static bool read_half(const char **at, int *hour)
{
    while (**at == ' ')
        ++*at;
    int letter = tolower((unsigned char)**at);
    if (letter != 'a' && letter != 'p')
        return true;
    for (++*at; **at == '.' || **at == ' '; ++*at)
        continue;
    if (tolower((unsigned char)**at) != 'm' || *hour < 1 || *hour > 12)
        return false;
    for (++*at; **at == '.'; ++*at)
        continue;
    *hour = *hour % 12 + (letter == 'p' ? 12 : 0);
    return true;
}

static const char *read_clock(const char *at, int *second_of_day)
{
    static const char wrong[] = "is no time of day; 14:30 or 14:30:00 would be one";
    int hour, minute, second = 0, part;
    if (!read_digits(&at, 2, &hour) || *at++ != ':' || !read_digits(&at, 2, &minute))
        return wrong;
    if (*at == ':') {
        at++;
        if (!read_digits(&at, 2, &second))
            return wrong;
    }
    if (*at == '.' || *at == ',') {
        at++;
        if (!read_digits(&at, 9, &part))
            return wrong;
    }
    if (!read_half(&at, &hour))
        return wrong;
    if (*at == 'Z' || *at == '+' || *at == '-')
        return "is not the clock on the wall but a time zone's; let the recorder write local time";
    if (*at || hour > 23 || minute > 59 || second > 59)
        return wrong;
    *second_of_day = (hour * 60 + minute) * 60 + second;
    return NULL;
}

const char *log_moment_read(const char *text, struct log_moment *out)
{
    static const char wrong[] = "is no moment; 2026-03-14 14:30 would be one";
    const char *at = text;
    char mark = 0;
    for (int i = 0; i < 3; i++) {
        const char *from = at;
        if (!read_digits(&at, 4, &out->numbers[i]))
            return wrong;
        if (i == 0)
            out->year_first = at - from == 4;
        if (i == 2 && !out->year_first && at - from == 2)
            out->numbers[i] += 2000;
        if (i == 2)
            break;
        if (!strchr("-/.", *at) || !*at || (mark && *at != mark))
            return wrong;
        mark = *at++;
    }
    out->dotted = mark == '.';
    if (*at != 'T' && *at != ' ' && *at != ',')
        return "has no time of day; 2026-03-14 14:30 would have one";
    for (at++; *at == ' '; at++)
        continue;
    return read_clock(at, &out->second_of_day);
}

bool log_moment_at(const struct log_moment *moment, enum log_order order, int64_t *at_s)
{
    const int *n = moment->numbers;
    struct date day = order == ORDER_YEAR_FIRST  ? (struct date){n[0], n[1], n[2]}
                      : order == ORDER_DAY_FIRST ? (struct date){n[2], n[1], n[0]}
                                                 : (struct date){n[2], n[0], n[1]};
    if (!date_is_valid(day))
        return false;
    *at_s = (int64_t)date_to_days(day) * 86400 + moment->second_of_day;
    return true;
}
