/* What the sections of the sheet that hangs at the animal's home share. */
#include "sheet/draw.h"
#include "sheet/wall.h"

#include <math.h>
#include <string.h>

#include "words/format_measured.h"
#include "words/slots.h"

/* ---- panels ---- */

struct panel *wall_panel(struct composition *c, struct block_builder *out, enum panel_kind kind)
{
    struct panel *panel = ARENA_NEW(c->arena, struct panel);
    panel->kind = kind;
    builder_add(out, BLOCK_PANEL)->as.panel = panel;
    return panel;
}

struct panel_entry *wall_entry(struct composition *c, struct panel_entry **list)
{
    while (*list)
        list = &(*list)->next;
    *list = ARENA_NEW(c->arena, struct panel_entry);
    return *list;
}

void wall_add_led(struct composition *c, struct panel_entry **list, const char *text)
{
    if (!text || !*text)
        return;
    struct panel_entry *entry = wall_entry(c, list);
    const char *colon = strchr(text, ':'), *end = colon ? colon + 1 : text;
    entry->title = arena_copy_bytes(c->arena, text, (size_t)(end - text));
    entry->text = end + strspn(end, " ");
}

struct panel_entry *wall_telephones(struct composition *c)
{
    const struct letterhead_plan *clinic = &c->plan->letterhead;
    struct panel_entry *list = NULL;
    const char *const numbers[] = {clinic->telephone, clinic->out_of_hours};
    const char *const words[] = {"wall.day", "wall.closed"};
    for (size_t i = 0; i < 2; i++) {
        if (!numbers[i])
            continue;
        struct panel_entry *entry = wall_entry(c, &list);
        /* where there is one number, nobody has to choose */
        entry->title = numbers[0] && numbers[1] ? phrase(&c->ctx, words[i]) : NULL;
        entry->value = numbers[i];
        entry->uri = draw_telephone_uri(c->arena, numbers[i]);
    }
    return list;
}

const char *wall_phrase(struct composition *c, const char *key, const char *name, const char *text,
                        const char *other_name, const char *other_text)
{
    struct plan_fact other = {.name = other_name, .kind = FACT_TEXT, .text = other_text};
    struct plan_fact fact = {.name = name, .kind = FACT_TEXT, .text = text};
    fact.next = other_name ? &other : NULL;
    struct phrase_context ctx = c->ctx;
    ctx.facts = name ? &fact : NULL;
    return phrase(&ctx, key);
}

/* ---- what is to be reached ---- */

/* "90-93" of "90-93 °F": what stands before the last no-break space. */
static const char *without_unit(struct arena *arena, const char *text)
{
    const char *space = NULL;
    for (const char *at = text; (at = strstr(at, "\xc2\xa0")); at += 2)
        space = at;
    return space ? arena_copy_bytes(arena, text, (size_t)(space - text)) : text;
}

const char *wall_symbol(struct composition *c, const char *metric, const char *other)
{
    return phrase_code(&c->ctx, "wall.symbol", c->ctx.format.units == UNITS_US ? other : metric);
}

static const char *turn_word(const struct measure_row *row, enum turn turn)
{
    if (turn == TURN_RIGHT)
        return "right";
    if (row->part == PART_TEMPERATURE)
        return turn == TURN_UP ? "warmer" : "cooler";
    if (row->part == PART_HUMIDITY)
        return turn == TURN_UP ? "damper" : "drier";
    return turn == TURN_UP ? "more" : "less";
}

static void set_now(struct composition *c, struct wall_target *out, const char *number)
{
    out->is_now_open = number == NULL;
    out->now_number = number;
    out->now = number ? wall_phrase(c, "wall.now", "value", number, NULL, NULL)
                      : phrase(&c->ctx, "wall.now.open");
}

