#!/bin/sh
# check-format.sh ROOT: is every C file as .clang-format would write it? Skipped (77) without clang-format 14 or newer.
# check-format.sh ROOT --fix writes them so.
set -eu

command -v clang-format >/dev/null || { echo "clang-format is not installed"; exit 77; }
version=$(clang-format --version | sed 's/.*version \([0-9]*\).*/\1/')
[ "$version" -ge 14 ] || { echo "clang-format $version is too old"; exit 77; }

cd "$1"
if [ "${2:-}" = --fix ]; then
  find src tests -name '*.[ch]' -exec clang-format -i {} +
  exit
fi
wrong=$(find src tests -name '*.[ch]' -exec clang-format --dry-run -Werror --ferror-limit=1 {} + 2>&1 |
  sed -n 's/^\([^ :]*:[0-9]*\):.*error:.*/\1/p' | sort)
[ -n "$wrong" ] || exit 0
echo "not as clang-format would write it, first at these lines; tests/house/check-format.sh . --fix mends it"
echo "$wrong"
exit 1
