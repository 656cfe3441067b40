/* Tonight's rows and what comes after them. */
#include <math.h>
#include <string.h>

#include "sheet/home_cuts.h"
#include "sheet/medicine_words.h"
#include "sheet/wall.h"

/* Its row's words; of what was asked for before that it still is not done. */
static const char *title_of(struct composition *c, size_t action)
{
    const char *text = wall_short(c, action);
    return c->plan->actions[action].is_second
               ? wall_phrase(c, "wall.still", "what", text, NULL, NULL)
               : text_capital(c->arena, text);
}

/* ---- tonight ---- */

static const char *unit_of(struct composition *c, const struct step_plan *step,
                           const struct wall_target *target)
{
    if (step->has_place)
        return target->unit;
    if (step->write && strcmp(step->write, "weighed") == 0)
        return wall_symbol(c, "gram", c->plan->weight.needs_fine_scale ? "gram" : "ounce");
    return NULL;
}

/* Its last day: what is bought has one in the weeks too; no heater is turned up before a
 * thermostat, which waits no longer than the warmth; nor does the place for which food waits, nor a
 * lamp that hangs too near or too far. */
static const struct dated_step {
    const char *action, *date; /* NULL: the day on which the first steps must be done */
} dated_steps[] = {
    {"change-lamp", "lamp-change"}, {"add-thermostat", NULL}, {"hang-lamp-at", NULL}};

static const struct date *last_day(const struct care_plan *plan, const struct action *action)
{
    size_t row = 0, rows = sizeof dated_steps / sizeof *dated_steps;
    while (row < rows && strcmp(dated_steps[row].action, action->code) != 0)
        row++;
    /* what is bought only once the check has named it has no day before it */
    if (strcmp(action->code, "change-lamp") == 0 && plan_holds(plan, "uvb-lamp", "off-until"))
        return NULL;
    const bool holds_food = plan->steps[action - plan->actions].holds_food;
    if (row == rows && !holds_food)
        return NULL;
    if (row == rows || !dated_steps[row].date) /* tonight's have it beside their title */
        return action->is_tonight ? NULL : &plan->way_out;
    for (size_t i = 0; i < plan->date_count; i++)
        if (strcmp(plan->dates[i].what, dated_steps[row].date) == 0)
            return &plan->dates[i].on;
    return NULL;
}

static const char *last_day_text(struct composition *c, const struct action *action)
{
    const struct date *day = last_day(c->plan, action);
    return day ? wall_phrase(c, action->is_first ? "wall.tonight-or-by" : "wall.by", "date",
                             format_date_day(&c->ctx.format, *day), NULL, NULL)
               : NULL;
}

/* Where heat is turned up: how far. By day never above the plan's limit, where it has one; else,
 * and at night, no further than the end of the target as it is shown. */
static const char *limit_text(struct composition *c, size_t action)
{
    const struct step_plan *step = &c->plan->steps[action];
    if (!step->heats || !wall_has_place(c, action) || step->place >= MEASURE_COUNT ||
        c->plan->actions[action].own)
        return NULL;
    const struct measured_plan *place = &c->plan->measured[step->place];
    const bool by_night = step->place == MEASURE_NIGHT || step->place == MEASURE_NIGHT_WARM_SIDE;
    const bool has_limit = isfinite(place->most) && !by_night;
    if (!place->applies || !isfinite(place->high))
        return NULL;
    return wall_phrase(c, has_limit ? "wall.never-above" : "wall.stop-at", "limit",
                       has_limit ? format_temp_limit(&c->ctx.format, place->most)
                                 : format_temp(&c->ctx.format, place->high),
                       NULL, NULL);
}

/* From when, and how, and in full also when to stop or call: the action's own words. */
static const char *how_text(struct composition *c, const struct action *action)
{
    static const char *const parts[] = {"how", "stop"};
    const char *text = last_day_text(c, action);
    if (action->has_start || action->has_end)
        text = wall_phrase(
            c, action->has_start ? "wall.start" : "wall.end", "date",
            format_date_day(&c->ctx.format, action->has_start ? action->start : action->end), NULL,
            NULL);
    if (action->hers)
        text = wall_join(c, text, text_ended(c->arena, action->hers));
    size_t count = section_in_brief(c) && !action->is_tonight ? 1 : sizeof parts / sizeof *parts;
    for (size_t i = 0; i < count; i++) {
        const char *sentence = section_action_part(c, action, action->code, parts[i]);
        if (sentence && *sentence)
            text = text ? arena_format(c->arena, "%s %s", text, sentence) : sentence;
    }
    return text;
}

