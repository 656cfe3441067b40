/* A sheet as a letter to its keeper: the message's parts made of the plan, and its sending once. */
#ifndef BASKLEAF_MAIL_MAIL_COMPOSE_H
#define BASKLEAF_MAIL_MAIL_COMPOSE_H

#include "render/sheet_context.h"
#include "render/render.h"
#include "mail/smtp.h"

struct composed_mail {
    struct bytes message;
    const char *id; /* its Message-ID, without brackets */
};

struct mail_options {
    const char *password; /* locks the PDF; text and dates are then left out of the message */
    struct date date;
};

/* The message for a plan, drafts told as such. False after errors, *out untouched. */
bool mail_compose(const struct sheet_inputs *in, const struct mail_options *mailing,
                  struct arena *arena, struct diag *diag, struct composed_mail *out);

/* One attempt over the server of the settings file. SMTP_NOT with the reason in `diag` when the
 * file cannot be used. */
enum smtp_outcome mail_send(const char *settings_file, const struct care_plan *plan,
                            const struct composed_mail *mail, struct arena *arena,
                            struct diag *diag);

#endif
