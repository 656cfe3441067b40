/* One topic's calls -> phases: on any day the veterinarian's decision, else what a settlement puts
 * in place of its findings' calls, else the strongest call; the usual stance where nobody calls. */
#include <stdint.h>
#include <string.h>

#include "care/rule_match.h"
#include "care/stances.h"

enum { DAYS_MOST = 160, ON_MOST = 256 };

/* The calls for the topic on one day, with what became of each. */
struct day_calls {
    struct stance_call items[ON_MOST];
    bool gone[ON_MOST]; /* a settlement stands in its place */
    size_t count;
};

/* A topic on its way to phases, and what of the plan's settlements has a word on it. */
struct settling {
    size_t topic;
    const struct stance_settlement **settlements;
    size_t settlement_count;
};

/* ---- settlements
 * --------------------------------------------------------------------------------- */

/* Does the condition name callers at all? */
static bool names_any(const struct rule_when *when)
{
    return when->finding.count || when->and_finding.count || when->and_also.count ||
           when->done.count || when->bundle.count;
}

/* Was what called found in one of the states that are asked for? */
static bool has_state(const struct care_build *b, const struct list *states, const char *finding)
{
    for (size_t i = 0; states->count && i < b->plan->finding_count; i++)
        if (strcmp(b->plan->findings[i].code, finding) == 0)
            return list_has_choice(states, (int)b->plan->findings[i].state);
    return true;
}

/* Does it name what this call comes from? One that names stances alone stands between those. */
static bool names_caller(const struct care_build *b, const struct rule_when *when,
                         const struct stance_call *call)
{
    if (call->finding && !has_state(b, &when->state, call->finding))
        return false;
    if (!names_any(when))
        return !when->calls.count && !when->and_calls.count;
    if (call->bundle && list_has_text(&when->bundle, call->bundle))
        return true;
    return call->finding && (list_has_text(&when->finding, call->finding) ||
                             list_has_text(&when->and_finding, call->finding) ||
                             list_has_text(&when->and_also, call->finding) ||
                             list_has_text(&when->done, call->finding));
}

/* Is it for one of these topic:stance? */
static bool names_stance(const struct care_build *b, const struct list *stances,
                         const struct stance_call *call)
{
    const struct topic *topic = LIST_AT(b->in->topics->topics, struct topic, call->topic);
    for (size_t i = 0; i < stances->count; i++) {
        const char *stance =
            call_stance_of(LIST_AT(*stances, struct text_value, i)->text, topic->name.text);
        if (stance && strcmp(stance, call->stance) == 0)
            return true;
    }
    return false;
}

/* A first meal that the veterinarian has yet to give a day says nothing of how long what was done
 * is in the way of anything else. */
static bool is_open_meal(const struct care_build *b, const struct stance_call *call)
{
    return !call->has_until && call->topic == topic_find(b->in->topics, "food", strlen("food")) &&
           strncmp(call->because, "done:", strlen("done:")) == 0;
}

/* Something that a list of findings names still calls on that day, or never called at all. */
static bool is_active(const struct care_build *b, const struct list *codes, struct date day)
{
    bool called = false;
    for (size_t i = 0; i < b->calls->count; i++) {
        const struct stance_call *call = &b->calls->items[i];
        if (!call->finding || !list_has_text(codes, call->finding))
            continue;
        called = true;
        if (stance_call_is_on(call, day) && !is_open_meal(b, call))
            return true;
    }
    return codes->count == 0 || !called;
}

/* Does somebody call for the stance on that day? */
static bool is_called_on(const struct care_build *b, size_t topic, const char *stance,
                         struct date day)
{
    for (size_t i = 0; i < b->calls->count; i++) {
        const struct stance_call *call = &b->calls->items[i];
        if (call->topic == topic && strcmp(call->stance, stance) == 0 &&
            stance_call_is_on(call, day))
            return true;
    }
    return false;
}

