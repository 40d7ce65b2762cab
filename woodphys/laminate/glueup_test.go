package laminate_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/internal/expect"
	"latewood/woodphys/laminate"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

func glued(t *testing.T, s laminate.Stack) laminate.Glued {
	t.Helper()
	s.Length, s.Width = 0.5, 0.3
	g, err := laminate.GlueUp(s)
	require.NoError(t, err)
	return g
}

func stackOf(layers ...laminate.Layer) laminate.Stack {
	return laminate.Stack{Panel: laminate.Panel{Layers: layers, Length: 0.5, Width: 0.3}}
}

// layer is one whose width moves by v when it dries from 30 to 0 %MC.
func moving(v float64) laminate.Layer {
	return laminate.Layer{Wood: shrinks(v/2, v, 0.0001), Elastic: full(10000, 0.05, 0.08, 0.07, 0.06, 0.005, 0.3, 0.4, 0.45), Thickness: 5 * mm, AtGlueUp: exact(30), Later: exact(0)}
}

// The layers part by the difference of their free changes, across and, turned, along.
func TestFreeDifferences(t *testing.T) {
	g := glued(t, stackOf(moving(0.04), moving(0.06)))
	require.Len(t, g.GlueLines, 1)
	assert.InDelta(t, 0.3*(-0.06+0.04), float64(g.GlueLines[0].FreeWidth.Value), 1e-12)
	assert.InDelta(t, 0, float64(g.GlueLines[0].FreeLength.Value), 1e-12)
	crossed := moving(0.06)
	crossed.Grain = 90 * quantity.Degree
	g = glued(t, stackOf(moving(0.04), crossed))
	assert.InDelta(t, 0.5*(-0.06+0.0001), float64(g.GlueLines[0].FreeLength.Value), 1e-9)
	assert.Nil(t, g.Strip)
}

// The strip stands beside two layers with the grain along the length, either way round;
// its ratio can be told.
func TestPlainStrip(t *testing.T) {
	turned := moving(0.06)
	turned.Grain = -180 * quantity.Degree
	g := glued(t, stackOf(moving(0.04), turned))
	require.NotNil(t, g.Strip)
	assert.InDelta(t, 1, g.Strip.Ratio, 1e-12, "of one stiffness")
	assert.InDelta(t, 0.02, g.Strip.Difference.Value, 1e-9)
	assert.InDelta(t, float64(0.3*0.3/8*g.Strip.Bent.Curvature.Value), float64(g.Strip.Bent.Cup.Value), 1e-12)
	assert.False(t, g.Strip.Bent.Straight)
	s := stackOf(moving(0.04), turned)
	s.StripRatio = 2
	g = glued(t, s)
	assert.InDelta(t, 2, g.Strip.Ratio, 1e-12)
	alike := glued(t, stackOf(moving(0.04), moving(0.04)))
	assert.True(t, alike.Strip.Bent.Straight)
}

func TestStackThatDoesNotGoTogether(t *testing.T) {
	s := stackOf(moving(0.04))
	s.GlueTold, s.StripRatio = true, 1
	err := s.Check()
	several, ok := err.(interface{ Unwrap() []error })
	require.True(t, ok)
	require.Len(t, several.Unwrap(), 2)
	expect.Code(t, several.Unwrap()[0], method.Contradictory, "glue")
	expect.Code(t, several.Unwrap()[1], method.Contradictory, "strip")
	crossed := moving(0.04)
	crossed.Grain = 90 * quantity.Degree
	s = stackOf(moving(0.04), crossed)
	s.StripRatio = 1
	_, err = laminate.GlueUp(s)
	expect.Code(t, err, method.Contradictory, "strip")
	bad := moving(0.04)
	bad.Thickness = 0
	_, err = laminate.GlueUp(stackOf(moving(0.04), bad))
	expect.Code(t, err, method.OutOfRange, "layers/1/thickness")
}

