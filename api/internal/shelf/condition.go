package shelf

import (
	"slices"
	"strings"

	"github.com/go-json-experiment/json/jsontext"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// Condition is what wood is in: a moisture content, an air that it has settled in, or
// green.
type Condition struct{ wire.OneOf }

// MoistureCondition is a moisture content that is known.
type MoistureCondition struct {
	MC *float64 `json:"mc_pct" validate:"required,gte=0,lte=250" description:"moisture content in percent of the ovendry mass"`
	SD *float64 `json:"mc_sd_points,omitempty" validate:"omitempty,gte=0,lte=50" description:"standard deviation of mc_pct. Left out: mc_pct is taken as exact; in start_condition 3 % of it, at least 1 point"`
}

// AirCondition is the equilibrium of an air.
type AirCondition struct {
	Air      *Air   `json:"air" validate:"required" description:"the air that the wood has settled in"`
	Sorption string `json:"sorption,omitempty" validate:"omitempty,oneof=unknown drying wetting" default:"unknown" description:"how the wood came there: drying wood settles above the middle curve, wetting wood below it; unknown leaves it to the question, which takes the middle where it cannot tell"`
}

// GreenCondition is wood as it was in the log.
type GreenCondition struct {
	Green *bool `json:"green" validate:"required,eq=true" description:"above fibre saturation, as sawn from the log: at the published green moisture of the wood with its band, or at 60 % with a wide band where that is not known. Nothing moves above fibre saturation"`
}

// JSONSchemaOneOf has one of each form.
func (*Condition) JSONSchemaOneOf() []any {
	return []any{MoistureCondition{}, AirCondition{}, GreenCondition{}}
}

// Choose chooses the form by the one member that each needs.
func (*Condition) Choose(told wire.Told) (any, *method.Error) {
	var forms []any
	for _, one := range []struct {
		member string
		form   any
	}{{"mc_pct", new(MoistureCondition)}, {"air", new(AirCondition)}, {"green", new(GreenCondition)}} {
		if slices.Contains(told.Members, one.member) {
			forms = append(forms, one.form)
		}
	}
	switch len(forms) {
	case 0:
		return nil, noCondition()
	case 1:
		return forms[0], nil
	}
	return nil, &method.Error{Code: method.Contradictory, Detail: "say only one of mc_pct, air and green"}
}

func noCondition() *method.Error {
	return &method.Error{Code: method.Missing, Detail: "say mc_pct, or the air the wood has settled in, or green"}
}

// UnmarshalJSONFrom reads one of the forms.
func (c *Condition) UnmarshalJSONFrom(dec *jsontext.Decoder) (err error) {
	c.Form, err = wire.ReadOneOf(dec, c)
	return err
}

// Moisture is the moisture content meant of a wood, which is nil where none is known; errors
// point below the named member.
func (c *Condition) Moisture(member string, w *Wood,
	notes *method.Notes) (quantity.Band[quantity.Moisture], error) {
	return c.On(sorption.Middle, member, w, notes)
}

// On is the moisture content meant, on a branch of the sorption loop where it does not say
// its own; errors point below the named member.
func (c *Condition) On(branch sorption.Branch, member string, w *Wood,
	notes *method.Notes) (quantity.Band[quantity.Moisture], error) {
	meant := moisture.Condition{Branch: branch}
	switch form := c.Form.(type) {
	case *GreenCondition:
		meant.Green = true
	case *AirCondition:
		measured := form.Air.measured(member+"/air", notes)
		meant.Air, meant.Branch = &measured, form.Branch(branch)
	case *MoistureCondition:
		form.meant(&meant, member, notes)
	default:
		return quantity.Band[quantity.Moisture]{}, wire.Under(member, noCondition())
	}
	got, err := moisture.InCondition(meant, w.physics())
	point := func(err error) error { return wire.Under(member, err, conditionNames...) }
	if err != nil {
		return got.MC, point(err)
	}
	notes.Merge(wire.AtMembers(got.Notes, point))
	return got.MC, nil
}

// conditionNames are what a request calls the inputs of a condition.
var conditionNames = [][2]string{{"sd_pct", "mc_sd_points"}, {"air/altitude", "air/elevation"}}

// meant is the moisture content in SI.
func (m *MoistureCondition) meant(c *moisture.Condition, member string, notes *method.Notes) {
	if *m.MC > 0 && *m.MC < 1 {
		name := member + "/mc_pct"
		remarkFraction(name, strings.TrimPrefix(name, "/"), *m.MC, "ovendry wood", notes)
	}
	mc := wire.FromPercent(*m.MC)
	c.MC = &mc
	if m.SD != nil {
		sd := wire.FromPercent(*m.SD)
		c.SD = &sd
	}
}

// Branch is that of the condition, or another where it says none.
func (a *AirCondition) Branch(other sorption.Branch) sorption.Branch {
	if a.Sorption == "" || a.Sorption == "unknown" {
		return other
	}
	return Branches[a.Sorption]
}

// Branches are those of the sorption loop, by their names in a request.
var Branches = map[string]sorption.Branch{
	"": sorption.Middle, "unknown": sorption.Middle, "drying": sorption.Desorption, "wetting": sorption.Adsorption,
}

// InAir reports that the wood has settled in an air.
func (c *Condition) InAir() bool { return c.Settled() != nil }

// Settled is the air that the wood has settled in; nil for a condition that is told
// otherwise.
func (c *Condition) Settled() *AirCondition {
	air, _ := c.Form.(*AirCondition)
	return air
}

// Stated is the moisture content that is told; nil for a condition that is told
// otherwise.
func (c *Condition) Stated() *MoistureCondition {
	stated, _ := c.Form.(*MoistureCondition)
	return stated
}

// IsGreen reports green wood.
func (c *Condition) IsGreen() bool {
	_, green := c.Form.(*GreenCondition)
	return green
}
