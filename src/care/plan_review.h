/* What the veterinarian is told before signing. */
#ifndef BASKLEAF_CARE_PLAN_REVIEW_H
#define BASKLEAF_CARE_PLAN_REVIEW_H

#include "base/diag.h"

struct plan_fact;

enum review_kind {
    REVIEW_CONFLICT,
    REVIEW_IMPLAUSIBLE,
    REVIEW_MISSING,
    REVIEW_SPREAD,
    REVIEW_OVERRIDE,
    REVIEW_REMARK
};

struct review {
    enum review_kind kind;
    const char *code; /* worded under review.<code> */
    struct mark at;   /* the record's place, when there is one */
    struct plan_fact *facts;
    struct review *next;
};

#endif
