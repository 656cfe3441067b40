/* Reading the declarations of what a sheet tells a keeper to do. */
#include "records/instructions.h"

#include "records/shipped_files.h"
#include "records/table.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static const struct field topic_fields[] = {
    ROW(TEXTS, instruction_topic, stances, "stances", .required = true, .most = 24,
        .help = "the stances it agrees with"),
};
static const struct schema topic_schema =
    SCHEMA(instruction_topic, topic_fields, "topic", "A further topic of the instruction.",
           .short_key = "stances", MARKED(instruction_topic, at));

static const struct field variant_fields[] = {
    WHOM_ROWS(instruction_variant),
    ROW(TEXTS, instruction_variant, stances, "stances", .most = 24,
        .help = "for these stances of its topic; all when left out"),
    ROW(NAMED, instruction_variant, topics, "topics", .schema = &topic_schema,
        .help = "further topics, by name"),
    ROW(TEXT, instruction_variant, key, "key", .required = true,
        .help = "the wording key that stands instead"),
    ROW(TEXT, instruction_variant, said_by, "said-by",
        .help = "an action that says as much: beside it this is not printed",
        .example = "let-wake"),
};
static const struct schema variant_schema =
    SCHEMA(instruction_variant, variant_fields, "variant", "What is said instead.",
           MARKED(instruction_variant, at));

struct whom_only {
    struct whom whom;
};
static const struct field whom_fields[] = {WHOM_ROWS(whom_only)};
static const struct schema whom_schema =
    SCHEMA(whom_only, whom_fields, "animals", "Whom it is for.");

static const struct field fields[] = {
    ROW(TEXT, instruction, section, "section", .required = true, .help = "where it stands"),
    ROW(TEXT, instruction, topic, "topic", .help = "what it speaks of"),
    ROW(TEXTS, instruction, stances, "stances", .most = 24,
        .help = "the stances it agrees with; all when left out"),
    ROW(NAMED, instruction, topics, "topics", .schema = &topic_schema,
        .help = "further topics, by name"),
    ROW(NAMED, instruction, says, "says", .schema = &topic_schema,
        .help = "stances of other topics that need no sentence of their own beside it"),
    ROW(TEXTS, instruction, refers, "refers", .most = 4,
        .help =
            "topics of which it points to what the sheet says, and which still need a sentence"),
    ROW(TEXTS, instruction, signs, "signs", .most = 8,
        .help = "warning signs it speaks of; {go-now} where one of them is a reason to go at once"),
    ROW(RECORD, instruction, whom, "for", .schema = &whom_schema, .help = "whom it is for"),
    ROW(FLAG, instruction, any_phase, "any-phase",
        .help = "agreeing with one phase of the coming weeks is enough"),
    ROW(FLAG, instruction, at_meals, "at-meals",
        .help = "tells how to feed: while food rests it is told from the day on which it is back"),
    ROW(TEXT, instruction, said_by, "said-by",
        .help = "an action that says as much: beside it this is not printed",
        .example = "let-wake"),
    ROW(RECORDS, instruction, variants, "variants", .schema = &variant_schema, .most = 20,
        .help = "what is said instead; the first that fits"),
};
static const struct schema instruction_schema =
    SCHEMA(instruction, fields, "instruction", "A text that tells a keeper to do something.",
           MARKED(instruction, at));

static const struct field catalogue_fields[] = {
    ROW(NAMED, instruction_catalogue, instructions, "instructions", .most = 1500,
        .schema = &instruction_schema, .required = true, .help = "by wording key"),
    ROW(TEXTS, instruction_catalogue, not_now, "not-now", .most = 100,
        .help = "those, or variants of them, that say what not to do"),
};
const struct schema instruction_catalogue_schema =
    SCHEMA(instruction_catalogue, catalogue_fields, "instructions file",
           "What the sheet tells a keeper to do.",
           SHIPPED(shipped_instruction_catalogue, instruction_catalogue));

static bool check_stances(const struct topic_catalogue *topics, const struct text_value *name,
                          const struct list *stances, struct diag *diag)
{
    size_t place = topic_find(topics, name->text, strlen(name->text));
    if (place == SIZE_MAX) {
        diag_report_path(diag, DIAG_ERROR, "unknown-topic", name->at, "topic",
                         "there is no topic '%s' in topics.yaml", name->text);
        return false;
    }
    bool good = true;
    for (size_t i = 0; i < stances->count; i++) {
        const struct text_value *stance = LIST_AT(*stances, struct text_value, i);
        if (topic_rank(LIST_AT(topics->topics, struct topic, place), stance->text) != SIZE_MAX)
            continue;
        diag_report_path(diag, DIAG_ERROR, "unknown-stance", stance->at, "stances",
                         "'%s' is no stance of '%s'", stance->text, name->text);
        good = false;
    }
    return good;
}

static bool check_topics(const struct topic_catalogue *topics, const struct list *further,
                         struct diag *diag)
{
    bool good = true;
    for (size_t i = 0; i < further->count; i++) {
        const struct instruction_topic *one = LIST_AT(*further, struct instruction_topic, i);
        good = check_stances(topics, &one->name, &one->stances, diag) && good;
    }
    return good;
}

