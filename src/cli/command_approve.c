/* `baskleaf approve`: signs a record or a roster. */
#include <string.h>

#include "batch/packet.h"
#include "signing/sign.h"
#include "context/visit_plan.h"
#include "cli/tell_review.h"
#include "pdf/pdf.h"
#include "render/drawable.h"
#include "records/roster.h"

bool command_is_name(const char *name)
{
    return name && name[strspn(name, " ")] && !name[strcspn(name, "\n\r\t\x1b")] &&
           strlen(name) <= 200;
}

/* Only what can be printed here is signed. */
static bool digest(struct run *run, const struct resources *resources, const struct fonts *fonts,
                   const struct visit_record *record, struct signature_digests *out)
{
    struct signature_digests shared;
    return drawable_check(record->tree, fonts_measure(fonts), NULL, &run->diag) &&
           clinic_may_sign(resources->clinic, &run->diag) &&
           signature_read_shared(resources, fonts, &run->arena, &run->diag, &shared) &&
           signature_digest(record, &shared, &run->arena, &run->diag, out);
}

static void sign(struct run *run, const struct resources *resources,
                 const struct visit_record *record)
{
    const char *path = run->words[0];
    struct signature_digests digests;
    struct bytes text, signed_text;
    const struct signing signing = {"visit", run->options.by, run->today, &digests};
    struct fonts *fonts = fonts_new(resources->fonts, &run->diag);
    bool good = fonts && digest(run, resources, fonts, record, &digests);
    fonts_free(fonts);
    if (!good || !file_read(path, FILE_LIMIT_BYTES, &run->arena, &run->diag, &text) ||
        !sign_text(path, text, &signing, &run->arena, &run->diag, &signed_text))
        return;
    struct telling telling = {.run = run, .resources = resources};
    tell_review(&telling, record->plan, TOLD_ALL, "to look at before signing: ");
    if (sign_write(path, signed_text, &run->diag)) {
        const char *line = arena_format(&run->arena, "%s\n", path);
        command_print(run, line, strlen(line));
    }
}

/* A roster's rows have a line each, the codes once; what can hardly be right is said in words. */
static void tell_row(void *data, const struct care_plan *plan)
{
    struct telling *telling = data;
    struct run *run = telling->run;
    struct strbuf codes;
    tell_review(telling, plan, TOLD_ASKED, "");
    strbuf_init(&codes, &run->arena);
    for (const struct review *review = plan->review; review; review = review->next)
        if (!strstr(codes.text, review->code))
            strbuf_addf(&codes, "%s%s", codes.length ? ", " : "", review->code);
    if (codes.length)
        diag_report(&run->diag, DIAG_REMARK, "review", plan->patient.name.at,
                    "to look at before signing %s: %s", plan->patient.name.text, codes.text);
}

static void sign_roster(struct run *run, const struct resources *resources)
{
    const char *path;
    struct telling telling = {.run = run, .resources = resources};
    const struct packet_signing signing = {
        run->words[0], run->options.by, run->today, {tell_row, &telling}};
    if (packet_sign(resources, &signing, &run->arena, &run->diag, &path)) {
        const char *line = arena_format(&run->arena, "%s\n", path);
        command_print(run, line, strlen(line));
    }
}

/* By its name or its keys; what cannot be read at all is told where it is read in earnest, unless
 * it is the machine's fault, which may have passed by then. */
static bool is_roster(struct run *run, const char *path)
{
    if (roster_is_csv(path))
        return true;
    struct diag quiet;
    diag_init(&quiet);
    const struct node *tree = tree_read_file(path, &run->arena, &quiet);
    if (quiet.counts[DIAG_FAULT])
        diag_report(&run->diag, DIAG_FAULT, quiet.last->code, quiet.last->at, "%s",
                    quiet.last->text);
    diag_finish(&quiet);
    return tree && roster_is_tree(tree);
}

void command_approve(struct run *run)
{
    struct resources resources;
    if (!command_is_name(run->options.by)) {
        diag_report(
            &run->diag, DIAG_USAGE, "usage", (struct mark){0},
            "'approve' needs --by with the name of the veterinarian who signs, on one line");
        return;
    }
    if (strcmp(run->words[0], "-") == 0) {
        diag_report(&run->diag, DIAG_USAGE, "usage", (struct mark){0},
                    "'approve' writes into the record; name its file, not standard input");
        return;
    }
    if (!command_resources(run, &resources))
        return;
    if (is_roster(run, run->words[0])) {
        sign_roster(run, &resources);
        return;
    }
    if (diag_failed(&run->diag))
        return;
    const struct visit_record *record =
        visit_plan_read(&resources, run->words[0], run->today, &run->arena, &run->diag);
    if (record)
        sign(run, &resources, record);
}
