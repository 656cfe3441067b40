/* What a sheet gives up for its pages, held against pages whose room is known: those of room.h say
 * of each trial whether they take it. A sheet says all that there is room for, gives up no more
 * than the room asks for, and what gives way last is given up last. */
#include <string.h>

#include "common/suite.h"
#include "render/room.h"

/* ---- page one
 * ------------------------------------------------------------------------------------ */

START_TEST(says_everything_where_there_is_room)
{
    const struct compose_inputs *is = lay();
    ck_assert_int_eq(is->message, MESSAGE_FULL);
    ck_assert_uint_eq(is->whys, 7);
    ck_assert(is->says_key);
    ck_assert_uint_eq(is->steps_most, 3);
    ck_assert(!is->wide);
    ck_assert(!is->to_edges);
    ck_assert(!is->without_normal);
    ck_assert_uint_eq(is->moves_up, 0);
    ck_assert_uint_eq(is->brief_count, 0);
    ck_assert_int_eq(is->closeness, CLOSE_AS_USUAL);
    ck_assert_uint_eq(laid_count, 1);
    for (int i = 0; i < SECTION_COUNT; i++)
        ck_assert_int_eq(is->opened[i], 0);
}
END_TEST

static bool one_message(const struct compose_inputs *in)
{
    return in->message == scene.message && (in->whys & ~scene.whys) == 0;
}

/* Of room for one message and for the reasons of some rows (a bit a row, the first is 1): the
 * reasons that stand there. The shortest message and that of all that is wrong go with any; beside
 * a second finding and what is wrong at home the first row's reason goes before the others', and
 * the whole message leaves none out. */
static const struct reasons {
    enum message_says message;
    unsigned room, said;
} reasons[] = {
    {MESSAGE_FULL, 7, 7},  {MESSAGE_NAMES, 7, 7}, {MESSAGE_NAMES, 3, 3}, {MESSAGE_NAMES, 1, 1},
    {MESSAGE_NAMES, 5, 1}, {MESSAGE_NAMES, 2, 0}, {MESSAGE_NAMES, 4, 0}, {MESSAGE_NAMES, 6, 0},
    {MESSAGE_NAMES, 0, 0}, {MESSAGE_TWO, 7, 7},   {MESSAGE_TWO, 3, 3},   {MESSAGE_TWO, 5, 1},
    {MESSAGE_TWO, 1, 1},   {MESSAGE_TWO, 4, 4},   {MESSAGE_TWO, 6, 4},   {MESSAGE_TWO, 2, 0},
    {MESSAGE_TWO, 0, 0},   {MESSAGE_ILLS, 7, 7},  {MESSAGE_ILLS, 3, 3},  {MESSAGE_ILLS, 5, 5},
    {MESSAGE_ILLS, 1, 1},  {MESSAGE_ILLS, 6, 6},  {MESSAGE_ILLS, 2, 2},  {MESSAGE_ILLS, 4, 4},
    {MESSAGE_ILLS, 0, 0},  {MESSAGE_BRIEF, 7, 7}, {MESSAGE_BRIEF, 3, 3}, {MESSAGE_BRIEF, 5, 5},
    {MESSAGE_BRIEF, 1, 1}, {MESSAGE_BRIEF, 6, 6}, {MESSAGE_BRIEF, 2, 2}, {MESSAGE_BRIEF, 4, 4},
    {MESSAGE_BRIEF, 0, 0},
};

START_TEST(page_one_says_what_it_has_room_for)
{
    for (int i = 0; i < COUNT(reasons); i++) {
        again();
        scene.message = reasons[i].message;
        scene.whys = reasons[i].room;
        room.first = one_message;
        const struct compose_inputs *is = lay();
        ck_assert_msg((int)is->message == (int)reasons[i].message && is->whys == reasons[i].said &&
                          is->says_key && is->steps_most == 3 && !is->wide && !is->to_edges,
                      "row %d: message %d, whys %u", i, (int)is->message, is->whys);
    }
}
END_TEST

static bool few_reasons(const struct compose_inputs *in)
{
    return (in->whys & ~scene.whys) == 0;
}

/* Where any message has room and reasons have little: the longest message that goes with the first
 * row's reason; of two reasons behind the first row's the message of what is wrong. */
