/* The words for warning signs, for what is normal, for foods, laws and supplements: complete in
 * every language, with the same slots, and none that nothing asks for. What is asked for comes from
 * the data files and from the tables of words; the wording files are read as plain YAML. */
#include <ctype.h>
#include <string.h>

#include "common/suite.h"
#include "records/reference_values.h"
#include "records/findings.h"
#include "records/instructions.h"
#include "records/species.h"
#include "base/file.h"
#include "base/strbuf.h"
#include "yaml/tree.h"

enum { LANGUAGES_MOST = 8, KEYS_MOST = 1000 };

static const char **languages;
static size_t language_count;

struct keys {
    const char *names[KEYS_MOST];
    size_t count;
};

static struct arena arena;
static struct diag diag;
static struct node *words[LANGUAGES_MOST];
static struct keys asked;
static struct strbuf faults;

static bool keys_have(const struct keys *keys, const char *name)
{
    for (size_t i = 0; i < keys->count; i++)
        if (strcmp(keys->names[i], name) == 0)
            return true;
    return false;
}

static void ask_for(const char *family, const char *code)
{
    const char *name = arena_format(&arena, "%s.%s", family, code);
    if (keys_have(&asked, name))
        return;
    ck_assert_uint_lt(asked.count, KEYS_MOST);
    asked.names[asked.count++] = name;
}

static void ask_for_choices(const char *family, const struct choice *choices)
{
    for (; choices->word; choices++)
        ask_for(family, choices->word);
}

static void ask_for_foods(void)
{
    const struct reference_values *reference =
        reference_values_read(PROJECT_FOLDER "/templates/reference-values.yaml", &arena, &diag);
    ck_assert_ptr_nonnull(reference);
    for (size_t i = 0; i < reference->foods.count; i++) {
        const struct food *food = LIST_AT(reference->foods, struct food, i);
        ask_for("food", food->name.text);
        const char *sizes = arena_format(&arena, "food.%s", food->name.text);
        for (size_t j = 0; j < food->sizes.count; j++)
            ask_for(sizes, LIST_AT(food->sizes, struct food_size, j)->name.text);
    }
    for (size_t i = 0; i < reference->never_foods.count; i++)
        ask_for("never-food", LIST_AT(reference->never_foods, struct food_rule, i)->name.text);
}

/* A sign that a finding, the weight or the record's days show to be there already has words for
 * what would be news. */
static void ask_for_worse(void)
{
    static const char *const by_days[] = {"refuses-food-past-limit", "no-stool-past-limit"};
    for (size_t i = 0; i < sizeof by_days / sizeof *by_days; i++)
        ask_for("sign", arena_format(&arena, "%s.worse", by_days[i]));
    const struct finding_catalogue *catalogue =
        finding_catalogue_read(PROJECT_FOLDER "/templates/findings.yaml", &arena, &diag);
    ck_assert_ptr_nonnull(catalogue);
    for (size_t i = 0; i < catalogue->findings.count; i++) {
        const struct finding *finding = LIST_AT(catalogue->findings, struct finding, i);
        for (size_t j = 0; j < finding->already.count; j++)
            ask_for("sign", arena_format(&arena, "%s.worse",
                                         LIST_AT(finding->already, struct text_value, j)->text));
    }
}

/* What a wallet has room for: a sign that may mean go now has words of its own there. */
static void ask_for_cards(void)
{
    static const char *const shorter[] = {"open-mouth-breathing",
                                          "open-mouth-breathing-cool",
                                          "tremor",
                                          "laboured-breathing",
                                          "limp",
                                          "no-tongue-flick",
                                          "fits",
                                          "stargazing",
                                          "head-tilt",
                                          "rolling",
                                          "prolapse",
                                          "straining-and-weak",
                                          "carrying-and-dull",
                                          "dull-after-operation",
                                          "bleeding",
                                          "burn",
                                          "bite",
                                          "crushed-shell",
                                          "broken-bone",
                                          "dragging-legs",
                                          "drowned",
                                          "poisoned",
                                          "gasps-at-surface",
                                          "overheated",
                                          "bloat",
                                          "red-legs",
                                          "floating",
                                          "skin-sloughing",
                                          "dark-part-spreads",
                                          "swollen-dark-toes"};
    for (size_t i = 0; i < sizeof shorter / sizeof *shorter; i++)
        ask_for("sign", arena_format(&arena, "%s.card", shorter[i]));
}

