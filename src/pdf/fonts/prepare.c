/* Build-time program: cuts a font down to what the sheets need.
 *
 *     prepare win-ansi|letters|signs FONT.ttf OUT.ttf OUT.ttf.z
 *                                    the characters of one code page of codepages.h; plain, for
 *                                    libharu to read, and deflated, to be embedded as it is
 *     prepare full FONT.ttf OUT.ttf  every character of the basic plane
 *     prepare pack FILE OUT.z        any file, deflated (the colour profile)
 *
 * The cuts drop hinting, layout features and every table that neither libharu nor a PDF
 * reader asks for. Composite glyphs keep their parts: the subsetter closes over them. The
 * same input gives the same bytes.
 */
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <hb-subset.h>
#include <zlib.h>

#include "pdf/codepages.h"

/* The first ones are code pages. */
enum mode { MODE_FULL = CODEPAGE_COUNT, MODE_PACK, MODE_COUNT };

static const char *const mode_names[MODE_COUNT] = {[CODEPAGE_WIN_ANSI] = "win-ansi",
                                                   [CODEPAGE_LETTERS] = "letters",
                                                   [CODEPAGE_SIGNS] = "signs",
                                                   [MODE_FULL] = "full",
                                                   [MODE_PACK] = "pack"};

/* Tables that libharu reads; "OS/2" and "name" are not for the reader but for it. */
static const hb_tag_t kept_tables[] = {HB_TAG('O', 'S', '/', '2'), HB_TAG('c', 'm', 'a', 'p'),
                                       HB_TAG('g', 'l', 'y', 'f'), HB_TAG('h', 'e', 'a', 'd'),
                                       HB_TAG('h', 'h', 'e', 'a'), HB_TAG('h', 'm', 't', 'x'),
                                       HB_TAG('l', 'o', 'c', 'a'), HB_TAG('m', 'a', 'x', 'p'),
                                       HB_TAG('n', 'a', 'm', 'e'), HB_TAG('p', 'o', 's', 't')};

/* Every table of the font that is not in kept_tables. */
static void drop_tables(hb_face_t *face, hb_set_t *dropped)
{
    hb_tag_t tags[128];
    unsigned count = sizeof tags / sizeof tags[0];
    hb_face_get_table_tags(face, 0, &count, tags);
    for (unsigned i = 0; i < count; i++) {
        bool kept = false;
        for (size_t j = 0; j < sizeof kept_tables / sizeof kept_tables[0]; j++)
            kept = kept || tags[i] == kept_tables[j];
        if (!kept)
            hb_set_add(dropped, tags[i]);
    }
}

/* The code points to keep. */
static void choose_characters(int mode, hb_face_t *face, hb_set_t *characters)
{
    if (mode == MODE_FULL) {
        hb_face_collect_unicodes(face, characters);
        hb_set_del_range(characters, 0x10000, 0x10FFFF);
        return;
    }
    for (int code = 0; code < 256; code++) {
        unsigned code_point = codepages_unicode((enum codepage)mode, code);
        if (code_point != 0)
            hb_set_add(characters, code_point);
    }
}

/* The cut font, or NULL. The caller destroys it. */
static hb_blob_t *cut_font(int mode, const char *path)
{
    hb_blob_t *file = hb_blob_create_from_file_or_fail(path);
    hb_subset_input_t *input = hb_subset_input_create_or_fail();
    if (file == NULL || input == NULL)
        return NULL;
    hb_face_t *face = hb_face_create(file, 0);
    choose_characters(mode, face, hb_subset_input_unicode_set(input));
    drop_tables(face, hb_subset_input_set(input, HB_SUBSET_SETS_DROP_TABLE_TAG));

    hb_set_t *names = hb_subset_input_set(input, HB_SUBSET_SETS_NAME_ID);
    hb_set_clear(names);
    hb_set_add(names, HB_OT_NAME_ID_FONT_SUBFAMILY);
    hb_set_add(names, HB_OT_NAME_ID_POSTSCRIPT_NAME);
    hb_subset_input_set_flags(input, HB_SUBSET_FLAGS_NO_HINTING | HB_SUBSET_FLAGS_NOTDEF_OUTLINE);

    hb_face_t *cut = hb_subset_or_fail(face, input);
    hb_blob_t *blob = cut == NULL ? NULL : hb_face_reference_blob(cut);
    hb_face_destroy(cut);
    hb_face_destroy(face);
    hb_subset_input_destroy(input);
    hb_blob_destroy(file);
    return blob;
}

/* Writes the bytes as they are or as a zlib stream; false on failure. */
static bool write_out(const char *path, const char *data, unsigned length, bool deflated)
{
    const unsigned char *bytes = (const unsigned char *)data;
    unsigned char *packed = NULL;
    uLongf size = length;
    if (deflated) {
        size = compressBound(length);
        packed = malloc(size);
        if (packed == NULL || compress2(packed, &size, bytes, length, 9) != Z_OK) {
            free(packed);
            return false;
        }
        bytes = packed;
    }
    FILE *file = fopen(path, "wb");
    bool ok = file != NULL && fwrite(bytes, 1, size, file) == size;
    if (file != NULL)
        ok = fclose(file) == 0 && ok;
    free(packed);
    return ok;
}

int main(int argc, char **argv)
{
    int mode = 0;
    while (argc >= 4 && mode < MODE_COUNT && strcmp(argv[1], mode_names[mode]) != 0)
        mode++;
    bool both = mode < CODEPAGE_COUNT;
    if (mode == MODE_COUNT || argc != (both ? 5 : 4)) {
        fputs("usage: prepare win-ansi|letters|signs FROM TO TO.z\n"
              "       prepare full|pack FROM TO\n",
              stderr);
        return 2;
    }
    hb_blob_t *blob =
        mode == MODE_PACK ? hb_blob_create_from_file_or_fail(argv[2]) : cut_font(mode, argv[2]);
    unsigned length = 0;
    const char *data = blob == NULL ? NULL : hb_blob_get_data(blob, &length);
    bool ok = data != NULL && length > 0 && write_out(argv[3], data, length, mode == MODE_PACK) &&
              (!both || write_out(argv[4], data, length, true));
    if (!ok)
        fprintf(stderr, "prepare: cannot make %s from %s\n", argv[3], argv[2]);
    hb_blob_destroy(blob);
    return ok ? 0 : 1;
}
