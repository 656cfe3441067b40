/* What people type as it can be printed: accents put together, the usual signs in the letters that
 * the sheet's font has, emoji left out, and what the record says shall stand in place of a text
 * (`in-latin`). Asked before anything is made of a record, so that the plan, the sheet, the mail
 * and the signature know one text. */
#ifndef BASKLEAF_RECORDS_LETTERING_H
#define BASKLEAF_RECORDS_LETTERING_H

#include "yaml/tree.h"

/* A tree in which every value is settled; the tree itself where nothing changed. What is left out
 * is a remark at its place. NULL after a DIAG_ERROR: nothing of a value was left. */
const struct node *lettering_settle(const struct node *tree, struct arena *arena,
                                    struct diag *diag);

/* The text in Unicode's Normalization Form C; itself where that changes nothing, or where the
 * program was built without libunistring. */
const char *lettering_compose(const char *text, struct arena *arena);

#endif
