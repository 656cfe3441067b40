/* Power to hold the air of a box: part of the temperature plan, read by wording as a band. */
#include "care/heating.h"

#include "care/heat.h"
#include "care/moist_air.h"

#define ISO_6946 "ISO 6946 (surface resistances), EN ISO 10456 (conductivities)"

#define FAO_56 "FAO Irrigation and Drainage Paper 56 (latent heat), Buck 1996 (vapour)"

/* Everything the loss is made of, gathered before any sum. */
struct heat_need {
    double low_c, high_c; /* mean air to hold */
    double room_c;
    double wall_u, lid_u, floor_u;
};

static const char *reason_against(const struct care_build *b)
{
    const struct visit_enclosure *box = &b->in->visit->enclosure;
    const struct measured_plan *zones = b->plan->measured;
    if (!zones[ZONE_WARM_SIDE].applies)
        return "not-heated";
    if (!box->size.known)
        return "no-size";
    if (!box->walls.known)
        return "no-walls";
    if (!box->lid.known)
        return "no-lid";
    if (box->walls.value == WALL_MESH)
        return "mesh-walls";
    if (box->lid.value == LID_MESH || box->lid.value == LID_OPEN)
        return "mesh-lid";
    if (!box->readings.room_c.known)
        return "no-room-temperature";
    if (!(box->size.length_cm > 0 && box->size.width_cm > 0 && box->size.height_cm > 0))
        return "no-size";
    return NULL;
}

bool heating_face_u(struct care_build *b, struct derivations *how, const struct heated_face *face,
                    double *u_w_m2k)
{
    const struct material_reference *material = material_find(b->in->reference, face->material);
    if (!material)
        return false;
    double thick_cm =
        face->thickness->known ? face->thickness->value : material->thickness_cm.range.low;
    double film = build_limit(b, face->film_limit);
    struct heat_layer layer = {thick_cm / 100, material->lambda_w_mk.range.low};
    if (!heat_u_value(film, film, &layer, 1, u_w_m2k))
        return false;
    double error = build_limit(b, "heat-error-percent") / 100;
    struct derivation *made =
        build_derive(b, how,
                     (struct derived){face->what, *u_w_m2k, "W/m2K", "iso-6946", ISO_6946,
                                      INPUTS({"surface-resistance", film, "m2K/W"},
                                             {"thickness", thick_cm, "cm"},
                                             {"conductivity", layer.lambda_w_mk, "W/mK"})});
    build_band(made, *u_w_m2k * (1 - error), *u_w_m2k * (1 + error));
    return true;
}

static bool find_need(struct care_build *b, struct heat_need *need)
{
    const struct visit_enclosure *box = &b->in->visit->enclosure;
    const struct measured_plan *zones = b->plan->measured;
    const struct measured_plan *warm = &zones[ZONE_WARM_SIDE];
    const struct measured_plan *cool =
        zones[ZONE_COOL_SIDE].applies ? &zones[ZONE_COOL_SIDE] : warm;
    const char *wall = bind_choice_word(wall_choices, box->walls.value);
    const char *lid = bind_choice_word(lid_choices, box->lid.value);
    const struct quantity unknown = {0};
    need->low_c = (warm->low + cool->low) / 2;
    need->high_c = (warm->high + cool->high) / 2;
    need->room_c = box->readings.room_c.value;
    /* the floor is taken to be of the walls' material */
    struct derivations *how = &b->plan->temperature.heating.how;
    const struct heated_face walls = {wall, &box->wall_thickness_cm, "surface-resistance-wall",
                                      "heating.wall_u_w_m2k"},
                             top = {lid, &unknown, "surface-resistance-lid", "heating.lid_u_w_m2k"},
                             floor = {wall, &box->wall_thickness_cm, "surface-resistance-floor",
                                      "heating.floor_u_w_m2k"};
    return heating_face_u(b, how, &walls, &need->wall_u) &&
           heating_face_u(b, how, &top, &need->lid_u) &&
           heating_face_u(b, how, &floor, &need->floor_u);
}

/* One end of the band: how warm, how often the air is changed, how damp the room is. */
struct heat_end {
    double air_c, air_changes, room_rh_percent;
    const char *power, *vapour; /* names of what is derived */
};

