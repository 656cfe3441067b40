/* The small pictures of what is done at home, our own drawings, by the form of the animal: each
 * about 100 wide, its strokes 2 to 5. */
#include "sheet/home_cuts.h"

#include <string.h>

#define CUT(parts_, width_, height_)                                                               \
    {                                                                                              \
        {parts_, sizeof(parts_) / sizeof *(parts_), width_, 0}, height_                            \
    }

/* What several of them share. */
#define SYRINGE_ON_THE_TUBE                                                                        \
    {PICTOGRAM_STROKE, false, 4.5, "M33.9 12.5 L40.4 12.5"},                                       \
        {PICTOGRAM_FILL, false, 0, "M40.4 5 L70.4 5 L70.4 20 L40.4 20 Z"},                         \
        {PICTOGRAM_FILL, true, 0, "M56.9 8.2 L68.2 8.2 L68.2 16.8 L56.9 16.8 Z"},                  \
        {PICTOGRAM_STROKE, false, 4, "M70.4 2 L70.4 23"},                                          \
        {PICTOGRAM_STROKE, false, 4, "M56.9 12.5 L84.4 12.5"},                                     \
    {                                                                                              \
        PICTOGRAM_STROKE, false, 4, "M84.4 6 L84.4 19"                                             \
    }

#define DRESSING_UNDER_THE_SHELL                                                                   \
    {PICTOGRAM_STROKE, false, 4, "M4.3 68 C6.3 43 30.4 32 48.4 32 C68.3 32 88.3 45 90.3 68 Z"},    \
        {PICTOGRAM_STROKE, false, 3, "M10.3 59 C34.4 63 62.4 63 85.3 59"},                         \
        {PICTOGRAM_FILL, false, 0, "M24.4 68 H70.4 V88 H24.4 Z"},                                  \
        {PICTOGRAM_FILL, true, 0, "M27.9 72 H66.9 V84.5 H27.9 Z"},                                 \
        {PICTOGRAM_STROKE, false, 2, "M36.4 71 V86"},                                              \
        {PICTOGRAM_STROKE, false, 2, "M47.4 71 V86"},                                              \
        {PICTOGRAM_STROKE, false, 2, "M58.4 71 V86"},                                              \
        {PICTOGRAM_STROKE, false, 2, "M27 78.2 H68"},                                              \
        {PICTOGRAM_STROKE, false, 6, "M14.4 71 V85"},                                              \
    {                                                                                              \
        PICTOGRAM_STROKE, false, 6, "M80.4 71 V85"                                                 \
    }

#define DRESSING_ALONE                                                                             \
    {PICTOGRAM_FILL, false, 0, "M22.4 38 H74.4 V74 H22.4 Z"},                                      \
        {PICTOGRAM_FILL, true, 0, "M25.9 41.5 H70.9 V70.5 H25.9 Z"},                               \
        {PICTOGRAM_STROKE, false, 2, "M34.9 41 V71"},                                              \
        {PICTOGRAM_STROKE, false, 2, "M43.9 41 V71"},                                              \
        {PICTOGRAM_STROKE, false, 2, "M52.9 41 V71"},                                              \
        {PICTOGRAM_STROKE, false, 2, "M61.9 41 V71"},                                              \
        {PICTOGRAM_STROKE, false, 2, "M25 48.7 H71"}, {PICTOGRAM_STROKE, false, 2, "M25 56 H71"},  \
    {                                                                                              \
        PICTOGRAM_STROKE, false, 2, "M25 63.3 H71"                                                 \
    }

#define NO_WATER                                                                                   \
    {PICTOGRAM_FILL, false, 0,                                                                     \
     "M15.2 2.2 C15.2 2.2 5.3 13.9 5.3 19.6 C5.3 25.2 9.7 28.9 15.2 28.9 C20.9 28.9 25.1 25.2 "    \
     "25.1 19.6 C25.1 13.9 15.2 2.2 15.2 2.2 Z"},                                                  \
        {PICTOGRAM_STROKE, true, 8, "M2.8 26.4 L27.6 2.9"},                                        \
    {                                                                                              \
        PICTOGRAM_STROKE, false, 4.5, "M2.2 27.1 L28.2 2.2"                                        \
    }

static const struct pictogram_part mouth_snake[] = {
    {PICTOGRAM_STROKE, false, 4,
     "M2 9.6 C14 3.6 32 0.6 50 2.6 C68 4.6 84 12.6 93 22.6 C96 26.6 95 30.6 90 32.6 C78 38.6 "
     "64 44.6 50 46.6 C34 48.6 18 48.6 2 47.6"},
    {PICTOGRAM_STROKE, false, 3, "M92 29 C78 28.6 62 30.6 46 36.6"},
    {PICTOGRAM_DISC, false, 0, "66 14.6 4"},
    {PICTOGRAM_DISC, true, 0, "67.2 13.4 1.4"},
    {PICTOGRAM_DISC, false, 0, "86 22.6 1.6"},
    {PICTOGRAM_STROKE, true, 17, "M36.9 49.3 L22.2 65.6"},
    {PICTOGRAM_STROKE, true, 8, "M40.3 45.6 L37.6 48.6"},
    {PICTOGRAM_STROKE, false, 5.5, "M40.1 45.8 L37.6 48.6"},
    {PICTOGRAM_FILL, false, 0, "M42 52.6 L33.3 62.3 L24.4 54.2 L33.1 44.6 Z"},
    {PICTOGRAM_FILL, true, 0, "M36.5 54.4 L32.2 59.2 L27.6 55 L31.9 50.2 Z"},
    {PICTOGRAM_STROKE, false, 4, "M35.6 64.3 L22.2 52.3"},
    {PICTOGRAM_STROKE, false, 4, "M34.9 51.6 L22.9 65"},
    {PICTOGRAM_STROKE, false, 4, "M27.4 69 L18.4 61"},
    {PICTOGRAM_FILL, true, 0,
     "M42.2 43.5 C44.4 38.8 41.7 35.5 45.1 31.7 C47.3 29.3 50.9 29.2 53.3 31.3 C55.6 33.4 55.8 37 "
     "53.7 39.4 C50.2 43.2 46.7 40.8 42.2 43.5 Z"},
    {PICTOGRAM_FILL, false, 0,
     "M43.6 41.9 C45.4 38.2 43.2 35.5 46 32.5 C47.7 30.5 50.6 30.5 52.5 32.1 C54.3 33.8 54.6 36.7 "
     "52.8 38.6 C50.1 41.7 47.2 39.8 43.6 41.9 Z"},
};

