/* What is to be given, and its days with boxes to tick. */
#include "base/strbuf.h"
#include "sheet/home_cuts.h"
#include "sheet/medicine_words.h"
#include "sheet/wall.h"

struct ticks {
    struct composition *c;
    struct panel *panel;
    struct date days[MEDICINE_TICK_DAYS];
    size_t day_count;
};

/* Doses of one row fall on one time of the day; without a time all are of one row. */
static bool is_at(const struct medicine_plan *m, const struct dose_plan *one,
                  const struct dose_plan *other)
{
    return !m->says_at || (m->says_clock ? one->minute == other->minute : one->at == other->at);
}

/* A box for each dose of the day: its day beside it, or its number where there are several. */
static void fill_cell(struct ticks *t, const struct medicine_plan *m, const struct dose_plan *time,
                      struct date day, struct panel_cell *cell)
{
    size_t count = 0;
    const char **names = ARENA_ARRAY(t->c->arena, const char *, m->listed + 1);
    for (size_t i = 0; i < m->listed && medicine_has_box(t->c->plan, day); i++)
        if (date_compare(m->doses[i].on, day) == 0 && is_at(m, &m->doses[i], time)) {
            count++;
            names[count - 1] = arena_format(t->c->arena, "%zu", count);
        }
    if (count == 1)
        names[0] = arena_format(t->c->arena, "%d", day.day);
    cell->days = names;
    cell->day_count = count;
}

static void add_row(struct ticks *t, const struct medicine_plan *m, const struct dose_plan *time)
{
    struct panel_entry *entry = wall_entry(t->c, &t->panel->entries);
    struct panel_cell *cells = ARENA_ARRAY(t->c->arena, struct panel_cell, t->day_count);
    entry->is_strong = true;
    entry->pictogram = wall_pictogram(m->name ? PICTOGRAM_PILL : PICTOGRAM_MEAL);
    const char *name = medicine_name(t->c, m);
    entry->title = m->says_at ? medicine_and(t->c, name, medicine_time(t->c, m, time)) : name;
    for (size_t i = 0; i < t->day_count; i++)
        fill_cell(t, m, time, t->days[i], &cells[i]);
    entry->cells = cells;
}

/* Where a dose stands in its day. The small hours begin it where their date is the clock's, else
 * what is given after midnight ends it. */
static int place_in_day(const struct medicine_plan *m, const struct dose_plan *dose)
{
    enum { DAY_BEGINS = 4 * 60, DAY = 24 * 60 };
    return m->begins_at_midnight ? dose->minute : (dose->minute - DAY_BEGINS + DAY) % DAY;
}

/* The next time of the day behind `after`, or the first one; NULL past the last. */
static const struct dose_plan *next_time(const struct medicine_plan *m,
                                         const struct dose_plan *after)
{
    const struct dose_plan *next = NULL;
    for (size_t i = 0; i < m->listed; i++) {
        const struct dose_plan *one = &m->doses[i];
        bool is_later =
            !after || (place_in_day(m, one) > place_in_day(m, after) && !is_at(m, one, after));
        if (is_later && (!next || place_in_day(m, one) < place_in_day(m, next)))
            next = one;
    }
    return next;
}

static void add_rows(struct ticks *t, const struct medicine_plan *m)
{
    if (plan_home_doses(m) == 0)
        return;
    for (const struct dose_plan *time = next_time(m, NULL); time; time = next_time(m, time))
        add_row(t, m, time);
}

/* What does not fit is said. */
static const char *rest_text(const struct ticks *t)
{
    struct strbuf text;
    strbuf_init(&text, t->c->arena);
    const struct medicine_plan *m;
    for (size_t i = 0; (m = plan_ticked(t->c->plan, i)); i++) {
        size_t shown = 0;
        while (shown < m->listed && medicine_has_box(t->c->plan, m->doses[shown].on))
            shown++;
        const char *rest = plan_home_doses(m) ? medicine_rest(t->c, m, shown) : NULL;
        if (rest)
            strbuf_addf(&text, "%s%s", text.length ? " " : "", rest);
    }
    return text.length ? text.text : NULL;
}

static bool any_directions(const struct care_plan *plan)
{
    for (size_t i = 0; i < plan->medicine_count; i++)
        if (plan->medicines[i].directions && plan_home_doses(&plan->medicines[i]) > 0)
            return true;
    return false;
}

static void title_ticks(struct ticks *t)
{
    /* a date beside a box would say that the date is all that counts */
    bool written = any_directions(t->c->plan);
    t->panel->title =
        wall_phrase(t->c, written ? "wall.medicines.ticks-written" : "wall.medicines.ticks", "from",
                    format_date_day(&t->c->ctx.format, t->days[0]), "until",
                    format_date_day(&t->c->ctx.format, t->days[t->day_count - 1]));
    /* what has directions may be wiped or rinsed: "Give" would belie them */
    t->panel->text = phrase(&t->c->ctx, written ? "sheet.head.medicine" : "wall.medicines.head");
    /* its title stands in its head; the days stand above */
    if (section_is_close(t->c, CLOSE_HEADINGS)) {
        t->panel->text = phrase(&t->c->ctx, written ? "wall.medicines.ticks-as-above"
                                                    : "wall.medicines.ticks-brief");
        t->panel->title = NULL;
    }
}

