/* Tables and reading of reference-values.yaml and foods.yaml; finding a lamp, a food or a limit. */
#include "records/reference_values.h"

#include <stdlib.h>
#include <string.h>

#include "base/file.h"
#include "base/nearest.h"
#include "base/same_text.h"
#include "records/measures.h"
#include "records/opening.h"
#include "records/shipped_files.h"
#include "records/table.h"
#include "records/whom.h"

static const struct choice food_kind_choices[] = {{"prey", FOOD_PREY, "whole animals"},
                                                  {"insect", FOOD_INSECT, "insects and worms"},
                                                  {"plant", FOOD_PLANT, NULL},
                                                  {"fish", FOOD_FISH, NULL},
                                                  {"prepared", FOOD_PREPARED, "pellets and mixes"},
                                                  {0}};

const struct choice food_class_choices[] = {
    {"staple", FOOD_STAPLE, "most of its plants"},
    {"now-and-then", FOOD_NOW_AND_THEN, "a part, not every day"},
    {"treat", FOOD_TREAT, "a bite"},
    {0}};
static const struct choice food_flag_choices[] = {
    {"oxalate", FOOD_OXALATE, "binds its calcium"},
    {"goitrogen", FOOD_GOITROGEN, "not alone: the thyroid needs iodine"},
    {0}};
const struct choice never_reason_choices[] = {
    {"poison", NEVER_POISON, NULL},
    {"thiaminase", NEVER_THIAMINASE, "fish that destroys vitamin B1"},
    {"unfit", NEVER_UNFIT, "no food for it"},
    {0}};

static const struct field zone_fields[] = {
    ROW(RECORD, uv_zone_reference, mean_uvi, "mean", .schema = &sourced_uvi_schema,
        .required = true, .help = "over the day: the background of its box"),
    ROW(RECORD, uv_zone_reference, most_uvi, "most", .schema = &sourced_uvi_schema,
        .required = true, .help = "the strongest spot"),
};
static const struct schema zone_schema =
    SCHEMA(uv_zone_reference, zone_fields, "UV zone", "A UV exposure zone.");

static const struct choice uv_limit_choices[] = {
    {"maximum", UV_LIMIT_MOST, "the upper end of the zone's maximum"},
    {"least-maximum", UV_LIMIT_LEAST_MOST, "the lower end of the zone's maximum"},
    {"mean", UV_LIMIT_MEAN, "the upper end of the zone's mean"},
    {0}};
static const struct choice uv_start_choices[] = {
    {"between", UV_START_BETWEEN, "between the zone's mean and where its maximum begins"},
    {"low", UV_START_LOW, "the middle of the zone's mean"},
    {0}};
static const struct field uv_use_fields[] = {
    WHOM_ROWS(uv_use),
    ROW(CHOICE, uv_use, limit, "limit", .choices = uv_limit_choices, .required = true,
        .help = "at the basking place, too strong above"),
    ROW(CHOICE, uv_use, start, "start", .choices = uv_start_choices, .required = true,
        .help = "what the lamp is hung for"),
    ROW(TEXT, uv_use, because, "because", .required = true, .help = "why so"),
    ROW(TEXT, uv_use, source, "source", .required = true, .help = "id of one of the sources"),
    ROW(CHOICE, uv_use, trust, "trust", .choices = trust_choices, .required = true,
        .help = "how the source was read"),
};
static const struct schema uv_use_schema =
    SCHEMA(uv_use, uv_use_fields, "use of UV zones", "How a zone is used at the basking place.");

static const struct field lamp_fact_fields[] = {
    ROW(RECORD, lamp_reference, life_days, "life", .schema = &sourced_duration_schema,
        .required = true, .help = "change after"),
    ROW(FLAG, lamp_reference, reliable, "reliable",
        .help = "no: without a meter's reading it counts as giving no UVB; yes when left out"),
};
static const struct schema lamp_fact_schema =
    SCHEMA(lamp_reference, lamp_fact_fields, "lamp", "A kind of lamp.");

static const struct field food_size_fields[] = {
    ROW(RECORD, food_size, mass_g, "mass", .schema = &sourced_mass_schema, .required = true,
        .help = "mass of one"),
    ROW(RECORD, food_size, kcal_per_g, "energy", .schema = &sourced_count_schema,
        .help = "kcal per g as fed"),
};
static const struct schema food_size_schema =
    SCHEMA(food_size, food_size_fields, "food size", "One size of a food.");

