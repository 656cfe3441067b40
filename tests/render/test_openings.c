/* What opens again and what is said of medicines where there is room, held against pages whose room
 * is known. */
#include <string.h>

#include "common/suite.h"
#define ROOM_SUITE test_openings
#include "render/room.h"

/* ---- what opens again ---- */

/* What opens together. */
static const struct together {
    size_t count;
    enum sheet_section_code sections[4];
    bool stays_in_lines; /* boxes to tick keep to one column */
} groups[] = {
    {1, {SECTION_THEN}, true},
    {1, {SECTION_NOW_HERE}, false},
    {1, {SECTION_CALLS}, false},
    {1, {SECTION_MEDICINE_BOXES}, false},
    {2, {SECTION_FINDINGS, SECTION_NORMAL_HERE}, false},
    {4, {SECTION_FOOD, SECTION_WATER_HERE, SECTION_SIX_WEEKS, SECTION_WINTER_HERE}, false},
    {4,
     {SECTION_THREE_DAYS, SECTION_SINCE_HERE, SECTION_CAUTION_SIGNS, SECTION_SIGNATURE_LINE},
     false},
};

static size_t group_of(int section)
{
    for (size_t i = 0; i < sizeof groups / sizeof *groups; i++)
        for (size_t k = 0; k < groups[i].count; k++)
            if ((int)groups[i].sections[k] == section)
                return i;
    return SIZE_MAX;
}

/* How close a group stands that there is room to open as far as `least`. */
static int opens_to(const struct together *group, int closeness, int least)
{
    static const int ways[] = {CLOSE_AS_USUAL, CLOSE_LINES, CLOSE_HEADINGS, CLOSE_BOXES};
    for (int i = 0; i < COUNT(ways); i++)
        if (ways[i] >= least && ways[i] < closeness &&
            ways[i] >=
                (group->stays_in_lines || closeness > CLOSE_LINES ? CLOSE_LINES : CLOSE_AS_USUAL))
            return ways[i];
    return closeness;
}

/* How close a section may stand at the most. No page more takes anything. */
static bool each_close_enough(const struct compose_inputs *in, size_t further)
{
    if (further > 0)
        return false;
    for (int i = 0; i < SECTION_COUNT; i++)
        if ((int)in->closeness - (int)in->opened[i] < (int)scene.least[i])
            return false;
    return in->closeness >= scene.closeness;
}

/* One group may open as far as it likes and the others not at all; then any of them. */
START_TEST(what_has_room_opens_again)
{
    for (int closeness = CLOSE_LINES; closeness < CLOSENESS_COUNT; closeness++) {
        for (size_t own = 0; own <= sizeof groups / sizeof *groups; own++) {
            for (int least = CLOSE_AS_USUAL; least <= closeness; least++) {
                again();
                scene.closeness = (enum closeness)closeness;
                for (int i = 0; i < SECTION_COUNT; i++)
                    scene.least[i] = (enum closeness)(
                        own == group_of(i) || own == sizeof groups / sizeof *groups ? least
                                                                                    : closeness);
                room.later = each_close_enough;
                const struct compose_inputs *is = lay();
                ck_assert_int_eq(is->closeness, closeness);
                for (int i = 0; i < SECTION_COUNT; i++) {
                    const size_t group = group_of(i);
                    const bool may = group != SIZE_MAX &&
                                     (own == group || own == sizeof groups / sizeof *groups);
                    const int stands = (int)is->closeness - (int)is->opened[i];
                    ck_assert_msg(
                        stands == (may ? opens_to(&groups[group], closeness, least) : closeness),
                        "closeness %d, group %zu, least %d: section %d stands %d", closeness, own,
                        least, i, stands);
                }
            }
        }
    }
}
END_TEST

/* ---- in which order ---- */

static struct compose_inputs asked[TRIED_MOST];
static size_t asked_count;

