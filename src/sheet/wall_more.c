/* Food, what was found, what is normal, the signature and the small print. */
#include <math.h>
#include <string.h>

#include "base/strbuf.h"
#include "records/mail_address.h"
#include "sheet/home_cuts.h"
#include "sheet/medicine_words.h"
#include "sheet/wall.h"
#include "words/slots.h"

/* ---- food ---- */

enum { MEALS_SHOWN = 3 };

static void add_food_line(struct composition *c, struct panel *panel, const char *text, bool strong)
{
    if (!text || !*text)
        return;
    struct panel_entry *entry = wall_entry(c, &panel->entries);
    entry->text = text;
    entry->is_strong = strong;
}

static const char *append_sentence(struct composition *c, const char *text, const char *more)
{
    size_t length = more ? strlen(more) : 0;
    if (length == 0)
        return text;
    const char *stop = strchr(".:?!", more[length - 1]) ? "" : ".";
    return arena_format(c->arena, "%s%s%s%s", text ? text : "", text ? " " : "", more, stop);
}

/* Her own grams, and no kind or number of ours beside them; insects by their number. */
static const char *written_meal(struct composition *c, const char *meal)
{
    if (!c->plan->feeding.has_meal)
        return meal;
    return append_sentence(c, append_sentence(c, NULL, phrase_if_known(&c->ctx, "wall.food.mass")),
                           section_meal_interval(c));
}

/* The kinds behind "5 insects", and the first day. */
static void add_written(struct composition *c, struct panel *panel)
{
    const struct feeding_plan *m = &c->plan->feeding;
    const struct feeding_line insects = {.foods = m->written_insects,
                                         .food_count = m->written_insect_count};
    const char *kinds = slots_line_text(&c->ctx, &insects);
    const char *text = kinds ? append_sentence(c, NULL, text_capital(c->arena, kinds)) : NULL;
    text = append_sentence(c, text, phrase_if_known(&c->ctx, "wall.food.written-first"));
    add_food_line(c, panel, text, true);
}

/* The first of the days; NULL for none. */
static const char *dates_text(struct composition *c, const struct date *days, size_t count)
{
    size_t shown = count < MEALS_SHOWN ? count : MEALS_SHOWN;
    const char *texts[MEALS_SHOWN];
    for (size_t i = 0; i < shown; i++)
        texts[i] = format_date_day(&c->ctx.format, days[i]);
    return shown ? wall_phrase(c, "wall.food.next", "dates", phrase_all_of(&c->ctx, texts, shown),
                               NULL, NULL)
                 : NULL;
}

/* Their share, and by eye where an example of its own has no room or the share is smaller than any
 * part of a plate that has a name; "" for none. */
static const char *plants_text(struct composition *c)
{
    static const double FEW_PERCENT = 20;
    const struct feeding_plan *m = &c->plan->feeding;
    if (!m->has_plant_share)
        return "";
    return phrase(&c->ctx, m->plant_high_percent <= FEW_PERCENT ? "wall.food.plants-few"
                           : section_is_close(c, CLOSE_LINES)   ? "wall.food.plants-part"
                                                                : "wall.food.plants");
}

/* "6-10 insects. Every 2-4 days"; of plants their share says it shorter. */
static const char *line_text(struct composition *c, const struct feeding_line *line)
{
    return line->has_share ? arena_format(c->arena, "%s. %s", plants_text(c),
                                          phrase(&c->ctx, "sheet.feeding.daily"))
                           : section_food_line(c, line);
}

/* Of two lines the one that most of the food is of. */
static size_t main_line(const struct feeding_plan *m)
{
    static const double HALF_PERCENT = 50;
    return m->line_count == 2 && m->lines[0].has_share && m->lines[0].high_percent < HALF_PERCENT;
}

static const char *meal_text(struct composition *c)
{
    const struct feeding_plan *m = &c->plan->feeding;
    const struct feeding_line all = {.foods = m->foods, /* paused: there are no lines yet */
                                     .food_count = m->food_count,
                                     .has_count = m->has_insects,
                                     .low_count = m->insects_low,
                                     .high_count = m->insects_high,
                                     .every_low_days = m->every_low_days,
                                     .every_high_days = m->every_high_days};
    return m->line_count ? line_text(c, &m->lines[main_line(m)]) : section_food_line(c, &all);
}

