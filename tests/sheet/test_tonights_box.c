/* The drawing of page one is the box as it shall be tonight: what is switched off is crossed out
 * under its step's number, one that is not awake lies on the floor, and each reading that is off
 * has its arrow. By hand, after what readers of printed sheets missed (no source). */
#include <math.h>
#include <string.h>

#include "document/diagram.h"
#include "layout/diagram_place.h"
#include "render/render.h"
#include "sheet/context_suite.h"
#include "sheet/wall.h"
#include "sheet/written.h"

#include "base/file.h"

static const struct block *find_panel(const struct block *block, enum panel_kind kind)
{
    for (; block; block = block->next) {
        const struct block *in = NULL;
        if (block->kind == BLOCK_PANEL && block->as.panel->kind == kind)
            return block;
        if (block->kind == BLOCK_PAGE)
            in = find_panel(block->as.page.blocks, kind);
        if (block->kind == BLOCK_COLUMNS)
            for (const struct column *c = block->as.columns.columns; c && !in; c = c->next)
                in = find_panel(c->blocks, kind);
        if (in)
            return in;
    }
    return NULL;
}

static const struct panel *panel_of(const char *text, enum panel_kind kind)
{
    const struct visit_record *record = written_record(&resources, text, &arena, &diag);
    if (!record)
        diag_print(&diag, stderr);
    ck_assert_ptr_nonnull(record);
    struct signature signature;
    struct paged paged = {0};
    const struct sheet_options options = {.language = "en", .paper = "a4"};
    const struct sheet_inputs inputs = {&context, record->plan, &options, &signature};
    ck_assert(sheet_context_signature(&context, record, "en", &arena, &diag, &signature) &&
              sheet_lay(&inputs, &arena, &diag, &paged));
    const struct block *block = find_panel(paged.document->blocks, kind);
    return block ? block->as.panel : NULL;
}

static const struct panel *panel_of_case(const char *name, enum panel_kind kind)
{
    struct bytes text = {0};
    const char *path = arena_format(&arena, "%s/tests/sheet/cases/%s.yaml", PROJECT_FOLDER, name);
    ck_assert(file_read(path, 1 << 16, &arena, &diag, &text));
    return panel_of(text.data, kind);
}

static const char *visit_of(const char *species, const char *more)
{
    return arena_format(&arena,
                        "visit: {date: 2026-03-14, kind: checkout, veterinarian: Dr Ines Calder}\n"
                        "patient: {name: Moss, species: %s}\n%s",
                        species, more);
}

static const struct diagram_thing *thing_of(const struct diagram *d, enum thing_kind kind)
{
    for (size_t i = 0; i < d->thing_count; i++)
        if (d->things[i].kind == kind)
            return &d->things[i];
    return NULL;
}

static const struct panel_entry *entry_titled(const struct panel *panel, const char *title)
{
    const struct panel_entry *entry = panel->entries;
    while (entry && (!entry->title || strcmp(entry->title, title) != 0))
        entry = entry->next;
    return entry;
}

/* The hot spot of an overheated gecko, step 1. */
START_TEST(a_hot_spot_that_is_off_is_crossed_out)
{
    const struct panel *box = panel_of_case("overheated-day-gecko", PANEL_DIAGRAM);
    const struct diagram_thing *lamp = thing_of(box->diagram, THING_PICTOGRAM);
    ck_assert_ptr_nonnull(lamp);
    ck_assert_ptr_eq(lamp->pictogram, wall_pictogram(PICTOGRAM_HEAT_OFF));
    ck_assert_ptr_nonnull(lamp->mark);
    ck_assert_str_eq(lamp->mark, "1");
    ck_assert(lamp->is_mark_solid);
    ck_assert_ptr_nonnull(strstr(box->after, "Crossed lamp = off."));
    const struct panel *right = panel_of_case("tube-fed-corn-snake", PANEL_DIAGRAM);
    ck_assert_ptr_null(strstr(right->after, "Crossed lamp"));
}
END_TEST

