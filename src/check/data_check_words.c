/* Codes of the data against the words of every language, and back. */
#include <string.h>

#include "check/data_check.h"

/* A family of keys: family.<code>.<part> or family.<code>. */
struct family {
    const char *name;
    const char *part; /* NULL: none */
    bool may_lack;    /* the words are optional */
};

static bool is_worded(const struct data_check *p, const struct wording *words,
                      const struct family *family, const char *code)
{
    const char *key = family->part
                          ? arena_format(p->arena, "%s.%s.%s", family->name, code, family->part)
                          : arena_format(p->arena, "%s.%s", family->name, code);
    return catalogue_find(words, key) != NULL;
}

static void need_words(const struct data_check *p, const struct family *family, const char *code,
                       struct mark at)
{
    for (size_t i = 0; i < p->language_count && !family->may_lack; i++)
        if (!is_worded(p, p->words[i], family, code))
            diag_report(p->diag, DIAG_ERROR, "not-worded", at,
                        "'%s' has no words in '%s'; write %s.%s%s%s in wording/%s", code,
                        p->words[i]->lang, family->name, code, family->part ? "." : "",
                        family->part ? family->part : "", p->words[i]->lang);
}

/* ---- every code, each with a visitor -------------------------------------------------------- */

typedef void code_visitor(const struct data_check *p, const struct family *family, const char *code,
                          struct mark at);

static bool has_severity(const struct finding *finding, bool normal)
{
    for (size_t i = 0; i < finding->severities.count; i++)
        if ((LIST_AT(finding->severities, struct choice_value, i)->value == SEVERITY_NORMAL) ==
            normal)
            return true;
    return false;
}

static void each_finding(const struct data_check *p, code_visitor *visit)
{
    static const struct family name = {"finding", "name", false},
                               meaning = {"finding", "meaning", false},
                               home = {"finding", "home", false},
                               never = {"finding", "never", true},
                               normal = {"finding", "normal", false},
                               worse = {"sign", "worse", false},
                               done = {"procedure", "name", false},
                               care = {"procedure", "care", false};
    const struct finding_catalogue *catalogue = p->resources->catalogue;
    for (size_t i = 0; i < catalogue->findings.count; i++) {
        const struct finding *finding = LIST_AT(catalogue->findings, struct finding, i);
        visit(p, &name, finding->name.text, finding->at);
        if (has_severity(finding, true))
            visit(p, &normal, finding->name.text, finding->at);
        if (has_severity(finding, false)) {
            visit(p, &meaning, finding->name.text, finding->at);
            visit(p, &home, finding->name.text, finding->at);
            visit(p, &never, finding->name.text, finding->at);
        }
        for (size_t k = 0; k < finding->already.count; k++) {
            const struct text_value *code = LIST_AT(finding->already, struct text_value, k);
            visit(p, &worse, code->text, code->at);
        }
    }
    for (size_t i = 0; plan_state_sign(i); i++)
        visit(p, &worse, plan_state_sign(i), (struct mark){0});
    for (size_t i = 0; i < catalogue->procedures.count; i++) {
        const struct procedure *procedure = LIST_AT(catalogue->procedures, struct procedure, i);
        visit(p, &done, procedure->name.text, procedure->name.at);
        visit(p, &care, procedure->name.text, procedure->name.at);
    }
}

/* What no reading shows is named as a thing when it is spoken of at the next visit. */
static void need_thing(const struct data_check *p, const struct step *step, code_visitor *visit)
{
    static const struct family thing = {"since.what", NULL, false};
    if (!step->place.known || step->place.value == PLACE_LAMP_DISTANCE)
        visit(p, &thing, step->name.text, step->name.at);
}

static void each_text(const struct data_check *p, const struct list *codes,
                      const struct family *family, code_visitor *visit)
{
    for (size_t i = 0; i < codes->count; i++) {
        const struct text_value *code = LIST_AT(*codes, struct text_value, i);
        visit(p, family, code->text, code->at);
    }
}

/* The actions beside which a text is not printed. */
static void each_said_by(const struct data_check *p, code_visitor *visit)
{
    static const struct family action = {"action", "do", false};
    const struct list *texts = &p->resources->instructions->instructions;
    for (size_t i = 0; i < texts->count; i++) {
        const struct instruction *one = LIST_AT(*texts, struct instruction, i);
        if (one->said_by.text)
            visit(p, &action, one->said_by.text, one->said_by.at);
        for (size_t k = 0; k < one->variants.count; k++) {
            const struct text_value *by =
                &LIST_AT(one->variants, struct instruction_variant, k)->said_by;
            if (by->text)
                visit(p, &action, by->text, by->at);
        }
    }
}

