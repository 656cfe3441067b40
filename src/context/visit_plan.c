/* Record and species sheet together -> the care plan. */
#include "context/visit_plan.h"

static const struct species *find_species(const struct resources *resources,
                                          const struct visit *visit, struct arena *arena,
                                          struct diag *diag)
{
    if (unlisted_is_meant(visit))
        return unlisted_species(resources->unlisted, visit, arena, diag);
    if (!unlisted_is_absent(visit, diag))
        return NULL;
    return library_find(resources->species_sheets, resources->places.species_dir,
                        visit->patient.species.text, visit->patient.species.at, arena, diag);
}

const struct visit_record *visit_plan_make(const struct resources *resources,
                                           const struct visit *visit, struct arena *arena,
                                           struct diag *diag)
{
    const struct species *species = find_species(resources, visit, arena, diag);
    const struct care_plan *plan =
        species ? visit_plan_for(resources, visit, species, arena, diag) : NULL;
    if (!plan)
        return NULL;
    struct visit_record *record = ARENA_NEW(arena, struct visit_record);
    *record =
        (struct visit_record){visit->file, visit->tree, species->file, visit->signature, plan};
    return record;
}

const struct care_plan *visit_plan_for(const struct resources *resources, const struct visit *visit,
                                       const struct species *species, struct arena *arena,
                                       struct diag *diag)
{
    const struct sheet_template *kind =
        sheet_kinds_need(&resources->kinds, &visit->kind, "visit.kind", diag);
    if (!findings_check_visit(visit, species, resources->catalogue, diag) || !kind)
        return NULL;
    const struct care_inputs inputs = {
        .visit = visit,
        .species = species,
        .clinic = resources->clinic,
        .catalogue = resources->catalogue,
        .signs = resources->signs,
        .rules = resources->rules,
        .topics = resources->topics,
        .settlements = resources->settlements,
        .instructions = resources->instructions,
        .steps = resources->steps,
        .facts = resources->facts,
        .kind = kind,
    };
    return care_plan_make(&inputs, arena, diag);
}

const struct visit_record *visit_plan_read(const struct resources *resources, const char *path,
                                           struct date today, struct arena *arena,
                                           struct diag *diag)
{
    const struct visit *visit = visit_read(path, today, arena, diag);
    return visit ? visit_plan_make(resources, visit, arena, diag) : NULL;
}
