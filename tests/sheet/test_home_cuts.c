/* What is done at home with hands is drawn beside its words: which picture of which animal, by
 * hand. What the clinic does is not drawn. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "render/trials.h"
#include "sheet/home_cuts.h"
#include "sheet/context_suite.h"
#include "sheet/written.h"

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
    {"whites-tree-frog", /* a drop is no film under a finger */
     "medicines: [{name: Drops, amount: 1 drops, route: on-the-skin, every: 24 h}]\n",
     {NULL}},
    {"whites-tree-frog",
     "medicines: [{name: Gel, amount: 0.2 ml, route: on-the-skin, every: 24 h}]\n",
     {SKIN}},
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

struct spot {
    double x, y;
};

/* The points that a path of the pictures names, those that bend a curve too. */
static size_t points_of(const char *path, struct spot *points, size_t most)
{
    double numbers[2] = {0};
    size_t count = 0;
    int read = 0;
    char command = 'M';
    for (const char *at = path; *at && count < most;) {
        char *end;
        const double value = strtod(at, &end);
        if (end == at) {
            command = *at >= 'A' && *at <= 'Z' ? *at : command;
            at++;
            continue;
        }
        at = end;
        if (command == 'H' || command == 'V') {
            const struct spot last = count ? points[count - 1] : (struct spot){0, 0};
            points[count++] =
                command == 'H' ? (struct spot){value, last.y} : (struct spot){last.x, value};
            continue;
        }
        numbers[read++] = value;
        if (read == 2)
            points[count++] = (struct spot){numbers[0], numbers[1]};
        read %= 2;
    }
    return count;
}

enum { MOST_POINTS = 60 };

static double nearest(const char *path, struct spot to)
{
    struct spot points[MOST_POINTS];
    const size_t count = points_of(path, points, MOST_POINTS);
    double best = INFINITY;
    for (size_t i = 0; i < count; i++)
        best = fmin(best, hypot(points[i].x - to.x, points[i].y - to.y));
    return best;
}

static const struct pictogram_part *first_stroke(const struct cut *cut, double stroke)
{
    for (size_t i = 0; i < cut->sign.count; i++)
        if (cut->sign.parts[i].kind == PICTOGRAM_STROKE && !cut->sign.parts[i].is_paper &&
            fabs(cut->sign.parts[i].stroke - stroke) < 0.01)
            return &cut->sign.parts[i];
    return NULL;
}

/* A jaw may be soft: the mouth is one line from the tip of the snout back to its corner, and the
 * syringe stays behind the jaw, on the side. Its nozzle (5.5) ends before a drop that lies at that
 * corner: an end that touches reads as a needle. */
static const char *const mouths[] = {"ball-python",      "leopard-gecko",    "hermanns-tortoise",
                                     "red-eared-slider", "whites-tree-frog", "axolotl"};

START_TEST(the_syringe_lies_at_the_corner_of_a_shut_mouth)
{
    read_visit(arena_format(&arena,
                            "visit: {date: 2026-03-14, kind: checkout, veterinarian: Dr Ines "
                            "Calder}\npatient: {name: Moss, species: %s}\n",
                            mouths[_i]));
    const struct cut *cut = home_cut_drawing(inputs.plan, HOME_CUT_MOUTH);
    const char *head = first_stroke(cut, 4)->path, *mouth = first_stroke(cut, 3)->path;
    const char *nozzle = first_stroke(cut, 5.5)->path;
    const struct pictogram_part *drop = &cut->sign.parts[cut->sign.count - 1];
    const double cap = 5.5 / 2;
    struct spot line[MOST_POINTS], tip[MOST_POINTS];
    const size_t count = points_of(mouth, line, MOST_POINTS);
    const struct spot corner = line[count - 1];
    ck_assert_uint_eq(points_of(nozzle, tip, MOST_POINTS), 2);
    ck_assert_msg(nearest(head, line[0]) < 6, "%s: the mouth gapes", mouths[_i]);
    ck_assert_msg(drop->kind == PICTOGRAM_FILL && !drop->is_paper, "%s: no drop", mouths[_i]);
    ck_assert_msg(nearest(drop->path, corner) < 6, "%s: not at the corner", mouths[_i]);
    ck_assert_msg(nearest(drop->path, tip[0]) > cap + 1, "%s: a needle", mouths[_i]);
    ck_assert_msg(nearest(drop->path, tip[0]) < cap + 4, "%s: not its drop", mouths[_i]);
    for (size_t i = 0; i + 2 < cut->sign.count; i++) { /* the drop and its edge are the last */
        struct spot drawn[MOST_POINTS];
        const struct pictogram_part *part = &cut->sign.parts[i];
        const size_t drawn_count = points_of(part->path, drawn, MOST_POINTS);
        for (size_t k = 0; part->kind == PICTOGRAM_FILL && k < drawn_count; k++)
            ck_assert_msg(drawn[k].x <= corner.x + 4, "%s: across the jaw", mouths[_i]);
    }
}
END_TEST

