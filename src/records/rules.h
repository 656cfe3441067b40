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
    LAMP_STATE_NOT_NEEDED
};
enum wall_state { WALL_UNKNOWN, WALL_DRY, WALL_WET };
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
enum season { SEASON_SUMMER, SEASON_WINTER };

/* Every field that is written must hold; a list holds when one of its words does. */
struct rule_when {
    struct list finding;     /* of struct text_value: one of these at a severity below */
    struct list severity;    /* of struct choice_value; mild, moderate, severe when left out */
    struct list not_finding; /* none of these (at mild or more) */
    struct list done;        /* of struct text_value: procedures of today */
    struct list group, habit, diet, traits, stage, sex, season; /* of struct choice_value */
    struct list species, sheet;                   /* of struct text_value; sheet: kinds of it */
    struct list measured[MEASURE_COUNT];          /* of struct choice_value: verdicts */
    struct list any_reading;                      /* likewise: one of them has it */
    struct list enclosure;                        /* likewise */
    struct list water_test, water_change, filter; /* state, verdict, yes or no */
    struct list gradient, night_drop, lamp, wall, weight; /* states above */
    struct list thermostat, heat_guard, moist_hide;       /* yes, no (choice 1, 0) */
    struct list listed;                                   /* likewise: it has a species sheet */
};

struct rule {
    struct text_value name;
    struct rule_when when;
    struct text_value action; /* key `do`: the action's code, worded under action.<code> */
    struct quantity harm;     /* 0-100: how much harm the action avoids; the order */
    struct flag_value first;  /* no: never among the first changes */
    struct text_value source;
    struct choice_value trust;
    struct mark at;
};

/* When both are called for, `keep` stays, `drop` goes, and the veterinarian is told. Names are
 * action codes, or changes such as humidity:in-shed, feeding:longer-interval, bath:shallow. */
struct settlement {
    struct text_value name; /* its code, worded under review.<code> */
    struct text_value keep;
    struct text_value drop;
    struct mark at;
};

struct rule_book {
    struct list rules;       /* of struct rule */
    struct list settlements; /* of struct settlement, in order of priority */
    struct list
        cautions; /* of struct text_value: codes on every sheet, worded under caution.<code> */
    struct list sources;
};

extern const struct schema rule_book_schema;
extern const struct choice verdict_choices[], gradient_state_choices[], night_state_choices[],
    lamp_state_choices[], wall_state_choices[], water_state_choices[], weight_state_choices[],
    season_choices[], yes_no_choices[];

struct rule_book *rule_book_read(const char *path, struct arena *arena, struct diag *diag);

#endif