START_TEST(the_message_is_as_long_as_the_reasons_allow)
{
    static const struct {
        unsigned room;
        enum message_says message;
        unsigned said;
    } rows[] = {{7, MESSAGE_FULL, 7},  {3, MESSAGE_NAMES, 3}, {1, MESSAGE_NAMES, 1},
                {5, MESSAGE_NAMES, 1}, {6, MESSAGE_ILLS, 6},  {0, MESSAGE_NAMES, 0}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        scene.whys = rows[i].room;
        room.first = few_reasons;
        const struct compose_inputs *is = lay();
        ck_assert_int_eq(is->message, rows[i].message);
        ck_assert_uint_eq(is->whys, rows[i].said);
    }
}
END_TEST

static bool one_shape(const struct compose_inputs *in)
{
    return says_nothing_beside(in) && in->steps_most == STEPS_MOST - scene.rows_less &&
           in->wide == scene.wide && in->to_edges == scene.to_edges;
}

/* Rows are kept before the shape of the page is: each shape that page one may have is found where
 * it is the only one that has room. */
START_TEST(each_shape_of_page_one_is_found)
{
    static const struct {
        size_t rows_less;
        bool wide, to_edges;
    } rows[] = {{0, false, false}, {0, true, false}, {0, false, true}, {0, true, true},
                {1, false, true},  {1, true, true},  {2, false, true}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        scene.rows_less = rows[i].rows_less;
        scene.wide = rows[i].wide;
        scene.to_edges = rows[i].to_edges;
        room.first = one_shape;
        const struct compose_inputs *is = lay();
        ck_assert_msg(one_shape(is), "row %d: %zu rows, %d %d", i, is->steps_most, is->wide,
                      is->to_edges);
        ck_assert_uint_eq(laid_count, 1);
    }
}
END_TEST

static bool roomy_shape(const struct compose_inputs *in)
{
    return says_nothing_beside(in) &&
           (in->wide || in->to_edges || in->steps_most + scene.rows_less <= STEPS_MOST);
}

START_TEST(the_drawing_gives_way_before_the_edges_and_those_before_a_row)
{
    scene.rows_less = 1;
    room.first = roomy_shape;
    const struct compose_inputs *is = lay();
    ck_assert_uint_eq(is->steps_most, 3);
    ck_assert(is->wide);
    ck_assert(!is->to_edges);
}
END_TEST

static bool only_further(const struct compose_inputs *in, size_t further)
{
    return further > 0 && in->closeness >= CLOSE_LINES;
}

static bool nothing(const struct compose_inputs *in)
{
    (void)in;
    return false;
}

/* One row stays, whatever the room. */
START_TEST(a_page_one_without_room_keeps_a_row)
{
    room.first = nothing;
    const struct compose_inputs *is = lay();
    ck_assert_uint_eq(is->steps_most, 1);
    ck_assert(is->to_edges);
    ck_assert(says_nothing_beside(is));
}
END_TEST

/* No further page helps a page one that has no room, so nothing is set closer for one. */
START_TEST(a_page_one_without_room_sets_the_others_no_closer)
{
    room.first = nothing;
    room.later = only_further;
    const struct compose_inputs *is = lay();
    ck_assert_uint_eq(is->brief_count, 0);
    ck_assert_int_eq(is->closeness, CLOSE_AS_USUAL);
}
END_TEST

/* ---- the later pages
 * ------------------------------------------------------------------------------ */

static bool brief_enough(const struct compose_inputs *in, size_t further)
{
    (void)further;
    return in->brief_count >= scene.brief;
}

START_TEST(no_more_is_said_in_brief_than_there_is_no_room_for)
{
    for (size_t brief = 0; brief <= BRIEF_SECTIONS; brief++) {
        again();
        scene.brief = brief;
        room.later = brief_enough;
        const struct compose_inputs *is = lay();
        ck_assert_uint_eq(is->brief_count, brief);
        ck_assert_int_eq(is->closeness, CLOSE_AS_USUAL);
    }
}
END_TEST

static bool close_enough(const struct compose_inputs *in, size_t further)
{
    return further >= scene.further && in->closeness >= scene.closeness && no_opened(in) &&
           (scene.closeness < CLOSE_EDGES || in->to_edges || in->closeness < CLOSE_EDGES ||
            further);
}

