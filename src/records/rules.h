/* Advice as data: conditions over findings and verdicts -> actions, and how
 * contradictions are settled. templates/rules.yaml. */
#ifndef BASKLEAF_RECORDS_RULES_H
#define BASKLEAF_RECORDS_RULES_H

#include "records/measures.h"
#include "records/sourced_value.h"
#include "records/terms.h"

/* The states that rules can ask for; care/ fills them (see care/plan.h). */
enum verdict {
    VERDICT_UNKNOWN,
    VERDICT_IN_RANGE,
    VERDICT_BORDERLINE, /* outside, but the meter's error reaches the target's end */
    VERDICT_TOO_LOW,
    VERDICT_TOO_HIGH
};
enum gradient_state { GRADIENT_UNKNOWN, GRADIENT_GOOD, GRADIENT_TOO_FLAT, GRADIENT_INVERTED };
enum night_state { NIGHT_UNKNOWN, NIGHT_GOOD, NIGHT_NO_DROP, NIGHT_TOO_DEEP };
enum lamp_state {
    LAMP_STATE_UNKNOWN,
    LAMP_STATE_FINE,
    LAMP_STATE_DUE,
    LAMP_STATE_BLOCKED,
    LAMP_STATE_MISSING,
    LAMP_STATE_UNMEASURED,
    LAMP_STATE_OUT_OF_REACH,
    LAMP_STATE_TOO_STRONG, /* for the box: where it is weak enough it does not fit */
    LAMP_STATE_TOO_WEAK,   /* wherever it may hang */
    LAMP_STATE_NOT_NEEDED,
    LAMP_STATE_UNRELIABLE, /* of a kind that gives no UVB to rely on, and nobody measured it */
    LAMP_STATE_BLOCKED_DUE /* behind glass, and older than its kind lasts */
};
enum wall_state { WALL_UNKNOWN, WALL_DRY, WALL_WET };
enum hygrometer_state {
    HYGROMETER_UNREAD,
    HYGROMETER_IN_PLACE,
    HYGROMETER_ELSEWHERE,
    HYGROMETER_COLD
};
enum weight_state {
    WEIGHT_UNKNOWN,
    WEIGHT_STEADY,
    WEIGHT_RISING,
    WEIGHT_FALLING,
    WEIGHT_FALLING_FAST
};
enum water_state {
    WATER_UNTESTED,
    WATER_FINE,
    WATER_FOULED, /* not poisonous: nitrate, pH, hardness */
    WATER_HARMFUL /* ammonia, nitrite or chlorine shows */
};
enum winter_rest_state {
    WINTER_REST_NO,
    WINTER_REST_PLANNED,
    WINTER_REST_IN_PROGRESS,
    WINTER_REST_WAKING
};
enum rest_gate { REST_GATE_OPEN, REST_GATE_SHUT };
enum photoperiod_state {
    PHOTOPERIOD_UNKNOWN,
    PHOTOPERIOD_USUAL,
    PHOTOPERIOD_NEVER_DARK,
    PHOTOPERIOD_NEVER_LIGHT,
    PHOTOPERIOD_TOO_SHORT, /* far from the season's hours */
    PHOTOPERIOD_TOO_LONG
};
enum hides_state { HIDES_UNKNOWN, HIDES_NONE, HIDES_TOO_FEW, HIDES_ENOUGH, HIDES_NOT_ASKED };
enum perch_state { PERCH_UNKNOWN, PERCH_FINE, PERCH_TOO_NEAR };
enum company_state {
    COMPANY_UNKNOWN,
    COMPANY_NONE,
    COMPANY_FITTING,  /* of its own kind, which may be kept together */
    COMPANY_UNWANTED, /* of its own kind, which lives alone */
    COMPANY_MIXED     /* of another kind */
};
/* What is wrong with the food that the keeper gives; a set of bits. */
enum diet_fault {
    DIET_POISON = 1,
    DIET_THIAMINASE = 2,
    DIET_UNFIT = 4,
    DIET_CALCIUM_SHORT = 8,
    DIET_FEW_STAPLES = 16,
    DIET_GOITROGENS_ALONE = 32,
    DIET_ONE_INSECT = 64
};
/* The worst of what it is given that it must not have. */
enum food_given_state {
    FOOD_GIVEN_UNKNOWN, /* nobody wrote what it eats */
    FOOD_GIVEN_FINE,
    FOOD_GIVEN_RICH, /* richer than all that its sheet lists */
    FOOD_GIVEN_UNFIT,
    FOOD_GIVEN_THIAMINASE,
    FOOD_GIVEN_POISON
};
/* The worst of the plants that it is given. */
enum plants_given_state {
    PLANTS_GIVEN_UNKNOWN,
    PLANTS_GIVEN_FINE,
    PLANTS_GIVEN_GOITROGENS, /* and no other plant */
    PLANTS_GIVEN_FEW_STAPLES,
    PLANTS_GIVEN_CALCIUM_SHORT
};
enum season { SEASON_SUMMER, SEASON_WINTER };

