/* What the fuzz targets share.
 *
 * Each target defines fuzz_one. Built by itself it replays files (replay.c, part of the test
 * suite); built with clang's fuzzer it is driven by that (drive.c). A target must never fail on any
 * bytes: it checks what has to hold with fuzz_must.
 */
#ifndef BASKLEAF_TESTS_FUZZ_H
#define BASKLEAF_TESTS_FUZZ_H

#include "base/arena.h"
#include "base/diag.h"
#include "base/file.h"

/* One run over some bytes; `arena` and `diag` are fresh. */
void fuzz_one(struct bytes bytes, struct arena *arena, struct diag *diag);

/* fuzz_one with a fresh arena and sink; then: every message names its place and ends in no line
 * break, and something was said whenever the target called itself refused. */
void fuzz_run(const void *data, size_t size);

/* The name of a file of this process that holds `bytes`, for readers that take a file. It lies in
 * memory where the system lets this user write there, else in /tmp; gone when the process ends. */
const char *fuzz_file(struct bytes bytes);

/* Ends the process with a message unless it holds. */
void fuzz_must(bool holds, const char *what);

#endif
