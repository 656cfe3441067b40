/* What looks like a slip of the pen among the medicines, for the veterinarian to look at. */
#include <math.h>
#include <string.h>
#include <strings.h>

#include "base/fold.h"
#include "care/medicines.h"

static const double GRAMS_A_KILOGRAM = 1000;

static struct plan_fact *named(struct care_build *b, const struct medicine_plan *m,
                               struct plan_fact *next)
{
    return build_fact_text(b, "medicine", FACT_TEXT, m->name, next);
}

static void remark(struct care_build *b, enum review_kind kind, const char *code,
                   const struct mark *at, const struct medicine_plan *m)
{
    build_review(b, kind, code, *at, named(b, m, NULL));
}

/* ---- the days ---- */

static bool is_injected(const struct visit_medicine *v)
{
    return v->route.known &&
           (v->route.value == ROUTE_INJECTION || v->route.value == ROUTE_UNDER_THE_SKIN ||
            v->route.value == ROUTE_INTO_THE_MUSCLE);
}

static bool was_done(const struct care_build *b, const char *code)
{
    for (size_t i = 0; i < b->plan->procedure_count; i++)
        if (strcmp(b->plan->procedures[i].code, code) == 0)
            return true;
    return false;
}

/* A bandage that stays on at home, and under it a cream each day: the sheet would order both. */
static void review_bandage(struct care_build *b, const struct visit_medicine *v,
                           const struct medicine_plan *m)
{
    if (m->has_route && m->route == ROUTE_ON_THE_SKIN && !m->is_given_here &&
        was_done(b, "bandage"))
        remark(b, REVIEW_CONFLICT, "cream-and-bandage", &v->mark, m);
}

/* Without an amount it may be a powder on the food, and a day of doses without food cannot hold. */
static void review_on_food(struct care_build *b, const struct visit_medicine *v,
                           const struct medicine_plan *m)
{
    if (m->has_route && m->route == ROUTE_BY_MOUTH && !m->has_amount && m->directions &&
        m->has_first && !m->is_given_here &&
        (plan_holds_on(b->plan, "food", "none-until-vet", m->first) ||
         plan_holds_on(b->plan, "food", "rest-until", m->first)))
        remark(b, REVIEW_CONFLICT, "medicine-and-no-food", &v->mark, m);
}

/* The bath before this one, or beside what lies on the skin. */
static bool has_home_bath(const struct care_build *b, const struct visit_medicine *but)
{
    const struct list *all = &b->in->visit->medicines;
    for (size_t i = 0; i < all->count; i++) {
        const struct visit_medicine *one = LIST_AT(*all, struct visit_medicine, i);
        if (one == but)
            return false;
        if (one->route.known && one->route.value == ROUTE_IN_A_BATH &&
            one->given.value != GIVEN_HERE)
            return true;
    }
    return false;
}

/* Bit by bit: on which parts of the day is it given at home? 0: nobody wrote that. */
static unsigned parts_given(const struct visit_medicine *one)
{
    static const double DAY_H = 24;
    const bool once_a_day = !one->every_h.known || one->every_h.value >= DAY_H;
    return one->at.known && once_a_day ? 1u << (unsigned)one->at.value : 0;
}

bool medicine_baths_apart(const struct care_build *b)
{
    const struct list *all = &b->in->visit->medicines;
    const struct list *written = &b->in->topics->written;
    unsigned taken = 0, count = 0;
    for (size_t i = 0; i < all->count; i++) {
        const struct visit_medicine *one = LIST_AT(*all, struct visit_medicine, i);
        const bool is_bath = one->route.known && one->route.value == ROUTE_IN_A_BATH;
        const bool on_skin = one->route.known && one->route.value == ROUTE_ON_THE_SKIN &&
                             !written_says(written, &one->directions, WRITTEN_BATH);
        if (one->given.value == GIVEN_HERE || (!is_bath && !on_skin))
            continue;
        const unsigned parts = parts_given(one);
        if (parts == 0 || (taken & parts) != 0)
            return false;
        taken |= parts;
        count++;
    }
    return count > 1;
}

