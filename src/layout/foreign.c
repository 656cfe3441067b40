/* Parts spans where a text in another language begins or ends. */
#include "layout/foreign.h"

#include <string.h>

/* The first foreign text in `text`, the longest where two begin alike; NULL for none. */
static const char *find_first(const struct document *document, const char *text,
                              const struct foreign_text **out)
{
    const char *first = NULL;
    for (size_t i = 0; i < document->foreign_count; i++) {
        const struct foreign_text *one = &document->foreign[i];
        const char *at = strstr(text, one->text);
        bool longer = at && at == first && strlen(one->text) > strlen((*out)->text);
        if (at && (!first || at < first || longer)) {
            first = at;
            *out = one;
        }
    }
    return first;
}

static struct span *add(struct span ***link, const struct span *like, struct arena *arena)
{
    struct span *span = ARENA_NEW(arena, struct span);
    *span = *like;
    span->next = NULL;
    **link = span;
    *link = &span->next;
    return span;
}

static void part_one(const struct document *document, const struct span *span, struct arena *arena,
                     struct span ***link)
{
    const struct foreign_text *found = NULL;
    const char *text = span->text, *at;
    while (!span->lang && (at = find_first(document, text, &found)) != NULL) {
        if (at > text)
            add(link, span, arena)->text = arena_copy_bytes(arena, text, (size_t)(at - text));
        struct span *own = add(link, span, arena);
        own->text = found->text;
        own->lang = found->lang;
        text = at + strlen(found->text);
    }
    if (*text || text == span->text)
        add(link, span, arena)->text = text;
}

const struct span *foreign_part(const struct document *document, const struct span *spans,
                                struct arena *arena)
{
    const struct foreign_text *found = NULL;
    bool any = false;
    for (const struct span *span = spans; span && document->foreign_count > 0; span = span->next)
        any = any || (!span->lang && find_first(document, span->text, &found));
    if (!any)
        return spans;
    struct span *first = NULL, **link = &first;
    for (; spans; spans = spans->next)
        part_one(document, spans, arena, &link);
    return first;
}
