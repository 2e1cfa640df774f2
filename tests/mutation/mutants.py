"""Mutants: one small change of meaning each, in the code that counts and judges."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from copy import copy
from pathlib import PurePosixPath
from types import CodeType
from typing import Any, NamedTuple

COMPARISONS: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.GtE), ast.LtE: (ast.Lt, ast.Gt), ast.Gt: (ast.GtE, ast.LtE), ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,), ast.NotEq: (ast.Eq,), ast.Is: (ast.IsNot,), ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,), ast.NotIn: (ast.In,),
}  # fmt: skip
SUMS: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.FloorDiv: ast.Mult,
}  # fmt: skip
CALLS = {"min": "max", "max": "min", "any": "all", "all": "any"}
PLACES = (-1, 0, 1)
"""Numbers that pick the first, the last or the second of something: they are no figures."""
SETTINGS = frozenset({"strict", "frozen", "slots", "kw_only"})
"""Keywords that say how Python is to work."""
SHARES = 0.001, 1
"""Figures that one more would change beyond measure."""
SHOWN = 90
"""Characters of a change that are shown."""


class Mutant(NamedTuple):
    """A module with one change."""

    file: str
    """The module's file, from the top of the tree, with slashes."""
    line: int
    change: str
    """What stood there, and what stands there now."""
    code: CodeType

    @property
    def module(self) -> str:
        """The module's name."""
        return ".".join(PurePosixPath(self.file).with_suffix("").parts)


class Spot(NamedTuple):
    """A place in a syntax tree that holds a node."""

    parent: ast.AST
    field: str
    index: int | None

    def put(self, node: ast.AST) -> None:
        """Put a node there."""
        if self.index is None:
            setattr(self.parent, self.field, node)
        else:
            getattr(self.parent, self.field)[self.index] = node


def mutants_of(file: str, text: str) -> Iterator[Mutant]:
    """Every mutant of a module, in the order of its text; none that changes nothing, or only what is written for people."""
    tree = ast.parse(text)
    original = compile(tree, file, "exec")
    for spot, node in list(_spots(tree)):
        for changed in _variants(node):
            ast.copy_location(changed, node)
            spot.put(ast.fix_missing_locations(changed))
            code = compile(tree, file, "exec")
            spot.put(node)
            if code != original:
                line = getattr(node, "lineno", 0)
                yield Mutant(file, line, f"{_shown(node)}  ->  {_shown(changed)}", code)


def _shown(node: ast.AST) -> str:
    text = ast.unparse(node)
    return text if len(text) <= SHOWN else f"{text[: SHOWN - 1]}…"


def _spots(holder: ast.AST) -> Iterator[tuple[Spot, ast.AST]]:
    """Every node whose change matters, with its place."""
    for field, value in ast.iter_fields(holder):
        if _is_idle(holder, field):
            continue
        nodes = enumerate(value) if isinstance(value, list) else [(None, value)]
        for index, node in nodes:
            if isinstance(node, ast.AST):
                yield Spot(holder, field, index), node
                yield from _spots(node)


def _is_idle(holder: ast.AST, field: str) -> bool:
    """Whether what stands there is never run, picks a place, sets up Python, or only words a sentence."""
    match holder:
        case ast.JoinedStr():
            return True
        case ast.IfExp():
            return field == "test" and _is_text(holder.body) and _is_text(holder.orelse)
        case ast.If(test=ast.Name(id="TYPE_CHECKING")):
            return True
        case ast.Subscript():
            return field == "slice" and _picks_places(holder.slice)
        case ast.keyword():
            return holder.arg in SETTINGS
        case _:
            return field in ("annotation", "returns", "decorator_list", "type_params")


def _is_text(node: ast.AST) -> bool:
    match node:
        case ast.Constant():
            return isinstance(node.value, str)
        case ast.IfExp():
            return _is_text(node.body) and _is_text(node.orelse)
        case _:
            return isinstance(node, ast.JoinedStr)


def _picks_places(slice_: ast.expr) -> bool:
    """Whether an index or a slice is made of small numbers alone."""
    bounds = (slice_.lower, slice_.upper, slice_.step) if isinstance(slice_, ast.Slice) else (slice_,)
    return all(bound is None or _number(bound) in PLACES for bound in bounds)


def _number(node: ast.expr) -> object:
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        inner = _number(node.operand)
        return -inner if isinstance(inner, int) else None
    return node.value if isinstance(node, ast.Constant) else None


def _variants(node: ast.AST) -> Iterator[ast.AST]:
    """What a node may be changed to."""
    match node:
        case ast.Compare():
            for place, operator in enumerate(node.ops):
                for other in COMPARISONS[type(operator)][_is_lenient(node) :]:
                    yield _with(node, ops=[*node.ops[:place], other(), *node.ops[place + 1 :]])
        case ast.BoolOp():
            yield _with(node, op=ast.Or() if isinstance(node.op, ast.And) else ast.And())
        case ast.UnaryOp(op=ast.Not() | ast.USub()):
            yield copy(node.operand)
        case ast.BinOp() if type(node.op) in SUMS and not (_is_row(node.left) or _is_row(node.right)):
            yield _with(node, op=SUMS[type(node.op)]())
        case ast.Call(func=ast.Name(id=name)) if name in CALLS:
            yield _with(node, func=ast.copy_location(ast.Name(CALLS[name], ast.Load()), node.func))
        case ast.Constant(value=bool() | int() | float() as value):
            yield _with(node, value=_other_value(value))


def _other_value(value: float) -> float:
    """The other truth; one more; of a share half as much again."""
    if isinstance(value, bool):
        return not value
    return value * 1.5 if SHARES[0] <= value < SHARES[1] else value + 1


def _is_lenient(comparison: ast.Compare) -> bool:
    """Whether a tolerance is counted in, so that what stands right at the limit does not matter."""
    return any(isinstance(node, ast.Name) and "TOLERANCE" in node.id for node in ast.walk(comparison))


def _is_row(node: ast.AST) -> bool:
    """Whether a node is plainly a text or a row of things, which are joined and not added."""
    return _is_text(node) or isinstance(node, (ast.Tuple, ast.List))


def _with(node: ast.AST, **fields: Any) -> ast.AST:
    changed = copy(node)
    for field, value in fields.items():
        setattr(changed, field, value)
    return changed
