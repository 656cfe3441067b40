/* The sheet that hangs at the animal's home, over all species: the drawing keeps its texts apart,
 * every emergency of the plan is printed whole, an arrow stands only where a box to tick stands. */
#include <math.h>
#include <string.h>

#include "base/file.h"
#include "document/diagram.h"
#include "layout/diagram_place.h"
#include "page/crossings.h"
#include "render/render.h"
#include "sheet/context_suite.h"
#include "sheet/written.h"
#include "words/catalogue.h"

static struct library library;

static void set_up_library(void)
{
    set_up_context();
    ck_assert(library_read(resources.species_sheets, NULL, &arena, &diag, &library));
}

static const struct visit_record *record_with(const char *species, int length_cm, const char *rest)
{
    const char *text =
        arena_format(&arena,
                     "visit: {date: 2026-03-14, kind: checkout, veterinarian: Dr Ines Calder}\n"
                     "patient: {name: Moss, species: %s, length: %d cm}\n%s",
                     species, length_cm, rest);
    const struct visit_record *record = written_record(&resources, text, &arena, &diag);
    if (!record)
        diag_print(&diag, stderr);
    ck_assert_ptr_nonnull(record);
    return record;
}

static const struct visit_record *record_of(const char *species, const char *rest)
{
    return record_with(species, 40, rest);
}

static struct paged lay(const struct visit_record *record, const char *paper, const char *language)
{
    struct signature signature;
    struct paged paged = {0};
    const struct sheet_options options = {.language = language, .paper = paper};
    const struct sheet_inputs inputs = {&context, record->plan, &options, &signature};
    bool good = sheet_context_signature(&context, record, language, &arena, &diag, &signature) &&
                sheet_lay(&inputs, &arena, &diag, &paged);
    if (!good)
        diag_print(&diag, stderr);
    ck_assert(good);
    return paged;
}

/* ---- the drawing ---- */

static const struct box_row {
    double length_cm, width_cm, height_cm, platform_cm, lamp_cm;
} boxes[] = {
    {30, 30, 30, 0, 20},   {45, 45, 60, 10, 25},  {60, 45, 90, 40, 25},     {90, 45, 45, 5, 30},
    {120, 60, 60, 15, 35}, {150, 75, 60, 0, 70},  {180, 90, 60, 10, 45},    {240, 120, 40, 0, 60},
    {60, 60, 120, 60, 30}, {100, 50, 50, 20, 15}, {240, 120, 240, 100, 60},
};
enum { BOXES = sizeof boxes / sizeof *boxes };

/* Readings far apart, so that arrows, ticks and open lines all stand on the drawing. */
static const char *home_of(const struct box_row *box)
{
    return arena_format(
        &arena,
        "enclosure:\n  size: %g x %g x %g cm\n  platform-height: %g cm\n"
        "  back-height: 3 cm\n  readings: {cool-side: 15 C, night: 12 C, humidity: 20 %%, "
        "humidity-at: cool-side}\n"
        "  lamp: {kind: tube, tube-length: 55 cm, measured: {uvi: 2.0, at: 30 cm}, "
        "installed: 2026-01-10, height: %g cm}\n",
        box->length_cm, box->width_cm, box->height_cm, box->platform_cm, box->lamp_cm);
}

/* Every folder of words. */
static size_t languages_of(const char ***names)
{
    return file_list(PROJECT_FOLDER "/templates/wording", "", &arena, &diag, names);
}

static const struct block *find_panel(const struct block *block, enum panel_kind kind);

/* Of how many curves the lamp's sign is. */
static size_t sign_parts(const struct paged *paged)
{
    const struct block *box = find_panel(paged->document->blocks, PANEL_DIAGRAM);
    const struct diagram *d = box ? box->as.panel->diagram : NULL;
    size_t curves = 0;
    for (size_t i = 0; d && i < d->thing_count; i++) {
        const struct pictogram *sign =
            d->things[i].kind == THING_PICTOGRAM ? d->things[i].pictogram : NULL;
        for (size_t k = 0; sign && k < sign->count; k++)
            curves +=
                sign->parts[k].kind == PICTOGRAM_FILL || sign->parts[k].kind == PICTOGRAM_STROKE;
    }
    return curves;
}

/* At least half as large as the sheet's own least drawing: in a box that is drawn smaller, far
 * smaller than what the animal needs, marks of 17 pt stand beside one another from wall to wall.
 * Up to that least drawing a box is large where its marks and the arrow of a distance have as much
 * room between them as they take: else no line finds a way to a mark in their midst. */
