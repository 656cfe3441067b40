/* Signing (what `baskleaf sign` does), printing and mailing, for the version that the page
 * shows. */
#include <string.h>

#include "mail/mail_compose.h"
#include "print/printer.h"
#include "render/render.h"
#include "signing/sign.h"
#include "desk/handlers.h"
#include "desk/journal.h"

/* The signed text, or a refusal. */
static bool sign(struct answer *answer, const struct opened *opened, const char *by,
                 struct bytes *out)
{
    struct desk *desk = answer->desk;
    const struct visit_record *record =
        opened->tree ? answer_record(answer, opened->name, opened->tree) : NULL;
    struct signature_digests shared, digests;
    const struct signing signing = {"visit", by, desk_today(desk), &digests};
    return record &&
           signature_read_shared(&desk->shared->resources, answer->arena, &answer->diag, &shared) &&
           signature_digest(record, &shared, answer->arena, &answer->diag, &digests) &&
           sign_text(opened->name, opened->text, &signing, answer->arena, &answer->diag, out);
}

static void tell(struct answer *answer, const char *name, struct bytes text, const char *event)
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
    const char *kept, *by = body ? answer_text(body, "by") : "";
    if (!body || !answer_open(answer, answer_text(body, "name"), &opened))
        return;
    if (!journal_is_name(by)) {
        answer_refuse(answer, 422, "veterinarian-is-missing");
        return;
    }
    if (strcmp(opened.version, answer_text(body, "version")) != 0) {
        answer_refuse(answer, 409, "changed-meanwhile");
        return;
    }
    if (!sign(answer, &opened, by, &text)) {
        answer_refuse_faults(answer, 422, "faults", opened.tree);
        return;
    }
    struct desk *desk = answer->desk;
    const struct store_saving saving = {opened.name, opened.version, text, false};
    if (store_save(&desk->store, &saving, answer->arena, &answer->diag, &kept) != STORE_SAVED) {
        answer_refuse_faults(answer, 500, "not-saved", NULL);
        return;
    }
    char version[STORE_VERSION_BYTES];
    store_version(text, version);
    const struct journal_line line = {desk->settings.clock(), "signed", by, version, NULL};
    journal_write(store_log_path(&desk->store, opened.name, answer->arena), &line, &answer->diag);
    tell(answer, opened.name, text, "signed");
}

/* ---- print ------------------------------------------------------------------------------------
 */

/* The sheet as it may leave the house, on the printer's paper; false with the reason in the
 * answer's diag. */
static bool make_sheet(struct answer *answer, const struct care_plan *plan,
                       const struct signature *signature, const struct printer *printer,
                       struct printer_job *job)
{
    const char *paper = printer_paper(printer);
    const struct sheet_options sheet_options = {.paper = paper};
    *job = (struct printer_job){
        .title = sheet_file_name(plan, answer->arena),
        .paper = paper ? paper : bind_choice_word(paper_choices, (int)plan->clinic.paper),
        .copies = 1,
    };
    const struct sheet_inputs in = {&answer->desk->shared->sheet_context, plan, &sheet_options,
                                    signature};
    return sheet_write(&in, answer->arena, &answer->diag, &job->pdf);
}

/* The plan of a sheet that may leave the house; else a refusal. */
static const struct care_plan *plan_to_leave(struct answer *answer, const struct opened *opened,
                                             struct signature *signature)
{
    const struct visit_record *record =
        opened->tree ? answer_record(answer, opened->name, opened->tree) : NULL;
    if (record &&
        sheet_context_signature(&answer->desk->shared->sheet_context, record, answer->arena,
                                &answer->diag, signature) &&
        signature_may_leave(signature, opened->name, false, &answer->diag))
        return record->plan;
    answer_refuse_faults(answer, 422, "not-signed", opened->tree);
    return NULL;
}

