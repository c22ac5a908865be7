"""A browser to look at pages with: it has no network, and is asked what it laid out, not what was written."""
import base64
import json
import pathlib
import shutil
import tempfile

from selenium import webdriver
from selenium.webdriver.chrome.options import Options
from selenium.webdriver.chrome.service import Service

SILENT = ["--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync",
          "--disable-background-networking", "--disable-component-update", "--disable-dev-shm-usage",
          "--host-resolver-rules=MAP * ~NOTFOUND"]

# Texts that stick out of the page at the right, or lie over each other, but for those that are only heard. A text is known by the rectangles of its lines.
LAID_OUT = r"""
const wide = document.documentElement.clientWidth, out = [], boxes = [];
const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
for (let node = walker.nextNode(); node; node = walker.nextNode()) {
  const text = node.textContent.trim();
  if (!text || !node.parentElement.checkVisibility() || node.parentElement.closest("title, thead, .told, .skip")) continue;
  const range = document.createRange();
  range.selectNodeContents(node);
  for (const box of range.getClientRects()) {
    if (box.width < 1 || box.height < 1) continue;
    if (box.right > wide + 0.5 || box.left < -0.5) out.push("beyond the edge: " + text.slice(0, 40));
    boxes.push({text, top: box.top, bottom: box.bottom, left: box.left, right: box.right});
  }
}
boxes.sort((a, b) => a.top - b.top);
for (let i = 0; i < boxes.length; ++i) {
  for (let k = i + 1; k < boxes.length && boxes[k].top < boxes[i].bottom; ++k) {
    const a = boxes[i], b = boxes[k];
    const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
    // Lines are closer than the boxes of their letters are high.
    const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
    const least = Math.min(a.bottom - a.top, b.bottom - b.top);
    if (across > 1 && down > least / 2) out.push("over each other: " + a.text.slice(0, 30) + " | " + b.text.slice(0, 30));
  }
}
if (document.documentElement.scrollWidth > wide) out.push("the page is " + document.documentElement.scrollWidth + " wide");
return [boxes.length, out];
"""

# Every colour of text that is shown, with what is behind it, as three numbers each.
COLOURS = r"""
const numbers = colour => colour.match(/[\d.]+/g).map(Number), pairs = new Set();
const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
for (let node = walker.nextNode(); node; node = walker.nextNode()) {
  const of = node.parentElement;
  if (!node.textContent.trim() || !of.checkVisibility() || of.closest("title")) continue;
  let behind = of, ground = [0, 0, 0, 0];
  for (; behind; behind = behind.parentElement) {
    ground = numbers(getComputedStyle(behind).backgroundColor);
    if (ground.length < 4 || ground[3] > 0) break;
  }
  pairs.add(JSON.stringify([numbers(getComputedStyle(of).color).slice(0, 3), ground.slice(0, 3)]));
}
return [...pairs].map(JSON.parse);
"""


class Browser:
    def __init__(self):
        self.profile = tempfile.mkdtemp(prefix="browser-")
        options = Options()
        options.binary_location = "/usr/bin/chromium"
        for argument in (*SILENT, f"--user-data-dir={self.profile}"):
            options.add_argument(argument)
        options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
        self.driver = webdriver.Chrome(options=options, service=Service("/usr/bin/chromedriver"))

    def close(self):
        self.driver.quit()
        shutil.rmtree(self.profile, ignore_errors=True)

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.close()

    def screen(self, width, dark=False, media=""):
        self.driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride",
                                    {"width": width, "height": 900, "deviceScaleFactor": 1, "mobile": width < 500})
        self.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {
            "media": media, "features": [{"name": "prefers-color-scheme", "value": "dark" if dark else "light"}]})

    def open(self, file):
        self.driver.get(pathlib.Path(file).resolve().as_uri())

    def ask(self, script):
        return self.driver.execute_script(script)

    def painted(self):
        """Until what was done to the page is on the screen: opened by a tick, it is laid out by the frame behind that."""
        self.driver.execute_async_script("requestAnimationFrame(() => requestAnimationFrame(arguments[0]))")

    def laid_out(self):
        """How many lines of text there are, and what is wrong with where they stand."""
        return self.ask(LAID_OUT)

    def colours(self):
        return self.ask(COLOURS)

    def complaints(self):
        """What the browser itself has to say: a policy that was broken, a file that it could not read."""
        return [entry["message"] for entry in self.driver.get_log("browser")]

    def asked_for(self):
        """The addresses that it asked for since the last call."""
        return [address for entry in self.driver.get_log("performance")
                for address in _requests(entry["message"])]

    def printed(self, file, width=8.27, height=11.69):
        answer = self.driver.execute_cdp_cmd("Page.printToPDF", {"paperWidth": width, "paperHeight": height})
        pathlib.Path(file).write_bytes(base64.b64decode(answer["data"]))


def _requests(message):
    """Those of a page of ours: a browser has pages of its own."""
    event = json.loads(message)["message"]
    if event["method"] == "Network.requestWillBeSent" and event["params"]["documentURL"].startswith("file:"):
        yield event["params"]["request"]["url"]


def contrast(front, behind):
    def luminance(colour):
        parts = [c / 255 for c in colour]
        parts = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
        return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]

    light, dark = sorted((luminance(front), luminance(behind)), reverse=True)
    return (light + 0.05) / (dark + 0.05)
