/* Tables and reading of findings.yaml and warning-signs.yaml; finding a code in them. */
#include "records/findings.h"

#include <string.h>

#include "base/same_text.h"
#include "records/shipped_files.h"
#include "records/table.h"
#include "records/topics.h"

const struct choice body_system_choices[] = {
    {"watching", SYSTEM_WATCHING, "undisturbed: breathing, posture, alertness, tongue flicks"},
    {"body-condition", SYSTEM_BODY_CONDITION, "weight, spine, tail base, fat stores"},
    {"belly", SYSTEM_BELLY, "felt with the body held out in gentle tension"},
    {"skin", SYSTEM_SKIN, "skin, scales, shed"},
    {"shell", SYSTEM_SHELL, NULL},
    {"limbs", SYSTEM_LIMBS, "legs, toes, claws, bones"},
    {"belly-side", SYSTEM_BELLY_SIDE, "belly scales and colour"},
    {"vent-and-tail", SYSTEM_VENT_AND_TAIL, NULL},
    {"heart", SYSTEM_HEART, "heart rate by Doppler"},
    {"eyes", SYSTEM_EYES, "eyes or spectacles"},
    {"nose", SYSTEM_NOSE, "nostrils, heat pits"},
    {"mouth", SYSTEM_MOUTH, "saliva, membranes, choana, glottis"},
    {"sex", SYSTEM_SEX, NULL},
    {"samples", SYSTEM_SAMPLES, "blood, stool and other samples"},
    {0},
};

const struct choice feeding_change_choices[] = {
    {"as-usual", FEEDING_AS_USUAL, NULL},
    {"pause", FEEDING_PAUSE, "no food until the veterinarian says"},
    {"after-vomiting", FEEDING_AFTER_VOMITING, "nothing for 10-14 days, then half a meal"},
    {"no-large-meal", FEEDING_NO_LARGE_MEAL, "the lower end of the meal band"},
    {"longer-interval", FEEDING_LONGER_INTERVAL, "the upper end of the interval"},
    {"shorter-interval", FEEDING_SHORTER_INTERVAL, "small meals at the lower end of the interval"},
    {"no-dieting", FEEDING_NO_DIETING, "no change that takes food away"},
    {0},
};

static const struct choice finding_value_choices[] = {
    {"none", VALUE_NONE, NULL},
    {"per-minute", VALUE_PER_MINUTE, "counted in a minute"},
    {"score-1-to-5", VALUE_SCORE_OF_5, "a score from 1 to 5"},
    {0},
};

static const struct choice headline_choices[] = {
    {"before", HEADLINE_BEFORE, "before what it brings about"},
    {"behind", HEADLINE_BEHIND, "behind what brings it about"},
    {"local", HEADLINE_LOCAL, "of one place: behind what makes the whole animal as ill"},
    {0}};

static const struct field tier_fields[] = {
    ROW(CHOICE, finding_tiers, mild, "mild", .choices = tier_choices,
        .help = "how urgent a mild one is"),
    ROW(CHOICE, finding_tiers, moderate, "moderate", .choices = tier_choices,
        .help = "how urgent a moderate one is"),
    ROW(CHOICE, finding_tiers, severe, "severe", .choices = tier_choices,
        .help = "how urgent a severe one is"),
};
static const struct schema tiers_schema =
    SCHEMA(finding_tiers, tier_fields, "tiers", "Urgency by severity.");

static const struct field sooner_fields[] = {
    WHOM_ROWS(finding_sooner),
    ROW(CHOICES, finding_sooner, severities, "severities", .choices = severity_choices,
        .help = "all when left out"),
    ROW(CHOICE, finding_sooner, tier, "tier", .choices = tier_choices, .required = true,
        .help = "how urgent it is for them"),
};
static const struct schema sooner_schema =
    SCHEMA(finding_sooner, sooner_fields, "sooner", "Animals for which it is more urgent.");

