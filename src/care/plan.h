/* The care plan: everything a sheet says, as data. The hinge of the program:
 * explain, the PDF, the mail text and the calendar all read this and nothing else, so
 * they cannot disagree. Numbers are SI (deg C, cm, g, %, days, UVI); words are codes
 * that the wording layer knows. No words, no drawing.
 *
 * Built once by care_plan_make, constant afterwards, all in the sheet's arena.
 */
#ifndef BASKLEAF_CARE_PLAN_H
#define BASKLEAF_CARE_PLAN_H

#include <stdint.h>

#include "care/logger_plan.h"
#include "care/plan_box.h"
#include "care/plan_feeding.h"
#include "care/plan_doses.h"
#include "care/plan_review.h"
#include "care/plan_sources.h"
#include "care/plan_stances.h"
#include "care/plan_weight.h"
#include "base/code_index.h"
#include "records/clinic.h"
#include "records/instructions.h"
#include "records/reference_values.h"
#include "records/findings.h"
#include "records/rules.h"
#include "records/sheet_template.h"
#include "records/species.h"
#include "records/steps.h"
#include "records/visit.h"

/* ---- who the sheet is about, and who says it ----------------------------------------- */

/* A name in one language. */
struct plan_name {
    const char *language, *text;
};

/* Which kind of animal it is, as far as anybody says it: the species sheet itself stays in care. */
struct taxon_plan {
    const char *code;
    const char *scientific;
    const struct plan_name *names;
    size_t name_count;
    struct mark names_at; /* for faults: where one is missing */
    enum group group;
    enum habit habit;
    bool reproduction_known; /* does it lay eggs or bear young? */
    enum reproduction reproduction;
    const char *const *normal; /* codes of what is normal for it */
    size_t normal_count;
    const char *const *law; /* codes */
    size_t law_count;
    bool from_clinic;                       /* from the clinic's own folder of sheets */
    bool is_unlisted;                       /* no sheet: no number but the veterinarian's own */
    bool has_gills, is_chameleon;           /* what is seen of it from the side */
    struct species_review review;           /* how much of the sheet is settled, and by whom */
    const struct plan_confirmed *confirmed; /* every confirmed value, as the sheet lists them */
    size_t confirmed_count;
};

/* The photo as it is shown: a small JPEG with nothing in it but its pixels. */
struct photo_plan {
    const uint8_t *jpeg; /* NULL: there is none */
    size_t length;
    int width_px, height_px;
};

struct patient_plan {
    struct photo_plan photo;
    struct text_value name;
    struct choice_value sex;
    bool age_known;
    struct date hatched; /* may be partial */
    long age_days;
    bool has_mass; /* false too when what is written is implausible: put to review, not printed */
    double mass_g;
    bool has_length; /* likewise */
    double length_cm;
};

/* A text's mark is the place to name when it will not do or is not there. */
struct keeper_plan {
    struct text_value name;
    struct text_value email;
    struct text_value language; /* the keeper's, else the clinic's */
    enum unit_system units;     /* likewise */
};

/* The clinic as a sheet names it; its file stays in care. */
struct letterhead_plan {
    struct text_value name;     /* with its place, for faults in a head of a message */
    const char *const *address; /* lines */
    size_t address_count;
    const char *telephone, *out_of_hours, *web; /* NULL: not written */
    struct opening opening;                     /* hours and closed days */
    const char *const *hours_text;              /* free lines instead of hours */
    size_t hours_text_count;
    struct mark hours_at;
    struct text_value email; /* with its place */
    enum clinic_paper paper;
};

/* Targets that the veterinarian set for this animal. */
struct own_targets_plan {
    bool any;
    const char *by;      /* who set them; NULL: not written */
    const char *because; /* likewise */
};

/* ---- the parts ------------------------------------------------------------------ */

/* One measured quantity: what to aim for, what was read, what to change. In the unit of its
 * dimension; the rows of records/measures.h in that order. */