/* The stances of readings are not settled yet; what calls for this one is. */
static bool is_cooled_in_steps(const struct care_build *b)
{
    return b->plan->measured[MEASURE_WATER].verdict == VERDICT_TOO_HIGH ||
           b->plan->measured[MEASURE_WARM_SIDE].verdict == VERDICT_TOO_HIGH;
}

/* How deep an amphibian's bath is, only its veterinarian knows; what lies on the skin a bath washes
 * off. While its own water is cooled step by step, a bath of one written warmth may be a shock, and
 * her words cannot be read (common practice, no source). */
static void review_bath(struct care_build *b, const struct visit_medicine *v,
                        const struct medicine_plan *m)
{
    const int group = b->in->species->group.value, habit = b->in->species->habit.value;
    bool is_bath = m->has_route && m->route == ROUTE_IN_A_BATH;
    bool on_skin = m->has_route && m->route == ROUTE_ON_THE_SKIN && !m->says_bath;
    if (m->is_given_here)
        return;
    if (is_bath && !m->says_depth && (group == GROUP_FROG || group == GROUP_SALAMANDER) &&
        habit != HABIT_AQUATIC)
        remark(b, REVIEW_MISSING, "bath-depth-not-written", &v->mark, m);
    if (is_bath && m->says_warmth && (group == GROUP_FROG || group == GROUP_SALAMANDER) &&
        is_cooled_in_steps(b))
        remark(b, REVIEW_CONFLICT, "bath-warmth-while-cooling", &v->directions.at, m);
    if (!medicine_baths_apart(b) &&
        ((is_bath && has_home_bath(b, v)) || (on_skin && has_home_bath(b, NULL))))
        remark(b, REVIEW_CONFLICT, "bath-washes-skin", &v->mark, m);
}

/* A first dose that was given here and is ticked at home again is given twice. */
static void review_today(struct care_build *b, const struct visit_medicine *v,
                         const struct medicine_plan *m)
{
    if (was_done(b, "injection") && is_injected(v) && !m->is_given_here && m->has_first &&
        date_compare(m->first, b->plan->on) == 0)
        remark(b, REVIEW_IMPLAUSIBLE, "dose-given-today", &v->first.at, m);
}

bool plan_stays_by_clock(const struct medicine_plan *m)
{
    static const double DAY_H = 24;
    return m->is_given_here && m->listed > 1 && m->says_clock && m->every_h < DAY_H;
}

static void review_days(struct care_build *b, const struct visit_medicine *v,
                        const struct medicine_plan *m)
{
    if (m->has_every && m->dose_count == 0)
        remark(b, REVIEW_MISSING, "medicine-without-end", &v->every_h.at, m);
    if (m->has_every && !m->has_first)
        remark(b, REVIEW_MISSING, "medicine-without-first-day", &v->every_h.at, m);
    if (m->has_every && !m->has_amount && !m->directions)
        remark(b, REVIEW_MISSING, "medicine-without-amount", &v->mark, m);
    if (m->has_amount && !m->has_every && !m->directions)
        remark(b, REVIEW_MISSING, "medicine-without-every", &v->amount.at, m);
    if (m->directions && !m->has_every && !m->is_given_here)
        remark(b, REVIEW_MISSING, "medicine-in-words-alone", &v->mark, m);
    if (plan_stays_by_clock(m))
        remark(b, REVIEW_MISSING, "doses-here-by-the-clock", &v->every_h.at, m);
    review_today(b, v, m);
    review_bandage(b, v, m);
    review_on_food(b, v, m);
    review_bath(b, v, m);
    if (!m->has_first)
        return;
    long wait = date_days_between(b->plan->on, m->first);
    if (wait < 0)
        build_review(b, REVIEW_IMPLAUSIBLE, "medicine-before-visit", v->first.at,
                     named(b, m, build_fact_date(b, "first", m->first, NULL)));
    else if (wait > (long)build_limit(b, "medicine-start-most-days"))
        build_review(b, REVIEW_IMPLAUSIBLE, "medicine-starts-late", v->first.at,
                     named(b, m, build_fact_date(b, "first", m->first, NULL)));
}

/* ---- the amount ---- */