/* What one outcome of a settlement says of the topic, in this animal's terms; NULL for nothing. */
static const char *own_outcome(const struct care_build *b, const struct topic *topic,
                               const struct list *outcomes, size_t i)
{
    const char *stance =
        call_stance_of(LIST_AT(*outcomes, struct text_value, i)->text, topic->name.text);
    if (!stance)
        return NULL;
    stance = stances_translate(b, topic, stance);
    return stance && !strchr(stance, ':') ? stance : NULL;
}

/* The outcome of a settlement for a topic on a day: of several the first that somebody calls for,
 * else the last. NULL when it has none. */
static const char *outcome_for(const struct care_build *b, const struct stance_settlement *one,
                               size_t place, struct date day)
{
    const struct topic *topic = LIST_AT(b->in->topics->topics, struct topic, place);
    const char *outcome = NULL;
    for (size_t i = 0; i < one->outcome.count; i++) {
        const char *stance = own_outcome(b, topic, &one->outcome, i);
        if (!stance)
            continue;
        outcome = stance;
        if (is_called_on(b, place, stance, day))
            break;
    }
    return outcome;
}

/* What comes when this outcome is over: a later one that leaves its limits behind meanwhile. */
static const char *outcome_after(const struct care_build *b, const struct stance_settlement *one,
                                 size_t place, const char *stance)
{
    const struct topic *topic = LIST_AT(b->in->topics->topics, struct topic, place);
    bool met = false;
    for (size_t i = 0; i < one->outcome.count; i++) {
        const char *next = own_outcome(b, topic, &one->outcome, i);
        if (next && met && list_has_text(&topic->limits, next))
            return next;
        met = met || (next && strcmp(next, stance) == 0);
    }
    return NULL;
}

void stances_find_settlements(struct care_build *b)
{
    const struct list *book = &b->in->settlements->settlements;
    struct stance_calls *calls = b->calls;
    calls->settlements = ARENA_ARRAY(b->arena, const struct stance_settlement *, book->count + 1);
    calls->settlement_count = 0;
    for (size_t i = 0; i < book->count; i++) {
        const struct stance_settlement *one = LIST_AT(*book, struct stance_settlement, i);
        const char *from;
        if (rule_when_match(b, &one->when, &from))
            calls->settlements[calls->settlement_count++] = one;
    }
}

/* Is it over before the settlement is worth a change? A day without hands changes no rhythm. */
static bool is_too_short(const struct stance_settlement *one, const struct stance_call *call)
{
    return one->lasting.known && call->has_until &&
           (double)date_days_between(call->from, call->until) < one->lasting.value;
}

/* Does a call that is on that day match one of the named stances or bundles (NULL: not
 * asked)? True for none named.
 */
static bool is_named_on(const struct care_build *b, const struct stance_settlement *one,
                        const struct list *stances, const struct list *bundles, struct date day)
{
    for (size_t i = 0; i < b->calls->count; i++) {
        const struct stance_call *call = &b->calls->items[i];
        if (stance_call_is_on(call, day) && !is_too_short(one, call) &&
            ((stances && names_stance(b, stances, call)) ||
             (bundles && call->bundle && list_has_text(bundles, call->bundle))))
            return true;
    }
    return (!stances || stances->count == 0) && (!bundles || bundles->count == 0);
}

/* What a medicine alone asks for is looked at again at the recheck: no finding's end is its. */
static bool is_over_at_recheck(const struct care_build *b, const struct stance_settlement *one,
                               struct date day)
{
    return one->when.medicine.count && !names_any(&one->when) && !one->when.calls.count &&
           !one->when.and_calls.count && b->plan->has_recheck &&
           date_compare(day, b->plan->recheck) >= 0;
}