static bool find_measured(struct composition *c, enum measure_id measure, struct wall_target *out)
{
    const struct measured_plan *plan = &c->plan->measured[measure];
    const struct measure_row *row = &measures[measure];
    if (!plan->applies)
        return false;
    out->value = format_measured_band(&c->ctx.format, row->dimension, plan->low, plan->high);
    out->number = without_unit(c->arena, out->value);
    out->unit = row->dimension == DIM_TEMPERATURE ? wall_symbol(c, "celsius", "fahrenheit")
                : row->dimension == DIM_PERCENT   ? wall_symbol(c, "percent", "percent")
                                                  : NULL;
    /* what was read at another place is no number of this one */
    bool known = plan->has_reading && !plan->implausible &&
                 (measure != MEASURE_HUMIDITY || c->plan->humidity.reading_at == ZONE_COOL_SIDE);
    const char *now = known ? format_measured(&c->ctx.format, row->dimension, plan->judged) : NULL;
    set_now(c, out, now ? without_unit(c->arena, now) : NULL);
    if (plan->read_higher) {
        const char *higher = format_measured(&c->ctx.format, row->dimension, plan->reading);
        out->now =
            wall_phrase(c, "wall.now-higher", "value", without_unit(c->arena, higher), NULL, NULL);
    }
    bool right =
        plan->verdict == VERDICT_IN_RANGE ||
        (row->dimension == DIM_TEMPERATURE && known && plan->verdict != VERDICT_BORDERLINE &&
         !format_temp_step_to_band(&c->ctx.format, plan->judged, plan->low, plan->high));
    /* what lies on the edge has no arrow: it is to be measured again */
    if (known)
        out->turn = right                               ? TURN_RIGHT
                    : plan->verdict == VERDICT_TOO_LOW  ? TURN_UP
                    : plan->verdict == VERDICT_TOO_HIGH ? TURN_DOWN
                                                        : TURN_NONE;
    if (out->turn != TURN_NONE)
        out->turn_said = phrase_code(&c->ctx, "wall.turn", turn_word(row, out->turn));
    out->is_edge = out->turn == TURN_NONE && out->now_number;
    if (out->is_edge)
        out->now = wall_phrase(c, "wall.now-edge", "value", out->now_number, NULL, NULL);
    return true;
}

const char *wall_ask_of(struct composition *c, const struct wall_target *target)
{
    return wall_phrase(c, "wall.now-ask", "value", target->now_number, NULL, NULL);
}

double wall_lamp_today_cm(const struct care_plan *plan)
{
    const struct lying_plan *lying = &plan->lying;
    bool is_lowered = lying->low && lying->has_lower_by && lying->lower_by_cm > 0;
    return is_lowered && plan->enclosure.lamp_height_cm > 0
               ? plan->enclosure.lamp_height_cm - lying->lower_by_cm
               : 0;
}

/* It need not be moved, for no tape is so exact, and yet stands beside the band that is shown. */
static bool is_beside_band(const struct composition *c, double height_cm)
{
    const struct format *f = &c->ctx.format;
    const struct uvb_plan *uvb = &c->plan->uvb;
    const char *end = height_cm < uvb->nearest_cm    ? format_length_least(f, uvb->nearest_cm)
                      : height_cm > uvb->farthest_cm ? format_length_most(f, uvb->farthest_cm)
                                                     : NULL;
    return end && uvb->nearest_cm < uvb->farthest_cm &&
           strcmp(end, format_length(f, height_cm)) != 0;
}

