#!/usr/bin/env bash
# Load on the loopback: what the service carries, how fast, in how much memory.
#
#   testdata/load/load.sh [SECONDS OF MIXED TRAFFIC, default 600] [SECONDS OF THE OTHER RUNS, default 20]
#
# Needs Go, wrk and vegeta; installs the two where it can. Prints a table and ends
# with status 1 when a limit is missed. It measures the whole machine: leave it
# alone meanwhile. The load generators share the processors with the service.
set -euo pipefail
cd "$(dirname "$0")/../.."

mixed=${1:-600}
span=${2:-20}
service=127.0.0.1:18090
bare=127.0.0.1:18091

command -v wrk >/dev/null || { apt-get update -qq && apt-get install -y -qq wrk; } >/dev/null
vegeta=$(command -v vegeta || echo "$(go env GOPATH)/bin/vegeta")
[ -x "$vegeta" ] || go install github.com/tsenart/vegeta/v12@v12.13.0

work=$(mktemp -d)
pids=()
stop_all() {
  for pid in "${pids[@]}"; do kill "$pid" 2>/dev/null || true; done
  wait 2>/dev/null || true
  rm -rf "$work"
}
trap stop_all EXIT

export GOGC=800 # of vegeta, so that it measures the service and not its own collector
missed=0
row() { printf '| %-52s | %-12s | %14s | %-6s |\n' "$@"; }
# judge NAME LIMIT MEASURED OPERATOR NUMBER-MEASURED NUMBER-LIMIT
judge() {
  local verdict=yes
  awk -v a="$5" -v b="$6" "BEGIN { exit !(a $4 b) }" || { verdict=MISSED; missed=1; }
  row "$1" "$2" "$3" "$verdict"
}
kib() { awk -v key="$2:" '$1 == key { print $2 }' "/proc/$1/status"; }
mib() { awk -v k="$1" 'BEGIN { printf "%.1f", k / 1024 }'; }
ready() { for _ in $(seq 2000); do curl -fso /dev/null "http://$1" && return; sleep 0.005; done; echo "nothing answers at $1" >&2; exit 1; }

CGO_ENABLED=0 go build -trimpath -buildvcs=false -ldflags '-s -w -X main.version=load' -o "$work/latewood" ./cmd/latewood
CGO_ENABLED=0 go test -c -trimpath -o "$work/bare" ./api/internal/serve

row 'what' 'limit' 'measured' 'kept'
row '---' '---' '---' '---'
size=$(stat -c %s "$work/latewood")
judge 'size of the static binary' '< 30 MB' "$(awk -v s="$size" 'BEGIN { printf "%.1f MB", s / 1e6 }')" '<' "$size" 30000000

# Start: from the fork until /readyz answers 200, best of ten.
best=999999
for _ in $(seq 10); do
  began=$(date +%s%N)
  env -u GOGC "$work/latewood" --listen "$service" --log json >/dev/null 2>&1 &
  pid=$!
  pids+=("$pid")
  until exec 3<>"/dev/tcp/${service/:/\/}"; do :; done 2>/dev/null
  printf 'GET /readyz HTTP/1.0\r\nHost: %s\r\n\r\n' "$service" >&3
  read -r _ status _ <&3
  took=$((($(date +%s%N) - began) / 1000))
  exec 3>&-
  [ "$status" = 200 ] && [ "$took" -lt "$best" ] && best=$took
  kill "$pid" && wait "$pid" || true
done
judge 'ready after the start, best of ten' '< 100 ms' "$(awk -v t="$best" 'BEGIN { printf "%.1f ms", t / 1000 }')" '<' "$best" 100000

env -u GOGC "$work/latewood" --listen "$service" --log json >/dev/null 2>&1 &
server=$!
pids+=("$server")
# The service collects at 400 % (cmd/latewood/memory.go); so does what it is compared with.
GOGC=400 LATEWOOD_BARE=$bare "$work/bare" -test.run '^TestServeBare$' -test.timeout 0 >/dev/null 2>&1 &
bare_server=$!
pids+=("$bare_server")
ready "$service/readyz"
until exec 3<>"/dev/tcp/${bare/:/\/}"; do :; done 2>/dev/null
exec 3>&-
sleep 2
rest=$(kib "$server" VmRSS)
judge 'resident memory at rest' '< 64 MiB' "$(mib "$rest") MiB" '<' "$rest" $((64 * 1024))

