/* printf's plainest directives at a tenth of its price: most texts of a sheet ask for no more. */
#ifndef BASKLEAF_BASE_PLAIN_FORMAT_H
#define BASKLEAF_BASE_PLAIN_FORMAT_H

#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#define PLAIN_FORMAT_OTHER SIZE_MAX

/* Writes what vsnprintf would, as far as there is room for, without the NUL. Returns how long the
 * whole is, or PLAIN_FORMAT_OTHER where the format holds anything but %s, %.*s, %c, %d, %u, %zu and
 * %%. */
size_t plain_format(char *out, size_t room, const char *format, va_list args)
    __attribute__((format(printf, 3, 0)));

#endif