/* How many of the groups have opened, and how much stands beside each medicine: a unit each. */
static size_t units_said(const struct compose_inputs *in)
{
    size_t units = in->medicines;
    for (size_t i = 0; i < sizeof groups / sizeof *groups; i++)
        units += in->opened[groups[i].sections[0]] > 0;
    return units;
}

/* Of what stands beside a medicine and is open nothing is asked twice. */
static void see_asked_once(const struct compose_inputs *in)
{
    for (size_t i = 0; i < asked_count; i++)
        ck_assert(asked[i].medicines != in->medicines ||
                  memcmp(asked[i].opened, in->opened, sizeof in->opened) != 0);
    ck_assert_uint_lt(asked_count, TRIED_MOST);
    asked[asked_count++] = *in;
}

static bool so_many_units(const struct compose_inputs *in, size_t further)
{
    if (further == 0 && (in->medicines > MEDICINES_BARE || !no_opened(in)) && in->inset_pt <= 0)
        see_asked_once(in);
    return in->closeness >= scene.closeness && units_said(in) <= scene.units;
}

struct unit_row {
    enum medicines_say medicines;
    int section; /* SECTION_COUNT: none opens */
};

static void see_order(enum closeness closeness, const struct unit_row *rows, int count)
{
    for (int units = 0; units < count; units++) {
        again();
        plan.medicine_count = 1;
        scene.units = (size_t)units;
        scene.closeness = closeness;
        asked_count = 0;
        room.later = so_many_units;
        const struct compose_inputs *is = lay();
        ck_assert_int_eq(is->closeness, closeness);
        ck_assert_int_eq(is->medicines, rows[units].medicines);
        ck_assert_uint_eq(units_said(is), units);
        for (int i = 0; i <= units; i++)
            ck_assert_msg(rows[i].section == SECTION_COUNT || is->opened[rows[i].section] > 0,
                          "%d units: row %d", units, i);
    }
}

/* Where lists are paragraphs: what to watch for and what a medicine helps with, as both are short;
 * then what is looked up in a fright, what is done first, and that each dose is given; then what is
 * ticked and read each day, and last whom to call who missed a dose, on a line of its own. */
START_TEST(what_is_needed_first_opens_first)
{
    static const struct unit_row rows[] = {
        {MEDICINES_BARE, SECTION_COUNT},        {MEDICINES_WATCH, SECTION_COUNT},
        {MEDICINES_PURPOSE, SECTION_COUNT},     {MEDICINES_PURPOSE, SECTION_CALLS},
        {MEDICINES_PURPOSE, SECTION_NOW_HERE},  {MEDICINES_PURPOSE, SECTION_THEN},
        {MEDICINES_COURSE, SECTION_COUNT},      {MEDICINES_COURSE, SECTION_MEDICINE_BOXES},
        {MEDICINES_COURSE, SECTION_FINDINGS},   {MEDICINES_COURSE, SECTION_FOOD},
        {MEDICINES_COURSE, SECTION_THREE_DAYS}, {MEDICINES_ALL, SECTION_COUNT},
    };
    see_order(CLOSE_PARAGRAPHS, rows, COUNT(rows));
}
END_TEST

/* Where they are lists already what a medicine is for comes before they stand apart. */
START_TEST(what_a_medicine_is_for_is_said_before_lists_stand_apart)
{
    static const struct unit_row rows[] = {
        {MEDICINES_BARE, SECTION_COUNT},        {MEDICINES_WATCH, SECTION_COUNT},
        {MEDICINES_PURPOSE, SECTION_COUNT},     {MEDICINES_COURSE, SECTION_COUNT},
        {MEDICINES_COURSE, SECTION_CALLS},      {MEDICINES_COURSE, SECTION_NOW_HERE},
        {MEDICINES_COURSE, SECTION_THEN},       {MEDICINES_COURSE, SECTION_MEDICINE_BOXES},
        {MEDICINES_COURSE, SECTION_FINDINGS},   {MEDICINES_COURSE, SECTION_FOOD},
        {MEDICINES_COURSE, SECTION_THREE_DAYS}, {MEDICINES_ALL, SECTION_COUNT},
    };
    see_order(CLOSE_HEADINGS, rows, COUNT(rows));
}
END_TEST

