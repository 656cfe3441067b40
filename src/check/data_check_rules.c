/* What the rules name has to exist. */
#include <string.h>

#include "check/data_check.h"

static void need_findings(const struct data_check *p, const struct list *codes)
{
    for (size_t i = 0; i < codes->count; i++) {
        const struct text_value *code = LIST_AT(*codes, struct text_value, i);
        if (!finding_find(p->resources->catalogue, code->text))
            diag_report(p->diag, DIAG_ERROR, "unknown-finding", code->at,
                        "there is no finding '%s' in findings.yaml", code->text);
    }
}

static void need_procedures(const struct data_check *p, const struct list *codes)
{
    for (size_t i = 0; i < codes->count; i++) {
        const struct text_value *code = LIST_AT(*codes, struct text_value, i);
        if (!procedure_find(p->resources->catalogue, code->text))
            diag_report(p->diag, DIAG_ERROR, "unknown-procedure", code->at,
                        "there is no procedure '%s' in findings.yaml", code->text);
    }
}

static void need_species(const struct data_check *p, const struct list *codes)
{
    for (size_t i = 0; i < codes->count; i++) {
        const struct text_value *code = LIST_AT(*codes, struct text_value, i);
        bool known = false;
        for (size_t k = 0; k < p->library.count && !known; k++)
            known = strcmp(p->library.items[k]->code.text, code->text) == 0;
        if (!known)
            diag_report(p->diag, DIAG_ERROR, "unknown-species", code->at,
                        "there is no species sheet '%s'", code->text);
    }
}

static void need_kinds(const struct data_check *p, const struct list *names)
{
    for (size_t i = 0; i < names->count; i++)
        sheet_kinds_need(&p->resources->kinds, LIST_AT(*names, struct text_value, i), NULL,
                         p->diag);
}

static bool has_word(const struct choice *choices, const char *word)
{
    for (; choices->word; choices++)
        if (strcmp(choices->word, word) == 0)
            return true;
    return false;
}

static bool is_change(const char *name)
{
    static const struct {
        const char *family;
        const struct choice *choices;
    } families[] = {{"humidity:", humidity_change_choices},
                    {"warmth:", warmth_change_choices},
                    {"feeding:", feeding_change_choices},
                    {"bath:", bath_change_choices}};
    for (size_t i = 0; i < sizeof families / sizeof *families; i++) {
        size_t length = strlen(families[i].family);
        if (strncmp(name, families[i].family, length) == 0)
            return strcmp(name + length, "*") == 0 || has_word(families[i].choices, name + length);
    }
    return false;
}

static void need_action(const struct data_check *p, const struct text_value *name)
{
    const struct list *rules = &p->resources->rules->rules;
    bool known = is_change(name->text);
    for (size_t i = 0; i < rules->count && !known; i++)
        known = strcmp(LIST_AT(*rules, struct rule, i)->action.text, name->text) == 0;
    if (!known)
        diag_report(p->diag, DIAG_ERROR, "unknown-action", name->at,
                    "'%s' is neither an action of a rule nor a change such as humidity:in-shed",
                    name->text);
}

void data_check_rules(const struct data_check *check)
{
    const struct rule_book *book = check->resources->rules;
    for (size_t i = 0; i < book->rules.count; i++) {
        const struct rule_when *when = &LIST_AT(book->rules, struct rule, i)->when;
        need_findings(check, &when->finding);
        need_findings(check, &when->not_finding);
        need_procedures(check, &when->done);
        need_species(check, &when->species);
        need_kinds(check, &when->sheet);
    }
    for (size_t i = 0; i < book->settlements.count; i++) {
        const struct settlement *settlement = LIST_AT(book->settlements, struct settlement, i);
        need_action(check, &settlement->keep);
        need_action(check, &settlement->drop);
    }
}
