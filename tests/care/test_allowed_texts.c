/* Which declared texts may be printed beside what was settled: itself, its variant or nothing, on
 * which day; and which stances speak for themselves. Topics, stances and texts are invented. */
#include <stdint.h>
#include <string.h>

#include "care/fixture.h"
#include "care/stances.h"
#include "common/suite.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

enum { TEXTS_MOST = 6, TOPICS_MOST = 3, PHASES_MOST = 3 };

static struct care_fixture f;
static struct instruction texts[TEXTS_MOST];
static const char *codes[TEXTS_MOST];
static size_t text_count;
static struct instruction_catalogue book;
static struct topic_plan settled[TOPICS_MOST];
static struct stance_phase phases[TOPICS_MOST][PHASES_MOST];
static struct decision_plan decision;
static struct topic topics[TOPICS_MOST];
static struct topic_catalogue topic_book;
static struct finding_plan finding;
static struct procedure_plan procedure;
static struct action action;

static const struct date today = {2026, 3, 14};

static struct date days_on(int days)
{
    return date_add_days(today, days);
}

/* A topic whose stance of today is `stance`. */
static struct stance_phase *settle(int topic, const char *name, const char *stance)
{
    settled[topic] = (struct topic_plan){.topic = name, .phases = phases[topic], .phase_count = 1};
    phases[topic][0] =
        (struct stance_phase){.stance = stance, .from = today, .because = "finding:burn"};
    if (f.plan.topic_count <= (size_t)topic)
        f.plan.topic_count = (size_t)topic + 1;
    return phases[topic];
}

/* And another from so many days on. */
static void then(int topic, int days, const char *stance)
{
    phases[topic][settled[topic].phase_count++] =
        (struct stance_phase){.stance = stance, .from = days_on(days), .because = "default"};
}

static struct instruction *declare(const char *code)
{
    struct instruction *one = &texts[text_count++];
    *one = (struct instruction){.code = fixture_text(code), .section = fixture_text("actions")};
    return one;
}

static struct list one_topic(const char *name, const char *stance)
{
    const struct instruction_topic one = {.name = fixture_text(name),
                                          .stances = fixture_texts(&f, stance, NULL, NULL, NULL)};
    return fixture_list(&f, &one, 1, sizeof one);
}

static struct list one_variant(struct instruction_variant variant)
{
    return fixture_list(&f, &variant, 1, sizeof variant);
}

static void set_up(void)
{
    fixture_init(&f);
    memset(texts, 0, sizeof texts);
    memset(topics, 0, sizeof topics);
    memset(phases, 0, sizeof phases);
    memset(settled, 0, sizeof settled);
    text_count = 0;
    f.plan.topics = settled;
    f.plan.topic_count = 0;
    decision = (struct decision_plan){0};
    finding = (struct finding_plan){.code = "burn", .severity = SEVERITY_MILD};
    procedure = (struct procedure_plan){.code = "stitches"};
    action = (struct action){.code = "bathe"};
    topic_book = (struct topic_catalogue){0};
    f.in.topics = &topic_book;
    f.in.instructions = &book;
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

static void read_book(void)
{
    for (size_t i = 0; i < text_count; i++)
        codes[i] = texts[i].code.text;
    book = (struct instruction_catalogue){
        .instructions = fixture_list(&f, texts, text_count, sizeof *texts),
        .not_now = book.not_now,
        .index = code_index_make(codes, text_count, &f.arena),
    };
}

/* What the plan says of the first one. */
static const struct declared_text *agreed(void)
{
    read_book();
    ck_assert(instructions_agree_plan(&f.b));
    return &f.plan.texts[0];
}

static bool is_printed(void)
{
    const char *printed = agreed()->printed;
    ck_assert(!printed || strcmp(printed, texts[0].code.text) == 0);
    return printed != NULL;
}

static bool is_on(struct date a, struct date b)
{
    return date_compare(a, b) == 0;
}

/* ---- itself or nothing
 * --------------------------------------------------------------------------- */

START_TEST(a_text_without_a_topic_is_always_printed)
{
    declare("action.look");
    ck_assert(is_printed());
    ck_assert_ptr_null(f.plan.texts[0].speaks);
    ck_assert_ptr_null(f.plan.texts[0].whom);
    ck_assert(is_on(f.plan.texts[0].from, today));
}
END_TEST

START_TEST(a_text_is_printed_with_the_stances_it_agrees_with)
{
    static const struct {
        const char *stance, *with, *agrees;
        bool printed;
    } rows[] = {
        {"none", NULL, "none", true},   {"some", NULL, "none", false},
        {"some", "none", "none", true}, {"some", "more", "none", false},
        {"some", "none", "some", true}, {"some", NULL, NULL, true},
    };
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        struct stance_phase *now = settle(0, "bath", rows[i].stance);
        now->with = &rows[i].with;
        now->with_count = rows[i].with != NULL;
        struct instruction *one = declare("action.bathe");
        one->topic = fixture_text("bath");
        one->stances = fixture_texts(&f, rows[i].agrees, NULL, NULL, NULL);
        ck_assert_msg(is_printed() == rows[i].printed, "row %d", i);
        ck_assert_str_eq(f.plan.texts[0].topic, "bath");
        ck_assert_str_eq(f.plan.texts[0].speaks, "bath");
    }
}
END_TEST