static const struct pictogram_part mouth_lizard[] = {
    {PICTOGRAM_STROKE, false, 4,
     "M2 12 C8 6 22 2 38 2 C56 3 66 10 78 18 C86 22 93 26 94 30 C95 34 92 38 86 39.5 C76 44 "
     "62 50 50 52 C40 54 20 54 2 53"},
    {PICTOGRAM_STROKE, false, 3, "M92 34 C78 32.5 58 35 45 41"},
    {PICTOGRAM_DISC, false, 0, "58 17 5"},
    {PICTOGRAM_DISC, true, 0, "59.5 15.5 1.8"},
    {PICTOGRAM_RING, false, 3, "27 26 5"},
    {PICTOGRAM_DISC, false, 0, "86 28 1.6"},
    {PICTOGRAM_STROKE, true, 17, "M35.9 53.6 L21.2 69.9"},
    {PICTOGRAM_STROKE, true, 8, "M39.3 49.9 L36.6 52.9"},
    {PICTOGRAM_STROKE, false, 5.5, "M39.1 50.1 L36.6 52.9"},
    {PICTOGRAM_FILL, false, 0, "M41 56.9 L32.3 66.6 L23.4 58.5 L32.1 48.9 Z"},
    {PICTOGRAM_FILL, true, 0, "M35.5 58.7 L31.2 63.5 L26.6 59.3 L30.9 54.5 Z"},
    {PICTOGRAM_STROKE, false, 4, "M34.6 68.6 L21.2 56.6"},
    {PICTOGRAM_STROKE, false, 4, "M33.9 55.9 L21.9 69.3"},
    {PICTOGRAM_STROKE, false, 4, "M26.4 73.3 L17.4 65.3"},
    {PICTOGRAM_FILL, true, 0,
     "M41.2 47.8 C43.4 43.1 40.7 39.8 44.1 36 C46.3 33.6 49.9 33.5 52.3 35.6 C54.6 37.7 54.8 41.3 "
     "52.7 43.7 C49.2 47.5 45.7 45.1 41.2 47.8 Z"},
    {PICTOGRAM_FILL, false, 0,
     "M42.6 46.2 C44.4 42.5 42.2 39.8 45 36.8 C46.7 34.8 49.6 34.8 51.5 36.4 C53.3 38.1 53.6 41 "
     "51.8 42.9 C49.1 46 46.2 44.1 42.6 46.2 Z"},
};

static const struct pictogram_part mouth_tortoise[] = {
    {PICTOGRAM_STROKE, false, 4,
     "M2 18.8 C12 16.8 22 14.8 32 7.8 C44 -0.2 66 -0.2 80 9.8 C90 16.8 93 24.8 90 32.8 C90 36 "
     "88 38 84 40 C78 48 68 53 56 55 C40 56 20 55 2 56"},
    {PICTOGRAM_STROKE, false, 3, "M87 37 C78 32.6 64 34.6 51 41"},
    {PICTOGRAM_DISC, false, 0, "70 17.8 5"},
    {PICTOGRAM_DISC, true, 0, "71.5 16.2 1.8"},
    {PICTOGRAM_DISC, false, 0, "85 22.8 1.6"},
    {PICTOGRAM_STROKE, false, 2.5, "M6 24.8 C8 28 9 31 9.5 34"},
    {PICTOGRAM_STROKE, false, 2.5, "M16 22.8 C18.5 26.5 19.5 29.5 20 32.5"},
    {PICTOGRAM_STROKE, true, 17, "M41.9 53.3 L27.2 69.6"},
    {PICTOGRAM_STROKE, true, 8, "M45.3 49.6 L42.6 52.6"},
    {PICTOGRAM_STROKE, false, 5.5, "M45.1 49.8 L42.6 52.6"},
    {PICTOGRAM_FILL, false, 0, "M47 56.6 L38.3 66.3 L29.4 58.2 L38.1 48.6 Z"},
    {PICTOGRAM_FILL, true, 0, "M41.5 58.4 L37.2 63.2 L32.6 59 L36.9 54.2 Z"},
    {PICTOGRAM_STROKE, false, 4, "M40.6 68.3 L27.2 56.3"},
    {PICTOGRAM_STROKE, false, 4, "M39.9 55.6 L27.9 69"},
    {PICTOGRAM_STROKE, false, 4, "M32.4 73 L23.4 65"},
    {PICTOGRAM_FILL, true, 0,
     "M47.2 47.5 C49.4 42.8 46.7 39.5 50.1 35.7 C52.3 33.3 55.9 33.2 58.3 35.3 C60.6 37.4 60.8 41 "
     "58.7 43.4 C55.2 47.2 51.7 44.8 47.2 47.5 Z"},
    {PICTOGRAM_FILL, false, 0,
     "M48.6 45.9 C50.4 42.2 48.2 39.5 51 36.5 C52.7 34.5 55.6 34.5 57.5 36.1 C59.3 37.8 59.6 40.7 "
     "57.8 42.6 C55.1 45.7 52.2 43.8 48.6 45.9 Z"},
};

