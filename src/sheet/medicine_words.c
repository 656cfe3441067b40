/* What is given, how, how often, how long and on which days, in words. */
#include "sheet/medicine_words.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

#include "base/strbuf.h"
#include "document/block_builder.h"
#include "sheet/sections.h"
#include "words/format_opening.h"

static const char *phrase_with(const struct phrase_context *ctx, const char *key,
                               struct plan_fact *facts)
{
    struct phrase_context own = *ctx;
    own.facts = facts;
    return phrase(&own, key);
}

static const char *say_two(const struct phrase_context *ctx, const char *key,
                           const char *const names[2], const char *first, const char *second)
{
    struct plan_fact more = {.name = names[1], .kind = FACT_TEXT, .text = second};
    struct plan_fact fact = {.name = names[0], .kind = FACT_TEXT, .text = first, .next = &more};
    return phrase_with(ctx, key, &fact);
}

static const char *say_one(const struct phrase_context *ctx, const char *key, const char *name,
                           const char *text)
{
    struct plan_fact fact = {.name = name, .kind = FACT_TEXT, .text = text};
    return phrase_with(ctx, key, &fact);
}

/* "first second" or "first, second"; either may be NULL. */
static const char *join(const struct phrase_context *ctx, const char *key, const char *first,
                        const char *second)
{
    static const char *const names[] = {"first", "second"};
    return first && second ? say_two(ctx, key, names, first, second) : first ? first : second;
}

static const char *day_text(const struct phrase_context *ctx, struct date day)
{
    bool same_year = day.year == ctx->plan->on.year;
    return same_year ? format_date_day(&ctx->format, day) : format_date_short(&ctx->format, day);
}

static const char *days_text(const struct phrase_context *ctx, const struct medicine_plan *m)
{
    static const char *const names[] = {"from", "until"};
    if (!m->has_first)
        return NULL;
    const char *from = day_text(ctx, m->first);
    if (!m->has_last)
        return say_one(ctx, "sheet.medicines.from", "from", from);
    if (date_compare(m->first, m->last) == 0)
        return from;
    return say_two(ctx, "sheet.medicines.from-until", names, from, day_text(ctx, m->last));
}

static const double DAY_H = 24;

/* "10 days" or "10 doses", as it was written; doses wherever a day may be without one, as the days
 * from the first dose to the last are not as many. */
static const char *length_text(const struct phrase_context *ctx, const struct medicine_plan *m)
{
    struct plan_fact doses = {.name = "doses",
                              .kind = FACT_COUNT,
                              .low = (double)m->dose_count,
                              .high = (double)m->dose_count};
    if (m->is_given_today && m->dose_count > 0)
        return phrase_with(ctx, "sheet.medicines.more-doses", &doses);
    const bool skips_days = m->has_every && m->every_h > DAY_H && m->dose_count > 0;
    if (m->has_count || skips_days)
        return phrase_with(ctx, "sheet.medicines.doses", &doses);
    return m->has_for ? say_one(ctx, "sheet.medicines.days", "days",
                                format_days(&ctx->format, m->for_days, m->for_days))
                      : NULL;
}

/* "10 %" and "23 mg/ml" stand on one line: a number alone at its end is read as another. */
const char *medicine_name(const struct composition *c, const struct medicine_plan *m)
{
    struct strbuf name;
    if (!m->name)
        return phrase(&c->ctx, "sheet.medicines.tube-food");
    strbuf_init(&name, c->arena);
    for (const char *at = m->name; *at; at++) {
        const bool behind = at > m->name && isdigit((unsigned char)at[-1]),
                   before = isdigit((unsigned char)at[1]);
        if (*at == ' ' && behind && at[1] && !before)
            strbuf_add(&name, "\xc2\xa0");
        else if (*at == '.' && behind && before) /* "0.5 mg/ml": a dose beside it has a comma */
            strbuf_add(&name, phrase(&c->ctx, "number.decimal-mark"));
        else
            strbuf_add_char(&name, *at);
    }
    return name.text;
}

