/* A sheet is tried closer and closer until its pages take it, opened again where they have room,
 * and written. */
#include <math.h>
#include <string.h>

#include "render/render.h"

#include "render/openings.h"
#include "render/page_one.h"
#include "words/slots.h"

/* So many of what may be said in brief, and then tables that may break between columns. */
static void take_turn(const struct laying *l, size_t turn, struct savings *savings)
{
    const size_t count = l->sheet->in_brief.count;
    savings->brief = turn < count ? turn : count;
    savings->closeness = turn > count ? CLOSE_LINES : CLOSE_AS_USUAL;
}

/* Bits of compose_inputs.moves_up. The weeks are a line of dates by then. */
enum {
    SOURCES = 1,
    CAUTIONS = 2,
    DATES = 4,
    SIGNATURE = 8,
    MOVES_ALL = SOURCES | CAUTIONS | DATES | SIGNATURE
};

/* What page one takes of the later pages, and what is given up for that. */
struct upward {
    unsigned moves_up;
    bool is_bare;
    size_t rows_less;
    bool without_normal;
};

static const struct upward turns[] = {{SOURCES, false, 0, false},
                                      {CAUTIONS, false, 0, false},
                                      {SOURCES, true, 0, false},
                                      {CAUTIONS, true, 0, false},
                                      {SOURCES | CAUTIONS, true, 0, false},
                                      {SIGNATURE, true, 0, false},
                                      {SOURCES | SIGNATURE, true, 0, false},
                                      {CAUTIONS | SIGNATURE, false, 0, false},
                                      {CAUTIONS | SIGNATURE, true, 0, false},
                                      {SOURCES | CAUTIONS | SIGNATURE, true, 0, false},
                                      {DATES, true, 0, false},
                                      {SOURCES | DATES, true, 0, false},
                                      {CAUTIONS | DATES, true, 0, false},
                                      {DATES | SIGNATURE, true, 0, false},
                                      {CAUTIONS | DATES | SIGNATURE, true, 0, false},
                                      {MOVES_ALL, true, 0, false},
                                      {SOURCES | CAUTIONS, true, 1, false},
                                      {SOURCES | SIGNATURE, true, 1, false},
                                      {CAUTIONS | SIGNATURE, true, 1, false},
                                      {SOURCES | CAUTIONS | SIGNATURE, true, 1, false},
                                      {SOURCES | DATES, true, 1, false},
                                      {CAUTIONS | DATES, true, 1, false},
                                      {DATES | SIGNATURE, true, 1, false},
                                      {CAUTIONS | DATES | SIGNATURE, true, 1, false},
                                      {MOVES_ALL, true, 1, false},
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
                                      {MOVES_ALL, true, 1, true}};
enum { TURNS = sizeof turns / sizeof *turns };

/* A turn: whether it was tried, and whether page one took what it had. */
struct turned {
    bool is_tried, fits_first;
};

/* A page one that had no room has none for more; later pages that had none have none for more. */
static bool is_in_vain(const struct turned *turned, size_t at)
{
    const struct upward *turn = &turns[at];
    for (size_t i = 0; i < TURNS; i++) {
        const struct upward *other = &turns[i];
        if (!turned[i].is_tried)
            continue;
        if (!turned[i].fits_first && (other->moves_up & ~turn->moves_up) == 0 &&
            other->rows_less >= turn->rows_less && (other->is_bare || !turn->is_bare))
            return true;
        if (turned[i].fits_first && (turn->moves_up & ~other->moves_up) == 0 &&
            other->rows_less <= turn->rows_less && (other->without_normal || !turn->without_normal))
            return true;
    }
    return false;
}

/* Whether a row of page one cools a place that is too hot: to have that on page two does more harm
 * than a page more. */
static bool is_cooling(const struct care_plan *plan, size_t row)
{
    const struct step_plan *step = row < plan->action_count ? &plan->steps[row] : NULL;
    return step && step->has_place && step->place < MEASURE_COUNT &&
           measures[step->place].part == PART_TEMPERATURE &&
           plan->measured[step->place].verdict == VERDICT_TOO_HIGH;
}

