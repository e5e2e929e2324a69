"""Make the pictures of the docs: ``python docs/make_pictures.py``.

The charts are those of the commands that the guide to the jar shows: each one with ``--chart`` is
run as it stands there, on the logs that stand there, and its SVG is kept.

The day sheet is planned from the demo day, printed, and page 1 drawn in grey. The same plan gives
the same bytes: there is no clock and no compression setting left open. A day may have several plans
that are equally good, so a new run may draw another of them.
"""

import re
import shlex
import struct
import sys
import tempfile
import zlib
from contextlib import chdir, redirect_stdout
from io import StringIO
from pathlib import Path

import pypdfium2

from stillroom.cli import main as stillroom

PICTURES = Path(__file__).parent / "pictures"
GUIDE = Path(__file__).parent / "guides" / "what-happens-in-the-jar.md"
# 72 points an inch times two: small print stays readable on a screen.
SCALE = 2.0
# Sixteen greys are enough for print and halve the file.
BITS = 4


def png(grey: bytes, width: int, height: int, stride: int) -> bytes:
    """A grey PNG of 4 bits a pixel from rows of 8-bit pixels, by ISO/IEC 15948.

    ``stride`` is the length of a row in bytes, at least ``width``.
    """
    lines = bytearray()
    for y in range(height):
        row = grey[y * stride : y * stride + width] + b"\0" * (width % 2)
        # Rounded to the nearest of sixteen greys, so that white stays white.
        levels = [(pixel * 15 + 127) // 255 for pixel in row]
        # Each line begins with its filter; 0 is none.
        lines.append(0)
        lines += bytes(a << 4 | b for a, b in zip(levels[::2], levels[1::2], strict=True))
    head = struct.pack(">IIBBBBB", width, height, BITS, 0, 0, 0, 0)
    data = zlib.compress(bytes(lines), 9)
    return (
        b"\x89PNG\r\n\x1a\n" + _chunk(b"IHDR", head) + _chunk(b"IDAT", data) + _chunk(b"IEND", b"")
    )


def _chunk(kind: bytes, body: bytes) -> bytes:
    return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))


def first_page(pdf: Path) -> bytes:
    """Page 1 of a PDF file as a grey PNG."""
    document = pypdfium2.PdfDocument(pdf)
    bitmap = document[0].render(scale=SCALE, grayscale=True)
    drawn = png(bytes(bitmap.buffer), bitmap.width, bitmap.height, bitmap.stride)
    document.close()
    return drawn


def charts(page: Path, folder: Path) -> list[Path]:
    """Draw every chart that a page's commands draw, into a folder, on the page's own logs."""
    text = page.read_text(encoding="utf-8")
    for title, log in re.findall(r'^```csv title="([^"]+)"\n(.*?)^```$', text, re.M | re.S):
        (folder / title).write_text(log, encoding="utf-8")
    drawn = []
    for line in re.findall(r"^\$ stillroom (.+ --chart .+)$", text, re.M):
        words = shlex.split(line)
        with chdir(folder), redirect_stdout(StringIO()):
            if stillroom(words):
                raise SystemExit(f"{page.name}: stillroom {line} does not answer")
        drawn.append(folder / words[words.index("--chart") + 1])
    return drawn


def main() -> int:
    """Write every picture and say where."""
    with tempfile.TemporaryDirectory() as folder:
        for chart in charts(GUIDE, Path(folder)):
            (PICTURES / chart.name).write_bytes(chart.read_bytes())
            sys.stdout.write(f"Wrote {chart.name}, {chart.stat().st_size:,} bytes\n")
    with tempfile.TemporaryDirectory() as folder:
        day, sheet = Path(folder) / "day.toml", Path(folder) / "day.pdf"
        for command in (["start", folder], ["plan", str(day), "--pdf", str(sheet)]):
            status = stillroom(command)
            if status:
                return status
        picture = PICTURES / "day-sheet.png"
        picture.write_bytes(first_page(sheet))
    sys.stdout.write(f"\nWrote {picture.name}, {picture.stat().st_size:,} bytes\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