/* One step for both ends of the night: the cool one's numbers before how it is done. */
static const char *with_cool_end(struct composition *c, size_t action, const char *how)
{
    const struct step_plan *step = &c->plan->steps[action];
    const bool shows_warm_end = step->has_place && step->place == MEASURE_NIGHT_WARM_SIDE;
    const char *cool = shows_warm_end && c->plan->measured[MEASURE_NIGHT].verdict == VERDICT_TOO_LOW
                           ? phrase_if_known(&c->ctx, "wall.cool-end-too")
                           : NULL;
    return !cool ? how : how ? arena_format(c->arena, "%s %s", cool, how) : cool;
}

static const char *append_why(struct composition *c, const char *how, const char *why)
{
    why = arena_format(c->arena, "%s %s", phrase(&c->ctx, "sheet.why"), why);
    return how ? arena_format(c->arena, "%s %s", how, why) : why;
}

/* "Why: a cold body cannot heal." What the first rule that asks for it says, where there is room;
 * what comes first in words of hers always has its reason, which hers leave out. */
static const char *with_reason(struct composition *c, size_t row, const char *how)
{
    const struct action *action = &c->plan->actions[row];
    const bool says = section_says_why(c, row) || (row == 0 && action->hers);
    const char *why = action->decided_why ? text_ended(c->arena, action->decided_why)
                      : !says || action->own || !action->reasons ? NULL
                                                                 : section_why(c, action->reasons);
    if (!why || !*why)
        return how;
    return append_why(c, how, why);
}

/* A lamp is never hung nearer than what was worked out: behind a row's one height, before how a
 * list says it. */
static const char *with_nearest(struct composition *c, size_t action, const char *how, bool leads)
{
    const struct step_plan *step = &c->plan->steps[action];
    const bool hangs = !plan_holds(c->plan, "uvb-lamp", "off-until");
    const char *nearest = hangs && wall_has_place(c, action) && step->place == PLACE_LAMP_DISTANCE
                              ? phrase_if_known(&c->ctx, "wall.lamp-nearest")
                              : NULL;
    if (!nearest || !how)
        return how ? how : nearest;
    return arena_format(c->arena, "%s %s", leads ? nearest : how, leads ? how : nearest);
}

/* What to do where there is none at home of what it needs. */
static const char *with_way_without(struct composition *c, const struct step_plan *step,
                                    const char *how)
{
    const char *way = step->lacks_heater ? phrase_if_known(&c->ctx, "wall.no-heater")
                      : step->is_bought && section_says_key(c)
                          ? phrase_if_known(&c->ctx, "wall.none-at-home")
                          : NULL;
    return !way ? how : how ? arena_format(c->arena, "%s %s", how, way) : way;
}

static void add_step(struct composition *c, struct panel *panel, size_t action)
{
    const struct step_plan *step = &c->plan->steps[action];
    struct panel_entry *entry = wall_entry(c, &panel->entries);
    struct wall_target target = {0};
    bool has_target = wall_has_place(c, action) && wall_find_step_target(c, step->place, &target);
    entry->has_tick_box = true;
    entry->mark = wall_mark(c, action, &entry->is_mark_solid);
    entry->mark_said = wall_phrase(c, "wall.step", "number", entry->mark, NULL, NULL);
    entry->title = title_of(c, action);
    const struct action *asked = &c->plan->actions[action];
    const char *how = with_cool_end(c, action, how_text(c, asked));
    how = with_reason(c, action, with_nearest(c, action, how, false));
    entry->text = with_way_without(c, step, how);
    entry->note = step->write ? phrase_code(&c->ctx, "wall.write", step->write) : NULL;
    entry->unit = unit_of(c, step, &target);
    if (!has_target) {
        const struct pictogram *own = home_cut_of_action(c->plan, action);
        /* whose skin has to stay wet does not wake on a dry floor */
        const bool is_wet = step->pictogram == PICTOGRAM_WAKE && !wall_wakes_dry(c);
        entry->pictogram = own ? own : wall_pictogram(is_wet ? PICTOGRAM_CLOCK : step->pictogram);
        return;
    }
    entry->value = target.value;
    entry->turn = target.turn;
    entry->turn_said = target.turn_said;
    entry->now = target.now;
    entry->is_now_open = target.is_now_open;
    entry->limit = limit_text(c, action);
}

