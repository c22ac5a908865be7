#!/usr/bin/env python3
"""Mail as its readers get it: through a mailer and a real mail server, read back by two other programs.

usage: run.py COMMAND SOURCE-DIR

A mail server on loopback puts what it is sent into a Maildir; the mailer is msmtp. Each message is read with Python's
email package under its strict policy and with Perl's Email::MIME: no defects, the same texts, and those are what the
command says of the list by itself.
"""
import datetime
import email
import email.policy
import json
import mailbox
import os
import pathlib
import re
import shlex
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile

from aiosmtpd.controller import Controller
from aiosmtpd.handlers import Mailbox

command = str(pathlib.Path(sys.argv[1]).resolve())
source = pathlib.Path(sys.argv[2]).resolve()
top = pathlib.Path(tempfile.mkdtemp(prefix="mail-"))
top.chmod(0o755)
failures = []
checks = 0

FLEET = """fleet: FLEET-NAME
mail: {to: [office@skarvey.example, workshop@skarvey.example], from: whichever@skarvey.example}
machines:
  loader: {name: "x\\r\\nBcc: a@b", schedule: tractor, in-service: {on: 2026-06-01, at: 0}}
  pump: {schedule: tractor, in-service: {on: 2026-06-01, at: 0}}
"""
SCHEDULE = """schedule: tractor
meters: {engine: {unit: h}}
tasks:
  oil: {do: Change the oil, every: {hours: 500, months: 60}, cautions: [hot-fluid]}
  daily: {do: Look round, every: {days: 9}, grace: {days: 100}}
  leaks: {do: Look for leaks, every: {years: 20, signs: [leak]}, safety: true}
"""
PERL = r"""
use strict; use warnings; use Email::MIME; use JSON::PP;
local $/; my $mail = Email::MIME->new(<STDIN>);
my @headers = $mail->header_obj->header_names;
my %texts = map { (split /;/, $_->content_type)[0] => $_->body_str } $mail->subparts;
binmode STDOUT, ':raw';
print JSON::PP->new->utf8->canonical->encode({
  subject => $mail->header_str('Subject'), from => $mail->header_str('From'), to => $mail->header_str('To'),
  date => $mail->header_str('Date'), headers => \@headers, parts => scalar($mail->subparts), texts => \%texts});
"""


def check(good, what):
    global checks
    checks += 1
    if not good:
        failures.append(what)
        print(f"FAILED: {what}")


def run(folder, *arguments, environment=None, before=(), **more):
    return subprocess.run([*before, command, "--fleet", str(folder), *arguments], capture_output=True, timeout=120,
                          env={"PATH": "/usr/bin:/bin"} if environment is None else environment, **more)


def must(folder, *arguments):
    done = run(folder, *arguments)
    if done.returncode != 0:
        sys.exit(f"could not prepare: {arguments}\n{done.stderr.decode()}")


def fleet_called(name, fleet="Skarvey estate"):
    folder = top / name
    (folder / "schedules").mkdir(parents=True)
    (folder / "fleet.yaml").write_text(FLEET.replace("FLEET-NAME", fleet))
    (folder / "schedules" / "tractor.yaml").write_text(SCHEDULE)
    must(folder, "new", str(folder))
    for machine in ("loader", "pump"):
        must(folder, "reading", machine, "20", "--on", "2026-06-05", "--as-of", "2026-06-15")
    return folder


class Server:
    """A mail server on loopback, and msmtp told how to reach it."""

    def __enter__(self):
        self.box = top / "maildir"
        self.server = Controller(Mailbox(str(self.box)), hostname="127.0.0.1", port=0)
        self.server.port = free_port()
        self.server.start()
        self.config = top / "msmtprc"
        self.config.write_text(f"defaults\nauth off\ntls off\naccount default\nhost 127.0.0.1\n"
                               f"port {self.server.port}\nfrom whichever@skarvey.example\n")
        self.config.chmod(0o600)
        self.mailer = f"msmtp -C {self.config} -t -i"
        return self

    def __exit__(self, *_):
        self.server.stop()

    def take(self):
        """What came since the last look, as bytes."""
        box = mailbox.Maildir(self.box)
        messages = {key: box.get_bytes(key) for key in box.keys()}
        for key in messages:
            box.remove(key)
        return list(messages.values())


