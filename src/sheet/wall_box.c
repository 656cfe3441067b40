/* The box from the front, to scale, with its targets on it; and the numbers that are no places. */
#include <math.h>
#include <string.h>

#include "base/strbuf.h"
#include "sheet/wall.h"
#include "words/slots.h"

enum { THINGS_MOST = 24, LABELS_MOST = 8, COIL_BENDS = 2 };

/* Where things stand, as shares of the box. What nobody measures, such as a hide, is drawn thin. */
static const double BASK_FROM = 0.03, BASK_TO = 0.36, HEAT_AT = 0.08, ANIMAL_AT = 0.15;
static const double WARM_AT = 0.44, HIDE_AT = 0.52, HIDE_LONG = 0.16, BOWL_AT = 0.74,
                    BOWL_LONG = 0.12, COOL_AT = 0.94, AIR_AT = 0.8;
static const double BULB_CM = 12, SHORE = 0.5, SHALLOW = 0.42, DEEP = 0.85, DOCK = 0.04,
                    LAMP_LONG = 0.45;

struct scene_plan {
    struct composition *c;
    struct diagram *diagram;
    struct diagram_thing *things;
    struct diagram_label *labels;
    struct diagram_thing *water; /* set where there is some */
    double length, height;
    double platform; /* its top above the floor */
    bool has_basking, all_water, some_water;
    bool wakes;      /* tonight on the floor, without water */
    bool spans;      /* some water, from wall to wall: it basks on a dock in it */
    double level;    /* the water's */
    double back;     /* above what it lies on, as drawn */
    double animal_x; /* where its back is highest */
    struct wall_key key;
    struct strbuf alternative;
};

static struct diagram_thing *add_thing(struct scene_plan *s, enum thing_kind kind)
{
    struct diagram_thing *thing = &s->things[s->diagram->thing_count];
    s->diagram->thing_count += s->diagram->thing_count + 1 < THINGS_MOST;
    *thing = (struct diagram_thing){.kind = kind};
    return thing;
}

/* ---- the size ---- */

static bool take_size(struct scene_plan *s)
{
    const struct enclosure_plan *box = &s->c->plan->enclosure;
    struct diagram *d = s->diagram;
    if (box->has_size) {
        d->length = box->length_cm;
        d->height = box->height_cm;
        bool small = box->verdict == VERDICT_TOO_LOW && box->known;
        bool larger = small && (box->short_length_cm > 0 || box->short_height_cm > 0) &&
                      wall_has_room_for_frame(d, box);
        d->needed_length = larger ? fmax(box->least_length_cm, d->length) : 0;
        d->needed_height = larger ? fmax(box->least_height_cm, d->height) : 0;
        s->key.shows_needed = larger;
    } else if (box->known && box->least_height_cm > 0) {
        d->length = box->least_length_cm;
        d->height = box->least_height_cm;
    }
    d->has_lid = !box->is_open;
    d->top = d->height;
    s->length = d->length;
    s->height = d->height;
    return d->length > 0;
}

/* ---- things ---- */

static void see_mark(struct scene_plan *s, const char *mark, bool is_solid)
{
    s->key.shows_number = s->key.shows_number || (mark && is_solid);
    s->key.shows_letter = s->key.shows_letter || (mark && !is_solid);
}

/* The row of tonight that takes water out and puts other water in; -1: none does. */
static int water_change_step(const struct composition *c)
{
    static const char *const changes[] = {"change-part-water", "change-more-water",
                                          "change-less-water"};
    for (size_t i = 0; i < wall_step_count(c); i++)
        for (size_t k = 0; k < sizeof changes / sizeof *changes; k++)
            if (strcmp(c->plan->actions[i].code, changes[k]) == 0)
                return (int)i;
    return -1;
}

static void add_water(struct scene_plan *s)
{
    if (!s->some_water)
        return;
    struct diagram_thing *water = add_thing(s, THING_WATER);
    s->water = water;
    water->x = s->all_water || s->spans ? 0 : SHORE * s->length;
    water->width = s->length - water->x;
    water->y = s->level;
    const int action = water_change_step(s->c);
    if (action < 0)
        return;
    water->mark = wall_mark(s->c, (size_t)action, &water->is_mark_solid);
    see_mark(s, water->mark, water->is_mark_solid);
}

