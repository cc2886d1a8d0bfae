"""A sheet of SVG in the making: elements by class, numbers rounded, every text escaped and harmless."""

import xml.etree.ElementTree as ET
from collections.abc import Iterable, Mapping

from checker.findings.storey import Spot
from checker.report.page import clean
from checker.report.plan_styles import PATTERNS, TEXT

Style = Mapping[str, str]


def told(number: float) -> str:
    """A number as SVG writes it: hundredths of a millimetre, no needless zeros."""
    return f"{round(number, 2) + 0.0:.2f}".rstrip("0").rstrip(".")


class Sheet:
    """A drawing or a group of one. `name` begins the names of its patterns, so that none is there twice in a page."""

    def __init__(self, name: str, element: ET.Element) -> None:
        self._name, self.element = name, element

    def group(self, class_: str, **more: str) -> "Sheet":
        """A group inside."""
        return Sheet(self._name, ET.SubElement(self.element, "g", {"class": class_, **_named(more)}))

    def path(self, points: Iterable[Spot], class_: str, style: Style, *, closed: bool = False) -> None:
        """A line through points; all its parts of a style."""
        self.shape(" L".join(f"{told(x)},{told(y)}" for x, y in points), class_, style, closed=closed)

    def shape(self, data: str, class_: str, style: Style, *, closed: bool = False) -> None:
        """A path as SVG writes it, from its first point on."""
        path = data if data.startswith("M") else f"M{data}"
        self._add("path", {"class": class_, "d": f"{path} Z" if closed else path} | self._filled(style))

    def circle(self, at: Spot, radius: float, style: Style, class_: str = "") -> None:
        """A circle."""
        named = {"class": class_} if class_ else {}
        self._add("circle", named | {"cx": told(at[0]), "cy": told(at[1]), "r": told(radius)} | dict(style))

    def rectangle(self, left: float, top: float, width: float, height: float, style: Style, corner: float = 0) -> None:
        """A rectangle, its corners rounded by a radius."""
        sides = {"x": told(left), "y": told(top), "width": told(width), "height": told(height)}
        self._add("rect", sides | ({"rx": told(corner)} if corner else {}) | self._filled(style))

    def text(self, at: Spot, text: str, *, anchor: str = "middle", **more: str) -> None:
        """A text on the line through a point."""
        given = {"x": told(at[0]), "y": told(at[1]), "text-anchor": anchor, **_named(more)}
        ET.SubElement(self.element, "text", TEXT | given).text = clean(text)

    def cut(self, width: float, height: float) -> "Sheet":
        """A group whose drawing ends at the edges of a paper of that size."""
        kept = ET.SubElement(self.element, "clipPath", {"id": f"{self._name}:paper"})
        ET.SubElement(kept, "rect", {"width": told(width), "height": told(height)})
        return self.group("cut", clip_path=f"url(#{self._name}:paper)")

    def patterns(self) -> None:
        """The patterns that fills refer to."""
        kept = ET.SubElement(self.element, "defs")
        for name, (side, data, colour, width) in PATTERNS.items():
            size = {"width": told(side), "height": told(side), "patternUnits": "userSpaceOnUse"}
            tile = ET.SubElement(kept, "pattern", {"id": f"{self._name}:{name}", **size})
            ET.SubElement(tile, "path", {"d": data, "stroke": colour, "stroke-width": told(width), "fill": "none"})

    def _filled(self, style: Style) -> dict[str, str]:
        fill = style.get("fill", "")
        own = f"url(#{self._name}:{fill.removeprefix('pattern:')})" if fill.startswith("pattern:") else fill
        return dict(style) | ({"fill": own} if fill else {})

    def _add(self, tag: str, attributes: Mapping[str, str]) -> None:
        ET.SubElement(self.element, tag, dict(attributes))


def sheet(name: str, width: float, height: float, label: str) -> Sheet:
    """An empty drawing of a size in mm, with what it shows in words."""
    size = {"viewBox": f"0 0 {told(width)} {told(height)}", "width": f"{told(width)}mm", "height": f"{told(height)}mm"}
    kind = {"xmlns": "http://www.w3.org/2000/svg", "role": "img", "aria-label": clean(label, 400)}
    return Sheet(name, ET.Element("svg", {"class": "plan", **kind, **size}))


def written(drawing: Sheet) -> str:
    """The drawing as text."""
    ET.indent(drawing.element, " ")
    return ET.tostring(drawing.element, encoding="unicode")


def _named(given: Mapping[str, str]) -> dict[str, str]:
    return {name.replace("_", "-"): value for name, value in given.items()}
