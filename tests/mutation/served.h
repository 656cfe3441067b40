/* The main functions of what served.c holds; each is compiled with another name for its `main`. */
#ifndef BASKLEAF_TESTS_SERVED_H
#define BASKLEAF_TESTS_SERVED_H

int served_program(int argc, char **argv);
int served_write_plain(int argc, char **argv);

#define UNIT(name) int unit_##name(void);
SERVED_UNITS
#undef UNIT

#endif