START_TEST(a_sheet_is_set_no_closer_than_it_must_be)
{
    for (int closeness = CLOSE_LINES; closeness < CLOSENESS_COUNT; closeness++) {
        again();
        scene.closeness = (enum closeness)closeness;
        room.later = close_enough;
        const struct compose_inputs *is = lay();
        ck_assert_int_eq(is->closeness, closeness);
        ck_assert_uint_eq(is->brief_count, BRIEF_SECTIONS);
        ck_assert_int_eq(is->to_edges, closeness >= CLOSE_EDGES);
        ck_assert_uint_eq(is->moves_up, 0);
        ck_assert_uint_eq(is->steps_most, 3);
        ck_assert(!is->without_normal);
        ck_assert(!is->wide);
        ck_assert_uint_eq(is->whys, 7);
    }
}
END_TEST

/* With all the paper that a printer reaches page one has room for its third row again. */
static bool three_rows_to_the_edges(const struct compose_inputs *in)
{
    return in->steps_most <= (in->closeness >= CLOSE_EDGES ? 3u : 2u);
}

START_TEST(a_row_comes_back_with_the_paper_to_its_edges)
{
    for (int closeness = CLOSE_LINES; closeness <= CLOSE_EDGES; closeness++) {
        again();
        scene.closeness = (enum closeness)closeness;
        room.first = three_rows_to_the_edges;
        room.later = close_enough;
        const struct compose_inputs *is = lay();
        ck_assert_int_eq(is->closeness, closeness);
        ck_assert_uint_eq(is->steps_most, closeness == CLOSE_EDGES ? 3 : 2);
    }
}
END_TEST