static const struct field minerals_fields[] = {
    ROW(QUANTITY, food_minerals, calcium_mg, "calcium", IN(COUNT, 0, 20000), .required = true,
        .help = "mg in 100 g as fed"),
    ROW(QUANTITY, food_minerals, phosphorus_mg, "phosphorus", IN(COUNT, 0.1, 20000),
        .required = true, .help = "mg in 100 g as fed"),
    ROW(TEXT, food_minerals, row, "row", .required = true, .help = "of the source: a food code"),
    ROW(TEXT, food_minerals, source, "source", .required = true,
        .help = "id of one of the sources"),
    ROW(CHOICE, food_minerals, trust, "trust", .choices = trust_choices, .required = true,
        .help = "how the source was read"),
};
static const struct schema minerals_schema =
    SCHEMA(food_minerals, minerals_fields, "minerals", "Calcium and phosphorus, mg in 100 g.");

static const struct field food_fields[] = {
    ROW(CHOICE, food, kind, "kind", .choices = food_kind_choices, .required = true,
        .help = "what kind of food"),
    ROW(TEXT, food, like, "like",
        .help = "for species that are fed this: one of the foods of species sheets"),
    ROW(CHOICE, food, at_most, "at-most", .choices = food_class_choices,
        .help = "no better than this, whatever its minerals say"),
    ROW(CHOICES, food, flags, "flags", .choices = food_flag_choices, .help = "what speaks against"),
    ROW(FLAG, food, lies_there, "lies-there",
        .help =
            "dry, it lies there at all times: a mass of a meal is of what is put down beside it",
        .example = "yes"),
    ROW(TEXTS, food, not_with, "not-with", .most = 8,
        .help = "findings: while one of them is on the record it is left out"),
    ROW(RECORD, food, minerals, "mg-per-100-g", .schema = &minerals_schema,
        .help = "calcium and phosphorus as fed"),
    ROW(NAMED, food, sizes, "sizes", .schema = &food_size_schema, .most = 12,
        .help = "by name, smallest first"),
    ROW(RECORD, food, kcal_per_g, "energy", .schema = &sourced_count_schema,
        .help = "kcal per g as fed"),
    ROW(RECORD, food, calcium_to_phosphorus, "calcium-to-phosphorus",
        .schema = &sourced_count_schema, .help = "Ca / P, undusted"),
};
static const struct schema food_schema =
    SCHEMA(food, food_fields, "food", "Something that is fed.");

static const struct field material_fields[] = {
    ROW(RECORD, material_reference, lambda_w_mk, "lambda", .schema = &sourced_count_schema,
        .required = true, .help = "heat conductivity, W/(m K)"),
    ROW(RECORD, material_reference, thickness_cm, "thickness", .schema = &sourced_length_schema,
        .required = true, .help = "usual thickness"),
};
static const struct schema material_schema =
    SCHEMA(material_reference, material_fields, "material", "What a box is made of.");

static const struct field emptying_fields[] = {
    ROW(QUANTITY, rest_emptying, up_to_g, "up-to", IN(MASS, 1, 1000000),
        .help = "no heavier than this; any mass when left out", .example = "1 kg"),
    ROW(RECORD, rest_emptying, days, "time", .schema = &sourced_duration_schema, .required = true,
        .help = "from the last meal to the rest; the longer end is taken"),
};
static const struct schema emptying_schema =
    SCHEMA(rest_emptying, emptying_fields, "emptying", "How long the gut empties.");

static const struct field winter_rest_fields[] = {
    ROW(TEXTS, winter_rest_reference, species, "species", .required = true, .most = 60,
        .help = "codes"),
    ROW(RECORD, winter_rest_reference, rest_c, "temperature", .schema = &sourced_temperature_schema,
        .help = "where it rests"),
    ROW(RECORDS, winter_rest_reference, emptying, "emptying", .schema = &emptying_schema, .most = 8,
        .help = "by mass, lightest first"),
    ROW(RECORD, winter_rest_reference, first_days, "first", .schema = &sourced_duration_schema,
        .help = "no longer, of a young animal or a first rest"),
    ROW(RECORD, winter_rest_reference, longest_days, "longest", .schema = &sourced_duration_schema,
        .help = "no longer, of one that has rested before"),
};
static const struct schema winter_rest_schema =
    SCHEMA(winter_rest_reference, winter_rest_fields, "winter rest",
           "How one kind of animal rests in winter.");

static const struct field hides_fields[] = {
    WHOM_ROWS(hides_reference),
    ROW(RECORD, hides_reference, least, "least", .schema = &sourced_count_schema, .required = true,
        .help = "at least so many"),
};
static const struct schema hides_schema =
    SCHEMA(hides_reference, hides_fields, "hides", "Places to hide that one kind of animal wants.");

