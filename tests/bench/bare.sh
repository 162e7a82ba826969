#!/bin/sh
# bare.sh [FOLDER]: the first run from nothing. Makes a bare Debian 12 in FOLDER (a temporary one; as root, with a network and
# debootstrap), clones the last commit into it, and checks there that scenarios/first-run.sh
#   - says what is missing, without root, and ends with an error;
#   - as root installs, builds, runs, and leaves CSV, JSON and a plot;
#   - takes under 5 s the second time;
#   - goes on without the window and without plots where SDL2 and cairo are not to be had.
set -eu
top=$(cd "$(dirname "$0")/../.." && pwd)
where=${1:-$(mktemp -d)}
[ $# -gt 0 ] || trap 'rm -rf "$where"' EXIT INT TERM
[ "$(id -u)" -eq 0 ] || { echo "Only root can make a bare system." >&2; exit 1; }
mkdir -p "$where"
[ -e "$where/etc/debian_version" ] || debootstrap --variant=minbase bookworm "$where" >"$where.log"
cp /etc/resolv.conf "$where/etc/resolv.conf"
rm -rf "$where/tmp/tree"
git clone -q "$top" "$where/tmp/tree"

# inside USER COMMAND: in the bare system, at the top of the tree.
inside() {
    chroot --userspec="$1" "$where" /usr/bin/env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin HOME=/tmp sh -c "cd /tmp/tree && $2"
}

echo "== without root"
chown -R 65534:65534 "$where/tmp/tree"
if inside 65534:65534 "sh scenarios/first-run.sh"; then echo "it should have failed"; exit 1; fi
chown -R 0:0 "$where/tmp/tree"

echo "== first run"
inside 0:0 "sh scenarios/first-run.sh"
for file in csv json png; do [ -s "$where/tmp/tree/.build/first-leak/first-leak.$file" ]; done

echo "== second run"
before=$(date +%s%N)
inside 0:0 "sh scenarios/first-run.sh" >"$where/tmp/second"
took=$((($(date +%s%N) - before) / 1000000))
tail -4 "$where/tmp/second"
echo "took $took ms"
[ "$took" -lt 5000 ]

echo "== no SDL2, no cairo, none to be had"
inside 0:0 "apt-get remove -y -q libsdl2-dev libcairo2-dev && apt-get -y -q autoremove && apt-get clean && rm -rf /var/lib/apt/lists/* .build" >/dev/null
cp "$where/etc/apt/sources.list" "$where/tmp/sources"
echo "deb http://127.0.0.1:9/debian bookworm main" >"$where/etc/apt/sources.list"
inside 0:0 "sh scenarios/first-run.sh" || { cp "$where/tmp/sources" "$where/etc/apt/sources.list"; exit 1; }
cp "$where/tmp/sources" "$where/etc/apt/sources.list"
[ -s "$where/tmp/tree/.build/first-leak/first-leak.csv" ]
echo "All as it should be."
