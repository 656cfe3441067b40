/* Time: the days to the recheck for an ill animal, and six weeks to tick and to write down. */
#include <string.h>

#include "base/strbuf.h"
#include "sheet/medicine_words.h"
#include "sheet/wall.h"
#include "words/format_opening.h"

enum { WEEKS = 6, WEEK_DAYS = 7, DAYS_MOST = 7, LOG_MOST = 4, HALF_DAYS_MOST = 6 };

/* ---- six weeks ---- */

/* What stands in the weeks, in this order. */
static const struct week_row {
    const char *what;
    enum pictogram_name pictogram;
    bool is_to_write;
    bool is_said_in_food; /* left out where there is no room */
} week_rows[] = {
    {"move-in", PICTOGRAM_HOME, false, false},
    {"given-here", PICTOGRAM_VET, false, false},
    {"recheck", PICTOGRAM_VET, false, false},
    {"recheck-usual", PICTOGRAM_VET, false, false},
    {"referral", PICTOGRAM_VET, false, false},
    {"check-after", PICTOGRAM_VET, false, false},
    {"result", PICTOGRAM_LOG, false, false},
    {"meal", PICTOGRAM_MEAL, false, true},
    {"insects", PICTOGRAM_MEAL, false, true},
    {"supplement", PICTOGRAM_PILL, false, true},
    {"dose", PICTOGRAM_PILL, false, false},
    {"lamp-change", PICTOGRAM_TUBE, false, false},
    {"quarantine-end", PICTOGRAM_HOME, false, false},
    {"weigh", PICTOGRAM_WEIGH, true, false},
};

static int week_of(const struct care_plan *plan, struct date day)
{
    long days = date_days_between(plan->on, day);
    return days < 0 ? 0 : days >= WEEKS * WEEK_DAYS ? -1 : (int)(days / WEEK_DAYS);
}

/* Has each dose of a day at home its box among the medicines? */
static bool all_have_boxes(const struct care_plan *plan, struct date on)
{
    for (size_t i = 0; i < plan->medicine_count; i++) {
        const struct medicine_plan *m = &plan->medicines[i];
        for (size_t k = 0; k < plan_home_doses(m); k++)
            if (date_compare(m->doses[k].on, on) == 0 && !medicine_has_box(plan, on))
                return false;
    }
    return true;
}

/* Each day once, in order, on which something is due. */
static size_t collect_days(struct composition *c, const char *what, const struct date **out)
{
    const struct care_plan *plan = c->plan;
    const struct feeding_plan *m = &plan->feeding;
    if (strcmp(what, "meal") == 0) {
        *out = m->meal_days;
        return m->meal_day_count;
    }
    if (strcmp(what, "insects") == 0) {
        *out = m->beside.days;
        return m->line_count == 2 ? m->beside.day_count : 0;
    }
    struct date *days = ARENA_ARRAY(c->arena, struct date, plan->date_count + 1);
    const bool of_doses = strcmp(what, "dose") == 0;
    size_t count = 0;
    for (size_t i = 0; i < plan->date_count; i++) {
        const struct plan_date *date = &plan->dates[i];
        bool again = count > 0 && date_compare(days[count - 1], date->on) == 0;
        /* a dose has one box, in the medicines' own table: with two it is given twice */
        bool has_box = of_doses && all_have_boxes(plan, date->on);
        if (strcmp(date->what, what) == 0 && !again && !has_box)
            days[count++] = date->on;
    }
    *out = days;
    return count;
}

/* "27 Mar" without its weekday. */
static const char *week_head(struct composition *c, struct date day)
{
    const char *text = format_date_day(&c->ctx.format, day), *space = strchr(text, ' ');
    return space ? space + 1 : text;
}

/* A week stands under its first day. What falls into the next month says so: of several days the
 * first that does. */
