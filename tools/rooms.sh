# The rooms of the project and what each may include; sourced by the checks that need it.
# One line a room: its folder, then the rooms whose headers it may include besides its own.
# core knows nothing above it; between the rooms of core, the arrows go one way.
rooms='
core/base
core/geom    core/base
core/cut     core/base core/geom
core/matter  core/base core/geom
core/light   core/base core/geom core/matter
core/rough   core/base core/geom
core/craft   core/base core/geom core/cut core/matter
cuts
places
study        core/base core/geom core/cut core/matter core/light core/rough core/craft cuts
sheet        core/base core/geom core/cut core/matter core/light core/rough core/craft
cli          core/base core/geom core/cut core/matter core/light core/rough core/craft study cuts places sheet
'

# Every C file that is ours, also those of the tests, benches and fuzzers.
room_files() {
    find core cuts places study sheet cli tests bench fuzz \( -name node_modules -o -name build \) -prune -o \
        -type f \( -name '*.c' -o -name '*.h' \) -print 2>/dev/null | sort
}