/* What directions say of the mouth may be to wipe it: they say how it gets there, the route does
 * not. Without an amount it may lie on the food, and nothing is put in. */
static const char *route_text(const struct phrase_context *ctx, const struct medicine_plan *m)
{
    if (!m->has_route)
        return NULL;
    bool leaves_how = m->directions && m->has_amount && m->route == ROUTE_BY_MOUTH;
    if (m->says_eye && m->route == ROUTE_IN_THE_EYE)
        return phrase_code(ctx, "medicine-route", "in-that-eye");
    return phrase_code(ctx, "medicine-route",
                       leaves_how ? "into-the-mouth"
                                  : bind_choice_word(route_choices, (int)m->route));
}

/* "every 24 hours", in words that go with hours or with days. */
static const char *every_text(const struct phrase_context *ctx, const struct medicine_plan *m)
{
    const bool of_days = m->every_h > DAY_H && fmod(m->every_h, DAY_H) == 0;
    return say_one(ctx, of_days ? "sheet.medicines.every-days" : "sheet.medicines.every", "every",
                   format_interval(&ctx->format, m->every_h));
}

/* "0.2 ml by mouth, every 24 hours, for 10 days: Sat 28 Nov to Mon 7 Dec."; NULL where nothing of
 * it is written. */
static const char *medicine_line(const struct phrase_context *ctx, const struct medicine_plan *m)
{
    const char *amount =
        m->has_amount ? format_amount(&ctx->format, m->amount, m->amount_unit) : NULL;
    const char *route = route_text(ctx, m);
    const char *every = m->has_every ? every_text(ctx, m) : NULL;
    if (every && m->moved)
        every = say_one(ctx, "sheet.medicines.every-about", "every", every);
    const char *what = join(ctx, "sheet.medicines.beside", amount, route);
    if (m->is_given_here)
        what = join(ctx, "sheet.medicines.then", phrase(ctx, "sheet.medicines.here"), what);
    what = join(ctx, "sheet.medicines.then", what, every);
    what = join(ctx, "sheet.medicines.then", what, length_text(ctx, m));
    const char *line = join(ctx, "sheet.medicines.dated", what, days_text(ctx, m));
    line =
        line ? arena_format(ctx->format.arena, "%s.", text_capital(ctx->format.arena, line)) : NULL;
    if (!line || !m->is_given_today)
        return line;
    const char *today = m->given_minute < 0 ? phrase(ctx, "sheet.medicines.today")
                                            : say_one(ctx, "sheet.medicines.today-at", "time",
                                                      format_clock(&ctx->format, m->given_minute));
    return arena_format(ctx->format.arena, "%s %s", line, today);
}

/* One sentence behind another, which may have no stop of its own. */
static const char *beside(const struct phrase_context *ctx, const char *text, const char *more)
{
    static const char stops[] = ".!?";
    bool ends = text[0] && strchr(stops, text[strlen(text) - 1]);
    return arena_format(ctx->format.arena, ends ? "%s %s" : "%s. %s", text, more);
}

/* "Tonight 11 pm and Mon 30 Nov 11 am": every dose of several a day that the clinic gives, where
 * they are few; else NULL. */