# Closed loop: one movement over and over, 64 connections; the two in turns, so
# that both see the same machine. The median of seven such pairs counts.
cat >"$work/movement.lua" <<'LUA'
wrk.method = "POST"
wrk.headers["Content-Type"] = "application/json"
wrk.body = [[{"wood": "maple-sugar", "size": {"value": 330, "unit": "mm"}, "direction": "tangential", "from_condition": {"mc_pct": 9}, "to_condition": {"mc_pct": 6}}]]
LUA
spent() { awk '{ print $14 + $15 }' "/proc/$1/stat"; } # hundredths of a second of the processors
closed() { # SCRIPT ADDRESS PID CONNECTIONS; prints requests a second and microseconds of processor time for each
  local before after
  before=$(spent "$3")
  wrk -t2 "-c$4" "-d${burst}s" -s "$1" "http://$2" >"$work/wrk.txt"
  after=$(spent "$3")
  ! grep -q 'Non-2xx' "$work/wrk.txt" || { cat "$work/wrk.txt" >&2; exit 1; }
  awk -v used=$((after - before)) '/requests in/ { n = $1 } /^Requests\/sec:/ { print $2, used * 10000 / n }' "$work/wrk.txt"
}
median_of() { sort -n | awk '{ v[NR] = $1 } END { print v[int((NR + 1) / 2)] }'; }
column() { awk -v c="$2" '{ print $c }' "$1"; }
burst=$(((span + 3) / 4))
: >"$work/pairs.txt"
for _ in 1 2 3 4 5 6 7; do
  read -r plain plain_spent < <(closed "$work/movement.lua" "$bare/v1/movement" "$bare_server" 64)
  read -r whole whole_spent < <(closed "$work/movement.lua" "$service/v1/movement" "$server" 64)
  awk -v a="$whole" -v b="$plain" -v c="$whole_spent" -v d="$plain_spent" 'BEGIN { printf "%.0f %.0f %.3f %.1f %.1f\n", b, a, a / b, d, c }' >>"$work/pairs.txt"
done
row 'bare handler, 64 connections, median of seven' '' "$(column "$work/pairs.txt" 1 | median_of) /s" ''
row 'the whole service, 64 connections, median of seven' '' "$(column "$work/pairs.txt" 2 | median_of) /s" ''
row 'processor time for a request: bare, median' '' "$(column "$work/pairs.txt" 4 | median_of) us" ''
row 'processor time for a request: whole, median' '' "$(column "$work/pairs.txt" 5 | median_of) us" ''
ratio=$(column "$work/pairs.txt" 3 | median_of)
row 'its part of the bare throughput, least and most' '' "$(column "$work/pairs.txt" 3 | sort -n | sed -n '1p;7p' | paste -sd ' ')" ''
judge 'its part of the bare throughput, median of seven' '>= 0.90' "$ratio" '>=' "$ratio" 0.90

# Batches of one movement and of a thousand, on one connection: what each item beyond the
# first takes of the processors.
batch_of() { # N
  awk -v n="$1" '/^wrk.body = / { sub(/^wrk.body = \[\[/, ""); sub(/\]\]$/, "")
    printf "wrk.body = [==[{\"items\": ["; for (i = 0; i < n; i++) printf "%s{\"route\": \"/v1/movement\", \"request\": %s}", i ? "," : "", $0; print "]}]==]"; next } { print }' "$work/movement.lua" >"$work/batch$1.lua"
}
batch_of 1
batch_of 1000
: >"$work/items.txt"
for _ in 1 2 3 4 5 6 7; do
  read -r _ one < <(closed "$work/batch1.lua" "$service/v1/batch" "$server" 2)
  read -r _ thousand < <(closed "$work/batch1000.lua" "$service/v1/batch" "$server" 2)
  awk -v a="$one" -v b="$thousand" 'BEGIN { printf "%.2f\n", (b - a) / 999 }' >>"$work/items.txt"
done
item=$(median_of <"$work/items.txt")
judge 'processor time for an item of a batch beyond the first' '<= 6 us' "$item us" '<=' "$item" 6
kill "$bare_server"

# Open loop: requests come when they come, whether the last was answered or not.
target() { # PATH FILE
  printf '{"method":"POST","url":"http://%s%s","header":{"Content-Type":["application/json"]},"body":"%s"}\n' "$service" "$1" "$(base64 -w0 <"$2")"
}
sed -n 's/^wrk.body = \[\[\(.*\)\]\]$/\1/p' "$work/movement.lua" >"$work/movement.json"
target /v1/movement "$work/movement.json" >"$work/movement.target"
attack() { # TARGETS RATE SECONDS OUT
  "$vegeta" attack -format=json -targets "$1" -rate "$2/s" -duration "${3}s" -connections 64 -max-connections 64 -workers 64 -timeout 30s >"$work/attack.bin"
  "$vegeta" report -type=json <"$work/attack.bin" >"$4"
}
at() { grep -o "\"$2\":[0-9.e+-]*" "$1" | head -1 | cut -d: -f2; } # milliseconds come as nanoseconds
# A run counts when every request was answered with 200.
whole_run() { [ "$(at "$1" success)" = 1 ] || { echo "a run with failures does not count: $(grep -o '"status_codes":.*' "$1")" >&2; missed=1; return 1; }; }
median=0
ms() { awk -v n="$1" 'BEGIN { printf "%.2f ms", n / 1e6 }'; }
best=999999999999
for _ in 1 2 3; do
  attack "$work/movement.target" 5000 "$span" "$work/open.json"
  p=$(at "$work/open.json" 99th)
  whole_run "$work/open.json" || continue
  [ "${p%.*}" -ge "$best" ] || { best=${p%.*}; median=$(at "$work/open.json" 50th); }
