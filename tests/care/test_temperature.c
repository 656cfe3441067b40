/* Temperatures and heating of a plan. Expected numbers are worked out by hand from
 * the fixture's lizard: basking 38-42, warm 30-34, cool 22-26, night 18-22 deg C. */
#include <math.h>
#include <string.h>

#include "common/suite.h"
#include "care/fixture.h"
#include "records/visit.h"

static struct care_fixture f;

static void set_up(void)
{
    fixture_init(&f);
}

static void tear_down(void)
{
    fixture_finish(&f);
}

static void read_zone(enum zone zone, double temp_c)
{
    f.visit.measured[zone] = fixture_quantity(temp_c);
}

static const struct measured_plan *zone_of(enum zone zone)
{
    return &f.plan.measured[zone];
}

START_TEST(readings_are_judged_against_the_species)
{
    read_zone(ZONE_BASKING_SURFACE, 35);
    read_zone(ZONE_WARM_SIDE, 34);
    read_zone(ZONE_COOL_SIDE, 28.5);
    ck_assert(temperature_plan(&f.b));
    ck_assert_int_eq(zone_of(ZONE_BASKING_SURFACE)->verdict, VERDICT_TOO_LOW);
    ck_assert_double_eq(zone_of(ZONE_BASKING_SURFACE)->change, 3);
    ck_assert_int_eq(zone_of(ZONE_WARM_SIDE)->verdict, VERDICT_IN_RANGE); /* ends belong */
    ck_assert_double_eq(zone_of(ZONE_WARM_SIDE)->change, 0);
    ck_assert_int_eq(zone_of(ZONE_COOL_SIDE)->verdict, VERDICT_TOO_HIGH);
    ck_assert_double_eq(zone_of(ZONE_COOL_SIDE)->change, -2.5);
    ck_assert_int_eq(zone_of(ZONE_NIGHT)->verdict, VERDICT_UNKNOWN);
    ck_assert(!zone_of(ZONE_WATER)->applies);
    ck_assert_str_eq(zone_of(ZONE_WARM_SIDE)->target_from.source, "common practice");
    ck_assert_int_eq(zone_of(ZONE_WARM_SIDE)->target_from.trust, TRUST_MEMORY);
    const struct review *unread = fixture_review(&f, "zones-unread");
    ck_assert_str_eq(unread->facts->text, "zone.night");
    ck_assert_ptr_null(unread->facts->next);
    const struct derivation *step =
        fixture_derivation(&f.plan.temperature.how, "temperature.cool-side.change_c");
    ck_assert_double_eq(step->low, -3.5);
    ck_assert_double_eq(step->high, -1.5);
}
END_TEST

/* The fixture's warm side is 30-34 deg C, shown as 86-93 deg F (93.2). 93 and 86 F are inside, so
 * is none a degree further; written in Celsius the same warmth keeps its tenth. */
START_TEST(a_band_in_fahrenheit_is_as_it_is_shown)
{
    static const struct {
        double read_f;
        enum unit unit;
        enum verdict verdict;
    } rows[] = {
        {86, UNIT_FAHRENHEIT, VERDICT_IN_RANGE},   {93.4, UNIT_FAHRENHEIT, VERDICT_IN_RANGE},
        {93.4, UNIT_CELSIUS, VERDICT_BORDERLINE},  {94, UNIT_FAHRENHEIT, VERDICT_BORDERLINE},
        {85.6, UNIT_FAHRENHEIT, VERDICT_IN_RANGE}, {85, UNIT_FAHRENHEIT, VERDICT_BORDERLINE},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        tear_down();
        set_up();
        read_zone(ZONE_WARM_SIDE, (rows[i].read_f - 32) / 1.8);
        f.visit.measured[ZONE_WARM_SIDE].unit = rows[i].unit;
        ck_assert(temperature_plan(&f.b));
        ck_assert_msg(zone_of(ZONE_WARM_SIDE)->verdict == rows[i].verdict, "row %zu", i);
        ck_assert(rows[i].verdict != VERDICT_IN_RANGE || zone_of(ZONE_WARM_SIDE)->change == 0);
    }
}
END_TEST

/* The thermometer may be off by 1 K (common practice, no source). 79 F is 26.11 C: a tenth of a
 * degree above 26 C is no fault of the box; 27.1 C is one. */
static const struct {
    double temp_c;
    enum verdict verdict;
} edge_rows[] = {
    {26.0, VERDICT_IN_RANGE},   {26.11, VERDICT_BORDERLINE}, {27.0, VERDICT_BORDERLINE},
    {27.1, VERDICT_TOO_HIGH},   {22.0, VERDICT_IN_RANGE},    {21.9, VERDICT_BORDERLINE},
    {21.0, VERDICT_BORDERLINE}, {20.9, VERDICT_TOO_LOW},
};

