/* Hands a run over to baskleaf-more when its command or an option needs a library of that
 * program. */
#include "cli/more.h"

#ifdef BASKLEAF_MORE

#include <errno.h>
#include <string.h>
#include <unistd.h>

/* Beside this program where it was built, in libexec where it was installed. */
static const char *find_more(struct run *run)
{
    char path[4096];
    ssize_t length = readlink("/proc/self/exe", path, sizeof path - 1);
    path[length > 0 ? length : 0] = '\0';
    char *slash = strrchr(path, '/');
    if (slash)
        *slash = '\0';
    static const char *const folders[] = {"", "/../libexec/baskleaf"};
    for (size_t i = 0; slash && i < sizeof folders / sizeof *folders; i++) {
        const char *found = arena_format(&run->arena, "%s%s/%s", path, folders[i], BASKLEAF_MORE);
        if (file_exists(found))
            return found;
    }
    return BASKLEAF_LIBEXEC "/" BASKLEAF_MORE;
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