/* A UVB lamp that has to stay off hangs hollow and crossed out under the number of that step. */
START_TEST(a_lamp_that_is_off_is_crossed_out)
{
    const struct panel *box = panel_of_case("sore-eyes-new-lamp-water-dragon", PANEL_DIAGRAM);
    const struct diagram_thing *lamp = thing_of(box->diagram, THING_BAR);
    ck_assert_ptr_nonnull(lamp);
    ck_assert(lamp->is_off && !lamp->is_open);
    ck_assert_ptr_nonnull(lamp->mark);
    ck_assert(lamp->is_mark_solid);
    ck_assert_ptr_nonnull(strstr(box->after, "Crossed lamp = off."));
}
END_TEST

/* The cool side of an overheated gecko is to be cooled by the step that cools the whole box. */
START_TEST(each_reading_that_a_step_changes_has_its_arrow)
{
    const struct diagram *d = panel_of_case("overheated-day-gecko", PANEL_DIAGRAM)->diagram;
    size_t arrows = 0;
    for (size_t i = 0; i < d->label_count; i++)
        arrows += d->labels[i].turn == TURN_DOWN;
    ck_assert_uint_eq(arrows, 2);
}
END_TEST

/* It wakes up on the floor, with no water and nothing to climb. */
START_TEST(who_wakes_up_lies_on_a_bare_floor)
{
    static const char *const cases[] = {"prolapse-replaced-iguana", "surgery-veiled-chameleon"};
    const struct diagram *d = panel_of_case(cases[_i], PANEL_DIAGRAM)->diagram;
    const struct diagram_thing *animal = thing_of(d, THING_OUTLINE);
    ck_assert_ptr_nonnull(animal);
    ck_assert_double_eq(animal->y, 0);
    ck_assert_ptr_null(thing_of(d, THING_BLOCK));
    ck_assert_ptr_null(thing_of(d, THING_LINE));
    for (size_t i = 0; i < d->thing_count; i++)
        ck_assert(!d->things[i].word || strcmp(d->things[i].word, "water") != 0);
    const struct panel *steps = panel_of_case(cases[_i], PANEL_STEPS);
    ck_assert_ptr_eq(steps->entries->pictogram, wall_pictogram(PICTOGRAM_WAKE));
}
END_TEST

/* A night that nobody has measured has a line, one that was has its number. */
START_TEST(a_night_that_is_not_known_is_written_down)
{
    const struct panel *limits = panel_of_case("prolapse-replaced-iguana", PANEL_FIGURES);
    const struct panel_entry *warm = entry_titled(limits, "Night, warm side"),
                             *cool = entry_titled(limits, "Night, cool end");
    ck_assert(warm && cool);
    ck_assert(warm->is_now_open && !cool->is_now_open);
    ck_assert_str_eq(warm->now, "now");
    ck_assert_str_eq(cool->now, "now 24");
}
END_TEST

/* However small the box is drawn, the mark of a lamp's step covers neither its own lamp nor the
 * other. */
START_TEST(no_mark_covers_a_lamp)
{
    static const char *const cases[] = {"overheated-day-gecko", "soft-bones-old-lamp-iguana",
                                        "burn-shed-leopard-gecko",
                                        "sore-eyes-new-lamp-water-dragon"};
    const struct diagram *d = panel_of_case(cases[_i], PANEL_DIAGRAM)->diagram;
    for (double scale = 0.4; scale < 5; scale *= 1.2) {
        struct placed p = {.scale = scale, .left = 100, .floor_y = 900, .label_count = 0};
        diagram_set_points(d, &p);
        for (size_t i = 0; i < d->thing_count; i++) {
            const struct diagram_thing *bar = &d->things[i];
            if (bar->kind != THING_BAR || !bar->mark)
                continue;
            const struct point mark = diagram_mark_point(d, &p, bar),
                               left = diagram_point(&p, bar->x, bar->y);
            ck_assert_msg(mark.x - DIAGRAM_MARK_PT >= left.x + bar->width * scale ||
                              mark.x + DIAGRAM_MARK_PT <= left.x ||
                              mark.y - DIAGRAM_MARK_PT >= left.y ||
                              mark.y + DIAGRAM_MARK_PT <= left.y - DIAGRAM_BAR_PT,
                          "%s at %g", cases[_i], scale);
        }
    }
}
END_TEST

