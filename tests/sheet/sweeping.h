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

/* The plan and the sheet of an animal with these findings; language, kind of sheet and readings go
 * round with the number of plans. What is wrong with it, in words; NULL for nothing. */
const char *sweep_fault(struct swept *s, const struct hearer *hearer, const struct found *found,
                        size_t count);

/* Every abnormal finding at its gravest level, those of the middle for each second one. */
size_t sweep_codes(struct found *out);

#endif
