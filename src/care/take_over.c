/* Takes over from the visit before what today's record does not say, fact by fact. */
#include "care/plan.h"

#include <string.h>

enum { FACTS_MOST = 16 };

struct taking {
    struct visit *visit; /* being filled */
    const struct visit *before;
    struct previous_visit *out;
    struct taken_fact *taken;
};

/* Was the keeper asked to change it? Then what was true then says nothing of today. */
static bool was_asked(const struct care_plan *plan, const char *const *codes, size_t count)
{
    for (size_t i = 0; i < plan->action_count; i++)
        for (size_t k = 0; k < count; k++)
            if (strcmp(plan->actions[i].code, codes[k]) == 0)
                return true;
    return false;
}

#define ASKED(...)                                                                                 \
    was_asked(t->out->plan, (const char *const[]){__VA_ARGS__},                                    \
              sizeof((const char *const[]){__VA_ARGS__}) / sizeof(const char *))

static void note(struct taking *t, const char *code, bool left_out)
{
    t->taken[t->out->taken_count++] = (struct taken_fact){.code = code, .left_out = left_out};
}

static void take_box(struct taking *t)
{
    struct visit_enclosure *box = &t->visit->enclosure;
    const struct visit_enclosure *then = &t->before->enclosure;
    const bool larger = ASKED("larger-box");
    if (!box->size.known && then->size.known) {
        if (!larger)
            box->size = then->size;
        note(t, "size", larger);
    }
    if (larger)
        return;
    if (!box->walls.known && then->walls.known) {
        box->walls = then->walls;
        if (!box->wall_thickness_cm.known)
            box->wall_thickness_cm = then->wall_thickness_cm;
        note(t, "walls", false);
    }
    if (!box->lid.known && then->lid.known) {
        box->lid = then->lid;
        note(t, "lid", false);
    }
}

/* What the lamp is, not where it hung: that is looked at anew each time. */
static void take_lamp(struct taking *t)
{
    struct visit_lamp *lamp = &t->visit->enclosure.lamp;
    const struct visit_lamp *then = &t->before->enclosure.lamp;
    const bool other = ASKED("change-lamp", "add-uvb-lamp", "clear-lamp-path", "turn-lamp-off") ||
                       ASKED("weaker-lamp", "stronger-lamp");
    if (lamp->kind.known || !then->kind.known)
        return;
    if (!other) {
        *lamp = *then;
        lamp->height_cm = lamp->offset_cm = lamp->hours = (struct quantity){0};
    }
    note(t, "lamp", other);
}

static bool take_text(struct text_value *now, const struct text_value *then)
{
    bool takes = !now->text && then->text;
    if (takes)
        *now = *then;
    return takes;
}

/* ---- what lies and stands in the box ---- */

static void take_quantity(struct taking *t, const char *code, struct quantity *now,
                          const struct quantity *then, bool asked)
{
    if (now->known || !then->known)
        return;
    if (!asked)
        *now = *then;
    note(t, code, asked);
}

static void take_flag(struct taking *t, const char *code, struct flag_value *now,
                      const struct flag_value *then, bool asked)
{
    if (now->known || !then->known)
        return;
    if (!asked)
        *now = *then;
    note(t, code, asked);
}

static void take_furniture(struct taking *t)
{
    struct visit_enclosure *box = &t->visit->enclosure;
    const struct visit_enclosure *then = &t->before->enclosure;
    const bool floor = ASKED("change-floor", "take-out-loose-floor", "clear-tank-floor");
    if (!box->substrate.known && then->substrate.known) {
        if (!floor)
            box->substrate = then->substrate;
        note(t, "floor", floor);
    }
    const bool hides = ASKED("add-hides", "add-hide", "add-cover", "add-second-hide",
                             "add-moist-hide", "give-warm-hide");
    take_quantity(t, "hides", &box->hides, &then->hides, hides);
    take_flag(t, "shade", &box->shade, &then->shade, ASKED("make-shade"));
    take_quantity(t, "perch", &box->perch_cm, &then->perch_cm, ASKED("lower-perch"));
    take_flag(t, "dish", &box->water_dish, &then->water_dish, ASKED("add-water-dish"));
}

/* Where it lives and with whom. */
static void take_company(struct taking *t)
{
    struct visit_enclosure *box = &t->visit->enclosure;
    const struct visit_enclosure *then = &t->before->enclosure;
    if (!box->latitude_deg.known)
        box->latitude_deg = then->latitude_deg;
    take_flag(t, "outdoor", &box->outdoor, &then->outdoor, ASKED("bring-in"));
    const bool says = box->animals.known || box->males.known || box->mates.count > 0;
    const bool said = then->animals.known || then->males.known || then->mates.count > 0;
    if (says || !said)
        return;
    const bool apart = ASKED("own-box", "keep-apart");
    if (!apart) {
        box->animals = then->animals;
        box->males = then->males;
        box->mates = then->mates;
    }
    note(t, "company", apart);
}