static bool is_drawn_large(const struct paged *paged)
{
    static const double LEAST_PT = 52, MARK_PT = 17;
    double left = 0, width = 0, top = HUGE_VAL, bottom = 0;
    for (const struct op *op = paged->pages[0].first; op; op = op->next) {
        bool is_wall = op->stroke_pt == 2 && (op->kind == OP_PATH || op->kind == OP_LINE);
        if (op->kind == OP_LINE && op->stroke_pt == 4) {
            left = op->points[0].x;
            width = op->points[1].x - left;
            bottom = op->points[0].y;
        }
        for (size_t i = 0; is_wall && i < op->count; i++)
            top = op->element >= 0 && paged->elements[op->element].type == ELEMENT_FIGURE
                      ? fmin(top, op->points[i].y)
                      : top;
    }
    const struct block *box = find_panel(paged->document->blocks, PANEL_DIAGRAM);
    const struct diagram *d = box ? box->as.panel->diagram : NULL;
    double marks_pt = d && d->distance ? MARK_PT : 0;
    for (size_t i = 0; d && i < d->label_count; i++)
        marks_pt += d->labels[i].has_point ? MARK_PT : 0;
    return width >= LEAST_PT && bottom - top >= LEAST_PT &&
           (2 * marks_pt <= width || width >= 2 * LEAST_PT);
}

START_TEST(no_label_of_a_species_meets_anything)
{
    static const char *const papers[] = {"a4", "letter"};
    const char **languages = NULL;
    size_t count = languages_of(&languages);
    const struct measure *measure = fonts_measure(context.fonts);
    for (size_t i = 0; i < library.count; i++) {
        const char *species = library.items[i]->code.text;
        const struct visit_record *record = record_of(species, home_of(&boxes[_i]));
        for (size_t k = 0; k < 2 * count; k++) {
            struct paged paged = lay(record, papers[k / count], languages[k % count]);
            const char *fault = crossings_check(&paged, 0, measure, &arena);
            if (!fault && is_drawn_large(&paged))
                fault = crossings_check_leaders(&paged, 0, sign_parts(&paged), &arena);
            ck_assert_msg(fault == NULL, "%s in %g x %g on %s in %s: %s", species,
                          boxes[_i].length_cm, boxes[_i].height_cm, papers[k / count],
                          languages[k % count], fault);
        }
    }
}
END_TEST

/* ---- what stands on the page ---- */

static const struct block *find_panel(const struct block *block, enum panel_kind kind)
{
    for (; block; block = block->next) {
        const struct block *inside = NULL;
        if (block->kind == BLOCK_PANEL && block->as.panel->kind == kind)
            return block;
        if (block->kind == BLOCK_COLUMNS)
            for (const struct column *c = block->as.columns.columns; c && !inside; c = c->next)
                inside = find_panel(c->blocks, kind);
        if (block->kind == BLOCK_PAGE) {
            inside = find_panel(block->as.page.blocks, kind);
            inside = inside ? inside : find_panel(block->as.page.foot, kind);
        }
        if (inside)
            return inside;
    }
    return NULL;
}

/* A carpet python's box of 4 × 2 ft was drawn two centimetres wide in the frame of the one it
 * needs, its marks on one another and on the hide (a veterinarian, of printed sheets). A drawing is
 * some 70 pt high at the least: a box twice as long as high keeps seven tenths of that. */
START_TEST(no_frame_makes_the_box_a_stamp)
{
    static const double LEAST_PT = 70 * 0.7 * 2;
    size_t framed = 0;
    for (size_t i = 0; i < library.count; i++) {
        const struct visit_record *record =
            record_of(library.items[i]->code.text, home_of(&boxes[4]));
        struct paged paged = lay(record, "letter", "en");
        framed +=
            find_panel(paged.document->blocks, PANEL_DIAGRAM)->as.panel->diagram->needed_length > 0;
        double width = 0;
        for (const struct op *op = paged.pages[0].first; op; op = op->next)
            if (op->kind == OP_LINE && op->stroke_pt == 4)
                width = op->points[1].x - op->points[0].x;
        ck_assert_msg(width >= LEAST_PT, "%s: %g pt", library.items[i]->code.text, width);
    }
    ck_assert_uint_gt(framed, 0);
}
END_TEST

/* In all panels of the kind, on every page. */
static size_t count_mark(const struct block *blocks, enum panel_kind kind, const char *mark)
{
    size_t found = 0;
    for (const struct block *block = blocks; block; block = block->next) {
        if (block->kind == BLOCK_PAGE)
            found += count_mark(block->as.page.blocks, kind, mark);
        if (block->kind != BLOCK_PANEL || block->as.panel->kind != kind)
            continue;
        for (const struct panel_entry *e = block->as.panel->entries; e; e = e->next)
            found += e->mark && strcmp(e->mark, mark) == 0;
    }
    return found;
}

/* A mark stands at most once in the rows and below "Then", and each mark of the drawing is one of
 * them; an arrow has a mark. */
START_TEST(an_arrow_stands_where_a_box_to_tick_stands)
{
    for (size_t i = 0; i < library.count; i++) {
        const struct visit_record *record =
            record_of(library.items[i]->code.text, home_of(&boxes[3]));
        struct paged paged = lay(record, "a4", "en");
        const struct block *blocks = paged.document->blocks;
        const struct block *box = find_panel(blocks, PANEL_DIAGRAM);
        ck_assert_ptr_nonnull(box);
        const struct diagram *d = box->as.panel->diagram;
        const enum panel_kind kinds[] = {PANEL_STEPS, PANEL_CHECKS};
        for (size_t k = 0; k < d->label_count; k++) {
            const struct diagram_label *label = &d->labels[k];
            if (label->turn == TURN_UP || label->turn == TURN_DOWN)
                ck_assert_ptr_nonnull(label->mark);
            size_t found = 0;
            for (size_t m = 0; m < 2 && label->mark; m++)
                found += count_mark(blocks, kinds[m], label->mark);
            if (label->mark)
                ck_assert_msg(found == 1, "%s of %s stands %zu times", label->mark,
                              library.items[i]->code.text, found);
        }
    }
}
END_TEST