struct measured_plan {
    bool applies;     /* this species has a target for it */
    bool limit_only;  /* it has none, but a reading: that is held against `most` alone */
    double low, high; /* the target */
    double usual_low, usual_high; /* the same before anything found moves it */
    bool fits_usual;              /* the reading is right for it when it is well */
    double most;                  /* never above, however the meter errs; INFINITY: not said */
    struct provenance target_from;
    bool has_reading;
    double reading;
    double judged; /* what is held against the target: the reading, or what follows from it at the
                      place that the target is for */
    double judged_low, judged_high; /* as sure as the meter is */
    bool read_higher;               /* it was right, but read where it lies no more: not known */
    bool implausible;               /* the reading cannot be right: verdict unknown, under review */
    enum verdict verdict;
    double change; /* from `judged` to the nearest end of the target; 0 in range; + more */
};

struct heating_plan {
    bool known;
    double low_w, high_w; /* power to hold the warm air; always with a thermostat */
    double own_w;         /* of all heaters there; 0 where that of one is not known */
    const char *why_not;  /* code when not known: mesh-lid, no-size, no-room-temperature ... */
    struct derivations how;
};

struct temperature_plan {
    enum gradient_state gradient;
    double gradient_c; /* warm (or basking) minus cool, as read */
    enum night_state night;
    double night_drop_c;
    bool has_upper_limit;
    double upper_limit_c;
    struct heating_plan heating;
    struct derivations how;
};

struct humidity_zone {
    enum zone zone;
    double rh_percent;                /* the same air, at that zone's temperature */
    double low_percent, high_percent; /* as sure as the meters are */
};

struct humidity_plan {
    bool in_shed_now; /* the target is the shed band because of a finding */
    double after_low_percent, after_high_percent; /* in_shed_now: what it goes back to */
    bool has_shed_band;
    double shed_low_percent, shed_high_percent;
    bool moist_hide, is_read_cold; /* too damp as read, no more so once its place is warm enough */
    enum zone reading_at;
    /* The target is for the air of the cool side. What a reading taken elsewhere comes to there, at
     * constant vapour pressure, is shown and never judged. */
    struct humidity_zone equivalent[ZONE_COUNT];
    size_t equivalent_count;
    bool has_dew_point;
    double dew_point_c;
    enum wall_state wall; /* does the coldest surface run wet */
    bool has_water_lack;
    double water_lack_g_m3; /* grams of water a cubic metre lacks to the target's lower end */
    struct derivations how;
};

/* What the tests of the water add up to. The tests themselves, un-ionised ammonia and the depth
 * stand in `measured`. */
struct water_plan {
    bool applies;     /* the species' sheet or the veterinarian has targets for water */
    bool lives_in_it; /* else it has a dish, which is emptied whole */
    enum water_state state;
    enum verdict verdict; /* the worst of all tests */
    bool has_total;
    double ammonia_total_mg_l; /* NH3 and NH4 together, as mg of NH3 */
    bool has_usual;            /* how the water is changed week by week */
    double usual_low_percent, usual_high_percent;
    double usual_low_days, usual_high_days;
    struct provenance usual_from;
    bool is_unfiltered;          /* that of a tank without a filter */
    enum verdict change_verdict; /* what the keeper does now against that */
    bool part_now;               /* a part is changed today and again until the tests are clean */
    double part_low_percent, part_high_percent;
    double part_apart_c; /* the new water's warmth differs by no more */
    double part_every_days;
    struct date retest; /* with part_now */
    bool has_litres;
    double volume_l, part_low_l, part_high_l;
    bool cool_down; /* in steps */
    double cool_c_hour, cool_c_day, cool_days;
    double cool_tonight_c; /* no cooler on the visit's day */
    struct derivations how;
};

enum uvb_distance_why {
    DISTANCE_KNOWN,
    DISTANCE_NO_READING,
    DISTANCE_NO_LAMP,
    DISTANCE_BLOCKED,
    DISTANCE_NOT_NEEDED,
    DISTANCE_OUT_OF_REACH, /* the reading does not support any safe distance for the zone */
    DISTANCE_TOO_STRONG,   /* no safe distance fits below the lid */
    DISTANCE_TOO_WEAK      /* not even the nearest safe distance gives enough */
};

