/* Finds and loads the module for further letters. */
#include "pdf/letters.h"

#include <dlfcn.h>
#include <string.h>
#include <unistd.h>

static const struct letters_calls *load(const char *path)
{
    void *module = access(path, R_OK) == 0 ? dlopen(path, RTLD_NOW | RTLD_LOCAL) : NULL;
    return module ? dlsym(module, LETTERS_SYMBOL) : NULL;
}

/* Beside the program or, where it was installed, in the libexec folder that the build was given,
 * from the program's folder so that the whole may lie anywhere; in the build, from the program's
 * folder or a test's. Nowhere else: what is found is run. */
static const struct letters_calls *look(struct arena *arena)
{
    static const char libexec[] = "/../" BASKLEAF_LIBEXEC;
    static const char *const folders[] = {"", libexec, "/../pdf", "/../src/pdf", "/../../src/pdf"};
    char path[4096];
    ssize_t length = readlink("/proc/self/exe", path, sizeof path - 1);
    path[length > 0 ? length : 0] = '\0';
    char *slash = strrchr(path, '/');
    if (!slash)
        return NULL;
    *slash = '\0';
    const struct letters_calls *found = NULL;
    for (size_t i = 0; i < sizeof folders / sizeof *folders && !found; i++)
        found = load(arena_format(arena, "%s%s/%s", path, folders[i], BASKLEAF_LETTERS));
    return found ? found : load(BASKLEAF_LIBEXEC_AT "/" BASKLEAF_LETTERS);
}

const struct letters_calls *letters_load(void)
{
    struct arena arena;
    arena_init(&arena);
    const struct letters_calls *found = look(&arena);
    arena_finish(&arena);
    return found;
}
