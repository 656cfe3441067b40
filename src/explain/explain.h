/* The plan for a professional's eye: every number, where it came from, which rule
 * fired and why, and what a veterinarian should look at. */
#ifndef BASKLEAF_EXPLAIN_EXPLAIN_H
#define BASKLEAF_EXPLAIN_EXPLAIN_H

#include "care/plan.h"
#include "base/strbuf.h"

/* What the sheet prints that instructs. */
struct explain_printed {
    const struct instruction_plan *items;
    size_t count;
};

/* One JSON object (RFC 8259), SI and Celsius throughout, null where unknown. Numbers
 * with at most ten significant digits. The same plan gives the same bytes. `printed` is NULL where
 * no sheet can be made. */
void explain_write_json(const struct care_plan *plan, const struct explain_printed *printed,
                        struct strbuf *out);

/* The same as lines of English text for a terminal: the technical language of the
 * trade, codes as they stand in the data files. */
void explain_write_text(const struct care_plan *plan, struct strbuf *out);

/* The codes of enums that both forms use. */
const char *explain_verdict_word(enum verdict verdict);
/* The unit that a measured quantity is kept in: "C", "mg/l"; "" for none. */
const char *explain_unit(enum measure_id measure);
const char *explain_origin_word(enum origin origin);
const char *explain_review_word(enum review_kind kind);
const char *explain_weight_purpose_word(enum weight_purpose purpose);
const char *explain_stage_reason_word(enum stage_reason reason);
const char *explain_distance_word(enum uvb_distance_why why);

#endif
