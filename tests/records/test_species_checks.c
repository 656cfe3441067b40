/* What a species sheet must hold together, one thing taken away or moved at a time: what its way of
 * life asks for, each source that it names, and the order of its zones. The sheets themselves stand
 * in test_species.c. */
#include <string.h>
#include <sys/stat.h>

#include "base/file.h"
#include "common/own_folder.h"
#include "common/suite.h"
#include "records/species.h"

#define SHEETS PROJECT_FOLDER "/species-sheets/"

static struct species read_sheet(const char *code)
{
    const struct species *read =
        species_read(arena_format(&arena, SHEETS "%s.yaml", code), &arena, &diag);
    ck_assert_msg(read && !diag.first, "%s", code);
    return *read;
}

/* ---- sources -------------------------------------------------------------------------------- */

static size_t look_up_sources(const struct node *tree, const struct node *node, const char *path)
{
    size_t count = 0;
    for (size_t i = 0; node->kind != NODE_SCALAR && i < node->count; i++) {
        struct node *item = node->items[i];
        const char *key = node->kind == NODE_MAP ? node->keys[i]->text : "", *before = item->text;
        if (strcmp(key, "source") != 0 && strcmp(key, "least-source") != 0) {
            count += look_up_sources(tree, item, path);
            continue;
        }
        item->text = "nobody";
        diag_finish(&diag);
        diag_init(&diag);
        ck_assert_msg(!species_read_tree(tree, path, &arena, &diag), "line %d", item->at.line);
        ck_assert_uint_eq(diag.counts[DIAG_ERROR], 1);
        ck_assert_int_eq(diag.first->at.line, item->at.line);
        ck_assert_msg(strstr(diag.first->text, "not among this file's sources"), "%s",
                      diag.first->text);
        item->text = before;
        count++;
    }
    return count;
}

/* Every source that a sheet names, at any depth, is among its own: the one that is not is told at
 * its place, and it alone. */
START_TEST(each_source_is_looked_up)
{
    static const struct {
        const char *code;
        size_t least; /* sources that stand there, counted low */
    } sheets[] = {
        {"ball-python", 25}, {"axolotl", 15}, {"bearded-dragon", 25}, {"hermanns-tortoise", 25}};
    const char *path = arena_format(&arena, SHEETS "%s.yaml", sheets[_i].code);
    struct node *tree = tree_read_file(path, &arena, &diag);
    ck_assert_ptr_nonnull(species_read_tree(tree, path, &arena, &diag));
    ck_assert_uint_ge(look_up_sources(tree, tree, path), sheets[_i].least);
}
END_TEST

/* ---- what its way of life asks for ---------------------------------------------------------- */

#define KNOWN(member_) offsetof(struct species, member_.range.known)

static const struct {
    const char *code;
    size_t known;     /* a value that is taken away */
    const char *path; /* where its lack is told; NULL: it may be lacking */
} lacking[] = {
    {"ball-python", KNOWN(measured[MEASURE_COOL_SIDE]), "temperature"},
    {"ball-python", KNOWN(measured[MEASURE_NIGHT]), "temperature"},
    {"ball-python", KNOWN(measured[MEASURE_HUMIDITY]), "humidity.range"},
    {"ball-python", KNOWN(ferguson_zone), "light.ferguson-zone"},
    {"ball-python", KNOWN(measured[MEASURE_WARM_SIDE]), NULL},
    {"ball-python", KNOWN(measured[MEASURE_BASKING_SURFACE]), NULL},
    {"ball-python", KNOWN(upper_limit), NULL},
    {"ball-python", KNOWN(least_humidity_percent), NULL},
    {"ball-python", KNOWN(nest_depth_cm), NULL},
    {"ball-python", KNOWN(brumation_least_age_days), NULL},
    {"axolotl", KNOWN(measured[MEASURE_WATER]), "temperature.water"},
    {"red-eared-slider", KNOWN(measured[MEASURE_WATER]), "temperature.water"},
    {"bearded-dragon", KNOWN(ferguson_zone), "light.ferguson-zone"},
    {"bearded-dragon", KNOWN(nest_depth_cm), "nest.depth"},
    {"hermanns-tortoise", KNOWN(brumation_least_age_days), "species.brumation-least-age"},
    {"hermanns-tortoise", KNOWN(nest_depth_cm), "nest.depth"},
};

static bool says_path(const char *path)
{
    for (const struct diag_message *m = diag.first; m; m = m->next)
        if (strcmp(m->code, "incomplete-sheet") == 0 && strcmp(m->path, path) == 0)
            return true;
    return false;
}