/* The low water is that of a tub of its own: the tank that is drawn keeps its depth. */
static bool is_low_in_tub(const struct composition *c)
{
    const int action = wall_action_of(c->plan, "shallow-water");
    return action >= 0 && c->plan->steps[action].in_tub;
}

/* Does a row or a sentence of this sheet tell of low water in the tank? Nobody looks for what
 * dashes mean that no word speaks of. */
static bool tells_of_low_water(const struct composition *c)
{
    static const char SENTENCE[] = "stance.water-level.shallow-watched";
    if (wall_action_of(c->plan, "shallow-water") >= 0)
        return !is_low_in_tub(c);
    for (size_t i = 0; i < c->plan->speaking_count; i++)
        if (strncmp(c->plan->speaking[i].code, SENTENCE, strlen(SENTENCE)) == 0)
            return true;
    return false;
}

/* Where it has to stand on the ground and reach the air: as high as it is itself. 0: not so, or
 * nobody knows how high that is. */
static double standing_level(const struct scene_plan *s)
{
    const struct care_plan *plan = s->c->plan;
    const struct pictogram *outline = wall_outline(plan);
    if (!plan_holds(plan, "water-level", "shallow-watched") || !outline ||
        !plan->patient.has_length || !tells_of_low_water(s->c))
        return 0;
    return plan->patient.length_cm * outline->height / outline->field;
}

/* As deep as was read, where it is seen; else as low as it shall be, or as the picture has it. */
static double water_level(const struct scene_plan *s)
{
    static const double LEAST = 0.15;
    const struct measured_plan *depth = &s->c->plan->measured[MEASURE_DEPTH];
    const double standing = standing_level(s);
    const bool is_read = depth->has_reading && !depth->implausible;
    if (wall_action_of(s->c->plan, "shallow-water") >= 0 && !is_low_in_tub(s->c))
        return LEAST * s->height;
    if (!is_read && s->spans && standing > 0)
        return fmin(fmax(standing, LEAST * s->height), SHALLOW * s->height);
    if (!is_read)
        return (s->all_water ? DEEP : SHALLOW) * s->height;
    return fmin(fmax(depth->reading, LEAST * s->height), DEEP * s->height * (s->spans ? 0.75 : 1));
}

/* The top of what it basks on: as written, a climber's branch half way up, and no higher than it
 * may climb now. */
static double platform_height(const struct scene_plan *s)
{
    static const double BRANCH_AT = 0.5, LOW_AT = 0.25;
    const struct care_plan *plan = s->c->plan;
    double high = plan->enclosure.platform_height_cm;
    if (plan->lying.low && !plan->lying.known)
        high = LOW_AT * s->height;
    else if (!plan->lying.low && high <= 0 && plan->taxon.habit == HABIT_ARBOREAL)
        high = BRANCH_AT * s->height;
    return fmin(high, s->height * 0.8);
}

static void add_platform(struct scene_plan *s)
{
    static const double FLAT = 0.03;
    if (s->wakes) /* there is nothing to climb until it is awake */
        s->platform = 0;
    if (!s->has_basking || s->wakes)
        return;
    struct diagram_thing *block = add_thing(s, THING_BLOCK);
    block->x = BASK_FROM * s->length;
    block->width = (BASK_TO - BASK_FROM) * s->length;
    block->height = fmax(s->platform, FLAT * s->height);
    if (s->spans)
        block->height = fmax(block->height, s->level + DOCK * s->height);
    s->platform = block->height;
    if (s->spans || (s->c->plan->enclosure.platform_height_cm > 0 && !s->c->plan->lying.low))
        block->word = phrase(&s->c->ctx, "wall.box.platform");
}

static void add_line(struct scene_plan *s, double x, double y, double length, double thick)
{
    double *points = ARENA_ARRAY(s->c->arena, double, 4);
    points[0] = x;
    points[1] = points[3] = y;
    points[2] = x + length;
    struct diagram_thing *line = add_thing(s, THING_LINE);
    line->points = points;
    line->count = 2;
    line->stroke = thick;
}

/* A climber that basks nowhere sits on a branch; what may not climb now is on the ground. */
static void add_branch(struct scene_plan *s)
{
    static const double LONG = 0.4, THICK = 0.02;
    if (s->has_basking)
        return;
    if (s->c->plan->lying.low || s->some_water || s->wakes)
        s->platform = 0;
    if (s->platform > 0)
        add_line(s, ANIMAL_AT * s->length * 0.5, s->platform - THICK * s->height / 2,
                 LONG * s->length, THICK * s->height);
}

