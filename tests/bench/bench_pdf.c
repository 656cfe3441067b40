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

#include "bench/bare.h"
#include "bench/timing.h"
#include "pdf/pdf.h"
#include "page/sample.h"

enum { SHEETS_A_ROUND = 100, ROUNDS = 11 };

/* Seconds for one round of ours; *size is one file's. */
static double time_ours(const struct paged *paged, const struct fonts *fonts, struct diag *diag,
                        size_t *size)
{
    struct arena arena;
    struct bytes file = {0};
    arena_init(&arena);
    double start = timing_now_s();
    for (int i = 0; i < SHEETS_A_ROUND; i++) {
        arena_reset(&arena);
        if (!pdf_write(paged, fonts, &arena, diag, &file)) {
            *size = 0;
            return NAN;
        }
    }
    double spent = timing_now_s() - start;
    *size = file.length;
    arena_finish(&arena);
    return spent;
}

/* The same for the bare program. */
static double time_bare(const struct bare *bare, unsigned char *room, size_t *size)
{
    double start = timing_now_s();
    for (int i = 0; i < SHEETS_A_ROUND; i++)
        *size = bare_write(bare, room, BARE_ROOM);
    return timing_now_s() - start;
}

/* Seconds for the first sheet of a run: fonts and one file. */
static double time_first(const struct paged *paged, const char *folder, struct diag *diag)
{
    struct arena arena;
    struct bytes file;
    arena_init(&arena);
    double start = timing_now_s();
    struct fonts *fonts = fonts_new(folder, diag);
    bool ok = fonts != NULL && pdf_write(paged, fonts, &arena, diag, &file);
    fonts_free(fonts);
    double spent = timing_now_s() - start;
    arena_finish(&arena);
    return ok ? spent : NAN;
}

/* The first sheet against one bare document. */
static void compare_first(const struct bare *bare, const char *folder, struct diag *diag,
                          int rounds, struct arena *arena)
{
    double *ratios = ARENA_ARRAY(arena, double, rounds);
    unsigned char *room = arena_take(arena, BARE_ROOM);
    for (int i = 0; i < rounds; i++) {
        double ours = time_first(bare->paged, folder, diag);
        double start = timing_now_s();
        bare_write(bare, room, BARE_ROOM);
        ratios[i] = ours / (timing_now_s() - start);
    }
    printf("the same for the first sheet of a run: %.2f\n", timing_median(ratios, rounds));
}

/* Alternates the two and prints what came out. */
static void compare(const struct bare *bare, const struct fonts *fonts, struct diag *diag,
                    int rounds, struct arena *arena)
{
    double *ours = ARENA_ARRAY(arena, double, rounds);
    double *bares = ARENA_ARRAY(arena, double, rounds);
    double *ratios = ARENA_ARRAY(arena, double, rounds);
    unsigned char *room = arena_take(arena, BARE_ROOM);
    size_t our_size = 0, bare_size = 0;
    for (int i = 0; i < rounds; i++) {
        ours[i] = time_ours(bare->paged, fonts, diag, &our_size);
        bares[i] = time_bare(bare, room, &bare_size);
        ratios[i] = ours[i] / bares[i];
    }
    printf("pdf_write:    %6.0f sheets a second, %zu bytes each\n",
           SHEETS_A_ROUND / timing_median(ours, rounds), our_size);
    printf("bare libharu: %6.0f sheets a second, %zu bytes each\n",
           SHEETS_A_ROUND / timing_median(bares, rounds), bare_size);
    printf("time of pdf_write as a share of bare libharu's: %.2f (median of %d pairs)\n",
           timing_median(ratios, rounds), rounds);
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
    struct bare bare = bare_prepare(&sample->paged, argv[1], &arena);
    struct fonts *fonts = fonts_new(argv[1], &diag);
    bool ok = fonts != NULL;
    if (ok) {
        int rounds = argc > 2 ? atoi(argv[2]) : ROUNDS;
        compare(&bare, fonts, &diag, rounds, &arena);
        compare_first(&bare, argv[1], &diag, rounds, &arena);
    }
    diag_print(&diag, stderr);
    fonts_free(fonts);
    diag_finish(&diag);
    arena_finish(&arena);
    return ok ? 0 : 1;
}
