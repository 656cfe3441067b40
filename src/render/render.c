/* Language, units and paper of a sheet, then compose, lay out and write it. */
#include <math.h>
#include <string.h>

#include "render/render.h"
#include "words/phrase.h"

#include "layout/layout.h"
#include "layout/measured_text.h"
#include "sheet/compose.h"
#include "words/slots.h"

static bool read_wish(const char *wish, const struct choice *choices, const char *option,
                      struct choice_value *out, struct arena *arena, struct diag *diag)
{
    if (!wish)
        return true;
    for (const struct choice *c = choices; c->word; c++) {
        if (strcmp(c->word, wish) == 0) {
            *out = (struct choice_value){.known = true, .value = c->value};
            return true;
        }
    }
    diag_report(diag, DIAG_USAGE, "usage", (struct mark){0}, "'--%s' takes %s, not '%s'", option,
                bind_choice_list(choices, arena), wish);
    return false;
}

/* The keys under which the changed parts are worded. */
static size_t changed_keys(const struct signature *signature, struct arena *arena,
                           const char *const **out)
{
    const char **keys = ARENA_ARRAY(arena, const char *, SIGNATURE_PART_COUNT);
    size_t count = 0;
    for (int i = 0; i < SIGNATURE_PART_COUNT && signature->is_stale; i++)
        if (signature->changed[i])
            keys[count++] = signature_part_word((enum signature_part)i);
    *out = keys;
    return count;
}

/* In the language that was asked for, else the keeper's or the clinic's. */
static const struct wording *words_for(const struct sheet_inputs *in, struct diag *diag)
{
    const struct text_value wished = {.text = in->options->language}; /* has no place in a file */
    const struct text_value *language = wished.text ? &wished : &in->plan->keeper.language;
    return sheet_context_words(in->context, language->text, language->at, diag);
}

/* A sheet in one language does not name its animal in another. */
static bool has_name(const struct taxon_plan *species, const char *lang, struct diag *diag)
{
    if (species->is_unlisted || plan_name_in(species, lang))
        return true;
    diag_report_path(diag, DIAG_ERROR, "no-name", species->names_at, "species.names",
                     "'%s' has no name in '%s'; write it here", species->code, lang);
    return false;
}

/* What a sheet gives up to save pages. */
struct savings {
    size_t steps;        /* rows of page one at most */
    size_t brief;        /* see struct compose_inputs */
    bool wide, to_edges; /* likewise */
    size_t whys;         /* likewise */
    enum message_says message;
    enum medicines_say medicines; /* likewise */
    bool says_key, says_later;
    enum closeness closeness;
    enum closeness opened[SECTION_COUNT]; /* likewise */
    bool without_normal;                  /* likewise */
    unsigned moves_up;                    /* likewise */
    bool first_page;                      /* likewise */
    bool is_trial;                        /* likewise */
    struct kept_sections *kept;           /* likewise */
};

enum { STEPS_MOST = 3 };

/* NULL after errors. */
static const struct sheet_template *kind_of(const struct sheet_inputs *in, struct diag *diag)
{
    const struct text_value kind = {.text = in->options->kind ? in->options->kind : in->plan->kind};
    return sheet_kinds_need(&in->context->resources->kinds, &kind,
                            in->options->kind ? "--kind" : "visit.kind", diag);
}

static bool compose(const struct sheet_inputs *in, const struct savings *savings,
                    struct arena *arena, struct diag *diag, struct document *out)
{
    const struct care_plan *plan = in->plan;
    const struct sheet_options *options = in->options;
    const struct signature *signature = in->signature;
    struct choice_value units = {.value = (int)plan->keeper.units},
                        paper = {.value = (int)plan->letterhead.paper};
    if (!read_wish(options->paper, paper_choices, "paper", &paper, arena, diag) ||
        !read_wish(options->units, unit_system_choices, "units", &units, arena, diag))
        return false;
    struct compose_inputs inputs = {
        .plan = plan,
        .words = words_for(in, diag),
        .sheet = kind_of(in, diag),
        .look = in->context->look,
        .units = (enum unit_system)units.value,
        .logo = in->context->logo,
        .said = savings->is_trial ? NULL : options->said,
        .paper = (enum clinic_paper)paper.value,
        .live_links = options->live_links,
        .is_signed = signature->is_signed,
        .signed_by = signature->by,
        .signed_on = signature->on,
        .brief_count = savings->brief,
        .steps_most = savings->steps,
        .wide = savings->wide,
        .to_edges = savings->to_edges,
        .whys = savings->whys,
        .message = savings->message,
        .medicines = savings->medicines,
        .says_key = savings->says_key,
        .says_later = savings->says_later,
        .closeness = savings->closeness,
        .moves_up = savings->moves_up,
        .without_normal = savings->without_normal,
        .first_page = savings->first_page,
        .is_trial = savings->is_trial,
        .kept = savings->kept,
    };
    memcpy(inputs.opened, savings->opened, sizeof inputs.opened);
    inputs.changed_count = changed_keys(signature, arena, &inputs.changed);
    if (!inputs.words || !inputs.sheet || !has_name(&plan->taxon, inputs.words->lang, diag) ||
        !compose_sheet(&inputs, arena, diag, out))
        return false;
    out->is_locked = options->is_locked;
    out->record_id = sheet_record_id(plan, arena);
    return true;
}