/* The side of the shell: below where the record says so, no shell where it does not. */
static const struct {
    const char *species, *findings;
    enum home_cut cut;
    bool is_below;
} sides[] = {
    {"red-eared-slider", "lower shell", HOME_CUT_EDGE, true},
    {"red-eared-slider", "upper shell", HOME_CUT_EDGE, false},
    {"red-eared-slider", NULL, HOME_CUT_EDGE, false},
    {"hermanns-tortoise", "middle of the plastron", HOME_CUT_DRESSING, true},
    {"hermanns-tortoise", "left edge", HOME_CUT_DRESSING, false},
    {"hermanns-tortoise", NULL, HOME_CUT_DRESSING, false},
};
enum { SIDES = sizeof sides / sizeof *sides };

START_TEST(a_dressing_is_drawn_on_the_side_that_wears_it)
{
    const char *where = sides[_i].findings;
    read_visit(
        arena_format(&arena,
                     "visit: {date: 2026-03-14, kind: checkout, veterinarian: Dr Ines Calder}\n"
                     "patient: {name: Moss, species: %s}\ndone-today: [shell-dressing]\n"
                     "findings: [{code: shell-rot, severity: mild%s%s}]\n",
                     sides[_i].species, where ? ", where: " : "", where ? where : ""));
    const struct cut *cut = home_cut_drawing(inputs.plan, sides[_i].cut);
    double shell_floor = 0, dressing_top = INFINITY;
    bool has_shell = false;
    for (size_t i = 0; i < cut->sign.count; i++) {
        struct spot points[MOST_POINTS];
        const struct pictogram_part *part = &cut->sign.parts[i];
        const size_t count = points_of(part->path, points, MOST_POINTS);
        const bool is_shell = part->kind == PICTOGRAM_STROKE && points[0].x < 10 &&
                              points[0].y > 60 && strchr(part->path, 'Z');
        const bool is_dressing = part->kind == PICTOGRAM_FILL && strchr(part->path, 'H');
        has_shell |= is_shell;
        for (size_t k = 0; k < count; k++) {
            shell_floor = is_shell ? fmax(shell_floor, points[k].y) : shell_floor;
            dressing_top = is_dressing ? fmin(dressing_top, points[k].y) : dressing_top;
        }
    }
    ck_assert_int_eq(has_shell, sides[_i].is_below);
    ck_assert(isfinite(dressing_top));
    ck_assert(dressing_top >= shell_floor);
}
END_TEST

/* How large a piece may be is drawn beside the sentence that says it, with the word for it below,
 * and no longer than there is food. By hand, after a reader of printed sheets (no source). */
static const struct size_row {
    const char *species, *record, *told, *word;
} size_rows[] = {
    {"leopard-gecko", "", "as long as the gap between the eyes", "eye to eye\nat most"},
    {"whites-tree-frog", "", "as long as the gap between the eyes", "eye to eye\nat most"},
    {"ball-python", "", "as wide as the widest part of the snake", "no wider\nthan its body"},
    {"leopard-gecko", "findings: [{code: prolapse, severity: severe}]\n", NULL, NULL},
    {"hermanns-tortoise", "", NULL, NULL},
};
enum { SIZE_ROWS = sizeof size_rows / sizeof *size_rows };

/* The word below the picture of these words; NULL: it is not drawn. */
static const char *word_below(const struct block *block, const char *words)
{
    const char *found = NULL;
    for (; block && !found; block = block->next) {
        if (block->kind == BLOCK_PAGE)
            found = word_below(block->as.page.blocks, words);
        const struct cuts *cuts = block->kind == BLOCK_PANEL ? block->as.panel->cuts : NULL;
        if (cuts && strstr(cuts->alternative, words))
            found = cuts->words[0];
    }
    return found;
}

