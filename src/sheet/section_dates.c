/* Dates to come back, the planner, the first weeks, the weighing log. */
#include <string.h>

#include "sheet/sections.h"

/* ---- follow-up ----------------------------------------------------------------------- */

/* Meals and supplements stand under feeding and in the planner, doses with the medicines; a lamp
 * that is overdue is a change to make, which says so itself. */
static bool is_follow_up(const struct composition *c, const struct plan_date *date)
{
    bool overdue = strcmp(date->what, "lamp-change") == 0 && section_has_action(c, "change-lamp");
    if (strncmp(date->what, "rest-", 5) == 0) /* the winter's section has them */
        return false;
    return strcmp(date->what, "meal") != 0 && strcmp(date->what, "supplement") != 0 &&
           strcmp(date->what, "dose") != 0 && !overdue;
}

static const char *what_text(struct composition *c, const struct plan_date *date)
{
    struct phrase_context ctx = c->ctx;
    ctx.facts = date->facts;
    return phrase_code(&ctx, "date", date->what);
}

/* Does an earlier date already say this sentence? */
static bool is_told(struct composition *c, size_t at, const char *text)
{
    for (size_t i = 0; i < at; i++)
        if (is_follow_up(c, &c->plan->dates[i]) &&
            strcmp(what_text(c, &c->plan->dates[i]), text) == 0)
            return true;
    return false;
}

static const char *days_text(struct composition *c, size_t from, const char *text)
{
    const struct format *f = &c->ctx.format;
    const char **days = ARENA_ARRAY(c->arena, const char *, c->plan->date_count);
    size_t count = 0;
    for (size_t i = from; i < c->plan->date_count; i++) {
        const struct plan_date *date = &c->plan->dates[i];
        if (!is_follow_up(c, date) || strcmp(what_text(c, date), text) != 0)
            continue;
        bool same_year = date->on.year == c->plan->on.year;
        days[count++] = same_year ? format_date_day(f, date->on) : format_date_short(f, date->on);
    }
    return phrase_all_of(&c->ctx, days, count);
}

void section_follow_up(struct composition *c, struct block_builder *out)
{
    static const char *const heads[] = {"sheet.head.what-to-do", "sheet.head.dates"};
    section_title(c, out, "sheet.follow-up.title");
    struct block *table = NULL;
    for (size_t i = 0; i < c->plan->date_count; i++) {
        if (!is_follow_up(c, &c->plan->dates[i]))
            continue;
        const char *text = what_text(c, &c->plan->dates[i]);
        if (is_told(c, i, text))
            continue;
        if (!table) {
            table = section_pairs(c, out, 0.4);
            if (!c->sheet->compact.value)
                section_head(c, table, heads, 2);
        }
        section_pair(c, table, text, days_text(c, i, text));
    }
    const char *goal = phrase_if_known(&c->ctx, "sheet.weight.expect");
    if (table && goal)
        section_row(c, table, "sheet.weight.aim", goal);
    if (c->plan->has_recheck || section_has_date(c, "recheck-usual"))
        builder_paragraph(out, phrase(&c->ctx, "sheet.follow-up.bring"));
    if (!c->plan->has_recheck) {
        builder_paragraph(out, phrase(&c->ctx, "sheet.follow-up.none"));
        builder_paragraph(out, phrase(&c->ctx, "sheet.follow-up.call"));
    }
}

/* ---- planner ---------------------------------------------------------------------------- */

enum { PLANNER_WEEKS = 8, WEEK_DAYS = 7 };

static bool in_week(struct date day, struct date start)
{
    long days = date_days_between(start, day);
    return days >= 0 && days < WEEK_DAYS;
}

/* The days of one week, a line each, or how often when there are more than fit a cell. */
static const char *week_text(struct composition *c, const struct date *days, size_t count,
                             struct date start)
{
    enum { MOST = 4 };
    const char *text = NULL;
    size_t found = 0;
    for (size_t i = 0; i < count && found < WEEK_DAYS; i++) {
        if (!in_week(days[i], start))
            continue;
        const char *day = format_date_weekday(&c->ctx.format, days[i]);
        text = found++ ? arena_format(c->arena, "%s\n%s", text, day) : day;
    }
    if (found > MOST) {
        struct plan_fact times = {
            .name = "times", .kind = FACT_COUNT, .low = (double)found, .high = (double)found};
        struct phrase_context ctx = c->ctx;
        ctx.facts = &times;
        return phrase(&ctx, "sheet.planner.times");
    }
    return text;
}

static void add_tick_cell(struct composition *c, struct table_row *row, const char *text)
{
    struct table_cell *cell = row_add(c->arena, row, text ? span_plain(c->arena, text) : NULL);
    cell->tick_box = text != NULL;
    if (!text)
        cell->text = span_plain(c->arena, phrase(&c->ctx, "sheet.none"));
}

/* The days on which the plan says this word, each once. */
static size_t days_of(const struct care_plan *plan, const char *what, struct date *days,
                      size_t most)
{
    size_t count = 0;
    for (size_t i = 0; i < plan->date_count && count < most; i++)
        if (strcmp(plan->dates[i].what, what) == 0 &&
            (count == 0 || date_compare(days[count - 1], plan->dates[i].on) != 0))
            days[count++] = plan->dates[i].on;
    return count;
}

static size_t planner_supplements(const struct feeding_plan *feeding)
{
    enum { MOST = 4 };
    return feeding->supplement_count < MOST ? feeding->supplement_count : MOST;
}

