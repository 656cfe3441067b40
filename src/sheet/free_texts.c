/* Tells a document in which language the record's free texts are written. */
#include "sheet/free_texts.h"

#include <string.h>

static void add(struct document *document, struct foreign_text *texts, const char *text,
                const char *lang)
{
    if (text && *text)
        texts[document->foreign_count++] = (struct foreign_text){text, lang};
}

void free_texts_set(const struct care_plan *plan, struct document *document, struct arena *arena)
{
    const char *lang = plan->notes_in;
    if (!lang || strcmp(lang, document->lang) == 0)
        return;
    enum { OTHERS = 2, TEXTS_A_MEDICINE = 3, TEXTS_AN_ACTION = 1, TEXTS_A_FINDING = 2 };
    size_t most = OTHERS + plan->finding_count * TEXTS_A_FINDING +
                  plan->medicine_count * TEXTS_A_MEDICINE + plan->action_count * TEXTS_AN_ACTION;
    struct foreign_text *texts = ARENA_ARRAY(arena, struct foreign_text, most);
    document->foreign = texts;
    add(document, texts, plan->message, lang);
    add(document, texts, plan->own_targets.because, lang);
    for (size_t i = 0; i < plan->finding_count; i++) {
        add(document, texts, plan->findings[i].note, lang);
        add(document, texts, plan->findings[i].where, lang);
    }
    for (size_t i = 0; i < plan->medicine_count; i++) {
        add(document, texts, plan->medicines[i].directions, lang);
        add(document, texts, plan->medicines[i].for_what, lang);
        add(document, texts, plan->medicines[i].watch, lang);
    }
    for (size_t i = 0; i < plan->action_count; i++)
        add(document, texts, plan->actions[i].own ? plan->actions[i].own : plan->actions[i].hers,
            lang);
}

/* ---- printed in another language ---- */

const char *free_text_elsewhere(const struct care_plan *plan, const char *printed_in,
                                const char **written_in)
{
    const char *lang = plan->notes_in ? plan->notes_in : plan->keeper.language.text;
    if (!lang || !printed_in || strcmp(lang, printed_in) == 0)
        return NULL;
    *written_in = lang;
    for (size_t i = 0; i < plan->medicine_count; i++) {
        const struct medicine_plan *m = &plan->medicines[i];
        if (m->directions || m->for_what || m->watch)
            return m->directions ? m->directions : m->for_what ? m->for_what : m->watch;
    }
    for (size_t i = 0; i < plan->action_count; i++)
        if (plan->actions[i].own || plan->actions[i].hers)
            return plan->actions[i].own ? plan->actions[i].own : plan->actions[i].hers;
    for (size_t i = 0; i < plan->finding_count; i++)
        if (plan->findings[i].note)
            return plan->findings[i].note;
    return plan->message;
}
