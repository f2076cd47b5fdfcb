#!/usr/bin/python3
"""Drives the pages in Debian's Chromium, as a maker would: from an empty folder to a journal sold
at a fair without a connection, on a desk and on a phone. Ends with "N passed, N failed".

    run.py BARROW [FOLDER]     BARROW: the program; FOLDER: keeps a picture of every room in it

Needs chromium, chromium-driver and python3-selenium, which tests/run installs.
"""
import json
import os
import pathlib
import subprocess
import sys
import tempfile
import time

from selenium import webdriver
from selenium.common.exceptions import StaleElementReferenceException
from selenium.webdriver.chrome.options import Options
from selenium.webdriver.chrome.service import Service
from selenium.webdriver.common.by import By

BARROW = sys.argv[1]
PICTURES = pathlib.Path(sys.argv[2]) if len(sys.argv) > 2 else None
ROOMS = {"today": "/", "stock": "/stock", "material": "/stock/material/MOSS", "new": "/stock/new",
         "offcuts": "/stock/offcuts", "count": "/stock/count", "designs": "/designs",
         "desk": "/designs/leaf?make=4", "bench": "/bench", "batch": "/bench/batch/1",
         "stall": "/stall", "fair": "/stall/fair/1", "journal": "/stall/journal/1-01",
         "buying": "/buying", "books": "/books", "entry": "/books/entry/1",
         "settings": "/books/settings", "year": "/books/year", "copies": "/books/copies"}
LEAF = """[design]
code = "leaf"
name = "Leaf"

[parameters]
side = { usual = "100 mm", about = "side of the leaf", least = "50 mm", most = "150 mm" }

[materials]
paper = "MOSS"

[[part]]
name = "leaf"
material = "paper"
width = "side"
height = "side"

[[operation]]
name = "cutting"
minutes = 5
"""

passed = failed = 0


def check(what, true, more=""):
    global passed, failed
    if true:
        passed += 1
    else:
        failed += 1
        print(f"failed: {what} {more}")


def steady(read):
    """What `read` gives, read again while the page replaces what is being read."""
    for _ in range(50):
        try:
            return read()
        except StaleElementReferenceException:
            time.sleep(0.02)
    return read()


class Shop:
    """A shop whose pages are served while it lives."""

    def __init__(self, folder):
        self.file = str(pathlib.Path(folder) / "shop.db")
        self.environment = dict(os.environ, BARROW_SHOP=self.file, BARROW_TODAY="2027-05-01")
        self.start()

    def start(self, port=None):
        words = [BARROW, "open", "--no-browser"] + (["--port", str(port)] if port else [])
        self.served = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL,
                                       env=self.environment, text=True)
        self.address = self.served.stdout.readline().strip()
        self.port = int(self.address.split(":")[2].split("/")[0])
        self.root = f"http://127.0.0.1:{self.port}"

    def stop(self):
        self.served.terminate()
        return self.served.wait(timeout=10)

    def says(self, *words):
        return subprocess.run([BARROW, *words], env=self.environment, capture_output=True, text=True)


def browser(width, height, dark=False):
    options = Options()
    options.binary_location = "/usr/bin/chromium"
    for word in ("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage",
                 "--force-color-profile=srgb"):
        options.add_argument(word)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL"})
    driver = webdriver.Chrome(service=Service("/usr/bin/chromedriver"), options=options)
    driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride",
                           {"width": width, "height": height, "deviceScaleFactor": 1,
                            "mobile": width < 500})
    if dark:
        driver.execute_cdp_cmd("Emulation.setEmulatedMedia",
                               {"features": [{"name": "prefers-color-scheme", "value": "dark"}]})
    return driver


class Maker:
    """Someone at the pages; counts what she fills in and clicks."""

    def __init__(self, driver, shop):
        self.driver, self.shop, self.moves = driver, shop, 0

    def opens(self, path):
        self.driver.get(path if path.startswith("http") else self.shop.root + path)

    def form(self, action):
        return self.driver.find_element(By.CSS_SELECTOR, f"form[action='{action}']")

    def fills(self, action, **fields):
        for name, value in fields.items():
            field = self.form(action).find_element(By.NAME, name.replace("__", "."))
            self.moves += 1
            if field.tag_name == "select":
                field.find_element(By.CSS_SELECTOR, f"option[value='{value}']").click()
            elif field.get_attribute("type") == "date" or field.tag_name == "textarea":
                self.driver.execute_script("arguments[0].value = arguments[1]", field, value)
            else:
                field.clear()
                field.send_keys(value)
        self.moves += 1
        self.driver.execute_script("window.before = true")
        self.form(action).find_element(By.CSS_SELECTOR, "button").click()
        end = time.monotonic() + 20
        while time.monotonic() < end:
            try:
                if self.driver.execute_script(
                        "return !window.before && document.readyState === 'complete'"):
                    return
            except Exception:  # between two pages
                pass
            time.sleep(0.02)
        raise RuntimeError(f"{action} led to no page")

    def text(self):
        return steady(lambda: self.driver.find_element(By.TAG_NAME, "body").text)

    def complaints(self):
        return [line["message"] for line in self.driver.get_log("browser")
                if line["level"] in ("SEVERE", "WARNING")]


