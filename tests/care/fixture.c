/* A plan under construction for the tests of care/. */
#include "care/fixture.h"

#include "base/code_index.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

struct quantity fixture_quantity(double value)
{
    return (struct quantity){.known = true, .value = value, .written = value};
}

struct band fixture_band(double low, double high)
{
    return (struct band){.known = true, .low = low, .high = high};
}

struct text_value fixture_text(const char *text)
{
    return (struct text_value){.text = text};
}

struct choice_value fixture_choice(int value)
{
    return (struct choice_value){.known = true, .value = value};
}

struct flag_value fixture_flag(bool value)
{
    return (struct flag_value){.known = true, .value = value};
}

struct date_value fixture_date(int year, int month, int day)
{
    return (struct date_value){.known = true, .date = {year, month, day}};
}

struct sourced_value fixture_cited(double low, double high)
{
    return (struct sourced_value){.range = fixture_band(low, high),
                                  .source = fixture_text("practice"),
                                  .trust = fixture_choice(TRUST_MEMORY)};
}

/* Behind the last one stands one of zeros: whoever looks too far meets it. */
struct list fixture_list(struct care_fixture *f, const void *items, size_t count, size_t size)
{
    void *copy = arena_take_array(&f->arena, count + 1, size);
    memcpy(copy, items, count * size);
    return (struct list){.items = copy, .count = count};
}

struct list fixture_texts(struct care_fixture *f, const char *a, const char *b, const char *c,
                          const char *d)
{
    const char *const all[] = {a, b, c, d};
    struct text_value values[4];
    size_t count = 0;
    while (count < 4 && all[count]) {
        values[count] = fixture_text(all[count]);
        count++;
    }
    return fixture_list(f, values, count, sizeof *values);
}

struct list fixture_one_of(struct care_fixture *f, int value)
{
    const struct choice_value choice = fixture_choice(value);
    return fixture_list(f, &choice, 1, sizeof choice);
}

/* ---- reference values ---------------------------------------------------------------- */