/* ---- what its signs mean ---- */

/* The words of the home with one reading so near the end of its target that the meter may be wrong
 * (half a degree; the meter's error is a degree, from memory). */
static const char *home_at_the_edge(const char *species, const struct box_row *box)
{
    const struct visit_record *record = record_of(species, home_of(box));
    double low_c = record->plan->measured[MEASURE_WARM_SIDE].low;
    return arena_format(&arena,
                        "enclosure:\n  size: %g x %g x %g cm\n"
                        "  readings: {warm-side: %.1f C, cool-side: 15 C}\n",
                        box->length_cm, box->width_cm, box->height_cm, low_c - 0.5);
}

/* The record says that there is no lamp: the sheet asks for one where the kind needs it. */
static const char *home_without_lamp(const struct box_row *box)
{
    return arena_format(&arena, "enclosure:\n  size: %g x %g x %g cm\n  lamp: {kind: none}\n",
                        box->length_cm, box->width_cm, box->height_cm);
}

static bool is_lamp_marked(const struct diagram *d)
{
    for (size_t i = 0; i < d->thing_count; i++)
        if (d->things[i].kind == THING_BAR && d->things[i].mark)
            return true;
    return false;
}

/* A row of page one about the lamp itself, not about a distance. */
static bool has_lamp_row(const struct block *blocks)
{
    const struct block *rows = find_panel(blocks, PANEL_STEPS);
    for (const struct panel_entry *e = rows ? rows->as.panel->entries : NULL; e; e = e->next)
        if (!e->value && strstr(e->title, "UVB lamp"))
            return true;
    return false;
}

struct shown_signs {
    bool edge, arrow, tick, ring, number, letter, dashes, dashed_lamp;
};

static void see_mark(struct shown_signs *shown, const char *mark)
{
    shown->number = shown->number || (mark && mark[0] >= '0' && mark[0] <= '9');
    shown->letter = shown->letter || (mark && mark[0] >= 'A' && mark[0] <= 'Z');
}

static void see_sign(struct shown_signs *shown, const char *now, enum turn turn)
{
    shown->edge = shown->edge || (now && now[0] && now[strlen(now) - 1] == '?');
    shown->arrow = shown->arrow || turn == TURN_UP || turn == TURN_DOWN;
    shown->tick = shown->tick || turn == TURN_RIGHT;
}

static struct shown_signs signs_of(const struct block *blocks, const struct diagram *d)
{
    const enum panel_kind kinds[] = {PANEL_STEPS, PANEL_FIGURES};
    struct shown_signs shown = {.dashes = d->needed_length > 0};
    for (size_t i = 0; i < d->label_count; i++) {
        see_sign(&shown, d->labels[i].now, d->labels[i].turn);
        see_mark(&shown, d->labels[i].mark);
        shown.ring = shown.ring || (d->labels[i].has_point && !d->labels[i].mark);
    }
    for (size_t i = 0; i < d->thing_count; i++) {
        see_mark(&shown, d->things[i].mark);
        shown.dashed_lamp =
            shown.dashed_lamp || (d->things[i].kind == THING_BAR && d->things[i].is_open);
    }
    for (size_t k = 0; k < 2; k++) {
        const struct block *block = find_panel(blocks, kinds[k]);
        for (const struct panel_entry *e = block ? block->as.panel->entries : NULL; e; e = e->next)
            see_sign(&shown, e->now, e->turn);
    }
    return shown;
}

static bool says(const char *text, const char *words)
{
    return text && strstr(text, words) != NULL;
}

/* The key under the drawing tells each sign that the page shows and no other, and all of it is
 * drawn, however small the paper. */
