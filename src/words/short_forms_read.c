/* Reads the short forms of a language from its wording. */
#include "words/short_forms_read.h"

#include <string.h>

enum { MONTHS = 12, WEEKDAYS = 7 };

struct collecting {
    const struct phrase_context *ctx;
    struct arena *arena;
    struct short_form *forms;
    size_t count;
};

static void add_listed(struct collecting *c, const char *code)
{
    const char *one = arena_format(c->arena, WORDING_SHORT "%s.one", code);
    bool is_unit = catalogue_find(c->ctx->format.words, one) != NULL;
    c->forms[c->count++] = (struct short_form){
        .text = phrase(c->ctx, arena_format(c->arena, WORDING_SHORT "%s" WORDING_SHORT_LAST, code)),
        .means = phrase(c->ctx, arena_format(c->arena, WORDING_SHORT "%s.means", code)),
        .means_one = is_unit ? phrase(c->ctx, one) : NULL,
        .place = is_unit ? SHORT_BEHIND_NUMBER : SHORT_ANYWHERE};
}

/* "mar" is a month behind a number and a weekday before one. */
static void add_names(struct collecting *c, const char *what, int count, enum short_place place)
{
    for (int i = 1; i <= count; i++) {
        const char *means = phrase(c->ctx, arena_format(c->arena, "%s.%d", what, i));
        const char *text = phrase(c->ctx, arena_format(c->arena, "%s.%d.short", what, i));
        if (strcmp(text, means) != 0)
            c->forms[c->count++] =
                (struct short_form){.text = text, .means = means, .place = place};
    }
}

void short_forms_set(const struct phrase_context *ctx, struct document *document)
{
    const struct wording *words = ctx->format.words;
    struct arena *arena = ctx->format.arena;
    struct collecting c = {.ctx = ctx, .arena = arena};
    c.forms = ARENA_ARRAY(arena, struct short_form, words->short_forms.count + MONTHS + WEEKDAYS);
    for (size_t i = 0; i < words->short_forms.count; i++) {
        const char *key = words->short_forms.entries[i]->key;
        size_t length = catalogue_code_length(key, WORDING_SHORT, WORDING_SHORT_LAST);
        add_listed(&c, arena_copy_bytes(arena, key + strlen(WORDING_SHORT), length));
    }
    add_names(&c, "month", MONTHS, SHORT_BEHIND_NUMBER);
    add_names(&c, "weekday", WEEKDAYS, SHORT_BEFORE_NUMBER);
    document->short_forms = c.forms;
    document->short_form_count = c.count;
}