START_TEST(what_is_needed_is_missed)
{
    struct species species = read_sheet(lacking[_i].code);
    *(bool *)((char *)&species + lacking[_i].known) = false;
    ck_assert_msg(species_check(&species, &diag) == !lacking[_i].path, "%d: %s", _i,
                  diag.first ? diag.first->text : "");
    ck_assert(!lacking[_i].path || says_path(lacking[_i].path));
}
END_TEST

/* An animal of the water has no air to be warm or moist; one of both has both. */
START_TEST(an_animal_of_the_water_needs_no_air)
{
    struct species axolotl = read_sheet("axolotl"), slider = read_sheet("red-eared-slider");
    ck_assert(!axolotl.measured[MEASURE_NIGHT].range.known);
    ck_assert(!axolotl.measured[MEASURE_HUMIDITY].range.known);
    ck_assert(species_check(&axolotl, &diag));
    axolotl.habit.value = HABIT_SEMI_AQUATIC;
    ck_assert(!species_check(&axolotl, &diag));
    ck_assert(says_path("temperature"));
    ck_assert(says_path("humidity.range"));
    slider.habit.value = HABIT_TERRESTRIAL;
    slider.measured[MEASURE_WATER].range.known = false;

    species_check(&slider, &diag);
    ck_assert(!says_path("temperature.water"));
}
END_TEST

/* The least box has its source and its trust; of the two, that and the lengths of the animal, one
 * must be there. */
START_TEST(a_box_has_a_measure)
{
    struct species python = read_sheet("ball-python"), changed = python;
    changed.enclosure_length_times.range.known = false;
    changed.enclosure_height_plus_cm.range.known = false;
    changed.enclosure_least.known = false;
    ck_assert(!species_check(&changed, &diag));
    ck_assert(says_path("enclosure"));
    for (int way = 0; way < 4; way++) {
        diag_finish(&diag);
        diag_init(&diag);
        changed = python;
        changed.enclosure_least =
            (struct box){.known = true, .length_cm = 100, .width_cm = 50, .height_cm = 50};
        changed.enclosure_least_source.text =
            way & 1 ? LIST_AT(python.sources, struct named_text, 0)->name.text : NULL;
        changed.enclosure_least_trust.known = way & 2;
        ck_assert_int_eq(species_check(&changed, &diag), way == 3);
        ck_assert_int_eq(says_path("enclosure.least"), way != 3);
    }
    changed.enclosure_length_times.range.known = false;
    ck_assert(species_check(&changed, &diag));
    changed.enclosure_least.known = false;
    changed.enclosure_least_source.text = NULL;
    changed.enclosure_length_times.range.known = true;
    ck_assert(species_check(&changed, &diag));
    changed.enclosure_height_plus_cm.range.known = true;
    changed.enclosure_height_plus_cm.source.text = changed.enclosure_length_times.source.text;
    changed.enclosure_height_times.range.known = false;
    ck_assert(!species_check(&changed, &diag));
    ck_assert(says_path("enclosure.height-plus"));
}
END_TEST

/* Eggs are laid into something, young are born into a dry hide or anywhere; what is dug in has a
 * depth. */
START_TEST(a_nest_fits_how_it_reproduces)
{
    for (int reproduction = REPRODUCTION_EGG_LAYER; reproduction <= REPRODUCTION_LIVE_BEARER;
         reproduction++)
        for (int nest = 0; nest_choices[nest].word; nest++) {
            int kind = nest_choices[nest].value;
            struct species python = read_sheet("ball-python");
            diag_finish(&diag);
            diag_init(&diag);
            python.reproduction.value = reproduction;
            python.nest_kind.value = kind;
            python.nest_depth_cm.range.known = false;
            bool lays = reproduction == REPRODUCTION_EGG_LAYER, dry = kind == NEST_DRY_HIDE;
            bool fits = lays ? !dry : dry || kind == NEST_NONE;
            bool dug = kind == NEST_SOIL_BOX || kind == NEST_FLOOR_BIN || kind == NEST_SOIL_PEN ||
                       kind == NEST_LAND_AREA;
            ck_assert_int_eq(species_check(&python, &diag), fits && !dug);
            ck_assert_int_eq(says_path("nest.kind"), !fits);
            ck_assert_int_eq(says_path("nest.depth"), dug);
            diag_finish(&diag);
            diag_init(&diag);
        }
}
END_TEST

/* ---- order ---------------------------------------------------------------------------------- */

