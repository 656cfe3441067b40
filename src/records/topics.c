/* Reading topics, bundles and settlements, and checking that they name one another. */
#include "records/topics.h"

#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "base/nearest.h"
#include "base/same_text.h"
#include "records/shipped_files.h"
#include "records/table.h"
#include "records/visit.h"

enum { NAME_BYTES = 80 };

static const struct choice topic_kind_choices[] = {
    {"order", TOPIC_ORDER, "the strongest wins"},
    {"choice", TOPIC_CHOICE, "fixed by the animal; others are added to it"},
    {"parts", TOPIC_PARTS, "all hold side by side"},
    {0},
};

static const struct field default_fields[] = {
    WHOM_ROWS(topic_default),
    ROW(FLAG, topic_default, ill, "ill", .help = "yes: only where something was found"),
    ROW(TEXT, topic_default, stance, "stance", .required = true, .help = "the usual stance"),
};
static const struct schema default_schema =
    SCHEMA(topic_default, default_fields, "default", "Where the usual stance differs.",
           MARKED(topic_default, at));

static const struct field translation_fields[] = {
    WHOM_ROWS(topic_translation),
    ROW(TEXTS, topic_translation, from, "from", .required = true, .most = 16,
        .help = "stances that such an animal does not have"),
    ROW(TEXT, topic_translation, to, "to", .required = true,
        .help = "what stands in for it; 'drop' for nothing"),
};
static const struct schema translation_schema =
    SCHEMA(topic_translation, translation_fields, "translation", "A call in other animals' terms.",
           MARKED(topic_translation, at));

#define TOPIC_ROWS                                                                                 \
    ROW(TEXTS, topic, stances, "stances", .most = 24, .help = "its stances, strongest first"),     \
        WHOM_ROWS(topic),                                                                          \
        ROW(TEXT, topic, usual, "default", .help = "the stance of a healthy animal"),              \
        ROW(RECORDS, topic, defaults, "defaults", .schema = &default_schema, .most = 20,           \
            .help = "where it differs; the first that fits"),                                      \
        ROW(RECORDS, topic, translate, "translate", .schema = &translation_schema, .most = 20,     \
            .help = "calls that some animals do not have; the first that fits"),                   \
        ROW(TEXTS, topic, needs_end, "needs-end", .most = 24,                                      \
            .help = "stances that must have an end"),                                              \
        ROW(TEXTS, topic, dangerous, "dangerous", .most = 24,                                      \
            .help = "a veterinarian's decision for one of these asks for a second yes"),           \
        ROW(TEXTS, topic, limits, "limits", .most = 24,                                            \
            .help = "stances whose limits stay when another wins"),                                \
        ROW(FLAG, topic, goes_on, "goes-on",                                                       \
            .help = "yes: cared for always, so that no sentence of it stands under an end"),       \
        ROW(FLAG, topic, usual_unsaid, "usual-unsaid",                                             \
            .help = "yes: what is usual for it needs no sentence, whoever asks for it")

static const struct field part_fields[] = {TOPIC_ROWS};
static const struct schema part_schema =
    SCHEMA(topic, part_fields, "part", "A part of a topic, settled by itself.", MARKED(topic, at));

static const struct field topic_fields[] = {
    ROW(CHOICE, topic, kind, "kind", .choices = topic_kind_choices, .required = true,
        .help = "how several calls go together"),
    TOPIC_ROWS,
    ROW(NAMED, topic, parts, "parts", .schema = &part_schema,
        .help = "parts that are settled by themselves, as TOPIC.PART"),
};
static const struct schema topic_schema =
    SCHEMA(topic, topic_fields, "topic", "Something a keeper does or leaves.", MARKED(topic, at));

static const struct field bundle_fields[] = {
    ROW(RECORDS, bundle, rows, "calls", .schema = &call_row_schema, .required = true, .most = 20,
        .help = "what it calls for, by animal"),
};
static const struct schema bundle_schema =
    SCHEMA(bundle, bundle_fields, "bundle", "Calls that go together.", .short_key = "calls",
           MARKED(bundle, at));

