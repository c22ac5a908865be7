"""What one run of a command did to a folder, call by call, as strace saw it.

Whatever would change the folder in a way that is not modelled here stops the test, so that a program which comes to
write in another way is not passed over. And whoever replays the whole recording gets the folder that the run left:
`record` makes sure of it.
"""
import os
import re
import sys
from typing import NamedTuple, Union

from disk import state
from support import run, tree_of

# Reading is not asked for. All that could change a file is, also what is not modelled.
CALLS = ("open,openat,openat2,creat,close,write,pwrite64,writev,pwritev,pwritev2,ftruncate,truncate,fallocate,unlink,"
         "unlinkat,rename,renameat,renameat2,mkdir,mkdirat,rmdir,link,linkat,symlink,symlinkat,fsync,fdatasync,sync,"
         "syncfs,sync_file_range,msync,mmap,dup,dup2,dup3,copy_file_range,sendfile,splice,lseek,chdir,fchdir,"
         "io_uring_setup,clone,clone3,fork,vfork")
LINE = re.compile(r"^(\d+) +(\w+)\((.*)\) += (-?\d+|0x[0-9a-f]+|\?)")
STRING = re.compile(r'^"((?:\\x[0-9a-f]{2})*)"$')


class Event(NamedTuple):
    kind: str  # write, truncate, sync; create, unlink, rename, mkdir (in a folder); said
    target: Union[int, str] = ""  # a file's number, or a folder's name
    name: str = ""
    other: Union[int, str] = ""  # the file's number that a name gets; the new name
    offset: int = 0
    data: bytes = b""


class Recording(NamedTuple):
    files: dict  # the folder before: name -> bytes; a file's number is its place in this dict, or comes later
    folders: set
    events: list
    status: int
    told: bytes
    complained: bytes


class Open:
    """An open file or folder of ours."""

    def __init__(self, number, folder):
        self.number = number  # of a file
        self.folder = folder  # its name, where it is a folder
        self.position = 0
        self.appends = False