/* An animal that has no such topic is not told of it; a further topic that it does not have is
 * nothing that could disagree. */
START_TEST(a_topic_that_an_animal_does_not_have)
{
    struct instruction *one = declare("action.swim");
    one->topic = fixture_text("swimming");
    ck_assert(!is_printed());
    one->topic = (struct text_value){0};
    one->topics = one_topic("swimming", "none");
    ck_assert(is_printed());
    ck_assert_str_eq(f.plan.texts[0].speaks, "swimming");
    ck_assert_ptr_null(f.plan.texts[0].topic);
}
END_TEST

START_TEST(further_topics_must_all_agree)
{
    static const struct {
        const char *bath, *food;
        bool printed;
    } rows[] = {{"none", "some", true}, {"some", "some", false}, {"none", "none", false}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        settle(0, "bath", rows[i].bath);
        settle(1, "food", rows[i].food);
        const struct instruction_topic both[] = {
            {.name = fixture_text("bath"), .stances = fixture_texts(&f, "none", NULL, NULL, NULL)},
            {.name = fixture_text("food"), .stances = fixture_texts(&f, "some", NULL, NULL, NULL)}};
        declare("action.wash")->topics = fixture_list(&f, both, 2, sizeof *both);
        ck_assert_msg(is_printed() == rows[i].printed, "row %d", i);
        ck_assert_str_eq(f.plan.texts[0].speaks, "bath");
    }
}
END_TEST

START_TEST(a_text_is_for_the_animals_that_it_names)
{
    struct instruction *one = declare("action.look");
    const struct choice_value groups[] = {fixture_choice(GROUP_SNAKE),
                                          fixture_choice(GROUP_LIZARD)};
    f.species.group = fixture_choice(GROUP_LIZARD);
    one->whom.groups = fixture_list(&f, groups, 2, sizeof *groups);
    ck_assert(is_printed());
    ck_assert_str_eq(f.plan.texts[0].whom, "snake, lizard");
    one->whom.groups = fixture_list(&f, groups, 1, sizeof *groups);
    ck_assert(!is_printed());
    ck_assert_str_eq(f.plan.texts[0].whom, "snake");
}
END_TEST

/* Dated lines: one phase of the planner's eight weeks is enough, the last day of them counted. */
START_TEST(a_dated_line_asks_for_one_phase_of_eight_weeks)
{
    static const struct {
        int days;
        bool any_phase, printed;
    } rows[] = {{1, true, true},   {55, true, true},  {56, true, true},
                {57, true, false}, {1, false, false}, {56, false, false}};
    for (int i = 0; i < COUNT(rows) * 2; i++) {
        const int own = i / COUNT(rows); /* whichever place it has among the topics */
        again();
        settle(!own, "food", "none");
        settle(own, "bath", "none");
        then(own, rows[i % COUNT(rows)].days, "some");
        struct instruction *one = declare("date.bath");
        one->topic = fixture_text("bath");
        one->stances = fixture_texts(&f, "some", NULL, NULL, NULL);
        one->any_phase = fixture_flag(rows[i % COUNT(rows)].any_phase);
        ck_assert_msg(is_printed() == rows[i % COUNT(rows)].printed, "row %d", i);
    }
}
END_TEST

