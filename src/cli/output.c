/* Where a command's result goes. */
#include <string.h>

#include "pdftools/pdf_encrypt.h"
#include "cli/command.h"

/* out/ of the project when the program runs from it, else of the folder it is called in. */
static const char *default_output(struct run *run, const struct resources *resources,
                                  const char *name)
{
    const char *folder = file_join(&run->arena, resources->places.data_folder, "out");
    if (!file_is_folder(folder)) {
        folder = "out";
        if (!file_make_folder(folder, &run->diag))
            return NULL;
    }
    return file_join(&run->arena, folder, name);
}

const char *command_deliver(struct run *run, const struct resources *resources, const char *name,
                            const struct bytes *result)
{
    const char *output =
        run->options.output ? run->options.output : default_output(run, resources, name);
    if (!output)
        return NULL;
    if (strcmp(output, "-") == 0) {
        command_print(run, result->data, result->length);
        return output;
    }
    /* it holds a keeper's name: others on the machine need not read it */
    if (!file_write_atomic(output, result->data, result->length, 0640, &run->diag))
        return NULL;
    const char *line = arena_format(&run->arena, "%s\n", output);
    command_print(run, line, strlen(line));
    return output;
}

bool command_password(struct run *run, const char **out)
{
    const char *path = run->options.password_file;
    *out = path ? password_file_read(path, &run->arena, &run->diag) : NULL;
    return !path || *out;
}
