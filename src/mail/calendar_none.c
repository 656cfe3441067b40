/* Built without libical. */
#include "mail/calendar.h"

bool calendar_write(const struct care_plan *plan, const struct calendar_events *events,
                    const char *language, struct arena *arena, struct diag *diag, struct bytes *out)
{
    (void)plan, (void)events, (void)language, (void)arena, (void)out;
    diag_report(diag, DIAG_FAULT, "no-libical", (struct mark){0},
                "this program was built without libical and writes no calendar");
    return false;
}
