/* Finds the form of a word that agrees with the patient's sex. */
#include "words/agreement.h"

#include <string.h>

#include "records/table.h"

#define PATIENT "patient."

static const struct field agreement_fields[] = {
    ROW(TEXT, agreement, female, "female", .help = "of a female; nothing for no letter",
        .example = "la"),
    ROW(TEXT, agreement, other, "other", .help = "of a male, or where the sex is not known",
        .example = "lo"),
};
const struct schema agreement_schema =
    SCHEMA(agreement, agreement_fields, "agreement",
           "A word, or the end of one, that agrees with the patient's sex: {patient.NAME}.");

static const struct agreement *find(const struct language *language, const char *slot)
{
    static const size_t length = sizeof PATIENT - 1;
    if (strncmp(slot, PATIENT, length) != 0)
        return NULL;
    for (size_t i = 0; i < language->agreement.count; i++) {
        const struct agreement *row = LIST_AT(language->agreement, struct agreement, i);
        if (strcmp(row->name.text, slot + length) == 0)
            return row;
    }
    return NULL;
}

static const char *letters(const struct text_value *form)
{
    return form->text ? form->text : "";
}

bool agreement_has(const struct language *language, const char *slot)
{
    return find(language, slot) != NULL;
}

const char *agreement_form(const struct language *language, const char *slot, enum sex sex)
{
    const struct agreement *row = find(language, slot);
    if (!row)
        return NULL;
    return letters(sex == SEX_FEMALE ? &row->female : &row->other);
}

const char *agreement_longest(const struct language *language, const char *slot)
{
    const char *female = agreement_form(language, slot, SEX_FEMALE);
    const char *other = agreement_form(language, slot, SEX_UNKNOWN);
    return female && other && strlen(female) > strlen(other) ? female : other;
}

void agreement_offer(const struct language *language, struct nearest *nearest, struct arena *arena)
{
    for (size_t i = 0; i < language->agreement.count; i++)
        nearest_offer(nearest,
                      arena_format(arena, PATIENT "%s",
                                   LIST_AT(language->agreement, struct agreement, i)->name.text));
}
