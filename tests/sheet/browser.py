"""Looks at sheets in a real browser: headless Chromium, driven by Selenium, both Debian's packages.

    python3 tests/sheet/browser.py PROGRAM FOLDER                  the sheets of all examples, a crowded and a hostile one
    python3 tests/sheet/browser.py PROGRAM FOLDER --pictures       and keeps pictures and PDFs of them in FOLDER
    python3 tests/sheet/browser.py PROGRAM FOLDER --self-test      spoils a sheet on purpose; each check has to see it

PROGRAM is voltwright; FOLDER is where sheets, and the axe-core script that npm fetches once, are kept. Of every sheet it is
checked that

  - the browser reports no error and the page asks for nothing beside itself;
  - on a phone (360 px), a desk (1000 px) and on paper nothing is wider than its place, no short word in a table is
    broken, no text in a drawing leaves the
    drawing or its box, covers another, or is lower than 9 px;
  - printed on A4 and Letter it has no more pages than promised, and every word of it is there;
  - axe-core finds nothing against accessibility, in light and in dark.
"""

import base64
import collections
import hashlib
import io
import json
import os
import pathlib
import shutil
import socket
import subprocess
import sys
import tarfile
import tempfile

TOP = pathlib.Path(__file__).resolve().parent.parent.parent
HERE = pathlib.Path(__file__).resolve().parent
SKIPPED = 77  # ctest: there was nothing to test with

AXE = "axe-core@4.10.2"
AXE_SHA512 = ("444de6750ecfdc54527bb7aa096a1e43f67d417aed9e24a3a75c148ede67442d"
              "d6229cf9ad20af7baa377ec676682a49b6b663499823c170284cee64e2d108d3")

# The promise: a sheet for the simplest profile fits six sides, those of the other examples seven.
PAGES = collections.defaultdict(lambda: 7, simplest=6)

PAPER = {"A4": (8.268, 11.693), "Letter": (8.5, 11.0)}
MARGINS = 2 * 12 / 25.4  # inches; @page of the sheet

GEOMETRY = r"""
const out = [], R = e => e.getBoundingClientRect(), short = s => s.length > 40 ? s.slice(0, 40) + '…' : s;
const root = document.documentElement;
if (root.scrollWidth > root.clientWidth + 1) out.push('page wider than the window: ' + root.scrollWidth + ' of ' + root.clientWidth);
let drawings = 0;
for (const svg of document.querySelectorAll('svg')) {
  const box = R(svg);
  if (box.width === 0) continue;
  ++drawings;
  const scale = box.width / svg.viewBox.baseVal.width;
  const texts = [...svg.querySelectorAll('text')].map(t => [t, R(t)]);
  for (const [t, b] of texts) {
    const s = short(t.textContent);
    if (b.left < box.left - .5 || b.right > box.right + .5 || b.top < box.top - .5 || b.bottom > box.bottom + .5)
      out.push('outside its drawing: ' + s);
    if (parseFloat(getComputedStyle(t).fontSize) * scale < 9) out.push('lower than 9 px: ' + s);
    if (t.dataset.in) {
      const frame = document.getElementById(t.dataset.in), f = frame && R(frame);
      if (!f) out.push('no such box: ' + t.dataset.in);
      else if (b.left < f.left - .5 || b.right > f.right + .5 || b.top < f.top - .5 || b.bottom > f.bottom + .5)
        out.push('outside its box: ' + s);
    }
  }
  for (const frame of svg.querySelectorAll('rect[id]')) for (const [t, b] of texts) {
    const f = R(frame);
    if (t.dataset.in !== frame.id && Math.min(b.right, f.right) - Math.max(b.left, f.left) > 1
        && Math.min(b.bottom, f.bottom) - Math.max(b.top, f.top) > 1)
      out.push('runs into a box: ' + short(t.textContent));
  }
  for (let i = 0; i < texts.length; ++i) for (let j = i + 1; j < texts.length; ++j) {
    const a = texts[i][1], b = texts[j][1];
    if (Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1 && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 2)
      out.push('overlap: ' + short(texts[i][0].textContent) + ' / ' + short(texts[j][0].textContent));
  }
}
if (drawings === 0) out.push('no drawing is shown');
for (const e of document.querySelectorAll('td, th, caption, li, p, h1, h2, h3, dd, dt, figcaption'))
  if (e.clientWidth > 0 && e.scrollWidth > e.clientWidth + 1)
    out.push('overflows: ' + e.tagName.toLowerCase() + ' ' + short(e.textContent));
for (const cell of document.querySelectorAll('td, th')) {
  const texts = document.createTreeWalker(cell, NodeFilter.SHOW_TEXT);
  while (texts.nextNode()) {
    const data = texts.currentNode.data;
    for (const word of data.matchAll(/(?<!\S)[!-,.-~\u00c0-\u024f]{2,14}(?!\S)/g)) {
      const range = document.createRange();
      range.setStart(texts.currentNode, word.index);
      range.setEnd(texts.currentNode, word.index + word[0].length);
      if (new Set([...range.getClientRects()].map(r => Math.round(r.top))).size > 1) out.push('broken word: ' + word[0]);
    }
  }
}
return out;
"""

