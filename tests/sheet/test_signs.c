/* Which sign stands beside which words: by what the words mean, from tables of our own. The owner
 * who cannot read looks at the sign alone. What each sign means stands in the design of the sheet;
 * which words have which meaning was decided here, by hand (no source). */
#include <string.h>

#include "base/file.h"
#include "render/render.h"
#include "sheet/context_suite.h"
#include "sheet/written.h"
#include "sheet/wall.h"
#include "words/catalogue.h"

enum { WORDS_MOST = 20 };

/* ---- the meanings ---- */

/* A sign, a path of it that nothing else has, and the actions that it stands for. */
static const struct meaning {
    enum pictogram_name sign;
    const char *drawn; /* as "what it is: path" */
    const char *actions[WORDS_MOST];
} meanings[] = {
    {PICTOGRAM_VET,
     "a cross on a calendar leaf: M20 14 h8 v8 h8 v8 h-8 v8 h-8 v-8 h-8 v-8 h8 Z",
     {"go-to-clinic-now", "show-mates"}},
    {PICTOGRAM_GUARD,
     "a cage around the lamp: M6 12 V40 H42 V12",
     {"guard-the-heat", "check-the-guard"}},
    {PICTOGRAM_UNPLUG, "a bar across the plug: M5 44 L43 4", {"unplug-hot-rock", "unplug-mat"}},
    {PICTOGRAM_LOG,
     "a column with the marks beside it: M28 21 H40",
     {"add-thermostat", "measure-again", "choose-days-out", "cool-water", "warm-water",
      "cool-warm-side", "cool-cool-side", "cool-night", "warm-warm-side", "warm-cool-side",
      "warm-night", "check-warmth", "keep-warm-side-warm", "end-winter-rest", "warm-in-steps"}},
    {PICTOGRAM_HOME,
     "a house: M24 4 L46 24 H40 V44 H8 V24 H2 Z",
     {"bring-in", "own-box", "part-male", "keep-apart", "larger-box"}},
    {PICTOGRAM_STONES, "an arrow up: M24 2 L37 15 H28 V28 H20 V15 H11 Z", {"clear-tank-floor"}},
    {PICTOGRAM_STOP,
     "eight sides: M15 2 H33 L46 15 V33 L33 46 H15 L2 33 V15 Z",
     {"stop-food", "stop-fish", "stop-rich-food", "pause-food"}},
    {PICTOGRAM_HEAT_OFF,
     "a bar across a shade without light: M24 9.5 C18.5 9.5 16 14 14 21 H34 C32 14 29.5 9.5 24 9.5 "
     "Z",
     {"turn-basking-off"}},
    {PICTOGRAM_TUBE_OFF, "a bar across the tube: M6 44 L42 4", {"turn-lamp-off"}},
    {PICTOGRAM_WAKE, "a flat floor: M2 44.5 H46", {"let-wake"}},
    {PICTOGRAM_DRY, "an arrow out of the water: M11 20 C13 9 32 6 36 13", {"keep-dry-hours"}},
    {PICTOGRAM_MOSS,
     "a leaf: M9 37 C4 18 18 6 43 6 C44 30 32 44 14 40 Z",
     {"change-plants", "add-cover", "add-moist-hide"}},
    {PICTOGRAM_PAPER,
     "a sheet that runs off its roll: M14 32 H44 L40 28",
     {"change-floor", "take-out-loose-floor", "keep-dry-floor", "clear-mites"}},
    {PICTOGRAM_HIDE,
     "an arch with a way in: M15 42 C15 29 18 24 24 24 C30 24 33 29 33 42 Z",
     {"add-hides", "add-hide", "add-second-hide", "make-shade", "give-warm-hide"}},
    {PICTOGRAM_NEST, "a tunnel into the soil: M34 12 C34 22 32 26 28 30", {"give-nest-box"}},
    {PICTOGRAM_LOW,
     "an arrow down to the floor: M24 37 L11 24 H20 V10 H28 V24 H37 Z",
     {"lower-perch", "protect-bones"}},
    {PICTOGRAM_DROP,
     "a drop: M24 3 C24 3 8 22 8 31 C8 40 15 46 24 46 C33 46 40 40 40 31 C40 22 24 "
     "3 24 3 Z",
     {"add-water-dish", "look-after-mates", "change-part-water", "treat-water", "change-more-water",
      "change-less-water", "add-filter", "settle-ph", "harden-water", "raise-water-level",
      "lower-water-level", "raise-humidity", "lower-humidity", "measure-humidity",
      "measure-humidity-warm", "shallow-water", "change-dish", "offer-water"}},
    {PICTOGRAM_LOW_TUB,
     "a body on the floor of a tub: M9 39 C15 35.5 21 36 26 36.5 C30 33.5 38 34 39 38 C38 40.6 33 "
     "41 "
     "29 40.4 C22 40.4 15 41 9 39 Z",
     {"shallow-gills"}},
    {PICTOGRAM_HEAT,
     "a shade above a bulb: M24 6 C16 6 12 14 10 24 H38 C36 14 32 6 24 6 Z",
     {"cool-basking", "warm-basking", "swap-ends", "widen-gradient", "change-red-light"}},
    {PICTOGRAM_TUBE,
     "a tube that lies level: M8 14 H40",
     {"hang-lamp-at", "change-lamp", "tell-of-lamp", "clear-lamp-path", "add-uvb-lamp",
      "weaker-lamp", "stronger-lamp", "measure-lamp"}},
    {PICTOGRAM_CLOCK, "two hands: M24 12 V24 L33 30", {"set-timer", "set-timer-later"}},
    {PICTOGRAM_BATH,
     "a tub: M5 24 H43 V34 C43 39 40 42 35 42 H13 C8 42 5 39 5 34 Z",
     {"shallow-bath", "give-drink-soak"}},
    {PICTOGRAM_MEAL,
     "a bowl: M3 25 H45 C45 37 36 44 24 44 C12 44 3 37 3 25 Z",
     {"feed-as-written", "offer-food", "feed-small", "feed-less-often", "feed-small-often"}},
    {PICTOGRAM_WEIGH, "a plate on its post: M4 36 H44 V45 H4 Z", {"weigh-weekly"}},
    {PICTOGRAM_PILL, "a capsule: M14 34 L34 14", {NULL}},
    {PICTOGRAM_WRITTEN, "a sheet with a corner off: M6 2 H32 L42 12 V46 H6 Z", {NULL}},
};
enum { MEANINGS = sizeof meanings / sizeof *meanings };

