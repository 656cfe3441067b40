/* The pictograms and outlines of the sheets, our own drawings: a field of 48 for a sign; an animal
 * is 100 long and its feet stand on y = 0. */
#include "sheet/wall.h"

#define SIGN(parts_, field_, height_)                                                              \
    {                                                                                              \
        parts_, sizeof(parts_) / sizeof *(parts_), field_, height_                                 \
    }

static const struct pictogram_part bath[] = {
    {PICTOGRAM_STROKE, false, 4, "M3 20 H45"},
    {PICTOGRAM_FILL, false, 0, "M5 24 H43 V34 C43 39 40 42 35 42 H13 C8 42 5 39 5 34 Z"},
    {PICTOGRAM_STROKE, true, 3, "M11 29 C14 26 17 26 20 29 C23 32 26 32 29 29 C32 26 35 26 38 29"},
    {PICTOGRAM_STROKE, false, 4, "M10 20 V8 C10 4 17 4 17 8"},
};

static const struct pictogram_part drop[] = {
    {PICTOGRAM_FILL, false, 0,
     "M24 3 C24 3 8 22 8 31 C8 40 15 46 24 46 C33 46 40 40 40 31 C40 22 24 3 24 3 Z"},
    {PICTOGRAM_STROKE, true, 3.5, "M15 31 C15 36 18 39 22 40"},
};

/* From the tub with water into the dry box. */
static const struct pictogram_part dry[] = {
    {PICTOGRAM_STROKE, false, 3, "M3 25 V42 H20 V25"},
    {PICTOGRAM_FILL, false, 0, "M3 30 C6 28 9 28 12 30 C15 32 18 32 20 30 V42 H3 Z"},
    {PICTOGRAM_STROKE, false, 3, "M28 25 V42 H45 V25"},
    {PICTOGRAM_STROKE, false, 3.5, "M11 20 C13 9 32 6 36 13"},
    {PICTOGRAM_FILL, false, 0, "M29 13 L43 12 L37 22 Z"},
};

static const struct pictogram_part guard[] = {
    {PICTOGRAM_FILL, false, 0, "M24 2 C18 2 15 8 14 16 H34 C33 8 30 2 24 2 Z"},
    {PICTOGRAM_DISC, false, 0, "24 19 5"},
    {PICTOGRAM_STROKE, false, 3, "M6 12 V40 H42 V12"},
    {PICTOGRAM_STROKE, false, 2, "M15 24 V40"},
    {PICTOGRAM_STROKE, false, 2, "M24 28 V40"},
    {PICTOGRAM_STROKE, false, 2, "M33 24 V40"},
    {PICTOGRAM_STROKE, false, 2, "M6 32 H42"},
    {PICTOGRAM_STROKE, false, 2, "M6 24 H42"},
};

static const struct pictogram_part heat[] = {
    {PICTOGRAM_STROKE, false, 4, "M24 2 V8"},
    {PICTOGRAM_FILL, false, 0, "M24 6 C16 6 12 14 10 24 H38 C36 14 32 6 24 6 Z"},
    {PICTOGRAM_DISC, false, 0, "24 28 6"},
    {PICTOGRAM_STROKE, false, 3, "M12 34 L8 42"},
    {PICTOGRAM_STROKE, false, 3, "M24 38 V46"},
    {PICTOGRAM_STROKE, false, 3, "M36 34 L40 42"},
};

static const struct pictogram_part heat_off[] = {
    {PICTOGRAM_STROKE, false, 4, "M24 2 V8"},
    {PICTOGRAM_FILL, false, 0, "M24 6 C16 6 12 14 10 24.5 H38 C36 14 32 6 24 6 Z"},
    {PICTOGRAM_FILL, true, 0, "M24 9.5 C18.5 9.5 16 14 14 21 H34 C32 14 29.5 9.5 24 9.5 Z"},
    {PICTOGRAM_RING, false, 3, "24 28 4.5"},
    {PICTOGRAM_STROKE, true, 9, "M7 44 L41 4"},
    {PICTOGRAM_STROKE, false, 5, "M6 45 L42 3"},
};

