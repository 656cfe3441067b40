/* The table of a species sheet's keys. */
#include "records/species.h"
#include "records/table.h"

const struct choice supplement_choices[] = {
    {"calcium", SUPPLEMENT_CALCIUM, "plain calcium powder"},
    {"calcium-d3", SUPPLEMENT_CALCIUM_D3, "calcium powder with vitamin D3"},
    {"multivitamin", SUPPLEMENT_MULTIVITAMIN, "a reptile multivitamin"},
    {"thiamine", SUPPLEMENT_THIAMINE, "vitamin B1, with fish that destroys it"},
    {0},
};

static const struct choice supplement_when_choices[] = {
    {"always", SUPPLEMENT_ALWAYS, NULL},
    {"with-uvb", SUPPLEMENT_WITH_UVB, "where a UVB lamp is on"},
    {"without-uvb", SUPPLEMENT_WITHOUT_UVB, "where there is none"},
    {0},
};

const struct choice brumation_choices[] = {
    {"never", BRUMATION_NEVER, "kept awake all winter"},
    {"after-check", BRUMATION_AFTER_CHECK, "only a healthy animal, after a check"},
    {0},
};

const struct choice law_choices[] = {
    {"local-permit", LAW_LOCAL_PERMIT, "some places ask for a permit"},
    {"trade-listed", LAW_TRADE_LISTED, "listed in the international trade convention"},
    {"protected-native", LAW_PROTECTED_NATIVE, "protected where it lives wild"},
    {"invasive", LAW_INVASIVE, "keeping or selling is limited in some places"},
    {"large-animal", LAW_LARGE_ANIMAL, "large constrictors and lizards may need a licence"},
    {"small-turtle-sale", LAW_SMALL_TURTLE_SALE, "small turtles may not be sold in some countries"},
    {0},
};

static const struct field stage_fields[] = {
    ROW(CHOICE, species_feeding_stage, stage, "stage", .choices = stage_choices, .required = true,
        .help = "the life stage", .example = "juvenile"),
    ROW(QUANTITY, species_feeding_stage, until_age_days, "until-age", IN(DURATION, 1, 40000),
        .help = "the stage ends at this age", .example = "12 months"),
    ROW(QUANTITY, species_feeding_stage, until_length_cm, "until-length", IN(LENGTH, 0.1, 1000),
        .help = "or at this length", .example = "90 cm"),
    ROW(QUANTITY, species_feeding_stage, until_mass_g, "until-mass", IN(MASS, 0.1, 300000),
        .help = "or at this mass", .example = "500 g"),
    ROW(RECORD, species_feeding_stage, meal_percent, "meal", .schema = &sourced_percent_schema,
        .help = "mass of one meal as a share of body mass"),
    ROW(RECORD, species_feeding_stage, insects, "insects", .schema = &sourced_pieces_schema,
        .help = "insects a meal"),
    ROW(RECORD, species_feeding_stage, insects_every_days, "insects-every",
        .schema = &sourced_duration_schema,
        .help = "time between meals of insects, where they stand beside other food"),
    ROW(RECORD, species_feeding_stage, plant_share_percent, "plant-share",
        .schema = &sourced_percent_schema, .help = "share of plants in what is eaten"),
    ROW(RECORD, species_feeding_stage, every_days, "every", .schema = &sourced_duration_schema,
        .required = true, .help = "time between meals (of animals, where plants are eaten daily)"),
    ROW(TEXTS, species_feeding_stage, foods, "foods", .required = true, .most = 12,
        .help = "codes of foods in the reference values", .example = "[mouse]"),
};

static const struct schema stage_schema =
    SCHEMA(species_feeding_stage, stage_fields, "feeding stage", "One life stage's feeding.",
           MARKED(species_feeding_stage, at));

static const struct field supplement_fields[] = {
    ROW(CHOICE, species_supplement, what, "what", .choices = supplement_choices, .required = true,
        .help = "the supplement", .example = "calcium"),
    ROW(CHOICES, species_supplement, stages, "stages", .choices = stage_choices, .most = 4,
        .help = "the stages that get it; all when left out", .example = "[juvenile]"),
    ROW(CHOICE, species_supplement, when, "when", .choices = supplement_when_choices,
        .required = true, .help = "with or without a UVB lamp", .example = "always"),
    ROW(RECORD, species_supplement, per_week, "per-week", .schema = &sourced_often_schema,
        .help = "times a week"),
    ROW(RECORD, species_supplement, every_meals, "every-meals", .schema = &sourced_often_schema,
        .help = "or with every n-th meal"),
};

