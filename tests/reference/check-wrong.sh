#!/bin/sh
# check-wrong.sh PROGRAM FOLDER: does the program fail every row of a folder where every row is wrong?
if output=$("$1" "$2"); then
  echo "it succeeded"
  exit 1
fi
rows=$(($(wc -l < "$2/wrong.csv") - 1))
[ "$(echo "$output" | tail -n 1)" = "0 passed, $rows failed" ] || { echo "$output"; exit 1; }
