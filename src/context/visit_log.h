/* Finds the logger's file that a record names, and reads it. */
#ifndef BASKLEAF_CONTEXT_VISIT_LOG_H
#define BASKLEAF_CONTEXT_VISIT_LOG_H

#include "context/resources.h"
#include "records/log_read.h"

/* NULL after a DIAG_ERROR. The file lies in the record's folder or below it; where records are a
 * folder's (the desk), in that folder. */
const struct log_file *visit_log_read(const struct resources *resources, const struct visit *visit,
                                      struct arena *arena, struct diag *diag);

#endif
