/* The species sheets as a whole: they read, hang together with the other data files, and agree
 * with facts of the trade; and the checks beyond the schema find what they are for. */
#include <glob.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "common/suite.h"
#include "records/reference_values.h"
#include "records/findings.h"
#include "records/species.h"
#include "records/unlisted.h"

#define SHEETS PROJECT_FOLDER "/species-sheets"

static struct arena arena;
static struct diag diag;
static struct library library;

static void set_up(void)
{
    arena_init(&arena);
    diag_init(&diag);
    bool good = library_read(SHEETS, NULL, &arena, &diag, &library);
    if (!good)
        diag_print(&diag, stderr);
    ck_assert(good);
    ck_assert_ptr_null(diag.first);
}

static void tear_down(void)
{
    arena_finish(&arena);
    diag_finish(&diag);
}

static const struct species *find(const char *code)
{
    for (size_t i = 0; i < library.count; i++)
        if (strcmp(library.items[i]->code.text, code) == 0)
            return library.items[i];
    ck_abort_msg("there is no sheet %s", code);
    return NULL;
}

/* ---- every sheet ----------------------------------------------------------------------------- */

START_TEST(all_species_are_there)
{
    glob_t sheets;
    ck_assert_int_eq(glob(SHEETS "/*.yaml", 0, NULL, &sheets), 0);
    ck_assert_uint_gt(sheets.gl_pathc, 40);
    ck_assert_uint_eq(library.count, sheets.gl_pathc);
    globfree(&sheets);
    for (size_t i = 0; i < library.count; i++) {
        const char *code = library.items[i]->code.text;
        ck_assert(i == 0 || strcmp(library.items[i - 1]->code.text, code) < 0);
        ck_assert_ptr_nonnull(named_text_find(&library.items[i]->names, "en"));
        ck_assert_ptr_nonnull(named_text_find(&library.items[i]->names, "es"));
    }
}
END_TEST

/* Walks a sheet's tree: every cited value's source, and how it says it was read. */
static void check_citations(const char *file, const struct node *node, const struct node *sources,
                            bool *used)
{
    const struct node *source = tree_find(node, "source"), *trust = tree_find(node, "trust");
    if (!source) {
        source = tree_find(node, "least-source");
        trust = tree_find(node, "least-trust");
    }
    for (size_t i = 0; source && i < sources->count; i++) {
        if (strcmp(sources->keys[i]->text, source->text) != 0)
            continue;
        used[i] = true;
        bool says_memory = strstr(sources->items[i]->text, "from memory") != NULL;
        bool is_memory = strcmp(trust->text, "memory") == 0;
        ck_assert_msg(says_memory == is_memory, "%s:%d: '%s' is marked %s", file, source->at.line,
                      source->text, trust->text);
    }
    for (size_t i = 0; node->kind != NODE_SCALAR && i < node->count; i++)
        check_citations(file, node->items[i], sources, used);
}

START_TEST(memory_is_called_memory_and_every_source_is_used)
{
    for (size_t i = 0; i < library.count; i++) {
        const char *file = library.items[i]->file;
        const struct node *tree = tree_read_file(file, &arena, &diag);
        const struct node *sources = tree_find(tree, "sources");
        bool *used = ARENA_ARRAY(&arena, bool, sources->count);
        check_citations(file, tree, sources, used);
        for (size_t j = 0; j < sources->count; j++)
            ck_assert_msg(used[j], "%s: nothing uses '%s'", file, sources->keys[j]->text);
    }
}
END_TEST

START_TEST(foods_are_known)
{
    const struct reference_values *reference =
        reference_values_read(PROJECT_FOLDER "/templates/reference-values.yaml", &arena, &diag);
    ck_assert_ptr_nonnull(reference);
    for (size_t i = 0; i < library.count; i++)
        for (size_t j = 0; j < library.items[i]->feeding.count; j++) {
            const struct species_feeding_stage *stage =
                LIST_AT(library.items[i]->feeding, struct species_feeding_stage, j);
            for (size_t k = 0; k < stage->foods.count; k++) {
                const char *code = LIST_AT(stage->foods, struct text_value, k)->text;
                ck_assert_msg(food_find(reference, code), "%s: no food %s",
                              library.items[i]->code.text, code);
            }
        }
}
END_TEST

