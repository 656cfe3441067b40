/* What a record says of its heaters taken together: held by thermostats, behind guards. */
#include "records/visit.h"

#include <stddef.h>

/* Nobody puts a cage around what lies under the floor, which a thermostat holds, or around what the
 * animal lies on, which goes. */
static bool may_have_guard(enum heat_kind kind)
{
    return kind != HEAT_NONE && kind != HEAT_MAT && kind != HEAT_CABLE && kind != HEAT_HOT_ROCK;
}

static bool may_have_thermostat(enum heat_kind kind)
{
    return kind != HEAT_NONE;
}

/* Is there heat that could have one? */
static bool may_any(const struct visit_enclosure *box, bool (*may_have)(enum heat_kind kind))
{
    if (visit_has_mercury_lamp(box))
        return true;
    for (size_t i = 0; i < box->heat.count; i++)
        if (may_have((enum heat_kind)LIST_AT(box->heat, struct visit_heat, i)->kind.value))
            return true;
    return false;
}

/* What is said of all of them asks nothing of kinds that can have neither. */
static struct flag_value of_all(const struct visit_enclosure *box, const struct flag_value *whole,
                                size_t in_heat, bool (*may_have)(enum heat_kind kind))
{
    struct flag_value all = *whole;
    if (!box->heat.count || (all.known && may_any(box, may_have)))
        return all;
    all = (struct flag_value){.known = true, .value = true};
    for (size_t i = 0; i < box->heat.count; i++) {
        const struct visit_heat *one = LIST_AT(box->heat, struct visit_heat, i);
        const struct flag_value *flag = (const void *)((const char *)one + in_heat);
        if (one->kind.known && !may_have((enum heat_kind)one->kind.value))
            continue;
        all.known = all.known && flag->known;
        if (flag->known && !flag->value)
            return *flag;
    }
    return all;
}

struct flag_value visit_thermostat(const struct visit *visit)
{
    return of_all(&visit->enclosure, &visit->enclosure.thermostat,
                  offsetof(struct visit_heat, thermostat), may_have_thermostat);
}

struct flag_value visit_heat_guard(const struct visit *visit)
{
    return of_all(&visit->enclosure, &visit->enclosure.heat_guard,
                  offsetof(struct visit_heat, guard), may_have_guard);
}
