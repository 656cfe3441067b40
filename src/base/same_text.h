/* Are two texts the same? Most that are looked through differ in their first letter, which is seen
 * without a call. */
#ifndef BASKLEAF_BASE_SAME_TEXT_H
#define BASKLEAF_BASE_SAME_TEXT_H

#include <stdbool.h>
#include <string.h>

static inline bool same_text(const char *one, const char *other)
{
    return *one == *other && strcmp(one, other) == 0;
}

#endif
