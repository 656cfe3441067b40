/* Tables and reading of rules.yaml. */
#include "records/rules.h"

#include <string.h>

#include "records/calls.h"
#include "records/findings.h"
#include "records/species.h"
#include "records/visit.h"
#include "records/shipped_files.h"
#include "records/table.h"

const struct choice verdict_choices[] = {
    {"in-range", VERDICT_IN_RANGE, NULL},
    {"borderline", VERDICT_BORDERLINE, "outside by no more than the meter may err"},
    {"too-low", VERDICT_TOO_LOW, NULL},
    {"too-high", VERDICT_TOO_HIGH, NULL},
    {"unknown", VERDICT_UNKNOWN, NULL},
    {0}};

const struct choice gradient_state_choices[] = {{"good", GRADIENT_GOOD, NULL},
                                                {"too-flat", GRADIENT_TOO_FLAT, NULL},
                                                {"inverted", GRADIENT_INVERTED, NULL},
                                                {"unknown", GRADIENT_UNKNOWN, NULL},
                                                {0}};

const struct choice night_state_choices[] = {{"good", NIGHT_GOOD, NULL},
                                             {"no-drop", NIGHT_NO_DROP, NULL},
                                             {"too-deep", NIGHT_TOO_DEEP, NULL},
                                             {"unknown", NIGHT_UNKNOWN, NULL},
                                             {0}};

const struct choice lamp_state_choices[] = {
    {"unknown", LAMP_STATE_UNKNOWN, "nothing was said of a lamp"},
    {"fine", LAMP_STATE_FINE, NULL},
    {"due", LAMP_STATE_DUE, "older than its kind lasts"},
    {"blocked", LAMP_STATE_BLOCKED, "glass or plastic in between"},
    {"blocked-due", LAMP_STATE_BLOCKED_DUE, "behind glass and older than its kind lasts"},
    {"missing", LAMP_STATE_MISSING, "the species needs UVB and there is none"},
    {"unmeasured", LAMP_STATE_UNMEASURED, "no meter reading"},
    {"out-of-reach", LAMP_STATE_OUT_OF_REACH, "the reading supports no safe distance"},
    {"too-strong", LAMP_STATE_TOO_STRONG, "no safe distance fits below the lid"},
    {"too-weak", LAMP_STATE_TOO_WEAK, "at any safe distance"},
    {"not-needed", LAMP_STATE_NOT_NEEDED, NULL},
    {"unreliable", LAMP_STATE_UNRELIABLE, "of a kind without UVB to rely on, and not measured"},
    {0}};

const struct choice wall_state_choices[] = {
    {"dry", WALL_DRY, NULL}, {"wet", WALL_WET, NULL}, {"unknown", WALL_UNKNOWN, NULL}, {0}};

static const struct choice hygrometer_choices[] = {
    {"unread", HYGROMETER_UNREAD, NULL},
    {"in-place", HYGROMETER_IN_PLACE, "at the place that the target means"},
    {"elsewhere", HYGROMETER_ELSEWHERE, "at another place: no verdict follows from it"},
    {"cold", HYGROMETER_COLD, "in a place that is still to be warmed: nor from this"},
    {0}};

const struct choice weight_state_choices[] = {
    {"steady", WEIGHT_STEADY, NULL},   {"rising", WEIGHT_RISING, NULL},
    {"falling", WEIGHT_FALLING, NULL}, {"falling-fast", WEIGHT_FALLING_FAST, "more than 10 %"},
    {"unknown", WEIGHT_UNKNOWN, NULL}, {0}};

const struct choice water_state_choices[] = {
    {"unknown", WATER_UNTESTED, "no test was written down"},
    {"fine", WATER_FINE, NULL},
    {"fouled", WATER_FOULED, "nitrate, pH or hardness is off"},
    {"harmful", WATER_HARMFUL, "ammonia, nitrite or chlorine shows"},
    {0}};

static const struct choice season_choices[] = {
    {"summer", SEASON_SUMMER, NULL}, {"winter", SEASON_WINTER, NULL}, {0}};