static bool applies(const struct care_build *b, const struct stance_settlement *one,
                    struct date day)
{
    /* what an operation alone asks for ends when all that it calls for has ended */
    if (!one->when.finding.count && !is_active(b, &one->when.done, day))
        return false;
    return !is_over_at_recheck(b, one, day) && is_named_on(b, one, &one->when.calls, NULL, day) &&
           is_named_on(b, one, &one->when.and_calls, NULL, day) &&
           is_named_on(b, one, NULL, &one->when.bundle, day) &&
           is_active(b, &one->when.finding, day) && is_active(b, &one->when.and_finding, day) &&
           is_active(b, &one->when.and_also, day);
}

/* The end of what stands in for several calls: the soonest dated end among them, for then the
 * question is open again. */
static void take_end(struct stance_call *made, const struct stance_call *from)
{
    if (from->has_until && (!made->has_until || date_compare(from->until, made->until) < 0)) {
        made->has_until = true;
        made->until = from->until;
    }
    if (made->end_by == PHASE_END_NONE)
        made->end_by = from->end_by;
}

/* Is the call one of those that the settlement stands between: a named caller's, or one for a
 * stance that the condition names? */
static bool is_between(const struct care_build *b, const struct stance_settlement *one,
                       const struct stance_call *call)
{
    return names_stance(b, &one->when.calls, call) || names_stance(b, &one->when.and_calls, call) ||
           names_caller(b, &one->when, call);
}

/* The ends of the named calls for the same topic; where none is, those of all that are named. */
static void take_ends(const struct care_build *b, const struct stance_settlement *one,
                      struct date day, struct stance_call *made)
{
    for (int any_topic = 0; any_topic < 2 && made->end_by == PHASE_END_NONE; any_topic++)
        for (size_t i = 0; i < b->calls->count; i++) {
            const struct stance_call *call = &b->calls->items[i];
            if (stance_call_is_on(call, day) && is_between(b, one, call) &&
                (any_topic || call->topic == made->topic))
                take_end(made, call);
        }
}

/* Who loses by it says nothing of how long: where the shed's caller wanted something else, what
 * another ill forbids is asked anew at that ill's check, not when old skin comes off. */
static void take_check(const struct care_build *b, const struct stance_settlement *one,
                       struct date day, struct stance_call *made)
{
    const struct stance_call *check = NULL;
    for (size_t i = 0; i < b->calls->count; i++) {
        const struct stance_call *call = &b->calls->items[i];
        if (!stance_call_is_on(call, day) || !is_between(b, one, call))
            continue;
        if (call->topic == made->topic && call->end_by == PHASE_END_SHED &&
            strcmp(call->stance, made->stance) == 0)
            return;
        if (call->end_by == PHASE_END_RECHECK && call->has_until &&
            (!check || date_compare(call->until, check->until) < 0))
            check = call;
    }
    if (!check || made->end_by != PHASE_END_SHED)
        return;
    made->end_by = PHASE_END_RECHECK;
    made->has_until = true;
    made->until = check->until;
}

static void review_settlement(struct care_build *b, const struct stance_settlement *one)
{
    if (!one->ask.value && !one->confirm.value)
        return;
    for (struct review *r = b->plan->review; r; r = r->next)
        if (strcmp(r->code, "settlement-asks") == 0 && strcmp(r->facts->text, one->name.text) == 0)
            return;
    struct plan_fact *facts = build_fact_text(b, "reason", FACT_TEXT, one->reason.text, NULL);
    facts = build_fact_text(b, "settlement", FACT_TEXT, one->name.text, facts);
    build_review(b, REVIEW_CONFLICT, "settlement-asks", (struct mark){0}, facts);
}

/* What two ask for together lasts no longer than the veterinarian wrote for it. */
static bool is_past_written_care(const struct care_build *b, size_t topic, struct date day)
{
    const char *name = LIST_AT(b->in->topics->topics, struct topic, topic)->name.text;
    const struct procedure_plan *care = procedure_written_for(b, name, strlen(name));
    struct date end;
    return care && procedure_check_day(b, care, &end) && date_compare(day, end) >= 0;
}

