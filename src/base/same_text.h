/* Are two texts the same? Most that are looked through differ in their first two letters, which is
 * seen without a call. */
#ifndef BASKLEAF_BASE_SAME_TEXT_H
#define BASKLEAF_BASE_SAME_TEXT_H

#include <stdbool.h>
#include <string.h>

static inline bool same_text(const char *one, const char *other)
{
    return *one == *other && (*one == '\0' || (one[1] == other[1] && strcmp(one, other) == 0));
}

#endif
