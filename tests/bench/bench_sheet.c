/* One sheet from its record to the PDF in memory (reading, planning, wording, layout, drawing,
 * tags) beside a bare libharu program that draws the same operations; rounds alternate and medians
 * are compared, because times on a shared machine wander. With a third word the operations are
 * kept in that file for bare_sheet, and nothing is measured. With a number behind that so many
 * sheets are made, by us or bare, for who counts instructions (instructions.py).
 *
 *     bench_sheet DATA-FOLDER VISIT [OPERATIONS | ours SHEETS | bare SHEETS]
 */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "bench/bare.h"
#include "bench/timing.h"
#include "render/render.h"
#include "context/visit_plan.h"
#include "layout/layout.h"

enum { SHEETS_A_ROUND = 50, ROUNDS = 11 };

struct bench {
    struct resources resources;
    struct sheet_context context;
    const char *visit;
    struct diag diag;
};

static const struct date today = {2026, 11, 30}; /* behind every example's visit */

/* A sheet as far as its operations. */
static bool lay_out(struct bench *bench, struct arena *arena, struct paged *out)
{
    static const struct sheet_options options = {0};
    static const struct signature draft = {0};
    const struct visit_record *record =
        visit_plan_read(&bench->resources, bench->visit, today, arena, &bench->diag);
    const struct sheet_inputs in = {&bench->context, record ? record->plan : NULL, &options,
                                    &draft};
    return record && sheet_lay(&in, arena, &bench->diag, out);
}

/* Seconds for so many sheets; as far as the operations alone when `size` is NULL, else *size is one
 * file's. */
static double time_ours(struct bench *bench, int sheets, size_t *size)
{
    struct arena arena;
    arena_init(&arena);
    double start = timing_now_s();
    bool good = true;
    for (int i = 0; i < sheets && good; i++) {
        struct paged paged = {0};
        struct bytes file = {0};
        arena_reset(&arena);
        good = lay_out(bench, &arena, &paged);
        if (size && good) {
            good = pdf_write(&paged, bench->context.fonts, &arena, &bench->diag, &file);
            *size = file.length;
        }
    }
    double spent = timing_now_s() - start;
    arena_finish(&arena);
    return good ? spent : NAN;
}

static double time_bare(const struct bare *bare, int sheets, unsigned char *room, size_t *size)
{
    double start = timing_now_s();
    for (int i = 0; i < sheets; i++)
        *size = bare_write(bare, room, BARE_ROOM);
    return timing_now_s() - start;
}

static void compare(struct bench *bench, const struct bare *bare, unsigned char *room)
{
    double ours[ROUNDS], layouts[ROUNDS], bares[ROUNDS], ratios[ROUNDS];
    size_t our_size = 0, bare_size = 0;
    for (int i = 0; i < ROUNDS; i++) {
        ours[i] = time_ours(bench, SHEETS_A_ROUND, &our_size);
        bares[i] = time_bare(bare, SHEETS_A_ROUND, room, &bare_size);
        layouts[i] = time_ours(bench, SHEETS_A_ROUND, NULL);
        ratios[i] = ours[i] / bares[i];
    }
    printf("%zu pages; from record to PDF %.0f sheets a second and core (%zu bytes), of it to the "
           "operations %.0f %%; bare libharu %.0f (%zu bytes); ratio %.2f\n",
           bare->paged->page_count, SHEETS_A_ROUND / timing_median(ours, ROUNDS), our_size,
           100 * timing_median(layouts, ROUNDS) / timing_median(ours, ROUNDS),
           SHEETS_A_ROUND / timing_median(bares, ROUNDS), bare_size, timing_median(ratios, ROUNDS));
}

static bool keep(const struct bare *bare, const char *path)
{
    FILE *out = fopen(path, "wb");
    return out && bare_keep(bare, out) && fclose(out) == 0;
}

static bool make(struct bench *bench, const struct bare *bare, char **words, unsigned char *room)
{
    const int sheets = atoi(words[1]);
    size_t size = 0;
    if (strcmp(words[0], "bare") == 0)
        time_bare(bare, sheets, room, &size);
    else
        time_ours(bench, sheets, &size);
    return size > 0;
}

int main(int argc, char **argv)
{
    if (argc < 3) {
        fputs("usage: bench_sheet DATA-FOLDER VISIT [OPERATIONS | ours SHEETS | bare SHEETS]\n",
              stderr);
        return 2;
    }
    struct arena arena;
    struct bench bench = {.visit = argv[2]};
    struct paged paged = {0};
    const struct places places = {.data_folder = argv[1]};
    arena_init(&arena);
    diag_init(&bench.diag);
    unsigned char *room = malloc(BARE_ROOM);
    bool good = room && resources_read(&places, &arena, &bench.diag, &bench.resources) &&
                sheet_context_init(&bench.context, &bench.resources, &bench.diag) &&
                lay_out(&bench, &arena, &paged);
    if (good) {
        struct bare bare = bare_prepare(&paged, bench.resources.fonts, &arena);
        if (argc > 4)
            good = make(&bench, &bare, argv + 3, room);
        else if (argc > 3)
            good = keep(&bare, argv[3]);
        else
            compare(&bench, &bare, room);
    }
    free(room);
    diag_print(&bench.diag, stderr);
    sheet_context_finish(&bench.context);
    diag_finish(&bench.diag);
    arena_finish(&arena);
    return good ? 0 : 1;
}
