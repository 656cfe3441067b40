#include "care/build.h"

/* "1 month" means the same day of the next month, not 30.4 days. */
bool recheck_plan(struct care_build *b)
{
    const struct quantity *wanted = &b->in->visit->follow_up.recheck;
    if (!wanted->known)
        return true;
    b->plan->has_recheck = true;
    if (wanted->unit == UNIT_MONTH)
        b->plan->recheck = date_add_months(b->plan->on, (int)wanted->written);
    else if (wanted->unit == UNIT_YEAR)
        b->plan->recheck = date_add_months(b->plan->on, (int)(wanted->written * 12));
    else
        b->plan->recheck = date_add_days(b->plan->on, (long)wanted->value);
    return true;
}