const char *medicine_here_times(const struct phrase_context *ctx, const struct medicine_plan *m)
{
    enum { TIMES_SHOWN = 6 };
    const char *days[TIMES_SHOWN];
    size_t count = 0;
    if (!m->is_given_here || !m->says_clock || m->every_h >= DAY_H || m->listed > TIMES_SHOWN)
        return NULL;
    if (!plan_stays_by_clock(m) && m->listed > 0 &&
        date_compare(m->doses[0].on, ctx->plan->on) != 0)
        return NULL; /* a visit as any other, with one hour */
    for (size_t i = 0; i < m->listed; count++) {
        const char *times[TIMES_SHOWN];
        const struct date day = m->doses[i].on;
        size_t n = 0;
        for (; i < m->listed && date_compare(m->doses[i].on, day) == 0; i++)
            times[n++] = format_clock(&ctx->format, m->doses[i].minute);
        const bool is_today = date_compare(day, ctx->plan->on) == 0;
        days[count] =
            arena_format(ctx->format.arena, "%s %s",
                         is_today ? phrase(ctx, "sheet.medicines.here-today") : day_text(ctx, day),
                         phrase_all_of(ctx, times, n));
    }
    return count ? phrase_all_of(ctx, days, count) : NULL;
}

/* The days of the course that have no dose, and the day of which she wrote by itself. */
static const char *with_days_out(const struct phrase_context *ctx, const struct medicine_plan *m,
                                 const char *text)
{
    const char **days = ARENA_ARRAY(ctx->format.arena, const char *, m->not_on_count + 1);
    for (size_t i = 0; i < m->not_on_count; i++)
        days[i] = day_text(ctx, m->not_on[i]);
    if (m->not_on_count)
        text = beside(ctx, text,
                      say_one(ctx, "sheet.medicines.not-on", "days",
                              phrase_all_of(ctx, days, m->not_on_count)));
    return m->leaves_day ? beside(ctx, text,
                                  say_one(ctx, "sheet.medicines.referral", "days",
                                          day_text(ctx, ctx->plan->referral.on)))
                         : text;
}

/* Doses that the clinic gives on days that it is closed, or that nobody wrote: the keeper asks. */
static const char *with_visits(const struct phrase_context *ctx, const struct medicine_plan *m,
                               const char *text)
{
    enum { CLOSED_SHOWN = 3 };
    const char *days[CLOSED_SHOWN];
    size_t count = m->closed_count < CLOSED_SHOWN ? m->closed_count : CLOSED_SHOWN;
    if (m->asks_days)
        return beside(ctx, text, phrase(ctx, "sheet.medicines.ask-days"));
    const char *times = medicine_here_times(ctx, m);
    if (times)
        text = beside(ctx, text, say_one(ctx, "sheet.medicines.here-times", "times", times));
    for (size_t i = 0; i < count; i++)
        days[i] = day_text(ctx, m->closed[i]);
    return count == 0 ? text
                      : beside(ctx, text,
                               say_one(ctx, "sheet.medicines.closed", "days",
                                       phrase_all_of(ctx, days, count)));
}

bool medicine_waits(const struct care_plan *plan, const struct medicine_plan *m)
{
    bool by_mouth = !m->has_route || m->route == ROUTE_BY_MOUTH || m->route == ROUTE_IN_THE_MOUTH ||
                    m->route == ROUTE_FEEDING_TUBE;
    bool today = !m->has_first || date_compare(m->first, plan->on) <= 0;
    return by_mouth && today && !m->is_given_here;
}

/* "Today give it only once it is awake", where that is to be said of it. */
static const char *waking_of(const struct phrase_context *ctx, const struct medicine_plan *m)
{
    return medicine_waits(ctx->plan, m) ? phrase(ctx, "sheet.medicines.once-awake") : "";
}

/* What has no days of its own: the first is a blank, and the last too, as a course is never ended
 * by a guess. Directions that say how long say it themselves; until the check is a day. */
static const char *first_dose(const struct phrase_context *ctx, const struct medicine_plan *m)
{
    if (m->has_for || m->has_count)
        return phrase(ctx, "sheet.medicines.write-down-first");
    if (m->says_check && ctx->plan->has_recheck) /* in full: it is read aloud with her own words */
        return say_one(ctx, "sheet.medicines.write-down-until", "until",
                       format_date_long(&ctx->format, ctx->plan->recheck));
    return phrase(ctx, m->says_length ? "sheet.medicines.write-down-first"
                                      : "sheet.medicines.write-down-course");
}

