#!/usr/bin/env bash
# web.sh   the pages over a garage of 40 vehicles and 100,000 journal entries, asked by 16 clients at a time (wrk):
# the 99th percentile and the rate of each kind of page, its weight, and the server's memory at most; beside it nginx
# with the bytes of one page as a file, in the same run. Photographs are not in it.
set -eu
cd "$(dirname "$0")/.."
garage=build/bench-garage seconds=${1:-5} port=8458 folder=$(mktemp -d)
[ -e $garage/garage.db ] || build/bench/bench_large_garage $garage
build/fettle serve --garage $garage --date 2026-11-25 --port $port >"$folder/log" 2>&1 &
server=$!
trap 'kill $server 2>/dev/null; [ -e "$folder/nginx.pid" ] && kill "$(cat "$folder/nginx.pid")"; wait; rm -r "$folder"' EXIT
url=http://localhost:$port
until curl -s -o /dev/null $url/; do sleep 0.1; done
vehicle=$(curl -s $url/ | grep -o '/vehicle/[0-9a-f]*' | head -1)
first() { curl -s -o /dev/null -w '%{time_total}' "$url$1"; }
echo "first reckoning: plan $(first "$vehicle/plan") s, choose $(first "$vehicle/choose") s"

# "p99 rate" of 16 clients.
ask() {
    wrk -t2 -c16 -d"$seconds" --latency "$1" | awk '/ 99%/ {p = $2} /Requests\/sec/ {r = $2} /Non-2xx/ {bad = " (" $0 ")"} END {print p, r bad}'
}
echo '| page | bytes | gzip | 99th percentile | requests a second |'
echo '| --- | ---: | ---: | ---: | ---: |'
for page in / "$vehicle/survey" "$vehicle/survey/outside" "$vehicle/choose" "$vehicle/plan" /intake /trade /trade/jobs /bench; do
    read -r p99 rate <<<"$(ask "$url$page")"
    echo "| ${page/$vehicle/vehicle} | $(curl -s "$url$page" | wc -c) | $(curl -s -H 'Accept-Encoding: gzip' "$url$page" | wc -c) | $p99 | $rate |"
done
echo "server's memory at most: $(awk '/VmHWM/ {print $2 / 1024 " MB"}' /proc/$server/status)"

mkdir "$folder/www"
curl -s "$url$vehicle/survey" >"$folder/www/page.html"
cat >"$folder/nginx.conf" <<CONF
pid $folder/nginx.pid; error_log $folder/error.log; worker_processes 2;
events { worker_connections 128; }
http { access_log off; server { listen 127.0.0.1:$((port + 1)); root $folder/www; } }
CONF
chmod 755 "$folder" "$folder/www"
nginx -c "$folder/nginx.conf"
echo "survey as a file by nginx: $(ask http://localhost:$((port + 1))/page.html); by us: $(ask "$url$vehicle/survey") (99th percentile, requests a second)"