/* The later pages are written only where page one has room. */
static bool try_page_by_page(const struct laying *l, struct savings *savings, bool *fits_first,
                             bool *fits)
{
    size_t taken;
    *fits = false;
    savings->first_page = true;
    bool good = trial_out(l, savings, fits_first);
    savings->first_page = false;
    return good &&
           (!*fits_first || trial_from(l, savings, (struct pages_asked){1, 0}, &taken, fits));
}

/* The last that gives way: what page one can take as well stands there, more and more of it; why a
 * row is asked for, what the drawing's signs mean and the third row make room for it. Last of all
 * goes what is normal for the animal: it keeps a keeper from a needless call. */
static bool move_up_beside(const struct laying *l, enum message_says message,
                           struct turned turned[TURNS], struct savings *savings, bool *fits)
{
    const struct savings before = *savings;
    const struct aside as_before = {before.message, before.says_key, (unsigned)before.whys};
    struct aside bare = page_one_bare;
    bare.message = message;
    bare.whys &= as_before.whys; /* it says no more than it did */
    for (size_t i = 0; i < TURNS && !*fits; i++) {
        *savings = before;
        if (turns[i].rows_less > 0 &&
            (before.steps < STEPS_MOST || is_cooling(l->in->plan, before.steps - 1)))
            continue; /* page one keeps two rows at least */
        if ((turns[i].without_normal && before.closeness < CLOSE_BOXES) ||
            (turns[i].rows_less > 0 && before.closeness < CLOSE_RUN_ON))
            continue; /* all else is given up before it */
        if (is_in_vain(turned, i))
            continue;
        savings->steps = before.steps - turns[i].rows_less;
        savings->moves_up = turns[i].moves_up;
        savings->without_normal = turns[i].without_normal;
        savings->wide = before.wide || turns[i].is_bare;
        page_one_say(savings, turns[i].is_bare ? &bare : &as_before);
        if (!try_page_by_page(l, savings, &turned[i].fits_first, fits))
            return false;
        turned[i].is_tried = true;
    }
    if (!*fits)
        *savings = before;
    return true;
}

/* Beside each medicine; without those of other days only where nothing else is left to save a page,
 * or where page one's rows have had their place already. */
static bool move_up(const struct laying *l, struct savings *savings, bool *fits)
{
    struct turned turned[TURNS] = {{false, false}};
    const bool is_alone = savings->message == MESSAGE_ALONE;
    if (!is_alone && !move_up_beside(l, MESSAGE_BRIEF, turned, savings, fits))
        return false;
    for (size_t i = 0; i < TURNS; i++) /* page one may have room for these now */
        turned[i].is_tried = turned[i].is_tried && (turned[i].fits_first || !turns[i].is_bare);
    return *fits || (!is_alone && savings->closeness < CLOSE_RUN_ON) ||
           move_up_beside(l, MESSAGE_ALONE, turned, savings, fits);
}

/* Whether the later pages have room with everything moved up and left out that may be at this
 * closeness. Where they have none even so, page one need not be asked. */
static bool has_hope(const struct laying *l, const struct savings *savings,
                     enum closeness closeness, bool *hopes)
{
    struct savings most = *savings;
    most.closeness = closeness;
    most.moves_up = MOVES_ALL;
    most.without_normal = closeness >= CLOSE_BOXES;
    if (closeness >= CLOSE_EDGES) {
        most.steps = STEPS_MOST;
        most.wide = false;
        most.to_edges = true;
    }
    size_t taken;
    return trial_from(l, &most, (struct pages_asked){1, 0}, &taken, hopes);
}

/* Everything that can be saved, closer and closer. With all the paper that a printer reaches page
 * one may have room for more rows again. Hope is asked for only where the first try fails, and of
 * the closest only where the first way to be closer has none. */
