package year_test

import (
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"io/fs"
	"math"
	"net/http"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/moist"
	"latewood/api/internal/serve"
	"latewood/api/internal/year"
	"latewood/woodphys/method"
)

// The EMC of monthly indoor air: a very thin bare part is where /v1/emc says that
// wood of the driest and the wettest air of the room settles; and the year of the
// room is the winter and the summer that were given.
func TestThinPartIsWhereItsAirIs(t *testing.T) {
	r := asking.InFull[year.YearInServiceResult](t, "/v1/year-in-service", `{"room": {"seasons": {"winter_air": {"temperature": "20 C", "rh_pct": 25}, "summer_air": {"temperature": "24 C", "rh_pct": 62}}}, "build_condition": {"mc_pct": 8, "mc_sd_points": 0.5},
		"parts": [{"id": "veneer", "wood": "spruce-sitka", "thickness": "0.6 mm", "rings": {"angle_deg": 90}}]}`).Result
	for i, body := range []string{`{"air": {"temperature": "20 C", "rh_pct": 25}, "wood": "spruce-sitka"}`, `{"air": {"temperature": "24 C", "rh_pct": 62}, "wood": "spruce-sitka"}`} {
		emc := asking.InFull[moist.EMCResult](t, "/v1/emc", body).Result
		state := []year.PartState{r.Parts[0].Driest, r.Parts[0].Wettest}[i]
		assert.InDelta(t, emc.EMC.Value, state.Mean.Value, 0.05)
		assert.Less(t, state.Mean.Low, emc.EMC.Value)
		assert.Greater(t, state.Mean.High, emc.EMC.Value)
	}
	assert.InDelta(t, 25, r.Room.Driest.RHPct, 0.1)
	assert.InDelta(t, 62, r.Room.Wettest.RHPct, 0.1)
	assert.Equal(t, "--01", r.Parts[0].Driest.DayOfYear[:4])
	assert.Equal(t, "--07", r.Parts[0].Wettest.DayOfYear[:4])
	assert.Len(t, r.Room.Months, 12)
}

// A wood rich in extractives rests in steady air where /v1/emc says it does, and
// moves nowhere.
func TestSteadyRoomMovesNothing(t *testing.T) {
	for _, species := range []string{"spruce-sitka", "mahogany-true"} {
		r := asking.InFull[year.YearInServiceResult](t, "/v1/year-in-service", `{"room": {"seasons": {"winter_air": {"temperature": "21 C", "rh_pct": 48}, "summer_air": {"temperature": "21 C", "rh_pct": 48}}}, "build_condition": {"air": {"temperature": "21 C", "rh_pct": 48}},
		"parts": [{"id": "plate", "wood": "`+species+`", "thickness": "3 mm", "width": "400 mm", "rings": {"angle_deg": 90}}]}`).Result
		p := r.Parts[0]
		assert.InDelta(t, 0, p.Swing, 0.01)
		assert.InDelta(t, p.Build.Value, p.Driest.Mean.Value, 0.1, species)
		assert.InDelta(t, 48, p.BuildAir.RH.Value, 1, species)
		assert.InDelta(t, 400, p.Sizes[1].Driest.Value, 0.1)
		assert.Equal(t, "low", p.Restraint.Risk)
	}
}