static const struct pictogram_part hide[] = {
    {PICTOGRAM_FILL, false, 0, "M3 42 C3 18 12 7 24 7 C36 7 45 18 45 42 Z"},
    {PICTOGRAM_FILL, true, 0, "M15 42 C15 29 18 24 24 24 C30 24 33 29 33 42 Z"},
    {PICTOGRAM_STROKE, false, 4, "M2 43 H46"},
};

static const struct pictogram_part home[] = {
    {PICTOGRAM_FILL, false, 0, "M24 4 L46 24 H40 V44 H8 V24 H2 Z"},
    {PICTOGRAM_FILL, true, 0, "M19 28 H29 V44 H19 Z"},
};

static const struct pictogram_part thermometer[] = {
    {PICTOGRAM_STROKE, false, 9, "M15 9 V30"},  {PICTOGRAM_DISC, false, 0, "15 37 9"},
    {PICTOGRAM_STROKE, true, 3, "M15 16 V34"},  {PICTOGRAM_STROKE, false, 4, "M28 10 H44"},
    {PICTOGRAM_STROKE, false, 4, "M28 21 H40"}, {PICTOGRAM_STROKE, false, 4, "M28 32 H44"},
};

static const struct pictogram_part low[] = {
    {PICTOGRAM_STROKE, false, 4, "M4 5 H20"},
    {PICTOGRAM_STROKE, false, 4, "M28 5 H44"},
    {PICTOGRAM_FILL, false, 0, "M24 37 L11 24 H20 V10 H28 V24 H37 Z"},
    {PICTOGRAM_STROKE, false, 5, "M3 43 H45"},
};

static const struct pictogram_part meal[] = {
    {PICTOGRAM_FILL, false, 0, "M3 25 H45 C45 37 36 44 24 44 C12 44 3 37 3 25 Z"},
    {PICTOGRAM_DISC, false, 0, "14 19 5"},
    {PICTOGRAM_DISC, false, 0, "25 16 6"},
    {PICTOGRAM_DISC, false, 0, "36 19 5"},
};

static const struct pictogram_part moss[] = {
    {PICTOGRAM_FILL, false, 0, "M9 37 C4 18 18 6 43 6 C44 30 32 44 14 40 Z"},
    {PICTOGRAM_STROKE, true, 3, "M14 34 C20 26 26 20 34 14"},
    {PICTOGRAM_STROKE, false, 4.5, "M5 45 L12 36"},
};

/* A bin of soil: a tunnel down to two eggs. */
static const struct pictogram_part nest[] = {
    {PICTOGRAM_STROKE, false, 3.5, "M4 10 V44 H44 V10"},
    {PICTOGRAM_FILL, false, 0, "M4 17 C14 13 34 13 44 17 V44 H4 Z"},
    {PICTOGRAM_STROKE, true, 7, "M34 12 C34 22 32 26 28 30"},
    {PICTOGRAM_FILL, true, 0,
     "M9 33 C9 27 16 25 23 25 C31 25 37 27 37 33 C37 39 31 41 23 41 C15 41 9 39 9 33 Z"},
    {PICTOGRAM_FILL, false, 0,
     "M17 28 C20 28 21.5 31 21.5 34 C21.5 37 20 38.5 17 38.5 C14 38.5 12.5 37 12.5 34 C12.5 31 14 "
     "28 17 28 Z"},
    {PICTOGRAM_FILL, false, 0,
     "M28 28 C31 28 32.5 31 32.5 34 C32.5 37 31 38.5 28 38.5 C25 38.5 23.5 37 23.5 34 C23.5 31 25 "
     "28 28 28 Z"},
};

/* Loose stones on a floor, and an arrow up from it. */
static const struct pictogram_part stones[] = {
    {PICTOGRAM_STROKE, false, 4, "M3 45 H45"},
    {PICTOGRAM_DISC, false, 0, "9 37.5 5"},
    {PICTOGRAM_DISC, false, 0, "20.5 38.5 4"},
    {PICTOGRAM_DISC, false, 0, "30.5 36.5 6"},
    {PICTOGRAM_DISC, false, 0, "41.5 39 3.5"},
    {PICTOGRAM_FILL, false, 0, "M24 2 L37 15 H28 V28 H20 V15 H11 Z"},
};

