/* Inside care/: the plan under construction and the helpers that every
 * computation uses to leave a trace. Not for other layers. */
#ifndef BASKLEAF_CARE_BUILD_H
#define BASKLEAF_CARE_BUILD_H

#include "care/plan.h"

struct ends {
    double low, high;
};

/* What was made of an earlier weighing that does not go with those beside it. */
enum weighing_doubt { WEIGHING_BELIEVED, WEIGHING_ASKED, WEIGHING_LEFT_OUT };

struct care_build {
    const struct care_inputs *in;
    struct care_plan *plan;
    struct arena *arena;
    struct diag *diag;
    struct review *last_review;
    /* the catalogue's entries of the plan's findings and procedures, in the plan's order */
    const struct finding **findings;
    struct finding_plan *plan_findings; /* the plan's, for what follows from its signs */
    const struct procedure **procedures;
    struct stance_calls *calls;                 /* what is called for, see stances.c */
    const enum weighing_doubt *weighing_doubts; /* of each earlier weighing, see weighings.h */
};

/* What a derivation says, see struct derivation; the inputs are copied. */
struct derived {
    const char *what;
    double value;
    const char *unit, *formula, *source;
    const struct plan_input *inputs;
    size_t input_count;
};

/* Adds a derivation. Its band is the value alone, which is right where nothing was measured; else
 * give the returned one its band. */
struct derivation *build_derive(struct care_build *b, struct derivations *how,
                                struct derived derived);
/* The ends of the band, in either order. */
void build_band(struct derivation *made, double one_end, double other_end);

/* What the scale leaves of a mass: the lowest and the highest that it may be. */
struct ends build_mass_g(const struct care_build *b, double mass_g);

/* What the tape leaves of an animal's length. */
struct ends build_length_cm(const struct care_build *b, double length_cm);

#define INPUTS(...)                                                                                \
    ((const struct plan_input[]){__VA_ARGS__}),                                                    \
        sizeof((const struct plan_input[]){__VA_ARGS__}) / sizeof(struct plan_input)

/* Adds a remark for the veterinarian; facts are given with the makers below and may be NULL. */
struct review *build_review(struct care_build *b, enum review_kind kind, const char *code,
                            struct mark at, struct plan_fact *facts);
struct plan_fact *build_fact(struct care_build *b, const char *name, enum fact_kind kind,
                             double low, double high, struct plan_fact *next);
struct plan_fact *build_fact_date(struct care_build *b, const char *name, struct date date,
                                  struct plan_fact *next);
struct plan_fact *build_fact_text(struct care_build *b, const char *name, enum fact_kind kind,
                                  const char *text, struct plan_fact *next);

/* What kills the germ of a finding of this animal on tools; NULL: no source names it. */
const struct disinfectant_plan *build_disinfectant(const struct care_build *b, const char *finding);

/* The animal, for filters of data; its stage is known once the stances are planned. */
/* The names of a species sheet, by language. */
const struct plan_name *build_names(struct care_build *b, const struct list *list);
struct whom_animal build_animal(const struct care_build *b);

/* The provenance of a species sheet's or reference's value. */
struct provenance build_from_sourced(const struct sourced_value *sourced,
                                     const struct list *sources, enum origin origin);

/* A confirmation that holds; without one, or when ours has changed, nobody's. */
struct plan_confirmed build_confirmed(const struct confirmation *confirmed);

/* What a phase comes from, as a bare code: "burn" of finding:burn; the veterinarian's, a
 * settlement's or a call's name alike. NULL for what is usual. */
const char *build_stance_from(const struct stance_phase *phase);

/* The provenance of the visit's own targets: who set them and why. */
struct provenance build_from_veterinarian(const struct care_build *b);

/* A threshold of the reference values, by name (its lower end where it is a band). The file
 * is refused when one is missing, so the name must stand in the table of
 * records/reference_values.c. */
double build_limit(const struct care_build *b, const char *name);

/* Adds REVIEW_SPREAD for every value that was not chosen and whose middle lies outside the
 * chosen band. Facts: chosen, other (of `kind`), source, other-source (FACT_TEXT). */
void build_spread(struct care_build *b, const char *code, const struct sourced_value *sourced,
                  const struct list *sources, enum fact_kind kind);

/* False after a DIAG_ERROR with the value's place when a written number is not finite. */
bool build_is_finite(struct care_build *b, const struct quantity *value, const char *path);

/* Step to the nearest end of a band: 0 inside, above 0 when the value is too low. */
double build_step(double value, double low, double high);

/* Verdict of a value against a band; ends belong to the band. */
enum verdict build_verdict(double value, double low, double high);

/* The open day that is taken for a day on which the clinic is closed. Of a grave finding the one
 * before it; else the one after it, if that is no later than `latest` and than the limit
 * closed-days-later-most-days, else the one before it. Never the visit's day. Where all of that
 * fails, the next open day, too late. */
enum open_day_why { OPEN_DAY_SAME, OPEN_DAY_EARLIER, OPEN_DAY_LATER, OPEN_DAY_TOO_LATE };
struct open_day {
    struct date on;
    enum open_day_why why;
};
struct open_day build_open_day(const struct care_build *b, struct date on, struct date latest);
/* The same, told to the veterinarian where it moves. */
struct date build_check_day(struct care_build *b, struct date on, struct date latest,
                            struct mark at);
