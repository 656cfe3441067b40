/* The part of a plan that is food: what is given, how much, on which days, and with what on it. */
#ifndef BASKLEAF_CARE_PLAN_FEEDING_H
#define BASKLEAF_CARE_PLAN_FEEDING_H

#include "care/plan_sources.h"
#include "records/findings.h"
#include "records/reference_values.h"
#include "records/rules.h"
#include "records/species.h"

struct prey_choice {
    const char *food; /* code */
    const char *size; /* code, may be NULL */
    int count;
    double each_low_g, each_high_g;
    double calcium_to_phosphorus; /* 0 when unknown */
};

enum stage_reason { STAGE_BY_AGE, STAGE_BY_LENGTH, STAGE_BY_MASS, STAGE_ASSUMED_ADULT };

struct supplement_plan {
    enum supplement what;
    double per_week_low, per_week_high; /* 0 when by meals */
    int every_meals;                    /* 0 when by week */
    bool with_fish;                     /* with each meal of fish, whenever that is */
    const struct date *days;            /* of the next eight weeks */
    size_t day_count;
    struct provenance from;
};

enum { MEAL_DATES = 8, BUILD_UP_STEPS_MOST = 8 };

/* What the keeper gives now, a day, of the food that the meals are planned of. */
struct feeding_now {
    bool has_g, has_kcal, has_count;
    double g_day, kcal_day, count_day;
};

/* Of a rising schedule: from a day on, meals of so much. */
struct feeding_step {
    struct date from;
    double share_percent; /* of the full meal; what it eats now may be more */
    double low_g, high_g; /* where meals go by mass */
    int low, high;        /* where they go by pieces */
};

/* One kind of food with its own rhythm. */
struct feeding_line {
    const char *kind; /* plants, mix, animals or all */
    const struct prey_choice *foods;
    size_t food_count;
    bool has_g, has_count, has_share;
    double low_g, high_g, low_count, high_count, low_percent, high_percent;
    double every_low_days, every_high_days;
    const struct date *next;
    size_t next_count;
};

enum { FEEDING_LINES_MOST = 2 };

/* A food that this animal must never be given. */
struct never_food {
    const char *code;
    struct provenance from;
};

/* One food that the keeper gives now. */
struct diet_food {
    const char *food; /* as written, NULL where none is */
    bool is_listed;   /* known to our data */
    bool has_g, has_minerals, has_ratio, has_class, is_plant, is_insect, is_never;
    bool is_left_out;   /* while what was found lasts */
    bool is_rich;       /* richer than all that its sheet lists */
    bool binds_calcium; /* oxalate: nobody knows how much of its calcium is left */
    double g_day, calcium_mg_day, phosphorus_mg_day;
    double ratio; /* calcium to phosphorus, without powder */
    enum food_class food_class;
    enum never_reason because;
    struct provenance from;
    struct mark at;
};

/* Plants that may lie there as often as one class says. */
struct food_list {
    const char *const *foods; /* the most calcium for their phosphorus first */
    size_t count;
};
enum { FOOD_CLASSES = FOOD_TREAT + 1 };

/* All that the keeper gives, judged as a whole. What is not known counts for unknown, never for
 * nothing. */
struct diet_plan {
    const struct diet_food *given;
    size_t given_count;
    bool is_judged; /* plants or insects are among it */
    bool has_ratio, has_least;
    double ratio_low, ratio_high; /* of what is known, as amounts and batches leave it */
    double least_ratio;
    struct provenance least_from;
    enum verdict ratio_verdict;
    bool has_unknown_share;
    double unknown_percent; /* by mass, of what no calcium is known of */
    size_t unknown_count;
    bool has_staples;
    double staple_low_percent, staple_high_percent; /* of the plants, by mass */
    enum verdict staple_verdict;
    int faults; /* of enum diet_fault */
    enum food_given_state never;
    enum plants_given_state plants;
    struct food_list best;                   /* a few staples to name */
    struct food_list fish;                   /* of which it may have any, where it is fed fish */
    struct food_list by_class[FOOD_CLASSES]; /* of this species, given or not */
    struct derivations how;
};

