/* Built without GnuTLS. */
#include "desk/tls.h"

bool tls_read(const struct store *store, const char *file, const char *address, struct arena *arena,
              struct diag *diag, struct tls_pair *out)
{
    (void)store, (void)file, (void)address, (void)arena, (void)out;
    diag_report(diag, DIAG_FAULT, "built-without", (struct mark){0},
                "this baskleaf was built without GnuTLS and lets no other machine in; install it "
                "and build again");
    return false;
}