START_TEST(another_topics_phase_does_not_count)
{
    settle(0, "food", "none");
    then(0, 1, "some");
    settle(1, "bath", "none");
    struct instruction *one = declare("date.bath");
    one->topic = fixture_text("bath");
    one->stances = fixture_texts(&f, "some", NULL, NULL, NULL);
    one->any_phase = fixture_flag(true);
    ck_assert(!is_printed());
}
END_TEST

/* How it is fed is told for the day on which food is back. */
START_TEST(a_text_at_meals_is_of_the_day_that_food_is_back)
{
    for (int at_meals = 0; at_meals < 2; at_meals++) {
        again();
        settle(0, "food", "none-until-vet");
        then(0, 3, "rest-until");
        then(0, 5, "small");
        struct instruction *one = declare("action.feed");
        one->topic = fixture_text("food");
        one->stances = fixture_texts(&f, "small", NULL, NULL, NULL);
        one->at_meals = fixture_flag(at_meals);
        ck_assert_int_eq(is_printed(), at_meals);
        ck_assert(is_on(f.plan.texts[0].from, days_on(at_meals ? 5 : 0)));
        ck_assert(is_on(plan_food_day(&f.plan), days_on(5)));
    }
}
END_TEST

/* ---- what a decision puts aside
 * ------------------------------------------------------------------ */

static void decide_until(int topic, int days)
{
    phases[topic][0].decision = &decision;
    phases[topic][0].has_until = true;
    phases[topic][0].until = days_on(days);
}

/* A step and what a stance says come back when the decision is over; other texts do not. */
START_TEST(a_step_comes_back_when_a_decision_ends)
{
    static const struct {
        const char *code;
        bool comes_back;
    } rows[] = {{"action.bathe", true},
                {"stance.bath.some", true},
                {"sign.bathe", false},
                {"actions.bathe", false},
                {"stances.bath", false}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        settle(0, "bath", "none");
        then(0, 4, "some");
        decide_until(0, 4);
        struct instruction *one = declare(rows[i].code);
        one->topic = fixture_text("bath");
        one->stances = fixture_texts(&f, "some", NULL, NULL, NULL);
        ck_assert_msg(is_printed() == rows[i].comes_back, "row %d", i);
        ck_assert(is_on(f.plan.texts[0].from, days_on(rows[i].comes_back ? 4 : 0)));
    }
}
END_TEST

START_TEST(only_a_decision_with_a_last_day_gives_it_back)
{
    for (int missing = 0; missing < 3; missing++) {
        again();
        settle(0, "bath", "none");
        then(0, 4, "some");
        decide_until(0, 4);
        if (missing == 1)
            phases[0][0].decision = NULL;
        if (missing == 2)
            phases[0][0].has_until = false;
        struct instruction *one = declare("action.bathe");
        one->topic = fixture_text("bath");
        one->stances = fixture_texts(&f, "some", NULL, NULL, NULL);
        ck_assert_int_eq(is_printed(), missing == 0);
    }
}
END_TEST

/* Of two decisions the one that ends first is asked, whichever of its topics it is about. */
START_TEST(the_soonest_end_of_its_topics_counts)
{
    for (int first = 0; first < 2; first++) {
        again();
        settle(0, "bath", "none");
        then(0, 2, "some");
        settle(1, "food", "none");
        then(1, 2, "some");
        decide_until(0, first ? 6 : 3);
        decide_until(1, first ? 3 : 6);
        struct instruction *one = declare("action.bathe");
        one->topic = fixture_text("bath");
        one->stances = fixture_texts(&f, "some", NULL, NULL, NULL);
        one->topics = one_topic("food", "some");
        ck_assert(is_printed());
        ck_assert(is_on(f.plan.texts[0].from, days_on(3)));
    }
}
END_TEST

