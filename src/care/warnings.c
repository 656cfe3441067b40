/* The warning signs: those of every animal of the group, the species' own, and those that this
 * animal's findings, procedures, weight and fast raise. A sign is never dropped. */
#include "care/weight.h"

#include <stdint.h>
#include <string.h>

struct sign_list {
    struct warning *items;
    size_t count;
};

/* Why a sign is there. */
struct cause {
    const char *because;
    bool own;   /* of this animal, not of its kind */
    bool raise; /* a step more urgent than usual */
};

/* What the weight's own limits say better, or another sign of an ill animal says sooner. */
static bool is_said_elsewhere(const struct care_build *b, const struct warning_sign *sign)
{
    const struct weight_plan *w = &b->plan->weight;
    /* what a thin animal gains short of its goal alarms nobody: then the low one says all */
    bool has_high = w->has_high && (w->purpose != WEIGHT_GAIN || w->has_goal);
    return (sign->unless_weighed.value && w->has_low && !has_high) ||
           (sign->unless_ill.value && build_has_illness(b));
}

static bool has_one_of(const struct care_build *b, const struct list *codes)
{
    for (size_t i = 0; i < b->plan->procedure_count; i++)
        if (list_has_text(codes, b->plan->procedures[i].code))
            return true;
    for (size_t i = 0; i < b->plan->finding_count; i++)
        if (b->plan->findings[i].severity != SEVERITY_NORMAL &&
            list_has_text(codes, b->plan->findings[i].code))
            return true;
    return false;
}

static bool fits(const struct care_build *b, const struct warning_sign *sign)
{
    bool in_group = false;
    if (is_said_elsewhere(b, sign) || list_has_choice(&sign->never_at, (int)b->plan->feeding.stage))
        return false;
    if (has_one_of(b, &sign->unless_found))
        return false;
    for (size_t i = 0; i < sign->groups.count; i++)
        in_group = in_group || LIST_AT(sign->groups, struct choice_value, i)->value ==
                                   b->in->species->group.value;
    for (size_t i = 0; i < sign->needs.count; i++)
        if (!species_has_trait(b->in->species,
                               (enum trait)LIST_AT(sign->needs, struct choice_value, i)->value))
            return false;
    return in_group;
}

static struct warning *find_listed(struct sign_list *list, const char *code)
{
    for (size_t i = 0; i < list->count; i++)
        if (strcmp(list->items[i].code, code) == 0)
            return &list->items[i];
    return NULL;
}

/* A second cause never makes a sign less urgent, and the animal's own cause is the one that is
 * named. */
static struct warning *add(struct sign_list *list, const struct warning_sign *sign,
                           struct cause cause)
{
    enum tier usual = (enum tier)sign->tier.value;
    bool raise = cause.raise && usual != TIER_NOW && !sign->never_raised.value;
    enum tier tier = raise ? (enum tier)(usual - 1) : usual;
    struct warning *listed = find_listed(list, sign->name.text);
    if (!listed) {
        list->items[list->count++] = (struct warning){.tier = tier,
                                                      .usual_tier = usual,
                                                      .alarm = (enum alarm)sign->alarm.value,
                                                      .code = sign->name.text,
                                                      .because = cause.because,
                                                      .own = cause.own};
        return &list->items[list->count - 1];
    }
    if (tier < listed->tier)
        listed->tier = tier;
    if (cause.own && !listed->own) {
        listed->own = true;
        listed->because = cause.because;
    }
    return listed;
}

static bool is_to_go_for_here(const struct care_build *b, const struct warning_sign *sign)
{
    return has_one_of(b, &sign->now_with) ||
           list_has_choice(&sign->now_at, (int)b->plan->feeding.stage);
}

/* What can wait in a healthy grown animal is a reason to go in this one. */
static void raise_to_now(struct care_build *b, struct sign_list *list)
{
    for (size_t i = 0; i < list->count; i++) {
        struct warning *one = &list->items[i];
        const struct warning_sign *sign = sign_find(b->in->signs, one->code);
        if (is_to_go_for_here(b, sign))
            one->tier = TIER_NOW;
    }
}

static bool has_become_one_to_go_for(const struct warning *listed)
{
    return listed && listed->tier == TIER_NOW && listed->usual_tier != TIER_NOW;
}

