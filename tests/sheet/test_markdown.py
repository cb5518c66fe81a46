"""The sheet as Markdown, read back by a reader of Markdown."""

from markdown_it import MarkdownIt
from markdown_it.tree import SyntaxTreeNode

from solver.flow.completed import completed
from solver.jam.jam import Jam
from solver.plans import Plan
from solver.sheet.cells import clean
from solver.sheet.markdown import escaped, markdown
from tests.sheet.hostile import NAMES, hostile
from tests.sheet.low_tide import low_tide, plan_of

READER = MarkdownIt("commonmark", {"linkify": False}).enable(["table", "strikethrough"])


def tree(jam: Jam, plan: Plan) -> SyntaxTreeNode:
    return SyntaxTreeNode(READER.parse(markdown(jam, plan)))


def words(node: SyntaxTreeNode) -> str:
    """The text that a reader shows."""
    return "".join(leaf.content for leaf in node.walk() if leaf.type in ("text", "code_inline", "html_inline"))


def rows(table: SyntaxTreeNode) -> list[list[str]]:
    return [[words(cell) for cell in row.children] for part in table.children for row in part.children]


def shape(node: SyntaxTreeNode) -> list[str]:
    """What there is in a document, whatever the names."""
    return [one.type for one in node.walk() if one.type not in ("text", "text_special")]


def test_cables_and_settings_are_tables() -> None:
    tables = [rows(node) for node in tree(low_tide(), plan_of()).children if node.type == "table"]
    assert tables[0] == [
        ["done", "no.", "cable", "from", "to", "carries"],
        ["☐", "1", "6.35 mono", "barge/L/MONO", "tiller/IN 1", "bass"],
        ["☐", "2", "6.35 mono", "barge/R", "tiller/IN 2", "arp"],
    ]
    assert ["☐", "tiller", "track EXT 1", "channel", "5 -> 1", "box: once for all projects"] in tables[2]
    assert tables[-2][0][:4] == ["part", "engine", "played by track", "channel"]
    named = plan_of(recall={"tiller": {"slot": "bank B, slot 3", "name": "LOW TIDE"}})
    names = [rows(node) for node in tree(low_tide(), named).children if node.type == "table"][-1]
    assert names[1:] == [["tiller", "LOW TIDE", "bank B, slot 3"], ["barge", "-", "-"]]


def test_steps_are_task_lists() -> None:
    text = markdown(low_tide(), plan_of())
    assert "\n## Before you plug\n\n- [ ] Turn the volume all the way down (at tiller/MAIN, " in text
    assert text.startswith("<!-- made by hardpan -->\n\n# Low Tide\n\n")
    assert text.endswith("everyone's.\n")


def test_no_name_changes_the_shape_of_the_text() -> None:
    jam, plan = hostile()
    assert shape(tree(jam, plan)) == shape(tree(low_tide(), plan_of()))
    shown = words(tree(jam, completed(jam, plan)))
    assert all(clean(name) in shown for name in NAMES.values())


def test_signs_are_escaped_where_they_would_mean_something() -> None:
    for text in ("# a", "> b", "- c", "+ d", "12. e", "3) f", "= g", "a | b", "*c*", "<b>", "&amp;", "~~d~~", "[x](y)"):
        (paragraph,) = SyntaxTreeNode(READER.parse(escaped(text))).children
        assert (paragraph.type, words(paragraph)) == ("paragraph", text)
    assert escaped("a.b c-d 6.35 1 -> 2: x") == "a.b c-d 6.35 1 -> 2: x"
    assert escaped("www.a http://b :c: d@e") == "www\\.a http\\://b \\:c: d\\@e"