static bool save_all(const struct laying *l, struct savings *savings, bool *fits)
{
    bool hopes = true;
    take_turn(l, l->sheet->in_brief.count + 1, savings);
    if (!trial_out(l, savings, fits) || *fits)
        return *fits;
    for (int closeness = CLOSE_LINES; closeness < CLOSENESS_COUNT && !*fits && hopes; closeness++) {
        struct savings tried = *savings;
        bool hopes_now = false, is_first = closeness == CLOSE_LINES;
        tried.closeness = (enum closeness)closeness;
        if (!has_hope(l, savings, tried.closeness, &hopes_now) ||
            (is_first && !hopes_now && !has_hope(l, savings, CLOSENESS_COUNT - 1, &hopes)))
            return false;
        if (!hopes_now)
            continue;
        if (closeness >= CLOSE_EDGES) {
            tried.steps = STEPS_MOST;
            tried.wide = false;
            tried.to_edges = true;
            if (!page_one_move_steps(l, &tried))
                return false;
        }
        if ((!is_first && !trial_out(l, &tried, fits)) || (!*fits && !move_up(l, &tried, fits)))
            return false;
        if (*fits)
            *savings = tried;
    }
    return true;
}

/* As much in full as so many further pages allow, where they take it all in brief. */
static bool say_in_full(const struct laying *l, struct savings *savings, size_t further)
{
    size_t low = 1, high = l->sheet->in_brief.count + 1;
    while (low < high) {
        const size_t middle = (low + high) / 2;
        bool fits = false;
        take_turn(l, middle, savings);
        if (!trial_further(l, savings, further, &fits))
            return false;
        if (fits)
            high = middle;
        else
            low = middle + 1;
    }
    take_turn(l, low, savings);
    return true;
}

/* As they are, or the least closer that so many further pages take. */
static bool close_up(const struct laying *l, struct savings *savings, size_t further, bool *fits)
{
    struct savings tried = *savings;
    for (*fits = false; !*fits && tried.closeness < CLOSENESS_COUNT; tried.closeness += !*fits)
        if (!trial_further(l, &tried, further, fits))
            return false;
    *savings = *fits ? tried : *savings;
    return true;
}

/* Page one takes another share of what stands on the later ones, and gives up for it what it says
 * beside its rows: reasons, signs and what else is wrong are said again later where there is room
 * for them. Rows and what is normal stay as they are. */
static bool move_up_for_known(const struct laying *l, struct savings *savings, size_t further,
                              bool *fits)
{
    const struct savings before = *savings;
    const struct aside as_before = {before.message, before.says_key, (unsigned)before.whys};
    struct aside bare = page_one_bare;
    bare.message = before.message == MESSAGE_ALONE ? MESSAGE_ALONE : bare.message;
    bare.whys &= as_before.whys;
    for (size_t i = 0; i < TURNS && !*fits; i++) {
        struct savings tried = before;
        bool hopes = false;
        if (turns[i].rows_less > 0 || turns[i].without_normal)
            continue; /* the shares come again there */
        tried.says_known = true;
        tried.moves_up = turns[i].moves_up;
        tried.wide = before.wide || turns[i].is_bare;
        tried.closeness = CLOSENESS_COUNT - 1;
        page_one_say(&tried, turns[i].is_bare ? &bare : &as_before);
        if (!trial_further(l, &tried, further, &hopes))
            return false;
        tried.closeness = before.closeness;
        if (hopes && !close_up(l, &tried, further, fits))
            return false;
        *savings = *fits ? tried : *savings;
    }
    return true;
}

/* Nobody can judge what was found without how it is known: lists go closer for its line, and for
 * what is normal where that is gone too. What went closer than that asks opens again. */
static bool keep_known(const struct laying *l, struct savings *savings, size_t further)
{
    bool fits = false;
    if (!savings->moves_up && !savings->without_normal && savings->closeness < CLOSE_RUN_ON)
        return true; /* it is said, and so is what words mean */
    for (int normal = savings->without_normal; normal >= 0 && !fits; normal--) {
        struct savings tried = *savings;
        tried.says_known = true;
        tried.without_normal = tried.without_normal && normal == 0;
        if (!close_up(l, &tried, further, &fits))
            return false;
        *savings = fits ? tried : *savings;
    }
    return fits || move_up_for_known(l, savings, further, &fits);
}

/* What the chosen pages must say, and then what they have room for. */
static bool fill_pages(const struct laying *l, struct savings *savings, size_t further)
{
    return keep_known(l, savings, further) && openings_use(l, savings, further);
}

