/* Whether the findings of a visit make sense for its animal. */
#include "records/findings.h"
#include "records/species.h"
#include "records/visit.h"

#include <string.h>

#include "base/nearest.h"

bool finding_fits(const struct finding *finding, const struct species *species)
{
    if (!list_has_choice(&finding->groups, species->group.value))
        return false;
    if (finding->reproduction.count && species->reproduction.known &&
        !list_has_choice(&finding->reproduction, species->reproduction.value))
        return false;
    for (size_t i = 0; i < finding->needs.count; i++)
        if (!species_has_trait(species,
                               (enum trait)LIST_AT(finding->needs, struct choice_value, i)->value))
            return false;
    for (size_t i = 0; i < finding->never_with.count; i++)
        if (species_has_trait(
                species, (enum trait)LIST_AT(finding->never_with, struct choice_value, i)->value))
            return false;
    return true;
}

/* The codes of the same body system that do fit, for the message. */
static const char *choices_instead(const struct finding *finding, const struct species *species,
                                   const struct finding_catalogue *catalogue, struct arena *arena)
{
    struct strbuf list;
    strbuf_init(&list, arena);
    for (size_t i = 0; i < catalogue->findings.count; i++) {
        const struct finding *other = LIST_AT(catalogue->findings, struct finding, i);
        if (other->system.value == finding->system.value && finding_fits(other, species))
            strbuf_addf(&list, "%s%s", list.length ? ", " : "", other->name.text);
    }
    return list.text;
}

static bool unknown_finding(const struct visit_finding *found,
                            const struct finding_catalogue *catalogue,
                            const struct species *species, struct diag *diag)
{
    struct nearest nearest;
    nearest_init(&nearest, found->code.text);
    for (size_t i = 0; i < catalogue->findings.count; i++) {
        const struct finding *one = LIST_AT(catalogue->findings, struct finding, i);
        if (finding_fits(one, species))
            nearest_offer(&nearest, one->name.text);
    }
    diag_report_path(diag, DIAG_ERROR, "unknown-finding", found->code.at, "findings.code",
                     nearest.best ? "there is no finding '%s'; did you mean '%s'?"
                                  : "there is no finding '%s'; 'baskleaf start %s' lists them",
                     found->code.text, nearest.best ? nearest.best : species->code.text);
    return false;
}

static const char *levels_of(const struct finding *finding, struct arena *arena)
{
    struct strbuf list;
    strbuf_init(&list, arena);
    for (size_t i = 0; i < finding->severities.count; i++)
        strbuf_addf(&list, "%s%s", i ? ", " : "",
                    bind_choice_word(severity_choices,
                                     LIST_AT(finding->severities, struct choice_value, i)->value));
    return list.text;
}

static bool check_finding(const struct visit_finding *found, const struct species *species,
                          const struct finding_catalogue *catalogue, struct arena *arena,
                          struct diag *diag)
{
    const struct finding *entry = finding_find(catalogue, found->code.text);
    if (!entry)
        return unknown_finding(found, catalogue, species, diag);
    if (!finding_fits(entry, species)) {
        const char *instead = choices_instead(entry, species, catalogue, arena);
        diag_report_path(diag, DIAG_ERROR, "finding-does-not-fit", found->code.at, "findings.code",
                         "'%s' makes no sense for a %s%s%s", found->code.text,
                         species_name(species, "en"), *instead ? "; for it there are: " : "",
                         instead);
        return false;
    }
    int level = found->severity.known ? found->severity.value : SEVERITY_MILD;
    if (!list_has_choice(&entry->severities, level)) {
        diag_report_path(diag, DIAG_ERROR, "level-does-not-fit",
                         found->severity.known ? found->severity.at : found->code.at,
                         "findings.severity", "'%s' cannot be %s; write %s", found->code.text,
                         bind_choice_word(severity_choices, level), levels_of(entry, arena));
        return false;
    }
    if (level == SEVERITY_NORMAL && found->certainty.value == CERTAINTY_SUSPECTED) {
        diag_report_path(diag, DIAG_ERROR, "level-does-not-fit", found->certainty.at,
                         "findings.certainty",
                         "'%s' is normal, and what is normal is not suspected; leave it out, or "
                         "write how severe it would be",
                         found->code.text);
        return false;
    }
    return true;
}