/* How close a section may stand at the most. */
static bool each_close_enough(const struct compose_inputs *in, size_t further)
{
    for (int i = 0; i < SECTION_COUNT && !further; i++)
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

/* ---- what page one takes of the later pages
 * ------------------------------------------------------- */

/* Page one, which has taken something, takes this and no more, when it gave up as much. */
static bool takes_up(const struct compose_inputs *in)
{
    return !in->moves_up ||
           ((in->moves_up & ~scene.moves) == 0 && (!scene.bare || says_nothing_beside(in)) &&
            in->steps_most <= STEPS_MOST - scene.rows_less);
}

/* The later ones need that gone, and what is normal for the animal. */
static bool without_what_moved(const struct compose_inputs *in, size_t further)
{
    (void)further;
    return (scene.moves & ~in->moves_up) == 0 && (!scene.without_normal || in->without_normal) &&
           in->closeness >= scene.closeness && no_opened(in);
}

static void set_upward(const struct upward_row *row)
{
    scene.moves = row->moves;
    scene.bare = row->bare;
    scene.rows_less = row->rows_less;
    scene.without_normal = row->without_normal;
    scene.is_told_apart = true;
    room.first = takes_up;
    room.later = without_what_moved;
}

START_TEST(page_one_takes_what_it_must_and_gives_up_no_more)
{
    for (int i = 0; i < COUNT(upward_rows); i++) {
        const struct upward_row *row = &upward_rows[i];
        /* a row goes, and what is normal, when all else that is closer has been given up */
        const int least = row->rows_less        ? CLOSE_RUN_ON
                          : row->without_normal ? CLOSE_BOXES
                                                : CLOSE_LINES;
        for (int closeness = CLOSE_LINES; closeness < CLOSENESS_COUNT; closeness++) {
            again();
            set_upward(row);
            scene.closeness = (enum closeness)closeness;
            const struct compose_inputs *is = lay();
            ck_assert_msg(is->moves_up == row->moves && says_nothing_beside(is) == row->bare &&
                              is->wide == row->bare &&
                              is->steps_most == STEPS_MOST - row->rows_less &&
                              is->without_normal == row->without_normal &&
                              (int)is->closeness == (closeness > least ? closeness : least),
                          "row %d at %d: moves %u, message %d, %zu rows, normal %d, closeness %d",
                          i, closeness, is->moves_up, (int)is->message, is->steps_most,
                          !is->without_normal, (int)is->closeness);
            ck_assert_uint_eq(laid_count, 1);
        }
    }
}
END_TEST

/* Page one has room for its rows' reasons beside what moved up, and not for a longer message. */
static bool takes_up_briefly(const struct compose_inputs *in)
{
    return !in->moves_up || in->message == MESSAGE_BRIEF;
}

START_TEST(page_one_says_again_what_there_is_room_for)
{
    scene.moves = CAUTIONS;
    room.first = takes_up_briefly;
    room.later = without_what_moved;
    const struct compose_inputs *is = lay();
    ck_assert_uint_eq(is->moves_up, CAUTIONS);
    ck_assert_int_eq(is->message, MESSAGE_BRIEF);
    ck_assert_uint_eq(is->whys, 7);
    ck_assert(is->says_key);
}
END_TEST

/* In the order in which compose.h has them. */
START_TEST(what_moves_up_has_a_bit_each)
{
    ck_assert_uint_eq(SOURCES, 1u << 0);
    ck_assert_uint_eq(CAUTIONS, 1u << 1);
    ck_assert_uint_eq(DATES, 1u << 2);
    ck_assert_uint_eq(SIGNATURE, 1u << 3);
}
END_TEST

/* A place that is too hot is cooled on page one, which is why its row stays there. */
START_TEST(the_row_that_cools_a_place_stays_on_page_one)
{
    static const struct {
        bool has_place;
        int place;
        enum verdict verdict;
        size_t steps;
        bool stays;
    } rows[] = {
        {true, MEASURE_WARM_SIDE, VERDICT_TOO_HIGH, 3, true},
        {true, MEASURE_WARM_SIDE, VERDICT_TOO_HIGH, 4, true},
        {true, MEASURE_WARM_SIDE, VERDICT_TOO_HIGH, 2, false},
        {true, MEASURE_WARM_SIDE, VERDICT_TOO_LOW, 3, false},
        {true, MEASURE_WARM_SIDE, VERDICT_IN_RANGE, 3, false},
        {false, MEASURE_WARM_SIDE, VERDICT_TOO_HIGH, 3, false},
        {true, MEASURE_UVB, VERDICT_TOO_HIGH, 3, false},
        {true, MEASURE_COUNT, VERDICT_TOO_HIGH, 3, false},
    };
    static const struct upward_row row = {SOURCES | CAUTIONS, true, 1, false};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        set_upward(&row);
        plan.action_count = rows[i].steps;
        steps[2] = (struct step_plan){.has_place = rows[i].has_place, .place = rows[i].place};
        if (rows[i].place < MEASURE_COUNT)
            plan.measured[rows[i].place].verdict = rows[i].verdict;
        const struct compose_inputs *is = lay();
        ck_assert_msg(is->steps_most == (rows[i].stays ? 3 : 2), "row %d", i);
        ck_assert_msg((is->moves_up == 0) == rows[i].stays, "row %d", i);
    }
}
END_TEST

/* Two rows stay on page one at least: where it has room for two, none goes for what moves up. */
static bool two_rows_and_what_moved(const struct compose_inputs *in)
{
    return in->steps_most <= 2 && takes_up(in);
}

START_TEST(page_one_keeps_two_rows)
{
    static const struct upward_row row = {SOURCES | CAUTIONS, true, 2, false};
    set_upward(&row);
    scene.is_told_apart = false;
    room.first = two_rows_and_what_moved;
    const struct compose_inputs *is = lay();
    ck_assert_uint_eq(is->steps_most, 2);
    ck_assert_uint_eq(is->moves_up, 0);
    scene.rows_less = 1; /* but what needs no row moves up beside two */
    is = lay();
    ck_assert_uint_eq(is->steps_most, 2);
    ck_assert_uint_eq(is->moves_up, SOURCES | CAUTIONS);
}
END_TEST

/* ---- a further page
 * ------------------------------------------------------------------------------- */

static size_t three_pages(const struct compose_inputs *in)
{
    (void)in;
    return PAGES + 1;
}

