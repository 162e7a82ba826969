#!/bin/sh
# Steps, derivative calls, Jacobians, factorizations and processor time of our stepper beside GSL's msbdf, for the shipped
# scenarios at three tolerances: a table here, JSON in .build/bench.json. ULLAGE_REPEAT sets how often (5).
set -u
cd "$(dirname "$0")/../.." || exit 1
mkdir -p .build
{
    generator=
    [ -e .build/CMakeCache.txt ] || generator="-G Ninja"
    # shellcheck disable=SC2086 # two words or none
    cmake -S . -B .build $generator -DCMAKE_BUILD_TYPE=Release -DULLAGE_SANITIZE=OFF &&
        cmake --build .build -j "${ULLAGE_JOBS:-2}" --target bench-bench
} >.build/bench.log 2>&1 || { tail -40 .build/bench.log >&2; exit 1; }
[ $# -gt 0 ] || set -- scenarios/*.yaml
exec .build/tests/bench/bench --repeat "${ULLAGE_REPEAT:-5}" --json .build/bench.json "$@"
