/* Table and reading of value-uses.yaml. */
#include "records/value_uses.h"

#include <string.h>

#include "records/species_values.h"
#include "records/table.h"

static const struct field use_fields[] = {
    ROW(TEXTS, value_use, conditions, "conditions", .most = 24,
        .help = "keys of a rule's `when` that are judged by it", .example = "[warm-side]"),
    ROW(TEXTS, value_use, rules, "rules", .most = 24, .help = "further rules that follow from it"),
    ROW(TEXTS, value_use, slots, "slots", .most = 24, .help = "slots of sentences that it fills"),
    ROW(QUANTITY, value_use, harm, "harm", IN(COUNT, 0, 100),
        .help = "the least that it weighs, 0 to 100"),
};
static const struct schema use_schema =
    SCHEMA(value_use, use_fields, "use", "What a value drives.", MARKED(value_use, at));

static const struct field uses_fields[] = {
    ROW(NAMED, value_uses, uses, "uses", .schema = &use_schema, .required = true,
        .help = "by the value's key; * stands for one part of it"),
    ROW(TEXT, value_uses, source, "source", .required = true, .help = "of the harms"),
    ROW(CHOICE, value_uses, trust, "trust", .choices = trust_choices, .required = true,
        .help = "how that source was read"),
    ROW(NAMED, value_uses, sources, "sources", .schema = &named_text_schema, .required = true,
        .help = "what the ids of sources stand for"),
};
const struct schema value_uses_schema =
    SCHEMA(value_uses, uses_fields, "uses file", "What the values of a species sheet drive.");

static const struct field *condition_field(const char *key)
{
    for (size_t i = 0; i < rule_when_schema.field_count; i++)
        if (strcmp(rule_when_schema.fields[i].key, key) == 0)
            return &rule_when_schema.fields[i];
    return NULL;
}

static bool names_rule(const struct rule_book *rules, const char *name)
{
    for (size_t i = 0; i < rules->rules.count; i++)
        if (strcmp(LIST_AT(rules->rules, struct rule, i)->name.text, name) == 0)
            return true;
    return false;
}

static bool check_use(const struct value_use *use, const struct rule_book *rules, struct diag *diag)
{
    bool good = true;
    for (size_t i = 0; i < use->conditions.count; i++) {
        const struct text_value *key = LIST_AT(use->conditions, struct text_value, i);
        if (condition_field(key->text))
            continue;
        diag_report_path(diag, DIAG_ERROR, "unknown-condition", key->at, use->key.text,
                         "'%s' is no key of a rule's 'when'", key->text);
        good = false;
    }
    for (size_t i = 0; i < use->rules.count; i++) {
        const struct text_value *name = LIST_AT(use->rules, struct text_value, i);
        if (names_rule(rules, name->text))
            continue;
        diag_report_path(diag, DIAG_ERROR, "unknown-rule", name->at, use->key.text,
                         "there is no rule '%s' in rules.yaml", name->text);
        good = false;
    }
    return good;
}

/* Every value that a species sheet may have stands in a row. */
static bool check_complete(const struct value_uses *uses, struct mark at, struct arena *arena,
                           struct diag *diag)
{
    const char **keys;
    size_t count = species_value_keys(arena, &keys);
    bool good = true;
    for (size_t i = 0; i < count; i++) {
        if (value_uses_find(uses, keys[i]))
            continue;
        diag_report(diag, DIAG_ERROR, "value-without-use", at,
                    "'%s' of the species sheets has no row; say what it drives", keys[i]);
        good = false;
    }
    return good;
}

struct value_uses *value_uses_read(const char *path, const struct rule_book *rules,
                                   struct arena *arena, struct diag *diag)
{
    struct node *tree = tree_read_file(path, arena, diag);
    struct value_uses *uses = ARENA_NEW(arena, struct value_uses);
    if (!tree || !bind_record(tree, &value_uses_schema, "", arena, diag, uses))
        return NULL;
    bool good = check_complete(uses, tree->at, arena, diag);
    for (size_t i = 0; i < uses->uses.count && rules; i++)
        good = check_use(LIST_AT(uses->uses, struct value_use, i), rules, diag) && good;
    return good ? uses : NULL;
}

/* Part by part; `*` is any one part, or some where the key has more. */
static bool matches(const char *pattern, const char *key)
{
    const char *star = strchr(pattern, '*');
    if (!star)
        return strcmp(pattern, key) == 0;
    size_t before = (size_t)(star - pattern), length = strlen(key), after = strlen(star + 1);
    return length > before + after && strncmp(pattern, key, before) == 0 &&
           strcmp(key + length - after, star + 1) == 0;
}

const struct value_use *value_uses_find(const struct value_uses *uses, const char *key)
{
    for (size_t i = 0; i < uses->uses.count; i++) {
        const struct value_use *use = LIST_AT(uses->uses, struct value_use, i);
        if (matches(use->key.text, key))
            return use;
    }
    return NULL;
}

bool value_use_drives(const struct value_use *use, const struct rule *rule)
{
    for (size_t i = 0; i < use->rules.count; i++)
        if (strcmp(LIST_AT(use->rules, struct text_value, i)->text, rule->name.text) == 0)
            return true;
    for (size_t i = 0; i < use->conditions.count; i++) {
        const struct field *field =
            condition_field(LIST_AT(use->conditions, struct text_value, i)->text);
        const void *place = field ? (const char *)&rule->when + field->offset : NULL;
        if (place && ((const struct list *)place)->count > 0)
            return true;
    }
    return false;
}
