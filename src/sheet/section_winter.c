/* A winter rest that is asked for: why not, or its days, its warmth and the grams to call at. */
#include <string.h>

#include "sheet/wall.h"

enum { LINES_MOST = 10, FACTS_MOST = 3 };

struct winter_lines {
    struct composition *c;
    const char *heads[LINES_MOST], *texts[LINES_MOST];
    size_t count;
};

/* ---- lines --------------------------------------------------------------------------------------
 */

static struct plan_fact date_fact(const char *name, struct date date)
{
    return (struct plan_fact){.name = name, .kind = FACT_DATE, .date = date};
}

/* "Sun 8 Nov", where many stand in a row. */
static struct plan_fact day_fact(struct composition *c, struct date date)
{
    return (struct plan_fact){
        .name = "date", .kind = FACT_TEXT, .text = format_date_day(&c->ctx.format, date)};
}

static struct plan_fact number_fact(const char *name, enum fact_kind kind, double low, double high)
{
    return (struct plan_fact){.name = name, .kind = kind, .low = low, .high = high};
}

/* The sentence under the key with its own values; NULL where it may not be said. */
static const char *phrase_with(struct composition *c, const char *key, struct plan_fact *facts,
                               size_t count)
{
    struct phrase_context ctx = c->ctx;
    for (size_t i = 0; i + 1 < count; i++)
        facts[i].next = &facts[i + 1];
    ctx.facts = count ? facts : NULL;
    return phrase_if_known(&ctx, key);
}

static void add(struct winter_lines *lines, const char *head, const char *text)
{
    if (!text || !*text)
        return;
    lines->heads[lines->count] = phrase(&lines->c->ctx, head);
    lines->texts[lines->count++] = text;
}

static const char *steps_text(struct composition *c)
{
    const struct winter_rest_plan *w = &c->plan->winter_rest;
    const char *texts[REST_STEPS_MOST];
    for (size_t i = 0; i < w->step_count; i++) {
        struct plan_fact facts[] = {
            day_fact(c, w->steps[i].on),
            number_fact("warmth", FACT_TEMPERATURE, w->steps[i].to_c, w->steps[i].to_c)};
        texts[i] = phrase_with(c, "sheet.winter-rest.step", facts, 2);
    }
    return w->step_count ? phrase_all_of(&c->ctx, texts, w->step_count) : NULL;
}

static void add_before(struct winter_lines *lines)
{
    struct composition *c = lines->c;
    const struct winter_rest_plan *w = &c->plan->winter_rest;
    struct plan_fact meal[] = {date_fact("date", w->last_meal)};
    if (w->in_progress)
        return;
    add(lines, "sheet.winter-rest.head.last-meal",
        w->has_last_meal ? phrase_with(c, "sheet.winter-rest.last-meal", meal, 1)
                         : phrase_with(c, "sheet.winter-rest.ask-days", NULL, 0));
    struct plan_fact steps[] = {{.name = "steps", .kind = FACT_TEXT, .text = steps_text(c)}};
    if (steps->text)
        add(lines, "sheet.winter-rest.head.cool",
            phrase_with(c, "sheet.winter-rest.cool", steps, 1));
}

static void add_rest(struct winter_lines *lines)
{
    struct composition *c = lines->c;
    const struct winter_rest_plan *w = &c->plan->winter_rest;
    struct plan_fact warmth[] = {number_fact("warmth", FACT_TEMPERATURE, w->low_c, w->high_c),
                                 date_fact("date", w->start)};
    add(lines, "sheet.winter-rest.head.rest",
        !w->has_c                         ? phrase_with(c, "sheet.winter-rest.ask-warmth", NULL, 0)
        : w->has_start && !w->in_progress ? phrase_with(c, "sheet.winter-rest.rest-from", warmth, 2)
                                          : phrase_with(c, "sheet.winter-rest.rest", warmth, 1));
    struct plan_fact grams[] = {number_fact("call", FACT_MASS, w->call_g, w->call_g),
                                number_fact("wake", FACT_MASS, w->wake_g, w->wake_g),
                                number_fact("mass", FACT_MASS, w->start_g, w->start_g)};
    if (w->has_mass)
        add(lines, "sheet.winter-rest.head.weigh",
            phrase_with(c, "sheet.winter-rest.weigh", grams, 3));
    add(lines, "sheet.winter-rest.head.stop", phrase_with(c, "sheet.winter-rest.stop", NULL, 0));
}