/* Row 3 of a dry tortoise offers water: its disc stands at the bowl, and not on it. */
START_TEST(a_row_about_the_bowl_has_its_disc_there)
{
    const struct diagram *d = panel_of_case("airway-dry-tortoise", PANEL_DIAGRAM)->diagram;
    const struct diagram_thing *bowl = NULL;
    for (size_t i = 0; i < d->thing_count; i++)
        if (d->things[i].word && strcmp(d->things[i].word, "water") == 0)
            bowl = &d->things[i];
    ck_assert(bowl && bowl->mark && bowl->is_mark_solid);
    ck_assert_str_eq(bowl->mark, "3");
    for (double scale = 1; scale < 5; scale *= 1.2) {
        struct placed p = {.scale = scale, .left = 100, .floor_y = 900, .label_count = 0};
        diagram_set_points(d, &p);
        const struct point mark = diagram_mark_point(d, &p, bowl),
                           top = diagram_point(&p, bowl->x, bowl->points[1]);
        ck_assert_msg(mark.y + DIAGRAM_MARK_PT <= top.y, "at %g", scale);
    }
}
END_TEST

/* Of its length half is seen, in three bends under its head: by hand. */
START_TEST(a_snake_lies_in_bends)
{
    const struct diagram *d = panel_of_case("tube-fed-corn-snake", PANEL_DIAGRAM)->diagram;
    const struct diagram_thing *body = thing_of(d, THING_LINE);
    double along = 0;
    ck_assert(body && body->count == 6);
    for (size_t i = 0; i + 1 < body->count; i += 2) {
        along += fabs(body->points[2 * i + 2] - body->points[2 * i]);
        ck_assert_double_eq(body->points[2 * i + 3], body->points[2 * i + 1]);
    }
    ck_assert_double_eq_tol(along, 105.0 / 2, 0.5);
    ck_assert_double_eq(thing_of(d, THING_EYE)->x, body->points[10]);
}
END_TEST

/* The hours of the timer have an arrow the way in which a step sets it, and none where nobody knows
 * them. */
START_TEST(hours_of_light_have_their_way)
{
    static const struct {
        const char *hours;
        enum turn turn;
        const char *now;
    } rows[] = {{"hours: 6", TURN_UP, "now 6"}, {"hours: 23", TURN_DOWN, "now 23"}};
    const char *lamp = "enclosure: {lamp: {kind: tube, height: 30 cm, %s}}\n";
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct panel *limits = panel_of(
            visit_of("bearded-dragon", arena_format(&arena, lamp, rows[i].hours)), PANEL_FIGURES);
        const struct panel_entry *light = entry_titled(limits, "Light each day");
        ck_assert_ptr_nonnull(light);
        ck_assert_int_eq(light->turn, rows[i].turn);
        ck_assert_str_eq(light->now, rows[i].now);
    }
    const struct panel *none =
        panel_of(visit_of("bearded-dragon", "enclosure: {lamp: {kind: tube, height: 30 cm}}\n"),
                 PANEL_FIGURES);
    ck_assert_int_eq(entry_titled(none, "Light each day")->turn, TURN_NONE);
}
END_TEST

/* Water that tonight's step keeps shallow is drawn so, whatever depth was read. One with gills is
 * in a tub of its own: its tank keeps its water, and nothing swims there. */
