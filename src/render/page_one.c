/* What page one says beside its rows gives way by a table, then rows do. */
#include "render/page_one.h"

/* What page one says beside its rows, from all of it to what gives way last before a row does: how
 * long the message is, which rows say why (a bit a row), what the drawing's signs mean. The first
 * row's reason gives way behind the others' and behind the signs; what is wrong behind the first
 * step, which its row says, and behind the day, which the dates say. */
static const struct aside asides[] = {
    {MESSAGE_FULL, true, 7, true},       {MESSAGE_NAMES, true, 7, true},
    {MESSAGE_NAMES, true, 3, true},      {MESSAGE_NAMES, true, 1, true},
    {MESSAGE_ILLS_LAMP, true, 7, true},  {MESSAGE_ILLS_LAMP, true, 1, true},
    {MESSAGE_ILLS, true, 7, true},       {MESSAGE_ILLS, true, 3, true},
    {MESSAGE_ILLS, true, 5, true},       {MESSAGE_ILLS, true, 1, true},
    {MESSAGE_ILLS_ALONE, true, 7, true}, {MESSAGE_ILLS_ALONE, true, 3, true},
    {MESSAGE_ILLS_ALONE, true, 5, true}, {MESSAGE_ILLS_ALONE, true, 1, true},
    {MESSAGE_ILLS, true, 7, false},      {MESSAGE_ILLS, true, 3, false},
    {MESSAGE_ILLS, true, 1, false},      {MESSAGE_ILLS_ALONE, true, 1, false},
    {MESSAGE_TWO, true, 7, true},        {MESSAGE_TWO, true, 3, true},
    {MESSAGE_TWO, true, 1, true},        {MESSAGE_BRIEF, true, 7, true},
    {MESSAGE_BRIEF, true, 3, true},      {MESSAGE_BRIEF, true, 5, true},
    {MESSAGE_BRIEF, true, 1, true},      {MESSAGE_ILLS_ALONE, false, 1, true},
    {MESSAGE_BRIEF, false, 1, true},     {MESSAGE_BRIEF, true, 7, false},
    {MESSAGE_BRIEF, true, 3, false},     {MESSAGE_BRIEF, true, 1, false},
    {MESSAGE_BRIEF, false, 1, false},    {MESSAGE_ILLS, true, 0, true},
    {MESSAGE_ILLS_ALONE, true, 0, true}, {MESSAGE_BRIEF, true, 0, true},
    {MESSAGE_ILLS, true, 6, false},      {MESSAGE_BRIEF, true, 6, false},
    {MESSAGE_NAMES, true, 0, false},     {MESSAGE_ILLS, true, 2, false},
    {MESSAGE_ILLS, true, 4, false},      {MESSAGE_TWO, true, 4, false},
    {MESSAGE_ILLS, true, 0, false},      {MESSAGE_ILLS_ALONE, true, 0, false},
    {MESSAGE_TWO, true, 0, false},       {MESSAGE_BRIEF, true, 2, false},
    {MESSAGE_BRIEF, true, 4, false},     {MESSAGE_BRIEF, true, 0, false}};
enum { ASIDES = sizeof asides / sizeof *asides };

const struct aside page_one_bare = {MESSAGE_BRIEF, false, 1, false};

void page_one_say(struct savings *savings, const struct aside *aside)
{
    savings->message = aside->message;
    savings->says_key = aside->says_key;
    savings->whys = aside->whys;
    savings->says_later = aside->says_later;
}

/* Where all of tonight stands on page one, saying less of page two saves nothing. */
static bool saves_nothing(const struct laying *l, const struct savings *savings,
                          const struct aside *aside)
{
    size_t tonight = 0;
    for (size_t i = 0; i < l->in->plan->action_count; i++)
        tonight += l->in->plan->actions[i].is_tonight;
    /* the other of the two that differ in this alone is tried */
    return tonight <= savings->steps && aside->says_later == !(aside->whys & 1u);
}

/* A tall drawing beside the rows, then the white edges of the paper, then the first step in the
 * message, which its row says, then the last row. */
static void give_for_rows(struct savings *savings)
{
    savings->wide = !savings->wide;
    if (savings->wide)
        return;
    if (!savings->to_edges) {
        savings->to_edges = true;
    } else if (savings->message != MESSAGE_IN_ROW) {
        savings->message = MESSAGE_IN_ROW;
    } else {
        savings->message = page_one_bare.message;
        savings->steps--;
    }
}

/* A message for which page one has no room while nothing stands beside it has none while something
 * does. */
struct hopes {
    bool is_known, fits;
};

/* The first of the asides that fits. All is tried first, as most sheets have room for it; then each
 * message is asked once whether it has any room at all. */
static bool find_aside(const struct laying *l, struct savings *savings, bool *fits)
{
    struct hopes hopes[MESSAGE_COUNT] = {{false, false}};
    for (size_t i = 0; i < ASIDES && !*fits; i++) {
        struct hopes *of_message = &hopes[asides[i].message];
        if (saves_nothing(l, savings, &asides[i]))
            continue;
        if (i > 0 && !of_message->is_known) {
            page_one_say(savings, &(struct aside){asides[i].message, false, 0, false});
            if (!trial_out(l, savings, &of_message->fits))
                return false;
            of_message->is_known = true;
        }
        page_one_say(savings, &asides[i]);
        if ((i == 0 || of_message->fits) && !trial_out(l, savings, fits))
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
    while (!fits && savings->steps > 1) {
        give_for_rows(savings);
        if (!trial_out(l, savings, &fits))
            return false;
    }
    savings->first_page = false;
    return true;
}

/* Page one alone, once all else is settled: of what it gave up it says again what there is room
 * for. */
bool page_one_say_again(const struct laying *l, struct savings *savings)
{
    struct savings tried = *savings;
    bool fits = false;
    tried.first_page = true;
    for (size_t i = 0; i < ASIDES && !fits; i++) {
        if (asides[i].message == savings->message && asides[i].says_key == savings->says_key &&
            asides[i].whys == savings->whys && asides[i].says_later == savings->says_later)
            return true; /* it says as much already */
        if (saves_nothing(l, savings, &asides[i]))
            continue;
        page_one_say(&tried, &asides[i]);
        if (!trial_out(l, &tried, &fits))
            return false;
        if (fits)
            page_one_say(savings, &asides[i]);
    }
    return true;
}