/* One box for many doses would say the course is done once it is ticked: what has no days of its
 * own to tick is written down, and whoever was told no first day asks. */
static const char *with_diary(const struct phrase_context *ctx, const struct medicine_plan *m,
                              const char *text)
{
    if (m->listed > 0 || m->is_given_here)
        return text;
    if (m->asks_label)
        text = beside(ctx, text, phrase(ctx, "sheet.medicines.label-amount"));
    if (m->has_first || *waking_of(ctx, m))
        return beside(ctx, text, phrase(ctx, "sheet.medicines.write-down"));
    return beside(ctx, text, first_dose(ctx, m));
}

/* What goes into a mouth that cannot swallow yet goes down the windpipe. */
static const char *with_waking(const struct phrase_context *ctx, const struct medicine_plan *m,
                               const char *text)
{
    const char *waking = waking_of(ctx, m);
    return *waking ? beside(ctx, text, waking) : text;
}

const char *medicine_text_of(const struct phrase_context *ctx, const struct medicine_plan *m)
{
    const char *line = medicine_line(ctx, m);
    line = line ? with_days_out(ctx, m, line) : NULL;
    const char *end = m->has_every && m->dose_count == 0 && !m->directions
                          ? phrase(ctx, "sheet.medicines.ask-end")
                          : NULL;
    /* her own words may have no stop, and what follows them is not hers */
    const char *more = m->directions ? text_ended(ctx->format.arena, m->directions) : end;
    if (!line && !more)
        return with_waking(ctx, m, phrase(ctx, "sheet.medicines.ask"));
    const char *both = line && more ? arena_format(ctx->format.arena, "%s %s", line, more)
                       : line       ? line
                                    : more;
    if (m->asks_hours)
        both = beside(ctx, both, phrase(ctx, "sheet.medicines.ask-hours"));
    return with_diary(ctx, m, with_waking(ctx, m, with_visits(ctx, m, both)));
}

/* A bit a way in. */
#define WAY(route_) (1u << (route_))
enum {
    NEEDLE = WAY(ROUTE_INJECTION) | WAY(ROUTE_UNDER_THE_SKIN) | WAY(ROUTE_INTO_THE_MUSCLE),
    INTO_MOUTH = WAY(ROUTE_BY_MOUTH) | WAY(ROUTE_IN_THE_MOUTH),
    DOWN = INTO_MOUTH | WAY(ROUTE_FEEDING_TUBE), /* who cannot swallow steadily breathes it in */
    INTO_AIR = WAY(ROUTE_IN_THE_NOSE) | WAY(ROUTE_BREATHED_IN),
};

static bool goes_by(const struct medicine_plan *m, unsigned routes)
{
    return m->has_route && (WAY(m->route) & routes);
}

/* How a medicine is given at home. Directions say it themselves: what holds whatever they say
 * stands all the same. */
static bool has_no_directions(const struct medicine_plan *m)
{
    return !m->directions;
}

/* Some millilitres or drops; a powder or a tablet cannot be dripped. */
static bool is_dripped(const struct medicine_plan *m)
{
    return has_no_directions(m) && m->has_amount &&
           (m->amount_unit == UNIT_MILLILITRE || m->amount_unit == UNIT_DROP);
}

static bool is_of_any_warmth(const struct medicine_plan *m)
{
    return !m->says_warmth;
}

static bool is_of_any_depth(const struct medicine_plan *m)
{
    return !m->says_depth;
}

enum way_kind {
    WAY_HOW,
    WAY_HOW_EACH, /* who looks one medicine up must not miss it: never told of several */
    WAY_WATCH,    /* the one thing to watch for, unless the veterinarian wrote it */
};

