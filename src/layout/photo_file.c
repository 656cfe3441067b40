/* Decodes a photo, row by row where that is possible, and writes what is shown of it anew. */
#include "layout/photo_file.h"

#include <setjmp.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <jpeglib.h>
#include <jerror.h>
#include <png.h>

#include "layout/photo_pixels.h"

enum { CHANNELS = 3 };

/* What reading it came to. `why` is NULL where it went well. */
struct reading {
    struct arena *arena; /* of what is thrown away afterwards */
    struct bytes file;
    struct photo_pixels pixels; /* turned and small */
    const char *why;
};

static const char *size_fault(double width, double height, double most)
{
    if (width < 1 || height < 1)
        return "has no width or no height";
    return width > PHOTO_LIMIT_SIDE_PX || height > PHOTO_LIMIT_SIDE_PX || width * height > most
               ? "has more pixels than a camera takes; save a smaller copy"
               : NULL;
}

/* ---- libjpeg ---- */

/* libjpeg's own way out is exit(); ours goes back to where it was called. */
struct jpeg_faults {
    struct jpeg_error_mgr base;
    jmp_buf out;
    bool is_cut;
};

static void jpeg_stop(j_common_ptr info)
{
    longjmp(((struct jpeg_faults *)info->err)->out, 1);
}

/* A warning only counts where picture is missing. */
static void jpeg_note(j_common_ptr info, int level)
{
    int code = info->err->msg_code;
    if (level < 0 &&
        (code == JWRN_JPEG_EOF || code == JWRN_HIT_MARKER || code == JWRN_HUFF_BAD_CODE))
        ((struct jpeg_faults *)info->err)->is_cut = true;
}

static void jpeg_faults_init(struct jpeg_faults *faults)
{
    memset(faults, 0, sizeof *faults);
    jpeg_std_error(&faults->base);
    faults->base.error_exit = jpeg_stop;
    faults->base.emit_message = jpeg_note;
}

/* A few bytes can ask for thousands of passes over a large picture. */
static void jpeg_count_scans(j_common_ptr info)
{
    if (info->is_decompressor && ((j_decompress_ptr)info)->input_scan_number > PHOTO_SCANS_MOST)
        jpeg_stop(info);
}

static int jpeg_orientation(const struct jpeg_decompress_struct *jpeg)
{
    static const char exif[] = "Exif\0"; /* and the end of the text: two zeros */
    for (jpeg_saved_marker_ptr m = jpeg->marker_list; m; m = m->next)
        if (m->marker == JPEG_APP0 + 1 && m->data_length >= sizeof exif &&
            memcmp(m->data, exif, sizeof exif) == 0)
            return photo_orientation(m->data + sizeof exif, m->data_length - sizeof exif);
    return 1;
}

static const char *jpeg_fault(struct jpeg_decompress_struct *jpeg)
{
    if (jpeg->num_components == 4)
        return "has printing colours (CMYK); save it as RGB";
    if (jpeg->num_components != 1 && jpeg->num_components != CHANNELS)
        return "has colours that are neither grey nor RGB";
    return size_fault(jpeg->image_width, jpeg->image_height,
                      jpeg_has_multiple_scans(jpeg) ? PHOTO_WHOLE_AREA_PX : PHOTO_LIMIT_AREA_PX);
}

/* libjpeg skips most of the work where an eighth, a quarter or a half is enough. */
static void jpeg_choose_scale(struct jpeg_decompress_struct *jpeg)
{
    unsigned longer =
        jpeg->image_width > jpeg->image_height ? jpeg->image_width : jpeg->image_height;
    jpeg->scale_num = 1;
    jpeg->scale_denom = 1;
    while (jpeg->scale_denom < 8 && longer / (jpeg->scale_denom * 2) >= 2 * PHOTO_SIDE_PX)
        jpeg->scale_denom *= 2;
}

