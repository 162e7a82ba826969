#!/bin/sh
# run.sh CLANG SECONDS: libFuzzer on every target of this folder, the seconds shared out. New inputs are kept in
# .build/fuzz/found; one that breaks something stays in .build/fuzz as crash-*, to become a file of the corpus.
set -u
cd "$(dirname "$0")/../.." || exit 1
clang=$1 seconds=$2
folder=.build/fuzz
targets=$(ls tests/fuzz/*.c 2>/dev/null | sed 's|.*/||; s|\.c$||' | grep -v '^replay$')
[ -n "$targets" ] || exit 0
mkdir -p "$folder"
{
    cmake -S . -B "$folder" -G Ninja -DCMAKE_C_COMPILER="$clang" -DCMAKE_BUILD_TYPE=Debug -DCMAKE_C_FLAGS_DEBUG="-O1 -g" \
        -DULLAGE_SANITIZE=ON -DULLAGE_FUZZ=ON -DULLAGE_PLOT=OFF &&
        for target in $targets; do cmake --build "$folder" -j "${ULLAGE_JOBS:-2}" --target "fuzz-$target" || exit 1; done
} >"$folder/build.log" 2>&1 || { tail -40 "$folder/build.log" >&2; exit 1; }

each=$((seconds / $(echo "$targets" | wc -w)))
failed=0
for target in $targets; do
    mkdir -p "$folder/found/$target"
    "$folder/tests/fuzz/$target" -max_len=4000 -timeout=5 -rss_limit_mb=1000 -max_total_time="$each" -verbosity=0 -print_final_stats=1 \
        -artifact_prefix="$folder/" "$folder/found/$target" "tests/fuzz/corpus/$target" >"$folder/$target.log" 2>&1 || {
        tail -30 "$folder/$target.log" >&2
        failed=1
    }
    echo "  $target: $(awk '$1 == "stat::number_of_executed_units:" { print $2 " inputs" }' "$folder/$target.log")"
done
exit $failed