/* What stands in for a sign or a powder under another stance or for another animal. */
static void ask_for_variants(void)
{
    const struct topic_catalogue *topics =
        topic_catalogue_read(PROJECT_FOLDER "/templates/topics.yaml", &arena, &diag);
    const struct instruction_catalogue *book = instruction_catalogue_read(
        PROJECT_FOLDER "/templates/instructions.yaml", topics, &arena, &diag);
    ck_assert_ptr_nonnull(book);
    for (size_t i = 0; i < book->instructions.count; i++) {
        const struct instruction *one = LIST_AT(book->instructions, struct instruction, i);
        for (size_t j = 0; j < one->variants.count; j++) {
            const struct instruction_variant *variant =
                LIST_AT(one->variants, struct instruction_variant, j);
            const char *key = variant->key.text;
            if (strncmp(key, "sign.", 5) == 0)
                ask_for("sign", key + 5);
            if (!variant->stances.count &&
                keys_have(&asked, arena_format(&arena, "%s.worse", one->code.text)))
                ask_for("sign", arena_format(&arena, "%s.worse", key + 5));
            if (strncmp(key, "supplement.", 11) == 0)
                ask_for("supplement", key + 11);
            if (strncmp(key, "normal.", 7) == 0)
                ask_for("normal", key + 7);
        }
    }
}

static void ask_for_normals(void)
{
    struct library library;
    ck_assert(library_read(PROJECT_FOLDER "/species-sheets", NULL, &arena, &diag, &library));
    ck_assert_uint_gt(library.count, 0);
    ask_for("normal", "now");
    for (size_t i = 0; i < library.count; i++)
        for (size_t j = 0; j < library.items[i]->normal.count; j++)
            ask_for("normal", LIST_AT(library.items[i]->normal, struct text_value, j)->text);
}

static void set_up(void)
{
    arena_init(&arena);
    diag_init(&diag);
    strbuf_init(&faults, &arena);
    asked.count = 0;
    const struct sign_catalogue *signs =
        sign_catalogue_read(PROJECT_FOLDER "/templates/warning-signs.yaml", &arena, &diag);
    ck_assert_ptr_nonnull(signs);
    for (size_t i = 0; i < signs->signs.count; i++)
        ask_for("sign", LIST_AT(signs->signs, struct warning_sign, i)->name.text);
    ask_for_worse();
    ask_for_cards();
    ask_for_variants();
    ask_for_normals();
    ask_for_foods();
    ask_for_choices("law", law_choices);
    ask_for_choices("supplement", supplement_choices);
    language_count = file_list(PROJECT_FOLDER "/templates/wording", "", &arena, &diag, &languages);
    ck_assert(language_count > 1 && language_count <= LANGUAGES_MOST);
    for (size_t i = 0; i < language_count; i++) {
        words[i] = tree_read_file(
            arena_format(&arena, PROJECT_FOLDER "/templates/wording/%s/signs.yaml", languages[i]),
            &arena, &diag);
        ck_assert_ptr_nonnull(words[i]);
        ck_assert_int_eq(words[i]->kind, NODE_MAP);
    }
}

static void tear_down(void)
{
    diag_finish(&diag);
    arena_finish(&arena);
}

static void say_faults(void)
{
    ck_assert_msg(faults.length == 0, "%s", faults.text);
}

static bool is_of(const char *key, const char *family)
{
    size_t length = strlen(family);
    return strncmp(key, family, length) == 0 && key[length] == '.';
}

/* A value's texts: itself, its alternatives, or its plural forms without `count-by`. */
static size_t texts_of(const struct node *value, const char **texts, size_t most)
{
    size_t count = 0;
    if (value->kind == NODE_SCALAR) {
        texts[count++] = value->text;
        return count;
    }
    for (size_t i = 0; i < value->count; i++) {
        ck_assert_int_eq(value->items[i]->kind, NODE_SCALAR);
        if (value->kind == NODE_MAP && strcmp(value->keys[i]->text, "count-by") == 0)
            continue;
        ck_assert_uint_lt(count, most);
        texts[count++] = value->items[i]->text;
    }
    return count;
}