static const struct field finding_fields[] = {
    ROW(CHOICE, finding, system, "system", .choices = body_system_choices, .required = true,
        .help = "where it belongs in the order of an examination"),
    ROW(CHOICES, finding, groups, "groups", .choices = group_choices, .required = true,
        .help = "animals it makes sense for"),
    ROW(CHOICES, finding, needs, "needs", .choices = trait_choices,
        .help = "only species that have all of these"),
    ROW(CHOICES, finding, never_with, "never-with", .choices = trait_choices,
        .help = "not for species that have one of these"),
    ROW(CHOICES, finding, severities, "severities", .choices = severity_choices, .required = true,
        .help = "levels it can have"),
    ROW(RECORD, finding, tiers, "tiers", .schema = &tiers_schema,
        .help = "urgency of the finding itself"),
    ROW(RECORDS, finding, sooner, "sooner", .schema = &sooner_schema, .most = 8,
        .help = "animals for which it is more urgent"),
    ROW(CHOICES, finding, reproduction, "reproduction", .choices = reproduction_choices,
        .help = "all when left out"),
    ROW(CHOICES, finding, sexes, "sexes", .choices = sex_choices, .help = "all when left out"),
    ROW(TEXTS, finding, steps, "steps", .most = 8, .help = "its own scale beside the severity"),
    ROW(FLAG, finding, unproven, "unproven",
        .help = "its very name says that it is only suspected"),
    ROW(CHOICE, finding, headline, "headline", .choices = headline_choices,
        .help = "where it stands when one finding heads the sheet"),
    ROW(CHOICE, finding, value, "value", .choices = finding_value_choices,
        .help = "a number that is written down with it"),
    ROW(TEXTS, finding, warnings, "warnings", .most = 12, .help = "warning signs it raises"),
    ROW(TEXTS, finding, already, "already", .most = 12,
        .help = "those that are there already: the sheet asks whether they get worse"),
    ROW(TEXTS, finding, excludes, "excludes", .most = 40,
        .help = "findings that cannot stand beside it"),
    ROW(TEXTS, finding, harmed_by, "harmed-by", .most = 4,
        .help = "findings that do it harm: named beside it, however mild they are"),
    ROW(TEXTS, finding, dangerous, "dangerous", .most = 12,
        .help = "topic:stance: a decision for one of these beside it asks for a second yes"),
    ROW(RECORDS, finding, calls, "calls", .schema = &call_row_schema, .most = 20,
        .help = "the stances it calls for"),
    ROW(RECORD, finding, recheck_days, "recheck", .schema = &sourced_duration_schema,
        .help = "usual recheck; the veterinarian decides"),
    ROW(TEXT, finding, source, "source", .required = true, .help = "an id of the sources"),
    ROW(CHOICE, finding, trust, "trust", .choices = trust_choices, .required = true,
        .help = "how it was read"),
};
static const struct schema finding_schema = SCHEMA(
    finding, finding_fields, "finding", "One thing an examination can find.", MARKED(finding, at));

static const struct field procedure_fields[] = {
    ROW(CHOICE, procedure, system, "system", .choices = body_system_choices, .required = true,
        .help = "when it is done"),
    ROW(CHOICES, procedure, groups, "groups", .choices = group_choices,
        .help = "all when left out"),
    ROW(CHOICES, procedure, sexes, "sexes", .choices = sex_choices, .help = "all when left out"),
    ROW(FLAG, procedure, sets_sex, "sets-sex", .help = "the sex is known from it"),
    ROW(FLAG, procedure, result, "result", .help = "a result is awaited"),
    ROW(TEXTS, procedure, says, "says", .most = 3,
        .help =
            "keys of follow-up.aftercare that its words say: awake-by, amount, every, in-water"),
    ROW(RECORD, procedure, check_days, "check", .schema = &sourced_duration_schema,
        .help = "looked at again after so long; the longer end where it is not warm"),
    ROW(TEXT, procedure, check_with, "check-with",
        .help = "another procedure: where that is done too, this one ends on its day"),
    ROW(TEXT, procedure, check_unless, "check-unless",
        .help = "another procedure: where that is done too, the veterinarian alone says the day"),
    ROW(TEXTS, procedure, warnings, "warnings", .most = 12, .help = "warning signs it raises"),
    ROW(RECORDS, procedure, calls, "calls", .schema = &call_row_schema, .most = 20,
        .help = "the stances it calls for"),
    ROW(TEXT, procedure, source, "source", .required = true, .help = "an id of the sources"),
    ROW(CHOICE, procedure, trust, "trust", .choices = trust_choices, .required = true,
        .help = "how it was read"),
};
static const struct schema procedure_schema =
    SCHEMA(procedure, procedure_fields, "procedure", "Something that was done today.");