START_TEST(a_reading_whose_error_holds_the_end_is_borderline)
{
    read_zone(ZONE_COOL_SIDE, edge_rows[_i].temp_c);
    ck_assert(temperature_plan(&f.b));
    ck_assert_int_eq(zone_of(ZONE_COOL_SIDE)->verdict, edge_rows[_i].verdict);
}
END_TEST

/* What never may be passed is no matter of a meter's error. */
START_TEST(above_the_upper_limit_nothing_is_borderline)
{
    f.species.upper_limit = fixture_cited(34.5, 34.5);
    read_zone(ZONE_WARM_SIDE, 34.4);
    ck_assert(temperature_plan(&f.b));
    ck_assert_int_eq(zone_of(ZONE_WARM_SIDE)->verdict, VERDICT_BORDERLINE);
    read_zone(ZONE_WARM_SIDE, 34.6);
    memset(&f.plan, 0, sizeof f.plan);
    ck_assert(temperature_plan(&f.b));
    ck_assert_int_eq(zone_of(ZONE_WARM_SIDE)->verdict, VERDICT_TOO_HIGH);
}
END_TEST

/* A basking spot of 40 C for a gecko that has none and an upper limit of 28 C. */
START_TEST(a_place_without_a_target_is_held_against_the_upper_limit)
{
    f.species.measured[ZONE_BASKING_SURFACE].range.known = false;
    f.species.upper_limit = fixture_cited(28, 28);
    read_zone(ZONE_BASKING_SURFACE, 40);
    read_zone(ZONE_NIGHT_WARM_SIDE, 27);
    ck_assert(temperature_plan(&f.b));
    const struct measured_plan *spot = zone_of(ZONE_BASKING_SURFACE);
    ck_assert(!spot->applies && spot->limit_only);
    ck_assert_int_eq(spot->verdict, VERDICT_TOO_HIGH);
    ck_assert_double_eq(spot->change, -12);
    ck_assert_int_eq(zone_of(ZONE_NIGHT_WARM_SIDE)->verdict, VERDICT_IN_RANGE);
}
END_TEST

/* Warm and cool place of a reptile that is ill, operated on, gravid or thin, by what is published:
 * the preferred air zones of the WikiVet page (corn and king snake 25-32, boa 28-34, royal python
 * 25-34, garter snake 21-32 C); the healthy places are those of the species sheets. That the warm
 * place lies in the zone's upper half by day and by night goes no higher than half way up what it
 * has by day, that the cool end is lifted to the zone's lowest, and everything where no zone is
 * published, is common practice, no source. */
static const struct {
    const char *who;
    struct ends zone, basking, warm, cool; /* high 0: none */
    double limit;
    bool airway;
    struct ends day_warm, day_cool, night_warm, night_cool;
} warmth_rows[] = {
    {"boa, airway",
     {28, 34},
     {32, 34},
     {28, 31},
     {25, 27},
     0,
     true,
     {31, 34},
     {28, 30},
     {31, 32.5},
     {28, 30}},
    {"king snake, operated",
     {25, 32},
     {30, 32},
     {27, 29},
     {22, 25},
     0,
     false,
     {28.5, 32},
     {25, 28},
     {25, 30.25},
     {25, 28}},
    {"royal python",
     {25, 34},
     {32, 34},
     {30, 32},
     {26, 28},
     35,
     false,
     {30, 34},
     {26, 28},
     {26, 32}, /* no colder than the cool end beside it */
     {26, 28}},
    {"garter snake",
     {21, 32},
     {29, 32},
     {25, 28},
     {20, 24},
     0,
     false,
     {26.5, 32},
     {21, 25},
     {21, 29.25},
     {21, 25}},
    {"a zone past the basking spot",
     {25, 40},
     {30, 32},
     {27, 29},
     {22, 25},
     0,
     false,
     {32, 32},
     {25, 28},
     {25, 32},
     {25, 28}},
    {"a zone past the limit",
     {25, 32},
     {0, 0},
     {27, 29},
     {24, 25},
     30,
     false,
     {28.5, 30},
     {25, 26},
     {25, 29.25},
     {25, 26}},
    {"dragon, a body temperature alone",
     {0, 0},
     {38, 42},
     {28, 32},
     {22, 26},
     0,
     false,
     {30, 32},
     {22, 26},
     {28, 30},
     {22, 26}},
    {"crested gecko, nothing",
     {0, 0},
     {0, 0},
     {24, 26},
     {20, 22},
     28,
     true,
     {25, 26},
     {20, 22},
     {24, 25},
     {20, 22}},
};