static void settle_day(struct care_build *b, const struct settling *settling, struct date day,
                       struct day_calls *on)
{
    const size_t topic = settling->topic;
    if (is_past_written_care(b, topic, day))
        return;
    for (size_t s = 0; s < settling->settlement_count; s++) {
        const struct stance_settlement *one = settling->settlements[s];
        if (!applies(b, one, day))
            continue;
        const char *stance = outcome_for(b, one, topic, day);
        const struct topic *about = LIST_AT(b->in->topics->topics, struct topic, topic);
        struct stance_call made = {
            .topic = topic,
            .stance = stance,
            .rank = topic_rank(about, stance),
            .from = day,
            .because = arena_format(b->arena, "settlement:%s", one->name.text),
        };
        for (size_t i = 0; i < on->count; i++) {
            if (on->gone[i] || !is_between(b, one, &on->items[i]) ||
                (!on->items[i].finding && !names_stance(b, &one->when.calls, &on->items[i])))
                continue; /* what was measured gives way only where it is named */
            on->gone[i] = strcmp(on->items[i].stance, stance) != 0;
            if (!on->gone[i] && !made.then)
                made.then = on->items[i].then;
        }
        take_ends(b, one, day, &made);
        for (size_t i = 0; i < on->count && made.end_by == PHASE_END_NONE; i++)
            if (strcmp(on->items[i].stance, stance) == 0)
                take_end(&made, &on->items[i]); /* who calls for the same says until when */
        take_check(b, one, day, &made);
        if (!made.then)
            made.then = outcome_after(b, one, topic, stance);
        if (on->count < ON_MOST) {
            on->gone[on->count] = false;
            on->items[on->count++] = made;
        }
        review_settlement(b, one);
    }
}

/* ---- one day
 * -------------------------------------------------------------------------------------- */

/* A decision for a stance that there is not is no decision: decisions.c refuses it. */
static const struct visit_decision *decided(const struct care_build *b, const struct topic *topic,
                                            struct date day)
{
    const struct list *decisions = &b->in->visit->decisions;
    for (size_t i = 0; i < decisions->count; i++) {
        const struct visit_decision *one = LIST_AT(*decisions, struct visit_decision, i);
        if (one->topic.text && strcmp(one->topic.text, topic->name.text) == 0 &&
            topic_rank(topic, one->stance.text) != SIZE_MAX &&
            (!one->until.known || date_compare(day, one->until.date) < 0))
            return one;
    }
    return NULL;
}

static void collect_day(const struct care_build *b, size_t topic, struct date day,
                        struct day_calls *on)
{
    on->count = 0;
    for (size_t i = 0; i < b->calls->count && on->count < ON_MOST; i++) {
        const struct stance_call *call = &b->calls->items[i];
        if (call->topic != topic || !stance_call_is_on(call, day))
            continue;
        on->gone[on->count] = false;
        on->items[on->count++] = *call;
    }
}

/* Did a settlement put it there? */
static bool is_settled(const struct stance_call *call)
{
    return strncmp(call->because, "settlement:", strlen("settlement:")) == 0;
}

/* The strongest that stands; of equals the settlement's, else the first. SIZE_MAX for none. */
static size_t strongest(const struct day_calls *on)
{
    size_t best = SIZE_MAX;
    for (size_t i = 0; i < on->count; i++)
        if (!on->gone[i] && (best == SIZE_MAX || on->items[i].rank < on->items[best].rank ||
                             (on->items[i].rank == on->items[best].rank &&
                              is_settled(&on->items[i]) && !is_settled(&on->items[best]))))
            best = i;
    return best;
}

static bool is_among(const char *const *texts, size_t count, const char *text)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(texts[i], text) == 0)
            return true;
    return false;
}

/* What the others leave behind: beside the winner in a topic of parts, else as losers with their
 * limits. */
