/* The document of a visit as running text, sentence by sentence: write_plain DATA VISIT TODAY
 * [LANGUAGE]. */
#include <stdio.h>

#include "deliver/sheet.h"
#include "deliver/visit_plan.h"
#include "wording/plain.h"

struct job {
    struct arena arena;
    struct diag diag;
    struct resources resources;
    struct press press;
};

static bool write_text(struct job *job, char **argv, struct strbuf *out)
{
    struct date today;
    struct approval approval;
    struct document document;
    const struct places places = {.data_folder = argv[1]};
    const struct sheet_wishes wishes = {.language = argv[4]};
    if (!date_read(argv[3], false, &today) ||
        !resources_read(&places, &job->arena, &job->diag, &job->resources))
        return false;
    const struct care_plan *plan =
        visit_plan_read(&job->resources, argv[2], today, &job->arena, &job->diag);
    bool good =
        plan && press_init(&job->press, &job->resources, &job->diag) &&
        press_approval(&job->press, plan, &job->arena, &job->diag, &approval) &&
        sheet_compose(&job->press, plan, &wishes, &approval, &job->arena, &job->diag, &document);
    if (good)
        plain_write_sentences(&document, NULL, out);
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
    press_finish(&job.press);
    diag_finish(&job.diag);
    arena_finish(&job.arena);
    return good ? 0 : 1;
}
