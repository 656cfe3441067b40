/* What can hardly be right of lamp, water, room, meals, lengths and days of the past, asked back
 * at the first step beyond its limit and not at the limit itself. The limits are memory, from
 * reference-values.yaml; an inch is 2.54 cm (NIST Handbook 44); days are counted off the
 * calendar. The visit is on 14 March 2026. */
#include <math.h>
#include <string.h>

#include "care/fixture.h"
#include "care/medicines.h"
#include "care/weighings.h"
#include "common/suite.h"

static struct care_fixture f;
static struct visit_enclosure *home;

static void set_up(void)
{
    fixture_init(&f);
    home = &f.visit.enclosure;
}

static void tear_down(void)
{
    fixture_finish(&f);
}

static void again(void)
{
    tear_down();
    set_up();
}

/* The remark of this code after the plan's parts that ask, or NULL. */
static const struct review *asked(const char *code)
{
    f.plan.review = NULL;
    f.b.last_review = NULL;
    ck_assert(plausible_plan(&f.b) && plausible_days_plan(&f.b) && plausible_home_plan(&f.b));
    return fixture_review(&f, code);
}

static double said(const char *code, const char *fact)
{
    const struct review *review = asked(code);
    ck_assert_msg(review, "%s is not asked", code);
    const struct plan_fact *found = fixture_fact(review, fact);
    return found ? found->low : NAN;
}

static void measure_box(double length_cm, double width_cm, double height_cm)
{
    home->size = (struct box){
        .length_cm = length_cm, .width_cm = width_cm, .height_cm = height_cm, .known = true};
}

static void weighed(double mass_g)
{
    f.plan.patient.has_mass = true;
    f.plan.patient.mass_g = mass_g;
}

static void long_of(double length_cm)
{
    f.plan.patient.has_length = true;
    f.plan.patient.length_cm = length_cm;
}

/* Eight times one side is still a box, long, high or flat; a point lost or gained makes ten. */
START_TEST(a_box_of_one_very_long_side_is_asked_back)
{
    static const double rows[][3] = {{160, 20, 20}, {20, 160, 20}, {20, 20, 160}, {160, 160, 20}};
    const double *one = rows[_i];
    measure_box(one[0], one[1], one[2]);
    ck_assert_ptr_null(asked("box-size-implausible"));
    measure_box(one[0] > 20 ? 161 : 20, one[1] > 20 ? 161 : 20, one[2] > 20 ? 161 : 20);
    ck_assert_ptr_nonnull(asked("box-size-implausible"));
}
END_TEST

/* ---- lamp ------------------------------------------------------------------------------- */

START_TEST(a_lamp_far_above_its_box)
{
    measure_box(120, 60, 60);
    home->lamp.height_cm = fixture_quantity(160);
    ck_assert_ptr_null(asked("lamp-far-above-box"));
    home->lamp.height_cm = fixture_quantity(161);
    ck_assert_double_eq(said("lamp-far-above-box", "height"), 60);
    ck_assert_double_eq(said("lamp-far-above-box", "written"), 161);
    /* 161 / 2.54 = 63.4 is above the box, a tenth is not */
    ck_assert_double_eq_tol(said("lamp-far-above-box", "meant"), 16.1, 1e-9);
    home->lamp.height_cm = fixture_quantity(300);
    ck_assert_double_eq_tol(said("lamp-far-above-box", "meant"), 30, 1e-9);
    ck_assert_ptr_null(asked("lamp-height-implausible"));
    /* 500 cm, the most that is read, over a box of 40 cm: not even a tenth lies in it */
    measure_box(120, 60, 40);
    home->lamp.height_cm = fixture_quantity(500);
    ck_assert(isnan(said("lamp-far-above-box", "meant")));
}
END_TEST

/* A field has a roof, and a box that nobody measured a room around it. */
START_TEST(a_lamp_above_the_ceiling)
{
    for (int outdoors = 0; outdoors < 2; outdoors++) {
        again();
        if (outdoors) {
            measure_box(400, 300, 60);
            home->outdoor = fixture_flag(true);
        }
        home->lamp.height_cm = fixture_quantity(250);
        ck_assert_ptr_null(asked("lamp-height-implausible"));
        home->lamp.height_cm = fixture_quantity(254);
        ck_assert_double_eq_tol(said("lamp-height-implausible", "meant"), 100, 1e-9);
        ck_assert_ptr_null(asked("lamp-far-above-box"));
    }
}
END_TEST