static const struct pictogram_part mouth_frog[] = {
    {PICTOGRAM_STROKE, false, 4,
     "M2 25.5 C12 17.5 24 13.5 36 13.5 C38 -0.5 60 -2.5 64 11.5 C78 15.5 90 23.5 94 31.5 C95 "
     "35.5 92 39 86 41 C76 46 64 50 54 52 C40 55 20 55 2 54"},
    {PICTOGRAM_STROKE, false, 3, "M92 35.5 C78 33.5 54 34.5 39 42"},
    {PICTOGRAM_DISC, false, 0, "51 10.5 6"},
    {PICTOGRAM_DISC, true, 0, "52.8 8.7 2.1"},
    {PICTOGRAM_DISC, false, 0, "86 28 1.6"},
    {PICTOGRAM_STROKE, true, 17, "M30.9 53.8 L16.2 70.1"},
    {PICTOGRAM_STROKE, true, 8, "M34.3 50.1 L31.6 53.1"},
    {PICTOGRAM_STROKE, false, 5.5, "M34.1 50.3 L31.6 53.1"},
    {PICTOGRAM_FILL, false, 0, "M36 57.1 L27.3 66.8 L18.4 58.7 L27.1 49.1 Z"},
    {PICTOGRAM_FILL, true, 0, "M30.5 58.9 L26.2 63.7 L21.6 59.5 L25.9 54.7 Z"},
    {PICTOGRAM_STROKE, false, 4, "M29.6 68.8 L16.2 56.8"},
    {PICTOGRAM_STROKE, false, 4, "M28.9 56.1 L16.9 69.5"},
    {PICTOGRAM_STROKE, false, 4, "M21.4 73.5 L12.4 65.5"},
    {PICTOGRAM_FILL, true, 0,
     "M36.2 48 C38.4 43.3 35.7 40 39.1 36.2 C41.3 33.8 44.9 33.7 47.3 35.8 C49.6 37.9 49.8 41.5 "
     "47.7 43.9 C44.2 47.7 40.7 45.3 36.2 48 Z"},
    {PICTOGRAM_FILL, false, 0,
     "M37.6 46.4 C39.4 42.7 37.2 40 40 37 C41.7 35 44.6 35 46.5 36.6 C48.3 38.3 48.6 41.2 46.8 "
     "43.1 C44.1 46.2 41.2 44.3 37.6 46.4 Z"},
};

static const struct pictogram_part mouth_newt[] = {
    {PICTOGRAM_STROKE, false, 4,
     "M2 12.5 C16 4.5 36 0.5 56 2.5 C76 4.5 92 12.5 94 22.5 C95 27 92 30 86 31.5 C76 36 62 42 "
     "48 45 C30 48 16 49 2 49.5"},
    {PICTOGRAM_STROKE, false, 3, "M92 26.5 C78 26.5 62 28.5 46 34.5"},
    {PICTOGRAM_DISC, false, 0, "70 11.5 4"},
    {PICTOGRAM_DISC, true, 0, "71.2 10.3 1.4"},
    {PICTOGRAM_DISC, false, 0, "88 17.5 1.4"},
    {PICTOGRAM_STROKE, true, 17, "M36.9 47.3 L22.2 63.6"},
    {PICTOGRAM_STROKE, true, 8, "M40.3 43.6 L37.6 46.6"},
    {PICTOGRAM_STROKE, false, 5.5, "M40.1 43.8 L37.6 46.6"},
    {PICTOGRAM_FILL, false, 0, "M42 50.6 L33.3 60.3 L24.4 52.2 L33.1 42.6 Z"},
    {PICTOGRAM_FILL, true, 0, "M36.5 52.4 L32.2 57.2 L27.6 53 L31.9 48.2 Z"},
    {PICTOGRAM_STROKE, false, 4, "M35.6 62.3 L22.2 50.3"},
    {PICTOGRAM_STROKE, false, 4, "M34.9 49.6 L22.9 63"},
    {PICTOGRAM_STROKE, false, 4, "M27.4 67 L18.4 59"},
    {PICTOGRAM_FILL, true, 0,
     "M42.2 41.5 C44.4 36.8 41.7 33.5 45.1 29.7 C47.3 27.3 50.9 27.2 53.3 29.3 C55.6 31.4 55.8 35 "
     "53.7 37.4 C50.2 41.2 46.7 38.8 42.2 41.5 Z"},
    {PICTOGRAM_FILL, false, 0,
     "M43.6 39.9 C45.4 36.2 43.2 33.5 46 30.5 C47.7 28.5 50.6 28.5 52.5 30.1 C54.3 31.8 54.6 34.7 "
     "52.8 36.6 C50.1 39.7 47.2 37.8 43.6 39.9 Z"},
};

static const struct pictogram_part tube_snake[] = {
    {PICTOGRAM_STROKE, false, 4,
     "M2 52.5 C11.9 47.6 26.6 45.2 41.4 46.8 C56.2 48.4 69.3 55 76.7 63.2 C78.3 66.5 76.7 68.9 "
     "72.6 68.9 L38.1 72.2"},
    {PICTOGRAM_STROKE, false, 4,
     "M38.1 72.2 L67.6 78 C70.1 80.4 66 83.7 59.4 84.5 C43 87 20.1 87 2 83.7"},
    {PICTOGRAM_DISC, false, 0, "54.5 56.6 3.3"},
    {PICTOGRAM_DISC, true, 0, "55.5 55.7 1.1"},
    {PICTOGRAM_DISC, false, 0, "70.1 64 1.3"},
    {PICTOGRAM_STROKE, true, 9, "M19.4 49.9 V84.7"},
    {PICTOGRAM_STROKE, false, 3, "M14.4 51.4 V83.2"},
    {PICTOGRAM_STROKE, false, 3, "M24.4 49.9 V82.7"},
    {PICTOGRAM_DISC, false, 0, "19.4 67.3 3.4"},
    {PICTOGRAM_STROKE, false, 3.4, "M19.4 67.3 C19.4 30.5 14.4 12.5 34.4 12.5"},
    SYRINGE_ON_THE_TUBE,
};

