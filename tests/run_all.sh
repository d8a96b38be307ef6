#!/usr/bin/env bash
# Every test there is: C++, Python, examples, style, and the C++ tests again under sanitizers.
#   bash tests/run_all.sh            on two cores well under half an hour
#   bash tests/run_all.sh --long     the second compiler too
# All steps run, whatever fails; the last lines tell the counts of each.
source "$(dirname "${BASH_SOURCE[0]}")/../examples/set_up.sh"
cd "$root"

long=no
case "${1:-}" in
  --long) long=yes ;;
  "") ;;
  *) stop "usage: bash tests/run_all.sh [--long]" ;;
esac

cores="$(nproc)"
results=()
failed=0

# step NAME COMMAND...: its log, and for the end one line with the counts its tool gave.
step() {
  local name="$1" start=$SECONDS verdict=ok log counts
  shift
  log="$root/build/log/${name//[^a-zA-Z0-9]/_}.txt"
  printf '\n=== %s\n' "$name"
  if ! "$@" 2>&1 </dev/null | tee "$log"; then
    verdict=FAILED
    failed=$((failed + 1))
  fi
  counts="$(grep -E '([0-9]+ (passed|failed|skipped|errors?)\b.* in )|tests passed,|Success: no issues|All checks passed' "$log" | tail -1 || true)"
  results+=("$(printf '%-6s %5d s  %-34s %s' "$verdict" $((SECONDS - start)) "$name" "${counts//=/}")")
}

# One preset of cpp/CMakePresets.json: configure, build, test.
cpp_tests() {
  (
    cd cpp
    cmake --preset "$1" && cmake --build --preset "$1" --parallel "$cores" && ctest --preset "$1" --parallel "$cores"
  )
}

examples() {
  bash examples/first_season.sh && "$python" examples/first_season.py
}

# The Python module itself under the address and undefined-behaviour sanitizers: one season through every layer.
smoke_under_sanitizers() {
  local site="$root/build/python-asan/site/seasonrisk"
  cmake -S . -B build/python-asan -G Ninja -DCMAKE_BUILD_TYPE=RelWithDebInfo -DPython_EXECUTABLE="$python" \
    -Dpybind11_DIR="$("$python" -m pybind11 --cmakedir)" \
    -DCMAKE_CXX_FLAGS="-fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer" &&
    cmake --build build/python-asan --parallel "$cores" --target _core &&
    mkdir -p "$site" && cp -r python/seasonrisk/. "$site" && cp build/python-asan/_core*.so "$site" &&
    LD_PRELOAD="$(g++ -print-file-name=libasan.so) $(g++ -print-file-name=libstdc++.so)" \
      ASAN_OPTIONS=detect_leaks=0 PYTHONMALLOC=malloc PYTHONPATH="$root/build/python-asan/site" \
      "$python" -m seasonrisk season examples/plans/one_boat.toml --seasons 2000 --seed 7
}

install_packages "${library_packages[@]}" catch2 libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0  # the last three draw PDFs
install_package
tests_stamp="$root/.venv/tests.stamp"
if [[ "$(cat "$tests_stamp" 2>/dev/null)" != "$(sha256sum <pyproject.toml)" ]]; then
  quietly "installing what the tests need" "$python" -m pip install --group test
  sha256sum <pyproject.toml >"$tests_stamp"
fi

step "C++ tests" cpp_tests release
step "Python tests" "$python" -m pytest
step "examples" examples
step "types" "$python" -m mypy
step "style" "$python" -m ruff check .
step "C++ under address sanitizer" cpp_tests asan
step "C++ under thread sanitizer" cpp_tests tsan
step "Python under address sanitizer" smoke_under_sanitizers
if [[ $long == yes ]]; then
  if command -v clang++-14 >/dev/null; then
    step "C++ tests, second compiler" cpp_tests clang
  else
    say "The second compiler is not there: sudo apt-get install clang-14"
    failed=$((failed + 1))
  fi
fi

printf '\n=== all steps\n'
printf '%s\n' "${results[@]}"
((failed == 0)) || stop "$failed steps FAILED"
say "all steps passed"
