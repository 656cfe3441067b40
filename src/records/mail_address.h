/* Is it one mail address and nothing else? */
#ifndef BASKLEAF_RECORDS_MAIL_ADDRESS_H
#define BASKLEAF_RECORDS_MAIL_ADDRESS_H

#include <stdbool.h>

/* By RFC 5322, 3.4.1 (dot-atom "@" dot-atom, the domain of at least two parts) and the lengths of
 * RFC 5321, 4.5.3.1. A domain of other letters stands in its form of xn-- (RFC 5890). */
bool mail_address_is_one(const char *text);

#endif