static void add_way(struct composition *c, struct panel *panel, const char *what,
                    const struct pictogram *sign)
{
    struct panel_entry *entry = wall_entry(c, &panel->entries);
    entry->has_tick_box = true;
    entry->pictogram = sign;
    entry->title = phrase(&c->ctx, arena_format(c->arena, "wall.way.%s.do", what));
    entry->text = phrase(&c->ctx, arena_format(c->arena, "wall.way.%s.how", what));
}

static void write_way(struct composition *c, struct block_builder *out)
{
    struct panel *panel = wall_panel(c, out, PANEL_STEPS);
    bool wet = c->plan->taxon.group == GROUP_FROG || c->plan->taxon.group == GROUP_SALAMANDER;
    panel->title = phrase(&c->ctx, "wall.way");
    panel->aside = phrase(&c->ctx, "wall.way.wait");
    add_way(c, panel, wet ? "water" : "warm",
            wall_pictogram(wet ? PICTOGRAM_DROP : PICTOGRAM_HOME));
    if (plan_holds(c->plan, "wound-care", "keep-moist-and-go"))
        add_way(c, panel, "tissue", wall_pictogram(PICTOGRAM_DROP));
    else if (plan_holds(c->plan, "wound-care", "clean-cover-and-go"))
        add_way(c, panel, "wound", wall_pictogram(PICTOGRAM_VET));
    add_way(c, panel, "quiet", wall_other_pictogram(WALL_PICTOGRAM_MOON));
    add_way(c, panel, "sheet", wall_pictogram(PICTOGRAM_VET));
}

/* Beside the title: when to call if the numbers are not right. The numbers to call stand above it,
 * so it is short where the rows go on. */
static const char *aside_text(struct composition *c, bool is_measured, bool has_more)
{
    const bool is_brief = section_is_close(c, CLOSE_LINES) || !section_says_key(c) || has_more;
    return is_measured ? wall_phrase(c, is_brief ? "wall.way-out-brief" : "wall.way-out", "date",
                                     format_date_day(&c->ctx.format, c->plan->way_out), NULL, NULL)
                       : NULL;
}

static bool is_moved_up(const struct care_plan *plan, size_t action)
{
    return plan->steps[action].makes_heat_safe && !plan->actions[action].decision;
}

/* What is due tonight from there on, in its order, but before what turns heat up what makes that
 * safe: page one had room for neither, so no row stands between them. What the veterinarian placed
 * herself stays where she put it. */
static size_t order_due(const struct care_plan *plan, size_t from, size_t *order)
{
    size_t count = 0, end = from;
    bool is_safe = false;
    while (end < plan->action_count && plan->actions[end].is_tonight)
        end++;
    for (size_t i = from; i < end; i++) {
        const bool heats = plan->steps[i].heats && !is_safe;
        for (size_t k = i + 1; k < end && heats; k++)
            if (is_moved_up(plan, k))
                order[count++] = k;
        if (!is_safe || !is_moved_up(plan, i))
            order[count++] = i;
        is_safe = is_safe || heats;
    }
    return count;
}

/* A step in her own words is named by its first sentence, as far as a colon: no list goes on behind
 * a stop, and a colon would take in what follows. */
static const char *named(struct composition *c, size_t action)
{
    static const char *const colons[] = {"\u00A0:", "\u202F:", " :", ":"};
    const char *own = c->plan->actions[action].own;
    if (!own)
        return wall_short(c, action);
    const char *sentence = wall_own_sentence(c, own);
    size_t length = strlen(sentence);
    for (size_t i = 0; i < sizeof colons / sizeof *colons; i++) {
        const char *at = strstr(sentence, colons[i]);
        length = at && (size_t)(at - sentence) < length ? (size_t)(at - sentence) : length;
    }
    return text_small(c->arena, arena_copy_bytes(c->arena, sentence, length));
}