/* What was written, in the unit that can be compared: ml through the bottle's strength, or mg. */
static bool written_mg(const struct visit_medicine *v, double *out)
{
    const struct quantity *amount = &v->amount;
    if (!amount->known)
        return false;
    switch (amount->unit) {
    case UNIT_MILLIGRAM:
        *out = amount->written;
        return true;
    case UNIT_MICROGRAM:
        *out = amount->written / 1000;
        return true;
    case UNIT_GRAM:
        *out = amount->written * 1000;
        return true;
    case UNIT_MILLILITRE:
        *out = amount->written * v->strength_mg_ml.value;
        return v->strength_mg_ml.known;
    default:
        return false;
    }
}

static double work_out_mg(struct care_build *b, const struct visit_medicine *v,
                          struct medicine_plan *m)
{
    double mass_g = b->plan->patient.mass_g, dose = v->dose_mg_kg.value;
    struct ends mass = build_mass_g(b, mass_g);
    double mg = dose * mass_g / GRAMS_A_KILOGRAM;
    struct derivation *made = build_derive(
        b, &m->how,
        (struct derived){"medicine.amount_mg", mg, "mg", "dose-by-mass", "the veterinarian's dose",
                         INPUTS({"dose", dose, "mg/kg"}, {"mass", mass_g, "g"},
                                {"scale-error", mass.high - mass_g, "g"})});
    build_band(made, dose * mass.low / GRAMS_A_KILOGRAM, dose * mass.high / GRAMS_A_KILOGRAM);
    return mg;
}

static double work_out_ml(struct care_build *b, const struct visit_medicine *v, double mg,
                          struct medicine_plan *m)
{
    const struct derivation *of = m->how.last;
    double strength = v->strength_mg_ml.value, low = of->low, high = of->high;
    struct derivation *made = build_derive(
        b, &m->how,
        (struct derived){"medicine.amount_ml", mg / strength, "ml", "amount-by-strength",
                         "the veterinarian's strength",
                         INPUTS({"amount", mg, "mg"}, {"amount-low", low, "mg"},
                                {"amount-high", high, "mg"}, {"strength", strength, "mg/ml"})});
    build_band(made, low / strength, high / strength);
    return made->value;
}

/* A point in the wrong place is printed and given as it stands: it is asked back. */
static bool ask_back(struct care_build *b, const struct visit_medicine *v, double written,
                     double mg)
{
    if (v->confirmed.known && v->confirmed.value)
        return true;
    diag_report_path(b->diag, DIAG_ERROR, "medicine-unconfirmed", v->amount.at, "medicines.amount",
                     "of '%s' is %.3g mg, and dose and mass make %.3g mg; if it is meant, add "
                     "'confirmed: yes'",
                     v->name.text, written, mg);
    return false;
}

/* The written amount against the worked out one: a slip of the point, or a remark. */
static bool review_amount(struct care_build *b, const struct visit_medicine *v,
                          const struct medicine_plan *m, double mg)
{
    double written;
    if (!written_mg(v, &written))
        return true;
    double times = fmax(written / mg, mg / written);
    double tenfold = build_limit(b, "medicine-slip-times");
    double apart = 1 + build_limit(b, "medicine-apart-percent") / 100;
    struct plan_fact *facts = build_fact(b, "written-mg", FACT_COUNT, written, written, NULL);
    facts = named(b, m, build_fact(b, "worked-out-mg", FACT_COUNT, mg, mg, facts));
    if (times >= tenfold) {
        build_review(b, REVIEW_IMPLAUSIBLE, "medicine-tenfold", v->amount.at, facts);
        return ask_back(b, v, written, mg);
    }
    if (times > apart)
        build_review(b, REVIEW_REMARK, "medicine-amount-differs", v->amount.at, facts);
    return true;
}

static bool review_dose(struct care_build *b, const struct visit_medicine *v,
                        struct medicine_plan *m)
{
    if (!v->dose_mg_kg.known)
        return true;
    if (!b->plan->patient.has_mass) {
        remark(b, REVIEW_MISSING, "medicine-without-mass", &v->dose_mg_kg.at, m);
        return true;
    }
    double mg = work_out_mg(b, v, m);
    struct plan_fact *facts = build_fact(b, "mg", FACT_COUNT, mg, mg, NULL);
    if (v->strength_mg_ml.known) {
        double ml = work_out_ml(b, v, mg, m);
        facts = build_fact(b, "ml", FACT_COUNT, ml, ml, facts);
    }
    build_review(b, REVIEW_REMARK, "medicine-worked-out", v->dose_mg_kg.at, named(b, m, facts));
    return review_amount(b, v, m, mg);
}

