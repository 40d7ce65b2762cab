# Everything CI does can be done here. `make check` is what CI runs.

.PHONY: release clients crashes postgres mutants solvers run test check contract bench lint sweep walk page contract-outside deploy-check notice documented drawings load chaos fuzz

run:
	go run ./cmd/latewood

test:
	go test ./...

check:
	.ci/run

# Write openapi/openapi.yaml anew after a change of the request or reply types.
contract:
	go test ./api -run 'TestContractHasNotDrifted|TestPhysicsPageHasNotDrifted|TestPromisedExamples' -update

# The contract as a release (api/VERSIONING.md). May be run again until it is tagged.
VERSION ?= 1.0.0
release:
	.ci/release $(VERSION)

# The generated part of the clients anew, after that. Installs what it needs.
clients:
	.ci/write-clients

# Draw the pictures of the README anew.
drawings:
	go test ./cmd/latewood -run TestReadmeDrawings -draw

# Longer sweeps that write their measured numbers into the documents beside the
# code: coverage of the bands (about 6 minutes).
sweep:
	LATEWOOD_SWEEP=1 go test ./woodphys/readiness -run TestCoverageSweep -timeout 30m
	LATEWOOD_SWEEP=1 go test ./woodphys/readiness -run TestWrongSweep -timeout 60m

# Some 50 000 requests drawn from the contract, right ones and wrong ones, and every
# reply held against it (about 3 minutes); `make test` asks some 800 of them.
walk:
	LATEWOOD_SWEEP=1 go test ./api -run '^TestWalk$$' -timeout 30m -v

# The front page in a browser, and the contract as others see it. Install what they need.
page:
	.ci/page
contract-outside:
	.ci/contract

# The deploy files as far as they can be checked without a container engine, and the
# commands of the documents that nothing else runs.
deploy-check:
	.ci/deploy
documented:
	.ci/documented

# The licences of what is linked, after a module was added or brought up to date.
notice:
	go test ./cmd/latewood -run TestNoticeHoldsWhatIsLinked -notice

# Mutation testing of the chapters that carry the numbers (more than an hour).
mutants:
	.ci/mutants

bench:
	go test ./api/... ./woodphys/... ./species -run '^$$' -bench . -benchmem

lint:
	.ci/lint

# What the service carries, on the loopback: throughput, latency, memory. Installs
# wrk and vegeta. `make load MIXED=120 SPAN=10` is shorter.
MIXED ?= 600
SPAN ?= 20
load:
	testdata/load/load.sh $(MIXED) $(SPAN)

# The planner against general-purpose solvers (two minutes). Installs what it needs.
solvers:
	.ci/solvers

# The store of the rack when power is lost: at every write and every sync of a thousand
# readings, a hundred thousand times in all. It takes both processors for some four minutes.
CRASHES ?= 100000
crashes:
	LATEWOOD_SWEEP=1 LATEWOOD_CRASHES=$(CRASHES) go test ./api/internal/rack/store -run TestPowerLoss -v -timeout 120m

# The store of the rack against a real PostgreSQL, started in a temporary folder.
postgres:
	.ci/postgres

# The program killed, stopped, flooded and cut off; five minutes.
chaos:
	.ci/chaos

# Each fuzz target for ten minutes; `make fuzz FUZZTIME=2m` is shorter. What breaks
# a target is kept in testdata/fuzz of its package and asked by `make test` from then on.
FUZZTIME ?= 10m
fuzz:
	LATEWOOD_FUZZ=1 go test ./api/internal/serve -run '^$$' -fuzz '^FuzzDecode$$' -fuzztime $(FUZZTIME)
	LATEWOOD_FUZZ=1 go test ./api/internal/serve -run '^$$' -fuzz '^FuzzRoutes$$' -fuzztime $(FUZZTIME)
	LATEWOOD_FUZZ=1 go test ./api/internal/serve -run '^$$' -fuzz '^FuzzMembers$$' -fuzztime $(FUZZTIME)
	LATEWOOD_FUZZ=1 go test ./api/internal/shelf -run '^$$' -fuzz '^FuzzLog$$' -fuzztime $(FUZZTIME)
	go test ./woodphys/quantity -run '^$$' -fuzz '^FuzzParseLength$$' -fuzztime $(FUZZTIME)