/* What sends a keeper to a clinic at once. */
static const struct alarm_meaning {
    enum alarm alarm;
    const char *drawn;
    const char *signs[WORDS_MOST];
} alarm_meanings[] = {
    {ALARM_BREATH,
     "what leaves the open jaws: M34 34 C38 32 41 35 45 33",
     {"open-mouth-breathing", "laboured-breathing", "wheezing-or-bubbles", "drowned",
      "gasps-at-surface", "choking", "tube-out", "discharge"}},
    {ALARM_LIMP,
     "a line below one that lies on its back: M3 41 H45",
     {"limp", "no-tongue-flick", "not-awake", "eyes-stay-shut"}},
    {ALARM_FIT,
     "a body in bends: M6 40 C14 40 12 28 20 28 C28 28 26 40 34 40",
     {"fits", "stargazing", "head-tilt", "rolling"}},
    {ALARM_BLOOD,
     "a drop: M18 2 C18 2 6 17 6 24 C6 31 11 36 18 36 C25 36 30 31 30 24 C30 17 18 2 "
     "18 2 Z",
     {"bleeding", "burn", "bite", "red-legs", "skin-sloughing", "dark-part-spreads",
      "swollen-dark-toes", "mouth-bleeds", "red-scales", "smelly-shell", "smelly-wound"}},
    {ALARM_BONE,
     "half of a broken bone: M28 20 L36 12",
     {"crushed-shell", "broken-bone", "dragging-legs", "weak-grip"}},
    {ALARM_BELLY,
     "what comes out below: M12 32 V40",
     {"prolapse", "straining-and-weak", "carrying-and-dull", "bloat", "floating", "straining"}},
    {ALARM_POISON, "a column, far up: M15 10 V34", {"poisoned", "overheated", "frozen"}},
};
enum { ALARM_MEANINGS = sizeof alarm_meanings / sizeof *alarm_meanings };

