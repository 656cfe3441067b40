/* The commands: the one place that registers them.
 *
 * A row is X(CODE, name, words, least, most, more, summary). The function is command_name
 * (command_name.c); an option's row says with FOR_CODE that the command takes it; `words` is what
 * stands behind the command, from `least` to `most` of them (-1: any number); MORE when only
 * baskleaf-more can do it (cli/more.h).
 */
#ifndef BASKLEAF_CLI_COMMAND_TABLE_H
#define BASKLEAF_CLI_COMMAND_TABLE_H

#define QUICK false
#define MORE true

#define COMMANDS(X)                                                                                \
    X(SHEET, sheet, "VISIT", 1, 1, QUICK, "set the PDF care sheet for one visit record")           \
    X(EXPLAIN, explain, "VISIT", 1, 1, QUICK,                                                      \
      "show the plan: every number, its source, each rule that fired")                             \
    X(CHECK, check, "FILE...", 0, -1, QUICK,                                                       \
      "check any of the project's YAML files, or a whole data folder; all faults in one run")      \
    X(APPROVE, approve, "VISIT", 1, 1, QUICK,                                                      \
      "sign a visit or a roster: who, when, and what was signed")                                  \
    X(PACKET, packet, "ROSTER", 1, 1, QUICK,                                                       \
      "set the sheets of a roster, one animal a row, in one run")                                  \
    X(MAIL, mail, "VISIT", 1, 1, MORE,                                                             \
      "write a complete mail message: the sheet as text, its PDF and the dates")                   \
    X(DATES, dates, "VISIT", 1, 1, MORE, "write the calendar file of one visit")                   \
    X(SPECIES, species, "[WORDS]", 0, -1, QUICK, "find a species sheet")                           \
    X(START, start, "SPECIES", 1, 1, QUICK,                                                        \
      "write a visit record to fill in, with that species' findings")                              \
    X(REVIEW, review, "SPECIES", 1, 1, QUICK,                                                      \
      "list what a veterinarian has to confirm of a species sheet, and write what was confirmed")  \
    X(CLINIC, clinic, "", 0, 0, QUICK,                                                             \
      "ask for the clinic's details and keep them outside the program's folder")                   \
    X(DESK, desk, "[FOLDER]", 0, 1, MORE,                                                          \
      "serve the front-desk page over a folder of visit records")

#endif
