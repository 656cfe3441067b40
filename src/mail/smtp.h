/* Sending a message (RFC 5321) through libcurl, with TLS. */
#ifndef BASKLEAF_MAIL_SMTP_H
#define BASKLEAF_MAIL_SMTP_H

#include "records/mail_settings.h"
#include "base/file.h"

enum smtp_outcome {
    SMTP_SENT,   /* the server took it */
    SMTP_NOT,    /* it was not taken: nothing has arrived */
    SMTP_LATER,  /* refused for now (4yz): try later */
    SMTP_UNSURE, /* all of it was handed over, but no answer came: it may have arrived */
};

/* From whom and to whom; borrowed. */
struct smtp_envelope {
    const char *from, *to;
    struct mark from_at, to_at; /* where they are written; only told */
};

/* One attempt, never a second by itself. What went wrong is a DIAG_FAULT (DIAG_ERROR where the
 * server refused an address for good, or takes none beyond ASCII); no secret stands in it. */
enum smtp_outcome smtp_send(const struct mail_settings *settings,
                            const struct smtp_envelope *envelope, struct bytes message,
                            struct arena *arena, struct diag *diag);

#endif