static const struct {
    unsigned routes;
    const char *key;
    enum way_kind kind;
    bool (*holds)(const struct medicine_plan *m); /* besides; NULL: nothing */
} ways[] = {
    {DOWN, "sheet.medicines.steady", WAY_HOW_EACH, NULL},
    {NEEDLE, "sheet.medicines.needle", WAY_HOW, NULL},
    {WAY(ROUTE_BY_MOUTH), "sheet.medicines.drip", WAY_HOW, is_dripped},
    {WAY(ROUTE_IN_THE_MOUTH), "sheet.medicines.gums", WAY_HOW, NULL},
    {INTO_MOUTH, "sheet.medicines.soft-jaw", WAY_HOW, NULL},
    {WAY(ROUTE_IN_THE_EYE), "sheet.medicines.eye", WAY_HOW, has_no_directions},
    {WAY(ROUTE_IN_A_BATH), "sheet.medicines.bath-warm", WAY_HOW, is_of_any_warmth},
    {WAY(ROUTE_IN_A_BATH), "sheet.medicines.bath-deep", WAY_HOW, is_of_any_depth},
    {WAY(ROUTE_BY_MOUTH), "sheet.medicines.watch-mouth", WAY_WATCH, NULL},
    {WAY(ROUTE_IN_THE_MOUTH), "sheet.medicines.watch-gums", WAY_WATCH, NULL},
    {NEEDLE, "sheet.medicines.watch-needle", WAY_WATCH, NULL},
    {WAY(ROUTE_ON_THE_SKIN), "sheet.medicines.watch-skin", WAY_WATCH, NULL},
    {WAY(ROUTE_IN_THE_EYE), "sheet.medicines.watch-eye", WAY_WATCH, NULL},
    {WAY(ROUTE_IN_THE_EAR), "sheet.medicines.watch-ear", WAY_WATCH, NULL},
    {INTO_AIR, "sheet.medicines.watch-air", WAY_WATCH, NULL},
    {WAY(ROUTE_FEEDING_TUBE), "sheet.medicines.watch-tube", WAY_WATCH, NULL},
    {WAY(ROUTE_IN_A_BATH), "sheet.medicines.watch-bath", WAY_WATCH, NULL},
};
enum { WAYS = sizeof ways / sizeof *ways };

/* A spot of a needle is seen at home whoever gave it. What to watch for follows from the name too,
 * where that tells the way in. */
static bool is_given_so(const struct medicine_plan *m, size_t way)
{
    const bool is_watch = ways[way].kind == WAY_WATCH;
    const bool at_home = !m->is_given_here || (is_watch && goes_by(m, NEEDLE));
    if (!at_home || (is_watch && m->watch) || !(is_watch ? m->has_way : m->has_route))
        return false;
    return (WAY(is_watch ? m->way : m->route) & ways[way].routes) &&
           (!ways[way].holds || ways[way].holds(m));
}

static size_t count_given_so(const struct care_plan *plan, size_t way)
{
    size_t count = 0;
    for (size_t i = 0; i < plan->medicine_count; i++)
        count += is_given_so(&plan->medicines[i], way);
    return count;
}

bool medicine_needs_steady(const struct medicine_plan *m)
{
    return !m->is_given_here && goes_by(m, DOWN);
}

static bool is_to_be_shown(const struct medicine_plan *m)
{
    const bool by_hand = goes_by(m, WAY(ROUTE_BY_MOUTH) | WAY(ROUTE_IN_THE_EYE));
    return !m->is_given_here &&
           (goes_by(m, NEEDLE | WAY(ROUTE_FEEDING_TUBE)) || (by_hand && has_no_directions(m)));
}

static size_t count_to_be_shown(const struct care_plan *plan)
{
    size_t count = 0;
    for (size_t i = 0; i < plan->medicine_count; i++)
        count += is_to_be_shown(&plan->medicines[i]);
    return count;
}

/* The veterinarian's own stands in any case. */
static bool is_told(const struct composition *c, size_t way)
{
    return ways[way].kind != WAY_WATCH || section_says_of_medicines(c, MEDICINES_WATCH);
}

