/* Text -> quantities, bands, boxes and dates. The first byte chooses the dimension. */
#include <math.h>
#include <string.h>

#include "fuzz/fuzz.h"
#include "base/date.h"
#include "base/units.h"

static void try_quantity(const char *text, enum dimension dimension, struct arena *arena)
{
    struct quantity quantity = {0};
    struct band band = {0};
    const char *why = NULL;
    if (units_read_quantity(text, dimension, arena, &quantity, &why))
        fuzz_must(quantity.known && isfinite(quantity.value), "a quantity is a finite number");
    else
        fuzz_must(why && *why && !quantity.known, "a refusal says why and leaves nothing");
    why = NULL;
    if (units_read_band(text, dimension, arena, &band, &why))
        fuzz_must(band.known && isfinite(band.low) && isfinite(band.high) && band.low <= band.high,
                  "a band is two finite numbers in order");
    else
        fuzz_must(why && *why && !band.known, "a refusal says why and leaves nothing");
}

void fuzz_one(struct bytes bytes, struct arena *arena, struct diag *diag)
{
    (void)diag;
    if (bytes.length == 0 || memchr(bytes.data, 0, bytes.length))
        return;
    const char *text = bytes.data + 1;
    try_quantity(text, (enum dimension)((unsigned char)bytes.data[0] % DIM_END), arena);
    struct box box = {0};
    const char *why = NULL;
    if (units_read_box(text, arena, &box, &why))
        fuzz_must(isfinite(box.length_cm) && isfinite(box.width_cm) && isfinite(box.height_cm),
                  "a box has three finite sides");
    else
        fuzz_must(why && *why && !box.known, "a refusal says why and leaves nothing");
}
