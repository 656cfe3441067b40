/* What holds for now and until when: the settled stances that differ from the usual. */
#include <string.h>

#include "sheet/sections.h"

/* Eggs are laid and young are born: no keeper reads of what this animal does not do. */
static const char *laid_key(const struct taxon_plan *species)
{
    if (!species->reproduction_known)
        return "sheet.until.laid";
    return species->reproduction == REPRODUCTION_EGG_LAYER ? "sheet.until.laid-eggs"
                                                           : "sheet.until.laid-young";
}

/* The day of a check that nobody has made yet: the animal goes at once. */
static bool is_day_open(const struct care_plan *plan, const struct stance_phase *phase)
{
    return plan->go_now && phase->end_by == PHASE_END_RECHECK;
}

/* It ends before the check that it waits for: another reason has a day of its own, and no keeper
 * comes on it. */
static bool is_before_check(const struct care_plan *plan, const struct stance_phase *phase)
{
    bool is_check = !plan->has_recheck;
    for (size_t i = 0; i < plan->date_count && !is_check; i++)
        is_check = date_compare(plan->dates[i].on, phase->until) == 0 &&
                   (strcmp(plan->dates[i].what, "recheck") == 0 ||
                    strcmp(plan->dates[i].what, "check-after") == 0);
    return phase->end_by == PHASE_END_RECHECK && !is_check;
}

/* The one finding that everything waits for that ends with a test or a look at it; NULL: none or
 * several. */
static const char *lone_wait(const struct care_plan *plan)
{
    const char *lone = NULL;
    for (size_t i = 0; i < plan->topic_count; i++)
        for (size_t k = 0; k < plan->topics[i].phase_count; k++) {
            const struct stance_phase *phase = &plan->topics[i].phases[k];
            const char *because = phase->because;
            /* a settlement stands between findings that call by themselves too */
            if (phase->end_by != PHASE_END_TESTS || strncmp(because, "settlement:", 11) == 0)
                continue;
            if (strncmp(because, "finding:", 8) != 0 || (lone && strcmp(lone, because + 8) != 0))
                return NULL;
            lone = because + 8;
        }
    return lone;
}

/* Water is tested at home, and of what was sent to a laboratory a result comes; nobody waits for a
 * test that was not made. */
static const char *tests_key(const struct composition *c, const struct stance_phase *phase)
{
    const char *lone = lone_wait(c->plan);
    const char *own = lone ? arena_format(c->arena, "sheet.until.clear-%s", lone) : NULL;
    if (own && catalogue_find(c->ctx.format.words, own))
        return own;
    bool is_tested = strncmp(phase->because, "call:", 5) == 0 || plan_has_date(c->plan, "result");
    return is_tested ? "sheet.until.tests" : "sheet.until.seen-clear";
}

/* What ends it, with its day where there is one; NULL for nothing to say. */
static const char *end_text(struct composition *c, const struct stance_phase *phase,
                            bool is_not_now)
{
    if (!phase || (phase->end_by == PHASE_END_NONE && !phase->has_until))
        return "";
    /* what is never done has no end */
    if (strcmp(phase->stance, "never") == 0)
        return "";
    const char *ended = phase->end_by == PHASE_END_TESTS
                            ? tests_key(c, phase)
                            : arena_format(c->arena, "sheet.until.%s",
                                           bind_choice_word(phase_end_choices, (int)phase->end_by));
    bool by_day =
        phase->has_until && (phase->end_by == PHASE_END_NONE || phase->end_by == PHASE_END_DATE ||
                             is_before_check(c->plan, phase));
    /* on that day it may be done, and "until" leaves open whether on that day too */
    const char *key = by_day ? is_not_now ? "sheet.until.day-not" : "sheet.until.day"
                      : phase->has_until && !is_day_open(c->plan, phase)
                          ? arena_format(c->arena, "%s-day", ended)
                      : phase->end_by == PHASE_END_LAID ? laid_key(&c->plan->taxon)
                                                        : ended;
    return section_with_date(c, key, phase->until);
}

/* In brief: the dates say when to weigh, if not how long after a meal; and what a species never
 * does no finding has called for. */
static bool can_wait(const struct composition *c, const struct instruction_plan *one,
                     const struct stance_phase *phase)
{
    if (!section_in_brief(c) || !phase)
        return false;
    const bool is_default = strcmp(phase->because, "default") == 0;
    if (strcmp(one->topic, "weighing") == 0)
        return plan_has_date(c->plan, "weigh") && (is_default || c->plan->weight.prey_days <= 0);
    return is_default && strcmp(one->topic, "winter-rest") == 0 &&
           strcmp(phase->stance, "never") == 0;
}

/* How its water is changed stands with the water itself, where it has a place of its own. */
static bool is_said_with_water(const struct composition *c, const struct instruction_plan *one)
{
    const struct water_plan *w = &c->plan->water;
    const bool has_place =
        section_is_shown(c, SECTION_WATER_HERE) || section_is_shown(c, SECTION_WATER);
    return strcmp(one->topic, "water-change") == 0 && has_place && w->applies && w->lives_in_it &&
           (w->part_now || w->has_usual);
}

