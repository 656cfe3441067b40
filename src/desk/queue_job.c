/* One attempt at a mail or a print job, with its lines in the record's log. */
#include "desk/queue_job.h"

#include <stdio.h>
#include <string.h>

#include "desk/faults.h"
#include "desk/journal.h"
#include "mail/smtp.h"
#include "print/printer.h"

struct attempt {
    const struct job *job;
    long long (*clock)(void);
    struct arena arena;
    struct diag diag;
    struct outcome *out;
};

/* Cut at a whole character. */
static void copy_text(char *out, size_t size, const char *text)
{
    size_t length = strlen(text);
    if (length >= size)
        for (length = size - 1; length && ((unsigned char)text[length] & 0xc0) == 0x80;)
            length--;
    memcpy(out, text, length);
    out[length] = '\0';
}

static void say_why(struct attempt *attempt, const char *text)
{
    copy_text(attempt->out->why, sizeof attempt->out->why,
              text ? faults_without_command(text, &attempt->arena) : "");
    for (char *c = attempt->out->why; *c; c++)
        if ((unsigned char)*c < 0x20 || *c == 0x7f)
            *c = ' ';
}

static const struct diag_message *last_trouble(const struct attempt *attempt)
{
    const struct diag_message *last = NULL;
    for (const struct diag_message *m = attempt->diag.first; m; m = m->next)
        if (m->severity != DIAG_REMARK)
            last = m;
    return last;
}

static void say_last_trouble(struct attempt *attempt)
{
    const struct diag_message *trouble = last_trouble(attempt);
    say_why(attempt, trouble ? trouble->text : "");
}

static bool log_line(struct attempt *attempt, const char *event, const char *remark)
{
    const struct job_order *order = &attempt->job->order;
    const struct journal_line line = {attempt->clock(), event, order->who, order->version, remark};
    return journal_write(order->log, &line, &attempt->diag);
}

/* ---- mail ------------------------------------------------------------------------------------ */

static enum smtp_outcome send_message(struct attempt *attempt)
{
    const struct job_order *order = &attempt->job->order;
    struct mail_settings *settings =
        mail_settings_read(order->settings, &attempt->arena, &attempt->diag);
    const struct mark at = {.file = order->record};
    const struct smtp_envelope envelope = {order->from, order->to, at, at};
    return settings ? smtp_send(settings, &envelope, order->body, &attempt->arena, &attempt->diag)
                    : SMTP_NOT;
}

static void attempt_mail(struct attempt *attempt)
{
    static const struct {
        enum job_state state;
        const char *event;
    } ends[] = {
        [SMTP_SENT] = {JOB_DONE, "mailed"},
        [SMTP_NOT] = {JOB_FAILED, "not-mailed"},
        [SMTP_LATER] = {JOB_WAITING, "mail-later"},
        [SMTP_UNSURE] = {JOB_UNSURE, "maybe-mailed"},
    };
    if (!log_line(attempt, "mailing", "")) {
        attempt->out->state = JOB_FAILED;
        say_last_trouble(attempt);
        return;
    }
    enum smtp_outcome outcome = send_message(attempt);
    const struct diag_message *trouble = last_trouble(attempt);
    bool was_away = trouble && strcmp(trouble->code, "mail-failed") == 0;
    attempt->out->state = ends[outcome].state;
    attempt->out->again = outcome == SMTP_LATER || (outcome == SMTP_NOT && was_away);
    say_why(attempt, outcome == SMTP_SENT || !trouble ? "" : trouble->text);
    log_line(attempt, ends[outcome].event, attempt->out->why);
}

/* ---- print ----------------------------------------------------------------------------------- */

static void hand_over(struct attempt *attempt)
{
    const struct job_order *order = &attempt->job->order;
    const struct printer_job sheet = {
        .pdf = order->body, .title = order->title, .paper = order->paper, .copies = order->copies};
    struct outcome *out = attempt->out;
    if (!log_line(attempt, "printing", "")) {
        out->state = JOB_FAILED;
        say_last_trouble(attempt);
        return;
    }
    struct printer *printer = printer_find(order->printer, &attempt->arena, &attempt->diag);
    if (printer &&
        printer_print(printer, &sheet, &attempt->arena, &attempt->diag, &out->print_job)) {
        out->state = JOB_AT_PRINTER;
        copy_text(out->printer, sizeof out->printer, printer_name(printer));
        log_line(attempt, "at-printer",
                 arena_format(&attempt->arena, "%s, %d", out->printer, out->print_job));
    } else {
        out->state = JOB_FAILED;
        say_why(attempt, last_trouble(attempt) ? last_trouble(attempt)->text : "");
        log_line(attempt, "not-printed", out->why);
    }
    printer_free(printer);
}

static void look_after(struct attempt *attempt)
{
    const char *why;
    struct outcome *out = attempt->out;
    copy_text(out->printer, sizeof out->printer, attempt->job->printer);
    out->print_job = attempt->job->print_job;
    switch (printer_job_state(out->printer, out->print_job, &attempt->arena, &why)) {
    case PRINTER_JOB_DONE:
        out->state = JOB_DONE;
        log_line(attempt, "printed", out->printer);
        return;
    case PRINTER_JOB_FAILED:
        out->state = JOB_FAILED;
        say_why(attempt, why);
        log_line(attempt, "not-printed", out->why);
        return;
    case PRINTER_JOB_STOPPED:
        out->state = JOB_STOPPED;
        break;
    case PRINTER_JOB_UNKNOWN:
    case PRINTER_JOB_WAITING:
    case PRINTER_JOB_PRINTING:
        out->state = JOB_AT_PRINTER;
        break;
    }
    say_why(attempt, why);
}

void job_attempt(const struct job *job, long long (*clock)(void), struct outcome *out)
{
    struct attempt attempt = {.job = job, .clock = clock, .out = out};
    *out = (struct outcome){0};
    arena_init(&attempt.arena);
    diag_init(&attempt.diag);
    if (job->order.kind == JOB_MAIL)
        attempt_mail(&attempt);
    else if (job->print_job)
        look_after(&attempt);
    else
        hand_over(&attempt);
    diag_finish(&attempt.diag);
    arena_finish(&attempt.arena);
}
