/* The table of options, reading them from the words of the command line, and the help made of
 * both. */
#include "cli/command.h"

#include <string.h>

#include "base/nearest.h"

/* what makes something out of a visit or a roster */
#define FOR_MAKERS (FOR_SHEET | FOR_PACKET | FOR_MAIL | FOR_DATES)

#define OPTION(member_, name_, letter_, value_, commands_, help_)                                  \
    {                                                                                              \
        name_, letter_, value_, offsetof(struct options, member_), commands_, false, help_         \
    }
#define OPTION_OF_MORE(member_, name_, letter_, value_, commands_, help_)                          \
    {                                                                                              \
        name_, letter_, value_, offsetof(struct options, member_), commands_, true, help_          \
    }

static const struct option_row option_rows[] = {
    OPTION(output, "output", 'o', "FILE", FOR_MAKERS | FOR_EXPLAIN | FOR_START | FOR_CLINIC,
           "where to write; - is standard output"),
    OPTION(replace, "replace", 0, NULL, FOR_MAKERS | FOR_EXPLAIN | FOR_START | FOR_CLINIC,
           "write even over a file that this command did not make"),
    OPTION(json, "json", 0, NULL, FOR_EXPLAIN | FOR_REVIEW, "as JSON"),
    OPTION(paper, "paper", 0, "a4|letter", FOR_SHEET | FOR_PACKET | FOR_MAIL,
           "paper size; else the clinic's"),
    OPTION_OF_MORE(print, "print", 0, "[PRINTER]", FOR_SHEET,
                   "to the printer, the default one unless named: on its own paper, on both sides"),
    OPTION(copies, "copies", 0, "N", FOR_SHEET, "print that many"),
    OPTION(language, "language", 0, "CODE", FOR_MAKERS | FOR_CHECK,
           "language of the sheet; else the keeper's; for check: of a file of words"),
    OPTION(kind, "kind", 0, "KIND", FOR_SHEET,
           "a further kind of sheet, such as card; else the visit's"),
    OPTION(units, "units", 0, "metric|us", FOR_MAKERS, "units of the sheet; else the keeper's"),
    OPTION(schema, "schema", 0, "KIND", FOR_CHECK,
           "print the JSON Schema of a kind of file, for editors"),
    OPTION(format, "format", 0, "KIND", FOR_CHECK, "print what can stand in a kind of file"),
    OPTION(message, "message", 0, "NUMBER", FOR_CHECK,
           "print what a message means and what to do, such as B214; all: every message"),
    OPTION(data, "data", 0, "FOLDER", FOR_ALL,
           "the folder that holds templates and species-sheets"),
    OPTION(clinic, "clinic", 0, "FILE", FOR_ALL & ~(FOR_SPECIES | FOR_CLINIC),
           "the clinic's details; else what 'baskleaf clinic' wrote"),
    OPTION(species_dir, "species-dir", 0, "FOLDER", FOR_ALL & ~FOR_CLINIC,
           "the clinic's own species sheets, which override ours; else those beside its details"),
    OPTION(by, "by", 0, "NAME", FOR_APPROVE | FOR_REVIEW, "who signs or confirms"),
    OPTION(confirm, "confirm", 0, "KEY,...", FOR_REVIEW, "confirm these values as they are"),
    OPTION(set, "set", 0, "KEY=VALUE", FOR_REVIEW, "change a value; a semicolon parts several"),
    OPTION(edition, "edition", 0, "TEXT", FOR_REVIEW, "what was consulted, with its edition"),
    OPTION(reason, "reason", 0, "TEXT", FOR_REVIEW, "why it was changed"),
    OPTION(send, "send", 0, NULL, FOR_MAIL, "deliver the message to the mail server as well"),
    OPTION(settings, "settings", 0, "FILE", FOR_MAIL | FOR_DESK,
           "the mail server's settings; nobody else may read the file"),
    OPTION_OF_MORE(password_file, "password-file", 0, "FILE", FOR_SHEET | FOR_MAIL,
                   "the PDF opens with the password in FILE alone; nobody else may read the file"),
    OPTION(resend, "resend", 0, NULL, FOR_MAIL, "send even what was sent before"),
    OPTION(drafts, "drafts", 0, NULL, FOR_MAKERS, "also what no veterinarian has signed"),
    OPTION_OF_MORE(joined, "joined", 0, NULL, FOR_PACKET,
                   "also all sheets in one file for the printer, each animal on leaves of its own"),
    OPTION(resume, "resume", 0, NULL, FOR_PACKET, "make only what is missing or has changed"),
    OPTION(set_aside, "set-aside", 0, NULL, FOR_PACKET,
           "move PDFs of no row into a folder of their own"),
    OPTION(jobs, "jobs", 0, "N", FOR_PACKET, "that many processes at once"),
    OPTION(shard, "shard", 0, "I/N", FOR_PACKET, "the I-th of N equal parts of the rows"),
    OPTION(today, "today", 0, "DATE", FOR_ALL & ~(FOR_SPECIES | FOR_CLINIC),
           "take this as today's date"),
    OPTION(address, "address", 0, "ADDRESS", FOR_DESK,
           "where the desk listens; else 127.0.0.1, this machine alone"),
    OPTION(port, "port", 0, "NUMBER", FOR_DESK, "the desk's port; else one that is free"),
    OPTION(allow_remote, "allow-remote", 0, NULL, FOR_DESK,
           "let other machines in: over TLS, and nobody without a passphrase"),
    OPTION(certificate, "certificate", 0, "FILE", FOR_DESK,
           "the clinic's certificate with its key, for --allow-remote; else one is made"),
    OPTION(person, "person", 0, "NAME", FOR_DESK,
           "give this person a passphrase, read from standard input, and end"),
    OPTION(role, "role", 0, "ROLE", FOR_DESK,
           "that person's: reception, veterinarian, shelter or none (takes them out)"),
    OPTION(forget_after, "forget-after", 0, "DAYS", FOR_DESK,
           "forget drafts, lost texts, voided records and lists that nobody touched for so long"),
    OPTION(page, "page", 0, "FOLDER", FOR_DESK,
           "serve the page's own files from here, while you work on them"),
    OPTION(help, "help", 'h', NULL, FOR_ALL, "this text"),
};

