# shellcheck shell=bash
# Shared by tools/run and tools/test (sourced, not run): packages, configure, build. Exit 3 means the
# environment is at fault, and says what to do about it.

project=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
packages=$project/tools/packages

say() { printf '== %s\n' "$*"; }
environment_fault() { printf '%s\n' "$@" >&2; exit 3; }

# "debian-12", "ubuntu-24.04", or whatever else this system calls itself.
system_name() {
  (. /etc/os-release 2>/dev/null && printf '%s-%s\n' "${ID:-unknown}" "${VERSION_ID:-unknown}") ||
    printf 'unknown\n'
}

# missing_packages LIST...: what this system lacks of these lists, one name a line.
missing_packages() {
  local list name limits installed
  installed=$(dpkg-query -W -f='${db:Status-Status} ${Package}\n')
  for list; do
    while read -r name limits; do
      case $name in '' | '#'*) continue ;; esac
      case $limits in
        command=*) command -v "${limits#command=}" >/dev/null && continue ;;
        system=*) [ "${limits#system=}" = "$(system_name)" ] || continue ;;
      esac
      grep -qxF "installed $name" <<<"$installed" || printf '%s\n' "$name"
    done <"$packages/$list.txt"
  done
}

as_administrator() {
  if [ "$(id -u)" = 0 ]; then "$@"; else sudo "$@"; fi
}

# install_packages LIST...: installs what is missing, asks for nothing when nothing is.
install_packages() {
  case $(system_name) in
    debian-12 | ubuntu-24.04) ;;
    *) other_system=yes; return ;;
  esac
  local missing
  mapfile -t missing < <(missing_packages "$@")
  [ ${#missing[@]} -gt 0 ] || return 0
  if [ "$(id -u)" != 0 ] && ! command -v sudo >/dev/null; then
    environment_fault "These packages are missing and only an administrator can install them. Run as one:" \
      "  apt-get update && apt-get install -y --no-install-recommends ${missing[*]}"
  fi
  say "installing ${missing[*]}"
  if ! as_administrator apt-get update -q || ! as_administrator env DEBIAN_FRONTEND=noninteractive \
    apt-get install -q -y --no-install-recommends "${missing[@]}"; then
    environment_fault "The packages could not be installed; the lines above say why."
  fi
}

say_what_to_install() {
  printf 'This is %s; packages are installed by themselves on Debian 12 and Ubuntu 24.04 only.\n' "$(system_name)"
  printf 'Install these with your own system'"'"'s means, then run the command again:\n\n'
  cat "$packages/upstream.txt"
}

# is_configured PRESET: done before, in this folder, and with the presets as they are now. A changed
# CMakeLists.txt is seen by the build itself.
is_configured() {
  local folder=$project/build/$1
  [ -f "$folder/build.ninja" ] && [ "$folder/CMakeCache.txt" -nt "$project/CMakePresets.json" ] &&
    grep -qxF "CMAKE_HOME_DIRECTORY:INTERNAL=$project" "$folder/CMakeCache.txt"
}

# configure PRESET: only when needed.
configure() {
  is_configured "$1" && return
  say "configuring $1"
  rm -f "$project/build/$1"/{CMakeCache.txt,build.ninja}
  (cd "$project" && cmake --preset "$1") && return
  [ -z "${other_system:-}" ] || environment_fault "$(say_what_to_install)"
  environment_fault "The build could not be configured; the lines above say why."
}

# build PRESET [TARGET...]: everything when no target is named.
build() {
  local preset=$1
  shift
  say "building $preset"
  cmake --build "$project/build/$preset" --parallel "$(nproc)" ${1:+--target "$@"}
}
