// Command mutants reads the reports of .ci/mutants, takes out what cannot be told apart
// from the code by any test (equivalent.csv, with the reason), and fails where a package
// kills less than its share.
//
//	go run ./testdata/mutants FOLDER PACKAGE...
package main

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// least is the share of the mutants that the tests of a package have to kill.
const least = 0.85

const listed = "testdata/mutants/equivalent.csv"

// place is a mutant wherever its line has moved to: the file, the line without its
// indentation, the column of the operator in it, and what is done to it.
type place struct {
	file, line string
	column     int
	kind       string
}

type mutant struct {
	Type, Status string
	Line, Column int
}

type report struct {
	Files []struct {
		Name      string `json:"file_name"`
		Mutations []mutant
	}
}

// counts are the mutants of a package by what became of them.
type counts struct{ killed, endless, lived, equivalent, unviable int }

// share is what the tests kill of all that compiles and is not equivalent; a test that
// never ends is a test that fails.
func (c counts) share() float64 {
	caught := float64(c.killed + c.endless)
	return caught / (caught + float64(c.lived))
}

// again says that what lived is tried once more, for tests that were written since the
// report: MUTANTS_AGAIN=1.
func again() bool { return os.Getenv("MUTANTS_AGAIN") != "" }

func main() {
	if len(os.Args) < 3 {
		stop(errors.New("usage: mutants FOLDER PACKAGE [PACKAGE]"))
	}
	equivalents, err := readEquivalents()
	stop(err)
	failed, all := false, counts{}
	for _, name := range os.Args[2:] {
		c, unknown, err := read(filepath.Join(os.Args[1], name+".json"), equivalents)
		stop(err)
		fmt.Printf("%-10s %4d killed, %2d never ended, %3d lived, %2d equivalent, %3d did not compile: %.1f %%\n",
			name, c.killed, c.endless, c.lived, c.equivalent, c.unviable, 100*c.share())
		for _, m := range unknown {
			fmt.Println("   ", m)
		}
		failed = failed || c.share() < least
		all = counts{
			all.killed + c.killed, all.endless + c.endless, all.lived + c.lived,
			all.equivalent + c.equivalent, all.unviable + c.unviable,
		}
	}
	fmt.Printf("together %.1f %% of %d\n", 100*all.share(), all.killed+all.endless+all.lived)
	for p, met := range equivalents {
		if !met && asked(p.file) {
			fmt.Println("listed as equivalent, and no such mutant lives:", p)
			failed = true
		}
	}
	if failed {
		os.Exit(1)
	}
}

// asked reports whether the package of a file is one of those that were named.
func asked(file string) bool {
	for _, name := range os.Args[2:] {
		if filepath.Dir(file) == "woodphys/"+name {
			return true
		}
	}
	return false
}

// read counts the mutants of a report and names those that live.
func read(path string, equivalents map[place]bool) (c counts, alive []string, err error) {
	text, err := os.ReadFile(path) //nolint:gosec // a report that .ci/mutants wrote
	if err != nil {
		return c, nil, err
	}
	var r report
	if err := json.Unmarshal(text, &r); err != nil {
		return c, nil, fmt.Errorf("%s: %w", path, err)
	}
	folder := "woodphys/" + strings.TrimSuffix(filepath.Base(path), ".json")
	for _, f := range r.Files {
		f.Name = folder + "/" + filepath.Base(f.Name) // told from the package
		code, err := os.ReadFile(f.Name)
		if err != nil {
			return c, nil, err
		}
		lines := strings.Split(string(code), "\n")
		for _, m := range f.Mutations {
			line := strings.TrimLeft(lines[m.Line-1], "\t")
			p := place{f.Name, line, m.Column - len(lines[m.Line-1]) + len(line), m.Type}
			_, known := equivalents[p]
			if !known && (m.Status == "NOT COVERED" || m.Status == "LIVED" && again()) {
				if m.Status, err = try(f.Name, string(code), m); err != nil {
					return c, nil, err
				}
			}
			switch {
			case m.Status == "KILLED":
				c.killed++
			case m.Status == "TIMED OUT":
				c.endless++
			case m.Status == "NOT VIABLE":
				c.unviable++
			case known:
				equivalents[p] = true
				c.equivalent++
			case m.Status == "LIVED":
				c.lived++
				alive = append(alive, fmt.Sprintf("lived %s:%d:%d %s", f.Name, m.Line, m.Column, m.Type))
			default:
				return c, nil, fmt.Errorf("%s:%d: nothing known about %q", f.Name, m.Line, m.Status)
			}
		}
	}
	return c, alive, nil
}

// readEquivalents reads the list; each is false until a report holds it.
func readEquivalents() (map[place]bool, error) {
	file, err := os.Open(listed)
	if err != nil {
		return nil, err
	}
	defer file.Close() //nolint:errcheck // only read
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", listed, err)
	}
	all := map[place]bool{}
	for i, r := range rows[1:] {
		column, err := strconv.Atoi(r[2])
		if err != nil || r[4] == "" {
			return nil, fmt.Errorf("%s, row %d: a column and a reason are needed", listed, i+2)
		}
		all[place{r[0], r[1], column, r[3]}] = false
	}
	return all, nil
}

func stop(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
