# shellcheck shell=bash
# Everything the examples and the tests need on Debian 12, Ubuntu 24.04 or newer: sourced, never run.
# Packages of the system come from apt, everything else stays inside this folder: .venv and build.
set -euo pipefail

root="$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)"
python="$root/.venv/bin/python"

mkdir -p "$root/build/log" "$root/build/tmp"
export TMPDIR="$root/build/tmp" PIP_CACHE_DIR="${PIP_CACHE_DIR:-$root/build/pip}" MPLCONFIGDIR="$root/build/matplotlib"
export PIP_DISABLE_PIP_VERSION_CHECK=1 PIP_NO_INPUT=1 PIP_ROOT_USER_ACTION=ignore

say() { printf '%s\n' "$*"; }
stop() { printf '%s\n' "$*" >&2; exit 1; }

# quietly WHAT COMMAND...: one line while it works, the whole log if it fails.
quietly() {
  local what="$1" log
  shift
  log="$root/build/log/${what//[^a-zA-Z0-9]/_}.txt"
  say "  $what ..."
  if ! "$@" >"$log" 2>&1 </dev/null; then
    cat "$log" >&2
    stop "Could not do this: $what. The lines above say why."
  fi
}

new_enough() { "$1" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; }

# The first Python of 3.11 or newer; the plain name first, for that is the one the user chose.
find_python() {
  local candidate
  for candidate in python3 python3.13 python3.12 python3.11 /usr/bin/python3; do
    if new_enough "$candidate"; then
      "$candidate" -c 'import sys; print(sys.executable)'
      return
    fi
  done
}

has_package() { [[ "$(dpkg-query -W -f='${Status}' "$1" 2>/dev/null)" == "install ok installed" ]]; }

# The packages among the arguments, and those a usable Python needs, that are not there.
missing_packages() {
  local package found
  for package in g++ "$@"; do has_package "$package" || say "$package"; done
  command -v cmake >/dev/null || say cmake
  command -v ninja >/dev/null || say ninja-build
  found="$(find_python)"
  if [[ -z "$found" ]]; then
    say python3 python3-venv python3-dev
  elif [[ "$("$found" -c 'import sys; print(sys.base_prefix)')" == /usr ]]; then
    "$found" -c 'import ensurepip, venv' 2>/dev/null || say python3-venv
    "$found" -c 'import os, sysconfig; os.stat(sysconfig.get_path("include") + "/Python.h")' 2>/dev/null || say python3-dev
  fi
}

# install_packages PACKAGE...: from apt, when something is missing and we may.
install_packages() {
  local missing as_root=()
  command -v apt-get >/dev/null || return 0  # not Debian: the build itself says what it misses
  mapfile -t missing < <(missing_packages "$@" | tr ' ' '\n')
  ((${#missing[@]})) || return 0
  if ((EUID != 0)); then
    if ! command -v sudo >/dev/null || { ! sudo -n true 2>/dev/null && [[ ! -t 0 ]]; }; then
      stop "Some packages are missing, and only root may install them. Type this, then start again:
  sudo apt-get install ${missing[*]}"
    fi
    say "Packages to install, for which sudo may ask your password: ${missing[*]}"
    sudo true
    as_root=(sudo)
  fi
  quietly "looking up packages" "${as_root[@]}" apt-get update
  quietly "installing ${missing[*]}" "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
    apt-get install -y --no-install-recommends "${missing[@]}"
}

# What the installed package was made from. The folder counts too: an environment cannot be moved.
fingerprint() {
  (
    cd "$root"
    pwd
    find CMakeLists.txt pyproject.toml README.md LICENSE cpp python -type f -not -name '*.pyc' -print0 \
      | LC_ALL=C sort -z | xargs -0 sha256sum
  ) | sha256sum
}

# A virtual environment with the package in it; a matter of a second when nothing has changed.
install_package() {
  local stamp="$root/.venv/package.stamp" base
  [[ -f "$stamp" && "$(<"$stamp")" == "$(fingerprint)" ]] && "$python" -c 'import seasonrisk' 2>/dev/null && return
  if [[ "$(cat "$root/.venv/folder" 2>/dev/null)" != "$root" ]] || ! new_enough "$python"; then
    base="$(find_python)"
    [[ -n "$base" ]] || stop "Python 3.11 or newer is needed, and this machine has none (Debian 12 and Ubuntu 24.04 do)."
    quietly "making a virtual environment" "$base" -m venv --clear "$root/.venv"
    quietly "bringing pip up to date" "$python" -m pip install --upgrade pip
    printf '%s' "$root" >"$root/.venv/folder"
  fi
  quietly "building and installing seasonrisk, which takes a few minutes" "$python" -m pip install "${root}[report,edit]"
  fingerprint >"$stamp"
}

library_packages=(libboost-dev libeigen3-dev libtomlplusplus-dev)
