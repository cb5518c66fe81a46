"""The exported sheet, read by parsers of HTML, XML and Markdown."""

from collections import Counter
from collections.abc import Callable, Iterator
from typing import NamedTuple
from xml.etree import ElementTree as Xml

import html5lib
from html5lib.html5parser import ParseError
from markdown_it import MarkdownIt

from solver.plans import Plan
from solver.sheet.formats import FORMATS
from tests.browser.pages import planned
from tests.outside import graphs
from tests.outside.checks import check
from tests.sheet.hostile import hostile

NAMES = ("low-tide", "three-rivers", "narrow-channel", "tide-tables", "confluence", "rain-on-tin")
"""Scenarios that are planned quickly."""

HOSTILE = "hostile names"

POINTING = ("aria-labelledby", "aria-describedby", "aria-controls", "for", "list")
"""Attributes that name ids of the same page, with spaces between them (HTML Living Standard, WAI-ARIA)."""


class Sheet(NamedTuple):
    """A plan by its name, and what is done to its sheet, or to the plan that the sheet is held against."""

    name: str
    spoil: Callable[[str], str] = str
    other: Callable[[Plan], Plan] = lambda plan: plan

    def made(self, ending: str) -> str:
        """The sheet as a file with this ending."""
        made = FORMATS[ending].made(*(hostile() if self.name == HOSTILE else planned(self.name)))
        assert isinstance(made, str)
        return self.spoil(made)

    @property
    def plan(self) -> Plan:
        """What the sheet should tell."""
        return self.other(planned(self.name)[1])


ALL = {name: Sheet(name) for name in (*NAMES, HOSTILE)}
PLAIN = {name: Sheet(name) for name in NAMES}


def _page(text: str) -> Xml.Element:
    """The tree of a page; where the standard's parser meets an error, it ends."""
    parser = html5lib.HTMLParser(tree=html5lib.getTreeBuilder("etree", Xml), strict=True, namespaceHTMLElements=False)
    try:
        root = parser.parse(text)
    except ParseError as error:
        raise AssertionError(f"{error}: {parser.errors}") from error
    assert isinstance(root, Xml.Element)
    return root


def _badly_nested(text: str) -> str:
    return text.replace("</ul>\n</div>", "</div></ul>", 1)


@check(
    "The page has no parse error",
    source="html5lib, HTMLParser(strict) (the parser of the HTML standard)",
    kind="reference library",
    right=ALL,
    wrong=Sheet("low-tide", _badly_nested),
)
def test_the_page_is_html(value: Sheet) -> None:
    root = _page(value.made(".html"))
    assert [child.tag for child in root] == ["head", "body"]


def _id_twice(text: str) -> str:
    return text.replace('id="parts"', 'id="wiring"', 1)


@check(
    "Every id of the page is there once, and every link and label leads to one",
    source="html5lib, HTMLParser",
    kind="reference library",
    right=ALL,
    wrong=Sheet("low-tide", _id_twice),
)
def test_ids_of_the_page(value: Sheet) -> None:
    _ids_are_well(_page(value.made(".html")))


@check(
    "The drawing is well-formed XML, every id in it is there once, and every label leads to one",
    source="Python, xml.etree.ElementTree (Expat)",
    kind="reference library",
    right=ALL,
    wrong=Sheet("low-tide", lambda text: text.replace('id="hp-drawing-desc"', "", 1)),
)
def test_ids_of_the_drawing(value: Sheet) -> None:
    _ids_are_well(Xml.fromstring(value.made(".svg")))


def _ids_are_well(root: Xml.Element) -> None:
    ids = Counter(element.attrib["id"] for element in root.iter() if "id" in element.attrib)
    named = {name for element in root.iter() for key in POINTING for name in element.attrib.get(key, "").split()}
    linked = [element.attrib["href"] for element in root.iter() if "href" in element.attrib]
    assert ids and set(ids.values()) == {1}
    assert named and named <= set(ids)
    assert {link.removeprefix("#") for link in linked if link.startswith("#")} <= set(ids)
    assert {link.partition(":")[0] for link in linked if not link.startswith("#")} <= {"data"}


def _without_a_cable(plan: Plan) -> Plan:
    return plan.model_copy(update={"cables": plan.cables[1:]})


Row = tuple[str, ...]


def _cables(plan: Plan) -> Counter[Row]:
    return Counter((cable.kind, *graphs.ends(cable)[0], *graphs.ends(cable)[1]) for cable in plan.cables)


@check(
    "The cables on the page are those of the plan",
    source="html5lib, HTMLParser",
    kind="reference library",
    right=PLAIN,
    wrong=Sheet("low-tide", other=_without_a_cable),
)
def test_cables_on_the_page(value: Sheet) -> None:
    found = Counter[Row]()
    for heading, label in _steps(_page(value.made(".html"))):
        if heading in ("Audio cables", "MIDI cables"):
            note = _text(label.find(".//*[@class='note']"))
            found[note.split(" · ")[1], *(_text(end) for end in label.iterfind(".//*[@class='at']"))] += 1
    assert found == _cables(value.plan)


@check(
    "The cables in the table of the Markdown sheet are those of the plan",
    source="markdown-it-py, MarkdownIt (CommonMark with tables)",
    kind="reference library",
    right=PLAIN,
    wrong=Sheet("low-tide", other=_without_a_cable),
)
def test_cables_in_markdown(value: Sheet) -> None:
    page = MarkdownIt("commonmark").enable("table").render(value.made(".md"))
    found = Counter[Row]()
    for table in _page(f"<!doctype html><title>Sheet</title>{page}").iter("table"):
        heads, *rows = ([_text(cell) for cell in row] for row in table.iter("tr"))
        if heads[:5] == ["done", "no.", "cable", "from", "to"]:
            found.update((row[2], *_ends(row[3]), *_ends(row[4])) for row in rows)
    assert found == _cables(value.plan)


def _ends(cell: str) -> list[str]:
    """The socket of one end of a cable, or the two of a breakout's legs."""
    return cell.removeprefix("left ").split(", right ")


@check(
    "The settings on the page are those of the plan: box, place, what, and to what; amounts of 0 stay",
    source="html5lib, HTMLParser",
    kind="reference library",
    right=PLAIN,
    wrong=Sheet("low-tide", other=lambda plan: plan.model_copy(update={"settings": plan.settings[1:]})),
)
def test_settings_on_the_page(value: Sheet) -> None:
    told = Counter[Row]()
    for heading, label in _steps(_page(value.made(".html"))):
        words = list(label.iter("bdi"))
        places = [at for at, word in enumerate(words) if word.get("class") == "label"]
        new = label.find(".//*[@class='new']")
        if new is None or heading == "Level start points" or _text(new) == "0" or not places:
            continue
        box = heading.removeprefix("Settings on ") if places[0] == 0 else _text(words[0])
        told[box, _text(words[places[0]]), _text(words[places[0] + 1]), _text(new).split()[0].removeprefix("+")] += 1
    stated = Counter(
        (one.box, one.where, one.what, str(one.value).split()[0]) for one in value.plan.settings if one.value
    )
    assert told == stated


def _steps(root: Xml.Element) -> Iterator[tuple[str, Xml.Element]]:
    """Each step with the heading that it stands under."""
    for group in root.iterfind(".//*[@class='group']"):
        heading = _text(group.find("h3"))
        for label in group.iter("label"):
            yield heading, label


def _text(element: Xml.Element | None) -> str:
    """What is read there."""
    assert element is not None
    return "".join(element.itertext()).replace("\N{NO-BREAK SPACE}", " ")