static const struct pictogram_part tube_lizard[] = {
    {PICTOGRAM_STROKE, false, 4,
     "M2 50.9 C7 46 18.4 42.7 31.6 42.7 C46.3 43.5 54.5 49.3 64.4 55.8 C70.9 59.1 76.7 62.4 77.5 "
     "65.7 C77.5 68.9 75 69.8 70.9 69.8 L33.2 72.2"},
    {PICTOGRAM_STROKE, false, 4,
     "M33.2 72.2 L66 78 C69.3 80.4 64.4 83.7 57.8 83.7 C44.7 84.5 36.5 87 28.3 91.9 C21.7 96 11.9 "
     "96.8 2 95.2"},
    {PICTOGRAM_DISC, false, 0, "48 55 4.1"},
    {PICTOGRAM_DISC, true, 0, "49.2 53.8 1.5"},
    {PICTOGRAM_RING, false, 3, "25 65.7 4.1"},
    {PICTOGRAM_DISC, false, 0, "70.9 64 1.3"},
    {PICTOGRAM_STROKE, true, 9, "M19.4 48.3 V95.4"},
    {PICTOGRAM_STROKE, false, 3, "M14.4 49.8 V93.9"},
    {PICTOGRAM_STROKE, false, 3, "M24.4 48.3 V93.4"},
    {PICTOGRAM_DISC, false, 0, "19.4 71.8 3.4"},
    {PICTOGRAM_STROKE, false, 3.4, "M19.4 71.8 C19.4 30.5 14.4 12.5 34.4 12.5"},
    SYRINGE_ON_THE_TUBE,
};

static const struct pictogram_part tube_tortoise[] = {
    {PICTOGRAM_STROKE, false, 4,
     "M2 55.8 C10.2 54.2 18.4 52.5 26.6 46.8 C36.5 40.2 54.5 40.2 66 48.4 C74.2 54.2 76.7 60.7 "
     "74.2 67.3 C74.2 69.8 72.6 71.4 70.9 72.2 L41.4 72.2"},
    {PICTOGRAM_STROKE, false, 4,
     "M41.4 72.2 L66 78.8 C66 83.7 57.8 87 48 87 C34.8 87 16.8 88.6 2 91.9"},
    {PICTOGRAM_DISC, false, 0, "57.8 55.8 4.1"},
    {PICTOGRAM_DISC, true, 0, "59 54.6 1.5"},
    {PICTOGRAM_DISC, false, 0, "70.9 59.1 1.3"},
    {PICTOGRAM_STROKE, false, 2.5, "M10.2 62.4 C13.5 68.9 13.5 75.5 11.1 82.1"},
    {PICTOGRAM_STROKE, false, 2.5, "M18.4 60.7 C22.5 68.1 22.5 76.3 20.1 83.7"},
    {PICTOGRAM_STROKE, true, 9, "M19.4 53.2 V91.3"},
    {PICTOGRAM_STROKE, false, 3, "M14.4 54.7 V89.8"},
    {PICTOGRAM_STROKE, false, 3, "M24.4 53.2 V89.3"},
    {PICTOGRAM_DISC, false, 0, "19.4 72.2 3.4"},
    {PICTOGRAM_STROKE, false, 3.4, "M19.4 72.2 C19.4 30.5 14.4 12.5 34.4 12.5"},
    SYRINGE_ON_THE_TUBE,
};

static const struct pictogram_part eye[] = {
    {PICTOGRAM_STROKE, false, 4, "M2 84.5 C6 62.5 24 48.5 46 48.5 C70 48.5 88 62.5 96 80.5"},
    {PICTOGRAM_RING, false, 4, "46 74.5 12"},
    {PICTOGRAM_DISC, false, 0, "46 74.5 6"},
    {PICTOGRAM_DISC, true, 0, "48.5 72 2"},
    {PICTOGRAM_FILL, true, 0,
     "M46 27.6 C46 27.6 36 39.5 36 46.5 C36 52.5 40 56.5 46 56.5 C52 56.5 56 52.5 56 46.5 C56 39.5 "
     "46 27.6 46 27.6 Z"},
    {PICTOGRAM_FILL, false, 0,
     "M46 32.5 C46 32.5 40 40.5 40 45 C40 49 43 51.5 46 51.5 C49 51.5 52 49 52 45 C52 40.5 46 32.5 "
     "46 32.5 Z"},
    {PICTOGRAM_FILL, false, 0, "M47.1 25.9 L54.7 19.1 L58.7 26.1 L48.9 29.2 Z"},
    {PICTOGRAM_STROKE, false, 3.5, "M53 14.2 L74.7 1.8 L83.7 17.4 L62 29.9 L53 14.2"},
    {PICTOGRAM_FILL, false, 0, "M62.6 8.8 L74.7 1.8 L83.7 17.4 L71.6 24.4 Z"},
};

static const struct pictogram_part skin[] = {
    {PICTOGRAM_STROKE, false, 4, "M2 77 C26 63 70 63 98 77"},
    {PICTOGRAM_FILL, false, 0, "M22 69 C34 60.5 66 60.5 78 69 C66 65 34 65 22 69 Z"},
    {PICTOGRAM_FILL, true, 0,
     "M78.6 8.3 L44.6 42.4 C40.5 46.5 40.5 53 44.6 57.1 C48.7 61.2 55.3 61.2 59.4 57.1 L93.4 23.1 "
     "Z"},
    {PICTOGRAM_STROKE, false, 4,
     "M78.6 8.3 L44.6 42.4 C40.5 46.5 40.5 53 44.6 57.1 C48.7 61.2 55.3 61.2 59.4 57.1 L93.4 23.1"},
    {PICTOGRAM_STROKE, false, 2.5, "M62.5 32.5 L69.5 39.5"},
    {PICTOGRAM_STROKE, false, 2.5, "M67 28 L74 35"},
    {PICTOGRAM_STROKE, false, 3, "M46 48.8 C45 43.8 48 40.8 53 41.8"},
    {PICTOGRAM_STROKE, false, 2.5, "M10 59 L17 62"},
    {PICTOGRAM_STROKE, false, 2.5, "M83 62 L90 59"},
    {PICTOGRAM_FILL, false, 0, "M6 1.8 H28 L25 33.8 H9 Z"},
    {PICTOGRAM_FILL, false, 0, "M13 33.8 H21 V40.8 H13 Z"},
    {PICTOGRAM_STROKE, false, 3.5, "M5 1.8 H29"},
    {PICTOGRAM_FILL, true, 0, "M12 11.8 H22 V15.8 H12 Z"},
    {PICTOGRAM_FILL, true, 0, "M15 8.8 H19 V18.8 H15 Z"},
};