static void place(enum zone zone, struct ends ends)
{
    f.species.measured[zone] = fixture_cited(ends.low, ends.high);
    f.species.measured[zone].range.known = ends.high > 0;
}

static void is_aimed(enum zone zone, struct ends wanted, const char *who)
{
    ck_assert_msg(zone_of(zone)->low == wanted.low && zone_of(zone)->high == wanted.high,
                  "%s, place %d: %g-%g, not %g-%g", who, (int)zone, zone_of(zone)->low,
                  zone_of(zone)->high, wanted.low, wanted.high);
}

START_TEST(an_ill_reptile_is_warm_at_one_place_and_has_a_cooler_one)
{
    const char *who = warmth_rows[_i].who;
    place(ZONE_BASKING_SURFACE, warmth_rows[_i].basking);
    place(ZONE_WARM_SIDE, warmth_rows[_i].warm);
    place(ZONE_COOL_SIDE, warmth_rows[_i].cool);
    f.species.preferred_air = fixture_cited(warmth_rows[_i].zone.low, warmth_rows[_i].zone.high);
    f.species.preferred_air.range.known = warmth_rows[_i].zone.high > 0;
    if (warmth_rows[_i].limit > 0)
        f.species.upper_limit = fixture_cited(warmth_rows[_i].limit, warmth_rows[_i].limit);
    fixture_settle(&f, "warmth-day", "ill-warm", "finding:wheeze");
    fixture_settle(&f, "warmth-night", "no-drop", "finding:wheeze");
    if (warmth_rows[_i].airway)
        fixture_settle(&f, "warmth-night.warm-place", "upper-half", "finding:wheeze");
    ck_assert(temperature_plan(&f.b));
    is_aimed(ZONE_WARM_SIDE, warmth_rows[_i].day_warm, who);
    is_aimed(ZONE_COOL_SIDE, warmth_rows[_i].day_cool, who);
    is_aimed(ZONE_NIGHT_WARM_SIDE, warmth_rows[_i].night_warm, who);
    is_aimed(ZONE_NIGHT, warmth_rows[_i].night_cool, who);
    is_aimed(ZONE_BASKING_SURFACE, warmth_rows[_i].basking, who);
    ck_assert_int_eq(zone_of(ZONE_NIGHT)->target_from.origin, ORIGIN_FINDING);
    ck_assert_str_eq(zone_of(ZONE_NIGHT)->target_from.because, "wheeze");
}
END_TEST

/* Common practice, no source: a chameleon's night is that of the cool end, everywhere; a lizard
 * that drinks drops and can drop its tail is no chameleon. */
START_TEST(a_chameleon_sleeps_as_cool_as_its_cool_end)
{
    const struct choice_value traits[] = {fixture_choice(TRAIT_DRINKS_DROPS),
                                          fixture_choice(TRAIT_DROPS_TAIL)};
    f.species.traits = fixture_list(&f, traits, 1 + (size_t)_i, sizeof *traits);
    fixture_settle(&f, "warmth-night", "no-drop", "finding:wheeze");
    ck_assert(temperature_plan(&f.b));
    is_aimed(ZONE_NIGHT, (struct ends){22, 26}, "cool end");
    is_aimed(ZONE_NIGHT_WARM_SIDE, _i ? (struct ends){30, 32} : (struct ends){22, 26},
             "warm place");
    is_aimed(ZONE_WARM_SIDE, (struct ends){30, 34}, "the day stays");
}
END_TEST

/* Common practice, no source: the water in the upper half of its band, the basking spot as ever. */
START_TEST(a_water_turtle_is_warmed_through_its_water)
{
    f.species.group = fixture_choice(GROUP_TURTLE);
    f.species.measured[ZONE_WATER] = fixture_cited(23, 26);
    fixture_settle(&f, "warmth-day", "ill-warm", "finding:wheeze");
    fixture_settle(&f, "warmth-night", "no-drop", "finding:wheeze");
    ck_assert(temperature_plan(&f.b));
    is_aimed(ZONE_WATER, (struct ends){24.5, 26}, "water");
    is_aimed(ZONE_WARM_SIDE, (struct ends){30, 34}, "air");
    is_aimed(ZONE_NIGHT, (struct ends){22, 26}, "night");
    ck_assert(!zone_of(ZONE_NIGHT_WARM_SIDE)->applies);
}
END_TEST