/* The slots of a text, each once, in alphabetical order, as one text. */
static const char *slots_of(const char *text)
{
    struct keys slots = {.count = 0};
    for (const char *open = strchr(text, '{'); open; open = strchr(open, '{')) {
        if (open[1] == '{') {
            open += 2;
            continue;
        }
        const char *close = strchr(open, '}');
        ck_assert_msg(close, "a slot is not closed in: %s", text);
        const char *name = arena_copy_bytes(&arena, open + 1, (size_t)(close - open - 1));
        size_t at = 0;
        while (at < slots.count && strcmp(slots.names[at], name) < 0)
            at++;
        if (at == slots.count || strcmp(slots.names[at], name) != 0) {
            memmove(slots.names + at + 1, slots.names + at,
                    (slots.count - at) * sizeof *slots.names);
            slots.names[at] = name;
            slots.count++;
        }
        open = close;
    }
    struct strbuf all;
    strbuf_init(&all, &arena);
    for (size_t i = 0; i < slots.count; i++)
        strbuf_addf(&all, "{%s}", slots.names[i]);
    return all.text;
}

START_TEST(every_code_has_words_and_every_word_a_code)
{
    for (size_t i = 0; i < language_count; i++) {
        for (size_t j = 0; j < asked.count; j++)
            if (!tree_find(words[i], asked.names[j]))
                strbuf_addf(&faults, "%s: no words for %s\n", languages[i], asked.names[j]);
        for (size_t j = 0; j < words[i]->count; j++)
            if (!keys_have(&asked, words[i]->keys[j]->text))
                strbuf_addf(&faults, "%s: nothing uses %s\n", languages[i],
                            words[i]->keys[j]->text);
    }
    say_faults();
}
END_TEST

static void check_slots(const char *lang, const char *key, const struct node *one,
                        const struct node *other)
{
    const char *these[8], *those[8];
    size_t count = texts_of(one, these, 8);
    if (one->kind != other->kind || count != texts_of(other, those, 8)) {
        strbuf_addf(&faults, "%s: another shape in '%s'\n", key, lang);
        return;
    }
    for (size_t j = 0; j < count; j++)
        if (strcmp(slots_of(these[j]), slots_of(those[j])) != 0)
            strbuf_addf(&faults, "%s: %s here, %s in '%s'\n", key, slots_of(these[j]),
                        slots_of(those[j]), lang);
}

START_TEST(all_languages_have_the_same_slots)
{
    for (size_t k = 1; k < language_count; k++)
        for (size_t i = 0; i < words[0]->count; i++) {
            const char *key = words[0]->keys[i]->text;
            const struct node *other = tree_find(words[k], key);
            if (other) /* else said by the test above */
                check_slots(languages[k], key, words[0]->items[i], other);
        }
    say_faults();
}
END_TEST

/* A sign completes a list and a supplement or food stands in a cell: no full stop. What is normal
 * and what the law may ask are sentences. */
static void check_ends(const char *lang, const char *key, const char *text)
{
    size_t length = strlen(text);
    if (length == 0 || strstr(text, "  ") || isspace((unsigned char)text[length - 1])) {
        strbuf_addf(&faults, "%s: %s: empty or loose space\n", lang, key);
        return;
    }
    bool is_sentence = is_of(key, "normal") || is_of(key, "law");
    bool starts_small = is_of(key, "food") || is_of(key, "never-food") || is_of(key, "supplement");
    if (is_sentence != (text[length - 1] == '.'))
        strbuf_addf(&faults, "%s: %s: %s\n", lang, key,
                    is_sentence ? "a sentence without a full stop" : "a phrase with a full stop");
    bool is_proper = strncmp(text, "Belgian ", 8) == 0; /* named after a country */
    if (isupper((unsigned char)text[0]) && starts_small && !is_proper)
        strbuf_addf(&faults, "%s: %s: starts with a capital\n", lang, key);
    if (islower((unsigned char)text[0]) && !starts_small)
        strbuf_addf(&faults, "%s: %s: starts with a small letter\n", lang, key);
}