START_TEST(a_further_page_is_filled_before_anything_is_set_close)
{
    for (int closeness = CLOSE_LINES; closeness < CLOSENESS_COUNT; closeness++) {
        again();
        scene.further = 1;
        scene.closeness = (enum closeness)closeness;
        room.later = close_enough;
        room.pages = three_pages;
        const struct compose_inputs *is = lay();
        ck_assert_int_eq(is->closeness, closeness);
        ck_assert_uint_eq(is->brief_count, BRIEF_SECTIONS);
        ck_assert(!is->to_edges);
        ck_assert_uint_eq(is->moves_up, 0);
        ck_assert_uint_eq(tried_up, 0); /* with all of it moved up they had no room either */
        ck_assert_uint_eq(laid_count, 1);
    }
}
END_TEST

static bool brief_enough_further(const struct compose_inputs *in, size_t further)
{
    return further >= scene.further && in->brief_count >= scene.brief;
}

START_TEST(a_further_page_says_in_full_what_it_can)
{
    for (size_t brief = 0; brief <= BRIEF_SECTIONS; brief++) {
        again();
        scene.further = 1;
        scene.brief = brief;
        room.later = brief_enough_further;
        room.pages = three_pages;
        const struct compose_inputs *is = lay();
        ck_assert_uint_eq(is->brief_count, brief);
        ck_assert_int_eq(is->closeness, CLOSE_AS_USUAL);
        ck_assert(no_opened(is));
    }
}
END_TEST

static bool to_edges_further(const struct compose_inputs *in, size_t further)
{
    return further >= 1 && in->to_edges && in->closeness >= scene.closeness && no_opened(in);
}

/* Paper to its edges is used where a further page asks for it alone. */
START_TEST(a_further_page_uses_the_edges_where_it_must)
{
    scene.closeness = CLOSE_HEADINGS;
    room.later = to_edges_further;
    room.pages = three_pages;
    const struct compose_inputs *is = lay();
    ck_assert(is->to_edges);
    ck_assert_int_eq(is->closeness, CLOSE_HEADINGS);
}
END_TEST

/* And page one says again what the paper's edges have room for. */
static bool more_to_the_edges(const struct compose_inputs *in)
{
    return in->message != MESSAGE_FULL && (in->to_edges || (in->whys & ~3u) == 0);
}

START_TEST(edges_that_are_used_leave_page_one_room)
{
    scene.closeness = CLOSE_HEADINGS;
    room.first = more_to_the_edges;
    room.later = to_edges_further;
    room.pages = three_pages;
    const struct compose_inputs *is = lay();
    ck_assert(is->to_edges);
    ck_assert_int_eq(is->message, MESSAGE_NAMES);
    ck_assert_uint_eq(is->whys, 7);
}
END_TEST

/* ---- sheets whose text runs on
 * -------------------------------------------------------------------- */

static size_t shorter_in_brief(const struct compose_inputs *in)
{
    return in->brief_count >= scene.brief && in->closeness >= scene.closeness ? PAGES : PAGES + 1;
}

static void run_on(void)
{
    again();
    sheet.sections = list_of(running, PAGES);
    room.pages = shorter_in_brief;
}

START_TEST(running_text_is_as_full_as_its_pages_allow)
{
    for (size_t brief = 0; brief <= BRIEF_SECTIONS; brief++) {
        run_on();
        scene.brief = brief;
        const struct compose_inputs *is = lay();
        ck_assert_uint_eq(is->brief_count, brief);
        ck_assert_int_eq(is->closeness, CLOSE_AS_USUAL);
        ck_assert(is->message == MESSAGE_FULL && is->whys == 7 && is->says_key);
        ck_assert_uint_eq(trials, 0);
        ck_assert_uint_le(laid_count, 4); /* at once, in brief, and two halvings of the three */
    }
    for (int closeness = CLOSE_LINES; closeness < CLOSENESS_COUNT; closeness++) {
        run_on();
        scene.closeness = (enum closeness)closeness;
        const struct compose_inputs *is = lay();
        ck_assert_uint_eq(is->brief_count, BRIEF_SECTIONS);
        ck_assert_int_eq(is->closeness, closeness);
    }
}
END_TEST

/* Where it takes a page more than it should in any case, no closer than saves one. */
START_TEST(running_text_is_set_no_closer_than_saves_a_page)
{
    run_on();
    sheet.pages.value = 1;
    scene.closeness = CLOSE_HEADINGS;
    ck_assert_int_eq(lay()->closeness, CLOSE_HEADINGS);
}
END_TEST