done
row '5000 movements a second, median, best of three' '' "$(ms "$median")" ''
judge '5000 movements a second, 99th percentile' '<= 2 ms' "$(ms "$best")" '<=' "$best" 2000000

# Mixed: every example, light ones ten times as often as heavy ones.
# A line for each route; inner lists and objects are left out.
curl -fs "http://$service/v1/limits" | sed 's/"\(lists\|budgets\)":\[[^]]*\],\?//g; s/"work":{[^}]*},\?//g; s/{/\n{/g' >"$work/limits.txt"
: >"$work/light.target"
: >"$work/heavy.target"
for file in api/examples/*.json; do
  id=$(basename "$file")
  id=${id%%.*}
  case $id in *[A-Z]*) continue ;; esac # an operation of the rack, which stands under its name
  path=/v1/$id
  if grep -q "\"route\":\"$path\",[^{}]*\"heavy\":true" "$work/limits.txt"; then
    target "$path" "$file" >>"$work/heavy.target"
  else
    target "$path" "$file" >>"$work/light.target"
  fi
done
[ -s "$work/light.target" ] && [ -s "$work/heavy.target" ] || { echo 'light and heavy routes cannot be told apart' >&2; exit 1; }
{ for _ in $(seq 10); do cat "$work/light.target"; done; cat "$work/heavy.target"; } >"$work/mixed.target"
attack "$work/mixed.target" 100 "$mixed" "$work/mixed.json" &
attacking=$!
pids+=("$attacking")
: >"$work/memory.txt"
while kill -0 "$attacking" 2>/dev/null; do
  kib "$server" VmRSS >>"$work/memory.txt"
  sleep 1
done
wait "$attacking"
# Flat: the mean of the last third against that of the middle third.
read -r middle last most < <(awk '{ m[NR] = $1; if ($1 > top) top = $1 } END { a = int(NR / 3); b = int(2 * NR / 3);
  for (i = a + 1; i <= b; i++) x += m[i]; for (i = b + 1; i <= NR; i++) y += m[i]; printf "%.0f %.0f %d\n", x / (b - a), y / (NR - b), top }' "$work/memory.txt")
row "mixed, 100/s for ${mixed} s: answered with" '' "$(grep -o '"status_codes":{[^}]*}' "$work/mixed.json" | tr -d '"{}' | cut -d: -f2-)" ''
row 'mixed: resident memory, middle third' '' "$(mib "$middle") MiB" ''
judge 'mixed: the last third against the middle third' '<= 1.10' "$(awk -v a="$last" -v b="$middle" 'BEGIN { printf "%.3f", a / b }')" '<=' "$last" "$((middle * 110 / 100))"
if grep -o '"status_codes":{[^}]*}' "$work/mixed.json" | tr ',{' '\n\n' | grep -E '"(0|[45][0-9][0-9])"' | grep -qv '"503"'; then
  echo 'a mixed request failed:' >&2 && grep -o '"errors":.*' "$work/mixed.json" >&2
  missed=1
fi

# Light beside heavy: as many heavy requests as eight callers can ask.
{ echo 'local bodies = {'; while read -r line; do
  path=$(grep -o '"url":"[^"]*' <<<"$line" | sed "s,.*$service,,")
  printf '{ "%s", [==[%s]==] },\n' "$path" "$(grep -o '"body":"[^"]*' <<<"$line" | cut -d'"' -f4 | base64 -d)"
done <"$work/heavy.target"
  cat <<'LUA'
}
local n = 0
request = function()
  n = n % #bodies + 1
  return wrk.format("POST", bodies[n][1], { ["Content-Type"] = "application/json" }, bodies[n][2])
end
LUA
} >"$work/heavy.lua"
best=999999999999
for _ in 1 2 3; do
  wrk -t1 -c8 "-d$((span + 4))s" --timeout 10s -s "$work/heavy.lua" "http://$service" >"$work/heavy.txt" &
  pids+=($!)
  sleep 2
  attack "$work/light.target" 200 "$span" "$work/beside.json"
  wait "${pids[-1]}"
  p=$(at "$work/beside.json" 99th)
  whole_run "$work/beside.json" || continue
  [ "${p%.*}" -ge "$best" ] || { best=${p%.*}; median=$(at "$work/beside.json" 50th); }
done
row 'heavy requests while light ones are asked, 8 callers' '' "$(awk '/^Requests\/sec:/ { print $2 }' "$work/heavy.txt") /s" ''
row '200 light ones a second beside them, median' '' "$(ms "$median")" ''
judge '200 light ones a second beside them, 99th percentile' '<= 5 ms' "$(ms "$best")" '<=' "$best" 5000000
peak=$(kib "$server" VmHWM)
judge 'most resident memory of the whole run' '< 160 MiB' "$(mib "$peak") MiB" '<' "$peak" $((160 * 1024))
exit "$missed"
