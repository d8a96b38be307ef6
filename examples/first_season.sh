#!/usr/bin/env bash
# From nothing to a first answer: sets up what is missing, simulates 100,000 seasons of the invented Marigold
# Anne, prints the page a skipper reads and writes the same with pictures to first_season.html.
source "$(dirname "${BASH_SOURCE[0]}")/set_up.sh"
cd "$root"

install_packages "${library_packages[@]}"
install_package

"$python" -m seasonrisk season examples/plans/one_boat.toml --seasons 100000 --seed 7 \
  --report first_season.html --overwrite