START_TEST(shallow_water_is_drawn_shallow)
{
    static const struct {
        const char *species, *found;
        bool is_shallow, is_there;
    } rows[] = {{"red-eared-slider", "floating", true, true},
                {"axolotl", "floating", false, false},
                {"axolotl", "fungus-tufts", false, true}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const char *more =
            arena_format(&arena,
                         "enclosure: {size: 90 x 40 x 40 cm}\nwater: {depth: 30 cm}\n"
                         "findings: [{code: %s, severity: moderate}]\n",
                         rows[i].found);
        const char *who = arena_format(&arena, "%s, length: 18 cm", rows[i].species);
        const struct diagram *d = panel_of(visit_of(who, more), PANEL_DIAGRAM)->diagram;
        const double level_cm = thing_of(d, THING_WATER)->y;
        ck_assert(rows[i].is_shallow ? level_cm < 10 : level_cm >= 30);
        ck_assert_int_eq(thing_of(d, THING_OUTLINE) != NULL, rows[i].is_there);
    }
}
END_TEST

/* Of a snake that lies high the mark at its right stands beside it, while there is room. */
START_TEST(marks_stand_beside_the_snake)
{
    const char *more = "enclosure: {size: 60 x 60 x 60 cm, readings: {basking-surface: 26 C, "
                       "warm-side: 22 C, cool-side: 20 C}}\n";
    const struct diagram *d =
        panel_of(visit_of("corn-snake, length: 120 cm", more), PANEL_DIAGRAM)->diagram;
    const struct diagram_thing *body = thing_of(d, THING_LINE);
    size_t beside = 0;
    ck_assert(body && body->is_animal);
    for (double scale = 1.5; scale < 4; scale *= 1.2) {
        struct placed p = {
            .scale = scale, .left = 100, .floor_y = 900, .label_count = d->label_count};
        double left = HUGE_VAL, right = 0, top = HUGE_VAL;
        diagram_set_points(d, &p);
        for (size_t i = 0; i < body->count; i++) {
            const struct point at = diagram_point(&p, body->points[2 * i], body->points[2 * i + 1]);
            left = fmin(left, at.x - body->stroke * scale / 2);
            right = fmax(right, at.x + body->stroke * scale / 2);
            top = fmin(top, at.y - body->stroke * scale / 2);
        }
        for (size_t i = 0; i < d->label_count; i++) {
            const struct point at = p.labels[i].point;
            if (!d->labels[i].mark || at.x < (left + right) / 2 || at.y + DIAGRAM_MARK_PT <= top)
                continue;
            ck_assert_msg(at.x - DIAGRAM_MARK_PT >= right, "scale %g: %g, the snake ends at %g",
                          scale, at.x - DIAGRAM_MARK_PT, right);
            beside++;
        }
    }
    ck_assert_uint_gt(beside, 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("tonights_box");
    TCase *tcase = tcase_create("tonights_box");
    tcase_set_timeout(tcase, 60);
    tcase_add_checked_fixture(tcase, set_up_context, tear_down_context);
    tcase_add_test(tcase, a_hot_spot_that_is_off_is_crossed_out);
    tcase_add_test(tcase, a_lamp_that_is_off_is_crossed_out);
    tcase_add_test(tcase, each_reading_that_a_step_changes_has_its_arrow);
    tcase_add_loop_test(tcase, who_wakes_up_lies_on_a_bare_floor, 0, 2);
    tcase_add_test(tcase, a_night_that_is_not_known_is_written_down);
    tcase_add_test(tcase, a_row_about_the_bowl_has_its_disc_there);
    tcase_add_test(tcase, a_snake_lies_in_bends);
    tcase_add_test(tcase, hours_of_light_have_their_way);
    tcase_add_test(tcase, shallow_water_is_drawn_shallow);
    tcase_add_test(tcase, marks_stand_beside_the_snake);
    tcase_add_loop_test(tcase, no_mark_covers_a_lamp, 0, 4);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