/* The first dose at home that falls this evening, or NULL. */
static const struct dose_plan *dose_tonight(const struct composition *c,
                                            const struct medicine_plan *m)
{
    for (size_t i = 0; i < plan_home_doses(m); i++)
        if (date_compare(m->doses[i].on, c->plan->on) == 0 && m->doses[i].at >= DAY_PART_EVENING)
            return &m->doses[i];
    return NULL;
}

/* "Eye gel (evening)" of each of these, whatever its way in. */
static size_t name_doses(struct composition *c, const char **names)
{
    size_t count = 0;
    for (size_t i = 0; i < c->plan->medicine_count; i++) {
        const struct medicine_plan *m = &c->plan->medicines[i];
        const struct dose_plan *dose = dose_tonight(c, m);
        const char *name = medicine_name(c, m), *aside = strstr(name, " (");
        if (!dose)
            continue;
        if (aside) /* what it is for stands with the medicines */
            name = arena_copy_bytes(c->arena, name, (size_t)(aside - name));
        names[count++] = m->asks_hours ? name
                                       : wall_phrase(c, "wall.tonight-dose", "what", name, "date",
                                                     medicine_time(c, m, dose));
    }
    return count;
}

/* What page one has no room for, by its titles: doses, what she wrote, then in the order of page
 * two. Who reads one side alone does not turn a page for what has no name. NULL: nothing. */
static const char *later_text(struct composition *c, size_t from)
{
    const char **titles =
        ARENA_ARRAY(c->arena, const char *, c->plan->medicine_count + c->plan->action_count + 1);
    size_t *order = ARENA_ARRAY(c->arena, size_t, c->plan->action_count + 1);
    const size_t due = order_due(c->plan, from, order);
    size_t count = name_doses(c, titles);
    for (int is_ours = 0; is_ours <= 1; is_ours++) /* "stop: spinach" would take in what follows */
        for (size_t i = 0; i < due; i++)
            if ((c->plan->actions[order[i]].own == NULL) == is_ours)
                titles[count++] = named(c, order[i]);
    const char *later = count ? wall_phrase(c, "wall.tonight-later", "what",
                                            phrase_all_of(&c->ctx, titles, count), NULL, NULL)
                              : NULL;
    /* nobody is to pull tonight, before the page of what was found is read */
    const char *caps = phrase_if_known(&c->ctx, "wall.eye-caps");
    return caps && later ? arena_format(c->arena, "%s %s", later, caps) : caps ? caps : later;
}

void section_wall_steps(struct composition *c, struct block_builder *out)
{
    size_t count = wall_step_count(c);
    if (c->plan->go_now) {
        write_way(c, out);
        return;
    }
    if (count == 0)
        return;
    struct panel *panel = wall_panel(c, out, PANEL_STEPS);
    const char *later = later_text(c, count);
    panel->title = phrase(&c->ctx, "wall.tonight");
    bool measured = false;
    for (size_t i = 0; i < count; i++) {
        add_step(c, panel, i);
        measured = measured || wall_has_place(c, i);
    }
    for (size_t i = count; i < c->plan->action_count && c->plan->actions[i].is_tonight; i++)
        measured = measured || wall_has_place(c, i);
    panel->aside = aside_text(c, measured, later);
    if (later)
        wall_add_led(c, &wall_panel(c, out, PANEL_TEXT)->entries, later);
}

/* ---- then ---- */

/* Behind those that make heat safe, in one list, what they bring is not named again. */
static const char *how_behind(struct composition *c, size_t action, size_t made_safe)
{
    struct plan_fact both = {.name = "heat.missing", .kind = FACT_TEXT};
    const struct plan_fact *before = c->ctx.facts;
    if (made_safe > 1) {
        both.text = phrase(&c->ctx, "sheet.heat-missing.both-above");
        c->ctx.facts = &both;
    }
    const char *how = how_text(c, &c->plan->actions[action]);
    c->ctx.facts = before;
    return how;
}