def free_port():
    import socket
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return one.getsockname()[1]


def as_python_reads(raw):
    message = email.message_from_bytes(raw, policy=email.policy.strict)
    every = [message, *message.walk()]
    check(not any(part.defects for part in every), f"defects: {[part.defects for part in every]}")
    check(message.get_content_type() == "multipart/alternative", "it is no multipart/alternative")
    parts = list(message.iter_parts())
    check([part.get_content_type() for part in parts] == ["text/plain", "text/html"], "it has other parts")
    return message, {part.get_content_type(): part.get_content() for part in parts}


def as_perl_reads(raw):
    done = subprocess.run(["perl", "-e", PERL], input=raw, capture_output=True, timeout=60)
    check(done.returncode == 0 and not done.stderr, f"Email::MIME: {done.stderr.decode()}")
    return json.loads(done.stdout)


def plain(text):
    return text.replace("\r\n", "\n")


def read_by_both(raw, what):
    """The text of a message; both readers agree about all of it."""
    message, texts = as_python_reads(raw)
    other = as_perl_reads(raw)
    check(other["subject"] == str(message["Subject"]), f"{what}: subjects differ: {other['subject']}")
    check({kind: plain(text) for kind, text in texts.items()}
          == {kind: plain(text) for kind, text in other["texts"].items()}, f"{what}: texts differ")
    check(other["parts"] == 2, f"{what}: {other['parts']} parts")
    check(message["Auto-Submitted"] == "auto-generated", f"{what}: not said to be made by a program")
    ours = ["Date", "From", "To", "Subject", "Message-ID", "Auto-Submitted", "MIME-Version", "Content-Type"]
    added = {"X-Peer", "X-MailFrom", "X-RcptTo", "Received", "Return-Path"}  # by the server
    check([name for name in message.keys() if name not in added] == ours, f"{what}: headers {message.keys()}")
    check(message["Date"].datetime.date().isoformat() in str(message["Date"].datetime), what)
    for line in plain(texts["text/plain"]).split("\n"):
        check(len(line) <= 78, f"{what}: a line of {len(line)} columns: {line}")
    return message, plain(texts["text/plain"])