AXE_RUN = """
const done = arguments[arguments.length - 1];
axe.run(document).then(r => done(r.violations.map(v => 'axe ' + v.id + ': ' + v.nodes[0].html.slice(0, 90))),
                       e => done(['axe failed: ' + e]));
"""

WORDS = r"""
const words = new Set();
for (const e of document.querySelectorAll('h1, h2, h3, p, li, td, th, caption, dd, dt, figcaption, svg text')) {
  if (e.getClientRects().length === 0) continue;
  for (const w of e.textContent.split(/\s+/)) if (w) words.add(w);
}
return [...words];
"""


def fail(words):
    print("sheet: " + words)
    sys.exit(1)


def skip(words):
    """Ends for want of something to test with, which continuous integration has to have."""
    print("sheet: " + words)
    sys.exit(1 if os.environ.get("CI") else SKIPPED)


def fetch_axe(archive):
    """Has the package client fetch axe-core, by the machine's own settings."""
    npm = shutil.which("npm") or skip("npm is missing, by which axe-core comes (sh tests/setup.sh build test): "
                                      "no sheet is looked at")
    with tempfile.TemporaryDirectory(dir=archive.parent) as beside:
        try:
            packed = subprocess.run([npm, "pack", AXE, "--loglevel=error", "--fetch-retries=0"], cwd=beside, timeout=120,
                                    capture_output=True, text=True, stdin=subprocess.DEVNULL)
            trouble = (packed.stderr.strip().splitlines() or ["no reason given"])[0] if packed.returncode else ""
        except subprocess.TimeoutExpired:
            trouble = "no answer in two minutes"
        fetched = sorted(pathlib.Path(beside).glob("*.tgz"))
        if trouble or not fetched:
            skip(f"npm could not fetch {AXE} ({trouble or 'no file came'}): no sheet is looked at")
        fetched[0].rename(archive)


def axe_source(folder):
    """The script of axe-core, fetched once, held against its hash every time."""
    archive = folder / "axe-core.tgz"
    if not archive.exists():
        fetch_axe(archive)
    data = archive.read_bytes()
    if hashlib.sha512(data).hexdigest() != AXE_SHA512:
        archive.unlink()
        fail("what was fetched as axe-core is not what was expected; it was thrown away")
    with tarfile.open(fileobj=io.BytesIO(data)) as files:
        return files.extractfile("package/axe.min.js").read().decode()


