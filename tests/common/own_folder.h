/* An arena, a sink of faults and an empty folder for each test of a suite. */
#ifndef BASKLEAF_TESTS_COMMON_OWN_FOLDER_H
#define BASKLEAF_TESTS_COMMON_OWN_FOLDER_H

#include <stdlib.h>
#include <string.h>

#include "common/arena_and_diag.h"
#include "common/suite.h"

static char folder[] = "/tmp/baskleaf-test-XXXXXX";

static void set_up_folder(void)
{
    set_up();
    memcpy(folder + strlen(folder) - 6, "XXXXXX", 6);
    ck_assert_ptr_nonnull(mkdtemp(folder));
}

static void tear_down_folder(void)
{
    ck_assert_int_eq(system(arena_format(&arena, "rm -r '%s'", folder)), 0);
    tear_down();
}

#endif
