/* A shelter's list of animals: dropped as a spreadsheet wrote it, looked at row by row, signed
 * once, made into sheets, taken as one file.
 *
 * How a list is kept stands in shelter_list.h; its sheets lie in `.shelter/ID/sheets`. The sheets
 * are made by a thread that shares nothing with the desk but its counters, one list at a time.
 */
#ifndef BASKLEAF_DESK_SHELTER_H
#define BASKLEAF_DESK_SHELTER_H

#include "desk/handlers.h"

struct shelter;

/* Waits for the sheets that are being made. Accepts NULL. */
void shelter_free(struct shelter *shelter);

desk_handler shelter_drop, shelter_show, shelter_lists, shelter_column, shelter_mend, shelter_leave,
    shelter_sign, shelter_make, shelter_take, shelter_joined;

#endif