START_TEST(what_saves_no_page_is_said_in_full)
{
    run_on();
    scene.closeness = CLOSENESS_COUNT;
    const struct compose_inputs *is = lay();
    ck_assert_uint_eq(is->brief_count, 0);
    ck_assert_int_eq(is->closeness, CLOSE_AS_USUAL);
}
END_TEST

/* A kind that says nothing in brief, or nothing at all, is laid once, however long. */
START_TEST(a_kind_without_brief_sections_is_laid_once)
{
    for (int empty = 0; empty < 2; empty++) {
        run_on();
        sheet.in_brief = (struct list){0};
        scene.brief = 1;
        if (empty)
            sheet.sections = (struct list){0};
        lay();
        ck_assert_uint_eq(laid_count, 1);
        ck_assert_uint_eq(trials, 0);
    }
}
END_TEST

static bool never_asked(const struct compose_inputs *in, size_t further)
{
    (void)further;
    ck_abort_msg("closeness %d", (int)in->closeness);
    return false;
}

/* How much room there is is asked of pages that are filled alone, and of as many as the sheet may
 * have. */
START_TEST(room_is_asked_of_filled_pages_alone)
{
    for (int kind = 0; kind < 4; kind++) {
        again();
        room.later = never_asked;
        const struct sheet_section mixed[] = {filled[0], running[0]},
                                   turned[] = {running[0], filled[0]};
        if (kind == 0)
            sheet.sections = list_of(mixed, 2); /* running text behind a filled page */
        if (kind == 1)
            sheet.sections = list_of(turned, 2);
        if (kind == 2)
            sheet.in_brief = (struct list){0};
        if (kind == 3)
            sheet.pages.value = PAGES + 1;
        const struct compose_inputs *is = lay();
        ck_assert_uint_eq(is->brief_count, 0);
        ck_assert_int_eq(is->closeness, CLOSE_AS_USUAL);
        ck_assert_uint_eq(trials, kind == 1 ? 0 : 1); /* page one, if it is filled */
    }
}
END_TEST

/* ---- errors
 * --------------------------------------------------------------------------------------- */

/* Whichever time it is composed a fault comes up, there are no pages. */
static void fail_each_time(void)
{
    struct paged paged = {0};
    lay();
    const size_t times = composed;
    for (fails_at = 1; fails_at <= times; fails_at++) {
        composed = tried_count = laid_count = 0;
        ck_assert_msg(!lay_here(&inputs, &arena, &diag, &paged), "%zu of %zu", fails_at, times);
        ck_assert_uint_eq(composed, fails_at);
    }
}

START_TEST(no_fault_is_passed_over)
{
    room.first = one_shape; /* the last that is tried */
    scene.rows_less = 2;
    scene.to_edges = true;
    fail_each_time();
    again();
    set_upward(&upward_rows[COUNT(upward_rows) - 1]);
    fail_each_time();
    again();
    scene.closeness = CLOSE_LINES;
    room.later = close_enough;
    fail_each_time();
    again();
    scene.further = 1;
    scene.closeness = CLOSE_HEADINGS;
    room.later = to_edges_further;
    room.pages = three_pages;
    fail_each_time();
    again();
    scene.further = 1;
    scene.closeness = CLOSE_LINES;
    room.later = close_enough;
    room.pages = three_pages;
    fail_each_time();
    for (size_t brief = 0; brief <= BRIEF_SECTIONS; brief++) {
        run_on();
        scene.brief = brief;
        fail_each_time();
    }
    run_on();
    scene.closeness = CLOSE_RUN_ON;
    fail_each_time();
}
END_TEST

/* ---- what was asked for
 * --------------------------------------------------------------------------- */

static bool compose_one(struct document *document)
{
    return composed_here(&inputs, &arena, &diag, document);
}

