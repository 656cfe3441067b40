/* Warning signs: which ones an animal has, how urgent each is, and in which order they stand. What
 * is severe raises a sign by a step, a second cause never lowers one, and the animal's own stand
 * first. The signs are invented; tiers are go now, call today, call soon. A fast and a loss are
 * told past their limits, not at them. */
#include <stdlib.h>
#include <string.h>

#include "care/fixture.h"
#include "common/suite.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

enum { SIGNS_MOST = 6 };

static struct care_fixture f;
static struct instruction_catalogue instructions;
static struct warning_sign signs[SIGNS_MOST];
static size_t sign_count;
static struct finding_plan found[2];
static struct finding entries[2];
static const struct finding *findings[] = {&entries[0], &entries[1]};

static void set_up(void)
{
    fixture_init(&f);
    memset(signs, 0, sizeof signs);
    memset(found, 0, sizeof found);
    memset(entries, 0, sizeof entries);
    sign_count = 0;
    instructions = (struct instruction_catalogue){.index = code_index_make(NULL, 0, &f.arena)};
    f.in.instructions = &instructions;
    f.plan.text_index = instructions.index;
    f.plan.feeding.stage = STAGE_ADULT;
    f.b.findings = findings;
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

static struct list texts(const char *a, const char *b)
{
    struct text_value both[2] = {fixture_text(a)};
    if (b)
        both[1] = fixture_text(b);
    return fixture_list(&f, both, b ? 2 : 1, sizeof *both);
}

/* Of lizards. */
static struct warning_sign *sign(const char *name, enum tier tier)
{
    struct warning_sign *one = &signs[sign_count++];
    *one = (struct warning_sign){.name = fixture_text(name),
                                 .tier = fixture_choice((int)tier),
                                 .groups = fixture_one_of(&f, GROUP_LIZARD)};
    return one;
}

/* A finding of so grave a degree that raises these. */
static void find(const char *code, enum severity severity, const char *one, const char *other)
{
    const size_t at = f.plan.finding_count++;
    found[at] = (struct finding_plan){.code = code, .severity = severity, .state = STATE_SEEN};
    if (one)
        entries[at].warnings = texts(one, other);
    f.plan.findings = found;
}

static bool make(void)
{
    f.signs.signs = fixture_list(&f, signs, sign_count, sizeof *signs);
    return warnings_plan(&f.b);
}

static const struct warning *told(const char *code)
{
    for (size_t i = 0; i < f.plan.warning_count; i++)
        if (strcmp(f.plan.warnings[i].code, code) == 0)
            return &f.plan.warnings[i];
    return NULL;
}

/* ---- how urgent ----------------------------------------------------------------------------- */

/* A severe finding raises by one step and no further than "go now"; a mild one and one that is
 * never raised keep their own. */
START_TEST(a_severe_finding_raises_by_a_step)
{
    static const struct {
        enum tier usual;
        enum severity severity;
        bool never;
        enum tier tier;
    } rows[] = {{TIER_SOON, SEVERITY_SEVERE, false, TIER_TODAY},
                {TIER_TODAY, SEVERITY_SEVERE, false, TIER_NOW},
                {TIER_NOW, SEVERITY_SEVERE, false, TIER_NOW},
                {TIER_SOON, SEVERITY_SEVERE, true, TIER_SOON},
                {TIER_SOON, SEVERITY_MODERATE, false, TIER_SOON},
                {TIER_TODAY, SEVERITY_MILD, false, TIER_TODAY}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        sign("s", rows[i].usual)->never_raised = fixture_flag(rows[i].never);
        find("burn", rows[i].severity, "s", NULL);
        ck_assert(make());
        const struct warning *one = told("s");
        ck_assert(one && one->own && !one->already);
        ck_assert_msg(one->tier == rows[i].tier && one->usual_tier == rows[i].usual, "row %d", i);
        ck_assert_str_eq(one->because, "finding:burn");
    }
    again(); /* what was looked at and is fine raises nothing */
    sign("s", TIER_SOON);
    find("burn", SEVERITY_NORMAL, "s", NULL);
    ck_assert(make() && f.plan.warning_count == 0);
}
END_TEST

/* Whichever comes first, the graver of two causes holds, and the first of its own is named. */
START_TEST(a_second_cause_never_lowers)
{
    for (int turned = 0; turned < 2; turned++) {
        again();
        sign("s", TIER_SOON)->always = fixture_flag(true);
        f.species.warnings = texts("s", NULL);
        find("burn", turned ? SEVERITY_MILD : SEVERITY_SEVERE, "s", NULL);
        find("mites", turned ? SEVERITY_SEVERE : SEVERITY_MILD, "s", NULL);
        ck_assert(make());
        ck_assert_uint_eq(f.plan.warning_count, 1);
        ck_assert_int_eq(told("s")->tier, TIER_TODAY);
        ck_assert_str_eq(told("s")->because, "finding:burn");
    }
}
END_TEST

/* Beside a finding, or at an age, at which it cannot wait. */
START_TEST(what_cannot_wait_here)
{
    for (int i = 0; i < 5; i++) {
        again();
        struct warning_sign *one = sign("s", TIER_SOON);
        one->always = fixture_flag(true);
        one->now_with = texts("gout", "burn");
        one->now_at = fixture_one_of(&f, STAGE_HATCHLING);
        if (i == 1 || i == 2)
            find("burn", i == 1 ? SEVERITY_MILD : SEVERITY_NORMAL, NULL, NULL);
        if (i == 3)
            find("mites", SEVERITY_SEVERE, NULL, NULL);
        f.plan.feeding.stage = i == 4 ? STAGE_HATCHLING : STAGE_ADULT;
        ck_assert(make());
        ck_assert_msg(told("s")->tier == (i == 1 || i == 4 ? TIER_NOW : TIER_SOON), "row %d", i);
    }
}
END_TEST

/* Signs of one place go together, through one to the next; one that is always "go now" raises no
 * other, for it is not raised. */
START_TEST(signs_of_one_place_have_one_urgency)
{
    for (int i = 0; i < 2; i++) {
        again();
        sign("c", TIER_SOON)->raised_with = texts("b", NULL);
        sign("b", TIER_SOON)->raised_with = texts("x", "a");
        struct warning_sign *a = sign("a", i ? TIER_NOW : TIER_TODAY);
        for (size_t k = 0; k < sign_count; k++)
            signs[k].always = fixture_flag(true);
        a->now_with = texts("burn", NULL);
        find("burn", SEVERITY_MILD, NULL, NULL);
        ck_assert(make());
        ck_assert_int_eq(told("a")->tier, TIER_NOW);
        ck_assert_int_eq(told("b")->tier, i ? TIER_SOON : TIER_NOW);
        ck_assert_int_eq(told("c")->tier, i ? TIER_SOON : TIER_NOW);
    }
}
END_TEST

/* By tier, its own before its kind's, else as they were gathered: tried against each place by
 * itself. */
START_TEST(the_order_of_signs)
{
    static const char *const names[] = {"a", "b", "c", "d", "e", "f"};
    struct {
        int tier;
        bool own;
    } drawn[SIGNS_MOST];
    const char *own[2] = {NULL, NULL};
    int owned = 0;
    srand((unsigned)_i + 1);
    for (int i = 0; i < SIGNS_MOST; i++) {
        drawn[i].tier = rand() % TIER_COUNT;
        drawn[i].own = owned < 2 && rand() % 3 == 0;
        sign(names[i], (enum tier)drawn[i].tier)->always = fixture_flag(true);
        if (drawn[i].own)
            own[owned++] = names[i];
    }
    find("burn", SEVERITY_MILD, own[0], own[1]);
    ck_assert(make());
    ck_assert_uint_eq(f.plan.warning_count, SIGNS_MOST);
    size_t at = 0;
    for (int tier = 0; tier < TIER_COUNT; tier++)
        for (int of_kind = 0; of_kind < 2; of_kind++)
            for (int i = 0; i < SIGNS_MOST; i++)
                if (drawn[i].tier == tier && drawn[i].own == !of_kind)
                    ck_assert_msg(strcmp(f.plan.warnings[at++].code, names[i]) == 0, "seed %d: %zu",
                                  _i + 1, at);
}
END_TEST

/* ---- which ones ----------------------------------------------------------------------------- */

enum left_out {
    OTHER_GROUP,
    NO_TRAIT,
    AT_ITS_AGE,
    FOUND_BESIDE,
    ILL,
    WEIGHED,
    NORMAL_FOR_IT,
    SAID_BY_MORE,
    REASONS
};

/* Each reason to leave a sign out, by itself, and the same a step short of it. */
START_TEST(what_an_animal_does_not_have)
{
    for (int holds = 0; holds < 2; holds++) {
        again();
        struct warning_sign *one = sign("s", TIER_SOON), *other = sign("t", TIER_TODAY);
        one->always = other->always = fixture_flag(true);
        bool is_found = _i == FOUND_BESIDE || _i == ILL || _i == SAID_BY_MORE;
        if (is_found)
            find("burn", holds ? SEVERITY_MILD : SEVERITY_NORMAL, NULL, NULL);
        if (_i == OTHER_GROUP)
            one->groups = fixture_one_of(&f, holds ? GROUP_SNAKE : GROUP_LIZARD);
        else if (_i == NO_TRAIT && holds)
            one->needs = fixture_one_of(&f, 0);
        else if (_i == AT_ITS_AGE)
            one->never_at = fixture_one_of(&f, holds ? STAGE_ADULT : STAGE_JUVENILE);
        else if (_i == FOUND_BESIDE)
            one->unless_found = texts("gout", "burn");
        else if (_i == ILL)
            one->unless_ill = fixture_flag(true);
        else if (_i == SAID_BY_MORE) {
            one->unless_now = texts("t", NULL);
            other->now_with = texts("burn", NULL);
        }
        if (_i == WEIGHED) {
            one->unless_weighed = fixture_flag(true);
            f.plan.weight.has_low = true;
            f.plan.weight.has_high = !holds;
        }
        if (_i == NORMAL_FOR_IT) {
            one->unless_normal = texts("thin-tail", NULL);
            f.species.normal = texts("shy", "thin-tail");
            f.plan.growth.known = true;
            f.plan.growth.weight = holds ? WEIGHT_STEADY : WEIGHT_FALLING;
        }
        ck_assert(make());
        ck_assert_msg((told("s") == NULL) == holds, "%d, %d", _i, holds);
        ck_assert_ptr_nonnull(told("t"));
    }
}
END_TEST

/* A high limit of the weight counts only for one that gains towards a goal, or does not gain. */
START_TEST(a_limit_that_alarms_nobody)
{
    static const struct {
        enum weight_purpose purpose;
        bool has_goal, has_sign;
    } rows[] = {{WEIGHT_HOLD, false, true}, {WEIGHT_GAIN, false, false}, {WEIGHT_GAIN, true, true}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        struct warning_sign *one = sign("s", TIER_SOON);
        one->always = one->unless_weighed = fixture_flag(true);
        f.plan.weight.has_low = f.plan.weight.has_high = true;
        f.plan.weight.purpose = rows[i].purpose;
        f.plan.weight.has_goal = rows[i].has_goal;
        ck_assert(make());
        ck_assert_msg((told("s") != NULL) == rows[i].has_sign, "row %d", i);
    }
}
END_TEST

/* ---- weight, fast and stool ----------------------------------------------------------------- */

static struct date_value days_ago(int days)
{
    const struct date on = date_add_days(f.plan.on, -days);
    return fixture_date(on.year, on.month, on.day);
}

/* Sixty days are the limit of its sheet and not past it; who found that it does not eat has said
 * why. */
START_TEST(a_fast_and_no_stool_past_their_limits)
{
    for (int days = 60; days <= 61; days++)
        for (int said = 0; said < 2; said++) {
            again();
            const struct visit_finding fast = {.code = fixture_text("not-eating")};
            const struct visit_diet diet = {.last = days_ago(days)};
            sign("refuses-food-past-limit", TIER_TODAY);
            sign("no-stool-past-limit", TIER_TODAY);
            f.visit.diet = fixture_list(&f, &diet, 1, sizeof diet);
            if (said)
                f.visit.findings = fixture_list(&f, &fast, 1, sizeof fast);
            f.visit.history.events[EVENT_STOOL] = days_ago(days);
            f.plan.feeding.fast_limit_days = f.plan.feeding.stool_limit_days = 60;
            ck_assert(make());
            ck_assert_uint_eq(f.plan.warning_count, days > 60 ? 2 : 0);
            ck_assert_int_eq(f.plan.feeding.fast_limit_passed, days > 60);
            ck_assert_int_eq(fixture_review(&f, "fast-unsaid") != NULL, days > 60 && !said);
            for (size_t i = 0; i < f.plan.warning_count; i++)
                ck_assert(f.plan.warnings[i].already && f.plan.warnings[i].own);
        }
}
END_TEST

/* More than a tenth of its mass: that it loses weight is so already, and the next step is raised.
 */
START_TEST(a_loss_raises_the_next_step)
{
    static const struct {
        double percent;
        enum weight_state weight;
        bool much;
    } rows[] = {{-10, WEIGHT_FALLING, false},
                {-10.1, WEIGHT_FALLING, true},
                {-5, WEIGHT_FALLING_FAST, true}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        sign("weight-loss", TIER_TODAY);
        sign("slow-weight-change", TIER_SOON);
        f.plan.growth.known = true;
        f.plan.growth.change_percent = rows[i].percent;
        f.plan.growth.weight = rows[i].weight;
        ck_assert(make());
        ck_assert_msg(f.plan.warning_count == (rows[i].much ? 2 : 0), "row %d", i);
        if (!rows[i].much)
            continue;
        ck_assert(told("weight-loss")->already && told("weight-loss")->tier == TIER_TODAY);
        ck_assert(!told("slow-weight-change")->already);
        ck_assert_int_eq(told("slow-weight-change")->tier, TIER_TODAY);
    }
}
END_TEST

/* What it has already is marked; a sign that there is not is a fault with its place, and the others
 * are gathered all the same. */
START_TEST(what_is_there_already_and_what_is_nowhere)
{
    sign("s", TIER_TODAY);
    sign("t", TIER_TODAY);
    find("burn", SEVERITY_MILD, "s", "t");
    entries[0].already = texts("t", NULL);
    ck_assert(make());
    ck_assert(told("t")->already && !told("s")->already);
    again();
    sign("t", TIER_TODAY);
    find("burn", SEVERITY_MILD, "s", "t");
    ck_assert(!make() && fixture_said(&f, "unknown-sign"));
    ck_assert_ptr_nonnull(told("t"));
}
END_TEST

static Suite *make_suite(void)
{
    Suite *suite = suite_create("warnings");
    TCase *tests = tcase_create("warnings");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, a_severe_finding_raises_by_a_step);
    tcase_add_test(tests, a_second_cause_never_lowers);
    tcase_add_test(tests, what_cannot_wait_here);
    tcase_add_test(tests, signs_of_one_place_have_one_urgency);
    tcase_add_loop_test(tests, the_order_of_signs, 0, 100);
    tcase_add_loop_test(tests, what_an_animal_does_not_have, 0, REASONS);
    tcase_add_test(tests, a_limit_that_alarms_nobody);
    tcase_add_test(tests, a_fast_and_no_stool_past_their_limits);
    tcase_add_test(tests, a_loss_raises_the_next_step);
    tcase_add_test(tests, what_is_there_already_and_what_is_nowhere);
    suite_add_tcase(suite, tests);
    return suite;
}

int main(void)
{
    return suite_run(make_suite());
}