/* Air over open water leaves the box full of it; without open water none. */
static double vapour_w(struct care_build *b, const struct heat_need *need,
                       const struct heat_end *end)
{
    const struct box *size = &b->in->visit->enclosure.size;
    double volume_m3 = size->length_cm * size->width_cm * size->height_cm / 1e6, inside, outside;
    if (!b->plan->measured[ZONE_WATER].applies || !moist_air_water_g_m3(end->air_c, 100, &inside) ||
        !moist_air_water_g_m3(need->room_c, end->room_rh_percent, &outside))
        return 0;
    double vapour = heat_vapour_w(end->air_changes, volume_m3, inside, outside);
    build_derive(b, &b->plan->temperature.heating.how,
                 (struct derived){end->vapour, vapour, "W", "air-carries-vapour", FAO_56,
                                  INPUTS({"air", end->air_c, "C"}, {"room", need->room_c, "C"},
                                         {"room-humidity", end->room_rh_percent, "%"},
                                         {"air-changes", end->air_changes, "1/h"},
                                         {"volume", volume_m3, "m3"})});
    return vapour;
}

static double power_w(struct care_build *b, const struct heat_need *need,
                      const struct heat_end *end)
{
    const struct box *size = &b->in->visit->enclosure.size;
    const double air_c = end->air_c, vapour = vapour_w(b, need, end);
    struct heat_box box = {size->length_cm / 100, size->width_cm / 100, size->height_cm / 100,
                           need->wall_u,          need->lid_u,          need->floor_u,
                           end->air_changes};
    double loss = heat_loss_w_k(&box);
    double step = air_c > need->room_c ? air_c - need->room_c : 0;
    double error = build_limit(b, "heat-error-percent") / 100;
    struct derivation *made = build_derive(
        b, &b->plan->temperature.heating.how,
        (struct derived){
            end->power, loss * step + vapour, "W", "steady-loss", ISO_6946,
            INPUTS({"air", air_c, "C"}, {"room", need->room_c, "C"}, {"loss", loss, "W/K"},
                   {"air-changes", end->air_changes, "1/h"}, {"vapour", vapour, "W"},
                   {"wall-u", need->wall_u, "W/m2K"}, {"lid-u", need->lid_u, "W/m2K"},
                   {"floor-u", need->floor_u, "W/m2K"}, {"length", size->length_cm, "cm"},
                   {"width", size->width_cm, "cm"}, {"height", size->height_cm, "cm"})});
    build_band(made, made->value * (1 - error), made->value * (1 + error));
    return made->value;
}

/* What the labels of its heaters say together; 0 where one of them is not written. */
static double own_power_w(const struct visit_enclosure *box)
{
    double sum_w = 0;
    for (size_t i = 0; i < box->heat.count; i++) {
        const struct visit_heat *one = LIST_AT(box->heat, struct visit_heat, i);
        if (!one->power_w.known)
            return 0;
        sum_w += one->power_w.value;
    }
    return sum_w;
}

bool heating_plan(struct care_build *b)
{
    struct heating_plan *plan = &b->plan->temperature.heating;
    const struct visit_enclosure *box = &b->in->visit->enclosure;
    struct heat_need need = {0};
    if (!build_is_finite(b, &box->wall_thickness_cm, "enclosure.wall-thickness"))
        return false;
    plan->own_w = own_power_w(box);
    plan->why_not = reason_against(b);
    if (plan->why_not)
        return true;
    if (!find_need(b, &need)) {
        plan->why_not = "unknown-material";
        return true;
    }
    if (need.high_c <= need.room_c) {
        plan->why_not = "room-warm-enough";
        return true;
    }
    double error = build_limit(b, "heat-error-percent") / 100;
    const struct heat_end least = {need.low_c, build_limit(b, "air-changes-low"),
                                   build_limit(b, "room-humidity-high-percent"),
                                   "heating.least_power_w", "heating.least_vapour_w"},
                          most = {need.high_c, build_limit(b, "air-changes-high"),
                                  build_limit(b, "room-humidity-low-percent"),
                                  "heating.most_power_w", "heating.most_vapour_w"};
    double low = power_w(b, &need, &least), high = power_w(b, &need, &most);
    plan->low_w = low * (1 - error);
    plan->high_w = high * (1 + error);
    plan->known = true;
    return true;
}