// A 400 mm quartered Sitka top from 45 to 35, 30 and 25 %RH at 21 C loses 0.9, 1.4
// and 1.8 mm, flatsawn sugar maple 2.1, 3.2 and 4.4, worked by hand from the
// coefficients of Wood Handbook table 13-5.
func TestTopsInADryRoomOverHTTP(t *testing.T) {
	for i, rh := range []string{"35", "30", "25"} {
		r := asking.InFull[year.AssemblyMovementResult](t, "/v1/assembly-movement", `{"build_condition": {"air": {"temperature": "21 C", "rh_pct": 45}}, "driest_condition": {"air": {"temperature": "21 C", "rh_pct": `+rh+`}}, "wettest_condition": {"air": {"temperature": "21 C", "rh_pct": 45}},
			"parts": [{"id": "top", "wood": "spruce-sitka", "thickness": "3 mm", "width": "400 mm", "rings": {"angle_deg": 90}}, {"id": "back", "wood": "maple-sugar", "thickness": "3 mm", "width": "400 mm", "rings": {"angle_deg": 0}}]}`).Result
		for k, want := range [][3]float64{{0.9, 1.4, 1.8}, {2.1, 3.2, 4.4}} {
			s := r.Parts[k].Sizes[1]
			assert.InDelta(t, -want[i], s.ToDriest.Value, 0.08*want[i], "%s at %s: other figures of the woods count too", r.Parts[k].ID, rh)
			assert.Less(t, s.ToDriest.Low, -want[i])
			assert.Greater(t, s.ToDriest.High, -want[i])
			assert.InDelta(t, 0, s.ToWettest.Value, 1e-9)
		}
		// 0.00148 and 0.00353 per point, as printed
		assert.InEpsilon(t, 0.148, r.Parts[0].PerPoint.Radial.Value, 0.05)
		assert.InEpsilon(t, 0.353, r.Parts[1].PerPoint.Tangential.Value, 0.05)
		assert.InDelta(t, 4*r.Parts[0].PerPoint.Radial.Value, r.Parts[0].Sizes[1].PerPoint.Value, 1e-9)
	}
}

// The clearance of a pair by hand: both parts of one wood and one share of play,
// so the middle is that of the limits, and the greatest less the least is the
// play less the spread of the two.
func TestClearanceOverHTTP(t *testing.T) {
	r := asking.InFull[year.AssemblyMovementResult](t, "/v1/assembly-movement", `{"build_condition": {"mc_pct": 8}, "driest_condition": {"mc_pct": 6}, "wettest_condition": {"mc_pct": 10},
		"parts": [{"id": "groove", "wood": "walnut-black", "thickness": "20 mm", "length": "600 mm", "rings": {"angle_deg": 90}}, {"id": "panel", "wood": "maple-sugar", "thickness": "8 mm", "width": "300 mm", "rings": {"angle_deg": 0}}],
		"pairs": [{"id": "panel", "outer": {"part": "groove", "dimension": "length", "size": "300 mm"}, "inner": {"part": "panel", "dimension": "width"}, "max_clearance": "10 mm"}]}`).Result
	p := r.Pairs[0]
	require.True(t, p.Feasible)
	// the panel moves 300 x 0.00353 x 2 = 2.118 mm each way; the groove along the
	// grain 300 x 0.0015/30 x 2 = 0.03
	assert.InDelta(t, 2.118-0.03, p.ToDriest.Value, 0.08)
	assert.InDelta(t, -2.118+0.03, p.ToWettest.Value, 0.08)
	assert.InDelta(t, -p.ToWettest.Low, p.AtBuild.Min.Value, 1e-9)
	assert.InDelta(t, 10-p.ToDriest.High, p.AtBuild.Max.Value, 1e-9)
	assert.InDelta(t, p.AtBuild.Min.Value+0.2, p.AtBuild.Usual.Value, 1e-9, "a little for the bench")
	// 15 % of 2.118 for the piece and 12 % for the form, both at 90 %
	assert.InEpsilon(t, 1.645*math.Hypot(0.15, 0.12)*2.118, p.ToDriest.High-p.ToDriest.Value, 0.15)
	assert.Contains(t, p.Detail, "dry season")
}