static bool has_tube(const struct care_build *b)
{
    for (size_t i = 0; i < b->plan->procedure_count; i++)
        if (strcmp(b->plan->procedures[i].code, "feeding-tube-placed") == 0)
            return true;
    return false;
}

/* It may be an old tube: nobody is stopped, but who signs has seen it. So it is with what goes into
 * the mouth beside a tube. */
static void review_tube(struct care_build *b, const struct visit_medicine *v,
                        const struct medicine_plan *m)
{
    if (v->route.known && v->route.value == ROUTE_FEEDING_TUBE && !has_tube(b))
        remark(b, REVIEW_IMPLAUSIBLE, "medicine-without-tube", &v->route.at, m);
    if (v->route.known && v->route.value == ROUTE_BY_MOUTH && !m->is_given_here && has_tube(b))
        remark(b, REVIEW_REMARK, "by-mouth-beside-tube", &v->route.at, m);
}

bool medicine_review(struct care_build *b, const struct visit_medicine *written,
                     struct medicine_plan *plan)
{
    review_days(b, written, plan);
    review_tube(b, written, plan);
    return review_dose(b, written, plan);
}

/* Whoever does not know what a medicine is for leaves doses out: asked once a visit, by the first
 * whose name says no class. */
void medicine_review_uses(struct care_build *b)
{
    for (size_t i = 0; i < b->plan->medicine_count; i++) {
        const struct medicine_plan *m = &b->plan->medicines[i];
        if (m->use || m->for_what || m->name_tells_use)
            continue;
        const struct list *all = &b->in->visit->medicines;
        remark(b, REVIEW_MISSING, "medicine-without-use",
               &LIST_AT(*all, struct visit_medicine, i)->name.at, m);
        return;
    }
}

void medicine_review_names(struct care_build *b)
{
    const struct list *all = &b->in->visit->medicines;
    for (size_t i = 1; i < all->count; i++) {
        const struct visit_medicine *one = LIST_AT(*all, struct visit_medicine, i);
        const char *name = fold_text(one->name.text, b->arena);
        for (size_t k = 0; k < i; k++) {
            const struct visit_medicine *other = LIST_AT(*all, struct visit_medicine, k);
            if (strcmp(name, fold_text(other->name.text, b->arena)) != 0)
                continue;
            build_review(b, REVIEW_CONFLICT, "medicine-twice", one->name.at,
                         build_fact_text(b, "medicine", FACT_TEXT, one->name.text, NULL));
            break;
        }
    }
}

/* Does a text name it, by the first word of its name? A short word may be of anything. */
static bool names_medicine(const char *text, const char *name)
{
    enum { LETTERS_LEAST = 5 };
    const size_t length = strcspn(name, " ,(");
    for (const char *at = text; at && *at && length >= LETTERS_LEAST; at++)
        if (strncasecmp(at, name, length) == 0)
            return true;
    return false;
}

/* "After the painkiller" has no hour on the days on which that is over. */
void medicine_review_order(struct care_build *b)
{
    const struct list *all = &b->in->visit->medicines;
    for (size_t i = 0; i < b->plan->medicine_count; i++) {
        const struct medicine_plan *m = &b->plan->medicines[i];
        for (size_t k = 0; k < b->plan->medicine_count && !m->is_given_here; k++) {
            const struct medicine_plan *other = &b->plan->medicines[k];
            const bool is_over = other->has_last && m->listed > 0 &&
                                 date_compare(other->last, m->doses[m->listed - 1].on) < 0;
            if (k == i || !is_over || !names_medicine(m->directions, other->name) ||
                names_medicine(m->name, other->name))
                continue;
            build_review(b, REVIEW_MISSING, "medicine-after-one-that-ends",
                         LIST_AT(*all, struct visit_medicine, i)->directions.at,
                         named(b, m, build_fact_date(b, "until", other->last, NULL)));
        }
    }
}