static bool find_lamp(struct composition *c, struct wall_target *out)
{
    const struct uvb_plan *uvb = &c->plan->uvb;
    const struct enclosure_plan *box = &c->plan->enclosure;
    struct slot_value slot;
    if (!c->plan->measured[MEASURE_UVB].applies || plan_holds(c->plan, "uvb-lamp", "off-until") ||
        !slots_find(&c->ctx, "uvb.distance", &slot))
        return false;
    /* where it hangs well the whole band is shown: any height in it is right */
    bool hangs_well = uvb->has_change && uvb->change_cm == 0;
    out->value = hangs_well && uvb->nearest_cm < uvb->farthest_cm
                     ? format_length_band(&c->ctx.format, uvb->nearest_cm, uvb->farthest_cm)
                     : slot.text;
    out->unit = wall_symbol(c, "centimetre", "inch");
    const char *now = NULL;
    const double today_cm = hangs_well ? 0 : wall_lamp_today_cm(c->plan);
    if (today_cm > 0) { /* which way it has to go holds only where the animal lies low */
        set_now(c, out, format_length(&c->ctx.format, today_cm));
        return true;
    }
    if (box->lamp_height_cm > 0)
        now = hangs_well ? format_length_in_band(&c->ctx.format, box->lamp_height_cm,
                                                 uvb->nearest_cm, uvb->farthest_cm)
                         : format_length(&c->ctx.format, box->lamp_height_cm);
    set_now(c, out, now);
    out->is_edge = hangs_well && box->lamp_height_cm > 0 && is_beside_band(c, box->lamp_height_cm);
    if (out->is_edge)
        out->now = wall_phrase(c, "wall.now-edge", "value", out->now_number, NULL, NULL);
    else if (box->lamp_height_cm > 0)
        out->turn = uvb->has_change && uvb->change_cm > 0   ? TURN_UP
                    : uvb->has_change && uvb->change_cm < 0 ? TURN_DOWN
                                                            : TURN_RIGHT;
    static const char *const words[] = {
        [TURN_UP] = "higher", [TURN_DOWN] = "lower", [TURN_RIGHT] = "right"};
    if (out->turn != TURN_NONE)
        out->turn_said = phrase_code(&c->ctx, "wall.turn", words[out->turn]);
    return true;
}

bool wall_find_target(struct composition *c, int place, struct wall_target *out)
{
    *out = (struct wall_target){0};
    return place == PLACE_LAMP_DISTANCE ? find_lamp(c, out)
                                        : find_measured(c, (enum measure_id)place, out);
}

/* A place that its kind does not use has no aim, and no more than all that the animal bears. */
static bool find_ceiling(struct composition *c, int place, struct wall_target *out)
{
    const struct measured_plan *plan = &c->plan->measured[place];
    if (!plan->limit_only || plan->verdict != VERDICT_TOO_HIGH ||
        !c->plan->temperature.has_upper_limit)
        return false;
    const char *limit = format_temp_limit(&c->ctx.format, c->plan->temperature.upper_limit_c);
    out->value = wall_phrase(c, "wall.box.ceiling", "target", limit, NULL, NULL);
    out->unit = wall_symbol(c, "celsius", "fahrenheit");
    set_now(c, out,
            without_unit(c->arena, format_measured(&c->ctx.format, DIM_TEMPERATURE, plan->judged)));
    out->turn = TURN_DOWN;
    out->turn_said = phrase_code(&c->ctx, "wall.turn", "cooler");
    return true;
}

bool wall_find_step_target(struct composition *c, int place, struct wall_target *out)
{
    return wall_find_target(c, place, out) ||
           (place != PLACE_LAMP_DISTANCE && find_ceiling(c, place, out));
}

/* ---- which action stands where ---- */

static bool is_going(const struct action *action)
{
    return strcmp(action->code, "go-to-clinic-now") == 0;
}

/* On the way to a clinic nothing is changed at home. */
size_t wall_step_count(const struct composition *c)
{
    size_t count = 0;
    if (c->plan->go_now)
        return 0;
    while (count < c->plan->action_count && c->plan->actions[count].is_first &&
           section_may_show(c, count))
        count++;
    return count;
}

bool wall_has_place(const struct composition *c, size_t action)
{
    return c->plan->steps[action].has_place;
}

int wall_action_at(const struct composition *c, int place)
{
    for (size_t i = 0; i < c->plan->action_count; i++)
        if (wall_has_place(c, i) && c->plan->steps[i].place == place &&
            !is_going(&c->plan->actions[i]))
            return (int)i;
    return -1;
}

/* A step that stands for several ("unplug the mat") has no place of its own; what it was asked for
 * by says which it changes. */
