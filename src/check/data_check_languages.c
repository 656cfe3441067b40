/* Is each language a language of its own: no copy of another, with a name for every species, and
 * with words for every field that the desk asks for? */
#include "check/data_check.h"

#include <string.h>

#include "records/measures.h"
#include "records/visit.h"
#include "render/drawable.h"

/* ---- copies --------------------------------------------------------------------------------- */

static bool same_form(const struct wording_form *one, const struct wording_form *other)
{
    const struct wording_phrase *a = one->forms, *b = other->forms;
    if (one->count_by || other->count_by || a->count != b->count)
        return false;
    for (size_t i = 0; i < a->count; i++)
        if (strcmp(a->pieces[i].text, b->pieces[i].text) != 0)
            return false;
    return true;
}

/* Sentences of more than one piece of text or of several words; a unit may be the same. */
static bool is_sentence(const struct wording_entry *entry)
{
    const struct wording_form *form = &entry->alternatives[0];
    return !form->count_by && form->forms->count > 0 && strchr(form->forms->pieces[0].text, ' ');
}

/* The sentences of one file. */
struct copy_count {
    size_t sentences, same;
    const struct wording_entry *first; /* of those that are the same */
};

/* Half of the sentences alike: nobody has translated this file yet. */
static void judge_copies(const struct data_check *p, const struct copy_count *count,
                         const struct wording *words, const struct wording *other)
{
    if (count->first && count->same * 2 >= count->sentences)
        diag_report(p->diag, DIAG_ERROR, "copied-language", count->first->at,
                    "%zu of %zu sentences of '%s' are those of '%s' in this file, this one first; "
                    "translate them",
                    count->same, count->sentences, words->lang, other->lang);
}

/* Files stand one after the other in the entries. */
static void tell_copied_sentences(const struct data_check *p, const struct wording *words,
                                  const struct wording *other)
{
    struct copy_count count = {0};
    const char *file = NULL;
    for (size_t i = 0; i < words->count; i++) {
        const struct wording_entry *entry = &words->entries[i],
                                   *twin = catalogue_find(other, entry->key);
        if (file && strcmp(file, entry->at.file) != 0) {
            judge_copies(p, &count, words, other);
            count = (struct copy_count){0};
        }
        file = entry->at.file;
        if (!twin || !is_sentence(entry))
            continue;
        bool copied = same_form(&entry->alternatives[0], &twin->alternatives[0]);
        count.sentences++;
        count.same += copied;
        if (copied && !count.first)
            count.first = entry;
    }
    judge_copies(p, &count, words, other);
}

static const char *file_of(const struct data_check *p, const struct wording *words,
                           const char *name)
{
    return wording_file_path(p->context->stand_in, words->lang, words->folder, name, p->arena);
}

static void tell_copied_files(const struct data_check *p, const struct wording *words,
                              const struct wording *other)
{
    const char **names = NULL;
    size_t count = file_list(words->folder, ".yaml", p->arena, p->diag, &names);
    for (size_t i = 0; i < count; i++) {
        const char *path = file_of(p, words, names[i]), *twin = file_of(p, other, names[i]);
        struct bytes one, two;
        if (!file_exists(twin) || !file_read(path, FILE_LIMIT_BYTES, p->arena, p->diag, &one) ||
            !file_read(twin, FILE_LIMIT_BYTES, p->arena, p->diag, &two))
            continue;
        if (one.length == two.length && memcmp(one.data, two.data, one.length) == 0)
            diag_report(p->diag, DIAG_ERROR, "copied-language", (struct mark){path, 1, 1},
                        "is byte for byte %s; translate it", twin);
    }
}

/* ---- letters -------------------------------------------------------------------------------- */

/* The page of the desk is drawn by a browser, which has more of them. */
static void need_letters(const struct data_check *p, const struct wording *words)
{
    const char **names = NULL;
    size_t count = file_list(words->folder, ".yaml", p->arena, p->diag, &names);
    for (size_t i = 0; i < count; i++) {
        const struct node *tree = tree_read_file(file_of(p, words, names[i]), p->arena, p->diag);
        if (tree)
            drawable_check(tree, fonts_measure(p->context->fonts), "desk.", p->diag);
    }
}

/* ---- names of species --------------------------------------------------------------------- */

static void need_names(const struct data_check *p, const struct species *species)
{
    for (size_t i = 0; i < p->language_count; i++)
        if (!named_text_find(&species->names, p->words[i]->lang))
            diag_report(p->diag, DIAG_ERROR, "no-name", species->code.at,
                        "'%s' has no name in '%s'; write it under names", species->code.text,
                        p->words[i]->lang);
}

/* ---- what a veterinarian writes ----------------------------------------------------------------
 */