// The finish counts by its own resistance, on one face or both; a record and a
// weekly swing are told by the day.
func TestFinishAndRoomsOverHTTP(t *testing.T) {
	year := func(room, finish string) year.PartThroughYear {
		return asking.InFull[year.YearInServiceResult](t, "/v1/year-in-service", `{"room": {`+room+`}, "build_condition": {"mc_pct": 8, "mc_sd_points": 0.5}, "parts": [{"id": "plate", "wood": "spruce-sitka", "thickness": "10 mm", "rings": {"angle_deg": 90}`+finish+`}]}`).Result.Parts[0]
	}
	const room = `"station": "madison-wi", "heated_to": "20 C"`
	bare, one, both := year(room, ""), year(room, `, "finish": {"outside": "shellac", "inside": "bare"}`), year(room, `, "finish": {"outside": "shellac"}`)
	assert.Greater(t, bare.Swing, one.Swing)
	assert.Greater(t, one.Swing, both.Swing)
	assert.Less(t, bare.TimeConstant, one.TimeConstant)
	own := year(room, `, "finish": {"outside": {"resistance_s_per_m": 40000}}`)
	assert.InDelta(t, both.Swing, own.Swing, 1e-9, "the figure of the table, as the caller's own")
	assert.InDelta(t, 40000, own.Inside.Resistance.Value, 1e-9)
	assert.Less(t, both.Outside.Resistance.Low, own.Outside.Resistance.Low, "and known more closely")
	for _, same := range []string{`, "finish": "shellac"`, `, "finish": {"outside": "shellac", "inside": "shellac"}`} {
		assert.Equal(t, both, year(room, same), same)
	}
	assert.Equal(t, own, year(room, `, "finish": {"resistance_s_per_m": 40000}`))
	assert.Len(t, bare.Series, 74)
	weekly := year(room+`, "weekly_rh_swing_points": 6`, "")
	assert.Len(t, weekly.Series, 366)
	assert.Greater(t, weekly.Swing, bare.Swing)
	kept := year(room+`, "min_rh_pct": 40, "max_rh_pct": 50`, "")
	assert.Less(t, kept.Swing, bare.Swing/2)

	record := year(`"log_csv": "time,temperature_c,rh_pct\n2025-01-01,20,30\n2025-02-10,20,45\n2025-03-01,20,40\n"`, "")
	assert.Len(t, record.Series, 60)
	assert.Equal(t, "2025-01-01", record.Series[0].Date)
	assert.Equal(t, "2025-03-01", record.Series[59].Date)
	assert.Regexp(t, `^2025-0[12]-\d\d$`, record.Wettest.Date)
}

const instrument = "../../../testdata/demo/instrument/octave-mandolin.json"

// The demo instrument: one request for the figures of the whole, and its year.
func TestDemoInstrument(t *testing.T) {
	body, err := os.ReadFile(instrument)
	require.NoError(t, err)
	r := asking.InFull[year.AssemblyMovementResult](t, "/v1/assembly-movement", string(body)).Result
	assert.Equal(t, "the thickness of bridge moves most: 2.5 % between driest and wettest; the pair can keep its limits; of 4 glued joints back on the ribs, across bears most, 51 % of what wood begins to fail at", r.Summary)
	require.Len(t, r.Parts, 11)
	top := r.Parts[1]
	require.Equal(t, "top, whole", top.Name)
	// 7.0 points of 0.00148 on 356 mm
	assert.InDelta(t, 7.0, top.Wettest.MC.Value-top.Driest.MC.Value, 0.1)
	assert.InEpsilon(t, 7.0*0.00148*356, top.Sizes[1].Swing.Value, 0.05)
	assert.Equal(t, "pear, figures from memory", r.Parts[8].Wood.Common)
	assert.InDelta(t, r.Pairs[0].AtBuild.Min.Value+0.2, r.Pairs[0].AtBuild.Usual.Value, 1e-9, "loose: a clearance")
	// glued: no clearance, but what the parts hold each other from; the top is held across by
	// ribs that run along their grain
	require.Len(t, r.Glued, 4)
	tenon, onRibs := r.Glued[0], r.Glued[1]
	assert.Equal(t, "heel-tenon-in-the-neck-block", tenon.ID)
	assert.InDelta(t, 60, tenon.Size.Value, 1e-9)
	assert.InDelta(t, r.Parts[6].Sizes[1].ToWettest.Value-60.0/75*r.Parts[7].Sizes[1].ToWettest.Value, tenon.ToWettest.Value, 1e-9)
	assert.Equal(t, "low", tenon.Risk)
	assert.InDelta(t, top.Sizes[1].ToDriest.Value-356.0/620*r.Parts[3].Sizes[2].ToDriest.Value, onRibs.ToDriest.Value, 1e-9)
	assert.InDelta(t, 100*math.Max(-onRibs.StrainToDriest.Value, onRibs.StrainToWettest.Value)/1.5, onRibs.Share.Value, 1e-9)
	assert.Equal(t, "moderate", onRibs.Risk)

	var instrumentBody map[string]any
	require.NoError(t, json.Unmarshal(body, &instrumentBody))
	delete(instrumentBody, "pairs")
	delete(instrumentBody, "glued_joints")
	text, err := json.Marshal(instrumentBody)
	require.NoError(t, err)
	year := asking.InFull[year.YearInServiceResult](t, "/v1/year-in-service", string(text)).Result
	assert.Regexp(t, `^.+ is driest about \d+ January at 5\.2 % and wettest about \d+ September at 12\.4 %, the widest swing of 11 parts; build at about 4[678] % RH`, year.Summary)
	for i, p := range year.Parts {
		assert.InDelta(t, p.Driest.Mean.Value, r.Parts[i].Driest.MC.Value, 1e-9, "both routes tell of the same year")
		assert.Equal(t, p.Wettest.DayOfYear, r.Parts[i].Wettest.DayOfYear)
	}
}