START_TEST(each_sign_of_the_page_is_explained)
{
    size_t edges = 0, arrows = 0, dashes = 0, lamps = 0, ticks = 0, letters = 0, marked = 0;
    for (size_t i = 0; i < library.count; i++) {
        const char *species = library.items[i]->code.text;
        const char *const homes[] = {home_of(&boxes[_i]), home_at_the_edge(species, &boxes[_i]),
                                     home_without_lamp(&boxes[_i])};
        for (size_t k = 0; k < 3; k++) {
            struct paged paged = lay(record_of(species, homes[k]), "letter", "en");
            const struct block *blocks = paged.document->blocks;
            const struct panel *box = find_panel(blocks, PANEL_DIAGRAM)->as.panel;
            struct shown_signs shown = signs_of(blocks, box->diagram);
            ck_assert_msg(says(box->after, "? =") == shown.edge, "%s: %s", species, box->after);
            ck_assert_msg(says(box->after, "Arrow =") == shown.arrow, "%s: %s", species,
                          box->after);
            ck_assert_int_eq(says(box->after, "Frame ="), shown.dashes);
            ck_assert_int_eq(says(box->after, "Tick ="), shown.tick);
            ck_assert_int_eq(says(box->after, "Ring ="), shown.ring);
            ck_assert_int_eq(says(box->after, "Number ="), shown.number);
            ck_assert_int_eq(says(box->after, "Letter ="), shown.letter);
            ck_assert_msg(!has_lamp_row(blocks) || is_lamp_marked(box->diagram), "%s", species);
            ck_assert_int_eq(says(box->after, "Dashed lamp ="), shown.dashed_lamp);
            bool drawn = box->after == NULL;
            for (const struct op *op = paged.pages[0].first; op && !drawn; op = op->next)
                drawn = op->kind == OP_TEXT && says(op->text, "=");
            ck_assert(drawn);
            edges += shown.edge;
            arrows += shown.arrow;
            dashes += shown.dashes;
            lamps += shown.dashed_lamp;
            ticks += shown.tick;
            letters += shown.letter;
            marked += is_lamp_marked(box->diagram);
        }
    }
    ck_assert(edges > 0 && arrows > 0 && dashes > 0 && lamps > 0 && ticks > 0 && letters > 0 &&
              marked > 0);
}
END_TEST

/* ---- what is drawn ---- */

static const struct diagram_thing *thing_of(const struct diagram *d, enum thing_kind kind)
{
    for (size_t i = 0; i < d->thing_count; i++)
        if (d->things[i].kind == kind)
            return &d->things[i];
    return NULL;
}

/* A turtle that lives in water has it from wall to wall and lies dry on a dock in it; a toad has a
 * shore. */
START_TEST(a_turtle_lies_on_a_dock_in_the_water)
{
    static const struct {
        const char *species;
        bool spans;
    } rows[] = {{"red-eared-slider", true},
                {"painted-turtle", true},
                {"common-musk-turtle", true},
                {"fire-bellied-toad", false}};
    int animals = 0;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct paged paged = lay(record_with(rows[i].species, 15, home_of(&boxes[_i])), "a4", "en");
        const struct diagram *d =
            find_panel(paged.document->blocks, PANEL_DIAGRAM)->as.panel->diagram;
        const struct diagram_thing *water = thing_of(d, THING_WATER);
        ck_assert_ptr_nonnull(water);
        ck_assert_double_eq_tol(water->x + water->width, d->length, 1e-9);
        ck_assert_int_eq(water->x == 0, rows[i].spans);
        if (!rows[i].spans)
            continue;
        const struct diagram_thing *dock = thing_of(d, THING_BLOCK);
        const struct diagram_thing *animal = thing_of(d, THING_OUTLINE);
        ck_assert_double_gt(dock->height, water->y);
        if (animal) { /* a length that is not believed is not drawn */
            ck_assert_double_eq_tol(animal->y, dock->height, 1e-9);
            animals++;
        }
        /* its air is read in the air, its water in the water */
        for (size_t k = 0; k < d->label_count; k++)
            if (d->labels[k].has_point)
                ck_assert_int_eq(d->labels[k].y > water->y,
                                 strcmp(d->labels[k].title, "Water") != 0);
    }
    ck_assert_int_ge(animals, 1);
}
END_TEST

static const struct visit_record *record_of_case(const char *name)
{
    struct bytes text = {0};
    const char *path = arena_format(&arena, PROJECT_FOLDER "/tests/sheet/cases/%s.yaml", name);
    ck_assert(file_read(path, 1 << 16, &arena, &diag, &text));
    const struct visit_record *record = written_record(&resources, text.data, &arena, &diag);
    ck_assert_ptr_nonnull(record);
    return record;
}

static const struct diagram *drawing_of_case(const char *name)
{
    struct paged paged = lay(record_of_case(name), "a4", "en");
    return find_panel(paged.document->blocks, PANEL_DIAGRAM)->as.panel->diagram;
}

/* A frog that basks nowhere hangs in no mid-air: a branch is below it, all of its length. */
START_TEST(a_climber_that_basks_nowhere_sits_on_a_branch)
{
    const struct diagram *d = drawing_of_case("chytrid-tree-frog");
    const struct diagram_thing *frog = thing_of(d, THING_OUTLINE),
                               *branch = thing_of(d, THING_LINE);
    ck_assert(frog && branch);
    ck_assert_double_gt(frog->y, 0);
    ck_assert_double_eq_tol(branch->points[1] + branch->stroke / 2, frog->y, 1e-9);
    ck_assert_double_le(branch->points[0], frog->x);
    ck_assert_double_ge(branch->points[2], frog->x + frog->width);
}
END_TEST

static const struct diagram *drawing_of_text(const char *text)
{
    const struct visit_record *record = written_record(&resources, text, &arena, &diag);
    ck_assert_ptr_nonnull(record);
    struct paged paged = lay(record, "a4", "en");
    return find_panel(paged.document->blocks, PANEL_DIAGRAM)->as.panel->diagram;
}

