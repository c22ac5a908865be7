"""Lets one system call of a command fail, or kills the command at it: at the first such call, then at the second, and
so on until none of the command's calls is left."""
import re
from concurrent.futures import ThreadPoolExecutor

from bench import IO_FAILED, KILLED
from support import insist, run

CHANGING = ("openat", "mkdir", "write", "pwrite64", "ftruncate", "fsync", "fdatasync", "rename", "unlink", "fchmod")
READING = ("read", "pread64", "fcntl", "newfstatat", "getdents64", "getrandom")
# Which calls a full disk refuses from some moment on.
GROWING = ("openat", "mkdir", "write", "pwrite64")
CALL = re.compile(r"^(\d+ +)?(\w+)\((.*)")
PLACE = re.compile(r'(?:AT_FDCWD<[^>]*>, )?"([^"]*)"')
WORKERS = 2


def strace(trace, *more):
    return ["strace", "-f", "-y", "-o", str(trace), *more]


def injecting(trace, fault):
    """Stops at the calls in question only, which is faster, but with strace 6.1 sends no signal."""
    faster = [] if "signal" in fault else ["--seccomp-bpf"]
    return strace(trace, *faster, "-e", f"trace={fault.split(':')[0]}", "-e", f"inject={fault}")


def calls_of(bench, writing):
    """Which calls, counted by their names, concern our folder, what is printed or what is drawn: not the loader's."""
    folder = bench.set(writing)
    trace = folder.with_suffix(".trace")
    wanted = ",".join(CHANGING + READING)
    insist(run(bench.binary, bench.stage.words(writing), folder, before=strace(trace, "-e", f"trace={wanted}")),
           f"strace {writing.title}")
    counted, found = {}, []
    for line in trace.read_text(errors="replace").splitlines():
        call = CALL.match(line)
        if not call or call[2] not in CHANGING + READING:
            continue
        counted[call[2]] = counted.get(call[2], 0) + 1
        if is_ours(call[2], call[3], str(folder)):
            found.append((call[2], counted[call[2]]))
    return found


def is_ours(call, arguments, folder):
    if call in ("mkdir", "rename", "unlink"):
        return True
    if call == "getrandom":
        return "GRND_NONBLOCK" not in arguments  # the other kind is the C library's
    if call == "write" and re.match(r"[12]<", arguments):
        return True
    place = PLACE.match(arguments)
    if place:  # the loader's places begin with a slash
        return not place[1].startswith("/") or place[1].startswith(folder)
    return folder in arguments.split(">")[0]


def faults(writing, found, every):
    """Each fault as strace is told of it. Of the writes of pages, which are most of the calls, only every so many."""
    for call, number in found:
        if call == "pwrite64" and number % every:
            continue
        if call in CHANGING:
            yield f"{call}:signal=KILL:when={number}"
            yield f"{call}:error=EIO:when={number}"
        elif call == "getrandom":  # the C library draws now and then for names of its own, so numbers do not hold
            yield f"{call}:error=EIO:when=1+"
        elif writing.command in ("reading", "new"):  # the others read in the same way
            yield f"{call}:error=EIO:when={number}"
        if call in GROWING:
            yield f"{call}:error=ENOSPC:when={number}+"


def sweep(bench, every):
    """Returns how many faults there were."""

    def one(task):
        writing, fault = task
        folder = bench.set(writing)
        trace = folder.with_suffix(".trace")
        done = bench.run(writing, folder, before=injecting(trace, fault))
        text = trace.read_text(errors="replace")
        happened = "(INJECTED)" in text or "killed by SIGKILL" in text
        bench.summary.check(happened, f"{writing.title}, {fault}: it did not happen")
        if "KILL" in fault:
            bench.summary.check(done.returncode in KILLED, f"{writing.title}, {fault}: exit {done.returncode}")
        # What cannot be read is damaged, says the database engine; what cannot be looked for is not there.
        statuses = (IO_FAILED,) if fault.split(":")[0] in CHANGING else (65, 66, IO_FAILED)
        bench.look(writing, folder, done, fault, statuses=statuses, mute=fault.startswith("write:error=ENOSPC"))
        trace.unlink()

    tasks = []
    for writing in bench.writings:
        found = calls_of(bench, writing)
        mine = [(writing, fault) for fault in faults(writing, found, every)]
        bench.summary.check(len(mine) > 10, f"{writing.title}: only {len(mine)} calls can fail")
        tasks += mine
    with ThreadPoolExecutor(WORKERS) as pool:
        list(pool.map(one, tasks))
    return len(tasks)
