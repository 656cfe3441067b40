/* The whole path: bytes -> visit record -> plan -> words -> pages -> PDF. */
#include <stdlib.h>
#include <string.h>

#include "render/render.h"
#include "context/visit_plan.h"
#include "fuzz/fuzz.h"

/* Read once a process: what a long run of sheets shares. */
static struct arena shared_arena;
static struct resources shared;
static struct sheet_context context;
static bool is_ready;

static void read_shared(void)
{
    struct diag diag;
    arena_init(&shared_arena);
    diag_init(&diag);
    const struct places places = {.data_folder = PROJECT_FOLDER};
    fuzz_must(resources_read(&places, &shared_arena, &diag, &shared),
              "our own templates are whole");
    is_ready = sheet_context_init(&context, &shared, &diag);
    fuzz_must(is_ready, "the fonts open");
    diag_finish(&diag);
}

void fuzz_one(struct bytes bytes, struct arena *arena, struct diag *diag)
{
    if (!is_ready)
        read_shared();
    const struct node *tree = tree_read_bytes("visit.yaml", bytes, arena, diag);
    if (!tree)
        return;
    const struct visit *visit =
        visit_read_tree(tree, "visit.yaml", (struct date){2026, 3, 20}, arena, diag);
    const struct visit_record *record = visit ? visit_plan_make(&shared, visit, arena, diag) : NULL;
    if (!record)
        return;
    struct bytes pdf = {0};
    const struct sheet_options options = {0};
    struct signature signature;
    const struct sheet_inputs in = {&context, record->plan, &options, &signature};
    bool good = sheet_context_signature(&context, record, NULL, arena, diag, &signature) &&
                sheet_write(&in, arena, diag, &pdf);
    fuzz_must(good == !diag_failed(diag), "a sheet is whole or refused with a reason");
    if (good)
        fuzz_must(pdf.length > 1000 && memcmp(pdf.data, "%PDF-", 5) == 0, "a PDF comes out");
}
