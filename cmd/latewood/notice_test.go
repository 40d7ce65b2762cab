package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var writeNotice = flag.Bool("notice", false, "write NOTICE anew")

// linked is a module that is part of the program.
type linked struct{ Path, Version, Dir string }

// linkedModules asks the go command what the program is made of.
func linkedModules(t *testing.T) []linked {
	out, err := exec.Command("go", "list", "-deps", "-json=Module", ".").Output()
	require.NoError(t, err)
	decoder := json.NewDecoder(bytes.NewReader(out))
	seen := map[string]linked{}
	for {
		var one struct{ Module *linked }
		if err := decoder.Decode(&one); errors.Is(err, io.EOF) {
			break
		} else {
			require.NoError(t, err)
		}
		if one.Module != nil && one.Module.Path != "latewood" {
			seen[one.Module.Path] = *one.Module
		}
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	require.NoError(t, err)
	all := []linked{{Path: "Go standard library", Dir: strings.TrimSpace(string(root))}}
	for _, m := range seen {
		all = append(all, m)
	}
	slices.SortFunc(all, func(a, b linked) int { return strings.Compare(a.Path, b.Path) })
	return all
}

var licenceFiles = regexp.MustCompile(`(?i)^(licen[cs]e|copying|notice|patents)`)

// noticeOf is what NOTICE has to hold.
func noticeOf(t *testing.T) string {
	var b strings.Builder
	b.WriteString("latewood is linked with the modules named here, under the licences that follow each.\n" +
		"The page of the browsable contract that github.com/swaggest/swgui carries is under the Apache\n" +
		"License 2.0, whose text stands below with other modules. make notice writes this file.\n")
	for _, m := range linkedModules(t) {
		fmt.Fprintf(&b, "\n%s\n%s\n", strings.Repeat("=", 72), m.Path)
		entries, err := os.ReadDir(m.Dir)
		require.NoError(t, err)
		found := 0
		for _, e := range entries {
			if !licenceFiles.MatchString(e.Name()) || e.IsDir() {
				continue
			}
			text, err := os.ReadFile(filepath.Join(m.Dir, e.Name()))
			require.NoError(t, err)
			fmt.Fprintf(&b, "%s: %s\n\n%s\n", m.Path, e.Name(), strings.TrimSpace(strings.ReplaceAll(string(text), "\r\n", "\n")))
			found++
		}
		require.Positive(t, found, "%s has no licence", m.Path)
	}
	return b.String()
}

// NOTICE holds the licence of all that is linked, and the program shows it.
func TestNoticeHoldsWhatIsLinked(t *testing.T) {
	want := noticeOf(t)
	if *writeNotice {
		require.NoError(t, os.WriteFile("NOTICE", []byte(want), 0o644))
		return
	}
	is, err := os.ReadFile("NOTICE")
	require.NoError(t, err)
	assert.True(t, string(is) == want, "NOTICE is not what is linked: run make notice")
	r := serving(t, nil, nil, "--listen", "127.0.0.1:0")
	code, header, text := r.ask(t, "/licences", "")
	assert.Equal(t, http.StatusOK, code)
	assert.Equal(t, "text/plain; charset=utf-8", header.Get("Content-Type"))
	assert.True(t, text == want)
}
