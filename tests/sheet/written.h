/* A visit record written in a test, read and made a plan of as the program does. */
#ifndef BASKLEAF_TESTS_WRITTEN_H
#define BASKLEAF_TESTS_WRITTEN_H

#include "context/visit_plan.h"

/* The record of the text, read on 1 June 2026, with its plan, in the arena. NULL when the text is
 * no good; why is in diag. */
const struct visit_record *written_record(const struct resources *resources, const char *text,
                                          struct arena *arena, struct diag *diag);

#endif
