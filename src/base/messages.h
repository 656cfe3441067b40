/* The register of every message that a user can get. The sentence itself stands where it is said,
 * with the values of that place; here stands what all sentences of one code have in common. The
 * number is printed behind each message, and 'baskleaf check --message', the manual page
 * baskleaf-messages and the desk draw on this table.
 */
#ifndef BASKLEAF_BASE_MESSAGES_H
#define BASKLEAF_BASE_MESSAGES_H

#include <stdbool.h>
#include <stddef.h>

#include "base/strbuf.h"

struct message {
    int number;         /* printed as B207 */
    const char *code;   /* as diag_report takes it */
    const char *means;  /* lower case, without a full stop */
    const char *remedy; /* what to do, likewise */
};

/* Numbers from `from` on, up to the next group's, belong to one matter. */
struct message_group {
    int from;
    const char *title;
};

/* NULL for a code that is not registered. */
const struct message *messages_find(const char *code);

/* What one message means and what to do, or all of them by group for "all"; false for no name. */
bool messages_write(const char *name, struct strbuf *out);

#endif