static const struct {
    const char *name;
    double value, high; /* high 0: a single number */
} limit_rows[] = {
    {"gradient-least-c", 3, 0},
    {"night-drop-deepest-c", 12, 0},
    {"ill-warmth-share-percent", 50, 0},
    {"ill-night-share-percent", 50, 0},
    {"mass-loss-fast-percent", 10, 0},
    {"mass-loss-fast-days", 60, 0},
    {"mass-loss-slow-percent", 20, 0},
    {"mass-steady-percent", 3, 0},
    {"mass-loss-fasting-percent", 5, 0},
    {"tube-nearest-cm", 15, 0},
    {"uv-reading-error-percent", 10, 0},
    {"tube-reach-times", 3, 0},
    {"mesh-share-error-percent", 10, 0},
    {"mesh-least-share-percent", 50, 0},
    {"mass-reading-error-percent", 1, 0},
    {"mass-reading-error-g", 0.5, 0},
    {"length-reading-error-percent", 3, 0},
    {"water-below-rim-cm", 5, 0},
    {"food-energy-error-percent", 10, 0},
    {"point-lamp-reach-times", 2, 0},
    {"uv-reading-most", 15, 0},
    {"uv-shade-share-percent", 50, 0},
    {"point-lamp-nearest-cm", 20, 0},
    {"temperature-reading-error-c", 1, 0},
    {"temperature-hottest-c", 65, 0},
    {"humidity-reading-error-percent", 5, 0},
    {"lamp-overdue-soon-days", 30, 0},
    {"light-hours-same-h", 1, 0},
    {"light-hours-far-h", 3, 0},
    {"jackson-low", 0.18, 0},
    {"jackson-high", 0.22, 0},
    {"surface-resistance-wall", 0.13, 0},
    {"surface-resistance-lid", 0.10, 0},
    {"surface-resistance-floor", 0.17, 0},
    {"air-changes-low", 0.5, 0},
    {"room-humidity-low-percent", 30, 0},
    {"room-humidity-high-percent", 60, 0},
    {"air-changes-high", 3, 0},
    {"heat-error-percent", 30, 0},
    {"quarantine-low-days", 90, 0},
    {"quarantine-high-days", 180, 0},
    {"vomit-pause-low-days", 10, 0},
    {"vomit-pause-high-days", 14, 0},
    {"condition-interval-percent", 50, 0},
    {"vomit-meal-percent", 50, 0},
    {"small-meal-percent", 50, 0},
    {"build-up-steps", 4, 0},
    {"build-up-days", 14, 0},
    {"diet-loss-week-percent", 0.5, 1},
    {"mass-gain-percent", 10, 0},
    {"mass-loss-young-percent", 5, 0},
    {"laying-loss-percent", 15, 40},
    {"prey-pieces-most", 3, 0},
    {"insect-most-percent", 3, 0},
    {"energy-far-above-times", 3, 0},
    {"calcium-to-phosphorus-least", 1, 0},
    {"weigh-steady-months", 1, 0},
    {"hands-off-short-days", 2, 0},
    {"weigh-after-meal-days", 5, 0},
    {"adoption-weigh-days", 7, 0},
    {"adoption-first-meal-days", 5, 0},
    {"adoption-check-days", 14, 0},
    {"medicine-slip-times", 2.5, 0},
    {"medicine-apart-percent", 20, 0},
    {"medicine-start-most-days", 60, 0},
    {"closed-days-later-most-days", 7, 0},
    {"nitrate-reading-error-percent", 20, 0},
    {"ammonia-reading-error-percent", 25, 0},
    {"ph-reading-error", 0.2, 0},
    {"hardness-reading-error-dgh", 1, 0},
    {"dry-hours-many", 12, 0},
    {"harm-second-time", 10, 0},
    {"harm-just-outside-percent", 60, 0},
    {"water-part-share-percent", 20, 30},
    {"water-part-apart-c", 1, 2},
    {"water-part-every-days", 1, 0},
    {"water-retest-days", 1, 0},
    {"water-change-most-percent", 50, 0},
    {"water-cooling-c-per-hour", 1, 2},
    {"water-cooling-c-per-day", 4, 0},
    {"meal-rest-days", 2, 0},
    {"meal-most-times", 2, 0},
    {"treated-check-near-days", 7, 0},
    {"goal-mass-times", 2, 0},
    {"fine-scale-below-g", 50, 0},
    {"drink-bath-c", 27, 30},
    {"thirst-call-days", 1, 2},
    {"sign-lasting-days", 3, 0},
    {"staple-ratio-least", 1.5, 0},
    {"now-and-then-ratio-least", 1, 0},
    {"harm-danger", 90, 0},
    {"newly-hatched-days", 120, 0},
    {"past-hatchling-days", 730, 0},
    {"past-hatchling-times", 1.5, 0},
    {"body-shape-times", 3, 0},
    {"humidity-driest-percent", 10, 0},
    {"humidity-wettest-percent", 99, 0},
    {"temperature-coldest-c", 2, 0},
    {"meal-most-percent", 50, 0},
    {"staple-share-least-percent", 50, 0},
    {"food-minerals-error-percent", 10, 0},
    {"log-day-hours", 12, 0},
    {"log-day-middle-hour", 12, 0},
    {"log-old-days", 60, 0},
    {"tenfold-young-days", 365, 0},
    {"doubling-young-days", 1825, 0},
    {"tenfold-unknown-age-days", 180, 0},
    {"grown-for-sure-days", 3650, 0},
    {"grown-least-mass-percent", 10, 0},
    {"grown-least-length-percent", 45, 0},
    {"box-floor-least-percent", 20, 0},
    {"box-body-least-percent", 30, 0},
    {"box-longest-cm", 500, 0},
    {"box-meant-times", 2, 0},
    {"box-sides-times", 8, 0},
    {"lamp-hours-least", 1, 0},
    {"lamp-hours-most", 20, 0},
    {"ahead-most-days", 400, 0},
    {"lamp-above-box-cm", 100, 0},
    {"lamp-highest-cm", 250, 0},
    {"lamp-oldest-days", 3650, 0},
    {"last-time-most-days", 730, 0},
    {"life-longest-days", 54750, 0},
    {"length-slip-percent", 20, 0},
    {"meal-pieces-most", 200, 0},
    {"meals-apart-most-days", 90, 0},
    {"room-hottest-c", 45, 0},
    {"water-deepest-cm", 200, 0},
    {"ph-lowest", 4, 0},
    {"ph-highest", 10, 0},
    {"ammonia-highest-mg-l", 10, 0},
    {"nitrite-highest-mg-l", 10, 0},
    {"nitrate-highest-mg-l", 500, 0},
    {"chlorine-highest-mg-l", 5, 0},
    {"hardness-highest-dgh", 60, 0},
    {"target-colder-c", 8, 0},
    {"target-uv-index-most", 9.5, 0},
    {"long-light-hours", 12, 14},
    {"stomach-percent", 2, 5},
    {"rest-owned-days", 365, 0},
    {"rest-well-days", 365, 0},
    {"rest-stool-test-days", 90, 0},
    {"rest-first-month", 11, 0},
    {"rest-last-month", 12, 0},
    {"rest-cooling-days", 7, 0},
    {"rest-again-days", 180, 0},
    {"rest-cooling-steps", 3, 0},
    {"rest-loss-month-percent", 1, 0},
    {"rest-loss-call-percent", 8, 0},
    {"rest-loss-wake-percent", 10, 0},
    {"rest-wake-days", 2, 0},
    {"rest-eat-days", 7, 0},
    {"warm-before-meal-days", 2, 0},
};

