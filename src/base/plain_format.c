/* Texts and whole numbers between the letters of a format; all else is vsnprintf's. */
#include "base/plain_format.h"

#include <stdbool.h>
#include <string.h>

struct writing {
    char *out;
    size_t room, length;
};

static void put(struct writing *w, const char *bytes, size_t length)
{
    const size_t left = w->length < w->room ? w->room - w->length : 0;
    if (left > 0)
        memcpy(w->out + w->length, bytes, length < left ? length : left);
    w->length += length;
}

/* False for no text: each C library has its own way to say that. */
static bool put_text(struct writing *w, const char *text, size_t most)
{
    if (text != NULL)
        put(w, text, strnlen(text, most));
    return text != NULL;
}

static void put_number(struct writing *w, uintmax_t number, bool is_negative)
{
    enum { DIGITS_MOST = 21 };
    char digits[DIGITS_MOST], *first = digits + sizeof digits;
    do
        *--first = (char)('0' + number % 10);
    while (number /= 10);
    if (is_negative)
        *--first = '-';
    put(w, first, (size_t)(digits + sizeof digits - first));
}

/* One directive; returns what stands behind it, NULL for one that is not plain. */
static const char *put_next(struct writing *w, const char *directive, va_list *args)
{
    if (strncmp(directive, ".*s", 3) == 0) {
        const int most = va_arg(*args, int);
        const char *text = va_arg(*args, const char *);
        return put_text(w, text, most < 0 ? SIZE_MAX : (size_t)most) ? directive + 3 : NULL;
    }
    if (strncmp(directive, "zu", 2) == 0) {
        put_number(w, va_arg(*args, size_t), false);
        return directive + 2;
    }
    if (*directive == 's') {
        if (!put_text(w, va_arg(*args, const char *), SIZE_MAX))
            return NULL;
    } else if (*directive == 'd') {
        const intmax_t number = va_arg(*args, int);
        put_number(w, (uintmax_t)(number < 0 ? -number : number), number < 0);
    } else if (*directive == 'u') {
        put_number(w, va_arg(*args, unsigned), false);
    } else if (*directive == 'c') {
        const char c = (char)va_arg(*args, int);
        put(w, &c, 1);
    } else if (*directive == '%') {
        put(w, "%", 1);
    } else {
        return NULL;
    }
    return directive + 1;
}

size_t plain_format(char *out, size_t room, const char *format, va_list args)
{
    struct writing w = {out, room, 0};
    va_list own;
    va_copy(own, args);
    while (format != NULL && *format != '\0') {
        const char *percent = strchrnul(format, '%');
        put(&w, format, (size_t)(percent - format));
        format = *percent == '\0' ? percent : put_next(&w, percent + 1, &own);
    }
    va_end(own);
    return format == NULL ? PLAIN_FORMAT_OTHER : w.length;
}
