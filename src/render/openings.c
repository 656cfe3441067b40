/* What a sheet that is set close is opened at again, by a table. */
#include "render/openings.h"

#include <string.h>

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
/* What is to be done and when to call are lists before it is said that each dose is given, and that
 * is said before lists stand apart. */
enum { LOOSENINGS = sizeof loosenings / sizeof *loosenings, LOOSENED_FIRST = 3 };
static const enum closeness OF_LISTS = CLOSE_HEADINGS;

/* What its pages had no room for. */
struct refusal {
    struct savings savings;
    struct refusal *next;
};

/* A sheet whose room is used, with so many further pages. */
struct filling {
    const struct laying *l;
    size_t further;
    struct refusal *refused;
};

static void refuse(struct filling *f, const struct savings *savings)
{
    struct refusal *refusal = ARENA_NEW(f->l->texts->arena, struct refusal);
    *refusal = (struct refusal){*savings, f->refused};
    f->refused = refusal;
}

/* What had no room without pictures and saying less of medicines has none with them. */
static bool was_refused(const struct filling *f, const struct savings *savings)
{
    for (const struct refusal *one = f->refused; one; one = one->next) {
        const struct savings *less = &one->savings;
        if (less->cuts == CUTS_NONE && less->medicines <= savings->medicines &&
            less->lines == savings->lines && less->brief == savings->brief &&
            less->closeness == savings->closeness &&
            memcmp(less->opened, savings->opened, sizeof less->opened) == 0)
            return true;
    }
    return false;
}

/* One of them, the least close that so many further pages take, down to this. What is closer than
 * lines has no room for more than those. */
static bool open_one(struct filling *f, const struct loosening *loosening, struct savings *savings,
                     enum closeness until)
{
    static const enum closeness ways[] = {CLOSE_BOXES, CLOSE_HEADINGS, CLOSE_LINES, CLOSE_AS_USUAL};
    const bool is_close = savings->closeness > CLOSE_LINES;
    const enum closeness least = is_close ? CLOSE_LINES : loosening->least;
    const enum closeness is_open = savings->opened[loosening->sections[0]];
    bool fits = true;
    for (size_t way = 0; way < sizeof ways / sizeof *ways && fits; way++) {
        struct savings tried = *savings;
        if (ways[way] < least || ways[way] < until || ways[way] + is_open >= savings->closeness)
            continue;
        for (size_t i = 0; i < loosening->count; i++)
            tried.opened[loosening->sections[i]] = savings->closeness - ways[way];
        fits = !was_refused(f, &tried);
        if (fits && !trial_further(f->l, &tried, f->further, &fits))
            return false;
        if (!fits)
            refuse(f, &tried);
        *savings = fits ? tried : *savings;
    }
    return true;
}

/* What is looked up in a fright and what is done, from paragraphs to lists. */
static bool open_lists(struct filling *f, struct savings *savings)
{
    for (size_t i = 0; i < LOOSENED_FIRST; i++)
        if (!open_one(f, &loosenings[i], savings, OF_LISTS))
            return false;
    return true;
}

