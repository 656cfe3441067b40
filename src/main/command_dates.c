#include "deliver/calendar.h"
#include "deliver/sheet.h"
#include "wording/say.h"
#include "deliver/visit_plan.h"
#include "main/command.h"

static bool make(struct run *run, struct press *press, const struct care_plan *plan,
                 struct bytes *out)
{
    const struct sheet_wishes wishes = {.language = run->options.language,
                                        .units = run->options.units};
    struct speech speech;
    if (!sheet_speech(press, plan, &wishes, &run->arena, &run->diag, &speech))
        return false;
    struct appointments appointments = appointments_make(&speech, &run->arena);
    return !diag_failed(&run->diag) &&
           calendar_write(plan, &appointments, speech.format.words->lang, &run->arena, &run->diag,
                          out);
}

void command_dates(struct run *run)
{
    struct resources resources;
    struct press press = {0};
    struct bytes calendar;
    if (!command_resources(run, &resources))
        return;
    const struct care_plan *plan =
        visit_plan_read(&resources, run->words[0], run->today, &run->arena, &run->diag);
    if (plan && press_init(&press, &resources, &run->diag) && make(run, &press, plan, &calendar))
        command_deliver(run, &resources, sheet_name_with(plan, "ics", &run->arena), &calendar);
    if (plan)
        press_finish(&press);
}
