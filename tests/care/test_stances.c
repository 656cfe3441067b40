/* What findings, procedures and states call for becomes dated calls: from when until when each
 * holds, what follows it, and which bundle asked. The animal, topics and rows are invented. */
#include <string.h>

#include "care/fixture.h"
#include "care/stances.h"
#include "common/suite.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

enum { FOOD, BATH, LAMP, TOPICS };

static struct care_fixture f;
static struct topic topics[TOPICS];
static struct bundle bundles[2];
static struct state_call states[2];
static struct topic_catalogue book;
static struct settlement_book settlements;
static struct finding entry;
static struct finding_plan found;
static struct procedure procedure;
static struct procedure_plan done;
static const struct finding *entries[] = {&entry};
static const struct procedure *procedures[] = {&procedure};

static void set_up(void)
{
    fixture_init(&f);
    memset(topics, 0, sizeof topics);
    memset(bundles, 0, sizeof bundles);
    memset(states, 0, sizeof states);
    memset(&entry, 0, sizeof entry);
    memset(&procedure, 0, sizeof procedure);
    static const char *const names[] = {"food", "bath", "lamp"};
    for (int i = 0; i < TOPICS; i++)
        topics[i] = (struct topic){.name = fixture_text(names[i]),
                                   .kind = fixture_choice(TOPIC_ORDER),
                                   .stances = fixture_texts(&f, "none", "small", "more", "usual"),
                                   .usual = fixture_text("usual"),
                                   .needs_end = fixture_texts(&f, "none", NULL, NULL, NULL)};
    settlements = (struct settlement_book){0};
    found = (struct finding_plan){
        .code = "burn", .severity = SEVERITY_MODERATE, .state = STATE_SEEN, .step = "ii"};
    done = (struct procedure_plan){.code = "stitches"};
    f.in.topics = &book;
    f.in.settlements = &settlements;
    f.b.findings = entries;
    f.b.procedures = procedures;
    f.plan.findings = &found;
    f.plan.procedures = &done;
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

static struct call_row row_of(const char *a, const char *b)
{
    return (struct call_row){.calls = fixture_texts(&f, a, b, NULL, NULL)};
}

static struct list rows_of(const struct call_row *rows, size_t count)
{
    return fixture_list(&f, rows, count, sizeof *rows);
}

static void gather(size_t bundle_count, size_t state_count)
{
    book = (struct topic_catalogue){.topics = fixture_list(&f, topics, TOPICS, sizeof *topics),
                                    .bundles =
                                        fixture_list(&f, bundles, bundle_count, sizeof *bundles),
                                    .calls = fixture_list(&f, states, state_count, sizeof *states)};
    ck_assert(stances_plan(&f.b));
}

/* The calls of what was found, by one row. */
static const struct stance_call *called(struct call_row row)
{
    entry.calls = rows_of(&row, 1);
    f.plan.finding_count = 1;
    gather(2, 0);
    return f.b.calls->items;
}

static size_t call_count(void)
{
    return f.b.calls->count;
}

/* "7": until so many days from the visit on; "-": without a last day. */
static int until(const struct stance_call *call)
{
    return call->has_until ? (int)date_days_between(f.plan.on, call->until) : -1;
}

/* ---- which rows call
 * ----------------------------------------------------------------------------- */

START_TEST(a_row_calls_where_all_of_it_holds)
{
    static const struct {
        int severity, state; /* that the row is for; -1: all */
        const char *step, *own;
        int group;
        bool calls;
    } rows[] = {
        {-1, -1, NULL, "ii", -1, true},
        {SEVERITY_MODERATE, -1, NULL, "ii", -1, true},
        {SEVERITY_SEVERE, -1, NULL, "ii", -1, false},
        {-1, STATE_SEEN, NULL, "ii", -1, true},
        {-1, STATE_REFERRED, NULL, "ii", -1, false},
        {-1, -1, "ii", "ii", -1, true},
        {-1, -1, "iii", "ii", -1, false},
        {-1, -1, "ii", NULL, -1, false},
        {-1, -1, NULL, "ii", GROUP_LIZARD, true},
        {-1, -1, NULL, "ii", GROUP_SNAKE, false},
    };
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        f.species.group = fixture_choice(GROUP_LIZARD);
        struct call_row row = row_of("bath:small", NULL);
        if (rows[i].severity >= 0)
            row.severities = fixture_one_of(&f, rows[i].severity);
        if (rows[i].state >= 0)
            row.states = fixture_one_of(&f, rows[i].state);
        row.steps = fixture_texts(&f, rows[i].step, NULL, NULL, NULL);
        if (rows[i].group >= 0)
            row.whom.groups = fixture_one_of(&f, rows[i].group);
        found.step = rows[i].own;
        called(row);
        ck_assert_msg((call_count() == 1) == rows[i].calls, "row %d", i);
    }
}
END_TEST