static const struct field catalogue_fields[] = {
    ROW(NAMED, finding_catalogue, findings, "findings", .schema = &finding_schema, .required = true,
        .help = "by code"),
    ROW(NAMED, finding_catalogue, procedures, "procedures", .schema = &procedure_schema,
        .required = true, .help = "by code"),
    ROW(NAMED, finding_catalogue, sources, "sources", .schema = &named_text_schema,
        .required = true, .help = "what the ids stand for"),
};
const struct schema finding_catalogue_schema =
    SCHEMA(finding_catalogue, catalogue_fields, "findings file", "The exam's vocabulary.",
           SHIPPED(shipped_finding_catalogue, finding_catalogue));

const struct choice alarm_choices[] = {
    {"breath", ALARM_BREATH, "breathing"},
    {"limp", ALARM_LIMP, "no reaction"},
    {"fit", ALARM_FIT, "fits and the way the head is held"},
    {"blood", ALARM_BLOOD, "bleeding, burns, wounds"},
    {"bone", ALARM_BONE, "broken bone or shell"},
    {"belly", ALARM_BELLY, "belly and vent"},
    {"poison", ALARM_POISON, "poison, heat, cold"},
    {0},
};

static const struct field sign_fields[] = {
    ROW(CHOICE, warning_sign, tier, "tier", .choices = tier_choices, .required = true,
        .help = "usual urgency"),
    ROW(CHOICE, warning_sign, alarm, "alarm", .choices = alarm_choices,
        .help = "tier now: beside which others it stands"),
    ROW(CHOICES, warning_sign, groups, "groups", .choices = group_choices, .required = true,
        .help = "animals it makes sense for"),
    ROW(FLAG, warning_sign, always, "always", .required = true,
        .help = "on every sheet of those animals"),
    ROW(CHOICES, warning_sign, needs, "needs", .choices = trait_choices,
        .help = "only species that have all of these"),
    ROW(TEXTS, warning_sign, unless_normal, "unless-normal", .most = 4,
        .help = "left out for a grown animal of steady weight where one of these is normal"),
    ROW(FLAG, warning_sign, never_raised, "never-raised",
        .help = "no more urgent where what raises it is severe"),
    ROW(FLAG, warning_sign, unless_weighed, "unless-weighed",
        .help = "left out where limits of the weight say it"),
    ROW(FLAG, warning_sign, unless_ill, "unless-ill",
        .help = "left out for an animal that something was found on"),
    ROW(TEXTS, warning_sign, now_with, "now-with", .most = 20,
        .help = "findings and procedures beside which it is a sign to go now for",
        .example = "[soft-jaw]"),
    ROW(TEXTS, warning_sign, raised_with, "raised-with", .most = 8,
        .help =
            "signs of the same place: it is one to go now for where one of them has become one"),
    ROW(TEXTS, warning_sign, unless_now, "unless-now", .most = 4,
        .help = "left out where one of these signs is one to go at once for: it says more"),
    ROW(TEXTS, warning_sign, unless_found, "unless-found", .most = 4,
        .help = "left out beside these findings and procedures: their own sign says when to go"),
    ROW(CHOICES, warning_sign, never_at, "never-at", .choices = stage_choices, .most = 4,
        .help = "stages of life that do not have it"),
    ROW(CHOICES, warning_sign, now_at, "now-at", .choices = stage_choices, .most = 4,
        .help = "stages of life at which it is"),
    ROW(TEXT, warning_sign, source, "source", .required = true, .help = "an id of the sources"),
    ROW(CHOICE, warning_sign, trust, "trust", .choices = trust_choices, .required = true,
        .help = "how it was read"),
};
static const struct schema sign_schema =
    SCHEMA(warning_sign, sign_fields, "warning sign", "A sign to watch for.");