static const struct field company_fields[] = {
    WHOM_ROWS(company_reference),
    ROW(FLAG, company_reference, together, "together", .required = true,
        .help = "no: it lives alone"),
    ROW(RECORD, company_reference, two_times, "two-times", .schema = &sourced_count_schema,
        .help = "the floor of two, by that of one"),
    ROW(RECORD, company_reference, further_times, "further-times", .schema = &sourced_count_schema,
        .help = "what each further one adds, by that of one"),
    ROW(TEXT, company_reference, source, "source", .required = true,
        .help = "an id of the sources"),
    ROW(CHOICE, company_reference, trust, "trust", .choices = trust_choices, .required = true,
        .help = "how it was read"),
};
static const struct schema company_schema =
    SCHEMA(company_reference, company_fields, "company", "Who lives with its like.");

static const struct field outdoors_fields[] = {
    WHOM_ROWS(outdoors_reference),
    ROW(RECORD, outdoors_reference, morning_c, "morning", .schema = &sourced_temperature_schema,
        .required = true, .help = "no colder in the morning"),
    ROW(RECORD, outdoors_reference, midday_c, "midday", .schema = &sourced_temperature_schema,
        .required = true, .help = "nor at midday"),
};
static const struct schema outdoors_schema =
    SCHEMA(outdoors_reference, outdoors_fields, "outdoors", "How warm a day out must be.");

const struct choice disinfectant_choices[] = {
    {"ethanol", DISINFECTANT_ETHANOL, NULL},
    {"chlorhexidine", DISINFECTANT_CHLORHEXIDINE, NULL},
    {"peroxymonosulfate", DISINFECTANT_PEROXYMONOSULFATE, NULL},
    {"benzalkonium", DISINFECTANT_BENZALKONIUM, NULL},
    {"bleach", DISINFECTANT_BLEACH, "never at an amphibian's box"},
    {"steam", DISINFECTANT_STEAM, "or boiling water"},
    {0},
};

static const struct field disinfectant_fields[] = {
    ROW(CHOICES, disinfectant_reference, groups, "groups", .choices = group_choices,
        .required = true, .help = "whose boxes it is used at"),
    ROW(CHOICE, disinfectant_reference, product, "product", .choices = disinfectant_choices,
        .required = true, .help = "by its active part"),
    ROW(RECORD, disinfectant_reference, percent, "percent", .schema = &sourced_percent_schema,
        .help = "of the active part"),
    ROW(RECORD, disinfectant_reference, seconds, "seconds", .schema = &sourced_count_schema,
        .help = "at least so long on what is clean"),
    ROW(TEXT, disinfectant_reference, source, "source", .required = true,
        .help = "an id of the sources"),
    ROW(CHOICE, disinfectant_reference, trust, "trust", .choices = trust_choices, .required = true,
        .help = "how it was read"),
};
static const struct schema disinfectant_schema =
    SCHEMA(disinfectant_reference, disinfectant_fields, "disinfectant",
           "What kills the germ of one finding.", MARKED(disinfectant_reference, at));

static const struct field dose_clock_fields[] = {
    ROW(QUANTITY, dose_clock, every_h, "every", IN(INTERVAL, 2, 24), .required = true,
        .help = "time from one dose to the next", .example = "8 h"),
    ROW(TEXT, dose_clock, from, "from", .required = true,
        .help = "the first of a day, by the clock", .example = "6:00"),
    ROW(TEXT, dose_clock, source, "source", .required = true, .help = "an id of the sources"),
    ROW(CHOICE, dose_clock, trust, "trust", .choices = trust_choices, .required = true,
        .help = "how it was read"),
};
static const struct schema dose_clock_schema =
    SCHEMA(dose_clock, dose_clock_fields, "dose clock", "At which hours doses of a day are given.",
           MARKED(dose_clock, at));

static const struct field limit_fields[] = {
    ROW(RECORD, limit_reference, value, "value", .schema = &sourced_count_schema, .required = true,
        .help = "the number"),
};
static const struct schema limit_schema =
    SCHEMA(limit_reference, limit_fields, "limit", "A threshold of the computations.");

