# SPDX-License-Identifier: MIT
"""The tree keeps to its own rules. Source of every expectation: the rules DEVELOPERS.md states."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
FOLDERS = ("math", "random", "plan", "season", "ensemble", "summary", "choice", "credit")
TOP_LEVEL = {
    "CMakeLists.txt", "DEVELOPERS.md", "LICENSE", "README.md", "pyproject.toml",
    "cpp", "examples", "notebooks", "python", "tests",
}  # fmt: skip
# Texts (.inc) are taken in more than once, by files that set what they are written for.
ENGINE = sorted(
    path
    for folder in ("include", "src")
    for path in ROOT.glob(f"cpp/{folder}/**/*")
    if path.suffix in (".hpp", ".cpp", ".inc")
)

# What the engine must not contain, each with what it would break.
FORBIDDEN = {
    "bits that differ between machines": r"\bstd::(exp|exp2|expm1|log|log2|log10|log1p|pow)\b",
    "draws that differ between compilers": r"\bstd::\w+_distribution\b|\bstd::random_device\b|\b(std::)?rand\(",
    "a library that prints": r"\bstd::(cout|cerr|clog)\b|\b(std::)?f?printf\(|#include <iostream>",
    "a library that reads the environment": r"\bgetenv\(|\bsetlocale\(",
}


def name(path: Path) -> str:
    return str(path.relative_to(ROOT))


def code(text: str) -> str:
    """The text without its comments."""
    return re.sub(r"//[^\n]*|/\*.*?\*/", "", text, flags=re.DOTALL)


def folder_of(path: Path) -> str:
    return path.relative_to(ROOT / "cpp").parts[2 if "include" in path.parts else 1]


def wrong_includes(folder: str, text: str) -> list[str]:
    """Includes of `text`, a file of `folder`, that go to the right."""
    included = re.findall(r'#include [<"]seasonrisk/(\w+)/', text)
    return [other for other in included if FOLDERS.index(other) > FOLDERS.index(folder)]


def listed(cmake_file: str) -> set[str]:
    """Source files that a CMake file names, as paths from the root."""
    file = ROOT / cmake_file
    words = re.findall(r"[\w./-]+\.(?:[ch]pp|inc)\b", file.read_text("utf-8"))
    return {name((file.parent / word).resolve()) for word in words}


def there(*patterns: str) -> set[str]:
    return {name(path) for pattern in patterns for path in ROOT.glob(pattern)}


def test_the_engine_is_found() -> None:
    assert {folder_of(path) for path in ENGINE if len(path.relative_to(ROOT).parts) > 3} >= set(FOLDERS)


@pytest.mark.parametrize("path", ENGINE, ids=name)
def test_includes_go_left_only(path: Path) -> None:
    assert wrong_includes(folder_of(path), path.read_text("utf-8")) == []


def test_an_include_to_the_right_is_seen() -> None:
    assert wrong_includes("plan", '#include "seasonrisk/season/calendar.hpp"\n') == ["season"]


@pytest.mark.parametrize("path", ENGINE, ids=name)
def test_private_headers_stay_in_their_folder(path: Path) -> None:
    local = re.findall(r'#include "([^"]+)"', path.read_text("utf-8"))
    private = [header for header in local if not header.startswith("seasonrisk/")]
    assert [header for header in private if not (path.parent / header).is_file() or ".." in header] == []


@pytest.mark.parametrize("breaks", FORBIDDEN)
def test_the_engine_is_free_of(breaks: str) -> None:
    assert [name(path) for path in ENGINE if re.search(FORBIDDEN[breaks], code(path.read_text("utf-8")))] == []


@pytest.mark.parametrize(
    "line", ["x = std::exp(y);", "std::normal_distribution<> z;", "std::cout << x;", 'getenv("HOME");']
)
def test_a_forbidden_line_is_seen(line: str) -> None:
    assert sum(bool(re.search(pattern, code(line))) for pattern in FORBIDDEN.values()) == 1


@pytest.mark.parametrize("path", ENGINE, ids=name)
def test_files_begin_as_they_should(path: Path) -> None:
    lines = path.read_text("utf-8").splitlines()
    assert lines[0] == "// SPDX-License-Identifier: MIT"
    assert (lines[1] == "#pragma once") == (path.suffix == ".hpp")


def test_every_source_is_listed_in_cmake() -> None:
    assert listed("cpp/CMakeLists.txt") >= there("cpp/src/**/*.cpp", "cpp/include/**/*.hpp", "cpp/include/**/*.inc", "examples/cpp/*.cpp")
    assert listed("tests/cpp/CMakeLists.txt") >= there("tests/cpp/**/*.test.cpp")
    assert listed("CMakeLists.txt") >= there("python/bindings/*.cpp")


def test_the_top_level_holds_what_it_may() -> None:
    made_by_tools = {line.strip("/") for line in (ROOT / ".gitignore").read_text("utf-8").splitlines()}
    visible = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    assert visible - made_by_tools <= TOP_LEVEL


@pytest.mark.parametrize("path", [*ROOT.glob("cpp/**/CMakeLists.txt"), *ROOT.glob("cpp/CMakePresets.json")], ids=name)
def test_no_flag_changes_results_or_ties_them_to_a_machine(path: Path) -> None:
    flags = re.sub(r"#[^\n]*", "", path.read_text("utf-8"))
    assert not re.search(r"-ffast-math|-Ofast|-march=native", flags)
