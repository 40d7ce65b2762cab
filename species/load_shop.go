package species

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"latewood/woodphys/quantity"
)

func (l *loader) loadShop() {
	s := &l.tables.shop
	l.each("plates", func(r record) { s.plates = append(s.plates, r.plate()) })
	l.each("saws", func(r record) {
		s.saws = append(s.saws, &SawKind{r.need("id"), r.need("name"), r.span(), r.text("note")})
	})
	l.each("allowances", func(r record) {
		s.allowances = append(s.allowances, &Allowance{r.need("id"), r.need("name"), r.need("per"), r.span(), r.text("note")})
	})
	l.each("end_trims", func(r record) {
		s.endTrims = append(s.endTrims, &EndTrim{r.need("id"), r.need("name"), r.span(), r.text("note")})
	})
	sortByID(l, s.plates, func(p *Plate) string { return p.ID })
	sortByID(l, s.saws, func(k *SawKind) string { return k.ID })
	sortByID(l, s.allowances, func(a *Allowance) string { return a.ID })
	sortByID(l, s.endTrims, func(e *EndTrim) string { return e.ID })
}

func (r record) plate() *Plate {
	p := &Plate{
		ID: r.need("id"), Instrument: r.need("instrument"), Part: r.need("part"),
		Pieces: int(r.needNumber("pieces_per_set")),
		Length: r.needSize("length_mm", "size"), Width: r.needSize("width_mm", "size"),
		Rough: r.needSize("rough_mm", "rough"), ThinEdge: r.size("thin_edge_mm", "rough"), Final: r.needSize("final_mm", "final"),
		Quartered: r.need("quartered") == "yes", Matched: Matching(r.need("matched")), Note: r.text("note"),
	}
	if float64(p.Pieces) != r.needNumber("pieces_per_set") || p.Pieces < 1 {
		r.fail("pieces_per_set is not a whole number above 0")
	}
	if quartered := r.text("quartered"); quartered != "yes" && quartered != "no" {
		r.fail("quartered is %q, not yes or no", quartered)
	}
	if p.Matched != Bookmatched && p.Matched != Unmatched && p.Matched != EitherMatched {
		r.fail("unknown matching %q", p.Matched)
	}
	rough, _ := p.Rough.Get()
	if final, _ := p.Final.Get(); final >= rough {
		r.fail("the final thickness is not below the rough thickness")
	}
	if thin, wedge := p.ThinEdge.Get(); wedge && thin >= rough {
		r.fail("the thin edge is not thinner than the thick one")
	}
	p.RingAngle = r.ringAngles()
	return p
}

func (r record) ringAngles() RingAngles {
	a := RingAngles{Wanted: r.angle("ring_angle_wanted_deg"), Least: r.angle("ring_angle_least_deg")}
	if a.Wanted.Known() || a.Least.Known() {
		a.Source, a.Checked = r.needSource("ring_angle_source"), r.needMark("ring_angle_checked")
	}
	return a
}

func (r record) angle(column string) Optional[quantity.Angle] {
	degrees, known := r.number(column).Get()
	if !known {
		return Optional[quantity.Angle]{}
	}
	if degrees < 0 || degrees > 90 {
		r.fail("%s: %g is no ring angle", column, degrees)
	}
	return Known(quantity.Angle(degrees) * quantity.Degree)
}

// size returns the length in a column of millimetres with the source and the
// mark in the columns that begin with about.
func (r record) size(column, about string) Size {
	mm, known := r.number(column).Get()
	if !known {
		return Size{}
	}
	if mm < 0 {
		r.fail("%s is negative", column)
	}
	return Size{Known(quantity.Length(mm) * quantity.Millimetre), r.needSource(about + "_source"), r.needMark(about + "_checked")}
}

func (r record) needSize(column, about string) Size {
	s := r.size(column, about)
	if mm, _ := s.Get(); mm <= 0 {
		r.fail("%s is not above 0", column)
	}
	return s
}

func (r record) span() Span {
	s := Span{r.size("low_mm", "low"), r.size("usual_mm", "usual"), r.size("high_mm", "high")}
	var known []quantity.Length
	for _, size := range []Size{s.Low, s.Usual, s.High} {
		if v, ok := size.Get(); ok {
			known = append(known, v)
		}
	}
	if len(known) == 0 || !slices.IsSorted(known) {
		r.fail("low, usual and high are all empty or out of order")
	}
	return s
}

// sortByID orders entries by id and tells of an id that stands twice.
func sortByID[T any](l *loader, entries []T, id func(T) string) {
	slices.SortFunc(entries, func(a, b T) int { return strings.Compare(id(a), id(b)) })
	for i := 1; i < len(entries); i++ {
		if id(entries[i]) == id(entries[i-1]) {
			l.problems = append(l.problems, fmt.Errorf("%s stands twice", id(entries[i])))
		}
	}
}

// byID finds an entry in a table ordered by id.
func byID[T any](entries []T, wanted string, id func(T) string) (T, bool) {
	i, found := slices.BinarySearchFunc(entries, wanted, func(e T, w string) int { return cmp.Compare(id(e), w) })
	if !found {
		var none T
		return none, false
	}
	return entries[i], true
}