/* The first turn with which pages that are filled take it all; as they were where none does. */
static bool choose_turn(const struct laying *l, struct savings *savings, bool *fits)
{
    const struct savings before = *savings;
    if (!trial_out(l, savings, fits))
        return false;
    if (*fits)
        return fill_pages(l, savings, 0);
    if (!save_all(l, savings, fits))
        return false;
    if (!*fits)
        *savings = before;
    else if (savings->closeness <= CLOSE_LINES && !say_in_full(l, savings, 0))
        return false;
    return !*fits || fill_pages(l, savings, 0);
}

/* The fewest further pages that take it as close as it can be set. */
static bool find_further(const struct laying *l, const struct savings *savings, size_t *further,
                         bool *fits)
{
    enum { FURTHER_MOST = 6 };
    struct savings closest = *savings;
    take_turn(l, l->sheet->in_brief.count, &closest);
    closest.closeness = CLOSENESS_COUNT - 1;
    closest.to_edges = true;
    for (*further = 1; *further <= FURTHER_MOST; ++*further)
        if (!trial_further(l, &closest, *further, fits) || *fits)
            return *fits;
    return true;
}

/* A sheet that takes a further page in any case fills it: it is set no closer than as many pages
 * ask for, and the paper's edges stay white where they can. */
static bool use_further(const struct laying *l, struct savings *savings, size_t *further_pages)
{
    struct savings tried = *savings;
    bool fits = false;
    *further_pages = 1;
    if (!trial_further(l, savings, *further_pages, &fits))
        return false;
    if (fits)
        return fill_pages(l, savings, *further_pages);
    if (!find_further(l, savings, further_pages, &fits))
        return false;
    const size_t further = *further_pages;
    if (!fits)
        return true; /* page one has no room */
    take_turn(l, l->sheet->in_brief.count + 1, &tried);
    for (fits = false; !fits && tried.closeness < CLOSENESS_COUNT; tried.closeness += !fits) {
        tried.to_edges = savings->to_edges || tried.closeness >= CLOSE_EDGES;
        if (!trial_further(l, &tried, further, &fits))
            return false;
    }
    const bool is_white = savings->to_edges;
    *savings = tried;
    if (savings->closeness == CLOSE_LINES && !say_in_full(l, savings, further))
        return false;
    if (!fill_pages(l, savings, further))
        return false;
    tried = *savings;
    tried.to_edges = is_white;
    if (savings->to_edges != is_white && !trial_further(l, &tried, further, &fits))
        return false;
    *savings = fits ? tried : *savings;
    return true;
}

/* Where all runs on, boxes to tick stand amid a text and words go unexplained: that is no way to
 * save a page, and one further page takes it as lists. */
static bool prefer_lists(const struct laying *l, const struct savings *before,
                         struct savings *savings, size_t *further)
{
    struct savings longer = *before;
    size_t pages = 0;
    if (!openings_run_on(l->in->plan, savings))
        return true;
    if (!use_further(l, &longer, &pages))
        return false;
    if (pages > 1 || openings_run_on(l->in->plan, &longer))
        return true;
    *savings = longer;
    *further = pages;
    return true;
}

/* The pages of the kind, else as few further ones as there can be. */
static bool choose_pages(const struct laying *l, struct savings *savings, size_t *further)
{
    const struct savings before = *savings;
    bool fits = false;
    if (!choose_turn(l, savings, &fits))
        return false;
    return fits ? prefer_lists(l, &before, savings, further) : use_further(l, savings, further);
}

/* What is between the text and the paper's edges is made wider again by so much, where the same
 * pages take all that they say. */
static bool widen_margins(const struct laying *l, struct savings *savings, size_t further,
                          double least_pt, double most_pt)
{
    static const double STEP_PT = 6;
    bool fits = savings->to_edges;
    for (double inset = least_pt; inset <= most_pt && fits; inset += STEP_PT) {
        struct savings tried = *savings;
        tried.inset_pt = inset;
        if (!trial_further(l, &tried, further, &fits))
            return false;
        *savings = fits ? tried : *savings;
    }
    return true;
}

/* What the chosen pages still have room for: what page one gave up, then wider margins. */
static bool use_room(const struct laying *l, struct savings *savings, size_t further)
{
    static const double RESTFUL_PT = 6, USUAL_PT = 18; /* memory: 24 pt are enough to rest in */
    return page_one_say_again(l, savings, further) &&
           widen_margins(l, savings, further, RESTFUL_PT, USUAL_PT);
}