static bool is_told_of_each(const struct care_plan *plan, size_t way)
{
    return ways[way].kind == WAY_HOW_EACH || count_given_so(plan, way) == 1;
}

/* Behind a list it would be read of the last one: it stands behind its own medicine. */
static const char *with_way(const struct composition *c, const struct medicine_plan *m,
                            const char *text)
{
    const struct phrase_context *ctx = &c->ctx;
    for (size_t i = 0; i < WAYS; i++) {
        bool is_own = is_given_so(m, i) && is_told_of_each(ctx->plan, i) && is_told(c, i);
        const char *way = is_own ? phrase(ctx, ways[i].key) : "";
        if (*way)
            text = beside(ctx, text, way);
    }
    if (m->watch)
        text = beside(
            ctx, text,
            say_one(ctx, "sheet.medicines.watch", "what", text_ended(ctx->format.arena, m->watch)));
    return is_to_be_shown(m) && count_to_be_shown(ctx->plan) == 1
               ? beside(ctx, text, phrase(ctx, "sheet.medicines.not-shown"))
               : text;
}

/* What it helps with, and that a course is not left half done. Who has directions of their own is
 * told no course of ours; who comes for it comes for each. */
static const char *with_use(const struct composition *c, const struct medicine_plan *m,
                            const char *text)
{
    if (m->for_what && !m->name_tells_use)
        return beside(&c->ctx, text,
                      say_one(&c->ctx, "sheet.medicines.for-what", "what",
                              text_ended(c->arena, m->for_what)));
    if (!m->use || !section_says_of_medicines(c, MEDICINES_PURPOSE))
        return text;
    const char *whose = m->is_given_here ? "here" : "home";
    bool has_course = m->is_given_here ? m->listed > 0 : !m->directions;
    const char *of_course = arena_format(c->arena, "%s-%s", m->use, whose);
    const char *use = has_course && section_says_of_medicines(c, MEDICINES_COURSE)
                          ? phrase_if_worded(&c->ctx, of_course)
                          : NULL;
    return beside(&c->ctx, text, use ? use : phrase(&c->ctx, m->use));
}

const char *medicine_text(const struct composition *c, const struct medicine_plan *m)
{
    return with_way(c, m, with_use(c, m, medicine_text_of(&c->ctx, m)));
}

const char *medicine_time(const struct composition *c, const struct medicine_plan *m,
                          const struct dose_plan *dose)
{
    if (m->asks_hours)
        return phrase(&c->ctx, "sheet.medicines.hour-blank");
    return m->says_clock ? format_clock(&c->ctx.format, dose->minute)
                         : phrase_code(&c->ctx, "day-part",
                                       bind_choice_word(day_part_choices, (int)dose->at));
}

const char *medicine_and(const struct composition *c, const char *first, const char *second)
{
    return join(&c->ctx, "sheet.medicines.then", first, second);
}

const char *medicine_title(const struct composition *c, const char *key,
                           const struct medicine_plan *m)
{
    return say_one(&c->ctx, key, "name", medicine_name(c, m));
}

/* Those given so, or past the last way those that have to be shown, by their names. */
static const char *names_of(const struct composition *c, size_t way)
{
    const char **names = ARENA_ARRAY(c->arena, const char *, c->plan->medicine_count + 1);
    size_t count = 0;
    for (size_t i = 0; i < c->plan->medicine_count; i++) {
        const struct medicine_plan *m = &c->plan->medicines[i];
        if (way < WAYS ? is_given_so(m, way) : is_to_be_shown(m))
            names[count++] = medicine_name(c, m);
    }
    return phrase_all_of(&c->ctx, names, count);
}

struct shared_list {
    const struct composition *c;
    struct medicine_shared *items;
    size_t count;
};

static struct medicine_shared *find_shared(const struct shared_list *list, const char *names)
{
    for (size_t i = 0; i < list->count; i++) {
        struct medicine_shared *one = &list->items[i];
        if (one->names && names ? strcmp(one->names, names) == 0 : one->names == names)
            return one;
    }
    return NULL;
}