enum { UVI_MAP_COLUMNS = 8, UVI_MAP_ROWS = 6 };

/* The index over the box from the side, on level ground, once the lamp hangs as it should; rows
 * from the floor up, columns from the lamp's end. */
struct uvi_map {
    bool known;
    double lamp_above_floor_cm, lamp_from_end_cm;
    double from_end_cm[UVI_MAP_COLUMNS], above_floor_cm[UVI_MAP_ROWS];
    bool has_uvi[UVI_MAP_ROWS][UVI_MAP_COLUMNS]; /* false: the reading does not reach so far */
    double uvi[UVI_MAP_ROWS][UVI_MAP_COLUMNS];
};

/* Target, verdict and the index at the animal's back where the lamp hangs now stand in
 * measured[MEASURE_UVB]. */
struct uvb_plan {
    int zone_low, zone_high; /* Ferguson zone */
    double most_uvi;         /* never above */
    double aim_uvi;          /* at the basking place: what the lamp is hung for */
    double background_uvi;   /* elsewhere in the box no more; 0: not known */
    const char *use_because; /* how the zone's ranges are used; NULL: no zone */
    enum uvb_distance_why distance_why;
    double recommended_cm, nearest_cm, farthest_cm; /* lamp to the animal's back */
    bool nearest_held_by_formula; /* nearest is where the formula or the reading ends, not the
                                     target */
    bool has_lamp_above_platform;
    double lamp_above_platform_cm; /* recommended + height of the back */
    bool has_lamp_above_floor;     /* the platform's height is known too */
    double lamp_above_floor_cm;    /* + platform */
    bool has_change;
    double change_cm;          /* + raise the lamp, - lower it */
    double through_mesh_share; /* 1: no mesh */
    bool below_mesh;           /* it must hang below the mesh, for what lies low */
    bool mesh_unknown;         /* there is one, and nobody knows what it holds back */
    bool has_shade_uvi;
    double shade_uvi; /* at the far end of the box */
    struct uvi_map map;
    bool sun;           /* it lives in the sun, and nothing else gives UVB */
    bool has_perch_uvi; /* at the highest perch, once the lamp hangs as it should */
    double perch_below_lamp_cm, perch_uvi;
    enum perch_state perch;
    double hangs_cm; /* from the back today, as it was written; 0: it was not */
    bool has_lamp_due;
    struct date lamp_installed, lamp_due;
    bool lamp_overdue;
    enum lamp_state lamp;
    const char *unreliable; /* its kind, a word of lamp_choices, where it gives no UVB to rely on */
    double hours_now;       /* of light to give, by season */
    int hours_off;          /* the timer is far from them: -1 too short, 1 too long */
    double hours_set; /* what the timer gives where that differs; 0: it does not, or nobody knows */
    enum season season;
    struct derivations how;
};

/* One step down on the way into the rest. */
struct rest_step {
    struct date on;
    double to_c;
};

struct rest_weighing {
    struct date on;
    double least_g; /* what it may have lost by then */
};

enum { REST_STEPS_MOST = 6, REST_WEEKS_MOST = 40 };

/* The winter's rest: what speaks against it, or its dates. */
struct winter_rest_plan {
    bool is_asked; /* planned, or under way */
    bool in_progress, is_allowed;
    const char *const *why; /* codes of what speaks against it */
    size_t why_count;
    bool has_c;
    double low_c, high_c; /* where it rests */
    struct provenance c_from;
    bool has_last_meal, has_start, has_wake; /* each day known */
    struct date last_meal, start, wake, warm_by, eat_by;
    struct rest_step steps[REST_STEPS_MOST]; /* the last on the first day at rest */
    size_t step_count;
    bool is_woken_cold; /* out of it and not warm: until `warm_on` no place has a target */
    struct date warm_on;
    struct rest_step warming[REST_STEPS_MOST]; /* of the warm side; none where it was not read */
    size_t warming_count;
    double warm_low_c, warm_high_c, cool_low_c, cool_high_c; /* from `warm_on`; 0: not known */
    bool has_mass;
    double start_g, call_g, wake_g; /* the weight that the rest begins with; alarms */
    struct rest_weighing weeks[REST_WEEKS_MOST];
    size_t week_count;
    struct derivations how;
};