/* "Weigh it every two weeks" of five days that hold no day to weigh it. */
static bool has_no_day(const struct care_plan *plan, const struct instruction_plan *one,
                       const struct stance_phase *phase)
{
    if (strcmp(one->topic, "weighing") != 0 || !phase || !phase->has_until ||
        !plan_has_date(plan, "weigh"))
        return false;
    for (size_t i = 0; i < plan->date_count; i++)
        if (strcmp(plan->dates[i].what, "weigh") == 0 &&
            date_compare(plan->dates[i].on, phase->until) <= 0)
            return false;
    return true;
}

/* Water and light never end: they are only cared for more while it is ill. */
static bool goes_on(const struct care_plan *plan, const char *topic)
{
    for (size_t i = 0; i < plan->topic_count; i++)
        if (strcmp(plan->topics[i].topic, topic) == 0)
            return plan->topics[i].goes_on;
    return false;
}

/* While food rests, how to feed is told for the days from which it is back. */
static const char *from_text(struct composition *c, struct date from,
                             const struct stance_phase *phase)
{
    struct plan_fact until = {.name = "until", .kind = FACT_DATE, .date = phase->until};
    struct plan_fact day = {.name = "from", .kind = FACT_DATE, .date = from, .next = &until};
    struct phrase_context ctx = c->ctx;
    ctx.facts = &day;
    bool by_day =
        phase->has_until && (phase->end_by == PHASE_END_NONE || phase->end_by == PHASE_END_DATE);
    return phrase(&ctx, by_day ? "sheet.from.until" : "sheet.from.day");
}

static const char *ends_of(struct composition *c, const struct instruction_plan *one,
                           const struct stance_phase *phase)
{
    if (phase && date_compare(one->from, c->plan->on) > 0)
        return from_text(c, one->from, phase);
    return goes_on(c->plan, one->topic) ? "" : end_text(c, phase, one->is_not_now);
}

/* The share of the width that the ends take. */
#define NOW_END_SHARE 0.27

/* As the veterinarian wrote why it is so. */
static const char *with_why(struct composition *c, const struct stance_phase *phase,
                            const char *text)
{
    const char *why = phase && phase->decision ? phase->decision->reason : NULL;
    if (!why || !*why)
        return text;
    return arena_format(c->arena, "%s %s %s", text, phrase(&c->ctx, "sheet.why"),
                        text_ended(c->arena, why));
}

/* The day, where it has not come yet. */
static struct date later_day(const struct care_plan *plan, struct date from)
{
    return date_compare(from, plan->on) > 0 ? from : (struct date){0};
}

/* What is said of a day to come has that day's number: the slot's own is today's. */
static const char *text_of(struct composition *c, const struct instruction_plan *one,
                           const struct stance_phase *phase)
{
    const struct humidity_plan *air = &c->plan->humidity;
    const struct plan_fact then = {.name = "humidity.target",
                                   .kind = FACT_PERCENT,
                                   .low = air->shed_low_percent,
                                   .high = air->shed_high_percent};
    const bool is_later = date_compare(one->from, c->plan->on) > 0;
    struct phrase_context ctx = c->ctx;
    if (is_later && phase && strcmp(one->topic, "humidity") == 0 && air->has_shed_band &&
        strcmp(phase->stance, "shed-band") == 0)
        ctx.facts = &then;
    return phrase(&ctx, one->code);
}

/* Does a step or a line of this list say why it was decided? */
static bool is_reason_said(const struct care_plan *plan, const struct topic_plan *topic,
                           const struct stance_phase *phase)
{
    for (size_t i = 0; i < plan->action_count; i++)
        if (plan->actions[i].decided_why == phase->decision->reason)
            return true;
    for (size_t i = 0; i < plan->speaking_count; i++) {
        const struct instruction_plan *one = &plan->speaking[i];
        if (strcmp(one->topic, topic->topic) == 0 &&
            plan_phase_on(plan, one->topic, one->from) == phase)
            return true;
    }
    return false;
}

/* A reason alone tells nobody what to do: what was decided, in words of its own or of the stance;
 * NULL where it has none, and who signs is asked. */
static const char *decided_text(struct composition *c, const struct topic_plan *topic,
                                const struct stance_phase *phase)
{
    static const char *const families[] = {"decided", "stance"};
    for (size_t i = 0; i < sizeof families / sizeof *families; i++) {
        const char *text = phrase_if_worded(
            &c->ctx, arena_format(c->arena, "%s.%s.%s", families[i], topic->topic, phase->stance));
        if (text && *text)
            return text;
    }
    return NULL;
}