START_TEST(a_call_says_who_called)
{
    const struct stance_call *call = called(row_of("bath:small", NULL));
    ck_assert_uint_eq(call_count(), 1);
    ck_assert_uint_eq(call->topic, BATH);
    ck_assert_str_eq(call->stance, "small");
    ck_assert_str_eq(call->because, "finding:burn");
    ck_assert_str_eq(call->finding, "burn");
    ck_assert_ptr_null(call->bundle);
    found.severity = SEVERITY_NORMAL; /* nothing is wrong */
    called(row_of("bath:small", NULL));
    ck_assert_uint_eq(call_count(), 0);
}
END_TEST

/* In the animal's own terms: nothing, another stance, or one of another topic. */
START_TEST(a_call_is_put_into_the_animals_own_terms)
{
    static const struct {
        const char *to; /* NULL: as it is */
        int topic;
        const char *stance; /* NULL: nothing is called for */
    } rows[] = {{NULL, BATH, "small"},
                {"drop", 0, NULL},
                {"more", BATH, "more"},
                {"lamp:none", LAMP, "none"},
                {"no-such-topic:none", 0, NULL}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        struct topic_translation one = {.from = fixture_texts(&f, "small", NULL, NULL, NULL),
                                        .to = {.text = rows[i].to}};
        if (rows[i].to)
            topics[BATH].translate = fixture_list(&f, &one, 1, sizeof one);
        const struct stance_call *call = called(row_of("bath:small", NULL));
        ck_assert_msg((call_count() == 1) == (rows[i].stance != NULL), "row %d", i);
        if (!rows[i].stance)
            continue;
        ck_assert_int_eq((int)call->topic, rows[i].topic);
        ck_assert_str_eq(call->stance, rows[i].stance);
    }
    topics[LAMP].whom.groups = fixture_one_of(&f, GROUP_SNAKE); /* which this one has not */
    f.species.group = fixture_choice(GROUP_LIZARD);
    called(row_of("lamp:small", NULL));
    ck_assert_uint_eq(call_count(), 0);
}
END_TEST

/* ---- until when
 * ---------------------------------------------------------------------------------- */

/* What was found holds until it is looked at again. */
START_TEST(a_finding_holds_until_its_check)
{
    static const struct {
        bool has_day, has_usual;
        double usual_days;
        int until;
    } rows[] = {{true, true, 7, 10},
                {true, false, 0, 10},
                {false, true, 7, 7},
                {false, true, 6.6, 7}, /* the nearest whole day */
                {false, false, 0, -1}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        f.plan.has_recheck = rows[i].has_day;
        f.plan.recheck = in_days(10);
        found.has_recheck = rows[i].has_usual;
        found.recheck_days = rows[i].usual_days;
        const struct stance_call *call = called(row_of("bath:small", NULL));
        ck_assert_int_eq(call->end_by, PHASE_END_RECHECK);
        ck_assert_msg(until(call) == rows[i].until, "row %d: %d", i, until(call));
    }
}
END_TEST

