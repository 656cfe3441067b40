/* The commands and their options as tables; one small engine reads both. */
#ifndef BASKLEAF_CLI_COMMAND_H
#define BASKLEAF_CLI_COMMAND_H

#include <stdbool.h>

#include "cli/command_table.h"
#include "context/resources.h"

/* Every option of every command; NULL or false where it was not given. */
struct options {
    const char *data;
    const char *clinic;
    const char *species_dir;
    const char *today;
    const char *by, *confirm, *set, *edition, *reason;
    const char *settings;
    const char *password_file;
    bool send, resend;
    const char *schema;
    const char *message;
    const char *format;
    const char *output;
    const char *paper;
    const char *print; /* "": the default printer */
    const char *copies;
    const char *language;
    const char *kind;
    const char *units;
    const char *address;
    const char *port;
    bool allow_remote;
    const char *certificate, *person, *role, *page, *forget_after;
    const char *shard;
    const char *jobs;
    bool json;
    bool replace;
    bool set_aside;
    bool drafts;
    bool resume;
    bool joined;
    bool help;
};

struct run {
    struct options options;
    const char *const *words; /* what is not an option, NULL-terminated */
    int word_count;
    const char **loose; /* an option's value that could as well be a word, or NULL */
    struct date today;
    const struct node *record; /* what a command works on, once it was read; else NULL */
    struct arena arena;        /* lives for the run */
    struct diag diag;
};

/* The commands as a set, one bit each: an option's row says which of them take it. */
enum command_id {
#define COMMAND_ID(code_, ...) COMMAND_##code_,
    COMMANDS(COMMAND_ID)
#undef COMMAND_ID
        COMMAND_COUNT
};

enum command_set {
#define COMMAND_BIT(code_, ...) FOR_##code_ = 1 << COMMAND_##code_,
    COMMANDS(COMMAND_BIT)
#undef COMMAND_BIT
        FOR_ALL = (1 << COMMAND_COUNT) - 1
};

struct option_row {
    const char *name;  /* --name */
    char letter;       /* -x, or 0 */
    const char *value; /* its name in the help; NULL for a switch; in [] it may be left out */
    size_t offset;     /* in struct options: const char * or bool */
    unsigned commands; /* which take it, an enum command_set */
    bool needs_more;   /* only baskleaf-more can do it */
    const char *help;
};

struct command {
    const char *name;
    const char *words;           /* "VISIT", "FILE...", "[WORDS]" */
    int least_words, most_words; /* most -1: any number */
    const char *summary;
    enum command_set set; /* the command itself */
    bool needs_more;      /* only baskleaf-more can do it */
    void (*act)(struct run *run);
};

extern const struct command commands[];
extern const int command_count;

/* command_sheet, command_explain ... */
#define COMMAND_DECLARATION(code_, name_, ...) void command_##name_(struct run *run);
COMMANDS(COMMAND_DECLARATION)
#undef COMMAND_DECLARATION

/* Was any option given that only baskleaf-more can do? */
bool options_need_more(const struct run *run);

/* Reads the words after the command's name. False after a DIAG_USAGE. */
bool options_read(const struct command *command, int argc, char **argv, struct run *run);

void help_write_all(FILE *out);
void help_write_command(const struct command *command, FILE *out);

/* The resources of the run; false after errors. */
bool command_resources(struct run *run, struct resources *out);

/* Today by the machine's clock and time zone. */
struct date command_clock_today(void);

/* What a command has made. */
struct result {
    const char *name;      /* of its file in out/, unless --output says otherwise */
    const char *record_id; /* by which a file of the same visit is known again, or NULL */
    struct bytes bytes;
};

/* Writes a result and prints where: to --output, else under its name in out/. Never over a file
 * that the command reads and, unless --replace is given, over none that it did not make. The file,
 * or NULL when it was not written. */
const char *command_deliver(struct run *run, const struct resources *resources,
                            const struct result *result);

/* The same for what goes to standard output unless --output names a file. */
void command_deliver_or_print(struct run *run, const struct resources *resources,
                              struct bytes bytes);

/* Is the file one of those that the command reads, however it is spelled? */
bool command_reads(const struct run *run, const struct resources *resources, const char *output,
                   struct arena *arena);

/* A name, or another text of one line that is kept. */
bool command_is_name(const char *name);

/* The password of --password-file; NULL when there is none. False after errors. */
bool command_password(struct run *run, const char **out);

/* Writes text to standard output; a fault is reported. */
void command_print(struct run *run, const char *text, size_t length);

#endif
