package main

import (
	"fmt"
	"math"
	"strings"
	"time"
)

// row is what one billet was asked at one number of readings, and what is true.
type row struct {
	Law, Wood     string
	Billet, Asked int
	Got           int // readings sent
	AsOf          int
	True          float64
	Low, MC, High float64
	Ready         int // true day of the step thickness, from stacking; -1: never
	ReadyLow      string
	ReadyValue    string
	ReadyHigh     string
	Undated       string
	From, Until   string
	Stacked       string
	Verdicts      map[string]string
	There         map[string]bool
	SetAside      int // true readings
	Careless      int // others
	Details       []string
	Request       map[string]any `json:",omitempty"`
}

func (b *billet) score(l law, n int, sent []reading, a answer) row {
	out := row{Law: l.name, Wood: b.wood.id, Billet: b.id, Asked: n, Got: len(sent), AsOf: b.asOf,
		True: b.course[b.asOf], Ready: b.readyOn("thickness"), Stacked: date(b.stacked),
		Verdicts: map[string]string{}, There: map[string]bool{}}
	if mc := a.Result.Moisture.MC; mc != nil {
		out.Low, out.MC, out.High = mc.Low, mc.Value, mc.High
	} else {
		out.Low, out.MC, out.High = 0, 40, 250 // nothing told
	}
	for _, v := range a.Result.Verdicts {
		out.Verdicts[v.Step], out.There[v.Step] = v.Verdict, b.there(v.Step, b.asOf)
		if v.Step == "thickness" {
			d := v.ReadyOn
			out.ReadyLow, out.ReadyValue, out.ReadyHigh, out.Undated = d.Low, d.Value, d.High, d.Undated
			out.From, out.Until = d.From, d.Until
		}
	}
	for _, x := range a.Result.Rejected {
		var at int
		if _, err := fmt.Sscanf(x.Pointer, "/readings/%d", &at); err != nil {
			continue
		}
		if sent[at].careless {
			out.Careless++
		} else {
			out.SetAside++
			out.Details = append(out.Details, x.Pointer+" "+x.Detail)
		}
	}
	return out
}

// days of a told date from stacking.
func (r row) days(text string) float64 {
	start, _ := time.Parse("2006-01-02", r.Stacked)
	at, _ := time.Parse("2006-01-02", text)
	return at.Sub(start).Hours() / 24
}

// dateHolds tells whether the true first day lies in the band, a day either way for
// the hour of the day.
func (r row) dateHolds() bool {
	if r.Ready < 0 {
		return r.ReadyHigh == ""
	}
	at := float64(r.Ready)
	return at >= r.days(r.ReadyLow)-1 && (r.ReadyHigh == "" || at <= r.days(r.ReadyHigh)+1)
}

// pinball of the three quantiles told, in points, doubled as a crude CRPS.
func (r row) pinball() float64 {
	sum := 0.0
	for _, q := range [][2]float64{{0.05, r.Low}, {0.5, r.MC}, {0.95, r.High}} {
		d := r.True - q[1]
		sum += math.Max(q[0]*d, (q[0]-1)*d)
	}
	return 2 * sum / 3
}

type tally struct {
	n, in, under, over           int
	width, pinball, error        float64
	dated, dateIn                int // told with a value
	open, openIn                 int // of these not ready on the day itself
	early, late                  int
	undated                      int
	aside, careless              int
	ready, wrong                 int
	step                         map[string][2]int
	notReady, notReadyWrong, say int
}

func tallied(rows []row) tally {
	t := tally{step: map[string][2]int{}}
	for _, r := range rows {
		t.add(r)
	}
	return t
}

func (t *tally) add(r row) {
	t.n++
	switch {
	case r.True < r.Low:
		t.under++
	case r.True > r.High:
		t.over++
	default:
		t.in++
	}
	t.width += r.High - r.Low
	t.pinball += r.pinball()
	t.error += math.Abs(r.MC - r.True)
	if r.SetAside > 0 {
		t.aside++
	}
	if r.Careless > 0 {
		t.careless++
	}
	for step, v := range r.Verdicts {
		s := t.step[step]
		switch v {
		case "ready":
			t.ready++
			s[0]++
			if !r.There[step] {
				t.wrong++
				s[1]++
			}
		case "not_ready":
			t.notReady++
			if r.There[step] {
				t.notReadyWrong++
			}
		default:
			t.say++
		}
		t.step[step] = s
	}
	t.addDate(r)
}

func (t *tally) addDate(r row) {
	if r.ReadyValue == "" {
		t.undated++
		return
	}
	t.dated++
	in := r.dateHolds()
	if in {
		t.dateIn++
	} else if r.Ready >= 0 && float64(r.Ready) < r.days(r.ReadyLow) {
		t.early++
	} else {
		t.late++
	}
	if r.Ready > r.AsOf {
		t.open++
		if in {
			t.openIn++
		}
	}
}

func percent(a, b int) string {
	if b == 0 {
		return "-"
	}
	return fmt.Sprintf("%.1f", 100*float64(a)/float64(b))
}

func tableOf(rows []row, names []string, counts []int) string {
	var out strings.Builder
	fmt.Fprintln(&out, "| truth | readings | MC held % | above, below | width | pinball | date held % (dated) | of those still to come % | set aside % | wrong ready % (of) | wrong not ready % (of) |")
	fmt.Fprintln(&out, "|---|---|---|---|---|---|---|---|---|---|---|")
	for _, name := range append(names, "all") {
		for _, n := range counts {
			var part []row
			for _, r := range rows {
				if (r.Law == name || name == "all") && r.Asked == n {
					part = append(part, r)
				}
			}
			t := tallied(part)
			fmt.Fprintf(&out, "| %s | %d | %s | %d, %d | %.2f | %.2f | %s (%d) | %s (%d) | %s | %s (%d) | %s (%d) |\n", name, n,
				percent(t.in, t.n), t.over, t.under, t.width/float64(t.n), t.pinball/float64(t.n), percent(t.dateIn, t.dated), t.dated,
				percent(t.openIn, t.open), t.open, percent(t.aside, t.n), percent(t.wrong, t.ready), t.ready,
				percent(t.notReadyWrong, t.notReady), t.notReady)
		}
	}
	return out.String()
}
