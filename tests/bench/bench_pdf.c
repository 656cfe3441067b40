/* How fast is pdf_write? Prints sheets a second beside those of a bare libharu program that
 * draws the same operations with the same small fonts and no tags, and the ratio of the two; then
 * the same for the first sheet of a run, which has to load the fonts. Runs alternate, and medians
 * are compared, because times on a shared machine wander; only the ratio is worth quoting.
 *
 *     bench_pdf FONTS-FOLDER [ROUNDS]
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <hpdf.h>

#include "page/codepages.h"
#include "page/pdf.h"
#include "page/sample.h"
#include "page/utf8.h"

enum { SHEETS_A_ROUND = 100, ROUNDS = 11, FILE_ROOM = 1024 * 1024 };

/* Seconds on a clock that never goes back. */
static double now_s(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + (double)time.tv_nsec / 1e9;
}

/* For qsort. */
static int compare_doubles(const void *a, const void *b)
{
    double left = *(const double *)a, right = *(const double *)b;
    return (left > right) - (left < right);
}

/* The middle of the values, which it sorts. */
static double median(double *values, int count)
{
    qsort(values, (size_t)count, sizeof *values, compare_doubles);
    return values[count / 2];
}

/* What the bare program needs before its clock starts: font files and WinAnsi text. */
struct bare {
    const char *font_paths[TEXT_STYLE_COUNT];
    const struct paged *paged;
    struct arena *arena;
};

/* A text as WinAnsi, which is what libharu's single-byte fonts take. The bare program finds it in
 * the operation's uri, a field that texts have no use for. */
static const char *to_win_ansi(const char *text, struct arena *arena)
{
    size_t length = strlen(text), filled = 0;
    char *out = arena_take(arena, length + 1);
    for (size_t at = 0; at < length;) {
        enum codepage page;
        int code;
        if (codepages_find((unsigned)utf8_next(text, length, &at), &page, &code)) {
            out[filled++] = (char)code;
        }
    }
    return out;
}

/* A shape as anybody would draw it. */
static void bare_shape(HPDF_Page page, const struct op *op, float height)
{
    HPDF_Page_SetRGBStroke(page, op->ink.r / 255.0f, op->ink.g / 255.0f, op->ink.b / 255.0f);
    HPDF_Page_SetRGBFill(page, op->fill.r / 255.0f, op->fill.g / 255.0f, op->fill.b / 255.0f);
    HPDF_Page_SetLineWidth(page, (float)op->stroke_pt);
    if (op->kind == OP_RECT) {
        HPDF_Page_Rectangle(page, (float)op->x, height - (float)(op->y + op->height),
                            (float)op->width, (float)op->height);
    } else if (op->kind == OP_CIRCLE) {
        HPDF_Page_Circle(page, (float)op->x, height - (float)op->y, (float)op->width);
    }
    for (size_t i = 0; i < op->count; i++) {
        float x = (float)op->points[i].x, y = height - (float)op->points[i].y;
        if (i == 0) {
            HPDF_Page_MoveTo(page, x, y);
        } else {
            HPDF_Page_LineTo(page, x, y);
        }
    }
    if (op->filled) {
        HPDF_Page_FillStroke(page);
    } else {
        HPDF_Page_Stroke(page);
    }
}

/* One document the plain way; returns its size in bytes, 0 on failure. */
static size_t bare_write(const struct bare *bare, unsigned char *out, size_t room)
{
    HPDF_Doc doc = HPDF_New(NULL, NULL);
    HPDF_SetCompressionMode(doc, HPDF_COMP_ALL);
    HPDF_Font fonts[TEXT_STYLE_COUNT];
    for (int style = 0; style < TEXT_STYLE_COUNT; style++) {
        const char *name = HPDF_LoadTTFontFromFile(doc, bare->font_paths[style], HPDF_TRUE);
        fonts[style] = HPDF_GetFont(doc, name, "WinAnsiEncoding");
    }
    for (size_t i = 0; i < bare->paged->page_count; i++) {
        HPDF_Page page = HPDF_AddPage(doc);
        float height = (float)bare->paged->page_height_pt;
        HPDF_Page_SetWidth(page, (float)bare->paged->page_width_pt);
        HPDF_Page_SetHeight(page, height);
        for (const struct op *op = bare->paged->pages[i].first; op != NULL; op = op->next) {
            if (op->kind == OP_TEXT) {
                HPDF_Page_SetRGBFill(page, op->ink.r / 255.0f, op->ink.g / 255.0f,
                                     op->ink.b / 255.0f);
                HPDF_Page_BeginText(page);
                HPDF_Page_SetFontAndSize(page, fonts[op->style], (float)op->size_pt);
                HPDF_Page_TextOut(page, (float)op->x, height - (float)op->y, op->uri);
                HPDF_Page_EndText(page);
            } else {
                bare_shape(page, op, height);
            }
        }
    }
    HPDF_SaveToStream(doc);
    HPDF_UINT32 size = (HPDF_UINT32)room;
    HPDF_ReadFromStream(doc, out, &size);
    bool failed = HPDF_GetError(doc) != HPDF_OK && HPDF_GetError(doc) != HPDF_STREAM_EOF;
    HPDF_Free(doc);
    return failed ? 0 : size;
}

