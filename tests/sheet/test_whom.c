/* Whom a declared text speaks to: each clause that says so has its animal that must not hear it,
 * and with the clause taken away that animal does. */
#include <stdlib.h>
#include <string.h>

#include "common/suite.h"
#include "records/instructions.h"
#include "sheet/sweeping.h"
#include "sheet/whom_rows.h"
#include "sheet/written.h"

static bool is_clause(const struct whom *whom)
{
    return whom->groups.count || whom->habits.count || whom->diets.count || whom->stages.count ||
           whom->sexes.count || whom->brumation.count || whom->reproduction.count ||
           whom->traits.count || whom->never_with.count || whom->species.count;
}

/* The rows were read into memory that is ours to change. */
static struct whom *clause_of(const struct instruction *one, size_t clause)
{
    const struct whom *whom =
        clause ? &LIST_AT(one->variants, struct instruction_variant, clause - 1)->whom : &one->whom;
    return (struct whom *)(uintptr_t)whom;
}

/* Without whom it speaks to; what the record of the visit must say stays. */
static void open_to_all(struct whom *whom)
{
    *whom = (struct whom){.done = whom->done,
                          .never_done = whom->never_done,
                          .never_written = whom->never_written,
                          .found = whom->found,
                          .heat = whom->heat,
                          .heat_with = whom->heat_with,
                          .heat_safe = whom->heat_safe,
                          .lamp = whom->lamp,
                          .thermostat = whom->thermostat,
                          .outdoor = whom->outdoor,
                          .few_dry = whom->few_dry};
}

static const struct instruction *instruction_of(const char *code)
{
    const struct list *book = &resources.instructions->instructions;
    for (size_t i = 0; i < book->count; i++) {
        const struct instruction *one = LIST_AT(*book, struct instruction, i);
        if (strcmp(one->code.text, code) == 0)
            return one;
    }
    ck_abort_msg("no text %s", code);
    return NULL;
}

static const struct declared_text *text_of(const struct care_plan *plan, const char *code)
{
    size_t place = plan_instruction_place(plan, code);
    ck_assert_msg(place != SIZE_MAX, "no text %s", code);
    return &plan->texts[place];
}

/* What the animal of the row is told in place of the text; "" for nothing. */
static const char *told(const struct whom_row *row, struct arena *arena)
{
    struct diag diag;
    diag_init(&diag);
    const char *sex = strstr(row->animal, "sex:") ? "" : ", sex: female";
    const char *text = arena_format(
        arena,
        "visit: {date: 2026-03-14, kind: checkout, veterinarian: Dr Ines Calder}\n"
        "patient: {name: Moss, hatched: 2021-05, species: %s%s}\nfollow-up: {recheck: 14 days}\n%s",
        row->animal, sex, row->more);
    const struct visit_record *record = written_record(&resources, text, arena, &diag);
    if (!record)
        diag_print(&diag, stderr);
    ck_assert_msg(record && record->plan, "no plan of %s", text);
    const char *key = text_of(record->plan, row->of)->printed;
    diag_finish(&diag);
    return key ? key : "";
}

START_TEST(nobody_hears_what_is_for_others)
{
    for (const struct whom_row *row = whom_rows; row->of; row++) {
        struct arena arena;
        arena_init(&arena);
        ck_assert_msg(strcmp(told(row, &arena), row->never) != 0, "%s is told %s", row->animal,
                      row->never);
        arena_finish(&arena);
    }
}
END_TEST

START_TEST(a_clause_taken_away_is_heard)
{
    for (const struct whom_row *row = whom_rows; row->of; row++) {
        struct arena arena;
        arena_init(&arena);
        struct whom *whom = clause_of(instruction_of(row->of), row->clause);
        const struct whom whole = *whom;
        open_to_all(whom);
        const char *key = told(row, &arena);
        *whom = whole;
        ck_assert_msg(strcmp(key, row->never) == 0, "%s, clause %zu: nobody misses it: %s hears %s",
                      row->of, row->clause, row->animal, *key ? key : "nothing");
        arena_finish(&arena);
    }
}
END_TEST

static const char *whom_in_words(const char *code, struct arena *arena)
{
    struct diag diag;
    diag_init(&diag);
    const struct visit_record *record = written_record(
        &resources,
        "visit: {date: 2026-03-14, kind: checkout}\npatient: {name: Moss, species: ball-python}\n",
        arena, &diag);
    ck_assert(record && record->plan);
    const char *words = text_of(record->plan, code)->whom;
    diag_finish(&diag);
    return words ? words : "";
}

START_TEST(whom_it_is_for_is_said)
{
    for (const struct whom_said *said = whom_said; said->of; said++) {
        struct arena arena;
        arena_init(&arena);
        ck_assert_str_eq(whom_in_words(said->of, &arena), said->groups);
        struct whom *whom = clause_of(instruction_of(said->of), 0);
        const struct whom whole = *whom;
        open_to_all(whom);
        ck_assert_str_eq(whom_in_words(said->of, &arena), "");
        *whom = whole;
        arena_finish(&arena);
    }
}
END_TEST

static bool is_held(const char *code, size_t clause)
{
    for (const struct whom_row *row = whom_rows; row->of; row++)
        if (row->clause == clause && strcmp(row->of, code) == 0)
            return true;
    for (const struct whom_said *said = whom_said; said->of; said++)
        if (clause == 0 && strcmp(said->of, code) == 0)
            return true;
    for (const struct whom_unseen *unseen = whom_unseen; unseen->of; unseen++)
        if (unseen->clause == clause && strcmp(unseen->of, code) == 0)
            return true;
    return false;
}

START_TEST(every_clause_has_its_animal)
{
    const struct list *book = &resources.instructions->instructions;
    for (size_t i = 0; i < book->count; i++) {
        const struct instruction *one = LIST_AT(*book, struct instruction, i);
        for (size_t clause = 0; clause <= one->variants.count; clause++)
            ck_assert_msg(!is_clause(clause_of(one, clause)) || is_held(one->code.text, clause),
                          "%s, clause %zu: a row of whom_rows.c says who must not hear it",
                          one->code.text, clause);
    }
}
END_TEST

static void set_up(void)
{
    ck_assert(sweep_set_up(PROJECT_FOLDER));
}

int main(void)
{
    Suite *suite = suite_create("whom");
    TCase *tcase = tcase_create("whom");
    tcase_add_checked_fixture(tcase, set_up, sweep_tear_down);
    tcase_set_timeout(tcase, 120);
    tcase_add_test(tcase, nobody_hears_what_is_for_others);
    tcase_add_test(tcase, a_clause_taken_away_is_heard);
    tcase_add_test(tcase, whom_it_is_for_is_said);
    tcase_add_test(tcase, every_clause_has_its_animal);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
