/* The day to come back, as the veterinarian wrote it; months are months of the calendar. */
#include "care/build.h"

#include <math.h>

/* "1 month" means the same day of the next month, not 30.4 days; half a month is half of 30.4 days.
 */
static struct date add_months(struct date on, double months)
{
    const double month_days = 365.25 / 12;
    double whole = floor(months);
    return date_add_days(date_add_months(on, (int)whole), lround((months - whole) * month_days));
}

bool recheck_plan(struct care_build *b)
{
    const struct quantity *wanted = &b->in->visit->follow_up.recheck;
    if (!wanted->known)
        return true;
    b->plan->has_recheck = true;
    if (wanted->unit == UNIT_MONTH)
        b->plan->recheck = add_months(b->plan->on, wanted->written);
    else if (wanted->unit == UNIT_YEAR)
        b->plan->recheck = add_months(b->plan->on, wanted->written * 12);
    else
        b->plan->recheck = date_add_days(b->plan->on, lround(wanted->value));
    return true;
}
