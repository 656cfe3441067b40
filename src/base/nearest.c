/* Edit distance between names, for "did you mean". */
#include "base/nearest.h"

#include <string.h>

enum { LONGEST_NAME = 63 };

void nearest_init(struct nearest *nearest, const char *wanted)
{
    *nearest = (struct nearest){.wanted = wanted, .distance = (size_t)-1};
}

static size_t smaller(size_t a, size_t b)
{
    return a < b ? a : b;
}

/* Optimal string alignment distance; rows of the table are kept whole because
 * names are short. */
static size_t edit_distance(const char *a, size_t a_length, const char *b, size_t b_length)
{
    size_t table[LONGEST_NAME + 1][LONGEST_NAME + 1];
    for (size_t i = 0; i <= a_length; i++)
        table[i][0] = i;
    for (size_t j = 0; j <= b_length; j++)
        table[0][j] = j;
    for (size_t i = 1; i <= a_length; i++) {
        for (size_t j = 1; j <= b_length; j++) {
            size_t best = smaller(table[i - 1][j], table[i][j - 1]) + 1;
            best = smaller(best, table[i - 1][j - 1] + (a[i - 1] != b[j - 1]));
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                best = smaller(best, table[i - 2][j - 2] + 1);
            table[i][j] = best;
        }
    }
    return table[a_length][b_length];
}

void nearest_offer(struct nearest *nearest, const char *name)
{
    size_t wanted_length = strlen(nearest->wanted), length = strlen(name);
    if (wanted_length == 0 || wanted_length > LONGEST_NAME || length > LONGEST_NAME)
        return;
    size_t longer = wanted_length > length ? wanted_length : length;
    size_t allowed = longer / 3 > 2 ? longer / 3 : 2;
    if (longer <= 3)
        allowed = 1;
    size_t distance = edit_distance(nearest->wanted, wanted_length, name, length);
    if (distance <= allowed && distance < nearest->distance) {
        nearest->distance = distance;
        nearest->best = name;
    }
}
