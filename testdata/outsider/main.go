// Command outsider asks a running latewood about billets whose truth is known and that
// dry by laws of their own. See README.md beside it.
package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"sync"
)

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run() error {
	data := flag.String("places", "species/data/climate_monthly.csv", "published months of the stations")
	rates := flag.String("rates", "testdata/outsider/rates.json", "rates of the woods, as -anchors writes them")
	check := flag.Bool("anchors", false, "fit the rates anew and hold the truths against their anchors")
	url := flag.String("url", "http://127.0.0.1:8080", "where the service listens")
	count := flag.Int("billets", 200, "billets of each truth")
	seed := flag.Uint64("seed", 600, "of the first truth, less one; the second takes the next")
	rowsTo := flag.String("rows", "", "file for a line of JSON for each question")
	flag.Parse()
	places, err := readPlaces(*data)
	if err != nil {
		return err
	}
	if *check {
		fit(places)
		table, good := report(places)
		fmt.Print(table)
		if !good {
			return errors.New("a truth misses more than 15 % of its anchors")
		}
		return writeRates(*rates)
	}
	if err := readRates(*rates); err != nil {
		return err
	}
	return judge(*url, places, *count, *seed, *rowsTo)
}

func writeRates(path string) error {
	all := map[string]map[string]float64{}
	for _, w := range theWoods() {
		all[w.id] = w.rates
	}
	text, err := json.MarshalIndent(all, "", "  ")
	if err != nil {
		return err
	}
	return os.WriteFile(path, append(text, '\n'), 0o600)
}

func readRates(path string) error {
	text, err := os.ReadFile(path) //nolint:gosec // named on the command line
	if err != nil {
		return err
	}
	all := map[string]map[string]float64{}
	if err := json.Unmarshal(text, &all); err != nil {
		return err
	}
	for _, w := range theWoods() {
		w.rates = all[w.id]
	}
	return nil
}

var counts = []int{0, 3, 8, 15}

// judge asks two questions at a time.
func judge(url string, places map[string]place, count int, seed uint64, rowsTo string) error {
	var names []string
	var rows []row
	var first error
	var lock sync.Mutex
	for k, l := range laws() {
		names = append(names, l.name)
		ids := make(chan int)
		var group sync.WaitGroup
		for range 2 {
			group.Go(func() {
				for id := range ids {
					b := newBillet(l, id, rand.New(rand.NewPCG(seed+uint64(k)+1, uint64(id))), places) //nolint:gosec // a fixed seed
					got, err := b.asked(url, l)
					lock.Lock()
					rows = append(rows, got...)
					if err != nil && first == nil {
						first = fmt.Errorf("%s %d: %w", l.name, id, err)
					}
					lock.Unlock()
				}
			})
		}
		for id := range count {
			ids <- id
		}
		close(ids)
		group.Wait()
	}
	fmt.Print(tableOf(rows, names, counts))
	if rowsTo != "" {
		if err := writeRows(rowsTo, rows); err != nil {
			return err
		}
	}
	return first
}

func (b *billet) asked(url string, l law) ([]row, error) {
	var rows []row
	for _, n := range counts {
		sent := b.few(n)
		request := b.request(sent)
		a, err := ask(url, request)
		if err != nil {
			return rows, err
		}
		r := b.score(l, n, sent, a)
		r.Request = request
		rows = append(rows, r)
	}
	return rows, nil
}

func writeRows(path string, rows []row) error {
	file, err := os.Create(path) //nolint:gosec // named on the command line
	if err != nil {
		return err
	}
	out := json.NewEncoder(file)
	for _, r := range rows {
		if err := out.Encode(r); err != nil {
			return err
		}
	}
	return file.Close()
}
