/* What findings, procedures, verdicts, traits and the veterinarian call for, as dated calls. */
#include "care/stances.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

#include "care/rule_match.h"

/* ---- one call ---------------------------------------------------------------------------------
 */

static struct stance_call *add_call(struct care_build *b, const struct stance_call *call)
{
    struct stance_calls *calls = b->calls;
    if (calls->count == calls->room) {
        calls->room = calls->room ? calls->room * 2 : 64;
        struct stance_call *more = ARENA_ARRAY(b->arena, struct stance_call, calls->room);
        if (calls->count)
            memcpy(more, calls->items, calls->count * sizeof *more);
        calls->items = more;
    }
    calls->items[calls->count] = *call;
    return &calls->items[calls->count++];
}

static void tell_endless(struct care_build *b, const struct stance_call *call, const char *text)
{
    struct plan_fact *facts = build_fact_text(b, "from", FACT_TEXT, call->because, NULL);
    build_review(b, REVIEW_REMARK, "stance-without-end", (struct mark){0},
                 build_fact_text(b, "stance", FACT_TEXT, text, facts));
}

/* A call in this animal's own terms, which may be another topic's; NULL when it has none. */
static const char *own_terms(const struct care_build *b, const char *text, struct stance_call *call)
{
    enum { MOVES_MOST = 3 };
    for (int move = 0; text && move < MOVES_MOST; move++) {
        size_t length;
        if (!call_is_stance(text, &length, &call->stance))
            return NULL;
        call->topic = topic_find(b->in->topics, text, length);
        if (call->topic == SIZE_MAX)
            return NULL;
        const struct topic *topic = LIST_AT(b->in->topics->topics, struct topic, call->topic);
        text = stances_translate(b, topic, call->stance);
        if (!text || strchr(text, ':'))
            continue;
        call->stance = text;
        return stances_usual(b, topic) ? text : NULL;
    }
    return NULL;
}

/* "topic:stance" for this animal; `form` holds all but topic, stance and rank. */
void stances_call(struct care_build *b, const char *text, const struct stance_call *form)
{
    struct stance_call call = *form;
    if (!own_terms(b, text, &call))
        return;
    const struct topic *topic = LIST_AT(b->in->topics->topics, struct topic, call.topic);
    call.rank = topic_rank(topic, call.stance);
    add_call(b, &call);
    if (!call.has_until && call.end_by == PHASE_END_NONE &&
        list_has_text(&topic->needs_end, call.stance))
        tell_endless(b, &call, text);
}

/* ---- rows of calls ------------------------------------------------------------------------------
 */

/* Who calls, and from when until when its phase holds. */
struct caller {
    const char *because, *finding;
    enum severity severity;
    enum finding_state state;
    const char *step, *where; /* of the finding's own scale; its place; NULL for none */
    bool is_suspected;
    bool has_recheck_days;
    double recheck_days;               /* the usual one of what was found */
    const struct procedure_plan *done; /* NULL: nothing was done */
};

/* Until what was done is looked at; false when nobody knows the day. */
static bool end_at_check(const struct care_build *b, const struct caller *caller,
                         struct stance_call *form)
{
    if (!caller->done || !procedure_check_day(b, caller->done, &form->until))
        return false;
    form->has_until = true;
    form->until_check = caller->done;
    return true;
}

/* The recheck's day; without one on the record that of the finding itself, or of what was done. */
static void end_at_recheck(const struct care_build *b, const struct caller *caller,
                           struct stance_call *form)
{
    if (b->plan->has_recheck) {
        form->until = b->plan->recheck;
    } else if (caller->has_recheck_days) {
        struct date latest = date_add_days(b->plan->on, lround(caller->recheck_days));
        form->until = build_open_day(b, latest, latest).on;
    }
    form->has_until =
        b->plan->has_recheck || caller->has_recheck_days || end_at_check(b, caller, form);
}

static struct date start_of(const struct care_build *b, const struct call_row *row)
{
    if (row->since.known && b->in->visit->history.events[row->since.value].known)
        return b->in->visit->history.events[row->since.value].date;
    return b->plan->on;
}

