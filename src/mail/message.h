/* A complete mail message (RFC 5322, MIME): the sheet as text, its PDF and the calendar file. */
#ifndef BASKLEAF_MAIL_MESSAGE_H
#define BASKLEAF_MAIL_MESSAGE_H

#include "care/plan.h"
#include "base/file.h"

/* All borrowed. */
struct message_parts {
    const char *subject;
    const char *text;                  /* flowed (RFC 3676), UTF-8, lines end in "\n" */
    const char *html;                  /* the same as a page, UTF-8, lines end in "\n" */
    struct bytes pdf, phone, calendar; /* phone: the same for a small screen; calendar.data NULL:
                                          none */
    struct bytes pdf_plain;            /* before it got a password; data NULL: it has none */
    const char *pdf_name, *phone_name, *calendar_name; /* ASCII */
    const char *record_id;                             /* of render/file_name.h */
    struct date date;
};

/* From the clinic's address to the keeper's. The Message-ID is made of the content, so that the
 * same message has the same one, also when its PDF is encrypted anew. The same input gives the same
 * bytes; lines end in CR LF and are at most 78 bytes. An address stands as it is sent:
 * mail/address_domain.h. A missing address, or a name that is not one
 * line, is a DIAG_ERROR at its place; *out is then untouched. */
const char *message_id(const struct care_plan *plan, const struct message_parts *parts,
                       struct arena *arena); /* without its brackets */
bool message_write(const struct care_plan *plan, const struct message_parts *parts,
                   struct arena *arena, struct diag *diag, struct bytes *out);

#endif
