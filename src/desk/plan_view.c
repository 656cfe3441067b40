/* The plan beside the form, and the sheet itself. */
#include <string.h>

#include "render/render.h"
#include "desk/handlers.h"
#include "yaml/record_text.h"
#include "sheet/compose.h"
#include "words/phrase.h"
#include "words/slots.h"

/* ---- what the sheet will say
 * ---------------------------------------------------------------------------- */

static void write_part(struct json *j, const struct phrase_context *ctx, const char *code,
                       const char *part)
{
    const char *key = arena_format(ctx->format.arena, "action.%s.%s", code, part);
    json_key_text(j, part, phrase_if_worded(ctx, key));
}

static void write_reasons(struct json *j, const struct phrase_context *ctx,
                          const struct action *action)
{
    json_key(j, "why");
    json_open_list(j);
    for (const struct action_reason *reason = action->reasons; reason; reason = reason->next) {
        bool is_listed = false;
        for (const struct action_reason *r = action->reasons; r != reason; r = r->next)
            is_listed = is_listed || strcmp(r->rule, reason->rule) == 0;
        if (!is_listed)
            json_text(j, phrase_code(ctx, "why", reason->rule));
    }
    json_close_list(j);
}

static void write_actions(struct json *j, const struct phrase_context *ctx, const char *key,
                          bool first)
{
    const struct care_plan *plan = ctx->plan;
    json_key(j, key);
    json_open_list(j);
    for (size_t i = 0; i < plan->action_count; i++) {
        const struct action *action = &plan->actions[i];
        if (action->is_first != first)
            continue;
        json_open_object(j);
        json_key_text(j, "code", action->code);
        json_key_text(j, "own", action->own);
        if (action->own)
            json_key_text(j, "do", action->own);
        else
            write_part(j, ctx, action->words, "do");
        write_part(j, ctx, action->words, "how");
        write_reasons(j, ctx, action);
        json_close_object(j);
    }
    json_close_list(j);
}

/* Those that the veterinarian left out, so that they can be put back. */
static void write_struck(struct json *j, const struct phrase_context *ctx, const struct node *tree)
{
    const struct node *decisions = tree_find(tree, "decisions");
    json_key(j, "struck");
    json_open_list(j);
    for (size_t i = 0; decisions && i < decisions->count; i++) {
        const char *code = answer_text(decisions->items[i], "action");
        if (!*code || strcmp(answer_text(decisions->items[i], "strike"), "yes") != 0)
            continue;
        json_open_object(j);
        json_key_text(j, "code", code);
        write_part(j, ctx, code, "do");
        json_close_object(j);
    }
    json_close_list(j);
}

/* Why the settlement holds that a line of the review is about; NULL where it is about none. */
static const char *settlement_words(const struct phrase_context *ctx, const struct review *r)
{
    for (const struct plan_fact *fact = r->facts; fact; fact = fact->next)
        if (strcmp(fact->name, "settlement") == 0)
            return phrase_if_worded(
                ctx, arena_format(ctx->format.arena, "desk.settlement.%s", fact->text));
    return NULL;
}

/* The same sentence: of one code, which may name topics of its own. */
static bool is_said_so(const struct review *one, const struct review *other)
{
    const struct plan_fact *a = one->facts, *b = other->facts;
    bool names = a && b && a->kind == FACT_CODE && b->kind == FACT_CODE;
    return strcmp(one->code, other->code) == 0 && (!names || strcmp(a->text, b->text) == 0);
}

static void write_reviews(struct json *j, const struct phrase_context *ctx, const char *key,
                          bool missing)
{
    json_key(j, key);
    json_open_list(j);
    for (const struct review *r = ctx->plan->review; r; r = r->next) {
        if ((r->kind == REVIEW_MISSING) != missing)
            continue;
        const char *why = settlement_words(ctx, r);
        bool is_listed = false;
        for (const struct review *before = ctx->plan->review; before != r && !why;
             before = before->next)
            is_listed = is_listed || is_said_so(before, r);
        if (is_listed)
            continue;
        struct phrase_context own = *ctx;
        own.facts = r->facts;
        const char *said = phrase_code(&own, "review", r->code);
        json_text(j, why ? arena_format(ctx->format.arena, "%s (%s)", said, why) : said);
    }
    json_close_list(j);
}

void plan_view_write(struct answer *answer, const struct visit_record *record)
{
    const struct care_plan *plan = record ? record->plan : NULL;
    struct json *j = &answer->json;
    struct diag quiet;
    json_key(j, "plan");
    if (!plan) {
        json_null(j);
        return;
    }
    diag_init(&quiet);
    const struct phrase_context ctx = slots_context(
        (struct format){answer->words, plan->keeper.units, answer->arena, &quiet, 0, false}, plan);
    json_open_object(j);
    json_key_flag(j, "go_now", plan->go_now);
    write_actions(j, &ctx, "first", true);
    write_actions(j, &ctx, "more", false);
    write_struck(j, &ctx, record->tree);
    topics_view_write(j, &ctx);
    write_reviews(j, &ctx, "missing", true);
    write_reviews(j, &ctx, "review", false);
    json_close_object(j);
    diag_finish(&quiet);
}

/* ---- the PDF
 * -------------------------------------------------------------------------------------------- */

static void send_sheet(struct answer *answer, const struct visit_record *record, bool from_file,
                       const struct node *tree)
{
    struct sheet_context *sheet_context = &answer->desk->shared->sheet_context;
    const struct sheet_options sheet_options = {0};
    struct signature signature = {0};
    struct bytes pdf;
    if (!record ||
        (from_file && !sheet_context_signature(sheet_context, record, NULL, answer->arena,
                                               &answer->diag, &signature)) ||
        !sheet_write(
            &(struct sheet_inputs){sheet_context, record->plan, &sheet_options, &signature},
            answer->arena, &answer->diag, &pdf)) {
        answer_refuse_faults(answer, 422, "faults", tree);
        return;
    }
    *answer->reply = (struct reply){.status = 200,
                                    .type = "application/pdf",
                                    .body = pdf,
                                    .file_name = sheet_file_name(record->plan, answer->arena)};
}

/* The record as it lies in the folder: the same bytes as the command line's. */
void plan_view_sheet(struct answer *answer)
{
    struct opened opened;
    if (!answer_open(answer, request_find(answer->request, "name"), &opened))
        return;
    if (!opened.tree)
        answer_refuse_faults(answer, 422, "not-yaml", NULL);
    else
        send_sheet(answer, answer_record(answer, opened.name, opened.tree), true, opened.tree);
}

/* {record}: as typed and not saved, so always a draft. */
void plan_view_preview(struct answer *answer)
{
    struct node *body = answer_body(answer);
    struct node *record = body ? tree_find(body, "record") : NULL;
    if (!body)
        return;
    if (!record || record->kind != NODE_MAP) {
        answer_refuse(answer, 400, "not-understood");
        return;
    }
    record_prune(record);
    send_sheet(answer, answer_record(answer, "record", record), false, record);
}