/* How long a gut rests, or a tube feeds, is never read from the day of a check. */
static bool speaks_of_food(const struct call_row *row)
{
    static const char topic[] = "food:";
    for (size_t i = 0; i < row->calls.count; i++)
        if (strncmp(LIST_AT(row->calls, struct text_value, i)->text, topic, strlen(topic)) == 0)
            return true;
    return false;
}

/* "Until the veterinarian's date": a decision on the same topic that has a last day says it. */
static void end_at_decision(const struct care_build *b, const struct call_row *row,
                            struct stance_call *form)
{
    const struct list *decisions = &b->in->visit->decisions;
    const char *call = row->calls.count == 1 ? LIST_AT(row->calls, struct text_value, 0)->text : "";
    const char *stance;
    size_t length;
    for (size_t i = 0; i < decisions->count && call_is_stance(call, &length, &stance); i++) {
        const struct visit_decision *one = LIST_AT(*decisions, struct visit_decision, i);
        if (!one->until.known || !one->topic.text || strlen(one->topic.text) != length ||
            strncmp(one->topic.text, call, length) != 0)
            continue;
        form->has_until = true;
        form->until = one->until.date;
    }
}

/* What was ordered under the topic's own name has its day there: it stands before the days that are
 * usual of whatever else asks for the same. */
static bool end_at_written_care(const struct care_build *b, const struct call_row *row,
                                struct stance_call *form)
{
    const char *call = row->calls.count == 1 ? LIST_AT(row->calls, struct text_value, 0)->text : "";
    const char *stance;
    size_t length;
    if (!call_is_stance(call, &length, &stance))
        return false;
    const struct procedure_plan *care = procedure_written_for(b, call, length);
    if (!care || !procedure_check_day(b, care, &form->until))
        return false;
    form->has_until = true;
    form->until_check = care;
    return true;
}

/* Sets the end of a row's phase that starts on `from`. */
static void set_end(const struct care_build *b, const struct call_row *row,
                    const struct caller *caller, struct stance_call *form)
{
    form->end_by = row->until.known ? (enum phase_end)row->until.value : PHASE_END_NONE;
    if (form->end_by == PHASE_END_LAID && caller->is_suspected)
        form->end_by = PHASE_END_RECHECK; /* eggs that nobody has seen may never be laid */
    if (form->end_by == PHASE_END_DATE && !speaks_of_food(row) &&
        (end_at_written_care(b, row, form) || end_at_check(b, caller, form)))
        return;
    if (row->days.range.known) {
        form->has_until = true;
        form->until = date_add_days(form->from, lround(row->days.range.high));
        if (!row->until.known)
            form->end_by = PHASE_END_DATE;
    } else if (form->end_by == PHASE_END_RECHECK || form->end_by == PHASE_END_MEASURED) {
        end_at_recheck(b, caller, form);
    } else if (form->end_by == PHASE_END_AWAKE) {
        form->has_until = true;
        form->until = date_add_days(form->from, 1);
    } else if (form->end_by == PHASE_END_DATE) {
        end_at_decision(b, row, form);
    }
}

/* Is its place of one of these? */
static bool is_there(const struct care_build *b, const struct list *places, const char *where)
{
    const struct text_value text = {.text = where};
    for (size_t i = 0; i < places->count; i++)
        if (written_says(&b->in->topics->written, &text,
                         LIST_AT(*places, struct text_value, i)->text))
            return true;
    return false;
}

static bool row_holds(const struct care_build *b, const struct call_row *row,
                      const struct caller *caller)
{
    if (row->severities.count && !list_has_choice(&row->severities, (int)caller->severity))
        return false;
    if (row->states.count && !list_has_choice(&row->states, (int)caller->state))
        return false;
    if (row->steps.count && (!caller->step || !list_has_text(&row->steps, caller->step)))
        return false;
    if ((row->where.count && !is_there(b, &row->where, caller->where)) ||
        is_there(b, &row->never_where, caller->where))
        return false;
    const struct whom_animal animal = build_animal(b);
    return whom_fits(&row->whom, &animal);
}