START_TEST(an_amphibian_keeps_its_own_bands)
{
    f.species.group = fixture_choice(_i ? GROUP_SALAMANDER : GROUP_FROG);
    f.species.preferred_air = fixture_cited(25, 40);
    fixture_settle(&f, "warmth-day", "ill-warm", "finding:wheeze");
    fixture_settle(&f, "warmth-night", "no-drop", "finding:wheeze");
    ck_assert(temperature_plan(&f.b));
    is_aimed(ZONE_WARM_SIDE, (struct ends){30, 34}, "amphibian");
    is_aimed(ZONE_NIGHT, (struct ends){18, 22}, "amphibian");
}
END_TEST

/* 20 C (68 F) by night was "right" for a healthy king snake; after an operation it is 5 C short of
 * the zone's lowest. The warm place has a reading and a target of its own. */
START_TEST(one_reading_at_night_is_never_held_against_the_other_target)
{
    f.species.preferred_air = fixture_cited(25, 32);
    place(ZONE_COOL_SIDE, (struct ends){22, 25});
    fixture_settle(&f, "warmth-night", "no-drop", "done:surgery");
    read_zone(ZONE_NIGHT, 20);
    read_zone(ZONE_NIGHT_WARM_SIDE, 31);
    ck_assert(temperature_plan(&f.b));
    ck_assert_int_eq(zone_of(ZONE_NIGHT)->verdict, VERDICT_TOO_LOW);
    ck_assert_double_eq(zone_of(ZONE_NIGHT)->change, 5);
    ck_assert_int_eq(zone_of(ZONE_NIGHT_WARM_SIDE)->verdict, VERDICT_IN_RANGE);
}
END_TEST

/* A warm night is what is asked for: no drop is no fault then. */
START_TEST(a_night_that_must_not_drop_is_never_blamed_for_it)
{
    fixture_settle(&f, "warmth-night", "no-drop", "done:surgery");
    read_zone(ZONE_WARM_SIDE, 31);
    read_zone(ZONE_NIGHT, 31);
    ck_assert(temperature_plan(&f.b));
    ck_assert_int_eq(f.plan.temperature.night, NIGHT_GOOD);
}
END_TEST

/* After overheating: the lower half, and no hot spot; one that is there is too hot above the warm
 * side. */
START_TEST(cooled_down_there_is_no_hot_spot)
{
    fixture_settle(&f, "warmth-day", "cool-down", "finding:heat-stroke");
    read_zone(ZONE_BASKING_SURFACE, 38);
    ck_assert(temperature_plan(&f.b));
    is_aimed(ZONE_WARM_SIDE, (struct ends){30, 32}, "warm side");
    is_aimed(ZONE_COOL_SIDE, (struct ends){22, 24}, "cool side");
    is_aimed(ZONE_NIGHT, (struct ends){18, 22}, "night");
    const struct measured_plan *spot = zone_of(ZONE_BASKING_SURFACE);
    ck_assert(!spot->applies && spot->limit_only);
    ck_assert_int_eq(spot->verdict, VERDICT_TOO_HIGH);
    ck_assert_double_eq(spot->change, -6);
}
END_TEST

START_TEST(the_veterinarians_target_wins)
{
    fixture_settle(&f, "warmth-day", "cool-down", "finding:heat-stroke");
    f.visit.targets.measured[ZONE_WARM_SIDE] = fixture_band(33, 35);
    f.visit.targets.because = fixture_text("lungs");
    f.species.upper_limit = fixture_cited(34.5, 36);
    read_zone(ZONE_WARM_SIDE, 32);
    ck_assert(temperature_plan(&f.b));
    const struct measured_plan *warm = zone_of(ZONE_WARM_SIDE);
    ck_assert_double_eq(warm->low, 33);
    ck_assert_double_eq(warm->high, 35);
    ck_assert_double_eq(warm->change, 1);
    ck_assert_int_eq(warm->target_from.origin, ORIGIN_VETERINARIAN);
    ck_assert_str_eq(warm->target_from.source, "Dr Ines Calder");
    ck_assert_str_eq(warm->target_from.because, "lungs");
    ck_assert_ptr_nonnull(fixture_review(&f, "own-temperature-target"));
    ck_assert_ptr_nonnull(fixture_review(&f, "own-target-above-limit"));
    /* of a band, the careful end */
    ck_assert(f.plan.temperature.has_upper_limit);
    ck_assert_double_eq(f.plan.temperature.upper_limit_c, 34.5);
}
END_TEST

START_TEST(an_own_target_inside_the_band_is_no_remark)
{
    f.visit.targets.measured[ZONE_WARM_SIDE] = fixture_band(31, 32);
    f.visit.targets.by = fixture_text("Dr Ada Lomax");
    ck_assert(temperature_plan(&f.b));
    ck_assert_str_eq(zone_of(ZONE_WARM_SIDE)->target_from.source, "Dr Ada Lomax");
    ck_assert_ptr_null(fixture_review(&f, "own-temperature-target"));
}
END_TEST