START_TEST(each_end_of_a_row)
{
    static const struct {
        int end;          /* -1: not written */
        double low, high; /* days; 0: not written */
        int until;
        enum phase_end end_by;
    } rows[] = {
        {-1, 3, 5, 5, PHASE_END_DATE}, /* the longer end */
        {-1, 2, 4.6, 5, PHASE_END_DATE},
        {PHASE_END_SHED, 0, 0, -1, PHASE_END_SHED},
        {PHASE_END_SHED, 3, 5, 5, PHASE_END_SHED},
        {PHASE_END_RECHECK, 0, 0, 10, PHASE_END_RECHECK},
        {PHASE_END_MEASURED, 0, 0, 10, PHASE_END_MEASURED},
        {PHASE_END_AWAKE, 0, 0, 1, PHASE_END_AWAKE},
        {PHASE_END_STOOL, 0, 0, -1, PHASE_END_STOOL},
        {PHASE_END_LAID, 0, 0, -1, PHASE_END_LAID},
        {PHASE_END_VETERINARIAN, 0, 0, -1, PHASE_END_VETERINARIAN},
        {PHASE_END_DATE, 0, 0, -1, PHASE_END_DATE},
    };
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        f.plan.has_recheck = true;
        f.plan.recheck = in_days(10);
        struct call_row row = row_of("bath:small", NULL);
        if (rows[i].end >= 0)
            row.until = fixture_choice(rows[i].end);
        if (rows[i].high > 0)
            row.days = fixture_cited(rows[i].low, rows[i].high);
        const struct stance_call *call = called(row);
        ck_assert_msg(until(call) == rows[i].until && call->end_by == rows[i].end_by,
                      "row %d: %d by %d", i, until(call), (int)call->end_by);
    }
}
END_TEST

/* Eggs that nobody has seen may never be laid. */
START_TEST(what_is_suspected_waits_for_its_check)
{
    struct call_row row = row_of("bath:small", NULL);
    row.until = fixture_choice(PHASE_END_LAID);
    found.is_suspected = true;
    f.plan.has_recheck = true;
    f.plan.recheck = in_days(10);
    const struct stance_call *call = called(row);
    ck_assert_int_eq(call->end_by, PHASE_END_RECHECK);
    ck_assert_int_eq(until(call), 10);
}
END_TEST

/* "Until the veterinarian's date": a decision of hers on the topic has it. */
START_TEST(her_date_is_that_of_her_decision)
{
    static const struct {
        const char *topic, *further; /* further: a second call of the row */
        bool has_date;
        int until;
    } rows[] = {{"bath", NULL, true, 6},         {"bath", NULL, false, -1},
                {"food", NULL, true, -1},        {"bat", NULL, true, -1},
                {"baths", NULL, true, -1},       {NULL, NULL, true, -1},
                {"bath", "food:small", true, -1}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        struct visit_decision hers[] = {
            {.topic = fixture_text("lamp"), .until = fixture_date(2026, 4, 1)},
            {.topic = {.text = rows[i].topic}}};
        if (rows[i].has_date)
            hers[1].until = (struct date_value){.known = true, .date = in_days(6)};
        for (int turned = 0; turned < 2; turned++) { /* whichever of her decisions it is */
            const struct visit_decision both[] = {hers[turned], hers[!turned]};
            f.visit.decisions = fixture_list(&f, both, 2, sizeof *both);
            struct call_row row = row_of("bath:small", rows[i].further);
            row.until = fixture_choice(PHASE_END_DATE);
            const struct stance_call *call = called(row);
            ck_assert_msg(until(call) == rows[i].until, "row %d: %d", i, until(call));
        }
    }
}
END_TEST

/* Past events count from their day. */
START_TEST(a_row_may_count_from_a_day_of_the_past)
{
    struct call_row row = row_of("bath:small", NULL);
    row.since = fixture_choice(0);
    row.days = fixture_cited(10, 10);
    ck_assert_int_eq(until(called(row)), 10); /* nobody knows the day */
    f.visit.history.events[0] = (struct date_value){.known = true, .date = in_days(-4)};
    const struct stance_call *call = called(row);
    ck_assert_int_eq(until(call), 6);
    ck_assert_int_eq(date_days_between(f.plan.on, call->from), -4);
}
END_TEST

