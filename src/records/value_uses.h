/* What each value of a species sheet drives: templates/value-uses.yaml. */
#ifndef BASKLEAF_RECORDS_VALUE_USES_H
#define BASKLEAF_RECORDS_VALUE_USES_H

#include "records/rules.h"

struct value_use {
    struct text_value key;  /* of the value; `*` stands for one part of it */
    struct list conditions; /* of struct text_value: keys of a rule's `when` */
    struct list rules;      /* of struct text_value: names of further rules */
    struct list slots;      /* of struct text_value */
    struct quantity harm;   /* at least */
    struct mark at;
};

struct value_uses {
    struct list uses;
    struct text_value source;
    struct choice_value trust;
    struct list sources;
};

extern const struct schema value_uses_schema;

/* NULL after errors: a condition or rule that there is not, a value of the species sheet's table
 * that no row stands for. */
struct value_uses *value_uses_read(const char *path, const struct rule_book *rules,
                                   struct arena *arena, struct diag *diag);

/* The row of a value's key, or NULL. */
const struct value_use *value_uses_find(const struct value_uses *uses, const char *key);

/* Does the rule follow from the value? */
bool value_use_drives(const struct value_use *use, const struct rule *rule);

#endif
