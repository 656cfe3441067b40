/* Who the sheet is about and who says it, as the record, the species sheet and the clinic's file
 * have it. */
#include <string.h>

#include "care/build.h"

#include "records/species_values.h"

/* The texts of a list of struct text_value. */
static const char *const *texts_of(struct care_build *b, const struct list *list)
{
    const char **texts = ARENA_ARRAY(b->arena, const char *, list->count + 1);
    for (size_t i = 0; i < list->count; i++)
        texts[i] = LIST_AT(*list, struct text_value, i)->text;
    return texts;
}

static const char *const *laws_of(struct care_build *b, const struct list *list)
{
    const char **codes = ARENA_ARRAY(b->arena, const char *, list->count + 1);
    for (size_t i = 0; i < list->count; i++)
        codes[i] = bind_choice_word(law_choices, LIST_AT(*list, struct choice_value, i)->value);
    return codes;
}

const struct plan_name *build_names(struct care_build *b, const struct list *list)
{
    struct plan_name *names = ARENA_ARRAY(b->arena, struct plan_name, list->count + 1);
    for (size_t i = 0; i < list->count; i++) {
        const struct named_text *one = LIST_AT(*list, struct named_text, i);
        names[i] = (struct plan_name){one->name.text, one->text.text};
    }
    return names;
}

static struct taxon_plan species_of(struct care_build *b, const struct species *s)
{
    return (struct taxon_plan){
        .code = s->code.text,
        .scientific = s->scientific.text,
        .names = build_names(b, &s->names),
        .name_count = s->names.count,
        .names_at = s->names.count ? LIST_AT(s->names, struct named_text, 0)->name.at : s->code.at,
        .group = (enum group)s->group.value,
        .habit = (enum habit)s->habit.value,
        .reproduction_known = s->reproduction.known,
        .reproduction = (enum reproduction)s->reproduction.value,
        .normal = texts_of(b, &s->normal),
        .normal_count = s->normal.count,
        .law = laws_of(b, &s->law),
        .law_count = s->law.count,
        .from_clinic = s->from_clinic,
        .is_unlisted = s->is_unlisted,
        .review = s->review,
        .has_gills = species_has_trait(s, TRAIT_GILLS),
        /* lizards that drink drops and keep their tail */
        .is_chameleon = s->group.value == GROUP_LIZARD &&
                        species_has_trait(s, TRAIT_DRINKS_DROPS) &&
                        !species_has_trait(s, TRAIT_DROPS_TAIL),
    };
}

/* Every value that the clinic confirmed; the sheet is looked at, not changed. */
static void list_confirmed(struct care_build *b)
{
    struct species copy = *b->in->species;
    struct taxon_plan *plan = &b->plan->taxon;
    struct species_value *values;
    size_t count = copy.review.by ? species_values(&copy, NULL, b->arena, &values) : 0;
    struct plan_confirmed *list = ARENA_ARRAY(b->arena, struct plan_confirmed, count + 1);
    for (size_t i = 0; i < count; i++) {
        const struct plan_confirmed one = build_confirmed(*values[i].confirmed);
        if (one.by)
            list[plan->confirmed_count++] = one;
    }
    plan->confirmed = list;
    double open_again = (double)copy.review.reopened;
    if (open_again > 0)
        build_review(b, REVIEW_REMARK, "own-sheet-reopened", (struct mark){.file = copy.file},
                     build_fact(b, "count", FACT_COUNT, open_again, open_again, NULL));
}

/* What is written, or its absence in the file that should have it. */
static struct text_value text_in(const struct text_value *text, const char *file)
{
    return text->text ? *text : (struct text_value){.at = {.file = file}};
}

static struct keeper_plan keeper_of(const struct visit *v, const struct clinic *clinic)
{
    const struct visit_keeper *k = &v->keeper;
    return (struct keeper_plan){
        .name = k->name,
        .email = text_in(&k->email, v->file),
        .language = {.text = k->language.text ? k->language.text : clinic->language.text,
                     .at = k->language.at},
        .units = (enum unit_system)(k->units.known ? k->units.value : clinic->units.value),
    };
}

static struct letterhead_plan clinic_of(struct care_build *b, const struct clinic *c)
{
    return (struct letterhead_plan){
        .name = c->name,
        .address = texts_of(b, &c->address),
        .address_count = c->address.count,
        .telephone = c->telephone.text,
        .out_of_hours = c->out_of_hours.text,
        .web = c->web.text,
        .opening = c->opening,
        .hours_text = texts_of(b, &c->hours_text),
        .hours_text_count = c->hours_text.count,
        .hours_at =
            c->hours_text.count ? LIST_AT(c->hours_text, struct text_value, 0)->at : c->name.at,
        .email = text_in(&c->email, c->file),
        .paper = (enum clinic_paper)c->paper.value,
    };
}

static struct own_targets_plan own_targets_of(const struct visit *v)
{
    const struct visit_targets *t = &v->targets;
    bool any = t->meal_g.known || t->every_days.known;
    for (int m = 0; m < MEASURE_COUNT; m++)
        any = any || t->measured[m].known;
    return (struct own_targets_plan){
        .any = any,
        .by = t->by.text ? t->by.text : v->veterinarian.text,
        .because = t->because.text,
    };
}

bool identity_plan(struct care_build *b)
{
    const struct visit *v = b->in->visit;
    struct care_plan *plan = b->plan;
    plan->kind = v->kind.text;
    plan->veterinarian = v->veterinarian.text;
    plan->patient.name = v->patient.name;
    plan->patient.photo = b->in->photo;
    plan->patient.sex = v->patient.sex;
    plan->taxon = species_of(b, b->in->species);
    list_confirmed(b);
    plan->keeper = keeper_of(v, b->in->clinic);
    plan->letterhead = clinic_of(b, b->in->clinic);
    plan->message = v->message.text;
    plan->own_targets = own_targets_of(v);
    return true;
}

const char *plan_name_in(const struct taxon_plan *species, const char *lang)
{
    for (size_t i = 0; i < species->name_count; i++)
        if (strcmp(species->names[i].language, lang) == 0)
            return species->names[i].text;
    return NULL;
}

const char *plan_species_name(const struct care_plan *plan, const char *lang)
{
    const char *name = plan_name_in(&plan->taxon, lang);
    if (!name)
        name = plan_name_in(&plan->taxon, "en");
    return name ? name : plan->taxon.scientific;
}

const char *plan_mate_name(const struct mate_plan *mate, const char *lang)
{
    const struct taxon_plan names = {.names = mate->names, .name_count = mate->name_count};
    const char *name = plan_name_in(&names, lang);
    if (!name)
        name = plan_name_in(&names, "en");
    return name ? name : mate->scientific;
}
