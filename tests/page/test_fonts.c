/* Widths and glyphs against libharu's own reading of the same fonts, and damaged fonts. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <zlib.h>

#include "common/suite.h"
#include "pdf/fonts.h"

/* One set of fonts for a test. */
struct loaded {
    struct diag diag;
    struct arena arena;
    struct fonts *fonts;
};

static void load(struct loaded *loaded)
{
    diag_init(&loaded->diag);
    arena_init(&loaded->arena);
    loaded->fonts = fonts_new(FONTS_FOLDER, &loaded->diag);
    ck_assert_ptr_nonnull(loaded->fonts);
}

static void release(struct loaded *loaded)
{
    fonts_free(loaded->fonts);
    arena_finish(&loaded->arena);
    diag_finish(&loaded->diag);
}

/* Our reading of the whole font against libharu's of each small one: same characters, same
 * advances. */
START_TEST(advances_equal_those_of_libharu)
{
    struct loaded loaded;
    load(&loaded);
    int compared = 0;
    for (int style = 0; style < TEXT_STYLE_COUNT; style++) {
        for (unsigned code_point = 0x20; code_point < 0x2800; code_point++) {
            enum codepage page;
            int code;
            int ours = fonts_advance(loaded.fonts, (enum text_style)style, code_point);
            if (ours < 0 || !codepages_find(code_point, &page, &code))
                continue;
            HPDF_FontDef definition =
                fonts_definition(loaded.fonts, (enum text_style)style, (enum codepage)page);
            ck_assert_uint_ne(HPDF_TTFontDef_GetGlyphid(definition, (HPDF_UINT16)code_point), 0);
            ck_assert_msg(HPDF_TTFontDef_GetCharWidth(definition, (HPDF_UINT16)code_point) == ours,
                          "U+%04X of style %d", code_point, style);
            compared++;
        }
    }
    ck_assert_int_gt(compared, 2 * 360);
    release(&loaded);
}
END_TEST

/* The same for every character of the whole fonts, as libharu reads those. */
START_TEST(whole_fonts_read_as_libharu_reads_them)
{
    struct loaded loaded;
    load(&loaded);
    for (int style = 0; style < TEXT_STYLE_COUNT; style++) {
        const struct face *face = &loaded.fonts->faces[style];
        HPDF_FontDef whole =
            fonts_load_definition(loaded.fonts->memory, face->full.data, face->full.length);
        ck_assert_ptr_nonnull(whole);
        for (unsigned code_point = 1; code_point < 0xFFFF; code_point++) {
            unsigned glyph = truetype_glyph(&face->metrics, code_point);
            ck_assert_uint_eq(glyph, HPDF_TTFontDef_GetGlyphid(whole, (HPDF_UINT16)code_point));
            if (glyph != 0) {
                ck_assert_int_eq((int)truetype_advance(&face->metrics, glyph),
                                 HPDF_TTFontDef_GetGidWidth(whole, (HPDF_UINT16)glyph));
            }
        }
        HPDF_FontDef_Free(whole);
    }
    release(&loaded);
}
END_TEST

/* Widths of Helvetica from Adobe's Core 14 AFM files (from memory): Liberation Sans was made
 * to agree with them. */
START_TEST(measure_agrees_with_helvetica)
{
    struct loaded loaded;
    load(&loaded);
    const struct measure *measure = fonts_measure(loaded.fonts);
    /* H 722, e 556, l 222, l 222, o 556; bold: 722, 556, 278, 278, 611 */
    double plain = measure->width_pt(measure, TEXT_PLAIN, 1000, "Hello", 5);
    double strong = measure->width_pt(measure, TEXT_STRONG, 1000, "Hello", 5);
    ck_assert_double_eq_tol(plain, 722 + 556 + 222 + 222 + 556, 5);
    ck_assert_double_eq_tol(strong, 722 + 556 + 278 + 278 + 611, 5);
    ck_assert_double_eq_tol(measure->width_pt(measure, TEXT_PLAIN, 12, "Hello", 5),
                            plain * 12 / 1000, 1e-9);
    ck_assert_double_eq(measure->width_pt(measure, TEXT_PLAIN, 12, "Hello", 0), 0);
    /* Arial's ascent and descent, 1854 and 434 of 2048 (from memory) */
    ck_assert_double_eq_tol(measure->ascent, 1854.0 / 2048, 0.01);
    ck_assert_double_eq_tol(measure->descent, 434.0 / 2048, 0.01);
    release(&loaded);
}
END_TEST