/* What kills its germ on tools. */
struct disinfectant_plan {
    const char *product; /* a code, worded under disinfectant.<code> */
    bool has_percent, has_seconds;
    double percent, seconds;
    struct provenance from;
};

struct finding_plan {
    const char *code;
    enum severity severity;
    const char *where, *note; /* the record's words, or NULL */
    /* not certain; its very name says so; by the words of where */
    bool is_suspected, is_name_doubt, is_under_shell;
    enum body_system system;
    enum finding_state state;
    bool has_steps;   /* a scale of its own, and no severity that would mean anything */
    bool is_as_it_is; /* it has one severity, which then says nothing: a shed, a new animal */
    const char *step; /* of its own scale; NULL for none */
    bool has_value;
    double value;                                 /* counted or scored today */
    const struct disinfectant_plan *disinfectant; /* NULL: no source names one */
    bool is_urgent;
    enum tier tier;
    enum headline headline;
    bool has_recheck;
    double recheck_low_days, recheck_high_days;
    double recheck_days;                  /* of that: the near end where it is severe */
    const struct finding_plan *harmed_by; /* found too, and does it harm; NULL: nothing does */
};

struct procedure_plan {
    const char *code;
    bool awaits_result; /* one comes of it */
    bool has_result;    /* and the veterinarian wrote when */
    struct date result; /* it is there at the latest */
    enum result_by result_by;
    bool has_check, asks_water; /* she wrote when it is looked at; not what to do in the water */
    struct date check;
    const char *in_water; /* word of dressing_choices; NULL: not written */
};

/* What she wrote of the days after; 0 where she did not. */
struct aftercare_plan {
    double dry_hours; /* out of the water at a time */
    double dry_times; /* a day */
    bool has_dry_from;
    int dry_from_minute; /* of the day: once a day from then on */
    bool has_awake_by, has_tube_first;
    int awake_by_minute; /* of the day */
    double tube_ml, tube_every_h;
    const char *tube_food;  /* its name among the medicines; NULL: none is named */
    struct date tube_first; /* at home, where she wrote it */
};

/* The days on which the clinic gives something through a tube; without doses that of its check. */
struct tube_here_plan {
    const struct date *days;
    size_t count;
    bool has_doses;
};

/* One dose. The time of day is a word: a dose after midnight belongs to the night before it. */
struct dose_plan {
    struct date on;
    enum day_part at;
    int minute;     /* by the clock */
    bool says_hour; /* given by the clinic: that hour is known and it is open then */
};

/* A medicine as the veterinarian wrote it, with the days that follow from it. */
struct medicine_plan {
    const char *name, *directions;           /* no directions: NULL */
    bool says_warmth, says_depth, says_bath; /* the directions, of a bath */
    bool has_amount, has_route, has_every, has_first, has_last, has_way;
    double amount; /* at a time, in its own unit */
    enum unit amount_unit;
    enum medicine_route route, way; /* way: the route, else by its name: for a picture alone */
    double every_h;
    bool has_for, has_count; /* written as days, or as doses */
    double for_days;
    long dose_count; /* all that are left, however the end was written; 0: no end is written */
    struct date first;
    bool is_given_here;            /* by the clinic, each dose on a visit */
    bool is_given_today;           /* the first dose was given here; `first` is the next */
    int given_minute;              /* of the day; -1: not written */
    bool says_at, says_clock;      /* the time of day was written, or doses fall on several */
    bool begins_at_midnight;       /* a day of its doses, as they are counted from an hour */
    const struct dose_plan *doses; /* in order; without an end those of the planner's weeks */
    const struct date *closed;     /* days of doses that the clinic gives, on which it is closed */
    size_t listed, closed_count;
    const struct date *not_on; /* days without a dose, as written, on which one was due */
    size_t not_on_count;
    bool leaves_day; /* no dose on the day of the referral: her own step says what of it then */
    bool goes_on;    /* doses are due behind the listed ones, from that day */
    struct date goes_on_from;
    bool asks_hours;              /* several a day at home, at hours that nobody wrote */
    bool asks_days;               /* given by the clinic on days that nobody wrote */
    bool asks_label;              /* how much is on a label alone */
    bool says_eye;                /* its directions say which eye */
    bool says_length, says_check; /* its directions say how long, or until the next check */
    const char *for_what, *watch; /* as written; NULL: not told */
    bool name_tells_use;          /* in brackets: for_what would say it again */
    const char *use;        /* what it is for: a sentence's key, see written_use; NULL: not told */
    bool moved;             /* off a day on which the clinic is closed: the rhythm is about kept */
    struct date last;       /* the day of the last dose */
    struct derivations how; /* the amount from dose and strength: for the veterinarian alone */
};