/* `made_safe`: so many of those before it in its list make heat safe. */
static void add_then(struct composition *c, struct panel *panel, size_t action, size_t made_safe)
{
    const struct step_plan *step = &c->plan->steps[action];
    struct panel_entry *entry = wall_entry(c, &panel->entries);
    struct wall_target target = {0};
    entry->has_tick_box = true;
    entry->mark = wall_mark(c, action, &entry->is_mark_solid);
    if (entry->mark)
        entry->mark_said = wall_phrase(c, "wall.item", "number", entry->mark, NULL, NULL);
    entry->title = title_of(c, action);
    if (wall_has_place(c, action) && wall_find_step_target(c, step->place, &target) &&
        !strstr(entry->title, target.value))
        entry->title =
            wall_phrase(c, "wall.then.value", "what", entry->title, "value", target.value);
    if (target.now_number)
        entry->title = arena_format(c->arena, "%s, %s", entry->title, target.now);
    entry->text = with_cool_end(c, action, how_behind(c, action, made_safe));
    entry->text = with_nearest(c, action, entry->text, true);
    const char *decided_why = c->plan->actions[action].decided_why;
    if (decided_why && *decided_why)
        entry->text = append_why(c, entry->text, text_ended(c->arena, decided_why));
    const char *limit = limit_text(c, action);
    if (limit)
        entry->text = entry->text ? arena_format(c->arena, "%s %s", limit, entry->text) : limit;
    if (panel->kind == PANEL_GRADES) /* what to do and how on one line */
        entry->title = text_ended(c->arena, entry->title);
}

static bool is_due(const struct composition *c, size_t action)
{
    return c->plan->actions[action].is_tonight && !c->plan->go_now; /* tonight it is seen */
}

/* In a paragraph that begins with tonight's, what comes after them has its title in it. */
static void part_entries(struct composition *c, struct panel *panel)
{
    wall_entry(c, &panel->entries)->title =
        section_with_text(c, "sheet.run-in", "name", phrase(&c->ctx, "wall.then"));
}

/* Boxes in columns hide what is left to tick where there are many, and take room. */
static bool is_one_column(const struct composition *c, size_t from)
{
    enum { BESIDE_MOST = 4 };
    size_t count = 0;
    for (size_t i = from; i < c->plan->action_count && is_due(c, i) == is_due(c, from); i++)
        count++;
    return section_is_close(c, CLOSE_LINES) || count > BESIDE_MOST;
}

static struct panel *begin_then(struct composition *c, size_t from, struct block_builder *out)
{
    struct panel *panel = wall_panel(c, out, is_one_column(c, from) ? PANEL_GRADES : PANEL_CHECKS);
    panel->title = phrase(&c->ctx, is_due(c, from) ? "wall.tonight-too" : "wall.then");
    return panel;
}

/* What page one had no room for is due tonight all the same. */
void section_wall_then(struct composition *c, struct block_builder *out)
{
    struct panel *panel = NULL;
    bool is_tonight = false, is_letter_told = section_is_close(c, CLOSE_HEADINGS), leads = false;
    const size_t from = wall_step_count(c);
    size_t made_safe = 0;
    size_t *order = ARENA_ARRAY(c->arena, size_t, c->plan->action_count + 1);
    const size_t due = c->plan->go_now ? 0 : order_due(c->plan, from, order);
    for (size_t at = from; at < c->plan->action_count; at++) {
        const size_t i = at < from + due ? order[at - from] : at;
        bool parts = is_due(c, i) && !section_is_close(c, CLOSE_RUN_ON);
        if (strcmp(c->plan->actions[i].code, "go-to-clinic-now") == 0)
            continue;
        if (!panel || is_tonight != parts) {
            is_tonight = parts;
            leads = section_is_close(c, CLOSE_RUN_ON) && is_due(c, i);
            panel = begin_then(c, at, out);
            made_safe = 0;
        }
        if (leads && !is_due(c, i)) {
            part_entries(c, panel);
            leads = false;
        }
        add_then(c, panel, i, made_safe);
        made_safe += c->plan->steps[i].makes_heat_safe;
        if (!panel->cuts && home_cut_of_action(c->plan, i))
            panel->cuts = home_cuts(c, HOME_CUTS_THEN);
        bool is_solid = false;
        if (!is_letter_told && wall_mark(c, i, &is_solid)) {
            is_letter_told = true; /* once, where the first one stands */
            panel->aside = phrase(&c->ctx, "wall.then.letter");
        }
    }
}