static void call_all(struct care_build *b, const struct list *calls, const struct caller *caller,
                     const struct stance_call *form);

/* A row's own end gives way to that of the finding which calls for the bundle. */
static void call_bundle(struct care_build *b, const char *name, const struct caller *caller,
                        const struct stance_call *form)
{
    const struct bundle *bundle = bundle_find(b->in->topics, name);
    for (size_t i = 0; bundle && i < bundle->rows.count; i++) {
        const struct call_row *row = LIST_AT(bundle->rows, struct call_row, i);
        struct stance_call call = *form;
        call.bundle = form->bundle ? form->bundle : name;
        if (!row_holds(b, row, caller))
            continue;
        if (form->end_by == PHASE_END_NONE)
            set_end(b, row, caller, &call);
        call_all(b, &row->calls, caller, &call);
    }
}

/* Bundles of bundles are calls for the innermost too, so both names count. */
static void call_all(struct care_build *b, const struct list *calls, const struct caller *caller,
                     const struct stance_call *form)
{
    for (size_t i = 0; i < calls->count; i++) {
        const char *text = LIST_AT(*calls, struct text_value, i)->text;
        struct stance_call inner = *form;
        if (strchr(text, ':')) {
            if (caller->finding && inner.end_by == PHASE_END_NONE) {
                /* what was found holds until it is looked at again */
                inner.end_by = PHASE_END_RECHECK;
                end_at_recheck(b, caller, &inner);
            }
            stances_call(b, text, &inner);
        } else {
            inner.bundle = text;
            call_bundle(b, text, caller, &inner);
        }
    }
}

/* What follows an undated phase of the same caller on the same topic. */
static void set_then(struct care_build *b, size_t first, const char *text)
{
    size_t length;
    const char *stance;
    if (!call_is_stance(text, &length, &stance))
        return;
    size_t topic = topic_find(b->in->topics, text, length);
    for (size_t i = first; i < b->calls->count; i++)
        if (b->calls->items[i].topic == topic && !b->calls->items[i].has_until &&
            !b->calls->items[i].then)
            b->calls->items[i].then = stance;
}

enum { PHASES_MOST = 9 };

/* 0 for a row that is no part of a line of phases. */
static int phase_of(const struct call_row *row)
{
    return row->phase.known ? (int)row->phase.value : 0;
}

/* The rows of one phase, from `form->from` on; false when its end has no date. */
static bool call_phase(struct care_build *b, const struct list *rows, int phase,
                       const struct caller *caller, struct date from, struct date *end)
{
    bool dated = true, any = false;
    for (size_t i = 0; i < rows->count; i++) {
        const struct call_row *row = LIST_AT(*rows, struct call_row, i);
        if (phase_of(row) != phase || !row_holds(b, row, caller))
            continue;
        struct stance_call form = {.from = phase <= 1 ? start_of(b, row) : from,
                                   .because = caller->because,
                                   .finding = caller->finding};
        set_end(b, row, caller, &form);
        call_all(b, &row->calls, caller, &form);
        dated = dated && form.has_until;
        if (form.has_until && (!any || date_compare(form.until, *end) > 0))
            *end = form.until;
        any = true;
    }
    return any && dated;
}

static void call_rows(struct care_build *b, const struct list *rows, const struct caller *caller)
{
    struct date from = b->plan->on, unused = from;
    call_phase(b, rows, 0, caller, from, &unused);
    size_t first = b->calls->count;
    bool dated = true;
    for (int phase = 1; phase <= PHASES_MOST; phase++) {
        struct date end = from;
        if (dated) {
            bool has_end = call_phase(b, rows, phase, caller, from, &end);
            dated = has_end;
            from = end;
            continue;
        }
        for (size_t i = 0; i < rows->count; i++) {
            const struct call_row *row = LIST_AT(*rows, struct call_row, i);
            if (phase_of(row) != phase || !row_holds(b, row, caller))
                continue;
            for (size_t k = 0; k < row->calls.count; k++)
                set_then(b, first, LIST_AT(row->calls, struct text_value, k)->text);
        }
    }
}

