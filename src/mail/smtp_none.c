/* Built without libcurl. */
#include "mail/smtp.h"

enum smtp_outcome smtp_send(const struct mail_settings *settings,
                            const struct smtp_envelope *envelope, struct bytes message,
                            struct arena *arena, struct diag *diag)
{
    (void)settings, (void)envelope, (void)message, (void)arena;
    diag_report(diag, DIAG_FAULT, "no-libcurl", (struct mark){0},
                "this program was built without libcurl and sends no mail; the message file can be "
                "opened in any mail program");
    return SMTP_NOT;
}
