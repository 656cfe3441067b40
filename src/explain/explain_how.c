/* How each number came about: its inputs, formula, source and band. */
#include "explain/explain_parts.h"

static void derivation_inputs(struct json *j, const struct derivation *d)
{
    json_key(j, "inputs");
    json_open_list(j);
    for (size_t i = 0; i < d->input_count; i++) {
        json_open_object(j);
        json_key_text(j, "name", d->inputs[i].name);
        json_key_number(j, "value", d->inputs[i].value);
        json_key_text(j, "unit", d->inputs[i].unit);
        json_close_object(j);
    }
    json_close_list(j);
}

void explain_json_how(struct json *j, const struct derivations *how)
{
    json_key(j, "how");
    json_open_list(j);
    for (const struct derivation *d = how->first; d; d = d->next) {
        json_open_object(j);
        json_key_text(j, "what", d->what);
        json_key_number(j, "value", d->value);
        json_key_text(j, "unit", d->unit);
        explain_key_pair(j, "uncertainty", true, d->low, d->high);
        json_key_text(j, "formula", d->formula);
        json_key_text(j, "source", d->source);
        derivation_inputs(j, d);
        json_close_object(j);
    }
    json_close_list(j);
}
