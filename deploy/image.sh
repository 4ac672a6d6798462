#!/usr/bin/env bash
# Builds the image from the Dockerfile and tries it, on a Debian machine without any
# image registry: a base image is made here from Debian's own packages and the Go
# that go.mod names. Needs root, Go, buildah and debootstrap (apt-get install buildah
# debootstrap). Leaves the image as localhost/yardbell; --keep keeps the base as well.
#
#   deploy/image.sh
set -euo pipefail
cd "$(dirname "$0")/.."
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export BUILDAH_ISOLATION=chroot STORAGE_DRIVER=vfs
base=localhost/yardbell-go

say() { printf '%s\n' "-- $*"; }

if ! buildah inspect "$base" >/dev/null 2>&1; then
  say "base image: Debian and Go"
  debootstrap --variant=minbase --include=ca-certificates bookworm "$work/root" >"$work/debootstrap.log" 2>&1 ||
    { tail "$work/debootstrap.log"; exit 1; }
  cp -a "$(GOTOOLCHAIN=auto go env GOROOT)" "$work/root/usr/local/go"
  GOMODCACHE="$work/root/go/pkg/mod" GOFLAGS=-modcacherw go mod download
  c=$(buildah from scratch)
  buildah copy -q "$c" "$work/root" / >/dev/null
  buildah config --env PATH=/usr/local/go/bin:/usr/bin:/bin:/usr/sbin:/sbin --env GOPATH=/go \
    --env GOPROXY=off --env GOTOOLCHAIN=local "$c"
  buildah commit -q "$c" "$base" >/dev/null
  buildah rm "$c" >/dev/null
  rm -rf "$work/root"
fi

say "the image, by the Dockerfile"
buildah build -q --format docker --build-arg BASE="$base" -t localhost/yardbell . >/dev/null
c=$(buildah from localhost/yardbell)
root=$(buildah mount "$c")
pid=
trap '[ -z "$pid" ] || kill "$pid" 2>/dev/null; buildah umount "$c" >/dev/null; buildah rm "$c" >/dev/null; rm -rf "$work"' EXIT

say "what is inside"
(cd "$root" && find . -mindepth 1 -not -path './proc*' -not -path './sys*' -not -path './dev*' | sort)
size=$(du -sm "$root" | cut -f1)
say "$size MB"
[ "$size" -lt 60 ]
[ "$(buildah inspect --format '{{.OCIv1.Config.User}}' localhost/yardbell)" = 65532:65532 ]

say "run as nobody, on a read-only root"
mkdir -p "$work/data"
chown 65532:65532 "$work/data"
chmod 700 "$work/data"
run() {
  ${as:-} unshare --mount -- bash -ec '
    mount --bind "$1" "$1"
    mount --bind "$2" "$1/data"
    mount -o remount,bind,ro "$1"
    r=$1; shift 2
    export TMPDIR=/data
    exec setpriv --no-new-privs chroot --userspec=65532:65532 "$r" "$@"' _ "$root" "$work/data" "$@"
}
run /yardbell demo >"$work/demo.txt"
tail -n 2 "$work/demo.txt"
printf '700100:%s\n' "$(head -c 24 /dev/urandom | base64 | tr -d '+/=')" >"$work/data/token"
chown 65532:65532 "$work/data/token"
chmod 600 "$work/data/token"
# Nobody answers at this address: the service has to stay up and try again.
# exec, so that the number is the service's own and a signal reaches it.
as=exec YARDBELL_TOKEN_FILE=/data/token run /yardbell serve --db /data/crew.db --watch 127.0.0.1:18088 --api http://127.0.0.1:9 \
  >"$work/serve.out" 2>"$work/serve.err" &
pid=$!
for _ in $(seq 50); do
  run /yardbell health --at 127.0.0.1:18088 >/dev/null 2>&1 && break
  sleep 0.2
done
run /yardbell health --at 127.0.0.1:18088
# All of it is well but the chat, which is not there.
for _ in $(seq 100); do
  said=$(run /yardbell health --at 127.0.0.1:18088 --ready 2>&1) || true
  [ "$said" = "yardbell: database: ok tick: ok chat: nothing yet" ] && break
  sleep 0.2
done
[ "$said" = "yardbell: database: ok tick: ok chat: nothing yet" ]
grep -q '^join code: ' "$work/serve.out"
[ "$(stat -c %a "$work/data/crew.db")" = 600 ]
if grep -q "$(cut -d: -f2 "$work/data/token")" "$work/serve.out" "$work/serve.err"; then
  say "the token shows in what serve prints"
  exit 1
fi
kill -TERM "$pid"
wait "$pid"
pid=
run /yardbell check --db /data/crew.db
say "good: it serves, answers its health check, and stops when told to"
