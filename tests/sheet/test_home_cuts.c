/* What is done at home with hands is drawn beside its words: which picture of which animal, by
 * hand. What the clinic does is not drawn. */
#include <string.h>

#include "common/suite.h"
#include "render/trials.h"
#include "sheet/written.h"

static struct arena arena;
static struct diag diag;
static struct resources resources;
static struct sheet_context context;

static void set_up(void)
{
    arena_init(&arena);
    diag_init(&diag);
    const struct places places = {.data_folder = PROJECT_FOLDER};
    ck_assert(resources_read(&places, &arena, &diag, &resources));
    ck_assert(sheet_context_init(&context, &resources, &diag));
}

static void tear_down(void)
{
    sheet_context_finish(&context);
    arena_finish(&arena);
    diag_finish(&diag);
}

static struct sheet_inputs inputs;
static struct signature signature;
static const struct sheet_options options = {.language = "en", .paper = "a4"};

static void read_visit(const char *text)
{
    const struct visit_record *record = written_record(&resources, text, &arena, &diag);
    if (!record)
        diag_print(&diag, stderr);
    ck_assert_ptr_nonnull(record);
    ck_assert(sheet_context_signature(&context, record, "en", &arena, &diag, &signature));
    inputs = (struct sheet_inputs){&context, record->plan, &options, &signature};
}

/* In how many panels' pictures the words stand. */
static int count_panels(const struct block *block, const char *words)
{
    int count = 0;
    for (; block; block = block->next) {
        if (block->kind == BLOCK_PAGE)
            count += count_panels(block->as.page.blocks, words);
        if (block->kind == BLOCK_PANEL && block->as.panel->cuts)
            count += strstr(block->as.panel->cuts->alternative, words) != NULL;
    }
    return count;
}

/* Where there is room for so many. */
static int count_drawn(enum cuts_shown shown, const char *words)
{
    const struct savings savings = {.steps = STEPS_MOST, .cuts = shown};
    struct document document;
    ck_assert(trial_compose(&inputs, &savings, &arena, &diag, &document));
    return count_panels(document.blocks, words);
}

#define MOUTH "side of the animal's mouth"
#define EYE "above the animal's eye"
#define SKIN "thin film on the spot"
#define NEEDLE "needle in the animal's skin"
#define TUBE "feeding tube at the animal's neck"
#define DRY "no water touches"
#define EDGE "edge of the dressing on the shell"
#define BATH "head above the water"
#define INTO "with the animal in it"

static const char *const all[] = {MOUTH, EYE, SKIN, NEEDLE, TUBE, DRY, EDGE, BATH, INTO};
enum { ALL = sizeof all / sizeof *all };

static const struct row {
    const char *species, *record;
    const char *drawn[3];
} rows[] = {
    {"ball-python",
     "medicines: [{name: Pain relief, amount: 0.1 ml, route: by-mouth, every: 24 h}]\n",
     {MOUTH}},
    {"ball-python",
     "medicines: [{name: Pain relief, amount: 0.1 ml, route: by-mouth, every: 24 h, given: "
     "here}]\n",
     {NULL}},
    {"leopard-gecko",
     "medicines: [{name: Calcium syrup, directions: As the label says.}]\n",
     {MOUTH}},
    {"leopard-gecko",
     "medicines: [{name: Ear ointment, directions: As the label says.}]\n",
     {NULL}},
    {"leopard-gecko", "medicines: [{name: Eye ointment, directions: As the label says.}]\n", {EYE}},
    {"leopard-gecko",
     "medicines: [{name: Cream, route: on-the-skin, every: 12 h, directions: A film.}, {name: "
     "Drops, amount: 1 drops, "
     "route: in-the-eye, every: 12 h}]\n",
     {SKIN, EYE}},
    {"ball-python",
     "medicines: [{name: Antibiotic, amount: 0.1 ml, route: into-the-muscle, every: 72 h}]\n",
     {NEEDLE}},
    {"ball-python",
     "medicines: [{name: Antibiotic, amount: 0.1 ml, route: injection, every: 72 h, given: "
     "here}]\n",
     {NULL}},
    {"hermanns-tortoise",
     "medicines: [{name: Drops, amount: 1 drops, route: in-the-nose, every: 12 h}]\n",
     {NULL}},
    {"whites-tree-frog",
     "medicines: [{name: Bath, amount: 60 ml, route: in-a-bath, every: 24 h}]\n",
     {BATH}},
    {"axolotl",
     "medicines: [{name: Bath, amount: 60 ml, route: in-a-bath, every: 24 h}]\n",
     {INTO}},
    {"ball-python", "done-today: [bandage]\n", {DRY}},
    {"ball-python", "done-today: [feeding-tube-placed, bandage]\n", {TUBE, DRY}},
    {"hermanns-tortoise", "done-today: [shell-dressing]\n", {DRY}},
    {"red-eared-slider", "done-today: [shell-dressing]\n", {EDGE}},
    {"leopard-gecko", "done-today: [blood-sample]\n", {NULL}},
};
enum { ROWS = sizeof rows / sizeof *rows };

START_TEST(what_is_done_at_home_is_drawn)
{
    const struct row *row = &rows[_i];
    read_visit(
        arena_format(&arena,
                     "visit: {date: 2026-03-14, kind: checkout, veterinarian: Dr Ines Calder}\n"
                     "patient: {name: Moss, species: %s}\n%s",
                     row->species, row->record));
    for (size_t i = 0; i < ALL; i++) {
        int wanted = 0;
        ck_assert_int_eq(count_drawn(CUTS_NONE, all[i]), 0);
        for (size_t k = 0; k < 3 && row->drawn[k]; k++)
            wanted += strcmp(row->drawn[k], all[i]) == 0;
        ck_assert_msg(count_drawn(CUTS_SMALL, all[i]) == wanted, "%s, %s: '%s' %d times",
                      row->species, row->record, all[i], count_drawn(CUTS_SMALL, all[i]));
    }
}
END_TEST

/* Those of the medicines alone, and those of all else alone. */
START_TEST(some_are_drawn_where_not_all_have_room)
{
    static const struct {
        enum cuts_shown shown;
        int mouth, dry;
    } levels[] = {
        {CUTS_NONE, 0, 0},  {CUTS_OTHERS, 0, 1}, {CUTS_MEDICINES, 1, 0},
        {CUTS_SMALL, 1, 1}, {CUTS_LARGE, 1, 1},
    };
    read_visit("visit: {date: 2026-03-14, kind: checkout, veterinarian: Dr Ines Calder}\n"
               "patient: {name: Moss, species: ball-python}\ndone-today: [bandage]\n"
               "medicines: [{name: Syrup, amount: 0.1 ml, every: 24 h}]\n");
    for (size_t i = 0; i < sizeof levels / sizeof *levels; i++) {
        ck_assert_int_eq(count_drawn(levels[i].shown, MOUTH), levels[i].mouth);
        ck_assert_int_eq(count_drawn(levels[i].shown, DRY), levels[i].dry);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("home_cuts");
    TCase *tcase = tcase_create("home_cuts");
    tcase_set_timeout(tcase, 120);
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_loop_test(tcase, what_is_done_at_home_is_drawn, 0, ROWS);
    tcase_add_test(tcase, some_are_drawn_where_not_all_have_room);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