START_TEST(a_tube_is_no_longer_than_its_box)
{
    measure_box(90, 45, 60);
    home->lamp.tube_length_cm = fixture_quantity(90);
    ck_assert_ptr_null(asked("tube-longer-than-box"));
    home->lamp.tube_length_cm = fixture_quantity(91);
    ck_assert_double_eq(said("tube-longer-than-box", "length"), 90);
    ck_assert_double_eq_tol(said("tube-longer-than-box", "meant"), 91 / 2.54, 1e-9);
    home->lamp.tube_length_cm = fixture_quantity(240); /* millimetres: 94.5 as inches is too long */
    ck_assert_double_eq_tol(said("tube-longer-than-box", "meant"), 24, 1e-9);
    /* upright in a chameleon's box */
    measure_box(60, 60, 120);
    home->lamp.tube_length_cm = fixture_quantity(115);
    ck_assert_ptr_null(asked("tube-longer-than-box"));
    home->lamp.tube_length_cm = fixture_quantity(121);
    ck_assert_ptr_nonnull(asked("tube-longer-than-box"));
    home->outdoor = fixture_flag(true);
    ck_assert_ptr_null(asked("tube-longer-than-box"));
    home->outdoor = fixture_flag(false);
    home->size.known = false;
    ck_assert_ptr_null(asked("tube-longer-than-box"));
}
END_TEST

/* ---- water, room, meals ----------------------------------------------------------------- */

START_TEST(water_deeper_than_a_pond)
{
    struct quantity *depth = &f.visit.measured[MEASURE_DEPTH];
    *depth = fixture_quantity(200);
    ck_assert_ptr_null(asked("water-depth-implausible"));
    *depth = fixture_quantity(254);
    ck_assert_double_eq(said("water-depth-implausible", "written"), 254);
    ck_assert_double_eq_tol(said("water-depth-implausible", "meant"), 100, 1e-9);
}
END_TEST

/* 50 F are 10 C; 46 F are 7.8 C; 2 C and 45 C are rooms. */
START_TEST(a_room_that_nobody_lives_in)
{
    struct quantity *room = &home->readings.room_c;
    *room = fixture_quantity(2);
    ck_assert_ptr_null(asked("room-implausible"));
    *room = fixture_quantity(45);
    ck_assert_ptr_null(asked("room-implausible"));
    *room = fixture_quantity(-5);
    ck_assert_double_eq(said("room-implausible", "reading"), -5);
    ck_assert_double_eq(said("room-implausible", "meant"), 5);
    *room = fixture_quantity(-2);
    ck_assert_double_eq(said("room-implausible", "meant"), 2);
    *room = fixture_quantity(1);
    ck_assert(isnan(said("room-implausible", "meant"))); /* -1 C is no better */
    *room = fixture_quantity(50);
    ck_assert_double_eq_tol(said("room-implausible", "meant"), 10, 1e-9);
    *room = fixture_quantity(46);
    ck_assert_double_eq_tol(said("room-implausible", "meant"), 70.0 / 9, 1e-9);
}
END_TEST

START_TEST(meals_of_a_digit_too_many)
{
    struct visit_diet diet = {.food = fixture_text("cricket"),
                              .count = fixture_quantity(200),
                              .every_days = fixture_quantity(90)};
    f.visit.diet = fixture_list(&f, &diet, 1, sizeof diet);
    ck_assert_ptr_null(asked("meal-pieces-implausible"));
    ck_assert_ptr_null(asked("meals-apart-implausible"));
    diet.count = fixture_quantity(201);
    diet.every_days = fixture_quantity(91);
    struct visit_diet both[] = {{.food = fixture_text("mouse")}, diet};
    f.visit.diet = fixture_list(&f, both, 2, sizeof diet);
    ck_assert_double_eq(said("meal-pieces-implausible", "written"), 201);
    ck_assert_double_eq_tol(said("meal-pieces-implausible", "meant"), 20.1, 1e-9);
    ck_assert_double_eq(said("meals-apart-implausible", "written"), 91);
    ck_assert_double_eq_tol(said("meals-apart-implausible", "meant"), 9.1, 1e-9);
}
END_TEST

/* ---- what was meant of a box ------------------------------------------------------------- */

/* An inch is 2.54 cm; a point in the wrong place is ten times, of the whole or of one side. What
 * is meant comes near the 100 x 50 cm that it needs (or 220 x 110, where inches are taken for
 * centimetres twice over), and is no odd box itself. */
