package woodphys_test

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

func movementHandlers() map[string]handler {
	return map[string]handler{
		"movement":  publishedMovement,
		"shrinkage": publishedShrinkage,
	}
}

func publishedMovement(in inputs) ([]float64, error) {
	v, err := in.numbers("mc_from", "mc_to")
	if err != nil {
		return nil, err
	}
	unit, width := quantity.Millimetre, "width_mm"
	if _, ok := in["width_in"]; ok {
		unit, width = quantity.Inch, "width_in"
	}
	size, err := in.number(width)
	if err != nil {
		return nil, err
	}
	w := wood.Wood{FibreSaturation: 0.30}
	if in["method"] == "green_dimension" {
		s, err := in.numbers("st_pct", "fsp")
		if err != nil {
			return nil, err
		}
		w.Tangential, w.FibreSaturation = wood.Published(s[0]/100), quantity.Moisture(s[1]/100)
	} else {
		c, err := in.number("ct")
		if err != nil {
			return nil, err
		}
		w.CoefficientTangential = wood.Published(c)
	}
	m, err := movement.Change(quantity.Length(size)*unit, movement.Tangential(), exactMC(v[0]), exactMC(v[1]), w)
	return []float64{float64(m.Change.Value / unit)}, err
}

func publishedShrinkage(in inputs) ([]float64, error) {
	switch {
	case in["formula"] != "":
		return publishedLumberEquation(in)
	case in["rate_pct_per_pct"] != "":
		v, err := in.numbers("depth_in", "mc_from", "mc_to", "rate_pct_per_pct")
		if err != nil {
			return nil, err
		}
		w := wood.Wood{CoefficientTangential: wood.Published(v[3] / 100), FibreSaturation: 0.30}
		m, err := movement.Change(quantity.Length(v[0])*quantity.Inch, movement.Tangential(), exactMC(v[1]), exactMC(v[2]), w)
		return []float64{-float64(m.Change.Value / quantity.Inch)}, err
	case in["ring_angle_deg"] != "":
		v, err := in.numbers("ring_angle_deg", "st_pct", "sr_pct")
		if err != nil {
			return nil, err
		}
		w := wood.Wood{Tangential: wood.Published(v[1] / 100), Radial: wood.Published(v[2] / 100), FibreSaturation: 0.30}
		return shrinkageFromGreen(movement.WidthAt(quantity.Angle(v[0])*quantity.Degree, 0), 0, w)
	case in["want"] == "shrinkage_from_green":
		v, err := in.numbers("st_pct", "mc", "fsp")
		if err != nil {
			return nil, err
		}
		w := wood.Wood{Tangential: wood.Published(v[0] / 100), FibreSaturation: quantity.Moisture(v[2] / 100)}
		return shrinkageFromGreen(movement.Tangential(), v[1], w)
	}
	return nil, errors.New("nothing known about this shrinkage example")
}

// shrinkageFromGreen returns the shrinkage from green to mc, in %MC, in percent of the
// green size.
func shrinkageFromGreen(direction movement.Direction, mc float64, w wood.Wood) ([]float64, error) {
	m, err := movement.Change(1, direction, exactMC(100), exactMC(mc), w)
	return []float64{-100 * m.Strain.Value}, err
}

// publishedLumberEquation takes Green's S = s0 - k M as shrinkage s0 that starts
// at s0/k %MC.
func publishedLumberEquation(in inputs) ([]float64, error) {
	_, right, _ := strings.Cut(strings.TrimSuffix(in["formula"], "M"), "=")
	first, second, ok := strings.Cut(right, "-")
	s0, err0 := strconv.ParseFloat(first, 64)
	k, err1 := strconv.ParseFloat(second, 64)
	if !ok || err0 != nil || err1 != nil || !(k > 0) || math.IsInf(s0, 0) {
		return nil, fmt.Errorf("formula %q is not of the form S=s0-kM", in["formula"])
	}
	mc, err := in.number("mc")
	if err != nil {
		return nil, err
	}
	w := wood.Wood{Tangential: wood.Published(s0 / 100), FibreSaturation: quantity.Moisture(s0 / k / 100)}
	return shrinkageFromGreen(movement.Tangential(), mc, w)
}
