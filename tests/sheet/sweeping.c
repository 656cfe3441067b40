/* One plan of a sweep and its sheet, and what must never be in them: written here by hand, from the
 * trade (common practice, no source), and not taken from the data that it holds in check. */
#include "sheet/sweeping.h"

#include <stdlib.h>
#include <string.h>

#include "render/render.h"
#include "sheet/written.h"
#include "words/phrase.h"

struct resources resources;
static struct sheet_context context;
static struct arena forever;
static struct diag quiet;

bool sweep_set_up(const char *data_folder)
{
    arena_init(&forever);
    diag_init(&quiet);
    const struct places places = {.data_folder = data_folder};
    return resources_read(&places, &forever, &quiet, &resources) &&
           sheet_context_init(&context, &resources, &quiet);
}

void sweep_tear_down(void)
{
    sheet_context_finish(&context);
    arena_finish(&forever);
    diag_finish(&quiet);
}

enum { READINGS = 3 };

/* Inside, at the edge of, and far outside what most of these animals bear. */
static const char *const readings[READINGS] = {
    "",
    "enclosure: {thermostat: no, readings: {warm-side: 30 C, cool-side: 25 C, night: 21 C, "
    "humidity: 55 %, humidity-at: cool-side}}\n",
    "enclosure: {heat-guard: no, readings: {warm-side: 22 C, cool-side: 21 C, night: 15 C, "
    "humidity: 22 %, humidity-at: cool-side}, lamp: {kind: tube, tube-length: 55 cm, installed: "
    "2023-01-01, height: 20 cm, hours: 24, measured: {uvi: 9, at: 30 cm}}}\n"};

/* For the box, to be read, and with all that a new home wants. */
enum { KINDS = 3 };
static const char *const kinds[KINDS] = {"checkout", "reading", "adoption"};

/* Nothing decided for half of them; food withheld, food given all the same, and hands off. */
enum { DECISIONS = 6 };
static const char *const decisions[DECISIONS] = {
    "",
    "",
    "",
    "decisions: [{topic: food, stance: none-until-vet, until: 2026-03-20, because: The stomach "
    "rests., confirmed: yes}]\n",
    "decisions: [{topic: food, stance: as-usual, because: It eats and passes stool., confirmed: "
    "yes}]\n",
    "decisions: [{topic: handling, stance: none, until: 2026-03-25, because: It is in pain.}]\n"};

static const struct care_plan *plan_of(struct swept *s, const char *animal,
                                       const struct found *found, size_t count, size_t at)
{
    const char *findings = "";
    for (size_t i = 0; i < count; i++)
        findings = arena_format(s->arena, "%s%s{code: %s, severity: %s, state: %s}", findings,
                                i ? ", " : "", found[i].code, found[i].severity, found[i].state);
    const char *text =
        arena_format(s->arena,
                     "visit: {date: 2026-03-14, kind: %s, veterinarian: Dr Ines Calder}\n"
                     "patient: {name: Moss, species: %s, sex: female, hatched: 2021-05}\n"
                     "follow-up: {recheck: 14 days}\n%s%sfindings: [%s]\n",
                     kinds[at / READINGS % KINDS], animal, readings[at % READINGS],
                     decisions[at / (READINGS * KINDS * LANGUAGES) % DECISIONS], findings);
    const struct visit_record *record = written_record(&resources, text, s->arena, s->diag);
    return record ? record->plan : NULL;
}

/* ---- what must never be ---------------------------------------------------------------------- */

static bool has_action(const struct care_plan *plan, const char *words)
{
    for (size_t i = 0; i < plan->action_count; i++)
        if (!plan->actions[i].has_start && strcmp(plan->actions[i].words, words) == 0)
            return true;
    return false;
}

/* Of these no two can be followed by one keeper on one evening. */
static const char *const opposed[][2] = {{"pause-food", "feed-small-often"},
                                         {"pause-food", "feed-less-often"},
                                         {"pause-food", "offer-food"},
                                         {"pause-food", "feed-small"},
                                         {"feed-less-often", "feed-small-often"},
                                         {"raise-humidity", "lower-humidity"},
                                         {"warm-basking", "cool-basking"},
                                         {"warm-warm-side", "cool-warm-side"},
                                         {"warm-cool-side", "cool-cool-side"},
                                         {"warm-night", "cool-night"},
                                         {"warm-water", "cool-water"},
                                         {"add-moist-hide", "keep-dry-hours"},
                                         {"turn-lamp-off", "hang-lamp-at"},
                                         {"keep-warm-side-warm", "cool-night"}};

static const char *opposed_actions(const struct care_plan *plan)
{
    for (size_t i = 0; i < sizeof opposed / sizeof *opposed; i++)
        if (has_action(plan, opposed[i][0]) && has_action(plan, opposed[i][1]))
            return opposed[i][0];
    return NULL;
}