static void add_planner_head(struct composition *c, struct block *table, bool has_doses)
{
    const struct feeding_plan *m = &c->plan->feeding;
    static const char *const keys[] = {"sheet.planner.week", "sheet.planner.meal"};
    section_head(c, table, keys, 2);
    struct table_row *head = table->as.table.head;
    for (size_t i = 0; i < planner_supplements(m); i++) {
        const char *word = bind_choice_word(supplement_choices, (int)m->supplements[i].what);
        const char *name = text_capital(c->arena, phrase_code(&c->ctx, "supplement", word));
        row_add(c->arena, head, span_strong(c->arena, name));
    }
    if (has_doses)
        row_add(c->arena, head, span_strong(c->arena, phrase(&c->ctx, "wall.weeks.dose")));
    row_add(c->arena, head, span_strong(c->arena, phrase(&c->ctx, "sheet.planner.weigh")));
    row_add(c->arena, head, span_strong(c->arena, phrase(&c->ctx, "sheet.planner.check")));
}

void section_planner(struct composition *c, struct block_builder *out)
{
    enum { COLUMNS_MOST = 9, DAYS_MOST = 400 };
    const struct feeding_plan *m = &c->plan->feeding;
    double shares[COLUMNS_MOST];
    struct date *weighings = ARENA_ARRAY(c->arena, struct date, DAYS_MOST);
    size_t weighing_count = days_of(c->plan, "weigh", weighings, DAYS_MOST);
    struct date *doses = ARENA_ARRAY(c->arena, struct date, DAYS_MOST);
    size_t dose_count = days_of(c->plan, "dose", doses, DAYS_MOST);
    size_t supplements = planner_supplements(m), columns = 4 + supplements + (dose_count > 0);
    for (size_t i = 0; i < columns; i++)
        shares[i] = 1.0 / (double)columns;
    section_title(c, out, "sheet.planner.title");
    builder_paragraph(out, phrase(&c->ctx, "sheet.planner.how"));
    struct block *table = builder_table(out, shares, columns);
    add_planner_head(c, table, dose_count > 0);
    for (int week = 0; week < PLANNER_WEEKS; week++) {
        struct date start = date_add_days(c->plan->on, (long)week * WEEK_DAYS);
        struct table_row *row = table_add_row(c->arena, table);
        row_add_head(c->arena, row, format_date_day(&c->ctx.format, start));
        add_tick_cell(c, row, week_text(c, m->meal_days, m->meal_day_count, start));
        for (size_t i = 0; i < supplements; i++)
            add_tick_cell(c, row,
                          week_text(c, m->supplements[i].days, m->supplements[i].day_count, start));
        if (dose_count > 0)
            add_tick_cell(c, row, week_text(c, doses, dose_count, start));
        add_tick_cell(c, row, week_text(c, weighings, weighing_count, start));
        add_tick_cell(c, row, phrase(&c->ctx, "sheet.planner.checked"));
    }
}

/* ---- the first two weeks --------------------------------------------------------------------- */

void section_first_weeks(struct composition *c, struct block_builder *out)
{
    enum { LAST_DAY = 14 }; /* day 0 is the day it moves in */
    static const double shares[] = {0.12, 0.2, 0.68};
    static const char *const heads[] = {"sheet.head.day", "sheet.head.date",
                                        "sheet.head.what-to-do"};
    section_title(c, out, "sheet.first-weeks.title");
    builder_paragraph(out, phrase(&c->ctx, "sheet.first-weeks.how"));
    struct block *table = builder_table(out, shares, 3);
    section_head(c, table, heads, 3);
    for (int day = 0; day <= LAST_DAY; day++) {
        struct table_row *row = table_add_row(c->arena, table);
        row_add_head(c->arena, row, arena_format(c->arena, "%d", day));
        row_add(
            c->arena, row,
            span_plain(c->arena, format_date_day(&c->ctx.format, date_add_days(c->plan->on, day))));
        const char *text = phrase(&c->ctx, arena_format(c->arena, "sheet.first-weeks.day-%d", day));
        row_add(c->arena, row, span_plain(c->arena, text))->tick_box = true;
    }
    builder_paragraph(out, phrase(&c->ctx, "sheet.first-weeks.quarantine"));
    builder_paragraph(out, phrase(&c->ctx, "sheet.first-weeks.stool"));
}

/* ---- weighing log ------------------------------------------------------------------------------
 */

void section_weighing_log(struct composition *c, struct block_builder *out)
{
    enum { LINES = 25, LINES_COMPACT = 10 }; /* a page of them; the rest of one */
    static const double shares[] = {0.3, 0.25, 0.45};
    static const char *const heads[] = {"sheet.head.date", "sheet.head.weight", "sheet.head.note"};
    section_title(c, out, "sheet.weighing-log.title");
    builder_paragraph(out, phrase(&c->ctx, "sheet.weighing-log.how"));
    struct block *table = builder_table(out, shares, 3);
    section_head(c, table, heads, 3);
    const struct patient_plan *patient = &c->plan->patient;
    if (patient->has_mass) {
        struct table_row *row = table_add_row(c->arena, table);
        row_add_head(c->arena, row, format_date_short(&c->ctx.format, c->plan->on));
        row_add(c->arena, row, span_plain(c->arena, format_mass(&c->ctx.format, patient->mass_g)));
        row_add(c->arena, row, span_plain(c->arena, phrase(&c->ctx, "sheet.weighing-log.today")));
    } else
        row_add_head(c->arena, table_add_row(c->arena, table), "\xc2\xa0");
    for (int line = 0; line < (c->sheet->compact.value ? LINES_COMPACT : LINES); line++)
        table_add_row(c->arena, table); /* to write on */
}
