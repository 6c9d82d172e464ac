# One static binary, no C, no root. Build and serve:
#
#   docker build -t guildhand .
#   docker run --rm -v guildhand:/data -e GUILDHAND_DISCORD_TOKEN guildhand
#
# The configuration file is /data/guildhand/config.yaml in the volume. To reach
# /metrics from outside, set GUILDHAND_HEALTH_ADDR to :9090 and publish the port.
FROM golang:1.26-bookworm AS build
WORKDIR /src
COPY go.mod go.sum ./
RUN go mod download
COPY . .
ARG VERSION=""
ENV CGO_ENABLED=0
# goolm is Matrix encryption in Go.
RUN go build -tags goolm -trimpath -buildvcs=false \
      -ldflags "-s -w -X main.version=${VERSION}" -o /out/guildhand ./cmd/guildhand \
 && mkdir -p /out/data/guildhand

FROM gcr.io/distroless/static-debian12:nonroot
COPY --from=build /out/guildhand /guildhand
COPY --from=build /src/LICENSE /src/bot/template/LICENSE-DejaVu.txt /licenses/
# The daybook, the Matrix keys and the templates live here; the volume keeps
# this folder's owner.
COPY --from=build --chown=65532:65532 /out/data /data
ENV XDG_DATA_HOME=/data XDG_CONFIG_HOME=/data GUILDHAND_HEALTH_ADDR=127.0.0.1:9090
VOLUME /data
USER 65532:65532
# Healthy means that the daybook can be written and every platform is connected.
HEALTHCHECK --interval=30s --timeout=10s --start-period=60s CMD ["/guildhand", "health"]
ENTRYPOINT ["/guildhand"]
CMD ["serve"]
