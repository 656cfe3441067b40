/* Writing a signature into a record's text, all else left as it stands. */
#ifndef BASKLEAF_SIGNING_SIGN_H
#define BASKLEAF_SIGNING_SIGN_H

#include "signing/signature.h"

struct signing {
    const char *under; /* the top-level key that holds the signature: "visit", "roster" */
    const char *by;
    struct date on;
    const struct signature_digests *digests;
};

/* The text with `signature` under its top-level key, in the place of the one that stands there or
 * before its first key. Comments, order and spacing stay. The result is read again and compared
 * before it is given back. False after a DIAG_ERROR; *out is then untouched. */
bool sign_text(const char *name, struct bytes text, const struct signing *signing,
               struct arena *arena, struct diag *diag, struct bytes *out);

/* The signed text in the place of the old. A file that has another name too (a hard link) is
 * refused: one name would stay with what nobody signed, or a safe copy would be changed. */
bool sign_write(const char *path, struct bytes text, struct diag *diag);

#endif