static const struct {
    double least_cm[2], written_cm[3], meant_cm[3]; /* meant 0: nothing comes near */
} box_rows[] = {
    {{100, 50}, {100 / 2.54, 50 / 2.54, 50 / 2.54}, {100, 50, 50}},
    {{100, 50}, {10, 5, 5}, {100, 50, 50}},
    {{220, 110}, {220 * 2.54, 110 * 2.54, 110 * 2.54}, {220, 110, 110}},
    {{100, 50}, {1000, 500, 500}, {100, 50, 50}},
    {{100, 50}, {10, 50, 50}, {100, 50, 50}},
    {{100, 50}, {100, 5, 50}, {100, 50, 50}},
    {{100, 50}, {100, 50, 5}, {100, 50, 50}},
    {{100, 50}, {1000, 50, 50}, {100, 50, 50}},
    {{100, 50}, {100, 550, 50}, {100, 55, 50}},
    {{100, 50}, {100, 50, 1000}, {100, 50, 100}},
    {{100, 50}, {2000, 2000, 1000}, {0}},
};

START_TEST(a_slip_of_the_box_is_found)
{
    const double *cm = box_rows[_i].written_cm, *meant = box_rows[_i].meant_cm;
    f.plan.enclosure.known = true;
    f.plan.enclosure.least_length_cm = box_rows[_i].least_cm[0];
    f.plan.enclosure.least_width_cm = box_rows[_i].least_cm[1];
    measure_box(cm[0], cm[1], cm[2]);
    ck_assert_double_eq(said("box-size-implausible", "length"), cm[0]);
    ck_assert_double_eq(said("box-size-implausible", "width"), cm[1]);
    ck_assert_double_eq(said("box-size-implausible", "height"), cm[2]);
    static const char *const names[] = {"meant-length", "meant-width", "meant-height"};
    for (size_t k = 0; k < 3; k++)
        if (meant[0] > 0)
            ck_assert_double_eq_tol(said("box-size-implausible", names[k]), meant[k], 1e-9);
        else
            ck_assert(isnan(said("box-size-implausible", names[k])));
    home->outdoor = fixture_flag(true); /* a field may be of any size */
    ck_assert_ptr_null(asked("box-size-implausible"));
    home->outdoor = fixture_flag(false);
    home->size.known = false;
    ck_assert_ptr_null(asked("box-size-implausible"));
}
END_TEST

/* Of an animal whose floor nobody knows any box will do that is no odd one: of 2000 x 40 x 40 cm
 * there is one slip that makes it so, the point of the length. */
START_TEST(a_slip_of_the_box_without_a_known_floor)
{
    static const char *const names[] = {"meant-length", "meant-width", "meant-height"};
    static const double meant_cm[] = {200, 40, 40};
    measure_box(2000, 40, 40);
    for (size_t k = 0; k < 3; k++)
        ck_assert_double_eq_tol(said("box-size-implausible", names[k]), meant_cm[k], 1e-9);
}
END_TEST

/* A fifth of the floor of 100 x 50 cm is 1000 cm2; less is asked back. No animal is more than
 * three times and a third as long as its box: 200 cm in 60 cm. None has a side of more than 5 m. */
START_TEST(a_box_at_its_limits)
{
    f.plan.enclosure.known = true;
    f.plan.enclosure.least_length_cm = 100;
    f.plan.enclosure.least_width_cm = 50;
    measure_box(40, 25, 25);
    ck_assert_ptr_null(asked("box-size-implausible"));
    measure_box(40, 24.9, 25);
    ck_assert_ptr_nonnull(asked("box-size-implausible"));
    f.plan.enclosure.known = false;
    ck_assert_ptr_null(asked("box-size-implausible"));
    measure_box(60, 30, 30);
    long_of(200);
    ck_assert_ptr_null(asked("box-size-implausible"));
    long_of(200.1);
    ck_assert_ptr_nonnull(asked("box-size-implausible"));
    f.plan.patient.has_length = false;
    ck_assert_ptr_null(asked("box-size-implausible"));
    measure_box(500, 500, 500);
    ck_assert_ptr_null(asked("box-size-implausible"));
    for (int side = 0; side < 3; side++) {
        measure_box(side == 0 ? 501 : 400, side == 1 ? 501 : 400, side == 2 ? 501 : 400);
        ck_assert_ptr_nonnull(asked("box-size-implausible"));
    }
}
END_TEST