/* What stands beside the main food in a rhythm of its own; NULL for none. */
static const char *beside_text(struct composition *c)
{
    const struct feeding_plan *m = &c->plan->feeding;
    if (m->line_count < 2)
        return NULL;
    const struct feeding_line *line = &m->lines[1 - main_line(m)];
    const char *text = line_text(c, line);
    const char *dates = line->next != m->next ? dates_text(c, line->next, line->next_count) : NULL;
    if (text && dates)
        text = append_sentence(c, append_sentence(c, NULL, text), dates);
    return line->has_share || !text
               ? text
               : arena_format(c->arena, "%s %s",
                              section_with_text(c, "sheet.run-in", "name",
                                                phrase(&c->ctx, "sheet.feeding.animals")),
                              text);
}

/* Are the dates of the meals those of what stands beside the main food? */
static bool is_dated_beside(const struct feeding_plan *m)
{
    const struct feeding_line *line = &m->lines[1 - main_line(m)];
    return m->line_count == 2 && line->next == m->next && line->next_count > 0;
}

/* In brief it is one of the notes, unless dates hang on it. */
static bool is_beside_a_note(struct composition *c)
{
    const struct feeding_plan *m = &c->plan->feeding;
    return section_in_brief(c) && m->line_count == 2 &&
           (!is_dated_beside(m) || round(m->every_high_days) <= 1);
}

/* The foods that the lines above name by number or share alone; a step may name the plants. */
static const char *foods_text(struct composition *c)
{
    const struct feeding_plan *m = &c->plan->feeding;
    const bool is_named = m->line_count == 1 && !m->lines[0].has_count; /* by that line */
    if (m->line_count < 2)
        return !is_named && m->has_insects && m->food_count > 1 ? slots_foods_text(&c->ctx) : NULL;
    const bool has_plants = m->lines[0].has_share && wall_action_of(c->plan, "change-plants") < 0;
    if (!m->lines[1].has_count)
        return has_plants ? slots_line_text(&c->ctx, &m->lines[0]) : NULL;
    return has_plants ? slots_foods_text(&c->ctx) : slots_line_text(&c->ctx, &m->lines[1]);
}

/* The two days that she asks for: that before the check, and its own. */
static const char *fast_text(struct composition *c)
{
    const struct format *f = &c->ctx.format;
    return wall_phrase(c, "wall.food.fast", "from",
                       format_date_day(f, date_add_days(c->plan->recheck, -1)), "date",
                       format_date_day(f, c->plan->recheck));
}

/* Why the first meal waits; a place for a sooner day. */
static const char *treated_key(const struct feeding_plan *m)
{
    if (m->asks_first)
        return m->waits_for_check ? "wall.food.treated-check-asked" : "wall.food.treated-asked";
    return m->waits_for_check ? "wall.food.treated-check" : "wall.food.treated";
}

static const char *next_text(struct composition *c)
{
    const struct feeding_plan *m = &c->plan->feeding;
    if (c->plan->go_now)
        return NULL;                    /* the day of the next meal is said where it is seen */
    if (round(m->every_high_days) <= 1) /* its days are all; the first is asked about of the ill */
        return m->next_count && !m->step_count && !plan_holds(c->plan, "food", "as-usual")
                   ? wall_phrase(c, "wall.food.first", "dates",
                                 format_date_day(&c->ctx.format, m->next[0]), NULL, NULL)
                   : NULL;
    const char *dates = dates_text(c, m->next, m->next_count), *text = NULL;
    if (m->is_treated && dates) /* in mouth or airway: it eats after that */
        text =
            append_sentence(c, NULL,
                            wall_phrase(c, treated_key(m), "date",
                                        format_date_day(&c->ctx.format, m->next[0]), NULL, NULL));
    const char *why = dates && !m->is_fasted ? section_why_off_rhythm(c) : NULL;
    return !why && !text ? dates : append_sentence(c, append_sentence(c, text, dates), why);
}

/* Of several lines. */
static const char *one_line(struct composition *c, const char *text)
{
    const char *whole = NULL;
    while (text && *text) {
        size_t length = strcspn(text, "\n");
        whole = append_sentence(c, whole, arena_copy_bytes(c->arena, text, length));
        text += length + (text[length] == '\n');
    }
    return whole;
}

/* The place to write how much, of what has no number of its own; NULL for nothing. */
static const char *how_much_key(const struct feeding_plan *m)
{
    return m->asks_plants && m->asks_animals ? "wall.food.how-much-both"
           : m->asks_plants                  ? "wall.food.how-much"
           : m->asks_animals                 ? "wall.food.how-much-animals"
                                             : NULL;
}

static bool has_insect_line(const struct feeding_plan *m)
{
    return m->has_insects && (m->line_count < 2 || m->lines[0].has_count || m->lines[1].has_count);
}