static void each_rule(const struct data_check *p, code_visitor *visit)
{
    static const struct family action = {"action", "do", false}, row = {"action", "short", false},
                               variant = {"action", NULL, false},
                               write = {"wall.write", NULL, false}, how = {"action", "how", true},
                               stop = {"action", "stop", true}, why = {"why", NULL, false},
                               caution = {"caution", NULL, false},
                               about = {"caution-about", NULL, false};
    const struct rule_book *book = p->resources->rules;
    for (size_t i = 0; i < book->rules.count; i++) {
        const struct rule *rule = LIST_AT(book->rules, struct rule, i);
        visit(p, &action, rule->action.text, rule->action.at);
        visit(p, &row, rule->action.text, rule->action.at);
        visit(p, &how, rule->action.text, rule->action.at);
        visit(p, &stop, rule->action.text, rule->action.at);
        visit(p, &why, rule->name.text, rule->at);
    }
    const struct list *steps = &p->resources->steps->steps;
    for (size_t i = 0; i < steps->count; i++) {
        const struct text_value *code = &LIST_AT(*steps, struct step, i)->write;
        visit(p, &write, code->text, code->at);
        need_thing(p, LIST_AT(*steps, struct step, i), visit);
        each_text(p, &LIST_AT(*steps, struct step, i)->bought_as, &action, visit);
        each_text(p, &LIST_AT(*steps, struct step, i)->safe_heat_first, &variant, visit);
        each_text(p, &LIST_AT(*steps, struct step, i)->warms_night, &variant, visit);
        each_text(p, &LIST_AT(*steps, struct step, i)->in_tub, &variant, visit);
    }
    each_said_by(p, visit);
    for (size_t i = 0; i < book->cautions.count; i++) {
        const struct text_value *code = LIST_AT(book->cautions, struct text_value, i);
        visit(p, &caution, code->text, code->at);
        visit(p, &about, code->text, code->at);
    }
}

static void each_species_code(const struct data_check *p, code_visitor *visit)
{
    static const struct family normal = {"normal", NULL, false}, law = {"law", NULL, false};
    for (size_t i = 0; i < p->library.count; i++) {
        const struct species *species = p->library.items[i];
        if (i == 0) /* what was found speaks for all of them */
            visit(p, &normal, "now", species->group.at);
        each_text(p, &species->normal, &normal, visit);
        for (size_t k = 0; k < species->law.count; k++) {
            const struct choice_value *choice = LIST_AT(species->law, struct choice_value, k);
            visit(p, &law, bind_choice_word(law_choices, choice->value), choice->at);
        }
    }
}

/* An animal without a sheet has its group's. */
static void each_unlisted_code(const struct data_check *p, code_visitor *visit)
{
    static const struct family law = {"law", NULL, false};
    const struct list *groups = &p->resources->unlisted->groups;
    for (size_t i = 0; i < groups->count; i++) {
        const struct list *laws = &LIST_AT(*groups, struct species, i)->law;
        for (size_t k = 0; k < laws->count; k++) {
            const struct choice_value *choice = LIST_AT(*laws, struct choice_value, k);
            visit(p, &law, bind_choice_word(law_choices, choice->value), choice->at);
        }
    }
}

static void each_sign(const struct data_check *p, code_visitor *visit)
{
    static const struct family sign = {"sign", NULL, false}, card = {"sign", "card", true};
    const struct list *signs = &p->resources->signs->signs;
    for (size_t i = 0; i < signs->count; i++) {
        const struct warning_sign *row = LIST_AT(*signs, struct warning_sign, i);
        visit(p, &sign, row->name.text, row->name.at);
        visit(p, &card, row->name.text, row->name.at);
    }
}

static void each_food(const struct data_check *p, code_visitor *visit)
{
    static const struct family food = {"food", NULL, false}, never = {"never-food", NULL, false},
                               size = {"sheet.feeding.size", NULL, false};
    const struct reference_values *reference = p->resources->reference;
    for (size_t i = 0; i < reference->foods.count; i++) {
        const struct text_value *name = &LIST_AT(reference->foods, struct food, i)->name;
        visit(p, &food, name->text, name->at);
    }
    for (size_t i = 0; i < reference->never_foods.count; i++) {
        const struct text_value *name = &LIST_AT(reference->never_foods, struct food_rule, i)->name;
        visit(p, &never, name->text, name->at);
    }
    for (size_t i = 0; i < reference->food_sizes.count; i++) {
        const struct text_value *name = &LIST_AT(reference->food_sizes, struct food_rule, i)->name;
        visit(p, &size, name->text, name->at);
    }
}

/* Every row of the table of measures, which is no file. */
static void each_measure(const struct data_check *p, code_visitor *visit)
{
    static const struct family name = {"measure", "name", false},
                               plain = {"measure", "plain", false};
    for (int m = 0; m < MEASURE_COUNT; m++) {
        visit(p, &name, measures[m].id, (struct mark){0});
        visit(p, &plain, measures[m].id, (struct mark){0});
    }
}

