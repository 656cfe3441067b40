/* Calls of several that ask for something else become one line of phases: of those that are on the
 * strongest, what a settlement puts in their place while all that it names still calls, and the
 * veterinarian's own word before both. Days against a count day by day; a phase holds until the day
 * before the next (plan.h, records/topics.h). The animal, topics and settlements are invented. */
#include <stdlib.h>
#include <string.h>

#include "care/fixture.h"
#include "care/stances.h"
#include "common/suite.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

enum { FOOD, BATH, CLEANING, TOPICS };

static struct care_fixture f;
static struct topic topics[TOPICS];
static struct topic_catalogue book;
static struct settlement_book settlements;
static struct stance_settlement made[2];
static struct finding_plan found[3];
static const char *const findings[] = {"burn", "mites", "worms"};

/* Food is the strongest alone; of cleaning all hold side by side. */
static void set_up(void)
{
    fixture_init(&f);
    memset(topics, 0, sizeof topics);
    memset(made, 0, sizeof made);
    topics[FOOD] = (struct topic){.name = fixture_text("food"),
                                  .kind = fixture_choice(TOPIC_ORDER),
                                  .stances = fixture_texts(&f, "none", "small", "more", "usual"),
                                  .usual = fixture_text("usual"),
                                  .limits = fixture_texts(&f, "small", NULL, NULL, NULL)};
    topics[BATH] = (struct topic){.name = fixture_text("bath"),
                                  .kind = fixture_choice(TOPIC_ORDER),
                                  .stances = fixture_texts(&f, "none", "soak", "usual", NULL),
                                  .usual = fixture_text("usual")};
    topics[CLEANING] = (struct topic){.name = fixture_text("cleaning"),
                                      .kind = fixture_choice(TOPIC_PARTS),
                                      .stances = fixture_texts(&f, "paper", "daily", "usual", NULL),
                                      .usual = fixture_text("usual")};
    book = (struct topic_catalogue){.topics = fixture_list(&f, topics, TOPICS, sizeof *topics)};
    settlements = (struct settlement_book){0};
    f.in.topics = &book;
    f.in.settlements = &settlements;
    for (int i = 0; i < COUNT(found); i++)
        found[i] = (struct finding_plan){
            .code = findings[i], .severity = SEVERITY_MILD, .state = STATE_SEEN};
    f.plan.findings = found;
    f.plan.finding_count = (size_t)COUNT(found);
    f.b.calls = ARENA_NEW(&f.arena, struct stance_calls);
}

static void tear_down(void)
{
    fixture_finish(&f);
}

static void again(void)
{
    tear_down();
    set_up();
}

static struct date after(int days)
{
    return date_add_days(f.plan.on, days);
}

/* From a day on until another, of a finding; no last day for until 0. */
static void call(const char *stance, int finding, int from, int until)
{
    const char *code = findings[finding];
    stances_call(&f.b, stance,
                 &(struct stance_call){.from = after(from),
                                       .has_until = until > 0,
                                       .until = after(until),
                                       .because = arena_format(&f.arena, "finding:%s", code),
                                       .finding = code});
}

static void settle_by(size_t count)
{
    settlements.settlements = fixture_list(&f, made, count, sizeof *made);
    stances_find_settlements(&f.b);
}

static const struct stance_phase *on_day(const struct topic_plan *plan, int day)
{
    const struct stance_phase *phase = &plan->phases[0];
    for (size_t i = 1; i < plan->phase_count; i++)
        if (date_compare(plan->phases[i].from, after(day)) <= 0)
            phase = &plan->phases[i];
    return phase;
}

static const char *holds(int topic, int day)
{
    const struct topic_plan plan = stances_settle(&f.b, (size_t)topic);
    return on_day(&plan, day)->stance;
}

/* ---- the strongest -------------------------------------------------------------------------- */

START_TEST(where_nobody_calls_it_is_as_usual)
{
    settle_by(0);
    call("bath:none", 0, 0, 3);
    const struct topic_plan plan = stances_settle(&f.b, FOOD);
    ck_assert_str_eq(plan.topic, "food");
    ck_assert_uint_eq(plan.phase_count, 1);
    ck_assert_str_eq(plan.phases[0].stance, "usual");
    ck_assert_str_eq(plan.phases[0].because, "default");
    ck_assert(!plan.phases[0].has_until && plan.phases[0].lost_count == 0);
}
END_TEST

enum { CALLS_MOST = 6, DAYS = 15 };