static bool check_procedure(const struct text_value *done, const struct species *species,
                            const struct finding_catalogue *catalogue, struct diag *diag)
{
    const struct procedure *entry = procedure_find(catalogue, done->text);
    if (entry && (!entry->groups.count || list_has_choice(&entry->groups, species->group.value)))
        return true;
    struct nearest nearest;
    nearest_init(&nearest, done->text);
    for (size_t i = 0; !entry && i < catalogue->procedures.count; i++)
        nearest_offer(&nearest, LIST_AT(catalogue->procedures, struct procedure, i)->name.text);
    diag_report_path(diag, DIAG_ERROR, entry ? "procedure-does-not-fit" : "unknown-procedure",
                     done->at, "done-today",
                     entry          ? "'%s' is not done on a %s"
                     : nearest.best ? "there is no procedure '%s'; did you mean '%s'?"
                                    : "there is no procedure '%s'%s",
                     done->text,
                     entry ? bind_choice_word(group_choices, species->group.value)
                           : (nearest.best ? nearest.best : ""));
    return false;
}

/* The other finding of the record that cannot stand beside this one; NULL for none. Each pair is
 * told once, at its second finding. */
static const struct visit_finding *find_excluded(const struct visit *visit, size_t index,
                                                 const struct finding_catalogue *catalogue)
{
    const struct visit_finding *one = LIST_AT(visit->findings, struct visit_finding, index);
    const struct finding *entry = finding_find(catalogue, one->code.text);
    for (size_t i = 0; entry && i < index; i++) {
        const struct visit_finding *other = LIST_AT(visit->findings, struct visit_finding, i);
        const struct finding *beside = finding_find(catalogue, other->code.text);
        if (list_has_text(&entry->excludes, other->code.text) ||
            (beside && list_has_text(&beside->excludes, one->code.text)))
            return other;
    }
    return NULL;
}

static bool check_excluded(const struct visit *visit, size_t index,
                           const struct finding_catalogue *catalogue, struct diag *diag)
{
    const struct visit_finding *one = LIST_AT(visit->findings, struct visit_finding, index);
    const struct visit_finding *other = find_excluded(visit, index, catalogue);
    if (!other)
        return true;
    diag_report_path(diag, DIAG_ERROR, "findings-exclude", one->code.at, "findings.code",
                     "'%s' cannot stand beside '%s' (line %d); leave one of them out",
                     one->code.text, other->code.text, other->code.at.line);
    return false;
}

static bool sex_fits(const struct list *sexes, const struct visit *visit)
{
    return !sexes->count || list_has_choice(sexes, visit->patient.sex.value);
}

static bool check_sex(const struct visit_finding *found, const struct visit *visit,
                      const struct finding_catalogue *catalogue, struct diag *diag)
{
    const struct finding *entry = finding_find(catalogue, found->code.text);
    if (!entry || sex_fits(&entry->sexes, visit))
        return true;
    diag_report_path(diag, DIAG_ERROR, "finding-does-not-fit", found->code.at, "findings.code",
                     "'%s' makes no sense for a %s", found->code.text,
                     bind_choice_word(sex_choices, visit->patient.sex.value));
    return false;
}

static bool check_step(const struct visit_finding *found, const struct finding_catalogue *catalogue,
                       struct diag *diag)
{
    const struct finding *entry = finding_find(catalogue, found->code.text);
    if (!entry || !found->step.text || list_has_text(&entry->steps, found->step.text))
        return true;
    struct nearest nearest;
    nearest_init(&nearest, found->step.text);
    for (size_t i = 0; i < entry->steps.count; i++)
        nearest_offer(&nearest, LIST_AT(entry->steps, struct text_value, i)->text);
    diag_report_path(diag, DIAG_ERROR, "unknown-step", found->step.at, "findings.step",
                     nearest.best ? "'%s' is no step of '%s'; did you mean '%s'?"
                                  : "'%s' is no step of '%s', which has none",
                     found->step.text, found->code.text, nearest.best ? nearest.best : "");
    return false;
}