static const struct field reference_fields[] = {
    ROW(NAMED, reference_values, uv_zones, "uv-zones", .schema = &zone_schema, .required = true,
        .help = "by number"),
    ROW(RECORDS, reference_values, uv_uses, "uv-uses", .schema = &uv_use_schema, .required = true,
        .most = 12, .help = "the clinic's choice: the first row that fits"),
    ROW(NAMED, reference_values, lamps, "lamps", .schema = &lamp_fact_schema, .required = true,
        .help = "by kind"),
    ROW(NAMED, reference_values, materials, "materials", .schema = &material_schema,
        .required = true, .help = "by name"),
    ROW(NAMED, reference_values, winter_rests, "winter-rests", .schema = &winter_rest_schema,
        .help = "by kind of animal"),
    ROW(RECORDS, reference_values, hides, "hides", .schema = &hides_schema, .most = 20,
        .help = "the first row that fits an animal; without one none are asked for"),
    ROW(RECORDS, reference_values, outdoors, "outdoors", .schema = &outdoors_schema, .most = 20,
        .help = "the first row that fits an animal; without one it is the veterinarian's to say"),
    ROW(RECORDS, reference_values, company, "company", .schema = &company_schema, .most = 20,
        .help = "the first row that fits an animal"),
    ROW(NAMED, reference_values, disinfectants, "disinfectants", .schema = &disinfectant_schema,
        .help = "by finding"),
    ROW(RECORDS, reference_values, dose_clocks, "dose-clocks", .schema = &dose_clock_schema,
        .most = 12, .help = "of what is given more than twice a day; others say the part of a day"),
    ROW(NAMED, reference_values, limits, "limits", .schema = &limit_schema, .required = true,
        .help = "by name"),
    ROW(NAMED, reference_values, sources, "sources", .schema = &named_text_schema, .required = true,
        .most = 80, .help = "what the ids stand for"),
};
const struct schema reference_values_schema =
    SCHEMA(reference_values, reference_fields, "reference values",
           "Values that belong to no single species.", .shipped = &shipped_reference_values);

static const struct field food_rule_fields[] = {
    WHOM_ROWS(food_rule),
    ROW(CHOICES, food_rule, eats, "eats", .choices = food_kind_choices,
        .help = "species that are fed one of these; all when left out"),
    ROW(CHOICE, food_rule, because, "because", .choices = never_reason_choices,
        .help = "why never; unfit when left out"),
    ROW(FLAG, food_rule, when_given, "only-when-given",
        .help = "yes: named only where the keeper gives it"),
    ROW(TEXT, food_rule, source, "source", .required = true, .help = "id of one of the sources"),
    ROW(CHOICE, food_rule, trust, "trust", .choices = trust_choices, .required = true,
        .help = "how the source was read"),
};
static const struct schema food_rule_schema =
    SCHEMA(food_rule, food_rule_fields, "food rule", "What holds of the food of some animals.",
           MARKED(food_rule, at));

static const struct field balance_fields[] = {
    WHOM_ROWS(food_balance),
    ROW(BAND, food_balance, calcium_percent, "calcium", IN(PERCENT, 0.01, 20), .required = true,
        .help = "of dry matter", .example = "1.0-1.5 %"),
    ROW(BAND, food_balance, phosphorus_percent, "phosphorus", IN(PERCENT, 0.01, 20),
        .required = true, .help = "of dry matter", .example = "0.6-0.9 %"),
    ROW(TEXT, food_balance, source, "source", .required = true, .help = "id of one of the sources"),
    ROW(CHOICE, food_balance, trust, "trust", .choices = trust_choices, .required = true,
        .help = "how the source was read"),
};
static const struct schema balance_schema =
    SCHEMA(food_balance, balance_fields, "balance", "What the whole food holds.");

static const struct field foods_fields[] = {
    ROW(NAMED, reference_values, foods, "foods", .schema = &food_schema, .required = true,
        .most = 120, .help = "by code"),
    ROW(NAMED, reference_values, never_foods, "never", .schema = &food_rule_schema,
        .required = true, .help = "what must never be given, by code"),
    ROW(NAMED, reference_values, food_sizes, "sizes", .schema = &food_rule_schema, .required = true,
        .help = "how large a piece may be; the first that fits"),
    ROW(RECORDS, reference_values, balances, "balance", .schema = &balance_schema, .most = 20,
        .help = "calcium and phosphorus of the whole food; the first that fits"),
    ROW(NAMED, reference_values, food_sources, "sources", .schema = &named_text_schema,
        .required = true, .most = 80, .help = "what the ids stand for"),
};
const struct schema foods_schema =
    SCHEMA(reference_values, foods_fields, "foods", "What is fed, and to whom never.",
           .shipped = &shipped_foods);