static void add_others(struct care_build *b, const struct topic *topic, const struct day_calls *on,
                       struct stance_phase *phase)
{
    const char **with = ARENA_ARRAY_UNSET(b->arena, const char *, on->count + 1);
    const char **limits = ARENA_ARRAY_UNSET(b->arena, const char *, on->count + 1);
    struct stance_lost *lost = ARENA_ARRAY_UNSET(b->arena, struct stance_lost, on->count + 1);
    for (size_t i = 0; i < on->count; i++) {
        const char *stance = on->items[i].stance;
        if (strcmp(stance, phase->stance) == 0 || is_among(with, phase->with_count, stance))
            continue;
        if (topic->kind.value != TOPIC_ORDER && !on->gone[i]) {
            with[phase->with_count++] = stance;
            continue;
        }
        lost[phase->lost_count++] = (struct stance_lost){stance, on->items[i].because};
        if (!on->gone[i] && list_has_text(&topic->limits, stance) &&
            !is_among(limits, phase->limit_count, stance))
            limits[phase->limit_count++] = stance;
    }
    phase->with = with;
    phase->limits = limits;
    phase->lost = lost;
}

/* What holds until it is awake stands before a weaker decision, which is made for the days after:
 * food or water in a drowsy animal goes into its lungs. SIZE_MAX for nothing. */
static size_t until_awake(const struct topic *topic, const struct visit_decision *own,
                          const struct day_calls *on)
{
    size_t best = SIZE_MAX;
    for (size_t i = 0; own && i < on->count; i++)
        if (on->items[i].end_by == PHASE_END_AWAKE &&
            on->items[i].rank < topic_rank(topic, own->stance.text) &&
            (best == SIZE_MAX || on->items[i].rank < on->items[best].rank))
            best = i;
    return best;
}

static struct stance_phase phase_on(struct care_build *b, const struct settling *settling,
                                    struct date day, struct day_calls *on)
{
    const size_t place = settling->topic;
    const struct topic *topic = LIST_AT(b->in->topics->topics, struct topic, place);
    const char *usual = stances_usual(b, topic);
    collect_day(b, place, day, on);
    settle_day(b, settling, day, on);
    const struct stance_call usual_call = {
        .topic = place, .stance = usual, .rank = topic_rank(topic, usual), .because = "default"};
    const struct visit_decision *own = decided(b, topic, day);
    size_t awake = until_awake(topic, own, on), best = awake == SIZE_MAX ? strongest(on) : awake;
    const struct stance_call *won = best == SIZE_MAX ? &usual_call : &on->items[best];
    if (usual_call.rank < won->rank || topic->kind.value == TOPIC_CHOICE)
        won = &usual_call;
    struct stance_phase phase = {.stance = won->stance,
                                 .from = day,
                                 .end_by = won->end_by,
                                 .then = won->then,
                                 .because = won->because};
    if (own && awake == SIZE_MAX) {
        phase.lost_count = 0;
        phase.stance = own->stance.text;
        phase.because = "veterinarian";
        phase.decision = decision_of(b, own);
        phase.end_by = own->until.known ? PHASE_END_DATE : PHASE_END_VETERINARIAN;
        phase.then = NULL;
    }
    add_others(b, topic, on, &phase);
    return phase;
}

/* ---- all days
 * --------------------------------------------------------------------------------------- */

/* Each day once, in their order. */
static void add_day(struct date *days, size_t *count, struct date day, struct date first)
{
    if (date_compare(day, first) <= 0 || *count == DAYS_MOST)
        return;
    size_t at = *count;
    while (at > 0 && date_compare(days[at - 1], day) > 0)
        at--;
    if (at > 0 && date_compare(days[at - 1], day) == 0)
        return;
    memmove(&days[at + 1], &days[at], (*count - at) * sizeof *days);
    days[at] = day;
    ++*count;
}

/* Every day on which something of the topic may change. A settlement depends on findings that may
 * call for other topics, so the ends of all calls count. */
