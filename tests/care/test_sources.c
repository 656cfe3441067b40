/* The plan's sources: each citation once, in the order in which its numbers are used first, however
 * many there are; a veterinarian's and a keeper's own word is no source. */
#include <string.h>

#include "care/fixture.h"
#include "common/suite.h"

enum { SOURCES_MOST = 80 };

static struct care_fixture f;
static struct named_text books[SOURCES_MOST];
static struct finding found[SOURCES_MOST];
static const struct finding *finds[SOURCES_MOST];
static struct finding_plan found_plans[SOURCES_MOST];

static void set_up(void)
{
    fixture_init(&f);
    for (size_t m = 0; m < MEASURE_COUNT; m++)
        f.plan.measured[m].applies = false;
}

static void tear_down(void)
{
    fixture_finish(&f);
}

/* So many findings, each from a book of its own but every fifth, which is from the first. */
static size_t find(size_t count)
{
    size_t different = 0;
    for (size_t i = 0; i < count; i++) {
        const char *id = arena_format(&f.arena, "b%zu", i % 5 == 4 ? 0 : i);
        books[i] = (struct named_text){fixture_text(arena_format(&f.arena, "b%zu", i)),
                                       fixture_text(arena_format(&f.arena, "Book %zu", i))};
        found[i] =
            (struct finding){.source = fixture_text(id), .trust = fixture_choice(TRUST_MEMORY)};
        finds[i] = &found[i];
        found_plans[i] = (struct finding_plan){.code = id};
        different += i % 5 != 4;
    }
    f.catalogue.sources = fixture_list(&f, books, count, sizeof *books);
    f.b.findings = finds;
    f.plan.findings = found_plans;
    f.plan.finding_count = count;
    return different;
}

static size_t times_cited(const char *text, const char *used_for)
{
    size_t count = 0;
    for (size_t i = 0; i < f.plan.source_count; i++)
        count += strcmp(f.plan.sources[i].text, text) == 0 &&
                 (!used_for || strcmp(f.plan.sources[i].used_for, used_for) == 0);
    return count;
}

/* One, and so many that the list grows once, twice and to the last place that it has. */
START_TEST(each_once_however_many)
{
    static const size_t counts[] = {1, 31, 32, 33, 40, 41, 64, 79, 80};
    const size_t count = counts[_i], different = find(count);
    ck_assert(sources_plan(&f.b));
    ck_assert_uint_eq(f.plan.source_count, different);
    for (size_t i = 0, at = 0; i < count; i++) {
        if (i % 5 == 4)
            continue;
        ck_assert_str_eq(f.plan.sources[at].text, arena_format(&f.arena, "Book %zu", i));
        ck_assert_str_eq(f.plan.sources[at++].used_for, "findings");
    }
}
END_TEST

/* A number of the sheet is cited under the part that it serves. */
START_TEST(each_number_cites_its_own)
{
    static const struct {
        size_t value; /* of struct species */
        const char *used_for;
    } rows[] = {{offsetof(struct species, no_food_days), "feeding"},
                {offsetof(struct species, no_stool_days), "feeding"},
                {offsetof(struct species, upper_limit), "temperature"}};
    const struct named_text own = {fixture_text("own"), fixture_text("A book of its own")};
    struct sourced_value *value = (void *)((char *)&f.species + rows[_i].value);
    f.species.sources = fixture_list(&f, &own, 1, sizeof own);
    f.plan.temperature.has_upper_limit = true;
    ck_assert(sources_plan(&f.b));
    ck_assert_uint_eq(times_cited("A book of its own", NULL), 0);
    *value = fixture_cited(10, 20);
    value->source = fixture_text("own");
    ck_assert(sources_plan(&f.b));
    ck_assert_uint_eq(times_cited("A book of its own", rows[_i].used_for), 1);
    ck_assert_uint_eq(times_cited("A book of its own", NULL), 1);
}
END_TEST

/* Who set it is said beside the number and not among the books. */
START_TEST(ones_own_word_is_no_source)
{
    static const enum origin origins[] = {ORIGIN_VETERINARIAN, ORIGIN_KEEPER, ORIGIN_SPECIES_SHEET,
                                          ORIGIN_REFERENCE};
    f.plan.enclosure.from = (struct provenance){.origin = origins[_i], .source = "A text"};
    ck_assert(sources_plan(&f.b));
    ck_assert_uint_eq(times_cited("A text", "enclosure"), _i >= 2);
}
END_TEST

/* A formula's publication is named; arithmetic and the record are none. */
START_TEST(a_formula_is_cited_and_arithmetic_is_not)
{
    static const char *const sources[] = {"Buck 1996", "arithmetic", "as given in the record"};
    struct derivation how[3] = {0};
    for (size_t i = 0; i < 3; i++) {
        how[i].source = sources[i];
        how[i].next = i < 2 ? &how[i + 1] : NULL;
    }
    f.plan.humidity.how.first = how;
    f.plan.uvb.how.first = how;
    ck_assert(sources_plan(&f.b));
    ck_assert_uint_eq(f.plan.source_count, 1);
    ck_assert_uint_eq(times_cited("Buck 1996", "humidity"), 1);
}
END_TEST

static Suite *make_suite(void)
{
    Suite *suite = suite_create("sources");
    TCase *tests = tcase_create("sources");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_loop_test(tests, each_once_however_many, 0, 9);
    tcase_add_loop_test(tests, each_number_cites_its_own, 0, 3);
    tcase_add_loop_test(tests, ones_own_word_is_no_source, 0, 4);
    tcase_add_test(tests, a_formula_is_cited_and_arithmetic_is_not);
    suite_add_tcase(suite, tests);
    return suite;
}

int main(void)
{
    return suite_run(make_suite());
}
