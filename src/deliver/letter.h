/* A sheet as a letter to its keeper: the message's parts made of the plan, and its sending once. */
#ifndef BASKLEAF_DELIVER_LETTER_H
#define BASKLEAF_DELIVER_LETTER_H

#include "deliver/press.h"
#include "deliver/sheet.h"
#include "deliver/smtp.h"

struct letter {
    struct bytes message;
    const char *id; /* its Message-ID, without brackets */
};

/* The message for a plan, drafts told as such. `password` (NULL for none) locks the PDF; the text
 * and the dates are then left out of the message. False after errors, *out untouched. */
bool letter_make(struct press *press, const struct care_plan *plan,
                 const struct sheet_wishes *wishes, const struct approval *approval,
                 const char *password, struct date date, struct arena *arena, struct diag *diag,
                 struct letter *out);

/* One attempt over the server of the settings file. SMTP_NOT with the reason in `diag` when the
 * file cannot be used. */
enum smtp_outcome letter_send(const char *settings_file, const struct care_plan *plan,
                              const struct letter *letter, struct arena *arena, struct diag *diag);

#endif
