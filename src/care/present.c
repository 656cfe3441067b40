/* Of food that no source gives an amount of, as most mixed feeders' animal food: what it eats now
 * is the measure. */
#include "care/feeding.h"

#include <math.h>

static bool has_no_amount(const struct feeding_plan *f)
{
    bool is_loose = f->diet == DIET_MIXED || f->diet == DIET_FRUIT_MIX;
    return is_loose && !f->has_meal && !f->has_insects && f->has_interval_now;
}

static void say_keeper(struct feeding_plan *f)
{
    f->meal_from = f->every_from =
        (struct provenance){.origin = ORIGIN_KEEPER, .because = f->change_from};
}

/* Pieces or grams of so many days, from `least` times what it eats in them now to all of it. */
static void take(struct feeding_plan *f, double days, double least)
{
    const double pieces = f->now.count_day * days, grams = f->now.g_day * days;
    f->is_in_pieces = f->has_insects = f->now.has_count && f->diet == DIET_MIXED;
    f->has_meal = !f->has_insects && f->now.has_g;
    if (f->has_insects) {
        f->insects_high = (int)fmax(1, least < 1 ? floor(pieces + 1e-9) : ceil(pieces - 1e-9));
        f->insects_low = (int)fmin(fmax(1, ceil(pieces * least - 1e-9)), f->insects_high);
    } else if (f->has_meal) {
        f->meal_low_g = grams * least;
        f->meal_high_g = grams;
    }
    if (f->has_insects || f->has_meal)
        say_keeper(f);
}

bool feeding_less_than_present(struct care_build *b, double times)
{
    struct feeding_plan *f = &b->plan->feeding;
    if (!has_no_amount(f) || !(f->now.has_g || (f->now.has_count && f->diet == DIET_MIXED)))
        return false;
    /* no rarer than now, but for a piece that would be less than one */
    double days = f->interval_now_days;
    if (f->diet == DIET_MIXED && f->now.has_count && f->now.count_day > 0)
        days = fmax(days, ceil(1 / f->now.count_day - 1e-9));
    f->every_low_days = f->every_high_days = days;
    take(f, days, 1 / times);
    return true;
}

void feeding_present_or_more(struct care_build *b)
{
    struct feeding_plan *f = &b->plan->feeding;
    if (!has_no_amount(f))
        return;
    f->every_high_days = fmin(f->every_high_days, f->interval_now_days);
    f->every_low_days = fmin(f->every_low_days, f->every_high_days);
    f->every_from.because = f->change_from;
    if (f->now.has_g || f->now.has_count)
        take(f, f->every_high_days, 1);
}