struct outline {
    double at, length; /* shares of the box's length */
    double high_cm;
    const double (*shape)[2]; /* shares of its own length and height */
    size_t corners;
};

static void add_outline(struct scene_plan *s, const struct outline *outline, const char *word)
{
    double left = outline->at * s->length, wide = outline->length * s->length;
    double *points = ARENA_ARRAY(s->c->arena, double, 2 * outline->corners);
    for (size_t i = 0; i < outline->corners; i++) {
        points[2 * i] = left + outline->shape[i][0] * wide;
        points[2 * i + 1] = outline->shape[i][1] * outline->high_cm;
    }
    struct diagram_thing *thing = add_thing(s, THING_AREA);
    thing->points = points;
    thing->count = outline->corners;
    thing->x = left;
    thing->width = wide;
    thing->word = phrase(&s->c->ctx, word);
}

/* A low arch with a way in; none where the record says that there is none. */
static void add_hide(struct scene_plan *s)
{
    static const double shape[][2] = {{0, 0},    {0.04, 0.55}, {0.16, 0.88}, {0.35, 1},
                                      {0.65, 1}, {0.84, 0.88}, {0.96, 0.55}, {1, 0}};
    const struct outline arch = {HIDE_AT, HIDE_LONG,
                                 fmin(HIDE_LONG * s->length * 0.5, s->height * 0.22), shape,
                                 sizeof shape / sizeof *shape};
    const struct enclosure_plan *box = &s->c->plan->enclosure;
    bool has_none = box->has_hides && box->hides < 1 && !s->c->plan->humidity.moist_hide;
    if (!s->some_water && !has_none)
        add_outline(s, &arch,
                    s->c->plan->humidity.moist_hide ? "wall.box.damp-hide" : "wall.box.hide");
}

/* The row of page one that is about the water that it drinks. */
static void mark_bowl(struct scene_plan *s, struct diagram_thing *bowl)
{
    static const char *const rows[] = {"change-dish", "treat-water", "offer-water",
                                       "add-water-dish"};
    for (size_t i = 0; i < wall_step_count(s->c) && !bowl->mark; i++)
        for (size_t k = 0; k < sizeof rows / sizeof *rows && !bowl->mark; k++)
            if (strcmp(s->c->plan->actions[i].code, rows[k]) == 0)
                bowl->mark = wall_mark(s->c, i, &bowl->is_mark_solid);
    see_mark(s, bowl->mark, bowl->is_mark_solid);
}

static void add_bowl(struct scene_plan *s)
{
    static const double shape[][2] = {{0, 1}, {0.15, 0}, {0.85, 0}, {1, 1}};
    const struct outline bowl = {BOWL_AT, BOWL_LONG,
                                 fmin(BOWL_LONG * s->length * 0.3, s->height * 0.12), shape,
                                 sizeof shape / sizeof *shape};
    if (!s->some_water && !s->wakes && !plan_holds(s->c->plan, "water-offered", "drops-and-mist")) {
        add_outline(s, &bowl, "wall.box.bowl");
        mark_bowl(s, &s->things[s->diagram->thing_count - 1]);
    }
}

/* ---- the animal ---- */

/* A snake lies in bends one upon another, each as long in front as it is behind, its head on the
 * top one and its thin tail beside the lowest. */
static void add_coil(struct scene_plan *s, double length, double floor)
{
    static const double THICK = 1 / 26.0, STROKE = 0.8, PITCH = 1.15, TAIL = 1.5, TAIL_THICK = 0.35;
    const double thick = length * THICK, left = ANIMAL_AT * s->length + TAIL * thick,
                 wide = fmax(thick, fmin(length / (2 * (COIL_BENDS + 1)), s->length * 0.8 - left));
    const size_t count = 2 * (COIL_BENDS + 1);
    double *points = ARENA_ARRAY(s->c->arena, double, 2 * count);
    for (size_t i = 0; i < count; i++) {
        points[2 * i] = left + ((i + 1) / 2 % 2 ? wide : 0);
        const size_t bend = i / 2;
        points[2 * i + 1] = floor + thick * (STROKE / 2 + PITCH * (double)bend);
    }
    struct diagram_thing *body = add_thing(s, THING_LINE);
    body->points = points;
    body->count = count;
    body->stroke = STROKE * thick;
    body->is_animal = true;
    add_line(s, left - TAIL * thick, points[1], TAIL * thick, TAIL_THICK * thick);
    struct diagram_thing *eye = add_thing(s, THING_EYE);
    eye->x = points[2 * count - 2];
    eye->y = points[2 * count - 1] + thick * 0.1;
    eye->width = thick * 0.26;
    s->animal_x = left + wide * 0.5;
    s->back = points[2 * count - 1] + thick * STROKE / 2 - floor;
}

