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