/* What she decided that no step tells, "feed it as usual", still has her reason on the sheet. */
static size_t add_reasons(struct composition *c, struct now_line *lines, size_t count)
{
    const struct care_plan *plan = c->plan;
    for (size_t i = 0; i < plan->topic_count; i++)
        for (size_t k = 0; k < plan->topics[i].phase_count; k++) {
            const struct stance_phase *phase = &plan->topics[i].phases[k];
            if (!phase->decision || !phase->decision->reason || !*phase->decision->reason ||
                is_reason_said(plan, &plan->topics[i], phase))
                continue;
            const char *what = decided_text(c, &plan->topics[i], phase);
            if (!what)
                continue;
            lines[count++] = (struct now_line){.text = with_why(c, phase, what),
                                               .begins = later_day(plan, phase->from),
                                               .end = date_compare(phase->from, plan->on) > 0
                                                          ? from_text(c, phase->from, phase)
                                                          : end_text(c, phase, false)};
        }
    return count;
}

/* A line for what speaks, and one for each phase that may be decided. */
static size_t lines_most(const struct care_plan *plan)
{
    size_t count = plan->speaking_count + 1;
    for (size_t i = 0; i < plan->topic_count; i++)
        count += plan->topics[i].phase_count;
    return count;
}

static size_t collect_lines(struct composition *c, struct now_line *lines)
{
    size_t count = 0;
    for (size_t i = 0; i < c->plan->speaking_count; i++) {
        const struct instruction_plan *one = &c->plan->speaking[i];
        const struct stance_phase *phase = plan_phase_on(c->plan, one->topic, one->from);
        if ((section_homes_left_out(c) || !one->said_at_home) && !can_wait(c, one, phase) &&
            !is_said_with_water(c, one) && !has_no_day(c->plan, one, phase))
            lines[count++] = (struct now_line){.text = with_why(c, phase, text_of(c, one, phase)),
                                               .end = ends_of(c, one, phase),
                                               .begins = phase ? later_day(c->plan, one->from)
                                                               : (struct date){0},
                                               .is_not_now = one->is_not_now};
    }
    return add_reasons(c, lines, count);
}

static size_t take_ending(const struct now_line *all, size_t count, const char *end,
                          struct now_line *out)
{
    size_t taken = 0;
    for (size_t i = 0; i < count; i++)
        if (strcmp(all[i].end, end) == 0)
            out[taken++] = all[i];
    return taken;
}

/* Nobody reads from the 21st on before until the 21st. Of one day the order stays. */
static void order_by_begin(struct now_line *lines, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        const struct now_line moving = lines[i];
        size_t k = i;
        for (; k > 0 && date_compare(lines[k - 1].begins, moving.begins) > 0; k--)
            lines[k] = lines[k - 1];
        lines[k] = moving;
    }
}

size_t section_now_items(struct composition *c, const struct now_line **out)
{
    struct now_line *all = ARENA_ARRAY_UNSET(c->arena, struct now_line, lines_most(c->plan)),
                    *sorted = ARENA_ARRAY_UNSET(c->arena, struct now_line, lines_most(c->plan));
    const size_t count = collect_lines(c, all);
    order_by_begin(all, count);
    size_t taken = take_ending(all, count, "", sorted);
    for (size_t i = 0; i < count; i++) {
        bool is_taken = false;
        for (size_t k = 0; k < taken && !is_taken; k++)
            is_taken = strcmp(sorted[k].end, all[i].end) == 0;
        if (!is_taken)
            taken += take_ending(all, count, all[i].end, sorted + taken);
    }
    *out = sorted;
    return count;
}

/* What ends together stands together, behind its end; what has none stands first, or it would seem
 * to end with what it follows. */
size_t section_now_lines(struct composition *c, const struct now_line **out)
{
    struct now_line *lines = ARENA_ARRAY_UNSET(c->arena, struct now_line, lines_most(c->plan));
    size_t all = collect_lines(c, lines), count = 0;
    for (size_t i = 0; i < all; i++) {
        size_t k = 0;
        while (k < count && strcmp(lines[k].end, lines[i].end) != 0)
            k++;
        if (k == count)
            lines[count++] = lines[i];
        else
            lines[k].text = arena_format(c->arena, "%s %s", lines[k].text, lines[i].text);
    }
    for (size_t i = 1; i < count; i++)
        if (!*lines[i].end) {
            const struct now_line endless = lines[i];
            memmove(lines + 1, lines, i * sizeof *lines);
            lines[0] = endless;
        }
    *out = lines;
    return count;
}

void section_now(struct composition *c, struct block_builder *out)
{
    const struct now_line *lines;
    size_t count = section_now_lines(c, &lines);
    if (!count)
        return;
    section_title(c, out, "sheet.now.title");
    if (count == 1 && !*lines[0].end) { /* a table of ends would have no end */
        builder_paragraph(out, lines[0].text);
        return;
    }
    struct block *pairs = builder_table(out, (const double[]){NOW_END_SHARE, 1 - NOW_END_SHARE}, 2);
    for (size_t i = 0; i < count; i++)
        section_pair(c, pairs, lines[i].end, lines[i].text);
}
