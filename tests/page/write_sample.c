/* Writes one of the hand-made sheets as a PDF, for the tests that read it with other programs,
 * and prints each text with its place: page, x, y, measured width, size, text, set apart by tabs.
 *
 *     write_sample FONTS-FOLDER plain|rich|long|random-SEED OUT.pdf
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "pdf/pdf.h"
#include "page/random_sample.h"

static void print_texts(const struct paged *paged, const struct measure *measure)
{
    for (size_t page = 0; page < paged->page_count; page++) {
        for (const struct op *op = paged->pages[page].first; op != NULL; op = op->next) {
            if (op->kind == OP_TEXT) {
                double width =
                    measure->width_pt(measure, op->style, op->size_pt, op->text, strlen(op->text));
                printf("%zu\t%.3f\t%.3f\t%.3f\t%.3f\t%s\n", page + 1, op->x, op->y, width,
                       op->size_pt, op->text);
            }
        }
    }
}

/* The sheet with a name, or NULL. */
static struct sample *find_sample(const char *name, struct arena *arena)
{
    if (strncmp(name, "random-", 7) == 0)
        return random_sample_make((unsigned)strtoul(name + 7, NULL, 10), arena);
    enum sample_kind kind = sample_named(name);
    return kind == SAMPLE_COUNT ? NULL : sample_make(kind, arena);
}

int main(int argc, char **argv)
{
    struct arena arena;
    struct diag diag;
    struct bytes file;
    arena_init(&arena);
    diag_init(&diag);
    struct sample *sample = argc < 4 ? NULL : find_sample(argv[2], &arena);
    if (sample == NULL) {
        fputs("usage: write_sample FONTS-FOLDER plain|rich|long|random-SEED OUT.pdf\n", stderr);
        return 2;
    }
    struct fonts *fonts = fonts_new(argv[1], &diag);
    bool ok = fonts != NULL && pdf_write(&sample->paged, fonts, &arena, &diag, &file) &&
              file_write_atomic(argv[3], file.data, file.length, 0644, &diag);
    if (ok)
        print_texts(&sample->paged, fonts_measure(fonts));
    diag_print(&diag, stderr);
    fonts_free(fonts);
    diag_finish(&diag);
    arena_finish(&arena);
    return ok ? 0 : 1;
}
