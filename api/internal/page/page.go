// Package page holds the front page: modules, one sheet of style and the contract cut
// down to what its forms are grown from. Nothing of it asks any other host.
package page

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"io/fs"
	"path"
	"sort"
	"strings"
	"sync"
)

// The patterns leave out the tests beside the modules (*.test.mjs).
//
//go:embed index.html page.css *.js
var embedded embed.FS

// formsName is the file that is made from the contract when it is first asked for.
const formsName = "forms.json"

// workerName is the service worker: it needs to know the others, so it is written last.
const workerName = "worker.js"

// indexName is the page itself. It says whether the service keeps a rack.
const indexName = "index.html"

// Files returns the files of the page by their names; RackFiles those of a service that keeps
// a rack. The error speaks of a broken build.
var (
	Files     = sync.OnceValues(func() (map[string][]byte, error) { return filesOf("<body>") })
	RackFiles = sync.OnceValues(func() (map[string][]byte, error) { return filesOf("<body data-rack>") })
)

func filesOf(body string) (map[string][]byte, error) {
	entries, err := fs.ReadDir(embedded, ".")
	if err != nil {
		return nil, err
	}
	files := map[string][]byte{}
	for _, entry := range entries {
		text, err := embedded.ReadFile(entry.Name())
		if err != nil {
			return nil, err
		}
		files[entry.Name()] = text
	}
	if files[formsName], err = forms(); err != nil {
		return nil, err
	}
	files[indexName] = []byte(strings.Replace(string(files[indexName]), "<body>", body, 1))
	files[workerName] = worker(files)
	return files, nil
}

// worker returns the service worker with the names of all files and a version that is
// another one when any of them changes.
func worker(files map[string][]byte) []byte {
	names := make([]string, 0, len(files))
	for name := range files {
		names = append(names, name)
	}
	sort.Strings(names)
	sum := sha256.New()
	addresses := []string{"/"}
	for _, name := range names {
		sum.Write(files[name])
		if name != indexName && name != workerName {
			addresses = append(addresses, path.Join("/page", name))
		}
	}
	return []byte(strings.NewReplacer(
		"@VERSION@", hex.EncodeToString(sum.Sum(nil))[:12],
		"@FILES@", strings.Join(addresses, " "),
	).Replace(string(files[workerName])))
}
