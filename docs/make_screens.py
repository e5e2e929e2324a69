"""Make the screens of the docs: ``./do screens``.

Each page of the kitchen screen is drawn by Chromium from the invented household of the tests, as a
phone shows it and as a laptop does, and kept with a palette of 256 colors. ``--dark`` draws them in
the dark, ``--out`` puts them elsewhere: to be looked at, not kept.
"""

import argparse
import base64
import struct
import sys
import tempfile
import zlib
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from playwright.sync_api import Page

from tests.browser.opening import DESKTOP, PHONE, Watch, Windows, browser
from tests.browser.serving import served
from tests.household import HOUSEHOLD, NOW, filled

PICTURES = Path(__file__).parent / "pictures"
SIZES = {"phone": PHONE, "laptop": DESKTOP}
SCREENS = {
    "now": "/",
    "foods": "/foods",
    "food": "/foods/snap%20beans?form=pieces",
    "refusal": "/foods/pumpkin%20butter",
    "recipes": "/recipes",
    "recipe": f"/recipes/{HOUSEHOLD.own}",
    "jar": f"/recipes/{HOUSEHOLD.own}/build",
    "check": f"/recipes/{HOUSEHOLD.barred}/check",
    "compare": f"/recipes/{HOUSEHOLD.own}/compare",
    "recipe-edit": f"/recipes/{HOUSEHOLD.own}/edit",
    "paste": "/recipes/new",
    "days": "/days",
    "day": f"/days/{HOUSEHOLD.planned}",
    "day-edit": f"/days/{HOUSEHOLD.planned}/edit",
    "plan": f"/days/{HOUSEHOLD.planned}/plan",
    "rest": f"/days/{HOUSEHOLD.planned}/now",
    "no-plan": f"/days/{HOUSEHOLD.impossible}/plan",
    "kitchen": "/kitchen",
    "canner": "/kitchen/canners/1",
    "changes": "/changes",
    "doors": "/doors",
}
_MOST_COLORS = 256
_READ = """async (data) => {
  const picture = new Image();
  picture.src = `data:image/png;base64,${data}`;
  await picture.decode();
  const canvas = new OffscreenCanvas(picture.width, picture.height);
  const pen = canvas.getContext("2d");
  pen.drawImage(picture, 0, 0);
  const all = pen.getImageData(0, 0, picture.width, picture.height).data;
  let text = "";
  for (let i = 0; i < all.length; i += 32768) {
    text += String.fromCharCode(...all.subarray(i, i + 32768));
  }
  return [picture.width, picture.height, btoa(text)];
}"""


def colors(drawn: bytes, reader: Page) -> NDArray[np.uint8]:
    """The pixels of a PNG as (height, width, 3), read by the browser that drew it."""
    width, height, text = reader.evaluate(_READ, base64.b64encode(drawn).decode())
    every = np.frombuffer(base64.b64decode(text), np.uint8).reshape(height, width, 4)
    return every[:, :, :3]


def small_png(pixels: NDArray[np.uint8]) -> bytes:
    """A PNG with a palette (ISO/IEC 15948): the commonest colors, the nearest for the rest."""
    height, width, _ = pixels.shape
    flat = pixels.reshape(-1, 3).astype(np.int64)
    coded = flat[:, 0] << 16 | flat[:, 1] << 8 | flat[:, 2]
    found, place, counts = np.unique(coded, return_inverse=True, return_counts=True)
    kept = found[np.argsort(-counts)[:_MOST_COLORS]]
    shades = np.stack([found >> 16, found >> 8 & 255, found & 255], axis=1)
    palette = np.stack([kept >> 16, kept >> 8 & 255, kept & 255], axis=1)
    apart = ((shades[:, None, :] - palette[None, :, :]) ** 2).sum(axis=2)
    indices = apart.argmin(axis=1)[place].astype(np.uint8).reshape(height, width)
    # Each line begins with its filter; 0 is none.
    lines = np.hstack([np.zeros((height, 1), np.uint8), indices]).tobytes()
    head = struct.pack(">IIBBBBB", width, height, 8, 3, 0, 0, 0)
    parts = (
        (b"IHDR", head),
        (b"PLTE", palette.astype(np.uint8).tobytes()),
        (b"IDAT", zlib.compress(lines, 9)),
        (b"IEND", b""),
    )
    return b"\x89PNG\r\n\x1a\n" + b"".join(_chunk(kind, body) for kind, body in parts)


def _chunk(kind: bytes, body: bytes) -> bytes:
    return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))


def main() -> int:
    """Write every screen and say where."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--dark", action="store_true")
    parser.add_argument(
        "--full", action="store_true", help="the whole page, not what is seen first"
    )
    parser.add_argument("--out", type=Path, default=PICTURES)
    parser.add_argument("--only", default="", help="screens whose name holds this")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "store.sqlite3"
        path.write_bytes(filled())
        with served(path, NOW) as site, browser() as chrome:
            windows = Windows(chrome, site.url, Watch(site.url))
            reader = chrome.new_page()
            for device, size in SIZES.items():
                window = windows.open("/", size, scheme="dark" if given.dark else "light")
                for name, address in SCREENS.items():
                    if given.only not in name:
                        continue
                    window.goto(address)
                    drawn = window.screenshot(full_page=given.full)
                    picture = given.out / f"screen-{name}-{device}.png"
                    picture.write_bytes(small_png(colors(drawn, reader)))
                    sys.stdout.write(f"Wrote {picture.name}, {picture.stat().st_size:,} bytes\n")
            windows.close()
    return 0


if __name__ == "__main__":
    sys.exit(main())
