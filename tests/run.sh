#!/bin/sh
# All tests: installs what is missing (as root), builds as shipped and tests, builds and tests again under the address
# and undefined-behaviour sanitizers, fuzzes for half a minute where clang is at hand. The last line counts.
set -u
cd "$(dirname "$0")/.." || exit 1
. .ci/packages.sh
jobs=${ULLAGE_JOBS:-2}

mkdir -p .build
# shellcheck disable=SC2086 # lists of names
packages_ensure $packages_build $packages_plot $packages_window $packages_test || {
    echo "Missing: $packages_wanted" >&2
    echo "Get it as root:  $(packages_command "$packages_wanted")" >&2
    exit 1
}

# build FOLDER CMAKE-ARGUMENT...: quiet unless it fails.
build() {
    folder=$1
    shift
    mkdir -p "$folder"
    generator=
    [ -e "$folder/CMakeCache.txt" ] || generator="-G Ninja"
    # shellcheck disable=SC2086 # two words or none
    { cmake -S . -B "$folder" $generator "$@" && cmake --build "$folder" -j "$jobs"; } >"$folder/build.log" 2>&1 && return
    tail -60 "$folder/build.log" >&2
    echo "The build in $folder failed; all of it: $folder/build.log" >&2
    exit 1
}

# run_tests FOLDER: sets passed and failed.
run_tests() {
    ctest --test-dir "$1" -j "$jobs" --output-on-failure --no-tests=error >"$1/test.log" 2>&1
    failed=$(awk '/tests failed out of|tests passed, / { for (i = 1; i < NF; i++) if ($(i + 1) == "tests" && $(i + 2) ~ /^failed/) print $i }' "$1/test.log" | tail -1)
    total=$(awk '/tests failed out of/ { print $NF }' "$1/test.log" | tail -1)
    [ -n "$total" ] && [ "$total" -gt 0 ] || { tail -60 "$1/test.log" >&2; echo "No tests ran in $1." >&2; exit 1; }
    passed=$((total - failed))
    [ "$failed" -eq 0 ] || awk '/^The following tests FAILED|^[ \t]*[0-9]+ - /' "$1/test.log"
    [ "$failed" -eq 0 ] || echo "What they said: $1/test.log"
}

echo "Building as shipped."
build .build -DCMAKE_BUILD_TYPE=Release -DBUILD_TESTING=ON -DULLAGE_PLOT=ON -DULLAGE_WINDOW=ON -DULLAGE_SANITIZE=OFF
rm -f .build/first-run.settings # first-run.sh configures anew
run_tests .build
release=$passed release_failed=$failed
echo "Building with sanitizers."
build .build/sanitize -DCMAKE_BUILD_TYPE=Debug -DCMAKE_C_FLAGS_DEBUG="-O1 -g" -DULLAGE_SANITIZE=ON
run_tests .build/sanitize
sanitized=$passed sanitized_failed=$failed

fuzz_failed=0
clang=$(command -v clang-14 || command -v clang || true)
if [ -n "$clang" ]; then
    seconds=${ULLAGE_FUZZ_SECONDS:-30}
    echo "Fuzzing for $seconds s."
    sh tests/fuzz/run.sh "$clang" "$seconds" || fuzz_failed=1
fi
failed=$((release_failed + sanitized_failed + fuzz_failed))
echo "$((release + sanitized)) tests passed, $failed failed (release $release, sanitized $sanitized)"
[ "$failed" -eq 0 ]
