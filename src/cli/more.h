/* Half of a cold start would go to loading the libraries for mail, printing, calendars, joined
 * files and the desk, which a sheet by itself does not use. So the program is built twice:
 * `baskleaf` without them, and `baskleaf-more` with all that were found, which takes the first
 * one's place when a command or an option needs one. */
#ifndef BASKLEAF_CLI_MORE_H
#define BASKLEAF_CLI_MORE_H

#include "cli/command.h"

/* In `baskleaf`, for such a command: does not return, except after a DIAG_FAULT, then true.
 * Otherwise false. */
bool more_takes_over(const struct command *command, char **argv, struct run *run);

#endif