enum { DOSES_MOST = 500 };

/* Where a finding that was referred is seen next. */
struct referral_plan {
    bool is_asked;  /* a finding was referred, or the record names where */
    const char *to; /* as written; NULL: not told */
    bool has_day;
    struct date on;
    bool food_is_written; /* a step of hers says what of food on that day */
};

struct decision_plan {
    const char *reason; /* NULL: none was said */
    bool confirmed;     /* in spite of a danger */
};

struct action_reason {
    const char *rule; /* worded under why.<rule> */
    const char *from; /* the finding or reading: finding:retained-shed, zone:warm-side */
    const char *source;
    enum trust trust;
    double harm;           /* what it weighs here */
    double share;          /* of the rule's harm, by how far outside the value lies; 1 for all */
    const char *raised_by; /* the finding that made it graver, or NULL */
    struct action_reason *next;
};

struct action {
    const char *code;
    const char *words; /* the code it is worded under: its own or a variant's */
    const char *own;   /* words of the veterinarian, printed as written; NULL for none */
    const char *hers;  /* likewise: a step of hers that says the same and stands in this one */
    double harm;
    bool is_first; /* among the first three */
    bool may_be_first;
    bool is_at_hand;                      /* nothing has to be bought for it */
    bool is_tonight;                      /* one of the first, or due tonight behind them */
    bool of_disease;                      /* a disease itself asks for it */
    bool of_heater;                       /* it sets a heater */
    bool is_far_too_hot;                  /* and that cannot wait */
    bool is_second;                       /* asked for at the visit before, and not done */
    const struct decision_plan *decision; /* the veterinarian added or moved it; NULL else */
    const char *decided_why; /* the veterinarian's reason for the stance that it tells; NULL else */
    struct action_reason *reasons;
    bool has_start, has_end; /* not from today; until another of its topic begins */
    struct date start, end;
};

enum { FIRST_ACTIONS = 3 };

/* How an action stands in the rows of a sheet. */
struct step_plan {
    bool has_place;
    int place;                                 /* enum measure_id, or PLACE_LAMP_DISTANCE */
    enum pictogram_name pictogram;             /* where the row shows no number */
    const char *write;                         /* NULL: nothing is written down */
    bool is_bought;                            /* it needs a thing that not every home has */
    bool heats, lacks_heater, makes_heat_safe; /* turns heat up; no heater; before what heats */
    bool holds_food;  /* food waits until its place is as warm as it shall be */
    bool warms_night; /* its words turn up the warm place by night too */
    bool in_tub;      /* its words put the animal in a tub of its own */
};

struct warning {
    enum tier tier;
    enum alarm alarm;     /* of those to go at once for */
    enum tier usual_tier; /* differs when a finding or the weight raised it */
    const char *code;
    const char *because; /* "always", "species", finding:<code>, weight ... */
    bool own;            /* raised by this animal's own findings */
    bool already;        /* found today: only what gets worse is news */
};

