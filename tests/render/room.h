/* render.c and its parts with pages of the suite's own: what a sheet is composed with is kept, and
 * how much room there is for it is known. */
#ifndef BASKLEAF_TESTS_RENDER_ROOM_H
#define BASKLEAF_TESTS_RENDER_ROOM_H

#include <string.h>

/* the suite's own, beside those of the program */
#define sheet_compose composed_here
#define sheet_lay lay_here
#define sheet_write write_here
#define sheet_phrase_context phrase_context_here
#define trial_kind kind_here
#define trial_compose compose_here
#define trial_lay lay_once_here
#define trial_from from_here
#define trial_out out_here
#define trial_further further_here
#define page_one_bare bare_here
#define page_one_say say_here
#define page_one_move_steps move_steps_here
#define page_one_say_again say_again_here
#define openings_use use_here

#include "context/resources.h"
#include "layout/layout.h"
#include "layout/measured_text.h"
#include "render/render.h"
#include "sheet/compose.h"

#include "common/suite.h"

static bool compose_in_room(const struct compose_inputs *inputs, struct arena *arena,
                            struct diag *diag, struct document *out);
static size_t taken_in_room(const struct document *document, struct pages_asked asked,
                            struct text_store *texts, struct arena *arena, struct diag *diag,
                            bool *fits);
static bool lay_in_room(const struct document *document, struct text_store *texts,
                        struct diag *diag, struct paged *out);
static const struct wording *words_in_room(struct sheet_context *context, const char *language,
                                           struct mark at, struct diag *diag);

#define compose_sheet compose_in_room
#define layout_pages_taken taken_in_room
#define layout_document lay_in_room
#define sheet_context_words words_in_room
#define fonts_measure(fonts) NULL
#include "render/openings.c"
#include "render/page_one.c"
#include "render/render.c"
#include "render/trials.c"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

/* ---- pages whose room is known
 * ------------------------------------------------------------------- */

enum { BRIEF_SECTIONS = 3, PAGES = 2, LAID_MOST = 40, TRIED_MOST = 256 };

/* Whether page one takes what it is to say; whether the later ones take theirs with so many
 * further; how many pages there are in the end. */
static struct room {
    bool (*first)(const struct compose_inputs *said);
    bool (*later)(const struct compose_inputs *said, size_t further);
    size_t (*pages)(const struct compose_inputs *said);
} room;

/* What one scene asks for. */
static struct {
    enum message_says message;
    unsigned whys, moves;
    size_t brief, rows_less, further;
    enum closeness closeness, least[SECTION_COUNT];
    bool wide, to_edges, bare, without_normal;
    bool is_told_apart; /* what page one gives up for the later pages it has not given up before */
} scene;

static struct compose_inputs said, laid[LAID_MOST];
static size_t laid_count, trials, composed, fails_at; /* 0: never */
static struct {
    struct compose_inputs said;
    bool first;
} tried[TRIED_MOST];
static size_t tried_count, tried_up; /* of trials with something moved up: told apart; all */
static struct arena arena;
static struct diag diag;
static struct care_plan plan;
static struct step_plan steps[STEPS_MOST];
static struct sheet_template sheet;
static const struct sheet_template *kinds[] = {&sheet};
static struct choice_value sections[8];
static struct sheet_section filled[PAGES], running[PAGES];
static struct resources resources;
static struct sheet_context context;
static struct sheet_options options;
static struct signature signature;
static struct sheet_inputs inputs;
static const struct wording words = {.lang = "en"};

static bool compose_in_room(const struct compose_inputs *in, struct arena *a, struct diag *d,
                            struct document *out)
{
    (void)a;
    (void)d;
    said = *in;
    ck_assert_int_lt(in->closeness, CLOSENESS_COUNT);
    if (++composed == fails_at)
        return false;
    *out = (struct document){.lang = in->words->lang};
    return true;
}

static bool no_opened(const struct compose_inputs *in)
{
    for (int i = 0; i < SECTION_COUNT; i++)
        if (in->opened[i])
            return false;
    return true;
}

static bool says_nothing_beside(const struct compose_inputs *in)
{
    return in->message == MESSAGE_BRIEF && in->whys == 0 && !in->says_key;
}

/* Of what page one takes of the later pages nothing is tried that an earlier trial has answered:
 * where it had no room, having given up as much, it has none for more; later pages that had none
 * have none with more on them. */
