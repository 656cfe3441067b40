/* Signing (what `baskleaf approve` does), printing and mailing, for the version that the page
 * shows. */
#include <stdlib.h>
#include <string.h>

#include "mail/mail_compose.h"
#include "render/render.h"
#include "signing/sign.h"
#include "desk/handlers.h"
#include "desk/journal.h"
#include "desk/queue.h"

/* The signed text, or a refusal. */
static bool sign(struct answer *answer, const struct opened *opened, const char *by,
                 struct bytes *out)
{
    struct desk *desk = answer->desk;
    const struct visit_record *record =
        opened->tree ? answer_record(answer, opened->name, opened->tree) : NULL;
    struct signature_digests shared, digests;
    const struct signing signing = {"visit", by, desk_today(desk), &digests};
    const struct sheet_context *context = &desk->shared->sheet_context;
    return record && clinic_may_sign(desk->shared->resources.clinic, &answer->diag) &&
           signature_read_shared(&desk->shared->resources, context->fonts, answer->arena,
                                 &answer->diag, &shared) &&
           signature_digest(record, &shared, answer->arena, &answer->diag, &digests) &&
           sign_text(opened->name, opened->text, &signing, answer->arena, &answer->diag, out);
}

static void answer_version(struct answer *answer, const char *name, struct bytes text,
                           const char *event)
{
    char version[STORE_VERSION_BYTES];
    store_version(text, version);
    json_open_object(&answer->json);
    json_key_text(&answer->json, "name", name);
    json_key_text(&answer->json, "version", version);
    json_key_text(&answer->json, "deed", event);
    json_close_object(&answer->json);
}

/* {name, version, by} */
void action_sign(struct answer *answer)
{
    struct node *body = answer_body(answer);
    struct opened opened;
    struct bytes text;
    const char *kept, *by;
    if (!body || !answer_open(answer, answer_text(body, "name"), &opened))
        return;
    if (!(by = answer_signer(answer, body)))
        return;
    if (strcmp(opened.version, answer_text(body, "version")) != 0) {
        answer_refuse(answer, 409, "changed-meanwhile");
        return;
    }
    if (!sign(answer, &opened, by, &text)) {
        answer_refuse_faults(answer, 422, "faults", opened.tree);
        return;
    }
    struct desk *desk = answer->desk;
    const char *log = store_log_path(&desk->store, opened.name, answer->arena);
    if (!journal_is_open(log, &answer->diag)) {
        answer_refuse_faults(answer, 500, "not-logged", NULL);
        return;
    }
    const struct store_saving saving = {opened.name, opened.version, text, false};
    if (store_save(&desk->store, &saving, answer->arena, &answer->diag, &kept) != STORE_SAVED) {
        answer_refuse_faults(answer, 500, "not-saved", NULL);
        return;
    }
    char version[STORE_VERSION_BYTES];
    store_version(text, version);
    const struct journal_line line = {desk->settings.clock(), "signed", by, version, NULL};
    journal_write(log, &line, &answer->diag);
    answer_version(answer, opened.name, text, "signed");
}

/* ---- what leaves the house --------------------------------------------------------------------
 */

/* A request to hand a signed sheet out, checked. */
struct handing {
    const struct node *body;
    struct opened opened;
    const char *who, *log;
    const struct care_plan *plan;
    struct signature signature;
};

/* The plan of a sheet that may leave the house; else a refusal. */
static bool plan_to_leave(struct answer *answer, struct handing *out)
{
    const struct opened *opened = &out->opened;
    const struct visit_record *record =
        opened->tree ? answer_record(answer, opened->name, opened->tree) : NULL;
    out->plan = record ? record->plan : NULL;
    if (record &&
        sheet_context_signature(&answer->desk->shared->sheet_context, record, NULL, answer->arena,
                                &answer->diag, &out->signature) &&
        signature_may_leave(&out->signature, opened->name, false, &answer->diag))
        return true;
    answer_refuse_faults(answer, 422, "not-signed", opened->tree);
    return false;
}

/* {name, version, who}; false after a refusal. What cannot be logged is not handed out. */
static bool read_handing(struct answer *answer, struct handing *out)
{
    out->body = answer_body(answer);
    if (!out->body || !answer_open(answer, answer_text(out->body, "name"), &out->opened) ||
        !(out->who = answer_who(answer, out->body)))
        return false;
    if (strcmp(out->opened.version, answer_text(out->body, "version")) != 0) {
        answer_refuse(answer, 409, "changed-meanwhile");
        return false;
    }
    out->log = store_log_path(&answer->desk->store, out->opened.name, answer->arena);
    if (!plan_to_leave(answer, out))
        return false;
    if (journal_is_open(out->log, &answer->diag))
        return true;
    answer_refuse_faults(answer, 500, "not-logged", NULL);
    return false;
}