static const struct diagram_label *label_titled(const struct diagram *d, const char *title)
{
    for (size_t i = 0; i < d->label_count; i++)
        if (strcmp(d->labels[i].title, title) == 0)
            return &d->labels[i];
    return NULL;
}

static size_t levels_at(const struct diagram *d, double y)
{
    size_t found = 0;
    for (size_t i = 0; i < d->thing_count; i++)
        found += d->things[i].kind == THING_LEVEL && fabs(d->things[i].y - y) < 1e-9;
    return found;
}

/* An iguana of 12 cm with soft bones may sit 12 cm high: a line at that height, and the mark of the
 * step that says so. Where no such step stands, no line. */
START_TEST(no_perch_stands_above_its_line)
{
    const struct diagram *d = drawing_of_case("soft-bones-old-lamp-iguana");
    const struct diagram_label *label = label_titled(d, "No perch above");
    ck_assert_ptr_nonnull(label);
    ck_assert_uint_eq(levels_at(d, 12), 1);
    ck_assert_double_eq_tol(label->y, 12, 1e-9);
    ck_assert(label->has_point && label->is_level && label->mark);
    ck_assert_str_eq(label->value, "4\u00be\u00a0in");
    for (size_t i = 0; i < d->label_count; i++) /* nothing is measured where it may not lie */
        ck_assert(!d->labels[i].has_point || d->labels[i].is_level);
    ck_assert_ptr_nonnull(label_titled(d, "Basking spot"));
    ck_assert(says(d->alternative, "No perch above 4\u00be\u00a0in."));
    d = drawing_of_case("sore-eyes-new-lamp-water-dragon");
    ck_assert_ptr_null(label_titled(d, "No perch above"));
    ck_assert_ptr_null(thing_of(d, THING_LEVEL));
}
END_TEST

/* An axolotl of 22 cm in a tank 45 cm high has 22 to 40 cm of water; today 18 or 30. */
START_TEST(water_has_lines_while_its_step_stands)
{
    static const char tank[] = "visit: {date: 2026-03-16, kind: checkout, veterinarian: Dr Ines "
                               "Calder}\npatient: {name: Nube, species: axolotl, length: 22 cm}\n"
                               "enclosure: {size: 100 x 45 x 45 cm, walls: glass, lid: open}\n"
                               "water: {temperature: 17 C, depth: %d cm}\n";
    const struct diagram *d = drawing_of_text(arena_format(&arena, tank, 18));
    const struct diagram_label *label = label_titled(d, "Depth");
    ck_assert_ptr_nonnull(label);
    ck_assert_double_eq_tol(thing_of(d, THING_WATER)->y, 18, 1e-9);
    ck_assert_uint_eq(levels_at(d, 22), 1);
    ck_assert_uint_eq(levels_at(d, 40), 1);
    ck_assert_double_eq_tol(label->y, 22, 1e-9);
    ck_assert(label->is_level && label->mark);
    ck_assert_int_eq(label->turn, TURN_UP);
    ck_assert(says(d->alternative, "Depth: aim for 22\u201340\u00a0cm"));
    d = drawing_of_text(arena_format(&arena, tank, 30));
    ck_assert_ptr_null(thing_of(d, THING_LEVEL));
    ck_assert_ptr_null(label_titled(d, "Depth"));
}
END_TEST

/* A weak slider shall stand in low water, and has 20 cm today: that is what is drawn. */
START_TEST(water_of_a_weak_turtle_stands_as_it_does_today)
{
    const struct diagram *d = drawing_of_text(
        "visit: {date: 2026-03-16, kind: checkout, veterinarian: Dr Ines Calder}\n"
        "patient: {name: Perla, species: red-eared-slider, length: 15 cm}\n"
        "enclosure: {size: 100 x 45 x 50 cm, walls: glass, lid: mesh, platform-height: 25 cm}\n"
        "water: {depth: 20 cm}\n"
        "findings: [{code: airway-infection, severity: moderate}]\n");
    ck_assert_double_eq_tol(thing_of(d, THING_WATER)->y, 20, 1e-9);
}
END_TEST

/* The snake's warm side is warmed, and its basking spot with it: the step's disc is at the first.
 */
START_TEST(a_step_has_one_disc)
{
    const struct diagram *d = drawing_of_case("tube-fed-corn-snake");
    const struct diagram_label *warm = label_titled(d, "Warm side"),
                               *basking = label_titled(d, "Basking spot");
    ck_assert(warm && warm->mark && basking);
    ck_assert_ptr_null(basking->mark);
    ck_assert_int_eq(basking->turn, TURN_NONE);
}
END_TEST

/* In a tall narrow box too, if it is drawn 60 pt wide or wider, a disc stands off the walls: here
 * one that a limit near the floor leaves without its place. */