static bool has_word(const struct list *choices, int value)
{
    for (size_t i = 0; i < choices->count; i++)
        if (LIST_AT(*choices, struct choice_value, i)->value == value)
            return true;
    return false;
}

static void check_signs(const struct species *species, const char *name,
                        const struct sign_catalogue *signs)
{
    for (size_t j = 0; j < species->warnings.count; j++) {
        const char *code = LIST_AT(species->warnings, struct text_value, j)->text;
        const struct warning_sign *sign = sign_find(signs, code);
        ck_assert_msg(sign, "%s: no sign %s", name, code);
        ck_assert_msg(!sign->always.value, "%s: %s is always there", name, code);
        ck_assert_msg(has_word(&sign->groups, species->group.value), "%s: %s is of other groups",
                      name, code);
        for (size_t k = 0; k < sign->needs.count; k++)
            ck_assert_msg(
                has_word(&species->traits, LIST_AT(sign->needs, struct choice_value, k)->value),
                "%s: %s needs a trait it lacks", name, code);
    }
}

/* A sheet, and what is said of a whole group, raises signs that exist, make sense for its animal,
 * and do not stand there anyway. */
START_TEST(warnings_are_known_and_fit)
{
    const struct sign_catalogue *signs =
        sign_catalogue_read(PROJECT_FOLDER "/templates/warning-signs.yaml", &arena, &diag);
    const struct unlisted_animals *unlisted =
        unlisted_read(PROJECT_FOLDER "/templates/unlisted.yaml", &arena, &diag);
    ck_assert_ptr_nonnull(signs);
    ck_assert_ptr_nonnull(unlisted);
    for (size_t i = 0; i < library.count; i++)
        check_signs(library.items[i], library.items[i]->code.text, signs);
    for (size_t i = 0; i < unlisted->groups.count; i++) {
        const struct species *group = LIST_AT(unlisted->groups, struct species, i);
        check_signs(group, bind_choice_word(group_choices, group->group.value), signs);
    }
}
END_TEST

/* What is said of a whole group holds for each species of it that we know. */
START_TEST(a_groups_traits_are_those_of_all)
{
    const struct unlisted_animals *unlisted =
        unlisted_read(PROJECT_FOLDER "/templates/unlisted.yaml", &arena, &diag);
    ck_assert_ptr_nonnull(unlisted);
    for (size_t i = 0; i < unlisted->groups.count; i++) {
        const struct species *group = LIST_AT(unlisted->groups, struct species, i);
        for (size_t k = 0; k < library.count; k++)
            for (size_t t = 0;
                 library.items[k]->group.value == group->group.value && t < group->traits.count;
                 t++)
                ck_assert_msg(has_word(&library.items[k]->traits,
                                       LIST_AT(group->traits, struct choice_value, t)->value),
                              "%s lacks a trait of its group", library.items[k]->code.text);
    }
}
END_TEST

/* The bounds of what is plausible hold every grown animal and hatchling that the sheet knows, and
 * catch a slip of the decimal point in either. */
START_TEST(plausible_bounds_catch_a_tenfold_slip)
{
    for (size_t i = 0; i < library.count; i++) {
        const struct species *s = library.items[i];
        const char *code = s->code.text;
        const struct band *mass = &s->plausible_mass_g, *length = &s->plausible_length_cm;
        const struct band *adult = &s->adult_mass_g.range, *young = &s->hatchling_mass_g.range;
        ck_assert_msg(mass->low <= adult->low && adult->high <= mass->high, "%s", code);
        ck_assert_msg(adult->high * 10 > mass->high, "%s: ten times an adult's mass", code);
        ck_assert_msg(s->adult_length_cm.range.high <= length->high, "%s", code);
        ck_assert_msg(s->adult_length_cm.range.high * 10 > length->high, "%s", code);
        for (size_t j = 0; j < s->adult_mass_g.disagrees.count; j++) {
            const struct sourced_value *other =
                LIST_AT(s->adult_mass_g.disagrees, struct sourced_value, j);
            ck_assert_msg(mass->low <= other->range.low && other->range.high <= mass->high, "%s",
                          code);
        }
        if (young->known) {
            ck_assert_msg(mass->low <= young->low, "%s: a hatchling", code);
            ck_assert_msg(young->low / 10 < mass->low, "%s: a tenth of a hatchling", code);
        }
    }
}
END_TEST