static void fill_cell(struct composition *c, const struct date *days, size_t count, int week,
                      struct panel_cell *cell)
{
    const char **names = ARENA_ARRAY(c->arena, const char *, count + 1);
    const int head_month = date_add_days(c->plan->on, (long)week * WEEK_DAYS).month;
    int month = head_month;
    size_t first = count, filled = 0;
    for (size_t i = 0; i < count; i++) {
        if (week_of(c->plan, days[i]) != week)
            continue;
        first = first == count ? i : first;
        names[filled++] = days[i].month == month ? arena_format(c->arena, "%d", days[i].day)
                                                 : week_head(c, days[i]);
        month = days[i].month;
    }
    if (filled == 1 && month == head_month)
        names[0] = format_date_weekday(&c->ctx.format, days[first]);
    cell->days = names;
    cell->day_count = filled;
}

/* A row under its title, where one of the days falls into the weeks; NULL else. */
static struct panel_entry *add_row_of(struct composition *c, struct panel *panel,
                                      const struct week_row *row, const struct date *days,
                                      size_t count)
{
    struct panel_cell *cells = ARENA_ARRAY(c->arena, struct panel_cell, WEEKS);
    size_t any = 0;
    /* what is done every day needs no calendar */
    if (count > WEEKS * WEEK_DAYS)
        return NULL;
    for (int week = 0; week < WEEKS; week++) {
        fill_cell(c, days, count, week, &cells[week]);
        cells[week].is_to_write = row->is_to_write && cells[week].day_count > 0;
        any += cells[week].day_count;
    }
    if (any == 0)
        return NULL;
    struct panel_entry *entry = wall_entry(c, &panel->entries);
    entry->is_strong = true;
    entry->pictogram = wall_pictogram(row->pictogram);
    entry->cells = cells;
    return entry;
}

/* Each powder has its own row, so that a day says which; one that lies on every meal, or on all
 * others, needs none. */
static void add_powder_rows(struct composition *c, struct panel *panel, const struct week_row *row)
{
    const struct feeding_plan *m = &c->plan->feeding;
    for (size_t i = 0; i < m->supplement_count; i++) {
        const struct supplement_plan *s = &m->supplements[i];
        struct panel_entry *entry =
            s->every_meals == 1 ? NULL : add_row_of(c, panel, row, s->days, s->day_count);
        if (entry)
            entry->title = phrase_code(&c->ctx, "wall.weeks.powder",
                                       bind_choice_word(supplement_choices, (int)s->what));
    }
}

static void add_week_row(struct composition *c, struct panel *panel, const struct week_row *row)
{
    const struct date *days;
    if (strcmp(row->what, "supplement") == 0) {
        add_powder_rows(c, panel, row);
        return;
    }
    size_t count = collect_days(c, row->what, &days);
    struct panel_entry *entry = add_row_of(c, panel, row, days, count);
    if (!entry)
        return;
    entry->title = phrase_code(&c->ctx, "wall.weeks", row->what);
    bool weigh = row->is_to_write && c->plan->patient.has_mass;
    entry->now = weigh ? format_mass(&c->ctx.format, c->plan->patient.mass_g) : NULL;
    if (weigh && strchr(entry->now, '(')) /* in one unit: there is little room */
        entry->now = arena_copy_bytes(c->arena, entry->now,
                                      (size_t)(strchr(entry->now, '(') - entry->now - 1));
}

/* Tonight's rows have a line of their own to write on. */
static bool is_in_rows(const struct composition *c, enum measure_id measure)
{
    int action = wall_action_at(c, (int)measure);
    return action >= 0 && (size_t)action < wall_step_count(c);
}

static void add_log_row(struct composition *c, struct panel *panel, enum measure_id measure,
                        bool wrong)
{
    struct wall_target target;
    size_t rows = 0;
    for (const struct panel_entry *e = panel->entries; e; e = e->next)
        rows += !e->is_strong;
    if (measure == MEASURE_UVB || rows >= LOG_MOST ||
        (section_in_brief(c) && is_in_rows(c, measure)) ||
        !wall_find_target(c, (int)measure, &target) || (target.turn != TURN_RIGHT) != wrong)
        return;
    struct panel_entry *entry = wall_entry(c, &panel->entries);
    entry->pictogram = measure == MEASURE_NIGHT      ? wall_other_pictogram(WALL_PICTOGRAM_MOON)
                       : measure == MEASURE_HUMIDITY ? wall_pictogram(PICTOGRAM_DROP)
                                                     : wall_pictogram(PICTOGRAM_LOG);
    entry->title = measure == MEASURE_HUMIDITY ? phrase(&c->ctx, "wall.box.air")
                                               : section_measure_name(c, measure);
    entry->value = target.value;
    entry->now = target.now_number;
    entry->cells = ARENA_ARRAY(c->arena, struct panel_cell, panel->column_count);
}