/* Under the shell; and a dressing alone, where the record does not say on which side it sits. */
static const struct pictogram_part dressing_under[] = {
    DRESSING_UNDER_THE_SHELL,
    NO_WATER,
};

static const struct pictogram_part dressing_pad[] = {
    DRESSING_ALONE,
    NO_WATER,
};

static const struct pictogram_part look_under[] = {
    DRESSING_UNDER_THE_SHELL,
    {PICTOGRAM_STROKE, false, 3.5,
     "M1.8 10.8 C9.8 -1.2 27.8 -1.2 35.8 10.8 C27.8 22.8 9.8 22.8 1.8 10.8 Z"},
    {PICTOGRAM_DISC, false, 0, "18.8 10.8 5.5"},
};

static const struct pictogram_part look_pad[] = {
    DRESSING_ALONE,
    {PICTOGRAM_STROKE, false, 3.5,
     "M1.8 10.8 C9.8 -1.2 27.8 -1.2 35.8 10.8 C27.8 22.8 9.8 22.8 1.8 10.8 Z"},
    {PICTOGRAM_DISC, false, 0, "18.8 10.8 5.5"},
    {PICTOGRAM_STROKE, false, 2.5, "M25.8 20.8 L31 33"},
};

static const struct pictogram_part dressing[] = {
    {PICTOGRAM_STROKE, false, 4, "M2 50 C20 42 30 50 50 50 C70 50 80 42 98 48"},
    {PICTOGRAM_STROKE, false, 4, "M2 82 C20 76 30 84 50 84 C70 84 80 76 98 80"},
    {PICTOGRAM_FILL, false, 0, "M34 45 H70 V88 H34 Z"},
    {PICTOGRAM_FILL, true, 0, "M37.5 48.5 H66.5 V84.5 H37.5 Z"},
    {PICTOGRAM_STROKE, false, 2.4, "M38 60 L66 50"},
    {PICTOGRAM_STROKE, false, 2.4, "M38 71 L66 61"},
    {PICTOGRAM_STROKE, false, 2.4, "M38 82 L66 72"},
    {PICTOGRAM_FILL, false, 0,
     "M22 2.2 C22 2.2 10 16.6 10 23.2 C10 30.1 15.2 34.5 22 34.5 C28.8 34.5 34 30.1 34 23.2 C34 "
     "16.6 22 2.2 22 2.2 Z"},
    {PICTOGRAM_STROKE, true, 8, "M7 31.6 L37 3"},
    {PICTOGRAM_STROKE, false, 4.5, "M6.2 32.2 L37.8 2.2"},
};

static const struct pictogram_part needle[] = {
    {PICTOGRAM_STROKE, false, 4, "M2 60 C20 46 34 40 52 42 C70 44 86 50 98 60"},
    {PICTOGRAM_STROKE, false, 2.2, "M38 50 L49.9 39.3"},
    {PICTOGRAM_STROKE, false, 4.5, "M51 38.3 L55.8 33.9"},
    {PICTOGRAM_FILL, false, 0, "M51.2 28.7 L72 10 L81.3 20.4 L60.5 39.1 Z"},
    {PICTOGRAM_FILL, true, 0, "M64.7 20.8 L72.5 13.9 L77.6 19.5 L69.8 26.5 Z"},
    {PICTOGRAM_STROKE, false, 4, "M70 7.8 L83.3 22.6"},
    {PICTOGRAM_STROKE, false, 4, "M67.3 23.6 L86.3 6.5"},
    {PICTOGRAM_STROKE, false, 4, "M82.3 2 L90.3 11"},
};

static const struct pictogram_part bath_lizard[] = {
    {PICTOGRAM_STROKE, false, 4, "M2 2 L8 53 H79 L85 2"},
    {PICTOGRAM_STROKE, false, 2.6,
     "M10.5 44.5 C13.6 41.5 16.8 41.5 19.9 44.5 C23.1 47.5 26.2 47.5 29.4 44.5 C32.5 41.5 35.6 "
     "41.5 38.8 44.5 C41.9 47.5 45.1 47.5 48.2 44.5 C51.4 41.5 54.5 41.5 57.6 44.5 C60.8 47.5 63.9 "
     "47.5 67.1 44.5 C70.2 41.5 73.4 41.5 76.5 44.5"},
    {PICTOGRAM_FILL, false, 0,
     "M6.5 47.8 C17.6 45.6 28.7 42.6 37.6 39.6 C47.2 35.9 56.8 37.4 62.7 38.9 C65.7 35.2 73.1 35.2 "
     "78.3 39.6 C81.2 41.9 80.5 44.1 77.5 44.8 C73.1 46.3 68.7 46.3 64.2 45.6 L65.7 50 L59.8 50 "
     "L58.3 46.3 L43.5 46.3 L41.3 50 L35.4 50 L36.1 45.6 C28.7 46.3 17.6 49.3 6.5 47.8 Z"},
    {PICTOGRAM_DISC, true, 0, "73.1 39.6 1.6"},
    {PICTOGRAM_STROKE, true, 2.2,
     "M8.5 44.5 C11.5 42.5 14.5 42.5 17.5 44.5 C20.5 46.5 23.5 46.5 26.5 44.5 C29.5 42.5 32.5 42.5 "
     "35.5 44.5 C38.5 46.5 41.5 46.5 44.5 44.5 C47.5 42.5 50.5 42.5 53.5 44.5 C56.5 46.5 59.5 46.5 "
     "62.5 44.5 C65.5 42.5 68.5 42.5 71.5 44.5 C74.5 46.5 77.5 46.5 80.5 44.5"},
    {PICTOGRAM_FILL, false, 0, "M88 44.5 L97 38.5 V50.5 Z"},
};