/* What must have an end and has none is told, and what needs none is not. */
START_TEST(a_stance_that_needs_an_end_is_told_without_one)
{
    static const struct {
        const char *call;
        int end;
        double days;
        bool told;
    } rows[] = {{"bath:none", PHASE_END_NONE, 0, true},
                {"bath:small", PHASE_END_NONE, 0, false},
                {"bath:none", PHASE_END_SHED, 0, false},
                {"bath:none", PHASE_END_NONE, 5, false}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        /* a state calls: a finding would hold until its check */
        states[0] =
            (struct state_call){.name = fixture_text("damp"), .row = row_of(rows[i].call, NULL)};
        if (rows[i].end)
            states[0].row.until = fixture_choice(rows[i].end);
        if (rows[i].days > 0)
            states[0].row.days = fixture_cited(rows[i].days, rows[i].days);
        gather(0, 1);
        const struct review *told = fixture_review(&f, "stance-without-end");
        ck_assert_msg((told != NULL) == rows[i].told, "row %d", i);
        if (told) {
            ck_assert_str_eq(fixture_fact(told, "stance")->text, "bath:none");
            ck_assert_str_eq(fixture_fact(told, "from")->text, "call:damp");
        }
    }
}
END_TEST

/* ---- bundles
 * ------------------------------------------------------------------------------------- */

/* The row's end stands for the bundle; without one the bundle's own rows have theirs. */
START_TEST(a_bundle_ends_with_the_row_that_calls_for_it)
{
    for (int own = 0; own < 2; own++) {
        again();
        struct call_row inner[] = {row_of("bath:small", NULL), row_of("food:small", NULL),
                                   row_of("lamp:small", NULL)};
        inner[0].days = fixture_cited(3, 3);
        inner[2].severities = fixture_one_of(&f, SEVERITY_SEVERE); /* not for this one */
        bundles[0] = (struct bundle){fixture_text("rest"), rows_of(inner, 3), {0}};
        struct call_row row = row_of("rest", NULL);
        if (own)
            row.days = fixture_cited(8, 8);
        const struct stance_call *calls = called(row);
        ck_assert_uint_eq(call_count(), 2);
        ck_assert_int_eq(until(&calls[0]), own ? 8 : 3);
        ck_assert_int_eq(until(&calls[1]), own ? 8 : -1);
        ck_assert_str_eq(calls[0].bundle, "rest");
    }
}
END_TEST

/* The innermost of bundles within bundles has called. */
START_TEST(a_bundle_of_a_bundle)
{
    const struct call_row inner = row_of("bath:small", NULL), outer = row_of("soft", "food:small");
    bundles[0] = (struct bundle){fixture_text("rest"), rows_of(&outer, 1), {0}};
    bundles[1] = (struct bundle){fixture_text("soft"), rows_of(&inner, 1), {0}};
    const struct stance_call *calls = called(row_of("rest", "no-such-bundle"));
    ck_assert_uint_eq(call_count(), 2);
    ck_assert_uint_eq(calls[0].topic, BATH);
    ck_assert_str_eq(calls[0].bundle, "soft");
    ck_assert_str_eq(calls[1].bundle, "rest");
}
END_TEST

/* ---- phases
 * -------------------------------------------------------------------------------------- */

/* Each begins where the longest row of the one before ends; a row of no phase is apart. */
START_TEST(phases_follow_one_another)
{
    struct call_row rows[] = {row_of("bath:none", NULL), row_of("food:none", NULL),
                              row_of("bath:small", NULL), row_of("bath:more", NULL),
                              row_of("lamp:small", NULL)};
    static const int numbers[] = {1, 1, 2, 3, 0};
    static const double days[] = {3, 5, 4, 2, 1};
    static const int begins[] = {0, 0, 5, 9}, ends[] = {3, 5, 9, 11};
    for (int i = 0; i < COUNT(rows); i++) {
        if (numbers[i])
            rows[i].phase = fixture_quantity(numbers[i]);
        rows[i].days = fixture_cited(days[i], days[i]);
    }
    entry.calls = rows_of(rows, COUNT(rows));
    f.plan.finding_count = 1;
    gather(0, 0);
    const struct stance_call *calls = f.b.calls->items;
    ck_assert_uint_eq(call_count(), 5);
    ck_assert_uint_eq(calls[0].topic, LAMP);
    ck_assert_int_eq(until(&calls[0]), 1);
    for (int i = 0; i < 4; i++) {
        ck_assert_int_eq(date_days_between(f.plan.on, calls[i + 1].from), begins[i]);
        ck_assert_int_eq(until(&calls[i + 1]), ends[i]);
    }
}
END_TEST

