/* What holds of each topic of care, as words: from when until when, why, what gave way, and what a
 * veterinarian can put in its place. */
#include <string.h>

#include "desk/handlers.h"

/* What a cause of the plan begins with, and under which key it is worded. */
static const struct {
    const char *before, *key;
} cause_rows[] = {
    {"finding:", "finding.%s.name"},
    {"done:", "procedure.%s.name"},
    {"call:", "desk.because.%s"},
    {"settlement:", "desk.settlement.%s"},
};

/* NULL for what needs no words: the usual thing, and the veterinarian, whose reason is her own. */
static const char *cause(const struct phrase_context *ctx, const char *because)
{
    struct arena *arena = ctx->format.arena;
    for (size_t i = 0; i < sizeof cause_rows / sizeof *cause_rows; i++) {
        const size_t length = strlen(cause_rows[i].before);
        if (strncmp(because, cause_rows[i].before, length) == 0)
            return phrase_if_worded(ctx, arena_format(arena, cause_rows[i].key, because + length));
    }
    return NULL;
}

/* What a settlement was made of stands among what gave way. */
static void write_causes(struct json *j, const struct phrase_context *ctx,
                         const struct stance_phase *phase)
{
    json_key(j, "because");
    json_open_list(j);
    const char *own = cause(ctx, phase->because);
    if (own)
        json_text(j, own);
    json_close_list(j);
}

static void write_gave_way(struct json *j, const struct phrase_context *ctx, const char *topic,
                           const struct stance_phase *phase)
{
    json_key(j, "gave_way");
    json_open_list(j);
    for (size_t i = 0; i < phase->lost_count; i++) {
        const struct stance_lost *lost = &phase->lost[i];
        json_open_object(j);
        json_key_text(j, "says", phrase_stance(ctx, topic, lost->stance));
        json_key_text(j, "because", cause(ctx, lost->because));
        json_close_object(j);
    }
    json_close_list(j);
}

static void write_end(struct json *j, const struct phrase_context *ctx,
                      const struct stance_phase *phase)
{
    const bool is_dated = phase->has_until;
    const char *word = bind_choice_word(phase_end_choices, (int)phase->end_by);
    json_key_text(j, "until", is_dated ? format_date_short(&ctx->format, phase->until) : NULL);
    json_key_text(j, "ends",
                  is_dated || phase->end_by == PHASE_END_NONE ? NULL
                                                              : phrase_code(ctx, "desk.end", word));
}

static void write_phase(struct json *j, const struct phrase_context *ctx, const char *topic,
                        const struct stance_phase *phase)
{
    json_open_object(j);
    json_key_text(j, "stance", phase->stance);
    json_key_text(j, "says", phrase_stance(ctx, topic, phase->stance));
    json_key(j, "beside");
    json_open_list(j);
    for (size_t i = 0; i < phase->with_count; i++)
        json_text(j, phrase_stance(ctx, topic, phase->with[i]));
    json_close_list(j);
    json_key_text(j, "from", format_date_short(&ctx->format, phase->from));
    write_end(j, ctx, phase);
    write_causes(j, ctx, phase);
    write_gave_way(j, ctx, topic, phase);
    if (phase->decision) {
        json_key_text(j, "decided_by", ctx->plan->veterinarian);
        json_key_text(j, "reason", phase->decision->reason);
        json_key_flag(j, "confirmed", phase->decision->confirmed);
    }
    json_close_object(j);
}

static void write_choices(struct json *j, const struct phrase_context *ctx,
                          const struct topic_plan *topic)
{
    json_key(j, "choices");
    json_open_list(j);
    for (size_t i = 0; i < topic->choice_count; i++) {
        const struct stance_choice *choice = &topic->choices[i];
        json_open_object(j);
        json_key_text(j, "stance", choice->stance);
        json_key_text(j, "says", phrase_stance(ctx, topic->topic, choice->stance));
        json_key_flag(j, "needs_end", choice->needs_end);
        json_close_object(j);
    }
    json_close_list(j);
}

static bool is_usual(const struct topic_plan *topic)
{
    return topic->phase_count == 1 && topic->phases[0].with_count == 0 &&
           strcmp(topic->phases[0].because, "default") == 0;
}

void topics_view_write(struct json *j, const struct phrase_context *ctx)
{
    json_key(j, "topics");
    json_open_list(j);
    for (size_t i = 0; i < ctx->plan->topic_count; i++) {
        const struct topic_plan *topic = &ctx->plan->topics[i];
        json_open_object(j);
        json_key_text(j, "topic", topic->topic);
        json_key_text(j, "name", phrase_code(ctx, "desk.topic", topic->topic));
        json_key_flag(j, "usual", is_usual(topic));
        json_key(j, "phases");
        json_open_list(j);
        for (size_t k = 0; k < topic->phase_count; k++)
            write_phase(j, ctx, topic->topic, &topic->phases[k]);
        json_close_list(j);
        write_choices(j, ctx, topic);
        json_close_object(j);
    }
    json_close_list(j);
}
