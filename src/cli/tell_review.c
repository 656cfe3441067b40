/* What a veterinarian should look at, in words. */
#include "cli/tell_review.h"

#include <string.h>

#include "words/slots.h"
#include "words/wording.h"

/* The desk's words: what stands there for the veterinarian is no sheet's. */
static const struct wording *read_words(const struct telling *telling)
{
    struct run *run = telling->run;
    const char *folder = file_join(&run->arena, telling->resources->templates, "wording");
    return wording_read(folder, "en", NULL, &run->arena, &run->diag);
}

static bool is_asked(const struct review *review, enum told_reviews which)
{
    return which == TOLD_ALL || review->kind == REVIEW_IMPLAUSIBLE;
}

/* What gave way by the usual order stands behind what is asked: there are many of it. */
static bool stands_behind(const struct review *review)
{
    return strcmp(review->code, "stance-lost") == 0;
}

static void tell_one(struct telling *telling, const struct care_plan *plan, const struct review *r,
                     const char *start)
{
    struct run *run = telling->run;
    struct phrase_context ctx = slots_context(
        (struct format){telling->words, plan->keeper.units, &run->arena, &run->diag, 0, false},
        plan);
    ctx.facts = r->facts;
    diag_report(&run->diag, DIAG_REMARK, r->kind == REVIEW_IMPLAUSIBLE ? "asked" : "review", r->at,
                "%s%s (%s)", start, phrase_code(&ctx, "review", r->code), r->code);
}

void tell_review(struct telling *telling, const struct care_plan *plan, enum told_reviews which,
                 const char *start)
{
    for (int behind = 0; behind < 2; behind++)
        for (const struct review *r = plan->review; r; r = r->next) {
            if (!is_asked(r, which) || stands_behind(r) != behind)
                continue;
            if (!telling->words && !(telling->words = read_words(telling)))
                return;
            tell_one(telling, plan, r, start);
        }
}
