/* One mail address: is it one and nothing else, and how does it stand in a link? */
#ifndef BASKLEAF_RECORDS_MAIL_ADDRESS_H
#define BASKLEAF_RECORDS_MAIL_ADDRESS_H

#include <stdbool.h>

#include "base/arena.h"

/* By RFC 5322, 3.4.1: a dot-atom or a quoted string, "@", a domain of at least two labels; with
 * letters beyond ASCII in both (RFC 6531, 3.3), and the lengths of RFC 5321, 4.5.3.1. Not taken:
 * an address in brackets instead of a domain, comments, folding and what is obsolete, which no
 * server takes in an envelope, and letters that nobody can see. */
bool mail_address_is_one(const char *text);

/* Are there ASCII letters alone? */
bool mail_address_is_ascii(const char *text);

/* What stands behind the last '@' of an address. */
const char *mail_address_domain(const char *address);

/* As the target of a link (RFC 6068, 2). */
const char *mail_address_uri(const char *address, struct arena *arena);

#endif