static bool orders(double low, double high, double limit)
{
    struct species python = read_sheet("ball-python");
    python.measured[MEASURE_NIGHT].range.low = 20, python.measured[MEASURE_NIGHT].range.high = 24;
    python.measured[MEASURE_COOL_SIDE].range.low = low,
    python.measured[MEASURE_COOL_SIDE].range.high = high;
    python.measured[MEASURE_WARM_SIDE].range.low = 28,
    python.measured[MEASURE_WARM_SIDE].range.high = 30;
    python.measured[MEASURE_BASKING_SURFACE].range.low = 30,
    python.measured[MEASURE_BASKING_SURFACE].range.high = 34;
    python.upper_limit.range.low = python.upper_limit.range.high = limit;
    bool good = species_check(&python, &diag);
    diag_finish(&diag);
    diag_init(&diag);
    return good;
}

/* The same band may hold for two zones; none lies at either end below a cooler one; nothing is
 * warmer than the animal bears. */
START_TEST(zones_lie_in_order)
{
    ck_assert(orders(24, 26, 36));
    ck_assert(orders(20, 24, 36));
    ck_assert(orders(28, 30, 36));
    ck_assert(!orders(19.9, 26, 36));
    ck_assert(!orders(22, 23.9, 36));
    ck_assert(!orders(28.1, 30, 36));
    ck_assert(!orders(26, 30.1, 36));
    ck_assert(orders(24, 26, 34));
    ck_assert(!orders(24, 26, 33.9));
}
END_TEST

/* ---- finding one ----------------------------------------------------------------------------- */

/* By a plain code the one file is read, so that its fault is told; what is no plain code is looked
 * for as a name among the sheets that can be read, and never as a file. */
static const struct {
    const char *code;
    bool is_file;
} code_rows[] = {
    {"a", true},
    {"z", true},
    {"0", true},
    {"9", true},
    {"a-0", true},
    {"-", true},
    {"`", false}, /* before a */
    {"{", false}, /* behind z */
    {":", false}, /* behind 9 */
    {".", false}, /* before /, which is before 0 */
    {",", false}, /* before - */
    {"A", false},
    {"_", false},
    {"", false},
    {"sub/a", false},
    {"../a", false},
    {"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa", true}, /* 63 */
    {"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa", false},
};

START_TEST(a_plain_code_alone_is_a_file)
{
    static const char broken[] = "name: {en: [}\n";
    const char *code = code_rows[_i].code;
    const char *inner = file_join(&arena, folder, "sub");
    ck_assert_int_eq(mkdir(inner, 0700), 0);
    const char *where = strncmp(code, "..", 2) == 0 ? inner : folder;
    const char *path = file_join(&arena, where, arena_format(&arena, "%s.yaml", code));
    ck_assert(file_write_atomic(path, broken, strlen(broken), 0600, &diag));
    const struct mark at = {"visit.yaml", 3, 1};
    ck_assert_ptr_null(library_find(where, NULL, code, at, &arena, &diag));
    ck_assert_ptr_nonnull(diag.first);
    ck_assert_str_eq(diag.first->at.file, code_rows[_i].is_file ? path : at.file);
}
END_TEST

/* One that stands in neither folder is told at the place that names it. */
START_TEST(an_animal_without_a_sheet_is_told)
{
    const struct mark at = {"visit.yaml", 3, 1};
    const char *inner = file_join(&arena, folder, "sub");
    ck_assert_int_eq(mkdir(inner, 0700), 0);
    for (int own = 0; own < 2; own++) {
        diag_finish(&diag);
        diag_init(&diag);
        ck_assert_ptr_null(
            library_find(folder, own ? inner : NULL, "no-such-animal", at, &arena, &diag));
        ck_assert_ptr_nonnull(diag.first);
        ck_assert_str_eq(diag.first->at.file, at.file);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("species_checks");
    TCase *own = tcase_create("species_checks");
    tcase_add_checked_fixture(own, set_up, tear_down);
    tcase_set_timeout(own, 30);
    tcase_add_loop_test(own, each_source_is_looked_up, 0, 4);
    tcase_add_loop_test(own, what_is_needed_is_missed, 0, sizeof lacking / sizeof *lacking);
    tcase_add_test(own, an_animal_of_the_water_needs_no_air);
    tcase_add_test(own, a_box_has_a_measure);
    tcase_add_test(own, a_nest_fits_how_it_reproduces);
    tcase_add_test(own, zones_lie_in_order);
    suite_add_tcase(suite, own);
    TCase *found = tcase_create("found");
    tcase_add_checked_fixture(found, set_up_folder, tear_down_folder);
    tcase_add_loop_test(found, a_plain_code_alone_is_a_file, 0,
                        sizeof code_rows / sizeof *code_rows);
    tcase_add_test(found, an_animal_without_a_sheet_is_told);
    suite_add_tcase(suite, found);
    return suite_run(suite);
}
