#!/bin/sh
# check-format.sh ROOT: is every C file as .clang-format would write it? Skipped (77) without clang-format 14 or newer.
# check-format.sh ROOT --fix writes them so.
set -eu

command -v clang-format >/dev/null || { echo "clang-format is not installed"; exit 77; }
version=$(clang-format --version | sed 's/.*version \([0-9]*\).*/\1/')
[ "$version" -ge 14 ] || { echo "clang-format $version is too old"; exit 77; }

cd "$1"
case ${2:-} in
  --fix) find src tests -name '*.[ch]' -exec clang-format -i {} + ;;
  *) find src tests -name '*.[ch]' -exec clang-format --dry-run -Werror {} + ;;
esac
