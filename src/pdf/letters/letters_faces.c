/* Which font has which script, opened when first asked for, measured, and cut to what is drawn. */
#include "pdf/letters/letters_faces.h"

#include <hb-ot.h>
#include <hb-subset.h>
#include <string.h>

#include "base/hash.h"

/* Folders of Debian's packages fonts-noto-core, fonts-dejavu-core, fonts-droid-fallback,
 * fonts-wqy-zenhei and fonts-nanum. Outlines must be TrueType, as the rest of a sheet is. */
#define NOTO(first_, last_, name_)                                                                 \
    {                                                                                              \
        first_, last_, "noto/NotoSans" name_ "-Regular.ttf", "noto/NotoSans" name_ "-Bold.ttf"     \
    }

static const char root[] = "/usr/share/fonts/truetype/";

/* The best first. The blocks are Unicode's; what a font has of them it says itself. */
static const struct {
    unsigned first, last;
    const char *plain, *strong;
} table[] = {
    NOTO(0x0530, 0x058F, "Armenian"),
    NOTO(0xFB13, 0xFB17, "Armenian"),
    NOTO(0x0590, 0x05FF, "Hebrew"),
    NOTO(0xFB1D, 0xFB4F, "Hebrew"),
    NOTO(0x0600, 0x06FF, "Arabic"),
    NOTO(0x0750, 0x077F, "Arabic"),
    NOTO(0x0870, 0x08FF, "Arabic"),
    NOTO(0xFB50, 0xFEFC, "Arabic"),
    {0x0700, 0x074F, "noto/NotoSansSyriac-Regular.ttf", NULL},
    NOTO(0x0780, 0x07BF, "Thaana"),
    {0x07C0, 0x07FF, "noto/NotoSansNKo-Regular.ttf", NULL},
    NOTO(0x0900, 0x097F, "Devanagari"),
    NOTO(0x0980, 0x09FF, "Bengali"),
    NOTO(0x0A00, 0x0A7F, "Gurmukhi"),
    NOTO(0x0A80, 0x0AFF, "Gujarati"),
    NOTO(0x0B00, 0x0B7F, "Oriya"),
    NOTO(0x0B80, 0x0BFF, "Tamil"),
    NOTO(0x0C00, 0x0C7F, "Telugu"),
    NOTO(0x0C80, 0x0CFF, "Kannada"),
    NOTO(0x0D00, 0x0D7F, "Malayalam"),
    NOTO(0x0D80, 0x0DFF, "Sinhala"),
    NOTO(0x0E00, 0x0E7F, "Thai"),
    NOTO(0x0E80, 0x0EFF, "Lao"),
    NOTO(0x1000, 0x109F, "Myanmar"),
    NOTO(0x10A0, 0x10FF, "Georgian"),
    NOTO(0x1C90, 0x1CBF, "Georgian"),
    NOTO(0x1200, 0x139F, "Ethiopic"),
    {0x13A0, 0x13FF, "noto/NotoSansCherokee-Regular.ttf", NULL},
    NOTO(0x1400, 0x167F, "CanadianAboriginal"),
    NOTO(0x1780, 0x17FF, "Khmer"),
    {0x1800, 0x18AF, "noto/NotoSansMongolian-Regular.ttf", NULL},
    {0x2D30, 0x2D7F, "noto/NotoSansTifinagh-Regular.ttf", NULL},
    {0x1E900, 0x1E95F, "noto/NotoSansAdlam-Regular.ttf", "noto/NotoSansAdlam-Bold.ttf"},
    {0x1100, 0x11FF, "nanum/NanumGothic.ttf", "nanum/NanumGothicBold.ttf"},
    {0xAC00, 0xD7AF, "nanum/NanumGothic.ttf", "nanum/NanumGothicBold.ttf"},
    {0x2E80, 0xFFEF, "droid/DroidSansFallbackFull.ttf", NULL},
    {0x2E80, 0x2FFFF, "wqy/wqy-zenhei.ttc", NULL},
    /* Latin, Greek and Cyrillic beyond the body's, marks and symbols */
    NOTO(0x0000, 0x10FFFF, ""),
    {0x0000, 0x10FFFF, "dejavu/DejaVuSans.ttf", "dejavu/DejaVuSans-Bold.ttf"},
    {0x2000, 0x10FFFF, "noto/NotoSansSymbols2-Regular.ttf", NULL},
    {0x2000, 0x10FFFF, "noto/NotoSansSymbols-Regular.ttf", "noto/NotoSansSymbols-Bold.ttf"},
};