def unnamed(driver):
    """Controls without a name for those who do not see them."""
    return driver.execute_script("""
        return [...document.querySelectorAll("input:not([type=hidden]), select, textarea, button, a")]
          .filter((one) => !(one.getAttribute("aria-label") || (one.labels && one.labels.length)
                             || one.textContent.trim()))
          .map((one) => one.outerHTML.slice(0, 120));""")


def too_wide(driver):
    return driver.execute_script(
        "return document.documentElement.scrollWidth - document.documentElement.clientWidth")


# Contrast as WCAG 2.2 computes it (relative luminance, success criterion 1.4.3).
CONTRAST = """
  const channel = (c) => { c /= 255; return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4; };
  const light = ([r, g, b]) => 0.2126 * channel(r) + 0.7152 * channel(g) + 0.0722 * channel(b);
  const colour = (text) => text.match(/[0-9.]+/g).map(Number);
  const ground = (one) => {
    for (; one; one = one.parentElement) {
      const c = colour(getComputedStyle(one).backgroundColor);
      if (c.length < 4 || c[3] > 0) return c;
    }
    return [255, 255, 255];
  };
  const bad = [];
  for (const one of document.querySelectorAll("body *")) {
    if (one.closest("svg") || ![...one.childNodes].some((n) => n.nodeType === 3 && n.textContent.trim())) continue;
    if (!one.offsetParent) continue;
    const style = getComputedStyle(one);
    const a = light(colour(style.color)), b = light(ground(one));
    const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    const large = parseFloat(style.fontSize) >= 24
      || (parseFloat(style.fontSize) >= 18.66 && parseInt(style.fontWeight) >= 700);
    if (ratio < (large ? 3 : 4.5)) bad.push(one.tagName + " " + ratio.toFixed(2) + " " + one.textContent.slice(0, 40));
  }
  return bad;"""


def look_at_rooms(maker, name):
    for room, path in ROOMS.items():
        maker.opens(path)
        check(f"{name} {room}: has a heading", maker.driver.find_elements(By.TAG_NAME, "h1"))
        check(f"{name} {room}: every control has a name", not unnamed(maker.driver),
              unnamed(maker.driver))
        check(f"{name} {room}: fits the width", too_wide(maker.driver) <= 0, too_wide(maker.driver))
        bad = maker.driver.execute_script(CONTRAST)
        check(f"{name} {room}: contrast of text", not bad, bad[:3])
        if PICTURES:
            height = maker.driver.execute_script("return document.documentElement.scrollHeight")
            shot = maker.driver.execute_cdp_cmd("Page.captureScreenshot", {
                "captureBeyondViewport": True,
                "clip": {"x": 0, "y": 0, "scale": 1, "height": min(height, 3000),
                         "width": maker.driver.execute_script("return innerWidth")}})
            import base64
            PICTURES.mkdir(parents=True, exist_ok=True)
            (PICTURES / f"{name}-{room}.png").write_bytes(base64.b64decode(shot["data"]))
    check(f"{name}: nothing to complain of on the console", not maker.complaints(),
          maker.complaints())


def make_a_journal(maker):
    maker.opens(maker.shop.address)
    check("an empty folder begins a shop", "A new shop" in maker.text())
    maker.fills("/begin", **{"hourly-rate": "12", "maker": "Wren Aldous"})
    maker.opens("/stock")
    maker.fills("/stock/buy", name="Moss", comes="sheet", size="300mm x 200mm", pack="10",
                paid="5.00", code="MOSS")
    check("what came is booked", "Booked: 10 sheets of MOSS for 5.00 GBP." in maker.text())
    maker.opens("/designs")
    maker.fills("/designs", base="wire", code="leaf", name="Leaf")
    maker.opens("/designs/leaf/text")
    maker.fills("/designs/leaf/text", text=LEAF)
    maker.opens("/designs/leaf?make=4")
    check("the desk shows a price", "Ask" in maker.text())