static size_t unread_places(void)
{
    size_t count = 0;
    ck_assert(temperature_plan(&f.b));
    const struct review *told = fixture_review(&f, "zones-unread");
    for (const struct plan_fact *fact = told ? told->facts : NULL; fact; fact = fact->next)
        count++;
    return count;
}

/* The air and the water are no places: nobody is asked for their warmth. */
START_TEST(only_places_are_told_as_unread)
{
    for (int z = 0; z < ZONE_COUNT; z++)
        f.species.measured[z] = fixture_cited(24, 26);
    ck_assert_uint_eq(unread_places(), ZONE_COUNT); /* from the first to the last */
    tear_down();
    set_up();
    size_t places = unread_places();
    ck_assert_uint_gt(places, 0);
    tear_down();
    set_up();
    for (int m = ZONE_COUNT; m < MEASURE_COUNT; m++)
        f.plan.measured[m].applies = true;
    ck_assert_uint_eq(unread_places(), places);
}
END_TEST

/* What it bears at most is 34.5-36 C, its warm side usually as in the fixture: told above the lower
 * end, and not of what its own kind has anyway. */
START_TEST(an_own_target_at_the_limit)
{
    static const struct {
        double own_high_c, usual_high_c;
        bool told;
    } rows[] = {{34.5, 32, false}, {34.6, 32, true}, {35, 35, false}, {35.1, 35, true}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++, tear_down(), set_up()) {
        f.species.measured[ZONE_WARM_SIDE] = fixture_cited(28, rows[i].usual_high_c);
        f.species.upper_limit = fixture_cited(34.5, 36);
        f.visit.targets.measured[ZONE_WARM_SIDE] = fixture_band(30, rows[i].own_high_c);
        ck_assert(temperature_plan(&f.b));
        const struct review *told = fixture_review(&f, "own-target-above-limit");
        ck_assert_int_eq(told != NULL, rows[i].told);
        if (told) {
            ck_assert_double_eq(fixture_fact(told, "limit")->low, 34.5);
            ck_assert_double_eq(fixture_fact(told, "target")->low, 30);
            ck_assert_double_eq(fixture_fact(told, "target")->high, rows[i].own_high_c);
        }
    }
}
END_TEST

static const struct {
    double warm_c, cool_c;
    enum gradient_state state;
} gradient_rows[] = {
    {31, 25, GRADIENT_GOOD},     {28, 25.5, GRADIENT_TOO_FLAT}, {27, 27, GRADIENT_TOO_FLAT},
    {26, 27, GRADIENT_INVERTED}, {28, 25, GRADIENT_GOOD},
};

START_TEST(gradient_is_told_by_warm_minus_cool)
{
    read_zone(ZONE_WARM_SIDE, gradient_rows[_i].warm_c);
    read_zone(ZONE_COOL_SIDE, gradient_rows[_i].cool_c);
    ck_assert(temperature_plan(&f.b));
    ck_assert_int_eq(f.plan.temperature.gradient, gradient_rows[_i].state);
    ck_assert_double_eq(f.plan.temperature.gradient_c,
                        gradient_rows[_i].warm_c - gradient_rows[_i].cool_c);
    ck_assert(!zone_of(ZONE_WARM_SIDE)->implausible); /* inverted is no misreading */
}
END_TEST

START_TEST(a_gradient_that_the_species_asks_for_is_never_flat)
{
    f.species.measured[ZONE_WARM_SIDE] = fixture_cited(24, 26);
    f.species.measured[ZONE_COOL_SIDE] = fixture_cited(20, 22);
    read_zone(ZONE_WARM_SIDE, 24);
    read_zone(ZONE_COOL_SIDE, 22);
    ck_assert(temperature_plan(&f.b));
    ck_assert_int_eq(f.plan.temperature.gradient, GRADIENT_GOOD);
}
END_TEST

START_TEST(gradient_without_a_warm_side_uses_the_basking_spot)
{
    read_zone(ZONE_BASKING_SURFACE, 39);
    read_zone(ZONE_COOL_SIDE, 24);
    ck_assert(temperature_plan(&f.b));
    ck_assert_int_eq(f.plan.temperature.gradient, GRADIENT_GOOD);
    ck_assert_double_eq(f.plan.temperature.gradient_c, 15);
}
END_TEST