static const struct schema supplement_schema =
    SCHEMA(species_supplement, supplement_fields, "supplement", "What is dusted, and how often.",
           MARKED(species_supplement, at));

#define CITED(member_, key_, kind_, ...)                                                           \
    ROW(RECORD, species, member_, key_, .schema = &sourced_##kind_##_schema, __VA_ARGS__)

static const struct field name_fields[] = {
    ROW(TEXT, species, code, "code", .required = true, .help = "equal to the file's name",
        .example = "ball-python"),
    ROW(TEXT, species, scientific, "scientific", .required = true, .help = "the scientific name",
        .example = "Python regius"),
    ROW(NAMED, species, names, "names", .schema = &named_text_schema, .required = true,
        .help = "the common name by language", .example = "{en: ball python, es: pitón bola}"),
    ROW(TEXTS, species, also, "also", .most = 12, .help = "other names it is looked up by"),
    ROW(CHOICE, species, group, "group", .choices = group_choices, .required = true,
        .help = "the kind of animal", .example = "snake"),
    ROW(CHOICE, species, habit, "habit", .choices = habit_choices, .required = true,
        .help = "where it lives", .example = "terrestrial"),
    ROW(CHOICES, species, traits, "traits", .choices = trait_choices, .required = true,
        .help = "what it has; decides which findings make sense"),
    ROW(CHOICE, species, brumation, "brumation", .choices = brumation_choices, .required = true,
        .help = "winter rest", .example = "never"),
    CITED(brumation_least_age_days, "brumation-least-age", duration,
          .help = "no winter rest before this age"),
    ROW(CHOICE, species, reproduction, "reproduction", .choices = reproduction_choices,
        .required = true, .help = "lays eggs or bears young", .example = "egg-layer"),
    ROW(FLAG, species, jackson_ratio, "length-mass-ratio",
        .help = "the tortoise length-mass ratio applies (Testudo graeca and T. hermanni alone)"),
};
static const struct schema name_schema =
    SCHEMA(species, name_fields, "species", "What animal this is.");

/* A measured quantity's target, by its dimension. */
#define SCHEMA_OF_TEMPERATURE sourced_temperature_schema
#define SCHEMA_OF_CONCENTRATION sourced_concentration_schema
#define SCHEMA_OF_PH sourced_ph_schema
#define SCHEMA_OF_HARDNESS sourced_hardness_schema
#define SHEET_ROW(name_, id_, dimension_, low_, high_, example_, aim_low_, aim_high_, aim_,        \
                  error_, help_)                                                                   \
    ROW(RECORD, species, measured[MEASURE_##name_], id_, .schema = &SCHEMA_OF_##dimension_,        \
        .help = help_),

static const struct field temperature_fields[] = {
    PLACE_MEASURES(SHEET_ROW) CITED(preferred_air, "preferred-air", temperature,
                                    .help = "preferred zone (POTZ), as air to choose from"),
    CITED(preferred_body, "preferred-body", temperature,
          .help = "body temperature that it selects; never a target for air"),
    CITED(upper_limit, "upper-limit", temperature, .help = "never warmer than this"),
    CITED(night_drop, "night-drop", count,
          .help = "usual drop at night, in degrees C of difference"),
};
static const struct schema temperature_schema =
    SCHEMA(species, temperature_fields, "temperature", "Temperature zones.");

static const struct field humidity_fields[] = {
    CITED(measured[MEASURE_HUMIDITY], "range", percent,
          .help = "relative humidity at the cool side"),
    CITED(humidity_shed_percent, "in-shed", percent, .help = "while a shed is near"),
    CITED(least_humidity_percent, "least-humidity", percent,
          .help = "never drier, not even where a sore asks for dry air"),
    ROW(FLAG, species, moist_hide, "moist-hide", .help = "a moist hide stands ready at all times"),
};
static const struct schema humidity_schema =
    SCHEMA(species, humidity_fields, "humidity", "Moisture of the air.");

static const struct field water_fields[] = {
    KIT_MEASURES(SHEET_ROW) GAS_MEASURES(SHEET_ROW)
        CITED(water_change_percent, "change-share", percent, .help = "of the water, each time"),
    CITED(water_change_days, "change-every", duration, .help = "time between changes"),
    CITED(unfiltered_change_percent, "unfiltered-share", percent, .help = "without a filter"),
    CITED(unfiltered_change_days, "unfiltered-every", duration, .help = "without a filter"),
    CITED(least_depth_times, "least-depth-times", times,
          .help = "depth of the water / animal's length, at least"),
    CITED(most_depth_times, "most-depth-times", times, .help = "and at most"),
};
static const struct schema water_schema =
    SCHEMA(species, water_fields, "water", "The water it lives in.");

static const struct field light_fields[] = {
    ROW(FLAG, species, needs_uvb, "uvb", .required = true, .help = "UVB light is offered",
        .example = "yes"),
    CITED(ferguson_zone, "ferguson-zone", zone, .help = "UV exposure zone, 1 to 4"),
    CITED(hours_summer, "hours-summer", hours, .required = true, .help = "light a day in summer"),
    CITED(hours_winter, "hours-winter", hours, .required = true, .help = "light a day in winter"),
};
static const struct schema light_schema = SCHEMA(species, light_fields, "light", "Light and UVB.");

static const struct field feeding_fields[] = {
    ROW(CHOICE, species, diet, "diet", .choices = diet_choices, .required = true,
        .help = "what it eats", .example = "whole-prey"),
    ROW(RECORDS, species, feeding, "stages", .schema = &stage_schema, .required = true, .most = 4,
        .help = "by life stage, youngest first"),
    ROW(RECORDS, species, supplements, "supplements", .schema = &supplement_schema, .most = 12,
        .help = "what is added to the food"),
    CITED(no_food_days, "longest-fast", duration,
          .help = "longest normal fast, grown, steady weight"),
    CITED(no_food_young_days, "longest-fast-young", duration,
          .help = "the same for a young animal"),
    CITED(no_stool_days, "longest-without-stool", duration,
          .help = "longest normal time without stool"),
};
static const struct schema feeding_schema =
    SCHEMA(species, feeding_fields, "feeding", "Food, sizes and times.");

static const struct field size_fields[] = {
    CITED(adult_length_cm, "adult-length", length, .required = true,
          .help = "snake, salamander: total; lizard, frog: snout to vent; tortoise, turtle: shell"),
    CITED(adult_mass_g, "adult-mass", mass, .help = "grown animal"),
    CITED(hatchling_mass_g, "hatchling-mass", mass, .help = "at hatching or birth"),
    CITED(longest_life_days, "longest-life", duration,
          .help = "record age; bounds what is plausible"),
    ROW(BAND, species, plausible_mass_g, "plausible-mass", IN(MASS, 0.1, 300000), .required = true,
        .help = "a mass outside is put to the veterinarian; a bound of ours, not a care value",
        .example = "30-4000 g"),
    ROW(BAND, species, plausible_length_cm, "plausible-length", IN(LENGTH, 0.5, 1000),
        .required = true, .help = "likewise for the length", .example = "20-200 cm"),
};
static const struct schema size_schema =
    SCHEMA(species, size_fields, "size", "How large it grows.");

static const struct field nest_fields[] = {
    ROW(CHOICE, species, nest_kind, "kind", .choices = nest_choices, .required = true,
        .help = "where a gravid female lays or bears", .example = "soil-box"),
    CITED(nest_depth_cm, "depth", length, .help = "depth of what she digs in"),
};
static const struct schema nest_schema =
    SCHEMA(species, nest_fields, "nest", "What a gravid female needs.");

static const struct field enclosure_fields[] = {
    CITED(enclosure_length_times, "length-times", times,
          .help = "length of the box / animal's length"),
    CITED(enclosure_width_times, "width-times", times,
          .help = "width of the box / animal's length"),
    CITED(enclosure_height_times, "height-times", times,
          .help = "height of the box / animal's length"),
    CITED(enclosure_height_plus_cm, "height-plus", length,
          .help = "added to that height, such as air over water"),
    ROW(BOX, species, enclosure_least, "least", IN(LENGTH, 1, 2000),
        .help = "least size for a grown animal", .example = "120 x 60 x 60 cm"),
    ROW(TEXT, species, enclosure_least_source, "least-source", .help = "an id of the sources"),
    ROW(CHOICE, species, enclosure_least_trust, "least-trust", .choices = trust_choices,
        .help = "how that source was read"),
};
static const struct schema enclosure_schema =
    SCHEMA(species, enclosure_fields, "enclosure", "The least size of the box.");

static const struct field reviewed_fields[] = {
    ROW(TEXT, reviewed_value, value, "value", .required = true, .is_made = true,
        .help = "the value as it was confirmed", .example = "30-32 C"),
    ROW(TEXT, reviewed_value, by, "by", .required = true, .is_made = true, .help = "who confirmed",
        .example = "Dr Ines Calder"),
    ROW(DATE, reviewed_value, on, "on", .required = true, .is_made = true, .help = "the day",
        .example = "2026-03-14"),
    ROW(TEXT, reviewed_value, edition, "edition", .is_made = true, .help = "what was consulted"),
    ROW(TEXT, reviewed_value, reason, "reason", .is_made = true, .help = "why it was changed"),
    ROW(TEXT, reviewed_value, ours, "ours", .is_made = true,
        .help =
            "digest of the shipped value of that day: when it changes, the value is open again"),
};
static const struct schema reviewed_schema =
    SCHEMA(reviewed_value, reviewed_fields, "confirmed value",
           "A value that the clinic's veterinarian confirmed; 'baskleaf review' writes it.");

static const struct field sheet_fields[] = {
    {.key = "species",
     .kind = FIELD_RECORD,
     .schema = &name_schema,
     .required = true,
     .help = "What animal this is."},
    {.key = "temperature",
     .kind = FIELD_RECORD,
     .schema = &temperature_schema,
     .required = true,
     .help = "Temperature zones."},
    {.key = "humidity",
     .kind = FIELD_RECORD,
     .schema = &humidity_schema,
     .help = "Moisture of the air; left out for an animal that never leaves the water."},
    {.key = "water",
     .kind = FIELD_RECORD,
     .schema = &water_schema,
     .help = "The water, of an animal that lives in it."},
    {.key = "light",
     .kind = FIELD_RECORD,
     .schema = &light_schema,
     .required = true,
     .help = "Light and UVB."},
    {.key = "feeding",
     .kind = FIELD_RECORD,
     .schema = &feeding_schema,
     .required = true,
     .help = "Food, sizes and times."},
    {.key = "size",
     .kind = FIELD_RECORD,
     .schema = &size_schema,
     .required = true,
     .help = "How large it grows."},
    {.key = "nest",
     .kind = FIELD_RECORD,
     .schema = &nest_schema,
     .required = true,
     .help = "What a gravid female needs."},
    {.key = "enclosure",
     .kind = FIELD_RECORD,
     .schema = &enclosure_schema,
     .required = true,
     .help = "The least size of the box."},
    ROW(TEXTS, species, normal, "normal", .required = true, .most = 24,
        .help =
            "what is normal for it and often taken for illness; codes worded in the wording files"),
    ROW(TEXTS, species, warnings, "warnings", .required = true, .most = 24,
        .help = "its own warning signs; codes of warning-signs.yaml"),
    ROW(CHOICES, species, law, "law", .choices = law_choices, .required = true, .most = 6,
        .help = "which cautions on law and permits apply", .example = "[local-permit]"),
    ROW(NAMED, species, sources, "sources", .schema = &named_text_schema, .required = true,
        .most = 120, .help = "what the ids of sources stand for"),
    ROW(NAMED, species, reviewed, "reviewed", .schema = &reviewed_schema,
        .help = "on the clinic's own sheet: what its veterinarian confirmed, by the value's key"),
};

const struct schema species_schema =
    SCHEMA(species, sheet_fields, "species sheet", "Published care values of one species.");
