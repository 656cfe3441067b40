/* What lies and stands in the box, and who shares it, for a professional's eye. */
#include "explain/explain_parts.h"

static void key_said(struct json *j, const char *key, int said)
{
    json_key(j, key);
    if (said < 0)
        json_null(j);
    else
        json_flag(j, said);
}

void explain_json_furnishing(struct json *j, const struct care_plan *plan)
{
    const struct enclosure_plan *e = &plan->enclosure;
    json_key_text(j, "substrate", e->substrate);
    json_key(j, "hides");
    json_open_object(j);
    explain_key_known(j, "number", e->has_hides, e->hides);
    explain_key_known(j, "wanted", e->has_hides_wanted, e->hides_wanted);
    json_key_text(j, "state", bind_choice_word(hides_state_choices, (int)e->hides_state));
    if (e->has_hides_wanted)
        explain_json_provenance(j, "source", &e->hides_from);
    json_close_object(j);
    key_said(j, "shade", e->shade);
    key_said(j, "water_dish", e->water_dish);
}
