/* Makes the parts of a message from a plan, and sends it at most once. */
#include "mail/mail_compose.h"

#include "mail/calendar.h"
#include "pdftools/pdf_encrypt.h"
#include "mail/message.h"
#include "sheet/calendar_events.h"
#include "document/text_export.h"
#include "words/phrase.h"

/* The letter around the sheet, and the sheet as text unless only its PDF may tell it. */
static const char *letter_text(const struct phrase_context *ctx, const struct document *document,
                               struct arena *arena)
{
    const char *const before[] = {"mail.greeting", "mail.intro",
                                  document->is_locked ? "mail.locked" : "mail.attached"};
    static const char *const after[] = {"mail.questions", "mail.closing"};
    struct strbuf text;
    strbuf_init(&text, arena);
    for (size_t i = 0; i < sizeof before / sizeof *before; i++)
        strbuf_addf(&text, "%s\n%s", phrase(ctx, before[i]), i == 1 ? "" : "\n");
    if (!document->is_locked)
        text_export(document, &text);
    strbuf_add_char(&text, '\n');
    for (size_t i = 0; i < sizeof after / sizeof *after; i++)
        strbuf_addf(&text, "%s\n", phrase(ctx, after[i]));
    return text.text;
}

static bool lock_parts(const char *password, struct message_parts *parts, struct arena *arena,
                       struct diag *diag)
{
    parts->pdf_plain = parts->pdf;
    return pdf_encrypt(parts->pdf, password, arena, diag, &parts->pdf);
}

bool mail_compose(const struct sheet_inputs *as_asked, const struct mail_wishes *wishes,
                  struct arena *arena, struct diag *diag, struct composed_mail *out)
{
    /* it is read on a screen */
    struct sheet_options options = *as_asked->options;
    struct sheet_inputs inputs = *as_asked;
    options.live_links = true;
    inputs.options = &options;
    const struct sheet_inputs *in = &inputs;
    const struct care_plan *plan = in->plan;
    struct document document;
    struct phrase_context ctx;
    struct message_parts parts = {.date = wishes->date};
    if (!sheet_compose(in, arena, diag, &document) || !sheet_write(in, arena, diag, &parts.pdf) ||
        !sheet_phrase_context(in, arena, diag, &ctx))
        return false;
    struct calendar_events events = calendar_events_make(&ctx, arena);
    /* what is under a password does not lie open beside it */
    if (wishes->password
            ? !lock_parts(wishes->password, &parts, arena, diag)
            : !calendar_write(plan, &events, ctx.format.words->lang, arena, diag, &parts.calendar))
        return false;
    parts.subject = phrase(&ctx, in->signature->is_signed ? "mail.subject" : "mail.subject-draft");
    parts.text = letter_text(&ctx, &document, arena);
    parts.record_id = sheet_record_id(plan, arena);
    parts.pdf_name = sheet_file_name(plan, arena);
    parts.calendar_name = sheet_name_with(plan, "ics", arena);
    struct bytes message;
    if (diag_failed(diag) || !message_write(plan, &parts, arena, diag, &message))
        return false;
    *out = (struct composed_mail){message, message_id(plan, &parts, arena)};
    return true;
}

enum smtp_outcome mail_send(const char *settings_file, const struct care_plan *plan,
                            const struct composed_mail *mail, struct arena *arena,
                            struct diag *diag)
{
    struct mail_settings *settings = mail_settings_read(settings_file, arena, diag);
    if (!settings)
        return SMTP_NOT;
    return smtp_send(settings, plan->clinic.email.text, plan->keeper.email.text, mail->message,
                     arena, diag);
}
