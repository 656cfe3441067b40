/* How mail leaves the clinic: a file that nobody else on the machine may read. */
#ifndef BASKLEAF_RECORDS_MAIL_SETTINGS_H
#define BASKLEAF_RECORDS_MAIL_SETTINGS_H

#include "yaml/bind.h"

enum mail_tls { MAIL_TLS_ON_REQUEST, MAIL_TLS_FROM_THE_START, MAIL_TLS_NONE };

struct mail_settings {
    struct text_value host;
    struct quantity port;
    struct choice_value tls;
    struct text_value user, password;
    struct text_value authority; /* a file of certificates to trust instead of the system's */
    struct quantity timeout_s;
    const char *file; /* borrowed */
};

extern const struct schema mail_settings_schema;

/* Reads and checks: no other user may read the file, and without TLS the host is this machine. NULL
 * after errors, in which no value of the file stands. */
struct mail_settings *mail_settings_read(const char *path, struct arena *arena, struct diag *diag);

#endif