static void see_no_trial_is_in_vain(bool takes_first)
{
    for (size_t i = 0; i < tried_count; i++) {
        const struct compose_inputs *other = &tried[i].said;
        if (other->closeness != said.closeness)
            continue;
        const bool more_up = (other->moves_up & ~said.moves_up) == 0 &&
                             other->steps_most <= said.steps_most &&
                             (says_nothing_beside(other) || !says_nothing_beside(&said));
        const bool more_left = (said.moves_up & ~other->moves_up) == 0 &&
                               other->steps_most >= said.steps_most &&
                               (other->without_normal || !said.without_normal);
        ck_assert(!(tried[i].first ? more_left : more_up));
    }
    ck_assert_uint_lt(tried_count, TRIED_MOST);
    tried[tried_count].said = said;
    tried[tried_count++].first = takes_first;
}

static size_t taken_in_room(const struct document *document, struct pages_asked asked,
                            struct text_store *texts, struct arena *a, struct diag *d, bool *fits)
{
    (void)document;
    (void)texts;
    (void)a;
    (void)d;
    trials++;
    ck_assert(said.is_trial);
    ck_assert_ptr_null(said.said);
    const bool asks_first = asked.from == 0, takes_first = !asks_first || room.first(&said);
    const bool asks_later = !said.first_page && asked.from < PAGES;
    const bool takes_later = !asks_later || room.later(&said, asked.further);
    *fits = takes_first && takes_later;
    tried_up += asks_first && !said.first_page && said.moves_up;
    if (scene.is_told_apart && asks_first && !said.first_page && said.closeness >= CLOSE_LINES &&
        no_opened(&said) && (said.moves_up || said.without_normal))
        see_no_trial_is_in_vain(takes_first);
    return takes_first ? 1 + (size_t)takes_later : 0;
}

static bool lay_in_room(const struct document *document, struct text_store *texts, struct diag *d,
                        struct paged *out)
{
    (void)texts;
    (void)d;
    ck_assert(!said.is_trial);
    ck_assert(!said.first_page);
    ck_assert_uint_lt(laid_count, LAID_MOST);
    laid[laid_count++] = said;
    *out = (struct paged){.page_count = room.pages(&said), .overfull = (unsigned)laid_count};
    (void)document;
    return true;
}

static const struct wording *words_in_room(struct sheet_context *c, const char *language,
                                           struct mark at, struct diag *d)
{
    (void)c;
    (void)at;
    (void)d;
    return !language || strcmp(language, "en") == 0 ? &words : NULL;
}

static struct list list_of(const void *items, size_t count)
{
    return (struct list){.items = (void *)(uintptr_t)items, .count = count};
}

static bool all(const struct compose_inputs *in)
{
    (void)in;
    return true;
}

static bool all_later(const struct compose_inputs *in, size_t further)
{
    (void)in;
    (void)further;
    return true;
}

static size_t two_pages(const struct compose_inputs *in)
{
    (void)in;
    return PAGES;
}

static void set_up(void)
{
    arena_init(&arena);
    diag_init(&diag);
    memset(&plan, 0, sizeof plan);
    memset(&scene, 0, sizeof scene);
    memset(steps, 0, sizeof steps);
    memset(filled, 0, sizeof filled);
    memset(running, 0, sizeof running);
    plan.taxon.is_unlisted = true;
    plan.kind = "hangs";
    plan.steps = steps;
    plan.action_count = STEPS_MOST;
    plan.patient.name.text = "Biscuit";
    plan.on = (struct date){2026, 3, 14};
    for (int i = 0; i < PAGES; i++)
        filled[i].page = list_of(sections, 2);
    sheet = (struct sheet_template){.kind = {.text = "hangs"},
                                    .pages = {.known = true, .value = PAGES},
                                    .in_brief = list_of(sections, BRIEF_SECTIONS),
                                    .sections = list_of(filled, PAGES)};
    resources = (struct resources){.kinds = {.items = kinds, .count = 1}};
    context = (struct sheet_context){.resources = &resources};
    options = (struct sheet_options){0};
    signature = (struct signature){0};
    inputs = (struct sheet_inputs){&context, &plan, &options, &signature};
    room = (struct room){all, all_later, two_pages};
    laid_count = trials = fails_at = 0;
}

static void tear_down(void)
{
    diag_finish(&diag);
    arena_finish(&arena);
}

static void again(void)
{
    tear_down();
    set_up();
}

/* What the sheet says in the end. */
static const struct compose_inputs *lay(void)
{
    struct paged paged = {0};
    laid_count = trials = composed = tried_count = tried_up = 0;
    ck_assert(lay_here(&inputs, &arena, &diag, &paged));
    ck_assert_uint_ge(paged.overfull, 1);
    return &laid[paged.overfull - 1];
}

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

/* ---- what moves up ---- */

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

#endif
