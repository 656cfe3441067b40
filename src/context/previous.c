/* Finds and reads the visit before, and refuses one that cannot be it. */
#include "context/previous.h"

#include <string.h>

#include "base/fold.h"

static const char *const PATH = "visit.previous";

/* A path from the record; in a folder of records a bare name, so that nothing else is read. */
static const char *find_file(const struct resources *resources, const struct visit *visit,
                             struct arena *arena, struct diag *diag)
{
    const char *name = visit->previous.text, *folder = resources->places.records;
    const char *why = NULL;
    if (name[0] == '/')
        why = "is a path from the root; write the path from this record";
    else if (folder && (name[0] == '.' || strchr(name, '/')))
        why = "must be the name of a record of the same folder";
    const char *path =
        why ? NULL : file_join(arena, folder ? folder : file_folder_of(arena, visit->file), name);
    if (path && !file_is_regular(path))
        why = arena_format(arena, "'%s' %s; name the record of the visit before", path,
                           file_exists(path) ? "is no ordinary file" : "is not there");
    if (!why)
        return path;
    diag_report_path(diag, DIAG_ERROR, "no-previous", visit->previous.at, PATH, "%s", why);
    return NULL;
}

/* Looked at before the rest is read, so that a later visit is called that. */
static bool lies_before(const struct visit *visit, const struct node *tree, struct diag *diag)
{
    const struct node *text = tree_find(tree_find(tree, "visit"), "date");
    struct date day;
    char own[16];
    if (!text || text->kind != NODE_SCALAR || !date_read(text->text, false, &day) ||
        date_compare(day, visit->date.date) < 0)
        return true;
    date_write_iso(visit->date.date, own);
    diag_report_path(diag, DIAG_ERROR, "previous-not-before", visit->previous.at, PATH,
                     "is of %s, which does not lie before this visit of %s", text->text, own);
    return false;
}

static bool is_same_name(const char *one, const char *other, struct arena *arena)
{
    return strcmp(fold_text(one, arena), fold_text(other, arena)) == 0;
}

static bool refuse_another(const struct visit *visit, const char *what, struct diag *diag)
{
    diag_report_path(diag, DIAG_ERROR, "previous-of-another", visit->previous.at, PATH,
                     "is another animal's record: it has %s; name this animal's own", what);
    return false;
}

static bool is_same_animal(const struct visit *visit, const struct visit *before,
                           struct arena *arena, struct diag *diag)
{
    const struct visit_patient *now = &visit->patient, *then = &before->patient;
    const struct date_value *hatched = &now->hatched, *then_hatched = &then->hatched;
    const char *what = NULL;
    if (!is_same_name(now->name.text, then->name.text, arena))
        what = arena_format(arena, "the name '%s'", then->name.text);
    else if (hatched->known && then_hatched->known && hatched->date.year != then_hatched->date.year)
        what = arena_format(arena, "%d as the year of hatching", then_hatched->date.year);
    return what ? refuse_another(visit, what, diag) : true;
}

bool previous_is_of(const struct visit *visit, const struct species *now,
                    const struct species *then, struct arena *arena, struct diag *diag)
{
    if (strcmp(now->code.text, then->code.text) == 0)
        return true;
    return refuse_another(visit, arena_format(arena, "the species '%s'", then->code.text), diag);
}

const struct visit *previous_read(const struct resources *resources, const struct visit *visit,
                                  struct arena *arena, struct diag *diag)
{
    const char *path = find_file(resources, visit, arena, diag);
    const struct node *tree = path ? tree_read_file(path, arena, diag) : NULL;
    if (!tree || !lies_before(visit, tree, diag))
        return NULL;
    const struct visit *before = visit_read_tree(tree, path, visit->date.date, arena, diag);
    return before && is_same_animal(visit, before, arena, diag) ? before : NULL;
}
