#!/usr/bin/env bash
# web.sh [SECONDS]   the pages over a garage of 40 vehicles, 100,000 journal entries and 5,000 photographs: each asked for SECONDS
# by 16 clients at a time (wrk), beside nginx with the same bytes as a file in the same run; the server's memory at most;
# and how soon a page can be used in Chromium. Prints Markdown; what misses its goal is said to.
set -eu
cd "$(dirname "$0")/.."
garage=build/bench-garage seconds=${1:-3} folder=$(mktemp -d) nginx_port=8459
[ -e $garage/garage.db ] || build/bench/bench_large_garage $garage
rm -rf $garage/cache
build/fettle serve --garage $garage --date 2026-11-25 --port 0 >"$folder/log" 2>&1 &
server=$!
trap 'kill $server 2>/dev/null; [ -e "$folder/nginx.pid" ] && kill "$(cat "$folder/nginx.pid")"; wait; rm -r "$folder"' EXIT
until grep -q localhost "$folder/log"; do kill -0 $server; sleep 0.1; done
url=$(grep -o 'http://localhost:[0-9]*' "$folder/log")
vehicle=$(curl -s "$url/" | grep -o '/vehicle/[0-9a-f]*' | head -1)

mkdir "$folder/www"
chmod 755 "$folder" "$folder/www"
cat >"$folder/nginx.conf" <<CONF
pid $folder/nginx.pid; error_log $folder/error.log; worker_processes 2;
events { worker_connections 128; }
http { access_log off; keepalive_requests 10000000; default_type text/html;
  server { listen 127.0.0.1:$nginx_port; root $folder/www; } }
CONF
nginx -c "$folder/nginx.conf"

# "p99-in-ms rate" of 16 clients.
ask() {
    wrk -t2 -c16 -d"$seconds" --latency "$1" | awk '
        / 99%/ { p = $2 + 0; if ($2 ~ /us/) p /= 1000; else if ($2 !~ /ms/) p *= 1000 }
        /Requests\/sec/ { r = $2 } /Non-2xx/ { print "not all were answered: " $0 >"/dev/stderr" }
        END { printf "%.1f %.0f\n", p, r }'
}
# Says so if it is not within what it should be.
within() { awk -v x="$1" -v most="$2" 'BEGIN { if (x + 0 > most + 0) printf " (over %s)", most }'; }
first() { curl -s -o /dev/null -w '%{time_total}' "$url$1"; }

echo "First reckoning:$(for page in survey plan choose; do s=$(first "$vehicle/$page"); echo -n " $page $s s$(within "$s" 0.7)"; done)"
echo
echo '| page | kB | kB packed | 99th percentile, ms | requests a second | by nginx | share |'
echo '| --- | ---: | ---: | ---: | ---: | ---: | ---: |'
for page in / /household "$vehicle/survey" "$vehicle/survey/outside" "$vehicle/photographs" "$vehicle/choose" "$vehicle/plan" \
    "$vehicle/what-if" /intake /trade /trade/jobs /bench; do
    curl -s "$url$page" >"$folder/www/page.html"
    bytes=$(stat -c %s "$folder/www/page.html")
    packed=$(curl -s -H 'Accept-Encoding: gzip' "$url$page" | wc -c)
    read -r p99 rate <<<"$(ask "$url$page")"
    read -r _ file <<<"$(ask http://localhost:$nginx_port/page.html)"
    heavy=$(within $((bytes / 1000)) 150) slow=$(within "$p99" 5)
    share=$(awk -v r="$rate" -v n="$file" 'BEGIN { s = r / n; printf "%.2f%s", s, s * 3 < 1 ? " (under a third)" : "" }')
    echo "| ${page/$vehicle//vehicle/ID} | $((bytes / 1000))$heavy | $((packed / 1000)) | $p99$slow | $rate | $file | $share |"
done
echo
memory=$(awk '/VmHWM/ { printf "%.0f", $2 / 1000 }' /proc/$server/status)
echo "Memory of the server at most: $memory MB$(within "$memory" 80)"
echo
echo '| first page in Chromium | usable after, middle of 11 | slowest |'
echo '| --- | ---: | ---: |'
node bench/first_page.mjs "$url" / "$vehicle/plan" "$vehicle/survey/outside"
