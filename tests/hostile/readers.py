"""Each format as a parser of another make reads it: what is wrong with it, and the texts that it holds."""
import csv
import email
import email.policy
import gzip
import html.parser
import io
import json
import pathlib
import re
import subprocess
import xml.etree.ElementTree as tree

from names import is_harmful


def harmless(text, but="\n"):
    """What no reader may be sent, in any format but JSON, which escapes it."""
    return [f"{letter!r} in the output" for letter in sorted(set(text)) if is_harmful(letter) and letter not in but]


def as_text(raw, _):
    text = raw.decode()
    return harmless(text), [text]


def texts_in(value):
    if isinstance(value, dict):
        return [text for part in value.values() for text in texts_in(part)]
    if isinstance(value, list):
        return [text for part in value for text in texts_in(part)]
    return [value] if isinstance(value, str) else []


def once(pairs):
    keys = [key for key, _ in pairs]
    if len(keys) != len(set(keys)):
        raise ValueError(f"a key twice in {keys}")
    return dict(pairs)


def as_json(raw, _):
    return [], texts_in(json.loads(raw.decode(), object_pairs_hook=once))


FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20")
NUMBER = re.compile(r"-?\d+(\.\d+)?$")


def unguarded(cell):
    """One apostrophe keeps a spreadsheet from taking a text for a formula; it is no part of the text."""
    behind = cell.lstrip("'")
    return cell[1:] if cell.startswith("'") and behind.startswith(FORMULA) else cell


def as_json_lines(raw, _):
    return [], [text for line in raw.decode().splitlines() for text in texts_in(json.loads(line, object_pairs_hook=once))]


def as_csv(raw, folder):
    text = raw.decode()
    rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    wrong = [f"a row of {len(row)} fields below {len(rows[0])}" for row in rows if len(row) != len(rows[0])]
    wrong += [f"the cell {cell!r} starts a formula" for row in rows for cell in row
              if cell.startswith(FORMULA) and not NUMBER.match(cell)]
    wrong += harmless(text, "\r\n\t\u202e")  # data, read back without loss: no terminal is meant
    return wrong + as_a_spreadsheet_reads(raw, rows, folder), [unguarded(cell) for row in rows for cell in row]


def as_a_spreadsheet_reads(raw, rows, folder):
    """Opened in a spreadsheet program: no cell is a formula, and each text is there."""
    (folder / "list.csv").write_bytes(raw)
    done = subprocess.run(["ssconvert", "--import-type=Gnumeric_stf:stf_csvtab", "--import-encoding=UTF-8", "list.csv", "list.gnumeric"],
                          cwd=folder, capture_output=True, text=True, timeout=120,
                          env={"PATH": "/usr/bin:/bin", "HOME": str(folder), "LC_ALL": "C.UTF-8"})
    if done.returncode != 0:
        return [f"ssconvert: {done.stderr}"]
    top = tree.fromstring(gzip.decompress((folder / "list.gnumeric").read_bytes()))
    name = "{http://www.gnumeric.org/v10.dtd}"
    seen = {}
    wrong = []
    for cell in top.iter(name + "Cell"):
        place = int(cell.get("Row")), int(cell.get("Col"))
        if cell.get("ValueType") is None or cell.get("ExprID") is not None:
            wrong.append(f"a spreadsheet takes {cell.text!r} for a formula")
        elif cell.get("ValueType") == "60":
            seen[place] = cell.text or ""
    for place, text in seen.items():
        written = rows[place[0]][place[1]]
        # An apostrophe in front is a mark of text to it, whoever wrote it.
        if text not in (written, written.removeprefix("'")) and text.split() != written.split():
            wrong.append(f"a spreadsheet reads {text!r} where {written!r} was written")
    return wrong


