// Package events spoils series of weights as makers do, and counts what is said of them: wood
// cut off or something put on between two weighings, and single weights that are wrong. Only
// tests import it.
package events

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Series is the weights of a piece in order of time, and who judges them.
type Series struct {
	Grams []float64
	// Judge learns from other weights at the same times, with all else as it is.
	Judge func(grams []float64) (Said, error)
}

// Said is what was said of a series.
type Said struct {
	Step  int     // number of the first weight after a step; -1: none is told
	Share float64 // of the mass that went by it
	Apart bool    // the weights before it were read on a scale of their own
	Aside []int   // numbers of the weights set aside
}

// Shares of the mass that go by a step; below 0 it comes.
func Shares() []float64 { return []float64{0.03, 0.05, 0.10, 0.20, 0.40, -0.05, -0.10} }

// Dates are where a step lies.
func Dates() []string {
	return []string{"after the first", "early", "middle", "late", "before the last"}
}

// at is the number of the first weight after a step of a date among n; false where the date
// falls together with another.
func at(date string, n int) (k int, is bool) {
	switch date {
	case "after the first":
		k = 1
	case "before the last":
		k = n - 1
	case "early":
		k = 2
	case "late":
		k = n - 2
	default:
		k = n / 2
	}
	single := date == "after the first" || date == "before the last"
	return k, k >= 1 && k < n && (single || k >= 2 && k <= n-2) && (date == "middle" || single || k != n/2)
}

// cell counts one share at one date.
type cell struct {
	cases, told, right, apart, aside, touched, refused int
	off                                                []float64
}

func (c *cell) add(said Said, k int, share float64) {
	c.cases++
	c.aside += len(said.Aside)
	if len(said.Aside) > 0 {
		c.touched++
	}
	if said.Step < 0 {
		return
	}
	c.told++
	if said.Apart {
		c.apart++
	}
	if said.Step == k {
		c.right++
		c.off = append(c.off, math.Abs(said.Share-share))
	}
}

func (c *cell) percent(n int) float64 { return 100 * float64(n) / float64(max(c.cases, 1)) }

// Cuts counts steps in series.
type Cuts struct {
	Shares []float64 // that are tried; none: all of Shares
	sound  cell
	by     map[float64]map[string]*cell
}

// Add judges a series as it is and with each step in it. A series with a step that is refused
// is counted as such: no answer is wrong then.
//
// Errors: those of the series as it is.
func (c *Cuts) Add(s *Series) error {
	if c.by == nil {
		c.by = map[float64]map[string]*cell{}
	}
	said, err := s.Judge(s.Grams)
	if err != nil {
		return err
	}
	c.sound.add(said, -1, 0)
	shares := c.Shares
	if shares == nil {
		shares = Shares()
	}
	for _, share := range shares {
		if c.by[share] == nil {
			c.by[share] = map[string]*cell{}
		}
		for _, date := range Dates() {
			k, is := at(date, len(s.Grams))
			if !is {
				continue
			}
			grams := slices.Clone(s.Grams)
			for i := k; i < len(grams); i++ {
				grams[i] *= 1 - share
			}
			if c.by[share][date] == nil {
				c.by[share][date] = &cell{}
			}
			if said, err = s.Judge(grams); err != nil {
				c.by[share][date].refused++
				continue
			}
			c.by[share][date].add(said, k, share)
		}
	}
	return nil
}

// Sound returns in percent of the sound series those of which a step is told, those whose
// weights were read apart, and those of which a weight was set aside.
func (c *Cuts) Sound() (told, apart, aside float64) {
	return c.sound.percent(c.sound.told), c.sound.percent(c.sound.apart), c.sound.percent(c.sound.touched)
}

// Of returns in percent how often a step of a share at a date was told, and how many weights
// were set aside in the mean.
func (c *Cuts) Of(share float64, date string) (told, aside float64) {
	one := c.by[share][date]
	if one == nil {
		return math.NaN(), math.NaN()
	}
	return one.percent(one.told), float64(one.aside) / float64(max(one.cases, 1))
}

// CutsHead is that of the rows of Cuts.
const CutsHead = `| series | readings | share | date | cases | refused | told, % | at the right weight, % | read apart, % | weights set aside | share off, median | 9 of 10 |
|---|---|---|---|---|---|---|---|---|---|---|---|
`

// Rows writes the table.
func (c *Cuts) Rows(name string, readings int, out *strings.Builder) {
	line := func(share, date string, one *cell) {
		fmt.Fprintf(out, "| %s | %d | %s | %s | %d | %d | %.1f | %.0f | %.0f | %.2f |", name, readings, share, date, one.cases, one.refused, one.percent(one.told),
			one.percent(one.right), one.percent(one.apart), float64(one.aside)/float64(max(one.cases, 1)))
		if len(one.off) == 0 {
			out.WriteString(" - | - |\n")
			return
		}
		slices.Sort(one.off)
		fmt.Fprintf(out, " %.3f | %.3f |\n", one.off[len(one.off)/2], one.off[9*len(one.off)/10])
	}
	line("0", "-", &c.sound)
	for _, share := range Shares() {
		for _, date := range Dates() {
			if one := c.by[share][date]; one != nil {
				line(fmt.Sprintf("%.2f", share), date, one)
			}
		}
	}
}
