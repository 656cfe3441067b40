/* One voice, swept: every pair of findings that may stand together, over animals of each kind that
 * differ in what they do, with readings inside, near and outside their bands, and random triples.
 */
#include <stdlib.h>

#include "common/suite.h"
#include "sheet/sweeping.h"

/* The plain build tries each pair. What another compiler or the sanitizers look for is in the code
 * and not in the pair: there each third is enough. */
#if defined(__SANITIZE_ADDRESS__) || defined(__clang__)
enum { STRIDE = 3 };
#else
enum { STRIDE = 1 };
#endif

static void try_one(struct swept *s, const struct hearer *hearer, const struct found *found,
                    size_t count)
{
    const char *fault = sweep_fault(s, hearer, found, count);
    if (fault && s->faults++ < 10)
        fprintf(stderr, "%s, %s %s%s%s%s: %s\n", hearer->animal, found[0].code, found[0].severity,
                count > 1 ? " and " : "", count > 1 ? found[1].code : "",
                count > 2 ? found[2].code : "", fault);
}

static void sweep_pairs(struct swept *s, const struct hearer *hearer, const struct found *codes,
                        size_t count)
{
    for (size_t i = 0; i < count; i++) {
        try_one(s, hearer, &codes[i], 1);
        for (size_t k = i + 1 + i % STRIDE; k < count; k += STRIDE)
            try_one(s, hearer, (const struct found[]){codes[i], codes[k]}, 2);
    }
}

START_TEST(no_two_findings_make_a_plan_speak_with_two_voices)
{
    static struct found codes[CODES_MOST];
    struct arena arena;
    struct diag diag;
    arena_init(&arena);
    diag_init(&diag);
    struct swept s = {.arena = &arena, .diag = &diag};
    size_t count = sweep_codes(codes);
    sweep_pairs(&s, &hearers[_i], codes, count);
    srand(20260314 + (unsigned)_i);
    for (int i = 0; i < 300 / STRIDE; i++) {
        const struct found triple[] = {codes[(size_t)rand() % count], codes[(size_t)rand() % count],
                                       codes[(size_t)rand() % count]};
        try_one(&s, &hearers[_i], triple, 3);
    }
    diag_finish(&diag);
    arena_finish(&arena);
    fprintf(stderr, "%s: %zu plans\n", hearers[_i].animal, s.plans);
    ck_assert_uint_gt(s.plans, 800 / STRIDE);
    ck_assert_msg(s.faults == 0, "%s: %zu of %zu plans", hearers[_i].animal, s.faults, s.plans);
}
END_TEST

static void set_up(void)
{
    ck_assert(sweep_set_up(PROJECT_FOLDER));
}

int main(void)
{
    Suite *suite = suite_create("sweep");
    TCase *tcase = tcase_create("sweep");
    tcase_add_checked_fixture(tcase, set_up, sweep_tear_down);
    tcase_set_timeout(tcase, 300);
    tcase_add_loop_test(tcase, no_two_findings_make_a_plan_speak_with_two_voices, 0, HEARERS);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
