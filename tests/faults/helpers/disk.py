"""What a power cut can leave of a recording.

The model: what was synced is kept. Each write after the last sync of its file is kept, lost, or torn into sectors of
512 bytes of which some are kept. A file may have grown by a write that is otherwise lost; there it then holds zeros
or anything at all. The names in a folder change in order, so that some first part of the changes after the folder's
last sync is kept. A disk that says that it has synced and has not is outside of this model.
"""
import os

SECTOR = 512
NAMES = ("create", "unlink", "rename", "mkdir")


def as_recorded(_events, _at):
    return True


def without_any(_events, _at):
    """As if nothing was ever synced (synchronous=OFF)."""
    return False


def without_last(events, at):
    """As if the folder was not synced after the journal's end (synchronous=FULL where EXTRA is due)."""
    folder = events[at].target
    named = [event for event in events[:at] if event.kind in NAMES and event.target == folder]
    return not (named and named[-1].kind == "unlink" and named[-1].name.endswith("-journal"))


class Whole:
    """Keeps all that was written: what is there where no power is cut."""

    def names(self, changes):
        return changes

    def write(self, content, event):
        put(content, event.offset, event.data)

    def truncate(self, content, size):
        resize(content, size)


class Nothing(Whole):
    """Loses all that was not synced."""

    def names(self, changes):
        return 0

    def write(self, content, event):
        pass

    def truncate(self, content, size):
        pass


class Chance(Whole):
    """Keeps, loses and tears by lot."""

    def __init__(self, random):
        self.random = random
        self.keeps = random.choice((0.1, 0.5, 0.9))
        self.tears = random.choice((0.0, 0.3, 0.8))

    def names(self, changes):
        # A journal whose name is lost makes one state of many, so the names are kept more often than not.
        return changes if self.random.random() < 0.6 else self.random.randint(0, changes)

    def write(self, content, event):
        before = len(content)
        end = event.offset + len(event.data)
        whole = False
        if self.random.random() < self.tears:
            at = event.offset
            while at < end:
                stop = min(end, (at // SECTOR + 1) * SECTOR)
                if self.random.random() < 0.5:
                    put(content, at, event.data[at - event.offset:stop - event.offset])
                at = stop
        elif self.random.random() < self.keeps:
            put(content, event.offset, event.data)
            whole = True
        if not whole and end > len(content):
            grown = self.random.choice(("not", "zeros", "anything"))
            if grown == "zeros":
                resize(content, end)
            elif grown == "anything":
                at = max(before, len(content))
                put(content, at, self.random.randbytes(end - at))

    def truncate(self, content, size):
        if self.random.random() < self.keeps:
            resize(content, size)


def put(content, offset, data):
    if offset > len(content):
        content.extend(bytes(offset - len(content)))
    content[offset:offset + len(data)] = data


def resize(content, size):
    if size < len(content):
        del content[size:]
    else:
        content.extend(bytes(size - len(content)))


def last_syncs(events, cut, counts):
    """For each file and folder, where its last sync before the cut stands."""
    return {event.target: at for at, event in enumerate(events[:cut]) if event.kind == "sync" and counts(events, at)}


def is_settled(recording, cut, counts=as_recorded):
    """Whether all before the cut is synced, so that a cut there can leave one state only."""
    synced = last_syncs(recording.events, cut, counts)
    return all(at < synced.get(event.target, -1) for at, event in enumerate(recording.events[:cut])
               if event.kind in NAMES + ("write", "truncate"))


def state(recording, cut, fate=Whole(), counts=as_recorded):
    """The files and folders after a power cut before event number `cut`."""
    events = recording.events[:cut]
    synced = last_syncs(events, cut, counts)
    whole = Whole()
    contents = {number: bytearray(data) for number, data in enumerate(recording.files.values())}
    pending = {}
    for at, event in enumerate(events):
        if event.kind in NAMES and at > synced.get(event.target, -1):
            pending[event.target] = pending.get(event.target, 0) + 1
    kept = {folder: fate.names(changes) for folder, changes in sorted(pending.items())}

    names = {name: number for number, name in enumerate(recording.files)}
    folders = set(recording.folders)
    for at, event in enumerate(events):
        is_synced = at < synced.get(event.target, -1)
        if event.kind == "write":
            (whole if is_synced else fate).write(contents.setdefault(event.target, bytearray()), event)
        elif event.kind == "truncate":
            (whole if is_synced else fate).truncate(contents.setdefault(event.target, bytearray()), event.offset)
        elif event.kind in NAMES:
            if not is_synced:
                kept[event.target] -= 1
                if kept[event.target] < 0:
                    continue
            rename(names, folders, event)

    def is_there(folder):  # a folder that lost its own name takes with it what is in it
        return folder in folders and (not folder or is_there(os.path.dirname(folder)))

    there = {folder for folder in folders if is_there(folder)}
    files = {name: bytes(contents.get(number, b"")) for name, number in names.items()
             if os.path.dirname(name) in there}
    return files, there


def rename(names, folders, event):
    name = os.path.join(event.target, event.name)
    if event.kind == "create":
        names[name] = event.other
    elif event.kind == "unlink":
        names.pop(name)
    elif event.kind == "rename":
        names[os.path.join(event.target, event.other)] = names.pop(name)
    else:
        folders.add(name)


def lay_out(files, folders, top):
    """Writes a state to a folder."""
    for folder in sorted(folders):
        os.makedirs(os.path.join(top, folder), exist_ok=True)
    for name, data in files.items():
        with open(os.path.join(top, name), "wb") as file:
            file.write(data)
