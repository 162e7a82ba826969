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
    "$folder/tests/fuzz/$target" -max_len=4000 -timeout=5 -rss_limit_mb=1000 -max_total_time="$each" -verbosity=0 \
        -artifact_prefix="$folder/" "$folder/found/$target" "tests/fuzz/corpus/$target" >"$folder/$target.log" 2>&1 || {
        tail -30 "$folder/$target.log" >&2
        failed=1
    }
    echo "  $target: $(awk '/DONE/ { for (i = 1; i < NF; i++) if ($i == "stat::number_of_executed_units:") print $(i + 1) } /^#[0-9]+.*DONE/ { sub("#", "", $1); print $1 " inputs" }' "$folder/$target.log" | tail -1)"
done
exit $failed
