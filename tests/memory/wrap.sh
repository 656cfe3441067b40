#!/usr/bin/env bash
# Runs one test under valgrind; interpreters run as they are.
case "$1" in
  */python3 | */node | */bash) exec "$@" ;;
  *) exec valgrind -q --trace-children=yes --error-exitcode=9 --leak-check=full --errors-for-leak-kinds=definite,possible "$@" ;;
esac