static const struct {
    double day_c, night_c, usual_low, usual_high;
    enum night_state state;
} night_rows[] = {
    {32, 20, 0, 0, NIGHT_GOOD},      /* inside its own target */
    {28, 27.5, 0, 0, NIGHT_NO_DROP}, /* 0.5 below the day, and warmer than the target */
    {32, 15, 0, 0, NIGHT_TOO_DEEP},  /* 17 of at most 12 */
    {25, 15, 0, 0, NIGHT_GOOD},      /* too cold, but a drop of 10 is usual: the day is wrong */
    {33, 28, 8, 12, NIGHT_NO_DROP},  /* 5 of at least 8 - 1 */
    {33, 16, 8, 14, NIGHT_TOO_DEEP}, /* 17 of at most 14 + 1 */
    /* each end itself is no fault, half a degree past it is one */
    {28, 27, 0, 0, NIGHT_GOOD},        /* 1, which two readings may differ by */
    {33, 26, 8, 12, NIGHT_GOOD},       /* 7 of at least 8 - 1 */
    {33, 26.5, 8, 12, NIGHT_NO_DROP},  /* 6.5 */
    {33, 25, 8, 12, NIGHT_GOOD},       /* 8, as is usual */
    {27, 15, 0, 0, NIGHT_GOOD},        /* 12 of at most 12 */
    {27.5, 15, 0, 0, NIGHT_TOO_DEEP},  /* 12.5 */
    {31, 16, 8, 14, NIGHT_GOOD},       /* 15 of at most 14 + 1 */
    {31.5, 16, 8, 14, NIGHT_TOO_DEEP}, /* 15.5 */
    {28, 16, 4, 6, NIGHT_GOOD},        /* 12: what is deep for none is not deep for it */
    {28.5, 16, 4, 6, NIGHT_TOO_DEEP},  /* 12.5 */
};

START_TEST(night_drop_is_told_by_day_minus_night)
{
    if (night_rows[_i].usual_high > 0)
        f.species.night_drop = fixture_cited(night_rows[_i].usual_low, night_rows[_i].usual_high);
    read_zone(ZONE_WARM_SIDE, night_rows[_i].day_c);
    read_zone(ZONE_NIGHT, night_rows[_i].night_c);
    ck_assert(temperature_plan(&f.b));
    ck_assert_int_eq(f.plan.temperature.night, night_rows[_i].state);
    ck_assert_double_eq(f.plan.temperature.night_drop_c,
                        night_rows[_i].day_c - night_rows[_i].night_c);
}
END_TEST

static const struct {
    enum zone zone;
    double reading_c, warm_c, room_c;
    const char *code; /* NULL: believed */
} belief_rows[] = {
    {ZONE_BASKING_SURFACE, 18, 30, 21, "reading-below-room"},
    {ZONE_BASKING_SURFACE, 20.5, 30, 21, NULL}, /* two thermometers may differ by one degree */
    {ZONE_WARM_SIDE, 19, 19, 21, "reading-below-room"},
    {ZONE_COOL_SIDE, 18, 30, 21, NULL}, /* the cool side may be colder than the room */
    {ZONE_NIGHT, 32, 30, 21, "night-above-day"},
    {ZONE_NIGHT, 30.5, 30, 21, NULL},
    {ZONE_BASKING_SURFACE, 84, 30, 21, "reading-too-hot"}, /* fahrenheit written as celsius */
};

START_TEST(what_cannot_be_right_is_put_to_the_veterinarian)
{
    read_zone(ZONE_WARM_SIDE, belief_rows[_i].warm_c);
    read_zone(belief_rows[_i].zone, belief_rows[_i].reading_c);
    f.visit.measured[belief_rows[_i].zone].at = (struct mark){"visit.yaml", 9, 4};
    f.visit.enclosure.readings.room_c = fixture_quantity(belief_rows[_i].room_c);
    ck_assert(temperature_plan(&f.b));
    const struct measured_plan *zone = zone_of(belief_rows[_i].zone);
    if (!belief_rows[_i].code) {
        ck_assert(!zone->implausible);
        return;
    }
    ck_assert(zone->implausible);
    ck_assert_int_eq(zone->verdict, VERDICT_UNKNOWN);
    ck_assert_double_eq(zone->change, 0);
    const struct review *review = fixture_review(&f, belief_rows[_i].code);
    ck_assert_int_eq(review->kind, REVIEW_IMPLAUSIBLE);
    ck_assert_int_eq(review->at.line, 9);
    ck_assert_double_eq(fixture_fact(review, "reading")->low, belief_rows[_i].reading_c);
}
END_TEST