def wait_for(what, true, seconds=8):
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if true():
            return check(what, True)
        time.sleep(0.05)
    check(what, False)


def drag(maker):
    price = lambda: steady(lambda: maker.driver.find_element(By.CSS_SELECTOR, ".figures").text)
    before = price()
    maker.driver.execute_script("""
        const slider = document.querySelector("#desk input[type=range][aria-label^=side]");
        slider.value = 150; slider.dispatchEvent(new Event("input", { bubbles: true }));""")
    wait_for("price moves with the slider", lambda: price() != before)
    check("the number moves with the slider",
          maker.driver.find_element(By.NAME, "set.side").get_attribute("value") == "150 mm")
    maker.opens("/designs/leaf?make=4")


def batch(maker):
    maker.fills("/designs/leaf/plan")
    maker.fills("/bench/batch/1/cut")
    maker.fills("/bench/batch/1/finish")
    check("four journals are made", "4 journals are finished." in maker.text())


def sell_offline(maker):
    driver, shop = maker.driver, maker.shop
    maker.opens("/stall")
    maker.fills("/stall", name="Spring fair", on="2027-05-01", fee="5")
    maker.fills("/stall/fair/1/take", take__leaf="4")
    check("on the fair's page", "Spring fair" in maker.text())
    sell = lambda serial: steady(lambda: driver.find_element(
        By.CSS_SELECTOR, f"form[data-sale='{serial}'] button").click())
    fair = lambda: json.loads(shop.says("fair", "show", "1", "--json").stdout)
    takings = lambda: fair()["takings"]

    # Cut off by the browser's own tools.
    driver.execute_cdp_cmd("Network.enable", {})
    offline = {"offline": True, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1}
    driver.execute_cdp_cmd("Network.emulateNetworkConditions", offline)
    sell("1-01")
    sell("1-02")
    wait_for("sales wait on this device", lambda: "Not yet in the book: 2 sales." in maker.text())
    check("nothing is booked yet", takings() == "0.00", takings())
    driver.execute_cdp_cmd("Network.emulateNetworkConditions", dict(offline, offline=False))
    wait_for("they are booked once there is a connection", lambda: fair()["sold"] == 2, 30)
    wait_for("nothing waits any more", lambda: "Not yet in the book" not in maker.text())
    once = takings()

    # The shop is closed in between, and opened again at the same port.
    shop.stop()
    wait_for("the page is still there", lambda: driver.find_elements(By.ID, "waiting"))
    sell("1-03")
    wait_for("a sale waits", lambda: "Not yet in the book: 1 sale." in maker.text())
    shop.start(shop.port)
    # Each start has an address of its own; what waits stays on the device.
    maker.opens(shop.address)
    try:
        driver.switch_to.alert.accept()
    except Exception:  # no question was asked
        pass
    maker.opens(shop.address)
    maker.opens("/stall/fair/1")
    wait_for("the sale is booked after all", lambda: takings() != once, 30)
    time.sleep(0.5)
    sold = fair()["sold"]
    check("three journals were sold, each once", sold == 3, sold)
    maker.complaints()  # what the lost connection said on the console


def sound(shop):
    value = json.loads(shop.says("value", "--json").stdout)
    check("every penny is accounted for", value["difference"] == "0.00", value)
    check("the book is sound", shop.says("check").returncode == 0)


def whole_way(width, height, name):
    with tempfile.TemporaryDirectory() as folder:
        shop = Shop(folder)
        driver = browser(width, height)
        try:
            maker = Maker(driver, shop)
            make_a_journal(maker)
            drag(maker)
            batch(maker)
            check(f"{name}: nothing to complain of", not maker.complaints(), maker.complaints())
            sell_offline(maker)
            sound(shop)
            look_at_rooms(maker, name)
            driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {
                "features": [{"name": "prefers-color-scheme", "value": "dark"}]})
            look_at_rooms(maker, name + "-dark")
        finally:
            driver.quit()
            check(f"{name}: it ends with exit code 0", shop.stop() == 0)


for size in ((1280, 900, "desk"), (360, 740, "phone")):
    try:
        whole_way(*size)
    except Exception as error:  # a step that cannot be taken is a failure, and the next size is tried
        check(size[2], False, repr(error)[:600])
print(f"{passed} passed, {failed} failed")
sys.exit(0 if failed == 0 and passed > 0 else 1)
