/* Words each date of the plan as an entry; what falls on one day is joined. */
#include "sheet/calendar_events.h"

#include <string.h>

#include "document/block_builder.h"
#include "sheet/medicine_words.h"
#include "words/slots.h"

static const struct kind {
    const char *what;
    int places;
    bool a_day_before;
} kinds[] = {{"meal", 8, false},           {"insects", 8, false},        {"supplement", 16, false},
             {"weigh", 20, false},         {"lamp-change", 1, true},     {"recheck", 1, true},
             {"recheck-usual", 1, true},   {"referral", 1, true},        {"given-here", 30, true},
             {"quarantine-end", 1, false}, {"move-in", 1, true},         {"check-after", 4, true},
             {"result", 8, false},         {"rest-last-meal", 1, false}, {"rest-cooling", 6, false},
             {"rest-starts", 1, true},     {"rest-weigh", 26, false},    {"rest-wakes", 1, true},
             {"rest-eats", 1, false}};

enum { KIND_COUNT = sizeof kinds / sizeof *kinds, MEDICINES_MOST = 20 };

struct making {
    const struct phrase_context *ctx;
    struct arena *arena;
    struct calendar_event *items;
    size_t count;
};

static const char *fact_name(const struct making *m, const struct plan_date *date)
{
    for (const struct plan_fact *fact = date->facts; fact; fact = fact->next)
        if (strcmp(fact->name, "supplement") == 0)
            return text_capital(m->arena, slots_fact_text(m->ctx, fact));
    return NULL;
}

/* What to bring to the table: the food of a meal, the powders of a day; else whom to call. */
static const char *about_text(const struct making *m, const struct plan_date *date)
{
    const char *close = phrase(m->ctx, "calendar.about");
    const char *first = NULL;
    bool is_beside = strcmp(date->what, "insects") == 0;
    if (strcmp(date->what, "meal") == 0 || is_beside) {
        const struct feeding_plan *feeding = &m->ctx->plan->feeding;
        const struct date *days = is_beside ? feeding->beside.days : feeding->next;
        const struct feeding_line *line = NULL;
        for (size_t i = 0; i < feeding->line_count; i++)
            line = feeding->lines[i].next == days ? &feeding->lines[i] : line;
        const char *foods = line ? slots_line_text(m->ctx, line) : slots_foods_text(m->ctx);
        first = foods ? text_capital(m->arena, foods) : NULL;
    } else if (strcmp(date->what, "supplement") == 0) {
        first = fact_name(m, date);
    }
    return first ? arena_format(m->arena, "%s.\n%s", first, close) : close;
}

static const char *summary_text(const struct making *m, const struct plan_date *date)
{
    struct phrase_context ctx = *m->ctx;
    ctx.facts = date->facts;
    const char *name = m->ctx->plan->patient.name.text;
    const char *what = phrase_code(&ctx, "date", date->what);
    if (strstr(what, name))
        return what;
    const struct named_value values[] = {{"first", {.text = name}}, {"second", {.text = what}}};
    return format_pattern(&ctx.format, "sheet.medicines.dated", values, 2);
}

/* Another powder on the same day joins the entry that stands. */
static bool join_same_day(struct making *m, const struct plan_date *date, int place)
{
    struct calendar_event *last = m->count ? &m->items[m->count - 1] : NULL;
    if (place == 0 || !last || date_compare(last->on, date->on) != 0 ||
        strcmp(date->what, "supplement") != 0)
        return false;
    const char *name = fact_name(m, date);
    if (name && !strstr(last->about, name))
        last->about = arena_format(m->arena, "%s.\n%s", name, last->about);
    return true;
}

static void add_kind(struct making *m, const struct kind *kind)
{
    const struct care_plan *plan = m->ctx->plan;
    int place = 0;
    for (size_t i = 0; i < plan->date_count && place < kind->places; i++) {
        const struct plan_date *date = &plan->dates[i];
        if (strcmp(date->what, kind->what) != 0 || join_same_day(m, date, place))
            continue;
        place++;
        m->items[m->count++] = (struct calendar_event){.what = kind->what,
                                                       .place = place,
                                                       .on = date->on,
                                                       .summary = summary_text(m, date),
                                                       .about = about_text(m, date),
                                                       .a_day_before = kind->a_day_before};
    }
    for (place++; place <= kind->places; place++) {
        const struct plan_date free = {.on = plan->on, .what = kind->what};
        m->items[m->count++] = (struct calendar_event){.what = kind->what,
                                                       .place = place,
                                                       .is_free = true,
                                                       .on = plan->on,
                                                       .summary = summary_text(m, &free),
                                                       .about = phrase(m->ctx, "calendar.about")};
    }
}

/* ---- medicines ---- */

static const char *dose_summary(const struct making *m, const struct medicine_plan *medicine)
{
    struct plan_fact name = {
        .name = "medicine", .kind = FACT_TEXT, .text = medicine ? medicine->name : ""};
    struct phrase_context ctx = *m->ctx;
    ctx.facts = &name;
    return phrase(&ctx, !medicine              ? "calendar.dose-free"
                        : !medicine->name      ? "calendar.tube-food"
                        : medicine->directions ? "calendar.dose-written"
                                               : "calendar.dose");
}

static void add_medicine(struct making *m, int place, const struct medicine_plan *medicine)
{
    struct date *days = ARENA_ARRAY(m->arena, struct date, medicine->listed + 1);
    size_t count = 0;
    for (size_t at = 0; plan_dose_day(medicine, &at, &days[count]);)
        count++;
    m->items[m->count++] = (struct calendar_event){
        .what = "dose",
        .place = place,
        .on = days[0],
        .summary = dose_summary(m, medicine),
        .about = arena_format(m->arena, "%s\n%s", medicine_text_of(m->ctx, medicine),
                              phrase(m->ctx, "calendar.about")),
        .more = days + 1,
        .more_count = count - 1,
    };
}

static void add_medicines(struct making *m)
{
    const struct care_plan *plan = m->ctx->plan;
    for (size_t i = 0; i < MEDICINES_MOST; i++) {
        const struct medicine_plan *medicine =
            i <= plan->medicine_count ? plan_ticked(plan, i) : NULL;
        if (medicine && plan_home_doses(medicine) > 0) {
            add_medicine(m, (int)i + 1, medicine);
            continue;
        }
        m->items[m->count++] = (struct calendar_event){.what = "dose",
                                                       .place = (int)i + 1,
                                                       .is_free = true,
                                                       .on = plan->on,
                                                       .summary = dose_summary(m, NULL),
                                                       .about = phrase(m->ctx, "calendar.about")};
    }
}

struct calendar_events calendar_events_make(const struct phrase_context *ctx, struct arena *arena)
{
    size_t most = MEDICINES_MOST;
    for (size_t i = 0; i < KIND_COUNT; i++)
        most += (size_t)kinds[i].places;
    struct making m = {
        .ctx = ctx, .arena = arena, .items = ARENA_ARRAY(arena, struct calendar_event, most)};
    for (size_t i = 0; i < KIND_COUNT; i++)
        add_kind(&m, &kinds[i]);
    add_medicines(&m);
    return (struct calendar_events){m.items, m.count, phrase(ctx, "calendar.name")};
}