def same_list(server):
    """The sample's list through the server: what stands in the mail is what `due --overdue` says."""
    folder = top / "sample"
    shutil.copytree(source / "sample-fleet", folder, ignore=shutil.ignore_patterns("record.db*", ".*", "try"))
    must(folder, "new", str(folder))
    must(folder, "import", str(folder / "facts.csv"), "--as-of", "2026-06-15")
    list_ = json.loads(run(folder, "due", "--overdue", "--format", "json", "--as-of", "2026-06-16").stdout)
    done = run(folder, "mail", "--as-of", "2026-06-16", "--mailer", server.mailer)
    check(done.returncode == 0 and not done.stdout and not done.stderr, f"the sample: {done}")
    came = server.take()
    check(len(came) == 1, f"the sample: {len(came)} messages")
    message, text = read_by_both(came[0], "the sample")
    shown = run(folder, "mail", "--as-of", "2026-06-16").stdout
    own, own_text = read_by_both(shown, "the sample, printed")
    check(own_text.rstrip("\n") == text.rstrip("\n"), "the text that came is not the one that was printed")
    # msmtp hands on the headers as they are, but for how it writes addresses.
    for name in ("Date", "Subject", "Message-ID"):
        check(str(own[name]) == str(message[name]), f"the sample: {name} differs")
    check(sorted(address.addr_spec for address in message["To"].addresses)
          == ["office@thrennay.example", "workshop@thrennay.example"], "the sample: other people")
    for point in list_["points"]:
        if point["standing"] == "no-record":
            check(point["machine"] in text, f"{point['machine']} is not in the mail")
            continue
        label = point["task"] + (f"@{point['position']}" if point["position"] else "")
        check(f"{point['machine']}: {label}" in text, f"{point['machine']} {label} is not in the mail")
        for caution in point["cautions"]:
            check(re.search(rf"\b{re.escape(caution)}\b", text), f"the caution {caution} is not in the mail")
    for machine in list_["not_in_use"]:
        check(machine["machine"] in text, f"{machine['machine']} is not in the mail")
    flat = " ".join(text.split())
    for gap in list_["gaps"]:
        if gap["kind"] != "nothing-recorded":
            check(" ".join(gap["say"].split()) in flat, f"a gap is not in the mail: {gap['say']}")
    for step in list_["cautions"]:
        check(step.removeprefix("afterwards: ") in flat, f"a step is not in the mail: {step}")
    # On a telephone's first screen: twelve lines of some forty characters, and all that must not wait in them.
    head = text[:text.index("\n\n")].split("\n")
    check(head[0] == "Must not wait:" and head[-1].startswith("Before you touch"), f"another head: {head}")
    check(len(head) <= 12, f"more than a telephone's first screen: {head}")
    check(all(len(line) <= 44 for line in head), f"too wide for a telephone: {head}")
    check(any("do not run: telehandler-yard: out of use" in line for line in head), "what nobody may run is not seen at once")
    check(any("tractor-loader: brakes" in line for line in head), "what never waits is not seen at once")
    check("text/html" in {part.get_content_type() for part in message.walk()}, "no HTML")


def surroundings(server):
    """The same bytes wherever it runs, and cron's own line does what it says."""
    folder = fleet_called("surroundings", "Østmarka gård")
    must(folder, "saw", "loader", "leak", "--on", "2026-06-12", "--as-of", "2026-06-15")
    usual = run(folder, "mail", "--as-of", "2026-06-16")
    check(usual.returncode == 0 and usual.stdout and not usual.stderr, f"surroundings: {usual}")
    message, text = read_by_both(usual.stdout, "a name beyond ASCII")
    check(str(message["Subject"]) == "1 not to be run, 1 overdue: Østmarka gård", f"the subject is {message['Subject']}")
    check(b"Subject: =?UTF-8?B?" in usual.stdout, "the subject is not encoded")
    for environment in ({}, {"LC_ALL": "C"}, {"LC_ALL": "C.UTF-8"}, {"LC_ALL": "de_DE.UTF-8", "LANG": "tr_TR"},
                        {"TZ": "Pacific/Auckland"}, {"TERM": "xterm-256color", "COLUMNS": "200", "COLORTERM": "24bit"}):
        done = run(folder, "mail", "--as-of", "2026-06-16", environment=environment)
        check(done.stdout == usual.stdout and not done.stderr, f"other bytes under {environment}")
    empty = subprocess.run(["env", "-i", command, "--fleet", str(folder), "mail", "--as-of", "2026-06-16"],
                           capture_output=True)
    check(empty.stdout == usual.stdout, "other bytes under env -i")
    # As in the file for cron, with our paths: by /bin/sh, which is given HOME, LOGNAME, SHELL and a short PATH.
    line = [one for one in (source / "cli" / "timers" / "whichever.cron").read_text().splitlines()
            if one.startswith("0 6")]
    check(len(line) == 1, "the file for cron has not one line")
    job = line[0].split(None, 5)[5]
    check("%" not in job, "cron takes a % for a line end")
    job = job.replace("/usr/local/bin/whichever", shlex.quote(command)).replace("/usr/sbin/sendmail -t -i", server.mailer)
    home = top / "home"
    home.mkdir()
    (home / "fleet").symlink_to(folder)
    cron = {"HOME": str(home), "LOGNAME": "nobody", "SHELL": "/bin/sh", "PATH": "/usr/bin:/bin"}
    done = subprocess.run(["/bin/sh", "-c", job + " --as-of 2026-06-16"], env=cron, capture_output=True, cwd=home)
    check(done.returncode == 0 and not done.stdout and not done.stderr, f"cron's line: {done}")
    came = server.take()
    check(len(came) == 1, f"cron's line: {len(came)} messages")
    if came:
        check("leaks" in read_by_both(came[0], "cron's line")[1], "cron's line: the leak is not in it")


