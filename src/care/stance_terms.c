/* Stances in this animal's own terms, and the days on which a call for one holds. */
#include "care/stances.h"

#include <string.h>

const char *stances_usual(const struct care_build *b, const struct topic *topic)
{
    const struct whom_animal animal = build_animal(b);
    if (!whom_fits(&topic->whom, &animal))
        return NULL;
    for (size_t i = 0; i < topic->defaults.count; i++) {
        const struct topic_default *one = LIST_AT(topic->defaults, struct topic_default, i);
        if (whom_fits(&one->whom, &animal) && (!one->ill.value || build_has_illness(b)))
            return one->stance.text;
    }
    return topic->usual.text;
}

const char *stances_translate(const struct care_build *b, const struct topic *topic,
                              const char *stance)
{
    const struct whom_animal animal = build_animal(b);
    for (size_t i = 0; i < topic->translate.count; i++) {
        const struct topic_translation *one =
            LIST_AT(topic->translate, struct topic_translation, i);
        if ((list_has_text(&one->from, stance) || list_has_text(&one->from, "any")) &&
            whom_fits(&one->whom, &animal))
            return strcmp(one->to.text, "drop") == 0 ? NULL : one->to.text;
    }
    return stance;
}

bool stance_call_is_on(const struct stance_call *call, struct date day)
{
    return date_compare(call->from, day) <= 0 &&
           (!call->has_until || date_compare(day, call->until) < 0);
}
