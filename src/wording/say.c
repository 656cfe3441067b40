#include "wording/say.h"

#include "wording/slots.h"

struct speech_source {
    struct slot_source source;
    const struct speech *speech;
};

static bool find_slot(const struct slot_source *self, const char *name, struct slot_value *out)
{
    return slots_find(((const struct speech_source *)self)->speech, name, out);
}

static const char *fill(const struct speech *speech, const struct wording_entry *entry,
                        const char **missing)
{
    struct speech_source slots = {{find_slot}, speech};
    return catalogue_fill(entry, &slots.source, speech->format.arena, missing);
}

const char *say(const struct speech *speech, const char *key)
{
    const struct format *f = &speech->format;
    const struct wording_entry *entry = catalogue_find(f->words, key);
    if (!entry) {
        diag_report(f->diag, DIAG_ERROR, "no-wording", (struct mark){.file = f->words->folder},
                    "'%s' is not worded in the language '%s'", key, f->words->lang);
        return arena_copy_text(f->arena, key);
    }
    const char *missing = NULL;
    const char *text = fill(speech, entry, &missing);
    if (text)
        return text;
    diag_report(f->diag, DIAG_ERROR, "unknown-slot", entry->at,
                "'%s' cannot be said: {%s} has no value for this animal; add an alternative that "
                "does without it",
                key, missing);
    return arena_copy_text(f->arena, key);
}

const char *say_code(const struct speech *speech, const char *family, const char *code)
{
    return say(speech, arena_format(speech->format.arena, "%s.%s", family, code));
}

const char *say_part(const struct speech *speech, const char *family, const char *code,
                     const char *part)
{
    return say(speech, arena_format(speech->format.arena, "%s.%s.%s", family, code, part));
}

const char *say_if_worded(const struct speech *speech, const char *key)
{
    return catalogue_find(speech->format.words, key) ? say(speech, key) : NULL;
}

const char *say_if_known(const struct speech *speech, const char *key)
{
    const struct wording_entry *entry = catalogue_find(speech->format.words, key);
    return entry ? fill(speech, entry, NULL) : say(speech, key);
}

static const char *joined(const struct speech *speech, const char *const *phrases, size_t count,
                          const char *last_key)
{
    if (count == 0)
        return NULL;
    const char *text = phrases[0];
    for (size_t i = 1; i < count; i++) {
        const struct named_value values[] = {{"first", {.text = text}},
                                             {"second", {.text = phrases[i]}}};
        text = format_pattern(&speech->format, i + 1 < count ? "sheet.list-more" : last_key, values,
                              2);
    }
    return text;
}

const char *say_any_of(const struct speech *speech, const char *const *phrases, size_t count)
{
    return joined(speech, phrases, count, "sheet.list-or");
}

const char *say_all_of(const struct speech *speech, const char *const *phrases, size_t count)
{
    return joined(speech, phrases, count, "sheet.list-and");
}