/* Where saving is not enough for one page more either, closer and closer; the fewest pages win. */
static bool lay_closest(const struct laying *l, struct savings *savings, double fewest,
                        struct paged *shortest)
{
    struct savings tried = *savings;
    for (int closeness = CLOSE_LINES + 1;
         closeness < CLOSENESS_COUNT && (double)shortest->page_count > fewest; closeness++) {
        struct paged paged = {0};
        tried.closeness = (enum closeness)closeness;
        if (!trial_lay(l, &tried, &paged))
            return false;
        if (paged.page_count < shortest->page_count)
            *shortest = paged;
    }
    return true;
}

/* As much in full as the fewest pages allow that can be had; what saves no page is said in full,
 * for there is room for it. */
static bool shorten(const struct laying *l, struct savings *savings, double fewest,
                    struct paged *out)
{
    struct paged shortest = {0};
    size_t turn = 0, last = l->sheet->in_brief.count + 1; /* too long; short enough */
    take_turn(l, last, savings);
    if (!trial_lay(l, savings, &shortest))
        return false;
    const size_t saved = shortest.page_count;
    if (!lay_closest(l, savings, fewest, &shortest))
        return false;
    size_t aim = (size_t)fmax(l->sheet->pages.value, (double)shortest.page_count);
    if (out->page_count <= aim)
        return true;
    *out = shortest;
    if (shortest.page_count < saved)
        return true; /* it took all */
    while (last - turn > 1) {
        size_t middle = turn + (last - turn) / 2;
        struct paged tried = {0};
        take_turn(l, middle, savings);
        if (!trial_lay(l, savings, &tried))
            return false;
        bool is_short = tried.page_count <= aim;
        *out = is_short ? tried : *out;
        last = is_short ? middle : last;
        turn = is_short ? turn : middle;
    }
    return true;
}

static size_t count_filled(const struct sheet_template *sheet)
{
    size_t count = 0;
    for (size_t i = 0; i < sheet->sections.count; i++)
        count += LIST_AT(sheet->sections, struct sheet_section, i)->page.count > 0;
    return count;
}

bool sheet_lay(const struct sheet_inputs *in, struct arena *arena, struct diag *diag,
               struct paged *out)
{
    const struct sheet_template *sheet = trial_kind(in, diag);
    if (!sheet)
        return false;
    struct text_store *texts = ARENA_NEW(arena, struct text_store);
    struct arena trials;
    struct kept_sections kept = {.arena = arena};
    size_t entries = sheet->sections.count, pages = count_filled(sheet);
    const struct laying l = {in, sheet, texts, &trials, &kept, pages == entries, diag};
    struct savings savings = {
        .steps = STEPS_MOST, .whys = PAGE_ONE_WHYS, .message = MESSAGE_FULL, .says_key = true};
    bool is_filled =
        entries > 0 && LIST_AT(sheet->sections, struct sheet_section, 0)->page.count > 0;
    text_store_init(texts, fonts_measure(in->context->fonts), arena);
    /* running text has no room that could be measured */
    bool is_chosen = is_filled && pages == entries && sheet->in_brief.count > 0 &&
                     sheet->pages.value <= (double)entries;
    arena_init(&trials);
    size_t further = 0;
    bool is_tried =
        (!is_filled || page_one_move_steps(&l, &savings)) &&
        (!is_chosen || (choose_pages(&l, &savings, &further) && use_room(&l, &savings, further)));
    arena_finish(&trials);
    if (!is_tried || !trial_lay(&l, &savings, out))
        return false;
    /* where no turn fits its pages, one more is the fewest there can be */
    double fewest = is_chosen ? (double)entries + 1 : sheet->pages.value;
    return sheet->in_brief.count == 0 || (double)out->page_count <= fewest ||
           shorten(&l, &savings, fewest, out);
}

bool sheet_write(const struct sheet_inputs *in, struct arena *arena, struct diag *diag,
                 struct bytes *out)
{
    struct paged paged = {0};
    return sheet_lay(in, arena, diag, &paged) &&
           pdf_write(&paged, in->context->fonts, arena, diag, out);
}