START_TEST(no_disc_stands_on_a_wall)
{
    const struct diagram *drawn = drawing_of_case("soft-bones-old-lamp-iguana");
    struct diagram own = *drawn;
    struct diagram_label labels[16];
    ck_assert_uint_le(own.label_count, sizeof labels / sizeof *labels);
    memcpy(labels, drawn->labels, own.label_count * sizeof *labels);
    for (size_t i = 0; i < own.label_count; i++)
        if (strcmp(labels[i].title, "Basking spot") == 0) {
            labels[i].has_point = true;
            labels[i].is_mark_beside = false;
        }
    own.labels = labels;
    const struct diagram *d = &own;
    for (double scale = 60 / d->length; scale < 4; scale *= 1.2) {
        struct placed p = {.scale = scale, .left = 100, .floor_y = 500, .label_count = 0};
        diagram_set_points(d, &p);
        const struct diagram_label *basking = label_titled(d, "Basking spot");
        ck_assert_ptr_nonnull(basking);
        ck_assert_double_ge(p.labels[basking - d->labels].point.x, p.left + DIAGRAM_MARK_PT);
    }
}
END_TEST

/* "Change a quarter of the water" is row 1 of an axolotl with ammonia: its disc is on the water,
 * off the other discs, at every size. */
START_TEST(a_change_of_water_has_its_disc_on_the_water)
{
    const struct diagram *d = drawing_of_case("warm-ammonia-axolotl");
    const struct diagram_thing *water = thing_of(d, THING_WATER);
    ck_assert(water && water->mark && water->is_mark_solid);
    ck_assert_str_eq(water->mark, "1");
    for (double scale = 0.5; scale < 6; scale *= 1.2) {
        struct placed p = {.scale = scale, .left = 100, .floor_y = 500, .label_count = 0};
        diagram_set_points(d, &p);
        const struct point at = diagram_mark_point(d, &p, water);
        ck_assert_double_eq_tol(at.y, p.floor_y - water->y * scale, 1e-9);
        for (size_t k = 0; k < d->label_count; k++)
            if (d->labels[k].has_point && d->labels[k].mark)
                ck_assert_double_ge(hypot(p.labels[k].point.x - at.x, p.labels[k].point.y - at.y),
                                    2 * DIAGRAM_MARK_PT);
    }
    ck_assert_ptr_null(thing_of(drawing_of_case("two-axolotls"), THING_WATER)->mark);
}
END_TEST

/* An iguana of 12 cm in a box drawn at 0.8 pt a cm would be a smear of 2 pt: it is drawn 3 mm high
 * and the sheet says so, in the key and to who hears it; one that is seen stays to scale. */
START_TEST(a_small_animal_is_seen)
{
    static const double SEEN_PT = 8.5;
    const struct diagram *d = drawing_of_case("soft-bones-old-lamp-iguana");
    const struct diagram_thing *animal = thing_of(d, THING_OUTLINE);
    ck_assert_ptr_nonnull(animal);
    struct placed small = {.scale = 0.8, .left = 100, .floor_y = 500},
                  large = {.scale = 12, .left = 100, .floor_y = 500};
    const double width = diagram_outline_width(d, &small, animal);
    ck_assert_double_eq_tol(width * animal->height / animal->width, SEEN_PT, 0.01);
    ck_assert_double_lt(small.left + animal->x * 0.8 + width, small.left + d->length * 0.8);
    ck_assert(diagram_is_enlarged(d, &small) && !diagram_is_enlarged(d, &large));
    ck_assert_double_eq_tol(diagram_outline_width(d, &large, animal), animal->width * 12, 1e-9);
    struct paged paged = lay(record_of_case("soft-bones-old-lamp-iguana"), "letter", "en");
    bool is_told = false, is_heard = false;
    for (const struct op *op = paged.pages[0].first; op; op = op->next)
        is_told = is_told || (op->kind == OP_TEXT && strstr(op->text, "scale."));
    for (size_t i = 0; i < paged.element_count; i++)
        is_heard = is_heard ||
                   (paged.elements[i].type == ELEMENT_FIGURE && paged.elements[i].alternative &&
                    strstr(paged.elements[i].alternative, "Animal not to scale."));
    ck_assert(is_told && is_heard);
}
END_TEST

/* A lamp's sign that would stand on a disc gives way to the right of it. */
START_TEST(a_lamps_sign_hides_no_disc)
{
    const struct diagram *d = drawing_of_text(
        "visit: {date: 2026-03-16, kind: checkout, veterinarian: Dr Ines Calder}\n"
        "patient: {name: Perla, species: red-eared-slider, length: 15 cm}\n"
        "enclosure: {size: 100 x 45 x 50 cm, walls: glass, lid: mesh, platform-height: 25 cm, "
        "readings: {basking-surface: 27 C}}\nwater: {depth: 20 cm}\n");
    const struct diagram_thing *lamp = thing_of(d, THING_PICTOGRAM);
    const struct diagram_label *basking = label_titled(d, "Basking spot");
    ck_assert(lamp && basking && basking->mark);
    for (double scale = 1; scale < 4; scale *= 1.2) {
        struct placed p = {.scale = scale, .left = 100, .floor_y = 500, .label_count = 0};
        diagram_set_points(d, &p);
        const struct point at = diagram_sign_point(d, &p, lamp),
                           disc = p.labels[basking - d->labels].point;
        const double half = diagram_sign_size(d, &p) / 2;
        ck_assert_msg(fabs(at.x - disc.x) >= half + DIAGRAM_MARK_PT - 0.01 ||
                          fabs(at.y - disc.y) >= half + DIAGRAM_MARK_PT - 0.01,
                      "at %g", scale);
    }
}
END_TEST

