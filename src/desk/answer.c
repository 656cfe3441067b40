/* What the answers to requests share: refusing, the body of a request, a record and its plan. */
#include "desk/answer.h"

#include "desk/faults.h"
#include "desk/journal.h"

struct date desk_today(const struct desk *desk)
{
    return desk->settings.today.year ? desk->settings.today : desk->settings.day();
}

/* ---- words
 * -------------------------------------------------------------------------------------------- */

static bool no_slot(const struct slot_source *self, const char *name, struct slot_value *out)
{
    (void)self;
    (void)name;
    (void)out;
    return false;
}

const char *desk_word(const struct wording *words, const char *key, struct arena *arena)
{
    static const struct slot_source nothing = {no_slot};
    const struct wording_entry *entry = catalogue_find(words, key);
    return entry ? catalogue_fill(words, entry, &nothing, arena, NULL) : NULL;
}

/* ---- the parts of an answer
 * ----------------------------------------------------------------------------- */

void answer_finish(struct answer *answer, int status)
{
    answer->reply->status = status;
    answer->reply->type = "application/json; charset=utf-8";
    answer->reply->body = (struct bytes){answer->text.text, answer->text.length};
}

void answer_start(struct answer *answer)
{
    strbuf_init(&answer->text, answer->arena);
    json_init(&answer->json, &answer->text);
}

void answer_refuse_faults(struct answer *answer, int status, const char *code,
                          const struct node *tree)
{
    answer_start(answer);
    json_open_object(&answer->json);
    json_key_text(&answer->json, "error", code);
    json_key(&answer->json, "faults");
    faults_write_json(&answer->diag, tree, answer->words, answer->arena, &answer->json);
    json_close_object(&answer->json);
    answer_finish(answer, status);
}

void answer_refuse(struct answer *answer, int status, const char *code)
{
    answer_refuse_faults(answer, status, code, NULL);
}

struct node *answer_body(struct answer *answer)
{
    struct bytes body = answer->request->body;
    struct node *tree =
        body.length ? tree_read_bytes("request", body, answer->arena, &answer->diag) : NULL;
    if (tree && tree->kind == NODE_MAP)
        return tree;
    answer_refuse(answer, 400, "not-understood");
    return NULL;
}

const char *answer_text(const struct node *body, const char *key)
{
    const struct node *node = tree_find(body, key);
    return node && node->kind == NODE_SCALAR ? node->text : "";
}

const char *answer_who(struct answer *answer, const struct node *body)
{
    const char *who = answer->person ? answer->person->name : answer_text(body, "who");
    if (journal_is_name(who))
        return who;
    answer_refuse(answer, 422, "who-is-missing");
    return NULL;
}

const char *answer_signer(struct answer *answer, const struct node *body)
{
    const char *by = answer->person ? answer->person->name : answer_text(body, "by");
    if (answer->person && answer->person->role != ROLE_VETERINARIAN)
        answer_refuse(answer, 403, "not-a-veterinarian");
    else if (!journal_is_signer(by))
        answer_refuse(answer, 422, "veterinarian-is-missing");
    else
        return by;
    return NULL;
}

const struct visit_record *answer_record(struct answer *answer, const char *name,
                                         const struct node *tree)
{
    const struct desk *desk = answer->desk;
    const struct visit *visit =
        visit_read_tree(tree, name, desk_today(desk), answer->arena, &answer->diag);
    return visit && sheet_context_can_draw(&desk->shared->sheet_context, visit->tree, &answer->diag)
               ? visit_plan_make(&desk->shared->resources, visit, answer->arena, &answer->diag)
               : NULL;
}

bool answer_open(struct answer *answer, const char *name, struct opened *out)
{
    if (!name ||
        !store_read(&answer->desk->store, name, answer->arena, &answer->diag, &out->text)) {
        answer_refuse(answer, 404, "no-record");
        return false;
    }
    out->name = name;
    store_version(out->text, out->version);
    out->tree = tree_read_bytes(name, out->text, answer->arena, &answer->diag);
    return true;
}