/* Each that has an earlier one's name, however it is spelled, is told once. */
START_TEST(a_medicine_named_twice)
{
    static const struct {
        const char *names[3];
        size_t told;
    } rows[] = {{{"Syrup", "Salve", "Drops"}, 0},
                {{"Syrup", "SYRUP", "Salve"}, 1},
                {{"Syrup", "Salve", "syrup"}, 1},
                {{"Salve", "Syrup", "Syrup"}, 1},
                {{"Syrup", "syrup", "Syrup"}, 2}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        again();
        struct visit_medicine all[3] = {0};
        for (size_t k = 0; k < 3; k++)
            all[k].name = fixture_text(rows[i].names[k]);
        f.visit.medicines = fixture_list(&f, all, 3, sizeof *all);
        medicine_review_names(&f.b);
        size_t told = 0;
        for (const struct review *r = f.plan.review; r; r = r->next)
            told += strcmp(r->code, "medicine-twice") == 0;
        ck_assert_msg(told == rows[i].told, "row %zu", i);
    }
}
END_TEST

/* Half of what it weighs: 100 g of 200. */
START_TEST(a_meal_of_more_than_half_the_animal)
{
    struct visit_diet diet = {.food = fixture_text("rat"), .meal_g = fixture_quantity(100)};
    f.plan.patient.has_mass = true;
    f.plan.patient.mass_g = 200;
    f.visit.diet = fixture_list(&f, &diet, 1, sizeof diet);
    ck_assert_ptr_null(asked("meal-mass-apart"));
    diet.meal_g = fixture_quantity(100.1);
    f.visit.diet = fixture_list(&f, &diet, 1, sizeof diet);
    ck_assert_double_eq(said("meal-mass-apart", "meal"), 100.1);
    ck_assert_double_eq(said("meal-mass-apart", "written"), 200);
    f.plan.patient.has_mass = false;
    ck_assert_ptr_null(asked("meal-mass-apart"));
}
END_TEST

/* ---- size, age and shape ---------------------------------------------------------------- */

/* A kind of 1000 to 2000 g and 40 to 50 cm when grown, hatched of 20 to 30 g; nothing of the
 * animal itself is known yet. */
static void kind_of_a_kilogram(void)
{
    again();
    f.species.adult_mass_g = fixture_cited(1000, 2000);
    f.species.adult_length_cm = fixture_cited(40, 50);
    f.species.hatchling_mass_g = fixture_cited(20, 30);
    f.species.longest_life_days.range.known = false;
    f.plan.patient.has_mass = f.plan.patient.has_length = f.plan.patient.age_known = false;
}

static void aged(long days)
{
    f.plan.patient.age_known = true;
    f.plan.patient.age_days = days;
}

/* Within 120 days of hatching as heavy as the lightest grown one; past 730 days no heavier than
 * one and a half of the heaviest hatchling, 45 g. */
