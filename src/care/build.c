/* Leaves traces in the plan under construction: derivations, reviews and facts. */
#include "care/build.h"

#include <math.h>
#include <string.h>

struct derivation *build_derive(struct care_build *b, struct derivations *how,
                                struct derived derived)
{
    struct derivation *made = ARENA_NEW(b->arena, struct derivation);
    struct plan_input *copies = ARENA_ARRAY(b->arena, struct plan_input, derived.input_count);
    for (size_t i = 0; i < derived.input_count; i++)
        copies[i] = derived.inputs[i];
    *made = (struct derivation){
        .what = derived.what,
        .value = derived.value,
        .unit = derived.unit,
        .formula = derived.formula,
        .source = derived.source,
        .inputs = copies,
        .input_count = derived.input_count,
        .low = derived.value,
        .high = derived.value,
    };
    if (how->last)
        how->last->next = made;
    else
        how->first = made;
    how->last = made;
    return made;
}

void build_band(struct derivation *made, double one_end, double other_end)
{
    made->low = fmin(one_end, other_end);
    made->high = fmax(one_end, other_end);
}

struct ends build_mass_g(const struct care_build *b, double mass_g)
{
    double error_g = fmax(mass_g * build_limit(b, "mass-reading-error-percent") / 100,
                          build_limit(b, "mass-reading-error-g"));
    return (struct ends){fmax(mass_g - error_g, 0), mass_g + error_g};
}

struct ends build_length_cm(const struct care_build *b, double length_cm)
{
    double share = build_limit(b, "length-reading-error-percent") / 100;
    return (struct ends){length_cm * (1 - share), length_cm * (1 + share)};
}

struct review *build_review(struct care_build *b, enum review_kind kind, const char *code,
                            struct mark at, struct plan_fact *facts)
{
    struct review *made = ARENA_NEW(b->arena, struct review);
    made->kind = kind;
    made->code = code;
    made->at = at;
    made->facts = facts;
    if (b->last_review)
        b->last_review->next = made;
    else
        b->plan->review = made;
    b->last_review = made;
    return made;
}

struct plan_fact *build_fact(struct care_build *b, const char *name, enum fact_kind kind,
                             double low, double high, struct plan_fact *next)
{
    struct plan_fact *made = ARENA_NEW(b->arena, struct plan_fact);
    made->name = name;
    made->kind = kind;
    made->low = low;
    made->high = high;
    made->next = next;
    return made;
}

struct plan_fact *build_fact_date(struct care_build *b, const char *name, struct date date,
                                  struct plan_fact *next)
{
    struct plan_fact *made = build_fact(b, name, FACT_DATE, 0, 0, next);
    made->date = date;
    return made;
}

struct plan_fact *build_fact_text(struct care_build *b, const char *name, enum fact_kind kind,
                                  const char *text, struct plan_fact *next)
{
    struct plan_fact *made = build_fact(b, name, kind, 0, 0, next);
    made->text = text;
    return made;
}

/* So few that it lives in its own water between them; false where nobody wrote how many. */
static bool has_few_dry_hours(const struct care_build *b)
{
    const double hours = b->plan->aftercare.dry_hours * b->plan->aftercare.dry_times;
    return hours > 0 && hours < build_limit(b, "dry-hours-many");
}

struct whom_animal build_animal(const struct care_build *b)
{
    return (struct whom_animal){.species = b->in->species,
                                .visit = b->in->visit,
                                .written = &b->in->topics->written,
                                .stage = b->plan->feeding.stage,
                                .sex = (enum sex)b->in->visit->patient.sex.value,
                                .few_dry = has_few_dry_hours(b)};
}

struct plan_confirmed build_confirmed(const struct confirmation *confirmed)
{
    if (!confirmed || confirmed->is_reopened)
        return (struct plan_confirmed){0};
    return (struct plan_confirmed){confirmed->key, confirmed->value, confirmed->by, confirmed->on,
                                   confirmed->edition};
}

struct provenance build_from_sourced(const struct sourced_value *sourced,
                                     const struct list *sources, enum origin origin)
{
    /* a source that no list explains is shown by its id: better than none */
    const char *text = sourced->source.text ? named_text_find(sources, sourced->source.text) : NULL;
    return (struct provenance){
        .origin = origin,
        .source = text ? text : sourced->source.text,
        .trust = (enum trust)sourced->trust.value,
        .confirmed = build_confirmed(sourced->confirmed),
    };
}

const char *build_stance_from(const struct stance_phase *phase)
{
    if (!phase || strcmp(phase->because, "default") == 0)
        return NULL;
    const char *colon = strchr(phase->because, ':');
    return colon ? colon + 1 : phase->because;
}

struct provenance build_from_veterinarian(const struct care_build *b)
{
    const struct visit *visit = b->in->visit;
    return (struct provenance){
        .origin = ORIGIN_VETERINARIAN,
        .source = visit->targets.by.text ? visit->targets.by.text : visit->veterinarian.text,
        .trust = TRUST_ORIGINAL,
        .because = visit->targets.because.text,
    };
}

double build_limit(const struct care_build *b, const char *name)
{
    return limit_find(b->in->reference, name)->range.low;
}

static const char *source_text(const struct sourced_value *sourced, const struct list *sources)
{
    return build_from_sourced(sourced, sources, ORIGIN_SPECIES_SHEET).source;
}

void build_spread(struct care_build *b, const char *code, const struct sourced_value *sourced,
                  const struct list *sources, enum fact_kind kind)
{
    for (size_t i = 0; i < sourced->disagrees.count; i++) {
        const struct sourced_value *other = LIST_AT(sourced->disagrees, struct sourced_value, i);
        double middle = (other->range.low + other->range.high) / 2;
        if (build_verdict(middle, sourced->range.low, sourced->range.high) == VERDICT_IN_RANGE)
            continue;
        struct plan_fact *facts =
            build_fact_text(b, "other-source", FACT_TEXT, source_text(other, sources), NULL);
        facts = build_fact(b, "other", kind, other->range.low, other->range.high, facts);
        facts = build_fact_text(b, "source", FACT_TEXT, source_text(sourced, sources), facts);
        facts = build_fact(b, "chosen", kind, sourced->range.low, sourced->range.high, facts);
        build_review(b, REVIEW_SPREAD, code, sourced->at, facts);
    }
}

bool build_is_finite(struct care_build *b, const struct quantity *value, const char *path)
{
    if (!value->known || isfinite(value->value))
        return true;
    diag_report_path(b->diag, DIAG_ERROR, "not-a-number", value->at, path,
                     "is not a finite number");
    return false;
}

double build_step(double value, double low, double high)
{
    if (value < low)
        return low - value;
    return value > high ? high - value : 0;
}

enum verdict build_verdict(double value, double low, double high)
{
    if (value < low)
        return VERDICT_TOO_LOW;
    return value > high ? VERDICT_TOO_HIGH : VERDICT_IN_RANGE;
}

bool build_is_found(const struct care_build *b, const char *code)
{
    for (size_t i = 0; i < b->plan->finding_count; i++)
        if (b->plan->findings[i].severity != SEVERITY_NORMAL &&
            strcmp(b->plan->findings[i].code, code) == 0)
            return true;
    return false;
}

bool build_has_illness(const struct care_build *b)
{
    for (size_t i = 0; i < b->plan->finding_count; i++)
        if (b->plan->findings[i].severity != SEVERITY_NORMAL)
            return true;
    return false;
}
