package section_test

import (
	"math"

	"latewood/woodphys/quantity"
	"latewood/woodphys/section"
	"latewood/woodphys/wood"
)

var (
	nan = math.NaN()
	inf = math.Inf(1)
)

const mm = quantity.Millimetre

type band = quantity.Band[quantity.Moisture]

func exact(percent float64) band { return about(percent, 0) }

// about is a moisture content in %MC with a standard deviation in %MC.
func about(percent, sd float64) band {
	return quantity.NormalBand(quantity.Moisture(percent/100), quantity.Moisture(sd/100))
}

// flatsawn is a section with the pith under the middle of its lower face, at the
// distance h >= 0 from that face.
func flatsawn(width, thickness, h quantity.Length) section.Section {
	return section.Section{Width: width, Thickness: thickness, PithY: -thickness/2 - h}
}

// plain is a wood of which only the total shrinkages are known.
func plain(radial, tangential float64) wood.Wood {
	return wood.Wood{Radial: wood.Published(radial), Tangential: wood.Published(tangential), FibreSaturation: 0.30}
}

// recalled is a figure that is recalled from its source and not re-read.
func recalled(v float64) wood.Figure {
	return wood.Figure{Value: v, Known: true, Recalled: true}
}

// sugarMaple: Wood Handbook table 4-3, from memory.
func sugarMaple() wood.Wood {
	return wood.Wood{Radial: recalled(0.048), Tangential: recalled(0.099), FibreSaturation: 0.30}
}