/* ---- the callers
 * ---------------------------------------------------------------------------------
 */

static void call_findings(struct care_build *b)
{
    for (size_t i = 0; i < b->plan->finding_count; i++) {
        const struct finding_plan *f = &b->plan->findings[i];
        if (f->severity == SEVERITY_NORMAL)
            continue;
        const struct caller caller = {
            .because = arena_format(b->arena, "finding:%s", f->code),
            .finding = f->code,
            .severity = f->severity,
            .state = f->state,
            .step = f->step,
            .where = f->where,
            .is_suspected = f->is_suspected,
            .has_recheck_days = f->has_recheck,
            .recheck_days = f->recheck_days,
        };
        call_rows(b, &b->findings[i]->calls, &caller);
    }
}

static void call_procedures(struct care_build *b)
{
    for (size_t i = 0; i < b->plan->procedure_count; i++) {
        const struct procedure_plan *p = &b->plan->procedures[i];
        const struct caller caller = {
            .because = arena_format(b->arena, "done:%s", p->code),
            .finding = p->code,
            .severity = SEVERITY_MILD,
            .state = STATE_SEEN,
            .done = p,
        };
        call_rows(b, &b->procedures[i]->calls, &caller);
    }
}

static void call_states(struct care_build *b)
{
    const struct list *states = &b->in->topics->calls;
    for (size_t i = 0; i < states->count; i++) {
        const struct state_call *one = LIST_AT(*states, struct state_call, i);
        const char *from;
        if (rule_when_reads(&one->when) != b->calls->after_readings ||
            !rule_when_match(b, &one->when, &from))
            continue;
        const struct caller caller = {
            .because = arena_format(b->arena, "call:%s", one->name.text),
            .severity = SEVERITY_MILD,
            .state = STATE_SEEN,
        };
        struct stance_call form = {.from = start_of(b, &one->row), .because = caller.because};
        set_end(b, &one->row, &caller, &form);
        if (row_holds(b, &one->row, &caller))
            call_all(b, &one->row.calls, &caller, &form);
    }
}

/* How warm it is, which is known by now, says when it is looked at; true when a day moved. */
static bool move_checks(struct care_build *b)
{
    bool moved = false;
    for (size_t i = 0; i < b->calls->count; i++) {
        struct stance_call *call = &b->calls->items[i];
        struct date day;
        if (!call->until_check || !procedure_check_day(b, call->until_check, &day) ||
            date_compare(day, call->until) == 0)
            continue;
        call->until = day;
        moved = true;
    }
    return moved;
}

/* Everything that is called for: findings, procedures, the state of things, the veterinarian. */
static void stances_gather(struct care_build *b)
{
    if (!b->calls->after_readings) {
        call_findings(b);
        call_procedures(b);
    }
    call_states(b);
}

/* ---- the plan's topics
 * ----------------------------------------------------------------------------
 */

static bool is_told_lost(const struct stance_phase *now, const struct stance_lost *lost)
{
    return !now->decision && strncmp(lost->because, "finding:", 8) == 0 &&
           strncmp(now->because, "default", 7) != 0;
}

/* "middle, upper-half": each once. */
static const char *listed_once(struct care_build *b, const char *list, const char *one)
{
    const char *found = list ? strstr(list, one) : NULL;
    const size_t length = strlen(one);
    for (; found; found = strstr(found + 1, one))
        if ((found == list || found[-1] == ' ') && (found[length] == ',' || !found[length]))
            return list;
    return list ? arena_format(b->arena, "%s, %s", list, one) : one;
}