static void jpeg_rows(struct jpeg_decompress_struct *jpeg, struct reading *r)
{
    int orientation = jpeg_orientation(jpeg);
    jpeg_choose_scale(jpeg);
    jpeg->out_color_space = JCS_RGB;
    jpeg->dct_method = JDCT_ISLOW;
    jpeg_start_decompress(jpeg);
    struct photo_shrink shrink = photo_shrink_start(
        (int)jpeg->output_width, (int)jpeg->output_height, PHOTO_SIDE_PX, r->arena);
    JSAMPROW row = arena_take(r->arena, (size_t)jpeg->output_width * CHANNELS);
    while (jpeg->output_scanline < jpeg->output_height) {
        jpeg_read_scanlines(jpeg, &row, 1);
        photo_shrink_row(&shrink, row);
    }
    jpeg_finish_decompress(jpeg);
    r->pixels = photo_turn(shrink.out, orientation, r->arena);
}

static void read_jpeg(struct reading *r)
{
    static const char unsound[] = "is damaged or cut short; save it anew";
    struct jpeg_decompress_struct jpeg;
    struct jpeg_faults faults;
    struct jpeg_progress_mgr progress = {.progress_monitor = jpeg_count_scans};
    memset(&jpeg, 0, sizeof jpeg);
    jpeg_faults_init(&faults);
    jpeg.err = &faults.base;
    if (setjmp(faults.out)) {
        jpeg_destroy_decompress(&jpeg);
        r->why = unsound;
        return;
    }
    jpeg_create_decompress(&jpeg);
    jpeg.progress = &progress;
    jpeg_mem_src(&jpeg, (const unsigned char *)r->file.data, (unsigned long)r->file.length);
    jpeg_save_markers(&jpeg, JPEG_APP0 + 1, 0xffff);
    jpeg_read_header(&jpeg, TRUE);
    r->why = jpeg_fault(&jpeg);
    if (!r->why)
        jpeg_rows(&jpeg, r);
    jpeg_destroy_decompress(&jpeg);
    if (!r->why && faults.is_cut)
        r->why = unsound;
}

/* ---- libpng ---- */

static uint32_t big_endian(const uint8_t *bytes)
{
    return (uint32_t)bytes[0] << 24 | (uint32_t)bytes[1] << 16 | (uint32_t)bytes[2] << 8 | bytes[3];
}

/* PNG, 5.3: length, name, data, check sum. NULL where there is none of this name before the end. */
static const uint8_t *png_chunk(const struct bytes *file, const char *name, size_t *length)
{
    enum { SIGNATURE = 8, FRAME = 12 };
    size_t at = SIGNATURE;
    while (at + FRAME <= file->length) {
        const uint8_t *chunk = (const uint8_t *)file->data + at;
        size_t size = big_endian(chunk);
        if (size > file->length - at - FRAME)
            return NULL;
        if (memcmp(chunk + 4, name, 4) == 0) {
            *length = size;
            return chunk + 8;
        }
        at += FRAME + size;
    }
    return NULL;
}

static void png_rows(png_image *image, struct reading *r)
{
    static const png_color white = {255, 255, 255};
    size_t length = 0;
    const uint8_t *exif = png_chunk(&r->file, "eXIf", &length);
    image->format = PNG_FORMAT_RGB;
    image->flags |= PNG_IMAGE_FLAG_16BIT_sRGB; /* cameras and screens write 16 bits as they do 8 */
    png_byte *pixels = malloc(PNG_IMAGE_SIZE(*image));
    if (!pixels || !png_image_finish_read(image, &white, pixels, 0, NULL)) {
        r->why = "is damaged or cut short; save it anew";
        free(pixels);
        return;
    }
    struct photo_shrink shrink =
        photo_shrink_start((int)image->width, (int)image->height, PHOTO_SIDE_PX, r->arena);
    for (size_t y = 0; y < image->height; y++)
        photo_shrink_row(&shrink, pixels + y * image->width * CHANNELS);
    free(pixels);
    r->pixels = photo_turn(shrink.out, exif ? photo_orientation(exif, length) : 1, r->arena);
}

