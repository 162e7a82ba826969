#!/bin/sh
# The check of the house bites: each line below, put into a copy of an otherwise sound tree, must be found.
set -u
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT INT TERM
failed=0

# breach FILE TEXT: a small sound tree, with TEXT as the content of FILE, must not pass.
breach() {
    rm -rf "$work/tree"
    mkdir -p "$work/tree/tests" "$work/tree/scenarios" "$work/tree/$(dirname "$1")" "$work/tree/sim/base" "$work/tree/render/draw"
    cp "$ULLAGE_TOP/tests/rooms.sh" "$work/tree/tests/"
    cp "$ULLAGE_TOP/sim/ullage.h" "$work/tree/sim/"
    cp "$ULLAGE_TOP"/sim/base/*.[ch] "$work/tree/sim/base/"
    printf '/* ink */\n#include <cairo.h>\n#include "ullage.h"\n' >"$work/tree/render/draw/ink.c"
    sh "$work/tree/tests/rooms.sh" >"$work/said" || { echo "the sound tree is refused:"; cat "$work/said"; exit 1; }
    printf '%b\n' "$2" >"$work/tree/$1"
    if sh "$work/tree/tests/rooms.sh" >"$work/said"; then
        echo "not found: $2 in $1"
        failed=1
    fi
}

breach sim/law/hole.c '#include "element/element.h"'
breach sim/base/unit2.c '#include "property/gas.h"'
breach sim/file/scenario.c '#include "draw/plot.h"'
breach sim/attic/old.c 'int a;'
breach sim/law/hole.c '#include "passages.h"'
breach sim/law/hole.c '#include <SDL2/SDL.h>'
breach sim/law/hole.c '#include <cairo.h>'
breach sim/law/hole.c '#include <jansson.h>'
breach sim/law/hole.c 'void f(void)\n{\n    printf("x");\n}'
breach sim/law/hole.c 'void f(void)\n{\n    exit(1);\n}'
breach sim/law/hole.c 'const char *f(void)\n{\n    return getenv("HOME");\n}'
breach sim/law/hole.c 'int f(void)\n{\n    static int calls;\n    return calls++;\n}'
breach sim/law/hole.c 'extern int a;'
breach render/view/frame.c '#include <cairo.h>'
breach render/view/frame.c '#include <pango/pango.h>'
breach render/draw/ink2.c '#include <SDL.h>'
breach render/view/frame.c '#include "draw/plot.h"'
breach render/report/csv.c '#include "network/network.h"'
breach render/attic/old.c 'int a;'
breach sim/law/hole.c "$(yes 'int a;' | head -701 | tr '\n' ' ' | sed 's/; /;\\n/g')"
breach tests/heap.c "$(yes 'int a;' | head -701 | tr '\n' ' ' | sed 's/; /;\\n/g')"
breach notes.txt 'a file at the top'
exit $failed
