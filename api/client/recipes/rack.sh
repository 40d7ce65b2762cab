#!/bin/sh
# Which billets of a folder are ready, one line each: step and verdict.
# rack.sh SERVICE FOLDER
set -eu
for file in "$2"/*.json; do
  printf '%s: ' "$(basename "$file" .json)"
  curl --silent --show-error --fail-with-body --retry 2 -X QUERY -H 'Content-Type: application/json' \
    --data "@$file" "$1/v1/readiness?detail=summary" |
    jq -r '[.result.verdicts[] | .step + " " + .verdict] | join(", ")'
done
