/* Bytes -> a photo as it is shown: small, upright, with nothing in it but pixels; or a fault. */
#include "fuzz/fuzz.h"

#include <string.h>

#include "layout/photo_file.h"

/* Segments up to the first pass (ITU-T T.81, B.1.1): tables, one frame, JFIF's head. */
static void check_segments(const struct photo *photo)
{
    size_t at = 2;
    fuzz_must(photo->length > 4 && photo->jpeg[0] == 0xff && photo->jpeg[1] == 0xd8,
              "it is a JPEG");
    while (at + 4 <= photo->length && photo->jpeg[at + 1] != 0xda) {
        uint8_t marker = photo->jpeg[at + 1];
        fuzz_must(photo->jpeg[at] == 0xff, "a segment begins with its mark");
        fuzz_must(marker == 0xe0 || marker == 0xdb || marker == 0xc0 || marker == 0xc4,
                  "no segment but what draws");
        at += 2 + (size_t)photo->jpeg[at + 2] * 256 + photo->jpeg[at + 3];
    }
    fuzz_must(at + 4 <= photo->length, "the picture follows");
}

void fuzz_one(struct bytes bytes, struct arena *arena, struct diag *diag)
{
    const struct photo untouched = {.width_px = -1};
    struct photo photo = untouched;
    if (!photo_file_make(bytes, "photo", (struct mark){"visit.yaml", 1, 1}, arena, diag, &photo)) {
        fuzz_must(memcmp(&photo, &untouched, sizeof photo) == 0, "a refusal leaves nothing");
        fuzz_must(diag_failed(diag), "a refusal is told");
        return;
    }
    fuzz_must(photo.width_px >= 1 && photo.width_px <= PHOTO_SIDE_PX, "it is small");
    fuzz_must(photo.height_px >= 1 && photo.height_px <= PHOTO_SIDE_PX, "it is low");
    fuzz_must(photo.length <= PHOTO_SHOWN_BYTES, "it takes few bytes");
    check_segments(&photo);
}
