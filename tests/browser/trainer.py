"""A trainer before a real browser. In: the desk's address, how wide the screen is, whether scripts
run. Out: `Trainer`, who opens, fills in and presses; each page that comes is looked at: it does not
scroll sideways, and axe-core (WCAG 2.2) finds nothing serious."""

from __future__ import annotations

import base64
import os
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from selenium import webdriver
from selenium.common.exceptions import WebDriverException
from selenium.webdriver.common.by import By
from selenium.webdriver.remote.webelement import WebElement
from selenium.webdriver.support.wait import WebDriverWait

PATIENCE_S = 30
FLAGS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
    "--hide-scrollbars",
)  # fmt: skip
SERIOUS = """
const done = arguments[0];
axe.run({resultTypes: ["violations"]}).then(found => done(found.violations
  .filter(one => one.impact === "serious" || one.impact === "critical")
  .map(one => one.id + ": " + one.nodes[0].html)));
"""
TALLEST = 6000  # pixels of a picture


@dataclass(frozen=True, slots=True)
class Screen:
    """name: of the pictures; width: pixels; scripts: whether the browser runs any."""

    name: str
    width: int
    scripts: bool = True


@dataclass
class Trainer:
    """Somebody before a browser."""

    driver: webdriver.Chrome
    address: str
    screen: Screen
    files: Path
    shots: Path | None
    _seen: set[str] = field(default_factory=set)

    def open(self, path: str) -> None:
        """Go to a page of the desk: "/visits"."""
        self.driver.get(self.address + path)
        self.look()

    def fill(self, name: str, text: str) -> None:
        """Type into the field of that name, whatever stood there before."""
        found = self.driver.find_element(By.NAME, name)
        if found.get_attribute("type") != "file":
            found.clear()
        found.send_keys(text)

    def choose(self, name: str, value: str) -> None:
        """One of several, by its value."""
        self.driver.find_element(
            By.CSS_SELECTOR, f'[name="{name}"][value="{value}"], [name="{name}"] [value="{value}"]'
        ).click()

    def press(self, words: str) -> None:
        """Press the button with these words; the next page comes."""
        self._go(self.driver.find_element(By.XPATH, f'//button[starts-with(., "{words}")]'))

    def follow(self, words: str) -> None:
        """Follow the first link that begins with these words."""
        self._go(self.driver.find_element(By.XPATH, f'//a[starts-with(., "{words}")]'))

    def take(self, words: str) -> Path:
        """Press a button that hands a file out; the file as it was kept."""
        before = set(self.files.iterdir())
        self.driver.find_element(By.XPATH, f'//button[starts-with(., "{words}")]').click()

        def arrived(_: object) -> Path | None:
            new = set(self.files.iterdir()) - before
            whole = [one for one in new if one.suffix in (".xlsx", ".csv")]
            return whole[0] if whole else None

        found = WebDriverWait(self.driver, PATIENCE_S).until(arrived)
        assert found is not None
        return found

    @property
    def words(self) -> str:
        """What stands on the page, as one line."""
        return " ".join(self.driver.find_element(By.TAG_NAME, "body").text.split())

    @property
    def title(self) -> str:
        """The heading of the page."""
        return self.driver.find_element(By.TAG_NAME, "h1").text

    def all(self, selector: str) -> list[WebElement]:
        """What a CSS selector finds, in order."""
        return self.driver.find_elements(By.CSS_SELECTOR, selector)

    def _go(self, element: WebElement) -> None:
        page = self.driver.find_element(By.TAG_NAME, "html")
        element.click()
        wait = WebDriverWait(self.driver, PATIENCE_S, ignored_exceptions=[WebDriverException])
        wait.until(lambda driver: driver.find_element(By.TAG_NAME, "html") != page)
        self.look()

    def look(self) -> None:
        """At each kind of page once, and always at its width."""
        path = self.driver.current_url.removeprefix(self.address).partition("#")[0]
        size = self.driver.execute_cdp_cmd("Page.getLayoutMetrics", {})["cssContentSize"]
        assert size["width"] <= self.screen.width, f"{path} scrolls sideways: {size}"
        kind = re.sub(r"\W+", "-", re.sub(r"\d+", "n", f"{path} {self.title}")).strip("-")
        if kind in self._seen:
            return
        self._seen.add(kind)
        self._picture(kind, size["height"])
        if self.screen.scripts:
            assert serious(self.driver) == [], path

    def _picture(self, kind: str, height: int) -> None:
        if self.shots is None:
            return
        clip = {
            "x": 0,
            "y": 0,
            "width": self.screen.width,
            "height": min(height, TALLEST),
            "scale": 1,
        }
        shot = {"format": "png", "captureBeyondViewport": True, "clip": clip}
        data = self.driver.execute_cdp_cmd("Page.captureScreenshot", shot)["data"]
        (self.shots / f"{self.screen.name}-{kind[:60]}.png").write_bytes(base64.b64decode(data))


def serious(driver: webdriver.Chrome) -> list[str]:
    """What axe-core finds on the page that is serious or critical."""
    driver.execute_script(Path(os.environ["BROWSER_AXE"]).read_text())
    found: list[str] = driver.execute_async_script(SERIOUS)
    return found


@contextmanager
def browser(folder: Path) -> Iterator[webdriver.Chrome]:
    """Debian's Chromium on a profile of its own; what it takes down lies in folder/files."""
    options = webdriver.ChromeOptions()
    options.binary_location = "/usr/bin/chromium"
    for flag in (*FLAGS, f"--user-data-dir={folder / 'profile'}"):
        options.add_argument(flag)
    files = folder / "files"
    files.mkdir()
    options.add_experimental_option("prefs", {"download.default_directory": str(files)})
    driver = webdriver.Chrome(options, webdriver.ChromeService("/usr/bin/chromedriver"))
    try:
        driver.set_script_timeout(PATIENCE_S)
        yield driver
    finally:
        driver.quit()


def look_on(driver: webdriver.Chrome, screen: Screen) -> None:
    """From here on pages are seen on this screen."""
    size = {"width": screen.width, "height": 800, "deviceScaleFactor": 1, "mobile": False}
    driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", size)
    driver.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": not screen.scripts})