/* Names of rows that the program itself asks for. */
static void need_asked_written(const struct data_check *p)
{
    static const char *const names[] = {WRITTEN_WAY,         WRITTEN_UNDER_SHELL, WRITTEN_FOOD,
                                        WRITTEN_BATH_WARMTH, WRITTEN_BATH_DEPTH,  WRITTEN_BATH,
                                        WRITTEN_EYE,         WRITTEN_LABEL,       WRITTEN_CHECK,
                                        WRITTEN_LENGTH,      WRITTEN_POWDER};
    const struct topic_catalogue *topics = p->resources->topics;
    const struct mark in_file = {.file = LIST_AT(topics->topics, struct topic, 0)->at.file};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        for (size_t k = 0; k < p->language_count; k++)
            if (!topic_knows_written(topics, names[i], p->words[k]->lang))
                diag_report(p->diag, DIAG_ERROR, "not-worded", in_file,
                            "'written' has no row of '%s' in '%s'", names[i], p->words[k]->lang);
}

static void need_written(const struct data_check *p)
{
    const struct topic_catalogue *topics = p->resources->topics;
    for (size_t i = 0; i < topics->written.count; i++) {
        const struct written_words *row = LIST_AT(topics->written, struct written_words, i);
        for (size_t k = 0; k < p->language_count; k++)
            if (!topic_knows_written(topics, row->of.text, p->words[k]->lang))
                diag_report(p->diag, DIAG_ERROR, "not-worded", row->at,
                            "'written' has no row of '%s' in '%s'", row->of.text,
                            p->words[k]->lang);
        bool is_use = strncmp(row->of.text, WRITTEN_USE, strlen(WRITTEN_USE)) == 0;
        for (size_t k = 0; is_use && k < p->language_count; k++)
            if (!catalogue_find(p->words[k], row->of.text))
                diag_report(p->diag, DIAG_ERROR, "not-worded", row->at,
                            "no words in '%s'; write %s", p->words[k]->lang, row->of.text);
    }
    need_asked_written(p);
}

/* ---- what the program's own tables name ------------------------------------------------------ */

/* In no file of the data: the place is the file in which the words are to be written. */
static void need_word_in(const struct data_check *p, const char *name, const char *key,
                         const char *what)
{
    for (size_t i = 0; i < p->language_count; i++) {
        const char *file = file_join(p->arena, p->words[i]->folder, name);
        if (!catalogue_find(p->words[i], key))
            diag_report(p->diag, DIAG_ERROR, "not-worded", (struct mark){file, 1, 1},
                        "%s has no words in '%s'; write %s here", what, p->words[i]->lang, key);
    }
}

static void check_measures(const struct data_check *p)
{
    for (int m = 0; m < MEASURE_COUNT; m++) {
        const char *id = measures[m].id;
        const char *what = arena_format(p->arena, "the measured quantity '%s'", id);
        need_word_in(p, "sheet.yaml", arena_format(p->arena, "measure.%s.name", id), what);
        need_word_in(p, "sheet.yaml", arena_format(p->arena, "measure.%s.plain", id), what);
    }
}

/* ---- the desk ------------------------------------------------------------------------------ */

static void need_word(const struct data_check *p, const char *key, const char *what)
{
    need_word_in(p, "desk.yaml", key, arena_format(p->arena, "%s, on the desk's page,", what));
}

static void need_field_words(const struct data_check *p, const struct schema *schema,
                             const char *path)
{
    for (size_t i = 0; i < schema->field_count; i++) {
        const struct field *field = &schema->fields[i];
        const char *own = *path ? arena_format(p->arena, "%s.%s", path, field->key) : field->key;
        need_word(p, arena_format(p->arena, "desk.field.%s", own),
                  arena_format(p->arena, "the field '%s' of a visit", own));
        for (const struct choice *c = field->choices; c && c->word; c++)
            need_word(p, arena_format(p->arena, "desk.choice.%s", c->word),
                      arena_format(p->arena, "the choice '%s' of '%s'", c->word, own));
        if (field->schema)
            need_field_words(p, field->schema, own);
    }
}

static const struct field *find_field(const struct schema *schema, const char *path)
{
    size_t length = strcspn(path, ".");
    for (size_t i = 0; i < schema->field_count; i++) {
        const struct field *field = &schema->fields[i];
        if (strlen(field->key) != length || strncmp(field->key, path, length) != 0)
            continue;
        if (!path[length])
            return field;
        return field->schema ? find_field(field->schema, path + length + 1) : NULL;
    }
    return NULL;
}

static void tell_dead_fields(const struct data_check *p, const struct wording *words)
{
    static const char family[] = "desk.field.";
    for (size_t i = 0; i < words->count; i++) {
        const char *key = words->entries[i].key;
        if (strncmp(key, family, strlen(family)) == 0 &&
            !find_field(&visit_schema, key + strlen(family)))
            diag_report(p->diag, DIAG_ERROR, "dead-words", words->entries[i].at,
                        "a visit has no field for '%s'", key);
    }
}

#define TOPICS_FILE "desk-topics"
#define SETTLEMENTS_FILE "desk-settlements"

/* Words of the desk for a row of the data; the most special key comes first. */
static void need_one_of(const struct data_check *p, const char *file, const char *const *keys,
                        size_t count, struct mark at)
{
    for (size_t i = 0; i < p->language_count; i++) {
        bool found = false;
        for (size_t k = 0; k < count && !found; k++)
            found = keys[k] && catalogue_find(p->words[i], keys[k]);
        if (!found)
            diag_report(p->diag, DIAG_ERROR, "not-worded", at,
                        "the desk has no words for this in '%s'; write %s in "
                        "wording/%s/%s.yaml",
                        p->words[i]->lang, keys[0], p->words[i]->lang, file);
    }
}