static void each_kind(const struct data_check *p, code_visitor *visit)
{
    static const struct family title = {"sheet.title", NULL, false};
    for (size_t i = 0; i < p->resources->kinds.count; i++) {
        const struct text_value *kind = &p->resources->kinds.items[i]->kind;
        visit(p, &title, kind->text, kind->at);
    }
}

static void each_code(const struct data_check *p, code_visitor *visit)
{
    each_kind(p, visit);
    each_finding(p, visit);
    each_rule(p, visit);
    each_species_code(p, visit);
    each_unlisted_code(p, visit);
    each_sign(p, visit);
    each_food(p, visit);
    each_measure(p, visit);
}

/* ---- and back: words without a code ------------------------------------------------------------
 */

/* Families whose codes are all data; the others are named by the program. */
static bool is_data_family(const char *key)
{
    static const char *const names[] = {"finding.", "procedure.",  "action.",        "why.",
                                        "sign.",    "normal.",     "caution-about.", "sheet.title.",
                                        "stance.",  "since.what.", "never-food."};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        if (strncmp(key, names[i], strlen(names[i])) == 0)
            return true;
    return false;
}

struct marking {
    struct data_check check; /* first, so that a visitor finds the marks */
    const struct wording *words;
    bool *used; /* beside words->entries */
};

static void mark_used(const struct data_check *p, const struct family *family, const char *code,
                      struct mark at)
{
    (void)at;
    const struct marking *marking = (const struct marking *)p;
    const char *key = family->part
                          ? arena_format(p->arena, "%s.%s.%s", family->name, code, family->part)
                          : arena_format(p->arena, "%s.%s", family->name, code);
    const struct wording_entry *entry = catalogue_find(marking->words, key);
    if (entry)
        marking->used[entry - marking->words->entries] = true;
}

/* Does the key begin with the code, whole parts of it? */
static bool belongs_to(const char *key, const char *code)
{
    size_t length = strlen(code);
    return strncmp(key, code, length) == 0 && (!key[length] || key[length] == '.');
}

/* The text itself, or what a caution is about. */
static bool speaks_of(const char *key, const char *code)
{
    static const char about[] = "caution-about.", caution[] = "caution.";
    bool is_about = strncmp(key, about, sizeof about - 1) == 0;
    return belongs_to(key, code) ||
           (is_about && strncmp(code, caution, sizeof caution - 1) == 0 &&
            strcmp(key + sizeof about - 1, code + sizeof caution - 1) == 0);
}

static bool is_declared(const struct instruction_catalogue *book, const char *key)
{
    for (size_t i = 0; i < book->instructions.count; i++) {
        const struct instruction *one = LIST_AT(book->instructions, struct instruction, i);
        for (size_t k = 0; k < one->variants.count; k++)
            if (speaks_of(key, LIST_AT(one->variants, struct instruction_variant, k)->key.text))
                return true;
        if (strncmp(one->code.text, "stance.", 7) == 0 && belongs_to(key, one->code.text))
            return true;
        if (strstr(one->code.text, ".own-") && strcmp(key, one->code.text) == 0)
            return true; /* beside her own words in a step */
    }
    return false;
}

/* What stands in for a declared text, and what a stance says by itself. */
static void mark_instructions(const struct marking *marking)
{
    const struct instruction_catalogue *book = marking->check.resources->instructions;
    for (size_t i = 0; i < marking->words->count; i++)
        marking->used[i] |= is_declared(book, marking->words->entries[i].key);
}

/* Every declared text and every variant is worded. */
static void need_instruction(const struct data_check *p, const struct text_value *key)
{
    for (size_t i = 0; i < p->language_count; i++) {
        const struct wording *words = p->words[i];
        bool worded = false;
        for (size_t k = 0; k < words->count && !worded; k++)
            worded = belongs_to(words->entries[k].key, key->text);
        if (!worded)
            diag_report(p->diag, DIAG_ERROR, "not-worded", key->at, "'%s' has no words in '%s'",
                        key->text, words->lang);
    }
}

static void need_instructions(const struct data_check *p)
{
    const struct list *book = &p->resources->instructions->instructions;
    for (size_t i = 0; i < book->count; i++) {
        const struct instruction *one = LIST_AT(*book, struct instruction, i);
        need_instruction(p, &one->code);
        for (size_t k = 0; k < one->variants.count; k++)
            need_instruction(p, &LIST_AT(one->variants, struct instruction_variant, k)->key);
    }
}

