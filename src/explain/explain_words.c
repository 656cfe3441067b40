/* Codes of the plan's enumerations, shared by text and JSON. */
#include "explain/explain.h"

const char *explain_verdict_word(enum verdict verdict)
{
    return bind_choice_word(verdict_choices, (int)verdict);
}

const char *explain_unit(enum measure_id measure)
{
    static const char *const units[DIM_END] = {
        [DIM_TEMPERATURE] = "C", [DIM_PERCENT] = "%",          [DIM_UV_INDEX] = "UVI",
        [DIM_LENGTH] = "cm",     [DIM_CONCENTRATION] = "mg/l", [DIM_HARDNESS] = "dGH",
    };
    const char *unit = units[measures[measure].dimension];
    return unit ? unit : "";
}

const char *explain_origin_word(enum origin origin)
{
    static const char *const words[] = {
        [ORIGIN_SPECIES_SHEET] = "species-sheet",
        [ORIGIN_REFERENCE] = "reference-values",
        [ORIGIN_VETERINARIAN] = "veterinarian",
        [ORIGIN_FINDING] = "finding",
        [ORIGIN_KEEPER] = "keeper",
    };
    return words[origin];
}

const char *explain_review_word(enum review_kind kind)
{
    static const char *const words[] = {
        [REVIEW_CONFLICT] = "conflict", [REVIEW_IMPLAUSIBLE] = "implausible",
        [REVIEW_MISSING] = "missing",   [REVIEW_SPREAD] = "spread",
        [REVIEW_OVERRIDE] = "override", [REVIEW_REMARK] = "remark",
    };
    return words[kind];
}

const char *explain_stage_reason_word(enum stage_reason reason)
{
    static const char *const words[] = {
        [STAGE_BY_AGE] = "by-age",
        [STAGE_BY_LENGTH] = "by-length",
        [STAGE_BY_MASS] = "by-mass",
        [STAGE_ASSUMED_ADULT] = "assumed-adult",
    };
    return words[reason];
}

const char *explain_distance_word(enum uvb_distance_why why)
{
    static const char *const words[] = {
        [DISTANCE_KNOWN] = "known",           [DISTANCE_NO_READING] = "no-reading",
        [DISTANCE_NO_LAMP] = "no-lamp",       [DISTANCE_BLOCKED] = "blocked",
        [DISTANCE_NOT_NEEDED] = "not-needed", [DISTANCE_OUT_OF_REACH] = "out-of-reach",
        [DISTANCE_TOO_STRONG] = "too-strong", [DISTANCE_TOO_WEAK] = "too-weak",
    };
    return words[why];
}

const char *explain_weight_purpose_word(enum weight_purpose purpose)
{
    static const char *const words[] = {
        [WEIGHT_HOLD] = "hold", [WEIGHT_LOSE] = "lose", [WEIGHT_GAIN] = "gain",
        [WEIGHT_GROW] = "grow", [WEIGHT_LAY] = "lay",
    };
    return words[purpose];
}
