/* render.c and its parts with pages of the suite's own: what a sheet is composed with is kept, and
 * how much room there is for it is known. */
#ifndef BASKLEAF_TESTS_RENDER_ROOM_H
#define BASKLEAF_TESTS_RENDER_ROOM_H

#include <string.h>

/* the suite's own, beside those of the program; ROOM_SUITE is its name */
#define ROOM_JOINED(suite, name) suite##_##name
#define ROOM_NAMED(suite, name) ROOM_JOINED(suite, name)
#define sheet_compose ROOM_NAMED(ROOM_SUITE, sheet_compose)
#define sheet_lay ROOM_NAMED(ROOM_SUITE, sheet_lay)
#define sheet_write ROOM_NAMED(ROOM_SUITE, sheet_write)
#define sheet_phrase_context ROOM_NAMED(ROOM_SUITE, sheet_phrase_context)
#define trial_kind ROOM_NAMED(ROOM_SUITE, trial_kind)
#define trial_compose ROOM_NAMED(ROOM_SUITE, trial_compose)
#define trial_lay ROOM_NAMED(ROOM_SUITE, trial_lay)
#define trial_from ROOM_NAMED(ROOM_SUITE, trial_from)
#define trial_out ROOM_NAMED(ROOM_SUITE, trial_out)
#define trial_further ROOM_NAMED(ROOM_SUITE, trial_further)
#define page_one_bare ROOM_NAMED(ROOM_SUITE, page_one_bare)
#define page_one_say ROOM_NAMED(ROOM_SUITE, page_one_say)
#define page_one_move_steps ROOM_NAMED(ROOM_SUITE, page_one_move_steps)
#define page_one_say_again ROOM_NAMED(ROOM_SUITE, page_one_say_again)
#define openings_use ROOM_NAMED(ROOM_SUITE, openings_use)

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
static double width_in_room(const struct measure *measure, enum text_style style, double size_pt,
                            const char *text, size_t length);
/* the pages of the suite ask nothing of it */
static const struct measure even_letters = {.width_pt = width_in_room};

#define compose_sheet compose_in_room
#define layout_pages_taken taken_in_room
#define layout_document lay_in_room
#define sheet_context_words words_in_room
#define fonts_measure(fonts) (&even_letters)
#include "render/openings.c"
#include "render/page_one.c"
#include "render/render.c"
#include "render/trials.c"

#define COUNT(rows) (int)(sizeof(rows) / sizeof *(rows))

/* ---- pages whose room is known
 * ------------------------------------------------------------------- */

enum { BRIEF_SECTIONS = 3, PAGES = 2, LAID_MOST = 40, TRIED_MOST = 256, ACTIONS_MOST = 5 };

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
    size_t brief, rows_less, further, brief_of_medicines, units;
    enum medicines_say medicines;
    enum closeness closeness, least[SECTION_COUNT];
    double inset_pt;
    int lines;
    bool wide, to_edges, bare, without_normal, key;
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
static struct step_plan steps[ACTIONS_MOST];
static struct action actions[ACTIONS_MOST];
static struct medicine_plan medicine;
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

/* No more than what stands there in any case: why the first row is asked for. */
static bool says_nothing_beside(const struct compose_inputs *in)
{
    return (in->message == MESSAGE_BRIEF || in->message == MESSAGE_ALONE) &&
           (in->whys & ~1u) == 0 && !in->says_key;
}

/* Of what page one takes of the later pages nothing is tried that an earlier trial has answered:
 * where it had no room, having given up as much, it has none for more; later pages that had none
 * have none with more on them. */