/* Six calls at random; each day the strongest that is on, tried by itself. Phases follow without a
 * gap, and none says what the one before it said. */
START_TEST(each_day_the_strongest_that_is_on)
{
    static const char *const stances[] = {"none", "small", "more", "usual"};
    struct {
        int rank, from, until;
    } calls[CALLS_MOST];
    srand((unsigned)_i + 1);
    settle_by(0);
    int count = 1 + rand() % CALLS_MOST;
    for (int i = 0; i < count; i++) {
        int from = rand() % 8;
        calls[i].rank = rand() % 3;
        calls[i].from = from;
        calls[i].until = rand() % 4 ? from + 1 + rand() % 6 : 0;
        call(arena_format(&f.arena, "food:%s", stances[calls[i].rank]), rand() % 3, from,
             calls[i].until);
    }
    const struct topic_plan plan = stances_settle(&f.b, FOOD);
    for (int day = 0; day < DAYS; day++) {
        int best = 3;
        for (int i = 0; i < count; i++)
            if (calls[i].from <= day && (calls[i].until == 0 || day < calls[i].until) &&
                calls[i].rank < best)
                best = calls[i].rank;
        ck_assert_msg(strcmp(on_day(&plan, day)->stance, stances[best]) == 0,
                      "seed %d, day %d: %s, wanted %s", _i + 1, day, on_day(&plan, day)->stance,
                      stances[best]);
    }
    ck_assert_int_eq(date_compare(plan.phases[0].from, f.plan.on), 0);
    for (size_t i = 0; i + 1 < plan.phase_count; i++) {
        const struct stance_phase *one = &plan.phases[i], *next = one + 1;
        ck_assert(one->has_until && date_compare(one->until, next->from) == 0 &&
                  date_compare(one->from, next->from) < 0);
        ck_assert(strcmp(one->stance, next->stance) != 0 || one->limit_count != next->limit_count);
    }
    ck_assert(!plan.phases[plan.phase_count - 1].has_until);
}
END_TEST

/* What loses is kept with who asked for it; "a small meal" stays a limit under what is stronger. */
START_TEST(what_loses_is_kept)
{
    settle_by(0);
    call("food:small", 0, 0, 0);
    call("food:more", 1, 0, 0);
    call("food:none", 2, 0, 0);
    const struct topic_plan plan = stances_settle(&f.b, FOOD);
    const struct stance_phase *now = &plan.phases[0];
    ck_assert_str_eq(now->stance, "none");
    ck_assert_str_eq(now->because, "finding:worms");
    ck_assert_uint_eq(now->lost_count, 2);
    ck_assert_str_eq(now->lost[0].stance, "small");
    ck_assert_str_eq(now->lost[0].because, "finding:burn");
    ck_assert_str_eq(now->lost[1].stance, "more");
    ck_assert_str_eq(now->lost[1].because, "finding:mites");
    ck_assert_uint_eq(now->limit_count, 1);
    ck_assert_str_eq(now->limits[0], "small");
}
END_TEST

/* Of a topic of parts all stand beside the strongest, each once; nothing is lost. */
START_TEST(parts_hold_side_by_side)
{
    settle_by(0);
    call("cleaning:daily", 0, 0, 0);
    call("cleaning:paper", 1, 0, 0);
    call("cleaning:daily", 2, 0, 0);
    const struct topic_plan plan = stances_settle(&f.b, CLEANING);
    const struct stance_phase *now = &plan.phases[0];
    ck_assert_str_eq(now->stance, "paper");
    ck_assert_uint_eq(now->with_count, 1);
    ck_assert_str_eq(now->with[0], "daily");
    ck_assert_uint_eq(now->lost_count, 0);
}
END_TEST

/* ---- settlements ---------------------------------------------------------------------------- */

/* Of a burn that wants small meals and mites that want none: more of them, as long as both call. */
static void settle_burn_and_mites(void)
{
    made[0] = (struct stance_settlement){
        .name = fixture_text("both"),
        .when = {.finding = fixture_texts(&f, "burn", NULL, NULL, NULL),
                 .and_finding = fixture_texts(&f, "mites", NULL, NULL, NULL)},
        .outcome = fixture_texts(&f, "food:more", NULL, NULL, NULL)};
}