static const struct field state_call_fields[] = {
    ROW(RECORD, state_call, when, "when", .schema = &rule_when_schema, .required = true,
        .help = "the condition"),
    CALL_ROWS(state_call, row),
};
static const struct schema state_call_schema =
    SCHEMA(state_call, state_call_fields, "call by a state",
           "A verdict or a trait that calls for stances.", MARKED(state_call, row.at));

static const struct field written_fields[] = {
    ROW(TEXT, written_words, of, "of", .required = true, .help = "what a text is of",
        .example = "bath"),
    ROW(TEXT, written_words, language, "language", .required = true, .help = "of the parts",
        .example = "en"),
    ROW(TEXTS, written_words, parts, "parts", .required = true, .most = 20,
        .help = "a text that holds one of these parts of words is of it"),
    ROW(TEXTS, written_words, beside, "beside", .most = 20,
        .help = "of a step in their own words: the same sentence holds one of these too"),
    ROW(TEXTS, written_words, never, "never", .most = 20,
        .help = "what holds a part and is of something else, in the name of a medicine"),
    ROW(CHOICES, written_words, routes, "routes", .choices = route_choices,
        .help = "a medicine for home by one of these is of it, whatever its words and language"),
};
static const struct schema written_schema =
    SCHEMA(written_words, written_fields, "written words",
           "By what a text of the veterinarian's own is known to be of something.",
           MARKED(written_words, at));

static const struct field catalogue_fields[] = {
    ROW(NAMED, topic_catalogue, topics, "topics", .schema = &topic_schema, .required = true,
        .help = "by name"),
    ROW(NAMED, topic_catalogue, bundles, "bundles", .schema = &bundle_schema,
        .help = "calls that go together, by name"),
    ROW(NAMED, topic_catalogue, calls, "calls", .schema = &state_call_schema,
        .help = "what verdicts and traits call for, by name"),
    ROW(RECORDS, topic_catalogue, written, "written", .schema = &written_schema, .most = 200,
        .help = "of what a veterinarian writes in words of their own, in each language"),
    ROW(NAMED, topic_catalogue, sources, "sources", .schema = &named_text_schema, .required = true,
        .help = "what the ids stand for"),
};
const struct schema topic_catalogue_schema =
    SCHEMA(topic_catalogue, catalogue_fields, "topics file", "Topics of care and their stances.",
           SHIPPED(shipped_topic_catalogue, topic_catalogue));

static const struct field settlement_fields[] = {
    ROW(RECORD, stance_settlement, when, "when", .schema = &rule_when_schema, .required = true,
        .help = "who calls for what"),
    ROW(TEXTS, stance_settlement, outcome, "then", .required = true, .most = 24,
        .help = "topic:stance, what is done instead"),
    ROW(QUANTITY, stance_settlement, lasting, "lasting-days-least", WHOLE(2, 90),
        .help = "what calls for the named stances lasts so many days or has no date",
        .example = "3"),
    ROW(FLAG, stance_settlement, ask, "ask", .help = "the veterinarian looks at it before signing"),
    ROW(FLAG, stance_settlement, confirm, "confirm",
        .help = "a decision against it needs a second yes"),
    ROW(TEXT, stance_settlement, reason, "reason", .required = true, .help = "why, in English"),
    ROW(TEXT, stance_settlement, source, "source", .required = true,
        .help = "an id of the sources"),
    ROW(CHOICE, stance_settlement, trust, "trust", .choices = trust_choices, .required = true,
        .help = "how it was read"),
};
static const struct schema settlement_schema =
    SCHEMA(stance_settlement, settlement_fields, "settlement",
           "How contradicting calls are settled.", MARKED(stance_settlement, at));

static const struct field book_fields[] = {
    ROW(NAMED, settlement_book, settlements, "settlements", .schema = &settlement_schema,
        .required = true, .help = "by name"),
    ROW(NAMED, settlement_book, sources, "sources", .schema = &named_text_schema, .required = true,
        .help = "what the ids stand for"),
};
const struct schema settlement_book_schema =
    SCHEMA(settlement_book, book_fields, "settlements file", "Settlements of contradicting calls.",
           SHIPPED(shipped_settlement_book, settlement_book));

