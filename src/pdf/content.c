/* Writes an operator and its numbers. */
#include "pdf/content.h"

#include <math.h>
#include <string.h>

enum { PARTS = 16, NUMBER_ROOM = 24, OPERATOR_ROOM = 8 };

float content_grid(double pt)
{
    return (float)(round(pt * PARTS) / PARTS);
}

/* Four digits hold each sixteenth. Returns what is behind the number. */
static char *put_number(char *at, float number)
{
    static const float MOST = 32767; /* ISO 32000-1, annex C: no reader has to know a larger one */
    enum { TENS = 10000 };
    const long sixteenths = lroundf(fminf(fabsf(number), MOST) * PARTS);
    unsigned long whole = (unsigned long)sixteenths / PARTS,
                  part = (unsigned long)sixteenths % PARTS * (TENS / PARTS);
    char digits[NUMBER_ROOM], *first = digits + sizeof digits;
    if (number < 0)
        *at++ = '-';
    do
        *--first = (char)('0' + whole % 10);
    while (whole /= 10);
    memcpy(at, first, (size_t)(digits + sizeof digits - first));
    at += digits + sizeof digits - first;
    for (unsigned long unit = TENS / 10; part > 0; part %= unit, unit /= 10) {
        if (unit == TENS / 10)
            *at++ = '.';
        *at++ = (char)('0' + part / unit);
    }
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