/* Every field that is written must hold; a list holds when one of its words does. */
struct rule_when {
    struct list finding;     /* of struct text_value: one of these at a severity below */
    struct list severity;    /* of struct choice_value; mild, moderate, severe when left out */
    struct list not_finding; /* none of these (at mild or more) */
    struct list and_finding; /* of struct text_value: and one of these at a severity below */
    struct list and_severity;
    struct list and_also;  /* of struct text_value: and one of these at mild or more */
    struct list bundle;    /* of struct text_value: someone calls for one of these bundles */
    struct list calls;     /* of struct text_value: someone calls for one of these topic:stance */
    struct list and_calls; /* likewise, besides */
    struct list never_traits;      /* of struct choice_value */
    struct list coming_stance;     /* of struct text_value: likewise today or in the coming weeks */
    struct list state, tier, step; /* of one of the findings: all that are written, of one */
    struct list reproduction, brumation, lamp_kind, heat_kind, photoperiod; /* of struct
                                                                               choice_value */
    struct list heat_all; /* likewise: all heat on the record is of these */
    struct list medicine, unlisted, least_humidity; /* yes, no (choice 1, 0) */
    struct list medicine_named; /* of struct text_value: parts of a medicine's name or directions */
    struct list own_step;       /* likewise: a step that who signs wrote is of one */
    struct list stance;         /* of struct text_value: one of these topic:stance holds today */
    struct list done;           /* of struct text_value: procedures of today */
    struct list never_done;     /* likewise: none of these today */
    struct list group, habit, diet, traits, stage, sex, season; /* of struct choice_value */
    struct list species, sheet;                   /* of struct text_value; sheet: kinds of it */
    struct list measured[MEASURE_COUNT];          /* of struct choice_value: verdicts */
    struct list any_reading;                      /* likewise: one of them has it */
    struct list enclosure;                        /* likewise */
    struct list water_test, water_change, filter; /* state, verdict, yes or no */
    struct list gradient, night_drop, lamp, wall, weight; /* states above */
    struct list hygrometer;                               /* likewise: where the air was read */
    struct list thermostat, heat_guard, moist_hide;       /* yes, no (choice 1, 0) */
    struct list listed;                                   /* likewise: it has a species sheet */
    struct list outdoor;                                  /* likewise, as the record says */
    struct list winter_rest;             /* of struct choice_value: enum winter_rest_state */
    struct list rest_gate;               /* likewise: enum rest_gate */
    struct list substrate, hides, perch; /* of struct choice_value: what lies there, states */
    struct list shade, water_dish;       /* yes, no (choice 1, 0) */
    struct list company;                 /* of struct choice_value: enum company_state */
    struct list two_males;               /* yes, no */
    struct list few_dry;                 /* yes: its tank stays its home; no: dry box and tub */
    struct list food_given;              /* of struct choice_value: enum food_given_state */
    struct list plants_given;            /* likewise: enum plants_given_state */
};

/* Does a condition look at anything that is judged from readings? */
bool rule_when_reads(const struct rule_when *when);

/* What was found makes it graver. */
struct rule_raised {
    struct list finding; /* of struct text_value: one of these at mild or more */
    struct quantity by;
};

struct rule {
    struct text_value name;
    struct rule_when when;
    struct text_value action;  /* key `do`: the action's code, worded under action.<code> */
    struct quantity harm;      /* 0-100: how much harm the action avoids; the order */
    struct flag_value graded;  /* the harm is less where a value lies only just outside */
    struct flag_value heater;  /* it sets a heater */
    struct flag_value disease; /* what a disease itself asks for: no heater stands before it */
    struct rule_raised raised;
    struct flag_value first;   /* no: never among the first changes */
    struct flag_value shop;    /* something has to be bought: behind what can be done today */
    struct flag_value tonight; /* due tonight too where three others stand first */
    struct text_value source;
    struct choice_value trust;
    struct mark at;
};

struct rule_book {
    struct list rules; /* of struct rule */
    struct list
        cautions; /* of struct text_value: codes on every sheet, worded under caution.<code> */
    struct list sources;
    bool is_shipped; /* the file that came with the program */
};

extern const struct schema rule_book_schema, rule_when_schema;
extern const struct choice verdict_choices[], gradient_state_choices[], night_state_choices[],
    lamp_state_choices[], wall_state_choices[], water_state_choices[], weight_state_choices[],
    hides_state_choices[], perch_state_choices[], company_state_choices[], diet_fault_choices[];

struct rule_book *rule_book_read(const char *path, struct arena *arena, struct diag *diag);

/* The rule of that name; NULL for none. */
const struct rule *rule_find(const struct rule_book *book, const char *name);

#endif
