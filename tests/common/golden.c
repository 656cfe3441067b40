/* Compares a text with a golden file and shows the first line that differs. */
#include "common/golden.h"

#include <check.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void update(const char *path, const char *text)
{
    FILE *file = fopen(path, "wb");
    ck_assert_msg(file != NULL, "%s cannot be written", path);
    bool ok = fputs(text, file) >= 0;
    ck_assert_msg(fclose(file) == 0 && ok, "%s cannot be written", path);
}

/* The whole file, ended by NUL; the caller frees it. */
static char *read_whole(const char *path)
{
    FILE *file = fopen(path, "rb");
    ck_assert_msg(file != NULL, "%s cannot be read; BASKLEAF_UPDATE_GOLDEN=1 writes it", path);
    size_t length = 0, capacity = 4096;
    char *text = malloc(capacity);
    while (text != NULL) {
        length += fread(text + length, 1, capacity - length - 1, file);
        if (length + 1 < capacity)
            break;
        capacity *= 2;
        char *moved = realloc(text, capacity);
        if (moved == NULL)
            free(text);
        text = moved;
    }
    fclose(file);
    ck_assert_ptr_nonnull(text);
    text[length] = '\0';
    return text;
}

void golden_check(const char *path, const char *text)
{
    const char *wanted = getenv("BASKLEAF_UPDATE_GOLDEN");
    if (wanted != NULL && strcmp(wanted, "1") == 0) {
        update(path, text);
        return;
    }
    char *golden = read_whole(path);
    const char *a = golden, *b = text;
    for (int line = 1; *a != '\0' || *b != '\0'; line++) {
        size_t in_a = strcspn(a, "\n"), in_b = strcspn(b, "\n");
        ck_assert_msg(in_a == in_b && memcmp(a, b, in_a) == 0 && a[in_a] == b[in_b],
                      "%s:%d: \"%.*s\", but is \"%.*s\"", path, line, (int)in_a, a, (int)in_b, b);
        a += in_a + (a[in_a] != '\0');
        b += in_b + (b[in_b] != '\0');
    }
    free(golden);
}