static void tell_unused(const struct data_check *p, const struct wording *words)
{
    struct marking marking = {
        .check = *p, .words = words, .used = ARENA_ARRAY(p->arena, bool, words->count)};
    each_code(&marking.check, mark_used);
    mark_instructions(&marking);
    for (size_t i = 0; i < words->count; i++)
        if (!marking.used[i] && is_data_family(words->entries[i].key))
            diag_report(p->diag, DIAG_ERROR, "dead-words", words->entries[i].at,
                        "nothing in the data speaks of '%s'; take it out or name its code",
                        words->entries[i].key);
}

void data_check_words(const struct data_check *check)
{
    for (size_t i = 1; i < check->language_count; i++)
        catalogue_check_pair(check->words[0], check->words[i], check->diag);
    each_code(check, need_words);
    need_instructions(check);
    for (size_t i = 0; i < check->language_count; i++)
        tell_unused(check, check->words[i]);
}

/* ---- signs
 * ---------------------------------------------------------------------------------------- */

static bool names_sign(const struct list *codes, const char *sign)
{
    for (size_t i = 0; i < codes->count; i++)
        if (strcmp(LIST_AT(*codes, struct text_value, i)->text, sign) == 0)
            return true;
    return false;
}

static bool is_raised(const struct data_check *p, const struct warning_sign *sign)
{
    const struct finding_catalogue *catalogue = p->resources->catalogue;
    bool raised = sign->always.value;
    for (size_t i = 0; i < catalogue->findings.count && !raised; i++)
        raised =
            names_sign(&LIST_AT(catalogue->findings, struct finding, i)->warnings, sign->name.text);
    for (size_t i = 0; i < catalogue->procedures.count && !raised; i++)
        raised = names_sign(&LIST_AT(catalogue->procedures, struct procedure, i)->warnings,
                            sign->name.text);
    for (size_t i = 0; i < p->library.count && !raised; i++)
        raised = names_sign(&p->library.items[i]->warnings, sign->name.text);
    return raised;
}

void data_check_need_signs(const struct data_check *p, const struct list *codes)
{
    for (size_t i = 0; i < codes->count; i++) {
        const struct text_value *code = LIST_AT(*codes, struct text_value, i);
        if (!sign_find(p->resources->signs, code->text))
            diag_report(p->diag, DIAG_ERROR, "unknown-sign", code->at,
                        "there is no warning sign '%s' in warning-signs.yaml", code->text);
    }
}

/* Beside what it is a sign to go at once for, and with which others. */
static void check_raising(const struct data_check *check, const struct warning_sign *sign)
{
    const struct finding_catalogue *catalogue = check->resources->catalogue;
    data_check_need_signs(check, &sign->raised_with);
    data_check_need_signs(check, &sign->unless_now);
    const struct {
        const char *key;
        const struct list *codes;
    } beside[] = {{"now-with", &sign->now_with}, {"unless-found", &sign->unless_found}};
    for (size_t k = 0; k < sizeof beside / sizeof *beside; k++)
        for (size_t i = 0; i < beside[k].codes->count; i++) {
            const struct text_value *code = LIST_AT(*beside[k].codes, struct text_value, i);
            if (!finding_find(catalogue, code->text) && !procedure_find(catalogue, code->text))
                diag_report(check->diag, DIAG_ERROR, "unknown-finding", code->at,
                            "%s: there is no finding or procedure '%s'", beside[k].key, code->text);
        }
}

void data_check_signs(const struct data_check *check)
{
    const struct finding_catalogue *catalogue = check->resources->catalogue;
    const struct list *signs = &check->resources->signs->signs;
    for (size_t i = 0; i < catalogue->findings.count; i++)
        data_check_need_signs(check, &LIST_AT(catalogue->findings, struct finding, i)->warnings);
    for (size_t i = 0; i < catalogue->procedures.count; i++)
        data_check_need_signs(check,
                              &LIST_AT(catalogue->procedures, struct procedure, i)->warnings);
    for (size_t i = 0; i < check->library.count; i++)
        data_check_need_signs(check, &check->library.items[i]->warnings);
    const struct list *groups = &check->resources->unlisted->groups;
    for (size_t i = 0; i < groups->count; i++)
        data_check_need_signs(check, &LIST_AT(*groups, struct species, i)->warnings);
    for (size_t i = 0; i < signs->count; i++) {
        const struct warning_sign *sign = LIST_AT(*signs, struct warning_sign, i);
        if (sign->tier.value == TIER_NOW && !sign->alarm.known)
            diag_report(check->diag, DIAG_ERROR, "no-alarm", sign->name.at,
                        "'%s' sends the keeper to a clinic at once; say in 'alarm' beside which "
                        "others it stands",
                        sign->name.text);
        check_raising(check, sign);
        if (!is_raised(check, sign))
            diag_report(check->diag, DIAG_ERROR, "dead-sign", sign->name.at,
                        "no species, finding or procedure raises '%s', and it does not stand on "
                        "every sheet",
                        sign->name.text);
    }
}