/* The signs of one place have one urgency: a wound that opens and one that smells. */
static void raise_together(const struct care_build *b, struct sign_list *list)
{
    bool changed = true;
    while (changed) {
        changed = false;
        for (size_t i = 0; i < list->count; i++) {
            struct warning *one = &list->items[i];
            const struct list *with = &sign_find(b->in->signs, one->code)->raised_with;
            for (size_t k = 0; k < with->count && one->tier != TIER_NOW; k++) {
                const char *other = LIST_AT(*with, struct text_value, k)->text;
                if (!has_become_one_to_go_for(find_listed(list, other)))
                    continue;
                one->tier = TIER_NOW;
                changed = true;
            }
        }
    }
}

/* A code that the catalogue does not know has no urgency: rather no sheet than one without the
 * sign. */
static bool add_codes(struct care_build *b, struct sign_list *list, const struct list *codes,
                      struct cause cause)
{
    bool good = true;
    for (size_t i = 0; i < codes->count; i++) {
        const struct text_value *code = LIST_AT(*codes, struct text_value, i);
        const struct warning_sign *sign = sign_find(b->in->signs, code->text);
        if (sign) {
            /* a finding of many groups raises no sign of a part that this animal has not */
            if (fits(b, sign))
                add(list, sign, cause);
            continue;
        }
        diag_report_path(b->diag, DIAG_ERROR, "unknown-sign", code->at, "warnings",
                         "there is no warning sign '%s'", code->text);
        good = false;
    }
    return good;
}

static void mark_already(struct sign_list *list, const struct list *codes)
{
    for (size_t i = 0; i < codes->count; i++) {
        struct warning *listed = find_listed(list, LIST_AT(*codes, struct text_value, i)->text);
        if (listed)
            listed->already = true;
    }
}

/* Whoever lists the sign, the species or every sheet: what was found today is so already. */
static void mark_found(const struct care_build *b, struct sign_list *list)
{
    for (size_t i = 0; i < b->plan->finding_count; i++)
        if (b->plan->findings[i].severity != SEVERITY_NORMAL)
            mark_already(list, &b->findings[i]->already);
}

static bool add_own(struct care_build *b, struct sign_list *list)
{
    bool good = true;
    for (size_t i = 0; i < b->plan->finding_count; i++) {
        const struct finding_plan *f = &b->plan->findings[i];
        if (f->severity == SEVERITY_NORMAL)
            continue;
        struct cause cause = {arena_format(b->arena, "finding:%s", f->code), true,
                              f->severity == SEVERITY_SEVERE};
        good = add_codes(b, list, &b->findings[i]->warnings, cause) && good;
    }
    for (size_t i = 0; i < b->plan->procedure_count; i++) {
        const struct procedure_plan *p = &b->plan->procedures[i];
        struct cause cause = {arena_format(b->arena, "done:%s", p->code), true, false};
        good = add_codes(b, list, &b->procedures[i]->warnings, cause) && good;
    }
    return good;
}

/* ---- what the weight and the last meal raise ----------------------------------------------------
 */

static bool is_past(const struct care_build *b, const struct date_value *last, double limit_days)
{
    return last->known && limit_days > 0 &&
           (double)date_days_between(last->date, b->plan->on) > limit_days;
}

static bool fasts_too_long(const struct care_build *b)
{
    struct date_value last;
    return visit_last_meal(b->in->visit, &last) &&
           is_past(b, &last, b->plan->feeding.fast_limit_days);
}

/* A meal so long ago that no finding speaks of was forgotten in one of the two places. */
static void ask_why_it_fasts(struct care_build *b)
{
    const struct list *found = &b->in->visit->findings;
    struct date_value last;
    if (!fasts_too_long(b) || !visit_last_meal(b->in->visit, &last))
        return;
    for (size_t i = 0; i < found->count; i++)
        if (strcmp(LIST_AT(*found, struct visit_finding, i)->code.text, "not-eating") == 0)
            return;
    const double days = (double)date_days_between(last.date, b->plan->on);
    build_review(b, REVIEW_MISSING, "fast-unsaid", (struct mark){0},
                 build_fact(b, "days", FACT_DAYS, days, days, NULL));
}

