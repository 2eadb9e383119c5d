#!/usr/bin/env bash
# How many faults, put into the rules of a project one at a time, the tests of that project find. By hand, about an hour; not in any test.
#
#   tests/mutation-score.sh [FOLDER [PROJECT]]
#
# Stryker.NET (.config/dotnet-tools.json) makes the mutants: all are compiled into one assembly, in which a field says
# which is active. It would start a process for each; Portwitness.Mutants instead runs the tests that reach a mutant in one
# process until one fails. First without the long sweeps; what survives that, and what runs only once a process, after.
# PROJECT is Analysis (default) or Product. FOLDER keeps the results (default: a temporary one); run again with the same, it goes on
# where it was.
set -euo pipefail
cd "$(dirname "$0")/.."

work=$(realpath -m "${1:-$(mktemp -d)}")
project=Portwitness.${2:-Analysis}
tests=tests/$project.Tests
built=$tests/bin/Debug/net10.0
report=$work/list/reports/mutation-report.json
sweeps=CompliantListTests,CompliantCaptureTests,RequestSweepTests,DegradedCaptures
mkdir -p "$work"

if [ ! -e "$report" ]; then
  dotnet tool restore
  rm -rf "$work/mutated" "$built"/*.stryker-unchanged
  (cd "$tests" && dotnet stryker --output "$work/list") >"$work/list.log" 2>&1 &
  # The mutated assembly stands in the folder of the tests only as long as Stryker.NET runs.
  until grep -q "mutants created" "$work/list.log" 2>/dev/null; do
    kill -0 $! || { cat "$work/list.log"; exit 1; }
    sleep 1
  done
  sleep 2
  cp -r "$built" "$work/mutated"
  wait $!
fi

dotnet build tests/Portwitness.Mutants -c Release -v quiet
mutants=(dotnet tests/Portwitness.Mutants/bin/Release/net10.0/Portwitness.Mutants.dll "$work/mutated" "$project" "$report")

# A mutant that hangs ends the process; the next one goes on behind it.
first=$work/first
until "${mutants[@]}" "$first" "-$sweeps"; do [ $? -eq 9 ] || exit 1; done

# What runs only once a process, when types are made, takes a process of its own.
for id in $(awk '$2 == "uncovered" { print $1 }' "$first"); do
  grep -q "^$id " "$work/alone" 2>/dev/null || timeout 300 "${mutants[@]}" "$work/alone" "-$sweeps" "$id" || echo "$id hung" >>"$work/alone"
done

# What survives is given to the sweeps.
[ -e "$work/swept" ] || grep -v " survived" "$first" >"$work/swept"
until "${mutants[@]}" "$work/swept" "+$sweeps"; do [ $? -eq 9 ] || exit 1; done

cat "$first" "$work/alone" "$work/swept" | awk '
  $2 == "killed" || $2 == "hung" { found[$1] = 1 }
  { all[$1] = 1 }
  END {
    for (id in all) { total++; if (id in found) killed++; else print id, "survived" }
    printf "%d of %d mutants found: %.1f %%\n", killed, total, 100 * killed / total
  }'
