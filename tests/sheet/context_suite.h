/* The shipped data with the words of its sheets, read anew for each test of a suite. */
#ifndef BASKLEAF_TESTS_SHEET_CONTEXT_SUITE_H
#define BASKLEAF_TESTS_SHEET_CONTEXT_SUITE_H

#include "common/arena_and_diag.h"
#include "common/suite.h"
#include "render/sheet_context.h"

static struct resources resources;
static struct sheet_context context;

static void set_up_context(void)
{
    static const struct places places = {.data_folder = PROJECT_FOLDER};
    set_up();
    ck_assert(resources_read(&places, &arena, &diag, &resources));
    ck_assert(sheet_context_init(&context, &resources, &diag));
}

static void tear_down_context(void)
{
    sheet_context_finish(&context);
    tear_down();
}

#endif
