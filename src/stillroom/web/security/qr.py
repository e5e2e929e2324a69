"""An address as a square that a phone's camera reads."""

from markupsafe import Markup


def square(address: str, title: str) -> Markup:
    """The code as SVG to stand in a page; dark on white whatever the page's colors.

    Parameters
    ----------
    address : what the phone opens
    title : its name for who cannot see it
    """
    import segno

    drawn = segno.make(address, error="m", micro=False).svg_inline(
        scale=4, border=4, dark="#000", light="#fff", omitsize=True, svgclass="qr", lineclass=None
    )
    label = Markup('<svg role="img" aria-label="{}" ').format(title)
    return label + Markup(drawn.removeprefix("<svg "))
