# The program alone, on nothing: no shell, no libraries, no package manager.
#
#   docker build --build-arg VERSION=1.2.3 -t latewood:1.2.3 .
#   docker run --rm --read-only --cap-drop ALL --security-opt no-new-privileges \
#     --memory 192m -p 127.0.0.1:8080:8080 -e LATEWOOD_TOKENS="$(cat tokens)" latewood:1.2.3
#
# Others can reach what listens in a container, so it asks for tokens (latewood
# token NAME makes one), or for the words "serve --open" after the image.
#
# The base of the build is named by its version and not by its digest: no registry
# of images could be reached to learn it. Pin it (FROM golang:1.26.8@sha256:...)
# where an altered base must not be used unseen; "docker buildx imagetools inspect
# golang:1.26.8" tells it. The image itself is from nothing, and the binary has the
# same bytes for the same source and Go version.

FROM golang:1.26.8 AS build
WORKDIR /src
COPY go.mod go.sum ./
RUN go mod download && go mod verify
COPY . .
ARG VERSION=development
RUN CGO_ENABLED=0 GOFLAGS=-mod=readonly go build -trimpath -buildvcs=false \
    -ldflags "-s -w -X main.version=${VERSION}" -o /latewood ./cmd/latewood

FROM scratch
COPY --from=build --chmod=0555 /latewood /latewood
USER 65532:65532
ENV LATEWOOD_LISTEN=0.0.0.0:8080 LATEWOOD_LOG_FORMAT=json
EXPOSE 8080
STOPSIGNAL SIGTERM
ENTRYPOINT ["/latewood"]
CMD ["serve"]
