/* What page one says beside its rows gives way by a table, then rows do. */
#include "render/page_one.h"

/* What page one says beside its rows, from all of it to what gives way last before a row does: how
 * long the message is, which rows say why (a bit a row), what the drawing's signs mean. What comes
 * first and what else is due tonight are in each of them. The first row's reason gives way behind
 * the others' and behind the signs. What the paper is for and until when stays in each of them, as
 * nobody acts on a paper of which he does not know that: the address goes before, then reasons. */
static const struct aside asides[] = {{MESSAGE_FULL, true, 7},
                                      {MESSAGE_NAMES, true, 7},
                                      {MESSAGE_NAMES, true, 3},
                                      {MESSAGE_NAMES, true, 1},
                                      {MESSAGE_CAUSES, true, 7},
                                      {MESSAGE_CAUSES, true, 3},
                                      {MESSAGE_CAUSES, true, 5},
                                      {MESSAGE_CAUSES, true, 1},
                                      {MESSAGE_LAMP, true, 7},
                                      {MESSAGE_LAMP, true, 3},
                                      {MESSAGE_LAMP, true, 5},
                                      {MESSAGE_LAMP, true, 1},
                                      {MESSAGE_ILLS, true, 7},
                                      {MESSAGE_ILLS, true, 3},
                                      {MESSAGE_ILLS, true, 5},
                                      {MESSAGE_ILLS, true, 1},
                                      {MESSAGE_ILLS_ALONE, true, 7},
                                      {MESSAGE_ILLS_ALONE, true, 3},
                                      {MESSAGE_ILLS_ALONE, true, 5},
                                      {MESSAGE_ILLS_ALONE, true, 1},
                                      {MESSAGE_TWO, true, 7},
                                      {MESSAGE_TWO, true, 3},
                                      {MESSAGE_TWO, true, 1},
                                      {MESSAGE_HOME, true, 7},
                                      {MESSAGE_FIRST, true, 7},
                                      {MESSAGE_FIRST, true, 3},
                                      {MESSAGE_FIRST, true, 1},
                                      {MESSAGE_BRIEF, true, 7},
                                      {MESSAGE_HOME, true, 3},
                                      {MESSAGE_BRIEF, true, 3},
                                      {MESSAGE_HOME, true, 5},
                                      {MESSAGE_BRIEF, true, 5},
                                      {MESSAGE_HOME, true, 1},
                                      {MESSAGE_BRIEF, true, 1},
                                      {MESSAGE_ILLS_ALONE, false, 1},
                                      {MESSAGE_TWO, false, 1},
                                      {MESSAGE_BRIEF, false, 1},
                                      /* the paper's edges give way before these */
                                      {MESSAGE_ALONE, true, 7},
                                      {MESSAGE_ALONE, true, 3},
                                      {MESSAGE_ALONE, true, 5},
                                      {MESSAGE_ALONE, true, 1},
                                      {MESSAGE_ALONE, false, 1},
                                      {MESSAGE_ILLS, true, 6},
                                      {MESSAGE_BRIEF, true, 6},
                                      {MESSAGE_NAMES, true, 0},
                                      {MESSAGE_CAUSES, true, 0},
                                      {MESSAGE_LAMP, true, 0},
                                      {MESSAGE_ILLS, true, 0},
                                      {MESSAGE_ILLS_ALONE, true, 0},
                                      {MESSAGE_TWO, true, 0},
                                      {MESSAGE_HOME, true, 0},
                                      {MESSAGE_BRIEF, true, 0},
                                      {MESSAGE_ALONE, true, 6},
                                      {MESSAGE_ALONE, true, 0}};
enum { ASIDES = sizeof asides / sizeof *asides, ASIDES_FIRST = 37, LEAST_WHYS = 1 };

const struct aside page_one_bare = {MESSAGE_BRIEF, false, 1};

void page_one_say(struct savings *savings, const struct aside *aside)
{
    savings->message = aside->message;
    savings->says_key = aside->says_key;
    savings->whys = aside->whys;
}

/* A tall drawing beside the rows, then the white edges of the paper, then the medicine of other
 * days in the message, then the first row's reason, then the last row. */