/* Half of a blank is no amount: what is written there is what it gets for now. */
static const char *change_text(struct composition *c)
{
    const struct feeding_plan *m = &c->plan->feeding;
    return m->change == FEEDING_NO_LARGE_MEAL && how_much_key(m)
               ? phrase_if_known(&c->ctx, "sheet.feeding-change.half-asked")
               : section_feeding_change(c);
}

/* What, how much, the powders and how, as one paragraph. */
static const char *food_notes(struct composition *c)
{
    const struct feeding_plan *m = &c->plan->feeding;
    /* prey is named by its number; "5 insects" would be of one kind, and pieces are of anything */
    bool is_named = section_in_brief(c) && !m->is_in_pieces && !has_insect_line(m);
    const char *foods = is_named ? NULL : foods_text(c),
               *text = append_sentence(c, NULL, section_referral_food(c));
    if (how_much_key(m))
        text = append_sentence(c, text, phrase_if_known(&c->ctx, how_much_key(m)));
    if (m->has_plant_share && !section_is_close(c, CLOSE_LINES) &&
        (!m->paused || m->has_resume)) /* by eye */
        text = append_sentence(c, text, phrase_if_known(&c->ctx, "wall.food.plate"));
    if (is_beside_a_note(c))
        text = append_sentence(c, text,
                               m->lines[1 - main_line(m)].has_share
                                   ? plants_text(c) /* as ever, each day */
                                   : beside_text(c));
    if (foods)
        text = append_sentence(c, text, text_capital(c->arena, foods));
    if (m->has_meal && !m->step_count) /* else each step says its own */
        text =
            append_sentence(c, text,
                            phrase_if_known(&c->ctx, m->is_beside_hay ? "wall.food.mass-beside-hay"
                                                                      : "wall.food.mass"));
    text = m->begins_small ? append_sentence(c, text, phrase(&c->ctx, "wall.food.begins-small"))
                           : text;
    if (m->diet != DIET_PLANTS && m->line_count < 2) /* all of its food is no news */
        text = append_sentence(c, text, plants_text(c));
    text = append_sentence(c, text, one_line(c, section_meal_steps(c)));
    bool waits = m->paused && !m->has_resume && !m->step_count; /* its powders wait with it */
    if (!waits)
        text = append_sentence(c, text, one_line(c, section_supplements(c)));
    text = append_sentence(c, text, section_food_rules(c));
    text = append_sentence(c, text, section_insect_kinds(c));
    /* the interval itself says how often, and the title that it is given none */
    if (!section_in_brief(c) ||
        (m->change != FEEDING_LONGER_INTERVAL && m->change != FEEDING_PAUSE))
        text = append_sentence(c, text, change_text(c));
    if (section_in_brief(c))
        return text;
    return append_sentence(
        c, text,
        phrase_code(&c->ctx, "sheet.feeding-how", bind_choice_word(diet_choices, (int)m->diet)));
}

/* A rest without a day or a step that follows it was called for by what was found: the first meal
 * of one that is so ill is no whole one, and the veterinarian says how much. */
static const char *after_rest_key(const struct feeding_plan *m)
{
    const bool is_told = m->has_resume || m->step_count;
    if (!is_told && m->has_insects)
        return "wall.food.when-well-open"; /* "3-6 insects" tells nobody what, nor how often */
    return is_told ? "wall.food.then" : "wall.food.when-well";
}

