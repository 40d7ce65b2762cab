package year

import (
	"strings"

	"github.com/go-json-experiment/json/jsontext"

	"latewood/api/internal/wire"
	"latewood/woodphys/inservice"
	"latewood/woodphys/method"
)

// Finish is what is on a face: the name of a finish, or its resistance to vapour.
type Finish struct {
	Resistance *float64 `json:"resistance_s_per_m,omitempty" validate:"omitempty,gte=0,lte=1e9" description:"resistance to vapour by your own figure, 7.4e-6 over the permeance in kg/(Pa m2 s); 1 US perm is 1.3e5 s/m"`

	name string
}

// Finishes are what is on both faces of a part: a finish for both, or one for each.
type Finishes struct {
	Outside    *Finish  `json:"outside,omitempty" description:"on the outside of the part, its face 1. Left out: bare"`
	Inside     *Finish  `json:"inside,omitempty" description:"on its inside, face 2. Left out: as outside"`
	Resistance *float64 `json:"resistance_s_per_m,omitempty" validate:"omitempty,gte=0,lte=1e9" description:"resistance to vapour of both faces by your own figure, in place of outside and inside"`

	name string
}

// Joins says what an object holds.
func (*Finish) Joins() wire.Joined {
	return wire.Joined{OneOf: [][]string{{"resistance_s_per_m"}}}
}

// Joins says which members go together: both faces have one resistance, or each its own
// finish.
func (*Finishes) Joins() wire.Joined {
	return wire.Joined{NotAll: [][]string{{"resistance_s_per_m", "outside"}, {"resistance_s_per_m", "inside"}}}
}

// Spell takes the name of a finish.
func (f *Finish) Spell(text string) { f.name = text }

// IsSpelled reports that a name was given.
func (f *Finish) IsSpelled() bool { return f.name != "" }

// Spellings are the names of finishes.
func (*Finish) Spellings() []string { return finishNames() }

// UnmarshalJSONFrom reads a name, or an object.
func (f *Finish) UnmarshalJSONFrom(dec *jsontext.Decoder) error {
	type members Finish
	return wire.ReadSpelled(dec, f, (*members)(f))
}

// Spell takes the name of a finish of both faces.
func (f *Finishes) Spell(text string) { f.name = text }

// IsSpelled reports that a name was given.
func (f *Finishes) IsSpelled() bool { return f.name != "" }

// Spellings are the names of finishes.
func (*Finishes) Spellings() []string { return finishNames() }

// UnmarshalJSONFrom reads a name, or an object.
func (f *Finishes) UnmarshalJSONFrom(dec *jsontext.Decoder) error {
	type members Finishes
	return wire.ReadSpelled(dec, f, (*members)(f))
}

func finishNames() []string {
	var names []string
	for _, f := range inservice.Finishes() {
		names = append(names, f.Name)
	}
	return names
}

// ownFinish is what the answer calls a finish of the caller's own figure.
const ownFinish = "own figure"

// faces are what is on the two faces, the outer one first; errors are relative to the
// part.
func (f *Finishes) faces() ([2]inservice.Finish, error) {
	var coats inservice.Coats
	both := f != nil && (f.name != "" || f.Resistance != nil)
	switch {
	case f == nil:
	case both && (f.Outside != nil || f.Inside != nil):
		return [2]inservice.Finish{}, wire.Contradictory("finish/resistance_s_per_m", "give one resistance for both faces, or outside and inside")
	case both:
		coats.Outside, coats.OutsideOwn = f.name, f.Resistance
	default:
		coats.Outside, coats.OutsideOwn = f.Outside.told()
		coats.Inside, coats.InsideOwn = f.Inside.told()
		for i, one := range []*Finish{f.Outside, f.Inside} {
			if one != nil && one.name == "" && one.Resistance == nil {
				return [2]inservice.Finish{}, wire.Missing("finish/"+[...]string{"outside", "inside"}[i], "give the name of a finish, or resistance_s_per_m")
			}
		}
	}
	if coats.OutsideOwn != nil {
		coats.Outside = ownFinish
	}
	if coats.InsideOwn != nil {
		coats.Inside = ownFinish
	}
	faces, err := coats.Faces()
	if domain, is := wire.AsDomain(err); is && domain.Code == method.Unknown {
		return faces, f.unknown(coats, domain)
	}
	return faces, wire.Under("finish", err)
}

// told is the name of a finish and the caller's own resistance.
func (f *Finish) told() (string, *float64) {
	if f == nil {
		return "", nil
	}
	return f.name, f.Resistance
}

// unknown points at the face whose finish has no name of the table.
func (f *Finishes) unknown(coats inservice.Coats, err *method.Error) error {
	at := "finish"
	if f.name == "" {
		at += "/outside"
		if _, known := inservice.FinishNamed(coats.Outside); coats.OutsideOwn != nil || coats.Outside == "" || known == nil {
			at = "finish/inside"
		}
	}
	return &method.Error{Code: method.NotAChoice, Input: at, Limit: err.Limit,
		Detail: at[strings.LastIndexByte(at, '/')+1:] + " must be " + err.Limit.String()}
}