static void add_animal(struct scene_plan *s)
{
    const struct patient_plan *patient = &s->c->plan->patient;
    static const double SWIMS_AT = 0.35, IN_WATER = 0.4;
    double floor = s->all_water ? fmin(SWIMS_AT * s->height, IN_WATER * s->level) : s->platform;
    const struct pictogram *outline = wall_outline(s->c->plan);
    if (!patient->has_length || (s->all_water && is_low_in_tub(s->c)))
        return;
    if (!outline) {
        add_coil(s, patient->length_cm, floor);
        return;
    }
    struct diagram_thing *animal = add_thing(s, THING_OUTLINE);
    double room = s->length * 0.94;
    animal->width = fmin(patient->length_cm, room);
    animal->x = fmin(ANIMAL_AT * s->length, s->length * 0.97 - animal->width);
    animal->height = animal->width * outline->height / outline->field;
    animal->y = floor;
    animal->pictogram = outline;
    s->animal_x = animal->x + animal->width * 0.55;
    s->back = animal->height;
}

/* ---- lamps ---- */

static void add_heat(struct scene_plan *s)
{
    static const double HANGS = 0.92, OVER_DOCK = 0.4, ABOVE = 0.2;
    const int off = wall_heat_off_action(s->c);
    if ((!s->has_basking && off < 0) || s->c->plan->enclosure.lamp_heats)
        return;
    if (s->c->plan->enclosure.heated_below) { /* a mat lies where the warm side is */
        add_line(s, HEAT_AT * s->length * 0.5, s->height * 0.02, s->length * 0.3,
                 s->height * 0.035);
        return;
    }
    struct diagram_thing *lamp = add_thing(s, THING_PICTOGRAM);
    lamp->x = HEAT_AT * s->length;
    lamp->y = HANGS * s->height;
    if (s->spans) {
        lamp->y = fmax(lamp->y, s->platform + OVER_DOCK * s->height);
        s->diagram->top = fmax(s->diagram->top, lamp->y + ABOVE * s->height);
    }
    lamp->pictogram = wall_pictogram(off >= 0 ? PICTOGRAM_HEAT_OFF : PICTOGRAM_HEAT);
    if (off < 0)
        return;
    lamp->mark = wall_mark(s->c, (size_t)off, &lamp->is_mark_solid);
    see_mark(s, lamp->mark, lamp->is_mark_solid);
    s->key.shows_off = true;
}

static void add_distance(struct scene_plan *s, const struct diagram_thing *tube, double back)
{
    struct diagram_distance *distance = ARENA_NEW(s->c->arena, struct diagram_distance);
    *distance = (struct diagram_distance){s->animal_x, tube->y, back, 0};
    distance->x = fmin(fmax(distance->x, tube->x + 1), tube->x + tube->width - 1);
    s->diagram->distance = distance;
}

static const struct diagram_thing *add_new_place(struct scene_plan *s,
                                                 const struct diagram_thing *tube, double y)
{
    struct diagram_thing *new_place = add_thing(s, THING_BAR);
    *new_place = *tube;
    new_place->y = y;
    new_place->is_open = true;
    new_place->is_off = false;
    new_place->mark = NULL; /* it stands at the lamp as it is */
    s->key.lamp = "wall.key.lamp-new";
    return new_place;
}

/* The tube at its true length, or one bulb that heats too (its face: about 12
 * cm, from memory), at the height where it hangs, as far above the back as drawn; to be added or
 * with no height known, dashed. */
