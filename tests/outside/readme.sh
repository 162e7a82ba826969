#!/bin/sh
# README.md says what the program says: its story is the one that the first run tells, and the times of its worked example
# are the ones that come out. ULLAGE_WRITE=1 puts the story of the present program into README.md:
#     ULLAGE=.build/ullage ULLAGE_TOP=. ULLAGE_WRITE=1 sh tests/outside/readme.sh
set -u
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT INT TERM
cd "$ULLAGE_TOP" || exit 1
failed=0

# The story goes from the rig's line to the readings; then the ledger, whose round-off may differ between processors.
"$ULLAGE" run scenarios/first-leak.yaml >"$work/said" || exit 1
awk '/^Readings/ { exit } { print }' "$work/said" >"$work/story"
{ cat "$work/story"; echo ...; awk '/^Gas kept/ { on = 1 } /^  vent-valve/ { exit } on' "$work/said"; } >"$work/block"
# In README.md it is the block fenced without a language.
if [ -n "${ULLAGE_WRITE:-}" ]; then
    awk -v block="$work/block" '
        /^```/ { inside = !inside; story = inside && $0 == "```"; print
                 if (story) while ((getline line < block) > 0) print line
                 next }
        !story || !inside' README.md >"$work/readme" && cp "$work/readme" README.md
fi
awk '/^```/ { inside = !inside; story = inside && $0 == "```"; next } story && $0 == "..." { exit } story' README.md >"$work/printed"
diff "$work/printed" "$work/story" || { echo "README.md (<) tells another story than the program (>)"; failed=1; }

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
told "45.0 s" "$work/full.yaml"

for scenario in scenarios/*.yaml; do
    name=$(basename "$scenario" .yaml)
    grep -q "^| \`$name\` |" README.md || { echo "README.md has no row for $scenario"; failed=1; }
done
exit $failed
