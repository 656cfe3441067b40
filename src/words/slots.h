/* Every slot that a sentence may use, as a table of name and getter over the plan. */
#ifndef BASKLEAF_WORDS_SLOTS_H
#define BASKLEAF_WORDS_SLOTS_H

#include "base/nearest.h"
#include "words/phrase.h"

struct slot_row {
    const char *name;
    bool (*get)(const struct phrase_context *ctx, struct slot_value *out);
};

/* One who speaks for a plan, with every slot of the table. */
struct phrase_context slots_context(struct format format, const struct care_plan *plan);

/* The rows, sorted by name. */
const struct slot_row *slots_table(size_t *count);

/* The item's own facts first, then the table, then what the language declares. False when the name
 * is not known or has no value for this plan; *out is then untouched. */
bool slots_find(const struct phrase_context *ctx, const char *name, struct slot_value *out);

/* Is it a name that slots_find may know? For checking wording without a plan. */
bool slots_is_known(const char *name);
/* Offers every such name. */
void slots_offer(struct nearest *nearest, struct arena *arena);

/* One fact as text in the keeper's units. */
const char *slots_fact_text(const struct phrase_context *ctx, const struct plan_fact *fact);

/* What a meal is made of: one phrase over all foods of the plan ("one large mouse (thawed) or 2
 * small rats (thawed)"); NULL when the plan names none. */
const char *slots_foods_text(const struct phrase_context *ctx);
/* The same over the foods of one line. */
const char *slots_line_text(const struct phrase_context *ctx, const struct feeding_line *line);
const char *slots_food_text(const struct phrase_context *ctx, const struct prey_choice *prey);

/* Of what the keeper gives: what must never be given, what is too rich, and plants that are no
 * staple. NULL: none. */
const char *slots_never_text(const struct phrase_context *ctx);
const char *slots_poison_text(const struct phrase_context *ctx);
const char *slots_rich_text(const struct phrase_context *ctx);
/* The day on which another rhythm of weighing begins; NULL for none. */
const char *slots_weighing_until_text(const struct phrase_context *ctx);
const char *slots_weighing_then_text(const struct phrase_context *ctx);
/* The weight at which to call once the eggs or the young are out; NULL where it does not do so. */
/* A weight to call at: of ours a number that is kept in mind, of hers what she wrote. */
const char *slots_call_mass_text(const struct phrase_context *ctx, double mass_g, bool is_written);
const char *slots_laid_text(const struct phrase_context *ctx, enum reproduction kind);
/* The weight at which to call in the winter's rest, or before it; NULL where none is planned. */
const char *slots_depth_own_text(const struct phrase_context *ctx);
/* So much of its tank's water, or so deep a layer of it; NULL where that is not known. */
const char *slots_part_litres(const struct phrase_context *ctx, double low_percent,
                              double high_percent);
const char *slots_part_depth(const struct phrase_context *ctx, double low_percent,
                             double high_percent);
/* How to see a quarter without either; NULL where one of them says it. */
const char *slots_part_mark(const struct phrase_context *ctx, double low_percent,
                            double high_percent);
const char *slots_drink_bath_text(const struct phrase_context *ctx);
const char *slots_wake_steps_text(const struct phrase_context *ctx);
const char *slots_rest_mass_text(const struct phrase_context *ctx, bool in_progress);
/* The places at the edge of their targets that a heater sets; NULL for none. */
const char *slots_heat_at_edge_text(const struct phrase_context *ctx);
const char *slots_others_text(const struct phrase_context *ctx);
const char *slots_food_list_text(const struct phrase_context *ctx, const struct food_list *foods);

#endif
