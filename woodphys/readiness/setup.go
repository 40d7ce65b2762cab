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
	// Ends are those of the piece, through which it loses too; nil: they are not counted. What is
	// weighed is the whole; shell, core and what a meter reads are of the middle of the length.
	Ends *drying.EndGrain
	// Edges are the thin and the thick places of a wedge, of which Thickness is the
	// equivalent; nil: a board, as thick everywhere.
	Edges *Edges
	// Phases from the day of stacking to the horizon of the forecast.
	Phases  []drying.Phase
	History drying.History
	// StartMC is the moisture content on the day of stacking, uniform, 1 to 150
	// %MC, and StartSD its standard deviation, 0 to 50 %MC.
	StartMC quantity.Moisture
	StartSD quantity.Moisture
	// EMCLogSD is the standard deviation of the logarithm of the EMC scale, 0 to
	// 0.3: wood and place together; 0 means DefaultEMCLogSD.
	EMCLogSD float64
	// Else are other states it may have been stacked in, where nobody has told: each with
	// its probability; what is left is that of StartMC. At most 4.
	Else []Start
	// AirSD is the standard deviation of the relative humidity around the wood in a stay
	// from what is told of its place, a fraction, 0 to 0.2; 0 means DefaultAirSD, and in air
	// that is told as steady DefaultRoomSD.
	AirSD       float64
	Discrepancy Discrepancy
	Bodies      []Body  // what is weighed; the first is the piece itself
	Meters      []Meter // what it is read with

	Members int    // of the ensemble, 32 to 2048; 0 means 192. A power of two, or thrice one, is best
	Points  int    // of the forecast in time, 20 to 400; 0 means 240
	Seed    uint64 // of the ensemble; 0 means 1
	// Exact are times at which the course is wanted without interpolation, today
	// first; at most 20.
	Exact []quantity.Duration
	Work  *drying.Work // counts and bounds the time steps of all runs; may be nil

	searching bool      // for contradictions
	airTold   bool      // AirSD is the caller's
	normal    bool      // readings and stays as a textbook has them: no heavy tails, days sure, samples of the middle, one factor; for comparisons
	breath    []float64 // what the quick discrepancy is multiplied by, at even steps of time
	resized   float64   // logarithm of by how much the piece became another, where its weights say so: its size may be that of before
	inflate   float64   // multiplies the variances of the discrepancies; above 1 where readings disagree with the law
}

// Edge is where a wedge is of another thickness.
type Edge struct {
	Thickness quantity.Length // green, 0.5 to 600 mm
	// Faster is the drying factor of that thickness over that of the equivalent one, 0.01 to 100.
	Faster float64
}

// Edges are the places of a wedge that are dry first and last. They have lain where the whole
// has, and stray from the forecast as it does.
type Edges struct{ Thin, Thick Edge }