class Reader:
    def __init__(self, top, files, folders):
        self.top = os.path.realpath(top)
        self.numbers = {name: number for number, name in enumerate(files)}
        self.next_number = len(files)
        self.folders = set(folders)
        self.events = []
        self.open = {}
        self.process = None

    def name(self, text):
        """The name within our folder, or None for what lies elsewhere."""
        path = os.path.normpath(os.path.join(self.top, text))
        if path == self.top:
            return ""
        return path[len(self.top) + 1:] if path.startswith(self.top + "/") else None

    def at(self, folder, path, what):
        text = bytes.fromhex(STRING.match(path)[1].replace("\\x", "")).decode()
        if folder != "AT_FDCWD" and not text.startswith("/"):
            sys.exit(f"not modelled: {what} in an open folder")
        return self.name(text)

    def read(self, line):
        if " --- " in line or " +++ " in line:
            return
        parsed = LINE.match(line)
        if not parsed or "unfinished" in line or '"...' in line:
            sys.exit(f"not modelled: {line[:200]}")
        process, call, arguments, result = parsed.groups()
        self.process = self.process or process
        if process != self.process:
            sys.exit("not modelled: a second process or thread")
        if result.startswith("-"):
            return  # it failed, so it changed nothing
        handler = getattr(self, "on_" + call, None)
        arguments = arguments.split(", ")  # strings are written in hexadecimal, so no comma is inside of one
        if handler:
            handler(arguments, result)
        elif call != "mmap" or ("MAP_SHARED" in arguments[3] and "PROT_WRITE" in arguments[2]):
            if self.concerns(arguments):
                sys.exit(f"not modelled: {call}")

    def concerns(self, arguments):
        for argument in arguments:
            if argument.isdigit() and int(argument) in self.open:
                return True
            if STRING.match(argument) and self.at("AT_FDCWD", argument, "") is not None:
                return True
        return not any(STRING.match(argument) for argument in arguments)

    def add(self, *event, **more):
        self.events.append(Event(*event, **more))

    def parent(self, name):
        return os.path.split(name)

    def on_openat(self, arguments, result):
        name = self.at(arguments[0], arguments[1], "openat")
        if name is None:
            return
        flags = arguments[2].split("|")
        if name in self.folders:
            self.open[int(result)] = Open(None, name)
            return
        if name not in self.numbers:
            self.numbers[name] = self.next_number
            self.next_number += 1
            folder, base = self.parent(name)
            self.add("create", folder, base, self.numbers[name])
        elif "O_TRUNC" in flags:
            self.add("truncate", self.numbers[name], offset=0)
        opened = self.open[int(result)] = Open(self.numbers[name], None)
        opened.appends = "O_APPEND" in flags

    def on_close(self, arguments, _):
        self.open.pop(int(arguments[0]), None)

    def written(self, arguments, result, offset):
        opened = self.open.get(int(arguments[0]))
        if opened is None:
            if arguments[0] == "1":
                self.add("said")
            return
        if opened.appends:
            sys.exit("not modelled: a file open for appending")
        data = bytes.fromhex(STRING.match(arguments[1])[1].replace("\\x", ""))[:int(result)]
        if offset is None:
            offset = opened.position
            opened.position += len(data)
        self.add("write", opened.number, offset=offset, data=data)

    def on_write(self, arguments, result):
        self.written(arguments, result, None)

    def on_pwrite64(self, arguments, result):
        self.written(arguments, result, int(arguments[3]))

    def on_lseek(self, arguments, result):
        if int(arguments[0]) in self.open:
            self.open[int(arguments[0])].position = int(result)

    def on_ftruncate(self, arguments, _):
        opened = self.open.get(int(arguments[0]))
        if opened:
            self.add("truncate", opened.number, offset=int(arguments[1]))

    def on_fsync(self, arguments, _):
        opened = self.open.get(int(arguments[0]))
        if opened:
            self.add("sync", opened.number if opened.folder is None else opened.folder)

    on_fdatasync = on_fsync  # a file's length and a folder's names are kept by either

    def on_unlink(self, arguments, _):
        name = self.at("AT_FDCWD", arguments[0], "unlink")
        if name is not None:
            folder, base = self.parent(name)
            del self.numbers[name]
            self.add("unlink", folder, base)

    def on_rename(self, arguments, _):
        old, new = (self.at("AT_FDCWD", path, "rename") for path in arguments)
        if old is None and new is None:
            return
        if old not in self.numbers or new is None or self.parent(old)[0] != self.parent(new)[0]:
            sys.exit("not modelled: a rename of a folder, or from one folder into another")
        self.numbers[new] = self.numbers.pop(old)
        self.add("rename", self.parent(old)[0], self.parent(old)[1], self.parent(new)[1])

    def on_renameat2(self, arguments, result):
        if arguments[0] != "AT_FDCWD" or arguments[2] != "AT_FDCWD" or arguments[4] not in ("0", "RENAME_NOREPLACE"):
            sys.exit(f"not modelled: renameat2 with {arguments}")
        self.on_rename([arguments[1], arguments[3]], result)

    def on_link(self, arguments, _):
        """One more name for a file."""
        old, new = (self.at("AT_FDCWD", path, "link") for path in arguments)
        if new is None:
            return
        if old not in self.numbers:
            sys.exit("not modelled: a link to what lies elsewhere")
        self.numbers[new] = self.numbers[old]
        self.add("create", *self.parent(new), self.numbers[new])

    def on_mkdir(self, arguments, _):
        name = self.at("AT_FDCWD", arguments[0], "mkdir")
        if name is not None:
            self.folders.add(name)
            self.add("mkdir", *self.parent(name))


def record(binary, arguments, top, **more):
    """Runs the command in `top` and returns what it did there."""
    trace = top.parent / f"{top.name}.strace"
    files, folders = tree_of(top)
    strace = ["strace", "-f", "-xx", "-s", str(64 << 20), "-e", f"trace={CALLS}", "-o", str(trace)]
    done = run(binary, arguments, top, before=strace, **more)
    reader = Reader(top, files, folders)
    for line in trace.read_text().splitlines():
        reader.read(line)
    trace.unlink()
    if reader.process is None:
        sys.exit(f"strace does not work here: {done.stderr.decode(errors='replace')}")
    recording = Recording(files, folders, reader.events, done.returncode, done.stdout, done.stderr)
    if state(recording, len(recording.events)) != tree_of(top):
        sys.exit(f"the recording of {arguments[0]} does not give the folder that the run left")
    return recording
