/* Hands a run over to baskleaf-more when its command or an option needs a library of that
 * program. */
#include "cli/more.h"

#ifdef BASKLEAF_MORE

#include <errno.h>
#include <string.h>
#include <unistd.h>

/* Beside this program where it was built; where it was installed, in the libexec folder that the
 * build was given, below the first of the folders above that has it, so that the whole may lie
 * anywhere. */
static const char *find_more(struct run *run)
{
    char path[4096];
    ssize_t length = readlink("/proc/self/exe", path, sizeof path - 1);
    path[length > 0 ? length : 0] = '\0';
    const char *inside = BASKLEAF_MORE;
    for (char *slash; (slash = strrchr(path, '/')); inside = BASKLEAF_LIBEXEC "/" BASKLEAF_MORE) {
        *slash = '\0';
        const char *found = arena_format(&run->arena, "%s/%s", path, inside);
        if (file_exists(found))
            return found;
    }
    return BASKLEAF_PREFIX "/" BASKLEAF_LIBEXEC "/" BASKLEAF_MORE;
}

bool more_takes_over(const struct command *command, char **argv, struct run *run)
{
    if (!command->needs_more && !options_need_more(run))
        return false;
    const char *path = find_more(run);
    execv(path, argv);
    diag_report(&run->diag, DIAG_FAULT, "cannot-run", (struct mark){.file = path},
                "cannot be run: %s; '%s' needs it", strerror(errno), command->name);
    return true;
}

#else

bool more_takes_over(const struct command *command, char **argv, struct run *run)
{
    (void)command;
    (void)argv;
    (void)run;
    return false;
}

#endif
