#!/usr/bin/env bash
# The same files given to this program and to general ones, by hand and not in any test: capinfos of Debian's tshark counts
# the packets of a pcapng file, jq parses and wc counts the lines of JSON Lines. Each time is the best of three.
#
#   tests/Portwitness.Benchmarks/side-by-side.sh PROGRAM [FOLDER]
#
# PROGRAM is the native program that "dotnet publish src/Portwitness.Cli -c Release -r linux-x64" makes; FOLDER holds the files,
# about 900 MB (default: a temporary one, removed at the end).
set -euo pipefail
cd "$(dirname "$0")/../.."

program=${1:?name the native program}
if [ "$#" -gt 1 ]; then
  folder=$2
else
  folder=$(mktemp -d)
  trap 'rm -rf "$folder"' EXIT
fi

dotnet build tests/Portwitness.Benchmarks -c Release -v quiet
benchmarks=(dotnet tests/Portwitness.Benchmarks/bin/Release/net10.0/Portwitness.Benchmarks.dll)
[ -e "$folder/large.pcapng" ] || "${benchmarks[@]}" save "$folder/large.pcapng" 10000000
[ -e "$folder/large.jsonl" ] || "${benchmarks[@]}" save "$folder/large.jsonl" 1000000

best() {
  local name=$1
  shift
  local best=999999
  for _ in 1 2 3; do
    local start end
    start=$(date +%s%N)
    "$@" >/dev/null
    end=$(date +%s%N)
    local took=$(((end - start) / 1000000))
    best=$((took < best ? took : best))
  done
  printf '%-44s %6d ms\n' "$name" "$best"
}

ls -l "$folder"/large.*
"${benchmarks[@]}" read "$folder/large.pcapng"
"${benchmarks[@]}" analyse "$folder/large.pcapng"
best "capinfos -c, 10 million packets" capinfos -c "$folder/large.pcapng"
best "decode --quiet, 10 million packets" "$program" decode "$folder/large.pcapng" --quiet
best "convert --quiet to jsonl, 10 million packets" "$program" convert "$folder/large.pcapng" /dev/null --to jsonl --quiet
"${benchmarks[@]}" read "$folder/large.jsonl"
"${benchmarks[@]}" analyse "$folder/large.jsonl"
best "wc -l, 1 million lines" wc -l "$folder/large.jsonl"
best "jq -c ., 1 million lines" jq -c . "$folder/large.jsonl"
best "decode --quiet, 1 million lines" "$program" decode "$folder/large.jsonl" --quiet
best "convert --quiet to pcapng, 1 million lines" "$program" convert "$folder/large.jsonl" /dev/null --to pcapng --quiet
