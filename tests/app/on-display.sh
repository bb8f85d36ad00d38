#!/bin/sh
# on-display.sh PROGRAM ARG...: runs it on a virtual display of its own and exits as it did. The server picks the number
# of its display itself: xvfb-run guesses one, and meets a server that is still starting or ending.
set -u

folder=$(mktemp -d) || exit 1
mkfifo "$folder/number" || exit 1
Xvfb -displayfd 3 -screen 0 1280x900x24 -nolisten tcp 3>"$folder/number" >/dev/null 2>"$folder/log" &
server=$!
trap 'kill $server 2>/dev/null; rm -rf "$folder"' EXIT
trap 'exit 1' HUP INT TERM

read -r number <"$folder/number" || { cat "$folder/log" >&2; exit 1; }
DISPLAY=:$number "$@"
