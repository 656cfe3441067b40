/* For the program that makes the store. */
#include "yaml/stored.h"

const struct stored_trees stored_trees = {0};
