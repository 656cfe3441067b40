/* The numbers that are no places in the box: the night, the light, what is never passed. */
#include <math.h>
#include <string.h>

#include "sheet/wall.h"

static void add_limit(struct composition *c, struct panel *panel, const char *key,
                      const struct pictogram *sign, const char *value)
{
    if (!value)
        return;
    struct panel_entry *entry = wall_entry(c, &panel->entries);
    entry->pictogram = sign;
    entry->title = phrase(&c->ctx, key);
    entry->value = value;
}

static struct panel_entry *last_entry(struct panel *panel)
{
    struct panel_entry *entry = panel->entries;
    while (entry->next)
        entry = entry->next;
    return entry;
}

/* A step says that longer days have to wait. */
static bool waits_for_longer_days(const struct care_plan *plan)
{
    return plan->uvb.hours_set > 0 && wall_action_of(plan, "set-timer-later") >= 0;
}

/* Which way the hours of the timer go: an arrow only where a step sets it. */
enum turn wall_light_turn(const struct composition *c)
{
    static const double SAME_H = 0.05; /* they are shown to a tenth */
    const struct uvb_plan *uvb = &c->plan->uvb;
    if (uvb->hours_now <= 0 || uvb->hours_set <= 0 || uvb->sun || waits_for_longer_days(c->plan))
        return TURN_NONE;
    if (fabs(uvb->hours_now - uvb->hours_set) < SAME_H)
        return TURN_RIGHT;
    if (wall_action_of(c->plan, "set-timer") < 0)
        return TURN_NONE;
    return uvb->hours_now > uvb->hours_set ? TURN_UP : TURN_DOWN;
}

static void add_light_hours(struct composition *c, struct panel *panel)
{
    static const char *const words[] = {
        [TURN_UP] = "more", [TURN_DOWN] = "less", [TURN_RIGHT] = "right"};
    const struct uvb_plan *uvb = &c->plan->uvb;
    bool lit = c->plan->measured[MEASURE_UVB].applies, waits = waits_for_longer_days(c->plan);
    if (uvb->hours_now <= 0 || uvb->sun)
        return;
    add_limit(c, panel, "wall.limit.light",
              lit ? wall_pictogram(PICTOGRAM_TUBE) : wall_other_pictogram(WALL_PICTOGRAM_CLOCK),
              format_hours(&c->ctx.format, waits ? uvb->hours_set : uvb->hours_now));
    if (uvb->hours_set <= 0)
        return;
    struct panel_entry *entry = last_entry(panel);
    entry->turn = wall_light_turn(c);
    if (entry->turn != TURN_NONE)
        entry->turn_said = phrase_code(&c->ctx, "wall.turn", words[entry->turn]);
    entry->now = wall_phrase(c, waits ? "wall.now-ask" : "wall.now", "value",
                             format_number(&c->ctx.format, uvb->hours_set, 1), NULL, NULL);
}

/* A night's target with its reading, or a line to write it on; an arrow only where a box to tick
 * stands. */
static void add_night(struct composition *c, struct panel *panel, enum measure_id measure,
                      const char *key)
{
    struct wall_target night;
    if (!wall_find_target(c, (int)measure, &night))
        return;
    add_limit(c, panel, key, wall_other_pictogram(WALL_PICTOGRAM_MOON), night.value);
    struct panel_entry *entry = last_entry(panel);
    bool may_turn = wall_night_may_turn(c, measure, night.turn);
    entry->now = !may_turn && wall_is_arrow(night.turn) ? wall_ask_of(c, &night) : night.now;
    entry->is_now_open = night.is_now_open;
    entry->turn = may_turn && !night.is_now_open ? night.turn : TURN_NONE;
    entry->turn_said = night.turn_said;
}

void section_wall_limits(struct composition *c, struct block_builder *out)
{
    const struct care_plan *plan = c->plan;
    struct panel *panel = wall_panel(c, out, PANEL_FIGURES);
    /* the lowest reading is that of the cool end once the warm place has a number */
    const bool of_two = plan->measured[MEASURE_NIGHT_WARM_SIDE].applies;
    add_night(c, panel, MEASURE_NIGHT, of_two ? "wall.limit.night-cool" : "wall.limit.night");
    add_night(c, panel, MEASURE_NIGHT_WARM_SIDE, "wall.limit.night-warm");
    add_light_hours(c, panel);
    const struct measured_plan *light = &plan->measured[MEASURE_UVB];
    if (light->applies && light->target_from.origin == ORIGIN_VETERINARIAN)
        add_limit(c, panel, "wall.limit.index", wall_pictogram(PICTOGRAM_TUBE),
                  format_uvi_band(&c->ctx.format, light->low, light->high));
    if (plan->temperature.has_upper_limit)
        add_limit(c, panel, "wall.limit.hottest", wall_pictogram(PICTOGRAM_STOP),
                  format_temp_limit(&c->ctx.format, plan->temperature.upper_limit_c));
    else if (plan->taxon.group == GROUP_FROG || plan->taxon.group == GROUP_SALAMANDER)
        add_limit(c, panel, "wall.limit.water", wall_pictogram(PICTOGRAM_DROP),
                  phrase(&c->ctx, "wall.limit.no-chlorine"));
}
