/* What today's record does not say is taken over from the visit before, and what the keeper was
 * asked to change since is not: each fact by itself. */
#include <string.h>

#include "care/fixture.h"
#include "common/suite.h"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

enum { ASKS_MOST = 6 };

static struct care_fixture f;
static struct visit before, now;
static struct care_plan plan_then;
static struct action asked[2];
static struct previous_visit previous;
static struct visit_heat heat = {.kind = {.known = true, .value = HEAT_MAT}};
static struct text_value mate = {.text = "ours"};

static void set_up(void)
{
    fixture_init(&f);
    memset(&before, 0, sizeof before);
    memset(&now, 0, sizeof now);
    now.date = fixture_date(2026, 3, 14);
    before.date = fixture_date(2026, 1, 10);
    memset(&plan_then, 0, sizeof plan_then);
    memset(asked, 0, sizeof asked);
    plan_then.actions = asked;
    previous = (struct previous_visit){.plan = &plan_then};
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

static const struct visit *take_in(bool new_home)
{
    return care_take_over(&now, &before, new_home, &f.arena, &previous);
}

static void ask(size_t place, const char *code)
{
    for (size_t i = 0; i < 2; i++)
        asked[i].code = i == place ? code : "weigh-weekly"; /* which changes nothing in the box */
    plan_then.action_count = 2;
}

static const struct taken_fact *noted(const char *code)
{
    const struct taken_fact *found = NULL;
    for (size_t i = 0; i < previous.taken_count; i++) {
        if (strcmp(previous.taken[i].code, code) != 0)
            continue;
        ck_assert_ptr_null(found); /* once */
        found = &previous.taken[i];
    }
    return found;
}

/* ---- the box
 * ------------------------------------------------------------------------------------- */

/* Writes the fact, or another value of it, and reads which one stands there: 0 for none. */
#define QUANTITY_FACT(name_, place_)                                                               \
    static void set_##name_(struct visit *v, int value)                                            \
    {                                                                                              \
        v->enclosure.place_ = fixture_quantity(value);                                             \
    }                                                                                              \
    static int get_##name_(const struct visit *v)                                                  \
    {                                                                                              \
        return v->enclosure.place_.known ? (int)v->enclosure.place_.value : 0;                     \
    }
#define CHOICE_FACT(name_, place_)                                                                 \
    static void set_##name_(struct visit *v, int value)                                            \
    {                                                                                              \
        v->enclosure.place_ = fixture_choice(value);                                               \
    }                                                                                              \
    static int get_##name_(const struct visit *v)                                                  \
    {                                                                                              \
        return v->enclosure.place_.known ? v->enclosure.place_.value : 0;                          \
    }
#define FLAG_FACT(name_, place_)                                                                   \
    static void set_##name_(struct visit *v, int value)                                            \
    {                                                                                              \
        v->enclosure.place_ = fixture_flag(value > 1);                                             \
    }                                                                                              \
    static int get_##name_(const struct visit *v)                                                  \
    {                                                                                              \
        return v->enclosure.place_.known ? 1 + v->enclosure.place_.value : 0;                      \
    }

QUANTITY_FACT(hides, hides)
QUANTITY_FACT(perch, perch_cm)
QUANTITY_FACT(animals, animals)
QUANTITY_FACT(males, males)
CHOICE_FACT(walls, walls)
CHOICE_FACT(lid, lid)
CHOICE_FACT(floor, substrate)
CHOICE_FACT(lamp, lamp.kind)
FLAG_FACT(shade, shade)
FLAG_FACT(dish, water_dish)
FLAG_FACT(outdoor, outdoor)
FLAG_FACT(thermostat, thermostat)
FLAG_FACT(guard, heat_guard)

static void set_size(struct visit *v, int value)
{
    v->enclosure.size = (struct box){.known = true, .length_cm = value};
}

static int get_size(const struct visit *v)
{
    return v->enclosure.size.known ? (int)v->enclosure.size.length_cm : 0;
}

static void set_mates(struct visit *v, int value)
{
    v->enclosure.mates = (struct list){.items = &mate, .count = (size_t)value};
}

static int get_mates(const struct visit *v)
{
    return (int)v->enclosure.mates.count;
}

static void set_heat(struct visit *v, int value)
{
    v->enclosure.heat = (struct list){.items = &heat, .count = (size_t)value};
}

static int get_heat(const struct visit *v)
{
    return (int)v->enclosure.heat.count;
}

/* The fact, and what a keeper is asked that makes it another: what stood there then is no more. */
static const struct fact {
    const char *code;
    void (*set)(struct visit *v, int value);
    int (*get)(const struct visit *v);
    const char *asks[ASKS_MOST + 1];
} facts[] = {
    {"size", set_size, get_size, {"larger-box"}},
    {"walls", set_walls, get_walls, {NULL}},
    {"lid", set_lid, get_lid, {NULL}},
    {"floor", set_floor, get_floor, {"change-floor", "take-out-loose-floor", "clear-tank-floor"}},
    {"hides",
     set_hides,
     get_hides,
     {"add-hides", "add-hide", "add-cover", "add-second-hide", "add-moist-hide", "give-warm-hide"}},
    {"shade", set_shade, get_shade, {"make-shade"}},
    {"perch", set_perch, get_perch, {"lower-perch"}},
    {"dish", set_dish, get_dish, {"add-water-dish"}},
    {"outdoor", set_outdoor, get_outdoor, {"bring-in"}},
    {"company", set_animals, get_animals, {"own-box", "keep-apart"}},
    {"company", set_males, get_males, {"own-box", "keep-apart"}},
    {"company", set_mates, get_mates, {"own-box", "keep-apart"}},
    {"heat",
     set_heat,
     get_heat,
     {"guard-the-heat", "add-thermostat", "turn-basking-off", "unplug-hot-rock", "unplug-mat",
      "change-red-light"}},
    {"heat", set_thermostat, get_thermostat, {"guard-the-heat", "add-thermostat"}},
    {"heat", set_guard, get_guard, {"guard-the-heat", "unplug-mat"}},
    {"lamp",
     set_lamp,
     get_lamp,
     {"change-lamp", "add-uvb-lamp", "clear-lamp-path", "turn-lamp-off", "weaker-lamp",
      "stronger-lamp"}},
};

enum { THEN = 1, TODAY = 2 };

START_TEST(what_was_known_then_is_taken_over)
{
    const struct fact *fact = &facts[_i];
    fact->set(&before, THEN);
    ask(0, "feed-less");
    const struct visit *is = take_in(false);
    ck_assert_int_eq(fact->get(is), THEN);
    ck_assert_int_eq(fact->get(&now), 0); /* the record stays as it was written */
    ck_assert_uint_eq(previous.taken_count, 1);
    ck_assert_ptr_nonnull(noted(fact->code));
    ck_assert(!noted(fact->code)->left_out);
}
END_TEST

START_TEST(what_the_record_says_today_stands)
{
    const struct fact *fact = &facts[_i];
    fact->set(&before, THEN);
    fact->set(&now, TODAY);
    for (int asks = 0; asks < 2; asks++) {
        if (asks && fact->asks[0])
            ask(1, fact->asks[0]);
        const struct visit *is = take_in(false);
        ck_assert_int_eq(fact->get(is), TODAY);
        ck_assert_uint_eq(previous.taken_count, 0);
    }
}
END_TEST

START_TEST(what_was_asked_to_change_is_left_out)
{
    const struct fact *fact = &facts[_i];
    for (int i = 0; fact->asks[i]; i++) {
        again();
        fact->set(&before, THEN);
        ask((size_t)i % 2, fact->asks[i]);
        const struct visit *is = take_in(false);
        ck_assert_msg(fact->get(is) == 0, "%s: %s", fact->code, fact->asks[i]);
        ck_assert_uint_eq(previous.taken_count, 1);
        ck_assert_ptr_nonnull(noted(fact->code));
        ck_assert_msg(noted(fact->code)->left_out, "%s: %s", fact->code, fact->asks[i]);
    }
}
END_TEST

START_TEST(what_nobody_knew_is_not_spoken_of)
{
    const struct fact *fact = &facts[_i];
    if (fact->asks[0])
        ask(1, fact->asks[0]);
    ck_assert_int_eq(fact->get(take_in(false)), 0);
    ck_assert_uint_eq(previous.taken_count, 0);
    fact->set(&now, TODAY);
    ck_assert_int_eq(fact->get(take_in(false)), TODAY);
    ck_assert_uint_eq(previous.taken_count, 0);
}
END_TEST

/* A pen's heat and size, with one that was to come in from it: of its box nobody knows, unless the
 * record says that it is out there still. Who shares its life and where it lives are asked about
 * on their own. */
START_TEST(nothing_of_a_pen_goes_indoors)
{
    const struct fact *fact = &facts[_i];
    if (strcmp(fact->code, "outdoor") == 0 || strcmp(fact->code, "company") == 0)
        return;
    for (int still_out = 0; still_out < 2; still_out++) {
        again();
        fact->set(&before, THEN);
        before.enclosure.outdoor = fixture_flag(true);
        if (still_out)
            now.enclosure.outdoor = fixture_flag(true);
        ask(0, "bring-in");
        ck_assert_int_eq(fact->get(take_in(false)), still_out ? THEN : 0);
        ck_assert((noted(fact->code) != NULL) == still_out);
        ck_assert((noted("outdoor") != NULL) == !still_out);
    }
    again();
    fact->set(&before, THEN);
    before.enclosure.outdoor = fixture_flag(true);
    ck_assert_int_eq(fact->get(take_in(false)), THEN);
}
END_TEST

/* In a new home the box and the keeper are others. */
START_TEST(nothing_goes_into_a_new_home)
{
    const struct fact *fact = &facts[_i];
    fact->set(&before, THEN);
    before.keeper.name = fixture_text("Rosa Lind");
    const struct visit *is = take_in(true);
    ck_assert_int_eq(fact->get(is), 0);
    ck_assert_ptr_null(is->keeper.name.text);
    ck_assert_uint_eq(previous.taken_count, 0);
}
END_TEST

/* All at once: each fact has a room of its own in the list. */
START_TEST(all_of_it_at_once)
{
    for (int i = 0; i < COUNT(facts); i++)
        facts[i].set(&before, THEN);
    before.enclosure.latitude_deg = fixture_quantity(48);
    before.keeper.name = fixture_text("Rosa Lind");
    before.patient.mass_g = fixture_quantity(350);
    plan_then.patient.has_mass = true;
    const struct visit *is = take_in(false);
    for (int i = 0; i < COUNT(facts); i++) {
        ck_assert_int_eq(facts[i].get(is), THEN);
        ck_assert_ptr_nonnull(noted(facts[i].code));
    }
    ck_assert_ptr_nonnull(noted("keeper"));
    ck_assert_ptr_nonnull(noted("weighing"));
    ck_assert_uint_eq(previous.taken_count, 14);
    ck_assert_double_eq(is->enclosure.latitude_deg.value, 48);
}
END_TEST

/* A larger box has other walls and another lid, of which nobody was told. */
START_TEST(a_larger_box_has_other_walls)
{
    set_size(&before, THEN);
    set_walls(&before, WALL_WOOD);
    set_lid(&before, LID_GLASS);
    ask(0, "larger-box");
    const struct visit *is = take_in(false);
    ck_assert(!is->enclosure.walls.known);
    ck_assert(!is->enclosure.lid.known);
    ck_assert_uint_eq(previous.taken_count, 1);
}
END_TEST

/* A wall is as thick as the walls that it belongs to. */
START_TEST(the_thickness_goes_with_the_walls)
{
    set_walls(&before, WALL_WOOD);
    before.enclosure.wall_thickness_cm = fixture_quantity(2);
    ck_assert_double_eq(take_in(false)->enclosure.wall_thickness_cm.value, 2);
    now.enclosure.wall_thickness_cm = fixture_quantity(1);
    ck_assert_double_eq(take_in(false)->enclosure.wall_thickness_cm.value, 1);
    now.enclosure.wall_thickness_cm = (struct quantity){0};
    set_walls(&now, WALL_GLASS);
    ck_assert(!take_in(false)->enclosure.wall_thickness_cm.known);
}
END_TEST

/* What the lamp is holds; where it hung and how long it shone is looked at anew. */
START_TEST(a_lamp_is_taken_without_where_it_hung)
{
    set_lamp(&before, THEN);
    before.enclosure.lamp.height_cm = before.enclosure.lamp.offset_cm = fixture_quantity(30);
    before.enclosure.lamp.hours = fixture_quantity(12);
    before.enclosure.lamp.installed = fixture_date(2025, 11, 2);
    const struct visit_lamp *lamp = &take_in(false)->enclosure.lamp;
    ck_assert(!lamp->height_cm.known);
    ck_assert(!lamp->offset_cm.known);
    ck_assert(!lamp->hours.known);
    ck_assert(lamp->installed.known);
}
END_TEST

/* Heaters, thermostat and guard are changed as one: one of them today is word of all. */
START_TEST(what_warms_it_is_one_fact)
{
    set_heat(&before, 2);
    set_thermostat(&before, 2);
    set_guard(&before, 2);
    void (*const sets[])(struct visit *, int) = {set_heat, set_thermostat, set_guard};
    const struct visit *is = take_in(false);
    ck_assert(get_heat(is) == 2 && get_thermostat(is) == 2 && get_guard(is) == 2);
    for (int i = 0; i < COUNT(sets); i++) {
        struct visit record = now;
        sets[i](&record, 1); /* one is word enough */
        is = care_take_over(&record, &before, false, &f.arena, &previous);
        ck_assert_int_eq(get_heat(is) + get_thermostat(is) + get_guard(is), 1);
        ck_assert_uint_eq(previous.taken_count, 0);
    }
}
END_TEST

START_TEST(the_company_is_one_fact)
{
    set_animals(&before, 2);
    set_males(&before, 2);
    set_mates(&before, 2);
    void (*const sets[])(struct visit *, int) = {set_animals, set_males, set_mates};
    const struct visit *is = take_in(false);
    ck_assert(get_animals(is) == 2 && get_males(is) == 2 && get_mates(is) == 2);
    for (int i = 0; i < COUNT(sets); i++) {
        struct visit record = now;
        sets[i](&record, 1); /* one is word enough */
        is = care_take_over(&record, &before, false, &f.arena, &previous);
        ck_assert_int_eq(get_animals(is) + get_males(is) + get_mates(is), 1);
        ck_assert_uint_eq(previous.taken_count, 0);
    }
}
END_TEST

/* Where it lives is no fact that anybody was asked to change, and is not spoken of. */
START_TEST(the_latitude_is_taken_unsaid)
{
    before.enclosure.latitude_deg = fixture_quantity(48);
    ck_assert_double_eq(take_in(false)->enclosure.latitude_deg.value, 48);
    now.enclosure.latitude_deg = fixture_quantity(-30);
    ck_assert_double_eq(take_in(false)->enclosure.latitude_deg.value, -30);
    ck_assert_uint_eq(previous.taken_count, 0);
}
END_TEST

/* ---- the keeper
 * ---------------------------------------------------------------------------------- */

static void know_keeper(void)
{
    before.keeper = (struct visit_keeper){.name = fixture_text("Rosa Lind"),
                                          .telephone = fixture_text("555-0123"),
                                          .email = fixture_text("rosa@example.org"),
                                          .language = fixture_text("es"),
                                          .units = fixture_choice(UNITS_US)};
}

START_TEST(the_same_keeper_keeps_what_was_known)
{
    for (int named = 0; named < 2; named++) {
        again();
        know_keeper();
        if (named)
            now.keeper.name = fixture_text("Rosa Lind");
        const struct visit_keeper *is = &take_in(false)->keeper;
        ck_assert_str_eq(is->name.text, "Rosa Lind");
        ck_assert_str_eq(is->telephone.text, "555-0123");
        ck_assert_str_eq(is->email.text, "rosa@example.org");
        ck_assert_str_eq(is->language.text, "es");
        ck_assert(is->units.known && is->units.value == UNITS_US);
        ck_assert_uint_eq(previous.taken_count, 1);
        ck_assert(!noted("keeper")->left_out);
    }
}
END_TEST

START_TEST(another_keeper_has_nothing_of_the_one_before)
{
    for (int unnamed = 0; unnamed < 2; unnamed++) {
        again();
        know_keeper();
        if (unnamed)
            before.keeper.name = (struct text_value){0};
        now.keeper.name = fixture_text("Otto Berg");
        const struct visit_keeper *is = &take_in(false)->keeper;
        ck_assert_str_eq(is->name.text, "Otto Berg");
        ck_assert_ptr_null(is->telephone.text);
        ck_assert_ptr_null(is->email.text);
        ck_assert_ptr_null(is->language.text);
        ck_assert(!is->units.known);
        ck_assert_uint_eq(previous.taken_count, 0);
    }
}
END_TEST

/* Any one that is missing is taken and told; what is written today stands. */
START_TEST(each_part_of_the_keeper_is_taken_by_itself)
{
    for (int missing = 0; missing <= 5; missing++) {
        again();
        know_keeper();
        now.keeper = (struct visit_keeper){.name = fixture_text("Rosa Lind"),
                                           .telephone = fixture_text("555-0199"),
                                           .email = fixture_text("new@example.org"),
                                           .language = fixture_text("fr"),
                                           .units = fixture_choice(UNITS_METRIC)};
        struct text_value *const texts[] = {&now.keeper.name, &now.keeper.telephone,
                                            &now.keeper.email, &now.keeper.language};
        if (missing < 4)
            texts[missing]->text = NULL;
        now.keeper.units.known = missing != 4;
        const struct visit_keeper *is = &take_in(false)->keeper;
        ck_assert_str_eq(is->name.text, "Rosa Lind");
        ck_assert_str_eq(is->telephone.text, missing == 1 ? "555-0123" : "555-0199");
        ck_assert_str_eq(is->email.text, missing == 2 ? "rosa@example.org" : "new@example.org");
        ck_assert_str_eq(is->language.text, missing == 3 ? "es" : "fr");
        ck_assert_int_eq(is->units.value, missing == 4 ? UNITS_US : UNITS_METRIC);
        ck_assert(is->units.known);
        ck_assert_uint_eq(previous.taken_count, missing < 5);
    }
}
END_TEST

/* ---- weighings
 * ----------------------------------------------------------------------------------- */

static struct visit_weighing weighed(int month, int day, double mass_g)
{
    return (struct visit_weighing){.on = fixture_date(2025, month, day),
                                   .mass_g = fixture_quantity(mass_g)};
}

static const struct visit_weighing *weighing(const struct visit *v, size_t i)
{
    return LIST_AT(v->patient.earlier, struct visit_weighing, i);
}

START_TEST(the_mass_of_then_is_an_earlier_weighing)
{
    before.patient.mass_g = fixture_quantity(350);
    before.patient.length_cm = fixture_quantity(40);
    plan_then.patient.has_mass = true;
    for (int new_home = 0; new_home < 2; new_home++) {
        const struct visit *is = take_in(new_home);
        ck_assert_uint_eq(is->patient.earlier.count, 1);
        ck_assert_double_eq(weighing(is, 0)->mass_g.value, 350);
        ck_assert_double_eq(weighing(is, 0)->length_cm.value, 40);
        ck_assert_int_eq(date_compare(weighing(is, 0)->on.date, before.date.date), 0);
        ck_assert(!noted("weighing")->left_out);
    }
    plan_then.patient.has_mass = false; /* it could not be right */
    ck_assert_uint_eq(take_in(false)->patient.earlier.count, 0);
    ck_assert_uint_eq(previous.taken_count, 0);
}
END_TEST

START_TEST(each_day_is_weighed_once_and_todays_word_stands)
{
    const struct visit_weighing then[] = {
        weighed(11, 2, 300), weighed(12, 1, 320), {.mass_g = fixture_quantity(10)}}; /* on no day */
    const struct visit_weighing own[] = {weighed(12, 1, 325)};
    before.patient.earlier = fixture_list(&f, then, 3, sizeof *then);
    now.patient.earlier = fixture_list(&f, own, 1, sizeof *own);
    const struct visit *is = take_in(false);
    ck_assert_uint_eq(is->patient.earlier.count, 2);
    ck_assert_double_eq(weighing(is, 0)->mass_g.value, 325);
    ck_assert_double_eq(weighing(is, 1)->mass_g.value, 300);
    ck_assert_ptr_nonnull(noted("weighing"));
    before.patient.earlier = fixture_list(&f, then + 1, 2, sizeof *then);
    ck_assert_uint_eq(take_in(false)->patient.earlier.count, 1);
    ck_assert_uint_eq(previous.taken_count, 0); /* all of it stands there already */
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("take_over");
    TCase *tcase = tcase_create("take_over");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_loop_test(tcase, what_was_known_then_is_taken_over, 0, COUNT(facts));
    tcase_add_loop_test(tcase, what_the_record_says_today_stands, 0, COUNT(facts));
    tcase_add_loop_test(tcase, what_was_asked_to_change_is_left_out, 0, COUNT(facts));
    tcase_add_loop_test(tcase, what_nobody_knew_is_not_spoken_of, 0, COUNT(facts));
    tcase_add_loop_test(tcase, nothing_of_a_pen_goes_indoors, 0, COUNT(facts));
    tcase_add_loop_test(tcase, nothing_goes_into_a_new_home, 0, COUNT(facts));
    tcase_add_test(tcase, all_of_it_at_once);
    tcase_add_test(tcase, a_larger_box_has_other_walls);
    tcase_add_test(tcase, the_thickness_goes_with_the_walls);
    tcase_add_test(tcase, a_lamp_is_taken_without_where_it_hung);
    tcase_add_test(tcase, what_warms_it_is_one_fact);
    tcase_add_test(tcase, the_company_is_one_fact);
    tcase_add_test(tcase, the_latitude_is_taken_unsaid);
    tcase_add_test(tcase, the_same_keeper_keeps_what_was_known);
    tcase_add_test(tcase, another_keeper_has_nothing_of_the_one_before);
    tcase_add_test(tcase, each_part_of_the_keeper_is_taken_by_itself);
    tcase_add_test(tcase, the_mass_of_then_is_an_earlier_weighing);
    tcase_add_test(tcase, each_day_is_weighed_once_and_todays_word_stands);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
