#!/bin/sh
# From a bare Debian 12 to the first leak test: installs what is missing (as root), builds into .build/, runs
# scenarios/first-leak.yaml and says what to try next. Run again, it only builds what has changed.
set -u
top=$(cd "$(dirname "$0")/.." && pwd) || exit 1
came_from=$(pwd)
cd "$top" || exit 1
. .ci/packages.sh

# Says what is missing and how to get it, and ends.
missing() {
    echo "Missing: $*" >&2
    [ "$(id -u)" -ne 0 ] || echo "They could not be fetched (see .build/install.log); they need a package source in reach." >&2
    # shellcheck disable=SC2086 # lists of names
    echo "To get all, as root:                 $(packages_command $(packages_missing $packages_build $packages_plot $packages_window))" >&2
    echo "Or without pictures and the window:  $(packages_command "$@")" >&2
    exit 1
}

# Prints ON where the packages named are here or could be fetched; else OFF, and says what is done without.
option() {
    without=$1
    shift
    if packages_ensure "$@" >&2; then
        echo ON
    else
        echo "Going on without $without; missing: $packages_wanted" >&2
        echo "  to have it, as root:  $(packages_command "$packages_wanted")" >&2
        echo OFF
    fi
}

mkdir -p .build/first-leak || exit 1
# All at once is quickest; whatever that leaves open is looked at set by set.
# shellcheck disable=SC2086 # lists of names
packages_ensure $packages_build $packages_plot $packages_window || packages_ensure $packages_build || missing $packages_wanted
# shellcheck disable=SC2086
plot=$(option "plots and pictures" $packages_plot)
window=OFF
# shellcheck disable=SC2086
[ "$plot" = OFF ] || window=$(option "the window (frames can still be drawn)" $packages_window)

settings="Release $plot $window"
if [ "$settings" != "$(cat .build/first-run.settings 2>/dev/null)" ] || [ ! -e .build/CMakeCache.txt ]; then
    generator=
    [ -e .build/CMakeCache.txt ] || generator="-G Ninja"
    # shellcheck disable=SC2086 # two words or none
    cmake -S . -B .build $generator -DCMAKE_BUILD_TYPE=Release -DULLAGE_PLOT="$plot" -DULLAGE_WINDOW="$window" \
        >.build/build.log 2>&1 || { cat .build/build.log >&2; exit 1; }
    echo "$settings" >.build/first-run.settings
    echo "Building .build/ullage, about half a minute."
fi
cmake --build .build --target ullage -j 2 >.build/build.log 2>&1 || { cat .build/build.log >&2; exit 1; }

files=.build/first-leak/first-leak
set -- --csv "$files.csv" --json "$files.json"
[ "$plot" = OFF ] || set -- "$@" --plot "$files.png"
.build/ullage run scenarios/first-leak.yaml "$@" || exit

# The program has just said what to try; two more, and where to stand.
[ "$window" = ON ] || [ "$plot" = OFF ] || echo "      .build/ullage view scenarios/first-leak.yaml --frame 60s .build/first-leak/frame.png"
echo "      .build/ullage run scenarios/cap-off.yaml"
echo "      .build/ullage --help"
[ "$came_from" = "$top" ] || echo "      cd '$top'    # before any of them"