/* ---- what begins a line ---- */

/* Pages so close at least, and so close where each medicine begins a line; nothing else opens. */
static bool room_for_lines(const struct compose_inputs *in, size_t further)
{
    (void)further;
    const bool begins = in->lines >= LINES_OF_MEDICINES;
    return no_opened(in) && in->closeness >= (begins ? scene.closeness : scene.least[0]) &&
           (int)in->lines <= scene.lines;
}

/* Two medicines begin a line each, and what goes for both where there is room for that too;
 * headings lead in for that, but no list is lost; what was done follows them. Where all stands
 * apart nothing is asked for. */
START_TEST(each_medicine_begins_a_line)
{
    static const struct {
        enum closeness without, with;
        int room, said;
        enum closeness stands;
        size_t medicines, procedures;
    } rows[] = {
        {CLOSE_LINES, CLOSE_LINES, LINES_OF_CARE, LINES_OF_CARE, CLOSE_LINES, 2, 2},
        {CLOSE_LINES, CLOSE_LINES, LINES_OF_MEDICINES, LINES_OF_MEDICINES, CLOSE_LINES, 2, 2},
        {CLOSE_LINES, CLOSE_LINES, LINES_OF_SEVERAL, LINES_OF_SEVERAL, CLOSE_LINES, 2, 2},
        {CLOSE_LINES, CLOSE_LINES, LINES_OF_ANY, LINES_OF_ANY, CLOSE_LINES, 2, 2},
        {CLOSE_LINES, CLOSE_HEADINGS, LINES_OF_CARE, LINES_OF_CARE, CLOSE_HEADINGS, 2, 2},
        {CLOSE_LINES, CLOSE_LISTS, LINES_OF_CARE, LINES_RUN_ON, CLOSE_LINES, 2, 1},
        {CLOSE_LINES, CLOSE_BOXES, LINES_OF_CARE, LINES_RUN_ON, CLOSE_LINES, 2, 2},
        {CLOSE_RUN_ON, CLOSE_RUN_ON, LINES_OF_CARE, LINES_OF_CARE, CLOSE_RUN_ON, 3, 3},
        {CLOSE_LINES, CLOSE_LINES, LINES_RUN_ON, LINES_RUN_ON, CLOSE_LINES, 2, 2},
        {CLOSE_LINES, CLOSE_LINES, LINES_OF_CARE, LINES_OF_CARE, CLOSE_LINES, 1, 2},
        {CLOSE_LINES, CLOSE_LINES, LINES_OF_CARE, LINES_RUN_ON, CLOSE_LINES, 1, 1},
        {CLOSE_AS_USUAL, CLOSE_AS_USUAL, LINES_OF_CARE, LINES_RUN_ON, CLOSE_AS_USUAL, 2, 2},
    };
    static const struct medicine_plan medicines[3];
    static const struct procedure_plan procedures[] = {{.code = "a"}, {.code = "b"}, {.code = "c"}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        plan.medicines = medicines;
        plan.medicine_count = rows[i].medicines;
        plan.procedures = procedures;
        plan.procedure_count = rows[i].procedures;
        scene.least[0] = rows[i].without;
        scene.closeness = rows[i].with;
        scene.lines = rows[i].room;
        room.later = room_for_lines;
        const struct compose_inputs *is = lay();
        ck_assert_msg((int)is->lines == rows[i].said && is->closeness == rows[i].stands,
                      "row %d: lines %d, closeness %d", i, (int)is->lines, (int)is->closeness);
    }
}
END_TEST

/* ---- what stands beside a medicine ---- */

/* Pages that need so many sections in brief, and as close as lines, for what stands there in any
 * case, and more for what stands beside a medicine, whatever of it. */
