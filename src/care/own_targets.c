/* The veterinarian's own targets win, so what can only be a slip of the pen is asked back: each
 * must be confirmed by its name, or is a fault. */
#include <string.h>

#include "care/build.h"

static bool is_confirmed(const struct visit_targets *own, const char *key)
{
    for (size_t i = 0; i < own->confirmed.count; i++)
        if (strcmp(LIST_AT(own->confirmed, struct text_value, i)->text, key) == 0)
            return true;
    return false;
}

static void ask_back(struct care_build *b, const struct band *target, const char *key,
                     const char *why)
{
    char path[64];
    snprintf(path, sizeof path, "targets.%s", key);
    diag_report_path(b->diag, DIAG_ERROR, "target-unusual", target->at, path,
                     "%s; if it is meant, add '%s' to targets.confirmed", why, key);
}

/* Warmer than the species bears at all. */
static bool check_upper_limit(struct care_build *b, int zone)
{
    const struct band *own = &b->in->visit->targets.measured[zone];
    const struct band *limit = &b->in->species->upper_limit.range;
    if (!limit->known || own->high <= limit->high)
        return true;
    ask_back(b, own, measures[zone].id,
             arena_format(b->arena,
                          "goes up to %.4g C, above the %.4g C that this species never bears",
                          own->high, limit->high));
    return false;
}

/* What holds at a place: the veterinarian's own target, else the species'. */
static const struct band *band_at(const struct care_build *b, int zone)
{
    const struct band *own = &b->in->visit->targets.measured[zone];
    return own->known ? own : &b->in->species->measured[zone].range;
}

/* The gradient runs from the night over the cool and the warm side up to the basking spot. */
static bool check_order(struct care_build *b, int zone)
{
    static const int upward[] = {ZONE_NIGHT, ZONE_COOL_SIDE, ZONE_WARM_SIDE, ZONE_BASKING_SURFACE};
    const struct band *own = &b->in->visit->targets.measured[zone];
    bool is_above = false;
    for (size_t i = 0; i < sizeof upward / sizeof *upward; i++) {
        const struct band *other = band_at(b, upward[i]);
        if (upward[i] == zone) {
            is_above = true;
            continue;
        }
        bool wrong = other->known && (is_above ? other->high < own->low : other->low > own->high);
        if (!wrong)
            continue;
        ask_back(b, own, measures[zone].id,
                 arena_format(b->arena, "%.4g-%.4g C turns the gradient round: '%s' is %.4g-%.4g C",
                              own->low, own->high, measures[upward[i]].id, other->low,
                              other->high));
        return false;
    }
    return true;
}

/* So far below what the species has at that place that it can only be a slip. */
static bool check_too_cold(struct care_build *b, int zone)
{
    const struct band *own = &b->in->visit->targets.measured[zone];
    const struct band *usual = &b->in->species->measured[zone].range;
    double apart_c = build_limit(b, "target-colder-c");
    if (!usual->known || own->low >= usual->low - apart_c)
        return true;
    ask_back(b, own, measures[zone].id,
             arena_format(b->arena,
                          "goes down to %.4g C, more than %.4g C below the species' %.4g C",
                          own->low, apart_c, usual->low));
    return false;
}

static bool check_air(struct care_build *b)
{
    const struct visit_targets *own = &b->in->visit->targets;
    const struct band *air = &own->measured[MEASURE_HUMIDITY];
    double driest = build_limit(b, "humidity-driest-percent");
    if (!air->known || air->low >= driest || is_confirmed(own, measures[MEASURE_HUMIDITY].id))
        return true;
    ask_back(b, air, measures[MEASURE_HUMIDITY].id,
             arena_format(b->arena, "goes down to %.4g %%, drier than the %.4g %% of most meters",
                          air->low, driest));
    return false;
}

/* As the record spells it: it writes what a meter shows. */
static const char uv_key[] = "uvi";

