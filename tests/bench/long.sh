#!/bin/sh
# What is too long for every change: 1,000 random networks, and ten minutes of fuzzing where clang is at hand. Any
# failure is a finding: the network's seed, or the input in .build/fuzz, becomes a test.
set -u
cd "$(dirname "$0")/../.." || exit 1
jobs=${ULLAGE_JOBS:-2}
mkdir -p .build
{
    generator=
    [ -e .build/CMakeCache.txt ] || generator="-G Ninja"
    # shellcheck disable=SC2086 # two words or none
    cmake -S . -B .build $generator -DCMAKE_BUILD_TYPE=Release -DULLAGE_SANITIZE=OFF &&
        cmake --build .build -j "$jobs" --target test-invariant-networks
} >.build/long.log 2>&1 || { tail -40 .build/long.log >&2; exit 1; }

failed=0
echo "1,000 random networks."
ULLAGE_NETWORKS=1000 .build/tests/invariant/networks || failed=1
clang=$(command -v clang-14 || command -v clang || true)
if [ -n "$clang" ]; then
    echo "Ten minutes of fuzzing."
    sh tests/fuzz/run.sh "$clang" 600 || failed=1
else
    echo "No clang here: nothing is fuzzed (clang-14 and libclang-rt-14-dev would do it)."
    failed=1
fi
exit $failed