static const struct pictogram_part paper[] = {
    {PICTOGRAM_RING, false, 6, "14 20 9"},
    {PICTOGRAM_DISC, false, 0, "14 20 2.5"},
    {PICTOGRAM_STROKE, false, 4, "M14 32 H44 L40 28"},
    {PICTOGRAM_STROKE, false, 5, "M3 43 H45"},
};

static const struct pictogram_part pill[] = {
    {PICTOGRAM_STROKE, false, 17, "M14 34 L34 14"},
    {PICTOGRAM_STROKE, true, 10, "M15 33 L23 25"},
};

static const struct pictogram_part stop[] = {
    {PICTOGRAM_FILL, false, 0, "M15 2 H33 L46 15 V33 L33 46 H15 L2 33 V15 Z"},
    {PICTOGRAM_FILL, true, 0, "M21 10 H27 L26 29 H22 Z"},
    {PICTOGRAM_DISC, true, 0, "24 36 3.5"},
};

static const struct pictogram_part tube[] = {
    {PICTOGRAM_STROKE, false, 9, "M8 14 H40"},  {PICTOGRAM_STROKE, false, 4, "M2 14 H46"},
    {PICTOGRAM_STROKE, false, 3, "M12 26 V34"}, {PICTOGRAM_STROKE, false, 3, "M24 26 V38"},
    {PICTOGRAM_STROKE, false, 3, "M36 26 V34"},
};

static const struct pictogram_part tube_off[] = {
    {PICTOGRAM_STROKE, false, 11, "M8 22 H40"}, {PICTOGRAM_STROKE, true, 5, "M8 22 H40"},
    {PICTOGRAM_STROKE, false, 4, "M1 22 H5"},   {PICTOGRAM_STROKE, false, 4, "M43 22 H47"},
    {PICTOGRAM_STROKE, true, 9, "M7 43 L41 5"}, {PICTOGRAM_STROKE, false, 5, "M6 44 L42 4"},
};

static const struct pictogram_part vet[] = {
    {PICTOGRAM_FILL, false, 0, "M4 7 H44 V45 H4 Z"},
    {PICTOGRAM_FILL, true, 0, "M20 14 h8 v8 h8 v8 h-8 v8 h-8 v-8 h-8 v-8 h8 Z"},
    {PICTOGRAM_STROKE, false, 4, "M14 3 V9"},
    {PICTOGRAM_STROKE, false, 4, "M34 3 V9"},
};

/* It lies on a flat floor, and there is no water. */
static const struct pictogram_part wake[] = {
    {PICTOGRAM_STROKE, false, 7, "M5 37 H30"},
    {PICTOGRAM_FILL, false, 0, "M26 33.5 C32 28 41 29 45 34 C46 38 44 40.5 40 40.5 H26 Z"},
    {PICTOGRAM_DISC, true, 0, "38 34 1.8"},
    {PICTOGRAM_STROKE, false, 4, "M2 44.5 H46"},
    {PICTOGRAM_FILL, false, 0,
     "M24 4 C24 4 17 12 17 17 C17 21 20 24 24 24 C28 24 31 21 31 17 C31 12 24 4 24 4 Z"},
    {PICTOGRAM_STROKE, true, 7, "M13 24 L35 4"},
    {PICTOGRAM_STROKE, false, 4, "M12 25 L36 3"},
};

/* A sheet with lines on it: what the veterinarian wrote in words of their own. */
static const struct pictogram_part written[] = {
    {PICTOGRAM_FILL, false, 0, "M6 2 H32 L42 12 V46 H6 Z"},
    {PICTOGRAM_STROKE, true, 4, "M13 20 H35"},
    {PICTOGRAM_STROKE, true, 4, "M13 29 H35"},
    {PICTOGRAM_STROKE, true, 4, "M13 38 H27"},
};

static const struct pictogram_part weigh[] = {
    {PICTOGRAM_FILL, false, 0, "M4 36 H44 V45 H4 Z"},
    {PICTOGRAM_STROKE, false, 5, "M24 36 V31"},
    {PICTOGRAM_RING, false, 4.5, "24 16 12"},
    {PICTOGRAM_STROKE, false, 4, "M24 16 L30 10"},
};