/* On any day exactly one phase holds: the first begins with the visit, each begins where the one
 * before ends, none is empty. */
static const char *broken_line(const struct care_plan *plan)
{
    for (size_t i = 0; i < plan->topic_count; i++) {
        const struct topic_plan *topic = &plan->topics[i];
        if (!topic->phase_count || date_compare(topic->phases[0].from, plan->on) != 0)
            return topic->topic;
        for (size_t k = 1; k < topic->phase_count; k++)
            if (!topic->phases[k - 1].has_until ||
                date_compare(topic->phases[k - 1].until, topic->phases[k].from) != 0 ||
                date_compare(topic->phases[k - 1].from, topic->phases[k].from) >= 0)
                return topic->topic;
    }
    return NULL;
}

static bool is_food_withheld(const struct care_plan *plan, struct date day)
{
    return plan_holds_on(plan, "food", "none-until-vet", day) ||
           plan_holds_on(plan, "food", "rest-until", day);
}

/* No meal on a day without food, and no alarm for not eating while nothing is offered: where food
 * is back on a day of the plan, the alarm's own day is behind it. */
static const char *fed_while_withheld(const struct care_plan *plan)
{
    for (size_t i = 0; i < plan->date_count; i++)
        if (strcmp(plan->dates[i].what, "meal") == 0 && is_food_withheld(plan, plan->dates[i].on))
            return "a meal while food is withheld";
    const struct date back = plan_food_day(plan);
    /* two feedings that it takes none of are behind any day */
    const size_t place = plan_instruction_place(plan, "sign.refuses-food-past-limit");
    const char *said = place != SIZE_MAX ? plan->texts[place].printed : NULL;
    const bool of_feedings = said && strcmp(said, "sign.refuses-food-written") == 0;
    bool is_early =
        plan->feeding.has_call_by && !of_feedings && date_compare(plan->feeding.call_by, back) <= 0;
    for (size_t i = 0; i < plan->warning_count && is_food_withheld(plan, plan->on); i++)
        if (strcmp(plan->warnings[i].code, "missed-meal") == 0 ||
            (strncmp(plan->warnings[i].code, "refuses-food", 12) == 0 &&
             (is_food_withheld(plan, back) || is_early)))
            return "an alarm for not eating while food is withheld";
    return NULL;
}

/* Skin that breathes is never dried and never warmed; water is no bath for what lives in it. */
static const char *harmed_amphibian(const struct care_plan *plan)
{
    static const struct {
        const char *topic, *stance;
    } never[] = {{"warmth-day", "ill-warm"}, {"warmth-night", "no-drop"}, {"humidity", "low-end"},
                 {"floor", "paper-dry"},     {"dryness", "dry-until"},    {"nest", "needed-now"}};
    for (size_t i = 0; i < sizeof never / sizeof *never; i++)
        for (size_t k = 0; k < plan->topic_count; k++) {
            const struct topic_plan *topic = &plan->topics[k];
            for (size_t p = 0; strcmp(topic->topic, never[i].topic) == 0 && p < topic->phase_count;
                 p++)
                if (strcmp(topic->phases[p].stance, never[i].stance) == 0)
                    return never[i].topic;
        }
    return plan_phase_on(plan, "bath", plan->on) ? "bath" : NULL;
}

/* A text for other animals: no toes for a snake, no shell for a lizard, no nest for a live-bearer,
 * no bowl for an animal that licks drops, no thermostat for an unheated tank. */
static const char *meant_for_others(const struct care_plan *plan, const char *animal)
{
    static const struct {
        const char *animal, *action;
    } never[] = {
        {"rosy-boa", "give-nest-box"},          {"blue-tongued-skink", "give-nest-box"},
        {"veiled-chameleon", "offer-water"},    {"veiled-chameleon", "add-moist-hide"},
        {"veiled-chameleon", "shallow-bath"},   {"axolotl", "add-thermostat"},
        {"axolotl", "keep-dry-floor"},          {"axolotl", "offer-water"},
        {"common-musk-turtle", "shallow-bath"}, {"whites-tree-frog", "keep-warm-side-warm"}};
    for (size_t i = 0; i < sizeof never / sizeof *never; i++)
        if (strcmp(never[i].animal, animal) == 0 && has_action(plan, never[i].action))
            return never[i].action;
    return NULL;
}

/* An instruction that is printed agrees with the phase of its topic, by its own row or by the row
 * of the variant that stands for it. */
