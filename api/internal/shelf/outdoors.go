package shelf

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
)

// MonthOfAir is the mean outdoor air of one month.
type MonthOfAir struct {
	Temperature *wire.Temperature `json:"temperature" validate:"required,gte=233.15,lte=333.15" description:"mean over day and night"`
	RH          *float64          `json:"rh_pct" validate:"required,gte=0,lte=100" description:"mean over day and night"`
}

// ownPlace is what a place is called of which the caller gave the months.
const ownPlace = "your own twelve months"

// Outdoors is the outdoor air of a place of the tables, or of the caller's own twelve
// months, with its name for people.
func (t *Tables) Outdoors(station string, months []MonthOfAir) (name string, normals drying.Normals, err error) {
	if len(months) > 0 {
		normals.HasTemperature = true
		for i := range min(len(months), len(normals.RH)) {
			normals.Temperature[i], normals.RH[i] = months[i].Temperature.SI, *months[i].RH/100
		}
		return ownPlace, normals, nil
	}
	st, err := t.Station(station)
	if err != nil {
		return "", normals, wire.Under("station", err)
	}
	year, complete := st.Year()
	if !complete {
		return st.Name, normals, nil
	}
	normals.HasTemperature = true
	for i, month := range year {
		normals.Temperature[i], normals.RH[i] = month.Temperature, month.RelativeHumidity
		if st.Months[i].EMCOfMeans.Known() { // and so EMC is the mean over the hours
			normals.EMC[i] = month.EMC
		}
	}
	return st.Name, normals, nil
}