enum { ROWS = sizeof table / sizeof *table };

_Static_assert(ROWS *TEXT_STYLE_COUNT <= LETTERS_FACES_MOST, "more faces than a document knows");

/* A face is a row in one of the styles. */
static int face_of(int row, enum text_style style)
{
    return row * TEXT_STYLE_COUNT + (int)style;
}

static const char *file_of(int face)
{
    int row = face / TEXT_STYLE_COUNT;
    return face % TEXT_STYLE_COUNT == TEXT_STRONG ? table[row].strong : table[row].plain;
}

int faces_count(void)
{
    return ROWS * TEXT_STYLE_COUNT;
}

/* Rows of one font share what is open. */
static int same_file(int face)
{
    for (int first = face % TEXT_STYLE_COUNT; first < face; first += TEXT_STYLE_COUNT)
        if (file_of(first) && strcmp(file_of(first), file_of(face)) == 0)
            return first;
    return face;
}

static bool has_table(hb_face_t *face, hb_tag_t tag)
{
    hb_blob_t *blob = hb_face_reference_table(face, tag);
    bool has = hb_blob_get_length(blob) > 0;
    hb_blob_destroy(blob);
    return has;
}

static const char *name_of(hb_face_t *face, struct arena *arena)
{
    char name[64];
    unsigned room = sizeof name;
    hb_ot_name_get_utf8(face, HB_OT_NAME_ID_POSTSCRIPT_NAME, HB_LANGUAGE_INVALID, &room, name);
    for (char *c = name; *c; c++)
        if (!(*c >= 'a' && *c <= 'z') && !(*c >= 'A' && *c <= 'Z') && !(*c >= '0' && *c <= '9'))
            *c = '-';
    return arena_copy_text(arena, *name ? name : "Letters");
}

bool faces_open(struct letters *letters, int face)
{
    struct face_file *file = &letters->files[face];
    if (file->is_tried)
        return file->face;
    file->is_tried = true;
    if (!file_of(face))
        return false;
    hb_blob_t *blob = hb_blob_create_from_file_or_fail(
        arena_format(&letters->arena, "%s%s", root, file_of(face)));
    if (!blob)
        return false;
    file->face = hb_face_create(blob, 0);
    hb_blob_destroy(blob);
    if (!has_table(file->face, HB_TAG('g', 'l', 'y', 'f'))) {
        hb_face_destroy(file->face);
        file->face = NULL;
        return false;
    }
    file->font = hb_font_create(file->face);
    file->name = name_of(file->face, &letters->arena);
    return true;
}

bool faces_has(struct letters *letters, int face, unsigned code_point)
{
    hb_codepoint_t glyph = 0;
    return faces_open(letters, face) &&
           hb_font_get_nominal_glyph(letters->files[face].font, code_point, &glyph) && glyph != 0;
}

/* In a style, then for lack of it in the plain one. */
int faces_next(struct letters *letters, enum text_style style, unsigned code_point, int last)
{
    int from = last < 0 ? 0 : last / TEXT_STYLE_COUNT + 1;
    for (int row = from; row < ROWS; row++) {
        if (code_point < table[row].first || code_point > table[row].last)
            continue;
        int face = face_of(row, style);
        if (!file_of(face) || !faces_open(letters, same_file(face)))
            face = face_of(row, TEXT_PLAIN);
        face = same_file(face);
        if (faces_has(letters, face, code_point))
            return face;
    }
    return FACES_NONE;
}

int faces_thousandths(struct letters *letters, int face, int units)
{
    return units * 1000 / (int)hb_face_get_upem(letters->files[face].face);
}

int faces_width(struct letters *letters, int face, unsigned glyph)
{
    return faces_thousandths(letters, face,
                             hb_font_get_glyph_h_advance(letters->files[face].font, glyph));
}

/* Four 16-bit numbers of the table "head": the box around all glyphs. */
static void read_box(struct letters *letters, int face, int box[4])
{
    enum { BOX_AT = 36 };
    hb_blob_t *head =
        hb_face_reference_table(letters->files[face].face, HB_TAG('h', 'e', 'a', 'd'));
    unsigned length = 0;
    const char *data = hb_blob_get_data(head, &length);
    for (unsigned i = 0; i < 4 && length >= BOX_AT + 8; i++) {
        unsigned high = (unsigned char)data[BOX_AT + 2 * i];
        unsigned low = (unsigned char)data[BOX_AT + 2 * i + 1];
        box[i] = faces_thousandths(letters, face, (short)(high << 8 | low));
    }
    hb_blob_destroy(head);
}