def as_markdown(raw, _):
    text = raw.decode()
    wrong = harmless(text)
    bars = {}
    for line in text.splitlines():
        if not line.startswith("|"):
            bars.clear()
            continue
        cells = re.sub(r"\\.", "", line).count("|")
        if bars.setdefault("cells", cells) != cells:
            wrong.append(f"a row of another length: {line}")
    wrong += [f"markup got through: {line}" for line in text.splitlines() if re.search(r"(?<!\\)<(script|/title|b>)", line)]
    return wrong, [text]


class Page(html.parser.HTMLParser):
    """The elements of a page and its texts; what our own pages never hold is complained of."""
    VOID = {"meta", "br", "hr", "input", "img", "link", "col", "wbr"}

    def __init__(self):
        super().__init__(convert_charrefs=True)
        self.wrong, self.texts, self.open = [], [], []

    def handle_starttag(self, tag, attrs):
        if tag == "script" or any(key.startswith("on") for key, _ in attrs):
            self.wrong.append(f"<{tag} {attrs}> got through")
        for key, value in attrs:
            if key in ("src", "href") and value and not value.startswith(("#", "data:", "mailto:")):
                self.wrong.append(f"{key}={value} leads out of the page")
            self.texts.append(value or "")
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.handle_starttag(tag, attrs)
        if tag not in self.VOID:
            self.open.pop()

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.wrong.append(f"</{tag}> closes nothing")

    def handle_comment(self, data):
        self.wrong.append(f"a comment: {data}")

    def handle_data(self, data):
        self.texts.append(data)


def as_html(raw, _):
    text = raw.decode()
    page = Page()
    page.feed(text)
    page.close()
    return harmless(text) + page.wrong + [f"<{tag}> stays open" for tag in page.open], page.texts


def as_calendar(raw, _):
    import icalendar
    import vobject
    text = raw.decode()
    wrong = harmless(text, "\r\n")
    wrong += [f"a line of {len(line)} octets" for line in raw.split(b"\r\n") if len(line) > 75]
    if b"\n" in raw.replace(b"\r\n", b""):
        wrong.append("a line that does not end in CR LF")
    events = icalendar.Calendar.from_ical(text).walk("VEVENT")
    others = list(vobject.readOne(text).vevent_list)
    ours = sorted((str(event["UID"]), str(event["SUMMARY"]), str(event.get("DESCRIPTION", ""))) for event in events)
    theirs = sorted((event.uid.value, event.summary.value, event.description.value if hasattr(event, "description") else "")
                    for event in others)
    # icalendar 4 takes an escaped backslash before an n for an escaped line break; vobject reads it as it is meant.
    broken = lambda events: [tuple(part.replace("\\n", "\n") for part in event) for event in events]
    if broken(ours) != broken(theirs):
        wrong.append(f"two parsers differ: {set(broken(ours)) ^ set(broken(theirs))}")
    return wrong, [part for event in theirs for part in event]


HEADERS = {"From", "To", "Subject", "Date", "Message-ID", "MIME-Version", "Content-Type", "Auto-Submitted",
           "Content-Transfer-Encoding", "Content-Language", "X-Auto-Response-Suppress"}


def as_mail(raw, folder):
    message = email.message_from_bytes(raw, policy=email.policy.strict)
    wrong = [f"the header {key} was not meant" for key in message.keys() if key not in HEADERS]
    wrong += [f"defect: {defect}" for part in message.walk() for defect in part.defects]
    texts = [str(message["Subject"])]
    for part in message.walk():
        if part.get_content_type() == "text/plain":
            plain = part.get_content().replace("\r\n", "\n")
            wrong += harmless(plain)
            texts.append(plain)
        if part.get_content_type() == "text/html":
            told, held = as_html(part.get_content().replace("\r\n", "\n").encode(), folder)
            wrong += told
            texts += held
    return wrong, texts


READERS = {"text": as_text, "json": as_json, "csv": as_csv, "jsonl": as_json_lines, "md": as_markdown, "html": as_html, "ics": as_calendar,
           "mail": as_mail}
