# Everything CI does can be done here. `make check` is what CI runs.

.PHONY: run test check contract bench lint

run:
	go run ./cmd/latewood

test:
	go test ./...

check:
	.ci/run

# Write openapi/openapi.yaml anew after a change of the request or reply types.
contract:
	go test ./api -run TestContractHasNotDrifted -update

bench:
	go test ./api ./woodphys/... ./species -run '^$$' -bench . -benchmem

lint:
	.ci/lint