START_TEST(a_mass_that_is_not_of_its_age)
{
    static const struct {
        long days;
        double mass_g;
        bool asked;
    } rows[] = {{119, 1000, true}, {119, 999, false},  {120, 1000, false}, {0, 1000, true},
                {731, 45, true},   {731, 45.1, false}, {730, 45, false},   {400, 45, false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        kind_of_a_kilogram();
        aged(rows[i].days);
        weighed(rows[i].mass_g);
        ck_assert_msg((asked("age-mass-apart") != NULL) == rows[i].asked, "row %zu", i);
        if (rows[i].asked) {
            ck_assert_double_eq(said("age-mass-apart", "written"), rows[i].mass_g);
            ck_assert_double_eq(said("age-mass-apart", "age"), (double)rows[i].days);
        }
        /* what is not known is not judged */
        f.plan.patient.age_known = false;
        ck_assert_ptr_null(asked("age-mass-apart"));
        aged(rows[i].days);
        f.plan.patient.has_mass = false;
        ck_assert_ptr_null(asked("age-mass-apart"));
        weighed(rows[i].mass_g);
        f.species.adult_mass_g.range.known = f.species.hatchling_mass_g.range.known = false;
        ck_assert_ptr_null(asked("age-mass-apart"));
    }
}
END_TEST

/* Grown for sure at 3650 days, or at half of the longest life where that is less; then below a
 * tenth of 1000 g, or below 45 % of 40 cm, which is 18 cm. */
START_TEST(a_grown_one_of_a_young_ones_size)
{
    static const struct {
        double life_days; /* 0: no record */
        long days;
        bool grown;
    } rows[] = {{0, 3650, true},    {0, 3649, false},    {4000, 2000, true}, {4000, 1999, false},
                {9000, 3650, true}, {9000, 3649, false}, {7300, 3650, true}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        kind_of_a_kilogram();
        if (rows[i].life_days > 0)
            f.species.longest_life_days = fixture_cited(rows[i].life_days, rows[i].life_days);
        aged(rows[i].days);
        weighed(99.9);
        ck_assert_int_eq(asked("age-mass-too-small") != NULL, rows[i].grown);
        ck_assert_ptr_null(asked("age-length-too-small"));
        weighed(100);
        ck_assert_ptr_null(asked("age-mass-too-small"));
        f.plan.patient.has_mass = false;
        f.plan.patient.mass_g = 0;
        ck_assert_ptr_null(asked("age-mass-too-small"));
        long_of(17.9);
        ck_assert_int_eq(asked("age-length-too-small") != NULL, rows[i].grown);
        ck_assert_ptr_null(asked("age-mass-too-small"));
        long_of(18);
        ck_assert_ptr_null(asked("age-length-too-small"));
        long_of(17.9);
        f.species.adult_length_cm.range.known = false;
        ck_assert_ptr_null(asked("age-length-too-small"));
        kind_of_a_kilogram();
        weighed(99.9);
        long_of(17.9);
        ck_assert_ptr_null(asked("age-mass-too-small")); /* nobody knows how old it is */
        ck_assert_ptr_null(asked("age-length-too-small"));
        aged(9999);
        f.species.adult_mass_g.range.known = false;
        ck_assert_ptr_null(asked("age-mass-too-small"));
        f.plan.patient.has_length = false;
        ck_assert_ptr_null(asked("age-length-too-small"));
    }
}
END_TEST

/* The stoutest grown one has 2000 g on 40 cm, the slenderest 1000 g on 50 cm; three times either
 * way. At 20 cm, half of 40, the stoutest of that shape has an eighth of 2000 g: 250 g, three times
 * which is 750 g. At 25 cm the slenderest has 125 g, a third of which is 41.67 g. */
START_TEST(a_mass_that_is_not_of_its_length)
{
    static const struct {
        double length_cm, mass_g;
        bool asked;
    } rows[] = {{20, 751, true}, {20, 749, false}, {25, 41.6, true}, {25, 41.7, false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        kind_of_a_kilogram();
        long_of(rows[i].length_cm);
        weighed(rows[i].mass_g);
        ck_assert_msg((asked("mass-length-apart") != NULL) == rows[i].asked, "row %zu", i);
        if (rows[i].asked)
            ck_assert_double_eq(said("mass-length-apart", "length"), rows[i].length_cm);
        bool *const needed[] = {&f.plan.patient.has_mass, &f.plan.patient.has_length,
                                &f.species.adult_mass_g.range.known,
                                &f.species.adult_length_cm.range.known};
        for (size_t k = 0; k < sizeof needed / sizeof *needed; k++) {
            *needed[k] = false;
            ck_assert_ptr_null(asked("mass-length-apart"));
            *needed[k] = true;
        }
    }
}
END_TEST

/* Three times to the last bit is three times: numbers that a double holds as they are. The stoutest
 * has 2048 g on 64 cm, an eighth of that is 256 g on 32 cm; the slenderest has 3072 g on 64 cm, a
 * 64th of that is 48 g on 16 cm. */
START_TEST(three_times_the_shape_is_not_past_it)
{
    kind_of_a_kilogram();
    f.species.adult_mass_g = fixture_cited(3, 2048);
    f.species.adult_length_cm = fixture_cited(64, 64);
    long_of(32);
    weighed(768);
    ck_assert_ptr_null(asked("mass-length-apart"));
    f.species.adult_mass_g = fixture_cited(3072, 4096);
    long_of(16);
    weighed(16);
    ck_assert_ptr_null(asked("mass-length-apart"));
    weighed(15.9);
    ck_assert_ptr_nonnull(asked("mass-length-apart"));
}
END_TEST

/* At 2 C and below in any zone; below 10 % or above 99 % of air. */
START_TEST(readings_at_the_ends_of_a_meter)
{
    for (int zone = 0; zone < ZONE_COUNT; zone++) {
        again();
        ck_assert_ptr_null(asked("reading-too-cold"));
        f.visit.measured[zone] = fixture_quantity(1.9);
        ck_assert_double_eq(said("reading-too-cold", "reading"), 1.9);
        again();
        f.visit.measured[zone] = fixture_quantity(2);
        ck_assert_double_eq(said("reading-too-cold", "reading"), 2);
        again();
        f.visit.measured[zone] = fixture_quantity(2.1);
        ck_assert_ptr_null(asked("reading-too-cold"));
    }
    static const struct {
        double percent;
        const char *code;
    } rows[] = {{1.5, "reading-too-dry"},
                {9.9, "reading-too-dry"},
                {10, NULL},
                {99, NULL},
                {99.1, "reading-too-wet"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        again();
        f.visit.measured[MEASURE_HUMIDITY] = fixture_quantity(rows[i].percent);
        ck_assert_ptr_null(asked("reading-too-cold")); /* of air it is no temperature */
        bool dry = asked("reading-too-dry"), wet = asked("reading-too-wet");
        ck_assert_int_eq(dry, rows[i].code && strcmp(rows[i].code, "reading-too-dry") == 0);
        ck_assert_int_eq(wet, rows[i].code && strcmp(rows[i].code, "reading-too-wet") == 0);
        if (rows[i].code)
            ck_assert_double_eq(said(rows[i].code, "reading"), rows[i].percent);
    }
}
END_TEST

/* ---- earlier lengths -------------------------------------------------------------------- */

static void measured(double before_cm, long days_ago)
{
    struct visit_weighing one = {.mass_g = fixture_quantity(300),
                                 .length_cm = fixture_quantity(before_cm)};
    one.on.known = true;
    one.on.date = date_add_days(f.plan.on, -days_ago);
    f.visit.patient.earlier = fixture_list(&f, &one, 1, sizeof one);
    f.plan.patient.has_length = true;
    f.plan.patient.length_cm = 40;
    f.species.plausible_length_cm = fixture_band(2, 1000);
}

/* Thirty days: no animal grows tenfold in that time; 20 % either way is the same slip. */
START_TEST(a_length_that_is_todays_by_a_slip)
{
    static const struct {
        double before_cm, meant_cm; /* 0: it is not asked */
    } rows[] = {{4, 40},
                {400, 40},
                {4.8, 48},
                {4.81, 0},
                {3.2, 32},
                {3.19, 0},
                {40 / 2.54, 40},
                {101.6, 40},
                {101.6 * 1.21, 0},
                {40, 0},
                {101.6 * 1.19, 47.6},
                {38, 0}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        again();
        measured(rows[i].before_cm, 30);
        if (rows[i].meant_cm > 0) {
            ck_assert_double_eq_tol(said("earlier-length-apart", "meant"), rows[i].meant_cm, 1e-6);
            ck_assert_double_eq(said("earlier-length-apart", "beside"), 40);
            ck_assert_double_eq(said("earlier-length-apart", "written"), rows[i].before_cm);
        } else {
            ck_assert_ptr_null(asked("earlier-length-apart"));
        }
    }
}
END_TEST

/* A hatchling of three years ago grew to tenfold; none ever shrank to a tenth. */
START_TEST(a_young_one_grows_and_none_shrinks)
{
    f.visit.patient.hatched = fixture_date(2023, 3, 1);
    measured(4, 1095);
    ck_assert_ptr_null(asked("earlier-length-apart"));
    measured(400, 1095);
    ck_assert_double_eq(said("earlier-length-apart", "meant"), 40);
}
END_TEST

START_TEST(a_length_that_none_of_its_kind_has)
{
    measured(50, 30);
    f.species.plausible_length_cm = fixture_band(20, 50);
    ck_assert_ptr_null(asked("earlier-length-implausible"));
    measured(51, 30);
    f.species.plausible_length_cm = fixture_band(20, 50);
    ck_assert_double_eq(said("earlier-length-implausible", "written"), 51);
    measured(20, 30);
    f.species.plausible_length_cm = fixture_band(20, 50);
    ck_assert_ptr_null(asked("earlier-length-implausible"));
    measured(19, 30);
    f.species.plausible_length_cm = fixture_band(20, 50);
    ck_assert_ptr_nonnull(asked("earlier-length-implausible"));
    f.species.plausible_length_cm.known = false;
    ck_assert_ptr_null(asked("earlier-length-implausible"));
    /* with nothing to stand beside it is judged by its kind alone */
    measured(4, 30);
    f.species.plausible_length_cm = fixture_band(20, 50);
    f.plan.patient.has_length = false;
    ck_assert_ptr_null(asked("earlier-length-apart"));
    ck_assert_ptr_nonnull(asked("earlier-length-implausible"));
}
END_TEST

/* A grown one has 1000 g at least; a fifth less it was grown too, and does not double. */
START_TEST(one_that_was_grown_does_not_grow_on)
{
    struct visit_weighing from = {.mass_g = fixture_quantity(800)};
    from.on.known = true;
    from.on.date = date_add_days(f.plan.on, -400);
    f.species.adult_mass_g = fixture_cited(1000, 2000);
    ck_assert_int_eq(weighings_growth(&f.b, &from, false), GROWTH_IMPOSSIBLE);
    from.mass_g = fixture_quantity(799);
    ck_assert_int_eq(weighings_growth(&f.b, &from, false), GROWTH_POSSIBLE);
}
END_TEST

/* ---- days of the past ------------------------------------------------------------------- */

static void meant_is(const char *code, int year, int month, int day)
{
    const struct review *review = asked(code);
    ck_assert_msg(review, "%s is not asked", code);
    struct date meant = fixture_fact(review, "meant")->date;
    ck_assert_int_eq(meant.year, year);
    ck_assert_int_eq(meant.month, month);
    ck_assert_int_eq(meant.day, day);
}

/* 730 days before 14 March 2026 is 14 March 2024: no leap day lies between. */
START_TEST(a_last_time_of_years_ago)
{
    static const int events[] = {EVENT_ATE, EVENT_STOOL, EVENT_SHED};
    f.species.longest_life_days = fixture_cited(7305, 7305);
    for (size_t i = 0; i < sizeof events / sizeof *events; i++) {
        struct date_value *event = &f.visit.history.events[events[i]];
        *event = fixture_date(2024, 3, 14);
        ck_assert_ptr_null(asked("last-time-long-ago"));
        *event = fixture_date(2024, 3, 13);
        meant_is("last-time-long-ago", 2026, 3, 13);
        *event = fixture_date(1999, 3, 15);
        meant_is("last-time-long-ago", 2025, 3, 15);
        *event = fixture_date(1996, 3, 14);
        meant_is("last-time-long-ago", 2026, 3, 14);
        ck_assert_ptr_null(asked("day-before-its-life"));
        event->known = false;
    }
    struct visit_diet diet = {.last = fixture_date(1999, 3, 1)};
    f.visit.diet = fixture_list(&f, &diet, 1, sizeof diet);
    meant_is("last-time-long-ago", 2026, 3, 1);
    LIST_AT(f.visit.diet, struct visit_diet, 0)->last = fixture_date(2024, 3, 14);
    ck_assert_ptr_null(asked("last-time-long-ago"));
}
END_TEST

/* A kind of twenty years, 7305 days: 14 March 2006 is that long ago. Without a record, 150 years
 * of 365 days: 20 April 1876 is before any day that is read, so 1900 is not asked. */
START_TEST(a_day_before_any_of_its_kind_lived)
{
    static const int events[] = {EVENT_REGURGITATED, EVENT_OPERATED, EVENT_WOKE_FROM_REST,
                                 EVENT_OWNED_SINCE, EVENT_STOOL_CLEAN};
    for (size_t i = 0; i < sizeof events / sizeof *events; i++) {
        again();
        struct date_value *event = &f.visit.history.events[events[i]];
        *event = fixture_date(1900, 1, 1);
        f.species.longest_life_days.range.known = false;
        ck_assert_ptr_null(asked("day-before-its-life"));
        f.species.longest_life_days = fixture_cited(7305, 7305);
        meant_is("day-before-its-life", 2026, 1, 1);
        *event = fixture_date(2006, 3, 14);
        ck_assert_ptr_null(asked("day-before-its-life"));
        *event = fixture_date(2006, 3, 13);
        meant_is("day-before-its-life", 2026, 3, 13);
        ck_assert_ptr_null(asked("last-time-long-ago"));
    }
    again();
    measured(40, 7306);
    f.species.longest_life_days = fixture_cited(7305, 7305);
    ck_assert_ptr_nonnull(asked("day-before-its-life"));
    measured(40, 7305);
    ck_assert_ptr_null(asked("day-before-its-life"));
}
END_TEST

/* 3650 days before the visit is 16 March 2016: 2016, 2020 and 2024 have their leap days, of which
 * those of 2020 and 2024 lie between. */
START_TEST(a_lamp_older_than_any)
{
    home->lamp.installed = fixture_date(2016, 3, 16);
    ck_assert_ptr_null(asked("lamp-older-than-any"));
    home->lamp.installed = fixture_date(2016, 3, 15);
    meant_is("lamp-older-than-any", 2025, 3, 15);
    home->lamp.installed = fixture_date(1996, 2, 29); /* 2026 has no such day */
    meant_is("lamp-older-than-any", 2026, 2, 28);
}
END_TEST

/* ---- days ahead ---- */

/* 400 days ahead are booked, 401 are a slip of the year: whichever day it is. */
START_TEST(a_day_far_ahead_is_a_slip)
{
    for (int which = 0; which < 6; which++) {
        for (int late = 0; late < 2; late++) {
            again();
            const struct date_value day = {.known = true,
                                           .date = date_add_days(f.plan.on, 400 + late)};
            struct visit *v = &f.visit;
            const struct visit_result results[] = {{.by = {0}}, {.by = day}};
            const struct visit_aftercare aftercare[] = {{.check = {0}}, {.check = day}};
            const struct visit_decision decisions[] = {{.until = {0}}, {.until = day}};
            if (which == 0)
                v->follow_up.booked = day;
            if (which == 1)
                v->follow_up.referral.on = day;
            if (which == 2)
                v->winter_rest.starts = day;
            if (which == 3)
                v->follow_up.results =
                    fixture_list(&f, results + late, 2 - (size_t)late, sizeof *results);
            if (which == 4)
                v->follow_up.aftercare =
                    fixture_list(&f, aftercare + late, 2 - (size_t)late, sizeof *aftercare);
            if (which == 5)
                v->decisions =
                    fixture_list(&f, decisions + late, 2 - (size_t)late, sizeof *decisions);
            const struct review *told = asked("day-far-ahead");
            ck_assert_msg((told != NULL) == late, "%d", which);
            if (told)
                ck_assert_int_eq(date_days_between(f.plan.on, fixture_fact(told, "on")->date), 401);
        }
    }
    again();
    f.visit.follow_up.recheck = fixture_quantity(400);
    ck_assert_ptr_null(asked("recheck-far-ahead"));
    f.visit.follow_up.recheck = fixture_quantity(400.5);
    ck_assert_double_eq(said("recheck-far-ahead", "days"), 400.5);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("plausible");
    TCase *tests = tcase_create("plausible");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, a_lamp_far_above_its_box);
    tcase_add_loop_test(tests, a_box_of_one_very_long_side_is_asked_back, 0, 4);
    tcase_add_test(tests, a_lamp_above_the_ceiling);
    tcase_add_test(tests, a_tube_is_no_longer_than_its_box);
    tcase_add_test(tests, water_deeper_than_a_pond);
    tcase_add_test(tests, a_room_that_nobody_lives_in);
    tcase_add_test(tests, meals_of_a_digit_too_many);
    tcase_add_loop_test(tests, a_slip_of_the_box_is_found, 0, sizeof box_rows / sizeof *box_rows);
    tcase_add_test(tests, a_slip_of_the_box_without_a_known_floor);
    tcase_add_test(tests, a_box_at_its_limits);
    tcase_add_test(tests, a_medicine_named_twice);
    tcase_add_test(tests, a_meal_of_more_than_half_the_animal);
    tcase_add_test(tests, a_mass_that_is_not_of_its_age);
    tcase_add_test(tests, a_grown_one_of_a_young_ones_size);
    tcase_add_test(tests, a_mass_that_is_not_of_its_length);
    tcase_add_test(tests, three_times_the_shape_is_not_past_it);
    tcase_add_test(tests, readings_at_the_ends_of_a_meter);
    tcase_add_test(tests, a_length_that_is_todays_by_a_slip);
    tcase_add_test(tests, a_young_one_grows_and_none_shrinks);
    tcase_add_test(tests, a_length_that_none_of_its_kind_has);
    tcase_add_test(tests, one_that_was_grown_does_not_grow_on);
    tcase_add_test(tests, a_last_time_of_years_ago);
    tcase_add_test(tests, a_day_before_any_of_its_kind_lived);
    tcase_add_test(tests, a_lamp_older_than_any);
    tcase_add_test(tests, a_day_far_ahead_is_a_slip);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