/* ---- variants
 * ------------------------------------------------------------------------------------ */

START_TEST(the_first_variant_that_fits_is_printed)
{
    static const struct {
        const char *bath, *food, *printed;
        int group;
    } rows[] = {
        {"none", "some", "action.wipe", GROUP_LIZARD}, /* all three of its conditions hold */
        {"none", "some", "action.bathe.own", GROUP_SNAKE},
        {"none", "none", "action.bathe.own", GROUP_LIZARD},
        {"some", "some", "action.bathe.own", GROUP_LIZARD},
    };
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        f.species.group = fixture_choice(rows[i].group);
        settle(0, "bath", rows[i].bath);
        settle(1, "food", rows[i].food);
        const struct instruction_variant both[] = {
            {.whom = {.groups = fixture_one_of(&f, GROUP_LIZARD)},
             .stances = fixture_texts(&f, "none", NULL, NULL, NULL),
             .topics = one_topic("food", "some"),
             .key = fixture_text("action.wipe")},
            {.key = fixture_text("action.bathe.own")}};
        struct instruction *one = declare("action.bathe");
        one->topic = fixture_text("bath");
        one->variants = fixture_list(&f, both, 2, sizeof *both);
        ck_assert_msg(strcmp(agreed()->printed, rows[i].printed) == 0, "row %d: %s", i,
                      agreed()->printed);
    }
}
END_TEST

/* Of what speaks of no topic of its own a variant's stances say nothing. */
START_TEST(a_variant_without_a_topic_asks_for_no_stance)
{
    declare("action.look")->variants = one_variant((struct instruction_variant){
        .stances = fixture_texts(&f, "none", NULL, NULL, NULL), .key = fixture_text("action.see")});
    ck_assert_str_eq(agreed()->printed, "action.see");
}
END_TEST

/* ---- keys
 * ---------------------------------------------------------------------------------------- */

static const char *key_of(const char *key)
{
    return plan_printed_key(&f.plan, key, &f.arena);
}

START_TEST(a_key_is_printed_as_its_text_is)
{
    settle(0, "bath", "none");
    declare("action.a"); /* as it stands */
    declare("action.b")->variants =
        one_variant((struct instruction_variant){.key = fixture_text("action.c")});
    declare("action.c.how")->variants =
        one_variant((struct instruction_variant){.key = fixture_text("action.d.how")});
    declare("action.e")->topic = fixture_text("no-topic");
    agreed();
    ck_assert_uint_eq(plan_instruction_places(&f.plan), 4);
    ck_assert_str_eq(key_of("action.z.how"), "action.z.how"); /* nothing is declared of it */
    ck_assert_str_eq(key_of("action.a"), "action.a");
    ck_assert_str_eq(key_of("action.a.how"), "action.a.how");
    ck_assert_str_eq(key_of("action.b"), "action.c");
    ck_assert_str_eq(key_of("action.b.do"), "action.c.do");
    ck_assert_str_eq(key_of("action.b.how"), "action.d.how"); /* that part has a variant too */
    ck_assert_str_eq(key_of("action.b.how.long"), "action.c.how.long");
    ck_assert_ptr_null(key_of("action.e.do"));
}
END_TEST

START_TEST(a_part_of_the_variant_that_does_not_agree_is_printed_as_it_stands)
{
    declare("action.b")->variants =
        one_variant((struct instruction_variant){.key = fixture_text("action.c")});
    declare("action.c.how")->topic = fixture_text("no-topic");
    agreed();
    ck_assert_str_eq(key_of("action.b.how"), "action.c.how");
}
END_TEST

