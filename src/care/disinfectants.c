/* What kills the germs that were found: the rows of the reference values for this animal. */
#include "care/build.h"

const struct disinfectant_plan *build_disinfectant(const struct care_build *b, const char *finding)
{
    const struct reference_values *reference = b->in->reference;
    const struct disinfectant_reference *row = disinfectant_find(reference, finding);
    if (!row || !list_has_choice(&row->groups, (int)b->in->species->group.value))
        return NULL;
    struct disinfectant_plan *made = ARENA_NEW(b->arena, struct disinfectant_plan);
    *made = (struct disinfectant_plan){
        .product = bind_choice_word(disinfectant_choices, (int)row->product.value),
        .has_percent = row->percent.range.known,
        .percent = row->percent.range.low,
        .has_seconds = row->seconds.range.known,
        .seconds = row->seconds.range.low,
        .from = {.origin = ORIGIN_REFERENCE,
                 .source = named_text_find(&reference->sources, row->source.text),
                 .trust = (enum trust)row->trust.value},
    };
    return made;
}