/* The same widths, and an en dash's 556, which stand behind its third byte. U+05D0 is Hebrew. */
START_TEST(sums_give_each_part)
{
    static const char text[] = "Ho\u2013l";
    static const int before[] = {0, 722, 1278, 1278, 1278, 1834, 2056};
    int32_t sums[sizeof before / sizeof *before];
    struct loaded loaded;
    load(&loaded);
    const struct measure *measure = fonts_measure(loaded.fonts);
    ck_assert(measure->sum(measure, TEXT_PLAIN, text, sizeof text - 1, sums));
    for (size_t i = 0; i < sizeof before / sizeof *before; i++)
        ck_assert_int_le(abs(sums[i] - before[i]), 4);
    ck_assert(!measure->sum(measure, TEXT_PLAIN, "a\u05D0", 3, sums));
    release(&loaded);
}
END_TEST

START_TEST(has_glyph_tells_the_font_apart_from_the_rest)
{
    static const unsigned present[] = {' ',    'A',    0xB0,   0x141,  0x2265, 0x2192,
                                       0x2212, 0x2013, 0x2022, 0x20AC, 0x3B1,  0x416};
    static const unsigned absent[] = {0, 0x0A, 0xE123, 0xFFFD, 0x1F98E, 0x10FFFF};
    struct loaded loaded;
    load(&loaded);
    const struct measure *measure = fonts_measure(loaded.fonts);
    for (int style = 0; style < TEXT_STYLE_COUNT; style++) {
        for (size_t i = 0; i < sizeof present / sizeof present[0]; i++) {
            ck_assert_msg(measure->has_glyph(measure, (enum text_style)style, present[i]), "U+%04X",
                          present[i]);
        }
        for (size_t i = 0; i < sizeof absent / sizeof absent[0]; i++) {
            ck_assert_msg(!measure->has_glyph(measure, (enum text_style)style, absent[i]), "U+%04X",
                          absent[i]);
        }
    }
    release(&loaded);
}
END_TEST

START_TEST(missing_folder_is_a_fault)
{
    struct diag diag;
    diag_init(&diag);
    ck_assert_ptr_null(fonts_new("/nonexistent", &diag));
    ck_assert_int_eq(diag_exit_status(&diag), 3);
    ck_assert_uint_eq(diag.counts[DIAG_FAULT], 1);
    ck_assert_str_eq(diag.first->code, "font-unusable");
    ck_assert_str_eq(diag.first->at.file, "/nonexistent/plain-full.ttf");
    diag_finish(&diag);
}
END_TEST

/* Copies the fonts into a folder of the test's own. */
static void copy_fonts(struct arena *arena, struct diag *diag, const char *folder)
{
    const char **names;
    size_t count = file_list(FONTS_FOLDER, "", arena, diag, &names);
    for (size_t i = 0; i < count; i++) {
        struct bytes bytes;
        const char *from = file_join(arena, FONTS_FOLDER, names[i]);
        if (!file_is_folder(from) && (strstr(names[i], ".ttf") || strstr(names[i], ".icc"))) {
            ck_assert(file_read(from, FILE_LIMIT_BYTES, arena, diag, &bytes));
            ck_assert(file_write_atomic(file_join(arena, folder, names[i]), bytes.data,
                                        bytes.length, 0600, diag));
        }
    }
}

