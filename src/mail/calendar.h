/* The care dates as a calendar file (iCalendar, RFC 5545), through libical. */
#ifndef BASKLEAF_MAIL_CALENDAR_H
#define BASKLEAF_MAIL_CALENDAR_H

#include "render/sheet_context.h"
#include "sheet/calendar_events.h"

/* All-day entries with an alarm at nine in the morning. The UID of an entry is made of the animal
 * (name, species, keeper), its kind and its place, so that a later visit's file updates it;
 * SEQUENCE is the visit's day, so that the later one wins; a place that is free is cancelled. The
 * same plan gives the same bytes. False after a DIAG_FAULT when this program was built without
 * libical; *out is then untouched. */
bool calendar_write(const struct care_plan *plan, const struct calendar_events *events,
                    const char *language, struct arena *arena, struct diag *diag,
                    struct bytes *out);

#endif