size_t topic_find(const struct topic_catalogue *catalogue, const char *name, size_t length)
{
    for (size_t i = 0; i < catalogue->topics.count; i++) {
        const char *one = LIST_AT(catalogue->topics, struct topic, i)->name.text;
        if (*one == *name && strncmp(one, name, length) == 0 && !one[length])
            return i;
    }
    return SIZE_MAX;
}

size_t topic_rank(const struct topic *topic, const char *stance)
{
    for (size_t i = 0; i < topic->stances.count; i++)
        if (same_text(LIST_AT(topic->stances, struct text_value, i)->text, stance))
            return i;
    return SIZE_MAX;
}

const struct bundle *bundle_find(const struct topic_catalogue *catalogue, const char *name)
{
    for (size_t i = 0; i < catalogue->bundles.count; i++) {
        const struct bundle *one = LIST_AT(catalogue->bundles, struct bundle, i);
        if (strcmp(one->name.text, name) == 0)
            return one;
    }
    return NULL;
}

/* ---- checks ------------------------------------------------------------------------------- */

/* "'food:smal' names no stance of its topic; did you mean 'food:small'?" */
static bool no_stance(const struct text_value *call, const struct topic *topic, const char *path,
                      struct diag *diag)
{
    struct nearest nearest;
    nearest_init(&nearest, strchr(call->text, ':') + 1);
    for (size_t i = 0; i < topic->stances.count; i++)
        nearest_offer(&nearest, LIST_AT(topic->stances, struct text_value, i)->text);
    diag_report_path(diag, DIAG_ERROR, "unknown-stance", call->at, path,
                     nearest.best ? "'%s' names no stance of its topic; did you mean '%s:%s'?"
                                  : "'%s' names no stance of its topic; topics.yaml lists those of "
                                    "'%s'%s",
                     call->text, topic->name.text, nearest.best ? nearest.best : "");
    return false;
}

static bool no_topic(const struct text_value *call, const struct topic_catalogue *topics,
                     const char *path, struct diag *diag)
{
    struct nearest nearest;
    char name[NAME_BYTES];
    snprintf(name, sizeof name, "%.*s", (int)strcspn(call->text, ":"), call->text);
    nearest_init(&nearest, name);
    for (size_t i = 0; i < topics->topics.count; i++)
        nearest_offer(&nearest, LIST_AT(topics->topics, struct topic, i)->name.text);
    diag_report_path(diag, DIAG_ERROR, "unknown-stance", call->at, path,
                     nearest.best ? "'%s' names no topic of topics.yaml; did you mean '%s'?"
                                  : "'%s' names no topic of topics.yaml%s",
                     call->text, nearest.best ? nearest.best : "");
    return false;
}

static bool check_call(const struct text_value *call, const struct topic_catalogue *topics,
                       const char *path, struct diag *diag)
{
    size_t length;
    const char *stance;
    if (!call_is_stance(call->text, &length, &stance)) {
        if (bundle_find(topics, call->text))
            return true;
        diag_report_path(diag, DIAG_ERROR, "unknown-bundle", call->at, path,
                         "there is no bundle '%s'; write topic:stance or a bundle of topics.yaml",
                         call->text);
        return false;
    }
    size_t i = topic_find(topics, call->text, length);
    if (i == SIZE_MAX)
        return no_topic(call, topics, path, diag);
    const struct topic *topic = LIST_AT(topics->topics, struct topic, i);
    return topic_rank(topic, stance) != SIZE_MAX || no_stance(call, topic, path, diag);
}

bool call_list_check(const struct list *calls, const struct topic_catalogue *topics,
                     const char *path, struct diag *diag)
{
    bool good = true;
    for (size_t i = 0; i < calls->count; i++)
        good = check_call(LIST_AT(*calls, struct text_value, i), topics, path, diag) && good;
    return good;
}

bool topics_proven_with(const struct topic_catalogue *topics, bool is_shipped)
{
    return shipped_files_agree && topics->is_shipped && is_shipped;
}