static bool need_limit(const struct reference_values *reference, const char *name,
                       struct diag *diag)
{
    if (limit_find(reference, name))
        return true;
    struct mark at = {0};
    if (reference->uv_zones.count > 0 && reference->uv_zones.items)
        at = LIST_AT(reference->uv_zones, struct uv_zone_reference, 0)->name.at;
    if (reference->limits.count > 0 && reference->limits.items)
        at = LIST_AT(reference->limits, struct limit_reference, 0)->name.at;
    diag_report_path(diag, DIAG_ERROR, "missing-limit", at, "limits",
                     "'%s' is missing; write it with its value, source and trust", name);
    return false;
}

/* The thresholds that care/ asks for, besides the meters' errors of the table of measures; each
 * must stand in the file. */
static const char *const limit_names[] = {
    "gradient-least-c",          /* warm minus cool below this is too flat */
    "light-hours-same-h",        /* a timer no further from the season's hours is right */
    "light-hours-far-h",         /* a timer so far from the season's hours is changed */
    "log-day-hours",             /* the day, where no hours of light are known */
    "log-day-middle-hour",       /* about which the hours of light lie */
    "log-old-days",              /* a log that ended so long before the visit is named */
    "night-drop-deepest-c",      /* a drop deeper than this is too deep */
    "ill-warmth-share-percent",  /* the warm place of an ill animal: from here up in its band */
    "ill-night-share-percent",   /* without an air zone: from the low end so far up by night */
    "mass-loss-fast-percent",    /* more than this in a short time: raised tier */
    "mass-loss-fast-days",       /* what a short time is */
    "mass-loss-slow-percent",    /* more than this over any time */
    "mass-steady-percent",       /* within this the weight is steady */
    "mass-loss-fasting-percent", /* while its food rests, it loses some */
    "tube-nearest-cm",           /* nearer, the line-source formula reads too high */
    "mesh-share-error-percent",  /* of the light that a mesh lets through */
    "mesh-least-share-percent",  /* what a mesh that nobody described lets through at least */
    "tube-reach-times",          /* a reading is carried so many times nearer or farther, no more */
    "point-lamp-reach-times", /* likewise; a reflector's beam follows the inverse square less well
                               */
    "uv-reading-most",        /* a UV index above this is not believed */
    "uv-shade-share-percent", /* the far end should get less than this share of the basking spot */
    "point-lamp-nearest-cm",  /* nearer, a lamp is no point any more */
    "temperature-hottest-c",  /* a reading above this is not believed */
    "mass-reading-error-percent",    /* of the scale, or */
    "mass-reading-error-g",          /* half its step, whichever is more */
    "length-reading-error-percent",  /* of a tape along a live animal */
    "water-below-rim-cm",            /* the deepest water stands so far below the box's rim */
    "food-energy-error-percent",     /* from one batch of a food to the next */
    "harm-danger",                   /* from here on a thing is a danger by itself */
    "dry-hours-many",                /* a turtle out of the water so long lives in no tank */
    "harm-second-time",              /* added to an action that was asked for before, not done */
    "harm-just-outside-percent",     /* of a rule's harm, where a value lies only just outside */
    "ammonia-reading-error-percent", /* of a test kit's colours */
    "water-part-share-percent",      /* a part of the water, when it has to be changed now */
    "water-part-apart-c",            /* so far apart in warmth, no more */
    "water-part-every-days",
    "water-retest-days",
    "water-change-most-percent", /* more at once is too much */
    "water-cooling-c-per-hour",
    "water-cooling-c-per-day",
    "lamp-overdue-soon-days", /* a lamp due within these days is named */
    "jackson-low",
    "jackson-high",
    "surface-resistance-wall",
    "surface-resistance-lid",
    "surface-resistance-floor", /* m2 K/W, each face */
    "air-changes-low",
    "air-changes-high", /* of a closed box, per hour */
    "room-humidity-low-percent",
    "room-humidity-high-percent", /* of a heated room */
    "heat-error-percent",
    "quarantine-low-days",
    "quarantine-high-days",
    "vomit-pause-low-days",
    "vomit-pause-high-days",
    "long-light-hours",    /* a day, of an animal that is kept awake through the winter */
    "meal-most-percent",   /* of the animal's mass: a larger one is asked back */
    "goal-mass-times",     /* today's mass: a goal beyond it, or below its part, is asked back */
    "tenfold-young-days",  /* one older than this does not grow tenfold, */
    "doubling-young-days", /* nor one older than this double */
    "tenfold-unknown-age-days", /* no animal of an unknown age grows tenfold in this time */
    "grown-for-sure-days",      /* so old it is grown, or half as old as any gets: */
    "grown-least-mass-percent", /* of a grown one's, a smaller one is asked */
    "grown-least-length-percent",
    "box-floor-least-percent", /* of the floor it needs: a smaller one may be a slip */
    "box-body-least-percent",  /* of the animal's length: a shorter box is asked */
    "box-longest-cm",          /* of a side indoors: a longer one is asked */
    "box-meant-times",         /* the floor it needs: what was meant has one so near, */
    "box-sides-times",         /* one side of a box indoors against another: more is asked */
    "lamp-hours-least",
    "lamp-hours-most",       /* a day; others are asked */
    "ahead-most-days",       /* a day further ahead is asked */
    "lamp-above-box-cm",     /* so far above the box a lamp may hang, */
    "lamp-highest-cm",       /* and so high above the animal where no box is known: more is asked */
    "lamp-oldest-days",      /* an older one is asked */
    "last-time-most-days",   /* since it last ate, left a stool or shed: more is asked */
    "life-longest-days",     /* of any kind whose species sheet says none */
    "length-slip-percent",   /* so near a slip's length is the one beside it */
    "meal-pieces-most",      /* more in one meal are asked */
    "meals-apart-most-days", /* more are asked */
    "room-hottest-c",        /* a hotter one is asked */
    "water-deepest-cm",      /* of a box that nobody measured: a deeper one is asked */
    "ph-lowest",
    "ph-highest", /* of any water that an animal lives in */
    "ammonia-highest-mg-l",
    "nitrite-highest-mg-l",
    "nitrate-highest-mg-l",
    "chlorine-highest-mg-l",
    "hardness-highest-dgh", /* of any water out of a tap: a kit that shows more is asked */
    "newly-hatched-days",   /* too young to be as heavy as a grown one */
    "past-hatchling-days",  /* too old to be no heavier than a hatchling */
    "body-shape-times",     /* mass by the cube of the length, against a grown one: more is asked */
    "target-colder-c",      /* an own target so far below the species' is asked */
    "target-uv-index-most", /* one above it is asked */
    "past-hatchling-times", /* the heaviest hatchling: a grown-up animal is heavier */
    "temperature-coldest-c",       /* of a reading where an animal lives: no higher is asked */
    "humidity-driest-percent",     /* likewise */
    "humidity-wettest-percent",    /* likewise above it */
    "small-meal-percent",          /* the share of a meal of an animal that may have no large one */
    "build-up-steps",              /* of a rising schedule, equal ones */
    "build-up-days",               /* from its first to its whole meal */
    "diet-loss-week-percent",      /* what a diet takes off a week */
    "mass-gain-percent",           /* more than this is too fast for a grown animal */
    "mass-loss-young-percent",     /* a young one that lost so much is in trouble */
    "laying-loss-percent",         /* what laying or birth takes off */
    "vomit-meal-percent",          /* the share of a meal after the pause */
    "condition-interval-percent",  /* a longer interval is longer by this, a smaller meal smaller */
    "prey-pieces-most",            /* prey animals in one meal */
    "insect-most-percent",         /* no insect weighs more than this share of the animal */
    "energy-far-above-times",      /* a plan of so many times the need is put to the veterinarian */
    "calcium-to-phosphorus-least", /* of the whole food */
    "staple-ratio-least",          /* calcium to phosphorus of a plant that may be the main food */
    "now-and-then-ratio-least",    /* of one that may be a part of it */
    "staple-share-least-percent",  /* of the plants that it gets */
    "food-minerals-error-percent", /* from one batch of a food to the next */
    "weigh-steady-months",
    "fine-scale-below-g", /* a lighter animal needs a scale that shows tenths of a gram */
    "drink-bath-c",       /* water that a dry animal is set in to drink */
    "thirst-call-days",   /* no better by then, call: moderate - mild */
    "sign-lasting-days",  /* what passes by itself is told when it lasts so long */
    "meal-rest-days",     /* hands off after prey swallowed whole, and no meal so near a check */
    "treated-check-near-days", /* a check so soon after mouth or airway is treated comes first */
    "meal-most-times",         /* a meal of more than so many of those it eats now is asked about */
    "hands-off-short-days",    /* so long no hands leave the rhythm of weighing as it is */
    "weigh-after-meal-days",   /* so long prey swallowed whole is weighed with the animal */
    "adoption-weigh-days", /* first weighing in a new home, and the second after as many again */
    "adoption-first-meal-days",
    "adoption-check-days",
    "stomach-percent",          /* of the mass: what a stomach holds */
    "rest-owned-days",          /* with its keeper for so long before a winter rest */
    "rest-well-days",           /* and not ill for so long */
    "rest-stool-test-days",     /* a clean stool test is no older */
    "rest-first-month",         /* no rest starts before this month, */
    "rest-last-month",          /* nor after this one */
    "rest-again-days",          /* after waking no other rest for so long */
    "rest-cooling-days",        /* from the usual warmth to that of the rest, */
    "rest-cooling-steps",       /* in so many steps */
    "rest-loss-month-percent",  /* of the mass: what a rest may take a month */
    "rest-loss-call-percent",   /* call */
    "rest-loss-wake-percent",   /* wake it */
    "rest-wake-days",           /* from the rest back to the usual warmth */
    "warm-before-meal-days",    /* an animal that has long eaten nothing lies warm so long first */
    "rest-eat-days",            /* it eats within so many after waking */
    "medicine-slip-times",      /* a written amount so many times off is a slip of the point */
    "medicine-apart-percent",   /* further from the worked out amount than this: a remark */
    "medicine-start-most-days", /* a first dose later than this is looked at */
    "closed-days-later-most-days", /* a check moves no further past its day */
};

