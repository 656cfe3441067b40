/* Built without libical. */
#include "deliver/calendar.h"

bool calendar_write(const struct care_plan *plan, const struct appointments *appointments,
                    const char *language, struct arena *arena, struct diag *diag, struct bytes *out)
{
    (void)plan, (void)appointments, (void)language, (void)arena, (void)out;
    diag_report(diag, DIAG_FAULT, "no-libical", (struct mark){0},
                "this program was built without libical and writes no calendar");
    return false;
}
