/* Actions beside what was settled: the last day that a decision gives them, the day on which they
 * begin, what says as much elsewhere, cautions, what heat needs first, and a reading that another
 * step changes. Rules, topics and texts are invented. */
#include <string.h>

#include "care/fixture.h"
#include "care/stances.h"
#include "common/suite.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

enum { MOST = 6 };

static struct care_fixture f;
static struct rule rules[MOST];
static struct instruction about[MOST];
static const char *codes[MOST];
static size_t rule_count, text_count;
static struct topic_catalogue topics;
static struct instruction_catalogue book;
static struct stance_phase phases[2][3];
static struct topic_plan settled[2];
static struct decision_plan hers = {.reason = "it is thin"};

static void set_up(void)
{
    fixture_init(&f);
    memset(rules, 0, sizeof rules);
    memset(about, 0, sizeof about);
    memset(phases, 0, sizeof phases);
    memset(settled, 0, sizeof settled);
    rule_count = text_count = 0;
    topics = (struct topic_catalogue){0};
    f.in.topics = &topics;
    f.in.instructions = &book;
    f.plan.topics = settled;
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

static struct date in_days(int days)
{
    return date_add_days(f.plan.on, days);
}

/* From today for so many days, and then another; 0: for good. */
static struct stance_phase *settle(const char *topic, const char *stance, int days,
                                   const char *then)
{
    const size_t place = f.plan.topic_count++;
    struct stance_phase *phase = phases[place];
    phase[0] =
        (struct stance_phase){.stance = stance, .from = f.plan.on, .because = "veterinarian"};
    settled[place] = (struct topic_plan){.topic = topic, .phases = phase, .phase_count = 1};
    if (!days)
        return phase;
    phase[0].has_until = true;
    phase[0].until = in_days(days);
    phase[1] = (struct stance_phase){.stance = then, .from = in_days(days), .because = "default"};
    settled[place].phase_count = 2;
    return phase;
}

static struct rule *rule(const char *action, double harm)
{
    struct rule *one = &rules[rule_count++];
    *one = fixture_rule(&f, rule_count, action, harm);
    return one;
}

static struct instruction *declare(const char *code, const char *topic, const char *stance)
{
    struct instruction *one = &about[text_count];
    codes[text_count++] = code;
    one->code = fixture_text(code);
    one->topic.text = topic;
    if (stance)
        one->stances = fixture_texts(&f, stance, NULL, NULL, NULL);
    return one;
}

static struct list of_topic(const char *name, const char *stance)
{
    const struct instruction_topic one = {.name = fixture_text(name),
                                          .stances = fixture_texts(&f, stance, NULL, NULL, NULL)};
    return fixture_list(&f, &one, 1, sizeof one);
}

static void make(void)
{
    book = (struct instruction_catalogue){.instructions =
                                              fixture_list(&f, about, text_count, sizeof *about),
                                          .index = code_index_make(codes, text_count, &f.arena)};
    f.rules.rules = fixture_list(&f, rules, rule_count, sizeof *rules);
    f.plan.decisions = ARENA_ARRAY(&f.arena, struct decision_plan, f.visit.decisions.count + 1);
    ck_assert(instructions_agree_plan(&f.b));
    ck_assert(actions_plan(&f.b));
}

static const struct action *action(const char *code)
{
    for (size_t i = 0; i < f.plan.action_count; i++)
        if (strcmp(f.plan.actions[i].code, code) == 0)
            return &f.plan.actions[i];
    ck_abort_msg("no action %s", code);
    return NULL;
}

static const char *order(void)
{
    const char *all = "";
    for (size_t i = 0; i < f.plan.action_count; i++)
        all = arena_format(&f.arena, "%s%s", all, f.plan.actions[i].code);
    return all;
}

/* ---- what a decision says of its end
 * -------------------------------------------------------------- */

START_TEST(an_action_ends_with_the_decision_that_it_tells)
{
    static const struct {
        bool decided;
        int days;
        const char *agrees; /* the stance that its text agrees with; NULL: all */
        bool has_end, has_reason;
    } rows[] = {{true, 5, "soak", true, true},
                {false, 5, "soak", false, false},
                {true, 0, "soak", false, true}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        struct stance_phase *now = settle("bath", "soak", rows[i].days, "usual");
        now->decision = rows[i].decided ? &hers : NULL;
        declare("action.b", "bath", rows[i].agrees);
        rule("b", 50);
        make();
        const struct action *b = action("b");
        ck_assert_msg(b->has_end == rows[i].has_end, "row %d", i);
        ck_assert_msg((b->decided_why != NULL) == rows[i].has_reason, "row %d", i);
        if (b->has_end)
            ck_assert_int_eq(date_days_between(f.plan.on, b->end), rows[i].days);
    }
}
END_TEST

/* A variant for another stance has no last day. */
START_TEST(a_variant_for_another_stance_has_no_end)
{
    settle("bath", "none", 5, "usual")->decision = &hers;
    struct instruction *one = declare("action.b", "bath", "soak");
    const struct instruction_variant later = {
        .stances = fixture_texts(&f, "none", NULL, NULL, NULL), .key = fixture_text("action.b")};
    one->variants = fixture_list(&f, &later, 1, sizeof later);
    rule("b", 50);
    make();
    ck_assert(!action("b")->has_end);
    ck_assert_ptr_null(action("b")->decided_why);
}
END_TEST

/* A further topic says its end where a rule asks for the action because of it. */
START_TEST(a_further_topic_counts_where_it_is_why)
{
    static const struct {
        const char *asks[2]; /* the stances that the rule asks for */
        bool has_end;
    } rows[] = {{{"bath:soak", NULL}, true},
                {{"food:usual", "bath:soak"}, true},
                {{NULL, NULL}, false},
                {{"bath-tub:soak", "bath"}, false},
                {{"food:usual", NULL}, false}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        settle("bath", "soak", 5, "usual")->decision = &hers;
        settle("food", "usual", 0, NULL);
        declare("action.b", NULL, NULL)->topics = of_topic("bath", "soak");
        rule("b", 50); /* another reason, of no stance */
        struct rule *why = rule("b", 40);
        why->when.stance = fixture_texts(&f, rows[i].asks[0], rows[i].asks[1], NULL, NULL);
        make();
        ck_assert_msg(action("b")->has_end == rows[i].has_end, "row %d", i);
    }
}
END_TEST

/* A rest of the gut that goes on with another has its last day there. */
START_TEST(a_rest_that_goes_on_ends_later)
{
    static const struct {
        const char *now, *then;
        bool has_end;
    } rows[] = {{"none-until-vet", "rest-until", false},
                {"none-until-vet", "small", true},
                {"small", "rest-until", true},
                {"small", "usual", true}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        settle("food", rows[i].now, 3, rows[i].then)->decision = &hers;
        declare("action.b", "food", rows[i].now);
        rule("b", 50);
        make();
        ck_assert_msg(action("b")->has_end == rows[i].has_end, "row %d", i);
        ck_assert_str_eq(action("b")->decided_why, "it is thin");
    }
}
END_TEST

/* ---- when it begins
 * ------------------------------------------------------------------------------- */

START_TEST(an_action_begins_when_its_topic_agrees)
{
    for (int later = 0; later < 2; later++) {
        again();
        settle("food", "usual", 0, NULL);
        settle("bath", later ? "none" : "soak", 4, later ? "soak" : "none");
        struct instruction *one = declare("action.b", "bath", "soak");
        one->any_phase = fixture_flag(true);
        rule("b", 50);
        make();
        ck_assert_int_eq(action("b")->has_start, later);
        ck_assert_int_eq(date_days_between(f.plan.on, action("b")->start), later ? 4 : 0);
        ck_assert_int_eq(action("b")->is_first, !later);
    }
}
END_TEST

/* ---- asked for a second time
 * ---------------------------------------------------------------------- */

/* Ten more, and never past a hundred. */
START_TEST(what_was_not_done_stands_higher)
{
    static const struct {
        double harm, then;
    } rows[] = {{50, 60}, {90, 100}, {95, 100}};
    static struct action before = {.code = "b"};
    static struct care_plan plan_before;
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        plan_before = (struct care_plan){.actions = &before, .action_count = 1};
        f.in.previous.plan = &plan_before;
        rule("a", 40);
        rule("b", rows[i].harm);
        make();
        const struct action *b = action("b");
        ck_assert_double_eq(b->harm, b->is_second ? rows[i].then : rows[i].harm);
        ck_assert_double_eq(action("a")->harm, 40);
    }
}
END_TEST

