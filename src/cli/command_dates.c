/* `baskleaf dates`: the plan's dates as a calendar file. */
#include "mail/calendar.h"
#include "render/render.h"
#include "words/phrase.h"
#include "context/visit_plan.h"
#include "cli/command.h"

static bool make(struct run *run, struct sheet_context *sheet_context, const struct care_plan *plan,
                 struct bytes *out)
{
    const struct sheet_options sheet_options = {.language = run->options.language,
                                                .units = run->options.units};
    struct phrase_context ctx;
    const struct sheet_inputs in = {sheet_context, plan, &sheet_options, NULL};
    if (!sheet_phrase_context(&in, &run->arena, &run->diag, &ctx))
        return false;
    struct calendar_events events = calendar_events_make(&ctx, &run->arena);
    return !diag_failed(&run->diag) &&
           calendar_write(plan, &events, ctx.format.words->lang, &run->arena, &run->diag, out);
}

void command_dates(struct run *run)
{
    struct resources resources;
    struct sheet_context sheet_context = {0};
    struct bytes calendar;
    if (!command_resources(run, &resources))
        return;
    const struct visit_record *record =
        visit_plan_read(&resources, run->words[0], run->today, &run->arena, &run->diag);
    run->record = record ? record->tree : NULL;
    if (record && sheet_context_init(&sheet_context, &resources, &run->diag) &&
        make(run, &sheet_context, record->plan, &calendar))
        command_deliver(run, &resources,
                        &(struct result){sheet_name_with(record->plan, "ics", &run->arena),
                                         sheet_record_id(record->plan, &run->arena), calendar});
    if (record)
        sheet_context_finish(&sheet_context);
}
