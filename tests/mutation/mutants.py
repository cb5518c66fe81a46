"""Makes mutants from the source: in each, one statement that posts a rule or judges a plan is left out.

Two faces are mutated. What posts a rule is a statement that is nothing but a call, in a function that yields nothing;
it is left out. A function that answers with a literal answers "always" instead, one ``return`` at a time, or "never"
where "always" is its answer. What judges a plan is a ``yield``, which then yields nothing, or the ``return`` of a
fault, which then returns none.

The code is exchanged in the running process and put back; no file is touched.
"""

import ast
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from copy import deepcopy
from functools import cache, cached_property
from importlib import import_module
from inspect import unwrap
from pathlib import Path
from types import CodeType, FunctionType
from typing import Any, Literal, NamedTuple

import solver
from solver.search.model import NO, YES

Face = Literal["posts", "judges"]

ROOM = Path(solver.__file__).parent
FACES: dict[Face, tuple[str, ...]] = {
    "posts": (
        "rules/*.py",
        "search/choices.py",
        "search/goals.py",
        "search/ground.py",
        "search/hearing.py",
        "search/model.py",
        "search/network.py",
        "search/played.py",
        "search/states.py",
        "search/voices.py",
    ),
    "judges": ("rules/*.py", "flow/claims.py", "flow/wires.py", "flow/cautions.py", "flow/own_words.py"),
}
"""The files that have a face. ``search/cuts.py`` has none: what it posts follows from the rules and may be left out."""

LENGTH = 80
"""A statement is told in no more letters than this."""

Function = ast.FunctionDef


class Mutant(NamedTuple):
    """A function in which one statement is left out."""

    id: str
    face: Face
    file: str
    function: str
    line: int
    column: int

    @property
    def module(self) -> str:
        """The name of the module in which the function stands."""
        return ".".join(("solver", *Path(self.file).with_suffix("").parts))

    @property
    def target(self) -> FunctionType:
        """The function as it is defined, below whatever wraps it."""
        found: Any = import_module(self.module)
        for name in self.function.split("."):
            found = vars(found)[name]
        found = found.func if isinstance(found, cached_property) else getattr(found, "fget", found)
        function: object = unwrap(getattr(found, "__func__", found))
        assert isinstance(function, FunctionType)
        return function

    def code(self) -> CodeType:
        """The function's code without the statement."""
        tree = _parsed(self.file)
        body: list[ast.stmt] = [_Cut(self).visit(deepcopy(dict(_functions(tree, ""))[self.function]))]
        for name in reversed(self.function.split(".")[:-1]):
            body = [ast.ClassDef(name, [], [], body, [])]
        future = [node for node in tree.body if isinstance(node, ast.ImportFrom) and node.module == "__future__"]
        alone = ast.fix_missing_locations(ast.Module([*future, *body], []))
        whole = compile(alone, str(ROOM / self.file), "exec", dont_inherit=True)
        return next(code for code in _inside(whole) if code.co_qualname == self.function)

    @contextmanager
    def applied(self) -> Iterator[None]:
        """Let the function run without the statement."""
        function: Any = self.target
        code = function.__code__
        function.__code__ = self.code()
        try:
            yield
        finally:
            function.__code__ = code


@cache
def every() -> tuple[Mutant, ...]:
    """All mutants of the source as it is now, file by file."""
    files = {path.relative_to(ROOM).as_posix(): face for face in FACES for path in _files(face)}
    return tuple(mutant for file in sorted(files) for mutant in of_file(file))


def _files(face: Face) -> list[Path]:
    return [path for pattern in FACES[face] for path in sorted(ROOM.glob(pattern))]


def of_file(file: str) -> Iterator[Mutant]:
    """The mutants of one file, from top to bottom."""
    faces = [face for face in FACES if ROOM / file in _files(face)]
    times: Counter[str] = Counter()
    for name, function in _functions(_parsed(file), ""):
        for statement in _statements(function):
            face = _face(function, statement)
            if face in faces:
                told = f"{file} {name}: {_told(statement)}"
                times[told] += 1
                number = f" ({times[told]})" if times[told] > 1 else ""
                yield Mutant(told + number, face, file, name, statement.lineno, statement.col_offset)


@cache
def _parsed(file: str) -> ast.Module:
    return ast.parse((ROOM / file).read_text(encoding="utf-8"))


def _functions(tree: ast.Module | ast.ClassDef, before: str) -> Iterator[tuple[str, Function]]:
    for node in tree.body:
        if isinstance(node, ast.ClassDef):
            yield from _functions(node, f"{before}{node.name}.")
        elif isinstance(node, ast.FunctionDef) and node.name != "__init__":
            yield before + node.name, node


def _statements(function: Function) -> list[ast.stmt]:
    found = (node for node in ast.walk(function) if isinstance(node, ast.Expr | ast.Return))
    return sorted(found, key=lambda node: (node.lineno, node.col_offset))


def _face(function: Function, statement: ast.stmt) -> Face | None:
    """The face of which the statement is a piece, or None."""
    answers = ast.unparse(function.returns) if function.returns is not None else ""
    yields = any(isinstance(node, ast.Yield | ast.YieldFrom) for node in ast.walk(function))
    if isinstance(statement, ast.Return):
        fault = answers == "str | None" and not _is_none(statement.value)
        return "posts" if answers == "Lit" else "judges" if fault else None
    assert isinstance(statement, ast.Expr)
    if isinstance(statement.value, ast.Yield | ast.YieldFrom):
        return "judges"
    return "posts" if isinstance(statement.value, ast.Call) and not yields else None


def _is_none(value: ast.expr | None) -> bool:
    return value is None or (isinstance(value, ast.Constant) and value.value is None)


def _told(statement: ast.stmt) -> str:
    told = ast.unparse(statement)
    return told if len(told) <= LENGTH else f"{told[: LENGTH - 1]}…"


class _Cut(ast.NodeTransformer):
    """Leaves out the statement of a mutant."""

    def __init__(self, mutant: Mutant) -> None:
        self._place = mutant.line, mutant.column
        self._posts = mutant.face == "posts"

    def visit_Expr(self, node: ast.Expr) -> ast.stmt:
        if (node.lineno, node.col_offset) != self._place:
            return node
        yields = isinstance(node.value, ast.Yield | ast.YieldFrom)
        return ast.Expr(ast.YieldFrom(ast.Tuple([], ast.Load()))) if yields else ast.Pass()

    def visit_Return(self, node: ast.Return) -> ast.stmt:
        if (node.lineno, node.col_offset) != self._place or node.value is None:
            return node
        other = NO if ast.unparse(node.value) == "YES" else YES
        return ast.Return(ast.Constant(other if self._posts else None))


def _inside(code: CodeType) -> Iterator[CodeType]:
    yield code
    for constant in code.co_consts:
        if isinstance(constant, CodeType):
            yield from _inside(constant)