static const struct choice winter_rest_choices[] = {
    {"no", WINTER_REST_NO, NULL},
    {"planned", WINTER_REST_PLANNED, NULL},
    {"in-progress", WINTER_REST_IN_PROGRESS, NULL},
    {"waking", WINTER_REST_WAKING, "it is over and the box still cold"},
    {0}};

static const struct choice rest_gate_choices[] = {
    {"open", REST_GATE_OPEN, "nothing speaks against a winter rest"},
    {"shut", REST_GATE_SHUT, NULL},
    {0}};

static const struct choice photoperiod_choices[] = {
    {"unknown", PHOTOPERIOD_UNKNOWN, NULL},
    {"usual", PHOTOPERIOD_USUAL, NULL},
    {"never-dark", PHOTOPERIOD_NEVER_DARK, "the lamp burns day and night"},
    {"never-light", PHOTOPERIOD_NEVER_LIGHT, "it is never on"},
    {"too-short", PHOTOPERIOD_TOO_SHORT, "far from the season's hours"},
    {"too-long", PHOTOPERIOD_TOO_LONG, "far from the season's hours"},
    {0}};

const struct choice hides_state_choices[] = {
    {"unknown", HIDES_UNKNOWN, NULL},
    {"none", HIDES_NONE, NULL},
    {"too-few", HIDES_TOO_FEW, "some, but fewer than it wants"},
    {"enough", HIDES_ENOUGH, NULL},
    {"not-asked", HIDES_NOT_ASKED, "this kind needs none, or none is known"},
    {0}};

const struct choice perch_state_choices[] = {
    {"unknown", PERCH_UNKNOWN, NULL},
    {"fine", PERCH_FINE, NULL},
    {"too-near", PERCH_TOO_NEAR, "nearer to the lamp than its light allows"},
    {0}};

const struct choice diet_fault_choices[] = {
    {"poison", DIET_POISON, NULL},
    {"thiaminase", DIET_THIAMINASE, "fish that destroys vitamin B1"},
    {"unfit", DIET_UNFIT, "no food for it"},
    {"calcium-short", DIET_CALCIUM_SHORT, "plants too poor in calcium"},
    {"few-staples", DIET_FEW_STAPLES, "less than half of its plants"},
    {"goitrogens-alone", DIET_GOITROGENS_ALONE, NULL},
    {"one-insect", DIET_ONE_INSECT, "no other kind of insect"},
    {0}};
static const struct choice food_given_choices[] = {
    {"unknown", FOOD_GIVEN_UNKNOWN, NULL},
    {"fine", FOOD_GIVEN_FINE, NULL},
    {"rich", FOOD_GIVEN_RICH, "richer than all that its sheet lists"},
    {"unfit", FOOD_GIVEN_UNFIT, NULL},
    {"thiaminase", FOOD_GIVEN_THIAMINASE, NULL},
    {"poison", FOOD_GIVEN_POISON, NULL},
    {0}};
static const struct choice plants_given_choices[] = {
    {"unknown", PLANTS_GIVEN_UNKNOWN, NULL},
    {"fine", PLANTS_GIVEN_FINE, NULL},
    {"goitrogens", PLANTS_GIVEN_GOITROGENS, "and no other plant"},
    {"few-staples", PLANTS_GIVEN_FEW_STAPLES, NULL},
    {"calcium-short", PLANTS_GIVEN_CALCIUM_SHORT, NULL},
    {0}};
const struct choice company_state_choices[] = {
    {"unknown", COMPANY_UNKNOWN, NULL},
    {"none", COMPANY_NONE, "it lives alone"},
    {"fitting", COMPANY_FITTING, "of its own kind, which may be kept together"},
    {"unwanted", COMPANY_UNWANTED, "of its own kind, which lives alone"},
    {"mixed", COMPANY_MIXED, "of another kind"},
    {0}};

static const struct choice yes_no_choices[] = {{"yes", 1, NULL}, {"no", 0, NULL}, {0}};
static const struct choice guard_choices[] = {
    {"yes", 1, NULL}, {"no", 0, NULL}, {"unknown", -1, "nobody said"}, {0}};

#define ONE_OF(member_, key_, choices_)                                                            \
    ROW(CHOICES, rule_when, member_, key_, .choices = choices_, .help = "one of these holds")
#define CODES(member_, key_, help_) ROW(TEXTS, rule_when, member_, key_, .most = 60, .help = help_)

