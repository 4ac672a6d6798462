# syntax=docker/dockerfile:1
# One static binary in an empty image: no shell, no package manager, nothing to update
# but the binary itself. deploy/image.sh builds and tries it where no registry is at hand.

# The release to build with is the one that go.mod names: it has the newest fixes.
ARG BASE=docker.io/library/golang:1.27.4-bookworm
FROM ${BASE} AS build
WORKDIR /src
COPY go.mod go.sum ./
RUN go mod download
COPY . .
# The folder for the database is made here, since the last stage has nothing to make
# one with; 65532 is nobody in particular.
RUN CGO_ENABLED=0 go build -trimpath -ldflags="-s -w" -o /out/yardbell ./cmd/yardbell \
 && mkdir -p /out/data && chown 65532:65532 /out/data && chmod 700 /out/data

FROM scratch
# Zone data is inside the binary; the roots of trust come from the build stage.
COPY --from=build /etc/ssl/certs/ca-certificates.crt /etc/ssl/certs/ca-certificates.crt
COPY --from=build /out/yardbell /yardbell
COPY --from=build --chown=65532:65532 /out/data /data
USER 65532:65532
VOLUME /data
WORKDIR /data
# The root may be read-only, so that /data is where temporary files go as well.
ENV YARDBELL_TOKEN_FILE=/run/secrets/token TMPDIR=/data
HEALTHCHECK --interval=60s --timeout=5s --start-period=20s CMD ["/yardbell", "health", "--at", "127.0.0.1:8089", "--ready"]
ENTRYPOINT ["/yardbell"]
CMD ["serve", "--db", "/data/crew.db", "--watch", "127.0.0.1:8089", "--log-level", "info"]
