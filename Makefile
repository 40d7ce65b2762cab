# Everything CI does can be done here. `make check` is what CI runs.

.PHONY: run test check contract bench lint sweep drawings

run:
	go run ./cmd/latewood

test:
	go test ./...

check:
	.ci/run

# Write openapi/openapi.yaml anew after a change of the request or reply types.
contract:
	go test ./api -run 'TestContractHasNotDrifted|TestPhysicsPageHasNotDrifted' -update

# Draw the pictures of the README anew.
drawings:
	go test ./cmd/latewood -run TestReadmeDrawings -draw

# Longer sweeps that write their measured numbers into the documents beside the
# code: coverage of the bands (about 3 minutes).
sweep:
	LATEWOOD_SWEEP=1 go test ./woodphys/readiness -run TestCoverageSweep -timeout 30m

bench:
	go test ./api ./woodphys/... ./species -run '^$$' -bench . -benchmem

lint:
	.ci/lint