START_TEST(a_piece_of_food_is_drawn_as_large_as_it_may_be)
{
    const struct size_row *row = &size_rows[_i];
    read_visit(
        arena_format(&arena,
                     "visit: {date: 2026-03-14, kind: checkout, veterinarian: Dr Ines Calder}\n"
                     "patient: {name: Moss, species: %s, mass: 60 g, hatched: 2023}\n%s",
                     row->species, row->record));
    const struct savings savings = {.steps = STEPS_MOST, .cuts = CUTS_SMALL};
    struct document document;
    ck_assert(trial_compose(&inputs, &savings, &arena, &diag, &document));
    for (size_t i = 0; i < SIZE_ROWS; i++) {
        const char *told = size_rows[i].told;
        const bool is_drawn = told && word_below(document.blocks, told);
        ck_assert_msg(!told || is_drawn == (row->told && strcmp(told, row->told) == 0), "%s: %s",
                      row->species, told);
    }
    if (row->told)
        ck_assert_str_eq(word_below(document.blocks, row->told), row->word);
}
END_TEST

/* The pictures of the first panel that has some. */
static const struct cuts *first_cuts(const struct block *block)
{
    for (; block; block = block->next) {
        const struct cuts *inside =
            block->kind == BLOCK_PAGE ? first_cuts(block->as.page.blocks) : NULL;
        if (inside)
            return inside;
        if (block->kind == BLOCK_PANEL && block->as.panel->cuts)
            return block->as.panel->cuts;
    }
    return NULL;
}

/* A picture stood beside the wrong medicine: its own is named, in the order of the medicines, where
 * there are several and the name is short, and one way in is of one of them. */
START_TEST(a_picture_names_its_medicine)
{
    static const struct {
        const char *record;
        const char *below[2];
    } named[] = {
        {"medicines: [{name: Cream, route: on-the-skin, every: 12 h, directions: As shown.}, "
         "{name: Sugar syrup, route: by-mouth, every: 12 h, directions: As shown.}]\n",
         {"Cream", "Sugar"}},
        {"medicines: [{name: Wound-cleaning gel, route: on-the-skin, every: 12 h, directions: As "
         "shown.}, {name: Syrup, route: by-mouth, every: 12 h, directions: As shown.}, {name: "
         "Powder, route: by-mouth, every: 12 h, directions: As shown.}]\n",
         {"Skin", "Mouth"}},
        {"medicines: [{name: Cream, route: on-the-skin, every: 12 h, directions: As shown.}]\n",
         {"Skin", NULL}},
        {"medicines: [{name: Antibiotic, route: injection, every: 12 h, given: here, directions: "
         "As shown.}, {name: Cream, route: on-the-skin, every: 12 h, directions: As shown.}]\n",
         {"Cream", NULL}},
    };
    const struct savings savings = {.steps = STEPS_MOST, .cuts = CUTS_SMALL};
    struct document document;
    read_visit(
        arena_format(&arena,
                     "visit: {date: 2026-03-14, kind: checkout, veterinarian: Dr Ines Calder}\n"
                     "patient: {name: Moss, species: leopard-gecko}\n%s",
                     named[_i].record));
    ck_assert(trial_compose(&inputs, &savings, &arena, &diag, &document));
    const struct cuts *cuts = first_cuts(document.blocks);
    ck_assert_ptr_nonnull(cuts);
    for (size_t i = 0; i < 2 && named[_i].below[i]; i++)
        ck_assert_str_eq(cuts->words[i], named[_i].below[i]);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("home_cuts");
    TCase *tcase = tcase_create("home_cuts");
    tcase_set_timeout(tcase, 120);
    tcase_add_checked_fixture(tcase, set_up_context, tear_down_context);
    tcase_add_loop_test(tcase, what_is_done_at_home_is_drawn, 0, ROWS);
    tcase_add_loop_test(tcase, a_picture_names_its_medicine, 0, 4);
    tcase_add_loop_test(tcase, a_piece_of_food_is_drawn_as_large_as_it_may_be, 0, SIZE_ROWS);
    tcase_add_test(tcase, some_are_drawn_where_not_all_have_room);
    tcase_add_loop_test(tcase, the_syringe_lies_at_the_corner_of_a_shut_mouth, 0,
                        sizeof mouths / sizeof *mouths);
    tcase_add_loop_test(tcase, a_dressing_is_drawn_on_the_side_that_wears_it, 0, SIDES);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
