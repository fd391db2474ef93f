"""Pages as a browser shows and prints them: Debian's chromium without a window.

Outside check: the browser measures. A page must fit a phone (360 px) and a desk (1280 px) without
scrolling sideways, ask nobody for anything, work with scripts off, keep every label on its picture,
and print on A4 and Letter with no picture cut in two.
"""
import os
import re
import shutil
import subprocess
import sys

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from _browser import Browser  # noqa: E402

DAWNLOW = os.environ.get("DAWNLOW", "build/dawnlow")
FOLDER = os.environ.get("TMPDIR", "/tmp")
A4, LETTER = (8.27, 11.69), (8.5, 11.0)  # inches; ISO 216, ANSI/ASME Y14.1 (from memory)
failed = False


def check(good, what, why=""):
    global failed
    failed = failed or not good
    print(("ok - " if good else "not ok - ") + what + (f": {why}" if why and not good else ""))


def make(name, *arguments):
    """Writes a page; its path and the text report, as one line."""
    path = os.path.join(FOLDER, name + ".html")
    made = subprocess.run([DAWNLOW, *arguments, "--html", path], capture_output=True, text=True,
                          check=True)
    return path, one_line(made.stdout)


def one_line(text):
    return re.sub(r"\s+", " ", text).strip()


# What the page says of itself. Labels: those not wholly on their picture, and pairs of line names
# that cover each other by more than a hair.
MEASURE = """(() => {
  const root = document.documentElement;
  const outside = [], covering = [];
  let smallest = 99;
  for (const svg of document.querySelectorAll('svg')) {
    const paper = svg.getBoundingClientRect();
    const names = [];
    for (const text of svg.querySelectorAll('text')) {
      const box = text.getBoundingClientRect();
      const scale = paper.width / svg.viewBox.baseVal.width;
      smallest = Math.min(smallest, parseFloat(getComputedStyle(text).fontSize) * scale);
      if (box.left < paper.left - 1 || box.right > paper.right + 1 || box.top < paper.top - 1 ||
          box.bottom > paper.bottom + 1) outside.push(text.textContent);
      if (text.classList.contains('name')) names.push([box, text.textContent]);
    }
    names.forEach(([a, p], i) => names.slice(0, i).forEach(([b, q]) => {
      const over = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      if (over > 0.35 * a.height && a.left < b.right && b.left < a.right)
        covering.push(p + ' / ' + q);
    }));
  }
  const paper = getComputedStyle(root).backgroundColor.match(/[0-9.]+/g).slice(0, 3).map(Number);
  const figures = [...document.querySelectorAll('figure')].map(figure => ({
    caption: figure.querySelector('figcaption').firstChild.textContent,
    labels: [...figure.querySelectorAll('svg text')].map(text => text.textContent)}));
  return {figures, scroll: root.scrollWidth, window: root.clientWidth, outside, covering, smallest,
          charts: document.querySelectorAll('svg').length,
          decision: document.getElementById('decision').textContent,
          light: paper.reduce((a, b) => a + b) / 765,
          load: performance.getEntriesByType('navigation')[0].loadEventStart};
})()"""


def on_screen(browser, name, path, said):
    # All four ways for one page; the others share its style.
    ways = [(360, False), (1280, True)] + ([(360, True), (1280, False)] if name == "nights" else [])
    for width, dark in ways:
        browser.open(path, width, dark)
        seen = browser.value(MEASURE)
        where = f"{name}, {width} px, {'dark' if dark else 'light'}"
        check(seen["scroll"] <= seen["window"] == width, where + ": fits",
              f"{seen['scroll']} in {seen['window']}")
        check(not browser.complaints(), where + ": no complaint, nobody asked",
              browser.complaints())
        check(not seen["outside"], where + ": labels on their pictures", seen["outside"])
        check(not seen["covering"], where + ": names apart", seen["covering"])
        check(seen["smallest"] >= 9.0, where + ": labels can be read", seen["smallest"])
        check((seen["light"] < 0.2) == dark, where + ": the paper's shade", seen["light"])
        check(said.startswith(one_line(seen["decision"])), where + ": the text's decision",
              seen["decision"])
    size = os.path.getsize(path)
    check(size < 500e3, name + ": small enough to mail", size)
    print(f"# page {name}: {size} bytes, {seen['charts']} pictures, loaded in {seen['load']:.0f} ms")
    return seen


def words_of(pdf, page):
    made = subprocess.run(["pdftotext", "-f", str(page), "-l", str(page), "-raw", pdf, "-"],
                          capture_output=True, text=True, check=True)
    return re.sub(r"\s+", " ", made.stdout)