/* Behind an end that no day names the next phase is what follows. */
START_TEST(an_undated_phase_says_what_follows)
{
    struct call_row rows[] = {row_of("bath:none", "food:small"), row_of("bath:small", NULL),
                              row_of("bath:more", NULL)};
    for (int i = 0; i < COUNT(rows); i++)
        rows[i].phase = fixture_quantity(i + 1);
    rows[0].until = fixture_choice(PHASE_END_SHED);
    rows[1].days = rows[2].days = fixture_cited(4, 4);
    entry.calls = rows_of(rows, COUNT(rows));
    f.plan.finding_count = 1;
    gather(0, 0);
    const struct stance_call *calls = f.b.calls->items;
    ck_assert_uint_eq(call_count(), 2);
    ck_assert_int_eq(until(&calls[0]), -1);
    ck_assert_str_eq(calls[0].then, "small"); /* the first that follows */
    ck_assert_ptr_null(calls[1].then);        /* of another topic */
}
END_TEST

/* ---- what was done
 * ------------------------------------------------------------------------------- */

static const struct stance_call *called_of_done(struct call_row row)
{
    procedure.calls = rows_of(&row, 1);
    f.plan.procedure_count = 1;
    gather(0, 0);
    return f.b.calls->items;
}

/* Until it is looked at: on the day that she wrote, but what is said of food, which has its own. */
START_TEST(what_was_done_holds_until_it_is_looked_at)
{
    static const struct {
        const char *call;
        int end;
        double days;
        bool checked;
        int until;
    } rows[] = {
        {"bath:small", PHASE_END_DATE, 0, true, 9},   {"bath:small", PHASE_END_DATE, 5, true, 9},
        {"bath:small", PHASE_END_DATE, 5, false, 5},  {"food:small", PHASE_END_DATE, 5, true, 5},
        {"food:small", PHASE_END_DATE, 0, true, -1},  {"bath:small", PHASE_END_NONE, 0, true, 9},
        {"bath:small", PHASE_END_NONE, 0, false, -1},
    };
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        struct call_row row = row_of(rows[i].call, NULL);
        if (rows[i].end)
            row.until = fixture_choice(rows[i].end);
        if (rows[i].days > 0)
            row.days = fixture_cited(rows[i].days, rows[i].days);
        done.has_check = rows[i].checked;
        done.check = in_days(9);
        const struct stance_call *call = called_of_done(row);
        ck_assert_uint_eq(call_count(), 1);
        ck_assert_msg(until(call) == rows[i].until, "row %d: %d", i, until(call));
        ck_assert_str_eq(call->because, "done:stitches");
        ck_assert((call->until_check != NULL) == (rows[i].until == 9));
    }
}
END_TEST

/* When it is looked at may move with what was read at home, and the phase with it. */
START_TEST(a_check_that_moves_moves_its_calls)
{
    struct call_row row = row_of("bath:small", NULL);
    done.has_check = true;
    done.check = in_days(9);
    called_of_done(row);
    ck_assert(stances_settle_plan(&f.b));
    ck_assert_uint_eq(f.plan.topics[BATH].phase_count, 2);
    done.check = in_days(12);
    ck_assert(stances_after_readings_plan(&f.b));
    ck_assert_int_eq(until(&f.b.calls->items[0]), 12);
    ck_assert_int_eq(date_days_between(f.plan.on, f.plan.topics[BATH].phases[1].from), 12);
    const struct topic_plan *settled = f.plan.topics;
    ck_assert(stances_after_readings_plan(&f.b)); /* nothing moved */
    ck_assert_ptr_eq(f.plan.topics, settled);
}
END_TEST