static const struct pictogram_part bath_tortoise[] = {
    {PICTOGRAM_STROKE, false, 4, "M2 2 L8 53 H79 L85 2"},
    {PICTOGRAM_STROKE, false, 2.6,
     "M9.9 39 C13.1 36 16.3 36 19.5 39 C22.7 42 25.9 42 29.1 39 C32.3 36 35.5 36 38.7 39 C41.9 42 "
     "45.1 42 48.3 39 C51.5 36 54.7 36 57.9 39 C61.1 42 64.3 42 67.5 39 C70.7 36 73.9 36 77.1 39"},
    {PICTOGRAM_FILL, false, 0,
     "M10.9 40.5 L14.9 39.1 C16.3 18.7 29.9 10.6 42.1 10.6 C55.7 10.6 65.3 20.1 66.6 36.4 C69.3 "
     "28.2 74.8 26.9 76.8 32.3 C78.2 37.8 72.1 41.2 66.6 41.8 L66.6 50 L55.7 50 L55.7 41.8 L29.9 "
     "41.8 L28.5 50 L17.7 50 L17.7 41.8 Z"},
    {PICTOGRAM_DISC, true, 0, "74.1 32.3 1.6"},
    {PICTOGRAM_STROKE, true, 2.2,
     "M11.5 39 C14.6 37 17.8 37 20.9 39 C24.1 41 27.2 41 30.4 39 C33.5 37 36.6 37 39.8 39 C42.9 41 "
     "46.1 41 49.2 39 C52.4 37 55.5 37 58.6 39 C61.8 41 64.9 41 68.1 39 C71.2 37 74.4 37 77.5 39"},
    {PICTOGRAM_FILL, false, 0, "M88 39 L97 33 V45 Z"},
};

static const struct pictogram_part bath_turtle[] = {
    {PICTOGRAM_STROKE, false, 4, "M2 2 L8 53 H79 L85 2"},
    {PICTOGRAM_STROKE, false, 2.6,
     "M9.6 37 C12.4 34 15.3 34 18.1 37 C20.9 40 23.7 40 26.6 37 C29.4 34 32.2 34 35 37 C37.9 40 "
     "40.7 40 43.5 37 C46.3 34 49.1 34 52 37 C54.8 40 57.6 40 60.4 37 C63.3 34 66.1 34 68.9 37 "
     "C71.7 40 74.6 40 77.4 37"},
    {PICTOGRAM_FILL, false, 0,
     "M11.3 35.8 C18.3 21.8 32.3 17.6 43.5 17.6 C54.7 17.6 63.1 23.2 65.9 30.2 C70.1 24.6 77.1 "
     "24.6 78.5 29.5 C78.5 34.4 72.9 35.8 67.3 37.2 L60.3 38.6 L53.3 51.2 L47.7 49.8 L51.9 38.6 "
     "L32.3 38.6 L23.9 49.8 L18.3 48.4 L25.3 38.6 Z"},
    {PICTOGRAM_DISC, true, 0, "74.3 28.8 1.6"},
    {PICTOGRAM_STROKE, true, 2.2,
     "M10.5 37 C13.3 35 16.2 35 19 37 C21.8 39 24.7 39 27.5 37 C30.3 35 33.2 35 36 37 C38.8 39 "
     "41.7 39 44.5 37 C47.3 35 50.2 35 53 37 C55.8 39 58.7 39 61.5 37 C64.3 35 67.2 35 70 37 C72.8 "
     "39 75.7 39 78.5 37"},
    {PICTOGRAM_FILL, false, 0, "M88 37 L97 31 V43 Z"},
};

static const struct pictogram_part bath_frog[] = {
    {PICTOGRAM_STROKE, false, 4, "M2 2 L8 53 H79 L85 2"},
    {PICTOGRAM_STROKE, false, 2.6,
     "M9.5 36 C12.3 33 15.2 33 18 36 C20.8 39 23.7 39 26.5 36 C29.3 33 32.2 33 35 36 C37.8 39 40.7 "
     "39 43.5 36 C46.3 33 49.2 33 52 36 C54.8 39 57.7 39 60.5 36 C63.3 33 66.2 33 69 36 C71.8 39 "
     "74.7 39 77.5 36"},
    {PICTOGRAM_FILL, false, 0,
     "M20.7 50 C13.5 44 18.3 29.6 37.5 22.4 C39.9 15.2 48.3 14 51.9 20 C62.7 20 73.5 27.2 72.9 "
     "33.2 C72.3 38 66.3 40.4 61.5 41 L65.1 50 L54.3 50 L51.9 41.6 L45.9 46.4 L49.5 50 Z"},
    {PICTOGRAM_DISC, true, 0, "47.7 20 1.8"},
    {PICTOGRAM_STROKE, true, 2.2,
     "M15.5 36 C18.7 34 21.9 34 25.2 36 C28.4 38 31.6 38 34.8 36 C38.1 34 41.3 34 44.5 36 C47.7 38 "
     "50.9 38 54.2 36 C57.4 34 60.6 34 63.8 36 C67.1 38 70.3 38 73.5 36"},
    {PICTOGRAM_FILL, false, 0, "M88 36 L97 30 V42 Z"},
};

