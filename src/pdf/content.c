/* Writes an operator and its numbers. */
#include "pdf/content.h"

#include <math.h>
#include <string.h>

enum { PARTS = 16, NUMBER_ROOM = 24, OPERATOR_ROOM = 8 };

float content_grid(double pt)
{
    static const double MOST = 1e9; /* behind all numbers of a page */
    const double parts = fmax(-MOST, fmin(MOST, pt * PARTS));
    return (float)((double)(long)(parts + (parts < 0 ? -0.5 : 0.5)) / PARTS);
}

/* Returns what is behind the number. */
static char *put_number(char *at, float number)
{
    static const float MOST = 32767; /* ISO 32000-1, annex C: no reader has to know a larger one */
    /* four digits hold each of them */
    static const char behind_point[PARTS][6] = {"",     ".0625", ".125", ".1875", ".25",  ".3125",
                                                ".375", ".4375", ".5",   ".5625", ".625", ".6875",
                                                ".75",  ".8125", ".875", ".9375"};
    const float size = number < 0 ? -number : number;
    const unsigned sixteenths = (unsigned)((size < MOST ? size : MOST) * PARTS + 0.5f);
    unsigned whole = sixteenths / PARTS;
    char digits[NUMBER_ROOM], *first = digits + sizeof digits;
    if (number < 0)
        *at++ = '-';
    do
        *--first = (char)('0' + whole % 10);
    while (whole /= 10);
    while (first < digits + sizeof digits)
        *at++ = *first++;
    for (const char *digit = behind_point[sixteenths % PARTS]; *digit; digit++)
        *at++ = *digit;
    return at;
}

void content_write(HPDF_Page page, const float *numbers, size_t count, const char *operator)
{
    char line[CONTENT_NUMBERS_MOST * NUMBER_ROOM + OPERATOR_ROOM], *at = line;
    for (size_t i = 0; i < count && i < CONTENT_NUMBERS_MOST; i++) {
        at = put_number(at, numbers[i]);
        *at++ = ' ';
    }
    const size_t length = strlen(operator);
    memcpy(at, operator, length);
    at[length] = '\n';
    haru_write(page, line, (size_t)(at - line) + length + 1);
}