/* A kind's own variant of a caution is about the same. */
static const struct caution_meaning {
    const char *code;
    bool is_named; /* `sign` is an enum pictogram_name */
    int sign;
    const char *drawn;
} caution_meanings[] = {
    {"salmonella-hygiene", false, WALL_PICTOGRAM_HAND, "water from a tap: M16 10 H32"},
    {"salmonella-hygiene-amphibian", false, WALL_PICTOGRAM_HAND, "water from a tap: M16 10 H32"},
    {"who-should-not-handle", false, WALL_PICTOGRAM_PEOPLE, "crossed out: M7 43 L41 5"},
    {"burns-and-guards", true, PICTOGRAM_GUARD, "a cage around the lamp: M6 12 V40 H42 V12"},
    {"burns-and-guards-frog", true, PICTOGRAM_GUARD, "a cage around the lamp: M6 12 V40 H42 V12"},
    {"burns-and-guards-rocks", true, PICTOGRAM_GUARD, "a cage around the lamp: M6 12 V40 H42 V12"},
    {"electrical-safety", false, WALL_PICTOGRAM_PLUG, "a lead: M24 36 V46"},
    {"electrical-safety-tank", false, WALL_PICTOGRAM_PLUG, "a lead: M24 36 V46"},
    {"medicines-as-written", true, PICTOGRAM_PILL, "a capsule: M14 34 L34 14"},
};
enum { CAUTION_MEANINGS = sizeof caution_meanings / sizeof *caution_meanings };

static bool has_path(const struct pictogram *sign, const char *drawn)
{
    const char *path = strstr(drawn, ": ") + strlen(": ");
    for (size_t i = 0; i < sign->count; i++)
        if (strcmp(sign->parts[i].path, path) == 0)
            return true;
    return false;
}

static bool is_among(const char *code, const char *const words[WORDS_MOST])
{
    for (size_t i = 0; i < WORDS_MOST && words[i]; i++)
        if (strcmp(words[i], code) == 0)
            return true;
    return false;
}

static const struct meaning *meaning_of(const char *action)
{
    for (size_t i = 0; i < MEANINGS; i++)
        if (is_among(action, meanings[i].actions))
            return &meanings[i];
    return NULL;
}

static const struct alarm_meaning *alarm_meaning_of(const char *sign)
{
    for (size_t i = 0; i < ALARM_MEANINGS; i++)
        if (is_among(sign, alarm_meanings[i].signs))
            return &alarm_meanings[i];
    return NULL;
}

/* ---- the drawings ---- */

/* Each sign is drawn as its table says, and no two signs that data may name look the same. */
START_TEST(each_sign_is_drawn_as_what_it_is)
{
    ck_assert_int_eq(MEANINGS, PICTOGRAM_NAME_COUNT);
    for (size_t i = 0; i < MEANINGS; i++) {
        const struct pictogram *sign = wall_pictogram(meanings[i].sign);
        ck_assert_msg(has_path(sign, meanings[i].drawn), "not drawn: %s", meanings[i].drawn);
        for (size_t k = 0; k < MEANINGS; k++)
            ck_assert_msg(i == k || !has_path(wall_pictogram(meanings[k].sign), meanings[i].drawn),
                          "drawn twice: %s", meanings[i].drawn);
    }
    for (size_t i = 0; i < ALARM_MEANINGS; i++)
        ck_assert_msg(
            has_path(wall_alarm_pictogram(alarm_meanings[i].alarm), alarm_meanings[i].drawn),
            "not drawn: %s", alarm_meanings[i].drawn);
}
END_TEST

/* ---- the data ---- */

/* Each action of a rule has a row, each row a sign, and it is the one that its words mean. */
START_TEST(each_action_has_the_sign_of_its_meaning)
{
    const struct list *steps = &resources.steps->steps;
    size_t listed = 0;
    for (size_t i = 0; i < MEANINGS; i++)
        for (size_t k = 0; k < WORDS_MOST && meanings[i].actions[k]; k++, listed++)
            ck_assert_msg(step_find(resources.steps, meanings[i].actions[k]), "%s is gone",
                          meanings[i].actions[k]);
    for (size_t i = 0; i < steps->count; i++) {
        const struct step *step = LIST_AT(*steps, struct step, i);
        const struct meaning *meaning = meaning_of(step->name.text);
        ck_assert_msg(meaning, "say here which sign '%s' has", step->name.text);
        ck_assert_msg(step->pictogram.known && step->pictogram.value == (int)meaning->sign,
                      "%s has not the sign of %s", step->name.text, meaning->drawn);
    }
    ck_assert_uint_eq(listed, steps->count);
}
END_TEST

START_TEST(each_emergency_has_the_sign_of_its_meaning)
{
    const struct list *signs = &resources.signs->signs;
    size_t checked = 0;
    for (size_t i = 0; i < signs->count; i++) {
        const struct warning_sign *sign = LIST_AT(*signs, struct warning_sign, i);
        if (!sign->alarm.known && sign->tier.value != TIER_NOW)
            continue;
        const struct alarm_meaning *meaning = alarm_meaning_of(sign->name.text);
        ck_assert_msg(meaning, "say here beside what '%s' stands", sign->name.text);
        ck_assert_msg(sign->alarm.value == (int)meaning->alarm, "%s does not stand beside %s",
                      sign->name.text, meaning->drawn);
        checked++;
    }
    ck_assert_uint_ge(checked, 30);
}
END_TEST