/* ---- cautions and what says as much
 * --------------------------------------------------------------- */

START_TEST(cautions_are_those_for_this_animal)
{
    declare("caution.b", "no-topic", NULL);
    const struct instruction_variant own = {.key = fixture_text("caution.d")};
    declare("caution.c", NULL, NULL)->variants = fixture_list(&f, &own, 1, sizeof own);
    f.rules.cautions = fixture_texts(&f, "a", "b", "c", NULL);
    make();
    ck_assert_uint_eq(f.plan.caution_count, 2);
    ck_assert_str_eq(f.plan.cautions[0], "a");
    ck_assert_str_eq(f.plan.cautions[1], "d");
}
END_TEST

/* What a step of today says stands nowhere else; of a variant its own row speaks. */
START_TEST(what_a_step_says_is_printed_once)
{
    static const struct {
        const char *said_by, *variant_said_by; /* of the text, of its variant */
        bool variant, printed;
    } rows[] = {{"b", NULL, false, false}, {"c", NULL, false, true}, {NULL, NULL, false, true},
                {"b", NULL, true, true},   {NULL, "b", true, false}, {"c", "b", true, false}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        declare("sign.a", NULL, NULL);
        struct instruction *one = declare("sign.b", NULL, NULL);
        const struct instruction_variant variants[] = {
            {.whom.groups = fixture_one_of(&f, GROUP_FROG),
             .key = fixture_text("sign.e"),
             .said_by = fixture_text("b")},
            {.key = fixture_text("sign.d"), .said_by = {.text = rows[i].variant_said_by}}};
        one->said_by.text = rows[i].said_by;
        f.species.group = fixture_choice(GROUP_LIZARD);
        if (rows[i].variant)
            one->variants = fixture_list(&f, variants, 2, sizeof *variants);
        rule("b", 50);
        make();
        ck_assert_msg((f.plan.texts[1].printed != NULL) == rows[i].printed, "row %d", i);
        ck_assert_ptr_nonnull(f.plan.texts[0].printed);
    }
}
END_TEST

