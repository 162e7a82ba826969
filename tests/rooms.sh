#!/bin/sh
# The order of the house, read off the sources: which room may look into which, and what never stands where.
# Prints each breach with its place; exit 1 when there is one. DEVELOPERS.md, "Rooms", says why each rule holds.
set -u
cd "$(dirname "$0")/.." || exit 1

find sim render tests -name '*.[ch]' | LC_ALL=C sort | xargs awk '
function breach(text) { print FILENAME ":" FNR ": " text; found++ }
function own_room() { split(FILENAME, piece, "/"); return piece[2] }

BEGIN {
    count = split("base property law element network run procedure file", name, " ")
    for (i = 1; i <= count; i++) order[name[i]] = i
    split("report view draw window command", name, " ")
    for (i in name) render[name[i]] = 1
}
FNR == 1 {
    room = own_room(); inside = FILENAME ~ /^sim\//; drawn = FILENAME ~ /^render\//
    if (inside && room != "ullage.h" && !(room in order)) breach("no such room under sim/: " room)
    if (drawn && !(room in render)) breach("no such room under render/: " room)
}
FNR == 701 { breach("more than 700 lines: one noun to a file") }
FILENAME ~ /^tests\// { next } # tests may see inside

/^[ \t]*#[ \t]*include[ \t]*"/ {
    path = $0; sub(/^[^"]*"/, "", path); sub(/".*/, "", path)
    split(path, piece, "/"); target = piece[1]
    if (path == "ullage.h") next
    if (path !~ /\//) breach("name the room of " path)
    else if (inside && !(target in order)) breach(path " is not under sim/")
    else if (inside && order[target] > order[room]) breach(room " looks to its right, at " path)
    else if (!inside && target in order) breach("render/ sees only ullage.h of sim/, not " path)
    else if (!inside && !(target in render)) breach("no such room: " path)
    else if (room == "view" && target ~ /^(draw|window|command)$/) breach("view needs no display: " path)
    else if (room == "report" && target ~ /^(window|command)$/) breach("report is words and numbers: " path)
    else if (room == "draw" && target ~ /^(window|command)$/) breach("draw is ink: " path)
}
/^[ \t]*#[ \t]*include[ \t]*</ {
    if ($0 ~ /SDL/ && !(FILENAME ~ /^render\/window\//)) breach("SDL belongs to render/window")
    if ($0 ~ /cairo|pango/ && !(FILENAME ~ /^render\/draw\//)) breach("cairo and pango belong to render/draw")
    if ($0 ~ /jansson/ && inside) breach("JSON belongs to render/")
    if ($0 ~ /yaml\.h/ && !(FILENAME ~ /^sim\/file\//)) breach("YAML belongs to sim/file")
}
FILENAME ~ /\.c$/ && /^[ \t]*extern[ \t]/ { breach("extern in a .c file: include the header that declares it") }
inside && /(^|[^A-Za-z_])(printf|puts|putchar|exit|abort|getenv|setlocale|system)[ \t]*\(/ {
    line = $0; sub(/\/\*.*/, "", line); gsub(/"[^"]*"/, "", line)
    if (line ~ /(^|[^A-Za-z_])(printf|puts|putchar|exit|abort|getenv|setlocale|system)[ \t]*\(/ && line !~ /^ \*/)
        breach("the library prints nothing, ends nothing, reads no environment")
}
inside && /(^|[^A-Za-z_])(stdout|stderr)([^A-Za-z_]|$)/ && !/^[ \t]*(\/?\*)/ { breach("the library has no screen") }
inside && /^[ \t]+static[ \t]/ && !/^[ \t]+static[ \t]+const[ \t]/ && !/_Static_assert/ { breach("a static inside a function") }
END { exit found > 0 }' || status=1

# The top of the tree holds what a visitor needs and nothing else.
for entry in *; do
    case $entry in
    README.md | DEVELOPERS.md | CMakeLists.txt | LICENSE | sim | render | scenarios | tests) ;;
    *) echo "$entry: does not belong at the top"; status=1 ;;
    esac
done
exit "${status:-0}"
