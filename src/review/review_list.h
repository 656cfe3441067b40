/* What a veterinarian has to confirm of a species sheet.
 *
 * The order, from the data alone:
 *   1. what is left: read from memory and not confirmed, or open again; then what is settled
 *   2. the harm of the gravest rule that follows from the value (value-uses.yaml, rules.yaml)
 *   3. how much it is used: such rules and the sentences that it fills
 *   4. the order of the sheet
 */
#ifndef BASKLEAF_REVIEW_REVIEW_LIST_H
#define BASKLEAF_REVIEW_REVIEW_LIST_H

#include "base/json.h"
#include "context/resources.h"
#include "records/species_values.h"
#include "words/format.h"

struct review_item {
    const struct species_value *value;
    bool is_open;
    double harm;
    const char **rules, **actions, **sentences; /* names, codes, wording keys */
    size_t rule_count, action_count, sentence_count;
    const struct species_value *ours; /* where it is open again: what we ship now, or NULL */
};

struct review_list {
    const struct species *species;
    struct species *ours;      /* what the clinic's own sheet follows, or NULL */
    struct review_item *items; /* in order */
    size_t count;
    const struct wording *words;
    struct arena *arena;
    struct diag *diag;
};

/* False after errors. */
bool review_list_make(const struct resources *resources, struct species *species,
                      struct arena *arena, struct diag *diag, struct review_list *out);

/* "30–32 °C", in metric units or those of the United States. */
const char *review_value_text(const struct review_list *list, const struct species_value *value,
                              enum unit_system units);
/* The same of one that was not chosen. */
const char *review_band_text(const struct review_list *list, const struct field *field,
                             const struct band *band, enum unit_system units);

/* As somebody writes it on a sheet: "30-32 C", "140 x 70 x 70 cm". */
const char *review_written_text(const struct species_value *value, struct arena *arena);

/* The keys of one value, and `trust` of the whole, in an object that is open. */
void review_write_keys(struct json *json, const struct review_list *list,
                       const struct review_item *item);
void review_write_trust(struct json *json, const struct species_review *review);

void review_write_text(const struct review_list *list, struct strbuf *out);
void review_write_json(const struct review_list *list, struct strbuf *out);

#endif