START_TEST(whether_a_variant_is_about_the_same_topic)
{
    static const struct {
        const char *own, *others;
        bool same;
    } rows[] = {{"bath", "bath", true},
                {"bath", "food", false},
                {NULL, "food", false},
                {"bath", NULL, false}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        settle(0, "bath", "none");
        settle(1, "food", "none");
        struct instruction *one = declare("action.a");
        one->topic.text = rows[i].own;
        one->variants = one_variant((struct instruction_variant){.key = fixture_text("action.b")});
        declare("action.b")->topic.text = rows[i].others;
        declare("action.c")->topic = fixture_text("no-topic");
        struct instruction *undeclared = declare("action.d");
        undeclared->topic = fixture_text("bath");
        undeclared->variants =
            one_variant((struct instruction_variant){.key = fixture_text("action.z")});
        agreed();
        ck_assert_msg(plan_prints_same_topic(&f.plan, "action.a") == rows[i].same, "row %d", i);
        ck_assert(plan_prints_same_topic(&f.plan, "action.b")); /* itself */
        ck_assert(!plan_prints_same_topic(&f.plan, "action.c"));
        ck_assert(!plan_prints_same_topic(&f.plan, "action.d"));
        ck_assert(plan_prints_same_topic(&f.plan, "sign.a")); /* nothing is declared of it */
    }
}
END_TEST

/* ---- what stands for itself
 * ---------------------------------------------------------------------- */

static size_t speaking(void)
{
    agreed();
    ck_assert(stances_speak_plan(&f.b));
    return f.plan.speaking_count;
}

static struct instruction *declare_stance(const char *code, const char *topic)
{
    struct instruction *one = declare(code);
    one->topic = fixture_text(topic);
    return one;
}

START_TEST(a_stance_that_was_called_for_speaks)
{
    settle(0, "bath", "none");
    declare_stance("stance.bath.none", "bath");
    book.not_now = fixture_texts(&f, "stance.bath.none", NULL, NULL, NULL);
    ck_assert_uint_eq(speaking(), 1);
    const struct instruction_plan *one = &f.plan.speaking[0];
    ck_assert_str_eq(one->code, "stance.bath.none");
    ck_assert_str_eq(one->key, "stance.bath.none");
    ck_assert_str_eq(one->section, "actions");
    ck_assert_str_eq(one->topic, "bath");
    ck_assert_str_eq(one->stance, "none");
    ck_assert(is_on(one->from, today));
    ck_assert(one->is_not_now);
    ck_assert(!one->said_at_home);
    book.not_now = (struct list){0};
    ck_assert_uint_eq(speaking(), 1);
    ck_assert(!f.plan.speaking[0].is_not_now);
}
END_TEST

/* What is usual is not spoken of, but for what every keeper of an ill animal asks; how bare skin
 * is touched is told of any. */
START_TEST(what_is_usual_speaks_where_every_keeper_asks)
{
    static const struct {
        const char *topic;
        int group;
        bool is_ill, speaks;
    } rows[] = {
        {"bath", GROUP_LIZARD, true, true},       {"bath", GROUP_LIZARD, false, false},
        {"handling", GROUP_LIZARD, true, true},   {"handling", GROUP_LIZARD, false, false},
        {"transport", GROUP_LIZARD, true, true},  {"transport", GROUP_FROG, false, false},
        {"handling", GROUP_FROG, false, true},    {"handling", GROUP_SALAMANDER, false, true},
        {"bath", GROUP_FROG, false, false},       {"air", GROUP_FROG, true, false},
        {"handling", GROUP_TURTLE, false, false},
    };
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        f.species.group = fixture_choice(rows[i].group);
        if (rows[i].is_ill) {
            f.plan.findings = &finding;
            f.plan.finding_count = 1;
        }
        settle(0, rows[i].topic, "none")->because = "default";
        declare_stance("stance.any.none", rows[i].topic);
        ck_assert_msg((speaking() == 1) == rows[i].speaks, "row %d", i);
    }
}
END_TEST

START_TEST(what_has_a_place_of_its_own_does_not_speak)
{
    static const struct {
        const char *topic, *code;
        bool winter_asked;
        double hours;
        bool speaks;
    } rows[] = {
        {"winter-rest", "stance.winter-rest.none", true, 0, false},
        {"winter-rest", "stance.winter-rest.none", false, 0, true},
        {"bath", "stance.bath.none", true, 0, true},
        {"light-hours", "stance.light-hours.long", false, 12, false},
        {"light-hours", "stance.light-hours.long", false, 0, true},
        {"light-hours", "stance.light-hours.short", false, 12, true},
        {"watch.mouth", "stance.watch.mouth", false, 0, false},
        {"watches", "stance.watches.none", false, 0, true},
        {"bath", "action.bath", false, 0, false}, /* no stance's own words */
    };
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        f.plan.winter_rest.is_asked = rows[i].winter_asked;
        f.plan.uvb.hours_now = rows[i].hours;
        settle(0, rows[i].topic, "none");
        declare_stance(rows[i].code, rows[i].topic);
        ck_assert_msg((speaking() == 1) == rows[i].speaks, "row %d", i);
    }
}
END_TEST

