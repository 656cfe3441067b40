/* The table of units, and quantities, bands and boxes read from text such as "30-32 C". */
#include "base/units.h"

#include <string.h>

#include "base/strbuf.h"
#include "base/utf8.h"

struct unit_row {
    const char *symbol;
    const char *also; /* further words for it, parted by "|"; letters of either case all do */
    enum unit unit;
    enum dimension dimension;
    double factor; /* own unit = (written - offset) * factor */
    double offset;
};

#define LITRES_A_GALLON 3.785411784
/* A German degree is 10 mg of calcium oxide a litre; the molar masses of CaCO3 and CaO are 100.087
 * and 56.077 g/mol (IUPAC standard atomic weights). */
#define MG_CACO3_A_DEGREE (10 * 100.087 / 56.077)

#define WORDS_HOUR "hr|hrs|hour|hours|hora|horas|heure|heures"
#define WORDS_MINUTE "minute|minutes|mins|minuto|minutos"
#define WORDS_DAY "d|day|día|días|dia|dias|jour|jours"
#define WORDS_WEEK "wk|wks|week|semana|semanas|semaine|semaines"

/* "gr" is a gram of a scale; a grain too in medicines, so not there. Left out on purpose: "libra"
 * and "livre", which are a pound in one country and half a kilogram in another. */
static const struct unit_row unit_rows[] = {
    {"C", "°C|ºC|˚C|℃|° C|º C|deg C|degrees C|Celsius", UNIT_CELSIUS, DIM_TEMPERATURE, 1, 0},
    {"F", "°F|ºF|˚F|℉|° F|º F|deg F|degrees F|Fahrenheit", UNIT_FAHRENHEIT, DIM_TEMPERATURE,
     5.0 / 9.0, 32},
    {"g", "gm|gms|gr|grs|gram|grams|gramme|grammes|gramo|gramos", UNIT_GRAM, DIM_MASS, 1, 0},
    {"kg", "kgs|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes|kilogramo|kilogramos",
     UNIT_KILOGRAM, DIM_MASS, 1000, 0},
    {"oz", "ounce|ounces", UNIT_OUNCE, DIM_MASS, UNITS_G_PER_OZ, 0},
    {"lb", "lbs|pound|pounds", UNIT_POUND, DIM_MASS, UNITS_G_PER_LB, 0},
    {"mm", "millimeter|millimeters|millimetre|millimetres|milímetros|millimètres", UNIT_MILLIMETRE,
     DIM_LENGTH, 0.1, 0},
    {"cm", "cms|centimeter|centimeters|centimetre|centimetres|centímetros|centimètres",
     UNIT_CENTIMETRE, DIM_LENGTH, 1, 0},
    {"m", "meter|meters|metre|metres|metro|metros|mètre|mètres", UNIT_METRE, DIM_LENGTH, 100, 0},
    {"in", "inch|inches|″", UNIT_INCH, DIM_LENGTH, UNITS_CM_PER_INCH, 0},
    {"ft", "foot|feet|′", UNIT_FOOT, DIM_LENGTH, 30.48, 0},
    {"%", "percent|per cent|pct|por ciento|pour cent", UNIT_PERCENT, DIM_PERCENT, 1, 0},
    {"days", WORDS_DAY, UNIT_DAY, DIM_DURATION, 1, 0},
    {"weeks", WORDS_WEEK, UNIT_WEEK, DIM_DURATION, 7, 0},
    {"months", "month|mo|mes|meses|mois", UNIT_MONTH, DIM_DURATION, 30.4375, 0},
    {"years", "year|yr|yrs|año|años|an|ans", UNIT_YEAR, DIM_DURATION, 365.25, 0},
    {"h", WORDS_HOUR, UNIT_HOUR, DIM_HOURS, 1, 0},
    {"min", WORDS_MINUTE, UNIT_MINUTE, DIM_HOURS, 1.0 / 60.0, 0},
    {"W", "watt|watts|vatios", UNIT_WATT, DIM_POWER, 1, 0},
    {"mg/l", "ppm", UNIT_MG_PER_LITRE, DIM_CONCENTRATION, 1, 0},
    {"dGH", "°dH|ºdH|°dGH|ºdGH", UNIT_DEGREE_HARDNESS, DIM_HARDNESS, 1, 0},
    {"mg/l", "ppm", UNIT_MG_PER_LITRE, DIM_HARDNESS, 1 / MG_CACO3_A_DEGREE, 0},
    {"l", "liter|liters|litre|litres|litro|litros", UNIT_LITRE, DIM_VOLUME, 1, 0},
    {"ml", "cc", UNIT_MILLILITRE, DIM_VOLUME, 0.001, 0},
    {"gal", "gallon|gallons", UNIT_GALLON, DIM_VOLUME, LITRES_A_GALLON, 0},
    {"h", WORDS_HOUR, UNIT_HOUR, DIM_INTERVAL, 1, 0},
    {"days", WORDS_DAY, UNIT_DAY, DIM_INTERVAL, 24, 0},
    {"weeks", WORDS_WEEK, UNIT_WEEK, DIM_INTERVAL, 168, 0},
    {"ml", "cc", UNIT_MILLILITRE, DIM_AMOUNT, 1, 0},
    {"mg", NULL, UNIT_MILLIGRAM, DIM_AMOUNT, 1, 0},
    {"µg", "μg|mcg", UNIT_MICROGRAM, DIM_AMOUNT, 1, 0},
    {"g", NULL, UNIT_GRAM, DIM_AMOUNT, 1, 0},
    {"IU", "UI", UNIT_INTERNATIONAL, DIM_AMOUNT, 1, 0},
    {"drops", "drop|gota|gotas|goutte|gouttes", UNIT_DROP, DIM_AMOUNT, 1, 0},
    {"tablets", "tablet", UNIT_TABLET, DIM_AMOUNT, 1, 0},
    {"capsules", "capsule", UNIT_CAPSULE, DIM_AMOUNT, 1, 0},
    {"mg/kg", NULL, UNIT_MG_PER_KG, DIM_DOSE, 1, 0},
    {"mg/ml", NULL, UNIT_MG_PER_ML, DIM_STRENGTH, 1, 0},
};

