#!/usr/bin/env python3
"""The completions in the shells themselves, and the manual page through its formatter.

usage: run.py COMMAND      Needs bash; zsh, fish and groff are tried where they are installed, and it says so.
"""
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

command = pathlib.Path(sys.argv[1]).resolve()
root = pathlib.Path(__file__).resolve().parent.parent.parent
top = pathlib.Path(tempfile.mkdtemp(prefix="shells-"))
(top / "bin").mkdir()
(top / "bin" / "whichever").symlink_to(command)
environment = {"PATH": f"{top / 'bin'}:/usr/bin:/bin", "HOME": str(top), "WHICHEVER_FLEET": str(root / "sample-fleet"),
               "LC_ALL": "C.UTF-8"}
failures = 0
tried = 0


def shell(*argv, text=None):
    done = subprocess.run(argv, input=text, capture_output=True, env=environment, timeout=60, text=True)
    if done.returncode != 0 or done.stderr:
        return f"{done.returncode}: {done.stderr}"
    return done.stdout


def check(what, got, expected):
    global failures, tried
    tried += 1
    if got.split() != expected:
        failures += 1
        print(f"FAILED: {what}: {got!r}, expected {expected}")


# What is typed, as the shell hands it on, and what must be offered.
CASES = [
    (["due", "--mach"], ["--machine"]),
    (["due", "--machine", "pump-n"], ["pump-north"]),
    (["done", "telehandler-yard", "fork@"], ["fork@left", "fork@right"]),
    (["due", "--format", ""], ["text", "json", "csv", "md", "ics"]),
    (["compl"], ["completion"]),
    (["season", "har"], ["harvest"]),
    (["parts", "--before", "pu"], ["pumping"]),
    (["why", "combine", "engine-o"], ["engine-oil", "engine-oil/check-leaks"]),
]

# bash, without a terminal: the function is called as the shell would call it.
for words, expected in CASES:
    quoted = " ".join(f"'{word}'" for word in ["whichever", *words])
    script = f"""source <(whichever completion bash)
compopt() {{ :; }}
COMP_WORDS=({quoted}); COMP_CWORD={len(words)}
_whichever
printf '%s\\n' "${{COMPREPLY[@]}}"
"""
    check(f"bash {words}", shell("bash", "--norc", "-c", script), expected)


def typed(line):
    """What an interactive bash makes of a line and two tabs: the shell itself takes the words apart."""
    import pty
    import select
    import time
    rc = top / "rc"
    rc.write_text("source <(whichever completion bash)\nPS1='> '\nbind 'set bell-style none'\n"
                  "bind 'set enable-bracketed-paste off'\n")
    pid, terminal = pty.fork()
    if pid == 0:
        os.execve("/bin/bash", ["bash", "--noprofile", "--rcfile", str(rc), "-i"], {**environment, "TERM": "dumb"})
    seen = b""

    def read(seconds):
        nonlocal seen
        end = time.time() + seconds
        while time.time() < end:
            if select.select([terminal], [], [], 0.1)[0]:
                try:
                    seen += os.read(terminal, 65536)
                except OSError:
                    return
    read(2)
    seen = b""
    os.write(terminal, line.encode() + b"\t\t")
    read(3)
    os.write(terminal, b"\x15exit\n")
    read(1)
    os.close(terminal)
    os.waitpid(pid, 0)
    return seen.decode(errors="replace")


def has_terminal():
    import pty
    try:
        for end in pty.openpty():
            os.close(end)
        return True
    except OSError:
        return False


at_terminal = [("whichever done telehandler-yard fork@", ["left", "right"]),
               ("whichever due --format=", ["csv", "json", "md", "text"]),
               ("whichever reading pump-n", ["pump-north "])]
if not has_terminal():
    print("this machine has no pseudo-terminals; bash was asked without one only")
    at_terminal = []
for line, expected in at_terminal:
    tried += 1
    for _ in range(3):  # a busy machine may answer after we looked
        got = typed(line)
        if all(word in got for word in expected):
            break
    else:
        failures += 1
        print(f"FAILED: bash at a terminal, {line!r}: {got!r}, expected {expected}")

script = """source <(whichever completion bash)
COMP_WORDS=(whichever due --format = j); COMP_CWORD=4
_whichever
printf '%s\\n' "${COMPREPLY[@]}"
"""
check("bash, a value behind a sign", shell("bash", "--norc", "-c", script), ["json"])

if shutil.which("zsh"):
    for words, expected in CASES:
        quoted = " ".join(f"'{word}'" for word in ["whichever", *words])
        script = f"""compdef() {{ :; }}
compadd() {{ print -l -- "${{found[@]}}"; }}
_files() {{ :; }}
source <(whichever completion zsh)
words=({quoted}); CURRENT={len(words) + 1}
_whichever
"""
        check(f"zsh {words}", shell("zsh", "-f", "-c", script), expected)
else:
    print("zsh is not installed; its completion was not tried")

if shutil.which("fish"):
    for words, expected in CASES:
        line = " ".join(["whichever", *words])
        script = f"whichever completion fish | source; complete -C '{line}' | string match -rv '^-h|^$'"
        check(f"fish {words}", shell("fish", "--no-config", "-c", script), expected)
else:
    print("fish is not installed; its completion was not tried")

manual = shell("whichever", "help", "--format", "man")
if shutil.which("groff"):
    tried += 1
    done = subprocess.run(["groff", "-man", "-Tutf8", "-ww", "-k"], input=manual, capture_output=True, env=environment,
                          text=True)
    if done.stderr or done.returncode != 0 or "WHICHEVER_FLEET" not in done.stdout:
        failures += 1
        print(f"FAILED: the manual page: {done.stderr}")
else:
    print("groff is not installed; the manual page was not formatted")

shutil.rmtree(top)
print(f"shells: {tried} tried, {failures} failed")
sys.exit(1 if failures else 0)
