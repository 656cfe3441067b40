/* Files beside a record, handed in at the desk: a photo of the animal, a logger's readings. */
#ifndef BASKLEAF_DESK_BESIDE_H
#define BASKLEAF_DESK_BESIDE_H

#include "base/file.h"

/* The one address to which more than REQUEST_BODY_LIMIT may be sent, by whoever has the token. */
#define BESIDE_PATH "/api/beside"

#endif
