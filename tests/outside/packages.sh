#!/bin/sh
# What other programs meet after an installation: the manual page set by man or groff, the completion driven in bash, a C
# program built by what pkg-config says and one by find_package(ullage), from a prefix that was chosen late.
set -eu
build=$(dirname "$ULLAGE")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT INT TERM
cmake --install "$build" --prefix "$work/usr" >"$work/install.log"
cd "$work"

fail() {
    echo "$1"
    exit 1
}

# ---- the manual page: every command and every option that --help names stands on it
page=usr/share/man/man1/ullage.1
[ -s "$page" ] || fail "no manual page was installed"
if command -v groff >groff.path; then
    groff -man -Kutf8 -Tutf8 -ww -P-cbou "$page" >page.txt 2>page.warnings
    [ ! -s page.warnings ] || fail "groff warns: $(head -3 page.warnings)"
else
    grep -v '^\.\\"' "$page" | sed 's/\\f[BIR]//g; s/\\-/-/g; s/^\.[A-Z]* *//' >page.txt
fi
grep -qi '^NAME' page.txt || fail "the page has no name"
for command in run view check list; do
    grep -q "ullage $command" page.txt || fail "$command is not on the page"
    "$ULLAGE" $command --help | sed -n 's/^  \(--[a-z-]*\).*/\1/p' | grep -v '^--help$' >options.txt || true
    [ -s options.txt ] || [ $command = check ] || [ $command = list ] || fail "$command tells no options"
    while read -r option; do
        grep -q -e "$option" page.txt || fail "$option of $command is not on the page"
    done <options.txt
done
if command -v man >man.path; then
    man -l "$page" >man.txt 2>man.warnings
    grep -qi 'ullage' man.txt || fail "man sets an empty page"
fi

# ---- the completion, as bash calls it
script=usr/share/bash-completion/completions/ullage
[ -s "$script" ] || fail "no completion was installed"
if command -v bash >bash.path; then
    mkdir folder
    : >folder/one.yaml
    : >folder/two.txt
    cat >complete.bash <<'END'
source "$1"
complete -p ullage >/dev/null || exit 9
shift
COMP_WORDS=("$@")
COMP_CWORD=$((${#COMP_WORDS[@]} - 1))
_ullage
printf '%s\n' "${COMPREPLY[@]}"
END
    offered() { # WANTED WORD...: what is offered after the words is that, in order
        wanted=$1
        shift
        got=$(bash complete.bash "$script" "$@" | tr '\n' ' ' | sed 's/ *$//')
        [ "$got" = "$wanted" ] || fail "after '$*' bash is offered '$got', not '$wanted'"
    }
    offered "run" ullage r
    offered "--units" ullage run --un
    offered "shop si" ullage run --units ""
    offered "bdf" ullage run --solver b
    offered "" ullage run --seed ""
    offered "folder/one.yaml" ullage run folder/o
    offered "folder/two.txt" ullage run folder/one.yaml --csv folder/t
    offered "folder" ullage view folder/one.yaml --frames fol
    offered "parts procedures" ullage list p
    offered "--help --version" ullage --
fi

# ---- C programs: the block of DEVELOPERS.md that opens with ```c, and the line that says what it prints
awk '/^```c$/ { inside = 1; next } /^```$/ { inside = 0 } inside' "$ULLAGE_TOP/DEVELOPERS.md" >example.c
awk '/^It prints `/ { sub(/^It prints `/, ""); sub(/`.*/, ""); print }' "$ULLAGE_TOP/DEVELOPERS.md" >promised
flags=
[ "$ULLAGE_SANITIZED" = 0 ] || flags="-fsanitize=address,undefined"

mv usr moved # nothing in the packages may point to where they were first put
PKG_CONFIG_PATH=$(dirname "$(find "$work/moved" -name ullage.pc)")
export PKG_CONFIG_PATH
version=$("$ULLAGE" --version | sed 's/ullage //')
[ "$(pkg-config --modversion ullage)" = "$version" ] || fail "pkg-config tells another version than the program"
# shellcheck disable=SC2046,SC2086 # words, as pkg-config means them
cc -std=c17 -Wall -Wextra -Werror $flags $(pkg-config --cflags ullage) example.c $(pkg-config --libs ullage) -o by-pkg-config
./by-pkg-config >said
diff promised said

mkdir project
cp example.c project
cat >project/CMakeLists.txt <<END
cmake_minimum_required(VERSION 3.25)
project(example LANGUAGES C)
find_package(ullage $version REQUIRED)
add_executable(example example.c)
target_link_libraries(example PRIVATE ullage::ullage)
END
cmake -G Ninja -S project -B project/build -DCMAKE_PREFIX_PATH="$work/moved" -DCMAKE_C_FLAGS="$flags" >cmake.log || { cat cmake.log; exit 1; }
cmake --build project/build >>cmake.log || { cat cmake.log; exit 1; }
project/build/example >said
diff promised said
