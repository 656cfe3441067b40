/* `baskleaf explain`: the plan as text or JSON. */
#include <string.h>

#include "context/visit_plan.h"
#include "cli/command.h"
#include "explain/explain.h"

void command_explain(struct run *run)
{
    struct resources resources;
    if (!command_resources(run, &resources))
        return;
    const struct visit_record *record =
        visit_plan_read(&resources, run->words[0], run->today, &run->arena, &run->diag);
    if (!record)
        return;
    struct strbuf text;
    strbuf_init(&text, &run->arena);
    if (run->options.json)
        explain_write_json(record->plan, &text);
    else
        explain_write_text(record->plan, &text);
    command_deliver_or_print(run, &resources, (struct bytes){text.text, text.length});
}