static void add_logs(struct composition *c, struct panel *panel)
{
    for (int m = 0; m < MEASURE_COUNT; m++)
        add_log_row(c, panel, (enum measure_id)m, true);
}

/* What nobody else reminds of. */
static bool is_kept_in_brief(const struct plan_date *date)
{
    return date->is_visit || strcmp(date->what, "lamp-change") == 0;
}

/* With its year where that is another. */
static const char *day_text(struct composition *c, struct date on)
{
    return on.year == c->plan->on.year ? format_date_day(&c->ctx.format, on)
                                       : format_date_short(&c->ctx.format, on);
}

/* What lies beyond the weeks, each thing with its first day. */
static const char *later_text(struct composition *c)
{
    enum { LATER_MOST = 3 };
    const char *texts[LATER_MOST];
    size_t count = 0;
    for (size_t i = 0; i < c->plan->date_count && count < LATER_MOST; i++) {
        const struct plan_date *date = &c->plan->dates[i];
        bool is_listed = week_of(c->plan, date->on) >= 0 || strcmp(date->what, "supplement") == 0 ||
                         strcmp(date->what, "insects") == 0 ||
                         strncmp(date->what, "rest-", 5) == 0 || strcmp(date->what, "dose") == 0 ||
                         (section_in_brief(c) && !is_kept_in_brief(date));
        for (size_t k = 0; k < i && !is_listed; k++)
            is_listed = week_of(c->plan, c->plan->dates[k].on) < 0 &&
                        strcmp(c->plan->dates[k].what, date->what) == 0;
        if (is_listed)
            continue;
        texts[count++] = wall_phrase(c, "wall.weeks.later-item", "what",
                                     phrase_code(&c->ctx, "wall.later", date->what), "date",
                                     day_text(c, date->on));
    }
    return count ? wall_phrase(c, "wall.weeks.later", "what", phrase_all_of(&c->ctx, texts, count),
                               NULL, NULL)
                 : NULL;
}

static int minute_of(const struct plan_date *date)
{
    for (const struct plan_fact *fact = date->facts; fact; fact = fact->next)
        if (fact->kind == FACT_CLOCK)
            return (int)fact->low;
    return -1;
}

/* "11:20": when it comes on that day for doses that the clinic gives, as far as that is known;
 * NULL. */
static const char *dose_times(struct composition *c, struct date on)
{
    const char **times = ARENA_ARRAY(c->arena, const char *, c->plan->date_count);
    int *minutes = ARENA_ARRAY(c->arena, int, c->plan->date_count);
    size_t count = 0;
    for (size_t i = 0; i < c->plan->date_count; i++) {
        const struct plan_date *date = &c->plan->dates[i];
        bool is_of_day = strcmp(date->what, "given-here") == 0 && date_compare(date->on, on) == 0;
        const int minute = is_of_day ? minute_of(date) : -1;
        bool is_new = minute >= 0;
        for (size_t k = 0; k < count; k++)
            is_new &= minutes[k] != minute;
        if (!is_new)
            continue;
        minutes[count] = minute;
        times[count++] = format_clock(&c->ctx.format, minute);
    }
    return count ? phrase_all_of(&c->ctx, times, count) : NULL;
}

/* "Mon 30 Nov at 11:20": its hour behind each day, or behind the last one where all have the same.
 */
static const char *dose_day(struct composition *c, const struct date *days, size_t count, size_t at)
{
    const char *own = dose_times(c, days[at]);
    bool is_of_all = own != NULL;
    for (size_t i = 0; i < count && is_of_all; i++) {
        const char *other = dose_times(c, days[i]);
        is_of_all = other && strcmp(own, other) == 0;
    }
    return !own || (is_of_all && at + 1 < count)
               ? day_text(c, days[at])
               : wall_phrase(c, "wall.main.day-at", "date", day_text(c, days[at]), "what", own);
}