static bool room_for_medicines(const struct compose_inputs *in, size_t further)
{
    const bool says = in->medicines > MEDICINES_BARE;
    ck_assert_uint_ge(scene.further, further); /* no page is asked for */
    /* nor room for all that had none for less */
    ck_assert(in->medicines < MEDICINES_ALL || scene.medicines >= MEDICINES_COURSE);
    return in->brief_count >= (says ? scene.brief_of_medicines : scene.brief) &&
           in->closeness >= (says ? scene.closeness : CLOSE_AS_USUAL) &&
           in->medicines <= scene.medicines;
}

/* Of what may be said in brief, so many before the findings say the same in less room. That is done
 * for a medicine; where findings are in brief already all of it is, and then lists go close. */
static const struct medicine_row {
    size_t harmless, brief, brief_of_medicines;
    enum closeness closeness;
    enum medicines_say room, said;
    size_t said_brief;
    enum closeness said_closeness;
} medicine_rows[] = {
    {1, 0, 0, CLOSE_AS_USUAL, MEDICINES_ALL, MEDICINES_ALL, 0, CLOSE_AS_USUAL},
    {1, 0, 0, CLOSE_AS_USUAL, MEDICINES_COURSE, MEDICINES_COURSE, 0, CLOSE_AS_USUAL},
    {1, 0, 0, CLOSE_AS_USUAL, MEDICINES_PURPOSE, MEDICINES_PURPOSE, 0, CLOSE_AS_USUAL},
    {1, 0, 0, CLOSE_AS_USUAL, MEDICINES_BARE, MEDICINES_BARE, 0, CLOSE_AS_USUAL},
    {1, 0, 1, CLOSE_AS_USUAL, MEDICINES_ALL, MEDICINES_ALL, 1, CLOSE_AS_USUAL},
    {1, 0, 1, CLOSE_AS_USUAL, MEDICINES_PURPOSE, MEDICINES_PURPOSE, 1, CLOSE_AS_USUAL},
    {1, 0, 2, CLOSE_AS_USUAL, MEDICINES_ALL, MEDICINES_BARE, 0, CLOSE_AS_USUAL},
    {2, 0, 2, CLOSE_AS_USUAL, MEDICINES_ALL, MEDICINES_ALL, 2, CLOSE_AS_USUAL},
    {1, 1, 2, CLOSE_AS_USUAL, MEDICINES_ALL, MEDICINES_BARE, 1, CLOSE_AS_USUAL},
    {1, 2, 3, CLOSE_AS_USUAL, MEDICINES_ALL, MEDICINES_ALL, 3, CLOSE_AS_USUAL},
    {0, 0, 1, CLOSE_AS_USUAL, MEDICINES_ALL, MEDICINES_BARE, 0, CLOSE_AS_USUAL},
    {3, 0, 3, CLOSE_AS_USUAL, MEDICINES_ALL, MEDICINES_ALL, 3, CLOSE_AS_USUAL},
    {3, 0, 3, CLOSE_LINES, MEDICINES_ALL, MEDICINES_ALL, 3, CLOSE_LINES},
    {1, 2, 3, CLOSE_LINES, MEDICINES_COURSE, MEDICINES_COURSE, 3, CLOSE_LINES},
    {2, 0, 2, CLOSE_LINES, MEDICINES_ALL, MEDICINES_BARE, 0, CLOSE_AS_USUAL},
    {3, 0, 3, CLOSE_EDGES, MEDICINES_ALL, MEDICINES_BARE, 0, CLOSE_AS_USUAL},
};

static void set_medicines(const struct medicine_row *row)
{
    again();
    plan.medicine_count = 1;
    if (row->harmless < BRIEF_SECTIONS)
        sections[row->harmless].value = SECTION_FINDINGS;
    scene.brief = row->brief;
    scene.brief_of_medicines = row->brief_of_medicines;
    scene.closeness = row->closeness;
    scene.medicines = row->room;
    room.later = room_for_medicines;
}