static bool agrees(const struct instruction *row, const struct instruction_plan *one,
                   const struct care_plan *plan)
{
    const struct stance_phase *phase = plan_phase_on(plan, one->topic, one->from);
    if (strcmp(one->key, one->code) == 0)
        return !row->stances.count || row->any_phase.value ||
               list_has_text(&row->stances, phase->stance) || phase->with_count;
    for (size_t i = 0; i < row->variants.count; i++) {
        const struct instruction_variant *variant =
            LIST_AT(row->variants, struct instruction_variant, i);
        if (strcmp(variant->key.text, one->key) == 0 &&
            (!variant->stances.count || row->any_phase.value ||
             list_has_text(&variant->stances, phase->stance) || phase->with_count))
            return true;
    }
    return false;
}

static const char *disagreeing_text(const struct care_plan *plan, const struct swept *s)
{
    for (const struct said_text *said = s->said; said; said = said->next) {
        const struct instruction_plan one = plan_instruction(plan, said->place);
        if (!one.topic || !plan_phase_on(plan, one.topic, plan->on))
            continue;
        if (!agrees(LIST_AT(resources.instructions->instructions, struct instruction, said->place),
                    &one, plan))
            return one.code;
    }
    return NULL;
}

/* A text for another animal, by its words. */
static const char *said_to_others(const struct hearer *hearer, const struct swept *s)
{
    for (const struct said_text *said = s->said; said; said = said->next) {
        const char *word = hearer_words_of_others(hearer, s->language, said->text);
        if (word)
            return arena_format(
                s->arena, "%s says '%.*s': %s",
                LIST_AT(resources.instructions->instructions, struct instruction, said->place)
                    ->code.text,
                (int)strcspn(word, "|"), word, said->text);
    }
    return NULL;
}

/* Its sheet, in each language in turn. False where there is none. */
static bool say_all(struct swept *s, const struct care_plan *plan, size_t at)
{
    struct said_log log = {0};
    struct document document;
    const struct signature none = {0};
    s->language = at / (READINGS * KINDS) % LANGUAGES;
    const struct sheet_options options = {.language = hearer_languages[s->language], .said = &log};
    const struct sheet_inputs in = {&context, plan, &options, &none};
    bool good = sheet_compose(&in, s->arena, s->diag, &document);
    s->said = log.last;
    return good;
}

/* Whether somebody must go is not known of what no veterinarian has seen. */
static bool is_seen(const struct found *found, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(found[i].state, "seen") != 0 && strcmp(found[i].state, "under-treatment") != 0)
            return false;
    return true;
}

/* How long a sheet takes is most of how long the sweep takes: each third plan has one. */
static bool has_sheet(size_t at)
{
    return at / (READINGS * KINDS * LANGUAGES * DECISIONS) % 3 == 0;
}

static const char *fault_of(const struct care_plan *plan, const struct hearer *hearer,
                            struct swept *s, size_t at)
{
    const char *animal = hearer->animal;
    const char *fault = broken_line(plan);
    if (!fault)
        fault = opposed_actions(plan);
    if (!fault)
        fault = fed_while_withheld(plan);
    if (!fault)
        fault = meant_for_others(plan, animal);
    if (!fault && (plan->taxon.group == GROUP_FROG || plan->taxon.group == GROUP_SALAMANDER))
        fault = harmed_amphibian(plan);
    if (!fault && has_sheet(at))
        fault = say_all(s, plan, at) ? disagreeing_text(plan, s) : "no sheet";
    if (!fault)
        fault = said_to_others(hearer, s);
    return fault;
}

const char *sweep_fault(struct swept *s, const struct hearer *hearer, const struct found *found,
                        size_t count, size_t at)
{
    arena_reset(s->arena);
    diag_finish(s->diag);
    diag_init(s->diag);
    s->said = NULL;
    const struct care_plan *plan = plan_of(s, hearer->animal, found, count, at);
    if (!plan)
        return NULL; /* findings that exclude each other, or that this animal cannot have */
    s->plans++;
    const char *fault = fault_of(plan, hearer, s, at);
    return fault || !plan->go_now || !is_seen(found, count) ? fault
                                                            : "sent away with what was seen here";
}

size_t sweep_codes(struct sweep_code *out)
{
    size_t count = 0;
    const struct list *findings = &resources.catalogue->findings;
    for (size_t i = 0; i < findings->count && count < CODES_MOST; i++) {
        const struct finding *one = LIST_AT(*findings, struct finding, i);
        struct sweep_code code = {.code = one->name.text};
        for (size_t k = 0; k < one->severities.count; k++) {
            int severity = LIST_AT(one->severities, struct choice_value, k)->value;
            if (severity != SEVERITY_NORMAL)
                code.severities[code.count++] = bind_choice_word(severity_choices, severity);
        }
        if (code.count)
            out[count++] = code;
    }
    return count;
}
