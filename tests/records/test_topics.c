/* Topics, bundles, calls and settlements name one another; each name that there is not is told at
 * its place, whichever of its list it is. */
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "common/arena_and_diag.h"
#include "common/suite.h"
#include "records/calls.h"
#include "records/topics.h"

static char path[] = "/tmp/baskleaf-topics-XXXXXX";

static void set_up_file(void)
{
    set_up();
    memcpy(path + strlen(path) - 6, "XXXXXX", 6);
    close(mkstemp(path));
}

static void tear_down_file(void)
{
    unlink(path);
    tear_down();
}

/* Each "soft" and "food" in it but the two that declare them is a name that is looked up. */
static const char topics_text[] =
    "topics:\n"
    "  Food:\n"
    "    kind: order\n"
    "    stances: [hard, Soft, usual]\n"
    "    default: soft\n"
    "    defaults: [{groups: [snake], stance: soft}, {groups: [lizard], stance: soft}, {groups: "
    "[frog], stance: usual}]\n"
    "    needs-end: [soft, hard]\n"
    "    dangerous: [hard, soft]\n"
    "    limits: [soft, hard]\n"
    "    translate:\n"
    "      - {groups: [snake], from: [any], to: drop}\n"
    "      - {groups: [frog], from: [soft, hard], to: usual}\n"
    "      - {groups: [lizard], from: [hard, soft], to: \"water.depth:deep\"}\n"
    "      - {groups: [turtle], from: [hard], to: soft}\n"
    "  water:\n"
    "    kind: parts\n"
    "    parts:\n"
    "      depth: {stances: [deep, usual], default: usual, translate: [{groups: [frog], from: "
    "[deep], to: \"food:soft\"}]}\n"
    "      warmth: {stances: [warm, usual], default: usual}\n"
    "bundles:\n"
    "  rest: [{call: [\"food:soft\", \"water.depth:deep\"]}, {call: [\"water.warmth:warm\", "
    "\"food:soft\"]}]\n"
    "calls:\n"
    "  damp: {when: {stance: [\"food:soft\"]}, call: [\"food:soft\", rest]}\n"
    "  cold: {when: {coming-stance: [\"water.depth:deep\", \"food:soft\"]}, call: [rest, "
    "\"food:soft\"]}\n"
    "  dim: {when: {calls: [\"food:soft\"]}, call: [rest]}\n"
    "  dry: {when: {and-calls: [\"food:soft\"]}, call: [rest]}\n"
    "sources: {}\n";

static const char book_text[] =
    "settlements:\n"
    "  first: {when: {calls: [\"food:soft\"]}, then: [\"food:soft\", \"water.depth:deep\"], "
    "reason: a, source: b, trust: memory}\n"
    "  second: {when: {and-calls: [\"water.warmth:warm\"]}, then: [\"water.warmth:usual\", "
    "\"food:soft\"], reason: a, source: b, trust: memory}\n"
    "sources: {b: {text: c}}\n";

static void put(const char *text)
{
    ck_assert(file_write_atomic(path, text, strlen(text), 0600, &diag));
}

/* As above, with the names that are declared in their usual letters. */
static char *declared(void)
{
    char *text = arena_copy_text(&arena, topics_text);
    *strstr(text, "Food") = 'f';
    *strstr(text, "Soft") = 's';
    return text;
}

static const struct topic_catalogue *read_good(void)
{
    put(declared());
    const struct topic_catalogue *topics = topic_catalogue_read(path, &arena, &diag);
    ck_assert_msg(topics && !diag.first, "%s", diag.first ? diag.first->text : "");
    return topics;
}

static int line_of(const char *text, const char *at)
{
    int line = 1;
    for (; text < at; text++)
        line += *text == '\n';
    return line;
}

/* Puts `to` for each `from` in turn; the two texts are of one length, so that places stay. */
static size_t lookups(const char *original, const char *good, const char *from, const char *to,
                      const struct topic_catalogue *topics)
{
    size_t count = 0;
    for (const char *at = original; (at = strstr(at, from)); at += strlen(from), count++) {
        char *text = arena_copy_text(&arena, good);
        memcpy(text + (at - original), to, strlen(to));
        put(text);
        diag_finish(&diag);
        diag_init(&diag);
        ck_assert_msg(topics ? !settlement_book_read(path, topics, &arena, &diag)
                             : !topic_catalogue_read(path, &arena, &diag),
                      "%s in line %d", to, line_of(original, at));
        ck_assert_uint_eq(diag.counts[DIAG_ERROR], 1);
        ck_assert_int_eq(diag.first->at.line, line_of(original, at));
        ck_assert_str_eq(diag.first->code, "unknown-stance");
        ck_assert_ptr_nonnull(strstr(diag.first->text, "did you mean"));
    }
    return count;
}

START_TEST(a_call_is_of_its_own_topic_alone)
{
    ck_assert_str_eq(call_stance_of("water:none", "water"), "none");
    ck_assert_ptr_null(call_stance_of("water:none", "water-change"));
    ck_assert_ptr_null(call_stance_of("water-change:usual", "water"));
    ck_assert_ptr_null(call_stance_of("water", "water"));
}
END_TEST

START_TEST(each_stance_is_looked_up)
{
    const struct topic_catalogue *topics = read_good();
    ck_assert_uint_eq(lookups(topics_text, declared(), "soft", "sofd", NULL), 18);
    ck_assert_uint_eq(lookups(topics_text, declared(), "food:", "fooz:", NULL), 9);
    ck_assert_uint_eq(lookups(book_text, book_text, "soft", "sofd", topics), 3);
    ck_assert_uint_eq(lookups(book_text, book_text, "food:", "fooz:", topics), 3);
    ck_assert_uint_eq(lookups(book_text, book_text, "warmth:", "warmtz:", topics), 2);
}
END_TEST

