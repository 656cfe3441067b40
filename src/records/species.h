/* A species sheet: published care values, each with its source and trust.
 * One YAML file a species; the file's name is the species' code. */
#ifndef BASKLEAF_RECORDS_SPECIES_H
#define BASKLEAF_RECORDS_SPECIES_H

#include "records/measures.h"
#include "records/sourced_value.h"
#include "records/terms.h"

struct species_feeding_stage {
    struct choice_value stage;
    struct quantity until_age_days;    /* the stage ends at this age ... */
    struct quantity until_length_cm;   /* ... or at this length ... */
    struct quantity until_mass_g;      /* ... or at this mass: whichever is known, in that order */
    struct sourced_value meal_percent; /* mass of a meal as % of body mass */
    struct sourced_value insects;      /* insects a meal, by count */
    struct sourced_value
        insects_every_days; /* their own interval beside other food, if they have one */
    struct sourced_value plant_share_percent; /* plants as % of what is eaten */
    struct sourced_value every_days;          /* interval between meals (animal food where mixed) */
    struct list foods; /* of struct text_value: codes of reference-values foods */
    struct mark at;
};

struct species_supplement {
    struct choice_value what;
    struct list stages;               /* of struct choice_value; empty: all */
    struct choice_value when;         /* with UVB, without, or always */
    struct sourced_value per_week;    /* times a week; or ... */
    struct sourced_value every_meals; /* ... every n-th meal of animals */
    struct mark at;
};

enum supplement {
    SUPPLEMENT_CALCIUM,
    SUPPLEMENT_CALCIUM_D3,
    SUPPLEMENT_MULTIVITAMIN,
    SUPPLEMENT_THIAMINE
};
enum supplement_when { SUPPLEMENT_ALWAYS, SUPPLEMENT_WITH_UVB, SUPPLEMENT_WITHOUT_UVB };
enum brumation { BRUMATION_NEVER, BRUMATION_AFTER_CHECK };
enum law {
    LAW_LOCAL_PERMIT,
    LAW_TRADE_LISTED,
    LAW_PROTECTED_NATIVE,
    LAW_INVASIVE,
    LAW_LARGE_ANIMAL,
    LAW_SMALL_TURTLE_SALE
};

/* How much of a sheet is settled: published, or confirmed by the clinic's veterinarian. */
struct species_review {
    size_t count, founded, left; /* values; settled ones; those left to review */
    size_t confirmed, reopened;  /* by the clinic; those of them that ours has changed since */
    const char *by;              /* who confirmed last; NULL: nobody */
    struct date on;
};