int wall_change_at(const struct composition *c, int place)
{
    static const char zone[] = "zone:";
    const size_t length = sizeof zone - 1;
    int action = wall_action_at(c, place);
    for (size_t i = 0; action < 0 && place != PLACE_LAMP_DISTANCE && i < c->plan->action_count; i++)
        for (const struct action_reason *r = c->plan->actions[i].reasons; r; r = r->next)
            if (r->from && strncmp(r->from, zone, length) == 0 &&
                strcmp(r->from + length, measures[place].id) == 0)
                action = (int)i;
    return action;
}

bool wall_is_arrow(enum turn turn)
{
    return turn == TURN_UP || turn == TURN_DOWN;
}

/* The warm place at night has no step of its own: the words of those that warm it by day say how
 * far. */
bool wall_night_may_turn(const struct composition *c, enum measure_id measure, enum turn turn)
{
    if (turn == TURN_RIGHT || wall_change_at(c, (int)measure) >= 0)
        return true;
    if (measure != MEASURE_NIGHT_WARM_SIDE || turn != TURN_UP)
        return false;
    for (size_t i = 0; i < c->plan->action_count; i++)
        if (c->plan->steps[i].warms_night)
            return true;
    return false;
}

/* The frame of a far larger box would make the real one so small that its marks lie on one another
 * and on what stands in it; the heading says the size it needs. The drawing's room is about three
 * times as wide as high. */
bool wall_has_room_for_frame(const struct diagram *d, const struct enclosure_plan *box)
{
    static const double ROOM_SHAPE = 3, LEAST_SHARE = 0.7;
    const double length = fmax(box->least_length_cm, d->length);
    const double height = fmax(box->least_height_cm, d->height);
    return fmin(ROOM_SHAPE / length, 1 / height) >=
           LEAST_SHARE * fmin(ROOM_SHAPE / d->length, 1 / d->height);
}

bool wall_box_is_drawn(const struct composition *c)
{
    const struct enclosure_plan *box = &c->plan->enclosure;
    return (box->has_size                            ? box->length_cm
            : box->known && box->least_height_cm > 0 ? box->least_length_cm
                                                     : 0) > 0;
}

int wall_action_of(const struct care_plan *plan, const char *code)
{
    for (size_t i = 0; i < plan->action_count; i++)
        if (strcmp(plan->actions[i].code, code) == 0)
            return (int)i;
    return -1;
}

int wall_perch_action(const struct composition *c)
{
    const struct lying_plan *lying = &c->plan->lying;
    if (!wall_box_is_drawn(c) || !lying->known || lying->above_floor_cm <= 0)
        return -1;
    return wall_action_of(c->plan, "protect-bones");
}

/* The first step without a place of its own that shows this pictogram; -1: none. */
static int action_shown_as(const struct composition *c, enum pictogram_name name)
{
    for (size_t i = 0; i < c->plan->action_count; i++)
        if (!wall_has_place(c, i) && c->plan->steps[i].pictogram == name &&
            !is_going(&c->plan->actions[i]))
            return (int)i;
    return -1;
}

int wall_lamp_action(const struct composition *c)
{
    if (!c->plan->measured[MEASURE_UVB].applies || !wall_box_is_drawn(c))
        return -1;
    const int off = action_shown_as(c, PICTOGRAM_TUBE_OFF);
    return off >= 0 ? off : action_shown_as(c, PICTOGRAM_TUBE);
}

bool wall_turns_lamp_off(const struct composition *c)
{
    const int action = wall_lamp_action(c);
    return action >= 0 && c->plan->steps[action].pictogram == PICTOGRAM_TUBE_OFF;
}

bool wall_wakes_dry(const struct composition *c)
{
    const bool is_wet =
        c->plan->taxon.group == GROUP_FROG || c->plan->taxon.group == GROUP_SALAMANDER;
    return !is_wet && action_shown_as(c, PICTOGRAM_WAKE) >= 0;
}