/* To the default printer. Refuses the answer when that fails. */
static bool print_record(struct answer *answer, const struct opened *opened)
{
    struct signature signature;
    struct printer_job job;
    int number;
    const struct care_plan *plan = plan_to_leave(answer, opened, &signature);
    if (!plan)
        return false;
    struct printer *printer = printer_find(NULL, answer->arena, &answer->diag);
    bool good = printer && make_sheet(answer, plan, &signature, printer, &job) &&
                printer_print(printer, &job, answer->arena, &answer->diag, &number);
    printer_free(printer);
    if (!good)
        answer_refuse_faults(answer, 502, "not-printed", NULL);
    return good;
}

/* ---- mail -------------------------------------------------------------------------------------
 */

/* Why this version cannot be mailed, as a refusal's code; NULL when nothing speaks against it. */
static const char *reason_against_mail(const struct answer *answer, const struct care_plan *plan,
                                       struct bytes log, const char *version)
{
    if (!answer->desk->settings.mail_settings)
        return "no-mail-settings";
    if (!plan->keeper.email.text)
        return "no-mail-address";
    if (!plan->clinic.email.text)
        return "no-clinic-address";
    /* nothing is sent again by itself: it may have arrived */
    bool before = journal_has(log, "mailed", version) || journal_has(log, "maybe-mailed", version);
    return before ? "mailed-before" : NULL;
}

/* One attempt; the deed for the log, or NULL after a refusal. */
static const char *mail_record(struct answer *answer, const struct opened *opened)
{
    struct desk *desk = answer->desk;
    struct signature signature;
    struct composed_mail mail;
    const struct sheet_options sheet_options = {0};
    const struct care_plan *plan = plan_to_leave(answer, opened, &signature);
    if (!plan)
        return NULL;
    struct bytes log =
        journal_read(store_log_path(&desk->store, opened->name, answer->arena), answer->arena);
    const char *against = reason_against_mail(answer, plan, log, opened->version);
    if (against) {
        answer_refuse(answer, 422, against);
        return NULL;
    }
    enum smtp_outcome outcome = SMTP_NOT;
    const struct sheet_inputs in = {&desk->shared->sheet_context, plan, &sheet_options, &signature};
    const struct mail_wishes wishes = {NULL, desk_today(desk)};
    if (mail_compose(&in, &wishes, answer->arena, &answer->diag, &mail))
        outcome =
            mail_send(desk->settings.mail_settings, plan, &mail, answer->arena, &answer->diag);
    if (outcome == SMTP_SENT)
        return "mailed";
    if (outcome == SMTP_UNSURE)
        return "maybe-mailed";
    answer_refuse_faults(answer, 502, outcome == SMTP_LATER ? "mail-later" : "not-mailed", NULL);
    return NULL;
}

/* ---- what leaves the house --------------------------------------------------------------------
 */

static const char *print_deed(struct answer *answer, const struct opened *opened)
{
    return print_record(answer, opened) ? "printed" : NULL;
}

/* {name, version, who} -> the same, and `deed`: what stands in the log. */
static void hand_over(struct answer *answer,
                      const char *(*do_it)(struct answer *, const struct opened *))
{
    struct node *body = answer_body(answer);
    struct desk *desk = answer->desk;
    struct opened opened;
    const char *who = body ? answer_text(body, "who") : "";
    if (!body || !answer_open(answer, answer_text(body, "name"), &opened))
        return;
    if (!journal_is_name(who)) {
        answer_refuse(answer, 422, "who-is-missing");
        return;
    }
    if (strcmp(opened.version, answer_text(body, "version")) != 0) {
        answer_refuse(answer, 409, "changed-meanwhile");
        return;
    }
    const char *event = do_it(answer, &opened);
    if (!event)
        return;
    const struct journal_line line = {desk->settings.clock(), event, who, opened.version, NULL};
    journal_write(store_log_path(&desk->store, opened.name, answer->arena), &line, &answer->diag);
    tell(answer, opened.name, opened.text, event);
}

void action_print(struct answer *answer)
{
    hand_over(answer, print_deed);
}

void action_mail(struct answer *answer)
{
    hand_over(answer, mail_record);
}