/* What warms it, with guard and thermostat, as one: it is changed as one. */
static void take_heat(struct taking *t)
{
    struct visit_enclosure *box = &t->visit->enclosure;
    const struct visit_enclosure *then = &t->before->enclosure;
    const bool says = box->heat.count > 0 || box->thermostat.known || box->heat_guard.known;
    const bool said = then->heat.count > 0 || then->thermostat.known || then->heat_guard.known;
    if (says || !said)
        return;
    const bool other = ASKED("guard-the-heat", "add-thermostat", "turn-basking-off",
                             "unplug-hot-rock", "unplug-mat", "change-red-light");
    if (!other) {
        box->heat = then->heat;
        box->thermostat = then->thermostat;
        box->heat_guard = then->heat_guard;
    }
    note(t, "heat", other);
}

/* Another keeper's name means another keeper: nothing of the one before holds. */
static void take_keeper(struct taking *t)
{
    struct visit_keeper *keeper = &t->visit->keeper;
    const struct visit_keeper *then = &t->before->keeper;
    if (keeper->name.text && (!then->name.text || strcmp(keeper->name.text, then->name.text) != 0))
        return;
    bool takes = take_text(&keeper->name, &then->name);
    takes |= take_text(&keeper->telephone, &then->telephone);
    takes |= take_text(&keeper->email, &then->email);
    takes |= take_text(&keeper->language, &then->language);
    if (!keeper->units.known && then->units.known) {
        keeper->units = then->units;
        takes = true;
    }
    if (takes)
        note(t, "keeper", false);
}

static bool is_there(const struct list *weighings, size_t count, struct date on)
{
    for (size_t i = 0; i < count; i++) {
        const struct visit_weighing *one = LIST_AT(*weighings, struct visit_weighing, i);
        if (one->on.known && date_compare(one->on.date, on) == 0)
            return true;
    }
    return false;
}

static bool add_weighing(struct list *all, struct visit_weighing one)
{
    if (!one.on.known || is_there(all, all->count, one.on.date))
        return false;
    LIST_AT(*all, struct visit_weighing, all->count)[0] = one;
    all->count++;
    return true;
}

/* The mass of then is an earlier weighing of today, unless it could not be right. */
static void take_weighings(struct taking *t, struct arena *arena)
{
    const struct visit_patient *then = &t->before->patient;
    const struct care_plan *plan = t->out->plan;
    struct list *own = &t->visit->patient.earlier;
    struct list all = *own;
    all.items = ARENA_ARRAY(arena, struct visit_weighing, own->count + then->earlier.count + 1);
    for (size_t i = 0; i < own->count; i++)
        LIST_AT(all, struct visit_weighing, i)[0] = *LIST_AT(*own, struct visit_weighing, i);
    bool takes = false;
    for (size_t i = 0; i < then->earlier.count; i++)
        takes |= add_weighing(&all, *LIST_AT(then->earlier, struct visit_weighing, i));
    if (plan->patient.has_mass)
        takes |= add_weighing(&all, (struct visit_weighing){
                                        .on = t->before->date,
                                        .mass_g = then->mass_g,
                                        .length_cm = then->length_cm,
                                        .at = then->mass_g.at,
                                    });
    *own = all;
    if (takes)
        note(t, "weighing", false);
}

/* It was to come in from a pen, and nobody says that it is out there still: what the pen was like
 * is true of no box indoors. That it was to come in is asked about once. */
static bool has_left_pen(struct taking *t)
{
    return t->before->enclosure.outdoor.value && !t->visit->enclosure.outdoor.value &&
           ASKED("bring-in");
}

const struct visit *care_take_over(const struct visit *visit, const struct visit *before,
                                   bool new_home, struct arena *arena, struct previous_visit *out)
{
    struct visit *filled = ARENA_NEW(arena, struct visit);
    *filled = *visit;
    struct taken_fact *taken = ARENA_ARRAY(arena, struct taken_fact, FACTS_MOST);
    struct taking t = {filled, before, out, taken};
    out->taken = taken;
    out->taken_count = 0;
    take_weighings(&t, arena);
    if (new_home) /* the box and the keeper are others */
        return filled;
    const bool left_pen = has_left_pen(&t);
    if (!left_pen) {
        take_box(&t);
        take_furniture(&t);
    }
    take_company(&t);
    if (!left_pen) {
        take_heat(&t);
        take_lamp(&t);
    }
    take_keeper(&t);
    return filled;
}