static const struct pictogram_part bath_newt[] = {
    {PICTOGRAM_STROKE, false, 4, "M2 2 L8 53 H79 L85 2"},
    {PICTOGRAM_STROKE, false, 2.6,
     "M10.6 45.5 C13.7 42.5 16.9 42.5 20 45.5 C23.1 48.5 26.3 48.5 29.4 45.5 C32.5 42.5 35.7 42.5 "
     "38.8 45.5 C41.9 48.5 45.1 48.5 48.2 45.5 C51.3 42.5 54.5 42.5 57.6 45.5 C60.7 48.5 63.9 48.5 "
     "67 45.5 C70.1 42.5 73.3 42.5 76.4 45.5"},
    {PICTOGRAM_FILL, false, 0,
     "M7.5 44.2 C18.3 38.5 29.1 39.2 39.2 40.6 C47.8 39.2 55 39.2 62.2 40.6 C68 36.3 78.1 37.8 "
     "79.5 43.5 C78.1 47.1 70.9 47.8 63.7 46.4 L66.5 50 L61.5 50 L59.3 46.4 L43.5 46.4 L44.9 50 "
     "L39.9 50 L38.5 45.7 C29.1 47.1 17.6 47.8 7.5 44.2 Z"},
    {PICTOGRAM_DISC, true, 0, "75.2 42.1 1.6"},
    {PICTOGRAM_STROKE, true, 2.2,
     "M9.5 45.5 C12.4 43.5 15.3 43.5 18.2 45.5 C21.2 47.5 24.1 47.5 27 45.5 C29.9 43.5 32.8 43.5 "
     "35.8 45.5 C38.7 47.5 41.6 47.5 44.5 45.5 C47.4 43.5 50.3 43.5 53.2 45.5 C56.2 47.5 59.1 47.5 "
     "62 45.5 C64.9 43.5 67.8 43.5 70.8 45.5 C73.7 47.5 76.6 47.5 79.5 45.5"},
    {PICTOGRAM_FILL, false, 0, "M88 45.5 L97 39.5 V51.5 Z"},
};

static const struct pictogram_part bath_snake[] = {
    {PICTOGRAM_STROKE, false, 4, "M2 2 L8 53 H79 L85 2"},
    {PICTOGRAM_STROKE, false, 2.6,
     "M9.1 33 C12 30 14.9 30 17.7 33 C20.6 36 23.5 36 26.3 33 C29.2 30 32 30 34.9 33 C37.8 36 40.6 "
     "36 43.5 33 C46.4 30 49.2 30 52.1 33 C55 36 57.8 36 60.7 33 C63.5 30 66.4 30 69.3 33 C72.1 36 "
     "75 36 77.9 33"},
    {PICTOGRAM_STROKE, false, 9, "M17 45.5 H67"},
    {PICTOGRAM_STROKE, false, 8.5, "M21 37.5 H65"},
    {PICTOGRAM_STROKE, false, 8, "M63 38 C73 38 73 30 65 24"},
    {PICTOGRAM_FILL, false, 0,
     "M55 19 C59 14 69 14 79 20 C82 22 81 25 78 25 L65 30 C57 29 53 24 55 19 Z"},
    {PICTOGRAM_DISC, true, 0, "69 20 1.8"},
    {PICTOGRAM_STROKE, true, 1.8, "M17 41.5 H61"},
    {PICTOGRAM_STROKE, true, 2.2, "M66 33 H71"},
    {PICTOGRAM_FILL, false, 0, "M88 33 L97 27 V39 Z"},
};

static const struct pictogram_part bath_gills[] = {
    {PICTOGRAM_STROKE, false, 4, "M2 2 L8 53 H79 L85 2"},
    {PICTOGRAM_STROKE, false, 2.6,
     "M7.4 18 C10.4 15 13.4 15 16.4 18 C19.4 21 22.4 21 25.4 18 C28.5 15 31.5 15 34.5 18 C37.5 21 "
     "40.5 21 43.5 18 C46.5 15 49.5 15 52.5 18 C55.5 21 58.5 21 61.6 18 C64.6 15 67.6 15 70.6 18 "
     "C73.6 21 76.6 21 79.6 18"},
    {PICTOGRAM_FILL, false, 0,
     "M7.5 34.2 C18.3 28.5 29.1 29.2 39.2 30.6 C47.8 29.2 55 29.2 62.2 30.6 C68 26.3 78.1 27.8 "
     "79.5 33.5 C78.1 37.1 70.9 37.8 63.7 36.4 L66.5 40 L61.5 40 L59.3 36.4 L43.5 36.4 L44.9 40 "
     "L39.9 40 L38.5 35.7 C29.1 37.1 17.6 37.8 7.5 34.2 Z"},
    {PICTOGRAM_STROKE, false, 2.4, "M66 29 L59 22"},
    {PICTOGRAM_STROKE, false, 2.4, "M68 28 L64 20"},
    {PICTOGRAM_DISC, true, 0, "75.2 32.1 1.6"},
    {PICTOGRAM_FILL, false, 0, "M88 18 L97 12 V24 Z"},
};

/* From above: the lines at the inner sides of the eyes end the insect. */
static const struct pictogram_part insect_size[] = {
    {PICTOGRAM_FILL, false, 0,
     "M33 10 C37 4 50 3 58 5 C64 5 67 8 67 10 C67 12 64 15 58 15 C50 17 37 16 33 10 Z"},
    {PICTOGRAM_DISC, true, 0, "62 8.6 1.2"},
    {PICTOGRAM_STROKE, false, 2, "M43 14 L39 21"},
    {PICTOGRAM_STROKE, false, 2, "M50 15 V22"},
    {PICTOGRAM_STROKE, false, 2, "M56 14 L60 21"},
    {PICTOGRAM_STROKE, false, 1.8, "M33 3 V56"},
    {PICTOGRAM_STROKE, false, 1.8, "M67 3 V56"},
    {PICTOGRAM_STROKE, false, 4,
     "M18 90 C12 70 17 54 29 43 C37 35 44 31 50 31 C56 31 63 35 71 43 C83 54 88 70 82 90"},
    {PICTOGRAM_DISC, false, 0, "25 56 8"},
    {PICTOGRAM_DISC, false, 0, "75 56 8"},
    {PICTOGRAM_DISC, true, 0, "23 53 2.2"},
    {PICTOGRAM_DISC, true, 0, "73 53 2.2"},
    {PICTOGRAM_DISC, false, 0, "46 38 1.7"},
    {PICTOGRAM_DISC, false, 0, "54 38 1.7"},
};