bool sheet_compose(const struct sheet_inputs *in, struct arena *arena, struct diag *diag,
                   struct document *out)
{
    const struct savings none = {.steps =
                                     STEPS_MOST}; /* what stands where there is room, nowhere */
    return compose(in, &none, arena, diag, out);
}

/* One sheet on its way to pages, however often it is tried. */
struct laying {
    const struct sheet_inputs *in;
    const struct sheet_template *sheet;
    struct text_store *texts;
    struct arena *trials;       /* what was only tried out; forgotten before the next trial */
    struct kept_sections *kept; /* of the trials */
    bool is_panels;             /* alone: running text is explained in its blocks once written */
    struct diag *diag;
};

static bool lay_once(const struct laying *l, const struct savings *savings, struct paged *out)
{
    struct document *document = ARENA_NEW(l->texts->arena, struct document);
    struct savings laid = *savings;
    /* what is said is noted while it is written */
    laid.kept = l->is_panels && !l->in->options->said ? l->kept : NULL;
    if (!compose(l->in, &laid, l->texts->arena, l->diag, document))
        return false;
    return layout_document(document, l->texts, l->diag, out);
}

/* How many of those pages take all that stands on them. False after errors. */
static bool try_from(const struct laying *l, const struct savings *savings,
                     struct pages_asked asked, size_t *taken, bool *fits)
{
    struct savings tried = *savings;
    struct document document;
    arena_reset(l->trials);
    tried.is_trial = true;
    tried.kept = l->kept;
    if (!compose(l->in, &tried, l->trials, l->diag, &document))
        return false;
    *taken = layout_pages_taken(&document, asked, l->texts, l->trials, l->diag, fits);
    return true;
}

/* Whether pages that are filled take it all; false after errors. */
static bool try_out(const struct laying *l, const struct savings *savings, bool *fits)
{
    size_t taken;
    return try_from(l, savings, (struct pages_asked){0, 0}, &taken, fits);
}

/* Likewise, with so many further ones. */
static bool try_further(const struct laying *l, const struct savings *savings, size_t further,
                        bool *fits)
{
    size_t taken;
    return try_from(l, savings, (struct pages_asked){0, further}, &taken, fits);
}

/* What page one says beside its rows, from all of it to what gives way last before a row does: how
 * long the message is, which rows say why (a bit a row), what the drawing's signs mean. The first
 * row's reason gives way behind the others' and behind the signs; what is wrong behind the first
 * step, which its row says, and behind the day, which the dates say. */
static const struct aside {
    enum message_says message;
    bool says_key;
    unsigned whys;
    bool says_later; /* the titles of what is due tonight and stands on page two */
} asides[] = {{MESSAGE_FULL, true, 7, true},       {MESSAGE_NAMES, true, 7, true},
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
              {MESSAGE_ILLS, true, 0, false},      {MESSAGE_TWO, true, 0, false},
              {MESSAGE_BRIEF, true, 2, false},     {MESSAGE_BRIEF, true, 4, false},
              {MESSAGE_BRIEF, true, 0, false}};
enum { ASIDES = sizeof asides / sizeof *asides };

static const struct aside bare = {MESSAGE_BRIEF, false, 1, false};

static void say_aside(struct savings *savings, const struct aside *aside)
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

