/* For the program that parses them. */
#include "words/shipped_words.h"

const struct shipped_words shipped_words[] = {{0}};
const size_t shipped_words_count = 0;
