/* The small writers that every part of explain's JSON uses. */
#include "explain/explain.h"
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

void explain_json_provenance(struct json *j, const char *key, const struct provenance *from)
{
    json_key(j, key);
    json_open_object(j);
    json_key_text(j, "origin", explain_origin_word(from->origin));
    json_key_text(j, "source", from->source);
    bool has_trust = from->origin == ORIGIN_SPECIES_SHEET || from->origin == ORIGIN_REFERENCE;
    json_key_text(j, "trust", has_trust ? bind_choice_word(trust_choices, (int)from->trust) : NULL);
    json_key_text(j, "because", from->because);
    explain_json_confirmed(j, &from->confirmed);
    json_close_object(j);
}

/* What has no value has no source either: null, as the page of the format says. */
void explain_json_source(struct json *j, bool known, const struct provenance *from)
{
    if (known)
        explain_json_provenance(j, "source", from);
    else
        json_key_text(j, "source", NULL);
}
