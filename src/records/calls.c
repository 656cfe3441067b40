/* The schema of calls for stances. */
#include "records/calls.h"

#include "records/table.h"

#include <string.h>

const struct choice phase_end_choices[] = {
    {"none", PHASE_END_NONE, "not ended by anything of the record"},
    {"recheck", PHASE_END_RECHECK, "the recheck"},
    {"date", PHASE_END_DATE, "a date that must be on the record"},
    {"veterinarian", PHASE_END_VETERINARIAN, "until the veterinarian says"},
    {"tests", PHASE_END_TESTS, "until the named tests are negative"},
    {"shed", PHASE_END_SHED, "until the next whole shed"},
    {"laid", PHASE_END_LAID, "until the eggs are laid or the young are born"},
    {"stool", PHASE_END_STOOL, "until stool has come"},
    {"two-meals", PHASE_END_TWO_MEALS, "until two meals were kept down"},
    {"awake", PHASE_END_AWAKE, "until it is fully awake"},
    {"measured", PHASE_END_MEASURED, "until a reading is right again"},
    {0},
};

const struct choice history_event_choices[] = {
    {"regurgitated", EVENT_REGURGITATED, NULL},
    {"ate", EVENT_ATE, NULL},
    {"stool", EVENT_STOOL, NULL},
    {"shed", EVENT_SHED, NULL},
    {"operated", EVENT_OPERATED, NULL},
    {"woke-from-rest", EVENT_WOKE_FROM_REST, NULL},
    {"owned-since", EVENT_OWNED_SINCE, NULL},
    {"stool-clean", EVENT_STOOL_CLEAN, NULL},
    {0},
};

const struct choice finding_state_choices[] = {
    {"unseen", STATE_UNSEEN, "no veterinarian has looked at it"},
    {"seen", STATE_SEEN, "treated or looked at here"},
    {"under-treatment", STATE_UNDER_TREATMENT, "treated, with a next look"},
    {"referred", STATE_REFERRED, "sent on, with a place and a time"},
    {"go-now", STATE_GO_NOW, "must go to a clinic now"},
    {0},
};

static const struct field fields[] = {CALL_ROWS_OF(call_row, )};
const struct schema call_row_schema =
    SCHEMA(call_row, fields, "call", "Stances that are called for.", MARKED(call_row, at));

bool call_is_stance(const char *call, size_t *length, const char **stance)
{
    const char *colon = strchr(call, ':');
    if (!colon)
        return false;
    *length = (size_t)(colon - call);
    *stance = colon + 1;
    return true;
}
