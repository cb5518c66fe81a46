"""How these pages are built into a site. Nothing is fetched while they are built, and nothing when they are read."""

import re
from pathlib import Path
from typing import Any

from docutils import nodes
from pygments.lexers.special import TextLexer
from sphinx import addnodes
from sphinx.application import Sphinx

HERE = Path(__file__).parent

project = "hardpan"
project_copyright = "the hardpan contributors"
extensions = ["myst_parser"]
exclude_patterns = ["_build"]
nitpicky = True
keep_warnings = True

myst_heading_anchors = 3
"""Headings down to this level can be linked to, by the names that Git hosts give them."""

html_theme = "alabaster"
html_title = "hardpan"
html_static_path = ["_static"]
html_css_files = ["wide.css"]
html_show_sphinx = False
html_copy_source = False
html_sidebars = {"**": ["about.html", "searchfield.html", "navigation.html"]}
html_theme_options = {"description": "Plans the cables of a jam", "page_width": "70rem", "sidebar_width": "15rem"}


def with_contents(app: Sphinx, page: str, source: list[str]) -> None:
    """Make the lists of links in ``index.md`` the contents of the site, so that they are written once.

    A page that they do not link to is a warning of its own.
    """
    if page == "index":
        for caption, listed in re.findall(r"^## (.+)\n((?:(?!## ).*\n)*)", source[0], re.MULTILINE):
            pages = "\n".join(re.findall(r"^- .*?\]\((\S+)\.md\)", listed, re.MULTILINE))
            source[0] += f"\n```{{toctree}}\n:hidden:\n:caption: {caption}\n\n{pages}\n```\n"


def without_folders(app: Sphinx, page: nodes.document) -> None:
    """Leave of a link to a folder its words: a Git host shows folders, a site has nothing to show there."""
    for link in page.findall(addnodes.pending_xref):
        here = HERE / app.env.doc2path(app.env.current_document.docname)
        if (here.parent / link["reftarget"]).is_dir():
            link.replace_self(link.children)


def setup(app: Sphinx) -> dict[str, Any]:
    """Take part in the build."""
    app.add_lexer("csv", TextLexer)
    app.connect("source-read", with_contents)
    app.connect("doctree-read", without_folders)
    return {"parallel_read_safe": True}