static const struct pictogram_part breath[] = {
    {PICTOGRAM_FILL, false, 0, "M4 14 C12 8 26 10 44 22 L22 25 L4 25 Z"},
    {PICTOGRAM_FILL, false, 0, "M4 28 L20 28 L38 40 C24 44 8 42 4 36 Z"},
    {PICTOGRAM_DISC, true, 0, "16 17 2.4"},
    {PICTOGRAM_STROKE, false, 3, "M30 29 C34 27 36 31 40 29"},
    {PICTOGRAM_STROKE, false, 3, "M34 34 C38 32 41 35 45 33"},
};

static const struct pictogram_part limp[] = {
    {PICTOGRAM_FILL, false, 0,
     "M2 16.1 C8 23.3 13 26.2 19 27.6 C26 33.5 34 32 38 26.2 C41 33.5 47 29.1 47 21.9 C47 16.1 42 "
     "14.6 38 14.6 L41 3 H35.5 L32.5 11.7 H23 L21 3 H15.5 L17 11.7 C11 11.7 6 11.7 2 16.1 Z"},
    {PICTOGRAM_STROKE, false, 4.5, "M3 41 H45"},
    {PICTOGRAM_STROKE, true, 2.4, "M39.5 19 L44.5 25"},
    {PICTOGRAM_STROKE, true, 2.4, "M44.5 19 L39.5 25"},
};

static const struct pictogram_part fit[] = {
    {PICTOGRAM_STROKE, false, 6, "M6 40 C14 40 12 28 20 28 C28 28 26 40 34 40"},
    {PICTOGRAM_DISC, false, 0, "39 37 5.5"},
    {PICTOGRAM_STROKE, false, 3, "M10 22 L6 14"},
    {PICTOGRAM_STROKE, false, 3, "M21 19 L20 9"},
    {PICTOGRAM_STROKE, false, 3, "M32 22 L36 13"},
    {PICTOGRAM_STROKE, false, 3, "M42 26 L47 20"},
};

static const struct pictogram_part blood[] = {
    {PICTOGRAM_FILL, false, 0,
     "M18 2 C18 2 6 17 6 24 C6 31 11 36 18 36 C25 36 30 31 30 24 C30 17 18 2 18 2 Z"},
    {PICTOGRAM_FILL, false, 0,
     "M37 22 C37 22 30 31 30 36 C30 41 33 44 37 44 C41 44 44 41 44 36 C44 31 37 22 37 22 Z"},
    {PICTOGRAM_STROKE, true, 3, "M11 24 C11 28 14 31 17 31"},
};

static const struct pictogram_part bone[] = {
    {PICTOGRAM_STROKE, false, 6, "M12 36 L20 28"}, {PICTOGRAM_STROKE, false, 6, "M28 20 L36 12"},
    {PICTOGRAM_DISC, false, 0, "8 34 5"},          {PICTOGRAM_DISC, false, 0, "14 40 5"},
    {PICTOGRAM_DISC, false, 0, "34 8 5"},          {PICTOGRAM_DISC, false, 0, "40 14 5"},
    {PICTOGRAM_STROKE, false, 3, "M18 20 L22 24"}, {PICTOGRAM_STROKE, false, 3, "M26 28 L30 32"},
};

static const struct pictogram_part belly[] = {
    {PICTOGRAM_FILL, false, 0,
     "M2 16 C12 10 20 10 26 14 C34 8 46 12 46 22 C46 32 34 36 26 32 C18 34 8 28 2 16 Z"},
    {PICTOGRAM_RING, true, 2.5, "33 23 7"},
    {PICTOGRAM_STROKE, false, 3, "M12 32 V40"},
    {PICTOGRAM_STROKE, false, 3, "M18 34 V44"},
};

static const struct pictogram_part poison[] = {
    {PICTOGRAM_STROKE, false, 9, "M15 9 V30"},      {PICTOGRAM_DISC, false, 0, "15 37 9"},
    {PICTOGRAM_STROKE, true, 3, "M15 10 V34"},      {PICTOGRAM_STROKE, false, 4.5, "M32 10 L44 10"},
    {PICTOGRAM_STROKE, false, 4.5, "M38 4 L38 16"}, {PICTOGRAM_STROKE, false, 4.5, "M32 34 L44 34"},
};

static const struct pictogram_part moon[] = {
    {PICTOGRAM_FILL, false, 0,
     "M30 3 C14 5 7 17 9 28 C11 40 24 47 39 42 C26 40 19 32 19 23 C19 14 24 7 30 3 Z"},
};

