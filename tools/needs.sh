#!/usr/bin/env bash
# needs.sh INSTALL PACKAGE...   installs the Debian packages that are missing, saying which.
# INSTALL=no refuses and says what to install by hand.
set -eu
install=$1; shift
missing=()
for p in "$@"; do
    # "package:command": whatever brings the command will do.
    if [[ $p == *:* ]]; then
        command -v "${p#*:}" >/dev/null && continue
        p=${p%%:*}
    fi
    if ! dpkg-query -W -f '${Status}' "$p" 2>/dev/null | grep -q 'ok installed'; then missing+=("$p"); fi
done
[ ${#missing[@]} -eq 0 ] && exit 0
if [ "$install" = no ]; then
    echo "missing packages: ${missing[*]}; install them with: apt-get install ${missing[*]}" >&2
    exit 2
fi
if ! command -v apt-get >/dev/null; then
    echo "missing: ${missing[*]} (Debian's names), and no apt-get here; install their like by hand, then INSTALL=no make" >&2
    exit 2
fi
echo "installing from Debian's packages: ${missing[*]}"
sudo=
if [ "$(id -u)" != 0 ]; then
    command -v sudo >/dev/null || { echo "not root and no sudo: run as root: apt-get install ${missing[*]}" >&2; exit 2; }
    sudo=sudo
fi
$sudo apt-get update -qq
$sudo env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
