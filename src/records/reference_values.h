/* Reference values that belong to no single species: UV exposure zones, lamp life, materials
 * (templates/reference-values.yaml) and foods (templates/foods.yaml); every number has its source.
 */
#ifndef BASKLEAF_RECORDS_REFERENCE_VALUES_H
#define BASKLEAF_RECORDS_REFERENCE_VALUES_H

#include "base/code_index.h"
#include "records/sourced_value.h"
#include "records/whom.h"
#include "records/terms.h"
#include "records/whom.h"

struct uv_zone_reference {
    struct text_value name;        /* "1" .. "4" */
    struct sourced_value mean_uvi; /* over the day: the background of its box */
    struct sourced_value most_uvi; /* the strongest; never above the upper end of this */
};

/* How the zone's ranges are used at the basking place. */
enum uv_limit { UV_LIMIT_MOST, UV_LIMIT_LEAST_MOST, UV_LIMIT_MEAN };
enum uv_start { UV_START_BETWEEN, UV_START_LOW };
struct uv_use {
    struct whom whom;
    struct choice_value limit; /* enum uv_limit: too strong above it */
    struct choice_value start; /* enum uv_start: where the lamp is hung */
    struct text_value because;
    struct text_value source;
    struct choice_value trust;
};

struct lamp_reference {
    struct text_value name;         /* a word of lamp_choices */
    struct sourced_value life_days; /* change after; unit months */
    struct flag_value reliable;     /* no: without a reading it counts as giving no UVB */
};

enum food_kind { FOOD_PREY, FOOD_INSECT, FOOD_PLANT, FOOD_FISH, FOOD_PREPARED };

struct food_size {
    struct text_value name;          /* pinky, fuzzy, hopper, adult ... */
    struct sourced_value mass_g;     /* of one */
    struct sourced_value kcal_per_g; /* as fed; may be missing */
};

/* What 100 g of it hold as fed, by one row of a published table. */
struct food_minerals {
    struct quantity calcium_mg, phosphorus_mg;
    struct text_value row; /* of the source: a food code */
    struct text_value source;
    struct choice_value trust;
};

/* How often a plant may lie there, the best first. */
enum food_class { FOOD_STAPLE, FOOD_NOW_AND_THEN, FOOD_TREAT };
enum food_flag { FOOD_OXALATE, FOOD_GOITROGEN };
enum never_reason { NEVER_POISON, NEVER_THIAMINASE, NEVER_UNFIT };

struct food {
    struct text_value name; /* its code */
    struct choice_value kind;
    struct text_value like;      /* of what species sheets name: leafy-greens */
    struct choice_value at_most; /* enum food_class: whatever its minerals say */
    struct flag_value lies_there;
    struct list flags;    /* of struct choice_value: enum food_flag */
    struct list not_with; /* of struct text_value: findings during which it is left out */
    struct food_minerals minerals;
    struct list sizes;               /* of struct food_size, smallest first; insects: one or more */
    struct sourced_value kcal_per_g; /* as fed */
    struct sourced_value calcium_to_phosphorus; /* undusted, Ca / P */
};

/* What some animals must never be given, or how large a piece of their food may be. */
struct food_rule {
    struct text_value name; /* worded under never-food.<name>, or sheet.feeding.size.<name> */
    struct whom whom;
    struct list eats;             /* of struct choice_value: enum food_kind; empty: all */
    struct choice_value because;  /* enum never_reason; of what must never be given */
    struct flag_value when_given; /* named only where the keeper gives it */
    struct text_value source;
    struct choice_value trust;
    struct mark at;
};

/* What the whole food of one kind of eater holds, in dry matter. */
struct food_balance {
    struct whom whom;
    struct band calcium_percent, phosphorus_percent;
    struct text_value source;
    struct choice_value trust;
};

struct material_reference {
    struct text_value name;            /* a word of wall_choices / lid_choices */
    struct sourced_value lambda_w_mk;  /* heat conductivity */
    struct sourced_value thickness_cm; /* usual, when the visit does not say */
};

/* How long the gut empties of an animal no heavier than this. */
struct rest_emptying {
    struct quantity up_to_g; /* without one: of any mass */
    struct sourced_value days;
};

/* How one kind of animal rests in winter. What no source carries is left out: the
 * veterinarian's. */
