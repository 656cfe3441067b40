/* Who the animal is: its age, and whether its mass and length can be right. */
#include "care/build.h"

/* Which slip would explain a value outside the species' bounds. */
static const char *likely_slip(double value, const struct band *bounds)
{
    static const struct {
        double factor;
        const char *code;
    } slips[] = {{0.001, "grams-for-kilograms"}, {1000, "kilograms-for-grams"},
                 {0.1, "decimal-point-right"},   {10, "decimal-point-left"}};
    for (size_t i = 0; i < sizeof slips / sizeof *slips; i++) {
        double other = value * slips[i].factor;
        if (other >= bounds->low && other <= bounds->high)
            return slips[i].code;
    }
    return "unknown";
}

static bool is_plausible(struct care_build *b, const struct quantity *value, const struct band *bounds,
                         const char *code, enum fact_kind kind)
{
    if (!value->known || (value->value >= bounds->low && value->value <= bounds->high))
        return value->known;
    struct plan_fact *facts = build_fact(b, "usual", kind, bounds->low, bounds->high, NULL);
    facts = build_fact_text(b, "slip", FACT_TEXT, likely_slip(value->value, bounds), facts);
    build_review(b, REVIEW_IMPLAUSIBLE, code, value->at, build_fact(b, "written", kind, value->value, value->value, facts));
    return false;
}

static void miss(struct care_build *b, bool known, const char *code)
{
    if (!known)
        build_review(b, REVIEW_MISSING, code, (struct mark){0}, NULL);
}

bool patient_plan(struct care_build *b)
{
    const struct visit *v = b->in->visit;
    const struct visit_patient *a = &v->patient;
    struct care_plan *p = b->plan;
    if (a->hatched.known) {
        p->age_known = true;
        p->age_days = date_days_between(a->hatched.date, p->on);
        if (p->age_days < 0)
            p->age_days = 0;
    }
    p->mass_usable = is_plausible(b, &a->mass_g, &b->in->species->plausible_mass_g, "mass-implausible", FACT_MASS);
    p->length_usable = is_plausible(b, &a->length_cm, &b->in->species->plausible_length_cm, "length-implausible", FACT_LENGTH);
    miss(b, a->mass_g.known, "mass-missing");
    miss(b, a->length_cm.known, "length-missing");
    miss(b, a->hatched.known, "hatched-missing");
    miss(b, v->enclosure.size.known, "size-missing");
    miss(b, v->diet.last.known, "last-meal-missing");
    return true;
}