/* A tall drawing beside the rows, then the white edges of the paper, then the last row. */
static void give_for_rows(struct savings *savings)
{
    if (!savings->wide) {
        savings->wide = true;
        return;
    }
    savings->wide = false;
    savings->steps -= savings->to_edges;
    savings->to_edges = true;
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
            say_aside(savings, &(struct aside){asides[i].message, false, 0, false});
            if (!try_out(l, savings, &of_message->fits))
                return false;
            of_message->is_known = true;
        }
        say_aside(savings, &asides[i]);
        if ((i == 0 || of_message->fits) && !try_out(l, savings, fits))
            return false;
    }
    return true;
}

/* Rows that page one has no room for stand on page two; what stands beside them, a tall drawing
 * beside them and the paper's edges give way first. */
static bool move_steps(const struct laying *l, struct savings *savings)
{
    bool fits = false;
    savings->first_page = true;
    if (!find_aside(l, savings, &fits))
        return false;
    if (!fits)
        say_aside(savings, &bare);
    while (!fits) {
        if (!try_out(l, savings, &fits))
            return false;
        if (fits || (savings->steps <= 1 && savings->to_edges))
            break;
        give_for_rows(savings);
    }
    savings->first_page = false;
    return true;
}

/* Page one alone, once all else is settled: of what it gave up it says again what there is room
 * for. */
static bool say_again(const struct laying *l, struct savings *savings)
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
        say_aside(&tried, &asides[i]);
        if (!try_out(l, &tried, &fits))
            return false;
        if (fits)
            say_aside(savings, &asides[i]);
    }
    return true;
}

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

/* An earlier turn: whether it was tried, and whether page one took what it had. */
struct turned {
    bool is_tried, fits_first;
};