START_TEST(an_unbelieved_reading_makes_no_gradient_and_no_drop)
{
    read_zone(ZONE_WARM_SIDE, 15);
    read_zone(ZONE_COOL_SIDE, 25);
    read_zone(ZONE_NIGHT, 20);
    f.visit.enclosure.readings.room_c = fixture_quantity(21);
    ck_assert(temperature_plan(&f.b));
    ck_assert_int_eq(f.plan.temperature.gradient, GRADIENT_UNKNOWN);
    ck_assert_int_eq(f.plan.temperature.night, NIGHT_UNKNOWN);
    ck_assert_int_eq(zone_of(ZONE_NIGHT)->verdict, VERDICT_IN_RANGE);
}
END_TEST

START_TEST(not_a_number_is_refused_with_its_place)
{
    read_zone(ZONE_COOL_SIDE, _i == 0 ? NAN : INFINITY);
    ck_assert(!temperature_plan(&f.b));
    ck_assert(fixture_said(&f, "not-a-number"));
    ck_assert_str_eq(f.diag.first->path, "enclosure.readings.cool-side");
}
END_TEST

START_TEST(sources_that_lie_apart_are_named)
{
    struct sourced_value others[] = {fixture_cited(31, 32), fixture_cited(26, 29)};
    f.species.measured[ZONE_WARM_SIDE].disagrees = fixture_list(&f, others, 2, sizeof *others);
    ck_assert(temperature_plan(&f.b));
    const struct review *spread = fixture_review(&f, "temperature-spread");
    ck_assert_double_eq(fixture_fact(spread, "other")->low, 26);
    ck_assert_double_eq(fixture_fact(spread, "chosen")->high, 34);
    for (const struct review *r = spread->next; r; r = r->next)
        ck_assert_str_ne(r->code, "temperature-spread"); /* 31-32 lies inside */
}
END_TEST

/* ---- heating ----------------------------------------------------------------------------- */

static void closed_box(void)
{
    f.visit.enclosure.size = (struct box){true, 120, 60, 50, UNIT_CENTIMETRE, {0}};
    f.visit.enclosure.walls = fixture_choice(WALL_PVC);
    f.visit.enclosure.lid = fixture_choice(LID_GLASS);
    f.visit.enclosure.readings.room_c = fixture_quantity(20);
}

/* By hand. PVC 10 mm / 0.17 = 0.0588: wall U 1/(0.26 + 0.0588) = 3.1365, floor 1/(0.34 + 0.0588) =
 * 2.5074; glass lid 6 mm / 1.0: 1/(0.20 + 0.006) = 4.8544. Walls 1.8 m2, lid and floor 0.72 m2,
 * 0.36 m3: 5.6458 + 3.4951 + 1.8053 = 10.9463 W/K, air 0.33 x 0.36 = 0.1188 W/K a change.
 * Mean air 26-30: low 6 K x (10.9463 + 0.0594) = 66.03 W, less 30 %: 46.2; high 10 K x
 * (10.9463 + 0.3564) = 113.03 W, plus 30 %: 146.9. */
START_TEST(heating_is_a_band)
{
    closed_box();
    ck_assert(temperature_plan(&f.b));
    ck_assert(heating_plan(&f.b));
    const struct heating_plan *heating = &f.plan.temperature.heating;
    ck_assert(heating->known);
    ck_assert_double_eq_tol(heating->low_w, 46.2, 0.1);
    ck_assert_double_eq_tol(heating->high_w, 146.9, 0.1);
    ck_assert_double_eq_tol(fixture_derivation(&heating->how, "heating.wall_u_w_m2k")->value,
                            3.1365, 1e-4);
    ck_assert_double_eq_tol(fixture_derivation(&heating->how, "heating.lid_u_w_m2k")->value, 4.8544,
                            1e-4);
}
END_TEST

/* By hand, as above, with open water. Saturated air holds (CRC handbook, vapour pressure of water
 * 33.6 hPa at 26 C, 42.5 at 30, 23.4 at 20; 216.7 e / T) 24.4 and 30.4 g/m3, the room's 10.4 at
 * 60 % and 5.2 at 30: 0.5 x 0.36 x 14.0 x 2450 / 3600 = 1.7 W and 3 x 0.36 x 25.2 x 2450 / 3600 =
 * 18.5 W more: (66.03 + 1.7) x 0.7 = 47.4, (113.03 + 18.5) x 1.3 = 171.0. */
START_TEST(open_water_takes_its_share)
{
    closed_box();
    f.species.measured[ZONE_WATER] = fixture_cited(23, 26);
    ck_assert(temperature_plan(&f.b));
    ck_assert(heating_plan(&f.b));
    ck_assert_double_eq_tol(f.plan.temperature.heating.low_w, 47.4, 0.1);
    ck_assert_double_eq_tol(f.plan.temperature.heating.high_w, 171.0, 0.2);
}
END_TEST

