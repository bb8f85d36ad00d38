#!/bin/sh
# check-shell.sh ROOT: the scripts of the house parse, and shellcheck finds nothing where it is installed.
set -eu

cd "$1"
scripts="run check .ci/run .ci/house.sh .ci/fuzz tests/house/*.sh"
for script in $scripts; do
  sh -n "$script"
done
command -v shellcheck >/dev/null || { echo "they parse; shellcheck is not installed"; exit 0; }
# shellcheck disable=SC2086 # the names are words
shellcheck -x $scripts