/* What goes for the same ones stands together, so that they are named once. */
static void add_shared(struct shared_list *list, const char *names, const char *text)
{
    struct medicine_shared *same = find_shared(list, names);
    if (!*text)
        return;
    if (same)
        same->text = beside(&list->c->ctx, same->text, text);
    else
        list->items[list->count++] = (struct medicine_shared){names, text};
}

/* "the first dose was given here" is no way to give the next: who was not shown how asks. Of one
 * it stands behind that one (with_way); of several it names which, where not all have to be shown
 * or these stand together already. */
static void add_not_shown(struct shared_list *list)
{
    const struct care_plan *plan = list->c->plan;
    const size_t count = count_to_be_shown(plan);
    if (count <= 1)
        return;
    const char *names = names_of(list->c, WAYS);
    const bool are_all = count == plan->medicine_count && !find_shared(list, names);
    add_shared(list, are_all ? NULL : names, phrase(&list->c->ctx, "sheet.medicines.not-shown"));
}

/* What lies on the skin is washed off by a bath behind it, and two baths in a row are too long in
 * the water: where each has its part of the day as written that is kept, else the order is said;
 * the hours between are the veterinarian's (common practice, no source).
 */
static const char *baths_order(const struct composition *c)
{
    size_t baths = 0, others = 0;
    for (size_t i = 0; i < c->plan->medicine_count; i++) {
        const struct medicine_plan *m = &c->plan->medicines[i];
        if (m->is_given_here || !m->has_route)
            continue;
        baths += m->route == ROUTE_IN_A_BATH;
        others += m->route == ROUTE_ON_THE_SKIN && !m->says_bath;
    }
    const bool apart = c->plan->baths_apart;
    if (baths > 0 && others > 0)
        return phrase(&c->ctx, apart ? "sheet.medicines.bath-times" : "sheet.medicines.bath-order");
    if (baths > 1)
        return phrase(&c->ctx,
                      apart ? "sheet.medicines.baths-times" : "sheet.medicines.bath-apart");
    return "";
}

/* "Missed a dose?" of what the keeper gives: two at once do harm, so it gives way to nothing. Of
 * one among several it says that it is of any. Nobody at home misses what we give, but sees it
 * worse. */
const char *medicine_worse(const struct composition *c)
{
    const size_t count = c->plan->medicine_count;
    bool gives = false;
    for (size_t i = 0; i < count; i++)
        gives |= !c->plan->medicines[i].is_given_here;
    return count == 0 ? NULL
                      : phrase(&c->ctx, !gives      ? "sheet.medicines.worse-here"
                                        : count > 1 ? "sheet.medicines.worse"
                                                    : "sheet.medicines.worse-one");
}

size_t medicine_shared(const struct composition *c,
                       struct medicine_shared shared[MEDICINE_SHARED_MOST])
{
    _Static_assert(WAYS + 2 <= MEDICINE_SHARED_MOST, "each has its place");
    struct shared_list list = {c, shared, 0};
    for (size_t i = 0; i < WAYS; i++)
        if (!is_told_of_each(c->plan, i) && is_told(c, i) && count_given_so(c->plan, i) > 0)
            add_shared(&list, names_of(c, i), phrase(&c->ctx, ways[i].key));
    add_not_shown(&list);
    add_shared(&list, NULL, baths_order(c));
    return list.count;
}

const char *medicine_how(const struct composition *c)
{
    struct medicine_shared shared[MEDICINE_SHARED_MOST];
    const size_t count = medicine_shared(c, shared);
    const char *text = NULL;
    for (size_t i = 0; i < count; i++) {
        const char *one = shared[i].names ? join(&c->ctx, "sheet.medicines.dated", shared[i].names,
                                                 shared[i].text)
                                          : shared[i].text;
        text = text ? arena_format(c->arena, "%s %s", text, one) : one;
    }
    return text;
}