/* What findings called for and today does not get, a line a topic: the veterinarian looks at it. */
static void tell_lost(struct care_build *b, const struct topic_plan *topic)
{
    const struct stance_phase *now = &topic->phases[0];
    const char *dropped = NULL, *from = NULL;
    for (size_t i = 0; i < now->lost_count; i++) {
        if (!is_told_lost(now, &now->lost[i]))
            continue;
        dropped = listed_once(b, dropped, now->lost[i].stance);
        from = listed_once(b, from, now->lost[i].because);
    }
    if (!dropped)
        return;
    const char *stands = arena_format(b->arena, "%s.%s", topic->topic, now->stance);
    struct plan_fact *facts = build_fact_text(b, "dropped-from", FACT_TEXT, from, NULL);
    facts = build_fact_text(b, "dropped", FACT_TEXT, dropped, facts);
    facts = build_fact_text(b, "kept-from", FACT_TEXT, now->because, facts);
    facts = build_fact_text(b, "kept", FACT_STANCE, stands, facts);
    build_review(b, REVIEW_CONFLICT, "stance-lost", (struct mark){0},
                 build_fact_text(b, "topic", FACT_CODE,
                                 arena_format(b->arena, "desk.topic.%s", topic->topic), facts));
}

static void add_choices(struct care_build *b, const struct topic *topic, struct topic_plan *plan)
{
    const struct list *stances = &topic->stances;
    struct stance_choice *choices = ARENA_ARRAY(b->arena, struct stance_choice, stances->count);
    for (size_t i = 0; i < stances->count; i++) {
        const char *stance = LIST_AT(*stances, struct text_value, i)->text;
        const char *own = stances_translate(b, topic, stance);
        if (own && strcmp(own, stance) == 0)
            choices[plan->choice_count++] =
                (struct stance_choice){stance, list_has_text(&topic->needs_end, stance)};
    }
    plan->choices = choices;
}

static void settle_all(struct care_build *b)
{
    const struct list *topics = &b->in->topics->topics;
    struct topic_plan *plans = ARENA_ARRAY(b->arena, struct topic_plan, topics->count);
    size_t count = 0;
    stances_find_settlements(b);
    for (size_t i = 0; i < topics->count; i++) {
        const struct topic *topic = LIST_AT(*topics, struct topic, i);
        if (!stances_usual(b, topic))
            continue;
        plans[count] = stances_settle(b, i);
        add_choices(b, topic, &plans[count++]);
    }
    b->plan->topics = plans;
    b->plan->topic_count = count;
    plan_index_topics(b->plan, b->arena);
}

/* A soak that waits for the wound of a needle, or a bath that only the veterinarian writes. */
static void find_bath_day(struct care_build *b)
{
    struct care_plan *plan = b->plan;
    const struct topic_plan *bath = plan_topic(plan, "bath");
    /* as a step of its own, which says its days */
    const bool is_written = written_step_says(&b->in->topics->written, b->in->visit, WRITTEN_BATH);
    if (!bath || strcmp(bath->phases[0].stance, "none") != 0)
        return;
    for (size_t k = 1; k < bath->phase_count; k++) {
        const struct stance_phase *phase = &bath->phases[k];
        if (!plan->has_bath_from && strstr(phase->stance, "soak")) {
            plan->has_bath_from = true;
            plan->bath_from = phase->from;
        }
        if (!plan->has_bath_written_from && !is_written &&
            strcmp(phase->stance, "as-written") == 0) {
            plan->has_bath_written_from = true;
            plan->bath_written_from = phase->from;
        }
    }
}

bool stances_plan(struct care_build *b)
{
    b->calls = ARENA_NEW(b->arena, struct stance_calls);
    decisions_begin(b);
    stances_gather(b);
    stances_find_settlements(b);
    return true;
}

bool stances_settle_plan(struct care_build *b)
{
    settle_all(b);
    for (size_t i = 0; i < b->plan->topic_count; i++)
        tell_lost(b, &b->plan->topics[i]);
    find_bath_day(b);
    return true;
}

bool stances_after_readings_plan(struct care_build *b)
{
    size_t before = b->calls->count, count = b->calls->settlement_count;
    const struct stance_settlement *const *settled = b->calls->settlements;
    b->calls->after_readings = true;
    stances_gather(b);
    bool moved = move_checks(b);
    stances_find_settlements(b); /* some ask for a verdict that there was not before */
    if (moved || b->calls->count > before || b->calls->settlement_count != count ||
        memcmp(settled, b->calls->settlements, count * sizeof *settled) != 0)
        settle_all(b);
    return true;
}
