/* The words of each shared term, as they stand in files. */
#include "records/terms.h"

const struct choice group_choices[] = {
    {"snake", GROUP_SNAKE, NULL},
    {"lizard", GROUP_LIZARD, NULL},
    {"tortoise", GROUP_TORTOISE, NULL},
    {"turtle", GROUP_TURTLE, NULL},
    {"frog", GROUP_FROG, NULL},
    {"salamander", GROUP_SALAMANDER, NULL},
    {0},
};

const struct choice habit_choices[] = {
    {"terrestrial", HABIT_TERRESTRIAL, "lives on the ground or burrows"},
    {"arboreal", HABIT_ARBOREAL, "climbs"},
    {"semi-aquatic", HABIT_SEMI_AQUATIC, "swims and basks"},
    {"aquatic", HABIT_AQUATIC, "never leaves the water"},
    {0},
};

const struct choice zone_choices[] = {
    {"basking-surface", ZONE_BASKING_SURFACE, "the surface under the basking lamp"},
    {"warm-side", ZONE_WARM_SIDE, "air at the warm side by day"},
    {"cool-side", ZONE_COOL_SIDE, "air at the cool side by day"},
    {"night", ZONE_NIGHT, "lowest air at night"},
    {"night-warm-side", ZONE_NIGHT_WARM_SIDE, "the warm place at night"},
    {"water", ZONE_WATER, "the water the animal lives in"},
    {0},
};

const struct choice stage_choices[] = {
    {"hatchling", STAGE_HATCHLING, NULL},
    {"juvenile", STAGE_JUVENILE, NULL},
    {"subadult", STAGE_SUBADULT, NULL},
    {"adult", STAGE_ADULT, NULL},
    {0},
};

const struct choice sex_choices[] = {
    {"female", SEX_FEMALE, NULL}, {"male", SEX_MALE, NULL}, {"unknown", SEX_UNKNOWN, NULL}, {0}};

const struct choice severity_choices[] = {
    {"normal", SEVERITY_NORMAL, "looked at and found well"},
    {"mild", SEVERITY_MILD, NULL},
    {"moderate", SEVERITY_MODERATE, NULL},
    {"severe", SEVERITY_SEVERE, NULL},
    {0},
};

const struct choice tier_choices[] = {
    {"now", TIER_NOW, "go now"},
    {"today", TIER_TODAY, "call today"},
    {"soon", TIER_SOON, "mention soon"},
    {0},
};

const struct choice lamp_choices[] = {
    {"tube", LAMP_TUBE, "a fluorescent tube"},
    {"compact", LAMP_COMPACT, "a compact fluorescent lamp"},
    {"mercury-vapour", LAMP_MERCURY_VAPOUR, "a mercury vapour lamp"},
    {"metal-halide", LAMP_METAL_HALIDE, "a metal halide lamp"},
    {"led", LAMP_LED, "an LED lamp that gives UVB"},
    {"none", LAMP_NONE, "no UVB lamp"},
    {0},
};

const struct choice unit_system_choices[] = {
    {"metric", UNITS_METRIC, "C, cm, g"}, {"us", UNITS_US, "F, in, oz and lb"}, {0}};

const struct choice diet_choices[] = {
    {"whole-prey", DIET_WHOLE_PREY, "whole animals, thawed"},
    {"insects", DIET_INSECTS, "insects and other invertebrates"},
    {"mixed", DIET_MIXED, "animals and plants"},
    {"plants", DIET_PLANTS, "plants alone"},
    {"fruit-mix", DIET_FRUIT_MIX, "a complete fruit mix and insects"},
    {"aquatic", DIET_AQUATIC, "fish, worms and pellets in water"},
    {0},
};

const struct choice trait_choices[] = {
    {"spectacles", TRAIT_SPECTACLES, "a clear scale over each eye, no eyelids"},
    {"eyelids", TRAIT_EYELIDS, NULL},
    {"heat-pits", TRAIT_HEAT_PITS, NULL},
    {"spurs", TRAIT_SPURS, NULL},
    {"shell", TRAIT_SHELL, NULL},
    {"scales", TRAIT_SCALES, NULL},
    {"bare-skin", TRAIT_BARE_SKIN, "amphibian skin"},
    {"gills", TRAIT_GILLS, NULL},
    {"limbs", TRAIT_LIMBS, NULL},
    {"drops-tail", TRAIT_DROPS_TAIL, NULL},
    {"claws", TRAIT_CLAWS, NULL},
    {"beak", TRAIT_BEAK, NULL},
    {"crest", TRAIT_CREST, NULL},
    {"eats-shed", TRAIT_EATS_SHED, NULL},
    {"night-active", TRAIT_NIGHT_ACTIVE, NULL},
    {"drinks-drops", TRAIT_DRINKS_DROPS, "licks drops off leaves and does not know a bowl"},
    {"burrows", TRAIT_BURROWS, "digs itself in; never on a bare floor"},
    {"truly-aquatic", TRAIT_TRULY_AQUATIC, "is never kept dry for hours"},
    {"stores-fat-in-tail", TRAIT_STORES_FAT_IN_TAIL, NULL},
    {"unheated", TRAIT_UNHEATED, "lives at the room's temperature or below it"},
    {0},
};

const struct choice reproduction_choices[] = {
    {"egg-layer", REPRODUCTION_EGG_LAYER, NULL},
    {"live-bearer", REPRODUCTION_LIVE_BEARER, NULL},
    {0},
};

const struct choice nest_choices[] = {
    {"none", NEST_NONE, "needs none on land, or is not bred at home"},
    {"dry-hide", NEST_DRY_HIDE, "a warm dry hide, no soil: for a live-bearer"},
    {"dark-moss-box", NEST_DARK_MOSS_BOX, "a warm dark box with damp moss"},
    {"moss-box", NEST_MOSS_BOX, "a box of damp moss or vermiculite"},
    {"soil-box", NEST_SOIL_BOX, "a box of damp soil or sand to dig in"},
    {"floor-bin", NEST_FLOOR_BIN, "a bin of damp sand or soil on the cage floor"},
    {"soil-pen", NEST_SOIL_PEN, "a part of the pen with deep warm soil"},
    {"land-area", NEST_LAND_AREA, "land with deep soil beside the water"},
    {"hollow", NEST_HOLLOW, "a hollow tube or piece of bark, where the eggs stay"},
    {0},
};
