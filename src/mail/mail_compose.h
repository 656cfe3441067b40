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

/* The message for a plan, drafts told as such. `password` (NULL for none) locks the PDF; the text
 * and the dates are then left out of the message. False after errors, *out untouched. */
bool mail_compose(struct sheet_context *context, const struct care_plan *plan,
                  const struct sheet_options *options, const struct signature *signature,
                  const char *password, struct date date, struct arena *arena, struct diag *diag,
                  struct composed_mail *out);

/* One attempt over the server of the settings file. SMTP_NOT with the reason in `diag` when the
 * file cannot be used. */
enum smtp_outcome mail_send(const char *settings_file, const struct care_plan *plan,
                            const struct composed_mail *mail, struct arena *arena,
                            struct diag *diag);

#endif
