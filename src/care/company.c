/* Who shares the box, whether that suits the animal, and how much floor so many need. */
#include <math.h>
#include <string.h>

#include "care/build.h"

static const struct company_reference *reference_for(const struct care_build *b)
{
    const struct whom_animal animal = build_animal(b);
    for (size_t i = 0; i < b->in->reference->company.count; i++) {
        const struct company_reference *one =
            LIST_AT(b->in->reference->company, struct company_reference, i);
        if (whom_fits(&one->whom, &animal))
            return one;
    }
    return NULL;
}

static bool is_of_another_kind(const struct care_build *b, const struct company_plan *company)
{
    for (size_t i = 0; i < company->mate_count; i++)
        if (b->in->species->is_unlisted ||
            strcmp(company->mates[i].code, b->in->species->code.text) != 0)
            return true;
    return false;
}

static enum company_state state_of(const struct care_build *b, const struct company_plan *company,
                                   const struct company_reference *kind)
{
    if (is_of_another_kind(b, company))
        return COMPANY_MIXED;
    if (!company->has_animals && company->mate_count == 0)
        return COMPANY_UNKNOWN;
    if (company->has_animals && company->animals < 2)
        return COMPANY_NONE;
    return kind && !kind->together.value ? COMPANY_UNWANTED : COMPANY_FITTING;
}

/* Floor for so many: what two need, and so much more for each further one. */
static void plan_floor(struct care_build *b, struct company_plan *company,
                       const struct company_reference *kind)
{
    double further = company->animals - 2;
    /* what has to be alone needs the floor of one */
    if (company->state != COMPANY_FITTING || !company->has_animals ||
        plan_holds(b->plan, "company", "alone") ||
        plan_holds(b->plan, "company", "alone-own-tools"))
        return;
    bool known =
        kind && kind->two_times.range.known && (further <= 0 || kind->further_times.range.known);
    if (!known) {
        build_review(b, REVIEW_MISSING, "floor-for-company-unknown",
                     b->in->visit->enclosure.animals.at,
                     build_fact(b, "count", FACT_COUNT, company->animals, company->animals, NULL));
        return;
    }
    company->has_floor = true;
    company->floor_times = kind->two_times.range.low;
    if (further > 0)
        company->floor_times += further * kind->further_times.range.low;
    company->floor_from =
        build_from_sourced(&kind->two_times, &b->in->reference->sources, ORIGIN_REFERENCE);
}

/* The kinds that share it, with their names from their sheets. */
static void list_mates(struct care_build *b, struct company_plan *company)
{
    const struct list *mates = &b->in->visit->enclosure.mates;
    struct mate_plan *made = ARENA_ARRAY(b->arena, struct mate_plan, mates->count + 1);
    for (size_t i = 0; i < mates->count; i++) {
        const struct species *sheet = b->in->mates ? b->in->mates[i] : NULL;
        made[i] = (struct mate_plan){.code = LIST_AT(*mates, struct text_value, i)->text};
        if (!sheet)
            continue;
        made[i].scientific = sheet->scientific.text;
        made[i].names = build_names(b, &sheet->names);
        made[i].name_count = sheet->names.count;
    }
    company->mates = made;
    company->mate_count = mates->count;
}

bool company_plan(struct care_build *b)
{
    const struct visit_enclosure *box = &b->in->visit->enclosure;
    struct company_plan *company = &b->plan->enclosure.company;
    const struct company_reference *kind = reference_for(b);
    company->has_animals = box->animals.known;
    company->animals = box->animals.value;
    company->has_males = box->males.known;
    company->males = box->males.value;
    list_mates(b, company);
    company->state = state_of(b, company, kind);
    if (kind)
        company->from = (struct provenance){
            .origin = ORIGIN_REFERENCE,
            .source = named_text_find(&b->in->reference->sources, kind->source.text),
            .trust = (enum trust)kind->trust.value,
        };
    return true;
}

bool company_floor_plan(struct care_build *b)
{
    plan_floor(b, &b->plan->enclosure.company, reference_for(b));
    return true;
}