/* What a food goes with is a food too. */
static bool check_like(const struct reference_values *reference, const struct food *food,
                       struct diag *diag)
{
    if (!food->like.text || food_find(reference, food->like.text))
        return true;
    struct nearest nearest;
    nearest_init(&nearest, food->like.text);
    for (size_t i = 0; i < reference->foods.count; i++)
        nearest_offer(&nearest, LIST_AT(reference->foods, struct food, i)->name.text);
    diag_report_path(diag, DIAG_ERROR, "unknown-food", food->like.at, "like",
                     nearest.best ? "'%s' is none of the foods here; did you mean '%s'?"
                                  : "'%s' is none of the foods here%s",
                     food->like.text, nearest.best ? nearest.best : "");
    return false;
}

/* One row of a table is one food: the second was copied and its numbers not looked up. */
static bool check_row(const struct reference_values *reference, size_t at, struct diag *diag)
{
    const struct food_minerals *own = &LIST_AT(reference->foods, struct food, at)->minerals;
    for (size_t i = 0; own->row.text && i < at; i++) {
        const struct food *other = LIST_AT(reference->foods, struct food, i);
        if (!other->minerals.row.text || strcmp(other->minerals.row.text, own->row.text) != 0 ||
            strcmp(other->minerals.source.text, own->source.text) != 0)
            continue;
        diag_report_path(diag, DIAG_ERROR, "row-twice", own->row.at, "row",
                         "row '%s' of '%s' is that of '%s' too; write each food's own",
                         own->row.text, own->source.text, other->name.text);
        return false;
    }
    return true;
}