/* All that has room to stand apart; a list that had no room to be one has none for that. */
static bool open_apart(struct filling *f, struct savings *savings, bool were_paragraphs)
{
    for (size_t i = 0; i < LOOSENINGS; i++) {
        const enum closeness opened = savings->opened[loosenings[i].sections[0]];
        if (i < LOOSENED_FIRST && were_paragraphs && savings->closeness - opened > OF_LISTS)
            continue;
        if (!open_one(f, &loosenings[i], savings, CLOSE_AS_USUAL))
            return false;
    }
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
static bool try_medicines(struct filling *f, struct savings *tried, bool *fits)
{
    const size_t harmless = harmless_turns(f->l->sheet), count = f->l->sheet->in_brief.count;
    for (;;) {
        if (!trial_further(f->l, tried, f->further, fits) || *fits)
            return *fits;
        if (tried->brief != harmless && tried->brief < count)
            tried->brief++;
        else if (tried->closeness == CLOSE_AS_USUAL && tried->brief == count)
            tried->closeness = CLOSE_LINES;
        else
            return true;
    }
}

/* Of what each medicine is for the most up to this that its pages have room for: it costs a line or
 * two. */
static bool say_uses(struct filling *f, struct savings *savings, enum medicines_say most)
{
    const int said = (int)savings->medicines;
    bool fits = f->l->in->plan->medicine_count == 0;
    for (int says = (int)most; says > said && !fits; says--) {
        struct savings tried = *savings;
        tried.medicines = (enum medicines_say)says;
        if (!try_medicines(f, &tried, &fits))
            return false;
        *savings = fits ? tried : *savings;
    }
    return true;
}

/* More is said, where the pages have room for it. */
static bool take_what_fits(struct filling *f, struct savings *savings, const struct savings *tried)
{
    bool fits = false;
    if (!trial_further(f->l, tried, f->further, &fits))
        return false;
    *savings = fits ? *tried : *savings;
    return true;
}

/* What of a missed dose on a line of its own: only where that closes no list, as a list says more
 * of whom to call. */
static bool say_all_of_medicines(struct filling *f, struct savings *savings)
{
    struct savings tried = *savings;
    tried.medicines = MEDICINES_ALL;
    /* there may have been no room for less */
    return savings->medicines < MEDICINES_COURSE || take_what_fits(f, savings, &tried);
}

/* May medicines run on? Where all stands apart each begins a line. */
static bool may_run_on(const struct filling *f, const struct savings *savings)
{
    return f->l->in->plan->medicine_count > 1 && savings->closeness != CLOSE_AS_USUAL &&
           savings->lines == LINES_RUN_ON;
}

/* Each medicine begins a line, as a list is looked up and a paragraph is read, and so does what
 * goes for more than one of them; that gives way first. */
static bool part_medicines(struct filling *f, struct savings *savings)
{
    for (int lines = LINES_OF_ANY; lines > LINES_RUN_ON && may_run_on(f, savings); lines--) {
        struct savings tried = *savings;
        tried.lines = (enum lines_begun)lines;
        if (!take_what_fits(f, savings, &tried))
            return false;
    }
    return true;
}

/* So does what is to be done after each thing that was done. */
static bool part_care(struct filling *f, struct savings *savings)
{
    struct savings tried = *savings;
    tried.lines = LINES_OF_CARE;
    const bool has_none = f->l->in->plan->procedure_count < 2 ||
                          savings->closeness == CLOSE_AS_USUAL || may_run_on(f, savings);
    return has_none || take_what_fits(f, savings, &tried);
}

/* The most small pictures up to these for which its pages have room, if more than those it has. */
static bool show_cuts(struct filling *f, struct savings *savings, enum cuts_shown most)
{
    bool fits = false;
    /* others in their place are no more */
    const int has = savings->cuts == CUTS_OTHERS ? CUTS_MEDICINES : (int)savings->cuts;
    for (int shown = (int)most; shown > has && !fits; shown--) {
        struct savings tried = *savings;
        tried.cuts = (enum cuts_shown)shown;
        if (!trial_further(f->l, &tried, f->further, &fits))
            return false;
        *savings = fits ? tried : *savings;
    }
    return true;
}

/* Large ones only where all have room, which they need small as well. */
static bool show_larger_cuts(struct filling *f, struct savings *savings)
{
    struct savings tried = *savings;
    tried.cuts = CUTS_LARGE;
    return savings->cuts < CUTS_SMALL || take_what_fits(f, savings, &tried);
}

/* Whatever opens once it is said what medicines are for. */
static bool open_the_rest(struct filling *f, struct savings *savings)
{
    const bool were_paragraphs = savings->closeness > OF_LISTS;
    if (!open_lists(f, savings))
        return false;
    /* what has no room for three words has none for more */
    if (savings->medicines == MEDICINES_PURPOSE && !say_uses(f, savings, MEDICINES_COURSE))
        return false;
    return part_medicines(f, savings) && open_apart(f, savings, were_paragraphs) &&
           say_all_of_medicines(f, savings) && part_care(f, savings);
}

/* All that is said where there is room, once it is chosen how close the sheet is set. What a
 * medicine helps with is three words, and what opens first would take the line that they need. */
static bool open_all(struct filling *f, struct savings *savings)
{
    return say_uses(f, savings, MEDICINES_PURPOSE) && open_the_rest(f, savings);
}

/* How much of a list is left at this closeness: its heading may lead into it. */
static int list_left(enum closeness closeness)
{
    return closeness < CLOSE_LISTS ? 2 : closeness < CLOSE_BOXES ? 1 : 0;
}

static enum closeness stands(const struct savings *savings, enum sheet_section_code section)
{
    return savings->closeness - savings->opened[section];
}

/* Does it say so much of medicines, are what to do, what to give and when to call as much of a
 * list, and are findings told as they are where there is room? */
static bool says_as_much(const struct savings *with, const struct savings *without,
                         enum medicines_say least)
{
    if (with->medicines < least || with->brief > without->brief || with->lines < without->lines ||
        (stands(with, SECTION_FINDINGS) > CLOSE_AS_USUAL &&
         stands(without, SECTION_FINDINGS) == CLOSE_AS_USUAL))
        return false;
    for (size_t i = 0; i < LOOSENED_FIRST; i++) {
        const enum sheet_section_code section = loosenings[i].sections[0];
        if (list_left(stands(with, section)) < list_left(stands(without, section)))
            return false;
    }
    return true;
}

/* All of it where headings lead in, or lists stand in more columns: that frees more than lines for
 * medicines take. Only for these, and where nothing is lost. */
static bool open_closer(struct filling *f, struct savings *closed, struct savings *savings)
{
    for (int closeness = (int)savings->closeness + 1;
         closeness <= CLOSE_LISTS && may_run_on(f, savings); closeness++) {
        struct savings closer = *closed, with;
        closer.closeness = (enum closeness)closeness;
        with = closer;
        if (!open_all(f, &with))
            return false;
        if (with.lines == LINES_RUN_ON || !says_as_much(&with, savings, savings->medicines))
            continue;
        *closed = closer;
        *savings = with;
    }
    return true;
}

/* What a medicine helps with is worth a picture; that each dose is given stands in its boxes too.
 */
static enum medicines_say worth_a_picture(enum medicines_say says)
{
    return says < MEDICINES_PURPOSE ? says : MEDICINES_PURPOSE;
}

/* Pictures first and small, all of them or some, where they cost no word and no
 * list that is looked up. With fewer there may be room for what these cost. */
static bool open_with_cuts(struct filling *f, const struct savings *closed, struct savings *savings)
{
    for (int most = CUTS_SMALL; most > CUTS_NONE && savings->cuts == CUTS_NONE; most--) {
        struct savings with = *closed;
        if (!show_cuts(f, &with, (enum cuts_shown)most))
            return false;
        if (with.cuts == CUTS_NONE)
            return true;
        most = (int)with.cuts;
        const enum medicines_say least = worth_a_picture(savings->medicines);
        if (!say_uses(f, &with, MEDICINES_PURPOSE))
            return false;
        if (with.medicines < least || with.brief > savings->brief)
            continue; /* what opens gives nothing of these back */
        if (!open_the_rest(f, &with))
            return false;
        if (says_as_much(&with, savings, least))
            *savings = with;
    }
    return true;
}

/* Pictures of what is done at home that have no place so stand there with what room is left in the
 * end, and take more of it. */
bool openings_use(const struct laying *l, struct savings *savings, size_t further)
{
    struct filling own = {l, further, NULL}, *f = &own;
    struct savings closed = *savings;
    return open_all(f, savings) && open_closer(f, &closed, savings) &&
           (!compose_has_cuts(f->l->in->plan) ||
            (open_with_cuts(f, &closed, savings) && show_cuts(f, savings, CUTS_SMALL) &&
             show_larger_cuts(f, savings)));
}

/* A paragraph of fewer is read through. */
static bool has_many_signs(const struct care_plan *plan)
{
    enum { MANY = 12 }; /* memory, by what readers of twelve sheets found again */
    size_t count = 0;
    for (size_t i = 0; i < plan->warning_count; i++)
        count += plan->warnings[i].tier == TIER_TODAY;
    return count >= MANY;
}

bool openings_run_on(const struct care_plan *plan, const struct savings *savings)
{
    static const enum sheet_section_code lists[] = {SECTION_NOW_HERE, SECTION_CALLS};
    bool runs = false, are_paragraphs = has_many_signs(plan);
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) {
        runs = runs || stands(savings, lists[i]) >= CLOSE_RUN_ON;
        are_paragraphs = are_paragraphs && stands(savings, lists[i]) >= CLOSE_PARAGRAPHS;
    }
    return runs || are_paragraphs;
}