/* Every stance and bundle that a condition names is there, or an error says which is not. */
bool topic_knows_written(const struct topic_catalogue *catalogue, const char *of,
                         const char *language)
{
    for (size_t i = 0; i < catalogue->written.count; i++) {
        const struct written_words *row = LIST_AT(catalogue->written, struct written_words, i);
        if (strcmp(row->of.text, of) == 0 &&
            (!language || strcmp(row->language.text, language) == 0))
            return true;
    }
    return false;
}

bool topic_written_check(const struct topic_catalogue *topics, const struct list *wanted,
                         const char *path, struct diag *diag)
{
    bool good = true;
    for (size_t i = 0; i < wanted->count; i++) {
        const struct text_value *of = LIST_AT(*wanted, struct text_value, i);
        if (topic_knows_written(topics, of->text, NULL))
            continue;
        diag_report_path(diag, DIAG_ERROR, "unknown-written", of->at, path,
                         "no row of 'written' in topics.yaml is of '%s'", of->text);
        good = false;
    }
    return good;
}

static bool topic_when_check(const struct rule_when *when, const struct topic_catalogue *topics,
                             const char *path, struct diag *diag)
{
    const struct list *const lists[] = {&when->stance, &when->coming_stance, &when->calls,
                                        &when->and_calls, &when->bundle};
    bool good = true;
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++)
        good = call_list_check(lists[i], topics, path, diag) && good;
    return topic_written_check(topics, &when->own_step, path, diag) && good;
}

bool topic_rules_check(const struct rule_book *book, const struct topic_catalogue *topics,
                       struct diag *diag)
{
    bool good = true;
    for (size_t i = 0; i < book->rules.count && !topics_proven_with(topics, book->is_shipped);
         i++) {
        const struct rule *one = LIST_AT(book->rules, struct rule, i);
        good = topic_when_check(&one->when, topics, one->name.text, diag) && good;
    }
    return good;
}

bool calls_check(const struct list *rows, const struct topic_catalogue *topics, const char *path,
                 struct diag *diag)
{
    bool good = true;
    for (size_t i = 0; i < rows->count; i++) {
        const struct call_row *row = LIST_AT(*rows, struct call_row, i);
        good = call_list_check(&row->calls, topics, path, diag) && good;
        good = topic_written_check(topics, &row->where, path, diag) && good;
        good = topic_written_check(topics, &row->never_where, path, diag) && good;
        good = topic_written_check(topics, &row->whom.never_own_step, path, diag) && good;
    }
    return good;
}

static bool check_stance(const struct topic *topic, const struct text_value *stance,
                         struct diag *diag)
{
    if (topic_rank(topic, stance->text) != SIZE_MAX)
        return true;
    struct nearest nearest;
    nearest_init(&nearest, stance->text);
    for (size_t i = 0; i < topic->stances.count; i++)
        nearest_offer(&nearest, LIST_AT(topic->stances, struct text_value, i)->text);
    diag_report_path(diag, DIAG_ERROR, "unknown-stance", stance->at, topic->name.text,
                     nearest.best ? "'%s' is not among the topic's stances; did you mean '%s'?"
                                  : "'%s' is not among the topic's stances%s",
                     stance->text, nearest.best ? nearest.best : "");
    return false;
}

static bool check_stances(const struct topic *topic, const struct list *stances, struct diag *diag)
{
    bool good = true;
    for (size_t i = 0; i < stances->count; i++)
        good = check_stance(topic, LIST_AT(*stances, struct text_value, i), diag) && good;
    return good;
}

/* A stance, another topic's, or nothing at all. */
static bool check_translation(const struct topic_catalogue *topics, const struct topic *topic,
                              const struct topic_translation *one, struct diag *diag)
{
    bool good = list_has_text(&one->from, "any") || check_stances(topic, &one->from, diag);
    if (strcmp(one->to.text, "drop") == 0)
        return good;
    return (strchr(one->to.text, ':') ? check_call(&one->to, topics, topic->name.text, diag)
                                      : check_stance(topic, &one->to, diag)) &&
           good;
}