static const struct pictogram_part hand[] = {
    {PICTOGRAM_STROKE, false, 4, "M24 2 V10"},
    {PICTOGRAM_STROKE, false, 4, "M16 10 H32"},
    {PICTOGRAM_STROKE, false, 3, "M20 15 V20"},
    {PICTOGRAM_STROKE, false, 3, "M28 15 V20"},
    {PICTOGRAM_FILL, false, 0,
     "M4 30 C8 24 14 24 18 28 L26 28 C30 28 30 33 26 33 L20 33 L32 33 L42 26 C46 24 48 28 45 31 "
     "L34 42 H14 L4 40 Z"},
};

static const struct pictogram_part people[] = {
    {PICTOGRAM_DISC, false, 0, "16 17 6"},
    {PICTOGRAM_FILL, false, 0, "M8 26 H24 L27 46 H5 Z"},
    {PICTOGRAM_DISC, false, 0, "35 25 5"},
    {PICTOGRAM_FILL, false, 0, "M29 32 H41 L43 46 H27 Z"},
    {PICTOGRAM_STROKE, true, 9, "M7 43 L41 5"},
    {PICTOGRAM_STROKE, false, 4.5, "M7 43 L41 5"},
};

static const struct pictogram_part plug[] = {
    {PICTOGRAM_FILL, false, 0, "M12 18 H36 V28 C36 34 31 37 24 37 C17 37 12 34 12 28 Z"},
    {PICTOGRAM_STROKE, false, 5, "M18 18 V7"},
    {PICTOGRAM_STROKE, false, 5, "M30 18 V7"},
    {PICTOGRAM_STROKE, false, 5, "M24 36 V46"},
};

static const struct pictogram_part unplug[] = {
    {PICTOGRAM_FILL, false, 0, "M12 18 H36 V28 C36 34 31 37 24 37 C17 37 12 34 12 28 Z"},
    {PICTOGRAM_STROKE, false, 5, "M18 18 V7"},
    {PICTOGRAM_STROKE, false, 5, "M30 18 V7"},
    {PICTOGRAM_STROKE, false, 5, "M24 36 V46"},
    {PICTOGRAM_STROKE, true, 9, "M6 43 L42 5"},
    {PICTOGRAM_STROKE, false, 5, "M5 44 L43 4"},
};

static const struct pictogram_part clock[] = {
    {PICTOGRAM_RING, false, 4.5, "24 24 20"},
    {PICTOGRAM_STROKE, false, 4.5, "M24 12 V24 L33 30"},
};

static const struct pictogram_part test[] = {
    {PICTOGRAM_STROKE, false, 4.5, "M17 5 V34 C17 44 31 44 31 34 V5"},
    {PICTOGRAM_STROKE, false, 4.5, "M12 5 H36"},
    {PICTOGRAM_FILL, false, 0, "M19 24 H29 V34 C29 39 19 39 19 34 Z"},
};

static const struct pictogram_part lizard[] = {
    {PICTOGRAM_FILL, false, 0,
     "M0 -3 C15 -6 30 -10 42 -14 C55 -19 68 -17 76 -15 C80 -20 90 -20 97 -14 C101 -11 100 -8 96 -7 "
     "C90 -5 84 -5 78 -6 L80 0 L72 0 L70 -5 L50 -5 L47 0 L39 0 L40 -6 C30 -5 15 -1 0 -3 Z"},
    {PICTOGRAM_DISC, true, 0, "90 -14 1.5"},
};

static const struct pictogram_part tortoise[] = {
    {PICTOGRAM_FILL, false, 0,
     "M2 -14 L8 -16 C10 -46 30 -58 48 -58 C68 -58 82 -44 84 -20 C88 -32 96 -34 99 -26 C101 -18 92 "
     "-13 84 -12 L84 0 L68 0 L68 -12 L30 -12 L28 0 L12 0 L12 -12 Z"},
    {PICTOGRAM_DISC, true, 0, "95 -26 1.5"},
};

