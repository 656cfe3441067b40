/* The same calls as a JSON document, written as an outline that people read.
 *
 * An object's plain values stand on one line, "mass 68 g, length 12 cm"; what it holds besides
 * stands below, indented. What is unknown, false or empty is left out. The unit at the end of a
 * key follows its value: mass_g, length_cm. Called through json.h alone.
 */
#ifndef BASKLEAF_BASE_OUTLINE_H
#define BASKLEAF_BASE_OUTLINE_H

#include <stdbool.h>

#include "base/strbuf.h"

struct outline;

/* Written into `out` (borrowed) when the outermost object closes. */
struct outline *outline_new(struct strbuf *out);
void outline_key(struct outline *outline, const char *key);
void outline_open(struct outline *outline, bool is_list);
void outline_close(struct outline *outline);
void outline_text(struct outline *outline, const char *text);
void outline_number(struct outline *outline, double value);

#endif
