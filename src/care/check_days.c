/* The day on which what was done today is looked at: as written, or by the catalogue's weeks. */
#include "care/build.h"

#include <math.h>
#include <string.h>

static bool is_warm(const struct care_build *b)
{
    const struct measured_plan *place = &b->plan->measured[MEASURE_WARM_SIDE];
    return place->applies && place->verdict == VERDICT_IN_RANGE;
}

static bool is_done(const struct care_build *b, const char *code)
{
    for (size_t i = 0; code && i < b->plan->procedure_count; i++)
        if (strcmp(b->plan->procedures[i].code, code) == 0)
            return true;
    return false;
}

/* Skin closes slowly in the cold: the near end where the warm side is known to be right. */
bool procedure_check(const struct care_build *b, size_t i, struct date *planned,
                     struct date *latest)
{
    const struct procedure_plan *done = &b->plan->procedures[i];
    const struct band *usual = &b->procedures[i]->check_days.range;
    const bool is_usual = usual->known && !is_done(b, b->procedures[i]->check_unless.text);
    if (done->has_check) {
        *planned = *latest = done->check;
    } else if (is_usual) {
        *planned = date_add_days(b->plan->on, lround(is_warm(b) ? usual->low : usual->high));
        *latest = date_add_days(b->plan->on, lround(usual->high));
    }
    return done->has_check || is_usual;
}

const struct procedure_plan *procedure_written_for(const struct care_build *b, const char *topic,
                                                   size_t length)
{
    for (size_t i = 0; i < b->plan->procedure_count; i++) {
        const struct procedure_plan *done = &b->plan->procedures[i];
        if (done->has_check && strlen(done->code) == length &&
            strncmp(done->code, topic, length) == 0)
            return done;
    }
    return NULL;
}

bool procedure_check_day(const struct care_build *b, const struct procedure_plan *done,
                         struct date *day)
{
    const size_t own = (size_t)(done - b->plan->procedures);
    const char *with = b->procedures[own]->check_with.text;
    struct date planned, latest;
    bool known = procedure_check(b, own, &planned, &latest);
    for (size_t i = 0; !known && with && i < b->plan->procedure_count; i++)
        known = strcmp(b->plan->procedures[i].code, with) == 0 &&
                procedure_check(b, i, &planned, &latest);
    if (known)
        *day = build_open_day(b, planned, latest).on;
    return known;
}