/* Every file in turn cut short and filled with other bytes: a fault, never a crash. */
START_TEST(damaged_files_are_faults)
{
    static const char *const names[] = {"plain-win-ansi.ttf.z", "strong-letters.ttf",
                                        "strong-full.ttf"};
    char folder[] = "/tmp/baskleaf-fonts-XXXXXX";
    ck_assert_ptr_nonnull(mkdtemp(folder));
    struct arena arena;
    struct diag diag;
    arena_init(&arena);
    diag_init(&diag);
    copy_fonts(&arena, &diag, folder);
    struct fonts *fonts = fonts_new(folder, &diag);
    ck_assert_ptr_nonnull(fonts);
    fonts_free(fonts);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const char *path = file_join(&arena, folder, names[i]);
        struct bytes whole;
        ck_assert(file_read(path, FILE_LIMIT_BYTES, &arena, &diag, &whole));
        for (int kind = 0; kind < 3; kind++) {
            char *broken = arena_copy_bytes(&arena, whole.data, whole.length);
            size_t length = kind == 0 ? whole.length / 2 : kind == 1 ? 5 : whole.length;
            memset(broken, 0x55, kind == 2 ? whole.length : 0);
            ck_assert(file_write_atomic(path, broken, length, 0600, &diag));
            struct diag said;
            diag_init(&said);
            ck_assert_ptr_null(fonts_new(folder, &said));
            ck_assert_str_eq(said.first->code, "font-unusable");
            ck_assert_str_eq(said.first->at.file, path);
            diag_finish(&said);
        }
        ck_assert(file_write_atomic(path, whole.data, whole.length, 0600, &diag));
    }
    const char **left;
    size_t count = file_list(folder, "", &arena, &diag, &left);
    for (size_t i = 0; i < count; i++)
        unlink(file_join(&arena, folder, left[i]));
    rmdir(folder);
    diag_finish(&diag);
    arena_finish(&arena);
}
END_TEST

/* What is embedded is what is measured: each deflated font is the plain one. */
START_TEST(packed_fonts_equal_the_plain_ones)
{
    static const char *const names[] = {"plain-win-ansi.ttf", "plain-letters.ttf",
                                        "plain-signs.ttf",    "strong-win-ansi.ttf",
                                        "strong-letters.ttf", "strong-signs.ttf"};
    struct arena arena;
    struct diag diag;
    arena_init(&arena);
    diag_init(&diag);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        struct bytes plain, packed;
        const char *path = file_join(&arena, FONTS_FOLDER, names[i]);
        ck_assert(file_read(path, FILE_LIMIT_BYTES, &arena, &diag, &plain));
        ck_assert(file_read(arena_format(&arena, "%s.z", path), FILE_LIMIT_BYTES, &arena, &diag,
                            &packed));
        uLongf length = plain.length + 1;
        unsigned char *unpacked = arena_take(&arena, length);
        ck_assert_int_eq(uncompress(unpacked, &length, (const Bytef *)packed.data, packed.length),
                         Z_OK);
        ck_assert_uint_eq(length, plain.length);
        ck_assert_mem_eq(unpacked, plain.data, length);
    }
    diag_finish(&diag);
    arena_finish(&arena);
}
END_TEST

/* The reader of tables on every length of a font and on changed bytes; the sanitizers watch. */
START_TEST(truetype_reads_within_its_bytes)
{
    struct loaded loaded;
    load(&loaded);
    const struct bytes *full = &loaded.fonts->faces[TEXT_PLAIN].full;
    struct truetype font;
    unsigned sum = 0;
    for (size_t length = 0; length < full->length; length += length < 1024 ? 1 : 509) {
        char *cut = malloc(length + 1);
        memcpy(cut, full->data, length);
        if (truetype_open(cut, length, &font))
            sum += truetype_glyph(&font, 'e') + truetype_advance(&font, 60000);
        free(cut);
    }
    ck_assert_uint_eq(sum, 0); /* a font that is cut short is none */
    for (size_t at = 0; at < 4096; at++) {
        char *changed = malloc(full->length);
        memcpy(changed, full->data, full->length);
        changed[at] = (char)~changed[at];
        if (truetype_open(changed, full->length, &font)) {
            for (unsigned code_point = 0; code_point < 0x500; code_point += 7) {
                unsigned glyph = truetype_glyph(&font, code_point);
                ck_assert_uint_lt(glyph, font.glyph_count + 1);
                truetype_advance(&font, glyph);
            }
        }
        free(changed);
    }
    release(&loaded);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("fonts");
    TCase *tcase = tcase_create("all");
    tcase_set_timeout(tcase, 60);
    tcase_add_test(tcase, advances_equal_those_of_libharu);
    tcase_add_test(tcase, whole_fonts_read_as_libharu_reads_them);
    tcase_add_test(tcase, measure_agrees_with_helvetica);
    tcase_add_test(tcase, sums_give_each_part);
    tcase_add_test(tcase, has_glyph_tells_the_font_apart_from_the_rest);
    tcase_add_test(tcase, missing_folder_is_a_fault);
    tcase_add_test(tcase, damaged_files_are_faults);
    tcase_add_test(tcase, packed_fonts_equal_the_plain_ones);
    tcase_add_test(tcase, truetype_reads_within_its_bytes);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