static void add_tube(struct scene_plan *s)
{
    const struct care_plan *plan = s->c->plan;
    const struct enclosure_plan *box = &plan->enclosure;
    if (!plan->measured[MEASURE_UVB].applies)
        return;
    bool missing = plan->uvb.lamp == LAMP_STATE_MISSING;
    bool placed = box->lamp_height_cm > 0 && !missing;
    struct slot_value low;
    bool moves = placed && wall_lamp_today_cm(plan) > 0 && plan->uvb.change_cm != 0 &&
                 slots_find(&s->c->ctx, "uvb.low-distance", &low);
    double back = s->platform + fmax(s->back, box->back_height_cm);
    double above = placed                                     ? box->lamp_height_cm
                   : plan->uvb.distance_why == DISTANCE_KNOWN ? plan->uvb.recommended_cm
                                                              : 0;
    const int action = wall_lamp_action(s->c);
    if (!placed && !missing && above <= 0 && action < 0)
        return; /* nobody says that it has one, and the sheet asks for none */
    struct diagram_thing *tube = add_thing(s, THING_BAR);
    if (action >= 0)
        tube->mark = wall_mark(s->c, (size_t)action, &tube->is_mark_solid);
    see_mark(s, tube->mark, tube->is_mark_solid);
    tube->width = box->lamp_heats           ? fmin(BULB_CM, s->length * 0.2)
                  : box->tube_length_cm > 0 ? fmin(box->tube_length_cm, s->length * 0.78)
                                            : LAMP_LONG * s->length;
    tube->x = fmax(ANIMAL_AT * s->length,
                   fmin(s->animal_x - tube->width / 2, s->length * 0.97 - tube->width));
    tube->is_off = placed && wall_turns_lamp_off(s->c);
    s->key.shows_off = s->key.shows_off || tube->is_off;
    tube->is_open = !placed;
    tube->y = above > 0 ? back + above : s->height * 0.93;
    s->diagram->top = fmax(s->diagram->top, tube->y + s->height * 0.05);
    if (missing)
        tube->word = phrase(&s->c->ctx, "wall.box.lamp-to-add");
    if (!placed)
        s->key.lamp = missing ? "wall.key.lamp-to-add" : "wall.key.lamp-unknown";
    if (above > 0) /* where it has to hang once the animal lies low; the bar is where it is */
        add_distance(s, moves ? add_new_place(s, tube, back + plan->uvb.recommended_cm) : tube,
                     back);
}

/* ---- labels ---- */

static void add_alternative(struct scene_plan *s, const char *title,
                            const struct wall_target *target)
{
    struct plan_fact turn = {.name = "turn", .kind = FACT_TEXT, .text = target->turn_said};
    struct plan_fact now = {
        .name = "now", .kind = FACT_TEXT, .text = target->now_number, .next = &turn};
    struct plan_fact aim = {
        .name = "target", .kind = FACT_TEXT, .text = target->value, .next = &now};
    struct plan_fact place = {.name = "place", .kind = FACT_TEXT, .text = title, .next = &aim};
    struct phrase_context ctx = s->c->ctx;
    ctx.facts = &place;
    bool known = target->now_number && target->turn_said;
    if (!known)
        aim.next = NULL;
    strbuf_addf(&s->alternative, "%s%s", s->alternative.length ? " " : "",
                phrase(&ctx, known ? "wall.box.told-place-now" : "wall.box.told-place"));
}

/* A step has one disc: at its own place, or where it has none at the first that it changes. */
static bool has_disc_of(const struct scene_plan *s, int place, int action)
{
    bool is_solid = false;
    const struct step_plan *step = &s->c->plan->steps[action];
    const char *mark = wall_mark(s->c, (size_t)action, &is_solid);
    if (wall_action_at(s->c, place) == action)
        return true;
    if (step->has_place && wall_action_at(s->c, step->place) == action)
        return false;
    for (size_t i = 0; mark && i + 1 < s->diagram->label_count; i++)
        if (s->labels[i].mark && strcmp(s->labels[i].mark, mark) == 0)
            return false;
    return true;
}

/* An arrow stands only where a box to tick stands: in a row, or below "Then". What is off and has
 * no such box says that we are asked. */