// Start is a state in which a piece may have been stacked.
type Start struct {
	Probability float64           // 0 to 1
	MC, SD      quantity.Moisture // as StartMC and StartSD
	History     drying.History
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
// Lasting is a second one of that kind, in which Share counts above 8 %MC: the law of
// drying is not that of the piece, above all while it is wet. It is correlated over so
// long a time that more readings do not take it away.
type Discrepancy struct {
	Lasting Strays
	None    bool // no lasting one, for comparisons
	Strays
}

// Strays is one of two discrepancies.
type Strays struct {
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
	// DefaultEMCLogSD of the EMC scale between woods: 0.61 %MC at 12 %, see the sorption
	// chapter. What a place differs from its station is in DefaultAirSD.
	DefaultEMCLogSD = 0.05
	// DefaultAirSD is how far the air around the wood lies from that of its station, in the
	// mean of a stay: a pile is damper than its station, a month is not its normal.
	// DefaultRoomSD is the same of a room of which one figure is told: hygrometers of a shop
	// are off by 3 to 5 %RH, and heated rooms are drier than that in winter and damper in
	// summer. Own choice.
	DefaultAirSD  = 0.05
	DefaultRoomSD = 0.06

	// stayPace and stayFactor are the parts of the errors of pace and factor that each stay
	// has of its own, wholePace and wholeFactor those that all have in common: how much
	// faster warm wood dries than cold, and damp than dry, is less sure than how fast it
	// dries in all. One unknown of a stay moves both. Own choice.
	stayPace, wholePace     = 0.3, 0.7
	stayFactor, wholeFactor = 0.6, 0.8

	defaultDiscrepancy      = 0.5 * quantity.PercentMC // own choice, see the row
	defaultDiscrepancyShare = 0.02
	defaultDiscrepancyTime  = 21 * quantity.Day
	defaultStock            = 50 * quantity.Millimetre // whose quick discrepancy that is
	// Of the lasting discrepancy.
	defaultLasting      = 0.6 * quantity.PercentMC
	defaultLastingShare = 0.16
	defaultLastingTime  = 90 * quantity.Day
	defaultMembers      = 192
	defaultPoints       = 240
	defaultOvendrySD    = 0.01
	mostBodies          = 20
	mostMeters          = 20
	mostExact           = 20
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
		// a thin board follows the weather, which a thick one does not
		share := quantity.Moisture(float64(defaultStock / max(s.Thickness, 1e-3)))
		d.SD = defaultDiscrepancy * min(max(share, 0.6), 2.5)
	}
	fill(&d.Share, defaultDiscrepancyShare)
	d.Share = max(d.Share, 0)
	if d.Time == 0 {
		d.Time = defaultDiscrepancyTime
	}
	if l := &d.Lasting; !d.None {
		if l.SD == 0 {
			l.SD = defaultLasting
		}
		fill(&l.Share, defaultLastingShare)
		if l.Time == 0 {
			l.Time = defaultLastingTime
		}
	} else {
		l.Time = quantity.Day
	}
	s.Phases = joined(s.Phases)
	s.airTold = s.AirSD != 0
	fill(&s.AirSD, DefaultAirSD)
	s.inflate = 1
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
		{&learnRow, "pace", s.Pace}, {&learnRow, "pace_log_sd", s.PaceLogSD}, {&learnRow, "air_sd", s.AirSD},
		{&learnRow, "emc_factor", s.Wood.EMCFactor}, {&learnRow, "emc_log_sd", s.EMCLogSD},
		{&learnRow, "members", float64(s.Members)}, {&learnRow, "points", float64(s.Points)},
		{&discrepancyRow, "discrepancy_sd_pct", d.SD.Percent()}, {&discrepancyRow, "discrepancy_share", d.Share},
		{&discrepancyRow, "discrepancy_days", d.Time.Days()},
	} {
		if err := notes.Use(in.row, in.name, in.value); err != nil {
			return s, err
		}
	}
	left := 1.0
	for i, one := range s.Else {
		left -= one.Probability
		if !(one.Probability > 0 && left > 0 && one.MC >= lowestStart && one.MC <= highestStart && one.SD > 0 && one.SD <= 0.5) {
			return s, &method.Error{Code: method.OutOfRange, Input: fmt.Sprintf("else/%d", i),
				Detail: "another state of stacking must have a probability, a moisture content and its standard deviation"}
		}
	}
	if s.StartSD == 0 {
		s.StartSD = 0.01 * quantity.PercentMC // as good as exact, and still a distribution
	}
	for _, list := range [...]struct {
		name     string
		is, most int
	}{{"else", len(s.Else), 4}, {"bodies", len(s.Bodies), mostBodies}, {"meters", len(s.Meters), mostMeters}, {"exact", len(s.Exact), mostExact}} {
		if list.is > list.most {
			return s, &method.Error{Code: method.TooMuchWork, Input: list.name, Limit: method.AtMost(float64(list.most), ""),
				Detail: fmt.Sprintf("%s: at most %d; got %d", list.name, list.most, list.is)}
		}
	}
	s.breathe()
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
			if err := useOf(notes, fmt.Sprintf("bodies/%d", i), in.name, in.value); err != nil {
				return err
			}
		}
		bodies[i] = b
	}
	s.Bodies = bodies
	for i, m := range s.Meters {
		if err := useOf(notes, fmt.Sprintf("meters/%d", i), "bias_sd_pct", m.BiasSD.Percent()); err != nil {
			return err
		}
	}
	return nil
}

// useOf checks an input of one of several; the warning and the error say of which.
func useOf(notes *method.Notes, place, input string, value float64) error {
	first := len(notes.Warnings)
	err := notes.Use(&learnRow, input, value)
	notes.Place(first, place)
	return method.Below(err, place)
}

// factorShares are the parts of the error of the factor that all stays have in common and
// that each has of its own.
func (s *Setup) factorShares() (whole, stay float64) {
	if s.normal {
		return 1, 0
	}
	return wholeFactor, stayFactor
}

// ahead is how far a reading of a kind is ahead of the piece, see sampleAhead.
func (s *Setup) ahead(kind Kind) float64 {
	if s.normal || kind != Sample {
		return 0
	}
	return sampleAhead
}

// starts are the states in which the piece may have been stacked.
func (s *Setup) starts() []Start {
	list := []Start{{Probability: 1, MC: s.StartMC, SD: s.StartSD, History: s.History}}
	for _, one := range s.Else {
		list[0].Probability -= one.Probability
		list = append(list, one)
	}
	return list
}

// horizon is the end of the phases.
func (s *Setup) horizon() quantity.Duration {
	total := quantity.Duration(0)
	for i := range s.Phases {
		total += s.Phases[i].Length
	}
	return total
}