/* ---- what is printed ---- */

struct shown {
    const char *codes[200];
    size_t count;
    size_t cautions, alarms;
};

static void note(struct shown *shown, const char *code)
{
    for (size_t i = 0; i < shown->count; i++)
        if (strcmp(shown->codes[i], code) == 0)
            return;
    ck_assert_uint_lt(shown->count, sizeof shown->codes / sizeof *shown->codes);
    shown->codes[shown->count++] = code;
}

static void check_steps(const struct panel *panel, const struct care_plan *plan, const char *visit,
                        struct shown *shown)
{
    size_t at = 0;
    for (const struct panel_entry *e = panel->entries; e && !plan->go_now; e = e->next, at++) {
        const struct action *action = &plan->actions[at];
        /* what is said in an action's place may have a meaning of its own */
        const struct meaning *said = meaning_of(action->words);
        const struct meaning *meaning = said ? said : meaning_of(action->code);
        enum pictogram_name sign = action->own ? PICTOGRAM_VET : meaning->sign;
        ck_assert_msg(e->value || e->pictogram, "%s: no sign beside %s", visit, action->code);
        if (e->pictogram) {
            ck_assert_msg(e->pictogram == wall_pictogram(sign), "%s: another sign beside %s", visit,
                          action->code);
            note(shown, action->code);
        }
    }
}

static void check_alert(const struct panel *panel, const struct care_plan *plan,
                        const struct wording *words, const char *visit, struct shown *shown)
{
    for (size_t i = 0; i < plan->warning_count; i++) {
        const char *key = arena_format(&arena, "sign.%s", plan->warnings[i].code);
        const struct wording_entry *entry = catalogue_find(words, key);
        if (plan->warnings[i].tier != TIER_NOW || !entry ||
            entry->alternatives[0].forms[0].count != 1)
            continue;
        const char *text = entry->alternatives[0].forms[0].pieces[0].text;
        const struct alarm_meaning *meaning = alarm_meaning_of(plan->warnings[i].code);
        for (const struct panel_entry *e = panel->entries; e; e = e->next) {
            if (!strstr(e->text, text))
                continue;
            ck_assert_msg(meaning && e->pictogram == wall_alarm_pictogram(meaning->alarm),
                          "%s: another sign beside %s", visit, plan->warnings[i].code);
            shown->alarms++;
        }
    }
}

static void check_cautions(const struct panel *panel, const struct wording *words,
                           const char *visit, struct shown *shown)
{
    for (const struct panel_entry *e = panel->entries; e; e = e->next) {
        const struct caution_meaning *meaning = NULL;
        for (size_t i = 0; i < CAUTION_MEANINGS && !meaning; i++) {
            const struct wording_entry *entry = catalogue_find(
                words, arena_format(&arena, "wall.caution.%s", caution_meanings[i].code));
            for (size_t k = 0; entry && k < entry->count && !meaning; k++)
                if (entry->alternatives[k].forms[0].count == 1 &&
                    strcmp(entry->alternatives[k].forms[0].pieces[0].text, e->text) == 0)
                    meaning = &caution_meanings[i];
        }
        ck_assert_msg(meaning, "%s: say here which sign '%s' has", visit, e->text);
        ck_assert_msg(e->pictogram ==
                          (meaning->is_named
                               ? wall_pictogram((enum pictogram_name)meaning->sign)
                               : wall_other_pictogram((enum wall_pictogram)meaning->sign)),
                      "%s: another sign beside '%s'", visit, e->text);
        ck_assert_msg(has_path(e->pictogram, meaning->drawn), "not drawn: %s", meaning->drawn);
        shown->cautions++;
    }
}

static void check_blocks(const struct block *block, const struct care_plan *plan,
                         const struct wording *words, const char *visit, struct shown *shown)
{
    for (; block; block = block->next) {
        if (block->kind == BLOCK_PAGE) {
            check_blocks(block->as.page.blocks, plan, words, visit, shown);
            check_blocks(block->as.page.foot, plan, words, visit, shown);
        }
        if (block->kind == BLOCK_COLUMNS)
            for (const struct column *c = block->as.columns.columns; c; c = c->next)
                check_blocks(c->blocks, plan, words, visit, shown);
        if (block->kind != BLOCK_PANEL)
            continue;
        const struct panel *panel = block->as.panel;
        if (panel->kind == PANEL_STEPS)
            check_steps(panel, plan, visit, shown);
        if (panel->kind == PANEL_ALERT)
            check_alert(panel, plan, words, visit, shown);
        if (panel->kind == PANEL_SIGNS)
            check_cautions(panel, words, visit, shown);
    }
}