enum { OPTION_COUNT = sizeof option_rows / sizeof *option_rows };

static bool takes(const struct command *command, const struct option_row *row)
{
    return (row->commands & (unsigned)command->set) != 0;
}

static bool is_given(const struct options *options, const struct option_row *row)
{
    const void *place = (const char *)options + row->offset;
    return row->value ? *(const char *const *)place != NULL : *(const bool *)place;
}

bool options_need_more(const struct run *run)
{
    for (int i = 0; i < OPTION_COUNT; i++)
        if (option_rows[i].needs_more && is_given(&run->options, &option_rows[i]))
            return true;
    return false;
}

static bool refuse(struct run *run, const struct command *command, const char *text)
{
    diag_report(&run->diag, DIAG_USAGE, "usage", (struct mark){0},
                "%s; 'baskleaf %s --help' lists what it takes", text, command->name);
    return false;
}

static const struct option_row *find_option(const struct command *command, const char *word,
                                            size_t length)
{
    for (int i = 0; i < OPTION_COUNT; i++) {
        const struct option_row *row = &option_rows[i];
        if (!takes(command, row))
            continue;
        bool is_short =
            word[0] == '-' && word[1] == row->letter && length == 2 && row->letter >= 'a';
        bool is_long = strncmp(word, "--", 2) == 0 && strlen(row->name) == length - 2 &&
                       strncmp(word + 2, row->name, length - 2) == 0;
        if (is_short || is_long)
            return row;
    }
    return NULL;
}

static bool unknown_option(struct run *run, const struct command *command, const char *word,
                           size_t length)
{
    struct nearest nearest;
    char *name = arena_copy_bytes(&run->arena, word, length);
    nearest_init(&nearest, name + strspn(name, "-"));
    for (int i = 0; i < OPTION_COUNT; i++)
        if (takes(command, &option_rows[i]))
            nearest_offer(&nearest, option_rows[i].name);
    const char *text = nearest.best
                           ? arena_format(&run->arena, "unknown option '%s'; did you mean '--%s'?",
                                          name, nearest.best)
                           : arena_format(&run->arena, "unknown option '%s'", name);
    return refuse(run, command, text);
}