/* How high a limit may be, by its name: harm goes to 100 as a rule's does. */
static const struct {
    const char *begins, *ends;
    double most;
} limit_ranges[] = {
    {"", "-percent", 100},
    {"harm-", "", 100},
    {"", "-month", 12},
    {"", "-hours", 24},
};

static bool check_limit(const struct limit_reference *limit, struct diag *diag)
{
    const char *name = limit->name.text;
    size_t length = strlen(name);
    for (size_t i = 0; i < sizeof limit_ranges / sizeof *limit_ranges; i++) {
        size_t tail = strlen(limit_ranges[i].ends);
        bool fits = strncmp(name, limit_ranges[i].begins, strlen(limit_ranges[i].begins)) == 0 &&
                    length > tail && strcmp(name + length - tail, limit_ranges[i].ends) == 0;
        if (!fits || limit->value.range.high <= limit_ranges[i].most)
            continue;
        diag_report_path(diag, DIAG_ERROR, "out-of-range", limit->value.range.at, name,
                         "'%.10g' is outside what is possible here (0 to %.10g)",
                         limit->value.range.high, limit_ranges[i].most);
        return false;
    }
    return true;
}

/* High doses of bleach killed every tadpole (von Ruette et al. 2009). */
static bool check_disinfectant(const struct disinfectant_reference *row, struct diag *diag)
{
    if (row->product.value != DISINFECTANT_BLEACH ||
        (!list_has_choice(&row->groups, GROUP_FROG) &&
         !list_has_choice(&row->groups, GROUP_SALAMANDER)))
        return true;
    diag_report_path(diag, DIAG_ERROR, "bleach-at-amphibian", row->product.at, row->name.text,
                     "bleach is never used near an amphibian; name another product, or leave "
                     "'frog' and 'salamander' out of 'groups'");
    return false;
}

