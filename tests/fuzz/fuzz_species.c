/* Bytes -> a species sheet with all its checks. */
#include "fuzz/fuzz.h"
#include "records/species.h"

void fuzz_one(struct bytes bytes, struct arena *arena, struct diag *diag)
{
    const struct node *tree = tree_read_bytes("species.yaml", bytes, arena, diag);
    if (!tree)
        return;
    struct species *species = ARENA_NEW(arena, struct species);
    species->file = "species.yaml";
    bool good = bind_record(tree, &species_schema, "", arena, diag, species);
    good = good && species_check(species, diag);
    fuzz_must(good == !diag_failed(diag), "a sheet is whole or refused with a reason");
}
