/* The fixture of tests of UVB: a lamp that can be hung, and what is planned for it. */
#ifndef BASKLEAF_TESTS_CARE_LAMP_FIXTURE_H
#define BASKLEAF_TESTS_CARE_LAMP_FIXTURE_H

#include "care/fixture.h"

static struct care_fixture f;
static struct visit_lamp *lamp;

static void set_up(void); /* of each suite */

static void set_up_lamp(void)
{
    fixture_init(&f);
    lamp = &f.visit.enclosure.lamp;
    lamp->at = (struct mark){"visit.yaml", 20, 3};
}

static void tear_down(void)
{
    fixture_finish(&f);
}

static void again(void)
{
    tear_down();
    set_up();
}

static void hang(enum lamp_kind kind, double uvi, double at_cm, double height_cm)
{
    lamp->kind = fixture_choice((int)kind);
    lamp->measured.uvi = fixture_quantity(uvi);
    lamp->measured.at_cm = fixture_quantity(at_cm);
    if (height_cm > 0)
        lamp->height_cm = fixture_quantity(height_cm);
}

static const struct uvb_plan *made(void)
{
    ck_assert(season_plan(&f.b) && uvb_plan(&f.b)); /* the season is known before the calls */
    return &f.plan.uvb;
}

static const struct measured_plan *light(void)
{
    made();
    return &f.plan.measured[MEASURE_UVB];
}

#endif