static void give_for_rows(struct savings *savings)
{
    savings->wide = !savings->wide;
    if (savings->wide)
        return;
    if (!savings->to_edges) {
        savings->to_edges = true;
    } else if (savings->message != MESSAGE_ALONE) {
        savings->message = MESSAGE_ALONE;
    } else if (savings->whys) {
        savings->whys = 0;
    } else {
        page_one_say(savings, &page_one_bare);
        savings->steps--;
    }
}

/* Whether page one has room for a message with the signs and the first row's reason: each aside of
 * this table's first part that says signs says these two at least. */
struct hopes {
    bool is_known, fits;
};

static bool is_least(const struct aside *aside)
{
    return aside->says_key && aside->whys == LEAST_WHYS;
}

/* What is known of an aside already: a message that has no room with the least has none with more,
 * and what the least was asked with is not asked again. */
static bool is_answered(const struct hopes *of_message, const struct aside *aside, bool *fits)
{
    if (!of_message->is_known || !aside->says_key || (of_message->fits && !is_least(aside)))
        return false;
    *fits = of_message->fits;
    return true;
}

static bool ask_hope(const struct laying *l, struct savings *savings, enum message_says message,
                     struct hopes *of_message)
{
    of_message->is_known = true;
    page_one_say(savings, &(struct aside){message, true, LEAST_WHYS});
    return trial_out(l, savings, &of_message->fits);
}

/* The first of the asides that fits. All is tried first, as most sheets have room for it; then each
 * message is asked once whether it has room with the least beside it. */
static bool find_aside(const struct laying *l, struct savings *savings, bool *fits)
{
    struct hopes hopes[MESSAGE_COUNT] = {{false, false}};
    for (size_t i = 0; i < ASIDES_FIRST && !*fits; i++) {
        struct hopes *of_message = &hopes[asides[i].message];
        if (i > 0 && asides[i].says_key && !of_message->is_known &&
            !ask_hope(l, savings, asides[i].message, of_message))
            return false;
        page_one_say(savings, &asides[i]);
        if (!is_answered(of_message, &asides[i], fits) && !trial_out(l, savings, fits))
            return false;
    }
    return true;
}

/* Rows that page one has no room for stand on page two; what stands beside them, a tall drawing
 * beside them and the paper's edges give way first. */
bool page_one_move_steps(const struct laying *l, struct savings *savings)
{
    bool fits = false;
    savings->first_page = true;
    if (!find_aside(l, savings, &fits))
        return false;
    if (!fits)
        page_one_say(savings, &page_one_bare);
    /* that was among the asides already */
    while (!fits && (savings->steps > 1 || savings->whys)) {
        give_for_rows(savings);
        if (!trial_out(l, savings, &fits))
            return false;
    }
    savings->first_page = false;
    return true;
}

static bool says(const struct savings *savings, const struct aside *aside)
{
    return aside->message == savings->message && aside->says_key == savings->says_key &&
           aside->whys == savings->whys;
}

/* With so many further pages as the sheet has: the words that page one says are explained on a
 * later one. */
static bool try_again(const struct laying *l, struct savings *tried, size_t further, bool *fits)
{
    tried->first_page = true;
    if (!trial_out(l, tried, fits))
        return false;
    tried->first_page = false;
    return !*fits || trial_further(l, tried, further, fits);
}

/* Once all else is settled, of what page one gave up it says again what there is room for, with a
 * tall drawing beside the rows or below them, whichever leaves room for more. The message's bar is
 * no higher than its words where that lets it say more, and only then. */
bool page_one_say_again(const struct laying *l, struct savings *savings, size_t further)
{
    const int shapes = compose_is_tall(l->in->plan) ? 2 : 1;
    struct savings tried = *savings;
    bool fits = false, has_room = false;
    tried.message_is_small = true;
    for (size_t i = 0; i < ASIDES && !fits && !says(savings, &asides[i]); i++) {
        page_one_say(&tried, &asides[i]);
        for (int shape = 0; shape < shapes && !fits; shape++) {
            tried.wide = shape == 0 ? savings->wide : !savings->wide;
            if (!try_again(l, &tried, further, &fits))
                return false;
        }
    }
    if (!fits)
        return true;
    *savings = tried;
    tried.message_is_small = false;
    if (!try_again(l, &tried, further, &has_room))
        return false;
    savings->message_is_small = !has_room;
    return true;
}