/* "No damp hide" of one that has none by nature, whoever asks for it. */
START_TEST(a_usual_stance_that_needs_no_sentence_has_none)
{
    for (int unsaid = 0; unsaid < 2; unsaid++) {
        for (int usual = 0; usual < 2; usual++) {
            again();
            topics[0] = (struct topic){.name = fixture_text("damp-hide"),
                                       .usual = fixture_text(usual ? "none" : "some"),
                                       .usual_unsaid = fixture_flag(unsaid)};
            topic_book.topics = fixture_list(&f, topics, 1, sizeof *topics);
            settle(0, "damp-hide", "none");
            declare_stance("stance.damp-hide.none", "damp-hide");
            ck_assert_uint_eq(speaking(), !(unsaid && usual));
        }
    }
}
END_TEST

/* A step, a finding's own words or a procedure's say more of the topic than its stance does. */
START_TEST(what_a_step_says_a_stance_does_not_say_again)
{
    for (int asked = 0; asked < 2; asked++) {
        again();
        settle(0, "bath", "some");
        declare_stance("action.bathe", "bath");
        declare_stance("stance.bath.some", "bath");
        f.plan.actions = &action;
        f.plan.action_count = (size_t)asked;
        ck_assert_uint_eq(speaking(), !asked);
    }
}
END_TEST

START_TEST(a_procedures_words_speak_where_they_name_a_stance)
{
    for (int named = 0; named < 2; named++) {
        again();
        settle(0, "bath", "none");
        struct instruction *care = declare_stance("procedure.stitches.care", "bath");
        if (named)
            care->stances = fixture_texts(&f, "none", NULL, NULL, NULL);
        declare_stance("stance.bath.none", "bath");
        f.plan.procedures = &procedure;
        f.plan.procedure_count = 1;
        ck_assert_uint_eq(speaking(), !named);
    }
}
END_TEST

/* A finding's own words leave the stance to speak, marked as said for the home. */
START_TEST(a_findings_words_for_the_home_say_it_too)
{
    static const struct {
        const char *code;
        bool normal, named, said;
    } rows[] = {
        {"finding.burn.home", false, true, true},
        {"finding.burn.name", false, true, true},
        {"finding.burn.meaning", false, true, true},
        {"finding.burn.other", false, true, false},
        {"finding.burn.home", true, true, false},
        {"finding.burn.home", false, false, false}, /* goes with any stance */
    };
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        settle(0, "bath", "none");
        struct instruction *own = declare_stance(rows[i].code, "bath");
        if (rows[i].named)
            own->stances = fixture_texts(&f, "none", NULL, NULL, NULL);
        declare_stance("stance.bath.none", "bath");
        finding.severity = rows[i].normal ? SEVERITY_NORMAL : SEVERITY_MILD;
        f.plan.findings = &finding;
        f.plan.finding_count = 1;
        ck_assert_uint_eq(speaking(), 1);
        ck_assert_msg(f.plan.speaking[0].said_at_home == rows[i].said, "row %d", i);
    }
}
END_TEST