static struct diagram_label *add_label(struct scene_plan *s, int place, const char *title)
{
    struct wall_target target;
    if (!wall_find_target(s->c, place, &target) || s->diagram->label_count == LABELS_MOST)
        return NULL;
    struct diagram_label *label = &s->labels[s->diagram->label_count++];
    int action = wall_change_at(s->c, place);
    *label = (struct diagram_label){.title = title,
                                    .value = target.value,
                                    .now = target.now,
                                    .is_now_open = target.is_now_open};
    const bool has_disc = action >= 0 && has_disc_of(s, place, action);
    if (target.turn == TURN_RIGHT || action >= 0) {
        label->turn = target.turn;
        label->turn_said = target.turn_said;
    }
    if (has_disc)
        label->mark = wall_mark(s->c, (size_t)action, &label->is_mark_solid);
    else if (action < 0 && wall_is_arrow(target.turn)) {
        label->now = wall_ask_of(s->c, &target);
        s->key.shows_ask = true;
    }
    wall_key_see(&s->key, &target, label->turn);
    s->key.shows_open = s->key.shows_open || target.is_now_open;
    see_mark(s, label->mark, label->is_mark_solid);
    label->is_large = label->mark && label->is_mark_solid;
    add_alternative(s, title, &target);
    return label;
}

/* A lamp of which nobody can say how far it has to hang: how far it hangs now, unless what lies
 * below it was brought lower. Not of one that is changed, because the new one is another lamp. */
static struct diagram_label *add_unknown_lamp(struct scene_plan *s, const char *title)
{
    const struct care_plan *plan = s->c->plan;
    const double today_cm = wall_lamp_today_cm(plan);
    const char *hangs = format_length(&s->c->ctx.format, plan->enclosure.lamp_height_cm);
    if (!plan->measured[MEASURE_UVB].applies || plan->enclosure.lamp_height_cm <= 0 ||
        plan_holds(plan, "uvb-lamp", "off-until") ||
        plan_holds(plan, "uvb-lamp", "replace-then-rehang") ||
        s->diagram->label_count == LABELS_MOST)
        return NULL;
    struct diagram_label *label = &s->labels[s->diagram->label_count++];
    *label = (struct diagram_label){
        .title = title,
        .value = phrase(&s->c->ctx, "wall.box.ask"),
        .now = today_cm > 0 ? NULL : wall_phrase(s->c, "wall.now", "value", hangs, NULL, NULL),
    };
    return label;
}

/* Below a limit near the floor of a high box no point has room: above it one would show a place to
 * measure on which the animal must not lie. */
static bool has_room_for_points(const struct scene_plan *s)
{
    static const double LOW = 0.25; /* of its height */
    return wall_perch_action(s->c) < 0 || s->c->plan->lying.above_floor_cm > LOW * s->height;
}

static void add_place(struct scene_plan *s, enum measure_id measure, double x, double y)
{
    struct diagram_label *label = add_label(s, (int)measure, section_measure_name(s->c, measure));
    if (!label)
        return;
    label->has_point = has_room_for_points(s);
    s->key.shows_ring = s->key.shows_ring || (label->has_point && !label->mark && s->length > 0);
    label->x = x * s->length;
    label->y = wall_perch_action(s->c) < 0 ? y : fmin(y, s->c->plan->lying.above_floor_cm / 2);
}

/* ---- limits: a dashed line and its step ---- */

static void add_level(struct scene_plan *s, double x, double y)
{
    if (s->length <= 0 || y <= 0 || y >= s->height)
        return;
    struct diagram_thing *level = add_thing(s, THING_LEVEL);
    level->x = x;
    level->width = s->length - x;
    level->y = y;
}

static void put_on_level(const struct scene_plan *s, struct diagram_label *label, double y)
{
    label->has_point = label->is_level = s->length > 0 && y > 0 && y < s->height;
    label->x = s->length;
    label->y = y;
}

/* No perch and no platform above it, in the words of the step and only while that stands. */
static void add_perch_limit(struct scene_plan *s)
{
    const struct lying_plan *lying = &s->c->plan->lying;
    const int action = wall_perch_action(s->c);
    if (action < 0 || s->diagram->label_count == LABELS_MOST)
        return;
    struct diagram_label *label = &s->labels[s->diagram->label_count++];
    *label = (struct diagram_label){
        .title = phrase(&s->c->ctx, "wall.box.perch"),
        .value = format_length(&s->c->ctx.format, lying->above_floor_cm),
    };
    label->mark = wall_mark(s->c, (size_t)action, &label->is_mark_solid);
    label->is_large = label->mark && label->is_mark_solid;
    /* all labels of a tall box stand at its left: their lines would run through the disc */
    label->is_mark_beside = label->mark && wall_is_tall(s->c);
    see_mark(s, label->mark, label->is_mark_solid);
    add_level(s, 0, lying->above_floor_cm);
    put_on_level(s, label, lying->above_floor_cm);
    strbuf_addf(
        &s->alternative, "%s%s", s->alternative.length ? " " : "",
        wall_phrase(s->c, "wall.box.told-limit", "place", label->title, "target", label->value));
}