START_TEST(what_a_medicine_is_for_stands_where_there_is_room)
{
    for (int i = 0; i < COUNT(medicine_rows); i++) {
        const struct medicine_row *row = &medicine_rows[i];
        set_medicines(row);
        const struct compose_inputs *is = lay();
        ck_assert_msg(is->medicines == row->said && is->brief_count == row->said_brief &&
                          is->closeness == row->said_closeness && is->moves_up == 0 &&
                          is->steps_most == 3 && !is->to_edges && is->whys == 7,
                      "row %d: says %d, %zu in brief, closeness %d", i, (int)is->medicines,
                      is->brief_count, (int)is->closeness);
        ck_assert_uint_eq(laid_count, 1);
        set_medicines(row); /* nobody has a medicine */
        plan.medicine_count = 0;
        is = lay();
        ck_assert_int_eq(is->medicines, MEDICINES_BARE);
        ck_assert_uint_eq(is->brief_count, row->brief);
        ck_assert_int_eq(is->closeness, CLOSE_AS_USUAL);
    }
}
END_TEST

/* Lists that went close for it open again, first those that are looked up in a fright. */
static bool lists_but_one(const struct compose_inputs *in, size_t further)
{
    (void)further;
    size_t opened = 0;
    for (size_t i = 0; i < sizeof groups / sizeof *groups; i++)
        opened += in->opened[groups[i].sections[0]] > 0;
    return in->medicines == MEDICINES_BARE ||
           (in->closeness >= CLOSE_LINES && opened <= scene.units);
}

START_TEST(what_went_close_for_a_medicine_opens_again)
{
    for (size_t units = 0; units <= 2; units++) {
        again();
        plan.medicine_count = 1;
        scene.units = units;
        room.later = lists_but_one;
        const struct compose_inputs *is = lay();
        ck_assert_int_eq(is->medicines, MEDICINES_ALL);
        ck_assert_int_eq(is->closeness, CLOSE_LINES);
        ck_assert_int_eq(is->opened[SECTION_CALLS], units > 0);
        ck_assert_int_eq(is->opened[SECTION_NOW_HERE], units > 1);
        ck_assert_int_eq(is->opened[SECTION_MEDICINE_BOXES], 0);
    }
}
END_TEST

/* A sheet of further pages says it where those have room. */
static bool room_further(const struct compose_inputs *in, size_t further)
{
    return further >= 1 && in->medicines <= scene.medicines;
}

START_TEST(a_further_page_says_what_a_medicine_is_for)
{
    for (int says = MEDICINES_BARE; says < MEDICINES_SAY_COUNT; says++) {
        again();
        plan.medicine_count = 1;
        scene.medicines = (enum medicines_say)says;
        room.later = room_further;
        const struct compose_inputs *is = lay();
        ck_assert_int_eq(is->medicines, says);
        ck_assert_int_eq(is->closeness, CLOSE_AS_USUAL);
        ck_assert_uint_eq(is->brief_count, 0);
    }
}
END_TEST

/* ---- errors ---- */

/* ---- pictures ---- */

static enum cuts_shown most_cuts;       /* for which there is room */
static enum medicines_say words_beside; /* the most that medicines say beside them */

static bool room_for_cuts(const struct compose_inputs *in, size_t further)
{
    (void)further;
    return in->cuts <= most_cuts && (in->cuts == CUTS_NONE || in->medicines <= words_beside);
}

/* As many and as large as there is room for, but never in the place of what a medicine is for; that
 * each dose is given gives way to them. */