/* When a result that is due by then is told: no laboratory is sooner than it said, so on a closed
 * day the next open one, and the veterinarian hears of it. */
struct date build_result_day(struct care_build *b, const struct date_value *by);
/* A `latest` that is later than any open day. */
struct date build_no_limit(struct date on);
/* Has it any finding that is not a normal one? */
bool build_has_illness(const struct care_build *b);
/* Was it found, and not as normal? */
bool build_is_found(const struct care_build *b, const char *code);
/* The finding whose usual recheck ends first, or NULL. */
const struct finding_plan *build_soonest_recheck(const struct care_build *b);

/* The parts, in the order in which care_plan_make calls them. Each reads what
 * earlier ones left in the plan. False only after a DIAG_ERROR. */
bool identity_plan(struct care_build *b);       /* who it is, whose, who says it */
bool opening_hours_plan(struct care_build *b);  /* are closed days known? */
bool patient_plan(struct care_build *b);        /* age, plausibility of mass and length */
bool plausible_plan(struct care_build *b);      /* what cannot be right together, asked back */
bool plausible_days_plan(struct care_build *b); /* the same of days of the past */
bool plausible_home_plan(struct care_build *b); /* the same of box, lamp, water and days ahead */
bool stage_plan(struct care_build *b); /* the stage of life that the species sheet feeds by */
bool own_targets_check(struct care_build *b); /* slips of the pen among the own targets */
bool aftercare_plan(struct care_build *b);
bool aftercare_said_plan(struct care_build *b); /* what was written of the days after */
bool blanks_plan(struct care_build *b);         /* what is still to be filled in by hand */

/* When procedure `i` of the plan is looked at: the day planned and the latest; false for none. */
bool procedure_check(const struct care_build *b, size_t i, struct date *planned,
                     struct date *latest);

/* The same on an open day, that of another procedure where the catalogue names one. */
bool procedure_check_day(const struct care_build *b, const struct procedure_plan *done,
                         struct date *day);
/* What was ordered today under the topic's own name, with a day written for it; NULL for nothing.
 */
const struct procedure_plan *procedure_written_for(const struct care_build *b, const char *topic,
                                                   size_t length);
bool findings_plan(struct care_build *b);           /* exam order, tiers, procedures */
bool winter_rest_plan(struct care_build *b);        /* may it rest, and when; before the stances */
bool stances_plan(struct care_build *b);            /* what is called for */
bool winter_rest_calls_plan(struct care_build *b);  /* what a rest that may be calls for */
bool long_fast_calls_plan(struct care_build *b);    /* a small meal after a long fast */
bool long_fast_asks_plan(struct care_build *b);     /* and on which day, after any long fast */
bool stances_settle_plan(struct care_build *b);     /* each topic settled */
bool winter_rest_stance_plan(struct care_build *b); /* its dates, where the stance lets it rest */
/* Again, with what verdicts call for. */
bool stances_after_readings_plan(struct care_build *b);
bool decisions_plan(struct care_build *b); /* the veterinarian's: names, ends, the second yes */
bool instructions_agree_plan(struct care_build *b); /* which declared texts may be printed */
bool stances_speak_plan(struct care_build *b);      /* which stances speak by themselves */
bool log_plan(struct care_build *b);                /* a data logger in place of single readings */
bool log_judge_plan(struct care_build *b);          /* the same against the settled targets */
bool lying_plan(struct care_build *b);
bool temperature_plan(struct care_build *b);
bool heating_plan(struct care_build *b);
bool humidity_plan(struct care_build *b);
bool water_plan(struct care_build *b);
bool season_plan(struct care_build *b); /* before the calls, some of which are of a season */
bool uvb_plan(struct care_build *b);
bool growth_plan(struct care_build *b);
bool weight_plan(struct care_build *b);  /* what the weight is meant to do: feeding must know */
bool recheck_plan(struct care_build *b); /* the recheck's day: feeding must know it */
bool feeding_rest_over_check(struct care_build *b);
bool feeding_plan(struct care_build *b);
bool company_plan(struct care_build *b);
bool company_floor_plan(struct care_build *b);
bool brought_in_plan(struct care_build *b); /* from here on nothing of its pen is known */
bool outdoors_plan(struct care_build *b);
bool enclosure_plan(struct care_build *b);
bool actions_plan(struct care_build *b); /* the rule engine */
bool since_plan(struct care_build *b);   /* how the first actions of the visit before stand now */
bool steps_plan(struct care_build *b);   /* how the actions stand in rows */
bool call_days_plan(struct care_build *b);
bool warnings_plan(struct care_build *b);
bool medicines_plan(struct care_build *b); /* doses by day, and what looks like a slip */
bool tube_food_plan(struct care_build *b);
bool tube_here_plan(struct care_build *b); /* what the clinic gives by tube, by days */
bool dates_plan(struct care_build *b);
bool sources_plan(struct care_build *b);

#endif