def fortnight(server):
    """Fourteen mornings on which all is well: the weekly word on exactly two, and else nothing at all."""
    folder = fleet_called("fortnight")
    words = []
    for day in range(14):
        on = datetime.date(2026, 6, 8) + datetime.timedelta(days=day)
        done = run(folder, "mail", "--as-of", str(on), "--mailer", server.mailer)
        check(done.returncode == 0 and not done.stdout and not done.stderr, f"{on}: {done}")
        words += [(on, raw) for raw in server.take()]
    check([on.isoformat() for on, _ in words] == ["2026-06-08", "2026-06-15"], f"words on {[str(on) for on, _ in words]}")
    for on, raw in words:
        message, text = read_by_both(raw, f"the word of {on}")
        # On the second the daily round is due, within its grace.
        said = "All is well, 2 machines" if on.day == 8 else "Nothing overdue, 2 due"
        check(str(message["Subject"]) == f"{said}: Skarvey estate", f"{message['Subject']}")
        check(("pump: daily" in text and "park level" in text) == (on.day == 15), text)
        # Next is what is not due yet.
        after = "daily" if on.day == 8 else "oil"
        check("Newest reading: 2026-06-05" in text and f"Next due: loader, {after}" in text, text)
    (folder / "fleet.yaml").write_text((folder / "fleet.yaml").read_text().replace(
        "from: whichever@skarvey.example}", "from: whichever@skarvey.example, weekly-word: off}"))
    for day in range(14):
        on = datetime.date(2026, 6, 8) + datetime.timedelta(days=day)
        done = run(folder, "mail", "--as-of", str(on), "--mailer", server.mailer)
        check(done.returncode == 0 and not done.stdout and not done.stderr and not server.take(), f"off, {on}: {done}")
    # Of the computer or the mailer that has a bad Monday the word comes on Tuesday.
    for bad in ("asleep", "failing"):
        folder = fleet_called(f"monday-{bad}")
        words = []
        for day in range(14):
            on = datetime.date(2026, 6, 9) + datetime.timedelta(days=day)
            monday = on.weekday() == 0
            if monday and bad == "asleep":
                continue
            mailer = "false" if monday else server.mailer
            done = run(folder, "mail", "--changed", "--as-of", str(on), "--mailer", mailer)
            check(done.returncode == (74 if monday else 0), f"{bad}, {on}: {done}")
            words += [on.isoformat()] * len(server.take())
        check(words == ["2026-06-16"], f"{bad} on Mondays: words on {words}")


def failing_mailer(server):
    """A mailer that fails on the second day: the third day's mail still has the second day's news."""
    folder = fleet_called("failing")

    def morning(day, mailer=None):
        return run(folder, "mail", "--changed", "--as-of", day, "--mailer", mailer or server.mailer)

    must(folder, "saw", "loader", "leak", "--on", "2026-06-16", "--as-of", "2026-06-17")
    done = morning("2026-06-17")
    check(done.returncode == 0 and len(server.take()) == 1, f"the first day: {done}")
    must(folder, "saw", "pump", "leak", "--on", "2026-06-17", "--as-of", "2026-06-18")
    before = (folder / ".mailed").read_bytes()
    check(run(folder, "mail", "--changed", "--as-of", "2026-06-18", "--mailer", "true").returncode == 74,
          "a mailer that reads nothing is believed")
    dead = top / "deadrc"
    dead.write_text(server.config.read_text().replace(f"port {server.server.port}", f"port {free_port()}"))
    dead.chmod(0o600)
    done = morning("2026-06-18", f"msmtp -C {dead} -t -i")
    check(done.returncode == 74, f"the second day: {done}")
    check(re.search(rb"the mailer `msmtp` failed with [1-9][0-9]*", done.stderr), f"no number: {done.stderr}")
    check((folder / ".mailed").read_bytes() == before, "what failed is remembered as handed over")
    done = morning("2026-06-19")
    came = server.take()
    check(done.returncode == 0 and len(came) == 1, f"the third day: {done}")
    text = read_by_both(came[0], "the third day")[1]
    check("pump: leaks" in text, "the second day's news is lost")
    check(text.rstrip().endswith("still overdue"), f"it does not end with what is still overdue: {text[-80:]}")
    done = morning("2026-06-20")
    check(done.returncode == 0 and (folder / ".mailed").exists(), f"the fourth day: {done}")