START_TEST(stages_run_from_young_to_adult)
{
    for (size_t i = 0; i < library.count; i++) {
        const struct species *s = library.items[i];
        const struct species_feeding_stage *younger = NULL;
        for (size_t j = 0; j < s->feeding.count; j++) {
            const struct species_feeding_stage *stage =
                LIST_AT(s->feeding, struct species_feeding_stage, j);
            bool last = j + 1 == s->feeding.count;
            bool ends = stage->until_age_days.known || stage->until_mass_g.known;
            ck_assert_msg(ends != last, "%s: stage %zu", s->code.text, j + 1);
            ck_assert_msg((stage->stage.value == STAGE_ADULT) == last, "%s", s->code.text);
            /* common practice, no source: the young eat as often as the grown, or more often */
            if (younger) {
                ck_assert_int_gt(stage->stage.value, younger->stage.value);
                ck_assert_msg(stage->every_days.range.low >= younger->every_days.range.low &&
                                  stage->every_days.range.high >= younger->every_days.range.high,
                              "%s", s->code.text);
            }
            younger = stage;
        }
        ck_assert_msg(s->no_food_young_days.range.high <= s->no_food_days.range.low, "%s",
                      s->code.text);
        /* where plants are eaten daily beside them, the time between animals is no fast */
        if (s->diet.value != DIET_MIXED)
            ck_assert_msg(younger->every_days.range.high < s->no_food_days.range.low,
                          "%s: fasts %g days", s->code.text, s->no_food_days.range.low);
    }
}
END_TEST

/* ---- facts of the trade: common practice, no source -------------------------------------------
 */

START_TEST(sun_baskers_need_more_uv_than_dusk_animals)
{
    double gecko = find("leopard-gecko")->ferguson_zone.range.high;
    ck_assert_double_gt(find("bearded-dragon")->ferguson_zone.range.low, gecko);
    ck_assert_double_gt(find("spiny-tailed-lizard")->ferguson_zone.range.low, gecko);
    ck_assert_double_gt(find("hermanns-tortoise")->ferguson_zone.range.low, gecko);
    for (size_t i = 0; i < library.count; i++) {
        const struct sourced_value *zone = &library.items[i]->ferguson_zone;
        ck_assert(!zone->range.known || (zone->range.low >= 1 && zone->range.high <= 4));
        ck_assert(library.items[i]->hours_summer.range.low >=
                  library.items[i]->hours_winter.range.low);
    }
}
END_TEST

START_TEST(axolotl_lives_in_cold_water_alone)
{
    const struct species *axolotl = find("axolotl");
    for (int z = 0; z < ZONE_COUNT; z++)
        ck_assert_int_eq(axolotl->measured[z].range.known, z == ZONE_WATER);
    ck_assert(!axolotl->needs_uvb.value);
    ck_assert(!axolotl->ferguson_zone.range.known);
    ck_assert(!axolotl->measured[MEASURE_HUMIDITY].range.known);
    /* water above 22 C harms it */
    ck_assert_double_lt(axolotl->upper_limit.range.low, 22);
    ck_assert_double_lt(axolotl->measured[ZONE_WATER].range.high, axolotl->upper_limit.range.low);
}
END_TEST

START_TEST(animals_that_overheat_have_an_upper_limit)
{
    for (size_t i = 0; i < library.count; i++) {
        const struct species *s = library.items[i];
        if (s->group.value == GROUP_FROG || s->group.value == GROUP_SALAMANDER)
            ck_assert_msg(s->upper_limit.range.known &&
                              !s->measured[ZONE_BASKING_SURFACE].range.known,
                          "%s", s->code.text);
        /* air, unlike the surface under a lamp, is never so hot that it cannot be left */
        if (s->measured[ZONE_WARM_SIDE].range.known)
            ck_assert_double_le(s->measured[ZONE_WARM_SIDE].range.high, 36);
    }
    ck_assert_double_lt(find("crested-gecko")->upper_limit.range.low, 30);
}
END_TEST