struct plan_date {
    struct date on;
    bool is_visit;    /* the animal is brought to the clinic */
    const char *what; /* meal, supplement, dose, weigh, lamp-change, recheck, quarantine-end,
                         recheck-usual, move-in ... */
    struct plan_fact *facts;
};

/* ---- topics, settled once ---------------------------------------------------------- */

struct stance_lost {
    const char *stance;
    const char *because;
};

/* What holds of a topic from one day to another; on any day exactly one phase holds. */
struct stance_phase {
    const char *stance;
    const char *const *with; /* stances beside it, of a topic of choice or of parts */
    size_t with_count;
    struct date from;
    bool has_until;    /* false: the last phase, or one that something other than a day ends */
    struct date until; /* the first day on which it does not hold any more */
    enum phase_end end_by;
    const char *then;    /* the stance that follows an undated end; NULL for the usual one */
    const char *because; /* finding:CODE, done:CODE, call:NAME, settlement:NAME, veterinarian,
                            default */
    const struct decision_plan *decision; /* the veterinarian's; NULL where nobody decided */
    const char *const *limits;            /* stances that lost and whose limits stay */
    size_t limit_count;
    const struct stance_lost *lost;
    size_t lost_count;
};

/* What a veterinarian can put in place of what holds. */
struct stance_choice {
    const char *stance;
    bool needs_end; /* a day on which it is over must be said */
};

struct topic_plan {
    const char *topic;
    bool goes_on;                        /* no end is said of it */
    const struct stance_choice *choices; /* those that mean something for this animal */
    size_t choice_count;
    const struct stance_phase *phases;
    size_t phase_count;
};

/* ---- since the visit before ------------------------------------------------------------ */

enum since_outcome {
    SINCE_DONE,    /* mended */
    SINCE_NEAR,    /* outside by no more than the meter errs */
    SINCE_STILL,   /* asked for a second time */
    SINCE_TURNED,  /* off the other way */
    SINCE_UNKNOWN, /* today's record does not say */
    SINCE_GOES_ON, /* a finding asks for it still; nothing was left undone */
    SINCE_OVER     /* no longer asked for */
};

/* One of the first changes of then. */
struct since_item {
    const char *code; /* the action's */
    const char *own;  /* the veterinarian's words of then; NULL for none */
    enum since_outcome outcome;
    bool has_place;
    int place; /* enum measure_id, or PLACE_LAMP_DISTANCE */
    bool has_then, has_now, has_target;
    double then, now; /* as judged, in the unit of the place */
    double low, high; /* today's target, else that of then */
};

struct since_weight {
    bool known;
    double then_g, now_g;
    bool has_expected; /* the plan of then has a curve */
    double expected_low_g, expected_high_g;
    enum verdict verdict; /* against that curve, as sure as the scale is */
    struct derivations how;
};

struct since_plan {
    bool known; /* the record names a visit before */
    struct date on;
    long days;
    const struct since_item *items;
    size_t item_count;
    struct since_weight weight;
    const char *const *taken; /* codes of the facts that were taken over */
    size_t taken_count;
};

/* A text declared to tell keepers to do or to watch something, and what of it holds here. */
struct declared_text {
    const char *code, *section;
    const char *topic;   /* NULL: it holds always, for those it is for */
    const char *speaks;  /* its topic, or the first of its further ones; NULL: of none */
    const char *whom;    /* see struct instruction_plan */
    const char *printed; /* the key that is printed for it, NULL for none */
    bool calls_now;      /* one of its signs is a reason to go at once here: {go-now} */
    struct date from;    /* the day from which it holds: today, or when food is back */
};

/* A text that tells the keeper to do or to watch something, and is printed. */
struct instruction_plan {
    const char *code; /* as declared */
    const char *key;  /* what is printed: the code itself or its variant */
    const char *section;
    const char *topic;
    const char *stance;
    const char *whom;  /* groups it is for, as words; NULL: all */
    struct date from;  /* today, or the day on which food is back */
    bool is_not_now;   /* it says what not to do */
    bool said_at_home; /* a finding's own words for the home say it too, where they stand */
};