static void need_stances(const struct data_check *p, const struct topic *topic)
{
    const char *part = strchr(topic->name.text, '.');
    for (size_t i = 0; i < topic->stances.count; i++) {
        const struct text_value *stance = LIST_AT(topic->stances, struct text_value, i);
        const char *const keys[] = {
            arena_format(p->arena, "desk.stance.%s.%s", topic->name.text, stance->text),
            part ? arena_format(p->arena, "desk.stance.%.*s.%s", (int)(part - topic->name.text),
                                topic->name.text, stance->text)
                 : NULL,
            arena_format(p->arena, "desk.stance.%s", stance->text)};
        need_one_of(p, TOPICS_FILE, keys, sizeof keys / sizeof *keys, stance->at);
    }
}

/* What a veterinarian reads of each topic in the live plan. */
static void check_desk_topics(const struct data_check *p)
{
    const struct topic_catalogue *catalogue = p->resources->topics;
    for (size_t i = 0; i < catalogue->topics.count; i++) {
        const struct topic *topic = LIST_AT(catalogue->topics, struct topic, i);
        const char *name = arena_format(p->arena, "desk.topic.%s", topic->name.text);
        if (topic->stances.count)
            need_one_of(p, TOPICS_FILE, &name, 1, topic->at);
        need_stances(p, topic);
    }
    for (size_t i = 0; i < catalogue->calls.count; i++) {
        const struct state_call *call = LIST_AT(catalogue->calls, struct state_call, i);
        const char *name = arena_format(p->arena, "desk.because.%s", call->name.text);
        need_one_of(p, TOPICS_FILE, &name, 1, call->name.at);
    }
    for (const struct choice *c = phase_end_choices; c->word; c++) {
        const char *end = arena_format(p->arena, "desk.end.%s", c->word);
        if (c->value != PHASE_END_NONE)
            need_one_of(p, TOPICS_FILE, &end, 1, (struct mark){0});
    }
}

static bool is_settlement(const struct data_check *p, const char *name)
{
    const struct list *all = &p->resources->settlements->settlements;
    for (size_t i = 0; i < all->count; i++)
        if (strcmp(LIST_AT(*all, struct stance_settlement, i)->name.text, name) == 0)
            return true;
    return false;
}

/* Why each of them holds; and no words for one that is gone. */
static void check_desk_settlements(const struct data_check *p)
{
    static const char family[] = "desk.settlement.";
    const struct list *all = &p->resources->settlements->settlements;
    for (size_t i = 0; i < all->count; i++) {
        const struct stance_settlement *one = LIST_AT(*all, struct stance_settlement, i);
        const char *name = arena_format(p->arena, "%s%s", family, one->name.text);
        need_one_of(p, SETTLEMENTS_FILE, &name, 1, one->name.at);
    }
    for (size_t i = 0; i < p->language_count; i++)
        for (size_t k = 0; k < p->words[i]->count; k++) {
            const struct wording_entry *entry = &p->words[i]->entries[k];
            if (strncmp(entry->key, family, strlen(family)) == 0 &&
                !is_settlement(p, entry->key + strlen(family)))
                diag_report(p->diag, DIAG_ERROR, "dead-words", entry->at,
                            "there is no settlement for '%s'", entry->key);
        }
}

static void check_desk(const struct data_check *p)
{
    check_desk_topics(p);
    check_desk_settlements(p);
    need_field_words(p, &visit_schema, "");
    for (size_t i = 0; i < p->resources->kinds.count; i++) {
        const char *kind = p->resources->kinds.items[i]->kind.text;
        need_word(p, arena_format(p->arena, "desk.choice.%s", kind),
                  arena_format(p->arena, "the kind of sheet '%s'", kind));
    }
    for (const struct choice *c = body_system_choices; c->word; c++)
        need_word(p, arena_format(p->arena, "desk.system.%s", c->word),
                  arena_format(p->arena, "the body system '%s'", c->word));
    for (size_t i = 0; i < p->language_count; i++) {
        need_word(p, arena_format(p->arena, "desk.lang.%s", p->words[i]->lang),
                  arena_format(p->arena, "the language '%s'", p->words[i]->lang));
        tell_dead_fields(p, p->words[i]);
    }
}

void data_check_languages(const struct data_check *check)
{
    for (size_t i = 1; i < check->language_count; i++)
        for (size_t k = 0; k < i; k++) {
            tell_copied_files(check, check->words[i], check->words[k]);
            tell_copied_sentences(check, check->words[i], check->words[k]);
        }
    for (size_t i = 0; i < check->language_count; i++)
        need_letters(check, check->words[i]);
    for (size_t i = 0; i < check->library.count; i++)
        need_names(check, check->library.items[i]);
    need_written(check);
    check_measures(check);
    check_desk(check);
}