static bool check_topic(const struct topic_catalogue *topics, const struct topic *topic,
                        struct diag *diag)
{
    if (!topic->stances.count || !topic->usual.text) {
        diag_report_path(diag, DIAG_ERROR, "topic-without-stances", topic->at, topic->name.text,
                         "needs its stances and the default among them");
        return false;
    }
    bool good = check_stance(topic, &topic->usual, diag);
    good = check_stances(topic, &topic->needs_end, diag) && good;
    good = check_stances(topic, &topic->dangerous, diag) && good;
    good = check_stances(topic, &topic->limits, diag) && good;
    for (size_t i = 0; i < topic->defaults.count; i++)
        good =
            check_stance(topic, &LIST_AT(topic->defaults, struct topic_default, i)->stance, diag) &&
            good;
    for (size_t i = 0; i < topic->translate.count; i++) {
        good = check_translation(topics, topic,
                                 LIST_AT(topic->translate, struct topic_translation, i), diag) &&
               good;
    }
    return good;
}

static bool check_catalogue(const struct topic_catalogue *topics, struct diag *diag)
{
    bool good = true;
    for (size_t i = 0; i < topics->topics.count; i++)
        good = check_topic(topics, LIST_AT(topics->topics, struct topic, i), diag) && good;
    for (size_t i = 0; i < topics->bundles.count; i++) {
        const struct bundle *bundle = LIST_AT(topics->bundles, struct bundle, i);
        good = calls_check(&bundle->rows, topics, bundle->name.text, diag) && good;
    }
    for (size_t i = 0; i < topics->calls.count; i++) {
        const struct state_call *one = LIST_AT(topics->calls, struct state_call, i);
        good = call_list_check(&one->row.calls, topics, one->name.text, diag) && good;
        good = topic_when_check(&one->when, topics, one->name.text, diag) && good;
    }
    return good;
}

/* Parts become topics behind their own; a topic of nothing but parts goes. */
static void flatten(struct topic_catalogue *topics, struct arena *arena)
{
    size_t room = 0, count = 0;
    for (size_t i = 0; i < topics->topics.count; i++)
        room += 1 + LIST_AT(topics->topics, struct topic, i)->parts.count;
    struct topic *flat = ARENA_ARRAY(arena, struct topic, room);
    for (size_t i = 0; i < topics->topics.count; i++) {
        const struct topic *whole = LIST_AT(topics->topics, struct topic, i);
        if (whole->stances.count || !whole->parts.count)
            flat[count++] = *whole;
        for (size_t k = 0; k < whole->parts.count; k++) {
            flat[count] = *LIST_AT(whole->parts, struct topic, k);
            flat[count].name.text =
                arena_format(arena, "%s.%s", whole->name.text, flat[count].name.text);
            count++;
        }
    }
    topics->topics.items = flat;
    topics->topics.count = count;
}

struct topic_catalogue *topic_catalogue_read(const char *path, struct arena *arena,
                                             struct diag *diag)
{
    struct topic_catalogue *topics = ARENA_NEW(arena, struct topic_catalogue);
    if (!bind_file(path, &topic_catalogue_schema, arena, diag, topics))
        return NULL;
    flatten(topics, arena);
    return topics_proven_with(topics, topics->is_shipped) || check_catalogue(topics, diag) ? topics
                                                                                           : NULL;
}

struct settlement_book *settlement_book_read(const char *path, const struct topic_catalogue *topics,
                                             struct arena *arena, struct diag *diag)
{
    struct settlement_book *book = ARENA_NEW(arena, struct settlement_book);
    if (!topics || !bind_file(path, &settlement_book_schema, arena, diag, book))
        return NULL;
    bool good = true;
    if (topics_proven_with(topics, book->is_shipped))
        return book;
    for (size_t i = 0; i < book->settlements.count; i++) {
        const struct stance_settlement *one =
            LIST_AT(book->settlements, struct stance_settlement, i);
        good = call_list_check(&one->outcome, topics, one->name.text, diag) && good;
        good = topic_when_check(&one->when, topics, one->name.text, diag) && good;
    }
    return good ? book : NULL;
}