void section_wall_food(struct composition *c, struct block_builder *out)
{
    const struct feeding_plan *m = &c->plan->feeding;
    struct panel *panel = wall_panel(c, out, PANEL_NOTICE);
    const char *meal = meal_text(c);
    panel->title = phrase(&c->ctx, "wall.food");
    struct panel_entry *large = wall_entry(c, &panel->entries);
    /* on the day on which food is back: a rest until it is awake ends before its first meal */
    bool as_written = plan_holds_on(c->plan, "food", "vet-plan", plan_food_day(c->plan));
    large->title =
        m->paused ? phrase(&c->ctx, m->has_resume ? "wall.food.paused-until" : "wall.food.paused")
                  : meal;
    large->pictogram = m->paused && !as_written ? wall_pictogram(PICTOGRAM_STOP) : NULL;
    const char *drops = phrase_if_known(&c->ctx, "sheet.feeding.drops");
    if (m->paused && as_written) /* else behind the days of the meals, or these are read of water */
        add_food_line(c, panel, drops, true);
    if (m->paused && !as_written && !m->has_resume && m->has_call_by && !c->plan->go_now)
        add_food_line(c, panel, phrase_if_known(&c->ctx, "wall.food.no-word"), true);
    if (m->paused && as_written && m->is_written && meal)
        large->title =
            wall_phrase(c, "wall.food.written", "what", written_meal(c, meal), NULL, NULL);
    if (m->paused && as_written && m->is_written)
        add_written(c, panel);
    if (m->is_fasted) /* whoever says what it eats */
        add_food_line(c, panel, fast_text(c), true);
    if (!c->plan->go_now && (!m->paused || m->has_resume || as_written)) /* or it chokes */
        add_food_line(c, panel, phrase_if_known(&c->ctx, "wall.food.steady"), true);
    if (m->paused && as_written)
        return; /* nothing else of food is said */
    /* its plants are no question */
    bool asks_beside = m->asks_amount && m->line_count == 2;
    if (m->asks_amount && !asks_beside)
        large->title = phrase(&c->ctx, "sheet.feeding.vet-amount");
    if (!large->title)
        large->title = phrase(&c->ctx, "wall.food.ask");
    if (c->plan->taxon.is_unlisted)
        add_food_line(c, panel, phrase(&c->ctx, "sheet.feeding.unlisted"), false);
    if (m->paused && meal)
        add_food_line(c, panel, wall_phrase(c, after_rest_key(m), "what", meal, NULL, NULL), true);
    /* the dates are of the meals of one line, and stand behind it */
    if (is_dated_beside(m) && !is_beside_a_note(c))
        add_food_line(c, panel, beside_text(c), true);
    add_food_line(c, panel, next_text(c), true);
    add_food_line(c, panel, medicine_before_meal(c), false);
    if (!is_dated_beside(m) && !is_beside_a_note(c))
        add_food_line(c, panel, beside_text(c), true);
    if (asks_beside)
        add_food_line(c, panel, phrase(&c->ctx, "sheet.feeding.vet-amount"), true);
    add_food_line(c, panel, drops, true);
    add_food_line(c, panel, food_notes(c), false);
    panel->cuts = home_cuts(c, HOME_CUTS_FOOD);
}

/* ---- found ---- */

static const char *found_name(struct composition *c, const struct finding_plan *finding)
{
    struct phrase_context ctx = c->ctx;
    ctx.where = finding->where;
    struct plan_fact where = {.name = "where", .kind = FACT_TEXT, .text = finding->where};
    const char *degree = section_degree(&ctx, finding);
    struct plan_fact severity = {.name = "severity",
                                 .kind = FACT_TEXT,
                                 .text = degree,
                                 .next = finding->where ? &where : NULL};
    struct plan_fact name = {.name = "name",
                             .kind = FACT_TEXT,
                             .text = section_finding_name(c, finding),
                             .next = degree ? &severity : severity.next};
    ctx.facts = &name;
    return phrase(&ctx, finding->where ? "wall.found.name-where" : "wall.found.name");
}

static const char *found_text(struct composition *c, const struct finding_plan *finding)
{
    struct phrase_context ctx = c->ctx;
    ctx.where = finding->where;
    /* its name says what it is; where room is shortest of all but the worst */
    const bool is_minor =
        (finding->severity == SEVERITY_MILD || section_is_close(c, CLOSE_BOXES)) &&
        !finding->is_suspected && finding != plan_worst_finding(c->plan);
    const char *text =
        section_is_close(c, CLOSE_LINES) && is_minor ? NULL : section_meaning(c, finding);
    if (finding->note) {
        const char *note = section_note(c, finding);
        text = text ? arena_format(c->arena, "%s %s", text, note) : note;
    }
    /* in brief, and of an animal on its way, no more than what must not be done */
    const char *home =
        section_in_brief(c) || c->plan->go_now
            ? phrase_if_worded(&ctx, arena_format(c->arena, "finding.%s.never", finding->code))
            : section_home(c, &ctx, finding);
    return text && home && *home ? arena_format(c->arena, "%s %s", text, home) : text ? text : home;
}

static const char *weight_alternative(struct composition *c)
{
    const struct growth_plan *growth = &c->plan->growth;
    struct strbuf text;
    strbuf_init(&text, c->arena);
    for (size_t i = 0; i < growth->weighing_count; i++) {
        const struct named_value values[] = {
            {"date", {.text = format_date_short(&c->ctx.format, growth->weighings[i].on)}},
            {"mass", {.text = format_mass(&c->ctx.format, growth->weighings[i].mass_g)}}};
        strbuf_addf(&text, "%s%s", i ? " " : "",
                    format_pattern(&c->ctx.format, "picture.weight.point", values, 2));
    }
    return text.text;
}

