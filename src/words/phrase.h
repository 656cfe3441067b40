/* A sentence of the catalogue, spoken for one plan: keys in, whole sentences out. */
#ifndef BASKLEAF_WORDS_PHRASE_H
#define BASKLEAF_WORDS_PHRASE_H

#include "care/plan.h"
#include "words/format.h"

struct phrase_context;

/* A declared instruction that was put into words, by its place in the plan's book. */
struct said_text {
    size_t place;
    const char *text;
    const struct said_text *next;
};

/* What was said so far; the last first. */
struct said_log {
    const struct said_text *last;
};

/* What a slot holds. False when the name is not known or has no value; *out is then untouched. */
typedef bool slot_finder(const struct phrase_context *ctx, const char *name,
                         struct slot_value *out);

/* Who is spoken for; slots_context makes one. Copy it to add an item's own facts. */
struct phrase_context {
    slot_finder *find_slot;
    struct format format;
    const struct care_plan *plan;
    const struct plan_fact *facts;  /* an item's own: these names come first; may be NULL */
    const char *where;              /* {finding.where}: the record's words; may be NULL */
    const struct prey_choice *prey; /* {meal.count} and {meal.food} of this one; NULL: the plan's */
    struct said_log *said;          /* where to keep what instructs; NULL: nowhere */
};

/* The sentence under a key, in the arena. A missing key, or one of which no alternative can be
 * said because a slot has no value, is a DIAG_ERROR; the key itself then stands for the
 * sentence. What tells a keeper to do something is said only as far as it agrees with the plan's
 * stances (templates/instructions.yaml): as it stands, as its variant, or "" where it does not. */
const char *phrase(const struct phrase_context *ctx, const char *key);

/* "family.code" and "family.code.part". */
const char *phrase_code(const struct phrase_context *ctx, const char *family, const char *code);
const char *phrase_part(const struct phrase_context *ctx, const char *family, const char *code,
                        const char *part);

/* A stance of a topic as a veterinarian reads it: in the words of the topic's own, of the topic
 * that it is a part of, or of any topic. */
const char *phrase_stance(const struct phrase_context *ctx, const char *topic, const char *stance);

/* As phrase; where nothing of the text agrees with the plan it is named all the same, to who signs.
 */
const char *phrase_named(const struct phrase_context *ctx, const char *key);

/* NULL where the catalogue has no such key; otherwise as phrase. */
const char *phrase_if_worded(const struct phrase_context *ctx, const char *key);

/* NULL where a slot has no value for this plan; a missing key is an error as in phrase. */
const char *phrase_if_known(const struct phrase_context *ctx, const char *key);

/* "a", "a or b", "a, b or c" (or with "and") out of whole phrases. */
const char *phrase_any_of(const struct phrase_context *ctx, const char *const *phrases,
                          size_t count);
const char *phrase_all_of(const struct phrase_context *ctx, const char *const *phrases,
                          size_t count);

#endif