class Browser:
    def __init__(self, folder):
        try:
            from selenium import webdriver
            from selenium.webdriver.chrome.service import Service
        except ImportError:
            fail("python3-selenium is missing: sh tests/setup.sh build test")
        options = webdriver.ChromeOptions()
        options.binary_location = shutil.which("chromium") or fail("chromium is missing: sh tests/setup.sh build test")
        for word in ("--headless=new", "--disable-gpu", "--hide-scrollbars", "--disable-dev-shm-usage",
                     "--disable-background-networking", "--no-first-run", f"--user-data-dir={folder}"):
            options.add_argument(word)
        if os.geteuid() == 0:
            options.add_argument("--no-sandbox")
        options.set_capability("goog:loggingPrefs", {"performance": "ALL", "browser": "ALL"})
        driver = shutil.which("chromedriver") or fail("chromium-driver is missing: sh tests/setup.sh build test")
        self.driver = webdriver.Chrome(options=options, service=Service(driver))
        self.driver.set_script_timeout(60)

    def view(self, width, media="screen", scheme="light"):
        self.driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride",
                                    {"width": width, "height": 900, "deviceScaleFactor": 1, "mobile": False})
        self.driver.execute_cdp_cmd("Emulation.setEmulatedMedia",
                                    {"media": media, "features": [{"name": "prefers-color-scheme", "value": scheme}]})

    def open(self, path):
        """Opens a file. Answers what went wrong: errors of the page, and what it asked for beside itself."""
        for kind in ("browser", "performance"):
            self.driver.get_log(kind)
        self.driver.get(path.as_uri())
        found = [f"console: {entry['message'][:120]}" for entry in self.driver.get_log("browser")]
        for entry in self.driver.get_log("performance"):
            message = json.loads(entry["message"])["message"]
            if message["method"] == "Network.requestWillBeSent":
                url = message["params"]["request"]["url"]
                # The browser's own first page may still be at work; a file cannot ask for chrome://.
                if url != path.as_uri() and not url.startswith("chrome://"):
                    found.append(f"asks for {url[:90]}")
        return found

    def pdf(self, paper):
        width, height = PAPER[paper]
        answer = self.driver.execute_cdp_cmd("Page.printToPDF", {"paperWidth": width, "paperHeight": height,
                                                                 "preferCSSPageSize": False})
        return base64.b64decode(answer["data"])

    def picture(self):
        answer = self.driver.execute_cdp_cmd("Page.captureScreenshot", {"captureBeyondViewport": True})
        return base64.b64decode(answer["data"])


def pages_and_text(pdf):
    with tempfile.NamedTemporaryFile(suffix=".pdf") as file:
        file.write(pdf)
        file.flush()
        facts = subprocess.run(["pdfinfo", file.name], capture_output=True, text=True, check=True).stdout
        text = subprocess.run(["pdftotext", "-raw", file.name, "-"], capture_output=True, text=True, check=True).stdout
    return int(next(line for line in facts.splitlines() if line.startswith("Pages:")).split()[1]), text


def look(browser, axe, path, pages=None, words=True, pictures=None):
    """Everything that is wrong with one sheet."""
    browser.view(1000)
    found = browser.open(path)

    def at(place, list_of_faults):
        found.extend(f"{place}: {fault}" for fault in list_of_faults)

    paper_width = int((PAPER["A4"][0] - MARGINS) * 96)
    browser.driver.execute_script(axe)
    for place, width, media, scheme in (("phone", 360, "screen", "light"), ("desk, dark", 1000, "screen", "dark"),
                                        ("desk", 1000, "screen", "light"), ("paper", paper_width, "print", "light")):
        browser.view(width, media, scheme)
        at(place, browser.driver.execute_script(GEOMETRY))
        if place in ("phone", "desk, dark"):
            at(place, browser.driver.execute_async_script(AXE_RUN))
        if pictures:
            (pictures / f"{path.stem}-{place.replace(', ', '-')}.png").write_bytes(browser.picture())
    wanted = browser.driver.execute_script(WORDS) if words else []
    browser.view(1000, media="")
    for paper in PAPER:
        pdf = browser.pdf(paper)
        if pictures:
            (pictures / f"{path.stem}-{paper}.pdf").write_bytes(pdf)
        count, text = pages_and_text(pdf)
        if pages and count > pages:
            at(paper, [f"{count} pages, at most {pages} are promised"])
        together = "".join(text.split())
        at(paper, [f"not on paper: {word}" for word in wanted if word not in together])
    return found


def make_sheet(program, profile, path):
    done = subprocess.run([program, "sheet", str(profile), "-o", str(path), "--force"], capture_output=True, text=True,
                          check=False)
    if done.returncode != 0:
        fail(f"no sheet of {profile.name}: {done.stderr.strip()}")


def crowded():
    """A profile with more than fits on one drawing: forty loads, and fuse blocks behind each other."""
    text = (TOP / "examples" / "profiles" / "simplest.toml").read_text(encoding="utf-8").replace("days   = 3", "days = 60")
    before = "battery"
    for number in range(1, 13):
        text += f'\n[[run]]\nfrom = "{before}"\nto = "block {number}"\nlength = "0.3 m"\n'
        before = f"block {number}"
    for number in range(1, 41):
        place = "battery" if number % 4 else f"block {number % 13 or 12}"
        text += (f'\n[[run]]\nfrom = "{place}"\nto = "lamp {number}"\nlength = "2 m"\n'
                 f'\n[[load]]\nname = "lamp {number}"\ndraw = "2 W"\nhours = "20:00-21:00"\n')
    return text


