/* A visit record written in a test, read and made a plan of as the program does. */
#include "sheet/written.h"

#include <string.h>

const struct visit_record *written_record(const struct resources *resources, const char *text,
                                          struct arena *arena, struct diag *diag)
{
    const struct date today = {2026, 6, 1};
    const struct node *tree = tree_read_bytes("v", (struct bytes){text, strlen(text)}, arena, diag);
    const struct visit *visit = tree ? visit_read_tree(tree, "v", today, arena, diag) : NULL;
    return visit ? visit_plan_make(resources, visit, arena, diag) : NULL;
}
