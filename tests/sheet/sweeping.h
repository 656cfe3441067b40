/* One plan of a sweep and its sheet, and what must never be in them. */
#ifndef BASKLEAF_TESTS_SWEEPING_H
#define BASKLEAF_TESTS_SWEEPING_H

#include "context/visit_plan.h"
#include "sheet/hearers.h"

struct said_text; /* words/phrase.h */

enum { CODES_MOST = 200 };

struct found {
    const char *code;
    const char *severity;
    const char *state;
};

/* What is wrong with an animal, at each of its levels. */
struct sweep_code {
    const char *code;
    const char *severities[3];
    size_t count;
};

struct swept {
    struct arena *arena;
    struct diag *diag;
    size_t plans, faults;
    size_t language;              /* of the sheet of the plan */
    const struct said_text *said; /* what the sheet of the plan says that instructs */
};

/* The data of the folder; false when it is no good. */
extern struct resources resources;
bool sweep_set_up(const char *data_folder);
void sweep_tear_down(void);

/* The plan and, each third time, the sheet of an animal with these findings; language, kind of
 * sheet, readings and the veterinarian's decision go round with `at`. What is wrong with it, in
 * words; NULL for nothing. */
const char *sweep_fault(struct swept *s, const struct hearer *hearer, const struct found *found,
                        size_t count, size_t at);

/* Every finding that is none of health. */
size_t sweep_codes(struct sweep_code *out);

#endif