/* 30 cm on the record, and the animal in it. */
START_TEST(water_stands_as_deep_as_it_was_read)
{
    const struct diagram *d = drawing_of_case("two-axolotls");
    const struct diagram_thing *animal = thing_of(d, THING_OUTLINE);
    ck_assert_double_eq_tol(thing_of(d, THING_WATER)->y, 30, 1e-9);
    ck_assert_ptr_nonnull(animal);
    ck_assert_double_lt(animal->y + animal->height, 30);
}
END_TEST

/* However small the box is drawn, a mark stands on no animal where there is room above it. */
START_TEST(no_mark_hides_the_animal)
{
    static const char *const cases[] = {"soft-bones-old-lamp-iguana", "burn-shed-leopard-gecko",
                                        "sand-blocked-bearded-dragon", "worms-thin-bearded-dragon"};
    static const double RING = 5.5;
    const struct diagram *d = drawing_of_case(cases[_i]);
    const struct diagram_thing *animal = thing_of(d, THING_OUTLINE);
    ck_assert_ptr_nonnull(animal);
    for (double scale = 0.4; scale < 5; scale *= 1.2) {
        struct placed p = {.scale = scale, .left = 100, .floor_y = 500, .label_count = 0};
        diagram_set_points(d, &p);
        const double left = p.left + animal->x * scale, feet = p.floor_y - animal->y * scale,
                     right = left + animal->width * scale, back = feet - animal->height * scale;
        if (back - 2 * DIAGRAM_MARK_PT - 1 < p.floor_y - d->height * scale)
            continue;
        for (size_t k = 0; k < d->label_count; k++) {
            const double radius = d->labels[k].mark ? DIAGRAM_MARK_PT : RING;
            const struct point at = p.labels[k].point;
            if (d->labels[k].has_point)
                ck_assert_msg(at.x + radius <= left || at.x - radius >= right ||
                                  at.y + radius <= back || at.y - radius >= feet,
                              "%s at %g: %s", cases[_i], scale, d->labels[k].title);
        }
    }
}
END_TEST

/* A lamp whose distance holds once the animal lies low: a bar where it hangs, a dashed one where it
 * has to hang, and the length between that one and the back. By hand: 85 cm of perch go down to the
 * animal's own 16 cm, so 32 cm are 101 cm; 44 cm is what the sheet asks for. */
START_TEST(a_lamp_that_has_to_move_is_drawn_at_both_places)
{
    struct bytes text = {0};
    ck_assert(file_read(PROJECT_FOLDER "/tests/sheet/cases/soft-bones-low-chameleon.yaml", 1 << 16,
                        &arena, &diag, &text));
    const struct visit_record *record = written_record(&resources, text.data, &arena, &diag);
    ck_assert_ptr_nonnull(record);
    struct paged paged = lay(record, "a4", "en");
    const struct panel *box = find_panel(paged.document->blocks, PANEL_DIAGRAM)->as.panel;
    const struct diagram *d = box->diagram;
    const struct diagram_thing *bars[2] = {NULL, NULL};
    for (size_t i = 0; i < d->thing_count; i++)
        if (d->things[i].kind == THING_BAR)
            bars[d->things[i].is_open] = &d->things[i];
    ck_assert(bars[0] && bars[1]);
    ck_assert_double_eq_tol(bars[0]->y - d->distance->to, 101, 0.5);
    ck_assert_double_eq_tol(d->distance->from, bars[1]->y, 1e-9);
    ck_assert_double_eq_tol(bars[1]->y - d->distance->to, 44, 0.5);
    ck_assert_str_eq(d->labels[d->distance->label].now, "now 32\u00a0cm");
    ck_assert_int_eq(d->labels[d->distance->label].turn, TURN_NONE);
    ck_assert(says(box->after, "Dashed lamp = its new place."));
}
END_TEST

/* Each sign of the tier, in the words of the wording file, with its qualifier and its number. */
START_TEST(every_emergency_is_printed_whole)
{
    static const char *const found[] = {"", "findings: [{code: limp, severity: severe}]\n",
                                        "findings: [{code: underweight, severity: severe}]\n"};
    for (size_t i = 0; i < library.count; i++) {
        const struct visit_record *record = record_of(library.items[i]->code.text, found[_i]);
        struct paged paged = lay(record, "letter", "es");
        const struct block *alert = find_panel(paged.document->blocks, PANEL_ALERT);
        ck_assert_ptr_nonnull(alert);
        const struct wording *words = sheet_context_words(&context, "es", (struct mark){0}, &diag);
        for (size_t w = 0; w < record->plan->warning_count; w++) {
            const struct warning *warning = &record->plan->warnings[w];
            const char *key =
                arena_format(&arena, warning->already ? "sign.%s.worse" : "sign.%s", warning->code);
            const char *variant = plan_printed_key(record->plan, key, &arena);
            const struct wording_entry *entry = catalogue_find(words, variant ? variant : key);
            if (warning->tier != TIER_NOW || !entry || entry->alternatives[0].forms[0].count != 1)
                continue;
            const char *text = entry->alternatives[0].forms[0].pieces[0].text;
            bool printed = alert->as.panel->text && strstr(alert->as.panel->text, text);
            for (const struct panel_entry *e = alert->as.panel->entries; e; e = e->next)
                printed = printed || strstr(e->text, text);
            ck_assert_msg(printed, "%s of %s", key, library.items[i]->code.text);
        }
    }
}
END_TEST

