/* What the rules name has to exist. */
#include <string.h>

#include "check/data_check.h"
#include "words/slots.h"

static void need_findings(const struct data_check *p, const struct list *codes)
{
    for (size_t i = 0; i < codes->count; i++) {
        const struct text_value *code = LIST_AT(*codes, struct text_value, i);
        if (!finding_find(p->resources->catalogue, code->text))
            diag_report(p->diag, DIAG_ERROR, "unknown-finding", code->at,
                        "there is no finding '%s' in findings.yaml", code->text);
    }
}

static void need_procedure(const struct data_check *p, const struct text_value *code)
{
    if (code->text && !procedure_find(p->resources->catalogue, code->text))
        diag_report(p->diag, DIAG_ERROR, "unknown-procedure", code->at,
                    "there is no procedure '%s' in findings.yaml", code->text);
}

static void need_procedures(const struct data_check *p, const struct list *codes)
{
    for (size_t i = 0; i < codes->count; i++)
        need_procedure(p, LIST_AT(*codes, struct text_value, i));
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

/* Every action of a rule has its row, and every row an action or what is said in one's place. */
static void check_steps(const struct data_check *p)
{
    const struct list *rules = &p->resources->rules->rules;
    const struct step_book *book = p->resources->steps;
    for (size_t i = 0; i < rules->count; i++) {
        const struct text_value *action = &LIST_AT(*rules, struct rule, i)->action;
        if (!step_find(book, action->text))
            diag_report(p->diag, DIAG_ERROR, "no-step", action->at,
                        "'%s' has no row in steps.yaml; write what its row shows", action->text);
    }
    for (size_t i = 0; i < book->steps.count; i++) {
        const struct step *step = LIST_AT(book->steps, struct step, i);
        const struct text_value *name = &step->name;
        topic_written_check(p->resources->topics, &step->own_step, name->text, p->diag);
        const char *key = arena_format(p->arena, "action.%s", name->text);
        bool known = code_index_find(&p->resources->instructions->index, key) != SIZE_MAX;
        for (size_t k = 0; k < rules->count && !known; k++)
            known = strcmp(LIST_AT(*rules, struct rule, k)->action.text, name->text) == 0;
        if (!known)
            diag_report(p->diag, DIAG_ERROR, "unknown-action", name->at,
                        "'%s' is no action of a rule", name->text);
    }
}

/* A slot that nothing fills would never find a sentence. */
static void check_uses(const struct data_check *p)
{
    const struct list *uses = &p->resources->uses->uses;
    for (size_t i = 0; i < uses->count; i++) {
        const struct value_use *use = LIST_AT(*uses, struct value_use, i);
        for (size_t k = 0; k < use->slots.count; k++) {
            const struct text_value *slot = LIST_AT(use->slots, struct text_value, k);
            if (!slots_is_known(slot->text))
                diag_report_path(p->diag, DIAG_ERROR, "unknown-slot", slot->at, use->key.text,
                                 "there is no slot '{%s}' that the plan fills", slot->text);
        }
    }
}

/* Whom a text is for, by what was found or done. */
static void need_whom(const struct data_check *p, const struct whom *whom)
{
    need_findings(p, &whom->found);
    need_findings(p, &whom->never_found);
    need_procedures(p, &whom->done);
    need_procedures(p, &whom->never_done);
}

/* Each text's own whom, and those of its variants. */
static void check_texts(const struct data_check *p)
{
    const struct list *texts = &p->resources->instructions->instructions;
    for (size_t i = 0; i < texts->count; i++) {
        const struct instruction *text = LIST_AT(*texts, struct instruction, i);
        need_whom(p, &text->whom);
        for (size_t k = 0; k < text->variants.count; k++)
            need_whom(p, &LIST_AT(text->variants, struct instruction_variant, k)->whom);
    }
}

static void need_callers(const struct data_check *p, const struct list *rows)
{
    for (size_t i = 0; i < rows->count; i++)
        need_whom(p, &LIST_AT(*rows, struct call_row, i)->whom);
}

/* Who calls for a stance: bundles, states, findings and procedures. */
static void check_calls(const struct data_check *p)
{
    const struct topic_catalogue *topics = p->resources->topics;
    const struct finding_catalogue *catalogue = p->resources->catalogue;
    for (size_t i = 0; i < topics->bundles.count; i++)
        need_callers(p, &LIST_AT(topics->bundles, struct bundle, i)->rows);
    for (size_t i = 0; i < topics->calls.count; i++)
        need_whom(p, &LIST_AT(topics->calls, struct state_call, i)->row.whom);
    for (size_t i = 0; i < catalogue->findings.count; i++)
        need_callers(p, &LIST_AT(catalogue->findings, struct finding, i)->calls);
    for (size_t i = 0; i < catalogue->procedures.count; i++)
        need_callers(p, &LIST_AT(catalogue->procedures, struct procedure, i)->calls);
}

/* During which a food is left out, and with whose look a procedure ends. */
static void check_named(const struct data_check *p)
{
    const struct list *foods = &p->resources->reference->foods;
    const struct list *procedures = &p->resources->catalogue->procedures;
    for (size_t i = 0; i < foods->count; i++)
        need_findings(p, &LIST_AT(*foods, struct food, i)->not_with);
    for (size_t i = 0; i < procedures->count; i++) {
        const struct procedure *procedure = LIST_AT(*procedures, struct procedure, i);
        need_procedure(p, &procedure->check_with);
        need_procedure(p, &procedure->check_unless);
    }
}

static void need_all_of(const struct data_check *p, const struct rule_when *when)
{
    need_findings(p, &when->finding);
    need_findings(p, &when->not_finding);
    need_findings(p, &when->and_finding);
    need_findings(p, &when->and_also);
    need_procedures(p, &when->done);
    need_procedures(p, &when->never_done);
    need_species(p, &when->species);
    need_kinds(p, &when->sheet);
}

/* What conditions name, wherever they stand. */
static void check_conditions(const struct data_check *p)
{
    const struct list *rules = &p->resources->rules->rules;
    const struct list *settlements = &p->resources->settlements->settlements;
    const struct list *calls = &p->resources->topics->calls;
    for (size_t i = 0; i < rules->count; i++) {
        need_all_of(p, &LIST_AT(*rules, struct rule, i)->when);
        need_findings(p, &LIST_AT(*rules, struct rule, i)->raised.finding);
    }
    for (size_t i = 0; i < settlements->count; i++)
        need_all_of(p, &LIST_AT(*settlements, struct stance_settlement, i)->when);
    for (size_t i = 0; i < calls->count; i++)
        need_all_of(p, &LIST_AT(*calls, struct state_call, i)->when);
}

void data_check_rules(const struct data_check *check)
{
    check_steps(check);
    check_uses(check);
    check_texts(check);
    check_calls(check);
    check_conditions(check);
    check_named(check);
}
