/* Decodes a PNG to rows of RGB on white, within limits of size. */
#include "layout/logo_file.h"

#include <png.h>
#include <string.h>

static bool refuse(struct diag *diag, struct mark at, const char *path, const char *why)
{
    diag_report(diag, DIAG_ERROR, "bad-logo", at, "the logo '%s' %s", path, why);
    return false;
}

static bool is_within_limits(const png_image *image)
{
    return image->width > 0 && image->height > 0 && image->width <= LOGO_LIMIT_SIDE_PX &&
           image->height <= LOGO_LIMIT_SIDE_PX;
}

/* The pixels as RGB on white, or NULL with image->message saying why. */
static png_byte *decode(png_image *image, struct arena *arena)
{
    static const png_color white = {255, 255, 255};
    image->format = PNG_FORMAT_RGB;
    png_byte *pixels = arena_take(arena, PNG_IMAGE_SIZE(*image));
    return png_image_finish_read(image, &white, pixels, 0, NULL) ? pixels : NULL;
}

bool logo_file_read(const char *path, const char *alternative, struct mark at, struct arena *arena,
                    struct diag *diag, struct logo *out)
{
    struct bytes file;
    if (!file_read(path, LOGO_LIMIT_BYTES, arena, diag, &file))
        return false;
    png_image image = {.version = PNG_IMAGE_VERSION};
    if (file.length == 0) /* libpng would only say that it was called wrongly */
        return refuse(diag, at, path, "is empty");
    if (!png_image_begin_read_from_memory(&image, file.data, file.length))
        return refuse(diag, at, path,
                      arena_format(arena, "is no sound PNG file: %s", image.message));
    bool fits = is_within_limits(&image);
    const png_byte *pixels = fits ? decode(&image, arena) : NULL;
    if (pixels)
        *out = (struct logo){.pixels = pixels,
                             .width_px = (int)image.width,
                             .height_px = (int)image.height,
                             .alternative = alternative};
    const char *why =
        fits ? arena_format(arena, "is no sound PNG file: %s", image.message)
             : arena_format(arena, "is larger than %d pixels a side", LOGO_LIMIT_SIDE_PX);
    png_image_free(&image);
    return pixels ? true : refuse(diag, at, path, why);
}