static const struct pictogram_part turtle[] = {
    {PICTOGRAM_FILL, false, 0,
     "M4 -16 C14 -36 34 -42 50 -42 C66 -42 78 -34 82 -24 C88 -32 98 -32 100 -25 C100 -18 92 -16 84 "
     "-14 L74 -12 L64 6 L56 4 L62 -12 L34 -12 L22 4 L14 2 L24 -12 Z"},
    {PICTOGRAM_DISC, true, 0, "94 -26 1.5"},
};

static const struct pictogram_part chameleon[] = {
    {PICTOGRAM_FILL, false, 0,
     "M26 -10 C26 -34 56 -42 72 -26 L78 -42 L96 -26 C101 -20 96 -15 84 -14 L74 -8 L77 2 L69 2 L66 "
     "-8 L48 -8 L46 2 L38 2 L38 -9 C28 -8 20 -2 22 8 C24 18 38 16 36 8 L32 8 C32 12 27 12 27 7 C26 "
     "0 34 -4 40 -8 Z"},
    {PICTOGRAM_DISC, true, 0, "86 -25 2.5"},
};

static const struct pictogram_part frog[] = {
    {PICTOGRAM_FILL, false, 0,
     "M12 0 C0 -10 8 -34 40 -46 C44 -58 58 -60 64 -50 C82 -50 100 -38 99 -28 C98 -20 88 -16 80 -15 "
     "L86 0 L68 0 L64 -14 L54 -6 L60 0 Z"},
    {PICTOGRAM_DISC, true, 0, "57 -50 3"},
};

static const struct pictogram_part salamander[] = {
    {PICTOGRAM_FILL, false, 0,
     "M0 -8 C15 -16 30 -15 44 -13 C56 -15 66 -15 76 -13 C84 -19 98 -17 100 -9 C98 -4 88 -3 78 -5 "
     "L82 0 L75 0 L72 -5 L50 -5 L52 0 L45 0 L43 -6 C30 -4 14 -3 0 -8 Z"},
    {PICTOGRAM_DISC, true, 0, "94 -11 1.4"},
};

static const struct pictogram_part axolotl[] = {
    {PICTOGRAM_FILL, false, 0,
     "M0 -8 C15 -18 30 -17 44 -13 C56 -15 66 -15 76 -13 C84 -19 98 -17 100 -9 C98 -4 88 -3 78 -5 "
     "L82 0 L75 0 L72 -5 L50 -5 L52 0 L45 0 L43 -6 C30 -2 14 -2 0 -8 Z"},
    {PICTOGRAM_STROKE, false, 1.6, "M82 -14 L74 -22"},
    {PICTOGRAM_STROKE, false, 1.6, "M80 -13 L70 -18"},
    {PICTOGRAM_STROKE, false, 1.6, "M84 -15 L80 -24"},
    {PICTOGRAM_DISC, true, 0, "94 -11 1.4"},
};

/* Over its back, and no more. */
static const struct pictogram_part low_tub[] = {
    {PICTOGRAM_STROKE, false, 3, "M2 16 L6 44 H42 L46 16"},
    {PICTOGRAM_STROKE, false, 2,
     "M6 29 C8 27 10 27 12 29 C14 31 16 31 18 29 C20 27 22 27 24 29 C26 31 28 31 30 29 C32 27 34 "
     "27 36 29 C38 31 40 31 42 29"},
    {PICTOGRAM_FILL, false, 0,
     "M9 39 C15 35.5 21 36 26 36.5 C30 33.5 38 34 39 38 C38 40.6 33 41 29 40.4 C22 40.4 15 41 9 39 "
     "Z"},
    {PICTOGRAM_STROKE, false, 1.6, "M32 35.5 L29 32.5"},
    {PICTOGRAM_STROKE, false, 1.6, "M34 35 L32.5 31.5"},
    {PICTOGRAM_DISC, true, 0, "36.6 37.2 0.9"},
};

