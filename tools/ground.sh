# The ground that ./run and ./check stand on: what is missing is installed, then built.
# Sourced by both; needs bash. Everything it says goes to standard error, so that what lapwing
# prints stays alone on standard output.

ground_root=$(CDPATH='' cd -- "$(dirname -- "${BASH_SOURCE[0]}")/.." && pwd -P)

say() {
    printf '%s\n' "$*" >&2
}

# The packages of packages.txt: the first part for "run", all for "check".
ground_packages() {
    if [ "$1" = run ]; then
        sed '/^# For \.\/check alone\./,$d' "$ground_root/packages.txt"
    else
        cat "$ground_root/packages.txt"
    fi | sed -e 's/#.*//' -e 's/[[:space:]]//g' -e '/^$/d'
}

# Those of them that dpkg does not have, one a line. node and npm from elsewhere do as well.
ground_missing() {
    local package status
    for package in $(ground_packages "$1"); do
        case $package in
        nodejs) command -v node >/dev/null && continue ;;
        npm) command -v npm >/dev/null && continue ;;
        esac
        status=$(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null) || status=none
        [ "$status" = installed ] || printf '%s\n' "$package"
    done
}

# Installs what is missing for "run" or "check"; asks nothing and nobody when nothing is.
ground_install() {
    local missing as_root=()
    missing=$(ground_missing "$1")
    [ -n "$missing" ] || return 0
    if [ "$(id -u)" -ne 0 ]; then
        if ! command -v sudo >/dev/null; then
            say "These Debian packages are missing, and installing them takes root or sudo:"
            say "  apt-get install --no-install-recommends" $missing
            return 2
        fi
        as_root=(sudo)
    fi
    say "installing:" $missing
    as_root+=(env DEBIAN_FRONTEND=noninteractive apt-get -q -o DPkg::Lock::Timeout=300)
    "${as_root[@]}" update </dev/null >&2 || say "apt-get update failed; trying with the lists at hand"
    "${as_root[@]}" install -y --no-install-recommends $missing </dev/null >&2
}

# Configures and builds a preset; further arguments are targets. Quiet unless it fails; the whole
# output is in build/PRESET.log.
ground_build() {
    local preset=$1 log=$ground_root/build/$1.log cache=$ground_root/build/$1/CMakeCache.txt
    shift
    mkdir -p "$ground_root/build" || return 2
    # A clone that was moved or copied carries a cache that names the old place: begin again.
    if [ -f "$cache" ] && ! grep -qxF "CMAKE_HOME_DIRECTORY:INTERNAL=$ground_root" "$cache"; then
        rm -rf "$ground_root/build/$preset"
    fi
    if ! (cd "$ground_root" && cmake --preset "$preset" && cmake --build --preset "$preset" ${1:+--target "$@"}) \
        >"$log" 2>&1 </dev/null; then
        grep -E -A 12 '^FAILED: |^CMake Error|No such file' "$log" | head -n 60 >&2 || tail -n 30 "$log" >&2
        say "building $preset failed; the whole output is in $log"
        return 2
    fi
}
