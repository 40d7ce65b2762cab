package inservice

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Finish is what is on a face of a part.
type Finish struct {
	Name string
	// Resistance to vapour, in s/m (of vapour density), 0 to 1e9; from 1e8 up
	// the face counts as closed.
	Resistance float64
	// SpreadLog is the standard deviation of its natural logarithm, 0 to 3.
	SpreadLog float64
	Source    string
	Checked   method.Checked
}

// closed is the resistance from which nothing passes.
const closed = 1e8

// finishSpread lets a finish vary by a factor of 3 up and down (90 %): assumed.
var finishSpread = math.Log(3) / quantity.Z90

// excluding is the source of the resistances. The effectiveness was measured at 90
// %RH, where films pass more than in a room, so they stand above what follows
// from it, within the band.
const excluding = "moisture-excluding effectiveness, Feist, Little and Wennesheimer 1985, FPL-RP-462 and Wood " +
	"Handbook ch. 16 (from memory), turned into a resistance by the drying model, and 0.5 to 1.5 US perm of three " +
	"coats of paint or enamel (building tables, from memory), between which the value stands"

// Finishes returns the finishes with stated resistances, from open to closed.
// Each can be replaced by the caller's own figure.
//
// Accuracy: a factor of 3 up or down.
// Source: beside each value.
func Finishes() []Finish {
	return []Finish{
		{"bare", 0, 0, "nothing on the face", method.Derived},
		{"wax", 1e3, finishSpread, "paste wax, three coats excludes 17 % on the first day and nothing later; " + excluding,
			method.Memory},
		{"oil", 2.5e3, finishSpread, "linseed and tung oil, three coats exclude 33 to 52 % on the first day, next to " +
			"nothing after 14; " + excluding, method.Memory},
		{"thin_lacquer", 1e4, finishSpread, "nitrocellulose, two coats exclude 8 % after 14 days; " + excluding,
			method.Memory},
		{"lacquer", 2e4, finishSpread, "nitrocellulose, three coats exclude 19 % after 14 days; " + excluding, method.Memory},
		{"varnish", 3e4, finishSpread, "spar and polyurethane varnish, three coats exclude 24 to 30 % after 14 days; " +
			excluding, method.Memory},
		{"shellac", 4e4, finishSpread, "three coats exclude 42 % after 14 days; " + excluding, method.Memory},
		{"epoxy", 4e5, finishSpread, "two-part epoxy sheathing, three coats exclude about 90 % after 14 days; " + excluding,
			method.Memory},
		{"impermeable", 1e9, 0, "a face glued to something that lets nothing pass: assumed", method.Practice},
	}
}

// FinishNamed returns the finish of that name.
//
// Errors: *method.Error with code Unknown (input "finish").
// Accuracy: as Finishes.
//
// Source: as Finishes.
func FinishNamed(name string) (Finish, error) {
	for _, f := range Finishes() {
		if f.Name == name {
			return f, nil
		}
	}
	var names []string
	for _, f := range Finishes() {
		names = append(names, f.Name)
	}
	limit := method.OneOf(names...)
	return Finish{}, &method.Error{Code: method.Unknown, Input: "finish", Limit: limit, Detail: "finish must be " + limit.String()}
}

// OwnFinish returns a finish with the caller's own resistance (s/m, 0 to 1e9)
// and a spread of a factor of 1.5 up or down.
//
// Errors: *method.Error with input "finish_resistance".
// Accuracy: the caller's.
//
// Source: none beyond the caller, whose figure is passed on.
func OwnFinish(name string, resistance float64) (Finish, error) {
	if _, err := finishRow.Check("finish_resistance", resistance); err != nil {
		return Finish{}, err
	}
	return Finish{Name: name, Resistance: resistance, SpreadLog: math.Log(1.5) / quantity.Z90, Source: "the caller"}, nil
}

// Coats are the finishes of the two faces of a part, by name. Without a name the outer face
// is bare, and the other is as the outer one, own resistance and all.
type Coats struct {
	Outside, Inside string
	// OutsideOwn and InsideOwn are the caller's own resistances, in s/m, 0 to 1e9; nil takes
	// that of the finish.
	OutsideOwn, InsideOwn *float64
}

// Faces returns the finishes of the two faces, the outer one first.
//
// Errors: as FinishNamed and OwnFinish.
// Accuracy: as Finishes, or as OwnFinish.
//
// Source: Finishes, or the caller.
func (c Coats) Faces() (faces [2]Finish, err error) {
	if c.Outside == "" {
		c.Outside = "bare"
	}
	if c.Inside == "" {
		c.Inside = c.Outside
		if c.InsideOwn == nil {
			c.InsideOwn = c.OutsideOwn
		}
	}
	for i, name := range [...]string{c.Outside, c.Inside} {
		if own := [...]*float64{c.OutsideOwn, c.InsideOwn}[i]; own != nil {
			faces[i], err = OwnFinish(name, *own)
		} else {
			faces[i], err = FinishNamed(name)
		}
		if err != nil {
			return faces, err
		}
	}
	return faces, nil
}

// Band returns the 90 % band of the resistance, in s/m.
func (f Finish) Band() quantity.Band[float64] {
	spread := math.Exp(quantity.Z90 * f.SpreadLog)
	return quantity.Band[float64]{Value: f.Resistance, Low: f.Resistance / spread, High: f.Resistance * spread}
}
