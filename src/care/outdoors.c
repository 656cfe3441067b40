/* Life in the open: how long the day is, and on which days the animal may be out. */
#include "care/build.h"
#include "care/daylight.h"

static int day_of_year(struct date day)
{
    return (int)date_days_between((struct date){day.year, 1, 1}, day) + 1;
}

static void plan_day(struct care_build *b, struct outdoors_plan *o)
{
    const struct quantity *latitude = &b->in->visit->enclosure.latitude_deg;
    int day = day_of_year(b->plan->on);
    if (!latitude->known)
        return;
    o->has_latitude = true;
    o->latitude_deg = latitude->value;
    o->day_hours = daylight_hours(latitude->value, day);
    struct derivation *made = build_derive(
        b, &o->how,
        (struct derived){
            "enclosure.day_hours", o->day_hours, "h", "day-length",
            "FAO Irrigation and Drainage Paper 56 (Allen et al. 1998), eq. 24, 25, 34, "
            "from memory",
            INPUTS({"latitude", latitude->value, "deg"}, {"day", day, ""})});
    build_band(made, o->day_hours, o->day_hours);
}

static void plan_weather(struct care_build *b, struct outdoors_plan *o)
{
    const struct whom_animal animal = build_animal(b);
    for (size_t i = 0; i < b->in->reference->outdoors.count && !o->has_weather; i++) {
        const struct outdoors_reference *one =
            LIST_AT(b->in->reference->outdoors, struct outdoors_reference, i);
        if (!whom_fits(&one->whom, &animal))
            continue;
        o->has_weather = true;
        o->morning_c = one->morning_c.range.low;
        o->midday_c = one->midday_c.range.low;
        o->weather_from =
            build_from_sourced(&one->morning_c, &b->in->reference->sources, ORIGIN_REFERENCE);
    }
}

bool outdoors_plan(struct care_build *b)
{
    const struct flag_value *outdoor = &b->in->visit->enclosure.outdoor;
    struct outdoors_plan *o = &b->plan->enclosure.outdoors;
    o->outdoor = outdoor->known ? outdoor->value : -1;
    plan_day(b, o);
    if (o->outdoor == 1)
        plan_weather(b, o);
    return true;
}

/* What a record says of a pen is of no box indoors: neither its heat and lamp, nor its floor, size
 * and readings. Where it lies and with whom stays. */
static void leave_pen(struct visit *visit)
{
    const struct visit_enclosure pen = visit->enclosure;
    visit->enclosure = (struct visit_enclosure){
        .outdoor = pen.outdoor,
        .latitude_deg = pen.latitude_deg,
        .animals = pen.animals,
        .males = pen.males,
        .mates = pen.mates,
    };
    visit->water = (struct visit_water){0};
    for (int i = 0; i < MEASURE_COUNT; i++)
        visit->measured[i] = (struct quantity){0};
}

bool brought_in_plan(struct care_build *b)
{
    const struct flag_value *outdoor = &b->in->visit->enclosure.outdoor;
    if (!outdoor->value || !plan_holds(b->plan, "outdoors", "in-until"))
        return true;
    struct visit *visit = ARENA_NEW(b->arena, struct visit);
    struct care_inputs *inputs = ARENA_NEW(b->arena, struct care_inputs);
    *visit = *b->in->visit;
    *inputs = *b->in;
    leave_pen(visit);
    inputs->visit = visit;
    inputs->log = NULL;
    b->in = inputs;
    build_review(b, REVIEW_REMARK, "pen-left", outdoor->at, NULL);
    return true;
}