/* Whichever is written first, and whichever ends first, on the day itself it is over. */
START_TEST(a_settlement_stands_while_all_that_it_names_call)
{
    static const int ends[][2] = {{5, 9}, {9, 5}, {5, 0}, {0, 5}, {5, 5}};
    const int burn = ends[_i / 2][0], mites = ends[_i / 2][1];
    settle_burn_and_mites();
    if (_i % 2)
        call("food:none", 1, 0, mites);
    call("food:small", 0, 0, burn);
    if (_i % 2 == 0)
        call("food:none", 1, 0, mites);
    settle_by(1);
    for (int day = 0; day < DAYS; day++) {
        bool burns = burn == 0 || day < burn, has_mites = mites == 0 || day < mites;
        const char *wanted = burns && has_mites ? "more"
                             : has_mites        ? "none"
                             : burns            ? "small"
                                                : "usual";
        ck_assert_msg(strcmp(holds(FOOD, day), wanted) == 0, "%d, day %d: %s, wanted %s", _i, day,
                      holds(FOOD, day), wanted);
    }
    const struct topic_plan plan = stances_settle(&f.b, FOOD);
    ck_assert_str_eq(plan.phases[0].because, "settlement:both");
    ck_assert_uint_eq(plan.phases[0].lost_count, 2);
}
END_TEST

/* A finding that calls for nothing at all has nothing that could end. */
START_TEST(what_never_called_does_not_end_it)
{
    settle_burn_and_mites();
    call("food:small", 0, 0, 5);
    settle_by(1);
    ck_assert_str_eq(holds(FOOD, 4), "more");
    ck_assert_str_eq(holds(FOOD, 5), "usual");
    again();
    settle_burn_and_mites();
    found[1].severity = SEVERITY_NORMAL; /* looked at, and nothing there */
    call("food:small", 0, 0, 5);
    settle_by(1);
    ck_assert_str_eq(holds(FOOD, 4), "small");
}
END_TEST

/* A third that wants something else keeps its call: the stronger of it and of the settlement. */
START_TEST(who_is_not_named_still_calls)
{
    static const char *const third[][2] = {{"food:none", "none"}, {"food:small", "small"}};
    settle_burn_and_mites();
    call("food:none", 0, 0, 0);
    call("food:none", 1, 0, 0);
    call(third[_i][0], 2, 2, 4);
    settle_by(1);
    for (int day = 0; day < 6; day++)
        ck_assert_str_eq(holds(FOOD, day), day == 2 || day == 3 ? third[_i][1] : "more");
}
END_TEST

/* One between stances is asked only of a call that lasts so long: two days are no change of a
 * rhythm, three are. Without a last day it lasts long enough. */
START_TEST(what_is_over_too_soon_settles_nothing)
{
    static const struct {
        int from, until;
        bool settles;
    } rows[] = {{0, 2, false}, {0, 3, true},  {0, 4, true},
                {0, 0, true},  {1, 3, false}, {1, 4, true}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        made[0] = (struct stance_settlement){
            .name = fixture_text("long"),
            .when = {.calls = fixture_texts(&f, "bath:none", NULL, NULL, NULL)},
            .outcome = fixture_texts(&f, "food:more", NULL, NULL, NULL),
            .lasting = fixture_quantity(3)};
        call("bath:none", 0, rows[i].from, rows[i].until);
        settle_by(1);
        ck_assert_msg(strcmp(holds(FOOD, 1), rows[i].settles ? "more" : "usual") == 0, "row %d", i);
        if (rows[i].from > 0)
            ck_assert_str_eq(holds(FOOD, 0), "usual");
        if (rows[i].settles && rows[i].until > 0) {
            ck_assert_str_eq(holds(FOOD, rows[i].until - 1), "more");
            ck_assert_str_eq(holds(FOOD, rows[i].until), "usual");
        }
    }
}
END_TEST

/* Of several outcomes the first that somebody calls for, else the last. */
START_TEST(of_several_outcomes_the_one_that_is_called_for)
{
    static const struct {
        const char *burn, *mites, *wanted;
    } rows[] = {{"food:small", "food:none", "small"},
                {"food:none", "food:more", "more"},
                {"food:none", "food:none", "more"},
                {"food:more", "food:small", "small"}};
    settle_burn_and_mites();
    made[0].outcome = fixture_texts(&f, "food:small", "bath:none", "food:more", NULL);
    call(rows[_i].burn, 0, 0, 0);
    call(rows[_i].mites, 1, 0, 0);
    settle_by(1);
    ck_assert_str_eq(holds(FOOD, 0), rows[_i].wanted);
    ck_assert_str_eq(holds(BATH, 0), "none");
    ck_assert_str_eq(holds(CLEANING, 0), "usual");
}
END_TEST