START_TEST(pictures_take_room_and_no_use)
{
    static const struct {
        enum cuts_shown room;
        enum medicines_say beside;
        bool has_way;
        enum cuts_shown shown;
        enum medicines_say says;
    } rows[] = {
        {CUTS_NONE, MEDICINES_ALL, true, CUTS_NONE, MEDICINES_ALL},
        {CUTS_OTHERS, MEDICINES_ALL, true, CUTS_OTHERS, MEDICINES_ALL},
        {CUTS_MEDICINES, MEDICINES_ALL, true, CUTS_MEDICINES, MEDICINES_ALL},
        {CUTS_SMALL, MEDICINES_ALL, true, CUTS_SMALL, MEDICINES_ALL},
        {CUTS_LARGE, MEDICINES_ALL, true, CUTS_LARGE, MEDICINES_ALL},
        {CUTS_LARGE, MEDICINES_COURSE, true, CUTS_LARGE, MEDICINES_COURSE},
        {CUTS_LARGE, MEDICINES_PURPOSE, true, CUTS_LARGE, MEDICINES_PURPOSE},
        {CUTS_LARGE, MEDICINES_BARE, true, CUTS_NONE, MEDICINES_ALL},
        /* nothing is done with hands */
        {CUTS_LARGE, MEDICINES_ALL, false, CUTS_NONE, MEDICINES_ALL},
    };
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        plan.medicine_count = 1;
        medicine = (struct medicine_plan){.has_way = rows[i].has_way, .way = ROUTE_BY_MOUTH};
        most_cuts = rows[i].room;
        words_beside = rows[i].beside;
        room.later = room_for_cuts;
        const struct compose_inputs *is = lay();
        ck_assert_msg(is->cuts == rows[i].shown, "%d: %d", i, is->cuts);
        ck_assert_int_eq(is->medicines, rows[i].says);
        medicine = (struct medicine_plan){.has_way = false};
    }
}
END_TEST

/* Where headings lead in, for lines; where they do not, for findings as they are with room. */
static bool room_for_findings_or_lines(const struct compose_inputs *in, size_t further)
{
    (void)further;
    for (int i = 0; i < SECTION_COUNT; i++)
        if (in->opened[i] && (int)group_of(i) != scene.lines)
            return false;
    return in->closeness >= (in->lines ? CLOSE_HEADINGS : CLOSE_LINES);
}

START_TEST(no_finding_is_told_less_for_a_line)
{
    static const struct medicine_plan medicines[2];
    static const enum sheet_section_code opens[] = {SECTION_FINDINGS, SECTION_FOOD};
    for (int i = 0; i < COUNT(opens); i++) {
        again();
        plan.medicines = medicines;
        plan.medicine_count = 2;
        scene.lines = (int)group_of(opens[i]);
        room.later = room_for_findings_or_lines;
        const struct compose_inputs *is = lay();
        ck_assert_int_eq(is->lines, i == 0 ? LINES_RUN_ON : LINES_OF_ANY);
        ck_assert_int_eq(is->closeness, i == 0 ? CLOSE_LINES : CLOSE_HEADINGS);
    }
}
END_TEST

static bool room_for_cuts_or_lines(const struct compose_inputs *in, size_t further)
{
    (void)further;
    return in->closeness >= CLOSE_RUN_ON && no_opened(in) &&
           !(in->cuts > CUTS_NONE && in->lines > LINES_RUN_ON);
}

START_TEST(a_medicine_begins_a_line_before_it_has_a_picture)
{
    static const struct medicine_plan medicines[] = {{.has_way = true, .way = ROUTE_BY_MOUTH},
                                                     {.has_way = true, .way = ROUTE_IN_THE_EYE}};
    plan.medicines = medicines;
    plan.medicine_count = 2;
    room.later = room_for_cuts_or_lines;
    const struct compose_inputs *is = lay();
    ck_assert_int_eq(is->lines, LINES_OF_ANY);
    ck_assert_int_eq(is->cuts, CUTS_NONE);
}
END_TEST

/* Pictures beside the medicines alone, and none where more than the least is said of these. */
static size_t tried_with_cuts, tried_large;

static bool room_for_medicine_cuts(const struct compose_inputs *in, size_t further)
{
    (void)further;
    tried_with_cuts += in->cuts == CUTS_MEDICINES && in->medicines == MEDICINES_BARE;
    tried_large += in->cuts == CUTS_LARGE;
    return in->closeness >= CLOSE_HEADINGS && no_opened(in) &&
           (in->cuts == CUTS_NONE ||
            (in->cuts == CUTS_MEDICINES && in->medicines == MEDICINES_BARE));
}

/* Those that cost a word are tried once and open nothing, and large ones are not tried where small
 * ones had no room. */