/* Seconds for one round of ours; *size is one file's. */
static double time_ours(const struct paged *paged, const struct fonts *fonts, struct diag *diag,
                        size_t *size)
{
    struct arena arena;
    struct bytes file = {0};
    arena_init(&arena);
    double start = now_s();
    for (int i = 0; i < SHEETS_A_ROUND; i++) {
        arena_reset(&arena);
        if (!pdf_write(paged, fonts, &arena, diag, &file)) {
            *size = 0;
            return NAN;
        }
    }
    double spent = now_s() - start;
    *size = file.length;
    arena_finish(&arena);
    return spent;
}

/* The same for the bare program. */
static double time_bare(const struct bare *bare, unsigned char *room, size_t *size)
{
    double start = now_s();
    for (int i = 0; i < SHEETS_A_ROUND; i++) {
        *size = bare_write(bare, room, FILE_ROOM);
    }
    return now_s() - start;
}

/* Seconds for the first sheet of a run: fonts and one file. */
static double time_first(const struct paged *paged, const char *folder, struct diag *diag)
{
    struct arena arena;
    struct bytes file;
    arena_init(&arena);
    double start = now_s();
    struct fonts *fonts = fonts_new(folder, diag);
    bool ok = fonts != NULL && pdf_write(paged, fonts, &arena, diag, &file);
    fonts_free(fonts);
    double spent = now_s() - start;
    arena_finish(&arena);
    return ok ? spent : NAN;
}

/* The first sheet against one bare document. */
static void compare_first(const struct bare *bare, const char *folder, struct diag *diag,
                          int rounds)
{
    double *ratios = ARENA_ARRAY(bare->arena, double, rounds);
    unsigned char *room = arena_take(bare->arena, FILE_ROOM);
    for (int i = 0; i < rounds; i++) {
        double ours = time_first(bare->paged, folder, diag);
        double start = now_s();
        bare_write(bare, room, FILE_ROOM);
        ratios[i] = ours / (now_s() - start);
    }
    printf("the same for the first sheet of a run: %.2f\n", median(ratios, rounds));
}

/* Alternates the two and prints what came out. */
static void compare(const struct bare *bare, const struct fonts *fonts, struct diag *diag,
                    int rounds)
{
    double *ours = ARENA_ARRAY(bare->arena, double, rounds);
    double *bares = ARENA_ARRAY(bare->arena, double, rounds);
    double *ratios = ARENA_ARRAY(bare->arena, double, rounds);
    unsigned char *room = arena_take(bare->arena, FILE_ROOM);
    size_t our_size = 0, bare_size = 0;
    for (int i = 0; i < rounds; i++) {
        ours[i] = time_ours(bare->paged, fonts, diag, &our_size);
        bares[i] = time_bare(bare, room, &bare_size);
        ratios[i] = ours[i] / bares[i];
    }
    printf("pdf_write:    %6.0f sheets a second, %zu bytes each\n",
           SHEETS_A_ROUND / median(ours, rounds), our_size);
    printf("bare libharu: %6.0f sheets a second, %zu bytes each\n",
           SHEETS_A_ROUND / median(bares, rounds), bare_size);
    printf("time of pdf_write as a share of bare libharu's: %.2f (median of %d pairs)\n",
           median(ratios, rounds), rounds);
}

int main(int argc, char **argv)
{
    if (argc < 2) {
        fputs("usage: bench_pdf FONTS-FOLDER [ROUNDS]\n", stderr);
        return 2;
    }
    struct arena arena;
    struct diag diag;
    arena_init(&arena);
    diag_init(&diag);
    struct sample *sample = sample_make(SAMPLE_LONG, &arena);
    struct bare bare = {.font_paths = {file_join(&arena, argv[1], "plain-win-ansi.ttf"),
                                       file_join(&arena, argv[1], "strong-win-ansi.ttf")},
                        .paged = &sample->paged,
                        .arena = &arena};
    struct fonts *fonts = fonts_new(argv[1], &diag);
    bool ok = fonts != NULL;
    for (size_t i = 0; i < sample->paged.page_count; i++) {
        for (struct op *op = sample->paged.pages[i].first; op != NULL; op = op->next) {
            op->uri = op->kind == OP_TEXT ? to_win_ansi(op->text, &arena) : NULL;
        }
    }
    if (ok) {
        int rounds = argc > 2 ? atoi(argv[2]) : ROUNDS;
        compare(&bare, fonts, &diag, rounds);
        compare_first(&bare, argv[1], &diag, rounds);
    }
    diag_print(&diag, stderr);
    fonts_free(fonts);
    diag_finish(&diag);
    arena_finish(&arena);
    return ok ? 0 : 1;
}
