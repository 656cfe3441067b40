/* Letters without case and accents, for comparing and finding: "Ñandú" and "nandu" are the same.
 *
 * Letters of Unicode's blocks Latin-1 Supplement and Latin Extended-A become their base letters
 * (The Unicode Standard 15, UnicodeData.txt, canonical decompositions; letters without one, such as
 * ø and ß, as they are written in plain ASCII by custom), combining marks U+0300 to U+036F vanish,
 * everything else stays. */
#ifndef BASKLEAF_BASE_FOLD_H
#define BASKLEAF_BASE_FOLD_H

#include "base/arena.h"

/* In the arena. Bytes that are no UTF-8 stay as they are. */
const char *fold_text(const char *text, struct arena *arena);

/* The same as a name for files and for comparing: letters and digits of ASCII, a hyphen for each
 * run of all else, none at an end, at most `most` bytes. May be empty, is never a path. */
const char *fold_slug(const char *text, size_t most, struct arena *arena);

#endif