/* From above: the lines at the sides of the body end the prey. */
static const struct pictogram_part prey_size[] = {
    {PICTOGRAM_FILL, false, 0,
     "M2 22 C2 16 8 14 14 16 C18 17.5 20 19 25 17 C32 13 38 11 44 11 C50 11 54 13 58 15 L58 29 C54 "
     "31 50 33 44 33 C38 33 32 31 25 27 C20 25 18 26.5 14 28 C8 30 2 28 2 22 Z"},
    {PICTOGRAM_DISC, true, 0, "8 18.5 1.6"},
    {PICTOGRAM_DISC, true, 0, "8 25.5 1.6"},
    {PICTOGRAM_STROKE, false, 1.8, "M44 11 H92"},
    {PICTOGRAM_STROKE, false, 1.8, "M44 33 H92"},
    {PICTOGRAM_FILL, false, 0,
     "M64 22 C67 16 72 11 79 11 C87 11 91 16 91 22 C91 28 87 33 79 33 C72 33 67 28 64 22 Z"},
    {PICTOGRAM_DISC, true, 0, "70 19 1.4"},
    {PICTOGRAM_DISC, true, 0, "70 25 1.4"},
    {PICTOGRAM_STROKE, false, 2.2, "M90 22 C94 24 95 29 99 30"},
};

/* One for each group; an animal with gills has one of its own. */
struct forms {
    struct cut of_groups[GROUP_COUNT], with_gills;
};

static const struct forms mouths = {{[GROUP_SNAKE] = CUT(mouth_snake, 98, 71),
                                     [GROUP_LIZARD] = CUT(mouth_lizard, 97, 76),
                                     [GROUP_TORTOISE] = CUT(mouth_tortoise, 95, 75),
                                     [GROUP_TURTLE] = CUT(mouth_tortoise, 95, 75),
                                     [GROUP_FROG] = CUT(mouth_frog, 97, 76),
                                     [GROUP_SALAMANDER] = CUT(mouth_newt, 97, 69)},
                                    CUT(mouth_newt, 97, 69)};
static const struct forms tubes = {{[GROUP_SNAKE] = CUT(tube_snake, 87, 89),
                                    [GROUP_LIZARD] = CUT(tube_lizard, 87, 98),
                                    [GROUP_TORTOISE] = CUT(tube_tortoise, 87, 94),
                                    [GROUP_TURTLE] = CUT(tube_tortoise, 87, 94)},
                                   {{0}, 0}};
static const struct forms baths = {{[GROUP_SNAKE] = CUT(bath_snake, 97, 55),
                                    [GROUP_LIZARD] = CUT(bath_lizard, 97, 55),
                                    [GROUP_TORTOISE] = CUT(bath_tortoise, 97, 55),
                                    [GROUP_TURTLE] = CUT(bath_turtle, 97, 55),
                                    [GROUP_FROG] = CUT(bath_frog, 97, 55),
                                    [GROUP_SALAMANDER] = CUT(bath_newt, 97, 55)},
                                   CUT(bath_gills, 97, 55)};
static const struct cut eye_sign = CUT(eye, 98, 89), skin_sign = CUT(skin, 100, 80),
                        needle_sign = CUT(needle, 100, 62), dressing_sign = CUT(dressing, 100, 89),
                        pad_sign = CUT(dressing_pad, 77, 74),
                        under_sign = CUT(dressing_under, 93, 88), look_sign = CUT(look_pad, 77, 74),
                        look_under_sign = CUT(look_under, 93, 88),
                        insect_sign = CUT(insect_size, 100, 92),
                        prey_sign = CUT(prey_size, 100, 36);

static const struct cut *form_of(const struct care_plan *plan, const struct forms *forms)
{
    const struct cut *form =
        plan->taxon.has_gills ? &forms->with_gills : &forms->of_groups[plan->taxon.group];
    return form->sign.count ? form : NULL;
}

/* A sore sits below, and none of the shell is told to sit elsewhere. */
static bool is_under_shell(const struct care_plan *plan)
{
    bool is_under = false;
    for (size_t i = 0; i < plan->finding_count; i++) {
        const struct finding_plan *f = &plan->findings[i];
        if (f->severity == SEVERITY_NORMAL || !f->where)
            continue;
        if (f->system == SYSTEM_SHELL && !f->is_under_shell)
            return false;
        is_under |= f->is_under_shell;
    }
    return is_under;
}

static const struct cut *dressing_of(const struct care_plan *plan)
{
    const bool has_shell = plan->taxon.group == GROUP_TORTOISE || plan->taxon.group == GROUP_TURTLE;
    for (size_t i = 0; i < plan->procedure_count; i++)
        if (has_shell && strcmp(plan->procedures[i].code, "shell-dressing") == 0)
            return is_under_shell(plan) ? &under_sign : &pad_sign;
    return &dressing_sign;
}

const struct cut *home_cut_drawing(const struct care_plan *plan, enum home_cut cut)
{
    switch (cut) {
    case HOME_CUT_MOUTH:
        return form_of(plan, &mouths);
    case HOME_CUT_TUBE:
        return form_of(plan, &tubes);
    case HOME_CUT_EYE:
        return &eye_sign;
    case HOME_CUT_SKIN:
        return &skin_sign;
    case HOME_CUT_NEEDLE:
        return &needle_sign;
    case HOME_CUT_DRESSING:
        return dressing_of(plan);
    case HOME_CUT_EDGE:
        return is_under_shell(plan) ? &look_under_sign : &look_sign;
    case HOME_CUT_BATH:
        return form_of(plan, &baths);
    case HOME_CUT_INSECT:
        return &insect_sign;
    case HOME_CUT_PREY:
        return plan->taxon.group == GROUP_SNAKE ? &prey_sign : NULL;
    case HOME_CUT_NONE:
    case HOME_CUT_COUNT:
        break;
    }
    return NULL;
}
