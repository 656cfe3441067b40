/* The exam's vocabulary: findings, procedures, warning signs. Data of the
 * templates folder; the words stand in the wording files under the same codes. */
#ifndef BASKLEAF_RECORDS_FINDINGS_H
#define BASKLEAF_RECORDS_FINDINGS_H

#include "records/sourced_value.h"
#include "records/calls.h"
#include "records/terms.h"

/* In the order of a real examination: watched first, the head last because the
 * animal minds it most (common practice). The enum's order is that order. */
enum body_system {
    SYSTEM_WATCHING,
    SYSTEM_BODY_CONDITION,
    SYSTEM_BELLY,
    SYSTEM_SKIN,
    SYSTEM_SHELL,
    SYSTEM_LIMBS,
    SYSTEM_BELLY_SIDE,
    SYSTEM_VENT_AND_TAIL,
    SYSTEM_HEART,
    SYSTEM_EYES,
    SYSTEM_NOSE,
    SYSTEM_MOUTH,
    SYSTEM_SEX,
    SYSTEM_SAMPLES,
    SYSTEM_COUNT
};

/* How a feeding plan differs from the usual one. */
enum feeding_change {
    FEEDING_AS_USUAL,
    FEEDING_PAUSE,
    FEEDING_AFTER_VOMITING,
    FEEDING_NO_LARGE_MEAL,
    FEEDING_LONGER_INTERVAL,
    FEEDING_SHORTER_INTERVAL,
    FEEDING_NO_DIETING
};

struct finding_tiers {
    struct choice_value mild, moderate,
        severe; /* urgency of what was found itself; absent: the level is not used */
};

struct finding_sooner {
    struct whom whom;
    struct list severities; /* of struct choice_value; empty: all */
    struct choice_value tier;
};

/* Which finding a sheet is headed by: what follows from another stands behind it. */
enum headline { HEADLINE_USUAL, HEADLINE_BEFORE, HEADLINE_BEHIND, HEADLINE_LOCAL };

/* A number that is written down and never judged. */
enum finding_value { VALUE_NONE, VALUE_PER_MINUTE, VALUE_SCORE_OF_5 };

struct finding {
    struct text_value name; /* its code */
    struct choice_value system;
    struct list groups;     /* of struct choice_value */
    struct list needs;      /* of struct choice_value: traits, all of them */
    struct list never_with; /* of struct choice_value: traits that exclude it */
    struct list severities; /* of struct choice_value: the levels it can have; may hold normal */
    struct finding_tiers tiers;
    struct list warnings;         /* of struct text_value: signs it raises on the sheet */
    struct list already;          /* those of them that the finding itself is */
    struct list sooner;           /* of struct finding_sooner: more urgent for some animals */
    struct list reproduction;     /* of struct choice_value; empty: all */
    struct list sexes;            /* likewise */
    struct list steps;            /* of struct text_value: its own scale beside the severity */
    struct choice_value value;    /* enum finding_value: a number is written down with it */
    struct choice_value headline; /* enum headline; usual when left out */
    struct flag_value unproven;   /* its name says that it is no more than suspected */
    struct list excludes;         /* of struct text_value: findings that cannot stand beside it */
    struct list harmed_by;        /* likewise: those that do it harm, however mild they are */
    struct list dangerous;        /* of struct text_value: topic:stance that can harm beside it */
    struct list calls;            /* of struct call_row */
    struct sourced_value recheck_days; /* usual; the veterinarian decides */
    struct text_value source;
    struct choice_value trust;
    struct mark at;
};

struct procedure {
    struct text_value name;
    struct choice_value system;
    struct list groups; /* empty: all */
    struct list warnings;
    struct list sexes;               /* of struct choice_value; empty: all */
    struct flag_value sets_sex;      /* the sex is known from it */
    struct flag_value result;        /* a result is awaited */
    struct list says;                /* of struct text_value: what its words say of the visit's
                                        follow-up.aftercare */
    struct sourced_value check_days; /* looked at again after so long */
    struct text_value check_with;    /* another procedure, whose look is its own when done too */
    struct text_value
        check_unless;  /* another procedure: where it is done too, the usual is no guide */
    struct list calls; /* of struct call_row */
    struct text_value source;
    struct choice_value trust;
};

struct finding_catalogue {
    struct list findings;   /* of struct finding, in file order */
    struct list procedures; /* of struct procedure */
    struct list sources;    /* of struct named_text */
    bool is_shipped;        /* the file that came with the program */
};

/* What a sign to go at once for is about: they stand together on a sheet. */
enum alarm {
    ALARM_NONE,
    ALARM_BREATH,
    ALARM_LIMP,
    ALARM_FIT,
    ALARM_BLOOD,
    ALARM_BONE,
    ALARM_BELLY,
    ALARM_POISON,
    ALARM_COUNT
};

struct warning_sign {
    struct text_value name;
    struct choice_value tier;
    struct choice_value alarm; /* of those to go at once for */
    struct list groups;
    struct flag_value always;  /* on every sheet of those groups */
    struct list needs;         /* traits */
    struct list unless_normal; /* of struct text_value: codes of what is normal for a species */
    struct flag_value never_raised;   /* no sooner for what is severe: the steps say when */
    struct flag_value unless_weighed; /* left out where the weight's own limits say it */
    struct list unless_found;         /* of struct text_value */
    struct flag_value unless_ill;     /* left out where something was found */
    struct list now_with; /* of struct text_value: findings and procedures beside which it is a sign
                             to go for */
    struct list
        raised_with; /* of struct text_value: signs; where one of them is raised, it is too */
    struct list
        unless_now; /* of struct text_value: signs; left out where one of them is one to go for */
    struct list never_at; /* of struct choice_value: stages of life that do not have it */
    struct list now_at;   /* of struct choice_value: stages of life at which it is */
    struct text_value source;
    struct choice_value trust;
};

struct sign_catalogue {
    struct list signs; /* of struct warning_sign */
    struct list sources;
};

extern const struct schema finding_catalogue_schema, sign_catalogue_schema;
extern const struct choice body_system_choices[], feeding_change_choices[], alarm_choices[];

struct finding_catalogue *finding_catalogue_read(const char *path, struct arena *arena,
                                                 struct diag *diag);
struct sign_catalogue *sign_catalogue_read(const char *path, struct arena *arena,
                                           struct diag *diag);

struct topic_catalogue;
/* Every call names a topic and a stance that there are, everything excluded is a finding. */
bool finding_calls_check(const struct finding_catalogue *catalogue,
                         const struct topic_catalogue *topics, struct diag *diag);

const struct finding *finding_find(const struct finding_catalogue *catalogue, const char *code);
const struct procedure *procedure_find(const struct finding_catalogue *catalogue, const char *code);
const struct warning_sign *sign_find(const struct sign_catalogue *catalogue, const char *code);

struct species;
/* Does the finding make sense for this species (group and traits)? */
bool finding_fits(const struct finding *finding, const struct species *species);

struct visit;
/* Every finding and procedure of a visit is known, fits the species and has a level it can
 * have; otherwise an error that names the right choices. */
bool findings_check_visit(const struct visit *visit, const struct species *species,
                          const struct finding_catalogue *catalogue, struct diag *diag);

#endif