// Drawings are whole XML with a title; tables have a row for each thing and the
// columns that were promised.
func TestFormsInService(t *testing.T) {
	body, err := os.ReadFile(instrument)
	require.NoError(t, err)
	var request map[string]any
	require.NoError(t, json.Unmarshal(body, &request))
	whole := asking.Posting("/v1/assembly-movement?as=csv", string(body)).Of(t, asking.SharedService())
	require.Equal(t, http.StatusOK, whole.Code)
	assert.Equal(t, "text/csv; charset=utf-8", whole.Header().Get("Content-Type"))
	rows, err := csv.NewReader(whole.Body).ReadAll()
	require.NoError(t, err)
	assert.Equal(t, year.PartsHeader, strings.Join(rows[0], ","))
	assert.Len(t, rows, 1+31)
	for _, row := range rows[1:] {
		driest, wettest, swing := asking.NumberIn(t, row[5]), asking.NumberIn(t, row[8]), asking.NumberIn(t, row[11])
		assert.Less(t, driest, wettest)
		assert.InDelta(t, wettest-driest, swing, 0.02*swing, "each is rounded to its own band")
		assert.Regexp(t, `^--[0-9]{2}-[0-9]{2}$`, row[19], "a room that repeats tells the day of a year")
		assert.Empty(t, row[20])
	}
	second := asking.Posting("/v1/assembly-movement?as=pairs_csv", string(body)).Of(t, asking.SharedService())
	rows, err = csv.NewReader(second.Body).ReadAll()
	require.NoError(t, err)
	assert.Equal(t, year.PairsHeader, strings.Join(rows[0], ","))
	require.Len(t, rows, 1+5)
	assert.Equal(t, []string{"0", "true", "loose", ""}, rows[1][12:])
	for _, row := range rows[2:] {
		assert.Equal(t, []string{"", "", "", "", "", "glued"}, row[9:15], "what is glued has no clearance")
		assert.Contains(t, []string{"low", "moderate"}, row[15])
	}

	delete(request, "pairs")
	delete(request, "glued_joints")
	yearBody, err := json.Marshal(request)
	require.NoError(t, err)
	table := asking.Posting("/v1/year-in-service?as=csv", string(yearBody)).Of(t, asking.SharedService())
	rows, err = csv.NewReader(table.Body).ReadAll()
	require.NoError(t, err)
	assert.Len(t, rows, 1+11*74)
	for _, ask := range []asking.Asked{asking.Posting("/v1/assembly-movement?as=svg", string(body)), asking.Posting("/v1/year-in-service?as=svg", string(yearBody))} {
		r := ask.Of(t, asking.SharedService())
		require.Equal(t, http.StatusOK, r.Code, r.Body.String())
		text := r.Body.String()
		decoder, texts := xml.NewDecoder(strings.NewReader(text)), 0
		for {
			token, err := decoder.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			require.NoError(t, err)
			if start, is := token.(xml.StartElement); is && start.Name.Local == "text" {
				texts++
			}
		}
		assert.Greater(t, texts, 40)
		assert.Contains(t, text, "<title")
		assert.Contains(t, text, "<desc")
		assert.NotContains(t, text, "NaN")
		assert.NotRegexp(t, `#(?:[0-9a-f]{6})`, text, "no colours")
	}
}

