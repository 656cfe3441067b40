/* What page one says beside its rows, held against a page one whose room is known. */
#include <string.h>

#include "common/suite.h"
#define ROOM_SUITE test_page_one
#include "render/room.h"

static bool one_message(const struct compose_inputs *in)
{
    return in->message == scene.message && (in->whys & ~scene.whys) == 0;
}

/* Of room for one message and for the reasons of some rows (a bit a row, the first is 1): the
 * reasons that stand there. The message in brief and that of what is wrong go with any that leave
 * the first row's; beside a second finding and what is wrong at home the second row's goes before
 * the third one's, and the whole message leaves none out. */
static const struct reasons {
    enum message_says message;
    unsigned room, said;
} reasons[] = {
    {MESSAGE_FULL, 7, 7},       {MESSAGE_NAMES, 7, 7},      {MESSAGE_NAMES, 3, 3},
    {MESSAGE_NAMES, 1, 1},      {MESSAGE_NAMES, 5, 1},      {MESSAGE_TWO, 7, 7},
    {MESSAGE_TWO, 3, 3},        {MESSAGE_TWO, 5, 1},        {MESSAGE_TWO, 1, 1},
    {MESSAGE_ILLS, 7, 7},       {MESSAGE_ILLS, 3, 3},       {MESSAGE_ILLS, 5, 5},
    {MESSAGE_ILLS, 1, 1},       {MESSAGE_ILLS_ALONE, 7, 7}, {MESSAGE_ILLS_ALONE, 3, 3},
    {MESSAGE_ILLS_ALONE, 5, 5}, {MESSAGE_ILLS_ALONE, 1, 1}, {MESSAGE_BRIEF, 7, 7},
    {MESSAGE_HOME, 7, 7},       {MESSAGE_HOME, 3, 3},       {MESSAGE_HOME, 5, 5},
    {MESSAGE_HOME, 1, 1},       {MESSAGE_BRIEF, 3, 3},      {MESSAGE_BRIEF, 5, 5},
    {MESSAGE_BRIEF, 1, 1},
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

/* The ills and until when stand without a reason before one ill does. */
static bool short_without_reasons(const struct compose_inputs *in)
{
    return in->whys == 0 && (in->message == MESSAGE_ALONE || in->message == MESSAGE_BRIEF ||
                             in->message == scene.message);
}

START_TEST(two_ills_stand_without_reasons)
{
    static const enum message_says messages[] = {MESSAGE_TWO, MESSAGE_ILLS_ALONE, MESSAGE_HOME,
                                                 MESSAGE_BRIEF};
    for (int i = 0; i < COUNT(messages); i++) {
        again();
        scene.message = messages[i];
        room.first = short_without_reasons;
        const struct compose_inputs *is = lay();
        ck_assert_int_eq(is->message, messages[i]);
        ck_assert(is->says_key);
        ck_assert_uint_eq(is->steps_most, 3);
    }
}
END_TEST

/* ---- what the drawing's signs mean ---- */

static bool one_aside(const struct compose_inputs *in)
{
    return one_message(in) && in->says_key <= scene.key;
}

/* The signs are told before the other rows' reasons and behind the first row's; all rows stay. */
START_TEST(signs_go_without_meaning_before_a_row_goes)
{
    static const struct {
        enum message_says message;
        unsigned room, said;
    } rows[] = {{MESSAGE_ILLS_ALONE, 7, 1}, {MESSAGE_BRIEF, 7, 1}, {MESSAGE_BRIEF, 1, 1}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        scene.message = rows[i].message;
        scene.whys = rows[i].room;
        room.first = one_aside;
        const struct compose_inputs *is = lay();
        ck_assert_msg((int)is->message == (int)rows[i].message && is->whys == rows[i].said &&
                          !is->says_key && is->steps_most == 3 && !is->wide && !is->to_edges,
                      "row %d: message %d, whys %u, key %d", i, (int)is->message, is->whys,
                      is->says_key);
    }
}
END_TEST

/* ---- the message alone ---- */

/* The paper's edges are used before the message leaves a medicine out, and that goes before a row;
 * as many reasons stand beside it as there is room for. */
START_TEST(the_message_alone_keeps_a_row)
{
    static const struct {
        unsigned room, said;
        bool key;
    } rows[] = {{7, 7, true}, {3, 3, true},  {5, 5, true}, {1, 1, true},
                {6, 6, true}, {1, 1, false}, {0, 0, true}, {0, 0, false}};
    for (int i = 0; i < COUNT(rows); i++) {
        again();
        scene.message = MESSAGE_ALONE;
        scene.whys = rows[i].room;
        scene.key = rows[i].key;
        room.first = one_aside;
        const struct compose_inputs *is = lay();
        ck_assert_msg(is->message == MESSAGE_ALONE && is->whys == rows[i].said &&
                          is->says_key == rows[i].key && is->steps_most == 3 && is->to_edges,
                      "row %d: message %d, whys %u, key %d", i, (int)is->message, is->whys,
                      is->says_key);
    }
}
END_TEST

/* ---- by lines ---- */

/* How many lines each thing takes, and how many there are. */
static struct {
    int message[MESSAGE_COUNT], why, key, row, wide, edges, lines;
} lines;

static int lines_left(const struct compose_inputs *in)
{
    int left = lines.lines + in->wide * lines.wide + in->to_edges * lines.edges;
    for (unsigned row = 0; row < in->steps_most; row++)
        left -= lines.row + (int)(in->whys >> row & 1) * lines.why;
    return left - lines.message[in->message] - in->says_key * lines.key;
}

static bool by_lines(const struct compose_inputs *in)
{
    return lines_left(in) >= 0;
}

/* Whether a page one of the same shape has room for this. */
static bool could_say(const struct compose_inputs *is, enum message_says message, bool key,
                      unsigned whys)
{
    struct compose_inputs other = *is;
    other.message = message;
    other.says_key = key;
    other.whys = whys;
    return by_lines(&other);
}

/* Whether one of so many rows had room with no more than the first one's reason. */
static bool could_stand(const struct compose_inputs *is, enum message_says message, size_t rows,
                        bool wide, bool to_edges)
{
    struct compose_inputs other = *is;
    other.steps_most = rows;
    other.wide = wide;
    other.to_edges = to_edges;
    return could_say(&other, message, false, 1);
}

/* The message and the reasons give way before rows, the drawing's signs before the first row's
 * reason, and that last; nothing is left out that could stand there as well. */
static void see_order(const struct compose_inputs *is)
{
    const bool is_last = is->steps_most == 1 && is->to_edges, whys_go = is->message != MESSAGE_FULL;
    ck_assert(is_last || by_lines(is));
    if (is->steps_most < 3)
        ck_assert(!could_stand(is, MESSAGE_ALONE, is->steps_most + 1, true, true));
    else if (is->to_edges)
        ck_assert(!could_stand(is, MESSAGE_BRIEF, 3, true, false));
    if (!by_lines(is))
        return;
    if (!(is->whys & 1))
        ck_assert(!could_say(is, MESSAGE_BRIEF, false, 1));
    if (!is->says_key)
        ck_assert(is->whys <= 1 && !could_say(is, is->message, true, is->whys));
    if (is->message < MESSAGE_ILLS && is->whys)
        ck_assert(!could_say(is, MESSAGE_ILLS, true, is->whys));
    if (is->message == MESSAGE_ALONE && is->whys)
        ck_assert(!could_say(is, MESSAGE_BRIEF, true, is->whys));
    if ((is->whys == 1 || is->whys == 3) && whys_go && is->says_key)
        ck_assert(!could_say(is, is->message, true, is->whys << 1 | 1));
    ck_assert((is->message == MESSAGE_FULL && is->whys == 7) ||
              !could_say(is, MESSAGE_FULL, true, 7));
}

/* What is wrong takes as many lines more than the shortest message as it says things more, and so
 * does a second finding. */
static void cost_messages(int step)
{
    static const int things[MESSAGE_COUNT] = {
        [MESSAGE_ALONE] = 0, [MESSAGE_BRIEF] = 1, [MESSAGE_ILLS_ALONE] = 2, [MESSAGE_ILLS] = 3,
        [MESSAGE_TWO] = 2,   [MESSAGE_HOME] = 2,  [MESSAGE_NAMES] = 4,      [MESSAGE_FULL] = 5};
    for (int i = 0; i < MESSAGE_COUNT; i++)
        lines.message[i] = 1 + things[i] * step;
}

START_TEST(each_thing_gives_way_in_its_turn)
{
    enum { WAYS = 3 * 2 * 2, LINES_MOST = 30 };
    for (int way = 0; way < WAYS; way++) {
        for (int count = 4 + _i; count <= LINES_MOST; count += 2) {
            again();
            cost_messages(way % 3);
            lines.why = 1 + way / 3 % 2;
            lines.key = 1 + way / 6 % 2;
            lines.row = 4;
            lines.wide = lines.edges = 1;
            lines.lines = count;
            room.first = by_lines;
            see_order(lay());
        }
    }
}
END_TEST

/* ---- its shape ---- */

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

static size_t least_trials; /* of three rows, the drawing beside them and the paper's white edges */

static bool no_reason_at_all(const struct compose_inputs *in)
{
    least_trials += in->first_page && in->message == MESSAGE_BRIEF && in->says_key &&
                    in->steps_most == 3 && !in->wide && !in->to_edges;
    return in->steps_most < 3 && says_nothing_beside(in) && in->whys == 0;
}

/* A message is asked once whether it has room for the least that may stand beside it, and where it
 * has none, not with more. */
START_TEST(no_page_one_is_tried_in_vain)
{
    least_trials = 0;
    room.first = no_reason_at_all;
    lay();
    ck_assert_uint_eq(least_trials, 1);
}
END_TEST

/* A sheet that is asked what it says is written anew, and says the same. */
START_TEST(what_is_said_is_noted_while_it_is_written)
{
    struct said_log log = {0};
    options.said = &log;
    const struct compose_inputs *is = lay();
    ck_assert_ptr_eq(is->said, &log);
    ck_assert_ptr_null(is->kept);
}
END_TEST

/* ---- errors ---- */

START_TEST(no_fault_is_passed_over)
{
    room.first = one_shape; /* the last that is tried */
    scene.rows_less = 2;
    scene.to_edges = true;
    fail_each_time();
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("page_one");
    TCase *tcase = tcase_create("page_one");
    tcase_add_checked_fixture(tcase, set_up, tear_down);
    tcase_add_test(tcase, page_one_says_what_it_has_room_for);
    tcase_add_test(tcase, the_message_is_as_long_as_the_reasons_allow);
    tcase_add_test(tcase, two_ills_stand_without_reasons);
    tcase_add_test(tcase, signs_go_without_meaning_before_a_row_goes);
    tcase_add_test(tcase, the_message_alone_keeps_a_row);
    tcase_add_loop_test(tcase, each_thing_gives_way_in_its_turn, 0, 2);
    tcase_add_test(tcase, each_shape_of_page_one_is_found);
    tcase_add_test(tcase, the_drawing_gives_way_before_the_edges_and_those_before_a_row);
    tcase_add_test(tcase, a_page_one_without_room_keeps_a_row);
    tcase_add_test(tcase, no_page_one_is_tried_in_vain);
    tcase_add_test(tcase, what_is_said_is_noted_while_it_is_written);
    tcase_add_test(tcase, no_fault_is_passed_over);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
