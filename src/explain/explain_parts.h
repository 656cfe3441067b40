/* Parts of explain that have a file of their own. Inside the layer only. */
#ifndef BASKLEAF_EXPLAIN_EXPLAIN_PARTS_H
#define BASKLEAF_EXPLAIN_EXPLAIN_PARTS_H

#include "base/json.h"
#include "base/strbuf.h"
#include "care/plan.h"
#include "explain/explain.h"

/* One key with its number, its two ends or its day; null where it is not known. */
void explain_key_known(struct json *j, const char *key, bool known, double value);
void explain_key_pair(struct json *j, const char *key, bool known, double low, double high);
void explain_key_date(struct json *j, const char *key, bool known, struct date date);
/* "16:00" */
enum { TIME_ROOM = 16 };
const char *explain_clock_text(char out[TIME_ROOM], int minute);
/* Where a value comes from: an object under `key`. */
void explain_json_provenance(struct json *j, const char *key, const struct provenance *from);
void explain_json_source(struct json *j, bool known, const struct provenance *from);
/* What lies and stands in the box, as far as it is written. */
void explain_json_furnishing(struct json *j, const struct care_plan *plan);
/* Who decided, and why; nothing where nobody did. */
void explain_json_decision(struct json *j, const struct care_plan *plan,
                           const struct decision_plan *decision);
void explain_json_feeding(struct json *j, const struct care_plan *plan);
/* What the keeper gives now, inside of it. */
void explain_json_diet(struct json *j, const struct diet_plan *diet);
void explain_json_since(struct json *j, const struct care_plan *plan);
void explain_json_stances(struct json *j, const struct care_plan *plan);
void explain_json_instructions(struct json *j, const struct explain_printed *printed);
/* What a data logger read; nothing where none is named. */
void explain_json_log(struct json *j, const struct care_plan *plan);
/* The medicines with every dose. */
void explain_json_medicines(struct json *j, const struct care_plan *plan);
/* Who confirmed a value: an object or null under "confirmed"; the end of a line. */
void explain_json_confirmed(struct json *j, const struct plan_confirmed *confirmed);
/* How much of the species sheet is published or confirmed, by whom, and each confirmed value. */
void explain_json_reviewed(struct json *j, const struct taxon_plan *s);
/* One number with its inputs, as a list under "how"; and the same as lines. */
void explain_json_how(struct json *j, const struct derivations *how);

#endif
