#!/usr/bin/python3
"""Pages of HTML in a browser and on paper.

usage: run.py COMMAND [--keep FOLDER]      (--keep leaves pages, pictures and prints to be looked at)
"""
import sys

sys.dont_write_bytecode = True

import json
import pathlib
import re
import shutil
import subprocess
import tempfile

from browser import Browser, contrast

root = pathlib.Path(__file__).resolve().parents[2]
command = pathlib.Path(sys.argv[1]).resolve()
AS_OF = "2026-06-15"
WIDTHS = (360, 800, 1600)
HOSTILE = "</title><script>document.title='had'</script><img src=x onerror=\"document.title='had'\">&amp; \"'\\ </style>"
LONG = "A machine with a name that goes on and on as people write them who have many alike in their yard"
passed = failed = 0


def check(what, ok, told=""):
    global passed, failed
    if ok:
        passed += 1
    else:
        failed += 1
        print(f"FAILED {what}: {told}")


def run(folder, *words):
    environment = {"PATH": "/usr/bin:/bin", "WHICHEVER_USER": "tester", "WHICHEVER_FLEET": str(folder)}
    done = subprocess.run([command, *words], env=environment, cwd=folder, capture_output=True, timeout=60)
    if done.returncode != 0:
        sys.exit(f"{' '.join(words)}: status {done.returncode}\n{done.stderr.decode()}")
    return done.stdout.decode()


def fleet(top, name, change=lambda text: text):
    folder = top / name
    shutil.copytree(root / "sample-fleet", folder, ignore=shutil.ignore_patterns("record.db*", "try"))
    file = folder / "fleet.yaml"
    file.write_text(change(file.read_text()))
    run(folder, "new", str(folder))
    run(folder, "import", "facts.csv", "--as-of", AS_OF)
    return folder


def page(folder, file, *words):
    run(folder, *words, "--as-of", AS_OF, "--format", "html", "--output", str(file))
    return file


def valid(name, file):
    done = subprocess.run(["tidy", "-errors", "-quiet", str(file)], capture_output=True, text=True, timeout=60)
    check(f"{name}: tidy", done.returncode == 0 and not done.stderr, done.stderr)


def on_screens(browser, name, file):
    for dark in (False, True):
        for width in WIDTHS:
            browser.screen(width, dark)
            browser.open(file)
            lines, wrong = browser.laid_out()
            check(f"{name} at {width}: something is there", lines > 10, str(lines))
            check(f"{name} at {width}", not wrong, wrong[:5])
        pairs = browser.colours()
        low = [pair for pair in pairs if contrast(*pair) < 4.5]
        check(f"{name}, {'dark' if dark else 'light'}: contrast", pairs and not low, str(low))
        grounds = {tuple(pair[1]) for pair in pairs}
        check(f"{name}: by {'night' if dark else 'day'}", ((255, 255, 255) in grounds) != dark, str(grounds))
    small = browser.ask("return Math.min(...[...document.querySelectorAll('body, body *')]"
                        ".filter(e => e.checkVisibility() && e.innerText).map(e => parseFloat(getComputedStyle(e).fontSize)))")
    check(f"{name}: the smallest letters", small >= 14, f"{small} px")
    check(f"{name}: nothing to complain of", not browser.complaints(), str(browser.complaints()))
    asked = [address for address in browser.asked_for() if not address.startswith("file:")]
    check(f"{name}: asks for nothing", not asked, str(asked))
    check(f"{name}: no script", browser.ask("return document.scripts.length") == 0)


def on_paper(browser, file, pdf):
    """The pages as text, one by one."""
    browser.screen(1600)
    browser.open(file)
    browser.printed(pdf)
    text = subprocess.run(["pdftotext", "-layout", str(pdf), "-"], capture_output=True, text=True, check=True).stdout
    pages = text.split("\f")[:-1]
    check(f"{pdf.name}: pages", len(pages) > 0)
    for number, one in enumerate(pages, 1):
        check(f"{pdf.name}: page {number} counts", re.search(rf"\b{number} ?/ ?{len(pages)}\s*$", one), one[-200:])
    browser.screen(800, media="print")
    low = [pair for pair in browser.colours() if pair[1] != [255, 255, 255] or contrast(*pair) < 4.5]
    check(f"{pdf.name}: dark on white", not low, str(low))
    return pages