static bool has_no_stool(const struct care_build *b)
{
    return is_past(b, &b->in->visit->history.events[EVENT_STOOL],
                   b->plan->feeding.stool_limit_days);
}

static const struct {
    bool (*holds)(const struct care_build *);
    const char *because;
    const char *sign;
    bool raise;
    bool already; /* it is so today: only what follows is news */
} state_rows[] = {
    /* what is so already would send the keeper straight back: the next step of it is raised */
    {weight_has_lost_much, "weight", "weight-loss", false, true},
    {weight_has_lost_much, "weight", "slow-weight-change", true, false},
    {fasts_too_long, "last-meal", "refuses-food-past-limit", false, true},
    {has_no_stool, "last-stool", "no-stool-past-limit", false, true},
};

const char *plan_state_sign(size_t place)
{
    size_t left = place;
    for (size_t i = 0; i < sizeof state_rows / sizeof *state_rows; i++)
        if (state_rows[i].already && left-- == 0)
            return state_rows[i].sign;
    return NULL;
}

static void add_states(struct care_build *b, struct sign_list *list)
{
    for (size_t i = 0; i < sizeof state_rows / sizeof *state_rows; i++) {
        const struct warning_sign *sign = sign_find(b->in->signs, state_rows[i].sign);
        if (!sign || !fits(b, sign) || !state_rows[i].holds(b))
            continue;
        struct warning *listed =
            add(list, sign, (struct cause){state_rows[i].because, true, state_rows[i].raise});
        listed->already = listed->already || state_rows[i].already;
    }
}

/* What is normal for its kind is no sign in a grown animal whose weight holds. */
static bool is_normal_here(const struct care_build *b, const struct warning_sign *sign)
{
    enum weight_state weight = b->plan->growth.weight;
    bool falls =
        b->plan->growth.known && (weight == WEIGHT_FALLING || weight == WEIGHT_FALLING_FAST);
    if (falls || b->plan->feeding.stage != STAGE_ADULT)
        return false;
    for (size_t i = 0; i < sign->unless_normal.count; i++) {
        const char *code = LIST_AT(sign->unless_normal, struct text_value, i)->text;
        for (size_t k = 0; k < b->in->species->normal.count; k++)
            if (strcmp(LIST_AT(b->in->species->normal, struct text_value, k)->text, code) == 0)
                return true;
    }
    return false;
}

static void add_always(struct care_build *b, struct sign_list *list)
{
    const struct list *signs = &b->in->signs->signs;
    for (size_t i = 0; i < signs->count; i++) {
        const struct warning_sign *sign = LIST_AT(*signs, struct warning_sign, i);
        if (sign->always.value && fits(b, sign) && !is_normal_here(b, sign))
            add(list, sign, (struct cause){"always", false, false});
    }
}

/* Stable: by tier, the animal's own first. */
static void order(struct sign_list *list)
{
    for (size_t i = 1; i < list->count; i++) {
        struct warning moving = list->items[i];
        size_t k = i;
        for (; k > 0; k--) {
            const struct warning *before = &list->items[k - 1];
            if (before->tier < moving.tier ||
                (before->tier == moving.tier && before->own >= moving.own))
                break;
            list->items[k] = *before;
        }
        list->items[k] = moving;
    }
}

static bool is_said_by_more(struct sign_list *list, const struct warning_sign *sign)
{
    for (size_t i = 0; i < sign->unless_now.count; i++)
        if (has_become_one_to_go_for(
                find_listed(list, LIST_AT(sign->unless_now, struct text_value, i)->text)))
            return true;
    return false;
}

/* A sign whose sense depends on a stance is none while another holds: an animal that shall not eat
 * does not refuse its food. */
static void keep_what_agrees(struct care_build *b, struct sign_list *list)
{
    size_t kept = 0;
    for (size_t i = 0; i < list->count; i++) {
        const char *key = arena_format(b->arena, "sign.%s", list->items[i].code);
        const struct warning_sign *sign = sign_find(b->in->signs, list->items[i].code);
        if (!is_said_by_more(list, sign) && plan_printed_key(b->plan, key, b->arena))
            list->items[kept++] = list->items[i];
    }
    list->count = kept;
}

/* Raised, or already there, or one that only this animal's findings name. What is not among the
 * signs of the sheet is as urgent as it would be there. */
