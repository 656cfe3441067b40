/* Parses plural conditions of CLDR and tries them on a number. */
#include "words/plural.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

enum { RELATIONS_MOST = 32, RANGES_MOST = 64 };

struct number_range {
    double low, high;
};

/* operand % modulus = ranges; relations are joined by `and` but where one begins an alternative. */
struct plural_relation {
    char operand;
    double modulus; /* 0: none */
    bool equal;
    bool begins_alternative;
    const struct number_range *ranges;
    size_t range_count;
};

struct plural_condition {
    struct plural_relation relations[RELATIONS_MOST];
    size_t count;
};

const char *plural_word(enum plural plural)
{
    static const char *const words[] = {"zero", "one", "two", "few", "many", "other"};
    return words[plural];
}

/* ---- parsing ---------------------------------------------------------------------------- */

static const char *skip_blanks(const char *at)
{
    return at + strspn(at, " \t\n");
}

/* Is it the word, as a word of its own? Then *at moves behind it. */
static bool take_word(const char **at, const char *word)
{
    const char *from = skip_blanks(*at);
    size_t length = strlen(word);
    if (strncmp(from, word, length) != 0 || (from[length] != ' ' && from[length] != '\0'))
        return false;
    *at = from + length;
    return true;
}

static bool take_text(const char **at, const char *text)
{
    const char *from = skip_blanks(*at);
    if (strncmp(from, text, strlen(text)) != 0)
        return false;
    *at = from + strlen(text);
    return true;
}

static bool take_number(const char **at, double *out)
{
    enum { DIGITS_MOST = 9 };
    const char *from = skip_blanks(*at);
    size_t digits = strspn(from, "0123456789");
    if (digits == 0 || digits > DIGITS_MOST)
        return false;
    *out = 0;
    for (size_t i = 0; i < digits; i++)
        *out = *out * 10 + (from[i] - '0');
    *at = from + digits;
    return true;
}

static bool take_ranges(const char **at, struct arena *arena, struct plural_relation *relation)
{
    struct number_range *ranges = ARENA_ARRAY(arena, struct number_range, RANGES_MOST);
    relation->ranges = ranges;
    do {
        struct number_range *range = &ranges[relation->range_count];
        if (relation->range_count == RANGES_MOST || !take_number(at, &range->low))
            return false;
        range->high = range->low;
        if (take_text(at, "..") && !take_number(at, &range->high))
            return false;
        relation->range_count++;
    } while (take_text(at, ","));
    return true;
}

static bool take_relation(const char **at, struct arena *arena, struct plural_relation *relation)
{
    const char *from = skip_blanks(*at);
    if (!*from || !strchr("nivwftce", *from))
        return false;
    relation->operand = *from;
    *at = from + 1;
    if (take_text(at, "%") && (!take_number(at, &relation->modulus) || relation->modulus == 0))
        return false;
    relation->equal = !take_text(at, "!=");
    if (relation->equal && !take_text(at, "="))
        return false;
    return take_ranges(at, arena, relation);
}

const struct plural_condition *plural_parse(const char *text, struct arena *arena,
                                            const char **wrong)
{
    struct plural_condition *condition = ARENA_NEW(arena, struct plural_condition);
    const char *at = text;
    bool begins = true;
    for (;;) {
        struct plural_relation *relation = &condition->relations[condition->count];
        const char *from = skip_blanks(at);
        if (condition->count == RELATIONS_MOST || !take_relation(&at, arena, relation)) {
            at = from;
            break;
        }
        relation->begins_alternative = begins;
        condition->count++;
        if (take_word(&at, "and")) {
            begins = false;
            continue;
        }
        if (take_word(&at, "or")) {
            begins = true;
            continue;
        }
        at = skip_blanks(at);
        if (*at == '\0' || *at == '@')
            return condition;
        break;
    }
    *wrong = at;
    return NULL;
}

/* ---- choosing ----------------------------------------------------------------------------- */

/* The operands of a number as it is printed. */
struct operands {
    double n, i; /* the whole value; its whole part */
    double v;    /* digits after the decimal mark; w is the same without trailing zeros */
    double f;    /* those digits as a number; t likewise */
};

static struct operands operands_of(double number)
{
    char digits[64];
    double n = fabs(number);
    struct operands o = {.n = n, .i = floor(n)};
    if (n >= 1e15 || snprintf(digits, sizeof digits, "%.3f", n) <= 4)
        return o;
    size_t end = strlen(digits);
    const char *fraction = digits + end - 3;
    while (digits[end - 1] == '0')
        end--;
    o.n = 0;
    for (const char *c = digits; c < fraction - 1; c++)
        o.n = o.n * 10 + (*c - '0');
    o.i = o.n;
    for (const char *c = fraction; c < digits + end; c++) {
        o.v++;
        o.f = o.f * 10 + (*c - '0');
    }
    o.n += o.f / pow(10, o.v);
    return o;
}

static double operand_value(const struct operands *o, char operand)
{
    switch (operand) {
    case 'n':
        return o->n;
    case 'i':
        return o->i;
    case 'v':
    case 'w':
        return o->v;
    case 'f':
    case 't':
        return o->f;
    default:
        return 0; /* no exponents are printed */
    }
}

/* Only whole numbers lie in a range. */
static bool holds(const struct plural_relation *relation, const struct operands *o)
{
    double value = operand_value(o, relation->operand);
    if (relation->modulus > 0)
        value = fmod(value, relation->modulus);
    bool inside = false;
    for (size_t k = 0; k < relation->range_count; k++)
        inside = inside || (value == floor(value) && value >= relation->ranges[k].low &&
                            value <= relation->ranges[k].high);
    return inside == relation->equal;
}

static bool fits(const struct plural_condition *condition, const struct operands *o)
{
    bool all = false;
    for (size_t k = 0; k < condition->count; k++) {
        const struct plural_relation *relation = &condition->relations[k];
        if (relation->begins_alternative && all)
            return true;
        all = (relation->begins_alternative || all) && holds(relation, o);
    }
    return all;
}

enum plural plural_choose(const struct plural_rules *rules, double number)
{
    struct operands o = operands_of(number);
    for (int plural = 0; plural < PLURAL_OTHER; plural++)
        if (rules->conditions[plural] && fits(rules->conditions[plural], &o))
            return (enum plural)plural;
    return PLURAL_OTHER;
}
