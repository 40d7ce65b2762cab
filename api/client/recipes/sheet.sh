#!/bin/sh
# The movement of all parts of an instrument as a table for a spreadsheet, from a table of
# its parts: the columns of parts.csv are id, wood, ring angle, and sizes in mm.
# sheet.sh SERVICE PARTS.csv >figures.csv
set -eu
jq --raw-input --slurp '{
  room: {station: "madison-wi", heated_to: "20 C"},
  build_condition: {air: {temperature: "20 C", rh_pct: 45}},
  parts: [split("\n")[1:][] | select(. != "") | split(",") | {id: .[0], wood: .[1],
    rings: {angle_deg: (.[2] | tonumber)}, thickness: (.[3] + " mm"), width: (.[4] + " mm")}]
}' "$2" |
  curl --silent --show-error --fail-with-body --retry 2 -H 'Content-Type: application/json' \
    --data @- "$1/v1/assembly-movement?as=csv"