static const struct field sign_catalogue_fields[] = {
    ROW(NAMED, sign_catalogue, signs, "signs", .schema = &sign_schema, .required = true,
        .help = "by code"),
    ROW(NAMED, sign_catalogue, sources, "sources", .schema = &named_text_schema, .required = true,
        .help = "what the ids stand for"),
};
const struct schema sign_catalogue_schema =
    SCHEMA(sign_catalogue, sign_catalogue_fields, "warning-signs file",
           "All warning signs with their urgency.", .shipped = &shipped_sign_catalogue);

struct finding_catalogue *finding_catalogue_read(const char *path, struct arena *arena,
                                                 struct diag *diag)
{
    struct finding_catalogue *catalogue = ARENA_NEW(arena, struct finding_catalogue);
    return bind_file(path, &finding_catalogue_schema, arena, diag, catalogue) ? catalogue : NULL;
}

struct sign_catalogue *sign_catalogue_read(const char *path, struct arena *arena, struct diag *diag)
{
    struct sign_catalogue *catalogue = ARENA_NEW(arena, struct sign_catalogue);
    return bind_file(path, &sign_catalogue_schema, arena, diag, catalogue) ? catalogue : NULL;
}

const struct finding *finding_find(const struct finding_catalogue *catalogue, const char *code)
{
    for (size_t i = 0; i < catalogue->findings.count; i++) {
        const struct finding *finding = LIST_AT(catalogue->findings, struct finding, i);
        if (same_text(finding->name.text, code))
            return finding;
    }
    return NULL;
}

const struct procedure *procedure_find(const struct finding_catalogue *catalogue, const char *code)
{
    for (size_t i = 0; i < catalogue->procedures.count; i++) {
        const struct procedure *procedure = LIST_AT(catalogue->procedures, struct procedure, i);
        if (strcmp(procedure->name.text, code) == 0)
            return procedure;
    }
    return NULL;
}

const struct warning_sign *sign_find(const struct sign_catalogue *catalogue, const char *code)
{
    for (size_t i = 0; i < catalogue->signs.count; i++) {
        const struct warning_sign *sign = LIST_AT(catalogue->signs, struct warning_sign, i);
        if (same_text(sign->name.text, code))
            return sign;
    }
    return NULL;
}

/* Findings that another one names, in the sense of that word. */
static bool check_named(const struct finding_catalogue *catalogue, const struct finding *one,
                        const struct list *named, const char *sense, struct diag *diag)
{
    bool good = true;
    for (size_t i = 0; i < named->count; i++) {
        const struct text_value *code = LIST_AT(*named, struct text_value, i);
        if (finding_find(catalogue, code->text))
            continue;
        diag_report_path(diag, DIAG_ERROR, "unknown-finding", code->at, one->name.text,
                         "%s '%s', which is no finding", sense, code->text);
        good = false;
    }
    return good;
}

bool finding_calls_check(const struct finding_catalogue *catalogue,
                         const struct topic_catalogue *topics, struct diag *diag)
{
    bool good = true;
    if (topics_proven_with(topics, catalogue->is_shipped))
        return true;
    for (size_t i = 0; i < catalogue->findings.count; i++) {
        const struct finding *one = LIST_AT(catalogue->findings, struct finding, i);
        good = calls_check(&one->calls, topics, one->name.text, diag) && good;
        good = call_list_check(&one->dangerous, topics, one->name.text, diag) && good;
        good = check_named(catalogue, one, &one->excludes, "excludes", diag) && good;
        good = check_named(catalogue, one, &one->harmed_by, "is harmed by", diag) && good;
    }
    for (size_t i = 0; i < catalogue->procedures.count; i++) {
        const struct procedure *one = LIST_AT(catalogue->procedures, struct procedure, i);
        good = calls_check(&one->calls, topics, one->name.text, diag) && good;
    }
    return good;
}
