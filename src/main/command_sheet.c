#include "deliver/sheet.h"
#include "deliver/visit_plan.h"
#include "main/command.h"

void command_sheet(struct run *run)
{
    struct resources resources;
    if (!command_resources(run, &resources))
        return;
    const struct care_plan *plan =
        visit_plan_read(&resources, run->words[0], run->today, &run->arena, &run->diag);
    if (!plan)
        return;
    struct press press;
    struct approval approval;
    struct bytes pdf;
    const struct sheet_wishes wishes = {.language = run->options.language,
                                        .units = run->options.units,
                                        .paper = run->options.paper};
    if (press_init(&press, &resources, &run->diag) &&
        press_approval(&press, plan, &run->arena, &run->diag, &approval) &&
        sheet_write(&press, plan, &wishes, &approval, &run->arena, &run->diag, &pdf))
        command_deliver(run, &resources, sheet_file_name(plan, &run->arena), &pdf);
    press_finish(&press);
}