// The sheet of twelve parts with two dimensions each and six pairs fits on A4.
func TestSheetOfTwelvePartsFitsA4(t *testing.T) {
	r := asking.Posting("/v1/assembly-movement?as=svg", assemblyOf(12, 6)).Of(t, asking.SharedService())
	require.Equal(t, http.StatusOK, r.Code, r.Body.String())
	root := asking.Drawn(t, r.Body.String())
	assert.Equal(t, "210mm", root.Attr("width"))
	assert.LessOrEqual(t, asking.NumberIn(t, strings.TrimSuffix(root.Attr("height"), "mm")), 297.0)
}

// The ETag tells whether the figures are still those: the same for the same
// request, another when a figure changes or the form does.
func TestFiguresCarryAnETag(t *testing.T) {
	tag := func(target, body string) string {
		r := asking.Posting(target, body).Of(t, asking.SharedService())
		require.Equal(t, http.StatusOK, r.Code, r.Body.String())
		return r.Header().Get("ETag")
	}
	first := tag("/v1/assembly-movement", assemblyOf(3, 1))
	assert.Regexp(t, `^"[0-9a-f]{24}"$`, first)
	assert.Equal(t, first, tag("/v1/assembly-movement", assemblyOf(3, 1)))
	assert.NotEqual(t, first, tag("/v1/assembly-movement", strings.Replace(assemblyOf(3, 1), `"rh_pct": 45`, `"rh_pct": 46`, 1)))
	assert.NotEqual(t, first, tag("/v1/assembly-movement?as=csv", assemblyOf(3, 1)))
	r := asking.Posting("/v1/assembly-movement", assemblyOf(3, 1), "If-None-Match", first).Of(t, asking.SharedService())
	p := asking.ProblemOf(t, r, http.StatusPreconditionFailed)
	assert.Contains(t, p.Detail, first)
	r = asking.Posting("/v1/assembly-movement", assemblyOf(3, 2), "If-None-Match", first).Of(t, asking.SharedService())
	assert.Equal(t, http.StatusOK, r.Code, "another answer")
	assert.NotEqual(t, first, r.Header().Get("ETag"))
	assert.Empty(t, asking.Posting("/v1/emc", `{"air": {"temperature": "20 C", "rh_pct": 50}}`).Of(t, asking.SharedService()).Header().Get("ETag"))
}

