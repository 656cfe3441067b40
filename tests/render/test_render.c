/* What a sheet gives up for its pages, held against pages whose room is known: those of room.h say
 * of each trial whether they take it. A sheet says all that there is room for, gives up no more
 * than the room asks for, and what gives way last is given up last. */
#include <string.h>

#include "common/suite.h"
#define ROOM_SUITE test_render
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

static bool only_further(const struct compose_inputs *in, size_t further)
{
    return further > 0 && in->closeness >= CLOSE_LINES;
}

static bool nothing(const struct compose_inputs *in)
{
    (void)in;
    return false;
}

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

/* ---- what page one takes of the later pages
 * ------------------------------------------------------- */

/* What of it must move, whether page one gives up what stands beside its rows and a row, and
 * whether what is normal goes: each is found where nothing less would do. */
static const struct upward_row {
    unsigned moves;
    bool bare;
    size_t rows_less;
    bool without_normal;
} upward_rows[] = {
    {SOURCES, false, 0, false},
    {CAUTIONS, false, 0, false},
    {CAUTIONS | SIGNATURE, false, 0, false},
    {SOURCES, true, 0, false},
    {CAUTIONS, true, 0, false},
    {DATES, true, 0, false},
    {SIGNATURE, true, 0, false},
    {SOURCES | CAUTIONS, true, 0, false},
    {SOURCES | SIGNATURE, true, 0, false},
    {CAUTIONS | SIGNATURE, true, 0, false},
    {SOURCES | CAUTIONS | SIGNATURE, true, 0, false},
    {SOURCES | DATES, true, 0, false},
    {CAUTIONS | DATES, true, 0, false},
    {DATES | SIGNATURE, true, 0, false},
    {CAUTIONS | DATES | SIGNATURE, true, 0, false},
    {SOURCES | CAUTIONS | DATES | SIGNATURE, true, 0, false},
    {SOURCES | CAUTIONS, true, 1, false},
    {SOURCES | SIGNATURE, true, 1, false},
    {CAUTIONS | SIGNATURE, true, 1, false},
    {SOURCES | CAUTIONS | SIGNATURE, true, 1, false},
    {SOURCES | DATES, true, 1, false},
    {CAUTIONS | DATES, true, 1, false},
    {DATES | SIGNATURE, true, 1, false},
    {CAUTIONS | DATES | SIGNATURE, true, 1, false},
    {SOURCES | CAUTIONS | DATES | SIGNATURE, true, 1, false},
    {0, false, 0, true},
    {SOURCES, true, 0, true},
    {CAUTIONS, true, 0, true},
    {SIGNATURE, true, 0, true},
    {SOURCES | CAUTIONS, true, 0, true},
    {SOURCES | SIGNATURE, true, 0, true},
    {CAUTIONS | SIGNATURE, true, 0, true},
    {SOURCES | CAUTIONS, true, 1, true},
    {SOURCES | SIGNATURE, true, 1, true},
    {CAUTIONS | SIGNATURE, true, 1, true},
    {SOURCES | DATES, true, 1, true},
    {DATES | SIGNATURE, true, 1, true},
    {CAUTIONS | DATES | SIGNATURE, true, 1, true},
    {SOURCES | CAUTIONS | DATES | SIGNATURE, true, 1, true},
};

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

/* A word that a row's reason brings is explained on a later page, which has no room for it. */
static bool without_more_words(const struct compose_inputs *in, size_t further)
{
    return without_what_moved(in, further) && (in->moves_up != CAUTIONS || in->whys <= 1);
}

START_TEST(what_page_one_says_again_takes_no_further_page)
{
    scene.moves = CAUTIONS;
    room.first = takes_up_briefly;
    room.later = without_more_words;
    const struct compose_inputs *is = lay();
    ck_assert_uint_eq(is->moves_up, CAUTIONS);
    ck_assert_uint_eq(is->whys, 1);
    ck_assert(is->says_key);
}
END_TEST

/* Beside the rows a tall drawing leaves room for their reasons, below them it does not. */
static bool more_beside_the_drawing(const struct compose_inputs *in)
{
    return !in->moves_up || says_nothing_beside(in) ||
           (!in->wide && in->message == MESSAGE_BRIEF && in->says_key);
}

START_TEST(page_one_takes_the_shape_in_which_it_says_more)
{
    for (int is_tall = 0; is_tall < 2; is_tall++) {
        again();
        plan.enclosure.height_cm = is_tall ? 80 : 30;
        scene.moves = CAUTIONS;
        room.first = more_beside_the_drawing;
        room.later = without_what_moved;
        const struct compose_inputs *is = lay();
        ck_assert_int_eq(is->wide, !is_tall);
        ck_assert_uint_eq(is->whys, is_tall ? 7 : 1);
    }
}
END_TEST

/* ---- what the pages still have room for ---- */

static bool as_wide_as_there_is_room(const struct compose_inputs *in, size_t further)
{
    (void)further;
    return in->closeness >= CLOSE_HEADINGS && in->to_edges && in->inset_pt <= scene.inset_pt &&
           no_opened(in);
}

