/* What to change: the first three with their reasons, and the rest. */
#include <string.h>

#include "sheet/sections.h"

/* What hers says itself is not said again: beside her words stands what those of the step add to
 * them, where that is worded. */
const char *section_action_part(struct composition *c, const struct action *action,
                                const char *code, const char *part)
{
    const char *own = action->hers
                          ? phrase_if_worded(&c->ctx, arena_format(c->arena, "action.%s.own-%s",
                                                                   action->code, part))
                          : NULL;
    return own ? own
               : phrase_if_worded(&c->ctx, arena_format(c->arena, "action.%s.%s", code, part));
}

static struct span *add_part(struct composition *c, struct span *text, const struct action *action,
                             const char *part)
{
    const char *sentence = section_action_part(c, action, action->words, part);
    return sentence ? span_join(c->arena, text, span_plain(c->arena, sentence)) : text;
}

/* One reason a rule, once each however many findings raised it, and once where two rules say it. */
static struct span *reasons_text(struct composition *c, const struct action *action)
{
    struct span *text = NULL;
    for (const struct action_reason *reason = action->reasons; reason; reason = reason->next) {
        bool is_listed = false;
        for (const struct action_reason *r = action->reasons; r != reason; r = r->next)
            is_listed = is_listed || strcmp(r->rule, reason->rule) == 0 ||
                        strcmp(section_why(c, r), section_why(c, reason)) == 0;
        if (!is_listed)
            text = span_join(c->arena, text, span_plain(c->arena, section_why(c, reason)));
    }
    return text;
}

/* The veterinarian's own, in place of those of the rules. */
static struct span *decided_reason(struct composition *c, const struct action *action)
{
    const char *why = action->decided_why;
    return why && *why ? span_plain(c->arena, text_ended(c->arena, why)) : NULL;
}

static struct span *do_text(struct composition *c, const struct action *action)
{
    const char *text = action->own ? text_ended(c->arena, action->own)
                                   : phrase_part(&c->ctx, "action", action->words, "do");
    if (action->is_second)
        text = section_with_text(c, "sheet.still", "what", text);
    return span_strong(c->arena, text);
}

/* How, why and when to stop; a compact sheet keeps the reasons for the first changes. */
static struct span *more_text(struct composition *c, const struct action *action)
{
    bool with_reason = action->is_first || !c->sheet->compact.value;
    struct span *text = NULL;
    if (action->has_start)
        text = span_plain(c->arena, section_with_date(c, "sheet.action-start", action->start));
    else if (action->has_end)
        text = span_plain(c->arena, section_with_date(c, "sheet.action-end", action->end));
    if (action->own)
        return text;
    if (action->hers)
        text = span_join(c->arena, text, span_plain(c->arena, text_ended(c->arena, action->hers)));
    text = add_part(c, text, action, "how");
    struct span *why = decided_reason(c, action);
    if (!why && with_reason)
        why = reasons_text(c, action);
    if (why) {
        text = span_join(c->arena, text, span_strong(c->arena, phrase(&c->ctx, "sheet.why")));
        text = span_join(c->arena, text, why);
    }
    return add_part(c, text, action, "stop");
}

static void add_actions(struct composition *c, struct block_builder *out, bool first,
                        enum list_marks marks)
{
    struct block *list = NULL;
    for (size_t i = 0; i < c->plan->action_count; i++) {
        const struct action *action = &c->plan->actions[i];
        if (action->is_first != first)
            continue;
        if (!list)
            list = builder_list(out, marks);
        list_add(c->arena, list, span_join(c->arena, do_text(c, action), more_text(c, action)));
    }
}

static size_t count_actions(const struct care_plan *plan, bool first)
{
    size_t count = 0;
    for (size_t i = 0; i < plan->action_count; i++)
        count += plan->actions[i].is_first == first;
    return count;
}

/* Of a box that nobody measured it cannot be said that it is right. */
static bool is_measured(const struct care_plan *plan)
{
    bool any = plan->measured[MEASURE_HUMIDITY].has_reading;
    for (int z = 0; z < ZONE_COUNT; z++)
        any = any || plan->measured[z].has_reading;
    return any;
}

/* A limit of the box, the water or the weight that the sheet prints is broken. */
static bool is_off(const struct care_plan *plan)
{
    const enum verdict others[] = {plan->enclosure.verdict, plan->growth.ratio_verdict,
                                   plan->water.verdict, plan->water.change_verdict};
    bool off = plan->uvb.lamp_overdue || plan->growth.weight == WEIGHT_FALLING_FAST;
    for (int m = 0; m < MEASURE_COUNT; m++)
        off = off || plan->measured[m].verdict == VERDICT_TOO_LOW ||
              plan->measured[m].verdict == VERDICT_TOO_HIGH;
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        off = off || others[i] == VERDICT_TOO_LOW || others[i] == VERDICT_TOO_HIGH;
    return off;
}

/* Something was found, or the food is another than the plan's: then something has to be done. */
static bool needs_care(const struct care_plan *plan)
{
    const struct feeding_plan *f = &plan->feeding;
    for (size_t i = 0; i < plan->finding_count; i++)
        if (plan->findings[i].severity != SEVERITY_NORMAL)
            return true;
    return f->meal_verdict == VERDICT_TOO_LOW || f->meal_verdict == VERDICT_TOO_HIGH ||
           f->interval_verdict == VERDICT_TOO_LOW || f->interval_verdict == VERDICT_TOO_HIGH;
}

/* What stands further down. Nobody is told that nothing is urgent beside what was found. */
static const char *later_key(const struct care_plan *plan)
{
    return plan_worst_finding(plan) ? "sheet.no-changes.found-later" : "sheet.no-changes.later";
}

const char *section_no_changes_key(const struct care_plan *plan)
{
    if (is_off(plan))
        return plan->action_count ? later_key(plan) : "sheet.no-changes.off";
    if (plan->feeding.fast_limit_passed && !plan->feeding.paused && !plan_worst_finding(plan))
        return "sheet.no-changes.fasted";
    for (int m = 0; m < MEASURE_COUNT; m++)
        if (plan->measured[m].verdict == VERDICT_BORDERLINE && !plan_worst_finding(plan))
            return "sheet.no-changes.borderline";
    if (plan->taxon.is_unlisted)
        return "sheet.no-changes.unlisted";
    if (!is_measured(plan))
        return "sheet.no-changes.unmeasured";
    if (plan->action_count)
        return later_key(plan);
    return needs_care(plan) ? "sheet.no-changes.found" : "sheet.no-changes.text";
}

void section_first_changes(struct composition *c, struct block_builder *out)
{
    size_t count = count_actions(c->plan, true);
    section_title(c, out, count ? "sheet.first-changes.title" : "sheet.no-changes.title");
    if (count)
        add_actions(c, out, true, LIST_NUMBERS);
    else
        builder_paragraph(out, phrase(&c->ctx, section_no_changes_key(c->plan)));
}

void section_more_changes(struct composition *c, struct block_builder *out)
{
    if (count_actions(c->plan, false) == 0)
        return;
    section_title(c, out, "sheet.more-changes.title");
    add_actions(c, out, false, LIST_BULLETS);
}