/* A value that may be left out is taken from the next word when that is no option; should a word
 * be wanting in the end, it was that. */
static void read_loose(struct run *run, int argc, char **argv, int *index, const char **place)
{
    *place = "";
    if (*index + 1 < argc && argv[*index + 1][0] != '-') {
        *place = argv[++*index];
        run->loose = place;
    }
}

/* One option, perhaps with its value in the next word; *index moves past it. */
static bool read_option(struct run *run, const struct command *command, int argc, char **argv,
                        int *index)
{
    const char *word = argv[*index];
    const char *equals = strchr(word, '=');
    size_t length = equals ? (size_t)(equals - word) : strlen(word);
    const struct option_row *row = find_option(command, word, length);
    if (!row)
        return unknown_option(run, command, word, length);
    void *place = (char *)&run->options + row->offset;
    if (!row->value) {
        if (equals)
            return refuse(run, command,
                          arena_format(&run->arena, "'--%s' takes no value", row->name));
        *(bool *)place = true;
        return true;
    }
    if (row->value[0] == '[' && !equals) {
        read_loose(run, argc, argv, index, place);
        return true;
    }
    const char *value = equals ? equals + 1 : *index + 1 < argc ? argv[++*index] : NULL;
    if (!value || !*value)
        return refuse(
            run, command,
            arena_format(&run->arena, "'--%s' needs a value (%s)", row->name, row->value));
    *(const char **)place = value;
    return true;
}

static bool check_words(struct run *run, const struct command *command)
{
    if (run->options.help)
        return true;
    if (run->word_count < command->least_words)
        return refuse(run, command,
                      arena_format(&run->arena, "'%s' needs %s", command->name, command->words));
    if (command->most_words >= 0 && run->word_count > command->most_words)
        return refuse(run, command,
                      arena_format(&run->arena, "'%s' is one word too many",
                                   run->words[command->most_words]));
    return true;
}

bool options_read(const struct command *command, int argc, char **argv, struct run *run)
{
    const char **words = ARENA_ARRAY(&run->arena, const char *, (size_t)argc + 1);
    bool only_words = false;
    for (int i = 0; i < argc; i++)
        if (!only_words && strcmp(argv[i], "--") == 0)
            only_words = true;
        else if (only_words || argv[i][0] != '-' || argv[i][1] == '\0')
            words[run->word_count++] = argv[i];
        else if (!read_option(run, command, argc, argv, &i))
            return false;
    if (run->loose && run->word_count < command->least_words) {
        words[run->word_count++] = *run->loose;
        *run->loose = "";
    }
    run->words = words;
    if (run->options.today && !date_read(run->options.today, false, &run->today))
        return refuse(run, command, "'--today' needs a date such as 2026-03-14");
    return check_words(run, command);
}

void help_write_all(FILE *out)
{
    fputs("baskleaf sets a care sheet for one reptile or amphibian after its visit.\n\n"
          "usage: baskleaf COMMAND ...\n\n",
          out);
    for (int i = 0; i < command_count; i++)
        fprintf(out, "  %-8s %-12s %s\n", commands[i].name, commands[i].words, commands[i].summary);
    fputs("\n'baskleaf COMMAND --help' tells more, 'baskleaf --version' which release this is. '-' "
          "reads a record from standard input.\n"
          "Exit status: 0 done, 1 the input is wrong, 2 usage, 3 output or environment failed.\n"
          "A sheet supports a licensed veterinarian and never replaces one.\n",
          out);
}

void help_write_command(const struct command *command, FILE *out)
{
    fprintf(out, "usage: baskleaf %s [options] %s\n%s\n\n", command->name, command->words,
            command->summary);
    for (int i = 0; i < OPTION_COUNT; i++) {
        const struct option_row *row = &option_rows[i];
        if (!takes(command, row))
            continue;
        char form[64];
        snprintf(form, sizeof form, "--%s%s%s", row->name, row->value ? " " : "",
                 row->value ? row->value : "");
        if (row->letter)
            fprintf(out, "  -%c, %-24s %s\n", row->letter, form, row->help);
        else
            fprintf(out, "      %-24s %s\n", form, row->help);
    }
}