static bool check_ultraviolet(struct care_build *b)
{
    const struct visit_targets *own = &b->in->visit->targets;
    const struct band *light = &own->measured[MEASURE_UVB];
    double most = build_limit(b, "target-uv-index-most");
    if (!light->known || light->high <= most || is_confirmed(own, uv_key))
        return true;
    ask_back(b, light, uv_key,
             arena_format(b->arena, "goes up to a UV index of %.4g, above the %.4g of any zone",
                          light->high, most));
    return false;
}

static bool check_zone(struct care_build *b, int zone)
{
    const struct visit_targets *own = &b->in->visit->targets;
    if (!own->measured[zone].known || is_confirmed(own, measures[zone].id))
        return true;
    bool in_order = zone == ZONE_NIGHT || zone == ZONE_COOL_SIDE || zone == ZONE_WARM_SIDE ||
                            zone == ZONE_BASKING_SURFACE
                        ? check_order(b, zone)
                        : true;
    return check_upper_limit(b, zone) && in_order && check_too_cold(b, zone);
}

/* Who weighs so much today would have to call at once. */
static bool check_call_weight(struct care_build *b)
{
    const struct visit_targets *own = &b->in->visit->targets;
    const struct quantity *mass = &b->in->visit->patient.mass_g;
    static const char key[] = "call-weight";
    if (!own->call_mass_g.known || !mass->known || is_confirmed(own, key) ||
        own->call_mass_g.value < mass->value)
        return true;
    diag_report_path(b->diag, DIAG_ERROR, "target-unusual", own->call_mass_g.at,
                     "targets.call-weight",
                     "%.10g g is not below the %.10g g of today; if it is meant, add '%s' to "
                     "targets.confirmed",
                     own->call_mass_g.value, mass->value, key);
    return false;
}

/* Of the animal's mass, or of the heaviest grown one's where nobody weighed it. */
static bool check_meal(struct care_build *b)
{
    const struct visit_targets *own = &b->in->visit->targets;
    const struct quantity *mass = &b->in->visit->patient.mass_g;
    const struct band *grown = &b->in->species->adult_mass_g.range;
    double most_percent = build_limit(b, "meal-most-percent");
    double mass_g = mass->known ? mass->value : grown->high;
    if (!own->meal_g.known || !(mass->known || grown->known) || is_confirmed(own, "meal") ||
        own->meal_g.high <= mass_g * most_percent / 100)
        return true;
    ask_back(b, &own->meal_g, "meal",
             arena_format(b->arena, "a meal of %.10g g is more than %.4g %% of %s %.10g g",
                          own->meal_g.high, most_percent,
                          mass->known ? "the animal's" : "a heavy grown animal's", mass_g));
    return false;
}

/* A name that confirms nothing is a slip too. */
static bool check_confirmed(struct care_build *b)
{
    const struct visit_targets *own = &b->in->visit->targets;
    bool good = true;
    for (size_t i = 0; i < own->confirmed.count; i++) {
        const struct text_value *name = LIST_AT(own->confirmed, struct text_value, i);
        bool found = (strcmp(name->text, "meal") == 0 && own->meal_g.known) ||
                     (strcmp(name->text, "call-weight") == 0 && own->call_mass_g.known) ||
                     (strcmp(name->text, uv_key) == 0 && own->measured[MEASURE_UVB].known);
        for (int m = 0; m < MEASURE_COUNT && !found; m++)
            found = own->measured[m].known && strcmp(measures[m].id, name->text) == 0;
        if (found)
            continue;
        diag_report_path(b->diag, DIAG_ERROR, "confirms-nothing", name->at, "targets.confirmed",
                         "'%s' is no target of this record", name->text);
        good = false;
    }
    return good;
}

bool own_targets_check(struct care_build *b)
{
    bool good = check_confirmed(b);
    for (int zone = 0; zone < ZONE_COUNT; zone++)
        good = check_zone(b, zone) && good;
    good = check_air(b) && good;
    good = check_ultraviolet(b) && good;
    good = check_call_weight(b) && good;
    return check_meal(b) && good;
}
