#include "deliver/letter.h"

#include "deliver/calendar.h"
#include "deliver/lock.h"
#include "deliver/message.h"
#include "wording/appointments.h"
#include "wording/plain.h"
#include "wording/say.h"

/* The letter around the sheet, and the sheet as text unless only its PDF may tell it. */
static const char *letter_text(const struct speech *speech, const struct document *document,
                               struct arena *arena)
{
    const char *const before[] = {"mail.greeting", "mail.intro",
                                  document->is_locked ? "mail.locked" : "mail.attached"};
    static const char *const after[] = {"mail.questions", "mail.closing"};
    struct strbuf text;
    strbuf_init(&text, arena);
    for (size_t i = 0; i < sizeof before / sizeof *before; i++)
        strbuf_addf(&text, "%s\n%s", say(speech, before[i]), i == 1 ? "" : "\n");
    if (!document->is_locked)
        plain_write(document, &text);
    strbuf_add_char(&text, '\n');
    for (size_t i = 0; i < sizeof after / sizeof *after; i++)
        strbuf_addf(&text, "%s\n", say(speech, after[i]));
    return text.text;
}

static bool lock_parts(const char *password, struct message_parts *parts, struct arena *arena,
                       struct diag *diag)
{
    parts->pdf_plain = parts->pdf;
    return lock_pdf(parts->pdf, password, arena, diag, &parts->pdf);
}

bool letter_make(struct press *press, const struct care_plan *plan,
                 const struct sheet_wishes *wishes, const struct approval *approval,
                 const char *password, struct date date, struct arena *arena, struct diag *diag,
                 struct letter *out)
{
    struct document document;
    struct speech speech;
    struct message_parts parts = {.date = date};
    if (!sheet_compose(press, plan, wishes, approval, arena, diag, &document) ||
        !sheet_write(press, plan, wishes, approval, arena, diag, &parts.pdf) ||
        !sheet_speech(press, plan, wishes, arena, diag, &speech))
        return false;
    struct appointments appointments = appointments_make(&speech, arena);
    /* what is under a password does not lie open beside it */
    if (password ? !lock_parts(password, &parts, arena, diag)
                 : !calendar_write(plan, &appointments, speech.format.words->lang, arena, diag,
                                   &parts.calendar))
        return false;
    parts.subject = say(&speech, approval->is_signed ? "mail.subject" : "mail.subject-draft");
    parts.text = letter_text(&speech, &document, arena);
    parts.pdf_name = sheet_file_name(plan, arena);
    parts.calendar_name = sheet_name_with(plan, "ics", arena);
    struct bytes message;
    if (diag_failed(diag) || !message_write(plan, &parts, arena, diag, &message))
        return false;
    *out = (struct letter){message, message_id(plan, &parts, arena)};
    return true;
}

enum smtp_outcome letter_send(const char *settings_file, const struct care_plan *plan,
                              const struct letter *letter, struct arena *arena, struct diag *diag)
{
    struct mail_settings *settings = mail_settings_read(settings_file, arena, diag);
    if (!settings)
        return SMTP_NOT;
    return smtp_send(settings, plan->clinic->email.text, plan->visit->keeper.email.text,
                     letter->message, arena, diag);
}