static void see_no_trial_is_in_vain(bool takes_first, bool fits)
{
    for (size_t i = 0; i < tried_count; i++) {
        const struct compose_inputs *other = &tried[i].said;
        if (other->closeness != said.closeness)
            continue;
        const bool more_up = (other->moves_up & ~said.moves_up) == 0 &&
                             other->steps_most <= said.steps_most &&
                             (other->message == MESSAGE_ALONE || said.message != MESSAGE_ALONE) &&
                             (says_nothing_beside(other) || !says_nothing_beside(&said));
        const bool more_left = (said.moves_up & ~other->moves_up) == 0 &&
                               other->steps_most >= said.steps_most &&
                               (other->without_normal || !said.without_normal);
        ck_assert(!(tried[i].first ? more_left : more_up));
    }
    if (fits)
        return;
    ck_assert_uint_lt(tried_count, TRIED_MOST);
    tried[tried_count].said = said;
    tried[tried_count++].first = takes_first;
}

static double width_in_room(const struct measure *measure, enum text_style style, double size_pt,
                            const char *text, size_t length)
{
    (void)measure;
    (void)style;
    (void)text;
    return size_pt * (double)length;
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
    ck_assert_ptr_nonnull(said.kept);
    ck_assert(plan.medicine_count > 0 || said.medicines == MEDICINES_BARE);
    const bool asks_first = asked.from == 0, takes_first = !asks_first || room.first(&said);
    const bool asks_later = !said.first_page && asked.from < PAGES;
    const bool takes_later = !asks_later || room.later(&said, asked.further);
    *fits = takes_first && takes_later;
    /* margins are made wider, and how all is known comes back, once all is chosen */
    const bool is_chosen = said.inset_pt > 0 || said.says_known;
    tried_up += asks_first && !said.first_page && said.moves_up;
    if (scene.is_told_apart && !is_chosen && asks_first && !said.first_page &&
        said.closeness >= CLOSE_LINES && no_opened(&said) && (said.moves_up || said.without_normal))
        see_no_trial_is_in_vain(takes_first, *fits);
    return takes_first ? 1 + (size_t)takes_later : 0;
}

static bool lay_in_room(const struct document *document, struct text_store *texts, struct diag *d,
                        struct paged *out)
{
    (void)texts;
    (void)d;
    ck_assert(!said.is_trial);
    ck_assert(!said.first_page);
    bool is_filled = true;
    for (size_t i = 0; i < sheet.sections.count; i++)
        is_filled = is_filled && LIST_AT(sheet.sections, struct sheet_section, i)->page.count > 0;
    /* what its trials wrote is taken where all pages are filled and nobody asks what is said */
    ck_assert_int_eq(said.kept != NULL, is_filled && !options.said);
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
    memset(sections, 0, sizeof sections);
    memset(running, 0, sizeof running);
    plan.taxon.is_unlisted = true;
    plan.enclosure.has_size = true; /* a tall one: its drawing can stand beside the rows */
    plan.enclosure.length_cm = 40;
    plan.enclosure.height_cm = 80;
    plan.kind = "hangs";
    plan.steps = steps;
    plan.action_count = STEPS_MOST;
    plan.actions = actions;
    plan.medicines = &medicine;
    for (int i = 0; i < ACTIONS_MOST; i++)
        actions[i] = (struct action){.code = "an-action", .is_tonight = true};
    plan.patient.name.text = "Biscuit";
    plan.on = (struct date){2026, 3, 14};
    for (int i = 0; i < PAGES; i++)
        filled[i].page = list_of(sections, i == 0 ? 1 : 2);
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
    ck_assert(sheet_lay(&inputs, &arena, &diag, &paged));
    ck_assert_uint_ge(paged.overfull, 1);
    return &laid[paged.overfull - 1];
}

/* Whichever time it is composed a fault comes up, there are no pages. */
static void fail_each_time(void)
{
    struct paged paged = {0};
    lay();
    const size_t times = composed;
    for (fails_at = 1; fails_at <= times; fails_at++) {
        composed = tried_count = laid_count = 0;
        ck_assert_msg(!sheet_lay(&inputs, &arena, &diag, &paged), "%zu of %zu", fails_at, times);
        ck_assert_uint_eq(composed, fails_at);
    }
}

#endif