#define VERDICT_OF(name_, id_, ...) ONE_OF(measured[MEASURE_##name_], id_, verdict_choices),

static const struct field when_fields[] = {
    CODES(finding, "finding", "one of these was found"),
    ONE_OF(severity, "severity", severity_choices),
    CODES(not_finding, "not-finding", "none of these was found"),
    CODES(and_finding, "and-finding", "and one of these was found"),
    ONE_OF(and_severity, "and-severity", severity_choices),
    CODES(and_also, "and-finding-too", "and one of these too"),
    CODES(bundle, "bundle", "a finding calls for one of these bundles"),
    CODES(calls, "calls", "something calls for one of these, as topic:stance"),
    CODES(and_calls, "and-calls", "and for one of these"),
    ONE_OF(never_traits, "never-trait", trait_choices),
    ONE_OF(state, "state", finding_state_choices),
    ONE_OF(tier, "tier", tier_choices),
    CODES(step, "step", "of the finding's own scale"),
    ONE_OF(reproduction, "reproduction", reproduction_choices),
    ONE_OF(brumation, "brumation", brumation_choices),
    ONE_OF(lamp_kind, "lamp-kind", lamp_choices),
    ONE_OF(heat_kind, "heat-kind", heat_kind_choices),
    ROW(CHOICES, rule_when, heat_all, "heat-all", .choices = heat_kind_choices,
        .help = "all heat on the record is of these"),
    ONE_OF(photoperiod, "photoperiod", photoperiod_choices),
    ONE_OF(medicine, "medicine", yes_no_choices),
    CODES(medicine_named, "medicine-named",
          "a medicine has one of these in its name or directions, however it is spelled"),
    CODES(own_step, "own-step",
          "a step in the veterinarian's own words is of one of these, by `written` of topics.yaml"),
    ONE_OF(unlisted, "unlisted", yes_no_choices),
    ONE_OF(least_humidity, "least-humidity", yes_no_choices),
    CODES(stance, "stance", "one of these holds today, as topic:stance"),
    CODES(coming_stance, "coming-stance", "or begins in the coming weeks"),
    CODES(done, "done", "one of these was done today"),
    CODES(never_done, "never-done", "none of these was done today"),
    ONE_OF(group, "group", group_choices),
    ONE_OF(habit, "habit", habit_choices),
    ONE_OF(diet, "diet", diet_choices),
    ONE_OF(traits, "trait", trait_choices),
    ONE_OF(stage, "stage", stage_choices),
    ONE_OF(sex, "sex", sex_choices),
    CODES(sheet, "sheet", "one of these kinds of sheet"),
    ONE_OF(season, "season", season_choices),
    CODES(species, "species", "one of these species"),
    ALL_MEASURES(VERDICT_OF) ONE_OF(any_reading, "any-reading", verdict_choices),
    ONE_OF(enclosure, "enclosure", verdict_choices),
    ONE_OF(water_test, "water-test", water_state_choices),
    ONE_OF(water_change, "water-change", verdict_choices),
    ONE_OF(filter, "filter", yes_no_choices),
    ONE_OF(gradient, "gradient", gradient_state_choices),
    ONE_OF(night_drop, "night-drop", night_state_choices),
    ONE_OF(lamp, "lamp", lamp_state_choices),
    ONE_OF(wall, "wall", wall_state_choices),
    ONE_OF(hygrometer, "hygrometer", hygrometer_choices),
    ONE_OF(weight, "weight", weight_state_choices),
    ONE_OF(thermostat, "thermostat", yes_no_choices),
    ONE_OF(heat_guard, "heat-guard", guard_choices),
    ONE_OF(moist_hide, "moist-hide", yes_no_choices),
    ONE_OF(listed, "listed", yes_no_choices),
    ONE_OF(outdoor, "outdoors", yes_no_choices),
    ONE_OF(winter_rest, "winter-rest", winter_rest_choices),
    ONE_OF(rest_gate, "rest-gate", rest_gate_choices),
    ONE_OF(substrate, "substrate", substrate_choices),
    ONE_OF(hides, "hides", hides_state_choices),
    ONE_OF(perch, "perch", perch_state_choices),
    ONE_OF(shade, "shade", yes_no_choices),
    ONE_OF(water_dish, "water-dish", yes_no_choices),
    ONE_OF(company, "company", company_state_choices),
    ONE_OF(two_males, "two-males", yes_no_choices),
    ONE_OF(few_dry, "few-dry-hours", yes_no_choices),
    ONE_OF(food_given, "food-given", food_given_choices),
    ONE_OF(plants_given, "plants-given", plants_given_choices),
};
const struct schema rule_when_schema =
    SCHEMA(rule_when, when_fields, "condition", "Everything that is written must hold.",
           .never_empty = true);