def check_all(browser, axe, program, folder, pictures):
    wrong = 0
    (folder / "crowded.toml").write_text(crowded(), encoding="utf-8")
    examples = sorted((TOP / "examples" / "profiles").glob("*.toml"))
    profiles = examples + [folder / "crowded.toml", HERE / "hostile.toml"]
    for profile in profiles:
        path = folder / (profile.stem + ".html")
        make_sheet(program, profile, path)
        # Words without end are broken anywhere, so they cannot be looked for on paper.
        found = look(browser, axe, path, PAGES[profile.stem] if profile in examples else None,
                     profile.stem != "hostile", pictures)
        for fault in found:
            print(f"{profile.stem}: {fault}")
        wrong += len(found)
    print(f"{len(profiles)} sheets, {wrong} faults")
    return 0 if wrong == 0 else 1


SPOILT = (  # what is done to a sheet, and the beginning of what has to be said of it
    ("pale letters", "</style>", "p,li{color:#bbb!important;background:#fff!important}</style>", "axe color-contrast"),
    ("no language", '<html lang="en">', "<html>", "axe html-has-lang"),
    ("two texts in one place", "</svg>", '<text x="20" y="60">one</text><text x="22" y="62">two</text></svg>',
     "overlap: one / two"),
    ("a text beside the drawing", "</svg>", '<text x="2000" y="60">far</text></svg>', "outside its drawing: far"),
    ("a text too large for its box", "</svg>",
     '<rect id="small" x="10" y="10" width="20" height="20"/><text x="10" y="26" data-in="small">a long name</text></svg>',
     "outside its box: a long name"),
    ("a text across a box of others", "</svg>",
     '<rect id="other" x="10" y="10" width="20" height="20"/><text x="10" y="36">beside</text></svg>',
     "runs into a box: beside"),
    ("small print", "</style>", "svg text{font-size:6px}</style>", "lower than 9 px"),
    ("something from outside", "</main>", '<img alt="" src="http://127.0.0.1:9/x.png"></main>', "asks for http://127"),
    ("a wide table", "</main>", '<table style="width:3000px"><tr><td>wide</td></tr></table></main>',
     "page wider than the window"),
    ("a word too long for its cell", "</main>",
     '<p style="width:50px;overflow-wrap:normal">immeasurably-long-for-its-place</p></main>', "overflows: p"),
    ("a cell too narrow for its words", "</main>",
     '<table style="width:2rem"><tr><td>resistance</td></tr></table></main>',
     "broken word: resistance"),
    ("an error of a script", "</main>", "<script>nothing()</script></main>", "console: "),
    ("words that do not reach the paper", "</style>", "@media print{footer{position:absolute;left:5000px}}</style>",
     "not on paper"),
    ("too many pages", "</main>", '<div style="height:9000px"></div></main>', "pages, at most"),
)


def self_test(browser, axe, program, folder):
    sound = folder / "sound.html"
    make_sheet(program, TOP / "examples" / "profiles" / "simplest.toml", sound)
    html = sound.read_text(encoding="utf-8")
    missed = 0
    for number, (what, old, new, expected) in enumerate(SPOILT):
        if old not in html:
            fail(f"{what}: there is no {old} to spoil")
        path = folder / f"spoilt-{number}.html"
        path.write_text(html.replace(old, new, 1), encoding="utf-8")
        found = look(browser, axe, path, PAGES["simplest"])
        if not any(expected in fault for fault in found):
            print(f"not noticed: {what}; found was {found}")
            missed += 1
    print(f"{len(SPOILT)} spoilt sheets, {missed} not noticed")
    return 0 if missed == 0 else 1


def main(words):
    flags = [word for word in words if word.startswith("--")]
    words = [word for word in words if not word.startswith("--")]
    if len(words) != 2:
        print(__doc__)
        return 2
    program, folder = pathlib.Path(words[0]).resolve(), pathlib.Path(words[1]).resolve()
    folder.mkdir(parents=True, exist_ok=True)
    try:
        socket.gethostbyname("localhost")
    except OSError:
        print("nobody here knows localhost, by which browser and driver find each other: no sheet is looked at")
        return SKIPPED
    axe = axe_source(folder)
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as user:
        browser = Browser(user)
        try:
            if "--self-test" in flags:
                return self_test(browser, axe, program, folder)
            return check_all(browser, axe, program, folder, folder if "--pictures" in flags else None)
        finally:
            browser.driver.quit()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