/* ---- states
 * -------------------------------------------------------------------------------------- */

/* What a state calls for that is known before the readings is called then, and the other after. */
START_TEST(a_state_calls_when_it_is_known)
{
    struct choice_value high = fixture_choice(VERDICT_TOO_HIGH);
    states[0] = (struct state_call){.name = fixture_text("any"), .row = row_of("bath:small", NULL)};
    states[1] = (struct state_call){.name = fixture_text("hot"), .row = row_of("lamp:none", NULL)};
    states[1].row.days = fixture_cited(2, 2);
    states[1].when.measured[MEASURE_WARM_SIDE] = fixture_list(&f, &high, 1, sizeof high);
    f.plan.measured[MEASURE_WARM_SIDE].verdict = VERDICT_TOO_HIGH;
    gather(0, 2);
    ck_assert_uint_eq(call_count(), 1);
    ck_assert_str_eq(f.b.calls->items[0].because, "call:any");
    ck_assert_ptr_null(f.b.calls->items[0].finding);
    ck_assert(stances_settle_plan(&f.b));
    ck_assert(plan_holds(&f.plan, "lamp", "usual"));
    ck_assert(stances_after_readings_plan(&f.b));
    ck_assert_uint_eq(call_count(), 2);
    ck_assert_str_eq(f.b.calls->items[1].because, "call:hot");
    ck_assert_int_eq(until(&f.b.calls->items[1]), 2);
    ck_assert(plan_holds(&f.plan, "lamp", "none"));
    ck_assert(plan_holds_on(&f.plan, "lamp", "usual", in_days(2)));
}
END_TEST

START_TEST(a_state_that_does_not_hold_does_not_call)
{
    struct choice_value high = fixture_choice(VERDICT_TOO_HIGH);
    states[0] = (struct state_call){.name = fixture_text("hot"), .row = row_of("lamp:none", NULL)};
    states[0].when.measured[MEASURE_WARM_SIDE] = fixture_list(&f, &high, 1, sizeof high);
    states[1] =
        (struct state_call){.name = fixture_text("snake"), .row = row_of("lamp:none", NULL)};
    states[1].row.whom.groups = fixture_one_of(&f, GROUP_SNAKE);
    f.species.group = fixture_choice(GROUP_LIZARD);
    gather(0, 2);
    ck_assert(stances_after_readings_plan(&f.b));
    ck_assert_uint_eq(call_count(), 0);
}
END_TEST

/* What a settlement puts in place of a call may be another once the readings are known, though as
 * many hold as before. */
START_TEST(another_settlement_after_the_readings)
{
    static const int verdicts[] = {VERDICT_UNKNOWN, VERDICT_TOO_HIGH};
    static const char *const outcomes[] = {"food:small", "food:more"};
    struct stance_settlement both[2];
    memset(both, 0, sizeof both);
    for (int i = 0; i < 2; i++) {
        both[i].name = fixture_text(i ? "hot" : "any");
        both[i].when.finding = fixture_texts(&f, "burn", NULL, NULL, NULL);
        both[i].when.measured[MEASURE_WARM_SIDE] = fixture_one_of(&f, verdicts[i]);
        both[i].outcome = fixture_texts(&f, outcomes[i], NULL, NULL, NULL);
    }
    settlements.settlements = fixture_list(&f, both, 2, sizeof *both);
    called(row_of("food:none", NULL));
    ck_assert_uint_eq(f.b.calls->settlement_count, 1);
    ck_assert(stances_settle_plan(&f.b));
    ck_assert(plan_holds(&f.plan, "food", "small"));
    f.plan.measured[MEASURE_WARM_SIDE].verdict = VERDICT_TOO_HIGH;
    ck_assert(stances_after_readings_plan(&f.b));
    ck_assert_uint_eq(f.b.calls->settlement_count, 1);
    ck_assert(plan_holds(&f.plan, "food", "more"));
}
END_TEST