static bool is_of_procedure(const struct week_row *row)
{
    return strcmp(row->what, "check-after") == 0 || strcmp(row->what, "result") == 0;
}

/* "Mon 30 Nov (dressing)": the day with what was done, where there are several. */
static const char *procedure_day(struct composition *c, const char *what, struct date on)
{
    const char **names = ARENA_ARRAY(c->arena, const char *, c->plan->date_count);
    size_t count = 0;
    for (size_t i = 0; i < c->plan->date_count; i++) {
        const struct plan_date *date = &c->plan->dates[i];
        if (strcmp(date->what, what) == 0 && date_compare(date->on, on) == 0 && date->facts)
            names[count++] = text_small(c->arena, phrase(&c->ctx, date->facts->text));
    }
    return count ? arena_format(c->arena, "%s (%s)", day_text(c, on),
                                phrase_all_of(&c->ctx, names, count))
                 : day_text(c, on);
}

/* "Weigh Mon 30 Mar and 13 Apr": the next days of one thing; every day with us, or a dose would be
 * missed. */
static const char *dates_text(struct composition *c, const struct week_row *row)
{
    enum { SHOWN = 3, SHOWN_WITH_US = 20 };
    const struct date *days;
    const char *texts[SHOWN_WITH_US];
    const size_t most = row->pictogram == PICTOGRAM_VET ? SHOWN_WITH_US : SHOWN;
    size_t count = collect_days(c, row->what, &days), shown = count < most ? count : most;
    const bool weighs = row->is_to_write && !section_is_close(c, CLOSE_RUN_ON); /* beside its day */
    for (size_t i = 0; i < shown; i++)
        texts[i] = weighs ? arena_format(c->arena, "%s\xc2\xa0____", day_text(c, days[i]))
                   : strcmp(row->what, "given-here") == 0 ? dose_day(c, days, shown, i)
                   : count > 1 && is_of_procedure(row)    ? procedure_day(c, row->what, days[i])
                                                          : day_text(c, days[i]);
    return shown ? wall_phrase(c, "wall.weeks.later-item", "what",
                               phrase_code(&c->ctx, "wall.later", row->what), "date",
                               phrase_all_of(&c->ctx, texts, shown))
                 : NULL;
}

/* The names of what the clinic gives, each once. */
static size_t names_given(struct composition *c, const char **names)
{
    size_t count = 0;
    for (size_t i = 0; i < c->plan->date_count; i++) {
        const struct plan_date *date = &c->plan->dates[i];
        bool is_new = strcmp(date->what, "given-here") == 0 && date->facts && date->facts->text;
        for (size_t k = 0; k < count && is_new; k++)
            is_new = strcmp(names[k], date->facts->text) != 0;
        if (is_new)
            names[count++] = date->facts->text;
    }
    return count;
}

/* "with us: Syrup Mon 30 Nov at 11:20 and Tue 1 Dec": where there are several, as "dose" is of any
 * of them, and a feeding is none. */
static const char *given_text(struct composition *c, const char *name)
{
    struct date *days = ARENA_ARRAY(c->arena, struct date, c->plan->date_count);
    const char **texts = ARENA_ARRAY(c->arena, const char *, c->plan->date_count);
    size_t count = 0;
    for (size_t i = 0; i < c->plan->date_count; i++) {
        const struct plan_date *date = &c->plan->dates[i];
        if (strcmp(date->what, "given-here") == 0 && date->facts && date->facts->text &&
            strcmp(date->facts->text, name) == 0)
            days[count++] = date->on;
    }
    for (size_t i = 0; i < count; i++)
        texts[i] = dose_day(c, days, count, i);
    return wall_phrase(c, "wall.weeks.later-item", "what",
                       wall_phrase(c, "wall.weeks.given-here-of", "what", name, NULL, NULL), "date",
                       phrase_all_of(&c->ctx, texts, count));
}