// assemblyOf is a request for figures with so many parts and pairs.
func assemblyOf(parts, pairs int) string {
	woods := []string{"spruce-sitka", "walnut-black", "cherry-black", "maple-sugar", "mahogany-true"}
	var b strings.Builder
	b.WriteString(`{"room": {"station": "madison-wi", "heated_to": "20 C", "added_vapour": "3 hPa"}, "build_condition": {"air": {"temperature": "20 C", "rh_pct": 45}}, "parts": [`)
	for i := range parts {
		if i > 0 {
			b.WriteString(",")
		}
		finish := []string{`"outside": "varnish", "inside": "bare"`, `"outside": "oil"`, `"outside": "bare"`}[i%3]
		b.WriteString(`{"id": "part-` + strconv.Itoa(i) + `", "wood": "` + woods[i%len(woods)] + `", "thickness": "` + strconv.Itoa(3+3*(i%9)) + ` mm", "width": "` + strconv.Itoa(40+10*i) + ` mm", "rings": {"angle_deg": 80}, "finish": {` + finish + `}}`)
	}
	b.WriteString(`], "pairs": [`)
	for i := range pairs {
		if i > 0 {
			b.WriteString(",")
		}
		b.WriteString(`{"id": "pair-` + strconv.Itoa(i) + `", "outer": {"part": "part-0", "dimension": "width"}, "inner": {"part": "part-` + strconv.Itoa(1+i%(parts-1)) + `", "dimension": "width", "size": "40 mm"}, "max_clearance": "5 mm"}`)
	}
	b.WriteString(`]}`)
	return b.String()
}

// BenchmarkInService is the year of four parts. Limit: 10 ms.
func BenchmarkInService(b *testing.B) {
	body, err := fs.ReadFile(asking.ExampleFiles(), "year-in-service.octave-mandolin-in-a-heated-room.json")
	require.NoError(b, err)
	s, err := api.New(serve.Config{Version: "bench"})
	require.NoError(b, err)
	asking.Post(b, s, "/v1/year-in-service", body)
}

// BenchmarkMovementFigures is an assembly of 30 parts with 30 pairs in a room.
// Limit: 60 ms.
func BenchmarkMovementFigures(b *testing.B) {
	s, err := api.New(serve.Config{Version: "bench"})
	require.NoError(b, err)
	asking.Post(b, s, "/v1/assembly-movement", []byte(assemblyOf(30, 30)))
}

// A room of one air is one of two seasons that are alike.
func TestRoomOfOneAir(t *testing.T) {
	of := func(room string) year.YearInServiceResult {
		return asking.InFull[year.YearInServiceResult](t, "/v1/year-in-service", `{"room": {`+room+`}, "build_condition": {"mc_pct": 8}, "parts": [{"wood": "spruce-sitka", "thickness": "3 mm", "rings": {"angle_deg": 80}}]}`).Result
	}
	one, two := of(`"air": {"temperature": "21 C", "rh_pct": 48}`), of(`"seasons": {"winter_air": {"temperature": "21 C", "rh_pct": 48}, "summer_air": {"temperature": "21 C", "rh_pct": 48}}`)
	assert.Equal(t, two.Parts, one.Parts)
	assert.Equal(t, "room that keeps its air", one.Room.Name)
	assert.Equal(t, "1", one.Parts[0].ID)
	assert.Contains(t, one.Summary, "part 1 is driest")
}

// What has no bearing on the figures is named; what a year rests on has where one is run.
func TestWhatHasNoBearingOnFigures(t *testing.T) {
	const part = `{"id": "a", "wood": {"species": "teak", "name": "deck", "specific_gravity": 0.6}, "thickness": "3 mm", "finish": "oil", "restrained": true}`
	unused := func(path, rest string) (all []string) {
		for _, w := range asking.InFull[json.RawMessage](t, path, `{"parts": [`+part+`], "build_condition": {"mc_pct": 8}, `+rest+`}`).Warnings {
			if w.Code == method.NotUsed {
				all = append(all, strings.TrimSuffix(w.Detail, " has no bearing on this answer"))
			}
		}
		return all
	}
	const room = `"room": {"station": "madison-wi", "heated_to": "20 C"}`
	assert.Equal(t, []string{"parts.wood.specific_gravity", "parts.finish", "parts.restrained"}, unused("/v1/assembly-movement", `"driest_condition": {"mc_pct": 6}, "wettest_condition": {"mc_pct": 9}`))
	assert.Equal(t, []string{"parts.restrained"}, unused("/v1/assembly-movement", room))
	assert.Empty(t, unused("/v1/year-in-service", room))
}
