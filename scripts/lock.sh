#!/usr/bin/env bash
# Writes the three locks again (hashes, no hosts). Needs uv on the path.
set -euo pipefail
cd "$(dirname "$0")/.."
options=(--universal --python-version 3.11 --generate-hashes --no-emit-index-url --no-header --no-annotate -q)
uv pip compile pyproject.toml --group build "${options[@]}" -o requirements/run.lock
uv pip compile pyproject.toml --group dev "${options[@]}" -o requirements/dev.lock
uv pip compile pyproject.toml --group dev --extra browser --extra oracles "${options[@]}" -o requirements/full.lock
