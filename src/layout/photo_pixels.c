/* Scales rows down by averaging, turns pixels, and reads the mark that says how. */
#include "layout/photo_pixels.h"

#include <string.h>

enum { CHANNELS = 3 };

/* ---- smaller ---- */

struct photo_shrink photo_shrink_start(int width, int height, int side, struct arena *arena)
{
    int longer = width > height ? width : height;
    struct photo_shrink shrink = {.width = width, .height = height};
    shrink.out.width = longer > side ? (int)((int64_t)width * side / longer) : width;
    shrink.out.height = longer > side ? (int)((int64_t)height * side / longer) : height;
    if (shrink.out.width < 1)
        shrink.out.width = 1;
    if (shrink.out.height < 1)
        shrink.out.height = 1;
    size_t row = (size_t)shrink.out.width * CHANNELS;
    shrink.out.rgb = arena_take(arena, row * (size_t)shrink.out.height);
    shrink.sums = ARENA_ARRAY(arena, uint64_t, row);
    shrink.counts = ARENA_ARRAY(arena, uint32_t, (size_t)shrink.out.width);
    return shrink;
}

static void finish_row(struct photo_shrink *shrink, int y)
{
    size_t row = (size_t)shrink->out.width * CHANNELS;
    uint8_t *to = shrink->out.rgb + (size_t)y * row;
    for (size_t i = 0; i < row; i++) {
        uint32_t count = shrink->counts[i / CHANNELS];
        to[i] = (uint8_t)(count > 0 ? (shrink->sums[i] + count / 2) / count : 255);
    }
    memset(shrink->sums, 0, row * sizeof *shrink->sums);
    memset(shrink->counts, 0, (size_t)shrink->out.width * sizeof *shrink->counts);
}

void photo_shrink_row(struct photo_shrink *shrink, const uint8_t *rgb)
{
    int64_t out_height = shrink->out.height, out_width = shrink->out.width;
    int y = (int)(shrink->row * out_height / shrink->height);
    for (int x = 0; x < shrink->width; x++) {
        size_t to = (size_t)(x * out_width / shrink->width);
        for (size_t channel = 0; channel < CHANNELS; channel++)
            shrink->sums[to * CHANNELS + channel] += rgb[(size_t)x * CHANNELS + channel];
        shrink->counts[to]++;
    }
    shrink->row++;
    if (shrink->row == shrink->height || (int)(shrink->row * out_height / shrink->height) != y)
        finish_row(shrink, y);
}

/* ---- upright ---- */

/* How the pixel at x, y of the upright picture is found: sides swapped first, then mirrored. */
static const struct {
    bool swapped, from_right, from_bottom;
} turns[] = {[1] = {false, false, false}, [2] = {false, true, false}, [3] = {false, true, true},
             [4] = {false, false, true},  [5] = {true, false, false}, [6] = {true, false, true},
             [7] = {true, true, true},    [8] = {true, true, false}};
enum { ORIENTATION_MOST = sizeof turns / sizeof *turns - 1 };

struct photo_pixels photo_turn(struct photo_pixels from, int orientation, struct arena *arena)
{
    if (orientation <= 1 || orientation > ORIENTATION_MOST)
        return from;
    bool swapped = turns[orientation].swapped;
    struct photo_pixels to = {.width = swapped ? from.height : from.width,
                              .height = swapped ? from.width : from.height};
    to.rgb = arena_take(arena, (size_t)to.width * (size_t)to.height * CHANNELS);
    for (int y = 0; y < to.height; y++) {
        for (int x = 0; x < to.width; x++) {
            int sx = swapped ? y : x, sy = swapped ? x : y;
            sx = turns[orientation].from_right ? from.width - 1 - sx : sx;
            sy = turns[orientation].from_bottom ? from.height - 1 - sy : sy;
            memcpy(to.rgb + ((size_t)y * (size_t)to.width + (size_t)x) * CHANNELS,
                   from.rgb + ((size_t)sy * (size_t)from.width + (size_t)sx) * CHANNELS, CHANNELS);
        }
    }
    return to;
}

/* ---- the mark ---- */

struct tiff {
    const uint8_t *bytes;
    size_t length;
    bool is_big; /* the first byte of a number is its greatest */
};

static uint32_t number(const struct tiff *tiff, size_t at, size_t bytes)
{
    uint32_t value = 0;
    for (size_t i = 0; i < bytes; i++)
        value |= (uint32_t)tiff->bytes[at + i] << 8 * (tiff->is_big ? bytes - 1 - i : i);
    return value;
}

/* TIFF 6.0, section 2: byte order, 42, where the first directory stands; in it a count and entries
 * of twelve bytes. */
int photo_orientation(const uint8_t *bytes, size_t length)
{
    enum { HEAD = 8, ENTRY = 12, TAG = 0x0112, SHORT = 3, MAGIC = 42 };
    struct tiff tiff = {bytes, length, length > 0 && bytes[0] == 'M'};
    if (length < HEAD || (memcmp(bytes, "II", 2) != 0 && memcmp(bytes, "MM", 2) != 0) ||
        number(&tiff, 2, 2) != MAGIC)
        return 1;
    size_t at = number(&tiff, 4, 4);
    if (at > length || length - at < 2)
        return 1;
    size_t count = number(&tiff, at, 2);
    at += 2;
    for (; count > 0 && length - at >= ENTRY; count--, at += ENTRY) {
        if (number(&tiff, at, 2) != TAG)
            continue;
        uint32_t value = number(&tiff, at + 8, 2);
        bool good = number(&tiff, at + 2, 2) == SHORT && number(&tiff, at + 4, 4) == 1 &&
                    value >= 1 && value <= ORIENTATION_MOST;
        return good ? (int)value : 1;
    }
    return 1;
}