static void write_ticks(struct composition *c, struct block_builder *out)
{
    struct ticks t = {.c = c};
    t.day_count = medicine_tick_days(c->plan, t.days);
    if (t.day_count == 0)
        return;
    t.panel = wall_panel(c, out, PANEL_CALENDAR);
    const char **heads = ARENA_ARRAY(c->arena, const char *, t.day_count);
    for (size_t i = 0; i < t.day_count; i++)
        heads[i] = wall_day_name(c, t.days[i]);
    title_ticks(&t);
    t.panel->columns = heads;
    t.panel->column_count = t.day_count;
    const struct medicine_plan *m;
    for (size_t i = 0; (m = plan_ticked(c->plan, i)); i++)
        add_rows(&t, m);
    t.panel->after = rest_text(&t);
}

/* After an examination, so that nobody has to look for it. */
static void write_none(struct composition *c, struct block_builder *out)
{
    if (c->plan->finding_count + c->plan->procedure_count == 0)
        return;
    struct panel *panel = wall_panel(c, out, PANEL_GRADES);
    panel->is_small = true;
    panel->title = phrase(&c->ctx, "sheet.medicines.title");
    struct panel_entry *entry = wall_entry(c, &panel->entries);
    entry->title = "";
    entry->text = phrase(&c->ctx, "wall.now.no-medicine");
}

/* What goes for several of them stands behind all, below a rule where there is room for that: in
 * the entry of the last one nobody would look for it. */
struct for_all {
    struct composition *c;
    struct panel *panel;
    bool begins_line;       /* else its letters tell it from the last one */
    bool is_apart;          /* each begins a line */
    struct panel_entry *by; /* of several by their names; NULL: none yet */
};

static void add_by_name(struct for_all *all, const struct medicine_shared *shared)
{
    struct panel_entry *entry = wall_entry(all->c, &all->panel->entries);
    entry->title = section_with_text(all->c, "sheet.run-in", "name", shared->names);
    entry->text = shared->text;
    entry->runs_on = all->by ? !all->is_apart : !all->begins_line;
    all->by = entry;
}

static void add_of_any(struct for_all *all, const char *text)
{
    struct panel_entry *entry = wall_entry(all->c, &all->panel->entries);
    entry->title = all->begins_line ? "" : text;
    entry->text = all->begins_line ? text : NULL;
    entry->runs_on = all->by ? !all->is_apart : !all->begins_line;
    all->by = entry;
}

/* A missed dose stands behind the only medicine, where there is no room for a line of its own, and
 * in the entry of none of several. */
static void add_for_all(struct composition *c, struct panel *panel, struct panel_entry *last)
{
    struct medicine_shared shared[MEDICINE_SHARED_MOST];
    const size_t count = medicine_shared(c, shared);
    const char *worse = medicine_worse(c);
    struct for_all all = {.c = c, .panel = panel};
    all.begins_line = !panel->is_small || section_begins_lines(c, LINES_OF_SEVERAL);
    all.is_apart =
        section_says_of_medicines(c, MEDICINES_ALL) || section_begins_lines(c, LINES_OF_ANY);
    if (worse && last && c->plan->medicine_count == 1 &&
        !section_says_of_medicines(c, MEDICINES_ALL)) {
        last->text = arena_format(c->arena, "%s %s", last->text, worse);
        return;
    }
    for (size_t i = 0; i < count; i++)
        if (shared[i].names)
            add_by_name(&all, &shared[i]);
        else
            add_of_any(&all, shared[i].text);
    if (worse)
        add_of_any(&all, worse);
}

/* Where there is room each is a paragraph. */
static void add_paragraphs(struct composition *c, struct block_builder *out)
{
    const char *const texts[] = {medicine_how(c), medicine_worse(c)};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        if (texts[i])
            wall_panel(c, out, PANEL_TEXT)->text = texts[i];
}

void section_wall_medicines(struct composition *c, struct block_builder *out)
{
    if (c->plan->medicine_count == 0) {
        write_none(c, out);
        write_ticks(c, out); /* what goes in by tube */
        return;
    }
    /* in brief the directions stand on the line of the name */
    struct panel *panel = wall_panel(c, out, section_in_brief(c) ? PANEL_GRADES : PANEL_CHECKS);
    panel->is_small = section_is_close(c, CLOSE_LINES) && !section_is_opened(c);
    panel->begins_lines = section_begins_lines(c, LINES_OF_MEDICINES);
    panel->title = phrase(&c->ctx, "sheet.medicines.title");
    panel->cuts = home_cuts(c, HOME_CUTS_MEDICINES);
    struct panel_entry *entry = NULL;
    for (size_t i = 0; i < c->plan->medicine_count; i++) {
        const struct medicine_plan *m = &c->plan->medicines[i];
        entry = wall_entry(c, &panel->entries);
        const char *name = medicine_name(c, m);
        entry->title =
            section_in_brief(c) ? section_with_text(c, "sheet.run-in", "name", name) : name;
        entry->text = medicine_text(c, m);
    }
    if (section_in_brief(c))
        add_for_all(c, panel, entry);
    else
        add_paragraphs(c, out);
    write_ticks(c, out);
}
