/* What the desk keeps beside the records and forgets after a time that the clinic sets: drafts,
 * texts that lost, voided records, shelters' lists, dropped files that nothing names any more. */
#ifndef BASKLEAF_DESK_RETENTION_H
#define BASKLEAF_DESK_RETENTION_H

#include "desk/store.h"

/* Takes away what nobody has touched for so many days; 0 keeps everything. */
void retention_purge(const struct store *store, int days, long long now);

#endif