/* What begins later leaves today's words in their place. */
START_TEST(what_a_step_of_later_says_stays)
{
    settle("bath", "none", 4, "soak");
    struct instruction *one = declare("action.b", "bath", "soak");
    one->any_phase = fixture_flag(true);
    declare("sign.b", NULL, NULL)->said_by = fixture_text("b");
    rule("b", 50);
    make();
    ck_assert(action("b")->has_start);
    ck_assert_ptr_nonnull(f.plan.texts[1].printed);
}
END_TEST

/* ---- heat that is safe first
 * ---------------------------------------------------------------------- */

/* A guard stands before "turn it up": among the first ones where it is one of them, else at once
 * behind them; and it is due tonight. */
START_TEST(what_makes_heat_safe_stands_before_it)
{
    static const struct {
        double guard;
        const char *safe_first;
        bool heats; /* or it takes a heater away */
        const char *wanted;
        bool tonight;
    } rows[] = {{45, "w.how", true, "agwbc", true},
                {45, "w.how", false, "awgbc", true},
                {10, "w.how", true, "awbgc", true},
                {10, "w.do", true, "awbcg", false}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        const struct step steps[] = {
            {.name = fixture_text("w"),
             .heats = fixture_flag(rows[i].heats),
             .safe_heat_first = fixture_texts(&f, rows[i].safe_first, NULL, NULL, NULL)},
            {.name = fixture_text("g"), .makes_heat_safe = fixture_flag(true)},
            {.name = fixture_text("a")}};
        f.steps.steps = fixture_list(&f, steps, 3, sizeof *steps);
        rule("a", 60);
        rule("w", 50)->tonight = fixture_flag(true);
        rule("b", 40);
        rule("c", 30);
        rule("g", rows[i].guard);
        make();
        ck_assert_msg(strcmp(order(), rows[i].wanted) == 0, "row %d: %s", i, order());
        ck_assert_msg(action("g")->is_tonight == rows[i].tonight, "row %d", i);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("actions_decided");
    TCase *tcase = tcase_create("actions_decided");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, an_action_ends_with_the_decision_that_it_tells);
    tcase_add_test(tcase, a_variant_for_another_stance_has_no_end);
    tcase_add_test(tcase, a_further_topic_counts_where_it_is_why);
    tcase_add_test(tcase, a_rest_that_goes_on_ends_later);
    tcase_add_test(tcase, an_action_begins_when_its_topic_agrees);
    tcase_add_test(tcase, what_was_not_done_stands_higher);
    tcase_add_test(tcase, cautions_are_those_for_this_animal);
    tcase_add_test(tcase, what_a_step_says_is_printed_once);
    tcase_add_test(tcase, what_a_step_of_later_says_stays);
    tcase_add_test(tcase, what_makes_heat_safe_stands_before_it);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