/* Its one day stands above the signature. */
static bool is_next_visit(const struct care_plan *plan, const char *what)
{
    return strcmp(what, "recheck") == 0 && plan->has_next_visit && plan->has_recheck &&
           date_compare(plan->next_visit, plan->recheck) == 0;
}

static void add_date(struct composition *c, struct strbuf *text, const char *dates)
{
    if (dates)
        strbuf_addf(text, "%s%s.", text->length ? " " : "", text_capital(c->arena, dates));
}

/* For an ill animal whose page is full: the days to its recheck stand in a table already. */
static void write_dates(struct composition *c, struct block_builder *out)
{
    struct strbuf text;
    strbuf_init(&text, c->arena);
    for (size_t i = 0; i < sizeof week_rows / sizeof *week_rows; i++) {
        bool is_said =
            week_rows[i].is_said_in_food || strcmp(week_rows[i].what, "dose") == 0 ||
            (section_is_close(c, CLOSE_LISTS) && is_next_visit(c->plan, week_rows[i].what));
        const char **names = ARENA_ARRAY(c->arena, const char *, c->plan->date_count + 1);
        const bool is_given = strcmp(week_rows[i].what, "given-here") == 0;
        const size_t several = is_given ? names_given(c, names) : 0;
        for (size_t k = 0; several > 1 && k < several; k++)
            add_date(c, &text, given_text(c, names[k]));
        if (several < 2 && !is_said)
            add_date(c, &text, dates_text(c, &week_rows[i]));
    }
    if (text.length)
        wall_add_led(c, &wall_panel(c, out, PANEL_TEXT)->entries,
                     wall_phrase(c, "wall.weeks.days", "what", text.text, NULL, NULL));
}

void section_wall_weeks(struct composition *c, struct block_builder *out)
{
    if (c->plan->go_now) /* its dates are made where it is seen */
        return;
    if (section_is_close(c, CLOSE_LINES) || (section_in_brief(c) && wall_is_ill(c->plan))) {
        write_dates(c, out);
        return;
    }
    struct panel *panel = wall_panel(c, out, PANEL_CALENDAR);
    const char **heads = ARENA_ARRAY(c->arena, const char *, WEEKS);
    for (int week = 0; week < WEEKS; week++)
        heads[week] = week_head(c, date_add_days(c->plan->on, (long)week * WEEK_DAYS));
    bool ill = wall_is_ill(c->plan);
    panel->title = phrase(&c->ctx, ill ? "wall.weeks.dates" : "wall.weeks");
    panel->text = phrase(&c->ctx, "wall.weeks.from");
    panel->small = phrase(&c->ctx, "wall.weeks.visit");
    panel->columns = heads;
    panel->column_count = WEEKS;
    for (size_t i = 0; i < sizeof week_rows / sizeof *week_rows; i++)
        if (!section_in_brief(c) || !week_rows[i].is_said_in_food)
            add_week_row(c, panel, &week_rows[i]);
    if (!ill)
        add_logs(c, panel);
    panel->after = later_text(c);
}

/* ---- the ill: evening and morning ---- */

static void add_blank_row(struct composition *c, struct panel *panel, const char *title,
                          const struct pictogram *sign)
{
    struct panel_entry *entry = wall_entry(c, &panel->entries);
    entry->pictogram = sign;
    entry->title = title;
    entry->cells = ARENA_ARRAY(c->arena, struct panel_cell, panel->column_count);
}

/* What lives in water or drinks by its skin is never seen to drink. */
static bool drinks_unseen(const struct care_plan *plan)
{
    return plan->taxon.group == GROUP_FROG || plan->taxon.group == GROUP_SALAMANDER ||
           plan->taxon.habit == HABIT_AQUATIC || plan->taxon.habit == HABIT_SEMI_AQUATIC;
}

/* A row for the weight has a box for each day, so it stands only where each day has a weighing: the
 * others are written beside their dates. */