static bool is_to_go_for(const struct care_build *b, struct sign_list *list, const char *code)
{
    const struct warning *listed = find_listed(list, code);
    const struct warning_sign *sign =
        sign_find(b->in->signs, code); /* `check` refuses unknown ones */
    if (!listed)
        return sign && is_to_go_for_here(b, sign);
    return has_become_one_to_go_for(listed) || (listed->tier == TIER_NOW && listed->own);
}

/* What its home sentence says to call for stands among the signs to go at once for: one urgency.
 * That is the sign that the finding itself is, where it is one. */
static bool finding_calls_now(const struct care_build *b, struct sign_list *list, size_t place)
{
    const struct finding *entry = b->findings[place];
    const struct list *own = entry->already.count ? &entry->already : &entry->warnings;
    bool now = false;
    for (size_t k = 0; k < own->count; k++)
        now = now || has_become_one_to_go_for(
                         find_listed(list, LIST_AT(*own, struct text_value, k)->text));
    return now && b->plan->findings[place].severity != SEVERITY_NORMAL;
}

/* One urgency of a sign in all texts that speak of it: those that name it, and the home sentences
 * of the findings that raise it. */
static void tell_texts(struct care_build *b, struct sign_list *list)
{
    const struct list *book = &b->in->instructions->instructions;
    struct declared_text *texts = ARENA_ARRAY_UNSET(b->arena, struct declared_text, book->count);
    for (size_t i = 0; i < book->count; i++) {
        const struct list *signs = &LIST_AT(*book, struct instruction, i)->signs;
        texts[i] = b->plan->texts[i];
        for (size_t k = 0; k < signs->count && !texts[i].calls_now; k++)
            texts[i].calls_now = is_to_go_for(b, list, LIST_AT(*signs, struct text_value, k)->text);
    }
    for (size_t i = 0; i < b->plan->finding_count; i++) {
        const char *home = arena_format(b->arena, "finding.%s.home", b->plan->findings[i].code);
        const size_t place = plan_instruction_place(b->plan, home);
        if (place != SIZE_MAX && finding_calls_now(b, list, i))
            texts[place].calls_now = true;
    }
    b->plan->texts = texts;
}

/* With a stone no number says how long it may hold its urine: the day is the veterinarian's. */
static void plan_urine(struct care_build *b, struct sign_list *list)
{
    const struct date_value *by = &b->in->visit->follow_up.urine_by;
    b->plan->has_urine_by = by->known;
    b->plan->urine_by = by->date;
    if (by->known || !find_listed(list, "no-urine") || !build_is_found(b, "bladder-stone"))
        return;
    b->plan->has_blanks = true;
    build_review(b, REVIEW_MISSING, "urine-day-missing", (struct mark){0}, NULL);
}

/* No number says how long she may look for a place: the day is the veterinarian's. */
static void plan_eggs(struct care_build *b, struct sign_list *list)
{
    const struct date_value *by = &b->in->visit->follow_up.eggs_by;
    b->plan->has_eggs_by = by->known;
    b->plan->eggs_by = by->date;
    if (by->known || !find_listed(list, "no-eggs") ||
        !plan_printed_key(b->plan, "sign.no-eggs", b->arena))
        return;
    b->plan->has_blanks = true;
    build_review(b, REVIEW_MISSING, "eggs-day-missing", (struct mark){0}, NULL);
}

bool warnings_plan(struct care_build *b)
{
    struct sign_list list = {
        .items = ARENA_ARRAY_UNSET(b->arena, struct warning, b->in->signs->signs.count)};
    bool good = add_own(b, &list);
    add_states(b, &list);
    b->plan->feeding.fast_limit_passed = fasts_too_long(b);
    ask_why_it_fasts(b);
    good =
        add_codes(b, &list, &b->in->species->warnings, (struct cause){"species", false, false}) &&
        good;
    add_always(b, &list);
    mark_found(b, &list);
    raise_to_now(b, &list);
    raise_together(b, &list);
    keep_what_agrees(b, &list);
    tell_texts(b, &list);
    plan_urine(b, &list);
    plan_eggs(b, &list);
    order(&list);
    b->plan->warnings = list.items;
    b->plan->warning_count = list.count;
    return good;
}