def job_sheets(browser, top, folder):
    file = page(folder, top / "sheets.html", "sheet")
    valid("sheets", file)
    on_screens(browser, "sheets", file)
    pages = on_paper(browser, file, top / "sheets.pdf")
    answer = json.loads(run(folder, "sheet", "--as-of", AS_OF, "--format", "json"))
    stands = {"out-of-use": " · OUT OF USE: do not run", "laid-up": " · LAID UP: not before it is back"}
    stands["unsafe"] = " · DO NOT RUN before this is mended"

    def stands_so(sheet):
        state = sheet["state"]["state"] if sheet["state"] else "in-use"
        if state == "out-of-use":
            return stands[state]
        laid_up = stands[state] if state == "laid-up" else ""
        return stands["unsafe"] + laid_up.replace(" · ", "; ") if sheet["do_not_run"] else laid_up

    heads = [f"{sheet['name']} ({sheet['machine']}) · {AS_OF}{stands_so(sheet)}" for sheet in answer["sheets"]]
    check("sheets: one is out of use, one laid up, one unsafe",
          all(any(say in head for head in heads) for say in stands.values()))
    check("sheets: several", len(heads) > 5, str(heads))
    tops = [one.lstrip().split("\n")[0].strip() for one in pages]
    rest = f"{answer['fleet']} · {AS_OF}"  # what is told of machines without a sheet
    check("sheets: each page names its machine and the day", set(tops) == {*heads, rest}, str(tops))
    check("sheets: machine after machine", list(dict.fromkeys(tops)) == [*heads, rest], str(tops))
    for sheet, head in zip(answer["sheets"], heads):
        own = [one for one, top in zip(pages, tops) if top == head]
        check(f"sheets: {sheet['machine']} begins a page", sheet["name"] in own[0].split("\n", 1)[1], own[0][:200])
        others = [other["name"] for other in answer["sheets"] if other is not sheet]
        plates = [name for one in own for name in others
                  if re.search(rf"^\s*{re.escape(name)}\s+{AS_OF}", one, re.M)]
        check(f"sheets: {sheet['machine']} alone on its pages", not plates, str(plates))
        text = " ".join(" ".join(own).split())
        for task in sheet["tasks"]:
            check(f"sheets: {task['task']} of {sheet['machine']}", " ".join(task["do"].split()) in text)
        check(f"sheets: {sheet['machine']} before you touch it", "try that it cannot start" in text)
    drawn = browser.ask("return [...document.querySelectorAll('svg.use')].every(s => "
                        "s.getAttribute('role') === 'img' && s.querySelector('title').textContent.length > 5)")
    check("sheets: bars are told in words", drawn)


def one_sheet(browser, top, folder):
    file = page(folder, top / "one.html", "sheet", "telehandler-store")
    on_screens(browser, "one", file)
    pages = on_paper(browser, file, top / "one.pdf")
    check("one: on two sheets of paper", len(pages) <= 3, f"{len(pages)} pages")


def readings(browser, top, folder):
    file = page(folder, top / "readings.html", "sheet", "--readings")
    valid("readings", file)
    on_screens(browser, "readings", file)
    for number, one in enumerate(on_paper(browser, file, top / "readings.pdf"), 1):
        check(f"readings: page {number} names fleet and day", f"Thrennay estate: meters to read, {AS_OF}" in
              " ".join(one.split("\n", 3)[0].split()), one[:200])
    browser.screen(800, media="print")
    rows = browser.ask("return Math.min(...[...document.querySelectorAll('.read tbody tr')]"
                       ".map(row => row.getBoundingClientRect().height))")
    check("readings: room to write by hand (9 mm)", rows >= 34, f"{rows} px")