static const struct {
    const char *name;
    const char *allowed;
    bool may_follow; /* a second, smaller unit may follow: 3 lb 3 oz, 4 ft 2 in */
    const char *usual, *usual_us;
} dimensions[DIM_END] = {
    [DIM_TEMPERATURE] = {"temperature", "C or F", false, "C", "F"},
    [DIM_MASS] = {"mass", "g, kg, oz or lb", true, "g", "oz"},
    [DIM_LENGTH] = {"length", "mm, cm, m, in or ft", true, "cm", "in"},
    [DIM_PERCENT] = {"percentage", "%", false, "%", "%"},
    [DIM_DURATION] = {"duration", "days, weeks, months or years", false, "days", "days"},
    [DIM_HOURS] = {"hours", "h or min", true, "h", "h"},
    [DIM_UV_INDEX] = {"UV index", NULL, false, NULL, NULL},
    [DIM_POWER] = {"power", "W", false, "W", "W"},
    [DIM_CONCENTRATION] = {"concentration", "mg/l or ppm", false, "mg/l", "ppm"},
    [DIM_HARDNESS] = {"hardness", "dGH, mg/l or ppm", false, "dGH", "ppm"},
    [DIM_PH] = {"pH value", NULL, false, NULL, NULL},
    [DIM_VOLUME] = {"volume", "l, ml or gal", false, "l", "gal"},
    [DIM_INTERVAL] = {"interval", "h, days or weeks", false, "h", "h"},
    [DIM_AMOUNT] = {"amount", "ml, mg, µg, g, IU, drops, tablets or capsules", false, "ml", "ml"},
    [DIM_DOSE] = {"dose", "mg/kg", false, "mg/kg", "mg/kg"},
    [DIM_STRENGTH] = {"strength", "mg/ml", false, "mg/ml", "mg/ml"},
    [DIM_COUNT] = {"number", NULL, false, NULL, NULL},
};

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/* "kg|kgs" as a regular expression: each letter in either case. */
static void add_either_case(struct strbuf *out, const char *words)
{
    for (const char *c = words; *c; c++)
        if (is_letter(*c))
            strbuf_addf(out, "[%c%c]", *c & ~0x20, *c | 0x20);
        else
            strbuf_add_char(out, *c);
}

