/* Findings in the order of an examination, procedures, and what they mean for bathing. */
#include "care/build.h"

#include <string.h>

static const struct choice_value *tier_of(const struct finding *entry, enum severity severity)
{
    const struct choice_value *tiers[] = {
        [SEVERITY_MILD] = &entry->tiers.mild,
        [SEVERITY_MODERATE] = &entry->tiers.moderate,
        [SEVERITY_SEVERE] = &entry->tiers.severe,
    };
    return severity == SEVERITY_NORMAL ? NULL : tiers[severity];
}

/* More urgent for some animals. */
static void raise_tier(const struct care_build *b, const struct finding *entry,
                       struct finding_plan *f)
{
    const struct whom_animal animal = build_animal(b);
    for (size_t i = 0; i < entry->sooner.count; i++) {
        const struct finding_sooner *one = LIST_AT(entry->sooner, struct finding_sooner, i);
        bool level = !one->severities.count || list_has_choice(&one->severities, (int)f->severity);
        if (!level || !whom_fits(&one->whom, &animal))
            continue;
        if (!f->is_urgent || (enum tier)one->tier.value < f->tier)
            f->tier = (enum tier)one->tier.value;
        f->is_urgent = true;
    }
}

static struct finding_plan plan_one(const struct care_build *b, const struct visit_finding *found,
                                    const struct finding *entry)
{
    struct finding_plan f = {
        .code = found->code.text,
        .severity = found->severity.known ? (enum severity)found->severity.value : SEVERITY_MILD,
        .where = found->where.text,
        .note = found->note.text,
        .is_under_shell = written_says(&b->in->topics->written, &found->where, WRITTEN_UNDER_SHELL),
        .is_suspected = found->certainty.value == CERTAINTY_SUSPECTED,
        .is_name_doubt = entry->unproven.value,
        .has_steps = entry->steps.count > 0,
        .is_as_it_is = entry->severities.count == 1,
        .step = found->step.text,
        .has_value = found->value.known,
        .value = found->value.value,
        .state = visit_finding_state(b->in->visit, found),
        .system = (enum body_system)entry->system.value,
        .headline = entry->headline.known ? (enum headline)entry->headline.value : HEADLINE_USUAL,
    };
    const struct choice_value *tier = tier_of(entry, f.severity);
    f.is_urgent = tier && tier->known;
    f.tier = f.is_urgent ? (enum tier)tier->value : TIER_SOON;
    if (f.severity != SEVERITY_NORMAL)
        raise_tier(b, entry, &f);
    f.has_recheck = f.severity != SEVERITY_NORMAL && entry->recheck_days.range.known;
    f.recheck_low_days = entry->recheck_days.range.low;
    f.recheck_high_days = entry->recheck_days.range.high;
    f.disinfectant = build_disinfectant(b, f.code);
    f.recheck_days = f.severity == SEVERITY_SEVERE ? f.recheck_low_days : f.recheck_high_days;
    return f;
}

/* What was treated here, or is on its way elsewhere by appointment, does not send anyone off. */
static bool must_go_now(const struct finding_plan *f)
{
    if (f->severity == SEVERITY_NORMAL)
        return false;
    return f->state == STATE_GO_NOW ||
           (f->state == STATE_UNSEEN && f->is_urgent && f->tier == TIER_NOW);
}

/* What is in no catalogue has no urgency: it must not vanish without a word. */
static bool unknown(struct care_build *b, const struct text_value *code, const char *path)
{
    diag_report_path(b->diag, DIAG_ERROR, "not-in-catalogue", code->at, path,
                     "'%s' is not in the catalogue of findings", code->text);
    return false;
}

/* When the result of a procedure is there, and how the keeper hears of it. */
static void plan_result(struct care_build *b, struct procedure_plan *plan)
{
    const struct list *results = &b->in->visit->follow_up.results;
    for (size_t i = 0; i < results->count; i++) {
        const struct visit_result *one = LIST_AT(*results, struct visit_result, i);
        if (strcmp(one->of.text, plan->code) != 0)
            continue;
        plan->has_result = plan->awaits_result = true;
        plan->result = build_result_day(b, &one->by);
        plan->result_by = (enum result_by)one->how.value;
    }
}

