"""The pages of docs are built into a site without a warning, all its links lead somewhere, and it fetches nothing."""

import subprocess
import sys
from functools import cached_property
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest

from tests.showing import ROOT

KINDS = ("tutorial", "how-to", "reference", "background")
LINKS = {("a", "href"), ("link", "href"), ("img", "src"), ("script", "src")}
BROKEN = {
    "a page that is not there": "[gone](gone.md)",
    "a heading that is not there": "[gone](#gone)",
    "a heading of another page that is not there": "[gone](other.md#gone)",
    "a file that is not there": "[gone](../gone.toml)",
    "a picture that is not there": "![gone](gone.svg)",
}


class Page(HTMLParser):
    """One page of the site: what it links to, and what can be linked to in it."""

    def __init__(self, file: Path) -> None:
        super().__init__()
        self.file = file
        self.links: list[str] = []
        self.names: set[str] = set()
        self.feed(file.read_text("utf-8"))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note the links and the name of one tag."""
        self.links += [value for key, value in attrs if value and (tag, key) in LINKS]
        self.names |= {value for key, value in attrs if value and key == "id"}


class Site:
    """The site as it was built into a folder."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    @cached_property
    def pages(self) -> dict[Path, Page]:
        """Every page by its file."""
        return {file: Page(file) for file in sorted(self.folder.rglob("*.html"))}


def build(source: Path, target: Path) -> tuple[int, str]:
    """Build the pages of a folder as DEVELOPERS.md says, warnings being errors."""
    words = [sys.executable, "-m", "sphinx", "-W", "--keep-going", "-q", "-d", str(target / "read"), str(source)]
    done = subprocess.run([*words, str(target / "site")], capture_output=True, text=True, check=False)
    return done.returncode, done.stdout + done.stderr


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Site:
    folder = tmp_path_factory.mktemp("docs")
    assert build(ROOT / "docs", folder) == (0, "")
    return Site(folder / "site")


def test_every_page_is_built(site: Site) -> None:
    pages = [page.relative_to(ROOT / "docs").with_suffix("") for page in (ROOT / "docs").rglob("*.md")]
    assert [page for page in pages if not (site.folder / f"{page}.html").exists()] == []
    assert {page.parts[0] for page in pages if len(page.parts) > 1} == set(KINDS)


def test_every_page_is_among_the_contents(site: Site) -> None:
    index = site.pages[site.folder / "index.html"]
    for page in (ROOT / "docs").rglob("*.md"):
        assert f"{page.relative_to(ROOT / 'docs').with_suffix('')}.html" in index.links or page.stem == "index"


def test_links_of_the_site_lead_somewhere(site: Site) -> None:
    for page in site.pages.values():
        for link in page.links:
            parts = urlsplit(link)
            assert (parts.scheme, parts.netloc) == ("", ""), f"{page.file.name} links away: {link}"
            target = (page.file.parent / unquote(parts.path)).resolve() if parts.path else page.file
            assert target.exists(), f"{page.file.name}: {link}"
            if parts.fragment and target.suffix == ".html":
                assert unquote(parts.fragment) in site.pages[target].names, f"{page.file.name}: {link}"


@pytest.mark.parametrize("what", BROKEN)
def test_the_build_fails_for(what: str, tmp_path: Path) -> None:
    source = tmp_path / "source"
    source.mkdir()
    (source / "conf.py").write_bytes((ROOT / "docs" / "conf.py").read_bytes())
    (source / "_static").mkdir()
    (source / "_static" / "wide.css").touch()
    (source / "other.md").write_text("# Other\n", "utf-8")
    (source / "index.md").write_text(f"# Site\n\n## All\n\n- [Other](other.md)\n\n{BROKEN[what]}\n", "utf-8")
    status, said = build(source, tmp_path)
    assert status == 1
    assert "index.md:7: WARNING" in said
    assert "gone" in said
