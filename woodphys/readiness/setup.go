package readiness

import (
	"fmt"
	"math"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// Setup is what is known of a piece before its readings: the wood, where it has
// lain and will lie, and how sure each of that is.
type Setup struct {
	// Wood whose EMCScale is the middle of the EMC scale.
	Wood wood.Wood
	// Factor of drying with the ring angle in it: the median, 0.005 to 20, and the
	// standard deviation of its logarithm, 0 to 1.5; LogSD 0 means DefaultFactorLogSD.
	Factor      float64
	FactorLogSD float64
	// Pace of the wet stage in a wide pile: the median, 0.005 to 20, 0 meaning 1, and the
	// standard deviation of its logarithm, 0 to 1.5; LogSD 0 means DefaultPaceLogSD.
	Pace      float64
	PaceLogSD float64
	Thickness quantity.Length // green, 0.5 to 600 mm
	// Phases from the day of stacking to the horizon of the forecast.
	Phases  []drying.Phase
	History drying.History
	// StartMC is the moisture content on the day of stacking, uniform, 1 to 150
	// %MC, and StartSD its standard deviation, 0 to 50 %MC.
	StartMC quantity.Moisture
	StartSD quantity.Moisture
	// EMCLogSD is the standard deviation of the logarithm of the EMC scale, 0 to
	// 0.3: wood and place together; 0 means DefaultEMCLogSD.
	EMCLogSD    float64
	Discrepancy Discrepancy
	Bodies      []Body  // what is weighed; the first is the piece itself
	Meters      []Meter // what it is read with

	Members int    // of the ensemble, 32 to 2048; 0 means 256. A power of two is best
	Points  int    // of the forecast in time, 20 to 400; 0 means 240
	Seed    uint64 // of the ensemble; 0 means 1
	// Exact are times at which the course is wanted without interpolation, today
	// first; at most 20.
	Exact []quantity.Duration
	Work  *drying.Work // counts and bounds the time steps of all runs; may be nil
}

// Body is something that is weighed: the piece, or a sample board dried beside it.
type Body struct {
	Name string
	// Ovendry mass if it is known or guessed, 0 if not, and its standard deviation
	// as a share, 0.0005 to 1.
	Ovendry   quantity.Mass
	OvendrySD float64
	// Differs is the standard deviation of a lasting difference of its moisture
	// content from that of the piece, 0 to 20 %MC: 0 for the piece itself, about 1
	// %MC for a sample board (own choice).
	Differs quantity.Moisture
}

// Meter is a moisture meter with its correction tables: what is common to all its
// readings of this wood.
type Meter struct {
	Name   string
	BiasSD quantity.Moisture // standard deviation of its common error, 0 to 20 %MC; see MeterBias
}

// MeterBias returns the part of the standard deviation sd of a meter's reading that
// is common to all its readings of one wood, and the part of a single reading:
// 0.85 and 0.53 of sd. Both have the unit of sd.
//
// Accuracy: the two add up to sd as independent errors (0.85^2 + 0.53^2 = 1.00); how they
// share it is not measured.
//
// Source: own choice; calibration, species and density make most of the error of
// a meter, the place of the pins the rest.
func MeterBias(sd quantity.Moisture) (bias, single quantity.Moisture) {
	const common = 0.85
	return common * sd, quantity.Moisture(math.Sqrt(1-common*common)) * sd
}

// Discrepancy is by how much the moisture content of the piece strays from the
// best forecast of the model, because the weather is not its mean and a board is
// not a slab: normal with the standard deviation sqrt(SD^2 + (Share M)^2), and
// correlated over Time, so that readings of one day do not add up to certainty.
type Discrepancy struct {
	SD    quantity.Moisture // 0.01 to 10 %MC; 0 means 0.3 %MC
	Share float64           // of the moisture content, 0 to 0.3; below 0 means none, 0 means 0.02
	Time  quantity.Duration // over which the correlation falls to 1/e, 1 to 365 days; 0 means 21 days
}

// Defaults of what a Setup leaves out.
const (
	// DefaultFactorLogSD is a ratio of 1.4.
	DefaultFactorLogSD = drying.UsualSpreadLog
	// DefaultPaceLogSD is a ratio of 1.5.
	DefaultPaceLogSD = 0.40
	// DefaultEMCLogSD of the EMC scale: 0.05 between woods (0.61 %MC at 12 %, see the
	// sorption chapter) and 0.04 between the place and the station it is told by
	// (0.3 to 0.4 %MC, morning and afternoon means and the day cycle).
	DefaultEMCLogSD = 0.065

	defaultDiscrepancy      = 0.3 * quantity.PercentMC // own choice, see the row
	defaultDiscrepancyShare = 0.02
	defaultDiscrepancyTime  = 21 * quantity.Day
	defaultMembers          = 256
	defaultPoints           = 240
	defaultOvendrySD        = 0.01
	mostBodies              = 20
	mostMeters              = 20
	mostExact               = 20
)

// complete returns the setup with its defaults filled in, checked except for what
// the drying chapter checks itself.
func (s Setup) complete(notes *method.Notes) (Setup, error) {
	fill := func(v *float64, usual float64) {
		if *v == 0 {
			*v = usual
		}
	}
	fill(&s.FactorLogSD, DefaultFactorLogSD)
	fill(&s.Pace, 1)
	fill(&s.PaceLogSD, DefaultPaceLogSD)
	fill(&s.EMCLogSD, DefaultEMCLogSD)
	s.Wood.EMCFactor = s.Wood.EMCScale()
	d := &s.Discrepancy
	if d.SD == 0 {
		d.SD = defaultDiscrepancy
	}
	fill(&d.Share, defaultDiscrepancyShare)
	d.Share = max(d.Share, 0)
	if d.Time == 0 {
		d.Time = defaultDiscrepancyTime
	}
	if s.Members == 0 {
		s.Members = defaultMembers
	}
	if s.Points == 0 {
		s.Points = defaultPoints
	}
	if s.Seed == 0 {
		s.Seed = 1
	}
	if len(s.Bodies) == 0 {
		s.Bodies = []Body{{Name: "the piece"}}
	}
	for _, in := range [...]struct {
		row   *method.Method
		name  string
		value float64
	}{
		{&learnRow, "drying_factor", s.Factor}, {&learnRow, "drying_factor_log_sd", s.FactorLogSD},
		{&learnRow, "start_mc_pct", s.StartMC.Percent()}, {&learnRow, "start_sd_pct", s.StartSD.Percent()},
		{&learnRow, "emc_factor", s.Wood.EMCFactor}, {&learnRow, "emc_log_sd", s.EMCLogSD},
		{&learnRow, "members", float64(s.Members)}, {&learnRow, "points", float64(s.Points)},
		{&discrepancyRow, "discrepancy_sd_pct", d.SD.Percent()}, {&discrepancyRow, "discrepancy_share", d.Share},
		{&discrepancyRow, "discrepancy_days", d.Time.Days()},
	} {
		if err := notes.Use(in.row, in.name, in.value); err != nil {
			return s, err
		}
	}
	if s.StartSD == 0 {
		s.StartSD = 0.01 * quantity.PercentMC // as good as exact, and still a distribution
	}
	for _, list := range [...]struct {
		name     string
		is, most int
	}{{"bodies", len(s.Bodies), mostBodies}, {"meters", len(s.Meters), mostMeters}, {"exact", len(s.Exact), mostExact}} {
		if list.is > list.most {
			return s, &method.Error{Code: method.TooMuchWork, Input: list.name, Limit: fmt.Sprintf("at most %d", list.most),
				Detail: fmt.Sprintf("%s: at most %d; got %d", list.name, list.most, list.is)}
		}
	}
	return s, s.checkLists(notes)
}

func (s *Setup) checkLists(notes *method.Notes) error {
	bodies := make([]Body, len(s.Bodies))
	for i, b := range s.Bodies {
		if b.OvendrySD == 0 {
			b.OvendrySD = defaultOvendrySD
		}
		for _, in := range [...]struct {
			name  string
			value float64
			asked bool
		}{
			{"ovendry_mass", b.Ovendry.Grams(), b.Ovendry != 0}, {"ovendry_sd", b.OvendrySD, b.Ovendry != 0},
			{"differs_sd_pct", b.Differs.Percent(), true},
		} {
			if !in.asked {
				continue
			}
			if err := notes.Use(&learnRow, in.name, in.value); err != nil {
				return method.Named(err, fmt.Sprintf("bodies/%d/%s", i, in.name))
			}
		}
		bodies[i] = b
	}
	s.Bodies = bodies
	for i, m := range s.Meters {
		if err := notes.Use(&learnRow, "bias_sd_pct", m.BiasSD.Percent()); err != nil {
			return method.Named(err, fmt.Sprintf("meters/%d/bias_sd_pct", i))
		}
	}
	return nil
}

// horizon is the end of the phases.
func (s *Setup) horizon() quantity.Duration {
	total := quantity.Duration(0)
	for i := range s.Phases {
		total += s.Phases[i].Length
	}
	return total
}