def report(browser, top, folder):
    file = page(folder, top / "report.html", "report")
    valid("report", file)
    on_screens(browser, "report", file)
    browser.screen(360)
    browser.open(file)
    browser.ask("document.querySelectorAll('details').forEach(d => d.open = true)")
    browser.ask("document.querySelectorAll('.numbers input').forEach(tick => tick.checked = true)")
    lines, wrong = browser.laid_out()
    check("report at 360, all unfolded", lines > 2000 and not wrong, f"{lines} lines, {wrong[:5]}")
    answer = json.loads(run(folder, "report", "--as-of", AS_OF, "--format", "json"))
    broken = browser.ask("return [...document.querySelectorAll('a')].filter(a => !document.getElementById("
                         "a.getAttribute('href').slice(1))).map(a => a.outerHTML)")
    check("report: every link leads somewhere", not broken, str(broken))
    unnamed = browser.ask("return [...document.querySelectorAll('svg')].filter(s => s.getAttribute('role') !== 'img' || "
                          "!(s.querySelector('title') || {textContent: ''}).textContent).length + "
                          "[...document.querySelectorAll('table')].filter(t => !t.caption || !t.caption.textContent || "
                          "[...t.querySelectorAll('th')].some(h => !h.scope)).length")
    check("report: pictures and tables have names", unnamed == 0, str(unnamed))
    levels = browser.ask("return [...document.querySelectorAll('h1, h2, h3, h4')].map(h => Number(h.tagName[1]))")
    check("report: headings in their order", levels[0] == 1 and levels.count(1) == 1 and
          all(after <= before + 1 for before, after in zip(levels, levels[1:])), str(levels))
    # Each standing has a word and a mark of its own, so that it is told without colour.
    told = browser.ask("return [...new Set([...document.querySelectorAll('.standing')].map(s => s.className + '|' + "
                       "s.textContent.trim()))]")
    check("report: standings are told by word and mark", len(told) >= 5 and
          len({one.split("|")[1] for one in told}) == len({one.split("|")[0] for one in told}), str(told))
    pages = on_paper(browser, file, top / "report.pdf")
    for number, one in enumerate(pages, 1):
        head = " ".join(one.split("\n", 3)[0].split())
        check(f"report: page {number} names fleet and day", head.startswith(f"Thrennay estate · {AS_OF}"), head)
    for machine in answer["machines"]:
        head = f"Thrennay estate · {AS_OF} · {machine['machine']}"
        own = [one for one in pages if " ".join(one.split("\n", 3)[0].split()) == head]
        text = " ".join(" ".join(own).split())
        check(f"report: {machine['machine']} has paper of its own", own and machine["name"] in text, head)
        # The whole book; the chart without the figures that it draws, which would be a page for each meter.
        days = {fact["on"] for fact in machine["history"]["facts"]}
        check(f"report: {machine['machine']}'s book on paper", all(day in text for day in days),
              str(sorted(day for day in days if day not in text)[:5]))


def report_is_read(browser, top):
    """What the eye meets: no stroke through words, no name in two lines, columns as wide as what they hold."""
    keys = {machine["machine"] for machine in json.loads(run(top / "fleet", "report", "--as-of", AS_OF, "--format",
                                                             "json"))["machines"]}
    for width, media in ((360, ""), (800, ""), (1600, ""), (760, "print")):
        browser.screen(width, media=media)
        browser.open(top / "report.html")
        browser.ask("document.querySelectorAll('.numbers input').forEach(tick => tick.checked = true)")
        struck = browser.ask("return [...document.querySelectorAll('.instead')].filter(e => getComputedStyle("
                             "e.closest('td')).backgroundImage !== 'none').map(e => e.textContent)")
        words = browser.ask("return document.querySelectorAll('.instead').length")
        check(f"report at {width} {media}: no stroke through words", words > 3 and not struck, str(struck[:3]))
        broken = browser.ask(r"""
const out = [];
const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
for (let node = walker.nextNode(); node; node = walker.nextNode()) {
  if (!node.parentElement.checkVisibility() || node.parentElement.closest("title, .told, h1, h2, h3")) continue;
  for (const word of node.textContent.matchAll(/--[a-z]+(?:-[a-z]+)*/g)) {
    if (word[0].length > 26) continue;
    const range = document.createRange();
    range.setStart(node, word.index);
    range.setEnd(node, word.index + word[0].length);
    if (new Set([...range.getClientRects()].map(box => Math.round(box.top))).size > 1) out.push(word[0]);
  }
}
return out;""")
        check(f"report at {width} {media}: options stay whole", not broken, f"{len(broken)}: {broken[:8]}")
    browser.screen(800)
    browser.open(top / "report.html")
    narrow = browser.ask("return [...document.querySelectorAll('.needs, .season')].filter(t => t.checkVisibility())"
                         ".map(t => t.rows[1].cells.length > 1 ? t.rows[1] : t.rows[2])"
                         ".map(r => r.cells[r.cells.length - 1].getBoundingClientRect().width)")
    check("report at 800: words have room", len(narrow) > 2 and min(narrow) >= 200, str(narrow))
    # On no screen is a machine that nobody may run read of before it is told so.
    first = browser.ask("return [...document.querySelectorAll('#overdue, #due, #season, #workload, #parts')]"
                        ".map(part => part.children[1].className)")
    check("report: who must not be run stands first", first == ["stop"] * 5, str(first))
    boxed = browser.ask("return [...document.querySelectorAll('#overdue > .stop dt')].map(e => e.textContent.trim())")
    check("report: the box names each", boxed == ["telehandler-yard", "tractor-big", "telehandler-store"] and keys >= set(boxed),
          str(boxed))