static bool is_weighed_daily(const struct care_plan *plan, struct date end)
{
    long count = 0;
    for (size_t i = 0; i < plan->date_count; i++)
        count +=
            strcmp(plan->dates[i].what, "weigh") == 0 && date_compare(plan->dates[i].on, end) <= 0;
    return count > 0 && count >= date_days_between(plan->on, end);
}

static size_t half_days(const struct care_plan *plan)
{
    long days = plan->has_recheck ? date_days_between(plan->on, plan->recheck) : HALF_DAYS_MOST / 2;
    size_t halves = days < 1 ? 2 : (size_t)days * 2;
    return halves < HALF_DAYS_MOST ? halves : HALF_DAYS_MOST;
}

const char *wall_day_name(struct composition *c, struct date day)
{
    const char *text = format_date_weekday(&c->ctx.format, day);
    const char *space = strstr(text, "\xc2\xa0");
    return space ? arena_copy_bytes(c->arena, text, (size_t)(space - text)) : text;
}

/* What is read for some days: the warmth of an ill animal, the basking spot where that is wrong or
 * nobody read it, and of the water what was wrong in it. */
static const struct half_day_log {
    enum measure_id measure;
    bool only_wrong;
    enum measure_id beside; /* or where this one is wrong: both are tested until both are right */
} half_day_logs[] = {
    {MEASURE_BASKING_SURFACE, true, MEASURE_BASKING_SURFACE},
    {MEASURE_WARM_SIDE, false, MEASURE_WARM_SIDE},
    {MEASURE_COOL_SIDE, false, MEASURE_COOL_SIDE},
    {MEASURE_WATER, false, MEASURE_WATER},
    {MEASURE_NIGHT, false, MEASURE_NIGHT},
    {MEASURE_NIGHT_WARM_SIDE, true, MEASURE_WARM_SIDE},
    {MEASURE_AMMONIA, true, MEASURE_NITRITE},
    {MEASURE_NITRITE, true, MEASURE_AMMONIA},
    {MEASURE_NITRATE, true, MEASURE_NITRATE},
    {MEASURE_PH, true, MEASURE_PH},
};

static bool is_turned(struct composition *c, enum measure_id measure)
{
    struct wall_target target;
    return wall_find_target(c, (int)measure, &target) &&
           (target.turn == TURN_UP || target.turn == TURN_DOWN);
}

static bool has_half_days(const struct care_plan *plan)
{
    return wall_is_ill(plan) && !plan->go_now;
}

bool wall_is_in_half_days(struct composition *c, enum measure_id measure)
{
    for (size_t i = 0; i < sizeof half_day_logs / sizeof *half_day_logs; i++)
        if (half_day_logs[i].measure == measure)
            return has_half_days(c->plan) && is_turned(c, measure);
    return false;
}

/* Where there is no room: it lives in water, and nobody has read the air above it. */
static bool is_air_of_a_swimmer(const struct composition *c, const struct half_day_log *log,
                                const struct wall_target *target)
{
    const bool is_air = log->measure == MEASURE_WARM_SIDE || log->measure == MEASURE_COOL_SIDE ||
                        log->measure == MEASURE_NIGHT;
    return section_is_close(c, CLOSE_LISTS) && is_air && c->plan->water.lives_in_it &&
           target->is_now_open;
}

/* It lies elsewhere than where the spot was read: its perches were lowered, its ways up taken out.
 */
static bool was_brought_low(const struct care_plan *plan)
{
    return plan_holds(plan, "climbing", "ground-only") || plan_holds(plan, "climbing", "low");
}

/* A chameleon sleeps as warm everywhere: one row of the night is enough, and where there is no
 * room for both. */
static bool is_night_of_the_cool_end(const struct composition *c, enum measure_id measure)
{
    const struct measured_plan *night = &c->plan->measured[MEASURE_NIGHT],
                               *warm = &c->plan->measured[MEASURE_NIGHT_WARM_SIDE];
    return measure == MEASURE_NIGHT_WARM_SIDE && night->applies &&
           (section_is_close(c, CLOSE_LISTS) ||
            (night->low == warm->low && night->high == warm->high));
}

