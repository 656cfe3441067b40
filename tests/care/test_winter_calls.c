/* What a winter's rest asks of food, warmth, light and weighing, from which day until which, and
 * what is left of a plan that may not be. The days are those of the plan: a last meal, the first
 * cooling, the start, the waking; then a week until it is warm and two until it eats. */
#include <string.h>

#include "care/fixture.h"
#include "care/stances.h"
#include "common/suite.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

static struct care_fixture f;
static struct topic topics[5];
static struct topic_catalogue book;
static struct settlement_book settlements;

static struct date in_days(int days)
{
    return date_add_days(f.plan.on, days);
}

static void set_up(void)
{
    static const char *const names[] = {"food", "warmth-day", "warmth-night", "light-hours",
                                        "weighing"};
    fixture_init(&f);
    memset(topics, 0, sizeof topics);
    for (int i = 0; i < COUNT(topics); i++)
        topics[i] = (struct topic){.name = fixture_text(names[i]),
                                   .kind = fixture_choice(TOPIC_ORDER),
                                   .usual = fixture_text("usual")};
    topics[0].stances = fixture_texts(&f, "rest-until", "offer-only", "usual", NULL);
    topics[1].stances = fixture_texts(&f, "rest", "wake-steps", "usual", NULL);
    topics[2].stances = fixture_texts(&f, "rest", "no-drop", "usual", NULL);
    topics[3].stances = fixture_texts(&f, "dim-quiet", "long", "usual", NULL);
    topics[4].stances = fixture_texts(&f, "weekly", "usual", NULL, NULL);
    book =
        (struct topic_catalogue){.topics = fixture_list(&f, topics, COUNT(topics), sizeof *topics)};
    settlements = (struct settlement_book){0};
    f.in.topics = &book;
    f.in.settlements = &settlements;
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

/* The catalogue's winter-rest topic, with this stance of a healthy one. */
static void may_rest(const char *stance)
{
    struct topic all[COUNT(topics) + 1];
    memcpy(all, topics, sizeof topics);
    all[COUNT(topics)] = (struct topic){.name = fixture_text("winter-rest"),
                                        .kind = fixture_choice(TOPIC_ORDER),
                                        .stances = fixture_texts(&f, "none", "plan", NULL, NULL),
                                        .usual = fixture_text(stance)};
    book.topics = fixture_list(&f, all, COUNT(topics) + 1, sizeof *all);
}

/* "7-14" from until; "7-" without a last day; "" when nobody calls. */
static const char *called(const char *topic, const char *stance, const char *because)
{
    struct strbuf out;
    strbuf_init(&out, &f.arena);
    strbuf_add(&out, "");
    for (size_t i = 0; i < f.b.calls->count; i++) {
        const struct stance_call *call = &f.b.calls->items[i];
        if (strcmp(topics[call->topic].name.text, topic) != 0 || strcmp(call->stance, stance) != 0)
            continue;
        ck_assert_str_eq(call->because, because);
        ck_assert_int_eq(call->end_by, call->has_until ? PHASE_END_DATE : PHASE_END_VETERINARIAN);
        strbuf_addf(&out, "%s%ld-", out.length ? " " : "",
                    date_days_between(f.plan.on, call->from));
        if (call->has_until)
            strbuf_addf(&out, "%ld", date_days_between(f.plan.on, call->until));
    }
    return out.text;
}

static void plan_days(void)
{
    struct winter_rest_plan *w = &f.plan.winter_rest;
    w->is_asked = w->has_start = w->has_last_meal = w->has_wake = true;
    w->last_meal = in_days(9);
    w->start = in_days(30);
    w->wake = in_days(70);
    w->steps[0].on = in_days(20);
    w->steps[1].on = in_days(30);
    w->step_count = 2;
    may_rest("plan");
}

#define REST "call:winter-rest"

START_TEST(a_rest_that_is_planned)
{
    plan_days();
    ck_assert(winter_rest_calls_plan(&f.b));
    const long warm = (long)build_limit(&f.b, "rest-wake-days"),
               eats = (long)build_limit(&f.b, "rest-eat-days");
    ck_assert(warm > 0 && eats > warm);
    ck_assert_str_eq(called("food", "rest-until", REST), "10-70"); /* the day after its last meal */
    ck_assert_str_eq(called("warmth-day", "rest", REST), "20-70"); /* from the first step on */
    ck_assert_str_eq(called("warmth-night", "rest", REST), "20-70");
    ck_assert_str_eq(called("light-hours", "dim-quiet", REST), "20-70");
    const char *awake = arena_format(&f.arena, "70-%ld", 70 + eats);
    ck_assert_str_eq(called("weighing", "weekly", REST), arena_format(&f.arena, "30-70 %s", awake));
    ck_assert_str_eq(called("warmth-day", "wake-steps", REST),
                     arena_format(&f.arena, "70-%ld", 70 + warm));
    ck_assert_str_eq(called("warmth-night", "no-drop", REST), awake);
    ck_assert_str_eq(called("light-hours", "long", REST), awake);
    ck_assert_str_eq(called("food", "offer-only", REST), awake);
}
END_TEST

START_TEST(days_that_are_not_known_ask_for_nothing)
{
    plan_days();
    f.plan.winter_rest.has_wake = f.plan.winter_rest.has_last_meal = false;
    f.plan.winter_rest.step_count = 0;
    ck_assert(winter_rest_calls_plan(&f.b));
    ck_assert_str_eq(called("food", "rest-until", REST), "");
    ck_assert_str_eq(called("warmth-day", "rest", REST), "30-"); /* without steps from the start */
    ck_assert_str_eq(called("weighing", "weekly", REST), "30-");
    ck_assert_str_eq(called("food", "offer-only", REST), "");
    again();
    plan_days();
    f.plan.winter_rest.has_start = f.plan.winter_rest.has_wake = false;
    ck_assert(winter_rest_calls_plan(&f.b));
    ck_assert_uint_eq(f.b.calls->count, 0);
}
END_TEST

/* What has begun holds from today. */
START_TEST(a_rest_that_is_under_way)
{
    plan_days();
    f.plan.winter_rest.in_progress = true;
    ck_assert(winter_rest_calls_plan(&f.b));
    ck_assert_str_eq(called("food", "rest-until", REST), "0-70");
    ck_assert_str_eq(called("warmth-day", "rest", REST), "0-70");
    again();
    plan_days();
    f.plan.winter_rest.last_meal = in_days(-20);
    f.plan.winter_rest.steps[0].on = in_days(-2);
    ck_assert(winter_rest_calls_plan(&f.b));
    ck_assert_str_eq(called("food", "rest-until", REST), "0-70");
    ck_assert_str_eq(called("warmth-day", "rest", REST), "0-70");
}
END_TEST

START_TEST(a_rest_that_may_not_be_asks_for_nothing)
{
    plan_days();
    may_rest("none");
    ck_assert(winter_rest_calls_plan(&f.b));
    ck_assert_uint_eq(f.b.calls->count, 0);
    may_rest("plan");
    f.plan.winter_rest.is_asked = false;
    ck_assert(winter_rest_calls_plan(&f.b));
    ck_assert_uint_eq(f.b.calls->count, 0);
    book.topics.count = COUNT(topics); /* an animal that does not rest */
    f.plan.winter_rest.is_asked = true;
    ck_assert(winter_rest_calls_plan(&f.b));
    ck_assert_uint_eq(f.b.calls->count, 0);
}
END_TEST

/* One that woke some days ago: what is left of those weeks, and nothing once they are over. */
START_TEST(one_that_has_woken)
{
    static const char because[] = "call:just-woken";
    const long warm = (long)build_limit(&f.b, "rest-wake-days"),
               eats = (long)build_limit(&f.b, "rest-eat-days");
    for (long ago = 0; ago <= eats + 1; ago++) {
        again();
        f.visit.history.events[EVENT_WOKE_FROM_REST] =
            (struct date_value){.known = true, .date = in_days((int)-ago)};
        ck_assert(winter_rest_calls_plan(&f.b));
        ck_assert_str_eq(called("food", "rest-until", because), "");
        ck_assert_str_eq(called("warmth-day", "wake-steps", because),
                         ago < warm ? arena_format(&f.arena, "0-%ld", warm - ago) : "");
        const char *left = ago < eats ? arena_format(&f.arena, "0-%ld", eats - ago) : "";
        ck_assert_str_eq(called("food", "offer-only", because), left);
        ck_assert_str_eq(called("warmth-night", "no-drop", because), left);
        ck_assert_str_eq(called("light-hours", "long", because), left);
        ck_assert_str_eq(called("weighing", "weekly", because), left);
    }
    again();
    f.visit.history.events[EVENT_WOKE_FROM_REST] =
        (struct date_value){.known = true, .date = in_days(-1)};
    f.plan.winter_rest.in_progress = true; /* and rests again */
    ck_assert(winter_rest_calls_plan(&f.b));
    ck_assert_uint_eq(f.b.calls->count, 0);
}
END_TEST

/* No date of a rest that may not be is left to be read. */
START_TEST(what_may_not_be_leaves_no_days)
{
    for (int may = 0; may < 2; may++) {
        again();
        plan_days();
        struct winter_rest_plan *w = &f.plan.winter_rest;
        w->has_c = w->has_mass = true;
        w->week_count = 3;
        build_derive(&f.b, &w->how, (struct derived){"rest.start_g", 1, "g", "own", NULL, NULL, 0});
        fixture_settle(&f, "winter-rest", may ? "plan" : "none", "default");
        ck_assert(winter_rest_stance_plan(&f.b));
        ck_assert_int_eq(w->is_allowed, may);
        ck_assert(w->has_c == may && w->has_start == may && w->has_last_meal == may);
        ck_assert(w->has_wake == may && w->has_mass == may);
        ck_assert_uint_eq(w->step_count, may ? 2 : 0);
        ck_assert_uint_eq(w->week_count, may ? 3 : 0);
        ck_assert_int_eq(w->how.first != NULL, may);
    }
    again();
    fixture_settle(&f, "winter-rest", "plan", "default");
    ck_assert(winter_rest_stance_plan(&f.b)); /* nobody asked for one */
    ck_assert(!f.plan.winter_rest.is_allowed);
}
END_TEST

/* ---- whether it rests already
 * --------------------------------------------------------------------- */

/* Its readings say so: none is warmer than the rest, or, once its day has come, than any night. */
START_TEST(readings_tell_a_rest_that_runs)
{
    static const struct {
        double warm_c, night_c; /* 0: not read */
        int starts;             /* days on; 0: not said */
        bool runs;
        const char *told;
    } rows[] = {
        {7, 5, 0, true, "rest-by-readings"},
        {7.1, 5, 0, false, NULL},
        {5, 7.1, 0, false, NULL},
        {0, 7, 0, true, "rest-by-readings"},
        {0, 0, 0, false, NULL},
        {12, 10, -1, true, "rest-by-readings"},
        {12, 12.1, -1, false, "rest-day-has-come"},
        {12, 10, 1, false, NULL},
        {0, 0, -1, false, "rest-day-has-come"},
    };
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        f.visit.winter_rest.planned = fixture_flag(true);
        f.visit.winter_rest.rest_c = fixture_band(3, 7);
        f.species.measured[MEASURE_NIGHT] = fixture_cited(12, 16);
        if (rows[i].warm_c > 0)
            f.visit.measured[MEASURE_WARM_SIDE] = fixture_quantity(rows[i].warm_c);
        if (rows[i].night_c > 0)
            f.visit.measured[MEASURE_NIGHT] = fixture_quantity(rows[i].night_c);
        if (rows[i].starts)
            f.visit.winter_rest.starts =
                (struct date_value){.known = true, .date = in_days(rows[i].starts)};
        ck_assert(winter_rest_plan(&f.b));
        ck_assert_msg(f.plan.winter_rest.in_progress == rows[i].runs, "row %d", i);
        ck_assert_int_eq(fixture_review(&f, "rest-by-readings") != NULL,
                         rows[i].told && strcmp(rows[i].told, "rest-by-readings") == 0);
        ck_assert_int_eq(fixture_review(&f, "rest-day-has-come") != NULL,
                         rows[i].told && strcmp(rows[i].told, "rest-day-has-come") == 0);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("winter_calls");
    TCase *tcase = tcase_create("winter_calls");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, a_rest_that_is_planned);
    tcase_add_test(tcase, days_that_are_not_known_ask_for_nothing);
    tcase_add_test(tcase, a_rest_that_is_under_way);
    tcase_add_test(tcase, a_rest_that_may_not_be_asks_for_nothing);
    tcase_add_test(tcase, one_that_has_woken);
    tcase_add_test(tcase, what_may_not_be_leaves_no_days);
    tcase_add_test(tcase, readings_tell_a_rest_that_runs);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
