#!/usr/bin/env bash
# Makes portwitness-VERSION-linux-x64.tar.gz with the native program and what belongs to it, and SHA256SUMS, in the folder that is named.
# Order, owners and times of its files are those of the commit, whoever makes it.
set -euo pipefail
out=$(realpath -m "${1:?name a folder for the archive}")
cd "$(dirname "$0")/../../.."
runtime=linux-x64
version=$(sed -n 's:.*<Version>\(.*\)</Version>.*:\1:p' Directory.Build.props)
name=portwitness-$version-$runtime
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir -p "$out" "$work/$name/completions"

# Paths of the building machine stay out of the program.
dotnet publish src/Portwitness.Cli -c Release -r "$runtime" -o "$work/publish" -p:ContinuousIntegrationBuild=true -p:PathMap="$PWD=/source" --nologo -v quiet
install -m 755 "$work/publish/portwitness" "$work/$name/"
find "$work/publish" -name '*.so' -exec install -m 644 {} "$work/$name/" \;
for shell in bash zsh fish; do
  "$work/$name/portwitness" completion "$shell" > "$work/$name/completions/portwitness.$shell"
done
install -m 644 README.md CHANGELOG.md LICENSE src/Portwitness.Cli/CONFIGURATION.md src/Portwitness.Service/OPERATIONS.md \
  src/Portwitness.Cli/Install/portwitness.service src/Portwitness.Cli/Install/serve.conf src/Portwitness.Cli/Install/environment "$work/$name/"

tar --sort=name --mtime="@$(git log -1 --format=%ct)" --owner=0 --group=0 --numeric-owner --mode=u+rwX,go+rX,go-w -C "$work" -cf "$work/$name.tar" "$name"
gzip --no-name --best --stdout "$work/$name.tar" > "$out/$name.tar.gz"
(cd "$out" && sha256sum "$name.tar.gz" | tee SHA256SUMS)
