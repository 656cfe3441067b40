/* `baskleaf mail`: a sheet as a message, kept in a file and sent where that is asked for. */
#include <string.h>

#include "mail/mail_compose.h"
#include "context/visit_plan.h"
#include "cli/command.h"

static bool make(struct run *run, struct sheet_context *sheet_context, const struct care_plan *plan,
                 const struct signature *signature, struct composed_mail *out)
{
    const char *password;
    if (!command_password(run, &password))
        return false;
    const struct sheet_options sheet_options = {.language = run->options.language,
                                                .units = run->options.units,
                                                .paper = run->options.paper,
                                                .is_locked = password != NULL};
    const struct sheet_inputs in = {sheet_context, plan, &sheet_options, signature};
    const struct mail_wishes wishes = {password, run->today};
    return mail_compose(&in, &wishes, &run->arena, &run->diag, out);
}

/* ---- sending ----------------------------------------------------------------------------------
 */

/* What became of a message stands beside its file, so that no second run sends it by itself. */
static const char *note_path(struct run *run, const char *file)
{
    return arena_format(&run->arena, "%s.sent", file);
}

static bool may_send(struct run *run, const char *file, const char *id)
{
    struct bytes note;
    const char *path = note_path(run, file);
    if (run->options.resend || !file_exists(path))
        return true;
    if (!file_read(path, FILE_LIMIT_BYTES, &run->arena, &run->diag, &note))
        return false;
    if (!strstr(note.data, id))
        return true;
    diag_report(
        &run->diag, DIAG_ERROR, "sent-before", (struct mark){.file = path},
        "this very message was sent before, or may have arrived; --resend sends it once more");
    return false;
}

static void note_outcome(struct run *run, const char *file, const char *id,
                         enum smtp_outcome outcome)
{
    char day[16];
    date_write_iso(run->today, day);
    const char *line = arena_format(&run->arena, "%s %s %s\n", day,
                                    outcome == SMTP_SENT ? "sent" : "may-have-arrived", id);
    file_write_atomic(note_path(run, file), line, strlen(line), 0640, &run->diag);
}

static void send_letter(struct run *run, const struct care_plan *plan, const char *file,
                        const struct composed_mail *mail)
{
    if (!may_send(run, file, mail->id))
        return;
    enum smtp_outcome outcome =
        mail_send(run->options.settings, plan, mail, &run->arena, &run->diag);
    if (outcome == SMTP_SENT || outcome == SMTP_UNSURE)
        note_outcome(run, file, mail->id, outcome);
}

static bool check_options(struct run *run)
{
    const char *output = run->options.output;
    const char *why = NULL;
    if (run->options.send && !run->options.settings)
        why = "--send needs --settings with the file that names the mail server";
    else if (run->options.send && output && strcmp(output, "-") == 0)
        why = "--send keeps the message in a file; -o - has none";
    if (why)
        diag_report(&run->diag, DIAG_USAGE, "usage", (struct mark){0}, "%s", why);
    return why == NULL;
}

void command_mail(struct run *run)
{
    struct resources resources;
    struct sheet_context sheet_context = {0};
    struct signature signature;
    struct composed_mail mail;
    if (!check_options(run) || !command_resources(run, &resources))
        return;
    const struct visit_record *record =
        visit_plan_read(&resources, run->words[0], run->today, &run->arena, &run->diag);
    if (!record)
        return;
    if (sheet_context_init(&sheet_context, &resources, &run->diag) &&
        sheet_context_can_draw(&sheet_context, record->tree, &run->diag) &&
        sheet_context_signature(&sheet_context, record, &run->arena, &run->diag, &signature) &&
        signature_may_leave(&signature, record->file, run->options.drafts, &run->diag) &&
        make(run, &sheet_context, record->plan, &signature, &mail)) {
        /* the message is kept whatever becomes of the sending */
        const char *file = command_deliver(
            run, &resources, sheet_name_with(record->plan, "eml", &run->arena), &mail.message);
        if (file && run->options.send)
            send_letter(run, record->plan, file, &mail);
    }
    sheet_context_finish(&sheet_context);
}