const char *units_pattern(enum dimension dimension, struct arena *arena)
{
    struct strbuf words;
    strbuf_init(&words, arena);
    for (size_t i = 0; i < sizeof unit_rows / sizeof *unit_rows; i++) {
        const struct unit_row *row = &unit_rows[i];
        if (row->dimension != dimension)
            continue;
        strbuf_add_char(&words, words.length ? '|' : '(');
        add_either_case(&words, row->symbol);
        if (row->also) {
            strbuf_add_char(&words, '|');
            add_either_case(&words, row->also);
        }
    }
    if (words.length)
        strbuf_add_char(&words, ')');
    return words.length ? words.text : NULL;
}

bool units_may_follow(enum dimension dimension)
{
    return dimensions[dimension].may_follow;
}

const char *units_allowed(enum dimension dimension)
{
    return dimensions[dimension].allowed;
}

const char *units_usual(enum dimension dimension, bool is_us)
{
    return is_us ? dimensions[dimension].usual_us : dimensions[dimension].usual;
}

const char *units_symbol(enum unit unit)
{
    for (size_t i = 0; i < sizeof unit_rows / sizeof *unit_rows; i++)
        if (unit_rows[i].unit == unit)
            return unit_rows[i].symbol;
    return "";
}

static const struct unit_row *row_of(enum unit unit)
{
    const struct unit_row *row = unit_rows;
    while (row->unit != unit && row + 1 < unit_rows + sizeof unit_rows / sizeof *unit_rows)
        row++;
    return row;
}

double units_from_written(double written, enum unit unit)
{
    const struct unit_row *row = row_of(unit);
    return (written - row->offset) * row->factor;
}

double units_to_written(double value, enum unit unit)
{
    const struct unit_row *row = row_of(unit);
    return value / row->factor + row->offset;
}

/* The length of the text among these that stands at `at`; 0 for none. */
static size_t length_of_start(const char *at, const char *const *texts, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (strncmp(at, texts[i], strlen(texts[i])) == 0)
            return strlen(texts[i]);
    return 0;
}

/* With the spaces at which no line breaks, thin ones too. */
static void skip_spaces(const char **at)
{
    static const char *const spaces[] = {" ", "\t", "\u00A0", "\u2007", "\u2009", "\u202F"};
    size_t length;
    while ((length = length_of_start(*at, spaces, sizeof spaces / sizeof *spaces)) > 0)
        *at += length;
}

/* "1,450" is 1450 to one reader and 1.45 to another; "0,450" is one number to all. */
static bool may_be_thousands(const char *from, const char *comma)
{
    size_t behind = strspn(comma + 1, "0123456789");
    return behind == 3 && strspn(from, "0") != (size_t)(comma - from);
}

/* Plain decimals only, with a point or a comma: no exponent, no hexadecimal, no inf or nan, at most
 * twelve digits, so that every accepted text is a finite number. */
static bool read_decimal(const char **at, double *out)
{
    static const char *const minus[] = {"-", "\u2212"};
    const char *c = *at;
    double value = 0, place = 1;
    int digits = 0;
    size_t sign = length_of_start(c, minus, sizeof minus / sizeof *minus);
    c += sign ? sign : *c == '+';
    const char *from = c;
    for (; *c >= '0' && *c <= '9'; c++, digits++)
        value = value * 10 + (*c - '0');
    if (*c == ',' && may_be_thousands(from, c))
        return false;
    if ((*c == '.' || (*c == ',' && digits)) && c[1] >= '0' && c[1] <= '9') {
        for (c++; *c >= '0' && *c <= '9'; c++, digits++) {
            value = value * 10 + (*c - '0');
            place *= 10;
        }
    }
    if (digits == 0 || digits > 12)
        return false;
    *at = c;
    *out = (sign ? -value : value) / place;
    return true;
}