/* The days that are left, each with a line to write on, where they are few and have one dose each:
 * "every 3 days until Fri 18 Dec" leaves them to be counted. */
static const char *rest_days(const struct composition *c, const struct medicine_plan *m,
                             size_t shown)
{
    enum { REST_DAYS_MOST = 6 };
    const char *days[REST_DAYS_MOST];
    size_t count = 0;
    if (!m->has_last || m->goes_on || m->every_h < DAY_H || m->listed - shown > REST_DAYS_MOST)
        return NULL;
    for (size_t i = shown; i < m->listed; i++)
        days[count++] =
            say_one(&c->ctx, "sheet.medicines.rest-day", "days", day_text(&c->ctx, m->doses[i].on));
    return phrase_all_of(&c->ctx, days, count);
}

const char *medicine_rest(const struct composition *c, const struct medicine_plan *m, size_t shown)
{
    if (m->has_last && shown >= (size_t)m->dose_count)
        return NULL;
    const char *days = rest_days(c, m, shown);
    if (days) {
        static const char *const names[] = {"name", "days"};
        return say_two(&c->ctx, "sheet.medicines.rest-days", names, medicine_name(c, m), days);
    }
    const char *until = m->has_last ? day_text(&c->ctx, m->last) : NULL;
    struct plan_fact end = {.name = "until", .kind = FACT_TEXT, .text = until};
    struct plan_fact every = {.name = "every",
                              .kind = FACT_TEXT,
                              .text = every_text(&c->ctx, m),
                              .next = until ? &end : NULL};
    struct plan_fact name = {
        .name = "name", .kind = FACT_TEXT, .text = medicine_name(c, m), .next = &every};
    return phrase_with(&c->ctx, until ? "sheet.medicines.rest" : "sheet.medicines.rest-endless",
                       &name);
}

const char *medicine_before_meal(const struct composition *c)
{
    return !c->plan->go_now && c->plan->feeding.meets_dose
               ? phrase_if_known(&c->ctx, "wall.food.after-dose")
               : NULL;
}

/* ---- the days that have boxes ---- */

/* Each day once; of more than there is room for the first ones. */
static size_t insert_day(struct date *days, size_t count, size_t most, struct date day)
{
    size_t at = 0;
    while (at < count && date_compare(days[at], day) < 0)
        at++;
    if (at == most || (at < count && date_compare(days[at], day) == 0))
        return count;
    count += count < most;
    for (size_t i = count - 1; i > at; i--)
        days[i] = days[i - 1];
    days[at] = day;
    return count;
}

/* Is it before the first dose that is due and not listed? A column from there on would say of a
 * cell left empty that nothing is due. */
static bool all_are_listed(const struct care_plan *plan, struct date day)
{
    const struct medicine_plan *m;
    for (size_t i = 0; (m = plan_ticked(plan, i)); i++)
        if (plan_home_doses(m) > 0 && m->goes_on && date_compare(day, m->goes_on_from) >= 0)
            return false;
    return true;
}

size_t medicine_tick_days(const struct care_plan *plan, struct date days[MEDICINE_TICK_DAYS])
{
    size_t count = 0;
    const struct medicine_plan *m;
    for (size_t i = 0; (m = plan_ticked(plan, i)); i++) {
        struct date day;
        for (size_t at = 0; plan_home_doses(m) > 0 && plan_dose_day(m, &at, &day);)
            if (all_are_listed(plan, day))
                count = insert_day(days, count, MEDICINE_TICK_DAYS, day);
    }
    return count;
}

bool medicine_has_box(const struct care_plan *plan, struct date day)
{
    struct date days[MEDICINE_TICK_DAYS];
    const size_t count = medicine_tick_days(plan, days);
    return count > 0 && date_compare(day, days[count - 1]) <= 0;
}