/* Each caution that has words for the page has a sign, a kind's own variant too. */
START_TEST(each_caution_with_words_has_a_sign)
{
    static const char prefix[] = "wall.caution.";
    const struct wording *words = sheet_context_words(&context, "en", (struct mark){0}, &diag);
    size_t worded = 0;
    for (size_t i = 0; i < words->count; i++) {
        const char *key = words->entries[i].key;
        bool is_known = false;
        if (strncmp(key, prefix, strlen(prefix)) != 0)
            continue;
        for (size_t k = 0; k < CAUTION_MEANINGS; k++)
            is_known = is_known || strcmp(caution_meanings[k].code, key + strlen(prefix)) == 0;
        ck_assert_msg(is_known, "say here which sign '%s' has", key);
        worded++;
    }
    ck_assert_uint_eq(worded, CAUTION_MEANINGS);
}
END_TEST

static void check_visit(const char *path, const char *language, struct shown *shown)
{
    const struct date today = {2026, 6, 1};
    const struct sheet_options options = {.language = language, .kind = "checkout"};
    const struct visit_record *record = visit_plan_read(&resources, path, today, &arena, &diag);
    ck_assert_ptr_nonnull(record);
    struct signature signature;
    struct paged paged = {0};
    const struct sheet_inputs inputs = {&context, record->plan, &options, &signature};
    ck_assert(sheet_context_signature(&context, record, language, &arena, &diag, &signature) &&
              sheet_lay(&inputs, &arena, &diag, &paged));
    const struct wording *words = sheet_context_words(&context, language, (struct mark){0}, &diag);
    check_blocks(paged.document->blocks, record->plan, words, path, shown);
}

/* On the sheets of all cases and examples the sign that is printed is the one of the meaning. */
START_TEST(each_printed_sign_is_the_one_of_its_words)
{
    static const char *const folders[] = {TESTS_FOLDER "/sheet/cases",
                                          PROJECT_FOLDER "/templates/visits"};
    struct shown shown = {0};
    for (size_t f = 0; f < 2; f++) {
        const char **names = NULL;
        size_t count = file_list(folders[f], ".yaml", &arena, &diag, &names);
        for (size_t i = 0; i < count; i++)
            check_visit(arena_format(&arena, "%s/%s", folders[f], names[i]), "en", &shown);
    }
    ck_assert_uint_ge(shown.count, 10);
    ck_assert_uint_ge(shown.alarms, 100);
    ck_assert_uint_ge(shown.cautions, 40);
}
END_TEST

/* What the veterinarian adds in words of their own is nobody's row: it has the clinic's sign. */
START_TEST(own_words_have_the_sign_of_a_written_sheet)
{
    const struct visit_record *record = written_record(
        &resources,
        "visit: {date: 2026-03-14, kind: checkout, veterinarian: Dr Ines Calder}\n"
        "patient: {name: Moss, species: corn-snake, length: 90 cm}\n"
        "decisions: [{do: Rub the nose with the cream., place: 1, because: as we spoke of}]\n",
        &arena, &diag);
    if (!record)
        diag_print(&diag, stderr);
    ck_assert_ptr_nonnull(record);
    const struct care_plan *plan = record->plan;
    size_t own = 0;
    for (size_t i = 0; i < plan->action_count; i++) {
        if (!plan->actions[i].own)
            continue;
        ck_assert_int_eq(plan->steps[i].pictogram, PICTOGRAM_WRITTEN);
        own++;
    }
    ck_assert_uint_eq(own, 1);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("signs");
    TCase *tcase = tcase_create("signs");
    tcase_set_timeout(tcase, 120);
    tcase_add_checked_fixture(tcase, set_up_context, tear_down_context);
    tcase_add_test(tcase, each_sign_is_drawn_as_what_it_is);
    tcase_add_test(tcase, each_action_has_the_sign_of_its_meaning);
    tcase_add_test(tcase, each_emergency_has_the_sign_of_its_meaning);
    tcase_add_test(tcase, each_caution_with_words_has_a_sign);
    tcase_add_test(tcase, own_words_have_the_sign_of_a_written_sheet);
    tcase_add_test(tcase, each_printed_sign_is_the_one_of_its_words);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
