/* A bare libharu program to measure against: it draws the operations of a sheet that is laid out
 * already, with the same small fonts, in WinAnsi text and without tags. */
#ifndef BASKLEAF_TESTS_BARE_H
#define BASKLEAF_TESTS_BARE_H

#include <stdio.h>

#include "document/draw_ops.h"
#include "base/arena.h"

enum { BARE_ROOM = 4 * 1024 * 1024 };

struct bare {
    const char *font_paths[TEXT_STYLE_COUNT];
    const struct paged *paged;
};

/* Turns the texts of the operations into WinAnsi, which libharu's single-byte fonts take; the bare
 * program finds it in an operation's uri, a field that texts have no use for. */
struct bare bare_prepare(struct paged *paged, const char *folder, struct arena *arena);

/* One document, loading its fonts; its size in bytes, 0 on failure. */
size_t bare_write(const struct bare *bare, unsigned char *out, size_t room);

/* To a file that only the program which wrote it, built the same, can load. */
bool bare_keep(const struct bare *bare, FILE *out);
bool bare_load(FILE *in, const char *folder, struct arena *arena, struct bare *out);

#endif