/* "20 Dec 2025: 410 g" */
static const char *weighing_text(struct composition *c, size_t at)
{
    const struct growth_plan *growth = &c->plan->growth;
    const char *day = section_with_text(
        c, "sheet.run-in", "name", format_date_short(&c->ctx.format, growth->weighings[at].on));
    return arena_format(c->arena, "%s %s", day,
                        format_mass(&c->ctx.format, growth->weighings[at].mass_g));
}

static const struct trend *weight_trend(struct composition *c)
{
    const struct growth_plan *growth = &c->plan->growth;
    size_t count = growth->weighing_count;
    if (count < 2)
        return NULL;
    struct trend *trend = ARENA_NEW(c->arena, struct trend);
    double *x = ARENA_ARRAY(c->arena, double, count), *y = ARENA_ARRAY(c->arena, double, count);
    double least = HUGE_VAL, most = 0;
    for (size_t i = 0; i < count; i++) {
        least = fmin(least, growth->weighings[i].mass_g);
        most = fmax(most, growth->weighings[i].mass_g);
    }
    double days =
        (double)date_days_between(growth->weighings[0].on, growth->weighings[count - 1].on);
    double span = fmax(most - least, most * 0.02);
    for (size_t i = 0; i < count; i++) {
        double passed = (double)date_days_between(growth->weighings[0].on, growth->weighings[i].on);
        x[i] = days > 0 ? passed / days : 0;
        y[i] = (growth->weighings[i].mass_g - least) / span;
    }
    *trend = (struct trend){
        x, y, count, weighing_text(c, 0), weighing_text(c, count - 1), weight_alternative(c)};
    return trend;
}

/* One thing has its name, more have their number. */
static const char *fine_text(struct composition *c, size_t fine, size_t found)
{
    struct plan_fact count = {
        .name = "count", .kind = FACT_COUNT, .low = (double)fine, .high = (double)fine};
    struct phrase_context ctx = c->ctx;
    ctx.facts = &count;
    for (size_t i = 0; fine == 1 && i < c->plan->finding_count; i++)
        if (c->plan->findings[i].severity == SEVERITY_NORMAL)
            return arena_format(c->arena, "%s %s", phrase(&c->ctx, "sheet.found.fine"),
                                section_finding_name(c, &c->plan->findings[i]));
    return fine ? phrase(&ctx, found ? "wall.found.fine" : "wall.found.all-fine") : NULL;
}

static void add_found(struct composition *c, struct panel *panel, enum severity severity)
{
    for (size_t i = 0; i < c->plan->finding_count; i++) {
        const struct finding_plan *finding = &c->plan->findings[i];
        if (finding->severity != severity)
            continue;
        struct panel_entry *entry = wall_entry(c, &panel->entries);
        entry->grade = (int)severity - SEVERITY_NORMAL;
        entry->title = found_name(c, finding);
        entry->text = found_text(c, finding);
    }
}

/* What the veterinarian wrote beside something fine. */
static void add_notes(struct composition *c, struct panel *panel)
{
    for (size_t i = 0; i < c->plan->finding_count; i++) {
        const struct finding_plan *finding = &c->plan->findings[i];
        if (finding->severity != SEVERITY_NORMAL || !finding->note)
            continue;
        struct panel_entry *entry = wall_entry(c, &panel->entries);
        entry->title = found_name(c, finding);
        entry->text = section_note(c, finding);
    }
}

/* What was done here, and how to care for it now. */
static void write_procedures(struct composition *c, struct block_builder *out)
{
    if (!section_has_care(c))
        return;
    struct panel *panel = wall_panel(c, out, PANEL_GRADES);
    panel->is_small = section_is_close(c, CLOSE_LINES);
    panel->begins_lines = section_begins_lines(c, LINES_OF_CARE);
    panel->title = phrase(&c->ctx, "wall.aftercare");
    panel->cuts = home_cuts(c, HOME_CUTS_AFTERCARE);
    for (size_t i = 0; i < c->plan->procedure_count; i++) {
        const char *code = c->plan->procedures[i].code;
        const char *care = section_care(c, &c->plan->procedures[i]);
        if (!care)
            continue;
        struct panel_entry *entry = wall_entry(c, &panel->entries);
        entry->title = section_with_text(c, "sheet.run-in", "name",
                                         phrase_part(&c->ctx, "procedure", code, "name"));
        entry->text = care;
    }
}

