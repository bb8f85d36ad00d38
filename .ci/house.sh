# shellcheck shell=sh
# Shared by ./run and ./check, which source it at the top of the tree: find what is missing, install it, build.

say () { printf '%s\n' "$*" >&2; }
die () { say "$*"; exit 1; }

# present PROBE: is the thing that a line of .ci/packages looks for on this machine?
present () {
  case $1 in
    command:*) command -v "${1#*:}" >/dev/null ;;
    module:*) pkg-config --exists "${1#*:}" 2>/dev/null ;;
    file:*) [ -e "${1#*:}" ] ;;
    font:*) [ -n "$(fc-list "${1#*:}" 2>/dev/null)" ] ;;
    loader:*) grep -qs "\"${1#*:}\"" "$(pkg-config --variable=gdk_pixbuf_cache_file gdk-pixbuf-2.0 2>/dev/null)" ;;
    library:*) find /usr/lib/clang /usr/lib/llvm-* /usr/lib64/clang -name "${1#*:}*" 2>/dev/null | grep -q . ;;
    *) die ".ci/packages: cannot look for '$1'" ;;
  esac
}

# missing USE...: the packages of these uses that are not there, on one line
missing () {
  while read -r use package probe; do
    case " $* " in *" $use "*) present "$probe" || printf '%s ' "$package" ;; esac
  done < .ci/packages
}

# need USE...: install what is missing; only ever asks for rights when something is
need () {
  lacking=$(missing "$@")
  [ -n "$lacking" ] || return 0
  if [ ! -e /etc/debian_version ] || ! command -v apt-get >/dev/null; then
    die "Please install what Debian calls: $lacking- then run this again."
  elif [ "$(id -u)" = 0 ]; then
    as_root=
  elif command -v sudo >/dev/null && { sudo -n true 2>/dev/null || { [ -t 0 ] && sudo -v; }; }; then
    as_root=sudo
  else
    die "Please have an administrator run: apt-get install --no-install-recommends $lacking"
  fi
  writable build
  say "Installing $lacking(log: build/install.log)"
  # A list of packages that knows the names is used as it is, and fetched anew only when the mirror has moved on.
  # shellcheck disable=SC2086 # the names are words
  { { apt-cache show $lacking >/dev/null 2>&1 && install_packages $lacking; } ||
      { $as_root apt-get -q update && install_packages $lacking; }; } >build/install.log 2>&1 ||
    { tail -n 20 build/install.log >&2; die "apt-get could not install: $lacking"; }
  lacking=$(missing "$@")
  [ -z "$lacking" ] || die "Installed, but still not found: $lacking"
}

install_packages () {
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get -q -y -o Dpkg::Use-Pty=0 install --no-install-recommends "$@"
}

# writable FOLDER: make it, or say that it is another user's
writable () {
  { mkdir -p "$1" 2>/dev/null && [ -w "$1" ]; } || die "Cannot write to $PWD/$1: it belongs to another user."
}

# build FOLDER OPTION...: configure once, build always; quiet unless it fails
build () {
  folder=$1
  shift
  writable "$folder"
  if [ ! -e "$folder/build.ninja" ]; then
    meson setup "$folder" . "$@" >"$folder/setup.log" 2>&1 || { cat "$folder/setup.log" >&2; return 1; }
  fi
  ninja -C "$folder" -j "$(nproc)" >"$folder/build.log" 2>&1 || { cat "$folder/build.log" >&2; return 1; }
}
