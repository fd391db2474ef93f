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
    """Writes a page; its path and the first line of the text report."""
    path = os.path.join(FOLDER, name + ".html")
    made = subprocess.run([DAWNLOW, *arguments, "--html", path], capture_output=True, text=True,
                          check=True)
    return path, made.stdout.splitlines()[0]


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
  return {scroll: root.scrollWidth, window: root.clientWidth, outside, covering, smallest,
          charts: document.querySelectorAll('svg').length,
          decision: document.getElementById('decision').textContent,
          light: paper.reduce((a, b) => a + b) / 765,
          load: performance.getEntriesByType('navigation')[0].loadEventStart};
})()"""


def on_screen(browser, name, path, decision):
    for width in (360, 1280):
        for dark in (False, True):
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
            check(seen["decision"] == decision, where + ": the text's decision", seen["decision"])
    print(f"# {name}: {os.path.getsize(path)} bytes, {seen['charts']} pictures, "
          f"loaded in {seen['load']:.0f} ms")


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


def in_print(browser, name, path, decision, size, top, feet, behind):
    """top: what stands at the head of every picture, feet: what may stand at its foot; behind: a
    number that is folded away on the screen."""
    pdf = os.path.join(FOLDER, "page.pdf")
    browser.open(path, 1280, dark=True, scripts=False)
    browser.pdf(pdf, *size)
    facts = subprocess.run(["pdfinfo", pdf], capture_output=True, text=True, check=True).stdout
    count = int(re.search(r"Pages:\s+(\d+)", facts)[1])
    pages = [words_of(pdf, page + 1) for page in range(count)]
    where = f"{name}, {size[0]} x {size[1]} in"
    check(decision in pages[0], where + ": page one is the decision", pages[0][:200])
    check(pages[0].count(top) == 1, where + ": with one picture", pages[0].count(top))
    # The tables of numbers at the end speak of axes too.
    last = next(i for i, page in enumerate(pages) if "The numbers behind the pictures" in page)
    cut = [i + 1 for i, page in enumerate(pages[:last])
           if page.count(top) != sum(page.count(foot) for foot in feet)
           or ("given back (+)" in page) != ("sunlight" in page)]
    check(not cut, where + ": no picture is cut", f"pages {cut}")
    check(any(behind in page for page in pages), where + ": folded numbers are printed")
    check(grey_of(pdf) > 0.85, where + ": black on white though the screen is dark", grey_of(pdf))
    print(f"# {where}: {count} pages")


def main():
    program = shutil.which("chromium")
    if program is None:
        policy = subprocess.run(["apt-cache", "policy", "chromium"], capture_output=True, text=True,
                                check=False).stdout
        had = re.search(r"Candidate: (?!\(none\))", policy)
        check(not had, "no browser: chromium cannot be had on this machine, nothing was looked at",
              "it can be had: install it")
        return
    nights, said = make("nights", "nights", "scenarios/alder-hollow.yaml", "--from", "2026-03-10",
                        "--to", "2026-03-15")
    effects, first = make("effects", "effects", "scenarios/alder-hollow.yaml", "--from",
                          "2026-03-12", "--to", "2026-03-14")
    browser = Browser(program)
    try:
        on_screen(browser, "nights", nights, said)
        on_screen(browser, "effects", effects, first)
        in_print(browser, "nights", nights, said, A4, "temperature (C)",
                 ("o'clock, UTC", "evening"), "12:30")
        in_print(browser, "nights", nights, said, LETTER, "temperature (C)",
                 ("o'clock, UTC", "evening"), "12:30")
    finally:
        browser.close()


main()
sys.exit(1 if failed else 0)