/* How long what was found stays as it is, then what is most often taken for illness, which stands
 * first on the species sheet: in brief it is what keeps its keeper from a call by night. NULL for
 * nothing to say. */
static const char *normal_text(struct composition *c)
{
    const struct taxon_plan *species = &c->plan->taxon;
    const bool is_brief = section_is_close(c, CLOSE_LINES) || section_in_brief(c);
    const size_t most = is_brief ? 1 : species->normal_count;
    struct strbuf text;
    strbuf_init(&text, c->arena);
    const char *now = section_normal_now(c);
    strbuf_addf(&text, "%s", now);
    for (size_t i = 0, said = *now != '\0'; i < species->normal_count && said < most; i++) {
        const char *one = phrase_code(&c->ctx, "normal", species->normal[i]);
        strbuf_addf(&text, "%s%s", *one && text.length ? " " : "", one);
        said += *one != '\0';
    }
    return text.length ? wall_phrase(c, is_brief ? "wall.found.normal-brief" : "wall.found.normal",
                                     "what", text.text, NULL, NULL)
                       : NULL;
}

/* The weight with its sign, and what it is to become; "" for nothing to say. */
static const char *weight_text(struct composition *c)
{
    const char *text = append_sentence(c, phrase_if_known(&c->ctx, "sheet.weight.since"),
                                       phrase_if_known(&c->ctx, "wall.found.expect"));
    return text ? text : "";
}

/* Where room is short it goes on behind the weight: a line of its own costs more. */
static bool is_normal_beside(struct composition *c)
{
    return section_is_close(c, CLOSE_LINES) && !section_without_normal(c) && *weight_text(c) &&
           section_is_shown(c, SECTION_FINDINGS) && section_is_shown(c, SECTION_NORMAL_HERE);
}

/* Nobody of the clinic has looked yet. */
static bool is_unseen(const struct care_plan *plan)
{
    for (size_t i = 0; i < plan->finding_count; i++)
        if (plan->findings[i].state != STATE_UNSEEN && plan->findings[i].state != STATE_GO_NOW)
            return false;
    return plan->go_now;
}

/* What was read of the water names the cause on its own: "no test" beside it is wrong. */
static bool water_was_tested(const struct care_plan *plan)
{
    return plan->measured[MEASURE_AMMONIA].has_reading ||
           plan->measured[MEASURE_NITRITE].has_reading;
}

/* What is known and how, and what is not yet: by looking and feeling alone, or with results to
 * come. NULL where nothing is wrong or nobody of the clinic looked. */
static const char *known_text(struct composition *c)
{
    const struct care_plan *plan = c->plan;
    const char **names = ARENA_ARRAY(c->arena, const char *, plan->procedure_count + 1);
    size_t count = 0;
    if (plan->go_now || !plan_worst_finding(plan))
        return wall_all_fine(plan) ? phrase(&c->ctx, "wall.found.known-fine") : NULL;
    for (size_t i = 0; i < plan->procedure_count; i++)
        if (plan->procedures[i].awaits_result)
            names[count++] = text_small(
                c->arena, phrase_part(&c->ctx, "procedure", plan->procedures[i].code, "name"));
    /* where page one has to take what stands on the later ones it is said in a line */
    const bool is_brief = section_has_moved(c) || section_is_close(c, CLOSE_LISTS);
    const char *key = count                    ? "wall.found.known-more"
                      : water_was_tested(plan) ? "wall.found.known-water"
                                               : "wall.found.known";
    key = is_brief ? arena_format(c->arena, "%s-brief", key) : key;
    return count ? wall_phrase(c, key, "what", phrase_all_of(&c->ctx, names, count), NULL, NULL)
                 : phrase(&c->ctx, key);
}