int wall_heat_off_action(const struct composition *c)
{
    const struct enclosure_plan *box = &c->plan->enclosure;
    const bool hangs = wall_box_is_drawn(c) && !box->lamp_heats && !box->heated_below;
    return hangs ? action_shown_as(c, PICTOGRAM_HEAT_OFF) : -1;
}

/* Is its number read at a place that the drawing shows, and no other action's before it? Or is it
 * about the lamp? */
static bool is_in_drawing(const struct composition *c, size_t action)
{
    const struct step_plan *step = &c->plan->steps[action];
    if ((int)action == wall_lamp_action(c) || (int)action == wall_perch_action(c) ||
        (int)action == wall_heat_off_action(c))
        return true;
    bool drawn = step->has_place &&
                 (step->place == PLACE_LAMP_DISTANCE || step->place == MEASURE_HUMIDITY ||
                  (step->place == MEASURE_DEPTH && c->plan->measured[MEASURE_WATER].applies) ||
                  (step->place < ZONE_COUNT && step->place != ZONE_NIGHT &&
                   step->place != ZONE_NIGHT_WARM_SIDE)); /* both stand below it */
    return drawn && wall_action_at(c, step->place) == (int)action;
}

const char *wall_mark(struct composition *c, size_t action, bool *is_solid)
{
    size_t steps = wall_step_count(c);
    *is_solid = action < steps;
    if (action < steps)
        return arena_format(c->arena, "%zu", action + 1);
    if (!is_in_drawing(c, action))
        return NULL;
    char letter = 'A';
    for (size_t i = steps; i < action; i++)
        letter = (char)(letter + (is_in_drawing(c, i) ? 1 : 0));
    return arena_format(c->arena, "%c", letter);
}

/* A comma ends none: "on Friday, no food" says nothing before it. */
const char *wall_own_sentence(struct composition *c, const char *own)
{
    const char *end = own;
    while (*end && !(strchr(".!?;", *end) && (!end[1] || end[1] == ' ')))
        end++;
    return arena_format(c->arena, "%.*s", (int)(end - own), own);
}

const char *wall_short(struct composition *c, size_t action)
{
    const struct action *one = &c->plan->actions[action];
    return one->own ? one->own : phrase_part(&c->ctx, "action", one->code, "short");
}

/* ---- how it is ---- */

bool wall_is_ill(const struct care_plan *plan)
{
    for (size_t i = 0; i < plan->finding_count; i++)
        if (plan->findings[i].is_urgent && plan->findings[i].severity != SEVERITY_NORMAL &&
            plan->findings[i].tier <= TIER_TODAY)
            return true;
    return false;
}

/* That it is well says who has looked at it and found nothing. */
bool wall_all_fine(const struct care_plan *plan)
{
    for (size_t i = 0; i < plan->finding_count; i++)
        if (plan->findings[i].severity != SEVERITY_NORMAL)
            return false;
    return plan->finding_count > 0;
}

/* Not ill today, and yet what it comes back for: eggs, or much too heavy. */
bool wall_comes_back(const struct care_plan *plan)
{
    const struct finding_plan *worst = plan_worst_finding(plan);
    return worst && plan->has_recheck &&
           (worst->severity >= SEVERITY_MODERATE || worst->headline == HEADLINE_BEFORE);
}

static void box_sides(const struct care_plan *plan, double *length, double *height)
{
    const struct enclosure_plan *box = &plan->enclosure;
    *length = box->has_size ? box->length_cm : box->least_length_cm;
    *height = box->has_size ? box->height_cm : box->least_height_cm;
}

bool wall_is_high(const struct composition *c)
{
    double length, height;
    box_sides(c->plan, &length, &height);
    return length > 0 && height > length;
}

bool compose_is_tall(const struct care_plan *plan)
{
    static const double TALL = 0.62;
    double length, height;
    box_sides(plan, &length, &height);
    return length > 0 && length <= TALL * height;
}

bool wall_is_tall(const struct composition *c)
{
    return !c->wide && wall_step_count(c) >= 2 && compose_is_tall(c->plan);
}
