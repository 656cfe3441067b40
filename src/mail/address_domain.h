/* The address that a message and its envelope carry. */
#ifndef BASKLEAF_MAIL_ADDRESS_DOMAIN_H
#define BASKLEAF_MAIL_ADDRESS_DOMAIN_H

#include <stdbool.h>

#include "base/arena.h"

/* Where the local part is ASCII, the domain in its form of ASCII (RFC 5891; libidn2), which every
 * server takes: then nothing is asked of it. Where the local part is not, or without libidn2, the
 * address as it is written, for a server that announces SMTPUTF8 (RFC 6531). False when letters of
 * the domain can stand in none; *out is then untouched. */
bool mail_address_to_send(const char *address, struct arena *arena, const char **out);

#endif
