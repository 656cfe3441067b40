/* An arena and a sink of faults for each test of a suite. */
#ifndef BASKLEAF_TESTS_COMMON_ARENA_AND_DIAG_H
#define BASKLEAF_TESTS_COMMON_ARENA_AND_DIAG_H

#include "base/arena.h"
#include "base/diag.h"

static struct arena arena;
static struct diag diag;

static void set_up(void)
{
    arena_init(&arena);
    diag_init(&diag);
}

static void tear_down(void)
{
    arena_finish(&arena);
    diag_finish(&diag);
}

#endif
