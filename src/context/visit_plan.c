/* Record and species sheet together -> the care plan. */
#include "context/visit_plan.h"

#include <string.h>

#include "context/photo.h"
#include "context/previous.h"
#include "context/visit_log.h"

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

/* The sheets of those that share the box, at the places of their names; NULL after a fault. */
static const struct species *const *find_mates(const struct resources *resources,
                                               const struct visit *visit, struct arena *arena,
                                               struct diag *diag)
{
    const struct list *mates = &visit->enclosure.mates;
    const struct species **sheets = ARENA_ARRAY(arena, const struct species *, mates->count + 1);
    for (size_t i = 0; i < mates->count; i++) {
        const struct text_value *code = LIST_AT(*mates, struct text_value, i);
        if (strcmp(code->text, "unlisted") == 0)
            continue;
        sheets[i] = library_find(resources->species_sheets, resources->places.species_dir,
                                 code->text, code->at, arena, diag);
        if (!sheets[i])
            return NULL;
    }
    return sheets;
}

/* The visit's own sheet, which holds what a keeper may not miss: no card is one. */
static const struct sheet_template *find_kind(const struct resources *resources,
                                              const struct visit *visit, struct diag *diag)
{
    const struct sheet_template *kind =
        sheet_kinds_need(&resources->kinds, &visit->kind, "visit.kind", diag);
    if (!kind || !sheet_template_is_card(kind))
        return kind;
    diag_report_path(diag, DIAG_ERROR, "kind-beside", visit->kind.at, "visit.kind",
                     "'%s' lies beside a sheet and tells neither medicines nor changes; write "
                     "the sheet's kind, and ask for this one with --kind %s",
                     visit->kind.text, visit->kind.text);
    return NULL;
}

static const struct care_plan *make_plan(const struct resources *resources,
                                         const struct care_inputs *who, struct arena *arena,
                                         struct diag *diag)
{
    const struct visit *visit = who->visit;
    const struct sheet_template *kind = find_kind(resources, visit, diag);
    if (!findings_check_visit(visit, who->species, resources->catalogue, diag) || !kind)
        return NULL;
    struct care_inputs inputs = *who;
    const bool logs = visit->enclosure.readings.log.file.text != NULL;
    inputs.log = logs ? visit_log_read(resources, visit, arena, diag) : NULL;
    inputs.mates = find_mates(resources, visit, arena, diag);
    if ((logs && !inputs.log) || !inputs.mates)
        return NULL;
    inputs.clinic = resources->clinic;
    inputs.catalogue = resources->catalogue;
    inputs.signs = resources->signs;
    inputs.rules = resources->rules;
    inputs.topics = resources->topics;
    inputs.settlements = resources->settlements;
    inputs.instructions = resources->instructions;
    inputs.steps = resources->steps;
    inputs.reference = resources->reference;
    inputs.kind = kind;
    return care_plan_make(&inputs, arena, diag);
}

const struct care_plan *visit_plan_for(const struct resources *resources, const struct visit *visit,
                                       const struct species *species, struct arena *arena,
                                       struct diag *diag)
{
    const struct text_value *log = &visit->enclosure.readings.log.file;
    const struct care_inputs who = {.visit = visit, .species = species};
    if (!log->text)
        return make_plan(resources, &who, arena, diag);
    diag_report_path(diag, DIAG_ERROR, "log-of-a-row", log->at, "enclosure.readings.log",
                     "a logger's file needs a visit record of its own; a roster's row has none");
    return NULL;
}

/* The plan of then first, by today's data; then that of today, with what it takes over. */
static const struct care_plan *plan_after(const struct resources *resources,
                                          const struct care_inputs *today,
                                          const struct visit *before, struct arena *arena,
                                          struct diag *diag)
{
    const struct visit *visit = today->visit;
    const struct care_inputs then = {.visit = before,
                                     .species = find_species(resources, before, arena, diag)};
    const bool same =
        then.species && previous_is_of(visit, today->species, then.species, arena, diag);
    struct previous_visit previous = {.plan =
                                          same ? make_plan(resources, &then, arena, diag) : NULL};
    const struct sheet_template *kind = sheet_kinds_find(&resources->kinds, visit->kind.text);
    if (!previous.plan)
        return NULL;
    bool new_home = kind && kind->new_home.value;
    const struct visit *filled = care_take_over(visit, before, new_home, arena, &previous);
    struct care_inputs who = *today;
    who.visit = filled;
    who.previous = previous;
    return make_plan(resources, &who, arena, diag);
}

const struct visit_record *visit_plan_make(const struct resources *resources,
                                           const struct visit *visit, struct arena *arena,
                                           struct diag *diag)
{
    const bool names = visit->previous.text != NULL;
    const struct visit *before = names ? previous_read(resources, visit, arena, diag) : NULL;
    const struct species *species = find_species(resources, visit, arena, diag);
    const struct care_plan *plan = NULL;
    struct bytes photo = {0};
    struct care_inputs who = {.visit = visit, .species = species};
    bool shown = photo_read(resources, visit, arena, diag, &photo, &who.photo);
    if (species && shown && !names)
        plan = make_plan(resources, &who, arena, diag);
    else if (species && shown && before)
        plan = plan_after(resources, &who, before, arena, diag);
    if (!plan)
        return NULL;
    struct visit_record *record = ARENA_NEW(arena, struct visit_record);
    *record = (struct visit_record){
        .file = visit->file,
        .tree = visit->tree,
        .previous = before ? before->tree : NULL,
        .species_file = species->file,
        .species_below = species->below,
        .photo = photo,
        .signature = visit->signature,
        .plan = plan,
    };
    return record;
}

const struct visit_record *visit_plan_read(const struct resources *resources, const char *path,
                                           struct date today, struct arena *arena,
                                           struct diag *diag)
{
    const struct visit *visit = visit_read(path, today, arena, diag);
    return visit ? visit_plan_make(resources, visit, arena, diag) : NULL;
}