/* Between the text and the edges that are used; what keeps its margins has them. */
START_TEST(margins_are_as_wide_as_the_pages_allow)
{
    static const double insets[] = {0, 6, 12, 18};
    ck_assert(lay()->inset_pt <= 0);
    for (int i = 0; i < COUNT(insets); i++) {
        again();
        scene.inset_pt = insets[i];
        room.later = as_wide_as_there_is_room;
        const struct compose_inputs *is = lay();
        ck_assert(is->to_edges);
        ck_assert_double_eq(is->inset_pt, insets[i]);
    }
}
END_TEST

/* Page one has room for reasons or for margins. */
static bool reasons_or_margins(const struct compose_inputs *in)
{
    return !in->moves_up || (in->message == MESSAGE_BRIEF && (in->whys == 1 || in->inset_pt <= 0));
}

static bool close_without_what_moved(const struct compose_inputs *in, size_t further)
{
    return in->closeness >= CLOSE_HEADINGS && without_what_moved(in, further) && no_opened(in);
}

START_TEST(reasons_stand_before_margins_to_rest_in)
{
    scene.moves = CAUTIONS;
    room.first = reasons_or_margins;
    room.later = close_without_what_moved;
    const struct compose_inputs *is = lay();
    ck_assert_double_eq(is->inset_pt, 0);
    ck_assert_uint_eq(is->whys, 7);
    ck_assert(is->says_key);
}
END_TEST

static bool known_where_there_is_room(const struct compose_inputs *in, size_t further)
{
    return without_what_moved(in, further) && (!in->says_known || scene.key);
}

START_TEST(how_it_is_known_comes_back_where_there_is_room)
{
    ck_assert(!lay()->says_known); /* it stands there in any case */
    for (int has_room = 0; has_room < 2; has_room++) {
        again();
        scene.moves = CAUTIONS;
        scene.key = has_room;
        room.first = takes_up_briefly;
        room.later = known_where_there_is_room;
        ck_assert_int_eq(lay()->says_known, has_room);
    }
}
END_TEST

/* Lists go closer for the line in which it stands. */
static bool known_where_lists_are_close(const struct compose_inputs *in, size_t further)
{
    return without_what_moved(in, further) && (!in->says_known || in->closeness >= CLOSE_BOXES);
}

START_TEST(lists_go_closer_for_how_it_is_known)
{
    scene.moves = CAUTIONS;
    room.first = takes_up_briefly;
    room.later = known_where_lists_are_close;
    const struct compose_inputs *is = lay();
    ck_assert(is->says_known);
    ck_assert_int_eq(is->closeness, CLOSE_BOXES);
}
END_TEST

/* So they do for what is normal for the animal. */
static bool normal_where_lists_are_closer(const struct compose_inputs *in, size_t further)
{
    return without_what_moved(in, further) &&
           in->closeness >= (in->without_normal ? CLOSE_BOXES : CLOSE_PARAGRAPHS);
}

START_TEST(lists_go_closer_for_what_is_normal)
{
    scene.moves = CAUTIONS;
    room.first = takes_up_briefly;
    room.later = normal_where_lists_are_closer;
    const struct compose_inputs *is = lay();
    ck_assert(!is->without_normal);
    ck_assert(is->says_known);
    ck_assert_int_eq(is->closeness, CLOSE_PARAGRAPHS);
}
END_TEST

/* Page one has no room for the first row's reason, and what moved up goes with nothing else. */
static bool takes_up_without_reasons(const struct compose_inputs *in)
{
    return !(in->whys & 1) && takes_up(in);
}

START_TEST(what_moves_up_brings_no_reason_back)
{
    static const struct upward_row row = {SOURCES | CAUTIONS, true, 0, false};
    set_upward(&row);
    room.first = takes_up_without_reasons;
    const struct compose_inputs *is = lay();
    ck_assert_uint_eq(is->moves_up, SOURCES | CAUTIONS);
    ck_assert(says_nothing_beside(is));
    ck_assert_uint_eq(is->whys, 0);
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

START_TEST(no_fault_is_passed_over)
{
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
    return sheet_compose(&inputs, &arena, &diag, document);
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
    ck_assert(!sheet_lay(&inputs, &arena, &diag, &paged));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("render");
    TCase *tcase = tcase_create("render");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, says_everything_where_there_is_room);
    tcase_add_test(tcase, a_page_one_without_room_sets_the_others_no_closer);
    tcase_add_test(tcase, no_more_is_said_in_brief_than_there_is_no_room_for);
    tcase_add_test(tcase, a_sheet_is_set_no_closer_than_it_must_be);
    tcase_add_test(tcase, a_row_comes_back_with_the_paper_to_its_edges);
    tcase_add_test(tcase, page_one_takes_what_it_must_and_gives_up_no_more);
    tcase_add_test(tcase, page_one_says_again_what_there_is_room_for);
    tcase_add_test(tcase, what_page_one_says_again_takes_no_further_page);
    tcase_add_test(tcase, page_one_takes_the_shape_in_which_it_says_more);
    tcase_add_test(tcase, margins_are_as_wide_as_the_pages_allow);
    tcase_add_test(tcase, reasons_stand_before_margins_to_rest_in);
    tcase_add_test(tcase, how_it_is_known_comes_back_where_there_is_room);
    tcase_add_test(tcase, lists_go_closer_for_how_it_is_known);
    tcase_add_test(tcase, lists_go_closer_for_what_is_normal);
    tcase_add_test(tcase, what_moves_up_brings_no_reason_back);
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