static const char *const lidless_geckos[] = {"crested-gecko", "gargoyle-gecko", "giant-day-gecko",
                                             "tokay-gecko", NULL};

static bool is_among(const struct species *species, const char *const *codes)
{
    for (; *codes; codes++)
        if (strcmp(species->code.text, *codes) == 0)
            return true;
    return false;
}

START_TEST(eyes_and_limbs_are_as_they_are)
{
    for (size_t i = 0; i < library.count; i++) {
        const struct species *s = library.items[i];
        bool snake = s->group.value == GROUP_SNAKE;
        bool lidless = is_among(s, lidless_geckos);
        bool chelonian = s->group.value == GROUP_TORTOISE || s->group.value == GROUP_TURTLE;
        bool axolotl = s->group.value == GROUP_SALAMANDER;
        ck_assert_int_eq(species_has_trait(s, TRAIT_SPECTACLES), snake || lidless);
        ck_assert_int_eq(species_has_trait(s, TRAIT_EYELIDS), !snake && !lidless && !axolotl);
        ck_assert_int_eq(species_has_trait(s, TRAIT_LIMBS), !snake);
        ck_assert_int_eq(species_has_trait(s, TRAIT_SHELL), chelonian);
    }
}
END_TEST

/* Exotic veterinary site, 'Reptile reproduction': all boas, garter snakes and blue-tongued skinks
 * bear young; pythons, corn, rat, king and milk snakes, iguanas, dragons, geckos, veiled and
 * panther chameleons and all chelonia lay eggs. */
START_TEST(those_that_bear_young_get_no_soil)
{
    size_t bearers = 0;
    for (size_t i = 0; i < library.count; i++) {
        const struct species *s = library.items[i];
        bool bears = strstr(s->code.text, "boa") || strstr(s->code.text, "garter") ||
                     strstr(s->code.text, "blue-tongued");
        bearers += bears;
        ck_assert_msg((s->reproduction.value == REPRODUCTION_LIVE_BEARER) == bears, "%s",
                      s->code.text);
        ck_assert_msg((s->nest_kind.value == NEST_DRY_HIDE) == bears, "%s", s->code.text);
        if (s->group.value == GROUP_FROG || s->group.value == GROUP_SALAMANDER)
            ck_assert_int_eq(s->nest_kind.value, NEST_NONE);
        /* common practice, no source: soil at least as deep as the shell is long */
        if (s->group.value == GROUP_TORTOISE)
            ck_assert_double_ge(s->nest_depth_cm.range.high, s->adult_length_cm.range.low);
    }
    ck_assert_uint_ge(bearers, 3);
}
END_TEST

/* Common practice, no source: chameleons, anoles, day and crested geckos and green tree pythons
 * lick drops and do not know a bowl. */
START_TEST(drop_drinkers_are_known)
{
    static const char *const drinkers[] = {"veiled-chameleon",  "panther-chameleon",
                                           "green-anole",       "crested-gecko",
                                           "green-tree-python", "giant-day-gecko"};
    ck_assert(species_has_trait(find(drinkers[_i]), TRAIT_DRINKS_DROPS));
    ck_assert(!species_has_trait(find("ball-python"), TRAIT_DRINKS_DROPS));
}
END_TEST

/* A body is warmer than the night that the animal sleeps through, and no warmer than the spot where
 * it warms itself. */
START_TEST(a_body_temperature_can_be_reached)
{
    size_t seen = 0;
    for (size_t i = 0; i < library.count; i++) {
        const struct species *s = library.items[i];
        const struct band *body = &s->preferred_body.range,
                          *spot = &s->measured[ZONE_BASKING_SURFACE].range;
        if (!body->known)
            continue;
        seen++;
        ck_assert_msg(body->low > s->measured[ZONE_NIGHT].range.low, "%s", s->code.text);
        if (spot->known)
            ck_assert_msg(spot->high >= body->low, "%s", s->code.text);
    }
    ck_assert_uint_ge(seen, 15);
}
END_TEST