/* How many bytes of `at` are this word, in letters of either case; 0 when they are not. */
static size_t length_of_word(const char *at, const char *word, size_t length)
{
    for (size_t i = 0; i < length; i++)
        if (is_letter(word[i]) ? (at[i] | 0x20) != (word[i] | 0x20) : at[i] != word[i])
            return 0;
    return length;
}

/* The longest of a row's words that stands at `at`. */
static size_t longest_word(const char *at, const struct unit_row *row)
{
    size_t best = length_of_word(at, row->symbol, strlen(row->symbol));
    for (const char *word = row->also; word && *word;) {
        size_t length = strcspn(word, "|");
        size_t found = length_of_word(at, word, length);
        best = found > best ? found : best;
        word += length + (word[length] == '|');
    }
    return best;
}

static const struct unit_row *read_unit(const char **at, enum dimension dimension)
{
    const struct unit_row *best = NULL;
    size_t best_length = 0;
    for (size_t i = 0; i < sizeof unit_rows / sizeof *unit_rows; i++) {
        const struct unit_row *row = &unit_rows[i];
        size_t length = row->dimension == dimension ? longest_word(*at, row) : 0;
        if (length > best_length) {
            best = row;
            best_length = length;
        }
    }
    *at += best_length;
    return best;
}

/* The place of a comma that could part thousands, or NULL. */
static const char *doubtful_comma(const char *text)
{
    const char *comma = strchr(text, ',');
    const char *from = comma;
    while (from && from > text && from[-1] >= '0' && from[-1] <= '9')
        from--;
    return comma && from < comma && may_be_thousands(from, comma) ? comma : NULL;
}

/* Digits parted by a space or an apostrophe (1 450 g, 1'450 g), or in the wide form of East Asian
 * keyboards: people see a number there, so they are told what to leave out. */
static const char *hidden_number(const char *text)
{
    static const char *const between[] = {" ",      "'",      "\u2019", "\u00a0",
                                          "\u2007", "\u2009", "\u202f"};
    for (const char *c = text; *c; c++) {
        /* U+FF10 to U+FF19 */
        if (strncmp(c, "\xEF\xBC", 2) == 0 && (unsigned char)c[2] >= 0x90 &&
            (unsigned char)c[2] <= 0x99)
            return "has wide digits; write 0 to 9 as in English";
        size_t gap = length_of_start(c, between, sizeof between / sizeof *between);
        bool parts = gap && c > text && c[-1] >= '0' && c[-1] <= '9';
        if (parts && strspn(c + gap, "0123456789") == 3)
            return "has a gap in its number; write the digits side by side";
    }
    return NULL;
}

static bool refuse(const char **why, struct arena *arena, const char *text,
                   enum dimension dimension)
{
    const char *allowed = dimensions[dimension].allowed;
    const char *at = text;
    double ignored;
    skip_spaces(&at);
    bool has_number = read_decimal(&at, &ignored);
    skip_spaces(&at);
    if (doubtful_comma(text))
        *why = arena_format(arena,
                            "the comma in '%s' could part thousands or be a decimal point; write "
                            "it without a comma",
                            text);
    else if (utf8_is_blank(text))
        *why = allowed ? arena_format(arena, "is empty; write a number with %s", allowed)
                       : "is empty; write a number";
    else if (hidden_number(text))
        *why = arena_format(arena, "'%s' %s", text, hidden_number(text));
    else if (!allowed)
        *why = arena_format(arena, "'%s' is not a plain number; write one such as 3", text);
    else if (has_number && *at == '\0')
        *why = arena_format(arena, "'%s' has no unit; write it with %s", text, allowed);
    else
        *why = arena_format(arena, "'%s' is not %s %s; write a number with %s", text,
                            strchr("aeiou", *dimensions[dimension].name) ? "an" : "a",
                            dimensions[dimension].name, allowed);
    return false;
}

static bool read_unit_or_none(const char **at, enum dimension dimension,
                              const struct unit_row **out)
{
    static const struct unit_row bare = {"", NULL, UNIT_NONE, DIM_COUNT, 1, 0};
    skip_spaces(at);
    *out = dimensions[dimension].allowed ? read_unit(at, dimension) : &bare;
    skip_spaces(at);
    return *out != NULL;
}

