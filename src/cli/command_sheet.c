/* `baskleaf sheet`: one record to its PDF, and to a printer where that is asked for. */
#include <stdlib.h>
#include <string.h>

#include "pdftools/pdf_encrypt.h"
#include "print/printer.h"
#include "render/render.h"
#include "context/visit_plan.h"
#include "cli/tell_review.h"
#include "sheet/free_texts.h"

static bool check_options(struct run *run, int *copies)
{
    const struct options *options = &run->options;
    const char *why = NULL;
    char *end = NULL;
    long count = options->copies ? strtol(options->copies, &end, 10) : 1;
    if (!options->print && options->copies)
        why = "--copies says how to print; it needs --print";
    else if (options->print && options->output && strcmp(options->output, "-") == 0)
        why = "--print and -o - both want the sheet; one of them, or -o FILE";
    else if (options->print && options->password_file)
        why = "a printer opens no PDF with a password; --print or --password-file";
    else if (end && (end == options->copies || *end || count < 1 || count > PRINTER_COPIES_MOST))
        why = "'--copies' takes a number from 1 to 99";
    if (why)
        diag_report(&run->diag, DIAG_USAGE, "usage", (struct mark){0}, "%s", why);
    *copies = (int)count;
    return why == NULL;
}

/* The printer's own paper, so that nothing has to be scaled, unless one is asked for. */
static void choose_paper(struct run *run, const struct printer *printer,
                         const struct care_plan *plan, struct sheet_options *sheet_options)
{
    if (sheet_options->paper)
        return;
    sheet_options->paper = printer_paper(printer);
    if (sheet_options->paper)
        return;
    sheet_options->paper = bind_choice_word(paper_choices, (int)plan->letterhead.paper);
    diag_report(&run->diag, DIAG_REMARK, "other-paper", (struct mark){0},
                "the printer '%s' does not say that it holds A4 or Letter; the sheet is for the "
                "clinic's paper, %s",
                printer_name(printer), sheet_options->paper);
}

static void print(struct run *run, struct printer *printer, const struct printer_job *job)
{
    int number;
    if (!printer_print(printer, job, &run->arena, &run->diag, &number))
        return;
    const char *line = arena_format(&run->arena, "%s: job %d\n", printer_name(printer), number);
    command_print(run, line, strlen(line));
}

/* Beside the sheet of the visit, never over it. */
static const char *name_of(struct run *run, const struct care_plan *plan)
{
    const char *kind = run->options.kind;
    if (!kind || strcmp(kind, plan->kind) == 0)
        return sheet_file_name(plan, &run->arena);
    const char *ending = arena_format(&run->arena, "%s.pdf", file_name_part(kind, &run->arena));
    return sheet_name_with(plan, ending, &run->arena);
}

/* A dose in a language that the keeper does not read is no dose. */
static void tell_language(struct run *run, const struct care_plan *plan)
{
    const char *printed_in = run->options.language, *written_in;
    const char *text = free_text_elsewhere(plan, printed_in, &written_in);
    if (text)
        diag_report(&run->diag, DIAG_REMARK, "other-language", (struct mark){0},
                    "the sheet is in '%s' and the record's own words are in '%s': \"%s\"; write "
                    "them in '%s' before it goes home",
                    printed_in, written_in, text, printed_in);
}

/* To a file, to the printer, or both. */
static void deliver(struct run *run, struct sheet_context *sheet_context,
                    const struct care_plan *plan, const struct signature *signature,
                    struct printer *printer, int copies)
{
    struct bytes pdf;
    const char *password;
    if (!command_password(run, &password))
        return;
    struct sheet_options sheet_options = {.language = run->options.language,
                                          .units = run->options.units,
                                          .paper = run->options.paper,
                                          .kind = run->options.kind,
                                          .is_locked = password != NULL};
    const char *name = name_of(run, plan);
    if (printer)
        choose_paper(run, printer, plan, &sheet_options);
    const struct sheet_inputs in = {sheet_context, plan, &sheet_options, signature};
    if (!sheet_write(&in, &run->arena, &run->diag, &pdf) ||
        (password && !pdf_encrypt(pdf, password, &run->arena, &run->diag, &pdf)))
        return;
    tell_language(run, plan);
    const struct result result = {name, sheet_record_id(plan, &run->arena), pdf};
    if (printer && run->options.output && !command_deliver(run, sheet_context->resources, &result))
        return;
    if (printer)
        print(run, printer, &(struct printer_job){pdf, name, sheet_options.paper, copies});
    else
        command_deliver(run, sheet_context->resources, &result);
}

static struct printer *find_printer(struct run *run)
{
    const char *name = run->options.print;
    return printer_find(*name ? name : NULL, &run->arena, &run->diag);
}

void command_sheet(struct run *run)
{
    struct resources resources;
    int copies;
    if (!check_options(run, &copies) || !command_resources(run, &resources))
        return;
    const struct visit_record *record =
        visit_plan_read(&resources, run->words[0], run->today, &run->arena, &run->diag);
    if (!record)
        return;
    run->record = record->tree;
    struct telling telling = {.run = run, .resources = &resources};
    tell_review(&telling, record->plan, TOLD_ASKED, "");
    struct sheet_context sheet_context;
    struct signature signature;
    struct printer *printer = NULL;
    const char *to_printer = run->options.print;
    if (sheet_context_init(&sheet_context, &resources, &run->diag) &&
        sheet_context_can_draw(&sheet_context, record->tree, &run->diag) &&
        sheet_context_signature(&sheet_context, record, run->options.language, &run->arena,
                                &run->diag, &signature) &&
        (!to_printer ||
         signature_may_leave(&signature, record->file, run->options.drafts, &run->diag)) &&
        (!to_printer || (printer = find_printer(run))))
        deliver(run, &sheet_context, record->plan, &signature, printer, copies);
    printer_free(printer);
    sheet_context_finish(&sheet_context);
}
