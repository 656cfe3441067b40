/* What a sheet set close says at more length where its pages have room. */
#ifndef BASKLEAF_RENDER_OPENINGS_H
#define BASKLEAF_RENDER_OPENINGS_H

#include "render/trials.h"

/* All that is said where there is room, with so many further pages. False after errors. */
bool openings_use(const struct laying *l, struct savings *savings, size_t further);
/* Does what to do at home, or when to call, run on in the end? So it does where both are paragraphs
 * and one calls for many signs. */
bool openings_run_on(const struct care_plan *plan, const struct savings *savings);

#endif
