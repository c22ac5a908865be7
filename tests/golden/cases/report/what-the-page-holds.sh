# The page as whoever listens to it hears it: headings, names of pictures, tables with the number of their rows.
whichever report --as-of 2026-06-15 --output page.html
whichever report --as-of 2026-06-15 | cmp - page.html
python3 - page.html <<'END'
import html.parser
import sys


class Heard(html.parser.HTMLParser):
    SAID = {"h1", "h2", "h3", "caption", "summary", "label", "figcaption", "title", "desc"}

    def __init__(self):
        super().__init__()
        self.stack, self.text, self.rows, self.bars = [], "", 0, 0

    def handle_starttag(self, tag, attributes):
        self.stack.append(tag)
        if tag in self.SAID:
            self.text = ""
        if tag == "table":
            self.rows = self.bars = 0
        self.rows += tag == "tr"
        self.bars += tag == "svg" and dict(attributes).get("class") == "use"

    def handle_endtag(self, tag):
        while self.stack and self.stack.pop() != tag:
            pass
        inside = self.stack
        if tag in self.SAID and not (tag in {"title", "desc"} and "td" in inside):
            print(f"{'  ' * inside.count('section')}{tag}: {' '.join(self.text.split())}")
        if tag == "table":
            bars = f", {self.bars} pairs of bars" if self.bars else ""
            print(f"{'  ' * inside.count('section')}rows: {self.rows - 1}{bars}")

    def handle_startendtag(self, tag, attributes):
        pass  # what holds nothing says nothing

    def handle_data(self, data):
        self.text += data


heard = Heard()
heard.feed(open(sys.argv[1], encoding="utf-8").read())
END