struct feeding_plan {
    enum stage stage;
    enum stage_reason stage_reason;
    bool has_diet; /* false: nobody said what it eats */
    enum diet_kind diet;
    bool has_meal;
    double meal_low_g, meal_high_g;
    struct provenance meal_from;
    bool has_insects;
    int insects_low, insects_high;
    bool is_beside_hay; /* her own mass is told without what lies there at all times */
    bool is_in_pieces;  /* of whatever it eats, not of insects alone */
    struct feeding_beside {
        bool is_known;
        int low, high; /* insects */
        double every_low_days, every_high_days;
        struct provenance from, every_from;
        const struct date *days; /* of the planner's eight weeks */
        size_t day_count;
    } beside; /* insects in a rhythm of their own beside what the meals are of; or insects_low */
    struct feeding_beside_now {
        bool is_given, has_count, has_last;
        double count_day, interval_days; /* the shortest; 0 unknown */
        struct date last;
    } beside_now; /* what the keeper gives of them */
    bool has_plant_share;
    double plant_low_percent, plant_high_percent;
    const struct prey_choice *foods;
    size_t food_count;
    const struct never_food *never;
    size_t never_count;
    const char *size_rule; /* how large a piece may be: a code, NULL for none */
    struct provenance size_from;
    double every_low_days, every_high_days;
    double usual_low_days, usual_high_days; /* before a change for condition */
    struct provenance every_from;
    enum feeding_change change; /* why the interval or meal differs from usual */
    const char *change_from;    /* the finding's code */
    bool has_meal_now, has_count_now, has_interval_now; /* what the keeper does today */
    double meal_now_g, count_now, interval_now_days;
    bool has_last;
    struct date last; /* the last meal of the food that the meals are planned of */
    struct feeding_now now;
    bool is_as_now;                   /* a meal is what it eats now, neither more nor less */
    bool asks_amount;                 /* a diet that only the veterinarian's numbers can say */
    bool asks_plants, asks_animals;   /* no source here says how much: a blank is filled in */
    double start_percent, start_days; /* of a build-up */
    struct provenance start_from;
    bool is_rising;                     /* built up from what it eats now */
    double least_meal_g, least_insects; /* what it eats now, in meals of the plan's interval */
    struct feeding_step steps[BUILD_UP_STEPS_MOST]; /* of a build-up; none: every meal alike */
    size_t step_count;
    struct feeding_line lines[FEEDING_LINES_MOST];
    size_t line_count;
    bool begins_small; /* the first meals after a rest of an ill one are half of a usual meal */
    double pause_low_days, pause_high_days; /* how long a stomach rests after a meal came up */
    bool paused; /* no meal until `resume` or until the veterinarian says */
    bool has_resume;
    struct date resume;
    enum verdict meal_verdict; /* the keeper's own meal against the band */
    enum verdict interval_verdict;
    struct date next[MEAL_DATES];
    size_t next_count;
    const struct date *meal_days; /* of the planner's eight weeks, `next` among them */
    size_t meal_day_count;
    const struct supplement_plan *supplements;
    size_t supplement_count;
    struct diet_plan diet_now;
    bool has_need, has_energy; /* what it uses; what the plan gives beside it */
    double need_low_kcal_day, need_high_kcal_day;
    double plan_low_kcal_day, plan_high_kcal_day;
    bool is_fasted;  /* the recheck needs an empty stomach, as the veterinarian wrote */
    bool is_written; /* left to the veterinarian, whose own numbers say how much and how often */
    bool has_written_first;
    struct date written_first; /* of her own meals, and the kinds where they are insects */
    const struct prey_choice *written_insects;
    size_t written_insect_count;
    const char *written_medicine;    /* the home food among the medicines, left to her; NULL */
    bool meets_dose, has_dose_after; /* one of the next meals is on a day of a dose at home, ... */
    struct date dose_after;          /* and the next one within days of that meal */
    bool has_call_by;                /* only offered food: nothing eaten by then, call */
    struct date call_by;
    bool starts_after_check; /* all meals planned come no sooner than the recheck */
    bool fast_limit_passed;  /* by today */
    bool is_treated;         /* no meal yet: its mouth or airway is treated at home until then */
    bool waits_for_check;    /* ... or until the check, which comes within days */
    bool asks_first;         /* ... and its longest fast runs out meanwhile: a day may be written */
    bool is_warming;         /* no meal yet: before whole prey it is first as warm as it must be */
    bool is_long_fast;       /* it has gone without for longer than that */
    double fast_limit_days;  /* 0 unknown: refuse food longer -> call */
    double stool_limit_days;
    struct derivations how;
};

#endif