// Which way a panel bends: sure where the band lies on one side, probable where it holds
// both, undecided where it is next to nothing of the band, straight in the mirror image.
func TestTendency(t *testing.T) {
	assert.Equal(t, laminate.Tendency{Sense: laminate.Hollow, Above: true}, glued(t, stackOf(moving(0.02), moving(0.12))).Across)
	assert.Equal(t, laminate.Tendency{Sense: laminate.Hollow}, glued(t, stackOf(moving(0.12), moving(0.02))).Across)
	assert.Equal(t, laminate.Tendency{Sense: laminate.ProbablyHollow, Above: true}, glued(t, stackOf(moving(0.05), moving(0.06))).Across)
	assert.Equal(t, laminate.Tendency{Sense: laminate.EitherWay}, glued(t, stackOf(moving(0.05), moving(0.0501))).Across)
	assert.Equal(t, laminate.Tendency{Sense: laminate.StaysStraight}, glued(t, stackOf(moving(0.05), moving(0.05))).Across)
	slanted, back := moving(0.05), moving(0.05)
	slanted.Grain, back.Grain = 10*quantity.Degree, -10*quantity.Degree
	assert.True(t, glued(t, stackOf(slanted, back)).Twists)
	assert.False(t, glued(t, stackOf(moving(0.05), moving(0.06))).Twists)
}

// In two airs the errors of one piece go together; the layers are told as computed.
func TestLayersInTwoAirs(t *testing.T) {
	one := moving(0.06)
	one.AtGlueUp, one.Later = about(9, 1), about(7, 1)
	apart := glued(t, stackOf(one))
	one.TwoAirs = true
	together := glued(t, stackOf(one))
	assert.Less(t, together.ChangeWidth.High-together.ChangeWidth.Low, apart.ChangeWidth.High-apart.ChangeWidth.Low)
	assert.Less(t, together.Stacked[0].Later.SD(), one.Later.SD())
}

// Bending beyond the thickness is told.
func TestLargeDeflection(t *testing.T) {
	told := func(layers ...laminate.Layer) bool {
		return slices.ContainsFunc(glued(t, stackOf(layers...)).Notes.Warnings, func(w method.Warning) bool { return w.Method == "laminate.panel" && w.Input == "length" })
	}
	thin, above := moving(0.02), moving(0.12)
	thin.Thickness, above.Thickness = 1*mm, 1*mm
	assert.True(t, told(thin, above))
	thick := moving(0.04)
	thick.Later = exact(29)
	assert.False(t, told(thick, thick))
}

// The stiffness of a layer: 1.10 of that from bending.
func TestLayerOf(t *testing.T) {
	var n method.Notes
	w := wood.Wood{Name: "spruce", Group: wood.Softwood, BendingModulus: wood.Figure{Value: 11000, Known: true, Recalled: true, How: "recalled"}, CoefficientFibreSaturation: 0.22, OnsetInferred: true}
	l, err := laminate.LayerOf(w, &n)
	require.NoError(t, err)
	assert.InDelta(t, 12.1e9, float64(l.Elastic.EL), 1)
	require.Len(t, n.Warnings, 2)
	assert.Equal(t, "modulus of elasticity of spruce is recalled", n.Warnings[0].Detail)
	assert.Contains(t, n.Warnings[1].Detail, "start at 22 %")
	w.BendingModulus = wood.Published(9000)
	l, err = laminate.LayerOf(w, &n)
	require.NoError(t, err)
	assert.InDelta(t, 9.9e9, float64(l.Elastic.EL), 1)

	w.BendingModulus = wood.Figure{}
	_, err = laminate.LayerOf(w, &n)
	expect.Code(t, err, method.Missing, "modulus_of_elasticity")
	_, err = laminate.LayerOf(wood.Wood{Own: true, Group: wood.Hardwood}, &n)
	expect.Code(t, err, method.Missing, "modulus_of_elasticity")
	_, err = laminate.LayerOf(wood.Wood{Own: true}, &n)
	expect.Code(t, err, method.Missing, "group")
}