void section_wall_found(struct composition *c, struct block_builder *out)
{
    size_t fine = 0, found = 0;
    for (size_t i = 0; i < c->plan->finding_count; i++) {
        fine += c->plan->findings[i].severity == SEVERITY_NORMAL;
        found += c->plan->findings[i].severity != SEVERITY_NORMAL;
    }
    struct panel *panel = wall_panel(c, out, PANEL_GRADES);
    panel->is_small = section_is_close(c, CLOSE_LINES);
    panel->title = phrase(&c->ctx, is_unseen(c->plan) ? "wall.found.unseen" : "wall.found");
    panel->aside = section_is_close(c, CLOSE_HEADINGS) ? NULL : fine_text(c, fine, found);
    for (int severity = SEVERITY_SEVERE; severity > SEVERITY_NORMAL; severity--)
        add_found(c, panel, (enum severity)severity);
    add_notes(c, panel);
    panel->trend = section_is_close(c, CLOSE_LINES) ? NULL : weight_trend(c);
    wall_add_led(c, &panel->second, weight_text(c));
    if (section_is_close(c, CLOSE_HEADINGS) && fine)
        wall_add_led(c, &panel->second, append_sentence(c, NULL, fine_text(c, fine, found)));
    /* it gives way before page one has to take what stands on the later ones, and comes back where
     * there is room all the same */
    const bool gives_way = section_has_moved(c) || section_without_normal(c);
    if (!is_unseen(c->plan) && (!gives_way || section_says_known(c)))
        wall_add_led(c, &panel->second, known_text(c));
    if (is_normal_beside(c))
        wall_add_led(c, &panel->second, normal_text(c));
    if (fine + found == 0 && !panel->second)
        panel->text = phrase(&c->ctx, "sheet.found.none");
    write_procedures(c, out);
}

void section_wall_normal(struct composition *c, struct block_builder *out)
{
    const char *text = is_normal_beside(c) ? NULL : normal_text(c);
    if (text)
        wall_add_led(c, &wall_panel(c, out, PANEL_TEXT)->entries, text);
}

/* ---- who signs, notes, sources ---- */

static void add_address(struct composition *c, struct panel *panel, const char *text,
                        const char *uri)
{
    if (!text || !uri)
        return;
    struct panel_entry *entry = wall_entry(c, &panel->entries);
    entry->value = text;
    entry->uri = uri;
}

/* A visit before the check says what it is for, or it would read as the check's own day. */
static const char *next_visit_key(const struct care_plan *plan)
{
    if (strcmp(plan->next_visit_for, "given-here") == 0)
        return "wall.next-visit.given-here";
    return strcmp(plan->next_visit_for, "check-after") == 0 ? "wall.next-visit.check-after"
                                                            : "wall.next-visit";
}

/* Where and when what was referred is seen; what nobody wrote is written in by hand. */
static const char *referral_text(struct composition *c)
{
    const struct referral_plan *referral = &c->plan->referral;
    const char *key = referral->to && referral->has_day ? "wall.referral"
                      : referral->to                    ? "wall.referral.where"
                      : referral->has_day               ? "wall.referral.day"
                                                        : "wall.referral.open";
    return wall_phrase(c, key, "what", referral->to, "date",
                       referral->has_day ? format_date_day(&c->ctx.format, referral->on) : NULL);
}

/* Several doses a day here are no visit with one hour: each has its own. */
static const char *here_times(struct composition *c)
{
    for (size_t i = 0; i < c->plan->medicine_count; i++) {
        const char *times = medicine_here_times(&c->ctx, &c->plan->medicines[i]);
        if (times && strcmp(c->plan->next_visit_for, "given-here") == 0 &&
            date_compare(c->plan->medicines[i].doses[0].on, c->plan->next_visit) <= 0)
            return wall_phrase(c, "wall.next-visit.given-here-at", "date", times, NULL, NULL);
    }
    return NULL;
}

/* What is booked stands there too where something else brings it here before. */
static const char *visit_text(struct composition *c)
{
    const struct care_plan *plan = c->plan;
    if (!plan->has_next_visit)
        return phrase(&c->ctx, "wall.next-visit.open");
    const char *next = here_times(c);
    if (!next)
        next =
            wall_phrase(c, next_visit_key(plan), "date", wall_day(c, plan->next_visit), NULL, NULL);
    if (plan->booked_minute < 0 || date_compare(plan->next_visit, plan->recheck) == 0)
        return next;
    return arena_format(
        c->arena, "%s %s", next,
        wall_phrase(c, "wall.next-visit.booked", "date", wall_day(c, plan->recheck), NULL, NULL));
}

void section_wall_signature(struct composition *c, struct block_builder *out)
{
    struct panel *panel = wall_panel(c, out, PANEL_SIGNATURE);
    struct panel_entry *visit = wall_entry(c, &panel->entries);
    visit->pictogram = wall_pictogram(PICTOGRAM_VET);
    visit->text = visit_text(c);
    visit->is_strong = true;
    if (c->plan->referral.is_asked)
        visit->text = arena_format(c->arena, "%s %s", referral_text(c), visit->text);
    const char *back = phrase(&c->ctx, "wall.say-back");
    wall_entry(c, &panel->entries)->text =
        c->plan->has_blanks ? arena_format(c->arena, "%s %s", phrase(&c->ctx, "wall.blanks"), back)
                            : back;
    panel->title = phrase(&c->ctx, "wall.signature");
    panel->text = c->is_signed ? c->signed_by : c->plan->veterinarian;
    panel->is_small = section_is_close(c, CLOSE_LINES) && !c->live_links;
    if (section_in_brief(c) && !c->live_links)
        return; /* the telephones stand above on paper */
    const char *email = c->plan->letterhead.email.text, *web = c->plan->letterhead.web;
    add_address(c, panel, email, email ? mail_address_uri(email, c->arena) : NULL);
    add_address(c, panel, web, web && strncmp(web, "https://", 8) == 0 ? web : NULL);
}