static void add_after(struct winter_lines *lines)
{
    struct composition *c = lines->c;
    const struct winter_rest_plan *w = &c->plan->winter_rest;
    struct plan_fact wake[] = {date_fact("date", w->wake), date_fact("warm", w->warm_by)};
    struct plan_fact eats[] = {date_fact("date", w->eat_by)};
    if (!w->has_wake) {
        add(lines, "sheet.winter-rest.head.wake",
            phrase_with(c, "sheet.winter-rest.ask-wake", NULL, 0));
        return;
    }
    add(lines, "sheet.winter-rest.head.wake", phrase_with(c, "sheet.winter-rest.wake", wake, 2));
    add(lines, "sheet.winter-rest.head.eats", phrase_with(c, "sheet.winter-rest.eats", eats, 1));
}

/* "Sun 8 Nov 1188 g": what it may weigh at least, week by week. */
static const char *weeks_text(struct composition *c)
{
    const struct winter_rest_plan *w = &c->plan->winter_rest;
    const char **texts = ARENA_ARRAY(c->arena, const char *, REST_WEEKS_MOST);
    for (size_t i = 0; i < w->week_count; i++) {
        struct plan_fact facts[] = {
            day_fact(c, w->weeks[i].on),
            number_fact("mass", FACT_MASS, w->weeks[i].least_g, w->weeks[i].least_g)};
        texts[i] = phrase_with(c, "sheet.winter-rest.week", facts, 2);
    }
    return w->week_count ? phrase_all_of(&c->ctx, texts, w->week_count) : NULL;
}

/* Yes, no, never or at once. */
static const char *answer_text(struct composition *c)
{
    const struct winter_rest_plan *w = &c->plan->winter_rest;
    bool runs = w->in_progress && w->is_allowed;
    return phrase_if_known(&c->ctx, runs ? "sheet.winter-rest.runs" : "sheet.winter-rest.answer");
}

/* Not against the rest itself: our record lacks it. */
static bool is_lacking(const char *why)
{
    static const char *const lacking[] = {"age-unknown", "weight-unknown", "time-unknown",
                                          "untested"};
    for (size_t i = 0; i < sizeof lacking / sizeof *lacking; i++)
        if (strcmp(lacking[i], why) == 0)
            return true;
    return false;
}

/* All that speaks against it; what is lacking only where nothing else does, as it opens no gate
 * that is shut. */
static const char *reasons_text(struct composition *c)
{
    const struct winter_rest_plan *w = &c->plan->winter_rest;
    const char *text = "";
    bool is_shut = false;
    for (size_t i = 0; i < w->why_count; i++)
        is_shut = is_shut || !is_lacking(w->why[i]);
    for (size_t i = 0; i < w->why_count && !w->is_allowed; i++)
        if (!is_shut || !is_lacking(w->why[i]))
            text = arena_format(c->arena, "%s%s%s", text, *text ? " " : "",
                                phrase_code(&c->ctx, "sheet.winter-rest.why", w->why[i]));
    return text;
}

static struct winter_lines lines_of(struct composition *c)
{
    struct winter_lines lines = {.c = c};
    if (!c->plan->winter_rest.is_allowed)
        return lines;
    add_before(&lines);
    add_rest(&lines);
    add_after(&lines);
    return lines;
}

/* ---- the two sections ---------------------------------------------------------------------------
 */

void section_winter_rest(struct composition *c, struct block_builder *out)
{
    const char *answer = answer_text(c);
    if (!c->plan->winter_rest.is_asked || !answer)
        return;
    section_title(c, out, "sheet.winter-rest.title");
    const char *reasons = reasons_text(c);
    builder_paragraph(out, *reasons ? arena_format(c->arena, "%s %s", answer, reasons) : answer);
    struct winter_lines lines = lines_of(c);
    if (!lines.count)
        return;
    struct block *pairs = section_pairs(c, out, 0.25);
    for (size_t i = 0; i < lines.count; i++)
        section_pair(c, pairs, lines.heads[i], lines.texts[i]);
    section_row(c, pairs, "sheet.winter-rest.head.weeks", weeks_text(c));
}

void section_wall_winter(struct composition *c, struct block_builder *out)
{
    const char *answer = answer_text(c);
    if (!c->plan->winter_rest.is_asked || !answer)
        return;
    struct panel *panel = wall_panel(c, out, PANEL_GRADES);
    panel->title = phrase(&c->ctx, "sheet.winter-rest.title");
    struct panel_entry *first = wall_entry(c, &panel->entries);
    first->title = answer;
    first->text = reasons_text(c);
    struct winter_lines lines = lines_of(c);
    for (size_t i = 0; i < lines.count; i++) {
        struct panel_entry *entry = wall_entry(c, &panel->entries);
        entry->title = section_with_text(c, "sheet.run-in", "name", lines.heads[i]);
        entry->text = lines.texts[i];
    }
}