static void open_lid(void)
{
    f.visit.enclosure.lid = fixture_choice(LID_OPEN);
}
static void mesh_lid(void)
{
    f.visit.enclosure.lid = fixture_choice(LID_MESH);
}
static void mesh_walls(void)
{
    f.visit.enclosure.walls = fixture_choice(WALL_MESH);
}
static void no_size(void)
{
    f.visit.enclosure.size.known = false;
}
static void no_walls(void)
{
    f.visit.enclosure.walls.known = false;
}
static void no_lid(void)
{
    f.visit.enclosure.lid.known = false;
}
static void no_room(void)
{
    f.visit.enclosure.readings.room_c.known = false;
}
static void warm_room(void)
{
    f.visit.enclosure.readings.room_c.value = 31;
}
static void water_animal(void)
{
    f.species.measured[ZONE_WARM_SIDE].range.known = false;
}
static void no_material(void)
{
    f.reference.materials.count = 0;
}

static const struct {
    void (*change)(void);
    const char *why_not;
} heating_rows[] = {
    {mesh_lid, "mesh-lid"},           {open_lid, "mesh-lid"},
    {mesh_walls, "mesh-walls"},       {no_size, "no-size"},
    {no_walls, "no-walls"},           {no_lid, "no-lid"},
    {no_room, "no-room-temperature"}, {warm_room, "room-warm-enough"},
    {water_animal, "not-heated"},     {no_material, "unknown-material"},
};

START_TEST(heating_is_withheld_with_a_reason)
{
    closed_box();
    heating_rows[_i].change();
    ck_assert(temperature_plan(&f.b));
    ck_assert(heating_plan(&f.b));
    ck_assert(!f.plan.temperature.heating.known);
    ck_assert_str_eq(f.plan.temperature.heating.why_not, heating_rows[_i].why_not);
    ck_assert_double_eq(f.plan.temperature.heating.high_w, 0);
}
END_TEST

#define COUNT(rows) (sizeof(rows) / sizeof *(rows))

int main(void)
{
    Suite *suite = suite_create("temperature");
    TCase *tests = tcase_create("temperature");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, readings_are_judged_against_the_species);
    tcase_add_test(tests, a_band_in_fahrenheit_is_as_it_is_shown);
    tcase_add_loop_test(tests, a_reading_whose_error_holds_the_end_is_borderline, 0,
                        COUNT(edge_rows));
    tcase_add_test(tests, above_the_upper_limit_nothing_is_borderline);
    tcase_add_test(tests, a_place_without_a_target_is_held_against_the_upper_limit);
    tcase_add_loop_test(tests, an_ill_reptile_is_warm_at_one_place_and_has_a_cooler_one, 0,
                        COUNT(warmth_rows));
    tcase_add_loop_test(tests, a_chameleon_sleeps_as_cool_as_its_cool_end, 0, 2);
    tcase_add_test(tests, a_water_turtle_is_warmed_through_its_water);
    tcase_add_loop_test(tests, an_amphibian_keeps_its_own_bands, 0, 2);
    tcase_add_test(tests, one_reading_at_night_is_never_held_against_the_other_target);
    tcase_add_test(tests, a_night_that_must_not_drop_is_never_blamed_for_it);
    tcase_add_test(tests, cooled_down_there_is_no_hot_spot);
    tcase_add_test(tests, the_veterinarians_target_wins);
    tcase_add_test(tests, an_own_target_inside_the_band_is_no_remark);
    tcase_add_test(tests, an_own_target_at_the_limit);
    tcase_add_test(tests, only_places_are_told_as_unread);
    tcase_add_loop_test(tests, gradient_is_told_by_warm_minus_cool, 0, COUNT(gradient_rows));
    tcase_add_test(tests, a_gradient_that_the_species_asks_for_is_never_flat);
    tcase_add_test(tests, gradient_without_a_warm_side_uses_the_basking_spot);
    tcase_add_loop_test(tests, night_drop_is_told_by_day_minus_night, 0, COUNT(night_rows));
    tcase_add_loop_test(tests, what_cannot_be_right_is_put_to_the_veterinarian, 0,
                        COUNT(belief_rows));
    tcase_add_test(tests, an_unbelieved_reading_makes_no_gradient_and_no_drop);
    tcase_add_loop_test(tests, not_a_number_is_refused_with_its_place, 0, 2);
    tcase_add_test(tests, sources_that_lie_apart_are_named);
    tcase_add_test(tests, heating_is_a_band);
    tcase_add_test(tests, open_water_takes_its_share);
    tcase_add_loop_test(tests, heating_is_withheld_with_a_reason, 0, COUNT(heating_rows));
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