/* A page one that had no room has none for more; later pages that had none have none for more. */
static bool is_in_vain(const struct turned *turned, size_t at)
{
    const struct upward *turn = &turns[at];
    for (size_t i = 0; i < at; i++) {
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

/* The last that gives way: what page one can take as well stands there, more and more of it; why a
 * row is asked for, what the drawing's signs mean and the third row make room for it. Last of all
 * goes what is normal for the animal: it keeps a keeper from a needless call. */
static bool move_up(const struct laying *l, struct savings *savings, bool *fits)
{
    const struct savings before = *savings;
    struct turned turned[TURNS] = {{false, false}};
    for (size_t i = 0; i < TURNS && !*fits; i++) {
        size_t taken = 0;
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
        const struct aside as_before = {before.message, before.says_key, (unsigned)before.whys,
                                        before.says_later};
        say_aside(savings, turns[i].is_bare ? &bare : &as_before);
        if (!try_from(l, savings, (struct pages_asked){0, 0}, &taken, fits))
            return false;
        turned[i] = (struct turned){true, taken > 0};
    }
    if (!*fits)
        *savings = before;
    return true;
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
    return try_from(l, &most, (struct pages_asked){1, 0}, &taken, hopes);
}

/* Everything that can be saved, closer and closer. With all the paper that a printer reaches page
 * one may have room for more rows again. Hope is asked for only where the first try fails. */
static bool save_all(const struct laying *l, struct savings *savings, bool *fits)
{
    bool hopes = false;
    take_turn(l, l->sheet->in_brief.count + 1, savings);
    if (!try_out(l, savings, fits) || *fits)
        return *fits;
    if (!has_hope(l, savings, CLOSENESS_COUNT - 1, &hopes))
        return false;
    for (int closeness = CLOSE_LINES; closeness < CLOSENESS_COUNT && !*fits && hopes; closeness++) {
        struct savings tried = *savings;
        bool hopes_now = false, is_first = closeness == CLOSE_LINES;
        tried.closeness = (enum closeness)closeness;
        if (!has_hope(l, savings, tried.closeness, &hopes_now))
            return false;
        if (!hopes_now)
            continue;
        if (closeness >= CLOSE_EDGES) {
            tried.steps = STEPS_MOST;
            tried.wide = false;
            tried.to_edges = true;
            if (!move_steps(l, &tried))
                return false;
        }
        if ((!is_first && !try_out(l, &tried, fits)) || (!*fits && !move_up(l, &tried, fits)))
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
        if (!try_further(l, savings, further, &fits))
            return false;
        if (fits)
            high = middle;
        else
            low = middle + 1;
    }
    take_turn(l, low, savings);
    return true;
}

/* What a sheet that is set close is opened at again where its pages have room for that: first what
 * is looked up in a fright, then what is done each day, then what is ticked. What says one thing
 * together opens together. Boxes
 * to tick keep to one column, so that what is left is seen. */
static const struct loosening {
    enum closeness least;
    size_t count;
    enum sheet_section_code sections[4];
} loosenings[] = {
    {CLOSE_AS_USUAL, 1, {SECTION_CALLS}},
    {CLOSE_AS_USUAL, 1, {SECTION_NOW_HERE}},
    {CLOSE_LINES, 1, {SECTION_THEN}},
    {CLOSE_AS_USUAL, 1, {SECTION_MEDICINE_BOXES}},
    {CLOSE_AS_USUAL, 2, {SECTION_FINDINGS, SECTION_NORMAL_HERE}},
    {CLOSE_AS_USUAL, 4, {SECTION_FOOD, SECTION_WATER_HERE, SECTION_SIX_WEEKS, SECTION_WINTER_HERE}},
    {CLOSE_AS_USUAL,
     4,
     {SECTION_THREE_DAYS, SECTION_SINCE_HERE, SECTION_CAUTION_SIGNS, SECTION_SIGNATURE_LINE}},
};
/* What is to be done and when to call stand before what a medicine is for. */
enum { LOOSENINGS = sizeof loosenings / sizeof *loosenings, LOOSENED_FIRST = 3 };

/* One of them, the least close that so many further pages take. What is closer than lines has no
 * room for more than those. */
static bool open_one(const struct laying *l, const struct loosening *loosening,
                     struct savings *savings, size_t further)
{
    static const enum closeness ways[] = {CLOSE_BOXES, CLOSE_HEADINGS, CLOSE_LINES, CLOSE_AS_USUAL};
    const bool is_close = savings->closeness > CLOSE_LINES;
    const enum closeness least = is_close ? CLOSE_LINES : loosening->least;
    bool fits = true;
    for (size_t way = 0; way < sizeof ways / sizeof *ways && fits; way++) {
        struct savings tried = *savings;
        if (ways[way] < least || ways[way] >= savings->closeness)
            continue;
        for (size_t i = 0; i < loosening->count; i++)
            tried.opened[loosening->sections[i]] = savings->closeness - ways[way];
        if (!try_further(l, &tried, further, &fits))
            return false;
        *savings = fits ? tried : *savings;
    }
    return true;
}

/* The first of them up to `until`. */
static bool open_again(const struct laying *l, struct savings *savings, size_t further, size_t from,
                       size_t until)
{
    for (size_t i = from; i < until; i++)
        if (!open_one(l, &loosenings[i], savings, further))
            return false;
    return true;
}

/* So many of what may be said in brief say the same in less room: those before the findings. */
static size_t harmless_turns(const struct sheet_template *sheet)
{
    size_t count = 0;
    while (count < sheet->in_brief.count &&
           LIST_AT(sheet->in_brief, struct choice_value, count)->value != SECTION_FINDINGS)
        count++;
    return count;
}

/* With so much beside each medicine, in brief what says the same so; where that is not enough in
 * any case all of it, then as close as lines. What is set close opens again where it can. */
static bool try_medicines(const struct laying *l, struct savings *tried, size_t further, bool *fits)
{
    const size_t harmless = harmless_turns(l->sheet), count = l->sheet->in_brief.count;
    for (;;) {
        if (!try_further(l, tried, further, fits) || *fits)
            return *fits;
        if (tried->brief != harmless && tried->brief < count)
            tried->brief++;
        else if (tried->closeness == CLOSE_AS_USUAL && tried->brief == count)
            tried->closeness = CLOSE_LINES;
        else
            return true;
    }
}

/* What each medicine is for stands where its pages have room once all else is chosen: it costs a
 * line or two. */
static bool say_uses(const struct laying *l, struct savings *savings, size_t further)
{
    bool fits = l->in->plan->medicine_count == 0;
    for (int says = MEDICINES_COURSE; says > MEDICINES_BARE && !fits; says--) {
        struct savings tried = *savings;
        tried.medicines = (enum medicines_say)says;
        if (!try_medicines(l, &tried, further, &fits))
            return false;
        *savings = fits ? tried : *savings;
    }
    return true;
}

/* Whom to call who missed a dose: only where that closes no list, as a list says more of whom to
 * call. */
static bool say_all_of_medicines(const struct laying *l, struct savings *savings, size_t further)
{
    struct savings tried = *savings;
    bool fits = false;
    tried.medicines = MEDICINES_ALL;
    if (savings->medicines == MEDICINES_BARE)
        return true;
    if (!try_further(l, &tried, further, &fits))
        return false;
    *savings = fits ? tried : *savings;
    return true;
}

/* All that is said where there is room, once it is chosen how close the sheet is set. */
static bool use_room(const struct laying *l, struct savings *savings, size_t further)
{
    return open_again(l, savings, further, 0, LOOSENED_FIRST) && say_uses(l, savings, further) &&
           open_again(l, savings, further, LOOSENED_FIRST, LOOSENINGS) &&
           say_all_of_medicines(l, savings, further);
}

/* The first turn with which pages that are filled take it all; as they were where none does. */
static bool choose_turn(const struct laying *l, struct savings *savings, bool *fits)
{
    const struct savings before = *savings;
    if (!try_out(l, savings, fits))
        return false;
    if (*fits)
        return use_room(l, savings, 0);
    if (!save_all(l, savings, fits))
        return false;
    if (!*fits)
        *savings = before;
    else if (savings->closeness <= CLOSE_LINES && !say_in_full(l, savings, 0))
        return false;
    return !*fits || use_room(l, savings, 0);
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
        if (!try_further(l, &closest, *further, fits) || *fits)
            return *fits;
    return true;
}

/* A sheet that takes a further page in any case fills it: it is set no closer than as many pages
 * ask for, and the paper's edges stay white where they can. */
static bool use_further(const struct laying *l, struct savings *savings)
{
    struct savings tried = *savings;
    size_t further = 1;
    bool fits = false;
    if (!try_further(l, savings, further, &fits))
        return false;
    if (fits)
        return use_room(l, savings, further);
    if (!find_further(l, savings, &further, &fits))
        return false;
    if (!fits)
        return true; /* page one has no room */
    take_turn(l, l->sheet->in_brief.count + 1, &tried);
    for (fits = false; !fits && tried.closeness < CLOSENESS_COUNT; tried.closeness += !fits) {
        tried.to_edges = savings->to_edges || tried.closeness >= CLOSE_EDGES;
        if (!try_further(l, &tried, further, &fits))
            return false;
    }
    const bool is_white = savings->to_edges;
    *savings = tried;
    if (savings->closeness == CLOSE_LINES && !say_in_full(l, savings, further))
        return false;
    if (!use_room(l, savings, further))
        return false;
    tried = *savings;
    tried.to_edges = is_white;
    if (savings->to_edges != is_white && !try_further(l, &tried, further, &fits))
        return false;
    *savings = fits ? tried : *savings;
    return true;
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
        if (!lay_once(l, &tried, &paged))
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
    if (!lay_once(l, savings, &shortest))
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
        if (!lay_once(l, savings, &tried))
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
    const struct sheet_template *sheet = kind_of(in, diag);
    if (!sheet)
        return false;
    struct text_store *texts = ARENA_NEW(arena, struct text_store);
    struct arena trials;
    struct kept_sections kept = {.arena = arena};
    size_t entries = sheet->sections.count, pages = count_filled(sheet);
    const struct laying l = {in, sheet, texts, &trials, &kept, pages == entries, diag};
    struct savings savings = {.steps = STEPS_MOST,
                              .whys = asides[0].whys,
                              .message = MESSAGE_FULL,
                              .says_key = true,
                              .says_later = true};
    bool is_filled =
        entries > 0 && LIST_AT(sheet->sections, struct sheet_section, 0)->page.count > 0;
    text_store_init(texts, fonts_measure(in->context->fonts), arena);
    /* running text has no room that could be measured */
    bool is_chosen = is_filled && pages == entries && sheet->in_brief.count > 0 &&
                     sheet->pages.value <= (double)entries;
    arena_init(&trials);
    bool fits = false;
    bool is_tried =
        (!is_filled || move_steps(&l, &savings)) &&
        (!is_chosen || (choose_turn(&l, &savings, &fits) && (fits || use_further(&l, &savings)) &&
                        say_again(&l, &savings)));
    arena_finish(&trials);
    if (!is_tried || !lay_once(&l, &savings, out))
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

bool sheet_phrase_context(const struct sheet_inputs *in, struct arena *arena, struct diag *diag,
                          struct phrase_context *out)
{
    const struct care_plan *plan = in->plan;
    const struct sheet_options *options = in->options;
    struct choice_value units = {.value = (int)plan->keeper.units};
    if (!read_wish(options->units, unit_system_choices, "units", &units, arena, diag))
        return false;
    const struct wording *words = words_for(in, diag);
    if (!words)
        return false;
    *out = slots_context(
        (struct format){words, (enum unit_system)units.value, arena, diag, 0, false}, plan);
    return true;
}