/* How deep the water has to be: both ends of it, and the label at the one that is nearer. */
static void add_depth(struct scene_plan *s)
{
    const struct measured_plan *depth = &s->c->plan->measured[MEASURE_DEPTH];
    if (!s->some_water || wall_action_at(s->c, MEASURE_DEPTH) < 0)
        return;
    struct diagram_label *label =
        add_label(s, MEASURE_DEPTH, section_measure_name(s->c, MEASURE_DEPTH));
    if (!label)
        return;
    const double x = s->all_water || s->spans ? 0 : SHORE * s->length;
    add_level(s, x, depth->low);
    if (depth->high > depth->low)
        add_level(s, x, depth->high);
    put_on_level(s, label, depth->verdict == VERDICT_TOO_HIGH ? depth->high : depth->low);
}

/* Low water for one that has to stand in it: a line where more was read, else the water as drawn;
 * its word below the floor takes no room. */
static void add_shallow(struct scene_plan *s)
{
    const double standing = standing_level(s);
    if (!s->spans || standing <= 0 || wall_action_at(s->c, MEASURE_DEPTH) >= 0)
        return;
    if (!s->c->plan->measured[MEASURE_DEPTH].has_reading || standing >= s->level) {
        s->water->word = phrase(&s->c->ctx, "wall.box.shallow");
        return;
    }
    add_level(s, BASK_TO * s->length, standing);
    s->things[s->diagram->thing_count - 1].word = phrase(&s->c->ctx, "wall.box.shallow-line");
    strbuf_addf(&s->alternative, " %s", phrase(&s->c->ctx, "wall.box.told-shallow"));
}

static void add_labels(struct scene_plan *s)
{
    double rise = s->height * 0.06;
    struct diagram_label *lamp = NULL;
    if (s->diagram->distance) {
        size_t at = s->diagram->label_count;
        const char *title = phrase(&s->c->ctx, "wall.box.lamp");
        lamp = add_label(s, PLACE_LAMP_DISTANCE, title);
        if (!lamp)
            lamp = add_unknown_lamp(s, title);
        if (lamp) {
            struct diagram_distance *distance = ARENA_NEW(s->c->arena, struct diagram_distance);
            *distance = *s->diagram->distance;
            distance->label = at;
            s->diagram->distance = distance;
            lamp->is_upper = true;
            lamp->x = distance->x;
            lamp->y = (distance->from + distance->to) / 2;
        }
    }
    if (!lamp)
        s->diagram->distance = NULL;
    const struct care_plan *plan = s->c->plan;
    /* where nobody steers the air it is not told */
    bool has_air = plan_phase_on(plan, "humidity", plan->on) != NULL;
    struct diagram_label *air =
        has_air ? add_label(s, MEASURE_HUMIDITY, phrase(&s->c->ctx, "wall.box.air")) : NULL;
    if (air) {
        air->pictogram = wall_pictogram(PICTOGRAM_DROP);
        air->is_upper = true;
        air->x = AIR_AT * s->length;
        air->y = s->height * 0.75;
    }
    add_place(s, MEASURE_BASKING_SURFACE, HEAT_AT, s->platform + rise);
    add_place(s, MEASURE_WARM_SIDE, WARM_AT, s->spans ? s->level + rise : rise);
    add_place(s, MEASURE_WATER, s->all_water ? 0.62 : 0.72, fmin(s->height * 0.22, s->level * 0.5));
    add_place(s, MEASURE_COOL_SIDE, COOL_AT,
              s->some_water && !s->all_water ? s->level + s->height * 0.1 : rise);
    add_depth(s);
    add_shallow(s);
    add_perch_limit(s);
}

/* ---- the whole ---- */

/* What of it is too small, where that is one thing. */
static const char *small_key(const struct enclosure_plan *box)
{
    bool is_short = box->short_length_cm > 0, is_low = box->short_height_cm > 0;
    if (is_short || (is_low && box->short_width_cm > 0))
        return "wall.box.small";
    return is_low ? "wall.box.low" : "wall.box.narrow";
}