static void read_png(struct reading *r)
{
    png_image image = {.version = PNG_IMAGE_VERSION};
    size_t length = 0;
    if (png_chunk(&r->file, "acTL", &length)) {
        r->why = "is a moving picture; save one picture of it";
        return;
    }
    if (!png_image_begin_read_from_memory(&image, r->file.data, r->file.length))
        r->why = "is damaged or cut short; save it anew";
    if (!r->why)
        r->why = size_fault(image.width, image.height, PHOTO_WHOLE_AREA_PX);
    if (!r->why)
        png_rows(&image, r);
    png_image_free(&image);
}

/* ---- written anew ---- */

/* No segment but what the picture needs and JFIF's own head: no Exif, no comment. */
static unsigned char *write_jpeg(const struct photo_pixels *pixels, int quality,
                                 unsigned long *length)
{
    struct jpeg_compress_struct jpeg;
    struct jpeg_faults faults;
    unsigned char *bytes = NULL;
    memset(&jpeg, 0, sizeof jpeg);
    jpeg_faults_init(&faults);
    jpeg.err = &faults.base;
    if (setjmp(faults.out)) {
        jpeg_destroy_compress(&jpeg);
        return NULL; /* only without memory; whose the bytes then are, is libjpeg's secret */
    }
    jpeg_create_compress(&jpeg);
    jpeg_mem_dest(&jpeg, &bytes, length);
    jpeg.image_width = (JDIMENSION)pixels->width;
    jpeg.image_height = (JDIMENSION)pixels->height;
    jpeg.input_components = CHANNELS;
    jpeg.in_color_space = JCS_RGB;
    jpeg_set_defaults(&jpeg);
    jpeg_set_quality(&jpeg, quality, TRUE);
    jpeg.dct_method = JDCT_ISLOW;
    jpeg.optimize_coding = TRUE;
    jpeg_start_compress(&jpeg, TRUE);
    while (jpeg.next_scanline < jpeg.image_height) {
        JSAMPROW row = pixels->rgb + (size_t)jpeg.next_scanline * (size_t)pixels->width * CHANNELS;
        jpeg_write_scanlines(&jpeg, &row, 1);
    }
    jpeg_finish_compress(&jpeg);
    jpeg_destroy_compress(&jpeg);
    return bytes;
}

/* As good as its size allows. */
static bool encode(const struct photo_pixels *pixels, struct arena *arena, struct photo *out)
{
    static const int qualities[] = {85, 75, 60, 45, 30, 15};
    for (size_t i = 0; i < sizeof qualities / sizeof *qualities; i++) {
        unsigned long length = 0;
        unsigned char *bytes = write_jpeg(pixels, qualities[i], &length);
        bool fits = bytes && length <= PHOTO_SHOWN_BYTES;
        if (fits)
            *out = (struct photo){
                .jpeg = (const uint8_t *)arena_copy_bytes(arena, (const char *)bytes, length),
                .length = length,
                .width_px = pixels->width,
                .height_px = pixels->height};
        free(bytes);
        if (fits)
            return true;
    }
    return false;
}

bool photo_file_make(struct bytes file, const char *name, struct mark at, struct arena *arena,
                     struct diag *diag, struct photo *out)
{
    static const char png[] = "\x89PNG\r\n\x1a\n", jpeg[] = "\xff\xd8\xff";
    struct arena scratch;
    arena_init(&scratch);
    struct reading reading = {.arena = &scratch, .file = file};
    if (file.length > sizeof png && memcmp(file.data, png, sizeof png - 1) == 0)
        read_png(&reading);
    else if (file.length > sizeof jpeg && memcmp(file.data, jpeg, sizeof jpeg - 1) == 0)
        read_jpeg(&reading);
    else
        reading.why = "is no PNG and no JPEG file; save it as one of them";
    if (!reading.why && !encode(&reading.pixels, arena, out))
        reading.why = "cannot be made small enough to show";
    if (reading.why)
        diag_report(diag, DIAG_ERROR, "bad-photo", at, "the photo '%s' %s", name, reading.why);
    arena_finish(&scratch);
    return reading.why == NULL;
}
