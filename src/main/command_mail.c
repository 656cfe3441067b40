#include <string.h>

#include "deliver/letter.h"
#include "deliver/visit_plan.h"
#include "main/command.h"

static bool make(struct run *run, struct press *press, const struct care_plan *plan,
                 const struct approval *approval, struct letter *out)
{
    const char *password;
    if (!command_password(run, &password))
        return false;
    const struct sheet_wishes wishes = {.language = run->options.language,
                                        .units = run->options.units,
                                        .paper = run->options.paper,
                                        .is_locked = password != NULL};
    return letter_make(press, plan, &wishes, approval, password, run->today, &run->arena,
                       &run->diag, out);
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
    if (run->options.again || !file_exists(path))
        return true;
    if (!file_read(path, FILE_LIMIT_BYTES, &run->arena, &run->diag, &note))
        return false;
    if (!strstr(note.data, id))
        return true;
    diag_report(
        &run->diag, DIAG_ERROR, "sent-before", (struct mark){.file = path},
        "this very message was sent before, or may have arrived; --again sends it once more");
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
                        const struct letter *letter)
{
    if (!may_send(run, file, letter->id))
        return;
    enum smtp_outcome outcome =
        letter_send(run->options.settings, plan, letter, &run->arena, &run->diag);
    if (outcome == SMTP_SENT || outcome == SMTP_UNSURE)
        note_outcome(run, file, letter->id, outcome);
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
    struct press press = {0};
    struct approval approval;
    struct letter letter;
    if (!check_options(run) || !command_resources(run, &resources))
        return;
    const struct care_plan *plan =
        visit_plan_read(&resources, run->words[0], run->today, &run->arena, &run->diag);
    if (!plan)
        return;
    if (press_init(&press, &resources, &run->diag) &&
        press_approval(&press, plan, &run->arena, &run->diag, &approval) &&
        approval_may_leave(&approval, plan->visit->file, run->options.drafts, &run->diag) &&
        make(run, &press, plan, &approval, &letter)) {
        /* the message is kept whatever becomes of the sending */
        const char *file = command_deliver(
            run, &resources, sheet_name_with(plan, "eml", &run->arena), &letter.message);
        if (file && run->options.send)
            send_letter(run, plan, file, &letter);
    }
    press_finish(&press);
}
