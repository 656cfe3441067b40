/* One voice, swept: every pair of findings that may stand together, over every species that has a
 * sheet, at each of their levels in turn; with readings inside, near and outside their bands, seen
 * here, under treatment, referred or not seen at all, with the veterinarian's decisions and
 * without; and random triples. */
#include <stdlib.h>

#include "common/suite.h"
#include "sheet/sweeping.h"

/* The plain build tries each pair. What another compiler or the sanitizers look for is in the code
 * and not in the pair: there each eighth is enough. */
#if defined(__SANITIZE_ADDRESS__) || defined(__clang__)
enum { STRIDE = 8 };
#else
enum { STRIDE = 1 };
#endif

/* One of the sweep's turns: an animal, and which of its group's turns it is. */
struct turn {
    const struct hearer *hearer;
    size_t number;
};

/* Spreads readings, state, decision, kind of sheet and language over the pairs; the multipliers are
 * odd and else of no meaning. */
static size_t mixed(size_t turn, size_t first, size_t second)
{
    size_t at = turn * 2654435761u + first * 40503u + second * 2246822519u;
    return (at ^ at >> 15) * 2654435761u >> 12 & 0xfffff;
}

/* Seen here for most; each other state for one in eight. */
static const char *state_of(size_t at)
{
    static const char *const states[] = {
        "seen", "seen", "seen", "seen", "seen", "referred", "under-treatment", "unseen"};
    return states[at % (sizeof states / sizeof *states)];
}

static void try_one(struct swept *s, const struct turn *turn, const struct found *found,
                    size_t count, size_t at)
{
    const char *fault = sweep_fault(s, turn->hearer, found, count, at);
    if (fault && s->faults++ < 10)
        fprintf(stderr, "%s, %s %s %s%s%s%s%s%s (%zu): %s\n", turn->hearer->animal, found[0].code,
                found[0].severity, found[0].state, count > 1 ? " and " : "",
                count > 1 ? found[1].code : "", count > 1 ? " " : "",
                count > 1 ? found[1].severity : "", count > 2 ? found[2].code : "", at, fault);
}

/* Each level of the second meets each level of the first while the turns go on. */
static struct found at_level(const struct sweep_code *code, size_t level, size_t at)
{
    return (struct found){code->code, code->severities[level % code->count], state_of(at)};
}

static void sweep_pairs(struct swept *s, const struct turn *turn, const struct sweep_code *codes,
                        size_t count)
{
    for (size_t i = 0; i < count; i++) {
        struct found both[] = {at_level(&codes[i], turn->number, turn->number + i), {0}};
        try_one(s, turn, both, 1, mixed(turn->number, i, i));
        for (size_t k = i + 1 + (i + turn->number) % STRIDE; k < count; k += STRIDE) {
            size_t at = mixed(turn->number, i, k);
            both[1] = at_level(&codes[k], turn->number / codes[i].count, at >> 8);
            try_one(s, turn, both, 2, at);
        }
    }
}

static void sweep_triples(struct swept *s, const struct turn *turn, const struct sweep_code *codes,
                          size_t count)
{
    srand(20260314 + (unsigned)turn->number * HEARERS + (unsigned)(turn->hearer - hearers));
    for (int i = 0; i < 120 / STRIDE; i++) {
        struct found three[3];
        for (size_t k = 0; k < 3; k++)
            three[k] = at_level(&codes[(size_t)rand() % count], (size_t)rand(), (size_t)rand());
        try_one(s, turn, three, 3, (size_t)rand() & 0xfffff);
    }
}

/* The turns of the animals before it: those of a group stand together. */
static size_t turns_before(const struct hearer *hearer)
{
    size_t turns = 0;
    for (const struct hearer *one = hearers; one != hearer; one++)
        turns += one->turns;
    return turns;
}

START_TEST(no_two_findings_make_a_plan_speak_with_two_voices)
{
    static struct sweep_code codes[CODES_MOST];
    struct arena arena;
    struct diag diag;
    arena_init(&arena);
    diag_init(&diag);
    struct swept s = {.arena = &arena, .diag = &diag};
    size_t count = sweep_codes(codes);
    const struct hearer *hearer = &hearers[_i];
    for (unsigned i = 0; i < hearer->turns; i++) {
        const struct turn turn = {hearer, turns_before(hearer) + i};
        sweep_pairs(&s, &turn, codes, count);
        sweep_triples(&s, &turn, codes, count);
    }
    diag_finish(&diag);
    arena_finish(&arena);
    fprintf(stderr, "%s: %zu plans\n", hearer->animal, s.plans);
    ck_assert_uint_gt(s.plans, 800 / STRIDE);
    ck_assert_msg(s.faults == 0, "%s: %zu of %zu plans", hearer->animal, s.faults, s.plans);
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