def grey_of(pdf):
    """Mean brightness of the first page, 0 black to 1 white."""
    made = subprocess.run(["pdftoppm", "-gray", "-r", "20", "-f", "1", "-l", "1", pdf],
                          capture_output=True, check=True).stdout
    dots = made.split(b"\n", 3)[3]
    return sum(dots) / len(dots) / 255.0


def in_print(browser, name, path, seen, size):
    """seen: what the page says of itself on the screen."""
    pdf = os.path.join(FOLDER, "page.pdf")
    browser.open(path, 1280, dark=True, scripts=False)
    browser.pdf(pdf, *size)
    facts = subprocess.run(["pdfinfo", pdf], capture_output=True, text=True, check=True).stdout
    count = int(re.search(r"Pages:\s+(\d+)", facts)[1])
    pages = [words_of(pdf, page + 1) for page in range(count)]
    where = f"{name}, {size[0]} x {size[1]} in"
    check(one_line(seen["decision"]) in pages[0], where + ": page one is the decision",
          pages[0][:200])
    captions = [one_line(figure["caption"]) for figure in seen["figures"]]
    check(sum(caption in pages[0] for caption in captions) == 1, where + ": with one picture",
          pages[0])
    # The page that has a picture's title has every label of it. Bars and ticks of one figure stand
    # anywhere, longer ones do not.
    cut = []
    for caption, figure in zip(captions, seen["figures"]):
        there = [page for page in pages if caption in page]
        labels = {one_line(label) for label in figure["labels"] if len(label) > 3}
        if not there or not all(label in there[0] for label in labels):
            cut.append((caption, sorted(label for label in labels if label not in there[0])))
    check(not cut, where + ": no picture is cut", cut)
    folded = ["Every value, yours and defaults", "site.latitude"]
    check(all(any(words in page for page in pages) for words in folded),
          where + ": what is folded is printed")
    check(grey_of(pdf) > 0.85, where + ": black on white though the screen is dark", grey_of(pdf))
    print(f"# {where}: {count} pages")


HOUSE = "scenarios/alder-hollow.yaml"
AHEAD = ["--weather", "weather/alder-hollow-week.csv", "--history",
         "weather/alder-hollow-spring.csv", "--members", "20"]
# Every command that writes a page, over few days.
PAGES = {
    "nights": ["nights", HOUSE, "--from", "2026-03-10", "--to", "2026-03-15"],
    "effects": ["effects", HOUSE, "--from", "2026-03-12", "--to", "2026-03-14"],
    "forecast": ["forecast", HOUSE, *AHEAD],
    "tonight": ["tonight", HOUSE, *AHEAD, "--at", "2026-03-13T17:00"],
    "size": ["size", HOUSE, "--from", "2026-03-12", "--to", "2026-03-13", "--set",
             "start.spin_up=3 d", "--vary", "rock", "--goal", "2 C at air, never"],
    "setpoint": ["setpoint", HOUSE, "--from", "2026-03-12", "--to", "2026-03-14", "--set",
                 "start.spin_up=3 d", "--on-least", "16 C", "--on-most", "22 C", "--on-step",
                 "3 K", "--engine", "fast"],
    "worth": ["worth", HOUSE, "--from", "2026-03-12", "--to", "2026-03-13", "--set",
              "start.spin_up=3 d", "--engine", "fast"],
    "sweep": ["sweep", HOUSE, "--from", "2026-03-12", "--to", "2026-03-13", "--set",
              "start.spin_up=3 d", "--vary", "rock.mass=6 t..24 t/4", "--vary",
              "fan.on_at=22 C|30 C"],
    "compare": ["compare", "scenarios/alder-hollow-no-storage.yaml", HOUSE, "--from",
                "2026-03-12", "--to", "2026-03-14"],
}


def main():
    program = shutil.which("chromium")
    if program is None:
        policy = subprocess.run(["apt-cache", "policy", "chromium"], capture_output=True, text=True,
                                check=False).stdout
        had = re.search(r"Candidate: (?!\(none\))", policy)
        check(not had, "no browser: chromium cannot be had on this machine, nothing was looked at",
              "it can be had: install it")
        return
    browser = Browser(program)
    try:
        for name, arguments in PAGES.items():
            path, said = make(name, *arguments)
            seen = on_screen(browser, name, path, said)
            for size in (A4, LETTER) if name in ("nights", "forecast") else (A4,):
                in_print(browser, name, path, seen, size)
    finally:
        browser.close()


main()
sys.exit(1 if failed else 0)