/* Ferguson et al. 2010; Baines et al. 2016, table 1: mean and maximum of each zone. */
static const double zone_rows[4][4] = {
    {0, 0.7, 0.6, 1.4}, {0.7, 1.0, 1.1, 3.0}, {1.0, 2.6, 2.9, 7.4}, {2.6, 3.5, 4.5, 9.5}};

static const struct {
    const char *name;
    double months;
} lamp_rows[] = {
    {"tube", 12}, {"compact", 6}, {"mercury-vapour", 12}, {"metal-halide", 12}, {"led", 12}};

/* EN ISO 10077-2 and 10456 conductivities, from memory; thickness invented. */
static const struct {
    const char *name;
    double lambda_w_mk, thickness_cm;
} material_rows[] = {{"glass", 1.0, 0.6},
                     {"pvc", 0.17, 1.0},
                     {"wood", 0.13, 1.5},
                     {"acrylic", 0.18, 0.5},
                     {"polycarbonate", 0.20, 0.5}};

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

static void fill_limits(struct care_fixture *f)
{
    struct limit_reference made[COUNT(limit_rows)];
    for (size_t i = 0; i < COUNT(limit_rows); i++)
        made[i] = (struct limit_reference){
            fixture_text(limit_rows[i].name),
            fixture_cited(limit_rows[i].value, fmax(limit_rows[i].value, limit_rows[i].high))};
    f->reference.limits = fixture_list(f, made, COUNT(made), sizeof *made);
    /* the index keeps the names, so they live as long as it */
    const char **names = ARENA_ARRAY(&f->arena, const char *, COUNT(limit_rows));
    for (size_t i = 0; i < COUNT(limit_rows); i++)
        names[i] = limit_rows[i].name;
    f->reference.limit_index = code_index_make(names, COUNT(limit_rows), &f->arena);
}

void fixture_uv_use(struct care_fixture *f, int limit, int start)
{
    struct uv_use use = {.limit = fixture_choice(limit),
                         .start = fixture_choice(start),
                         .because = fixture_text("as the clinic has it")};
    f->reference.uv_uses = fixture_list(f, &use, 1, sizeof use);
}

static void fill_zones(struct care_fixture *f)
{
    static const char *const names[] = {"1", "2", "3", "4"};
    struct uv_zone_reference made[4];
    for (size_t i = 0; i < 4; i++)
        made[i] = (struct uv_zone_reference){fixture_text(names[i]),
                                             fixture_cited(zone_rows[i][0], zone_rows[i][1]),
                                             fixture_cited(zone_rows[i][2], zone_rows[i][3])};
    f->reference.uv_zones = fixture_list(f, made, 4, sizeof *made);
    fixture_uv_use(f, UV_LIMIT_MOST, UV_START_BETWEEN);
}

static void fill_lamps(struct care_fixture *f)
{
    struct lamp_reference made[COUNT(lamp_rows)];
    for (size_t i = 0; i < COUNT(lamp_rows); i++) {
        double days = lamp_rows[i].months * 365.25 / 12;
        made[i] = (struct lamp_reference){.name = fixture_text(lamp_rows[i].name),
                                          .life_days = fixture_cited(days, days)};
        made[i].life_days.range.unit = UNIT_MONTH;
    }
    f->reference.lamps = fixture_list(f, made, COUNT(made), sizeof *made);
}

static void fill_materials(struct care_fixture *f)
{
    struct material_reference made[COUNT(material_rows)];
    for (size_t i = 0; i < COUNT(material_rows); i++)
        made[i] = (struct material_reference){
            fixture_text(material_rows[i].name),
            fixture_cited(material_rows[i].lambda_w_mk, material_rows[i].lambda_w_mk),
            fixture_cited(material_rows[i].thickness_cm, material_rows[i].thickness_cm)};
    f->reference.materials = fixture_list(f, made, COUNT(made), sizeof *made);
}

/* ---- the invented lizard -------------------------------------------------------------- */