bool rule_when_reads(const struct rule_when *when)
{
    size_t count = when->enclosure.count + when->gradient.count + when->night_drop.count +
                   when->lamp.count + when->wall.count + when->hygrometer.count;
    for (int m = 0; m < MEASURE_COUNT; m++)
        count += when->measured[m].count;
    return count > 0;
}

static const struct field raised_fields[] = {
    ROW(TEXTS, rule_raised, finding, "finding", .required = true, .most = 20,
        .help = "one of these was found"),
    ROW(QUANTITY, rule_raised, by, "by", IN(COUNT, 1, 100), .required = true,
        .help = "so much more harm", .example = "15"),
};
static const struct schema raised_schema =
    SCHEMA(rule_raised, raised_fields, "raised by", "Findings that make it graver.");

static const struct field rule_fields[] = {
    ROW(RECORD, rule, when, "when", .schema = &rule_when_schema, .required = true,
        .help = "the condition"),
    ROW(TEXT, rule, action, "do", .required = true,
        .help = "the action's code, worded under action.<code>", .example = "raise-humidity"),
    ROW(QUANTITY, rule, harm, "harm", IN(COUNT, 0, 100), .required = true,
        .help = "how much harm the action avoids; the order", .example = "70"),
    ROW(FLAG, rule, graded, "graded", .help = "yes: less where a value lies only just outside"),
    ROW(FLAG, rule, heater, "heater", .help = "yes: it sets a heater"),
    ROW(FLAG, rule, disease, "disease",
        .help = "yes: a disease itself asks for it; no heater stands before it"),
    ROW(RECORD, rule, raised, "raised-by", .schema = &raised_schema,
        .help = "findings that make it graver"),
    ROW(FLAG, rule, first, "first", .help = "no: never among the first changes"),
    ROW(FLAG, rule, shop, "shop",
        .help = "yes: something has to be bought; behind what can be done today"),
    ROW(FLAG, rule, tonight, "tonight",
        .help = "yes: due tonight too where three others stand first"),
    ROW(TEXT, rule, source, "source", .required = true, .help = "an id of the sources"),
    ROW(CHOICE, rule, trust, "trust", .choices = trust_choices, .required = true,
        .help = "how it was read"),
};
static const struct schema rule_schema =
    SCHEMA(rule, rule_fields, "rule", "A condition and what it calls for.", MARKED(rule, at));

static const struct field book_fields[] = {
    ROW(NAMED, rule_book, rules, "rules", .schema = &rule_schema, .required = true,
        .help = "by name; worded under why.<name>"),
    ROW(TEXTS, rule_book, cautions, "cautions", .required = true, .most = 30,
        .help = "cautions on every sheet; worded under caution.<code>"),
    ROW(NAMED, rule_book, sources, "sources", .schema = &named_text_schema, .required = true,
        .help = "what the ids stand for"),
};
const struct schema rule_book_schema = SCHEMA(rule_book, book_fields, "rules file", "Advice rules.",
                                              SHIPPED(shipped_rule_book, rule_book));

struct rule_book *rule_book_read(const char *path, struct arena *arena, struct diag *diag)
{
    struct rule_book *book = ARENA_NEW(arena, struct rule_book);
    return bind_file(path, &rule_book_schema, arena, diag, book) ? book : NULL;
}

const struct rule *rule_find(const struct rule_book *book, const char *name)
{
    for (size_t i = 0; i < book->rules.count; i++)
        if (strcmp(LIST_AT(book->rules, struct rule, i)->name.text, name) == 0)
            return LIST_AT(book->rules, struct rule, i);
    return NULL;
}