static void queue_up(struct answer *answer, const struct handing *handing, struct job_order *order,
                     const char *event)
{
    order->record = handing->opened.name;
    order->version = handing->opened.version;
    order->who = handing->who;
    order->log = handing->log;
    if (queue_add(answer->desk->queue, order))
        answer_version(answer, handing->opened.name, handing->opened.text, event);
    else
        answer_refuse(answer, 409, "under-way");
}

enum { COPIES_MOST = 9 };

/* {..., copies}: one where nothing is said; 0 after a refusal. */
static int read_copies(struct answer *answer, const struct node *body)
{
    const char *text = answer_text(body, "copies");
    long copies = *text ? strtol(text, NULL, 10) : 1;
    if (copies >= 1 && copies <= COPIES_MOST)
        return (int)copies;
    answer_refuse(answer, 400, "not-understood");
    return 0;
}

/* {name, version, who, printer, copies}: on the printer's paper, as far as it is known by now. */
void action_print(struct answer *answer)
{
    struct handing handing;
    struct desk *desk = answer->desk;
    if (!read_handing(answer, &handing))
        return;
    int copies = read_copies(answer, handing.body);
    if (!copies)
        return;
    const char *printer = answer_text(handing.body, "printer");
    printer = *printer ? printer : NULL;
    const char *paper = queue_paper_of(desk->queue, printer);
    const struct sheet_options options = {.paper = paper};
    const struct clinic *clinic = desk->shared->resources.clinic;
    struct job_order order = {
        .kind = JOB_PRINT,
        .printer = printer,
        .title = sheet_file_name(handing.plan, answer->arena),
        .paper = paper ? paper : bind_choice_word(paper_choices, clinic->paper.value),
        .copies = copies,
    };
    const struct sheet_inputs in = {&desk->shared->sheet_context, handing.plan, &options,
                                    &handing.signature};
    if (sheet_write(&in, answer->arena, &answer->diag, &order.body))
        queue_up(answer, &handing, &order, "printing");
    else
        answer_refuse_faults(answer, 422, "faults", NULL);
}

/* {name, version, who}: somebody printed the sheet without the desk, by the browser for example. */
void action_printed_by_hand(struct answer *answer)
{
    struct handing handing;
    if (!read_handing(answer, &handing))
        return;
    const struct journal_line line = {answer->desk->settings.clock(), "printed-by-hand",
                                      handing.who, handing.opened.version, NULL};
    if (journal_write(handing.log, &line, &answer->diag))
        answer_version(answer, handing.opened.name, handing.opened.text, "printed-by-hand");
    else
        answer_refuse_faults(answer, 500, "not-logged", NULL);
}

/* Why this version cannot be mailed, as a refusal's code; NULL when nothing speaks against it. */
static const char *reason_against_mail(const struct answer *answer, const struct handing *handing,
                                       const char *to)
{
    struct desk *desk = answer->desk;
    if (!desk->settings.mail_settings)
        return "no-mail-settings";
    if (!*to)
        return "no-mail-address";
    if (!desk->shared->resources.clinic->email.text)
        return "no-clinic-address";
    if (queue_is_busy(desk->queue, JOB_MAIL, handing->opened.name))
        return "under-way";
    /* nothing is sent again by itself: it may have arrived */
    enum visit_state state =
        list_state_of_log(desk, handing->opened.name, handing->opened.version, answer->arena);
    return state == STATE_MAILED || state == STATE_MAYBE_MAILED ? "mailed-before" : NULL;
}

/* {name, version, who} */
void action_mail(struct answer *answer)
{
    struct handing handing;
    struct composed_mail mail;
    struct desk *desk = answer->desk;
    const struct sheet_options options = {0};
    if (!read_handing(answer, &handing))
        return;
    const struct node *keeper = tree_find(handing.opened.tree, "keeper");
    const char *to = keeper ? answer_text(keeper, "email") : "";
    const char *against = reason_against_mail(answer, &handing, to);
    if (against) {
        answer_refuse(answer, 422, against);
        return;
    }
    const struct sheet_inputs in = {&desk->shared->sheet_context, handing.plan, &options,
                                    &handing.signature};
    const struct mail_options mailing = {NULL, desk_today(desk)};
    if (!mail_compose(&in, &mailing, answer->arena, &answer->diag, &mail)) {
        answer_refuse_faults(answer, 422, "faults", NULL);
        return;
    }
    struct job_order order = {
        .kind = JOB_MAIL,
        .body = mail.message,
        .settings = desk->settings.mail_settings,
        .from = desk->shared->resources.clinic->email.text,
        .to = to,
    };
    queue_up(answer, &handing, &order, "mailing");
}