START_TEST(tropical_animals_never_brumate)
{
    static const char *const never[] = {
        "ball-python",          "boa-constrictor",     "green-tree-python",  "fat-tailed-gecko",
        "crested-gecko",        "veiled-chameleon",    "panther-chameleon",  "green-iguana",
        "sulcata-tortoise",     "red-footed-tortoise", "whites-tree-frog",   "axolotl",
        "leopard-tortoise",     "burmese-python",      "reticulated-python", "kenyan-sand-boa",
        "giant-day-gecko",      "gargoyle-gecko",      "tokay-gecko",        "savannah-monitor",
        "chinese-water-dragon", "horned-frog"};
    ck_assert_int_eq(find(never[_i])->brumation.value, BRUMATION_NEVER);
}
END_TEST

/* Fish that holds thiaminase takes vitamin B1 from the animal that eats it. */
START_TEST(fish_eaters_get_thiamine)
{
    for (size_t i = 0; i < library.count; i++) {
        const struct species *s = library.items[i];
        bool fish = false, thiamine = false;
        for (size_t j = 0; j < s->feeding.count; j++) {
            const struct list *foods = &LIST_AT(s->feeding, struct species_feeding_stage, j)->foods;
            for (size_t k = 0; k < foods->count; k++)
                fish = fish ||
                       strcmp(LIST_AT(*foods, struct text_value, k)->text, "freshwater-fish") == 0;
        }
        for (size_t j = 0; j < s->supplements.count; j++)
            thiamine =
                thiamine || LIST_AT(s->supplements, struct species_supplement, j)->what.value ==
                                SUPPLEMENT_THIAMINE;
        ck_assert_msg(fish == thiamine, "%s", s->code.text);
    }
}
END_TEST

START_TEST(plant_eaters_get_plants_alone)
{
    const struct reference_values *reference =
        reference_values_read(PROJECT_FOLDER "/templates/reference-values.yaml", &arena, &diag);
    ck_assert_ptr_nonnull(reference);
    size_t seen = 0;
    for (size_t i = 0; i < library.count; i++) {
        const struct species *s = library.items[i];
        if (s->diet.value != DIET_PLANTS)
            continue;
        seen++;
        for (size_t j = 0; j < s->feeding.count; j++) {
            const struct list *foods = &LIST_AT(s->feeding, struct species_feeding_stage, j)->foods;
            for (size_t k = 0; k < foods->count; k++)
                ck_assert_int_eq(
                    food_find(reference, LIST_AT(*foods, struct text_value, k)->text)->kind.value,
                    FOOD_PLANT);
        }
    }
    ck_assert_uint_eq(seen, 7); /* iguana, spiny-tailed lizard, five tortoises */
}
END_TEST

/* A young insect eater or a chameleon that stops eating is a call within three days. */
START_TEST(those_with_little_to_spare_have_short_limits)
{
    for (size_t i = 0; i < library.count; i++) {
        const struct species *s = library.items[i];
        if (s->diet.value == DIET_INSECTS)
            ck_assert_double_le(s->no_food_young_days.range.high, 3);
    }
    ck_assert_double_le(find("veiled-chameleon")->no_food_days.range.high, 3);
    ck_assert_double_le(find("panther-chameleon")->no_food_days.range.high, 3);
    ck_assert_double_ge(find("ball-python")->no_food_days.range.low, 60);
}
END_TEST

START_TEST(shed_air_is_moister)
{
    for (size_t i = 0; i < library.count; i++) {
        const struct species *s = library.items[i];
        const struct band *usual = &s->measured[MEASURE_HUMIDITY].range,
                          *shed = &s->humidity_shed_percent.range;
        if (s->group.value == GROUP_SNAKE || s->group.value == GROUP_LIZARD)
            ck_assert_msg(shed->known, "%s", s->code.text);
        if (shed->known)
            ck_assert_msg(shed->low > usual->low && shed->high > usual->high, "%s", s->code.text);
    }
}
END_TEST

/* ---- the checks find what they are for ----------------------------------------------------------
 */

