/* Small pictures of what the owner does at home with hands: which stand beside which words. Inside
 * the sheet layer only. */
#ifndef BASKLEAF_SHEET_HOME_CUTS_H
#define BASKLEAF_SHEET_HOME_CUTS_H

#include "sheet/wall.h"

/* What is drawn; a row of home_cuts.c says when. */
enum home_cut {
    HOME_CUT_NONE,
    HOME_CUT_MOUTH,    /* a syringe at the side of the mouth */
    HOME_CUT_TUBE,     /* a syringe on a tube that leaves the neck */
    HOME_CUT_EYE,      /* a drop into the eye */
    HOME_CUT_SKIN,     /* a film on the skin */
    HOME_CUT_NEEDLE,   /* a needle under the skin */
    HOME_CUT_DRESSING, /* a dressing that stays dry */
    HOME_CUT_EDGE,     /* a dressing on a shell, whose edge is looked at */
    HOME_CUT_BATH,     /* a tub with its water level */
    HOME_CUT_INSECT,   /* one as long as the gap between the eyes */
    HOME_CUT_PREY,     /* one as wide as the snake */
    HOME_CUT_COUNT
};

/* Where on the sheet, in reading order: each is drawn once, where it comes first. */
enum home_cuts_place {
    HOME_CUTS_MEDICINES,
    HOME_CUTS_NOW,
    HOME_CUTS_THEN,
    HOME_CUTS_AFTERCARE,
    HOME_CUTS_FOOD,
    HOME_CUTS_PLACE_COUNT
};

/* Beside the panel of that place; NULL where there is no room or nothing to draw. */
const struct cuts *home_cuts(const struct composition *c, enum home_cuts_place place);

/* In the row of an action, in place of its pictogram; NULL for none. */
const struct pictogram *home_cut_of_action(const struct care_plan *plan, size_t action);

/* The drawing for this animal's form; NULL where it has none (home_cut_paths.c). */
const struct cut *home_cut_drawing(const struct care_plan *plan, enum home_cut cut);

#endif
