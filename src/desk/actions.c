/* Signing (what `baskleaf approve` does) and printing, for the version that the page shows. */
#include <string.h>

#include "deliver/printer.h"
#include "deliver/sheet.h"
#include "deliver/sign.h"
#include "desk/handlers.h"
#include "desk/journal.h"

/* The signed text, or a refusal. */
static bool sign(struct answer *answer, const struct opened *opened, const char *by,
                 struct bytes *out)
{
    struct desk *desk = answer->desk;
    const struct care_plan *plan =
        opened->tree ? answer_plan(answer, opened->name, opened->tree) : NULL;
    struct approval_digests shared, digests;
    const struct signing signing = {by, desk_today(desk), &digests};
    return plan &&
           approval_read_shared(&desk->shared->resources, answer->arena, &answer->diag, &shared) &&
           approval_digest(plan, &shared, answer->arena, &answer->diag, &digests) &&
           sign_text(opened->name, opened->text, "visit", &signing, answer->arena, &answer->diag,
                     out);
}

static void tell(struct answer *answer, const char *name, struct bytes text)
{
    char version[STORE_VERSION_BYTES];
    store_version(text, version);
    json_open_object(&answer->json);
    json_key_text(&answer->json, "name", name);
    json_key_text(&answer->json, "version", version);
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
    if (store_save(&desk->store, opened.name, opened.version, text, false, answer->arena,
                   &answer->diag, &kept) != STORE_SAVED) {
        answer_refuse_faults(answer, 500, "not-saved", NULL);
        return;
    }
    char version[STORE_VERSION_BYTES];
    store_version(text, version);
    journal_write(store_log_path(&desk->store, opened.name, answer->arena), desk->settings.clock(),
                  "signed", by, version, "", &answer->diag);
    tell(answer, opened.name, text);
}

/* ---- print ------------------------------------------------------------------------------------
 */

/* The sheet as it may leave the house, on the printer's paper; false with the reason in the
 * answer's diag. */
static bool make_sheet(struct answer *answer, const struct care_plan *plan,
                       const struct approval *approval, const struct printer *printer,
                       struct printer_job *job)
{
    const char *paper = printer_paper(printer);
    const struct sheet_wishes wishes = {.paper = paper};
    *job = (struct printer_job){
        .title = sheet_file_name(plan, answer->arena),
        .paper = paper ? paper : bind_choice_word(paper_choices, plan->clinic->paper.value),
        .copies = 1,
    };
    return sheet_write(&answer->desk->shared->press, plan, &wishes, approval, answer->arena,
                       &answer->diag, &job->pdf);
}

/* To the default printer. Refuses the answer when that fails. */
static bool print_record(struct answer *answer, const struct opened *opened)
{
    struct approval approval;
    struct printer_job job;
    int number;
    const struct care_plan *plan =
        opened->tree ? answer_plan(answer, opened->name, opened->tree) : NULL;
    if (!plan ||
        !press_approval(&answer->desk->shared->press, plan, answer->arena, &answer->diag,
                        &approval) ||
        !approval_may_leave(&approval, opened->name, false, &answer->diag)) {
        answer_refuse_faults(answer, 422, "not-signed", opened->tree);
        return false;
    }
    struct printer *printer = printer_find(NULL, answer->arena, &answer->diag);
    bool good = printer && make_sheet(answer, plan, &approval, printer, &job) &&
                printer_print(printer, &job, answer->arena, &answer->diag, &number);
    printer_free(printer);
    if (!good)
        answer_refuse_faults(answer, 502, "not-printed", NULL);
    return good;
}

/* {name, version, who} */
void action_print(struct answer *answer)
{
    struct node *body = answer_body(answer);
    struct desk *desk = answer->desk;
    struct opened opened;
    const char *who = body ? answer_text(body, "who") : "";
    if (!body || !answer_open(answer, answer_text(body, "name"), &opened))
        return;
    if (!journal_is_name(who))
        answer_refuse(answer, 422, "who-is-missing");
    else if (strcmp(opened.version, answer_text(body, "version")) != 0)
        answer_refuse(answer, 409, "changed-meanwhile");
    else if (print_record(answer, &opened)) {
        journal_write(store_log_path(&desk->store, opened.name, answer->arena),
                      desk->settings.clock(), "printed", who, opened.version, "", &answer->diag);
        tell(answer, opened.name, opened.text);
    }
}