/* The text of a good sheet with one place changed. */
static const struct species *read_changed(const char *code, const char *from, const char *to)
{
    char folder[] = "/tmp/baskleaf-test-XXXXXX";
    struct bytes good;
    ck_assert(file_read(SHEETS "/ball-python.yaml", 1 << 20, &arena, &diag, &good));
    const char *text = arena_copy_bytes(&arena, good.data, good.length);
    const char *place = strstr(text, from);
    ck_assert_msg(place, "the sheet has no '%s'", from);
    const char *changed =
        arena_format(&arena, "%.*s%s%s", (int)(place - text), text, to, place + strlen(from));
    ck_assert_ptr_nonnull(mkdtemp(folder));
    const char *path = file_join(&arena, folder, arena_format(&arena, "%s.yaml", code));
    ck_assert(file_write_atomic(path, changed, strlen(changed), 0600, &diag));
    const struct species *species = species_read(path, &arena, &diag);
    ck_assert_int_eq(unlink(path), 0);
    ck_assert_int_eq(rmdir(folder), 0);
    return species;
}

static const struct {
    const char *from, *to;
    const char *code, *path, *says;
} faults[] = {
    {"cool-side:\n    range: 26-28 C", "cool-side:\n    range: 22-28 C", "zones-out-of-order",
     "temperature", "'cool-side' (22-28 C) lies below"},
    {"cool-side:\n    range: 26-28 C", "cool-side:\n    range: 26-33 C", "zones-out-of-order",
     "temperature", "'warm-side' (30-32 C) lies below"},
    {"upper-limit: {range: 35 C", "upper-limit: {range: 31 C", "limit-below-zone",
     "temperature.upper-limit", "'basking-surface' goes up to 34 C, above the 31 C"},
    {"upper-limit: {range: 35 C", "upper-limit: {range: 33 C", "limit-below-zone",
     "temperature.upper-limit", "'basking-surface' goes up to 34 C, above the 33 C"},
    {"in-shed: {range: 70-90 %, source: practice", "in-shed: {range: 70-90 %, source: nobody",
     "unknown-source", "humidity.in-shed", "source 'nobody'"},
    {"{range: 25-30 C, source: msd", "{range: 25-30 C, source: nobody", "unknown-source",
     "temperature.preferred-air", "source 'nobody'"},
    {"in-shed: {range: 70-90 %, source: practice, trust", "in-shed: {range: 70-90 %, trust",
     "missing-key", "humidity.in-shed", "'source' is missing"},
    {"in-shed: {range: 70-90 %, source: practice, trust: memory}",
     "in-shed: {source: practice, trust: memory}", "missing-key", "humidity.in-shed",
     "'range' is missing"},
    {"in-shed: {range: 70-90 %, source: practice, trust: memory}",
     "in-shed: {range: 70-90 %, source: practice}", "missing-key", "humidity.in-shed",
     "'trust' is missing"},
    {"in-shed: {range: 70-90 %, source: practice, trust: memory}",
     "in-shed: {range: 70-90 %, source: practice, trust: hearsay}", "unknown-word",
     "humidity.in-shed.trust", "'hearsay'"},
    {"  practice: common practice, from memory; no published table read", "  practice: {}",
     "missing-key", "sources.practice", "'text' is missing"},
    {"    choice: the wider zone", "    # choice: the wider zone", "choice-unsaid",
     "temperature.preferred-air", "under 'choice'"},
    {"ferguson-zone:\n    range: 1", "ferguson-zone:\n    range: 9", "out-of-range",
     "light.ferguson-zone.range", "(1 to 4)"},
    {"  uvb: yes", "  uvb: maybe", "not-yes-or-no", "light.uvb", "neither yes nor no"},
    {"{en: ball python, es: pitón bola, fr: python royal}", "{es: pitón bola, fr: python royal}",
     "incomplete-sheet", "species.names", "English name"},
    {"habit: terrestrial", "habit: semi-aquatic", "incomplete-sheet", "temperature.water",
     "lives in water"},
    {"brumation: never", "brumation: after-check", "incomplete-sheet",
     "species.brumation-least-age", "winter rest"},
    {"nest:\n  kind: dark-moss-box",
     "nest:\n  depth: {range: 20-25 cm, source: practice, trust: memory}", "missing-key", "nest",
     "'kind' is missing"},
    {"kind: dark-moss-box", "kind: dry-hide", "incomplete-sheet", "nest.kind", "reproduces"},
    {"kind: dark-moss-box", "kind: soil-box", "incomplete-sheet", "nest.depth", "she digs"},
    {"least-humidity: {range: 60 %", "least-humidity: {range: 65 %", "incomplete-sheet",
     "humidity.least-humidity", "above the usual band"},
    {"reproduction: egg-layer", "reproduction: live-bearer", "incomplete-sheet", "nest.kind",
     "reproduces"},
    {"  length-times:",
     "  height-plus: {range: 30 cm, source: nobody, trust: copy}\n  length-times:",
     "unknown-source", "enclosure.height-plus", "source 'nobody'"},
};

