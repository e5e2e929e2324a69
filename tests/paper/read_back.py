"""What a PDF says, read back by a library that did not write it."""

import pypdfium2 as pdfium
import pypdfium2.raw as raw


def pages(sheet: bytes) -> list[str]:
    """Each page's text, its lines joined."""
    return [
        " ".join(page.get_textpage().get_text_range().replace("\ufffe", "").split())
        for page in pdfium.PdfDocument(sheet)
    ]


def letters(sheet: bytes) -> list[tuple[float, str, tuple[float, float, float, float]]]:
    """Type size in points, character, and box (left, right, bottom, top) of all that is printed."""
    found = []
    for page in pdfium.PdfDocument(sheet):
        text = page.get_textpage()
        for n in range(text.count_chars()):
            edges = [raw.c_double() for _ in range(4)]
            raw.FPDFText_GetCharBox(text, n, *edges)
            size = float(raw.FPDFText_GetFontSize(text, n))
            letter = chr(raw.FPDFText_GetUnicode(text, n))
            left, right, bottom, top = (float(edge.value) for edge in edges)
            if letter.strip() and right > left:
                found.append((size, letter, (left, right, bottom, top)))
    return found


def greys(sheet: bytes, scale: float = 1, block: int = 8) -> list[list[float]]:
    """Page 1 in greys, 0 black to 255 white: means of squares of ``block`` dots."""
    bitmap = pdfium.PdfDocument(sheet)[0].render(scale=scale, grayscale=True)
    dots, stride = bytes(bitmap.buffer), bitmap.stride

    def mean(x: int, y: int) -> float:
        rows = (dots[(y + n) * stride + x :][:block] for n in range(block))
        return sum(sum(row) for row in rows) / block**2

    return [
        [mean(x, y) for x in range(0, bitmap.width - block + 1, block)]
        for y in range(0, bitmap.height - block + 1, block)
    ]
