/* `baskleaf explain`: the plan as text or JSON. */
#include <string.h>

#include "context/visit_plan.h"
#include "cli/command.h"
#include "explain/explain.h"
#include "render/printed_instructions.h"

/* A fault of the machine is one here too; one of the record is for `sheet` to say. */
static void report_faults(struct diag *diag, const struct diag *quiet)
{
    for (const struct diag_message *m = quiet->first; m; m = m->next)
        if (m->severity == DIAG_FAULT)
            diag_report_path(diag, DIAG_FAULT, m->code, m->at, m->path, "%s", m->text);
}

/* What the sheet of this record prints. False where none can be made. */
static bool find_printed(struct run *run, const struct resources *resources,
                         const struct visit_record *record, struct explain_printed *out)
{
    struct sheet_context context;
    struct signature signature;
    struct diag quiet;
    const struct sheet_options options = {0};
    const struct sheet_inputs in = {&context, record->plan, &options, &signature};
    diag_init(&quiet);
    bool good = sheet_context_init(&context, resources, &quiet) &&
                sheet_context_can_draw(&context, record->tree, &quiet) &&
                sheet_context_signature(&context, record, NULL, &run->arena, &quiet, &signature) &&
                printed_instructions(&in, &run->arena, &quiet, &out->items, &out->count);
    sheet_context_finish(&context);
    report_faults(&run->diag, &quiet);
    diag_finish(&quiet);
    return good;
}

void command_explain(struct run *run)
{
    struct resources resources;
    if (!command_resources(run, &resources))
        return;
    const struct visit_record *record =
        visit_plan_read(&resources, run->words[0], run->today, &run->arena, &run->diag);
    if (!record)
        return;
    run->record = record->tree;
    struct strbuf text;
    struct explain_printed printed = {0};
    strbuf_init(&text, &run->arena);
    if (!run->options.json)
        explain_write_text(record->plan, &text);
    else if (find_printed(run, &resources, record, &printed))
        explain_write_json(record->plan, &printed, &text);
    else
        explain_write_json(record->plan, NULL, &text);
    command_deliver_or_print(run, &resources, (struct bytes){text.text, text.length});
}