/* What ends it: the end that the named callers of the same topic have, else of another topic. */
START_TEST(a_settlement_ends_as_what_it_stands_for)
{
    for (int same = 0; same < 2; same++) {
        again();
        settle_burn_and_mites();
        struct stance_call shed = {.from = f.plan.on,
                                   .end_by = PHASE_END_SHED,
                                   .because = "finding:burn",
                                   .finding = "burn"},
                           tests = shed;
        tests.end_by = PHASE_END_TESTS;
        tests.finding = "mites";
        stances_call(&f.b, "bath:none", &tests);
        stances_call(&f.b, same ? "food:small" : "bath:soak", &shed);
        settle_by(1);
        const struct topic_plan plan = stances_settle(&f.b, FOOD);
        ck_assert_str_eq(plan.phases[0].stance, "more");
        ck_assert_int_eq(plan.phases[0].end_by, same ? PHASE_END_SHED : PHASE_END_TESTS);
    }
}
END_TEST

/* A later outcome that is a limit comes when the one that holds is over; one before it does not. */
START_TEST(what_comes_after_a_settlement)
{
    settle_burn_and_mites();
    made[0].outcome = _i ? fixture_texts(&f, "food:more", "food:small", NULL, NULL)
                         : fixture_texts(&f, "food:small", "food:more", NULL, NULL);
    call("food:more", 0, 0, 0);
    call("food:none", 1, 0, 0);
    settle_by(1);
    const struct topic_plan plan = stances_settle(&f.b, FOOD);
    ck_assert_str_eq(plan.phases[0].stance, "more");
    if (_i)
        ck_assert_str_eq(plan.phases[0].then, "small");
    else
        ck_assert_ptr_null(plan.phases[0].then);
}
END_TEST

/* "As usual until the shed" is as usual for good: nothing of it ends. */
START_TEST(what_goes_on_as_usual_has_no_end)
{
    settle_by(0);
    stances_call(&f.b, "food:usual",
                 &(struct stance_call){.from = f.plan.on,
                                       .has_until = true,
                                       .until = after(4),
                                       .end_by = PHASE_END_RECHECK,
                                       .because = "finding:burn",
                                       .finding = "burn"});
    const struct topic_plan plan = stances_settle(&f.b, FOOD);
    ck_assert_uint_eq(plan.phase_count, 1);
    ck_assert(!plan.phases[0].has_until);
    ck_assert_int_eq(plan.phases[0].end_by, PHASE_END_NONE);
}
END_TEST

/* No bath now, and later a soak or one that she writes: from that day on, which is kept. A soak
 * that is on already, or that never comes, waits for no day. */
START_TEST(a_bath_that_waits_has_its_day)
{
    static const struct {
        const char *now, *later;
        int from; /* 0: at once */
        bool soak, written;
    } rows[] = {{"bath:none", "bath:soak", 3, true, false},
                {"bath:none", "bath:as-written", 4, false, true},
                {"bath:none", NULL, 0, false, false},
                {"bath:soak", NULL, 0, false, false},
                {"bath:soak", "bath:as-written", 3, false, false}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        topics[BATH].stances = fixture_texts(&f, "none", "soak", "as-written", "usual");
        book.topics = fixture_list(&f, topics, TOPICS, sizeof *topics);
        call(rows[i].now, 0, 0, rows[i].from);
        if (rows[i].later)
            call(rows[i].later, 1, rows[i].from, 9);
        ck_assert(stances_settle_plan(&f.b));
        ck_assert_msg(f.plan.has_bath_from == rows[i].soak, "row %d", i);
        ck_assert_msg(f.plan.has_bath_written_from == rows[i].written, "row %d", i);
        if (rows[i].soak)
            ck_assert_int_eq(date_days_between(f.plan.on, f.plan.bath_from), rows[i].from);
        if (rows[i].written)
            ck_assert_int_eq(date_days_between(f.plan.on, f.plan.bath_written_from), rows[i].from);
    }
}
END_TEST

/* Topics that are settled before the others, as a winter's rest is, know the settlements too. */
START_TEST(settlements_are_known_before_topics_are_settled)
{
    const struct call_row none = {.calls = fixture_texts(&f, "food:none", NULL, NULL, NULL)};
    const struct finding row = {.calls = fixture_list(&f, &none, 1, sizeof none)}, silent = {0};
    const struct finding *rows[] = {&row, &row, &silent};
    settle_burn_and_mites();
    settlements.settlements = fixture_list(&f, made, 1, sizeof *made);
    f.b.findings = rows;
    ck_assert(stances_plan(&f.b));
    ck_assert_str_eq(holds(FOOD, 0), "more");
    ck_assert(stances_settle_plan(&f.b));
    ck_assert(plan_holds(&f.plan, "food", "more"));
}
END_TEST

