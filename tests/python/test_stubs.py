# SPDX-License-Identifier: MIT
"""The written stub says what the built module has. Source: the stub against the module, by mypy's own comparison."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
import seasonrisk as sr
from seasonrisk import _core

STUB = Path(sr.__file__).with_name("_core.pyi")
NOT_IN_THE_MODULE = {"BuildConfig", "ReplayDict"}  # names for the shape of a dict


def test_stub_and_module_name_the_same_things() -> None:
    tree = ast.parse(STUB.read_text("utf-8"))
    classes = {node.name: node for node in tree.body if isinstance(node, ast.ClassDef)}
    functions = {node.name for node in tree.body if isinstance(node, ast.FunctionDef)}
    values = {
        node.target.id for node in tree.body if isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name)
    }
    public = {name for name in vars(_core) if not name.startswith("_")}

    assert (set(classes) - NOT_IN_THE_MODULE) | functions | values == public
    for name in set(classes) - NOT_IN_THE_MODULE:
        members = {node.name for node in classes[name].body if isinstance(node, ast.FunctionDef)}
        there = {member for member in vars(getattr(_core, name)) if not member.startswith("_")}
        assert {member for member in members if not member.startswith("_")} == there, name


def test_mypy_finds_no_difference(tmp_path: Path) -> None:
    """What mypy sees of a compiled module: names, kinds, properties; signatures are compared below. Left out is what
    no stub can say: the metaclass and the never-called __init__ of pybind11."""
    pytest.importorskip("mypy", reason="mypy is not installed")
    allowed = [rf"seasonrisk\._core\.{name}" for name in sorted(NOT_IN_THE_MODULE)]
    allowed += [rf"seasonrisk\._core\.{name}(\.__init__)?" for name in sorted(vars(_core)) if name[0].isupper()]
    (tmp_path / "allowed.txt").write_text("\n".join(allowed))

    options = ["--concise", "--ignore-disjoint-bases", "--ignore-unused-allowlist", "--allowlist", "allowed.txt"]
    command = [sys.executable, "-m", "mypy.stubtest", "seasonrisk._core", *options]
    result = subprocess.run(command, capture_output=True, text=True, cwd=tmp_path)

    assert result.returncode == 0, result.stdout + result.stderr


def parameters_in_stub(function: ast.FunctionDef) -> list[str]:
    arguments = function.args
    return [argument.arg for argument in (*arguments.posonlyargs, *arguments.args, *arguments.kwonlyargs)]


def parameters_as_built(function: object) -> list[str]:
    """pybind11 writes the signature into the first line of the docstring, each name followed by its type."""
    first_line = (function.__doc__ or "").splitlines()[0]
    return re.findall(r"(\w+): ", first_line)


def test_every_function_has_the_parameters_that_the_stub_says() -> None:
    tree = ast.parse(STUB.read_text("utf-8"))
    compared = 0
    for node in tree.body:
        owner, members = (
            (getattr(_core, node.name, None), node.body) if isinstance(node, ast.ClassDef) else (_core, [node])
        )
        for member in members:
            if not isinstance(member, ast.FunctionDef) or member.decorator_list or member.name == "__eq__":
                continue  # a property has no parameters; == is the same for every class
            built = getattr(owner, member.name)
            assert parameters_as_built(built) == parameters_in_stub(member), member.name
            compared += 1
    assert compared >= 19  # 14 functions and 5 methods stand in the stub


def test_columns_are_taken_as_they_are_or_not_at_all() -> None:
    """A silent copy of the wrong type or order would cost more than the sum: float64, contiguous, one dimension."""
    wrong = (np.zeros(4, dtype=np.float32), np.zeros(8)[::2], [0.0, 1.0])
    for values in wrong:
        with pytest.raises(TypeError, match="incompatible function arguments"):
            _core.mean(values)  # type: ignore[arg-type]
    with pytest.raises(ValueError, match="must have one dimension, not 2"):
        _core.mean(np.zeros((2, 2)))
    assert _core.mean(np.array([1.0, 3.0])).value == 2.0