def killed(server):
    """Killed after the mailer took it and before that is remembered: the next message repeats, nothing is lost."""
    folder = fleet_called("killed")
    must(folder, "saw", "loader", "leak", "--on", "2026-06-16", "--as-of", "2026-06-17")
    mailer = top / "killing-mailer"
    mailer.write_text(f"#!/bin/sh\n{server.mailer} && kill -9 $PPID\n")
    mailer.chmod(0o755)
    done = run(folder, "mail", "--changed", "--as-of", "2026-06-17", "--mailer", str(mailer))
    check(done.returncode == -signal.SIGKILL, f"it was not killed: {done}")
    for _ in range(100):
        first = server.take()
        if first:
            break
    check(len(first) == 1, "the killed one was not sent")
    check(not (folder / ".mailed").exists(), "it is remembered")
    done = run(folder, "mail", "--changed", "--as-of", "2026-06-18", "--mailer", server.mailer)
    came = server.take()
    check(done.returncode == 0 and len(came) == 1, f"after it was killed: {done}")
    check("loader: leaks" in read_by_both(came[0], "after it was killed")[1], "what was sent once is lost")
    check(not [one for one in os.listdir(folder) if one.endswith(".new")], f"leftovers: {os.listdir(folder)}")


def cannot_know(server):
    """Each way of not knowing gives a message, printed and through the mailer, and the status that it has."""
    well = fleet_called("well")
    quiet = run(well, "mail", "--as-of", "2026-06-16", "--mailer", server.mailer)
    check(quiet.returncode == 0 and not quiet.stdout and not quiet.stderr and not server.take(), f"well: {quiet}")
    printed = run(well, "mail", "--as-of", "2026-06-16")
    check(printed.returncode == 0 and not printed.stdout and not printed.stderr, f"well: {printed}")

    def bend(folder):
        data = (folder / "record.db").read_bytes()
        (folder / "record.db").write_bytes(data.replace(b"loader", b"moader"))

    def not_readable(folder):
        (folder / "record.db").chmod(0o600)
        os.chown(folder / "record.db", 0, 0)

    ways = {
        "a mistake in the fleet file": (lambda f: (f / "fleet.yaml").write_text(
            (f / "fleet.yaml").read_text() + "nonsense: 1\n"), 78, "no key `nonsense`"),
        "a fleet file cut off": (lambda f: (f / "fleet.yaml").write_text(
            (f / "fleet.yaml").read_text()[:-30] + '"'), 78, "fleet.yaml:"),
        "a schedule that is gone": (lambda f: (f / "schedules" / "tractor.yaml").unlink(), 78, "no schedule `tractor`"),
        "no record": (lambda f: (f / "record.db").unlink(), 66, "there is no record"),
        "a bent record": (bend, 65, "does not agree"),
        "an empty record": (lambda f: (f / "record.db").write_bytes(b""), 65, "empty file"),
        "a locked record": ("lock", 75, "another program is using the record"),
        "a record that may not be read": (not_readable, 74, "chmod g+r"),
        "a machine of which nothing is known": (lambda f: (f / "fleet.yaml").write_text(
            (f / "fleet.yaml").read_text() + "  old: {schedule: tractor}\n"), 0, "nothing is recorded of it"),
        "stale readings": ("later", 0, "no reading for"),
    }
    for what, (spoil, status, said) in ways.items():
        folder = top / what.replace(" ", "-")
        shutil.copytree(well, folder)
        more, holder = {}, None
        day = "2026-09-15" if spoil == "later" else "2026-06-16"
        if spoil == "lock":
            holder = sqlite3.connect(folder / "record.db", isolation_level=None)
            holder.execute("BEGIN EXCLUSIVE")
        elif spoil != "later":
            spoil(folder)
        if spoil is not_readable:
            if os.geteuid() != 0:
                (folder / "record.db").chmod(0)
            else:
                more = {"user": 65534, "group": 65534, "extra_groups": []}
        done = run(folder, "mail", "--as-of", day, **more)
        check(done.returncode == status, f"{what}: {done.returncode} {done.stderr.decode()}")
        check(bool(done.stdout), f"{what}: no message")
        if spoil is not_readable:
            check(b".mailed" in done.stderr, f"{what}: nothing of .mailed: {done.stderr.decode()}")
        check(bool(done.stderr) == (status >= 64), f"{what}: {done.stderr.decode()}")
        if done.stdout:
            text = read_by_both(done.stdout, what)[1]
            check(said in " ".join(text.split()), f"{what}: not said: {text}")
        if not more:
            through = run(folder, "mail", "--as-of", day, "--mailer", server.mailer)
            came = server.take()
            check(through.returncode == status and not through.stdout, f"{what}, mailed: {through}")
            check(len(came) == 1 and said in " ".join(read_by_both(came[0], what)[1].split()), f"{what}: not mailed")
        if holder:
            holder.execute("ROLLBACK")
    # Where nobody can be told by mail, standard error tells it, and cron mails that.
    for spoilt in ("", "fleet: x\n", "fleet: [\n"):
        folder = top / "nobody"
        shutil.rmtree(folder, ignore_errors=True)
        shutil.copytree(well, folder)
        (folder / "fleet.yaml").write_text(spoilt)
        done = run(folder, "mail", "--as-of", "2026-06-16", "--mailer", server.mailer)
        check(done.returncode == 78 and done.stderr and not server.take(), f"nobody to tell: {done}")


