/* Fills a sentence's slots from a plan; joins phrases with commas and "and" or "or". */
#include "words/phrase.h"

#include <stdint.h>
#include <string.h>

#include "words/sound.h"

struct phrase_slots {
    struct slot_source source;
    const struct phrase_context *ctx;
    const char *key; /* that was declared */
};

/* Is a sign that the text speaks of one to go at once for in this animal? */
static bool calls_now(const struct phrase_context *ctx, const char *key)
{
    size_t place = ctx->plan ? plan_instruction_place(ctx->plan, key) : SIZE_MAX;
    return place != SIZE_MAX && ctx->plan->texts[place].calls_now;
}

/* {go-now} has a value where a sign of the text is one to go at once for. */
static bool find_slot(const struct slot_source *self, const char *name, struct slot_value *out)
{
    const struct phrase_slots *slots = (const struct phrase_slots *)self;
    if (strcmp(name, "go-now") == 0 && calls_now(slots->ctx, slots->key)) {
        *out = (struct slot_value){.text = phrase(slots->ctx, "sheet.found.go-now")};
        return true;
    }
    return slots->ctx->find_slot(slots->ctx, name, out);
}

/* The key is the declared one, which may be another than the entry's. */
static const char *fill(const struct phrase_context *ctx, const char *key,
                        const struct wording_entry *entry, const char **missing)
{
    const struct phrase_slots slots = {{find_slot}, ctx, key};
    return catalogue_fill(ctx->format.words, entry, &slots.source, ctx->format.arena, missing);
}

/* The key that the plan lets stand for it; NULL where nothing of it agrees with the plan. */
static const char *printed(const struct phrase_context *ctx, const char *key)
{
    return ctx->plan ? plan_printed_key(ctx->plan, key, ctx->format.arena) : key;
}

static const char *fill_or_report(const struct phrase_context *ctx, const char *declared,
                                  const char *key)
{
    const struct format *f = &ctx->format;
    const struct wording_entry *entry = catalogue_find(f->words, key);
    if (!entry) {
        diag_report(f->diag, DIAG_ERROR, "no-wording", (struct mark){.file = f->words->folder},
                    "'%s' is not worded in the language '%s'", key, f->words->lang);
        return arena_copy_text(f->arena, key);
    }
    const char *missing = NULL;
    const char *text = fill(ctx, declared, entry, &missing);
    if (text)
        return text;
    diag_report(f->diag, DIAG_ERROR, "unknown-slot", entry->at,
                "'%s' cannot be said: {%s} has no value for this animal; add an alternative that "
                "does without it",
                key, missing);
    return arena_copy_text(f->arena, key);
}

/* Keeps the text under its declared key, which may be another than the one that was printed. */
static const char *keep(const struct phrase_context *ctx, const char *key, const char *text)
{
    if (!ctx->said || !ctx->plan || !text || !*text)
        return text;
    size_t place = plan_instruction_place(ctx->plan, key);
    if (place == SIZE_MAX)
        return text;
    struct said_text *said = ARENA_NEW(ctx->format.arena, struct said_text);
    *said = (struct said_text){place, text, ctx->said->last};
    ctx->said->last = said;
    return text;
}

const char *phrase(const struct phrase_context *ctx, const char *key)
{
    const char *said = printed(ctx, key);
    return said ? keep(ctx, key, fill_or_report(ctx, key, said)) : "";
}

const char *phrase_named(const struct phrase_context *ctx, const char *key)
{
    const char *said = printed(ctx, key);
    return said ? phrase(ctx, key) : fill_or_report(ctx, key, key);
}

const char *phrase_code(const struct phrase_context *ctx, const char *family, const char *code)
{
    return phrase(ctx, arena_format(ctx->format.arena, "%s.%s", family, code));
}

const char *phrase_part(const struct phrase_context *ctx, const char *family, const char *code,
                        const char *part)
{
    return phrase(ctx, arena_format(ctx->format.arena, "%s.%s.%s", family, code, part));
}

const char *phrase_stance(const struct phrase_context *ctx, const char *topic, const char *stance)
{
    struct arena *arena = ctx->format.arena;
    const char *part = strchr(topic, '.');
    const char *said =
        phrase_if_worded(ctx, arena_format(arena, "desk.stance.%s.%s", topic, stance));
    if (!said && part)
        said = phrase_if_worded(
            ctx, arena_format(arena, "desk.stance.%.*s.%s", (int)(part - topic), topic, stance));
    return said ? said : phrase_code(ctx, "desk.stance", stance);
}

const char *phrase_if_worded(const struct phrase_context *ctx, const char *key)
{
    const char *said = printed(ctx, key);
    return said && catalogue_find(ctx->format.words, said)
               ? keep(ctx, key, fill_or_report(ctx, key, said))
               : NULL;
}

const char *phrase_if_known(const struct phrase_context *ctx, const char *key)
{
    const char *said = printed(ctx, key);
    if (!said)
        return NULL;
    const struct wording_entry *entry = catalogue_find(ctx->format.words, said);
    return keep(ctx, key, entry ? fill(ctx, key, entry, NULL) : fill_or_report(ctx, key, said));
}

static const char *join_phrases(const struct phrase_context *ctx, const char *const *phrases,
                                size_t count, const char *last_key)
{
    if (count == 0)
        return NULL;
    const char *text = phrases[0];
    for (size_t i = 1; i < count; i++) {
        const struct named_value values[] = {{"first", {.text = text}},
                                             {"second", {.text = phrases[i]}}};
        text =
            format_pattern(&ctx->format, i + 1 < count ? "sheet.list-more" : last_key, values, 2);
        text = sound_joined(ctx->format.words->language, text, phrases[i], ctx->format.arena);
    }
    return text;
}

const char *phrase_any_of(const struct phrase_context *ctx, const char *const *phrases,
                          size_t count)
{
    return join_phrases(ctx, phrases, count, "sheet.list-or");
}

const char *phrase_all_of(const struct phrase_context *ctx, const char *const *phrases,
                          size_t count)
{
    return join_phrases(ctx, phrases, count, "sheet.list-and");
}
