/* What the clinic's veterinarian confirmed of the species sheet, and how much is left. */
#include "explain/explain_parts.h"
#include "records/species_values.h"

static void key_date(struct json *j, const char *key, struct date date)
{
    char text[16];
    date_write_iso(date, text);
    json_key_text(j, key, text);
}

void explain_json_confirmed(struct json *j, const struct plan_confirmed *confirmed)
{
    json_key(j, "confirmed");
    if (!confirmed->by) {
        json_null(j);
        return;
    }
    json_open_object(j);
    json_key_text(j, "by", confirmed->by);
    key_date(j, "on", confirmed->on);
    json_key_text(j, "edition", confirmed->edition);
    json_close_object(j);
}

/* How much of the sheet is published or confirmed, by whom, and each confirmed value. */
void explain_json_reviewed(struct json *j, const struct taxon_plan *s)
{
    json_key_integer(j, "trust_percent", species_trust_percent(&s->review));
    json_key_integer(j, "left_to_review", (long)s->review.left);
    json_key(j, "reviewed");
    if (!s->review.by) {
        json_null(j);
        return;
    }
    json_open_object(j);
    json_key_text(j, "by", s->review.by);
    key_date(j, "on", s->review.on);
    json_key_integer(j, "reopened", (long)s->review.reopened);
    json_key(j, "values");
    json_open_list(j);
    for (size_t i = 0; i < s->confirmed_count; i++) {
        json_open_object(j);
        json_key_text(j, "key", s->confirmed[i].key);
        json_key_text(j, "value", s->confirmed[i].value);
        explain_json_confirmed(j, &s->confirmed[i]);
        json_close_object(j);
    }
    json_close_list(j);
    json_close_object(j);
}