def folded(browser, top):
    """What is folded on a screen: a tick opens it, a browser that is older shows it, and every one prints it."""
    shown = "return [...document.querySelectorAll('.numbers:not(.screen) table')].map(t => t.checkVisibility({contentVisibilityAuto: true}))"
    text = (top / "report.html").read_text()
    browser.screen(800)
    browser.open(top / "report.html")
    tables = browser.ask(shown)
    check("folded: on a screen", len(tables) > 5 and not any(tables), str(tables))
    browser.ask("document.querySelector('.numbers:not(.screen):has(table) label').click()")
    browser.painted()
    check("folded: a tick opens one", browser.ask(shown) == [True] + [False] * (len(tables) - 1))
    browser.screen(800, media="print")
    check("folded: not on paper", all(browser.ask(shown)))
    # What not every browser knows, under names that none does.
    older = re.sub(r"::details-content|:has(?=\()|content-visibility|until-found", lambda known: known[0] + "-not", text)
    check("folded: it uses what is new", older != text)
    file = top / "older.html"
    file.write_text(older)
    browser.screen(800)
    browser.open(file)
    check("folded: shown where nothing could open it", all(browser.ask(shown)))
    pages = on_paper(browser, file, top / "older.pdf")
    check("folded: an older one prints the same", pages == on_paper(browser, top / "report.html", top / "report.pdf"))


# The first and the last line of each row get a mark, and each head of a table.
MARKS = r"""
const mark = (cell, text, end) => {
  const line = document.createElement("div");
  line.textContent = text;
  line.style.cssText = "font: 8px monospace; white-space: nowrap; overflow-wrap: normal; max-width: none";
  end ? cell.append(line) : cell.prepend(line);
};
let rows = 0, tables = 0;
for (const table of document.querySelectorAll("table")) {
  if (!table.tHead || !table.checkVisibility()) continue;
  mark(table.tHead.rows[0].cells[0], `head${++tables}.`, false);
  for (const row of [...table.tBodies].flatMap(body => [...body.rows])) {
    ++rows;
    for (const cell of row.cells) {
      mark(cell, `row${rows}of${tables}.`, false);
      mark(cell, `row${rows}of${tables}.`, true);
    }
  }
}
return rows;
"""


def tables_on_paper(browser, name, file, pdf):
    """The rows that lie on two pages, and the tables that go on on a page without their head."""
    browser.screen(1600, media="print")
    browser.open(file)
    rows = browser.ask(MARKS)
    browser.printed(pdf)
    text = subprocess.run(["pdftotext", "-layout", str(pdf), "-"], capture_output=True, text=True, check=True).stdout
    on, headless, over = {}, set(), set()
    for number, one in enumerate(text.split("\f")[:-1], 1):
        heads = set(re.findall(r"head(\d+)\.", one))
        for row, table in set(re.findall(r"row(\d+)of(\d+)\.", one)):
            on.setdefault(row, set()).add(number)
            if table not in heads:
                headless.add((number, table))
            over.add((table, number))
    check(f"{name}: every row is found on paper", len(on) == rows > 0, f"{len(on)} of {rows}")
    several = {table for table, number in over if (table, number + 1) in over}
    return [row for row, pages in on.items() if len(pages) > 1], sorted(headless), several


