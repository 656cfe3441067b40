/* The trade's terms that several records share, as numbers with their words. */
#ifndef BASKLEAF_RECORDS_TERMS_H
#define BASKLEAF_RECORDS_TERMS_H

#include "yaml/bind.h"

enum group {
    GROUP_SNAKE,
    GROUP_LIZARD,
    GROUP_TORTOISE,
    GROUP_TURTLE,
    GROUP_FROG,
    GROUP_SALAMANDER,
    GROUP_COUNT
};
enum habit { HABIT_TERRESTRIAL, HABIT_ARBOREAL, HABIT_SEMI_AQUATIC, HABIT_AQUATIC };
enum zone {
    ZONE_BASKING_SURFACE,
    ZONE_WARM_SIDE,
    ZONE_COOL_SIDE,
    ZONE_NIGHT,
    ZONE_NIGHT_WARM_SIDE,
    ZONE_WATER,
    ZONE_COUNT
};
enum stage { STAGE_HATCHLING, STAGE_JUVENILE, STAGE_SUBADULT, STAGE_ADULT, STAGE_COUNT };
enum sex { SEX_UNKNOWN, SEX_FEMALE, SEX_MALE };
enum severity { SEVERITY_NORMAL, SEVERITY_MILD, SEVERITY_MODERATE, SEVERITY_SEVERE };
enum tier { TIER_NOW, TIER_TODAY, TIER_SOON, TIER_COUNT };
enum lamp_kind {
    LAMP_TUBE,
    LAMP_COMPACT,
    LAMP_MERCURY_VAPOUR,
    LAMP_METAL_HALIDE,
    LAMP_LED,
    LAMP_NONE
};
enum unit_system { UNITS_METRIC, UNITS_US };
enum diet_kind {
    DIET_WHOLE_PREY,
    DIET_INSECTS,
    DIET_MIXED,
    DIET_PLANTS,
    DIET_FRUIT_MIX,
    DIET_AQUATIC
};

enum reproduction { REPRODUCTION_EGG_LAYER, REPRODUCTION_LIVE_BEARER };
/* Where a gravid female lays or bears. */
enum nest_kind {
    NEST_NONE,
    NEST_DRY_HIDE,
    NEST_DARK_MOSS_BOX,
    NEST_MOSS_BOX,
    NEST_SOIL_BOX,
    NEST_FLOOR_BIN,
    NEST_SOIL_PEN,
    NEST_LAND_AREA,
    NEST_HOLLOW
};

/* What a species has or is; findings can need one (a retained spectacle needs
 * spectacles), and the sheet says which are normal. */
enum trait {
    TRAIT_SPECTACLES,
    TRAIT_EYELIDS,
    TRAIT_HEAT_PITS,
    TRAIT_SPURS,
    TRAIT_SHELL,
    TRAIT_SCALES,
    TRAIT_BARE_SKIN,
    TRAIT_GILLS,
    TRAIT_LIMBS,
    TRAIT_DROPS_TAIL,
    TRAIT_CLAWS,
    TRAIT_BEAK,
    TRAIT_CREST,
    TRAIT_EATS_SHED,
    TRAIT_NIGHT_ACTIVE,
    TRAIT_DRINKS_DROPS,
    TRAIT_BURROWS,
    TRAIT_TRULY_AQUATIC,
    TRAIT_STORES_FAT_IN_TAIL,
    TRAIT_UNHEATED
};

extern const struct choice group_choices[], habit_choices[], zone_choices[], stage_choices[],
    sex_choices[], severity_choices[], tier_choices[], lamp_choices[], unit_system_choices[],
    diet_choices[], trait_choices[], reproduction_choices[], nest_choices[];

#endif
