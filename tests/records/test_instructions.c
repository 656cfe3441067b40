/* A list of instructions as its file says it: what its topics, stances and the list of what forbids
 * may name. Each name that there is not is told at its line, whichever of its list it is. */
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "common/own_folder.h"
#include "common/suite.h"
#include "records/instructions.h"

static const char topics_text[] = "topics:\n"
                                  "  food: {kind: order, stances: [hard, soft], default: soft}\n"
                                  "  water: {kind: order, stances: [deep, flat], default: flat}\n"
                                  "sources: {}\n";

static const struct topic_catalogue *topics(void)
{
    const char *path = file_join(&arena, folder, "topics.yaml");
    ck_assert(file_write_atomic(path, topics_text, strlen(topics_text), 0600, &diag));
    const struct topic_catalogue *read = topic_catalogue_read(path, &arena, &diag);
    ck_assert_msg(read && !diag.first, "%s", diag.first ? diag.first->text : "");
    return read;
}

static const struct instruction_catalogue *read_text(const char *text)
{
    const struct topic_catalogue *known = topics();
    const char *path = file_join(&arena, folder, "instructions.yaml");
    ck_assert(file_write_atomic(path, text, strlen(text), 0600, &diag));
    return instruction_catalogue_read(path, known, &arena, &diag);
}

#define THREE                                                                                      \
    "instructions:\n"                                                                              \
    "  c.last: {section: s, topic: food, stances: [hard], variants: [{key: v.one, stances: "       \
    "[soft]}, {key: v.two}, {key: v.three}]}\n"                                                    \
    "  a.first: {section: s, topics: {water: [deep, flat]}, says: {food: [hard]}, refers: [food, " \
    "water]}\n"                                                                                    \
    "  b.middle: {section: s, variants: [{key: v.four, topics: {food: [soft]}}]}\n"

/* Any instruction and any variant may be named, wherever it stands. */
START_TEST(what_forbids_is_an_instruction_or_a_variant)
{
    static const char *const keys[] = {"c.last", "a.first", "b.middle", "v.one",
                                       "v.two",  "v.three", "v.four"};
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++) {
        const struct instruction_catalogue *read =
            read_text(arena_format(&arena, "not-now: [%s]\n" THREE, keys[i]));
        ck_assert_msg(read && !diag.first, "%s", keys[i]);
        for (size_t k = 0; k < sizeof keys / sizeof *keys; k++)
            ck_assert_int_eq(instruction_is_not_now(read, keys[k]), k == i);
    }
    ck_assert_ptr_nonnull(read_text(THREE));
}
END_TEST

/* Not one that is not there, in any place of the list; each is told. */
START_TEST(what_forbids_and_is_not_there_is_told)
{
    static const struct {
        const char *list;
        size_t told;
    } rows[] = {{"[x, c.last, v.two]", 1}, {"[c.last, x, v.two]", 1},
                {"[c.last, v.two, x]", 1}, {"[v.fou]", 1},
                {"[v.fourth]", 1},         {"[x, v.one, y]", 2}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        ck_assert_ptr_null(read_text(arena_format(&arena, "not-now: %s\n" THREE, rows[i].list)));
        ck_assert_uint_eq(diag.counts[DIAG_ERROR], rows[i].told);
        for (const struct diag_message *m = diag.first; m; m = m->next) {
            ck_assert_str_eq(m->code, "unknown-instruction");
            ck_assert_int_eq(m->at.line, 1);
        }
        diag_finish(&diag);
        diag_init(&diag);
    }
}
END_TEST

/* Each topic and stance of the good text in turn is spelled wrong: told there, and nothing else. */
START_TEST(each_name_is_looked_up)
{
    static const struct {
        const char *name, *wrong, *code;
    } rows[] = {{"food", "fodd", "unknown-topic"},  {"water", "watre", "unknown-topic"},
                {"hard", "hrad", "unknown-stance"}, {"soft", "sfot", "unknown-stance"},
                {"deep", "deap", "unknown-stance"}, {"flat", "falt", "unknown-stance"}};
    size_t tried = 0;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (const char *at = strstr(THREE, rows[i].name); at; at = strstr(at + 1, rows[i].name)) {
            size_t before = strlen(THREE) - strlen(at);
            char *text = (char *)arena_format(&arena, "%s", THREE);
            memcpy(text + before, rows[i].wrong, strlen(rows[i].wrong));
            int line = 1;
            for (size_t k = 0; k < before; k++)
                line += text[k] == '\n';
            ck_assert_ptr_null(read_text(text));
            ck_assert_ptr_nonnull(diag.first);
            for (const struct diag_message *m = diag.first; m; m = m->next) {
                ck_assert_str_eq(m->code, rows[i].code);
                ck_assert_int_eq(m->at.line, line);
            }
            diag_finish(&diag);
            diag_init(&diag);
            tried++;
        }
    ck_assert_uint_eq(tried, 12);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("instructions");
    TCase *tests = tcase_create("instructions");
    tcase_add_checked_fixture(tests, set_up_folder, tear_down_folder);
    tcase_add_test(tests, what_forbids_is_an_instruction_or_a_variant);
    tcase_add_test(tests, what_forbids_and_is_not_there_is_told);
    tcase_add_test(tests, each_name_is_looked_up);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