struct winter_rest_reference {
    struct text_value name;
    struct list species;               /* of struct text_value: codes */
    struct sourced_value rest_c;       /* where it rests */
    struct list emptying;              /* of struct rest_emptying, lightest first */
    struct sourced_value first_days;   /* no longer, of a young animal or a first rest */
    struct sourced_value longest_days; /* no longer, of one that has rested before */
};

/* How many places to hide one kind of animal wants. */
struct hides_reference {
    struct whom whom;
    struct sourced_value least;
};

/* Does one kind of animal live with its like, and on what floor? */
struct company_reference {
    struct whom whom;
    struct flag_value together;
    struct sourced_value two_times;     /* the floor of two, by that of one */
    struct sourced_value further_times; /* what each further one adds, by that of one */
    struct text_value source;
    struct choice_value trust;
};

/* How warm a day must be for an animal to go out. */
struct outdoors_reference {
    struct whom whom;
    struct sourced_value morning_c, midday_c; /* no colder */
};

enum disinfectant {
    DISINFECTANT_ETHANOL,
    DISINFECTANT_CHLORHEXIDINE,
    DISINFECTANT_PEROXYMONOSULFATE,
    DISINFECTANT_BENZALKONIUM,
    DISINFECTANT_BLEACH,
    DISINFECTANT_STEAM
};
extern const struct choice disinfectant_choices[];

/* What kills the germ of one finding on tools, away from the animal. */
struct disinfectant_reference {
    struct text_value name; /* code of the finding */
    struct list groups;     /* of struct choice_value: whose boxes it is used at */
    struct choice_value product;
    struct sourced_value percent; /* of the active part; unknown: as it comes */
    struct sourced_value seconds; /* at least; unknown: no source says */
    struct text_value source;
    struct choice_value trust;
    struct mark at;
};

/* The hours of the clock at which what is given more than twice a day is given at home. */
struct dose_clock {
    struct quantity every_h;
    struct text_value from; /* the first of a day, "6:00" */
    struct text_value source;
    struct choice_value trust;
    struct mark at;
};

struct limit_reference {
    struct text_value name;
    struct sourced_value value;
};

struct reference_values {
    struct list uv_zones;    /* of struct uv_zone_reference */
    struct list uv_uses;     /* of struct uv_use: the first that fits */
    struct list lamps;       /* of struct lamp_reference */
    struct list foods;       /* of struct food; these five from foods.yaml */
    struct list never_foods; /* of struct food_rule */
    struct list food_sizes;  /* of struct food_rule: the first that fits holds */
    struct list balances;    /* of struct food_balance: the first that fits */
    struct list food_sources;
    struct list materials;     /* of struct material_reference */
    struct list winter_rests;  /* of struct winter_rest_reference */
    struct list hides;         /* of struct hides_reference: the first that fits */
    struct list outdoors;      /* of struct outdoors_reference: the first that fits */
    struct list company;       /* of struct company_reference: the first that fits */
    struct list disinfectants; /* of struct disinfectant_reference */
    struct list dose_clocks;   /* of struct dose_clock */
    struct list limits;        /* of struct limit_reference: thresholds of the computations */
    struct code_index limit_index;
    struct list sources;
};

extern const struct schema reference_values_schema, foods_schema;
extern const struct choice food_class_choices[], never_reason_choices[];

/* With foods.yaml, which stands beside it. */
struct reference_values *reference_values_read(const char *path, struct arena *arena,
                                               struct diag *diag);

/* The row of a species; NULL when nothing is written of it. */
const struct winter_rest_reference *winter_rest_find(const struct reference_values *reference,
                                                     const char *species);
const struct food *food_find(const struct reference_values *reference, const char *code);
const struct food_rule *never_food_find(const struct reference_values *reference, const char *code);
const struct lamp_reference *lamp_reference_find(const struct reference_values *reference,
                                                 enum lamp_kind kind);
const struct uv_zone_reference *uv_zone_find(const struct reference_values *reference, int zone);
const struct material_reference *material_find(const struct reference_values *reference,
                                               const char *word);
/* A limit by name; the name must exist (a missing one is reported by reference_values_read). */
const struct disinfectant_reference *disinfectant_find(const struct reference_values *reference,
                                                       const char *finding);
const struct sourced_value *limit_find(const struct reference_values *reference, const char *name);

#endif
