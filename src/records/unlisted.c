/* The cautions of each group, and a visit's animal that has no sheet made of them. */
#include "records/unlisted.h"

#include <string.h>

#include "records/shipped_files.h"
#include "records/table.h"

static const struct field group_fields[] = {
    ROW(CHOICE, species, group, "group", .choices = group_choices, .required = true,
        .help = "the kind of animal", .example = "snake"),
    ROW(CHOICE, species, habit, "habit", .choices = habit_choices, .required = true,
        .help = "where most of the group live; a visit may say otherwise",
        .example = "terrestrial"),
    ROW(CHOICES, species, traits, "traits", .choices = trait_choices, .required = true,
        .help = "what every animal of the group has"),
    ROW(TEXTS, species, warnings, "warnings", .required = true, .most = 24,
        .help = "codes of warning-signs.yaml that fit the whole group"),
    ROW(CHOICES, species, law, "law", .choices = law_choices, .required = true, .most = 6,
        .help = "cautions on law and permits"),
};
static const struct schema group_schema =
    SCHEMA(species, group_fields, "group", "What holds for the whole group.");

static const struct field file_fields[] = {
    ROW(RECORDS, unlisted_animals, groups, "groups", .schema = &group_schema, .required = true,
        .most = GROUP_COUNT, .help = "each group once"),
};
const struct schema unlisted_animals_schema =
    SCHEMA(unlisted_animals, file_fields, "unlisted animals",
           "What is said of an animal without a sheet.", .shipped = &shipped_unlisted_animals);

static const struct species *find_group(const struct unlisted_animals *animals, int group)
{
    for (size_t i = 0; i < animals->groups.count; i++)
        if (LIST_AT(animals->groups, struct species, i)->group.value == group)
            return LIST_AT(animals->groups, struct species, i);
    return NULL;
}

static bool check_groups(const struct unlisted_animals *animals, struct diag *diag)
{
    bool good = true;
    const struct mark at = animals->groups.count
                               ? LIST_AT(animals->groups, struct species, 0)->group.at
                               : (struct mark){.file = animals->file};
    for (int group = 0; group < GROUP_COUNT; group++) {
        if (find_group(animals, group))
            continue;
        diag_report_path(diag, DIAG_ERROR, "group-missing", at, "groups", "says nothing of a %s",
                         bind_choice_word(group_choices, group));
        good = false;
    }
    return good;
}

struct unlisted_animals *unlisted_read(const char *path, struct arena *arena, struct diag *diag)
{
    struct unlisted_animals *animals = ARENA_NEW(arena, struct unlisted_animals);
    animals->file = arena_copy_text(arena, path);
    return bind_file(path, &unlisted_animals_schema, arena, diag, animals) &&
                   check_groups(animals, diag)
               ? animals
               : NULL;
}

bool unlisted_is_meant(const struct visit *visit)
{
    return visit->patient.species.text && strcmp(visit->patient.species.text, UNLISTED_CODE) == 0;
}

bool unlisted_is_absent(const struct visit *visit, struct diag *diag)
{
    const struct visit_unlisted *about = &visit->patient.unlisted;
    if (!about->group.known)
        return true;
    diag_report_path(diag, DIAG_ERROR, "unlisted-beside-sheet", about->group.at, "patient.unlisted",
                     "stands beside '%s', which has a sheet; write 'species: " UNLISTED_CODE
                     "' or leave it out",
                     visit->patient.species.text);
    return false;
}

/* What every animal of the group has, and what this one has as well. */
static struct list all_traits(const struct list *of_group, const struct list *own,
                              struct arena *arena)
{
    struct choice_value *items =
        ARENA_ARRAY(arena, struct choice_value, of_group->count + own->count + 1);
    struct list all = {.items = items};
    for (size_t i = 0; i < of_group->count; i++)
        items[all.count++] = *LIST_AT(*of_group, struct choice_value, i);
    for (size_t i = 0; i < own->count; i++)
        items[all.count++] = *LIST_AT(*own, struct choice_value, i);
    return all;
}

static struct list one_name(const struct text_value *name, struct arena *arena)
{
    struct named_text *item = ARENA_NEW(arena, struct named_text);
    *item = (struct named_text){.name = {"en", name->at}, .text = *name};
    return (struct list){.items = item, .count = 1};
}

const struct species *unlisted_species(const struct unlisted_animals *animals,
                                       const struct visit *visit, struct arena *arena,
                                       struct diag *diag)
{
    const struct visit_unlisted *about = &visit->patient.unlisted;
    const struct species *group =
        about->group.known ? find_group(animals, about->group.value) : NULL;
    if (!group) {
        diag_report_path(diag, DIAG_ERROR, "unlisted-unsaid", visit->patient.species.at,
                         "patient.unlisted",
                         "an animal without a sheet needs its kind and group, such as {kind: "
                         "plated lizard, group: lizard}");
        return NULL;
    }
    struct species *species = ARENA_NEW(arena, struct species);
    *species = *group;
    species->code = visit->patient.species;
    species->names = one_name(&about->kind, arena);
    species->scientific = about->scientific;
    species->traits = all_traits(&species->traits, &about->traits, arena);
    if (about->habit.known)
        species->habit = about->habit;
    species->diet = about->diet;
    species->reproduction = about->reproduction;
    species->file = animals->file;
    species->is_unlisted = true;
    return species;
}