/* The plan keeps why she decided, in the record's order. */
START_TEST(her_reasons_are_kept)
{
    const struct visit_decision hers[] = {{.because = fixture_text("it is thin")},
                                          {.confirmed = fixture_flag(true)}};
    f.visit.decisions = fixture_list(&f, hers, 2, sizeof *hers);
    gather(0, 0);
    ck_assert_ptr_nonnull(f.plan.decisions);
    ck_assert_str_eq(f.plan.decisions[0].reason, "it is thin");
    ck_assert(!f.plan.decisions[0].confirmed && f.plan.decisions[1].confirmed);
}
END_TEST

/* However many calls there are, each is kept. */
START_TEST(many_calls_are_kept)
{
    enum { ROWS = 100 };
    struct call_row rows[ROWS];
    for (int i = 0; i < ROWS; i++) {
        rows[i] = row_of("bath:small", NULL);
        rows[i].days = fixture_cited(i + 1, i + 1);
    }
    entry.calls = rows_of(rows, ROWS);
    f.plan.finding_count = 1;
    gather(0, 0);
    ck_assert_uint_eq(call_count(), ROWS);
    for (int i = 0; i < ROWS; i++)
        ck_assert_int_eq(until(&f.b.calls->items[i]), i + 1);
}
END_TEST

/* Beside the stance of the day others hold too. */
START_TEST(what_holds_beside_a_stance_holds)
{
    const char *with[] = {"daily", "paper"};
    struct stance_phase phases[] = {
        {.stance = "usual", .from = f.plan.on, .with = with, .with_count = 2},
        {.stance = "more", .from = in_days(3)}};
    const struct topic_plan plan = {.topic = "cleaning", .phases = phases, .phase_count = 2};
    f.plan.topics = &plan;
    f.plan.topic_count = 1;
    ck_assert(plan_holds(&f.plan, "cleaning", "usual"));
    ck_assert(plan_holds(&f.plan, "cleaning", "daily"));
    ck_assert(plan_holds(&f.plan, "cleaning", "paper"));
    ck_assert(!plan_holds(&f.plan, "cleaning", "more"));
    ck_assert(!plan_holds(&f.plan, "bath", "usual"));
    ck_assert(plan_holds_on(&f.plan, "cleaning", "daily", in_days(2)));
    ck_assert(plan_holds_on(&f.plan, "cleaning", "more", in_days(3)));
    ck_assert(!plan_holds_on(&f.plan, "cleaning", "paper", in_days(3)));
}
END_TEST

/* ---- what a finding asks for and does not get
 * ------------------------------------------------------ */

static void call_by(const char *stance, const char *because)
{
    stances_call(&f.b, stance, &(struct stance_call){.from = f.plan.on, .because = because});
}

static const char *told(const char *fact)
{
    const struct review *review = fixture_review(&f, "stance-lost");
    return review ? fixture_fact(review, fact)->text : NULL;
}

/* A line a topic, with each stance and each finding once. */
START_TEST(what_findings_do_not_get_is_told)
{
    static const struct {
        struct {
            const char *stance, *because;
        } calls[5];
        const char *dropped, *from; /* NULL: nothing is told */
    } rows[] = {
        {{{"food:none", "finding:burn"}, {"food:small", "finding:mites"}},
         "small",
         "finding:mites"},
        {{{"food:none", "finding:burn"}, {"food:small", "call:damp"}}, NULL, NULL},
        {{{"food:none", "call:damp"}, {"food:small", "finding:mites"}}, "small", "finding:mites"},
        {{{"food:small", "finding:mites"}}, NULL, NULL},
        {{{"food:none", "finding:burn"},
          {"food:small", "finding:mites"},
          {"food:small", "finding:worms"}},
         "small",
         "finding:mites, finding:worms"},
        {{{"food:none", "finding:burn"},
          {"food:small", "finding:mites"},
          {"food:mall", "finding:mite"},
          {"food:sm", "finding:mites"}},
         "small, mall, sm",
         "finding:mites, finding:mite"},
    };
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        topics[FOOD].stances = fixture_texts(&f, "none", "small", "mall", "sm");
        topics[FOOD].needs_end = (struct list){0};
        gather(0, 0);
        for (int k = 0; rows[i].calls[k].stance; k++)
            call_by(rows[i].calls[k].stance, rows[i].calls[k].because);
        ck_assert(stances_settle_plan(&f.b));
        ck_assert_msg((told("dropped") != NULL) == (rows[i].dropped != NULL), "row %d", i);
        if (!rows[i].dropped)
            continue;
        ck_assert_str_eq(told("dropped"), rows[i].dropped);
        ck_assert_str_eq(told("dropped-from"), rows[i].from);
        ck_assert_str_eq(told("kept"), "food.none");
        ck_assert_str_eq(told("kept-from"), rows[i].calls[0].because);
        ck_assert_str_eq(told("topic"), "desk.topic.food");
    }
}
END_TEST

