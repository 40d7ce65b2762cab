package api_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v3"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/contract"
	"latewood/api/internal/serve"
	"latewood/openapi"
)

var update = flag.Bool("update", false, "write openapi/openapi.yaml anew")

// contractYAMLText is the generated document as it is committed.
func contractYAMLText(t *testing.T) []byte {
	t.Helper()
	service, err := api.New(serve.Config{Version: "example", Heavy: 1, Rack: asking.Rack()})
	require.NoError(t, err)
	text, err := (&contract.Source{Routes: api.Routes, Limits: api.LimitsOfAll(0), Service: service, Examples: asking.ExampleFiles()}).Document()
	require.NoError(t, err)
	var tree any
	require.NoError(t, json.Unmarshal(text, &tree))
	buffer := new(bytes.Buffer)
	encoder := yaml.NewEncoder(buffer)
	encoder.SetIndent(2)
	require.NoError(t, encoder.Encode(inDigits(tree)))
	require.NoError(t, encoder.Close())
	return buffer.Bytes()
}

// inDigits writes every number without an exponent: many readers of YAML take 1e-06 for
// a text.
func inDigits(node any) any {
	switch n := node.(type) {
	case float64:
		digits, tag := strconv.FormatFloat(n, 'f', -1, 64), "!!int"
		if strings.Contains(digits, ".") {
			tag = "!!float"
		}
		return &yaml.Node{Kind: yaml.ScalarNode, Tag: tag, Value: digits}
	case []any:
		for i := range n {
			n[i] = inDigits(n[i])
		}
	case map[string]any:
		for name := range n {
			n[name] = inDigits(n[name])
		}
	}
	return node
}

// Every member has a description, which a form can show as its help.
func TestEveryMemberIsDescribed(t *testing.T) {
	var tree map[string]any
	require.NoError(t, yaml.Unmarshal(openapi.YAML(), &tree))
	members := 0
	var look func(at string, node any)
	look = func(at string, node any) {
		schema, is := node.(map[string]any)
		if !is {
			return
		}
		for name, member := range contract.Dig(schema, "properties") {
			members++
			m, is := member.(map[string]any)
			require.True(t, is, at)
			assert.NotEmpty(t, m["description"], at+"."+name)
			look(at+"."+name, m)
		}
		look(at, schema["items"])
		for _, several := range []string{"oneOf", "anyOf", "allOf"} {
			forms, _ := schema[several].([]any)
			for _, form := range forms {
				look(at, form)
			}
		}
	}
	for name, schema := range contract.Dig(tree, "components", "schemas") {
		look(name, schema)
	}
	assert.Greater(t, members, 1000)
}

// The committed contract is the generated one, and no version of it was ever
// two documents: the ledger holds the hash of each.
func TestContractHasNotDrifted(t *testing.T) {
	asking.OneByOne(t)
	generated := contractYAMLText(t)
	sum := sha256.Sum256(generated)
	line := serve.ContractVersion + " " + hex.EncodeToString(sum[:])
	if *update {
		writeContract(t, generated, line)
		return
	}
	committed := strings.Split(string(openapi.YAML()), "\n")
	for i, line := range strings.Split(string(generated), "\n") {
		if i >= len(committed) || committed[i] != line {
			t.Fatalf("the types changed: run make contract and commit openapi/; line %d is now %q", i+1, line)
		}
	}
	require.Len(t, generated, len(openapi.YAML()))
	ledger, err := os.ReadFile(filepath.Join("..", "openapi", "versions.txt"))
	require.NoError(t, err)
	assert.Contains(t, strings.Split(string(ledger), "\n"), line, "the contract changed: give ContractVersion a new value, then run make contract")
}

func writeContract(t *testing.T, generated []byte, line string) {
	folder := filepath.Join("..", "openapi")
	ledger, err := os.ReadFile(filepath.Join(folder, "versions.txt"))
	require.NoError(t, err)
	var kept []string
	for old := range strings.Lines(string(ledger)) {
		old = strings.TrimSpace(old)
		version, _, _ := strings.Cut(old, " ")
		if version == serve.ContractVersion && old != line {
			require.True(t, !isRelease(serve.ContractVersion), "version %s was already another document: give ContractVersion a new value", version)
			continue
		}
		if old != "" && old != line {
			kept = append(kept, old)
		}
	}
	kept = append(kept, line)
	keepReleased(t, folder)
	require.NoError(t, os.WriteFile(filepath.Join(folder, "openapi.yaml"), generated, 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(folder, "versions.txt"), []byte(strings.Join(kept, "\n")+"\n"), 0o644))
}

// keepReleased keeps the contract of the last release beside that of the next, which may add
// to it and break nothing (.ci/contract).
func keepReleased(t *testing.T, folder string) {
	var committed struct{ Info struct{ Version string } }
	require.NoError(t, yaml.Unmarshal(openapi.YAML(), &committed))
	if version := committed.Info.Version; isRelease(version) && version != serve.ContractVersion {
		require.NoError(t, os.WriteFile(filepath.Join(folder, "released.yaml"), openapi.YAML(), 0o644))
	}
}

func isRelease(version string) bool { return !strings.Contains(version, "-") }