void section_wall_notes(struct composition *c, struct block_builder *out)
{
    wall_panel(c, out, PANEL_NOTES)->title = phrase(&c->ctx, "wall.notes");
}

void section_wall_sources(struct composition *c, struct block_builder *out)
{
    const char *text = section_sources_line(c);
    if (text)
        wall_panel(c, out, PANEL_SMALL)->text = text;
}

void section_wall_words(struct composition *c, struct block_builder *out)
{
    c->words = wall_panel(c, out, section_in_brief(c) ? PANEL_SMALL : PANEL_TEXT);
}

/* "Until Friday:" before what holds so long, or it reads as a sentence broken off. */
static const char *end_as_lead(struct composition *c, const char *end)
{
    size_t length = strlen(end);
    return length == 0 || end[length - 1] != '.'
               ? end
               : section_with_text(c, "sheet.run-in", "name",
                                   arena_copy_bytes(c->arena, end, length - 1));
}

/* What is to be done, or what is not, each behind the end that it shares with those before it. */
static void add_now(struct composition *c, const struct now_line *items, size_t count,
                    bool is_not_now, struct panel_entry **list)
{
    const char *end = "";
    for (size_t i = 0; i < count; i++) {
        if (items[i].is_not_now != is_not_now)
            continue;
        struct panel_entry *entry = wall_entry(c, list);
        if (strcmp(items[i].end, end) != 0)
            entry->title = end_as_lead(c, items[i].end);
        entry->text = items[i].text;
        end = items[i].end;
    }
}

/* Where there is no room at all: one paragraph, each end once and each item behind its sign. */
static void write_now_lines(struct composition *c, const struct now_line *items, size_t count,
                            struct block_builder *out)
{
    struct panel *panel = wall_panel(c, out, PANEL_GRADES);
    struct panel_entry *entry = NULL;
    panel->is_small = true;
    panel->title = phrase(&c->ctx, "sheet.now.title");
    panel->cuts = home_cuts(c, HOME_CUTS_NOW);
    for (size_t i = 0; i < count; i++) {
        if (!entry || strcmp(items[i].end, items[i - 1].end) != 0) {
            entry = wall_entry(c, &panel->entries);
            entry->title = end_as_lead(c, items[i].end);
        }
        entry->text =
            arena_format(c->arena, "%s%s" WALL_ITEM_SIGN "%s", entry->text ? entry->text : "",
                         entry->text ? " " : "", items[i].text);
    }
}

/* Where there is little room: one list in columns, what ends together below its end. */
static void write_now_columns(struct composition *c, const struct now_line *items, size_t count,
                              struct panel *panel)
{
    panel->is_small = true;
    for (size_t i = 0; i < count; i++) {
        struct panel_entry *entry = wall_entry(c, &panel->entries);
        if (i > 0 ? strcmp(items[i].end, items[i - 1].end) != 0 : *items[i].end != '\0')
            entry->title = end_as_lead(c, items[i].end);
        entry->text = items[i].text;
    }
}

void section_wall_now(struct composition *c, struct block_builder *out)
{
    const struct now_line *items;
    size_t count = section_now_items(c, &items);
    if (!count)
        return;
    if (section_is_close(c, CLOSE_PARAGRAPHS)) {
        write_now_lines(c, items, count, out);
        return;
    }
    struct panel *panel = wall_panel(c, out, PANEL_SIDES);
    panel->title = phrase(&c->ctx, "sheet.now.title");
    panel->cuts = home_cuts(c, HOME_CUTS_NOW);
    if (section_is_close(c, CLOSE_HEADINGS)) {
        write_now_columns(c, items, count, panel);
        return;
    }
    add_now(c, items, count, false, &panel->entries);
    add_now(c, items, count, true, &panel->second);
    panel->text = panel->entries ? phrase(&c->ctx, "wall.now.do") : NULL;
    panel->second_title = panel->second ? phrase(&c->ctx, "wall.now.not") : NULL;
}
