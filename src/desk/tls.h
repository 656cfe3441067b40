/* The certificate of a desk that other machines reach. */
#ifndef BASKLEAF_DESK_TLS_H
#define BASKLEAF_DESK_TLS_H

#include "desk/store.h"

struct tls_pair {
    const char *certificate, *key; /* PEM */
};

/* The clinic's own (`file` holds certificate and key), or the one in the folder of records, made
 * there when first needed: self-signed, for `address`, ten years. False after errors. */
bool tls_read(const struct store *store, const char *file, const char *address, struct arena *arena,
              struct diag *diag, struct tls_pair *out);

#endif
