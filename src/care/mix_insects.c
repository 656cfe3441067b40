/* Insects beside a complete mix, in a rhythm of their own: what a finding makes of them. */
#include "care/feeding.h"

#include <math.h>

static void set(struct care_build *b, double low, double high, double days)
{
    struct feeding_beside *beside = &b->plan->feeding.beside;
    beside->high = (int)fmax(1, floor(high + 1e-9));
    beside->low = (int)fmin(fmax(1, ceil(low - 1e-9)), beside->high);
    if (days > 0)
        beside->every_low_days = beside->every_high_days = days;
    beside->from.because = beside->every_from.because = b->plan->feeding.change_from;
}

void feeding_share_of_beside(struct care_build *b, double share)
{
    struct feeding_plan *f = &b->plan->feeding;
    if (f->beside.is_known)
        set(b, floor(f->beside.low * share), f->beside.high * share, 0);
}

/* No more a day than now, on its days or the usual ones where those are rarer. */
void feeding_less_beside(struct care_build *b, double times)
{
    struct feeding_plan *f = &b->plan->feeding;
    const struct feeding_beside_now *now = &f->beside_now;
    double most = f->beside.high / times, days = 0;
    if (!f->beside.is_known)
        return;
    if (!now->is_given && b->in->visit->diet.count > 0) { /* none now: none more */
        f->beside.is_known = false;
        return;
    }
    if (now->has_count && now->count_day > 0) {
        days = fmax(f->beside.every_low_days,
                    fmax(now->interval_days, ceil(1 / now->count_day - 1e-9)));
        most = fmin(f->beside.high, now->count_day * days);
    }
    set(b, fmin(f->beside.low, most) / (days > 0 ? times : 1), most, days);
}

/* No fewer a day than now, nor more seldom. */
void feeding_more_beside(struct care_build *b, double most_days)
{
    struct feeding_plan *f = &b->plan->feeding;
    const struct feeding_beside_now *now = &f->beside_now;
    if (!f->beside.is_known)
        return;
    double days = now->interval_days > 0 ? fmin(most_days, now->interval_days) : most_days;
    double least = (f->beside.low + f->beside.high) / 2.0;
    if (now->has_count)
        least = fmax(least, ceil(now->count_day * days - 1e-9));
    set(b, least, fmax(f->beside.high, ceil(least - 1e-9)), days);
}

/* What it is used to, but no more than is usual. */
void feeding_beside_as_now(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    const struct feeding_beside_now *now = &f->beside_now;
    if (!f->beside.is_known || !now->has_count || now->count_day <= 0)
        return;
    double days = fmax(now->interval_days, ceil(1 / now->count_day - 1e-9));
    double pieces = fmin(now->count_day * days, f->beside.high);
    set(b, pieces, pieces, days);
    f->beside.from.origin = f->beside.every_from.origin = ORIGIN_KEEPER;
}
