/* The visit record: what was found, what was measured at home, who is told.
 * Everything but the date, the kind, the animal's name and its species may be missing. */
#ifndef BASKLEAF_RECORDS_VISIT_H
#define BASKLEAF_RECORDS_VISIT_H

#include "records/calls.h"
#include "records/measures.h"
#include "records/terms.h"

struct visit_signature {
    struct text_value by;
    struct date_value on;
    struct text_value digest; /* hex SHA-256 of everything the sheet depends on */
    struct list parts;   /* of struct named_text: part -> digest, so that a change can be named */
    struct list earlier; /* of struct visit_signature: who signed before, the last first */
    struct mark at;
};

struct visit_weighing {
    struct date_value on;
    struct quantity mass_g;
    struct quantity length_cm;
    struct flag_value healthy; /* neither thin nor fat nor ill on that day */
    struct mark at;
};

struct visit_body_score {
    struct quantity score, of;
};

/* An animal without a species sheet. */
struct visit_unlisted {
    struct text_value kind;
    struct text_value scientific;
    struct choice_value group;
    struct choice_value habit;
    struct choice_value diet;
    struct choice_value reproduction;
    struct list traits; /* of struct choice_value, beside those of the whole group */
};

struct visit_patient {
    struct text_value name;
    struct text_value species;
    struct choice_value sex;
    struct date_value hatched; /* may be partial */
    struct quantity mass_g;
    struct quantity length_cm;
    struct text_value photo;     /* a PNG or JPEG file, a path from the record */
    struct list earlier;         /* of struct visit_weighing */
    struct quantity goal_mass_g; /* the veterinarian's */
    struct visit_body_score body_score;
    struct visit_unlisted unlisted; /* where species says so */
};

struct visit_keeper {
    struct text_value name;
    struct text_value telephone;
    struct text_value email;
    struct text_value language; /* a code of the wording files; NULL: the clinic's */
    struct choice_value units;
};

/* What stands on the sheet in place of a text; see lettering.h. */
struct visit_in_latin {
    struct text_value of, write;
};

enum wall { WALL_GLASS, WALL_PVC, WALL_WOOD, WALL_ACRYLIC, WALL_POLYCARBONATE, WALL_MESH };
enum lid { LID_MESH, LID_GLASS, LID_PVC, LID_WOOD, LID_ACRYLIC, LID_OPEN };
enum barrier { BARRIER_NONE, BARRIER_GLASS, BARRIER_PLASTIC };

/* Where a probe of the logger lies: its name in the file's titles, and the place. */
struct visit_log_probe {
    struct text_value name;
    struct choice_value zone;
};

struct visit_log {
    struct text_value file; /* a path from the record */
    struct list probes;     /* of struct visit_log_probe; the titles name the places when empty */
};

/* The keeper's readings that are judged stand in visit.measured. */
struct visit_readings {
    struct visit_log log;
    struct quantity room_c;
    struct choice_value humidity_at; /* a zone; cool-side when left out */
};

struct visit_lamp_measured {
    struct quantity uvi;
    struct quantity at_cm;
    struct flag_value through_mesh;
};

struct visit_mesh {
    struct quantity wire_cm;
    struct quantity opening_cm;
};

struct visit_lamp {
    struct choice_value kind;
    struct quantity tube_length_cm; /* lit length */
    struct visit_lamp_measured measured;
    struct quantity mesh_loss_percent;
    struct visit_mesh mesh;
    struct choice_value behind; /* glass or plastic between lamp and animal */
    struct date_value installed;
    struct quantity height_cm; /* lamp to the animal's back at the basking spot */
    struct quantity offset_cm; /* lamp's middle to the middle of the basking spot, along the tube */
    struct quantity hours;
    struct mark at;
};

enum heat_kind {
    HEAT_LAMP,
    HEAT_CERAMIC,
    HEAT_PANEL,
    HEAT_MAT,
    HEAT_CABLE,
    HEAT_MERCURY_VAPOUR,
    HEAT_WATER_HEATER,
    HEAT_HOT_ROCK,
    HEAT_RED_LIGHT,
    HEAT_NONE
};

enum substrate {
    SUBSTRATE_PAPER,
    SUBSTRATE_CARPET,
    SUBSTRATE_TILE,
    SUBSTRATE_BARE,
    SUBSTRATE_SAND,
    SUBSTRATE_SOIL,
    SUBSTRATE_BARK,
    SUBSTRATE_COCONUT_FIBRE,
    SUBSTRATE_MOSS,
    SUBSTRATE_ASPEN,
    SUBSTRATE_CEDAR_OR_PINE,
    SUBSTRATE_GRAVEL,
    SUBSTRATE_CRUSHED_SHELL
};

struct visit_heat {
    struct choice_value kind;
    struct quantity power_w;
    struct flag_value thermostat, guard;
    struct mark at;
};