static void add_half_day_log(struct composition *c, struct panel *panel,
                             const struct half_day_log *log)
{
    struct wall_target target;
    if (!wall_find_target(c, (int)log->measure, &target))
        return;
    bool is_basking = log->measure == MEASURE_BASKING_SURFACE;
    bool is_unread =
        is_basking && !section_in_brief(c) && !c->plan->measured[log->measure].has_reading;
    bool is_wanted = is_unread || (is_basking && was_brought_low(c->plan)) ||
                     is_turned(c, log->measure) || is_turned(c, log->beside);
    if ((log->only_wrong && !is_wanted) ||
        (section_in_brief(c) && log->measure == MEASURE_COOL_SIDE && target.turn == TURN_RIGHT))
        return;
    if (is_air_of_a_swimmer(c, log, &target) || is_night_of_the_cool_end(c, log->measure))
        return;
    struct panel_entry *entry = wall_entry(c, &panel->entries);
    const bool by_night = log->measure == MEASURE_NIGHT || log->measure == MEASURE_NIGHT_WARM_SIDE;
    entry->pictogram =
        by_night ? wall_other_pictogram(WALL_PICTOGRAM_MOON) : wall_pictogram(PICTOGRAM_LOG);
    entry->title = section_measure_name(c, log->measure);
    entry->value = target.value;
    entry->now = target.now_number;
    entry->cells = ARENA_ARRAY(c->arena, struct panel_cell, panel->column_count);
}

/* While it is warmed in steps the place has no target, and is read all the same. */
static void add_warming_log(struct composition *c, struct panel *panel)
{
    const struct measured_plan *warm = &c->plan->measured[MEASURE_WARM_SIDE];
    if (!c->plan->winter_rest.is_woken_cold || warm->applies)
        return;
    struct panel_entry *entry = wall_entry(c, &panel->entries);
    entry->pictogram = wall_pictogram(PICTOGRAM_LOG);
    entry->title = section_measure_name(c, MEASURE_WARM_SIDE);
    entry->cells = ARENA_ARRAY(c->arena, struct panel_cell, panel->column_count);
}

/* What is printed of a text of this action; NULL without the action. */
static const char *printed_of(struct composition *c, const char *action, const char *text)
{
    for (size_t i = 0; i < c->plan->action_count; i++)
        if (strcmp(c->plan->actions[i].code, action) == 0)
            return plan_printed_key(c->plan, text, c->arena);
    return NULL;
}

/* A dry box for the greater part of its day, and a tub to swim in. */
static bool lives_dry(struct composition *c)
{
    const char *dry = printed_of(c, "keep-dry-hours", "action.keep-dry-hours");
    return dry && strcmp(dry, "action.keep-dry-hours") == 0;
}

/* It was moved to a tub until a tank is ready, or swims in one between its dry hours. */
static bool lives_in_tub(struct composition *c)
{
    bool in_tub = lives_dry(c);
    for (size_t i = 0; i < c->plan->action_count; i++)
        in_tub = in_tub || c->plan->steps[i].in_tub;
    return in_tub;
}

static void add_own_log(struct composition *c, struct panel *panel, const char *title,
                        enum measure_id measure)
{
    struct wall_target target;
    if (!wall_find_target(c, measure, &target))
        return;
    struct panel_entry *entry = wall_entry(c, &panel->entries);
    entry->pictogram = wall_pictogram(PICTOGRAM_LOG);
    entry->title = phrase(&c->ctx, title);
    entry->value = target.value;
    entry->cells = ARENA_ARRAY(c->arena, struct panel_cell, panel->column_count);
}

/* The tank that it left goes on being read for those who stay, and for its return. */
static void add_tub_log(struct composition *c, struct panel *panel)
{
    if (lives_dry(c))
        add_own_log(c, panel, "wall.three-days.dry-box", MEASURE_WARM_SIDE);
    if (lives_in_tub(c))
        add_own_log(c, panel, "wall.three-days.tub", MEASURE_WATER);
}

/* Places above the water of a tank. */
static bool is_of_air(enum measure_id measure)
{
    return measure == MEASURE_BASKING_SURFACE || measure == MEASURE_WARM_SIDE ||
           measure == MEASURE_COOL_SIDE || measure == MEASURE_NIGHT;
}

