#!/bin/sh
# Steps, derivative calls, Jacobians, factorizations and processor time of our stepper beside GSL's msbdf, for the shipped
# dry scenarios, for a day and an engine-off cooling with the quick fuel and with a blend of eight, and for a fill, a purge and
# a minute of purge pulses, at three tolerances: a table here, JSON in .build/bench.json. ULLAGE_REPEAT sets how often (5).
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
# The shipped scenarios with fuel are left out: what they ask of the stepper is in tests/bench/, and msbdf is slow at it.
# shellcheck disable=SC2046 # names without spaces
[ $# -gt 0 ] || set -- $(grep -L '^fill:' scenarios/*.yaml) tests/bench/*.yaml
exec .build/tests/bench/bench --repeat "${ULLAGE_REPEAT:-5}" --json .build/bench.json "$@"