void faces_describe(struct letters *letters, int face, struct letter_face *out)
{
    hb_font_extents_t extents = {0};
    hb_font_t *font = letters->files[face].font;
    hb_position_t cap_height = 0;
    hb_font_get_h_extents(font, &extents);
    if (!hb_ot_metrics_get_position(font, HB_OT_METRICS_TAG_CAP_HEIGHT, &cap_height))
        cap_height = extents.ascender;
    *out = (struct letter_face){
        .name = letters->files[face].name,
        .ascent = faces_thousandths(letters, face, extents.ascender),
        .descent = faces_thousandths(letters, face, extents.descender),
        .cap_height = faces_thousandths(letters, face, cap_height),
        .is_strong = face % TEXT_STYLE_COUNT == TEXT_STRONG,
    };
    read_box(letters, face, out->box);
}

const char *faces_seal(struct letters *letters, int face)
{
    struct face_file *file = &letters->files[face];
    if (!file->seal) {
        hb_blob_t *blob = hb_face_reference_blob(file->face);
        unsigned length = 0;
        const char *data = hb_blob_get_data(blob, &length);
        file->seal = arena_format(&letters->arena, "%s %016llx", file->name,
                                  (unsigned long long)hash_bytes(HASH_START, data, length));
        hb_blob_destroy(blob);
    }
    return file->seal;
}

/* Layout was done when the glyphs were chosen, and a PDF draws outlines without hints. */
static void drop_tables(hb_subset_input_t *input)
{
    static const char dropped[][5] = {"GSUB", "GPOS", "GDEF", "kern", "DSIG", "BASE", "MATH",
                                      "STAT", "vhea", "vmtx", "VORG", "fvar", "gvar", "avar",
                                      "HVAR", "MVAR", "cvar", "gasp", "hdmx", "VDMX", "LTSH",
                                      "post", "morx", "kerx", "feat", "Feat", "Silf", "Glat",
                                      "Gloc", "Sill", "FFTM", "meta", "PCLT", "JSTF"};
    hb_set_t *set = hb_subset_input_set(input, HB_SUBSET_SETS_DROP_TABLE_TAG);
    for (size_t i = 0; i < sizeof dropped / sizeof *dropped; i++)
        hb_set_add(set, HB_TAG(dropped[i][0], dropped[i][1], dropped[i][2], dropped[i][3]));
}

bool faces_cut(struct letters *letters, int face, const struct letter_cut *wanted,
               struct arena *arena, struct bytes *out)
{
    hb_face_t *whole = letters->files[face].face;
    hb_subset_input_t *input = hb_subset_input_create_or_fail();
    if (!input)
        return false;
    for (size_t i = 0; i < wanted->count; i++)
        hb_set_add(hb_subset_input_glyph_set(input), wanted->glyphs[i]);
    drop_tables(input);
    hb_subset_input_set_flags(input, HB_SUBSET_FLAGS_NO_HINTING | HB_SUBSET_FLAGS_NOTDEF_OUTLINE);
    hb_subset_plan_t *plan = hb_subset_plan_create_or_fail(whole, input);
    hb_face_t *cut = plan ? hb_subset_plan_execute_or_fail(plan) : NULL;
    if (cut) {
        const hb_map_t *moved = hb_subset_plan_old_to_new_glyph_mapping(plan);
        hb_blob_t *blob = hb_face_reference_blob(cut);
        unsigned length = 0;
        const char *data = hb_blob_get_data(blob, &length);
        for (size_t i = 0; i < wanted->count; i++)
            wanted->places[i] = hb_map_get(moved, wanted->glyphs[i]);
        *out = (struct bytes){.data = arena_copy_bytes(arena, data, length), .length = length};
        hb_blob_destroy(blob);
        hb_face_destroy(cut);
    }
    hb_subset_plan_destroy(plan);
    hb_subset_input_destroy(input);
    return cut != NULL;
}

void faces_close(struct letters *letters)
{
    for (int face = 0; face < faces_count(); face++) {
        if (!letters->files[face].face)
            continue;
        hb_font_destroy(letters->files[face].font);
        hb_face_destroy(letters->files[face].face);
    }
}