START_TEST(phrases_and_sentences_end_as_they_should)
{
    for (size_t i = 0; i < language_count; i++)
        for (size_t j = 0; j < words[i]->count; j++) {
            const char *texts[8];
            size_t count = texts_of(words[i]->items[j], texts, 8);
            for (size_t k = 0; k < count; k++)
                check_ends(languages[i], words[i]->keys[j]->text, texts[k]);
        }
    say_faults();
}
END_TEST

/* A misspelt slot would be unknown for every animal, and its words never seen. */
START_TEST(only_slots_that_these_words_may_use)
{
    static const struct keys known = {
        {"{weight.at-rest}", "{weight.before-rest}", "{weight.alarm-low}{weight.laid-low}",
         "{weight.alarm-low}{weight.born-low}", "{fast.limit}", "{meal.count}", "{patient.name}",
         "{stool.limit}", "{weight.alarm-high}", "{weight.alarm-days}{weight.alarm-low}",
         "{food.call-by}", "{sign.days}", "{thirst.call-by}", "{aftercare.awake}", "{go-now}",
         "{go-now}{patient.name}", "{steps.way-out}", "{urine.by}", "{eggs.by}"},
        19};
    for (size_t i = 0; i < language_count; i++)
        for (size_t j = 0; j < words[i]->count; j++) {
            const char *texts[8];
            size_t count = texts_of(words[i]->items[j], texts, 8);
            for (size_t k = 0; k < count; k++) {
                const char *slots = slots_of(texts[k]);
                if (*slots && !keys_have(&known, slots))
                    strbuf_addf(&faults, "%s: %s: %s\n", languages[i], words[i]->keys[j]->text,
                                slots);
            }
        }
    say_faults();
}
END_TEST

/* The last alternative stands when nothing is known of the animal. The days of a sign are a limit
 * of the reference values, known always. */
START_TEST(the_last_alternative_needs_no_slot)
{
    for (size_t i = 0; i < language_count; i++)
        for (size_t j = 0; j < words[i]->count; j++) {
            const struct node *value = words[i]->items[j];
            if (value->kind == NODE_MAP)
                continue;
            const char *texts[8];
            size_t count = texts_of(value, texts, 8);
            ck_assert_uint_gt(count, 0);
            const char *slots = slots_of(texts[count - 1]);
            if (*slots && strcmp(slots, "{patient.name}") != 0 && strcmp(slots, "{sign.days}") != 0)
                strbuf_addf(&faults, "%s: %s: %s may be unknown\n", languages[i],
                            words[i]->keys[j]->text, slots);
        }
    say_faults();
}
END_TEST

/* What comes in pieces of a size is counted: forms of CLDR's plural categories for English and
 * Spanish (one and other; Spanish `many` only for millions). */
START_TEST(foods_of_a_size_are_counted)
{
    for (size_t i = 0; i < language_count; i++)
        for (size_t j = 0; j < words[i]->count; j++) {
            const char *key = words[i]->keys[j]->text;
            const struct node *value = words[i]->items[j];
            bool has_size = is_of(key, "food") && strchr(key + strlen("food."), '.') != NULL;
            if (!has_size) {
                if (value->kind == NODE_MAP)
                    strbuf_addf(&faults, "%s: %s: forms where nothing is counted\n", languages[i],
                                key);
                continue;
            }
            const struct node *by = tree_find(value, "count-by"),
                              *other = tree_find(value, "other");
            if (value->count != 3 || !by || strcmp(by->text, "meal.count") != 0 ||
                !tree_find(value, "one") || !other || !strstr(other->text, "{meal.count}"))
                strbuf_addf(&faults, "%s: %s: needs count-by: meal.count, one and other\n",
                            languages[i], key);
        }
    say_faults();
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("signs_words");
    TCase *tcase = tcase_create("signs_words");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, every_code_has_words_and_every_word_a_code);
    tcase_add_test(tcase, all_languages_have_the_same_slots);
    tcase_add_test(tcase, phrases_and_sentences_end_as_they_should);
    tcase_add_test(tcase, only_slots_that_these_words_may_use);
    tcase_add_test(tcase, the_last_alternative_needs_no_slot);
    tcase_add_test(tcase, foods_of_a_size_are_counted);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
