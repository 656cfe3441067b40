/* Makes the parts of a message from a plan, and sends it at most once. */
#include "mail/mail_compose.h"

#include "mail/calendar.h"
#include "pdftools/pdf_encrypt.h"
#include "mail/message.h"
#include "sheet/calendar_events.h"
#include "document/block_builder.h"
#include "document/html_export.h"
#include "document/text_export.h"
#include "words/phrase.h"

static void add_sentence(const struct phrase_context *ctx, struct block_builder *out,
                         const char *key)
{
    builder_paragraph(out, phrase(ctx, key));
}

/* The letter around the sheet, and the sheet for a small screen unless only a locked PDF may tell
 * it. Text and HTML are both made of this one document. */
static struct document letter_document(const struct phrase_context *ctx,
                                       const struct document *phone, struct arena *arena)
{
    struct document letter = *phone;
    struct block_builder all = builder_start(arena, NULL),
                         sheet = {.first = phone->blocks, .last = phone->blocks};
    while (sheet.last && sheet.last->next)
        sheet.last = sheet.last->next;
    add_sentence(ctx, &all, "mail.greeting");
    if (phone->is_locked) {
        letter.title = phrase(ctx, "mail.subject-locked");
        add_sentence(ctx, &all, "mail.locked");
    } else {
        builder_append(&all, &sheet);
        add_sentence(ctx, &all, "mail.intro");
        add_sentence(ctx, &all, "mail.attached");
    }
    add_sentence(ctx, &all, "mail.questions");
    add_sentence(ctx, &all, "mail.closing");
    letter.blocks = all.first;
    return letter;
}

static void write_letter(const struct phrase_context *ctx, const struct document *phone,
                         struct arena *arena, struct message_parts *parts)
{
    struct strbuf text, html;
    const struct document letter = letter_document(ctx, phone, arena);
    strbuf_init(&text, arena);
    strbuf_init(&html, arena);
    text_export(&letter, &text);
    html_export(&letter, &html);
    parts->text = text.text;
    parts->html = html.text;
}

/* Who it is and what comes first; what is under a password is not told by the subject either. */
static const char *subject_text(const struct phrase_context *ctx, const struct document *phone)
{
    const char *what = phone->is_locked ? phrase(ctx, "mail.subject-locked") : phone->summary;
    const struct plan_fact fact = {.name = "what", .kind = FACT_TEXT, .text = what};
    struct phrase_context own = *ctx;
    own.facts = &fact;
    return phone->draft_mark ? phrase(&own, "mail.subject-draft") : what;
}

static bool lock_parts(const char *password, struct message_parts *parts, struct arena *arena,
                       struct diag *diag)
{
    parts->pdf_plain = parts->pdf;
    return pdf_encrypt(parts->pdf, password, arena, diag, &parts->pdf) &&
           pdf_encrypt(parts->phone, password, arena, diag, &parts->phone);
}

/* The sheet as its kind has it, and the one for a small screen as pages and as a document. */
static bool make_sheets(const struct sheet_inputs *as_asked, struct arena *arena, struct diag *diag,
                        struct message_parts *parts, struct document *phone)
{
    struct sheet_options options = *as_asked->options;
    struct sheet_inputs in = *as_asked;
    options.live_links = true; /* it is read on a screen */
    in.options = &options;
    if (!sheet_write(&in, arena, diag, &parts->pdf))
        return false;
    options.kind = "phone";
    return sheet_compose(&in, arena, diag, phone) && sheet_write(&in, arena, diag, &parts->phone);
}

bool mail_compose(const struct sheet_inputs *in, const struct mail_options *mailing,
                  struct arena *arena, struct diag *diag, struct composed_mail *out)
{
    const struct care_plan *plan = in->plan;
    struct document phone;
    struct phrase_context ctx;
    struct message_parts parts = {.date = mailing->date};
    if (!make_sheets(in, arena, diag, &parts, &phone) ||
        !sheet_phrase_context(in, arena, diag, &ctx))
        return false;
    struct calendar_events events = calendar_events_make(&ctx, arena);
    /* what is under a password does not lie open beside it */
    if (mailing->password
            ? !lock_parts(mailing->password, &parts, arena, diag)
            : !calendar_write(plan, &events, ctx.format.words->lang, arena, diag, &parts.calendar))
        return false;
    parts.subject = subject_text(&ctx, &phone);
    write_letter(&ctx, &phone, arena, &parts);
    parts.record_id = sheet_record_id(plan, arena);
    parts.pdf_name = sheet_file_name(plan, arena);
    parts.phone_name = sheet_name_with(plan, "phone.pdf", arena);
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
    const struct text_value *from = &plan->letterhead.email, *to = &plan->keeper.email;
    const struct smtp_envelope envelope = {from->text, to->text, from->at, to->at};
    return smtp_send(settings, &envelope, mail->message, arena, diag);
}
