/* A shelter's list of animals: dropped as CSV, looked at row by row, signed once, made into sheets,
 * taken as one file.
 *
 * A list lies in `.shelter/ID/` of the folder, ID the digest of its bytes; its sheets in
 * `.shelter/ID/sheets`. The sheets are made by a thread that shares nothing with the desk but its
 * counters, one list at a time.
 */
#ifndef BASKLEAF_DESK_SHELTER_H
#define BASKLEAF_DESK_SHELTER_H

#include "desk/handlers.h"

struct shelter;

/* Waits for the sheets that are being made. Accepts NULL. */
void shelter_free(struct shelter *shelter);

/* {csv} -> the list with its rows; ?id= -> the same with how far the making is; {id, by}; {id};
 * ?id= -> the archive */
desk_handler shelter_drop, shelter_show, shelter_sign, shelter_make, shelter_take;

#endif