/* How a text can speak of a topic without its being its own. */
START_TEST(a_step_speaks_of_what_it_says_of_other_topics)
{
    static const struct {
        const char *topics, *says, *says_stance, *refers;
        bool speaks;
    } rows[] = {
        {"bath", NULL, NULL, NULL, false},    {NULL, "bath", "none", NULL, false},
        {NULL, "bath", "some", NULL, true},   {"bath", NULL, NULL, "bath", true},
        {NULL, "bath", "none", "bath", true}, {NULL, "food", "none", NULL, true},
        {"food", NULL, NULL, NULL, true},     {"bath", NULL, NULL, "food", false},
    };
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        settle(0, "bath", "none");
        settle(1, "food", "none");
        struct instruction *step = declare("action.bathe");
        if (rows[i].topics)
            step->topics = one_topic(rows[i].topics, NULL);
        if (rows[i].says)
            step->says = one_topic(rows[i].says, rows[i].says_stance);
        step->refers = fixture_texts(&f, rows[i].refers, NULL, NULL, NULL);
        declare_stance("stance.bath.none", "bath");
        f.plan.actions = &action;
        f.plan.action_count = 1;
        ck_assert_msg((speaking() == 1) == rows[i].speaks, "row %d", i);
    }
}
END_TEST

/* What a step says of a later day leaves today's stance to be told. */
START_TEST(a_step_of_a_later_day_leaves_todays_stance_to_speak)
{
    for (int later = 0; later < 2; later++) {
        again();
        settle(0, "bath", "none");
        then(0, 4, "some");
        struct instruction *step = declare_stance("action.bathe", "bath");
        step->any_phase = fixture_flag(true);
        step->stances = fixture_texts(&f, later ? "some" : "none", NULL, NULL, NULL);
        declare_stance("stance.bath.none", "bath");
        f.plan.actions = &action;
        f.plan.action_count = 1;
        ck_assert_uint_eq(speaking(), later);
    }
}
END_TEST

/* Nor does what it says of a stance that comes later. */
START_TEST(what_a_step_says_of_a_later_stance_is_not_said_of_today)
{
    settle(0, "bath", "none");
    then(0, 4, "some");
    declare("action.bathe")->says = one_topic("bath", "some");
    declare_stance("stance.bath.none", "bath");
    f.plan.actions = &action;
    f.plan.action_count = 1;
    ck_assert_uint_eq(speaking(), 1);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("allowed_texts");
    TCase *tcase = tcase_create("allowed_texts");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, a_text_without_a_topic_is_always_printed);
    tcase_add_test(tcase, a_text_is_printed_with_the_stances_it_agrees_with);
    tcase_add_test(tcase, a_topic_that_an_animal_does_not_have);
    tcase_add_test(tcase, further_topics_must_all_agree);
    tcase_add_test(tcase, a_text_is_for_the_animals_that_it_names);
    tcase_add_test(tcase, a_dated_line_asks_for_one_phase_of_eight_weeks);
    tcase_add_test(tcase, another_topics_phase_does_not_count);
    tcase_add_test(tcase, a_text_at_meals_is_of_the_day_that_food_is_back);
    tcase_add_test(tcase, a_step_comes_back_when_a_decision_ends);
    tcase_add_test(tcase, only_a_decision_with_a_last_day_gives_it_back);
    tcase_add_test(tcase, the_soonest_end_of_its_topics_counts);
    tcase_add_test(tcase, the_first_variant_that_fits_is_printed);
    tcase_add_test(tcase, a_variant_without_a_topic_asks_for_no_stance);
    tcase_add_test(tcase, a_key_is_printed_as_its_text_is);
    tcase_add_test(tcase, a_part_of_the_variant_that_does_not_agree_is_printed_as_it_stands);
    tcase_add_test(tcase, whether_a_variant_is_about_the_same_topic);
    tcase_add_test(tcase, a_stance_that_was_called_for_speaks);
    tcase_add_test(tcase, what_is_usual_speaks_where_every_keeper_asks);
    tcase_add_test(tcase, what_has_a_place_of_its_own_does_not_speak);
    tcase_add_test(tcase, a_usual_stance_that_needs_no_sentence_has_none);
    tcase_add_test(tcase, what_a_step_says_a_stance_does_not_say_again);
    tcase_add_test(tcase, a_procedures_words_speak_where_they_name_a_stance);
    tcase_add_test(tcase, a_findings_words_for_the_home_say_it_too);
    tcase_add_test(tcase, a_step_speaks_of_what_it_says_of_other_topics);
    tcase_add_test(tcase, a_step_of_a_later_day_leaves_todays_stance_to_speak);
    tcase_add_test(tcase, what_a_step_says_of_a_later_stance_is_not_said_of_today);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
