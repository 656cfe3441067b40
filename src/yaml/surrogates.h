/* JSON's way of writing a character beyond U+FFFF: two escapes that belong together, "\ud83e\udd8e"
 * (RFC 8259, section 7). YAML 1.2.2 (section 1.3) takes every JSON text for YAML, but the parser
 * refuses each half by itself. Here a pair becomes YAML's one escape, "\U0001F98E", before the
 * parser sees it; a half alone stays and is refused at its place. */
#ifndef BASKLEAF_YAML_SURROGATES_H
#define BASKLEAF_YAML_SURROGATES_H

#include <yaml.h>

#include "base/arena.h"
#include "base/file.h"

/* A pair that was joined: its line as the parser counts, and the first column behind it. */
struct joined_pair {
    size_t line, behind;
};

struct joined_pairs {
    struct joined_pair *items; /* in their order */
    size_t count;
};

/* May there be one? Looks for the first four characters of a leading half. */
bool surrogates_are_possible(struct bytes text);

/* The text with its pairs joined, in the arena; the text itself where there is none. Texts that
 * are not in double quotes stay as they are. */
struct bytes surrogates_join(struct bytes text, struct arena *arena, struct joined_pairs *pairs);

/* Where the parser's place lies in the text as it was written. */
yaml_mark_t surrogates_place(const struct joined_pairs *pairs, yaml_mark_t at);

#endif