/* In a dry box it is that box that is read, in place of the shore that it left. */
static void add_half_day_logs(struct composition *c, struct panel *panel)
{
    const bool is_dry = lives_dry(c);
    add_warming_log(c, panel);
    for (size_t i = 0; i < sizeof half_day_logs / sizeof *half_day_logs; i++) {
        if (!is_dry || !is_of_air(half_day_logs[i].measure))
            add_half_day_log(c, panel, &half_day_logs[i]);
        if (half_day_logs[i].measure == MEASURE_WATER)
            add_tub_log(c, panel);
    }
}

/* What it drank and ate; not what it ate while it is given nothing. */
static const char *meal_row(const struct care_plan *plan, struct date end)
{
    const struct feeding_plan *f = &plan->feeding;
    bool is_fasting = f->paused && (!f->has_resume || date_compare(f->resume, end) > 0);
    if (drinks_unseen(plan))
        return is_fasting ? NULL : "wall.three-days.ate";
    return is_fasting ? "wall.three-days.drank-alone" : "wall.three-days.drank";
}

/* With what it passes, where the veterinarian wants to know that the kidneys work. */
static const char *intake_text(struct composition *c, struct date end)
{
    const char *row = meal_row(c->plan, end);
    const char *text = row ? phrase(&c->ctx, row) : NULL;
    if (!plan_holds(c->plan, "watch.urine", "watch"))
        return text;
    return text ? wall_phrase(c, "wall.three-days.and-urine", "what", text, NULL, NULL)
                : phrase(&c->ctx, "wall.three-days.urine");
}

/* What is given without days of its own to tick has its boxes here: a dose is written in each. */
static void add_dose_rows(struct composition *c, struct panel *panel)
{
    for (size_t i = 0; i < c->plan->medicine_count; i++) {
        const struct medicine_plan *m = &c->plan->medicines[i];
        if (m->listed == 0 && !m->is_given_here)
            add_blank_row(c, panel, m->name, wall_pictogram(PICTOGRAM_PILL));
    }
}

void section_wall_three_days(struct composition *c, struct block_builder *out)
{
    if (!has_half_days(c->plan))
        return;
    size_t count = half_days(c->plan);
    const char **heads = ARENA_ARRAY(c->arena, const char *, count);
    for (size_t i = 0; i < count; i++) {
        const char *day =
            format_date_weekday(&c->ctx.format, date_add_days(c->plan->on, (long)((i + 1) / 2)));
        heads[i] = wall_phrase(c, i % 2 ? "wall.three-days.morning" : "wall.three-days.evening",
                               "day", day, NULL, NULL);
    }
    struct panel *panel = wall_panel(c, out, PANEL_CALENDAR);
    bool to_recheck =
        c->plan->has_recheck &&
        (size_t)date_days_between(c->plan->on, c->plan->recheck) * 2 <= HALF_DAYS_MOST;
    struct date end = to_recheck ? c->plan->recheck : date_add_days(c->plan->on, (long)(count / 2));
    panel->title = wall_phrase(c, to_recheck ? "wall.three-days" : "wall.three-days-log", "date",
                               format_date_day(&c->ctx.format, end), NULL, NULL);
    panel->text = phrase(&c->ctx, "wall.three-days.what");
    if (section_in_brief(c)) { /* its title stands in its head */
        panel->text = panel->title;
        panel->title = NULL;
    }
    panel->small = phrase(&c->ctx, "wall.weeks.visit");
    panel->columns = heads;
    panel->column_count = count;
    if (!section_is_close(c, CLOSE_LISTS))
        add_dose_rows(c, panel);
    add_half_day_logs(c, panel);
    const char *intake = intake_text(c, end);
    if (intake)
        add_blank_row(c, panel, intake, wall_pictogram(PICTOGRAM_DROP));
    if (is_weighed_daily(c->plan, end))
        add_blank_row(c, panel, phrase(&c->ctx, "wall.three-days.weight"),
                      wall_pictogram(PICTOGRAM_WEIGH));
}