START_TEST(wishes_stand_above_the_plan)
{
    struct document document;
    plan.keeper.units = UNITS_METRIC;
    plan.letterhead.paper = CLINIC_PAPER_A4;
    ck_assert(compose_one(&document));
    ck_assert_int_eq(said.units, UNITS_METRIC);
    ck_assert_int_eq(said.paper, CLINIC_PAPER_A4);
    options.units = "us";
    options.paper = "letter";
    options.live_links = options.is_locked = true;
    ck_assert(compose_one(&document));
    ck_assert_int_eq(said.units, UNITS_US);
    ck_assert_int_eq(said.paper, CLINIC_PAPER_LETTER);
    ck_assert(said.live_links);
    ck_assert(document.is_locked);
    ck_assert_uint_eq(strlen(document.record_id), 32);
    options.paper = "papyrus";
    ck_assert(!compose_one(&document));
    ck_assert(diag_failed(&diag));
}
END_TEST

START_TEST(what_changed_since_it_was_signed_is_named)
{
    struct document document;
    signature.changed[SIGNATURE_SPECIES] = signature.changed[SIGNATURE_CLINIC] = true;
    ck_assert(compose_one(&document));
    ck_assert_uint_eq(said.changed_count, 0);
    signature.is_stale = true;
    ck_assert(compose_one(&document));
    ck_assert_uint_eq(said.changed_count, 2);
    ck_assert_str_eq(said.changed[0], "species");
    ck_assert_str_eq(said.changed[1], "clinic");
}
END_TEST

START_TEST(an_animal_is_named_in_the_sheets_language_or_not_at_all)
{
    struct document document;
    plan.taxon.is_unlisted = false;
    plan.taxon.code = "ours";
    ck_assert(!compose_one(&document));
    ck_assert(diag_failed(&diag));
    plan.taxon.is_unlisted = true;
    ck_assert(compose_one(&document));
    options.language = "xx";
    ck_assert(!compose_one(&document));
    options.language = "en";
    options.kind = "flies";
    ck_assert(!compose_one(&document));
    struct paged paged = {0};
    ck_assert(!lay_here(&inputs, &arena, &diag, &paged));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("render");
    TCase *tcase = tcase_create("render");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, says_everything_where_there_is_room);
    tcase_add_test(tcase, page_one_says_what_it_has_room_for);
    tcase_add_test(tcase, the_message_is_as_long_as_the_reasons_allow);
    tcase_add_test(tcase, each_shape_of_page_one_is_found);
    tcase_add_test(tcase, the_drawing_gives_way_before_the_edges_and_those_before_a_row);
    tcase_add_test(tcase, a_page_one_without_room_keeps_a_row);
    tcase_add_test(tcase, a_page_one_without_room_sets_the_others_no_closer);
    tcase_add_test(tcase, no_more_is_said_in_brief_than_there_is_no_room_for);
    tcase_add_test(tcase, a_sheet_is_set_no_closer_than_it_must_be);
    tcase_add_test(tcase, a_row_comes_back_with_the_paper_to_its_edges);
    tcase_add_test(tcase, what_has_room_opens_again);
    tcase_add_test(tcase, page_one_takes_what_it_must_and_gives_up_no_more);
    tcase_add_test(tcase, page_one_says_again_what_there_is_room_for);
    tcase_add_test(tcase, what_moves_up_has_a_bit_each);
    tcase_add_test(tcase, the_row_that_cools_a_place_stays_on_page_one);
    tcase_add_test(tcase, page_one_keeps_two_rows);
    tcase_add_test(tcase, a_further_page_is_filled_before_anything_is_set_close);
    tcase_add_test(tcase, a_further_page_says_in_full_what_it_can);
    tcase_add_test(tcase, a_further_page_uses_the_edges_where_it_must);
    tcase_add_test(tcase, edges_that_are_used_leave_page_one_room);
    tcase_add_test(tcase, running_text_is_as_full_as_its_pages_allow);
    tcase_add_test(tcase, running_text_is_set_no_closer_than_saves_a_page);
    tcase_add_test(tcase, what_saves_no_page_is_said_in_full);
    tcase_add_test(tcase, a_kind_without_brief_sections_is_laid_once);
    tcase_add_test(tcase, room_is_asked_of_filled_pages_alone);
    tcase_add_test(tcase, no_fault_is_passed_over);
    tcase_add_test(tcase, wishes_stand_above_the_plan);
    tcase_add_test(tcase, what_changed_since_it_was_signed_is_named);
    tcase_add_test(tcase, an_animal_is_named_in_the_sheets_language_or_not_at_all);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
