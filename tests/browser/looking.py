"""What a person would notice on a page, asked of the browser."""

from typing import Any

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

WCAG = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")
# DESIGN: 44 CSS pixels for anything pressed; WCAG 2.2 SC 2.5.8 asks for 24.
TARGET = 44

_axe = Axe()


def violations(page: Page, *rules: str) -> list[str]:
    """What axe-core finds wrong: rule, place and what it says, one line each.

    With ``rules`` only those are run, else all that are tagged WCAG 2.2 AA or good practice.
    """
    only: dict[str, Any] = (
        {"type": "rule", "values": list(rules)} if rules else {"type": "tag", "values": list(WCAG)}
    )
    found = _axe.run(page, options={"runOnly": only, "resultTypes": ["violations"]}).response
    return [
        f"{wrong['id']}: {' '.join(map(str, node['target']))}: {_told(node)}"
        for wrong in found["violations"]
        for node in wrong["nodes"]
    ]


def _told(node: dict[str, Any]) -> str:
    return " ".join(str(node.get("failureSummary", "")).split())


def small_targets(page: Page) -> list[str]:
    """Controls that are shown and smaller than a thumb: name and size.

    A link within a sentence may be as tall as its line (WCAG 2.5.8, "Inline"); a tick box is as
    large as the label that it lies in.
    """
    found: list[str] = page.evaluate(
        """(least) => {
          const told = [];
          const pressed = "a[href], button, input:not([type=hidden]), select, textarea, summary, "
            + "[role=button], [tabindex='0']";
          for (const one of document.querySelectorAll(pressed)) {
            if (!one.checkVisibility({visibilityProperty: true, opacityProperty: true})) continue;
            if (one.closest(".skip, [data-reading]")) continue;
            const label = one.matches("[type=checkbox], [type=radio]") && one.closest("label");
            const box = (label || one).getBoundingClientRect();
            if (!box.width || !box.height) continue;
            if (one.matches("a") && getComputedStyle(one).display === "inline") {
              const text = [...one.parentNode.childNodes]
                .filter((n) => n.nodeType === 3).map((n) => n.data.trim()).join("");
              if (text) continue;
            }
            if (box.width < least - 0.5 || box.height < least - 0.5) {
              const name = (one.innerText || one.name || one.ariaLabel || "").trim().slice(0, 40);
              const size = `${Math.round(box.width)}x${Math.round(box.height)}`;
              told.push(`${one.tagName.toLowerCase()} "${name}" ${size}`);
            }
          }
          return told;
        }""",
        TARGET,
    )
    return found


def too_wide(page: Page) -> list[str]:
    """Elements that make the page scroll sideways; none where it does not."""
    found: list[str] = page.evaluate(
        """() => {
          const wide = document.documentElement.clientWidth;
          if (document.documentElement.scrollWidth <= wide) return [];
          const told = [];
          for (const one of document.body.querySelectorAll("*")) {
            const box = one.getBoundingClientRect();
            if (box.right <= wide + 0.5 || !box.width) continue;
            if (one.parentElement.closest(".scroll, .timetable, [data-scrolls]")) continue;
            const name = `${one.tagName.toLowerCase()}.${one.getAttribute("class") || ""}`;
            told.push(`${name} to ${Math.round(box.right)}`);
          }
          return told.slice(-4).concat(`page ${document.documentElement.scrollWidth} of ${wide}`);
        }"""
    )
    return found


def out_of_order(page: Page) -> list[str]:
    """Controls that Tab meets elsewhere than where they are written."""
    found: list[str] = page.evaluate(
        "() => [...document.querySelectorAll('[tabindex]')]"
        ".filter((one) => one.tabIndex > 0).map((one) => one.outerHTML.slice(0, 80))"
    )
    return found


def shifts(page: Page) -> list[str]:
    """What moved after it was first drawn, without anybody having touched the page."""
    moved: list[tuple[float, str]] = page.evaluate("() => window.stillroomShifts")
    return [f"{what} by {value:.4f}" for value, what in moved]


def larger_text(page: Page, percent: int = 200) -> None:
    """Set the page's text to so much of its size: rem and em follow."""
    page.evaluate("(p) => { document.documentElement.style.fontSize = `${p}%`; }", percent)
