#!/usr/bin/env bash
# How fast potlife is, beside CVODE and SciPy on the same problems: prints the tables of DEVELOPERS.md. Run by hand, on
# a quiet machine; some four minutes.
#
#     testdata/reference/speed.sh [TURNS]
#
# Needs gcc, libsundials-dev and python3-scipy. Debian's SUNDIALS is built without -O2, three to four times slower
# than its source deserves (cvode.md): SUNDIALS=PREFIX names one built with it, and the table says which it was.
set -euo pipefail
cd "$(dirname "$0")/../.."
tools=$(mktemp -d)
trap 'rm -rf "$tools"' EXIT

from=()
if [ -n "${SUNDIALS:-}" ]; then
  from=("-I$SUNDIALS/include" "-L$SUNDIALS/lib" "-Wl,-rpath,$SUNDIALS/lib")
fi
gcc -O2 -fopenmp -o "$tools/cvode" testdata/reference/cvode_bodies.c "${from[@]}" -lsundials_cvode -lsundials_nvecserial -lm
go build -o "$tools/potlife" ./cmd/potlife
go test -c -o "$tools/still.test" ./kinetics/still
go test -c -o "$tools/commands.test" ./cmd/potlife
(cd kinetics/still && POTLIFE_SPEED=$tools "$tools/still.test" -test.run '^TestYardsticks$' >/dev/null)
(cd cmd/potlife && POTLIFE_SPEED=$tools "$tools/commands.test" -test.run '^TestManyEvents$' >/dev/null)
/usr/bin/python3 testdata/reference/speed.py "$tools" "${1:-5}"