static bool is_twice(const struct visit *visit, size_t index)
{
    const struct visit_finding *one = LIST_AT(visit->findings, struct visit_finding, index);
    for (size_t i = 0; i < index; i++) {
        const struct visit_finding *other = LIST_AT(visit->findings, struct visit_finding, i);
        bool same_place = (!one->where.text && !other->where.text) ||
                          (one->where.text && other->where.text &&
                           strcmp(one->where.text, other->where.text) == 0);
        if (strcmp(one->code.text, other->code.text) == 0 && same_place)
            return true;
    }
    return false;
}

static struct mark awake_by_written(const struct visit_aftercare *one)
{
    return one->awake_by.text ? one->awake_by.at : (struct mark){0};
}

static struct mark amount_written(const struct visit_aftercare *one)
{
    return one->amount.known ? one->amount.at : (struct mark){0};
}

static struct mark every_written(const struct visit_aftercare *one)
{
    return one->every_h.known ? one->every_h.at : (struct mark){0};
}

static struct mark first_written(const struct visit_aftercare *one)
{
    return one->first.known ? one->first.at : (struct mark){0};
}

static struct mark in_water_written(const struct visit_aftercare *one)
{
    return one->in_water.known ? one->in_water.at : (struct mark){0};
}

static const struct visit_key {
    const char *key, *path;
    struct mark (*written)(const struct visit_aftercare *); /* of no line where it is not */
} said_keys[] = {
    {"awake-by", "follow-up.aftercare.awake-by", awake_by_written},
    {"amount", "follow-up.aftercare.amount", amount_written},
    {"every", "follow-up.aftercare.every", every_written},
    {"first", "follow-up.aftercare.first", first_written},
    {"in-water", "follow-up.aftercare.in-water", in_water_written},
};

/* What no words of the procedure say would be on no page: whose key it is is told. */
static bool check_said(const struct visit_aftercare *one, const struct visit_key *key,
                       const struct finding_catalogue *catalogue, struct arena *scratch,
                       struct diag *diag)
{
    const struct procedure *own = procedure_find(catalogue, one->of.text);
    const struct mark at = key->written(one);
    const char *others = "";
    if (!own || !at.line || list_has_text(&own->says, key->key))
        return true;
    for (size_t i = 0; i < catalogue->procedures.count; i++) {
        const struct procedure *other = LIST_AT(catalogue->procedures, struct procedure, i);
        if (list_has_text(&other->says, key->key))
            others = arena_format(scratch, "%s%s%s", others, *others ? ", " : "", other->name.text);
    }
    diag_report_path(diag, DIAG_ERROR, "aftercare-of-another", at, key->path,
                     "says nothing of '%s'; it belongs to %s", one->of.text, others);
    return false;
}

static bool check_aftercare(const struct visit *visit, const struct finding_catalogue *catalogue,
                            struct arena *scratch, struct diag *diag)
{
    const struct list *list = &visit->follow_up.aftercare;
    bool good = true;
    for (size_t i = 0; i < list->count; i++)
        for (size_t k = 0; k < sizeof said_keys / sizeof *said_keys; k++)
            good = check_said(LIST_AT(*list, struct visit_aftercare, i), &said_keys[k], catalogue,
                              scratch, diag) &&
                   good;
    return good;
}

bool findings_check_visit(const struct visit *visit, const struct species *species,
                          const struct finding_catalogue *catalogue, struct diag *diag)
{
    struct arena scratch;
    arena_init(&scratch);
    bool good = true;
    for (size_t i = 0; i < visit->findings.count; i++) {
        const struct visit_finding *found = LIST_AT(visit->findings, struct visit_finding, i);
        good = check_finding(found, species, catalogue, &scratch, diag) && good;
        good = check_excluded(visit, i, catalogue, diag) && good;
        good = check_sex(found, visit, catalogue, diag) && good;
        good = check_step(found, catalogue, diag) && good;
        if (is_twice(visit, i)) {
            diag_report_path(diag, DIAG_ERROR, "finding-twice", found->code.at, "findings.code",
                             "'%s' stands twice; say under 'where' what differs", found->code.text);
            good = false;
        }
    }
    for (size_t i = 0; i < visit->done_today.count; i++)
        good = check_procedure(LIST_AT(visit->done_today, struct text_value, i), species, catalogue,
                               diag) &&
               good;
    good = check_aftercare(visit, catalogue, &scratch, diag) && good;
    arena_finish(&scratch);
    return good;
}