START_TEST(no_pictures_are_tried_in_vain)
{
    plan.medicine_count = 1;
    medicine = (struct medicine_plan){.has_way = true, .way = ROUTE_BY_MOUTH};
    tried_with_cuts = tried_large = 0;
    room.later = room_for_medicine_cuts;
    const struct compose_inputs *is = lay();
    ck_assert_int_eq(is->cuts, CUTS_NONE);
    ck_assert_int_eq(is->medicines, MEDICINES_ALL);
    ck_assert_uint_eq(tried_with_cuts, 1);
    ck_assert_uint_eq(tried_large, 0);
    medicine = (struct medicine_plan){.has_way = false};
}
END_TEST

static bool is_list_open(const struct compose_inputs *in, enum sheet_section_code section)
{
    return in->closeness - in->opened[section] < CLOSE_PARAGRAPHS;
}

/* As paragraphs on two pages, but for a list that may open; in any way with a page more. */
static bool room_for_paragraphs(const struct compose_inputs *in, size_t further)
{
    if (further > 0)
        return true;
    return in->closeness >= CLOSE_PARAGRAPHS &&
           (scene.lines == SECTION_NOW_HERE || !is_list_open(in, SECTION_NOW_HERE)) &&
           (scene.lines == SECTION_CALLS || !is_list_open(in, SECTION_CALLS));
}

/* One list among paragraphs is found on two pages, and so are few signs; else a third page takes
 * both. */
START_TEST(a_third_page_takes_two_lists_that_were_paragraphs)
{
    static const int opens[] = {SECTION_COUNT, SECTION_NOW_HERE, SECTION_CALLS};
    static struct warning signs[12];
    for (int i = 0; i < COUNT(signs); i++)
        signs[i].tier = TIER_TODAY;
    for (int i = 0; i < COUNT(opens) + 1; i++) {
        again();
        plan.warnings = signs;
        plan.warning_count = i < COUNT(opens) ? COUNT(signs) : COUNT(signs) - 1;
        scene.lines = opens[i % COUNT(opens)];
        room.later = room_for_paragraphs;
        const struct compose_inputs *is = lay();
        if (i == 0)
            ck_assert_int_lt(is->closeness, CLOSE_PARAGRAPHS);
        else
            ck_assert_int_ge(is->closeness, CLOSE_PARAGRAPHS);
        ck_assert(is_list_open(is, SECTION_NOW_HERE) == (i < 2));
        ck_assert(is_list_open(is, SECTION_CALLS) == (i == 0 || i == 2));
    }
}
END_TEST

START_TEST(no_fault_is_passed_over)
{
    for (int i = 0; i < COUNT(medicine_rows); i++) {
        set_medicines(&medicine_rows[i]);
        fail_each_time();
    }
    again();
    plan.medicine_count = 1;
    scene.units = 1;
    room.later = lists_but_one;
    fail_each_time();
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("openings");
    TCase *tcase = tcase_create("openings");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, what_has_room_opens_again);
    tcase_add_test(tcase, what_is_needed_first_opens_first);
    tcase_add_test(tcase, what_a_medicine_is_for_is_said_before_lists_stand_apart);
    tcase_add_test(tcase, each_medicine_begins_a_line);
    tcase_add_test(tcase, what_a_medicine_is_for_stands_where_there_is_room);
    tcase_add_test(tcase, what_went_close_for_a_medicine_opens_again);
    tcase_add_test(tcase, a_further_page_says_what_a_medicine_is_for);
    tcase_add_test(tcase, pictures_take_room_and_no_use);
    tcase_add_test(tcase, no_finding_is_told_less_for_a_line);
    tcase_add_test(tcase, a_medicine_begins_a_line_before_it_has_a_picture);
    tcase_add_test(tcase, no_pictures_are_tried_in_vain);
    tcase_add_test(tcase, a_third_page_takes_two_lists_that_were_paragraphs);
    tcase_add_test(tcase, no_fault_is_passed_over);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