struct visit_enclosure {
    struct box size;
    struct choice_value walls;
    struct quantity wall_thickness_cm;
    struct choice_value lid;
    struct quantity platform_height_cm; /* basking surface above the floor */
    struct quantity back_height_cm;     /* the animal's back above what it lies on */
    struct flag_value thermostat;
    struct flag_value heat_guard; /* a guard between lamp and animal */
    struct flag_value outdoor;
    struct quantity latitude_deg; /* north of the equator, south below 0 */
    struct list heat;             /* of struct visit_heat */
    struct choice_value substrate;
    struct quantity hides;    /* how many places to hide */
    struct flag_value shade;  /* a place that no lamp reaches */
    struct quantity perch_cm; /* the highest one below the lamp, above the floor */
    struct flag_value water_dish;
    struct quantity animals, males; /* that share it, this one among them */
    struct list mates;              /* of struct text_value: codes of species sheets */
    struct visit_readings readings;
    struct visit_lamp lamp;
};

enum ammonia_as { AMMONIA_TOTAL, AMMONIA_TOTAL_N, AMMONIA_NH3 };

/* What a kit read of the water stands in visit.measured. */
struct visit_water {
    struct quantity temperature_c; /* the same as enclosure.readings.water */
    struct choice_value ammonia_as;
    struct quantity volume_l;
    struct flag_value filter;
    struct quantity change_share_percent, change_every_days; /* what the keeper does now */
    struct mark at;
};

struct visit_diet {
    struct text_value food; /* a code of the reference values */
    struct text_value size; /* one of that food's */
    struct quantity meal_g;
    struct quantity count;
    struct quantity every_days;
    struct date_value last;
    struct mark at;
};

enum finding_certainty { CERTAINTY_CERTAIN, CERTAINTY_SUSPECTED };

struct visit_finding {
    struct text_value code;
    struct text_value where; /* words for the reader: "tail" */
    struct choice_value severity;
    struct text_value note;        /* the veterinarian's own words, printed as written */
    struct text_value step;        /* of the finding's own scale */
    struct quantity value;         /* counted or scored today; never judged */
    struct choice_value state;     /* enum finding_state; see visit_finding_state */
    struct choice_value certainty; /* enum finding_certainty */
    struct mark at;
};

/* What happened when, as the keeper or the record says. */
struct visit_history {
    struct date_value events[EVENT_COUNT];
};

struct visit_winter_rest {
    struct flag_value planned;
    struct flag_value in_progress; /* it is resting now */
    struct date_value starts;      /* the first day at rest */
    struct quantity longest_days;  /* the veterinarian's */
    struct band rest_c;            /* likewise */
};

/* The veterinarian's hand: a stance, an action struck or moved, or words of her own. */
struct visit_decision {
    struct text_value topic, stance;
    struct date_value until;
    struct text_value because;
    struct flag_value confirmed; /* the second yes for a stance that is held dangerous */
    struct text_value action;
    struct flag_value strike;
    struct quantity place; /* among the actions, from 1 */
    struct text_value own; /* key `do`: her words, an action of their own */
    struct mark at;
};

enum medicine_route {
    ROUTE_BY_MOUTH,
    ROUTE_INJECTION,
    ROUTE_UNDER_THE_SKIN,
    ROUTE_INTO_THE_MUSCLE,
    ROUTE_ON_THE_SKIN,
    ROUTE_IN_THE_EYE,
    ROUTE_IN_THE_EAR,
    ROUTE_IN_THE_NOSE,
    ROUTE_BREATHED_IN,
    ROUTE_IN_THE_MOUTH,
    ROUTE_FEEDING_TUBE,
    ROUTE_IN_A_BATH
};

enum day_part {
    DAY_PART_MORNING,
    DAY_PART_NOON,
    DAY_PART_AFTERNOON,
    DAY_PART_EVENING,
    DAY_PART_NIGHT,
    DAY_PART_COUNT
};

/* As the veterinarian wrote it: nothing is ever proposed. */
enum medicine_giver { GIVEN_AT_HOME, GIVEN_HERE };

/* A day without a dose. */
struct visit_day {
    struct date_value on;
    struct mark at;
};

struct visit_medicine {
    struct text_value name;
    struct quantity amount; /* at a time; its unit is part of it */
    struct choice_value route;
    struct quantity every_h;
    struct quantity for_days; /* either this */
    struct quantity doses;    /* or so many */
    struct date_value first;
    struct list not_on;               /* of struct visit_day */
    struct choice_value at;           /* enum day_part of the first dose */
    struct choice_value given;        /* enum medicine_giver */
    struct flag_value given_today;    /* here, on the visit's day: the first of the course */
    struct text_value given_today_at; /* "16:00" */
    struct text_value here_at;        /* "10:30": the hour of each further dose given here */
    struct quantity dose_mg_kg, strength_mg_ml;
    struct text_value directions;      /* printed unchanged */
    struct text_value for_what, watch; /* likewise */
    struct mark mark;
    struct flag_value confirmed; /* the second yes for an amount that looks like a slip */
};

/* A result that is not there yet. */
/* A dressing while a turtle swims. */
enum dressing_in_water { DRESSING_LEFT_ON, DRESSING_TAKEN_OFF };

enum result_by { RESULT_BY_TELEPHONE, RESULT_BY_MAIL, RESULT_AT_VISIT };

