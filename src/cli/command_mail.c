/* `baskleaf mail`: a sheet as a message, kept in a file and sent where that is asked for. */
#include <string.h>
#include <unistd.h>

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
    const struct mail_options mailing = {password, run->today};
    return mail_compose(&in, &mailing, &run->arena, &run->diag, out);
}

/* ---- sending ----------------------------------------------------------------------------------
 */

/* What became of each message of a record stands beside the record, so that no second run sends it
 * by itself, whatever file it keeps the message in. A record from standard input has no place of
 * its own: then beside the message. A link names the record that it leads to. */
static const char *note_path(struct run *run, const char *message_file)
{
    const char *record = strcmp(run->words[0], "-") == 0 ? message_file : run->words[0];
    const char *found = file_real_path(&run->arena, record);
    return arena_format(&run->arena, "%s.sent", found ? found : record);
}

static bool read_note(struct run *run, const char *path, struct bytes *out)
{
    *out = (struct bytes){.data = "", .length = 0};
    return !file_exists(path) || file_read(path, FILE_LIMIT_BYTES, &run->arena, &run->diag, out);
}

/* The lines of before, and one more unless `what` is NULL. */
static bool write_note(struct run *run, const char *path, struct bytes before, const char *what,
                       const char *id)
{
    struct strbuf text;
    char day[16];
    date_write_iso(run->today, day);
    strbuf_init(&text, &run->arena);
    strbuf_add_bytes(&text, before.data, before.length);
    if (what)
        strbuf_addf(&text, "%s %s %s\n", day, what, id);
    return file_write_atomic(path, text.text, text.length, 0640, &run->diag);
}

/* "May have arrived" is written down before the sending, so that a run that is cut off leaves it.
 */
static void send_letter(struct run *run, const struct care_plan *plan, const char *file,
                        const struct composed_mail *mail)
{
    static const char unsure[] = "may-have-arrived", sent[] = "sent";
    struct bytes before;
    const char *path = note_path(run, file);
    if (!read_note(run, path, &before))
        return;
    if (strstr(before.data, mail->id) && !run->options.resend) {
        diag_report(
            &run->diag, DIAG_ERROR, "sent-before", (struct mark){.file = path},
            "this very message was sent before, or may have arrived; --resend sends it once more");
        return;
    }
    if (!write_note(run, path, before, unsure, mail->id))
        return;
    enum smtp_outcome outcome =
        mail_send(run->options.settings, plan, mail, &run->arena, &run->diag);
    if (outcome == SMTP_SENT)
        write_note(run, path, before, sent, mail->id);
    else if (outcome != SMTP_UNSURE && before.length > 0)
        write_note(run, path, before, NULL, NULL);
    else if (outcome != SMTP_UNSURE)
        unlink(path);
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
    run->record = record->tree;
    if (sheet_context_init(&sheet_context, &resources, &run->diag) &&
        sheet_context_can_draw(&sheet_context, record->tree, &run->diag) &&
        sheet_context_signature(&sheet_context, record, run->options.language, &run->arena,
                                &run->diag, &signature) &&
        signature_may_leave(&signature, record->file, run->options.drafts, &run->diag) &&
        make(run, &sheet_context, record->plan, &signature, &mail)) {
        /* the message is kept whatever becomes of the sending */
        const char *file = command_deliver(
            run, &resources,
            &(struct result){sheet_name_with(record->plan, "eml", &run->arena),
                             sheet_record_id(record->plan, &run->arena), mail.message});
        if (file && run->options.send)
            send_letter(run, record->plan, file, &mail);
    }
    sheet_context_finish(&sheet_context);
}