def names(server):
    """Names that would be headers."""
    folder = fleet_called("names", '"x\\r\\nBcc: a@b"')
    must(folder, "saw", "loader", "knock Bcc: a@b", "--on", "2026-06-12", "--as-of", "2026-06-15")
    done = run(folder, "mail", "--as-of", "2026-06-16", "--mailer", server.mailer)
    came = server.take()
    check(done.returncode == 0 and len(came) == 1, f"names: {done}")
    message, text = read_by_both(came[0], "names")
    check(message["Bcc"] is None and "knock" in text, "names: a header came of one")
    check("knock" not in str(message["Subject"]), "names: a record's text is in the subject")
    check([address.addr_spec for address in message["To"].addresses]
          == ["office@skarvey.example", "workshop@skarvey.example"], "names: somebody else gets it")


def luminance(colour):
    channels = [int(colour[i:i + 2], 16) / 255 for i in (0, 2, 4)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one, other):
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def telephone(_):
    """The HTML on a telephone of 360 pixels, by day and by night, with its style sheet and where that was taken out."""
    from selenium import webdriver
    from selenium.webdriver.chrome.service import Service
    raw = run(top / "sample", "mail", "--as-of", "2026-06-16").stdout
    text = as_python_reads(raw)[1]["text/html"]
    check("<script" not in text and not re.search(r"(src|href)=", text), "the HTML fetches something")
    lines = set(re.findall(r"border-left: 5px solid #([0-9a-f]{6})", text))
    check(len(lines) == 3, f"the lines beside have the colours {lines}")
    for colour in lines:
        for ground in ("ffffff", "161616", "000000"):
            check(contrast(colour, ground) >= 3, f"#{colour} on #{ground}: {contrast(colour, ground):.2f}")
    options = webdriver.ChromeOptions()
    for flag in ("--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
                 "--disable-background-networking", "--disable-component-update", "--disable-sync",
                 f"--user-data-dir={top / 'browser'}"):
        options.add_argument(flag)
    browser = webdriver.Chrome(service=Service("/usr/bin/chromedriver"), options=options)
    try:
        browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride",
                                {"width": 360, "height": 740, "deviceScaleFactor": 1, "mobile": True})
        grounds = {}
        for kind, page in {"styled": text, "bare": re.sub(r"(?s)<style>.*?</style>", "", text)}.items():
            (top / f"{kind}.html").write_text(page)
            for theme in ("light", "dark"):
                browser.execute_cdp_cmd("Emulation.setEmulatedMedia",
                                        {"features": [{"name": "prefers-color-scheme", "value": theme}]})
                browser.get(f"file://{top / kind}.html")
                wide, size, ground, ink, brakes = browser.execute_script("""
                  const style = getComputedStyle(document.body), line = [...document.querySelectorAll('p')].find(
                    p => p.textContent.includes('tractor-loader: brakes'));
                  return [document.documentElement.scrollWidth, parseFloat(style.fontSize), style.backgroundColor,
                          style.color, line.getBoundingClientRect().bottom];""")
                check(wide <= 360, f"{kind}, {theme}: {wide} pixels wide")
                check(size >= 16, f"{kind}, {theme}: letters of {size} pixels")
                check(brakes <= 740, f"{kind}, {theme}: what never waits stands at {brakes} pixels")
                grounds[kind, theme] = (ground, ink)
        check(grounds["styled", "light"] != grounds["styled", "dark"], f"by night it looks as by day: {grounds}")
    finally:
        browser.quit()


