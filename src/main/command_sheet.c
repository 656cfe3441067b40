#include <string.h>

#include "deliver/sheet.h"
#include "deliver/visit_plan.h"
#include "main/command.h"

/* out/ of the project when the program runs from it, else of the folder it is called in. */
static const char *default_output(struct run *run, const struct resources *resources,
                                  const struct care_plan *plan)
{
    const char *folder = file_join(&run->arena, resources->places.data_folder, "out");
    if (!file_is_folder(folder)) {
        folder = "out";
        if (!file_make_folder(folder, &run->diag))
            return NULL;
    }
    return file_join(&run->arena, folder, sheet_file_name(plan, &run->arena));
}

static void deliver(struct run *run, const struct resources *resources,
                    const struct care_plan *plan, const struct bytes *pdf)
{
    const char *output =
        run->options.output ? run->options.output : default_output(run, resources, plan);
    if (!output)
        return;
    if (strcmp(output, "-") == 0) {
        command_print(run, pdf->data, pdf->length);
        return;
    }
    /* a sheet holds a keeper's name: others on the machine need not read it */
    if (file_write_atomic(output, pdf->data, pdf->length, 0640, &run->diag)) {
        const char *line = arena_format(&run->arena, "%s\n", output);
        command_print(run, line, strlen(line));
    }
}

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
        deliver(run, &resources, plan, &pdf);
    press_finish(&press);
}
