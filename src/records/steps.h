/* How an action stands on a sheet that hangs at the animal's home: templates/steps.yaml. */
#ifndef BASKLEAF_RECORDS_STEPS_H
#define BASKLEAF_RECORDS_STEPS_H

#include "records/measures.h"
#include "records/sourced_value.h"

/* A measured quantity, or the lamp's distance. */
enum { PLACE_LAMP_DISTANCE = MEASURE_COUNT };

struct step {
    struct text_value name;    /* the action's code */
    struct choice_value place; /* not known: the row has no number */
    struct choice_value pictogram;
    struct text_value write; /* worded under wall.write.<code> */
    struct flag_value bought;
    struct list bought_as;        /* struct text_value: variants of its words that need it too */
    struct flag_value feeds;      /* it offers food */
    struct flag_value food_waits; /* it warms a place for which food waits */
    struct flag_value heats;      /* it turns heat up */
    struct choice_value or_warm_place; /* where that is too low and no other step warms it */
    struct flag_value behind_day_heat; /* what warms a place that food waits for stands before it */
    struct flag_value makes_heat_safe;
    struct list
        safe_heat_first;     /* struct text_value: its words that ask for what makes heat safe */
    struct list warms_night; /* struct text_value: its words that warm the warm place by night */
    struct list own_step;    /* struct text_value: of what her own words are that stand in it */
    struct list in_tub;      /* struct text_value: its words that fill a tub of its own */
};

/* Pictograms that data may name. */
enum pictogram_name {
    PICTOGRAM_BATH,
    PICTOGRAM_CLOCK,
    PICTOGRAM_DROP,
    PICTOGRAM_DRY,
    PICTOGRAM_GUARD,
    PICTOGRAM_HEAT,
    PICTOGRAM_HEAT_OFF,
    PICTOGRAM_HIDE,
    PICTOGRAM_HOME,
    PICTOGRAM_LOG,
    PICTOGRAM_LOW,
    PICTOGRAM_LOW_TUB,
    PICTOGRAM_MEAL,
    PICTOGRAM_MOSS,
    PICTOGRAM_NEST,
    PICTOGRAM_PAPER,
    PICTOGRAM_PILL,
    PICTOGRAM_STONES,
    PICTOGRAM_STOP,
    PICTOGRAM_TUBE,
    PICTOGRAM_TUBE_OFF,
    PICTOGRAM_UNPLUG,
    PICTOGRAM_VET,
    PICTOGRAM_WAKE,
    PICTOGRAM_WEIGH,
    PICTOGRAM_WRITTEN,
    PICTOGRAM_NAME_COUNT
};

struct step_book {
    struct list steps;                                       /* of struct step */
    struct sourced_value way_out_days, way_out_fasting_days; /* whoever is not done by then calls */
    struct list sources;
};

extern const struct schema step_book_schema;

struct step_book *step_book_read(const char *path, struct arena *arena, struct diag *diag);

/* The step of an action, or NULL. */
const struct step *step_find(const struct step_book *book, const char *action);

#endif
