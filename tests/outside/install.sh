#!/bin/sh
# What is installed is enough for a stranger: the program finds its scenarios and systems, and the C program that
# DEVELOPERS.md shows compiles against the installed header and library and prints what the text says it prints.
set -eu
build=$(dirname "$ULLAGE")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT INT TERM
cmake --install "$build" --prefix "$work/usr" >"$work/install.log"

cd "$work"
usr/bin/ullage check usr/share/ullage/first-leak.yaml
usr/bin/ullage run usr/share/ullage/vessel-decay.yaml --quiet --json out.json
for kind in system scenario procedure; do
    [ -s "usr/share/ullage/schema/$kind.json" ] || { echo "no schema of a $kind was installed"; exit 1; }
done

# The fenced block of DEVELOPERS.md that opens with ```c, and the line that says what it prints.
awk '/^```c$/ { inside = 1; next } /^```$/ { inside = 0 } inside' "$ULLAGE_TOP/DEVELOPERS.md" >example.c
[ -s example.c ]
flags=
[ "$ULLAGE_SANITIZED" = 0 ] || flags="-fsanitize=address,undefined"
# shellcheck disable=SC2086 # flags, one or none
cc -std=c17 -Wall -Wextra -Werror $flags -Iusr/include example.c  \
    "$(find usr -name libullage.a)" $(pkg-config --libs gsl yaml-0.1) -lm -o example
./example >said
awk '/^It prints `/ { sub(/^It prints `/, ""); sub(/`.*/, ""); print }' "$ULLAGE_TOP/DEVELOPERS.md" >promised
diff promised said
