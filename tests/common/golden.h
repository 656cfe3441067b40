/* Compares a text with a file that was read line by line before it was accepted. */
#ifndef BASKLEAF_TESTS_GOLDEN_H
#define BASKLEAF_TESTS_GOLDEN_H

/* Fails the running test, naming the first line that differs, when `text` is not what stands
 * in `path`. With BASKLEAF_UPDATE_GOLDEN=1 in the environment it writes the file instead. */
void golden_check(const char *path, const char *text);

#endif