struct species {
    struct text_value code;
    struct text_value scientific;
    struct list names; /* of struct named_text by language */
    struct list also;  /* of struct text_value: other common names, for finding */
    struct choice_value group;
    struct choice_value habit;
    struct list traits; /* of struct choice_value */
    /* the targets; range.known false: the species has none, such as a basking spot */
    struct sourced_value measured[MEASURE_COUNT];
    /* Two kinds that never stand in for each other: air to choose from, and the body the animal
     * reaches in it. A body temperature is no target for air. */
    struct sourced_value preferred_air;
    struct sourced_value preferred_body;
    struct sourced_value upper_limit; /* never above this */
    struct sourced_value night_drop;  /* usual step down from day to night, as temperatures'
                                 difference in        count of C */
    struct sourced_value humidity_shed_percent;
    struct sourced_value least_humidity_percent; /* never drier, not even for a sore */
    struct sourced_value water_change_percent, water_change_days; /* with a filter */
    struct sourced_value unfiltered_change_percent, unfiltered_change_days;
    struct sourced_value least_depth_times, most_depth_times; /* x length of the animal */
    struct flag_value moist_hide;
    struct flag_value needs_uvb;        /* no: an axolotl */
    struct sourced_value ferguson_zone; /* 1-4, a band where sources put it between two */
    struct sourced_value hours_summer, hours_winter;
    struct choice_value diet;
    struct list feeding;     /* of struct species_feeding_stage, youngest first */
    struct list supplements; /* of struct species_supplement */
    struct sourced_value
        no_food_days; /* longest normal time without food, grown animal with a steady weight */
    struct sourced_value no_food_young_days; /* the same for a young one */
    struct sourced_value no_stool_days;
    struct sourced_value adult_length_cm; /* snakes and salamanders total; lizards and frogs snout
                                     to vent; chelonia carapace */
    struct sourced_value adult_mass_g;
    struct sourced_value hatchling_mass_g;
    struct sourced_value longest_life_days; /* record, only to bound what is plausible */
    struct band plausible_mass_g;           /* outside: put to the veterinarian */
    struct band plausible_length_cm;
    struct sourced_value enclosure_length_times, enclosure_width_times,
        enclosure_height_times;                    /* x length of the animal */
    struct sourced_value enclosure_height_plus_cm; /* added to that height */
    struct box enclosure_least;                    /* never smaller than this for a grown animal */
    struct text_value enclosure_least_source;
    struct choice_value enclosure_least_trust;
    const struct confirmation *enclosure_least_confirmed;
    struct flag_value jackson_ratio; /* the tortoise length-mass ratio applies */
    struct choice_value brumation;
    struct sourced_value brumation_least_age_days;
    struct choice_value reproduction;
    struct choice_value nest_kind;
    struct sourced_value nest_depth_cm;
    struct list normal; /* of struct text_value: wording keys normal.<code> */
    struct list
        warnings; /* of struct text_value: codes of warning-signs.yaml that this species raises */
    struct list law;      /* of struct choice_value */
    struct list sources;  /* of struct named_text by id */
    struct list reviewed; /* of struct reviewed_value, by key */
    struct species_review review;
    const char *file;  /* where it was read, borrowed */
    const char *below; /* our own sheet that the clinic's one follows; NULL: none */
    bool from_clinic;  /* from the clinic's own folder */
    bool is_unlisted;  /* no sheet: what holds for its group alone, and no number */
};

/* What the clinic confirmed, as it is written. */
struct reviewed_value {
    struct text_value key, value, by;
    struct date_value on;
    struct text_value edition, reason;
    struct text_value ours; /* digest of what we shipped under the key on that day */
};

extern const struct schema species_schema;
extern const struct choice supplement_choices[], brumation_choices[], law_choices[];

/* Reads and checks one sheet: schema, ids of sources, bands in order (night <=
 * cool <= warm <= basking), code equal to the file's name. NULL after errors. */
struct species *species_read(const char *path, struct arena *arena, struct diag *diag);

/* The same of a tree that has been read from `path`. */
struct species *species_read_tree(const struct node *tree, const char *path, struct arena *arena,
                                  struct diag *diag);

/* The checks beyond the schema, for `check` and species_read. */
bool species_check(const struct species *species, struct diag *diag);

bool species_has_trait(const struct species *species, enum trait trait);

/* The common name in a language, else English, else the scientific name. */
const char *species_name(const struct species *species, const char *lang);

/* Every sheet of our folder, with a clinic's own folder (may be NULL) overriding file by file. */
struct library {
    struct species **items; /* by code, sorted */
    size_t count;
};

enum { SPECIES_NAME_MOST = 128 }; /* bytes of a name that count */

/* By code, for which only the one sheet is read, or else by any name. NULL after a diag message
 * that names the nearest known species; `at` is where the visit named it. */
struct species *library_find(const char *folder, const char *clinic_folder, const char *code,
                             struct mark at, struct arena *arena, struct diag *diag);

/* By code or by any name of any language, capitals and hyphens aside; a name of two species is
 * refused. NULL after a DIAG_ERROR that names the nearest. */
struct species *library_find_named(const struct library *library, const char *words, struct mark at,
                                   struct arena *arena, struct diag *diag);

/* All sheets, for `species` and `check`. False when any is wrong. */
bool library_read(const char *folder, const char *clinic_folder, struct arena *arena,
                  struct diag *diag, struct library *out);

#endif
