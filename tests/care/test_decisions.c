/* A veterinarian's decision held against what there is: a name that is none is told with the one
 * that it is near, an end that is missing is asked for, and what can harm needs her second yes. The
 * topics, stances and settlements are invented. */
#include <string.h>

#include "care/fixture.h"
#include "care/stances.h"
#include "common/suite.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

enum { TOPICS = 4 };

static struct care_fixture f;
static struct topic topics[TOPICS];
static struct topic_catalogue book;
static struct settlement_book settlements;
static struct stance_settlement both;
static struct finding_plan found;
static struct finding entry;
static const struct finding *findings[] = {&entry};

/* Food must not be forced and fasts for a time alone; a lizard has no water topic; warmth has
 * parts. */
static void set_up(void)
{
    fixture_init(&f);
    memset(topics, 0, sizeof topics);
    memset(&both, 0, sizeof both);
    topics[0] = (struct topic){.name = fixture_text("food"),
                               .stances = fixture_texts(&f, "none", "forced", "usual", NULL),
                               .needs_end = fixture_texts(&f, "none", NULL, NULL, NULL),
                               .dangerous = fixture_texts(&f, "forced", NULL, NULL, NULL)};
    topics[1] = (struct topic){.name = fixture_text("swimming"),
                               .stances = fixture_texts(&f, "none", "usual", NULL, NULL),
                               .whom = {.groups = fixture_one_of(&f, GROUP_TURTLE)}};
    topics[2] = (struct topic){.name = fixture_text("warmth.day"),
                               .stances = fixture_texts(&f, "warm", "usual", NULL, NULL)};
    topics[3] = (struct topic){.name = fixture_text("warmth.night"),
                               .stances = fixture_texts(&f, "warm", "usual", NULL, NULL)};
    for (int i = 0; i < TOPICS; i++)
        topics[i].usual = fixture_text("usual");
    book = (struct topic_catalogue){.topics = fixture_list(&f, topics, TOPICS, sizeof *topics)};
    settlements = (struct settlement_book){0};
    f.in.topics = &book;
    f.in.settlements = &settlements;
    found = (struct finding_plan){.code = "burn", .severity = SEVERITY_MILD};
    entry = (struct finding){0};
    f.plan.findings = &found;
    f.plan.finding_count = 1;
    f.b.findings = findings;
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

static struct visit_decision one;

static void decide(const char *topic, const char *stance)
{
    one = (struct visit_decision){.topic = fixture_text(topic), .stance = fixture_text(stance)};
}

/* As the plan goes: her words first, then the topics, then what is held against them. */
static bool holds(void)
{
    f.visit.decisions = fixture_list(&f, &one, 1, sizeof one);
    settlements.settlements = fixture_list(&f, &both, both.name.text ? 1 : 0, sizeof both);
    decisions_begin(&f.b);
    ck_assert(stances_settle_plan(&f.b));
    return decisions_plan(&f.b);
}

static const struct {
    const char *topic, *stance, *code, *says; /* NULL: it holds */
} name_rows[] = {
    {"food", "usual", NULL, NULL},
    {"foot", "usual", "unknown-topic", "did you mean 'food'?"},
    {"law", "usual", "unknown-topic", "there is no topic 'law'"},
    {"colour", "usual", "unknown-topic", "there is no topic 'colour'"}, /* as long as "warmth" */
    {"warmth", "warm", "topic-has-parts", "warmth.day, warmth.night"},
    {"warmth.night", "warm", NULL, NULL},
    {"swimming", "usual", "topic-does-not-fit", "'swimming'"},
    {"food", "usually", "unknown-stance", "did you mean 'usual'?"},
    {"food", "xyzxyzxyz", "unknown-stance", "it has none, forced, usual"},
};

START_TEST(each_name_is_looked_up)
{
    decide(name_rows[_i].topic, name_rows[_i].stance);
    ck_assert_int_eq(holds(), name_rows[_i].code == NULL);
    if (name_rows[_i].code) {
        ck_assert_str_eq(f.diag.first->code, name_rows[_i].code);
        ck_assert_msg(strstr(f.diag.first->text, name_rows[_i].says) != NULL, "%s",
                      f.diag.first->text);
        return;
    }
    const struct review *told = fixture_review(&f, "stance-decided");
    ck_assert_int_eq(told->kind, REVIEW_OVERRIDE);
    ck_assert_str_eq(fixture_fact(told, "topic")->text, name_rows[_i].topic);
    ck_assert_str_eq(fixture_fact(told, "stance")->text, name_rows[_i].stance);
}
END_TEST

START_TEST(an_action_is_one_of_the_rules)
{
    const struct rule rules[] = {{.action = fixture_text("warm-up")},
                                 {.action = fixture_text("dry-floor")}};
    f.rules.rules = fixture_list(&f, rules, 2, sizeof *rules);
    for (int i = 0; i < 3; i++) {
        one = (struct visit_decision){.action = fixture_text(i == 0   ? "warm-up"
                                                             : i == 1 ? "dry-floor"
                                                                      : "dry-flour")};
        ck_assert_int_eq(holds(), i < 2);
    }
    ck_assert_str_eq(f.diag.first->code, "unknown-action");
    ck_assert_ptr_nonnull(strstr(f.diag.first->text, "did you mean 'dry-floor'?"));
    one = (struct visit_decision){.own = fixture_text("Bring it along.")};
    ck_assert(holds());
}
END_TEST

START_TEST(what_must_end_has_an_end)
{
    decide("food", "none");
    ck_assert(!holds() && fixture_said(&f, "decision-without-end"));
    again();
    decide("food", "none");
    one.until = fixture_date(2026, 3, 20);
    ck_assert(holds());
}
END_TEST

enum danger {
    OF_THE_TOPIC,
    OF_THE_FINDING,
    OF_ANOTHER,
    AGAINST_ASKING,
    AGAINST_CONFIRMED,
    DANGERS
};

/* What can harm: of the topic itself, beside what was found, another animal's, or against what a
 * settlement asks to be asked for. It holds with her second yes and not without. */
START_TEST(what_can_harm_needs_a_second_yes)
{
    for (int yes = 0; yes < 2; yes++) {
        again();
        decide("food", _i == OF_THE_TOPIC ? "forced" : "usual");
        if (_i == OF_THE_FINDING)
            entry.dangerous = fixture_texts(&f, "food:none", "food:usual", NULL, NULL);
        if (_i == OF_ANOTHER) {
            const struct topic_translation drop = {
                .from = fixture_texts(&f, "any", NULL, NULL, NULL), .to = fixture_text("drop")};
            ((struct topic *)book.topics.items)->translate =
                fixture_list(&f, &drop, 1, sizeof drop);
        }
        if (_i >= AGAINST_ASKING) {
            both = (struct stance_settlement){
                .name = fixture_text("both"),
                .reason = fixture_text("it is thin"),
                .when = {.finding = fixture_texts(&f, "burn", NULL, NULL, NULL)},
                .outcome = fixture_texts(&f, "food:forced", NULL, NULL, NULL),
                .ask = fixture_flag(_i == AGAINST_ASKING),
                .confirm = fixture_flag(_i == AGAINST_CONFIRMED)};
            stances_call(&f.b, "food:forced",
                         &(struct stance_call){
                             .from = f.plan.on, .because = "finding:burn", .finding = "burn"});
        }
        one.confirmed = fixture_flag(yes);
        ck_assert_msg(holds() == yes, "%d, %d", _i, yes);
        ck_assert_int_eq(fixture_said(&f, "decision-unconfirmed"), !yes);
    }
}
END_TEST

/* The same where nothing of it is true: she is asked for nothing. */
START_TEST(what_cannot_harm_needs_no_second_yes)
{
    decide("food", "usual");
    entry.dangerous = fixture_texts(&f, "food:none", NULL, NULL, NULL);
    ck_assert(holds());
    again();
    decide("food", "usual"); /* beside a finding that is fine */
    found.severity = SEVERITY_NORMAL;
    entry.dangerous = fixture_texts(&f, "food:usual", NULL, NULL, NULL);
    ck_assert(holds());
    again();
    decide("food", "usual"); /* a settlement that asks for nothing */
    both =
        (struct stance_settlement){.name = fixture_text("both"),
                                   .when = {.finding = fixture_texts(&f, "burn", NULL, NULL, NULL)},
                                   .outcome = fixture_texts(&f, "food:forced", NULL, NULL, NULL)};
    ck_assert(holds());
}
END_TEST

static Suite *make_suite(void)
{
    Suite *suite = suite_create("decisions");
    TCase *tests = tcase_create("decisions");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_loop_test(tests, each_name_is_looked_up, 0, COUNT(name_rows));
    tcase_add_test(tests, an_action_is_one_of_the_rules);
    tcase_add_test(tests, what_must_end_has_an_end);
    tcase_add_loop_test(tests, what_can_harm_needs_a_second_yes, 0, DANGERS);
    tcase_add_test(tests, what_cannot_harm_needs_no_second_yes);
    suite_add_tcase(suite, tests);
    return suite;
}

int main(void)
{
    return suite_run(make_suite());
}