def rows_stay_whole(browser, top):
    for name in ("sheets", "readings", "report"):
        split, headless, several = tables_on_paper(browser, name, top / f"{name}.html", top / "marks.pdf")
        check(f"{name}: no row is on two pages", not split, f"rows {split}")
        check(f"{name}: each page of a table has its head", not headless, f"page, table: {headless}")
        if name == "report":
            check("report: tables that go on on another page", len(several) > 1, str(several))
    # That this sees a row that is split, and a head that is missing.
    text = (top / "report.html").read_text()
    file = top / "split.html"
    file.write_text(text.replace("break-inside: avoid", "break-inside: auto").replace("table-header-group", "table-row-group"))
    split, headless, _ = tables_on_paper(browser, "split", file, top / "marks.pdf")
    check("rows: a split one would be seen", split)
    check("rows: a missing head would be seen", headless)


def names_stay_names(browser, top):
    def change(text):
        text = text.replace("name: Store telehandler", f"name: {json.dumps(HOSTILE)}")
        return text.replace("name: Big tractor", f"name: {json.dumps(LONG)}")

    folder = fleet(top, "hostile", change)
    for name, words in (("hostile", ["sheet", "telehandler-store", "tractor-big"]), ("hostile-readings", ["sheet", "--readings"]),
                        ("hostile-report", ["report", "telehandler-store", "tractor-big"])):
        file = page(folder, top / f"{name}.html", *words)
        valid(name, file)
        on_screens(browser, name, file)
        title = browser.ask("return document.title")
        check(f"{name}: the title is ours", title.startswith(("Job sheet, ", "Thrennay")), title)
        shown = browser.ask("return document.body.innerText")
        check(f"{name}: the name is text", HOSTILE in shown, shown[:300])
        ours = browser.ask("return [...new Set([...document.querySelectorAll('*')].map(e => e.tagName.toLowerCase()))]")
        check(f"{name}: no element of its making", not {"img", "script", "iframe"} & set(ours), str(ours))
        pages = on_paper(browser, file, top / f"{name}.pdf")
        if name == "hostile":
            tops = " ".join(pages[0].split())
            check("hostile: a long name stands at the head", "go" in tops and AS_OF in tops.split("Machine")[0], tops[:200])
            for one in pages:
                head = " ".join(one.split())
                check("hostile: each page names one", head.startswith((LONG[:60], "</title><script>")), head[:200])


def nothing_due(browser, top, folder):
    file = page(folder, top / "nothing.html", "sheet", "dryer")
    valid("nothing", file)
    browser.screen(360)
    browser.open(file)
    check("nothing: is said", f"Nothing is due on {AS_OF}." in browser.ask("return document.body.innerText"))


def main():
    top = pathlib.Path(tempfile.mkdtemp(prefix="pages-"))
    try:
        folder = fleet(top, "fleet")
        with Browser() as browser:
            job_sheets(browser, top, folder)
            one_sheet(browser, top, folder)
            readings(browser, top, folder)
            nothing_due(browser, top, folder)
            report(browser, top, folder)
            report_is_read(browser, top)
            folded(browser, top)
            rows_stay_whole(browser, top)
            names_stay_names(browser, top)
            if "--keep" in sys.argv:
                kept = pathlib.Path(sys.argv[sys.argv.index("--keep") + 1])
                kept.mkdir(parents=True, exist_ok=True)
                for file in [*top.glob("*.html"), *top.glob("*.pdf")]:
                    shutil.copy(file, kept)
                for name in ("one", "readings"):
                    for width in WIDTHS:
                        browser.screen(width)
                        browser.open(top / f"{name}.html")
                        browser.driver.save_screenshot(str(kept / f"{name}-{width}.png"))
    finally:
        shutil.rmtree(top)
    print(f"cases: {passed} passed, {failed} failed")
    sys.exit(1 if failed or not passed else 0)


main()
