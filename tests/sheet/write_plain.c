/* The document of a visit as running text, sentence by sentence: write_plain DATA VISIT TODAY
 * [LANGUAGE [whole [SECTION]]]. As it is laid out, or `whole` also where its pages do not do, or of
 * that one section alone. */
#include <stdio.h>
#include <string.h>

#include "render/render.h"
#include "context/visit_plan.h"
#include "document/text_export.h"

struct job {
    struct arena arena;
    struct diag diag;
    struct resources resources;
    struct sheet_context context;
};

static bool write_text(struct job *job, char **argv, struct strbuf *out)
{
    struct date today;
    struct signature signature;
    struct document document;
    struct paged paged;
    bool whole = argv[4] && argv[5] && strcmp(argv[5], "whole") == 0;
    const struct places places = {.data_folder = argv[1]};
    const struct sheet_options options = {.language = argv[4]};
    if (!date_read(argv[3], false, &today) ||
        !resources_read(&places, &job->arena, &job->diag, &job->resources))
        return false;
    const struct visit_record *record =
        visit_plan_read(&job->resources, argv[2], today, &job->arena, &job->diag);
    const struct sheet_inputs in = {&job->context, record ? record->plan : NULL, &options,
                                    &signature};
    bool good =
        record && sheet_context_init(&job->context, &job->resources, &job->diag) &&
        sheet_context_signature(&job->context, record, NULL, &job->arena, &job->diag, &signature) &&
        (whole ? sheet_compose(&in, &job->arena, &job->diag, &document)
               : sheet_lay(&in, &job->arena, &job->diag, &paged));
    if (good)
        text_export_sentences(whole ? &document : paged.document, whole ? argv[6] : NULL, out);
    return good;
}

int main(int argc, char **argv)
{
    struct job job = {0};
    struct strbuf out;
    arena_init(&job.arena);
    diag_init(&job.diag);
    strbuf_init(&out, &job.arena);
    bool good = argc >= 4 && write_text(&job, argv, &out);
    if (good)
        fputs(out.text, stdout);
    diag_print(&job.diag, stderr);
    sheet_context_finish(&job.context);
    diag_finish(&job.diag);
    arena_finish(&job.arena);
    return good ? 0 : 1;
}