struct plan_source {
    const char *text;
    enum trust trust;
    const char *used_for; /* "temperature", "humidity" ...: the first part that used it */
};

/* The number of the formulas: one more whenever care/ can bring out another number or another
 * advice from the same record and the same data. A signature covers it, so that a release with
 * other formulas prints nothing under an old signature; tests/sheet/test_epoch.py notices when
 * numbers change without it. */
enum { CARE_FORMULA_EPOCH = 42 };

struct care_plan {
    struct date on;           /* the visit's day: day 0 of every date here */
    const char *kind;         /* of sheet: a file of templates/sheets */
    const char *veterinarian; /* NULL: not written */
    struct patient_plan patient;
    struct taxon_plan taxon;
    struct keeper_plan keeper;
    struct letterhead_plan letterhead;
    const char *notes_in;                  /* language tag of the free texts; NULL: not said */
    const char *message;                   /* the clinic's own paragraph for this keeper, or NULL */
    const struct medicine_plan *medicines; /* in the record's order */
    size_t medicine_count;
    struct medicine_plan tube_food; /* what the keeper gives by tube; without a name */
    struct tube_here_plan tube_here;
    struct own_targets_plan own_targets;
    struct measured_plan measured[MEASURE_COUNT];
    struct log_plan log;
    struct lying_plan lying;
    struct temperature_plan temperature;
    struct humidity_plan humidity;
    struct water_plan water;
    struct uvb_plan uvb;
    struct feeding_plan feeding;
    struct enclosure_plan enclosure;
    struct growth_plan growth;
    struct weight_plan weight;
    struct winter_rest_plan winter_rest;
    struct since_plan since;
    const struct finding_plan *findings; /* in examination order */
    size_t finding_count;
    const struct procedure_plan *procedures;
    size_t procedure_count;
    struct aftercare_plan aftercare;
    const struct decision_plan *decisions; /* in the record's order */
    bool go_now;                     /* something found cannot wait: the sheet begins with it */
    const struct topic_plan *topics; /* those that this animal has, in the catalogue's order */
    size_t topic_count;
    const struct topic_index *topic_index; /* NULL: none is made */
    const struct declared_text *texts;     /* all that are declared, by place in the index */
    struct code_index text_index;
    const struct instruction_plan *speaking; /* stances that nothing else tells of */
    size_t speaking_count;
    double sign_lasting_days; /* what passes by itself is told when it lasts so long */
    bool has_thirst_call;     /* short of water: no better by then, call */
    struct date thirst_call;
    double drink_bath_low_c, drink_bath_high_c; /* of the water of a drinking bath */
    bool has_bath_from;                         /* a bath is called for, but not before this day */
    struct date bath_from;
    bool has_bath_written_from; /* none now, later one that the veterinarian wrote */
    struct date bath_written_from;
    const struct action *actions; /* most harm avoided first */
    size_t action_count;
    const struct step_plan *steps;  /* of the actions, in their order */
    struct date way_out;            /* whoever is not done with the first ones by then calls */
    const struct warning *warnings; /* by tier, the animal's own first */
    size_t warning_count;
    const char *const *cautions;
    size_t caution_count;
    const struct plan_date *dates; /* in order of day */
    size_t date_count;
    bool has_urine_by; /* with a stone: no urine by then is a call */
    struct date urine_by;
    bool has_eggs_by; /* where she is to lay now: no egg by then is a call */
    struct date eggs_by;
    bool has_recheck, baths_apart; /* each bath and drop at home has its own part of the day */
    struct date recheck;
    int booked_minute; /* of the recheck's day; -1: no time is booked */
    struct referral_plan referral;
    bool has_blanks;     /* the sheet has a line that the veterinarian has not filled in */
    bool has_next_visit; /* the first of the dates on which it is brought */
    struct date next_visit;
    const char *next_visit_for; /* what that date is, as in `dates` */
    int next_visit_minute;      /* booked, or of its first dose; -1: not known */
    double quarantine_low_days, quarantine_high_days;
    struct review *review;
    const struct plan_source *sources;
    size_t source_count;
};

