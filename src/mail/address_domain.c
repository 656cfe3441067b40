/* Domains beyond ASCII, by libidn2. */
#include "mail/address_domain.h"

#include <idn2.h>

#include "records/mail_address.h"

bool mail_address_to_send(const char *address, struct arena *arena, const char **out)
{
    const char *domain = mail_address_domain(address);
    char *ascii = NULL;
    if (mail_address_is_ascii(domain)) {
        *out = address;
        return true;
    }
    int result = idn2_to_ascii_8z(domain, &ascii, IDN2_NFC_INPUT | IDN2_NONTRANSITIONAL);
    if (result == IDN2_MALLOC)
        support_out_of_memory();
    if (result != IDN2_OK)
        return false;
    const char *local = arena_copy_bytes(arena, address, (size_t)(domain - address));
    *out = mail_address_is_ascii(local) ? arena_format(arena, "%s%s", local, ascii) : address;
    idn2_free(ascii);
    return true;
}