static const char *size_text(struct composition *c)
{
    const struct enclosure_plan *box = &c->plan->enclosure;
    struct slot_value_text {
        const char *size, *least;
    } texts = {0};
    const double own_cm[] = {box->length_cm, box->width_cm, box->height_cm},
                 wanted_cm[] = {box->wanted_length_cm, box->wanted_width_cm, box->wanted_height_cm};
    const bool names_both =
        box->has_size && (box->verdict == VERDICT_TOO_LOW || box->verdict == VERDICT_BORDERLINE);
    texts.size = box->has_size ? format_box_beside(&c->ctx.format, own_cm, false,
                                                   names_both ? wanted_cm[0] : 0)
                               : NULL;
    texts.least =
        box->known ? format_box_beside(&c->ctx.format, wanted_cm, true, names_both ? own_cm[0] : 0)
                   : NULL;
    if (!texts.size)
        return texts.least;
    if (box->verdict == VERDICT_TOO_LOW && texts.least)
        return wall_phrase(c, small_key(box), "size", texts.size, "least", texts.least);
    if (box->verdict == VERDICT_BORDERLINE && texts.least)
        return wall_phrase(c, "wall.box.nearly", "size", texts.size, "least", texts.least);
    /* how much floor so many need is not known of every kind */
    const struct company_plan *company = &box->company;
    bool alone = company->has_animals && company->animals > 1 && !company->has_floor;
    const char *enough = alone ? "wall.box.enough-alone" : "wall.box.enough";
    return wall_phrase(c, box->verdict == VERDICT_IN_RANGE ? enough : "wall.box.size", "size",
                       texts.size, NULL, NULL);
}

static void fill_scene(struct scene_plan *s)
{
    const struct care_plan *plan = s->c->plan;
    s->has_basking = plan->measured[MEASURE_BASKING_SURFACE].applies;
    s->some_water = plan->measured[MEASURE_WATER].applies;
    s->all_water = s->some_water && plan->taxon.habit == HABIT_AQUATIC && !s->has_basking;
    s->spans = s->some_water && s->has_basking && plan->taxon.group == GROUP_TURTLE;
    s->wakes = !s->some_water && wall_wakes_dry(s->c);
    s->level = water_level(s);
    s->platform = platform_height(s);
    s->animal_x = 0.25 * s->length;
    add_water(s);
    add_platform(s);
    add_branch(s);
    add_hide(s);
    add_bowl(s);
    add_animal(s);
    add_heat(s);
    add_tube(s);
}

/* Where nothing is drawn, nothing is to scale. */
static const char *title_key(const struct composition *c, bool drawn, bool own)
{
    if (c->sheet->plain.value)
        return own ? "wall.box.plain" : "wall.box.aim";
    return !drawn ? "wall.box.aim" : own ? "wall.box" : "wall.box.least";
}

void section_wall_box(struct composition *c, struct block_builder *out)
{
    struct scene_plan s = {.c = c, .diagram = ARENA_NEW(c->arena, struct diagram)};
    struct panel *panel = wall_panel(c, out, PANEL_DIAGRAM);
    s.things = ARENA_ARRAY(c->arena, struct diagram_thing, THINGS_MOST);
    s.labels = ARENA_ARRAY(c->arena, struct diagram_label, LABELS_MOST);
    s.diagram->things = s.things;
    s.diagram->labels = s.labels;
    strbuf_init(&s.alternative, c->arena);
    bool drawn = take_size(&s);
    s.diagram->is_bare = c->sheet->paper.known; /* a small page has no room for labels */
    if (drawn)
        fill_scene(&s);
    add_labels(&s);
    const char *size = size_text(c);
    bool own = c->plan->enclosure.has_size;
    panel->diagram = s.diagram;
    panel->title = phrase(&c->ctx, title_key(c, drawn, own));
    panel->aside = own || drawn ? size : phrase(&c->ctx, "wall.box.unknown");
    if (drawn && section_says_key(c) && !c->sheet->plain.value)
        panel->text = phrase(&c->ctx, "wall.box.key");
    panel->after = wall_key_text(c, &s.key);
    s.diagram->enlarged = phrase(&c->ctx, "wall.key.enlarged");
    s.diagram->alternative =
        wall_phrase(c, "wall.box.told", "size", size ? size : phrase(&c->ctx, "wall.box.unknown"),
                    "places", s.alternative.text);
}

void section_wall_logger(struct composition *c, struct block_builder *out)
{
    const char *text = section_logger_text(c);
    if (text)
        wall_panel(c, out, PANEL_TEXT)->text = text;
}
