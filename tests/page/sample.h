/* A sheet's drawing operations made by hand, without wording or layout: two pages with every
 * kind of operation and every type of element, for the tests of the libharu player. */
#ifndef BASKLEAF_TESTS_PAGE_SAMPLE_H
#define BASKLEAF_TESTS_PAGE_SAMPLE_H

#include "document/draw_ops.h"
#include "base/arena.h"

enum sample_kind {
    SAMPLE_PLAIN, /* English, characters of WinAnsi alone, no link, no logo */
    SAMPLE_RICH,  /* every operation, four languages, characters of all three kinds of font */
    SAMPLE_LONG,  /* two pages with some 700 words, a table and 60 shapes, for the benchmark */
    SAMPLE_COUNT
};

/* The document behind the pages may be changed before it is written (its title, say). */
struct sample {
    struct document document;
    struct paged paged;
};

/* Everything is the arena's. */
struct sample *sample_make(enum sample_kind kind, struct arena *arena);

/* "plain", "rich", "long"; SAMPLE_COUNT for anything else. */
enum sample_kind sample_named(const char *name);

#endif