static size_t turning_days(const struct care_build *b, size_t topic, struct date *days)
{
    const struct topic *about = LIST_AT(b->in->topics->topics, struct topic, topic);
    size_t count = 1;
    days[0] = b->plan->on;
    for (size_t i = 0; i < b->calls->count; i++) {
        const struct stance_call *call = &b->calls->items[i];
        add_day(days, &count, call->from, b->plan->on);
        if (call->has_until)
            add_day(days, &count, call->until, b->plan->on);
    }
    for (size_t i = 0; i < b->in->visit->decisions.count; i++) {
        const struct visit_decision *one =
            LIST_AT(b->in->visit->decisions, struct visit_decision, i);
        if (one->topic.text && strcmp(one->topic.text, about->name.text) == 0 && one->until.known)
            add_day(days, &count, one->until.date, b->plan->on);
    }
    return count;
}

static bool is_same(const struct stance_phase *one, const struct stance_phase *other)
{
    if (strcmp(one->stance, other->stance) != 0 || one->with_count != other->with_count ||
        one->limit_count != other->limit_count || one->decision != other->decision)
        return false;
    for (size_t i = 0; i < one->with_count; i++)
        if (!is_among(other->with, other->with_count, one->with[i]))
            return false;
    return true;
}

/* What two ills together ask for until the check is asked anew there, though one of them would
 * have it go on: its own sign (the next shed) says nothing of the other. */
static bool ends_at_check(const struct stance_phase *one, const struct stance_phase *next)
{
    return strncmp(one->because, "settlement:", strlen("settlement:")) == 0 &&
           one->end_by == PHASE_END_RECHECK && next->end_by == PHASE_END_SHED;
}

/* Whether one has a word on the topic is the same on each day. */
static struct settling find_settling(struct care_build *b, size_t topic)
{
    const struct stance_calls *calls = b->calls;
    struct settling settling = {.topic = topic,
                                .settlements =
                                    ARENA_ARRAY_UNSET(b->arena, const struct stance_settlement *,
                                                      calls->settlement_count + 1)};
    for (size_t i = 0; i < calls->settlement_count; i++)
        if (outcome_for(b, calls->settlements[i], topic, b->plan->on))
            settling.settlements[settling.settlement_count++] = calls->settlements[i];
    return settling;
}

/* Nobody calls for the topic: one phase without end. */
static bool is_untouched(const struct care_build *b, const struct settling *settling)
{
    for (size_t i = 0; i < b->calls->count; i++)
        if (b->calls->items[i].topic == settling->topic)
            return false;
    return !settling->settlement_count && !b->in->visit->decisions.count;
}

struct topic_plan stances_settle(struct care_build *b, size_t topic)
{
    const struct topic *about = LIST_AT(b->in->topics->topics, struct topic, topic);
    struct topic_plan made = {.topic = about->name.text, .goes_on = about->goes_on.value};
    struct date days[DAYS_MOST];
    const struct settling settling = find_settling(b, topic);
    size_t count = is_untouched(b, &settling) ? 1 : turning_days(b, topic, days);
    days[0] = b->plan->on;
    struct stance_phase *phases = ARENA_ARRAY_UNSET(b->arena, struct stance_phase, count);
    struct day_calls on;
    for (size_t i = 0; i < count; i++) {
        struct stance_phase phase = phase_on(b, &settling, days[i], &on);
        if (made.phase_count && is_same(&phases[made.phase_count - 1], &phase) &&
            !ends_at_check(&phases[made.phase_count - 1], &phase)) {
            /* what goes on as the usual thing has no end of its own any more */
            phases[made.phase_count - 1].end_by = phase.end_by;
            continue;
        }
        if (made.phase_count) {
            phases[made.phase_count - 1].has_until = true;
            phases[made.phase_count - 1].until = days[i];
            phases[made.phase_count - 1].then = NULL; /* the next phase says it */
        }
        phases[made.phase_count++] = phase;
    }
    made.phases = phases;
    return made;
}