def units():
    """The files for systemd are what they should be, with our own paths in them."""
    folder = top / "units"
    folder.mkdir()
    for name in ("whichever-mail.service", "whichever-mail.timer"):
        text = (source / "cli" / "timers" / name).read_text()
        text = text.replace("/usr/local/bin/whichever", command).replace("/usr/sbin/sendmail", "/usr/bin/msmtp")
        (folder / name).write_text(text)
    done = subprocess.run(["systemd-analyze", "verify", "--user", "--man=no", "--recursive-errors=no",
                           str(folder / "whichever-mail.timer"), str(folder / "whichever-mail.service")],
                          capture_output=True, timeout=120, env={**os.environ, "XDG_RUNTIME_DIR": str(folder)})
    check(done.returncode == 0 and b"whichever" not in done.stderr, f"systemd-analyze: {done.stderr.decode()}")
    (folder / "whichever-mail.timer").write_text(
        (folder / "whichever-mail.timer").read_text().replace("06:00:00", "26:00:00"))
    bad = subprocess.run(["systemd-analyze", "verify", "--user", "--man=no", str(folder / "whichever-mail.timer")],
                         capture_output=True, timeout=120, env={**os.environ, "XDG_RUNTIME_DIR": str(folder)})
    check(bad.returncode != 0 or b"26:00" in bad.stderr, "systemd-analyze sees no mistake where there is one")
    check("Persistent=true" in (folder / "whichever-mail.timer").read_text(), "missed mornings are not made up for")
    check("TimeoutStartSec=" in (folder / "whichever-mail.service").read_text(), "it may hang for ever")


def main():
    try:
        with Server() as server:
            for part in (same_list, surroundings, fortnight, failing_mailer, killed, cannot_know, names, telephone):
                part(server)
                print(f"{part.__name__}: {checks} checks so far")
        units()
    finally:
        shutil.rmtree(top, ignore_errors=True)
    print(f"mail: {checks} checks, {len(failures)} failed")
    sys.exit(1 if failures else 0)


main()