struct visit_result {
    struct text_value of; /* a procedure of today */
    struct date_value by;
    struct choice_value how; /* enum result_by */
    struct mark at;
};

/* What was written of the days after a procedure of today. */
struct visit_aftercare {
    struct text_value of;         /* a procedure of today */
    struct date_value check;      /* it is looked at, taken off or given again */
    struct quantity hours, times; /* out of the water: so long, so often a day */
    struct text_value awake_by;   /* "17:30" */
    struct text_value from;       /* "18:00": out of the water from then */
    struct quantity amount;       /* into the stomach */
    struct quantity every_h;
    struct date_value first;      /* by tube at home */
    struct choice_value in_water; /* enum dressing_in_water */
    struct mark at;
};

/* Where a finding that was referred is seen next. */
struct visit_referral {
    struct text_value to;
    struct date_value on;
    struct mark at;
};

struct visit_follow_up {
    struct quantity recheck;     /* from the visit's day; its unit says days, weeks or months */
    struct date_value booked;    /* the day that was agreed on; it goes before `recheck` */
    struct text_value booked_at; /* "10:30" */
    struct list results;         /* of struct visit_result */
    struct list aftercare;       /* of struct visit_aftercare */
    struct visit_referral referral;
    struct flag_value empty_stomach; /* no meal on the day before and of the recheck */
    struct date_value urine_by;      /* no urine by then: the keeper calls */
    struct date_value eggs_by;       /* no egg by then: likewise */
};

/* A veterinarian's own targets win over the species sheet and over rules. */
/* A powder on the food as the veterinarian sets it: times a week, or every n-th meal. */
struct visit_powder {
    struct choice_value what;
    struct quantity per_week, every_meals;
    struct mark at;
};

struct visit_targets {
    struct band measured[MEASURE_COUNT];
    struct band meal_g;
    struct band insects; /* pieces a meal */
    struct band every_days;
    struct quantity start_percent, start_days; /* of a build-up: its first share, and how long */
    struct band light_hours;
    struct quantity call_mass_g; /* weighs so much or less: the keeper calls */
    struct list powders;         /* of struct visit_powder; instead of the species' */
    struct list confirmed; /* of struct text_value: keys of targets that are meant as they stand */
    struct text_value because;
    struct text_value by; /* visit.veterinarian when left out */
    struct mark at;
};

struct visit {
    struct date_value date;
    struct text_value kind; /* of sheet: a file of templates/sheets */
    struct text_value veterinarian;
    struct text_value previous; /* the record of the visit before: a path from this one */
    struct text_value notes_in; /* language tag (BCP 47) of the free texts */
    struct visit_signature signature;
    struct visit_patient patient;
    struct visit_keeper keeper;
    struct visit_enclosure enclosure;
    struct visit_water water;
    struct quantity measured[MEASURE_COUNT]; /* as read at home, each in its dimension's unit */
    struct list diet;                        /* of struct visit_diet */
    struct list findings;                    /* of struct visit_finding */
    struct list done_today;                  /* of struct text_value: procedures */
    struct list medicines;                   /* of struct visit_medicine */
    struct visit_follow_up follow_up;
    struct visit_targets targets;
    struct visit_history history;
    struct visit_winter_rest winter_rest;
    struct list in_latin;      /* of struct visit_in_latin */
    struct list decisions;     /* of struct visit_decision */
    struct text_value message; /* a paragraph of the clinic's own for this keeper */
    const char *file;          /* borrowed */
    const struct node *tree;   /* as it was read and settled, borrowed */
};

extern const struct schema visit_schema, visit_signature_schema;
extern const struct choice route_choices[], day_part_choices[];
extern const struct choice wall_choices[], lid_choices[], result_by_choices[], dressing_choices[],
    substrate_choices[];

/* Reads and checks one record ("-": standard input). `today` bounds the dates: a
 * visit or a measurement in the future is an error. NULL after errors. */
struct visit *visit_read(const char *path, struct date today, struct arena *arena,
                         struct diag *diag);
struct visit *visit_read_tree(const struct node *tree, const char *path, struct date today,
                              struct arena *arena, struct diag *diag);

/* The day of the last meal of any food; false when none is written. */
bool visit_last_meal(const struct visit *visit, struct date_value *last);

/* The state of a finding: what the record says, else seen where it names a veterinarian. */
enum finding_state visit_finding_state(const struct visit *visit,
                                       const struct visit_finding *finding);

/* A mercury-vapour lamp heats, also where it is written as the UVB lamp alone. */
static inline bool visit_has_mercury_lamp(const struct visit_enclosure *box)
{
    return box->lamp.kind.known && box->lamp.kind.value == LAMP_MERCURY_VAPOUR;
}

/* Is every heat source on a thermostat, or guarded? What is said of all of them, else of each:
 * unknown where one says nothing, no where one says no. */
struct flag_value visit_thermostat(const struct visit *visit);
struct flag_value visit_heat_guard(const struct visit *visit);

/* The checks beyond the schema that need no species: dates in order, a cool
 * side warmer than the basking spot, a mail address that is one line and has an @ ... */
bool visit_check(const struct visit *visit, struct date today, struct diag *diag);

#endif