/* Whichever topic it is. */
START_TEST(each_topic_is_told_of)
{
    topics[BATH].needs_end = (struct list){0};
    gather(0, 0);
    call_by("bath:none", "finding:burn");
    call_by("bath:small", "finding:mites");
    ck_assert(stances_settle_plan(&f.b));
    ck_assert_str_eq(told("topic"), "desk.topic.bath");
}
END_TEST

/* With an index and without one, in few topics and in so many that their places collide. */
START_TEST(a_topic_is_found_by_name)
{
    enum { MANY = 120 };
    struct topic_plan made[MANY], others[MANY];
    for (int i = 0; i < MANY; i++)
        made[i] = others[MANY - 1 - i] =
            (struct topic_plan){.topic = arena_format(&f.arena, "topic-%d", i)};
    for (size_t count = 1; count <= MANY; count += 17) {
        f.plan.topics = made;
        f.plan.topic_count = count;
        for (int is_indexed = 0; is_indexed < 2; is_indexed++) {
            if (is_indexed)
                plan_index_topics(&f.plan, &f.arena);
            for (size_t i = 0; i < count; i++)
                ck_assert_ptr_eq(plan_topic(&f.plan, made[i].topic), &made[i]);
            ck_assert_ptr_null(plan_topic(&f.plan, "topic"));
            ck_assert_ptr_null(plan_topic(&f.plan, "topic-120"));
        }
    }
    f.plan.topics = others; /* of which no index was made */
    ck_assert_ptr_eq(plan_topic(&f.plan, "topic-119"), &others[0]);
    f.plan.topic_index = NULL;
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("stances");
    TCase *tcase = tcase_create("stances");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, a_row_calls_where_all_of_it_holds);
    tcase_add_test(tcase, a_call_says_who_called);
    tcase_add_test(tcase, a_call_is_put_into_the_animals_own_terms);
    tcase_add_test(tcase, a_finding_holds_until_its_check);
    tcase_add_test(tcase, each_end_of_a_row);
    tcase_add_test(tcase, what_is_suspected_waits_for_its_check);
    tcase_add_test(tcase, her_date_is_that_of_her_decision);
    tcase_add_test(tcase, a_row_may_count_from_a_day_of_the_past);
    tcase_add_test(tcase, a_stance_that_needs_an_end_is_told_without_one);
    tcase_add_test(tcase, a_bundle_ends_with_the_row_that_calls_for_it);
    tcase_add_test(tcase, a_bundle_of_a_bundle);
    tcase_add_test(tcase, phases_follow_one_another);
    tcase_add_test(tcase, an_undated_phase_says_what_follows);
    tcase_add_test(tcase, what_was_done_holds_until_it_is_looked_at);
    tcase_add_test(tcase, a_check_that_moves_moves_its_calls);
    tcase_add_test(tcase, a_state_calls_when_it_is_known);
    tcase_add_test(tcase, a_state_that_does_not_hold_does_not_call);
    tcase_add_test(tcase, another_settlement_after_the_readings);
    tcase_add_test(tcase, her_reasons_are_kept);
    tcase_add_test(tcase, many_calls_are_kept);
    tcase_add_test(tcase, what_holds_beside_a_stance_holds);
    tcase_add_test(tcase, what_findings_do_not_get_is_told);
    tcase_add_test(tcase, each_topic_is_told_of);
    tcase_add_test(tcase, a_topic_is_found_by_name);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
