#!/bin/sh
# README.md says what the program says: every line of its story is told by the first run, in that order, and the times of
# its worked example are the ones that come out.
set -u
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT INT TERM
cd "$ULLAGE_TOP" || exit 1
failed=0

"$ULLAGE" run scenarios/first-leak.yaml >"$work/said" || exit 1
# Fenced without a language: the story. What is left of the ledger is round-off, and may differ between processors.
awk '/^```/ { inside = !inside; story = inside && $0 == "```"; next } story && $0 != "..." && !/unaccounted/' \
    README.md >"$work/story"
[ "$(wc -l <"$work/story")" -gt 20 ] || { echo "README.md holds no story"; failed=1; }
awk 'NR == FNR { line[++lines] = $0; next }
     line[next_line + 1] == $0 { next_line++ }
     END { if (next_line < lines) { print "README.md has, but the program does not say: " line[next_line + 1]; exit 1 } }' \
    "$work/story" "$work/said" || failed=1

# told TIME FILE [OPTION...]: the decay time of FILE, as README.md gives it.
told() {
    time=$1
    shift
    "$ULLAGE" run "$@" | grep -q "^  decay_time  $time " || { echo "$* does not take $time"; failed=1; }
    grep -q "$time" README.md || { echo "README.md does not say $time"; failed=1; }
}
told "56.3 s" scenarios/vessel-decay.yaml
told "40.2 s" scenarios/vessel-decay.yaml --set assume.heat=adiabatic
grep -v '^assume' scenarios/vessel-decay.yaml >"$work/full.yaml"
told "50.3 s" "$work/full.yaml"
exit $failed
