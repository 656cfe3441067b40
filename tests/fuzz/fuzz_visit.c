/* Bytes -> a visit record with all its checks. */
#include "fuzz/fuzz.h"
#include "records/visit.h"

void fuzz_one(struct bytes bytes, struct arena *arena, struct diag *diag)
{
    const struct node *tree = tree_read_bytes("visit.yaml", bytes, arena, diag);
    if (!tree)
        return;
    const struct visit *visit =
        visit_read_tree(tree, "visit.yaml", (struct date){2026, 3, 20}, arena, diag);
    fuzz_must((visit != NULL) == !diag_failed(diag), "a record is whole or refused with a reason");
    if (visit)
        fuzz_must(visit->patient.name.text && visit->patient.species.text && visit->date.known,
                  "what a record must have is there");
}
