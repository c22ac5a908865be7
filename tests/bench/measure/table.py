"""One table of what was measured."""
HEAD = ("size", "question", "cpu ms", "wall ms", "MB", "beside", "cpu ms", "MB", "ratio", "target", "")
LEFT = {0, 1, 5, 10}


def short(value):
    return f"{value:,.0f}" if value >= 100 else f"{value:.1f}" if value >= 10 else f"{value:.2f}" if value >= 0.1 else f"{value:.3f}"


def verdict(value, target):
    return "" if not target else "met" if value <= target else f"{short(value / target)} x over"


def rows_of(size, question, ours, others):
    """A row for each comparator; the target of the wall and of the peak, where there is one, on a row of its own."""
    cpu, wall, peak = (ours.median(what) for what in ("cpu", "wall", "peak"))
    begin = (size, question.name, short(1000 * cpu), short(1000 * wall), short(peak))
    rows = []
    for against, other in others:
        ratio = cpu / other.median("cpu")
        target = short(against.target) if against.target else ""
        rows.append((*begin, other.title, short(1000 * other.median("cpu")), short(other.median("peak")), short(ratio), target, verdict(ratio, against.target)))
        if against.wall:
            ratio = wall / other.median("wall")
            rows.append((*begin, other.title + ", wall", short(1000 * other.median("wall")), short(other.median("peak")), short(ratio), target,
                         verdict(ratio, against.target)))
    if question.seconds or not others:
        rows.append((*begin, "", "", "", "", f"{question.seconds:g} s" if question.seconds else "", verdict(cpu, question.seconds)))
    if question.peak:
        rows.append((*begin, "", "", "", "", f"{question.peak:g} MB", verdict(peak, question.peak)))
    return rows


def text_of(rows):
    rows = [HEAD, *rows]
    widths = [max(len(row[i]) for row in rows) for i in range(len(HEAD))]
    lines, before = [], None
    for row in rows:
        shown = tuple("" if i < 5 and before and row[:5] == before[:5] else cell for i, cell in enumerate(row))
        lines.append("  ".join(cell.ljust(width) if i in LEFT else cell.rjust(width)
                               for i, (cell, width) in enumerate(zip(shown, widths))).rstrip())
        before = row
    return "\n".join(lines)


def growth_of(cpu, points):
    """Of what is asked about whole fleets of two sizes: what a point costs in the larger one, beside one of the smaller.
    Takes CPU seconds by size and question, points by size, both from the smaller to the larger."""
    lines, sizes = [], list(points)
    for smaller, larger in zip(sizes, sizes[1:]):
        for (size, name), seconds in cpu.items():
            if size == larger and (smaller, name) in cpu:
                ratio = seconds / points[larger] / (cpu[smaller, name] / points[smaller])
                lines.append(f"{name}: a point of {larger} costs {short(ratio)} times one of {smaller}; target 1.20, {verdict(ratio, 1.2)}")
    return lines
