package moisture_test

import (
	"github.com/stretchr/testify/require"

	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
)

type band = quantity.Band[quantity.Moisture]

func about(percent, sd float64) band {
	return quantity.NormalBand(quantity.Moisture(percent/100), quantity.Moisture(sd/100))
}

func grams(mass, resolution float64) moisture.Weighing {
	return moisture.Weighing{Mass: quantity.Mass(mass) * quantity.Gram, Resolution: quantity.Mass(resolution) * quantity.Gram}
}

func known(mass, percent, sd float64) moisture.Known {
	return moisture.Known{Weighing: grams(mass, 0.1), MC: about(percent, sd)}
}

func stated(t require.TestingT, percent, sd float64) moisture.Estimate {
	e, err := moisture.Stated(quantity.Moisture(percent/100), quantity.Moisture(sd/100))
	require.NoError(t, err)
	return e
}
