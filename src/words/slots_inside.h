/* Inside words/: what the getters of slots share, and those that stand in a file of their own. Not
 * for other layers. */
#ifndef BASKLEAF_WORDS_SLOTS_INSIDE_H
#define BASKLEAF_WORDS_SLOTS_INSIDE_H

#include "words/slots.h"

#define PLAN (ctx->plan)
#define FORMAT (&ctx->format)

/* Gives the text, or says that there is none. */
static inline bool give(struct slot_value *out, const char *text)
{
    if (!text)
        return false;
    *out = (struct slot_value){.text = text};
    return true;
}

static inline bool give_number(struct slot_value *out, const char *text, double number)
{
    *out = (struct slot_value){text, true, number};
    return true;
}

typedef bool slot_getter(const struct phrase_context *ctx, struct slot_value *out);

/* The text, if any, and the lines, with commas between them; NULL for nothing. */
const char *slots_join_lines(const struct phrase_context *ctx, const char *text,
                             const char *const *lines, size_t count);

/* slots_measured.c: "the cool end at night" where the night has an end of its own for the warm
 * place, else the quantity's plain name. */
bool slots_night_has_two_ends(const struct care_plan *plan);
const char *slots_plain_place(const struct phrase_context *ctx, enum measure_id measure);
/* A quantity's value, and the getter and the quantity that a name such as
 * "warm-side.change" stands for; NULL when it is none. */
typedef bool slots_measured_getter(const struct phrase_context *ctx, enum measure_id measure,
                                   struct slot_value *out);
slots_measured_getter slots_measured_target;
slots_measured_getter slots_measured_reading;
slots_measured_getter *slots_find_measured(const char *name, enum measure_id *measure);
/* ".target", ".reading" ...; NULL behind the last. */
const char *slots_measured_part(size_t place);

/* slots_change.c */
slot_getter weight_change;
slot_getter weight_lost;
slot_getter weight_gained;
slot_getter weight_means;
slot_getter plant_share, plant_part;
slot_getter night_end, night_warm_end;
slot_getter heating_power, heating_too_weak, heat_missing, heat_cool_there, wake_warm;
slot_getter weight_next;

/* slots_home.c */
slot_getter chytrid_product;
slot_getter chytrid_seconds;
slot_getter ranavirus_product;
slot_getter ranavirus_seconds;
slot_getter cryptosporidium_product;
slot_getter company_mates;
slot_getter company_other_kinds;
slot_getter company_housed;
slot_getter company_others;
slot_getter aftercare_dry_from;
slot_getter aftercare_dry_to;
slot_getter company_tub;
slot_getter water_tub;
slot_getter bandage_medicine;
slot_getter nest_depth;
slot_getter nest_rim;
slot_getter aftercare_dry_until;
slot_getter aftercare_next_tube, aftercare_tube_days;
slot_getter lamp_age;
slot_getter lamp_hangs;
slot_getter lamp_old_age;
slot_getter uvb_background;
slot_getter uvb_distance;
slot_getter uvb_low_distance;
slot_getter uvb_mesh_distance;
slot_getter uvb_low_now;
slot_getter uvb_unreliable;
slot_getter uvb_nearest;
slot_getter uvb_off_call;
slot_getter uvb_farthest;
slot_getter uvb_change;
slot_getter lamp_due;
slot_getter light_hours;
slot_getter light_plain_hours;

#endif