/* What of the record's own words turns a text away. */
static bool check_written(const struct topic_catalogue *topics, const struct whom *whom,
                          struct diag *diag)
{
    bool good = topic_written_check(topics, &whom->never_written, "never-written", diag);
    return topic_written_check(topics, &whom->never_own_step, "never-own-step", diag) && good;
}

static bool check(const struct instruction_catalogue *catalogue,
                  const struct topic_catalogue *topics, struct diag *diag)
{
    bool good = true;
    for (size_t i = 0; i < catalogue->instructions.count; i++) {
        const struct instruction *one = LIST_AT(catalogue->instructions, struct instruction, i);
        if (one->topic.text)
            good = check_stances(topics, &one->topic, &one->stances, diag) && good;
        good = check_topics(topics, &one->topics, diag) && good;
        good = check_topics(topics, &one->says, diag) && good;
        good = check_written(topics, &one->whom, diag) && good;
        for (size_t k = 0; k < one->refers.count; k++)
            good = check_stances(topics, LIST_AT(one->refers, struct text_value, k),
                                 &(struct list){0}, diag) &&
                   good;
        for (size_t k = 0; k < one->variants.count; k++) {
            const struct instruction_variant *variant =
                LIST_AT(one->variants, struct instruction_variant, k);
            if (one->topic.text)
                good = check_stances(topics, &one->topic, &variant->stances, diag) && good;
            good = check_topics(topics, &variant->topics, diag) && good;
            good = check_written(topics, &variant->whom, diag) && good;
        }
    }
    return good;
}

bool instruction_is_not_now(const struct instruction_catalogue *catalogue, const char *key)
{
    return list_has_text(&catalogue->not_now, key);
}

/* Which of the keys were seen among what is printed. */
struct seen_keys {
    struct code_index index;
    bool *seen;
};

static void see(const struct seen_keys *keys, const char *key)
{
    const size_t place = code_index_find(&keys->index, key);
    if (place != SIZE_MAX && strcmp(keys->index.codes[place], key) == 0)
        keys->seen[place] = true;
}

static struct code_index index_texts(const struct list *texts, struct arena *arena)
{
    const char **codes = ARENA_ARRAY(arena, const char *, texts->count);
    for (size_t i = 0; i < texts->count; i++)
        codes[i] = LIST_AT(*texts, struct text_value, i)->text;
    return code_index_make(codes, texts->count, arena);
}

static bool check_not_now(const struct instruction_catalogue *catalogue, struct arena *arena,
                          struct diag *diag)
{
    bool good = true;
    const struct list *not_now = &catalogue->not_now;
    const struct seen_keys keys = {index_texts(not_now, arena),
                                   ARENA_ARRAY(arena, bool, not_now->count)};
    for (size_t i = 0; i < catalogue->instructions.count; i++) {
        const struct instruction *one = LIST_AT(catalogue->instructions, struct instruction, i);
        see(&keys, one->code.text);
        for (size_t k = 0; k < one->variants.count; k++)
            see(&keys, LIST_AT(one->variants, struct instruction_variant, k)->key.text);
    }
    for (size_t i = 0; i < not_now->count; i++) {
        const struct text_value *key = LIST_AT(*not_now, struct text_value, i);
        if (keys.seen[code_index_find(&keys.index, key->text)])
            continue;
        diag_report_path(diag, DIAG_ERROR, "unknown-instruction", key->at, "not-now",
                         "'%s' is no instruction of this file and no variant of one", key->text);
        good = false;
    }
    return good;
}

static int by_code(const void *one, const void *other)
{
    return strcmp(((const struct instruction *)one)->code.text,
                  ((const struct instruction *)other)->code.text);
}

void instruction_catalogue_sort(struct instruction_catalogue *catalogue)
{
    qsort(catalogue->instructions.items, catalogue->instructions.count, sizeof(struct instruction),
          by_code);
}

static void index_codes(struct instruction_catalogue *catalogue, struct arena *arena)
{
    size_t count = catalogue->instructions.count;
    const char **codes = ARENA_ARRAY(arena, const char *, count);
    for (size_t i = 0; i < count; i++)
        codes[i] = LIST_AT(catalogue->instructions, struct instruction, i)->code.text;
    catalogue->index = code_index_make(codes, count, arena);
}

struct instruction_catalogue *instruction_catalogue_read(const char *path,
                                                         const struct topic_catalogue *topics,
                                                         struct arena *arena, struct diag *diag)
{
    struct instruction_catalogue *catalogue = ARENA_NEW(arena, struct instruction_catalogue);
    if (!topics || !bind_file(path, &instruction_catalogue_schema, arena, diag, catalogue))
        return NULL;
    if (!topics_proven_with(topics, catalogue->is_shipped) &&
        (!check(catalogue, topics, diag) || !check_not_now(catalogue, arena, diag)))
        return NULL;
    if (!catalogue->is_shipped)
        instruction_catalogue_sort(catalogue);
    index_codes(catalogue, arena);
    return catalogue;
}