static const struct pictogram named[PICTOGRAM_NAME_COUNT] = {
    [PICTOGRAM_BATH] = SIGN(bath, 48, 0),         [PICTOGRAM_CLOCK] = SIGN(clock, 48, 0),
    [PICTOGRAM_DROP] = SIGN(drop, 48, 0),         [PICTOGRAM_DRY] = SIGN(dry, 48, 0),
    [PICTOGRAM_GUARD] = SIGN(guard, 48, 0),       [PICTOGRAM_HEAT] = SIGN(heat, 48, 0),
    [PICTOGRAM_HEAT_OFF] = SIGN(heat_off, 48, 0), [PICTOGRAM_HIDE] = SIGN(hide, 48, 0),
    [PICTOGRAM_HOME] = SIGN(home, 48, 0),         [PICTOGRAM_LOG] = SIGN(thermometer, 48, 0),
    [PICTOGRAM_LOW] = SIGN(low, 48, 0),           [PICTOGRAM_MEAL] = SIGN(meal, 48, 0),
    [PICTOGRAM_MOSS] = SIGN(moss, 48, 0),         [PICTOGRAM_NEST] = SIGN(nest, 48, 0),
    [PICTOGRAM_PAPER] = SIGN(paper, 48, 0),       [PICTOGRAM_PILL] = SIGN(pill, 48, 0),
    [PICTOGRAM_STONES] = SIGN(stones, 48, 0),     [PICTOGRAM_STOP] = SIGN(stop, 48, 0),
    [PICTOGRAM_TUBE] = SIGN(tube, 48, 0),         [PICTOGRAM_TUBE_OFF] = SIGN(tube_off, 48, 0),
    [PICTOGRAM_UNPLUG] = SIGN(unplug, 48, 0),     [PICTOGRAM_VET] = SIGN(vet, 48, 0),
    [PICTOGRAM_WAKE] = SIGN(wake, 48, 0),         [PICTOGRAM_WEIGH] = SIGN(weigh, 48, 0),
    [PICTOGRAM_WRITTEN] = SIGN(written, 48, 0),   [PICTOGRAM_LOW_TUB] = SIGN(low_tub, 48, 0),
};

static const struct pictogram alarms[ALARM_COUNT] = {
    [ALARM_BREATH] = SIGN(breath, 48, 0), [ALARM_LIMP] = SIGN(limp, 48, 0),
    [ALARM_FIT] = SIGN(fit, 48, 0),       [ALARM_BLOOD] = SIGN(blood, 48, 0),
    [ALARM_BONE] = SIGN(bone, 48, 0),     [ALARM_BELLY] = SIGN(belly, 48, 0),
    [ALARM_POISON] = SIGN(poison, 48, 0),
};

static const struct pictogram others[WALL_PICTOGRAM_COUNT] = {
    [WALL_PICTOGRAM_MOON] = SIGN(moon, 48, 0),     [WALL_PICTOGRAM_HAND] = SIGN(hand, 48, 0),
    [WALL_PICTOGRAM_PEOPLE] = SIGN(people, 48, 0), [WALL_PICTOGRAM_PLUG] = SIGN(plug, 48, 0),
    [WALL_PICTOGRAM_CLOCK] = SIGN(clock, 48, 0),   [WALL_PICTOGRAM_TEST] = SIGN(test, 48, 0),
};

static const struct pictogram lizard_sign = SIGN(lizard, 100, 17),
                              tortoise_sign = SIGN(tortoise, 100, 58),
                              turtle_sign = SIGN(turtle, 100, 42),
                              chameleon_sign = SIGN(chameleon, 100, 36),
                              frog_sign = SIGN(frog, 100, 46),
                              salamander_sign = SIGN(salamander, 100, 16),
                              axolotl_sign = SIGN(axolotl, 100, 16);

const struct pictogram *wall_pictogram(enum pictogram_name name)
{
    return &named[name];
}

const struct pictogram *wall_alarm_pictogram(enum alarm alarm)
{
    return alarm == ALARM_NONE ? NULL : &alarms[alarm];
}

const struct pictogram *wall_other_pictogram(enum wall_pictogram sign)
{
    return &others[sign];
}

const struct pictogram *wall_outline(const struct care_plan *plan)
{
    static const struct pictogram *const forms[] = {[GROUP_LIZARD] = &lizard_sign,
                                                    [GROUP_TORTOISE] = &tortoise_sign,
                                                    [GROUP_TURTLE] = &turtle_sign,
                                                    [GROUP_FROG] = &frog_sign,
                                                    [GROUP_SALAMANDER] = &salamander_sign};
    enum group group = plan->taxon.group;
    if (group == GROUP_SNAKE)
        return NULL;
    if (plan->taxon.has_gills)
        return &axolotl_sign;
    return plan->taxon.is_chameleon ? &chameleon_sign : forms[group];
}
