# What ullage needs of Debian 12, and how it is fetched. Sourced by scenarios/first-run.sh and tests/run.sh, at the top of
# the tree. DEVELOPERS.md says what each package is for.
packages_build="gcc libc6-dev cmake ninja-build pkg-config libgsl-dev libyaml-dev libjansson-dev"
packages_plot="libcairo2-dev libpango1.0-dev fonts-inter"
packages_window="libsdl2-dev"
packages_test="libcmocka-dev python3 python3-jsonschema python3-ruamel.yaml python3-numpy python3-scipy"

# Prints those of the packages named that are not installed.
packages_missing() {
    command -v dpkg-query >/dev/null 2>&1 || { echo "$*"; return; }
    dpkg-query -W -f='${db:Status-Status} ${Package}\n' "$@" 2>/dev/null |
        awk -v wanted="$*" '
            $1 == "installed" { here[$2] = 1 }
            END {
                count = split(wanted, name, " ")
                for (i = 1; i <= count; i++) if (!(name[i] in here)) printf "%s%s", some++ ? " " : "", name[i]
            }'
}

# The command that would install the packages named.
packages_command() {
    echo "apt-get update && apt-get install --no-install-recommends $*"
}

# Installs the packages named, if that can be done here. What was said by apt-get goes to the log file, first argument.
packages_install() {
    packages_log=$1
    shift
    [ "$(id -u)" -eq 0 ] && command -v apt-get >/dev/null 2>&1 || return 1
    if [ -z "${packages_updated:-}" ]; then
        packages_updated=yes # once is enough, and a mirror that is half away may still hold what is needed
        DEBIAN_FRONTEND=noninteractive apt-get update >>"$packages_log" 2>&1
    fi
    DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends "$@" >>"$packages_log" 2>&1
}

# Sees to the packages named: quiet when all are there. Fails when some are not to be had.
packages_ensure() {
    packages_wanted=$(packages_missing "$@")
    [ -n "$packages_wanted" ] || return 0
    [ "$(id -u)" -ne 0 ] || echo "Installing $packages_wanted (said by apt-get: .build/install.log)."
    # shellcheck disable=SC2086 # a list of names
    packages_install .build/install.log $packages_wanted
    packages_wanted=$(packages_missing "$@")
    [ -z "$packages_wanted" ]
}
