/* Rules become actions in order: the most harm avoided first, equals as the file has them, then
 * what the message names, then the veterinarian's hand; the first three are those that can be done
 * tonight. The order is worked out here place by place instead of by moving. Rules, codes and harms
 * are invented; a harm of 90 is a danger by itself (reference-values.yaml). */
#include <stdlib.h>
#include <string.h>

#include "care/fixture.h"
#include "care/rule_match.h"
#include "care/stances.h"
#include "common/suite.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

enum { RULES_MOST = 9 };

static struct care_fixture f;
static struct rule rules[RULES_MOST];
static size_t rule_count;
static struct topic_catalogue topics;
static struct instruction_catalogue instructions;
static struct finding_plan found[2];

static void set_up(void)
{
    fixture_init(&f);
    memset(rules, 0, sizeof rules);
    rule_count = 0;
    topics = (struct topic_catalogue){0};
    instructions = (struct instruction_catalogue){.index = code_index_make(NULL, 0, &f.arena)};
    f.in.topics = &topics;
    f.in.instructions = &instructions;
    f.plan.text_index = instructions.index;
    f.rules.sources = f.species.sources;
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

static struct rule *rule(const char *action, double harm)
{
    struct rule *one = &rules[rule_count++];
    *one = fixture_rule(&f, rule_count, action, harm);
    return one;
}

static void make(void)
{
    f.rules.rules = fixture_list(&f, rules, rule_count, sizeof *rules);
    f.plan.decisions = ARENA_ARRAY(&f.arena, struct decision_plan, f.visit.decisions.count + 1);
    ck_assert(actions_plan(&f.b));
}

/* The codes, one letter each. */
static const char *order(void)
{
    const char *codes = "";
    for (size_t i = 0; i < f.plan.action_count; i++)
        codes = arena_format(&f.arena, "%s%s", codes, f.plan.actions[i].code);
    return codes;
}

/* ---- the order ------------------------------------------------------------------------------ */

struct drawn {
    double harm;
    bool first, shop, tonight, is_taken;
};

/* The place in the file of the most harm among those not taken that fit; -1 for none. */
static int most(const struct drawn *drawn, int count, bool (*fits)(const struct drawn *))
{
    int best = -1;
    for (int i = 0; i < count; i++)
        if (!drawn[i].is_taken && fits(&drawn[i]) && (best < 0 || drawn[i].harm > drawn[best].harm))
            best = i;
    return best;
}

static bool is_done_tonight(const struct drawn *one)
{
    return one->first && !one->shop;
}

static bool is_bought(const struct drawn *one)
{
    return one->first && one->shop;
}

static bool is_due(const struct drawn *one)
{
    return one->tonight;
}

static bool is_any(const struct drawn *one)
{
    return one != NULL;
}

static void take(struct drawn *drawn, int count, bool (*fits)(const struct drawn *), size_t limit,
                 char *letters)
{
    for (int at; strlen(letters) < limit && (at = most(drawn, count, fits)) >= 0;) {
        letters[strlen(letters)] = (char)('a' + at);
        drawn[at].is_taken = true;
    }
}

/* Three for tonight, what is bought where there is room, what is due all the same, then the rest.
 */
START_TEST(by_harm_and_by_what_can_be_done_tonight)
{
    struct drawn drawn[RULES_MOST] = {0};
    char wanted[RULES_MOST + 1] = "";
    srand((unsigned)_i + 1);
    const int count = 1 + rand() % RULES_MOST;
    for (int i = 0; i < count; i++) {
        drawn[i] = (struct drawn){.harm = 10 * (1 + rand() % 5),
                                  .first = rand() % 4 > 0,
                                  .shop = rand() % 3 == 0,
                                  .tonight = rand() % 4 == 0};
        struct rule *one = rule(arena_format(&f.arena, "%c", 'a' + i), drawn[i].harm);
        one->first = fixture_flag(drawn[i].first);
        one->shop = fixture_flag(drawn[i].shop);
        one->tonight = fixture_flag(drawn[i].tonight);
    }
    make();
    take(drawn, count, is_done_tonight, 3, wanted);
    take(drawn, count, is_bought, 3, wanted);
    const size_t first = strlen(wanted);
    take(drawn, count, is_due, RULES_MOST, wanted);
    const size_t tonight = strlen(wanted);
    take(drawn, count, is_any, RULES_MOST, wanted);
    ck_assert_msg(strcmp(order(), wanted) == 0, "seed %d: %s, wanted %s", _i + 1, order(), wanted);
    for (size_t i = 0; i < f.plan.action_count; i++) {
        ck_assert_int_eq(f.plan.actions[i].is_first, i < first);
        ck_assert_int_eq(f.plan.actions[i].is_tonight, i < tonight);
    }
}
END_TEST

/* What several rules ask for is one action: the most of their harms, the reasons of all in order;
 * one that may be first and one that is at hand make it so. */
START_TEST(one_action_of_several_rules)
{
    for (int turned = 0; turned < 2; turned++) {
        again();
        struct rule *one = rule("a", turned ? 60 : 30), *other = rule("a", turned ? 30 : 60);
        one->first = other->first = fixture_flag(false);
        one->shop = other->shop = fixture_flag(true);
        (turned ? one : other)->first = fixture_flag(true);
        (turned ? other : one)->shop = fixture_flag(false);
        rule("b", 50);
        make();
        ck_assert_str_eq(order(), "ab");
        const struct action *a = &f.plan.actions[0];
        ck_assert(a->harm == 60 && a->may_be_first && a->is_at_hand);
        ck_assert_str_eq(a->reasons->rule, "rule-1");
        ck_assert_str_eq(a->reasons->next->rule, "rule-2");
        ck_assert_ptr_null(a->reasons->next->next);
        ck_assert_str_eq(a->reasons->source, "common practice");
        ck_assert(a->reasons->harm == (turned ? 60 : 30) && a->reasons->share == 1);
    }
}
END_TEST

/* What the message names first is done first, from the second or the third place, but not before a
 * danger. */
START_TEST(what_it_came_for_leads)
{
    static const struct {
        double others[3], burn;
        const char *wanted;
    } rows[] = {{{80, 70, 60}, 75, "dabc"}, {{80, 70, 60}, 65, "dabc"},
                {{80, 70, 60}, 50, "abcd"}, {{89.9, 70, 60}, 65, "dabc"},
                {{90, 70, 60}, 65, "abdc"}, {{80, 70, 60}, 85, "dabc"}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        found[0] = (struct finding_plan){.code = "burn",
                                         .severity = SEVERITY_SEVERE,
                                         .state = STATE_SEEN,
                                         .tier = TIER_NOW,
                                         .is_urgent = true};
        f.plan.findings = found;
        f.plan.finding_count = 1;
        for (int k = 0; k < 3; k++)
            rule(arena_format(&f.arena, "%c", 'a' + k), rows[i].others[k]);
        const struct text_value code = fixture_text("burn");
        rule("d", rows[i].burn)->when.finding = fixture_list(&f, &code, 1, sizeof code);
        make();
        ck_assert_msg(strcmp(order(), rows[i].wanted) == 0, "row %d: %s", i, order());
        ck_assert_str_eq(f.plan.actions[strcspn(rows[i].wanted, "d")].reasons->from,
                         "finding:burn");
    }
}
END_TEST

/* ---- the veterinarian's hand ---------------------------------------------------------------- */

/* Struck, moved to a place among the others, or words of her own at theirs; a place past the last
 * is the last. What is not there is told and changes nothing. */
START_TEST(what_she_struck_moved_and_wrote)
{
    static const struct {
        const char *action, *own;
        bool strike;
        double place; /* 0: not said */
        const char *wanted, *code;
    } rows[] = {{"b", NULL, true, 0, "acde", "action-struck"},
                {"e", NULL, true, 0, "abcd", "action-struck"},
                {"e", NULL, false, 1, "eabcd", "step-pushed-behind"},
                {"a", NULL, false, 3, "bcade", NULL},
                {"c", NULL, false, 3, "abcde", NULL},
                {"a", NULL, false, 9, "bcdea", NULL},
                {"a", NULL, false, 6, "bcdea", NULL},
                {"a", NULL, false, 5, "bcdea", NULL},
                {"d", NULL, false, 0, "abcde", NULL},
                {"x", NULL, false, 1, "abcde", "decision-without-action"},
                {NULL, "Bring it along.", false, 2, "aownbcde", "step-pushed-behind"},
                /* behind the first three: it does not wait for what can */
                {NULL, "Bring it along.", false, 0, "abcownde", NULL}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        for (int k = 0; k < 5; k++)
            rule(arena_format(&f.arena, "%c", 'a' + k), 50 - k);
        struct visit_decision one = {.strike = fixture_flag(rows[i].strike),
                                     .because = fixture_text("as she said")};
        one.action.text = rows[i].action;
        one.own.text = rows[i].own;
        if (rows[i].place > 0)
            one.place = fixture_quantity(rows[i].place);
        f.visit.decisions = fixture_list(&f, &one, 1, sizeof one);
        make();
        /* the first three are still the first three: a move past them closes the row up */
        ck_assert_msg(strcmp(order(), rows[i].wanted) == 0, "row %d: %s", i, order());
        ck_assert_int_eq(f.plan.review != NULL, rows[i].code != NULL);
        if (rows[i].code)
            ck_assert_str_eq(f.plan.review->code, rows[i].code);
        for (size_t k = 0; k < f.plan.action_count; k++) {
            const struct action *action = &f.plan.actions[k];
            bool is_hers = rows[i].own ? action->own != NULL
                                       : !rows[i].strike && *action->code == *rows[i].action;
            ck_assert_int_eq(action->decision != NULL, is_hers);
        }
    }
}
END_TEST

/* ---- held to what is settled ---------------------------------------------------------------- */

/* Instructions of "a" to "c" about baths; b and c begin on these days, "c" is said as "d". */
static struct declared_text texts[4];

static void declare(int b_from, int c_from, bool turned)
{
    static const char *const codes[] = {"action.a", "action.b", "action.c", "action.d"};
    struct instruction about[4] = {0};
    for (int i = 0; i < 4; i++) {
        about[i].code = fixture_text(codes[i]);
        about[i].topic = fixture_text("bath");
        texts[i] = (struct declared_text){.code = codes[i], .printed = codes[i], .from = f.plan.on};
    }
    texts[1].from = date_add_days(f.plan.on, b_from);
    texts[2].from = date_add_days(f.plan.on, c_from);
    instructions.instructions = fixture_list(&f, about, 4, sizeof *about);
    instructions.index = code_index_make(codes, 4, &f.arena);
    f.plan.texts = texts;
    f.plan.text_index = instructions.index;
    if (!turned)
        rule("a", 70);
    rule("b", 60)->tonight = fixture_flag(true);
    rule("c", 50);
    if (turned)
        rule("a", 70);
}

/* "No bath" ends where the first of the later baths begins, whichever is written first; what begins
 * later is no task of tonight. */
START_TEST(one_ends_where_another_begins)
{
    static const int days[][3] = {{3, 5, 3}, {5, 3, 3}, {4, 4, 4}, {0, 3, 3}, {0, 0, 0}};
    for (int i = 0; i < COUNT(days); i++) {
        again();
        declare(days[i][0], days[i][1], _i);
        make();
        const struct action *a = &f.plan.actions[0];
        ck_assert_str_eq(a->code, "a");
        ck_assert_msg(a->has_end == (days[i][2] > 0), "row %d", i);
        if (a->has_end)
            ck_assert_int_eq(date_days_between(f.plan.on, a->end), days[i][2]);
        for (size_t k = 1; k < 3; k++) {
            const struct action *later = &f.plan.actions[k];
            const int from = days[i][*later->code == 'b' ? 0 : 1];
            ck_assert_int_eq(later->has_start, from > 0);
            ck_assert_int_eq(later->is_first, from == 0);
            ck_assert_int_eq(later->is_tonight, from == 0);
            ck_assert_int_eq(later->has_end, from == 0 && days[i][2] > 0);
        }
    }
}
END_TEST

/* A step of a stance that gave way is told where it was due and no step of the topic is left. */
START_TEST(a_step_that_fell_away_is_asked_about)
{
    static const struct {
        const char *lost, *kept;
        bool is_due, is_left, is_told;
    } rows[] = {{"soft", "hard", true, false, true},
                {"soft", "hard", false, false, false}, /* it could have waited */
                {"soft", "hard", true, true, false},   /* another step of the topic stands for it */
                {"soft", "none", true, false, false},  /* it is forbidden */
                {"other", "hard", true, false, false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        again();
        struct stance_lost lost = {.stance = rows[i].lost, .because = "finding:x"};
        struct stance_phase phase = {
            .stance = rows[i].kept, .from = f.plan.on, .lost = &lost, .lost_count = 1};
        struct topic_plan topic = {.topic = "bath", .phases = &phase, .phase_count = 1};
        if (rows[i].is_left)
            declare(0, 0, false);
        f.plan.topics = &topic;
        f.plan.topic_count = 1;
        struct rule *one = rule("x", 80);
        one->tonight = fixture_flag(rows[i].is_due);
        one->when.stance = fixture_texts(&f, "bath:soft", NULL, NULL, NULL);
        make();
        const struct review *told = fixture_review(&f, "step-lost");
        ck_assert_msg((told != NULL) == rows[i].is_told, "row %zu", i);
        if (told) {
            ck_assert_str_eq(fixture_fact(told, "step")->text, "action.x.short");
            ck_assert_str_eq(fixture_fact(told, "kept")->text, "bath.hard");
        }
    }
}
END_TEST

/* Nothing of it agrees: it is left out and told. A variant gives it other words; two that come to
 * the same words are one with the reasons of both. */
START_TEST(what_agrees_is_kept)
{
    declare(0, 0, false);
    texts[1].printed = NULL;
    make();
    ck_assert_str_eq(order(), "ac");
    ck_assert_str_eq(f.plan.review->code, "action-against-stance");
    ck_assert_str_eq(fixture_fact(f.plan.review, "action")->text, "b");
    again();
    declare(0, 0, false);
    texts[2].printed = "action.d";
    rule("d", 65);
    make();
    ck_assert_str_eq(order(), "acb");
    ck_assert_str_eq(f.plan.actions[1].words, "d");
    ck_assert_double_eq(f.plan.actions[1].harm, 65);
    ck_assert_str_eq(f.plan.actions[1].reasons->rule, "rule-3");
    ck_assert_str_eq(f.plan.actions[1].reasons->next->rule, "rule-4");
}
END_TEST

/* While food waits for warmth, what warms stands right before what offers food, and neither moves
 * where that is so already or where food does not wait. */
START_TEST(it_is_warm_before_it_is_fed)
{
    static const struct {
        double warms, feeds;
        bool waits;
        const char *wanted;
    } rows[] = {{20, 60, true, "awfb"}, {20, 60, false, "afbw"}, {65, 60, true, "awfb"},
                {20, 80, true, "wfab"}, {20, 80, false, "fabw"}, {0, 60, true, "afb"},
                {20, 0, true, "abw"}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        const struct step steps[] = {{.name = fixture_text("w"), .food_waits = fixture_flag(true)},
                                     {.name = fixture_text("f"), .feeds = fixture_flag(true)}};
        f.steps.steps = fixture_list(&f, steps, 2, sizeof *steps);
        if (rows[i].waits)
            fixture_settle(&f, "food-gate", "warm-and-watered-first", "finding:burn");
        rule("a", 70);
        rule("b", 50);
        if (rows[i].feeds > 0)
            rule("f", rows[i].feeds);
        if (rows[i].warms > 0)
            rule("w", rows[i].warms)->first = fixture_flag(rows[i].warms > 60);
        make();
        ck_assert_msg(strcmp(order(), rows[i].wanted) == 0, "row %d: %s", i, order());
    }
}
END_TEST

static Suite *make_suite(void)
{
    Suite *suite = suite_create("actions");
    TCase *tests = tcase_create("actions");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_loop_test(tests, by_harm_and_by_what_can_be_done_tonight, 0, 200);
    tcase_add_test(tests, one_action_of_several_rules);
    tcase_add_test(tests, what_it_came_for_leads);
    tcase_add_test(tests, what_she_struck_moved_and_wrote);
    tcase_add_loop_test(tests, one_ends_where_another_begins, 0, 2);
    tcase_add_test(tests, it_is_warm_before_it_is_fed);
    tcase_add_test(tests, a_step_that_fell_away_is_asked_about);
    tcase_add_test(tests, what_agrees_is_kept);
    suite_add_tcase(suite, tests);
    return suite;
}

int main(void)
{
    return suite_run(make_suite());
}