static void fill_species(struct care_fixture *f)
{
    struct species *s = &f->species;
    const struct named_text source = {fixture_text("practice"), fixture_text("common practice")};
    s->code = fixture_text("test-lizard");
    s->scientific = fixture_text("Lacerta probatica");
    s->group = fixture_choice(GROUP_LIZARD);
    s->habit = fixture_choice(HABIT_TERRESTRIAL);
    s->measured[ZONE_BASKING_SURFACE] = fixture_cited(38, 42);
    s->measured[ZONE_WARM_SIDE] = fixture_cited(30, 34);
    s->measured[ZONE_COOL_SIDE] = fixture_cited(22, 26);
    s->measured[ZONE_NIGHT] = fixture_cited(18, 22);
    s->measured[MEASURE_HUMIDITY] = fixture_cited(30, 40);
    s->humidity_shed_percent = fixture_cited(50, 60);
    s->needs_uvb = fixture_flag(true);
    s->ferguson_zone = fixture_cited(3, 3);
    s->hours_summer = fixture_cited(14, 14);
    s->hours_winter = fixture_cited(10, 10);
    s->sources = fixture_list(f, &source, 1, sizeof source);
    f->reference.sources = s->sources;
}

void fixture_init(struct care_fixture *f)
{
    memset(f, 0, sizeof *f);
    arena_init(&f->arena);
    diag_init(&f->diag);
    fill_limits(f);
    fill_zones(f);
    fill_lamps(f);
    fill_materials(f);
    fill_species(f);
    f->visit.date = fixture_date(2026, 3, 14);
    f->visit.kind = fixture_text("checkout");
    f->visit.veterinarian = fixture_text("Dr Ines Calder");
    f->visit.patient.name = fixture_text("Probe");
    f->visit.patient.species = fixture_text("test-lizard");
    f->in = (struct care_inputs){.visit = &f->visit,
                                 .species = &f->species,
                                 .clinic = &f->clinic,
                                 .catalogue = &f->catalogue,
                                 .signs = &f->signs,
                                 .rules = &f->rules,
                                 .topics = &f->topics,
                                 .steps = &f->steps,
                                 .reference = &f->reference,
                                 .kind = &f->kind};
    f->plan.on = f->visit.date.date;
    f->b.in = &f->in;
    f->b.plan = &f->plan;
    f->b.arena = &f->arena;
    f->b.diag = &f->diag;
}

void fixture_settle(struct care_fixture *f, const char *topic, const char *stance,
                    const char *because)
{
    struct stance_phase *phase = ARENA_NEW(&f->arena, struct stance_phase);
    *phase = (struct stance_phase){.stance = stance, .from = f->plan.on, .because = because};
    struct topic_plan *topics = ARENA_ARRAY(&f->arena, struct topic_plan, f->plan.topic_count + 2);
    for (size_t i = 0; i < f->plan.topic_count; i++)
        topics[i] = f->plan.topics[i];
    topics[f->plan.topic_count++] =
        (struct topic_plan){.topic = topic, .phases = phase, .phase_count = 1};
    f->plan.topics = topics;
}

void fixture_finish(struct care_fixture *f)
{
    diag_finish(&f->diag);
    arena_finish(&f->arena);
}

/* ---- looking at a plan ------------------------------------------------------------------ */

const struct review *fixture_review(const struct care_fixture *f, const char *code)
{
    char place[64];
    const struct review *found = NULL;
    for (const struct review *r = f->plan.review; r; r = r->next) {
        (void)snprintf(place, sizeof place, "%s", r->at.file ? r->at.file : ""); /* it is a text */
        if (!found && strcmp(r->code, code) == 0)
            found = r;
    }
    return found;
}

const struct plan_fact *fixture_fact(const struct review *review, const char *name)
{
    for (const struct plan_fact *fact = review->facts; fact; fact = fact->next)
        if (strcmp(fact->name, name) == 0)
            return fact;
    return NULL;
}

const struct derivation *fixture_derivation(const struct derivations *how, const char *what)
{
    for (const struct derivation *d = how->first; d; d = d->next)
        if (strcmp(d->what, what) == 0)
            return d;
    return NULL;
}

bool fixture_said(const struct care_fixture *f, const char *code)
{
    for (const struct diag_message *m = f->diag.first; m; m = m->next)
        if (strcmp(m->code, code) == 0)
            return true;
    return false;
}

struct rule fixture_rule(struct care_fixture *f, size_t number, const char *action, double harm)
{
    return (struct rule){.name = fixture_text(arena_format(&f->arena, "rule-%zu", number)),
                         .action = fixture_text(action),
                         .harm = fixture_quantity(harm),
                         .source = fixture_text("practice"),
                         .trust = fixture_choice(TRUST_MEMORY)};
}
