package wire

import (
	"bytes"
	"math"
	"strconv"
)

// appendNumber writes a finite number to the nearest at a place: without an exponent, zeros
// behind the last digit that counts, or a minus before zero.
func appendNumber(text []byte, v float64, at place) []byte {
	start := len(text)
	switch {
	case at == kept:
		text = appendKept(text, v)
	case at > 0:
		step := math.Pow10(int(at))
		text = strconv.AppendFloat(text, math.Round(v/step)*step, 'f', 0, 64)
	default:
		text = strconv.AppendFloat(text, v, 'f', -int(at), 64)
	}
	text = trimZeros(text, start)
	if string(text[start:]) == "-0" {
		text = append(text[:start], '0')
	}
	return text
}

// appendRounded writes a finite number as appendNumber does, rounded its way.
func appendRounded(text []byte, v float64, to rounding) []byte {
	if to.way != nearest {
		v = to.stepped(v)
	}
	return appendNumber(text, v, to.at)
}

// stepped is a number rounded down or up, whole steps as they are.
func (to rounding) stepped(v float64) float64 {
	steps, step := v*math.Pow10(-int(to.at)), math.Pow10(int(to.at))
	if to.way == downward {
		return math.Floor(steps+dust) * step
	}
	return math.Ceil(steps-dust) * step
}

// appendKept writes a number as it came.
func appendKept(text []byte, v float64) []byte {
	var room [32]byte
	short := strconv.AppendFloat(room[:0], v, 'g', digitsKept, 64)
	settled, err := strconv.ParseFloat(string(short), 64)
	if err != nil { // not possible: it was just written
		settled = v
	}
	return strconv.AppendFloat(text, settled, 'f', -1, 64)
}

// trimZeros takes the zeros off the end of a number that begins at start and has a point.
func trimZeros(text []byte, start int) []byte {
	if bytes.IndexByte(text[start:], '.') < 0 {
		return text
	}
	text = bytes.TrimRight(text, "0")
	return bytes.TrimSuffix(text, []byte{'.'})
}

// AppendNamed writes a bare number of that name as an answer does.
func AppendNamed(text []byte, name string, v float64) []byte {
	return appendNumber(text, v, placeOfName(name))
}

// Text is the number of the quantity as an answer writes it.
func (q Quantity) Text() string {
	return string(appendRounded(nil, q.Value, rounding{placeOfQuantity(q.Unit, q.cut), q.way}))
}

// Told is the number that an answer writes.
func (q Quantity) Told() float64 {
	v, err := strconv.ParseFloat(q.Text(), 64)
	if err != nil { // not possible: it was just written
		return q.Value
	}
	return v
}

// Text is the value of the band as an answer writes it.
func (b Band) Text() string {
	return string(appendNumber(nil, b.Value, placeOfBand(b.Low, b.High, b.Unit)))
}

// AppendCells writes value, low and high of the band as an answer does, with commas between.
func (b Band) AppendCells(text []byte) []byte {
	at := placeOfBand(b.Low, b.High, b.Unit)
	text = append(appendNumber(text, b.Value, at), ',')
	text = append(appendNumber(text, b.Low, at), ',')
	return appendNumber(text, b.High, at)
}

// AppendIn writes a number of a unit that has no band of its own as an answer does.
func AppendIn(text []byte, unit string, v float64) []byte {
	return appendNumber(text, v, placeOfUnit(unit))
}