/* The day on which it is looked at and what becomes of a dressing, as the veterinarian wrote it. */
static void plan_check(const struct care_build *b, struct procedure_plan *plan)
{
    const struct list *written = &b->in->visit->follow_up.aftercare;
    for (size_t i = 0; i < written->count; i++) {
        const struct visit_aftercare *one = LIST_AT(*written, struct visit_aftercare, i);
        if (strcmp(one->of.text, plan->code) != 0)
            continue;
        if (one->in_water.known)
            plan->in_water = bind_choice_word(dressing_choices, one->in_water.value);
        if (!one->check.known)
            continue;
        plan->has_check = true;
        plan->check = one->check.date;
    }
}

/* What becomes of a dressing in the water in which it lives was for the veterinarian to say. */
static bool asks_water(const struct care_build *b, const struct procedure *entry,
                       const struct procedure_plan *plan)
{
    return b->in->species->group.value == GROUP_TURTLE && list_has_text(&entry->says, "in-water") &&
           !plan->in_water;
}

static bool plan_procedures(struct care_build *b)
{
    const struct visit *v = b->in->visit;
    struct procedure_plan *list = ARENA_ARRAY(b->arena, struct procedure_plan, v->done_today.count);
    b->procedures = ARENA_ARRAY(b->arena, const struct procedure *, v->done_today.count);
    bool good = true;
    for (size_t i = 0; i < v->done_today.count; i++) {
        const char *code = LIST_AT(v->done_today, struct text_value, i)->text;
        const struct procedure *entry = procedure_find(b->in->catalogue, code);
        if (!entry) {
            good = unknown(b, LIST_AT(v->done_today, struct text_value, i), "done-today");
            continue;
        }
        b->procedures[b->plan->procedure_count] = entry;
        list[b->plan->procedure_count] =
            (struct procedure_plan){.code = code, .awaits_result = entry->result.value};
        struct procedure_plan *made = &list[b->plan->procedure_count++];
        plan_check(b, made);
        plan_result(b, made);
        made->asks_water = asks_water(b, entry, made);
    }
    b->plan->procedures = list;
    return good;
}

static bool check_codes(struct care_build *b)
{
    const struct list *findings = &b->in->visit->findings;
    bool good = true;
    for (size_t i = 0; i < findings->count; i++) {
        const struct text_value *code = &LIST_AT(*findings, struct visit_finding, i)->code;
        if (!finding_find(b->in->catalogue, code->text))
            good = unknown(b, code, "findings.code");
    }
    return good;
}

/* The first of what does a finding harm that was found as well. */
static void find_harm(const struct care_build *b, struct finding_plan *findings)
{
    for (size_t i = 0; i < b->plan->finding_count; i++)
        for (size_t k = 0; k < b->plan->finding_count && !findings[i].harmed_by; k++)
            if (findings[k].severity != SEVERITY_NORMAL &&
                list_has_text(&b->findings[i]->harmed_by, findings[k].code))
                findings[i].harmed_by = &findings[k];
}

bool findings_plan(struct care_build *b)
{
    const struct visit *v = b->in->visit;
    struct finding_plan *list = ARENA_ARRAY(b->arena, struct finding_plan, v->findings.count);
    b->findings = ARENA_ARRAY(b->arena, const struct finding *, v->findings.count);
    for (int system = 0; system < SYSTEM_COUNT; system++) {
        for (size_t i = 0; i < v->findings.count; i++) {
            const struct visit_finding *found = LIST_AT(v->findings, struct visit_finding, i);
            const struct finding *entry = finding_find(b->in->catalogue, found->code.text);
            if (!entry || entry->system.value != system)
                continue;
            struct finding_plan one = plan_one(b, found, entry);
            b->plan->go_now = b->plan->go_now || must_go_now(&one);
            b->findings[b->plan->finding_count] = entry;
            list[b->plan->finding_count++] = one;
        }
    }
    find_harm(b, list);
    b->plan->findings = b->plan_findings = list;
    bool good = check_codes(b);
    return plan_procedures(b) && good;
}