/* The second part of "3 lb 3 oz": a smaller unit of the same dimension, whole
 * and not negative. */
static bool read_following(const char **at, enum dimension dimension, const struct unit_row *first,
                           double *value)
{
    double more;
    const struct unit_row *second;
    if (**at == '-' || **at == '+' || !read_decimal(at, &more) ||
        !read_unit_or_none(at, dimension, &second))
        return false;
    if (second->factor >= first->factor || more * second->factor >= first->factor)
        return false;
    *value += more * second->factor;
    return true;
}

bool units_read_quantity(const char *text, enum dimension dimension, struct arena *arena,
                         struct quantity *out, const char **why)
{
    const char *at = text;
    double written;
    const struct unit_row *unit;
    skip_spaces(&at);
    if (!read_decimal(&at, &written) || !read_unit_or_none(&at, dimension, &unit))
        return refuse(why, arena, text, dimension);
    double value = (written - unit->offset) * unit->factor;
    if (*at && dimensions[dimension].may_follow && !read_following(&at, dimension, unit, &value))
        return refuse(why, arena, text, dimension);
    if (*at)
        return refuse(why, arena, text, dimension);
    *out = (struct quantity){.known = true, .value = value, .written = written, .unit = unit->unit};
    return true;
}

/* A hyphen, an en dash or "to" between the two numbers. */
static bool read_between(const char **at)
{
    skip_spaces(at);
    static const char *const words[] = {"-", "–", "to "};
    size_t length = length_of_start(*at, words, sizeof words / sizeof *words);
    *at += length;
    skip_spaces(at);
    return length > 0;
}

bool units_read_band(const char *text, enum dimension dimension, struct arena *arena,
                     struct band *out, const char **why)
{
    const char *at = text;
    double low, high;
    const struct unit_row *unit;
    skip_spaces(&at);
    if (!read_decimal(&at, &low))
        return refuse(why, arena, text, dimension);
    high = low;
    if (read_between(&at) && !read_decimal(&at, &high))
        return refuse(why, arena, text, dimension);
    if (!read_unit_or_none(&at, dimension, &unit) || *at)
        return refuse(why, arena, text, dimension);
    if (low > high) {
        *why = arena_format(arena, "'%s' runs downward; write the lower number first", text);
        return false;
    }
    *out = (struct band){.known = true,
                         .low = (low - unit->offset) * unit->factor,
                         .high = (high - unit->offset) * unit->factor,
                         .unit = unit->unit};
    return true;
}

static bool read_times(const char **at)
{
    skip_spaces(at);
    static const char *const words[] = {"x", "X", "×"};
    size_t length = length_of_start(*at, words, sizeof words / sizeof *words);
    *at += length;
    skip_spaces(at);
    return length > 0;
}

bool units_read_box(const char *text, struct arena *arena, struct box *out, const char **why)
{
    const char *at = text;
    double side[3];
    const struct unit_row *unit;
    skip_spaces(&at);
    bool good = read_decimal(&at, &side[0]) && read_times(&at) && read_decimal(&at, &side[1]) &&
                read_times(&at) && read_decimal(&at, &side[2]) &&
                read_unit_or_none(&at, DIM_LENGTH, &unit) && *at == '\0';
    if (!good) {
        *why = arena_format(arena,
                            "'%s' is not a size; write length x width x height with a unit, "
                            "such as 120 x 60 x 60 cm",
                            text);
        return false;
    }
    *out = (struct box){.known = true,
                        .length_cm = side[0] * unit->factor,
                        .width_cm = side[1] * unit->factor,
                        .height_cm = side[2] * unit->factor,
                        .unit = unit->unit};
    return true;
}

double units_c_to_f(double temp_c)
{
    return temp_c * 9.0 / 5.0 + 32.0;
}

double units_c_step_to_f_step(double step_c)
{
    return step_c * 9.0 / 5.0;
}

double units_cm_to_in(double length_cm)
{
    return length_cm / UNITS_CM_PER_INCH;
}

double units_g_to_oz(double mass_g)
{
    return mass_g / UNITS_G_PER_OZ;
}

double units_l_to_gal(double volume_l)
{
    return volume_l / LITRES_A_GALLON;
}
