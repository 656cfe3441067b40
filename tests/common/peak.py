"""Runs a program and prints its exit status, its peak memory in kB, its seconds and its seconds of work on all cores. By itself, because a process inherits the
peak of the one that starts it: a small one has to do that."""
import os
import sys
import time

nothing = os.open(os.devnull, os.O_WRONLY)
start = time.perf_counter()
pid = os.posix_spawnp(sys.argv[1], sys.argv[1:], os.environ,
                      file_actions=[(os.POSIX_SPAWN_DUP2, nothing, 1), (os.POSIX_SPAWN_DUP2, nothing, 2)])
_, status, usage = os.wait4(pid, 0)
print(os.waitstatus_to_exitcode(status), usage.ru_maxrss, time.perf_counter() - start, usage.ru_utime + usage.ru_stime)