START_TEST(a_fault_is_found)
{
    ck_assert_ptr_null(read_changed("ball-python", faults[_i].from, faults[_i].to));
    ck_assert_ptr_nonnull(diag.first);
    ck_assert_str_eq(diag.first->code, faults[_i].code);
    ck_assert_ptr_nonnull(diag.first->path);
    ck_assert_str_eq(diag.first->path, faults[_i].path);
    ck_assert_msg(strstr(diag.first->text, faults[_i].says), "%s", diag.first->text);
    ck_assert_int_gt(diag.first->at.line, 0);
}
END_TEST

START_TEST(code_is_the_name_of_the_file)
{
    ck_assert_ptr_nonnull(read_changed("ball-python", "habit: terrestrial", "habit: arboreal"));
    ck_assert_ptr_null(diag.first);
    ck_assert_ptr_null(read_changed("royal-python", "habit: terrestrial", "habit: arboreal"));
    ck_assert_str_eq(diag.first->code, "code-not-file-name");
}
END_TEST

static Suite *make_suite(void)
{
    Suite *suite = suite_create("species");
    TCase *whole = tcase_create("whole");
    tcase_add_checked_fixture(whole, set_up, tear_down);
    tcase_add_test(whole, all_species_are_there);
    tcase_add_test(whole, memory_is_called_memory_and_every_source_is_used);
    tcase_add_test(whole, foods_are_known);
    tcase_add_test(whole, warnings_are_known_and_fit);
    tcase_add_test(whole, a_groups_traits_are_those_of_all);
    tcase_add_test(whole, plausible_bounds_catch_a_tenfold_slip);
    tcase_add_test(whole, stages_run_from_young_to_adult);
    suite_add_tcase(suite, whole);
    TCase *trade = tcase_create("trade");
    tcase_add_checked_fixture(trade, set_up, tear_down);
    tcase_add_test(trade, sun_baskers_need_more_uv_than_dusk_animals);
    tcase_add_test(trade, axolotl_lives_in_cold_water_alone);
    tcase_add_test(trade, animals_that_overheat_have_an_upper_limit);
    tcase_add_test(trade, eyes_and_limbs_are_as_they_are);
    tcase_add_test(trade, those_that_bear_young_get_no_soil);
    tcase_add_loop_test(trade, drop_drinkers_are_known, 0, 6);
    tcase_add_test(trade, a_body_temperature_can_be_reached);
    tcase_add_loop_test(trade, tropical_animals_never_brumate, 0, 22);
    tcase_add_test(trade, fish_eaters_get_thiamine);
    tcase_add_test(trade, plant_eaters_get_plants_alone);
    tcase_add_test(trade, those_with_little_to_spare_have_short_limits);
    tcase_add_test(trade, shed_air_is_moister);
    suite_add_tcase(suite, trade);
    TCase *checks = tcase_create("checks");
    tcase_add_checked_fixture(checks, set_up, tear_down);
    tcase_add_loop_test(checks, a_fault_is_found, 0, (int)(sizeof faults / sizeof *faults));
    tcase_add_test(checks, code_is_the_name_of_the_file);
    suite_add_tcase(suite, checks);
    return suite;
}

int main(void)
{
    return suite_run(make_suite());
}
