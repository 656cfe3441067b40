/* A species sheet's values as text: what the desk shows to be written anew is read back as the very
 * same value, for every value of every sheet. */
#include <math.h>

#include "base/units.h"
#include "common/arena_and_diag.h"
#include "common/suite.h"
#include "records/species.h"
#include "records/species_values.h"
#include "review/review_list.h"

/* To the last digit that a sheet may have. */
static void is_same(double read, double was)
{
    ck_assert_double_le(fabs(read - was), 1e-9 * fabs(was));
}

static void is_read_back(const struct species_value *value)
{
    const char *text = review_written_text(value, &arena), *why = "";
    if (value->box) {
        struct box box = {0};
        ck_assert_msg(units_read_box(text, &arena, &box, &why), "%s: %s", text, why);
        is_same(box.length_cm, value->box->length_cm);
        is_same(box.width_cm, value->box->width_cm);
        is_same(box.height_cm, value->box->height_cm);
        return;
    }
    struct band band = {0};
    ck_assert_msg(units_read_band(text, value->field->dimension, &arena, &band, &why), "%s: %s",
                  text, why);
    is_same(band.low, value->band->low);
    is_same(band.high, value->band->high);
    ck_assert_int_eq(band.unit, value->band->unit);
}

START_TEST(what_is_written_is_read_back)
{
    struct library library;
    size_t boxes = 0, converted = 0;
    ck_assert(library_read(PROJECT_FOLDER "/species-sheets", NULL, &arena, &diag, &library));
    for (size_t i = 0; i < library.count; i++) {
        struct species_value *values;
        size_t count = species_values(library.items[i], NULL, &arena, &values);
        for (size_t k = 0; k < count; k++) {
            is_read_back(&values[k]);
            boxes += values[k].box != NULL;
            converted += values[k].band && values[k].band->unit != UNIT_NONE &&
                         units_to_written(1, values[k].band->unit) != 1;
        }
    }
    ck_assert_uint_gt(boxes, 0);
    ck_assert_uint_gt(converted, 0); /* years and weeks, which are kept as days */
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("written_values");
    TCase *tests = tcase_create("written_values");
    tcase_add_checked_fixture(tests, set_up, tear_down);
    tcase_add_test(tests, what_is_written_is_read_back);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
