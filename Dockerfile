# One static binary, no C, no root. Build and serve:
#
#   docker build -t guildhand .
#   docker run --rm -v guildhand:/data -e GUILDHAND_DISCORD_TOKEN guildhand
#
# A configuration file goes to /data/guildhand/config.yaml.
FROM golang:1.26-bookworm AS build
WORKDIR /src
COPY go.mod go.sum ./
RUN go mod download
COPY . .
ARG VERSION=""
ENV CGO_ENABLED=0
# goolm is the encryption of Matrix in Go.
RUN go build -tags goolm -trimpath -buildvcs=false \
      -ldflags "-s -w -X main.version=${VERSION}" -o /out/guildhand ./cmd/guildhand \
 && mkdir -p /out/data/guildhand

FROM gcr.io/distroless/static-debian12:nonroot
COPY --from=build /out/guildhand /guildhand
COPY --from=build /src/LICENSE /src/bot/template/LICENSE-DejaVu.txt /licenses/
# The daybook, the Matrix keys and the templates live here; the volume takes
# over the owner of this folder.
COPY --from=build --chown=65532:65532 /out/data /data
ENV XDG_DATA_HOME=/data XDG_CONFIG_HOME=/data
VOLUME /data
USER 65532:65532
ENTRYPOINT ["/guildhand"]
CMD ["serve"]