/* ---- the veterinarian's word ---------------------------------------------------------------- */

static void decide(const char *stance, int until)
{
    struct visit_decision one = {.topic = fixture_text("food"), .stance = fixture_text(stance)};
    if (until > 0)
        one.until = (struct date_value){.known = true, .date = after(until)};
    f.visit.decisions = fixture_list(&f, &one, 1, sizeof one);
    f.plan.decisions = ARENA_ARRAY(&f.arena, struct decision_plan, 1);
}

/* Before what is stronger and before a settlement, until its day; a word that is no stance of the
 * topic is none. */
START_TEST(what_was_decided_stands_before_all)
{
    settle_burn_and_mites();
    call("food:none", 0, 0, 0);
    call("food:small", 1, 0, 0);
    settle_by(1);
    decide("usual", 4);
    for (int day = 0; day < 8; day++)
        ck_assert_str_eq(holds(FOOD, day), day < 4 ? "usual" : "more");
    struct topic_plan plan = stances_settle(&f.b, FOOD);
    ck_assert_str_eq(plan.phases[0].because, "veterinarian");
    ck_assert_ptr_eq(plan.phases[0].decision, &f.plan.decisions[0]);
    ck_assert_int_eq(plan.phases[0].end_by, PHASE_END_DATE);
    decide("usual", 0);
    plan = stances_settle(&f.b, FOOD);
    ck_assert_uint_eq(plan.phase_count, 1);
    ck_assert_int_eq(plan.phases[0].end_by, PHASE_END_VETERINARIAN);
    decide("plenty", 0);
    ck_assert_str_eq(holds(FOOD, 0), "more");
}
END_TEST

/* Nothing goes into a drowsy mouth: what holds until it is awake waits for no decision that is
 * weaker, and gives way to one as strong. */
START_TEST(a_decision_waits_until_it_is_awake)
{
    static const struct {
        const char *decided, *today;
        bool waits;
    } rows[] = {{"usual", "small", true},
                {"more", "small", true},
                {"small", "small", false},
                {"none", "none", false}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        settle_by(0);
        stances_call(&f.b, "food:small",
                     &(struct stance_call){.from = f.plan.on,
                                           .has_until = true,
                                           .until = after(1),
                                           .end_by = PHASE_END_AWAKE,
                                           .because = "done:surgery"});
        decide(rows[i].decided, 0);
        ck_assert_str_eq(holds(FOOD, 0), rows[i].today);
        ck_assert_str_eq(holds(FOOD, 1), rows[i].decided);
        const struct topic_plan plan = stances_settle(&f.b, FOOD);
        ck_assert_int_eq(plan.phases[0].decision == NULL, rows[i].waits);
    }
}
END_TEST

static Suite *make_suite(void)
{
    Suite *suite = suite_create("settle");
    TCase *tests = tcase_create("settle");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, where_nobody_calls_it_is_as_usual);
    tcase_add_loop_test(tests, each_day_the_strongest_that_is_on, 0, 200);
    tcase_add_test(tests, what_loses_is_kept);
    tcase_add_test(tests, parts_hold_side_by_side);
    tcase_add_loop_test(tests, a_settlement_stands_while_all_that_it_names_call, 0, 10);
    tcase_add_test(tests, what_never_called_does_not_end_it);
    tcase_add_loop_test(tests, who_is_not_named_still_calls, 0, 2);
    tcase_add_test(tests, what_is_over_too_soon_settles_nothing);
    tcase_add_loop_test(tests, of_several_outcomes_the_one_that_is_called_for, 0, 4);
    tcase_add_test(tests, a_settlement_ends_as_what_it_stands_for);
    tcase_add_loop_test(tests, what_comes_after_a_settlement, 0, 2);
    tcase_add_test(tests, what_goes_on_as_usual_has_no_end);
    tcase_add_test(tests, a_bath_that_waits_has_its_day);
    tcase_add_test(tests, settlements_are_known_before_topics_are_settled);
    tcase_add_test(tests, what_was_decided_stands_before_all);
    tcase_add_test(tests, a_decision_waits_until_it_is_awake);
    suite_add_tcase(suite, tests);
    return suite;
}

int main(void)
{
    return suite_run(make_suite());
}
