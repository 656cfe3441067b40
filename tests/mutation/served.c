/* The program, write_plain and the suites of one part of it in one process, for mutation: what all
 * sheets share is read once, and each run is a child of that. On standard input come requests, a
 * line with the length and then fields that each end in NUL: the folder to be in, the files for
 * standard input, output and error, settings NAME=VALUE, an empty field, and the words of the
 * command, the first of them "program", "write_plain" or the name of a suite. The answer is a line
 * with the status, or with minus the signal, as Python's subprocess says it. */
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "context/resources.h"
#include "mutation/served.h"

enum { WORDS_MOST = 64, REQUEST_BYTES_MOST = 1 << 20 };

struct entry {
    const char *name;
    int (*main)(int argc, char **argv);
};

#define UNIT(name)                                                                                 \
    static int run_##name(int argc, char **argv)                                                   \
    {                                                                                              \
        (void)argc;                                                                                \
        (void)argv;                                                                                \
        return unit_##name();                                                                      \
    }
SERVED_UNITS
#undef UNIT

#define UNIT(name) {#name, run_##name},
static const struct entry entries[] = {
    {"program", served_program}, {"write_plain", served_write_plain}, SERVED_UNITS};
#undef UNIT

static struct {
    bool is_read;
    struct arena arena;
    struct diag diag;
    struct resources resources;
} kept;

static bool is_same(const char *a, const char *b)
{
    return a && b ? strcmp(a, b) == 0 : a == b;
}

/* Stands in the place of resources_read in the program and in write_plain. */
bool served_resources_read(const struct places *places, struct arena *arena, struct diag *diag,
                           struct resources *out)
{
    const struct places *own = &kept.resources.places;
    if (!kept.is_read || places->clinic_file || !is_same(places->data_folder, own->data_folder) ||
        !is_same(places->species_dir, own->species_dir) ||
        !is_same(resources_find_clinic(places->data_folder, arena), own->clinic_file))
        return resources_read(places, arena, diag, out);
    *out = kept.resources;
    out->places = *places;
    return true;
}

/* A suite reaches what it asks for itself: what was read before it began is not counted for it.
 * What all sheets share is counted for each that prints one. */
static void forget_counts(void)
{
#ifdef COUNTED
    extern void __gcov_reset(void); /* libgcov's; NOLINT */
    __gcov_reset();
#endif
}

/* As the program finds them when nothing is named. */
static void keep_resources(void)
{
    arena_init(&kept.arena);
    diag_init(&kept.diag);
    struct places places = {.data_folder = resources_find_data(&kept.arena),
                            .species_dir = resources_find_own_sheets(NULL, &kept.arena)};
    kept.is_read = places.data_folder &&
                   resources_read(&places, &kept.arena, &kept.diag, &kept.resources) &&
                   !kept.diag.first;
    if (places.data_folder)
        kept.resources.places.clinic_file = resources_find_clinic(places.data_folder, &kept.arena);
}

static bool use_file(const char *path, int flags, int as)
{
    int fd = open(path, flags, 0600);
    return fd >= 0 && dup2(fd, as) == as && close(fd) == 0;
}

static int act(char **fields, int count)
{
    if (chdir(fields[0]) != 0 || !use_file(fields[1], O_RDONLY, STDIN_FILENO) ||
        !use_file(fields[2], O_WRONLY | O_CREAT | O_TRUNC, STDOUT_FILENO) ||
        !use_file(fields[3], O_WRONLY | O_CREAT | O_TRUNC, STDERR_FILENO))
        return 125;
    int first = 4;
    for (; first < count && *fields[first]; first++)
        putenv(fields[first]);
    first++;
    for (size_t i = 0; first < count && i < sizeof entries / sizeof *entries; i++)
        if (strcmp(entries[i].name, fields[first]) == 0) {
            if (entries[i].main != served_program && entries[i].main != served_write_plain)
                forget_counts();
            return entries[i].main(count - first, fields + first);
        }
    return 126;
}

/* The fields of the next request, and how many; 0 at the end. */
static int read_request(char *room, char **fields)
{
    char line[32];
    int count = 0;
    size_t length = fgets(line, sizeof line, stdin) ? strtoul(line, NULL, 10) : 0;
    if (length == 0 || length > REQUEST_BYTES_MOST || fread(room, 1, length, stdin) != length)
        return 0;
    for (size_t at = 0; at < length && count < WORDS_MOST; at += strlen(room + at) + 1)
        fields[count++] = room + at;
    fields[count] = NULL;
    return count;
}

int main(void)
{
    static char room[REQUEST_BYTES_MOST + 1];
    char *fields[WORDS_MOST + 1];
    keep_resources();
    for (int count; (count = read_request(room, fields)) > 4;) {
        fflush(stdout);
        pid_t child = fork();
        if (child == 0)
            exit(act(fields, count));
        int status = 0;
        if (child < 0 || waitpid(child, &status, 0) != child)
            return 1;
        printf("%d\n", WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status));
        fflush(stdout);
    }
    diag_finish(&kept.diag);
    arena_finish(&kept.arena);
    return 0;
}