/* Page one works alone: it holds the head, the state, the message and the emergencies on one page,
 * draft or signed, on both papers. */
START_TEST(page_one_is_one_page)
{
    static const char *const papers[] = {"a4", "letter"};
    const char **languages = NULL;
    size_t count = languages_of(&languages);
    for (size_t i = 0; i < library.count; i++) {
        const struct visit_record *record =
            record_of(library.items[i]->code.text, home_of(&boxes[_i]));
        for (size_t k = 0; k < 2 * count; k++) {
            struct paged paged = lay(record, papers[k / count], languages[k % count]);
            ck_assert_msg((paged.overfull & 1u) == 0, "%s in box %d, %s, %s",
                          library.items[i]->code.text, _i, papers[k / count], languages[k % count]);
        }
    }
}
END_TEST

/* On a small screen too: the drawing alone as one figure with its alternative, the steps' numbers
 * on it, and what its labels say as words below. */
START_TEST(a_small_screen_has_the_drawing)
{
    const struct visit_record *record = record_of(
        "ball-python", "enclosure: {size: 120 x 60 x 60 cm, readings: {basking-surface: 27 C}}\n");
    struct signature signature;
    struct paged paged = {0};
    const struct sheet_options options = {.language = "en", .kind = "phone"};
    const struct sheet_inputs inputs = {&context, record->plan, &options, &signature};
    ck_assert(sheet_context_signature(&context, record, "en", &arena, &diag, &signature) &&
              sheet_lay(&inputs, &arena, &diag, &paged));
    ck_assert_ptr_null(find_panel(paged.document->blocks, PANEL_DIAGRAM));
    const struct block *drawing = find_panel(paged.document->blocks, PANEL_DRAWING);
    ck_assert_ptr_nonnull(drawing);
    const struct diagram *diagram = drawing->as.panel->diagram;
    ck_assert_double_eq(diagram->length, 120);
    int figures = 0, marks = 0;
    for (size_t i = 0; i < paged.element_count; i++)
        figures += paged.elements[i].alternative == diagram->alternative;
    for (size_t i = 0; i < paged.page_count; i++)
        for (const struct op *op = paged.pages[i].first; op; op = op->next)
            marks += op->kind == OP_TEXT && strcmp(op->text, "1") == 0;
    ck_assert_int_eq(figures, 1);
    ck_assert_int_ge(marks, 1);
}
END_TEST

int main(void)
{
    enum { FOUND = 3 };
    Suite *suite = suite_create("wall");
    TCase *tcase = tcase_create("wall");
    tcase_set_timeout(tcase, 120);
    tcase_add_checked_fixture(tcase, set_up_library, tear_down_context);
    tcase_add_loop_test(tcase, no_label_of_a_species_meets_anything, 0, BOXES);
    tcase_add_test(tcase, no_frame_makes_the_box_a_stamp);
    tcase_add_test(tcase, an_arrow_stands_where_a_box_to_tick_stands);
    tcase_add_loop_test(tcase, each_sign_of_the_page_is_explained, 3, 5);
    tcase_add_loop_test(tcase, a_turtle_lies_on_a_dock_in_the_water, 0, BOXES);
    tcase_add_test(tcase, a_lamp_that_has_to_move_is_drawn_at_both_places);
    tcase_add_test(tcase, a_climber_that_basks_nowhere_sits_on_a_branch);
    tcase_add_test(tcase, no_perch_stands_above_its_line);
    tcase_add_test(tcase, water_has_lines_while_its_step_stands);
    tcase_add_test(tcase, water_of_a_weak_turtle_stands_as_it_does_today);
    tcase_add_test(tcase, a_step_has_one_disc);
    tcase_add_test(tcase, no_disc_stands_on_a_wall);
    tcase_add_test(tcase, a_change_of_water_has_its_disc_on_the_water);
    tcase_add_test(tcase, a_small_animal_is_seen);
    tcase_add_test(tcase, a_lamps_sign_hides_no_disc);
    tcase_add_test(tcase, water_stands_as_deep_as_it_was_read);
    tcase_add_loop_test(tcase, no_mark_hides_the_animal, 0, 4);
    tcase_add_test(tcase, a_small_screen_has_the_drawing);
    tcase_add_loop_test(tcase, every_emergency_is_printed_whole, 0, FOUND);
    tcase_add_loop_test(tcase, page_one_is_one_page, 0, BOXES);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
