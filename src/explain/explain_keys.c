/* The small writers that every part of explain's JSON uses. */
#include "explain/explain_parts.h"

#include <math.h>

void explain_key_known(struct json *j, const char *key, bool known, double value)
{
    json_key(j, key);
    if (known && isfinite(value))
        json_number(j, value);
    else
        json_null(j);
}

void explain_key_pair(struct json *j, const char *key, bool known, double low, double high)
{
    json_key(j, key);
    if (!known) {
        json_null(j);
        return;
    }
    json_open_list(j);
    json_number(j, low);
    json_number(j, high);
    json_close_list(j);
}

void explain_key_date(struct json *j, const char *key, bool known, struct date date)
{
    char text[16];
    if (known)
        date_write_iso(date, text);
    json_key_text(j, key, known ? text : NULL);
}