static bool check_dose_clock(const struct dose_clock *clock, struct diag *diag)
{
    if (opening_minute(clock->from.text) >= 0)
        return true;
    diag_report(diag, DIAG_ERROR, "not-a-time", clock->from.at,
                "from: '%s' is no time of the day, such as 6:00", clock->from.text);
    return false;
}

static void index_limits(struct reference_values *reference, struct arena *arena)
{
    const size_t count = reference->limits.count;
    const char **names = ARENA_ARRAY(arena, const char *, count);
    for (size_t i = 0; i < count; i++)
        names[i] = LIST_AT(reference->limits, struct limit_reference, i)->name.text;
    reference->limit_index = code_index_make(names, count, arena);
}

struct reference_values *reference_values_read(const char *path, struct arena *arena,
                                               struct diag *diag)
{
    struct reference_values *reference = ARENA_NEW(arena, struct reference_values);
    if (!bind_file(path, &reference_values_schema, arena, diag, reference))
        return NULL;
    const char *beside = file_join(arena, file_folder_of(arena, path), "foods.yaml");
    if (!bind_file(beside, &foods_schema, arena, diag, reference))
        return NULL;
    bool good = true;
    index_limits(reference, arena);
    for (size_t i = 0; i < sizeof limit_names / sizeof *limit_names; i++)
        good = need_limit(reference, limit_names[i], diag) && good;
    for (size_t i = 0; i < reference->foods.count; i++)
        good = check_like(reference, LIST_AT(reference->foods, struct food, i), diag) &&
               check_row(reference, i, diag) && good;
    for (size_t i = 0; i < reference->limits.count; i++)
        good = check_limit(LIST_AT(reference->limits, struct limit_reference, i), diag) && good;
    for (size_t i = 0; i < reference->disinfectants.count; i++)
        good = check_disinfectant(
                   LIST_AT(reference->disinfectants, struct disinfectant_reference, i), diag) &&
               good;
    for (size_t i = 0; i < reference->dose_clocks.count; i++)
        good =
            check_dose_clock(LIST_AT(reference->dose_clocks, struct dose_clock, i), diag) && good;
    for (int m = 0; m < MEASURE_COUNT; m++)
        good = (!measures[m].error || need_limit(reference, measures[m].error, diag)) && good;
    return good ? reference : NULL;
}

/* Every table here is a list of structs that begin with their name. */
static const void *find_named(const struct list *list, size_t size, const char *name)
{
    for (size_t i = 0; i < list->count; i++) {
        const void *item = (const char *)list->items + i * size;
        const struct text_value *item_name = item;
        if (same_text(item_name->text, name))
            return item;
    }
    return NULL;
}

const struct food *food_find(const struct reference_values *reference, const char *code)
{
    return find_named(&reference->foods, sizeof(struct food), code);
}

const struct food_rule *never_food_find(const struct reference_values *reference, const char *code)
{
    return find_named(&reference->never_foods, sizeof(struct food_rule), code);
}

const struct winter_rest_reference *winter_rest_find(const struct reference_values *reference,
                                                     const char *species)
{
    for (size_t i = 0; i < reference->winter_rests.count; i++) {
        const struct winter_rest_reference *one =
            LIST_AT(reference->winter_rests, struct winter_rest_reference, i);
        if (list_has_text(&one->species, species))
            return one;
    }
    return NULL;
}

const struct lamp_reference *lamp_reference_find(const struct reference_values *reference,
                                                 enum lamp_kind kind)
{
    return find_named(&reference->lamps, sizeof(struct lamp_reference),
                      bind_choice_word(lamp_choices, (int)kind));
}

const struct uv_zone_reference *uv_zone_find(const struct reference_values *reference, int zone)
{
    const char name[] = {(char)('0' + zone), '\0'};
    return zone >= 1 && zone <= 9
               ? find_named(&reference->uv_zones, sizeof(struct uv_zone_reference), name)
               : NULL;
}

const struct material_reference *material_find(const struct reference_values *reference,
                                               const char *word)
{
    return find_named(&reference->materials, sizeof(struct material_reference), word);
}

const struct disinfectant_reference *disinfectant_find(const struct reference_values *reference,
                                                       const char *finding)
{
    return find_named(&reference->disinfectants, sizeof(struct disinfectant_reference), finding);
}

const struct sourced_value *limit_find(const struct reference_values *reference, const char *name)
{
    const size_t place = code_index_find(&reference->limit_index, name);
    if (place == SIZE_MAX || strcmp(reference->limit_index.codes[place], name) != 0)
        return NULL;
    return &LIST_AT(reference->limits, struct limit_reference, place)->value;
}
