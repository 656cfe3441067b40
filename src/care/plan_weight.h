/* What its weighings say, and what its weight is meant to do. */
#ifndef BASKLEAF_CARE_PLAN_WEIGHT_H
#define BASKLEAF_CARE_PLAN_WEIGHT_H

#include <stdbool.h>
#include <stddef.h>

#include "care/plan_sources.h"
#include "base/date.h"
#include "records/rules.h"

struct weighing_plan {
    struct date on;
    double mass_g;
};

enum { WEIGHINGS_MOST = 12 }; /* the latest; a long history loses its beginning */

struct growth_plan {
    const struct weighing_plan *weighings; /* those that can be right, in order of day */
    size_t weighing_count;
    bool has_trend; /* the straight line through them, on the first and on the last day */
    double trend_first_g, trend_last_g;
    bool known;
    double change_percent;
    long per_days;
    double percent_per_30_days;
    struct date since;
    enum verdict verdict;
    enum weight_state weight;
    bool has_ratio; /* the tortoise length-mass ratio */
    double ratio_g_cm3;
    enum verdict ratio_verdict;
    struct derivations how;
};

/* What the weight is meant to do. */
enum weight_purpose { WEIGHT_HOLD, WEIGHT_LOSE, WEIGHT_GAIN, WEIGHT_GROW, WEIGHT_LAY };

struct weight_plan {
    enum weight_purpose purpose;
    bool has_goal;
    double goal_g;
    const char *goal_from; /* goal-mass, or healthy: the last weighing marked so */
    bool has_score;
    double score, score_of;
    bool needs_fine_scale;  /* a gram is much of so small a mass */
    bool has_low, has_high; /* alarms, of today's mass */
    double alarm_low_g, alarm_high_g;
    bool low_is_written, high_is_written; /* as the veterinarian wrote it: printed to the gram */
    double alarm_days;                    /* within so many */
    double prey_days;  /* after a meal in which it is not weighed, where that moves a weighing */
    bool has_laid_low; /* WEIGHT_LAY: once the eggs or the young are out, in place of alarm_low_g */
    double laid_low_g;
    bool has_expected; /* on the day of the next weighing */
    struct date weigh_on;
    double expected_low_g, expected_high_g;
    struct derivations how;
};

#endif