START_TEST(each_bundle_is_looked_up)
{
    const char *good = declared();
    read_good();
    size_t count = 0;
    for (const char *at = strstr(good, "rest:") + 5; (at = strstr(at, "rest")); at += 4, count++) {
        char *text = arena_copy_text(&arena, good);
        memcpy(text + (at - good), "resd", 4);
        put(text);
        diag_finish(&diag);
        diag_init(&diag);
        ck_assert(!topic_catalogue_read(path, &arena, &diag));
        ck_assert_uint_eq(diag.counts[DIAG_ERROR], 1);
        ck_assert_str_eq(diag.first->code, "unknown-bundle");
        ck_assert_int_eq(diag.first->at.line, line_of(good, at));
    }
    ck_assert_uint_eq(count, 4);
}
END_TEST

/* Parts stand behind their topic, and one of parts alone is none itself; the strongest stance is
 * the first. */
START_TEST(what_is_found_by_name)
{
    const struct topic_catalogue *topics = read_good();
    ck_assert_uint_eq(topics->topics.count, 3);
    ck_assert_uint_eq(topic_find(topics, "food", 4), 0);
    ck_assert_uint_eq(topic_find(topics, "water.depth", 11), 1);
    ck_assert_uint_eq(topic_find(topics, "water.warmth:warm", 12), 2);
    ck_assert_uint_eq(topic_find(topics, "water", 5), SIZE_MAX);
    ck_assert_uint_eq(topic_find(topics, "foo", 3), SIZE_MAX);
    ck_assert_uint_eq(topic_find(topics, "foods", 5), SIZE_MAX);
    const struct topic *food = LIST_AT(topics->topics, struct topic, 0);
    ck_assert_uint_eq(topic_rank(food, "hard"), 0);
    ck_assert_uint_eq(topic_rank(food, "soft"), 1);
    ck_assert_uint_eq(topic_rank(food, "usual"), 2);
    ck_assert_uint_eq(topic_rank(food, "deep"), SIZE_MAX);
    ck_assert_str_eq(bundle_find(topics, "rest")->name.text, "rest");
    ck_assert_ptr_null(bundle_find(topics, "res"));
}
END_TEST

START_TEST(what_is_written_is_known_by_its_language)
{
    const struct written_words rows[] = {{.of = {.text = "eggs"}, .language = {.text = "en"}},
                                         {.of = {.text = "eggs"}, .language = {.text = "es"}},
                                         {.of = {.text = "heat"}, .language = {.text = "en"}}};
    struct topic_catalogue topics = {0};
    topics.written =
        (struct list){.items = (void *)(uintptr_t)rows, .count = sizeof rows / sizeof *rows};
    ck_assert(topic_knows_written(&topics, "eggs", "es"));
    ck_assert(topic_knows_written(&topics, "heat", "en"));
    ck_assert(topic_knows_written(&topics, "heat", NULL));
    ck_assert(!topic_knows_written(&topics, "heat", "es"));
    ck_assert(!topic_knows_written(&topics, "eggs", "fr"));
    ck_assert(!topic_knows_written(&topics, "egg", NULL));
}
END_TEST

START_TEST(a_topic_has_stances_and_a_default)
{
    static const char *const lacking[][2] = {
        {"stances: [warm, usual], default: usual", "stances: [warm, usual]"},
        {"stances: [warm, usual], default: usual", "default: usual"}};
    for (size_t i = 0; i < 2; i++) {
        const char *good = declared(), *at = strstr(good, lacking[i][0]);
        put(arena_format(&arena, "%.*s%s%s", (int)(at - good), good, lacking[i][1],
                         at + strlen(lacking[i][0])));
        diag_finish(&diag);
        diag_init(&diag);
        ck_assert(!topic_catalogue_read(path, &arena, &diag));
        ck_assert_str_eq(diag.first->code, "topic-without-stances");
    }
}
END_TEST

/* A rule asks for stances that there are, whichever of the rules it is. */
START_TEST(each_rule_asks_for_stances_that_there_are)
{
    const struct topic_catalogue *topics = read_good();
    struct text_value asked = {.text = "food:soft"}, unknown = {.text = "food:sott"};
    struct rule rules[3];
    memset(rules, 0, sizeof rules);
    for (int i = 0; i < 3; i++) {
        rules[i].name.text = "own";
        rules[i].when.stance = (struct list){.items = &asked, .count = 1};
    }
    const struct rule_book book = {.rules = {.items = rules, .count = 3}};
    ck_assert(topic_rules_check(&book, topics, &diag));
    for (int i = 0; i < 3; i++) {
        rules[i].when.stance.items = &unknown;
        ck_assert(!topic_rules_check(&book, topics, &diag));
        rules[i].when.stance.items = &asked;
    }
    ck_assert_uint_eq(diag.counts[DIAG_ERROR], 3);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("topics");
    TCase *own = tcase_create("topics");
    tcase_add_test(own, a_call_is_of_its_own_topic_alone);
    tcase_add_checked_fixture(own, set_up_file, tear_down_file);
    tcase_set_timeout(own, 30);
    tcase_add_test(own, each_stance_is_looked_up);
    tcase_add_test(own, each_bundle_is_looked_up);
    tcase_add_test(own, what_is_found_by_name);
    tcase_add_test(own, what_is_written_is_known_by_its_language);
    tcase_add_test(own, a_topic_has_stances_and_a_default);
    tcase_add_test(own, each_rule_asks_for_stances_that_there_are);
    suite_add_tcase(suite, own);
    return suite_run(suite);
}