/* A fact that the visit before knew and today's record does not say. */
struct taken_fact {
    const char *code; /* size, floor, lamp, keeper ...: see care/take_over.c */
    bool left_out;    /* the keeper was asked to change it: it is not taken over */
};

/* The visit before, as its own plan; NULL plan: none. */
struct previous_visit {
    const struct care_plan *plan;
    const struct taken_fact *taken;
    size_t taken_count;
};

/* Everything a plan is made from; all borrowed. */
struct care_inputs {
    const struct visit *visit;
    const struct log_file *log; /* that the visit names; NULL: none */
    struct previous_visit previous;
    const struct species *species;
    const struct species *const *mates; /* the sheets of enclosure.mates; NULL for one without */
    const struct clinic *clinic;
    const struct finding_catalogue *catalogue;
    const struct sign_catalogue *signs;
    const struct rule_book *rules;
    const struct topic_catalogue *topics;
    const struct settlement_book *settlements;
    const struct instruction_catalogue *instructions;
    const struct step_book *steps;
    const struct reference_values *reference;
    const struct sheet_template *kind; /* of the visit */
    struct photo_plan photo;
};

/* The name in that very language; NULL for none. */
const char *plan_name_in(const struct taxon_plan *species, const char *lang);
/* The common name in a language, else in English, else the scientific name. */
const char *plan_species_name(const struct care_plan *plan, const char *lang);
/* Likewise of a kind that shares the box; NULL for one without a sheet. */
const char *plan_mate_name(const struct mate_plan *mate, const char *lang);

/* How many of the listed doses the keeper gives. */
size_t plan_home_doses(const struct medicine_plan *medicine);
/* What has days to tick at home: the medicines, behind them what goes in by tube; NULL past the
 * last. */
const struct medicine_plan *plan_ticked(const struct care_plan *plan, size_t place);
/* The next of a medicine's days with a dose, from place `*at` on, which moves behind that day's
 * doses; false past the last. */
bool plan_dose_day(const struct medicine_plan *medicine, size_t *at, struct date *day);

/* Of what was found and is urgent, what leads; NULL when nothing is. */
const struct finding_plan *plan_worst_finding(const struct care_plan *plan);
/* What leads of the rest, if it is not mild. */
const struct finding_plan *plan_second_finding(const struct care_plan *plan);

/* Does anything of the kind fall on a day? */
bool plan_has_date(const struct care_plan *plan, const char *what);

/* The signs that a weight or a day of the record shows to be there already, one by one; NULL past
 * the last. */
const char *plan_state_sign(size_t place);

/* Declared instructions have places, from 0 on. The place of what is declared of a wording key;
 * SIZE_MAX for none. */
size_t plan_instruction_places(const struct care_plan *plan);
size_t plan_instruction_place(const struct care_plan *plan, const char *key);
/* What is declared at a place, as this plan has it. */
struct instruction_plan plan_instruction(const struct care_plan *plan, size_t place);

/* Is what is printed for a declared key, itself or its variant, about the same topic? */
bool plan_prints_same_topic(const struct care_plan *plan, const char *key);
/* The key to print for a wording key: itself where nothing is declared of it, its variant, or NULL
 * where nothing of it agrees with the plan. */
const char *plan_printed_key(const struct care_plan *plan, const char *key, struct arena *arena);

/* `visit` with the facts of the box, the keeper and the weighings that it is silent about and the
 * visit before knew, never findings or readings; for a new home the weighings alone. out->plan is
 * the plan of then; what was taken is left there. */
const struct visit *care_take_over(const struct visit *visit, const struct visit *before,
                                   bool new_home, struct arena *arena, struct previous_visit *out);

/* NULL after a DIAG_ERROR (a value that makes no sense and has a place: RH 0, a distance of 0). */
const struct care_plan *care_plan_make(const struct care_inputs *inputs, struct arena *arena,
                                       struct diag *diag);

#endif
